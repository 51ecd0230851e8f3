"""Lengths as the bench reads them: mm to three decimals, inch to four, rounded once to the nearest or to one side.

A bound is rounded to its own side, so that the figure that is shown keeps the bound it stands for.
"""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from math import ceil, floor

from solver.quantities.exact_numbers import decimal_text, order_of_magnitude, round_half_even, significant_text
from solver.quantities.lengths import Length

#: Decimals of a figure that is set or measured.
MM_PLACES, INCH_PLACES = 3, 4


class Rounding(Enum):
    """To the nearest, or to the side that a bound allows."""

    NEAREST = "nearest"
    UP = "up"
    DOWN = "down"


def shown_decimal(value: Fraction, places: int, rounding: Rounding = Rounding.NEAREST) -> str:
    """Write a decimal, rounded once; one that would come out as nothing, and is not, by its first figure.

    Parameters
    ----------
    value : Fraction
        In the unit that is shown.
    places : int
        Decimals; a figure that would come out as nothing takes more.
    rounding : Rounding, optional
        To the nearest when left out.

    Examples
    --------
    >>> shown_decimal(Fraction(2, 3), 3), shown_decimal(Fraction(2, 3), 3, Rounding.DOWN)
    ('0.667', '0.666')
    >>> shown_decimal(Fraction(9, 10**4), 2), shown_decimal(Fraction(1, 70_000), 4, Rounding.UP)
    ('0.0009', '0.00002')
    """
    if rounding is Rounding.NEAREST:
        return (
            decimal_text(value, places) if round_half_even(value, places) or not value else significant_text(value, 1)
        )
    if value:
        places = max(places, -order_of_magnitude(value))
    scale = Fraction(10) ** places
    return decimal_text((ceil if rounding is Rounding.UP else floor)(value * scale) / scale, places)


def in_both_units(
    length: Length, rounding: Rounding = Rounding.NEAREST, *, inches_first: bool = False, finer: int = 0
) -> str:
    """Write a length in mm and inch, each rounded once from the length itself.

    Parameters
    ----------
    length : Length
        What is told.
    rounding : Rounding, optional
        To the nearest when left out.
    inches_first : bool, optional
        Which unit leads; the other follows in brackets.
    finer : int, optional
        So many decimals more than the usual ones.

    Examples
    --------
    >>> in_both_units(Length.of_mm("0.92015")), in_both_units(Length.of_inches("0.05"), inches_first=True)
    ('0.920 mm (0.0362 in)', '0.0500 in (1.270 mm)')
    """
    mm = f"{shown_decimal(length.mm, MM_PLACES + finer, rounding)} mm"
    inches = f"{shown_decimal(length.inches, INCH_PLACES + finer, rounding)} in"
    return f"{inches} ({mm})" if inches_first else f"{mm} ({inches})"
