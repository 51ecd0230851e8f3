"""A round, or marks at angles of their own, by the dial of a table: the card, and the pieces for cards of parts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cli.views.cautions import table_cautions
from cli.views.method_tables import counted
from cli.views.sheets.pieces import Card, Cautions, Count, Facts, Lead, Lines, Measured, Piece, Resume, Shout
from cli.views.sheets.running_count import MOST_COUNTED, ZERO_TOO, close_angle, in_blocks, lines_counted, open_count
from cli.views.table_dial_screen import TURNS_AND_DIAL, asked_rows, by_dial_rows, dial_text, table_checks, worst_text

if TYPE_CHECKING:
    from cli.views.workpiece import Workpiece
    from solver.dividing.heads import Head
    from solver.dividing.table_dial import DialPosition, DialTable
    from solver.quantities.lengths import Length

#: What the next pair of hands must know in the middle of a round.
TABLE_LEFT_OFF = ("Last mark done", "Dial zero at", "Play taken up towards", "Table locked")
#: Said above a count that a dial makes.
TABLE_START = "Begin with the dial at 0. Tick each mark after it is cut; at a line with * count the marks on the work."
#: Columns of such a count, behind the number of the mark.
DIAL_HEADS = (("Turns", "right"), ("Dial at", "right"), ("Due at", "right"))


def table_card(head: Head, table: DialTable, part: Workpiece | None) -> Card:
    """Make the card of marks by the dial of a table, each worked from zero."""
    asked, marks = asked_rows(head, table)[0], len(table.rows) - 1
    measured = (
        "Walked or scribed, the last mark off the first by:"
        if table.closes
        else "Back at zero, the first line missed by:"
    )
    return Card(
        f"By the dial: {asked[1]}",
        head.name,
        [
            Facts([asked, *by_dial_rows(head, table, part)]),
            *lead_pieces(table, None if part is None else part.radius),
            Lines("Early check, before metal is cut", table_checks(head, table), ticked=True),
            Cautions(table_cautions(closes=table.closes)),
            Measured([measured, lines_counted(marks, closes=table.closes)]),
            Resume(TABLE_LEFT_OFF),
            *table_count(table),
        ],
    )


def table_pieces(head: Head, table: DialTable) -> list[Piece]:
    """Show for the card of a part what its marks by the dial rest on."""
    return [
        Facts(by_dial_rows(head, table, None), "By the dial of the table"),
        *lead_pieces(table),
        Lines("Early check of the table", table_checks(head, table), ticked=True),
    ]


def lead_pieces(table: DialTable, radius: Length | None = None) -> list[Piece]:
    """Say how the marks are set, and in large letters that they are rounded where not every one is exact."""
    first, more = table.rows[1], len(table.rows) > 2
    lead = Lead(
        "By the dial, each mark from zero" if more else f"{first.turns} turns, dial at {dial_text(first)}",
        "the count below gives every reading" if more else "from the dial at 0",
    )
    if table.is_exact:
        return [lead]
    worst = worst_text(table, radius)
    text = f"Worst mark {worst}. Set each mark by the table below; never add." if more else f"Off by {worst}."
    return [lead, Shout("ROUNDED FROM ZERO", text)]


def table_count(table: DialTable) -> list[Piece]:
    """List where handle and dial stand for every mark, to tick off; or say why they are not listed."""
    marks = [row for row in table.rows if row.number]
    if len(marks) > MOST_COUNTED:
        return [Lines("Count", [f"{len(marks)} marks are more than the {MOST_COUNTED} that are printed here."])]
    cells = [[str(row.number), *dial_cells(row)] for row in (marks if table.closes else table.rows)]
    heads = [("Mark", "right"), *DIAL_HEADS]
    if table.closes:
        title = f"Count of {counted(len(marks), 'mark')}"
        return [Count(title, heads, in_blocks(cells), notes=[TABLE_START, TURNS_AND_DIAL])]
    notes = [TABLE_START, ZERO_TOO, TURNS_AND_DIAL]
    return [Count(open_count(len(marks)), heads, in_blocks(cells, first=0), notes=notes)]


def dial_cells(row: DialPosition) -> Sequence[str]:
    """Write one mark under `DIAL_HEADS`."""
    return [str(row.turns), dial_text(row).replace(" ", ""), close_angle(row.exact)]
