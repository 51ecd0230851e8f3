"""What is said of trains, word for word: the hand, what the box lacks, places of wheels, what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.trains.changes import changes, standing
from solver.trains.chart_audit import audit_chart
from solver.trains.chart_constant import ChartRow, infer_constant
from solver.trains.fit_tolerance import FitTolerance
from solver.trains.hand import Hand, plan_hand
from solver.trains.starts import plan_starts
from solver.trains.train_audit import audit_train
from solver.trains.train_rules import broken_rules
from solver.trains.train_search import TrainQuestion, search_trains
from solver.trains.wheels import Pair, Train
from solver.trains.written_trains import read_set_up, read_train
from tests.small_lathes import a_lathe, box_of

FINE, COARSE = box_of(20, 30, 40, 60), box_of(20, 33, 44, size="2", only_in_pair=1)


# (meshes, idlers, a reverse, hand asked for, what is said)
TURNS = [
    (1, 0, True, Hand.RIGHT, "right-hand by the reverse (1 mesh: the leadscrew turns against the stud gear)"),
    (2, 0, True, Hand.LEFT, "left-hand by the reverse (2 meshes: the leadscrew turns as the stud gear)"),
    (
        3,
        2,
        True,
        Hand.RIGHT,
        "right-hand by the reverse (3 meshes with 2 idlers: the leadscrew turns against the stud gear)",
    ),
    (1, 0, False, Hand.RIGHT, "1 mesh: left-hand without an idler"),
    (2, 0, False, Hand.LEFT, "2 meshes: right-hand without an idler"),
    (2, 1, False, Hand.LEFT, "2 meshes with 1 idler: right-hand"),
    (3, 2, False, Hand.RIGHT, "3 meshes with 2 idlers: left-hand"),
]


@pytest.mark.parametrize(("meshes", "idlers", "reverse", "hand", "words"), TURNS)
def test_how_the_hand_comes_about_is_said(meshes, idlers, reverse, hand, words):
    plan = plan_hand(meshes, a_lathe(reverse=reverse), hand, idlers)
    assert plan.by == words
    assert plan.hand.value == (hand.value if reverse else words.split(": ")[1].split("-")[0])


# (train, lathe, what the box lacks)
LACKING = [
    (Train(()), a_lathe(40), ["a train has at least one pair"]),
    (
        read_train("40-40-60-60"),
        a_lathe(40),
        ["40 T is needed 2 times; the box holds 1", "60 T is not in the box"],
    ),
    (read_train("40-60"), a_lathe(40), ["60 T is not in the box"]),
    (
        Train((Pair(40, 60, 2), Pair(20, 30, 0), Pair(20, 33, 1))),
        a_lathe(classes=(FINE, COARSE)),
        ["pair 1 is of a class of wheels that the box does not hold", "wheels of module 2 go only in pair 1"],
    ),
    (Train((Pair(40, 60, -1),)), a_lathe(40), ["pair 1 is of a class of wheels that the box does not hold"]),
    (Train((Pair(20, 33, 1), Pair(20, 30, 0))), a_lathe(classes=(FINE, COARSE)), []),
]  # fmt: skip


@pytest.mark.parametrize(("train", "lathe", "words"), LACKING, ids=[str(number) for number in range(len(LACKING))])
def test_what_the_box_lacks_is_said(train, lathe, words):
    assert list(broken_rules(train, lathe)) == words


def test_idlers_come_out_of_the_box_too():
    train, idlers = read_set_up("40-(50)-60-20-(40)-30")
    assert broken_rules(train, a_lathe(20, 30, 40, 60), idlers) == (
        "40 T is needed 2 times; the box holds 1",
        "50 T is not in the box",
    )


def test_the_places_of_wheels_are_named_from_the_spindle_on():
    rows = changes(read_train("20-40-50-60-70-127"), read_train("21-41-51-61-71-120"))
    assert [(row.place, row.off, row.on) for row in rows] == [
        ("stud gear", 20, 21),
        ("stud 1, driven", 40, 41),
        ("stud 1, driver", 50, 51),
        ("stud 2, driven", 60, 61),
        ("stud 2, driver", 70, 71),
        ("leadscrew", 127, 120),
    ]
    train, idlers = read_set_up("20-(65)-(60)-40-50-(63)-(64)-127")
    assert [(each.place, each.teeth) for each in sorted(standing(train, idlers))] == [
        ("stud gear", 20),
        ("idler in mesh 1", 65),
        ("idler 2 in mesh 1", 60),
        ("stud 1, driven", 40),
        ("stud 1, driver", 50),
        ("idler in mesh 2", 63),
        ("idler 2 in mesh 2", 64),
        ("leadscrew", 127),
    ]


LEVERS = (("A", Fraction(1)), ("B", Fraction(1, 2)))
ROW = ChartRow(2, "3 mm", Length.of_mm(3), read_train("40-40"))
# What is asked that cannot be answered, and the full answer; the last five no command can ask.
REFUSED = [
    (
        lambda: audit_train(read_train("40-60"), a_lathe(levers=LEVERS), "C"),
        "lever position 'C' is not on this lathe\nPositions: A, B.",
    ),
    (
        lambda: audit_train(read_train("40-60"), a_lathe(levers=LEVERS)),
        "this lathe has a gearbox: name its lever\nPositions: A, B.",
    ),
    (
        lambda: audit_train(read_train("40-60"), a_lathe(), "A"),
        "lever position 'A' is not on this lathe\nIt has no gearbox.",
    ),
    (
        lambda: search_trains(TrainQuestion(Length.of_mm(1)), a_lathe(40)),
        "a train needs at least two wheels; the box holds fewer\nAdd wheels to [wheels] teeth in the lathe file.",
    ),
    (lambda: plan_starts(Train(()), Length.of_mm(1), 1, a_lathe()), "1 start: there is no other groove to move to"),
    (lambda: FitTolerance.given(Length.of_mm(0), "given"), "a tolerance is above zero, not 0 mm"),
    (lambda: infer_constant([], Fraction(0)), "a constant is inferred from one row at least, within 0 to 1"),
    (lambda: infer_constant([ROW], Fraction(1)), "a constant is inferred from one row at least, within 0 to 1"),
    (
        lambda: audit_chart([ROW, ROW._replace(lever="Z"), ROW._replace(lever="Y")], Fraction(0), a_lathe()),
        "not on this lathe: ['Y', 'Z']",
    ),
]


@pytest.mark.parametrize(("asked", "words"), REFUSED, ids=[str(number) for number in range(len(REFUSED))])
def test_what_cannot_be_answered_is_refused_in_these_words(asked, words):
    with pytest.raises(ValueError, match=".") as refused:
        asked()
    assert str(refused.value) == words


def test_what_a_person_can_ask_is_refused_as_a_setting_that_cannot_be():
    for asked, _ in REFUSED[:4]:
        with pytest.raises(ImpossibleSettingError):
            asked()
