"""The terminal screen and the JSON of ``divide``."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from cli.views import answer_json
from cli.views.cautions import head_cautions
from cli.views.index_settings import (
    choice_json,
    early_check,
    effort_text,
    order_lines,
    proof_text,
    shown_of,
    turns_text,
)
from cli.views.method_tables import (
    counted,
    move_text,
    print_method,
    print_side_by_side,
)
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import approximate, arcsec_text
from cli.views.workpiece import Workpiece, part_json, position_rows, rim_rows, spaces_json, wheel_rows
from solver.dividing.choosing import ChoiceReport, MethodReport
from solver.dividing.heads import Head
from solver.dividing.moves import Method
from solver.dividing.positions import Position
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.pitches import figure_text

if TYPE_CHECKING:
    from rich.console import Console

#: Marks from one checkpoint to the next, on screens and sheets alike.
CHECKPOINT = 5
#: What the sign means in a column of errors of marks worked from zero.
SIGNS_OF_A_MARK = "Error: + the work stands too far round for this mark, - it falls short of it."
#: Plate name or none, circle, rows.
PositionTable = tuple[str | None, int, tuple[Position, ...]]


def show_divide(
    count: int | None,
    head: Head,
    choice: ChoiceReport,
    table: PositionTable | None,
    *,
    every: bool,
    part: Workpiece | None = None,
    draw: Callable[[], None] | None = None,
) -> None:
    """Print the answer of ``divide``; ``draw`` prints the circle in letters, above the cautions."""
    out = console()
    out.print(facts_table(asked_rows(count, head, choice, part)))
    out.print()
    answering = [report for report in choice.methods if report.answers]
    # Whoever asks one angle wants its setting first.
    beside, first_of_all = len(choice.methods) > 2, count is not None
    if beside and first_of_all:
        print_side_by_side(out, choice)
        out.print()
    # Beside an exact setting the others are told of side by side, and listed when they are asked for.
    listed = [report for report in answering if report.is_exact or every] or answering
    for report in _joined(listed):
        print_method(out, report, shown_of(report, every=every), has_worm=head.has_worm, of_round=first_of_all)
        out.print()
    if beside and not first_of_all:
        print_side_by_side(out, choice, of_round=False)
        out.print()
    if len(listed) < len(answering):
        unlisted = " or ".join(report.method.value for report in answering if report not in listed)
        out.print(f"--method {unlisted} lists those settings.")
        out.print()
    first = answering[0].answers[0]
    out.print(f"For the {first.method.value} setting listed first:")
    if proof := proof_text(first, head):
        out.print(proof)
    if count is not None:
        out.print(effort_text(first, head))
    if first.at_once > 1:
        print_list(out, "Order of the marks", order_lines(first))
    print_list(out, "Early check, before metal is cut", early_check(first, head, count))
    if table is not None:
        print_positions(out, table)
        out.print(facts_table(position_rows(part, table[2])))
    if draw is not None:
        draw()
    print_list(out, "Cautions", head_cautions(head, first))


def asked_rows(
    count: int | None, head: Head, choice: ChoiceReport, part: Workpiece | None = None
) -> list[tuple[str, str]]:
    """Echo what was asked, the head, the turns of the crank that one move takes, and the part that is divided."""
    angle = Angle(choice.part)
    asked = counted(count, "equal division") if count else "one angle"
    wanted = choice.part * choice.at_once
    rows = [("Asked", f"{asked}: {approximate(angle.degrees, 6)}° = {sexagesimal_text(angle, 1)} each")]
    if choice.at_once > 1:
        rows.append(("At a time", f"{choice.at_once} divisions each move, {wanted} turn of the work"))
    turns = f"{figure_text(head.worm_ratio)} × {wanted} = {turns_text(choice.crank_turns, head)} each move"
    rows += [
        ("Head", head.name),
        ("Proof", turns if head.has_worm else f"{wanted} of a turn of the spindle each move, by its own holes"),
    ]
    if part is not None:
        first = next(report.answers[0] for report in choice.methods if report.answers)
        rows += [*wheel_rows(part), *rim_rows(part, first)]
    return rows


def _joined(reports: list[MethodReport]) -> list[MethodReport]:
    """Put direct and plain into one table, where both answer."""
    simple = [report for report in reports if report.method in (Method.DIRECT, Method.PLAIN)]
    if len(simple) < 2:
        return reports
    both = MethodReport(Method.PLAIN, tuple(answer for report in simple for answer in report.answers))
    return [both, *(report for report in reports if report not in simple)]


def print_positions(out: Console, table: PositionTable, *, with_due: bool = False) -> None:
    """Print the table of positions worked from zero; ``with_due`` tells where each belongs, not where it comes."""
    plate, circle, rows = table
    worst = arcsec_text(Angle(max((abs(row.error.turns) for row in rows), default=Fraction(0)))).lstrip("+")
    half_hole = "never more than half a hole"
    out.print()
    out.print(
        f"POSITIONS on the {circle} circle{f' of plate {plate}' if plate else ''}, worked from zero",
        style="bold",
    )
    out.print(f"Hole 0 is where you begin. Worst error {worst}, {half_hole}.")
    grid = answers_table(
        [("Mark", "right"), ("Turns", "right"), ("Hole", "right"), ("Move from the last", "left"),
         ("Due at" if with_due else "Work at", "right"), ("Error", "right"), ("Done", "left")]
    )  # fmt: skip
    for row in rows:
        move = "start" if row.number == 0 else move_text(row.move)
        grid.add_row(
            f"{row.number}{' *' if row.number and row.number % CHECKPOINT == 0 else ''}",
            str(row.turns),
            str(row.hole),
            move,
            sexagesimal_text(row.exact, 1) if with_due else sexagesimal_text(row.reached),
            arcsec_text(row.error),
            "[ ]",
        )
    print_answers(out, grid)
    out.print(SIGNS_OF_A_MARK)
    out.print("* a checkpoint: count the marks cut so far before going on.")
    out.print("Left off: mark ______ done, pin at ______ turns + hole ______, crank turned ______ way.")


def divide_json(
    count: int | None,
    head: Head,
    choice: ChoiceReport,
    table: PositionTable | None,
    *,
    every: bool,
    part: Workpiece | None = None,
) -> str:
    """Write the answer of ``divide`` as JSON."""
    answer: dict[str, Any] = {
        "asked": {
            "divisions": count,
            "turns_of_work": f"{choice.part}",
        },
        "divisions_per_move": choice.at_once,
        "head": head.name,
        "crank_turns": f"{choice.crank_turns}",
        **choice_json(choice, every=every),
    }
    if not choice.is_exact:
        answer["circle_needed"] = choice.circle_needed
    if part is not None and choice.best is not None:
        answer["part"] = part_json(part, choice.best)
    if table is not None:
        answer["positions"] = positions_json(table)
        if part is not None:
            answer["positions"] |= spaces_json(part, table[2])
    return answer_json.as_text(answer)


def positions_json(table: PositionTable) -> dict[str, Any]:
    """Describe a circle and where the pin stands on it for every mark."""
    plate, circle, rows = table
    return {
        "plate": plate,
        "circle": circle,
        "rows": [
            {
                "mark": row.number,
                "due_turns": f"{row.exact.turns}",
                "turns": row.turns,
                "hole": row.hole,
                "error_arcsec": f"{row.error.arcsec}",
            }
            for row in rows
        ],
    }
