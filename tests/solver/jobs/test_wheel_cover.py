"""The cover by the constraint solver against every handful of wheels, one after another."""

from __future__ import annotations

import time
from fractions import Fraction
from itertools import combinations_with_replacement

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.jobs.constraint_solver import Certainty, solve
from solver.jobs.wheel_cover import Cover, best_covers, covers_of_whole_options, order_of
from solver.jobs.wheel_prices import PriceList
from tests.drawn_cases import cases

TEETH = (20, 21, 38, 40, 41, 42, 60, 63)
OPTIONS = st.lists(st.sampled_from(TEETH), min_size=1, max_size=3).map(lambda wheels: tuple(sorted(wheels)))
LEADS = st.lists(st.sets(OPTIONS, max_size=4), min_size=1, max_size=5)
PRICES = st.lists(st.integers(0, 4), min_size=len(TEETH), max_size=len(TEETH)).map(
    lambda each: dict(zip(TEETH, each, strict=True))
)


def has_all(wheels, option):
    left = list(wheels)
    for teeth in option:
        if teeth not in left:
            return False
        left.remove(teeth)
    return True


def ranked(leads, prices, most):
    """Every handful with its rank, best first."""
    rows = []
    for size in range(most + 1):
        for wheels in combinations_with_replacement(TEETH, size):
            covered = sum(any(has_all(wheels, option) for option in lead) for lead in leads)
            rows.append((-covered, sum(prices[each] for each in wheels), size,
                         *(sum(each**power for each in wheels) for power in (1, 2, 3)), wheels))  # fmt: skip
    return sorted(rows)


@cases(100)
@given(LEADS, PRICES, st.integers(1, 3))
def test_the_best_cover_is_the_best_of_every_handful(leads, prices, most):
    if not any(leads):
        return
    first = ranked(leads, prices, most)[0]
    found = best_covers(leads, prices, most)[0]
    assert (found.wheels, found.price, sum(found.covered)) == (first[-1], first[1], -first[0])
    assert found.is_proven


@cases(60)
@given(LEADS, PRICES, st.integers(1, 3))
def test_the_others_are_those_as_good_in_leads_price_and_count_in_the_same_order(leads, prices, most):
    if not any(leads):
        return
    rows = ranked(leads, prices, most)
    useful = {teeth for lead in leads for option in lead if len(option) <= most for teeth in option}
    alike = [row[-1] for row in rows if row[:3] == rows[0][:3] and set(row[-1]) <= useful]
    found = [cover.wheels for cover in best_covers(leads, prices, most, wanted=4)]
    assert (
        found == [wheels for wheels in alike if all(wheels.count(each) <= copies(leads, each) for each in wheels)][:4]
    )


def copies(leads, teeth):
    """The most of one wheel that any option asks for."""
    return max(option.count(teeth) for lead in leads for option in lead)


def test_the_clock_ends_a_solving_that_the_effort_alone_would_not():
    # Sixty leads of about fifty choices of two wheels each, strewn by the powers of 5 that go round the prime 103: it
    # takes far longer than a second to find the best, let alone to prove it.
    strewn = [20 + pow(5, power, 103) for power in range(102)]
    leads = [
        {tuple(sorted((strewn[(7 * lead + at**2) % 102], strewn[(lead**2 + 3 * at + 11) % 102]))) for at in range(60)}
        for lead in range(60)
    ]
    began = time.monotonic()
    found = best_covers(leads, dict.fromkeys(range(20, 123), 1), 8, effort=10**6, seconds=lambda: 1)
    assert time.monotonic() - began < 60
    assert not any(cover.is_proven for cover in found)


@pytest.fixture
def solved(monkeypatch):
    """What each solving was allowed; the outcomes named in ``ends`` are put in place of the real ones."""
    calls, ends = [], {}

    def listening(model, **allowed):
        outcome = solve(model, **allowed)
        calls.append(allowed)
        return outcome._replace(**ends.get(len(calls), {}))

    monkeypatch.setattr("solver.jobs.wheel_cover.solve", listening)
    return calls, ends


#: 20 and 63, or 21 and 62: as many teeth, and fewer squares in the second. Or 40 and 44, which are more.
PAIRS = [{(20, 63), (21, 62), (40, 44)}]
EVEN = dict.fromkeys((20, 21, 40, 44, 62, 63), 1)


def test_each_solving_has_the_effort_and_the_seconds_that_are_left(solved):
    left = iter(range(9, 0, -1))
    found = best_covers(PAIRS, EVEN, 2, effort=7, seconds=lambda: next(left))
    assert found == (Cover((21, 62), 2, (True,), is_proven=True),)
    # The aim, and then the squares.
    assert solved[0] == [{"effort": 7, "seconds": 9}, {"effort": 7, "seconds": 8}]
    solved[0].clear()
    best_covers([{(20,)}], EVEN, 2)
    assert solved[0] == [{"effort": 60, "seconds": None}]


