"""Where the half-nut may close, tried on a carriage that is moved thread by thread with the spindle standing still."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from solver.quantities.lengths import Length
from solver.trains.half_nut import half_nut_rule
from solver.trains.lathe import Lathe

LEADS = st.fractions(min_value=Fraction(1, 8), max_value=8, max_denominator=12)


def falls_in(carriage, turns, screw, lead):
    """The nut in a thread of the screw, which has followed the spindle: so many leads in all its turns."""
    return ((carriage - lead * turns) / screw).denominator == 1


def is_in_the_groove(carriage, turns, lead):
    """The tool in the thread already cut, which began at 0 of spindle and carriage."""
    return ((carriage - lead * turns) / lead).denominator == 1


@given(LEADS, LEADS, st.fractions(min_value=0, max_value=50, max_denominator=8))
def test_from_where_it_was_opened_the_rule_gives_the_first_place_of_nut_and_groove(lead, screw, turns):
    opened = lead * turns
    moved = screw
    while not is_in_the_groove(opened + moved, turns, lead):
        moved += screw
    rule = half_nut_rule(Length.of_mm(lead), Lathe("one", "screw", Length.of_mm(screw), Fraction(1), True, ()))
    assert rule.every == Length.of_mm(moved)
    assert rule.threads == moved / screw
    assert all(falls_in(opened - times * moved, turns, screw, lead) for times in (1, 2))
    assert is_in_the_groove(opened - 2 * moved, turns, lead)


def test_back_where_the_thread_began_the_nut_may_fall_in_beside_the_groove():
    # 1 mm by a screw of 8 per inch, 30 turns cut: 30 mm back is 9 threads of the screw and 1.425 mm more.
    lead, screw = Fraction(1), Fraction(127, 40)
    assert not falls_in(Fraction(0), 30, screw, lead)
    # On to the next place where the nut falls in, the tool stands 0.425 mm from a groove.
    assert falls_in(Fraction("1.425"), 30, screw, lead)
    assert not is_in_the_groove(Fraction("1.425"), 30, lead)
    # 127 mm either way from where it was opened it is right.
    assert falls_in(Fraction(30 - 127), 30, screw, lead)
    assert is_in_the_groove(Fraction(30 - 127), 30, lead)
