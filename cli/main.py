"""The door of the program: finds the command, catches refusals, sets the exit status.

Exit status: 0 answer, 1 no such setting, 2 unreadable request, 3 faulty file.
"""

from __future__ import annotations

import re
import sys
from importlib import import_module

import click

from cli.plain_signs import spell_plainly
from gearsets.file_faults import FileFaultsError
from solver.refusals import ImpossibleSettingError, RefusalError

#: Commands in the order of the work, and the module each lives in; loaded only when called for.
COMMANDS = {
    "train": "cli.commands.train",
    "feed": "cli.commands.feed",
    "reach": "cli.commands.reach",
    "missing": "cli.commands.missing",
    "thread": "cli.commands.thread",
    "divide": "cli.commands.divide",
    "worm": "cli.commands.worm",
    "instrument": "cli.commands.instrument",
    "helix": "cli.commands.helix",
    "shape": "cli.commands.shape",
    "slot": "cli.commands.slot",
    "keyway": "cli.commands.keyway",
    "holes": "cli.commands.holes",
    "dial": "cli.commands.dial",
    "counter": "cli.commands.counter",
    "counts": "cli.commands.counts",
    "job": "cli.commands.job",
    "audit": "cli.commands.audit",
    "identify": "cli.commands.identify",
    "lathe": "cli.commands.lathe",
    "head": "cli.commands.head",
}

#: Commands whose arguments are files and names, not figures.
FILED = ("lathe", "head")

NO_SUCH_SETTING, UNREADABLE, FAULTY_FILE = 1, 2, 3


def keep_negatives(words: list[str]) -> list[str]:
    """Put a blank before a word such as ``-3tpi``, so that it is read as a figure and not as an option.

    Examples
    --------
    >>> keep_negatives(["-3tpi", "--pairs", "2"])
    [' -3tpi', '--pairs', '2']
    """
    return [f" {word}" if word[:1] == "-" and word[1:2] in tuple(".0123456789") else word for word in words]


def join_mounted(words: list[str]) -> list[str]:
    """Join the pairs that follow ``--mounted`` into its one value, so that they need no quotes.

    Examples
    --------
    >>> join_mounted(["1mm", "--mounted", "20/40", "50/127", "--pairs", "2"])
    ['1mm', '--mounted', '20/40 50/127', '--pairs', '2']
    """
    if "--mounted" not in words:
        return words
    at = words.index("--mounted") + 1
    end = at
    while end < len(words) and re.fullmatch(r"\d+/\d+", words[end]):
        end += 1
    return words if end <= at else [*words[:at], " ".join(words[at:end]), *words[end:]]


class Bench(click.Group):
    """The group of commands, each imported only when it is used: ortools and sympy stay out of the way."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Name the commands in the order of the work."""
        del ctx
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import one command."""
        del ctx
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = import_module(COMMANDS[cmd_name]).command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Name near commands when one is misspelt."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            from difflib import get_close_matches

            near = get_close_matches(args[0], COMMANDS, n=2)
            hint = f" Did you mean {' or '.join(near)}?" if near else f" There are {', '.join(COMMANDS)}."
            raise click.UsageError(f"There is no command {args[0][:40]!r}.{hint}", ctx)
        name, command, rest = super().resolve_command(ctx, args)
        if name == "train":
            rest = join_mounted(rest)
        return name, command, rest if name in FILED else keep_negatives(rest)


@click.group(cls=Bench, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80})
@click.version_option(package_name="halfnut", prog_name="halfnut")
@click.option("--debug", is_flag=True, help="Let a refusal through as a traceback, for whoever mends halfnut.")
def bench(debug: bool) -> None:  # noqa: FBT001 - click passes flags by name.
    """Find what to mount and what to turn: change wheels for a thread, moves for a divided part.

    \b
    Example:
      halfnut train 1.25mm --lathe inch-8
    """
    # Taken up in ``run``, which is where refusals are caught.
    del debug


def run() -> None:
    """Run the program and leave with its exit status."""
    spell_plainly(sys.stdout, sys.stderr)
    try:
        sys.exit(bench.main(standalone_mode=False) or 0)
    except click.exceptions.Exit as leaving:
        sys.exit(leaving.exit_code)
    except click.Abort:
        click.echo("Stopped; nothing was written.", err=True)
        sys.exit(NO_SUCH_SETTING)
    except click.ClickException as fault:
        fault.show()
        if example := example_for(fault):
            click.echo(f"For example: {example}", err=True)
        sys.exit(UNREADABLE)
    except RefusalError as refusal:
        if "--debug" in sys.argv:
            raise
        click.echo(str(refusal), err=True)
        sys.exit(status_of(refusal))


def example_for(fault: click.ClickException) -> str:
    """Return the first example of the command's help, for a request in which something is missing; else nothing."""
    context = fault.ctx if isinstance(fault, click.UsageError) else None
    if context is None or isinstance(context.command, click.Group):
        return ""
    if not isinstance(fault, click.MissingParameter) and len(sys.argv) > len(("halfnut", "command")):
        return ""
    _, _, examples = (context.command.help or "").partition("Example:")
    return next((line.strip() for line in examples.splitlines() if line.strip()), "")


def status_of(refusal: RefusalError) -> int:
    """Return the exit status a refusal calls for.

    Examples
    --------
    >>> status_of(ImpossibleSettingError("no such train"))
    1
    """
    if isinstance(refusal, FileFaultsError):
        return FAULTY_FILE
    return NO_SUCH_SETTING if isinstance(refusal, ImpossibleSettingError) else UNREADABLE


if __name__ == "__main__":
    run()
