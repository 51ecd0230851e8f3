"""What may stand on one machine, walked over: which steps are kept, and what is known when it stops."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise, permutations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.jobs import walk as room
from solver.jobs.rounds import Arc
from solver.jobs.tasks import wheels_between
from solver.jobs.walk import Reached, Walk
from tests.drawn_cases import cases
from tests.small_sittings import way

SETS = [tuple(pair) for pair in product((0, 20, 30), repeat=2)]


@st.composite
def walks(draw, *, is_plain):
    """Up to four tasks with a way or two each, at two places; something may stand there.

    Plain ones do not wait for one another, and no set of wheels does two of them.
    """
    if is_plain:
        sets = draw(st.permutations(SETS))
        counts = draw(st.lists(st.integers(1, 2), min_size=1, max_size=4))
        rows = [[sets.pop() for _ in range(count)] for count in counts]
    else:
        rows = draw(
            st.lists(st.lists(st.sampled_from(SETS), min_size=1, max_size=2, unique=True), min_size=1, max_size=4)
        )
    tasks = [tuple(way(*each, rank=rank) for rank, each in enumerate(row)) for row in rows]
    before = [frozenset()] * len(tasks)
    for number in range(1, len(tasks) if not is_plain else 0):
        one = frozenset(draw(st.sets(st.integers(0, number - 1), max_size=1)))
        # Whatever waits for a task waits for what that one waits for.
        before[number] = one.union(*(before[other] for other in one))
    return tasks, before, way(*draw(st.sampled_from(SETS))).wheels


def every_plan(tasks, before, start):
    """Every order with every choice of ways: its wheels, the ways by task and number, and its steps."""
    for order in permutations(range(len(tasks))):
        if all(before[task] <= set(order[:place]) for place, task in enumerate(order)):
            for chosen in product(*(range(len(tasks[task])) for task in order)):
                nodes = list(zip(order, chosen, strict=True))
                sets = [start, *(tasks[task][number].wheels for task, number in nodes)]
                steps = [wheels_between(one, other) for one, other in pairwise(sets)]
                arcs = [Arc(*each) for each in zip([None, *nodes], nodes, steps, strict=False)]
                yield sum(steps), nodes, [*arcs, Arc(nodes[-1], None, 0)]


@cases(150)
@given(st.booleans(), st.data(), st.integers(0, 2))
def test_the_ways_and_steps_kept_are_those_of_plans_of_so_many_wheels(is_plain, data, more):
    tasks, before, start = data.draw(walks(is_plain=is_plain))
    plans = list(every_plan(tasks, before, start))
    least = min(cost for cost, _, _ in plans)
    walk = Walk(tasks, before, start)
    assert walk.least() == Reached(least, least)
    found = walk.through(least + more)
    assert found.is_whole
    taken = [(nodes, arcs) for cost, nodes, arcs in plans if cost <= least + more]
    ways = {(task, tasks[task][number]) for nodes, _ in taken for task, number in nodes}
    kept_ways = {(task, each) for task, of_task in enumerate(found.ways) for each in of_task}
    assert kept_ways == ways if is_plain or not more else kept_ways >= ways
    kept = {task: list(of_task) for task, of_task in enumerate(found.ways)}

    def named(node):
        return node and (node[0], tasks[node[0]].index(kept[node[0]][node[1]]))

    arcs = [Arc(named(leaves), named(enters), wheels) for leaves, enters, wheels in found.arcs]
    assert len(arcs) == len(set(arcs))
    steps = {arc for _, each in taken for arc in each}
    assert set(arcs) == steps if is_plain else set(arcs) >= steps
    between = {(leaves, enters): wheels for leaves, enters, wheels in arcs if leaves and enters}
    for (leaves, enters), wheels in between.items():
        assert leaves[0] != enters[0]
        assert wheels == wheels_between(*(tasks[task][number].wheels for task, number in (leaves, enters)))


#: 20 and 30 at one place: 1 wheel, then 2; by 20-40 first it would be 2, 1 and 2.
TWO = [(way(20),), (way(30),)]
NO_WAIT = [frozenset(), frozenset()]


def ends_after(times):
    """Say yes the time after so many."""
    asked = iter([False] * times)
    return lambda: next(asked, True)


@pytest.mark.parametrize(
    ("times", "reached"),
    [(0, Reached(None, 1)), (1, Reached(None, 2)), (2, Reached(None, 3)), (3, Reached(3, 3)), (9, Reached(3, 3))],
)
def test_a_walk_that_is_stopped_has_proven_every_step_it_took(times, reached):
    walk = Walk(TWO, NO_WAIT, frozenset())
    assert walk.least(ends_after(times)) == reached
    assert bool(walk.trace()) is (reached.least is not None)
    # Another walk through is made afresh, whatever the first came to.
    assert [len(each) for each in walk.through(3).ways] == [1, 1]


def test_steps_are_not_given_when_there_is_no_time_to_list_them_all():
    walk = Walk(TWO, NO_WAIT, frozenset())
    assert walk.least() == Reached(3, 3)
    # Three steps back, and then each of two ways.
    assert walk.through(3, ends_after(0)) is None
    assert walk.through(3, ends_after(2)) is None
    assert walk.through(3, ends_after(3)) is None
    assert walk.through(3, ends_after(4)) is None
    assert walk.through(3, ends_after(5)) == walk.through(3)
    # A walk of other wheels than the least is made again: four steps there, four back.
    assert walk.through(4, ends_after(9)) is None
    assert walk.through(4, ends_after(10)) == walk.through(4)


def test_a_walk_is_at_most_two_to_the_wheels_and_the_tasks():
    # 2 + 4 sets for four groups; what two tasks share counts once.
    assert Walk.size([(way(20), way(20, 30)), (way(20),)]) == (2 + 4) * 4
    assert Walk.size([]) == 0


def test_nothing_to_do_takes_no_step():
    walk = Walk([], [], way(20).wheels)
    assert walk.trace() == ()
    assert walk.least() == Reached(0, 0)
    assert walk.trace() == ()


def test_of_too_many_ways_those_of_least_error_are_kept_and_those_of_a_cheapest_plan(monkeypatch):
    # The dear way of 20-50-60 is exact, and 40 at nine tenths is the cheapest with what stands there.
    coarse, mild, fine = way(40, error=Fraction(9, 10)), way(20, 30, error=1, rank=1), way(20, 50, error=0, rank=2)
    walk = Walk([(coarse, mild, fine), (way(40, rank=3),)], NO_WAIT, way(40).wheels)
    assert walk.least().least == 0
    monkeypatch.setattr(room, "LARGEST_ROUND", 4)
    assert [len(each) for each in walk.through(9).ways] == [3, 1]
    assert walk.through(9).is_whole
    monkeypatch.setattr(room, "LARGEST_ROUND", 3)
    found = walk.through(9)
    assert [set(each) for each in found.ways] == [{fine, coarse}, {way(40, rank=3)}]
    assert not found.is_whole


def test_of_ways_of_one_error_the_mildest_are_kept(monkeypatch):
    first, second, third = way(20, rank=5), way(30, rank=4), way(40, rank=3)
    walk = Walk([(first, second, third)], [frozenset()], way(20).wheels)
    assert walk.least().least == 0
    monkeypatch.setattr(room, "LARGEST_ROUND", 1)
    assert [set(each) for each in walk.through(2).ways] == [{third, first}]
