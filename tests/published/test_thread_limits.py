"""Limits of the common classes against printed limits; sources stand over each check."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.lengths import Length
from solver.quantities.powers import power, whole_root
from solver.threads.forms import FORMS
from solver.threads.inch_tolerance import unified_limits
from solver.threads.limits import ThreadClass, to_places_inch
from solver.threads.metric_tolerance import DEPARTURES, R40, RANGES, metric_limits, preferred_number
from solver.threads.thread import Thread
from tests.published.source_cases import marked, read_rows
from tests.published.source_titles import written_source
from tests.published.test_threads import drawn, rounds_to

# Pitch diameters of 162 ISO threads by the library; from 11 mm up printed to 0.01 mm. Rows it cannot have right, with
# what the formulas of ISO 965-1 give: M1.4x0.3 repeats a row 0.07 mm larger; M33x3.5 prints 30.70 and 30.48, M52x5 the
# least 48.45, M5.5x0.5 the least as of the next range of diameters.
MISPRINTED = {
    "M1.4x0.3": ("1.187", "1.131"),
    "M33x3.5": ("30.674", "30.462"),
    "M52x5": ("48.681", "48.431"),
    "M5.5x0.5": ("5.155", "5.080"),
}
ROWS = [pytest.param(row, id=row["designation"]) for row in read_rows("thread_iso_metric.csv")]


@pytest.mark.published("A public library of thread limits, n.d., class 6g")
@pytest.mark.parametrize("row", ROWS)
def test_the_pitch_diameter_of_class_6g_has_the_printed_limits(row):
    thread = drawn(row["designation"]).thread
    least, most = metric_limits(thread, ThreadClass.METRIC_SCREW).pitch
    assert least is not None
    assert most is not None
    places = 3 if thread.major.mm < 11 else 2
    # A limit that ends in 5 was rounded either way.
    agrees = [
        rounds_to(length.mm, printed, places)
        for length, printed in ((most, row["printed_d2_max"]), (least, row["printed_d2_min"]))
    ]
    misprint = MISPRINTED.get(row["designation"])
    assert all(agrees) == (misprint is None)
    if misprint:
        assert (most, least) == tuple(map(Length.of_mm, misprint))


# The core drill lies between the limits of class 6H of the minor diameter, of 5H or 4H where the pitch has no grade 6.
@pytest.mark.published("Public thread tables of general CAD systems and libraries, n.d., core drills of ISO 2306")
@pytest.mark.parametrize("row", [row for row in ROWS if row.values[0]["drill"]])
def test_the_core_drill_lies_within_the_usual_class(row):
    minor = drawn(row["designation"]).limits()[1].minor
    assert minor.least is not None
    assert minor.most is not None
    assert minor.least.mm <= Fraction(row["drill"]) <= minor.most.mm


# Deviation g, Td, Td2, TD2, TD1 of grade 6. [micrometres]
@pytest.mark.from_memory("ISO 965-1, ISO general purpose metric screw threads, tolerances, edition not seen, grade 6")
@pytest.mark.parametrize(
    ("designation", "deviation", "major", "screw", "nut", "minor"),
    [
        ("M2x0.4", 19, 95, 67, 90, 112),
        ("M3x0.5", 20, 106, 75, 100, 140),
        ("M4x0.7", 22, 140, 90, 118, 180),
        ("M5x0.8", 24, 150, 95, 125, 200),
        ("M6x1", 26, 180, 112, 150, 236),
        ("M8x1.25", 28, 212, 118, 160, 265),
        ("M10x1.5", 32, 236, 132, 180, 300),
        ("M12x1.75", 34, 265, 150, 200, 335),
        ("M16x2", 38, 280, 160, 212, 375),
        ("M20x2.5", 42, 335, 170, 224, 450),
        ("M24x3", 48, 375, 200, 265, 500),
        ("M30x3.5", 53, 425, 212, 280, 560),
        ("M36x4", 60, 475, 224, 300, 600),
        ("M42x4.5", 63, 500, 236, 315, 670),
        ("M48x5", 71, 530, 250, 335, 710),
        ("M56x5.5", 75, 560, 265, 355, 750),
        ("M64x6", 80, 600, 280, 375, 800),
    ],
)
def test_the_tolerances_of_grade_6_are_those_of_the_tables(designation, deviation, major, screw, nut, minor):
    thread = drawn(designation).thread
    outer, inner = metric_limits(thread, ThreadClass.METRIC_SCREW), metric_limits(thread, ThreadClass.METRIC_NUT)
    found = [(band.most - band.least).mm * 1000 for band in (outer.major, outer.pitch, inner.pitch, inner.minor)]
    assert found == [major, screw, nut, minor]
    assert outer.major.most == thread.major - Length.of_mm(Fraction(deviation, 1000))


# Above 180 mm and at the coarsest pitch: deviation g, Td2, TD2 of grade 6. [micrometres]
@pytest.mark.from_memory("ISO 965-1, ISO general purpose metric screw threads, tolerances, edition not seen, grade 6")
@pytest.mark.parametrize(
    ("major", "pitch", "deviation", "screw", "nut"),
    [
        ("200", "3", 48, 250, 335),
        ("200", "4", 60, 280, 375),
        ("200", "6", 80, 315, 425),
        ("200", "8", 100, 355, 475),
        ("150", "3", 48, 224, 300),
        ("150", "4", 60, 250, 335),
        ("150", "8", 100, 335, 450),
    ],
)
def test_the_tolerances_of_grade_6_on_large_threads_are_those_of_the_tables(major, pitch, deviation, screw, nut):
    thread = Thread(FORMS["iso"], Length.of_mm(major), Length.of_mm(pitch))
    outer, inner = (metric_limits(thread, ThreadClass(each)) for each in ("6g", "6G"))
    found = [(band.most - band.least).mm * 1000 for band in (outer.pitch, inner.pitch)]
    assert found == [screw, nut]
    assert thread.major - outer.major.most == Length.of_mm(Fraction(deviation, 1000))
    basic = metric_limits(thread, ThreadClass("6H")).pitch.least
    assert inner.pitch.least - basic == Length.of_mm(Fraction(deviation, 1000))


# Eleven sizes, every figure of each. The minor diameter of the screw is that of the flat root, the basic one of the nut
# less the allowance. [in]
@pytest.mark.published("A public library of limits that copies ASME B1.1-2019 and B1.13M-2005, n.d., 2A and 2B")
@pytest.mark.parametrize(
    "row", [pytest.param(row, id=row["designation"]) for row in read_rows("thread_unified_limits.csv")]
)
def test_unified_limits_are_those_of_the_2019_edition(row):
    found = drawn(row["designation"])
    screw, nut = found.limits()
    ends = {
        "major_max": screw.major.most,
        "major_min": screw.major.least,
        "pitch_max": screw.pitch.most,
        "pitch_min": screw.pitch.least,
        "nut_minor_min": nut.minor.least,
        "nut_minor_max": nut.minor.most,
        "nut_pitch_min": nut.pitch.least,
        "nut_pitch_max": nut.pitch.most,
    }
    assert {name: end.inches for name, end in ends.items()} == {name: Fraction(row[name]) for name in ends}
    allowance = found.thread.major - screw.major.most
    assert to_places_inch(found.thread.basic().internal.minor) - allowance == Length.of_inches(row["flat_minor_max"])
    assert screw.minor.most == to_places_inch(found.thread.basic().external.minor - allowance)


# Older editions as remembered: 2A major and pitch, 2B minor and pitch, each greatest
# then least. Two figures differ from the 2019 edition above: 1-8 least pitch (0.9101 now), No.10-24 greatest minor
# of the nut (0.155 now). [in]
LATER = {("1-8 UNC", "0.9100"): "0.9101", ("No.10-24 UNC", "0.156"): "0.155"}


@pytest.mark.from_memory("ASME B1.1, Unified inch screw threads (UNC, UNF, UNEF), edition not seen, 2A and 2B")
@pytest.mark.parametrize(
    ("designation", "screw_major", "screw_pitch", "nut_minor", "nut_pitch"),
    [
        ("No.4-40 UNC", "0.1112 0.1061", "0.0950 0.0925", "0.0939 0.0849", "0.0991 0.0958"),
        ("No.6-32 UNC", "0.1372 0.1312", "0.1169 0.1141", "0.114 0.104", "0.1214 0.1177"),
        ("No.8-32 UNC", "0.1631 0.1571", "0.1428 0.1399", "0.139 0.130", "0.1475 0.1437"),
        ("No.10-24 UNC", "0.1890 0.1818", "0.1619 0.1586", "0.156 0.145", "0.1672 0.1629"),
        ("No.10-32 UNF", "0.1891 0.1831", "0.1688 0.1658", "0.164 0.156", "0.1736 0.1697"),
        ("1/4-20 UNC", "0.2489 0.2408", "0.2164 0.2127", "0.207 0.196", "0.2224 0.2175"),
        ("1/4-28 UNF", "0.2490 0.2425", "0.2258 0.2225", "0.220 0.211", "0.2311 0.2268"),
        ("5/16-18 UNC", "0.3113 0.3026", "0.2752 0.2712", "0.265 0.252", "0.2817 0.2764"),
        ("3/8-16 UNC", "0.3737 0.3643", "0.3331 0.3287", "0.321 0.307", "0.3401 0.3344"),
        ("7/16-14 UNC", "0.4361 0.4258", "0.3897 0.3850", "0.376 0.360", "0.3972 0.3911"),
        ("1/2-13 UNC", "0.4985 0.4876", "0.4485 0.4435", "0.434 0.417", "0.4565 0.4500"),
        ("5/8-11 UNC", "0.6234 0.6113", "0.5644 0.5589", "0.546 0.527", "0.5732 0.5660"),
        ("3/4-10 UNC", "0.7482 0.7353", "0.6832 0.6773", "0.663 0.642", "0.6927 0.6850"),
        ("7/8-9 UNC", "0.8731 0.8592", "0.8009 0.7946", "0.778 0.755", "0.8110 0.8028"),
        ("1-8 UNC", "0.9980 0.9830", "0.9168 0.9100", "0.890 0.865", "0.9276 0.9188"),
        ("1 1/4-12 UNF", "1.2482 1.2368", "1.1941 1.1879", "1.178 1.160", "1.2039 1.1959"),
        ("2-4.5 UNC", "1.9971 1.9751", "1.8528 1.8433", "1.795 1.759", "1.8681 1.8557"),
    ],
)
def test_unified_limits_are_those_of_the_tables(designation, screw_major, screw_pitch, nut_minor, nut_pitch):
    screw, nut = drawn(designation).limits()
    bands = (screw.major, screw.pitch, nut.minor, nut.pitch)
    for band, texts in zip(bands, (screw_major, screw_pitch, nut_minor, nut_pitch), strict=True):
        most, least = (Fraction(LATER.get((designation, text), text)) for text in texts.split())
        assert (band.most.inches, band.least.inches) == (most, least)


# ASME B1.13M-2005, four ISO threads told in inches to five decimals: converted from whole micrometres. Three of the 36
# differ: 0.42023 is a misprint for 0.42043 (10.679 mm, which its own greatest and the tolerance of 0.150 mm give); two
# flat roots stand one micrometre under the basic minor diameter less the deviation, by which the other two stand. [in]
MISPRINTED_INCH = {
    ("M12x1.75", "pitch_min"): "0.42043",
    ("M12x1.75", "flat_minor_max"): "0.39654",
    ("M20x2.5", "flat_minor_max"): "0.67921",
}


@pytest.mark.published("A public library of limits that copies ASME B1.1-2019 and B1.13M-2005, n.d., 6g and 6H")
@pytest.mark.parametrize(
    "row", [pytest.param(row, id=row["designation"]) for row in read_rows("thread_metric_limits_inch.csv")]
)
def test_metric_limits_told_in_inches_are_the_printed_ones(row):
    screw, nut = drawn(row["designation"]).limits()
    ends = {
        "major_max": screw.major.most,
        "major_min": screw.major.least,
        "pitch_max": screw.pitch.most,
        "pitch_min": screw.pitch.least,
        "flat_minor_max": screw.minor.most,
        "nut_minor_min": nut.minor.least,
        "nut_minor_max": nut.minor.most,
        "nut_pitch_min": nut.pitch.least,
        "nut_pitch_max": nut.pitch.most,
    }
    for name, end in ends.items():
        meant = MISPRINTED_INCH.get((row["designation"], name))
        assert rounds_to(end.inches, row[name], 5) == (meant is None), name
        assert meant is None or rounds_to(end.inches, meant, 5)


@pytest.mark.parametrize(
    ("designation", "tolerance"),
    [
        pytest.param("M10", Length.of_mm("0.132"), marks=marked("read", written_source("library", "6g"))),
        pytest.param(
            "1/4-20 UNC", Length.of_inches("0.0037"), marks=marked("read", written_source("library_asme", "2A"))
        ),
    ],
)
def test_the_pitch_tolerance_of_two_common_screws(designation, tolerance):
    screw, _ = drawn(designation).limits()
    assert screw.pitch.most - screw.pitch.least == tolerance


def test_every_departure_is_one_from_the_rule_and_not_an_idle_row():
    """A row of departures that the nearest preferred number gives anyway would be dead."""
    assert len(DEPARTURES) == 23
    for (what, pitch, *low), printed in DEPARTURES.items():
        value = {
            "e": lambda p, _: 50 + 11 * p,
            "f": lambda p, _: 30 + 11 * p,
            "g": lambda p, _: 15 + 11 * p,
            "pitch": lambda p, low: (
                90 * power(p, Fraction(2, 5)) * power(low[0] * dict(RANGES)[low[0]], Fraction(1, 20))
            ),
            "major": lambda p, _: 180 * power(p, Fraction(2, 3)) - Fraction("3.15") / power(p, Fraction(1, 2)),
            # Eight steps above grade 6.
            "major 8": lambda p, _: preferred_number(180 * power(p, Fraction(2, 3)) - Fraction("1.1"), 8),
            "minor": lambda p, _: (
                433 * p - 190 * power(p, Fraction(61, 50)) if p <= Fraction("0.8") else 230 * power(p, Fraction(7, 10))
            ),
        }[what](pitch, low)
        assert round(preferred_number(value)) != printed


# A series R 40 steps by the fortieth root of ten, and its numbers are rounded to within about one per cent.
@pytest.mark.from_memory("ISO 3, Preferred numbers, edition not seen, R 40")
def test_the_preferred_numbers_step_by_the_fortieth_root_of_ten():
    for step, number in enumerate(R40):
        assert abs(number / (100 * power(10, Fraction(step, 40))) - 1) < Fraction(13, 1000)


def test_limits_outside_the_tables_of_a_standard_are_not_made_up():
    assert drawn("M1x0.2").limits()[0] is not None
    tiny = Thread(FORMS["iso"], Length.of_mm("0.9"), Length.of_mm("0.2"))
    with pytest.raises(ValueError, match="outside"):
        metric_limits(tiny, ThreadClass.METRIC_SCREW)
    assert drawn("2 BA").limits() == (None, None)


@pytest.mark.parametrize("name", ["6g", "6h", "6H", "6G", "4h6h", "5H", "2A", "2B", "1A", "3B", "2G"])
def test_a_class_of_another_standard_is_not_taken(name):
    metric = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
    inch = Thread(FORMS["unified"], Length.of_inches(1), Length.of_inches("1/8"))
    of_class = ThreadClass(name)
    if not of_class.is_unified:
        with pytest.raises(ValueError, match="not a class of unified"):
            unified_limits(inch, of_class, inch.major)
    if not of_class.is_metric:
        with pytest.raises(ValueError, match="not a class of metric"):
            metric_limits(metric, of_class)


@pytest.mark.parametrize("name", ["6z", "6", "g6", "6g6h", "6gG", "6A", "4A", "3G2", "", "2a"])
def test_what_is_no_class_is_refused_by_the_type(name):
    if name == "2a":
        assert ThreadClass.read(name) == ThreadClass("2A")
    else:
        assert ThreadClass.read(name) is None
    with pytest.raises(ValueError, match="not worked out"):
        ThreadClass(name)


@pytest.mark.parametrize("of_class", ["6g", "6h", "6H", "6G"])
def test_least_is_below_most_and_a_screw_of_position_g_lies_below_one_of_position_h(of_class):
    thread = drawn("M12").thread
    for band in metric_limits(thread, ThreadClass(of_class))[1:4]:
        assert band.least is None or band.most is None or band.least < band.most
    g, h = (metric_limits(thread, ThreadClass(each)) for each in ("6g", "6h"))
    assert h.pitch.most - g.pitch.most == Length.of_mm("0.034") == h.major.most - g.major.most
    low, high = (metric_limits(thread, ThreadClass(each)) for each in ("6H", "6G"))
    assert high.minor.least - low.minor.least == Length.of_mm("0.034")


# Limits of class 2G as the handbooks print them from ASME B1.5: least and most pitch diameter of the screw, most pitch
# diameter of the nut. [in]
ACME_MEMORY = pytest.mark.from_memory("ASME B1.5, Acme screw threads, edition not seen, limits of class 2G")


@ACME_MEMORY
@pytest.mark.parametrize(
    ("designation", "least", "most", "nut_most"),
    [
        ("Acme 1/4-16", "0.2043", "0.2148", "0.2293"),
        ("Acme 3/8-12", "0.3161", "0.3284", "0.3456"),
        ("Acme 1/2-10", "0.4306", "0.4443", "0.4637"),
        ("Acme 5/8-8", "0.5408", "0.5562", "0.5779"),
        ("Acme 3/4-6", "0.6424", "0.6598", "0.6841"),
        ("Acme 7/8-6", "0.7663", "0.7842", "0.8096"),
        ("Acme 1-5", "0.8726", "0.8920", "0.9194"),
        ("Acme 1 1/2-4", "1.3429", "1.3652", "1.3973"),
        ("Acme 2-4", "1.8402", "1.8637", "1.8985"),
    ],
)
def test_an_acme_thread_has_the_pitch_diameters_of_class_2g(designation, least, most, nut_most):
    screw, nut = drawn(designation).limits()
    assert [end.inches for end in screw.pitch] == [Fraction(least), Fraction(most)]
    assert nut.pitch.most.inches == Fraction(nut_most)
    assert nut.pitch.least == to_places_inch(drawn(designation).thread.basic().internal.pitch)


@ACME_MEMORY
@pytest.mark.parametrize(
    ("designation", "screw_major", "screw_minor", "nut_minor", "nut_major"),
    [
        ("Acme 1/4-16", "0.2450 0.2500", "0.1618 0.1775", "0.1875 0.1925", "0.2600 0.2700"),
        ("Acme 1/2-10", "0.4950 0.5000", "0.3594 0.3800", "0.4000 0.4050", "0.5200 0.5400"),
        ("Acme 1-5", "0.9900 1.0000", "0.7509 0.7800", "0.8000 0.8100", "1.0200 1.0400"),
    ],
)
def test_an_acme_thread_has_the_crests_and_roots_of_class_2g(
    designation, screw_major, screw_minor, nut_minor, nut_major
):
    screw, nut = drawn(designation).limits()
    for band, printed in (
        (screw.major, screw_major),
        (screw.minor, screw_minor),
        (nut.minor, nut_minor),
        (nut.major, nut_major),
    ):
        assert [end.inches for end in band] == [Fraction(each) for each in printed.split()]


@pytest.mark.parametrize("degree", [1, 2, 3, 7, 50])
@pytest.mark.parametrize("value", [0, 1, 2, 26, 27, 28, 10**40 - 1, 10**40, 10**40 + 1])
def test_a_whole_root_is_the_largest_whose_power_is_not_above(value, degree):
    root = whole_root(value, degree)
    assert root**degree <= value < (root + 1) ** degree
