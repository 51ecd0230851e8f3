"""Worms, wheels and readings worked by hand: what is usual, what just goes, and in which order."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.quantities.written_pitches import read_pitch
from solver.refusals import ImpossibleSettingError
from solver.threads.forms import FORMS
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass
from solver.worms.blanks import greatest_rim, rim_diameters, shop_face, worm_length
from solver.worms.gashing import gash_for_tap, gash_for_wheel
from solver.worms.tap_hobbing import TapWheel, hob_with_tap
from solver.worms.taps import Tap
from solver.worms.tooth_sizes import ToothSize, ToothSystem
from solver.worms.wanted_reading import ScrewChoice, marks_for, screws_for_mark, screws_for_turn, teeth_for
from solver.worms.worm import make_worm
from solver.worms.worm_wheel import WormWheel, checked_count, least_teeth, make_wheel

MM, IN, DEGREES = Length.of_mm, Length.of_inches, Angle.of_degrees
MODULE_1 = ToothSize(ToothSystem.AXIAL_MODULE, MM(1))
NORMAL_1 = ToothSize(ToothSystem.NORMAL_MODULE, MM(1))
TEN_TO_THE_INCH = ToothSize(ToothSystem.CIRCULAR_PITCH, IN("0.1"))
WORM = make_worm(MODULE_1)
TR16 = Tap("Tr 16x4", MM(4), FORMS["trapezoidal"], MM(16))


def near(length: Length, mm: float) -> bool:
    return float(length.mm) == pytest.approx(mm, rel=1e-12)


def wheel_of(starts: int, size: ToothSize = MODULE_1) -> WormWheel:
    return WormWheel(make_worm(size, starts=starts), 40)


@pytest.mark.parametrize(
    ("size", "flank", "clearance"),
    [
        (MODULE_1, "20", "0.25"),
        (NORMAL_1, "20", "0.25"),
        (ToothSize.of_dp(Fraction(20)), "14.5", "0.157"),
        (TEN_TO_THE_INCH, "14.5", "0.157"),
    ],
)
def test_what_is_left_out_of_a_worm_is_usual_for_its_system(size, flank, clearance):
    worm = make_worm(size)
    assert (worm.starts, worm.flank, worm.clearance) == (1, DEGREES(flank), Fraction(clearance))
    module = size.figure.mm / (Fraction(math.pi) if size is TEN_TO_THE_INCH else 1)
    assert near(worm.diameter, float(18 * module))


def test_what_is_said_of_a_worm_is_taken():
    worm = make_worm(NORMAL_1, starts=3, diameter=MM(5), flank=DEGREES(15), clearance=Fraction(1, 5))
    # Three starts of normal module 1 on 5 mm: a sine of 3/5, so a tangent of 3/4 and an axial module of 5/4.
    assert (worm.lead_tangent, worm.module, worm.addendum) == (Fraction(3, 4), MM("1.25"), MM(1))
    assert (worm.starts, worm.flank, worm.clearance) == (3, DEGREES(15), Fraction(1, 5))
    assert worm.whole_depth == MM("2.2")


def test_flanks_of_five_degrees_are_answered_and_of_45_come_to_a_point():
    assert make_worm(MODULE_1, flank=DEGREES(5)).flank == DEGREES(5)
    with pytest.raises(ImpossibleSettingError, match="to a point too soon"):
        make_worm(MODULE_1, flank=DEGREES(45))


def test_a_core_however_thin_is_a_core():
    assert make_worm(MODULE_1, diameter=MM("2.51")).root == MM("0.01")


def test_starts_go_round_a_normal_worm_wider_than_their_modules():
    assert NORMAL_1.tangent_of_lead_angle(MM("2.5"), 2) == Fraction(4, 3)
    for diameter in ("2", "1.9"):
        with pytest.raises(ImpossibleSettingError, match="does not go round"):
            NORMAL_1.tangent_of_lead_angle(MM(diameter), 2)
    # In the axial system there is no such limit.
    assert MODULE_1.tangent_of_lead_angle(MM(2), 2) == 1
    assert TEN_TO_THE_INCH.axial_module(Fraction(3, 4)) == TEN_TO_THE_INCH.axial_module(Fraction(0))
    assert TEN_TO_THE_INCH.axial_pitch(Fraction(3, 4)) == IN("0.1")
    assert NORMAL_1.axial_pitch(Fraction(3, 4)) == PiLength(Fraction(5, 4))


@pytest.mark.parametrize(
    ("size", "text"),
    [
        (ToothSize.of_dp(Fraction(24)), "24 DP"),
        (ToothSize.of_dp(Fraction(5, 2)), "2.5 DP"),
        (MODULE_1, "module 1"),
        (NORMAL_1, "normal module 1"),
        (TEN_TO_THE_INCH, "circular pitch 2.54 mm"),
        (ToothSize.of_pitch(read_pitch("0.1in")), "circular pitch 0.1 in"),
        (ToothSize.of_pitch(read_pitch("2.54mm")), "circular pitch 2.54 mm"),
        (ToothSize.of_pitch(read_pitch("3.001mm")), "circular pitch 3.001 mm"),
        (ToothSize.of_pitch(read_pitch("12 tpi")), "circular pitch 1/12 in"),
    ],
)
def test_a_size_is_told_as_the_drawing_states_it(size, text):
    assert str(size) == text


@pytest.mark.parametrize(
    ("starts", "rims", "greatest", "face"),
    [
        (1, ("throat + 1 module", "throat + 0.4775 of the pitch"), "throat + 2 modules", "2.38 pitch + 0.25 in"),
        (2, ("throat + 1 module", "throat + 0.4775 of the pitch"), "throat + 1.5 modules", "2.38 pitch + 0.25 in"),
        (3, ("throat + 1 module", "throat + 0.3183 of the pitch"), "throat + 1.5 modules", "2.15 pitch + 0.2 in"),
        (4, ("throat + 1 module", "throat + 0.3183 of the pitch"), "throat + 1 module", "2.15 pitch + 0.2 in"),
    ],
)
def test_the_rules_of_a_blank_are_named_and_are_what_they_say(starts, rims, greatest, face):
    wheel = wheel_of(starts)
    found = rim_diameters(wheel)
    assert tuple(each.rule for each in found) == rims
    # 0.4775 and 0.3183 of the pitch are one and a half modules and one.
    manual = Fraction(3, 2) if starts <= 2 else 1
    assert [each.size - wheel.throat for each in found] == [MM(1), MM(manual)]
    assert greatest_rim(wheel).rule == greatest
    assert shop_face(wheel).rule == face
    share, more = (2.38, 0.25) if starts <= 2 else (2.15, 0.2)
    assert near(shop_face(wheel).size, share * math.pi + more * 25.4)
    # The manual's own rule stands first for an inch worm.
    inch = rim_diameters(wheel_of(starts, ToothSize.of_dp(Fraction(20))))
    assert tuple(each.rule for each in inch) == rims[::-1]


def test_the_length_of_a_worm_goes_by_pitch_and_teeth():
    found = worm_length(wheel_of(1))
    assert found.rule == "pitch × (4.5 + teeth/50)"
    assert near(found.size, math.pi * (4.5 + 40 / 50))


def test_a_gash_leaves_a_tenth_for_the_hob_and_takes_no_more_than_the_space():
    gash = gash_for_wheel(WormWheel(WORM, 40))
    assert (gash.depth, gash.left, gash.swing) == (MM("2.025"), MM("0.225"), WORM.lead_angle)
    # Half a pitch at the pitch line, less by both flanks 1.025 mm below it; square to the thread by its cosine.
    space = math.pi / 2 - 2 * 1.025 * math.tan(math.radians(20))
    assert near(gash.widest_cutter, space * math.cos(math.atan(1 / 18)))
    assert gash.cutter_diameter == MM("20.5")
    # The normal module is square to the thread already.
    normal = gash_for_wheel(WormWheel(make_worm(NORMAL_1), 40))
    assert near(normal.widest_cutter, space)


def test_a_gash_for_a_tap_is_swung_and_narrowed_only_where_the_diameter_is_known():
    gash = gash_for_tap(TapWheel(TR16, 40))
    lead = math.atan(4 / (14 * math.pi))
    space = 2 - 2 * 0.8 * math.tan(math.radians(15))
    assert (gash.depth, gash.left, gash.cutter_diameter) == (MM("1.8"), MM("0.2"), MM(16))
    assert gash.swing is not None
    assert float(gash.swing.degrees) == pytest.approx(math.degrees(lead), rel=1e-12)
    assert near(gash.widest_cutter, space * math.cos(lead))
    bare = gash_for_tap(TapWheel(Tap("4 mm", MM(4), FORMS["trapezoidal"]), 40))
    assert (bare.depth, bare.left, bare.swing, bare.cutter_diameter) == (MM("1.8"), MM("0.2"), None, None)
    assert near(bare.widest_cutter, space)


def test_what_a_tap_with_a_diameter_tells_and_one_without_does_not():
    known, bare = TapWheel(TR16, 40), TapWheel(Tap("4 mm", MM(4), FORMS["trapezoidal"]), 40)
    assert known.throat_radius == MM(6)
    assert near(known.centre_distance, (14 + 160 / math.pi) / 2)
    assert near(known.face, math.sqrt(16**2 - 14**2))
    assert known.lead_angle == arc_tangent(known.lead_tangent)
    for told in (bare.throat_radius, bare.centre_distance, bare.face, bare.lead_angle, bare.tap.pitch_diameter):
        assert told is None
    assert [each.rule for each in bare.blanks] == [
        "pitch circle, N p/π",
        "full teeth, pitch dia + thread",
        "(N + 2) p/π",
    ]


@pytest.mark.parametrize(("diameter", "goes"), [("4", False), ("4.01", True)])
def test_a_tap_keeps_a_core_under_its_thread(diameter, goes):
    # A trapezoidal thread of 4 mm pitch is 2 mm deep on either side.
    tap = Tap("odd", MM(4), FORMS["trapezoidal"], MM(diameter))
    if goes:
        assert hob_with_tap(tap, 60) == TapWheel(tap, 60)
        return
    with pytest.raises(ImpossibleSettingError, match="no core"):
        hob_with_tap(tap, 60)


def test_the_fewest_teeth_cut_clean_are_cut():
    # Twice the depth over the squared sine: 2 / 0.11698 is 17.1 for a rack of 20 degrees.
    assert make_wheel(WORM, 18) == WormWheel(WORM, 18)
    with pytest.raises(ImpossibleSettingError, match="18 teeth"):
        make_wheel(WORM, 17)
    assert make_wheel(WORM, 17, may_undercut=True) == WormWheel(WORM, 17)
    tap = Tap("M6x1", MM(1), FORMS["iso"])
    assert hob_with_tap(tap, 9) == TapWheel(tap, 9)


@pytest.mark.parametrize(("depth", "least"), [("1", 18), ("0.5", 9), ("0", 1), ("-1", 1)])
def test_a_tool_that_goes_no_deeper_than_the_pitch_line_undercuts_nothing(depth, least):
    assert least_teeth(Fraction(depth), DEGREES(20)) == least


@pytest.mark.parametrize(("teeth", "starts"), [(6, 5), (6, 1), (2000, 50)])
def test_counts_within_the_ends_are_answered(teeth, starts):
    assert checked_count(teeth, starts) is None


@pytest.mark.parametrize(("centres", "shift"), [("28", "-1"), ("31", "2"), ("29.5", "0.5"), ("29", "0")])
def test_a_centre_distance_shifts_the_wheel_by_what_it_differs(centres, shift):
    assert make_wheel(WORM, 40, centre_distance=MM(centres)).shift == Fraction(shift)


@pytest.mark.parametrize("centres", ["27.999", "31.001"])
def test_a_shift_beyond_use_is_refused(centres):
    with pytest.raises(ImpossibleSettingError, match="would shift"):
        make_wheel(WORM, 40, centre_distance=MM(centres))


def test_the_centre_distance_that_is_told_mends_an_undercut_wheel_and_a_micrometre_less_does_not():
    with pytest.raises(ImpossibleSettingError, match=r"15\.299 mm"):
        make_wheel(WORM, 12)
    assert make_wheel(WORM, 12, centre_distance=MM("15.299")).teeth == 12
    with pytest.raises(ImpossibleSettingError, match="undercut"):
        make_wheel(WORM, 12, centre_distance=MM("15.298"))


@pytest.mark.parametrize("count", [2, 2000])
def test_dials_and_wheels_of_two_to_two_thousand_are_answered(count):
    assert marks_for(Length(Fraction(1, count)), MM(1)).number == count
    assert teeth_for(MM(count), MM(1)).number == count
    with pytest.raises(ImpossibleSettingError):
        teeth_for(MM(1 if count == 2 else 2001), MM(1))


def lathe(*teeth: int) -> Lathe:
    box = (WheelClass("module 1", MM(1), tuple((each, 1) for each in teeth)),)
    return Lathe("metric", "3 mm", MM(3), Fraction(1), has_reverse=True, wheel_classes=box)


def order_of(choices: list[ScrewChoice]) -> list[int]:
    return [each.number for each in choices]


def test_screws_cut_exactly_stand_first_and_among_them_the_plainest_pitch():
    found = screws_for_mark(MM("0.01"), lathe(20, 40, 60))
    # Single pairs of 20, 40 and 60 cut 1, 1.5 and 2 mm off 3 mm: whole millimetres first, then the halves.
    assert order_of([each for each in found if each.is_cut_exactly]) == order_of(found[:3]) == [100, 200, 150]
    # Those not cut within reach stand last, again by how plain the pitch is: 0.6 mm is 3/5, 0.75 mm 3/4.
    last = [each for each in found if each.train is None]
    assert last == found[-len(last) :]
    assert order_of(last) == sorted(order_of(last), key=lambda number: (Fraction(number, 100).denominator, number))


def test_screws_cut_nearly_stand_between_by_rising_error():
    found = screws_for_mark(MM("0.01"), lathe(20, 25, 30, 37, 38, 40, 45, 50, 60, 63, 127))
    errors = [abs(each.train.error.relative) for each in found if each.train is not None]
    assert errors == sorted(errors)
    assert any(errors)
    assert [each.train is None for each in found] == sorted(each.train is None for each in found)


@pytest.mark.parametrize(
    ("reading", "finest", "coarsest"),
    # Usual dials have 10 to 254 marks: 0.02 mm on ten is 0.2 mm, 0.026 mm on 250 is 6.5 mm.
    [("0.02", 10, 254), ("0.026", 10, 250)],
)
def test_usual_screws_have_pitches_of_two_tenths_to_six_and_a_half(reading, finest, coarsest):
    numbers = order_of(screws_for_mark(MM(reading), lathe(20, 40)))
    assert (min(numbers), max(numbers)) == (finest, coarsest)


def test_a_dial_or_wheel_that_is_given_is_answered_whatever_the_pitch():
    assert [(each.number, each.pitch) for each in screws_for_mark(MM(1), lathe(20, 40), 9)] == [(9, MM(9))]
    assert [(each.number, each.pitch) for each in screws_for_turn(MM(1), lathe(20, 40), 50)] == [(50, MM("0.02"))]


def test_the_nearer_of_two_trains_is_taken_whichever_side_it_errs():
    # Off 3 mm 52-65 cuts 2.4 mm, 700 ppm short of 2.40168; 41-52-66-65 cuts 2.40178 mm, 40 ppm over it.
    (found,) = screws_for_mark(MM("2.40168"), lathe(41, 52, 65, 66), 1)
    assert found.train is not None
    assert found.train.cut_lead == Length(3 * Fraction(41 * 66, 52 * 65))


def test_no_screw_is_proposed_with_three_pairs_of_wheels():
    # 3 mm by 20/21, 23/22 and 25/26: three pairs would cut it exactly, two do not.
    pitch = Length(3 * Fraction(20 * 23 * 25, 21 * 22 * 26))
    (found,) = screws_for_mark(pitch, lathe(20, 21, 22, 23, 25, 26), 1)
    assert found.train is None or not found.is_cut_exactly
    # Two pairs are taken where they are needed.
    pitch = Length(3 * Fraction(20 * 23, 21 * 22))
    (found,) = screws_for_mark(pitch, lathe(20, 21, 22, 23), 1)
    assert found.is_cut_exactly
