"""Ratios, periods, sizes of tooth and cutters as they are written, and the counts that each bound leaves."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.dividing.heads import Head, Plate
from solver.dividing.moves import Method
from solver.quantities.angles import Angle
from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.wheelwork.periods import Period, read_period
from solver.wheelwork.tooth_cutting import SpurTooth, clean_from, read_cutters, read_spur_tooth
from solver.wheelwork.wheel_limits import AllowedCounts, Left, WheelLimits, allowed_counts, divides, way_of_dividing
from solver.wheelwork.written_ratios import WrittenFigure, WrittenRatio, read_turning_ratio, written_decimal


@pytest.mark.parametrize(
    ("text", "ratio"),
    [
        ("3 x 4", 12), ("3X4", 12), ("3 × 4", 12), ("3*4", 12), ("3/4", "3/4"), (" 3 : 4 ", "3/4"),
        # From left to right, whatever the sign.
        ("1/2/4", "1/8"), ("2/3x9", 6), ("64/38 x 48/24 x 127/32", "254/19"),
        ("x".join("2" * 16), 2**16),
    ],
)  # fmt: skip
def test_a_ratio_is_taken_from_left_to_right(text, ratio):
    assert read_turning_ratio(text) == WrittenRatio(Fraction(ratio), Fraction(0))


@pytest.mark.parametrize(
    ("text", "give"),
    [
        # Half a unit of the last place, as a part of the figure; those of all figures together.
        ("2.5", "1/50"), ("12/2.50", "1/500"), ("2.5 x 2.5", "2/50"), ("2.5/2.50", "11/500"), ("5/2", 0),
        ("5.0", "1/100"), (".5", "1/10"),
    ],
)  # fmt: skip
def test_a_ratio_gives_by_half_its_last_places(text, give):
    assert read_turning_ratio(text).give == Fraction(give)


def test_a_figure_is_as_fine_as_it_is_written():
    reader = FigureReader("12.50/3")
    assert written_decimal(reader) == WrittenFigure(Fraction(25, 2), Fraction(1, 200))
    assert reader.peek() == "/"
    assert WrittenFigure(Fraction(25, 2), Fraction(1, 200)).give == Fraction(1, 2500)


@pytest.mark.parametrize(
    ("words", "seconds"),
    [
        (("week", "weeks", "WEEK"), 604_800), (("d", "day", "days", "Days"), 86_400),
        (("h", "hr", "hour", "hours", "H"), 3600), (("min", "minute", "minutes", "MIN"), 60),
        (("s", "sec", "second", "seconds", "S"), 1),
    ],
)  # fmt: skip
def test_every_word_for_a_unit_of_time_is_read_with_a_figure_or_without(words, seconds):
    for word in words:
        assert read_period(word, {}).seconds == seconds
        assert read_period(f"2{word}", {}).seconds == 2 * seconds
        assert read_period(f" 2.5  {word} ", {}) == Period(
            Fraction(5 * seconds, 2 * 86_400), f"2.5 {word}", Fraction(1, 50)
        )


@pytest.mark.parametrize(
    ("text", "seconds", "give"),
    [
        ("29 d 12 h 44 min 2.9 s", ((29 * 24 + 12) * 60 + 44) * 60 + Fraction(29, 10), Fraction(1, 20)),
        ("1 h 30min", 5400, 0),
        ("1.5 h 1.0 min", 5460, 180 + Fraction(3, 1)),
        ("1 week 1 s", 604_801, 0),
    ],
)  # fmt: skip
def test_times_add_up_and_so_do_their_last_places(text, seconds, give):
    found = read_period(text, {})
    assert found.seconds == seconds
    # Half a unit of each last place, over the whole.
    assert found.give == Fraction(give) / seconds
    assert found.told == text


NAMED = {
    "synodic month": Period(Fraction("29.53"), "29.53 days", Fraction(1, 5906)),
    "Mars sidereal": Period(Fraction(687), "687 days"),
    "Sol": Period(Fraction(1), "1 day"),
    "h": Period(Fraction(99), "99 days"),
    "day of rest": Period(Fraction(7), "7 days"),
}


@pytest.mark.parametrize(
    ("text", "days", "give"),
    [
        ("synodic month", "29.53", "1/5906"), ("SYNODIC  Months", "29.53", "1/5906"),
        ("2 synodic months", "59.06", "1/5906"), ("2.5 synodic months", "73.825", "1/50"),
        ("2.5 Mars sidereal", "1717.5", "1/50"), ("sols", 1, 0), ("SOL", 1, 0),
        # A word for a unit is that before it is a name; with more behind it it is a name.
        ("h", "1/24", 0), ("day of rest", 7, 0), ("3 day of rest", 21, 0),
    ],
)  # fmt: skip
def test_a_named_period_is_counted_and_gives_what_its_figure_and_it_give(text, days, give):
    found = read_period(text, NAMED)
    assert found.days == Fraction(days)
    both = Fraction(give) + (Fraction(1, 5906) if text.startswith("2.5 syn") else 0)
    assert found.give == both
    assert found.told == " ".join(text.split())


@pytest.mark.parametrize(
    ("text", "cutters"),
    [
        ("1-8", range(1, 9)), ("2,4,6", (2, 4, 6)), ("1-3, 8", (1, 2, 3, 8)), ("1 – 3 ,8", (1, 2, 3, 8)), ("8", (8,)),
        ("6 , 2", (2, 6)), ("3-3", (3,)), ("2-4,3-5", (2, 3, 4, 5)), (" 1 ", (1,)),
    ],
)  # fmt: skip
def test_cutters_are_read_as_runs_and_single_numbers(text, cutters):
    assert read_cutters(text) == tuple(cutters)


MODULE, PITCH = read_spur_tooth(" module  0.5 "), read_spur_tooth("48 DP")


def test_a_size_of_tooth_is_kept_as_it_is_written_and_has_the_proportions_of_its_kind():
    assert SpurTooth("module 0.5", Length.of_mm("0.5"), is_dp=False) == MODULE
    assert SpurTooth("48 DP", Length.of_inches("1/48"), is_dp=True) == PITCH
    # 2.25 modules; 2.157 over the diametral pitch.
    assert MODULE.whole_depth.mm == Fraction("1.125")
    assert PITCH.whole_depth.inches == Fraction("2.157") / 48
    assert (MODULE.usual_flank.degrees, PITCH.usual_flank.degrees) == (20, Fraction(29, 2))
    assert (MODULE.outside(60).mm, PITCH.outside(46).inches) == (31, 1)
    assert (MODULE.centre_distance(96).mm, PITCH.centre_distance(97).inches) == (24, Fraction(97, 96))


@pytest.mark.parametrize(
    ("teeth", "module", "pitch"),
    [
        (11, None, None),
        (12, 1, 8),
        (13, 1, 8),
        (14, 2, 7),
        (16, 2, 7),
        (17, 3, 6),
        (55, 7, 2),
        (134, 7, 2),
        (135, 8, 1),
    ],
)
def test_the_set_of_eight_begins_at_twelve_teeth_and_is_numbered_from_either_end(teeth, module, pitch):
    assert (MODULE.cutter(teeth), PITCH.cutter(teeth)) == (module, pitch)


@pytest.mark.parametrize(
    ("diameter", "most", "fewest"),
    [("30", 58, 58), ("30.1", 58, 59), ("30.49", 58, 59), ("30.5", 59, 59), ("10.01", 18, 19)],
)
def test_a_diameter_bounds_the_teeth_from_above_and_from_below(diameter, most, fewest):
    # A blank of module 0.5 is half a millimetre a tooth, and one more.
    length = Length.of_mm(diameter)
    assert (MODULE.most_teeth(length), MODULE.fewest_teeth(length)) == (most, fewest)


@pytest.mark.parametrize(("degrees", "teeth"), [(10, 67), ("14.5", 32), (20, 18), (30, 8 + 1)])
def test_undercut_begins_below_twice_the_square_of_the_cosecant(degrees, teeth):
    # 2 / sin**2: 66.3, 31.9, 17.1 and, at thirty degrees, 8 to the dot.
    assert clean_from(Angle.of_degrees(degrees)) in (teeth, teeth - (degrees == 30))


HEAD = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),), (24,))


def test_each_bound_leaves_out_its_own_counts_and_those_that_cost_least_to_look_at_come_first():
    limits = WheelLimits(12, 22, HEAD, (Method.PLAIN,), MODULE, (2, 3), 15)
    assert allowed_counts(limits) == AllowedCounts(
        (15, 16, 17, 18, 19, 20),
        (
            Left("undercut begins below 15 teeth", (12, 13, 14)),
            Left("no cutter among 2, 3 is for them", (21, 22)),
        ),
    )
    # 21 and 22 want a circle of sevens or elevens, which this plate has not.
    assert allowed_counts(WheelLimits(19, 23, HEAD, (Method.PLAIN,))) == AllowedCounts(
        (19, 20), (Left("the head does not divide them exactly by plain", (21, 22, 23)),)
    )


def test_bounds_that_leave_nothing_out_are_not_told():
    assert allowed_counts(WheelLimits(5, 1000)) == AllowedCounts(tuple(range(5, 1001)), ())
    assert allowed_counts(WheelLimits(17, 18, tooth=MODULE, cutters=(3,), clean_from=17)).left_out == ()
    # Cutters without a size of tooth bound nothing, nor does a size without cutters.
    assert allowed_counts(WheelLimits(12, 14, cutters=(3,))).counts == (12, 13, 14)
    assert allowed_counts(WheelLimits(12, 14, tooth=MODULE)).counts == (12, 13, 14)
    assert allowed_counts(WheelLimits(60, 61)).counts == (60, 61)


@pytest.mark.parametrize(
    ("count", "methods", "way"),
    [
        (8, (), Method.DIRECT), (8, (Method.PLAIN,), Method.PLAIN), (8, (Method.COMPOUND, Method.PLAIN), Method.PLAIN),
        (48, (Method.DIRECT,), None), (51, (), Method.COMPOUND), (51, (Method.PLAIN, Method.DIFFERENTIAL), None),
        (127, (), None),
    ],
)  # fmt: skip
def test_a_count_is_divided_by_the_first_method_that_is_exact_of_those_named(count, methods, way):
    assert way_of_dividing(HEAD, count, methods) is way
    assert divides(HEAD, count, methods) is (way is not None)


def test_a_head_with_wheels_divides_by_gearing_before_two_counts():
    head = Head("40:1", Fraction(40), (Plate("C", ((39, 49),)),), wheels=((24, 2), (32, 1), (44, 1), (48, 1), (56, 1)))
    assert way_of_dividing(head, 127) is Method.DIFFERENTIAL
    assert way_of_dividing(head, 127, (Method.COMPOUND,)) is None
    assert way_of_dividing(head, 127, (Method.DIFFERENTIAL, Method.PLAIN)) is Method.DIFFERENTIAL


@pytest.mark.parametrize(("text", "told"), [("DP 48", "48 DP"), ("d.p. 12 1/2", "12 1/2 DP"), ("48dp", "48dp")])
def test_a_diametral_pitch_is_read_before_its_figure_too(text, told):
    tooth = read_spur_tooth(text)
    assert (tooth.told, tooth.is_dp) == (told, True)
    assert tooth.module == Length.of_inches("2/25" if "12" in text else "1/48")
