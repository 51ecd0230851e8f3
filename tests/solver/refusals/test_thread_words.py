"""What is said, word for word, of a thread that cannot be cut or measured: what stands in the way, what would help."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.threads.blanks import refuse_past_sharp_crest
from solver.threads.cutting import Cutting, CuttingWishes, cutting
from solver.threads.forms import FORMS
from solver.threads.holes_and_blanks import bases_of, basis_named, tapping_hole
from solver.threads.inch_tolerance import unified_limits
from solver.threads.infeed import infeed
from solver.threads.limits import Band, Limits, ThreadClass
from solver.threads.measuring import Measuring, measuring
from solver.threads.metric_tolerance import metric_limits, preferred_number
from solver.threads.over_wires import over_wire_limits
from solver.threads.passes import Cuts, choose_cuts, cumulative_depths
from solver.threads.thread import Thread
from solver.threads.tool_nose import Nose, root_of
from solver.threads.wire_seat import Groove, seat_of, wire_touching
from tests.solver.refusals.said_words import look_at_words, said

MM, DEGREES = Length.of_mm, Angle.of_degrees
NOTHING = MM(0)


def thread(form: str, major: int | str, pitch: int | str) -> Thread:
    return Thread(FORMS[form], MM(major), MM(pitch))


M6, M10, ACME, SQUARE = thread("iso", 6, 1), thread("iso", 10, "1.5"), thread("acme", 12, 5), thread("square", 20, 4)
NPT = thread("taper-pipe-60", 20, 2)
GROOVE = Groove(FORMS["iso"], MM(1), MM(1))
NO_LIMITS = Limits(ThreadClass.METRIC_SCREW, *[Band(None, None)] * 3)
LIMITS_6G = metric_limits(M6, ThreadClass.METRIC_SCREW)


def cut(blank: str, *, internal: bool = False) -> Cutting:
    return cutting(M10, CuttingWishes(internal=internal, blank=MM(blank)))


def cuts(*, first: str | None = None, least: str | None = None) -> Cuts:
    first_cut, least_cut = (None if each is None else MM(each) for each in (first, least))
    return choose_cuts(MM(1), MM("0.01"), first=first_cut, least=least_cut, flat=NOTHING, slope=Fraction(1))


def depths(first: str, least: str) -> tuple[Length, ...]:
    return cumulative_depths(MM(1), MM(first), MM(least), flat=NOTHING, slope=Fraction(1))


def measured(
    wire: str, over: str | None = None, *, on: Thread = M6, blank: str | None = None, limits: Limits | None = None
) -> Measuring:
    reading, turned = (None if each is None else MM(each) for each in (over, blank))
    return measuring(on, limits, wire=MM(wire), reading=reading, step=MM("0.001"), blank=turned)


REFUSED = [
    said(
        lambda: refuse_past_sharp_crest(M10, MM("10.4"), internal=False),
        "A blank of 10.400 mm (0.4094 in) is above the sharp crest: the flanks of this thread meet at 10.325 mm "
        "(0.4065 in).\n"
        "Turn it first, to 10.000 mm (0.3937 in) or as the class allows, and give that with --blank.",
    ),
    said(
        lambda: refuse_past_sharp_crest(M10, MM("7.7"), internal=True),
        "A bore of 7.700 mm (0.3031 in) is below the sharp crest: the flanks of this thread meet at 7.727 mm "
        "(0.3042 in).\n"
        "Bore it first, to 8.376 mm (0.3298 in) or as the class allows, and give that with --blank.",
    ),
    said(
        lambda: cut("8"),
        "A blank of 8.000 mm (0.3150 in) leaves nothing to cut: the root of the thread is at 8.160 mm "
        "(0.3212 in).\n"
        "Give the diameter before threading; without --blank the basic size is taken.",
    ),
    said(
        lambda: cut("10.2", internal=True),
        "A bore of 10.200 mm (0.4016 in) leaves nothing to cut: the root of the thread is at 10.000 mm "
        "(0.3937 in).\n"
        "Give the diameter before threading; without --blank the basic size is taken.",
    ),
    said(
        lambda: bases_of(NPT),
        "The hole for a tapered thread is not worked out: it is bored or reamed to the taper.\n"
        "Take the diameters at the small end, and the taper, from the dimensions.",
    ),
    said(
        lambda: basis_named(M10, "full"),
        "this form has no such basis of engagement\n  full\n  ^\nWrite 3H/4 or 5H/8.",
    ),
    said(
        lambda: basis_named(thread("whitworth", 10, "1.5"), "3H/4"),
        "this form has no such basis of engagement\n  3H/4\n  ^\nWrite full.",
    ),
    said(
        lambda: tapping_hole(M10, Fraction(101, 100), bases_of(M10)[0]),
        "An engagement of 101 % is no thread a tap can leave: it lies above 0 and up to 100 % of the depth.\n"
        "Three quarters is usual: --engagement 75%.",
    ),
    said(
        lambda: tapping_hole(M10, Fraction(-1, 800), bases_of(M10)[0]),
        "An engagement of -0.1 % is no thread a tap can leave: it lies above 0 and up to 100 % of the depth.\n"
        "Three quarters is usual: --engagement 75%.",
    ),
    said(
        lambda: infeed(MM(1), FORMS["iso"], DEGREES("30.25")),
        "The top slide goes 0 to 30° from the cross slide for this form, not 30.25°: past that its travel would "
        "cut into the trailing flank.\n"
        "A slide graduated from the lathe axis reads 90° less the angle from the cross slide.",
    ),
    said(
        lambda: infeed(MM(1), FORMS["whitworth"], DEGREES("-0.123")),
        "The top slide goes 0 to 27.5° from the cross slide for this form, not -0.12°: past that its travel would "
        "cut into the trailing flank.\n"
        "A slide graduated from the lathe axis reads 90° less the angle from the cross slide.",
    ),
    said(
        lambda: infeed(MM(1), FORMS["square"], DEGREES(1)),
        "The flanks of this form stand square to the work: with the top slide 1° from the cross slide it would "
        "cut into one of them.\n"
        "Feed straight in: --slide-angle 0deg.",
    ),
    said(
        lambda: metric_limits(thread("iso", 400, 8), ThreadClass.METRIC_NUT),
        "ISO 965-1 gives tolerances for diameters above 0.99 mm to 355 mm with pitches of 0.2 mm to 8 mm; this "
        "thread is outside.\n"
        "Work to the basic dimensions, or to the limits on the drawing.",
    ),
    said(
        lambda: metric_limits(M10, ThreadClass.UNIFIED_NUT),
        "2B is not a class of metric threads",
    ),
    said(
        lambda: metric_limits(M10, ThreadClass("7g")),
        "ISO 965-1 has no grade 7 for the major diameter of a screw: only 4, 6, 8.\n"
        "Write another, as 7g6g: the grade of the pitch diameter stands first, that of the major diameter behind it "
        "where it is another.",
    ),
    said(
        lambda: metric_limits(M10, ThreadClass("3H")),
        "ISO 965-1 has no grade 3 for the pitch diameter of a nut: only 4, 5, 6, 7, 8.\n"
        "Write another, as 6H: the grade of the pitch diameter stands first, that of the minor diameter behind it "
        "where it is another.",
    ),
    said(
        lambda: metric_limits(thread("iso", 4, "0.7"), ThreadClass("8H")),
        "ISO 965-1 has no grade 8 for the pitch diameter of a nut below a pitch of 0.8 mm; this one is 0.7 mm.\n"
        "Write a finer grade, or leave the class out for the usual one.",
    ),
    said(
        lambda: metric_limits(thread("iso", 2, "0.4"), ThreadClass("6e")),
        "ISO 965-1 has no position e below a pitch of 0.5 mm; this one is 0.4 mm.\n"
        "Write another position, or leave the class out for the usual one.",
    ),
    said(
        lambda: ThreadClass("6z"),
        "limits of class 6z are not worked out",
    ),
    said(
        lambda: preferred_number(Fraction(1, 2)),
        "preferred numbers are kept from 1 to 9500, not for 1/2",
    ),
    said(
        lambda: unified_limits(M10, ThreadClass.METRIC_NUT, MM(10)),
        "6H is not a class of unified threads",
    ),
    said(
        lambda: cuts(least="1.1"),
        "A least cut of 1.100 mm (0.0433 in) is more than the whole depth, 1.000 mm (0.0394 in).\n"
        "Give a smaller --least-cut.",
    ),
    said(
        lambda: cuts(first="0.02", least="0.025"),
        "A first cut of 0.020 mm (0.0008 in) is below the least cut, 0.030 mm (0.0012 in) in whole steps of the "
        "dial.\n"
        "Give a deeper --first-cut or a smaller --least-cut.",
    ),
    said(
        lambda: depths("0.01", "0.02"),
        "The first cut and the least cut are above zero, and the first is not below the least.\n"
        "For example --first-cut 0.25mm --least-cut 0.02mm.",
    ),
    said(
        lambda: depths("0.01", "0.01"),
        "A first cut so light makes more than 500 passes.\nGive a deeper --first-cut.",
    ),
    said(
        lambda: Thread(FORMS["iso"], NOTHING, MM(1)),
        "a thread has a diameter and a pitch above zero, and at least one start",
    ),
    said(
        lambda: thread("iso", 6, 6).basic(),
        "A pitch of 6.000 mm (0.2362 in) is too coarse for 6.000 mm (0.2362 in) in the form ISO metric, 60°: no "
        "core is left.\n"
        "The coarsest that goes on this diameter is 3.667 mm (0.1444 in; 7 per inch); up to 2.445 mm (0.0962 in; "
        "11 per inch) half of it is left.",
    ),
    said(
        lambda: thread("square", 8, "6.5").basic(),
        "A pitch of 6.500 mm (0.2559 in) is too coarse for 8.000 mm (0.3150 in) in the form Square: a core of "
        "only 1.500 mm (0.0591 in) is left.\n"
        "The coarsest that goes on this diameter is 6.000 mm (0.2362 in; 5 per inch); up to 4.000 mm (0.1574 in; "
        "7 per inch) half of it is left.",
    ),
    said(
        lambda: thread("square", 2, "1.8").basic(),
        "A pitch of 1.800 mm (0.0709 in) is too coarse for 2.000 mm (0.0787 in) in the form Square: a core of "
        "only 0.200 mm (0.0079 in) is left.\n"
        "The coarsest that goes on this diameter is 1.500 mm (0.0590 in; 17 per inch); up to 1.000 mm (0.0393 in; "
        "26 per inch) half of it is left.",
    ),
    said(
        lambda: thread("acme", "0.6", 1).basic(),
        "A pitch of 1.000 mm (0.0394 in) is too coarse for 0.600 mm (0.0236 in) in the form Acme general purpose, "
        "29°: no core is left.\n"
        "The coarsest that goes on this diameter is 0.195 mm (0.0077 in; 130 per inch).",
    ),
    said(
        lambda: thread("acme", "0.5", 1).basic(),
        "A pitch of 1.000 mm (0.0394 in) is too coarse for 0.500 mm (0.0197 in) in the form Acme general purpose, "
        "29°: no core is left.\n"
        "Give a larger diameter: the root clearance of this form is too much for this one.",
    ),
    said(
        lambda: thread("acme", 5, "0.1").basic(),
        "The root clearance of ASME B1.5 is too much for so fine a pitch: the flanks would meet before the root.\n"
        "Give a coarser pitch, or another form.",
    ),
    said(
        lambda: thread("trapezoidal", 5, "0.1").basic(),
        "The root clearance of ISO 2901 is too much for so fine a pitch: the flanks would meet before the root.\n"
        "Give a coarser pitch, or another form.",
    ),
    said(
        lambda: root_of(SQUARE, Nose(radius=MM("0.1")), internal=False),
        "The root of the form Square is flat, so its tool has no nose radius.\n"
        "Give the flat of the nose instead: --nose-flat.",
    ),
    said(
        lambda: root_of(M10, Nose(radius=MM("0.5")), internal=False),
        "A nose radius of 0.500 mm (0.0197 in) is too large for this root: the mating thread would foul it. The "
        "largest is 0.216 mm (0.0085 in).\n"
        "Grind the nose smaller, or leave it out to see the one of the standard form.",
    ),
    said(
        lambda: root_of(M10, Nose(flat=MM("0.5")), internal=True),
        "A nose flat of 0.500 mm (0.0197 in) is too large for this root: the mating thread would foul it. The "
        "largest is 0.187 mm (0.0073 in).\n"
        "Grind the nose smaller, or leave it out to see the one of the standard form.",
    ),
    said(
        lambda: root_of(ACME, Nose(flat=NOTHING), internal=False),
        "So sharp a tool would cut through to the axis before the pitch diameter is right.\n"
        "Give the nose of the standard form, or a finer pitch.",
    ),
    said(
        lambda: measured("2", on=SQUARE),
        "A square thread gives wires no seat.\nMeasure its groove with a gauge block, its root by calliper.",
    ),
    said(
        lambda: measured("2", on=NPT),
        "Measuring a tapered thread over wires is not worked out.\nCheck it with a ring gauge.",
    ),
    said(
        lambda: measured("0.3"),
        "A wire of 0.300 mm (0.0118 in) would not stand above the crests.\n"
        "Wires from 0.505 mm (0.0199 in) to 1.008 mm (0.0397 in) serve; best is 0.576 mm (0.0227 in).",
    ),
    said(
        lambda: measured("2"),
        "A wire of 2.000 mm (0.0787 in) would sit outside the flanks, on the crests.\n"
        "Wires from 0.505 mm (0.0199 in) to 1.008 mm (0.0397 in) serve; best is 0.576 mm (0.0227 in).",
    ),
    said(
        lambda: seat_of(GROOVE, MM(9), MM(5)),
        "A wire of this size finds no seat on both flanks of this thread.\n"
        "Choose a wire in the allowed range, near the best wire; thread --show measuring lists it.",
    ),
    said(
        lambda: wire_touching(GROOVE, MM(5), MM(4)),
        "A wire of this size finds no seat on both flanks of this thread.\n"
        "Choose a wire in the allowed range, near the best wire; thread --show measuring lists it.",
    ),
    said(
        lambda: over_wire_limits(M6, MM("0.577"), NO_LIMITS),
        "a class of screws sets its greatest pitch diameter",
    ),
    said(
        lambda: measured("0.577", "0.1"),
        "No thread of this pitch reads 0.100 mm (0.0039 in) over wires of 0.577 mm (0.0227 in).\n"
        "Check the unit of the reading, the three wires and the pitch; thread --show measuring without --reading "
        "tells what to look for.",
    ),
    said(
        lambda: measured("0.577", "7"),
        "No thread of this pitch on this blank reads 7.000 mm (0.2756 in) over wires of 0.577 mm (0.0227 in): its "
        "wires would touch flanks at 6.135 mm (0.2415 in), above the crests at 6.000 mm (0.2362 in).\n"
        "Check the unit of the reading, the three wires, the pitch, and the blank (--blank); thread --show "
        "measuring without --reading tells what to look for.",
    ),
    said(
        lambda: measured("0.577", "6.3", blank="5.4"),
        "No thread of this pitch on this blank reads 6.300 mm (0.2480 in) over wires of 0.577 mm (0.0227 in): its "
        "wires would touch flanks at 5.435 mm (0.2140 in), above the crests at 5.400 mm (0.2126 in).\n"
        "Check the unit of the reading, the three wires, the pitch, and the blank (--blank); thread --show "
        "measuring without --reading tells what to look for.",
    ),
    said(
        lambda: measured("0.577", "5.8"),
        "No thread of this pitch on this blank reads 5.800 mm (0.2283 in) over wires of 0.577 mm (0.0227 in): its "
        "flanks would meet in a sharp crest at 5.799 mm (0.2283 in), below the 6.000 mm (0.2362 in) of the blank.\n"
        "Check the unit of the reading, the three wires, the pitch, and the blank (--blank); thread --show "
        "measuring without --reading tells what to look for.",
    ),
    said(
        lambda: measured("0.577", "5.8", blank="5.9", limits=LIMITS_6G),
        "No thread of this pitch on this blank reads 5.800 mm (0.2283 in) over wires of 0.577 mm (0.0227 in): its "
        "flanks would meet in a sharp crest at 5.799 mm (0.2283 in), below the 5.900 mm (0.2323 in) of the blank.\n"
        "Check the unit of the reading, the three wires, the pitch, and the blank (--blank); thread --show "
        "measuring without --reading tells what to look for.",
    ),
]


@pytest.mark.parametrize(("ask", "says"), REFUSED)
def test_a_thread_is_refused_in_just_these_words(ask, says):
    look_at_words(ask, says)
