"""Boxes so small that every train can be written down: halves, sleeves, one wheel more, the order of answers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import combinations_with_replacement
from math import prod
from typing import Any

import pytest

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, PiLength, lead_bounds_mm
from solver.trains.extra_wheels import errors_by_wheel, extra_wheels, largest_proposed
from solver.trains.hand import Hand
from solver.trains.lathe import Banjo, Lathe
from solver.trains.matches import Halves, forget_halves, nearest_matches, sleeve_choices
from solver.trains.near_unity import NearUnity, near_unity
from solver.trains.reach import Reach, Reached, WheelWorth, reach, worth_of_one_wheel
from solver.trains.sides import Box, Side
from solver.trains.train_search import TrainQuestion, least_changed, search_trains
from solver.trains.translating import stand_ins
from solver.trains.wheels import WheelClass
from solver.trains.written_trains import read_train
from tests.small_lathes import FREE, a_lathe, box_of

F = Fraction
INCH, MM = Length.of_inches, Length.of_mm
free = partial(a_lathe, banjo=FREE)


# Halves of the search.


def test_sides_come_by_rising_product_then_by_their_wheels_and_no_wheel_twice_that_is_there_once():
    box = Box((box_of(20, 30, 40, 40, 60),))
    assert [(side.product, [teeth for _, teeth in side.wheels]) for side in box.sides((2,))] == [
        (600, [20, 30]), (800, [20, 40]), (1200, [20, 60]), (1200, [30, 40]), (1600, [40, 40]), (1800, [30, 60]),
        (2400, [40, 60]),
    ]  # fmt: skip
    two = Box((box_of(20, 40), box_of(33, 44, size="2")))
    assert [(side.product, side.wheels) for side in two.sides((1, 1))] == [
        (660, ((0, 20), (1, 33))),
        (880, ((0, 20), (1, 44))),
        (1320, ((0, 40), (1, 33))),
        (1760, ((0, 40), (1, 44))),
    ]
    assert two.sides((0, 1)) == [Side(33, two.sides((0, 1))[0].code, ((1, 33),)), *two.sides((0, 1))[1:]]


@pytest.mark.parametrize(("held", "most"), [(1, 1), (2, 2), (3, 3), (7, 7), (8, 8), (9, 8), (20, 8), (15, 8)])
def test_two_sides_share_a_box_up_to_what_it_holds(held, most):
    box = Box((WheelClass("module 1", MM(1), ((20, held), (40, 1))),))
    sides = {count: next(iter(box.sides((count,))), None) for count in range(5)}
    for count, side in sides.items():
        assert (side is not None and side.wheels == ((0, 20),) * count) is (count <= most)
    for one in range(1, 5):
        for other in range(1, 5):
            if sides[one] and sides[other] and one <= held and other <= held:
                assert box.can_share(sides[one], sides[other]) is (one + other <= most)


def test_pairs_are_shared_out_among_the_classes():
    free, first, second = box_of(20, 40), box_of(20, 40, only_in_pair=1), box_of(20, 40, only_in_pair=2)
    assert list(Box((free, free)).compositions(2)) == [(0, 2), (1, 1), (2, 0)]
    assert list(Box((free, first)).compositions(2)) == [(1, 1), (2, 0)]
    assert list(Box((first, first)).compositions(2)) == []
    assert list(Box((first, second)).compositions(2)) == [(1, 1)]
    # A class of the second pair has no place in a train of one, but beside a sleeve there are two.
    assert list(Box((free, second)).compositions(1)) == [(1, 0)]
    assert list(Box((free, second)).compositions(1, 2)) == [(0, 1), (1, 0)]
    assert list(Box((first, second)).compositions(1)) == [(1, 0)]


def test_sleeves_are_used_none_first_each_way_round_and_no_choice_twice():
    assert list(sleeve_choices([(60, 63), (20, 30)], 2)) == [
        (), ((60, 63),), ((63, 60),), ((20, 30),), ((30, 20),),
        ((20, 30), (60, 63)), ((30, 20), (60, 63)), ((20, 30), (63, 60)), ((30, 20), (63, 60)),
    ]  # fmt: skip
    assert list(sleeve_choices([(60, 60)], 1)) == [(), ((60, 60),)]
    assert list(sleeve_choices([(60, 63), (60, 63)], 2)) == [
        (), ((60, 63),), ((63, 60),), ((60, 63), (60, 63)), ((60, 63), (63, 60)), ((63, 60), (63, 60)),
    ]  # fmt: skip
    assert list(sleeve_choices([(60, 63)], 0)) == [()]
    assert list(sleeve_choices([], 3)) == [()]


def test_matches_with_a_sleeve_hold_its_wheels_among_the_others():
    # 20 over 60 and 63 over 40, on a lathe of 3 mm: 3 x 20 x 63 / (60 x 40) = 63/40 mm.
    lathe = free(20, 40, keyed_pairs=((60, 63),), levers=(("A", F(1)), ("B", F(1, 2))))
    best = nearest_matches(lathe, MM(F(63, 80)), 2)[0]
    assert (best.error, best.lever, best.keyed) == (0, "B", ((60, 63),))
    assert (best.drivers, best.driven) == (((0, 20), (0, 63)), ((0, 40), (0, 60)))
    assert nearest_matches(free(20), MM(1), 1) == []
    # 40 over 20 is off by a third of what is wanted; so is nothing else as little.
    near = nearest_matches(free(20, 40), MM(9), 1)
    assert [(match.error, match.drivers) for match in near] == [(F(-1, 3), ((0, 40),))]


def test_bands_widen_to_the_tolerance_and_on_to_everything():
    forget_halves()
    bands = list(Halves(free(40, 50, 60), 1).bands(MM(3), F(3, 10)))
    assert [band.within for band in bands] == sorted(
        [F(0), *(F(1, 10**n) for n in range(1, 6)), F(3, 10), F(1, 2), F(10**12)]
    )
    # 50/60, 40/50, 60/50, 50/40, 40/60 and 60/40 of 3 mm.
    assert [match.error for match in bands[-1].matches] == [F(-1, 6), F(-1, 5), F(1, 5), F(1, 4), F(-1, 3), F(1, 2)]
    assert [len(band.matches) for band in bands][-4:] == [0, 4, 6, 6]
    assert all(band.is_complete for band in bands)


# The order of answers.


def answers(lead: Lead, lathe: Lathe, **more: Any) -> list[str]:
    report = search_trains(TrainQuestion(lead, **more), lathe)
    return [f"{answer.lever or ''}{answer.train}" for answer in report.answers]


def test_the_best_of_each_number_of_pairs_comes_first_and_the_nearest_before_the_others():
    lathe = free(20, 30, 40, 45, 60, 80)
    # 1.5 mm: one pair in three ways, the mildest step being one to two in all: the largest small wheel first.
    assert answers(MM("1.5"), lathe, most_pairs=1) == ["40-80", "30-60", "20-40"]
    assert answers(MM("1.5"), lathe, most_pairs=1, wanted=2) == ["40-80", "30-60"]
    both = answers(MM("1.5"), lathe, most_pairs=2, wanted=2, within=F(0))
    assert both[0] == "40-80"
    assert both[2] == "30-60"
    assert [len(each.split("-")) for each in both] == [2, 4, 2, 4]
    # 2.25 mm is 45 over 60 exactly, 2 mm is not 40 over 45 but 30 over 45, 20 over 30 and 40 over 60.
    assert answers(MM(2), lathe, most_pairs=1) == ["40-60", "30-45", "20-30"]
    # A nearer train of two pairs comes before one of one pair that is farther off.
    uneven = free(20, 30, 40, 41)
    mixed = search_trains(TrainQuestion(MM(F(3 * 20 * 41, 30 * 40)), most_pairs=2, within=F(1, 2), wanted=1), uneven)
    assert [len(answer.train.pairs) for answer in mixed.answers] == [2, 1]
    assert mixed.answers[0].error.is_exact


def test_a_train_has_one_pair_at_least():
    # Equal wheels cut the 3 mm of the screw; 40 and 60 T alone make no such train.
    assert answers(MM(3), free(40, 40, 60)) == ["40-40"]
    report = search_trains(TrainQuestion(MM(3)), free(40, 60))
    assert report.answers == ()
    assert report.nearest is not None
    assert str(report.nearest.train) == "40-60"
    assert TrainQuestion(MM(3)) == TrainQuestion(MM(3), Hand.RIGHT, 3, F(1, 1000), 3, None)


def test_of_two_levers_that_serve_alike_the_first_by_name_is_told_first():
    lathe = free(40, 60, levers=(("B", F(1)), ("A", F(1))))
    assert answers(MM(2), lathe, most_pairs=1) == ["A40-60", "B40-60"]


def test_an_answer_that_needs_an_idler_comes_after_one_that_does_not():
    lathe = free(20, 30, 40, 60, 50, reverse=False)
    found = search_trains(TrainQuestion(MM(2), most_pairs=2, within=F(0), wanted=9), lathe).answers
    assert [len(answer.idlers) for answer in found if len(answer.train.pairs) == 1] == [1, 1]
    left = search_trains(TrainQuestion(MM(2), Hand.LEFT, most_pairs=1, within=F(0)), lathe).answers
    assert [str(answer.train) for answer in left] == ["40-60", "20-30"]
    assert all(answer.idlers == () for answer in left)


def test_what_is_mounted_is_kept_as_far_as_it_goes():
    lathe = free(20, 30, 40, 60, 80)
    question = TrainQuestion(MM("1.5"), most_pairs=1, mounted=read_train("20-60"))
    report = search_trains(question, lathe)
    # 20 over 40 and 30 over 60 change one wheel each, 40 over 80 both; of the two the larger small wheel is first.
    assert [str(answer.train) for answer in report.answers] == ["30-60", "20-40", "40-80"]
    assert report.least_changed is not None
    assert str(report.least_changed.train) in ("20-40", "30-60")
    assert search_trains(question._replace(mounted=None), lathe).least_changed is None
    # Where nothing is within the tolerance there is nothing to keep.
    assert search_trains(question._replace(lead=MM(100)), lathe).least_changed is None
    assert least_changed(question._replace(lead=MM(100)), lathe) is None
    # One wheel fewer to handle is worth an error within the tolerance, and of equal handling the least error is taken.
    near = TrainQuestion(MM("1.5"), most_pairs=1, within=F(1, 5), mounted=read_train("30-80"))
    kept = least_changed(near, free(20, 30, 40, 60, 80, 75))
    assert kept is not None
    assert (str(kept.train), kept.error.relative) == ("30-60", 0)
    farther = least_changed(near._replace(mounted=read_train("30-75")), free(20, 30, 40, 75, 80))
    assert farther is not None
    assert (str(farther.train), farther.error.relative) == ("30-75", F(-1, 5))


def test_the_train_that_changes_fewest_wheels_cuts_the_hand_that_is_asked_for():
    plain = free(20, 30, 40, 60, reverse=False)
    question = TrainQuestion(MM(2), most_pairs=2, within=F(0), mounted=read_train("40-50"))
    right, left = (least_changed(question._replace(hand=hand), plain) for hand in Hand)
    assert right is not None
    assert left is not None
    assert (str(right.train), len(right.idlers), right.hand.hand) == ("40-60", 1, Hand.RIGHT)
    assert (str(left.train), left.idlers, left.hand.hand) == ("40-60", (), Hand.LEFT)
    # With a lever the lever that serves is told.
    geared = free(20, 40, 80, levers=(("A", F(1)), ("B", F(4, 3))))
    kept = least_changed(question._replace(mounted=read_train("20-30")), geared)
    assert kept is not None
    assert (str(kept.train), kept.lever) == ("20-40", "B")


def test_what_is_nearer_and_does_not_go_on_is_set_aside():
    # 32 over 24 times 100 over 48 goes on in one placing; with a nut of 60 mm in none.
    lead = MM(F(3 * 32 * 100, 24 * 48))
    question = TrainQuestion(lead, most_pairs=2, within=F(0))
    report = search_trains(question, a_lathe(24, 32, 48, 100, banjo=Banjo(stud_nut=MM(60))))
    assert report.answers == ()
    assert [answer.error.relative for answer in report.set_aside] == [0]
    assert report.nearest is not None
    assert report.nearest.fits
    assert not report.set_aside[0].fits
    assert report.cut_short == ()
    one = search_trains(question, a_lathe(24, 32, 48, 100))
    assert ([str(answer.train) for answer in one.answers], one.set_aside, one.nearest) == (["100-24-32-48"], (), None)


# One wheel more, by trying every train there is.


def every_error(teeth: int, stock: list[int], wanted: Fraction, pairs: int) -> Iterator[Fraction]:
    """The errors of all trains of so many pairs that use a wheel of so many teeth once beside those of the box."""
    for few in combinations_with_replacement(sorted(set(stock)), pairs - 1):
        for full in combinations_with_replacement(sorted(set(stock)), pairs):
            if all((few + full).count(each) <= stock.count(each) for each in {*few, *full}):
                with_it = F(teeth * prod(few), prod(full))
                yield with_it / wanted - 1
                yield 1 / with_it / wanted - 1


@pytest.mark.parametrize(
    ("stock", "lead", "pairs", "levers"),
    [
        ([40, 80], MM(1), 1, ()),
        ([20, 30, 45], MM("1.3"), 2, ()),
        ([20, 20, 45], MM("0.35"), 2, (("A", F(1)), ("B", F(3, 4)))),
        ([30, 50], PiLength(F(1, 2)), 2, ()),
    ],
)
def test_what_one_wheel_more_would_do_is_the_best_of_every_train_with_it(stock, lead, pairs, levers):
    lathe = free(*stock, lead=INCH("1/8"), levers=levers)
    middle = sum(lead_bounds_mm(lead)) / 2
    found = errors_by_wheel(lathe, lead, most_pairs=pairs)
    screw = INCH("1/8").mm
    errors = {
        teeth: [
            error
            for count in range(1, pairs + 1)
            for _, ratio in lathe.lever_ratios
            for error in every_error(teeth, stock, middle / (screw * ratio), count)
        ]
        for teeth in range(15, 128)
    }
    # Only wheels next to what some train would need are looked at; what is said of them is as near as any train with
    # them, and none of the others is nearer than the nearest.
    for teeth, error in found.items():
        assert error in errors[teeth]
        assert abs(error) == min(map(abs, errors[teeth]))
    assert min(map(abs, found.values())) == min(abs(error) for each in errors.values() for error in each)


def test_wheels_of_15_to_127_teeth_are_proposed_and_none_beyond_the_guard():
    # 1/8 in by 40 over T: 15 T cuts 8.47 mm and 127 T 1 mm.
    inch = free(40, lead=INCH("1/8"))
    assert errors_by_wheel(inch, MM(1))[127] == 0
    assert errors_by_wheel(inch, INCH(F(40, 8 * 15)))[15] == 0
    for lead in (INCH(F(40, 8 * 14)), INCH(F(40, 8 * 128))):
        assert 0 not in errors_by_wheel(inch, lead, most_pairs=1).values()
    guarded = replace(inch, banjo=Banjo(largest_wheel_teeth=100))
    assert (largest_proposed(guarded), largest_proposed(inch)) == (100, 127)
    assert largest_proposed(replace(inch, banjo=Banjo(largest_wheel_teeth=200))) == 127
    assert errors_by_wheel(guarded, INCH(F(40, 8 * 100)))[100] == 0
    # Twelve tenths of 1/8 in by T over 40 would be 48 T; by 40 over T 101 T is one beyond the guard.
    assert 101 not in errors_by_wheel(guarded, INCH(F(40, 8 * 101)))
    assert errors_by_wheel(replace(guarded, banjo=Banjo(largest_wheel_teeth=101)), INCH(F(40, 8 * 101)))[101] == 0


def test_single_wheels_are_proposed_the_nearest_first():
    # A mm by 40 and 80 on 8 to the inch: 127 T is exact, 63 T (with 80 and 40 x 2?) is not at hand.
    inch = free(40, 50, 80, lead=INCH("1/8"))
    found = extra_wheels(inch, MM(1))
    assert found[0].teeth == 127
    assert (str(found[0].answer.train), found[0].answer.error.is_exact) == ("40-127", True)
    assert len(found) == 3
    sizes = [abs(each.answer.error.relative) for each in found]
    assert sizes == sorted(sizes)
    assert len(extra_wheels(inch, MM(1), most=5)) == 5
    # Nothing is nearer than exact, and 127 T alone is nearer than one part in a million.
    assert extra_wheels(inch, MM(1), closer_than=F(0)) == ()
    assert [each.teeth for each in extra_wheels(inch, MM(1), closer_than=F(1, 10**6))] == [127]
    second = abs(found[1].answer.error.relative)
    assert [each.teeth for each in extra_wheels(inch, MM(1), closer_than=second)] == [127]
    one_pair = extra_wheels(inch, MM(1), most_pairs=1, most=2)
    assert all(len(each.answer.train.pairs) == 1 for each in one_pair)


# How far a lathe reaches.


def test_a_lead_is_reached_exactly_nearly_or_not():
    inch = free(40, 50, 63, 80, 127, lead=INCH("1/8"))
    exact = reach(inch, MM(1), within=F(1, 1000))
    assert (exact.reached, exact.lead) == (Reached.EXACT, MM(1))
    assert str(exact.best.train if exact.best else "") == "40-127"
    without = free(32, 63, 80, 80, lead=INCH("1/8"))
    # 32 over 80 and 63 over 80: a mm, one part in 8000 long.
    near = reach(without, MM(1), within=F(1, 8000))
    assert (near.reached, near.best.error.relative if near.best else None) == (Reached.WITHIN, F(1, 8000))
    far = reach(without, MM(1), within=F(1, 8001))
    assert (far.reached, far.lead) == (Reached.NOT, MM(1))
    assert far.best is not None
    assert far.best.error.relative == F(1, 8000)
    one = reach(without, MM(1), within=F(1, 8000), most_pairs=1)
    assert one.reached is Reached.NOT


def test_the_worth_of_one_wheel_is_what_it_makes_exact_then_what_it_brings_near():
    inch = free(40, 50, 80, lead=INCH("1/8"))
    leads = [MM(1), MM("1.25"), MM(2)]
    rows = [reach(inch, lead, within=F(1, 1000)) for lead in leads]
    assert [row.reached for row in rows] == [Reached.NOT] * 3
    found = worth_of_one_wheel(inch, rows, within=F(1, 1000), most=200)
    tables = [errors_by_wheel(inch, lead) for lead in leads]
    worth = {}
    for teeth in range(15, 128):
        errors = [table[teeth] for table in tables if teeth in table]
        near = [error for error in errors if error and abs(error) <= F(1, 1000)]
        if errors.count(0) or near:
            worth[teeth] = WheelWorth(teeth, errors.count(0), len(near), max(near, key=abs, default=F(0)))
    assert {each.teeth: each for each in found} == worth
    assert found[0] == WheelWorth(127, 3, 0, F(0))
    order = [(-each.made_exact, -each.brought_within, abs(each.worst_error), each.teeth) for each in found]
    assert order == sorted(order)
    assert worth_of_one_wheel(inch, rows, within=F(1, 1000)) == found[:5]
    assert worth_of_one_wheel(inch, rows, within=F(1, 1000), most=1) == found[:1]
    # With nothing made exact, a wheel that brings two leads near comes before one that brings one nearer.
    more_rows = [reach(inch, lead, within=F(1, 200)) for lead in [*leads, MM("0.8"), MM("1.75")]]
    ranked = worth_of_one_wheel(inch, more_rows, within=F(1, 200), most=200)
    of_two, of_one = (
        [each for each in ranked if (each.made_exact, each.brought_within) == (0, near)] for near in (2, 1)
    )
    assert min(abs(each.worst_error) for each in of_one) < min(abs(each.worst_error) for each in of_two)
    assert ranked[1:] == (*of_two, *of_one)
    # A lead that is within the tolerance gains by becoming exact only, one that is exact not at all.
    nearly = [Reach(MM(1), Reached.WITHIN, None), Reach(MM("1.25"), Reached.EXACT, None)]
    assert worth_of_one_wheel(inch, nearly, within=F(1, 1000), most=200) == (WheelWorth(127, 1, 0, F(0)),)
    # A multiple of pi is brought near, never made exact.
    pi = worth_of_one_wheel(inch, [Reach(PiLength(F(1, 2)), Reached.NOT, None)], within=F(1, 100), most=200)
    assert pi
    assert all(each.made_exact == 0 and each.brought_within == 1 for each in pi)
    assert worth_of_one_wheel(inch, rows, within=F(1, 1000), most_pairs=1, most=200) != found


# Wheels put between, and stand-ins.


def test_wheels_of_a_ratio_near_one():
    lathe = free(40, 83, 84)
    assert near_unity(lathe, F(1, 83), most_pairs=1) == NearUnity(read_train("84-83"), F(0))
    assert near_unity(lathe, F(-1, 84)) == NearUnity(read_train("83-84"), F(0))
    assert near_unity(lathe, F(1, 10**6)) is None
    # An error as large as what was wanted is none the better: 9 over 8 for one sixteenth more leaves 1/17, a nearly as
    # large error; for one eighteenth more 9/8 / (19/18) - 1 is 5/76, which is larger than 1/18.
    assert near_unity(free(72, 81), F(1, 16), most_pairs=1) == NearUnity(read_train("81-72"), F(1, 17))
    assert near_unity(free(72, 81), F(1, 18), most_pairs=1) is None
    found = near_unity(lathe, F(1, 160), most_pairs=1)
    assert found is not None
    assert (str(found.train), found.left_over) == ("84-83", F(84, 83) / F(161, 160) - 1)
    # Two pairs are taken only where they are nearer than one.
    two = free(40, 40, 83, 84)
    assert str(near_unity(two, F(1, 83)).train) == "84-83"  # type: ignore[union-attr]
    four = free(30, 31, 40, 41)
    wanted = F(31, 30) * F(41, 40) - 1
    assert near_unity(four, wanted).left_over == 0  # type: ignore[union-attr]
    assert len(near_unity(four, wanted).train.pairs) == 2  # type: ignore[union-attr]
    assert len(near_unity(four, wanted, most_pairs=1).train.pairs) == 1  # type: ignore[union-attr]
    # A class kept for the second pair has no place in a train of one.
    assert near_unity(free(classes=(box_of(83, 84, only_in_pair=2),)), F(1, 83)) is None


@pytest.mark.from_memory("general knowledge: tables of substitutes for the 127 wheel")
def test_stand_ins_the_other_way_round_are_short_by_as_much():
    assert [str(each.pair) for each in stand_ins(largest=80, metric_on_inch=False)] == ["80/63", "47/37", "33/26"]
    assert stand_ins(largest=79)[0].pair == F(37, 47)
    assert stand_ins(largest=127)[0].error == 0
    # 63 x 127 - 8000 is 1, so 125 parts in a million; 26/33 is 33 x 100 - 26 x 127 = -2 of 3300: 606.
    assert [round(each.ppm) for each in stand_ins(largest=120)] == [125, -213, 606]
