"""How a plan comes about: what is told on the way, what each step hands to the next, and where it stops for time."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.jobs import planning
from solver.jobs.handling import Choice
from solver.jobs.mending import in_file_order
from solver.jobs.plan_model import Found, best_plan
from solver.jobs.planning import plan
from solver.jobs.tasks import Sitting, Way
from tests.small_sittings import A1, EXACT, HEAD, LATHE, at, task, tasks_of, way

#: The one 20 of the box goes from the lathe to the head and back: 1, 2 and 2; each machine by itself handles 1.
LENT = Sitting(
    (
        task(way(20)),
        task(Way(frozenset({at(50, 20)}), EXACT, 0), machine=HEAD, after={0}),
        task(way(20), after={1}),
    ),
    shared=((20, 1),),
)


def crossed(*more):
    """On each machine 20 comes best before 20 with more; but each such pair waits for the other machine's 20."""
    first, last = way(20), way(20, *more)
    return Sitting((task(first, after={3}), task(last), task(first, machine=HEAD, after={1}), task(last, machine=HEAD)))


@pytest.fixture
def asked(monkeypatch):
    """What the constraint model was asked, one after another, and what it found."""
    questions = []

    def listening(sitting, **told):
        questions.append((told, best_plan(sitting, **told)))
        return questions[-1][1]

    monkeypatch.setattr(planning, "best_plan", listening)
    return questions


def told_of(sitting, **named):
    told = []
    found = plan(sitting, tell=lambda *words: told.append(words), **named)
    return found, told


def test_a_plan_as_good_as_the_machines_by_themselves_is_joined_once(asked):
    # 40, 40-30, 20 as the file has them are five; by 20 first four. The head has one wheel.
    sitting = Sitting((task(way(40)), task(way(40, 30)), task(way(20)), task(way(50), machine=HEAD)))
    found, told = told_of(sitting)
    assert told == [("walked", 5), ("loading", 0), ("loaded", 0), ("joining", 5)]
    assert (found.handled, found.bound, found.faces, found.ties_settled) == (5, 5, 0, True)
    assert found.is_proven
    assert tasks_of(found.choices)[:2] in ([2, 0], [2, 3], [3, 2])
    ((question, _),) = asked
    assert question["least"] == {LATHE: 4, HEAD: 1}
    assert question["known"] == in_file_order(sitting)
    assert set(question["rounds"]) == {LATHE, HEAD}


def test_wheels_lent_are_let_in_once_it_is_known_how_many(asked):
    found, told = told_of(LENT)
    assert told == [("walked", 2), ("loading", 0), ("loaded", 0), ("joining", 2), ("joining", 5)]
    assert (found.handled, found.bound, found.ties_settled) == (5, 5, True)
    (first, once), (second, _) = asked
    assert first["known"] == in_file_order(LENT)
    assert second["known"] == once.choices


def test_a_second_left_is_time_enough_and_none_ends_the_joining(asked):
    found, told = told_of(LENT, seconds=lambda: 1)
    assert (found.handled, found.bound, found.ties_settled) == (5, 5, True)
    asked.clear()
    found, told = told_of(LENT, seconds=lambda: 0 if asked else 1)
    # What was let in handles 2; whatever was not handles 3 at the least.
    assert told[-1] == ("joining", 2)
    assert (found.handled, found.bound, found.ties_settled) == (5, 3, True)
    assert not found.is_proven


def test_where_no_order_of_the_cheapest_steps_suits_both_machines_two_more_wheels_are_let_in():
    # 20 then 20-30 are 2, the other way round 3: one machine must go the other way round.
    found, told = told_of(crossed(30))
    assert told == [("walked", 4), ("loading", 0), ("loaded", 0), ("joining", 4), ("joining", 6)]
    assert (found.handled, found.bound, found.ties_settled) == (5, 5, True)
    # 20 then 20-30-40-50 are 4, the other way round 7.
    found, told = told_of(crossed(30, 40, 50))
    assert told[3:] == [("joining", 8), ("joining", 10), ("joining", 12)]
    assert (found.handled, found.bound, found.ties_settled) == (11, 11, True)


