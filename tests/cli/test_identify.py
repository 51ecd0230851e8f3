"""``identify`` as a person sees it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.cli.running import answer_of, halfnut


def test_five_pitches_of_a_screw_are_named_with_what_is_ruled_out() -> None:
    outcome = halfnut("identify", "0.180in / 5", "--kind", "thread")
    assert outcome.returncode == 0, outcome
    assert "28 tpi alone fits" in outcome.stdout
    assert "27 tpi" in outcome.stdout
    assert "50.0 µm" in outcome.stdout


def test_pitches_that_cannot_be_told_apart_are_named_with_the_length_that_would() -> None:
    outcome = halfnut("identify", "0.125 in", "--kind", "rack")
    assert outcome.returncode == 0, outcome
    told = " ".join(outcome.stdout.split())
    assert "2 pitches fit and cannot be told apart by this: 0.125 in CP, module 1" in told
    assert "over 3 pitches" in told
    assert "+1.06" in told


def test_json_holds_exact_figures_that_agree_with_one_another() -> None:
    answer = answer_of("identify", "12.7 mm", "over", "10", "--answers", "40")
    measured = answer["measured"]
    assert measured == {"length_mm": "127/10", "pitches": 10, "pitch_mm": "127/100", "give_or_take_mm": "1/20"}
    assert answer["matches"][0]["names"][0] == "20 tpi"
    for match in answer["matches"]:
        fits = abs(Fraction(match["misfit_mm"])) <= Fraction(measured["give_or_take_mm"])
        assert match["fits"] is fits
        if not match["pitch"]["pi_multiple"]:
            off = Fraction(measured["length_mm"]) - 10 * Fraction(match["pitch"]["lead_mm"])
            assert Fraction(match["misfit_mm"]) == off
    assert answer["fits"] == sum(match["fits"] for match in answer["matches"])


def test_a_thread_is_found_by_diameter_and_pitch() -> None:
    answer = answer_of("identify", "10.0 mm / 10", "--kind", "thread", "--major", "5.9mm")
    assert answer["threads"] == ["0 BA", "Loewenherz 6", "M6x1", "Thury 0"]
    assert "M6x1" in halfnut("identify", "10.0 mm / 10", "--major", "5.9mm").stdout
    none = halfnut("identify", "10.0 mm / 10", "--major", "5.3mm")
    assert "no thread of the tables" in none.stdout
    assert "by diameter alone" in none.stdout


def test_nothing_that_fits_is_status_1_and_a_slip_in_counting_is_thought_of() -> None:
    outcome = halfnut("identify", "12.5 mm / 11", "--kind", "thread")
    assert outcome.returncode == 1, outcome
    assert "no pitch of the lists fits" in outcome.stdout
    assert "over 10 pitches it would be 1.25 mm" in outcome.stdout


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("5",), "needs its unit"),
        (("5 mm / 0",), "1 to 999 pitches"),
        (("0.02 mm",), "no longer than it may be wrong"),
        (("5 mm", "--give-or-take", "0 mm"), "without doubt"),
        (("5 mm", "--give-or-take", "0.1"), "needs its unit"),
        (("5 mm", "--kind", "rack", "--major", "6 mm"), "--major"),
        (("5 mm", "--major", "6 mm / 2"), "--major"),
    ],
)
def test_what_cannot_be_read_is_status_2_and_told_why(words: tuple[str, ...], told: str) -> None:
    outcome = halfnut("identify", *words)
    assert outcome.returncode == 2, outcome
    assert told in outcome.stderr
    assert "Traceback" not in outcome.stderr
    assert outcome.stdout == ""


@pytest.mark.parametrize("columns", [40, 60, 80])
def test_no_screen_is_wider_than_the_terminal(columns: int) -> None:
    words = ("identify", "10 mm / 10", "--major", "5.9 mm", "--answers", "30")
    outcome = halfnut(*words, columns=columns)
    assert max(map(len, outcome.stdout.splitlines())) <= columns
    assert "\x1b" not in outcome.stdout
