"""The commands as a person sees them: JSON that stays, screens that read, help that runs."""

from __future__ import annotations

import re
import shlex
from fractions import Fraction

import pytest

from cli.main import COMMANDS
from tests.cli.running import TOP, answer_of, halfnut

BENCH_LATHE = """
name = "Bench lathe, 8 tpi leadscrew"
[leadscrew]
lead = "8 tpi"
[drive]
stud_turns = "1"
reverse = true
[wheels]
size = "module 1"
teeth = { 20 = 2, 25 = 1, 30 = 1, 35 = 1, 40 = 1, 50 = 1, 60 = 1, 127 = 1 }
"""


def test_train_json_keeps_its_stable_keys() -> None:
    answer = answer_of("train", "5/8 mm", "--lathe", "inch-8")
    assert answer["asked"]["lead_mm"] == "5/8"
    assert answer["asked"]["pi_multiple"] is False
    assert answer["lathe"]
    first = answer["answers"][0]
    assert {"pairs", "idlers", "gearbox", "ratio", "cut_lead_mm", "error_ppm", "exact", "hand", "mounting"} <= set(
        first
    )
    assert first["ratio"] == "25/127"
    assert first["cut_lead_mm"] == "5/8"
    assert first["error_ppm"] == "0"
    assert first["exact"] is True
    assert first["hand"] == "right"
    assert first["mounting"]["verdict"] == "fits"
    assert first["mounting"]["reasons"] == []
    assert answer["half_nut"]["may_open"] is False
    assert answer["half_nut"]["every_mm"] == "635/8"


def test_every_train_in_json_has_the_ratio_lead_and_error_it_claims() -> None:
    answer = answer_of("train", "0.7mm", "--lathe", "inch-8-no127", "--answers", "6")
    assert answer["answers"]
    for each in answer["answers"]:
        ratio = Fraction(1)
        for driver, driven in each["pairs"]:
            ratio *= Fraction(driver, driven)
        assert Fraction(each["ratio"]) == ratio
        assert Fraction(each["cut_lead_mm"]) == ratio * Fraction(127, 40)
        assert Fraction(each["error_ppm"]) == (Fraction(each["cut_lead_mm"]) / Fraction(7, 10) - 1) * 10**6
        assert each["exact"] is (each["error_ppm"] == "0")


def test_a_pi_lead_is_never_exact_and_its_error_has_nine_figures_or_more() -> None:
    answer = answer_of("train", "module 0.5", "--lathe", "inch-8")
    assert answer["asked"] | {"lead_mm": "1/2", "pi_multiple": True} == answer["asked"]
    for each in answer["answers"]:
        assert each["exact"] is False
        assert len(re.sub(r"[^0-9]", "", each["error_ppm"]).lstrip("0")) >= 9


def test_train_answers_from_a_hand_written_file(tmp_path) -> None:
    path = tmp_path / "bench.toml"
    path.write_text(BENCH_LATHE, encoding="utf-8")
    outcome = halfnut("train", "0.7mm", "--lathe", str(path))
    assert outcome.returncode == 0, outcome
    assert "exact" in outcome.stdout
    assert "127" in outcome.stdout


def test_a_left_hand_two_start_thread_is_geared_for_its_lead() -> None:
    answer = answer_of("train", "2mm", "--starts", "2", "--hand", "left", "--lathe", "metric-3")
    assert answer["asked"]["lead_mm"] == "4"
    assert {each["hand"] for each in answer["answers"]} == {"left"}


def test_without_a_reverse_the_hand_comes_from_an_idler() -> None:
    answer = answer_of("train", "1mm", "--lathe", "metric-2", "--pairs", "1")
    assert answer["answers"][0]["pairs"][0][0] * 2 == answer["answers"][0]["pairs"][0][1]
    assert len(answer["answers"][0]["idlers"]) == 1


def test_a_tolerance_nothing_meets_leaves_with_1_and_shows_the_nearest() -> None:
    outcome = halfnut("train", "module 0.5", "--lathe", "metric-2", "--pairs", "1", "--within", "1 ppm")
    assert outcome.returncode == 1
    assert "NEAREST" in outcome.stdout
    assert "Traceback" not in outcome.stderr


def test_reach_of_the_metric_series_names_127_by_itself() -> None:
    answer = answer_of("reach", "--series", "metric", "--lathe", "inch-8-no127")
    assert answer["one_wheel_more"][0]["teeth"] == 127
    assert answer["one_wheel_more"][0]["made_exact"] == 24
    pairs = {each["pair"]: each["error_ppm"] for each in answer["translating"]}
    assert pairs["63/80"] == "125"
    assert pairs["37/47"] == "-10000/47"
    assert not any(row["reached"] == "exact" for row in answer["reach"])


