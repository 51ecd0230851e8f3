"""Hand of the thread: each external mesh turns the motion round; a reverse settles it."""

from __future__ import annotations

from collections import Counter
from enum import Enum
from typing import NamedTuple

from solver.trains.lathe import Lathe
from solver.trains.wheels import Train


class Hand(Enum):
    """The hand of a thread."""

    RIGHT = "right"
    LEFT = "left"


class HandPlan(NamedTuple):
    """How the asked hand comes about; ``idlers`` are teeth, ``obstacle`` is empty when it can be had.

    ``mesh`` counts the meshes from 1 at the spindle side: the pair between whose wheels the idler goes.
    """

    hand: Hand
    by: str
    idlers: tuple[int, ...] = ()
    obstacle: str = ""
    mesh: int | None = None


def keeps_direction(meshes: int) -> bool:
    """Say whether leadscrew and stud turn the same way after so many external meshes.

    Examples
    --------
    >>> keeps_direction(2), keeps_direction(3)
    (True, False)
    """
    return meshes % 2 == 0


def plan_hand(train: Train, lathe: Lathe, wanted: Hand) -> HandPlan:
    """Find what gives the wanted hand: nothing, the reverse, or an idler out of the wheels left.

    A right-hand leadscrew is assumed, and a stud gear that turns as the spindle does.

    Parameters
    ----------
    train : Train
        The pairs, without idlers.
    lathe : Lathe
        Its reverse and its box.
    wanted : Hand
        The hand on the drawing.

    Returns
    -------
    HandPlan
        With the largest wheel left as idler where one is needed: it bridges most.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import Pair, WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 1), (40, 1), (65, 1))),)
    >>> lathe = Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), False, box)
    >>> plan_hand(Train((Pair(20, 40),)), lathe, Hand.RIGHT).idlers
    (65,)
    """
    meshes = len(train.pairs)
    natural = Hand.RIGHT if keeps_direction(meshes) else Hand.LEFT
    word = f"{meshes} mesh{'es' if meshes > 1 else ''}"
    if lathe.has_reverse:
        turning = "as" if keeps_direction(meshes) else "against"
        return HandPlan(
            wanted, f"{wanted.value}-hand by the reverse ({word}: the leadscrew turns {turning} the stud gear)"
        )
    if natural is wanted:
        return HandPlan(wanted, f"{word}: {wanted.value}-hand without an idler")
    left = idlers_left(train, lathe)
    if not left:
        return HandPlan(wanted, word, obstacle=f"a {wanted.value}-hand thread needs an idler and no wheel is left")
    return HandPlan(wanted, f"{word} and one idler", idlers=(left[-1],), mesh=len(train.pairs))


def idlers_left(train: Train, lathe: Lathe) -> tuple[int, ...]:
    """List the teeth of the wheels left in the box that mesh with the last pair, by rising teeth.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> lathe = Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), False, ())
    >>> idlers_left(Train(()), lathe)
    ()
    """
    if not train.pairs:
        return ()
    number = train.pairs[-1].wheel_class
    used = Counter(teeth for wheel_class, teeth in train.wheels if wheel_class == number)
    return tuple(teeth for teeth, count in lathe.wheel_classes[number].stock if count > used[teeth])
