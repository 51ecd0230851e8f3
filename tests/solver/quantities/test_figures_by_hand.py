"""Figures read and written, by hand: where the reader stops, which way is rounded, what the last place is worth."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.exact_numbers import (
    decimal_text,
    exact,
    is_finite_decimal,
    order_of_magnitude,
    round_half_even,
    significant_text,
    trimmed_decimal_text,
)
from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length, shown_mm
from solver.quantities.pitches import Pitch, PitchUnit, figure_text
from solver.quantities.shown_lengths import Rounding, in_both_units, shown_decimal
from solver.quantities.written_angles import read_angle
from solver.quantities.written_errors import read_progressive_error, read_share, read_within, says_exact
from solver.quantities.written_lengths import read_length, read_micrometres, read_ratio, read_wheel_module
from solver.quantities.written_measurements import read_measurement
from solver.quantities.written_pitches import read_pitch
from solver.quantities.written_speeds import read_seconds, read_surface_speed
from solver.quantities.written_warmth import read_kelvins
from solver.refusals import UnreadableFigureError

F = Fraction
MM, INCH = Length.of_mm, Length.of_inches
NEAREST, UP, DOWN = Rounding.NEAREST, Rounding.UP, Rounding.DOWN


# Reading.


@pytest.mark.parametrize(
    ("text", "value", "rest"),
    [
        ("3", "3", ""), ("1.25x", "5/4", "x"), (".5", "1/2", ""), ("  7", "7", ""), ("1/20 in", "1/20", " in"),
        ("11 1/2", "23/2", ""), ("11-1/2 tpi", "23/2", " tpi"), ("11½ tpi", "23/2", " tpi"), ("½", "1/2", ""),
        ("4  3/4", "19/4", ""), ("1/2/3", "1/2", "/3"), ("11 1/2/3", "23/2", "/3"), ("1½½", "3/2", "½"),
        # The figure ends where no fraction below one follows.
        ("11 1 tpi", "11", " 1 tpi"), ("11 - 1/2", "11", " - 1/2"), ("11-", "11", "-"), ("11-x", "11", "-x"),
        ("11 ", "11", " "), ("1,x", "1", ",x"), ("1.5.x", "3/2", ".x"), ("1e", "1", "e"), ("1E+", None, ""),
        ("1eX", "1", "eX"),
        ("999999999999999999", "999999999999999999", ""), ("0.000001", "1/1000000", ""), ("007", "7", ""),
    ],
)  # fmt: skip
def test_a_number_is_read_up_to_what_does_not_belong_to_it(text, value, rest):
    reader = FigureReader(text)
    if value is None:
        with pytest.raises(UnreadableFigureError, match="an exponent is not a shop figure"):
            reader.number()
    else:
        assert (reader.number(), text[reader.at :]) == (F(value), rest)


@pytest.mark.parametrize(
    ("text", "value", "rest"),
    [("12/365", "12", "/365"), ("1.5 x", "3/2", " x"), (".25", "1/4", ""), ("7 1/2", "7", " 1/2"), ("1,x", "1", ",x")],
)
def test_a_plain_decimal_stops_before_a_stroke(text, value, rest):
    reader = FigureReader(text)
    assert (reader.decimal(), text[reader.at :]) == (F(value), rest)


def test_the_signs_of_the_trade_for_fractions_and_units():
    signs = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}
    assert {sign: FigureReader(sign).number() for sign in signs} == {sign: F(each) for sign, each in signs.items()}
    words = [FigureReader(text).word() for text in ("mm2", "  in x", "°x", "'3", '"', "′′", "″", "5", "é2")]
    assert words == ["mm", "in", "°", "'", '"', "′", "″", "", "é"]


def test_what_begins_a_number():
    begins = [
        text for text in (".5", ".25", ".", "5", "½", "x", "-5", ".x", "٣", "0") if FigureReader(text).starts_number()
    ]
    assert begins == [".5", ".25", "5", "½", "0"]
    behind = FigureReader("M.5")
    assert (behind.word(), behind.starts_number()) == ("M", True)
    reader = FigureReader("7")
    assert (reader.peek(), reader.is_done()) == ("7", False)
    reader.whole()
    assert (reader.peek(), reader.is_done(), reader.starts_number()) == ("", True, False)


def test_a_refusal_points_at_the_character_or_where_it_is_told_to():
    reader = FigureReader("12 mm", "Help.")
    reader.whole()
    assert [reader.refuse("no").at, reader.refuse("no", at=0).at, reader.refuse("no", at=4).at] == [2, 0, 4]
    assert [reader.refuse("no").help_text, reader.refuse("no", help_text="").help_text] == ["Help.", ""]
    assert reader.refuse("no", help_text="Other.").help_text == "Other."
    assert (reader.refuse("no").text, reader.refuse("no").reason) == ("12 mm", "no")


@pytest.mark.parametrize(("characters", "fits"), [(120, True), (121, False)])
def test_a_figure_has_120_characters_at_the_most(characters, fits):
    text = "x" * characters
    if fits:
        assert FigureReader(text).at == 0
    else:
        with pytest.raises(UnreadableFigureError) as refused:
            FigureReader(text)
        assert refused.value.at == 120


@pytest.mark.parametrize("text", ["5 mm", "5 MM", "5millimetres", "5 millimeter", "5 Millimeters", "5 millimetre"])
def test_millimetres_by_all_their_names(text):
    assert read_length(text) == MM(5)


@pytest.mark.parametrize("text", ["5 in", "5 IN", "5 inch", "5 inches", '5"', "5″"])
def test_inches_by_all_their_names(text):
    assert read_length(text) == INCH(5)
    assert read_measurement(f"{text} over 10 threads").length == INCH(5)


def test_small_lengths_sizes_and_ratios_by_all_their_names():
    small = [read_micrometres(text) for text in ("5 UM", "5 µm", "5μm", "2 thou", "2 THOUS", "5 mm", "1/4 in")]
    assert small == [MM("0.005")] * 3 + [INCH("0.002")] * 2 + [MM(5), INCH("1/4")]
    sizes = [read_wheel_module(text).mm for text in ("module 0.5", "MOD 2", "m 1", "20 DP", "24dp", "1/2 dp", "M1.25")]
    assert sizes == [F(1, 2), 2, 1, F(127, 100), F(127, 120), F(254, 5), F(5, 4)]
    assert [read_ratio(text) for text in ("1/2", "1:2", "40", "1.5:2", "3 1/2", "0.25")] == [
        F(1, 2), F(1, 2), F(40), F(3, 4), F(7, 2), F(1, 4),
    ]  # fmt: skip


def test_speeds_and_times_by_all_their_names():
    speeds = ("25 m/min", "90 FT/MIN", "250 mm/min", "12 in/minute", "1/2 m/min")
    assert [read_surface_speed(text) for text in speeds] == [
        MM(25_000),
        INCH(1080),
        MM(250),
        INCH(12),
        MM(500),
    ]
    assert [read_seconds(text) for text in ("1 s", "2 SEC", "0.5 second", "3seconds")] == [1, 2, F(1, 2), 3]


def test_kelvins_by_all_their_names_and_signs():
    texts = ("5 K", "+5K", "-2.5 kelvin", "−1/2 kelvins", "100 K")
    assert [read_kelvins(text) for text in texts] == [5, 5, F(-5, 2), F(-1, 2), 100]


def test_angles_by_all_their_names_and_signs():
    texts = ("90 deg", "90°", "90º", "90 DEGREE", "90 degrees", "90d", "1/4 turn", "0.25 turns", "5400'", "5400 min",
             "5400′", "5400 minutes", "5400 minute", '324000"', "324000″", "324000 sec", "324000 second",
             "324000 seconds")  # fmt: skip
    assert [read_angle(text) for text in texts] == [Angle.of_degrees(90)] * 18
    assert read_angle("89° 59.5'") == Angle(F(89 * 60 + F("59.5"), 21_600))
    assert read_angle("59'59.9\"").arcsec == F("3599.9")
    # A turn takes degrees after it, with no limit on them.
    assert read_angle("1 turn 400 deg").degrees == 760
    assert [read_angle(text, signed=True).degrees for text in ("-20 deg", "− 20 deg", "20 deg")] == [-20, -20, 20]
    for text in ("90 deg 60'", "90' 60\"", "1 deg 60 sec"):
        with pytest.raises(UnreadableFigureError, match="below 60"):
            read_angle(text)


def test_pitches_by_all_their_names():
    texts = ("1mm", "1 IN", "1inch", "1 inches", '1"', "1″", "8 TPI", "1 Module", "mod 1", "8 dp", "1 in cp", "1 IN CP")
    units = [(pitch.figure, pitch.unit.value) for pitch in map(read_pitch, texts)]
    inch, tpi, module, circular = (F(1), "in"), (F(8), "tpi"), (F(1), "module"), (F(1), "in CP")
    assert units == [(1, "mm"), *[inch] * 5, tpi, module, module, (F(8), "DP"), circular, circular]
    assert [read_pitch(text) for text in ("DP 8", "dp8")] == [read_pitch("8 dp")] * 2
    assert read_pitch("2mm,3 starts").starts == 3
    texts = ("1mm", "1mm,", "1mm 1 start", "1mm, 99 STARTS", "module 1 2 starts")
    assert [read_pitch(text).starts for text in texts] == [1, 1, 1, 99, 2]


@pytest.mark.parametrize(
    ("text", "error"),
    [
        ("+0.03 mm in 300 mm", "1/10000"), ("-0.03 mm per 300 mm", "-1/10000"), ("0.03 mm OVER 300 mm", "1/10000"),
        ("−30 um in 300 mm", "-1/10000"), ("1 in in 20 in", "1/20"), ("-1 in in 20 in", "-1/20"), ("5 %", "1/20"),
        ("5%", "1/20"), ("50000 PPM", "1/20"), ("  -100 ppm ", "-1/10000"), ("1 in in in 20 in", None),
        ("30um in 300mm", "1/10000"),
        ("50000.001 ppm", None), ("-5.001 %", None), ("0.0005 in in 1 in", "1/2000"), ("1 thou in 1 in", "1/1000"),
    ],
)  # fmt: skip
def test_a_progressive_error_in_all_its_forms(text, error):
    if error is None:
        with pytest.raises(UnreadableFigureError):
            read_progressive_error(text)
    else:
        assert read_progressive_error(text) == F(error)


def test_a_tolerance_in_all_its_forms():
    ten = MM(10)
    forms = {
        "exact": 0,
        " EXACT ": 0,
        "0.1 %": F(1, 1000),
        "200 ppm": F(1, 5000),
        "5 um": F(1, 2000),
        "0.01 mm": F(1, 1000),
    }
    assert {text: read_within(text, ten) for text in forms} == forms
    assert read_within("1 thou", INCH(2)) == F(1, 2000)
    assert [says_exact(text) for text in ("exact", "exactly", "", "EXACT")] == [True, False, False, True]
    assert [read_share(text) for text in ("3 %", "3 ppm", "3 um", "3", "1/2 %")] == [
        F(3, 100), F(3, 10**6), None, None, F(1, 200),
    ]  # fmt: skip


def test_a_measurement_with_all_its_words():
    words = ("", " pitch", " PITCHES", " thread", " threads", " tooth", " teeth")
    assert [read_measurement(f"12 mm over 10{word}").pitches for word in words] == [10] * 7
    assert [read_measurement(text).pitches for text in ("12mm/999", "12 mm OVER 1", "12 mm")] == [999, 1, 1]
    assert read_measurement("10000 mm").length == MM(10_000)
    # The last place: half a tenth of an inch, half of 1/64, a caliper's edges, half a whole number.
    texts = ("1.5 in", "1 3/64 in", "1.50 mm", "2 mm", "10 mm", "1⅜ in", "1.2  mm")
    halves = [read_measurement(text).give_or_take for text in texts]
    assert halves == [
        INCH("0.05"), INCH("1/128"), MM("0.05"), MM("0.5"), MM("0.5"), INCH("1/16"), MM("0.05"),
    ]  # fmt: skip
    assert read_measurement("10 mm / 4").pitch == MM("2.5")


# Writing.


def test_a_tie_goes_to_the_even_digit():
    assert [round_half_even(F(n, 2), 0) for n in (-3, -1, 1, 3, 5, 7)] == [-2, 0, 0, 2, 2, 4]
    assert [decimal_text(F(text), 2) for text in ("0.125", "0.135", "-0.125", "-0.005", "-0.006", "12.3")] == [
        "0.12", "0.14", "-0.12", "0.00", "-0.01", "12.30",
    ]  # fmt: skip
    assert [decimal_text(F(text), 0) for text in ("0", "-1/2", "-3/2", "0.4", "99.5")] == ["0", "0", "-2", "0", "100"]
    assert [significant_text(F(n), 2) for n in (125, 135, -125, 999, 5)] == ["120", "140", "-120", "1000", "5.0"]
    assert significant_text(F(123_456), 2) == "120000"
    assert [significant_text(F(text), 3) for text in ("0.00012345", "-2/3", "0", "1000", "100")] == [
        "0.000123", "-0.667", "0", "1000", "100",
    ]  # fmt: skip
    assert [trimmed_decimal_text(F(text), 3) for text in ("1.5", "10", "100.1004", "0", "-0.0004", "2.0005")] == [
        "1.5", "10", "100.1", "0", "0", "2",
    ]  # fmt: skip
    assert trimmed_decimal_text(F(100), 0) == "100"


def test_the_leading_digit_of_a_number():
    sizes = {
        "1": 0,
        "9": 0,
        "10": 1,
        "999": 2,
        "1000": 3,
        "0.1": -1,
        "0.0999": -2,
        "-250": 2,
        "1/3": -1,
        "2/3": -1,
        "9/8": 0,
    }
    assert {text: order_of_magnitude(F(text)) for text in sizes} == sizes
    assert [is_finite_decimal(F(5, 8), places) for places in (2, 3, 4)] == [False, True, True]
    assert exact("63/80") == F(63, 80)


@pytest.mark.parametrize(
    ("value", "places", "nearest", "up", "down"),
    [
        ("2/3", 3, "0.667", "0.667", "0.666"),
        ("-2/3", 3, "-0.667", "-0.666", "-0.667"),
        ("1/2", 0, "0.5", "0.5", "0.5"),
        ("1/8", 3, "0.125", "0.125", "0.125"),
        ("0", 2, "0.00", "0.00", "0.00"),
        # What would come out as nothing takes more places.
        ("0.0009", 2, "0.0009", "0.0009", "0.0009"),
        ("0.00014", 2, "0.0001", "0.0002", "0.0001"),
        ("-0.00014", 2, "-0.0001", "-0.0001", "-0.0002"),
        ("0.014", 2, "0.01", "0.02", "0.01"),
        ("0.006", 2, "0.01", "0.006", "0.006"),
    ],
)
def test_a_bound_is_rounded_to_its_own_side(value, places, nearest, up, down):
    assert shown_decimal(F(value), places) == nearest
    assert [shown_decimal(F(value), places, rounding) for rounding in (NEAREST, UP, DOWN)] == [nearest, up, down]


def test_lengths_in_both_units():
    third = MM(F(1, 3))
    # A third of a mm is 0.0131234 in.
    assert in_both_units(third) == "0.333 mm (0.0131 in)"
    assert in_both_units(third, UP) == "0.334 mm (0.0132 in)"
    assert in_both_units(third, DOWN, inches_first=True) == "0.0131 in (0.333 mm)"
    assert in_both_units(third, finer=2) == "0.33333 mm (0.013123 in)"
    assert [shown_mm(MM(text)) for text in ("3.1754", "10", "0.0004")] == ["3.175 mm", "10 mm", "0 mm"]


def test_a_figure_is_written_as_the_bench_writes_it():
    figures = {
        "0.5": "0.5", "1.25": "1.25", "5/2": "2.5", "21/8": "2 5/8", "23/2": "11 1/2", "11/4": "2 3/4",
        "65/16": "4 1/16", "97/32": "3 1/32", "193/64": "3 1/64", "385/128": "3 1/128", "1/3": "1/3", "4/3": "1 1/3",
        "40": "40", "0.000001": "0.000001", "0.0000001": "1/10000000", "2.6": "2.6", "0": "0",
    }  # fmt: skip
    assert {text: figure_text(F(text)) for text in figures} == figures
    assert [str(Pitch(F(figure), unit, starts)) for figure, unit, starts in (
        ("0.5", PitchUnit.MODULE, 1), ("20", PitchUnit.THREADS_PER_INCH, 2), ("0.2", PitchUnit.CIRCULAR_PITCH, 1),
    )] == ["module 0.5", "20 tpi, 2 starts", "0.2 in CP"]  # fmt: skip


def test_an_angle_is_rounded_before_it_is_split():
    texts = {
        ("37.5", 0): "37° 30' 00\"", ("0", 0): "0° 00' 00\"",
        ("-1/7200", 0): "0° 00' 00\"", ("-1/3600", 0): "-0° 00' 01\"",
        ("59.99999", 1): "60° 00' 00.0\"", ("1/3600", 2): "0° 00' 01.00\"", ("-90.51", 0): "-90° 30' 36\"",
    }  # fmt: skip
    assert {key: sexagesimal_text(Angle.of_degrees(F(key[0])), key[1]) for key in texts} == texts
