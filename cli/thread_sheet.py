"""What ``thread`` answers, gathered section by section for the screen and for JSON."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from gearsets.drill_tables import Drill, nearest_inch, nearest_metric
from gearsets.thread_forms import DrawnThread
from solver.dials.screw_dials import ScrewDial
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.threads.cutting import Cutting, CuttingWishes, cutting
from solver.threads.holes_and_blanks import (
    Basis,
    bases_of,
    basis_named,
    die_blank,
    engagement_of,
    tapping_hole,
    usual_engagement,
)
from solver.threads.limits import Limits
from solver.threads.measuring import Measuring, measuring
from solver.threads.run_out import run_out
from solver.threads.spindle_speed import USUAL_REACTION, USUAL_SURFACE_SPEED, SpindleSpeed, spindle_speed
from solver.threads.to_shoulder import ToShoulder, to_shoulder
from solver.trains.hand import Hand

#: Sections of the answer, in the order of the work.
SECTIONS = ("dimensions", "cutting", "speed", "measuring", "hole")
#: Steps to which the best wire is rounded, by the unit of the set-up.
MM_WIRE, INCH_WIRE = Length.of_mm("0.001"), Length.of_inches("0.0001")


class SheetWishes(NamedTuple):
    """What the person asked for beside the thread."""

    cut: CuttingWishes
    hand: Hand
    in_inches: bool
    sections: tuple[str, ...]
    surface: Length | None = None
    length: Length | None = None
    screw: ScrewDial | None = None
    top_screw: ScrewDial | None = None
    reaction: Fraction | None = None
    wire: Length | None = None
    reading: Length | None = None
    engagement: Fraction | None = None
    basis_word: str | None = None


class SpeedSection(NamedTuple):
    """The speed and what it rests on."""

    speed: SpindleSpeed
    surface: Length
    surface_assumed: bool
    reaction: Fraction
    reaction_assumed: bool
    stopping: Length
    shoulder: ToShoulder | None = None


class HoleSection(NamedTuple):
    """The hole to tap, drills near it, and the blank for a die."""

    basis: Basis
    engagement: Fraction
    hole: Length
    on_other_bases: tuple[tuple[Basis, Fraction], ...]
    drills: tuple[tuple[Drill, Fraction], ...]
    blank: Length
    blank_by_class: bool


class ThreadSheet(NamedTuple):
    """The whole answer; a section that was not asked for is ``None``."""

    drawn: DrawnThread
    wishes: SheetWishes
    screw_limits: Limits | None
    nut_limits: Limits | None
    cutting: Cutting | None
    speed: SpeedSection | None
    measuring: Measuring | None
    no_wires: str
    hole: HoleSection | None
    no_hole: str


def thread_sheet(drawn: DrawnThread, wishes: SheetWishes) -> ThreadSheet:
    """Work out the sections that were asked for; a thread that no standard's figures allow is refused at once."""
    drawn.thread.basic()
    screw, nut = drawn.limits()
    asked = set(wishes.sections)
    measured, no_wires = _measuring(drawn, screw, wishes) if "measuring" in asked else (None, "")
    hole, no_hole = _hole(drawn, screw, wishes) if "hole" in asked else (None, "")
    # The time of a length counts the passes, asked for or not.
    cut = cutting(drawn.thread, wishes.cut) if "cutting" in asked or wishes.length is not None else None
    return ThreadSheet(
        drawn,
        wishes,
        screw,
        nut,
        cut if "cutting" in asked else None,
        _speed(drawn, wishes, cut) if "speed" in asked else None,
        measured,
        no_wires,
        hole,
        no_hole,
    )


def class_remark(sheet: ThreadSheet, written: str) -> str:
    """Say that a class written behind the thread has no limits here; empty where it has, or none is written.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> from solver.threads.thread import Thread
    >>> thread = Thread(FORMS["trapezoidal"], Length.of_mm(16), Length.of_mm(4))
    >>> wishes = SheetWishes(CuttingWishes(), Hand.RIGHT, False, ())
    >>> class_remark(thread_sheet(DrawnThread(thread, None, "Tr 16x4", False), wishes), "7e")
    'Limits of class 7e are not worked out here for the form ISO trapezoidal, 30°.'
    """
    known = {each.of_class.value.casefold() for each in (sheet.screw_limits, sheet.nut_limits) if each is not None}
    missing = [each for each in written.split("/") if each and each.casefold() not in known]
    if not missing:
        return ""
    form = sheet.drawn.thread.form
    told = "; the sheet has those of 2G" if form.key == "acme" else ""
    return f"Limits of class {' and '.join(missing)} are not worked out here for the form {form.title}{told}."


def _speed(drawn: DrawnThread, wishes: SheetWishes, cut: Cutting | None) -> SpeedSection:
    thread = drawn.thread
    basic = thread.basic().internal if wishes.cut.internal else thread.basic().external
    root = basic.major if wishes.cut.internal else basic.minor
    groove = run_out(thread, root, internal=wishes.cut.internal, stopping=wishes.cut.stopping)
    surface, reaction = wishes.surface or USUAL_SURFACE_SPEED, wishes.reaction or USUAL_REACTION
    speed = spindle_speed(basic.major, thread.lead, groove.stopping, surface=surface, reaction=reaction)
    shoulder = None
    if wishes.length is not None and cut is not None:
        springs = sum(each.is_spring for each in cut.passes)
        shoulder = to_shoulder(
            wishes.length,
            thread.lead,
            speed,
            groove,
            passes=len(cut.passes),
            springs=springs,
            starts=thread.starts,
        )
    return SpeedSection(
        speed, surface, wishes.surface is None, reaction, wishes.reaction is None, groove.stopping, shoulder
    )


def _measuring(drawn: DrawnThread, screw: Limits | None, wishes: SheetWishes) -> tuple[Measuring | None, str]:
    step = INCH_WIRE if wishes.in_inches else MM_WIRE
    if wishes.cut.internal:
        reason = ImpossibleSettingError(
            "Wires measure the screw, not the nut.", help_text="Check a nut with a plug gauge, or with its own screw."
        )
        if wishes.wire or wishes.reading:
            raise reason
        return None, str(reason)
    try:
        found = measuring(
            drawn.thread, screw, wire=wishes.wire, reading=wishes.reading, step=step, blank=wishes.cut.blank
        )
    except ImpossibleSettingError as refusal:
        if wishes.wire or wishes.reading:
            raise
        return None, str(refusal)
    return found, ""


def _hole(drawn: DrawnThread, screw: Limits | None, wishes: SheetWishes) -> tuple[HoleSection | None, str]:
    thread = drawn.thread
    if thread.form.taper and wishes.engagement is None and wishes.basis_word is None:
        return None, "The hole of a tapered thread is bored or reamed to the taper; it is not worked out here."
    basis = basis_named(thread, wishes.basis_word)
    engagement = usual_engagement(thread) if wishes.engagement is None else wishes.engagement
    hole = tapping_hole(thread, engagement, basis)
    others = tuple((each, engagement_of(thread, hole, each)) for each in bases_of(thread) if each.key != basis.key)
    drills = (nearest_metric(hole), nearest_inch(hole))
    blank = die_blank(thread, screw)
    by_class = screw is not None and screw.major.middle is not None
    found = HoleSection(
        basis,
        engagement,
        hole,
        others,
        tuple((drill, engagement_of(thread, drill.diameter, basis)) for drill in drills),
        blank,
        by_class,
    )
    return found, ""
