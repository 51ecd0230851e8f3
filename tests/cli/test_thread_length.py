"""``thread --length`` as a person runs it: turns, carriage and times up to the shoulder."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.cli.running import answer_of, halfnut


def said(*words: str) -> str:
    return " ".join(halfnut("thread", *words, "--show", "speed").stdout.split())


# The pillar screws of the tellurion, M4: 10 mm of 0.7 mm are 14.2857 turns. Two leads to stop in and one second make
# 120 rev/min, 84 mm a minute: 1.4 mm and 3.307 in; the way takes 10 / 1.4 = 7.14 s. Nine passes, two of them springs
# (counted on the screen of passes): 64.3 s, and 128.6 s with the way back.
def test_a_length_is_told_in_turns_carriage_and_times():
    screen = said("M4", "--length", "10 mm")
    assert "Length 10.000 mm (0.3937 in): ≈14.29 turns of the spindle" in screen
    assert "Carriage 1.4 mm/s (≈3.31 in/min) at 120 rev/min: 7.1 s from the start to the shoulder" in screen
    assert "All passes 9 passes, 2 of them spring passes: 2 min 9 s with the return in reverse" in screen
    assert "cuts alone 1 min 4 s" in screen
    assert "times are without setting in, stopping, reversing and measuring" in screen
    assert "A screwed-on chuck can unscrew in reverse" in screen
    assert "Carriage" not in said("M4")


def test_the_same_stands_in_the_json():
    found = answer_of("thread", "M4", "--length", "10 mm", "--show", "speed")["speed"]["to_shoulder"]
    assert (found["turns"], found["at_rpm"], found["seconds"]) == ("100/7", "120", "50/7")
    assert found["carriage_per_minute"] == {"mm": "84", "in": "420/127", "exact": True}
    assert (found["passes"], found["springs"], found["starts"], found["by_hand"]) == (9, 2, 1, False)
    assert (found["cutting_seconds"], found["seconds_with_return_in_reverse"]) == ("450/7", "900/7")
    assert answer_of("thread", "M4", "--show", "speed")["speed"]["to_shoulder"] is None


# Two starts of 4 mm: 30 mm are 3.75 turns of the lead of 8 mm; 16 mm to stop in are 2 turns a second again.
def test_several_starts_go_by_the_lead():
    assert "Length 30.000 mm (1.1811 in): 3.75 turns of the spindle" in said(
        "Tr 16x4", "--starts", "2", "--length", "30mm"
    )
    assert "on each of 2 starts" in said("Tr 16x4", "--starts", "2", "--length", "30mm")


def test_passes_are_those_of_the_table_for_the_screw_and_for_the_nut():
    for words in (("M10",), ("M10", "--internal", "--spring", "3"), ("1/4-20 UNC", "--passes", "5", "--spring", "0")):
        answer = answer_of("thread", *words, "--length", "20mm")
        passes = answer["cutting"]["passes"]
        found = answer["speed"]["to_shoulder"]
        assert found["passes"] == len(passes)
        assert found["springs"] == sum(each["spring"] for each in passes)
        assert Fraction(found["cutting_seconds"]) == Fraction(found["seconds"]) * len(passes)


# 1/4-20 threads of an inch are told inch first: 20 turns, 120 x 0.05 = 6 in a minute, 2.54 mm a second, 10 s.
def test_an_inch_thread_is_told_in_inches_first_and_a_left_hand_one_runs_off_the_free_end():
    screen = said("1/4-20 UNC", "--length", "1in", "--hand", "left")
    assert (
        "Carriage 6 in/min (2.54 mm/s) at 120 rev/min: 10 s from the groove at the shoulder to the free end" in screen
    )


# The groove of M4 is 0.35 mm and half of its crest wide, with two leads to stop in: 2.01 mm as the section of the
# cutting has it. 2 mm of thread lie within it.
def test_a_length_within_the_run_out_is_said_to_hold_no_full_thread():
    assert "NO FULL THREAD" in said("M4", "--length", "2 mm")
    assert "turn the spindle by hand all the way" in said("M4", "--length", "2 mm")
    assert "NO FULL THREAD" not in said("M4", "--length", "2.1 mm")
    # By hand all the way there is neither a carriage speed nor a time.
    assert "Carriage" not in said("M4", "--length", "2 mm")
    assert "9 passes, 2 of them spring passes, by hand; no times are told of that" in said("M4", "--length", "2 mm")
    found = answer_of("thread", "M4", "--length", "2 mm", "--show", "speed")["speed"]["to_shoulder"]
    timed = ("at_rpm", "carriage_per_minute", "seconds", "cutting_seconds", "seconds_with_return_in_reverse")
    assert [found[each] for each in timed] == [None] * 5
    assert found["by_hand"] is True


def test_a_spindle_turned_by_hand_is_given_turns_and_no_times():
    screen = said("Tr 40x7", "--starts", "6", "--run-out", "3mm", "--length", "42mm")
    assert "1 turn of the spindle" in screen
    assert "no times are told of that" in screen
    assert "mm/s" not in screen
    found = answer_of("thread", "Tr 40x7", "--starts", "6", "--run-out", "3mm", "--length", "42mm")["speed"][
        "to_shoulder"
    ]
    assert (found["by_hand"], found["at_rpm"], found["seconds"]) == (True, None, None)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("M4", "--length", "0mm"), "above zero"),
        (("M4", "--length", "10"), "needs its unit"),
        (("M4", "--length", "10mm", "--show", "hole"), "speaks to the section speed"),
    ],
)
def test_a_length_that_says_nothing_is_refused(words, told):
    outcome = halfnut("thread", *words)
    assert outcome.returncode == 2
    assert told in outcome.stderr
