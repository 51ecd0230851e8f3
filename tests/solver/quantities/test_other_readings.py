"""Angles, measurements, moves and ratios in the other ways they are written. Worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gearsets.shape_names import flats_named
from solver.dividing.moves import CrankMove
from solver.dividing.written_moves import read_moves
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_HIGH, PI_LOW
from solver.quantities.written_angles import read_angle
from solver.quantities.written_measurements import read_measurement
from solver.refusals import UnreadableFigureError
from solver.trains.written_trains import read_train
from solver.wheelwork.written_ratios import read_turning_ratio


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("1/8 of a turn", "45"),
        ("1/7 of one turn", "360/7"),
        ("37-30-15", "37 + 30/60 + 15/3600"),
        ("37:30:15", "37 + 30/60 + 15/3600"),
        ("0-0-0.5", "1/7200"),
        ("30 arcsec", "1/120"),
        ("5 arcmin 3 arcsec", "5/60 + 3/3600"),
        ("10 deg 5 mins", "10 + 5/60"),
    ],
)
def test_an_angle_is_read_in_other_words(text, degrees):
    assert read_angle(text).degrees == sum(Fraction(part.strip()) for part in degrees.split("+"))


@pytest.mark.parametrize(
    ("text", "at", "reason"),
    [
        ("1 rad", 1, "radians are not read"),
        ("0.5 radians", 3, "radians are not read"),
        ("37-30", 2, "an angle needs its unit here"),
        ("37-60-00", 3, "below 60"),
        ("37-30-60", 3, "below 60"),
        ("37-30-15 deg", 9, "more than one figure"),
        ("37.5-30-15", 4, "an angle needs its unit here"),
        ("37-30:15", 2, "an angle needs its unit here"),
        ("1/8 of a pie", 3, "a part of a turn was expected here"),
    ],
)
def test_an_angle_that_says_too_little_is_refused_where_it_does(text, at, reason):
    with pytest.raises(UnreadableFigureError) as caught:
        read_angle(text)
    assert reason in caught.value.reason
    assert caught.value.at == at


def test_threads_counted_over_a_length_are_that_length_over_so_many_pitches():
    counted, plain = read_measurement("10 threads in 17.5 mm"), read_measurement("17.5 mm / 10")
    assert counted == plain
    assert counted.pitch == Length.of_mm("1.75")
    assert read_measurement("16 pitches over 1/2 in").pitch.inches == Fraction(1, 32)


@pytest.mark.parametrize("text", ["0 threads in 5 mm", "1000 threads in 5 mm", "10 threads in 5", "10 threads",
                                  "10 threads in 5 mm over 3", "2.5 threads in 5 mm"])  # fmt: skip
def test_threads_counted_over_no_length_or_twice_are_refused(text):
    with pytest.raises(UnreadableFigureError):
        read_measurement(text)


@pytest.mark.parametrize(
    ("text", "moves"),
    [
        ("8 holes in 20", (CrankMove(0, 8, 20),)),
        ("8 in 20", (CrankMove(0, 8, 20),)),
        ("1 + 3/27", (CrankMove(1, 3, 27),)),
        ("1 + 3 on 27 + 2 on 20", (CrankMove(1, 3, 27), CrankMove(0, 2, 20))),
        ("1 turn + 3 holes in 27", (CrankMove(1, 3, 27),)),
    ],
)
def test_a_move_is_read_in_other_words(text, moves):
    assert read_moves(text) == moves


@pytest.mark.parametrize("text", ["1 +", "1 + 3", "8 holes", "in 20", "1 + + 3/27"])
def test_half_a_move_is_refused(text):
    with pytest.raises(UnreadableFigureError):
        read_moves(text)


def test_a_colon_joins_driver_and_driven():
    assert read_train("20:80") == read_train("20-80")
    assert read_train("20:40 50:127") == read_train("20-40-50-127")


@pytest.mark.parametrize(
    ("text", "ratio"),
    [
        ("29 1/2", "59/2"),
        ("1 to 29.53", "100/2953"),
        ("1 to 29 1/2", "2/59"),
        ("29 1/2 x 3", "177/2"),
        ("29 1/2 / 3", "59/6"),
        ("64/38 x 48/24", "64/19"),
    ],
)
def test_a_ratio_may_be_a_mixed_number_or_one_to_another(text, ratio):
    assert read_turning_ratio(text).ratio == Fraction(ratio)


@pytest.mark.parametrize(
    # Behind a stroke a fraction is as likely the next pair of a train with its sign left out.
    "text",
    ["1/2 1/2", "64/38 24/48", "29.5 1/2", "29 3/2", "29 0/2", "29 1/0", "2 pi", "to 3", "3 to", "pi mm"],
)
def test_a_ratio_that_could_be_several_is_refused(text):
    with pytest.raises(UnreadableFigureError):
        read_turning_ratio(text)


def test_pi_is_a_ratio_that_no_fraction_is_and_its_give_says_so():
    ratio, give = read_turning_ratio("pi")
    assert PI_LOW < ratio < PI_HIGH
    assert ratio * (1 - give) <= PI_LOW < PI_HIGH <= ratio * (1 + give)
    assert read_turning_ratio("2 x π").ratio == 2 * ratio


def test_short_names_of_shapes_are_the_shapes():
    assert [flats_named(word) for word in ("hex", "Hex.", "oct", "sq", "hexagon", "square")] == [6, 6, 8, 4, 6, 4]
