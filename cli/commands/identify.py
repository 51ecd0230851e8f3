"""``identify``: which standard pitches a measured length can be."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from cli.shop_options import json_option
from solver.quantities.figure_reader import FigureReader
from solver.quantities.written_lengths import read_micrometres
from solver.quantities.written_measurements import Measurement, read_measurement

if TYPE_CHECKING:
    from fractions import Fraction

    from gearsets.thread_tables import SeriesThread
    from solver.quantities.lengths import Length
    from solver.trains.identify import Identification


@click.command("identify", short_help="Which standard pitches a measured length can be.")
@click.argument("measured", nargs=-1, required=True, metavar="MEASURED")
@click.option(
    "--give-or-take",
    "give_or_take_text",
    metavar="LENGTH",
    help="How far the measured length may be wrong, either way. "
    "[default: half the last digit written, 0.05 mm at least]",
)
@click.option(
    "--kind",
    type=click.Choice(["thread", "rack", "all"]),
    help="What was measured: a thread; a rack, worm or gear (modules, DPs, circular pitches); or not known. "
    "[default: all, with --major thread]",
)
@click.option("--major", "major_text", metavar="LENGTH", help="Measured outside diameter, to find the thread by both.")
@click.option(
    "--answers",
    type=click.IntRange(1, 100),
    metavar="N",
    default=8,
    show_default=True,
    help="Most pitches listed; all that fit count first.",
)
@json_option
def command(
    *,
    measured: tuple[str, ...],
    give_or_take_text: str | None,
    kind: str | None,
    major_text: str | None,
    answers: int,
    as_json: bool,
) -> int:
    """Rank standard pitches against a measured length, and say which of them it cannot tell apart.

    MEASURED is a length, or a length over so many pitches. The exit status is 1 when no pitch fits.

    \b
    Example:
      halfnut identify "0.180in / 5" --kind thread
      halfnut identify 12.7 mm over 10 --give-or-take 0.1mm
      halfnut identify 10 mm / 10 --major 5.9mm
    """
    from gearsets.pitch_lists import known_pitches
    from solver.trains.identify import identify, miscounted

    give_or_take = _read_give_or_take(give_or_take_text) if give_or_take_text else None
    reading = _read("MEASURED", " ".join(measured), give_or_take)
    major = _read("--major", major_text, None) if major_text else None
    if major is not None and (kind == "rack" or major.pitches != 1):
        raise click.UsageError("--major is the outside diameter of a thread: one length, and not with --kind rack.")
    kind = kind or ("thread" if major is not None else "all")
    known = known_pitches(kind)
    found = identify(reading, known)
    again = () if found.fitting else miscounted(reading, known)
    threads = _threads(found, major) if major is not None else ((), ())
    from cli.views import identify_screen

    if as_json:
        click.echo(identify_screen.identification_json(found, again, kind, major, threads, answers))
    else:
        identify_screen.show_identification(
            found, again, kind, major, threads, answers, is_told=give_or_take_text is not None
        )
    return 0 if found.fitting else 1


def _read_give_or_take(text: str) -> Length:
    length = read_micrometres(text)
    if length.mm == 0:
        raise FigureReader(text).refuse(
            "no measurement is without doubt", at=0, help_text="Write for example 0.1 mm or 2 thou."
        )
    return length


def _read(name: str, text: str, give_or_take: Length | None) -> Measurement:
    reading = read_measurement(text, give_or_take)
    if reading.give_or_take >= reading.length:
        raise click.UsageError(
            f"{name} is no longer than it may be wrong: measure over more pitches, or give --give-or-take."
        )
    return reading


def _threads(found: Identification, major: Measurement) -> tuple[tuple[SeriesThread, ...], tuple[SeriesThread, ...]]:
    """Return the threads that fit by diameter and pitch, and those that fit by diameter alone, nearest first."""
    from gearsets.pitch_lists import threads_with_diameter
    from solver.quantities.lengths import Length
    from solver.trains.identify import major_may_be

    fitting = {match.known.pitch for match in found.fitting}
    both, diameter_alone = [], []
    for thread in threads_with_diameter():
        pitch = thread.pitch.pitch
        if not isinstance(pitch, Length) or thread.diameter is None:
            continue
        if major_may_be(thread.diameter, pitch, major.length, major.give_or_take):
            off = abs((thread.diameter - major.length).mm), abs((pitch - found.measured.pitch).mm)
            if pitch in fitting:
                both.append((off[0], off[1], thread))
            else:
                diameter_alone.append((off[1], off[0], thread))
    return _nearest_first(both), _nearest_first(diameter_alone)


def _nearest_first(rows: list[tuple[Fraction, Fraction, SeriesThread]]) -> tuple[SeriesThread, ...]:
    return tuple(thread for *_, thread in sorted(rows, key=lambda row: (row[0], row[1], row[2].designation)))
