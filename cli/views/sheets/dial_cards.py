"""The card of a dial: its marks, how long each is cut and what it is numbered, and how the head comes to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.views.cautions import PLAY, dividing_cautions
from cli.views.dial_screen import (
    DIAL_SIGNS,
    dial_checks,
    dial_rows,
    mark_label,
    nearest_dials,
    vernier_rows,
    vernier_span,
    whole_readings_text,
)
from cli.views.sheets.index_cards import LEFT_OFF, moves_set_up, setting_pieces
from cli.views.sheets.pieces import Card, Cautions, Count, Facts, Grid, Lines, Measured, Piece, Resume, Shout
from cli.views.sheets.running_count import MOST_COUNTED, START, WORK, close_angle, in_blocks
from solver.dials.mark_pattern import MarkLength

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cli.views.dial_figures import DialAnswer, MarkRow


def dial_card(answer: DialAnswer, rows: Sequence[MarkRow]) -> Card:
    """Make the card; ``rows`` are its marks with their places on the head, none where the head has no move for them."""
    best, moves = answer.report.answers[0], answer.moves
    pieces: list[Piece] = [Facts(dial_rows(answer, best))]
    if not best.is_exact:
        heads, cells = nearest_dials(answer)
        whole = [whole_readings_text(answer)] if answer.others else []
        pieces.append(Shout("NOT EXACT", "No dial of whole marks reads this on this screw; the nearest is told below."))
        pieces.append(Grid("Nearest dials", heads, cells, notes=[DIAL_SIGNS, *whole]))
    set_up = moves_set_up(moves)
    if set_up is None:
        pieces.append(Shout("NO MOVES ON THIS HEAD", moves.refusal))
    else:
        pieces += setting_pieces(set_up)
    if answer.vernier is not None:
        pieces.append(Facts(vernier_rows(answer, answer.vernier, best), f"Vernier, {vernier_span(answer.vernier)}"))
    cautions = dividing_cautions()
    pieces += [
        Lines("Early check, before a mark is cut", dial_checks(answer, best), ticked=True),
        Cautions((PLAY, *cautions) if answer.travel else cautions),
        Measured(["Ten turns of the screw moved the slide:", f"Marks counted, {best.marks} if right:"]),
        Resume(LEFT_OFF),
    ]
    if rows and len(rows) <= MOST_COUNTED:
        pieces.append(marks_count(answer, rows))
    return Card(f"Dial of {best.marks} marks", moves.head.name, pieces)


def marks_count(answer: DialAnswer, rows: Sequence[MarkRow]) -> Count:
    """List every mark with the line it is cut, its number, and where the pin and the work stand for it."""
    best = answer.report.answers[0]
    is_exact = answer.moves.is_exact
    heads = [("Mark", "right"), ("Line", "left"), *([] if is_exact else [("Move", "right")]), ("Pin at", "right"), WORK]
    cells = []
    for row in rows:
        number = f" {mark_label(answer, best, row.place.number)}" if row.length is MarkLength.LONG else ""
        move = [] if is_exact else [f"{row.place.move.turns} + {row.place.move.spaces}"]
        pin = str(row.place.hole) if row.circle > 1 else f"{row.place.turns} t"
        cells.append([str(row.place.number), f"{row.length.value}{number}", *move, pin, close_angle(row.place.exact)])
    circle = rows[0].circle
    notes = [START, f"Pin at: hole of the {circle} circle." if circle > 1 else "Pin at: whole turns from the start."]
    return Count(f"Marks, {len(rows)} in all", heads, in_blocks(cells), notes=notes)
