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
from cli.views.index_lines import ONE_MOTION
from cli.views.sheets.index_cards import IndexSetUp, left_off, moves_set_up
from cli.views.sheets.part_cards import move_pieces
from cli.views.sheets.pieces import Card, Cautions, Count, Facts, Grid, Lines, Measured, Piece, Resume, Shout
from cli.views.sheets.running_count import (
    MOST_COUNTED,
    START,
    WORK,
    close_angle,
    count_notes,
    in_blocks,
    move_cells,
    move_heads,
)
from cli.views.sheets.wall_charts import short_setting
from cli.views.table_dial_screen import reading_text, table_cautions, table_checks, table_rows
from solver.dials.mark_pattern import MarkLength

if TYPE_CHECKING:
    from cli.views.dial_figures import DialAnswer
    from solver.dividing.heads import Head
    from solver.dividing.table_dial import DialTable
    from solver.quantities.lengths import Length

#: Said above a count that a dial makes.
TABLE_START = "Begin with the dial at 0. Tick each mark after it is cut; at a line with * count the marks on the work."


def dial_card(answer: DialAnswer) -> Card:
    """Make the card of a dial and of the vernier beside it."""
    best, moves = answer.report.answers[0], answer.moves
    pieces: list[Piece] = [Facts(dial_rows(answer, best))]
    set_up = moves_set_up(moves)
    if not best.is_exact:
        heads, cells = nearest_dials(answer)
        whole = [whole_readings_text(answer)] if answer.others else []
        pieces.append(Shout("NOT EXACT", "No dial of whole marks reads this on this screw; the nearest is told below."))
        pieces.append(Grid("Nearest dials", heads, cells, notes=[DIAL_SIGNS, *whole]))
    pieces += move_pieces(moves, "mark")
    if answer.vernier is not None:
        span = f"Vernier, {vernier_span(answer.vernier)}"
        pieces.append(Facts(vernier_rows(answer, answer.vernier, best), span))
        by_head = answer.vernier.choice.best
        if by_head is not None and by_head.method not in ONE_MOTION:
            pieces.append(Lines("Vernier on this head, each division", [short_setting(by_head)]))
    cautions = dividing_cautions(moves.best)
    pieces += [
        Lines("Early check, before a mark is cut", dial_checks(answer, best), ticked=True),
        Cautions((PLAY, *cautions) if answer.travel else cautions),
        Measured(["Ten turns of the screw moved the slide:", f"Marks counted, {best.marks} if right:"]),
        Resume(left_off(moves.best)),
    ]
    if set_up is not None and (count := marks_count(answer, set_up)) is not None:
        pieces.append(count)
    return Card(f"Dial of {best.marks} marks", moves.head.name, pieces)


def marks_count(answer: DialAnswer, set_up: IndexSetUp) -> Count | None:
    """List every mark with the line it is cut, its number, and where the pin and the work stand for it."""
    best, setting, table = answer.report.answers[0], set_up.answer, set_up.table
    count = best.marks
    if count > MOST_COUNTED:
        return None
    rows = []
    if table is not None:
        heads = [("Mark", "right"), ("Line", "left"), ("Move", "right"), ("Pin at", "right"), WORK]
        notes = [START, f"Move: turns + spaces from the mark before. Pin at: turns + hole of the {table[1]} circle."]
        for place in table[2][:count]:
            move, pin = f"{place.move.turns} + {place.move.spaces}", f"{place.turns} + {place.hole}"
            rows.append([str(place.number), _line(answer, place.number), move, pin, close_angle(place.reached)])
        return Count(f"Marks, {count} in all", heads, in_blocks(rows), notes=notes)
    several = setting.at_once > 1
    heads = [*([("Move", "right")] if several else []), ("Mark", "right"), ("Line", "left")]
    for number in range(count):
        mark = number * setting.at_once % count
        move_number = [str(number)] if several else []
        cells = move_cells(setting, number, with_turns=False)
        rows.append([*move_number, str(mark), _line(answer, mark), *cells])
    heads += move_heads(setting, with_turns=False)
    return Count(f"Marks, {count} in all", heads, in_blocks(rows), notes=[START, *count_notes(setting)])


def _line(answer: DialAnswer, mark: int) -> str:
    length = answer.pattern.length_of(mark)
    number = f" {mark_label(answer, answer.report.answers[0], mark)}" if length is MarkLength.LONG else ""
    return f"{length.value}{number}"


def table_card(head: Head, table: DialTable, radius: Length | None) -> Card:
    """Make the card of a round divided by the dial of a table, each mark worked from zero."""
    rows = table_rows(head, table, radius)
    marks = [row for row in table.rows if row.number]
    heads = [("Mark", "right"), ("Turns", "right"), ("Dial", "right"), ("Due at", "right")]
    cells = [
        [str(row.number), str(row.turns), reading_text(table, row).replace(" ", ""), close_angle(row.exact)]
        for row in marks
    ]
    pieces: list[Piece] = [Facts([row for row in rows if row[0] != "Table"])]
    if not table.is_exact:
        worst = dict(rows)["Worst position"]
        pieces.append(Shout("ROUNDED FROM ZERO", f"Worst mark {worst}. Set each mark by the table below; never add."))
    pieces += [
        Lines("Early check, before metal is cut", table_checks(head, table), ticked=True),
        Cautions(table_cautions()),
        Measured(["Walked or scribed, the last mark off the first by:", f"Marks counted, {len(marks)} if right:"]),
        Resume(("Last mark done", "Dial zero at", "Play taken up towards", "Table locked")),
    ]
    notes = [TABLE_START, "Turns: whole turns of the handle from zero; the dial then reads what is beside them."]
    if len(marks) <= MOST_COUNTED:
        pieces.append(Count(f"Count of {len(marks)} marks", heads, in_blocks(cells), notes=notes))
    return Card(f"By the dial: {rows[0][1]}", head.name, pieces)
