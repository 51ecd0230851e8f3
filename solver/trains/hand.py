"""Hand of the thread: each external mesh turns the motion round; a reverse or an idler settles it."""

from __future__ import annotations

from enum import Enum
from typing import NamedTuple

from solver.trains.lathe import Lathe


class Hand(Enum):
    """The hand of a thread."""

    RIGHT = "right"
    LEFT = "left"


class HandPlan(NamedTuple):
    """The hand of a set-up and, in words, how it comes about."""

    hand: Hand
    by: str


def keeps_direction(meshes: int) -> bool:
    """Say whether leadscrew and stud turn the same way after so many external meshes.

    Examples
    --------
    >>> keeps_direction(2), keeps_direction(3)
    (True, False)
    """
    return meshes % 2 == 0


def natural_hand(meshes: int, lathe: Lathe) -> Hand:
    """Return the hand that so many meshes cut, with a stud gear that turns as the spindle does and no reverse.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> plain = Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), False, ())
    >>> natural_hand(2, plain).value, natural_hand(1, plain).value
    ('right', 'left')
    """
    return Hand.RIGHT if keeps_direction(meshes) is not lathe.has_left_hand_screw else Hand.LEFT


def suits_hand(meshes: int, lathe: Lathe, wanted: Hand) -> bool:
    """Say whether so many meshes cut the wanted hand; with a reverse any number does.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> suits_hand(1, Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), False, ()), Hand.RIGHT)
    False
    """
    return lathe.has_reverse or natural_hand(meshes, lathe) is wanted


def plan_hand(meshes: int, lathe: Lathe, wanted: Hand, idlers: int = 0) -> HandPlan:
    """Say what gives the hand: the reverse, the meshes as they are, or the idlers among them.

    Parameters
    ----------
    meshes : int
        All external meshes, those of idlers among them, tumbler apart.
    lathe : Lathe
        Its reverse and the hand of its leadscrew.
    wanted : Hand
        The hand on the drawing; without a reverse the set-up decides, wanted or not.
    idlers : int, optional
        How many of the wheels are idlers.

    Returns
    -------
    HandPlan
        Of the hand that is cut.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> plan_hand(2, Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), False, ()), Hand.RIGHT, idlers=1).by
    '2 meshes with 1 idler: right-hand'
    """
    words = f"{meshes} mesh{'es' if meshes > 1 else ''}"
    if idlers:
        words += f" with {idlers} idler{'s' if idlers > 1 else ''}"
    if lathe.has_reverse:
        turning = "as" if keeps_direction(meshes) else "against"
        return HandPlan(
            wanted, f"{wanted.value}-hand by the reverse ({words}: the leadscrew turns {turning} the stud gear)"
        )
    hand = natural_hand(meshes, lathe)
    return HandPlan(hand, f"{words}: {hand.value}-hand{'' if idlers else ' without an idler'}")
