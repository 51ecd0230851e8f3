"""Cards of parts cut on the head or by the dials: shapes, slots, keyways, and holes on a circle."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cli.views.cautions import DEFER, head_cautions, touching_cautions
from cli.views.holes_screen import HoleCircle, circle_cautions, circle_rows, dial_notes, hole_checks, place_table
from cli.views.index_lines import ONE_MOTION
from cli.views.index_settings import early_check
from cli.views.part_figures import size_text
from cli.views.shape_screen import block_line, shape_checks, shape_rows
from cli.views.sheets.index_cards import LEFT_OFF, count_pieces, left_off, moves_set_up, setting_pieces
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
)
from cli.views.sheets.table_cards import TABLE_LEFT_OFF, table_count, table_pieces
from cli.views.slot_screen import (
    CROSS_TRAVEL,
    PASS_HEADS,
    SlotSetting,
    centre_proof,
    keyway_checks,
    keyway_rows,
    pass_tables,
    right_across,
    slot_checks,
    slot_rows,
)
from solver.dividing.slots import Keyway, LengthwiseSlot

if TYPE_CHECKING:
    from cli.index_moves import IndexMoves
    from gearsets.key_tables import StandardKey
    from solver.dials.screw_dials import ScrewDial
    from solver.dividing.shapes import FlatsOnRound

#: What the next pair of hands must know at a table with dials.
DIALS_LEFT_OFF = ("Last hole done", "x dial zero", "y dial zero", "Play taken up towards")


def shape_card(word: str, cut: FlatsOnRound, moves: IndexMoves, screw: ScrewDial | None) -> Card:
    """Make the card of equal flats on a round."""
    rows = shape_rows(word, cut, screw)
    depth = next(fact for name, fact in rows if name == "Depth of each flat")
    over = [f"First flat to the round opposite, {size_text(cut.over_first_flat)} at full depth:"]
    if cut.flats.across_flats is not None:
        over.append(f"Across flats, {size_text(cut.flats.across_flats)} if right:")
    blocks = block_line(moves.parts)
    pieces: list[Piece] = [
        Lead(f"Depth {depth.split(', from', maxsplit=1)[0]}", "each flat, from touching the round"),
        Facts(rows[1:]),
        *move_pieces(moves, "flat"),
        *([Lines("Without a head", [f"{blocks[0].upper()}{blocks[1:]}."])] if blocks else []),
        Lines("Early check, before the last flat", shape_checks(cut), ticked=True),
        Cautions((*touching_cautions(), *head_cautions(moves.head, moves.best))),
        Measured(over),
        *counting_pieces(moves),
    ]
    return Card(f"Flats: {rows[0][1]}", moves.head.name, pieces)


def slot_card(
    setting: SlotSetting, along: LengthwiseSlot | None, moves: IndexMoves | None, screw: ScrewDial | None
) -> Card:
    """Make the card of a slot, or of several round the work."""
    rows = slot_rows(setting, along, screw)
    across = right_across(setting, along, moves.parts) if moves else ""
    if across and moves and moves.parts % 2 == 0:
        across += f" So only the first {moves.parts // 2} lines of the count are cut and ticked."
    pieces: list[Piece] = [
        Facts(rows[1:]),
        *cross_pieces(setting, screw),
        *(move_pieces(moves, "slot") if moves else []),
        *([Lines("Right across", [across])] if across else []),
        Lines("Early check", slot_checks(setting), ticked=True),
        *closing_pieces(moves, ["Side touched to the nearer wall:", "Depth:"]),
    ]
    title = f"{moves.parts} slots" if moves else "Slot"
    asked = rows[0][1].removeprefix("slot ")
    return Card(f"{title} {asked}", moves.head.name if moves else f"round of {size_text(setting.diameter)}", pieces)


def keyway_card(
    keyway: Keyway,
    setting: SlotSetting,
    moves: IndexMoves | None,
    screw: ScrewDial | None,
    key: StandardKey | None = None,
) -> Card:
    """Make the card of a keyway, or of several round the shaft."""
    rows = keyway_rows(keyway, setting, screw, key)
    pieces: list[Piece] = [
        Facts(rows[1:]),
        *cross_pieces(setting, screw),
        *(move_pieces(moves, "keyway") if moves else []),
        Lines("Early check", keyway_checks(keyway, setting), ticked=True),
        *closing_pieces(moves, [f"Bottom to far side, {size_text(keyway.over_bottom)} if right:"]),
    ]
    title = f"{moves.parts} keyways" if moves else "Keyway"
    asked = rows[0][1].removeprefix("keyway ")
    return Card(f"{title} {asked}", moves.head.name if moves else f"shaft of {size_text(keyway.shaft)}", pieces)


def cross_pieces(setting: SlotSetting, screw: ScrewDial | None) -> list[Piece]:
    """List the travel across to each pass, to tick off."""
    notes = [centre_proof(setting)] if setting.is_centred else []
    return [
        Grid(title or f"Cross travel, {CROSS_TRAVEL}", PASS_HEADS, rows, ticked=True, notes=notes)
        for title, rows in pass_tables(setting, screw)
    ]


def move_pieces(moves: IndexMoves, what: str, several: str = "") -> list[Piece]:
    """Show the setting of the head for each part, which is called ``what``; or why there is none."""
    each = Facts([("Index", f"{moves.parts} {several or f'{what}s'}, 1/{moves.parts} turn each")])
    if moves.table is not None:
        return [each, *table_pieces(moves.head, moves.table)]
    set_up = moves_set_up(moves)
    if set_up is None:
        return [Shout("NO MOVES ON THIS HEAD", moves.refusal)]
    pieces: list[Piece] = [each, *setting_pieces(set_up)]
    if set_up.answer.method not in ONE_MOTION:
        checks = early_check(set_up.answer, moves.head, moves.parts)
        pieces.append(Lines("Early check of the head", checks, ticked=True))
    return pieces


def counting_pieces(moves: IndexMoves | None) -> list[Piece]:
    """Give the strip for a break, and the count to tick off."""
    if moves is None:
        return []
    if moves.table is not None:
        return [Resume(TABLE_LEFT_OFF), *table_count(moves.table)]
    set_up = moves_set_up(moves)
    return [Resume(left_off(set_up)), *count_pieces(set_up)] if set_up else [Resume(LEFT_OFF)]


def closing_pieces(moves: IndexMoves | None, what: Sequence[str]) -> list[Piece]:
    """Give cautions, lines for what was measured, and the count."""
    cautions = (*touching_cautions(), *(head_cautions(moves.head, moves.best) if moves else (DEFER,)))
    return [Cautions(cautions), Measured(what), *counting_pieces(moves)]


def holes_card(asked: HoleCircle, screw: ScrewDial | None) -> Card:
    """Make the card of holes on a circle by coordinates."""
    rows = circle_rows(asked, screw)
    heads, places = place_table(asked, screw)
    moves = asked.moves
    what = ["First two neighbours, centre to centre:"] if len(places) > 1 else ["Place of the hole:"]
    pieces: list[Piece] = [
        Facts(rows[1:]),
        Lines("Early check, before drilling", hole_checks(asked), ticked=True),
        Cautions(circle_cautions(asked)),
        Measured(what),
        Resume(DIALS_LEFT_OFF),
        Grid("Coordinates, each from zero", heads, places, ticked=True, notes=dial_notes(asked, screw)),
        *([*move_pieces(moves, "hole"), *counting_pieces(moves)] if moves else []),
    ]
    return Card(rows[0][1][0].upper() + rows[0][1][1:], "table by its dials", pieces)
