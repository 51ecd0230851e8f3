"""The moves of the head for a part with several flats, slots, holes or marks, in a few lines."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from cli.index_moves import IndexMoves, other_ways
from cli.views import answer_json
from cli.views.method_tables import counted, move_text
from cli.views.screen import answers_table, print_answers
from cli.views.shop_figures import arcsec_text
from solver.dividing.moves import IndexAnswer, Method

if TYPE_CHECKING:
    from rich.console import Console

#: Settings shown here; ``divide`` shows them all.
MOST_SHOWN = 3


def print_index_moves(out: Console, moves: IndexMoves, what: str) -> None:
    """Print the settings under a title; ``what`` names one part, as ``flat``."""
    out.print()
    step = Fraction(1, moves.parts)
    out.print(f"INDEX MOVES, {counted(moves.parts, what)}, {step} turn each, on {moves.head.name}", style="bold")
    if not moves.is_exact:
        for way in other_ways(moves.head, moves.parts):
            out.print(f"This head has more than plates and holes: halfnut divide {moves.parts} --with {way}")
    if moves.report is None:
        out.print(f"None on this head: {moves.refusal}")
        return
    table = answers_table([("Method", "left"), ("Each move", "left"), ("Plate", "left"), ("At closure", "left")])
    for answer in moves.report.answers[:MOST_SHOWN]:
        table.add_row(
            answer.method.value,
            setting_text(answer, moves.parts),
            answer.plate or "-",
            "exact" if answer.is_exact else arcsec_text(answer.error_at_closure),
        )
    print_answers(out, table)
    more = len(moves.report.answers) - MOST_SHOWN
    if more > 0:
        out.print(f"{more} more: halfnut divide {moves.parts}")


def setting_text(answer: IndexAnswer, count: int) -> str:
    """Write one setting with its sector; any but one move of one circle is left to ``divide``."""
    if answer.method is Method.DIRECT:
        spaces = answer.move.turns * (answer.move.circle or 1) + answer.move.spaces
        return f"{counted(spaces, 'space')} of the {answer.move.circle} on the spindle"
    if answer.method not in (Method.PLAIN, Method.NEAREST):
        return f"see halfnut divide {count}"
    if answer.move.circle is None or answer.move.spaces == 0:
        return move_text(answer.move)
    return f"{move_text(answer.move)} (arms enclose {answer.move.sector_holes} holes)"


def index_json(moves: IndexMoves) -> dict[str, Any]:
    """Describe the moves as ``divide`` does."""
    answers = moves.report.answers if moves.report else ()
    return {
        "head": moves.head.name,
        "divisions": moves.parts,
        "answers": [answer_json.index_answer(answer) for answer in answers],
        "refused": moves.refusal or None,
    }
