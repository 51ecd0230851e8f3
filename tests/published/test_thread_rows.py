"""Keeps count: every row of figures gathered for threads, cutting and worms is a test, or is listed with a reason."""

from __future__ import annotations

import re
import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from gearsets.thread_tables import load_series
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.threads.basic_dimensions import acme_clearance, trapezoidal_clearance
from solver.threads.forms import FORMS
from solver.threads.over_wires import simple_over
from solver.threads.thread import Thread
from solver.threads.wire_choice import wire_range
from solver.worms.tooth_sizes import ToothSize, ToothSystem
from solver.worms.worm import make_worm
from tests.published.source_cases import marked, read_cases, read_rows
from tests.published.source_titles import written_source
from tests.published.test_threads import rounds_to

HERE = Path(__file__).parent
LEDGER = tomllib.loads((HERE / "thread_rows.toml").read_text(encoding="utf-8"))
CASES = read_cases("instrument_threads.toml", "thread_cutting.toml", "worms.toml")
ENTRIES = [
    pytest.param(entry, id=f"{part}: {name}")
    for part, table in LEDGER.items()
    for name, entry in [
        *((each["what"], each) for each in table["sections"]),
        *table.get("beside", {}).items(),
    ]
]
HOLDERS = ("csv", "case", "test", "reason")


def held_by_cases(text: str) -> int:
    """Count the figures of the cases named after their file: the entries of their lists, or one for a single case."""
    file, *numbers = text.split()
    of_file = read_cases(file)
    return sum(
        sum(len(each) for name, each in of_file[number].data.items() if isinstance(each, list) and name != "from") or 1
        for number in numbers
    )


@pytest.mark.parametrize("entry", ENTRIES)
def test_every_row_is_held_somewhere(entry: dict[str, Any]) -> None:
    (holder,) = (name for name in HOLDERS if name in entry)
    where = entry[holder]
    if holder == "csv":
        assert len(list(read_rows(where))) == entry["rows"]
        # Some test reads the file.
        assert any(f'"{where}"' in file.read_text(encoding="utf-8") for file in HERE.glob("test_*.py"))
    elif holder == "case":
        assert held_by_cases(where) >= entry["rows"] > 0
    elif holder == "test":
        file, name = where.split("::")
        assert re.search(rf"^def {name}\(", (HERE / file).read_text(encoding="utf-8"), re.MULTILINE)
    else:
        assert len(where.split()) >= 6


@pytest.mark.parametrize("part", LEDGER)
def test_the_rows_add_up_and_few_go_without_a_test(part: str) -> None:
    sections = LEDGER[part]["sections"]
    assert sum(each["rows"] for each in sections) == LEDGER[part]["rows"]
    without = sum(each["rows"] for each in sections if "reason" in each)
    assert without <= LEDGER[part]["rows"] / 50


def test_every_file_of_threads_wires_and_worms_is_in_the_ledger() -> None:
    listed = {entry.values[0]["csv"] for entry in ENTRIES if "csv" in entry.values[0]}
    assert listed == {file.name for kind in ("thread", "wires", "worm") for file in HERE.glob(f"{kind}_*.csv")}
    named = {number for entry in ENTRIES for number in entry.values[0].get("case", "").split()[1:]}
    assert named <= CASES.keys()


# Series of 4 to 32 threads per inch.
@pytest.mark.from_memory(
    "ASME B1.1, Unified inch screw threads (UNC, UNF, UNEF), edition not seen, constant-pitch series"
)
def test_the_constant_pitch_series_are_kept() -> None:
    kept = {1 / row.pitch.pitch.inches for row in load_series("un_constant")}
    # The series of 4 begins where the coarse one has 4 too, and is kept there alone.
    assert kept == {6, 8, 12, 16, 20, 28, 32}
    four = [row.diameter.inches for row in load_series("unc") if row.pitch.pitch.inches == Fraction(1, 4)]
    assert (min(four), max(four), len(four)) == (Fraction(5, 2), 4, 7)


# Depths over the pitch; the clearance is added.
@pytest.mark.parametrize(
    ("form", "share"),
    [
        pytest.param("unm", "0.6", marks=marked("read", "Machinery's Handbook, 31st edition, table 5")),
        pytest.param("acme", "0.5", marks=marked("read", written_source("jones", "depth of an Acme thread"))),
        pytest.param("stub-acme", "0.3", marks=marked("memory", written_source("b1_8", "depth"))),
        pytest.param("trapezoidal", "0.5", marks=marked("read", written_source("trapezoidal_pages", "formulas"))),
    ],
)
def test_depths_that_are_whole_parts_of_the_pitch(form: str, share: str) -> None:
    thread = Thread(FORMS[form], Length.of_mm(20), Length.of_mm(2))
    clear = {"acme": acme_clearance, "stub-acme": acme_clearance, "trapezoidal": trapezoidal_clearance}.get(form)
    plain = thread.basic().external.depth - (clear(thread.pitch) if clear else Length.of_mm(0))
    assert plain == thread.pitch * Fraction(share)


# 2.25 modules and 2.157/DP, over the pitch.
@pytest.mark.parametrize(
    ("size", "share"),
    [
        pytest.param(
            ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(3)),
            "0.716197244",
            marks=marked("worked here", written_source("worm_page", "whole depth 2.25 modules")),
        ),
        pytest.param(
            ToothSize.of_dp(Fraction(12)),
            "0.686594424",
            marks=marked("worked here", written_source("worm_rules", "whole depth 2.157 / DP")),
        ),
    ],
)
def test_depths_of_module_worms_over_the_pitch(size: ToothSize, share: str) -> None:
    worm = make_worm(size)
    assert rounds_to(worm.whole_depth.mm / (worm.module.mm * PI_LOW), share, 9)


# E = T + P, T the diameter under the wires, M - 2 w.
@pytest.mark.from_memory("National Physical Laboratory, Notes on Screw Gauges, edition not seen, P value")
@pytest.mark.parametrize(
    ("form", "of_pitch", "of_wire"),
    [("iso", "0.866025", "1"), ("whitworth", "0.960491", "1.165681"), ("thury", "1.136336", "1.48295")],
)
def test_the_p_value_under_the_wires(form: str, of_pitch: str, of_wire: str) -> None:
    thread = Thread(FORMS[form], Length.of_mm(20), Length.of_mm(2))
    wire = wire_range(thread).best
    under = simple_over(thread, wire, Length.of_mm(18)) - wire * 2
    wanted = thread.pitch * Fraction(of_pitch) - wire * Fraction(of_wire)
    assert abs((Length.of_mm(18) - under - wanted).mm) < Fraction(3, 10**6)


# A worm of module 1.5 on 24 mm: lead angle at root and pitch diameter, and 3 degrees more and less, by another hand.
@pytest.mark.own_arithmetic("arithmetic by another hand, nothing printed: the lead angle and 3 degrees more or less")
def test_the_sixth_side_relief() -> None:
    worm = make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm("1.5")), diameter=Length.of_mm(24))
    assert worm.root == Length.of_mm("20.25")
    assert rounds_to(worm.lead_angle_at_root.degrees, "4.236", 3)
    assert rounds_to(worm.lead_angle_at_root.degrees + 3, "7.24", 2)
    # Told of the pitch diameter, not of the crest: the source has 3.18 there.
    assert rounds_to(worm.lead_angle.degrees, "3.576", 3)
    crest = make_worm(worm.size, diameter=worm.outside).lead_angle.degrees
    assert rounds_to(crest, "3.18", 3)
    assert rounds_to(3 - crest, "-0.18", 2)
