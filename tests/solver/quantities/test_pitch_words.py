"""Pitches in words: threads per length, a lead with its starts, circular pitch, multiples of pi. Worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch, PitchUnit
from solver.quantities.written_lengths import read_wheel_module
from solver.quantities.written_pitches import pitch_with_starts, read_pitch
from solver.refusals import RefusalError, UnreadableFigureError
from tests.drawn_cases import cases
from tests.strategies import pitches

MM, IN, TPI = PitchUnit.MILLIMETRE, PitchUnit.INCH, PitchUnit.THREADS_PER_INCH
MODULE, DP, CP = PitchUnit.MODULE, PitchUnit.DIAMETRAL_PITCH, PitchUnit.CIRCULAR_PITCH


@pytest.mark.parametrize(
    ("text", "figure", "unit"),
    [
        ("20 threads per inch", "20", TPI),
        ("20 per inch", "20", TPI),
        ("20 t.p.i.", "20", TPI),
        ("20 threads to the inch", "20", TPI),
        ("20 threads/inch", "20", TPI),
        ("11 1/2 threads per inch", "23/2", TPI),
        ("4 threads in 3 inches", "4/3", TPI),
        ("4 turns in 3 in.", "4/3", TPI),
        ("27 per cm", "10/27", MM),
        ("27 threads per cm", "10/27", MM),
        ("10 threads in 17.5 mm", "7/4", MM),
        ("2 per mm", "1/2", MM),
        ("10 d.p.", "10", DP),
        ("D.P. 10", "10", DP),
        ("diametral pitch 10", "10", DP),
        ("10 diametral pitch", "10", DP),
        ("0.8 pi mm", "4/5", MODULE),
        ("0.8 π mm", "4/5", MODULE),
        ("0.8πmm", "4/5", MODULE),
        ("π mm", "1", MODULE),
        # A DP of 20 is pi/20 inches of pitch.
        ("pi/20 in", "20", DP),
        ("0.05 π in", "20", DP),
        ("0.8 mod", "4/5", MODULE),
        ("circular pitch 3 mm", "3", MM),
        ("CP 3 mm", "3", MM),
        ("3 mm CP", "3", MM),
        ("C.P. 0.2 in", "1/5", CP),
        ("0.2 in circular pitch", "1/5", CP),
        ("1.5 mm pitch", "3/2", MM),
        ("pitch 1.5 mm", "3/2", MM),
        ("0.05 in. pitch", "1/20", IN),
        ("1.5 millimetres", "3/2", MM),
    ],
)
def test_a_pitch_in_words_is_the_same_pitch(text, figure, unit):
    assert read_pitch(text) == Pitch(Fraction(figure), unit)


@pytest.mark.parametrize(
    ("text", "figure", "unit", "starts"),
    [
        ("1/2 in lead, 4 starts", "1/8", IN, 4),
        ('1/2" lead 4-start', "1/8", IN, 4),
        ("lead 12 mm, 4 starts", "3", MM, 4),
        ("12 mm lead", "12", MM, 1),
        # Two turns an inch and two starts: four grooves an inch.
        ("2 per inch lead, 2 starts", "4", TPI, 2),
        ("3 pi mm lead, 3 starts", "1", MODULE, 3),
        ("2 mm pitch, 3 starts", "2", MM, 3),
        ("8 tpi 2-start", "8", TPI, 2),
        ("2mm, 2 start", "2", MM, 2),
    ],
)
def test_starts_multiply_a_pitch_and_part_a_lead(text, figure, unit, starts):
    assert read_pitch(text) == Pitch(Fraction(figure), unit, starts)


def test_a_lead_is_the_advance_of_a_turn_whatever_its_starts():
    assert read_pitch("1/2 in lead, 4 starts").lead == Length.of_inches("0.5") == read_pitch("1/2 in lead").lead


def test_starts_beside_a_text_part_the_lead_it_names_and_multiply_the_pitch():
    lead, pitch = "1/2 in lead", "1/2 in"
    assert pitch_with_starts(lead, read_pitch(lead), 4) == Pitch(Fraction(1, 8), IN, 4)
    assert pitch_with_starts(pitch, read_pitch(pitch), 4) == Pitch(Fraction(1, 2), IN, 4)
    told = "1/2 in lead, 4 starts"
    assert pitch_with_starts(told, read_pitch(told), 4) == read_pitch(told)


@cases(300)
@given(pitches(), st.integers(1, 99))
def test_a_lead_with_its_starts_has_that_lead(pitch, starts):
    single = Pitch(pitch.figure, pitch.unit)
    if pitch.unit in (MODULE, DP):
        return
    word = str(single).replace("tpi", "per inch")
    try:
        read = read_pitch(f"{word} lead, {starts} starts")
    except RefusalError as refusal:
        # Outside what a lathe cuts, some only when they are parted.
        assert "this is finer" in str(refusal) or "this is coarser" in str(refusal) or "above a million" in str(refusal)
        return
    assert (read.lead, read.starts) == (single.lead, starts)


@pytest.mark.parametrize(
    "text",
    [
        "20 threads", "20 per", "20 per furlong", "4 threads in 0 in", "0.8 pi", "pi", "pi/0 mm", "CP 20 tpi", "CP 3",
        "20 pitch", "pitch 4", "lead 4", "pitch 3 mm lead", "3 mm pitch lead", "module 1 lead", "0,8 pi mm",
        "4 threads in 1,5 in", "2 mm 0-start", "2 mm -2 starts", "circular 3 mm", "1/2 in lead, 4", "per inch",
        "20 to 1", "20 per 0 inch",
    ],
)  # fmt: skip
def test_half_of_the_words_is_refused(text):
    with pytest.raises(UnreadableFigureError):
        read_pitch(text)


def test_a_wheel_size_takes_the_points_of_its_abbreviation():
    assert read_wheel_module("20 d.p.") == read_wheel_module("20 DP")
