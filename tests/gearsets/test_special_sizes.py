"""Pairs of diameter and pitch that a standard does not list: answered in its form, and said so."""

from __future__ import annotations

import pytest

from gearsets.designations import read_designation
from gearsets.special_sizes import OUTSIDE, outside_remark
from gearsets.thread_forms import drawn_thread, form_of
from gearsets.thread_tables import load_series
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length
from solver.quantities.written_pitches import read_pitch
from solver.refusals import AmbiguousRequestError


@pytest.mark.parametrize(
    ("text", "designation", "diameter", "pitch", "form"),
    [
        ("M8x0.5", "M8x0.5", "8 mm", "0.5 mm", "iso"),
        ("M6x0.5", "M6x0.5", "6 mm", "0.5 mm", "iso"),
        ("M39 x 0.75 - 6g", "M39x0.75", "39 mm", "0.75 mm", "iso"),
        ("M6.5x0.75", "M6.5x0.75", "6.5 mm", "0.75 mm", "iso"),
        ("M19x1", "M19x1", "19 mm", "1 mm", "iso"),
        ("5/8-27", "5/8-27 UNS", "5/8 in", "27 tpi", "unified"),
        ("5/8-27 2A", "5/8-27 UNS", "5/8 in", "27 tpi", "unified"),
        ("7/8-18 UNS", "7/8-18 UNS", "7/8 in", "18 tpi", "unified"),
        ("1 1/16-27 UN", "1 1/16-27 UNS", "1.0625 in", "27 tpi", "unified"),
        ("1-4 Acme", "Acme 1-4", "1 in", "4 tpi", "acme"),
        ("Acme 5/8-6", "Acme 5/8-6", "5/8 in", "6 tpi", "acme"),
    ],
)
def test_a_pair_outside_its_standard_is_answered_in_its_form(text, designation, diameter, pitch, form):
    thread = read_designation(text)
    assert (thread.designation, thread.status) == (designation, OUTSIDE)
    assert thread.diameter == read_length(diameter)
    assert thread.pitch == read_pitch(pitch)
    assert form_of(thread).key == form
    assert read_designation(thread.designation) == thread


def test_it_is_said_which_sizes_of_the_diameter_the_standard_has():
    assert outside_remark(read_designation("M6x0.5")) == (
        "M6x0.5 is not among the sizes of ISO 261 kept here; of its diameter are M6x1, M6x0.75"
    )
    assert outside_remark(read_designation("M19x1")).endswith("none is of its diameter")
    assert "ASME B1.5" in outside_remark(read_designation("Acme 1-4"))


@pytest.mark.parametrize("text", ["M6", "M68x6", "1/4-20", "Acme 1-5", "2 BA", "1 5/8-6"])
def test_nothing_is_said_of_a_size_of_the_standard(text):
    assert outside_remark(read_designation(text)) == ""


def test_the_limits_of_such_a_pair_are_by_the_formulas_and_say_so():
    drawn = drawn_thread(read_pitch("0.5 mm"), read_designation("M8x0.5"), major=None, form=None)
    for limits in drawn.limits():
        assert any("by the formulas" in note for note in limits.notes)


@pytest.mark.parametrize(
    ("text", "help_text"),
    [
        ("1/2-14", "Write one of: 1/2 NPT, G 1/2, R 1/2; or for a special size 1/2-14 UNS."),
        ("3/8-18", "Write one of: 3/8 NPT; or for a special size 3/8-18 UNS."),
        ("1/8-27", "Write one of: 1/8 NPT."),
        ("1/4-19", "Write one of: G 1/4, R 1/4."),
        ("3/8-26", "Write one of: 3/8-26 Brass, 3/8-26 BSC."),
    ],
)
def test_a_bare_pair_that_a_pipe_or_cycle_thread_has_is_asked_for(text, help_text):
    with pytest.raises(AmbiguousRequestError, match="without a series") as caught:
        read_designation(text)
    assert caught.value.help_text == help_text


@pytest.mark.parametrize("text", ["1/2-14 UNS", "3/8-18 UNS"])
def test_with_its_series_such_a_pair_is_a_special_size(text):
    assert read_designation(text).designation == text


# ISO 261, general plan: from memory, as the rows themselves; the pitches of a diameter as a mechanic would recite them.
@pytest.mark.from_memory("ISO 261, ISO general purpose metric screw threads, general plan, edition not seen")
@pytest.mark.parametrize(
    ("diameter", "pitches"),
    [(68, "6 4 3 2 1.5"), (72, "6 4 3 2 1.5"), (80, "6 4 3 2 1.5"), (90, "6 4 3 2"), (100, "6 4 3 2"), (160, "6 4 3")],
)
def test_the_large_metric_sizes_have_the_constant_pitches(diameter, pitches):
    rows = [row for row in load_series("metric") if row.diameter == Length.of_mm(diameter)]
    assert [row.pitch for row in rows] == [read_pitch(f"{each} mm") for each in pitches.split()]
    assert {row.status for row in rows} == {"memory"}


@pytest.mark.from_memory("ISO 2902, ISO metric trapezoidal screw threads, general plan, edition not seen")
@pytest.mark.parametrize(
    ("diameter", "pitches"), [(65, "4 10 16"), (80, "4 10 16"), (90, "4 12 18"), (100, "4 12 20"), (120, "6 14 22")]
)
def test_the_large_trapezoidal_sizes_have_a_fine_a_usual_and_a_coarse_pitch(diameter, pitches):
    rows = [row for row in load_series("iso_trapezoidal") if row.diameter == Length.of_mm(diameter)]
    assert [row.pitch for row in rows] == [read_pitch(f"{each} mm") for each in pitches.split()]
