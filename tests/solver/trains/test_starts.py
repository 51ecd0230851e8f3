"""Starts against a lathe turned by hand: wheels, leadscrew and dial walked step by step, without the solver's rules."""

from __future__ import annotations

from fractions import Fraction
from math import gcd

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from solver.quantities.lengths import Length
from solver.quantities.powers import root_bounds
from solver.trains.half_nut import half_nut_rule
from solver.trains.hand import Hand
from solver.trains.lathe import ChasingDial, Lathe
from solver.trains.start_moves import (
    MOST_SPINDLE_TURNS,
    dial_lines_by_start,
    dial_readings,
    nearest_between,
    nearest_jumps,
    nut_jumps,
    tooth_counts,
)
from solver.trains.starts import LONGEST_JUMP, Way, plan_starts
from solver.trains.tool_travel import tool_travel
from solver.trains.wheels import Pair, Train
from tests.strategies import LEADSCREWS, TEETH

STARTS = st.integers(2, 8)
TRAINS = st.lists(st.builds(Pair, st.sampled_from(TEETH), st.sampled_from(TEETH)), min_size=1, max_size=3).map(
    lambda pairs: Train(tuple(pairs))
)
STUDS = st.sampled_from([Fraction(each) for each in ("1", "1/2", "2", "2/3")])
PITCHES = st.one_of(
    st.integers(1, 24).map(lambda quarters: Length(Fraction(quarters, 4))),
    st.integers(2, 40).map(lambda tpi: Length.of_inches(Fraction(1, tpi))),
)
DIALS = st.builds(ChasingDial, st.sampled_from((12, 14, 16, 24, 32, 48)), st.sampled_from((1, 2, 3, 4, 6, 8, 12, 16)))


def phase(carriage: Fraction, spindle_turns: Fraction, lead: Fraction, starts: int) -> int | None:
    """Say over which groove the tool stands: 0 for the first, ``None`` between grooves."""
    pitches = (carriage - spindle_turns * lead) % lead / (lead / starts)
    return int(pitches) if pitches.denominator == 1 else None


@given(PITCHES, STARTS, st.sampled_from(LEADSCREWS))
def test_every_jump_is_found_by_walking_the_leadscrew_thread_by_thread(pitch, starts, screw):
    lead = pitch * starts
    farthest = Length.of_mm(300)
    walked = []
    threads = 0
    while screw.mm * (threads + 1) <= farthest.mm:
        threads += 1
        groove = phase(screw.mm * threads, Fraction(0), lead.mm, starts)
        if groove is not None:
            walked.append((screw.mm * threads, threads, groove))
    found = [(each.distance.mm, each.threads, each.shift) for each in nut_jumps(lead, starts, screw, farthest)]
    assert found == walked
    nearest = {0: Fraction(0)}
    for distance, _, groove in walked:
        nearest.setdefault(groove, distance)
    jumps = nearest_jumps(lead, starts, screw, farthest)
    assert {number: jump.distance.mm for number, jump in enumerate(jumps) if jump is not None} == nearest


@given(PITCHES, STARTS, st.sampled_from(LEADSCREWS))
def test_the_half_nut_rule_is_the_first_thread_over_the_same_groove(pitch, starts, screw):
    lead = pitch * starts
    rule = half_nut_rule(lead, Lathe("drawn", "", screw, Fraction(1), True, ()))
    threads = 1
    while threads < 200 and phase(screw.mm * threads, Fraction(0), lead.mm, starts) != 0:
        threads += 1
    if threads < 200:
        assert (rule.threads, rule.every) == (threads, screw * threads)
    assert phase(screw.mm * rule.threads, Fraction(0), lead.mm, starts) == 0


@given(PITCHES, STARTS, st.sampled_from(LEADSCREWS))
def test_the_nut_first_closes_between_grooves_where_walking_finds_it(pitch, starts, screw):
    lead = pitch * starts
    found = nearest_between(lead, starts, screw)
    walked = (threads for threads in range(1, 200) if phase(screw.mm * threads, Fraction(0), lead.mm, starts) is None)
    threads = next(walked, None)
    assert (found.threads if found else None) == threads
    if found is not None:
        # Every groove of this lead and the next, one by one.
        grooves = [pitch.mm * number for number in range(int(found.distance / pitch) + 2)]
        assert found.distance == screw * found.threads
        assert found.off.mm == min(abs(found.distance.mm - groove) for groove in grooves) > 0


