"""Wheels worth adding against an exhaustive search over all handfuls, and the manners of the walk."""

from __future__ import annotations

from fractions import Fraction
from math import prod

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from solver.jobs.missing_wheels import MissingQuestion, missing_wheels
from solver.jobs.wheel_prices import PriceList
from solver.quantities.lengths import Length
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass
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


@settings(max_examples=150)
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


@settings(max_examples=80)
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
