"""``shape``: a square, a hexagon or any equal flats on a round."""

from __future__ import annotations

import click

from cli.index_moves import index_moves, leaving
from cli.part_options import chosen_screw, marks_option, screw_option
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import chosen_head, force_option, head_option, json_option, remark_assumed
from cli.sizes import optional_size
from gearsets.shape_names import SHAPES, flats_named
from solver.dividing.shapes import (
    FEWEST_FLATS,
    MOST_FLATS,
    Flats,
    FlatsOnRound,
    flats_across,
    flats_to_corner,
    largest_in_round,
)
from solver.quantities.lengths import Length


@click.command("shape", short_help="Squares, hexagons and other flats on a round.")
@click.argument("shape", metavar="SHAPE")
@click.option("--from", "from_text", metavar="DIAMETER", help="The round it is cut from.")
@click.option("--across-flats", "flats_text", metavar="LENGTH", help="Distance between opposite flats.")
@click.option("--across-corners", "corners_text", metavar="LENGTH", help="Circle through the corners.")
@click.option("--flat-to-corner", "corner_text", metavar="LENGTH", help="For an odd number of flats.")
@head_option
@screw_option
@marks_option
@sheet_option
@force_option
@json_option
def command(
    *,
    shape: str,
    from_text: str | None,
    flats_text: str | None,
    corners_text: str | None,
    corner_text: str | None,
    head_word: str | None,
    screw_text: str | None,
    marks: int | None,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Give sizes, depth of cut and index moves of SHAPE: square, hexagon, octagon, flats (two), or a number.

    With --from alone it is the largest that fits; with a size alone, the smallest round; with both, as it is cut.

    \b
    Example:
      halfnut shape square --from "25 mm"
      halfnut shape hexagon --across-flats "17 mm"
      halfnut shape square --from 16mm --across-flats 11mm --screw 2mm --marks 100
    """
    refuse_sheet(sheet_to, force=force)
    count = _count(shape)
    diameter = optional_size(from_text, "a round")
    flats = _flats(count, diameter, flats_text, corners_text, corner_text)
    screw = chosen_screw(screw_text, marks)
    diameter = diameter or flats.corner_circle
    if diameter is None:
        raise click.UsageError("Two flats have no corners to find a round from: give --from too.")
    cut = FlatsOnRound(flats, diameter)
    head, assumed = chosen_head(head_word)
    moves = index_moves(head, count, head_word)
    remark_assumed("head", head.name, assumed=assumed)
    from cli.views import shape_screen

    if sheet_to:
        from cli.views.sheets.part_cards import shape_card

        write_card(shape_card(shape, cut, moves, screw), sheet_to)
    if as_json:
        click.echo(shape_screen.shape_json(shape, cut, moves, screw))
    else:
        shape_screen.show_shape(shape, cut, moves, screw)
    return leaving(moves)


def _count(word: str) -> int:
    count = flats_named(word)
    if count is not None:
        return count
    raise click.UsageError(
        f"{word[:40]!r} is no shape known here. Write one of {', '.join(SHAPES)}, "
        f"or a number of flats from {FEWEST_FLATS} to {MOST_FLATS}."
    )


def _flats(
    count: int, diameter: Length | None, flats_text: str | None, corners_text: str | None, corner_text: str | None
) -> Flats:
    across = optional_size(flats_text, "a size across flats")
    corners = optional_size(corners_text, "a size across corners")
    to_corner = optional_size(corner_text, "a size")
    given = [size for size in (across, corners, to_corner) if size is not None]
    if len(given) > 1:
        raise click.UsageError("Give one size of the shape: --across-flats, --across-corners or --flat-to-corner.")
    if across is not None:
        return flats_across(count, across)
    if to_corner is not None:
        return flats_to_corner(count, to_corner)
    size = corners or diameter
    if size is None:
        raise click.UsageError("Give the round with --from, or a size of the shape, such as --across-flats.")
    return largest_in_round(count, size)
