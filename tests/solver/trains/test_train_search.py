"""The search against the obvious slow way, over a few thousand small boxes of wheels."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import islice

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, PiLength
from solver.refusals import ImpossibleSettingError
from solver.trains.hand import Hand
from solver.trains.lathe import Banjo, Lathe
from solver.trains.mounting import Verdict, judge
from solver.trains.train_answer import TrainAnswer
from solver.trains.train_rules import broken_rules
from solver.trains.train_search import TrainQuestion, TrainReport, search_trains
from solver.trains.wheels import WheelClass
from tests.drawn_cases import cases
from tests.slow_answers import mountable, slow_matches
from tests.slow_banjo import can_be_mounted
from tests.strategies import lathes, leads

#: Different wheels in the box for so many pairs, so that the slow way stays bearable.
MOST_DIFFERENT = {1: 7, 2: 7, 3: 5}


@st.composite
def questions(draw: st.DrawFn) -> tuple[TrainQuestion, Lathe]:
    """Draw a question and the lathe it is put to."""
    pairs = draw(st.sampled_from((1, 2, 2, 2, 3)))
    lathe = draw(lathes(most=MOST_DIFFERENT[pairs]))
    within = draw(st.sampled_from([Fraction(1, part) for part in (2000, 1000, 300, 50, 10, 3)]))
    hand = draw(st.sampled_from(Hand))
    wanted = draw(st.integers(1, 4))
    return TrainQuestion(draw(leads()), hand, most_pairs=pairs, within=within, wanted=wanted), lathe


def with_pairs(answers: tuple[TrainAnswer, ...], pairs: int) -> list[TrainAnswer]:
    return [answer for answer in answers if len(answer.train.pairs) == pairs]


def size(answer: TrainAnswer) -> Fraction:
    return abs(answer.error.relative)


def slow_errors_that_go_on(question: TrainQuestion, lathe: Lathe, pairs: int) -> Iterator[Fraction]:
    """Yield by rising error those within the tolerance that the slow way can mount; no case for what is too close."""
    for match in slow_matches(lathe, question.lead, pairs):
        if match.error > question.within:
            return
        goes_on = mountable(match, lathe, question.hand)
        assume(goes_on is not None)
        if goes_on:
            yield match.error


def near(error: Fraction, answer: TrainAnswer) -> bool:
    """Say whether an error is the answer's, within the bound that a pi lead carries."""
    return abs(error - size(answer)) <= answer.error.bound + Fraction(1, 10**60)


@cases(700)
@given(questions())
def test_the_first_answer_that_goes_on_has_the_least_error_of_all_that_go_on(asked):
    question, lathe = asked
    report = search_trains(question, lathe)
    for pairs in range(1, question.most_pairs + 1):
        least = next(slow_errors_that_go_on(question, lathe, pairs), None)
        fitting = [answer for answer in with_pairs(report.answers, pairs) if answer.fits]
        if least is None:
            assert fitting == []
        else:
            assert near(least, fitting[0])


@cases(500)
@given(questions())
def test_what_is_nearer_than_the_first_answer_is_set_aside_and_nothing_is_lost(asked):
    question, lathe = asked
    report = search_trains(question, lathe)
    nearest_of_all = []
    for pairs in range(1, question.most_pairs + 1):
        matches = slow_matches(lathe, question.lead, pairs)
        inside = [match for match in matches if match.error <= question.within]
        shown = [*with_pairs(report.answers, pairs), *with_pairs(report.set_aside, pairs)]
        if inside:
            assert near(inside[0].error, min(shown, key=size)), "the nearest of so many pairs is shown somewhere"
        if matches:
            nearest_of_all.append(matches[0].error)
        if not matches:
            assert shown == []
    assert (report.nearest is None) == bool(report.answers or not nearest_of_all)
    if report.nearest is not None:
        assert near(min(nearest_of_all), min((report.nearest, *report.set_aside), key=size))
    assert not any(answer.fits for answer in report.set_aside)


