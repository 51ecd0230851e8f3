"""``counts`` as a person asks for it."""

from __future__ import annotations

from fractions import Fraction
from math import prod

import pytest

from tests.cli.running import answer_of, halfnut

SCREENS = [
    ("counts", "--from", "1 day", "--to", "synodic month", "--size", "module 0.5"),
    ("counts", "12/365.2422", "--largest", "100", "--method", "plain"),
    ("counts", "1/12", "--in-line", "--sense", "same", "--no-undercut"),
    ("counts", "1/60", "--sense", "opposite", "--pairs", "2", "--any-count"),
    ("counts", "--from", "tropical year", "--to", "lunar node", "--sense", "opposite", "--smallest", "8"),
    ("counts", "3.14159", "--size", "48 DP", "--cutters", "3-6", "--largest", "1.5 in", "--within", "1 h"),
    (
        "counts",
        "--from",
        "Mars sidereal",
        "--to",
        "Saturn sidereal",
        "--pairs",
        "1",
        "--answers",
        "5",
        "--smallest",
        "7",
    ),
]


@pytest.mark.parametrize("words", SCREENS, ids=" ".join)
def test_a_screen_keeps_to_80_columns_and_carries_its_proof_check_and_cautions(words):
    outcome = halfnut(*words)
    assert outcome.returncode in (0, 1), outcome
    assert max(map(len, outcome.stdout.splitlines())) <= 80
    assert "\x1b" not in outcome.stdout
    for part in ("Proof", "What was proven", "Convergents", "Early check", "Cautions", "handbook, local rules"):
        assert part in " ".join(outcome.stdout.split())
    assert ("NEAREST, not within it" in outcome.stdout) == (outcome.returncode == 1)


@pytest.mark.parametrize("words", SCREENS, ids=" ".join)
def test_a_narrow_screen_keeps_to_its_width(words):
    outcome = halfnut(*words, columns=48)
    assert "Traceback" not in outcome.stderr
    assert max(map(len, outcome.stdout.splitlines())) <= 48


@pytest.mark.parametrize("words", SCREENS, ids=" ".join)
def test_the_json_says_of_each_train_what_its_wheels_make(words):
    answer = answer_of(*words)
    wanted = Fraction(answer["asked"]["ratio"])
    allowed = set(answer["counts"]["allowed"])
    trains = [each for report in answer["by_pairs"] for each in report["answers"]]
    assert trains
    for each in trains:
        pairs = each["pairs"]
        made = Fraction(prod(pair[0] for pair in pairs), prod(pair[1] for pair in pairs))
        assert Fraction(each["ratio"]) == made
        assert Fraction(each["error_ppm"]) == (made / wanted - 1) * 1_000_000
        assert each["exact"] == (made == wanted)
        assert {teeth for pair in pairs for teeth in pair} <= allowed
        assert each["sense"] == ("same" if (len(pairs) + each["idlers_needed"]) % 2 == 0 else "opposite")
        assert answer["asked"]["sense"] in (None, each["sense"])
        if answer["asked"]["in_line"]:
            assert len(set(each["teeth_together"])) == 1


def test_the_month_on_a_day_arbor_in_full():
    # 29.530589 days by 15-98-25-113: (98 x 113)/(15 x 25) = 11074/375 days, worked by hand.
    answer = answer_of("counts", "--from", "1 day", "--to", "29.530589 days", "--size", "module 0.5", "--pairs", "2")
    first = answer["by_pairs"][1]["answers"][0]
    assert first["pairs"] == [[15, 98], [25, 113]]
    assert answer["by_pairs"][1]["proven"] is True
    assert first["centre_distances_mm"] == ["113/4", "69/2"]
    assert Fraction(first["drift"]["made_days"]) == Fraction(11074, 375)
    assert first["wheels"][0] == {
        "teeth": 15, "divided_by": "plain", "cutter": 2, "outside_mm": "17/2", "whole_depth_mm": "9/8",
    }  # fmt: skip
    assert answer["asked"]["good_to_ppm"] == str(Fraction("0.0000005") / Fraction("29.530589") * 1_000_000)


