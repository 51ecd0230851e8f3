"""Job files: every fault at once with its place and what would be right, and nothing hostile gets through."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gearsets.file_faults import FileFaultsError
from gearsets.job_files import JOBS, MOST_PARTS, find_job, job_names, load_job_text
from gearsets.job_links import ring_of
from gearsets.job_parts import (
    DialPart,
    DividedPart,
    ShapedPart,
    SlottedPart,
    ThreadPart,
    WheelPart,
    WormPart,
)
from gearsets.name_lookup import UnknownNameError
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.trains.hand import Hand

HEAD = 'name = "a"\nlathe = "inch-8"\nhead = "head-60"\n'


def job_of(*parts, head=HEAD):
    return load_job_text(head + "".join(f"[[parts]]\n{part}\n" for part in parts), "mine.toml")


def faults_of(*parts, head=HEAD):
    with pytest.raises(FileFaultsError) as refusal:
        job_of(*parts, head=head)
    return [str(fault) for fault in refusal.value.faults]


@pytest.mark.parametrize("name", job_names())
def test_every_shipped_job_loads_with_its_lathe_and_head(name):
    job = find_job(name, {})
    assert job.lathe is not None
    assert job.head is not None
    assert len({part.name for part in job.parts}) == len(job.parts)


def test_the_tellurion_holds_a_part_of_every_kind():
    kinds = {type(part.product) for part in find_job("tellurion", {}).parts}
    assert kinds == {DialPart, DividedPart, ShapedPart, SlottedPart, ThreadPart, WheelPart, WormPart}


def test_the_wheel_of_a_worm_takes_its_teeth_and_its_lead_is_a_multiple_of_pi():
    worm, wheel = job_of(
        'name = "worm"\nworm = { size = "module 0.5", teeth = 73 }', 'name = "wheel"\nwheel = "worm"'
    ).parts
    assert worm.product.lead == PiLength(Length.of_mm("0.5").mm)
    assert wheel.product.turn == 1 / Length.of_mm(73).mm


def test_every_fault_is_told_at_once_with_its_place_and_what_would_be_right():
    faults = faults_of(
        'name = "a"\nthread = "1.25"',
        'name = "a"\nthread = "M6"\ndivide = 7',
        'name = "c"\nafter = ["d"]\nthread = "M6"\nwithin = "1000"',
        'thread = "M6"\npairs = 9\nquantity = 0\ncolour = "red"',
        head='name = "a"\nlathe = "inhc-8"\nhead = "no-such-head"\none_box = true\nmounted = "40-"\n',
    )
    text = "\n".join(faults)
    for piece in (
        'parts[1].thread (line 8): "1.25" cannot be read',
        "parts[2].divide (line 12): has thread and divide; write one of",
        "parts[2].name (line 10): is the name of part 1 too; give each part a name of its own",
        "parts[3].after (line 15): names 'd', and no part is called so; ",
        'parts[3].within (line 17): "1000" cannot be read, an error needs its unit',
        "parts[4].name (line 18): is missing",
        "parts[4].pairs (line 20)",
        "parts[4].quantity (line 21)",
        "parts[4].colour (line 22): is not a key known here",
        "lathe (line 2): no lathe is called 'inhc-8'; near names: inch-8",
        "head (line 3): no head is called 'no-such-head'; ",
        "mounted (line 5)",
    ):
        assert piece in text, text


@pytest.mark.parametrize(
    ("part", "piece"),
    [
        ("divide = 0", "divide"),
        ("divide = 7.5", "divide"),
        ('angle = "400 deg"', "is not above 0 and at most 360 deg"),
        ('worm = { size = "module 0.5" }', "worm.teeth"),
        ('worm = { size = "module 0.5", teeth = 12 }', "undercut"),
        ('worm = { size = "0.5", teeth = 73 }', "cannot be read"),
        ('wheel = "a"', "which is no worm"),
        ('wheel = "b"', "and no part is called so"),
        ('shape = { name = "square" }', "is missing, and no size is given"),
        ('shape = { name = "round", from = "8 mm" }', "is no shape known here"),
        ('shape = { name = "square", from = "8 mm", across_flats = "9 mm" }', "outside a round"),
        ('shape = { name = "square", across_flats = "8 mm", across_corners = "9 mm" }', "a second time"),
        ('slot = { in = "8 mm", width = "9 mm", depth = "1 mm" }', "reaches the side of the round"),
        ('slot = { in = "8 mm", width = "0 mm", depth = "1 mm" }', "above zero"),
        ('dial = { screw = "1 mm" }', "no marks are given"),
        ('dial = { screw = "1 mm", reads = "2 mm" }', "more than a whole turn"),
        ('thread = "M6"\nhand = "up"', "right or left"),
        ('thread = "M6"\nwithin = "200 %"', "no tolerance"),
        ('thread = "M6"\nmethod = "plain"', "is not a key known here"),
        ('divide = 7\nmethod = "magic"', "a method is one of"),
        ('thread = "Tr 16x4, 2 starts"\nstarts = 3', "the thread says 2"),
        ("", "does not say what it is"),
    ],
)
def test_a_part_that_cannot_be_so_is_refused_with_its_reason(part, piece):
    assert piece in "\n".join(faults_of(f'name = "a"\n{part}'))


def test_parts_that_wait_for_one_another_are_named_in_their_ring():
    faults = faults_of(
        'name = "a"\nthread = "M6"\nafter = ["c"]',
        'name = "b"\nthread = "M6"\nafter = ["a"]',
        'name = "c"\nthread = "M6"\nafter = ["b"]',
    )
    assert len(faults) == 1
    assert "goes round in a ring: a waits for c waits for b waits for a; leave one of them out" in faults[0]


@settings(derandomize=True, database=None)
@given(st.lists(st.lists(st.integers(0, 7), max_size=3), min_size=8, max_size=8))
def test_a_ring_is_found_just_when_the_parts_have_no_order(after):
    done, waiting = set(), set(range(8))
    while ready := [each for each in waiting if set(after[each]) <= done]:
        done.update(ready)
        waiting.difference_update(ready)
    ring = ring_of(after)
    assert bool(ring) is bool(waiting)
    assert all(later in after[each] for each, later in zip(ring, (*ring[1:], *ring[:1]), strict=True))


def test_a_long_row_of_parts_is_no_ring_and_breaks_no_stack():
    assert ring_of([(each + 1,) for each in range(5000)] + [()]) == ()


@pytest.mark.parametrize("count", [MOST_PARTS + 1, 10_000])
def test_too_many_parts_are_refused_with_the_limit(tmp_path, count):
    path = tmp_path / "long.toml"
    path.write_text(HEAD + "".join(f'[[parts]]\nname = "p{at}"\nthread = "M6"\n' for at in range(count)))
    with pytest.raises(FileFaultsError) as refusal:
        find_job(str(path))
    assert [str(fault) for fault in refusal.value.faults] == [
        f"parts: has {count:,} parts; a job takes {MOST_PARTS} at most; make several jobs of it, one for each sitting"
    ]


def test_a_file_beyond_a_megabyte_is_not_read(tmp_path):
    path = tmp_path / "huge.toml"
    path.write_text("# " + "x" * 1_000_001)
    with pytest.raises(FileFaultsError, match="is larger than 1000 kB"):
        find_job(str(path))


def test_a_job_without_parts_or_without_its_machines_says_what_to_write():
    assert faults_of(head='name = "a"\n') == [
        "parts: are missing; write [[parts]] above each, with its name and what it is"
    ]
    faults = faults_of('name = "b"\nthread = "M6"', 'name = "c"\ndivide = 7', head='name = "a"\n')
    assert [fault.split(":")[0] for fault in faults] == ["lathe", "head"]
    assert job_of('name = "b"\ndivide = 7', head='name = "a"\nhead = "head-60"\n').lathe is None


def test_a_lathe_beside_the_job_is_found_from_the_job_and_a_faulty_one_is_named(tmp_path):
    lathe = tmp_path / "own.toml"
    lathe.write_text((JOBS.shipped_folder.parent / "lathes" / "metric-3.toml").read_text(encoding="utf-8"))
    job = tmp_path / "job.toml"
    job.write_text('name = "a"\nlathe = "own.toml"\n[[parts]]\nname = "b"\nthread = "M6"\n')
    assert find_job(str(job)).lathe.leadscrew_text == "3 mm"
    lathe.write_text('name = "x"\n')
    with pytest.raises(FileFaultsError, match=r"lathe \(line 2\): its file is faulty, leadscrew.lead: is missing"):
        find_job(str(job))


def test_what_is_mounted_must_be_wheels_of_the_lathe():
    faults = faults_of('name = "b"\nthread = "M6"', head=HEAD + 'mounted = "33-127"\n')
    needed = "33 T is not in the box"
    assert faults == [f"mounted (line 4): {needed}; write what stands on the banjo now, of this lathe's wheels"]


def test_an_unknown_job_is_refused_with_near_names():
    with pytest.raises(UnknownNameError, match="Near names: tellurion"):
        find_job("telurion", {})


@pytest.mark.parametrize("name", ["\x1b[31m", "a\u0000", "\u202e", "x" * 101])
def test_names_and_notes_that_cannot_be_printed_are_refused(name):
    escaped = "".join(f"\\u{ord(letter):04x}" for letter in name)
    for key in ("name", "note"):
        other = "" if key == "name" else 'name = "b"\n'
        assert any(key in fault for fault in faults_of(f'{other}thread = "M6"\n{key} = "{escaped}"'))


def test_script_in_a_name_is_a_name_like_any_other():
    job = job_of('name = "<script>alert(\'x\')</script>"\nthread = "M6"\nnote = "[red]&amp;"')
    assert job.parts[0].name == "<script>alert('x')</script>"
    assert job.parts[0].note == "[red]&amp;"


SCRAPS = st.sampled_from(
    [
        "name",
        "thread",
        "divide",
        "worm",
        "after",
        "shape",
        "=",
        '"M6"',
        "[[parts]]",
        "{",
        "}",
        "[",
        "]",
        "7",
        "\n",
        '"',
        "'",
        ",",
        "x.y",
        "true",
        "1e9",
    ]
)


@settings(derandomize=True, database=None, deadline=None)
@given(st.lists(SCRAPS, max_size=30).map(" ".join), st.booleans())
def test_any_text_is_a_job_or_is_refused_as_a_file(text, with_head):
    try:
        load_job_text((HEAD + "[[parts]]\n" if with_head else "") + text, "any.toml")
    except FileFaultsError as refusal:
        assert refusal.faults


def test_exact_is_a_tolerance_wherever_one_is_written():
    job = job_of(
        'name = "a"\nthread = "M6"',
        'name = "b"\nthread = "M6"\nwithin = "5 um"\nlength = "20 mm"',
        'name = "c"\nthread = "M6"\nwithin = " Exact"',
        'name = "d"\ndivide = 7\nwithin = "exact"',
        'name = "e"\nworm = { size = "module 0.5", teeth = 73 }\nwithin = "1 ppm"',
        'name = "f"\nwheel = "e"\nwithin = "exact"',
        head=HEAD + 'within = "exact"\n',
    )
    assert [f"{part.within}" for part in job.parts] == ["0", "1/4000", "0", "0", "1/1000000", "0"]


def test_a_list_begun_under_a_near_key_is_told_the_key_that_is_meant():
    faults = faults_of('name = "b"\nthread = "M6"\n[[part]]\nname = "c"\nthread = "M5"')
    assert faults == ["part (line 7): is not a key known here; perhaps parts is meant"]


def test_a_pitch_that_a_size_does_not_have_is_answered_with_those_it_has():
    (fault,) = faults_of('name = "b"\nthread = "M14x1.2"')
    assert "M14x1.5 (1.5 mm), M14x1.25 (1.25 mm)" in fault


def test_a_thread_of_a_job_may_say_its_hand_and_its_lead():
    left, lead = job_of(
        'name = "a"\nthread = "Tr 16x4 LH"', 'name = "b"\nthread = "1/2 in lead"\nstarts = 4\nhand = "left"'
    ).parts
    assert (left.product.hand, lead.product.hand) == (Hand.LEFT, Hand.LEFT)
    assert str(lead.product.pitch) == "0.125 in, 4 starts"


def test_a_hand_beside_a_thread_that_says_another_is_a_fault():
    (fault,) = faults_of('name = "a"\nthread = "M6 LH"\nhand = "right"')
    assert "is right, and the thread is written left-hand" in fault
