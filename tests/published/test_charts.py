"""Printed rows of wheels read as charts: each gives the constant of the lathe it stands for.

The rows and their sources are those of change_gears.toml. A few charts are put together here, with their
sources beside them.
"""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction

import pytest

from gearsets.chart_files import load_chart_text
from solver.quantities.lengths import Length
from solver.quantities.written_pitches import read_pitch
from solver.trains.chart_audit import RowVerdict, audit_chart
from solver.trains.chart_constant import ChartRow
from solver.trains.plate_row import constant_needed
from tests.published.source_cases import read_cases

CASES = read_cases("change_gears.toml")
WITHIN = Fraction(1, 1000)


def printed_rows():
    """Yield case, screw, thread and train of every printed row of plain wheels."""
    for case in CASES.values():
        for row in case.data.get("rows", ()):
            if case.kind == "trains" and "ppm" not in row:
                yield case, row["screw"], row["thread"], row["train"]
            if case.kind == "multiples":
                for train in row["trains"]:
                    yield case, row["screw"], row["thread"], train


def charts_of_one_case():
    """Return every case of two rows or more for one screw, as a chart."""
    charts = defaultdict(list)
    for case, screw, thread, train in printed_rows():
        charts[case.number, screw].append((thread, train))
    return [
        pytest.param(screw, rows, id=f"{number}-{screw}", marks=CASES[number].mark())
        for (number, screw), rows in charts.items()
        if len(rows) > 1
    ]


def charts_of_one_screw():
    """Return the rows of all cases for one screw, as a chart: no source prints them together."""
    charts = defaultdict(list)
    for _, screw, thread, train in printed_rows():
        charts[screw].append((thread, train))
    return {screw: rows for screw, rows in charts.items() if len(rows) > 3}


def chart_text(rows):
    return "thread;train\n" + "".join(f"{thread};{train}\n" for thread, train in rows)


@pytest.mark.parametrize(("screw", "rows"), charts_of_one_case())
def test_the_rows_of_a_case_give_the_screw_they_are_printed_for(screw, rows):
    (sheet,) = audit_chart(load_chart_text(chart_text(rows)), WITHIN)
    assert sheet.inference.first.constant == read_pitch(screw).lead
    assert len(sheet.inference.first.exact) == len(rows)
    assert sheet.all_true


@pytest.mark.own_arithmetic(
    "F. D. Jones, Turning and Boring, 1914, fifth printing 1919, ch. IV, pp. 136-137 and 177, diagram D"
)
def test_two_rows_of_one_book_as_a_plate_of_three_columns_give_the_constant_four():
    # CG-003 (7 per inch, 48 and 84) and CG-004 (19 per inch, 20 and 95). The wheels are printed; the constant is worked
    # back from them.
    rows = load_chart_text("Threads per inch,Stud gear,Leadscrew gear\n7,48,84\n19,20,95\n")
    (sheet,) = audit_chart(rows, WITHIN)
    assert sheet.inference.first.constant == Length.of_inches("1/4")
    assert sheet.all_true


# Printed rows in an arrangement of our own: no check against the world.
@pytest.mark.parametrize("screw", charts_of_one_screw())
def test_a_chart_of_one_screw_with_a_few_rows_of_another_shows_both(screw):
    rows = charts_of_one_screw()[screw]
    other, foreign = next((each, found) for each, found in charts_of_one_screw().items() if each != screw)
    foreign = foreign[: (len(rows) - 1) // 2]
    (sheet,) = audit_chart(load_chart_text(chart_text([*rows, *foreign])), WITHIN)
    inference = sheet.inference
    assert inference.is_settled
    assert inference.first.constant == read_pitch(screw).lead
    assert {row.line for row in inference.first.rows} == set(range(2, 2 + len(rows)))
    assert inference.others[0].constant == read_pitch(other).lead
    assert [row.line for row in inference.others[0].rows] == [*range(2 + len(rows), 2 + len(rows) + len(foreign))]


@pytest.mark.own_arithmetic("A lathe manual's chart with one set of wheels for two threads, not seen")
def test_one_set_of_wheels_for_two_threads_is_possible_only_on_two_leadscrews():
    # A lathe manual whose chart shows 40-idler-30 as both 12 tpi and 2.0 mm (the manual was not seen);
    # the two constants and the 5.8 per cent are arithmetic on it.
    rows = load_chart_text("thread,train\n12 tpi,40-idler-30\n2.0 mm,40-idler-30\n")
    (sheet,) = audit_chart(rows, WITHIN)
    assert [row.line for row in sheet.contradictions[0].rows] == [2, 3]
    assert sheet.contradictions[0].same_wheels
    assert not sheet.inference.is_settled
    assert {vote.constant for vote in (sheet.inference.first, *sheet.inference.others)} == {
        Length.of_inches("1/16"),
        Length.of_mm("1.5"),
    }
    needs = [constant_needed(row.lead, row.train.ratio).mm for row in rows]
    assert round((needs[0] / needs[1] - 1) * 1000) == 58


@pytest.mark.own_arithmetic("College exam question on change gears, 4 mm leadscrew, n.d., a posted answer")
def test_a_worked_answer_with_its_train_upside_down_is_told_as_such():
    # CG-034: a posted answer to a college question has 24/5 where 5/24 is right. The ratios are the source's; the
    # wheels, and the rows of the same leadscrew beside it (CG-033, 4 mm), make it a chart.
    beside = [(row["thread"], row["train"]) for row in CASES["CG-033"]["rows"]]
    screw = read_pitch("4 mm").lead
    (upside_down,) = load_chart_text("thread,train\n1 mm,120-25\n")
    assert upside_down.train.ratio == Fraction(24, 5)
    wanted = ChartRow(40, "as asked", screw * Fraction(5, 24), upside_down.train)
    (sheet,) = audit_chart([*load_chart_text(chart_text(beside)), wanted], WITHIN)
    assert sheet.inference.first.constant == screw
    assert [finding.row.line for finding in sheet.findings if not finding.is_true] == [40]
    assert sheet.findings[-1].verdict is RowVerdict.INVERTED


@pytest.mark.from_memory("general knowledge: tables of substitutes for the 127 wheel")
def test_stand_ins_for_the_translating_pair_are_near_rows_of_the_inch_screw():
    # Metric pitches by 63/80 on 8 per inch, +125 ppm each (CG-029, tables of substitutes); inch rows as in CG-038.
    text = "thread,train\n1 mm,32-80-63-80\n1.25 mm,40-80-63-80\n2 mm,64-80-63-80\n13 tpi,40-65\n14 tpi,40-70\n"
    (sheet,) = audit_chart(load_chart_text(text), WITHIN)
    assert sheet.judged_by == Length.of_inches("1/8")
    assert [finding.error.ppm for finding in sheet.findings] == [125, 125, 125, 0, 0]
    assert sheet.all_true
    (strict,) = audit_chart(load_chart_text(text), Fraction(1, 10_000))
    assert strict.inference.first.constant == Length(Fraction(200, 63))
    assert strict.inference.others[0].constant == Length.of_inches("1/8")
