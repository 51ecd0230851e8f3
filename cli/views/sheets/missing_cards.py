"""The sheet of missing wheels: a page to hang by the bench, and a card for the making of each wheel."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cli.views.index_settings import early_check
from cli.views.missing_figures import Wanted, aim_text, blank_text, lathe_text
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
from cli.views.sheets.index_cards import LEFT_OFF, IndexSetUp, chosen_set_up, count_pieces, setting_pieces
from cli.views.sheets.pieces import Card, Cautions, Facts, Grid, Lead, Lines, Measured, Piece, Resume, Sheet

if TYPE_CHECKING:
    from solver.dividing.heads import Head
    from solver.jobs.wheel_making import WheelMaking
    from solver.jobs.wheel_report import MissingReport
    from solver.trains.lathe import Lathe

#: Columns of the trains that the wheels to add allow.
TRAIN_HEADS = (("Lead", "left"), ("Threads", "left"), ("ppm", "right"), ("Train", "token"))


def missing_sheet(
    lathe: Lathe, head: Head, wanted: Wanted, report: MissingReport, makings: Sequence[WheelMaking]
) -> Sheet:
    """Make the sheet of what is missing, and of how each wheel is made."""
    cards = [missing_card(lathe, wanted, report), *(making_card(making, lathe, head) for making in makings)]
    return Sheet("Missing wheels", cards)


def missing_card(lathe: Lathe, wanted: Wanted, report: MissingReport) -> Card:
    """Make the page that says what to add, and what each wheel unlocks."""
    rows = [row for row in asked_rows(lathe, report) if row[0] != "Lathe"]
    if not report.lacking:
        pieces: list[Piece] = [Lead("No wheel is missing", "this lathe cuts all of them within the tolerance")]
        return Card("Missing wheels", lathe.name, [*pieces, Facts(rows, "Asked")])
    if not report.best.wheels:
        pieces = [Lead("No wheel helps", "as far as was looked")]
    else:
        unlocks = [[role_text(role, report), "; ".join(role_lines(role, wanted))] for role in report.best.roles]
        pieces = [
            Lead(added_text(report), f"{aim_text(report.question.prices)}. {unlocked_text(report)}"),
            Grid("What each is for", [("Wheel", "token"), ("Unlocks", "left")], unlocks, ticked=True),
        ]
    trains = [
        [wanted[row.lead].text, threads_text(wanted[row.lead].names), ppm_text(row), train_or_none(row)]
        for row in report.best.unlocked
    ]
    if trains:
        note = "From the spindle, driver-driven; an idler stands in brackets. 'halfnut train' says the rest of each."
        pieces.append(Grid("Trains with them in the box", TRAIN_HEADS, trains, notes=[note]))
    pieces += [Lines(title, lines) for title, lines in left_lines(wanted, report) if lines]
    return Card("Missing wheels", lathe.name, [*pieces, Facts(rows, "Asked")])


def making_card(making: WheelMaking, lathe: Lathe, head: Head) -> Card:
    """Make the card of one wheel: blank, cut, cutter, and the count that divides it."""
    set_up = making_set_up(making, head)
    first, legend = blank_text(making).split(" over the tips: ", maxsplit=1)
    pieces: list[Piece] = [
        Lead(f"Blank {first}", f"over the tips: {legend}"),
        Facts([row for row in blank_rows(making, lathe) if row[0] != "Blank"]),
        Facts([row for row in dividing_rows(making, head) if row[0] != "Head"], "Ways to divide it"),
    ]
    # Of a wheel that only the lathe's own spindle divides, the count is made there, from stop to stop.
    if set_up is not None:
        pieces += setting_pieces(set_up)
        if set_up.table is None:
            checks = early_check(set_up.answer, head, making.teeth)
            pieces.append(Lines("Early check, before metal is cut", checks, ticked=True))
    elif making.on_lathe:
        pieces.append(Lead("On the lathe", lathe_text(making.on_lathe[0])))
    pieces += [
        Cautions(making_cautions([making])),
        Measured([f"Blank, {size_text(making.outside)}:", f"Teeth counted, {making.teeth} if right:"]),
        Resume(LEFT_OFF),
        *(count_pieces(set_up) if set_up is not None else []),
    ]
    return Card(f"Make the {making.teeth} T, {making.tooth.told}", head.name, pieces)


def making_set_up(making: WheelMaking, head: Head) -> IndexSetUp | None:
    """Choose what divides a wheel: the head's exact setting, else with change wheels, else the lathe or nearest holes.

    Nothing is given where the lathe's own spindle divides it and the head does not.
    """
    if making.on_head is not None and making.on_head.is_exact:
        return chosen_set_up(head, making.on_head, making.teeth, None, None)
    if making.with_change_wheels is not None:
        return IndexSetUp(head, making.with_change_wheels, making.teeth)
    if making.on_lathe or making.on_head is None:
        return None
    return chosen_set_up(head, making.on_head, making.teeth, None, None)
