"""``counter``: what one turn of a worm wheel on a screw reads, and what a counter of turns must hold."""

from __future__ import annotations

import click

from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import force_option, json_option
from cli.sizes import optional_size
from gearsets.wheel_boxes import read_screw_lead
from solver.dials.counting_wheels import CountingWheel


@click.command("counter", short_help="A worm wheel on a screw that counts its turns.")
@click.option("--screw", "screw_text", metavar="LEAD", required=True, help="Lead of the screw: 8 tpi, 1 mm.")
@click.option("--wheel", "teeth", type=click.IntRange(2, 10_000), metavar="TEETH", required=True, help="Of the wheel.")
@click.option(
    "--starts", type=click.IntRange(1, 99), default=1, metavar="N", show_default=True, help="Starts of its worm."
)
@click.option("--travel", "travel_text", metavar="LENGTH", help="Longest travel that is to be counted.")
@sheet_option
@force_option
@json_option
def command(
    *,
    screw_text: str,
    teeth: int,
    starts: int,
    travel_text: str | None,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Tell what one turn of a wheel reads that a screw drives, and how many turns a counter counts over a travel.

    \b
    Example:
      halfnut counter --screw "8 tpi" --wheel 80 --travel "12 in"
      halfnut counter --screw "1 mm" --wheel 100
    """
    refuse_sheet(sheet_to, force=force)
    wheel = CountingWheel(read_screw_lead(screw_text), teeth, starts)
    travel = optional_size(travel_text, "a travel")
    from cli.views import counter_screen

    if sheet_to:
        from cli.views.sheets.instrument_cards import counter_card

        write_card(counter_card(wheel, travel), sheet_to)
    if as_json:
        click.echo(counter_screen.counter_json(wheel, travel))
    else:
        counter_screen.show_counter(wheel, travel)
    return 0
