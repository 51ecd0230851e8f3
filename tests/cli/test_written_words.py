"""What a drawing writes beside a pitch reaches the answer: its hand, its lead and starts, its words."""

from __future__ import annotations

import json

import pytest

from tests.cli.running import halfnut


def asked(*words: str) -> dict:
    outcome = halfnut("train", *words, "--lathe", "inch-8", "--json")
    assert outcome.returncode == 0, outcome
    return json.loads(outcome.stdout)["asked"]


def test_a_left_hand_thread_is_left_hand_without_the_option() -> None:
    assert asked("Tr40x7 LH")["hand"] == "left"
    assert asked("Tr40x7 LH", "--hand", "left")["hand"] == "left"
    assert asked("Tr40x7")["hand"] == "right"
    assert "left-hand" in halfnut("train", "1-8 UNC-LH", "--lathe", "inch-8").stdout.splitlines()[0]
    assert "the screw, left-hand" in halfnut("thread", "M10 LH").stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("train", "Tr40x7 LH", "--hand", "right"), "'Tr40x7 LH' is a left-hand thread and --hand says right"),
        (("thread", "M6 RH", "--hand", "left"), "'M6 RH' is a right-hand thread and --hand says left"),
        (("missing", "M6 LH", "M5"), "Some of these threads are left-hand and some right-hand"),
        (("train", "M6 LH RH"), "the hand of a thread is said once"),
    ],
)
def test_a_hand_against_another_is_refused(words: tuple[str, ...], said: str) -> None:
    outcome = halfnut(*words)
    assert outcome.returncode == 2
    assert said in outcome.stderr
    assert outcome.stdout == ""


@pytest.mark.parametrize("words", [("reach", "M6 LH"), ("audit", "40-127", "--against", "M6 LH")])
def test_a_hand_that_plays_no_part_is_said_to_play_none(words: tuple[str, ...]) -> None:
    outcome = halfnut(*words, "--lathe", "inch-8")
    assert outcome.returncode == 0, outcome
    assert "The hand of 'M6 LH' plays no part here" in outcome.stderr


def test_starts_of_the_option_part_a_lead_and_multiply_a_pitch() -> None:
    # 1/2 in of lead in four starts is 1/8 in of pitch; four starts of 1/2 in advance 2 in.
    assert asked("1/2 in lead", "--starts", "4")["written"] == "0.125 in, 4 starts"
    assert asked("1/2 in lead, 4 starts")["lead_mm"] == asked("0.5in")["lead_mm"]
    assert asked("1/2 in", "--starts", "4")["written"] == "0.5 in, 4 starts"


@pytest.mark.parametrize(
    ("text", "written"),
    [("20 threads per inch", "20 tpi"), ("0.8 π mm", "module 0.8"), ("10 d.p.", "10 DP"), ("CP 3 mm", "3 mm")],
)
def test_our_own_words_for_a_pitch_are_read_back(text: str, written: str) -> None:
    assert asked(text)["written"] == written


REMARK = "M8x0.5 is not among the sizes of ISO 261 kept here; of its diameter are M8x1.25, M8x1, M8x0.75"


def test_a_size_outside_its_standard_is_answered_with_a_remark() -> None:
    assert asked("M8x0.5")["remark"] == REMARK
    assert asked("M8")["remark"] is None
    for command in ("train", "thread"):
        assert REMARK in " ".join(halfnut(command, "M8x0.5").stdout.split())
    assert json.loads(halfnut("thread", "M8x0.5", "--json").stdout)["asked"]["remark"] == REMARK
    for words in (("reach", "M8x0.5"), ("missing", "M8x0.5"), ("audit", "40-127", "--against", "M8x0.5")):
        assert f"{REMARK}." in halfnut(*words).stderr


def test_one_pair_with_a_stroke_is_asked_unless_something_beside_it_tells() -> None:
    asked_back = halfnut("audit", "20/80")
    assert asked_back.returncode == 2
    assert "20/80 may be wheels, driver over driven, or spaces on a circle" in asked_back.stderr
    assert "Write 20-80 for the train, '20 on 80' for the index move; or name --lathe or --head." in asked_back.stderr
    for words in (("--lathe", "inch-8"), ("--against", "1 mm"), ("--length", "25 mm")):
        assert "20-80" in halfnut("audit", "20/80", *words).stdout
    for words in (("--head", "head-60"), ("--against", "160"), ("--worm-ratio", "40")):
        assert "20 spaces on 80" in halfnut("audit", "20/80", *words).stdout
    assert halfnut("audit", "20/80", "--lathe", "inch-8", "--head", "head-60").returncode == 2


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("20:80", "Train        20-80"),
        ("3/27", "3 spaces on 27"),
        ("8 holes in 20", "8 spaces on 20"),
        ("1 + 3/27", "1 turn + 3 spaces on 27"),
        ("21/23 - 11/33", "21 spaces on 23"),
        ("20/40 50/127", "20-40-50-127"),
    ],
)
def test_a_setting_that_can_be_one_thing_only_is_not_asked(written: str, shown: str) -> None:
    assert shown in halfnut("audit", written).stdout


def test_counts_take_pi_and_names_of_the_moon() -> None:
    outcome = halfnut("counts", "pi", "--json")
    assert outcome.returncode == 0, outcome
    told = json.loads(outcome.stdout)["asked"]
    assert told["ratio"].startswith("6283185307179586")
    listed = halfnut("counts", "--list-periods").stdout
    assert all(name in listed for name in ("lunation", "nodical month", "saros", "Metonic cycle"))
