"""The sheet of missing wheels: a page to hang by the bench, and a card for the making of each wheel."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from cli.index_moves import other_ways
from cli.views.missing_figures import Wanted, aim_text, lathe_text
from cli.views.missing_screen import (
    added_text,
    asked_rows,
    blank_rows,
    dividing_rows,
    left_lines,
    making_cautions,
    ppm_text,
    role_lines,
    role_text,
    threads_text,
    train_or_none,
    unlocked_text,
)
from cli.views.part_figures import size_text
from cli.views.sheets.index_cards import (
    IndexSetUp,
    chosen_set_up,
    count_pieces,
    left_off,
    set_up_checks,
    setting_pieces,
)
from cli.views.sheets.pieces import (
    Card,
    Cautions,
    Count,
    CountRow,
    Facts,
    Grid,
    Lead,
    Lines,
    Measured,
    Piece,
    Resume,
    Sheet,
)
from cli.views.sheets.table_cards import table_card
from cli.views.workpiece import blank_text
from solver.dividing.table_dial import dial_table

if TYPE_CHECKING:
    from solver.dividing.heads import Head
    from solver.dividing.table_dial import DialTable
    from solver.jobs.wheel_making import WheelMaking
    from solver.jobs.wheel_report import MissingReport, WheelRole
    from solver.trains.lathe import Lathe

#: Columns of the trains that the wheels to add allow.
TRAIN_HEADS = (("Lead", "left"), ("Threads", "left"), ("ppm", "right"))
#: Most rows that go across the whole page; longest train that is kept in one line where they go twice across.
MOST_ACROSS = 12
LONGEST_ABREAST = 15


def missing_sheet(
    lathe: Lathe,
    head: Head,
    wanted: Wanted,
    report: MissingReport,
    makings: Sequence[WheelMaking],
    head_word: str | None,
) -> Sheet:
    """Make the sheet of what is missing, and of how each wheel is made; ``head_word`` names the head in commands."""
    cards = [making_card(making, lathe, head, head_word) for making in makings]
    return Sheet("Missing wheels", cards, front_pieces(lathe, wanted, report), has_front_page=True)


def front_pieces(lathe: Lathe, wanted: Wanted, report: MissingReport) -> list[Piece]:
    """Make the page to hang by the bench: what to add, and what each wheel unlocks."""
    asked = Facts(asked_rows(lathe, report), "Asked")
    if not report.lacking:
        return [Lead("No wheel is missing", "this lathe cuts all of them within the tolerance"), asked]
    if not report.best.wheels:
        pieces: list[Piece] = [Lead("No wheel helps", "as far as was looked")]
    else:
        unlocks = [[role_text(role, report), unlocks_text(role, wanted, report)] for role in report.best.roles]
        pieces = [
            Lead(added_text(report), f"{aim_text(report.question.prices)}. {unlocked_text(report)}"),
            Grid("What each is for", [("Wheel", "token"), ("Unlocks", "left")], unlocks, ticked=True),
        ]
    if report.best.unlocked:
        pieces.append(train_table(wanted, report))
    pieces += [Lines(title, lines) for title, lines in left_lines(wanted, report) if lines]
    return [*pieces, asked]


def unlocks_text(role: WheelRole, wanted: Wanted, report: MissingReport) -> str:
    """Say what a wheel unlocks; of a single wheel for many leads the trains below say it."""
    if len(report.best.roles) == 1 and len(role.alone) > MOST_ACROSS:
        return f"{len(role.alone)} leads, {wanted[role.alone[0]].text} to {wanted[role.alone[-1]].text}, listed below"
    return "; ".join(role_lines(role, wanted))


def train_table(wanted: Wanted, report: MissingReport) -> Piece:
    """List the train of each lead that is unlocked, with the columns that say anything; of many twice across."""
    rows = [
        [wanted[row.lead].text, threads_text(wanted[row.lead].names), ppm_text(row), train_or_none(row)]
        for row in report.best.unlocked
    ]
    title = "Trains with them in the box"
    note = "From the spindle, driver-driven; an idler stands in brackets. 'halfnut train' says the rest of each."
    is_exact = all(row.best is not None and row.best.error.is_exact for row in report.best.unlocked)
    kept = [at for at, empty in enumerate((False, not any(row[1] for row in rows), is_exact, False)) if not empty]
    has_room = is_exact and all(len(row[3]) <= LONGEST_ABREAST for row in rows)
    heads = [TRAIN_HEADS[at] for at in kept[:-1]] + [("Train", "token" if has_room else "left")]
    rows = [[row[at] for at in kept] for row in rows]
    if is_exact:
        title += ", all exact"
    if len(rows) <= MOST_ACROSS:
        return Grid(title, heads, rows, notes=[note])
    blocks = [rows[at : at + MOST_ACROSS] for at in range(0, len(rows), MOST_ACROSS)]
    named = [
        (f"{part[0][0]} to {part[-1][0]}" if len(part) > 1 else part[0][0], [CountRow(row) for row in part])
        for part in blocks
    ]
    return Count(title, heads, named, notes=[note], ticked=False)


def making_card(making: WheelMaking, lathe: Lathe, head: Head, head_word: str | None) -> Card:
    """Make the card of one wheel: blank, cut, cutter, and the count that divides it."""
    set_up = making_set_up(making, head)
    first, legend = blank_text(making.tooth, making.teeth).split(" over the tips: ", maxsplit=1)
    pieces: list[Piece] = [
        Lead(f"Blank {first}", f"over the tips: {legend}"),
        Facts([row for row in blank_rows(making, lathe) if row[0] != "Blank"]),
        Facts([row for row in dividing_rows(making, head, head_word) if row[0] != "Head"], "Ways to divide it"),
    ]
    measured = Measured([f"Blank, {size_text(making.outside)}:", f"Teeth counted, {making.teeth} if right:"])
    title = f"Make the {making.teeth} T, {making.tooth.told}"
    if (table := making_table(making, head)) is not None:
        return Card(title, head.name, [*pieces, measured, *table_card(head, table, None).pieces])
    if set_up is not None:
        pieces += setting_pieces(set_up)
        pieces.append(Lines("Early check, before metal is cut", set_up_checks(set_up), ticked=True))
    elif making.on_lathe:
        # The count is made there, from stop to stop.
        pieces.append(Lead("On the lathe", lathe_text(making.on_lathe[0])))
    pieces += [Cautions(making_cautions([making])), measured]
    if set_up is not None:
        pieces += [Resume(left_off(set_up)), *count_pieces(set_up)]
    return Card(title, head.name, pieces)


def making_table(making: WheelMaking, head: Head) -> DialTable | None:
    """Choose the dial where that is exact, or where nothing else at hand divides a wheel exactly."""
    if making.by_dial is not None and (making.by_dial.is_exact or not making.is_divided):
        return making.by_dial
    if making_set_up(making, head) is not None or head.dial_reading is None or making.is_divided:
        return None
    return dial_table(head, Fraction(1, making.teeth), making.teeth, head.dial_reading)


def making_set_up(making: WheelMaking, head: Head) -> IndexSetUp | None:
    """Choose what divides a wheel: the head's exact setting, else with change wheels, else nearest holes.

    Nothing is given where the lathe's own spindle, or more of the head than plates and holes, divides it better.
    """
    if making.with_change_wheels is not None:
        return IndexSetUp(head, making.with_change_wheels, making.teeth)
    found = making.on_head
    if found is None or (not found.is_exact and (making.on_lathe or other_ways(head, making.teeth))):
        return None
    return chosen_set_up(head, found, making.teeth, None, None)
