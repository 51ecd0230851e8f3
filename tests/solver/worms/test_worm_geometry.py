"""Worms and wheels against formulas written out again in ordinary floating point, and against one another."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.threads.forms import FORMS
from solver.worms.blanks import rim_diameters, worm_length
from solver.worms.friction import FrictionHint
from solver.worms.gashing import LEFT_FOR_HOB, gash_for_tap, gash_for_wheel
from solver.worms.setting import gap_to_rod, height_below_rod, set_over
from solver.worms.tap_hobbing import TapWheel, hob_with_tap
from solver.worms.taps import Tap
from solver.worms.tooth_sizes import ToothSize, ToothSystem
from solver.worms.worm import Worm, make_worm
from solver.worms.worm_wheel import least_teeth, make_wheel
from tests.drawn_cases import cases
from tests.published.source_titles import written_source

several = cases(60)

MODULES = [Fraction(each) for each in ("0.3", "0.5", "0.8", "1", "1.25", "2", "3")]
FLANKS = [Angle.of_degrees(each) for each in ("14.5", "20", "25", "27.5")]
TAP_FORMS = [form for form in FORMS.values() if form.has_angle and not form.taper]


@st.composite
def worms(draw: st.DrawFn) -> Worm:
    """Draw a worm of any system that has a core and a flat."""
    system = draw(st.sampled_from(ToothSystem))
    size = ToothSize(system, Length(draw(st.sampled_from(MODULES))))
    quotient = Fraction(draw(st.integers(28, 100)), 4)
    module = size.axial_module(Fraction(0))
    return make_worm(
        size,
        starts=draw(st.integers(1, 4)),
        diameter=module * quotient,
        flank=draw(st.sampled_from(FLANKS)),
        clearance=Fraction(draw(st.integers(0, 25)), 100),
    )


@several
@given(worms(), st.integers(40, 300))
def test_every_size_agrees_with_the_formulas_written_out_in_floats(worm: Worm, teeth: int):
    wheel = make_wheel(worm, teeth)
    stated, d1, z1 = float(worm.size.figure.mm), float(worm.diameter.mm), worm.starts
    clearance, flank = float(worm.clearance), math.radians(float(worm.flank.degrees))
    if worm.size.system is ToothSystem.NORMAL_MODULE:
        angle = math.asin(z1 * stated / d1)
        module, addendum = stated / math.cos(angle), stated
    else:
        module = addendum = stated / math.pi if worm.size.system is ToothSystem.CIRCULAR_PITCH else stated
        angle = math.atan(z1 * module / d1)
    pairs = [
        (worm.module.mm, module),
        (worm.lead_angle.degrees, math.degrees(angle)),
        (worm.outside.mm, d1 + 2 * addendum),
        (worm.root.mm, d1 - 2 * (1 + clearance) * addendum),
        (worm.tool_flat.mm, addendum * math.pi / 2 - 2 * (1 + clearance) * addendum * math.tan(flank)),
        (wheel.diameter.mm, teeth * module),
        (wheel.throat.mm, teeth * module + 2 * addendum),
        (wheel.root.mm, teeth * module - 2 * (1 + clearance) * addendum),
        (wheel.centre_distance.mm, (d1 + teeth * module) / 2),
        (wheel.throat_radius.mm, d1 / 2 - addendum),
        (worm.chord_at_pitch_line.mm, 2 * math.sqrt((d1 / 2 + addendum) ** 2 - (d1 / 2) ** 2)),
        (worm_length(wheel).size.mm, math.pi * module * (4.5 + teeth / 50)),
    ]
    assert [float(found) for found, _ in pairs] == pytest.approx([wanted for _, wanted in pairs], rel=1e-12)
    assert wheel.ratio == Fraction(teeth, z1)


@several
@given(worms(), st.integers(40, 300))
def test_the_worm_and_the_wheel_mesh_with_the_clearance_at_both_roots(worm: Worm, teeth: int):
    wheel = make_wheel(worm, teeth)
    gap = worm.addendum * worm.clearance
    tiny = Fraction(1, 10**30)
    at_worm_root = wheel.centre_distance - Length((worm.root + wheel.throat).mm / 2)
    at_wheel_root = wheel.centre_distance - Length((worm.outside + wheel.root).mm / 2)
    assert abs((at_worm_root - gap).mm) < tiny
    assert abs((at_wheel_root - gap).mm) < tiny
    for rim in rim_diameters(wheel):
        assert rim.size > wheel.throat


@several
@given(worms(), st.integers(40, 300), st.integers(-40, 100))
def test_a_fixed_centre_distance_is_kept_and_both_clearances_with_it(worm: Worm, teeth: int, hundredths: int):
    unshifted = make_wheel(worm, teeth)
    wanted = unshifted.centre_distance + worm.addendum * Fraction(hundredths, 100)
    wheel = make_wheel(worm, teeth, centre_distance=wanted, may_undercut=True)
    assert abs(wheel.shift - Fraction(hundredths, 100)) < Fraction(1, 10**30)
    assert abs((wheel.centre_distance - wanted).mm) < Fraction(1, 10**30)
    left = wheel.centre_distance - Length((worm.root + wheel.throat).mm / 2)
    assert abs((left - worm.addendum * worm.clearance).mm) < Fraction(1, 10**30)


@several
@given(st.sampled_from(MODULES), st.integers(28, 100), st.integers(1, 4))
def test_an_axial_worm_asked_for_by_its_normal_module_is_the_same_worm(module: Fraction, quarters: int, starts: int):
    diameter = Length(module * quarters / 4)
    axial = make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length(module)), starts=starts, diameter=diameter)
    square = Length(module) * axial.normal_pitch_ratio
    normal = make_worm(ToothSize(ToothSystem.NORMAL_MODULE, square), starts=starts, diameter=diameter)
    assert abs((normal.module - axial.module).mm) < Fraction(1, 10**35)
    assert abs(normal.lead_angle.turns - axial.lead_angle.turns) < Fraction(1, 10**35)


def is_undercut(teeth: int, depth: Fraction, flank: Angle) -> bool:
    """Look at the line of action: the rack's tip may not pass the point where it touches the base circle."""
    angle = math.radians(float(flank.degrees))
    pitch_point_to_touch = teeth / 2 * math.sin(angle)
    pitch_point_to_tip = float(depth) / math.sin(angle)
    return pitch_point_to_tip > pitch_point_to_touch


