"""``lathe``: list, show, check, and describe your own."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import click

from cli.commands.asking import ask, ask_optional, read_name, read_wheels
from cli.commands.equipment import Kind, equipment_group
from gearsets.lathe_files import LATHES, find_lathe, lathe_toml, load_lathe
from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length, read_ratio, read_wheel_module
from solver.quantities.written_pitches import read_pitch
from solver.trains.lathe import Banjo, Lathe
from solver.trains.plate_row import lead_at_equal_wheels
from solver.trains.wheels import WheelClass

#: Turns of the stud gear for one of the spindle that lathes are made with.
USUAL_STUD_TURNS = (
    Fraction(1), Fraction(1, 2), Fraction(2), Fraction(1, 3), Fraction(3),
    Fraction(2, 3), Fraction(3, 2), Fraction(1, 4), Fraction(4),
)  # fmt: skip


def _stem(lathe: Lathe) -> str:
    kept = "".join(letter if letter.isascii() and letter.isalnum() else "-" for letter in lathe.name.lower())
    return "-".join(part for part in kept.split("-") if part)[:40] or "lathe"


def _ask_lathe() -> Lathe:
    click.echo("A few questions about your lathe. Figures need their unit; Ctrl-C leaves without writing.", err=True)
    name = ask("A name for it", read_name, usual="My lathe")
    screw_text, screw = ask("Leadscrew, as 8 tpi or 3 mm", _read_screw)
    stud_turns = _ask_stud_turns(screw)
    has_reverse = click.confirm("Is a tumbler or other reverse fitted", default=True, err=True)
    size = ask("Size of the change wheels, as module 1 or 20 DP", _read_size, usual="module 1")
    stock = ask("Which wheels do you have (20 to 120 by 5, 127, 20 x2)", read_wheels)
    wheel_class = WheelClass(size, read_wheel_module(size), stock)
    banjo = _ask_banjo()
    return Lathe(name, screw_text, screw, stud_turns, has_reverse, (wheel_class,), banjo=banjo)


def _read_screw(text: str) -> tuple[str, Length]:
    pitch = read_pitch(text)
    if not isinstance(pitch.lead, Length) or pitch.starts != 1:
        raise click.UsageError("A leadscrew is so many mm, inches or tpi, with one start.")
    return str(pitch), pitch.lead


def _read_size(text: str) -> str:
    read_wheel_module(text)
    return text


def _ask_stud_turns(screw: Length) -> Fraction:
    """Ask for one row of the threading plate, or for the ratio itself."""
    click.echo(
        "How often the stud gear turns for one spindle turn can be learned from one row of the threading plate:",
        err=True,
    )
    while True:
        row = ask_optional("  a row as thread, stud wheel, screw wheel, such as 20 tpi, 40, 100", _read_row)
        if row is None:
            return ask("Stud-gear turns for one spindle turn", read_ratio, usual="1")
        stud_turns = lead_at_equal_wheels(*row) / screw
        click.echo(f"  So the stud gear turns {stud_turns} for one spindle turn.", err=True)
        if stud_turns in USUAL_STUD_TURNS:
            return stud_turns
        question = "  That is unusual. Does the plate row pass through a gearbox or a compound pair"
        if click.confirm(question, default=False, err=True):
            click.echo("  Then it holds only as long as that gearbox position or pair stays.", err=True)
            return stud_turns


def _read_row(text: str) -> tuple[Length, int, int]:
    parts = [part.strip() for part in text.split(",")]
    if len(parts) != 3:
        raise click.UsageError("A row is three figures with commas between: thread, stud wheel, screw wheel.")
    pitch = read_pitch(parts[0])
    if not isinstance(pitch.lead, Length):
        raise click.UsageError("Take a plain thread of the plate, in mm or tpi.")
    stud, screw_wheel = (_wheel(part) for part in parts[1:])
    return pitch.lead, stud, screw_wheel


def _wheel(text: str) -> int:
    reader = FigureReader(text)
    teeth = reader.whole()
    reader.finish()
    if not 5 <= teeth <= 400:
        raise reader.refuse("a change wheel has 5 to 400 teeth", at=0)
    return teeth


def _read_whole(text: str) -> int:
    reader = FigureReader(text)
    number = reader.whole()
    reader.finish()
    return number


def _ask_banjo() -> Banjo | None:
    click.echo("The banjo decides what goes on. Leave out what you have not measured.", err=True)
    studs = ask_optional("How many studs does the banjo carry", _read_whole)
    nut = ask_optional("Largest nut, washer or boss on a stud, as 20 mm", read_length)
    largest = ask_optional("Largest wheel the guard lets in, in teeth", _wheel)
    centres = ask_optional("From the stud-gear axis to the leadscrew axis, as 150 mm", read_length)
    slot = ask_optional("Where a stud can sit, from the leadscrew axis, as 30 mm to 135 mm", _read_span)
    if {studs, nut, largest, centres, slot} == {None}:
        return None
    return Banjo(studs=studs, stud_nut=nut, largest_wheel_teeth=largest, centre_distance=centres, slot=slot)


def _read_span(text: str) -> tuple[Length, Length]:
    ends = [read_length(part) for part in text.split(" to ")]
    if len(ends) != 2 or not ends[0] < ends[1]:
        raise click.UsageError("A slot is two lengths, the shorter first: 30 mm to 135 mm.")
    return ends[0], ends[1]


def _show(lathe: Lathe) -> None:
    from cli.views.equipment_screen import show_lathe

    show_lathe(lathe)


def _show_all(lathes: Sequence[tuple[str, Lathe]]) -> None:
    from cli.views.equipment_screen import show_lathes

    show_lathes(lathes)


command = equipment_group(
    Kind(
        LATHES,
        "lathes",
        "inch-8",
        "train 1.25mm",
        find_lathe,
        load_lathe,
        lathe_toml,
        show=_show,
        show_all=_show_all,
        question=_ask_lathe,
        stem=_stem,
    )
)
