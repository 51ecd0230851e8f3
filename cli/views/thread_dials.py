"""The passes of a thread in turns and marks of your own dials, with what is left over between two marks."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from cli.views.part_figures import length_json, marks_text, reading_json, reading_text, screw_text
from cli.views.shop_figures import approximate
from cli.views.thread_to_class import deeper_for_class, slide_share
from solver.quantities.exact_numbers import significant_text
from solver.quantities.shown_lengths import Rounding

if TYPE_CHECKING:
    from cli.thread_sheet import ThreadSheet
    from solver.dials.screw_dials import DialReading, ScrewDial
    from solver.quantities.lengths import Length
    from solver.threads.cutting import Cutting

DIALS_TITLE = "ON YOUR DIALS, turns and marks from zero at first touch"
DIALS_NOTE = (
    "The nearest mark; for a class the mark within it. Off: plus is past the depth above, minus short of it. A dial "
    "numbered by the diameter has the same marks."
)
#: From so many cuts on a dial is fine enough for a depth.
ENOUGH_CUTS = 3
TOO_COARSE = "DIAL TOO COARSE"


def coarse_dial(sheet: ThreadSheet, cut: Cutting) -> str:
    """Warn of a dial that leaves fewer than three cuts, or the heaviest for the last; empty where it does neither."""
    wishes, screw = sheet.wishes.cut, sheet.wishes.screw
    if screw is None:
        return ""
    cuts = [each.adds for each in cut.passes if not each.is_spring]
    asked = wishes.first_cut or wishes.least_cut or (wishes.passes is not None and wishes.passes < ENOUGH_CUTS)
    finer = "feed by the top slide, or use a finer dial" if cut.feed.slide_angle.turns else "use a finer dial"
    if len(cuts) < ENOUGH_CUTS and (not asked or cut.feed.depth < screw.per_mark * ENOUGH_CUTS):
        told = "1 cut, the whole depth at once" if len(cuts) == 1 else f"{len(cuts)} cuts"
        return f"For this depth it leaves {told}; {finer}."
    if len(cuts) > 1 and cuts[-1] > cuts[-2]:
        return f"For this depth the last cut is heavier than the one before it; {finer}."
    return ""


def marks_within_class(sheet: ThreadSheet, cut: Cutting) -> dict[str, bool | None]:
    """Say for each slide whether a mark of its dial lies within the class; ``None`` without dial or without an end."""
    ways = deeper_for_class(sheet)
    found: dict[str, bool | None] = {}
    for name, screw, share in _slides(sheet, cut):
        found[name] = None
        if screw is not None and ways and ways[-1].what == "no deeper":
            # A class that begins at the basic size has no row for that.
            begins = ways[0].past if ways[0].what == "from" else cut.feed.depth * 0
            least = screw.read((cut.feed.depth + begins) * share, Rounding.UP).reached
            found[name] = least <= screw.read((cut.feed.depth + ways[-1].past) * share, Rounding.DOWN).reached
    return found


def dials_notes(sheet: ThreadSheet, cut: Cutting) -> list[str]:
    """Say what the readings are, and of which dial no mark is deep enough and not too deep for the class."""
    without = [name.lower() for name, has_mark in marks_within_class(sheet, cut).items() if has_mark is False]
    if not without:
        return [DIALS_NOTE]
    of_dials = (
        "this dial" if len(_given(sheet, cut)) == 1 else " nor ".join(f"the dial of the {each}" for each in without)
    )
    none_lies = f"No mark of {of_dials} lies within the class: measure, or use a finer dial."
    return [DIALS_NOTE, none_lies]


def _slides(sheet: ThreadSheet, cut: Cutting) -> tuple[tuple[str, ScrewDial | None, Fraction], ...]:
    """Name the slides with their dials and their travel for each millimetre of depth."""
    return (("Cross slide", sheet.wishes.screw, Fraction(1)), ("Top slide", sheet.wishes.top_screw, slide_share(cut)))


def _given(sheet: ThreadSheet, cut: Cutting) -> list[tuple[str, ScrewDial, Fraction]]:
    return [(name, screw, share) for name, screw, share in _slides(sheet, cut) if screw is not None]


def dial_rows(sheet: ThreadSheet, cut: Cutting) -> list[tuple[str, str]]:
    """Describe the screws that were given, each with what it turns for the whole depth."""
    rows = []
    if screw := sheet.wishes.screw:
        across = approximate(screw.per_mark.mm * 2, 5)
        rows.append(("Cross screw", f"{screw_text(screw)}, {across} mm on the diameter"))
        rows.append(("", f"whole depth {reading_text(screw.read(cut.feed.depth))}"))
    if screw := sheet.wishes.top_screw:
        rows.append(("Top screw", screw_text(screw)))
        rows.append(("", f"whole travel {reading_text(screw.read(cut.feed.slide_travel))}"))
    return rows


def dial_table(sheet: ThreadSheet, cut: Cutting) -> tuple[list[tuple[str, str]], list[list[str]]]:
    """List the passes, and the readings for the class, by the dials that were given; no rows without one."""
    given = _given(sheet, cut)
    within = marks_within_class(sheet, cut)
    heads = [("Pass", "right")]
    for name, *_ in given:
        heads += [(name, "left"), ("Off, µm", "right")]
    if not given:
        return heads, []
    # Off is told of the travel itself, not of the mark it is rounded to in the table of passes.
    rows = [
        [str(each.number), *(cell for _, screw, share in given for cell in _cells(screw.read(each.depth * share)))]
        for each in cut.passes
    ]
    if all(within[name] is False for name, *_ in given):
        return heads, rows
    for each in deeper_for_class(sheet):
        depth = cut.feed.depth + each.past
        cells = [each.what]
        for name, screw, share in given:
            no_mark = within[name] is False
            cells += ["no mark", "-"] if no_mark else _cells(screw.read(depth * share, each.rounding))
        rows.append(cells)
    return heads, rows


def has_class_rows(sheet: ThreadSheet, cut: Cutting) -> bool:
    """Say whether the table of the dials goes on past the last pass."""
    return len(dial_table(sheet, cut)[1]) > len(cut.passes)


def _cells(reading: DialReading) -> list[str]:
    return [marks_text(reading), _off(reading)]


def _off(reading: DialReading) -> str:
    """Write what a mark is off, to two figures; nothing is a dash."""
    off = reading.error.mm * 1000
    return f"{'+' if off > 0 else ''}{significant_text(off, 2)}" if off else "-"


def dials_json(screw: ScrewDial | None) -> dict[str, Any] | None:
    """Describe a screw and its dial."""
    if screw is None:
        return None
    return {"lead_mm": length_json(screw.lead), "marks": screw.marks, "per_mark_mm": length_json(screw.per_mark)}


def on_dial_json(screw: ScrewDial | None, travel: Length, rounding: Rounding = Rounding.NEAREST) -> object:
    """Describe a travel in turns and marks; nothing where no screw was given."""
    return None if screw is None else reading_json(screw.read(travel, rounding))