def test_with_a_127_the_whole_metric_coarse_series_is_exact_on_8_tpi() -> None:
    outcome = halfnut("reach", "--series", "iso_coarse", "--lathe", "inch-8-no127", "--add", "127")
    assert outcome.returncode == 0
    assert "40 exact, 0 within tolerance, 0 not reached, of 40." in outcome.stdout


def test_divide_json_keeps_its_stable_keys() -> None:
    answer = answer_of("divide", "28", "--head", "head-40-three-plates")
    assert answer["asked"] == {"divisions": 28, "turns_of_work": "1/28"}
    by_circle = {each["moves"][0]["circle"]: each for each in answer["answers"]}
    assert by_circle[21]["moves"] == [{"sign": 1, "turns": 1, "spaces": 9, "circle": 21}]
    assert by_circle[21]["plate"] == "B"
    first = by_circle[21]
    assert first["method"] == "plain"
    assert (first["gears"], first["idlers"], first["plate_turns_per_work_turn"]) == (None, None, "0")
    assert (first["error_arcsec_per_move"], first["error_arcsec_at_closure"], first["exact"]) == ("0", "0", True)


@pytest.mark.parametrize(
    ("words", "exact"),
    [(("13",), True), (("--angle", "37°30'"), True), (("127", "--method", "plain"), False)],
)
def test_divide_answers_counts_and_angles(words: tuple[str, ...], *, exact: bool) -> None:
    outcome = halfnut("divide", *words)
    assert outcome.returncode == (0 if exact else 1)
    assert ("EXACT" in outcome.stdout) is exact
    answer = answer_of("divide", *words)
    assert all(each["exact"] is exact for each in answer["answers"])
    if not exact:
        assert {each["method"] for each in answer["answers"]} == {"nearest"}
        for each in answer["answers"]:
            assert Fraction(each["error_arcsec_at_closure"]) == 127 * Fraction(each["error_arcsec_per_move"])


def test_positions_stay_within_half_a_hole() -> None:
    answer = answer_of("divide", "127", "--positions")
    circle = answer["positions"]["circle"]
    rows = answer["positions"]["rows"]
    assert len(rows) == 128
    half_hole = Fraction(1_296_000, 2 * 40 * circle)
    assert max(abs(Fraction(row["error_arcsec"])) for row in rows) <= half_hole
    assert (rows[-1]["turns"], rows[-1]["hole"], rows[-1]["error_arcsec"]) == (40, 0, "0")


def test_audit_works_a_train_and_a_move_forwards() -> None:
    train = answer_of("audit", "40-80-50-127", "--lathe", "inch-8", "--against", "5/8 mm")
    assert train["train"]["cut_lead_mm"] == "5/8"
    assert train["train"]["exact"] is True
    assert Fraction(train["inverted_lead_mm"]) == Fraction(127, 40) / Fraction(25, 127)
    move = answer_of("audit", "20 on 47", "--against", "96")
    assert move["divisions"] == "94"
    assert move["closes"] is True
    assert answer_of("audit", "9 on 21")["divisions"] == "280/3"


SCREENS = [
    ("train", "1.25mm"),
    ("train", "module 0.5", "--placings"),
    ("train", "M6", "--lathe", "inch-12-box"),
    ("reach", "1.25mm", "0.7mm", "--lathe", "inch-8-no127"),
    ("reach", "--series", "unified", "--lathe", "metric-3"),
    ("divide", "28"),
    ("divide", "127", "--positions"),
    ("divide", "127", "--method", "differential", "--all"),
    ("divide", "69", "--method", "compound", "--skip", "2"),
    ("divide", "106", "--method", "compound", "--head", "head-40-two-faced"),
    ("divide", "383"),
    ("audit", "40-80-50-127"),
    ("audit", "9", "on", "21"),
    ("audit", "1 turn + 7 on 39 + 29 on 41", "--against", "106"),
    ("audit", "13 on 39", "--wheels", "56-24", "--plate", "against"),
    ("lathe", "list"),
    ("lathe", "show", "inch-8-two-classes"),
    ("head", "list"),
    ("head", "show", "head-40-two-faced"),
]


@pytest.mark.parametrize("words", SCREENS, ids=" ".join)
def test_a_screen_keeps_to_80_columns_without_colour_or_control_signs(words: tuple[str, ...]) -> None:
    outcome = halfnut(*words)
    assert outcome.returncode in (0, 1), outcome
    assert outcome.stdout
    assert max(map(len, outcome.stdout.splitlines())) <= 80
    assert "\x1b" not in outcome.stdout
    assert all(letter.isprintable() or letter == "\n" for letter in outcome.stdout)


