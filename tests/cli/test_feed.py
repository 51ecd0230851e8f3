"""``feed``: wheels for turning, the finest feed, and putting the thread wheels back."""

from __future__ import annotations

import json
from fractions import Fraction
from itertools import permutations

import pytest

from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.trains.feeds import feed_trains
from solver.trains.hand import Hand
from solver.trains.lathe import Banjo
from solver.trains.mounting import judge
from solver.trains.wheels import Pair
from solver.trains.written_trains import Train
from tests.cli.running import answer_of, halfnut
from tests.small_lathes import FREE, a_lathe


def answer_of_one(*words):
    """What is told where nothing answers."""
    return json.loads(halfnut(*words, "--json").stdout)


def plain(text):
    return " ".join(text.split())


def test_a_feed_is_told_by_the_travel_of_a_turn_and_how_far_it_is_off():
    # 3.175 mm by 20/100 and 20/127 is 0.1 mm.
    first = answer_of("feed", "0.1 mm", "--lathe", "inch-8")["answers"][0]
    assert (first["feed_mm"], first["off"]) == ("1/10", "0")
    screen = plain(halfnut("feed", "0.1 mm", "--lathe", "inch-8").stdout)
    assert "Gives 0.1 mm (≈0.00394 in) for each turn" in screen
    assert "Off as wanted" in screen
    assert "may be opened anywhere: a feed picks up no groove" in screen
    assert "KEEP CLOSED" not in screen
    assert "ten grooves" not in screen
    # 10 turns are 1 mm.
    assert "10 spindle turns move the carriage 1 mm (≈0.03937 in)" in screen


def test_an_inch_feed_within_a_tenth_is_an_answer_and_its_side_is_said():
    answers = answer_of("feed", "0.004 in", "--lathe", "inch-16-small")["answers"]
    assert answers
    for each in answers:
        off = Fraction(each["feed_mm"]) / (Fraction(4, 1000) * Fraction(127, 5)) - 1
        assert Fraction(each["off"]) == off
        assert abs(off) <= Fraction(1, 10)
    only = halfnut("feed", "0.004 in", "--lathe", "inch-16-small", "--within", "0.001 %", "--pairs", "1")
    assert only.returncode == 1
    assert "NEAREST, not an answer" in only.stdout
    assert "coarser than wanted" in plain(only.stdout)


@pytest.mark.parametrize("banjo", [None, FREE])
def test_the_finest_is_the_finest_of_all_placings_that_go_on(banjo):
    teeth = (20, 25, 60, 75, 80)
    lathe = a_lathe(*teeth, banjo=banjo)
    fits = [
        lathe.lead_at_equal_wheels * train.ratio
        for many in (2, 4)
        for chosen in permutations(teeth, many)
        for train in [Train(tuple(Pair(*pair) for pair in zip(chosen[::2], chosen[1::2], strict=True)))]
        if judge(train, lathe).verdict.value != "does not fit"
    ]
    found = feed_trains(lathe, None, most_pairs=2).answers
    assert found[0].cut_lead == min(fits, key=lambda lead: lead.mm)


def test_what_stood_before_is_put_back():
    screen = plain(halfnut("feed", "--lathe", "inch-8", "--mounted", "40-127", "--pairs", "1").stdout)
    assert "From 40-127, which is mounted now - 20-127: stud gear 40 T off, 20 T on; other wheels stay." in screen
    assert "Afterwards, back to 40-127: stud gear 20 T off, 40 T on; other wheels stay." in screen
    nothing = halfnut("feed", "--lathe", "inch-8", "--mounted", "20-127", "--pairs", "1").stdout
    assert "nothing changes" in nothing
    assert "Afterwards" not in nothing


def test_away_from_the_headstock_the_other_way_is_said():
    screen = plain(halfnut("feed", "0.2 mm", "--lathe", "metric-3", "--from-headstock").stdout)
    assert "Tool goes away from the headstock with the spindle forward" in screen
    assert "groove turned" not in screen


