"""Readings over wires judged by hand, and the wires and limits that are told with them."""

from __future__ import annotations

import math
import re
from fractions import Fraction

import pytest

from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.threads.forms import FORMS
from solver.threads.inch_tolerance import acme_limits
from solver.threads.limits import Band, Limits, ThreadClass
from solver.threads.measuring import measuring
from solver.threads.metric_tolerance import metric_limits
from solver.threads.over_wires import Reading, over_wire_limits, over_wires, read_over_wires
from solver.threads.reading_verdict import Fit, Verdict, judge, refuse_no_such_thread
from solver.threads.thread import Thread
from solver.threads.tool_nose import full_radius
from solver.threads.wire_choice import WireRange, refuse_wire_outside, wire_range
from solver.threads.wire_seat import Groove, seat_of

MM = Length.of_mm
NOTHING = MM(0)
FREE = Band(None, None)
#: Pitch diameter 14 mm exactly.
TR16 = Thread(FORMS["trapezoidal"], MM(16), MM(4))
AT_PITCH_LINE = MM(14)
M6 = Thread(FORMS["iso"], MM(6), MM(1))


def read_as(pitch_diameter: Length, *, touches_at: Length = AT_PITCH_LINE) -> Reading:
    return Reading(MM("2.1"), MM(17), pitch_diameter, pitch_diameter, pitch_diameter, touches_at)


def limited(least: str | None, most: str | None, *, major: str | None = None) -> Limits:
    pitch = Band(*(None if each is None else MM(each) for each in (least, most)))
    return Limits(ThreadClass.METRIC_SCREW, Band(None if major is None else MM(major), None), pitch, FREE)


@pytest.mark.parametrize(
    ("found", "fit", "off_by", "to_cut"),
    [
        # A reading is written to 0.0001 in, half of which is 0.00127 mm.
        ("14", Fit.AT_BASIC, "0", None),
        ("14.00127", Fit.AT_BASIC, "0.00127", None),
        ("13.99873", Fit.AT_BASIC, "0.00127", None),
        ("14.00128", Fit.ABOVE_BASIC, "0.00128", ("0.00064", "0.00064")),
        ("13.99872", Fit.BELOW_BASIC, "0.00128", None),
    ],
)
@pytest.mark.parametrize("limits", [None, limited("13.5", None)])
def test_without_a_greatest_size_a_reading_is_judged_by_the_basic_one(limits, found, fit, off_by, to_cut):
    cut = to_cut and tuple(map(MM, to_cut))
    assert judge(TR16, read_as(MM(found)), limits) == Verdict(fit, MM(off_by), cut)


@pytest.mark.parametrize(
    ("least", "found", "fit", "off_by", "to_cut"),
    [
        ("13.9", "13.9", Fit.WITHIN, "0", None),
        ("13.9", "13.95", Fit.WITHIN, "0", None),
        ("13.9", "13.95127", Fit.AT_LIMIT, "0.00127", None),
        ("13.9", "13.89873", Fit.AT_LIMIT, "0.00127", None),
        # Half of what it is over comes off the radius, at most so much that the least is met.
        ("13.9", "13.9514", Fit.TOO_LARGE, "0.0014", ("0.0007", "0.0257")),
        ("13.9", "13.8986", Fit.TOO_SMALL, "0.0014", None),
        (None, "13.95", Fit.NOT_TOO_LARGE, "0", None),
        (None, "1", Fit.NOT_TOO_LARGE, "0", None),
        (None, "13.95127", Fit.AT_LIMIT, "0.00127", None),
        (None, "13.9514", Fit.TOO_LARGE, "0.0014", ("0.0007", "0.0007")),
    ],
)
def test_a_reading_is_judged_by_its_class(least, found, fit, off_by, to_cut):
    cut = to_cut and tuple(map(MM, to_cut))
    assert judge(TR16, read_as(MM(found)), limited(least, "13.95")) == Verdict(fit, MM(off_by), cut)


def test_how_a_verdict_is_said():
    assert [each.value for each in Fit] == [
        "within the class",
        "too large for the class",
        "too small for the class",
        "at the limit of the class, within the rounding of a reading",
        "not too large for the class, whose least is not known here",
        "above the basic size",
        "at the basic size",
        "below the basic size",
    ]


