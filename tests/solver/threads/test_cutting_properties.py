"""What must hold of any thread: passes add up, noses and holes turn round, limits and refusals keep their sides."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.powers import is_exact_figure
from solver.refusals import ImpossibleSettingError, UnreadableFigureError
from solver.threads.cutting import Cutting, CuttingWishes, cutting
from solver.threads.forms import FORMS, read_form
from solver.threads.holes_and_blanks import bases_of, basis_named, engagement_of, tapping_hole
from solver.threads.infeed import infeed
from solver.threads.lead_angles import lead_angle, side_relief
from solver.threads.measuring import measuring
from solver.threads.over_wires import over_wires, read_over_wires
from solver.threads.passes import cumulative_depths, equal_passes
from solver.threads.run_out import run_out
from solver.threads.spindle_speed import spindle_speed
from solver.threads.thread import Thread
from solver.threads.tool_nose import Nose, largest_nose, nose_for, root_of
from solver.threads.wire_choice import wire_range
from tests.drawn_cases import cases

several = cases(150)
NOTHING = Length(Fraction(0))
PARALLEL = [key for key, form in FORMS.items() if not form.taper]
WIRED = [key for key in PARALLEL if FORMS[key].has_angle]


def parts(least: Fraction | int, most: int, finest: int) -> st.SearchStrategy[Fraction]:
    """Draw whole steps of a part between two ends, much sooner drawn than fractions of any denominator."""
    steps = (1, 2, 3, 7, 8, 10, 16, finest - 1, finest)

    def made(share: int, step: int) -> Fraction:
        return min(max(least, Fraction(round((least + (most - least) * Fraction(share, 10**6)) * step), step)), most)

    return st.builds(made, st.integers(0, 10**6), st.sampled_from(steps))


LENGTHS = parts(Fraction(1, 100), 10, 1000).map(Length.of_mm)


PITCHES = parts(Fraction(1, 4), 10, 100)


def threads(keys: list[str] = PARALLEL) -> st.SearchStrategy[Thread]:
    """Draw a thread whose core is at least a third of its diameter."""

    def made(key: str, pitch: Fraction, pitches: int, starts: int) -> Thread:
        # Clearances are fixed figures, so fine pitches need more diameter.
        return Thread(FORMS[key], Length.of_mm(pitch * pitches + 4), Length.of_mm(pitch), starts)

    return st.builds(made, st.sampled_from(keys), PITCHES, st.integers(4, 30), st.integers(1, 3))


@several
@given(threads())
def test_diameters_rise_from_minor_to_major_and_the_nut_clears_the_screw(thread):
    basic = thread.basic()
    for found in basic[:2]:
        assert found.minor < found.pitch < found.major
        assert found.depth == (found.major - found.minor) * Fraction(1, 2)
    assert basic.internal.pitch == basic.external.pitch
    assert basic.internal.minor >= basic.external.minor
    assert basic.internal.major >= basic.external.major


@several
@given(threads(), st.booleans())
def test_the_nose_of_the_standard_gives_the_root_of_the_standard(thread, internal):
    flat, radius = nose_for(thread, internal=internal)
    basic = thread.basic()
    wanted = basic.internal.major if internal else basic.external.minor
    assert abs((root_of(thread, Nose(flat=flat), internal=internal).diameter - wanted).mm) < Fraction(1, 10**20)
    if radius is not None:
        cut = root_of(thread, Nose(radius=radius), internal=internal)
        # Where the mate limits the radius the cut is deeper, never shallower.
        deeper = (cut.diameter - wanted).mm * (1 if internal else -1)
        assert deeper > -Fraction(1, 10**20)


@several
@given(threads(WIRED), st.booleans(), parts(0, 1, 20))
def test_a_sharper_tool_cuts_deeper_and_one_past_the_largest_is_refused(thread, internal, share):
    largest = largest_nose(thread, internal=internal)[0]
    blunt = root_of(thread, Nose(flat=largest), internal=internal)
    sharper = root_of(thread, Nose(flat=largest * share), internal=internal)
    assert (sharper.depth > blunt.depth) == (share < 1)
    with pytest.raises(ImpossibleSettingError, match="too large for this root"):
        root_of(thread, Nose(flat=largest + Length.of_mm("0.001")), internal=internal)


@several
@given(LENGTHS, LENGTHS, LENGTHS, LENGTHS, parts(0, 1, 50))
def test_cumulative_depths_rise_to_the_whole_depth_and_no_pass_is_below_the_least(depth, first, least, flat, slope):
    try:
        found = cumulative_depths(depth, first, least, flat=flat, slope=slope)
    except ImpossibleSettingError:
        area = depth.mm * (flat.mm + depth.mm * slope) / (first.mm * (flat.mm + first.mm * slope))
        assert first < least or area > 500
        return
    assert found[-1] == depth
    steps = [after - before for before, after in pairwise((NOTHING, *found))]
    assert all(step.mm > 0 for step in steps)
    assert len(found) == 1 or all(step >= least or abs((step - least).mm) < Fraction(1, 10**30) for step in steps)
    assert found[0] <= first or len(found) == 1 or found[0] - first < least


@several
@given(LENGTHS, st.integers(1, 60), LENGTHS, parts(0, 1, 50))
def test_passes_of_equal_area_take_the_same_area(depth, count, flat, slope):
    found = equal_passes(depth, count, flat=flat, slope=slope)
    areas = [each.mm * (flat.mm + each.mm * slope) for each in (NOTHING, *found)]
    taken = [after - before for before, after in pairwise(areas)]
    assert max(taken) - min(taken) < Fraction(1, 10**30)


@several
@given(threads(), st.booleans(), st.sampled_from(["0.01", "0.0127"]), st.integers(0, 4))
def test_a_schedule_adds_up_to_the_whole_depth_and_keeps_its_least_cut(thread, internal, step, springs):
    found = cutting(thread, CuttingWishes(internal=internal, springs=springs, step=Length.of_mm(step)))
    last = found.passes[-1]
    assert sum((each.adds for each in found.passes), NOTHING) == last.depth == found.root.depth
    assert last.slide_travel == found.feed.slide_travel
    assert all((each.depth / found.step).denominator == 1 for each in found.passes[: -springs - 1])
    assert [each.is_spring for each in found.passes[-springs:]] == [True] * springs or springs == 0
    assert [each.number for each in found.passes] == list(range(1, len(found.passes) + 1))
    assert found.cuts
    assert all(each.adds >= found.cuts.least >= found.step for each in found.passes if not each.is_spring)


@several
@given(threads(), parts(Fraction(1, 100), Fraction(1, 5), 100))
def test_no_pass_of_a_coarse_dial_is_heavier_than_the_one_before_where_any_sharing_out_does_that(thread, step):
    found = cutting(thread, CuttingWishes(springs=0, step=Length(step), by_marks=True))
    *adds, last = [each.adds for each in found.passes]
    assert sum(adds, last) == found.root.depth
    assert sorted(adds, reverse=True) == adds
    if adds and last > adds[-1]:
        steps, first, least = (int(each / found.step) for each in (sum(adds, NOTHING), adds[0], adds[-1]))
        assert last - adds[-1] < found.step
        # So many passes, each a step heavier than the lightest and none heavier than the first, never hold the steps.
        assert not any(count * (least + 1) <= steps <= count * first for count in range(1, steps + 1))


@several
@given(threads(), parts(Fraction(1, 100), 1, 100))
def test_the_engagement_of_a_tapping_hole_is_the_one_asked(thread, engagement):
    for basis in bases_of(thread):
        assert engagement_of(thread, tapping_hole(thread, engagement, basis), basis) == engagement


@pytest.mark.parametrize("engagement", [Fraction(0), Fraction(-1, 20), Fraction(101, 100)])
def test_no_engagement_a_negative_one_and_more_than_all_are_refused(engagement):
    thread = Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1))
    with pytest.raises(ImpossibleSettingError, match="no thread a tap can leave"):
        tapping_hole(thread, engagement, bases_of(thread)[0])


@cases(60)
@given(threads(WIRED), parts(0, 1, 10))
def test_a_reading_turned_round_gives_the_pitch_diameter_it_came_from(thread, share):
    assume(lead_angle(thread.lead, thread.basic().external.minor).degrees < 20)
    wires = wire_range(thread)
    assert wires.smallest < wires.best < wires.largest
    wire = wires.smallest + (wires.largest - wires.smallest) * share
    mean = thread.basic().external.pitch
    found = over_wires(thread, wire, mean)
    assert abs((read_over_wires(thread, wire, found.exact).pitch_diameter - mean).mm) < Fraction(1, 10**18)
    # The lead always lifts the wire, and never by more than the formula in print says at the best wire.
    assert found.simple <= found.exact
    assert found.exact >= thread.basic().external.major - Length.of_mm("0.000001")
    assert found.touches_at <= thread.basic().external.major + Length.of_mm("0.000001")


@pytest.mark.parametrize("key", ["square", "taper-pipe-55", "taper-pipe-60"])
def test_a_thread_that_takes_no_wires_says_why_and_what_to_do(key):
    thread = Thread(FORMS[key], Length.of_mm(30), Length.of_mm(2))
    with pytest.raises(ImpossibleSettingError) as refusal:
        measuring(thread, None, wire=None, reading=None, step=Length.of_mm("0.001"))
    assert refusal.value.help_text


@pytest.mark.parametrize(("wire", "said"), [("2", "outside the flanks"), ("0.3", "above the crests")])
def test_a_wire_out_of_range_is_refused_with_the_range(wire, said):
    thread = Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1))
    with pytest.raises(ImpossibleSettingError, match=said) as refusal:
        measuring(thread, None, wire=Length.of_mm(wire), reading=None, step=Length.of_mm("0.001"))
    assert "best is" in refusal.value.help_text


@pytest.mark.parametrize("over", ["0.01", "500"])
def test_a_reading_no_thread_of_the_pitch_gives_is_refused_or_far_from_the_class(over):
    thread = Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1))
    try:
        found = read_over_wires(thread, Length.of_mm("0.577"), Length.of_mm(over))
    except ImpossibleSettingError:
        return
    assert abs((found.pitch_diameter - thread.basic().external.pitch).mm) > 100


@several
@given(threads(WIRED), parts(0, 90, 10))
def test_a_slide_set_past_the_flank_is_refused_and_one_within_leaves_metal_on_it(thread, degrees):
    angle = Angle.of_degrees(degrees)
    depth = thread.basic().external.depth
    if angle > thread.form.half_angle:
        with pytest.raises(ImpossibleSettingError, match="trailing flank"):
            infeed(depth, thread.form, angle)
        return
    found = infeed(depth, thread.form, angle)
    assert found.flank_left.mm >= -Fraction(1, 10**25)
    assert found.slide_travel >= depth
    assert found.from_axis.degrees == 90 - degrees
    # Travel, depth and shift are the sides of a right triangle.
    gap = found.slide_travel.mm**2 - found.depth.mm**2 - found.shift.mm**2
    assert abs(gap) < Fraction(1, 10**20)


@several
@given(threads(), st.booleans())
def test_the_groove_holds_the_tool_and_goes_past_the_root(thread, internal):
    basic = thread.basic()
    root = basic.internal.major if internal else basic.external.minor
    found = run_out(thread, root, internal=internal)
    assert found.width == found.tool_width + found.stopping
    assert found.tool_width <= thread.pitch
    assert (found.diameter > root) if internal else (found.diameter < root)
    assert found.stopping == thread.lead * 2


@several
@given(threads(), LENGTHS, parts(Fraction(1, 10), 5, 10))
def test_the_slower_speed_wins(thread, room, reaction):
    found = spindle_speed(thread.major, thread.lead, room, reaction=reaction)
    assert found.slower == min(found.threading, found.approach)
    assert found.set_by == ("approach" if found.slower < found.threading else "surface speed")
    # At the approach speed the carriage covers the room in just the time of the hand.
    assert found.approach / 60 * thread.lead.mm * reaction == room.mm


@several
@given(threads())
def test_relief_opens_the_leading_side_by_the_lead_and_closes_the_trailing(thread):
    screw = thread.basic().external
    found = side_relief(thread.lead, screw)
    assert found.trailing < Angle.of_degrees(3) < found.leading
    assert lead_angle(thread.lead, screw.major) < lead_angle(thread.lead, screw.minor)


def cut(**wishes: object) -> Cutting:
    return cutting(Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5")), CuttingWishes(**wishes))  # type: ignore[arg-type]


def test_depths_count_from_first_touch_on_the_blank():
    usual, smaller = cut(), cut(blank=Length.of_mm("9.8"))
    assert usual.root == smaller.root
    assert usual.feed.depth - smaller.feed.depth == Length.of_mm("0.1")
    with pytest.raises(ImpossibleSettingError, match="nothing to cut"):
        cut(blank=usual.root.diameter)
    with pytest.raises(ImpossibleSettingError, match="nothing to cut"):
        cut(blank=Length.of_mm(10), internal=True)
    assert cut(blank=Length.of_mm("8.5"), internal=True).feed.depth == Length.of_mm("0.75")


@pytest.mark.parametrize(
    "wishes",
    [
        {"first_cut": Length.of_mm("0.01"), "least_cut": Length.of_mm("0.02")},
        {"first_cut": Length.of_mm("0.001"), "least_cut": Length.of_mm("0.001")},
    ],
)
def test_cuts_that_make_no_schedule_are_refused(wishes):
    with pytest.raises(ImpossibleSettingError, match=r"first cut|First cut"):
        cut(**wishes)


def test_a_core_that_the_pitch_leaves_nothing_of_is_refused():
    with pytest.raises(ImpossibleSettingError, match="no core is left"):
        Thread(FORMS["iso"], Length.of_mm(2), Length.of_mm(2)).basic()


@pytest.mark.parametrize("key", ["acme", "stub-acme", "trapezoidal"])
def test_a_pitch_too_fine_for_the_clearance_of_its_form_is_refused(key):
    with pytest.raises(ImpossibleSettingError, match="too much for so fine a pitch"):
        Thread(FORMS[key], Length.of_mm(5), Length.of_mm("0.1")).basic()


def test_a_tool_too_sharp_for_a_steep_form_is_refused():
    thread = Thread(FORMS["acme"], Length.of_mm(12), Length.of_mm(5))
    with pytest.raises(ImpossibleSettingError, match="through to the axis"):
        root_of(thread, Nose(flat=NOTHING), internal=False)
    with pytest.raises(ImpossibleSettingError, match="is flat"):
        root_of(thread, Nose(radius=Length.of_mm("0.1")), internal=False)


@pytest.mark.parametrize("word", ["61", "", "bsw form", "60 60"])
def test_an_unknown_form_is_met_with_the_forms_there_are(word):
    with pytest.raises(UnreadableFigureError, match="no thread form") as refusal:
        read_form(word)
    assert "whitworth" in refusal.value.help_text


@pytest.mark.parametrize(
    ("word", "key"), [("60", "iso"), ("47½°", "ba"), ("47.5 deg", "ba"), ("Stub Acme", "stub-acme")]
)
def test_a_form_is_found_by_angle_or_name(word, key):
    assert read_form(word).key == key


@pytest.mark.parametrize(
    ("word", "usual", "key"),
    [
        ("60", "unified", "unified"),
        ("60°", "taper-pipe-60", "taper-pipe-60"),
        ("55", "pipe", "pipe"),
        ("47 1/2", "thury", "thury"),
        ("29", "stub-acme", "stub-acme"),
        # Another angle, or a name, does make another form of it.
        ("55", "unified", "whitworth"),
        ("30", "iso", "trapezoidal"),
        ("iso", "unified", "iso"),
        ("ba", "thury", "ba"),
    ],
)
def test_an_angle_that_a_thread_has_anyway_keeps_its_form(word, usual, key):
    assert read_form(word, FORMS[usual]).key == key


def test_an_unknown_basis_is_met_with_the_bases_of_the_form():
    with pytest.raises(UnreadableFigureError) as refusal:
        basis_named(Thread(FORMS["whitworth"], Length.of_mm(6), Length.of_mm(1)), "5H/8")
    assert "full" in refusal.value.help_text


@pytest.mark.parametrize("key", PARALLEL)
def test_a_form_of_whole_parts_of_the_pitch_has_exact_diameters_and_others_have_not(key):
    screw = Thread(FORMS[key], Length.of_mm(20), Length.of_mm(2)).basic().external
    whole = {"ba", "thury", "loewenherz", "acme", "stub-acme", "trapezoidal", "square", "pipe"}
    assert is_exact_figure(screw.pitch.mm) == (key in whole)


@pytest.mark.parametrize("starts", [0, -1])
def test_a_thread_has_at_least_one_start(starts):
    with pytest.raises(ValueError, match="at least one start"):
        Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1), starts)
