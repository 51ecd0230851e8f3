"""The search for counts against enumeration, the two ways of it against each other, and continued fractions."""

from __future__ import annotations

from fractions import Fraction

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from sympy.ntheory.continued_fraction import continued_fraction, continued_fraction_convergents

from solver.quantities.continued_fractions import convergents, intermediate_fractions
from solver.trains.wheels import Pair
from solver.wheelwork import nearest_ratios
from solver.wheelwork.count_products import CountProducts, at_least, floor_root
from solver.wheelwork.farey_walk import by_distance, neighbours
from solver.wheelwork.nearest_ratios import nearest_counts
from solver.wheelwork.one_distance import halves_to_try, nearest_on_one_distance
from tests.slow_counts import on_one_distance, ranked

RATIOS = st.builds(Fraction, st.integers(1, 5000), st.integers(1, 5000))
COUNTS = st.sets(st.integers(5, 60), min_size=2, max_size=8).map(lambda found: tuple(sorted(found)))


@given(COUNTS, RATIOS, st.integers(1, 2), st.integers(1, 6))
def test_the_nearest_trains_are_those_of_a_search_through_everything(counts, ratio, pairs, most):
    found = nearest_counts(counts, ratio, pairs, most)
    assert found.beyond is None
    expected = ranked(counts, ratio, pairs)[:most]
    assert [(abs(each.ratio / ratio - 1), each.ratio, each.teeth) for each in found.found] == expected


@given(st.sets(st.integers(5, 40), min_size=2, max_size=4).map(sorted), RATIOS, st.integers(1, 4))
def test_trains_of_three_pairs_are_those_of_a_search_through_everything(counts, ratio, most):
    found = nearest_counts(counts, ratio, 3, most).found
    assert [(abs(each.ratio / ratio - 1), each.ratio, each.teeth) for each in found] == ranked(counts, ratio, 3)[:most]


@given(COUNTS, RATIOS, st.integers(1, 3), st.integers(1, 4))
def test_walking_and_meeting_find_the_same(counts, ratio, pairs, most):
    products = CountProducts(counts, pairs)
    # The whole walk through fractions of large parts is long; what it has found when cut short is held to the other.
    walked = nearest_ratios.by_walking(products, ratio, most, 20_000)
    met = nearest_ratios.by_meeting(products, ratio, most)
    assert met.beyond is None
    if walked.beyond is None:
        assert walked.found == met.found
    else:
        assert met.found[: len(walked.found)] == walked.found
        for each in met.found[len(walked.found) :]:
            assert abs(each.ratio / ratio - 1) >= walked.beyond or each.ratio == walked.found[-1].ratio


@pytest.mark.parametrize("ratio", [Fraction(1000000, 29530589), Fraction(235, 19), Fraction(31415926, 10**7)])
def test_walking_and_meeting_find_the_same_on_a_full_run_of_counts(ratio):
    products = CountProducts(range(12, 81), 3)
    assert nearest_ratios.by_walking(products, ratio, 4, 10**6) == nearest_ratios.by_meeting(products, ratio, 4)


def test_a_walk_that_is_cut_short_says_within_what_there_is_nothing():
    found = nearest_ratios.by_walking(CountProducts((30, 50, 70), 4), Fraction("0.777777"), 1, 50)
    assert found.found == ()
    assert found.beyond is not None
    assert found.beyond > 0
    met = nearest_ratios.by_meeting(CountProducts((30, 50, 70), 4), Fraction("0.777777"), 1).found[0]
    assert abs(met.ratio / Fraction("0.777777") - 1) >= found.beyond


def test_a_search_cut_short_still_gives_good_trains_and_says_what_it_proved(monkeypatch):
    monkeypatch.setattr(nearest_ratios, "LONG_WALK", 30)
    monkeypatch.setattr(nearest_ratios, "MOST_LISTED", 100)
    monkeypatch.setattr(nearest_ratios, "MOST_LISTED_AT_NEED", 100)
    ratio, counts = Fraction("0.7654321"), tuple(range(30, 76, 5))
    cut = nearest_counts(counts, ratio, 3, 4)
    errors = [row[0] for row in ranked(counts, ratio, 3)[:4]]
    assert len(cut.found) == 4
    assert cut.beyond is not None
    nearer = [error for error in errors if error < cut.beyond]
    assert [abs(each.ratio / ratio - 1) for each in cut.found][: len(nearer)] == nearer


@given(RATIOS, st.integers(1, 40))
def test_the_walk_leaves_no_fraction_out_and_goes_outwards(ratio, largest):
    every = {Fraction(top, bottom) for top in range(1, largest + 1) for bottom in range(1, largest + 1)}
    walked = [Fraction(*term) for term in by_distance(ratio, largest)]
    assert walked == sorted(every, key=lambda each: (abs(each - ratio), each))


