"""Trains whose pairs all stand on one centre distance, so that the last arbor is in line with the first or the second.

On one distance every pair has the same sum of counts. So the sums are taken one by one; within a sum the first half of
the pairs meets the second half in the middle.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations_with_replacement
from math import comb, prod
from typing import NamedTuple

from solver.refusals import ImpossibleSettingError
from solver.trains.wheels import Pair
from solver.wheelwork.nearest_ratios import Counts

#: Halves of trains looked at before the question is refused as too large; some ten seconds.
MOST_HALVES = 4_000_000
#: Places behind the point by which halves are sorted. Two ratios of counts to 1000 in two pairs differ by more than
#: 1e-12, so that this many bits part any two.
_BITS = 64


class _Half(NamedTuple):
    """Pairs of one sum: products of their drivers and driven wheels, and the pairs."""

    key: int
    above: int
    below: int
    pairs: tuple[Pair, ...]


class OnOneDistance(NamedTuple):
    """Pairs of equal sums, and the error of their ratio as a part of the wanted one."""

    error: Fraction
    pairs: tuple[Pair, ...]

    @property
    def counts(self) -> Counts:
        """The same wheels without their pairing.

        Examples
        --------
        >>> OnOneDistance(Fraction(0), (Pair(40, 20), Pair(24, 36))).counts
        Counts(drivers=(24, 40), driven=(20, 36))
        """
        return Counts(
            tuple(sorted(pair.driver for pair in self.pairs)), tuple(sorted(pair.driven for pair in self.pairs))
        )


def nearest_on_one_distance(
    counts: Sequence[int], ratio: Fraction, pairs: int, most: int = 5
) -> tuple[OnOneDistance, ...]:
    """Find the nearest trains of so many pairs with one sum of counts; complete, so the first is proven nearest.

    A pair of equal wheels is let in, for it brings the turning back in line; two pairs that undo each other are not.

    Parameters
    ----------
    counts : sequence of int
        Counts that may be used, each as often as wanted, by rising teeth.
    ratio : Fraction
        Wanted turns of the last arbor for one of the first; above zero.
    pairs : int
        Pairs of wheels, no fewer and no more.
    most : int, optional
        Trains to find.

    Returns
    -------
    tuple of OnOneDistance
        By rising error; of one error the smaller sum first.

    Raises
    ------
    ImpossibleSettingError
        More halves than can be gone through in good time.

    Examples
    --------
    >>> best = nearest_on_one_distance(range(12, 61), Fraction(1, 12), 2, most=1)[0]
    >>> [(pair.driver, pair.driven) for pair in best.pairs], best.error
    ([(12, 48), (15, 45)], Fraction(0, 1))
    """
    held = set(counts)
    half = (pairs + 1) // 2
    by_sum = {
        total: [Pair(driver, total - driver) for driver in counts if total - driver in held]
        for total in range(2 * counts[0], 2 * counts[-1] + 1)
    }
    if sum(comb(len(each) + half - 1, half) for each in by_sum.values()) > MOST_HALVES:
        raise ImpossibleSettingError(
            f"{len(counts)} counts make too many trains of {pairs} pairs on one centre distance to go through",
            help_text="Bring --smallest and --largest nearer together, or ask for fewer --pairs.",
        )
    best: list[tuple[Fraction, int, tuple[Pair, ...]]] = []
    for total, singles in by_sum.items():
        for error, train in _of_one_sum(singles, ratio, pairs, _Bound(best, most, total)):
            row = (error, total, train)
            if row not in best:
                insort(best, row)
                del best[most:]
    return tuple(
        OnOneDistance(prod((pair.ratio for pair in train), start=Fraction(1)) / ratio - 1, train)
        for _, _, train in best
    )


class _Bound:
    """How far off a train of one sum may be and still be wanted."""

    def __init__(self, best: Sequence[tuple[Fraction, int, tuple[Pair, ...]]], most: int, total: int) -> None:
        self._best = best
        self._most = most
        self._total = total

    def admits(self, off: int, whole: int) -> bool:
        """Say whether an error of ``off`` over ``whole`` is nearer than the worst held, or as near in the same sum."""
        if len(self._best) < self._most:
            return True
        worst, total, _ = self._best[-1]
        left, right = off * worst.denominator, worst.numerator * whole
        return left < right or (left == right and total == self._total)


def _of_one_sum(
    singles: Sequence[Pair], ratio: Fraction, pairs: int, bound: _Bound
) -> Iterator[tuple[Fraction, tuple[Pair, ...]]]:
    """Yield the trains of one sum that the bound admits."""
    first, second = (pairs + 1) // 2, pairs // 2
    others = sorted(_halves(singles, second))
    keys = [each.key for each in others]
    top, bottom = ratio.numerator, ratio.denominator
    for one in _halves(singles, first):
        # The other half should come to ratio / (above / below).
        wanted_above, wanted_below = top * one.below, bottom * one.above
        start = bisect_left(keys, (wanted_above << _BITS) // wanted_below)
        for places in (range(start, len(others)), range(start - 1, -1, -1)):
            for place in places:
                other = others[place]
                whole = other.below * wanted_above
                off = abs(other.above * wanted_below - whole)
                if not bound.admits(off, whole):
                    break
                train = tuple(sorted(one.pairs + other.pairs))
                if not _undo_each_other(train):
                    yield Fraction(off, whole), train


def _halves(singles: Sequence[Pair], many: int) -> Iterator[_Half]:
    for chosen in combinations_with_replacement(singles, many):
        above, below = prod(pair.driver for pair in chosen), prod(pair.driven for pair in chosen)
        yield _Half((above << _BITS) // below, above, below, chosen)


def _undo_each_other(pairs: Sequence[Pair]) -> bool:
    return any(
        one.driver == other.driven and one.driven == other.driver
        for place, one in enumerate(pairs)
        for other in pairs[place + 1 :]
    )
