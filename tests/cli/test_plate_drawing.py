"""The drawn hole circle, counted again from the drawing itself."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ElementTree
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cli.views.plate_drawing import PlatePicture, plate_letters, plate_svg
from solver.dividing.moves import CrankMove
from tests.cli.running import halfnut
from tests.drawn_cases import cases

several = cases(120)
SVG = "{http://www.w3.org/2000/svg}"
MOVES = st.integers(2, 250).flatmap(
    lambda circle: st.builds(CrankMove, st.integers(0, 12), st.integers(1, circle - 1), st.just(circle))
)


def picture(move: CrankMove, title: str = "28 divisions", head: str = "40:1") -> PlatePicture:
    return PlatePicture(title, head, "A", move)


def holes_drawn(svg: str) -> tuple[list[tuple[float, str]], list[float]]:
    """Every hole as angle from the top and kind, and the angles of the straight edges of the arms."""
    root = ElementTree.fromstring(svg)  # noqa: S314 - our own drawing.
    middle = next(each for each in root.iter(f"{SVG}circle") if "stroke-dasharray" in each.attrib)
    at = (float(middle.attrib["cx"]), float(middle.attrib["cy"]))

    def angle(x: float, y: float) -> float:
        return math.atan2(x - at[0], at[1] - y) % (2 * math.pi)

    holes = []
    for each in root.iter():
        kind = each.attrib.get("class")
        if kind in ("hole", "target"):
            holes.append((angle(float(each.attrib["cx"]), float(each.attrib["cy"])), kind))
        elif kind in ("pin", "counted"):
            circle = next(each.iter(f"{SVG}circle"))
            holes.append((angle(float(circle.attrib["cx"]), float(circle.attrib["cy"])), kind))
    arms = []
    for each in root.iter(f"{SVG}polygon"):
        if each.attrib.get("class") == "arm":
            tip = each.attrib["points"].split()[1].split(",")
            arms.append(angle(float(tip[0]), float(tip[1])))
    return holes, arms


@several
@given(MOVES)
def test_the_arms_enclose_one_hole_more_than_the_spaces_and_the_pin_is_zero(move):
    holes, arms = holes_drawn(plate_svg(picture(move)))
    kinds = [kind for _, kind in holes]
    assert len(holes) == move.circle
    assert (kinds.count("pin"), kinds.count("target"), kinds.count("counted")) == (1, 1, move.spaces - 1)
    behind, past = arms
    # Walk clockwise from arm A to arm B and count the holes on the way.
    sweep = (past - behind) % (2 * math.pi) or 2 * math.pi
    if move.spaces == move.circle - 1:
        sweep = 2 * math.pi
    enclosed = sorted((at - behind) % (2 * math.pi) for at, _ in holes if (at - behind) % (2 * math.pi) < sweep)
    assert len(enclosed) == move.sector_holes
    inside = [kind for at, kind in holes if (at - behind) % (2 * math.pi) < sweep]
    assert set(inside) <= {"pin", "counted", "target"}


@several
@given(MOVES)
def test_no_two_holes_of_a_drawing_touch_and_no_colour_is_needed(move):
    svg = plate_svg(picture(move))
    holes, _ = holes_drawn(svg)
    radius = min(11, 0.34 * 215 * 2 * math.pi / move.circle)
    for first, second in pairwise(sorted(at for at, _ in holes)):
        assert 2 * 215 * math.sin((second - first) / 2) > 2 * radius
    assert set(re.findall(r'(?:fill|stroke)="([^"]+)"', svg)) <= {"white", "black", "none", "#ddd"}


def test_words_of_a_person_are_no_markup_in_the_drawing():
    svg = plate_svg(picture(CrankMove(1, 9, 21), head='<b>"A & B"</b>' + "x" * 80))
    texts = [each.text for each in ElementTree.fromstring(svg).iter(f"{SVG}text")]  # noqa: S314 - our own drawing.
    assert '<b>"A & B"</b>' + "x" * 80 in texts


@several
@given(MOVES, st.sampled_from([40, 60, 80, 110]))
def test_the_picture_in_letters_counts_every_hole_of_the_move(move, room):
    lines = plate_letters(picture(move), room)
    if lines[0].startswith("A|"):
        counted = re.findall(r"\d+", lines[0].split("|")[1])
        assert counted == [str(number) for number in range(move.spaces + 1)]
        return
    assert max(map(len, lines)) <= room
    drawn = "\n".join(lines)
    assert "[0]" in drawn
    assert f"[{move.spaces % 10}]" in drawn
    others = drawn.count("o")
    assert others == move.circle - move.spaces - 1


def test_divide_draws_a_file_and_leaves_an_old_one_alone(tmp_path):
    path = tmp_path / "plate.svg"
    outcome = halfnut("divide", "28", "--draw", str(path), "--circle", "21", "--head", "head-40-three-plates")
    assert outcome.returncode == 0, outcome
    holes, _ = holes_drawn(path.read_text(encoding="utf-8"))
    assert len(holes) == 21
    path.write_text("kept", encoding="utf-8")
    again = halfnut("divide", "28", "--draw", str(path))
    assert again.returncode == 2
    assert "--force" in again.stderr
    assert path.read_text(encoding="utf-8") == "kept"
    assert halfnut("divide", "28", "--draw", str(path), "--force").returncode == 0
    assert path.read_text(encoding="utf-8").startswith("<svg")
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("name", ["plate.png", "plate", "folder.svg"])
def test_a_name_that_cannot_be_drawn_to_is_refused(tmp_path, name):
    (tmp_path / "folder.svg").mkdir()
    outcome = halfnut("divide", "28", "--draw", str(tmp_path / name))
    assert outcome.returncode == 2
    assert "Traceback" not in outcome.stderr
    assert [each.name for each in tmp_path.iterdir()] == ["folder.svg"]


def test_a_place_that_cannot_be_written_leaves_nothing_behind(tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    outcome = halfnut("divide", "28", "--draw", str(tmp_path / "file" / "plate.svg"))
    assert outcome.returncode == 2
    assert "cannot be written" in outcome.stderr
    assert [each.name for each in tmp_path.iterdir()] == ["file"]
