"""Options that several commands share, spelt one way, and the reading of their figures."""

from __future__ import annotations

import os
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from cli.sizes import read_size
from solver.quantities.lengths import Length
from solver.quantities.written_errors import read_progressive_error, says_exact
from solver.refusals import RefusalError
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe

if TYPE_CHECKING:
    from solver.dividing.heads import Head
    from solver.trains.train_answer import TrainAnswer
    from solver.trains.train_search import TrainReport
    from solver.trains.wheels import Train

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
    help="Largest error of an answer: '200 ppm', 'exact', or '5 um' over --length.",
)
length_option = click.option(
    "--length",
    "length_text",
    default="1 in",
    show_default=True,
    metavar="LENGTH",
    help="Engaged length over which the error is told.",
)
series_option = click.option(
    "--series",
    "series_word",
    metavar="NAME",
    help="A whole series: metric, iso_coarse, iso_fine, unified, unc, unf, unef, whitworth, ba, module, ...",
)
pairs_option = click.option(
    "--pairs",
    "most_pairs",
    type=click.IntRange(1, 4),
    default=3,
    show_default=True,
    metavar="N",
    help="Most pairs of wheels.",
)


def _hand_of(what: str) -> Callable[[Command], Command]:
    return click.option(
        "--hand",
        "hand_word",
        type=click.Choice([hand.value for hand in Hand]),
        default=Hand.RIGHT.value,
        show_default=True,
        help=f"Hand of the {what}.",
    )


hand_option = _hand_of("thread")
helix_hand_option = _hand_of("helix")
draw_option = click.option(
    "--draw", "draw_to", metavar="FILE.svg", help="Write a drawing into an SVG file that is not there yet."
)
force_option = click.option("--force", is_flag=True, help="Let a file that is there be replaced.")


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


def with_lever(lathe: Lathe, lever: str) -> Lathe:
    """Leave the gearbox of a lathe in one position."""
    names = [name for name, _ in lathe.levers]
    if lever not in names:
        help_words = f"Positions: {', '.join(names)}." if names else "It has no gearbox; leave --lever out."
        raise click.UsageError(f"Lever position {lever[:40]!r} is not on this lathe. {help_words}")
    return lathe.at_lever(lever)


def refuse_overwriting(path: str, *, force: bool) -> None:
    """Refuse to replace a file that is there, or to make a folder for one, before any work is done for it."""
    folder = Path(path).parent
    if not folder.is_dir():
        raise click.UsageError(f"There is no folder {str(folder)[:200]}. Make it first, or check the name of the file.")
    if os.path.lexists(path) and not force:
        raise click.UsageError(f"{path[:200]} is there already. Choose another name, or add --force to replace it.")


def refuse_drawing(path: str, *, force: bool) -> None:
    """Refuse a drawing whose name does not end in .svg, or whose file is there, before any work is done for it."""
    if not path.lower().endswith(".svg"):
        raise click.UsageError(f"--draw writes SVG: give a name that ends in .svg, not {path[-60:]!r}.")
    refuse_overwriting(path, force=force)


def draw_set_up(answer: TrainAnswer, lathe: Lathe, path: str) -> None:
    """Write the drawing of one train on the banjo, and say on stderr where it is."""
    from cli.views.banjo_drawing import banjo_svg
    from cli.whole_files import write_whole

    write_whole(path, banjo_svg(answer, lathe))
    click.echo(f"Drawn: {path}", err=True)


def read_allowance(text: str) -> Fraction:
    """Read how much longer or shorter a lead is cut on purpose; a bare number is in ppm, as the option says.

    Examples
    --------
    >>> read_allowance("+1500 ppm"), read_allowance("-1500"), read_allowance("0.0005 in in 1 in")
    (Fraction(3, 2000), Fraction(-3, 2000), Fraction(1, 2000))
    """
    bare = text.strip().lstrip("+-−")
    return read_progressive_error(f"{text} ppm" if bare.replace(".", "", 1).isdecimal() else text)


def within_words(text: str) -> str:
    """Say a tolerance after an ``is``.

    Examples
    --------
    >>> within_words("200 ppm"), within_words("exact")
    ('within 200 ppm', 'exact')
    """
    return "exact" if says_exact(text) else f"within {text.strip()[:40]}"


def read_engaged(text: str) -> Length:
    """Read the engaged length, above zero.

    Examples
    --------
    >>> read_engaged("25 mm")
    Length(mm=Fraction(25, 1))
    """
    return read_size(text, "a threaded length")


def remark_cut_short(report: TrainReport) -> None:
    """Say on stderr that there were more trains of one error than are tried."""
    if report.cut_short:
        counts = " and ".join(map(str, report.cut_short))
        click.echo(
            f"Trains with {counts} pairs are too many to try them all: "
            "no nearer ratio was missed, but a milder train, or one that goes on, may have been.",
            err=True,
        )


def read_mounted(text: str | None, lathe: Lathe) -> Train | None:
    """Read what is on the banjo now, and say which of its wheels the box does not hold: a slip, or a file to mend."""
    if not text:
        return None
    from solver.trains.train_rules import broken_rules
    from solver.trains.written_trains import read_train

    mounted = read_train(text, lathe.wheel_classes)
    for broken in broken_rules(mounted, lathe):
        click.echo(f"Of what is mounted, {broken}: mend --mounted, or the lathe file.", err=True)
    return mounted
