"""Ranges that are printed hold their printed ends, and a reading is judged plainly or refused."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cli.views.thread_figures import bounds_text
from cli.views.thread_screen import nose_text
from gearsets.designations import read_thread_or_pitch
from gearsets.thread_forms import SERIES_FORMS, drawn_thread
from gearsets.thread_tables import load_series
from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import Rounding, in_both_units
from solver.refusals import ImpossibleSettingError
from solver.threads.forms import FORMS
from solver.threads.measuring import measuring
from solver.threads.over_wires import over_wire_limits, over_wires, read_over_wires
from solver.threads.reading_verdict import Fit, judge
from solver.threads.thread import LEAST_CORE, USUAL_CORE, Thread, coarsest_pitch
from solver.threads.tool_nose import Nose, largest_nose, nose_for, root_of
from solver.threads.wire_choice import refuse_wire_outside
from tests.cli.running import answer_of, halfnut

EVERY = tuple(
    row
    for series, form in sorted(SERIES_FORMS.items())
    if FORMS[form].has_angle and not FORMS[form].taper
    for row in load_series(series)
)
STEPS = {False: Length.of_mm("0.001"), True: Length.of_inches("0.0001")}
several = settings(max_examples=60, derandomize=True, database=None, deadline=None)


def ends(text: str) -> list[Length]:
    """Read back every figure of a printed range, in either unit."""
    return [
        Length.of_mm(figure) if unit == "mm" else Length.of_inches(figure)
        for figure, unit in re.findall(r"([\d.]+) (mm|in)", text)
    ]


@several
@given(st.sampled_from(EVERY), st.booleans())
def test_every_printed_end_of_a_range_of_wires_is_a_wire_that_serves(row, in_inches):
    thread = drawn_thread(row.pitch, row, major=None, form=None).thread
    wires = measuring(thread, None, wire=None, reading=None, step=STEPS[in_inches]).wires
    told = ends(bounds_text(wires.smallest, wires.largest, in_inches=in_inches))
    assert len(told) == 4
    for wire in told:
        refuse_wire_outside(wires, wire)
        # Rounded once, so less than a step of the last figure inside.
        assert min(abs((wire - end).mm) for end in (wires.smallest, wires.largest)) < Fraction(254, 100_000)
    with pytest.raises(ImpossibleSettingError) as refusal:
        refuse_wire_outside(wires, wires.largest * 2)
    serve, _, best = refusal.value.help_text.partition("serve")
    for wire in ends(serve):
        refuse_wire_outside(wires, wire)
    assert len(ends(serve)) == 4
    assert len(ends(best)) == 2


ROOTED = tuple(row for series in sorted(SERIES_FORMS) for row in load_series(series))


@several
@given(st.sampled_from(ROOTED), st.booleans(), st.booleans())
def test_every_nose_that_is_told_is_one_that_goes(row, internal, in_inches):
    thread = drawn_thread(row.pitch, row, major=None, form=None).thread
    flat, radius = nose_for(thread, internal=internal)
    widest, roundest = largest_nose(thread, internal=internal)
    for what, nose, largest in (("flat", flat, widest), ("radius", radius, roundest)):
        if nose is None or largest is None:
            continue
        told = ends(nose_text(nose, largest, in_inches=in_inches))
        told += ends(in_both_units(largest, Rounding.DOWN, inches_first=in_inches))
        assert len(told) == 4
        for each in told:
            root_of(thread, Nose(**{what: each}), internal=internal)


def test_the_printed_radius_of_m10_is_taken_and_a_thousandth_more_is_not():
    for radius, status in (("0.216mm", 0), ("0.0085in", 0), ("0.217mm", 1)):
        assert halfnut("thread", "M10", "--show", "cutting", "--nose-radius", radius).returncode == status


LIMITED = tuple(row for row in EVERY if row.series in ("iso_coarse", "iso_fine", "unc", "unf", "unef", "un_constant"))


def listed_wire(thread: Thread, step: Length) -> Length:
    """The best wire as lists have it, rounded to a step: half the pitch over the cosine of the half angle."""
    return step * round(thread.pitch * (thread.form.cosecant * thread.form.tangent / 2) / step)


@several
@given(st.sampled_from(LIMITED), st.booleans())
def test_every_printed_end_of_a_class_is_a_reading_within_it(row, in_inches):
    drawn = drawn_thread(row.pitch, row, major=None, form=None)
    thread, screw = drawn.thread, drawn.limits()[0]
    assume(screw is not None)
    wire = listed_wire(thread, STEPS[in_inches])
    least, most = over_wire_limits(thread, wire, screw)
    assert least is not None
    # Half of 0.0001 in is 0.00127 mm; the pitch diameter goes with the reading, within a little for the lead.
    for reading, fit in (
        *((reading, Fit.WITHIN) for reading in ends(bounds_text(least, most, in_inches=in_inches))),
        (least - Length.of_mm("0.0014"), Fit.TOO_SMALL),
        (least - Length.of_mm("0.0011"), Fit.AT_LIMIT),
        (most + Length.of_mm("0.0011"), Fit.AT_LIMIT),
        (most + Length.of_mm("0.0014"), Fit.TOO_LARGE),
    ):
        assert judge(thread, read_over_wires(thread, wire, reading), screw).fit is fit


@pytest.mark.parametrize("designation", ["M10", "M64x6", "1/4-20 UNC", "1-12 UNF"])
@pytest.mark.parametrize("in_inches", [False, True])
def test_the_whole_section_takes_the_listed_wire_and_judges_as_its_parts(designation, in_inches):
    drawn = drawn_thread(*read_thread_or_pitch(designation), major=None, form=None)
    thread, screw, step = drawn.thread, drawn.limits()[0], STEPS[in_inches]
    wire = listed_wire(thread, step)
    past = over_wire_limits(thread, wire, screw)[1] + Length.of_mm("0.0014")
    found = measuring(thread, screw, wire=None, reading=past, step=step)
    assert found.basic.wire == wire
    assert (found.least, found.most) == over_wire_limits(thread, wire, screw)
    assert found.verdict.fit is Fit.TOO_LARGE


def test_the_printed_ends_are_taken_on_the_command_line_and_the_next_figures_are_not():
    screen = " ".join(halfnut("thread", "M10", "--show", "measuring").stdout.split())
    smallest, largest = re.search(r"from ([\d.]+) mm .* to ([\d.]+) mm .* serve", screen).groups()
    for wire in (smallest, largest):
        assert halfnut("thread", "M10", "--show", "measuring", "--wire", f"{wire}mm").returncode == 0
    for wire, step in ((smallest, -1), (largest, 1)):
        past = Fraction(wire) + Fraction(step, 1000)
        assert halfnut("thread", "M10", "--show", "measuring", "--wire", f"{float(past):.3f}mm").returncode == 1
    told = answer_of("thread", "M10", "--show", "measuring")["measuring"]["wires"]
    for name in ("smallest", "largest"):
        assert halfnut("thread", "M10", "--show", "measuring", "--wire", f"{told[name]['mm']}mm").returncode == 0


@several
@given(st.sampled_from(EVERY), st.fractions(min_value=-2, max_value=2, max_denominator=40))
def test_a_reading_is_refused_just_where_crests_or_flanks_forbid_it(row, share):
    """The pitch diameter read lies anywhere up to two sharp heights from the basic one."""
    thread = drawn_thread(row.pitch, row, major=None, form=None).thread
    height = thread.pitch * thread.form.sharp_height
    mean = thread.basic().external.pitch
    found = mean + height * share
    assume(found > thread.pitch)
    usual = measuring(thread, None, wire=None, reading=None, step=STEPS[False])
    try:
        there = over_wires(thread, usual.basic.wire, found)
    except ImpossibleSettingError:
        assume(False)
    is_sharp = found + height < thread.major
    is_above = there.touches_at > thread.major
    try:
        judged = measuring(thread, None, wire=None, reading=there.exact, step=STEPS[False]).verdict
    except ImpossibleSettingError as refusal:
        assert is_sharp or is_above
        assert ("sharp crest" in refusal.message) == (is_sharp and not is_above)
        return
    assert not is_sharp
    assert not is_above
    assert judged is not None
    assert abs((judged.off_by - Length(abs((found - mean).mm))).mm) < Fraction(1, 10**12)
    off = abs((found - mean).mm)
    # Half of 0.0001 in.
    if off < Fraction("0.00127") - Fraction(1, 10**9):
        assert judged.fit is Fit.AT_BASIC
        return
    assert judged.fit is (Fit.ABOVE_BASIC if share > 0 else Fit.BELOW_BASIC)
    assert share <= 0 or abs((judged.to_cut[0] * 2 - judged.off_by).mm) < Fraction(1, 10**12)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("M10", "--reading", "10.25mm"), "WITHIN class 6g"),
        (("M10", "--reading", "10.31mm"), "TOO LARGE for class 6g by 0.015 mm (0.0006 in): still to cut"),
        (("M10", "--reading", "10.1mm"), "TOO SMALL for class 6g by 0.063 mm (0.0025 in): cut too deep"),
        (("1/4-20 UNC", "--reading", "0.2562in"), "AT THE LIMIT of class 2A"),
        (("1/4-20 UNC", "--reading", "0.2561in"), "TOO SMALL for class 2A"),
        (("2 BA", "--reading", "4.9mm"), "ABOVE the basic size by 0.064 mm"),
        (("2 BA", "--reading", "4.75mm"), "BELOW the basic size by"),
        (("Acme 1/2-10", "--reading", "0.5in"), "WITHIN class 2G"),
        (("Acme 1/2-10", "--reading", "0.495in"), "TOO SMALL for class 2G"),
    ],
)
def test_a_reading_has_a_plain_verdict(words, said):
    assert said in " ".join(halfnut("thread", *words, "--show", "measuring").stdout.split())


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("M10", "--reading", "14mm"), "above the crests"),
        (("M10", "--reading", "0.41mm"), "reads"),
        (("M10", "--reading", "9.5mm"), "sharp crest"),
        (("1/4-20 UNC", "--reading", "0.3in"), "above the crests"),
    ],
)
def test_a_reading_that_cannot_be_is_refused(words, said):
    outcome = halfnut("thread", *words, "--show", "measuring")
    assert outcome.returncode == 1
    assert outcome.stdout == ""
    assert said in " ".join(outcome.stderr.split()) or "no seat" in outcome.stderr


def test_a_blank_turned_smaller_may_read_smaller():
    words = ("thread", "M10", "--show", "measuring", "--reading", "9.5mm")
    assert halfnut(*words).returncode == 1
    assert "TOO SMALL" in halfnut(*words, "--blank", "9.4mm").stdout


@pytest.mark.parametrize(
    ("words", "coarsest"),
    [
        (("3mm", "--major", "4mm", "--form", "60"), "2.445 mm"),
        (("2mm", "--major", "2mm", "--form", "iso"), "1.222 mm"),
        (("4tpi", "--major", "1/4in", "--form", "unified"), "3.999 mm"),
    ],
)
def test_a_pitch_coarser_than_the_diameter_allows_is_refused_with_the_coarsest_that_goes(words, coarsest):
    outcome = halfnut("thread", *words)
    assert outcome.returncode == 1
    assert "too coarse" in outcome.stderr
    told = " ".join(outcome.stderr.split())
    assert f"The coarsest that goes on this diameter is {coarsest}" in told
    pitch = re.search(r"diameter is ([\d.]+) mm \(([\d.]+) in; (\d+) per inch\)", told)
    assert pitch
    # What is offered does go, in each of its three forms, with a loud word about its core.
    for offered in (f"{pitch[1]}mm", f"{pitch[2]}in", f"{pitch[3]}tpi"):
        screen = halfnut("thread", offered, *words[1:], "--show", "dimensions")
        assert screen.returncode == 0, screen
        assert "THIN" in screen.stdout


@several
@given(
    st.sampled_from(sorted(FORMS)),
    st.fractions(min_value=2, max_value=60, max_denominator=50),
    st.sampled_from([LEAST_CORE, USUAL_CORE]),
)
def test_the_coarsest_pitch_leaves_the_part_of_the_diameter_and_a_shade_more_does_not(key, diameter, part):
    major = Length.of_mm(diameter)
    coarsest = coarsest_pitch(FORMS[key], major, part)
    if coarsest is None:
        return
    assert Thread(FORMS[key], major, coarsest).core >= major * part
    coarser = Thread(FORMS[key], major, coarsest * Fraction(1001, 1000) + Length.of_mm("0.02"))
    assert coarser.core < major * part


def test_no_thread_of_a_series_has_a_thin_core():
    rows = [row for series in SERIES_FORMS for row in load_series(series)]
    assert len(rows) > 700
    for row in rows:
        thread = drawn_thread(row.pitch, row, major=None, form=None).thread
        assert thread.core > thread.major * Fraction(59, 100)
        assert not thread.has_thin_core
