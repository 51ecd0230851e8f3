"""The sheet of a wheelwork: a cutting list with centre distances and drift, and a card for each count on the head."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import TYPE_CHECKING

from cli.views.counts_figures import cutter_head, cutter_words
from cli.views.counts_screen import (
    arbor_rows,
    asked_rows,
    centre_rows,
    counts_cautions,
    early_check,
    error_rows,
    proof_lines,
)
from cli.views.divide_screen import asked_rows as divided_rows
from cli.views.part_figures import size_text
from cli.views.sheets.index_cards import IndexSetUp, index_card
from cli.views.sheets.pieces import Card, Cautions, Facts, Grid, Lead, Lines, Measured, Piece, Sheet, without_blanks
from cli.views.sheets.table_cards import table_card
from cli.views.sheets.wall_charts import exact_answer, short_setting
from solver.dividing.choosing import choose
from solver.dividing.table_dial import dial_alone
from solver.wheelwork.wheel_limits import WheelLimits, way_of_dividing

if TYPE_CHECKING:
    from solver.dividing.heads import Head
    from solver.dividing.moves import IndexAnswer
    from solver.wheelwork.counts_search import CountsReport


def counts_sheet(report: CountsReport, limits: WheelLimits, within: Fraction, clean: int, within_text: str) -> Sheet:
    """Make the sheet of the train with the fewest wheels within the error, or of the nearest."""
    chosen = report.within(within)
    shown = chosen or report.best
    if shown is None:
        raise TypeError("a report without any train was refused before")
    many = Counter(teeth for _, teeth in shown.train.wheels)
    settings = {teeth: wheel_setting(limits, teeth) for teeth in sorted(many)}
    heads, cells = cutting_list(limits, many, settings)
    fine = [str(teeth) for teeth in settings if teeth < clean]
    undercut = [f"Undercut by a straight-flanked tool: {', '.join(fine)}."] if fine else []
    depth = "" if limits.tooth is None else f", whole depth {size_text(limits.tooth.whole_depth)}"
    pieces: list[Piece] = [
        Lead(
            f"{shown.train}", f"driver-driven, first arbor first{'' if chosen else '; NEAREST, not within the error'}"
        ),
        Facts([(place.capitalize(), does) for place, does in arbor_rows(shown)]),
        Grid(f"Wheels to cut{depth}", heads, cells, ticked=True, notes=undercut),
        Facts(centre_rows(shown, limits), "Frame plates"),
        Lines("Early check, before the plates are drilled", without_blanks(early_check(shown)), ticked=True),
        Cautions(counts_cautions(shown, limits, clean)),
        Facts(error_rows(shown, within), "Proof, error and drift"),
        Facts(asked_rows(report, limits, within_text), "Asked"),
        Lines("What was proven", proof_lines(report)),
        Measured(["Turns counted on the finished train:", "Way the last arbor turns:"]),
    ]
    head = limits.head
    cards = (
        [] if head is None else [wheel_card(limits, head, teeth, many[teeth], settings[teeth]) for teeth in settings]
    )
    return Sheet(f"Cutting list {shown.train}", cards, pieces, has_front_page=True)


def wheel_setting(limits: WheelLimits, teeth: int) -> IndexAnswer | None:
    """Take the head's first exact setting by the first method allowed; nothing without a head, or by a dial."""
    way = None if limits.head is None else way_of_dividing(limits.head, teeth, limits.methods)
    return None if way is None or limits.head is None else exact_answer(limits.head, teeth, way)


def cutting_list(
    limits: WheelLimits, many: Counter[int], settings: dict[int, IndexAnswer | None]
) -> tuple[list[tuple[str, str]], list[list[str]]]:
    """List each count with its blank, its cutter and its setting, as heads and cells."""
    tooth = limits.tooth
    heads = [("Teeth", "right"), ("How many", "right")]
    heads += [] if tooth is None else [("Blank", "left"), (cutter_head(tooth), "left")]
    heads += [] if limits.head is None else [("Setting", "left")]
    rows = []
    for teeth, answer in settings.items():
        row = [str(teeth), str(many[teeth])]
        if tooth is not None:
            row += [size_text(tooth.outside(teeth)), cutter_words(tooth, teeth)]
        if limits.head is not None:
            row.append("by the dial" if answer is None else short_setting(answer))
        rows.append(row)
    return heads, rows


def wheel_card(limits: WheelLimits, head: Head, teeth: int, number: int, answer: IndexAnswer | None) -> Card:
    """Make the card of one count on the head; without a setting it goes by the dial of its table."""
    table = dial_alone(head, Fraction(1, teeth), teeth) if answer is None else None
    if table is not None:
        card = table_card(head, table, None)
    elif answer is not None:
        choice = choose(head, answer.wanted, at_once=1)
        card = index_card(IndexSetUp(head, answer, teeth), divided_rows(teeth, head, choice))
    else:
        raise TypeError("a count that the head does not divide was left out before")
    rows = [("Wheels", f"{number} of {teeth} teeth")]
    if limits.tooth is not None:
        rows.append(("Blank", size_text(limits.tooth.outside(teeth))))
        rows.append(("Depth", size_text(limits.tooth.whole_depth)))
    return Card(f"Wheel of {teeth}", card.machine, [Facts(rows), *card.pieces])
