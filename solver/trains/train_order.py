"""The total order of answers, so that the same question gives the same sheet."""

from __future__ import annotations

from fractions import Fraction

from solver.trains.wheels import Train

#: Compared left to right; the train itself closes every tie.
OrderKey = tuple[Fraction, int, Train]


def steepness(train: Train) -> Fraction:
    """Return the steepest step of any one pair, 1 or more; mild pairs run quieter.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> steepness(Train((Pair(20, 60), Pair(40, 20))))
    Fraction(3, 1)
    """
    return max((max(pair.ratio, 1 / pair.ratio) for pair in train.pairs), default=Fraction(1))


def preference(train: Train) -> OrderKey:
    """Order trains of one error: mild pairs, large smallest wheel, then the teeth themselves.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> preference(Train((Pair(40, 60),))) < preference(Train((Pair(20, 60),)))
    True
    """
    smallest = min((teeth for _, teeth in train.wheels), default=0)
    return steepness(train), -smallest, train
