"""The terminal screen and the JSON of ``shape``."""

from __future__ import annotations

from typing import Any

from cli.index_moves import IndexMoves
from cli.views import answer_json
from cli.views.cautions import head_cautions, touching_cautions
from cli.views.index_lines import index_json, print_index_moves
from cli.views.part_figures import length_json, reading_json, screw_text, size_text, with_reading
from cli.views.screen import console, facts_table, print_list
from solver.dials.screw_dials import ScrewDial
from solver.dividing.shapes import FlatsOnRound
from solver.dividing.spindle_stops import collet_blocks
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError


def show_shape(word: str, cut: FlatsOnRound, moves: IndexMoves, screw: ScrewDial | None) -> None:
    """Print the answer of ``shape``."""
    out = console()
    out.print(facts_table(shape_rows(word, cut, screw)))
    print_index_moves(out, moves, "flat")
    blocks = block_line(moves.parts)
    if blocks:
        out.print(f"Without a head: {blocks}.")
    print_list(out, "Early check, before the last flat", shape_checks(cut))
    print_list(out, "Cautions", (*touching_cautions(), *head_cautions(moves.head, moves.best)))


def shape_rows(word: str, cut: FlatsOnRound, screw: ScrewDial | None) -> list[tuple[str, str]]:
    """List the sizes of a shape and the depth of its flats."""
    flats = cut.flats
    number = "" if word.strip().isdigit() else f", {flats.count} flats"
    asked = f"{flats.count} flats" if word.strip().isdigit() else word.strip().lower()
    rows = [("Asked", f"{asked}{number} on a round of {size_text(cut.diameter)}")]
    if screw is not None:
        rows.append(("Screw", screw_text(screw)))
    if flats.across_flats is not None:
        rows.append(("Across flats", size_text(flats.across_flats)))
    if flats.flat_to_corner is not None:
        rows.append(("Flat to corner", f"{size_text(flats.flat_to_corner)}{_if_sharp(cut)}"))
    if flats.corner_circle is not None:
        name = "Across corners" if flats.is_even else "Corner circle"
        rows.append((name, f"{size_text(flats.corner_circle)}{_corners(cut)}"))
    rows.append(("Depth of each flat", f"{with_reading(cut.depth, screw)}, from touching the round"))
    rows.append(("Proof", f"{_half(cut.diameter)} - {_mm(flats.centre_to_flat)} from axis to flat = {_mm(cut.depth)}"))
    rows.append(("Width of a flat", size_text(cut.width)))
    if not cut.corners_are_sharp:
        rows.append(("Round left", f"{size_text(cut.round_left)} of arc between two flats"))
    return rows


def _corners(cut: FlatsOnRound) -> str:
    corners = cut.flats.corner_circle
    if corners == cut.diameter:
        return ", the round itself: corners just sharp"
    if cut.corners_are_sharp:
        return ", inside the round: corners sharp"
    return " if sharp; larger than the round, so its corners stay round"


def _if_sharp(cut: FlatsOnRound) -> str:
    """Warn beside a size to a corner that the round is too small to leave one."""
    return "" if cut.corners_are_sharp else " if sharp"


def _mm(length: Length) -> str:
    return size_text(length).split(" (", maxsplit=1)[0]


def _half(length: Length) -> str:
    return f"half of {_mm(length)}"


def block_line(count: int) -> str:
    """Say which collet blocks turn the work by equal parts; nothing where none does.

    Examples
    --------
    >>> block_line(4), block_line(5)
    ('a square collet block, every face', '')
    """
    try:
        blocks = collet_blocks(count)
    except ImpossibleSettingError:
        return ""
    return ", or ".join(f"a {block.shape} collet block, {every_face(block.step)}" for block in blocks)


def every_face(step: int) -> str:
    """Say which faces of a block are used.

    Examples
    --------
    >>> every_face(1), every_face(2), every_face(3)
    ('every face', 'every second face', 'every third face')
    """
    words = {1: "every face", 2: "every second face", 3: "every third face"}
    return words.get(step, f"every {step}th face")


def shape_checks(cut: FlatsOnRound) -> list[str]:
    """Say what the first flats must measure."""
    over = size_text(cut.over_first_flat)
    lines = [f"Cut the first flat shallow and measure from it to the round opposite: at full depth {over}."]
    if cut.flats.across_flats is not None:
        lines.append(f"Turn half round and cut the flat opposite: across the two {size_text(cut.flats.across_flats)}.")
    lines.append("Scribe a line at each flat first: the last move must come back to the first line.")
    return lines


def shape_json(word: str, cut: FlatsOnRound, moves: IndexMoves, screw: ScrewDial | None) -> str:
    """Write the answer of ``shape`` as JSON."""
    flats = cut.flats
    answer: dict[str, Any] = {
        "asked": {"shape": word.strip().lower(), "flats": flats.count},
        "round_mm": length_json(cut.diameter),
        "across_flats_mm": _or_none(flats.across_flats),
        "flat_to_corner_mm": _or_none(flats.flat_to_corner),
        "corner_circle_mm": _or_none(flats.corner_circle),
        "centre_to_flat_mm": length_json(flats.centre_to_flat),
        "depth_mm": length_json(cut.depth),
        "over_first_flat_mm": length_json(cut.over_first_flat),
        "flat_width_mm": length_json(cut.width),
        "round_left_mm": length_json(cut.round_left),
        "corners_are_sharp": cut.corners_are_sharp,
        "index": index_json(moves),
    }
    if screw is not None:
        answer["depth_on_dial"] = reading_json(screw.read(cut.depth))
    return answer_json.as_text(answer)


def _or_none(length: Length | None) -> str | None:
    return None if length is None else length_json(length)