#: Figures are carried far beyond it: less past a bound than this is taken as on it.
SLACK = MM("0.000000001")
LITTLE = MM("0.0000000001")


@pytest.mark.parametrize(
    ("blank", "limits", "largest", "smallest"),
    [
        (None, None, "16", "16"),
        (None, limited(None, None, major="15.7"), "16", "15.7"),
        (None, limited("13", "14"), "16", "16"),
        ("15.5", None, "15.5", "15.5"),
        ("15.5", limited(None, None, major="15.7"), "15.5", "15.5"),
    ],
)
def test_wires_touch_no_higher_than_the_crests_and_flanks_meet_no_lower(blank, limits, largest, smallest):
    turned = None if blank is None else MM(blank)
    # Flanks of 30 degrees included and 4 mm pitch meet so far above the pitch line, on the diameter.
    height = TR16.pitch * TR16.form.sharp_height
    assert float(height.mm) == pytest.approx(4 / 2 / math.tan(math.radians(15)), rel=1e-12)
    lowest = MM(smallest) - height
    for crest, pitch_diameter in ((MM(largest) + SLACK, lowest - SLACK), (MM("13"), MM(14))):
        refuse_no_such_thread(TR16, read_as(pitch_diameter, touches_at=crest), turned, limits)
    with pytest.raises(ImpossibleSettingError, match="above the crests"):
        refuse_no_such_thread(TR16, read_as(MM(14), touches_at=MM(largest) + SLACK + LITTLE), turned, limits)
    with pytest.raises(ImpossibleSettingError, match="sharp crest"):
        refuse_no_such_thread(TR16, read_as(lowest - SLACK - LITTLE), turned, limits)


def test_a_wire_at_either_end_of_the_range_serves():
    ends = WireRange(MM("0.5"), MM("0.577"), MM("0.577"), MM("1.01"))
    for wire in ("0.5", "0.577", "1.01"):
        refuse_wire_outside(ends, MM(wire))
    for wire in ("0.4999", "1.0101"):
        with pytest.raises(ImpossibleSettingError):
            refuse_wire_outside(ends, MM(wire))


def test_what_is_told_to_the_measurer_is_what_the_rooms_work_out():
    limits = metric_limits(M6, ThreadClass.METRIC_SCREW)
    plain = measuring(M6, limits, wire=None, reading=None, step=MM("0.01"))
    # The best wire in print is p / (2 cos 30), 0.577 mm; in steps of 0.01 mm 0.58.
    assert plain.basic.wire == MM("0.58")
    assert (plain.least, plain.most) == over_wire_limits(M6, MM("0.58"), limits)
    assert (plain.reading, plain.verdict) == (None, None)
    read = measuring(M6, limits, wire=MM("0.6"), reading=plain.most, step=MM("0.01"), blank=MM("5.95"))
    assert read.basic == over_wires(M6, MM("0.6"), M6.basic().external.pitch)
    assert (read.least, read.most) == over_wire_limits(M6, MM("0.6"), limits)
    assert read.reading == read_over_wires(M6, MM("0.6"), plain.most)
    assert read.verdict == judge(M6, read.reading, limits)
    assert read.verdict.fit in (Fit.WITHIN, Fit.TOO_SMALL)
    assert measuring(M6, None, wire=MM("0.6"), reading=plain.most, step=MM("0.01")).verdict.fit is Fit.BELOW_BASIC


def test_a_reading_that_only_a_smaller_blank_of_the_class_gives_is_judged_and_not_refused():
    # Flanks 4.983 mm apart at the pitch line meet at 5.849 mm: on a screw of 6g that may be turned to 5.794 mm.
    limits = metric_limits(M6, ThreadClass.METRIC_SCREW)
    assert limits.major.least == MM("5.794")
    found = measuring(M6, limits, wire=MM("0.577"), reading=MM("5.85"), step=MM("0.001"))
    assert found.verdict.fit is Fit.TOO_SMALL
    with pytest.raises(ImpossibleSettingError, match="sharp crest"):
        measuring(M6, None, wire=MM("0.577"), reading=MM("5.85"), step=MM("0.001"))


