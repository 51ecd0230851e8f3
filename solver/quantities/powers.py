"""Powers with a fraction as exponent, as the tolerance formulas of thread standards need them."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.exact_numbers import exact

#: Decimal places kept where nothing else is asked.
PLACES = 20
#: A figure that went through a root, a sine or pi is carried to 20 decimals or more, so that its denominator
#: is far beyond this; a figure of a drawing, and what adding and halving makes of it, stays far below.
_LARGEST_DRAWN_DENOMINATOR = 10**15


def power(base: int | Fraction, exponent: Fraction, places: int = PLACES) -> Fraction:
    """Return a power, never above the truth and less than ``10**-places`` below it.

    Parameters
    ----------
    base : int or Fraction
        Zero or more.
    exponent : Fraction
        Zero or more, such as two thirds.
    places : int, optional
        Decimal places that are kept.

    Returns
    -------
    Fraction
        The power in whole units of ``10**-places``; exact where that holds it.

    Raises
    ------
    ValueError
        The base or the exponent is below zero.

    Examples
    --------
    >>> power(8, Fraction(2, 3)), power(2, Fraction(1, 2), 4)
    (Fraction(4, 1), Fraction(7071, 5000))
    """
    whole, raised = exact(base), exact(exponent)
    if whole < 0 or raised < 0:
        message = f"only powers of zero or more, with an exponent of zero or more, not {whole} to the {raised}"
        raise ValueError(message)
    value = whole**raised.numerator
    degree = raised.denominator
    units = value.numerator * 10 ** (places * degree) // value.denominator
    return Fraction(whole_root(units, degree), 10**places)


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
    units = whole_root(scaled.numerator // scaled.denominator, order)
    low = Fraction(units, scale)
    return (low, low) if low**order == radicand else (low, Fraction(units + 1, scale))


def whole_root(value: int, degree: int) -> int:
    """Return the largest whole number whose power of ``degree`` is not above ``value``.

    Parameters
    ----------
    value : int
        Zero or more.
    degree : int
        1 or more.

    Returns
    -------
    int
        Exact.

    Examples
    --------
    >>> whole_root(26, 3), whole_root(27, 3)
    (2, 3)
    """
    if value < 2:
        return value
    # From above, each step of Newton's rule falls until it would rise again.
    guess = 1 << -(-value.bit_length() // degree)
    while True:
        lower = ((degree - 1) * guess + value // guess ** (degree - 1)) // degree
        if lower >= guess:
            return guess
        guess = lower


def is_exact_figure(value: Fraction) -> bool:
    """Say whether a figure went through no root, sine or pi on its way.

    Examples
    --------
    >>> is_exact_figure(Fraction(127, 64)), is_exact_figure(power(2, Fraction(1, 3)))
    (True, False)
    """
    return value.denominator <= _LARGEST_DRAWN_DENOMINATOR
