"""``audit`` of an index setting beside an angle, and of one the head cannot make."""

from __future__ import annotations

import pytest

from tests.cli.running import answer_of, halfnut

HEAD = ("--head", "head-40-three-plates")


def test_an_audit_beside_an_angle_tells_each_move_and_what_ten_come_to() -> None:
    # One hole of 23 at 40:1 is 360 / 920 degrees, 23' 28.7": 31.3" short of 24', 5.22' after ten.
    answer = answer_of("audit", "1 on 23", "--against", "24 min")
    assert answer["error_arcsec_per_move"] == "-720/23"
    # 24' is 1/900 of the work, 2/45 of a crank turn.
    assert answer["circle_needed"] == 45
    screen = halfnut("audit", "1 on 23", "--against", "24 min").stdout
    assert "each move is 0° 23' 28.7\": -31.3\" each, -5.22' after 10 moves" in " ".join(screen.split())
    assert "exact: each move is" in halfnut("audit", "1 on 18", "--against", "30'").stdout


def test_what_the_head_has_not_stands_in_the_answer() -> None:
    answer = answer_of("audit", "20 on 48", *HEAD, "--against", "96")
    assert answer["not_on_head"] == ["no plate of 40:1 head, three plates 15 to 49 has a circle of 48 holes"]
    # 40/96 is 5/12.
    assert answer["circle_needed"] == 12
    screen = " ".join(halfnut("audit", "20 on 47", *HEAD, "--against", "96").stdout.split())
    assert "exact on a circle of 12 holes or a multiple: this head has none" in screen
    held = " ".join(halfnut("audit", "20 on 47", *HEAD, "--against", "100").stdout.split())
    # 40/100 is 2/5: circles of 15 and 20.
    assert "exact on a circle of 5 holes or a multiple: this head has 15, 20" in held
    assert "whole turns of the crank make it exact" in halfnut("audit", "20 on 47", "--against", "9 deg").stdout
    # 9.001 deg is 9001/9000 of a turn of the crank, 9.0001 deg 90001/90000: nobody drills ninety thousand holes.
    assert "circle of 9000 holes" in halfnut("audit", "20 on 47", "--against", "9.001 deg").stdout
    fine = ("audit", "20 on 47", "--against", "9.0001 deg")
    assert "holes or a multiple" not in halfnut(*fine).stdout
    assert answer_of(*fine)["circle_needed"] == 90_000


@pytest.mark.parametrize("text", ["0", "1000000000", "0 deg"])
def test_what_is_no_count_and_no_angle_is_refused(text) -> None:
    outcome = halfnut("audit", "20 on 47", "--against", text)
    assert outcome.returncode == 2
    assert "--against takes" in outcome.stderr
