"""Periods by the names the trade has for them; the cycles are held against the month they count."""

from __future__ import annotations

import pytest

from gearsets.period_tables import find_period


@pytest.mark.parametrize(
    ("name", "other"),
    [
        ("lunation", "synodic month"),
        ("3 lunations", "3 synodic months"),
        ("nodical month", "draconic month"),
        ("Saros", "saros"),
    ],
)
def test_two_names_of_one_period_are_one(name, other):
    assert find_period(name).days == find_period(other).days


@pytest.mark.from_memory("J. Meeus, Astronomical Algorithms, 2nd ed., 1998, the moon's phases and eclipses")
@pytest.mark.parametrize(
    ("cycle", "count", "month"),
    [
        ("saros", 223, "synodic month"),
        ("saros", 242, "draconic month"),
        ("saros", 239, "anomalistic month"),
        ("Metonic cycle", 235, "synodic month"),
        ("Metonic cycle", 19, "tropical year"),
    ],
)
def test_a_cycle_is_so_many_months_to_within_a_quarter_of_a_day(cycle, count, month):
    period, counted = find_period(cycle), find_period(month)
    # 242 draconic months are 6585.357 days, 239 anomalistic ones 6585.537, 19 years 6939.602: near, and not the same.
    assert abs(period.days - count * counted.days) < 1 / 4
    if month == "synodic month":
        assert (
            abs(period.days - count * counted.days) <= period.days * period.give + count * counted.days * counted.give
        )