@pytest.mark.parametrize(
    ("words", "said"),
    [(("0.1",), "unit"), (("0 mm",), "above zero"), (("0.1 mm", "--mounted", "20"), "pairs of driver and driven")],
)
def test_a_feed_that_cannot_be_is_refused(words, said):
    outcome = halfnut("feed", *words, "--lathe", "inch-8")
    assert outcome.returncode == 2
    assert said in outcome.stderr
    assert outcome.stdout == ""


def test_what_is_mounted_is_left_where_it_is_near_enough():
    # 3.175 mm by 400/12650 is 127/1265 mm, 0.4 % coarser than 0.1 mm.
    words = ("feed", "0.1 mm", "--lathe", "inch-8-no127", "--mounted", "20-110-20-115")
    answer = answer_of(*words)
    assert answer["answers"][0]["pairs"] == [[20, 110], [20, 115]]
    assert "nothing changes" in halfnut(*words).stdout
    # With nothing mounted two pairs come before three, however near those are.
    pairs = [len(each["pairs"]) for each in answer_of(*words[:4])["answers"]]
    assert pairs == sorted(pairs)
    assert min(pairs) == 2


def test_the_nearest_is_the_nearest_that_goes_on_and_the_finest_is_found_with_pairs_to_spare():
    # The finest of this banjo is 3.175 mm by 1100/12700.
    nearest = answer_of_one("feed", "0.01 mm", "--lathe", "inch-8-banjo")["nearest"]
    assert nearest["feed_mm"] == "11/40"
    assert answer_of("feed", "--lathe", "inch-8-banjo", "--pairs", "4")["answers"][0]["feed_mm"] == "11/40"
    said = halfnut("feed", "0.01 mm", "--lathe", "inch-8-banjo").stderr
    assert "so fine a feed; the nearest that does is shown" in said
    exactly = halfnut("feed", "0.1 mm", "--lathe", "inch-16-small", "--within", "exact", "--pairs", "1")
    assert "that goes on is exact for so fine a feed" in exactly.stderr


@pytest.mark.parametrize(
    "text", ["0.1016mm", "0.004 in", "0.1016 mm/rev", "0.004 in per turn", "4 thou", "4thou/rev", "4 thou a turn"]
)
def test_a_feed_is_read_as_the_shop_writes_it(text):
    assert answer_of("feed", text, "--lathe", "inch-8")["asked"]["feed_mm"] == "127/1250"


@pytest.mark.parametrize("text", ["0.1 mm/min", "0.1 mm per", "0.1 mm for a turn", "0.1 tpi"])
def test_what_is_no_feed_is_refused_with_its_place(text):
    outcome = halfnut("feed", text, "--lathe", "inch-8")
    assert outcome.returncode == 2
    assert "^" in outcome.stderr
    assert "0.004 in or 4 thou" in outcome.stderr


def test_a_wheel_that_is_not_in_the_box_is_remarked_on_and_a_tolerance_of_nothing_refused():
    said = halfnut("feed", "0.1 mm", "--lathe", "inch-8", "--mounted", "33-44").stderr
    assert "33 T is not in the box" in said
    assert halfnut("feed", "--within", "1 %", "--lathe", "inch-8").returncode == 2


def test_a_feed_keeps_to_the_pairs_and_to_the_way_asked_for():
    lathe = a_lathe(20, 30, 40, 60, 80, reverse=False, banjo=Banjo(studs=2, stud_nut=Length.of_mm(5)))
    away = feed_trains(lathe, Length.of_mm(1), hand=Hand.LEFT, most_pairs=1).answers
    towards = feed_trains(lathe, Length.of_mm(1), hand=Hand.RIGHT, most_pairs=1).answers
    assert {each.hand.hand for each in away} == {Hand.LEFT}
    assert {each.hand.hand for each in towards} == {Hand.RIGHT}
    # Without a reverse one pair drives the leadscrew backwards, and an idler turns that round.
    assert [len(each.idlers) for each in (away[0], towards[0])] == [0, 1]
    assert {len(each.train.pairs) for each in (*away, *towards)} == {1}


def test_a_box_of_too_few_wheels_is_refused_and_none_near_is_no_answer():
    with pytest.raises(ImpossibleSettingError, match="at least two wheels"):
        feed_trains(a_lathe(40), None)
    assert feed_trains(a_lathe(40, 80), Length.of_mm("0.01"), most_pairs=1).answers == ()
