"""What is read as a measurement, and how far it is trusted when nobody says."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.quantities.lengths import Length
from solver.quantities.written_measurements import CLOSEST_SETTING, MOST_PITCHES, read_measurement
from solver.refusals import UnreadableFigureError


@pytest.mark.parametrize(
    ("text", "mm", "pitches"),
    [
        ("0.180in / 5", "4.572", 5),
        ("0.180 in/5 pitches", "4.572", 5),
        ("12.7mm over 10", "12.7", 10),
        ("12.7 mm over 10 threads", "12.7", 10),
        ('1/8"', "3.175", 1),
        ("1 1/4 in / 4", "31.75", 4),
        ("½ in / 10", "12.7", 10),
        ("  3 mm  ", "3", 1),
    ],
)
def test_a_length_and_its_pitches_are_read(text, mm, pitches):
    found = read_measurement(text)
    assert (found.length, found.pitches) == (Length.of_mm(mm), pitches)
    assert found.pitch * pitches == found.length


@pytest.mark.parametrize(
    ("text", "half"),
    [
        ("12 mm", Length.of_mm("0.5")),
        ("12.0 mm", Length.of_mm("0.05")),
        ("12.5 mm / 10", Length.of_mm("0.05")),
        ("1 in", Length.of_inches("1/2")),
        ("0.18 in", Length.of_inches("0.005")),
        ("3/16 in", Length.of_inches("1/32")),
        ("2/64 in", Length.of_inches("1/128")),
        ("1 3/8 in", Length.of_inches("1/16")),
        ("½ in", Length.of_inches("1/4")),
        ("1½ in", Length.of_inches("1/4")),
    ],
)
def test_a_written_length_is_trusted_to_half_its_last_place(text, half):
    assert read_measurement(text).give_or_take == half


@pytest.mark.parametrize("text", ["12.503 mm", "0.180 in", "0.4921 in", "12.50 mm", "1/512 in"])
def test_more_digits_than_edges_can_be_set_to_buy_nothing(text):
    assert read_measurement(text).give_or_take == CLOSEST_SETTING


def test_what_is_told_is_taken_as_told():
    assert read_measurement("12 mm / 10", Length.of_mm("0.001")).give_or_take == Length.of_mm("0.001")


@pytest.mark.parametrize(
    ("text", "marker"),
    [
        ("", 0), ("5", 1), ("5 / 3 mm", 2), ("0 mm", 0), ("5 mm / 0", 7), ("5 mm / 1000", 7), ("5 mm /", 6),
        ("5 mm / x", 7), ("5 mm / 2.5", 8), ("5 mm x 3", 5), ("1,5 mm", 1), ("-5 mm", 0), ("5 tpi", 1), ("20 km", 2),
        ("5 mm over", 9), ("5 mm / 3 apples", 7), ("10001 mm", 0),
    ],
)  # fmt: skip
def test_what_is_no_measurement_is_refused_under_its_character(text, marker):
    with pytest.raises(UnreadableFigureError) as refusal:
        read_measurement(text)
    assert refusal.value.at == marker


@given(st.text(max_size=40))
def test_any_text_is_a_measurement_or_refused(text):
    try:
        found = read_measurement(text)
    except UnreadableFigureError:
        return
    assert found.length.mm > 0
    assert 1 <= found.pitches <= MOST_PITCHES
    assert found.give_or_take >= CLOSEST_SETTING


@given(st.integers(1, 10**7), st.integers(0, 4), st.integers(1, MOST_PITCHES))
def test_every_decimal_length_is_read_back(digits, places, pitches):
    figure = Fraction(digits, 10**places)
    if figure > 10_000:
        return
    text = f"{digits // 10**places}.{digits % 10**places:0{places}d}" if places else f"{digits}"
    found = read_measurement(f"{text} mm / {pitches}")
    assert found.length.mm == figure
    assert found.give_or_take.mm == max(Fraction(1, 2 * 10**places), CLOSEST_SETTING.mm)
