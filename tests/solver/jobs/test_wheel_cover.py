"""The cover by the constraint solver against every handful of wheels, one after another."""

from __future__ import annotations

import time
from itertools import combinations_with_replacement

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.jobs.wheel_cover import best_covers

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


@settings(max_examples=150)
@given(LEADS, PRICES, st.integers(1, 3))
def test_the_best_cover_is_the_best_of_every_handful(leads, prices, most):
    if not any(leads):
        return
    first = ranked(leads, prices, most)[0]
    found = best_covers(leads, prices, most)[0]
    assert (found.wheels, found.price, sum(found.covered)) == (first[-1], first[1], -first[0])
    assert found.is_proven


@settings(max_examples=60)
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