def test_the_nut_closes_on_the_threads_of_the_screw_as_measured():
    screw = Length.of_inches("1/6")
    lathe = Lathe("worn", "6 tpi", screw, Fraction(1), True, (), measured=Fraction(1, 10_000))
    # Two starts at twice the lead of this very screw: each thread of it is the next start.
    plan = plan_starts(Train((Pair(80, 40),)), lathe.lead_at_equal_wheels * 2, 2, lathe)
    assert (plan.by_one.threads, plan.by_one.distance.mm, plan.between) == (
        1,
        screw.mm * Fraction(10_001, 10_000),
        None,
    )


@given(PITCHES, STARTS, st.sampled_from(LEADSCREWS))
def test_the_smallest_repeated_jump_visits_every_groove_and_none_is_smaller(pitch, starts, screw):
    plan = plan_starts(Train(()), pitch * starts, starts, Lathe("drawn", "", screw, Fraction(1), True, ()))
    good = []
    for jump in nut_jumps(pitch * starts, starts, screw, LONGEST_JUMP):
        visited = {phase(jump.distance.mm * times, Fraction(0), pitch.mm * starts, starts) for times in range(starts)}
        if visited == set(range(starts)):
            good.append(jump)
            break
    assert ([plan.repeated] if plan.repeated else []) == good
    if plan.repeated:
        cut = [phase(plan.repeated.distance.mm * n, Fraction(0), pitch.mm * starts, starts) for n in range(starts)]
        assert list(plan.jump_order) == cut
    every = nut_jumps(pitch * starts, starts, screw, LONGEST_JUMP)
    assert plan.by_one == next((each for each in every if each.shift == 1), None)


def tooth_by_tooth(train: Train, mesh: int, stud: Fraction, starts: int) -> tuple[int, Fraction, int] | None:
    """Turn the spindle until a whole tooth stands at the opened mesh and the tool over a groove that serves."""
    pair = train.pairs[mesh - 1]
    # Turns of the spindle for one tooth, worked back from the mesh to the spindle.
    a_tooth = Fraction(1, pair.driver)
    for before in reversed(train.pairs[: mesh - 1]):
        a_tooth = a_tooth * before.driven / before.driver
    a_tooth /= stud
    teeth = 1
    while a_tooth * teeth <= MOST_SPINDLE_TURNS:
        # The carriage stands still, the spindle has turned backwards under it.
        groove = phase(Fraction(0), -a_tooth * teeth, Fraction(1), starts)
        if groove is not None and len({groove * times % starts for times in range(starts)}) == starts:
            return teeth, a_tooth * teeth, groove
        teeth += 1
    return None


@given(TRAINS, STUDS, STARTS)
def test_tooth_counts_are_those_found_by_turning_tooth_by_tooth(train, stud, starts):
    lathe = Lathe("drawn", "", Length.of_mm(3), stud, True, ())
    found = {each.mesh: (each.teeth, each.spindle_turns, each.shift) for each in tooth_counts(train, lathe, starts)}
    walked = {mesh: tooth_by_tooth(train, mesh, stud, starts) for mesh in range(1, len(train.pairs) + 1)}
    assert found == {mesh: outcome for mesh, outcome in walked.items() if outcome is not None}


# Line 1 of this dial stands between two threads of the leadscrew, over a groove all the same.
@example(Length.of_mm(3), 3, Length.of_mm(6), ChasingDial(12, 8))
@given(PITCHES, STARTS, st.sampled_from(LEADSCREWS), DIALS)
def test_dial_lines_are_those_that_find_one_groove_on_every_round(pitch, starts, screw, dial):
    lead = pitch * starts
    # Every round of the dial until dial and thread stand as they began, thread of the leadscrew by thread.
    rounds = 1
    while phase(screw.mm * dial.wheel_teeth * rounds, Fraction(0), lead.mm, starts) != 0:
        rounds += 1
    met: dict[int, set[int | None]] = {}
    for threads in range(dial.wheel_teeth * min(rounds, 3)):
        line = Fraction(threads * dial.lines, dial.wheel_teeth) % dial.lines
        if line.denominator == 1:
            met.setdefault(int(line), set()).add(phase(screw.mm * threads, Fraction(0), lead.mm, starts))
    wanted = [
        tuple(line for line in range(dial.lines) if met.get(line) == {groove} and rounds == 1)
        for groove in range(starts)
    ]
    assert list(dial_lines_by_start(lead, starts, screw, dial)) == wanted
    if rounds > 1:
        # Line 0 itself then finds another place on the next round.
        assert met[0] != {0}