@pytest.mark.parametrize("command", COMMANDS)
def test_the_examples_of_every_help_run(command: str) -> None:
    helped = halfnut(command, "--help").stdout
    examples = [line.strip() for line in helped.splitlines() if line.strip().startswith("halfnut ")]
    assert examples, helped
    for example in examples:
        words = shlex.split(example)[1:]
        if "new" not in words:
            assert halfnut(*words).returncode in (0, 1), example


def test_every_command_is_in_the_readme() -> None:
    readme = (TOP / "README.md").read_text(encoding="utf-8")
    assert [command for command in COMMANDS if f"halfnut {command}" not in readme] == []


def test_remarks_go_to_stderr_and_answers_to_stdout() -> None:
    outcome = halfnut("train", "1.25mm")
    assert "generic" in outcome.stderr
    assert "generic" not in outcome.stdout
    assert halfnut("train", "1.25mm", "--lathe", "inch-8").stderr == ""


def test_a_persons_own_lathe_is_found_by_name_in_the_data_folder(tmp_path) -> None:
    folder = tmp_path / "halfnut" / "lathes"
    folder.mkdir(parents=True)
    (folder / "bench.toml").write_text(BENCH_LATHE, encoding="utf-8")
    outcome = halfnut("train", "1mm", "--lathe", "bench", home=tmp_path)
    assert outcome.returncode == 0, outcome
    assert "Bench lathe" in outcome.stdout


def test_the_same_question_gives_the_same_screen() -> None:
    assert halfnut("train", "module 0.5").stdout == halfnut("train", "module 0.5").stdout


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("22 on 21", "that is 1 turn + 1 space on 21"),
        ("37 on 21", "that is 1 turn + 16 spaces on 21"),
        ("42 on 21", "that is 2 turns"),
    ],
)
def test_spaces_beyond_the_circle_are_carried_into_turns(written: str, shown: str) -> None:
    assert shown in halfnut("audit", written).stdout
    move = answer_of("audit", written)["moves"][0]
    assert move["spaces"] < move["circle"]


def test_the_arms_of_a_carried_move_enclose_what_is_left_of_it() -> None:
    assert "Arms enclose 2 holes" in " ".join(halfnut("audit", "22 on 21").stdout.split())


@pytest.mark.parametrize(
    ("pitch", "said"),
    [
        ("0.7mm", "(if the form is 60°)"),
        ("0.043in", "(if the form is 60°)"),
        ("M4x0.7", "(60° form)"),
        ("module 0.5", None),
        ("48 DP", None),
        ("2 BA", None),
        ("1/2 BSW", None),
    ],
)
def test_pitch_diameter_is_told_only_where_the_form_may_be_60_degrees(pitch: str, said: str | None) -> None:
    screen = halfnut("train", pitch, "--lathe", "metric-2" if "BSW" in pitch else "inch-8-no127", columns=110)
    assert "Error        lead" in screen.stdout, screen
    if said is None:
        assert "pitch diameter" not in screen.stdout
    else:
        assert said in screen.stdout


def test_the_proof_of_a_train_has_no_figure_cut_short() -> None:
    proof = next(
        line for line in halfnut("train", "2mm", "--lathe", "inch-12-box").stdout.splitlines() if line[:5] == "Proof"
    )
    assert "≈" not in proof
    assert "127/60 mm" in proof


@pytest.mark.parametrize("columns", [40, 60, 80])
@pytest.mark.parametrize(
    "words",
    [
        ("audit", "60-95-80-105-90-110-100-120-70-115"),
        ("train", "0.7mm", "--placings"),
        ("reach", "0.7mm", "1.25mm", "module 0.5"),
    ],
    ids=" ".join,
)
def test_a_narrow_screen_breaks_no_train_inside_a_number(words: tuple[str, ...], columns: int) -> None:
    screen = halfnut(*words, "--lathe", "inch-8-no127", columns=columns).stdout
    assert max(map(len, screen.splitlines())) <= columns
    answer = answer_of(*words, "--lathe", "inch-8-no127")
    answers = [row["best"] for row in answer.get("reach", ())] + answer.get("answers", []) + [answer.get("train")]
    trains = [[str(teeth) for pair in each["pairs"] for teeth in pair] for each in answers if each]
    assert trains
    # A train longer than the line is opened after a dash, never inside a number.
    assert [train for train in trains if not re.search(r"\b" + r"-\s*".join(train) + r"\b", screen)] == []


def test_the_half_nut_row_says_keep_closed_and_where_it_may_be_closed_again() -> None:
    screen = " ".join(halfnut("train", "1.25mm", "--lathe", "inch-8").stdout.split())
    assert "close it again whole multiples of 158.75 mm (6.25 in) from where it was opened" in screen


