"""Passes worked by hand: which cuts are taken, how a depth is shared out, and what is read on a dial."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.threads.cutting import CuttingWishes, cutting
from solver.threads.forms import FORMS
from solver.threads.infeed import Infeed, infeed
from solver.threads.passes import (
    LeastBasis,
    Pass,
    choose_cuts,
    cumulative_depths,
    dial_step,
    equal_passes,
    schedule,
    usual_first_cut,
)
from solver.threads.thread import Thread

MM = Length.of_mm
#: A tool that comes to a point, with flanks at 45 degrees: the groove has the area of its depth squared.
SHARP = {"flat": MM(0), "slope": Fraction(1)}
#: A parting tool 1 mm wide: the groove has the area of its depth.
BLADE = {"flat": MM(1), "slope": Fraction(0)}

#: Flanks of 45 degrees and 1 mm wide: the groove has the area of its depth squared and its depth.
BLUNT = {"flat": MM(1), "slope": Fraction(1)}


def straight_in(depth: str) -> Infeed:
    return infeed(MM(depth), FORMS["square"])


def readings(depths: str, *, step: str = "0.01", least: str | None = None, springs: int = 0) -> list[str]:
    marks = [MM(each) for each in depths.split()]
    made = schedule(
        tuple(marks), straight_in(depths.split()[-1]), MM(step), springs, None if least is None else MM(least)
    )
    assert all(each.slide_travel == each.depth for each in made)
    return [str(round(each.depth.mm * 1000)) for each in made]


@pytest.mark.parametrize(
    ("depth", "step", "least", "found", "basis"),
    [
        ("1", "0.01", None, "0.02", LeastBasis.USUAL),
        ("1", "0.0127", None, "0.0254", LeastBasis.USUAL),
        # A tenth of the depth where that is less; both are 0.02 mm at a depth of 0.2 mm.
        ("0.1", "0.001", None, "0.01", LeastBasis.SHALLOW),
        ("0.2", "0.01", None, "0.02", LeastBasis.USUAL),
        # A dial reads no less than its own step.
        ("1", "0.02", None, "0.02", LeastBasis.USUAL),
        ("1", "0.021", None, "0.021", LeastBasis.DIAL),
        ("0.1", "0.05", None, "0.05", LeastBasis.DIAL),
        # What is asked goes before either, up to a whole step, and no farther than the depth.
        ("1", "0.01", "0.025", "0.03", LeastBasis.ASKED),
        ("1", "0.01", "0.01", "0.01", LeastBasis.ASKED),
        ("1", "0.01", "1", "1", LeastBasis.ASKED),
        ("0.999", "0.01", "0.995", "0.999", LeastBasis.ASKED),
    ],
)
def test_the_least_cut_and_where_it_comes_from(depth, step, least, found, basis):
    cuts = choose_cuts(MM(depth), MM(step), first=None, least=None if least is None else MM(least), **SHARP)
    assert (cuts.least, cuts.basis) == (MM(found), basis)
    assert cuts.first >= cuts.least


def test_how_a_least_cut_is_said_to_come_about():
    assert [each.value for each in LeastBasis] == [
        "as asked",
        "usual on light lathes, practice",
        "a tenth of so shallow a depth, practice",
        "one step of the dial",
    ]


def test_a_first_cut_is_the_one_asked_down_to_the_least_and_else_the_usual_or_the_least():
    def first(depth: str, asked: str | None, least: str | None) -> Length:
        words = {name: None if text is None else MM(text) for name, text in (("first", asked), ("least", least))}
        return choose_cuts(MM(depth), MM("0.01"), **words, **SHARP).first

    assert first("1", "0.4", None) == MM("0.4")
    assert first("1", "0.02", None) == MM("0.02")
    with pytest.raises(ImpossibleSettingError):
        first("1", "0.0199", None)
    assert first("1", None, None) == MM("0.25")
    # 0.1 mm over the root of six is 0.041 mm, below the least asked.
    assert first("0.1", None, "0.08") == MM("0.08")
    assert round(first("0.1", None, "0.02").mm, 9) == Fraction("0.040824829")


@pytest.mark.parametrize(
    ("depth", "tool", "wanted"),
    [
        # Six passes at least: the first of a point is the depth over the root of six, of a blade a sixth of it.
        ("0.3", SHARP, 0.3 / math.sqrt(6)),
        ("0.6", BLADE, 0.1),
        # Forty at most.
        ("10", SHARP, 10 / math.sqrt(40)),
        ("20", BLADE, 0.5),
        # Between them a quarter of a millimetre.
        ("1", SHARP, 0.25),
        ("2", BLADE, 0.25),
    ],
)
def test_the_usual_first_cut_makes_six_to_forty_passes_of_a_quarter_millimetre(depth, tool, wanted):
    assert float(usual_first_cut(MM(depth), **tool).mm) == pytest.approx(wanted, rel=1e-12)


ROOT = math.sqrt


@pytest.mark.parametrize(
    ("depth", "first", "least", "tool", "wanted"),
    [
        # Four passes of a quarter of the area each; seven where the first would be too deep for six.
        ("1", "0.5", "0.1", SHARP, [ROOT(1 / 4), ROOT(2 / 4), ROOT(3 / 4), 1]),
        ("1", "0.4", "0.01", SHARP, [ROOT(part / 7) for part in range(1, 8)]),
        ("1", "0.25", "0.25", BLADE, [0.25, 0.5, 0.75, 1]),
        # Deeper than the thread: one pass, and so where the depth is below the least.
        ("1", "3", "0.1", SHARP, [1]),
        ("0.05", "0.1", "0.08", SHARP, [0.05]),
        # The last would add 0.134: shared with the one before, in one pass or in two.
        ("1", "0.5", "0.15", SHARP, [ROOT(1 / 4), ROOT(2 / 4), 1]),
        ("1", "0.5", "0.14", SHARP, [ROOT(1 / 4), ROOT(2 / 4), (ROOT(2 / 4) + 1) / 2, 1]),
        # Of twelve the third would add 0.092: what is left of the depth goes in five equal passes.
        (
            "1",
            "0.3",
            "0.1",
            SHARP,
            [ROOT(1 / 12), *(ROOT(2 / 12) + (1 - ROOT(2 / 12)) * part / 5 for part in range(6))],
        ),
        # The first of twelve is below the least itself.
        ("1", "0.3", "0.3", SHARP, [1 / 3, 2 / 3, 1]),
        # A first pass of just the least is kept, and so is a last of just the least: of five areas of 6 the first is 2
        # deep, of three areas of 30 the first is 5 deep.
        ("5", "2", "2", BLUNT, [2, 5]),
        ("9", "5", "4", BLUNT, [5, 9]),
    ],
)
def test_a_depth_is_shared_out_as_worked_by_hand(depth, first, least, tool, wanted):
    found = cumulative_depths(MM(depth), MM(first), MM(least), **tool)
    assert [float(each.mm) for each in found] == pytest.approx(wanted, rel=1e-12)
    assert found[-1] == MM(depth)


def test_five_hundred_passes_are_listed_and_not_one_more():
    finest = Length(Fraction(1, 500))
    assert cumulative_depths(MM(1), finest, finest, **BLADE) == tuple(
        Length(Fraction(number, 500)) for number in range(1, 501)
    )
    finer = Length(Fraction(1, 501))
    with pytest.raises(ImpossibleSettingError, match="more than 500"):
        cumulative_depths(MM(1), finer, finer, **BLADE)


@pytest.mark.parametrize(("first", "least"), [("0", "0"), ("0.1", "0"), ("-0.1", "-0.2"), ("0.1", "0.101")])
def test_cuts_of_nothing_and_a_first_below_the_least_make_no_schedule(first, least):
    with pytest.raises(ImpossibleSettingError, match="above zero"):
        cumulative_depths(MM(1), MM(first), MM(least), **SHARP)


def test_equal_passes_of_a_blade_are_equal_and_one_pass_is_the_depth():
    assert [str(each.mm) for each in equal_passes(MM(1), 4, **BLADE)] == ["1/4", "1/2", "3/4", "1"]
    assert equal_passes(MM(1), 1, **SHARP) == (MM(1),)


@pytest.mark.parametrize(
    ("depths", "least", "wanted"),
    [
        # Each is rounded down to the dial, the last is the whole depth. Adds of 37 16 11 11 8 8 steps and 0.008 mm more
        # would make the last the heavier of two eights: it gives the other one step, if it keeps the least; else the
        # eight before it goes to the two elevens, four steps to each.
        ("0.374 0.53 0.649 0.75 0.838 0.918", None, "370 530 640 750 840 918"),
        ("0.374 0.53 0.649 0.75 0.838 0.918", "0.078", "370 530 640 750 840 918"),
        ("0.374 0.53 0.649 0.75 0.838 0.918", "0.08", "370 530 680 830 918"),
        # No step is given where nothing is over, or where the last is lighter anyway.
        ("0.37 0.53 0.64 0.75 0.83 0.91", None, "370 530 640 750 830 910"),
        ("0.5 0.8 0.909", None, "500 800 909"),
        # The step given may have to be handed on, so that the heaviest stays first: 10 8 8 8 are 10 9 8 7 and a bit.
        ("0.1 0.18 0.26 0.345", None, "100 190 270 345"),
        # Out of order they are put in order; one the dial cannot tell from the one before is left out.
        ("0.25 0.3 0.42 0.5", None, "250 370 450 500"),
        ("0.25 0.254 0.3", None, "250 300"),
        ("0.005 0.25 0.5", None, "250 500"),
        ("0.5", None, "500"),
        ("0.504", None, "504"),
        # M4 on marks of a hundredth: 6 3 2 2 1 1 and 1.9, where the two ones are one of two.
        ("0.06 0.09 0.11 0.13 0.14 0.15 0.169", "0.01", "60 90 110 130 150 169"),
        # Of 6 1 1 1 and 1.9 the odd one goes to the two: 6 3 1.9. Six steps of 9 2 2 2 and 2.5 are two threes.
        ("0.06 0.07 0.08 0.09 0.109", "0.01", "60 90 109"),
        ("0.09 0.11 0.13 0.15 0.175", "0.02", "90 120 150 175"),
        # 9 3 and 3.5: the three on top of the nine were more than the first, so three fours.
        ("0.09 0.12 0.155", "0.03", "40 80 120 155"),
        # Nothing above the first may be made of 1 1 1 and 1.9, nor of 2 2 1 and 1.1: they stay.
        ("0.01 0.02 0.03 0.049", "0.01", "10 20 30 49"),
        ("0.02 0.04 0.05 0.061", "0.01", "20 40 50 61"),
        # Passes asked for by number are not made fewer.
        ("0.06 0.07 0.08 0.099", None, "60 70 80 99"),
        # A last pass of less than a step is still made.
        ("0.25 0.257", None, "250 257"),
    ],
)
def test_readings_are_whole_steps_heaviest_first_and_end_at_the_depth(depths, least, wanted):
    assert readings(depths, least=least) == wanted.split()


@pytest.mark.parametrize(("first", "least"), [("0.3", "0.06"), ("0.3", "0.02"), ("0.2", "0.06")])
def test_a_thread_is_cut_by_the_cuts_and_the_slide_that_are_asked(first, least):
    angle = Angle.of_degrees(29)
    wishes = CuttingWishes(first_cut=MM(first), least_cut=MM(least), slide_angle=angle, springs=1)
    found = cutting(Thread(FORMS["iso"], MM(10), MM("1.5")), wishes)
    assert found.cuts == (MM(first), MM(least), LeastBasis.ASKED)
    assert found.feed == infeed(found.root.depth, FORMS["iso"], angle)
    # A rounded root counts as a point.
    depths = cumulative_depths(found.root.depth, MM(first), MM(least), flat=MM(0), slope=FORMS["iso"].tangent)
    assert found.passes == schedule(depths, found.feed, MM("0.01"), 1, MM(least))


def test_spring_passes_add_nothing_and_go_on_counting():
    feed = straight_in("0.5")
    cut, *again = schedule((MM("0.5"),), feed, MM("0.01"), 2)
    assert cut == Pass(1, MM("0.5"), MM("0.5"), MM("0.5"), is_spring=False)
    assert again == [Pass(number, MM("0.5"), MM("0.5"), MM(0), is_spring=True) for number in (2, 3)]


def test_the_top_slide_reads_whole_steps_down_and_its_whole_travel_at_the_last():
    # At 60 degrees from the cross slide the slide moves twice the depth; here 2 and a bit.
    feed = Infeed(MM(1), Angle.of_degrees(60), MM("2.005"), MM(0), MM(0))
    first, last = schedule((MM("0.5"), MM(1)), feed, MM("0.01"), 0)
    assert (first.depth, first.slide_travel, first.adds) == (MM("0.5"), MM("1"), MM("0.5"))
    assert (last.depth, last.slide_travel, last.adds) == (MM(1), MM("2.005"), MM("0.5"))


# 0.520 mm of depth by a slide at 29.5 degrees are 0.520 / 0.870356 = 0.59746 mm, 11.95 marks of 0.05 mm: 12 of them,
# where down is 11. So 0.200 mm are 4.60 marks, 0.320 7.35, 0.400 9.19, 0.480 11.03 and 0.560 12.87.
def test_a_top_slide_with_a_dial_of_its_own_reads_the_nearest_mark():
    depths = tuple(map(MM, ["0.2", "0.32", "0.4", "0.48", "0.52", "0.56", "0.613435"]))
    feed = infeed(depths[-1], FORMS["iso"], Angle.of_degrees("29.5"))

    def marks(*, nearest: bool) -> list[int]:
        made = schedule(depths, feed, MM("0.04"), 0, None, MM("0.05"), slide_to_nearest=nearest)
        return [int(each.slide_travel / MM("0.05")) for each in made]

    # The last is the whole travel, 14.096 marks.
    assert marks(nearest=True) == [5, 7, 9, 11, 12, 13, 14]
    assert marks(nearest=False) == [4, 7, 9, 11, 11, 12, 14]


@pytest.mark.parametrize(("depth", "step"), [("0.2", "0.01"), ("0.1999", "0.001"), ("5", "0.01")])
def test_a_thread_of_fewer_than_twenty_steps_is_read_to_a_tenth_of_one(depth, step):
    assert dial_step(MM(depth), MM("0.01")) == MM(step)


def test_where_only_one_pass_was_kept_and_too_little_is_left_it_is_shared_with_what_is_left():
    # A sharp tool: 0.95 of 1 mm makes two passes of equal area, the first to the root of a half, 0.707; the 0.293 left
    # are below the least cut, so that both begin anew in two even passes.
    found = cumulative_depths(MM(1), MM("0.95"), MM("0.4"), flat=MM(0), slope=Fraction(1))
    assert found == (MM("0.5"), MM(1))
