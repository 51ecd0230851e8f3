"""A plan handles as few wheels as an exhaustive search finds, whatever order, way, face and lending there is."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from solver.jobs.handling import Choice, carried_out, face_changes
from solver.jobs.lathe_ways import lathe_ways
from solver.jobs.mending import in_file_order, more_exact
from solver.jobs.pieces import bound_by_pairs, in_pieces, nearest_next
from solver.jobs.plan_model import Found, best_plan
from solver.jobs.planning import plan
from solver.jobs.tasks import Machine, Sitting, Task, Way, least_alike
from solver.jobs.walk import Walk
from solver.quantities.lengths import Length
from solver.trains.changes import Standing, changes, handled, standing
from solver.trains.lathe import Lathe
from solver.trains.mounting import Mounter, Verdict, placings
from solver.trains.wheels import WheelClass
from solver.trains.written_trains import read_train
from tests.slow_plans import cheapest, cheapest_in_any_order
from tests.strategies import lathes, leads

PLACES = {
    Machine.LATHE: ((0, "stud gear"), (10, "stud 1, driven"), (10**6, "leadscrew")),
    Machine.HEAD: ((20, "head, work spindle"), (30, "head, plate")),
}
TEETH = (20, 30, 40)
SLOW = settings(max_examples=40, derandomize=True, deadline=None, database=None)


@st.composite
def ways(draw, machine, rank, *, has_faces, teeth=TEETH, fewest=1):
    fewest = min(fewest, len(PLACES[machine])) - (machine is Machine.HEAD)
    places = draw(st.sets(st.sampled_from(PLACES[machine]), min_size=fewest))
    wheels = frozenset(Standing(*place, 0, draw(st.sampled_from(teeth))) for place in sorted(places))
    face = draw(st.sampled_from((None, ("A", 1), ("A", 2)))) if has_faces and machine is Machine.HEAD else None
    return Way(wheels, Fraction(draw(st.integers(0, 3)), 10**4), rank, face)


@st.composite
def boxes(draw, every):
    """Enough of each wheel for any one way, and at times one more: too few for both machines in many a case."""
    most = Counter()
    for wheels in every:
        most |= Counter(each.teeth for each in wheels)
    return tuple((teeth, max(1, count) + draw(st.sampled_from((0, 0, 1)))) for teeth, count in sorted(most.items()))


@st.composite
def sittings(draw, *, most=4, machines=tuple(Machine), shares=False, has_faces=True):
    # A row in which each task waits for the one before leaves no way round lending a wheel.
    is_row = shares and draw(st.booleans())
    tasks = []
    for number in range(draw(st.integers(1, most))):
        machine = machines[number % len(machines)] if is_row else draw(st.sampled_from(machines))
        # A row of few kinds of wheel on full machines has one wheel stand where the other machine wants it.
        some = {"teeth": TEETH[:2], "fewest": 2} if is_row else {}
        found = tuple(
            draw(ways(machine, rank, has_faces=has_faces, **some))
            for rank in range(1 if is_row else draw(st.integers(1, 3)))
        )
        after = (
            {number - 1} & set(range(number))
            if is_row
            else draw(st.sets(st.integers(0, number - 1), max_size=1))
            if number
            else set()
        )
        tasks.append(Task(machine, least_alike(found), frozenset(after)))
    # Turned about, so that a task may wait for one that stands below it in the file.
    turned = [task._replace(after=frozenset(len(tasks) - 1 - each for each in task.after)) for task in reversed(tasks)]
    mounted = draw(ways(Machine.LATHE, 0, has_faces=False)).wheels if draw(st.booleans()) else frozenset()
    box = draw(boxes([mounted, *(way.wheels for task in tasks for way in task.ways)])) if shares else None
    return Sitting(tuple(turned if draw(st.booleans()) else tasks), mounted, box)


def cost_of(sitting, choices):
    rows = carried_out(sitting, choices)
    return sum(row.wheels for row in rows), face_changes(rows), sum((each.way.error for each in choices), Fraction(0))


def is_allowed(sitting, choices):
    done = set()
    for task, way in choices:
        assert way in sitting.tasks[task].ways
        if not sitting.tasks[task].after <= done:
            return False
        done.add(task)
    return len(done) == len(sitting.tasks) == len(choices)


@SLOW
@given(sittings())
def test_a_plan_handles_as_few_wheels_faces_and_errors_as_an_exhaustive_search(sitting):
    found = plan(sitting)
    assert is_allowed(sitting, found.choices)
    assert found.is_proven
    assert found.ties_settled
    assert (found.handled, found.faces, cost_of(sitting, found.choices)[2]) == cheapest(sitting)


@SLOW
@given(sittings(shares=True, has_faces=False))
def test_a_plan_out_of_one_box_lends_no_more_wheels_than_an_exhaustive_search(sitting):
    found = plan(sitting)
    assert is_allowed(sitting, found.choices)
    assert found.is_proven
    assert cost_of(sitting, found.choices) == cheapest(sitting)


def test_a_wheel_that_the_head_takes_from_between_two_threads_is_handled_twice_more():
    # One 20: on the lathe, off and onto the head, off and onto the lathe again. Worked by hand: 1 + 2 + 2.
    stud, spindle = Standing(0, "stud gear", 0, 20), Standing(20, "head, work spindle", 0, 20)
    first, head, last = (Way(frozenset({each}), Fraction(0), 0) for each in (stud, spindle, stud))
    tasks = (
        Task(Machine.LATHE, (first,)),
        Task(Machine.HEAD, (head,), frozenset({0})),
        Task(Machine.LATHE, (last,), frozenset({1})),
    )
    found = plan(Sitting(tasks, shared=((20, 1),)))
    assert [row.wheels for row in found.handling] == [1, 2, 2]
    assert [row.lent for row in found.handling] == [(), (stud,), (spindle,)]
    assert found.bound == 5
    assert plan(Sitting(tasks, shared=((20, 2),))).handled == 2


@SLOW
@given(sittings(shares=True))
def test_the_constraint_model_alone_given_every_step_and_no_bound_proves_the_same(sitting):
    found = best_plan(sitting)
    assert found is not None
    cost = cheapest(sitting)
    assert found.handled == found.bound == cost[0]
    assert cost_of(sitting, found.choices) == cost


@SLOW
@given(sittings(machines=(Machine.LATHE,), most=5))
def test_the_walk_finds_what_every_order_gives_and_keeps_every_way_of_a_cheapest_plan(sitting):
    tasks = [task.ways for task in sitting.tasks]
    walk = Walk(tasks, list(sitting.all_before()), sitting.mounted)
    least = walk.least().least
    assert least == cheapest_in_any_order(sitting)
    kept = walk.through(least)
    for number, ways_kept in enumerate(kept.ways):
        for way in tasks[number]:
            alone = [task if at != number else task._replace(ways=(way,)) for at, task in enumerate(sitting.tasks)]
            is_cheapest = cheapest_in_any_order(sitting._replace(tasks=tuple(alone))) == least
            assert (way in ways_kept) is is_cheapest


@SLOW
@given(sittings(machines=(Machine.LATHE,), most=5))
def test_a_plan_traced_back_from_the_walk_handles_the_least_in_an_order_that_is_allowed(sitting):
    walk = Walk([task.ways for task in sitting.tasks], list(sitting.all_before()), sitting.mounted)
    least = walk.least().least
    choices = [Choice(task, way) for task, way in walk.trace()]
    assert is_allowed(sitting, choices)
    assert cost_of(sitting, choices)[0] == least


def test_machines_that_there_is_no_time_to_join_are_each_planned_by_themselves():
    turned = [Way(standing(read_train(each)), Fraction(0), 0) for each in ("20-40", "30-60", "20-60")]
    sitting = Sitting(tuple(Task(Machine.LATHE, (way,)) for way in turned))
    told = []
    # There is time until the machines are walked, and none from then on.
    found = plan(sitting, seconds=lambda: 0 if told else 60, tell=lambda what, figure: told.append((what, figure)))
    assert told[0] == ("walked", 6)
    assert (found.handled, found.bound, found.ties_settled) == (6, 6, False)
    assert is_allowed(sitting, found.choices)


@SLOW
@given(sittings(), st.booleans(), st.sampled_from((2, 3, 10)))
def test_a_plan_in_pieces_is_allowed_and_lies_between_the_bound_and_the_nearest_next(sitting, in_time, piece):
    with pytest.MonkeyPatch.context() as monkeypatch:
        monkeypatch.setattr("solver.jobs.pieces.PIECE", piece)
        found = in_pieces(sitting, lambda: 60 if in_time else 0)
    assert is_allowed(sitting, found)
    assert cost_of(sitting, found)[0] <= cost_of(sitting, nearest_next(sitting))[0]
    bound = sum(bound_by_pairs(sitting, machine, lambda: 60) for machine in Machine)
    assert bound <= cheapest(sitting)[0]


def test_without_time_the_nearest_next_is_given_with_what_was_proven():
    # 20-40 to 30-60 and back would be dearer than the file's order; with no time nothing of it is looked at.
    turned = [Way(standing(read_train(each)), Fraction(0), 0) for each in ("20-40", "30-60", "20-60")]
    sitting = Sitting(tuple(Task(Machine.LATHE, (way,)) for way in turned))
    found = plan(sitting, seconds=lambda: 0)
    assert found.bound <= 6 <= found.handled
    assert not found.ties_settled
    assert plan(sitting).handled == 6


def test_of_too_many_ways_to_join_the_few_that_are_kept_hold_a_cheapest_plan(monkeypatch):
    rows = [[f"{a}-{b}" for a in (20, 30, 40) for b in (60, 80, 100)] for _ in range(3)]
    tasks = tuple(
        Task(
            Machine.LATHE,
            tuple(Way(standing(read_train(each)), Fraction(9 - at, 9), at) for at, each in enumerate(row)),
        )
        for row in rows
    )
    assert plan(Sitting(tasks)).ties_settled
    monkeypatch.setattr("solver.jobs.walk.LARGEST_ROUND", 3)
    found = plan(Sitting(tasks))
    assert (found.handled, found.bound, found.ties_settled) == (2, 2, False)


@SLOW
@given(sittings(), st.integers(0, 5))
def test_a_plan_cut_short_is_never_worse_than_the_best_of_each_part_in_the_order_of_the_file(sitting, asked_before):
    times = iter([60] * asked_before)
    found = plan(sitting, seconds=lambda: next(times, 0))
    assert is_allowed(sitting, found.choices)
    assert cost_of(sitting, found.choices) <= cost_of(sitting, in_file_order(sitting))
    assert found.bound <= cheapest(sitting)[0]


@SLOW
@given(sittings(shares=True))
def test_a_plan_made_more_exact_is_no_dearer_and_keeps_its_order(sitting):
    before = nearest_next(sitting)
    after = more_exact(sitting, before)
    assert [each.task for each in after] == [each.task for each in before]
    assert is_allowed(sitting, after)
    assert cost_of(sitting, after) <= cost_of(sitting, before)


@SLOW
@given(sittings())
def test_no_task_of_a_plan_made_more_exact_has_a_more_exact_way_that_costs_no_more(sitting):
    after = more_exact(sitting, nearest_next(sitting))
    cost = cost_of(sitting, after)
    for at, choice in enumerate(after):
        for way in sitting.tasks[choice.task].ways:
            if way.error < choice.way.error:
                other = cost_of(sitting, [*after[:at], Choice(choice.task, way), *after[at + 1 :]])
                assert other[:2] > cost[:2]


def test_a_plan_whose_ties_there_was_no_time_for_takes_the_exact_of_two_trains_of_as_many_wheels(monkeypatch):
    # By hand: 110-95-20-105 and 35-75-60-127 share nothing with 40-80-50-65, and both have four wheels.
    near, exact, other = (standing(read_train(each)) for each in ("110-95-20-105", "35-75-60-127", "40-80-50-65"))
    first = Task(Machine.LATHE, (Way(exact, Fraction(0), 0), Way(near, Fraction(358, 10**6), 1)))
    sitting = Sitting((Task(Machine.LATHE, (Way(other, Fraction(0), 0),), frozenset({1})), first))
    hurried = Found((Choice(1, first.ways[1]), Choice(0, sitting.tasks[0].ways[0])), 12, 12, ties_settled=False)
    monkeypatch.setattr("solver.jobs.planning.best_plan", lambda *_words, **_named: hurried)
    found = plan(sitting)
    assert [choice.way.wheels for choice in found.choices] == [exact, other]
    assert (found.handled, found.ties_settled) == (12, False)


def test_a_sitting_of_parts_that_stand_by_themselves_needs_no_constraint_solver(monkeypatch):
    monkeypatch.setattr("solver.jobs.planning.load", pytest.fail)
    turned = Way(standing(read_train("35-75-60-127")), Fraction(0), 0)
    geared = Way(frozenset({Standing(20, "head, work spindle", 0, 64)}), Fraction(0), 0, ("A", 1))
    found = plan(Sitting((Task(Machine.LATHE, (turned,)), Task(Machine.HEAD, (geared,)))))
    assert (found.handled, found.bound, found.faces, found.ties_settled) == (5, 5, 1, True)


def test_the_same_sitting_gives_the_same_plan():
    some = [[f"{a}-{b}" for b in (60, 80, 100)] for a in (20, 30, 40, 50)]
    tasks = tuple(
        Task(Machine.LATHE, tuple(Way(standing(read_train(each)), Fraction(0), at) for at, each in enumerate(row)))
        for row in some
    )
    first, second = plan(Sitting(tasks)), plan(Sitting(tasks))
    assert first == second
    # Of all the orders that handle as few wheels, that of the file.
    assert [choice.task for choice in first.choices] == [0, 1, 2, 3]


def test_tasks_that_wait_in_a_ring_have_no_order():
    way = Way(frozenset(), Fraction(0), 0)
    tasks = (Task(Machine.LATHE, (way,), frozenset({1})), Task(Machine.LATHE, (way,), frozenset({0})))
    with pytest.raises(ValueError, match="wait for one another"):
        Sitting(tasks).all_before()


@settings(max_examples=80, derandomize=True, deadline=None, database=None)
@given(lathes(most=5), leads(), st.sampled_from((Fraction(1, 1000), Fraction(1, 20), Fraction(1, 2))))
def test_the_set_ups_of_a_turned_part_are_all_placings_within_the_tolerance_that_go_on(lathe, lead, within):
    found = lathe_ways(lathe, lead, within=within)
    assert found.is_whole
    mounter = Mounter(lathe)
    expected = set()
    for pairs in (1, 2):
        for train in _every_train(lathe, pairs):
            near = [lever for lever, _ in lathe.lever_ratios if abs(_error(lathe, train, lever, lead)) <= within]
            mounting = mounter.mount(train) if near else None
            if mounting and mounting.verdict in (Verdict.FITS, Verdict.NOT_CHECKED):
                expected |= {(train, lever, len(mounting.idlers)) for lever in near}
    if expected:
        assert {(each.train, each.lever, len(each.idlers)) for each in found.set_ups} == expected
    for rank, each in enumerate(found.set_ups[:20]):
        answer = found.answer(rank, lathe)
        assert answer.fits
        assert answer.train == each.train
        assert abs(answer.error.relative) <= within


@settings(max_examples=20, derandomize=True, deadline=None, database=None)
@given(lathes(most=5), st.lists(leads(), min_size=2, max_size=3, unique=True), st.booleans())
def test_a_few_threads_on_a_small_lathe_handle_no_more_wheels_than_every_order_of_every_set_up(lathe, wanted, is_bound):
    found = [lathe_ways(lathe, lead, within=Fraction(1, 10)) for lead in wanted]
    assume(all(each.set_ups for each in found))
    # Each part waits for the one below it in the file, or for none.
    after = [frozenset({at + 1} if is_bound and at + 1 < len(found) else ()) for at in range(len(found))]
    rows = [Task(Machine.LATHE, each.ways(), waits) for each, waits in zip(found, after, strict=True)]
    sitting = Sitting(tuple(rows))
    best = plan(sitting)
    assert best.is_proven
    assert best.handled == cheapest_in_any_order(sitting)
    answers = [found[task].answer(way.rank, lathe) for task, way in best.choices]
    for answer, (_, way) in zip(answers, best.choices, strict=True):
        assert answer.fits
        assert standing(answer.train, answer.idlers) == way.wheels


def _every_train(lathe, pairs):
    from itertools import combinations

    from solver.trains.mounting import keeps_to_pair_places

    box = [
        (at, teeth) for at, each in enumerate(lathe.wheel_classes) for teeth, count in each.stock for _ in range(count)
    ]
    seen = set()
    for wheels in set(combinations(sorted(box), 2 * pairs)):
        for drivers in set(combinations(wheels, pairs)):
            driven = list(wheels)
            for each in drivers:
                driven.remove(each)
            for train in placings(drivers, driven):
                if keeps_to_pair_places(train, lathe):
                    seen.add(train)
    return seen


def _error(lathe, train, lever, lead):
    from solver.trains.lead_error import lead_error

    return lead_error(lathe.lead_at_equal_wheels * (train.ratio * dict(lathe.lever_ratios)[lever]), lead).relative


@given(
    st.permutations((20, 30, 40, 50, 60, 80)),
    st.permutations((20, 30, 40, 50, 60, 80)),
    st.integers(1, 3),
    st.integers(1, 3),
)
def test_wheels_at_their_places_are_counted_as_the_changes_of_one_train_are(one, other, pairs, others):
    first = read_train("-".join(map(str, one[: 2 * pairs])))
    second = read_train("-".join(map(str, other[: 2 * others])))
    assert len(standing(first) ^ standing(second)) == handled(changes(first, second))


def test_a_box_with_a_thousand_set_ups_keeps_those_of_least_error():
    box = WheelClass("module 1", Length.of_mm(1), tuple((teeth, 2) for teeth in range(20, 60)))
    lathe = Lathe("rich", "3 mm", Length.of_mm(3), Fraction(1), has_reverse=True, wheel_classes=(box,))
    found = lathe_ways(lathe, Length.of_mm("1.5"), within=Fraction(1, 100), most=300)
    assert not found.is_whole
    assert len(found.set_ups) == 300
    assert all(each.error == 0 for each in found.set_ups)
