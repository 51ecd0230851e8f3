"""What is shown of the settings of a head, and the words that prove and check one of them; data in, text out."""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import Any

from cli.views import answer_json
from cli.views.method_tables import arms_enclose, counted, divisions_text, geared, plate_turns_text, without_wheels_text
from cli.views.shop_figures import approximate, arcsec_text
from solver.dividing.choosing import ChoiceReport, MethodReport
from solver.dividing.heads import Head
from solver.dividing.index_audit import audit_move
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.skipping import order_of_marks
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.pitches import figure_text

#: Settings of one method that are shown unless all are asked for.
USUALLY_SHOWN = 5
#: Marks written out at the start of an order.
MARKS_SHOWN = 12


def shown_of(report: MethodReport, *, every: bool) -> tuple[IndexAnswer, ...]:
    """Choose the settings of one method that are shown; direct and plain are few and shown whole."""
    if every or report.method in (Method.DIRECT, Method.PLAIN):
        return report.answers
    return report.leading(USUALLY_SHOWN)


def choice_json(choice: ChoiceReport, *, every: bool) -> dict[str, Any]:
    """Describe the settings shown, method after method, and how many there are of each."""
    shown = [(report, shown_of(report, every=every)) for report in choice.methods]
    return {
        "answers": [answer_json.index_answer(each) for _, answers in shown for each in answers],
        "methods": [
            {
                "method": report.method.value,
                "found": len(report.answers),
                "shown": len(answers),
                "exact": report.is_exact,
                "obstacle": report.obstacle or None,
                "most_divisions_per_move": report.most_at_once,
            }
            for report, answers in shown
        ],
    }


def proof_text(answer: IndexAnswer, head: Head) -> str:
    """Prove a setting of more than one motion in a line; empty for the others, whose proof stands at the top."""
    if answer.gearing is not None:
        count, rounds = answer.moves_to_close, answer.wanted.numerator
        plate = rounds * answer.gearing.plate_turns
        sign = "+" if plate > 0 else "-"
        return (
            f"Proof: {count} moves × {answer.move.value} {sign} {abs(plate)} of the plate = "
            f"{figure_text(head.worm_ratio * rounds)} turns of the worm, {counted(rounds, 'round')} of the work."
        )
    if answer.second is not None:
        first, second = answer.moves
        sign = "+" if second.sign > 0 else "-"
        total = answer.reached * head.worm_ratio
        missed = "" if answer.is_exact else f", for {answer.wanted * head.worm_ratio} wanted"
        return f"Proof: {first.value} {sign} {abs(second.value)} = {counted(total, 'crank turn')}{missed}."
    return ""


def order_lines(answer: IndexAnswer) -> list[str]:
    """Say in which order the marks come when a move carries the work over several divisions."""
    count = answer.moves_to_close
    marks = order_of_marks(count, answer.at_once)
    start = ", ".join(map(str, marks[:MARKS_SHOWN]))
    more = ", ..." if count > MARKS_SHOWN else ""
    rounds = (
        f"The work goes {counted(answer.at_once, 'round')}; no two neighbours are cut one after the other, so no space "
        "can be measured until late."
    )
    return [f"Marks numbered round the work come as {start}{more}; the last is {marks[-1]}.", rounds]


