"""Idlers out of the wheels left in the box: for reach first, for the hand second, as few as will do."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import combinations_with_replacement, product

from solver.trains.chain import Idler
from solver.trains.hand import Hand, suits_hand
from solver.trains.lathe import Lathe
from solver.trains.wheels import Train

#: Most idlers tried in one set-up; a bench that needs a third is better served by another train.
MOST_IDLERS = 2


def most_idlers(train: Train, lathe: Lathe) -> int:
    """Return how many idlers the studs leave room for.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.lathe import Banjo
    >>> from solver.trains.wheels import Pair
    >>> lathe = Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), True, (), banjo=Banjo(studs=2))
    >>> most_idlers(Train((Pair(50, 40), Pair(20, 127))), lathe)
    1
    """
    studs = lathe.banjo.studs if lathe.banjo else None
    free = MOST_IDLERS if studs is None else studs - (len(train.pairs) - 1)
    return max(0, min(MOST_IDLERS, free))


def is_worth_trying(meshes: int, count: int, lathe: Lathe, hand: Hand, *, for_reach: bool) -> bool:
    """Say whether a set-up of so many meshes, with so many idlers among them, has a use for the last of its idlers.

    Parameters
    ----------
    meshes : int
        Pairs and idlers together.
    count : int
        Idlers among them.
    lathe : Lathe
        Its reverse and the hand of its leadscrew.
    hand : Hand
        Hand of the thread.
    for_reach : bool
        The file tells what the wheels must span, so idlers may come for that too.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> no_reverse = Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), False, ())
    >>> [is_worth_trying(1 + count, count, no_reverse, Hand.RIGHT, for_reach=False) for count in (0, 1, 2)]
    [False, True, False]
    """
    if not suits_hand(meshes, lathe, hand):
        return False
    return for_reach or count == 0 or (count == 1 and not suits_hand(meshes - 1, lathe, hand))


def wheels_left(train: Train, lathe: Lathe, wheel_class: int) -> tuple[tuple[int, int], ...]:
    """List the teeth and counts of one class that a train leaves in the box, largest first.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import Pair, WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 2), (40, 1), (65, 1))),)
    >>> wheels_left(Train((Pair(20, 40),)), Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), True, box), 0)
    ((65, 1), (20, 1))
    """
    used = Counter(teeth for number, teeth in train.wheels if number == wheel_class)
    stock = lathe.wheel_classes[wheel_class].stock
    return tuple((teeth, count - used[teeth]) for teeth, count in reversed(stock) if count > used[teeth])


def idler_sets(train: Train, lathe: Lathe, count: int) -> Iterator[tuple[Idler, ...]]:
    """Yield every way to put so many idlers into a train: the mesh nearest the leadscrew and large wheels first.

    Parameters
    ----------
    train : Train
        Pairs that leave some wheels in the box.
    lathe : Lathe
        With its real box.
    count : int
        How many idlers; zero yields the train as it is.

    Yields
    ------
    tuple of Idler
        From the spindle side.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import Pair, WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 1), (40, 1), (50, 1), (65, 1))),)
    >>> lathe = Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), True, box)
    >>> [[idler.teeth for idler in each] for each in idler_sets(Train((Pair(20, 40),)), lathe, 2)]
    [[65, 50], [50, 65]]
    """
    if count == 0:
        yield ()
        return
    meshes = range(len(train.pairs), 0, -1)
    left = {pair.wheel_class: wheels_left(train, lathe, pair.wheel_class) for pair in train.pairs}
    for places in combinations_with_replacement(meshes, count):
        in_order = places[::-1]
        classes = [train.pairs[mesh - 1].wheel_class for mesh in in_order]
        for teeth in product(*([teeth for teeth, _ in left[number]] for number in classes)):
            taken = Counter(zip(classes, teeth, strict=True))
            if count < 2 or all(dict(left[number])[each] >= needed for (number, each), needed in taken.items()):
                yield tuple(Idler(mesh, each) for mesh, each in zip(in_order, teeth, strict=True))
