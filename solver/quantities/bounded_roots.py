"""Roots of any order as two fractions, the true root between them."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.exact_numbers import exact

#: Distance between the two bounds of a root is this many decimal places. [decimal places]
PLACES = 20


def root_bounds(value: int | Fraction, order: int, places: int = PLACES) -> tuple[Fraction, Fraction]:
    """Return two fractions, ``10**-places`` apart at most, that hold the root between them.

    Parameters
    ----------
    value : int or Fraction
        Zero or more.
    order : int
        2 for the square root, 3 for the cube root, and so on.
    places : int, optional
        Decimal places of the bounds.

    Returns
    -------
    tuple of (Fraction, Fraction)
        Lower and upper bound; equal where the root has so few decimal places that it is exact.

    Raises
    ------
    ValueError
        The value is below zero, or the order below 1.

    Examples
    --------
    >>> root_bounds(Fraction(27, 8), 3), root_bounds(2, 2, 3)
    ((Fraction(3, 2), Fraction(3, 2)), (Fraction(707, 500), Fraction(283, 200)))
    """
    radicand = exact(value)
    if radicand < 0 or order < 1:
        message = f"the root of order {order} of {radicand} is not taken"
        raise ValueError(message)
    scale = 10**places
    scaled = radicand * scale**order
    units = _whole_root(scaled.numerator // scaled.denominator, order)
    low = Fraction(units, scale)
    return (low, low) if low**order == radicand else (low, Fraction(units + 1, scale))


def _whole_root(value: int, order: int) -> int:
    """Return the largest whole number whose power is not above a whole number, by halving."""
    low, high = 0, 1 << (value.bit_length() // order + 1)
    while low < high:
        middle = (low + high + 1) // 2
        if middle**order <= value:
            low = middle
        else:
            high = middle - 1
    return low
