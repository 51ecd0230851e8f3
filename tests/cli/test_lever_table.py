"""``audit`` of a train on a lathe with a gearbox, no position named: the pitch at every one."""

from __future__ import annotations

import json

from tests.cli.running import halfnut

BOX = ("audit", "48-54", "--lathe", "inch-12-box")


def answer_of(*words):
    outcome = halfnut(*words, "--json")
    assert outcome.returncode == 0
    return json.loads(outcome.stdout)


def test_every_position_is_told_coarse_first_with_its_pitch():
    # 12 tpi by 48/54 is 13.5 tpi at 1:1, A1; 3/4 of that lead is 18 tpi, half 27 tpi.
    found = answer_of(*BOX)
    leads = {row["lever"]: row for row in found["levers"]}
    assert found["pairs"] == [[48, 54]]
    assert leads["A1"]["cut_lead_mm"] == "254/135"
    assert (leads["A2"]["nearest"], leads["A2"]["exact"], leads["A2"]["error_ppm"]) == ("18 tpi", True, "0")
    assert (leads["A3"]["nearest"], leads["A3"]["exact"]) == ("27 tpi", True)
    per_inch = [row["cut_lead_mm"] for row in found["levers"]]
    assert len(per_inch) == 8
    assert found["levers"][0]["lever"] == "A1"
    assert all(row["off_wanted_ppm"] is None for row in found["levers"])


def test_each_position_agrees_with_the_audit_of_that_position():
    for row in answer_of(*BOX)["levers"]:
        alone = answer_of(*BOX, "--lever", row["lever"])
        assert alone["train"]["cut_lead_mm"] == row["cut_lead_mm"]


def test_what_was_wanted_is_held_beside_each():
    # 27 tpi is 254/270 mm; 1 mm wanted is 254/270 / 1 - 1 = -16/270.
    found = answer_of(*BOX, "--against", "1mm")
    assert next(row for row in found["levers"] if row["lever"] == "A3")["off_wanted_ppm"] == "-1600000/27"
    screen = halfnut(*BOX, "--against", "1mm").stdout
    assert "AT EACH LEVER POSITION, coarse first" in screen
    assert "ppm off wanted" in screen


def test_a_position_that_is_not_there_is_refused_and_a_drawing_wants_one(tmp_path):
    outcome = halfnut(*BOX, "--lever", "Z9")
    assert outcome.returncode == 2
    assert "A1, A2" in outcome.stderr
    drawn = halfnut(*BOX, "--draw", str(tmp_path / "train.svg"))
    assert drawn.returncode == 2
    assert "name its lever" in drawn.stderr
    assert not list(tmp_path.iterdir())


def test_an_audited_train_carries_its_early_check():
    screen = halfnut("audit", "40-80-50-127", "--lathe", "inch-8").stdout
    # 3.175 mm by 40/80 and 50/127 is 0.625 mm: 40 turns are 25 mm; upside down 16.129 mm, 645.16 mm.
    assert "40 spindle turns by hand move the carriage 25 mm" in screen
    assert "If they move it 645.16 mm, drivers and driven are exchanged." in screen


def test_a_length_without_a_position_is_refused():
    refused = halfnut(*BOX, "--length", "2 in")
    assert (refused.returncode, refused.stdout) == (2, "")
    assert "--length needs --lever" in refused.stderr
    assert halfnut(*BOX, "--length", "2 in", "--lever", "A1").returncode == 0
