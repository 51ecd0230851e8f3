"""``divide`` by every method and ``audit`` of index settings, as a person sees them."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import answer_of, halfnut

HEAD = ("--head", "head-40-three-plates")
#: A head without wheels, and what is said of one whose file is silent about idlers.
SILENT = """
name = "silent"
worm_ratio = "40"
plates = [ { name = "C", faces = [[37, 39, 41, 43, 47, 49]] } ]
[wheels]
teeth = { 24 = 2, 32 = 1, 44 = 1, 48 = 1, 56 = 1 }
"""


def by_method(answer: dict[str, Any]) -> dict[str, list[dict[str, Any]]]:
    found: dict[str, list[dict[str, Any]]] = {}
    for each in answer["answers"]:
        found.setdefault(each["method"], []).append(each)
    return found


def test_a_prime_is_answered_by_every_method_with_the_exact_one_first() -> None:
    answer = answer_of("divide", "127", *HEAD)
    assert [each["method"] for each in answer["methods"]][:3] == ["differential", "compound", "nearest"]
    found = by_method(answer)
    assert set(found) == {"differential", "compound", "nearest"}
    geared = found["differential"][0]
    assert geared["moves"] == [{"sign": 1, "turns": 0, "spaces": 13, "circle": 39}]
    assert geared["plate"] == "C"
    assert geared["gears"] == [[56, 24]]
    assert len(geared["idlers"]) == 2
    assert geared["plate_turns_per_work_turn"] == "-7/3"
    assert geared["plate_direction"] == "against"
    assert geared["nominal_divisions"] == "120"
    assert (geared["error_arcsec_per_move"], geared["error_arcsec_at_closure"], geared["exact"]) == ("0", "0", True)
    pair = found["compound"][0]
    assert len(pair["moves"]) == 2
    assert pair["motions_to_closure"] == 2 * 127
    assert Fraction(pair["error_arcsec_at_closure"]) == 127 * Fraction(pair["error_arcsec_per_move"]) != 0


@pytest.mark.parametrize(
    "words", [("divide", "113", "--positions"), ("dial", "--screw", "10tpi", "--marks", "113", "--positions")]
)
def test_the_table_of_positions_says_where_the_scale_of_degrees_then_stands(words: tuple[str, ...]) -> None:
    shown = halfnut(*words, "--circle", "49", *HEAD) if words[0] == "divide" else halfnut(*words, *HEAD)
    (mark,) = [line for line in shown.stdout.splitlines() if re.match(r"\s+1 .*\[ \]", line)]
    circle = int(re.search(r"on the (\d+) circle", shown.stdout)[1])  # type: ignore[index]
    hole = round(Fraction(40 * circle, 113))
    seconds = round(Fraction(hole, 40 * circle) * 1_296_000)
    assert f"{seconds // 3600}° {seconds // 60 % 60:02}' {seconds % 60:02}\"" in mark


def test_the_stable_keys_of_a_compound_setting() -> None:
    answer = answer_of("divide", "51", "--method", "compound", "--all", *HEAD)
    wanted = [
        {"sign": 1, "turns": 0, "spaces": 10, "circle": 15},
        {"sign": 1, "turns": 0, "spaces": 2, "circle": 17},
    ]
    (found,) = [each for each in answer["answers"] if each["moves"] == wanted]
    assert (found["method"], found["plate"], found["exact"]) == ("compound", "A", True)
    assert (found["gears"], found["idlers"], found["plate_turns_per_work_turn"]) == (None, None, "0")


def test_direct_and_plain_win_where_they_are_exact_and_a_method_can_still_be_named() -> None:
    assert {each["method"] for each in answer_of("divide", "8", *HEAD)["answers"]} == {"direct", "plain"}
    for method in ("direct", "plain", "compound", "differential"):
        answer = answer_of("divide", "8", "--method", method, *HEAD)
        assert {each["method"] for each in answer["answers"]} == {method}
        assert all(each["exact"] for each in answer["answers"])


def test_all_lists_every_setting_and_otherwise_the_leading_ones_are_listed() -> None:
    few = answer_of("divide", "127", "--method", "differential", *HEAD)
    every = answer_of("divide", "127", "--method", "differential", "--all", *HEAD)
    assert len(few["answers"]) == few["methods"][0]["shown"] == 5
    assert len(every["answers"]) == every["methods"][0]["found"] == few["methods"][0]["found"] > 5


def test_a_geared_setting_is_never_shown_as_a_plain_one() -> None:
    for words in (("57",), ("57", "--method", "differential", "--all")):
        screen = halfnut("divide", *words, *HEAD).stdout
        assert "ONLY WITH THE WHEELS ON" in screen
        table = screen[screen.index("ONLY WITH THE WHEELS ON") :].split("Wheels: from")[0]
        rows = [line for line in table.splitlines() if " spaces on " in line]
        assert rows
        # Wheels stand before the move in the row itself, and what the bare move would divide behind it.
        assert "Without" in table
        assert all(row.index("-") < row.index(" spaces on ") for row in rows)
        assert all(float(row.split()[-1].removeprefix("≈")) not in (0, 57) for row in rows)
        assert all(row.split()[0].count("-") in (1, 3) for row in rows)
        assert "Wheels forgotten, this move divides" in screen


def test_skipping_tells_the_order_of_the_marks() -> None:
    answer = answer_of("divide", "69", "--skip", "4", *HEAD)
    assert answer["asked"] == {"divisions": 69, "turns_of_work": "1/69"}
    assert answer["divisions_per_move"] == 4
    for each in answer["answers"]:
        assert each["divisions_per_move"] == 4
        assert each["order_of_marks"][:3] == [0, 4, 8]
        assert sorted(each["order_of_marks"]) == list(range(69))
    assert "0, 4, 8, 12" in halfnut("divide", "69", "--skip", "4", *HEAD).stdout


def test_an_angle_is_moved_by_itself_and_never_several_at_a_time() -> None:
    # 1/383 turn has two-circle settings of 8 at a time as a count; as an angle it is one move.
    outcome = halfnut("divide", "--angle", "1/383 turn", *HEAD)
    assert "--skip" not in outcome.stderr
    answers = answer_of("divide", "--angle", "1/383 turn", "--all", *HEAD)["answers"]
    assert {each["divisions_per_move"] for each in answers} == {1}
    counted = answer_of("divide", "383", "--all", *HEAD)["answers"]
    assert {each["divisions_per_move"] for each in counted} == set(range(1, 10))


@pytest.mark.parametrize(("count", "step", "words"), [("69", "3", "23 of 69 marks"), ("5", "7", "past a whole round")])
def test_a_step_that_leaves_marks_out_is_refused_with_one_that_does_not(count: str, step: str, words: str) -> None:
    outcome = halfnut("divide", count, "--skip", step, *HEAD)
    assert outcome.returncode == 1
    assert words in outcome.stderr
    assert "for example" in outcome.stderr


def test_a_count_beyond_the_wheels_is_told_of_a_circle_a_wheel_and_a_step() -> None:
    for words in (("383",), ("383", "--method", "differential")):
        outcome = halfnut("divide", *words, *HEAD)
        assert outcome.returncode == 1
        assert "circle of 383 holes" in outcome.stderr
        assert "--skip 4" in outcome.stderr
        assert "One wheel of 76 teeth more" in outcome.stderr
    assert answer_of("divide", "383", "--skip", "4", *HEAD)["answers"][0]["exact"] is True


def test_a_head_without_wheels_asked_for_differential_says_what_its_file_needs() -> None:
    outcome = halfnut("divide", "127", "--method", "differential", "--head", "head-60")
    assert outcome.returncode == 1
    assert outcome.stdout == ""
    assert "change wheels" in outcome.stderr
    assert "[wheels]" in outcome.stderr


def test_the_nearest_is_an_answer_to_whoever_asks_for_it() -> None:
    outcome = halfnut("divide", "127", "--method", "nearest", *HEAD)
    assert outcome.returncode == 0
    assert "--method differential" in outcome.stderr


def test_plain_asked_for_in_vain_is_answered_by_the_nearest_with_status_1() -> None:
    outcome = halfnut("divide", "127", "--method", "plain", *HEAD)
    assert outcome.returncode == 1
    assert "NEAREST" in outcome.stdout


def test_a_file_silent_about_idlers_is_remarked_on(tmp_path) -> None:
    path = tmp_path / "silent.toml"
    path.write_text(SILENT, encoding="utf-8")
    assert "one_idler_plate" in halfnut("divide", "127", "--head", str(path)).stderr
    assert "one_idler_plate" not in halfnut("divide", "127", *HEAD).stderr
    path.write_text(SILENT + 'one_idler_plate = "against"\n', encoding="utf-8")
    outcome = halfnut("divide", "127", "--head", str(path), "--json")
    assert '"plate_turns_per_work_turn": "-7/3"' in outcome.stdout
    assert "one_idler_plate" not in outcome.stderr
    geared = by_method(answer_of("divide", "127", "--head", str(path)))["differential"][0]
    assert len(geared["idlers"]) == 1


def test_cautions_belong_to_the_setting() -> None:
    geared = halfnut("divide", "127", *HEAD).stdout
    assert "refit the guard" in geared
    assert "Stop pin out" in geared
    opposite = halfnut("divide", "69", "--method", "compound", *HEAD).stdout
    assert "backward motion first" in " ".join(opposite.split())
    assert re.search(r"First +Then", opposite)
    assert re.search(r"both BACK 2 spaces on 23 +pin 18 spaces on 27", opposite)
    assert re.search(r"pin 19 spaces on 23 +both 9 spaces on 27", opposite)
    assert not re.search(r"pin .* both BACK", opposite)
    told = answer_of("divide", "69", "--method", "compound", *HEAD)["answers"]
    assert {(each["moves"][1]["sign"], each["made_first"]) for each in told} == {(-1, "plate with crank"), (1, "pin")}
    plain = halfnut("divide", "28", *HEAD).stdout
    assert "guard" not in plain
    assert "Tick each motion" not in plain


def test_one_angle_is_answered_by_its_setting_before_the_methods_and_without_a_round() -> None:
    words = " ".join(halfnut("divide", "--angle", "37.123 deg", *HEAD).stdout.split())
    assert words.index("COMPOUND, two motions") < words.index("METHODS, side by side")
    assert "At closure" not in words
    assert "Really divides" not in words
    assert 'After the move the work has turned 37° 07\' 23.0", +0.213" from what was asked.' in words
    count = halfnut("divide", "383", *HEAD).stdout
    assert count.index("METHODS, side by side") < count.index("COMPOUND, two motions")
    assert "At closure" in count


def test_a_table_with_nothing_but_its_dial_is_answered_by_its_dial() -> None:
    asked = ("divide", "127", "--head", "table-90-dial")
    by_dial, plain = halfnut(*asked, "--with", "dial"), halfnut(*asked)
    assert (plain.stdout, plain.returncode) == (by_dial.stdout, by_dial.returncode)
    assert "as by --with dial" in plain.stderr
    assert answer_of(*asked) == answer_of(*asked, "--with", "dial")
    # Whole turns of the handle need no dial.
    assert "10 turns" in halfnut("divide", "9", "--head", "table-90-dial").stdout


def test_an_indexer_without_a_worm_is_not_told_to_take_it_out() -> None:
    assert "6 spaces of the 36 on the spindle" in halfnut("divide", "6", "--head", "indexer-36").stdout
    assert "worm" not in halfnut("divide", "6", "--head", "indexer-36").stdout.replace("no worm", "")
    assert "worm out" in halfnut("divide", "6", *HEAD).stdout


def test_a_whole_round_at_a_time_is_not_said_to_go_past_it() -> None:
    assert "are a whole round of 127" in halfnut("divide", "127", "--skip", "127", *HEAD).stderr
    assert "go past a whole round" in halfnut("divide", "127", "--skip", "128", *HEAD).stderr


def test_wheels_forgotten_with_several_divisions_a_move_counts_moves_as_audit_does() -> None:
    shown = " ".join(halfnut("divide", "383", "--skip", "4", *HEAD).stdout.split())
    move = answer_of("divide", "383", "--skip", "4", *HEAD)["answers"][0]["moves"][0]
    moves_round = 40 / (move["turns"] + Fraction(move["spaces"], move["circle"]))
    assert f"Wheels forgotten, ≈{float(moves_round):.2f} moves go round, 4 divisions each; 95.75 should." in shown
    assert f"≈{float(moves_round):.2f} moves" in shown.split("EXACT ONLY", 1)[-1]


def test_the_smallest_wheel_that_would_help_is_named_beside_the_best() -> None:
    said = halfnut("divide", "383", *HEAD).stderr
    assert "One wheel of 76 teeth more, or the smallest that would, of 20, would make it exact" in said


@pytest.mark.parametrize(("option", "name"), [("--draw", "x.svg"), ("--sheet", "x.html")])
def test_no_folder_is_made_for_a_drawing_or_a_sheet(tmp_path: Path, option: str, name: str) -> None:
    outcome = halfnut("divide", "28", *HEAD, option, str(tmp_path / "none" / name))
    assert (outcome.returncode, outcome.stdout) == (2, "")
    assert "There is no folder" in outcome.stderr
    assert list(tmp_path.iterdir()) == []


def test_an_audit_names_a_row_that_moves_several_divisions() -> None:
    row = "1 turn + 7 on 39 + 29 on 41"
    answer = answer_of("audit", row, "--against", "106")
    assert (answer["divisions_per_move"], answer["marks_met"]) == (5, 106)
    assert Fraction(answer["error_arcsec_at_closure"]) == 106 * Fraction(answer["error_arcsec_per_move"])
    assert "moves 5 divisions at a time, not one" in " ".join(halfnut("audit", row, "--against", "106").stdout.split())
    assert answer_of("audit", row)["likely_counts"] == [106]
    assert "ONLY 28 of the marks" in halfnut("audit", "1 turn + 9 on 21", "--against", "56").stdout


def test_an_audit_of_a_geared_row_tells_what_it_cuts_without_its_wheels() -> None:
    answer = answer_of("audit", "22 on 33", "--wheels", "48-24", "--idlers", "1", "--head", "head-40-three-plates")
    assert (answer["divisions"], answer["divisions_without_gears"]) == ("57", "60")
    against = answer_of("audit", "13 on 39", "--wheels", "56-24", "--plate", "against", "--against", "127")
    assert (against["divisions"], against["error_arcsec_per_move"]) == ("127", "0")
    wrong_way = answer_of("audit", "13 on 39", "--wheels", "56-24", "--plate", "follows")
    assert wrong_way["divisions"] == "113"


def test_an_audit_of_two_circles_reads_signs_and_strokes_and_looks_at_the_face() -> None:
    assert answer_of("audit", "10/15 + 2/17")["divisions"] == "51"
    assert answer_of("audit", "21 on 23 - 11 on 33")["divisions"] == "69"
    outcome = halfnut("audit", "10 on 15 + 2 on 21", *HEAD)
    assert "no one face of" in outcome.stdout
    assert "NOT ON HEAD" not in halfnut("audit", "10 on 15 + 2 on 17", *HEAD).stdout


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("11 on 33 - 11 on 33",), 1, "nowhere"),
        (("1 on 39", "--wheels", "100-5-100-24", "--plate", "follows"), 1, "drivers and driven"),
        (("1 on 39 + 0 on 41",), 2, "no motion"),
        (("1 on 39 + 3",), 2, "second circle"),
        (("1 on 39 * 3 on 41",), 2, "plus or a minus"),
        (("5 on 1 + 3 on 41",), 2, "2 to 10000 holes"),
        (("13 on 39", "--wheels", "56-24-3", "--plate", "against"), 2, "teeth"),
    ],
)
def test_an_index_setting_that_cannot_be_is_refused(words: tuple[str, ...], status: int, said: str) -> None:
    outcome = halfnut("audit", *words)
    assert outcome.returncode == status, outcome
    assert said in outcome.stderr
    assert "Traceback" not in outcome.stderr


def test_wheels_that_the_box_does_not_hold_are_remarked_on() -> None:
    assert "not enough wheels of 56" in halfnut("audit", "1 on 39", "--wheels", "56-56", "--idlers", "1", *HEAD).stderr


# Printed: "1 to 382".
@pytest.mark.published("A Practical Treatise on Milling and Milling Machines, c. 1914-1919, p. 52")
def test_a_head_tells_which_counts_it_covers() -> None:
    answer = answer_of("head", "covers", "head-40-three-plates", "--to", "383")
    assert answer["exact_by"]["none"] == [383]
    assert sorted(count for counts in answer["exact_by"].values() for count in counts) == list(range(1, 384))
    assert 51 in answer["exact_by"]["differential"]
    screen = halfnut("head", "covers", "head-60", "--to", "130").stdout
    assert "not checked" in screen
    assert "Differential    0" in screen
    every = answer["every_exact_by"]
    assert every["differential"] == list(range(1, 383))
    assert {3, 8, 24} <= set(every["direct"]) & set(every["plain"]) & set(every["differential"])
    assert {51, 57, 63} <= set(every["compound"])
    assert not {51, 57, 63} & set(every["plain"])
    for count in (51, 127, 360):
        methods = answer_of("divide", str(count), "--head", "head-40-three-plates")["methods"]
        exact = {each["method"] for each in methods if each["exact"]}
        assert exact <= {method for method, counts in every.items() if count in counts}
    assert max(map(len, screen.splitlines())) <= 80


@pytest.mark.parametrize(
    ("words", "shown", "dropped"),
    [
        (("6", "--head", "indexer-36"), "6 spaces of the 36 on the spindle", ("Plate", "Arms")),
        (("7", "--head", "indexer-36"), "5 spaces of the 36 on the spindle", ("Plate", "Arms", "one hole too wide")),
        (
            ("7", "--method", "nearest", "--head", "table-90-dial"),
            "13 turns",
            ("Plate", "Arms", "any circle", "--positions works"),
        ),
        (("10", "--head", "head-40-three-plates"), "4 turns", ("Plate", "Arms")),
    ],
)
def test_no_column_and_no_word_of_sector_arms_where_none_are_set(words, shown, dropped):
    screen = halfnut("divide", *words).stdout
    assert shown in screen
    for word in dropped:
        assert word not in screen
    with_arms = halfnut("divide", "28", "--head", "head-40-three-plates").stdout
    assert "enclose" in with_arms
    assert re.search(r"1 turn \+ 9 spaces on 21 +B +10 +exact", with_arms)
    assert "Arms enclose: holes, the pin's own included." in with_arms


def test_a_method_that_misses_is_sent_to_the_one_that_does_not():
    outcome = halfnut("divide", "50", "--method", "direct", "--head", "head-40-three-plates")
    assert outcome.returncode == 1
    assert "The head has a plain setting that is exact: leave --method out." in outcome.stderr
    assert "would make it plain" not in outcome.stderr


def test_how_many_divisions_at_a_time_were_looked_at_is_said_where_more_might_come_nearer() -> None:
    said = "Looked at: 1 to 9 divisions at a time."
    assert said in halfnut("divide", "127", "--method", "compound", *HEAD).stdout
    assert said not in halfnut("divide", "51", "--method", "compound", *HEAD).stdout
    assert said not in halfnut("divide", "127", "--method", "compound", "--skip", "48", *HEAD).stdout
    methods = {each["method"]: each for each in answer_of("divide", "127", *HEAD)["methods"]}
    assert methods["compound"]["most_divisions_per_move"] == 9
    assert methods["differential"]["most_divisions_per_move"] is None
    usual, longer = (
        answer_of("divide", "127", "--method", "compound", *skip, *HEAD)["answers"][0]
        for skip in ((), ("--skip", "48"))
    )
    errors = [abs(Fraction(each["error_arcsec_at_closure"])) for each in (usual, longer)]
    assert errors[1] < errors[0]


def test_the_reach_of_a_geared_setting_is_said_to_be_unchecked_and_no_other_setting_speaks_of_it() -> None:
    found = by_method(answer_of("divide", "51", *HEAD))
    assert {each["mounting"]["verdict"] for each in found["differential"]} == {"not checked"}
    assert all("mounting" not in each for method in ("compound", "nearest") for each in found[method])
    assert "Reach: not checked" in halfnut("divide", "51", *HEAD).stdout
    assert "Reach" not in halfnut("divide", "28", *HEAD).stdout


@pytest.mark.parametrize(
    ("words", "said", "move"),
    [
        # By hand: 60/53 is 1 turn and 7 of 53; 40/53 is 40 of 53; 40/28 is 1 turn and 9 of 21.
        (
            ("7 on 53", "--against", "53", "--worm-ratio", "60"),
            "1 turn + 7 spaces on 53: 1 whole turn left out",
            (1, 7),
        ),
        (("7 on 53", "--against", "53"), "0 turns + 40 spaces on 53", (0, 40)),
        (("9 on 21", "--against", "28"), "1 turn + 9 spaces on 21: 1 whole turn left out", (1, 9)),
        (("9 on 21", "--against", "29"), "", None),
        (("13 on 39", "--wheels", "56-24", "--plate", "against", "--against", "126"), "", None),
        (("1 turn + 9 on 21", "--against", "28"), "", (1, 9)),
    ],
)
def test_an_audit_against_a_count_names_the_move_that_divides_it_on_that_circle(words, said, move):
    told = answer_of("audit", *words)["move_for_count"]
    assert (told and (told["turns"], told["spaces"])) == move
    screen = " ".join(halfnut("audit", *words).stdout.split())
    assert ("the move for" in screen) is bool(said)
    assert said in screen
