"""The way the table is swung is told for both hands: on screens, on sheets, in JSON, alone and in a job."""

from __future__ import annotations

import re

import pytest

from tests.cli.running import answer_of, halfnut
from tests.cli.test_job import job_file

#: By hand of worm or helix, cutter above the work; worked out in tests/solver/helices/test_table_swing.py.
SAID = {
    "right": ("COUNTER-CLOCKWISE seen from above, its right-hand end away from you", "leans up to the RIGHT"),
    "left": ("CLOCKWISE seen from above, its right-hand end towards you", "leans up to the LEFT"),
}
SENSE = {"right": "counter-clockwise", "left": "clockwise"}
WORM = ("worm", "--module", "0.5", "--teeth", "40")
TAP = ("worm", "--tap", "3/8-24", "--teeth", "40")
HELIX = ("helix", "12 in", "--diameter", "2 in")


def plain(text: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", text).split())


@pytest.mark.parametrize("hand", SAID)
@pytest.mark.parametrize("words", [WORM, TAP, HELIX], ids=["worm", "tap", "helix"])
def test_screen_and_sheet_say_which_way_to_swing_and_how_the_groove_leans(words, hand, tmp_path):
    page = tmp_path / "page.html"
    outcome = halfnut(*words, "--hand", hand, "--sheet", str(page))
    other = "left" if hand == "right" else "right"
    for text in (plain(outcome.stdout), plain(page.read_text(encoding="utf-8"))):
        for said in SAID[hand]:
            assert said in text
        assert SAID[other][1] not in text
        assert f" {SAID[other][0]}" not in text
        assert f"{hand}-hand" in text


@pytest.mark.parametrize("hand", SENSE)
def test_json_says_it_too(hand):
    for words in (WORM, TAP):
        answer = answer_of(*words, "--hand", hand)
        assert answer["asked"]["hand"] == hand
        gash = answer["gash"]
        assert (gash["swing_sense_from_above"], gash["gash_leans_up_to_the"]) == (SENSE[hand], hand)
    for train in answer_of(*HELIX, "--hand", hand)["answers"]:
        assert (train["swing_sense_from_above"], train["groove_leans_up_to_the"]) == (SENSE[hand], hand)


def test_a_steep_helix_swings_the_cutter_the_other_way():
    screen = plain(halfnut("helix", "4 in", "--diameter", "2 in", "--hand", "left").stdout)
    assert "table left straight, the cutter's spindle swung as much COUNTER-CLOCKWISE seen from above" in screen


def test_the_wheel_of_a_job_has_the_hand_of_its_worm(tmp_path):
    path = job_file(
        tmp_path,
        'name = "worm"\nworm = { size = "module 1", teeth = 40, diameter = "16 mm" }\nhand = "left"',
        'name = "wheel"\nwheel = "worm"',
    )
    page = tmp_path / "page.html"
    shown = halfnut("job", path, "--sheet", str(page))
    for text in (plain(shown.stdout), plain(page.read_text(encoding="utf-8"))):
        assert all(said in text for said in SAID["left"]), shown
    wheel = next(each["asked"] for each in answer_of("job", path)["steps"] if each["part"] == "wheel")
    assert wheel["swing_sense_from_above"] == "clockwise"
    assert "--hand left" in wheel["in_full"]


def test_beyond_what_a_table_swings_the_spindle_turns_as_much_the_other_way():
    words = "table left straight, the cutter's spindle swung as much CLOCKWISE seen from above"
    steep = halfnut("worm", "--module", "1", "--teeth", "30", "--starts", "20", "--worm-diameter", "12mm").stdout
    assert words in " ".join(steep.split())
    answer = answer_of("helix", "3.6 in", "--diameter", "2 in")
    assert [each["table_is_swung"] for each in answer["answers"]] == [False] * len(answer["answers"])
