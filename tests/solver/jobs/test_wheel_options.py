"""Wheels to add that unlock a lead: every smallest handful of them, and what is looked at to find them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from solver.jobs import wheel_options
from solver.jobs.wheel_options import TooManySidesError, WheelOptions, contains_any
from solver.quantities.lengths import Length
from solver.trains.hand import Hand
from solver.trains.lathe import Banjo
from solver.trains.wheels import WheelClass
from tests.small_sittings import FORTY, MORE, lathe_of

EXACT = Fraction(0)


def options_of(lathe, candidates, lead, size, *, within=EXACT, smaller=(), **told):
    options = WheelOptions(lathe, candidates, **told)
    found = [each for each in options.of_size(lead, within, size, set(smaller)) if each]
    assert len(found) == len(set(found))
    return sorted(found)


def test_an_option_is_every_smallest_handful_and_none_that_holds_another():
    assert options_of(FORTY, (20, 30, 60), MORE, 1, most_pairs=1) == [(60,)]
    assert options_of(FORTY, (20, 30, 60), MORE, 2, most_pairs=1) == [(20, 30)]
    # With 20 known by itself what holds it is no option.
    assert options_of(FORTY, (20, 30, 60), MORE, 2, most_pairs=1, smaller=[(20,)]) == []
    assert options_of(FORTY, (60, 60, 20, 30), MORE, 2, most_pairs=1) == [(20, 30)]
    # 60 over 40 is one pair; two pairs of it want 20-30 too, three of anything more.
    assert options_of(lathe_of(40, 50), (75, 60), MORE, 1, most_pairs=1) == [(60,), (75,)]


def test_the_tolerance_itself_is_near_enough_on_both_sides():
    # 59 and 61 over 40 are a sixtieth off 60 over 40.
    sixtieth = Fraction(1, 60)
    assert options_of(FORTY, (58, 59, 61, 62), MORE, 1, most_pairs=1, within=sixtieth) == [(59,), (61,)]
    assert options_of(FORTY, (58, 59, 61, 62), MORE, 1, most_pairs=1, within=Fraction(1, 61)) == []


def test_a_lever_is_tried_in_each_of_its_places():
    levers = (("A", Fraction(1)), ("B", Fraction(1, 2)))
    # 60 over 40 at A, 120 over 40 at B.
    assert options_of(lathe_of(40, levers=levers), (60, 120), MORE, 1, most_pairs=1) == [(60,), (120,)]


def test_three_pairs_are_looked_at_where_nothing_else_is_said():
    # Nothing but 2/1 three times over: 40-20, 60-30 and 80-40 with the 40 already there, 8 in all.
    lathe, eight = lathe_of(20, 30, 40, 60, 80), FORTY.lead_at_equal_wheels * 8
    assert options_of(lathe, (40,), eight, 1, most_pairs=2) == []
    assert options_of(lathe, (40,), eight, 1) == [(40,)]
    assert options_of(lathe, (40,), eight, 1, most_pairs=3) == [(40,)]


def test_idlers_are_added_where_the_hand_wants_one_and_those_of_the_box_are_used_first():
    # Without a reverse one pair cuts left-handed. 60-40 wants the 60 and any idler.
    no_reverse = lathe_of(40, reverse=False)
    assert options_of(no_reverse, (50, 60), MORE, 1, most_pairs=1) == []
    assert options_of(no_reverse, (50, 60), MORE, 2, most_pairs=1) == [(50, 60), (60, 60)]
    assert options_of(no_reverse, (50, 60), MORE, 1, most_pairs=1, hand=Hand.LEFT) == [(60,)]
    # A 20 in the box is the idler.
    assert options_of(lathe_of(20, 40, reverse=False), (50, 60), MORE, 1, most_pairs=1) == [(60,)]
    # 40-60 are there, and only the idler is not.
    assert options_of(lathe_of(40, 60, reverse=False), (50, 60), MORE, 1, most_pairs=1) == [(50,), (60,)]
    # A banjo of no stud has no place for one.
    bare = lathe_of(40, 60, reverse=False, banjo=Banjo(studs=0))
    assert options_of(bare, (50, 60), MORE, 1, most_pairs=1) == []


@pytest.mark.parametrize(("planes", "found"), [(None, [(90,)]), (1, []), (2, [(90,)])])
def test_a_banjo_one_wheel_deep_has_no_room_for_two_pairs(planes, found):
    # A third of the screw by the 90 and three of 20, 40, 60 and 80: a sleeve is two wheels deep.
    lathe = lathe_of(20, 40, 60, 80, banjo=Banjo(stud_nut=Length.of_mm(5), planes=planes))
    assert options_of(lathe, (90,), lathe.lead_at_equal_wheels * Fraction(1, 3), 1, most_pairs=2) == found


@pytest.mark.parametrize(("planes", "found"), [(None, [(90, 90)]), (1, []), (2, [(90, 90)])])
def test_a_banjo_one_wheel_deep_has_no_room_for_two_pairs_and_an_idler_to_add(planes, found):
    # 20-40, 60-90 and, for the left hand, one wheel more where none is left in the box.
    banjo = Banjo(stud_nut=Length.of_mm(5), planes=planes)
    lathe = lathe_of(20, 40, 60, reverse=False, banjo=banjo)
    third = lathe.lead_at_equal_wheels * Fraction(1, 3)
    assert options_of(lathe, (90,), third, 2, most_pairs=2, hand=Hand.LEFT) == found


def test_wheels_of_another_class_stand_beside_those_to_add():
    # 120 over 60 of the finer class and 30 over 40: the 30 alone makes no lead of half as much again.
    finer = WheelClass("module 0.5", Length.of_mm("0.5"), ((60, 1), (120, 1)))
    assert options_of(lathe_of(40, others=(finer,)), (30,), MORE, 1, most_pairs=2) == [(30,)]
    assert options_of(FORTY, (30,), MORE, 1, most_pairs=2) == []


def test_two_wheels_on_one_sleeve_bring_their_own_ratio():
    # 40 drives the 60 of the sleeve, its 30 drives the 80 to add: a quarter.
    quarter = FORTY.lead_at_equal_wheels * Fraction(1, 4)
    assert options_of(replace(FORTY, keyed_pairs=((60, 30),)), (80,), quarter, 1, most_pairs=2) == [(80,)]
    assert options_of(FORTY, (80,), quarter, 1, most_pairs=2) == []


def test_a_wheel_to_add_that_is_like_one_of_the_box_leaves_that_one_for_an_idler():
    # The lead of the screw is 40 over another 40; the idler may be the 30 of the box, or it is one more.
    even = FORTY.lead_at_equal_wheels
    assert options_of(lathe_of(30, 40, reverse=False), (40,), even, 1, most_pairs=1) == [(40,)]
    assert options_of(lathe_of(40, reverse=False), (40,), even, 1, most_pairs=1) == []
    assert options_of(lathe_of(40, reverse=False), (40,), even, 2, most_pairs=1) == [(40, 40)]


def test_what_was_looked_at_is_counted():
    # One side of each row meets 60: 40 of the box against 60 to add, one match and one train.
    options = WheelOptions(FORTY, (60,), most_pairs=1)
    assert options.looked_at == 0
    assert [each for each in options.of_size(MORE, EXACT, 1, set()) if each] == [(60,)]
    assert options.looked_at == 2
    # Without a reverse an idler is wanted: the one match, then the 50 and the 60 tried as idlers.
    for_hand = WheelOptions(lathe_of(40, reverse=False), (50, 60), most_pairs=1)
    assert sum(each is not None for each in for_hand.of_size(MORE, EXACT, 2, set())) == 2
    assert for_hand.looked_at == 3
    # The same again: it is found before it is tried a second time.
    list(options.of_size(MORE, EXACT, 1, {(60,)}))
    assert options.looked_at == 3
    # 20 over 30 and the other way about; the last of 60 rows is none of them.
    none = WheelOptions(FORTY, (50, 70), most_pairs=1)
    list(none.of_size(MORE, EXACT, 1, set()))
    assert none.looked_at == 0


@pytest.mark.parametrize(("pulse", "pauses"), [(1, 4), (2, 3), (3, 2), (4, 2)])
def test_a_pause_comes_at_the_first_row_of_drivers_and_after_every_so_many(monkeypatch, pulse, pauses):
    # One wheel to add as driver is three rows, and the 40 of the box is one.
    monkeypatch.setattr(wheel_options, "PULSE", pulse)
    options = WheelOptions(FORTY, (50, 70, 90), most_pairs=1)
    assert list(options.of_size(MORE, EXACT, 1, set())) == [None] * pauses


@pytest.mark.parametrize(("pulse", "pauses"), [(1, 3), (2, 1), (3, 1), (4, 0)])
def test_a_pause_comes_after_every_so_many_choices_of_idlers(monkeypatch, pulse, pauses):
    # 40-60 are in the box and cut what is wanted but for an idler: 50, 70 or 90, each of which is one.
    lathe = lathe_of(40, 60, reverse=False)
    options = WheelOptions(lathe, (50, 70, 90), most_pairs=1)
    plain = list(options.of_size(MORE, EXACT, 1, set()))
    assert sorted(each for each in plain if each) == [(50,), (70,), (90,)]
    monkeypatch.setattr(wheel_options, "PULSE", pulse)
    # The rows of drivers pause besides; there are as many of those as with no idler to find.
    rows = list(options.of_size(MORE, EXACT, 1, set())).count(None)
    monkeypatch.setattr(wheel_options.WheelOptions, "_with_idlers", lambda *_: iter(()))
    assert rows - list(options.of_size(MORE, EXACT, 1, set())).count(None) == pauses


def test_some_but_not_all_of_the_wheels_are_an_option():
    assert contains_any((20, 30, 60), {(20, 60)})
    assert contains_any((20, 30, 60), {(30,)})
    assert not contains_any((20, 30, 60), {(20, 30, 60), (20, 20), ()})


def test_exactly_as_large_sides_as_are_kept_are_looked_at(monkeypatch):
    # One wheel of the box and three to add, or any two of three: three rows and six.
    monkeypatch.setattr(wheel_options, "MOST_ROWS", 3)
    options = WheelOptions(lathe_of(40), (20, 30, 60), most_pairs=1)
    assert [each for each in options.of_size(MORE, EXACT, 2, set()) if each] == [(20, 30)]
    # One named twice is one.
    twice = WheelOptions(lathe_of(40), (60, 20, 30, 60), most_pairs=1)
    assert [each for each in twice.of_size(MORE, EXACT, 2, set()) if each] == [(20, 30)]
    monkeypatch.setattr(wheel_options, "MOST_ROWS", 2)
    with pytest.raises(TooManySidesError):
        list(WheelOptions(lathe_of(40), (20, 30, 60), most_pairs=1).of_size(MORE, EXACT, 2, set()))