def test_dividing_says_one_of_a_thing_in_the_singular() -> None:
    screen = halfnut("divide", "1").stdout
    assert "1 equal division:" in screen
    assert "After 1 move " in screen
    assert "1 crank turn each" in halfnut("divide", "40").stdout


@pytest.mark.parametrize("words", [("divide", "383"), ("audit", "9 on 21"), ("audit", "20 on 47", "--against", "96")])
def test_the_signs_of_an_index_error_are_told_in_words(words: tuple[str, ...]) -> None:
    screen = " ".join(halfnut(*words).stdout.split())
    assert "+ the work goes too far, the last space comes out small; - it falls short" in screen


def test_a_table_of_positions_tells_its_signs_in_words() -> None:
    assert "+ the work stands too far round" in halfnut("divide", "61", "--positions").stdout


def test_without_an_answer_there_is_no_half_nut_rule_at_the_top_of_the_json() -> None:
    answer = answer_of("train", "module 0.5", "--lathe", "metric-2", "--pairs", "1", "--within", "1 ppm")
    assert answer["answers"] == []
    assert answer["half_nut"] is None


def test_each_index_answer_says_after_how_many_moves_it_should_close() -> None:
    for words, moves in ((("127",), 127), (("383",), 383), (("28",), 28), (("--angle", "37°30'"), 48)):
        assert {each["moves_to_closure"] for each in answer_of("divide", *words)["answers"]} == {moves}


def test_an_audit_says_whether_the_box_holds_the_train() -> None:
    assert answer_of("audit", "40-80", "--lathe", "inch-8")["in_box"] is True
    assert answer_of("audit", "41-83", "--lathe", "inch-8")["in_box"] is False
    screen = halfnut("audit", "41-83", "--lathe", "inch-8").stdout
    assert screen.index("\nBox") < screen.index("\nGoes on")


@pytest.mark.parametrize("words", SCREENS, ids=" ".join)
def test_no_line_of_a_pipe_ends_in_blanks(words: tuple[str, ...]) -> None:
    assert [line for line in halfnut(*words).stdout.splitlines() if line != line.rstrip()] == []


def test_an_audited_move_takes_its_worm_from_the_environment_as_divide_does() -> None:
    assert answer_of("audit", "9 on 21")["worm_ratio"] == "40"
    with_head = halfnut("audit", "9 on 21", "--json", variables={"HALFNUT_HEAD": "table-90"})
    assert '"worm_ratio": "90"' in with_head.stdout
    with_ratio = halfnut("audit", "9 on 21", "--worm-ratio", "60", "--json", variables={"HALFNUT_HEAD": "table-90"})
    assert '"worm_ratio": "60"' in with_ratio.stdout


def test_a_circle_on_none_of_the_plates_is_remarked_on() -> None:
    screen = " ".join(halfnut("audit", "9 on 22", "--head", "head-40-three-plates").stdout.split())
    assert "has a circle of 22 holes" in screen
    assert "NOT ON HEAD" not in halfnut("audit", "9 on 21", "--head", "head-40-three-plates").stdout


def test_without_a_reverse_the_hand_row_says_what_is_assumed() -> None:
    words = "right-hand leadscrew, stud gear turning"
    assert words in " ".join(halfnut("train", "1mm", "--lathe", "metric-2").stdout.split())
    assert words not in " ".join(halfnut("train", "1mm", "--lathe", "metric-3").stdout.split())


def test_wheels_on_one_sleeve_are_used_together_and_said_to_be_one(tmp_path) -> None:
    path = tmp_path / "keyed.toml"
    path.write_text(f"{BENCH_LATHE}keyed_pairs = [[61, 67]]\n", encoding="utf-8")
    # 20 over 61 and 67 over 40, or any other two of the box, cut what no loose wheels do.
    wanted = f"{Fraction(127, 40) * Fraction(20 * 67, 61 * 40)} mm"
    outcome = halfnut("train", wanted, "--lathe", str(path), "--within", "0 ppm")
    assert outcome.returncode == 0, outcome
    assert "one sleeve with 67 T" in outcome.stdout


def test_each_thread_not_reached_is_told_the_one_wheel_that_comes_closest() -> None:
    answer = answer_of("reach", "--series", "ba", "--lathe", "metric-1.5-small", "--pairs", "2")
    missed = [row for row in answer["reach"] if row["reached"] == "not"]
    assert len(missed) > 5
    for row in missed:
        now = abs(Fraction(row["best"]["error_ppm"]))
        assert row["one_wheel"] is None or abs(Fraction(row["one_wheel"]["train"]["error_ppm"])) < now
    assert any(row["one_wheel"] and row["one_wheel"]["train"]["exact"] for row in missed)
    assert all(row["one_wheel"] is None for row in answer["reach"] if row["reached"] != "not")
