"""The cards of a round divided by two cranks, an indexer's pin, a locked lathe spindle or a collet block."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from cli.views.cautions import cranks_cautions, dividing_cautions
from cli.views.method_tables import SIGNS, counted
from cli.views.other_equipment_screen import (
    BLOCK_CAUTIONS,
    BLOCK_CHECKS,
    PINS_NOTE,
    SPINDLE_CAUTIONS,
    block_rows,
    crank_text,
    cranks_checks,
    cranks_note,
    cranks_rows,
    pin_checks,
    pin_rows,
    setup_text,
    step_text,
    stop_checks,
    stop_rows,
)
from cli.views.shape_screen import every_face
from cli.views.sheets.index_cards import closing_measured
from cli.views.sheets.pieces import Card, Cautions, Count, Facts, Lead, Lines, Piece, Resume, Shout
from cli.views.sheets.running_count import MOST_COUNTED, WORK, close_angle, hole_after, in_blocks
from cli.views.shop_figures import arcsec_text
from solver.quantities.angles import Angle

if TYPE_CHECKING:
    from solver.dividing.heads import Head
    from solver.dividing.spindle_stops import BlockSetting, PinPlace, StopSetting
    from solver.dividing.two_cranks import TwoCrankSetting
    from solver.trains.lathe import Lathe

TICKED = "Tick each mark after it is cut; at a line with * count the marks on the work."
CRANKS_START = "Both pins begin in hole 0. Large and Small: the hole each stands in after the move, on its own circle."
#: What the next pair of hands must know in the middle of a round.
CRANKS_LEFT = ("Last mark done", "Large pin in circle and hole", "Small pin in circle and hole", "Which way each goes")
PINS_LEFT = ("Last mark done", "Hole and pin place", "Spindle turned which way")
STOPS_LEFT = ("Last mark done", "Place 0 is marked at", "Spindle turned which way")
BLOCK_LEFT = ("Last face done", "Block and collet", "Face numbered 1")


def cranks_card(count: int | None, head: Head, settings: Sequence[TwoCrankSetting]) -> Card:
    """Make the card of the leading setting of both cranks, with its count."""
    first = settings[0]
    rows = cranks_rows(count, head, first)
    large, small = crank_text(first.large), crank_text(first.small)
    pieces: list[Piece] = [Facts([row for row in rows if row[0] != "Head"])]
    if not first.is_exact:
        off = f"{arcsec_text(first.error_per_move)} each move, {arcsec_text(first.error_at_closure)} at closure."
        pieces.append(Shout("NOT EXACT", f"{off} {SIGNS}"))
    pieces += [
        Lead(f"Large {large}", f"plate {first.plate}"),
        Lead(f"Small {small}", cranks_note(settings[:1])),
        Lines("Early check, before metal is cut", cranks_checks(head), ticked=True),
        Cautions(cranks_cautions(settings[:1])),
        closing_measured(count),
        Resume(CRANKS_LEFT),
    ]
    if first.moves_to_close <= MOST_COUNTED:
        heads = [("Mark", "right"), ("Large", "right"), ("Small", "right"), WORK]
        cells = [
            [
                str(number),
                str(hole_after(first.large, number)),
                str(hole_after(first.small, number)),
                close_angle(Angle(turned if turned <= 1 else turned % 1)),
            ]
            for number in range(1, first.moves_to_close + 1)
            for turned in [number * first.reached]
        ]
        notes = [CRANKS_START, TICKED]
        pieces.append(Count(f"Count of {first.moves_to_close} marks", heads, in_blocks(cells), notes=notes))
    asked = counted(count, "equal division") if count else f"{first.wanted} turn"
    return Card(f"By both cranks: {asked}", head.name, pieces)


def pins_card(head: Head, places: Sequence[PinPlace]) -> Card:
    """Make the card of a round by the holes of an indexer and the places of its pin."""
    rows, marks = pin_rows(head, places), len(places) - 1
    cells = [
        [str(each.number), str(each.hole), str(each.place), close_angle(Angle(Fraction(each.number, marks)))]
        for each in places[1:]
    ]
    pieces: list[Piece] = [
        Facts([row for row in rows if row[0] != "Head"]),
        Lines("Early check, before metal is cut", pin_checks(places), ticked=True),
        Cautions(dividing_cautions(by_crank=False)),
        closing_measured(marks),
        Resume(PINS_LEFT),
        Count(
            f"Count of {counted(marks, 'mark')}",
            [("Mark", "right"), ("Hole", "right"), ("Pin place", "right"), WORK],
            in_blocks(cells),
            notes=[PINS_NOTE, TICKED],
        ),
    ]
    return Card(f"By hole and pin place: {rows[0][1]}", head.name, pieces)


def stops_card(lathe: Lathe, settings: Sequence[StopSetting]) -> Card:
    """Make the card of a spindle locked at its own stops, or by a detent in a change wheel."""
    first = settings[0]
    rows, marks = stop_rows(lathe, first), first.divisions
    cells = [
        [str(number), str(place), close_angle(Angle(Fraction(number, marks)))]
        for number, place in enumerate(first.places())
        if number
    ]
    where = "Tooth" if first.counted_wheel else "Place"
    pieces: list[Piece] = [
        Facts([row for row in rows if row[0] != "Lathe"]),
        Lead(f"Each move {step_text(first)}", setup_text(first)),
        Lines("Early check, before metal is cut", stop_checks(first, "The marks"), ticked=True),
        Cautions(SPINDLE_CAUTIONS),
        closing_measured(marks),
        Resume(STOPS_LEFT),
    ]
    if marks <= MOST_COUNTED:
        heads = [("Mark", "right"), (where, "right"), WORK]
        pieces.append(Count(f"Count of {counted(marks, 'mark')}", heads, in_blocks(cells), notes=[TICKED]))
    return Card(f"On the spindle: {rows[0][1]}", lathe.name, pieces)


def block_card(divisions: int, blocks: Sequence[BlockSetting]) -> Card:
    """Make the card of a collet block turned over in the vice."""
    pieces: list[Piece] = [
        Facts(block_rows(divisions, blocks)[:1]),
        *(Lead(every_face(each.step), f"{each.shape} block of {each.faces} faces") for each in blocks),
        Lines("Early check, before metal is cut", BLOCK_CHECKS, ticked=True),
        Cautions(BLOCK_CAUTIONS),
        closing_measured(divisions),
        Resume(BLOCK_LEFT),
    ]
    shapes = " or ".join(each.shape for each in blocks)
    return Card(f"By a collet block: {counted(divisions, 'equal division')}", f"{shapes} block in the vice", pieces)
