"""The terminal screen and the JSON of ``divide``."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from cli.views import answer_json
from cli.views.cautions import dividing_cautions
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import approximate, arcsec_text
from solver.dividing.divide import DivideReport
from solver.dividing.heads import Head
from solver.dividing.index_audit import audit_move
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.positions import Position
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.pitches import figure_text

if TYPE_CHECKING:
    from rich.console import Console

#: What the sign of a repeated move's error means to the work.
SIGNS = "+ the work goes too far, the last space comes out small; - it falls short, the last space comes out wide."
#: Plate name or none, circle, rows.
PositionTable = tuple[str | None, int, tuple[Position, ...]]


def move_text(move: CrankMove) -> str:
    """Write a move: whole turns even if none, then spaces on a circle.

    Examples
    --------
    >>> move_text(CrankMove(1, 9, 21)), move_text(CrankMove(5, 0, None))
    ('1 turn + 9 spaces on 21', '5 turns')
    """
    turns = counted(move.turns, "turn")
    if move.circle is None or move.spaces == 0:
        return turns if move.circle is None else f"{turns}, any circle"
    return f"{turns} + {counted(move.spaces, 'space')} on {move.circle}"


def counted(number: Fraction | int, word: str) -> str:
    """Write a number with its word, in the singular only for one.

    Examples
    --------
    >>> counted(1, "move"), counted(Fraction(10, 7), "crank turn")
    ('1 move', '10/7 crank turns')
    """
    return f"{number} {word}{'' if number == 1 else 's'}"


def show_divide(count: int | None, head: Head, report: DivideReport, table: PositionTable | None) -> None:
    """Print the answer of ``divide``."""
    out = console()
    angle = Angle(report.wanted)
    asked = counted(count, "equal division") if count else "one angle"
    out.print(
        facts_table(
            [
                ("Asked", f"{asked}: {approximate(angle.degrees, 6)}° = {sexagesimal_text(angle, 1)} each"),
                ("Head", f"{head.name}"),
                (
                    "Proof",
                    f"{head.worm_ratio} × {report.wanted} = {counted(report.crank_turns, 'crank turn')} each move"
                    if head.has_worm
                    else f"{report.wanted} of a turn of the spindle each move, by its own holes",
                ),
            ]
        )
    )
    out.print()
    if report.is_exact:
        _print_exact(out, report)
    else:
        _print_nearest(out, report, count)
    first = report.answers[0]
    print_list(out, "Early check, before metal is cut", early_check(first, head, count))
    if table is not None:
        print_positions(out, table)
    print_list(out, "Cautions", dividing_cautions())


def _print_exact(out: Console, report: DivideReport) -> None:
    out.print("EXACT SETTINGS", style="bold")
    table = answers_table(
        [
            ("Method", "left"),
            ("Each move", "left"),
            ("Plate", "left"),
            ("Sector arms enclose", "left"),
            ("Error", "left"),
        ]
    )
    for answer in report.answers:
        table.add_row(answer.method.value, _move(answer), answer.plate or "-", _sector(answer), "exact")
    print_answers(out, table)


def _move(answer: IndexAnswer) -> str:
    if answer.method is Method.DIRECT:
        spaces = answer.move.turns * (answer.move.circle or 1) + answer.move.spaces
        return f"{counted(spaces, 'space')} of the {answer.move.circle} on the spindle, worm out"
    return move_text(answer.move)


def _sector(answer: IndexAnswer) -> str:
    if answer.method is Method.DIRECT or answer.move.circle is None or answer.move.spaces == 0:
        return "-"
    return f"{answer.move.sector_holes} holes, pin hole included"


def _print_nearest(out: Console, report: DivideReport, count: int | None) -> None:
    out.print("NEAREST SETTINGS, none is exact", style="bold")
    closing = report.wanted.denominator
    table = answers_table(
        [("Each move", "left"), ("Plate", "left"), ("Arms", "right"), ("Error each", "right"),
         (f"After {closing}", "right"), ("Really divides", "left")]
    )  # fmt: skip
    for answer in report.answers:
        table.add_row(
            move_text(answer.move),
            answer.plate or "-",
            str(answer.move.sector_holes),
            arcsec_text(answer.error_per_move),
            arcsec_text(answer.error_at_closure),
            figure_text(1 / answer.reached),
        )
    print_answers(out, table)
    from_zero = f"--positions works every mark from zero instead{'' if count else ' (with --moves N)'}."
    out.print("Arms: holes enclosed, the pin's own hole included.")
    out.print(SIGNS)
    out.print(f"Repeating the move adds its error each time; {from_zero}")


def early_check(answer: IndexAnswer, head: Head, count: int | None) -> list[str]:
    """Say what to see before cutting: the ratio counted, a checkpoint, the closing mark."""
    lines = []
    if answer.method is not Method.DIRECT and head.has_worm:
        lines.append(
            f"Count the ratio: {figure_text(head.worm_ratio)} crank turns must bring the work round exactly once."
        )
    every = answer.moves_to_close
    checkpoint = next((every // parts for parts in (4, 3, 2) if every % parts == 0 and every > parts), None)
    if checkpoint:
        shown = sexagesimal_text(Angle(answer.reached * checkpoint))
        lines.append(f"After {counted(checkpoint, 'move')} the work has turned {shown}.")
    moves, rounds = counted(every, "move"), counted(answer.wanted.numerator, "round")
    if answer.is_exact:
        lines.append(f"After {moves} the pin is back in its first hole and the work has gone {rounds}.")
    else:
        miss = arcsec_text(answer.error_at_closure)
        lines.append(f"After {moves} the work should have gone {rounds}; repeating this move misses by {miss}.")
    if count and answer.method is not Method.DIRECT and answer.move.circle and answer.move.spaces > 0:
        wrong = audit_move(CrankMove(answer.move.turns, answer.move.spaces + 1, answer.move.circle), head.worm_ratio)
        lines.append(f"Arms set one hole too wide would divide {_count_words(wrong.divisions)}, not {count}.")
    return lines


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


def divide_json(count: int | None, head: Head, report: DivideReport, table: PositionTable | None) -> str:
    """Write the answer of ``divide`` as JSON."""
    answer: dict[str, Any] = {
        "asked": {"divisions": count, "turns_of_work": f"{report.wanted}"},
        "head": head.name,
        "crank_turns": f"{report.crank_turns}",
        "answers": [answer_json.index_answer(each) for each in report.answers],
    }
    if not report.is_exact:
        answer["circle_needed"] = report.circle_needed
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
