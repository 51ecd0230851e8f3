"""Marks worked from zero, at equal angles and at angles of their own: by a dial and on a circle, figures by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gearsets.head_files import find_head
from solver.dividing.heads import Head, Plate
from solver.dividing.positions import best_circle, best_circle_of, equal_marks, marks_on, positions
from solver.dividing.table_dial import dial_alone, dial_divides, dial_marks, dial_table
from solver.jobs.head_ways import head_ways
from solver.quantities.angles import Angle
from solver.refusals import ImpossibleSettingError
from tests.drawn_cases import cases

TABLE = find_head("table-90-dial")
TEN_SECONDS = Angle(Fraction(1, 129_600))
DEGREE = Fraction(1, 360)


def seconds_of(table) -> list[tuple[int, str, str]]:
    return [(row.turns, str(row.reading.arcsec), str(row.error.arcsec)) for row in table.rows]


def test_the_seventh_parts_of_a_round_by_a_dial_of_ten_seconds():
    # One turn is 4 deg. 360/7 deg is 51 deg 25' 42 6/7": 12 turns, 48 deg, and 3 deg 25' 42 6/7", of which the dial
    # tells 3 deg 25' 40" = 12340", short by 20/7". Twice that is 102 deg 51' 25 5/7": 25 turns, 100 deg, and
    # 2 deg 51' 30" = 10290", too far by 30/7".
    found = dial_alone(TABLE, Fraction(1, 7), 7)
    assert found is not None
    assert seconds_of(found)[:3] == [(0, "0", "0"), (12, "12340", "-20/7"), (25, "10290", "30/7")]
    assert seconds_of(found)[-1] == (90, "0", "0")
    assert str(found.worst.arcsec) == "30/7"
    # A rounded step of 51 deg 25' 40", added seven times: 7 x 20/7" short.
    assert found.gap_if_steps_are_added == Angle(Fraction(-20, 1_296_000))
    assert found.closes


def test_whole_turns_are_a_plain_move_and_need_no_dial():
    # 90/9 is ten turns of the handle; of another head nothing is said at all.
    assert dial_alone(TABLE, Fraction(1, 9), 9) is None
    assert dial_alone(find_head("head-40-three-plates"), Fraction(1, 7), 7) is None
    assert [way.move.turns for way in head_ways(TABLE, Fraction(1, 9)).answers] == [10]


def test_marks_at_angles_of_their_own_by_a_dial():
    # 23.44 deg is 23 deg 26' 24": 5 turns, 20 deg, and 3 deg 26' 20" = 12380", 4" short. 30 deg is 7 turns and 2 deg.
    # 58.5 deg is 14 turns, 56 deg, and 2 deg 30' = 9000".
    marks = (Fraction(0), Fraction("23.44") * DEGREE, 30 * DEGREE, Fraction("58.5") * DEGREE)
    found = dial_marks(TABLE, marks, TEN_SECONDS)
    assert seconds_of(found) == [(0, "0", "0"), (5, "12380", "-4"), (7, "7200", "0"), (14, "9000", "0")]
    assert found.part is None
    assert found.gap_if_steps_are_added is None
    assert not found.closes
    assert found.rows[1].reached == Angle(Fraction(84_380, 1_296_000))


def test_marks_closer_than_a_division_are_refused_wherever_they_stand():
    with pytest.raises(ImpossibleSettingError, match="closer together than one division"):
        dial_marks(TABLE, (Fraction(0), Fraction(1, 4), Fraction(1, 4) + TEN_SECONDS.turns / 2), TEN_SECONDS)


def test_marks_at_angles_of_their_own_on_a_circle():
    # 40:1: 30 deg is 3 1/3 turns, 58.5 deg is 6 1/2 turns: of these circles 18 has both thirds and halves. On 49 a
    # third is 16 1/3 spaces, so the work falls short by 1/3 of a space: 1296000 / (3 x 49 x 40) = 10800/49".
    head = find_head("head-40-three-plates")
    marks = (Fraction(0), 30 * DEGREE, Fraction("58.5") * DEGREE)
    assert best_circle_of(head, marks) == ("A", 18)
    assert [(row.turns, row.hole) for row in marks_on(head, marks, 18)] == [(0, 0), (3, 6), (6, 9)]
    assert [str(row.error.arcsec) for row in marks_on(head, marks, 49)][:2] == ["0", "-10800/49"]
    moves = [(row.move.turns, row.move.spaces) for row in marks_on(head, marks, 18)]
    assert moves == [(0, 0), (3, 6), (3, 3)]


def test_what_the_dial_alone_divides_exactly():
    # 1296000" in ten seconds are 129600 divisions: 2^6 x 3^4 x 5^2.
    assert [count for count in range(1, 33) if not dial_divides(TABLE, count)] == [
        7, 11, 13, 14, 17, 19, 21, 22, 23, 26, 28, 29, 31,
    ]  # fmt: skip
    with_plate = Head("both", Fraction(90), (Plate("A", ((20,),)),), dial_reading=TEN_SECONDS)
    assert not dial_divides(with_plate, 8)


def test_the_way_of_a_sitting_by_a_dial_is_judged_by_its_worst_mark():
    # 129600/365 = 355 5/73 divisions: the worst of 365 marks is 36/73 of a division off, 360/73".
    found = head_ways(TABLE, Fraction(1, 365), within=Fraction(0))
    (way,) = found.ways(TABLE)
    assert way.error * 1_296_000 == Fraction(360, 73)
    assert (way.wheels, way.face, found.answers) == (frozenset(), None, ())
    # One angle is one move, not the 1125 that would close its rounds.
    single = head_ways(TABLE, Fraction("23.44") * DEGREE, moves=1).table
    assert single is not None
    assert len(single.rows) == 2


@cases(100)
@given(st.integers(2, 200), st.sampled_from([20, 21, 27, 49]), st.sampled_from([10, 60, 600]))
def test_equal_marks_are_worked_as_marks_at_those_angles(count, circle, seconds):
    head = Head("head", Fraction(40), (Plate("A", ((20, 21, 27, 49),)),))
    part = Fraction(1, count)
    marks = [Fraction(number, count) for number in range(count + 1)]
    assert list(equal_marks(part, count)) == marks
    assert list(positions(head, part, count, circle)) == list(marks_on(head, marks, circle))
    assert best_circle(head, part, count) == best_circle_of(head, marks)
    division = Angle(Fraction(seconds, 1_296_000))
    assert dial_table(head, part, count, division).rows == dial_marks(head, marks, division).rows
