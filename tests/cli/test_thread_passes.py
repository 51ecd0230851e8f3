"""The pass schedule as it is printed, for every series in both units: it adds up, and keeps its least cut."""

from __future__ import annotations

import json
import math
import re
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cli.thread_sheet import SheetWishes, ThreadSheet, thread_sheet
from cli.views.thread_figures import saying
from cli.views.thread_screen import cutting_rows, pass_table, passes_rule
from gearsets.designations import read_thread_or_pitch
from gearsets.thread_forms import SERIES_FORMS, drawn_thread
from gearsets.thread_tables import load_series
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.threads.cutting import CuttingWishes
from solver.trains.hand import Hand
from tests.cli.running import halfnut

#: Every thread of every series that has a form and a plain pitch.
EVERY = tuple(row for series in sorted(SERIES_FORMS) for row in load_series(series))
STEPS = {False: Length.of_mm("0.01"), True: Length.of_inches("0.0005")}
FIGURE = r"(\d+\.\d+)"


def test_every_series_with_a_form_is_among_them() -> None:
    assert {row.series for row in EVERY} == set(SERIES_FORMS)
    assert len(EVERY) > 700


def figures(sheet: ThreadSheet) -> tuple[Fraction, Fraction, list[list[Fraction]], list[str], str]:
    """Read back what is printed: depth, travel of the top slide, rows that cut, spring passes, and the rule below."""
    cut = sheet.cutting
    assert cut is not None
    facts = cutting_rows(sheet, cut, saying(in_inches=sheet.wishes.in_inches))
    plain = " ".join(f"{name} {fact}" for name, fact in facts)
    depth = re.search(rf"Depth {FIGURE} ", plain)
    assert depth
    travel = re.search(rf"its travel {FIGURE} ", plain)
    rows = [row[1:] for row in pass_table(sheet, cut)[1]]
    cuts = [[Fraction(cell) for cell in row] for row in rows if row[-1] != "spring"]
    springs = [row[0] for row in rows if row[-1] == "spring"]
    told = Fraction(depth[1])
    return told, Fraction(travel[1]) if travel else told, cuts, springs, passes_rule(sheet, cut)


@pytest.mark.parametrize(
    ("words", "options"),
    [(("M10",), {}), (("2 BA", "--inch"), {}), (("1/4-20 UNC",), {}), (("Tr 16x4", "--internal"), {"internal": True})],
)
def test_the_screen_prints_the_rows_and_the_rule_that_are_judged_below(words, options):
    in_inches = "--inch" in words or "UNC" in words[0]
    drawn = drawn_thread(*read_thread_or_pitch(words[0]), major=None, form=None)
    sheet = thread_sheet(drawn, wished(CuttingWishes(**options, step=STEPS[in_inches]), in_inches=in_inches))
    screen = halfnut("thread", *words, "--show", "cutting").stdout
    shown = [line.split()[:-2] for line in screen.splitlines() if line.endswith("[ ]")]
    assert shown == pass_table(sheet, sheet.cutting)[1]
    assert " ".join(passes_rule(sheet, sheet.cutting).split()) in " ".join(screen.split())
    depth, travel, *_ = figures(sheet)
    plain = " ".join(screen.split())
    for name, figure in (("Depth", depth), ("its travel", travel)):
        assert Fraction(re.search(rf"{name} {FIGURE} ", plain)[1]) == figure


def wished(cut: CuttingWishes, *, in_inches: bool) -> SheetWishes:
    return SheetWishes(cut, Hand.RIGHT, in_inches, ("cutting",))


@settings(max_examples=150, derandomize=True, database=None, deadline=None)
@given(
    st.sampled_from(EVERY),
    st.booleans(),
    st.booleans(),
    st.one_of(st.none(), st.fractions(min_value=Fraction(1, 1000), max_value=Fraction(1, 10), max_denominator=1000)),
    st.integers(0, 3),
)
def test_the_printed_passes_add_up_to_the_printed_depth_and_none_is_below_the_least_cut(
    row, in_inches, internal, least, springs
):
    drawn = drawn_thread(row.pitch, row, major=None, form=None)
    asked = None if least is None else Length.of_mm(least)
    wishes = CuttingWishes(internal=internal, least_cut=asked, springs=springs, step=STEPS[in_inches])
    try:
        sheet = thread_sheet(drawn, wished(wishes, in_inches=in_inches))
    except ImpossibleSettingError as refusal:
        assert asked is not None
        assert "least cut" in refusal.message.lower()
        return
    depth, travel, cut, again, rule = figures(sheet)
    readings = [row[0] for row in cut]
    assert readings[-1] == depth == sum(row[-1] for row in cut)
    assert all(row[1] == 2 * row[0] for row in cut)
    assert cut[-1][-2] == (travel if len(cut[-1]) == 4 else 2 * depth)
    assert len(again) == springs
    assert all(Fraction(each) == depth for each in again)
    stated = re.search(rf"Least cut {FIGURE} ", rule)
    assert stated
    adds = [after - before for before, after in pairwise((Fraction(0), *readings))]
    assert adds == [row[-1] for row in cut]
    # One pass is the whole depth, however shallow.
    assert min(adds) >= Fraction(stated[1]) or len(adds) == 1
    assert_none_is_heavier_than_the_one_before(adds, rule)
    if asked is not None:
        wanted = asked.inches if in_inches else asked.mm
        assert min(adds) >= wanted or len(adds) == 1
    if len(cut[-1]) == 4:
        slides = [after - before for before, after in pairwise((Fraction(0), *(row[2] for row in cut)))]
        assert min(slides) >= Fraction(stated[1]) or len(slides) == 1


