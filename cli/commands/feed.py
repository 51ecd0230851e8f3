"""``feed``: wheels for turning, a feed wanted or the finest there is, and the way back to what stood before."""

from __future__ import annotations

import click

from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import (
    chosen_lathe,
    force_option,
    json_option,
    lathe_option,
    pairs_option,
    read_engaged,
    read_mounted,
    remark_assumed,
    remark_cut_short,
    within_words,
)
from cli.sizes import optional_size
from solver.quantities.written_errors import read_within
from solver.quantities.written_lengths import read_feed
from solver.trains.feeds import USUAL_OFF, feed_trains
from solver.trains.hand import Hand

#: How far a feed may be off where nothing is said.
USUAL_WITHIN = f"{USUAL_OFF * 100} %"


@click.command("feed", short_help="Wheels for a turning feed, or the finest feed there is.")
@click.argument("travel", required=False, metavar="[FEED]")
@lathe_option
@click.option(
    "--within",
    "within_text",
    metavar="ERROR",
    help=f"How far the feed may be from the one wanted. [default: {USUAL_WITHIN}]",
)
@pairs_option
@click.option(
    "--from-headstock",
    "from_headstock",
    is_flag=True,
    help="The tool is to go away from the headstock, not towards it.",
)
@click.option(
    "--mounted", "mounted_text", metavar="TRAIN", help="What is on the banjo now, and is put back afterwards."
)
@sheet_option
@force_option
@json_option
def command(
    *,
    travel: str | None,
    lathe_word: str | None,
    within_text: str | None,
    most_pairs: int,
    from_headstock: bool,
    mounted_text: str | None,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Give the wheels for a FEED, the travel of the tool for one turn of the work; without it the finest that goes on.

    \b
    Example:
      halfnut feed "0.1 mm" --lathe inch-8
      halfnut feed --lathe metric-3 --mounted 20-100-30-95
      halfnut feed "0.004 in per turn" --lathe inch-8-fours
    """
    lathe, assumed = chosen_lathe(lathe_word)
    feed = optional_size(travel, "a feed", read_feed)
    refuse_sheet(sheet_to, force=force)
    mounted = read_mounted(mounted_text, lathe)
    if feed is None and within_text is not None:
        raise click.UsageError("--within is of a FEED: name one, or leave it out for the finest.")
    within_text = within_text or USUAL_WITHIN
    within = read_within(within_text, read_engaged("1 in"))
    hand = Hand.LEFT if from_headstock else Hand.RIGHT
    report = feed_trains(lathe, feed, within=within, most_pairs=most_pairs, hand=hand, mounted=mounted)
    remark_assumed("lathe", lathe.name, assumed=assumed)
    remark_cut_short(report)
    from cli.views import feed_screen

    if as_json:
        click.echo(feed_screen.feed_json(feed, lathe, report))
    else:
        feed_screen.show_feed(feed, lathe, report)
    if not report.answers:
        click.echo(feed_screen.no_feed_text(feed, report, within_words(within_text)), err=True)
        return 1
    if sheet_to:
        from cli.views.sheets.feed_cards import feed_card

        write_card(feed_card(feed, lathe, report), sheet_to)
    return 0
