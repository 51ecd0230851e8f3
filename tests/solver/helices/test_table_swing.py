"""The way the table is swung, held against points of helices in space and against a worm laid on its wheel."""

from __future__ import annotations

import math

import pytest

from solver.helices.table_swing import SwingSense, table_swing
from solver.trains.hand import Hand

#: x along the table to the right of who faces it, y away from them, z up.
X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
HANDS = {Hand.RIGHT: 1.0, Hand.LEFT: -1.0}


def cross(a, b):
    return tuple(a[(i + 1) % 3] * b[(i + 2) % 3] - a[(i + 2) % 3] * b[(i + 1) % 3] for i in range(3))


def dot(a, b):
    return sum(one * other for one, other in zip(a, b, strict=True))


def point(axis, start, radius, lead, turn, sense):
    """A point of a helix: turned from `start` round `axis` by the right-hand rule while it goes along the axis."""
    round_, across = turn * 2 * math.pi * sense, cross(axis, start)
    return tuple(
        radius * (math.cos(round_) * s + math.sin(round_) * c) + lead * turn * a
        for a, s, c in zip(axis, start, across, strict=True)
    )


def tangent_at(axis, start, radius, lead, sense):
    """Direction of the helix where it passes `start`, from two of its points."""
    before, after = (point(axis, start, radius, lead, turn, sense) for turn in (-1e-5, 1e-5))
    step = tuple(b - a for a, b in zip(before, after, strict=True))
    length = math.sqrt(dot(step, step))
    return tuple(each / length for each in step)


def swung(vector, degrees):
    """Turn a vector with the table, counter-clockwise seen from above."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (c * vector[0] - s * vector[1], s * vector[0] + c * vector[1], vector[2])


def test_a_right_hand_thread_turned_as_a_screw_driver_turns_goes_in():
    # The right-hand rule is the hand of an ordinary screw: clockwise seen from behind it drives it forward.
    thread = point(X, Y, 3.0, 4.0, 0.25, HANDS[Hand.RIGHT])
    assert thread == pytest.approx((1.0, 0.0, 3.0))
    # Seen along +x with z up, y is to the left: from there up to z is clockwise.
    assert cross(X, Z) == pytest.approx((0.0, -1.0, 0.0))


@pytest.mark.parametrize("hand", Hand)
@pytest.mark.parametrize("degrees", [2.5, 20.0, 44.0])
@pytest.mark.parametrize("head", [X, (-1.0, 0.0, 0.0)], ids=["head at the left", "head at the right"])
def test_the_table_brings_the_groove_on_top_of_the_work_into_the_plane_of_the_cutter(hand, degrees, head):
    lead = 2 * math.pi * 10 / math.tan(math.radians(degrees))
    groove = tangent_at(head, Z, 10.0, lead, HANDS[hand])
    turn = degrees if table_swing(hand) is SwingSense.COUNTER_CLOCKWISE else -degrees
    # The cutter's plane holds x and z, the arbor lies along y.
    assert abs(dot(swung(groove, turn), Y)) < 1e-8
    assert abs(dot(swung(groove, -turn), Y)) > math.sin(math.radians(degrees))
    # Counter-clockwise takes the right-hand end away from whoever faces the table; so it does seen from behind it.
    assert (swung(X, turn)[1] > 0) is (hand is Hand.RIGHT)
    assert (swung((-1.0, 0.0, 0.0), turn)[1] < 0) is (hand is Hand.RIGHT)


@pytest.mark.parametrize("hand", Hand)
def test_a_groove_leans_to_the_side_of_its_name_on_the_face_of_upright_work(hand):
    # Seen from the person's side, who looks along +y: right is x, up is z; the work's near side is at -y.
    lean = tangent_at(Z, (0.0, -1.0, 0.0), 10.0, 200.0, HANDS[hand])
    assert lean[2] > 0
    assert (lean[0] > 0) is (hand is Hand.RIGHT)


@pytest.mark.parametrize("hand", Hand)
@pytest.mark.parametrize("starts", [1, 2])
def test_where_worm_and_wheel_touch_thread_and_tooth_of_one_hand_run_along_one_line(hand, starts):
    lead, teeth, radius = math.pi * starts, 40, 8.0
    # The worm's axis lies along y over the wheel's along x: the worm touches with its underside, the wheel on top.
    thread = tangent_at(Y, (0.0, 0.0, -1.0), radius, lead, HANDS[hand])
    slope = lead / (2 * math.pi * radius)
    wheel_radius = teeth / 2
    tooth = tangent_at(X, Z, wheel_radius, 2 * math.pi * wheel_radius / slope, HANDS[hand])
    assert abs(abs(dot(thread, tooth)) - 1) < 1e-9
    other = tangent_at(X, Z, wheel_radius, 2 * math.pi * wheel_radius / slope, -HANDS[hand])
    assert abs(dot(thread, other)) < 0.9999
