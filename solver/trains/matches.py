"""Drivers met with driven wheels: complete within a tolerance, so what comes out nearest is proven nearest.

Products of drivers meet products of driven wheels in the middle. The tolerance is widened step by step;
within each step every match is found, so the first step that holds one holds the nearest.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import combinations, islice, product
from typing import NamedTuple

from solver.quantities.pi_multiples import Lead, lead_bounds_mm
from solver.trains.lathe import Lathe
from solver.trains.sides import Box, Side, Wheel
from solver.trains.wheels import WheelClass

#: Widening steps of the tolerance, as parts of the lead; after the last every train counts.
STEPS: tuple[Fraction, ...] = (Fraction(0), *(Fraction(1, 10**power) for power in range(5, 0, -1)), Fraction(1, 2))
#: Everything is within this: no box of wheels reaches a millionfold error.
EVERYTHING = Fraction(10**12)
#: Most matches listed at once; a step that holds more is cut into smaller ones, ties of one error apart.
MOST_LISTED = 20_000
#: Cuts of one step before its matches are taken for ties.
MOST_CUTS = 48


#: Two wheels joined for good, as they are put on a stud: the driven one, then the driver.
Sleeve = tuple[int, int]


class Match(NamedTuple):
    """Drivers and driven wheels that come near the wanted ratio at one lever position.

    ``keyed`` lists the wheels among them that are joined for good: a driven one and the driver on its sleeve.
    """

    error: Fraction
    lever: str | None
    drivers: tuple[Wheel, ...]
    driven: tuple[Wheel, ...]
    keyed: tuple[Sleeve, ...] = ()


class Band(NamedTuple):
    """All matches within a tolerance, by rising error; ``is_complete`` is false when ties were too many to list."""

    within: Fraction
    matches: list[Match]
    is_complete: bool


class Runs(NamedTuple):
    """What serves at one lever position: the ratio wanted, the sides, and for each driver the run of driven ones.

    ``wanted`` is the ratio of the loose wheels alone; the sleeves in use make the rest.
    """

    lever: str | None
    sleeves: tuple[Sleeve, ...]
    wanted: Fraction
    sides: list[Side]
    windows: list[tuple[int, int, int]]


#: The products of one side by rising size, and the side that makes each.
Half = tuple[list[int], list[Side]]


@lru_cache(maxsize=16)
def _halves(classes: tuple[WheelClass, ...], pairs: int, loose: int) -> tuple[Half, ...]:
    """Make one half of the search for each way to share out the pairs; drivers and driven use the same half.

    Only ``loose`` of the wheels on each side come out of the box; the others are on sleeves.
    """
    box = Box(classes)
    listed = (box.sides(composition) for composition in box.compositions(loose, pairs))
    return tuple(([side.product for side in sides], sides) for sides in listed if sides)


def sleeve_choices(keyed_pairs: Sequence[Sleeve], most: int) -> Iterator[tuple[Sleeve, ...]]:
    """Yield every choice of keyed pairs to use at once, none first, each the one way round and the other.

    Examples
    --------
    >>> list(sleeve_choices([(60, 63)], 1))
    [(), ((60, 63),), ((63, 60),)]
    """
    for count in range(min(most, len(keyed_pairs)) + 1):
        seen = set()
        for chosen in combinations(keyed_pairs, count):
            for turned in product((False, True), repeat=count):
                sleeves = tuple(sorted(each[::-1] if turn else each for each, turn in zip(chosen, turned, strict=True)))
                if sleeves not in seen:
                    seen.add(sleeves)
                    yield sleeves


def nearest_matches(lathe: Lathe, lead: Lead, pairs: int) -> list[Match]:
    """Find the nearest drivers and driven wheels for a lead, nothing said of mounting or hand.

    Parameters
    ----------
    lathe : Lathe
        With its real box of wheels.
    lead : Length or PiLength
        Wanted lead.
    pairs : int
        Number of pairs, no fewer and no more.

    Returns
    -------
    list of Match
        By rising error; the first is proven nearest.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (50, 1), (127, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> nearest_matches(lathe, Length.of_mm(1), 1)[0].drivers
    ((0, 40),)
    """
    bands = Halves(lathe, pairs).bands(lead, STEPS[-1])
    return next((band.matches for band in bands if band.matches), [])


def forget_halves() -> None:
    """Drop the halves kept from earlier searches, so that a measurement starts from nothing.

    Examples
    --------
    >>> forget_halves()
    """
    _halves.cache_clear()


class Halves:
    """Both halves of the search for one lathe and one number of pairs, asked at every tolerance.

    Parameters
    ----------
    lathe : Lathe
        With its real box of wheels.
    pairs : int
        Number of pairs, no fewer and no more.
    """

    def __init__(self, lathe: Lathe, pairs: int) -> None:
        self._lathe = lathe
        self._box = Box(lathe.wheel_classes)
        # A sleeve is the driven wheel of one pair and the driver of the next, so it takes two pairs or more.
        self._by_sleeves = [
            (sleeves, _halves(lathe.wheel_classes, pairs, pairs - len(sleeves)))
            for sleeves in sleeve_choices(lathe.keyed_pairs, pairs - 1)
        ]

    def bands(self, lead: Lead, within: Fraction) -> Iterator[Band]:
        """Yield all matches within ever wider tolerances, through ``within`` and on to everything.

        Each band is complete: a match nearer than one it holds is in it. A step that would list too many is cut
        into smaller ones; when so many share one error that no cut parts them, the first of them are listed, the
        band says that it is not complete, and it is the last.

        Parameters
        ----------
        lead : Length or PiLength
            Wanted lead.
        within : Fraction
            A tolerance at which one of the bands ends, unless they end before.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (50, 1), (127, 1))),)
        >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
        >>> [len(band.matches) for band in Halves(lathe, 1).bands(Length.of_mm(1), Fraction(1, 10))][:2]
        [1, 1]
        """
        covered = Fraction(-1)
        for step in sorted({*STEPS, within, EVERYTHING}):
            while covered < step:
                reach, runs = self._cut(lead, covered, step)
                listed = islice(self._matches(runs), MOST_LISTED)
                is_complete = _held(runs) <= MOST_LISTED
                yield Band(reach, sorted(listed, key=lambda match: abs(match.error)), is_complete)
                if not is_complete:
                    return
                covered = reach

    def _cut(self, lead: Lead, covered: Fraction, step: Fraction) -> tuple[Fraction, list[Runs]]:
        """Find a tolerance up to ``step``, beyond ``covered``, that is not too full, and the runs within it."""
        empty, full = max(covered, Fraction(0)), step
        runs = self._runs(lead, full)
        if _held(runs) <= MOST_LISTED or empty == full:
            return full, runs
        held_before = _held(self._runs(lead, empty))
        for _ in range(MOST_CUTS):
            between = (full / 16 if full > 32 * empty else (empty + full) / 2).limit_denominator(10**15)
            if not empty < between < full:
                break
            found = self._runs(lead, between)
            if _held(found) > MOST_LISTED:
                full, runs = between, found
            elif _held(found) > held_before:
                return between, found
            else:
                empty = between
        return full, runs

    def _runs(self, lead: Lead, within: Fraction) -> list[Runs]:
        """List for every lever position and every half which driven products serve which driver product."""
        low, high = lead_bounds_mm(lead)
        listed = []
        for lever, lever_ratio in self._lathe.lever_ratios:
            for sleeves, by_composition in self._by_sleeves:
                base = self._lathe.lead_at_equal_wheels.mm * lever_ratio
                for driven, driver in sleeves:
                    base *= Fraction(driver, driven)
                wanted = low / base, high / base
                middle = (wanted[0] + wanted[1]) / 2
                for products, sides in by_composition:
                    listed.append(Runs(lever, sleeves, middle, sides, _windows(products, wanted, within)))
        return listed

    def _matches(self, runs: list[Runs]) -> Iterator[Match]:
        """Yield every pair of sides in the runs that the box can hold at once."""
        can_share = self._box.can_share
        for lever, sleeves, wanted, sides, windows in runs:
            drive = tuple((0, driver) for _, driver in sleeves)
            follow = tuple((0, driven) for driven, _ in sleeves)
            for at, start, end in windows:
                drivers = sides[at]
                for driven in sides[start:end]:
                    if can_share(drivers, driven):
                        error = Fraction(drivers.product, driven.product) / wanted - 1
                        yield Match(error, lever, _joined(drivers, drive), _joined(driven, follow), sleeves)


def _joined(side: Side, sleeved: tuple[Wheel, ...]) -> tuple[Wheel, ...]:
    """Put the wheels of the sleeves among the loose ones, in order."""
    return tuple(sorted(side.wheels + sleeved)) if sleeved else side.wheels


def _held(runs: list[Runs]) -> int:
    """Count the matches in the runs, those that the box cannot hold at once among them."""
    return sum(end - start for each in runs for _, start, end in each.windows)


def _windows(products: list[int], wanted: tuple[Fraction, Fraction], within: Fraction) -> list[tuple[int, int, int]]:
    """List for each driver product the run of driven products that serve it: its place, start and end."""
    # A driven product Q serves the driver product P when P/Q lies within the tolerance of the wanted
    # ratio: least * P <= Q <= most * P. The ends are compared in whole numbers, never in floats.
    least = 1 / (wanted[1] * (1 + within))
    most = 1 / (wanted[0] * (1 - within)) if within < 1 else Fraction(products[-1])
    least_top, least_bottom = least.numerator, least.denominator
    most_top, most_bottom = most.numerator, most.denominator
    # Driver products that need a driven product outside the box are passed over at both ends.
    first = bisect_left(products, -(-products[0] * most_bottom // most_top))
    last = bisect_right(products, products[-1] * least_bottom // least_top)
    windows = []
    for at in range(first, last):
        product = products[at]
        start = bisect_left(products, -(-product * least_top // least_bottom))
        end = bisect_right(products, product * most_top // most_bottom, start)
        if start < end:
            windows.append((at, start, end))
    return windows
