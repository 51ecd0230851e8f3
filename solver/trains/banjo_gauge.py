"""Everything a lathe file says of the banjo, held against a set-up: the one judge of what goes on.

The rule of every two axes, whether the file gives the whole banjo or only the wheels: a wheel must clear the shaft
of an axis that carries nothing in its plane, and the wheel of an axis that does. For two pairs that is the shaft
rule of the trade::

    a            b on the first stud must clear the shaft of d, c must clear the shaft of a:
    b c             a + b > c + k   and   c + d > b + k
      d          k = 2 + stud nut / module; 15 when the file does not give the nut
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import chain as one_after_another
from math import isqrt, lcm

from solver.quantities.lengths import Length
from solver.trains.chain import Chain, Seat
from solver.trains.lathe import Lathe
from solver.trains.layout import Fault, Finding, Layout, Obstacle, StudPlace
from solver.trains.stud_places import SCALE, Standing, StudPlaces

#: Teeth of clearance when the stud nut is not known; common practice, no source.
USUAL_CLEARANCE_TEETH = 15

#: A distance two axes must keep, in units, beyond their mesh: what for, and the wheels in question.
_Need = tuple[int, Obstacle, tuple[int, ...], tuple[Seat, ...]]


class BanjoGauge:
    """The banjo of one lathe in whole units, made once to judge very many set-ups.

    Parameters
    ----------
    lathe : Lathe
        Its wheel sizes and its banjo.

    Examples
    --------
    >>> from solver.trains.chain import Idler, chain_of
    >>> from solver.trains.lathe import Banjo
    >>> from solver.trains.wheels import Pair, Train, WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1), (80, 1))),)
    >>> banjo = Banjo(2, Length.of_mm(120), (Length.of_mm(30), Length.of_mm(100)), stud_nut=Length.of_mm(12))
    >>> gauge = BanjoGauge(Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), True, box, banjo=banjo))
    >>> finding = gauge.examine(chain_of(Train((Pair(40, 60),)), [Idler(1, 80)]))
    >>> finding.faults, finding.layout.studs[0].from_leadscrew
    ((), Length(mm=Fraction(70, 1)))
    """

    def __init__(self, lathe: Lathe) -> None:
        banjo = lathe.banjo
        self._banjo = banjo
        halves = [each.module.mm / 2 for each in lathe.wheel_classes]
        ends = [banjo.slot, banjo.second_slot, *banjo.mesh_limits] if banjo else []
        given = [*halves, *(end.mm for pair in ends if pair for end in pair)]
        if banjo and banjo.stud_nut:
            given.append(banjo.stud_nut.mm / 2)
        if banjo and banjo.centre_distance:
            given.append(banjo.centre_distance.mm)
        self._unit = lcm(*(each.denominator for each in given))
        self._half = [int(each * self._unit) for each in halves]
        nut = banjo.stud_nut if banjo else None
        #: What is kept free round a shaft beyond the tip of a wheel, by class: k less two modules, halved.
        self._shaft = [
            half * (USUAL_CLEARANCE_TEETH - 2) if nut is None else self._whole(nut) // 2 for half in self._half
        ]
        self._limits = [(self._whole(a), self._whole(b)) for a, b in banjo.mesh_limits] if banjo else []
        self._centres = self._whole(banjo.centre_distance) if banjo and banjo.centre_distance else None
        self._places = StudPlaces(banjo, self._unit) if banjo and banjo.centre_distance else None

    @property
    def knows_reach(self) -> bool:
        """True when the file tells what the wheels must span, so that idlers are chosen for reach too.

        Examples
        --------
        >>> BanjoGauge(Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, ())).knows_reach
        False
        """
        return self._places is not None or bool(self._limits)

    def _whole(self, length: Length) -> int:
        return int(length.mm * self._unit)

    def _mm(self, units: int) -> Fraction:
        return Fraction(units, self._unit)

    def fits(self, chain: Chain) -> bool:
        """Say whether nothing stands in the way, looking no further than the first fault of each trial.

        Examples
        --------
        >>> from solver.trains.chain import chain_of
        >>> from solver.trains.wheels import Pair, Train, WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1))),)
        >>> bare = BanjoGauge(Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, box))
        >>> bare.fits(chain_of(Train((Pair(40, 60),))))
        True
        """
        return self._outcome(chain) is True

    def is_close_call(self, chain: Chain) -> bool:
        """Say whether only the bound of the computation keeps a set-up from being called one that fits.

        Examples
        --------
        >>> from solver.trains.chain import chain_of
        >>> from solver.trains.wheels import Pair, Train, WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1))),)
        >>> bare = BanjoGauge(Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, box))
        >>> bare.is_close_call(chain_of(Train((Pair(40, 60),))))
        False
        """
        return self._outcome(chain) is None

    def _outcome(self, chain: Chain) -> bool | None:
        """Fits, does not, or ``None`` for too close to call; no further than the first plain fault of each trial."""
        apart = self._apart(chain)
        if next(self._plain_faults(chain, apart), None) is not None:
            return False
        if self._places is None:
            return True
        if len(apart) == 1:
            return apart[0] == self._centres
        outcome: bool | None = False
        for trial in self._places.trials(apart, only_hopeful=True):
            faults = one_after_another(trial.faults, self._far_faults(chain, trial))
            first = next(faults, None)
            if first is None:
                return True
            if first.is_close and all(fault.is_close for fault in faults):
                outcome = None
        return outcome

    def examine(self, chain: Chain) -> Finding:
        """Find the layout that goes on, or every fault of the one that comes nearest to it.

        Examples
        --------
        >>> from solver.trains.chain import chain_of
        >>> from solver.trains.wheels import Pair, Train, WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((24, 1), (32, 1), (48, 1), (100, 1))),)
        >>> gauge = BanjoGauge(Lathe("mill", "10 in", Length.of_inches(10), Fraction(1), True, box))
        >>> [fault.obstacle.value for fault in gauge.examine(chain_of(Train((Pair(32, 24), Pair(100, 48))))).faults]
        ['wheel on shaft']
        """
        apart = self._apart(chain)
        plain = tuple(self._plain_faults(chain, apart))
        if self._places is None:
            return Finding(plain)
        if len(apart) == 1:
            return Finding((*plain, *self._direct_faults(apart[0])))
        # There is a trial always: every stud outward in the first slot.
        trials = self._places.trials(apart)
        best = next(trials)
        faults = (*plain, *best.faults, *self._far_faults(chain, best))
        for trial in trials:
            if not faults:
                break
            found = (*plain, *trial.faults, *self._far_faults(chain, trial))
            if _badness(found) < _badness(faults):
                best, faults = trial, found
        return Finding(faults, self._layout(chain, best) if best.points else None)

    def _apart(self, chain: Chain) -> list[int]:
        """Return how far each axis stands from the next: the sums of the pitch radii."""
        return [self._half[contact.wheel_class] * (contact.first + contact.second) for contact in chain.contacts]

    def _plain_faults(self, chain: Chain, apart: Sequence[int]) -> Iterator[Fault]:
        """Yield what is seen without working out any place: counts, guard, mesh limits and neighbouring axes."""
        banjo = self._banjo
        if banjo is not None:
            if banjo.studs is not None and chain.studs > banjo.studs:
                yield Fault(Obstacle.STUDS, found=(Fraction(chain.studs),), needed=(Fraction(banjo.studs),))
            if banjo.planes is not None and banjo.planes < 2 <= len(chain.planes):
                yield Fault(Obstacle.PLANES, found=(Fraction(len(chain.planes)),), needed=(Fraction(banjo.planes),))
            if banjo.largest_wheel_teeth is not None:
                largest = max(max(contact.first, contact.second) for contact in chain.contacts)
                if largest > banjo.largest_wheel_teeth:
                    needed = (Fraction(banjo.largest_wheel_teeth),)
                    yield Fault(Obstacle.GUARD, found=(Fraction(largest),), needed=needed)
            if len(apart) < len(self._limits):
                counts = (Fraction(len(apart)),), (Fraction(len(self._limits)),)
                yield Fault(Obstacle.SHORT, found=counts[0], needed=counts[1])
            else:
                for axis, (least, most) in enumerate(self._limits):
                    if not least <= apart[axis] <= most:
                        ends = (self._mm(least), self._mm(most))
                        yield Fault(Obstacle.LIMITS, (axis, axis + 1), (), (self._mm(apart[axis]),), ends)
        for axis, distance in enumerate(apart):
            for need, obstacle, axes, seats in self._needs(chain, axis, axis + 1):
                if distance <= need:
                    yield Fault(obstacle, axes, seats, (self._mm(distance),), (self._mm(need),))

    def _needs(self, chain: Chain, axis: int, other: int) -> list[_Need]:
        """List the distances that two axes must keep beyond meshing; in units."""
        seats, facing = chain.seats(axis), chain.seats(other)
        mesh = chain.planes[chain.contacts[axis].pair] if other == axis + 1 else 0
        needs: list[_Need] = []
        for mine, theirs, axes in ((seats, facing, (axis, other)), (facing, seats, (other, axis))):
            for seat in mine:
                if seat.plane == mesh:
                    continue
                tip = self._half[seat.wheel_class] * (seat.teeth + 2)
                beside = [each for each in theirs if each.plane == seat.plane]
                if not beside:
                    needs.append((tip + self._shaft[seat.wheel_class], Obstacle.SHAFT, axes, (seat,)))
                elif axes[0] < axes[1]:
                    both = tip + self._half[beside[0].wheel_class] * (beside[0].teeth + 2)
                    needs.append((both, Obstacle.WHEELS, axes, (seat, beside[0])))
        return needs

    def _direct_faults(self, apart: int) -> Iterator[Fault]:
        """Hold the one mesh of two wheels without a stud against the centre distance."""
        if self._centres is not None and apart != self._centres:
            yield Fault(Obstacle.REACH, (0, 1), (), (self._mm(apart),), (self._mm(self._centres),))

    def _far_faults(self, chain: Chain, trial: Standing) -> Iterator[Fault]:
        """Yield what axes that do not mesh do to one another, at distances with a bound; nothing without places."""
        bound = self._places.bound if self._places else 0
        for axis, other, square in _far_squares(trial.points):
            for need, obstacle, axes, seats in self._needs(chain, axis, other):
                least = need * SCALE - bound
                if square <= (least + 2 * bound) ** 2:
                    found = self._mm(isqrt(square)) / SCALE
                    yield Fault(obstacle, axes, seats, (found,), (self._mm(need),), square >= least**2)

    def _layout(self, chain: Chain, trial: Standing) -> Layout:
        """Say a trial in millimetres, drawn with the stud gear above the leadscrew, and its tightest gap."""
        scale = SCALE * self._unit
        gaps: list[tuple[int, tuple[int, ...]]] = []
        for axis, distance in enumerate(self._apart(chain)):
            gaps += [(SCALE * (distance - need[0]), (axis, axis + 1)) for need in self._needs(chain, axis, axis + 1)]
        for axis, other, square in _far_squares(trial.points):
            gaps += [(isqrt(square) - SCALE * need[0], (axis, other)) for need in self._needs(chain, axis, other)]
        if self._banjo and (self._banjo.slot or self._banjo.second_slot) and self._places:
            gaps += [(self._places.slot_slack(stud), (axis,)) for axis, stud in enumerate(trial.studs, start=1)]
        clearance, tightest = min(gaps)
        return Layout(
            tuple(StudPlace(stud.slot + 1, Length(Fraction(stud.r, scale))) for stud in trial.studs),
            tuple((Fraction(y, scale), Fraction(x, scale)) for x, y in trial.points),
            (Fraction(trial.first_slot[1], scale), Fraction(trial.first_slot[0], scale)),
            Length(Fraction(clearance, scale)),
            tightest,
        )


def _far_squares(points: Sequence[tuple[int, int]]) -> Iterator[tuple[int, int, int]]:
    """Yield every two axes that are not neighbours, with the square of their distance."""
    for axis in range(len(points) - 2):
        for other in range(axis + 2, len(points)):
            x, y = points[axis][0] - points[other][0], points[axis][1] - points[other][1]
            yield axis, other, x * x + y * y


def _badness(faults: Sequence[Fault]) -> tuple[int, int]:
    """Order trials: fewer plain faults, then fewer that are too close to call."""
    close = sum(fault.is_close for fault in faults)
    return len(faults) - close, close
