"""Wheels worth adding, step by step: what each wheel is for, what is told on the way, what is known when it ends."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.jobs import missing_wheels as room
from solver.jobs.missing_wheels import _Walk, missing_wheels, with_wheels
from solver.jobs.wheel_cover import Cover
from solver.jobs.wheel_options import WheelOptions
from solver.jobs.wheel_prices import ONE_EACH, PriceList
from solver.jobs.wheel_report import MissingQuestion, Progress, Stopped, WheelRole
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.reach import Reached
from solver.trains.wheels import WheelClass
from tests.small_sittings import FORTY, LESS, MORE, lathe_of

EXACT = Fraction(0)


def asked(*leads, candidates=(20, 30, 60, 120), most=2, within=EXACT, prices=ONE_EACH, **told):
    return MissingQuestion(leads, candidates, within, most, 1, prices=prices, **told)


def walk_of(question, lathe=FORTY, *, watch=lambda _: True, seconds=lambda: 60):
    return _Walk(lathe, question, question.leads, watch, seconds)


def test_what_is_asked_is_two_wheels_in_trains_of_three_pairs_for_a_right_hand_unless_it_says_more():
    question = MissingQuestion((MORE,), (60,), EXACT)
    assert (question.most_wheels, question.most_pairs, question.hand, question.prices) == (2, 3, Hand.RIGHT, ONE_EACH)
    assert ONE_EACH == ((), 1, None, 0)


def test_each_wheel_of_the_set_has_what_it_unlocks_alone_and_what_with_the_others():
    report = missing_wheels(FORTY, asked(MORE, LESS, candidates=(20, 60, 120)))
    assert (report.best.wheels, report.best.price) == ((20, 60), 2)
    assert report.best.roles == (
        WheelRole(20, Fraction(1), (), ((LESS, (60,)),)),
        WheelRole(60, Fraction(1), (MORE,), ((LESS, (20,)),)),
    )
    assert [str(row.best.train) for row in report.best.rows] == ["60-40", "20-60"]
    assert [row.reached for row in report.best.rows] == [Reached.EXACT] * 2
    assert report.lacking == (MORE, LESS)
    assert report.others == ()
    assert (report.hopeless, report.not_together, report.undecided) == ((), (), ())
    assert report.is_least
    proof = report.proof
    assert (proof.is_proven, proof.sizes_done, proof.least_price, proof.stopped) == (True, 2, 2, None)


def test_two_wheels_alike_share_a_role_and_are_paid_for_twice():
    # 60 over the 40 is MORE; 60 over another 60 is the lead of the screw itself, which the box cannot cut.
    even = FORTY.lead_at_equal_wheels
    prices = PriceList(((60, Fraction(5, 2)),), Fraction(20))
    report = missing_wheels(FORTY, asked(MORE, even, candidates=(60,), prices=prices))
    assert (report.best.wheels, report.best.price) == ((60, 60), 5)
    assert report.best.roles == (WheelRole(60, Fraction(5, 2), (MORE,), ((even, (60,)),)),)
    assert report.proof.least_price == 5


def test_the_fewest_wheels_of_the_set_are_named_for_a_lead_and_the_smaller_of_as_many():
    # The lead of the screw is 20 over 20, 30 over 30, or 40 over the 40 of the box.
    even = FORTY.lead_at_equal_wheels
    walk = walk_of(asked(even))
    walk.options[even] = {(40,), (20, 20), (30, 30)}
    assert walk.wheel_set(Cover((20, 20, 40), 3, (True,), is_proven=True)).roles[1] == WheelRole(40, 1, (even,), ())
    roles = walk.wheel_set(Cover((20, 20, 30, 30), 4, (True,), is_proven=True)).roles
    assert roles == (WheelRole(20, 1, (), ((even, (20,)),)), WheelRole(30, 1, (), ()))
    assert walk.wheel_set(Cover((20,), 1, (False,), is_proven=True)).roles == (WheelRole(20, 1, (), ()),)
    # 70 teeth come before 80.
    walk.options[even] = {(20, 60), (30, 40)}
    unlocking = walk.wheel_set(Cover((20, 30, 40, 60), 4, (True,), is_proven=True)).roles
    assert [role.teeth for role in unlocking if role.together] == [30, 40]


def test_a_lead_that_only_gives_way_to_others_is_told_as_not_together():
    # One wheel only: 60 for the one lead, 120 for the other; 60 has fewer teeth.
    report = missing_wheels(FORTY, asked(MORE, LESS, most=1, candidates=(60, 120)), other_sets=2)
    assert report.best.wheels == (60,)
    assert [each.wheels for each in report.others] == [(120,)]
    assert report.not_together == (LESS,)
    assert report.hopeless == ()
    assert not report.is_least
    assert report.proof.is_proven
    assert [row.lead for row in report.best.unlocked] == [MORE]
    assert missing_wheels(FORTY, asked(MORE, LESS, most=1, candidates=(60, 120))).others == ()


def test_what_is_cut_now_is_no_lack_and_what_cannot_be_is_hopeless():
    lathe, even = lathe_of(40, 60), FORTY.lead_at_equal_wheels
    tenth = even * Fraction(1, 10)
    report = missing_wheels(lathe, asked(MORE, tenth, even, most=1, candidates=(40,)))
    assert [(row.lead, row.reached) for row in report.now] == [
        (MORE, Reached.EXACT), (tenth, Reached.NOT), (even, Reached.NOT),
    ]  # fmt: skip
    assert (report.lacking, report.hopeless, report.undecided) == ((tenth, even), (tenth,), ())
    assert report.best.wheels == (40,)
    assert (report.best.rows[0].reached, report.best.rows[1].reached) == (Reached.NOT, Reached.EXACT)
    # The nearest of the box, and of the box with the wheel.
    assert (str(report.now[1].best.train), str(report.best.rows[0].best.train)) == ("40-60", "40-60")


def test_a_lead_within_the_tolerance_is_cut_and_is_not_exact():
    # 60 over 41 is 1.4634, 2.44 % short of 3/2.
    report = missing_wheels(lathe_of(41), asked(MORE, candidates=(60,), most=1, within=Fraction(1, 40)))
    assert report.best.wheels == (60,)
    assert report.best.rows[0].reached is Reached.WITHIN
    assert report.best.worst_error == Fraction(60 * 2, 41 * 3) - 1
    near = missing_wheels(lathe_of(41, 60), asked(MORE, within=Fraction(1, 40)))
    assert near.now[0].reached is Reached.WITHIN
    assert near.lacking == ()


def test_a_box_too_small_for_a_pair_reaches_nothing_and_one_of_two_wheels_may():
    assert missing_wheels(FORTY, asked(MORE)).now[0].best is None
    assert missing_wheels(lathe_of(40, 60), asked(MORE)).now[0].reached is Reached.EXACT
    other = WheelClass("20 DP", Length.of_mm("1.27"), ((60, 1),))
    assert missing_wheels(lathe_of(40, others=(other,)), asked(MORE)).best.wheels == (60,)


def test_wheels_are_laid_in_the_first_class():
    other = WheelClass("20 DP", Length.of_mm("1.27"), ((60, 1),))
    richer = with_wheels(lathe_of(40, others=(other,)), (40, 63))
    assert [each.stock for each in richer.wheel_classes] == [((40, 2), (63, 1)), ((60, 1),)]


def test_the_walk_tells_its_size_the_lead_and_how_much_was_looked_at():
    told = []
    report = missing_wheels(
        FORTY, asked(MORE, LESS, candidates=(60, 120)), watch=lambda each: told.append(each) or True
    )
    assert all(isinstance(each, Progress) for each in told)
    # A wheel to add as driver or as driven, then one on either side.
    steps = [(1, 1), (1, 1), (1, 2), (1, 2), (2, 1), (2, 2)]
    assert [(each.size, each.lead, each.leads) for each in told] == [(*each, 2) for each in steps]
    assert told[0].looked_at == 0
    assert [each.looked_at for each in told] == sorted(each.looked_at for each in told)
    assert report.proof.looked_at >= told[-1].looked_at > 0


def test_a_size_that_cannot_come_first_is_not_walked():
    told = []
    report = missing_wheels(FORTY, asked(MORE, candidates=(60,)), watch=lambda each: told.append(each) or True)
    assert report.best.wheels == (60,)
    assert report.proof.sizes_done == 2
    assert {each.size for each in told} == {1}


def test_the_last_solving_of_a_stopped_walk_is_for_one_choice_and_has_an_effort_of_its_own(covered):
    # Two wheels of 4 might come before the 120.
    prices = PriceList(((120, Fraction(9)),), Fraction(4))
    question = asked(MORE, LESS, candidates=(20, 30, 120), prices=prices)
    report = missing_wheels(FORTY, question, watch=lambda each: each.size < 2, other_sets=3)
    assert (report.best.wheels, report.not_together, report.undecided) == ((120,), (), (MORE,))
    assert {name: covered[0][-1][1][name] for name in ("wanted", "effort", "seconds")} == {
        "wanted": 1, "effort": 10, "seconds": 86_400,
    }  # fmt: skip


def test_the_nearest_of_trains_of_any_number_of_pairs_is_what_a_lead_is_reached_by():
    # 60 over 45 is a ninth short of 3/2; 45 times 50 over 25 times 60 is 3/2.
    question = MissingQuestion((MORE,), (20,), Fraction(1, 5), 1, 2)
    now = missing_wheels(lathe_of(25, 45, 50, 60), question).now[0]
    assert now.reached is Reached.EXACT
    assert now.best.error.is_exact
    assert len(now.best.train.pairs) == 2


def test_a_walk_stopped_in_the_second_size_knows_the_first():
    # 120 for LESS at once, MORE by 20 and 30 only in the second size.
    question = asked(MORE, LESS, candidates=(20, 30, 120))
    report = missing_wheels(FORTY, question, watch=lambda each: each.size < 2, other_sets=3)
    assert (report.best.wheels, report.others) == ((120,), ())
    assert (report.hopeless, report.undecided, report.not_together) == ((), (MORE,), ())
    proof = report.proof
    # One of two leads by one wheel; whether one can be had for less was settled.
    assert (proof.is_proven, proof.sizes_done, proof.least_price, proof.stopped) == (False, 1, 1, Stopped.TIME)


def test_a_walk_stopped_before_anything_was_found_says_what_a_larger_choice_costs_at_the_least():
    prices = PriceList(((20, Fraction(5, 2)),), Fraction(4))
    report = missing_wheels(FORTY, asked(MORE, candidates=(20, 30), prices=prices), watch=lambda each: each.size < 2)
    assert (report.best.wheels, report.best.price, report.undecided) == ((), 0, (MORE,))
    assert (report.proof.least_price, report.proof.sizes_done, report.proof.stopped) == (5, 1, Stopped.TIME)


@pytest.mark.parametrize(
    ("most", "stopped", "wheels"), [(2, None, (20, 30)), (1, Stopped.ROOM, (20, 30)), (0, Stopped.ROOM, (60,))]
)
def test_so_many_options_are_kept_and_no_more(monkeypatch, most, stopped, wheels):
    # 60 by itself, then 20 and 30; the one that is too many is kept.
    monkeypatch.setattr(room, "MOST_OPTIONS", most)
    prices = PriceList(((60, Fraction(9)),), Fraction(4))
    report = missing_wheels(FORTY, asked(MORE, candidates=(20, 30, 60), prices=prices))
    assert report.proof.stopped is stopped
    assert report.best.wheels == wheels


PRICED = PriceList(((60, Fraction(25, 2)),), Fraction(4))


def found_of(price, *covered, is_proven=True):
    return Cover((20,) * (price // 8), price, covered, is_proven)


@pytest.mark.parametrize(
    ("best", "found", "least"),
    [
        # In halves: 8 for a usual wheel and 25 for the 60. After one size any larger option is two wheels.
        (None, None, 8),
        (None, found_of(20, True), 8),
        (None, found_of(12, True), 6),
        (found_of(12, True), found_of(20, True), 6),
        (found_of(20, True), found_of(25, True), 8),
        (found_of(12, False, True), found_of(20, True, True), 8),
        (found_of(12, True, True), found_of(20, True, False), 6),
        (found_of(12, True, is_proven=False), found_of(20, True), 4),
    ],
)
def test_what_any_choice_must_cost_at_the_least(monkeypatch, best, found, least):
    walk = walk_of(asked(MORE, LESS, prices=PRICED))
    monkeypatch.setattr(walk, "_best", best)
    walk.sizes_done = 1
    assert walk.least_price(found) == least


@pytest.mark.parametrize(
    ("best", "options", "size", "may_be"),
    [
        (None, {(60,)}, 1, False),
        # A lead that has an option is not covered.
        (found_of(8, True, False), {(60,)}, 9, True),
        # Two wheels for 16 half-units, three for 24.
        (found_of(17, True, True), {(60,)}, 2, True),
        (found_of(16, True, True), {(60,)}, 2, True),
        (Cover((60,), 16, (True, True), is_proven=True), {(60,)}, 2, False),
        (found_of(16, True, True), {(60,)}, 3, False),
        (found_of(15, True, True), {(60,)}, 2, False),
        (found_of(15, True, False), set(), 2, False),
    ],
)
def test_a_size_is_walked_only_where_a_choice_with_it_could_come_first(monkeypatch, best, options, size, may_be):
    walk = walk_of(asked(MORE, LESS, prices=PRICED))
    walk.options[LESS] = options
    monkeypatch.setattr(walk, "_best", best)
    assert walk._may_be_better(size) is may_be  # noqa: SLF001 - told nowhere else.


@pytest.fixture
def covered(monkeypatch):
    """What the cover was asked for, and what it is to say."""
    calls, says = [], []

    def listening(*words, **named):
        calls.append((words, {name: each() if callable(each) else each for name, each in named.items()}))
        return tuple(says)

    monkeypatch.setattr(room, "best_covers", listening)
    return calls, says


@pytest.mark.parametrize(
    ("best", "prices", "limit"),
    [
        (None, PRICED, 3),
        (found_of(17, True, True), PRICED, 2),
        (found_of(16, True, True), PRICED, 2),
        (found_of(40, True, True), PRICED, 3),
        (found_of(17, True, False), PRICED, 3),
        (found_of(17, True, True), PriceList(largest_made=999), 3),
    ],
)
def test_the_solver_is_asked_of_options_smaller_than_any_choice_worth_naming(monkeypatch, covered, best, prices, limit):
    calls, _ = covered
    walk = walk_of(asked(MORE, LESS, most=3, prices=prices))
    walk.options = {MORE: {(60,), (20, 30)}, LESS: {(120,)}}
    monkeypatch.setattr(walk, "_best", best)
    walk.covers(5)
    (((smaller, units, most), named),) = calls
    assert smaller == [{each for each in options if len(each) < limit} for options in walk.options.values()]
    assert most == limit
    assert units == prices.in_units((20, 30, 60, 120))[0]
    assert (named["wanted"], named["effort"]) == (5, 60)


@pytest.mark.parametrize(
    ("left", "effort", "seconds"), [(60, 60, 60), (0, 60, 1), (60, 10, 60), (0, 10, 5), (6, 10, 6), (0, 11, 5)]
)
def test_the_solver_has_a_second_at_the_least_and_at_the_end_half_of_its_effort(covered, left, effort, seconds):
    calls, _ = covered
    walk = walk_of(asked(MORE, most=3), seconds=lambda: left)
    walk.options[MORE] = {(60,)}
    walk.covers(1, effort=effort)
    assert (calls[0][1]["effort"], calls[0][1]["seconds"]) == (effort, seconds)


def test_with_nothing_smaller_the_solver_is_not_asked(covered):
    walk = walk_of(asked(MORE, LESS, most=1))
    assert walk.covers(1) == ()
    walk.options = {MORE: {(60,)}, LESS: {(120,)}}
    assert walk.covers(1) == (Cover((60,), 1, (True, False), is_proven=True),)
    assert walk.covers(9) == (Cover((60,), 1, (True, False), is_proven=True),
                              Cover((120,), 1, (False, True), is_proven=True))  # fmt: skip
    assert covered[0] == []


@pytest.mark.usefixtures("covered")
def test_without_time_for_any_choice_the_best_option_is_one_by_itself():
    walk = walk_of(asked(MORE, LESS, most=3))
    walk.options = {MORE: {(60,)}, LESS: {(120,), (20, 60), (20, 30, 60)}}
    # 20-60 unlocks both leads; nothing is proven of it.
    assert walk.covers(9) == (Cover((20, 30, 60), 3, (True, True), is_proven=False),)
    walk.options[LESS] -= {(20, 30, 60)}
    assert walk.covers(9) == (Cover((20, 60), 2, (True, True), is_proven=False),)
    walk.options[LESS] -= {(20, 60)}
    assert [each.wheels for each in walk.covers(9)] == [(60,), (120,)]
    prices = PriceList(((60, Fraction(9)),), Fraction(4))
    report = missing_wheels(FORTY, asked(MORE, candidates=(20, 30, 60), most=3, prices=prices))
    assert (report.best.wheels, report.proof.is_proven, report.proof.stopped) == ((20, 30), False, Stopped.TIME)


def test_what_was_found_before_is_not_lost_where_the_solver_finds_nothing(monkeypatch, covered):
    walk = walk_of(asked(MORE, LESS, most=3))
    walk.options = {MORE: {(60,)}, LESS: {(20, 60)}}
    earlier = Cover((20, 60), 2, (True, False), is_proven=True)
    monkeypatch.setattr(walk, "_best", earlier)
    # Of options found since it covers the second lead too; nothing is proven.
    assert walk.covers(1) == (Cover((20, 60), 2, (True, True), is_proven=False),)
    covered[1].append(Cover((60,), 1, (True, False), is_proven=True))
    assert walk.covers(1) == (Cover((60,), 1, (True, False), is_proven=True),)


def test_whole_options_of_the_same_wheels_say_more_than_the_solver_does(covered):
    walk = walk_of(asked(MORE, LESS, most=2))
    walk.options = {MORE: {(60,)}, LESS: {(20, 60), (20, 120)}}
    covered[1].append(Cover((20, 60), 2, (True, False), is_proven=True))
    # The pair unlocks the second lead as well, and 20-120 that alone.
    assert walk.covers(3) == (Cover((20, 60), 2, (True, True), is_proven=True),)


def test_a_multiple_of_pi_is_not_looked_for_where_only_exact_will_do(monkeypatch):
    turned = PiLength(Fraction(1))
    monkeypatch.setattr(WheelOptions, "of_size", pytest.fail)
    assert missing_wheels(FORTY, asked(turned)).hopeless == (turned,)
    monkeypatch.undo()
    # 22/7 of a millimetre is 400 ppm long of pi: 22 to 7 of 1 mm.
    metric = Lathe("metric", "1 mm", Length.of_mm(1), Fraction(1), has_reverse=True, wheel_classes=FORTY.wheel_classes)
    near = missing_wheels(metric, asked(turned, candidates=(110, 35), within=Fraction(1, 2000)))
    assert near.best.wheels == (35, 110)
