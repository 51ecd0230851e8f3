"""Square roots, sines, cosines, tangents and their inverse, as fractions with a proven bound.

All work is done in whole units of ``10**-60``. A series is carried until its next term is below one unit;
its terms alternate and shrink, so what is left out is below one unit too. Every division is rounded down and
loses less than one unit, and no series here has more than 90 terms: whatever is lost stays below
``10**-57``, far inside the bounds promised. Values that are fractions in truth are returned exactly.
"""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

from solver.quantities.angles import Angle
from solver.quantities.exact_numbers import exact
from solver.quantities.pi_multiples import PI_LOW

#: Sines, cosines and arc-tangents lie within ``10**-PLACES`` of the truth. [decimal places]
PLACES = 50
#: Tangents lie within ``10**-TANGENT_PLACES`` of the truth. [decimal places]
TANGENT_PLACES = 30
_SCALE = 10**60
#: A cosine below this is too near a quarter turn for a tangent to keep its places.
_LEAST_COSINE = Fraction(1, 10**10)
_QUARTER = Fraction(1, 4)
_EIGHTH = Fraction(1, 8)


def square_root(value: int | Fraction, places: int = PLACES) -> Fraction:
    """Return a square root, never above the truth and less than ``10**-places`` below it.

    Parameters
    ----------
    value : int or Fraction
        Zero or more; of any unit, whose root is the unit of the answer.
    places : int, optional
        Decimal places that are kept.

    Returns
    -------
    Fraction
        Exact where the root is a fraction.

    Raises
    ------
    ValueError
        The value is below zero.

    Examples
    --------
    >>> square_root(Fraction(9, 4)), square_root(2, 4)
    (Fraction(3, 2), Fraction(7071, 5000))
    """
    square = exact(value)
    if square < 0:
        message = f"only zero or more has a square root, not {square}"
        raise ValueError(message)
    top, bottom = isqrt(square.numerator), isqrt(square.denominator)
    if top * top == square.numerator and bottom * bottom == square.denominator:
        return Fraction(top, bottom)
    return Fraction(isqrt(square.numerator * 10 ** (2 * places) // square.denominator), 10**places)


def sine(angle: Angle) -> Fraction:
    """Return the sine of an angle, within ``10**-50`` of the truth.

    Parameters
    ----------
    angle : Angle
        Of any size and sign.

    Returns
    -------
    Fraction
        Exact at the angles whose sine is a fraction (0, 30, 90 degrees and their like).

    Examples
    --------
    >>> sine(Angle.of_degrees(30)), sine(Angle.of_degrees(270))
    (Fraction(1, 2), Fraction(-1, 1))
    >>> abs(2 * sine(Angle.of_degrees(45)) ** 2 - 1) < Fraction(1, 10**49)
    True
    """
    quarters, rest = divmod(angle.turns % 1, _QUARTER)
    size = _first_quarter_sine(_QUARTER - rest if quarters % 2 else rest)
    return -size if quarters >= 2 else size


def cosine(angle: Angle) -> Fraction:
    """Return the cosine of an angle, within ``10**-50`` of the truth.

    Parameters
    ----------
    angle : Angle
        Of any size and sign.

    Returns
    -------
    Fraction
        Exact at the angles whose cosine is a fraction (0, 60, 90 degrees and their like).

    Examples
    --------
    >>> cosine(Angle.of_degrees(60)), cosine(Angle.of_degrees(180))
    (Fraction(1, 2), Fraction(-1, 1))
    """
    return sine(Angle(angle.turns + _QUARTER))


def tangent(angle: Angle) -> Fraction:
    """Return the tangent of an angle, within ``10**-30`` of the truth.

    Parameters
    ----------
    angle : Angle
        Of any size and sign, away from a quarter turn.

    Returns
    -------
    Fraction
        Exact at 0 and 45 degrees and their like.

    Raises
    ------
    ValueError
        The angle is a quarter turn, or nearer to one than a ten-thousandth of a second of arc.

    Examples
    --------
    >>> tangent(Angle.of_degrees(45)), tangent(Angle.of_degrees(135))
    (Fraction(1, 1), Fraction(-1, 1))
    """
    if (angle.turns % _QUARTER) == _EIGHTH:
        return Fraction(1 if angle.turns % Fraction(1, 2) == _EIGHTH else -1)
    across = cosine(angle)
    if abs(across) < _LEAST_COSINE:
        message = f"the tangent of {angle.degrees} degrees is without limit, or too near to it"
        raise ValueError(message)
    return sine(angle) / across


def arc_tangent(ratio: int | Fraction) -> Angle:
    """Return the angle whose tangent is given, within ``10**-50`` turn of the truth.

    Parameters
    ----------
    ratio : int or Fraction
        Rise over run, of either sign.

    Returns
    -------
    Angle
        Strictly between minus and plus a quarter turn; exact for 0 and plus or minus 1.

    Examples
    --------
    >>> arc_tangent(1), arc_tangent(Fraction(-1))
    (Angle(turns=Fraction(1, 8)), Angle(turns=Fraction(-1, 8)))
    """
    slope = exact(ratio)
    if slope < 0:
        return arc_tangent(-slope) * -1
    if slope > 1:
        return Angle(_QUARTER - arc_tangent(1 / slope).turns)
    if slope == 1:
        return Angle(_EIGHTH)
    # Half the angle three times, so that the series shrinks by a factor of 25 or more a term.
    half = slope
    for _ in range(3):
        half = half / (1 + square_root(1 + half * half, 60))
        half = Fraction(half.numerator * _SCALE // half.denominator, _SCALE)
    power = total = half.numerator * _SCALE // half.denominator
    square = power * power // _SCALE
    odd = 1
    while power:
        power, odd = -(power * square // _SCALE), odd + 2
        total += power // odd
    return Angle(8 * Fraction(total, _SCALE) / (2 * PI_LOW))


def _first_quarter_sine(turns: Fraction) -> Fraction:
    """Sum the series of the sine for 0 to a quarter of a turn, from whichever end is nearer."""
    known = {Fraction(0): Fraction(0), Fraction(1, 12): Fraction(1, 2), _QUARTER: Fraction(1)}
    if turns in known:
        return known[turns]
    from_top = turns > _EIGHTH
    arc = 2 * PI_LOW * (_QUARTER - turns if from_top else turns)
    radians = arc.numerator * _SCALE // arc.denominator
    square = radians * radians // _SCALE
    term = total = _SCALE if from_top else radians
    step = 0 if from_top else 1
    while term:
        term = -(term * square // (_SCALE * (step + 1) * (step + 2)))
        total += term
        step += 2
    return Fraction(total, _SCALE)