@given(st.fractions(min_value=0, max_value=1, max_denominator=10**9).filter(bool), st.integers(1, 10**6))
def test_the_neighbours_of_a_ratio_hold_its_best_stand_in(ratio, largest):
    below, above = (Fraction(*term) for term in neighbours(ratio, largest))
    assert below <= ratio < above
    assert above.numerator * below.denominator - below.numerator * above.denominator == 1
    assert below.denominator + above.denominator > largest
    best = ratio.limit_denominator(largest)
    assert min(abs(below - ratio), abs(above - ratio)) == abs(best - ratio)


@given(
    st.fractions(min_value=Fraction(1, 400), max_value=400, max_denominator=10**8).filter(
        lambda ratio: not Fraction(1, 2) < ratio < 2
    ),
    st.integers(401, 900),
)
def test_with_every_count_to_be_had_the_best_pair_is_a_convergent_or_between_two(ratio, largest):
    # Best approximations are convergents and intermediate fractions: any book on continued fractions. Terms by sympy.
    best = nearest_counts(range(1, largest + 1), ratio, 1, 1).found[0].ratio
    assert best in set(intermediate_fractions(ratio, largest=largest))
    if max(ratio.numerator, ratio.denominator) <= largest:
        assert best == ratio


@given(st.fractions(min_value=Fraction(1, 400), max_value=Fraction(1, 2), max_denominator=10**8), st.integers(401, 900))
def test_one_pair_of_all_counts_is_as_near_as_the_library_of_fractions_finds(ratio, largest):
    best = nearest_counts(range(1, largest + 1), ratio, 1, 1).found[0].ratio
    assert abs(best - ratio) == abs(ratio.limit_denominator(largest) - ratio)


@given(st.fractions(min_value=Fraction(1, 10**6), max_value=10**6, max_denominator=10**9), st.integers(1, 10**6))
def test_convergents_are_those_of_the_algebra_library(ratio, largest):
    terms = continued_fraction(sympy.Rational(ratio.numerator, ratio.denominator))
    every = [Fraction(int(each.p), int(each.q)) for each in continued_fraction_convergents(terms)]
    kept = []
    for each in every:
        if max(each.numerator, each.denominator) > largest:
            break
        kept += [each] if each else []
    assert list(convergents(ratio, largest=largest)) == kept


@given(st.sets(st.integers(5, 24), min_size=2, max_size=6).map(sorted), RATIOS, st.integers(1, 3), st.integers(1, 4))
def test_pairs_of_one_sum_are_those_of_a_search_through_everything(counts, ratio, pairs, most):
    found = nearest_on_one_distance(counts, ratio, pairs, most)
    sums = [{pair.driver + pair.driven for pair in each.pairs} for each in found]
    assert all(len(each) == 1 for each in sums)
    assert [(abs(each.error), *total) for each, total in zip(found, sums, strict=True)] == on_one_distance(
        counts, ratio, pairs
    )[:most]
    assert all(each.counts.ratio / ratio - 1 == each.error for each in found)


def test_a_half_that_undoes_the_other_is_stepped_over_and_the_next_is_looked_at():
    # To 20-40 the nearest is 40-20, which undoes it; the next, 45-15, makes 3/2 with it, and comes by no other way.
    counts = (15, 20, 40, 45)
    found = nearest_on_one_distance(counts, Fraction(1), 2, 1000)
    assert [abs(each.error) for each in found] == [row[0] for row in on_one_distance(counts, Fraction(1), 2)]
    assert (Pair(20, 40), Pair(45, 15)) in [each.pairs for each in found]


def test_four_pairs_of_one_sum_are_those_of_a_search_through_everything():
    counts = (12, 13, 15, 16, 18, 20)
    found = nearest_on_one_distance(counts, Fraction(7, 5), 4, 3)
    assert [abs(each.error) for each in found] == [row[0] for row in on_one_distance(counts, Fraction(7, 5), 4)][:3]


def test_the_halves_counted_beforehand_are_the_pairs_of_every_sum():
    counts = (12, 15, 16, 19)
    assert halves_to_try(counts, 1) == len(counts) ** 2


@given(st.integers(1, 10**40), st.integers(1, 8))
def test_a_whole_root_is_the_largest_that_does_not_exceed(number, degree):
    root = floor_root(number, degree)
    assert root**degree <= number < (root + 1) ** degree


@given(st.lists(st.integers(5, 1000), min_size=1, max_size=4))
def test_no_sum_is_below_its_bound(factors):
    assert at_least(sympy.prod(factors), len(factors)) <= sum(factors)


@given(COUNTS, st.integers(1, 3))
def test_every_product_is_known_and_split_into_all_its_counts(counts, many):
    products = CountProducts(counts, many)
    listed = products.listed()
    splits = [split for product in listed for split in products.splits(product)]
    assert len(splits) == products.choices
    assert {int(sympy.prod(split)) for split in splits} == set(listed)
    assert not any(products.splits(number) for number in range(1, 200) if number not in listed)
