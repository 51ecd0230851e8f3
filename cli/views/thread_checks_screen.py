"""The rest of the screen of ``thread``: speed, measuring over wires, tapping hole and die blank."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.thread_sheet import HoleSection, SpeedSection, ThreadSheet
from cli.views.screen import facts_table
from cli.views.thread_figures import Say, finely, percent_text, wire_text
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.threads.measuring import Measuring

if TYPE_CHECKING:
    from rich.console import Console

#: Below this no small lathe runs; the spindle is turned by hand. Common practice. [turns a minute]
BY_HAND_BELOW = 20


def print_speed(out: Console, sheet: ThreadSheet, say: Say) -> None:
    """Print the section on speed, when it was asked for."""
    if sheet.speed is None:
        return
    out.print()
    out.print("SPEED", style="bold")
    out.print(facts_table(speed_rows(sheet.speed, say)))


def speed_rows(section: SpeedSection, say: Say) -> list[tuple[str, str]]:
    """List the speeds, and which of them to take."""
    speed = section.speed
    metres = trimmed_decimal_text(section.surface.mm / 1000, 1)
    feet = trimmed_decimal_text(section.surface.inches / 12, 0)
    assumed = " (assumed: mild steel, high speed steel tool)" if section.surface_assumed else ""
    hand = f"{trimmed_decimal_text(section.reaction, 2)} s{' (assumed)' if section.reaction_assumed else ''}"
    set_by = "the approach to the shoulder" if speed.set_by == "approach" else "the surface speed"
    take = f"{int(speed.slower)} rev/min or slower" if speed.slower >= BY_HAND_BELOW else "turn the spindle by hand"
    return [
        ("Surface", f"{metres} m/min = {feet} ft/min{assumed}: {int(speed.turning)} rev/min to turn"),
        ("", f"a quarter of that for a thread (practice): {int(speed.threading)} rev/min"),
        ("Shoulder", f"{say(section.stopping)} to stop in, {hand} for the hand: at most {int(speed.approach)} rev/min"),
        ("Take", f"{take}, set by {set_by}"),
    ]


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
        ("Wires", f"best {say(wires.best)}"),
        ("", f"from {say(wires.smallest)} to {say(wires.largest)} serve"),
        (f"Over {wire_text(basic.wire, in_inches=in_inches)}", f"{say(basic.exact)} for the basic size"),
        ("", _formulas(basic.simple, basic.with_lead, in_inches=in_inches)),
    ]
    if found.most is not None and sheet.screw_limits is not None:
        least = f"{say(found.least)} to " if found.least is not None else "at most "
        facts.append((f"Class {sheet.screw_limits.of_class.value}", f"{least}{say(found.most)}"))
    return facts + _reading(found, say, in_inches=in_inches)


def _reading(found: Measuring, say: Say, *, in_inches: bool) -> list[tuple[str, str]]:
    read = found.reading
    if read is None:
        return [("Reading", "give yours with --reading for its pitch diameter")]
    verdict = {True: ", within the class", False: ", OUTSIDE the class", None: ""}[found.within]
    return [
        ("Reading", f"{say(read.over)}: pitch diameter {say(read.pitch_diameter)}{verdict}"),
        ("", _formulas(read.simple, read.with_lead, in_inches=in_inches)),
    ]


def _formulas(simple: Length, with_lead: Length, *, in_inches: bool) -> str:
    """Say what the formulas in print give beside the exact seat."""
    without, corrected = finely(simple, in_inches=in_inches), finely(with_lead, in_inches=in_inches)
    return f"in print: {without} without the lead angle, {corrected} with it"


def print_hole(out: Console, sheet: ThreadSheet, say: Say) -> None:
    """Print the section on the tapping hole and the die blank, when it was asked for."""
    if "hole" not in sheet.wishes.sections:
        return
    out.print()
    out.print("TAPPING HOLE AND DIE BLANK", style="bold")
    if sheet.hole is None:
        out.print(sheet.no_hole)
        return
    out.print(facts_table(hole_rows(sheet.hole, say)))


def hole_rows(hole: HoleSection, say: Say) -> list[tuple[str, str]]:
    """List the hole to tap, drills near it, and the blank for a die."""
    facts = [
        ("Hole", f"{say(hole.hole)} leaves {percent_text(hole.engagement)} of the depth"),
        ("Basis", f"{hole.basis.title}; 100 % takes {say(hole.basis.full)} off the diameter"),
    ]
    facts += [("", f"{percent_text(part)} by the {basis.title}") for basis, part in hole.on_other_bases]
    drills = ", ".join(f"{drill.name} leaves {percent_text(part)}" for drill, part in hole.drills)
    facts.append(("Drills near", drills))
    why = "middle of the class" if hole.blank_by_class else "a tenth of the pitch under the major diameter, practice"
    facts.append(("For a die", f"turn the blank to {say(hole.blank)}: {why}"))
    return facts
