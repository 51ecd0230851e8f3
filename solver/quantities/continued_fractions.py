"""Continued fractions behind a suggested ratio; the only file that imports sympy."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction


def intermediate_fractions(ratio: Fraction, *, largest: int) -> Iterator[Fraction]:
    """Yield the convergents and intermediate fractions of a ratio, simplest first.

    Convergents alone are not enough: 63/80, the best two-wheel stand-in for 100/127 on wheels up to
    120 teeth, is an intermediate fraction.

    Parameters
    ----------
    ratio : Fraction
        The ratio to stand in for.
    largest : int
        Largest numerator or denominator to yield. [teeth]

    Yields
    ------
    Fraction
        Best approximations of the second kind and the fractions between them.

    Examples
    --------
    >>> Fraction(63, 80) in intermediate_fractions(Fraction(100, 127), largest=120)
    True
    """
    # Imported here because sympy costs more time than the whole answer.
    from sympy import Rational
    from sympy.ntheory.continued_fraction import continued_fraction

    terms = [int(term) for term in continued_fraction(Rational(ratio.numerator, ratio.denominator))]
    before, now = (0, 1), (1, 0)
    for term in terms:
        for step in range(1, term + 1):
            top, bottom = before[0] + step * now[0], before[1] + step * now[1]
            if max(top, bottom) > largest:
                return
            if top and bottom:
                yield Fraction(top, bottom)
        before, now = now, (before[0] + term * now[0], before[1] + term * now[1])


def convergents(ratio: Fraction, *, largest: int) -> tuple[Fraction, ...]:
    """List the convergents of a ratio by plain division, simplest first.

    Parameters
    ----------
    ratio : Fraction
        Above zero.
    largest : int
        Largest numerator or denominator to list.

    Returns
    -------
    tuple of Fraction
        Those above zero; the ratio itself is the last where it is small enough.

    Examples
    --------
    >>> [str(each) for each in convergents(Fraction(10, 27), largest=20)]
    ['1/2', '1/3', '3/8']
    """
    found = []
    top, bottom = ratio.numerator, ratio.denominator
    before, now = (0, 1), (1, 0)
    while bottom:
        term, rest = divmod(top, bottom)
        before, now = now, (before[0] + term * now[0], before[1] + term * now[1])
        if max(now) > largest:
            break
        if now[0]:
            found.append(Fraction(*now))
        top, bottom = bottom, rest
    return tuple(found)
