"""``counts``: tooth counts for a wanted ratio or period, of those a person can divide and cut."""

from __future__ import annotations

from fractions import Fraction

import click

from cli.sheet_files import refuse_sheet, sheet_option, write_sheet
from cli.shop_options import (
    chosen_head,
    force_option,
    head_option,
    json_option,
    pairs_option,
    remark_assumed,
    within_words,
)
from gearsets.period_tables import find_period
from solver.dividing.heads import Head
from solver.dividing.moves import Method
from solver.quantities.angles import Angle
from solver.quantities.figure_reader import FigureReader
from solver.quantities.written_angles import read_angle
from solver.quantities.written_errors import says_exact
from solver.quantities.written_lengths import read_length
from solver.wheelwork.arbors import Sense
from solver.wheelwork.counts_search import MOST_PAIRS, CountsQuestion, CountsReport, search_counts
from solver.wheelwork.drift import DAYS_PER_YEAR, WantedTurning
from solver.wheelwork.periods import read_period
from solver.wheelwork.tooth_cutting import SET_BEGINS, SpurTooth, clean_from, read_cutters, read_spur_tooth
from solver.wheelwork.wheel_limits import EXACT_METHODS, WheelLimits, allowed_counts
from solver.wheelwork.written_ratios import read_turning_ratio

#: Largest wheel where none is given. [teeth]
USUAL_LARGEST = 120
#: So many pairs of more counts than this are worth a word before they are looked for; fewer on one centre distance.
LONG_PAIRS, LONG_IN_LINE, LONG_COUNTS = 4, 3, 60


