"""Every setting carried out on the simulated head, motion by motion to the last: the work lands where it is said."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from math import gcd

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from gearsets.head_files import find_head
from solver.dividing.choosing import choose, exact_methods
from solver.dividing.compound import compound
from solver.dividing.heads import Head
from solver.dividing.index_audit import audit_move
from solver.dividing.moves import IndexAnswer, Method
from solver.dividing.positions import best_circle, positions
from solver.dividing.skipping import order_of_marks
from solver.dividing.table_dial import dial_table
from solver.dividing.two_cranks import two_crank_settings
from solver.quantities.angles import Angle
from solver.refusals import ImpossibleSettingError
from tests.drawn_cases import cases, in_proportion
from tests.head_strategies import heads, wide_heads
from tests.simulated_head import carry_out, carry_out_cranks, turn_by_dial, walk

EVERY_METHOD = tuple(Method)


def check_by_hand(answer: IndexAnswer, head: Head) -> None:
    rule = head.one_idler_follows is not False
    number, step, place = 0, 0, 0
    for hand in carry_out(answer, head.worm_ratio, one_idler_follows=rule):
        number += 1
        if number == 1:
            # What one move is said to make, in the parts that this head is counted in.
            said = answer.reached * hand.unit
            assert said.denominator == 1
            step = said.numerator
            assert (said == answer.wanted * hand.unit) == answer.is_exact
        place += step
        assert hand.work == place
    assert number == answer.moves_to_close
    assert Fraction(hand.work, hand.unit) - answer.wanted.numerator == answer.error_at_closure.turns
    if answer.gearing is not None:
        assert hand.plate == answer.gearing.plate_turns * hand.work
    if answer.method is not Method.DIRECT and answer.move.circle:
        hole = Fraction((hand.crank - hand.plate) * answer.move.circle, hand.unit) % answer.move.circle
        assert (hole, answer.move.circle) == answer.holes_at_closure[0]
    if answer.second is not None and answer.second.circle:
        stop = Fraction(hand.plate * answer.second.circle, hand.unit) % answer.second.circle
        assert (stop, answer.second.circle) == answer.holes_at_closure[1]


def best_of_each(head: Head, part: Fraction, at_once: int | None = None) -> list[IndexAnswer]:
    return [
        answer
        for report in choose(head, part, methods=EVERY_METHOD, at_once=at_once).methods
        for answer in report.leading(2)
    ]


def carried(head: Head, part: Fraction, tally: Counter[str], at_once: int | None = None) -> None:
    for answer in best_of_each(head, part, at_once):
        check_by_hand(answer, head)
        tally[answer.method.value] += 1
        tally["compound exact"] += answer.second is not None and answer.is_exact
        tally["two pairs"] += answer.gearing is not None and len(answer.gearing.train.pairs) == 2


def test_thousands_of_counts_on_drawn_heads_land_where_it_is_said_by_every_method():
    tally: Counter[str] = Counter()
    counts = st.one_of(st.integers(1, 400), st.integers(1, 400), st.sampled_from((2, 3, 4, 6, 8, 9, 12, 18, 24, 36)))

    @given(heads(), st.sets(counts, min_size=24, max_size=30))
    @cases(60)
    def every_method(head, counts):
        for count in counts:
            carried(head, Fraction(1, count), tally)

    every_method()
    assert sum(tally[each.value] for each in Method) > in_proportion(4000)
    assert min(tally.values()) > in_proportion(10)
    assert {each.value for each in Method} < set(tally)


def test_thousands_of_angles_on_drawn_heads_land_where_it_is_said_by_every_method():
    tally: Counter[str] = Counter()
    parts = st.fractions(min_value=Fraction(1, 300), max_value=1, max_denominator=300)

    @given(heads(), st.sets(parts, min_size=12, max_size=16))
    @cases(40)
    def every_method(head, angles):
        for part in angles:
            carried(head, part, tally)

    every_method()
    assert sum(tally[each.value] for each in Method) > in_proportion(1000)


def test_skipped_rounds_on_drawn_heads_meet_every_mark_in_the_order_given():
    tally: Counter[str] = Counter()

    @given(heads(), st.sets(st.tuples(st.integers(3, 200), st.integers(2, 40)), min_size=12, max_size=16))
    @cases(40)
    def every_method(head, asked):
        rule = head.one_idler_follows is not False
        for count, step in asked:
            if step >= count or gcd(step, count) > 1:
                continue
            for answer in best_of_each(head, Fraction(1, count), at_once=step):
                assert answer.at_once == step
                check_by_hand(answer, head)
                tally[answer.method.value] += 1
                if answer.is_exact:
                    met = [
                        Fraction(hand.work * count, hand.unit) % count
                        for hand in carry_out(answer, head.worm_ratio, one_idler_follows=rule)
                    ]
                    assert [0, *met[:-1]] == list(order_of_marks(count, step))
                    assert sorted(met) == list(range(count))

    every_method()
    assert tally.total() > in_proportion(500)


@given(heads(geared=False), st.integers(1, 250))
@cases(60)
def test_a_table_of_positions_walked_hole_by_hole_lands_where_it_is_said(head, count):
    part = Fraction(1, count)
    _, circle = best_circle(head, part, count)
    rows = tuple(positions(head, part, count, circle))
    for row, hand in zip(rows, walk(rows, head.worm_ratio, circle), strict=True):
        assert (
            Fraction(hand.work, hand.unit) == row.exact.turns + row.error.turns == row.number * part + row.error.turns
        )


@given(st.sampled_from((36, 40, 72, 90, 120)), st.integers(1, 250), st.sampled_from((10, 60, 300)))
@cases(60)
def test_a_table_turned_by_its_dial_lands_where_it_is_said(ratio, count, seconds):
    head = Head("table", Fraction(ratio), ())
    division = Angle(Fraction(seconds, 1_296_000))
    rows = dial_table(head, Fraction(1, count), count, division).rows
    divisions = 1 / (ratio * division.turns)
    for row, hand in zip(rows, turn_by_dial(rows, head.worm_ratio, int(divisions)), strict=True):
        assert Fraction(hand.work, hand.unit) == Fraction(row.number, count) + row.error.turns
    assert hand.work == hand.unit


@given(wide_heads(), st.sets(st.integers(1, 400), min_size=8, max_size=10))
@cases(40)
def test_both_cranks_turned_by_hand_land_where_it_is_said(head, counts):
    assert head.small_crank
    for count in counts:
        try:
            found = two_crank_settings(head, Fraction(1, count))
        except ImpossibleSettingError:
            continue
        for setting in found:
            number = 0
            for hand in carry_out_cranks(setting, head.worm_ratio, head.small_crank):
                number += 1
                assert hand.work == number * setting.reached * hand.unit
            assert number == count
            assert Fraction(hand.work, hand.unit) - 1 == setting.error_at_closure.turns


@pytest.mark.parametrize("name", ["head-40-three-plates", "head-40-two-faced", "head-60", "head-40-100"])
@pytest.mark.parametrize("start", [3, 53, 103, 203])
def test_the_best_of_each_method_on_a_usual_head_lands_where_it_is_said(name, start):
    head = find_head(name)
    for count in range(start, start + 50, 5):
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
    assert Fraction(hand.plate, hand.work) == -answer.gearing.plate_turns
    assert hand.work != hand.unit


@given(heads(), st.integers(1, 300))
@cases(100)
def test_the_exact_methods_are_those_whose_best_setting_is_exact(head, count):
    asked = choose(head, Fraction(1, count), methods=EVERY_METHOD)
    exact = [report.method for report in asked.methods if report.is_exact and report.method is not Method.NEAREST]
    assert list(exact_methods(head, count)) == exact
    choice = choose(head, Fraction(1, count))
    assert list(exact_methods(head, count))[:1] == ([choice.methods[0].method] if choice.is_exact else [])


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


SECOND, MINUTE = Fraction(1, 1_296_000), Fraction(1, 21_600)


# No check against the world: a shop head is commonly said to hold about a minute of arc, and no second of one.
@pytest.mark.parametrize(("head_name", "count"), [("head-4000", 51), ("head-40-three-plates", 383)])
def test_errors_that_no_head_holds_do_not_bring_several_divisions_to_the_front(head_name, count):
    part = Fraction(1, count)
    head = find_head(head_name)
    (report,) = choose(head, part, methods=(Method.COMPOUND,)).methods
    first, least = report.answers[0], report.nearest
    assert first.at_once == 1 < least.at_once
    assert abs(least.error_per_move.turns) < abs(first.error_per_move.turns) < SECOND
    assert abs(first.error_at_closure.turns) < MINUTE
    assert {first, least} <= set(report.leading(5))


@given(heads(geared=False), st.integers(2, 400))
@cases(20)
def test_no_inexact_setting_is_lost_and_what_a_head_holds_comes_first(head, count):
    (report,) = choose(head, Fraction(1, count), methods=(Method.COMPOUND,)).methods
    assume(report.answers)
    by_error = compound(head, Fraction(1, count))
    assert Counter(report.answers) == Counter(by_error)
    assert report.nearest.error_per_move in (by_error[0].error_per_move, by_error[0].error_per_move * -1)
    if by_error[0].is_exact:
        assert report.answers == by_error
        return
    held = [
        abs(each.error_per_move.turns) < SECOND and abs(each.error_at_closure.turns) < MINUTE for each in report.answers
    ]
    assert held == sorted(held, reverse=True)
    divisions = [each.at_once for each, is_held in zip(report.answers, held, strict=True) if is_held]
    assert divisions == sorted(divisions)
    others = [abs(each.error_per_move.turns) for each, is_held in zip(report.answers, held, strict=True) if not is_held]
    assert others == sorted(others)


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
