"""Threads of instruments and trades, and constants of the forms; sources stand in the data file."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gearsets.thread_tables import load_series
from solver.quantities.exact_numbers import decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.quantities.written_lengths import read_length
from solver.threads.forms import FORMS
from solver.threads.thread import Thread
from solver.threads.tool_nose import crest_flat, nose_for
from solver.trains.lead_error import LeadError
from tests.published.source_cases import TAKEN_UP, of_kind, read_cases, rows_of_kind
from tests.published.test_threads import drawn, rounds_to

CASES = read_cases("instrument_threads.toml")


def test_every_case_is_taken_up():
    assert CASES.keys() <= TAKEN_UP
    assert len(CASES) == 13


@pytest.mark.parametrize("row", rows_of_kind(CASES, "pitch printed"))
def test_the_pitch_of_the_microscope_objective_is_the_printed_one_rounded_and_cut_off(row):
    pitch = drawn(row["thread"]).thread.pitch.mm
    assert decimal_text(pitch, 4) == row["printed"]
    assert Fraction(int(pitch * 10**4), 10**4) == Fraction(row["cut_off"])


@pytest.mark.parametrize("row", rows_of_kind(CASES, "instrument"))
def test_an_instrument_thread_has_its_diameter_pitch_and_form(row):
    found = drawn(row["thread"])
    assert (found.thread.major, found.thread.pitch) == (read_length(row["major"]), read_length(row["pitch"]))
    assert found.thread.form.key == row["form"]
    assert "major_mm" not in row or found.thread.major == Length.of_mm(row["major_mm"])
    # Told by the program in the unit of its series.
    assert found.is_inch == ("in" in row["major"])


@pytest.mark.parametrize("case", of_kind(CASES, "cycle"))
def test_cycle_threads_start_at_a_quarter_inch_and_have_26_or_20_to_the_inch(case):
    rows = load_series("cycle")
    assert {1 / row.pitch.pitch.inches for row in rows} == set(case["per_inch"])
    assert min(row.diameter for row in rows) == Length.of_inches("1/4")
    assert {drawn(row.designation).thread.form.half_angle.degrees for row in rows} == {30}


@pytest.mark.parametrize("row", rows_of_kind(CASES, "loewenherz"))
def test_a_loewenherz_thread_has_its_pitch(row):
    thread = drawn(f"Loewenherz {row['major']}").thread
    assert (thread.major, thread.pitch) == (Length.of_mm(row["major"]), Length.of_mm(row["pitch"]))
    assert thread.form.key == "loewenherz"


def test_no_loewenherz_thread_is_kept_that_the_list_does_not_hold():
    assert len(load_series("loewenherz")) == len(CASES["INS-04"]["rows"]) == 18


@pytest.mark.parametrize("row", rows_of_kind(CASES, "below number 0"))
def test_a_size_below_number_0_has_its_figures_and_no_class(row):
    found = drawn(row["thread"])
    assert found.thread.major == Length.of_inches(row["major"])
    assert 1 / found.thread.pitch.inches == row["tpi"]
    assert found.limits() == (None, None)


@pytest.mark.parametrize("case", of_kind(CASES, "number rule"))
def test_a_number_size_grows_by_thirteen_thou_a_number(case):
    numbered = {}
    for row in (*load_series("unc"), *load_series("unf"), *load_series("unef")):
        if row.designation.startswith("No."):
            numbered[int(row.designation.removeprefix("No.").partition("-")[0])] = row.diameter
    assert sorted(numbered) == case["numbers"]
    assert all(size == Length.of_mm("1.524") + Length.of_mm("0.3302") * number for number, size in numbered.items())


@pytest.mark.parametrize("case", of_kind(CASES, "selection"))
def test_the_selected_sizes_are_all_kept_coarse_and_fine(case):
    coarse = {row.diameter for row in load_series("iso_coarse")}
    fine = {(row.diameter, row.pitch.pitch) for row in load_series("iso_fine")}
    assert {Length.of_mm(each) for each in case["coarse"]} <= coarse
    assert {tuple(map(Length.of_mm, each.split("x"))) for each in case["fine"]} <= fine
    assert (len(case["coarse"]), len(case["fine"])) == (34, 26)


@pytest.mark.parametrize("case", of_kind(CASES, "brass"))
def test_brass_threads_have_26_to_the_inch_at_every_diameter(case):
    rows = load_series("brass")
    assert {1 / row.pitch.pitch.inches for row in rows} == {case["per_inch"]}
    assert len(rows) == case["count"]
    assert {drawn(row.designation).thread.form.key for row in rows} == {"whitworth"}


@pytest.mark.parametrize("row", rows_of_kind(CASES, "form constant"))
def test_a_constant_of_a_form_over_the_pitch(row):
    form = FORMS[row["form"]]
    # Pitch 10, so that no clearance or rounded depth shows beside it.
    thread = Thread(form, Length.of_mm(100), Length.of_mm(10))
    screw, nut = thread.basic()[:2]
    radius = nose_for(thread, internal=False)[1]
    found = {
        "height": lambda: form.sharp_height,
        "depth": lambda: screw.depth / thread.pitch,
        "pitch drop": lambda: (screw.major - screw.pitch) / thread.pitch,
        "screw drop": lambda: (screw.major - screw.minor) / thread.pitch,
        "nut drop": lambda: (nut.major - nut.minor) / thread.pitch,
        "radius": lambda: radius / thread.pitch,
        "shortening": lambda: (form.sharp_height - screw.depth / thread.pitch) / 2,
        "crest": lambda: crest_flat(thread, screw) / thread.pitch,
    }[row["what"]]()
    assert rounds_to(found, row["value"], len(row["value"].partition(".")[2]))


@pytest.mark.parametrize("case", of_kind(CASES, "worm thread"))
def test_tip_and_crest_of_the_29_degree_worm_thread(case):
    tangent, addendum = FORMS["acme"].tangent, 1 / PI_LOW
    tip = Fraction(1, 2) - 2 * (Fraction(case["depth"]) - addendum) * tangent
    crest = Fraction(1, 2) - 2 * addendum * tangent
    for value, name, printed in ((tip, "tip", "printed_tip"), (crest, "crest", "printed_crest")):
        assert rounds_to(value, case[name], 9)
        assert rounds_to(value, case[printed], len(case[printed]) - 2)
    assert rounds_to(addendum, case["addendum"], 9)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "lead error"))
def test_a_lead_error_over_a_length_counts_so_much_on_the_pitch_diameter(row):
    over = LeadError(Fraction(row["ppm"]) / 1_000_000, Fraction(0)).over(read_length(row["over"]))
    worth = over * FORMS[row["form"]].cotangent
    for length, printed in ((over, row["error"]), (worth, row["worth"])):
        unit = Fraction(127, 5) if "in" in printed else Fraction(1)
        assert abs((length - read_length(printed)).mm) <= unit * Fraction(1, 2 * 10**6)
