"""``holes`` as an index plate: what is left between holes, and what one out of place comes to on the work."""

from __future__ import annotations

from math import pi, sin

import pytest

from tests.cli.running import answer_of, halfnut


def plain(text):
    return " ".join(text.split())


def test_the_metal_between_neighbours_is_their_distance_less_the_drill():
    # Six on 50 mm stand 25 mm apart.
    assert answer_of("holes", "6", "--on", "50 mm", "--drill", "22 mm")["left_between_mm"] == "3"
    screen = plain(halfnut("holes", "6", "--on", "50 mm", "--drill", "22 mm").stdout)
    assert "Left between 3 mm (≈0.1181 in) with holes of 22 mm (≈0.8661 in)" in screen
    left = float(answer_of("holes", "61", "--on", "110 mm", "--drill", "3 mm")["left_between_mm"])
    assert left == pytest.approx(110 * sin(pi / 61) - 3)


def test_a_hole_out_of_place_is_told_on_plate_and_work():
    # 0.05 mm on a radius of 55 mm is 187.5 seconds; a worm of 40 leaves 4.69.
    slip = answer_of("holes", "61", "--on", "110 mm", "--worm-ratio", "40")["slip"]
    assert float(slip["on_plate_arcsec"]) == pytest.approx(0.05 / 55 / pi * 180 * 3600)
    assert float(slip["on_work_arcsec"]) == pytest.approx(0.05 / 55 / pi * 180 * 90)
    screen = plain(halfnut("holes", "61", "--on", "110 mm", "--worm-ratio", "40").stdout)
    assert "a hole 50.0 µm out of place is 3.13' on the plate, 4.69\" on the work by 40:1" in screen
    assert "has these errors divided by 40" in screen
    assert "As a plate" not in halfnut("holes", "61", "--on", "110 mm").stdout


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("6", "--on", "50 mm", "--drill", "25 mm"), 1, "run into one another"),
        (("1", "--on", "50 mm", "--drill", "2 mm"), 2, "no neighbour"),
        (("6", "--on", "50 mm", "--drill", "0 mm"), 2, "above zero"),
        (("6", "--on", "50 mm", "--worm-ratio", "0"), 2, "0"),
    ],
)
def test_holes_that_meet_and_a_drill_with_nothing_beside_it_are_refused(words, status, said):
    outcome = halfnut("holes", *words)
    assert (outcome.returncode, outcome.stdout) == (status, "")
    assert said in plain(outcome.stderr)


def test_the_sheet_tells_both(tmp_path):
    sheet = tmp_path / "plate.html"
    words = ("holes", "61", "--on", "110 mm", "--drill", "3 mm", "--worm-ratio", "40", "--sheet", str(sheet))
    assert halfnut(*words).returncode == 0
    text = sheet.read_text(encoding="utf-8")
    assert "As a plate" in text
    assert "Left between" in text
