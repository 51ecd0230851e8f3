"""Where the search stops: the nearest that goes on, hands no idler can give, so many answers and never other ones."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import permutations
from typing import Any

import pytest

from solver.quantities.lengths import Length
from solver.trains import matches, train_search
from solver.trains.chain import Idler
from solver.trains.extra_wheels import errors_by_wheel, extra_wheels
from solver.trains.hand import Hand
from solver.trains.lathe import Banjo, Lathe
from solver.trains.matches import Halves, nearest_matches
from solver.trains.mounting import Verdict, judge
from solver.trains.near_unity import near_unity
from solver.trains.reach import Reach, Reached, reach, worth_of_one_wheel
from solver.trains.train_order import preference
from solver.trains.train_search import TrainQuestion, TrainReport, least_changed, nominally_exact, search_trains
from solver.trains.wheels import Pair, Train
from solver.trains.written_trains import read_train
from tests.small_lathes import FREE, a_lathe, box_of, mm

F = Fraction
#: Nothing of more than 90 teeth turns under this guard.
GUARDED = replace(FREE, largest_wheel_teeth=90)


def ask(lathe: Lathe, lead: str | Length, **more: Any) -> TrainReport:
    wanted = lead if isinstance(lead, Length) else mm(lead)
    return search_trains(TrainQuestion(wanted, **{"most_pairs": 1, "within": F(0), **more}), lathe)


def told(report: TrainReport) -> tuple[list[str], list[str], str]:
    nearest = str(report.nearest.train) if report.nearest else ""
    return [str(each.train) for each in report.answers], [str(each.train) for each in report.set_aside], nearest


# 1.2 mm is 40 over 100, which the guard stops. 34 over 80 is 1/16 long, 36 over 80 is 1/8 long.


def test_a_nearest_train_is_looked_for_up_to_a_tenth_of_the_lead_and_no_farther():
    near, far = a_lathe(34, 40, 80, 100, banjo=GUARDED), a_lathe(36, 40, 80, 100, banjo=GUARDED)
    assert told(ask(near, "1.2")) == ([], ["40-100"], "34-80")
    assert told(ask(far, "1.2", wanted=1)) == ([], ["40-100"], "40-100")
    # A tenth itself: 33 over 75 is 1.32 mm.
    assert told(ask(a_lathe(33, 40, 75, 100, banjo=GUARDED), "1.2"))[2] == "33-75"
    # A larger tolerance is looked through all the same.
    assert told(ask(far, "1.2", within=F(1, 5), wanted=1)) == (["36-80"], ["40-100"], "")
    assert told(ask(far, "1.2", within=F(1, 8), wanted=1)) == (["36-80"], ["40-100"], "")
    assert told(ask(far, "1.2", within=F(1, 9), wanted=1)) == ([], ["40-100"], "40-100")


def test_with_nothing_set_aside_the_nearest_is_found_however_far_off():
    report = ask(a_lathe(20, 80, banjo=FREE), "3")
    assert told(report) == ([], [], "20-80")
    assert report.nearest is not None
    assert report.nearest.error.relative == F(-3, 4)


def test_so_many_nearer_trains_are_set_aside_as_answers_are_wanted():
    # 40, 44 and 48 over 100 are stopped; 40 over 80 is 1.5 mm.
    lathe = a_lathe(40, 44, 48, 80, 100, banjo=GUARDED)
    assert told(ask(lathe, "1.2", within=F(1, 3))) == (["40-80"], ["40-100", "44-100", "48-100"], "")
    assert told(ask(lathe, "1.2", within=F(1, 3), wanted=2)) == (["40-80"], ["40-100", "44-100"], "")
    assert told(ask(lathe, "1.2", within=F(1, 3), wanted=1)) == (["40-80"], ["40-100"], "")


def test_where_neither_a_reverse_nor_an_idler_gives_the_hand_the_nearest_trains_are_set_aside():
    # One pair cuts a left-hand thread, and there is no stud for an idler.
    lathe = a_lathe(20, 40, 60, 80, reverse=False, banjo=replace(FREE, studs=0))
    report = ask(lathe, "1.5", wanted=2)
    assert told(report) == ([], ["40-80", "20-40"], "40-80")
    assert [each.mounting.verdict for each in report.set_aside] == [Verdict.DOES_NOT_FIT] * 2
    assert report.set_aside[0].mounting.reasons == ("a right-hand thread needs an idler, and no stud is left for one",)
    left = ask(lathe, "1.5", wanted=2, hand=Hand.LEFT)
    assert told(left) == (["40-80", "20-40"], [], "")
    # Two pairs, 20 x 60 over 40 x 80, cut it as they are, on one stud; one pair does on an idler's.
    two = ask(replace(lathe, banjo=replace(FREE, studs=1)), mm("1.125"), most_pairs=2)
    assert {(len(each.train.pairs), each.idlers) for each in two.answers} == {(2, ())}
    one = ask(replace(lathe, banjo=replace(FREE, studs=1)), "1.5", wanted=1)
    assert one.answers[0].idlers == (Idler(1, 60),)
    assert two.question.lead == mm("1.125")


# A box that makes many trains of one error: what is picked out are the mildest, whatever is sorted first.

RICH = a_lathe(20, 24, 30, 36, 40, 45, 48, 50, 60, 72, 75, 80, 90, 96, 100, banjo=FREE)


@pytest.mark.parametrize("mounted", [None, read_train("30-50-45-90")], ids=["bare", "mounted"])
def test_of_many_trains_of_one_error_the_first_few_are_the_best_of_all(monkeypatch, mounted):
    more = {"most_pairs": 2, "mounted": mounted}
    every = [each for each in ask(RICH, "1.5", wanted=10_000, **more).answers if len(each.train.pairs) == 2]
    assert len(every) > 64
    keys = [preference(each.train, mounted) for each in every]
    assert keys == sorted(keys)
    few = [each for each in ask(RICH, "1.5", wanted=9, **more).answers if len(each.train.pairs) == 2]
    assert few[0] == every[0]
    monkeypatch.setattr(train_search, "FIRST_FEW", 3)
    again = [each for each in ask(RICH, "1.5", wanted=9, **more).answers if len(each.train.pairs) == 2]
    assert again == few


def test_of_the_mildest_steps_the_largest_small_wheel_is_taken_first():
    report = ask(RICH, "1.5", wanted=4)
    assert told(report)[0] == ["50-100", "48-96", "45-90", "40-80"]
    # Of what is mounted 100 T stays, or 45 T does; the larger small wheel first.
    assert told(ask(RICH, "1.5", wanted=3, mounted=read_train("45-100")))[0] == ["50-100", "45-90", "48-96"]


def test_of_the_placings_of_the_same_wheels_the_one_that_is_mounted_is_kept():
    # 6.75 mm is 60 x 30 over 40 x 20; 30 over 20 on the spindle side fouls the stud gear's shaft, the others go on.
    lathe = a_lathe(20, 30, 40, 60, banjo=FREE)
    for placing in ("60-40-30-20", "30-40-60-20", "60-20-30-40"):
        question = TrainQuestion(mm("6.75"), most_pairs=2, within=F(0), mounted=read_train(placing))
        kept = least_changed(question, lathe)
        assert kept is not None
        assert str(kept.train) == placing


def test_placings_are_given_up_at_a_limit_that_is_told(monkeypatch):
    # Every placing fouls a nut of 300 mm; three are tried, then the search gives up and says so.
    stopped = a_lathe(20, 24, 30, 40, 48, 60, 80, banjo=Banjo(stud_nut=mm(300)))
    report = ask(stopped, "1.5", most_pairs=2)
    assert report.cut_short == ()
    monkeypatch.setattr(train_search, "MOST_TRIED", 1)
    assert ask(stopped, "1.5", most_pairs=2).cut_short == (1, 2)
    # Beyond the tolerance a limit cuts nothing short: what is within it has been looked at.
    monkeypatch.setattr(train_search, "MOST_TRIED", 100_000)
    monkeypatch.setattr(train_search, "MOST_TRIED_BEYOND", 1)
    assert ask(stopped, "1.5", most_pairs=2).cut_short == ()


# Bands of matches.


def test_ties_beyond_the_limit_are_owned_up_to_and_end_the_bands(monkeypatch):
    lathe = a_lathe(20, 30, 40, 60, 80)
    whole = list(Halves(lathe, 1).bands(mm("1.5"), F(1, 2)))
    assert len(whole[0].matches) == 3
    monkeypatch.setattr(matches, "MOST_LISTED", 2)
    (band,) = Halves(lathe, 1).bands(mm("1.5"), F(1, 2))
    assert (band.within, len(band.matches), band.is_complete) == (0, 2, False)
    monkeypatch.setattr(matches, "MOST_LISTED", 3)
    first = next(iter(Halves(lathe, 1).bands(mm("1.5"), F(1, 2))))
    assert (first.within, len(first.matches), first.is_complete) == (0, 3, True)


def test_matches_of_every_lever_and_class_are_found():
    # 20 over 40 at one to one, 20 over 40 of the other class, and 40 over 20 at one to four.
    classes = (box_of(20, 40), box_of(20, 40, size="2"))
    lathe = a_lathe(classes=classes, levers=(("A", F(1)), ("B", F(1, 4))))
    found = nearest_matches(lathe, mm("1.5"), 1)
    assert [(match.lever, match.drivers, match.driven) for match in found] == [
        ("A", ((1, 20),), ((1, 40),)),
        ("A", ((0, 20),), ((0, 40),)),
        ("B", ((1, 40),), ((1, 20),)),
        ("B", ((0, 40),), ((0, 20),)),
    ]
    assert all(match.error == 0 and match.keyed == () for match in found)
    assert Train(()).ratio == 1


# How many pairs are looked at where nobody says.


def three_pairs() -> tuple[Lathe, Fraction]:
    """A box whose six wheels make a ratio exactly by three pairs and nothing as near by two."""
    return a_lathe(30, 31, 40, 41, 50, 51, banjo=FREE), F(31 * 41 * 51, 30 * 40 * 50)


def test_wheels_put_between_are_two_pairs_at_the_most():
    lathe, ratio = three_pairs()
    two = near_unity(lathe, ratio - 1)
    assert two is not None
    assert len(two.train.pairs) == 2
    assert two.left_over != 0
    three = near_unity(lathe, ratio - 1, most_pairs=3)
    assert three is not None
    assert (len(three.train.pairs), three.left_over) == (3, 0)


def test_one_wheel_more_is_looked_for_in_two_pairs_at_the_most():
    lathe, ratio = three_pairs()
    lead = lathe.lead_at_equal_wheels * (ratio * F(47, 31))
    default, two, three = (errors_by_wheel(lathe, lead, **more) for more in ({}, {"most_pairs": 2}, {"most_pairs": 3}))
    assert default == two
    assert (default[47] == 0, three[47]) == (False, 0)
    assert [len(each.answer.train.pairs) for each in extra_wheels(lathe, lead, most=1)] == [2]
    far = [Reach(lead, Reached.NOT, None)]
    assert worth_of_one_wheel(lathe, far, within=F(0)) == ()
    assert [each.teeth for each in worth_of_one_wheel(lathe, far, within=F(0), most_pairs=3)] == [47]


def test_a_lead_is_looked_for_in_three_pairs_at_the_most():
    lathe, ratio = three_pairs()
    lead = lathe.lead_at_equal_wheels * ratio
    assert reach(lathe, lead, within=F(0)).reached is Reached.EXACT
    four = a_lathe(30, 31, 40, 41, 50, 51, 60, 61, banjo=FREE)
    longer = lead * F(61, 60)
    assert reach(four, longer, within=F(0)).reached is Reached.NOT
    assert reach(four, longer, within=F(0), most_pairs=4).reached is Reached.EXACT
    assert search_trains(TrainQuestion(longer, within=F(0)), four).answers == ()


def test_of_many_trains_of_one_error_the_one_of_the_mildest_steepest_step_is_taken():
    # Half of 3 mm by two pairs of these, once each. Wheels whose mildest placing does not go on may leave a step of 4.
    teeth = (20, 24, 30, 40, 60, 80, 100)
    lathe = a_lathe(*teeth, banjo=FREE)
    steps = [
        max(Fraction(max(pair), min(pair)) for pair in ((a, b), (c, d)))
        for a, b, c, d in permutations(teeth, 4)
        if 2 * a * c == b * d and judge(Train((Pair(a, b), Pair(c, d))), lathe).verdict is Verdict.FITS
    ]
    found = search_trains(TrainQuestion(Length.of_mm("1.5"), most_pairs=2, wanted=1), lathe).answers
    (two,) = [answer.train for answer in found if len(answer.train.pairs) == 2]
    taken = [sorted((pair.driver, pair.driven)) for pair in two.pairs]
    assert max(Fraction(large, small) for small, large in taken) == min(steps) == Fraction(5, 2)


def test_a_wheel_keeps_its_least_error_whichever_lever_is_looked_at_last():
    # 3 mm by 40 over 61 is exact at A; at B, half a hundredth faster, 61 is still the nearest below what is needed.
    for levers in ((("A", F(1)), ("B", F(201, 200))), (("B", F(201, 200)), ("A", F(1)))):
        lathe = a_lathe(40, levers=levers)
        assert errors_by_wheel(lathe, mm(3) * F(40, 61), most_pairs=1)[61] == 0


def test_all_of_the_lead_is_a_tolerance_as_well():
    found = search_trains(TrainQuestion(mm(3), within=F(1), most_pairs=1, wanted=50), a_lathe(20, 30, 60)).answers
    assert {str(each.train) for each in found} == {"20-30", "20-60", "30-20", "30-60", "60-30"}


def test_a_train_exact_but_for_the_screw_keeps_its_lever():
    # 3 mm halved by B and by 30 over 60: 0.75 mm, were the screw true.
    levers = (("A", F(1)), ("B", F(1, 2)))
    lathe = a_lathe(30, 60, levers=levers, measured=F(1, 1000))
    found = nominally_exact(TrainQuestion(mm("0.75"), most_pairs=1), lathe)
    assert found is not None
    assert (str(found.train), found.lever, found.cut_lead) == ("30-60", "B", mm("0.75075"))
