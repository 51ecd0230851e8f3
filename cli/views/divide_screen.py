"""The terminal screen and the JSON of ``divide``."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from cli.views import answer_json
from cli.views.cautions import dividing_cautions
from cli.views.method_tables import (
    arms_enclose,
    counted,
    divisions_text,
    geared,
    move_text,
    plate_turns_text,
    print_method,
    print_side_by_side,
)
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import approximate, arcsec_text
from solver.dividing.choosing import ChoiceReport, MethodReport
from solver.dividing.heads import Head
from solver.dividing.index_audit import audit_move
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.positions import Position
from solver.dividing.skipping import order_of_marks
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.pitches import figure_text

if TYPE_CHECKING:
    from rich.console import Console

#: Plate name or none, circle, rows.
PositionTable = tuple[str | None, int, tuple[Position, ...]]
#: Settings of one method that are shown unless all are asked for.
USUALLY_SHOWN = 5
#: Marks written out at the start of an order.
MARKS_SHOWN = 12


def shown_of(report: MethodReport, *, every: bool) -> tuple[IndexAnswer, ...]:
    """Choose the settings of one method that are shown; direct and plain are few and shown whole."""
    if every or report.method in (Method.DIRECT, Method.PLAIN):
        return report.answers
    return report.leading(USUALLY_SHOWN)


def show_divide(
    count: int | None, head: Head, choice: ChoiceReport, table: PositionTable | None, *, every: bool
) -> None:
    """Print the answer of ``divide``."""
    out = console()
    out.print(facts_table(asked_rows(count, head, choice)))
    out.print()
    answering = [report for report in choice.methods if report.answers]
    if len(choice.methods) > 2:
        print_side_by_side(out, choice)
        out.print()
    # Beside an exact setting the others are told of in the table above, and listed when they are asked for.
    listed = [report for report in answering if report.is_exact or every] or answering
    for report in _joined(listed):
        print_method(out, report, shown_of(report, every=every))
        out.print()
    if len(listed) < len(answering):
        unlisted = " or ".join(report.method.value for report in answering if report not in listed)
        out.print(f"--method {unlisted} lists those settings.")
        out.print()
    first = answering[0].answers[0]
    out.print(f"For the {first.method.value} setting listed first:")
    if proof := proof_text(first, head):
        out.print(proof)
    if first.at_once > 1:
        print_list(out, "Order of the marks", order_lines(first))
    print_list(out, "Early check, before metal is cut", early_check(first, head, count))
    if table is not None:
        print_positions(out, table)
    print_list(out, "Cautions", dividing_cautions(first))


def asked_rows(count: int | None, head: Head, choice: ChoiceReport) -> list[tuple[str, str]]:
    """Echo what was asked, the head, and the turns of the crank that one move takes."""
    angle = Angle(choice.part)
    asked = counted(count, "equal division") if count else "one angle"
    wanted = choice.part * choice.at_once
    rows = [("Asked", f"{asked}: {approximate(angle.degrees, 6)}° = {sexagesimal_text(angle, 1)} each")]
    if choice.at_once > 1:
        rows.append(("At once", f"{choice.at_once} divisions each move, {wanted} turn of the work"))
    turns = f"{figure_text(head.worm_ratio)} × {wanted} = {counted(choice.crank_turns, 'crank turn')} each move"
    rows += [
        ("Head", head.name),
        ("Proof", turns if head.has_worm else f"{wanted} of a turn of the spindle each move, by its own holes"),
    ]
    return rows


def _joined(reports: list[MethodReport]) -> list[MethodReport]:
    """Put direct and plain into one table, where both answer."""
    simple = [report for report in reports if report.method in (Method.DIRECT, Method.PLAIN)]
    if len(simple) < 2:
        return reports
    both = MethodReport(Method.PLAIN, tuple(answer for report in simple for answer in report.answers))
    return [both, *(report for report in reports if report not in simple)]


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
        lines.append(
            f"Wheels forgotten, this move divides {divisions_text(gearing.nominal)}, not {count or 'the angle asked'}."
        )
    elif answer.method is not Method.DIRECT:
        lines += ratio_check(head)
    every = answer.moves_to_close
    checkpoint = next((every // parts for parts in (4, 3, 2) if every % parts == 0 and every > parts), None)
    if checkpoint:
        shown = sexagesimal_text(Angle(answer.reached * checkpoint))
        lines.append(f"After {counted(checkpoint, 'move')} the work has turned {shown}.")
    moves, rounds = counted(every, "move"), counted(answer.wanted.numerator, "round")
    if answer.is_exact:
        lines.append(f"After {moves} {_pins_text(answer)} and the work has gone {rounds}.")
    else:
        miss = arcsec_text(answer.error_at_closure)
        lines.append(f"After {moves} the work should have gone {rounds}; repeating this move misses by {miss}.")
    if count and answer.move.circle and answer.method in (Method.PLAIN, Method.NEAREST) and arms_enclose(answer):
        wrong = audit_move(CrankMove(answer.move.turns, answer.move.spaces + 1, answer.move.circle), head.worm_ratio)
        divides = _count_words(wrong.divisions * answer.at_once)
        lines.append(f"Arms set one hole too wide would divide {divides}, not {count}.")
    return lines


def ratio_check(head: Head) -> list[str]:
    """Ask that the ratio of a worm be counted rather than trusted; nothing without a worm."""
    if not head.has_worm:
        return []
    return [f"Count the ratio: {figure_text(head.worm_ratio)} crank turns must bring the work round exactly once."]


def _pins_text(answer: IndexAnswer) -> str:
    names = ("the pin", "the stop pin")
    places = list(zip(names, answer.holes_at_closure, strict=False))
    if all(hole == 0 for _, (hole, _) in places):
        return "the pins are back in their first holes" if answer.second else "the pin is back in its first hole"
    return " and ".join(f"{name} stands in hole {hole} of the {circle}" for name, (hole, circle) in places) + (
        ", the first being 0,"
    )


def _count_words(divisions: Fraction) -> str:
    return figure_text(divisions) if divisions.denominator == 1 else f"{approximate(divisions, 2)} (it does not close)"


def print_positions(out: Console, table: PositionTable) -> None:
    """Print the table of positions worked from zero."""
    plate, circle, rows = table
    worst = max((abs(row.error.arcsec) for row in rows), default=Fraction(0))
    half_hole = "never more than half a hole"
    out.print()
    out.print(
        f"POSITIONS on the {circle} circle{f' of plate {plate}' if plate else ''}, worked from zero",
        style="bold",
    )
    out.print(f"Hole 0 is where you begin. Worst error {arcsec_text(Angle(worst / 1_296_000))}, {half_hole}.")
    grid = answers_table(
        [("Mark", "right"), ("Turns", "right"), ("Hole", "right"), ("Move from the last", "left"),
         ("Work stands at", "right"), ("Error", "right"), ("Done", "left")]
    )  # fmt: skip
    for row in rows:
        move = "start" if row.number == 0 else move_text(row.move)
        grid.add_row(
            f"{row.number}{' *' if row.number and row.number % 10 == 0 else ''}",
            str(row.turns),
            str(row.hole),
            move,
            sexagesimal_text(row.exact),
            arcsec_text(row.error),
            "[ ]",
        )
    print_answers(out, grid)
    out.print("Error: + the work stands too far round for this mark, - it falls short of it.")
    out.print("* a checkpoint: count the marks cut so far before going on.")


def divide_json(
    count: int | None, head: Head, choice: ChoiceReport, table: PositionTable | None, *, every: bool
) -> str:
    """Write the answer of ``divide`` as JSON."""
    shown = [(report, shown_of(report, every=every)) for report in choice.methods]
    answer: dict[str, Any] = {
        "asked": {
            "divisions": count,
            "turns_of_work": f"{choice.part}",
        },
        "divisions_per_move": choice.at_once,
        "head": head.name,
        "crank_turns": f"{choice.crank_turns}",
        "answers": [answer_json.index_answer(each) for _, answers in shown for each in answers],
        "methods": [
            {
                "method": report.method.value,
                "found": len(report.answers),
                "shown": len(answers),
                "exact": report.is_exact,
                "obstacle": report.obstacle or None,
            }
            for report, answers in shown
        ],
    }
    if not choice.is_exact:
        answer["circle_needed"] = choice.circle_needed
    if table is not None:
        plate, circle, rows = table
        answer["positions"] = {
            "plate": plate,
            "circle": circle,
            "rows": [
                {
                    "mark": row.number,
                    "turns": row.turns,
                    "hole": row.hole,
                    "error_arcsec": f"{row.error.arcsec}",
                }
                for row in rows
            ],
        }
    return answer_json.as_text(answer)
