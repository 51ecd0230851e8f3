"""Several starts against the printed rules; sources stand in the data file."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length
from solver.trains.lathe import Lathe
from solver.trains.start_moves import groove_order, nut_jumps, spindle_counts, tooth_counts
from solver.trains.starts import Way, plan_starts
from solver.trains.wheels import Pair, Train
from tests.published.source_cases import SourceCase, of_kind, read_cases, worked_here

CASES = read_cases("change_gears_mounting.toml")
JUMPS = of_kind(CASES, "starts_by_jump")


def a_lathe(tpi: int = 4, stud_turns: str = "1", stops: tuple[int, ...] = ()) -> Lathe:
    screw = Length.of_inches(Fraction(1, tpi))
    return Lathe("of the case", f"{tpi} tpi", screw, Fraction(stud_turns), True, (), spindle_stops=stops)


@pytest.mark.parametrize("case", of_kind(CASES, "starts_by_teeth"))
def test_the_stud_wheel_passes_the_teeth_of_the_source(case):
    train = Train((Pair(case["stud"], 30),))
    for starts, teeth in case["teeth"].items():
        first = tooth_counts(train, a_lathe(), int(starts))[0]
        assert (first.teeth, first.shift, first.mesh) == (teeth, 1, 1)
    for starts in case["impossible"]:
        assert tooth_counts(train, a_lathe(), starts) == ()
        plan = plan_starts(train, Length.of_inches(1), starts, a_lathe())
        assert "the 96 T driver 19.2" in next(each.reason for each in plan.ways if each.way is Way.TEETH)


@pytest.mark.parametrize("case", worked_here(of_kind(CASES, "starts_by_teeth")))
def test_a_stud_at_half_speed_passes_half_the_teeth(case):
    # The page says to allow for a stud that does not turn with the spindle; the counts are own arithmetic.
    for starts, teeth in case["teeth"].items():
        found = tooth_counts(Train((Pair(case["stud"], 30),)), a_lathe(stud_turns="1/2"), int(starts))
        assert [each.teeth for each in found] == [teeth // 2]


def lands(case: SourceCase, tpi: str, move: Length) -> int | None:
    """Say in which groove the nut closes after a move; ``None`` where it cannot close."""
    screw = Length.of_inches(Fraction(1, int(tpi)))
    jumps = nut_jumps(read_length(case["lead"]), case["starts"], screw, move)
    return next((each.shift for each in jumps if each.distance == move), None)


@pytest.mark.parametrize("case", JUMPS)
def test_a_jump_of_the_half_nut_lands_where_the_source_says_or_cannot_be_made(case):
    for written, groove in case["moves"].items():
        for tpi, serves in case["serves"].items():
            assert lands(case, tpi, read_length(written)) == (groove if serves else None), (written, tpi)


@pytest.mark.parametrize("case", worked_here([each for each in JUMPS if "order" in each.values[0].data]))
def test_half_an_inch_cuts_four_starts_in_another_order(case):
    for written, order in case["order"].items():
        assert [groove + 1 for groove in groove_order(case["moves"][written], case["starts"])] == order
        plan = plan_starts(Train(()), read_length(case["lead"]), case["starts"], a_lathe(2))
        assert plan.repeated is not None
        assert plan.repeated.distance == read_length(written)
        assert [groove + 1 for groove in plan.jump_order] == order


@pytest.mark.parametrize("case", worked_here([each for each in JUMPS if "by_one" in each.values[0].data]))
def test_the_plain_pitch_is_a_jump_only_on_some_screws(case):
    by_one = case["by_one"]
    for tpi in range(1, 41):
        plan = plan_starts(Train(()), read_length(case["lead"]), case["starts"], a_lathe(tpi))
        assert plan.by_one is not None
        is_plain_pitch = plan.by_one.distance == read_length(by_one["move"])
        assert is_plain_pitch is (tpi % by_one["needs_multiple_of"] == 0)


@pytest.mark.practice("common practice, no source")
def test_a_spindle_index_is_read_by_dividing_its_round_by_the_starts():
    found = spindle_counts(Train((Pair(96, 30),)), a_lathe(stops=(60, 64)), 3)
    assert [(each.holes, each.spaces, each.mesh) for each in found] == [(60, 20, 1)]
