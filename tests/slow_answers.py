"""The obvious slow way: try every wheel in every place, and look at each train by itself.

Nothing here is shared with the search: no products meet in the middle, no codes, no steps of tolerance.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, permutations
from math import prod

from solver.quantities.pi_multiples import PI_HIGH, PI_LOW, Lead, PiLength
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.wheels import Pair, Train
from tests.slow_banjo import can_be_mounted

#: A wheel as (class, teeth).
Wheel = tuple[int, int]


@dataclass(frozen=True, slots=True)
class SlowMatch:
    """A choice of drivers and driven wheels at one lever, with the size of its error."""

    error: Fraction
    lever: str | None
    drivers: tuple[Wheel, ...]
    driven: tuple[Wheel, ...]


def every_wheel(lathe: Lathe) -> list[Wheel]:
    """Lay every single wheel of the box on the bench, the second 20 T beside the first."""
    return [
        (number, teeth)
        for number, wheel_class in enumerate(lathe.wheel_classes)
        for teeth, count in wheel_class.stock
        for _ in range(count)
    ]


def every_choice(lathe: Lathe, pairs: int) -> Iterator[tuple[tuple[Wheel, ...], tuple[Wheel, ...]]]:
    """Yield every different choice of so many drivers and as many driven wheels that lie on the bench at once."""
    bench = every_wheel(lathe)
    seen = set()
    for taken in combinations(range(len(bench)), 2 * pairs):
        wheels = tuple(bench[each] for each in taken)
        if wheels in seen:
            continue
        seen.add(wheels)
        halves = set()
        for places in combinations(range(2 * pairs), pairs):
            drivers = tuple(wheels[each] for each in places)
            driven = tuple(wheels[each] for each in range(2 * pairs) if each not in places)
            halves.add((drivers, driven))
        yield from sorted(halves)


def placed(drivers: Sequence[Wheel], driven: Sequence[Wheel], lathe: Lathe) -> list[Train]:
    """List every order of both rows in which each pair is of one class and each class in a pair it may sit in."""
    trains = set()
    for above in set(permutations(drivers)):
        for below in set(permutations(driven)):
            pairs = tuple(Pair(a[1], b[1], a[0]) for a, b in zip(above, below, strict=True))
            of_one_class = all(a[0] == b[0] for a, b in zip(above, below, strict=True))
            if of_one_class and all(
                lathe.wheel_classes[pair.wheel_class].only_in_pair in (None, number)
                for number, pair in enumerate(pairs, start=1)
            ):
                trains.add(Train(pairs))
    return sorted(trains)


def lead_middle_mm(lead: Lead) -> Fraction:
    """Return the lead in millimetres, midway between the proven bounds where it is a multiple of pi."""
    return lead.mm_per_pi * (PI_LOW + PI_HIGH) / 2 if isinstance(lead, PiLength) else lead.mm


def slow_matches(lathe: Lathe, lead: Lead, pairs: int) -> list[SlowMatch]:
    """List every placeable choice of wheels at every lever, by rising error."""
    found = []
    wanted = lead_middle_mm(lead)
    # What equal wheels cut at each lever, as a part of what is wanted.
    equal = [
        (lever, lathe.leadscrew_lead.mm * (1 + lathe.measured) * lathe.stud_turns * ratio / wanted)
        for lever, ratio in lathe.levers or ((None, Fraction(1)),)
    ]
    # In a box of one class that may sit anywhere, every choice has a placing.
    is_plain = len(lathe.wheel_classes) == 1 and lathe.wheel_classes[0].only_in_pair is None
    for drivers, driven in every_choice(lathe, pairs):
        if not is_plain and not placed(drivers, driven, lathe):
            continue
        top, bottom = 1, 1
        for (_, a), (_, b) in zip(drivers, driven, strict=True):
            top, bottom = top * a, bottom * b
        for lever, part in equal:
            cut, due = part.numerator * top, part.denominator * bottom
            found.append(SlowMatch(Fraction(abs(cut - due), due), lever, drivers, driven))
    return sorted(found, key=lambda match: match.error)


def best_error(lathe: Lathe, lead: Lead, pairs: int) -> Fraction | None:
    """Return the least error of so many pairs, mounting apart; ``None`` when the box makes no such train."""
    return min((match.error for match in slow_matches(lathe, lead, pairs)), default=None)


def mountable(match: SlowMatch, lathe: Lathe, hand: Hand = Hand.RIGHT) -> bool | None:
    """Say whether any placing of a match can be mounted; ``None`` when that hangs on less than floats hold."""
    verdicts = [can_be_mounted(train, lathe, hand) for train in placed(match.drivers, match.driven, lathe)]
    if any(verdicts):
        return True
    return None if None in verdicts else False


def best_in_ints(teeth: Sequence[int], ratio: Fraction, pairs: int) -> Fraction:
    """Return the least error over a box with one wheel of each count: nested loops in plain whole numbers.

    This is the brute force that the benchmark times, written as a careful person would: products once, no
    fractions in the loop, the wanted ratio cleared of its denominator.
    """
    rows = [(each, prod(each)) for each in combinations(teeth, pairs)]
    top, bottom = ratio.numerator, ratio.denominator
    least, under = 1, 0  # The fraction 1/0: nothing found yet.
    for drivers, above in rows:
        held = set(drivers)
        cut = above * bottom
        for driven, below in rows:
            wanted = below * top
            off = cut - wanted if cut > wanted else wanted - cut
            if off * under < least * wanted and held.isdisjoint(driven):
                least, under = off, wanted
    return Fraction(least, under)
