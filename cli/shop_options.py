"""Options that several commands share, spelt one way, and the reading of their figures."""

from __future__ import annotations

import os
from collections.abc import Callable
from fractions import Fraction
from typing import Any, TypeVar

import click

from solver.dividing.heads import Head
from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length, read_micrometres
from solver.refusals import RefusalError
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe

Command = TypeVar("Command", bound=Callable[..., Any])
Equipment = TypeVar("Equipment")

#: What is used when neither the option nor the environment names one.
USUAL_LATHE = "inch-8"
USUAL_HEAD = "head-40-three-plates"
#: Environment variables that name your own.
LATHE_VARIABLE = "HALFNUT_LATHE"
HEAD_VARIABLE = "HALFNUT_HEAD"

lathe_option = click.option(
    "--lathe",
    "lathe_word",
    metavar="NAME|FILE",
    help=f"Your lathe: a file, or a name from 'halfnut lathe list'. [default: ${LATHE_VARIABLE}, else {USUAL_LATHE}]",
)
head_option = click.option(
    "--head",
    "head_word",
    metavar="NAME|FILE",
    help=f"Your head or table: a file, or a name from 'halfnut head list'. [default: ${HEAD_VARIABLE}, else "
    f"{USUAL_HEAD}]",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON, exact numbers as text.")
within_option = click.option(
    "--within",
    "within_text",
    default="1000 ppm",
    show_default=True,
    metavar="ERROR",
    help="Largest error of an answer: '200 ppm', or '5 um' over --length.",
)
length_option = click.option(
    "--length",
    "length_text",
    default="1 in",
    show_default=True,
    metavar="LENGTH",
    help="Engaged length over which the error is told.",
)
pairs_option = click.option(
    "--pairs",
    "most_pairs",
    type=click.IntRange(1, 4),
    default=3,
    show_default=True,
    help="Most pairs of wheels.",
)
hand_option = click.option(
    "--hand",
    "hand_word",
    type=click.Choice([hand.value for hand in Hand]),
    default=Hand.RIGHT.value,
    show_default=True,
    help="Hand of the thread.",
)


def chosen_lathe(word: str | None) -> tuple[Lathe, bool]:
    """Load the lathe asked for, and say whether it was only assumed."""
    from gearsets.lathe_files import find_lathe

    if word:
        return find_lathe(word), False
    named = _from_variable("lathe", LATHE_VARIABLE, find_lathe)
    return (find_lathe(USUAL_LATHE), True) if named is None else (named, False)


def chosen_head(word: str | None) -> tuple[Head, bool]:
    """Load the head asked for, and say whether it was only assumed."""
    named = named_head(word)
    if named is not None:
        return named, False
    from gearsets.head_files import find_head

    return find_head(USUAL_HEAD), True


def named_head(word: str | None) -> Head | None:
    """Load the head that the option or the environment names; nothing when neither does."""
    from gearsets.head_files import find_head

    return find_head(word) if word else _from_variable("head", HEAD_VARIABLE, find_head)


def _from_variable(kind: str, variable: str, find: Callable[[str], Equipment]) -> Equipment | None:
    """Load what an environment variable names; an empty one names nothing. A refusal says where the name came from."""
    named = os.environ.get(variable, "").strip()
    if not named:
        return None
    try:
        return find(named)
    except RefusalError:
        click.echo(
            f"The {kind} {named[:60]!r} was named by the variable {variable}, since no --{kind} was given.", err=True
        )
        raise


def remark_assumed(kind: str, name: str, *, assumed: bool) -> None:
    """Say on stderr that a generic lathe or head stands in for the person's own."""
    if assumed:
        click.echo(
            f"No {kind} was named, so this is for the generic '{name}'. Describe yours with 'halfnut {kind} new'.",
            err=True,
        )


def remark_keyed_pairs(lathe: Lathe) -> None:
    """Say on stderr that wheels keyed together are listed but not searched."""
    if lathe.keyed_pairs:
        joined = ", ".join(f"{first}+{second}" for first, second in lathe.keyed_pairs)
        click.echo(
            f"The keyed pairs of this lathe ({joined}) are not used by the search; "
            "loose wheels are taken from [wheels] teeth only.",
            err=True,
        )


def read_within(text: str, length: Length) -> Fraction:
    """Read a tolerance as a part of the lead: ``200 ppm``, ``0.1 %`` or ``5 um`` over a length.

    Examples
    --------
    >>> read_within("200 ppm", Length.of_mm(25)), read_within("5 um", Length.of_mm(25))
    (Fraction(1, 5000), Fraction(1, 5000))
    """
    reader = FigureReader(text)
    figure = reader.number()
    reader.skip_spaces()
    if reader.peek() == "%":
        reader.at += 1
        reader.finish()
        return figure / 100
    at = reader.at
    word = reader.word().lower()
    if word == "ppm":
        reader.finish()
        return figure / 1_000_000
    if word == "":
        raise reader.refuse("an error needs its unit", at=at, help_text="Write for example 200 ppm, 0.1 % or 5 um.")
    return read_micrometres(text) / length


def read_engaged(text: str) -> Length:
    """Read the engaged length, above zero.

    Examples
    --------
    >>> read_engaged("25 mm")
    Length(mm=Fraction(25, 1))
    """
    length = read_length(text)
    if length.mm == 0:
        raise FigureReader(text).refuse("a threaded length is above zero", at=0)
    return length
