"""Drivers met with driven wheels: complete within a tolerance, so what comes out nearest is proven nearest.

Products of drivers meet products of driven wheels in the middle. The tolerance is widened step by step;
within each step every match is found, so the first step that holds one holds the nearest.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from solver.quantities.pi_multiples import Lead, lead_bounds_mm
from solver.trains.lathe import Lathe
from solver.trains.sides import Box, Side, Wheel
from solver.trains.wheels import WheelClass

#: Widening steps of the tolerance, as parts of the lead; after the last every train counts.
STEPS: tuple[Fraction, ...] = (Fraction(0), *(Fraction(1, 10**power) for power in range(5, 0, -1)), Fraction(1, 2))
#: Everything is within this: no box of wheels reaches a millionfold error.
EVERYTHING = Fraction(10**12)


class Match(NamedTuple):
    """Drivers and driven wheels that come near the wanted ratio at one lever position."""

    error: Fraction
    lever: str | None
    drivers: tuple[Wheel, ...]
    driven: tuple[Wheel, ...]


#: The products of one side by rising size, and the side that makes each.
Half = tuple[list[int], list[Side]]


@lru_cache(maxsize=8)
def _halves(classes: tuple[WheelClass, ...], pairs: int) -> tuple[Half, ...]:
    """Make one half of the search for each way to share out the pairs; drivers and driven use the same half."""
    box = Box(classes)
    listed = (box.sides(composition) for composition in box.compositions(pairs))
    return tuple(([side.product for side in sides], sides) for sides in listed if sides)


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
        By rising error; the first is proven nearest, and every match as near as the last is there.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (50, 1), (127, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> nearest_matches(lathe, Length.of_mm(1), 1)[0].drivers
    ((0, 40),)
    """
    halves = Halves(lathe, pairs)
    for step in (*STEPS, EVERYTHING):
        matches = sorted(halves.matches(lead, step), key=lambda match: abs(match.error))
        if matches:
            return matches
    return []


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
        self._by_composition = _halves(lathe.wheel_classes, pairs)

    def matches(self, lead: Lead, within: Fraction | int) -> Iterator[Match]:
        """Yield every pair of sides the box can hold at once whose lead is within a part of the wanted one.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (127, 1))),)
        >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
        >>> [match.driven for match in Halves(lathe, 1).matches(Length.of_mm(1), 0)]
        [((0, 127),)]
        """
        for lever, lever_ratio in self._lathe.lever_ratios:
            base = self._lathe.lead_at_equal_wheels.mm * lever_ratio
            low, high = (bound / base for bound in lead_bounds_mm(lead))
            for half in self._by_composition:
                yield from self._meet(half, (low, high), Fraction(within), lever)

    def _meet(
        self, half: Half, wanted: tuple[Fraction, Fraction], within: Fraction, lever: str | None
    ) -> Iterator[Match]:
        # A driven product Q serves the driver product P when P/Q lies within the tolerance of the wanted
        # ratio: least * P <= Q <= most * P. The ends are compared in whole numbers, never in floats.
        products, sides = half
        least = 1 / (wanted[1] * (1 + within))
        most = 1 / (wanted[0] * (1 - within)) if within < 1 else Fraction(products[-1])
        least_top, least_bottom = least.numerator, least.denominator
        most_top, most_bottom = most.numerator, most.denominator
        middle = (wanted[0] + wanted[1]) / 2
        can_share = self._box.can_share
        # Driver products that need a driven product outside the box are passed over at both ends.
        first = bisect_left(products, -(-products[0] * most_bottom // most_top))
        last = bisect_right(products, products[-1] * least_bottom // least_top)
        for at in range(first, last):
            product = products[at]
            start = bisect_left(products, -(-product * least_top // least_bottom))
            end = bisect_right(products, product * most_top // most_bottom, start)
            if start < end:
                drivers = sides[at]
                for driven in sides[start:end]:
                    if can_share(drivers, driven):
                        error = Fraction(product, driven.product) / middle - 1
                        yield Match(error, lever, drivers.wheels, driven.wheels)
