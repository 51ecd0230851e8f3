"""A screw and wheel that measure: a model turned mark by mark, and readings asked for and solved."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.refusals import ImpossibleSettingError
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass
from solver.worms.screw_and_wheel import ScrewAndWheel
from solver.worms.wanted_reading import (
    COARSEST,
    FINEST,
    USUAL_MARKS,
    marks_for,
    screws_for_mark,
    screws_for_turn,
    teeth_for,
)
from tests.drawn_cases import cases

several = cases(60)

BOX = (WheelClass("module 1", Length.of_mm(1), tuple((teeth, 1) for teeth in (20, 30, 40, 45, 50, 60, 65, 127))),)
LATHE = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), has_reverse=True, wheel_classes=BOX)


@several
@given(st.integers(1, 600), st.integers(2, 60), st.integers(2, 60), st.integers(1, 4))
def test_the_readings_are_those_of_a_model_turned_mark_by_mark(hundredths: int, teeth: int, marks: int, starts: int):
    pitch = Fraction(hundredths, 100)
    instrument = ScrewAndWheel(Length(pitch), teeth, marks, starts)
    travel = wheel_turns = Fraction(0)
    turned = 0
    # In a turn of the screw every start brings one tooth past.
    while wheel_turns < starts:
        turned += 1
        travel += pitch * starts / marks
        wheel_turns += Fraction(starts, teeth * marks)
    assert wheel_turns == starts
    assert instrument.per_mark == Length(travel / turned)
    assert instrument.per_wheel_turn == Length(travel / starts)
    assert instrument.per_tooth == Length(travel / starts / teeth)
    assert instrument.marks_per_wheel_turn * starts == turned
    assert instrument.angle_per_mark.turns * turned == starts
    assert instrument.screw_turns == instrument.per_wheel_turn / (instrument.per_mark * marks)


def test_a_module_screw_reads_in_multiples_of_pi():
    instrument = ScrewAndWheel(PiLength(Fraction(1)), 90, 120)
    assert instrument.per_mark == PiLength(Fraction(1, 120))
    assert instrument.per_wheel_turn == PiLength(Fraction(90))
    assert instrument.angle_per_mark.arcsec == 120


@pytest.mark.own_arithmetic("Micrometers, a translated text page, n.d., 127 marks on ten threads an inch")
def test_127_marks_on_a_ten_tpi_screw_read_two_hundredths_exactly():
    found = marks_for(Length.of_mm("0.02"), Length.of_inches("0.1"))
    assert (found.number, found.is_exact) == (127, True)


@several
@given(st.integers(1, 2000), st.integers(20, 600))
def test_no_other_whole_number_of_marks_or_teeth_comes_nearer(hundredths: int, lead_hundredths: int):
    reading, lead = Length(Fraction(hundredths, 1000)), Length(Fraction(lead_hundredths, 100))
    for solve, really in (
        (marks_for, lambda count: Length(lead.mm / count)),
        (teeth_for, lambda count: lead * count),
    ):
        try:
            found = solve(reading, lead)
        except ImpossibleSettingError as refusal:
            assert refusal.help_text
            continue
        assert (found.wanted, found.reading) == (reading, really(found.number))
        assert found.is_exact is (found.reading == reading)
        # A dial is nearest in marks, a wheel in travel; either way no neighbour is nearer.
        exact_count = lead / reading if solve is marks_for else reading / lead
        assert abs(found.number - exact_count) <= Fraction(1, 2)


@several
@given(st.sampled_from([Fraction(each) for each in ("0.005", "0.01", "0.02", "0.025", "0.0254", "0.0127", "0.05")]))
def test_every_proposed_screw_gives_the_reading_and_those_cut_exactly_come_first(reading: Fraction):
    choices = screws_for_mark(Length(reading), LATHE)
    assert {each.number for each in choices} <= set(USUAL_MARKS)
    for each in choices:
        assert each.pitch * Fraction(1, each.number) == Length(reading)
        assert FINEST <= each.pitch <= COARSEST
        if each.train is not None:
            assert each.train.fits
            assert each.train.cut_lead == each.train.train.ratio * Length.of_inches("1/8")
            assert each.is_cut_exactly is (each.train.cut_lead == each.pitch)
    exactly = [each.is_cut_exactly for each in choices]
    assert exactly == sorted(exactly, reverse=True)
    assert exactly[0]


def test_a_wanted_turn_of_the_wheel_is_shared_among_its_teeth():
    for each in screws_for_turn(Length.of_inches(1), LATHE):
        assert each.pitch * each.number == Length.of_inches(1)
    assert screws_for_turn(Length.of_mm(25), LATHE, teeth=73)[0].pitch == Length(Fraction(25, 73))


def test_readings_out_of_reach_are_refused():
    with pytest.raises(ImpossibleSettingError, match="usual pitch"):
        screws_for_mark(Length.of_mm(5), LATHE)
    with pytest.raises(ImpossibleSettingError, match="marks"):
        marks_for(Length.of_mm(5), Length.of_mm(1))
    with pytest.raises(ImpossibleSettingError, match="teeth"):
        teeth_for(Length.of_mm(9000), Length.of_mm(1))
