"""What is said of a set-up on a banjo: where the studs sit, and what stands in the way."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent
from solver.quantities.lengths import Length
from solver.trains.chain import Seat


class Obstacle(Enum):
    """What stands in the way of a set-up."""

    STUDS = "not enough studs"
    PLANES = "not enough planes"
    GUARD = "larger than the guard allows"
    LIMITS = "outside the centre distances of a mesh"
    SHORT = "fewer meshes than the banjo spans"
    SHAFT = "wheel on shaft"
    WHEELS = "wheel on wheel in one plane"
    SLOT = "slot too short"
    REACH = "cannot reach"
    SWING = "beyond the swing"


class Fault(NamedTuple):
    """One obstacle with the axes and wheels it is about, and the figures that show it.

    Parameters
    ----------
    obstacle : Obstacle
        What stands in the way.
    axes : tuple of int
        Axes of the chain, 0 for the stud gear.
    seats : tuple of Seat
        Wheels in question.
    found, needed : tuple of Fraction
        What there is and what there would have to be: mm between axes or along a slot, else plain counts.
    is_close : bool
        Decided by less than the bound of the computation: too close to call.
    """

    obstacle: Obstacle
    axes: tuple[int, ...] = ()
    seats: tuple[Seat, ...] = ()
    found: tuple[Fraction, ...] = ()
    needed: tuple[Fraction, ...] = ()
    is_close: bool = False


class StudPlace(NamedTuple):
    """Where a stud sits: in which slot, counted from 1, and how far from the leadscrew axis."""

    slot: int
    from_leadscrew: Length


class Layout(NamedTuple):
    """A set-up in the plane, seen from the wheels, stud gear above the leadscrew.

    Parameters
    ----------
    studs : tuple of StudPlace
        From the spindle side.
    points : tuple of (Fraction, Fraction)
        Axes from the stud gear to the leadscrew, in mm to the right of the leadscrew axis and above it.
    slot_direction : (Fraction, Fraction)
        Right and up along the first slot; of any length.
    clearance : Length
        The tightest gap: between a wheel and what it may not touch, or to the end of a slot; below zero it fouls.
    tightest : tuple of int
        The two axes of the tightest gap, or the one stud nearest the end of its slot.
    """

    studs: tuple[StudPlace, ...]
    points: tuple[tuple[Fraction, Fraction], ...]
    slot_direction: tuple[Fraction, Fraction]
    clearance: Length
    tightest: tuple[int, ...]

    @property
    def swing(self) -> Angle:
        """Swing of the first slot from the line of the two axes, plus to the right.

        Examples
        --------
        >>> Layout((), (), (Fraction(1), Fraction(1)), Length.of_mm(1), ()).swing.degrees
        Fraction(45, 1)
        >>> Layout((), (), (Fraction(-1), Fraction(-1)), Length.of_mm(1), ()).swing.degrees
        Fraction(-135, 1)
        """
        right, up = self.slot_direction
        if up == 0:
            return Angle.of_degrees(90 if right > 0 else -90)
        straight = arc_tangent(right / up)
        if up > 0:
            return straight
        return Angle(straight.turns + Fraction(1 if right >= 0 else -1, 2))


class Finding(NamedTuple):
    """The faults of a set-up, none when it goes on; and the layout that was looked at, where places are known."""

    faults: tuple[Fault, ...]
    layout: Layout | None = None

    @property
    def is_too_close(self) -> bool:
        """True when all that stands in the way is decided by less than the bound.

        Examples
        --------
        >>> Finding(()).is_too_close, Finding((Fault(Obstacle.REACH, is_close=True),)).is_too_close
        (False, True)
        """
        return bool(self.faults) and all(fault.is_close for fault in self.faults)
