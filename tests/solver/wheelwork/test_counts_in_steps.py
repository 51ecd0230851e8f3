"""How counts are found, step by step: which way is taken, where it stops, how arbors and reports are put in order."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.trains.wheels import Pair, Train
from solver.trains.written_trains import read_train
from solver.wheelwork import nearest_ratios as room
from solver.wheelwork.arbors import Sense, best_order, idlers_for, in_order, over_an_arbor, sense_of
from solver.wheelwork.count_products import CountProducts, at_least, floor_root
from solver.wheelwork.counts_search import CountsQuestion, CountsReport, PairsReport, known_convergents, search_counts
from solver.wheelwork.drift import Drift, WantedTurning
from solver.wheelwork.nearest_ratios import Counts, Nearest, by_meeting, by_walking, nearest_counts
from solver.wheelwork.one_distance import halves_to_try, nearest_on_one_distance
from solver.wheelwork.periods import Period
from solver.wheelwork.wheel_limits import AllowedCounts
from solver.wheelwork.written_ratios import WrittenRatio

#: Six choices of two counts: 144, 180, 225, 240, 300 and 400.
SIX = (12, 15, 20)
HALF = Fraction(1, 2)


@pytest.fixture
def ways(monkeypatch):
    """Which ways were taken, with what the walk is to have found."""
    taken, walked = [], []

    def meeting(products, ratio, most):
        taken.append(("met", products.counts, ratio, most))
        return Nearest((Counts((7,), (8,)), Counts((1,), (2,)))[:most])

    def walking(products, ratio, most, steps):
        taken.append(("walked", products.counts, ratio, most, steps))
        return walked[0]

    monkeypatch.setattr(room, "by_meeting", meeting)
    monkeypatch.setattr(room, "by_walking", walking)
    return taken, walked


@pytest.mark.parametrize(
    ("listed", "at_need", "walked", "steps"),
    [
        (6, 9, None, None),
        (5, 9, Nearest(()), 250_000),
        (5, 6, Nearest(()), 250_000),
        (5, 6, Nearest((), HALF), 250_000),
        (5, 5, Nearest(()), 1_000_000),
        (5, 5, Nearest((Counts((3,), (4,)),) * 2, HALF), 1_000_000),
    ],
)
def test_few_products_meet_and_more_are_walked_unless_the_walk_is_cut_short(
    monkeypatch, ways, listed, at_need, walked, steps
):
    taken, walks = ways
    walks.append(walked)
    monkeypatch.setattr(room, "MOST_LISTED", listed)
    monkeypatch.setattr(room, "MOST_LISTED_AT_NEED", at_need)
    found = nearest_counts(SIX, HALF, 2, 2)
    met = ("met", SIX, HALF, 2)
    if walked is None:
        assert taken == [met]
    elif walked.beyond is None or at_need == 5:
        assert taken == [("walked", SIX, HALF, 2, steps)]
        assert found == walked
    else:
        assert taken == [("walked", SIX, HALF, 2, steps), met]
        assert found.beyond is None


@pytest.mark.parametrize(
    ("walked", "found"),
    [
        ((), (Counts((7,), (8,)), Counts((1,), (2,)))),
        ((Counts((3,), (4,)),), (Counts((3,), (4,)), Counts((7,), (8,)))),
        ((Counts((7,), (8,)),), (Counts((7,), (8,)), Counts((1,), (2,)))),
    ],
)
def test_a_walk_cut_short_beyond_all_listing_is_filled_up_from_an_even_choice_of_the_counts(
    monkeypatch, ways, walked, found
):
    taken, walks = ways
    walks.append(Nearest(walked, HALF))
    # Of five counts every second with the last are three, with six choices; every fourth with the last two, with three.
    for most, thinned in ((6, (10, 12, 14)), (5, (10, 14)), (3, (10, 14))):
        taken.clear()
        monkeypatch.setattr(room, "MOST_LISTED", most)
        monkeypatch.setattr(room, "MOST_LISTED_AT_NEED", most)
        assert nearest_counts((10, 11, 12, 13, 14), HALF, 2, 2) == Nearest(found, HALF)
        assert taken == [("walked", (10, 11, 12, 13, 14), HALF, 2, 1_000_000), ("met", thinned, HALF, 2)]


def test_five_trains_are_found_where_no_number_is_asked_for():
    counts = range(12, 31)
    assert len(nearest_counts(counts, HALF, 2).found) == 5
    assert len(nearest_on_one_distance(counts, HALF, 2)) == 5


@pytest.mark.parametrize(
    ("steps", "beyond"),
    [
        # Round 5/7 with parts to 20: 5/7 itself, 13/18 a ninetieth long, 12/17 an 85th short.
        (1, Fraction(0)), (2, Fraction(1, 90)), (3, Fraction(1, 85)),
    ],
)  # fmt: skip
def test_a_walk_tells_the_error_at_which_it_was_cut_short(steps, beyond):
    assert by_walking(CountProducts(SIX, 1), Fraction(5, 7), 1, steps) == Nearest((), beyond)


@pytest.mark.parametrize(
    ("most", "steps", "nearest"),
    [
        # 3/4 is 12/16 or 15/20 among the products: one step for the ratio and one for each multiple of it.
        (1, 1, Nearest((), Fraction(0))),
        (1, 2, Nearest((Counts((15,), (20,)),))),
        (2, 2, Nearest((Counts((15,), (20,)),), Fraction(0))),
        (2, 3, Nearest((Counts((15,), (20,)),), Fraction(0))),
        # One more: 14/19 is the next, a 57th short.
        (2, 4, Nearest((Counts((15,), (20,)),), Fraction(1, 57))),
    ],
)
def test_each_multiple_of_a_ratio_is_a_step_of_the_walk(most, steps, nearest):
    assert by_walking(CountProducts(SIX, 1), Fraction(3, 4), most, steps) == nearest


def test_a_walk_through_everything_is_proven():
    # One pair of three counts: nine trains, seven ratios.
    found = by_walking(CountProducts(SIX, 1), Fraction(3, 4), 99, 10**6)
    assert found.beyond is None
    assert len(found.found) == 9
    assert by_meeting(CountProducts(SIX, 1), Fraction(3, 4), 99).found == found.found


def test_more_ratios_are_held_where_the_first_have_no_train_apart(monkeypatch):
    # Two pairs of two counts: of 1/1, 5/7, 25/49 and their inverses those with a shared count are no trains.
    monkeypatch.setattr(room, "FIRST_HELD", 1)
    assert [each.ratio for each in by_meeting(CountProducts((25, 35), 2), Fraction(5, 7), 2).found] == [
        Fraction(25, 49), Fraction(49, 25),
    ]  # fmt: skip


def test_a_family_is_told_by_fewest_teeth_and_cut_off_where_more_are_not_wanted():
    # 1/2 in one pair of 10 to 40: 10-20 has the fewest teeth, and 20-40 the most.
    products = CountProducts(range(10, 41), 1)
    found = by_meeting(products, HALF, 3).found
    assert [(each.drivers, each.driven) for each in found] == [((10,), (20,)), ((11,), (22,)), ((12,), (24,))]
    assert [each.teeth for each in found] == [30, 33, 36]


@pytest.mark.parametrize(("number", "degree", "root"), [(1, 1, 1), (80, 4, 2), (81, 4, 3), (15, 2, 3), (16, 2, 4)])
def test_a_whole_root_is_rounded_down(number, degree, root):
    assert floor_root(number, degree) == root


def test_no_two_counts_of_a_product_have_fewer_teeth_than_twice_its_root():
    # 20 and 20 make 400; three equal roots of 1000 are 30.
    assert (at_least(400, 2), at_least(1000, 3), at_least(7, 1)) == (40, 30, 7)


def test_splits_are_told_by_sum_and_then_by_the_smaller_count():
    products = CountProducts((10, 12, 15, 16, 18, 20, 24), 3)
    # 2880 with 43, 44, 44 and 46 teeth.
    assert products.splits(2880) == ((12, 15, 16), (10, 16, 18), (12, 12, 20), (10, 12, 24))
    assert products.splits(10**3) == ((10, 10, 10),)
    assert products.splits(24**3) == ((24, 24, 24),)
    assert products.splits(24**3 * 2) == products.splits(500) == products.splits(0x7FFFFFFF) == ()
    assert CountProducts((12, 15), 2).listed() == [144, 180, 225]
    assert CountProducts((12, 15), 2).choices == 3


def test_what_was_split_is_kept_until_there_is_too_much_of_it(monkeypatch):
    monkeypatch.setattr("solver.wheelwork.count_products._MOST_KEPT", 1)
    products = CountProducts(SIX, 2)
    assert [products.splits(each) for each in (180, 240, 300, 180, 400)] == [
        ((12, 15),), ((12, 20),), ((15, 20),), ((12, 15),), ((20, 20),),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("number", "could"), [(1, True), (60, True), (144, True), (288, False), (7, False), (3600, True)]
)
def test_a_factor_of_a_product_has_only_the_primes_of_the_counts_as_often_as_they_may_come(number, could):
    # 2**4 * 3**2 * 5**2 is all that two of 12, 15 and 20 can hold.
    assert CountProducts(SIX, 2).could_hold(number) is could


@pytest.mark.parametrize(
    ("train", "reaches"),
    [
        # A wheel of 58 reaches 60 half-teeth with its addendum: as far as the axis of the next pair, of 20 and 40.
        ("20-58-20-40", ((58, 3),)),
        ("20-57-20-40", ()),
        ("20-40-58-20", ((58, 1),)),
        ("20-40-57-20", ()),
        # Two pairs further on, the wheels and arbors are one further.
        ("20-40-20-40-20-40", ()),
        ("30-30-20-58-20-40", ((58, 4),)),
        ("30-30-20-40-58-20", ((58, 2),)),
        ("20-100-20-60", ((100, 3),)),
        ("20-40", ()),
    ],
)
def test_a_wheel_reaches_over_the_arbor_beside_it_when_its_tip_is_as_far_out(train, reaches):
    assert over_an_arbor(read_train(train)) == reaches


def test_a_train_is_put_in_order_by_reach_then_mildness_then_distances_then_counts():
    # 12-36 beside 64-16: 64 would reach over the first arbor if it came second.
    assert str(in_order((Pair(12, 36), Pair(64, 16)))) == "64-16-12-36"
    # The steepest pair is mildest with 15 to 98 and 25 to 113.
    assert str(best_order(Counts((15, 25), (98, 113)))) == "15-98-25-113"
    # Speeding up is as steep as slowing down: 90-20 and 30-40 have 4.5, 90-40 and 30-20 have 2.25.
    assert str(best_order(Counts((30, 90), (20, 40)))) == "90-40-30-20"
    # As mild either way, 20-40 and 30-60: the same pairs, smaller first.
    assert str(in_order((Pair(30, 60), Pair(20, 40)))) == "20-40-30-60"
    # Two and a half to one either way; sums of 70, 70 and 64 are nearer one another than 60, 70 and 74.
    assert str(best_order(Counts((20, 20, 24), (40, 50, 50)))) == "20-50-20-50-24-40"


def test_each_mesh_turns_the_train_back_and_an_idler_is_one_more():
    assert [sense_of(pairs) for pairs in (1, 2, 3, 4)] == [Sense.OPPOSITE, Sense.SAME] * 2
    assert [sense_of(pairs, 1) for pairs in (1, 2, 3, 4)] == [Sense.SAME, Sense.OPPOSITE] * 2
    assert [idlers_for(2, sense) for sense in (None, Sense.SAME, Sense.OPPOSITE)] == [0, 0, 1]


def question_of(ratio, counts, **told):
    return CountsQuestion(WantedTurning(Fraction(ratio)), AllowedCounts(tuple(counts), ()), **told)


def test_a_search_is_of_three_pairs_and_three_trains_each_unless_it_says_otherwise():
    question = question_of(HALF, range(20, 61))
    assert (question.most_pairs, question.most, question.sense, question.on_one_distance) == (3, 3, None, False)
    report = search_counts(question)
    assert [(each.pairs, len(each.answers), each.obstacle) for each in report.by_pairs] == [
        (1, 3, ""),
        (2, 3, ""),
        (3, 3, ""),
    ]
    assert [str(each.train) for each in report.by_pairs[0].answers] == ["20-40", "21-42", "22-44"]
    assert [each.idlers for each in report.by_pairs[0].answers] == [0, 0, 0]
    assert report.is_proven
    one = search_counts(question_of(HALF, range(20, 61), most_pairs=1, most=1, sense=Sense.SAME))
    (answer,) = one.by_pairs[0].answers
    assert (str(answer.train), answer.idlers, answer.sense, answer.is_exact) == ("20-40", 1, Sense.SAME, True)
    assert answer.drift == Drift(question.wanted, HALF, 40)
    assert one.best == answer


def test_the_last_wheel_is_that_of_the_last_pair():
    report = search_counts(question_of(Fraction(15 * 25, 98 * 113), (15, 25, 98, 113), most_pairs=2, most=1))
    assert str(report.best.train) == "15-98-25-113"
    assert report.best.drift.last_teeth == 113


def test_all_on_one_distance_are_pairs_of_one_sum_with_their_drift():
    report = search_counts(question_of(Fraction(1, 4), (20, 30, 40), most_pairs=2, most=1, on_one_distance=True))
    first, second = report.by_pairs
    assert first.obstacle == "one pair of 20 and 40 teeth reaches 1 to 2 at most"
    (answer,) = second.answers
    assert (str(answer.train), answer.idlers, answer.drift.last_teeth) == ("20-40-20-40", 0, 40)
    assert (second.obstacle, second.beyond) == ("", None)


def test_the_steepest_that_wheels_reach_is_reached_and_no_more():
    for ratio in (Fraction(3), Fraction(1, 3)):
        assert search_counts(question_of(ratio, (20, 60), most_pairs=1)).best.is_exact
    for ratio, ends in ((Fraction(301, 100), "3 to 1"), (Fraction(100, 301), "1 to 3")):
        report = search_counts(question_of(ratio, (20, 60), most_pairs=2))
        assert report.by_pairs[0].obstacle == f"one pair of 20 and 60 teeth reaches {ends} at most"


def test_a_report_picks_the_nearest_and_the_fewest_pairs_within_an_error():
    question = question_of(Fraction(1, 3), (20, 60))

    def report_of(*ratios):
        trains = [Train((Pair(20, 60),) * pairs) for pairs in range(1, len(ratios) + 1)]
        rows = search_counts(question).by_pairs[0].answers[0]
        return CountsReport(
            question,
            tuple(
                PairsReport(pairs, (rows._replace(train=train, drift=Drift(question.wanted, Fraction(ratio), 60)),))
                if ratio
                else PairsReport(pairs, (), obstacle="none")
                for pairs, (train, ratio) in enumerate(zip(trains, ratios, strict=True), start=1)
            ),
        )

    # A third and a tenth, a twentieth and a hundredth off.
    report = report_of(0, Fraction(11, 30), Fraction(21, 60), Fraction(101, 300))
    assert len(report.best.train.pairs) == 4
    assert [len(report.within(Fraction(1, each)).train.pairs) for each in (10, 11, 20, 21, 100)] == [2, 3, 3, 4, 4]
    assert report.within(Fraction(1, 101)) is None
    # One as near on the other side with fewer pairs comes first.
    short = report_of(Fraction(19, 60), Fraction(21, 60))
    assert len(short.best.train.pairs) == 1
    assert len(short.within(Fraction(1, 20)).train.pairs) == 1
    assert not CountsReport(question, (PairsReport(1, (), HALF),)).is_proven


def test_convergents_are_told_with_their_error_and_whether_one_pair_cuts_them():
    # 2.75: 3, 8/3? no: 2 and 3/4 is [2; 1, 3], so 2, 3 and 11/4.
    found = known_convergents(question_of(Fraction(11, 4), (12, 24, 36, 40, 44)))
    assert [(each.ratio, each.error, each.is_one_pair) for each in found] == [
        (2, Fraction(-3, 11), True), (3, Fraction(1, 11), True), (Fraction(11, 4), 0, False),
    ]  # fmt: skip
    cut = known_convergents(question_of(Fraction(11, 4), (16, 44)))
    assert [each.is_one_pair for each in cut] == [False, False, True]
    inverse = known_convergents(question_of(Fraction(4, 11), (16, 44)))
    assert (inverse[-1].ratio, inverse[-1].is_one_pair) == (Fraction(4, 11), True)
    # Nothing with a part above a million is told.
    assert known_convergents(question_of(Fraction(10**6), (12, 24)))[-1].ratio == 10**6
    assert all(each.ratio < 10**6 for each in known_convergents(question_of(Fraction(1_500_000, 1_500_001), (12, 24))))


def test_years_are_of_365_and_a_quarter_days():
    week = Period(Fraction(7), "1 week")
    drift = Drift(WantedTurning.of_periods(week, week), Fraction(1), 60)
    assert drift.years(Fraction(1461, 28)) == 1
    assert Drift(WantedTurning(HALF), HALF, 60).years(Fraction(1)) is None


def test_first_halves_are_counted_by_sum_and_the_half_is_rounded_up():
    # Sums 40 to 80 by tens have 1, 2, 3, 2 and 1 pairs; choices of two are 1, 3, 6, 3 and 1, of three 1, 4, 10, 4, 1.
    counts = (20, 30, 40)
    assert [halves_to_try(counts, pairs) for pairs in (1, 2, 3, 4, 5)] == [9, 9, 14, 14, 20]


def test_what_is_wanted_is_told_by_both_times_or_by_a_ratio_and_one():
    hour, day = Period(Fraction(1, 24), "1 h", Fraction(1, 100)), Period(Fraction(1), "1 day", Fraction(1, 1000))
    assert WantedTurning.of_periods(hour, day) == WantedTurning(Fraction(1, 24), hour, day, Fraction(11, 1000))
    written = WrittenRatio(Fraction(1, 12), Fraction(1, 50))
    # The last arbor takes twelve hours, and the first a twelfth of a day.
    assert WantedTurning.from_first(written, hour) == WantedTurning(
        Fraction(1, 12), hour, Period(HALF, ""), Fraction(1, 50)
    )
    assert WantedTurning.from_last(written, day) == WantedTurning(
        Fraction(1, 12), Period(Fraction(1, 12), ""), day, Fraction(1, 50)
    )
    assert WantedTurning(HALF) == WantedTurning(HALF, None, None, Fraction(0))
