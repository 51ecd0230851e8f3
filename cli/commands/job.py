"""``job``: several parts in one sitting, in the order that changes fewest wheels."""

from __future__ import annotations

import sys
import time
from math import ceil

import click

from cli.drawing_words import remark_outside
from cli.sheet_files import refuse_sheet, sheet_option, write_sheet
from cli.shop_options import force_option, json_option

#: Usual and longest time for the proof. [s]
USUAL_TIME = 60
LONGEST_TIME = 3600
#: Work of less than this needs no progress line. [s]
SOON = 1


@click.command("job", short_help="Several parts in one sitting: order, fewest wheel changes, proven.")
@click.argument("file", metavar="FILE|NAME")
@click.option(
    "--time-limit",
    "time_limit",
    type=click.IntRange(1, LONGEST_TIME),
    default=USUAL_TIME,
    show_default=True,
    metavar="SECONDS",
    help="After so long the best plan found is given, with what could still be gained.",
)
@sheet_option
@click.option("--short", is_flag=True, help="Of the sheet only the cover and what each step mounts and sets.")
@force_option
@json_option
def command(*, file: str, time_limit: int, sheet_to: str | None, short: bool, force: bool, as_json: bool) -> int:
    """Plan the parts of a job FILE on one lathe and one head, so that fewest wheels are taken off and put on.

    The train, the placing and the head setting of each part are chosen among all within its tolerance.

    \b
    Example:
      halfnut job tellurion
      halfnut job tellurion --time-limit 20 --json
    """
    refuse_sheet(sheet_to, force=force)
    if short and sheet_to is None:
        raise click.UsageError("--short is of a sheet: name its file with --sheet.")
    from gearsets.job_files import find_job
    from gearsets.job_parts import ThreadPart

    job = find_job(file)
    from cli.job_plan import exact_help, parts_missed, planned

    progress = _Progress(len(job.parts), time_limit)
    found = planned(job, seconds=progress.seconds_left, tell=progress.tell)
    progress.finish()
    if sheet_to:
        from cli.views.sheets.job_cards import job_sheet

        write_sheet(job_sheet(found, is_short=short), sheet_to)
    if as_json:
        from cli.views.job_json import job_json

        click.echo(job_json(found))
    else:
        from cli.views.job_screen import show_job

        show_job(found)
    for part in job.parts:
        if isinstance(part.product, ThreadPart):
            remark_outside(part.product.row)
    if not found.plan.is_proven:
        gap = found.plan.handled - found.plan.bound
        click.echo(
            f"The plan is not proven: at most {gap} wheels could still be saved. "
            "Fewer parts at a time, closer tolerances, or a longer --time-limit may prove it.",
            err=True,
        )
    missed = parts_missed(found)
    if missed:
        click.echo(f"Beyond its tolerance, the nearest setting being planned: {', '.join(missed)}.", err=True)
        for line in exact_help(found):
            click.echo(line, err=True)
    return 1 if missed else 0


class _Progress:
    """Tells on stderr what is being done, once the work has taken a moment; and counts the time."""

    def __init__(self, parts: int, limit: int) -> None:
        self._parts = parts
        self._start = time.monotonic()
        #: When the constraint solver began to load: that time is not counted.
        self._paused = self._start
        self._limit = limit
        self._is_open = False
        self._told: set[str] = set()

    def seconds_left(self) -> int:
        """Count the seconds left, one begun as a whole one; zero when the time is over."""
        return max(0, ceil(self._start + self._limit - time.monotonic()))

    def tell(self, what: str, figure: int) -> None:
        """Write one line over the last on a terminal, a line of its own elsewhere."""
        if what == "loading":
            self._paused = time.monotonic()
        elif what == "loaded":
            self._start += time.monotonic() - self._paused
        if what == "loaded" or time.monotonic() - self._start < SOON:
            return
        lines = {
            "loading": "Loading the constraint solver",
            "ways": f"Looking for set-ups: part {figure} of {self._parts}",
            "walked": f"Fewest wheels of each machine by itself: {figure}",
            "joining": f"Looking for the best of all plans that handle {figure} wheels or fewer",
            "pieces": f"Too many parts or set-ups to plan whole: {figure} parts, a few at a time",
        }
        if sys.stderr.isatty():
            click.echo(f"\r\x1b[K{lines[what]}", nl=False, err=True)
            self._is_open = True
        elif what not in self._told:
            click.echo(lines[what], err=True)
        self._told.add(what)

    def finish(self) -> None:
        """Clear the line."""
        if self._is_open:
            click.echo("\r\x1b[K", nl=False, err=True)
