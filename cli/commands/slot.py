"""``slot``: slots across the end of a round, as in a screw head, or along it."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import click

from cli.index_moves import leaving, moves_of_several
from cli.part_options import chosen_screw, feeler_option, marks_option, screw_option
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import force_option, head_option, json_option
from cli.sizes import optional_size, read_size
from solver.dividing.slots import (
    LengthwiseSlot,
    most_slots_across,
    most_slots_along,
    passes_from_touch,
    refuse_meeting_slots,
)
from solver.quantities.lengths import Length

if TYPE_CHECKING:
    from cli.views.slot_screen import SlotSetting

#: Most slots believed of one part.
MOST_SLOTS = 1000
NOTHING = Length(Fraction(0))


@click.command("slot", short_help="Slots across a screw head or along a round.")
@click.argument("count", type=click.IntRange(1, MOST_SLOTS), default=1, required=False)
@click.option("--in", "in_text", metavar="DIAMETER", required=True, help="The round the slot is cut in.")
@click.option("--width", "width_text", metavar="LENGTH", required=True, help="Width of the slot.")
@click.option("--depth", "depth_text", metavar="LENGTH", required=True, help="From the end, or from the crown.")
@click.option("--cutter", "cutter_text", metavar="LENGTH", help="Width of the cutter. [default: that of the slot]")
@click.option("--offset", "offset_text", metavar="LENGTH", help="Middle of the slot from the axis. [default: 0]")
@feeler_option
@click.option("--lengthwise", is_flag=True, help="Along the round instead of across its end.")
@head_option
@screw_option
@marks_option
@sheet_option
@force_option
@json_option
def command(
    *,
    count: int,
    in_text: str,
    width_text: str,
    depth_text: str,
    cutter_text: str | None,
    offset_text: str | None,
    feeler_text: str | None,
    lengthwise: bool,
    head_word: str | None,
    screw_text: str | None,
    marks: int | None,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Set the cutter for one slot, or COUNT slots round the work, from touching its side and its end or crown.

    \b
    Example:
      halfnut slot --in "8 mm" --width "1.2 mm" --depth "2 mm"
      halfnut slot 6 --in "24 mm" --width "4 mm" --depth "5 mm" --cutter "3 mm"
      halfnut slot --in 1in --width 3mm --depth 4mm --offset 5mm --lengthwise
    """
    refuse_sheet(sheet_to, force=force)
    setting = _setting(in_text, width_text, depth_text, cutter_text, offset_text, feeler_text)
    along = LengthwiseSlot(setting.diameter, setting.width, setting.offset, setting.depth) if lengthwise else None
    most = most_slots_along(along) if along else most_slots_across(setting.diameter, setting.width, setting.offset)
    refuse_meeting_slots("slots", count, most)
    screw = chosen_screw(screw_text, marks)
    moves = moves_of_several(head_word, count)
    from cli.views import slot_screen

    if sheet_to:
        from cli.views.sheets.part_cards import slot_card

        write_card(slot_card(setting, along, moves, screw), sheet_to)
    if as_json:
        click.echo(slot_screen.slot_json(setting, along, moves, screw))
    else:
        slot_screen.show_slot(setting, along, moves, screw)
    return 0 if moves is None else leaving(moves)


def _setting(
    in_text: str,
    width_text: str,
    depth_text: str,
    cutter_text: str | None,
    offset_text: str | None,
    feeler_text: str | None,
) -> SlotSetting:
    from cli.views.slot_screen import SlotSetting

    diameter, width = read_size(in_text, "a round"), read_size(width_text, "a slot")
    cutter = optional_size(cutter_text, "a cutter") or width
    offset = optional_size(offset_text, "an offset") or NOTHING
    feeler = optional_size(feeler_text, "a feeler") or NOTHING
    beyond, short = (
        passes_from_touch(diameter=diameter, width=width, cutter=cutter, offset=each, feeler=feeler)
        for each in (offset, offset * -1)
    )
    return SlotSetting(diameter, width, read_size(depth_text, "a depth"), cutter, offset, feeler, beyond, short)
