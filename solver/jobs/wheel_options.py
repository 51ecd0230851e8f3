"""Which wheels, added to a box, let a lathe cut a lead: every smallest choice of them, one size after another.

An option is a handful of wheels to add: with all of them some train within the tolerance goes on, with none of them
left out does it. They are found as trains are, drivers met with driven wheels in the middle; each side is some wheels
of the box and some to add, so wheels of the box are counted and wheels to add are not.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence, Set
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, combinations_with_replacement
from math import comb, prod
from typing import NamedTuple

from solver.quantities.pi_multiples import Lead, lead_bounds_mm
from solver.trains.banjo_gauge import BanjoGauge
from solver.trains.chain import chain_of
from solver.trains.hand import Hand, suits_hand
from solver.trains.idlers import MOST_IDLERS, idler_sets, is_worth_trying, most_idlers, wheels_left
from solver.trains.lathe import Lathe
from solver.trains.matches import Sleeve, sleeve_choices
from solver.trains.mounting import Mounter, keeps_to_pair_places, placings
from solver.trains.sides import MOST_OF_ONE, Box, Side, Wheel
from solver.trains.wheels import Train

#: Teeth of wheels to add, rising; two alike are two wheels.
Added = tuple[int, ...]
#: Rows and set-ups looked at between two chances to stop.
PULSE = 2000
#: Most rows of one side kept; a hundred bytes each.
MOST_ROWS = 2_000_000


class TooManySidesError(Exception):
    """The sides of the trains asked for are more than are kept in memory; whoever walks the options stops there."""


class _Sides(NamedTuple):
    """One side of trains: products by rising size, and for each the place of its own wheels and of those added."""

    products: list[int]
    rows: list[tuple[int, int, int]]
    own: list[Side]
    added: list[Added]


class _Match(NamedTuple):
    """Wheels of a train near enough, with what must be added for it, its idlers apart."""

    added: Added
    drivers: tuple[Wheel, ...]
    driven: tuple[Wheel, ...]
    sleeves: tuple[Sleeve, ...]


def contains_any(added: Added, options: Set[Added]) -> bool:
    """Say whether some, not all, of the wheels are an option by themselves.

    Examples
    --------
    >>> contains_any((21, 63), {(63,)}), contains_any((63,), {(63,)})
    (True, False)
    """
    return any(part in options for size in range(1, len(added)) for part in combinations(added, size))


class WheelOptions:
    """The smallest choices of wheels that unlock a lead on one lathe.

    Parameters
    ----------
    lathe : Lathe
        With its real box; wheels to add join its first class.
    candidates : sequence of int
        Teeth of the wheels that may be added, each as often as wanted.
    most_pairs : int, optional
        Pairs of the trains considered.
    hand : Hand, optional
        Hand of the threads.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (80, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> options = WheelOptions(lathe, range(20, 128), most_pairs=1)
    >>> [each for each in options.of_size(Length.of_mm(1), Fraction(0), 1, set()) if each]
    [(127,)]
    """

    def __init__(
        self, lathe: Lathe, candidates: Sequence[int], *, most_pairs: int = 3, hand: Hand = Hand.RIGHT
    ) -> None:
        self._lathe = lathe
        self._candidates = tuple(sorted(set(candidates)))
        self._most_pairs = most_pairs
        self._box = Box(lathe.wheel_classes)
        self._mounter = Mounter(lathe, hand)
        self._hand = hand
        self._planes = lathe.banjo.planes if lathe.banjo else None
        self._gauge = BanjoGauge(lathe)
        self._rich = _with_all(lathe, self._candidates)
        self._made: dict[tuple[tuple[int, ...], int], _Sides] = {}
        #: Pairs of sides and set-ups looked at so far.
        self.looked_at = 0

    def of_size(self, lead: Lead, within: Fraction, size: int, smaller: Set[Added]) -> Iterator[Added | None]:
        """Yield every option of so many wheels, in no particular order.

        Parameters
        ----------
        lead : Length or PiLength
            Wanted lead, which the lathe does not cut as it is.
        within : Fraction
            Largest error, as a part of the lead.
        size : int
            Wheels of an option, 1 or more.
        smaller : set of tuple of int
            Every option of fewer wheels.

        Yields
        ------
        tuple of int or None
            Teeth by rising size; ``None`` now and then, for whoever asks to look at the clock.

        Raises
        ------
        TooManySidesError
            The candidates are so many that one side alone would fill the memory.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.wheels import WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (80, 1))),)
        >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
        >>> options = WheelOptions(lathe, (20, 50, 100, 127), most_pairs=1)
        >>> [each for each in options.of_size(Length.of_mm("1.25"), Fraction(0), 2, set()) if each]
        [(50, 127)]
        """
        found = set(smaller)
        for in_train in range(size, max(size - MOST_IDLERS, 0) - 1, -1):
            for pairs in range(1, self._most_pairs + 1):
                if not self._mounter.has_way_for(pairs) or (in_train < size and not self._may_add_idlers(pairs)):
                    continue
                for match in self._matches(lead, within, pairs, in_train):
                    for added in self._unlocking(match, size, found) if match else (None,):
                        if added:
                            found.add(added)
                        yield added

    def _unlocking(self, match: _Match, size: int, found: Set[Added]) -> Iterator[Added | None]:
        """Yield what a match makes new options of: its own wheels, or with idlers to add besides."""
        if match.added in found or contains_any(match.added, found):
            return
        every = placings(match.drivers, match.driven, match.sleeves)
        trains = (train for train in every if keeps_to_pair_places(train, self._lathe))
        if len(match.added) < size:
            yield from self._with_idlers(list(trains), match.added, size, found)
        elif self._goes_on(trains, len(match.drivers)):
            yield match.added

    def _goes_on(self, trains: Iterator[Train], pairs: int) -> bool:
        """Say whether some placing goes on, with the idlers of the box where it must."""
        tried = []
        suits = suits_hand(pairs, self._lathe, self._hand)
        for train in trains:
            self.looked_at += 1
            if suits and self._gauge.fits(chain_of(train, (), self._planes)):
                return True
            tried.append(train)
        return self._may_add_idlers(pairs) and self._mounter.first_that_fits(tried) is not None

    def _with_idlers(
        self, trains: Sequence[Train], in_train: Added, size: int, found: Set[Added]
    ) -> Iterator[Added | None]:
        """Yield what is to be added when some of the idlers are not in the box."""
        tried = 0
        for train in trains:
            left = Counter(dict(wheels_left(train, self._lathe, 0)))
            # A wheel to add that is like one of the box leaves that one in the box.
            own = dict(self._lathe.wheel_classes[0].stock)
            used = Counter(teeth for number, teeth in train.wheels if number == 0)
            for teeth in set(in_train) & own.keys():
                left[teeth] = own[teeth] - used[teeth] + in_train.count(teeth)
            for count in range(1, most_idlers(train, self._lathe) + 1):
                for idlers in idler_sets(train, self._rich, count) if self._is_worth_trying(train, count) else ():
                    tried += 1
                    if tried % PULSE == 0:
                        yield None
                    needed = Counter(each.teeth for each in idlers if train.pairs[each.mesh - 1].wheel_class == 0)
                    added = tuple(sorted((*in_train, *(needed - left).elements())))
                    if len(added) != size or added in found or contains_any(added, found):
                        continue
                    self.looked_at += 1
                    if self._gauge.fits(chain_of(train, idlers, self._planes)):
                        yield added

    def _may_add_idlers(self, pairs: int) -> bool:
        return self._gauge.knows_reach or not suits_hand(pairs, self._lathe, self._hand)

    def _is_worth_trying(self, train: Train, count: int) -> bool:
        meshes = len(train.pairs) + count
        return is_worth_trying(meshes, count, self._lathe, self._hand, for_reach=self._gauge.knows_reach)

    def _matches(self, lead: Lead, within: Fraction, pairs: int, in_train: int) -> Iterator[_Match | None]:
        """Yield every choice of wheels near enough, so many of them to add; mounting apart."""
        low, high = lead_bounds_mm(lead)
        ratios = sorted({ratio for _, ratio in self._lathe.lever_ratios})
        for sleeves in sleeve_choices(self._lathe.keyed_pairs, pairs - 1):
            drive = tuple((0, driver) for _, driver in sleeves)
            follow = tuple((0, driven) for driven, _ in sleeves)
            fixed = Fraction(prod(driver for _, driver in drive), prod(driven for _, driven in follow))
            for ratio in ratios:
                wanted = (low + high) / 2 / (self._lathe.lead_at_equal_wheels.mm * ratio * fixed)
                for composition in self._box.compositions(pairs - len(sleeves), pairs):
                    for above in range(max(0, in_train - composition[0]), min(in_train, composition[0]) + 1):
                        drivers = self._sides(composition, above)
                        driven = self._sides(composition, in_train - above)
                        for both in self._meet(drivers, driven, wanted * (1 - within), wanted * (1 + within)):
                            yield both and _Match(
                                tuple(sorted((*both[0][1], *both[1][1]))),
                                _joined(*both[0], drive),
                                _joined(*both[1], follow),
                                sleeves,
                            )

    def _sides(self, composition: tuple[int, ...], added: int) -> _Sides:
        """List the sides with so many wheels of each class, so many of the first class to add."""
        key = composition, added
        if key not in self._made:
            own = self._box.sides((composition[0] - added, *composition[1:]))
            if len(own) * comb(len(self._candidates) + added - 1, added) > MOST_ROWS:
                raise TooManySidesError
            extra = list(combinations_with_replacement(self._candidates, added))
            products = [prod(each) for each in extra]
            rows = sorted(
                (side.product * product, at, beside)
                for at, side in enumerate(own)
                for beside, product in enumerate(products)
            )
            self._made[key] = _Sides([row[0] for row in rows], rows, own, extra)
        return self._made[key]

    def _meet(
        self, drivers: _Sides, driven: _Sides, low: Fraction, high: Fraction
    ) -> Iterator[tuple[tuple[Side, Added], tuple[Side, Added]] | None]:
        """Yield every two sides whose quotient lies between two ends, and that the box holds at once."""
        products, end, start, every = driven.products, 0, 0, len(driven.products)
        low_top, low_bottom, high_top, high_bottom = low.numerator, low.denominator, high.numerator, high.denominator
        can_share = self._box.can_share
        for count, (product, at, beside) in enumerate(drivers.rows):
            if count % PULSE == 0:
                yield None
            # Both ends of the run move on only, for the products of both sides rise.
            least = product * high_bottom
            while start < every and products[start] * high_top < least:
                start += 1
            most = product * low_bottom
            end = max(end, start)
            while end < every and products[end] * low_top <= most:
                end += 1
            if start < end:
                self.looked_at += end - start
                mine = drivers.own[at]
                for _, there, besides in driven.rows[start:end]:
                    if can_share(mine, driven.own[there]):
                        yield (mine, drivers.added[beside]), (driven.own[there], driven.added[besides])


def _joined(side: Side, added: Added, sleeved: tuple[Wheel, ...]) -> tuple[Wheel, ...]:
    return tuple(sorted((*side.wheels, *((0, teeth) for teeth in added), *sleeved)))


def _with_all(lathe: Lathe, candidates: Sequence[int]) -> Lathe:
    """Return the lathe with so many of every candidate that none ever runs out."""
    first, *others = lathe.wheel_classes
    stock = Counter(dict(first.stock))
    stock.update(dict.fromkeys(candidates, MOST_OF_ONE + MOST_IDLERS))
    return replace(lathe, wheel_classes=(replace(first, stock=tuple(sorted(stock.items()))), *others))