@several
@given(st.integers(5, 30), st.integers(30, 130))
def test_the_fewest_teeth_cut_clean_are_those_whose_line_of_action_is_long_enough(degrees: int, hundredths: int):
    depth, flank = Fraction(hundredths, 100), Angle.of_degrees(degrees)
    fewest = least_teeth(depth, flank)
    assert not is_undercut(fewest + 1, depth, flank)
    assert fewest == 1 or is_undercut(fewest - 1, depth, flank)


@several
@given(worms(), st.integers(6, 39))
def test_a_wheel_too_small_is_refused_and_the_centre_distance_offered_mends_it(worm: Worm, teeth: int):
    try:
        wheel = make_wheel(worm, teeth)
    except ImpossibleSettingError as refusal:
        if "no reduction" in refusal.message:
            return
        offered = Fraction(refusal.help_text.split("centre distance of ")[1].split(" mm")[0])
        mended = make_wheel(worm, teeth, centre_distance=Length(offered))
        assert mended.least_teeth <= teeth
        assert make_wheel(worm, teeth, may_undercut=True).least_teeth > teeth
    else:
        assert wheel.least_teeth <= teeth


@several
@given(worms(), st.integers(40, 300))
def test_a_gash_leaves_a_tenth_and_a_cutter_that_fits_is_wider_than_the_hobs_tip(worm: Worm, teeth: int):
    gash = gash_for_wheel(make_wheel(worm, teeth))
    assert gash.depth + gash.left == worm.whole_depth
    assert gash.left == worm.whole_depth * LEFT_FOR_HOB
    is_normal = worm.size.system is ToothSystem.NORMAL_MODULE
    tip = worm.tool_flat if is_normal else worm.tool_flat * worm.normal_pitch_ratio
    assert tip < gash.widest_cutter < worm.addendum * 2


