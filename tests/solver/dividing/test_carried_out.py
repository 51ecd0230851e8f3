"""Every setting carried out on the simulated head, motion by motion to the last: the work lands where it is said."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import gcd

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from gearsets.head_files import find_head
from solver.dividing.choosing import choose, first_exact_method
from solver.dividing.heads import Head
from solver.dividing.index_audit import audit_move
from solver.dividing.moves import IndexAnswer, Method
from solver.dividing.skipping import order_of_marks
from tests.drawn_cases import cases
from tests.head_strategies import heads
from tests.simulated_head import carry_out

EVERY_METHOD = tuple(Method)


def check_by_hand(answer: IndexAnswer, head: Head) -> None:
    rule = head.one_idler_follows is not False
    number = 0
    for number, hand in enumerate(carry_out(answer, head.worm_ratio, one_idler_follows=rule), start=1):
        assert hand.work == number * (answer.wanted + answer.error_per_move.turns)
        if answer.is_exact:
            assert hand.work == number * answer.wanted
    assert number == answer.moves_to_close
    assert hand.work - answer.wanted.numerator == answer.error_at_closure.turns
    if answer.gearing is not None:
        assert hand.plate == answer.gearing.plate_turns * hand.work
    if answer.method is not Method.DIRECT and answer.move.circle:
        hole = (hand.crank - hand.plate) * answer.move.circle % answer.move.circle
        assert (hole, answer.move.circle) == answer.holes_at_closure[0]
    if answer.second is not None and answer.second.circle:
        stop = hand.plate * answer.second.circle % answer.second.circle
        assert (stop, answer.second.circle) == answer.holes_at_closure[1]


def best_of_each(head: Head, part: Fraction, at_once: int | None = None) -> list[IndexAnswer]:
    return [
        answer
        for method in EVERY_METHOD
        for report in choose(head, part, methods=(method,), at_once=at_once).methods
        for answer in report.leading(2)
    ]


@given(heads(), st.integers(1, 300))
@cases(100)
def test_every_count_on_every_head_lands_where_it_is_said(head, count):
    for answer in best_of_each(head, Fraction(1, count)):
        check_by_hand(answer, head)


@given(heads(), st.fractions(min_value=Fraction(1, 300), max_value=1, max_denominator=300))
@cases(50)
def test_every_angle_lands_where_it_is_said(head, part):
    for answer in best_of_each(head, part):
        check_by_hand(answer, head)


@given(heads(), st.integers(3, 200), st.integers(2, 12))
@cases(50)
def test_a_skipped_round_meets_every_mark_in_the_order_given(head, count, step):
    assume(step < count and gcd(step, count) == 1)
    for answer in best_of_each(head, Fraction(1, count), at_once=step):
        assert answer.at_once == step
        check_by_hand(answer, head)
        if answer.is_exact:
            rule = head.one_idler_follows is not False
            met = [hand.work % 1 * count for hand in carry_out(answer, head.worm_ratio, one_idler_follows=rule)]
            assert [0, *met[:-1]] == list(order_of_marks(count, step))
            assert sorted(met) == list(range(count))


@pytest.mark.parametrize("start", range(3, 403, 50))
def test_the_best_of_each_method_on_a_usual_head_lands_where_it_is_said(start):
    head = find_head("head-40-three-plates")
    for count in range(start, start + 50, 2):
        for report in choose(head, Fraction(1, count)).methods:
            for answer in report.answers[:1]:
                check_by_hand(answer, head)


@given(heads(), st.integers(1, 300))
@cases(50)
def test_an_audit_of_a_setting_finds_the_count_it_was_made_for(head, count):
    for answer in best_of_each(head, Fraction(1, count)):
        if answer.method is Method.DIRECT:
            continue
        turns = answer.gearing.plate_turns if answer.gearing else Fraction(0)
        audit = audit_move(answer.move, head.worm_ratio, second=answer.second, plate_turns=turns)
        assert audit.divisions == 1 / answer.reached
        if answer.gearing is not None:
            assert audit.wheels_off * answer.at_once == answer.gearing.nominal
            assert audit.wheels_off != audit.divisions
        if abs(answer.error_per_move.turns) * count * 20 <= 1 and (answer.at_once > 1 or count > 1):
            assert audit.at_once(count) == answer.at_once
            assert audit.error_against(count)[0] == answer.error_per_move
            assert audit.marks_met(count) == count


def test_wheels_mounted_the_wrong_way_round_are_found_by_the_check_of_one_turn():
    head = find_head("head-40-three-plates")
    answer = choose(head, Fraction(1, 127)).methods[0].answers[0]
    assert answer.gearing
    wrong = replace(answer, gearing=answer.gearing._replace(idlers=answer.gearing.idlers[:1]))
    *_, hand = carry_out(wrong, head.worm_ratio)
    assert hand.plate / hand.work == -answer.gearing.plate_turns
    assert hand.work != 1


@given(heads(), st.integers(1, 300))
@cases(100)
def test_the_first_exact_method_is_the_first_of_the_choice(head, count):
    choice = choose(head, Fraction(1, count))
    first = choice.methods[0].method if choice.is_exact else None
    assert first_exact_method(head, count) is first


def test_direct_and_plain_stand_alone_where_they_are_exact():
    head = find_head("head-40-three-plates")
    for count in range(1, 401, 7):
        choice = choose(head, Fraction(1, count))
        methods = {report.method for report in choice.methods}
        if methods & {Method.DIRECT, Method.PLAIN} and choice.methods[0].method in (Method.DIRECT, Method.PLAIN):
            assert methods <= {Method.DIRECT, Method.PLAIN}
        else:
            assert methods == set(Method)
            exact = [report.is_exact for report in choice.methods]
            assert exact == sorted(exact, reverse=True)


def test_what_leads_is_kept_in_order_and_holds_the_best_and_the_simplest():
    head = find_head("head-40-three-plates")
    (report,) = choose(head, Fraction(1, 127), methods=(Method.COMPOUND,)).methods
    leading = report.leading(5)
    assert len(leading) == 5
    assert leading[0] == report.answers[0]
    places = [report.answers.index(answer) for answer in leading]
    assert places == sorted(places)
    assert 1 in {answer.at_once for answer in leading}
    assert any(answer.at_once == 1 and not answer.runs_both_ways for answer in leading)
