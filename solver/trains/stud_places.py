"""Where the studs come to sit on a banjo that swings about the leadscrew axis.

The leadscrew axis is the origin and the stud gear stands ``D`` away along x. A stud on a slot at ``r`` from the
leadscrew meshes at the sum of two pitch radii, so the last stud is at the last such sum, the one before it that
much farther out or in, and the first one fixes the swing by the triangle of three known sides::

    cos(angle at the leadscrew) = (r*r + D*D - d*d) / (2*r*D)      d: stud gear to stud 1

Everything given is a whole number of units, so places in one slot and the reach are decided exactly. What needs a
square root or the cosine of an angle is worked to 40 places. Roots near zero lose half of them twice over at the
worst, so every point lies well within ``BOUND_MM`` of the truth; what is decided by less is called too close.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import isqrt
from typing import NamedTuple

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import cosine, sine
from solver.trains.lathe import Banjo
from solver.trains.layout import Fault, Obstacle

#: No point is farther than this from the truth. [mm]
BOUND_MM = Fraction(1, 10**9)
#: Places are held as whole parts of a unit, this many to one.
SCALE = 10**40
#: A stud of an undescribed slot may sit anywhere; in units that is this far.
_ANYWHERE = 10**9


class Stud(NamedTuple):
    """A stud on trial: its slot, 0 or 1, and its distance from the leadscrew in scaled units."""

    slot: int
    r: int
    is_exact: bool
    is_close: bool = False


class Standing(NamedTuple):
    """Studs that reach: the points of all axes in scaled units, and the direction of the first slot."""

    studs: tuple[Stud, ...]
    points: tuple[tuple[int, int], ...]
    first_slot: tuple[int, int]
    faults: tuple[Fault, ...]


class _Slot(NamedTuple):
    """A slot in scaled units, and how it is turned from the first one."""

    least: int
    most: int
    cos: int
    sin: int


class StudPlaces:
    """The slots, the centre distance and the swing of one banjo, in whole units.

    Parameters
    ----------
    banjo : Banjo
        With its centre distance.
    unit : int
        Whole units in a millimetre; every length of the banjo is a whole number of them.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> places = StudPlaces(Banjo(centre_distance=Length.of_mm(120)), 1)
    >>> next(places.trials([60, 70])).studs[0].r // SCALE
    70
    """

    def __init__(self, banjo: Banjo, unit: int) -> None:
        self._unit = unit
        self.bound = int(BOUND_MM * unit * SCALE)
        self._centres = int(banjo.centre_distance.mm * unit) if banjo.centre_distance else 0
        turns = (Angle(Fraction(0)), banjo.second_slot_at or Angle(Fraction(0)))
        self._slots = [
            _Slot(
                int(ends[0].mm * unit) * SCALE, int(ends[1].mm * unit) * SCALE, _scaled(cosine(at)), _scaled(sine(at))
            )
            for ends, at in zip((banjo.slot, banjo.second_slot), turns, strict=True)
            if ends is not None
        ] or [_Slot(0, _ANYWHERE * unit * SCALE, SCALE, 0)]
        self._swing = None
        if banjo.swing is not None and banjo.swing[1].turns - banjo.swing[0].turns < 1:
            self._swing = tuple((_scaled(cosine(end)), _scaled(sine(end))) for end in banjo.swing)
            self._swing_wide = (banjo.swing[1].turns - banjo.swing[0].turns) * 2 >= 1
        self._swing_degrees = tuple(end.degrees for end in banjo.swing) if banjo.swing else ()

    def trials(self, distances: Sequence[int], *, only_hopeful: bool = False) -> Iterator[Standing]:
        """Yield every way to stand: each slot, outward before inward, swung to the right before the left.

        Parameters
        ----------
        distances : sequence of int
            From each axis to the next in units, stud gear first; one stud or more.
        only_hopeful : bool
            Leave out, as soon as it is seen, what has a stud plainly beyond its slot or cannot reach.

        Yields
        ------
        Standing
            Its ``points`` are empty when the studs cannot stand; its ``faults`` then say why.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> places = StudPlaces(Banjo(centre_distance=Length.of_mm(120)), 1)
        >>> [trial.faults[0].obstacle.value for trial in places.trials([40, 70])]
        ['cannot reach']
        """
        for studs in self._outward(distances, len(distances) - 1, None, only_hopeful=only_hopeful):
            if not (only_hopeful and self._is_out_of_reach(studs[0], distances[0])):
                yield from self._reached(tuple(studs), distances[0])

    def _outward(
        self, distances: Sequence[int], at: int, inner: Stud | None, *, only_hopeful: bool
    ) -> Iterator[list[Stud]]:
        """Place stud ``at`` and those before it, given the stud nearer the leadscrew; spindle side first."""
        for stud in self._meshing(distances[at], inner):
            if only_hopeful and self.slot_slack(stud) < 0 and not self._is_close(stud):
                continue
            if at == 1:
                yield [stud]
            else:
                for rest in self._outward(distances, at - 1, stud, only_hopeful=only_hopeful):
                    yield [*rest, stud]

    def _meshing(self, distance: int, inner: Stud | None) -> Iterator[Stud]:
        """List where a stud can mesh at a distance from the one nearer the leadscrew, or from the leadscrew."""
        apart = distance * SCALE
        for number, slot in enumerate(self._slots):
            if inner is None:
                yield Stud(number, apart, is_exact=True)
            elif inner.slot == number:
                yield Stud(number, inner.r + apart, inner.is_exact)
                if inner.r > apart:
                    yield Stud(number, inner.r - apart, inner.is_exact)
            else:
                held = self._slots[inner.slot]
                # The cosine and sine of the angle between the two slots.
                cos = (slot.cos * held.cos + slot.sin * held.sin) // SCALE
                sin = (slot.sin * held.cos - slot.cos * held.sin) // SCALE
                foot, off = inner.r * cos // SCALE, abs(inner.r * sin // SCALE)
                if off > apart + self.bound:
                    continue
                half = isqrt(max(apart * apart - off * off, 0))
                for r in (foot + half, foot - half):
                    if r > 0:
                        yield Stud(number, r, is_exact=False, is_close=abs(apart - off) <= self.bound)

    def _reached(self, studs: tuple[Stud, ...], distance: int) -> Iterator[Standing]:
        """Swing the banjo until the first stud meshes with the stud gear; to both sides."""
        faults = [fault for axis, stud in enumerate(studs, start=1) if (fault := self._off_slot(axis, stud))]
        first, apart, centres = studs[0], distance * SCALE, self._centres * SCALE
        nearest, farthest, is_close = self._reach_of(first, apart)
        if is_close or not nearest <= apart <= farthest:
            needed = (self._mm(nearest), self._mm(farthest))
            faults.append(Fault(Obstacle.REACH, (0, 1), (), (self._mm(apart),), needed, is_close))
            yield Standing(studs, (), (0, 0), tuple(faults))
            return
        # Along x and, times two D, across: exact for an exact stud but for the last root.
        along = first.r * first.r + centres * centres - apart * apart
        across = isqrt((2 * centres * first.r) ** 2 - along * along)
        x, y = along // (2 * centres), across // (2 * centres)
        for side in (1, -1) if y else (1,):
            yield self._swung(studs, (x, side * y), faults)

    def _reach_of(self, first: Stud, apart: int) -> tuple[int, int, bool]:
        """Return the nearest and the farthest that the first stud can come to the stud gear, and if it is close."""
        nearest, farthest = abs(self._centres * SCALE - first.r), self._centres * SCALE + first.r
        return (
            nearest,
            farthest,
            not first.is_exact and min(abs(apart - nearest), abs(apart - farthest)) <= self.bound,
        )

    def _is_out_of_reach(self, first: Stud, distance: int) -> bool:
        nearest, farthest, is_close = self._reach_of(first, distance * SCALE)
        return not is_close and not nearest <= distance * SCALE <= farthest

    def _swung(self, studs: tuple[Stud, ...], point: tuple[int, int], faults: list[Fault]) -> Standing:
        """Give the points of all axes, the first stud being at ``point``."""
        first = self._slots[studs[0].slot]
        (x, y), r = point, studs[0].r
        # Turned back by the angle of its slot, the first stud shows where the first slot points.
        ahead = (x * first.cos + y * first.sin) // SCALE, (y * first.cos - x * first.sin) // SCALE
        points = [(self._centres * SCALE, 0)]
        for stud in studs:
            slot = self._slots[stud.slot]
            turned = ahead[0] * slot.cos - ahead[1] * slot.sin, ahead[0] * slot.sin + ahead[1] * slot.cos
            points.append((turned[0] * stud.r // (r * SCALE), turned[1] * stud.r // (r * SCALE)))
        points.append((0, 0))
        beyond = self._beyond_swing(ahead)
        return Standing(studs, tuple(points), ahead, (*faults, *beyond))

    def _beyond_swing(self, ahead: tuple[int, int]) -> list[Fault]:
        """Hold the direction of the first slot against both ends of the swing."""
        if self._swing is None:
            return []
        low, high = self._swing
        # Distances to the left of the low end and to the right of the high end, of a point one stud away.
        past_low = (low[0] * ahead[1] - low[1] * ahead[0]) // SCALE
        short_of_high = (ahead[0] * high[1] - ahead[1] * high[0]) // SCALE
        inside = max if self._swing_wide else min
        slack = inside(past_low, short_of_high)
        if slack > self.bound:
            return []
        return [Fault(Obstacle.SWING, (1,), (), (), self._swing_degrees, slack >= -self.bound)]

    def _off_slot(self, axis: int, stud: Stud) -> Fault | None:
        """Say when a stud is beyond its slot; at the very end of an exact place it still goes on."""
        is_close = self._is_close(stud)
        if self.slot_slack(stud) >= 0 and not is_close:
            return None
        slot = self._slots[stud.slot]
        ends = (self._mm(slot.least), self._mm(slot.most))
        return Fault(Obstacle.SLOT, (axis,), (), (self._mm(stud.r),), ends, is_close)

    def _is_close(self, stud: Stud) -> bool:
        """Say whether it hangs on the bound of the computation that a stud is on its slot."""
        return stud.is_close or (not stud.is_exact and abs(self.slot_slack(stud)) <= self.bound)

    def slot_slack(self, stud: Stud) -> int:
        """Return how far a stud is from the nearer end of its slot, in scaled units.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> banjo = Banjo(centre_distance=Length.of_mm(120), slot=(Length.of_mm(30), Length.of_mm(90)))
        >>> StudPlaces(banjo, 1).slot_slack(Stud(0, 70 * SCALE, is_exact=True)) // SCALE
        20
        """
        slot = self._slots[stud.slot]
        return min(stud.r - slot.least, slot.most - stud.r)

    def _mm(self, scaled: int) -> Fraction:
        return Fraction(scaled, SCALE * self._unit)


def _scaled(value: Fraction) -> int:
    return value.numerator * SCALE // value.denominator
