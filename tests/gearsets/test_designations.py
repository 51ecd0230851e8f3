"""Thread designations as drawings write them, and the series they come from."""

import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gearsets.designations import matching_threads, read_designation, read_thread_or_pitch
from gearsets.name_lookup import UnknownNameError
from gearsets.thread_tables import load_series, series_members, series_names
from solver.quantities.written_lengths import read_length
from solver.quantities.written_pitches import read_pitch
from solver.refusals import AmbiguousRequestError, RefusalError, UnreadableFigureError

EVERY = [thread for name in series_names() if name != "module_worms" for thread in load_series(name)]


@pytest.mark.parametrize("change", [str, str.lower, str.upper], ids=["as it stands", "lower", "upper"])
def test_every_designation_of_every_series_is_read_back_to_itself(change):
    for thread in EVERY:
        found = read_designation(f" {change(thread.designation)} ")
        assert found is not None
        assert (found.designation, found.pitch) == (thread.designation, thread.pitch)


def test_every_module_of_the_worm_series_is_read_as_a_pitch():
    for thread in load_series("module_worms"):
        assert read_thread_or_pitch(thread.designation) == (thread.pitch, None)


@pytest.mark.parametrize(
    ("text", "designation"),
    [
        ("M6", "M6x1"),
        ("m6", "M6x1"),
        ("M6x0.75", "M6x0.75"),
        ("M 6 X .75", "M6x0.75"),
        ("M6×0.75", "M6x0.75"),
        ("M5.5", "M5.5x0.5"),
        ("M0.3", "S 0.3"),
        ("M6-6g", "M6x1"),
        ("M6x1 - 6H/6g", "M6x1"),
        ("1/4-20 UNC", "1/4-20 UNC"),
        ("1/4 - 20unc", "1/4-20 UNC"),
        ('1/4"-20 UNC-2A', "1/4-20 UNC"),
        ("¼ UNF", "1/4-28 UNF"),
        ("0.25 UNF", "1/4-28 UNF"),
        ("1-1/2-6 UNC", "1 1/2-6 UNC"),
        ("2-4 1/2 UNC", "2-4 1/2 UNC"),
        ("1/4-28 UN", "1/4-28 UNF"),
        ("1/4-20", "1/4-20 UNC"),
        ("No.4-40", "No.4-40 UNC"),
        ("no 4 - 40", "No.4-40 UNC"),
        ("#4-40 UNC", "No.4-40 UNC"),
        ("#10 UNF", "No.10-32 UNF"),
        ("2 BA", "2 BA"),
        ("2ba", "2 BA"),
        ("G 1/4", "G 1/4"),
        ('g1/4"', "G 1/4"),
        ("1/4 BSPP", "G 1/4"),
        ("Tr 16x4", "Tr 16x4"),
        ("tr16 x 4", "Tr 16x4"),
        ("3/8 BSF", "3/8 BSF"),
        ("Acme 1/2-10", "Acme 1/2-10"),
        ("1/2-10 Acme", "Acme 1/2-10"),
        ("Thury 5", "Thury 5"),
        ("Thury -5", "Thury -5"),
        ("1/4 NPT", "1/4 NPT"),
        ("1/4-40 ME", "1/4-40 ME"),
        ("1/4 x 40 tpi ME", "1/4-40 ME"),
        ("#00-90", "No.00-90"),
        ("No. 0000-160", "No.0000-160"),
        ("#0-80", "No.0-80 UNF"),
        ("1 1/2-8 UN", "1 1/2-8 UN"),
        ("1-14 UNS", "1-14 UNS"),
        ("R 1/4", "R 1/4"),
        ("1/4 BSPT", "R 1/4"),
        ("3/8-26 brass", "3/8-26 Brass"),
        ("5/16-26 CEI", "5/16-26 BSC"),
        ("Löwenherz 6", "Loewenherz 6"),
        ("watch plate 5", "Watch-plate 5"),
        ("M42", "M42x4.5"),
        ("m42x1", "M42x1"),
        ("rms", "RMS"),
        ("C mount", "C-mount"),
    ],
)
def test_a_designation_is_found_however_it_is_written(text, designation):
    thread = read_designation(text)
    assert thread is not None
    assert thread.designation == designation


