"""How many slots go round a piece, against a section drawn point by point."""

from __future__ import annotations

from fractions import Fraction
from math import atan2, ceil, cos, hypot, pi, sin

from hypothesis import assume, given
from hypothesis import strategies as st

from solver.dividing.slots import LengthwiseSlot, most_slots_across, most_slots_along
from solver.quantities.lengths import Length
from tests.drawn_cases import cases

STEPS = 400


def widest(radius, middle, half, bottom):
    """Walk along every edge of the section of one slot; return the widest angle it fills at one distance."""
    ends = [middle - half, middle + half]
    edge = [(x, bottom + (y_top - bottom) * n / STEPS) for x in ends for y_top in [(radius**2 - x * x) ** 0.5]
            for n in range(STEPS + 1)]  # fmt: skip
    spans = []
    for distance in sorted({hypot(x, y) for x, y in edge}):
        # The arc of this distance inside the slot, sampled.
        inside = [
            angle
            for n in range(-STEPS, STEPS + 1)
            for angle in [pi / 2 * n / STEPS]
            if ends[0] <= distance * sin(angle) <= ends[1] and distance * cos(angle) >= bottom
        ]
        if inside:
            spans.append(max(inside) - min(inside))
    return max(spans, default=0.0)


@cases(12)
@given(st.integers(1, 12), st.integers(0, 12), st.integers(1, 17))
def test_slots_along_a_round_keep_apart_just_so_long_as_a_drawn_section_does(width, offset, depth):
    radius = 20
    assume(offset + width / 2 < 19)
    far = offset + width / 2
    assume(radius - depth < (radius**2 - far**2) ** 0.5 - 0.5)
    slot = LengthwiseSlot(Length.of_mm(40), Length.of_mm(width), Length.of_mm(offset), Length.of_mm(depth))
    span = widest(radius, offset, width / 2, radius - depth)
    slack = pi / STEPS
    counts = [max(1, ceil(2 * pi / each) - 1) for each in (span + 2 * slack, max(span - slack, 1e-9))]
    assert counts[0] <= most_slots_along(slot) <= counts[1]


@given(st.integers(1, 30), st.integers(0, 20))
def test_slots_across_an_end_are_parted_by_the_arcs_they_take_from_the_rim(width, offset):
    radius = 20
    assume(offset + width / 2 < 19.9)
    near, far = offset - width / 2, offset + width / 2
    arc = atan2(far, (radius**2 - far**2) ** 0.5) - atan2(near, (radius**2 - near**2) ** 0.5)
    assume(abs(2 * pi / arc - round(2 * pi / arc)) > 1e-9)
    most = most_slots_across(Length.of_mm(40), Length.of_mm(width), Length.of_mm(offset))
    assert most == max(1, int(2 * pi / arc))


def test_walls_that_only_touch_leave_no_metal():
    # Six of the width of the half diameter: the corners of a hexagon lie on the rim.
    assert most_slots_across(Length.of_mm(10), Length.of_mm(5), Length.of_mm(0)) == 5
    almost = Length(Fraction(5) - Fraction(1, 10**12))
    assert most_slots_across(Length.of_mm(10), almost, Length.of_mm(0)) == 6
