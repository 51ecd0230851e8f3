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
        ("M6x0.8", "M6"),
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
    outcome = halfnut("divide", "127", "--json")
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
    told = "Mine\nnonsense\n8 tpi\n20 tpi, 40, 100\ny\nmodule 1\n20 to 60 by 5, 127, 20 x2\n2\n20 mm\n127\n"
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
    told = "My table\n72\n15 16 17 18\n24 25 / 46 47\n\n24\n\n"
    outcome = halfnut("head", "new", str(path), told=told)
    assert outcome.returncode == 0, outcome
    assert halfnut("head", "check", str(path)).returncode == 0
    assert '"circle": 25' in halfnut("divide", "100", "--head", str(path), "--json").stdout
