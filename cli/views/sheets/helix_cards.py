"""The card of a helix: wheels between table screw and head, table swing, cutter, and the count of flutes or teeth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.views.helix_screen import Helix, asked_rows, early_check, table_rows, train_rows
from cli.views.milling_cautions import helix_cautions
from cli.views.sheets.index_cards import IndexSetUp, count_pieces, plate_pieces
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
    without_blanks,
)
from solver.dividing.moves import Method
from solver.helices.mill import Drive

if TYPE_CHECKING:
    from solver.dividing.moves import IndexAnswer

#: What the next pair of hands must know in the middle of a helix.
LEFT_OFF = ("Last groove done", "Wheels on", "Table swung to", "Index hole, plate pin out")
#: Rows of a train that tell of wheels, and not of what they make.
AXES = ("screw", "stud", "idler", "worm shaft", "spindle")


def helix_card(helix: Helix) -> Card:
    """Make the card of the first train that answers."""
    question = helix.report.question
    train = helix.report.answers[0]
    rows = train_rows(train, helix)
    wheels = [(name.strip(), fact) for name, fact in rows if name.strip().startswith(AXES)]
    told = [row for row in rows if row[0].strip() not in ("Train", *dict(wheels))]
    token, legend = rows[0][1].split("   ", maxsplit=1)
    echoed = asked_rows(helix)
    pieces: list[Piece] = [
        Lead(token, legend.strip("()")),
        Grid("Mount, in this order", [("Axis", "left"), ("Wheel", "left")], wheels, ticked=True),
        Facts(table_rows(train, helix), "Table and cutter"),
        Lines("Early check, before metal is cut", without_blanks(early_check(train, helix)), ticked=True),
        Cautions(helix_cautions(is_short=question.drive is Drive.SPINDLE)),
        Facts([row for row in echoed if row[0] != "Head"], "Asked"),
        Facts(told, "Proof and error"),
        Measured(["Scribed line, lead or angle measured:", "Hand seen:"]),
        Resume(LEFT_OFF),
    ]
    plain = _plain_move(helix)
    if plain is not None:
        pieces += [*plate_pieces(helix.head, plain), *count_pieces(IndexSetUp(helix.head, plain, plain.moves_to_close))]
    return Card(f"Helix: {echoed[0][1]}", helix.head.name, pieces)


def _plain_move(helix: Helix) -> IndexAnswer | None:
    """Choose the plain move that indexes from groove to groove; nothing where the worm is out of mesh."""
    if helix.dividing is None or helix.report.question.drive is Drive.SPINDLE:
        return None
    answers = helix.dividing.answers
    return next((each for each in answers if each.is_exact and each.method is not Method.DIRECT), None)
