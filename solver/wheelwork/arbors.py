"""Which driver meets which driven wheel, in which order along the arbors, and which way the last one turns."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from fractions import Fraction
from itertools import pairwise, permutations

from solver.trains.wheels import Pair, Train
from solver.wheelwork.nearest_ratios import Counts


class Sense(Enum):
    """Which way the last arbor turns, seen from one side, against the first; the value is the word."""

    SAME = "same"
    OPPOSITE = "opposite"


def sense_of(pairs: int, idlers: int = 0) -> Sense:
    """Say which way the last arbor turns: each mesh of two toothed rims turns it back.

    Examples
    --------
    >>> sense_of(2), sense_of(3), sense_of(3, idlers=1)
    (<Sense.SAME: 'same'>, <Sense.OPPOSITE: 'opposite'>, <Sense.SAME: 'same'>)
    """
    return Sense.OPPOSITE if (pairs + idlers) % 2 else Sense.SAME


def idlers_for(pairs: int, wanted: Sense | None) -> int:
    """Count the idlers that a train needs to turn as wanted: none or one.

    Examples
    --------
    >>> idlers_for(3, Sense.SAME), idlers_for(2, Sense.SAME), idlers_for(3, None)
    (1, 0, 0)
    """
    return int(wanted is not None and sense_of(pairs) is not wanted)


def best_order(counts: Counts) -> Train:
    """Pair drivers with driven wheels and put the pairs in order.

    First as few wheels as may be that reach over a neighbouring arbor, then the mildest steepest pair, then centre
    distances near one another, then smaller counts first.

    Examples
    --------
    >>> str(best_order(Counts((15, 25), (98, 113))))
    '15-98-25-113'
    """
    return min(_orders(counts), key=_rank)


def in_order(pairs: tuple[Pair, ...]) -> Train:
    """Put pairs that are already made in order, by the same rule.

    Examples
    --------
    >>> str(in_order((Pair(64, 16), Pair(12, 36))))
    '64-16-12-36'
    """
    return min((Train(each) for each in permutations(pairs)), key=_rank)


def _orders(counts: Counts) -> Iterator[Train]:
    seen = set()
    for driven in permutations(counts.driven):
        made = tuple(sorted(Pair(a, b) for a, b in zip(counts.drivers, driven, strict=True)))
        if made not in seen:
            seen.add(made)
            for pairs in permutations(made):
                yield Train(pairs)


def _rank(train: Train) -> tuple[int, Fraction, int, tuple[Pair, ...]]:
    sums = [pair.driver + pair.driven for pair in train.pairs]
    steepest = max(max(pair.ratio, 1 / pair.ratio) for pair in train.pairs)
    return len(over_an_arbor(train)), steepest, max(sums) - min(sums), train.pairs


def over_an_arbor(train: Train) -> tuple[tuple[int, int], ...]:
    """List the wheels that reach as far as the bare axis of a neighbouring arbor: teeth, and the arbor from 1.

    A driven wheel may reach over the arbor after its own, a driver over the arbor before. Such arbors must end short,
    or the wheel be carried outside the plates; so must arbors be thin, which is not looked at.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> over_an_arbor(Train((Pair(20, 100), Pair(20, 60)))), over_an_arbor(Train((Pair(20, 60), Pair(20, 60))))
    (((100, 3),), ())
    """
    found = []
    for place, (here, after) in enumerate(pairwise(train.pairs)):
        if here.driven + 2 >= after.driver + after.driven:
            found.append((here.driven, place + 3))
        if after.driver + 2 >= here.driver + here.driven:
            found.append((after.driver, place + 1))
    return tuple(found)