@pytest.mark.parametrize(
    "text",
    [
        "1.25mm",
        "20tpi",
        "11 1/2 tpi",
        "11-1/2 tpi",
        "1/20 in",
        '0.05"',
        "0.2 in CP",
        "24 DP",
        "module 0.5",
        "mod 1",
        "M",
        "No.",
        "#",
        "-",
        "",
        " ",
        "1/4",
        "1,25 mm",
        "1/0 UNC",
        "UNC",
        "__import__('os')",
        "M" * 500,
        "MM 6",
    ],
)
def test_what_is_no_designation_is_left_to_the_reader_of_pitches(text):
    assert read_designation(text) is None


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("M6x1.25", ["M6x1", "M6x0.75"]),
        ("M6x0.1", ["M6x1", "M6x0.75"]),
        ("M14x1.2", ["M14x1.5", "M14x1.25"]),
        ("1/4-21", ["1/4-20 UNC"]),
        ("M6.5", ["M6x1", "M7x1"]),
        ("M700x6", ["M160x6"]),
        ("1/4-19 UNC", ["1/4-20 UNC"]),
        ("99 BA", ["25 BA"]),
        ("G 1/3", ["G 3/8"]),
        ("Tr 16x5", ["Tr 16x4"]),
        ("3/8-7", ["3/8-16 UNC"]),
        ("1/2-100", ["1/2-28 UNEF"]),
        ("Acme 1-1", ["Acme 1-5"]),
        ("4-36", ["4-4 UNC"]),
        ("No.4-36", ["No.4-40 UNC"]),
        ("#7-32", ["No.6-32 UNC", "No.8-32 UNC"]),
        ("Thury -30", ["Thury -20"]),
    ],
)
def test_a_designation_that_is_not_in_the_tables_is_met_with_its_neighbours(text, near):
    with pytest.raises(UnreadableFigureError) as caught:
        read_designation(text)
    for name in near:
        assert name in caught.value.help_text


@pytest.mark.parametrize("text", ["1/4 UN", "No.4", "M15", "1/4 ME", "Tr 16"])
def test_a_size_made_with_several_pitches_asks_which(text):
    with pytest.raises(AmbiguousRequestError, match="several pitches"):
        read_designation(text)


@pytest.mark.parametrize("text", ["M6 hello", "M6 LH", "Tr 16x8(P4)", "2 BA 3", "M6x", "M6-6z", "M6,5", "#4 BSW"])
def test_what_does_not_belong_to_a_designation_is_refused(text):
    with pytest.raises(UnreadableFigureError):
        read_designation(text)


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("1/4-20 UNX", "UNC"),
        ("3 BSQ", "BSW"),
        ("Trr 16x4", "Tr"),
        ("Lowenherz 6", "Loewenherz"),
        ("3/8 BSFF", "BSF"),
        ("1/4-20 UNCC", "UNC"),
    ],
)
def test_a_misspelt_series_is_met_with_the_ones_like_it(text, near):
    with pytest.raises(UnreadableFigureError, match="no thread series") as caught:
        read_thread_or_pitch(text)
    assert near in caught.value.help_text


@pytest.mark.parametrize("text", ["1.25m", "20tp", "20 tip", "6 parsecs"])
def test_a_unit_gone_wrong_is_not_taken_for_a_series(text):
    with pytest.raises(UnreadableFigureError, match="not a unit of pitch"):
        read_thread_or_pitch(text)


def test_a_size_and_pitch_that_two_series_share_names_both():
    assert [thread.series for thread in matching_threads("1/4-20")] == ["unc", "bsw"]


