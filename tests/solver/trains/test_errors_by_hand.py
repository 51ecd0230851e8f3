"""Measured pitches, errors of a lead and what they amount to, and small things of trains, by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength, lead_bounds_mm
from solver.quantities.written_measurements import Measurement
from solver.trains.fit_tolerance import FitTolerance
from solver.trains.hand import Hand
from solver.trains.identify import KnownPitch, identify, major_may_be, miscounted, pitches_to_tell
from solver.trains.lead_error import LeadError, lead_error
from solver.trains.lead_judgement import ScrewGrade, Weight, is_within, judge_lead
from solver.trains.plate_row import constant_needed, lead_at_equal_wheels
from solver.trains.tool_travel import tool_travel
from solver.trains.wheels import Pair, Train
from solver.trains.written_trains import read_set_up, read_train
from tests.small_lathes import a_lathe, box_of

F = Fraction
INCH, MM = Length.of_inches, Length.of_mm


# Pitches told from a measurement.


def known(*mms: str) -> list[KnownPitch]:
    return [KnownPitch(MM(each), (f"{each} mm",)) for each in mms]


def test_misfits_of_a_measured_length():
    # 10 pitches in 12.6 mm: 0.1 too much for 1.25 mm, 2.6 for 1 mm and 2.4 too little for 1.5 mm.
    measured = Measurement(MM("12.6"), 10, MM("0.1"))
    found = identify(measured, known("1", "1.5", "1.25"))
    assert [(each.known.names[0], each.misfit.mm, each.fits) for each in found.matches] == [
        ("1.25 mm", F(1, 10), True),
        ("1.5 mm", F(-24, 10), False),
        ("1 mm", F(26, 10), False),
    ]
    assert found.matches[0].relative.relative == F("1.26") / F("1.25") - 1
    # 0.25 mm a pitch must come to more than 0.2 mm: one pitch.
    assert [each.tell_over for each in found.matches] == [None, 1, 1]
    assert found.fitting == found.matches[:1]
    less = identify(measured._replace(give_or_take=MM("0.0999")), known("1.25"))
    assert less.fitting == ()
    short = identify(Measurement(MM("12.4"), 10, MM("0.1")), known("1.25"))
    assert [(each.misfit.mm, each.fits) for each in short.matches] == [(F(-1, 10), True)]
    # Of two as far off the shorter is first.
    tied = identify(Measurement(MM(10), 10, MM(1)), known("1.05", "0.95"))
    assert [each.known.names[0] for each in tied.matches] == ["0.95 mm", "1.05 mm"]


def test_pitches_to_measure_over():
    # A tenth of a mm a pitch: over five it is 0.5 mm, which is not more than twice a quarter; over six it is.
    assert pitches_to_tell(MM("1"), MM("1.1"), MM("0.25")) == 6
    assert pitches_to_tell(MM("1.1"), MM("1"), MM("0.25")) == 6
    assert pitches_to_tell(MM("1"), MM("1.1"), MM("0.2499")) == 5
    assert pitches_to_tell(MM("1"), MM("1"), MM("0.25")) is None
    assert pitches_to_tell(PiLength(F(1)), PiLength(F(1)), MM("0.25")) is None


def test_one_pitch_more_or_less_is_looked_at_but_for_the_ends():
    # 10 mm: 10 pitches of 1 mm, miscounted as 9 and as 11.
    measured = Measurement(MM(10), 10, MM("0.05"))
    assert [each.measured.pitches for each in miscounted(measured._replace(pitches=9), known("1"))] == [10]
    assert [each.measured.pitches for each in miscounted(measured._replace(pitches=11), known("1"))] == [10]
    both = miscounted(measured, [*known("1"), KnownPitch(MM(F(10, 9)), ("",)), KnownPitch(MM(F(10, 11)), ("",))])
    assert [each.measured.pitches for each in both] == [9, 11]
    two = miscounted(Measurement(MM(1), 2, MM("0.05")), known("1"))
    assert [each.measured.pitches for each in two] == [1]
    assert miscounted(Measurement(MM(2), 1, MM("0.05")), known("1")) == ()
    for count, found in ((997, [998]), (998, [999]), (999, [])):
        again = miscounted(Measurement(MM(count + 1), count, MM("0.05")), known("1"))
        assert [each.measured.pitches for each in again] == found


def test_a_thread_measures_its_nominal_diameter_or_a_little_less():
    # Nominal 10 mm, pitch 2 mm: 0.1 mm and 3/20 of 2 mm below, and 0.05 mm of doubt: 9.55 to 10.05 mm.
    sizes = ("9.5499", "9.55", "10.05", "10.0501")
    assert [major_may_be(MM(10), MM(2), MM(size), MM("0.05")) for size in sizes] == [False, True, True, False]


# Errors and what they amount to.


def test_an_error_over_a_length_and_on_the_pitch_diameter():
    error = LeadError(F(-1, 8000), F(0))
    assert (error.over(MM(300)), error.ppm, error.words) == (MM("-0.0375"), -125, "lead short")
    # 15 mm at 1/8000 are 0.001875 mm, times 1.7320509.
    assert error.as_pitch_diameter(MM(15)) == MM(F(1875, 10**6) * F(17_320_509, 10**7))
    assert lead_error(MM(2), MM("1.6")).relative == F(1, 4)
    for bad in (0.5, True):
        with pytest.raises(TypeError, match="exact number"):
            LeadError(F(0), bad)  # type: ignore[arg-type]
        with pytest.raises(TypeError, match="exact number"):
            LeadError(bad, F(0))  # type: ignore[arg-type]


def test_the_error_to_a_multiple_of_pi_lies_midway_between_its_bounds():
    error = lead_error(MM(3), PiLength(F(1)))
    low, high = (3 / each - 1 for each in reversed(lead_bounds_mm(PiLength(F(1)))))
    assert (error.relative - error.bound, error.relative + error.bound) == (low, high)
    assert error.bound > 0


GRADE = ScrewGrade("leadscrew", MM(300), MM("0.03"), confirmed=False)
FINE = ScrewGrade("fine", MM(300), MM("0.006"), confirmed=True)


def test_a_bound_counts_against_a_grade():
    # 0.03 mm in 300 mm is one part in ten thousand.
    sizes = [(F(1, 10_000), F(0)), (F(-1, 10_000), F(0)), (F(1, 10_000), F(1, 10**9)), (F(9, 10**5), F(1, 10**5))]
    assert [is_within(LeadError(*each), GRADE) for each in sizes] == [True, True, False, True]


@pytest.mark.parametrize(
    ("part", "length", "weight", "ball"),
    [
        (F(0), 25, Weight.NOTHING, "fine"),
        (F(1, 50_000), 25, Weight.HIDDEN, "fine"),
        (F(1, 10_000), 300, Weight.HIDDEN, "leadscrew"),
        (F(-1, 10_000), 301, Weight.GROWS_OUT, "leadscrew"),
        (F(1, 9_999), 25, Weight.MATTERS_WHEN_LONG, None),
    ],
)
def test_an_error_beside_the_leadscrew(part, length, weight, ball):
    judged = judge_lead(LeadError(part, F(0)), MM(length), GRADE, (FINE, GRADE))
    assert (judged.weight, judged.ball_screw.name if judged.ball_screw else None) == (weight, ball)
    assert (judged.engaged, judged.over_engaged, judged.over_travel) == (MM(length), MM(part * length), MM(part * 300))
    assert (judged.leadscrew, judged.tolerance, judged.share) == (GRADE, None, None)


@pytest.mark.practice("common practice, no source")
@pytest.mark.parametrize(
    ("part", "weight"), [(F(1, 100), Weight.MATTERS_WHEN_LONG), (F(-101, 10_000), Weight.ANOTHER_PITCH)]
)
def test_more_than_a_hundredth_off_is_another_pitch_whatever_it_is_held_beside(part, weight):
    assert judge_lead(LeadError(part, F(0)), MM(10), GRADE, ()).weight is weight
    if weight is Weight.ANOTHER_PITCH:
        wide = FitTolerance.given(MM(100), "given")
        assert judge_lead(LeadError(part, F(0)), MM(10), GRADE, (), wide).weight is weight


@pytest.mark.parametrize(
    ("part", "tolerance", "weight"),
    [
        (F(0), None, Weight.NOTHING_LEFT),
        (F(1, 50_000), None, Weight.STAYS),
        (F(1, 9_999), None, Weight.STAYS),
        (F(1, 50_000), FitTolerance.given(MM("0.1"), "given"), Weight.SMALL_SHARE),
    ],
)
def test_the_error_of_a_measured_leadscrew_has_nothing_left_to_hide_in(part, tolerance, weight):
    assert judge_lead(LeadError(part, F(0)), MM(10), GRADE, (), tolerance, is_measured=True).weight is weight


@pytest.mark.practice("common practice, no source")
@pytest.mark.parametrize(
    ("share", "weight"),
    [
        (F(1, 10), Weight.SMALL_SHARE),
        (F(101, 1000), Weight.SOME_SHARE),
        (F(1, 2), Weight.SOME_SHARE),
        (F(501, 1000), Weight.LARGE_SHARE),
        (F(1), Weight.LARGE_SHARE),
        (F(1001, 1000), Weight.OVER_TOLERANCE),
    ],
)
def test_an_error_beside_the_tolerance_of_the_fit(share, weight):
    tolerance = FitTolerance.given(MM("0.1"), "given")
    # So much of a tenth of a mm, over 10 mm of thread.
    part = share * F(1, 10) / F(17_320_509, 10**7) / 10
    judged = judge_lead(LeadError(-part, F(0)), MM(10), GRADE, (), tolerance)
    assert (judged.share, judged.weight, judged.tolerance) == (share, weight, tolerance)
    bounded = judge_lead(LeadError(part * F(3, 4), part * F(1, 4)), MM(10), GRADE, (), tolerance)
    assert (bounded.share, bounded.weight) == (share, weight)


# Small things.


def test_a_row_of_a_plate_and_its_constant():
    assert lead_at_equal_wheels(MM(2), 40, 60) == MM(3)
    assert constant_needed(PiLength(F(2)), F(2, 3)) == PiLength(F(3))


def test_the_hand_and_the_way_of_the_tool():
    assert tool_travel(Hand.RIGHT) == (Hand.RIGHT, True, False, False)
    assert tool_travel(Hand.LEFT) == (Hand.LEFT, False, True, True)


def test_a_wheel_more_joins_the_first_class_and_a_lever_stays_alone():
    lathe = a_lathe(classes=(box_of(20, 40), box_of(33, size="2")), levers=(("A", F(1)), ("B", F(2))))
    assert lathe.with_wheel(30).wheel_classes == (box_of(20, 30, 40), box_of(33, size="2"))
    assert lathe.with_wheel(20).wheel_classes[0].stock == ((20, 2), (40, 1))
    assert lathe.at_lever("A").levers == (("A", F(1)),)
    assert lathe.at_lever("A").wheel_classes == lathe.wheel_classes


def test_a_written_train_is_given_the_class_that_holds_its_wheels():
    classes = (box_of(20, 40), box_of(30, 40, 60, size="2"))
    train = read_train("20-40-30-60-20-60", classes)
    assert train == Train((Pair(20, 40, 0), Pair(30, 60, 1), Pair(20, 60, 0)))
    assert read_train("40-40", classes) == Train((Pair(40, 40, 0),))
    assert read_train("40-30", classes) == Train((Pair(40, 30, 1),))


@pytest.mark.parametrize(
    ("text", "train", "idlers"),
    [
        ("40-80", "40-80", []), ("40–80", "40-80", []), ("40x80", "40-80", []), ("40×80", "40-80", []),
        (" 40 - 80 ", "40-80", []), ("40 80", "40-80", []), ("40/80 50/127", "40-80-50-127", []),
        ("40-( 30 )-80", "40-80", [(1, 30)]), ("40 (30) 80", "40-80", [(1, 30)]),
        ("5-400", "5-400", []), ("40-80-50-(60)-(70)-127", "40-80-50-127", [(2, 60), (2, 70)]),
        ("20-30-20-30-20-30-20-30-20-30-20-30", "20-30-20-30-20-30-20-30-20-30-20-30", []),
    ],
)  # fmt: skip
def test_what_joins_two_wheels(text, train, idlers):
    read, found = read_set_up(text)
    assert str(read) == train
    assert [tuple(each) for each in found] == idlers
