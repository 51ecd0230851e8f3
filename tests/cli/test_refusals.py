"""Bad input gives a clear message, the right exit status, no traceback, and nothing lost."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.running import halfnut


@pytest.mark.parametrize(
    ("pitch", "said"),
    [
        ("", "nothing is written"),
        ("   ", "nothing is written"),
        ("1.25", "1.25mm"),
        ("1,25mm", "1.25"),
        ("-3tpi", "not negative"),
        ("0 tpi", "above zero"),
        ("1/0 in", "zero"),
        ("1e400mm", "e400"),
        ("__import__('os')", "pitch"),
        ("7" * 10_000, "too long"),
        ("1.25 furlong", "furlong"),
        ("module", "module"),
        ("M6x1.25", "M6"),
    ],
)
def test_an_unreadable_pitch_is_refused_with_status_2_and_what_to_type(pitch: str, said: str) -> None:
    outcome = halfnut("train", "--", pitch)
    assert outcome.returncode == 2, outcome
    assert said in outcome.stderr
    assert "Traceback" not in outcome.stderr
    assert outcome.stdout == ""
    assert max(map(len, outcome.stderr.splitlines())) < 400


def test_the_marker_stands_under_the_bad_character() -> None:
    lines = halfnut("train", "1,25mm").stderr.splitlines()
    shown = next(number for number, line in enumerate(lines) if line.strip() == "1,25mm")
    assert lines[shown].index(",") == lines[shown + 1].index("^")


def test_an_unknown_lathe_is_refused_with_near_names() -> None:
    outcome = halfnut("train", "1mm", "--lathe", "inch8")
    assert outcome.returncode == 2
    assert "inch-8" in outcome.stderr
    assert "Traceback" not in outcome.stderr


SIX_FAULTS = """
name = "faulty"
colour = "green"
[leadscrew]
lead = "8"
[drive]
stud_turns = "0"
reverse = "yes"
[wheels]
size = "1"
teeth = { 3 = 1, 20 = 0 }
"""


def test_a_lathe_file_with_several_faults_names_them_all_at_once(tmp_path: Path) -> None:
    path = tmp_path / "faulty.toml"
    path.write_text(SIX_FAULTS, encoding="utf-8")
    outcome = halfnut("train", "1mm", "--lathe", str(path))
    assert outcome.returncode == 3, outcome
    for place in ("colour", "leadscrew.lead", "drive.stud_turns", "drive.reverse", "wheels.size", "wheels.teeth"):
        assert place in outcome.stderr, place
    assert "Traceback" not in outcome.stderr


@pytest.mark.parametrize("content", [b"\xff\xfe name", b"name = ", b"", b"[[[[[", b"\x00\x00"])
def test_a_file_that_is_not_utf8_or_not_toml_is_faulty_with_status_3(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "odd.toml"
    path.write_bytes(content)
    outcome = halfnut("train", "1mm", "--lathe", str(path))
    assert outcome.returncode == 3, outcome
    assert "Traceback" not in outcome.stderr


def test_a_folder_or_a_missing_file_in_place_of_a_file_is_faulty_with_status_3(tmp_path: Path) -> None:
    for path in (tmp_path, tmp_path / "missing.toml"):
        outcome = halfnut("train", "1mm", "--lathe", f"{path}/" if path.is_dir() else str(path))
        assert outcome.returncode == 3, outcome
        assert "Traceback" not in outcome.stderr


def test_a_stock_of_one_wheel_makes_no_train_and_says_so_with_status_1(tmp_path: Path) -> None:
    path = tmp_path / "one.toml"
    path.write_text(
        'name = "one"\n[leadscrew]\nlead = "8 tpi"\n[wheels]\nsize = "module 1"\nteeth = { 20 = 1 }\n', encoding="utf-8"
    )
    outcome = halfnut("train", "1mm", "--lathe", str(path))
    assert outcome.returncode == 1, outcome
    assert "two wheels" in outcome.stderr


@pytest.mark.parametrize("count", ["0", "10000000000", "-3", "seven", "1.5", "", "٣", "9" * 5000])
def test_a_count_that_is_no_count_is_refused_with_status_2(count: str) -> None:
    outcome = halfnut("divide", "--", count)
    assert outcome.returncode == 2, outcome
    assert "Traceback" not in outcome.stderr


def test_a_count_beyond_the_plates_has_no_setting_and_says_what_would_help() -> None:
    outcome = halfnut("divide", "1000000000")
    assert outcome.returncode == 1, outcome
    assert "circle" in outcome.stderr
    assert "Traceback" not in outcome.stderr


def test_a_nearest_answer_leaves_with_status_1_and_still_prints_the_answer() -> None:
    outcome = halfnut("divide", "383", "--json")
    assert outcome.returncode == 1
    assert '"nearest"' in outcome.stdout


def test_a_misspelt_command_names_near_ones() -> None:
    outcome = halfnut("trian", "1mm")
    assert outcome.returncode == 2
    assert "train" in outcome.stderr


def test_new_never_overwrites_without_a_yes(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("kept", encoding="utf-8")
    told = "Mine\n8 tpi\n\n1\ny\nmodule 1\n20 to 60 by 5, 127\n2\n20 mm\n\nn\n"
    outcome = halfnut("lathe", "new", str(path), told=told)
    assert outcome.returncode == 1, outcome
    assert path.read_text(encoding="utf-8") == "kept"
    assert list(tmp_path.iterdir()) == [path]


def test_new_writes_a_lathe_that_check_accepts_and_train_uses(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    told = "Mine\nnonsense\n8 tpi\n20 tpi, 40, 100\ny\nmodule 1\n20 to 60 by 5, 127, 20 x2\n2\n20 mm\n127\n\n\n"
    outcome = halfnut("lathe", "new", str(path), told=told)
    assert outcome.returncode == 0, outcome
    assert halfnut("lathe", "check", str(path)).returncode == 0
    assert '"50-127"' not in halfnut("train", "1.25mm", "--lathe", str(path), "--json").stdout
    assert "50-127" in halfnut("train", "1.25mm", "--lathe", str(path)).stdout


def test_new_stopped_half_way_writes_nothing(tmp_path: Path) -> None:
    outcome = halfnut("lathe", "new", str(tmp_path / "mine.toml"), told="Mine\n8 tpi\n")
    assert outcome.returncode == 1
    assert list(tmp_path.iterdir()) == []


def test_new_describes_a_head_that_check_accepts(tmp_path: Path) -> None:
    path = tmp_path / "head.toml"
    told = "My table\n72\n15 16 17 18\n24 25 / 46 47\n\n24\n\n1 min\n"
    outcome = halfnut("head", "new", str(path), told=told)
    assert outcome.returncode == 0, outcome
    assert "read to 0° 01' 00.0" in halfnut("head", "check", str(path)).stdout
    assert '"circle": 25' in halfnut("divide", "100", "--head", str(path), "--json").stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("train", "-3tpi"), "not negative"),
        (("reach", "-1mm"), "not negative"),
        (("divide", "-3"), "below nought: a round has 1 division or more"),
        (("divide", "--angle", "-5deg"), "not negative"),
        (("audit", "-40-80"), "tooth count"),
    ],
)
def test_a_negative_figure_is_read_as_a_figure_and_not_as_an_option(words: tuple[str, ...], said: str) -> None:
    outcome = halfnut(*words)
    assert outcome.returncode == 2, outcome
    assert said in outcome.stderr
    assert "No such option" not in outcome.stderr


@pytest.mark.parametrize(
    ("count", "said"),
    [
        ("0", "leave nothing to turn"),
        ("000", "leave nothing to turn"),
        ("12345678901234567890", "more than the 1000000000 answered"),
        ("1000000001", "0.0013 seconds of arc apart"),
        ("9" * 6000, "finer than any head can hold"),
        ("2.5", "--angle '2/5 turn'"),
        ("5/2", "do not close a round"),
        ("1/2", "do not close a round"),
        ("28.0", "as a whole number"),
        ("1e3", "not a number of divisions"),
        ("twelve", "not a number of divisions"),
    ],
)
def test_a_count_that_is_none_is_refused_in_words_of_its_own(count: str, said: str) -> None:
    outcome = halfnut("divide", count)
    assert (outcome.returncode, outcome.stdout) == (2, "")
    assert said in outcome.stderr
    assert len(outcome.stderr) < 500


def test_the_largest_count_is_answered_or_refused_by_what_the_head_can_do() -> None:
    outcome = halfnut("divide", "1000000000")
    assert outcome.returncode == 1
    assert "less than half of the smallest move" in outcome.stderr


@pytest.mark.parametrize("angle", ["0deg", "361deg", "3/2 turn"])
def test_an_angle_that_is_no_part_of_a_turn_is_refused_with_status_2(angle: str) -> None:
    outcome = halfnut("divide", "--angle", angle)
    assert outcome.returncode == 2, outcome
    assert "an angle above 0 and at most 360 deg" in outcome.stderr


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (("divide", "61", "--circle", "49"), ("--circle", "--positions")),
        (("divide", "--angle", "37deg", "--moves", "4"), ("--moves", "--positions")),
        (("divide", "61", "--positions", "--moves", "4"), ("--moves", "DIVISIONS")),
        (("divide", "61", "--positions", "--skip", "2"), ("--positions", "--skip")),
        (("divide", "61", "--positions", "--method", "compound"), ("--positions", "--method compound")),
        (("divide", "--angle", "37deg", "--skip", "2"), ("--skip", "DIVISIONS")),
        (("audit", "9 on 21", "--plate", "follows"), ("--plate", "--wheels")),
        (("audit", "9 on 21", "--idlers", "1"), ("--idlers", "--wheels")),
        (("audit", "9 on 21", "--wheels", "56-24"), ("--plate", "--idlers")),
        (("audit", "9 on 21", "--wheels", "56-24", "--plate", "follows", "--idlers", "1"), ("one of the two",)),
        (("audit", "9 on 21 + 1 on 23", "--wheels", "56-24", "--idlers", "1"), ("geared plate", "second circle")),
        (("audit", "40-80", "--wheels", "56-24"), ("--wheels", "a train")),
        (("audit", "40-80", "--worm-ratio", "40"), ("--worm-ratio", "a train")),
        (("audit", "40-80", "--head", "head-60"), ("--head", "a train")),
        (("audit", "9 on 21", "--lathe", "inch-8"), ("--lathe", "an index move")),
        (("audit", "9 on 21", "--lever", "A1"), ("--lever", "an index move")),
        (("audit", "9 on 21", "--length", "2 in"), ("--length", "an index move")),
        (("train", "1mm", "--within", "5 % or so"), ("more than one figure", "or so")),
        (("audit", "40-80", "--lathe", "inch-8", "--lever", "Z9"), ("Z9", "gearbox")),
        (("audit", "40-80", "--lathe", "inch-12-box", "--draw", "a.svg"), ("--lever", "A1")),
        (("audit", ""), ("40-80-50-127", "9 on 21")),
    ],
)
def test_an_option_that_would_do_nothing_is_refused_and_named(words: tuple[str, ...], named: tuple[str, str]) -> None:
    outcome = halfnut(*words)
    assert outcome.returncode == 2, outcome
    assert outcome.stdout == ""
    assert [word for word in named if word not in outcome.stderr] == []


def test_a_lathe_named_by_the_environment_is_said_to_come_from_there() -> None:
    outcome = halfnut("train", "1mm", variables={"HALFNUT_LATHE": "nowhere"})
    assert outcome.returncode == 2
    assert "HALFNUT_LATHE" in outcome.stderr
    assert "no lathe is called 'nowhere'" in outcome.stderr


def test_an_empty_variable_names_no_lathe() -> None:
    outcome = halfnut("train", "1mm", variables={"HALFNUT_LATHE": ""})
    assert outcome.returncode == 0
    assert "No lathe was named" in outcome.stderr


def test_new_asks_which_way_one_idler_turns_the_plate_where_there_are_wheels(tmp_path: Path) -> None:
    path = tmp_path / "head.toml"
    outcome = halfnut("head", "new", str(path), told="Mine\n40\n15 to 20 by 1\n\n\n24 x2, 28\nsideways\nagainst\n\n")
    assert outcome.returncode == 0, outcome
    assert 'one_idler_plate = "against"' in path.read_text(encoding="utf-8")
    assert "turns against the crank" in halfnut("head", "show", str(path)).stdout


def test_new_takes_the_circles_of_a_plate_as_a_run(tmp_path: Path) -> None:
    path = tmp_path / "head.toml"
    outcome = halfnut("head", "new", str(path), told="Mine\n40\n20 to 15\n15 to 20 by 1, 23\n\n\n\n\n")
    assert outcome.returncode == 0, outcome
    assert "[15, 16, 17, 18, 19, 20, 23]" in path.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("told", "stud_turns"), [("20 tpi, 40, 127\ny\n", "127/100"), ("20 tpi, 40, 127\nn\n20 tpi, 40, 100\n", "1")]
)
def test_new_asks_again_when_a_plate_row_gives_an_odd_stud(tmp_path: Path, told: str, stud_turns: str) -> None:
    path = tmp_path / "mine.toml"
    outcome = halfnut("lathe", "new", str(path), told=f"Mine\n8 tpi\n{told}y\nmodule 1\n20, 40\n\n\n\n\n\n")
    assert outcome.returncode == 0, outcome
    assert "gearbox or a compound pair" in outcome.stderr
    assert f'stud_turns = "{stud_turns}"' in path.read_text(encoding="utf-8")


def test_a_terminal_without_the_signs_gets_them_spelt_in_letters() -> None:
    outcome = halfnut("train", "module 0.5", "--lathe", "inch-8", variables={"PYTHONIOENCODING": "ascii"})
    assert outcome.returncode == 0, outcome
    assert "0.5 pi mm ~ 1.5708 mm" in outcome.stdout
    assert "(50 x 80 x 100)" in outcome.stdout
    assert outcome.stdout.isascii()
    assert "?" not in outcome.stdout
