"""Blank, depth, cutter and base pitch of a change wheel against figures of the trade."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.jobs.wheel_making import making_of
from solver.quantities.exact_numbers import decimal_text
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_wheel_module
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass


def making(size, teeth):
    box = WheelClass(size, read_wheel_module(size), ((20, 1), (40, 1)))
    lathe = Lathe("bare", "8 tpi", Length.of_inches("1/8"), Fraction(1), has_reverse=True, wheel_classes=(box,))
    return making_of(teeth, lathe, None)


# The size of a 127 wheel over its tips, to the millimetre, for three sizes of tooth.
@pytest.mark.own_arithmetic("arithmetic by another hand, nothing printed: module times teeth and two")
@pytest.mark.parametrize(("size", "over_tips"), [("module 1", 129), ("20 DP", 164), ("60 DP", 55)])
def test_a_127_wheel_over_its_tips(size, over_tips):
    assert round(making(size, 127).outside.mm) == over_tips


@pytest.mark.from_memory("Machinery's Handbook, edition not seen, gear tooth parts, whole depth 2.157 / DP")
@pytest.mark.parametrize(
    ("size", "inches"), [("10 DP", "0.2157"), ("16 DP", "0.1348"), ("20 DP", "0.1079"), ("24 DP", "0.0899")]
)
def test_the_whole_depth_of_a_diametral_pitch(size, inches):
    assert abs(making(size, 40).tooth.whole_depth.inches - Fraction(inches)) <= Fraction(1, 20_000)


# Addendum 1 m, dedendum 1.25 m.
@pytest.mark.from_memory("ISO 53, Cylindrical gears, basic rack, edition not seen")
@pytest.mark.parametrize(("size", "mm"), [("module 1", "2.25"), ("module 1.5", "3.375"), ("module 2", "4.5")])
def test_the_whole_depth_of_a_module(size, mm):
    assert making(size, 40).tooth.whole_depth.mm == Fraction(mm)


# Base pitch of module 1 at 20 and 14.5 degrees: pi cos(angle).
@pytest.mark.from_memory("general knowledge: span tables of gear handbooks")
def test_what_a_caliper_reads_more_over_one_tooth_more():
    assert [decimal_text(each.step.mm, 4) for each in making("module 1", 40).base_pitches] == ["2.9521", "3.0415"]


# A plan in print asks for No. 1 to cut 12 teeth of a DP wheel and means No. 8; a module set calls the cutter for 12 and
# 13 teeth No. 1 (workshop pages).
@pytest.mark.from_memory("Machinery's Handbook, edition not seen, the eight involute cutters")
def test_the_cutter_that_a_printed_plan_has_wrong():
    cutter = making("20 DP", 12).cutter
    assert (cutter.fewest, cutter.most, cutter.dp_number, cutter.module_number) == (12, 13, 8, 1)


# Undercut begins below 18 teeth at 20 degrees and below 32 at 14.5.
@pytest.mark.from_memory("general knowledge: undercut, two over the square of the sine")
def test_the_counts_below_which_a_straight_tool_undercuts():
    assert [each.clean_from for each in making("module 1", 40).base_pitches] == [18, 32]
