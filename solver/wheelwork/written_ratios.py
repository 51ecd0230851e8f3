"""Reading a wanted ratio as a person writes it: a decimal, a quotient, or a train of quotients."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.figure_reader import FigureReader

#: Most figures joined in one ratio: a train of eight pairs.
MOST_FIGURES = 16

_TIMES = ("x", "X", "×", "*")
_OVER = ("/", ":")
RATIO_HELP = "Write turns of the last arbor for one of the first: 1/12, 12/365.2422, 29.530589 or 64/38 x 48/24."


def read_turning_ratio(text: str) -> Fraction:
    """Read a ratio: figures joined by ``/`` or ``:`` and by ``x``, taken from left to right.

    Parameters
    ----------
    text : str
        For example ``29.530589``, ``12/365.2422``, ``1:12`` or ``64/38 x 48/24 x 127/32``.

    Returns
    -------
    Fraction
        Exact, above zero.

    Raises
    ------
    UnreadableFigureError
        A sign, a zero, a unit, or more than 16 figures; with a marker.

    Examples
    --------
    >>> read_turning_ratio("12/365.2422"), read_turning_ratio("64/38 x 48/24 x 127/32")
    (Fraction(20000, 608737), Fraction(254, 19))
    """
    reader = FigureReader(text)
    if reader.peek() in ("-", "\N{MINUS SIGN}"):
        raise reader.refuse(
            "a ratio has no sign",
            help_text="Leave it out, and say which way the last arbor turns with --sense same or --sense opposite.",
        )
    ratio = _figure(reader)
    for _ in range(MOST_FIGURES - 1):
        reader.skip_spaces()
        sign = reader.peek()
        if sign not in (*_TIMES, *_OVER) or reader.is_done():
            break
        reader.at += 1
        reader.skip_spaces()
        figure = _figure(reader)
        ratio = ratio * figure if sign in _TIMES else ratio / figure
    reader.skip_spaces()
    if not reader.is_done():
        raise reader.refuse("a ratio ends before this", help_text=RATIO_HELP)
    return ratio


def _figure(reader: FigureReader) -> Fraction:
    at = reader.at
    if not reader.starts_number() and reader.peek() not in ("-", "\N{MINUS SIGN}"):
        raise reader.refuse("a figure was expected here", help_text=RATIO_HELP)
    figure = reader.decimal()
    if figure == 0:
        raise reader.refuse("a ratio is above zero, and nothing is divided by zero", at=at, help_text=RATIO_HELP)
    return figure
