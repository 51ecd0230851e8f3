"""The total order of answers, so that the same question gives the same sheet."""

from __future__ import annotations

from fractions import Fraction

from solver.trains.changes import changes, handled
from solver.trains.wheels import Train

#: Compared left to right; the train itself closes every tie.
OrderKey = tuple[int, Fraction, int, int, Train]


def steepness(train: Train) -> Fraction:
    """Return the steepest step of any one pair, 1 or more; mild pairs run quieter.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> steepness(Train((Pair(20, 60), Pair(40, 20))))
    Fraction(3, 1)
    """
    return max((max(pair.ratio, 1 / pair.ratio) for pair in train.pairs), default=Fraction(1))


def preference(train: Train, mounted: Train | None = None) -> OrderKey:
    """Order trains of one error: few changes, mild pairs, a large smallest wheel, large drivers, then the teeth.

    Parameters
    ----------
    train : Train
        The train to rank.
    mounted : Train, optional
        What is on the banjo now; wheels that stay come first.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> preference(Train((Pair(40, 60),))) < preference(Train((Pair(20, 60),)))
    True
    >>> mounted = Train((Pair(20, 80),))
    >>> preference(Train((Pair(20, 60),)), mounted) < preference(Train((Pair(40, 60),)), mounted)
    True
    """
    kept = handled(changes(mounted, train)) if mounted else 0
    smallest = min((teeth for _, teeth in train.wheels), default=0)
    drivers = sum(pair.driver for pair in train.pairs)
    return kept, steepness(train), -smallest, -drivers, train
