"""``keyway``: how far below the crown of a shaft the cutter is fed, and where it is set."""

from __future__ import annotations

from fractions import Fraction

import click

from cli.index_moves import leaving, moves_of_several
from cli.part_options import chosen_screw, feeler_option, marks_option, screw_option
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import force_option, head_option, json_option
from cli.sizes import optional_size, read_size
from solver.dividing.slots import Keyway, LengthwiseSlot, most_slots_along, passes_from_touch, refuse_meeting_slots
from solver.quantities.lengths import Length

#: Most keyways or splines believed of one shaft.
MOST_KEYWAYS = 360
EDGE, CROWN = "edge", "crown"


@click.command("keyway", short_help="Depth and setting of a keyway in a shaft.")
@click.argument("count", type=click.IntRange(1, MOST_KEYWAYS), default=1, required=False)
@click.option("--shaft", "shaft_text", metavar="DIAMETER", required=True, help="Diameter of the shaft.")
@click.option("--width", "width_text", metavar="LENGTH", required=True, help="Width of the key.")
@click.option(
    "--depth", "depth_text", metavar="LENGTH", help="Depth, of a standard key by its table. [default: half the width]"
)
@click.option(
    "--depth-from",
    "depth_from",
    type=click.Choice([EDGE, CROWN]),
    default=EDGE,
    show_default=True,
    help="Whether the drawing measures --depth at the edge of the keyway, or from the crown of the shaft.",
)
@click.option("--cutter", "cutter_text", metavar="LENGTH", help="Width of the cutter. [default: that of the key]")
@feeler_option
@head_option
@screw_option
@marks_option
@sheet_option
@force_option
@json_option
def command(
    *,
    count: int,
    shaft_text: str,
    width_text: str,
    depth_text: str | None,
    depth_from: str,
    cutter_text: str | None,
    feeler_text: str | None,
    head_word: str | None,
    screw_text: str | None,
    marks: int | None,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Set the cutter for one keyway, or COUNT round the shaft: the arc of the shaft is added to the depth.

    \b
    Example:
      halfnut keyway --shaft "1 in" --width "1/4 in"
      halfnut keyway --shaft "25 mm" --width "8 mm" --depth "4 mm" --depth-from crown
      halfnut keyway 2 --shaft "20 mm" --width "6 mm" --screw "2 mm" --marks 100
    """
    refuse_sheet(sheet_to, force=force)
    if depth_text is None and depth_from == CROWN:
        raise click.UsageError("--depth-from crown says how --depth is measured: give --depth too.")
    shaft, width = read_size(shaft_text, "a shaft"), read_size(width_text, "a key")
    depth = optional_size(depth_text, "a depth") or width * Fraction(1, 2)
    keyway = Keyway.below_crown(shaft, width, depth) if depth_from == CROWN else Keyway(shaft, width, depth)
    centred = Length(Fraction(0))
    lengthwise = LengthwiseSlot(shaft, width, centred, keyway.depth_from_crown)
    refuse_meeting_slots("keyways", count, most_slots_along(lengthwise))
    cutter = optional_size(cutter_text, "a cutter") or width
    feeler = optional_size(feeler_text, "a feeler") or centred
    passes = passes_from_touch(diameter=shaft, width=width, cutter=cutter, offset=centred, feeler=feeler)
    screw = chosen_screw(screw_text, marks)
    moves = moves_of_several(head_word, count)
    if depth_text is None:
        click.echo(
            "No --depth was given, so half the width is cut: a square key sunk by half its side. A key of a standard "
            "has a depth of its own in its table, often more: give that with --depth.",
            err=True,
        )
    from cli.views import slot_screen

    setting = slot_screen.SlotSetting(shaft, width, keyway.depth_from_crown, cutter, centred, feeler, passes, passes)
    if sheet_to:
        from cli.views.sheets.part_cards import keyway_card

        write_card(keyway_card(keyway, setting, moves, screw), sheet_to)
    if as_json:
        click.echo(slot_screen.keyway_json(keyway, setting, moves, screw))
    else:
        slot_screen.show_keyway(keyway, setting, moves, screw)
    return 0 if moves is None else leaving(moves)
