"""Two cranks on circles so small that their settings can be written down by hand."""

from __future__ import annotations

from fractions import Fraction

from solver.dividing.heads import Head, Plate, SmallCrank
from solver.dividing.moves import CrankMove
from solver.dividing.two_cranks import TwoCrankSetting, two_crank_settings

NO_MOVE = CrankMove(0, 0, None)


def wide(large: tuple[int, ...], small: tuple[int, ...], slow: int = 3) -> Head:
    """A worm of 4 to 1 and a small crank that turns the large one slowly."""
    return Head("wide", Fraction(4), (Plate("A", (large,)),), small_crank=SmallCrank(Fraction(slow), small))


def setting(large: CrankMove, small: CrankMove, wanted: Fraction, crank: Fraction) -> TwoCrankSetting:
    """Write down a setting that moves the worm by so much."""
    return TwoCrankSetting(large, small, "A", wanted, crank / 4, wanted.denominator)


def test_a_small_crank_alone_goes_forward_and_the_large_one_stands():
    # A space of two on a crank that turns the large one by a third is a sixth of its turn.
    wanted = Fraction(1, 24)
    only = setting(NO_MOVE, CrankMove(0, 1, 2), wanted, Fraction(1, 6))
    assert two_crank_settings(wide((3,), (2,)), wanted) == (only,)


def test_both_go_forward_where_going_back_comes_no_nearer():
    # 4/5 turn: 2/3 and 1/6 are 5/6, as are one turn and 1/6 back.
    wanted = Fraction(1, 5)
    only = setting(CrankMove(0, 2, 3), CrankMove(0, 1, 2), wanted, Fraction(5, 6))
    assert two_crank_settings(wide((3,), (2,)), wanted) == (only,)


def test_one_goes_back_where_only_that_is_exact_and_the_best_with_both_forward_stands_last():
    # 19/60 = 2/5 - 1/12 = 11/12 - 3/5; with both forward 4/12 is nearest, a whole turn of the small crank.
    wanted = Fraction(19, 240)
    exact = Fraction(19, 60)
    little_back = setting(CrankMove(0, 2, 5), CrankMove(0, 1, 4, -1), wanted, exact)
    large_back = setting(CrankMove(0, 3, 5, -1), CrankMove(2, 3, 4), wanted, exact)
    forward = setting(NO_MOVE, CrankMove(1, 0, None), wanted, Fraction(1, 3))
    head = wide((5,), (4,))
    assert two_crank_settings(head, wanted) == (little_back, large_back, forward)
    assert two_crank_settings(head, wanted, most=2) == (little_back, forward)


def test_a_whole_turn_of_the_small_crank_may_go_back():
    # 1/15 = 2/5 - 1/3 = 2/3 - 3/5, and both forward make a twelfth.
    wanted = Fraction(1, 60)
    assert two_crank_settings(wide((5,), (4,)), wanted) == (
        setting(CrankMove(0, 2, 5), CrankMove(1, 0, None, -1), wanted, Fraction(1, 15)),
        setting(CrankMove(0, 3, 5, -1), CrankMove(2, 0, None), wanted, Fraction(1, 15)),
        setting(NO_MOVE, CrankMove(0, 1, 4), wanted, Fraction(1, 12)),
    )


def test_one_goes_back_where_both_forward_would_be_nearest_standing_still():
    # 1/60 = 3/5 - 7/12 = 5/12 - 2/5, and both forward make a twelfth or nothing, of which nothing is nearer.
    wanted = Fraction(1, 240)
    exact = Fraction(1, 60)
    assert two_crank_settings(wide((5,), (4,)), wanted) == (
        setting(CrankMove(0, 2, 5, -1), CrankMove(1, 1, 4), wanted, exact),
        setting(CrankMove(0, 3, 5), CrankMove(1, 3, 4, -1), wanted, exact),
    )


def test_where_nothing_is_exact_all_that_go_back_are_listed_by_error():
    # Of 1/61 turn the nearest are 1, 2 and 3 sixtieths, each in two ways; nothing and less than nothing are no moves.
    wanted = Fraction(1, 244)
    found = two_crank_settings(wide((5,), (4,)), wanted)
    assert [each.reached * 240 for each in found] == [1, 1, 2, 2, 3, 3]
    assert all(each.runs_both_ways for each in found)
    assert two_crank_settings(wide((5,), (4,)), wanted, most=3) == found[:3]


def test_among_equal_settings_the_larger_circles_come_first():
    # A fifth is two tenths; a quarter turn of the small crank is two eighths.
    wanted = Fraction(1, 4) * (Fraction(1, 5) + Fraction(1, 12))
    found = two_crank_settings(wide((5, 10), (4, 8)), wanted)
    assert all(each.is_exact for each in found)
    circles = [(each.large.circle, each.small.circle) for each in found if each.large.value == Fraction(1, 5)]
    assert circles == [(10, 8), (10, 4), (5, 8), (5, 4)]


def test_six_are_listed_of_which_at_most_half_go_back():
    head, wanted = wide((5, 7, 11), (4, 9)), Fraction(1, 17)
    found = two_crank_settings(head, wanted)
    errors = [abs(each.error_per_move.turns) for each in found]
    assert errors == sorted(errors)
    assert [each.runs_both_ways for each in found] == [True, True, True, False, False, False]
    # Those that go back are nearer than any that does not.
    assert errors[2] < errors[3]
    assert two_crank_settings(head, wanted, most=4) == (*found[:2], *found[3:5])
    more = two_crank_settings(head, wanted, most=50)
    assert sum(each.runs_both_ways for each in more) > 3
    assert all(abs(each.error_per_move.turns) < errors[3] for each in more if each.runs_both_ways)
