"""``divide``: what to turn on the head for N parts, or for an angle."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import click

from cli.commands.other_equipment import WayAsked, divide_with, way_options
from cli.index_moves import other_ways
from cli.plate_files import drawing_options, picture_of, show_picture, write_drawing
from cli.shop_options import chosen_head, head_option, json_option, remark_assumed
from solver.dividing.divide import MOST_DIVISIONS, DivideReport, divide
from solver.dividing.heads import Head
from solver.dividing.positions import Position, best_circle, positions
from solver.quantities.written_angles import read_angle


@click.command("divide", short_help="Index settings for N parts or an angle.")
@click.argument("divisions", required=False)
@click.option("--angle", "angle_text", metavar="ANGLE", help="An angle instead: 37.5 deg, 37°30', 1/7 turn.")
@head_option
@click.option(
    "--positions",
    "with_positions",
    is_flag=True,
    help="Add the table of positions worked from zero; its error never exceeds half a hole.",
)
@click.option(
    "--moves",
    "move_count",
    type=click.IntRange(1, 5000),
    metavar="N",
    help="With --angle and --positions: how many moves the table walks.",
)
@click.option(
    "--circle",
    type=click.IntRange(2, 10_000),
    metavar="HOLES",
    help="With --positions or a drawing: the circle to use. [default: the one with the least error]",
)
@way_options
@drawing_options
@json_option
def command(
    *,
    divisions: str | None,
    angle_text: str | None,
    head_word: str | None,
    with_positions: bool,
    move_count: int | None,
    circle: int | None,
    way: str | None,
    lathe_word: str | None,
    reads_text: str | None,
    radius_text: str | None,
    drawing: Path | None,
    force: bool,
    with_picture: bool,
    as_json: bool,
) -> int:
    """Give the index settings for DIVISIONS equal parts, or for an angle: direct, plain, else the nearest.

    \b
    Example:
      halfnut divide 28 --head head-40-three-plates
      halfnut divide --angle "37°30'"
      halfnut divide 127 --positions
      halfnut divide 28 --picture
      halfnut divide 127 --with dial --head table-90-dial --radius "63.5 mm"
    """
    count, part = _asked(divisions, angle_text)
    asked_way = WayAsked(way, head_word, lathe_word, reads_text, radius_text)
    asked_way.refuse_idle()
    is_drawn = drawing is not None or with_picture
    if force and drawing is None:
        raise click.UsageError("--force replaces a drawing: give --draw too.")
    if with_picture and as_json:
        raise click.UsageError("--picture is for the screen; with --json give --draw.")
    if way is not None:
        if with_positions or is_drawn or circle is not None:
            raise click.UsageError("--positions, --circle, --draw and --picture belong to index plates, not to --with.")
        return divide_with(asked_way, count, part, move_count, as_json=as_json)
    _refuse_idle(count, move_count, None if is_drawn else circle, with_positions=with_positions)
    head, assumed = chosen_head(head_word)
    report = divide(head, part)
    table = _positions(head, part, count or move_count or part.denominator, circle) if with_positions else None
    picture = (
        picture_of(report.answers if head.has_worm else (), _title(count, part), head.name, circle)
        if is_drawn
        else None
    )
    remark_assumed("head", head.name, assumed=assumed)
    from cli.views import divide_screen

    if as_json:
        click.echo(divide_screen.divide_json(count, head, report, table))
    else:
        divide_screen.show_divide(count, head, report, table)
        if picture is not None and with_picture:
            show_picture(picture)
    if picture is not None and drawing is not None:
        write_drawing(picture, drawing, force=force)
    if report.is_exact:
        return 0
    click.echo(_what_would_help(count, head, report), err=True)
    return 1


def _title(count: int | None, part: Fraction) -> str:
    return f"{count} divisions" if count else f"{part} turn"


def _asked(divisions: str | None, angle_text: str | None) -> tuple[int | None, Fraction]:
    if (divisions is None) == (angle_text is None):
        raise click.UsageError("Give a number of divisions, or --angle; one of the two.")
    if angle_text is not None:
        turns = read_angle(angle_text).turns
        if not 0 < turns <= 1:
            raise click.UsageError(
                f"--angle takes an angle above 0 and at most 360 deg, not {angle_text.strip()[:40]!r}."
            )
        return None, turns
    text = (divisions or "").strip()
    if not (text.isascii() and text.isdigit() and len(text) <= len(str(MOST_DIVISIONS))):
        raise click.UsageError(
            f"{text[:40]!r} is not a number of divisions. Write a whole number such as 28; angles go with --angle."
        )
    if not 1 <= int(text) <= MOST_DIVISIONS:
        raise click.UsageError(f"A round has 1 to {MOST_DIVISIONS} divisions, not {text}.")
    return int(text), Fraction(1, int(text))


def _refuse_idle(count: int | None, move_count: int | None, circle: int | None, *, with_positions: bool) -> None:
    """Refuse options that would do nothing."""
    if circle is not None and not with_positions:
        raise click.UsageError("--circle chooses the circle of the table of positions: give --positions too.")
    if move_count is not None and not with_positions:
        raise click.UsageError("--moves is the length of the table of positions: give --positions too.")
    if move_count is not None and count is not None:
        raise click.UsageError("--moves goes with --angle; DIVISIONS is already the number of moves.")


def _positions(
    head: Head, part: Fraction, count: int, circle: int | None
) -> tuple[str | None, int, tuple[Position, ...]]:
    if circle is None:
        plate, circle = best_circle(head, part, count)
        return plate, circle, tuple(positions(head, part, count, circle))
    plates: list[str | None] = [plate for plate, holes in head.circles() if holes == circle]
    if not head.has_worm and circle in head.direct_circles:
        plates = [None]
    if not plates:
        raise click.UsageError(f"No plate of this head has a circle of {circle} holes.")
    return plates[0], circle, tuple(positions(head, part, count, circle))


def _what_would_help(count: int | None, head: Head, report: DivideReport) -> str:
    asked = f"{count} divisions" if count else f"{report.wanted} turn"
    needed = f"A circle of {report.circle_needed} holes, or a multiple,"
    if head.has_worm:
        lines = [
            f"No exact setting for {asked} on this head: the crank needs {report.crank_turns} turn each time.",
            f"{needed} would make it plain; --positions keeps each mark within half a hole.",
        ]
    else:
        own = ", ".join(map(str, head.direct_circles))
        lines = [f"No exact setting for {asked}: the spindle's own holes ({own}) miss it.", f"{needed} would do it."]
    lines.extend(f"This head has more than that: try --with {way}." for way in other_ways(head, count))
    return "\n".join(lines)
