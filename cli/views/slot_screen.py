"""The terminal screens and the JSON of ``slot`` and ``keyway``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from cli.index_moves import IndexMoves
from cli.views import answer_json
from cli.views.cautions import DEFER, head_cautions, touching_cautions
from cli.views.index_lines import index_json, print_index_moves
from cli.views.method_tables import counted
from cli.views.part_figures import length_json, reading_json, screw_text, size_text, with_reading
from cli.views.screen import console, facts_table, print_list, print_rows
from cli.views.shop_figures import approximate
from gearsets.key_tables import StandardKey
from solver.dials.screw_dials import ScrewDial
from solver.dividing.slots import Keyway, LengthwiseSlot
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length

if TYPE_CHECKING:
    from rich.console import Console


class SlotSetting(NamedTuple):
    """A slot as asked, and the travels of the cutter to its passes.

    ``beyond`` and ``short`` hold the passes for a slot past the axis and short of it, seen from the side touched.
    """

    diameter: Length
    width: Length
    depth: Length
    cutter: Length
    offset: Length
    feeler: Length
    beyond: tuple[Length, ...]
    short: tuple[Length, ...]

    @property
    def is_centred(self) -> bool:
        """True when the middle of the slot is on the axis."""
        return self.offset.mm == 0


def show_slot(
    setting: SlotSetting, along: LengthwiseSlot | None, moves: IndexMoves | None, screw: ScrewDial | None
) -> None:
    """Print the answer of ``slot``."""
    out = console()
    out.print(facts_table(slot_rows(setting, along, screw)))
    print_passes(out, setting, screw)
    if moves is not None:
        print_index_moves(out, moves, "slot")
        if across := right_across(setting, along, moves.parts):
            out.print(across)
    print_list(out, "Early check", slot_checks(setting))
    print_list(out, "Cautions", (*touching_cautions(), *(head_cautions(moves.head, moves.best) if moves else (DEFER,))))


def right_across(setting: SlotSetting, along: LengthwiseSlot | None, parts: int) -> str:
    """Say what a cut right across the end comes to: two slots where the count is even, one too many where it is odd."""
    if along is not None or not setting.is_centred:
        return ""
    if parts % 2:
        return f"Stop each cut at the axis: cut right across, an odd count makes {2 * parts} notches, not {parts}."
    settings, each = parts // 2, len(setting.beyond)
    total = f"{each} passes at each, {each * settings} in all" if each > 1 else "one pass at each"
    make = "make" if settings > 1 else "makes"
    return (
        f"Cut right across, {counted(settings, 'setting')} of the work {make} all {parts} slots, two ends at a time; "
        f"{total}."
    )


def slot_checks(setting: SlotSetting) -> list[str]:
    """Say what to see before a slot is cut to depth."""
    wall = size_text(setting.beyond[0] - setting.cutter - setting.feeler)
    return [
        "Scribe the middle of the slot first, and see that the cutter lies over the line before it cuts.",
        f"Cut a trace only, and measure from the side touched to the nearer wall: {wall}{_beyond(setting)}.",
    ]


def _beyond(setting: SlotSetting) -> str:
    return "" if setting.is_centred else " for the slot beyond the axis"


def slot_rows(setting: SlotSetting, along: LengthwiseSlot | None, screw: ScrewDial | None) -> list[tuple[str, str]]:
    """List what is set for a slot beside the passes across."""
    where = "across the end" if along is None else "along the round"
    middle = "on the axis" if setting.is_centred else f"{size_text(setting.offset)} off the axis"
    rows = [
        ("Asked", f"slot {where}, {size_text(setting.width)} wide, {middle}"),
        ("Round", size_text(setting.diameter)),
        ("Cutter", f"{size_text(setting.cutter)} wide"),
    ]
    if setting.feeler.mm:
        rows.append(("Feeler", f"{size_text(setting.feeler)}, counted in below"))
    if screw is not None:
        rows.append(("Screw", screw_text(screw)))
    start = "the end of the work" if along is None else "the crown, the highest line of the round"
    rows.append(("Depth", f"{with_reading(setting.depth + setting.feeler, screw)}, from touching {start}"))
    if along is not None:
        near, far = along.wall_depths
        if setting.is_centred:
            rows.append(("Walls", f"{size_text(near)} deep at the edges"))
        else:
            rows.append(("Walls", f"{size_text(near)} deep nearer the axis, {size_text(far)} farther out"))
    return rows


#: Title of the passes, and the heads of their table.
CROSS_TRAVEL = "from touching the side of the round with the side of the cutter"
PASS_HEADS = (("Pass", "right"), ("Travel", "left"))


def print_passes(out: Console, setting: SlotSetting, screw: ScrewDial | None) -> None:
    """Print how far the cutter travels from touching the side to each pass."""
    out.print()
    out.print(f"CROSS TRAVEL, {CROSS_TRAVEL}", style="bold")
    for title, rows in pass_tables(setting, screw):
        if title:
            out.print(f"{title}:")
        print_rows(out, PASS_HEADS, rows)
    if setting.is_centred:
        out.print(centre_proof(setting))


def pass_tables(setting: SlotSetting, screw: ScrewDial | None) -> list[tuple[str, list[list[str]]]]:
    """List the travel to each pass; off the axis once for a slot beyond it and once for one short of it."""
    sides = [("", setting.beyond)]
    if not setting.is_centred:
        sides = [
            ("Slot beyond the axis, seen from the side touched", setting.beyond),
            ("Slot short of the axis, on the side touched", setting.short),
        ]
    return [
        (title, [[str(number), with_reading(travel, screw)] for number, travel in enumerate(passes, start=1)])
        for title, passes in sides
    ]


def centre_proof(setting: SlotSetting) -> str:
    """Prove the travel to the middle of the work."""
    proof = f"half of {approximate(setting.diameter.mm, 3)} + half of {approximate(setting.cutter.mm, 3)}"
    tail = f" + {approximate(setting.feeler.mm, 3)} feeler" if setting.feeler.mm else ""
    middle = setting.diameter.mm / 2 + setting.cutter.mm / 2 + setting.feeler.mm
    return f"Proof: {proof}{tail} = {approximate(middle, 3)} mm to the middle of the work."


def slot_json(
    setting: SlotSetting, along: LengthwiseSlot | None, moves: IndexMoves | None, screw: ScrewDial | None
) -> str:
    """Write the answer of ``slot`` as JSON."""
    answer: dict[str, Any] = {
        "asked": {
            "slots": moves.parts if moves else 1,
            "lengthwise": along is not None,
            "diameter_mm": length_json(setting.diameter),
            "width_mm": length_json(setting.width),
            "depth_mm": length_json(setting.depth),
            "cutter_mm": length_json(setting.cutter),
            "offset_mm": length_json(setting.offset),
            "feeler_mm": length_json(setting.feeler),
        },
        "depth_from_touch_mm": length_json(setting.depth + setting.feeler),
        "travel_beyond_axis_mm": [length_json(travel) for travel in setting.beyond],
        "travel_short_of_axis_mm": [length_json(travel) for travel in setting.short],
    }
    if along is not None:
        answer["wall_depths_mm"] = [length_json(depth) for depth in along.wall_depths]
    if screw is not None:
        answer["depth_on_dial"] = reading_json(screw.read(setting.depth + setting.feeler))
        answer["travel_beyond_axis_on_dial"] = [reading_json(screw.read(travel)) for travel in setting.beyond]
        answer["travel_short_of_axis_on_dial"] = [reading_json(screw.read(travel)) for travel in setting.short]
    if moves is not None:
        answer["index"] = index_json(moves)
    return answer_json.as_text(answer)


def show_keyway(
    keyway: Keyway,
    setting: SlotSetting,
    moves: IndexMoves | None,
    screw: ScrewDial | None,
    key: StandardKey | None = None,
) -> None:
    """Print the answer of ``keyway``."""
    out = console()
    out.print(facts_table(keyway_rows(keyway, setting, screw, key)))
    print_passes(out, setting, screw)
    if moves is not None:
        print_index_moves(out, moves, "keyway")
    print_list(out, "Early check", keyway_checks(keyway, setting))
    print_list(out, "Cautions", (*touching_cautions(), *(head_cautions(moves.head, moves.best) if moves else (DEFER,))))


def keyway_rows(
    keyway: Keyway, setting: SlotSetting, screw: ScrewDial | None, key: StandardKey | None = None
) -> list[tuple[str, str]]:
    """List what is set for a keyway beside the passes across; ``key`` where sizes are those of a standard one."""
    rows = [
        ("Asked", f"keyway {size_text(keyway.width)} wide in a shaft of {size_text(keyway.shaft)}"),
        *([("Key", key_text(key, keyway))] if key is not None else []),
        ("Cutter", f"{size_text(setting.cutter)} wide"),
    ]
    if setting.feeler.mm:
        rows.append(("Feeler", f"{size_text(setting.feeler)}, counted in where you touch"))
    if screw is not None:
        rows.append(("Screw", screw_text(screw)))
    return [
        *rows,
        ("Depth at the edge", f"{size_text(keyway.depth_at_edge)}{_half_words(keyway)}"),
        ("Height of the arc", f"{size_text(keyway.arc_height)}, crown above the edges"),
        ("Depth to feed", f"{with_reading(keyway.depth_from_crown + setting.feeler, screw)}, from touching the crown"),
        ("Proof", _keyway_proof(keyway)),
        ("Bottom to far side", f"{size_text(keyway.over_bottom)}, what a micrometer reads"),
    ]


def key_text(key: StandardKey, keyway: Keyway) -> str:
    """Describe the standard key whose figures were taken, and say where the shaft is not the one it is for."""
    section = f"{_mm_figure(key.width)} x {_mm_figure(key.height)} mm"
    depths = f"{_mm_figure(key.in_shaft)} mm in the shaft, {_mm_figure(key.in_hub)} mm in the hub"
    shafts = f"shafts over {_mm_figure(key.over)} to {_mm_figure(key.up_to)} mm"
    fits = key.over < keyway.shaft <= key.up_to
    remark = "" if fits else "; this shaft is none of them"
    return f"standard {section} (DIN 6885-1, ISO 773), from memory: {depths}, for {shafts}{remark}"


def _mm_figure(length: Length) -> str:
    """Write a figure of a table in decimals, as tables of keys are printed."""
    return trimmed_decimal_text(length.mm, 3)


def _half_words(keyway: Keyway) -> str:
    """Say what half the width is right for, whether it was asked for or taken for want of a depth."""
    if keyway.depth_at_edge * 2 != keyway.width:
        return ""
    return ", half the width: for a square key; keys of a standard have a depth of their own"


def keyway_checks(keyway: Keyway, setting: SlotSetting) -> list[str]:
    """Say what to see before a keyway is cut to depth."""
    return [
        "Feed until the cut is just as wide as the cutter: it is then below the crown by the height of the arc."
        if setting.cutter == keyway.width
        else "Take the two outer passes as a trace first, and measure the width between them.",
        f"Before full depth measure bottom to far side; stop at {size_text(keyway.over_bottom)}.",
        "Try the key itself, or a gauge of its width, before the work leaves the vice.",
    ]


def _keyway_proof(keyway: Keyway) -> str:
    edge, arc, total = (
        approximate(length.mm, 4) for length in (keyway.depth_at_edge, keyway.arc_height, keyway.depth_from_crown)
    )
    return f"{edge} + {arc} = {total} mm below the crown"


def keyway_json(
    keyway: Keyway,
    setting: SlotSetting,
    moves: IndexMoves | None,
    screw: ScrewDial | None,
    key: StandardKey | None = None,
) -> str:
    """Write the answer of ``keyway`` as JSON."""
    answer: dict[str, Any] = {
        "asked": {
            "keyways": moves.parts if moves else 1,
            "shaft_mm": length_json(keyway.shaft),
            "width_mm": length_json(keyway.width),
        },
        "standard_key": None if key is None else _key_json(key),
        "depth_at_edge_mm": length_json(keyway.depth_at_edge),
        "arc_height_mm": length_json(keyway.arc_height),
        "depth_from_crown_mm": length_json(keyway.depth_from_crown),
        "depth_from_touch_mm": length_json(keyway.depth_from_crown + setting.feeler),
        "over_bottom_mm": length_json(keyway.over_bottom),
        "travel_mm": [length_json(travel) for travel in setting.beyond],
    }
    if screw is not None:
        answer["depth_on_dial"] = reading_json(screw.read(keyway.depth_from_crown + setting.feeler))
        answer["travel_on_dial"] = [reading_json(screw.read(travel)) for travel in setting.beyond]
    if moves is not None:
        answer["index"] = index_json(moves)
    return answer_json.as_text(answer)


def _key_json(key: StandardKey) -> dict[str, Any]:
    """Give the figures of a standard key in millimetres, and how they were keyed."""
    sizes = {f"{name}_mm": length_json(size) for name, size in key._asdict().items() if isinstance(size, Length)}
    return {**sizes, "status": key.status}
