"""The model of a plan: what it is asked, what it is told beforehand, and what it says when its time is over."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.jobs import plan_model
from solver.jobs.constraint_solver import Certainty, Outcome, new_model, solve
from solver.jobs.handling import Choice
from solver.jobs.plan_model import Found, best_plan, least_round
from solver.jobs.rounds import Arc, Round, whole_round
from solver.jobs.tasks import Machine, Sitting, Way
from tests.small_sittings import A1, A2, EXACT, HEAD, LATHE, at, task, tasks_of, way

#: 40, 40-30, 20 as the file has them are five wheels; by 20 first four.
THREE = Sitting((task(way(40)), task(way(40, 30)), task(way(20))))


@pytest.fixture
def solved(monkeypatch):
    """What each solving was allowed; the outcomes named in ``ends`` are put in place of the real ones."""
    calls, ends = [], {}

    def listening(model, **allowed):
        outcome = solve(model, **allowed)
        calls.append(allowed)
        return outcome._replace(**ends.get(len(calls), {}))

    monkeypatch.setattr(plan_model, "solve", listening)
    return calls, ends


def test_wheels_are_settled_without_a_bound_of_effort_and_the_rest_within_one(solved):
    found = best_plan(THREE, seconds=lambda: 7)
    assert (found.handled, found.bound, found.ties_settled) == (4, 4, True)
    assert tasks_of(found.choices) == [2, 0, 1]
    assert solved[0] == [{"seconds": 7, "effort": None}, *[{"seconds": 7, "effort": 10}] * 3]
    solved[0].clear()
    best_plan(THREE, seconds=lambda: 0)
    assert [each["seconds"] for each in solved[0]] == [1] * 4
    solved[0].clear()
    best_plan(THREE)
    assert [each["seconds"] for each in solved[0]] == [60] * 4


@pytest.mark.parametrize("number", [1, 2, 3, 4])
def test_what_was_found_but_not_proven_is_not_settled(solved, number):
    calls, ends = solved
    ends[number] = {"certainty": Certainty.FOUND}
    found = best_plan(THREE)
    assert (found.handled, found.ties_settled) == (4, False)
    assert len(calls) == 4


@pytest.mark.parametrize("number", [2, 3, 4])
def test_an_objective_that_time_runs_out_on_leaves_the_plan_of_those_before(solved, number):
    calls, ends = solved
    ends[number] = {"certainty": Certainty.UNDECIDED}
    found = best_plan(THREE)
    assert (found.handled, found.bound, found.ties_settled) == (4, 4, False)
    assert len(calls) == number


def test_without_any_plan_nothing_is_said(solved):
    solved[1][1] = {"certainty": Certainty.UNDECIDED}
    assert best_plan(THREE) is None
    assert len(solved[0]) == 1


def test_the_bound_is_that_of_the_wheels(solved):
    solved[1][1] = {"bound": 2, "certainty": Certainty.FOUND}
    assert best_plan(THREE)[1:] == (4, 2, False)


def test_no_task_needs_no_plan():
    assert best_plan(Sitting(())) == Found((), 0, 0, ties_settled=True)


def test_a_least_that_was_proven_before_is_taken_for_true():
    assert best_plan(THREE, least={LATHE: 4}).handled == 4
    # 4 to 6 wheels are all there can be: nothing handles seven and more.
    assert best_plan(THREE, least={LATHE: 9}) is None
    assert best_plan(THREE, least={HEAD: 9}).handled == 4
    still = Sitting((task(way(20)),), way(20).wheels)
    assert best_plan(still)[1:] == (0, 0, True)


def test_only_the_ways_and_steps_of_the_rounds_given_are_chosen_among():
    ways = THREE.tasks[0].ways, THREE.tasks[1].ways, THREE.tasks[2].ways
    steps = [(None, 0, 1), (0, 1, 1), (1, 2, 3), (2, None, 0)]
    arcs = tuple(
        Arc(*(None if task is None else (task, 0) for task in (leaves, enters)), wheels)
        for leaves, enters, wheels in steps
    )
    found = best_plan(THREE, rounds={LATHE: Round(ways, arcs)})
    assert (tasks_of(found.choices), found.handled, found.bound) == ([0, 1, 2], 5, 5)
    assert best_plan(THREE, rounds={LATHE: Round(ways, arcs[:-1])}) is None


@pytest.mark.parametrize(
    ("sitting", "ranks"),
    [
        # Fewest wheels before the face, the face before the error, the error before the rank.
        (Sitting((task(way(20, error=9, rank=1, face=A1), way(20, 30, rank=2), machine=HEAD),)), [1]),
        (Sitting((task(way(20, rank=1, face=A1), way(30, error=9, rank=2), machine=HEAD),)), [2]),
        (Sitting((task(way(20, error=Fraction(2, 10**12), rank=1), way(30, error=Fraction(1, 10**12), rank=2)),)), [2]),
        (Sitting((task(way(20, rank=2), way(30, rank=1)),)), [1]),
        # Keeping to the file comes before rank: the mildest of the second stands where the first begins.
        (Sitting((task(way(20, rank=5), way(30, rank=4)), task(way(20, rank=3), way(30, rank=3)))), [4, 3]),
    ],
)
def test_wheels_come_before_faces_those_before_errors_and_rank_is_last(sitting, ranks):
    found = best_plan(sitting)
    assert found.ties_settled
    assert [choice.way.rank for choice in found.choices] == ranks


def test_of_orders_as_good_that_of_the_file_is_taken_before_milder_ways():
    # 30, 20 and 20 are three wheels, as 20, 20 and 30; 1 0 2 3 turns one pair of tasks round, 0 2 3 1 two.
    sitting = Sitting((task(way(20)), task(way(30)), task(way(20), machine=HEAD), task(way(20))))
    assert tasks_of(best_plan(sitting).choices) == [1, 0, 2, 3]
    milder = Sitting((task(way(20, rank=1)), task(way(20, rank=1), way(30, rank=0))))
    assert tasks_of(best_plan(milder).choices) == [0, 1]


def test_a_face_once_outward_stays_and_none_is_outward_at_the_beginning():
    ways = [way(face=A1), way(), way(face=A2), way(face=A1)]
    sitting = Sitting(tuple(task(each, machine=HEAD, after=range(number)) for number, each in enumerate(ways)))
    # A1, A2 and A1 again; the second asks for none.
    model_of = _model_of(sitting)
    assert len(model_of.objectives()) == 4
    free = Sitting(tuple(task(each, machine=HEAD) for each in ways))
    # Both of A1 together, then A2.
    order = [choice.way.face for choice in best_plan(free).choices if choice.way.face]
    assert order == [A1, A1, A2]
    assert [choice.task for choice in best_plan(sitting).choices] == [0, 1, 2, 3]


def test_a_wheel_of_a_lathe_that_has_nothing_to_do_is_lent_all_the_same():
    head = Way(frozenset({at(50, 20), at(51, 20, 1)}), EXACT, 0)
    for twenties, handled in ((1, 3), (2, 2)):
        sitting = Sitting((task(head, machine=HEAD),), frozenset({at(0, 20)}), ((20, twenties),))
        assert best_plan(sitting)[1:] == (handled, handled, True)
    # Of two that stand there one is enough.
    two = Sitting((task(head, machine=HEAD),), frozenset({at(0, 20), at(1, 20), at(2, 20, 1)}), ((20, 2),))
    assert best_plan(two).handled == 3


def test_of_several_wheels_that_the_other_machine_takes_only_what_stays_is_lent():
    # 30 on the lathe; the head takes 20 and 30: one lent, two on; the 30 off the head and on the lathe.
    head = Way(frozenset({at(50, 20), at(51, 30)}), EXACT, 0)
    tasks = task(way(30)), task(head, machine=HEAD, after={0}), task(way(30), after={1})
    assert best_plan(Sitting(tasks, shared=((20, 1), (30, 1))))[1:] == (6, 6, True)
    assert best_plan(Sitting(tasks, shared=((20, 1), (30, 2))))[1:] == (3, 3, True)


def test_what_is_mounted_is_lent_before_the_first_task():
    # The 20 off the lathe and on the head, off the head and on the lathe.
    head = Way(frozenset({at(50, 20)}), EXACT, 0)
    tasks = task(way(20), after={1}), task(head, machine=HEAD)
    assert best_plan(Sitting(tasks, way(20).wheels, ((20, 1),)))[1:] == (4, 4, True)
    assert best_plan(Sitting(tasks, way(20).wheels, ((20, 2),)))[1:] == (1, 1, True)


def test_a_task_may_wait_for_one_below_it_in_the_file_or_above_it():
    # 20 and then 20-30 would be two wheels, the other way round three.
    below = Sitting((task(way(20), after={1}), task(way(20, 30))))
    above = Sitting((task(way(20, 30)), task(way(20), after={0})))
    assert [(tasks_of(found.choices), found.handled) for found in map(best_plan, (below, above))] == [
        ([1, 0], 3), ([0, 1], 3),
    ]  # fmt: skip


def test_a_wheel_lent_after_the_last_task_is_only_taken_off():
    head = Way(frozenset({at(50, 20)}), EXACT, 0)
    sitting = Sitting((task(way(20)), task(head, machine=HEAD, after={0})), shared=((20, 1),))
    # On the lathe, off it, on the head.
    assert best_plan(sitting)[1:] == (3, 3, True)


def _model_of(sitting):
    rounds = {machine: whole_round(sitting, machine) for machine in Machine}
    return plan_model._PlanModel(new_model(), sitting, rounds, {})  # noqa: SLF001 - its hints are told nowhere else.


def hints_of(model):
    hint = model.model.proto.solution_hint
    return dict(zip(hint.vars, hint.values, strict=True))


def test_the_search_begins_from_the_plan_that_is_known():
    sitting = Sitting((task(way(20), way(30)), task(way(40))))
    model = _model_of(sitting)
    model.hint_at([Choice(1, way(40)), Choice(0, way(30))])
    positions = {each.index: place for each, place in zip(model._position, (1, 0), strict=True)}  # noqa: SLF001
    ways = [yes.index for number in (0, 1) for _, yes in model._ways[number]]  # noqa: SLF001
    assert hints_of(model) == positions | dict(zip(ways, (0, 1, 1), strict=True))


def test_each_objective_is_held_and_the_next_search_begins_where_the_last_one_ended():
    sitting = Sitting((task(way(20), way(30)), task(way(40))))
    model = _model_of(sitting)
    first = model.objectives()[0]
    model.model.minimize(first)
    outcome = solve(model.model, effort=1)
    model.hint_at([Choice(1, way(40)), Choice(0, way(30))])
    model.keep(first, outcome.value, outcome)
    every = model._every  # noqa: SLF001
    assert hints_of(model) == {each.index: outcome.solver.value(each) for each in every}
    model.model.maximize(first)
    assert solve(model.model, effort=1).value == outcome.value == 3


#: First and second from the start, on to the other, and the end.
ROUND = [Arc(None, (0, 0), 4), Arc((0, 0), (1, 0), 2), Arc((1, 0), None, 0),
         Arc(None, (1, 0), 3), Arc((1, 0), (0, 0), 2), Arc((0, 0), None, 0)]  # fmt: skip


def test_the_least_round_goes_through_every_task_whichever_comes_first():
    assert least_round(2, ROUND) == 5
    assert least_round(2, ROUND[:3]) == 6
    assert least_round(0, []) == 0


@pytest.mark.parametrize(
    ("end", "least"),
    [
        ({"certainty": Certainty.FOUND, "bound": 4}, 4),
        ({"certainty": Certainty.FOUND, "bound": -1}, 0),
        ({"certainty": Certainty.UNDECIDED, "bound": 4}, 0),
    ],
)
def test_a_least_round_cut_short_is_as_much_as_was_proven(solved, end, least):
    calls, ends = solved
    ends[1] = end
    assert least_round(2, ROUND, lambda: 9) == least
    assert calls == [{"seconds": 9}]


def test_a_least_round_has_a_second_at_the_least_and_a_minute_where_nobody_counts(solved):
    least_round(2, ROUND, lambda: 0)
    least_round(2, ROUND)
    assert solved[0] == [{"seconds": 1}, {"seconds": 60}]


def test_an_outcome_has_values_only_if_something_was_found():
    found = {each: Outcome(each, 0, Fraction(0), None).has_values for each in Certainty}
    assert [each.name for each, has_values in found.items() if has_values] == ["BEST", "FOUND"]
