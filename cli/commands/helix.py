"""``helix``: wheels from the table screw to the head for a helical lead, with table swing and cutter."""

from __future__ import annotations

from fractions import Fraction

import click

from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import (
    chosen_head,
    force_option,
    head_option,
    helix_hand_option,
    json_option,
    remark_assumed,
    within_words,
)
from cli.sizes import optional_size, read_size
from solver.dividing.divide import divide
from solver.helices.helix import gear_diameter, lead_from_angle, lead_of_gear
from solver.helices.helix_trains import HelixQuestion, HelixReport, search_helix
from solver.helices.mill import Drive, mill_of
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead
from solver.quantities.written_angles import read_angle
from solver.quantities.written_errors import read_within
from solver.quantities.written_lengths import read_gear_size
from solver.refusals import UnreadableFigureError
from solver.trains.hand import Hand

#: Longest and shortest lead taken in.
SHORTEST = Length.of_mm("0.5")
LONGEST = Length.of_mm(100_000)
NOT_ASKED = (
    "Give the LEAD, or --angle with --diameter, or --angle with --teeth and --module (the normal module, or a DP)."
)


@click.command("helix", short_help="Wheels from the mill's table screw to the head for a helix, with table swing.")
@click.argument("lead", required=False)
@click.option("--diameter", metavar="LENGTH", help="At which the helix angle is told, or given by --angle.")
@click.option("--angle", metavar="ANGLE", help="Helix angle from the axis, instead of LEAD.")
@click.option(
    "--teeth",
    type=click.IntRange(1, 2000),
    metavar="TEETH",
    help="Teeth or flutes: cutter for a gear, and the index move.",
)
@click.option("--module", metavar="SIZE", help="Normal size of a gear's teeth: '2', 'module 2' or '12 DP'.")
@head_option
@helix_hand_option
@click.option(
    "--drive",
    type=click.Choice([each.value for each in Drive]),
    default=Drive.WORM.value,
    show_default=True,
    help="Last wheel on the head's worm shaft, or on its spindle for short leads.",
)
@click.option(
    "--within",
    "within_text",
    default="1 %",
    show_default=True,
    metavar="ERROR",
    help="Largest error of the lead: '1 %', '2000 ppm'.",
)
@click.option(
    "--pairs", type=click.IntRange(1, 3), metavar="N", default=2, show_default=True, help="Most pairs of wheels."
)
@click.option(
    "--answers",
    type=click.IntRange(1, 50),
    metavar="N",
    default=4,
    show_default=True,
    help="Answers for each number of pairs.",
)
@click.option("--placings", is_flag=True, help="Show every placing of the first train's wheels, and which go on.")
@sheet_option
@force_option
@json_option
def command(
    *,
    lead: str | None,
    diameter: str | None,
    angle: str | None,
    teeth: int | None,
    module: str | None,
    head_word: str | None,
    hand_word: str,
    drive: str,
    within_text: str,
    pairs: int,
    answers: int,
    placings: bool,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Give the wheels between table screw and head for a helix of LEAD, and how far to swing the table.

    \b
    Example:
      halfnut helix "12 in" --diameter "2 in" --head head-40-three-plates
      halfnut helix --angle "20 deg" --teeth 30 --module "module 2"
      halfnut helix "0.261 in" --drive spindle
    """
    refuse_sheet(sheet_to, force=force)
    wanted, across, asked_angle = _asked(lead, diameter, angle, teeth, module)
    head, assumed = chosen_head(head_word)
    mill = mill_of(head)
    question = HelixQuestion(wanted, Hand(hand_word), Drive(drive), _within(within_text), pairs, answers)
    report = search_helix(question, mill)
    remark_assumed("head", head.name, assumed=assumed)
    from cli.views import helix_screen

    gear = teeth if module is not None else None
    moves = divide(head, Fraction(1, teeth)) if teeth is not None else None
    helix = helix_screen.Helix(mill, head, report, across, asked_angle, gear, moves)
    if sheet_to and report.answers:
        from cli.views.sheets.helix_cards import helix_card

        write_card(helix_card(helix), sheet_to)
    elif sheet_to:
        click.echo("No sheet is written: no train answers.", err=True)
    if as_json:
        click.echo(helix_screen.helix_json(helix))
    else:
        helix_screen.show_helix(helix, with_placings=placings)
    return 0 if report.answers else _refused(report, within_text)


def _asked(
    lead: str | None, diameter: str | None, angle: str | None, teeth: int | None, module: str | None
) -> tuple[Lead, Length | None, Angle | None]:
    """Read what is asked: the lead, the diameter at which the angle is told, and the angle if given."""
    across = optional_size(diameter, "a diameter")
    if (lead is None) == (angle is None):
        raise click.UsageError(NOT_ASKED)
    size = read_gear_size(module) if module is not None else None
    if size is not None and (teeth is None or angle is None or across is not None):
        raise click.UsageError("--module makes a gear with --teeth and --angle, and gives the diameter itself.")
    if lead is not None:
        wanted = read_size(lead, "a lead")
        if not SHORTEST <= wanted <= LONGEST:
            raise UnreadableFigureError(lead, 0, "a lead of 0.5 mm to 100 m is answered")
        return wanted, across, None
    asked = read_angle(angle or "")
    if size is not None and teeth is not None:
        return lead_of_gear(teeth, size, asked), gear_diameter(teeth, size, asked), asked
    if across is None:
        raise click.UsageError(NOT_ASKED)
    return lead_from_angle(across, asked), across, asked


def _within(text: str) -> Fraction:
    """Read the tolerance; micrometres are meant over an inch of the lead."""
    return read_within(text, Length.of_inches(1))


def _refused(report: HelixReport, within_text: str) -> int:
    if report.set_aside:
        click.echo(
            f"Trains that are {within_words(within_text)} exist, but none is known to go on: {_why(report)}.", err=True
        )
    else:
        click.echo(f"No train of these wheels is {within_words(within_text)}; the nearest found is shown.", err=True)
    other = "--drive spindle reaches short leads; " if report.question.drive is Drive.WORM else ""
    click.echo(f"{other}a larger --within, more --pairs or another wheel may help.", err=True)
    return 1


def _why(report: HelixReport) -> str:
    faults = report.set_aside[0].faults
    return faults[0] if faults else "the wheels foul one another"
