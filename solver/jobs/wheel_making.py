"""How a person makes a change wheel: its blank, the cutter, and what divides it on the head or the lathe at hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from solver.dividing.choosing import ChoiceReport, choose
from solver.dividing.heads import Head
from solver.dividing.moves import IndexAnswer, Method
from solver.dividing.spindle_stops import StopSetting, stops_of_spindle, wheels_with_detent
from solver.dividing.table_dial import DialTable, dial_alone
from solver.helices.cutter_ranges import CutterRange, cutter_for
from solver.quantities.angles import Angle
from solver.quantities.circle_figures import cosine
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.refusals import ImpossibleSettingError
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass
from solver.wheelwork.tooth_cutting import SET_BEGINS, SpurTooth, clean_from, read_spur_tooth
from solver.worms.tooth_sizes import INCH_FLANK, MODULE_FLANK

#: Pressure angles that cutters of the set are made to, the larger first: a wheel of one never runs with the other.
PRESSURE_ANGLES = (MODULE_FLANK, INCH_FLANK)


class BasePitch(NamedTuple):
    """What a calliper over teeth grows by from one tooth to the next, and from how many teeth on none is undercut.

    Parameters
    ----------
    pressure_angle : Angle
        Of the cutter, and of every wheel that is to run with it.
    step : Length
        Module times pi times the cosine of the angle, good to 40 decimals.
    clean_from : int
        Fewer teeth than this are undercut, or eased by a cutter of the set.
    """

    pressure_angle: Angle
    step: Length
    clean_from: int


class WheelMaking(NamedTuple):
    """All that is needed to make one wheel.

    Parameters
    ----------
    teeth : int
        Of the wheel.
    tooth : SpurTooth
        Size of tooth, depth and blank come from it.
    cutter : CutterRange or None
        Which of the set of eight; ``None`` below the fewest teeth it is shaped for.
    base_pitches : tuple of BasePitch
        By which the pressure angle of the wheels at hand is told: one for each angle in use, or only the one that the
        lathe's file names.
    on_head : ChoiceReport or None
        Settings of the head, exact ones first; ``None`` where it divides nothing so fine.
    with_change_wheels : IndexAnswer or None
        Where the head has nothing exact by itself: a setting that gears its plate with wheels out of the lathe's box.
    on_lathe : tuple of StopSetting
        Ways to divide it on the spindle of the lathe itself, all exact.
    by_dial : DialTable or None
        In place of settings of the head, every tooth by the dial of a table that has nothing else.
    """

    teeth: int
    tooth: SpurTooth
    cutter: CutterRange | None
    base_pitches: tuple[BasePitch, ...]
    on_head: ChoiceReport | None
    with_change_wheels: IndexAnswer | None
    on_lathe: tuple[StopSetting, ...]
    by_dial: DialTable | None = None

    @property
    def outside(self) -> Length:
        """Diameter to turn the blank to.

        Examples
        --------
        >>> box = WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1)))
        >>> making_of(63, Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, (box,)), None).outside
        Length(mm=Fraction(65, 1))
        """
        return self.tooth.outside(self.teeth)

    @property
    def is_divided(self) -> bool:
        """True where some way at hand divides it exactly.

        Examples
        --------
        >>> box = WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1)))
        >>> making_of(63, Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, (box,)), None).is_divided
        False
        """
        found = self.by_dial or self.on_head
        is_exact = found is not None and found.is_exact
        return is_exact or self.with_change_wheels is not None or bool(self.on_lathe)


def making_of(teeth: int, lathe: Lathe, head: Head | None) -> WheelMaking:
    """Say how to make a wheel of the lathe's first class.

    Parameters
    ----------
    teeth : int
        Of the wheel.
    lathe : Lathe
        Whose box it joins, and whose own spindle may divide it.
    head : Head or None
        The dividing head at hand.

    Returns
    -------
    WheelMaking
        The head's own wheels serve it where its file lists some; else those of the lathe's box are tried on it.

    Examples
    --------
    >>> stock = ((25, 1), (35, 1), (45, 1))
    >>> box = WheelClass("module 1", Length.of_mm(1), stock)
    >>> lathe = Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, (box,))
    >>> making = making_of(63, lathe, None)
    >>> making.on_lathe[0].on_spindle, making.on_lathe[0].on_stud, making.cutter.fewest, making.cutter.most
    (35, (25, 45), 55, 134)
    """
    first = lathe.wheel_classes[0]
    tooth = read_spur_tooth(first.size)
    angles = PRESSURE_ANGLES if first.pressure_angle is None else (first.pressure_angle,)
    by_dial = _by_dial(head, teeth)
    report = None if by_dial is not None else _on_head(head, teeth)
    return WheelMaking(
        teeth,
        tooth,
        cutter_for(Fraction(teeth)) if teeth >= SET_BEGINS else None,
        tuple(BasePitch(angle, tooth.module * (PI_LOW * cosine(angle)), clean_from(angle)) for angle in angles),
        report,
        _with_change_wheels(head, first, teeth) if report is None or not report.is_exact else None,
        _on_lathe(lathe, teeth),
        by_dial,
    )


def _by_dial(head: Head | None, teeth: int) -> DialTable | None:
    """Work the teeth out for a table that its dial alone divides; nothing where the dial is too coarse for them."""
    try:
        return None if head is None else dial_alone(head, Fraction(1, teeth), teeth)
    except ImpossibleSettingError:
        return None


def _on_head(head: Head | None, teeth: int) -> ChoiceReport | None:
    if head is None:
        return None
    report = choose(head, Fraction(1, teeth), at_once=1)
    return report if report.best is not None else None


def _with_change_wheels(head: Head | None, box: WheelClass, teeth: int) -> IndexAnswer | None:
    """Gear the plate of a head that lists no wheels of its own with those of the lathe's box."""
    if head is None or head.wheels:
        return None
    geared = replace(head, wheels=box.stock)
    return choose(geared, Fraction(1, teeth), methods=(Method.DIFFERENTIAL,)).best


def _on_lathe(lathe: Lathe, teeth: int) -> tuple[StopSetting, ...]:
    found: list[StopSetting] = []
    for ways in (stops_of_spindle, wheels_with_detent):
        try:
            found += ways(lathe, teeth)
        except ImpossibleSettingError:
            continue
    return tuple(found)
