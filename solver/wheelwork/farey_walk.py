"""Fractions of bounded size by rising distance from a ratio: a walk through the Farey sequence, both ways.

Two neighbours a/b < c/d of the sequence of order N have bc - ad = 1, and the next one after them is
(kc - a)/(kd - b) with k the whole part of (N + b)/d. So each step costs two divisions, none is left out, and
the first fraction that serves is the nearest that serves.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

#: A fraction in lowest terms: numerator and denominator.
Term = tuple[int, int]


def by_distance(ratio: Fraction, largest: int) -> Iterator[Term]:
    """Yield every fraction above zero in lowest terms by rising distance from a ratio.

    Parameters
    ----------
    ratio : Fraction
        Above zero.
    largest : int
        Largest numerator and denominator.

    Yields
    ------
    (int, int)
        Numerator and denominator; of two at the same distance the smaller fraction first.

    Examples
    --------
    >>> walk = by_distance(Fraction(1, 3), 7)
    >>> [next(walk) for _ in range(4)]
    [(1, 3), (2, 7), (2, 5), (1, 4)]
    """
    # The walk bounds the denominator, so the larger of the two parts is made that.
    below, above = _sides(min(ratio, 1 / ratio), largest)
    if ratio > 1:
        below, above = _turned(above), _turned(below)
    yield from _merged(ratio, below, above, largest)


def _turned(side: Iterator[Term]) -> Iterator[Term]:
    return ((bottom, top) for top, bottom in side)


def _merged(ratio: Fraction, below: Iterator[Term], above: Iterator[Term], largest: int) -> Iterator[Term]:
    """Merge two sides that each go away from the ratio; ``below`` may begin with the ratio itself."""
    top, bottom = ratio.numerator, ratio.denominator
    low, high = next(below, None), next(above, None)
    while low is not None or high is not None:
        if high is None or (
            low is not None
            and (top * low[1] - low[0] * bottom) * high[1] <= (high[0] * bottom - top * high[1]) * low[1]
        ):
            chosen, low = low, next(below, None)
        else:
            chosen, high = high, next(above, None)
        if chosen is not None and max(chosen) <= largest:
            yield chosen


def _sides(ratio: Fraction, largest: int) -> tuple[Iterator[Term], Iterator[Term]]:
    """Return the terms at or below a ratio up to one, downwards, and those above it, upwards."""
    below, above = neighbours(ratio, largest)
    return _downwards(below, above, largest), _upwards(below, above, largest)


def neighbours(ratio: Fraction, largest: int) -> tuple[Term, Term]:
    """Return the two terms next to a ratio, the first at it or below, the second above; ratios from 0 to 1.

    Examples
    --------
    >>> neighbours(Fraction(1, 3), 7), neighbours(Fraction(314, 1000), 7)
    (((1, 3), (2, 5)), ((2, 7), (1, 3)))
    """
    below, above = (0, 1), (1, 0)
    top, bottom = ratio.numerator, ratio.denominator
    while True:
        # As many steps as keep one term above the ratio, then as many as keep the other at it or below; by division.
        gap, rise = below[1] * top - below[0] * bottom, above[0] * bottom - above[1] * top
        up = (largest - above[1]) // below[1]
        if gap:
            up = min(up, (rise - 1) // gap)
        above = (above[0] + up * below[0], above[1] + up * below[1])
        down = gap // (above[0] * bottom - above[1] * top)
        if above[1]:
            down = min(down, (largest - below[1]) // above[1])
        below = (below[0] + down * above[0], below[1] + down * above[1])
        if not up and not down:
            return below, above


def _downwards(below: Term, above: Term, largest: int) -> Iterator[Term]:
    (top, bottom), (last_top, last_bottom) = below, above
    while top > 0:
        yield top, bottom
        steps = (largest + last_bottom) // bottom
        top, bottom, last_top, last_bottom = steps * top - last_top, steps * bottom - last_bottom, top, bottom


def _upwards(below: Term, above: Term, largest: int) -> Iterator[Term]:
    (last_top, last_bottom), (top, bottom) = below, above
    # Beyond this every numerator is too large.
    while top <= largest * bottom:
        yield top, bottom
        steps = (largest + last_bottom) // bottom
        top, bottom, last_top, last_bottom = steps * top - last_top, steps * bottom - last_bottom, top, bottom
