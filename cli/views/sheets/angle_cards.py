"""The card of marks at several angles on a circle of holes, each worked from zero."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.views.angle_marks_screen import angle_cautions, angle_checks, angle_rows, closes, worst_of
from cli.views.divide_screen import SIGNS_OF_A_MARK, PositionTable
from cli.views.sheets.index_cards import FROM_ZERO, ON_SPINDLE
from cli.views.sheets.pieces import Card, Cautions, Count, Facts, Lead, Lines, Measured, Piece, Resume, Shout
from cli.views.sheets.running_count import (
    MOST_COUNTED,
    START,
    ZERO_TOO,
    close_angle,
    in_blocks,
    lines_counted,
    open_count,
)
from cli.views.shop_figures import arcsec_text, size_text
from cli.views.workpiece import at_rim

if TYPE_CHECKING:
    from cli.views.workpiece import Workpiece
    from solver.dividing.heads import Head


def angles_card(head: Head, table: PositionTable, part: Workpiece | None = None) -> Card:
    """Make the card of marks that stand where they like."""
    plate, circle, places = table
    rows, marks = angle_rows(head, table, part), len(places) - 1
    first_line = "The last mark off the first by:" if closes(table) else "Back at zero, the first line missed by:"
    where = f", plate {plate}" if plate else ""
    pieces: list[Piece] = [
        Facts([row for row in rows if row[0] != "Head"]),
        Lead(f"Each mark from zero, {circle} circle{where}", "the count below gives every move"),
    ]
    worst = worst_of(places)
    if worst.turns:
        along = "" if part is None else f", {at_rim(worst, part.radius)} at {size_text(part.radius)}"
        text = f"Worst mark {arcsec_text(worst)} off{along}, never more than half a hole."
        pieces.append(Shout("NOT EXACT: NEAREST HOLES", text))
    pieces += [
        Lines("Early check, before metal is cut", angle_checks(head, table), ticked=True),
        Cautions(angle_cautions(head, table)),
        Measured([first_line, lines_counted(marks, closes=closes(table))]),
        Resume(FROM_ZERO if head.has_worm else ON_SPINDLE),
    ]
    if marks <= MOST_COUNTED:
        pieces.append(_count(table))
    return Card(f"Marks: {rows[0][1]}", head.name, pieces)


def _count(table: PositionTable) -> Count:
    _, circle, places = table
    heads = [("Mark", "right"), ("Due at", "right"), ("Pin at", "right"), ("Error", "right")]
    cells = [
        [str(place.number), close_angle(place.exact), f"{place.turns} + {place.hole}", arcsec_text(place.error)]
        for place in places
        if place.number or not closes(table)
    ]
    told = f"Pin at: turns + hole of the {circle} circle from the start, the first hole being 0."
    if closes(table):
        return Count(f"Count of {len(cells)} marks", heads, in_blocks(cells), notes=(START, told, SIGNS_OF_A_MARK))
    notes = (START, ZERO_TOO, told, SIGNS_OF_A_MARK)
    return Count(open_count(len(cells) - 1), heads, in_blocks(cells, first=0), notes=notes)
