"""``holes``: equally spaced holes on a circle by coordinates, for a table with dials."""

from __future__ import annotations

import click

from cli.index_moves import leaving, moves_of_several
from cli.part_options import chosen_screw, marks_option, screw_option
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import force_option, json_option
from cli.sizes import optional_size, read_size
from solver.dividing.hole_circles import MOST_HOLES, hole_circle
from solver.quantities.written_angles import read_angle
from solver.quantities.written_lengths import read_ratio


@click.command("holes", short_help="Holes on a circle by coordinates, with dial readings.")
@click.argument("count", type=click.IntRange(1, MOST_HOLES))
@click.option("--on", "on_text", metavar="DIAMETER", required=True, help="Circle through the centres of the holes.")
@click.option(
    "--start",
    "start_text",
    metavar="ANGLE",
    default="0 deg",
    show_default=True,
    help="Of the first hole: 0 is to the right, along x, and angles grow counter-clockwise.",
)
@click.option("--clockwise", is_flag=True, help="Number the holes clockwise, seen from above.")
@click.option("--all-positive", is_flag=True, help="Zero at the left and near side of the circle, not its centre.")
@screw_option
@marks_option
@click.option(
    "--drill", "drill_text", metavar="DIAMETER", help="Of each hole: what is left between neighbours is told."
)
@click.option(
    "--worm-ratio",
    "ratio_text",
    metavar="N",
    help="The circle is for an index plate behind a worm of N turns: what a hole out of place comes to on the work.",
)
@click.option("--head", "head_word", metavar="NAME|FILE", help="Give the moves of this head or table too.")
@sheet_option
@force_option
@json_option
def command(
    *,
    count: int,
    on_text: str,
    start_text: str,
    clockwise: bool,
    all_positive: bool,
    screw_text: str | None,
    marks: int | None,
    drill_text: str | None,
    ratio_text: str | None,
    head_word: str | None,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Give the coordinates of COUNT holes on a circle, each from zero, and the turns and marks of the table screws.

    \b
    Example:
      halfnut holes 7 --on "60 mm" --screw "4 mm" --marks 80
      halfnut holes 6 --on "3 in" --start "30 deg" --all-positive
      halfnut holes 51 --on "100 mm" --head head-40-three-plates
      halfnut holes 61 --on "110 mm" --drill "3 mm" --worm-ratio 40
    """
    refuse_sheet(sheet_to, force=force)
    diameter, start = read_size(on_text, "a circle"), read_angle(start_text)
    places = hole_circle(count, diameter, start=start, clockwise=clockwise, all_positive=all_positive)
    screw = chosen_screw(screw_text, marks)
    drill = optional_size(drill_text, "a drill")
    if drill is not None and count == 1:
        raise click.UsageError("One hole has no neighbour: leave --drill out.")
    ratio = None if ratio_text is None else read_ratio(ratio_text)
    moves = None if head_word is None else moves_of_several(head_word, count)
    from cli.views import holes_screen

    asked = holes_screen.HoleCircle(diameter, start, clockwise, all_positive, places, moves, drill, ratio)
    if sheet_to:
        from cli.views.sheets.part_cards import holes_card

        write_card(holes_card(asked, screw), sheet_to)
    if as_json:
        click.echo(holes_screen.holes_json(asked, screw))
    else:
        holes_screen.show_holes(asked, screw)
    return 0 if moves is None else leaving(moves)
