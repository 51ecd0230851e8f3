"""What is said of wheelwork that cannot be, word for word: the request, and the whole of the answer."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gearsets.period_tables import find_period
from solver.dividing.heads import Head, Plate
from solver.dividing.moves import Method
from solver.quantities.angles import Angle
from solver.refusals import AmbiguousRequestError, ImpossibleSettingError, UnreadableFigureError
from solver.wheelwork.arbors import Sense
from solver.wheelwork.counts_search import CountsQuestion, search_counts
from solver.wheelwork.drift import WantedTurning
from solver.wheelwork.periods import Period, read_period
from solver.wheelwork.tooth_cutting import clean_from, read_cutters, read_spur_tooth
from solver.wheelwork.wheel_limits import AllowedCounts, WheelLimits, allowed_counts
from solver.wheelwork.written_ratios import read_turning_ratio

HEAD = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),))
RATIOS = "Write turns of the last arbor for one of the first: 1/12, 12/365.2422, 29.530589 or 64/38 x 48/24."
PERIODS = (
    "Write for example 29.530589 days, 12 h, 29 d 12 h 44 min 2.9 s, synodic month or 19 tropical years; "
    "'halfnut counts --list-periods' lists the names."
)
CUTTERS = "Write 1-8 or 2,4,6."
NO_SIGN = "Leave it out, and say which way the last arbor turns with --sense same or --sense opposite."

#: What reads it, the text, where the marker stands, what is said of it, and what would help.
UNREADABLE = [
    (read_turning_ratio, "-1/12", 0, "a ratio has no sign", NO_SIGN),
    (read_turning_ratio, "−2", 0, "a ratio has no sign", NO_SIGN),
    (read_turning_ratio, " -2", 1, "a ratio has no sign", NO_SIGN),
    (read_turning_ratio, "x/3", 0, "a figure was expected here", RATIOS),
    (read_turning_ratio, "12/", 3, "a figure was expected here", RATIOS),
    (read_turning_ratio, "3 x ", 4, "a figure was expected here", RATIOS),
    (read_turning_ratio, "3 x -2", 4, "this figure is not negative; leave the sign out", RATIOS),
    (read_turning_ratio, "3 x −2", 4, "this figure is not negative; leave the sign out", RATIOS),
    (read_turning_ratio, "12/0", 3, "a ratio is above zero, and nothing is divided by zero", RATIOS),
    (read_turning_ratio, "0.00 x 12", 0, "a ratio is above zero, and nothing is divided by zero", RATIOS),
    (read_turning_ratio, "1..2", 2, "a digit was expected here", RATIOS),
    (read_turning_ratio, "1/12 mm", 5, "a ratio ends before this", RATIOS),
    (read_turning_ratio, "12 365", 3, "a ratio ends before this", RATIOS),
    (read_turning_ratio, "x".join("1" * 17), 31, "a ratio has 16 figures at the most", RATIOS),
    (read_turning_ratio, "/".join("1" * 16) + " / 1", 32, "a ratio has 16 figures at the most", RATIOS),
    (find_period, "0 days", 0, "a period is above zero", PERIODS),
    (find_period, " 0 h 0 min", 1, "a period is above zero", PERIODS),
    (find_period, " 0 tropical years", 1, "a period is above zero", PERIODS),
    (find_period, "0", 0, "a period is above zero", PERIODS),
    (find_period, "-1 day", 0, "this figure is not negative; leave the sign out", PERIODS),
    (find_period, "−1 day", 0, "this figure is not negative; leave the sign out", PERIODS),
    (find_period, "5", 1, "a time needs its unit here", PERIODS),
    (find_period, "5 ", 2, "a time needs its unit here", PERIODS),
    (find_period, "1 h 2", 5, "a time needs its unit here", PERIODS),
    (find_period, "1 h 2 mm", 6, "a time needs its unit here", PERIODS),
    (find_period, "1 h 2 d", 6, "the larger unit comes first, each once", PERIODS),
    (find_period, "1 h 1 h", 6, "the larger unit comes first, each once", PERIODS),
    (find_period, "3 mm", 2, "no unit of time and no known period", PERIODS),
    (find_period, "1 h x", 2, "no unit of time and no known period", PERIODS),
    (find_period, "blue moon", 0, "no unit of time and no known period", PERIODS),
    (read_cutters, "0", 0, "the cutters of the set are numbered 1 to 8", CUTTERS),
    (read_cutters, "9", 0, "the cutters of the set are numbered 1 to 8", CUTTERS),
    (read_cutters, "2 - 9", 4, "the cutters of the set are numbered 1 to 8", CUTTERS),
    (read_cutters, "5 - 3", 4, "a run of cutters goes up", CUTTERS),
    (read_cutters, "5–4", 2, "a run of cutters goes up", CUTTERS),
    (read_cutters, "1 2", 2, "a comma goes between the numbers of cutters", CUTTERS),
    (read_cutters, "1-3;5", 3, "a comma goes between the numbers of cutters", CUTTERS),
    (read_cutters, "1, ", 3, "a digit was expected here", CUTTERS),
]


@pytest.mark.parametrize(("read", "text", "at", "reason", "helps"), UNREADABLE)
def test_a_text_that_cannot_be_read_is_marked_where_it_stops_and_helped(read, text, at, reason, helps):
    with pytest.raises(UnreadableFigureError) as caught:
        read(text)
    assert str(caught.value) == f"{reason}\n  {text}\n  {' ' * at}^\n{helps}"


MANY = {f"{kind} moon": Period(Fraction(1), "") for kind in "abcdefghijklmn"}


@pytest.mark.parametrize(
    ("text", "named", "said"),
    [
        ("mars", {"Mars sidereal": Period(Fraction(687), ""), "Venus synodic": Period(Fraction(584), ""),
                  "Mars synodic": Period(Fraction(780), "")},
         "'mars' may mean several periods\nSay which: Mars sidereal, Mars synodic."),
        (" 2  years", {"tropical year": Period(Fraction(365), "")},
         "'2 years' may mean several periods\nSay which: tropical year."),
        ("Moons", MANY, ("'Moons' may mean several periods\nSay which: a moon, b moon, c moon, d moon, e moon, f moon, "
         "g moon, h moon, i moon, j moon, k moon, l moon.")),
        (f"{'z' * 70}", {"z" * 70 + " year": Period(Fraction(1), "")},
         f"'{'z' * 60}' may mean several periods\nSay which: {'z' * 70} year."),
    ],
)  # fmt: skip
def test_a_name_of_several_periods_is_asked_back_with_twelve_of_them_at_the_most(text, named, said):
    with pytest.raises(AmbiguousRequestError) as caught:
        read_period(text, named)
    assert str(caught.value) == said


WIDEN = "Widen --smallest and --largest, or allow more cutters, undercut or methods of dividing."
RUN = "A wheel of a train has 5 to 1000 teeth."
ORDER = "Give a --largest above --smallest; with a size of tooth both may be outside diameters."
LEFT = "fewer than two counts are left"
SMALL = read_spur_tooth("module 0.5")


@pytest.mark.parametrize(
    ("limits", "said"),
    [
        (WheelLimits(4, 60), f"wheels of 4 to 60 teeth were asked for\n{RUN}"),
        (WheelLimits(5, 1001), f"wheels of 5 to 1001 teeth were asked for\n{RUN}"),
        (WheelLimits(60, 60), f"the smallest wheel, 60 teeth, is not below the largest, 60\n{ORDER}"),
        (WheelLimits(61, 60), f"the smallest wheel, 61 teeth, is not below the largest, 60\n{ORDER}"),
        (WheelLimits(12, 18, clean_from=18),
         f"between 12 and 18 teeth {LEFT}: undercut begins below 18 teeth\n{WIDEN}"),
        (WheelLimits(12, 17, tooth=SMALL, cutters=(3, 8)),
         f"between 12 and 17 teeth {LEFT}: no cutter among 3, 8 is for them\n{WIDEN}"),
        (WheelLimits(127, 128, HEAD),
         f"between 127 and 128 teeth {LEFT}: the head does not divide them exactly by any method\n{WIDEN}"),
        (WheelLimits(127, 128, HEAD, (Method.PLAIN,)),
         f"between 127 and 128 teeth {LEFT}: the head does not divide them exactly by plain\n{WIDEN}"),
        (WheelLimits(127, 128, HEAD, (Method.DIRECT, Method.PLAIN)),
         f"between 127 and 128 teeth {LEFT}: the head does not divide them exactly by direct or plain\n{WIDEN}"),
    ],
)  # fmt: skip
def test_bounds_that_leave_fewer_than_two_counts_say_which_of_them_does(limits, said):
    with pytest.raises(ImpossibleSettingError) as caught:
        allowed_counts(limits)
    assert str(caught.value) == said


@pytest.mark.parametrize("degrees", ["9.99", "30.01"])
def test_a_pressure_angle_of_no_spur_wheel_is_refused(degrees):
    with pytest.raises(ImpossibleSettingError) as caught:
        clean_from(Angle.of_degrees(degrees))
    assert str(caught.value) == (
        "a pressure angle of a spur wheel is 10 to 30 degrees\nWrite for example 20 deg or 14.5 deg."
    )


OTHERWISE = "Leave out --in-line or --sense, allow fewer counts, or ask for another number of --pairs."
STEEP = "Allow smaller or larger wheels, or make it of two trains one after the other."


@pytest.mark.parametrize(
    ("ratio", "most_pairs", "told", "said"),
    [
        (50, 2, {}, ("No train: one pair of 12 and 60 teeth reaches 5 to 1 at most.\n"
         "No train: 2 pairs of 12 and 60 teeth reach 25 to 1 at most.\n"
         "Ask for --pairs 3, or allow smaller and larger wheels.")),
        (Fraction(1, 6), 1, {}, ("No train: one pair of 12 and 60 teeth reaches 1 to 5 at most.\n"
         "Ask for --pairs 2, or allow smaller and larger wheels.")),
        (625, 1, {}, ("No train: one pair of 12 and 60 teeth reaches 5 to 1 at most.\n"
         "Ask for --pairs 4, or allow smaller and larger wheels.")),
        (626, 1, {}, f"No train: one pair of 12 and 60 teeth reaches 5 to 1 at most.\n{STEEP}"),
        (Fraction(1, 626), 1, {}, f"No train: one pair of 12 and 60 teeth reaches 1 to 5 at most.\n{STEEP}"),
        (2, 1, {"sense": Sense.SAME, "on_one_distance": True}, ("No train: one mesh turns it the wrong way, and on one "
         f"centre distance no idler goes in.\n{OTHERWISE}")),
        (20, 2, {"sense": Sense.OPPOSITE, "on_one_distance": True},
         ("No train: one pair of 12 and 60 teeth reaches 5 to 1 at most.\n"
         f"No train: 2 meshes turn it the wrong way, and on one centre distance no idler goes in.\n{OTHERWISE}")),
    ],
)  # fmt: skip
def test_a_ratio_out_of_reach_says_of_each_number_of_pairs_how_far_it_comes(ratio, most_pairs, told, said):
    question = CountsQuestion(WantedTurning(Fraction(ratio)), AllowedCounts((12, 60), ()), most_pairs, **told)
    with pytest.raises(ImpossibleSettingError) as caught:
        search_counts(question)
    assert str(caught.value) == said


def test_what_stands_in_the_way_of_some_numbers_of_pairs_is_told_beside_the_trains_of_others():
    # 37 to 36 is 1.0277 to 1, in two pairs 1.0563 to 1.
    question = CountsQuestion(WantedTurning(Fraction("1.05")), AllowedCounts((36, 37), ()), 2)
    first, second = search_counts(question).by_pairs
    assert first.obstacle == "one pair of 36 and 37 teeth reaches 1.03 to 1 at most"
    assert (first.answers, first.beyond) == ((), None)
    assert (second.obstacle, bool(second.answers), second.beyond) == ("", True, None)


@pytest.mark.parametrize(("halves", "obstacle"), [
    (13, "3 counts make too many on one centre distance to look through"), (14, ""),
])  # fmt: skip
def test_too_many_counts_in_line_are_an_obstacle_and_not_a_wait(monkeypatch, halves, obstacle):
    # Sums 40 to 80 by tens have 1, 2, 3, 2 and 1 pairs: 1 + 3 + 6 + 3 + 1 halves of two pairs, 9 of one.
    monkeypatch.setattr("solver.wheelwork.counts_search.MOST_HALVES", halves)
    counts = AllowedCounts((20, 30, 40), ())
    question = CountsQuestion(WantedTurning(Fraction(1, 2)), counts, 3, 1, on_one_distance=True)
    first, second, third = search_counts(question).by_pairs
    assert first.answers[0].is_exact
    assert second.answers[0].is_exact
    assert (first.beyond, second.beyond) == (None, None)
    assert third.obstacle == obstacle
    assert (third.pairs, len(third.answers), third.beyond) == ((3, 0, 0) if obstacle else (3, 1, None))
