"""The plate geared to the work spindle: trains out of the head's own box, direction of the plate, idlers.

One sign runs through all of it: x is turns of the plate for one turn of the work, positive when the plate follows
the crank.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from solver.dividing.heads import Head
from solver.quantities.lengths import Length
from solver.trains.sides import Box, Side, Wheel
from solver.trains.wheels import Pair, Train, WheelClass

#: Which way the plate turns, seen from the crank, as it is written.
FOLLOWS = "follows"
AGAINST = "against"
#: Pairs of the longest train; heads carry one stud for a second pair.
MOST_PAIRS = 2


class PlateGearing(NamedTuple):
    """How the plate is geared.

    Parameters
    ----------
    train : Train
        Pairs from the work spindle to the plate, idlers left out.
    idlers : tuple of int
        Teeth of the idlers: wheels left in the box.
    plate_turns : Fraction
        x, signed: turns of the plate for one turn of the work.
    nominal : Fraction
        Divisions that the same crank move makes with the plate locked.
    """

    train: Train
    idlers: tuple[int, ...]
    plate_turns: Fraction
    nominal: Fraction

    @property
    def way(self) -> str:
        """The direction of the plate as it is written.

        Examples
        --------
        >>> PlateGearing(Train(()), (), Fraction(-7, 3), Fraction(120)).way
        'against'
        """
        return FOLLOWS if self.follows else AGAINST

    @property
    def follows(self) -> bool:
        """True when the plate turns the way the crank turns.

        Examples
        --------
        >>> PlateGearing(Train(()), (), Fraction(-7, 3), Fraction(120)).follows
        False
        """
        return self.plate_turns > 0


def idlers_needed(pairs: int, *, follows: bool, one_idler_follows: bool) -> int:
    """Count the idlers that give the plate its direction; a simple train always has one, to reach across.

    Parameters
    ----------
    pairs : int
        1 for a simple train, 2 for a compound one.
    follows : bool
        The plate is to turn with the crank.
    one_idler_follows : bool
        The head's own rule: in a simple train with one idler the plate follows the crank.

    Returns
    -------
    int
        The fewest.

    Examples
    --------
    >>> [idlers_needed(pairs, follows=True, one_idler_follows=True) for pairs in (1, 2)]
    [1, 0]
    >>> [idlers_needed(pairs, follows=False, one_idler_follows=True) for pairs in (1, 2)]
    [2, 1]
    """
    fewest = 1 if pairs == 1 else 0
    return fewest if plate_follows(pairs, fewest, one_idler_follows=one_idler_follows) == follows else fewest + 1


def plate_follows(pairs: int, idlers: int, *, one_idler_follows: bool) -> bool:
    """Say which way the plate turns behind a train: each mesh turns the motion round.

    Parameters
    ----------
    pairs : int
        Pairs of the train.
    idlers : int
        Idlers between them.
    one_idler_follows : bool
        The head's own rule: in a simple train with one idler the plate follows the crank.

    Examples
    --------
    >>> plate_follows(1, 1, one_idler_follows=True), plate_follows(2, 1, one_idler_follows=True)
    (True, False)
    """
    # One idler in a simple train makes two meshes, so the rule tells what an even number of meshes does.
    return ((pairs + idlers) % 2 == 0) == one_idler_follows


class GearBox:
    """The wheels of a head, sorted by product so that a ratio finds its trains at once.

    Parameters
    ----------
    wheels : tuple of (int, int)
        Teeth and how many of each; one or more.

    Examples
    --------
    >>> box = GearBox(((24, 2), (48, 1)))
    >>> box.choices(2, 1, 1)
    [(((0, 48),), ((0, 24),))]
    """

    def __init__(self, wheels: tuple[tuple[int, int], ...]) -> None:
        self._box = Box((WheelClass("wheels of the head", Length.of_mm(1), wheels),))
        self._halves: list[dict[int, list[Side]]] = []
        for pairs in range(1, MOST_PAIRS + 1):
            by_product: dict[int, list[Side]] = {}
            for side in self._box.sides((pairs,)):
                by_product.setdefault(side.product, []).append(side)
            self._halves.append(by_product)
        self.wheel_count = sum(count for _, count in wheels)
        #: No train turns the plate faster than this, nor slower than its inverse. [turns of plate to turn of work]
        self.largest_ratio = max(Fraction(max(half), min(half)) for half in self._halves if half)

    def choices(self, over: int, under: int, pairs: int) -> list[tuple[tuple[Wheel, ...], tuple[Wheel, ...]]]:
        """List the drivers and driven wheels whose ratio is ``over / under``, both of them in the box at once.

        Examples
        --------
        >>> GearBox(((24, 2), (48, 1))).choices(1, 1, 1)
        [(((0, 24),), ((0, 24),))]
        """
        half = self._halves[pairs - 1]
        found = []
        for product, drivers in half.items():
            wanted, rest = divmod(product * under, over)
            if rest or wanted not in half:
                continue
            found += [
                (first.wheels, second.wheels)
                for first in drivers
                for second in half[wanted]
                if self._box.can_share(first, second)
            ]
        return found

    def can_make(self, over: int, under: int, idlers: Sequence[int]) -> bool:
        """Say whether any train of the box has the ratio ``over / under`` and leaves idlers enough.

        Parameters
        ----------
        over, under : int
            The ratio.
        idlers : sequence of int
            How many a train of one pair needs, then a train of two.

        Examples
        --------
        >>> box = GearBox(((24, 2), (48, 1)))
        >>> box.can_make(2, 1, (1, 0)), box.can_make(2, 1, (2, 1)), box.can_make(3, 1, (0, 0))
        (True, False, False)
        """
        return any(
            self.wheel_count >= 2 * pairs + needed and self.choices(over, under, pairs)
            for pairs, needed in enumerate(idlers, start=1)
        )


@lru_cache(maxsize=4)
def gear_box(wheels: tuple[tuple[int, int], ...]) -> GearBox:
    """Sort a box of wheels once and keep it for the next count.

    Examples
    --------
    >>> gear_box(((24, 2), (48, 1))).largest_ratio
    Fraction(2, 1)
    """
    return GearBox(wheels)


def gearings(head: Head, plate_turns: Fraction, nominal: Fraction, pairs: int) -> list[PlateGearing]:
    """List every way the head's wheels turn its plate at a rate, by trains of so many pairs.

    A train counts only when the idlers that give the plate its direction are left in the box beside it.

    Parameters
    ----------
    head : Head
        Its wheels, and what it says of one idler.
    plate_turns : Fraction
        x, not 0.
    nominal : Fraction
        Carried into the answers.
    pairs : int
        1 for simple trains, 2 for compound ones.

    Returns
    -------
    list of PlateGearing
        The larger driver on the spindle, the larger driven wheel at the plate.

    Examples
    --------
    >>> head = Head("40:1", Fraction(40), (), wheels=((24, 2), (44, 1), (56, 1)))
    >>> [(str(each.train), each.idlers) for each in gearings(head, Fraction(-7, 3), Fraction(120), 1)]
    [('56-24', (24, 44))]
    """
    box = gear_box(head.wheels)
    count = idlers_by_pairs(head, follows=plate_turns > 0)[pairs - 1]
    if box.wheel_count < 2 * pairs + count:
        return []
    return [
        PlateGearing(_placed(drivers, driven), _middle(_left(head, drivers + driven), count), plate_turns, nominal)
        for drivers, driven in box.choices(abs(plate_turns.numerator), plate_turns.denominator, pairs)
    ]


def idlers_by_pairs(head: Head, *, follows: bool) -> tuple[int, ...]:
    """Count the idlers of a train of one pair, then of two, for one direction of the plate on this head.

    Examples
    --------
    >>> idlers_by_pairs(Head("40:1", Fraction(40), ()), follows=True)
    (1, 0)
    """
    rule = head.one_idler_follows is not False
    return tuple(idlers_needed(pairs, follows=follows, one_idler_follows=rule) for pairs in range(1, MOST_PAIRS + 1))


def _left(head: Head, used: tuple[Wheel, ...]) -> list[int]:
    taken = [teeth for _, teeth in used]
    return [teeth for teeth, count in head.wheels for _ in range(count - taken.count(teeth))]


def _middle(left: list[int], count: int) -> tuple[int, ...]:
    """Take idlers from the middle of what is left: the largest are likely to foul, the smallest to fall short."""
    start = (len(left) - count) // 2
    return tuple(left[start : start + count])


def _placed(drivers: tuple[Wheel, ...], driven: tuple[Wheel, ...]) -> Train:
    """Place the larger driver on the spindle and the larger driven wheel at the plate.

    So each wheel on the stud clears the shaft beside it by more than 15 teeth, as long as none has fewer than 16: a + b
    is above c + 15 because a is no smaller than c, and c + d above b + 15 because d is no smaller than b.
    """
    pairs = zip(sorted(drivers, reverse=True), sorted(driven), strict=True)
    return Train(tuple(Pair(driver, wheel) for (_, driver), (_, wheel) in pairs))
