"""One worker, one seed, a bound on effort or on time; and how sure the outcome is."""

from __future__ import annotations

from math import inf

import pytest
from ortools.sat.python import cp_model

from solver.jobs.constraint_solver import Certainty, load, new_model, solve


def from_two_to_nine(*, most=9):
    model = new_model()
    count = model.new_int_var(2, most, "")
    model.minimize(3 * count)
    return model, count


def test_a_solving_has_one_worker_and_one_seed_and_is_bounded_only_as_asked():
    model, _ = from_two_to_nine()
    free = solve(model).solver.parameters
    assert (free.num_workers, free.random_seed) == (1, 1)
    assert (free.max_deterministic_time, free.max_time_in_seconds) == (inf, inf)
    bound = solve(model, effort=7, seconds=9).solver.parameters
    assert (bound.max_deterministic_time, bound.max_time_in_seconds) == (7, 9)


@pytest.mark.parametrize(
    ("status", "certainty", "has_values"),
    [
        ("OPTIMAL", Certainty.BEST, True), ("FEASIBLE", Certainty.FOUND, True), ("INFEASIBLE", Certainty.NONE, False),
        ("UNKNOWN", Certainty.UNDECIDED, False), ("MODEL_INVALID", Certainty.UNDECIDED, False),
    ],
)  # fmt: skip
def test_each_end_of_a_solving_has_its_certainty(monkeypatch, status, certainty, has_values):
    plainly = cp_model.CpSolver.solve
    monkeypatch.setattr(
        cp_model.CpSolver, "solve", lambda solver, model: plainly(solver, model) and getattr(cp_model, status)
    )
    outcome = solve(from_two_to_nine()[0])
    assert (outcome.certainty, outcome.has_values) == (certainty, has_values)


def test_value_bound_and_time_are_those_of_the_solver():
    model, count = from_two_to_nine()
    outcome = solve(model, effort=1)
    assert (outcome.value, outcome.bound, outcome.solver.value(count)) == (6, 6, 2)
    assert abs(outcome.seconds - outcome.solver.wall_time) <= 1e-6
    assert 10**6 % outcome.seconds.denominator == 0
    assert outcome.seconds > 0


def test_loading_ahead_takes_in_the_library_itself(monkeypatch):
    taken = []
    monkeypatch.setattr("solver.jobs.constraint_solver.import_module", taken.append)
    load()
    assert taken == ["ortools.sat.python.cp_model"]
