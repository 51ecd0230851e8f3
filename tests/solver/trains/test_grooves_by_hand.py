"""From groove to groove, worked by hand: teeth, holes, leadscrew threads, dial lines and marks of the top slide."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.lengths import Length
from solver.trains.lathe import ChasingDial, Lathe
from solver.trains.start_moves import (
    DialReading,
    NutJump,
    SpindleCount,
    ToothCount,
    dial_lines_by_start,
    dial_readings,
    groove_order,
    nearest_jumps,
    nut_jumps,
    spindle_counts,
    teeth_in_a_turn,
    tooth_counts,
)
from solver.trains.starts import Way, plan_starts
from solver.trains.wheels import Train
from solver.trains.written_trains import read_train

INCH, MM = Length.of_inches, Length.of_mm
HALF = Fraction(1, 2)


def a_lathe(turns: str = "1", **more: object) -> Lathe:
    return Lathe("drawn", "", INCH("1/4"), Fraction(turns), True, (), **more)  # type: ignore[arg-type]


# Teeth: half a turn of a 20 T driver is 10 teeth; behind 20 over 45 a 50 T driver passes 200/9 teeth in a turn, so 100
# teeth in nine half turns; behind 20 over 55 it would be eleven half turns, which is too many to count.


@pytest.mark.parametrize(
    ("train", "turns", "starts", "moves"),
    [
        (
            "20-45-50-60",
            "1",
            2,
            [ToothCount(1, 20, 10, HALF, 1), ToothCount(2, 50, 100, Fraction(9, 2), 1)],
        ),
        ("20-55-50-60", "1", 2, [ToothCount(1, 20, 10, HALF, 1)]),
        # The stud at a third of the turns: 40/3 teeth in a turn, 20 in three halves; the second mesh is the quicker.
        ("40-20-60-50", "1/3", 2, [ToothCount(2, 60, 20, HALF, 1), ToothCount(1, 40, 20, Fraction(3, 2), 1)]),
        # 48 teeth at two fifths of the turns: 96/5 in a turn, 32 in five thirds, and five grooves on is two of three.
        ("48-60", "2/5", 3, [ToothCount(1, 48, 32, Fraction(5, 3), 2)]),
        # At half the turns 40 teeth are 20 in a turn and 5 in a quarter; at twice, 20.
        ("40-60", "1/2", 4, [ToothCount(1, 40, 5, Fraction(1, 4), 1)]),
        ("40-60", "2", 4, [ToothCount(1, 40, 20, Fraction(1, 4), 1)]),
        # Two turns pass whole teeth only, and two grooves at a time of four come into two of them.
        ("20-40-44-60", "1/2", 4, []),
        ("40-60-48-50", "1", 3, []),
    ],
)
def test_whole_teeth_that_pass_between_two_grooves(train, turns, starts, moves):
    assert list(tooth_counts(read_train(train), a_lathe(turns), starts)) == moves


def test_teeth_that_pass_in_a_turn_of_the_spindle():
    # 40 x 1/2 = 20; behind 40 over 60 the stud makes a third of a turn: 50/3; behind 50 over 75 two ninths: 63 x 2/9.
    assert teeth_in_a_turn(read_train("40-60-50-75-63-70"), a_lathe("1/2")) == (20, Fraction(50, 3), 14)


def test_holes_that_divide_and_the_first_mesh_that_closes_again():
    lathe = a_lathe(spindle_stops=(60, 50, 48))
    # A third of a turn is 13 1/3 teeth of 40; behind 40 over 20 it is 30 of 45.
    found = spindle_counts(read_train("40-20-45-60"), lathe, 3)
    assert found == (SpindleCount(60, 20, 2), SpindleCount(48, 16, 2))
    assert spindle_counts(read_train("45-20-40-60"), lathe, 3)[0].mesh == 1
    assert spindle_counts(read_train("40-60"), lathe, 3) == (SpindleCount(60, 20, None), SpindleCount(48, 16, None))
    assert spindle_counts(read_train("45-20-60-30"), lathe, 3)[0].mesh == 1


def test_the_order_in_which_a_repeated_move_cuts_the_grooves():
    assert [groove_order(shift, 6) for shift in (1, 2, 3, 4, 5, 0)] == [
        (0, 1, 2, 3, 4, 5),
        (0, 2, 4),
        (0, 3),
        (0, 4, 2),
        (0, 5, 4, 3, 2, 1),
        (0,),
    ]


def test_where_the_nut_closes_in_a_groove():
    # Grooves 1/6 in apart, threads 1/4 in: they agree every half inch, which is two threads and three grooves.
    moves = nut_jumps(INCH("2/3"), 4, INCH("1/4"), INCH(2))
    assert [(move.distance.inches, move.threads, move.shift) for move in moves] == [
        (HALF, 2, 3),
        (1, 4, 2),
        (Fraction(3, 2), 6, 1),
        (2, 8, 0),
    ]
    assert len(list(nut_jumps(INCH("2/3"), 4, INCH("1/4"), INCH("1.99")))) == 3


def test_the_shortest_move_into_each_groove_and_those_that_none_reaches():
    # Grooves 1/8 in apart, threads 1/4 in: two grooves at a time.
    nothing = NutJump(MM(0), 0, 0)
    assert nearest_jumps(INCH("1/2"), 4, INCH("1/4"), INCH(9)) == (nothing, None, NutJump(INCH("1/4"), 1, 2), None)
    near = nearest_jumps(INCH("2/3"), 4, INCH("1/4"), INCH(1))
    assert near == (nothing, None, NutJump(INCH(1), 4, 2), NutJump(INCH(HALF), 2, 3))


# Dial wheel 16 on threads of 1/4 in: once round is 4 in.
EVEN, ODD = tuple(range(0, 16, 2)), tuple(range(1, 16, 2))


@pytest.mark.parametrize(
    ("lead", "starts", "screw", "dial", "lines"),
    [
        # 16 lines are a thread apart, two grooves of 1/8 in: even lines for the first, odd for the third.
        (INCH("1/2"), 4, INCH("1/4"), ChasingDial(16, 16), [EVEN, (), ODD, ()]),
        (INCH("1/2"), 4, INCH("1/4"), ChasingDial(16, 4), [(0, 1, 2, 3), (), (), ()]),
        # 3/7 in does not go into 4 in: the next round finds another groove.
        (INCH("3/7"), 2, INCH("1/4"), ChasingDial(16, 16), [(), ()]),
        # 8 lines on a wheel of 12: every other line stands between two threads, over a groove all the same.
        (MM(9), 3, MM(6), ChasingDial(12, 8), [(0, 2, 4, 6), (), ()]),
        # Threads of 3 mm, grooves of 2 mm: every other thread stands between two grooves.
        (MM(6), 3, MM(3), ChasingDial(16, 16), [EVEN, (), ()]),
        # Threads of 3 mm, grooves of 1 mm, five of them: 3, 6, 9, 12 mm are grooves 3, 1, 4, 2.
        (MM(5), 5, MM(3), ChasingDial(5, 5), [(0,), (2,), (4,), (1,), (3,)]),
    ],
)
def test_lines_of_the_dial_for_each_groove(lead, starts, screw, dial, lines):
    assert list(dial_lines_by_start(lead, starts, screw, dial)) == lines


def test_marks_of_the_top_slide_counted_from_the_first_groove():
    # 62.5 marks of 0.02 mm, 125 marks, 187.5 marks: a half goes to the even one.
    assert dial_readings(MM("1.25"), 4, MM("0.02")) == (
        DialReading(1, 62, MM("-0.01")),
        DialReading(2, 125, MM(0)),
        DialReading(3, 188, MM("0.01")),
    )


def test_a_whole_plan_by_hand():
    # 2/3 in of lead, four grooves, 4 threads to the inch: half an inch is three grooves; 80 T are 4 x 20.
    lathe = a_lathe(spindle_stops=(60,), chasing_dial=ChasingDial(16, 16))
    plan = plan_starts(read_train("80-30"), INCH("2/3"), 4, lathe)
    nothing, three = NutJump(MM(0), 0, 0), NutJump(INCH(HALF), 2, 3)
    two, one = NutJump(INCH(1), 4, 2), NutJump(INCH("3/2"), 6, 1)
    assert (plan.starts, plan.pitch, plan.nut_every) == (4, INCH("1/6"), INCH(HALF))
    assert plan.teeth == (ToothCount(1, 80, 20, Fraction(1, 4), 1),)
    assert plan.spindle == (SpindleCount(60, 15, 1),)
    assert plan.jumps == (nothing, one, two, three)
    assert (plan.repeated, plan.by_one) == (three, one)
    # Once round the dial is 4 in, six leads; a line is 1/4 in, a groove and a half: even lines, three grooves apart.
    assert plan.dial_lines == ((0, 8), (6, 14), (4, 12), (2, 10))
    assert [(each.way, each.serves) for each in plan.ways] == [(way, True) for way in Way]


def test_ways_that_serve_come_before_those_that_do_not():
    plan = plan_starts(Train(()), INCH("1/2"), 4, a_lathe())
    assert [(each.way.value, each.serves) for each in plan.ways] == [
        ("top slide", True),
        ("chasing dial", False),
        ("wheel teeth", False),
        ("half-nut jump", False),
        ("spindle index", False),
    ]
    assert (plan.repeated, plan.by_one, plan.dial_lines) == (None, None, ())
    short = plan_starts(Train(()), INCH("2/3"), 4, a_lathe(), farthest=INCH("1.4"))
    assert short.jumps[1] is None
    # The 500 mm that are looked at when nobody says more: 20 in are beyond.
    assert plan_starts(Train(()), INCH("40"), 2, Lathe("", "", INCH(20), Fraction(1), True, ())).by_one is None
    assert plan_starts(Train(()), MM("1000"), 2, Lathe("", "", MM(500), Fraction(1), True, ())).by_one is not None
