"""``keyway``: how far below the crown of a shaft the cutter is fed, and where it is set."""

from __future__ import annotations

from fractions import Fraction

import click

from cli.index_moves import leaving, moves_of_several
from cli.part_options import chosen_screw, feeler_option, marks_option, screw_option
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import force_option, head_option, json_option
from cli.sizes import is_in_inches, optional_size, read_size
from gearsets.key_tables import StandardKey, key_for_shaft, key_of_width, standard_keys
from solver.dividing.slots import Keyway, LengthwiseSlot, most_slots_along, passes_from_touch, refuse_meeting_slots
from solver.quantities.lengths import Length
from solver.quantities.pitches import figure_text

#: Most keyways or splines believed of one shaft.
MOST_KEYWAYS = 360
EDGE, CROWN = "edge", "crown"


@click.command("keyway", short_help="Depth and setting of a keyway in a shaft.")
@click.argument("count", type=click.IntRange(1, MOST_KEYWAYS), default=1, required=False)
@click.option("--shaft", "shaft_text", metavar="DIAMETER", required=True, help="Diameter of the shaft.")
@click.option(
    "--width", "width_text", metavar="LENGTH", help="Width of the key. [default: the standard metric key of the shaft]"
)
@click.option(
    "--depth",
    "depth_text",
    metavar="LENGTH",
    help="Depth. [default: that of the standard metric key of this width, else half the width]",
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
    width_text: str | None,
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

    What is left out is that of the standard metric key (DIN 6885-1, ISO 773), from memory.

    \b
    Example:
      halfnut keyway --shaft "25 mm"
      halfnut keyway --shaft "1 in" --width "1/4 in"
      halfnut keyway --shaft "25 mm" --width "8 mm" --depth "4 mm" --depth-from crown
      halfnut keyway 2 --shaft "20 mm" --width "6 mm" --screw "2 mm" --marks 100
    """
    refuse_sheet(sheet_to, force=force)
    if depth_text is None and depth_from == CROWN:
        raise click.UsageError("--depth-from crown says how --depth is measured: give --depth too.")
    shaft = read_size(shaft_text, "a shaft")
    width, key = _width(shaft_text, shaft, width_text, has_depth=depth_text is not None)
    depth, from_crown = _depth(width, key, depth_text, is_from_crown=depth_from == CROWN)
    keyway = Keyway.below_crown(shaft, width, depth) if from_crown else Keyway(shaft, width, depth)
    centred = Length(Fraction(0))
    lengthwise = LengthwiseSlot(shaft, width, centred, keyway.depth_from_crown)
    refuse_meeting_slots("keyways", count, most_slots_along(lengthwise))
    cutter = optional_size(cutter_text, "a cutter") or width
    feeler = optional_size(feeler_text, "a feeler") or centred
    passes = passes_from_touch(diameter=shaft, width=width, cutter=cutter, offset=centred, feeler=feeler)
    screw = chosen_screw(screw_text, marks)
    moves = moves_of_several(head_word, count)
    _remark_left_out(width_text, depth_text, key)
    from cli.views import slot_screen

    setting = slot_screen.SlotSetting(shaft, width, keyway.depth_from_crown, cutter, centred, feeler, passes, passes)
    if sheet_to:
        from cli.views.sheets.part_cards import keyway_card

        write_card(keyway_card(keyway, setting, moves, screw, key), sheet_to)
    if as_json:
        click.echo(slot_screen.keyway_json(keyway, setting, moves, screw, key))
    else:
        slot_screen.show_keyway(keyway, setting, moves, screw, key)
    return 0 if moves is None else leaving(moves)


def _width(
    shaft_text: str, shaft: Length, width_text: str | None, *, has_depth: bool
) -> tuple[Length, StandardKey | None]:
    """Read the width, or take that of the standard key; and the key, where any of its figures is made use of."""
    if width_text is not None:
        width = read_size(width_text, "a key")
        return width, None if has_depth else key_of_width(width)
    if is_in_inches(shaft_text):
        raise click.UsageError(
            "An inch shaft has an inch key, and only metric keys are in the table: give --width, and --depth if it is "
            "not half of that."
        )
    key = key_for_shaft(shaft)
    if key is None:
        smallest, largest = standard_keys()[0].over, standard_keys()[-1].up_to
        raise click.UsageError(
            f"The table of keys is for shafts over {figure_text(smallest.mm)} mm, up to {figure_text(largest.mm)} mm: "
            "give --width and --depth."
        )
    return key.width, key


def _depth(
    width: Length, key: StandardKey | None, depth_text: str | None, *, is_from_crown: bool
) -> tuple[Length, bool]:
    """Read the depth, or take that of the standard key, which is measured from the crown, or half the width."""
    depth = optional_size(depth_text, "a depth")
    if depth is not None:
        return depth, is_from_crown
    return (key.in_shaft, True) if key is not None else (width * Fraction(1, 2), False)


def _remark_left_out(width_text: str | None, depth_text: str | None, key: StandardKey | None) -> None:
    """Say on stderr what was taken for a size that was not given."""
    if width_text is not None and depth_text is not None:
        return
    if key is None:
        click.echo(
            "No --depth was given, so half the width is cut: a square key sunk by half its side. A key of a standard "
            "has a depth of its own in its table, often more: give that with --depth.",
            err=True,
        )
        return
    missing = " and ".join(name for name, text in (("--width", width_text), ("--depth", depth_text)) if text is None)
    verb = "were" if missing.count("--") == 2 else "was"
    click.echo(
        f"{missing} {verb} not given: taken from the table of standard metric keys (DIN 6885-1, ISO 773), which is "
        "from memory. Hold it against your own table, or measure the key.",
        err=True,
    )
