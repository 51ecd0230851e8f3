"""``train``: the wheels to mount for a thread."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from cli.drawing_words import chosen_hand
from cli.fit_option import fit_option, read_fit
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import (
    chosen_lathe,
    draw_option,
    draw_set_up,
    force_option,
    hand_option,
    json_option,
    lathe_option,
    length_option,
    pairs_option,
    read_allowance,
    read_engaged,
    read_mounted,
    refuse_drawing,
    remark_assumed,
    remark_cut_short,
    with_lever,
    within_option,
    within_words,
)
from gearsets.designations import read_lead_wanted, written_class
from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch
from solver.quantities.written_errors import read_within
from solver.quantities.written_pitches import pitch_with_starts
from solver.trains.fit_tolerance import FitTolerance
from solver.trains.lathe import Lathe
from solver.trains.train_search import TrainQuestion, TrainReport, nominally_exact, search_trains
from solver.trains.warmth import COUNTS_FROM

if TYPE_CHECKING:
    from gearsets.thread_tables import SeriesThread
    from solver.trains.lathe import Lathe


@click.command("train", short_help="Wheels to mount for a thread, with error, mounting and half-nut.")
@click.argument("pitch")
@lathe_option
@within_option
@length_option
@fit_option
@pairs_option
@hand_option
@click.option(
    "--starts", type=click.IntRange(1, 99), metavar="N", help="Starts of the thread; the lead is so many pitches."
)
@click.option(
    "--answers",
    "wanted",
    type=click.IntRange(1, 50),
    metavar="N",
    default=3,
    show_default=True,
    help="Answers for each number of pairs.",
)
@click.option("--lever", metavar="NAME", help="Leave the gearbox in this position.")
@click.option(
    "--mounted",
    "mounted_text",
    metavar="TRAIN",
    help="What is on the banjo now, as 20/40 50/127 or 20-40-50-127: trains that keep its wheels come first.",
)
@click.option(
    "--allow",
    "allow_text",
    metavar="ERROR",
    help="Cut the lead long (+) or short (-) on purpose: '+1500 ppm', or '0.02 mm in 25 mm'.",
)
@draw_option
@sheet_option
@force_option
@click.option("--placings", is_flag=True, help="Show every distinct placing of the first train and why it fits or not.")
@json_option
def command(
    *,
    pitch: str,
    lathe_word: str | None,
    within_text: str,
    length_text: str,
    fit_text: str | None,
    most_pairs: int,
    hand_word: str,
    starts: int | None,
    wanted: int,
    lever: str | None,
    mounted_text: str | None,
    allow_text: str | None,
    draw_to: str | None,
    sheet_to: str | None,
    force: bool,
    placings: bool,
    as_json: bool,
) -> int:
    """Give the wheels to mount for PITCH: a pitch with its unit, or a thread designation.

    \b
    Example:
      halfnut train 1.25mm --lathe inch-8
      halfnut train "module 0.5" --within "100 ppm" --length "20 mm"
      halfnut train 1.5mm --mounted 20/40 50/127
      halfnut train "Tr 16x4, 2 starts" --lathe metric-3
    """
    asked, thread = read_lead_wanted(pitch)
    hand = chosen_hand(hand_word, pitch)
    if starts is not None:
        asked = _with_starts(pitch, asked, starts)
    lathe, assumed = chosen_lathe(lathe_word)
    if lever is not None:
        lathe = with_lever(lathe, lever)
    engaged = read_engaged(length_text)
    is_long = engaged >= COUNTS_FROM
    aim = asked.lead * (1 + read_allowance(allow_text)) if allow_text else asked.lead
    mounted = read_mounted(mounted_text, lathe)
    tolerance = read_fit(fit_text, asked, thread, written_class(pitch) if thread else "")
    refuse_sheet(sheet_to, force=force, drawing=draw_to)
    if draw_to:
        refuse_drawing(draw_to, force=force)
    question = TrainQuestion(aim, hand, most_pairs, read_within(within_text, engaged), wanted, mounted)
    report = search_trains(question, lathe)
    remark_assumed("lathe", lathe.name, assumed=assumed)
    remark_cut_short(report)
    if draw_to:
        first = next(iter(report.answers), report.nearest)
        if first is None:
            click.echo("Nothing is drawn: no train can be made of these wheels.", err=True)
        else:
            draw_set_up(first, lathe, draw_to)
    if sheet_to and report.answers:
        from cli.views.sheets.train_cards import TrainSetUp, train_card

        set_up = TrainSetUp(asked, thread, lathe, question, report.answers[0], engaged, tolerance, is_long)
        write_card(train_card(set_up), sheet_to)
    elif sheet_to:
        click.echo("No sheet is written: no train answers.", err=True)
    if as_json:
        click.echo(_json(asked, lathe, report, thread, engaged, tolerance))
    else:
        from cli.views.train_screen import show_trains

        show_trains(
            asked,
            thread,
            lathe,
            report,
            engaged,
            tolerance=tolerance,
            placings=placings,
            with_warmth=is_long,
        )
    return 0 if report.answers else _refused(report, lathe, within_text)


def _with_starts(text: str, asked: Pitch, starts: int) -> Pitch:
    if asked.starts not in (1, starts):
        raise click.UsageError(f"The pitch says {asked.starts} starts and --starts says {starts}.")
    return pitch_with_starts(text, asked, starts)


def _refused(report: TrainReport, lathe: Lathe, within_text: str) -> int:
    aside = [answer for answer in report.set_aside if abs(answer.error.relative) <= report.question.within]
    if aside:
        reason = aside[0].mounting.reasons[0]
        click.echo(f"Trains that are {within_words(within_text)} exist, but none is known to fit: {reason}.", err=True)
    else:
        click.echo(f"No train of these wheels is {within_words(within_text)}; the nearest found is shown.", err=True)
        plain = nominally_exact(report.question, lathe)
        if plain is not None:
            from cli.views.banjo_sketch import set_up_text
            from cli.views.shop_figures import error_words

            click.echo(
                f"The leadscrew is measured {lathe.measured_text}; {set_up_text(plain.train, plain.idlers)} would be "
                f"exact on a true one and is {error_words(plain.error)} on this.",
                err=True,
            )
    click.echo(
        "'halfnut reach' names the one wheel that would help; a larger --within or more --pairs may too.", err=True
    )
    return 1


def _json(
    asked: Pitch,
    lathe: Lathe,
    report: TrainReport,
    thread: SeriesThread | None,
    engaged: Length,
    tolerance: FitTolerance | None,
) -> str:
    from cli.views import answer_json
    from cli.views.picking_up_json import picking_up
    from cli.views.warmth_text import growth_json
    from gearsets.special_sizes import outside_remark

    first = next(iter(report.answers), None)
    plain = nominally_exact(report.question, lathe)
    return answer_json.as_text(
        {
            "asked": {
                **answer_json.asked_lead(asked.lead),
                "written": str(asked),
                "thread": thread.designation if thread else None,
                "remark": outside_remark(thread) or None,
                "hand": report.question.hand.value,
                "within_ppm": f"{report.question.within * 1_000_000}",
                "aim": answer_json.asked_lead(report.question.lead),
                "mounted": str(report.question.mounted) if report.question.mounted else None,
            },
            "lathe": lathe.name,
            "answers": [answer_json.train_answer(answer, report.question.mounted) for answer in report.answers],
            "half_nut": answer_json.half_nut(first) if first else None,
            "warmth": growth_json(engaged),
            **picking_up(asked, first, lathe, engaged, tolerance),
            "cut_short": list(report.cut_short),
            "set_aside": [answer_json.train_answer(answer) for answer in report.set_aside],
            "least_changed": answer_json.train_answer(report.least_changed, report.question.mounted)
            if report.least_changed
            else None,
            "nearest": answer_json.train_answer(report.nearest) if report.nearest else None,
            "nominally_exact": answer_json.train_answer(plain) if plain else None,
        }
    )
