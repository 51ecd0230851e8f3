"""What the folder ships can be read, and says where it comes from."""

import re
from pathlib import Path

import pytest

import gearsets
from gearsets.head_files import HEADS, head_toml, load_head, load_head_text
from gearsets.lathe_files import LATHES, lathe_toml, load_lathe, load_lathe_text
from gearsets.thread_tables import SERIES_ALIASES, SERIES_TITLES, load_series, series_names
from solver.quantities.lengths import Length
from solver.quantities.pitches import PitchUnit

ROOT = Path(gearsets.__file__).parent
FACTS = sorted([*ROOT.glob("*/*.toml"), *ROOT.glob("*/*.csv")], key=lambda path: path.as_posix())
SOURCES = set(re.findall(r"\[([A-Za-z0-9.-]+)\]", (ROOT / "SOURCES.md").read_text(encoding="utf-8")))
METRIC = {
    "iso_coarse", "iso_fine", "iso_miniature", "iso_trapezoidal", "ba", "thury",
    "loewenherz", "watch_plate", "instrument",
}  # fmt: skip


@pytest.mark.parametrize("path", FACTS, ids=lambda path: path.stem)
def test_every_shipped_file_names_source_keys_that_are_in_the_list_of_sources(path):
    head = "\n".join(line for line in path.read_text(encoding="utf-8").splitlines() if line.startswith("#"))
    keys = set(re.findall(r"\[([A-Za-z0-9.-]+)\]", head))
    assert "Source key:" in head
    assert keys
    assert keys <= SOURCES


@pytest.mark.parametrize("name", LATHES.shipped_names())
def test_every_shipped_lathe_loads_and_is_read_back_equal_from_what_is_written_of_it(name):
    lathe = load_lathe(LATHES.shipped_folder / f"{name}.toml")
    assert lathe.wheel_classes[0].stock
    assert load_lathe_text(lathe_toml(lathe), "copy") == lathe


@pytest.mark.parametrize("name", HEADS.shipped_names())
def test_every_shipped_head_loads_and_is_read_back_equal_from_what_is_written_of_it(name):
    head = load_head(HEADS.shipped_folder / f"{name}.toml")
    assert head.worm_ratio > 1 if head.has_worm else head.direct_circles
    assert load_head_text(head_toml(head), "copy") == head


def test_every_table_of_threads_has_a_title_and_every_title_a_table():
    assert set(SERIES_TITLES) == {path.stem for path in (ROOT / "thread_series").glob("*.csv")}


def test_every_alias_stands_for_series_that_exist_and_hides_none():
    assert {stem for stems in SERIES_ALIASES.values() for stem in stems} <= set(series_names())
    assert not set(SERIES_ALIASES) & set(series_names())


@pytest.mark.parametrize("name", series_names())
def test_every_series_loads_with_known_status_unique_designations_and_its_kind_of_pitch(name):
    threads = load_series(name)
    assert threads
    assert len({thread.designation for thread in threads}) == len(threads)
    assert {thread.status for thread in threads} <= {"read", "computed", "memory"}
    kind = PitchUnit.MILLIMETRE if name in METRIC else PitchUnit.THREADS_PER_INCH
    expected = PitchUnit.MODULE if name == "module_worms" else kind
    assert {thread.pitch.unit for thread in threads} == {expected}


@pytest.mark.parametrize("name", [name for name in series_names() if name != "module_worms"])
def test_every_thread_is_coarser_than_nothing_and_finer_than_its_own_diameter(name):
    for thread in load_series(name):
        lead = thread.pitch.lead
        assert isinstance(lead, Length)
        assert thread.diameter is not None
        assert Length.of_mm(0) < lead < thread.diameter
