"""Reading how much warmer, or colder, a thing is."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.figure_reader import FigureReader

#: More than this is no warmth of a workshop. [K]
MOST_KELVINS = 100
_HELP = "Write for example 5 K, or -3 K where it is colder; a difference of 5 °C is 5 K, one of 9 °F too."


def read_kelvins(text: str) -> Fraction:
    """Read a difference of temperature in kelvin, with its sign.

    Parameters
    ----------
    text : str
        For example ``5 K`` or ``-3 K``.

    Raises
    ------
    UnreadableFigureError
        No figure, another unit, nothing, or more than a workshop is ever warmer or colder.

    Examples
    --------
    >>> read_kelvins("5 K"), read_kelvins("-2.5K"), read_kelvins("+1/2 kelvin")
    (Fraction(5, 1), Fraction(-5, 2), Fraction(1, 2))
    """
    reader = FigureReader(text, _HELP)
    sign = -1 if reader.peek() in ("-", "\N{MINUS SIGN}") else 1
    if sign < 0 or reader.peek() == "+":
        reader.at += 1
    figure = reader.number()
    at = reader.at
    # A small k is a thousand of something, and not a kelvin.
    if reader.word() not in ("K", "kelvin", "kelvins"):
        raise reader.refuse("a difference of temperature is in kelvin", at=at)
    reader.finish()
    if figure == 0:
        raise reader.refuse("nothing is neither warmer nor colder", at=0)
    if figure > MOST_KELVINS:
        raise reader.refuse(f"a screw is not used {MOST_KELVINS} K warmer or colder than it is told at", at=0)
    return sign * figure
