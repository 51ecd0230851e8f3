"""Measured pitches against what workshop sources say they are; sources stand in the data file."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gearsets.designations import read_designation
from gearsets.pitch_lists import known_pitches
from solver.quantities.exact_numbers import decimal_text
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length
from solver.quantities.written_measurements import Measurement, read_measurement
from solver.trains.identify import identify, major_may_be
from tests.published.source_cases import of_kind, read_cases, rows_of_kind, unmarked

CASES = read_cases("measurements.toml")
MAJORS = rows_of_kind(CASES, "major")


def match_of(found, name):
    return next(match for match in found.matches if name in match.known.names)


@pytest.mark.parametrize("case", of_kind(CASES, "thread"))
def test_the_thread_of_the_source_alone_fits_and_the_other_that_is_made_is_told_apart(case):
    found = identify(read_measurement(case["measured"]), known_pitches("thread"))
    assert [match.known.names[0] for match in found.fitting] == [case["is"]]
    other = match_of(found, case["also_made"])
    assert not other.fits
    assert other.tell_over <= found.measured.pitches


@pytest.mark.parametrize("case", unmarked(of_kind(CASES, "thread")))
def test_by_a_rule_read_to_half_a_millimetre_the_two_cannot_be_told_apart(case):
    found = identify(read_measurement(case["measured"], Length.of_mm("0.5")), known_pitches("thread"))
    assert match_of(found, case["is"]).fits
    assert match_of(found, case["also_made"]).fits
    assert match_of(found, case["also_made"]).tell_over > found.measured.pitches


@pytest.mark.parametrize("case", of_kind(CASES, "rack"))
def test_the_rack_lies_as_far_from_the_module_as_the_source_reckons(case):
    found = identify(read_measurement(case["measured"]), known_pitches("rack"))
    beside = match_of(found, case["beside"])
    assert decimal_text(beside.relative.relative * 100, 2) == case["percent"]
    assert not beside.relative.is_exact
    # One pitch does not tell the two apart; the pitch with no pi in it is the nearer.
    assert found.matches[0].relative.is_exact
    assert beside.fits


@pytest.mark.parametrize("case", of_kind(CASES, "tap"))
def test_a_diametral_pitch_is_found_from_its_threads_to_the_inch_and_the_tap_beside_it(case):
    pitch = Length.of_inches(1 / Fraction(case["per_inch"]))
    # The figure is given to a tenth of a thread: half of that is its doubt.
    doubt = Length.of_inches(1 / (Fraction(case["per_inch"]) - Fraction(1, 20))) - pitch
    racks = identify(Measurement(pitch, 1, doubt), known_pitches("rack"))
    assert case["dp"] in racks.matches[0].known.names
    taps = [known for known in known_pitches("thread") if known.names[0].endswith("tpi")]
    assert case["nearest_tap"] in identify(Measurement(pitch, 1, doubt), taps).matches[0].known.names


@pytest.mark.parametrize("row", rows_of_kind(CASES, "circular"))
def test_a_circular_pitch_is_off_its_module_by_what_the_table_gives(row):
    found = identify(read_measurement(row["measured"]), known_pitches("rack"))
    modules = [match for match in found.matches if match.known.names[0].startswith("module")]
    assert row["beside"] in [name.replace(" 1/2", ".5") for name in modules[0].known.names]
    standard = Fraction(row["beside"].removeprefix("module "))
    expected = Fraction(row["module"]) / standard - 1
    # The table has five decimals of a module.
    assert abs(modules[0].relative.relative - expected) <= Fraction(6, 10**6) / standard


@pytest.mark.parametrize("row", MAJORS)
def test_a_sound_thread_is_found_by_its_outside_diameter_at_either_limit(row):
    thread = read_designation(row["thread"])
    for limit in ("least", "most"):
        size = read_length(row[limit])
        assert major_may_be(thread.diameter, thread.pitch.pitch, size, Length.of_mm(0))