def test_one_choice_is_named_unless_more_are_wanted_and_no_more_than_there_are():
    assert [each.wheels for each in best_covers(PAIRS, EVEN, 2)] == [(21, 62)]
    assert [each.wheels for each in best_covers(PAIRS, EVEN, 2, wanted=2)] == [(21, 62), (20, 63)]
    assert [each.wheels for each in best_covers(PAIRS, EVEN, 2, wanted=9)] == [(21, 62), (20, 63), (40, 44)]
    assert all(each.is_proven for each in best_covers(PAIRS, EVEN, 2, wanted=9))


def test_what_is_found_without_proof_ends_the_naming(solved):
    solved[1][1] = {"certainty": Certainty.FOUND}
    (cover,) = best_covers(PAIRS, EVEN, 2, wanted=9)
    assert not cover.is_proven
    assert len(solved[0]) == 1


def test_squares_that_there_is_no_time_for_leave_a_choice_of_as_few_teeth_not_proven(solved):
    solved[1][2] = {"certainty": Certainty.UNDECIDED}
    (cover,) = best_covers(PAIRS, EVEN, 2, wanted=9)
    assert (sum(cover.wheels), cover.price, cover.covered, cover.is_proven) == (83, 2, (True,), False)
    assert len(solved[0]) == 2


def test_nothing_found_is_nothing_named(solved):
    solved[1][1] = {"certainty": Certainty.UNDECIDED}
    assert best_covers(PAIRS, EVEN, 2) == ()


def test_leads_that_have_no_option_small_enough_are_covered_by_nothing():
    assert best_covers([{(20, 21, 40)}, set()], EVEN, 2) == (Cover((), 0, (False, False), is_proven=True),)
    assert best_covers([{(20, 21, 40)}, set()], EVEN, 3)[0].wheels == (20, 21, 40)


def test_cubes_decide_where_squares_do_not():
    # 1, 5 and 6 have the sum and the squares of 2, 3 and 7: 12 and 62; the cubes are 342 and 378.
    options = [{(31, 35, 36), (32, 33, 37)}]
    prices = dict.fromkeys((31, 32, 33, 35, 36, 37), 1)
    assert best_covers(options, prices, 3)[0].wheels == (31, 35, 36)
    assert order_of(Cover((32, 33, 37), 3, (True,), is_proven=True)) == (-1, 3, 3, 102, 3482, 119358)
    assert [each.wheels for each in covers_of_whole_options(options, prices, 3)] == [(31, 35, 36), (32, 33, 37)]


def test_a_dear_wheel_costs_more_than_any_number_of_teeth():
    # One wheel of 120 for 1, or of 20 for 2; then two wheels for 1 each, or one for 3.
    assert best_covers([{(120,), (20,)}], {120: 1, 20: 2}, 1)[0].wheels == (120,)
    assert best_covers([{(119, 120), (20,)}], {119: 1, 120: 1, 20: 3}, 2)[0].wheels == (119, 120)
    # At one price the fewer wheels, however many teeth.
    assert best_covers([{(20, 21), (120,)}], {20: 1, 21: 1, 120: 2}, 2)[0].wheels == (120,)
    # A lead more is worth any price.
    assert best_covers([{(20,)}, {(21,)}], {20: 0, 21: 50}, 2)[0].wheels == (20, 21)
    assert best_covers([{(20,)}, {(21,)}], {20: 0, 21: 50}, 1)[0].wheels == (20,)


def test_an_option_holds_another_only_with_as_many_alike():
    found = covers_of_whole_options([{(20, 20)}, {(20,)}, {(20, 21)}, set()], {20: 3, 21: 4}, 2)
    assert [(each.wheels, each.price, each.covered) for each in found] == [
        ((20, 20), 6, (True, True, False, False)), ((20, 21), 7, (False, True, True, False)),
    ]  # fmt: skip
    assert best_covers([{(20, 20)}, {(20,)}], {20: 3}, 2)[0] == Cover((20, 20), 6, (True, True), is_proven=True)
    assert best_covers([{(20, 20, 20)}, {(20, 20)}], {20: 3}, 2)[0].covered == (False, True)


@pytest.mark.parametrize(
    ("teeth", "price", "is_made"),
    [(127, 25, False), (57, 9, False), (60, 2, True), (59, 2, True), (61, 8, False)],
)
def test_a_wheel_costs_its_own_price_or_what_it_is_made_for_or_the_usual(teeth, price, is_made):
    prices = PriceList(((127, Fraction(25)), (57, Fraction(9))), Fraction(8), 60, Fraction(2))
    assert (prices.price(teeth), prices.is_made(teeth)) == (price, is_made)
    assert not PriceList().is_made(teeth)


def test_prices_in_units_are_whole():
    prices = PriceList(((20, Fraction(5, 2)), (30, Fraction(2, 3))), Fraction(4))
    assert prices.in_units((20, 30, 40)) == ({20: 15, 30: 4, 40: 24}, Fraction(1, 6))
    assert (prices.counts_wheels, PriceList().counts_wheels, PriceList(largest_made=5).counts_wheels) == (
        False,
        True,
        False,
    )
