"""What a worm's answer says of its hob, of the worm for a tap, and of cautions; modules however they are written."""

from __future__ import annotations

import re
import shlex
from fractions import Fraction

import pytest

from tests.cli.running import answer_of, halfnut


def plain(*words: str) -> str:
    outcome = halfnut(*words)
    assert outcome.returncode == 0, outcome
    return " ".join(outcome.stdout.split())


def test_a_hob_is_larger_than_its_worm_by_the_clearance_twice_and_has_its_root():
    # By hand, module 0.7: addendum 0.7, clearance 0.175, pitch diameter 18 x 0.7 = 12.6.
    screen = plain("worm", "--module", "0.7", "--teeth", "40")
    hob = screen.split("HOB, if you make it")[1].split("TRAIN")[0]
    assert "Outside 14.35 mm" in hob
    assert "Depth 1.75 mm" in hob
    assert "root of 10.85 mm" in hob
    told = answer_of("worm", "--module", "0.7", "--teeth", "40")
    assert told["hob"]["outside_diameter"]["mm"] == "287/20"
    assert Fraction(told["hob"]["depth"]["mm"]) * 2 == Fraction("14.35") - Fraction(told["worm"]["root_diameter"]["mm"])
    # The hob's crest cuts the wheel's root, the wheel's tip stays clear of the hob's root.
    centres, root = (Fraction(told["wheel"][name]["mm"]) for name in ("centre_distance", "root_diameter"))
    assert centres - Fraction("14.35") / 2 == root / 2


@pytest.mark.parametrize(("words", "tool", "other"), [
    (("--module", "0.7"), "hob", "tap"), (("--tap", "3/8-24"), "tap", "hob"),
])  # fmt: skip
def test_the_cautions_name_the_tool_that_turns_the_blank(words, tool, other):
    cautions = plain("worm", *words, "--teeth", "40").split("Cautions")[1]
    assert f"hands away from the turning {tool}" in cautions
    assert f"A {tool} that turns the blank does not promise a tooth count" in cautions
    assert f"turning {other}" not in cautions


@pytest.mark.parametrize(
    ("words", "command"),
    [
        (("--tap", "3/8-24"), 'halfnut thread "3/8-24 UNF"'),
        (("--tap", "1/4 BSW", "--hand", "left"), 'halfnut thread "1/4 BSW" --hand left'),
        (("--tap", "2 BA", "--tap-diameter", "4.6 mm"), "halfnut thread 0.81mm --major 4.6mm --form ba"),
        (("--tap", "20 tpi", "--tap-diameter", "1/4 in"), "halfnut thread 20tpi --major 6.35mm --form iso"),
    ],
)
def test_the_worm_for_a_tap_is_answered_by_the_command_that_is_named(words, command):
    screen = plain("worm", *words, "--teeth", "40")
    assert f"'{command}' gives depth, passes and tool" in screen
    assert answer_of("worm", *words, "--teeth", "40")["worm"]["in_full"] == command
    hand = "left" if "left" in words else "right"
    assert f"the screw, {hand}-hand" in plain(*shlex.split(command)[1:], "--show", "cutting")


def test_a_tap_without_a_diameter_leaves_the_worm_s_open():
    screen = plain("worm", "--tap", "20 tpi", "--teeth", "40")
    assert "Outside that of the tap, to be measured" in screen
    assert "--major OUTSIDE" in screen


@pytest.mark.parametrize("written", ["0.7", "0.7mm", "0.7 mm", "module 0.7", "m 0.7"])
def test_a_module_is_read_however_it_is_written(written):
    assert answer_of("worm", "--module", written, "--teeth", "40")["asked"]["size"] == "module 0.7"
    told = answer_of("helix", "--angle", "20 deg", "--teeth", "30", "--module", written)["asked"]
    assert re.fullmatch(r"22\.34\d*", told["diameter_mm"])


@pytest.mark.parametrize("written", ["0.7in", "12 DP", "modul 1", "1 x", "mm", "0 mm"])
def test_what_is_no_module_is_refused_with_how_one_is_written(written):
    outcome = halfnut("worm", "--module", written, "--teeth", "40")
    assert (outcome.returncode, outcome.stdout) == (2, "")
    assert "0.7, 0.7 mm or module 0.7" in outcome.stderr