@pytest.mark.parametrize(("major", "pitch"), [("6", "1"), ("10", "1.5"), ("8", "1.25"), ("12", "1.75"), ("20", "2.5")])
def test_every_wire_of_a_figure_that_is_told_does_serve(major, pitch):
    wires = wire_range(Thread(FORMS["iso"], MM(major), MM(pitch)))
    with pytest.raises(ImpossibleSettingError) as refusal:
        refuse_wire_outside(wires, MM(9))
    figures = re.findall(r"([0-9.]+) (mm|in)", refusal.value.help_text)
    assert [unit for _, unit in figures] == ["mm", "in"] * 3
    for figure, unit in figures:
        refuse_wire_outside(wires, MM(figure) if unit == "mm" else Length.of_inches(figure))


def test_each_formula_in_print_reads_its_own_measurement_back():
    steep = Thread(FORMS["iso"], MM(10), MM("1.5"), 3)
    mean = steep.basic().external.pitch
    found = over_wires(steep, MM("0.87"), mean)
    assert found.simple < found.with_lead
    assert abs((read_over_wires(steep, MM("0.87"), found.simple).simple - mean).mm) < Fraction(1, 10**20)
    # The lead angle is taken at the diameter read by the simple formula, so that this one is not quite turned round.
    assert abs((read_over_wires(steep, MM("0.87"), found.with_lead).with_lead - mean).mm) < Fraction(1, 1000)
    assert abs((found.with_lead - found.simple).mm) > Fraction(1, 100)


def test_limits_over_wires_are_those_of_the_pitch_diameter_and_no_least_is_made_up():
    acme = Thread(FORMS["acme"], Length.of_inches(1), Length.of_inches("1/5"))
    wire = Length.of_inches("0.1033")
    most = acme_limits(acme).pitch.most
    greatest = acme_limits(acme)._replace(pitch=Band(None, most))
    assert over_wire_limits(acme, wire, greatest) == (None, over_wires(acme, wire, most).exact)
    limits = metric_limits(M6, ThreadClass.METRIC_SCREW)
    assert over_wire_limits(M6, MM("0.6"), limits) == tuple(
        over_wires(M6, MM("0.6"), end).exact for end in limits.pitch
    )


@pytest.mark.parametrize("key", ["iso", "unified", "acme", "trapezoidal", "loewenherz"])
def test_the_smallest_wire_of_a_flat_crested_thread_is_flush_and_the_largest_touches_the_edge_of_the_crest(key):
    thread = Thread(FORMS[key], MM(20), MM(2))
    screw = thread.basic().external
    found = wire_range(thread)
    groove = Groove(thread.form, thread.pitch, thread.lead)
    assert abs((seat_of(groove, found.smallest, screw.pitch).over - screw.major).mm) < Fraction(1, 10**12)
    assert abs((seat_of(groove, found.largest, screw.pitch).touches_at - screw.major).mm) < Fraction(1, 10**18)


# The crest and root of a Whitworth thread are arcs of 0.137329 of the pitch; an arc meets a flank of 27.5 degrees
# r (1 - sin 27.5) from its end, so that straight flank reaches from 20 mm less twice that to the root and twice that.
@pytest.mark.from_memory("BS 84, Parallel screw threads of Whitworth form, edition not seen, radius 0.137329 p")
def test_a_wire_touches_no_rounded_part_of_a_whitworth_flank():
    thread = Thread(FORMS["whitworth"], MM(20), MM(1))
    screw = thread.basic().external
    rounded = 2 * 0.137329 * (1 - math.sin(math.radians(27.5)))
    found = wire_range(thread)
    groove = Groove(thread.form, thread.pitch, thread.lead)
    highest = seat_of(groove, found.largest, screw.pitch).touches_at
    assert float(highest.mm) == pytest.approx(20 - rounded, abs=1e-6)


@pytest.mark.parametrize("starts", [1, 3])
@pytest.mark.parametrize("key", [key for key, form in FORMS.items() if form.round_root and not form.taper])
def test_a_wire_flush_with_the_crest_touches_above_a_rounded_root(key, starts):
    thread = Thread(FORMS[key], MM(8), MM(1), starts)
    screw = thread.basic().external
    groove = Groove(thread.form, thread.pitch, thread.lead)
    rounded = full_radius(thread, internal=False) * (2 * (1 - 1 / thread.form.cosecant))
    assert seat_of(groove, wire_range(thread).smallest, screw.pitch).touches_at > screw.minor + rounded
