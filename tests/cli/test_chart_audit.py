"""``audit chart.csv`` as a person sees it."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tests.cli.running import answer_of, halfnut

CHART = """\
# chart inside the cover of a tellurion maker's lathe
thread;train
8 tpi;40-40
20 tpi;40-100
40 tpi;20-100
13 tpi;65-40
1.25 mm;40-80-63-80
19 tpi;20-95
module 0.5;47-95
"""


@pytest.fixture
def chart(tmp_path: Path) -> str:
    path = tmp_path / "cover.csv"
    path.write_text(CHART, encoding="utf-8")
    return str(path)


def test_a_chart_without_a_lathe_tells_its_own_constant(chart: str) -> None:
    outcome = halfnut("audit", chart)
    told = " ".join(outcome.stdout.split())
    assert outcome.returncode == 1, outcome
    assert outcome.stderr == ""
    assert "5 of 7 rows cut what they say; 2 do not" in told
    assert "8 tpi (3.175 mm), leadscrew × fixed ratio; 5 of 7 rows agree, 2 of them nearly: lines 3, 4, 5, 7, 9" in told
    assert "4 tpi (6.35 mm); line 8 alone agrees" in told
    assert "line 6: 65-40 for 13 tpi; 40-65 cuts it" in told


def test_json_of_a_chart_holds_every_row_with_what_it_cuts(chart: str) -> None:
    answer = answer_of("audit", chart, "--lathe", "inch-8")
    (sheet,) = answer["sheets"]
    assert answer["all_true"] is False
    assert Fraction(sheet["judged_by_mm"]) == Fraction(127, 40)
    verdicts = [row["verdict"] for row in sheet["rows"]]
    assert verdicts == ["exact", "exact", "exact", "inverted", "near", "off", "near"]
    for row in sheet["rows"]:
        ratio = Fraction(1)
        for driver, driven in row["pairs"]:
            ratio *= Fraction(driver, driven)
        assert Fraction(row["cut_lead_mm"]) == Fraction(127, 40) * ratio
    assert sheet["constants"][0] == {
        "constant_mm": "127/40", "inverted": False, "exact_lines": [3, 4, 5], "near_lines": [7, 9],
    }  # fmt: skip


def test_a_sound_chart_is_status_0_and_a_narrow_tolerance_finds_its_near_rows(tmp_path: Path) -> None:
    path = tmp_path / "chart"
    path.write_text("thread,train\n8 tpi,40-40\n10 tpi,40-50\n1.25 mm,40-80-63-80\n", encoding="utf-8")
    assert halfnut("audit", str(path)).returncode == 0
    assert halfnut("audit", str(path), "--within", "100 ppm").returncode == 1
    assert halfnut("audit", str(path), "--within", "5 um", "--length", "25 mm").returncode == 0


def test_a_chart_of_another_lathe_is_told_as_such(chart: str) -> None:
    told = " ".join(halfnut("audit", chart, "--lathe", "metric-3").stdout.split())
    assert "the chart seems made for this constant, not for 3 mm" in told


def test_rows_that_cannot_all_be_true_are_named_together(tmp_path: Path) -> None:
    path = tmp_path / "manual.csv"
    path.write_text("thread,train\n12 tpi,40-idler-30\n2.0 mm,40-idler-30\n", encoding="utf-8")
    outcome = halfnut("audit", str(path))
    told = " ".join(outcome.stdout.split())
    assert outcome.returncode == 1
    assert "lines 2, 3: wheels of one ratio, 40-30 +idler, for 12 tpi and 2 mm" in told
    assert "none with more rows than another" in told


def test_every_unreadable_row_is_told_at_once_with_status_3(tmp_path: Path) -> None:
    path = tmp_path / "spoilt.csv"
    path.write_text("thread,train\n20,40-100\n1 mm,40\n2 mm,40-30\n1 mm,x-y\n", encoding="utf-8")
    outcome = halfnut("audit", str(path))
    assert outcome.returncode == 3, outcome
    assert outcome.stdout == ""
    assert [line in outcome.stderr for line in ("line 2:", "line 3:", "line 4:", "line 5:")] == [
        True,
        True,
        False,
        True,
    ]


def test_a_chart_that_is_not_there_is_status_3() -> None:
    outcome = halfnut("audit", "no-such-chart.csv")
    assert outcome.returncode == 3, outcome
    assert "is not there" in outcome.stderr


@pytest.mark.parametrize(
    "words",
    [
        ("--against", "20 tpi"),
        ("--lever", "A"),
        ("--worm-ratio", "40"),
        ("--within", "5 %"),
        ("--within", "5"),
        ("--length", "1 in"),
    ],
)
def test_options_that_do_not_belong_to_a_chart_are_refused(chart: str, words: tuple[str, ...]) -> None:
    outcome = halfnut("audit", chart, *words)
    assert outcome.returncode == 2, outcome
    assert "Traceback" not in outcome.stderr


def test_a_tolerance_does_not_go_with_one_train() -> None:
    assert halfnut("audit", "40-80", "--within", "100 ppm").returncode == 2
    assert halfnut("audit", "9 on 21", "--within", "100 ppm").returncode == 2


def test_levers_are_named_by_the_lathe_or_refused(tmp_path: Path) -> None:
    path = tmp_path / "box.csv"
    path.write_text("thread,train,lever\n20 tpi,40-80,Z\n", encoding="utf-8")
    assert halfnut("audit", str(path), "--lathe", "inch-12-box").returncode == 3
    assert "Lever Z" in halfnut("audit", str(path)).stdout


@pytest.mark.parametrize("columns", [40, 60, 80])
def test_no_screen_is_wider_than_the_terminal(chart: str, columns: int) -> None:
    outcome = halfnut("audit", chart, "--lathe", "inch-8", columns=columns)
    assert max(map(len, outcome.stdout.splitlines())) <= columns
    assert "\x1b" not in outcome.stdout