@cases(400)
@given(questions())
def test_every_answer_keeps_the_rules_and_says_of_itself_what_the_slow_way_says(asked):
    question, lathe = asked
    report = search_trains(question, lathe)
    nearest = (report.nearest,) if report.nearest else ()
    for answer in (*report.answers, *report.set_aside, *nearest):
        assert broken_rules(answer.train, lathe) == ()
        assert answer.ratio == answer.train.ratio * dict(lathe.lever_ratios)[answer.lever]
        assert answer.cut_lead.mm == lathe.leadscrew_lead.mm * (1 + lathe.measured) * lathe.stud_turns * answer.ratio
        assert answer.error.is_exact == (answer.cut_lead == question.lead)
        if answer.fits:
            assert judge(answer.train, lathe, answer.idlers) == answer.mounting
            assert lathe.has_reverse or answer.hand.hand is question.hand
        slowly = can_be_mounted(answer.train, lathe, question.hand)
        assert slowly in (None, answer.fits)
    assert all(size(answer) <= question.within for answer in report.answers)
    assert all(answer.fits for answer in report.answers)
    assert all(size(answer) > question.within or not answer.fits for answer in nearest)


@cases(300)
@given(questions())
def test_answers_of_so_many_pairs_come_by_rising_error_those_that_go_on_first(asked):
    question, lathe = asked
    report = search_trains(question, lathe)
    for pairs in range(1, question.most_pairs + 1):
        of_these = with_pairs(report.answers, pairs)
        keys = [(not answer.fits, size(answer)) for answer in of_these]
        assert keys == sorted(keys)
        slowly = list(islice(slow_errors_that_go_on(question, lathe, pairs), question.wanted))
        fitting = [answer for answer in of_these if answer.fits]
        assert len(fitting) == len(slowly)
        assert all(near(error, answer) for error, answer in zip(slowly, fitting, strict=True))
        assert len(of_these) <= question.wanted
        assert len({(answer.lever, answer.train) for answer in of_these}) == len(of_these)


@cases(200)
@given(questions())
def test_the_same_question_has_the_same_report(asked):
    question, lathe = asked
    assert search_trains(question, lathe) == search_trains(question, lathe)


@cases(200)
@given(lathes(most=6, two_classes=True), leads())
def test_two_classes_of_wheel_never_mesh_and_keep_to_their_places(lathe, lead):
    report = search_trains(TrainQuestion(lead, most_pairs=2, within=Fraction(1, 10)), lathe)
    for answer in (*report.answers, *report.set_aside):
        for number, pair in enumerate(answer.train.pairs, start=1):
            wheel_class = lathe.wheel_classes[pair.wheel_class]
            held = dict(wheel_class.stock)
            assert pair.driver in held
            assert pair.driven in held
            assert wheel_class.only_in_pair in (None, number)


def lathe_of(*teeth: int, nut: str = "0.1") -> Lathe:
    box = WheelClass("module 1", Length.of_mm(1), tuple((each, teeth.count(each)) for each in sorted(set(teeth))))
    banjo = Banjo(stud_nut=Length.of_mm(nut))
    return Lathe(
        "inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), has_reverse=True, wheel_classes=(box,), banjo=banjo
    )


def ask(lathe: Lathe, lead: Lead, **more: object) -> TrainReport:
    return search_trains(TrainQuestion(lead, **more), lathe)  # type: ignore[arg-type]


def test_a_wheel_owned_once_is_used_once():
    report = ask(lathe_of(40, 80), Length.of_inches("1/16"), most_pairs=3)
    assert [str(answer.train) for answer in report.answers] == ["40-80"]
    lead = Length.of_inches("1/32")
    assert ask(lathe_of(40, 80), lead, most_pairs=2).answers == ()
    assert str(ask(lathe_of(40, 40, 80, 80), lead, most_pairs=2).answers[0].train) == "40-80-40-80"


