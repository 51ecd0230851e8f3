"""The card of a dial: its marks, how long each is cut and what it is numbered, and how the head comes to it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cli.views.cautions import PLAY, head_cautions
from cli.views.dial_screen import (
    DIAL_SIGNS,
    dial_checks,
    dial_rows,
    mark_label,
    nearest_dials,
    vernier_lines,
    vernier_rows,
    vernier_span,
    whole_readings_text,
)
from cli.views.index_lines import ONE_MOTION
from cli.views.sheets.index_cards import LEFT_OFF, IndexSetUp, left_off, moves_set_up
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
from cli.views.sheets.table_cards import DIAL_HEADS, TABLE_LEFT_OFF, TABLE_START, dial_cells
from cli.views.sheets.wall_charts import short_setting
from cli.views.table_dial_screen import TURNS_AND_DIAL
from solver.dials.mark_pattern import MarkLength

if TYPE_CHECKING:
    from cli.views.dial_figures import DialAnswer
    from solver.dividing.table_dial import DialTable


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
        if answer.vernier.table is not None:
            pieces += [Lines("Vernier by the dial, line by line", vernier_lines(answer.vernier.table), ticked=True)]
        elif by_head is not None and by_head.method not in ONE_MOTION:
            pieces.append(Lines("Vernier on this head, each division", [short_setting(by_head)]))
    cautions = head_cautions(moves.head, moves.best)
    pieces += [
        Lines("Early check, before a mark is cut", dial_checks(answer, best), ticked=True),
        Cautions((PLAY, *cautions) if answer.travel else cautions),
        Measured(["Ten turns of the screw moved the slide:", f"Marks counted, {best.marks} if right:"]),
        Resume(TABLE_LEFT_OFF if moves.table else left_off(set_up) if set_up else LEFT_OFF),
    ]
    if moves.table is not None:
        pieces += dial_marks_count(answer, moves.table)
    elif set_up is not None and (count := marks_count(answer, set_up)) is not None:
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
        stops = _long_rows(answer, [place.number for place in table[2][:count]])
        for place in table[2][:count]:
            move, pin = f"{place.move.turns} + {place.move.spaces}", f"{place.turns} + {place.hole}"
            rows.append([str(place.number), _line(answer, place.number), move, pin, close_angle(place.reached)])
        return Count(f"Marks, {count} in all", heads, in_blocks(rows, stops=stops), notes=notes)
    several = setting.at_once > 1
    heads = [*([("Move", "right")] if several else []), ("Mark", "right"), ("Line", "left")]
    marks = [number * setting.at_once % count for number in range(count)]
    stops = _long_rows(answer, marks)
    for number, mark in enumerate(marks):
        move_number = [str(number)] if several else []
        cells = move_cells(setting, number, with_turns=False)
        rows.append([*move_number, str(mark), _line(answer, mark), *cells])
    heads += move_heads(setting, with_turns=False)
    return Count(f"Marks, {count} in all", heads, in_blocks(rows, stops=stops), notes=[START, *count_notes(setting)])


def dial_marks_count(answer: DialAnswer, table: DialTable) -> list[Piece]:
    """List every mark with the line it is cut, its number, and where handle and dial of the table stand for it."""
    marks = [row for row in table.rows if row.number < answer.moves.parts]
    if len(marks) > MOST_COUNTED:
        return []
    heads = [("Mark", "right"), ("Line", "left"), *DIAL_HEADS]
    cells = [[str(row.number), _line(answer, row.number), *dial_cells(row)] for row in marks]
    blocks = in_blocks(cells, stops=_long_rows(answer, [row.number for row in marks]))
    return [Count(f"Marks, {len(marks)} in all", heads, blocks, notes=[TABLE_START, TURNS_AND_DIAL])]


def _long_rows(answer: DialAnswer, marks: Sequence[int]) -> set[int]:
    """List the rows, from 1, at which the hand stops to count: those of long marks, but for the first of all."""
    return {row for row, mark in enumerate(marks, 1) if mark and answer.pattern.length_of(mark) is MarkLength.LONG}


def _line(answer: DialAnswer, mark: int) -> str:
    length = answer.pattern.length_of(mark)
    number = f" {mark_label(answer, answer.report.answers[0], mark)}" if length is MarkLength.LONG else ""
    return f"{length.value}{number}"
