"""Flats, slots, keyways and holes on a circle against plain geometry done another way."""

from __future__ import annotations

import cmath
import math
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.dividing.hole_circles import centre_distance, hole_circle
from solver.dividing.shapes import Flats, FlatsOnRound, flats_across, flats_to_corner, largest_in_round
from solver.dividing.slots import Keyway, LengthwiseSlot, arc_height, passes_from_touch
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from tests.drawn_cases import cases

several = cases(200)
COUNTS = st.integers(3, 40)
SIZES = st.fractions(min_value=Fraction(1, 10), max_value=500, max_denominator=1000)
PARTS = st.fractions(min_value=Fraction(1, 100), max_value=Fraction(99, 100), max_denominator=1000)
TINY = Fraction(1, 10**40)


def mm(value: Fraction | int | str) -> Length:
    return Length.of_mm(value)


def corner_points(count: int, corner_circle: float) -> list[complex]:
    return [cmath.rect(corner_circle / 2, 2 * math.pi * number / count) for number in range(count)]


@several
@given(COUNTS, SIZES)
def test_the_largest_shape_in_a_round_has_the_sizes_of_points_on_that_round(count, diameter):
    flats = largest_in_round(count, mm(diameter))
    points = corner_points(count, float(diameter))
    first, second = points[0], points[1]
    assert float(flats.side.mm) == pytest.approx(abs(first - second))
    assert float(flats.centre_to_flat.mm) == pytest.approx(abs((first + second) / 2))
    assert flats.corner_circle.mm == diameter
    if count % 2 == 0:
        opposite = (points[count // 2] + points[count // 2 + 1]) / 2
        assert float(flats.across_flats.mm) == pytest.approx(abs((first + second) / 2 - opposite))
        assert flats.flat_to_corner is None
    else:
        corner = points[count // 2 + 1]
        assert float(flats.flat_to_corner.mm) == pytest.approx(abs((first + second) / 2 - corner))
        assert flats.across_flats is None


@several
@given(COUNTS, SIZES)
def test_going_to_another_size_and_back_gives_the_same_flats(count, size):
    flats = Flats(count, mm(size))
    assert largest_in_round(count, flats.corner_circle) == flats
    if count % 2:
        assert abs(flats_to_corner(count, flats.flat_to_corner).centre_to_flat.mm - size) < TINY
    else:
        assert flats_across(count, flats.across_flats) == flats


@several
@given(st.integers(2, 12), SIZES, PARTS)
def test_flats_and_what_is_left_of_the_round_make_up_the_whole_way_round(count, diameter, part):
    cut = FlatsOnRound(Flats(count, mm(diameter / 2 * part)), mm(diameter))
    assert cut.depth.mm + cut.flats.centre_to_flat.mm == diameter / 2
    assert cut.over_first_flat.mm == diameter - cut.depth.mm
    if cut.corners_are_sharp:
        assert cut.round_left.mm == 0
        assert cut.flats.corner_circle.mm <= diameter
    else:
        # The angle a flat takes by its chord, and the angle the arc takes by its length.
        by_chord = 2 * math.asin(min(1.0, float(cut.width.mm / diameter)))
        by_arc = float(cut.round_left.mm / diameter) * 2
        assert count * (by_chord + by_arc) == pytest.approx(2 * math.pi)


@several
@given(SIZES, PARTS, PARTS)
def test_a_keyway_obeys_the_theorem_of_pythagoras(shaft, wide, deep):
    width = shaft * wide
    arc = arc_height(mm(shaft), mm(width / 2)).mm
    assert abs((shaft / 2 - arc) ** 2 + (width / 2) ** 2 - (shaft / 2) ** 2) < shaft * TINY
    keyway = Keyway(mm(shaft), mm(width), mm((shaft - 2 * arc) * deep))
    assert keyway.depth_from_crown.mm == keyway.depth_at_edge.mm + arc
    assert keyway.over_bottom.mm == shaft - keyway.depth_from_crown.mm
    again = Keyway.below_crown(mm(shaft), mm(width), keyway.depth_from_crown)
    assert again == keyway


@several
@given(SIZES, PARTS, PARTS, st.fractions(min_value=-1, max_value=1, max_denominator=50), PARTS)
def test_the_passes_of_a_slot_leave_its_walls_where_they_belong(diameter, wide, narrow, aside, feeler):
    width = diameter * wide
    cutter = width * (narrow if narrow > Fraction(1, 20) else 1)
    offset = aside * (diameter - width) / 2 * Fraction(99, 100)
    passes = passes_from_touch(
        diameter=mm(diameter), width=mm(width), cutter=mm(cutter), offset=mm(offset), feeler=mm(feeler)
    )
    # From the axis: the face that touched leads, the other face is a cutter's width behind it.
    leading = [travel.mm - feeler - diameter / 2 for travel in passes]
    assert leading[-1] == offset + width / 2
    assert leading[0] - cutter == offset - width / 2
    assert all(second - first <= cutter for first, second in pairwise(leading))
    assert len(passes) == math.ceil(width / cutter)


@several
@given(SIZES, PARTS, PARTS)
def test_the_walls_of_a_slot_along_a_round_meet_the_round(diameter, wide, aside):
    width = diameter * wide
    offset = (diameter - width) / 2 * aside
    outer = offset + width / 2
    depth = arc_height(mm(diameter), mm(outer)).mm + diameter / 1000
    if depth >= diameter - arc_height(mm(diameter), mm(outer)).mm:
        return
    slot = LengthwiseSlot(mm(diameter), mm(width), mm(offset), mm(depth))
    bottom = float(diameter / 2 - depth)
    for wall, from_axis in zip(slot.wall_depths, (abs(offset - width / 2), outer), strict=True):
        assert math.hypot(bottom + float(wall.mm), float(from_axis)) == pytest.approx(float(diameter / 2))


@several
@given(st.integers(1, 30), SIZES, st.fractions(min_value=-1, max_value=1, max_denominator=360), st.booleans())
def test_holes_on_a_circle_are_where_complex_numbers_put_them(count, diameter, start, clockwise):
    places = hole_circle(count, mm(diameter), start=Angle(start), clockwise=clockwise)
    way = -1 if clockwise else 1
    for number, place in enumerate(places):
        wanted = cmath.rect(float(diameter) / 2, 2 * math.pi * (float(start) + way * number / count))
        assert float(place.x.mm) == pytest.approx(wanted.real, abs=1e-9)
        assert float(place.y.mm) == pytest.approx(wanted.imag, abs=1e-9)
    shifted = hole_circle(count, mm(diameter), start=Angle(start), clockwise=clockwise, all_positive=True)
    for place, moved in zip(places, shifted, strict=True):
        assert moved.x.mm - place.x.mm == moved.y.mm - place.y.mm == diameter / 2
        assert min(moved.x.mm, moved.y.mm) >= -TINY
    if count > 1:
        first, second = places[0], places[1]
        apart = math.hypot(float(first.x.mm - second.x.mm), float(first.y.mm - second.y.mm))
        assert float(centre_distance(count, mm(diameter)).mm) == pytest.approx(apart)
