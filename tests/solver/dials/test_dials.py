"""Dials, verniers and screws: every mark counted, every line of a vernier tried, every distance walked back."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.dials.counting_wheels import CountingWheel
from solver.dials.graduations import MOST_MARKS, Graduation, blank_diameter, graduate, mark_spacing, whole_readings
from solver.dials.mark_pattern import MarkLength, MarkPattern, usual_pattern
from solver.dials.screw_dials import ScrewDial
from solver.dials.verniers import Vernier, VernierKind
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_HIGH, PI_LOW
from solver.quantities.shown_lengths import Rounding
from solver.refusals import ImpossibleSettingError
from tests.drawn_cases import cases

several = cases(200)
LEADS = st.one_of(
    st.integers(1, 120).map(lambda tenths: Length(Fraction(tenths, 10))),
    st.integers(1, 64).map(lambda tpi: Length.of_inches(Fraction(1, tpi))),
)
READINGS = st.one_of(
    st.integers(1, 100).map(lambda each: Length(Fraction(each, 200))),
    st.integers(1, 20).map(lambda each: Length.of_inches(Fraction(each, 2000))),
)


@several
@given(LEADS, READINGS)
def test_a_dial_is_exact_or_no_whole_count_is_nearer(lead, reading):
    if lead < reading or lead / reading > MOST_MARKS:
        with pytest.raises(ImpossibleSettingError):
            graduate(lead, reading)
        return
    report = graduate(lead, reading)
    assert report.exact_marks * reading.mm == lead.mm
    assert report.is_exact == all(each.is_exact for each in report.answers)
    best = report.answers[0]
    for marks in range(max(1, best.marks - 3), best.marks + 4):
        assert abs(best.error_per_mark.mm) <= abs(lead.mm / marks - reading.mm)
    for each in report.answers:
        assert each.per_mark.mm * each.marks == lead.mm
        # Follow the dial over twice its round, and measure.
        assert each.error_over(reading * (2 * each.marks)).mm == 2 * lead.mm - 2 * each.marks * reading.mm
        assert each.error_per_turn.mm == lead.mm - each.marks * reading.mm


@several
@given(LEADS, READINGS, st.booleans())
def test_the_readings_named_instead_do_come_out_whole(lead, reading, in_inches):
    unit = Length.of_inches("1/1000") if in_inches else Length.of_mm("1/1000")
    for each in whole_readings(lead, reading, unit=unit):
        assert (lead / each).denominator == 1
        assert (each / unit * 2).denominator == 1
        assert lead / each <= MOST_MARKS


def test_blank_and_spacing_lie_between_the_bounds_of_pi():
    blank = blank_diameter(125, Length.of_mm("1.2"))
    assert blank.mm * PI_LOW <= 150 <= blank.mm * PI_HIGH
    low, high = mark_spacing(125, Length.of_mm(50)).bounds()
    assert low.mm * 125 <= 50 * PI_HIGH
    assert high.mm * 125 >= 50 * PI_LOW


@several
@given(st.integers(1, 500), st.integers(1, 20), st.integers(0, 20))
def test_the_marks_of_a_pattern_are_counted_one_by_one(marks, long_every, medium_every):
    if medium_every and long_every % medium_every:
        with pytest.raises(ImpossibleSettingError):
            MarkPattern(marks, long_every, medium_every)
        return
    pattern = MarkPattern(marks, long_every, medium_every)
    counted = Counter(pattern.length_of(number) for number in range(marks))
    assert {length: counted[length] for length in MarkLength} == pattern.counts()
    assert pattern.left_over == marks % long_every


@pytest.mark.parametrize("marks", range(1, 400))
def test_the_usual_pattern_closes_where_one_can(marks):
    pattern = usual_pattern(marks)
    closes_by_fives = marks % 5 == 0
    assert (pattern.left_over == 0) or closes_by_fives or all(marks % each for each in (4, 6, 8, 10, 12))
    assert pattern.medium_every * 2 == pattern.long_every


@several
@given(st.integers(2, 200), st.sampled_from(VernierKind), st.data())
def test_a_vernier_reads_what_its_lines_show(divisions, kind, data):
    vernier = Vernier.of(divisions, kind)
    assert vernier.least_count == Fraction(1, divisions)
    line = data.draw(st.integers(0, divisions - 1))
    passed = data.draw(st.integers(0, 50))
    assert vernier.meeting_line(Fraction(line, divisions)) == line
    assert vernier.reading(passed, line) == passed + Fraction(line, divisions)
    assert vernier.meeting_line(Fraction(2 * line + 1, 2 * divisions)) is None


@several
@given(LEADS, st.integers(1, 500), st.fractions(min_value=-300, max_value=300, max_denominator=1000))
def test_turns_and_marks_walked_back_give_the_distance_to_half_a_mark(lead, marks, distance):
    reading = ScrewDial(lead, marks).read(Length(distance))
    walked = reading.sign * (reading.turns * lead.mm + reading.marks * lead.mm / marks)
    assert walked == reading.reached.mm
    assert walked - distance == reading.error.mm
    assert abs(reading.error.mm) <= lead.mm / marks / 2
    assert 0 <= reading.marks < marks


@several
@given(LEADS, st.integers(2, 400), st.integers(1, 4), st.integers(1, 1000))
def test_a_wheel_of_the_fewest_teeth_just_counts_over_a_travel(lead, teeth, starts, length):
    wheel = CountingWheel(lead, teeth, starts)
    travel = Length(Fraction(length))
    assert wheel.travel_per_turn.mm == lead.mm * teeth / starts
    assert wheel.wheel_turns_for(travel) * wheel.screw_turns_per_turn == wheel.screw_turns_for(travel)
    enough = wheel.teeth_for(travel)
    assert CountingWheel(lead, enough, starts).wheel_turns_for(travel) <= 1
    assert enough == 1 or CountingWheel(lead, enough - 1, starts).wheel_turns_for(travel) > 1


def test_a_dial_read_the_wrong_way_is_told_its_error():
    metric_on_inch = Graduation(Length.of_inches("1/8"), 159, Length.of_mm("0.02"))
    assert metric_on_inch.error_per_turn == Length.of_mm("-0.005")


# 4.24 mm are 84.8 marks of 0.05 mm: one turn of 80 and 4 below, 5 above; back and forth alike. 4 mm are 80 both ways.
@pytest.mark.parametrize(
    ("distance", "rounding", "turns", "marks", "error"),
    [
        ("4.24", Rounding.DOWN, 1, 4, "-0.04"),
        ("4.24", Rounding.UP, 1, 5, "0.01"),
        ("4.24", Rounding.NEAREST, 1, 5, "0.01"),
        ("-4.24", Rounding.DOWN, 1, 4, "0.04"),
        ("4", Rounding.DOWN, 1, 0, "0"),
        ("4", Rounding.UP, 1, 0, "0"),
    ],
)
def test_a_bound_is_read_at_the_mark_on_its_side(distance, rounding, turns, marks, error):
    reading = ScrewDial(Length.of_mm(4), 80).read(Length.of_mm(distance), rounding)
    assert (reading.turns, reading.marks) == (turns, marks)
    assert reading.error == Length.of_mm(error)
