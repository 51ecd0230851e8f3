"""Dials, verniers and counting wheels by arithmetic done by hand: the bounds, the ties and the least of everything."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.dials.counting_wheels import CountingWheel
from solver.dials.graduations import Graduation, graduate, whole_readings
from solver.dials.mark_pattern import MarkLength, MarkPattern, usual_pattern
from solver.dials.screw_dials import DialReading, ScrewDial
from solver.dials.verniers import Vernier, VernierKind
from solver.quantities.lengths import Length

mm = Length.of_mm


def test_two_starts_pass_two_teeth_a_turn_so_twice_the_teeth_are_needed():
    # 12 inches at 8 threads an inch are 96 turns.
    travel, wheel = Length.of_inches(12), CountingWheel(Length.of_inches("1/8"), 80, starts=2)
    assert wheel.teeth_for(travel) == 192
    assert wheel.teeth_for(travel + mm("0.001")) == 193
    assert CountingWheel(Length.of_inches("1/8"), 192, starts=2).wheel_turns_for(travel) == 1


def test_a_dial_may_have_one_mark_or_as_many_as_can_be_told_apart():
    assert graduate(mm(3), mm(3)).answers == (Graduation(mm(3), 1, mm(3)),)
    assert graduate(mm(10), mm("0.001")).answers == (Graduation(mm(10), 10_000, mm("0.001")),)


def test_the_nearer_of_two_inexact_counts_comes_first():
    # Three marks of 2.5 mm are short by a sixth of a millimetre, two are long by a quarter.
    report = graduate(mm("2.5"), mm(1))
    assert (report.exact_marks, report.is_exact) == (Fraction(5, 2), False)
    assert report.answers == (Graduation(mm("2.5"), 3, mm(1)), Graduation(mm("2.5"), 2, mm(1)))


def test_the_readings_that_come_out_whole_are_all_named_the_nearest_first_and_of_equals_the_finer():
    # A lead of twelve half thousandths has the divisors 1, 2, 3, 4, 6 and 12.
    readings = whole_readings(mm("0.006"), mm("0.0015"), unit=mm("0.001"))
    assert readings == tuple(map(mm, ("0.0015", "0.001", "0.002", "0.0005", "0.003", "0.006")))
    # 24 has eight of them, and six are named unless more are asked for.
    assert len(whole_readings(mm("0.012"), mm("0.0015"), unit=mm("0.001"))) == 6
    assert len(whole_readings(mm("0.012"), mm("0.0015"), unit=mm("0.001"), most=9)) == 8


def test_a_reading_is_named_as_long_as_its_marks_can_be_told_apart():
    # Half a thousandth goes 10 000 times into 5 mm, and 20 000 times into 10 mm.
    assert whole_readings(mm(5), mm("0.0005"), unit=mm("0.001"), most=1) == (mm("0.0005"),)
    assert whole_readings(mm(10), mm("0.0005"), unit=mm("0.001"), most=1) == (mm("0.001"),)
    assert whole_readings(mm("0.0007"), mm("0.0005"), unit=mm("0.001")) == ()


def test_every_mark_may_be_long_and_none_medium():
    long, medium, short = MarkLength
    assert MarkPattern(5, 1, 0).counts() == MarkPattern(5, 1, 1).counts() == {long: 5, medium: 0, short: 0}
    assert MarkPattern(25, 10, 0).counts() == {long: 3, medium: 0, short: 22}
    assert MarkPattern(25, 10, 0).length_of(5) is short


@pytest.mark.parametrize(
    ("marks", "groups"),
    [
        (15, (10, 5)), (40, (10, 5)), (16, (8, 4)), (36, (12, 6)), (42, (6, 3)), (44, (4, 2)), (7, (10, 5)),
    ],
)  # fmt: skip
def test_the_usual_groups_close_where_any_do_and_tens_come_before_the_others(marks, groups):
    assert usual_pattern(marks) == MarkPattern(marks, *groups)


def test_a_screw_turned_by_its_handle_alone_has_one_mark():
    assert ScrewDial(mm(2), 1).read(mm(7)) == DialReading(1, 4, 0, mm(8), mm(1))


@pytest.mark.parametrize(
    ("distance", "reading"),
    [
        (mm(0), DialReading(1, 0, 0, mm(0), mm(0))),
        (mm("0.52"), DialReading(1, 0, 10, mm("0.5"), mm("-0.02"))),
        (mm("-0.52"), DialReading(-1, 0, 10, mm("-0.5"), mm("0.02"))),
        (mm("-4.1"), DialReading(-1, 1, 2, mm("-4.1"), mm(0))),
    ],
)
def test_a_distance_is_read_from_zero_either_way(distance, reading):
    # 80 marks of 0.05 mm to a turn of 4 mm.
    assert ScrewDial(mm(4), 80).read(distance) == reading


@pytest.mark.parametrize("divisions", [2, 200])
def test_a_vernier_may_be_as_short_or_as_long_as_can_be_read(divisions):
    kinds = [Vernier.of(divisions, kind).spans for kind in VernierKind]
    assert kinds == [divisions - 1, 2 * divisions - 1, divisions + 1]
    assert Vernier.of(divisions) == Vernier(divisions, divisions - 1)


def test_its_first_and_last_lines_meet_together():
    assert (Vernier.of(10).reading(3, 0), Vernier.of(10).reading(3, 10)) == (3, 4)


@pytest.mark.parametrize("kind", VernierKind)
def test_the_line_that_meets_counts_tenths(kind):
    # Two tenths past a line: the lines of a backward vernier gain a tenth each on those of the scale, others lose one.
    vernier = Vernier.of(10, kind)
    assert [vernier.meeting_line(Fraction(tenths, 10)) for tenths in (0, 2, 7)] == [0, 2, 7]
    assert vernier.reads_backward == (kind is VernierKind.BACKWARD)
