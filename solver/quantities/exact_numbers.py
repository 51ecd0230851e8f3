"""Doors for exact numbers, and exact numbers written out as decimals."""

from __future__ import annotations

from fractions import Fraction
from math import ceil


def exact(value: int | Fraction | str) -> Fraction:
    """Take an exact number in; refuse floats and bools at run time as well as in types.

    Parameters
    ----------
    value : int, Fraction or str
        A whole number, a fraction, or text such as ``"63/80"`` or ``"0.05"``.

    Returns
    -------
    Fraction
        The same number, exactly.

    Raises
    ------
    TypeError
        The value is a float, a bool or anything else that may have been rounded already.

    Examples
    --------
    >>> exact("0.05"), exact(3)
    (Fraction(1, 20), Fraction(3, 1))
    """
    if isinstance(value, bool) or not isinstance(value, int | Fraction | str):
        message = f"an exact number is an int, a Fraction or text, not {type(value).__name__}: {value!r}"
        raise TypeError(message)
    return Fraction(value)


def round_half_even(value: Fraction, places: int) -> int:
    """Round to a whole number of units of ``10**-places``, ties to even.

    Examples
    --------
    >>> round_half_even(Fraction(5, 2), 0), round_half_even(Fraction(1, 3), 3)
    (2, 333)
    """
    return round(value * Fraction(10**places))


def decimal_text(value: Fraction, places: int) -> str:
    """Write a fraction with a fixed number of decimal places, rounded once.

    Examples
    --------
    >>> decimal_text(Fraction(-1, 3), 4)
    '-0.3333'
    >>> decimal_text(Fraction(-1, 30000), 2)
    '0.00'
    """
    units = round_half_even(abs(value), places)
    digits = str(units).rjust(places + 1, "0")
    whole, part = digits[: len(digits) - places], digits[len(digits) - places :]
    sign = "-" if value < 0 and units else ""
    return f"{sign}{whole}.{part}" if places else f"{sign}{whole}"


def order_of_magnitude(value: Fraction) -> int:
    """Return the exponent of the leading decimal digit of a non-zero number.

    Examples
    --------
    >>> order_of_magnitude(Fraction(999)), order_of_magnitude(Fraction(1, 1000))
    (2, -3)
    """
    size = abs(value)
    exponent = len(str(size.numerator)) - len(str(size.denominator))
    return exponent if size >= Fraction(10) ** exponent else exponent - 1


def significant_text(value: Fraction, digits: int) -> str:
    """Write a fraction to a number of significant digits, never as zero unless it is zero.

    Examples
    --------
    >>> significant_text(Fraction(125), 3), significant_text(Fraction(-10, 47), 3)
    ('125', '-0.213')
    >>> significant_text(Fraction(0), 3)
    '0'
    """
    if value == 0:
        return "0"
    places = digits - 1 - order_of_magnitude(value)
    if places >= 0:
        return decimal_text(value, places)
    step = Fraction(10) ** -places
    return str(round(value / step) * step)


def trimmed_decimal_text(value: Fraction, places: int) -> str:
    """Write a decimal of at most ``places`` places without trailing zeros.

    Examples
    --------
    >>> trimmed_decimal_text(Fraction(5, 4), 6), trimmed_decimal_text(Fraction(40), 3)
    ('1.25', '40')
    """
    text = decimal_text(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def least_decimal_text(least: Fraction, places: int) -> str:
    """Write a least figure rounded up, so that what is read is enough.

    Examples
    --------
    >>> least_decimal_text(Fraction("2.00001"), 3), least_decimal_text(Fraction(5, 2), 3)
    ('2.001', '2.5')
    """
    return trimmed_decimal_text(Fraction(ceil(least * 10**places), 10**places), places)


def is_finite_decimal(value: Fraction, places: int) -> bool:
    """Say whether ``places`` decimals hold the number exactly.

    Examples
    --------
    >>> is_finite_decimal(Fraction(5, 8), 3), is_finite_decimal(Fraction(1, 3), 9)
    (True, False)
    """
    return (value * Fraction(10**places)).denominator == 1
