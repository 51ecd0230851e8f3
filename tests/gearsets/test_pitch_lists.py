"""The lists of pitches: every row read, named with its source, and no pitch listed twice."""

import csv
from pathlib import Path

import pytest

import gearsets.pitch_lists as room
from gearsets.pitch_lists import KINDS, SERIES_LETTERS, known_pitches, threads_with_diameter
from gearsets.thread_tables import load_series, series_names
from solver.quantities.pi_multiples import PiLength, lead_bounds_mm
from solver.quantities.written_pitches import read_pitch

FOLDER = Path(room.__file__).parent / "pitch_lists"
LISTS = sorted(FOLDER.glob("*.csv"))


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_a_list_names_its_source_and_every_row_can_be_read(path):
    lines = path.read_text(encoding="utf-8").splitlines()
    key = lines[0].removeprefix("# Source key: ")
    assert f"| {key} |" in (FOLDER.parent / "SOURCES.md").read_text(encoding="utf-8")
    rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    # An inch circular pitch may stand among racks and among worms.
    leads = [(read_pitch(row["pitch"]).lead, row["found_in"]) for row in rows]
    assert len(set(leads)) == len(leads) > 5
    assert {row["status"] for row in rows} <= {"read", "memory"}
    assert all(row["found_in"] for row in rows)


def test_every_list_is_looked_through():
    assert {path.stem for path in LISTS} == {*room.THREAD_LISTS, *room.RACK_LISTS}
    assert set(SERIES_LETTERS) == set(series_names())


def test_threads_and_racks_together_are_all():
    leads = {kind: {known.pitch for known in known_pitches(kind)} for kind in KINDS}
    assert leads["thread"] | leads["rack"] == leads["all"]
    assert not any(isinstance(lead, PiLength) for lead in leads["thread"])
    assert sum(isinstance(lead, PiLength) for lead in leads["rack"]) > 70


@pytest.mark.parametrize("kind", KINDS)
def test_no_two_known_pitches_have_one_length(kind):
    known = known_pitches(kind)
    assert len({lead_bounds_mm(each.pitch) for each in known}) == len(known)


def test_every_pitch_of_every_thread_table_is_known():
    leads = {known.pitch for known in known_pitches("all")}
    assert all(thread.pitch.pitch in leads for name in series_names() for thread in load_series(name))


def test_threads_are_looked_up_by_diameter_without_the_worms():
    assert not [thread for thread in threads_with_diameter() if thread.series == "module_worms"]
    assert {thread.series for thread in threads_with_diameter()} == set(series_names()) - {"module_worms"}
