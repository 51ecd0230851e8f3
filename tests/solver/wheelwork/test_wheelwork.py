"""Readings, limits, order along the arbors and drift of wheelwork, each against another way of working it out."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gearsets.head_files import find_head
from gearsets.period_tables import find_period, named_periods
from solver.dividing.choosing import choose
from solver.dividing.moves import Method
from solver.quantities.lengths import Length
from solver.refusals import AmbiguousRequestError, ImpossibleSettingError, UnreadableFigureError
from solver.trains.wheels import Pair, Train
from solver.wheelwork.arbors import Sense, best_order, idlers_for, over_an_arbor, sense_of
from solver.wheelwork.counts_search import CountsQuestion, search_counts
from solver.wheelwork.drift import Drift, WantedTurning
from solver.wheelwork.nearest_ratios import Counts
from solver.wheelwork.periods import Period, read_period
from solver.wheelwork.tooth_cutting import read_cutters, read_spur_tooth
from solver.wheelwork.wheel_limits import AllowedCounts, WheelLimits, allowed_counts
from solver.wheelwork.written_ratios import read_turning_ratio

HEAD = find_head("head-40-three-plates")
TEETH = st.integers(6, 200)


@given(st.lists(st.tuples(st.integers(1, 999), st.integers(1, 999)), min_size=1, max_size=8))
def test_a_train_of_quotients_is_read_as_their_product(pairs):
    expected = Fraction(1)
    for driver, driven in pairs:
        expected *= Fraction(driver, driven)
    assert read_turning_ratio(" x ".join(f"{a}/{b}" for a, b in pairs)).ratio == expected


@given(st.decimals(min_value="0.001", max_value=999999, places=6))
def test_a_decimal_is_read_exactly_and_gives_half_its_last_place(figure):
    read = read_turning_ratio(f"{figure:f}")
    assert read.ratio == Fraction(figure)
    assert read.give * read.ratio == Fraction(1, 2 * 10**6)


@pytest.mark.parametrize(
    "text", ["", " ", "0", "1/0", "1/", "x", "-1", "1,5", "1e9", "1..2", "3 mm", "1//2", "9" * 200]
)
def test_what_is_no_ratio_is_refused_with_a_marker(text):
    with pytest.raises(UnreadableFigureError) as refused:
        read_turning_ratio(text)
    assert "^" in str(refused.value)


@given(st.text(max_size=40))
def test_no_text_breaks_the_reading_of_ratios_and_periods(text):
    for read in (read_turning_ratio, find_period):
        try:
            read(text)
        except (UnreadableFigureError, AmbiguousRequestError):
            continue


@given(st.integers(0, 400), st.integers(0, 23), st.integers(0, 59), st.integers(1, 59))
def test_days_hours_minutes_and_seconds_add_up(days, hours, minutes, seconds):
    period = read_period(f"{days} d {hours} h {minutes} min {seconds} s", {})
    assert period.seconds == ((days * 24 + hours) * 60 + minutes) * 60 + seconds
    assert period.give == 0


@pytest.mark.parametrize(("text", "days"), [("12 h", "1/2"), ("1 week", 7), ("90 minutes", "1/16"), ("day", 1)])
def test_units_of_time_alone(text, days):
    assert read_period(text, {}).days == Fraction(days)


@pytest.mark.parametrize("text", ["month", "2 years", "Mars", "lunar", "jupiter"])
def test_a_name_that_may_mean_several_periods_is_asked_back(text):
    with pytest.raises(AmbiguousRequestError, match="may mean several"):
        find_period(text)


@pytest.mark.parametrize("text", ["0 days", "0 tropical years", "5", "3 mm", "1 h 2 d", "1 h 1 h", "-1 day", "1 h x"])
def test_what_is_no_period_is_refused(text):
    with pytest.raises(UnreadableFigureError):
        find_period(text)


@pytest.mark.parametrize("row", named_periods(), ids=lambda row: row.name)
def test_every_named_period_is_found_by_its_name_and_counted(row):
    assert find_period(row.name).days == row.period.days
    assert find_period(f"3 {row.name.upper()}s").days == 3 * row.period.days
    assert row.status in ("exact", "memory")
    assert (row.period.give == 0) == (row.status == "exact" or "." not in f"{row.period.told}")


@pytest.mark.parametrize("methods", [(), (Method.PLAIN,), (Method.DIRECT, Method.PLAIN), (Method.DIFFERENTIAL,)])
def test_the_counts_allowed_are_those_that_the_dividing_of_the_head_makes_exact(methods):
    allowed = allowed_counts(WheelLimits(110, 130, HEAD, methods)).counts
    exact = [
        count
        for count in range(110, 131)
        if choose(HEAD, Fraction(1, count), methods=methods, at_once=None if not methods else 1).is_exact
    ]
    assert list(allowed) == exact


@pytest.mark.from_memory("Machinery's Handbook, edition not seen, the eight involute cutters")
def test_cutters_leave_the_counts_of_their_ranges():
    # 3 cuts 17 to 20 and 4 cuts 21 to 25 in a module set; in a set of diametral pitches 6 and 5 do.
    for size, cutters in (("module 0.5", "3,4"), ("48 DP", "5-6")):
        limits = WheelLimits(12, 60, tooth=read_spur_tooth(size), cutters=read_cutters(cutters))
        assert allowed_counts(limits).counts == tuple(range(17, 26))


def test_a_largest_wheel_by_diameter_is_the_largest_whose_blank_goes_in():
    tooth = read_spur_tooth("module 0.8")
    teeth = tooth.most_teeth(Length.of_mm(60))
    assert tooth.outside(teeth).mm <= 60 < tooth.outside(teeth + 1).mm
    few = tooth.fewest_teeth(Length.of_mm(10))
    assert tooth.outside(few - 1).mm < 10 <= tooth.outside(few).mm


@pytest.mark.parametrize(("smallest", "largest"), [(4, 60), (12, 1001), (60, 60), (61, 60), (127, 128)])
def test_bounds_that_leave_nothing_are_refused(smallest, largest):
    with pytest.raises(ImpossibleSettingError):
        allowed_counts(WheelLimits(smallest, largest, HEAD, (Method.PLAIN,)))


@given(st.lists(st.tuples(TEETH, TEETH), min_size=1, max_size=4))
def test_an_order_keeps_the_wheels_and_has_as_few_over_an_arbor_as_any(pairs):
    counts = Counts(tuple(sorted(a for a, _ in pairs)), tuple(sorted(b for _, b in pairs)))
    train = best_order(counts)
    assert sorted(pair.driver for pair in train.pairs) == list(counts.drivers)
    assert sorted(pair.driven for pair in train.pairs) == list(counts.driven)
    every = (
        Train(tuple(Pair(a, b) for a, b in zip(drivers, driven, strict=True)))
        for drivers in set(permutations(counts.drivers))
        for driven in set(permutations(counts.driven))
    )
    assert len(over_an_arbor(train)) == min(len(over_an_arbor(each)) for each in every)


@pytest.mark.parametrize(
    ("pairs", "sense"), [(1, Sense.OPPOSITE), (2, Sense.SAME), (3, Sense.OPPOSITE), (4, Sense.SAME)]
)
def test_an_idler_comes_in_only_where_the_sense_must_be_turned(pairs, sense):
    assert sense_of(pairs) is sense
    for wanted in Sense:
        assert sense_of(pairs, idlers_for(pairs, wanted)) is wanted
        assert idlers_for(pairs, wanted) == int(wanted is not sense)


@given(st.integers(12, 90), st.integers(12, 90), st.integers(2000, 4000))
def test_drift_is_what_two_dials_show_after_many_turns(driver, driven, hundredths):
    # The wanted hand turns once in so many days, the made one as the wheels say; both are simply run on.
    day, wanted_days = Fraction(1), Fraction(hundredths, 100)
    drift = Drift(WantedTurning.of_periods(Period(day, ""), Period(wanted_days, "")), Fraction(driver, driven), driven)
    century, year = Fraction(36525), Fraction(1461, 4)
    shown, due = century * Fraction(driver, driven), century / wanted_days
    assert drift.degrees_per_century == 360 * (shown - due)
    assert drift.days_per_turn == Fraction(driven, driver) - wanted_days
    # A year on, the hand stands where it should stand so many days later.
    assert (year + drift.days_per_year) / wanted_days == year * Fraction(driver, driven)
    if drift.error:
        turns = drift.turns_to_a_tooth
        assert abs(turns * (1 + drift.error) - turns) * driven == 1
        assert abs(drift.days_per_year) * drift.years_to_a_day == 1
    else:
        assert drift.turns_to_a_tooth is None
        assert drift.years_to_a_day is None


@given(st.integers(10**9, 10**15))
def test_a_ratio_beyond_all_reach_is_refused_with_what_would_help(ratio):
    question = CountsQuestion(WantedTurning(Fraction(ratio)), AllowedCounts(tuple(range(12, 121)), ()), most_pairs=4)
    with pytest.raises(ImpossibleSettingError, match="reaches 10 to 1 at most") as refused:
        search_counts(question)
    assert "two trains" in refused.value.help_text


def test_on_one_distance_no_train_of_the_wrong_sense_is_offered():
    question = CountsQuestion(
        WantedTurning(Fraction(1, 12)), AllowedCounts(tuple(range(18, 91)), ()), 3, 2, Sense.SAME, on_one_distance=True
    )
    by_pairs = search_counts(question).by_pairs
    assert [bool(each.answers) for each in by_pairs] == [False, True, False]
    assert "no idler goes in" in by_pairs[2].obstacle
