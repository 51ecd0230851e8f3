"""``instrument``: what a screw and wheel read, how that drifts, and what gives a wanted reading."""

from __future__ import annotations

from dataclasses import replace

import click

from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import chosen_lathe, force_option, json_option, lathe_option, read_engaged, remark_assumed
from cli.sizes import optional_size
from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch
from solver.quantities.written_errors import read_progressive_error
from solver.quantities.written_pitches import read_pitch
from solver.quantities.written_warmth import read_kelvins
from solver.refusals import UnreadableFigureError
from solver.trains.lathe import Lathe
from solver.trains.train_search import TrainQuestion, search_trains
from solver.worms.wanted_reading import (
    MOST_COUNTED,
    ScrewChoice,
    WholeCount,
    marks_for,
    screws_for_mark,
    screws_for_turn,
    teeth_for,
)

#: Travel over which the error is told.
USUAL_TRAVEL = Length.of_mm(100)
NOTHING_ASKED = "Give the --pitch with --marks or --teeth, or one reading wanted: --per-mark or --per-turn."


@click.command("instrument", short_help="A screw and wheel that measure: reading per mark, tooth and turn.")
@click.option("--pitch", metavar="PITCH", help="Of the screw, with its unit and starts: 0.5mm, 40tpi, '2mm 2 starts'.")
@click.option(
    "--teeth", type=click.IntRange(2, MOST_COUNTED), metavar="TEETH", help="Teeth of the wheel that the screw turns."
)
@click.option("--marks", type=click.IntRange(2, MOST_COUNTED), metavar="N", help="Marks round the dial on the screw.")
@click.option("--per-mark", metavar="LENGTH", help="Wanted travel for one mark of the dial.")
@click.option("--per-turn", metavar="LENGTH", help="Wanted travel for one turn of the wheel.")
@click.option("--travel", metavar="LENGTH", help="Over which the error adds up. [default: 100 mm]")
@click.option(
    "--leadscrew-error",
    metavar="ERROR",
    help="Measured on the leadscrew, plus when it is too long: '-0.02 mm in 150 mm', '40 ppm'. "
    "[default: what the lathe file says]",
)
@click.option(
    "--warmer", metavar="KELVINS", help="Steel screw so much warmer than 20 °C, at which lengths hold: '5 K', '-3 K'."
)
@lathe_option
@sheet_option
@force_option
@json_option
def command(
    *,
    pitch: str | None,
    teeth: int | None,
    marks: int | None,
    per_mark: str | None,
    per_turn: str | None,
    travel: str | None,
    leadscrew_error: str | None,
    warmer: str | None,
    lathe_word: str | None,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Give what a screw and wheel read, or the pitch, marks or teeth for a wanted reading.

    With a pitch, marks and teeth the reading is told. Leave one of them out and give the reading wanted: marks
    for --per-mark, teeth for --per-turn; without the pitch, pitches that this lathe cuts exactly come first.

    \b
    Example:
      halfnut instrument --pitch 0.5mm --marks 50 --teeth 100 --travel 150mm
      halfnut instrument --pitch 10tpi --per-mark 0.02mm
      halfnut instrument --per-mark 0.01mm --lathe inch-8
      halfnut instrument --pitch 0.5mm --marks 50 --travel 150mm --warmer "5 K"
    """
    _refuse_idle(pitch, teeth, marks, per_mark, per_turn, travel)
    if pitch is None and sheet_to:
        raise click.UsageError("--sheet is for a screw that is chosen: give its --pitch too.")
    refuse_sheet(sheet_to, force=force)
    if pitch is None and warmer is not None:
        raise click.UsageError("--warmer has no part in choosing a screw: give its --pitch too.")
    kelvins = read_kelvins(warmer) if warmer is not None else None
    length = read_engaged(travel) if travel is not None else USUAL_TRAVEL
    mark_wanted, turn_wanted = optional_size(per_mark, "a reading"), optional_size(per_turn, "a reading")
    lathe, assumed = chosen_lathe(lathe_word)
    if leadscrew_error is not None:
        lathe = replace(lathe, measured=read_progressive_error(leadscrew_error), measured_text=leadscrew_error.strip())
    if pitch is None:
        wanted = mark_wanted or turn_wanted
        if wanted is None:
            raise click.UsageError(NOTHING_ASKED)
        search, count = (screws_for_mark, marks) if mark_wanted is not None else (screws_for_turn, teeth)
        choices = search(wanted, lathe, count)
        remark_assumed("lathe", lathe.name, assumed=assumed)
        return _show_choices(choices, wanted, lathe, as_json=as_json, is_mark=mark_wanted is not None)
    asked = read_pitch(pitch)
    solved = _solved(asked, mark_wanted, turn_wanted)
    marks = solved["marks"].number if "marks" in solved else marks
    teeth = solved["teeth"].number if "teeth" in solved else teeth
    report = search_trains(TrainQuestion(asked.lead), lathe)
    remark_assumed("lathe", lathe.name, assumed=assumed)
    from cli.views import instrument_screen

    reading = instrument_screen.Reading(asked, marks, teeth, solved, lathe, report, length, kelvins)
    if sheet_to and report.answers:
        from cli.views.sheets.instrument_cards import instrument_card

        write_card(instrument_card(reading), sheet_to)
    elif sheet_to:
        click.echo("No sheet is written: no train answers.", err=True)
    if as_json:
        click.echo(instrument_screen.reading_json(reading))
    else:
        instrument_screen.show_reading(reading)
    return _status(solved, has_train=bool(report.answers))


def _refuse_idle(
    pitch: str | None,
    teeth: int | None,
    marks: int | None,
    per_mark: str | None,
    per_turn: str | None,
    travel: str | None,
) -> None:
    """Refuse what asks for nothing, and what is given and asked for at once."""
    if pitch is None:
        if travel is not None:
            raise click.UsageError("--travel has no part in choosing a screw: give its --pitch too.")
        if (per_mark is None) == (per_turn is None):
            raise click.UsageError(NOTHING_ASKED)
        if per_mark is not None and teeth is not None:
            raise click.UsageError("--teeth has no part in --per-mark: leave it out, or give the --pitch too.")
        if per_turn is not None and marks is not None:
            raise click.UsageError("--marks has no part in --per-turn: leave it out, or give the --pitch too.")
        return
    if not (teeth or marks or per_mark or per_turn):
        raise click.UsageError("Give --marks, --teeth, or a reading wanted: --per-mark or --per-turn.")
    if marks is not None and per_mark is not None:
        raise click.UsageError("--pitch and --marks fix what a mark reads: leave out --per-mark or one of them.")
    if teeth is not None and per_turn is not None:
        raise click.UsageError("--pitch and --teeth fix what a turn reads: leave out --per-turn or one of them.")


def _solved(asked: Pitch, mark_wanted: Length | None, turn_wanted: Length | None) -> dict[str, WholeCount]:
    """Solve for marks and for teeth, where their readings are wanted."""
    solved: dict[str, WholeCount] = {}
    if mark_wanted is None and turn_wanted is None:
        return solved
    if not isinstance(asked.pitch, Length):
        raise UnreadableFigureError(str(asked), 0, "whole marks need a screw whose pitch is in mm, in or tpi")
    if mark_wanted is not None:
        solved["marks"] = marks_for(mark_wanted, asked.pitch * asked.starts)
    if turn_wanted is not None:
        solved["teeth"] = teeth_for(turn_wanted, asked.pitch)
    return solved


def _show_choices(choices: list[ScrewChoice], wanted: Length, lathe: Lathe, *, as_json: bool, is_mark: bool) -> int:
    from cli.views import instrument_screen

    if as_json:
        click.echo(instrument_screen.choices_json(choices, wanted, lathe, is_mark=is_mark))
    else:
        instrument_screen.show_choices(choices, wanted, lathe, is_mark=is_mark)
    if choices[0].train is not None:
        return 0
    click.echo("This lathe cuts none of these pitches within 1000 ppm; 'halfnut reach' names a wheel to add.", err=True)
    return 1


def _status(solved: dict[str, WholeCount], *, has_train: bool) -> int:
    """Say what is not exact, or not cut, and leave with the status for it."""
    for word, found in solved.items():
        if not found.is_exact:
            click.echo(f"No whole number of {word} gives that reading; the nearest is shown.", err=True)
    if not has_train:
        click.echo("This lathe cuts no such screw within 1000 ppm; 'halfnut reach' names a wheel to add.", err=True)
    return 0 if has_train and all(found.is_exact for found in solved.values()) else 1
