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

from solver.trains.wheels import Pair
from solver.wheelwork.nearest_ratios import Counts

#: More halves of trains than this take longer than anybody waits.
MOST_HALVES = 1_500_000
#: Places behind the point by which halves are sorted. Two ratios of counts to 1000 in two pairs differ by more than
#: 1e-12, so that this many bits part any two.
_BITS = 64


#: Pairs of one sum: the key of their ratio, the products of drivers and of driven wheels, and the drivers.
_Half = tuple[int, int, int, tuple[int, ...]]
#: A train as it is ranked: the size of its error, its sum of counts, its pairs.
_Row = tuple[Fraction, int, tuple[Pair, ...]]


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

    Examples
    --------
    >>> best = nearest_on_one_distance(range(12, 61), Fraction(1, 12), 2, most=1)[0]
    >>> [(pair.driver, pair.driven) for pair in best.pairs], best.error
    ([(12, 48), (15, 45)], Fraction(0, 1))
    """
    best: list[_Row] = []
    for total, singles in _by_sum(counts).items():
        for row in _of_one_sum(singles, ratio, pairs, _Bound(best, most, total)):
            if row not in best:
                insort(best, row)
                del best[most:]
    return tuple(OnOneDistance(_ratio_of(train) / ratio - 1, train) for _, _, train in best)


def _ratio_of(pairs: Sequence[Pair]) -> Fraction:
    return Fraction(prod(pair.driver for pair in pairs), prod(pair.driven for pair in pairs))


def _by_sum(counts: Sequence[int]) -> dict[int, list[Pair]]:
    """List the pairs of every sum, by rising sum."""
    held = set(counts)
    return {
        total: [Pair(driver, total - driver) for driver in counts if total - driver in held]
        for total in range(2 * counts[0], 2 * counts[-1] + 1)
    }


def halves_to_try(counts: Sequence[int], pairs: int) -> int:
    """Count the first halves of trains that a search goes through, to know beforehand whether it is too long.

    Examples
    --------
    >>> halves_to_try((20, 30, 40), 2)
    9
    """
    half = (pairs + 1) // 2
    return sum(comb(len(singles) + half - 1, half) for singles in _by_sum(counts).values())


class _Bound:
    """How far off a train of one sum may be and still be wanted."""

    def __init__(self, best: Sequence[_Row], most: int, total: int) -> None:
        self.total = total
        self._best = best
        self._most = most

    def admits(self, error: Fraction) -> bool:
        """Say whether an error is less than the worst held, or the same and in the same sum."""
        if len(self._best) < self._most:
            return True
        worst, total, _ = self._best[-1]
        return error < worst or (error == worst and total == self.total)

    def window(self) -> int | None:
        """Give the worst error held in units of the keys, rounded up; ``None`` while all are wanted."""
        if len(self._best) < self._most:
            return None
        worst = self._best[-1][0]
        return (worst.numerator << _BITS) // worst.denominator + 1


def _of_one_sum(singles: Sequence[Pair], ratio: Fraction, pairs: int, bound: _Bound) -> Iterator[_Row]:
    """Yield the trains of one sum that the bound admits."""
    others = sorted(_halves(singles, pairs // 2))
    keys = [each[0] for each in others]
    top, bottom = ratio.numerator, ratio.denominator
    window = bound.window()
    for _, above, below, chosen in _halves(singles, (pairs + 1) // 2):
        # The other half should come to ratio / (above / below).
        target = (top * below << _BITS) // (bottom * above)
        start = bisect_left(keys, target)
        if window is not None:
            # Rounded down by less than one each: the target, the room, and the key that is compared.
            room = ((target + 1) * window >> _BITS) + 2
            is_far = start == len(keys) or keys[start] - target > room
            if is_far and (start == 0 or target - keys[start - 1] > room):
                continue
        for places in (range(start, len(others)), range(start - 1, -1, -1)):
            for place in places:
                _, other_above, other_below, other = others[place]
                if _undo_each_other(chosen, other, bound.total):
                    continue
                error = abs(Fraction(above * other_above * bottom, below * other_below * top) - 1)
                if not bound.admits(error):
                    break
                yield error, bound.total, tuple(sorted(Pair(each, bound.total - each) for each in (*chosen, *other)))
                window = bound.window()


def _undo_each_other(drivers: Sequence[int], others: Sequence[int], total: int) -> bool:
    """Say whether a pair of the one half is the other way round in the other half; equal wheels are no such pair."""
    return any(2 * driver != total and total - driver in others for driver in drivers)


def _halves(singles: Sequence[Pair], many: int) -> Iterator[_Half]:
    """Yield each choice of so many pairs of one sum, by its drivers, none of which undoes another."""
    for chosen in combinations_with_replacement(singles, many):
        drivers = tuple(pair.driver for pair in chosen)
        if many > 1 and _undo_each_other(drivers, drivers, chosen[0].driver + chosen[0].driven):
            continue
        above = below = 1
        for pair in chosen:
            above *= pair.driver
            below *= pair.driven
        yield (above << _BITS) // below, above, below, drivers
