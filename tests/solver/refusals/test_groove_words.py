"""Why a way from groove to groove does not serve, word for word."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from solver.quantities.lengths import Length
from solver.trains.lathe import ChasingDial, Lathe
from solver.trains.starts import Way, plan_starts
from solver.trains.wheels import Train
from solver.trains.written_trains import read_train

INCH = Length.of_inches
DIAL, TEETH, NUT, SPINDLE, SLIDE = Way.DIAL_LINES, Way.TEETH, Way.HALF_NUT, Way.SPINDLE, Way.TOP_SLIDE


def a_lathe(screw: str = "1/4", turns: str = "1", **more: Any) -> Lathe:
    return Lathe("drawn", "", INCH(screw), Fraction(turns), True, (), **more)


NO_TEETH = (
    "1/3 turn of the spindle passes no whole number of teeth at any mesh ({}), nor do up to 5 turns; a first driver "
    "whose teeth divide by {} would serve"
)
NO_MESH = (
    "after 1/3 turn no mesh of the train closes again on whole teeth; 20 of 60 spaces serve only where that wheel "
    "itself drives the train and can be taken out of mesh"
)

# (way, grooves, lead in inches, train, lathe, what is said)
WORDS = [
    (DIAL, 2, "1/2", "", a_lathe(), "the lathe file has no [chasing_dial]"),
    # 16 threads of 1/4 in are no whole number of leads of 3/7 in.
    (
        DIAL,
        2,
        "3/7",
        "",
        a_lathe(chasing_dial=ChasingDial(16, 8)),
        "no line of the dial finds the same groove on every round",
    ),
    # From line to line 1/4 in, two grooves of four; then 1/2 in, the same groove of two, and of four.
    (
        DIAL,
        4,
        "1/2",
        "",
        a_lathe(chasing_dial=ChasingDial(16, 16)),
        "no line of the dial stands for starts 2 and 4",
    ),
    (DIAL, 2, "1/2", "", a_lathe(chasing_dial=ChasingDial(16, 8)), "no line of the dial stands for start 2"),
    (DIAL, 4, "1/2", "", a_lathe(chasing_dial=ChasingDial(16, 8)), "no line of the dial stands for starts 2, 3 and 4"),
    (DIAL, 2, "1/2", "", a_lathe(chasing_dial=ChasingDial(16, 16)), ""),
    (
        TEETH,
        3,
        "1/6",
        "40-60",
        a_lathe(),
        NO_TEETH.format("the 40 T driver 13 1/3", 3),
    ),
    # The stud gear at half the turns: 20 teeth of 40, and 50 / 3 teeth of 50, in a turn of the spindle.
    (
        TEETH,
        3,
        "1/6",
        "40-60-50-127",
        a_lathe(turns="1/2"),
        NO_TEETH.format("the 40 T driver 6 2/3, the 50 T driver 5 5/9", 6),
    ),
    (TEETH, 4, "1/6", "40-60", a_lathe(), ""),
    (NUT, 2, "1/4", "", a_lathe(), "wherever the nut can close, the tool is in the same groove again"),
    (NUT, 4, "1/2", "", a_lathe(), "however often it is moved, the tool comes into 2 of 4 grooves only"),
    # Threads of 1/2 in are four grooves of 1/8 in: of six, every other one.
    (NUT, 6, "3/4", "", a_lathe("1/2"), "however often it is moved, the tool comes into 3 of 6 grooves only"),
    # Grooves 20/127 in apart and threads of 1/8 in agree after 20 in, which is 508 mm.
    (NUT, 4, "80/127", "", a_lathe("1/8"), "the nut closes in no other groove within 500 mm"),
    # Grooves 10/127 in apart: after 10 in, one groove on; two of them are 508 mm.
    (NUT, 3, "30/127", "", a_lathe("1/8"), "some grooves are reached only by a move beyond 500 mm"),
    (NUT, 2, "1/2", "", a_lathe(), ""),
    (SPINDLE, 3, "1/6", "45-60", a_lathe(), "the lathe file has no [spindle_stops]"),
    (SPINDLE, 7, "1/6", "45-60", a_lathe(spindle_stops=(60,)), "60 spaces do not divide by 7"),
    (SPINDLE, 7, "1/6", "45-60", a_lathe(spindle_stops=(60, 64)), "60 or 64 spaces do not divide by 7"),
    (
        SPINDLE,
        3,
        "1/6",
        "40-60",
        a_lathe(spindle_stops=(64, 60)),
        NO_MESH,
    ),
    (SPINDLE, 3, "1/6", "45-60", a_lathe(spindle_stops=(60,)), ""),
    (SLIDE, 3, "1/6", "40-60", a_lathe(), ""),
]


@pytest.mark.parametrize(
    ("way", "grooves", "lead", "train", "lathe", "words"), WORDS, ids=[str(number) for number in range(len(WORDS))]
)
def test_why_a_way_does_not_serve_is_said(way, grooves, lead, train, lathe, words):
    plan = plan_starts(read_train(train) if train else Train(()), INCH(lead), grooves, lathe)
    found = next(each for each in plan.ways if each.way is way)
    assert found.reason == words
    assert found.serves is (words == "")


@pytest.mark.parametrize(
    ("farthest", "words"),
    [
        # After 254 mm, 10 in, the tool is one groove on; 508 mm would be two.
        ("254", "some grooves are reached only by a move beyond 254 mm"),
        ("253.6", "the nut closes in no other groove within 254 mm"),
        ("100.4", "the nut closes in no other groove within 100 mm"),
    ],
)
def test_the_longest_move_is_the_one_that_is_told(farthest, words):
    plan = plan_starts(Train(()), INCH("30/127"), 3, a_lathe("1/8"), farthest=Length.of_mm(farthest))
    assert next(each.reason for each in plan.ways if each.way is NUT) == words
