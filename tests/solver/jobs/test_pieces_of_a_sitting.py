"""The small pieces of a sitting, each by a case small enough to be worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.jobs.handling import Choice, Handling, carried_out, face_changes
from solver.jobs.mending import in_file_order, more_exact, nothing_is_better, worth
from solver.jobs.pieces import bound_by_pairs, in_pieces, merged, nearest_next
from solver.jobs.rounds import Arc, Round, whole_round
from solver.jobs.tasks import Sitting, Way, least_alike, wheels_between
from tests.small_sittings import A1, A2, EXACT, HEAD, LATHE, at, in_time, task, tasks_of, way


def test_the_wheels_lent_are_those_that_the_machine_does_not_need_next_and_no_more_than_lack():
    # Four wheels of 20 and one of 30; the lathe holds three and the one, and a 20 of another size that is no use.
    mounted = frozenset({at(0, 20), at(1, 20), at(2, 20), at(3, 30), at(4, 20, 1)})
    head = Way(frozenset({at(50, 20), at(51, 20), at(52, 30)}), EXACT, 0)
    next_one, last = way(20, 20), way(0, 20, 20)
    sitting = Sitting((task(head, machine=HEAD), task(next_one), task(last)), mounted, ((20, 4), (30, 1)))
    rows = carried_out(sitting, [Choice(0, head), Choice(1, next_one), Choice(2, last)])
    assert rows == (
        Handling((), (at(50, 20), at(51, 20), at(52, 30)), (at(2, 20), at(3, 30)), None),
        Handling((at(4, 20, 1),), (), (), None),
        Handling((at(0, 20),), (at(2, 20),), (), None),
    )
    assert [row.wheels for row in rows] == [5, 1, 2]


@pytest.mark.parametrize(("twenties", "lent"), [(5, ()), (4, ()), (3, ()), (2, (at(50, 20),))])
def test_wheels_of_another_size_are_neither_lent_nor_missed(twenties, lent):
    head = Way(frozenset({at(50, 20), at(51, 20, 1)}), EXACT, 0)
    turned = Way(frozenset({at(0, 20), at(1, 20), at(2, 20, 1)}), EXACT, 0)
    sitting = Sitting((task(head, machine=HEAD), task(turned)), shared=((20, twenties),))
    rows = carried_out(sitting, [Choice(0, head), Choice(1, turned)])
    assert rows[1] == Handling((), (at(0, 20), at(1, 20), at(2, 20, 1)), lent, None)


def test_without_a_shared_box_nothing_is_lent():
    head, turned = Way(frozenset({at(50, 20)}), EXACT, 0), way(20)
    sitting = Sitting((task(head, machine=HEAD), task(turned)))
    assert [row.lent for row in carried_out(sitting, [Choice(0, head), Choice(1, turned)])] == [(), ()]


def test_a_face_is_put_on_when_another_is_outward_and_stays_while_none_is_asked_for():
    ways = [way(face=face) for face in (A1, None, A1, A2, A1)]
    sitting = Sitting(tuple(task(each, machine=HEAD) for each in ways))
    rows = carried_out(sitting, [Choice(number, each) for number, each in enumerate(ways)])
    assert [row.face for row in rows] == [A1, None, None, A2, A1]
    assert face_changes(rows) == 3
    assert worth(sitting, in_file_order(sitting)) == (0, 3, 0)


def test_of_ways_alike_the_one_of_least_error_stays_then_the_mildest():
    kept = least_alike(
        (
            way(20, error=2, rank=9), way(20, error=1, rank=8), way(20, error=1, rank=7), way(20, error=1, rank=10),
            way(20, error=3, rank=1, face=A1), way(30, error=5, rank=2),
        )
    )  # fmt: skip
    assert [each.rank for each in kept] == [1, 2, 7]


def test_tasks_that_come_before_are_all_named_whatever_the_order_of_the_file():
    after = [{1, 3}, set(), {0}, {1}]
    sitting = Sitting(tuple(task(way(20), after=each) for each in after))
    assert sitting.all_before() == ({1, 3}, set(), {0, 1, 3}, {1})


def test_the_machines_are_told_apart():
    sitting = Sitting((task(way()), task(way(), machine=HEAD), task(way())), frozenset({at(0, 20)}))
    assert (sitting.numbers_at(LATHE), sitting.numbers_at(HEAD)) == ((0, 2), (1,))
    assert (sitting.start_at(LATHE), sitting.start_at(HEAD)) == ({at(0, 20)}, frozenset())
    assert wheels_between(way(20, 30).wheels, way(20, 40, 50).wheels) == 3


def test_a_whole_round_joins_every_way_with_those_of_the_other_tasks_and_with_the_start_and_the_end():
    ways = (way(20, rank=0), way(20, 30, rank=1)), (way(40, rank=0),)
    sitting = Sitting(tuple(task(*each) for each in ways), frozenset({at(0, 20)}))
    found = whole_round(sitting, LATHE)
    assert found == Round(
        ways,
        (
            Arc(None, (0, 0), 0), Arc((0, 0), None, 0), Arc((0, 0), (1, 0), 2),
            Arc(None, (0, 1), 1), Arc((0, 1), None, 0), Arc((0, 1), (1, 0), 3),
            Arc(None, (1, 0), 2), Arc((1, 0), None, 0), Arc((1, 0), (0, 0), 2), Arc((1, 0), (0, 1), 3),
        ),
        is_whole=True,
    )  # fmt: skip
    assert whole_round(sitting, HEAD) == Round((), ())


def test_the_order_of_the_file_waits_where_it_must_and_takes_the_first_way():
    first, other = way(20, rank=0), way(30, rank=1)
    sitting = Sitting((task(first, other, after={2}), task(other, first), task(first)))
    assert in_file_order(sitting) == (Choice(1, other), Choice(2, first), Choice(0, first))


ONE = Sitting((task(way(20, error=1, rank=3), way(20, error=0, rank=5, face=A1), machine=HEAD),))
#: Wheels and errors are the same here, and so the rank decides.
TWO = Sitting((task(way(20, rank=4), way(30, rank=6)), task(way(20, rank=4), way(30, rank=6))))
FACED = Sitting((task(way(face=A1), way(face=A2), machine=HEAD), task(way(face=A1), machine=HEAD)))


@pytest.mark.parametrize(
    ("sitting", "plan", "least", "is_best"),
    [
        (TWO, [(0, 0), (1, 0)], 1, True),
        (TWO, [(0, 0), (1, 0)], 0, False),
        (TWO, [(0, 0), (1, 0)], 2, False),
        (TWO, [(1, 0), (0, 0)], 1, False),
        (TWO, [(0, 1), (1, 1)], 1, False),
        (TWO, [(0, 0), (1, 1)], 3, False),
        # The exact way asks for a face, and the other for none.
        (ONE, [(0, 0)], 1, False),
        (ONE, [(0, 1)], 1, False),
        (FACED, [(0, 0), (1, 0)], 0, True),
        (FACED, [(0, 1), (1, 0)], 0, False),
    ],
)
def test_a_plan_is_plainly_the_best_only_if_nothing_at_all_could_be_better(sitting, plan, least, is_best):
    choices = [Choice(number, sitting.tasks[number].ways[which]) for number, which in plan]
    assert nothing_is_better(sitting, choices, least) is is_best


def exact_ways(sitting, *ways, **told):
    """The ranks taken when the plan in the order of the file by these ways is made more exact."""
    choices = [Choice(number, sitting.tasks[number].ways[which]) for number, which in enumerate(ways)]
    return [each.way.rank for each in more_exact(sitting, choices, **told)]


def test_a_more_exact_way_is_taken_where_the_wheels_round_it_stay_as_few():
    # From 20 through 30-40 and back to 20: 30-40 is four wheels, 30 two, 60 two as well, 20 none.
    coarse, fine, finer, finest = way(30, error=9), way(60, error=4, rank=1), way(70, error=4, rank=2), way(
        30, 40, error=1, rank=3
    )  # fmt: skip
    middle = task(coarse, finest, finer, fine)
    sitting = Sitting((task(way(20)), middle, task(way(20))))
    assert exact_ways(sitting, 0, 0, 0) == [0, 1, 0]
    # What is already as exact is left alone, though milder.
    assert exact_ways(sitting, 0, 2, 0) == [0, 2, 0]
    # With 30-40 before it the finest is no dearer.
    before = Sitting((task(way(30, 40)), middle, task(way(20))))
    assert exact_ways(before, 0, 0, 0) == [0, 3, 0]


def test_the_most_exact_of_ways_that_cost_no_more_is_taken_and_one_as_exact_is_not():
    # Between 20 and 20 any other wheel is four, and 20 none.
    coarse, fine, mild = way(30, error=9), way(40, error=1, rank=1), way(20, error=4, rank=2)
    sitting = Sitting((task(way(20)), task(coarse, fine, mild), task(way(20))))
    assert exact_ways(sitting, 0, 0, 0) == [0, 1, 0]
    alike = Sitting((task(way(20)), task(way(30, error=4), way(20, error=4, rank=1)), task(way(20))))
    assert exact_ways(alike, 0, 0, 0) == [0, 0, 0]


def test_only_the_neighbours_at_the_same_machine_count():
    turned = task(way(30, error=9), way(20, error=1, rank=1))
    apart = task(Way(frozenset({at(50, 30)}), EXACT, 0), machine=HEAD)
    # 20 before and 20 after it on the lathe, the head in between and 30 further on.
    sitting = Sitting((task(way(20)), apart, turned, apart, task(way(20)), task(way(30))))
    assert exact_ways(sitting, 0, 0, 0, 0, 0, 0) == [0, 0, 1, 0, 0, 0]
    # Nor does what comes after the next: 30 and 20 both handle two wheels between 20 and 30.
    between = Sitting((task(way(20)), turned, task(way(30)), task(way(30))))
    assert exact_ways(between, 0, 0, 0, 0) == [0, 1, 0, 0]
    # What stands at the beginning is the neighbour of the first.
    first = Sitting((turned,), frozenset({at(0, 20)}))
    assert exact_ways(first, 0) == [1]
    assert exact_ways(first._replace(mounted=frozenset({at(0, 30)})), 0) == [0]
    # The head begins bare, whatever stands on the lathe.
    bare = Sitting((turned._replace(machine=HEAD), task(way(30), machine=HEAD)), frozenset({at(0, 20)}))
    assert exact_ways(bare, 0, 0) == [0, 0]


def test_one_way_made_exact_may_let_the_one_before_it_follow_in_the_next_round():
    # The first may only become 50 when the second is: 20 30, 20 40, 50 40.
    first = task(way(20, error=9), way(50, error=1, rank=1))
    second = task(way(20, error=9), way(50, error=1, rank=1))
    sitting = Sitting((first, second, task(way(50))))
    # 20 20 50 is 1 + 0 + 2; 20 50 50 is 1 + 2 + 0; 50 50 50 is 1.
    assert exact_ways(sitting, 0, 0, 0) == [1, 1, 0]
    assert exact_ways(sitting, 0, 0, 0, is_over=lambda: True) == [0, 1, 0]
    rounds = iter([False, True])
    assert exact_ways(sitting, 0, 0, 0, is_over=lambda: next(rounds)) == [1, 1, 0]


def test_no_more_ways_are_tried_than_are_allowed(monkeypatch):
    # One box with a single 60: the most exact way would take it off the head, which needs it again.
    wheel = Way(frozenset({at(50, 60)}), EXACT, 0)
    turned = task(way(20, error=9), way(60, error=1, rank=1), way(30, error=2, rank=2))
    sitting = Sitting(
        (task(wheel, machine=HEAD), turned, task(wheel, machine=HEAD)), shared=((20, 1), (30, 1), (60, 1))
    )
    assert exact_ways(sitting, 0, 0, 0) == [0, 2, 0]
    monkeypatch.setattr("solver.jobs.mending.MOST_TRIED", 1)
    assert exact_ways(sitting, 0, 0, 0) == [0, 0, 0]


def test_the_nearest_next_is_by_wheels_then_error_then_the_file_then_rank():
    by_wheels = Sitting((task(way(20, 30)), task(way(20)), task(way(20, 30, 40))))
    assert tasks_of(nearest_next(by_wheels)) == [1, 0, 2]
    by_error = Sitting((task(way(20, error=2)), task(way(30, error=1))))
    assert tasks_of(nearest_next(by_error)) == [1, 0]
    by_file = Sitting((task(way(30, rank=7)), task(way(20, rank=1))))
    assert tasks_of(nearest_next(by_file)) == [0, 1]
    by_rank = Sitting((task(way(30, rank=7), way(20, rank=6)),))
    assert [choice.way.rank for choice in nearest_next(by_rank)] == [6]
    waits = Sitting((task(way(20), after={1}), task(way(20, 30))))
    assert tasks_of(nearest_next(waits)) == [1, 0]
    # Each machine goes on from what stands on itself.
    mixed = Sitting((task(way(20, 30)), task(way(40), machine=HEAD), task(way(20, 50), machine=HEAD)), way(20).wheels)
    assert tasks_of(nearest_next(mixed)) == [0, 1, 2]


def test_plans_of_two_machines_become_one_order_each_in_its_own_and_the_file_deciding():
    ways = way(20)
    sitting = Sitting((task(ways, machine=HEAD, after={3}), task(ways), task(ways, machine=HEAD), task(ways)))
    both = [[Choice(3, ways), Choice(1, ways)], [Choice(2, ways), Choice(0, ways)]]
    assert tasks_of(merged(sitting, both)) == [2, 3, 0, 1]
    assert merged(sitting, [[], both[0]]) == tuple(both[0])
    # The head would begin with what waits for the last of the lathe, which waits for the last of the head.
    crossed = Sitting(
        (task(ways, after={2}), task(ways), task(ways, machine=HEAD), task(ways, machine=HEAD, after={1}))
    )
    assert merged(crossed, [[Choice(0, ways), Choice(1, ways)], [Choice(3, ways), Choice(2, ways)]]) is None


def test_a_piece_planned_anew_is_taken_only_where_it_handles_fewer(monkeypatch):
    # From a bare lathe 40 is one wheel and first in the file, then 40-30 one, 20 three: five. By 20, 40, 40-30:
    # one, two, one: four.
    ways = [way(40), way(40, 30), way(20)]
    sitting = Sitting(tuple(task(each) for each in ways))
    assert tasks_of(nearest_next(sitting)) == [0, 1, 2]
    assert tasks_of(in_pieces(sitting, in_time)) == [2, 0, 1]
    assert tasks_of(in_pieces(sitting, lambda: 1)) == [2, 0, 1]
    assert tasks_of(in_pieces(sitting, lambda: 0)) == [0, 1, 2]
    # Time for two looks at the clock, and none for the walk.
    looks = iter((60, 60))
    assert tasks_of(in_pieces(sitting, lambda: next(looks, 0))) == [0, 1, 2]
    # 2 + 4 + 2 sets for eight groups of tasks.
    monkeypatch.setattr("solver.jobs.pieces.LARGEST_WALK", 64)
    assert tasks_of(in_pieces(sitting, in_time)) == [2, 0, 1]
    monkeypatch.setattr("solver.jobs.pieces.LARGEST_WALK", 63)
    assert tasks_of(in_pieces(sitting, in_time)) == [0, 1, 2]


def test_a_piece_that_would_break_the_order_asked_for_is_left_as_it_was():
    # On the lathe 20 first would save a wheel, but it waits for the head, which waits for 40.
    ways = [way(40), way(40, 30), way(20)]
    lathe = [task(ways[0]), task(ways[1]), task(ways[2], after={3})]
    sitting = Sitting((*lathe, task(way(), machine=HEAD, after={0})))
    assert tasks_of(in_pieces(sitting, in_time)) == [0, 3, 1, 2]


@pytest.mark.parametrize(("piece", "order"), [(2, [0, 1, 2, 3]), (3, [0, 3, 1, 2]), (4, [0, 3, 1, 2])])
def test_a_piece_begins_from_what_the_one_before_leaves_and_overlaps_it_by_half(monkeypatch, piece, order):
    # After 50 by 40, 40-30, 20: 2 + 1 + 3. By 20, 40, 40-30: 2 + 2 + 1. Two at a time nothing is saved.
    ways = [way(40), way(40, 30), way(20)]
    sitting = Sitting((task(way(50)), *(task(each, after={0}) for each in ways)))
    assert tasks_of(nearest_next(sitting)) == [0, 1, 2, 3]
    monkeypatch.setattr("solver.jobs.pieces.PIECE", piece)
    assert tasks_of(in_pieces(sitting, in_time)) == order


def test_a_piece_does_not_begin_from_a_bare_machine(monkeypatch):
    # After 60 in the third place 40 and 20-60-70 are two wheels each. By 40, 40-30, 20-60-70: 2 + 1 + 5; the last
    # first: 2 + 4 + 1. From a bare machine the former would be better, 7 to 8.
    sets = [way(40), way(40, 30), way(20, 0, 60, 70)]
    sitting = Sitting((task(way(0, 0, 60)), *(task(each, after={0}) for each in sets)))
    monkeypatch.setattr("solver.jobs.pieces.PIECE", 3)
    assert tasks_of(nearest_next(sitting)) == [0, 1, 2, 3]
    assert tasks_of(in_pieces(sitting, in_time)) == [0, 3, 1, 2]


def test_the_first_piece_begins_from_what_is_mounted():
    # From 40-30 by 40-30-60, 40-30-50, 20: 1 + 2 + 4; from a bare lathe 20 would come first at no greater cost.
    ways = [way(40, 30, 60), way(40, 30, 50), way(20)]
    mounted = Sitting(tuple(task(each) for each in ways), way(40, 30).wheels)
    assert tasks_of(in_pieces(mounted, in_time)) == [0, 1, 2]


def test_the_bound_by_pairs_is_the_shortest_round_over_the_nearest_ways():
    # By hand: from 20 to 20-30 one wheel, on to 40-30 two; the other ways of the second are farther.
    ways = (way(20, 30),), (way(40, 30), way(50, 60, 70))
    sitting = Sitting(tuple(task(*each) for each in ways), way(20).wheels)
    assert bound_by_pairs(sitting, LATHE, in_time) == 3
    assert bound_by_pairs(sitting, HEAD, in_time) == 0
    alike = Sitting((task(way(20)), task(way(30), way(20)), task(way(20, 30))))
    assert bound_by_pairs(alike, LATHE, in_time) == 2


def test_a_bound_has_the_seconds_that_are_left(monkeypatch):
    asked = []
    monkeypatch.setattr("solver.jobs.pieces.least_round", lambda tasks, _arcs, left: asked.append((tasks, left())) or 3)
    assert bound_by_pairs(Sitting((task(way(20)), task(way(30)))), LATHE, lambda: 7) == 3
    assert asked == [(2, 7)]


def test_too_many_pairs_of_ways_are_not_compared(monkeypatch):
    # Three ways: nine pairs, each counted from both ends.
    sitting = Sitting((task(way(20), way(30)), task(way(40))))
    monkeypatch.setattr("solver.jobs.pieces.MOST_COMPARED", Fraction(9, 2))
    assert bound_by_pairs(sitting, LATHE, in_time) == 3
    monkeypatch.setattr("solver.jobs.pieces.MOST_COMPARED", 4)
    assert bound_by_pairs(sitting, LATHE, in_time) == 0
