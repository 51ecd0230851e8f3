"""``missing`` as a person sees it: the classic answer, the JSON, the proof told, refusals and limits."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tests.cli.running import answer_of, halfnut

COARSE = ("missing", "--series", "iso_coarse", "--lathe", "inch-8-no127", "--within", "exact")
FEW = ("missing", "1mm", "1.25mm", "--lathe", "inch-8-no127", "--within", "exact", "--pairs", "2")


def test_the_iso_coarse_series_on_an_inch_lathe_asks_for_127_and_says_how_to_make_it() -> None:
    outcome = halfnut(*COARSE, "--head", "head-40-three-plates")
    assert outcome.returncode == 0, outcome
    assert "ADD 127 T: fewest" in outcome.stdout
    assert "Unlocks 23 of 23. Proven" in outcome.stdout
    assert "161.25 mm" in outcome.stdout
    assert "the one for 55 to 134 teeth" in outcome.stdout
    assert "differential, wheels" in outcome.stdout
    assert "supervision" in outcome.stdout
    assert outcome.stderr == ""
    assert max(map(len, outcome.stdout.splitlines())) <= 80


def test_json_gives_exact_figures_and_trains_that_cut_what_is_asked() -> None:
    answer = answer_of(*FEW)
    assert answer["best"]["wheels"] == [127]
    assert answer["proof"] == {**answer["proof"], "proven": True, "least_price": "1", "stopped": None}
    assert [row["asked"]["pitch"] for row in answer["best"]["unlocked"]] == ["1 mm", "1.25 mm"]
    for row in answer["best"]["unlocked"]:
        ratio = Fraction(1)
        for driver, driven in row["train"]["pairs"]:
            ratio *= Fraction(driver, driven)
        assert ratio * Fraction(127, 40) == Fraction(row["asked"]["lead_mm"])
        assert any(127 in pair for pair in row["train"]["pairs"])
    making = answer["making"][0]
    assert making["blank_mm"] == "645/4"
    assert making["cutter"] == {"fewest": 55, "most": 134, "dp_number": 2, "module_number": 7}
    assert making["on_head"]["exact"] is True


def test_a_lathe_that_divides_its_own_wheel_says_so() -> None:
    outcome = halfnut("missing", "1.5mm", "--lathe", "inch-8-no127", "--within", "130 ppm", "--pairs", "2",
                      "--candidates", "63")  # fmt: skip
    assert "ADD 63 T" in outcome.stdout
    assert "This lathe divides its own" in outcome.stdout
    assert "detent" in outcome.stdout


def test_the_face_bore_and_pressure_angle_of_the_file_are_told(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(
        'name = "Mine"\n[leadscrew]\nlead = "8 tpi"\n[drive]\nstud_turns = "1"\nreverse = true\n'
        '[wheels]\nsize = "20 DP"\nteeth = { 40 = 1, 50 = 1 }\nface = "3/8 in"\nbore = "15 mm"\n'
        'pressure_angle = "14.5 deg"\n',
        encoding="utf-8",
    )
    outcome = halfnut("missing", "1mm", "--lathe", str(path), "--within", "exact")
    assert "9.525 mm" in outcome.stdout
    assert "15 mm" in outcome.stdout
    assert "14 1/2°" in outcome.stdout
    assert "20°" not in outcome.stdout
    assert "No. 2 of a DP set" in outcome.stdout


def test_prices_and_home_made_wheels_change_the_answer() -> None:
    few = ("missing", "0.25mm", "0.3mm", "0.45mm", "0.7mm", "1.5mm", "--lathe", "inch-8-no127", "--pairs", "2",
           "--within", "130 ppm")  # fmt: skip
    assert answer_of(*few)["best"]["wheels"] == [127]
    dear = answer_of(*few, "--price", "127=25", "--price", "default=8.5")
    assert dear["best"]["price"] == "17"
    assert len(dear["best"]["wheels"]) == 2
    own = halfnut(*few, "--own-make", "126")
    assert "fewest to buy" in own.stdout
    assert "make, price 0" in own.stdout


def test_what_nothing_unlocks_is_named_with_the_nearest_and_the_status_is_1() -> None:
    outcome = halfnut("missing", "module 1", "1mm", "--lathe", "inch-8-no127", "--within", "exact", "--pairs", "2")
    assert outcome.returncode == 1
    assert "Nothing up to 3 wheels unlocks these: proven" in outcome.stdout
    assert "- module 1: nearest" in outcome.stdout
    assert "1 of the 2 leads that are lacking are left so" in outcome.stderr


def test_a_lathe_that_cuts_it_lacks_nothing() -> None:
    outcome = halfnut("missing", "1mm", "--lathe", "inch-8")
    assert outcome.returncode == 0
    assert "No wheel is missing" in outcome.stdout
    assert "MAKING" not in outcome.stdout
    assert answer_of("missing", "1mm", "--lathe", "inch-8")["best"]["wheels"] == []


def test_when_time_runs_out_that_is_said_and_the_best_found_is_given() -> None:
    outcome = halfnut("missing", "--series", "iso_coarse", "--lathe", "inch-16-small", "--within", "100 ppm",
                      "--price", "127=90", "--price", "67=90", "--price", "79=90", "--price", "default=8",
                      "--most", "5", "--seconds", "1")  # fmt: skip
    assert ": time ran out. Fewer" in outcome.stderr
    assert "Proven: no other choice" not in outcome.stdout
    assert "Traceback" not in outcome.stderr


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        ((), 2, "Give pitches, or --series"),
        (("1mm", "--series", "ba"), 2, "one of the two"),
        (("1,25mm",), 2, "Write a point"),
        (("1mm", "--series-name"), 2, "No such option"),
        (("1mm", "--most", "6"), 2, "6 is not in the range"),
        (("1mm", "--candidates", "3-9"), 2, "5 to 400 teeth"),
        (("1mm", "--candidates", ""), 2, "At least one wheel"),
        (("1mm", "--price", "127=25"), 2, "default=8"),
        (("1mm", "--price", "127"), 2, "has no price"),
        (("1mm", "--price", "127=1/3"), 2, "/"),
        (("1mm", "--price", "default=0.123"), 2, "two decimals"),
        (("1mm", "--price", "4=1"), 2, "5 to 400 teeth"),
        (("1mm", "--price", "default=1", "--price", "default=2"), 2, "twice"),
        (("1mm", "--price", "own=1"), 2, "--own-make"),
        (("1mm", "--within", "5"), 2, "needs its unit"),
        (("1mm", "--lathe", "inch8"), 2, "inch-8"),
        (("1mm", "--head", "no-such-head"), 2, "no-such-head"),
    ],
)
def test_refusals_say_what_to_type(words: tuple[str, ...], status: int, said: str) -> None:
    outcome = halfnut("missing", *words)
    assert outcome.returncode == status, outcome
    assert said in outcome.stderr
    assert "Traceback" not in outcome.stderr
    assert outcome.stdout == ""


def test_wheels_that_the_guard_stops_are_no_candidates(tmp_path: Path) -> None:
    path = tmp_path / "small.toml"
    path.write_text(
        'name = "Small"\n[leadscrew]\nlead = "8 tpi"\n[drive]\nstud_turns = "1"\nreverse = true\n'
        '[wheels]\nsize = "module 1"\nteeth = { 40 = 1, 50 = 1 }\n[banjo]\nlargest_wheel_teeth = 100\n',
        encoding="utf-8",
    )
    outcome = halfnut("missing", "1mm", "--lathe", str(path), "--candidates", "127")
    assert outcome.returncode == 1
    assert "stops at 100 teeth" in outcome.stderr
    assert "--candidates 20-100" in outcome.stderr
    assert max(answer_of("missing", "1mm", "--lathe", str(path), "--pairs", "2")["candidates"]) == 100
