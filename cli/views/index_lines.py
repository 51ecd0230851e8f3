"""The moves of the head for a part with several flats, slots, holes or marks; data in, text out."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from cli.index_moves import IndexMoves, other_ways
from cli.views.index_settings import choice_json, early_check, order_lines, proof_text
from cli.views.method_tables import (
    SIGNS,
    counted,
    move_text,
    print_bounds,
    print_settings,
    spindle_text,
)
from cli.views.screen import answers_table, facts_table, print_answers, print_list
from cli.views.shop_figures import arcsec_text
from cli.views.table_dial_screen import by_dial_json, by_dial_rows, print_marks, table_checks
from solver.dividing.choosing import ChoiceReport, MethodReport
from solver.dividing.moves import IndexAnswer, Method

if TYPE_CHECKING:
    from rich.console import Console

#: Settings of one motion shown here, and of those with wheels or two motions; ``divide`` shows them all.
MOST_SHOWN, MOST_OF_MORE = 3, 2
#: Methods of one motion, the plate held or the worm out.
ONE_MOTION = (Method.DIRECT, Method.PLAIN, Method.NEAREST)


def print_index_moves(out: Console, moves: IndexMoves, what: str, *, with_marks: bool = True) -> None:
    """Print the settings under a title; ``what`` names one part, as ``flat``.

    ``with_marks`` lists every mark of a table that goes by its dial, where nothing else on the screen does.
    """
    out.print()
    step = Fraction(1, moves.parts)
    out.print(f"INDEX MOVES, {counted(moves.parts, what)}, {step} turn each, on {moves.head.name}", style="bold")
    if moves.table is not None:
        out.print(facts_table(by_dial_rows(moves.head, moves.table, None)))
        if with_marks:
            out.print()
            print_marks(out, moves.table)
        print_list(out, "Early check of the table", table_checks(moves.head, moves.table))
        return
    if not moves.is_exact and not moves.head.has_only_dial:
        for way in other_ways(moves.head, moves.parts):
            out.print(f"This head has more than plates and holes: {moves.command(f'--with {way}')}")
    if moves.choice is None or moves.best is None:
        out.print(f"None on this head: {moves.refusal}")
        return
    print_choice(out, moves.choice, see=moves.command)
    if moves.best.method not in ONE_MOTION:
        out.print()
        out.print(f"For the {moves.best.method.value} setting listed first:")
        out.print(proof_text(moves.best, moves.head))
        if moves.best.at_once > 1:
            print_list(out, "Order of the marks", order_lines(moves.best))
        print_list(out, "Early check of the head", early_check(moves.best, moves.head, moves.parts))


def print_choice(out: Console, choice: ChoiceReport, *, see: Callable[[str], str]) -> None:
    """Print the leading settings: of the exact methods where there are any, else of all.

    ``see`` writes the command that lists the rest, from the options it needs.
    """
    answering = [report for report in choice.methods if report.answers]
    listed = [report for report in answering if report.is_exact] or answering
    simple = [report for report in listed if report.method in ONE_MOTION]
    for number, report in enumerate(each for each in listed if each not in simple):
        if number:
            out.print()
        shown = report.leading(MOST_OF_MORE)
        print_settings(out, report.method, shown)
        print_bounds(out, report)
        _print_more(out, len(report.answers) - len(shown), see(f"--method {report.method.value} --all"))
    if simple:
        if len(simple) < len(listed):
            out.print()
        _print_simple(out, simple, see)


def _print_simple(out: Console, reports: list[MethodReport], see: Callable[[str], str]) -> None:
    answers = [answer for report in reports for answer in report.answers]
    table = answers_table([("Method", "left"), ("Each move", "left"), ("Plate", "left"), ("At closure", "left")])
    for answer in answers[:MOST_SHOWN]:
        table.add_row(
            answer.method.value,
            setting_text(answer),
            answer.plate or "-",
            "exact" if answer.is_exact else arcsec_text(answer.error_at_closure),
        )
    print_answers(out, table)
    if not all(answer.is_exact for answer in answers[:MOST_SHOWN]):
        out.print(SIGNS)
    _print_more(out, len(answers) - MOST_SHOWN, see(""))


def _print_more(out: Console, more: int, see: str) -> None:
    if more > 0:
        out.print(f"{more} more: {see}")


def setting_text(answer: IndexAnswer) -> str:
    """Write a setting of one motion with its sector.

    Examples
    --------
    >>> from solver.dividing.moves import CrankMove
    >>> part = Fraction(1, 28)
    >>> setting_text(IndexAnswer(Method.PLAIN, CrankMove(1, 9, 21), "B", part, part, 28))
    '1 turn + 9 spaces on 21 (arms enclose 10 holes)'
    """
    if answer.is_on_spindle:
        return spindle_text(answer.move)
    if answer.move.circle is None or answer.move.spaces == 0:
        return move_text(answer.move)
    return f"{move_text(answer.move)} (arms enclose {answer.move.sector_holes} holes)"


def index_json(moves: IndexMoves) -> dict[str, Any]:
    """Describe the moves as ``divide`` does; ``by_dial`` stands for them where the table goes by its dial."""
    found = {"answers": [], "methods": []} if moves.choice is None else choice_json(moves.choice, every=False)
    return {
        "head": moves.head.name,
        "divisions": moves.parts,
        **found,
        "exact": moves.is_exact,
        "refused": moves.refusal or None,
        "by_dial": None if moves.table is None else by_dial_json(moves.table),
    }
