"""Depths of fine-pitch worms, flank forms, and figures of a worm that are printed side by side."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cli.views.told_figures import adding_up, places_that_add, roughly_adding_up
from solver.quantities.angles import Angle
from solver.quantities.circle_figures import sine, tangent
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.worms.blanks import greatest_rim, rim_diameters
from solver.worms.fine_pitch import COARSEST, FINEST, fine_pitch_depth
from solver.worms.tooth_sizes import ToothSize, ToothSystem
from solver.worms.worm import FlankForm, Worm, make_worm
from solver.worms.worm_wheel import make_wheel
from tests.published.source_cases import read_cases

#: The standard's lists and proportions, from memory: see the case file.
CASE = read_cases("worms.toml")["WRM-13"]
several = settings(max_examples=100, derandomize=True, database=None, deadline=None)
IN = Length.of_inches


def listed_worm(pitch: str, lead_angle: str, starts: int = 1) -> Worm:
    """Make the worm of an axial pitch and a lead angle: its pitch diameter is starts p / (pi tan g)."""
    slope = tangent(Angle.of_degrees(lead_angle))
    diameter = Length(IN(pitch).mm * starts / (PI_LOW * slope))
    return make_worm(ToothSize(ToothSystem.CIRCULAR_PITCH, IN(pitch)), starts=starts, diameter=diameter)


@pytest.mark.from_memory("AGMA 374.04 / ANSI B6.9 (AGMA 6022), fine-pitch worm gearing, edition not seen, proportions")
@pytest.mark.parametrize("pitch", CASE["pitches"])
@pytest.mark.parametrize("lead_angle", CASE["lead_angles_deg"])
def test_the_depths_of_the_fine_pitch_standard_are_its_parts_of_the_normal_pitch(pitch, lead_angle):
    # So many starts that the worm is six modules across at least.
    worm = listed_worm(pitch, lead_angle, math.ceil(6 * math.tan(math.radians(float(lead_angle)))))
    found = fine_pitch_depth(worm)
    assert found is not None
    normal = float(pitch) * math.cos(math.radians(float(lead_angle)))
    assert math.isclose(float(found.addendum.inches), 0.3183 * normal, rel_tol=1e-12)
    assert math.isclose(float(found.working.inches), 0.6366 * normal, rel_tol=1e-12)
    assert math.isclose(float(found.whole.inches), 0.7003 * normal + 0.002, rel_tol=1e-12)
    # The constants are 1/pi, 2/pi and 2.2/pi, so that the clearance is a fifth of the addendum and 0.002 in.
    assert found.working == found.addendum * 2
    clear = found.whole - found.working - IN("0.002")
    assert abs(clear / found.addendum - Fraction(1, 5)) < Fraction(2, 10_000)


@pytest.mark.from_memory("AGMA 374.04 / ANSI B6.9 (AGMA 6022), fine-pitch worm gearing, edition not seen, proportions")
@pytest.mark.parametrize("pitch", CASE["pitches"])
def test_the_clearance_that_is_named_gives_the_depth_of_the_standard(pitch):
    worm = listed_worm(pitch, "3")
    found = fine_pitch_depth(worm)
    assert found is not None
    same = make_worm(worm.size, diameter=worm.diameter, clearance=found.clearance)
    assert same.whole_depth == found.whole


def test_a_pitch_outside_the_standard_has_no_depth_by_it():
    for pitch, is_in in ((FINEST, True), (COARSEST, True), (FINEST - IN("0.0001"), False), (IN("0.1601"), False)):
        worm = make_worm(ToothSize(ToothSystem.CIRCULAR_PITCH, pitch))
        assert (fine_pitch_depth(worm) is not None) == is_in


# ZA is straight in the axial section, ZN in the normal section. A surface made by a straight edge that is turned and
# fed along is a straight-sided thread just in the plane in which the edge lies.
@pytest.mark.published("DIN 3975, terms of cylindrical worm gears, by its list of contents, 1976, ZA and ZN")
@pytest.mark.parametrize(
    ("size", "form"),
    [
        (ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(2)), FlankForm.ZA),
        (ToothSize.of_dp(Fraction(20)), FlankForm.ZA),
        (ToothSize(ToothSystem.CIRCULAR_PITCH, IN("0.1")), FlankForm.ZA),
        (ToothSize(ToothSystem.NORMAL_MODULE, Length.of_mm(2)), FlankForm.ZN),
    ],
)
def test_a_level_tool_cuts_za_and_one_swung_to_the_lead_angle_zn(size, form):
    worm = make_worm(size, starts=2)
    assert worm.flank_form is form
    assert ("axis" in form.value) == (form is FlankForm.ZA)
    # The tool's own angle stands in the section that is straight: the other section has another.
    own, other = (worm.axial_flank, worm.normal_flank)[:: 1 if form is FlankForm.ZA else -1]
    assert own == worm.flank
    assert other != own
    assert worm.normal_flank < worm.axial_flank


# 2 modules over the throat for one start, 1.5 for two and three, 1 for four.
@pytest.mark.from_memory("general knowledge: greatest rims of worm wheels")
@pytest.mark.parametrize(("starts", "modules"), [(1, "2"), (2, "1.5"), (3, "1.5"), (4, "1")])
def test_no_rim_in_print_is_larger_than_the_greatest(starts, modules):
    wheel = make_wheel(make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(2)), starts=starts), 60)
    greatest = greatest_rim(wheel).size
    assert greatest - wheel.throat == Length.of_mm(2) * Fraction(modules)
    usual = rim_diameters(wheel)
    assert usual[0].size <= greatest
    # The manual's rule for few starts passes it at none, its own for more at none either.
    assert all(rule.size <= greatest for rule in usual)


LENGTHS = st.fractions(min_value=Fraction(1, 1000), max_value=100, max_denominator=9973).map(Length.of_mm)


@several
@given(st.lists(LENGTHS, min_size=2, max_size=3))
def test_figures_told_side_by_side_add_up_as_they_are_printed(parts):
    shown = adding_up(parts)
    for at in (0, 1):
        figures = [Fraction(text.replace("(", "").split()[2 * at].strip("≈")) for text in shown]
        if places_that_add([part.mm if at == 0 else part.inches for part in parts], 3 + at) < 8:
            assert sum(figures[:-1]) == figures[-1]


@several
@given(LENGTHS, LENGTHS)
def test_rough_figures_add_up_and_keep_within_a_unit_of_the_last(smaller, other):
    shown = roughly_adding_up(smaller, other)
    for at, true in ((0, smaller.mm), (2, smaller.inches)):
        words = [text.replace("(", "").split()[at] for text in shown]
        first, second, total = map(Fraction, words)
        assert first + second == total
        assert abs(first - true) <= Fraction(1, 10 ** len(words[0].partition(".")[2]))


def test_more_places_are_taken_only_where_the_sum_needs_them():
    assert places_that_add([Fraction(1, 4), Fraction(1, 2)], 2) == 2
    assert places_that_add([Fraction("0.0004"), Fraction("0.0004")], 3) == 4


@pytest.mark.parametrize("degrees", ["1", "5", "20"])
def test_the_angle_of_a_normal_tool_is_steeper_in_the_axial_section_by_the_lead_angle(degrees):
    size = ToothSize(ToothSystem.NORMAL_MODULE, Length.of_mm(1))
    worm = make_worm(size, diameter=Length(1 / sine(Angle.of_degrees(degrees))))
    assert abs((worm.lead_angle - Angle.of_degrees(degrees)).turns) < Fraction(1, 10**20)
    steeper = math.atan(math.tan(math.radians(20)) / math.cos(math.radians(float(degrees))))
    assert math.isclose(float(worm.axial_flank.degrees), math.degrees(steeper), rel_tol=1e-9)
