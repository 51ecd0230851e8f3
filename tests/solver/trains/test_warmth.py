"""Warmth against the growth of a bar worked on paper."""

from fractions import Fraction

import pytest

from solver.quantities.lengths import Length
from solver.trains.lead_error import LeadError
from solver.trains.warmth import growth, warmth_error, with_warmth


# 11.5 millionths of 1 m are 0.0115 mm for a kelvin; of 80 mm for 2.5 K they are 80 x 2.5 x 0.0000115 = 0.0023 mm.
@pytest.mark.practice("common practice, no source: a steel screw grows 11.5 parts in a million for each kelvin")
@pytest.mark.parametrize(
    ("mm", "kelvins", "grows"), [(1000, 1, "0.0115"), (80, "2.5", "0.0023"), (80, "-2.5", "-0.0023")]
)
def test_a_bar_grows_by_its_length_and_its_warmth(mm, kelvins, grows):
    assert growth(Length.of_mm(mm), Fraction(kelvins)) == Length.of_mm(grows)


# A lead 1 in 1000 long, and 10 K warmer, 115 millionths more: 1.001 x 1.000115 = 1.001115115.
def test_warmth_multiplies_with_what_is_wrong_already_and_widens_the_bound_alike():
    found = with_warmth(LeadError(Fraction(1, 1000), Fraction(1, 10**9)), Fraction(10))
    assert found.relative == Fraction("0.001115115")
    assert found.bound == Fraction("1.000115") / 10**9
    assert with_warmth(LeadError(Fraction(0), Fraction(0)), Fraction(-3)) == warmth_error(Fraction(-3))
    assert warmth_error(Fraction(-3)).words == "lead short"
