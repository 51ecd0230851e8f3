"""Figures of a thread as the bench reads them: both units, the unit of the set-up first, rounded once."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial

from solver.quantities.angles import Angle
from solver.quantities.exact_numbers import decimal_text, significant_text, trimmed_decimal_text
from solver.quantities.lengths import Length

#: Decimals of a figure that is set or measured. [decimal places]
MM_PLACES, INCH_PLACES = 3, 4

#: Writes a length in both units.
Say = Callable[[Length], str]


def both(length: Length, *, in_inches: bool) -> str:
    """Write a length in both units, the unit of the set-up first.

    Examples
    --------
    >>> both(Length.of_mm("0.92015"), in_inches=False), both(Length.of_inches("0.05"), in_inches=True)
    ('0.920 mm (0.0362 in)', '0.0500 in (1.270 mm)')
    >>> both(Length.of_mm("0.0009"), in_inches=False)
    '0.001 mm (0.00004 in)'
    """
    mm, inches = f"{_shown(length.mm, MM_PLACES)} mm", f"{_shown(length.inches, INCH_PLACES)} in"
    return f"{inches} ({mm})" if in_inches else f"{mm} ({inches})"


def _shown(value: Fraction, places: int) -> str:
    """Write a decimal of so many places; one that would come out as nothing, and is not, by its first digit."""
    text = decimal_text(value, places)
    return significant_text(value, 1) if value and not text.strip("0.-") else text


def saying(*, in_inches: bool) -> Say:
    """Return the writer of lengths for one set-up.

    Examples
    --------
    >>> saying(in_inches=True)(Length.of_inches("1/8"))
    '0.1250 in (3.175 mm)'
    """
    return partial(both, in_inches=in_inches)


def finely(length: Length, *, in_inches: bool) -> str:
    """Write a length in one unit, with a decimal more than is set: for telling two formulas apart.

    Examples
    --------
    >>> finely(Length.of_mm("10.32469"), in_inches=False)
    '10.3247 mm'
    """
    if in_inches:
        return f"{decimal_text(length.inches, INCH_PLACES + 1)} in"
    return f"{decimal_text(length.mm, MM_PLACES + 1)} mm"


def wire_text(wire: Length, *, in_inches: bool) -> str:
    """Write the diameter of a wire in one unit, as it is marked.

    Examples
    --------
    >>> wire_text(Length.of_mm("0.8660"), in_inches=False)
    '0.866 mm'
    """
    return f"{trimmed_decimal_text(wire.inches, 5)} in" if in_inches else f"{trimmed_decimal_text(wire.mm, 4)} mm"


def columns(length: Length) -> tuple[str, str]:
    """Write a length for two columns of a table, mm and inch.

    Examples
    --------
    >>> columns(Length.of_mm(10))
    ('10.000', '0.3937')
    """
    return decimal_text(length.mm, MM_PLACES), decimal_text(length.inches, INCH_PLACES)


def degrees_text(angle: Angle, places: int = 2) -> str:
    """Write an angle in degrees.

    Examples
    --------
    >>> degrees_text(Angle.of_degrees("29.5")), degrees_text(Angle.of_degrees("3.0282"))
    ('29.5°', '3.03°')
    """
    return f"{trimmed_decimal_text(angle.degrees, places)}°"


def percent_text(part: Fraction) -> str:
    """Write a part of a thread.

    Examples
    --------
    >>> percent_text(Fraction(3, 4))
    '75 %'
    """
    return f"{trimmed_decimal_text(part * 100, 1)} %"


def dial_text(length: Length, step: Length, *, in_inches: bool) -> str:
    """Write a reading of a dial with the decimals its steps need, in one unit and without it.

    Examples
    --------
    >>> dial_text(Length.of_mm("0.5"), Length.of_mm("0.01"), in_inches=False)
    '0.50'
    """
    value, least = (length.inches, step.inches) if in_inches else (length.mm, step.mm)
    places = next(each for each in range(12) if (least * 10**each).denominator == 1)
    return decimal_text(value, places)
