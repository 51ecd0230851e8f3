"""What is said, word for word, of a worm or a wheel that cannot be, or a reading no dial gives."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.threads.forms import FORMS
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass
from solver.worms.setting import gap_to_rod
from solver.worms.tap_hobbing import TapWheel, hob_with_tap
from solver.worms.taps import Tap
from solver.worms.tooth_sizes import ToothSize, ToothSystem
from solver.worms.wanted_reading import marks_for, screws_for_mark, screws_for_turn, teeth_for
from solver.worms.worm import Worm, make_worm
from solver.worms.worm_wheel import WormWheel, make_wheel
from tests.solver.refusals.said_words import look_at_words, said

MM, DEGREES = Length.of_mm, Angle.of_degrees
MODULE_1 = ToothSize(ToothSystem.AXIAL_MODULE, MM(1))
WORM = make_worm(MODULE_1)
LATHE = Lathe("metric", "3 mm", MM(3), Fraction(1), True, (WheelClass("module 1", MM(1), ((20, 1), (40, 1))),))


def normal(module: str, starts: int, diameter: str) -> Worm:
    return make_worm(ToothSize(ToothSystem.NORMAL_MODULE, MM(module)), starts=starts, diameter=MM(diameter))


def tapped(form: str, pitch: int | str, diameter: int, teeth: int) -> TapWheel:
    return hob_with_tap(Tap("a tap", MM(pitch), FORMS[form], MM(diameter)), teeth)


def wheel(teeth: int, centres: str | None = None, *, of: Worm = WORM) -> WormWheel:
    return make_wheel(of, teeth, centre_distance=None if centres is None else MM(centres))


REFUSED = [
    said(
        lambda: gap_to_rod(MM(20), MM("10.1"), MM(30)),
        "a gauge rod of 10.1 mm does not pass the blank at this centre distance\nUse a rod of at most 10 mm.",
    ),
    said(
        lambda: gap_to_rod(MM("20.0009"), MM(11), MM(30)),
        "a gauge rod of 11 mm does not pass the blank at this centre distance\nUse a rod of at most 10.001 mm.",
    ),
    said(
        lambda: tapped("iso", "4.00006", 4, 40),
        "a pitch of 4.0001 mm is too coarse for a tap of that diameter: no core is left\n"
        "Check the tap's diameter, which is over the threads.",
    ),
    said(
        lambda: tapped("iso", 1, 6, 8),
        "a wheel of 8 teeth is undercut by a 60° tap; 9 teeth are the fewest cut clean\n"
        "More teeth would mend it; --undercut answers for the undercut wheel.",
    ),
    said(
        lambda: tapped("ba", 1, 6, 8),
        "a wheel of 8 teeth is undercut by a 47.5° tap; 12 teeth are the fewest cut clean\n"
        "More teeth would mend it; --undercut answers for the undercut wheel.",
    ),
    said(
        lambda: tapped("iso", 1, 6, 2001),
        "a worm wheel of 2001 teeth is not answered\nGive 6 to 2000 teeth.",
    ),
    said(
        lambda: normal("3", 1, "3"),
        "normal module 3 in 1 start does not go round a worm of 3 mm\n"
        "The pitch diameter must be above 3 mm; several times that is usual.",
    ),
    said(
        lambda: normal("1.23456", 2, "2.44444"),
        "normal module 1.23456 in 2 starts does not go round a worm of 2.444 mm\n"
        "The pitch diameter must be above 2.47 mm; several times that is usual.",
    ),
    said(
        lambda: marks_for(MM(5), MM(1)),
        "that reading asks for fewer than 2 marks\n2 to 2000 are answered: choose another screw or another reading.",
    ),
    said(
        lambda: marks_for(MM(1), MM(1)),
        "that reading asks for fewer than 2 marks\n2 to 2000 are answered: choose another screw or another reading.",
    ),
    said(
        lambda: marks_for(MM("0.01"), MM("20.01")),
        "that reading asks for 2001 marks\n2 to 2000 are answered: choose another screw or another reading.",
    ),
    said(
        lambda: teeth_for(MM(9000), MM(1)),
        "that reading asks for 9000 teeth\n2 to 2000 are answered: choose another screw or another reading.",
    ),
    said(
        lambda: teeth_for(MM(1), MM(1)),
        "that reading asks for fewer than 2 teeth\n2 to 2000 are answered: choose another screw or another reading.",
    ),
    said(
        lambda: screws_for_mark(MM(5), LATHE),
        "no usual dial or wheel gives that reading with a screw of a usual pitch\n"
        "Screws of 0.2 mm to 6.5 mm pitch are proposed; give the pitch, the marks or the teeth as well.",
    ),
    said(
        lambda: screws_for_turn(MM("0.01"), LATHE),
        "no usual dial or wheel gives that reading with a screw of a usual pitch\n"
        "Screws of 0.2 mm to 6.5 mm pitch are proposed; give the pitch, the marks or the teeth as well.",
    ),
    said(
        lambda: make_worm(MODULE_1, flank=DEGREES("4.99")),
        "a flank of 4.99 degrees is no worm's\n"
        "It is half the included angle: 14.5, 20 or 30 degrees; 5 to 45 are answered.",
    ),
    said(
        lambda: make_worm(MODULE_1, flank=DEGREES("45.00012")),
        "a flank of 45.0001 degrees is no worm's\n"
        "It is half the included angle: 14.5, 20 or 30 degrees; 5 to 45 are answered.",
    ),
    said(
        lambda: make_worm(MODULE_1, diameter=MM("2.5")),
        "a worm of 2.5 mm pitch diameter has no core left under a thread of module 1\n"
        "The pitch diameter must be above 2.5 mm; 7 to 25 modules are usual.",
    ),
    said(
        lambda: make_worm(ToothSize.of_dp(Fraction(20)), diameter=Length.of_inches("0.1")),
        "a worm of 2.54 mm pitch diameter has no core left under a thread of 20 DP\n"
        "The pitch diameter must be above 2.9388 mm; 7 to 25 modules are usual.",
    ),
    said(
        lambda: make_worm(ToothSize(ToothSystem.CIRCULAR_PITCH, MM(3)), diameter=MM("2.00002")),
        "a worm of 2 mm pitch diameter has no core left under a thread of circular pitch 3 mm\n"
        "The pitch diameter must be above 2.2098 mm; 7 to 25 modules are usual.",
    ),
    said(
        lambda: make_worm(MODULE_1, flank=DEGREES("33.0002")),
        "a tool of 66 degrees included comes to a point too soon\n"
        "Give a smaller flank angle, half the included angle; 14.5 to 30 degrees are usual.",
    ),
    said(
        lambda: wheel(5),
        "a worm wheel of 5 teeth is not answered\nGive 6 to 2000 teeth.",
    ),
    said(
        lambda: wheel(8, of=make_worm(MODULE_1, starts=8)),
        "a worm of 8 starts on a wheel of 8 teeth is no reduction\nGive fewer starts than teeth.",
    ),
    said(
        lambda: wheel(40, "90.04444"),
        "a centre distance of 90.044 mm would shift the wheel by 61.04 addenda\n"
        "Unshifted it is 29 mm; a shift of -1 to 2 is answered, half an addendum either way is usual.",
    ),
    said(
        lambda: wheel(40, "90", of=make_worm(ToothSize(ToothSystem.CIRCULAR_PITCH, MM(3)))),
        "a centre distance of 90 mm would shift the wheel by 65.25 addenda\n"
        "Unshifted it is 27.693 mm; a shift of -1 to 2 is answered, half an addendum either way is usual.",
    ),
    said(
        lambda: wheel(40, "27"),
        "a centre distance of 27 mm would shift the wheel by -2 addenda\n"
        "Unshifted it is 29 mm; a shift of -1 to 2 is answered, half an addendum either way is usual.",
    ),
    said(
        lambda: wheel(12),
        "a wheel of 12 teeth is undercut by a flank of 20 degrees; 18 teeth are the fewest cut clean\n"
        "More teeth, a greater pressure angle, or a centre distance of 15.299 mm (the wheel shifted out) would "
        "mend it; --undercut answers for the undercut wheel.",
    ),
    said(
        lambda: wheel(12, of=make_worm(MODULE_1, flank=DEGREES("19.996"))),
        "a wheel of 12 teeth is undercut by a flank of 20 degrees; 18 teeth are the fewest cut clean\n"
        "More teeth, a greater pressure angle, or a centre distance of 15.299 mm (the wheel shifted out) would "
        "mend it; --undercut answers for the undercut wheel.",
    ),
    said(
        lambda: wheel(30, of=make_worm(ToothSize.of_dp(Fraction(20)))),
        "a wheel of 30 teeth is undercut by a flank of 14.5 degrees; 32 teeth are the fewest cut clean\n"
        "More teeth, a greater pressure angle, or a centre distance of 30.556 mm (the wheel shifted out) would "
        "mend it; --undercut answers for the undercut wheel.",
    ),
    said(
        lambda: wheel(12, of=normal("1", 3, "18")),
        "a wheel of 12 teeth is undercut by a flank of 20 degrees; 17 teeth are the fewest cut clean\n"
        "More teeth, a greater pressure angle, or a centre distance of 15.356 mm (the wheel shifted out) would "
        "mend it; --undercut answers for the undercut wheel.",
    ),
]


@pytest.mark.parametrize(("ask", "says"), REFUSED)
def test_a_worm_a_wheel_or_a_reading_is_refused_in_just_these_words(ask, says):
    look_at_words(ask, says)
