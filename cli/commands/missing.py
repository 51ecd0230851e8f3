"""``missing``: the fewest wheels to buy or make so that pitches come within reach, and how to make them."""

from __future__ import annotations

import sys
import time
from math import ceil
from typing import TYPE_CHECKING

import click

from cli.commands.asking import read_wheels
from cli.drawing_words import chosen_hand, remark_outside
from cli.price_options import own_make_option, price_option, read_prices
from cli.sheet_files import refuse_sheet, sheet_option, write_sheet
from cli.shop_options import (
    chosen_head,
    chosen_lathe,
    force_option,
    hand_option,
    head_option,
    json_option,
    lathe_option,
    length_option,
    read_engaged,
    remark_assumed,
    series_option,
)
from gearsets.designations import read_lead_wanted
from solver.quantities.written_errors import read_within
from solver.refusals import ImpossibleSettingError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cli.views.missing_figures import Wanted
    from solver.jobs.wheel_report import MissingReport, Progress
    from solver.trains.lathe import Lathe

#: Most different leads taken up.
MOST_LEADS = 400
#: Work shorter than this says nothing of its progress; a terminal is told every second, a file every ten. [s]
QUIET = 2
TOLD_EVERY, WRITTEN_EVERY = 1, 10


@click.command("missing", short_help="The fewest wheels to add for pitches this lathe cannot cut.")
@click.argument("pitches", nargs=-1, metavar="[PITCH]...")
@series_option
@lathe_option
@click.option(
    "--within",
    "--tolerance",
    "within_text",
    default="1000 ppm",
    show_default=True,
    metavar="ERROR",
    help="Largest error of a thread: '200 ppm', 'exact', or '5 um' over --length.",
)
@length_option
@click.option(
    "--most", type=click.IntRange(1, 5), metavar="N", default=3, show_default=True, help="Most wheels to add."
)
@click.option(
    "--candidates",
    "candidates_text",
    default="20-127",
    show_default=True,
    metavar="TEETH",
    help="Wheels that may be added: '20-127', '20 to 100 by 2, 127'.",
)
@price_option
@own_make_option
@click.option(
    "--pairs",
    "most_pairs",
    type=click.IntRange(1, 3),
    metavar="N",
    default=3,
    show_default=True,
    help="Most pairs of wheels in a train.",
)
@hand_option
@head_option
@click.option(
    "--seconds",
    type=click.IntRange(1, 86_400),
    metavar="N",
    default=120,
    show_default=True,
    help="Stop looking after so long, and give the best found with what is proven.",
)
@sheet_option
@force_option
@json_option
def command(
    *,
    pitches: tuple[str, ...],
    series_word: str | None,
    lathe_word: str | None,
    within_text: str,
    length_text: str,
    most: int,
    candidates_text: str,
    price_texts: tuple[str, ...],
    own_make: int | None,
    most_pairs: int,
    hand_word: str,
    head_word: str | None,
    seconds: int,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Name the fewest wheels to add so that each PITCH, or a whole series, can be cut.

    Only trains that go on count. With prices the cheapest wheels are named. Each wheel comes with its blank, its
    cutter and what divides it on your head.

    \b
    Example:
      halfnut missing --series iso_coarse --lathe inch-8-no127 --within exact
      halfnut missing 1mm 1.25mm 1.5mm --lathe inch-8-no127 --pairs 2
      halfnut missing 0.9mm 1.1mm --lathe inch-16-small --within "50 ppm" --pairs 2
      halfnut missing 1.5mm 0.3mm --lathe inch-8-no127 --pairs 2 --own-make 60
    """
    refuse_sheet(sheet_to, force=force)
    from cli.views import missing_json, missing_screen
    from cli.views.missing_figures import OTHER_SETS
    from solver.jobs.missing_wheels import missing_wheels
    from solver.jobs.wheel_making import making_of
    from solver.jobs.wheel_report import MissingQuestion

    wanted = _wanted(pitches, series_word)
    hand = chosen_hand(hand_word, *pitches)
    lathe, lathe_assumed = chosen_lathe(lathe_word)
    head, head_assumed = chosen_head(head_word)
    engaged = read_engaged(length_text)
    question = MissingQuestion(
        tuple(wanted),
        _candidates(candidates_text, lathe),
        read_within(within_text, engaged),
        most,
        most_pairs,
        hand,
        read_prices(price_texts, own_make),
    )
    watch = _Watch(seconds)
    report = missing_wheels(lathe, question, watch=watch.goes_on, seconds=watch.seconds_left, other_sets=OTHER_SETS)
    watch.end_line()
    makings = [making_of(teeth, lathe, head) for teeth in sorted(set(report.best.wheels))]
    remark_assumed("lathe", lathe.name, assumed=lathe_assumed)
    if makings:
        remark_assumed("head", head.name, assumed=head_assumed)
    if sheet_to:
        from cli.views.sheets.missing_cards import missing_sheet

        write_sheet(missing_sheet(lathe, head, wanted, report, makings, head_word), sheet_to)
    if as_json:
        click.echo(missing_json.missing_json(lathe, head, wanted, report, makings))
    else:
        missing_screen.show_missing(lathe, head, wanted, report, makings, head_word)
    return _leaving(report)


def _wanted(pitches: Sequence[str], series_word: str | None) -> Wanted:
    """Read what is wanted: each different lead once, with the threads that have it."""
    from cli.views.missing_figures import Thread, pitch_label

    if bool(pitches) == bool(series_word):
        raise click.UsageError("Give pitches, or --series with a name; one of the two.")
    wanted: Wanted = {}
    if series_word:
        from gearsets.thread_tables import load_series

        for thread in load_series(series_word):
            known = wanted.setdefault(thread.pitch.lead, Thread(pitch_label(thread.pitch), []))
            known.names.append(thread.designation)
    for text in pitches:
        asked, found = read_lead_wanted(text)
        remark_outside(found)
        known = wanted.setdefault(asked.lead, Thread(pitch_label(asked), []))
        if found is not None and found.designation not in known.names:
            known.names.append(found.designation)
    if len(wanted) > MOST_LEADS:
        raise click.UsageError(f"{len(wanted)} different leads are asked for; {MOST_LEADS} are taken at a time.")
    return wanted


def _candidates(text: str, lathe: Lathe) -> tuple[int, ...]:
    """Read the wheels that may be added; those that the guard would not let turn are left out."""
    asked = [teeth for teeth, _ in read_wheels(text)]
    largest = lathe.banjo.largest_wheel_teeth if lathe.banjo else None
    kept = tuple(teeth for teeth in asked if largest is None or teeth <= largest)
    if not kept:
        raise ImpossibleSettingError(
            f"no wheel of {text.strip()[:40]} goes under the guard of this lathe, which stops at {largest} teeth",
            help_text=f"Write for example --candidates 20-{largest}.",
        )
    return kept


def _leaving(report: MissingReport) -> int:
    """Return the exit status, and say on stderr what is left undone."""
    if report.proof.stopped is not None:
        known = "Proven only in part" if report.is_least else "Not proven"
        click.echo(
            f"{known}: {report.proof.stopped.value}. Fewer --candidates, --pairs or pitches, a smaller --most or "
            "more --seconds would settle it.",
            err=True,
        )
    left = len(report.lacking) - len(report.best.unlocked)
    if left:
        click.echo(f"{left} of the {len(report.lacking)} leads that are lacking are left so.", err=True)
    return 1 if left else 0


class _Watch:
    """The clock of a long search: a line of progress on stderr, and the end of the time."""

    def __init__(self, seconds: int) -> None:
        self._start = self._told = time.monotonic()
        self._seconds = seconds
        self._is_open = False

    def goes_on(self, progress: Progress) -> bool:
        """Tell the progress when it is time to, and say whether there is time left."""
        now = time.monotonic()
        is_terminal = sys.stderr.isatty()
        if now - self._start > QUIET and now - self._told > (TOLD_EVERY if is_terminal else WRITTEN_EVERY):
            self._told = now
            line = (
                f"{now - self._start:.0f} s: {progress.size} wheel{'s' if progress.size > 1 else ''} at a time, "
                f"lead {progress.lead} of {progress.leads}, {progress.looked_at:,} sides and set-ups looked at"
            )
            click.echo(f"\r{line:<78}" if is_terminal else line, nl=not is_terminal, err=True)
            self._is_open = is_terminal
        return now - self._start < self._seconds

    def seconds_left(self) -> int:
        """Count the seconds left, one begun as a whole one; zero when the time is over."""
        return max(0, ceil(self._start + self._seconds - time.monotonic()))

    def end_line(self) -> None:
        """Leave the line of progress, where one was written over and over."""
        if self._is_open:
            click.echo(err=True)
