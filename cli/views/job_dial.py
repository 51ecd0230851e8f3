"""What the step of a job says where the dial of a table alone divides: every mark from zero, no move repeated."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.views.method_tables import counted
from cli.views.shop_figures import arcsec_text
from cli.views.table_dial_screen import by_dial_rows, dial_text, print_marks, table_checks

if TYPE_CHECKING:
    from rich.console import Console

    from cli.job_plan import HeadStep
    from solver.dividing.heads import Head
    from solver.dividing.table_dial import DialTable

#: A longer list of marks than this is left to the sheet, and to the command of the part alone.
MOST_LISTED = 24


def dial_setting(table: DialTable) -> str:
    """Write the setting in a few words: where the handle and the dial go for one angle, else how many marks there are.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.dividing.heads import Head
    >>> from solver.dividing.table_dial import USUAL_READING, dial_table
    >>> head = Head("table", Fraction(90), ())
    >>> dial_setting(dial_table(head, Fraction(1, 7), 7, USUAL_READING))
    '7 marks by the dial, each from zero'
    >>> print(dial_setting(dial_table(head, Fraction(37, 360), 1, USUAL_READING)))
    9 turns, dial at 1° 00' 00"
    """
    marks = table.rows[1:]
    if len(marks) > 1:
        return f"{len(marks)} marks by the dial, each from zero"
    return f"{counted(marks[0].turns, 'turn')}, dial at {dial_text(marks[0])}"


def dial_error(table: DialTable) -> str:
    """Say how far off the worst mark is, in a word or two."""
    if table.is_exact:
        return "exact"
    worst = arcsec_text(table.worst).lstrip("+")
    return f"worst mark {worst}" if len(table.rows) > 2 else arcsec_text(table.rows[1].error)


def dial_step_rows(step: HeadStep, table: DialTable, head: Head, head_word: str) -> list[tuple[str, str]]:
    """List the setting of a step by the dial, and where its marks are listed when they are many."""
    rows = [("Method", "dial"), ("Setting", dial_setting(table)), *by_dial_rows(head, table, None)]
    if len(table.rows) - 1 > MOST_LISTED:
        rows.append(("Marks", f"every one on the sheet, and by '{step.command(head_word)}'"))
    return rows + [("Check" if at == 0 else "", line) for at, line in enumerate(table_checks(head, table)[:2])]


def print_step_marks(out: Console, table: DialTable) -> None:
    """Print every mark of a step, where they are few."""
    if len(table.rows) - 1 <= MOST_LISTED:
        out.print()
        print_marks(out, table)
