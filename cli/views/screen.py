"""One console for all screens: 80 columns read well, no colour is needed, a pipe gets plain text."""

from __future__ import annotations

import io
import os
import re
import sys
from collections.abc import Iterable, Sequence
from typing import TextIO, cast

from rich import box
from rich.console import Console
from rich.measure import Measurement
from rich.table import Table

#: A screen wider than this is no easier to read.
WIDEST = 110
USUAL = 80
#: Wider than any table. [columns]
_UNBOUNDED = 10_000


class _TrimmedStream(io.TextIOBase):
    """Stdout for a pipe or a file: no line keeps the blanks that filled its table cell."""

    encoding = property(lambda _: sys.stdout.encoding)

    def write(self, text: str) -> int:
        """Write with the blanks before each line's end left out."""
        sys.stdout.write(without_trailing_blanks(text))
        return len(text)

    def flush(self) -> None:
        """Flush stdout."""
        sys.stdout.flush()


def without_trailing_blanks(text: str) -> str:
    r"""Leave out the blanks before each line's end.

    Examples
    --------
    >>> without_trailing_blanks("20 T   \n  40 T \n")
    '20 T\n  40 T\n'
    """
    return re.sub(r" +$", "", text, flags=re.MULTILINE)


def console() -> Console:
    """Make a console for stdout as wide as the terminal, within reason."""
    if os.environ.get("COLUMNS", "").isdigit():
        wide = int(os.environ["COLUMNS"])
    else:
        try:
            wide = os.get_terminal_size(sys.stdout.fileno()).columns or USUAL
        except (OSError, ValueError):
            wide = USUAL
    file = None if sys.stdout.isatty() else cast("TextIO", _TrimmedStream())
    return Console(file=file, width=max(40, min(WIDEST, wide)), highlight=False, markup=False, emoji=False)


def facts_table(rows: Iterable[tuple[str, str]]) -> Table:
    """Lay out named facts in two columns."""
    table = Table(box=None, show_header=False, padding=(0, 2, 0, 0), pad_edge=False)
    table.add_column(style="bold", no_wrap=True)
    table.add_column(overflow="fold")
    kept = list(rows)
    room = console().width - max((len(name) for name, _ in kept), default=0) - 2
    for name, fact in kept:
        table.add_row(name, broken_at_dashes(fact, room))
    return table


def broken_at_dashes(text: str, room: int) -> str:
    """Open a train longer than a line after one of its dashes, so that it never breaks inside a number.

    Examples
    --------
    >>> broken_at_dashes("60-95-80-105-90-110", 14)
    '60-95-80-105- 90-110'
    """
    words = text.split(" ")
    for number, word in enumerate(words):
        at = word.rfind("-", 0, room) + 1
        if len(word) > room and at:
            words[number] = f"{word[:at]} {broken_at_dashes(word[at:], room)}"
    return " ".join(words)


def answers_table(heads: Iterable[tuple[str, str]]) -> Table:
    """Start a table of answers; each head is a title and ``left`` or ``right``."""
    table = Table(box=box.HORIZONTALS, pad_edge=False, padding=(0, 1, 0, 0), header_style="bold", show_edge=True)
    for title, side in heads:
        table.add_column(title, justify="right" if side == "right" else "left", overflow="fold")
    return table


def print_rows(out: Console, heads: Iterable[tuple[str, str]], rows: Iterable[Sequence[str]]) -> None:
    """Print rows under heads as a table of answers."""
    table = answers_table(heads)
    for row in rows:
        table.add_row(*row)
    print_answers(out, table)


def filled_table(heads: Sequence[tuple[str, str]], rows: Sequence[Sequence[str]]) -> Table:
    """Make a table of answers without the columns that hold nothing but a dash.

    Examples
    --------
    >>> table = filled_table([("Each move", "left"), ("Arms", "right")], [("5 turns", "-")])
    >>> [str(column.header) for column in table.columns]
    ['Each move']
    """
    kept = [place for place in range(len(heads)) if any(row[place] != "-" for row in rows)]
    table = answers_table([heads[place] for place in kept])
    for row in rows:
        table.add_row(*(row[place] for place in kept))
    return table


def print_answers(out: Console, table: Table) -> None:
    """Print a table of answers with no word or number broken; a list of its rows where it is too wide for that."""
    columns = [[str(column.header), *map(str, column.cells)] for column in table.columns]
    natural = [max(map(len, cells)) for cells in columns]
    options = out.options.update(width=_UNBOUNDED)
    room = out.width - (Measurement.get(out, options, table).maximum - sum(natural))
    widths = column_widths(natural, [max(map(_longest_word, cells)) for cells in columns], room)
    if widths is None:
        for row in list(zip(*columns, strict=True))[1:]:
            print_item(out, row_text([cells[0] for cells in columns], row))
        return
    for column, width in zip(table.columns, widths, strict=True):
        column.width = width
    out.print(table)


def _longest_word(text: str) -> int:
    """Measure the longest piece; a figure and what follows it, as ``126 2/13`` or ``1.25 mm``, are one piece."""
    return max(map(len, re.split(r"(?<![\d°'\[]) +", text)))


def column_widths(natural: Sequence[int], least: Sequence[int], room: int) -> list[int] | None:
    """Share the room among columns, none below its longest word; ``None`` where even that is too wide.

    Examples
    --------
    >>> column_widths([18, 12, 4], [18, 4, 4], 30), column_widths([18, 12], [18, 8], 20)
    ([18, 8, 4], None)
    """
    spare = room - sum(least)
    if spare < 0:
        return None
    widths = []
    for wide, narrow in zip(natural, least, strict=True):
        more = min(wide - narrow, spare)
        spare -= more
        widths.append(narrow + more)
    return widths


def row_text(heads: Sequence[str], row: Sequence[str]) -> str:
    """Write one row of a table as a line: its first cell, then each filled cell behind its head.

    Examples
    --------
    >>> row_text(["Train", "ppm", "Goes on"], ["50-127", "", "fits"])
    '50-127: Goes on fits'
    """
    return f"{row[0]}: " + "; ".join(f"{head} {cell}" for head, cell in zip(heads[1:], row[1:], strict=True) if cell)


def print_item(out: Console, line: str) -> None:
    """Print one line of a list, indented under its dash."""
    table = Table(box=None, show_header=False, padding=(0, 1, 0, 0), pad_edge=False)
    table.add_column(no_wrap=True)
    table.add_column(overflow="fold")
    table.add_row("-", line)
    out.print(table)


def print_block(out: Console, title: str, rows: Iterable[tuple[str, str]]) -> None:
    """Print named facts under a title."""
    out.print()
    out.print(title, style="bold")
    out.print(facts_table(rows))


def print_list(out: Console, title: str, lines: Iterable[str]) -> None:
    """Print a titled list, indented under its dashes; nothing when it is empty."""
    kept = list(lines)
    if not kept:
        return
    out.print()
    out.print(title, style="bold")
    for line in kept:
        print_item(out, line)
