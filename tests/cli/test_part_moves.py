"""Parts whose count the plates miss carry the geared and the two-motion settings themselves, as ``divide`` has them."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.running import answer_of, halfnut

HEAD = ("--head", "head-40-three-plates")
#: The same count, 51, as a part of each kind.
PARTS = (
    ("shape", "51", "--from", "100 mm"),
    ("slot", "51", "--in", "24 mm", "--width", "0.5 mm", "--depth", "2 mm"),
    ("keyway", "51", "--shaft", "100 mm", "--width", "2 mm"),
    ("holes", "51", "--on", "100 mm"),
    ("dial", "--screw", "1 mm", "--marks", "51"),
)


@pytest.mark.parametrize("words", PARTS, ids=lambda words: words[0])
def test_a_part_carries_the_settings_that_divide_gives_for_its_count(words: tuple[str, ...]) -> None:
    index = answer_of(*words, *HEAD)["index"]
    divided = answer_of("divide", "51", *HEAD)
    assert (index["answers"], index["methods"]) == (divided["answers"], divided["methods"])
    assert {each["method"] for each in index["answers"]} == {"differential", "compound", "nearest"}
    assert index["exact"] is True


@pytest.mark.parametrize("words", PARTS, ids=lambda words: words[0])
def test_nothing_geared_is_mistaken_for_plain_on_the_screen_of_a_part(words: tuple[str, ...]) -> None:
    outcome = halfnut(*words, *HEAD)
    assert outcome.returncode == 0, outcome
    screen = " ".join(outcome.stdout.split())
    assert "exact ONLY WITH THE WHEELS ON: not plain settings" in screen
    assert "28-86 2: 44+48 against 14/43 0 turns + 34 spaces on 43 C ≈50.59" in screen
    assert "COMPOUND, two motions for each move, exact" in screen
    assert "Wheels forgotten, this move divides ≈50.59, not 51." in screen
    assert "refit the guard: they turn with the crank" in screen
    assert "Stop pin out and plate free before the first move" in screen
    assert max(map(len, outcome.stdout.splitlines())) <= 80


@pytest.mark.parametrize("words", [("--module", "0.5"), ("--tap", "3/8-24")])
def test_gashes_that_are_not_plain_carry_their_wheels(words: tuple[str, ...]) -> None:
    outcome = halfnut("worm", *words, "--teeth", "73", *HEAD)
    screen = " ".join(outcome.stdout.split())
    assert "exact by differential, ONLY WITH WHEELS ON: below" in screen
    assert "INDEX MOVES, 73 tooth gaps" in screen
    assert "Wheels forgotten, this move divides 72, not 73." in screen
    gash: dict[str, Any] = answer_of("worm", *words, "--teeth", "73", *HEAD)["gash"]
    assert gash["index_exact"] is True
    geared = [each for each in gash["index"] if each["method"] == "differential"]
    assert geared[0]["gears"] == [[40, 72]]
    assert all(each["gears"] is None for each in gash["index"] if each not in geared)


def test_a_vernier_between_the_holes_carries_its_wheels() -> None:
    words = ("dial", "--screw", "8 tpi", "--marks", "127", "--vernier", "10", *HEAD)
    found = answer_of(*words)["vernier"]["answers"]
    divided = answer_of("divide", "--angle", "9/1270 turn", *HEAD)["answers"]
    assert found == divided
    assert found[0]["gears"] == [[56, 24]]
    assert "differential, below" in halfnut(*words).stdout


def test_two_motions_lead_where_the_head_has_no_wheels(tmp_path) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path / "bare.toml"
    path.write_text(
        'name = "bare"\nworm_ratio = "40"\nplates = [ { name = "A", faces = [[15, 16, 17, 18, 19, 20]] } ]\n',
        encoding="utf-8",
    )
    outcome = halfnut("shape", "51", "--from", "100 mm", "--head", str(path))
    assert outcome.returncode == 0, outcome
    assert "COMPOUND, two motions for each move, exact" in outcome.stdout
    assert "Tick each motion as it is made" in outcome.stdout
    assert "WHEELS ON" not in outcome.stdout


def test_a_table_of_marks_beside_a_geared_setting_says_what_it_is() -> None:
    screen = " ".join(halfnut("dial", "--screw", "1 mm", "--marks", "127", "--positions", *HEAD).stdout.split())
    assert "with the plate held, each mark within half a hole" in screen
    plain = halfnut("dial", "--screw", "1 mm", "--marks", "100", "--positions", *HEAD).stdout
    assert "with the plate held" not in plain
