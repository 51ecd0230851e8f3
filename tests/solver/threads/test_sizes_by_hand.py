"""Blanks, noses, grooves and limits worked by hand, with their ends: what just goes, and what just does not."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.threads.basic_dimensions import trapezoidal_clearance
from solver.threads.blanks import is_outside_class, refuse_past_sharp_crest, sharp_crest
from solver.threads.cutting import CuttingWishes, cutting
from solver.threads.forms import FORMS, read_form
from solver.threads.holes_and_blanks import bases_of, basis_named, die_blank, tapping_hole
from solver.threads.inch_tolerance import unified_limits
from solver.threads.infeed import infeed
from solver.threads.lead_angles import lead_angle
from solver.threads.limits import Band, Limits, ThreadClass, to_places_inch, to_thousandths_mm
from solver.threads.metric_tolerance import metric_limits, preferred_number
from solver.threads.run_out import run_out
from solver.threads.thread import Thread, coarsest_pitch, coarsest_words
from solver.threads.tool_nose import Nose, largest_nose, nose_for, root_of

MM, IN = Length.of_mm, Length.of_inches
M6 = Thread(FORMS["iso"], MM(6), MM(1))
M10 = Thread(FORMS["iso"], MM(10), MM("1.5"))
SQUARE = Thread(FORMS["square"], MM(20), MM(4))
#: Height of the sharp V of 60 degrees, for a pitch of one.
H = math.sqrt(3) / 2
SLACK, LITTLE = MM("0.000000001"), MM("0.0000000001")


def near(length: Length, mm: float) -> bool:
    return float(length.mm) == pytest.approx(mm, rel=1e-12)


@pytest.mark.parametrize(("internal", "away"), [(False, 1), (True, -1)])
def test_a_blank_at_the_sharp_crest_just_goes(internal, away):
    crest = sharp_crest(M6, internal=internal)
    # The pitch line lies 3 H / 4 within the major diameter; the flanks meet H away from it.
    assert near(crest, 6 - 0.75 * H + away * H)
    refuse_past_sharp_crest(M6, crest, internal=internal)
    refuse_past_sharp_crest(M6, crest - MM(away), internal=internal)
    with pytest.raises(ImpossibleSettingError):
        refuse_past_sharp_crest(M6, crest + LITTLE * away, internal=internal)
    refuse_past_sharp_crest(SQUARE, MM(100), internal=internal)


@pytest.mark.parametrize(("size", "is_outside"), [("5.9", False), ("6", False), ("5.8999", True), ("6.0001", True)])
@pytest.mark.parametrize("internal", [False, True])
def test_a_blank_is_within_its_class_up_to_both_ends(internal, size, is_outside):
    own, free = Band(MM("5.9"), MM(6)), Band(MM(1), MM(2))
    limits = Limits(ThreadClass.METRIC_NUT, free if internal else own, free, own if internal else free)
    assert is_outside_class(MM(size), limits, internal=internal) is is_outside


@pytest.mark.parametrize("band", [Band(None, MM(6)), Band(MM(5), None), Band(None, None)])
def test_without_both_ends_nothing_is_said_of_a_blank(band):
    for internal in (False, True):
        assert is_outside_class(MM(7), Limits(ThreadClass.ACME, band, band, band), internal=internal) is None
    assert is_outside_class(MM(7), None, internal=False) is None


# ISO 68-1: the crest of the screw is P/8 wide, that of the nut P/4; the root of the screw rounds to H/6 at most, which
# clears the corner of the nut's crest just so.
@pytest.mark.own_arithmetic("ISO 68-1, ISO general purpose screw threads, basic profile, edition not seen, profile")
def test_the_noses_of_an_iso_tool_follow_from_the_profile():
    flat, radius = largest_nose(M6, internal=False)
    assert near(flat, 1 / 4)
    assert near(radius, H / 6)
    flat, radius = nose_for(M6, internal=False)
    # Down to 17 H / 24 the flanks are still p/2 less twice H/3 times the tangent apart.
    assert near(flat, 1 / 2 - 2 * H / 3 * math.tan(math.pi / 6))
    assert near(radius, H / 6)
    # In the nut a full radius of H/8 would foul the screw's crest of P/8: two thirds of it clear.
    assert [near(each, mm) for each, mm in zip(largest_nose(M6, internal=True), (1 / 8, H / 12), strict=True)]
    assert near(nose_for(M6, internal=True)[0], 1 / 8)
    assert near(nose_for(M6, internal=True)[1], H / 12)


@pytest.mark.parametrize(("word", "at"), [("flat", 0), ("radius", 1)])
def test_a_nose_as_large_as_the_largest_just_goes(word, at):
    largest = largest_nose(M6, internal=False)[at]
    assert root_of(M6, Nose(**{word: largest + SLACK}), internal=False).diameter.mm > 0
    with pytest.raises(ImpossibleSettingError):
        root_of(M6, Nose(**{word: largest + SLACK + LITTLE}), internal=False)


def test_the_root_of_a_square_thread_is_half_a_pitch_deep_whatever_narrower_tool_cuts_it():
    for nose in (Nose(), Nose(flat=MM(1)), Nose(flat=MM(2))):
        assert root_of(SQUARE, nose, internal=False) == (MM(16), MM(2))
        assert root_of(SQUARE, nose, internal=True) == (MM(20), MM(2))
    assert nose_for(SQUARE, internal=False) == largest_nose(SQUARE, internal=True) == (MM(2), None)


@pytest.mark.parametrize(("internal", "root", "depth"), [(False, 1, 3.5), (True, 9, 3.5)])
def test_a_point_between_flanks_of_slope_one_half_goes_half_a_pitch_past_the_pitch_line(internal, root, depth):
    thread = Thread(FORMS["loewenherz"], MM(8), MM(4))
    assert thread.basic().external.pitch == MM(5)
    for sharp in (Nose(flat=MM(0)), Nose(radius=MM(0))):
        found = root_of(thread, sharp, internal=internal)
        assert near(found.diameter, root)
        assert near(found.depth, depth)


def test_what_is_left_on_the_flank_is_the_difference_of_two_tangents():
    found = infeed(MM(2), FORMS["iso"], Angle.of_degrees(29))
    assert near(found.flank_left, 2 * (math.tan(math.radians(30)) - math.tan(math.radians(29))))
    assert infeed(MM(2), FORMS["iso"], Angle.of_degrees(30)).flank_left == MM(0)
    straight = infeed(MM(2), FORMS["iso"], Angle.of_degrees(0))
    assert (straight.slide_travel, straight.shift) == (MM(2), MM(0))


def test_a_run_out_groove_is_as_wide_as_the_tool_and_the_stopping():
    # From the crest the flanks of a metric thread open half a pitch by the tangent of 30 degrees times 3 H / 8, twice.
    screw = run_out(M6, MM(5), internal=False, stopping=MM(3))
    assert near(screw.tool_width, 1 / 2 + 0.75 * H * math.tan(math.pi / 6))
    assert (screw.stopping, screw.width, screw.diameter) == (MM(3), screw.tool_width + MM(3), MM("4.8"))
    assert screw.chamfer == MM("0.5")
    # From the nut's crest, P/4 wide, they open H / 4 on either side.
    nut = run_out(M6, MM("6.1"), internal=True)
    assert near(nut.tool_width, 1 / 2 + 0.5 * H * math.tan(math.pi / 6))
    assert (nut.stopping, nut.diameter) == (MM(2), MM("6.3"))
    assert near(nut.chamfer, (6.1 - (6 - 1.25 * H)) / 2)


def test_a_cut_is_joined_from_its_wishes():
    tr = Thread(FORMS["trapezoidal"], MM(20), MM(4), 2)
    found = cutting(tr, CuttingWishes(nose=Nose(flat=MM("0.8")), stopping=MM(7), springs=3, passes=4))
    basic = tr.basic()
    assert (found.root, found.cuts) == (root_of(tr, Nose(flat=MM("0.8")), internal=False), None)
    assert found.basic_root == (basic.external.minor, basic.external.depth)
    assert found.noses == (*nose_for(tr, internal=False), *largest_nose(tr, internal=False))
    assert found.groove == run_out(tr, found.root.diameter, internal=False, stopping=MM(7))
    # The lead angle at the root is that of the root which is cut, deeper than the basic one.
    assert found.root.diameter < basic.external.minor
    for angle, diameter in zip(
        found.lead_angles, (basic.external.pitch, found.root.diameter, basic.external.major), strict=True
    ):
        assert angle == lead_angle(MM(8), diameter)
    assert found.relief.leading.turns == found.lead_angles.minor.turns + Fraction(3, 360)
    assert [each.is_spring for each in found.passes] == [False] * 4 + [True] * 3


def test_a_nut_is_joined_from_its_own_diameters():
    found = cutting(M10, CuttingWishes(internal=True, nose=Nose(flat=MM("0.1"))))
    nut = M10.basic().internal
    assert found.basic_root == (nut.major, nut.depth)
    assert found.root == root_of(M10, Nose(flat=MM("0.1")), internal=True)
    assert found.noses == (*nose_for(M10, internal=True), *largest_nose(M10, internal=True))
    assert found.groove == run_out(M10, found.root.diameter, internal=True)
    for angle, diameter in zip(found.lead_angles, (nut.pitch, nut.minor, found.root.diameter), strict=True):
        assert angle == lead_angle(M10.lead, diameter)


@pytest.mark.parametrize(
    ("form", "nose", "flat"),
    [
        # A flat tool takes a strip as wide as its nose all the way; a round one, or a rounded root, counts as a point.
        ("trapezoidal", Nose(flat=MM("0.5")), 0.5),
        ("acme", None, None),
        ("miniature", Nose(radius=MM("0.1")), 0),
        ("iso", None, 0),
        ("iso", Nose(flat=MM("0.3")), 0.3),
    ],
)
def test_passes_take_equal_areas_of_the_groove_that_the_tool_leaves(form, nose, flat):
    thread = Thread(FORMS[form], MM(20), MM(2))
    found = cutting(thread, CuttingWishes(nose=nose, passes=5, springs=0, step=MM("0.000001")))
    width = float(nose_for(thread, internal=False)[0].mm) if flat is None else flat
    slope = math.tan(math.radians(float(thread.form.half_angle.degrees)))
    depths = [float(each.depth.mm) for each in found.passes]
    areas = [depth * (width + depth * slope) for depth in depths]
    assert [area / areas[-1] for area in areas] == pytest.approx([0.2, 0.4, 0.6, 0.8, 1], abs=1e-4)


def test_a_bore_is_held_against_the_crests_of_the_nut():
    # They meet at 7.727 mm; a blank of that size would be past the root of the screw.
    assert cutting(M10, CuttingWishes(internal=True, blank=MM("7.73"))).feed.depth == MM("1.135")
    with pytest.raises(ImpossibleSettingError, match="below the sharp crest"):
        cutting(M10, CuttingWishes(internal=True, blank=MM("7.72")))


@pytest.mark.parametrize(("pitch", "step"), [("0.3", "0.001"), ("0.35", "0.01")])
def test_a_fine_thread_is_cut_by_tenths_of_a_step(pitch, step):
    # 17 H / 24 of 0.3 mm is 0.184 mm, of 0.35 mm 0.215 mm: below and above twenty steps of 0.01 mm.
    assert cutting(Thread(FORMS["iso"], MM(2), MM(pitch)), CuttingWishes()).step == MM(step)


def test_a_tapered_blank_is_not_held_against_a_crest_it_has_at_one_end_only():
    npt = Thread(FORMS["taper-pipe-60"], IN("0.84"), IN("1/14"))
    crest = sharp_crest(npt, internal=False)
    blank = crest + MM("0.5")
    found = cutting(npt, CuttingWishes(blank=blank))
    assert found.feed.depth == (blank - found.root.diameter) * Fraction(1, 2)
    with pytest.raises(ImpossibleSettingError, match="sharp crest"):
        cutting(M10, CuttingWishes(blank=sharp_crest(M10, internal=False) + MM("0.5")))


@pytest.mark.parametrize("word", [" iso ", "ISO", "Taper_Pipe 60", "taper-pipe-60", "60 °", "60DEG", "60 deg "])
def test_a_form_is_read_as_people_write_it(word):
    assert read_form(word).key == ("taper-pipe-60" if "aper" in word else "iso")


def test_all_of_the_depth_is_the_most_that_a_tap_leaves_and_a_basis_is_read_as_people_write_it():
    basis = basis_named(M6, " 5h/8 ")
    assert (basis.key, basis_named(M6, None).key) == ("5H/8", "3H/4")
    assert tapping_hole(M6, Fraction(1), basis) == M6.basic().internal.minor
    assert near(bases_of(M6)[0].full, 1.5 * H)


def test_a_die_blank_is_the_middle_of_its_class_where_there_is_one():
    limits = metric_limits(M6, ThreadClass.METRIC_SCREW)
    # M6-6g: 5.794 to 5.974 mm; without a class a tenth of the pitch comes off.
    assert die_blank(M6, limits) == MM("5.884")
    assert die_blank(M6, Limits(ThreadClass.ACME, *[Band(None, MM(6))] * 3)) == MM("5.9")
    assert die_blank(M6, None) == MM("5.9")


@pytest.mark.parametrize(
    ("value", "wanted"),
    [
        # Half way between two goes up, and the ends of what is kept are kept.
        ("103", "106"),
        ("1.03", "1.06"),
        ("102.999", "100"),
        ("103.001", "106"),
        ("1", "1"),
        ("9500", "9500"),
        ("999", "1000"),
    ],
)
def test_a_preferred_number_is_the_nearest_and_the_greater_of_two_as_near(value, wanted):
    assert preferred_number(Fraction(value)) == Fraction(wanted)


@pytest.mark.parametrize("value", ["0.999", "9500.001"])
def test_no_preferred_number_is_kept_beyond_the_ends(value):
    with pytest.raises(ValueError, match="preferred numbers"):
        preferred_number(Fraction(value))


# Td2 of grade 6 at 1 mm pitch: 112 up to 11.2 mm, 118 above; at 2 mm pitch 160 up to 22.4 mm, 170 above. [micrometres]
@pytest.mark.from_memory("ISO 965-1, ISO general purpose metric screw threads, tolerances, edition not seen, ranges")
@pytest.mark.parametrize(
    ("major", "pitch", "tolerance"),
    [("11.2", "1", 112), ("11.21", "1", 118), ("22.4", "2", 160), ("22.41", "2", 170)],
)
def test_a_range_of_diameters_ends_with_its_last(major, pitch, tolerance):
    band = metric_limits(Thread(FORMS["iso"], MM(major), MM(pitch)), ThreadClass.METRIC_SCREW).pitch
    assert (band.most - band.least).mm * 1000 == tolerance


@pytest.mark.parametrize(
    ("major", "pitch", "is_held"),
    [
        ("355", "8", True),
        ("355.1", "8", False),
        ("355", "8.1", False),
        ("0.991", "0.2", True),
        ("0.99", "0.2", False),
        ("1", "0.19", False),
    ],
)
def test_the_tables_hold_diameters_above_the_first_figure_and_pitches_from_the_finest_to_the_coarsest(
    major, pitch, is_held
):
    thread = Thread(FORMS["iso"], MM(major), MM(pitch))
    if is_held:
        assert metric_limits(thread, ThreadClass.METRIC_SCREW).notes == ()
    else:
        with pytest.raises(ImpossibleSettingError, match="outside"):
            metric_limits(thread, ThreadClass.METRIC_SCREW)


def test_a_metric_nut_has_no_greatest_major_and_a_screw_no_least_root():
    nut, screw = (metric_limits(M10, each) for each in (ThreadClass.METRIC_NUT, ThreadClass.METRIC_SCREW))
    assert (nut.of_class, screw.of_class) == (ThreadClass.METRIC_NUT, ThreadClass.METRIC_SCREW)
    assert (nut.major, nut.pitch.least) == (Band(MM(10), None), to_thousandths_mm(M10.basic().internal.pitch))
    # The root clears the nut's basic minor diameter, 8.376 mm, by the deviation of 0.032 mm.
    assert screw.minor == Band(None, MM("8.344"))


# The 0.25 p - 0.4 p^2 of sizes from 1/4 in up: 0.027551 in at 7 to the inch, on a basic minor diameter of 0.095351 in.
# By the formula of smaller sizes it would be 0.028807 in, and end at 0.124.
@pytest.mark.from_memory("ASME B1.1, Unified inch screw threads (UNC, UNF, UNEF), edition not seen, formulas")
def test_the_minor_tolerance_of_a_quarter_inch_nut_is_that_of_the_larger_sizes():
    nut = unified_limits(Thread(FORMS["unified"], IN("0.25"), IN("1/7")), ThreadClass.UNIFIED_NUT, IN("9/7"))
    assert nut.minor.most.inches == Fraction("0.123")


# 0.15 of a pitch of 1/2 in is 0.075, of 1/3 in 0.05; at 4 to the inch both rules give 0.0375. Printed to 0.001 in.
@pytest.mark.from_memory("ASME B1.1, Unified inch screw threads (UNC, UNF, UNEF), edition not seen, formulas")
@pytest.mark.parametrize(("pitch", "tolerance"), [("1/2", "0.075"), ("1/3", "0.05"), ("1/4", "0.0375")])
def test_the_minor_tolerance_of_a_very_coarse_nut_is_a_share_of_its_pitch(pitch, tolerance):
    nut = unified_limits(Thread(FORMS["unified"], IN(6), IN(pitch)), ThreadClass.UNIFIED_NUT, IN(6))
    assert abs((nut.minor.most - nut.minor.least).inches - Fraction(tolerance)) <= Fraction(1, 1000)


# No.0-80: by the formula 0.0069 in, but no more than 0.394 p, 0.0049 in, on 0.0465 in.
@pytest.mark.from_memory("ASME B1.1, Unified inch screw threads (UNC, UNF, UNEF), edition not seen, 0-80 UNF-2B")
def test_the_minor_tolerance_of_the_smallest_nut_is_capped():
    nut = unified_limits(Thread(FORMS["unified"], IN("0.06"), IN("1/80")), ThreadClass.UNIFIED_NUT, IN("0.06"))
    assert nut.minor == Band(IN("0.0465"), IN("0.0514"))


# 1/2-14 NPT at the small end: E0 = 0.75843 in and a height of 0.8 p, 0.05714 in, either side of it on the diameter.
@pytest.mark.from_memory("ASME B1.20.1, Pipe threads, general purpose (inch), NPT, edition not seen, E0 and K0 of 1/2")
def test_a_tapered_pipe_thread_is_eight_tenths_of_its_pitch_high():
    basic = Thread(FORMS["taper-pipe-60"], IN("0.84"), IN("1/14")).basic()
    assert basic.external == basic.internal
    shown = [round(float(each.inches), 4) for each in basic.external]
    assert shown == [0.8156, 0.7584, 0.7013]


def test_what_limits_of_inch_threads_rest_on_is_said():
    thread = Thread(FORMS["unified"], IN("1/4"), IN("1/20"))
    for of_class in (ThreadClass.UNIFIED_SCREW, ThreadClass.UNIFIED_NUT):
        assert unified_limits(thread, of_class, IN("1/4")).notes == ("length of engagement one diameter",)
        found = unified_limits(thread, of_class, IN("9/20"))
        assert (found.of_class, found.notes) == (of_class, ("length of engagement 9 pitches",))
    nut = unified_limits(thread, ThreadClass.UNIFIED_NUT, IN("1/4"))
    assert (nut.major.least, nut.major.most) == (IN("1/4"), None)


def test_halves_are_rounded_up_in_inches_and_to_the_even_figure_in_millimetres():
    assert [to_places_inch(IN(each)).inches for each in ("0.00005", "0.00015", "0.00014")] == [
        Fraction(1, 10**4),
        Fraction(2, 10**4),
        Fraction(1, 10**4),
    ]
    assert to_places_inch(IN("0.0005"), 3).inches == Fraction(1, 1000)
    assert [to_thousandths_mm(MM(each)) for each in ("0.0005", "0.0015")] == [MM(0), MM("0.002")]


def test_a_core_of_a_quarter_just_goes():
    # Half the pitch deep on each side: 6 mm leaves 2 of 8.
    assert Thread(FORMS["square"], MM(8), MM(6)).basic().external.minor == MM(2)
    with pytest.raises(ImpossibleSettingError, match="a core of only"):
        Thread(FORMS["square"], MM(8), MM("6.001")).basic()
    # A core of just nothing is no core.
    with pytest.raises(ImpossibleSettingError, match="no core is left"):
        Thread(FORMS["square"], MM(8), MM(8)).basic()


@pytest.mark.parametrize(
    ("major", "pitch", "starts"), [("0", "1", 1), ("-1", "1", 1), ("1", "0", 1), ("1", "-1", 1), ("1", "1", 0)]
)
def test_a_thread_has_a_diameter_a_pitch_and_a_start(major, pitch, starts):
    with pytest.raises(ValueError, match="at least one start"):
        Thread(FORMS["iso"], MM(major), MM(pitch), starts)


@pytest.mark.parametrize("part", [Fraction(1, 4), Fraction(1, 2)])
@pytest.mark.parametrize(("form", "takes"), [("square", 1), ("thury", 1.2), ("loewenherz", 1.5), ("iso", H * 17 / 12)])
def test_the_coarsest_pitch_is_what_the_form_takes_off_for_each_pitch(form, takes, part):
    found = coarsest_pitch(FORMS[form], MM(12), part)
    assert float(found.mm) == pytest.approx(12 * (1 - float(part)) / takes, rel=1e-10)
    assert found.mm <= 12 * (1 - part) / Fraction(takes) + Fraction(1, 10**12)


def test_there_is_no_coarsest_pitch_where_the_clearance_alone_takes_too_much():
    # Acme to 10 threads an inch clears 0.02 in on the diameter: of 0.5 mm nothing is left for a thread.
    assert coarsest_pitch(FORMS["acme"], MM("0.5"), Fraction(1, 4)) is None
    assert coarsest_words(Thread(FORMS["acme"], MM("0.5"), MM(1)), Fraction(1, 4)) is None


@pytest.mark.from_memory(
    "ISO 2904, ISO metric trapezoidal screw threads, basic dimensions, edition not seen, clearances"
)
@pytest.mark.parametrize(
    ("pitch", "clear"),
    [("1.5", "0.15"), ("1.51", "0.25"), ("5", "0.25"), ("6", "0.5"), ("12", "0.5"), ("14", "1"), ("44", "1")],
)
def test_the_clearance_of_a_trapezoidal_thread_goes_by_its_pitch(pitch, clear):
    assert trapezoidal_clearance(MM(pitch)) == MM(clear)


def test_a_pitch_beyond_the_coarsest_of_the_trapezoidal_series_keeps_its_clearance():
    assert trapezoidal_clearance(MM(48)) == MM(1)
