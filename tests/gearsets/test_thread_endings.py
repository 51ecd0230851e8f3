"""What stands round a thread: hand, starts, and the lead of several starts in the ways of the standards."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gearsets.designations import read_thread_or_pitch, written_class
from gearsets.thread_endings import without_endings, written_hand
from gearsets.thread_tables import load_series, series_names
from solver.refusals import UnreadableFigureError
from solver.trains.hand import Hand
from tests.drawn_cases import cases

EVERY = [thread for name in series_names() if name != "module_worms" for thread in load_series(name)]


@pytest.mark.parametrize(
    ("text", "designation", "of_class", "hand"),
    [
        ("Tr40x7 LH", "Tr 40x7", "", Hand.LEFT),
        ("Tr40x7LH", "Tr 40x7", "", Hand.LEFT),
        # The standards differ on whether the hand stands before the class or behind it.
        ("Tr40x7 LH-7e", "Tr 40x7", "7e", Hand.LEFT),
        ("1-8 UNC-LH", "1-8 UNC", "", Hand.LEFT),
        ("1-8 UNC-2A-LH", "1-8 UNC", "2A", Hand.LEFT),
        ("M10 LH 6g", "M10x1.5", "6g", Hand.LEFT),
        ("M10-6g left", "M10x1.5", "6g", Hand.LEFT),
        ("M10 l.h.", "M10x1.5", "", Hand.LEFT),
        ("left-hand M10", "M10x1.5", "", Hand.LEFT),
        ("LH 2 BA", "2 BA", "", Hand.LEFT),
        ("G 1/2 A LH", "G 1/2", "A", Hand.LEFT),
        ("M6 RH", "M6x1", "", Hand.RIGHT),
        ("M6", "M6x1", "", None),
    ],
)
def test_the_hand_is_read_apart_from_the_thread(text, designation, of_class, hand):
    assert read_thread_or_pitch(text)[1].designation == designation
    assert (written_class(text), written_hand(text)) == (of_class, hand)


@pytest.mark.parametrize("text", ["1.5mm LH", "20 tpi left hand", "module 0.5, LH", "left-handed 20 tpi"])
def test_a_plain_pitch_may_be_left_hand_too(text):
    pitch, thread = read_thread_or_pitch(text)
    assert thread is None
    assert pitch == read_thread_or_pitch(without_endings(text).whole)[0]
    assert written_hand(text) is Hand.LEFT


@pytest.mark.parametrize("text", ["LH", "M6 LHX", "M6 left3", "1/4-20 UNCLH", "Tr 16x4 L"])
def test_what_is_no_word_of_a_hand_is_not_taken_for_one(text):
    assert written_hand(text) is None
    with pytest.raises(UnreadableFigureError):
        read_thread_or_pitch(text)


@pytest.mark.parametrize("text", ["M6 LH LH", "M6 LH RH", "LH M6 left"])
def test_a_hand_said_twice_is_refused(text):
    with pytest.raises(UnreadableFigureError, match="said once"):
        read_thread_or_pitch(text)


@cases(300)
@given(st.sampled_from(EVERY), st.sampled_from([" LH", "-LH", ", left hand", " l.h."]))
def test_every_thread_is_read_with_its_hand(thread, mark):
    pitch, found = read_thread_or_pitch(thread.designation + mark)
    assert (found.designation, pitch) == (thread.designation, thread.pitch)
    assert written_hand(thread.designation + mark) is Hand.LEFT


# Lead and pitch by the standards' way of writing; starts = lead / pitch by hand.
@pytest.mark.parametrize(
    ("text", "pitch", "designation"),
    [
        ("M16xPh3P1.5", "1.5 mm, 2 starts", "M16x1.5"),
        ("M16 x Ph 3 P 1.5", "1.5 mm, 2 starts", "M16x1.5"),
        ("M16xPh3P1.5-6H", "1.5 mm, 2 starts", "M16x1.5"),
        ("M16×Ph6P2", "2 mm, 3 starts", "M16x2"),
        ("Tr40x14P7", "7 mm, 2 starts", "Tr 40x7"),
        ("Tr40x14(P7)", "7 mm, 2 starts", "Tr 40x7"),
        ("Tr40x14(P7) LH", "7 mm, 2 starts", "Tr 40x7"),
        ("Tr 40x7P7", "7 mm", "Tr 40x7"),
        ("Tr 16x4 2-start", "4 mm, 2 starts", "Tr 16x4"),
        ("Tr 16x4, 2 start", "4 mm, 2 starts", "Tr 16x4"),
        ("1/4-20 UNC 2-start LH", "20 tpi, 2 starts", "1/4-20 UNC"),
    ],
)
def test_lead_and_pitch_give_the_starts(text, pitch, designation):
    found, thread = read_thread_or_pitch(text)
    assert (str(found), thread.designation) == (pitch, designation)


@pytest.mark.parametrize("text", ["Tr 16x7(P4)", "Tr 16x4(P0)", "M16xPh2P1.5", "M16xPh0P1.5"])
def test_a_lead_of_no_whole_number_of_pitches_is_refused(text):
    with pytest.raises(UnreadableFigureError, match="whole number of these pitches"):
        read_thread_or_pitch(text)
