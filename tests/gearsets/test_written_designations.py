"""Designations the way they are really written: signs, blanks, classes, trade words; and what is a near miss."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gearsets.class_words import class_of
from gearsets.designations import read_designation, read_lead_wanted, read_thread_or_pitch, written_class
from gearsets.thread_tables import load_series, series_names
from solver.refusals import AmbiguousRequestError, RefusalError, UnreadableFigureError
from tests.drawn_cases import cases

EVERY = [thread for name in series_names() if name != "module_worms" for thread in load_series(name)]
#: How the same joint is put on paper.
HYPHENS = ["-", " - ", "\N{EN DASH}", " \N{EN DASH} ", "\N{MINUS SIGN}", "\N{NON-BREAKING HYPHEN}"]
TIMES = ["x", " x ", "X", "×", " × "]
OWN_CLASSES = {"instrument_inch": "", "pipe_r": "", "pipe_g": "A"}
CLASSES = ["6g", "6H", "6h", "2A", "2B", "4h6h", "6H/6g", "5g6g", "3A", "7e", "5h3"]


@pytest.mark.parametrize(
    ("text", "designation"),
    [
        # ISO 1501 writes the miniature series with S.
        ("S0.5", "S 0.5"),
        ("4-40", "No.4-40 UNC"),
        ("10-32", "No.10-32 UNF"),
        ("10-32 UNF", "No.10-32 UNF"),
        ("6-32 2A", "No.6-32 UNC"),
        ("S 0.8", "S 0.8"),
        ("s.8", "S 0.8"),
        ("S0.8x0.2", "S 0.8"),
        ("S1.2", "S 1.2"),
        ("S0.8-5h3", "S 0.8"),
        ("S1 3G5", "S 1"),
        ("1/4 Whit", "1/4 BSW"),
        ("1/4 W", "1/4 BSW"),
        ("1/4-20 Whitworth", "1/4 BSW"),
        ("¼ whit", "1/4 BSW"),
        ("1/4 BSW medium", "1/4 BSW"),
        ("3/8 BSF free", "3/8 BSF"),
        ("1/4-20 UNC 2A", "1/4-20 UNC"),
        ("1/4-20UNC-2A", "1/4-20 UNC"),
        ("1/4-20 2A", "1/4-20 UNC"),
        ("1/4-20-2B", "1/4-20 UNC"),
        ("1/4 UNF 3A", "1/4-28 UNF"),
        ("M10 6g", "M10x1.5"),
        ("M10-6g", "M10x1.5"),
        ("M10 x 1.25 - 6H", "M10x1.25"),
        ("M10×1.25–6H/6g", "M10x1.25"),
        ("M10x1 5g6g", "M10x1"),
        ("No. 4-40", "No.4-40 UNC"),
        ("No 4 - 40 UNC 2A", "No.4-40 UNC"),
        ("#4-40", "No.4-40 UNC"),
        ("#4–40 2A", "No.4-40 UNC"),
        ('1/4"-20', "1/4-20 UNC"),
        ("1/4''-20", "1/4-20 UNC"),
        ("1/4”-20 UNC", "1/4-20 UNC"),
        ("1/4in-20", "1/4-20 UNC"),
        ("1/4 in - 20", "1/4-20 UNC"),
        ("1/4 inch-20 UNC", "1/4-20 UNC"),
        ("1/4in x 20 tpi 2A", "1/4-20 UNC"),
        ("1/4–20 UNC", "1/4-20 UNC"),
        ("1 1/2–6 UNC 2A", "1 1/2-6 UNC"),
        ("2-4½ UNC", "2-4 1/2 UNC"),
        ("G 1/2 A", "G 1/2"),
        ("Tr 16×4-7e", "Tr 16x4"),
        ("Thury \N{MINUS SIGN}5", "Thury -5"),
        ("1/2-10 Acme 2G", "Acme 1/2-10"),
        ("watch-plate 5", "Watch-plate 5"),
        ("Watch plate 5", "Watch-plate 5"),
        ("WATCHPLATE 5", "Watch-plate 5"),
        # The series before its size.
        ("BSW 1/4", "1/4 BSW"),
        ("BSF 1/4", "1/4 BSF"),
        ("BA 2", "2 BA"),
        ("BA No.2", "2 BA"),
        ("No.2 BA", "2 BA"),
        ("No. 0 BA", "0 BA"),
        ("NPT 1/2", "1/2 NPT"),
        ("UNC 1/4-20", "1/4-20 UNC"),
        ("UNF 1/4", "1/4-28 UNF"),
        ("UNC 1/4-20 2A", "1/4-20 UNC"),
        ("UNC #4-40", "No.4-40 UNC"),
        ("Brass 1/4", "1/4-26 Brass"),
        ("1/4-20 NC", "1/4-20 UNC"),
        ("10-32 NF", "No.10-32 UNF"),
        ("1/2 BSP", "G 1/2"),
        ("BSP 1/2", "G 1/2"),
        ("Rp 1/2", "G 1/2"),
        ("Rc 1/2", "R 1/2"),
        ("0-80", "No.0-80 UNF"),
        ("00-90", "No.00-90"),
        ("000-120", "No.000-120"),
        ("#3/0-120", "No.000-120"),
        ("3/0-120", "No.000-120"),
        ("2/0-90 UNF", "No.00-90"),
        ("0 Thury", "Thury 0"),
        ("-5 Thury", "Thury -5"),
    ],
)
def test_a_thread_is_found_as_it_is_written_in_the_trade(text, designation):
    thread = read_designation(text)
    assert thread is not None
    assert thread.designation == designation


@pytest.mark.parametrize(
    ("text", "of_class"),
    [
        ("M10", ""),
        ("M10-6g", "6g"),
        ("M10 6H", "6H"),
        ("M10 x 1.25 - 6H / 6g", "6H/6g"),
        ("M10x1 5g6g, 2 starts", "5g6g"),
        ("1/4-20 2A", "2A"),
        ("1/4-20 UNC-2b", "2b"),
        ("#4-40 UNC 3A", "3A"),
        ("S0.8-5h3", "5h3"),
        ("G 1/4 b", "B"),
        ("1/4 BSW Close", "close"),
        ("Tr 16x8(P4)-7e", "7e"),
        ("1.25mm", ""),
    ],
)
def test_the_class_is_read_with_its_capitals_which_tell_nut_from_screw(text, of_class):
    assert written_class(text) == of_class


def test_a_class_stands_behind_starts_in_the_standard_s_own_way_too():
    pitch, thread = read_thread_or_pitch("Tr 16×8(P4) - 7e")
    assert (str(pitch), thread.designation) == ("4 mm, 2 starts", "Tr 16x4")


@pytest.mark.parametrize(
    "text", ["6z", "0g", "g6", "6", "6g6g6g", "6g/6H/6g", "2", "hello", "6g /", "/6g", "A", "²A", "6ǵ"]
)
def test_what_is_no_class_is_not_taken_for_one(text):
    assert class_of(text) is None


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("S0.85", "S 0.8"),
        ("BA 99", "Near it are 25 BA"),
        ("UNC 1/4-19", "1/4-20 UNC"),
        ("00-91", "No.00-90"),
        ("UNC", "Write the size with it, for example No.1-64 UNC"),
        ("1/4-20 UNK", "Did you mean UNC,"),
        ("1/4-28 UNK", "Did you mean UNF,"),
        ("10-33", "Near it are"),
        ("S0.8x0.25", "S 0.8"),
        ("9/64 Whit", "1/8 BSW"),
        ("1/4 Whitt", "Whit"),
        ("1/4-20 UNCA", "UNC"),
        ("watch plate 99", "Watch-plate 17"),
        ("watchplat 5", "Watch-plate"),
        ("M10 6z", "M6-6g"),
        ("M10 6g leftish", "M6-6g"),
        ("M10 LH LH", "For example M6 LH"),
        ("Tr 16x7(P4)", "lead 8, pitch 4, 2 starts"),
    ],
)
def test_a_near_miss_is_met_with_what_was_meant(text, near):
    with pytest.raises(UnreadableFigureError) as caught:
        read_thread_or_pitch(text)
    assert near in caught.value.help_text


@pytest.mark.parametrize(
    "text", ["1/4 in", "0.25in", '1/4"', "11-1/2 tpi", "11 1/2 tpi", "20 2A", "1/4 2A", "2A", "6g"]
)
def test_a_pitch_or_a_class_alone_is_no_designation(text):
    assert read_designation(text) is None


@cases(400)
@given(
    st.sampled_from(EVERY),
    st.sampled_from(HYPHENS),
    st.sampled_from(TIMES),
    st.sampled_from(["", *CLASSES]),
    st.booleans(),
)
def test_every_thread_is_read_back_however_its_joints_and_class_are_written(thread, hyphen, times, of_class, has_dash):
    if "-" in thread.designation and not thread.designation.startswith(("Thury", "Watch", "C-")):
        written = thread.designation.replace("-", hyphen)
    elif thread.designation.startswith(("M", "Tr")):
        written = thread.designation.replace("x", times)
    else:
        written = thread.designation
    if thread.series in OWN_CLASSES and of_class:
        of_class = OWN_CLASSES[thread.series]
    behind = f"{'-' if has_dash else ' '}{of_class}" if of_class else ""
    found = read_designation(written + behind)
    assert found is not None
    assert (found.designation, found.pitch) == (thread.designation, thread.pitch)
    assert written_class(written + behind) == of_class


PIECES = [
    "M", "S", "Tr", "G", "R", "No.", "#", "Thury", "Acme", "watch", "plate", "10", "1/4", "0.8", "1 1/2", "½", "4",
    "20", "x", "×", "-", "–", "−", " ", "(P4)", "(P", ")", "/", ",", ".", "in", '"', "''", "”", "UNC", "UN", "BSW",
    "Whit", "W", "BA", "ME", "NPT", "6g", "6H", "2A", "5h3", "A", "medium", "LH", "2 starts", "starts", "tpi", "mm",
    "module", "é", "\0", "left hand", "Ph3P1.5", "P7", "3/0", "BSP", "Rp", "2-start", "lead", "pitch", "per inch",
]  # fmt: skip


@cases(1500)
@given(st.lists(st.sampled_from(PIECES), max_size=9).map("".join))
def test_no_row_of_pieces_gives_anything_but_a_thread_a_pitch_or_a_refusal(text):
    try:
        pitch, thread = read_thread_or_pitch(text)
    except RefusalError as refusal:
        assert str(refusal)
        return
    assert pitch.figure > 0
    if thread is not None:
        assert thread.pitch.figure == pitch.figure
        written_class(text)


# ISO 1501 writes the miniature series S 0.8, from memory: M1.2 and S 1.2 are of one diameter and pitch, not one form.
@pytest.mark.from_memory("ISO 1501, ISO miniature screw threads, edition not seen, designation")
@pytest.mark.parametrize("thread", load_series("iso_miniature"), ids=lambda thread: thread.designation)
def test_a_miniature_thread_reads_back_as_itself_and_not_as_the_coarse_one(thread):
    assert thread.designation.startswith("S ")
    assert read_designation(thread.designation) == thread
    coarse = read_designation(thread.designation.replace("S ", "M"))
    assert coarse.pitch.pitch == thread.pitch.pitch
    assert (coarse.series == "iso_coarse") == (thread.diameter.mm >= 1)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("m0.5", "m0.5 may be the module of a worm or a thread\nFor the worm write module 0.5; for the thread S 0.5."),
        ("M.8", "M.8 may be the module of a worm or a thread\nFor the worm write module 0.8; for the thread S 0.8."),
        ("m 1", "m 1 may be the module of a worm or a thread\nFor the worm write module 1; for the thread M1."),
        ("m2, 2 starts", "m2 may be the module of a worm or a thread\nFor the worm write module 2; for the thread M2."),
    ],
)
def test_a_sign_that_gear_cutters_use_for_the_module_is_no_thread_where_a_lead_is_wanted(text, says):
    with pytest.raises(AmbiguousRequestError) as caught:
        read_lead_wanted(text)
    assert str(caught.value) == says


@pytest.mark.parametrize(
    ("text", "pitch"),
    [("M1", "0.25 mm"), ("m1x0.25", "0.25 mm"), ("m6-6g", "1 mm"), ("S0.5", "0.125 mm"), ("module 0.5", "module 0.5")],
)
def test_what_says_that_it_is_a_thread_is_one_where_a_lead_is_wanted(text, pitch):
    assert str(read_lead_wanted(text)[0]) == pitch


@pytest.mark.parametrize("text", ["0 per inch", "0 per cm", "0 to inch", "0 threads per inch"])
def test_no_grooves_at_all_are_no_series_gone_wrong(text):
    with pytest.raises(UnreadableFigureError, match="a pitch is above zero") as caught:
        read_lead_wanted(text)
    assert "Did you mean" not in caught.value.help_text


@pytest.mark.parametrize("text", ["M0", "m0"])
def test_no_size_is_offered_as_neither_module_nor_thread(text):
    with pytest.raises(UnreadableFigureError, match="not in the tables") as caught:
        read_lead_wanted(text)
    assert "module 0" not in caught.value.help_text
