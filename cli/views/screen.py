"""One console for all screens: 80 columns read well, no colour is needed, a pipe gets plain text."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable

from rich import box
from rich.console import Console
from rich.table import Table

#: A screen wider than this is no easier to read.
WIDEST = 110
USUAL = 80


def console() -> Console:
    """Make a console for stdout as wide as the terminal, within reason."""
    if os.environ.get("COLUMNS", "").isdigit():
        wide = int(os.environ["COLUMNS"])
    else:
        try:
            wide = os.get_terminal_size(sys.stdout.fileno()).columns or USUAL
        except (OSError, ValueError):
            wide = USUAL
    return Console(width=max(40, min(WIDEST, wide)), highlight=False, markup=False, emoji=False)


def facts_table(rows: Iterable[tuple[str, str]]) -> Table:
    """Lay out named facts in two columns."""
    table = Table(box=None, show_header=False, padding=(0, 2, 0, 0), pad_edge=False)
    table.add_column(style="bold", no_wrap=True)
    table.add_column(overflow="fold")
    for name, fact in rows:
        table.add_row(name, fact)
    return table


def answers_table(heads: Iterable[tuple[str, str]]) -> Table:
    """Start a table of answers; each head is a title and ``left`` or ``right``."""
    table = Table(box=box.HORIZONTALS, pad_edge=False, padding=(0, 1, 0, 0), header_style="bold", show_edge=True)
    for title, side in heads:
        table.add_column(title, justify="right" if side == "right" else "left", overflow="fold")
    return table


def print_list(out: Console, title: str, lines: Iterable[str]) -> None:
    """Print a titled list, indented under its dashes; nothing when it is empty."""
    kept = list(lines)
    if not kept:
        return
    out.print()
    out.print(title, style="bold")
    table = Table(box=None, show_header=False, padding=(0, 1, 0, 0), pad_edge=False)
    table.add_column(no_wrap=True)
    table.add_column(overflow="fold")
    for line in kept:
        table.add_row("-", line)
    out.print(table)
