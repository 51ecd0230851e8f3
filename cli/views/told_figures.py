"""Figures told no finer than their rule holds, and figures told side by side that add up as they are printed."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cli.views.shop_figures import approximate
from solver.quantities.exact_numbers import decimal_text, order_of_magnitude, round_half_even, significant_text
from solver.quantities.lengths import Length

#: Decimals beyond which a sum that will not add up is left as it is.
MOST_PLACES = 8
#: A part is told as what the others leave of a sum only where it counts so many of the last decimal.
LEAST_UNITS = 100
#: Figures that a rule of thumb holds.
ROUGH_DIGITS = 2


def roughly(length: Length, digits: int = ROUGH_DIGITS, *, inches_first: bool = False) -> str:
    """Write a size by a rule of thumb, in both units, to so many figures.

    Examples
    --------
    >>> roughly(Length.of_mm("9.362"))
    'about 9.4 mm (0.37 in)'
    """
    mm, inches = f"{significant_text(length.mm, digits)} mm", f"{significant_text(length.inches, digits)} in"
    return f"about {inches} ({mm})" if inches_first else f"about {mm} ({inches})"


def roughly_adding_up(smaller: Length, other: Length, *, inches_first: bool = False) -> list[str]:
    """Write two lengths by a rule of thumb and, last, their sum: two figures of the first, and what is printed adds up.

    The first is told as what the other leaves of the sum, which is within a unit of its last figure.

    Examples
    --------
    >>> roughly_adding_up(Length.of_mm("1.745"), Length.of_mm("3.629"))
    ['1.8 mm (0.069 in)', '3.6 mm (0.143 in)', '5.4 mm (0.212 in)']
    """
    units = [(smaller.mm, other.mm), (smaller.inches, other.inches)]
    columns = [_two_and_their_sum(*values) for values in units]
    shown = [(f"{mm} mm", f"{inches} in") for mm, inches in zip(*columns, strict=True)]
    return [f"{inch} ({metric})" if inches_first else f"{metric} ({inch})" for metric, inch in shown]


def _two_and_their_sum(smaller: Fraction, other: Fraction) -> list[str]:
    places = max(0, ROUGH_DIGITS - 1 - order_of_magnitude(smaller))
    second, total = (Fraction(round_half_even(each, places), 10**places) for each in (other, smaller + other))
    return [decimal_text(each, places) for each in (total - second, second, total)]


def places_that_add(parts: Sequence[Fraction], places: int) -> int:
    """Find the fewest decimals, no fewer than asked, with which the rounded parts add up to their rounded sum.

    Examples
    --------
    >>> places_that_add([Fraction(10125, 10000), Fraction(1125, 10000)], 3)
    4
    """
    for each in range(places, MOST_PLACES):
        if sum(round_half_even(part, each) for part in parts) == round_half_even(sum(parts, Fraction(0)), each):
            return each
    return MOST_PLACES


def adding_up(parts: Sequence[Length], mm_places: int = 3, inch_places: int = 4) -> list[str]:
    """Write lengths and, last, their sum, so that what is printed adds up in either unit.

    Parameters
    ----------
    parts : sequence of Length
        What adds up.
    mm_places, inch_places : int, optional
        Fewest decimals.

    Examples
    --------
    >>> adding_up([Length.of_mm("1.0125"), Length.of_mm("0.1125")])
    ['1.0125 mm (≈0.0399 in)', '0.1125 mm (≈0.0044 in)', '1.125 mm (≈0.0443 in)']
    >>> adding_up([Length.of_mm("6.075"), Length.of_mm("0.675")])
    ['6.075 mm (≈0.2392 in)', '0.675 mm (≈0.0265 in)', '6.75 mm (≈0.2657 in)']
    """
    mm = _told_adding_up([part.mm for part in parts], mm_places)
    inches = _told_adding_up([part.inches for part in parts], inch_places)
    return [f"{one} mm ({other} in)" for one, other in zip(mm, inches, strict=True)]


def _told_adding_up(parts: Sequence[Fraction], places: int) -> list[str]:
    """Write parts and their sum with one decimal more than asked at most; else the last part is what is left over."""
    total = sum(parts, Fraction(0))
    enough = places_that_add(parts, places)
    # What a small last part would lose by it is worth the decimals.
    if enough <= places + 1 or parts[-1] < Fraction(LEAST_UNITS, 10**places):
        return [approximate(each, enough) for each in (*parts, total)]
    *before, whole = (Fraction(round_half_even(each, places), 10**places) for each in (*parts[:-1], total))
    left = approximate(whole - sum(before), places)
    return [*(approximate(each, places) for each in parts[:-1]), f"≈{left}", approximate(total, places)]


def equals(text: str) -> str:
    """Put the right sign before a figure: no '= ≈'.

    Examples
    --------
    >>> equals("36.5 mm"), equals("≈13.475 mm")
    ('= 36.5 mm', '≈ 13.475 mm')
    """
    return f"≈ {text.removeprefix('≈')}" if text.startswith("≈") else f"= {text}"
