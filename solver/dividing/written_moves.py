"""Reading a crank move as the bench writes it."""

from __future__ import annotations

from solver.dividing.moves import CrankMove
from solver.quantities.figure_reader import FigureReader

MOVE_HELP = "Write for example '9 on 21', '1 turn + 9 on 21' or '5 turns'."
#: Words that may stand between the figures and say nothing new.
_FILLERS = ("space", "spaces", "hole", "holes", "and")


def read_move(text: str) -> CrankMove:
    """Read a move such as ``9 on 21``, ``1 turn + 9 on 21`` or ``5 turns``.

    Parameters
    ----------
    text : str
        Whole turns, spaces, circle. The number before ``on`` counts spaces.

    Returns
    -------
    CrankMove
        As written.

    Raises
    ------
    UnreadableFigureError
        With a marker under the character that stands in the way.

    Examples
    --------
    >>> read_move("1 turn + 9 on 21")
    CrankMove(turns=1, spaces=9, circle=21, sign=1)
    """
    reader = FigureReader(text)
    turns = 0
    figure_at = reader.at
    figure = _count(reader)
    word = _word(reader)
    if word in ("turn", "turns"):
        turns = figure
        reader.skip_spaces()
        if reader.peek() == "+":
            reader.at += 1
        word = _word(reader)
        if reader.is_done() and word == "":
            if turns == 0:
                raise reader.refuse("no turns at all divide nothing", at=figure_at, help_text=MOVE_HELP)
            return CrankMove(turns, 0, None)
        figure_at = reader.at
        figure = _count(reader)
        word = _word(reader)
    if word != "on":
        raise reader.refuse("'on' and the circle were expected here", help_text=MOVE_HELP)
    reader.skip_spaces()
    circle_at = reader.at
    circle = _count(reader)
    if not 2 <= circle <= 10_000:
        raise reader.refuse("a circle has 2 to 10000 holes", at=circle_at)
    _word(reader)
    reader.finish()
    if turns + figure == 0:
        raise reader.refuse("a move of nothing divides nothing", at=figure_at, help_text=MOVE_HELP)
    return CrankMove(turns, figure, circle)


def _count(reader: FigureReader) -> int:
    reader.skip_spaces()
    if not reader.starts_number():
        raise reader.refuse("a whole number was expected here", help_text=MOVE_HELP)
    return reader.whole()


def _word(reader: FigureReader) -> str:
    word = reader.word().lower()
    while word in _FILLERS:
        word = reader.word().lower()
    return word
