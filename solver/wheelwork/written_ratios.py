"""Reading a wanted ratio as a person writes it: a decimal, a quotient, or a train of quotients."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.figure_reader import FigureReader
from solver.quantities.pi_multiples import PI_HIGH, PI_LOW
from solver.quantities.pitch_words import starts_with_pi

#: Most figures joined in one ratio: a train of eight pairs.
MOST_FIGURES = 16

_TIMES = ("x", "X", "×", "*")
_OVER = ("/", ":")
RATIO_HELP = "Write turns of the last arbor for one of the first: 1/12, 12/365.2422, 29.530589 or 64/38 x 48/24."


class WrittenFigure(NamedTuple):
    """A figure and half a unit of its last written place; whole numbers count as exact."""

    value: Fraction
    half_unit: Fraction

    @property
    def give(self) -> Fraction:
        """Half a unit of the last place, as a part of the figure.

        Examples
        --------
        >>> WrittenFigure(Fraction(5, 2), Fraction(1, 20)).give
        Fraction(1, 50)
        """
        return self.half_unit / self.value


def written_decimal(reader: FigureReader) -> WrittenFigure:
    """Read a plain figure, and how fine it is written.

    Examples
    --------
    >>> written_decimal(FigureReader("29.53 days")), written_decimal(FigureReader("12 h")).half_unit
    (WrittenFigure(value=Fraction(2953, 100), half_unit=Fraction(1, 200)), Fraction(0, 1))
    """
    start = reader.at
    value = reader.decimal()
    _, point, places = reader.text[start : reader.at].partition(".")
    return WrittenFigure(value, Fraction(1, 2 * 10 ** len(places)) if point else Fraction(0))


class WrittenRatio(NamedTuple):
    """A ratio, and how far it may be off by the last places of its figures, as a part of it."""

    ratio: Fraction
    give: Fraction


def read_turning_ratio(text: str) -> WrittenRatio:
    """Read a ratio: figures joined by ``/`` or ``:`` and by ``x``, taken from left to right.

    Parameters
    ----------
    text : str
        For example ``29.530589``, ``29 1/2``, ``12/365.2422``, ``1:12``, ``1 to 12``, ``pi`` or
        ``64/38 x 48/24 x 127/32``.

    Returns
    -------
    WrittenRatio
        The ratio exactly, above zero, and its give.

    Raises
    ------
    UnreadableFigureError
        A sign, a zero, a unit, or more than 16 figures; with a marker.

    Examples
    --------
    >>> read_turning_ratio("12/365.2422").ratio, read_turning_ratio("64/38 x 48/24 x 127/32")
    (Fraction(20000, 608737), WrittenRatio(ratio=Fraction(254, 19), give=Fraction(0, 1)))
    """
    reader = FigureReader(text, RATIO_HELP)
    if reader.peek() in ("-", "\N{MINUS SIGN}"):
        raise reader.refuse(
            "a ratio has no sign",
            help_text="Leave it out, and say which way the last arbor turns with --sense same or --sense opposite.",
        )
    first = _figure(reader)
    ratio, give = first.value, first.give
    for _ in range(MOST_FIGURES - 1):
        reader.skip_spaces()
        sign = _sign(reader)
        if sign not in (*_TIMES, *_OVER):
            break
        reader.skip_spaces()
        # Behind a stroke a fraction would be the next pair of a train.
        figure = _figure(reader, may_be_mixed=sign != "/")
        ratio = ratio * figure.value if sign in _TIMES else ratio / figure.value
        give += figure.give
    reader.skip_spaces()
    if reader.peek() in (*_TIMES, *_OVER):
        raise reader.refuse(f"a ratio has {MOST_FIGURES} figures at the most")
    if not reader.is_done():
        raise reader.refuse("a ratio ends before this")
    return WrittenRatio(ratio, give)


def _sign(reader: FigureReader) -> str:
    """Pass what joins two figures and return it, ``to`` as a colon; empty where nothing does."""
    sign = reader.peek()
    if sign in (*_TIMES, *_OVER):
        reader.at += 1
        return sign
    kept = reader.at
    if reader.word().lower() == "to":
        return ":"
    reader.at = kept
    return ""


def _figure(reader: FigureReader, *, may_be_mixed: bool = True) -> WrittenFigure:
    at = reader.at
    if starts_with_pi(reader):
        # Between two fractions 1e-80 apart; the half unit is the half of that.
        return WrittenFigure((PI_LOW + PI_HIGH) / 2, (PI_HIGH - PI_LOW) / 2)
    if not reader.starts_number() and reader.peek() not in ("-", "\N{MINUS SIGN}"):
        raise reader.refuse("a figure was expected here")
    figure = written_decimal(reader)
    if may_be_mixed:
        figure = _mixed(reader, figure)
    if figure.value == 0:
        raise reader.refuse("a ratio is above zero, and nothing is divided by zero", at=at)
    return figure


def _mixed(reader: FigureReader, figure: WrittenFigure) -> WrittenFigure:
    """Add the ``1/2`` of ``29 1/2`` to a whole number; leave the cursor alone where no such fraction stands."""
    kept = reader.at
    reader.skip_spaces()
    if reader.at > kept and figure.half_unit == 0 and reader.starts_number():
        part = reader.number()
        if 0 < part < 1 and "/" in reader.text[kept : reader.at]:
            return WrittenFigure(figure.value + part, Fraction(0))
    reader.at = kept
    return figure
