"""A length of thread up to a shoulder: turns, travel and times worked out on paper."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.lengths import Length
from solver.threads.run_out import RunOut
from solver.threads.spindle_speed import BY_HAND_BELOW, SpindleSpeed, told_speed
from solver.threads.to_shoulder import to_shoulder

MM = Length.of_mm
#: 2 mm of tool and 3 mm to stop in.
GROOVE = RunOut(MM(8), MM(2), MM(3), MM(5), MM(1))


def at(rpm: int) -> SpindleSpeed:
    return SpindleSpeed(Fraction(4 * rpm), Fraction(rpm), Fraction(10_000))


# 40 mm of a lead of 2.5 mm are 16 turns; at 96 rev/min they take 16 × 60 / 96 = 10 s, and the carriage goes
# 96 × 2.5 = 240 mm a minute. Eight passes are 80 s of cutting, and 160 s with the way back at the same speed.
def test_one_start_to_the_shoulder():
    found = to_shoulder(MM(40), MM("2.5"), at(96), GROOVE, passes=8, springs=2, starts=1)
    assert found.turns == 16
    assert found.speed == 96
    assert found.travel_per_minute == MM(240)
    assert (found.seconds, found.cutting_seconds, found.whole_seconds) == (10, 80, 160)
    assert (found.passes, found.springs) == (8, 2)
    assert found.full_thread == MM(35)


# Three starts of 2.5 mm have a lead of 7.5 mm: 40 mm are 5 1/3 turns, 3 1/3 s, and every start has its eight passes.
def test_several_starts_go_by_the_lead_and_each_has_all_the_passes():
    found = to_shoulder(MM(40), MM("7.5"), at(96), GROOVE, passes=8, springs=2, starts=3)
    assert found.turns == Fraction(16, 3)
    assert found.seconds == Fraction(10, 3)
    assert (found.cutting_seconds, found.whole_seconds) == (80, 160)


# 197 is told as 190, and times hold for what is told: 19 turns at 190 a minute are 6 s.
def test_times_are_of_the_speed_that_is_told():
    found = to_shoulder(MM(19), MM(1), at(197), GROOVE, passes=1, springs=0, starts=1)
    assert (found.speed, found.seconds) == (190, 6)


@pytest.mark.parametrize(
    ("speed", "told"),
    [("197", "190"), ("20", "20"), ("99.9", "99"), ("4.27", "4.2"), ("1234", "1200"), ("0.168", "0.16")],
)
def test_a_speed_is_told_to_two_figures_and_never_above(speed, told):
    assert told_speed(Fraction(speed)) == Fraction(told)


@pytest.mark.practice("common practice, no source: below some twenty turns a minute the spindle is turned by hand")
def test_a_spindle_turned_by_hand_has_turns_and_no_times():
    found = to_shoulder(MM(40), MM("2.5"), at(BY_HAND_BELOW - 1), GROOVE, passes=8, springs=2, starts=1)
    assert found.turns == 16
    assert (found.speed, found.travel_per_minute, found.seconds) == (None, None, None)
    assert (found.cutting_seconds, found.whole_seconds) == (None, None)
    assert to_shoulder(MM(40), MM("2.5"), at(BY_HAND_BELOW), GROOVE, passes=8, springs=2, starts=1).seconds == 48


# The groove is 5 mm wide: of 5 mm nothing is left for the thread, of 5.1 mm a tenth.
@pytest.mark.parametrize(("length", "left"), [("5", False), ("4.9", False), ("5.1", True)])
def test_a_length_no_longer_than_the_groove_has_no_full_thread(length, left):
    found = to_shoulder(MM(length), MM(1), at(96), GROOVE, passes=8, springs=2, starts=1)
    assert found.has_full_thread is left
    assert found.full_thread == MM(Fraction(length) - 5)
    # 5.1 turns at 96 a minute are 3.1875 s; with no full thread the spindle is turned by hand, and nothing is timed.
    assert (found.speed, found.seconds) == ((96, Fraction(51, 16)) if left else (None, None))
    assert found.turns == Fraction(length)
    assert found.travel_per_minute == (MM(96) if left else None)
