"""A dial too coarse for a thread, as a person meets it: few cuts, a heavy last one, no mark within the class."""

from __future__ import annotations

from fractions import Fraction

import pytest

from cli.thread_sheet import SheetWishes, thread_sheet
from cli.views.sheets.pieces import Grid, Shout
from cli.views.sheets.thread_cards import thread_card
from gearsets.designations import read_thread_or_pitch
from gearsets.thread_forms import drawn_thread
from solver.dials.screw_dials import ScrewDial
from solver.quantities.lengths import Length
from solver.threads.cutting import CuttingWishes
from solver.trains.hand import Hand
from tests.cli.running import answer_of, halfnut

NO_MARK = "No mark of this dial lies within the class: measure, or use a finer dial."


def screen_of(*words: str) -> str:
    return " ".join(halfnut("thread", *words, "--show", "cutting").stdout.split())


def cutting_of(*words: str) -> dict:
    return answer_of("thread", *words, "--show", "cutting")["cutting"]


# M4 is 0.4294 mm deep, a dial of one mark of 2 mm reads none of it.
@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("M4", "--screw", "2mm", "--marks", "1"), "1 cut, the whole depth at once; feed by the top slide, or use a"),
        (("M4", "--screw", "2mm", "--marks", "1", "--passes", "6"), "1 cut, the whole depth at once; feed by"),
        (("M4", "--slide-angle", "0deg", "--screw", "2mm", "--marks", "1"), "1 cut, the whole depth at once; use a"),
    ],
)
def test_a_dial_that_leaves_too_few_cuts_is_warned_of(words, told):
    assert f"DIAL TOO COARSE. For this depth it leaves {told}" in screen_of(*words)
    assert told.split(";")[0] in cutting_of(*words)["coarse_dial"]


# M2 is 0.2454 mm deep, 4.83 marks of 0.0508 mm: 1 1 1 and 1.83, and no two of them go together under the first.
def test_a_last_cut_that_stays_the_heaviest_is_said():
    words = ("M2", "--screw", "10tpi", "--marks", "50")
    assert "DIAL TOO COARSE. For this depth the last cut is heavier than the one before it;" in screen_of(*words)
    adds = [Fraction(each["adds"]["mm"]) for each in cutting_of(*words)["passes"] if not each["spring"]]
    assert adds[:-1] == [Fraction("0.0508")] * 3
    assert float(adds[-1]) == pytest.approx(0.245374 - 3 * 0.0508, abs=1e-6)


@pytest.mark.parametrize(
    "words",
    [
        ("M4",),
        ("M4", "--screw", "10tpi", "--marks", "100"),
        ("M10", "--screw", "2mm", "--marks", "100"),
        # One cut by the wish of the person is no fault of the dial.
        ("M4", "--screw", "2mm", "--marks", "100", "--passes", "1"),
        ("M4", "--screw", "2mm", "--marks", "100", "--first-cut", "0.5mm"),
    ],
)
def test_a_dial_fine_enough_is_not_warned_of(words):
    assert "TOO COARSE" not in screen_of(*words)
    assert cutting_of(*words)["coarse_dial"] is None


# 6g of M2 begins 0.0095 mm and ends 0.043 mm past 0.2454 on the radius: 0.2549 and 0.2884 mm are 5.02 and 5.68 marks
# of 0.0508 mm, between which no mark lies. Of 0.02 mm they are 12.7 and 14.4: 13 and 14.
@pytest.mark.from_memory("ISO 965-1, ISO general purpose metric screw threads, tolerances, edition not seen, M2 6g")
def test_where_no_mark_lies_within_the_class_none_is_given():
    words = ("M2", "--screw", "10tpi", "--marks", "50")
    screen = screen_of(*words)
    assert NO_MARK in screen
    assert "no deeper" not in screen.split("ON YOUR DIALS")[1].split("THEN, for class")[0]
    found = cutting_of(*words)["to_class"]
    assert [each["cross_slide_on_dial"] for each in found] == [None] * 3
    assert [each["cross_slide_mark_within"] for each in found] == [False] * 3
    assert [each["top_slide_mark_within"] for each in found] == [None] * 3
    finer = ("M2", "--screw", "2mm", "--marks", "100")
    assert NO_MARK not in screen_of(*finer)
    assert [each["cross_slide_on_dial"]["marks"] for each in cutting_of(*finer)["to_class"]][::2] == [13, 14]
    assert cutting_of(*finer)["to_class"][0]["cross_slide_mark_within"] is True


def test_of_two_dials_the_one_without_a_mark_is_named():
    screen = screen_of("M2", "--screw", "10tpi", "--marks", "50", "--top-screw", "1mm", "--top-marks", "100")
    assert "No mark of the dial of the cross slide lies within the class" in screen
    # 0.2549 / cos 29.5 degrees is 29.3 marks of 0.01 mm.
    assert "from no mark - 0 turns + 30 marks" in screen


# 6h begins at the basic size: 0.9202 mm of M10 is 0.46 of a mark of 2 mm and its end no whole one either.
def test_a_class_that_begins_at_the_basic_size_may_hold_no_mark_too():
    assert NO_MARK in screen_of("M10-6h", "--screw", "2mm", "--marks", "1")


def card_pieces(designation: str, screw: ScrewDial | None) -> list[object]:
    drawn = drawn_thread(*read_thread_or_pitch(designation), major=None, form=None)
    cut = CuttingWishes(step=screw.per_mark if screw else Length.of_mm("0.01"), by_marks=screw is not None)
    wishes = SheetWishes(cut, Hand.RIGHT, False, ("cutting",), screw=screw)
    return list(thread_card(thread_sheet(drawn, wishes)).pieces)


# Marks of 0.02 mm have their boxes with the dial, of 0.0508 mm with the readings, as no dial: one box for each reading.
@pytest.mark.parametrize(
    ("screw", "ticked"),
    [
        (None, {"Passes": True, "THEN": True}),
        (ScrewDial(Length.of_mm(2), 100), {"Passes": False, "On": True, "THEN": False}),
        (ScrewDial(Length.of_inches("1/10"), 50), {"Passes": False, "On": True, "THEN": True}),
    ],
)
def test_each_reading_of_the_sheet_has_one_box(screw, ticked):
    grids = [each for each in card_pieces("M2", screw) if isinstance(each, Grid)]
    assert {each.title.replace(",", " ").split()[0]: each.ticked for each in grids} == ticked


def test_the_sheet_shouts_of_one_cut():
    told = [each for each in card_pieces("M4", ScrewDial(Length.of_mm(2), 1)) if isinstance(each, Shout)]
    assert [each.words for each in told] == ["DIAL TOO COARSE"]
    assert "1 cut, the whole depth at once" in told[0].text
    assert not any(isinstance(each, Shout) for each in card_pieces("M4", None))
