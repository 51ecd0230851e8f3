"""The card of one thread: passes to tick off, what to set and grind, what to read over wires."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.views.sheets.pieces import (
    Card,
    Cautions,
    Facts,
    Grid,
    Lead,
    Lines,
    Measured,
    Piece,
    Resume,
    Shout,
    without_blanks,
)
from cli.views.thread_checks_screen import hole_rows, hole_title, measuring_rows, speed_rows
from cli.views.thread_dials import DIALS_TITLE, TOO_COARSE, coarse_dial, dial_table, dials_notes, has_class_rows
from cli.views.thread_figures import Say, saying, wire_text
from cli.views.thread_screen import (
    LIMIT_HEADS,
    ROUNDED,
    cautions_for,
    cutting_rows,
    dimension_table,
    early_check,
    limit_cells,
    limits_rule,
    limits_title,
    pass_table,
    passes_rule,
    passes_title,
    thread_rows,
)
from cli.views.thread_to_class import limits_of_cut, to_class_table, to_class_title
from solver.trains.hand import Hand

if TYPE_CHECKING:
    from cli.thread_sheet import ThreadSheet
    from solver.threads.cutting import Cutting

#: What the next pair of hands must know in the middle of a thread.
LEFT_OFF = ("Last pass done", "Cross slide zero", "Top slide zero", "Direction of cut")


def thread_card(sheet: ThreadSheet) -> Card:
    """Make the card of the sections that were asked for."""
    say = saying(in_inches=sheet.wishes.in_inches)
    rows = thread_rows(sheet)
    pieces: list[Piece] = [Facts(rows)]
    if sheet.cutting is not None:
        pieces += cutting_pieces(sheet, sheet.cutting, say)
    if lines := cautions_for(sheet):
        pieces.append(Cautions(lines))
    if sheet.cutting is not None:
        pieces.append(Facts(cutting_rows(sheet, sheet.cutting, say), "To set and to grind"))
    if sheet.speed is not None:
        pieces.append(Facts(speed_rows(sheet, sheet.speed, say), "Speed"))
    pieces += [*wire_pieces(sheet, say), *dimension_pieces(sheet)]
    if sheet.hole is not None:
        pieces.append(Facts(hole_rows(sheet, sheet.hole, say), hole_title(sheet)))
    elif sheet.no_hole:
        pieces.append(Lines("Tapping hole", [sheet.no_hole]))
    what = "nut" if sheet.wishes.cut.internal else "screw"
    return Card(f"Thread {rows[0][1]}", f"{what}, {sheet.wishes.hand.value}-hand", pieces)


def cutting_pieces(sheet: ThreadSheet, cut: Cutting, say: Say) -> list[Piece]:
    """Show the depth, the early check and the passes to tick off."""
    wishes, basic = sheet.wishes.cut, sheet.drawn.thread.basic()
    start = wishes.blank or (basic.internal.minor if wishes.internal else basic.external.major)
    heads, rows = pass_table(sheet, cut)
    dial_heads, dial_cells = dial_table(sheet, cut)
    # Each pass has one box, beside the reading that is set.
    by_dials: list[Piece] = []
    if dial_cells:
        by_dials = [Grid(DIALS_TITLE.capitalize(), dial_heads, dial_cells, ticked=True, notes=dials_notes(sheet, cut))]
    class_heads, class_rows = to_class_table(sheet, cut)
    further: list[Piece] = []
    if class_rows:
        measured = [[*cells, "________"] for cells in class_rows]
        class_heads = [*class_heads, ("Measured", "left")]
        further = [Grid(to_class_title(sheet), class_heads, measured, ticked=not has_class_rows(sheet, cut))]
    pieces: list[Piece] = [
        Lead(f"Depth {say(cut.feed.depth)}", f"on the radius, from first touch on a diameter of {say(start)}")
    ]
    if sheet.wishes.hand is Hand.LEFT:
        pieces.append(Shout("LEFT-HAND", "Cut away from the headstock, out of a groove of full depth."))
    if warning := coarse_dial(sheet, cut):
        pieces.append(Shout(TOO_COARSE, warning))
    return [
        *pieces,
        Lines("Early check, before metal is cut", without_blanks(early_check(sheet, say)), ticked=True),
        Grid(f"Passes, {passes_title(sheet)}", heads, rows, ticked=not by_dials, notes=[passes_rule(sheet, cut)]),
        *by_dials,
        *further,
        Resume(LEFT_OFF),
    ]


def wire_pieces(sheet: ThreadSheet, say: Say) -> list[Piece]:
    """Say what is read over wires, with lines for the readings; or why nothing is."""
    if "measuring" not in sheet.wishes.sections:
        return []
    found = sheet.measuring
    ten = f"Ten grooves of one start, {say(sheet.drawn.thread.lead * 10)} if right:"
    if found is None:
        return [Lines("Measuring", [sheet.no_wires]), Measured([ten])]
    rows = [row for row in measuring_rows(sheet, found, say) if found.reading or row[0] != "Reading"]
    by_class = [f"{fact} for {name.removeprefix('Class ')}" for name, fact in rows if name.startswith("Class ")]
    wanted = by_class[0] if by_class else f"{say(found.basic.exact)} for the basic size"
    wires = f"Over wires of {wire_text(found.basic.wire, in_inches=sheet.wishes.in_inches)}"
    return [Facts(rows, "Measuring over three wires"), Measured([ten, f"{wires}, {wanted}:"])]


def dimension_pieces(sheet: ThreadSheet) -> list[Piece]:
    """Show the basic dimensions, and the limits of what is cut, where a class is known."""
    if "dimensions" not in sheet.wishes.sections:
        return []
    basic = sheet.drawn.thread.basic()
    pieces: list[Piece] = [
        Grid(
            "Basic dimensions",
            *dimension_table(sheet),
            notes=[f"Rule: {basic.rule}.", ROUNDED.split(";", maxsplit=1)[0] + "."],
        )
    ]
    limits = limits_of_cut(sheet)
    if limits is not None:
        pieces.append(
            Grid(f"Limits of {limits_title(limits)}", LIMIT_HEADS, limit_cells(limits), notes=[limits_rule(limits)])
        )
    return pieces