def test_machines_whose_cheapest_plans_wait_for_one_another_are_planned_in_pieces_when_time_is_over():
    told = []
    found = plan(crossed(30), seconds=lambda: 0 if told else 60, tell=lambda *words: told.append(words))
    assert told == [("walked", 4), ("loading", 0), ("loaded", 0), ("joining", 4), ("loading", 0), ("loaded", 0),
                    ("pieces", 4)]  # fmt: skip
    assert (found.handled, found.bound, found.ties_settled) == (5, 4, False)


def test_a_sitting_too_large_to_walk_is_planned_in_pieces_with_a_bound_by_pairs(monkeypatch):
    sitting = Sitting((task(way(40)), task(way(40, 30)), task(way(20)), task(way(50), machine=HEAD)))
    # 1 + 1 + 2 sets, times eight groups of three tasks: 2**1 + 2**2 + 2**1 = 8 sets, 64 bits; the head 2 * 2.
    monkeypatch.setattr(planning, "LARGEST_WALK", 64)
    assert told_of(sitting)[1][0] == ("walked", 5)
    monkeypatch.setattr(planning, "LARGEST_WALK", 63)
    found, told = told_of(sitting)
    assert told == [("loading", 0), ("loaded", 0), ("pieces", 4)]
    # The lathe's bound is by pairs, the head's by its walk; the piece is walked all the same.
    assert (found.handled, found.bound, found.ties_settled) == (5, 5, False)
    assert tasks_of(found.choices)[0] == 2
    monkeypatch.setattr("solver.jobs.pieces.MOST_COMPARED", 0)
    assert told_of(sitting)[0].bound == 1


def test_a_plan_in_the_order_of_the_file_that_nothing_betters_is_told_at_once():
    sitting = Sitting((task(way(20)), task(way(20, 30), after={0}), task(way(face=A1), machine=HEAD)))
    found, told = told_of(sitting)
    assert told == [("walked", 2)]
    assert found.choices == in_file_order(sitting)
    assert (found.handled, found.bound, found.faces, found.ties_settled) == (2, 2, 1, True)
    assert [row.wheels for row in found.handling] == [1, 1, 0]


def hurried(monkeypatch, choices, bound):
    """Have the constraint model find a plan without settling it; what is given fills up when it is asked."""
    asked = []
    found = Found(tuple(choices), bound, bound, ties_settled=False)
    monkeypatch.setattr(planning, "best_plan", lambda *_words, **_named: asked.append(found) or found)
    return asked


@pytest.mark.parametrize(("left", "ranks"), [(1, [1, 1, 0]), (0, [0, 1, 0])])
def test_a_plan_that_is_not_settled_is_mended_for_as_long_as_there_is_time(monkeypatch, left, ranks):
    # 20 20 50, then 20 50 50, then 50 50 50: in the second round the first task follows the second.
    either = way(20, error=9), way(50, error=1, rank=1)
    sitting = Sitting((task(*either), task(*either), task(way(50))))
    asked = hurried(monkeypatch, in_file_order(sitting), 1)
    found = plan(sitting, seconds=lambda: left if asked else 60)
    assert [each.way.rank for each in found.choices] == ranks
    assert not found.ties_settled


def test_the_better_of_the_plan_found_and_the_plain_one_is_given(monkeypatch):
    # Second before first costs nothing more, but the way it was found with is coarse and cannot be mended alone.
    fine, coarse = way(20, error=1), way(30, error=9, rank=1)
    sitting = Sitting((task(fine, coarse), task(fine, coarse), task(way(40))))
    found_way = Choice(0, coarse), Choice(1, coarse), Choice(2, way(40))
    hurried(monkeypatch, found_way, 1)
    monkeypatch.setattr(planning, "nothing_is_better", lambda *_: False)
    found = plan(sitting)
    assert [each.way for each in found.choices] == [fine, fine, way(40)]
    assert (found.handled, found.ties_settled) == (3, False)


@pytest.mark.parametrize(("handled", "bound", "is_proven"), [(4, 4, True), (4, 3, False)])
def test_a_plan_is_proven_where_it_stands_on_its_bound(handled, bound, is_proven):
    assert planning.Plan((), (), handled, bound, 0, ties_settled=False).is_proven is is_proven


def test_the_errors_of_a_plan_are_least_among_plans_of_as_many_wheels():
    sitting = Sitting((task(way(20, error=Fraction(1, 10)), way(30, error=Fraction(1, 20), rank=1), after={1}),
                       task(way(40))))  # fmt: skip
    assert [each.way.rank for each in plan(sitting).choices] == [0, 1]
