"""Reading a wanted ratio as a person writes it: a decimal, a quotient, or a train of quotients."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.figure_reader import FigureReader

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
        For example ``29.530589``, ``12/365.2422``, ``1:12`` or ``64/38 x 48/24 x 127/32``.

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
        sign = reader.peek()
        if sign not in (*_TIMES, *_OVER):
            break
        reader.at += 1
        reader.skip_spaces()
        figure = _figure(reader)
        ratio = ratio * figure.value if sign in _TIMES else ratio / figure.value
        give += figure.give
    reader.skip_spaces()
    if reader.peek() in (*_TIMES, *_OVER):
        raise reader.refuse(f"a ratio has {MOST_FIGURES} figures at the most")
    if not reader.is_done():
        raise reader.refuse("a ratio ends before this")
    return WrittenRatio(ratio, give)


def _figure(reader: FigureReader) -> WrittenFigure:
    at = reader.at
    if not reader.starts_number() and reader.peek() not in ("-", "\N{MINUS SIGN}"):
        raise reader.refuse("a figure was expected here")
    figure = written_decimal(reader)
    if figure.value == 0:
        raise reader.refuse("a ratio is above zero, and nothing is divided by zero", at=at)
    return figure
