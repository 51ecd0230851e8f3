"""Heads so small that every setting they have can be written down by hand: one circle or two, and a few wheels."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import lcm

import pytest

from solver.dividing import differential as room
from solver.dividing.compound import compound
from solver.dividing.differential import OneWheelMore, can_gear, differential, wheel_that_helps
from solver.dividing.divide import divide, exact_settings, nearest_settings
from solver.dividing.heads import Head, Plate
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.plate_gearing import GearBox, PlateGearing, gearings
from solver.refusals import ImpossibleSettingError
from solver.trains.wheels import Pair, Train


def head_of(*circles: int, wheels: dict[int, int] | None = None, ratio: Fraction | int = 40) -> Head:
    return Head("small", Fraction(ratio), (Plate("A", (circles,)),), wheels=tuple((wheels or {}).items()))


def two_plates(*circles: int, wheels: dict[int, int] | None = None) -> Head:
    """The same circles on two plates, of which B was written down first."""
    plates = (Plate("B", (circles,)), Plate("A", (circles,)))
    return Head("two plates", Fraction(40), plates, wheels=tuple((wheels or {}).items()))


def test_plates_with_the_same_circle_come_by_their_names():
    assert list(two_plates(15, 20).circles()) == [("A", 20), ("B", 20), ("A", 15), ("B", 15)]


def test_a_whole_turn_of_the_work_is_a_move_like_another():
    assert [answer.move for answer in divide(head_of(15), Fraction(1)).answers] == [CrankMove(40, 0, None)]


def test_whole_turns_need_no_plate_and_spaces_name_theirs():
    part = Fraction(1, 8)
    report = divide(head_of(15, 20), part)
    assert (report.wanted, report.crank_turns) == (part, 5)
    assert report.answers == (IndexAnswer(Method.PLAIN, CrankMove(5, 0, None), None, part, part, 8),)
    part = Fraction(1, 24)
    assert exact_settings(head_of(15, 18, 20), part) == (
        IndexAnswer(Method.PLAIN, CrankMove(1, 12, 18), "A", part, part, 24),
        IndexAnswer(Method.PLAIN, CrankMove(1, 10, 15), "A", part, part, 24),
    )


def test_the_larger_of_the_spindles_own_circles_comes_first():
    bare = Head("bare", Fraction(1), (), (12, 36, 12), has_worm=False)
    part = Fraction(1, 4)
    assert exact_settings(bare, part) == (
        IndexAnswer(Method.DIRECT, CrankMove(0, 9, 36), None, part, part, 4),
        IndexAnswer(Method.DIRECT, CrankMove(0, 3, 12), None, part, part, 4),
    )
    # Three holes of 36 and one of 12 are the same twelfth of a turn.
    part = Fraction(1, 11)
    assert nearest_settings(bare, part) == (
        IndexAnswer(Method.NEAREST, CrankMove(0, 3, 36), None, part, Fraction(1, 12), 11),
        IndexAnswer(Method.NEAREST, CrankMove(0, 1, 12), None, part, Fraction(1, 12), 11),
    )


def test_of_holes_that_are_as_near_the_larger_circle_comes_first():
    # 0.51 turn of the crank: half a turn is as near as either circle comes, 0.01 turn short; 7 of 15 are farther off.
    part = Fraction(51, 4000)
    assert nearest_settings(head_of(10, 15, 20), part) == (
        IndexAnswer(Method.NEAREST, CrankMove(0, 10, 20), "A", part, Fraction(1, 80), 4000),
        IndexAnswer(Method.NEAREST, CrankMove(0, 5, 10), "A", part, Fraction(1, 80), 4000),
        IndexAnswer(Method.NEAREST, CrankMove(0, 8, 15), "A", part, Fraction(1, 75), 4000),
    )


def test_five_of_the_nearest_holes_are_listed_unless_more_are_asked_for():
    head = head_of(15, 16, 17, 18, 19, 20, 21)
    assert len(divide(head, Fraction(1, 127)).answers) == 5
    assert len(divide(head, Fraction(1, 127), most_nearest=9).answers) == 7


def test_two_circles_without_a_common_factor_make_a_sum_in_one_way_or_two():
    # 40/69 = 22/33 - 2/23 = 21/23 - 11/33, the shorter motions first; there are no others on these circles.
    part = Fraction(1, 69)
    assert compound(head_of(23, 33), part, at_once=1) == (
        IndexAnswer(Method.COMPOUND, CrankMove(0, 22, 33), "A", part, part, 69, CrankMove(0, 2, 23, -1)),
        IndexAnswer(Method.COMPOUND, CrankMove(0, 21, 23), "A", part, part, 69, CrankMove(0, 11, 33, -1)),
    )
    # 11/6 = 1 + 5/15 + 8/16.
    part = Fraction(11, 240)
    assert compound(head_of(15, 16), part) == (
        IndexAnswer(Method.COMPOUND, CrankMove(1, 5, 15), "A", part, part, 240, CrankMove(0, 8, 16)),
    )


def sums(answers: tuple[IndexAnswer, ...]) -> list[tuple[tuple[int, int | None, int], ...]]:
    return [tuple((move.spaces, move.circle, move.sign) for move in answer.moves) for answer in answers]


def test_two_circles_with_a_common_factor_of_five_make_a_sum_in_five_ways_of_which_one_goes_back():
    # 50/60: a fifteenth is 4/60 and a twentieth 3/60. The last two are one sum, taken from either circle.
    assert sums(compound(head_of(15, 20), Fraction(1, 48), at_once=1)) == [
        ((2, 15, 1), (14, 20, 1)),
        ((5, 15, 1), (10, 20, 1)),
        ((8, 15, 1), (6, 20, 1)),
        ((11, 15, 1), (2, 20, 1)),
        ((18, 20, 1), (1, 15, -1)),
        ((14, 15, 1), (2, 20, -1)),
    ]


def test_one_circle_may_be_a_multiple_of_the_other():
    # 7/10 = 1/5 + 5/10 and so on: a fifth is 2/10, and both motions are more than nothing.
    assert sums(compound(head_of(5, 10), Fraction(7, 400))) == [
        ((1, 5, 1), (5, 10, 1)),
        ((2, 5, 1), (3, 10, 1)),
        ((3, 5, 1), (1, 10, 1)),
        ((4, 5, 1), (1, 10, -1)),
        ((9, 10, 1), (1, 5, -1)),
    ]


def test_among_equal_sums_large_circles_come_first_then_plates_by_name_then_faces():
    first, *_ = compound(head_of(15, 18, 20), Fraction(1, 48), at_once=1)
    assert sums((first,)) == [((6, 18, 1), (10, 20, 1))]
    plates = [answer.plate for answer in compound(two_plates(15, 16), Fraction(1, 48), at_once=1)]
    assert plates == ["A", "B"]
    two_faced = Head("two faces", Fraction(40), (Plate("A", ((15, 20), (20, 15))),))
    faces = [answer.face for answer in compound(two_faced, Fraction(1, 48), at_once=1)]
    assert faces == [1] * 4 + [2] * 4 + [1, 2, 1, 2]


Way = tuple[CrankMove, CrankMove]


def every_sum(low: int, high: int, most: int) -> dict[int, set[Way]]:
    """Make every sum of spaces on both circles, in parts of 1/L: forwards, and back where it is short of a turn."""
    whole = lcm(low, high)
    found: dict[int, set[Way]] = {}
    for one in range(1, low):
        for other in range(1, high):
            total = one * whole // low + other * whole // high
            for turns in range(most + 1):
                way = CrankMove(turns, one, low), CrankMove(0, other, high)
                found.setdefault(total + turns * whole, set()).add(way)
            if total > whole:
                # A whole turn less: the one goes back by what the other leaves of its circle.
                for way in (
                    (CrankMove(0, one, low), CrankMove(0, high - other, high, -1)),
                    (CrankMove(0, other, high), CrankMove(0, low - one, low, -1)),
                ):
                    found.setdefault(total - whole, set()).add(way)
    return found


def nearest_by_trying(turns: Fraction, high: int, whole: int, every: dict[int, set[Way]]) -> set[tuple[Way, int]]:
    """The nearest sum, and the nearest with both forwards if that is another, within half a hole of the larger."""
    near = sorted(
        (abs(total - turns * whole), total) for total in every if 2 * abs(total - turns * whole) < turns * whole
    )
    forward = [(off, total) for off, total in near if any(second.sign > 0 for _, second in every[total])]
    found = {(way, total) for _, total in near[:1] for way in every[total]}
    if forward and forward[0] != near[0] and 2 * high * forward[0][0] < whole:
        total = forward[0][1]
        found |= {(way, total) for way in every[total] if way[1].sign > 0}
    return found


@pytest.mark.parametrize(("low", "high"), [(3, 4), (4, 6), (4, 7), (5, 8), (6, 9)])
def test_on_two_small_circles_the_settings_are_those_found_by_trying_every_sum(low, high):
    head, whole, every = head_of(low, high, ratio=5), lcm(low, high), every_sum(low, high, 6)
    # An odd count leaves no two sums equally near.
    for count in range(1, 100, 2):
        found = nearest_by_trying(Fraction(5, count), high, whole, every)
        exact = {(way, total) for way, total in found if total * count == 5 * whole}
        wanted = {(way, Fraction(total, 5 * whole)) for way, total in exact or found}
        if not wanted:
            with pytest.raises(ImpossibleSettingError):
                compound(head, Fraction(1, count), at_once=1)
            continue
        answers = compound(head, Fraction(1, count), at_once=1)
        assert {(answer.moves, answer.reached) for answer in answers} == wanted, count
        assert len(answers) == len(wanted)
        errors = [abs(answer.error_per_move.turns) for answer in answers]
        assert errors == sorted(errors)


def test_a_sum_of_half_as_much_or_of_half_a_hole_more_is_no_answer():
    # Of a twelfth, which is 2/3 - 1/4 less a third, two thirds were wanted: just half as much again.
    with pytest.raises(ImpossibleSettingError):
        compound(head_of(3, 4, ratio=5), Fraction(1, 90), at_once=1)
    # 5 1/2 twelfths: 2/3 - 1/4 are nearest, and 1/3 + 1/4 are off by an eighth, half a hole of four.
    assert sums(compound(head_of(3, 4, ratio=5), Fraction(11, 120))) == [
        ((2, 3, 1), (1, 4, -1)),
        ((3, 4, 1), (1, 3, -1)),
    ]


def geared(move: CrankMove, train: Train, idlers: tuple[int, ...], rate: Fraction | int, nominal: int, count: int):
    part, plate = Fraction(1, count), None if move.circle is None else "A"
    gearing = PlateGearing(train, idlers, Fraction(rate), Fraction(nominal))
    return IndexAnswer(Method.DIFFERENTIAL, move, plate, part, part, count, gearing=gearing)


def test_the_one_geared_setting_of_127_on_39_holes():
    # x = 40 - 127·13/39 = -7/3, and no other move of this circle calls for a ratio of these wheels.
    head = head_of(39, wheels={24: 2, 44: 1, 56: 1})
    only = geared(CrankMove(0, 13, 39), Train((Pair(56, 24),)), (24, 44), Fraction(-7, 3), 120, 127)
    assert differential(head, Fraction(1, 127)) == (only,)


def test_a_whole_turn_against_a_geared_plate_is_listed_once_for_all_circles():
    # x = 40 - 39 = 1.
    head = head_of(15, 20, wheels={24: 2, 48: 1})
    only = geared(CrankMove(1, 0, None), Train((Pair(24, 24),)), (48,), 1, 40, 39)
    assert differential(head, Fraction(1, 39)) == (only,)


def test_geared_settings_are_ranked_by_pairs_rate_circle_idlers_plate_direction_and_train():
    # 40 divisions are a whole turn each; 19/20 of it calls for x = 2, 21/20 for -2, 18/20 for 4: two pairs.
    head = two_plates(10, 20, wheels={24: 1, 28: 1, 48: 1, 56: 1})
    ranked = [
        (str(answer.gearing.train), answer.gearing.plate_turns, answer.move, answer.plate, len(answer.gearing.idlers))
        for answer in differential(head, Fraction(1, 40))
        if answer.gearing
    ]
    short, long = CrankMove(0, 19, 20), CrankMove(1, 1, 20)
    assert ranked == [
        *[(train, 2, short, plate, 1) for plate in "AB" for train in ("48-24", "56-28")],
        *[(train, -2, long, plate, 2) for plate in "AB" for train in ("48-24", "56-28")],
        *[("56-24-48-28", 4, CrankMove(0, 18, 20), plate, 0) for plate in "AB"],
        *[("56-24-48-28", 4, CrankMove(0, 9, 10), plate, 0) for plate in "AB"],
    ]


def test_a_plate_that_turns_slowly_comes_before_one_that_turns_fast():
    # 22/20 of a turn calls for x = 3/2, and 24/20 for -2.
    head = head_of(20, wheels={24: 1, 30: 1, 36: 1, 48: 1})
    rates = [answer.gearing.plate_turns for answer in differential(head, Fraction(1, 35)) if answer.gearing]
    assert rates == [Fraction(3, 2), -2]


def test_a_circle_on_both_faces_of_a_plate_is_geared_as_one_is():
    wheels = ((24, 2), (48, 1))
    plate = Plate("A", ((2,), (2,)))
    only = geared(CrankMove(0, 1, 2), Train((Pair(24, 48),)), (24,), Fraction(1, 2), 80, 79)
    assert set(differential(Head("two faces", Fraction(40), (plate,), wheels=wheels), Fraction(1, 79))) == {only}


def test_no_more_settings_are_listed_than_are_said_and_those_are_the_first(monkeypatch):
    head = two_plates(10, 20, wheels={24: 1, 28: 1, 48: 1, 56: 1})
    every = differential(head, Fraction(1, 40))
    monkeypatch.setattr(room, "MOST_SETTINGS", 3)
    assert differential(head, Fraction(1, 40)) == every[:3]


def test_the_direction_of_the_plate_decides_whether_three_wheels_are_enough():
    # Half a turn each of 79 and of 81 calls for x = 1/2 and -1/2; following needs one idler, going against two.
    head = head_of(2, wheels={24: 1, 30: 1, 48: 1})
    follows = geared(CrankMove(0, 1, 2), Train((Pair(24, 48),)), (30,), Fraction(1, 2), 80, 79)
    assert differential(head, Fraction(1, 79)) == (follows,)
    assert differential(head, Fraction(1, 81)) == ()
    assert can_gear(head, Fraction(1, 79))
    assert not can_gear(head, Fraction(1, 81))
    # A head that says so follows as one that says nothing; one with a mesh more inside goes the other way.
    assert differential(replace(head, one_idler_follows=True), Fraction(1, 79)) == (follows,)
    other = replace(head, one_idler_follows=False)
    assert differential(other, Fraction(1, 79)) == ()
    assert len(differential(other, Fraction(1, 81))) == 1


def test_four_wheels_in_two_pairs_leave_none_for_an_idler():
    wheels = {24: 1, 28: 1, 48: 1, 56: 1}
    head = head_of(20, wheels=wheels)
    (follows,) = gearings(head, Fraction(4), Fraction(40), 2)
    # The larger driver on the spindle, the larger driven wheel at the plate.
    assert follows == PlateGearing(Train((Pair(56, 24), Pair(48, 28))), (), Fraction(4), Fraction(40))
    assert gearings(head, Fraction(-4), Fraction(40), 2) == []
    box = GearBox(tuple(wheels.items()))
    assert box.can_make(4, 1, (9, 0))
    assert not box.can_make(4, 1, (9, 1))


def test_idlers_are_taken_from_the_middle_of_what_is_left():
    (gearing,) = gearings(head_of(20, wheels={24: 2, 28: 1, 32: 1, 40: 1}), Fraction(1), Fraction(40), 1)
    assert gearing.idlers == (32,)


def test_no_train_of_a_box_is_faster_than_two_pairs_make_it():
    assert GearBox(((20, 3), (60, 3))).largest_ratio == 9


def test_the_wheel_that_helps_makes_the_simplest_train_and_a_smaller_one_may_make_another():
    # One of two holes: x = 40 - 73/2 = 7/2 = 84/24 = 98/28, or 72/24 · 28/24 with all four.
    head = head_of(2, wheels={24: 2, 28: 1})
    with_84 = geared(CrankMove(0, 1, 2), Train((Pair(84, 24),)), (24,), Fraction(7, 2), 80, 73)
    assert wheel_that_helps(head, Fraction(1, 73)) == OneWheelMore(84, with_84, 72)


def test_a_second_wheel_of_a_count_may_be_what_is_wanting():
    head = head_of(20, wheels={24: 1, 28: 1})
    with_24 = geared(CrankMove(1, 0, None), Train((Pair(24, 24),)), (28,), 1, 40, 39)
    assert wheel_that_helps(head, Fraction(1, 39)) == OneWheelMore(24, with_24, 24)


def test_where_an_idler_alone_is_wanting_the_smallest_wheel_will_do():
    # One of three holes: x = 40 - 127/3 = -7/3 = -56/24, and the plate goes against the crank by two idlers.
    head = head_of(3, wheels={24: 1, 44: 1, 56: 1})
    with_20 = geared(CrankMove(0, 1, 3), Train((Pair(56, 24),)), (20, 44), Fraction(-7, 3), 120, 127)
    assert wheel_that_helps(head, Fraction(1, 127)) == OneWheelMore(20, with_20, 20)


def test_wheels_of_20_to_127_teeth_are_suggested_and_no_others():
    # One of 24 holes: x = 40 - 833/24 = 127/24; one of five: x = 40 - 194/5 = 24/20.
    for circle, count, teeth in ((24, 833, 127), (5, 194, 20)):
        helps = wheel_that_helps(head_of(circle, wheels={24: 2}), Fraction(1, count))
        assert helps is not None
        assert helps.teeth == teeth
    # x = 40 - 832/24 = 128/24, and one of 3: x = 40 - 116.·1/3 would want more than 127 or fewer than 20 teeth.
    assert wheel_that_helps(head_of(24, wheels={24: 2}), Fraction(1, 832)) is None


def test_a_plate_is_not_driven_faster_than_eight_times_for_a_suggestion():
    # One of two holes: x = 40 - 64/2 = 8, and 40 - 63/2 = 17/2.
    wheels = {16: 2, 14: 1}
    assert [
        helps and helps.teeth
        for count in (64, 63)
        for helps in (wheel_that_helps(head_of(2, wheels=wheels), Fraction(1, count)),)
    ] == [112, None]