@pytest.mark.parametrize(
    ("text", "pitch", "designation"),
    [
        ("Tr 16x4, 2 starts", "4 mm, 2 starts", "Tr 16x4"),
        ("Tr 16x8(P4)", "4 mm, 2 starts", "Tr 16x4"),
        ("tr 16 x 12 (P 4)", "4 mm, 3 starts", "Tr 16x4"),
        ("M6 1 start", "1 mm", "M6x1"),
        ("1/4-20 UNC 3 STARTS", "20 tpi, 3 starts", "1/4-20 UNC"),
        ("2mm, 3 starts", "2 mm, 3 starts", None),
        ("module 0.5", "module 0.5", None),
    ],
)
def test_starts_may_follow_a_designation_or_a_pitch(text, pitch, designation):
    found, thread = read_thread_or_pitch(text)
    assert found == read_pitch(pitch)
    assert (thread.designation if thread else None) == designation


@pytest.mark.parametrize(
    "text",
    [
        "M6 0 starts",
        "M6 100 starts",
        "M6, starts",
        "M6 99999 starts",
        "Tr 16x7(P4)",
        "Tr 16x4(P0)",
        "Tr 16x(P4)",
        "(P4)",
    ],
)
def test_starts_that_cannot_be_are_refused(text):
    with pytest.raises(UnreadableFigureError):
        read_thread_or_pitch(text)


@given(st.text(max_size=200) | st.text("M6x0.75 1/4-20UNCFBAStartsGr#No,", max_size=20))
def test_no_text_whatever_gives_anything_but_a_thread_a_pitch_or_a_refusal(text):
    try:
        pitch, _ = read_thread_or_pitch(text)
    except RefusalError:
        return
    assert pitch.figure > 0


@pytest.mark.from_memory("general knowledge: threads every shop knows")
@pytest.mark.parametrize(
    ("text", "diameter", "pitch"),
    [
        ("M3", "3 mm", "0.5 mm"),
        ("M8", "8 mm", "1.25 mm"),
        ("M12", "12 mm", "1.75 mm"),
        ("M24", "24 mm", "3 mm"),
        ("1/4 UNC", "1/4 in", "20 tpi"),
        ("1/2 UNC", "1/2 in", "13 tpi"),
        ("1/2 BSW", "1/2 in", "12 tpi"),
        ("1/4 BSF", "1/4 in", "26 tpi"),
        ("0 BA", "6 mm", "1 mm"),
        ("4 BA", "3.6 mm", "0.66 mm"),
        ("G 1/2", "20.955 mm", "14 tpi"),
        ("1/2 NPT", "0.84 in", "14 tpi"),
        ("1 NPT", "1.315 in", "11 1/2 tpi"),
        ("#10-32", "0.19 in", "32 tpi"),
        ("Acme 1-5", "1 in", "5 tpi"),
    ],
)
def test_well_known_threads_have_their_well_known_figures(text, diameter, pitch):
    thread = read_designation(text)
    assert thread is not None
    assert thread.diameter == read_length(diameter)
    assert thread.pitch == read_pitch(pitch)


@pytest.mark.parametrize(
    ("word", "members"),
    [
        ("metric", ("iso_coarse", "iso_fine")),
        ("Unified", ("unc", "unf", "unef")),
        ("whitworth", ("bsw", "bsf")),
        ("module", ("module_worms",)),
        ("iso-coarse", ("iso_coarse",)),
        ("ISO_FINE", ("iso_fine",)),
    ],
)
def test_a_series_goes_by_several_names(word, members):
    assert series_members(word) == members
    assert {thread.series for thread in load_series(word)} == set(members)


def test_an_unknown_series_is_met_with_near_names():
    with pytest.raises(UnknownNameError, match="Near names: metric"):
        load_series("metrik")


def test_reading_a_lathe_opens_no_thread_table_and_needs_no_look_alike_search():
    code = (
        "import sys; from gearsets.lathe_files import find_lathe; import gearsets.designations; find_lathe('inch-8');"
        "print([name for name in ('csv', 'difflib', 'sympy', 'ortools') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