def test_the_fewest_wheels_within_the_error_are_told_in_full():
    words = ("counts", "--from", "1 day", "--to", "synodic month")
    assert answer_of(*words)["chosen"] == 2
    assert answer_of(*words, "--within", "1 s")["chosen"] == 3
    assert answer_of(*words, "--within", "1 s", "--pairs", "2")["chosen"] is None
    outcome = halfnut(*words, "--within", "1 s", "--pairs", "2")
    assert outcome.returncode == 1
    assert "--pairs 3" in outcome.stderr


def test_errors_finer_than_the_wanted_figure_are_said_to_mean_nothing():
    words = ("counts", "--from", "1 day", "--to", "synodic month")
    assert "is good to 0.0169 ppm" in " ".join(halfnut(*words).stdout.split())
    assert "is good to" not in halfnut(*words, "--pairs", "2").stdout


def test_one_to_one_is_a_pair_of_equal_wheels():
    first = answer_of("counts", "1", "--pairs", "2")["by_pairs"][0]["answers"][0]
    assert (first["pairs"], first["exact"], first["sense"]) == ([[12, 12]], True, "opposite")


def test_periods_are_listed_with_where_they_come_from():
    outcome = halfnut("counts", "--list-periods")
    assert outcome.returncode == 0
    assert max(map(len, outcome.stdout.splitlines())) <= 80
    assert "synodic month         29.530589" in outcome.stdout
    assert "memory" in outcome.stdout


REFUSALS = [
    (("0",), 2, "a ratio is above zero"),
    (("-3",), 2, "--sense"),
    (("1,5",), 2, "Write a point: 1.5"),
    (("1e400",), 2, "exponent"),
    (("__import__('os')",), 2, "a figure was expected"),
    ((), 2, "Give a RATIO"),
    (("1/3", "--from", "1 day", "--to", "3 days"), 2, "leave RATIO out"),
    (("--from", "year", "--to", "day"), 2, "sidereal year"),
    (("--from", "1 day", "--to", "-2 days"), 2, "negative"),
    (("1/12", "--cutters", "1-4"), 2, "--cutters needs --size"),
    (("1/12", "--largest", "60 mm"), 2, "give --size"),
    (("1/12", "--any-count", "--method", "plain"), 2, "--any-count leaves the head out"),
    (("1/12", "--within", "-1 ppm"), 2, "negative"),
    (("1/12", "--smallest", "50", "--largest", "40"), 1, "is not below"),
    (("1/12", "--largest", "99999"), 1, "5 to 1000 teeth"),
    (("1/12", "--smallest", "127", "--largest", "129", "--method", "plain"), 1, "does not divide them"),
    (("999999999",), 1, "reaches 10 to 1 at most"),
    (("1/100000", "--pairs", "2"), 1, "make it of two trains"),
    (("1/900", "--pairs", "2"), 1, "--pairs 3"),
]


@pytest.mark.parametrize(("words", "status", "said"), REFUSALS, ids=lambda value: str(value)[:40])
def test_a_refusal_says_what_is_wrong_and_what_to_do(words, status, said):
    outcome = halfnut("counts", *words)
    assert outcome.returncode == status, outcome
    assert outcome.stdout == ""
    assert said in " ".join(outcome.stderr.split())
    assert "Traceback" not in outcome.stderr


def test_an_error_just_beyond_the_limit_does_not_read_as_one_within_it():
    # 41 × 59 / (22 × 35) = 2419/770 is 10.0454 ppm below 3.14159.
    outcome = halfnut("counts", "3.14159", "--largest", "60", "--any-count", "--pairs", "2")
    row = next(line for line in outcome.stdout.splitlines() if "41-22-59-35 " in line and "°" in line)
    assert "-10.05" in row.split()
    assert outcome.returncode == 1


def test_the_turns_of_node_and_apse_say_what_they_are_reckoned_to():
    said = " ".join(halfnut("counts", "--list-periods").stdout.split())
    assert said.count("equinox: tropical") == 2
