"""Questions in plain words for ``lathe new`` and ``head new``: each answer is checked and asked again."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TypeVar

import click

from cli.whole_files import write_whole
from solver.quantities.figure_reader import FigureReader
from solver.refusals import RefusalError
from solver.trains.wheels import FEWEST_TEETH, MOST_TEETH

Answer = TypeVar("Answer")

WHEELS_HELP = "Write for example: 20 to 120 by 5, 127, 20 x2"


def ask(question: str, read: Callable[[str], Answer], *, usual: str | None = None) -> Answer:
    """Ask until the answer can be read; say each time what stands in the way."""
    while True:
        # Nothing typed goes to the reader too, which says what is wanted.
        told = usual is not None
        text = str(click.prompt(question, default=usual or "", show_default=told, type=str, err=True)).strip()
        try:
            return read(text)
        except RefusalError as refusal:
            click.echo(str(refusal), err=True)
        except click.UsageError as fault:
            click.echo(fault.message, err=True)


def ask_optional(question: str, read: Callable[[str], Answer]) -> Answer | None:
    """Ask a question that may be left empty."""
    text = str(click.prompt(f"{question} (empty: leave out)", default="", show_default=False, type=str, err=True))
    if not text.strip():
        return None
    try:
        return read(text.strip())
    except RefusalError as refusal:
        click.echo(str(refusal), err=True)
    except click.UsageError as fault:
        click.echo(fault.message, err=True)
    return ask_optional(question, read)


def read_name(text: str) -> str:
    """Take any name that fits on one line."""
    if not text or len(text) > 100 or not text.isprintable():
        raise click.UsageError("A name is one line of 1 to 100 characters.")
    return text


def read_wheels(text: str) -> tuple[tuple[int, int], ...]:
    """Read a box of wheels: single counts, ``A to B by STEP``, and ``x2`` for how many.

    Examples
    --------
    >>> read_wheels("20 to 40 by 10, 127, 20 x2")
    ((20, 2), (30, 1), (40, 1), (127, 1))
    """
    if "/" in text:
        raise click.UsageError(f"This asks for change wheels, with commas between and no strokes. {WHEELS_HELP}")
    counts: dict[int, int] = {}
    for part in text.replace(";", ",").split(","):
        if not part.strip():
            continue
        reader = FigureReader(part, WHEELS_HELP)
        run, word = read_run(reader, _teeth)
        many = 1
        if word in ("x", "×"):
            reader.skip_spaces()
            many = reader.whole()
        reader.finish()
        if not 1 <= many <= 99:
            raise reader.refuse("a wheel is there 1 to 99 times")
        for teeth in run:
            counts[teeth] = many
    if not counts:
        raise click.UsageError(f"At least one wheel is needed. {WHEELS_HELP}")
    return tuple(sorted(counts.items()))


def read_run(reader: FigureReader, read_one: Callable[[FigureReader], int]) -> tuple[range, str]:
    """Read one count, ``A to B`` or ``A to B by STEP``; return the counts and the word that follows them.

    Examples
    --------
    >>> read_run(FigureReader("15 to 20 by 5"), FigureReader.whole)
    (range(15, 21, 5), '')
    >>> read_run(FigureReader("20 x2"), FigureReader.whole)
    (range(20, 21), 'x')
    """
    first = last = read_one(reader)
    step = 1
    word = reader.word().lower()
    if word == "to" or (not word and reader.peek() in ("-", "–")):
        reader.at += 0 if word else 1
        reader.skip_spaces()
        last = read_one(reader)
        word = reader.word().lower()
        if word == "by":
            reader.skip_spaces()
            step = reader.whole()
            word = reader.word().lower()
    if last < first or step < 1:
        raise reader.refuse("a run goes up by at least one")
    return range(first, last + 1, step), word


def _teeth(reader: FigureReader) -> int:
    at = reader.at
    teeth = reader.whole()
    if not FEWEST_TEETH <= teeth <= MOST_TEETH:
        raise reader.refuse(f"a change wheel has {FEWEST_TEETH} to {MOST_TEETH} teeth", at=at)
    return teeth


def known(names: Iterable[str], find: Callable[[str], Answer]) -> list[tuple[str, Answer]]:
    """Load everything known by name; a faulty file is named on stderr and left out of the list."""
    found = []
    for name in names:
        try:
            found.append((name, find(name)))
        except RefusalError as refusal:
            click.echo(str(refusal), err=True)
    return found


def write_asking(path: Path, text: str) -> None:
    """Write a file in full or not at all, asking before anything is replaced."""
    if path.is_file() and not click.confirm(f"{path} exists. Write over it?", default=False, err=True):
        raise click.Abort
    write_whole(path, text)
