"""Cutting a thread against worked and printed figures; sources stand in the data file."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gearsets.drill_tables import nearest_inch, nearest_metric
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length
from solver.quantities.written_pitches import read_pitch
from solver.quantities.written_speeds import read_seconds, read_surface_speed
from solver.threads.forms import FORMS
from solver.threads.holes_and_blanks import bases_of, engagement_of, tapping_hole
from solver.threads.infeed import infeed
from solver.threads.lead_angles import flank_clearance, lead_angle, side_relief
from solver.threads.passes import equal_passes
from solver.threads.spindle_speed import spindle_speed
from solver.threads.thread import Thread
from solver.threads.tool_nose import Nose, largest_nose, nose_for, root_of
from tests.published.source_cases import TAKEN_UP, read_cases, read_rows, rows_of_kind
from tests.published.test_threads import drawn, rounds_to

CASES = read_cases("thread_cutting.toml")


def places_of(printed: str) -> int:
    return len(printed.partition(".")[2])


def agrees(length: Length, printed: str, places: int = 6) -> bool:
    """Say whether a length rounds to a printed one of its unit."""
    wanted = read_length(printed)
    unit = Fraction(127, 5) if "in" in printed else Fraction(1)
    return abs(length.mm - wanted.mm) <= unit * (Fraction(1, 2 * 10**places) + Fraction(1, 10**9))


def a_thread(row: dict[str, str], **more: int) -> Thread:
    pitch = read_pitch(row["pitch"]).pitch
    assert isinstance(pitch, Length)
    return Thread(FORMS[row["form"]], read_length(row["major"]), pitch, **more)


def of_pitch_one(form: str) -> Thread:
    return Thread(FORMS[form], Length.of_mm(20), Length.of_mm(1))


def test_every_case_is_taken_up():
    assert CASES.keys() <= TAKEN_UP


@pytest.mark.parametrize("row", rows_of_kind(CASES, "depth factor"))
def test_the_depth_of_a_form_is_its_share_of_the_pitch(row):
    share = row["share"]
    assert rounds_to(of_pitch_one(row["form"]).basic().external.depth.mm, share, places_of(share))


@pytest.mark.parametrize("row", rows_of_kind(CASES, "depth"))
def test_a_worked_depth(row):
    basic = a_thread(row).basic()
    assert agrees((basic.internal if row["side"] == "nut" else basic.external).depth, row["depth"])


@pytest.mark.parametrize("row", rows_of_kind(CASES, "depth by nose"))
def test_a_nose_fixes_the_depth_when_the_pitch_diameter_is_right(row):
    root = root_of(of_pitch_one("iso"), Nose(flat=Length.of_mm(row["nose"])), internal=False)
    assert rounds_to(root.depth.mm, row["share"], 9)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "slide factor"))
def test_the_travel_of_the_top_slide_over_the_pitch(row):
    depth = Length.of_mm(row["depth"])
    for angle, travel in row.items():
        if angle not in ("form", "depth"):
            found = infeed(depth, FORMS[row["form"]], Angle.of_degrees(angle))
            assert abs(found.slide_travel.mm - Fraction(travel)) < Fraction(6, 10**7)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "infeed"))
def test_a_worked_infeed(row):
    found = infeed(read_length(row["depth"]), FORMS[row["form"]], Angle.of_degrees(row["angle"]))
    for length, name in ((found.slide_travel, "travel"), (found.shift, "shift"), (found.flank_left, "left")):
        # The depth is given to six decimals only, so the last place of what follows may move by one.
        wanted = read_length(row[name])
        assert abs(length.mm - wanted.mm) <= (Fraction(254, 10**7) if "in" in row[name] else Fraction(1, 10**6))


@pytest.mark.parametrize("row", rows_of_kind(CASES, "passes"))
def test_passes_of_equal_area_stand_at_the_worked_depths(row):
    flat = Length.of_mm(0)
    depths = equal_passes(read_length(row["depth"]), row["count"], flat=flat, slope=FORMS["iso"].tangent)
    assert len(depths) == row["count"]
    assert all(rounds_to(each.mm, printed, 4) for each, printed in zip(depths, row["cumulative"], strict=True))


@pytest.mark.parametrize("row", rows_of_kind(CASES, "nose flat"))
def test_the_flat_that_reaches_the_basic_root(row):
    assert rounds_to(nose_for(of_pitch_one(row["form"]), internal=row["side"] == "nut")[0].mm, row["share"], 9)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "largest flat"))
def test_the_largest_flat_that_clears_the_mate(row):
    assert rounds_to(largest_nose(of_pitch_one(row["form"]), internal=row["side"] == "nut")[0].mm, row["share"], 9)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "nose radius"))
def test_the_radius_of_the_standard_root(row):
    # A coarse pitch, so that the rounded depth of BA does not show.
    thread = Thread(FORMS[row["form"]], Length.of_mm(200), Length.of_mm(10))
    radius = nose_for(thread, internal=False)[1]
    assert radius is not None
    assert rounds_to(radius / thread.pitch, row["share"], row["places"])


@pytest.mark.parametrize("row", rows_of_kind(CASES, "largest radius"))
def test_the_largest_radius_that_clears_the_mate(row):
    radius = largest_nose(of_pitch_one(row["form"]), internal=False)[1]
    assert radius is not None
    assert rounds_to(radius.mm, row["share"], 6)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "tool flat"))
def test_the_flat_of_an_acme_or_trapezoidal_tool(row):
    flat = nose_for(a_thread({**row, "major": "3 in"}), internal=False)[0]
    assert agrees(flat, row["flat"], 4)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "acme calliper"))
def test_an_acme_tool_narrows_by_the_printed_width_toward_its_point(row):
    narrower = read_length(row["above"]) * (2 * FORMS[row["form"]].tangent)
    assert agrees(narrower, row["narrower"], 4)
    assert agrees(read_length(row["width"]) - narrower, row["point"], 4)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "lead angle"))
def test_a_worked_lead_angle(row):
    assert rounds_to(lead_angle(read_length(row["lead"]), read_length(row["at"])).degrees, row["degrees"], 4)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "relief"))
def test_a_worked_side_relief(row):
    thread = a_thread(row, starts=row["starts"])
    screw = thread.basic().external
    relief = side_relief(thread.lead, screw)
    assert rounds_to(lead_angle(thread.lead, screw.minor).degrees, row["root"], 3)
    assert rounds_to(lead_angle(thread.lead, screw.major).degrees, row["crest"], 3)
    assert rounds_to(relief.leading.degrees, row["leading"], 2)
    assert rounds_to(relief.trailing.degrees, row["trailing"], 2)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "flank clearance"))
def test_the_clearance_of_the_flanks_agrees_with_the_print_to_half_a_degree(row):
    for front, name in ((15, "inside"), (10, "outside")):
        found = flank_clearance(FORMS[row["form"]], Angle.of_degrees(front)).degrees
        assert abs(found - Fraction(row[name])) <= Fraction(1, 2)
        assert rounds_to(found, row[f"{name}_worked"], 2)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "hole"))
def test_a_hole_for_a_part_of_the_thread_by_each_base(row):
    thread = drawn(row["thread"]).thread
    older, basic = bases_of(thread)
    assert (older.key, basic.key) == ("3H/4", "5H/8")
    for base, holes in ((older, row["older"]), (basic, row["basic"])):
        for percent, printed in holes.items():
            hole = tapping_hole(thread, Fraction(int(percent), 100), base)
            assert rounds_to(hole.inches if row["unit"] == "in" else hole.mm, printed, 4)
    hole = tapping_hole(thread, Fraction(3, 4), older)
    assert abs(engagement_of(thread, hole, basic) - Fraction(9, 10)) < Fraction(1, 10**20)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "d minus p"))
def test_diameter_less_pitch_is_so_much_thread_by_each_base(row):
    thread = a_thread({**row, "form": "iso"})
    assert thread.major - thread.pitch == read_length(row["hole"])
    for base, name in zip(bases_of(thread), ("older", "basic"), strict=True):
        found = engagement_of(thread, read_length(row["hole"]), base) * 100
        assert rounds_to(found, row[name], places_of(row[name]))


@pytest.mark.parametrize("row", rows_of_kind(CASES, "chart drill"))
def test_a_drill_of_the_chart_is_the_one_named_and_leaves_so_much(row):
    thread = drawn(row["thread"]).thread
    diameter = read_length(row["diameter"])
    assert rounds_to(engagement_of(thread, diameter, bases_of(thread)[0]) * 100, row["older"], 1)
    assert nearest_inch(diameter).name == row["drill"]


@pytest.mark.parametrize("row", rows_of_kind(CASES, "whitworth drill"))
def test_a_whitworth_drill_leaves_77_to_87_per_cent(row):
    thread = drawn(row["thread"]).thread
    (base,) = bases_of(thread)
    percent = engagement_of(thread, read_length(row["drill"]), base) * 100
    assert rounds_to(percent, row["percent"], 1)
    assert nearest_metric(read_length(row["drill"])).diameter == read_length(row["drill"])
    assert Fraction("76.5") < percent < Fraction("87.5")


# The drills are the table's; the percentages are worked here from the depth of four decimals in the file.
@pytest.mark.own_arithmetic(
    "Public thread tables of general CAD systems and libraries, n.d., drills for Whitworth threads"
)
@pytest.mark.parametrize(
    "row", [pytest.param(row, id=row["designation"]) for row in read_rows("thread_whitworth.csv") if row["drill"]]
)
def test_a_listed_drill_leaves_the_worked_part_of_the_thread(row):
    thread = drawn(row["designation"]).thread
    (base,) = bases_of(thread)
    assert rounds_to(engagement_of(thread, Length.of_mm(row["drill"]), base) * 100, row["percent"], 1)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "turning speed"))
def test_a_turning_speed_and_its_shares(row):
    for share, name in ((Fraction(1, 4), "quarter"), (Fraction(1, 3), "third")):
        at, lead = read_length(row["at"]), Length.of_mm(1)
        found = spindle_speed(at, lead, lead, surface=read_surface_speed(row["surface"]), share=share)
        assert rounds_to(found.turning, row["exact"], 1) or row["exact"] == "687.5"
        assert abs(found.turning - Fraction(row["exact"])) < Fraction(1, 10)
        assert abs(found.threading - Fraction(row[name])) < Fraction(6, 10)
        assert found.turning < Fraction(row["shop"])


@pytest.mark.parametrize("row", rows_of_kind(CASES, "approach"))
def test_the_approach_to_a_shoulder_limits_the_speed(row):
    lead, room, reaction = read_length(row["lead"]), read_length(row["run_out"]), read_seconds(row["seconds"])
    assert spindle_speed(Length.of_mm(10), lead, room, reaction=reaction).approach == int(row["most"])


@pytest.mark.parametrize("row", rows_of_kind(CASES, "lead error factor"))
def test_a_lead_error_counts_by_the_cotangent_of_the_half_angle(row):
    assert rounds_to(FORMS[row["form"]].cotangent, row["factor"], 6)