@given(PITCHES, STARTS, st.sampled_from((Length.of_mm("0.02"), Length.of_inches("0.001"))))
def test_no_mark_of_the_dial_is_nearer_than_the_one_told(pitch, starts, mark):
    for reading in dial_readings(pitch, starts, mark):
        wanted = pitch.mm * reading.start
        assert mark.mm * reading.marks - wanted == reading.residual.mm
        assert all(abs(reading.residual.mm) <= abs(mark.mm * (reading.marks + step) - wanted) for step in (-1, 1))


@given(TRAINS, STARTS, st.sampled_from(LEADSCREWS), STUDS)
def test_ways_that_serve_stand_first_and_the_others_say_why_not(train, starts, screw, stud):
    lathe = Lathe("drawn", "", screw, stud, True, (), spindle_stops=(60,), chasing_dial=ChasingDial(16, 8))
    cut = lathe.lead_at_equal_wheels * train.ratio
    plan = plan_starts(train, cut, starts, lathe)
    assert {each.way for each in plan.ways} == set(Way)
    serving = [each.serves for each in plan.ways]
    assert serving == sorted(serving, reverse=True)
    assert all(bool(each.reason) is not each.serves for each in plan.ways)
    serves = {each.way: each.serves for each in plan.ways}
    assert serves[Way.TOP_SLIDE]
    assert serves[Way.TEETH] is bool(plan.teeth)
    assert serves[Way.HALF_NUT] is all(plan.jumps)
    assert serves[Way.DIAL_LINES] is all(plan.dial_lines)
    assert plan.pitch * starts == cut


@pytest.mark.parametrize(
    ("screw", "lead", "starts", "words"),
    [
        ("1/4", "1/4", 2, "the same groove again"),
        ("1/4", "1/2", 3, "no closing of the nut brings the tool into another start"),
        ("1/4", "1/2", 4, "comes into 2 of 4 grooves only"),
        ("1/8", "80/127", 4, "in no other groove within 500 mm"),
        ("1/8", "30/127", 3, "only by a move beyond 500 mm"),
    ],
)
def test_what_stands_in_the_way_of_a_jump_is_named(screw, lead, starts, words):
    lathe = Lathe("inch", "", Length.of_inches(screw), Fraction(1), True, ())
    plan = plan_starts(Train(()), Length.of_inches(lead), starts, lathe)
    assert words in next(each.reason for each in plan.ways if each.way is Way.HALF_NUT)


def test_a_thread_of_one_start_has_nowhere_to_go():
    with pytest.raises(ValueError, match="no other groove"):
        plan_starts(Train(()), Length.of_mm(1), 1, Lathe("bare", "", Length.of_mm(3), Fraction(1), True, ()))


@pytest.mark.practice("common practice, no source")
def test_a_left_hand_thread_is_cut_away_from_the_headstock_out_of_a_groove():
    # Rose, fig. 1241, and Jones, p. 148, give the reversal of the leadscrew.
    left, right = tool_travel(Hand.LEFT), tool_travel(Hand.RIGHT)
    assert (left.to_headstock, left.begins_in_groove, left.leadscrew_reversed) == (False, True, True)
    assert (right.to_headstock, right.begins_in_groove, right.leadscrew_reversed) == (True, False, False)


@given(st.fractions(0, 1000, max_denominator=1000), st.integers(1, 6), st.integers(0, 12))
def test_a_root_lies_between_its_bounds(value, order, places):
    low, high = root_bounds(value, order, places)
    assert low**order <= value <= high**order
    assert high - low in (0, Fraction(1, 10**places))
    assert (low == high) is (low**order == value)
    assert gcd(low.denominator, 10**places) == low.denominator
