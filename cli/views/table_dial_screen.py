"""The terminal screen and the JSON of marks set by the dial of a table: for ``divide``, and for parts beside it."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from cli.views import answer_json
from cli.views.angle_marks_screen import marks_asked
from cli.views.cautions import table_cautions
from cli.views.divide_screen import CHECKPOINT, SIGNS_OF_A_MARK
from cli.views.index_settings import handle_check
from cli.views.method_tables import counted
from cli.views.part_figures import length_json, middle, size_text
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import arcsec_text, micrometres_text
from cli.views.workpiece import Workpiece, rim_json, wheel_json, wheel_rows
from solver.dividing.heads import Head
from solver.dividing.table_dial import DialPosition, DialTable, along_rim
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.lengths import Length
from solver.quantities.pitches import figure_text

if TYPE_CHECKING:
    from rich.console import Console

#: How the two columns of a mark are read.
TURNS_AND_DIAL = "Turns: whole turns of the handle from zero; the dial then reads what is beside them."


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


def show_table(head: Head, table: DialTable, part: Workpiece | None) -> None:
    """Print the positions of a table by its dial."""
    out = console()
    out.print(facts_table([*asked_rows(head, table), *by_dial_rows(head, table, part)]))
    out.print()
    print_marks(out, table)
    print_list(out, "Early check, before metal is cut", table_checks(head, table))
    print_list(out, "Cautions", table_cautions(closes=table.closes))


def print_marks(out: Console, table: DialTable) -> None:
    """Print where handle and dial stand for every mark, to tick off."""
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
            dial_text(row),
            arcsec_text(row.error),
            "[ ]",
        )
    print_answers(out, grid)
    out.print(TURNS_AND_DIAL)
    if not table.is_exact:
        out.print(SIGNS_OF_A_MARK)
    if len(table.rows) > CHECKPOINT:
        out.print("* a checkpoint: count the marks cut so far, and read the scale of the table itself.")
        out.print("Left off: mark ______ done, handle at ______ turns, dial at ____________, turned ______ way.")


def dial_text(row: DialPosition) -> str:
    """Write what the dial reads for a mark, with decimals of a second only where it has any.

    Examples
    --------
    >>> print(dial_text(DialPosition(1, Angle(Fraction(1, 12)), 7, Angle(Fraction(1, 180)), Angle(Fraction(0)))))
    2° 00' 00"
    """
    return sexagesimal_text(row.reading, 0 if row.reading.arcsec.denominator == 1 else 1)


def asked_rows(head: Head, table: DialTable) -> list[tuple[str, str]]:
    """Echo what was asked, and the table."""
    moves = len(table.rows) - 1
    asked = (
        marks_asked(moves, closes=table.closes)
        if table.part is None
        else f"{counted(moves, 'move')} of {angle_text(Angle(table.part))}"
    )
    return [("Asked", asked), ("Table", head.name)]


def by_dial_rows(head: Head, table: DialTable, part: Workpiece | None) -> list[tuple[str, str]]:
    """Prove the turns, tell the dial, and say how near the marks come."""
    ratio, first = figure_text(head.worm_ratio), table.rows[1].exact.turns
    turns = f"{first} × {ratio} = {counted(first * head.worm_ratio, 'turn')} of the handle"
    radius = None if part is None else part.radius
    rows = [] if part is None else wheel_rows(part)
    rows += [
        ("Proof", f"mark 1: {turns} from zero" if table.part is None else f"{turns} each"),
        ("Handle", f"{ratio} turns a round: one turn is {angle_text(table.per_turn)}"),
        (
            "Dial",
            f"read to {angle_text(table.division)}: {table.per_turn.turns / table.division.turns} divisions a turn",
        ),
        ("Worst position", worst_text(table, radius)),
    ]
    gap = table.gap_if_steps_are_added
    # One move by itself is never added to another.
    if gap is not None and gap.turns and len(table.rows) > 2:
        rows.append(
            ("Never add steps", f"one rounded step, added each time, ends {arcsec_text(gap)} off{_rim(gap, radius)}")
        )
    return rows


def worst_text(table: DialTable, radius: Length | None = None) -> str:
    """Say how far off the worst mark is."""
    if table.is_exact:
        return "exact, every one" if len(table.rows) > 2 else "exact"
    return f"{arcsec_text(table.worst).lstrip('+')}, never more than half a division{_rim(table.worst, radius)}"


def _rim(angle: Angle, radius: Length | None) -> str:
    if radius is None:
        return ""
    along = micrometres_text(middle(along_rim(Angle(abs(angle.turns)), radius)))
    return f", {along} at {size_text(radius)}"


def table_checks(head: Head, table: DialTable) -> list[str]:
    """Say what to see before cutting: the ratio counted, the closing turn, the scale at a quarter."""
    last = table.rows[-1]
    lines = [handle_check(head)]
    if table.closes:
        moves = counted(last.number, "move")
        lines.append(f"After {moves} the handle has made {counted(last.turns, 'turn')} and the dial reads 0 again.")
    else:
        stands = sexagesimal_text(last.reached, 1)
        lines.append(f"At mark {last.number} the scale of the table must show {stands}.")
    quarter = next((row for row in table.rows if row.exact.turns == Fraction(1, 4)), None)
    if quarter is not None and 1 < quarter.number < last.number:
        lines.append(f"At mark {quarter.number} the scale of the table must show 90°.")
    return lines


def table_json(head: Head, table: DialTable, part: Workpiece | None) -> str:
    """Write the positions of a table by its dial as JSON."""
    asked: dict[str, Any] = {
        "turns_of_work": None if table.part is None else f"{table.part}",
        "moves": len(table.rows) - 1,
    }
    answer: dict[str, Any] = {"asked": asked, "head": head.name, **by_dial_json(table)}
    if part is not None:
        radius = part.radius
        answer |= wheel_json(part)
        gap = table.gap_if_steps_are_added
        answer["radius_mm"] = length_json(radius)
        answer["worst_error_at_radius_mm"] = rim_json(table.worst, radius)
        answer["gap_at_radius_mm"] = None if gap is None else rim_json(gap, radius)
    return answer_json.as_text(answer)


def by_dial_json(table: DialTable) -> dict[str, Any]:
    """Describe the dial and where it stands for every mark."""
    gap = table.gap_if_steps_are_added
    return {
        "method": "dial",
        "turns_per_handle_turn": f"{table.per_turn.turns}",
        "division_arcsec": f"{table.division.arcsec}",
        "worst_error_arcsec": f"{table.worst.arcsec}",
        "gap_if_steps_are_added_arcsec": None if gap is None else f"{gap.arcsec}",
        "exact": table.is_exact,
        "rows": [
            {
                "mark": row.number,
                "due_turns": f"{row.exact.turns}",
                "turns": row.turns,
                "dial_arcsec": f"{row.reading.arcsec}",
                "error_arcsec": f"{row.error.arcsec}",
            }
            for row in table.rows
        ],
    }
