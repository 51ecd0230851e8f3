"""The passes of a thread in turns and marks of your own dials, with what is left over between two marks."""

from __future__ import annotations

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
    named = {"Cross slide": sheet.wishes.screw, "Top slide": sheet.wishes.top_screw}
    given = [(name, screw) for name, screw in named.items() if screw is not None]
    heads = [("Pass", "right")]
    for name, _ in given:
        heads += [(name, "left"), ("Off, µm", "right")]
    rows = []
    for label, cross, top, rounding in _settings(sheet, cut) if given else ():
        cells = [label]
        for name, screw in given:
            reading = screw.read(cross if name == "Cross slide" else top, rounding)
            cells += [marks_text(reading), _off(reading)]
        rows.append(cells)
    return heads, rows


def _settings(sheet: ThreadSheet, cut: Cutting) -> list[tuple[str, Length, Length, Rounding]]:
    """Name each setting with the travel of both slides, and the side a limit of the class is rounded to."""
    share = slide_share(cut)
    # Off is told of the travel itself, not of the mark it is rounded to in the table of passes.
    passes = [(str(each.number), each.depth, each.depth * share, Rounding.NEAREST) for each in cut.passes]
    further = [(each.what, cut.feed.depth + each.past, each.rounding) for each in deeper_for_class(sheet)]
    return [*passes, *((what, depth, depth * share, rounding) for what, depth, rounding in further)]


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
