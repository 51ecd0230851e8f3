"""What stands in the way of a train on the banjo, and what could not be checked, word for word."""

from __future__ import annotations

from typing import Any

import pytest

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.trains.hand import Hand
from solver.trains.lathe import Banjo, Lathe
from solver.trains.mounting import Mounter, judge
from solver.trains.wheels import Pair, Train
from solver.trains.written_trains import read_set_up, read_train
from tests.small_lathes import a_lathe, box_of, mm

FINE, COARSE = box_of(20, 30, 40, 60), box_of(20, 33, 44, size="2", only_in_pair=1)


def span(least: int | str, most: int | str) -> tuple[Length, Length]:
    return mm(least), mm(most)


def slotted(centres: int | str, slot: tuple[int | str, int | str] | None = (30, 100), **more: Any) -> Banjo:
    nut = more.pop("nut", 10)
    ends = span(*slot) if slot else None
    return Banjo(centre_distance=mm(centres), slot=ends, stud_nut=mm(nut), **more)


# A wheel of T teeth and module 1 has a pitch radius of T / 2 mm and a tip of T / 2 + 1 mm.
FAULTS = [
    # 60 and 70 share stud 1, 50 and 65 stud 2: one stud fewer than the pairs.
    ("40-60-70-50-65-80", Banjo(1, stud_nut=mm(1)), ["2 studs are needed; the banjo has 1"]),
    ("40-60-50-70", Banjo(0, stud_nut=mm(1)), ["1 stud is needed; the banjo has 0"]),
    (
        "40-60-50-70",
        Banjo(planes=1, stud_nut=mm(1)),
        ["2 pairs turn in 2 planes; the axes are 1 wheel deep"],
    ),
    ("40-60-50-70", Banjo(planes=2, stud_nut=mm(1)), []),
    ("40-60", Banjo(planes=1, stud_nut=mm(1)), []),
    ("40-60-50-127", Banjo(largest_wheel_teeth=127, stud_nut=mm(1)), []),
    ("40-60", slotted(50), []),
    (
        "40-60-50-127",
        Banjo(largest_wheel_teeth=126, stud_nut=mm(1)),
        ["127 T is larger than the 126 T the guard allows"],
    ),
    (
        "40-60",
        Banjo(mesh_limits=(span(10, 90), span(10, 90)), stud_nut=mm(1)),
        ["1 mesh does not span the banjo, which takes 2: an idler is needed"],
    ),
    (
        "40-60",
        Banjo(mesh_limits=(span(10, 90),) * 3, stud_nut=mm(1)),
        ["1 mesh does not span the banjo, which takes 3: 2 idlers are needed"],
    ),
    (
        "40-60-50-70",
        Banjo(mesh_limits=(span(10, 90),) * 3, stud_nut=mm(1)),
        ["2 meshes do not span the banjo, which takes 3: an idler is needed"],
    ),
    # 20 + 30 and 25 + 35 mm; a limit itself is allowed.
    (
        "40-60-50-70",
        Banjo(mesh_limits=(span(50, 50), span("60.005", 90)), stud_nut=mm(1)),
        ["mesh 2 needs 60 mm between centres; the banjo allows 60 to 90 mm"],
    ),
    (
        "40-60-50-70",
        Banjo(mesh_limits=(span(40, "49.99"), span(60, 60)), stud_nut=mm(1)),
        ["mesh 1 needs 50 mm between centres; the banjo allows 40 to 49.99 mm"],
    ),
    # The idler of 80 T on the leadscrew's 60 T: 40 + 30 mm.
    (
        "40-(80)-60",
        slotted(120, (30, "69.5")),
        ["stud 1 would sit 70 mm from the leadscrew; the slot gives 30 to 69.5 mm"],
    ),
    ("40-(80)-60", slotted(120, (71, 90)), ["stud 1 would sit 70 mm from the leadscrew; the slot gives 71 to 90 mm"]),
    # Three sides of 60, 70 and 120 mm: cos of the angle at the leadscrew is (70² + 120² - 60²) / (2 × 70 × 120), 21°.
    (
        "40-(80)-60",
        slotted(120, swing=(Angle.of_degrees(-5), Angle.of_degrees("20.5"))),
        ["the banjo would have to swing beyond -5° to 20.5°"],
    ),
    # Tips of 51 and 46 mm in one plane, axes 90 mm apart.
    (
        "100-(60)-90",
        slotted(90, None, nut=5),
        ["the 100 T on the stud gear and the 90 T on the leadscrew overlap in one plane: 90 mm apart, 97 mm needed"],
    ),
    # 15 where no nut is known; with one of 16.28 mm k is 2 + 16.28, told to a tenth.
    ("32-24-100-48", None, ["the 100 T on stud 1 fouls the shaft of the stud gear: 32 + 24 is not above 100 + 15"]),
    (
        "32-24-40-48",
        Banjo(stud_nut=mm("16.28")),
        ["the 40 T on stud 1 fouls the shaft of the stud gear: 32 + 24 is not above 40 + 18.3"],
    ),
    # d + c = 50 is not above b + k = 60 + 5.
    (
        "40-60-30-20",
        Banjo(stud_nut=mm(3)),
        ["the 60 T on stud 1 fouls the shaft of the leadscrew: 30 + 20 is not above 60 + 5"],
    ),
    # The wheel on stud 2 reaches the leadscrew's shaft: mesh 3 is 20 + 20 teeth, 50 on the same stud.
    (
        "40-60-65-50-20-20",
        Banjo(stud_nut=mm(3)),
        ["the 50 T on stud 2 fouls the shaft of the leadscrew: 20 + 20 is not above 50 + 5"],
    ),
    # Two wheels alone stand at their own distance and no other.
    (
        "40-60",
        slotted("50.01"),
        ["40 T and 60 T make 50 mm; stud gear and leadscrew are 50.01 mm apart, which takes an idler"],
    ),
    # Stud 1 stands 70 mm from the leadscrew, so 131 - 70 to 131 + 70 mm would have to be 20 + 40.
    (
        "40-(80)-60",
        slotted(131),
        ["40 T and 80 T are too short: 60 mm between centres, 61 to 201 mm needed for stud 1"],
    ),
    ("60-(80)-60", slotted("139.99", None, nut=1), []),
    (
        "127-(90)-20",
        slotted(50, None, nut=1),
        ["127 T and 90 T are too long: 108.5 mm between centres, 5 to 105 mm needed for stud 1"],
    ),
    # Two wheels on axes that do not mesh: a tip of 51 mm beside half a nut of 10 mm, axes 50 mm apart.
    (
        "100-20-30-40",
        slotted(50, None),
        ["the 100 T on the stud gear fouls the shaft of the leadscrew: 50 mm apart, more than 56 mm needed"],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("text", "banjo", "reasons"), FAULTS, ids=[str(number) for number in range(len(FAULTS))])
def test_what_stands_in_the_way_on_a_banjo_is_said_in_these_words(text, banjo, reasons):
    train, idlers = read_set_up(text)
    assert list(judge(train, a_lathe(banjo=banjo), idlers).reasons) == reasons


# 20 and 33 T of module 2 mesh at 53 mm, 30 and 40 T of module 1 at 35 mm; half a nut of 10 mm, or 6.5 modules without.
MIXED = [
    (
        Train((Pair(20, 33, 1), Pair(127, 20))),
        Banjo(stud_nut=mm(10)),
        ["the 127 T on stud 1 fouls the shaft of the stud gear: 53 mm apart, more than 69.5 mm needed"],
    ),
    (
        Train((Pair(20, 33, 1), Pair(127, 20))),
        None,
        ["the 127 T on stud 1 fouls the shaft of the stud gear: 53 mm apart, more than 71 mm needed"],
    ),
    (
        Train((Pair(44, 20, 1), Pair(20, 20))),
        None,
        ["the 20 T on stud 1 fouls the shaft of the leadscrew: 20 mm apart, more than 35 mm needed"],
    ),
]


@pytest.mark.parametrize(("train", "banjo", "reasons"), MIXED, ids=["nut", "no nut", "coarse wheel"])
def test_between_wheels_of_two_sizes_the_distance_is_said(train, banjo, reasons):
    assert list(judge(train, a_lathe(banjo=banjo, classes=(FINE, COARSE))).reasons) == reasons


def test_k_of_a_coarse_wheel_is_the_nut_in_its_own_modules():
    # 20 + 20 teeth of module 2 are not above 33 + 2 + 15 / 2.
    train = Train((Pair(20, 20, 1), Pair(33, 20, 1)))
    words = judge(train, a_lathe(banjo=Banjo(stud_nut=mm(15)), classes=(FINE, COARSE))).reasons
    assert words == ("the 33 T on stud 1 fouls the shaft of the stud gear: 20 + 20 is not above 33 + 9.5",)


def test_what_hangs_on_less_than_the_bound_is_called_too_close():
    # Three sides of 60 mm: the slot swings 60 degrees, the very end of what it can.
    banjo = slotted(60, (30, 90), nut=5, swing=(Angle.of_degrees(-20), Angle.of_degrees(60)))
    assert judge(*read_and_box("30-(90)-30", banjo)).reasons == (
        "too close to call: the banjo would have to swing beyond -20° to 60°",
    )


def read_and_box(text: str, banjo: Banjo | None) -> tuple[Train, Lathe, tuple[Any, ...]]:
    train, idlers = read_set_up(text)
    return train, a_lathe(banjo=banjo), idlers


# What the file lacks for a full answer: (banjo, train, points).
OPEN = [
    (
        None,
        "40-60",
        [
            "the room a wheel needs past a shaft: the file gives no stud_nut, and k = 15 teeth are taken",
            "reach of the banjo, where an idler may have to stand between: the file has no [banjo]",
        ],
    ),
    (
        Banjo(),
        "40-60",
        [
            "the room a wheel needs past a shaft: the file gives no stud_nut, and k = 15 teeth are taken",
            (
                "reach of the banjo, where an idler may have to stand between: the file gives neither centre_distance "
                "nor mesh_limits"
            ),
        ],
    ),
    (
        Banjo(slot=span(30, 90), stud_nut=mm(5), mesh_limits=(span(10, 90),)),
        "40-60",
        ["stud places and swing: the file gives a slot but no centre_distance"],
    ),
    (Banjo(stud_nut=mm(5), mesh_limits=(span(10, 90),)), "40-60", []),
    (
        Banjo(stud_nut=mm(5), mesh_limits=(span(10, 90),)),
        "40-60-50-70",
        ["meshes beyond 1: mesh_limits gives no more"],
    ),
    (
        Banjo(stud_nut=mm(5), centre_distance=mm(50), mesh_limits=(span(10, 90),)),
        "40-60-50-70",
        ["ends of the slot: the file gives none", "swing: the file gives no limits"],
    ),
    (
        slotted(120, swing=(Angle.of_degrees(-90), Angle.of_degrees(90))),
        "40-60-50-70",
        [],
    ),
]


@pytest.mark.parametrize(("banjo", "text", "points"), OPEN, ids=[str(number) for number in range(len(OPEN))])
def test_what_could_not_be_checked_is_named(banjo, text, points):
    assert list(judge(read_train(text), a_lathe(banjo=banjo)).not_checked) == points


# (lathe, hand, train, reasons of the best choice of idlers)
HANDS = [
    (
        a_lathe(40, 60, reverse=False),
        Hand.RIGHT,
        "40-60",
        ["a right-hand thread needs an idler, and no wheel is left for one"],
    ),
    (
        a_lathe(40, 60, 65, reverse=False, banjo=Banjo(0)),
        Hand.RIGHT,
        "40-60",
        ["a right-hand thread needs an idler, and no stud is left for one"],
    ),
    (
        a_lathe(40, 60, 50, 70, reverse=False),
        Hand.LEFT,
        "40-60-50-70",
        ["a left-hand thread needs an idler, and no wheel is left for one"],
    ),
    # One choice, 30 T, and two choices, 30 and 32 T: all leave stud 1 too near the leadscrew for its slot.
    (
        a_lathe(40, 60, 30, reverse=False, banjo=slotted(80, (46, 90))),
        Hand.RIGHT,
        "40-60",
        ["stud 1 would sit 45 mm from the leadscrew; the slot gives 46 to 90 mm"],
    ),
    (
        a_lathe(40, 60, 30, 32, reverse=False, banjo=slotted(80, (47, 90))),
        Hand.RIGHT,
        "40-60",
        [
            "stud 1 would sit 46 mm from the leadscrew; the slot gives 47 to 90 mm",
            "nor does it with the one other choice of idlers left in the box",
        ],
    ),
    (
        a_lathe(40, 60, 30, 32, 34, reverse=False, banjo=slotted(80, (48, 90))),
        Hand.RIGHT,
        "40-60",
        [
            "stud 1 would sit 47 mm from the leadscrew; the slot gives 48 to 90 mm",
            "nor does it with any of the 2 other choices of idlers left in the box",
        ],
    ),
]


@pytest.mark.parametrize(("lathe", "hand", "text", "reasons"), HANDS, ids=[str(number) for number in range(len(HANDS))])
def test_why_no_idler_helps_is_said(lathe, hand, text, reasons):
    mounting = Mounter(lathe, hand).mount(read_train(text))
    assert list(mounting.reasons) == reasons
    assert mounting.verdict.value == "does not fit"
    assert mounting.not_checked == judge(read_train(text), lathe).not_checked
