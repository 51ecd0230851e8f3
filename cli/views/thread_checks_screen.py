"""The rest of the screen of ``thread``: speed, measuring over wires, tapping hole and die blank."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from cli.thread_sheet import HoleSection, SpeedSection, ThreadSheet
from cli.views.screen import facts_table
from cli.views.shoulder_rows import shoulder_rows
from cli.views.thread_figures import Say, both, bounds_text, finely, percent_text, wire_text
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import Rounding, in_both_units
from solver.threads.blanks import is_hole_outside_class
from solver.threads.limits import Limits
from solver.threads.measuring import Measuring
from solver.threads.reading_verdict import Fit, Verdict
from solver.threads.spindle_speed import told_speed
from solver.trains.hand import Hand

if TYPE_CHECKING:
    from rich.console import Console


def print_speed(out: Console, sheet: ThreadSheet, say: Say) -> None:
    """Print the section on speed, when it was asked for."""
    if sheet.speed is None:
        return
    out.print()
    out.print("SPEED", style="bold")
    out.print(facts_table(speed_rows(sheet, sheet.speed, say)))


def speed_rows(sheet: ThreadSheet, section: SpeedSection, say: Say) -> list[tuple[str, str]]:
    """List the speeds, which of them to take, and what a length of thread takes at it."""
    speed = section.speed
    metres = trimmed_decimal_text(section.surface.mm / 1000, 1)
    feet = trimmed_decimal_text(section.surface.inches / 12, 0)
    assumed = " (assumed: mild steel, high speed steel tool)" if section.surface_assumed else ""
    hand = f"{trimmed_decimal_text(section.reaction, 2)} s{' (assumed)' if section.reaction_assumed else ''}"
    on_return = " on the way back" if sheet.wishes.hand is Hand.LEFT else ""
    set_by = "the approach to the shoulder" if speed.set_by == "approach" else "the surface speed"
    take = "turn the spindle by hand" if speed.is_by_hand else f"{_turns(speed.taken)} rev/min or slower"
    approach = _turns(speed.approach)
    return [
        ("Surface", f"{metres} m/min ≈ {feet} ft/min{assumed}: {_turns(speed.turning)} rev/min to turn"),
        ("", f"a quarter of that for a thread (practice): {_turns(speed.threading)} rev/min"),
        ("Shoulder", f"{say(section.stopping)} to stop in{on_return}, {hand} for the hand: at most {approach} rev/min"),
        ("Take", f"{take}, set by {set_by}"),
        *shoulder_rows(sheet),
    ]


def _turns(speed: Fraction) -> str:
    return trimmed_decimal_text(told_speed(speed), 3)


def print_measuring(out: Console, sheet: ThreadSheet, say: Say) -> None:
    """Print the section on measuring, or why there is none, when it was asked for."""
    if "measuring" not in sheet.wishes.sections:
        return
    out.print()
    out.print("MEASURING over three wires", style="bold")
    if sheet.measuring is None:
        out.print(sheet.no_wires)
        return
    out.print(facts_table(measuring_rows(sheet, sheet.measuring, say)))


def measuring_rows(sheet: ThreadSheet, found: Measuring, say: Say) -> list[tuple[str, str]]:
    """List the wires and what is read over them."""
    in_inches = sheet.wishes.in_inches
    basic, wires = found.basic, found.wires
    facts = [
        ("Wires", f"best {say(wires.best)}{_listed(found, in_inches=in_inches)}"),
        ("", f"from {bounds_text(wires.smallest, wires.largest, in_inches=in_inches)} serve"),
        (f"Over {wire_text(basic.wire, in_inches=in_inches)}", f"{say(basic.exact)} for the basic size"),
        ("", _formulas(basic.simple, basic.with_lead, in_inches=in_inches)),
    ]
    if found.most is not None and sheet.screw_limits is not None:
        if found.least is None:
            bounds = f"at most {in_both_units(found.most, Rounding.DOWN, inches_first=in_inches)}"
        else:
            bounds = bounds_text(found.least, found.most, in_inches=in_inches)
        facts.append((f"Class {sheet.screw_limits.of_class.value}", bounds))
    return facts + _reading(found, sheet.screw_limits, say, in_inches=in_inches)


def _listed(found: Measuring, *, in_inches: bool) -> str:
    """Name the best wire as lists have it, where the lead moves it by what can be seen."""
    wires = found.wires
    lists = both(wires.best_without_lead, in_inches=in_inches)
    return "" if lists == both(wires.best, in_inches=in_inches) else f"; without the lead, as lists have it, {lists}"


def _reading(found: Measuring, limits: Limits | None, say: Say, *, in_inches: bool) -> list[tuple[str, str]]:
    read, verdict = found.reading, found.verdict
    if read is None or verdict is None:
        return [("Reading", "give yours with --reading for its pitch diameter")]
    return [
        ("Reading", f"{say(read.over)}: pitch diameter {say(read.pitch_diameter)}"),
        ("", _formulas(read.simple, read.with_lead, in_inches=in_inches)),
        ("VERDICT", verdict_text(verdict, limits, in_inches=in_inches)),
    ]


def verdict_text(verdict: Verdict, limits: Limits | None, *, in_inches: bool) -> str:
    """Say plainly how a reading stands, and what is left to do."""
    of_class = f"class {limits.of_class.value}" if limits else ""
    off = both(verdict.off_by, in_inches=in_inches)
    deeper = ""
    if verdict.to_cut is not None:
        least, most = verdict.to_cut
        shown = both(most, in_inches=in_inches) if least == most else bounds_text(least, most, in_inches=in_inches)
        deeper = f": still to cut {shown} on the radius"
    match verdict.fit:
        case Fit.WITHIN:
            return f"WITHIN {of_class}"
        case Fit.TOO_LARGE:
            return f"TOO LARGE for {of_class} by {off}{deeper}"
        case Fit.TOO_SMALL:
            return f"TOO SMALL for {of_class} by {off}: cut too deep, and not to be brought back"
        case Fit.AT_LIMIT:
            return f"AT THE LIMIT of {of_class}: past it by less than half of 0.0001 in, which a reading does not hold"
        case Fit.NOT_TOO_LARGE:
            return f"not too large for {of_class}; its least size is not worked out here"
        case Fit.ABOVE_BASIC:
            return f"ABOVE the basic size by {off}{deeper}; no class is worked out for this thread"
        case Fit.AT_BASIC:
            return "at the basic size; no class is worked out for this thread"
        case Fit.BELOW_BASIC:
            return f"BELOW the basic size by {off}; no class is worked out for this thread: try it in its nut"


def _formulas(simple: Length, with_lead: Length, *, in_inches: bool) -> str:
    """Say what the formulas in print give beside the exact seat."""
    without, corrected = finely(simple, in_inches=in_inches), finely(with_lead, in_inches=in_inches)
    return f"in print: {without} without the lead angle, {corrected} with it"


def print_hole(out: Console, sheet: ThreadSheet, say: Say) -> None:
    """Print the section on the tapping hole and the die blank, when it was asked for."""
    if "hole" not in sheet.wishes.sections:
        return
    out.print()
    out.print(hole_title(sheet).upper(), style="bold")
    if sheet.hole is None:
        out.print(sheet.no_hole)
        return
    out.print(facts_table(hole_rows(sheet, sheet.hole, say)))


def hole_title(sheet: ThreadSheet) -> str:
    """Name the section: a nut is not cut with a die."""
    return "Tapping hole" if sheet.wishes.cut.internal else "Tapping hole and die blank"


def hole_rows(sheet: ThreadSheet, hole: HoleSection, say: Say) -> list[tuple[str, str]]:
    """List the hole to tap, drills near it, and the blank for a die."""
    form = sheet.drawn.thread.form
    is_minor = hole.hole == sheet.drawn.thread.basic().internal.minor and sheet.wishes.engagement is None
    why = f"the minor diameter of the nut ({form.standard}), for the whole depth"
    leaves = f": {why}" if is_minor else f" leaves {percent_text(hole.engagement)} of the depth"
    facts = [
        ("Hole", f"{say(hole.hole)}{leaves}{_beyond_class(hole.hole, sheet.nut_limits)}"),
        *_allowed_hole(sheet),
        ("Basis", f"{hole.basis.title}; 100 % takes {say(hole.basis.full)} off the diameter"),
    ]
    facts += [("", f"{percent_text(part)} by the {basis.title}") for basis, part in hole.on_other_bases]
    # A hole below the nut's own minor diameter leaves more than there is to leave.
    drills = "; ".join(
        f"{drill.name} is too small"
        if part > 1
        else f"{drill.name} leaves {percent_text(part)}{_beyond_class(drill.diameter, sheet.nut_limits)}"
        for drill, part in hole.drills
    )
    facts.append(("Drills near", drills))
    if sheet.wishes.cut.internal:
        return facts
    # A rule of practice holds a figure less; of a blank under a millimetre that would be the whole of it.
    finer = 0 if hole.blank_by_class or hole.blank.mm < 1 else -1
    why = "middle of the class" if hole.blank_by_class else "a tenth of the pitch under the major diameter, practice"
    blank = both(hole.blank, in_inches=sheet.wishes.in_inches, finer=finer)
    facts.append(("For a die", f"turn the blank to {blank}: {why}"))
    return facts


def _allowed_hole(sheet: ThreadSheet) -> list[tuple[str, str]]:
    """Say what the class of the nut allows its hole, the minor diameter of the nut."""
    limits = sheet.nut_limits
    if limits is None or limits.minor.least is None or limits.minor.most is None:
        return []
    bounds = bounds_text(limits.minor.least, limits.minor.most, in_inches=sheet.wishes.in_inches)
    return [("", f"class {limits.of_class.value} allows {bounds}")]


def _beyond_class(hole: Length, limits: Limits | None) -> str:
    """Say loudly that a hole is none of the class."""
    if limits is None or not is_hole_outside_class(hole, limits):
        return ""
    most = limits.minor.most
    side = "LARGER" if most is not None and hole > most else "SMALLER"
    return f" ({side} THAN {limits.of_class.value} ALLOWS)"
