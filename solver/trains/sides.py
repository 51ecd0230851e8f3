"""Every product of drivers, or of driven wheels, that a box can make: the two halves of the search.

A side is coded so that two sides share the box if and only if one addition shows no carry::

    field of one wheel   g c c c c      g: guard bit, c: how many are used
    pad                  15 - stock     used + used + pad carries into g when the box runs out
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations_with_replacement, product
from math import prod
from operator import itemgetter
from typing import NamedTuple

from solver.trains.wheels import WheelClass

_FIELD_BITS = 5
_GUARD = 16
_PAD = 15

#: Most wheels of one count that matter: four pairs use eight at the most.
MOST_OF_ONE = 8

#: A wheel as (class, teeth).
Wheel = tuple[int, int]


class Side(NamedTuple):
    """The drivers, or the driven wheels, of a train: their product, box code and wheels.

    A named tuple, because a box makes tens of thousands of them; product, code and wheels sort them as they stand.
    """

    product: int
    code: int
    wheels: tuple[Wheel, ...]


def _joined(first: Side, second: Side) -> Side:
    return Side(first.product * second.product, first.code + second.code, first.wheels + second.wheels)


@dataclass(frozen=True, slots=True)
class Box:
    """A coded stock of wheels.

    Parameters
    ----------
    classes : tuple of WheelClass
        The stock.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> box = Box((WheelClass("module 1", Length.of_mm(1), ((20, 1), (40, 2))),))
    >>> [side.wheels for side in box.sides((1,))]
    [((0, 20),), ((0, 40),)]
    >>> twenty, forty = box.sides((1,))
    >>> box.can_share(twenty, twenty), box.can_share(forty, forty)
    (False, True)
    """

    classes: tuple[WheelClass, ...]
    _shift: dict[Wheel, int] = field(init=False)
    _pad: int = field(init=False)
    _guard: int = field(init=False)

    def __post_init__(self) -> None:
        shift: dict[Wheel, int] = {}
        pad = guard = 0
        for number, wheel_class in enumerate(self.classes):
            for teeth, count in wheel_class.stock:
                place = _FIELD_BITS * len(shift)
                shift[number, teeth] = place
                pad |= (_PAD - min(count, MOST_OF_ONE)) << place
                guard |= _GUARD << place
        object.__setattr__(self, "_shift", shift)
        object.__setattr__(self, "_pad", pad)
        object.__setattr__(self, "_guard", guard)

    def can_share(self, drivers: Side, driven: Side) -> bool:
        """Say whether the box holds both sides at once.

        Examples
        --------
        >>> Box(()).can_share(Side(1, 0, ()), Side(1, 0, ()))
        True
        """
        return not (drivers.code + driven.code + self._pad) & self._guard

    def sides(self, composition: Sequence[int]) -> list[Side]:
        """List every side with ``composition[i]`` wheels of class ``i``, by rising product, then by wheels.

        Examples
        --------
        >>> Box(()).sides(())
        [Side(product=1, code=0, wheels=())]
        """
        sides = [Side(1, 0, ())]
        for number, count in enumerate(composition):
            fresh = self._of_class(number, count)
            sides = fresh if len(sides) == 1 and not sides[0].wheels else [_joined(a, b) for a in sides for b in fresh]
        # The wheels come in order already, so a stable sort by product leaves equal products in order of wheels.
        sides.sort(key=itemgetter(0))
        return sides

    def _of_class(self, number: int, count: int) -> list[Side]:
        """List the sides of one class that the box holds; whole columns at once, for there are many."""
        wheels = [(number, teeth) for teeth, _ in self.classes[number].stock]
        columns = (
            map(prod, combinations_with_replacement([teeth for _, teeth in wheels], count)),
            map(sum, combinations_with_replacement([1 << self._shift[wheel] for wheel in wheels], count)),
            combinations_with_replacement(wheels, count),
        )
        pad, guard = self._pad, self._guard
        return [Side._make(row) for row in zip(*columns, strict=True) if not (row[1] + pad) & guard]

    def compositions(self, pairs: int, places: int | None = None) -> Iterator[tuple[int, ...]]:
        """Yield how many of ``pairs`` pairs may come from each class, in a train of ``places`` pairs if that is more.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> small = WheelClass("60 DP", Length.of_mm(1), ((100, 1), (127, 1)), only_in_pair=1)
        >>> large = WheelClass("24 DP", Length.of_mm(1), ((20, 2),))
        >>> list(Box((large, small)).compositions(2))
        [(1, 1), (2, 0)]
        """
        for counts in product(range(pairs + 1), repeat=len(self.classes)):
            if sum(counts) != pairs:
                continue
            limited = [
                (count, only)
                for count, only in zip(counts, (c.only_in_pair for c in self.classes), strict=True)
                if only
            ]
            if all(count == 0 or (count == 1 and only <= (places or pairs)) for count, only in limited):
                taken = [only for count, only in limited if count]
                if len(taken) == len(set(taken)):
                    yield counts
