"""Wheels worth adding against an exhaustive search over all handfuls, and the manners of the walk."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import prod

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from solver.jobs import missing_wheels as room
from solver.jobs import wheel_options
from solver.jobs.constraint_solver import Certainty, solve
from solver.jobs.missing_wheels import missing_wheels, with_wheels
from solver.jobs.wheel_prices import PriceList
from solver.jobs.wheel_report import MissingQuestion, Stopped
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.trains.lathe import Banjo, Lathe
from solver.trains.reach import Reached
from solver.trains.train_rules import broken_rules
from solver.trains.train_search import TrainQuestion, search_trains
from solver.trains.wheels import WheelClass
from tests.drawn_cases import cases
from tests.slow_missing import TooCloseToTellError, every_choice, rank
from tests.strategies import TEETH, lathes

WITHIN = st.sampled_from((Fraction(0), Fraction(1, 1000), Fraction(1, 50)))
PRICES = st.sampled_from((Fraction(1), Fraction(2), Fraction(5, 2), Fraction(7)))


def inch_lathe(teeth, *, reverse=True, banjo=None, keyed=()):
    box = WheelClass("module 1", Length.of_mm(1), tuple((each, 1) for each in sorted(teeth)))
    return Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), reverse, (box,), tuple(keyed), banjo)


@st.composite
def shops(draw, *, most_wheels=4, most_candidates=4):
    """Draw a lathe, wheels that may be added, and leads that trains of both together cut or nearly cut."""
    lathe = draw(lathes(most=most_wheels))
    candidates = draw(st.lists(st.sampled_from(TEETH), min_size=1, max_size=most_candidates, unique=True))
    pool = st.sampled_from([*(teeth for teeth, _ in lathe.wheel_classes[0].stock), *candidates, *candidates])
    off = st.sampled_from((Fraction(1), Fraction(1), Fraction(1501, 1500), Fraction(997, 1000)))
    wanted = set()
    for _ in range(draw(st.integers(1, 3))):
        pairs = [Fraction(draw(pool), draw(pool)) for _ in range(draw(st.integers(1, 2)))]
        _, lever = draw(st.sampled_from(lathe.lever_ratios))
        wanted.add(lathe.lead_at_equal_wheels * (prod(pairs) * lever * draw(off)))
    return lathe, tuple(candidates), tuple(sorted(wanted))


@cases(100)
@given(shops(), WITHIN, st.integers(1, 2), st.integers(1, 2))
def test_the_wheels_named_are_those_of_an_exhaustive_search(shop, within, most, pairs):
    lathe, candidates, wanted = shop
    try:
        choices = list(every_choice(lathe, wanted, candidates, within, most, pairs))
    except TooCloseToTellError:
        assume(False)
    question = MissingQuestion(wanted, candidates, within, most, pairs)
    report = missing_wheels(lathe, question)
    best = min(choices, key=lambda choice: rank(choice, dict.fromkeys(candidates, Fraction(1))))
    assert report.best.wheels == best.wheels
    assert report.proof.is_proven
    assert tuple(lead in report.lacking for lead in wanted) == tuple(not each for each in choices[0].cut)
    ever = [any(choice.cut[at] for choice in choices) for at in range(len(wanted))]
    assert set(report.hopeless) == {lead for lead, is_possible in zip(wanted, ever, strict=True) if not is_possible}
    cut_then = {row.lead for row in report.best.unlocked} | (set(wanted) - set(report.lacking))
    assert cut_then == {lead for lead, cut in zip(wanted, best.cut, strict=True) if cut}


@cases(60)
@given(shops(most_candidates=3), st.lists(PRICES, min_size=3, max_size=3), WITHIN)
def test_the_cheapest_of_three_wheels_are_those_of_an_exhaustive_search(shop, drawn_prices, within):
    lathe, candidates, wanted = shop
    prices = dict(zip(candidates, drawn_prices, strict=False))
    try:
        choices = list(every_choice(lathe, wanted, candidates, within, 3, 1))
    except TooCloseToTellError:
        assume(False)
    named = PriceList(tuple(prices.items()))
    report = missing_wheels(lathe, MissingQuestion(wanted, candidates, within, 3, 1, prices=named))
    best = min(choices, key=lambda choice: rank(choice, prices))
    assert report.best.wheels == best.wheels
    assert report.best.price == sum((prices[teeth] for teeth in best.wheels), Fraction(0))


BY_FIVES = tuple(range(20, 121, 5))
EVERY = tuple(range(20, 128))


@cases(40)
@given(
    st.lists(st.sampled_from(TEETH), min_size=3, max_size=5, unique=True),
    st.lists(st.sampled_from(TEETH), min_size=2, max_size=2, unique=True),
    st.lists(st.sampled_from(TEETH), min_size=1, max_size=3, unique=True),
    st.data(),
)
def test_keyed_pairs_are_used_as_the_search_uses_them(box, sleeve, candidates, data):
    lathe = inch_lathe(box, keyed=[tuple(sleeve)], banjo=Banjo(stud_nut=Length.of_mm(2)))
    teeth = st.sampled_from([*box, *sleeve, *candidates])
    ratio = Fraction(data.draw(teeth) * data.draw(teeth), data.draw(teeth) * data.draw(teeth))
    lead = lathe.lead_at_equal_wheels * ratio
    question = MissingQuestion((lead,), tuple(candidates), Fraction(0), 1, 2)

    def is_cut_with(wheels):
        asked = TrainQuestion(lead, most_pairs=2, within=Fraction(0), wanted=1)
        return bool(search_trains(asked, with_wheels(lathe, wheels)).answers)

    report = missing_wheels(lathe, question)
    one = [teeth for teeth in sorted(candidates) if is_cut_with((teeth,))]
    assert report.best.wheels == (() if is_cut_with(()) or not one else (one[0],))


def test_every_train_named_is_of_wheels_owned_or_named_and_goes_on():
    lathe = inch_lathe((20, 21, 30, 35, 40, 45, 50, 55, 57, 60, 65, 80))
    leads = tuple(Length.of_mm(each) for each in ("0.5", "0.8", "1", "1.25", "1.5", "1.75", "2"))
    report = missing_wheels(lathe, MissingQuestion(leads, EVERY, Fraction(1, 20_000), 2, 2), other_sets=3)
    assert report.best.wheels
    for found in (report.best, *report.others):
        richer = with_wheels(lathe, found.wheels)
        for row in found.unlocked:
            assert row.best.fits
            assert broken_rules(row.best.train, richer, row.best.idlers) == ()
            assert abs(row.best.train.ratio * Length.of_inches("1/8").mm / row.lead.mm - 1) <= Fraction(1, 20_000)


def test_others_as_good_unlock_as_much_with_as_many_and_none_has_fewer_teeth_than_the_first():
    lathe = inch_lathe(BY_FIVES, banjo=Banjo(stud_nut=Length.of_mm(13)))
    report = missing_wheels(
        lathe, MissingQuestion((Length.of_mm("1.5"),), EVERY, Fraction(13, 100_000), 2, 2), other_sets=9
    )
    teeth = [sum(each.wheels) for each in (report.best, *report.others)]
    assert len({each.wheels for each in (report.best, *report.others)}) == 10
    assert teeth == sorted(teeth)
    assert {len(each.wheels) for each in (report.best, *report.others)} == {1}


def test_a_second_wheel_like_one_in_the_box_may_be_what_is_missing():
    lathe = inch_lathe((40, 20), banjo=Banjo(stud_nut=Length.of_mm("0.1")))
    report = missing_wheels(lathe, MissingQuestion((Length.of_inches("1/8"),), (40, 50), Fraction(0), 2, 1))
    assert report.best.wheels == (40,)
    assert str(report.best.rows[0].best.train) == "40-40"


def test_an_idler_may_be_what_is_missing():
    # Without a reverse one pair cuts left-handed, and the box of two wheels has no idler.
    lathe = inch_lathe((40, 80), reverse=False)
    report = missing_wheels(lathe, MissingQuestion((Length.of_inches("1/16"),), (60, 63), Fraction(0), 1, 1))
    assert report.best.wheels == (60,)
    assert [idler.teeth for idler in report.best.rows[0].best.idlers] == [60]


def test_a_wheel_whose_train_does_not_go_on_is_not_proposed():
    # 24 drives 48 and 100 drives 32: of the four placings of the treatise one clears the shafts at k = 15, none at 100.
    wanted = (Length.of_inches("1/8") * Fraction(100 * 32, 24 * 48),)
    small, large = (Banjo(stud_nut=Length.of_mm(each)) for each in (13, 98))
    question = MissingQuestion(wanted, (100,), Fraction(0), 1, 2)
    assert missing_wheels(inch_lathe((24, 32, 48), banjo=small), question).best.wheels == (100,)
    report = missing_wheels(inch_lathe((24, 32, 48), banjo=large), question)
    assert report.best.wheels == ()
    assert report.hopeless == wanted


def test_a_multiple_of_pi_is_hopeless_where_only_exact_will_do():
    report = missing_wheels(inch_lathe(BY_FIVES), MissingQuestion((PiLength(Fraction(1)),), EVERY, Fraction(0), 2))
    assert report.hopeless == (PiLength(Fraction(1)),)
    assert report.proof.is_proven
    assert report.best.rows[0].reached is Reached.NOT
    assert report.best.rows[0].best is not None


def test_a_dear_wheel_gives_way_to_two_cheap_ones_and_home_made_ones_to_none():
    lathe = inch_lathe(BY_FIVES, banjo=Banjo(stud_nut=Length.of_mm(13)))
    leads = tuple(Length.of_mm(each) for each in ("0.25", "0.3", "0.45", "0.7", "1.5"))
    question = MissingQuestion(leads, EVERY, Fraction(13, 100_000), 2, 2)
    assert missing_wheels(lathe, question).best.wheels == (127,)
    dear = missing_wheels(lathe, replace(question, prices=PriceList(((127, Fraction(25)),), Fraction(8))))
    assert len(dear.best.wheels) == 2
    assert dear.best.price == 16
    own = missing_wheels(lathe, replace(question, prices=PriceList(largest_made=126)))
    assert own.best.wheels == dear.best.wheels
    assert own.best.price == 0


def small_question(lathe_teeth=(20, 25, 30, 40, 50)):
    leads = tuple(Length.of_mm(each) for each in ("0.7", "0.9", "1.1", "2.3"))
    return inch_lathe(lathe_teeth), MissingQuestion(leads, tuple(range(20, 60)), Fraction(1, 2000), 3, 2)


def test_a_walk_stopped_at_once_says_that_it_knows_nothing():
    lathe, question = small_question()
    report = missing_wheels(lathe, question, watch=lambda _: False)
    assert report.proof.stopped is Stopped.TIME
    assert not report.proof.is_proven
    assert (report.best.wheels, report.proof.sizes_done, report.hopeless) == ((), 0, ())
    assert report.undecided == report.lacking
    assert len(report.best.rows) == len(report.lacking)


@pytest.mark.parametrize("after", [5, 20, 60, 150])
def test_a_walk_stopped_on_its_way_never_claims_more_than_it_knows(monkeypatch, after):
    monkeypatch.setattr(wheel_options, "PULSE", 20)
    lathe, question = small_question()
    whole = missing_wheels(lathe, question)
    assert whole.proof.is_proven
    seen = []
    report = missing_wheels(lathe, question, watch=lambda progress: (seen.append(progress), len(seen) < after)[1])
    assert report.proof.stopped is Stopped.TIME
    assert not report.proof.is_proven
    assert len(report.best.unlocked) <= len(whole.best.unlocked)
    assert report.hopeless == ()
    if len(report.best.unlocked) == len(whole.best.unlocked):
        assert report.proof.least_price <= whole.best.price <= report.best.price
    assert [each.size for each in seen] == sorted(each.size for each in seen)


@pytest.mark.parametrize(("place", "name"), [(wheel_options, "MOST_ROWS"), (room, "MOST_OPTIONS")])
def test_memory_is_bounded_and_what_was_found_is_kept(monkeypatch, place, name):
    lathe, question = small_question()
    monkeypatch.setattr(place, name, 30)
    report = missing_wheels(lathe, question)
    assert report.proof.stopped is Stopped.ROOM
    assert not report.proof.is_proven


def test_the_same_question_has_the_same_answer():
    lathe, question = small_question()
    first, again = (missing_wheels(lathe, question, other_sets=3) for _ in range(2))
    assert first == again


def test_a_lathe_that_cuts_everything_lacks_nothing():
    report = missing_wheels(inch_lathe(BY_FIVES), MissingQuestion((Length.of_inches("1/16"),), EVERY, Fraction(0)))
    assert (report.lacking, report.best.wheels, report.best.rows) == ((), (), ())
    assert report.proof.is_proven


def test_two_cheap_wheels_that_need_one_another_come_before_one_dear_wheel():
    # 3/2 of the screw: 60 with the 40 of the box, or 30 with 20.
    lathe = inch_lathe((40,))
    question = MissingQuestion((lathe.lead_at_equal_wheels * Fraction(3, 2),), (20, 30, 60), Fraction(0), 2, 1)
    assert missing_wheels(lathe, question).best.wheels == (60,)
    priced = replace(question, prices=PriceList(((60, Fraction(25)),), Fraction(8)))
    report = missing_wheels(lathe, priced)
    assert (report.best.wheels, report.best.price) == ((20, 30), 16)
    assert missing_wheels(lathe, replace(priced, most_wheels=1)).best.wheels == (60,)


def test_as_many_wheels_with_fewer_teeth_come_first_though_they_are_found_later():
    # 3/2 of the screw is 60 to 40, a third is 40 to 120; 20 to 60 is a third too, and needs two wheels at once.
    lathe = inch_lathe((40,))
    leads = tuple(lathe.lead_at_equal_wheels * ratio for ratio in (Fraction(3, 2), Fraction(1, 3)))
    question = MissingQuestion(leads, (20, 60, 120), Fraction(0), 2, 1)
    assert missing_wheels(lathe, question).best.wheels == (20, 60)
    assert missing_wheels(lathe, replace(question, candidates=(60, 120))).best.wheels == (60, 120)


def test_a_cover_that_there_was_no_time_to_prove_is_not_called_the_least(monkeypatch):
    lathe, question = small_question()
    whole = missing_wheels(lathe, question)

    def hurried(*words, **named):
        outcome = solve(*words, **named)
        return outcome._replace(certainty=Certainty.FOUND) if outcome.certainty is Certainty.BEST else outcome

    monkeypatch.setattr("solver.jobs.wheel_cover.solve", hurried)
    asked = []
    report = missing_wheels(lathe, question, seconds=lambda: asked.append(0) or 0)
    assert asked
    assert not report.proof.is_proven
    assert report.proof.stopped is Stopped.TIME
    assert not report.is_least
    assert report.proof.least_price <= whole.best.price
    assert len(report.best.unlocked) <= len(whole.best.unlocked)
