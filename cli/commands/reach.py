"""``reach``: can this lathe cut it, and which one wheel would help."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from cli.drawing_words import remark_hand_unused, remark_outside
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import (
    chosen_lathe,
    force_option,
    json_option,
    lathe_option,
    length_option,
    pairs_option,
    read_engaged,
    remark_assumed,
    series_option,
    within_option,
)
from gearsets.designations import read_lead_wanted
from solver.quantities.written_errors import read_within
from solver.trains.reach import Reach, Reached, reach

if TYPE_CHECKING:
    from collections.abc import Sequence
    from fractions import Fraction

    from solver.quantities.pi_multiples import Lead
    from solver.trains.lathe import Lathe

#: A list longer than this shows its progress on stderr.
SHORT_LIST = 12


@click.command("reach", short_help="Can this lathe cut it, and which wheel would help.")
@click.argument("pitches", nargs=-1, metavar="[PITCH]...")
@series_option
@lathe_option
@within_option
@length_option
@pairs_option
@click.option(
    "--add",
    "added",
    multiple=True,
    type=click.IntRange(5, 400),
    metavar="TEETH",
    help="Pretend to have one wheel more; may be given several times.",
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
    most_pairs: int,
    added: tuple[int, ...],
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Say of each PITCH, or of a whole series, whether this lathe cuts it: exact, within tolerance, or not.

    \b
    Example:
      halfnut reach 1.25mm 0.7mm "module 0.5" --lathe inch-8-no127
      halfnut reach --series metric --lathe inch-8-no127
    """
    refuse_sheet(sheet_to, force=force)
    wanted = _wanted(pitches, series_word)
    lathe, assumed = chosen_lathe(lathe_word)
    for teeth in added:
        lathe = lathe.with_wheel(teeth)
    engaged = read_engaged(length_text)
    within = read_within(within_text, engaged)
    found = _reach_all(lathe, [lead for _, lead in wanted], within, most_pairs)
    rows = [(name, found[lead]) for name, lead in wanted]
    remark_assumed("lathe", lathe.name, assumed=assumed)
    remark_hand_unused(pitches)
    if sheet_to:
        from cli.views.sheets.wall_charts import thread_chart

        write_card(thread_chart(lathe, rows, within, _series_title(series_word)), sheet_to)
    from cli.views import reach_screen

    if as_json:
        click.echo(reach_screen.reach_json(lathe, rows, within, added))
    else:
        reach_screen.show_reach(lathe, rows, within, engaged, added)
    return 0 if all(row.reached is not Reached.NOT for _, row in rows) else 1


def _wanted(pitches: Sequence[str], series_word: str | None) -> list[tuple[str, Lead]]:
    if bool(pitches) == bool(series_word):
        raise click.UsageError("Give pitches, or --series with a name; one of the two.")
    if series_word:
        from gearsets.thread_tables import load_series

        return [(thread.designation, thread.pitch.lead) for thread in load_series(series_word)]
    wanted = []
    for text in pitches:
        asked, thread = read_lead_wanted(text)
        remark_outside(thread)
        wanted.append((thread.designation if thread else str(asked), asked.lead))
    return wanted


def _series_title(series_word: str | None) -> str:
    """Name the series of a chart."""
    if series_word is None:
        return "a list of pitches"
    from gearsets.thread_tables import SERIES_TITLES, series_members

    return ", ".join(SERIES_TITLES[each] for each in series_members(series_word))


def _reach_all(lathe: Lathe, leads: Sequence[Lead], within: Fraction, most_pairs: int) -> dict[Lead, Reach]:
    """Answer each different lead once; many threads of a series share one."""
    different = list(dict.fromkeys(leads))
    if len(different) <= SHORT_LIST or not sys.stderr.isatty():
        return {lead: reach(lathe, lead, within=within, most_pairs=most_pairs) for lead in different}
    with click.progressbar(different, label="Searching", file=sys.stderr) as bar:
        return {lead: reach(lathe, lead, within=within, most_pairs=most_pairs) for lead in bar}
