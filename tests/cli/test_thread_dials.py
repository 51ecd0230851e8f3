"""``thread --screw --marks`` as a person runs it: the passes in turns and marks of the dials at hand."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from tests.cli.running import answer_of, halfnut


def cutting_of(*words: str) -> dict:
    return answer_of("thread", *words, "--show", "cutting")["cutting"]


def screen_of(*words: str) -> str:
    return halfnut("thread", *words, "--show", "cutting").stdout


# M4 is 17/24 of H deep, H = 0.866025 x 0.7: 0.429404 mm. A mark of 10 tpi and 100 marks is 0.0254 mm: 16.91 of them,
# so 17, 0.4318 mm, 2.40 µm over. 1/4-20 is 11/16 of 0.0433013 in deep, 0.756149 mm: 37.81 marks of 0.02 mm, so 38,
# 3.85 µm over. M10 is 0.920152 mm: of a dial of 40 marks of 0.02 mm 46.008, one turn and 6, 0.152 µm short.
@pytest.mark.own_arithmetic("arithmetic by another hand, nothing printed: depths of three threads in marks of a dial")
@pytest.mark.parametrize(
    ("words", "whole"),
    [
        (("M4", "--screw", "10tpi", "--marks", "100"), "0 turns + 17 marks (2.40 µm over)"),
        (("1/4-20 UNC", "--screw", "2mm", "--marks", "100"), "0 turns + 38 marks (3.85 µm over)"),
        (("M10", "--screw", "0.8mm", "--marks", "40"), "1 turn + 6 marks (0.152 µm short)"),
    ],
)
def test_the_whole_depth_is_told_in_turns_marks_and_what_is_left_over(words, whole):
    assert f"whole depth {whole}" in " ".join(screen_of(*words).split())


@pytest.mark.parametrize(
    "words",
    [
        ("M4", "--screw", "10tpi", "--marks", "100"),
        ("M4", "--screw", "2mm", "--marks", "40"),
        ("1/4-20 UNC", "--screw", "2mm", "--marks", "100"),
        ("2 BA", "--internal", "--screw", "1/8in", "--marks", "125"),
        ("M10", "--passes", "6", "--screw", "3mm", "--marks", "120"),
    ],
)
def test_every_pass_but_the_last_falls_on_a_mark(words):
    found = cutting_of(*words)
    mark, per_turn = Fraction(found["cross_screw"]["per_mark_mm"]), found["cross_screw"]["marks"]
    cuts = [each for each in found["passes"] if not each["spring"]]
    assert len(cuts) > 2
    for each in cuts:
        on_dial = each["cross_slide_on_dial"]
        reached = (on_dial["turns"] * per_turn + on_dial["marks"]) * mark
        left = reached - Fraction(each["cross_slide"]["mm"])
        assert abs(left - Fraction(on_dial["error_mm"])) < Fraction(1, 10**11)
        assert abs(left) <= mark / 2
        assert (left == 0) or each is cuts[-1]
    steps = [each["cross_slide_on_dial"]["marks"] for each in cuts]
    assert all(after > before for before, after in pairwise(steps))


def test_the_top_slide_has_a_dial_of_its_own():
    found = cutting_of("M4", "--screw", "2mm", "--marks", "100", "--top-screw", "0.1in", "--top-marks", "100")
    assert found["top_screw"] == {"lead_mm": "127/50", "marks": 100, "per_mark_mm": "127/5000"}
    cuts = [each for each in found["passes"] if not each["spring"]]
    mark = Fraction(found["top_screw"]["per_mark_mm"])
    for each in cuts:
        on_dial = each["top_slide_on_dial"]
        # Off is told of depth over cos 29.5 degrees, which is never a whole mark, and is half of one at the most.
        reached, travel = mark * on_dial["marks"], float(Fraction(each["cross_slide"]["mm"])) / 0.8703556959
        assert float(on_dial["error_mm"]) == pytest.approx(float(reached) - travel, abs=1e-8)
        assert 0 < abs(Fraction(on_dial["error_mm"])) <= mark / 2
        assert each is cuts[-1] or reached == Fraction(each["top_slide"]["mm"])
    heads = next(
        line for line in screen_of("M4", "--top-screw", "1mm", "--top-marks", "50").splitlines() if "Off" in line
    )
    assert heads.split() == ["Pass", "Top", "slide", "Off,", "µm"]


# 6g lets the pitch diameter of M4 (3.545 mm) lie 0.022 to 0.112 mm under it (ISO 965-2 as remembered), 0.011 to 0.056
# on the radius: the readings begin at 0.4407 mm and end at 0.4857. In marks of 0.0254 mm that is past 17.35 and before
# 19.12: from 18, no deeper than 19.
@pytest.mark.from_memory("ISO 965-1, ISO general purpose metric screw threads, tolerances, edition not seen, M4 6g")
def test_marks_for_a_class_lie_within_it():
    found = {
        each["what"]: each["cross_slide_on_dial"]
        for each in cutting_of("M4", "--screw", "10tpi", "--marks", "100")["to_class"]
    }
    assert {what: (each["turns"], each["marks"]) for what, each in found.items()} == {
        "from": (0, 18), "aim at": (0, 18), "no deeper": (0, 19)
    }  # fmt: skip
    assert Fraction(found["from"]["error_mm"]) > 0 > Fraction(found["no deeper"]["error_mm"])


def test_play_is_cautioned_of_where_dials_are_set_and_nothing_of_dials_is_said_without_them():
    assert "Take out the play of each screw" in screen_of("M4", "--screw", "2mm", "--marks", "100")
    plain = screen_of("M4")
    assert "Take out the play" not in plain
    assert "ON YOUR DIALS" not in plain
    found = cutting_of("M4")
    assert found["cross_screw"] is found["top_screw"] is None
    assert found["passes"][0]["cross_slide_on_dial"] is None


def test_a_dial_coarser_than_the_thread_is_told_for_what_it_is():
    screen = screen_of("M0.3", "--screw", "3mm", "--marks", "7")
    assert "whole steps of ≈0.4286 mm" in " ".join(screen.split())
    assert "whole depth 0 turns + 0 marks" in screen


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("M4", "--screw", "2mm"), "--screw and --marks go together"),
        (("M4", "--marks", "100"), "--screw and --marks go together"),
        (("M4", "--top-screw", "2mm"), "--top-screw and --top-marks go together"),
        (("M4", "--screw", "2", "--marks", "100"), "a bare number"),
        (("M4", "--screw", "2mm", "--marks", "0"), "--marks"),
        (("M4", "--screw", "2mm", "--marks", "100", "--show", "hole"), "speaks to the section cutting"),
        (("M4", "--slide-angle", "0deg", "--top-screw", "2mm", "--top-marks", "100"), "fed straight in"),
    ],
)
def test_a_dial_that_says_nothing_is_refused(words, told):
    outcome = halfnut("thread", *words)
    assert outcome.returncode == 2
    assert told in outcome.stderr
