"""Compound settings against every pair of holes tried one by one."""

from __future__ import annotations

from bisect import bisect
from fractions import Fraction
from functools import cache
from itertools import permutations
from math import gcd

from hypothesis import example, given
from hypothesis import strategies as st

from gearsets.head_files import find_head
from solver.dividing.choosing import choose
from solver.dividing.compound import MOST_AT_ONCE, can_compound, compound
from solver.dividing.divide import exact_settings
from solver.dividing.heads import Head, Plate
from solver.dividing.moves import Method
from solver.refusals import ImpossibleSettingError
from tests.drawn_cases import cases
from tests.head_strategies import heads


@cache
def sums_of_holes(first: int, second: int, *, forwards: bool) -> list[int]:
    """Add every two holes, the second motion forwards, or either way, in parts of one over both circles; sorted."""
    others = range(1, second) if forwards else (*range(1, second), *range(1 - second, 0))
    return sorted({one * second + other * first for one in range(1, first) for other in others})


def every_pair_of_holes(head: Head, crank: Fraction) -> dict[bool, Fraction]:
    """Try every two holes of every face, each way round; least error of the crank forwards only, and either way."""
    least: dict[bool, Fraction] = {}
    for first, second in {pair for _, _, face in head.faces() for pair in permutations(face, 2)}:
        unit = first * second
        wanted = crank * unit
        for forwards in (False, True):
            sums = sums_of_holes(first, second, forwards=forwards)
            # Two holes make less than two turns, and more than one turn backwards.
            for turns in range(max(0, int(crank) - 2), int(crank) + 3):
                at = bisect(sums, wanted - turns * unit)
                for total in sums[max(0, at - 1) : at + 1]:
                    error = abs(turns * unit + total - wanted) / unit
                    if 2 * error < crank and (forwards not in least or error < least[forwards]):
                        least[forwards] = error
    return least


@given(heads(geared=False), st.integers(1, 400))
@cases(50)
def test_no_pair_of_holes_is_nearer_than_the_first_answer(head, count):
    crank = head.worm_ratio / count
    slow = every_pair_of_holes(head, crank)
    try:
        answers = compound(head, Fraction(1, count), at_once=1)
    except ImpossibleSettingError:
        assert slow == {}
        return
    assert abs(answers[0].error_per_move.turns) * head.worm_ratio == slow[False]
    forwards = [answer for answer in answers if not answer.runs_both_ways]
    if True in slow and slow[True] == slow[False]:
        assert forwards[0] == answers[0]
        assert forwards[0].is_exact == (slow[True] == 0)


@given(heads(geared=False), st.integers(2, 300))
@cases(10)
def test_several_divisions_at_a_time_are_searched_as_far_as_is_said(head, count):
    try:
        answers = compound(head, Fraction(1, count))
    except ImpossibleSettingError:
        return
    steps = [step for step in range(1, MOST_AT_ONCE + 1) if step == 1 or (step < count and gcd(step, count) == 1)]
    least = min(
        error / head.worm_ratio
        for step in steps
        for error in every_pair_of_holes(head, step * head.worm_ratio / count).values()
    )
    assert abs(answers[0].error_per_move.turns) == least
    assert {answer.at_once for answer in answers} <= set(steps)


@given(heads(geared=False), st.integers(1, 400))
@cases(50)
def test_every_answer_keeps_to_one_face_and_tells_its_sum(head, count):
    faces = {(plate, face): set(circles) for plate, face, circles in head.faces()}
    try:
        answers = compound(head, Fraction(1, count))
    except ImpossibleSettingError:
        return
    for answer in answers:
        first, second = answer.moves
        assert {first.circle, second.circle} <= faces[answer.plate, answer.face or 1]
        assert first.circle != second.circle
        assert 0 < first.spaces < first.circle
        assert 0 < second.spaces < second.circle
        assert (first.sign, second.turns) == (1, 0)
        total = (
            first.turns + Fraction(first.spaces, first.circle) + Fraction(second.sign * second.spaces, second.circle)
        )
        assert answer.reached * head.worm_ratio == total
        assert answer.wanted == Fraction(answer.at_once, count)


@given(heads(geared=False), st.integers(1, 400))
@example(Head("drawn", Fraction(81, 2), (Plate("A", ((15, 25),)),)), 15)
@cases(50)
def test_the_quick_word_on_exactness_is_the_search_s_own(head, count):
    part = Fraction(1, count)
    try:
        exact = compound(head, part)[0].is_exact
    except ImpossibleSettingError:
        exact = False
    assert can_compound(head, part) == exact


def test_exact_settings_hide_the_inexact_and_forwards_come_before_backwards_among_equals():
    head = Head("40:1", Fraction(40), (Plate("B", ((21, 23, 27, 29, 31, 33),)),))
    answers = compound(head, Fraction(1, 69))
    assert {answer.is_exact for answer in answers} == {True}
    keys = [(answer.at_once, answer.runs_both_ways) for answer in answers]
    assert keys == sorted(keys)


def test_compound_never_stands_in_for_plain_where_two_real_motions_are_needed():
    head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),))
    assert exact_settings(head, Fraction(1, 50))
    for answer in compound(head, Fraction(1, 50)):
        assert all(move.spaces for move in answer.moves)


@given(heads(geared=False), st.integers(11, 120))
@cases(25)
def test_no_step_longer_than_those_looked_at_is_exact_on_a_whole_worm_ratio_and_it_is_said_where_one_may_be_nearer(
    head, count
):
    (report,) = choose(head, Fraction(1, count), methods=(Method.COMPOUND,)).methods
    longer = [step for step in range(MOST_AT_ONCE + 1, count) if gcd(step, count) == 1]
    if not report.answers or report.is_exact:
        assert report.most_at_once is None
        return
    assert report.most_at_once == MOST_AT_ONCE
    assert longer
    if head.worm_ratio.denominator == 1:
        for step in (*longer[:5], *longer[-5:]):
            # Exactness hangs on the denominator of the crank's turns, which a step prime to the count leaves alone.
            assert not any(answer.is_exact for answer in compound(head, Fraction(1, count), at_once=step))


def test_a_longer_step_that_is_nearer_is_found_when_it_is_asked_for():
    head = find_head("head-40-three-plates")
    usual, longer = compound(head, Fraction(1, 127)), compound(head, Fraction(1, 127), at_once=48)
    errors = [abs(answers[0].error_per_move.turns) for answers in (usual, longer)]
    assert errors[1] < errors[0]
    assert {answer.at_once for answer in longer} == {48}
