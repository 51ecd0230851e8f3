"""Written figures: what is read, what is refused, and that nothing else ever happens."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.figure_reader import LONGEST_NUMBER, LONGEST_TEXT
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import lead_bounds_mm
from solver.quantities.pitches import Pitch, PitchUnit
from solver.quantities.written_angles import read_angle
from solver.quantities.written_lengths import read_length, read_micrometres, read_ratio, read_wheel_module
from solver.quantities.written_pitches import COARSEST_MM, FINEST_MM, read_pitch
from solver.refusals import RefusalError, UnreadableFigureError
from solver.trains.wheels import Train
from solver.trains.written_trains import read_train
from tests.drawn_cases import cases
from tests.strategies import pitches

MM, IN, TPI = PitchUnit.MILLIMETRE, PitchUnit.INCH, PitchUnit.THREADS_PER_INCH
MODULE, DP, CP = PitchUnit.MODULE, PitchUnit.DIAMETRAL_PITCH, PitchUnit.CIRCULAR_PITCH


@pytest.mark.parametrize(
    ("text", "figure", "unit", "starts"),
    [
        ("1.25mm", "5/4", MM, 1),
        (" 1.25  mm ", "5/4", MM, 1),
        (".5mm", "1/2", MM, 1),
        ("20tpi", "20", TPI, 1),
        ("20 TPI", "20", TPI, 1),
        ("11 1/2 tpi", "23/2", TPI, 1),
        ("11-1/2 tpi", "23/2", TPI, 1),
        ("11½ tpi", "23/2", TPI, 1),
        ("½ in", "1/2", IN, 1),
        ("0.05in", "1/20", IN, 1),
        ('1/20"', "1/20", IN, 1),
        ("1/20 in", "1/20", IN, 1),
        ("module 0.5", "1/2", MODULE, 1),
        ("0.5 module", "1/2", MODULE, 1),
        ("24 DP", "24", DP, 1),
        ("0.2 in CP", "1/5", CP, 1),
        ("2mm 2 starts", "2", MM, 2),
        ("2 mm, 3 starts", "2", MM, 3),
        ("2mm 1 start", "2", MM, 1),
    ],
)
def test_a_pitch_is_read_as_the_drawing_writes_it(text, figure, unit, starts):
    assert read_pitch(text) == Pitch(Fraction(figure), unit, starts)


BAD_PITCHES = {
    "": "nothing is written",
    "   ": "nothing is written",
    "1.25": "bare number",
    "20": "bare number",
    "1,25mm": "a comma may mean",
    "1,000 tpi": "a comma may mean",
    "-3tpi": "not negative",
    "\N{MINUS SIGN}3tpi": "not negative",
    "+3tpi": "a pitch was expected",
    "0 tpi": "above zero",
    "0.000mm": "above zero",
    "module 0": "above zero",
    "1/0 in": "divided by zero",
    "1 1/0 in": "divided by zero",
    "1e400mm": "an exponent",
    "1E5 tpi": "an exponent",
    "1e-3mm": "an exponent",
    "1/2e3 in": "an exponent",
    "1.5e3mm": "an exponent",
    "inf mm": "a pitch was expected",
    "nan mm": "a pitch was expected",
    "0x10 mm": "above zero",
    "1_000 mm": "a unit was expected",
    "1.2.3 mm": "one decimal point",
    "1. mm": "a digit was expected",
    "1/ mm": "a digit was expected",
    "11 3/2 tpi": "below one",
    "3 furlongs": "not a unit",
    "1.25mm 2.5mm": "only its starts",
    "1.25mm; rm -rf /": "does not belong",
    "2mm 0 starts": "starts are 1",
    "2mm 100 starts": "starts are 1",
    "2000000 mm": "above a million",
    "0.009 mm": "finer than anything",
    "2001 mm": "coarser than anything",
    "9" * (LONGEST_NUMBER + 1) + "mm": "digits is not a shop figure",
    "__import__('os')": "a pitch was expected",
    "(lambda: 1)() mm": "a pitch was expected",
    "1.25mm" * 1700: "is too long",
    "9" * 10_000: "is too long",
    "٣mm": "a pitch was expected",
    "1٣mm": "expected",
    "１mm": "a pitch was expected",
    "²mm": "a pitch was expected",
    "1.²mm": "a digit was expected",
    "\ud800mm": "expected",
    "1\udfff mm": "expected",
    "\x001mm": "expected",
    "1\x00mm": "expected",
    "1mm\x00": "does not belong",
    "🔧": "expected",
}


@pytest.mark.parametrize("text", BAD_PITCHES, ids=ascii)
def test_a_bad_pitch_is_refused_with_its_reason_and_a_marker_under_it(text):
    with pytest.raises(UnreadableFigureError, match=BAD_PITCHES[text]) as refused:
        read_pitch(text)
    refusal = refused.value
    assert 0 <= refusal.at <= len(text)
    _, shown, marker, *_ = str(refusal).split("\n")
    assert marker.strip() == "^"
    assert len(shown) <= 70
    assert len(marker) <= len(shown) + 1
    assert all(character.isprintable() for line in (shown, marker) for character in line)


def test_a_bare_number_is_answered_with_what_to_type():
    with pytest.raises(UnreadableFigureError) as refused:
        read_pitch("1.25")
    assert "1.25mm" in refused.value.help_text
    assert "1.25tpi" in refused.value.help_text


def test_a_comma_is_answered_with_the_point():
    with pytest.raises(UnreadableFigureError, match=r"Write a point: 1\.25mm"):
        read_pitch("1,25mm")


@pytest.mark.parametrize("text", ["1,250,5mm", "1,250.5mm"])
def test_a_comma_that_is_no_decimal_point_is_not_answered_with_one(text):
    with pytest.raises(UnreadableFigureError, match="a comma may mean") as refused:
        read_pitch(text)
    assert "Write a point" not in refused.value.help_text


@pytest.mark.parametrize(("text", "at"), [("1e400mm", 1), ("module 12E9", 9), ("1.5e3mm", 3), ("20 1/2e1 tpi", 6)])
def test_the_marker_of_an_exponent_stands_under_its_letter(text, at):
    with pytest.raises(UnreadableFigureError, match="an exponent is not a shop figure") as refused:
        read_pitch(text)
    assert refused.value.at == at


@pytest.mark.parametrize(
    "text", ["0.01 mm", "2000 mm", "2540 tpi", "0.0127 tpi", "module 0.0032", "module 636", "7979 DP", "78 in CP"]
)
def test_a_pitch_within_what_a_lathe_cuts_is_read(text):
    assert FINEST_MM <= lead_bounds_mm(read_pitch(text).pitch)[1] <= COARSEST_MM


@pytest.mark.parametrize(
    ("text", "reason", "at"),
    [
        ("0.0099 mm", "finer", 0),
        ("0.0003 in", "finer", 0),
        ("2541 tpi", "finer", 0),
        ("1000000 tpi 99 starts", "finer", 0),
        (" module 0.0031", "finer", 8),
        ("7980 DP", "finer", 0),
        ("2000.1 mm", "coarser", 0),
        ("79 in", "coarser", 0),
        ("0.0126 tpi", "coarser", 0),
        ("module 637", "coarser", 7),
        ("0.039 DP", "coarser", 0),
        ("1000000 in CP", "coarser", 0),
    ],
)
def test_a_pitch_beyond_what_a_lathe_cuts_is_refused_at_its_figure(text, reason, at):
    with pytest.raises(UnreadableFigureError, match=f"this is {reason} than anything a lathe cuts") as refused:
        read_pitch(text)
    assert refused.value.at == at
    assert "0.01 mm to 2 m" in refused.value.help_text


def is_cut_by_a_lathe(pitch):
    low, high = lead_bounds_mm(pitch.pitch)
    return high >= FINEST_MM and low <= COARSEST_MM


@cases(400)
@given(pitches().filter(is_cut_by_a_lathe))
def test_what_a_pitch_prints_is_read_back_as_the_same_pitch(pitch):
    assert read_pitch(str(pitch)) == pitch


#: Bits of figures, so that drawn text gets past the first character.
BITS = st.sampled_from(
    [
        "1",
        "0",
        "25",
        ".",
        ",",
        "/",
        " ",
        "-",
        "mm",
        "in",
        '"',
        "tpi",
        "DP",
        "CP",
        "module",
        "starts",
        "½",
        "°",
        "'",
        "e9",
        "٣",
        "\x00",
        "\ud800",
    ]
)
ANY_TEXT = st.one_of(
    st.text(max_size=LONGEST_TEXT + 10), st.text(st.characters(categories=["Nd", "No", "Zs", "Cs", "Cc"]), max_size=20),
    st.lists(BITS, max_size=12).map("".join),
)  # fmt: skip


def read_or_refusal(read, text):
    try:
        return read(text)
    except UnreadableFigureError as refusal:
        return refusal


@pytest.mark.parametrize(
    ("read", "kind"),
    [
        (read_pitch, Pitch),
        (read_length, Length),
        (read_micrometres, Length),
        (read_wheel_module, Length),
        (read_ratio, Fraction),
        (read_angle, Angle),
        (read_train, Train),
    ],
    ids=lambda each: each.__name__,
)
def test_any_text_at_all_is_read_or_refused_and_nothing_else_happens(read, kind):
    @cases(500)
    @given(ANY_TEXT)
    @example("__import__('os').getcwd()")
    @example("1" * LONGEST_TEXT)
    def read_or_refused(text: str) -> None:
        outcome = read_or_refusal(read, text)
        if isinstance(outcome, UnreadableFigureError):
            assert 0 <= outcome.at <= len(text)
            assert str(outcome)
        else:
            assert isinstance(outcome, kind)

    read_or_refused()


@pytest.mark.parametrize(
    ("text", "turns"),
    [
        ("37.5 deg", "5/48"),
        ("37.5°", "5/48"),
        ("37.5º", "5/48"),
        ("37º30'", "5/48"),
        ("37°30'", "5/48"),
        ("37° 30' 00\"", "5/48"),
        ("1/7 turn", "1/7"),
        ("1 turn", "1"),
        ("20'15\"", "1215/1296000"),
        ("0°20'15\"", "1215/1296000"),
        ("37 deg 30 min", "5/48"),
    ],
)
def test_an_angle_is_read_as_the_drawing_writes_it(text, turns):
    assert read_angle(text) == Angle(Fraction(turns))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "37.5",
        "37",
        "30' 37°",
        "37° 61'",
        "37° 37°",
        "-5 deg",
        "1/0 turn",
        "37,5 deg",
        "37 rad",
        "37 deg x",
        "°",
        "٣°",
        "5 mm",
    ],
)
def test_a_bad_angle_is_refused(text):
    with pytest.raises(UnreadableFigureError):
        read_angle(text)


def test_a_sign_is_taken_where_an_angle_may_have_one():
    assert read_angle("-20 deg", signed=True) == Angle.of_degrees(-20)
    assert read_angle("\N{MINUS SIGN}20 deg", signed=True) == Angle.of_degrees(-20)
    with pytest.raises(UnreadableFigureError):
        read_angle("--20 deg", signed=True)


@cases(400)
@given(st.integers(-2_000_000_000, 2_000_000_000), st.integers(0, 3))
def test_an_angle_shown_to_its_last_place_is_read_back_as_the_same_angle(units, places):
    angle = Angle(Fraction(units, 10**places * 1_296_000))
    assert read_angle(sexagesimal_text(angle, places), signed=True) == angle


@cases(300)
@given(st.fractions(max_denominator=10_000, min_value=-720, max_value=720), st.integers(0, 3))
def test_minutes_and_seconds_never_show_sixty(degrees, places):
    text = sexagesimal_text(Angle.of_degrees(degrees), places)
    _, minutes, seconds = text.replace("°", " ").replace("'", " ").replace('"', "").split()
    assert int(minutes) < 60
    assert Fraction(seconds) < 60
    assert abs(read_angle(text, signed=True).arcsec - Angle.of_degrees(degrees).arcsec) <= Fraction(1, 2 * 10**places)


@pytest.mark.parametrize(
    ("text", "mm"),
    [("150 mm", "150"), ("1/4 in", "127/20"), ('1 1/2"', "381/10"), ("0 mm", "0"), ("2 inches", "254/5")],
)
def test_a_length_is_read_with_its_unit(text, mm):
    assert read_length(text) == Length(Fraction(mm))


@pytest.mark.parametrize("text", ["", "150", "150 cm", "-1 mm", "1,5 mm", "150 mm 2", "mm", "5 um"])
def test_a_length_without_a_unit_it_knows_is_refused(text):
    with pytest.raises(UnreadableFigureError):
        read_length(text)


@pytest.mark.parametrize(
    ("text", "mm"),
    [("5 um", "1/200"), ("5 µm", "1/200"), ("5 μm", "1/200"), ("1 thou", "127/5000"), ("0.01 mm", "1/100")],
)
def test_a_small_length_is_read_in_small_units(text, mm):
    assert read_micrometres(text) == Length(Fraction(mm))


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("module 1", "1"),
        ("mod 0.5", "1/2"),
        ("m 1", "1"),
        ("20 DP", "127/100"),
        ("20dp", "127/100"),
    ],
)
def test_a_wheel_size_is_read_as_diameter_for_a_tooth(text, mm):
    assert read_wheel_module(text) == Length(Fraction(mm))


@pytest.mark.parametrize("text", ["", "1", "0 DP", "module 0", "module", "20 PD", "module 1 DP", "-1 DP"])
def test_a_wheel_size_that_is_none_is_refused(text):
    with pytest.raises(UnreadableFigureError):
        read_wheel_module(text)


@pytest.mark.parametrize("text", ["", "0", "0:1", "1:0", "1/0", "-1", "1:2:3", "1 2", "1,5", "x"])
def test_a_ratio_that_is_none_is_refused(text):
    with pytest.raises(UnreadableFigureError):
        read_ratio(text)


def test_every_refusal_is_of_one_family_and_a_value_error():
    assert issubclass(UnreadableFigureError, RefusalError)
    assert issubclass(RefusalError, ValueError)