@st.composite
def tap_wheels(draw: st.DrawFn) -> TapWheel:
    """Draw a wheel hobbed with a tap that has a core."""
    pitch = Length(Fraction(draw(st.integers(25, 400)), 100))
    tap = Tap("drawn", pitch, draw(st.sampled_from(TAP_FORMS)), pitch * Fraction(draw(st.integers(20, 200)), 10))
    return hob_with_tap(tap, draw(st.integers(40, 360)))


@several
@given(tap_wheels())
def test_so_many_pitches_go_round_the_pitch_circle_as_teeth_are_wanted(wheel: TapWheel):
    circle, full, two_more = wheel.blanks
    tiny = Fraction(1, 10**60)
    assert abs(circle.pitches_round - wheel.teeth) < tiny
    assert abs(two_more.pitches_round - wheel.teeth - 2) < tiny
    # What goes round a full blank is more than wanted, by less than three.
    assert wheel.teeth < full.pitches_round < wheel.teeth + 3


@several
@given(tap_wheels(), st.integers(1, 500))
def test_a_larger_tap_of_the_same_pitch_moves_the_centres_by_half_and_leaves_the_wheel(
    wheel: TapWheel, hundredths: int
):
    tap, more = wheel.tap, Length(Fraction(hundredths, 100))
    assert tap.diameter is not None
    other = TapWheel(Tap(tap.name, tap.pitch, tap.form, tap.diameter + more), wheel.teeth)
    assert (other.diameter, other.throat) == (wheel.diameter, wheel.throat)
    for larger, smaller in (
        (other.centre_distance, wheel.centre_distance),
        (other.throat_radius, wheel.throat_radius),
    ):
        assert larger is not None
        assert smaller is not None
        assert larger - smaller == Length(more.mm / 2)
    assert other.lead_angle is not None
    assert wheel.lead_angle is not None
    assert other.lead_angle < wheel.lead_angle
    assert gash_for_tap(other).depth == gash_for_tap(wheel).depth


@several
@given(tap_wheels())
def test_the_gash_of_a_tap_ends_short_of_where_the_crest_of_the_tap_reaches(wheel: TapWheel):
    tap = wheel.tap
    assert wheel.centre_distance is not None
    assert tap.diameter is not None
    reached = Length(wheel.throat.mm / 2) - (wheel.centre_distance - Length(tap.diameter.mm / 2))
    gash = gash_for_tap(wheel)
    assert abs((reached - wheel.whole_depth).mm) < Fraction(1, 10**40)
    assert gash.depth < reached
    assert 0 < gash.widest_cutter.mm < tap.pitch.mm / 2


def by(key: str) -> pytest.MarkDecorator:
    return pytest.mark.own_arithmetic(written_source(key, "proportions of the form"))


# Proportions by the standards of the forms, root clearance left out, worked by floats. ASME B1.1 has the profile of
# ISO 68-1; BS 93 rounds to 0.486 mm.
@pytest.mark.parametrize(
    ("form", "pitch", "included", "across", "depth"),
    [
        pytest.param("iso", "1", 60, 0.75 * math.sqrt(0.75), 17 / 24 * math.sqrt(0.75), marks=by("iso68")),
        pytest.param("miniature", "0.2", 60, 0.2 * 0.75 * math.sqrt(0.75), 0.2 * 0.56, marks=by("iso1501")),
        pytest.param(
            "whitworth",
            "1",
            55,
            1 / 3 / math.tan(math.radians(27.5)),
            1 / 3 / math.tan(math.radians(27.5)),
            marks=by("bs84"),
        ),
        # 20 to the inch is in BS 84, which rounds the depth to 0.0320 in.
        pytest.param("whitworth", "1.27", 55, 0.8128, 0.8128, marks=by("bs84")),
        pytest.param("ba", "0.81", 47.5, 0.485, 0.485, marks=by("bs93")),
        pytest.param("thury", "1", 47.5, 0.6, 0.6, marks=by("thury")),
        pytest.param("loewenherz", "1", 2 * math.degrees(math.atan(0.5)), 0.75, 0.75, marks=by("loewenherz")),
        pytest.param("acme", "2.54", 29, 1.27, 1.27, marks=by("b1_5")),
        pytest.param("trapezoidal", "4", 30, 2, 2, marks=by("iso2904")),
    ],
)
def test_a_tap_stands_above_its_pitch_line_and_reaches_below_as_its_form_has_it(form, pitch, included, across, depth):
    tap = Tap("of the form", Length.of_mm(pitch), FORMS[form])
    found = (2 * tap.form.half_angle.degrees, 2 * tap.addendum.mm, tap.depth.mm)
    assert tuple(map(float, found)) == pytest.approx((included, across, depth), rel=1e-12)


