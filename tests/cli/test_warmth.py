"""What warmth adds to a screw, as ``instrument`` and ``train`` tell it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.cli.running import answer_of, halfnut

SCREW = ("instrument", "--pitch", "0.5mm", "--marks", "50", "--travel", "200mm")
STEEL = pytest.mark.practice("common practice, no source: a steel screw grows 11.5 parts in a million for each kelvin")


def said(*words: str) -> str:
    return " ".join(halfnut(*words).stdout.split())


# 200 mm of steel grow 200 x 11.5 / 1,000,000 = 0.0023 mm, 2.3 µm, for one kelvin; for five 11.5 µm, 57.5 ppm. A mark is
# 0.01 mm: 11.5 µm are 1.15 marks. 40 mm grow 0.46 µm, an inch 0.2921 µm.
@STEEL
def test_one_kelvin_is_told_where_none_is_asked_and_is_not_in_the_sum():
    screen = said(*SCREW)
    assert (
        "Warmth not in it (--warmer): a steel screw grows 2.30 µm per kelvin over 200 mm (11.5 ppm/K, practice)"
        in screen
    )
    assert "Together" not in screen
    assert answer_of(*SCREW)["warmth"] == {
        "steel_ppm_per_k": "23/2", "um_per_k": "23/10", "warmer_k": None, "error_ppm": None,
        "with_error_ppm": None, "with_error_over_travel_um": None,
    }  # fmt: skip


@STEEL
def test_a_warmer_screw_is_longer_and_its_dial_reads_short_of_it():
    screen = said(*SCREW, "--warmer", "5 K")
    assert (
        "Warmth lead long, +57.5 ppm: 11.5 µm (0.453 thou) long in 200 mm; 5 K warmer than 20 °C (11.5 ppm/K, practice)"
        in screen
    )
    assert "Together lead long, +57.5 ppm: 11.5 µm (0.453 thou) long in 200 mm" in screen
    assert "In marks +1.15 of a mark" in screen
    warmth = answer_of(*SCREW, "--warmer", "5 K")["warmth"]
    assert (warmth["warmer_k"], warmth["error_ppm"], warmth["with_error_over_travel_um"]) == ("5", "115/2", "23/2")


# A leadscrew 40 ppm long and 2 K colder: 1.00004 x (1 - 0.000023) - 1 = 0.00001699908, that is 16.99908 ppm.
@STEEL
def test_warmth_and_leadscrew_multiply_and_colder_is_short():
    words = (*SCREW, "--leadscrew-error", "40 ppm", "--warmer", "-2 K")
    assert "Warmth lead short, -23.0 ppm: 4.60 µm (0.181 thou) short in 200 mm; 2 K colder than 20 °C" in said(*words)
    answer = answer_of(*words)
    first = Fraction(answer["answers"][0]["error_ppm"]) / 10**6
    whole = Fraction(answer["warmth"]["with_error_ppm"])
    assert whole == ((1 + first) * (1 - Fraction(23, 10**6)) - 1) * 10**6
    exact = [each for each in answer["answers"] if Fraction(each["nominal_error_ppm"]) == 0]
    assert exact[0]["error_ppm"] == "40"
    assert answer["error_ppm"] == answer["answers"][0]["error_ppm"]


@STEEL
def test_train_tells_it_of_a_long_screw_alone():
    assert "Warmth a steel screw grows 1.72 µm per kelvin over 150 mm" in said("train", "M6", "--length", "150 mm")
    assert "Warmth" in said("train", "M6", "--length", "100 mm")
    assert "Warmth" not in said("train", "M6", "--length", "99.9 mm")
    assert answer_of("train", "M6")["warmth"] == {"steel_ppm_per_k": "23/2", "um_per_k": "2921/10000"}


def test_the_sheets_tell_what_the_screens_do(tmp_path):
    for number, (words, line) in enumerate((
        (("train", "M6", "--length", "150 mm"), "grows 1.72 µm per kelvin over 150 mm"),
        ((*SCREW, "--warmer", "5 K"), "5 K warmer than 20 °C"),
    )):  # fmt: skip
        sheet = tmp_path / f"{number}.html"
        assert halfnut(*words, "--sheet", str(sheet)).returncode == 0
        assert line in sheet.read_text(encoding="utf-8")
