"""The lathe as its owner describes it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.trains.wheels import WheelClass


@dataclass(frozen=True, slots=True)
class Banjo:
    """What the file says of the banjo; ``None`` where it says nothing.

    Parameters
    ----------
    studs : int or None
        How many studs it carries.
    centre_distance : Length or None
        Stud-gear axis to leadscrew axis.
    slot : (Length, Length) or None
        Where a stud can sit, from the leadscrew axis; the slot runs straight through that axis.
    swing : (Angle, Angle) or None
        How far the first slot swings from the line of the two axes; plus is towards the front of the lathe.
    stud_nut : Length or None
        Largest nut, washer or boss on any axis, in diameter.
    mesh_limits : tuple of (Length, Length)
        The simple alternative to slot and swing: centre distances each mesh allows, spindle side first.
    largest_wheel_teeth : int or None
        Largest wheel that the guard lets turn.
    second_slot : (Length, Length) or None
        Like ``slot``, for a banjo with two.
    second_slot_at : Angle or None
        Where the second slot stands from the first, the same way round as the swing.
    planes : int or None
        How many wheels deep the axes are; trains of more pairs fold back into the planes there are.
    """

    studs: int | None = None
    centre_distance: Length | None = None
    slot: tuple[Length, Length] | None = None
    swing: tuple[Angle, Angle] | None = None
    stud_nut: Length | None = None
    mesh_limits: tuple[tuple[Length, Length], ...] = ()
    largest_wheel_teeth: int | None = None
    second_slot: tuple[Length, Length] | None = None
    second_slot_at: Angle | None = None
    planes: int | None = None


@dataclass(frozen=True, slots=True)
class ChasingDial:
    """A thread dial: teeth of the wheel on the leadscrew, and lines round the dial."""

    wheel_teeth: int
    lines: int


@dataclass(frozen=True, slots=True)
class Lathe:
    """A lathe by its figures.

    Parameters
    ----------
    name : str
        How the owner calls it.
    leadscrew_text : str
        The lead as the file writes it, for echoing: ``8 tpi`` or ``3 mm``.
    leadscrew_lead : Length
        Carriage travel for one turn of the leadscrew, as cut by whoever made it true.
    stud_turns : Fraction
        Turns of the stud gear for one turn of the spindle.
    has_reverse : bool
        A tumbler or other reverse is fitted.
    wheel_classes : tuple of WheelClass
        The box of wheels.
    keyed_pairs : tuple of (int, int)
        Wheels joined for good on one sleeve, in addition to the box.
    levers : tuple of (str, Fraction)
        Gearbox positions: leadscrew turns for one turn of the box input; empty without a box.
    measured : Fraction
        Progressive error of this very leadscrew as a part of its lead, plus for a long one; zero when unmeasured.
    measured_text : str
        The same as the file writes it, for echoing.
    has_left_hand_screw : bool
        The leadscrew is left-handed.
    is_stud_stated, is_reverse_stated : bool
        The file says so itself; else ``stud_turns`` and ``has_reverse`` are taken.
    """

    name: str
    leadscrew_text: str
    leadscrew_lead: Length
    stud_turns: Fraction
    has_reverse: bool
    wheel_classes: tuple[WheelClass, ...]
    keyed_pairs: tuple[tuple[int, int], ...] = ()
    banjo: Banjo | None = None
    levers: tuple[tuple[str, Fraction], ...] = ()
    chasing_dial: ChasingDial | None = None
    spindle_stops: tuple[int, ...] = ()
    measured: Fraction = Fraction(0)
    measured_text: str = ""
    has_left_hand_screw: bool = False
    is_stud_stated: bool = True
    is_reverse_stated: bool = True

    @property
    def true_leadscrew_lead(self) -> Length:
        """Lead of the screw that is really in the lathe: nominal lead and measured error.

        Examples
        --------
        >>> worn = Lathe("worn", "3 mm", Length.of_mm(3), Fraction(1), True, (), measured=Fraction(1, 10_000))
        >>> worn.true_leadscrew_lead
        Length(mm=Fraction(30003, 10000))
        """
        return self.leadscrew_lead * (1 + self.measured) if self.measured else self.leadscrew_lead

    @property
    def lead_at_equal_wheels(self) -> Length:
        """Lead cut with equal wheels and the box straight through, by the screw that is really in the lathe.

        Examples
        --------
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 2),)),)
        >>> Lathe("small", "3 mm", Length.of_mm(3), Fraction(1, 2), True, box).lead_at_equal_wheels
        Length(mm=Fraction(3, 2))
        """
        return self.true_leadscrew_lead * self.stud_turns

    @property
    def lever_ratios(self) -> tuple[tuple[str | None, Fraction], ...]:
        """Lever positions to search; one unnamed position of ratio 1 when there is no box.

        Examples
        --------
        >>> Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, ()).lever_ratios
        ((None, Fraction(1, 1)),)
        """
        return self.levers or ((None, Fraction(1)),)

    def at_lever(self, lever: str) -> Lathe:
        """Return the same lathe with its box left in one position.

        Examples
        --------
        >>> levers = (("A", Fraction(1)), ("B", Fraction(2)))
        >>> Lathe("boxed", "3 mm", Length.of_mm(3), Fraction(1), True, (), levers=levers).at_lever("B").levers
        (('B', Fraction(2, 1)),)
        """
        return replace(self, levers=tuple(each for each in self.levers if each[0] == lever))

    def with_wheel(self, teeth: int) -> Lathe:
        """Return the same lathe with one more wheel of its first class.

        Examples
        --------
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 1),)),)
        >>> lathe = Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, box)
        >>> lathe.with_wheel(127).wheel_classes[0].stock
        ((20, 1), (127, 1))
        """
        first, *others = self.wheel_classes
        return replace(self, wheel_classes=(first.with_wheel(teeth), *others))
