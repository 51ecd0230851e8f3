"""The terminal screen and the JSON of ``divide --with dial``."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from cli.views import answer_json
from cli.views.cautions import DEFER
from cli.views.divide_screen import CHECKPOINT, SIGNS_OF_A_MARK
from cli.views.method_tables import counted
from cli.views.part_figures import length_json, middle, size_text
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import arcsec_text, micrometres_text
from solver.dividing.heads import Head
from solver.dividing.table_dial import DialPosition, DialTable, along_rim
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.lengths import Length
from solver.quantities.pitches import figure_text


def angle_text(angle: Angle) -> str:
    """Write an angle in degrees, minutes and seconds, with decimals of a second only where it has any.

    Examples
    --------
    >>> print(angle_text(Angle(Fraction(1, 90))), "and", angle_text(Angle(Fraction(1, 7))))
    4° 00' 00" and ≈51° 25' 42.9"
    """
    if angle.arcsec.denominator == 1:
        return sexagesimal_text(angle)
    return f"≈{sexagesimal_text(angle, 1)}"


def show_table(head: Head, table: DialTable, radius: Length | None) -> None:
    """Print the positions of a table by its dial."""
    out = console()
    out.print(facts_table(table_rows(head, table, radius)))
    out.print()
    out.print("POSITIONS, each rounded from zero", style="bold")
    grid = answers_table(
        [("Mark", "right"), ("Due at", "right"), ("Turns", "right"), ("Dial at", "right"),
         ("Error", "right"), ("Done", "left")]
    )  # fmt: skip
    for row in table.rows:
        grid.add_row(
            f"{row.number}{' *' if row.number and row.number % CHECKPOINT == 0 else ''}",
            sexagesimal_text(row.exact, 1),
            str(row.turns),
            reading_text(table, row),
            arcsec_text(row.error),
            "[ ]",
        )
    print_answers(out, grid)
    out.print("Turns: whole turns of the handle from zero; the dial then reads what is beside them.")
    out.print(SIGNS_OF_A_MARK)
    out.print("* a checkpoint: count the marks cut so far, and read the scale of the table itself.")
    print_list(out, "Early check, before metal is cut", table_checks(head, table))
    print_list(out, "Cautions", table_cautions())


def table_cautions() -> tuple[str, ...]:
    """List the cautions of dividing by a dial."""
    return (
        "A dial has no stop: take out the play of the worm the same way each time.",
        "Cutter stopped or well clear before the handle is turned; lock the table to cut, unlock it to move.",
        "Come up to each reading from the same side; overshot, go back half a turn and come again.",
        f"Walk or scribe the whole round before cutting: the last mark must fall on the first. {DEFER}",
    )


def reading_text(table: DialTable, row: DialPosition) -> str:
    """Write what the dial reads, with decimals of a second only where its divisions have any."""
    return sexagesimal_text(row.reading, 0 if table.division.arcsec.denominator == 1 else 1)


def table_rows(head: Head, table: DialTable, radius: Length | None) -> list[tuple[str, str]]:
    """Echo what was asked, the table with its dial, and how near the marks come."""
    moves = len(table.rows) - 1
    ratio = figure_text(head.worm_ratio)
    worst = arcsec_text(table.worst).lstrip("+")
    rows = [
        ("Asked", f"{counted(moves, 'move')} of {angle_text(Angle(table.part))}"),
        ("Table", head.name),
        ("Proof", f"{table.part} × {ratio} = {counted(table.part * head.worm_ratio, 'turn')} of the handle each"),
        ("Handle", f"{ratio} turns a round: one turn is {angle_text(table.per_turn)}"),
        (
            "Dial",
            f"read to {angle_text(table.division)}: {table.per_turn.turns / table.division.turns} divisions a turn",
        ),
        (
            "Worst position",
            "exact, every one"
            if table.is_exact
            else f"{worst}, never more than half a division{_rim(table.worst, radius)}",
        ),
    ]
    gap = table.gap_if_steps_are_added
    if gap.turns:
        rows.append(
            ("Never add steps", f"one rounded step, added each time, ends {arcsec_text(gap)} off{_rim(gap, radius)}")
        )
    return rows


def _rim(angle: Angle, radius: Length | None) -> str:
    if radius is None:
        return ""
    along = micrometres_text(middle(along_rim(Angle(abs(angle.turns)), radius)))
    return f", {along} at {size_text(radius)}"


def table_checks(head: Head, table: DialTable) -> list[str]:
    """Say what to see before cutting: the ratio counted, the closing turn, the scale at a quarter."""
    last = table.rows[-1]
    moves = counted(last.number, "move")
    lines = [f"Count the ratio: {figure_text(head.worm_ratio)} turns of the handle must bring the table round once."]
    if last.exact.turns.denominator == 1:
        lines.append(f"After {moves} the handle has made {counted(last.turns, 'turn')} and the dial reads 0 again.")
    quarter = next((row for row in table.rows if row.exact.turns == Fraction(1, 4)), None)
    if quarter is not None and quarter.number > 1:
        lines.append(f"At mark {quarter.number} the scale of the table must show 90°.")
    return lines


def table_json(head: Head, table: DialTable, radius: Length | None) -> str:
    """Write the positions of a table by its dial as JSON."""
    gap = table.gap_if_steps_are_added
    answer: dict[str, Any] = {
        "asked": {"turns_of_work": f"{table.part}", "moves": len(table.rows) - 1},
        "head": head.name,
        "method": "dial",
        "turns_per_handle_turn": f"{table.per_turn.turns}",
        "division_arcsec": f"{table.division.arcsec}",
        "worst_error_arcsec": f"{table.worst.arcsec}",
        "gap_if_steps_are_added_arcsec": f"{gap.arcsec}",
        "exact": table.is_exact,
        "rows": [
            {
                "mark": row.number,
                "turns": row.turns,
                "dial_arcsec": f"{row.reading.arcsec}",
                "error_arcsec": f"{row.error.arcsec}",
            }
            for row in table.rows
        ],
    }
    if radius is not None:
        answer["radius_mm"] = length_json(radius)
        answer["worst_error_at_radius_mm"] = length_json(middle(along_rim(table.worst, radius)))
        answer["gap_at_radius_mm"] = length_json(middle(along_rim(Angle(abs(gap.turns)), radius)))
    return answer_json.as_text(answer)