@several
@given(st.integers(1, 400), st.integers(0, 60), st.integers(1, 99))
def test_a_worm_holds_exactly_when_driving_it_back_would_take_power(slope: int, degrees: int, friction: int):
    hint = FrictionHint(Fraction(slope, 1000), Angle.of_degrees(degrees), Fraction(friction, 100))
    lead, rub = math.atan(slope / 1000), math.atan(friction / 100 / math.cos(math.radians(degrees)))
    assert float(hint.efficiency) == pytest.approx(math.tan(lead) / math.tan(lead + rub), rel=1e-9)
    if abs(lead - rub) > 1e-12:
        assert hint.holds is (lead < rub)
    # Where it holds, at least half the power is lost when the worm drives.
    if hint.holds:
        assert hint.efficiency < Fraction(1, 2)


def test_a_gauge_rod_sets_height_and_gap_and_too_large_a_one_is_refused():
    assert height_below_rod(Length.of_mm(12), Length.of_mm("-0.5")) == Length.of_mm("5.5")
    assert set_over(Length.of_mm(30), Length.of_mm(2)) == Length.of_mm(16)
    assert gap_to_rod(Length.of_mm(20), Length.of_mm(10), Length.of_mm(30)) == Length.of_mm(0)
    with pytest.raises(ImpossibleSettingError, match="10 mm"):
        gap_to_rod(Length.of_mm(20), Length.of_mm("10.1"), Length.of_mm(30))


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ({"diameter": Length.of_mm("2.5")}, "no core"),
        ({"flank": Angle.of_degrees(33)}, "point"),
        ({"flank": Angle.of_degrees(95)}, "flank"),
        ({"flank": Angle.of_degrees(0)}, "flank"),
    ],
)
def test_a_worm_that_cannot_be_is_refused(words, said):
    with pytest.raises(ImpossibleSettingError, match=said):
        make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1)), **words)


@pytest.mark.parametrize(
    ("teeth", "centres", "said"),
    [(5, None, "5 teeth"), (2001, None, "2001"), (40, Length.of_mm(90), "shift"), (12, None, "18 teeth")],
)
def test_a_wheel_that_cannot_be_is_refused(teeth, centres, said):
    worm = make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1)))
    with pytest.raises(ImpossibleSettingError, match=said):
        make_wheel(worm, teeth, centre_distance=centres)


def test_more_starts_than_teeth_and_a_sine_above_one_are_refused():
    size = ToothSize(ToothSystem.NORMAL_MODULE, Length.of_mm(3))
    with pytest.raises(ImpossibleSettingError, match="does not go round"):
        make_worm(size, starts=2, diameter=Length.of_mm(6))
    worm = make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1)), starts=8)
    with pytest.raises(ImpossibleSettingError, match="no reduction"):
        make_wheel(worm, 8)


def test_a_tap_too_coarse_for_its_diameter_and_a_wheel_too_small_for_its_form_are_refused():
    with pytest.raises(ImpossibleSettingError, match="too coarse"):
        hob_with_tap(Tap("odd", Length.of_mm(4), FORMS["iso"], Length.of_mm(4)), 40)
    with pytest.raises(ImpossibleSettingError, match="9 teeth"):
        hob_with_tap(Tap("M6x1", Length.of_mm(1), FORMS["iso"]), 8)
    assert hob_with_tap(Tap("M6x1", Length.of_mm(1), FORMS["iso"]), 8, may_undercut=True).teeth == 8
