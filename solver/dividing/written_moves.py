"""Reading a crank move as the bench writes it."""

from __future__ import annotations

from solver.dividing.moves import CrankMove
from solver.quantities.figure_reader import FigureReader

MOVE_HELP = "Write for example '9 on 21', '1 turn + 9 on 21', '5 turns', or on two circles '10 on 15 + 2 on 17'."
#: Which way the second motion goes.
_SIGNS = {"+": 1, "-": -1, "\N{MINUS SIGN}": -1, "\N{EN DASH}": -1}
#: Words that may stand between the figures and say nothing new.
_FILLERS = ("space", "spaces", "hole", "holes", "and")


def read_moves(text: str) -> tuple[CrankMove, ...]:
    """Read one move, or the two motions of compound work such as ``21 on 23 - 11 on 33``.

    Parameters
    ----------
    text : str
        The first motion as `read_move` takes it; then a plus or a minus and spaces on the other circle. A stroke, or
        ``in``, may stand for ``on``, and a bare number before a plus counts turns.

    Returns
    -------
    tuple of CrankMove
        One or two, as written; the second may go backwards.

    Raises
    ------
    UnreadableFigureError
        With a marker under the character that stands in the way.

    Examples
    --------
    >>> read_moves("1 turn + 7 on 39 + 29 on 41")
    (CrankMove(turns=1, spaces=7, circle=39, sign=1), CrankMove(turns=0, spaces=29, circle=41, sign=1))
    >>> read_moves("1 + 3/27") == read_moves("1 turn + 3 holes in 27")
    True
    >>> read_moves("21/23 - 11/33")[1]
    CrankMove(turns=0, spaces=11, circle=33, sign=-1)
    """
    reader = FigureReader(text, MOVE_HELP)
    first = _first(reader)
    reader.skip_spaces()
    if reader.is_done():
        return (first,)
    if reader.peek() not in _SIGNS:
        raise reader.refuse("a plus or a minus and the second circle were expected here")
    sign = _SIGNS[reader.peek()]
    reader.at += 1
    at = reader.at
    spaces = _count(reader)
    if _word(reader) != "on":
        raise reader.refuse("'on' and the second circle were expected here")
    circle = _circle(reader)
    reader.finish()
    if spaces == 0:
        raise reader.refuse("a second motion of nothing is no motion", at=at)
    return first, CrankMove(0, spaces, circle, sign)


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
    reader = FigureReader(text, MOVE_HELP)
    move = _first(reader)
    reader.finish()
    return move


def _first(reader: FigureReader) -> CrankMove:
    turns = 0
    figure_at = reader.at
    figure = _count(reader)
    word = _word(reader)
    is_bare_sum = word == "" and reader.peek() == "+"
    if word in ("turn", "turns") or is_bare_sum:
        turns = figure
        reader.skip_spaces()
        if reader.peek() == "+":
            reader.at += 1
        word = _word(reader)
        if reader.is_done() and word == "" and not is_bare_sum:
            if turns == 0:
                raise reader.refuse("no turns at all divide nothing", at=figure_at)
            return CrankMove(turns, 0, None)
        figure_at = reader.at
        figure = _count(reader)
        word = _word(reader)
    if word != "on":
        raise reader.refuse("'on' and the circle were expected here")
    circle = _circle(reader)
    if turns + figure == 0:
        raise reader.refuse("a move of nothing divides nothing", at=figure_at)
    return CrankMove(turns, figure, circle)


def _circle(reader: FigureReader) -> int:
    reader.skip_spaces()
    circle_at = reader.at
    circle = _count(reader)
    if not 2 <= circle <= 10_000:
        raise reader.refuse("a circle has 2 to 10000 holes", at=circle_at)
    reader.skip_spaces()
    at = reader.at
    if _word(reader):
        raise reader.refuse("this does not belong to a move", at=at)
    return circle


def _count(reader: FigureReader) -> int:
    reader.skip_spaces()
    if not reader.starts_number():
        raise reader.refuse("a whole number was expected here")
    return reader.whole()


def _word(reader: FigureReader) -> str:
    word = reader.word().lower()
    while word in _FILLERS:
        word = reader.word().lower()
    if not word:
        reader.skip_spaces()
        if reader.peek() == "/":
            reader.at += 1
            return "on"
    return "on" if word == "in" else word