def early_check(answer: IndexAnswer, head: Head, count: int | None) -> list[str]:
    """Say what to see before cutting: the ratio counted, the wheels tried, a checkpoint, the closing mark."""
    lines = []
    if answer.method is Method.DIFFERENTIAL:
        gearing = geared(answer)
        way = "the way the crank turns" if gearing.follows else "against the crank"
        lines.append(
            f"Wheels on, stop pin out, crank pin drawn: crank the work round once; the plate must turn "
            f"{plate_turns_text(gearing.plate_turns)} {way}. The wrong way: one idler more or less."
        )
        asked = f", not {count or 'the angle asked'}"
        if count and answer.at_once > 1:
            asked = f"; {divisions_text(Fraction(count, answer.at_once))} should"
        lines.append(f"Wheels forgotten, {without_wheels_text(answer)}{asked}.")
    elif answer.method is not Method.DIRECT:
        lines += ratio_check(head)
    every = answer.moves_to_close
    moves, rounds = counted(every, "move"), counted(answer.wanted.numerator, "round")
    if not count and not answer.is_exact:
        stands, miss = sexagesimal_text(Angle(answer.reached), 1), arcsec_text(answer.error_per_move)
        return [*lines, f"After the move the work has turned {stands}, {miss} from what was asked."]
    checkpoint = next((every // parts for parts in (4, 3, 2) if every % parts == 0 and every > parts), None)
    if checkpoint:
        shown = sexagesimal_text(Angle(answer.reached * checkpoint))
        lines.append(f"After {counted(checkpoint, 'move')} the work has turned {shown}.")
    if answer.is_exact:
        lines.append(f"After {moves} {_pins_text(answer, head)} and the work has gone {rounds}.")
    else:
        miss = arcsec_text(answer.error_at_closure)
        lines.append(f"After {moves} the work should have gone {rounds}; repeating this move misses by {miss}.")
    if count and answer.move.circle and answer.method in (Method.PLAIN, Method.NEAREST) and arms_enclose(answer):
        wrong = audit_move(CrankMove(answer.move.turns, answer.move.spaces + 1, answer.move.circle), head.worm_ratio)
        divides = _count_words(wrong.divisions * answer.at_once)
        lines.append(f"Arms set one hole too wide would divide {divides}, not {count}.")
    return lines


def effort_text(answer: IndexAnswer, head: Head) -> str:
    """Say how much cranking a whole round is, the cutting apart.

    Examples
    --------
    >>> answer = IndexAnswer(Method.PLAIN, CrankMove(1, 9, 21), "B", Fraction(1, 28), Fraction(1, 28), 28)
    >>> effort_text(answer, Head("head", Fraction(40), ()))
    'The round: 28 moves, 40 crank turns in all; about 14 min at half a minute a motion (practice), cutting apart.'
    """
    moves = answer.moves_to_close
    motions = moves * len(answer.moves)
    turns = moves * sum(abs(move.value) for move in answer.moves)
    cranked = (
        ""
        if answer.is_on_spindle
        else f", {turns_text(turns if turns.denominator == 1 else round(turns), head)} in all"
    )
    return (
        f"The round: {counted(moves, 'move')}{cranked}; about {ceil(Fraction(motions, 2))} min at half a minute a "
        "motion (practice), cutting apart."
    )


def ratio_check(head: Head) -> list[str]:
    """Ask that the ratio of a worm be counted rather than trusted; nothing without a worm."""
    if not head.has_worm:
        return []
    if head.has_only_dial:
        return [handle_check(head)]
    return [f"Count the ratio: {figure_text(head.worm_ratio)} crank turns must bring the work round exactly once."]


def handle_check(head: Head) -> str:
    """Ask that the turns of a table's handle for one round be counted.

    Examples
    --------
    >>> handle_check(Head("table", Fraction(90), ()))
    'Count the ratio: 90 turns of the handle must bring the table round once.'
    """
    return f"Count the ratio: {figure_text(head.worm_ratio)} turns of the handle must bring the table round once."


def turns_text(turns: Fraction | int, head: Head) -> str:
    """Count turns of the crank; a table without plates has a handle.

    Examples
    --------
    >>> turns_text(1, Head("head", Fraction(40), ()))
    '1 crank turn'
    """
    return f"{counted(turns, 'turn')} of the handle" if head.has_only_dial else counted(turns, "crank turn")


def _pins_text(answer: IndexAnswer, head: Head) -> str:
    if head.has_only_dial and answer.second is None and not answer.move.spaces:
        return f"the handle has made {counted(answer.moves_to_close * answer.move.value, 'turn')}, its dial at 0 again,"
    names = ("the pin", "the stop pin")
    places = list(zip(names, answer.holes_at_closure, strict=False))
    if all(hole == 0 for _, (hole, _) in places):
        return "the pins are back in their first holes" if answer.second else "the pin is back in its first hole"
    return " and ".join(f"{name} stands in hole {hole} of the {circle}" for name, (hole, circle) in places) + (
        ", the first being 0,"
    )


def _count_words(divisions: Fraction) -> str:
    return figure_text(divisions) if divisions.denominator == 1 else f"{approximate(divisions, 2)} (it does not close)"
