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
from cli.views.two_circle_drawing import TwoCirclePicture, two_circle_letters, two_circle_svg
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
    assert "There is no folder" in outcome.stderr
    assert [each.name for each in tmp_path.iterdir()] == ["file"]


def on_circle(most: int) -> st.SearchStrategy[CrankMove]:
    return st.integers(3, most).flatmap(
        lambda circle: st.builds(
            CrankMove, st.just(0), st.integers(1, circle - 1), st.just(circle), st.sampled_from((1, -1))
        )
    )


@st.composite
def two_circles(draw: st.DrawFn, most: int = 120) -> TwoCirclePicture:
    pin = draw(on_circle(most))
    with_plate = draw(on_circle(most).filter(lambda move: move.circle != pin.circle))
    return TwoCirclePicture("51 divisions", "40:1", "plate A", CrankMove(1, pin.spaces, pin.circle), with_plate)


def rings_drawn(svg: str) -> dict[str, list[tuple[float, float]]]:
    """Every mark of a drawing of two circles by its kind: angle from the top, clockwise, and distance."""
    root = ElementTree.fromstring(svg)  # noqa: S314 - our own drawing.
    middle = next(each for each in root.iter(f"{SVG}circle") if "stroke-dasharray" in each.attrib)
    x0, y0 = float(middle.attrib["cx"]), float(middle.attrib["cy"])
    found: dict[str, list[tuple[float, float]]] = {}
    for each in root.iter():
        kind = each.attrib.get("class", "")
        if kind in ("pin", "counted"):
            circle = next(each.iter(f"{SVG}circle"))
            x, y = float(circle.attrib["cx"]), float(circle.attrib["cy"])
        elif kind in ("hole", "target"):
            x, y = float(each.attrib["cx"]), float(each.attrib["cy"])
        elif "data-at" in each.attrib:
            x, y = map(float, each.attrib["data-at"].split())
        else:
            continue
        found.setdefault(kind, []).append((math.atan2(x - x0, y0 - y), math.hypot(x - x0, y - y0)))
    return found


def turned(angle: float) -> float:
    """An angle within half a turn of nothing."""
    return math.remainder(angle, 2 * math.pi)


@several
@given(two_circles())
def test_both_circles_show_every_hole_and_where_each_motion_ends(drawn):
    svg = two_circle_svg(drawn)
    marks = rings_drawn(svg)
    pin, stop = drawn.circles
    count = {kind: len(places) for kind, places in marks.items()}
    assert (count["pin"], count["target"], count.get("counted", 0)) == (1, 1, drawn.pin.spaces - 1)
    assert sum(count.get(kind, 0) for kind in ("pin", "target", "counted", "hole")) == pin
    assert (count["stop"], count["brought"], count.get("passed", 0)) == (1, 1, drawn.with_plate.spaces - 1)
    assert sum(count.get(kind, 0) for kind in ("stop", "brought", "passed", "other")) == stop
    # The larger circle is outside, as on a plate, and both begin at the top.
    radius = {kind: places[0][1] for kind, places in marks.items()}
    assert (radius["pin"] > radius["stop"]) == (pin > stop)
    assert abs(marks["pin"][0][0]) + abs(marks["stop"][0][0]) < 1e-3
    # The pin goes clockwise; turned by the second motion, the plate brings the other hole to the stop pin.
    assert abs(turned(marks["target"][0][0] - 2 * math.pi * drawn.pin.spaces / pin)) < 1e-3
    motion = drawn.with_plate.sign * 2 * math.pi * drawn.with_plate.spaces / stop
    assert abs(turned(marks["brought"][0][0] + motion)) < 1e-3
    assert set(re.findall(r'(?:fill|stroke)="([^"]+)"', svg)) <= {"white", "black", "none", "#ddd"}


@several
@given(two_circles(60), st.sampled_from([40, 80, 110]))
def test_both_circles_in_letters_show_every_hole(drawn, room):
    lines = two_circle_letters(drawn, room)
    letters = "\n".join(lines)
    pin, stop = drawn.circles
    assert "[0]" in letters
    assert "<0>" in letters
    if lines[0].startswith("pin:"):
        assert f"[{drawn.pin.spaces}]" in lines[0]
        assert f"<{drawn.with_plate.spaces}>" in lines[1]
        return
    assert max(map(len, lines)) <= room
    assert f"[{drawn.pin.spaces % 10}]" in letters
    assert f"<{drawn.with_plate.spaces % 10}>" in letters
    assert letters.count("o") == pin - drawn.pin.spaces - 1
    assert letters.count("+") == stop - drawn.with_plate.spaces - 1


def test_divide_draws_a_setting_on_two_circles_and_says_what_it_is(tmp_path):
    path = tmp_path / "two.svg"
    words = ("divide", "127", "--skip", "9", "--method", "compound", "--head", "head-40-three-plates", "--picture")
    outcome = halfnut(*words, "--draw", str(path))
    assert outcome.returncode == 1
    marks = rings_drawn(path.read_text(encoding="utf-8"))
    assert sum(map(len, marks.values())) == 39 + 49
    texts = [each.text for each in ElementTree.parse(path).getroot().iter(f"{SVG}text")]  # noqa: S314
    assert "127 divisions, two circles, NOT exact, 9 at a time" in texts
    assert "PICTURE of the 39 circle, for the pin, and the 49 for the stop pin" in outcome.stdout
    assert "turn both the way the crank turns, until hole 12 is at the stop pin." in outcome.stdout
    back = halfnut("divide", "69", "--method", "compound", "--head", "head-40-three-plates", "--picture").stdout
    assert "1: plate with crank, BACK 2 spaces on 23" in back
    assert "2: pin, plate held: 0 turns + 18 spaces on 27" in back


@pytest.mark.parametrize(
    "words", [("divide", "28"), ("train", "1.25mm"), ("audit", "20-127-100-25")], ids=lambda words: words[0]
)
def test_one_rule_for_the_name_of_a_drawing_in_every_command(tmp_path, words):
    for name in ("drawing", "drawing.png", "drawing.svg.txt"):
        outcome = halfnut(*words, "--draw", str(tmp_path / name))
        assert (outcome.returncode, outcome.stdout) == (2, "")
        assert "--draw writes SVG: give a name that ends in .svg" in outcome.stderr
    assert list(tmp_path.iterdir()) == []
    halfnut(*words, "--draw", str(tmp_path / "drawing.SVG"))
    assert (tmp_path / "drawing.SVG").read_text(encoding="utf-8").startswith("<svg")


def test_the_picture_stands_above_the_cautions():
    screen = halfnut("divide", "28", "--head", "head-40-three-plates", "--picture").stdout
    assert 0 < screen.index("Early check") < screen.index("PICTURE of the 49 circle") < screen.index("Cautions")