@click.command("counts", short_help="Tooth counts for a wanted ratio or period: sky models, clocks.")
@click.argument("ratio_text", metavar="[RATIO]", required=False)
@click.option("--from", "first_text", metavar="PERIOD", help="One turn of the first arbor: '1 day', 'tropical year'.")
@click.option("--to", "last_text", metavar="PERIOD", help="One turn of the last arbor: 'synodic month', '12 h'.")
@pairs_option
@click.option(
    "--within",
    "within_text",
    default="10 ppm",
    show_default=True,
    metavar="ERROR",
    help="Error you can live with: '10 ppm', or a time a year, '5 min'. The fewest wheels within it are told in full.",
)
@click.option(
    "--sense",
    "sense_word",
    type=click.Choice([sense.value for sense in Sense]),
    help="The last arbor must turn the same way as the first, or the opposite. [default: as it comes]",
)
@click.option("--smallest", metavar="TEETH|DIAMETER", help=f"Smallest wheel. [default: {SET_BEGINS} teeth]")
@click.option("--largest", metavar="TEETH|DIAMETER", help=f"Largest wheel. [default: {USUAL_LARGEST} teeth]")
@head_option
@click.option(
    "--method",
    "method_words",
    multiple=True,
    type=click.Choice([method.value for method in EXACT_METHODS]),
    help="Only counts divided exactly so; may be given several times. [default: any of them]",
)
@click.option("--any-count", is_flag=True, help="Take counts whether a head divides them or not.")
@click.option("--size", "size_text", metavar="SIZE", help="Size of tooth: 'module 0.5' or '48 DP'.")
@click.option(
    "--cutters", "cutters_text", metavar="NUMBERS", help="With --size: cutters you have of the set, as 2-6,8."
)
@click.option("--no-undercut", is_flag=True, help="Leave out counts that a straight-flanked tool would undercut.")
@click.option("--flank", "flank_text", metavar="ANGLE", help="Pressure angle. [default: 20 deg; 14.5 deg with a DP]")
@click.option("--in-line", is_flag=True, help="All pairs on one centre distance: the train comes back in line.")
@click.option(
    "--answers",
    "most",
    type=click.IntRange(1, 20),
    metavar="N",
    default=3,
    show_default=True,
    help="Trains of each number of pairs.",
)
@click.option("--list-periods", is_flag=True, help="List the periods that have a name, and stop.")
@sheet_option
@force_option
@json_option
def command(
    *,
    ratio_text: str | None,
    first_text: str | None,
    last_text: str | None,
    most_pairs: int,
    within_text: str,
    sense_word: str | None,
    smallest: str | None,
    largest: str | None,
    head_word: str | None,
    method_words: tuple[str, ...],
    any_count: bool,
    size_text: str | None,
    cutters_text: str | None,
    no_undercut: bool,
    flank_text: str | None,
    in_line: bool,
    most: int,
    list_periods: bool,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Find tooth counts for a RATIO, or for the periods of two arbors, of wheels you can divide and cut.

    RATIO is turns of the last arbor for one turn of the first.

    \b
    Example:
      halfnut counts --from "1 day" --to "synodic month" --size "module 0.5"
      halfnut counts 12/365.2422 --largest 100 --method plain
      halfnut counts 1/12 --in-line --sense same --no-undercut
      halfnut counts 29.530589 --from "365.2422 days"
    """
    refuse_sheet(sheet_to, force=force)
    if list_periods:
        if as_json:
            from cli.views.counts_json import periods_json

            click.echo(periods_json())
        else:
            from cli.views.counts_screen import show_periods

            show_periods()
        return 0
    wanted = _wanted(ratio_text, first_text, last_text)
    within = read_drift(within_text)
    tooth = None if size_text is None else read_spur_tooth(size_text)
    head, assumed = _head(head_word, method_words, any_count=any_count)
    limits = WheelLimits(
        _teeth(smallest, tooth, "--smallest", SET_BEGINS),
        _teeth(largest, tooth, "--largest", USUAL_LARGEST),
        head,
        tuple(Method(word) for word in method_words),
        tooth,
        _cutters(cutters_text, tooth),
        clean_from(_flank(flank_text, tooth)) if no_undercut else None,
    )
    allowed = allowed_counts(limits)
    sense = None if sense_word is None else Sense(sense_word)
    question = CountsQuestion(wanted, allowed, most_pairs, most, sense, in_line)
    if most_pairs >= (LONG_IN_LINE if in_line else LONG_PAIRS) and len(allowed.counts) > LONG_COUNTS:
        click.echo(f"Looking through trains of up to {most_pairs} pairs of {len(allowed.counts)} counts …", err=True)
    report = search_counts(question)
    if head is not None:
        remark_assumed("head", head.name, assumed=assumed)
    from cli.views import counts_json, counts_screen

    flank = _flank(flank_text, tooth)
    if sheet_to:
        from cli.views.sheets.counts_cards import counts_sheet

        write_sheet(counts_sheet(report, limits, within, clean_from(flank), within_text.strip()), sheet_to)
    if as_json:
        click.echo(counts_json.counts_json(report, limits, within))
    else:
        counts_screen.show_counts(report, limits, within, clean_from(flank), within_text.strip())
    if report.within(within) is not None:
        return 0
    click.echo(_not_within(report, within_text), err=True)
    return 1


def _wanted(ratio_text: str | None, first_text: str | None, last_text: str | None) -> WantedTurning:
    """Read the ratio, or the periods, or a ratio with one period."""
    first = None if first_text is None else find_period(first_text)
    last = None if last_text is None else find_period(last_text)
    if ratio_text is None:
        if first is None or last is None:
            raise click.UsageError("Give a RATIO, or both --from and --to; halfnut counts --help shows examples.")
        return WantedTurning.of_periods(first, last)
    if first is not None and last is not None:
        raise click.UsageError("--from and --to make the ratio: leave RATIO out, or one of the two.")
    written = read_turning_ratio(ratio_text)
    if first is not None:
        return WantedTurning.from_first(written, first)
    if last is not None:
        return WantedTurning.from_last(written, last)
    return WantedTurning(written.ratio, give=written.give)


def read_drift(text: str) -> Fraction:
    """Read an error to live with as a part of the ratio: ``10 ppm``, ``0.01 %``, ``exact``, or a time a year.

    Examples
    --------
    >>> read_drift("10 ppm"), read_drift("6 h")
    (Fraction(1, 100000), Fraction(1, 1461))
    """
    if says_exact(text):
        return Fraction(0)
    reader = FigureReader(text)
    figure = reader.decimal()
    reader.skip_spaces()
    if reader.peek() == "%":
        reader.at += 1
        reader.finish()
        return figure / 100
    if reader.word().lower() == "ppm":
        reader.finish()
        return figure / 1_000_000
    return read_period(text, {}).days / DAYS_PER_YEAR


def _head(word: str | None, methods: tuple[str, ...], *, any_count: bool) -> tuple[Head | None, bool]:
    if any_count:
        if word is not None or methods:
            raise click.UsageError("--any-count leaves the head out: give it, or --head and --method.")
        return None, False
    return chosen_head(word)


def _teeth(text: str | None, tooth: SpurTooth | None, option: str, usual: int) -> int:
    """Read the bound of a wheel: teeth, or an outside diameter where the size of tooth is known."""
    if text is None:
        return usual
    bare = text.strip()
    if bare.isascii() and bare.isdigit() and len(bare) <= 6:
        return int(bare)
    length = read_length(text)
    if tooth is None:
        raise click.UsageError(f"{option} as a diameter needs the size of tooth: give --size, or a number of teeth.")
    return tooth.fewest_teeth(length) if option == "--smallest" else tooth.most_teeth(length)


def _cutters(text: str | None, tooth: SpurTooth | None) -> tuple[int, ...] | None:
    if text is None:
        return None
    if tooth is None:
        raise click.UsageError(
            "--cutters needs --size: number 1 cuts 12 teeth in a module set, and a rack in a set of diametral pitches."
        )
    return read_cutters(text)


def _flank(text: str | None, tooth: SpurTooth | None) -> Angle:
    if text is not None:
        return read_angle(text)
    return Angle.of_degrees(20) if tooth is None else tooth.usual_flank


def _not_within(report: CountsReport, within_text: str) -> str:
    most = len(report.by_pairs)
    help_words = ["allow more counts", "a larger wheel"] + ([f"--pairs {most + 1}"] if most < MOST_PAIRS else [])
    many = "one pair" if most == 1 else f"1 to {most} pairs"
    return (
        f"No train of {many} is {within_words(within_text)}; the nearest is shown.\n"
        f"What would help: {', '.join(help_words)}, or a wider --within."
    )
