"""A sheet is written in full or not at all, and never over another file unless it is asked for."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.cli.running import TOP, halfnut

DIVIDE = ("divide", "28")


def test_a_file_that_is_there_is_kept_unless_forced(tmp_path):
    path = tmp_path / "sheet.html"
    path.write_text("mine", encoding="utf-8")
    outcome = halfnut(*DIVIDE, "--sheet", str(path))
    assert outcome.returncode == 2
    assert "--force" in outcome.stderr
    assert path.read_text(encoding="utf-8") == "mine"
    assert halfnut(*DIVIDE, "--sheet", str(path), "--force").returncode == 0
    assert path.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert [each.name for each in tmp_path.iterdir()] == ["sheet.html"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--sheet", "sheet.txt"), "ends in .html"),
        (("--sheet", "here.html", "--draw", "here.html"), "same file"),
        (("--force",), "none is named"),
    ],
)
def test_words_that_make_no_sheet_are_refused(words, said):
    outcome = halfnut(*DIVIDE, *words)
    assert outcome.returncode == 2
    assert said in outcome.stderr
    assert outcome.stdout == ""


def test_a_sheet_that_cannot_be_written_leaves_nothing(tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    outcome = halfnut(*DIVIDE, "--sheet", str(tmp_path / "file" / "sheet.html"))
    assert outcome.returncode == 2
    assert "There is no folder" in outcome.stderr
    assert [each.name for each in tmp_path.iterdir()] == ["file"]


def test_without_an_answer_there_is_no_sheet(tmp_path):
    path = tmp_path / "sheet.html"
    outcome = halfnut("train", "1.25mm", "--lathe", "inch-8-no127", "--within", "0.001 ppm", "--sheet", str(path))
    assert outcome.returncode == 1
    assert "No sheet is written" in outcome.stderr
    assert not path.exists()


def test_a_sheet_stands_beside_json(tmp_path):
    path = tmp_path / "sheet.html"
    outcome = halfnut(*DIVIDE, "--json", "--sheet", str(path))
    assert outcome.stdout.startswith("{")
    assert f"Sheet: {path}" in outcome.stderr
    assert path.exists()


def test_templates_are_loaded_only_for_a_sheet():
    program = (
        "import sys; from click.testing import CliRunner; from cli.main import bench; "
        "CliRunner().invoke(bench, ['divide', '28']); print('jinja2' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", program], cwd=TOP, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
