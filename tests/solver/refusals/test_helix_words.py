"""What is said, word for word, of a helix that cannot be cut, and of wheels that do not go on."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.dividing.heads import Head
from solver.helices.cutter_ranges import cutter_for
from solver.helices.helix import gear_diameter, lead_from_angle, lead_of_gear
from solver.helices.helix_trains import HelixQuestion, search_helix, shaft_faults
from solver.helices.mill import Mill, mill_of
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.trains.hand import Hand
from solver.trains.written_trains import read_train
from tests.solver.refusals.said_words import look_at_words, said

MM, DEGREES = Length.of_mm, Angle.of_degrees
HEAD = Head("bare", Fraction(40), ())
MILL = Mill("40:1", Fraction(40), Length.of_inches("1/4"), ((24, 1), (48, 1)))


REFUSED = [
    said(
        lambda: cutter_for(Fraction(1199, 100)),
        "the set of eight cutters begins at 12 teeth\nMore teeth or a greater helix angle.",
    ),
    said(
        lambda: lead_from_angle(MM(10), DEGREES("0.099")),
        "a helix angle is answered from 0.1 to 80 degrees from the axis\n"
        "Near 90 degrees it is a thread: gear the lathe for it.",
    ),
    said(
        lambda: lead_of_gear(10, MM(10), DEGREES("80.1")),
        "a helix angle is answered from 0.1 to 80 degrees from the axis\n"
        "Near 90 degrees it is a thread: gear the lathe for it.",
    ),
    said(
        lambda: gear_diameter(10, MM(10), DEGREES(90)),
        "a helix angle is answered from 0.1 to 80 degrees from the axis\n"
        "Near 90 degrees it is a thread: gear the lathe for it.",
    ),
    said(
        lambda: mill_of(HEAD),
        "a helix needs wheels from the table screw, which the file of 'bare' does not describe\n"
        'Add [wheels] with teeth = { 24 = 2, 28 = 1 } and [table] with lead = "4 tpi" to it.',
    ),
    said(
        lambda: mill_of(Head("no screw", Fraction(40), (), wheels=((24, 2),))),
        "a helix needs wheels from the table screw, which the file of 'no screw' does not describe\n"
        'Add [table] with lead = "4 tpi" to it.',
    ),
    said(
        lambda: mill_of(Head("no wheels", Fraction(40), (), table_lead=MM(5))),
        "a helix needs wheels from the table screw, which the file of 'no wheels' does not describe\n"
        "Add [wheels] with teeth = { 24 = 2, 28 = 1 } to it.",
    ),
]


@pytest.mark.parametrize(("ask", "says"), REFUSED)
def test_a_helix_is_refused_in_just_these_words(ask, says):
    look_at_words(ask, says)


@pytest.mark.parametrize(
    ("train", "faults"),
    [
        ("100-24-32-48", []),
        ("32-24-100-48", ["the 100 T on stud 1 fouls the table screw: 32 + 24 is not above 100 + 15"]),
        ("48-100-32-24", ["the 100 T on stud 1 fouls the head's shaft: 32 + 24 is not above 100 + 15"]),
        ("24-32-28-60-100-40", ["the 100 T on stud 2 fouls stud 1: 28 + 60 is not above 100 + 15"]),
    ],
)
def test_a_fault_names_the_wheel_and_the_shaft_it_fouls(train, faults):
    assert list(shaft_faults(read_train(train), MILL)) == faults


def test_a_hand_that_wants_an_idler_where_no_wheel_is_left_is_said_so():
    # One pair turns the work the other way; both wheels of the box are in it, so that none can go between.
    report = search_helix(HelixQuestion(Length.of_inches(20), Hand.RIGHT), MILL)
    assert [(str(each.train), each.faults) for each in report.set_aside] == [
        ("24-48", ("the hand asked for needs an idler, and no wheel is left for one",))
    ]
