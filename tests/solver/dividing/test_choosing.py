"""What is chosen among settings: which of them are worth a look first, and what each method is asked."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.dividing.choosing import MethodReport, choose, exact_methods
from solver.dividing.compound import compound
from solver.dividing.heads import Head, Plate
from solver.dividing.moves import CrankMove, IndexAnswer, Method

PART = Fraction(1, 100)
#: Box and circles so small that all that is said of them can be worked out by hand.
GEARED = Head("geared", Fraction(40), (Plate("C", ((39, 49),)),), wheels=((24, 2), (44, 1), (56, 1)))
PAIR = Head("two circles", Fraction(40), (Plate("A", ((15, 16),)),), (24,))


def off_by(error: int, *, at_once: int = 1, back: bool = False) -> IndexAnswer:
    second = CrankMove(0, 1, 17, -1 if back else 1)
    reached = PART + Fraction(error, 10**6)
    return IndexAnswer(Method.COMPOUND, CrankMove(0, 1, 15), "A", PART, reached, 100, second, at_once=at_once)


def test_the_first_the_nearest_and_those_that_nothing_betters_lead_and_the_rest_follow_as_they_are_ranked():
    first = off_by(30)
    bettered = off_by(90)
    nearest = off_by(10, at_once=9)
    long_step, shorter_step = off_by(-15, at_once=7), off_by(20, at_once=5)
    both_ways = off_by(40, back=True)
    answers = (first, bettered, nearest, long_step, shorter_step, both_ways)
    report = MethodReport(Method.COMPOUND, answers)
    assert report.leading(1) == (first,)
    assert report.leading(2) == (first, nearest)
    assert report.leading(3) == (first, nearest, shorter_step)
    assert report.leading(4) == (first, nearest, long_step, shorter_step)
    assert report.leading(5) == (first, bettered, nearest, long_step, shorter_step)
    assert report.leading(6) == report.leading(9) == answers
    assert report.nearest is nearest


def test_of_settings_that_are_alike_in_all_three_the_first_alone_is_worth_a_look():
    first, bettered, alike = off_by(10), off_by(20), off_by(-10)
    assert MethodReport(Method.COMPOUND, (first, bettered, alike)).leading(2) == (first, bettered)


def test_a_setting_that_takes_up_no_play_is_worth_a_look_beside_a_nearer_one_that_does():
    first, bettered, forwards = off_by(10, back=True), off_by(15, back=True), off_by(20)
    assert MethodReport(Method.COMPOUND, (first, bettered, forwards)).leading(2) == (first, forwards)


@pytest.mark.parametrize("method", Method)
def test_three_divisions_at_a_time_are_asked_of_every_method_and_told(method):
    head = Head("all", Fraction(40), GEARED.plates, (24,), wheels=GEARED.wheels)
    # On 24 holes a move of three eighths is exact, as it is on the crank; nothing gears 3/8 here.
    choice = choose(head, Fraction(1, 8), methods=(method,), at_once=3)
    assert (choice.part, choice.at_once, choice.crank_turns, choice.circle_needed) == (Fraction(1, 8), 3, 15, 1)
    (report,) = choice.methods
    assert report.method is method
    for answer in report.answers:
        assert (answer.method, answer.at_once, answer.wanted) == (method, 3, Fraction(3, 8))
    assert bool(report.answers) == (method is not Method.DIFFERENTIAL)


def test_a_geared_setting_of_two_divisions_at_a_time_keeps_its_wheels_and_doubles_its_move():
    (single,) = choose(GEARED, Fraction(1, 127), methods=(Method.DIFFERENTIAL,)).methods
    (double,) = choose(GEARED, Fraction(1, 127), methods=(Method.DIFFERENTIAL,), at_once=2).methods
    assert (single.answers[0].move, double.answers[0].move) == (CrankMove(0, 13, 39), CrankMove(0, 26, 39))
    assert (single.answers[0].at_once, double.answers[0].at_once) == (1, 2)
    assert single.answers[0].gearing == double.answers[0].gearing


def test_nothing_but_direct_and_plain_is_looked_at_where_they_are_exact_unless_it_is_asked_for():
    part = Fraction(1, 24)
    assert [each.method for each in choose(PAIR, part).methods] == [Method.DIRECT, Method.PLAIN]
    assert [each.answers[0].method for each in choose(PAIR, part).methods] == [Method.DIRECT, Method.PLAIN]
    assert {each.method for each in choose(PAIR, part, methods=tuple(Method)).methods} == set(Method)
    assert choose(PAIR, part).at_once == 1
    assert choose(PAIR, part).crank_turns == Fraction(5, 3)


@pytest.mark.parametrize(
    ("part", "at_once", "most"),
    [
        (Fraction(1, 127), None, 9),
        # More than the one asked for is not looked at.
        (Fraction(1, 127), 1, None),
        # Seven has no step above six, and eleven has one above nine.
        (Fraction(1, 7), None, None),
        (Fraction(1, 11), None, 9),
        # Exact on 5/15 and 8/16, and an angle with no count of its own, exact in one way only.
        (Fraction(1, 48), None, None),
        (Fraction(11, 240), None, None),
    ],
)
def test_it_is_told_where_more_divisions_at_a_time_were_not_looked_at(part, at_once, most):
    (report,) = choose(PAIR, part, methods=(Method.COMPOUND,), at_once=at_once).methods
    assert report.answers
    assert report.most_at_once == most
    assert at_once is None or {each.at_once for each in report.answers} == {at_once}


SECOND, MINUTE = Fraction(1, 1_296_000), Fraction(1, 21_600)


def by_hand(answer: IndexAnswer) -> tuple[object, ...]:
    turned = sum(abs(move.value) for move in answer.moves)
    return answer.at_once, max(abs(answer.error_at_closure.turns), SECOND), answer.runs_both_ways, turned


# No check against the world: how near a head holds is common practice, and the order below is what the solver promises.
@pytest.mark.parametrize(("ratio", "count"), [(400, 7), (400, 131), (4000, 11)])
def test_what_a_head_holds_leads_by_ease_of_hand_and_the_rest_follow_by_error(ratio, count):
    head = Head("fine", Fraction(ratio), (Plate("A", ((37, 41, 43),)),))
    by_error = compound(head, Fraction(1, count))
    (report,) = choose(head, Fraction(1, count), methods=(Method.COMPOUND,)).methods
    is_held = {
        id(each): abs(each.error_per_move.turns) < SECOND and abs(each.error_at_closure.turns) < MINUTE
        for each in report.answers
    }
    held = [each for each in report.answers if is_held[id(each)]]
    others = [each for each in report.answers if not is_held[id(each)]]
    assert held
    assert report.answers == (*held, *others)
    assert list(map(by_hand, held)) == sorted(map(by_hand, held))
    assert others == [each for each in by_error if each in others]
    assert len(report.answers) == len(by_error)


def test_exact_methods_are_named_in_order_of_preference():
    geared = [list(exact_methods(GEARED, count)) for count in (8, 127, 83)]
    assert geared == [[Method.PLAIN], [Method.DIFFERENTIAL], []]
    pair = [list(exact_methods(PAIR, count)) for count in (8, 48)]
    assert pair == [[Method.DIRECT, Method.PLAIN], [Method.COMPOUND]]
