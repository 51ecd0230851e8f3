"""A benchmark is worth nothing when its pieces answer different questions."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gearsets.head_files import find_head
from solver.jobs.plan_model import best_plan
from solver.jobs.tasks import Machine
from solver.jobs.walk import Walk
from tests.benchmarks.measurements import (
    COUNTS,
    WANTED,
    by_brute_force,
    by_finding_only,
    by_groups,
    by_model,
    by_search,
    coverage_by_all,
    coverage_by_plain,
    in_a_child,
    lathe_of,
    planned,
    sitting_of,
    whole_process,
)
from tests.benchmarks.wheelwork import LEAP, by_counts_model, by_counts_search, by_plain_enumeration
from tests.slow_answers import best_error

COUNTS_WAYS = (by_counts_search, by_plain_enumeration, by_counts_model)
SMALL_BOX = (20, 21, 25, 30, 32, 35, 40, 45, 50)


@pytest.mark.parametrize("pairs", [1, 2, 3])
def test_search_brute_force_and_model_find_the_same_best_error(pairs):
    found = {by(SMALL_BOX, pairs).answer for by in (by_finding_only, by_search, by_brute_force, by_model)}
    assert len(found) == 1


@pytest.mark.parametrize("pairs", [1, 2])
def test_the_brute_force_in_whole_numbers_is_the_one_in_fractions(pairs):
    lathe = lathe_of(SMALL_BOX)
    assert by_brute_force(SMALL_BOX, pairs).answer == best_error(lathe, lathe.lead_at_equal_wheels * WANTED, pairs)


def test_the_child_process_reports_the_same_error_and_its_memory():
    report = in_a_child(20, 29, 2)
    assert Fraction(str(report["error"])) == by_search(range(20, 30), 2).answer
    assert isinstance(report["peak_mib"], float)
    assert report["peak_mib"] > 1


def test_a_process_that_fails_is_not_timed():
    with pytest.raises(RuntimeError, match="ended with 3"):
        whole_process(["-c", "raise SystemExit(3)"])


def test_the_coverage_measured_by_all_methods_holds_that_of_plain_moves_and_leaves_out_383() -> None:
    head = find_head("head-40-three-plates")
    plain, _ = coverage_by_plain(head)
    every, _ = coverage_by_all(head)
    assert set(plain) < set(every)
    assert set(COUNTS) - set(every) == {383}


@pytest.mark.parametrize("pairs", [1, 2, 3])
def test_tooth_counts_by_search_enumeration_and_model_are_equally_near(pairs):
    counts = range(20, 31)
    # A train whose wheels undo one another is left to fewer pairs by the search alone, hence the least of all so far.
    found = [min(by(counts, LEAP + 1, fewer).answer for fewer in range(1, pairs + 1)) for by in COUNTS_WAYS]
    assert len(set(found)) == 1


@pytest.mark.parametrize("parts", [1, 3])
def test_the_plan_and_the_plain_way_over_every_group_handle_as_few_wheels(parts):
    found, set_ups, _ = planned(parts)
    assert found.is_proven
    assert found.handled == by_groups(sitting_of(parts))[0]
    assert set_ups > 50


def test_twelve_parts_on_a_lathe_of_25_wheels_are_planned_and_proven():
    found, set_ups, _ = planned(12)
    assert found.is_proven
    assert found.ties_settled
    assert set_ups > 1000


def test_the_constraint_model_proves_the_twelve_parts_again_without_being_told_the_least():
    # Every step of every plan of up to two wheels more is let in, and no bound is given: a second witness.
    sitting = sitting_of(12)
    walk = Walk([task.ways for task in sitting.tasks], list(sitting.all_before()), sitting.mounted)
    least = walk.least().least
    assert least is not None
    let_in = walk.through(least + 2)
    assert let_in is not None
    found = best_plan(sitting, rounds={Machine.LATHE: let_in}, seconds=lambda: 120)
    assert found is not None
    assert (found.handled, found.bound) == (least, least)