@pytest.mark.published("A Practical Treatise on Milling and Milling Machines, c. 1914-1919, p. 62")
def test_of_four_placings_the_one_that_the_machine_was_found_to_accept_is_shown():
    # Of four arrangements of 100 and 32 over 24 and 48 only the first meshes: 100 on the screw with 24 on the stud, 32
    # beside it with 48 on the worm. A clearance of 15 teeth, the usual one where the file gives no nut, singles it out
    # without being told.
    lathe = replace(lathe_of(24, 32, 48, 100), banjo=None)
    lead = Length(lathe.lead_at_equal_wheels.mm * Fraction(100 * 32, 24 * 48))
    exact_ones = [answer for answer in ask(lathe, lead, most_pairs=2).answers if answer.error.is_exact]
    assert [str(answer.train) for answer in exact_ones] == ["100-24-32-48"]
    assert exact_ones[0].mounting.verdict is Verdict.FITS


def test_a_nearer_train_that_fouls_a_shaft_is_set_aside_with_its_reason():
    # 20/40 x 21/80 is exact, but every placing fouls a nut of 40 mm; 40-80-20-120 is farther off and goes on.
    lathe = lathe_of(20, 21, 40, 80, 120, nut="40")
    lead = Length(lathe.lead_at_equal_wheels.mm * Fraction(20 * 21, 40 * 80))
    report = ask(lathe, lead, most_pairs=2, within=Fraction(9, 10), wanted=1)
    aside = with_pairs(report.set_aside, 2)[0]
    assert aside.error.is_exact
    assert aside.mounting.verdict is Verdict.DOES_NOT_FIT
    assert any("fouls the shaft" in reason for reason in aside.mounting.reasons)
    assert report.answers
    assert all(answer.fits and not answer.error.is_exact for answer in report.answers)


@pytest.mark.parametrize(
    ("driver", "driven", "part", "answers"),
    [(63, 80, 8000, 1), (63, 80, 8001, 0), (37, 47, 4700, 1), (37, 47, 4701, 0)],
)
def test_an_error_of_the_tolerance_itself_is_inside(driver, driven, part, answers):
    # For 100/127, 63/80 is long by 1/8000 and 37/47 is short by 1/4700: no more, no less.
    lead = Length.of_inches("1/8") * Fraction(100, 127)
    report = ask(lathe_of(driver, driven), lead, most_pairs=1, within=Fraction(1, part))
    assert len(report.answers) == answers
    assert (report.nearest is None) == bool(answers)


def test_with_nothing_inside_the_tolerance_the_nearest_is_named():
    report = ask(lathe_of(20, 60), Length.of_mm(3), most_pairs=1)
    assert report.answers == ()
    assert report.nearest is not None
    assert str(report.nearest.train) in ("20-60", "60-20")


def test_a_pi_lead_is_never_exact():
    report = ask(lathe_of(20, 28, 30, 35, 40, 45, 50, 55, 60, 65, 127), PiLength(Fraction(1, 2)))
    assert report.answers
    assert not any(answer.error.is_exact for answer in report.answers)


def test_a_box_of_one_wheel_is_refused_with_what_to_do():
    with pytest.raises(ImpossibleSettingError, match="at least two wheels") as refused:
        ask(lathe_of(20), Length.of_mm(1))
    assert "[wheels]" in refused.value.help_text


def test_two_wheels_that_cannot_mesh_make_no_train_and_no_nearest():
    box = (WheelClass("module 1", Length.of_mm(1), ((20, 1),)), WheelClass("20 DP", Length.of_mm("1.27"), ((40, 1),)))
    report = search_trains(
        TrainQuestion(Length.of_mm(1)),
        Lathe("two", "3 mm", Length.of_mm(3), Fraction(1), has_reverse=True, wheel_classes=box),
    )
    assert (report.answers, report.set_aside, report.nearest) == ((), (), None)


def test_when_no_train_within_the_tolerance_goes_on_the_nearest_that_does_is_named():
    # 20-40-21-80 is exact for this lead, but a nut of 40 mm stops every placing of those four wheels.
    lathe = lathe_of(20, 21, 40, 80, nut="40")
    report = search_trains(TrainQuestion(lathe.lead_at_equal_wheels * Fraction(21, 160)), lathe)
    assert report.answers == ()
    assert report.set_aside[0].error.is_exact
    assert report.nearest is not None
    assert report.nearest.fits
