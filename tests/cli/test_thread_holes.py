"""A hole or a drill outside the class of the nut is told so, wherever it is offered."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.cli.running import answer_of, halfnut

HOLE = ("thread", "M14x1.25", "--basis", "5H/8", "--show", "hole")


# ISO 965-1, 6H at 1.25 mm pitch: the minor diameter of M14x1.25 lies from 12.647 to 12.912 mm.
@pytest.mark.parametrize(
    ("engagement", "is_outside"), [("75%", True), ("60%", True), ("81%", False), ("99%", False), ("100%", False)]
)
def test_a_hole_outside_the_class_of_the_nut_is_told_so(engagement, is_outside):
    screen = " ".join(halfnut(*HOLE, "--engagement", engagement).stdout.split())
    assert "class 6H allows 12.647 mm (0.4980 in) to 12.912 mm (0.5083 in)" in screen
    hole, drills = screen.split("Hole ", 1)[1].split("Drills near ")
    assert ("LARGER THAN 6H ALLOWS" in hole) is is_outside
    assert ("13 mm leaves 73.9 % (LARGER THAN 6H ALLOWS)" in drills) is (engagement == "75%")
    told = answer_of(*HOLE, "--engagement", engagement)["hole"]
    assert told["outside_class"] is is_outside
    assert (Fraction("12.647") <= round(Fraction(told["hole"]["mm"]), 3) <= Fraction("12.912")) is not is_outside
    for drill in told["drills"]:
        inside = Fraction("12.647") <= Fraction(drill["diameter"]["mm"]) <= Fraction("12.912")
        assert drill["outside_class"] is not inside


def test_a_drill_below_the_class_is_told_so_and_no_class_is_named_where_none_is_known():
    screen = " ".join(halfnut("thread", "M15x1", "--show", "hole").stdout.split())
    # 35/64 in is 13.891 mm; 6H begins at 13.917 mm.
    assert "35/64 in leaves 85.4 % (SMALLER THAN 6H ALLOWS)" in screen
    assert "ALLOWS" not in halfnut("thread", "2 BA", "--show", "hole").stdout
    told = answer_of("thread", "2 BA", "--show", "hole")["hole"]
    assert (told["class"], told["class_allows"], told["outside_class"]) == (None, None, None)


def test_a_nut_is_given_no_blank_for_a_die():
    nut, screw = (halfnut("thread", "M10", *side, "--show", "hole").stdout for side in (("--internal",), ()))
    assert "For a die" in screen_of(screw)
    assert "TAPPING HOLE AND DIE BLANK" in screw
    assert "die" not in screen_of(nut).casefold()
    assert "TAPPING HOLE" in nut


def screen_of(text: str) -> str:
    return " ".join(text.split())