def assert_none_is_heavier_than_the_one_before(adds: list[Fraction], rule: str) -> None:
    """But for the last, and that by less than a step, where giving a step away would leave it under the least cut."""
    assert all(after <= before for before, after in pairwise(adds[:-1]))
    if len(adds) > 1 and adds[-1] > adds[-2]:
        written, least = (re.search(pattern + FIGURE, rule) for pattern in ("whole steps of\\s", "Least cut "))
        assert written
        assert least
        step = Fraction(written[1])
        # What is left over a step is printed rounded, and may look like a whole one.
        assert adds[-1] - adds[-2] <= step
        assert adds[-1] - step <= Fraction(least[1])


@pytest.mark.parametrize(
    ("words", "adds"),
    [
        (("2 BA",), ["0.040", "0.035"]),
        (("1/4-20 UNC",), ["0.0015", "0.0013"]),
        (("M10",), ["0.040", "0.030"]),
        (("M10", "--passes", "6"), ["0.090", "0.080"]),
        (("M4", "--screw", "10tpi", "--marks", "100"), ["0.0508", "0.0484"]),
    ],
)
def test_the_finishing_pass_is_no_heavier_than_the_one_before(words, adds):
    screen = halfnut("thread", *words, "--show", "cutting").stdout
    cut = [line.split()[-3] for line in screen.splitlines() if line.endswith("[ ]") and "spring" not in line]
    assert cut[-2:] == adds
    assert sorted(cut, reverse=True) == cut


@pytest.mark.parametrize(
    ("words", "depth", "least"),
    [
        (("7/8 BSF",), "0.0582", "0.0010 in (0.025 mm)"),
        (("M10", "--inch"), "0.0362", "0.0010 in (0.025 mm)"),
        (("M10",), "0.920", "0.020 mm (0.0008 in)"),
        (("7/8 BSF", "--mm"), "1.478", "0.020 mm (0.0008 in)"),
    ],
)
def test_the_last_reading_is_the_depth_in_either_unit_and_the_least_cut_is_stated(words, depth, least):
    outcome = halfnut("thread", *words, "--show", "cutting")
    last = [line.split() for line in outcome.stdout.splitlines() if line.endswith("[ ]")][-3]
    assert last[1] == depth
    assert f"Least cut {least} on the radius (usual on light lathes, practice)" in " ".join(outcome.stdout.split())


def test_passes_asked_for_by_number_say_how_many_the_dial_cannot_tell_apart():
    screen = " ".join(halfnut("thread", "M10", "--passes", "200", "--show", "cutting").stdout.split())
    left_out = re.search(r"(\d+) of them are less than a step and left out", screen)
    assert left_out
    assert len(re.findall(r"\[ \]", screen)) == 200 - int(left_out[1]) + 2
    assert "left out" not in halfnut("thread", "M10", "--passes", "6", "--show", "cutting").stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--least-cut", "2mm"), "more than the whole depth"),
        (("--first-cut", "0.015mm"), "below the least cut"),
        (("--inch", "--least-cut", "0.02mm", "--first-cut", "0.021mm"), "whole steps"),
    ],
)
def test_cuts_that_contradict_the_depth_or_the_dial_are_refused(words, said):
    outcome = halfnut("thread", "M10", *words)
    assert outcome.returncode == 1
    assert said in " ".join(outcome.stderr.split())


# Limits of the pitch diameter: ISO 965-2 for M10-6g, ASME B1.1 for 1/4-20 UNC-2A; the basic one at the last pass.
@pytest.mark.parametrize(
    ("designation", "basic", "least", "most", "places"),
    [("M10", "9.026", "8.862", "8.994", 3), ("1/4-20 UNC", "0.2175", "0.2127", "0.2164", 4)],
)
def test_the_readings_past_the_last_pass_lie_in_the_class_by_either_slide(designation, basic, least, most, places):
    screen = halfnut("thread", designation, "--show", "cutting").stdout
    passes, then = screen.split("Early check")[0].split("THEN, for class")
    last = [line.split() for line in passes.splitlines() if line.endswith("[ ]")][-1]
    rows = {
        " ".join(cells[:-4]): [Fraction(each) for each in cells[-4:-1]]
        for cells in (line.split() for line in then.splitlines())
        if cells and cells[-1] == "________" and len(cells) > 4
    }
    assert list(rows) == ["from", "aim at", "no deeper"]
    unit = Fraction(1, 10**places)
    middle = (Fraction(least) + Fraction(most)) / 2
    for what, (cross, across, slide) in rows.items():
        assert across == 2 * cross
        by_slide = (slide - Fraction(last[3])) * Fraction(math.cos(math.radians(29.5)))
        for past in (cross - Fraction(last[1]), by_slide):
            found = Fraction(basic) - 2 * past
            wanted = {"from": Fraction(most), "aim at": middle, "no deeper": Fraction(least)}[what]
            # Depth and reading are rounded to a unit of the last figure, the diameter counts both twice.
            assert abs(found - wanted) <= 4 * unit


def test_a_class_that_begins_at_the_basic_size_or_has_no_end_leaves_out_what_cannot_be_set():
    for designation, what in (
        ("M10-6h", ["aim at", "no deeper"]),
        ("Acme 1/2-10", ["from", "aim at", "no deeper"]),
        ("Tr 16x4", []),
    ):
        told = json.loads(halfnut("thread", designation, "--show", "cutting", "--json").stdout)["cutting"]
        assert [each["what"] for each in told["to_class"]] == what
