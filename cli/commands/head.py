"""``head``: list, show, check, and describe your own dividing head or rotary table."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

import click

from cli.commands.asking import ask, ask_optional, read_name, read_run, read_wheels
from cli.commands.equipment import Kind, equipment_group
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import force_option, json_option
from gearsets.head_files import (
    FEWEST_HOLES,
    HEADS,
    MOST_HOLES,
    find_head,
    head_toml,
    load_head,
    read_plate_direction,
)
from solver.dividing.heads import Head, Plate
from solver.dividing.plate_gearing import AGAINST, FOLLOWS
from solver.quantities.angles import Angle
from solver.quantities.figure_reader import FigureReader
from solver.quantities.written_angles import read_angle
from solver.quantities.written_lengths import read_ratio

CIRCLES_HELP = "Write for example: 15 16 17, or 15 to 20 by 1"


def _ask_head() -> Head:
    click.echo("A few questions about your head. Ctrl-C leaves without writing.", err=True)
    name = ask("A name for it", read_name, usual="My head")
    click.echo("Count the ratio rather than trust it: mark the spindle, crank one full round of the work.", err=True)
    ratio = ask("Crank turns for one turn of the work, or none without a worm", _read_worm, usual="40")
    if ratio is None:
        circles = ask("Holes that lock the spindle, as 36", _read_circles)
        return Head(name, Fraction(1), (), circles, has_worm=False, pin_places=_ask_pin_places())
    plates: list[Plate] = []
    while True:
        label = chr(ord("A") + len(plates))
        faces = ask_optional(
            f"Plate {label}: its circles, as 15 16 17 or 15 to 20 by 1; a second face after a slash", _read_faces
        )
        if faces is None:
            break
        plates.append(Plate(label, faces))
    direct = ask_optional("Holes that lock the spindle itself, as 24", _read_circles)
    wheels = ask_optional("Change wheels of the head, as 24 x2, 28, 32", read_wheels)
    follows = (
        ask_optional(
            f"Two wheels and one idler on: the plate {FOLLOWS} the crank, or {AGAINST} it", read_plate_direction
        )
        if wheels
        else None
    )
    reading = ask_optional("Smallest angle its dial reads, vernier included, as 1 min", _dial_reader(ratio))
    return Head(
        name,
        ratio,
        tuple(plates),
        direct or (),
        wheels or (),
        dial_reading=reading,
        one_idler_follows=follows,
    )


def _read_worm(text: str) -> Fraction | None:
    return None if text.strip().lower() == "none" else read_ratio(text)


def _dial_reader(ratio: Fraction) -> Callable[[str], Angle]:
    """Take a smallest reading that fills one turn of the handle, as the file must hold it."""

    def read(text: str) -> Angle:
        reading = read_angle(text)
        if reading.turns == 0 or (1 / (ratio * reading.turns)).denominator != 1:
            raise click.UsageError(
                f"One turn of the handle is {360 / ratio}°, which is no whole number of such divisions; count again."
            )
        return reading

    return read


def _ask_pin_places() -> int | None:
    places = ask_optional("Places of the pin that part one space of those holes, as 10", _read_circles)
    return None if places is None else places[0]


def _read_faces(text: str) -> tuple[tuple[int, ...], ...]:
    return tuple(_read_circles(part) for part in text.split("/"))


def _read_circles(text: str) -> tuple[int, ...]:
    reader = FigureReader(text, CIRCLES_HELP)
    circles: list[int] = []
    while not reader.is_done():
        run, word = read_run(reader, _holes)
        if word:
            raise reader.refuse(f"{word[:20]!r} is not read here")
        circles.extend(run)
        reader.skip_spaces()
        if reader.peek() == ",":
            reader.at += 1
            reader.skip_spaces()
    return tuple(circles)


def _holes(reader: FigureReader) -> int:
    at = reader.at
    circle = reader.whole()
    if not FEWEST_HOLES <= circle <= MOST_HOLES:
        raise reader.refuse(f"a circle has {FEWEST_HOLES} to {MOST_HOLES} holes", at=at)
    return circle


def _show(head: Head) -> None:
    from cli.views.equipment_screen import show_head

    show_head(head)


def _show_all(heads: Sequence[tuple[str, Head]]) -> None:
    from cli.views.equipment_screen import show_heads

    show_heads(heads)


command = equipment_group(
    Kind(
        HEADS,
        "dividing heads and rotary tables",
        "head-40-three-plates",
        "divide 28",
        find_head,
        load_head,
        head_toml,
        show=_show,
        show_all=_show_all,
        question=_ask_head,
        stem=lambda _: "my-head",
    )
)


@command.command("covers")
@click.argument("head_word", metavar="NAME|FILE")
@click.option(
    "--to",
    "most",
    type=click.IntRange(1, 2000),
    default=200,
    show_default=True,
    metavar="N",
    help="Last count looked at.",
)
@sheet_option
@force_option
@json_option
def covers(*, head_word: str, most: int, sheet_to: str | None, force: bool, as_json: bool) -> None:
    """Say which counts a head divides exactly, by which methods, and which by one of them alone.

    With --sheet a chart of the settings is written too, to print and hang up.

    \b
    Example:
      halfnut head covers head-40-three-plates --to 400
    """
    refuse_sheet(sheet_to, force=force)
    from cli.views.equipment_screen import coverage_json, show_coverage
    from solver.dividing.choosing import exact_methods

    head = find_head(head_word)
    methods = {count: tuple(exact_methods(head, count)) for count in range(1, most + 1)}
    if sheet_to:
        from cli.views.sheets.wall_charts import count_chart

        write_card(count_chart(head, methods), sheet_to)
    if as_json:
        click.echo(coverage_json(head, methods))
    else:
        show_coverage(head, methods)
