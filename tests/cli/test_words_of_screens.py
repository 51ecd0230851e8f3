"""Words that a screen must not leave out: what moves, where zero is, whose a number is, what a sign means."""

from __future__ import annotations

import json
import re
import tomllib

import pytest

from tests.cli.running import answer_of, halfnut


def words_of(*words: str) -> str:
    return " ".join(halfnut(*words).stdout.split())


def test_two_motions_of_a_job_say_what_moves_and_what_the_arms_enclose(tmp_path):
    job = tmp_path / "job.toml"
    job.write_text('name = "a"\nhead = "head-60"\n[[parts]]\nname = "wheel"\ndivide = 77\n', encoding="utf-8")
    first, second = answer_of("divide", "77", "--head", "head-60")["answers"][0]["moves"]
    screen = " ".join(halfnut("job", str(job)).stdout.split())
    assert f"pin {first['spaces']} spaces on {first['circle']}, then both {second['spaces']} spaces" in screen
    assert f"(arms enclose {first['spaces'] + 1} and {second['spaces'] + 1} holes)" in screen
    assert "pin: the crank alone, plate held" in screen
    assert "both: plate with crank" in screen
    # The table of the order leaves the arms out, and wheels behind them in.
    assert screen.index("then both") < screen.index("(arms enclose")


def test_holes_say_where_the_angles_begin_and_put_back_before_the_figure():
    screen = halfnut("holes", "3", "--on", "60 mm", "--screw", "4 mm", "--marks", "80").stdout
    assert "0° is to the right, along x" in " ".join(screen.split())
    # Hole 2, at 120 degrees, is 15 mm to the left: 3 turns of 4 mm and 60 marks of 0.05 mm.
    assert "back 3 + 60" in screen
    # Columns stand two blanks apart.
    assert not re.search(r"\d back", screen)
    assert "0 is to the right" in words_of("holes", "--help")


@pytest.mark.parametrize(("size", "cell"), [("module 0.5", "14-16: No. 2"), ("24 DP", "14-16: No. 7")])
def test_a_cutter_is_named_by_its_range_and_the_set_it_is_numbered_in(size, cell):
    screen = words_of("counts", "15/60", "--size", size, "--smallest", "15", "--largest", "60", "--pairs", "1")
    assert f"Cutter ({size.split()[0].replace('24', 'DP')}" in screen
    assert cell in screen


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("dial", "--screw", "10 tpi", "--reads", "0.02 mm", "--positions"), "Error: + the work stands too far round"),
        (
            ("slot", "7", "--in", "1in", "--width", "2mm", "--depth", "3mm", "--head", "head-4000"),
            "+ the work goes too far",
        ),
        (("helix", "--angle", "20 deg", "--teeth", "30", "--module", "module 2"), "Angle off: + is more from the axis"),
    ],
)
def test_a_signed_column_says_what_plus_is(words, said):
    assert said in words_of(*words)


def test_the_angle_of_a_longer_lead_is_less():
    answers = answer_of("helix", "--angle", "20 deg", "--teeth", "30", "--module", "module 2")["answers"]
    for each in answers:
        assert (float(each["error_ppm"]) > 0) is (float(each["table_swing_deg"]) < 20)


@pytest.mark.parametrize(("kind", "name"), [("lathe", "inch-8-banjo"), ("head", "head-two-cranks")])
def test_what_is_shown_as_json_is_what_its_file_says(kind, name, tmp_path):
    shown = json.loads(halfnut(kind, "show", name, "--json").stdout)
    toml = halfnut(kind, "show", name, "--toml").stdout
    assert shown == {kind: tomllib.loads(toml)}
    path = tmp_path / "mine.toml"
    path.write_text(toml, encoding="utf-8")
    checked = halfnut(kind, "check", str(path), "--json")
    assert json.loads(checked.stdout) == shown
    assert checked.returncode == 0
    assert halfnut(kind, "show", name, "--json", "--toml").returncode == 2


def test_the_named_periods_are_listed_as_json():
    rows = {row["name"]: row for row in json.loads(halfnut("counts", "--list-periods", "--json").stdout)["periods"]}
    assert rows["solar day"] == {"name": "solar day", "days": "1", "what": "day", "figure": "exact"}
    listed = halfnut("counts", "--list-periods").stdout
    assert all(name in listed for name in rows)


def test_both_circles_of_an_audited_setting_have_their_arms():
    assert "Arms enclose 11 and 3 holes" in words_of("audit", "10 on 15 + 2 on 17", "--against", "51")


def test_a_card_cut_right_across_ticks_half_its_count(tmp_path):
    sheet = tmp_path / "sheet.html"
    asked = ("slot", "6", "--in", "1in", "--width", "3mm", "--depth", "4mm", "--head", "head-40-three-plates")
    halfnut(*asked, "--sheet", str(sheet))
    assert "So only the first 3 lines of the count are cut and ticked." in sheet.read_text(encoding="utf-8")
