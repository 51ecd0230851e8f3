"""``thread`` as a person runs it: screens, JSON, refusals."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.cli.running import answer_of, halfnut

ASKED = [
    ("M10",),
    ("1/4-20 UNC",),
    ("2 BA",),
    ("Tr 16x4",),
    ("7/8 BSF",),
    ("0.7mm", "--major", "6mm"),
    ("Acme 1/2-10", "--starts", "2", "--hand", "left"),
    ("5tpi", "--major", "1in", "--form", "square", "--internal"),
    ("1/2 NPT",),
    ("R 1/4",),
    ("M0.3",),
    ("Watch-plate 5", "--form", "60"),
]


@pytest.mark.parametrize("words", ASKED, ids=" ".join)
@pytest.mark.parametrize("columns", [80, 60])
def test_a_screen_fits_its_columns_and_has_every_section(words: tuple[str, ...], columns: int) -> None:
    outcome = halfnut("thread", *words, columns=columns)
    assert outcome.returncode == 0, outcome
    assert outcome.stderr == ""
    for title in ("DIMENSIONS", "CUTTING", "PASSES", "SPEED", "MEASURING", "TAPPING HOLE", "Early check", "Cautions"):
        assert title in outcome.stdout
    assert max(map(len, outcome.stdout.splitlines())) <= columns
    assert "safe" not in outcome.stdout


@pytest.mark.parametrize("words", ASKED, ids=" ".join)
def test_json_marks_what_is_exact_and_the_passes_add_up(words: tuple[str, ...]) -> None:
    answer = answer_of("thread", *words)
    major = answer["basic"]["screw"]["major"]
    if words[0] != "1/2 NPT":
        assert major["exact"] is True
        assert Fraction(major["mm"]) == Fraction(major["in"]) * Fraction(127, 5)
    cut = answer["cutting"]
    total = sum(Fraction(each["adds"]["mm"]) for each in cut["passes"])
    assert cut["passes"][-1]["cross_slide"] == cut["depth_from_touch"]
    # Figures that are no fractions are told with twelve decimals.
    assert abs(total - Fraction(cut["depth_from_touch"]["mm"])) <= Fraction(1, 10**12)
    least = Fraction(cut["least_cut"]["mm"])
    assert all(Fraction(each["adds"]["mm"]) >= least for each in cut["passes"] if not each["spring"])
    assert Fraction(answer["lead"]["mm"]) == Fraction(answer["pitch"]["mm"]) * answer["starts"]


def test_an_exact_diameter_is_a_fraction_and_another_is_marked_as_cut() -> None:
    exact, cut = (answer_of("thread", each, "--show", "dimensions")["basic"]["screw"] for each in ("2 BA", "M10"))
    assert exact["pitch"] == {"mm": "843/200", "in": "843/5080", "exact": True}
    assert cut["pitch"]["exact"] is False
    assert cut["pitch"]["mm"].startswith("9.02572")


def test_only_the_sections_asked_for_are_answered() -> None:
    assert "CUTTING" not in halfnut("thread", "M6", "--show", "hole").stdout
    answer = answer_of("thread", "M6", "--show", "hole", "--show", "speed")
    assert {"hole", "speed"} <= answer.keys()
    assert not {"basic", "cutting", "measuring"} & answer.keys()


def test_the_unit_of_the_set_up_is_that_of_the_pitch_unless_asked_otherwise() -> None:
    assert "inch readings" in halfnut("thread", "1/4-20 UNC", "--show", "cutting").stdout
    assert "mm readings" in halfnut("thread", "1/4-20 UNC", "--mm", "--show", "cutting").stdout
    assert "inch readings" in halfnut("thread", "M6", "--inch", "--show", "cutting").stdout


def test_a_reading_is_turned_into_a_pitch_diameter_and_judged() -> None:
    words = ("thread", "M10", "--show", "measuring", "--wire", "0.866mm", "--reading")
    assert "WITHIN class 6g" in halfnut(*words, "10.25mm").stdout
    assert "TOO LARGE for class 6g" in halfnut(*words, "10.31mm").stdout


def test_the_hand_changes_the_sides_of_the_tool() -> None:
    right, left = (halfnut("thread", "M10", "--show", "cutting", "--hand", each).stdout for each in ("right", "left"))
    assert "leading (left)" in right
    assert "leading (right)" in left


# A left-hand thread is cut away from the headstock, out of a groove at its end there: common practice, and what `train`
# says of the same thread.
@pytest.mark.practice("common practice, no source: which way a left-hand thread is cut, and what it begins in")
@pytest.mark.parametrize(("words", "made"), [((), "turned"), (("--internal",), "bored")])
def test_a_left_hand_thread_says_where_it_begins_and_which_way_it_goes(words: tuple[str, ...], made: str) -> None:
    outcome = halfnut("thread", "M4", *words, "--hand", "left", "--length", "10mm")
    left = " ".join(outcome.stdout.split())
    assert (
        f"Tool goes away from the headstock with the spindle forward, out of a groove {made} at the headstock" in left
    )
    assert "Groove to begin in, about" in left
    assert "to stop in on the way back: no full thread there" in left
    assert "Free end chamfer of 45°" in left
    assert "Left-hand: set the tool in the groove before the spindle starts." in left
    assert "to stop in on the way back, 1 s" in left
    assert "the groove it begins in leaves" in left
    right = " ".join(halfnut("thread", "M4", *words, "--length", "10mm").stdout.split())
    assert "Tool goes towards the headstock with the spindle forward" in right
    assert "Run-out at a shoulder" in right
    for word in ("Left-hand:", "out of a groove", "on the way back", "Free end"):
        assert word not in right


def test_the_way_of_the_tool_stands_in_the_json_of_the_cutting() -> None:
    ways = [answer_of("thread", "M4", "--hand", each)["cutting"]["tool_travel"] for each in ("left", "right")]
    assert [each["begins_in_groove"] for each in ways] == [True, False]
    assert [each["to_headstock"] for each in ways] == [False, True]


def test_the_approach_to_a_shoulder_sets_the_speed_where_it_is_slower() -> None:
    slow = answer_of("thread", "M10", "--show", "speed", "--run-out", "3mm", "--reaction", "1 s")["speed"]
    assert (slow["take_rpm"], slow["set_by"]) == (120, "approach")
    words = ("--run-out", "20mm", "--surface-speed", "20 m/min")
    assert answer_of("thread", "M10", "--show", "speed", *words)["speed"]["set_by"] == "surface speed"


IMPOSSIBLE = [
    (("M10", "--engagement", "-5%"), "no thread a tap can leave"),
    (("M10", "--wire", "2mm"), "outside the flanks"),
    (("M10", "--nose-radius", "1mm"), "too large for this root"),
    (("2mm", "--major", "2mm"), "no core is left"),
    (("M10", "--slide-angle", "40 deg"), "trailing flank"),
    (("M10", "--blank", "8mm"), "nothing to cut"),
    # Pitch diameter 9.026 mm (ISO 724 as remembered), and the height of the sharp V, 1.299 mm, above and below it.
    (("M10", "--blank", "12mm"), "meet at 10.325 mm"),
    (("M10", "--internal", "--blank", "7.7mm"), "meet at 7.727 mm"),
    (("module 1", "--major", "10mm"), "worm"),
    (("M10", "--internal", "--wire", "0.9mm"), "not the nut"),
    (("0.1mm", "--major", "5mm", "--form", "29"), "so fine a pitch"),
    (("1/2 NPT", "--engagement", "75%"), "tapered"),
]
UNREADABLE = [
    (("1/4-20 UNX",), "UNC"),
    (("20tpi",), "--major"),
    (("Watch-plate 5",), "--form"),
    (("M6", "--form", "61"), "whitworth"),
    (("M6", "--basis", "full"), "3H/4"),
    (("M6", "--engagement", "75"), "75%"),
    (("M6", "--surface-speed", "25"), "m/min"),
    (("M6", "--reaction", "0 s"), "seconds"),
    (("M6", "--wire", "0mm"), "above zero"),
    (("M6", "--major", "6mm"), "--major"),
    (("M6", "--passes", "5", "--first-cut", "0.1mm"), "--passes"),
    (("M6", "--nose-flat", "0.1mm", "--nose-radius", "0.1mm"), "radius or a flat"),
    (("M6", "--show", "hole", "--wire", "0.5mm"), "measuring"),
    (("M6, 2 starts", "--starts", "3"), "3"),
    (("",), "nothing is written"),
    (("7" * 5000,), "too long"),
]


@pytest.mark.parametrize(
    ("status", "words", "said"),
    [(1, *each) for each in IMPOSSIBLE] + [(2, *each) for each in UNREADABLE],
)
def test_bad_input_is_refused_with_its_status_and_what_would_help(
    status: int, words: tuple[str, ...], said: str
) -> None:
    outcome = halfnut("thread", *words)
    assert outcome.returncode == status, outcome
    assert said in outcome.stderr
    assert outcome.stdout == ""
    assert "Traceback" not in outcome.stderr


ISO_MEMORY = pytest.mark.from_memory(
    "ISO 965-1, ISO general purpose metric screw threads, tolerances, edition not seen, M10 6g and 6H"
)
ASME_MEMORY = pytest.mark.from_memory(
    "ASME B1.1, Unified inch screw threads (UNC, UNF, UNEF), edition not seen, 2A and 2B"
)


def row_after(screen: str, title: str, name: str) -> list[str]:
    """The cells of the first row of a diameter after a title."""
    lines = screen.split(title)[1].splitlines()
    return next(line.split()[2:] for line in lines if line.split()[:2] == [name, "dia"])


# The mm column of a metric class and the inch column of a unified one are the standard's limits, from the tables of
# ISO 965-2 and ASME B1.1 as remembered; the other unit is 25.4 mm to the inch of those, rounded to within them:
# 0.196 and 0.207 in are 4.9784 and 5.2578 mm, 9.026 mm is 0.35535 in.
@pytest.mark.parametrize(
    ("words", "title", "name", "cells"),
    [
        pytest.param("M10", "DIMENSIONS", "pitch", ["9.026", "0.3553", "9.026", "0.3553"], marks=ISO_MEMORY),
        pytest.param("M10", "class 6H", "pitch", ["9.026", "9.206", "0.3554", "0.3624"], marks=ISO_MEMORY),
        pytest.param("M10", "class 6g", "pitch", ["8.862", "8.994", "0.3489", "0.3540"], marks=ISO_MEMORY),
        pytest.param("1/4-20 UNC", "class 2A", "major", ["6.117", "6.322", "0.2408", "0.2489"], marks=ASME_MEMORY),
        pytest.param("1/4-20 UNC", "class 2A", "pitch", ["5.403", "5.496", "0.2127", "0.2164"], marks=ASME_MEMORY),
        pytest.param("1/4-20 UNC", "class 2B", "pitch", ["5.525", "5.648", "0.2175", "0.2224"], marks=ASME_MEMORY),
        pytest.param("1/4-20 UNC", "class 2B", "minor", ["4.979", "5.257", "0.1960", "0.2070"], marks=ASME_MEMORY),
        pytest.param("1/2-13 UNC", "class 2B", "minor", ["10.592", "11.023", "0.4170", "0.4340"], marks=ASME_MEMORY),
        pytest.param("1/4-28 UNF", "class 2B", "minor", ["5.360", "5.588", "0.2110", "0.2200"], marks=ASME_MEMORY),
    ],
)
def test_a_limit_in_the_other_unit_is_the_printed_one_rounded_to_within_it(
    words: str, title: str, name: str, cells: list[str]
) -> None:
    assert row_after(halfnut("thread", words, "--show", "dimensions").stdout, title, name) == cells


def test_the_bore_a_class_allows_agrees_with_its_limits_in_either_unit() -> None:
    screen = " ".join(halfnut("thread", "1/4-20 UNC", "--internal", "--show", "cutting").stdout.split())
    assert "class 2B allows 0.1960 in (4.979 mm) to 0.2070 in (5.257 mm)" in screen
    screen = " ".join(halfnut("thread", "M10", "--inch", "--internal", "--show", "cutting").stdout.split())
    assert "class 6H allows 0.3298 in (8.376 mm) to 0.3415 in (8.676 mm)" in screen


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("M10", "--blank", "10.2mm"), "OUTSIDE CLASS 6g: what you gave is above the most"),
        (("M10", "--blank", "9.7mm"), "OUTSIDE CLASS 6g: what you gave is below the least"),
        (("M10", "--internal", "--blank", "8mm"), "OUTSIDE CLASS 6H: what you gave is below the least"),
        (("M10", "--blank", "9.8mm"), None),
        (("2 BA", "--blank", "4.75mm"), None),
    ],
)
def test_a_blank_outside_its_class_is_remarked_on(words: tuple[str, ...], said: str | None) -> None:
    screen = " ".join(halfnut("thread", *words, "--show", "cutting").stdout.split())
    assert (said in screen) if said else ("OUTSIDE" not in screen)
    expected = None if words[0] == "2 BA" else said is not None
    assert answer_of("thread", *words, "--show", "cutting")["cutting"]["blank_outside_class"] is expected


def test_a_thin_core_is_told_loudly_and_a_usual_one_not() -> None:
    thin = halfnut("thread", "2mm", "--major", "4mm", "--show", "dimensions").stdout
    assert "THIN: 1.546 mm (0.0609 in), 39 % of the diameter" in thin
    assert "THIN" not in halfnut("thread", "M10", "--show", "dimensions").stdout
    core = answer_of("thread", "2mm", "--major", "4mm", "--show", "dimensions")["core"]
    assert core["thin"] is True
    assert core["diameter"]["mm"].startswith("1.5462")


# Minor diameters of nuts: Tr 16x4 is 12.000 mm by ISO 2904, Acme 1/2-10 is 0.4000 in by ASME B1.5, stub Acme is 0.6 of
# the pitch below the screw by ASME B1.8, all from memory; a square thread is half the pitch deep by common practice.
@pytest.mark.from_memory("general knowledge: minor diameters of nuts by ISO 2904, ASME B1.5 and B1.8")
@pytest.mark.parametrize(
    ("words", "hole"),
    [
        (("Tr 16x4",), "12.000 mm (0.4724 in): the minor diameter of the nut (ISO 2901)"),
        (("Acme 1/2-10",), "0.4000 in (10.160 mm): the minor diameter of the nut (ASME B1.5)"),
        (("10tpi", "--major", "1/2in", "--form", "stub-acme"), "0.4400 in (11.176 mm): the minor diameter of the nut"),
        (("4mm", "--major", "16mm", "--form", "square"), "12.000 mm (0.4724 in): the minor diameter of the nut"),
        (("Tr 16x4", "--engagement", "75%"), "13.000 mm (0.5118 in) leaves 75 % of the depth"),
        (("M10",), "8.539 mm (0.3362 in) leaves 75 % of the depth"),
    ],
)
def test_the_hole_of_a_form_that_is_no_v_is_the_minor_diameter_of_its_nut(words: tuple[str, ...], hole: str) -> None:
    assert hole in " ".join(halfnut("thread", *words, "--show", "hole").stdout.split())


# The flank clearances a tool maker prints (test_thread_cutting) are along the axis: a slice 1 deep stands back tan 10°
# in the depth, and so tan 10° tan 30° along the axis, 5.8°; square to the flank it is tan 10° sin 30°, 5.0°.
@pytest.mark.parametrize(("words", "degrees"), [("M10", "5.8°"), ("Tr 16x4", "2.7°")])
def test_the_clearance_beside_the_flanks_is_told_where_it_is_measured(words: str, degrees: str) -> None:
    screen = " ".join(halfnut("thread", words, "--show", "cutting").stdout.split())
    assert f"leaves {degrees} beside the flanks, along the axis" in screen
    assert "square to the flanks" not in screen


def test_limits_of_a_pair_outside_the_standards_plan_are_said_to_be_by_its_formulas() -> None:
    assert "by the formulas" in " ".join(halfnut("thread", "M42x0.75", "--show", "dimensions").stdout.split())
    assert "by the formulas" not in halfnut("thread", "M42x1.5", "--show", "dimensions").stdout


# Limits of 1-5 Acme 2G as the handbooks print them; 0.9194 in is 23.3528 mm, 0.81 in 20.574 mm.
@pytest.mark.from_memory("ASME B1.5, Acme screw threads, edition not seen, the nut of 1-5, class 2G")
def test_an_acme_nut_has_its_limits_and_a_trapezoidal_one_says_that_it_has_none() -> None:
    acme = halfnut("thread", "Acme 1-5", "--internal", "--show", "dimensions").stdout
    assert "LIMITS of class 2G, nut (by the formulas of ASME B1.5 as remembered)" in acme
    assert row_after(acme, "class 2G, nut", "pitch") == ["22.860", "23.352", "0.9000", "0.9194"]
    assert row_after(acme, "class 2G, nut", "minor") == ["20.320", "20.574", "0.8000", "0.8100"]
    assert [each["of"] for each in answer_of("thread", "Acme 1-5")["limits"]] == ["screw", "nut"]
    said = "Limits of a class are not worked out here for this thread"
    assert said in halfnut("thread", "Tr 16x4", "--show", "dimensions").stdout
    assert said not in acme


def test_a_relief_that_is_not_needed_is_not_told_as_an_angle_below_zero() -> None:
    screen = " ".join(halfnut("thread", "1/4-20 UNC", "--internal", "--show", "cutting").stdout.split())
    assert "trailing (right) none needed" in screen
    assert "-0." not in screen


def test_a_thread_in_another_form_is_named_by_diameter_and_pitch() -> None:
    screen = halfnut("thread", "M10", "--form", "55", "--show", "dimensions").stdout
    assert "1.5 mm on 10 mm" in screen
    assert "M10" not in screen
    assert answer_of("thread", "M10", "--form", "55", "--show", "dimensions")["asked"]["series"] is None


@pytest.mark.parametrize(
    ("thread", "angle", "form"),
    [("1/4-20 UNC", "60", "unified"), ("M10", "60°", "iso"), ("G 1/2", "55 deg", "pipe"), ("Thury 9", "47.5", "thury")],
)
def test_a_form_asked_by_the_angle_the_thread_has_anyway_is_its_own(thread: str, angle: str, form: str) -> None:
    same, plain = (answer_of("thread", thread, *words, "--show", "dimensions") for words in (("--form", angle), ()))
    assert same["form"]["name"] == form
    assert (same["asked"], same["basic"]) == (plain["asked"], plain["basic"])


def test_a_bare_inch_pitch_of_60_degrees_is_unified_and_iso_by_name_only() -> None:
    bare = ("thread", "20tpi", "--major", "1/4in", "--show", "dimensions", "--form")
    assert [answer_of(*bare, form)["form"]["name"] for form in ("60", "iso")] == ["unified", "iso"]


def test_a_drill_below_the_minor_diameter_of_the_nut_is_not_offered_as_a_hole() -> None:
    # 15/32 in is 11.906 mm; the nut of Tr 16x4 begins at 12 mm.
    screen = " ".join(halfnut("thread", "Tr 16x4", "--show", "hole").stdout.split())
    assert "12 mm leaves 100 %; 15/32 in is too small" in screen
