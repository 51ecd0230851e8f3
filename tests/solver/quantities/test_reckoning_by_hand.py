"""Lengths, pitches, roots, sines and continued fractions, worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent, cosine, sine, square_root, tangent
from solver.quantities.continued_fractions import convergents, intermediate_fractions
from solver.quantities.exact_numbers import (
    decimal_text,
)
from solver.quantities.lengths import Length, least_common_multiple
from solver.quantities.pi_multiples import PI_HIGH, PI_LOW, PiLength, lead_bounds_mm
from solver.quantities.pitches import Pitch, PitchUnit
from solver.quantities.powers import is_exact_figure, power, root_bounds, whole_root
from solver.quantities.shown_lengths import Rounding

F = Fraction
MM, INCH = Length.of_mm, Length.of_inches
NEAREST, UP, DOWN = Rounding.NEAREST, Rounding.UP, Rounding.DOWN


def test_lengths_and_angles_by_hand():
    assert least_common_multiple(F(5, 8), F(127, 40)) == F(635, 8)
    assert least_common_multiple(F(3), F(2)) == 6
    assert least_common_multiple(F(1, 2), F(1, 3)) == 1
    assert Angle.of_degrees(90) * 2 == 2 * Angle.of_degrees(90) == Angle.of_degrees(180)
    assert Angle.of_degrees(90) - Angle.of_degrees(30) == Angle.of_degrees(60)
    with pytest.raises(TypeError):
        _ = Angle.of_degrees(90) - F(1)
    low, high = lead_bounds_mm(PiLength(F(-2)))
    assert (low, high) == (-2 * PI_HIGH, -2 * PI_LOW)
    assert lead_bounds_mm(MM(2)) == (2, 2)
    assert PiLength(F(1)) * 3 == 3 * PiLength(F(1)) == PiLength(F(3))


def test_pitches_by_hand():
    leads = {
        PitchUnit.MILLIMETRE: MM(4), PitchUnit.INCH: INCH(4), PitchUnit.THREADS_PER_INCH: INCH("1/4"),
        PitchUnit.MODULE: PiLength(F(4)), PitchUnit.DIAMETRAL_PITCH: PiLength(F(127, 20)),
        PitchUnit.CIRCULAR_PITCH: INCH(4),
    }  # fmt: skip
    assert {unit: Pitch(F(4), unit).pitch for unit in PitchUnit} == leads
    assert {unit: Pitch(F(4), unit, 3).lead for unit in PitchUnit} == {unit: 3 * lead for unit, lead in leads.items()}


def test_roots_by_hand():
    assert [whole_root(n, 3) for n in (0, 1, 7, 8, 26, 27, 63, 64, 10**30 - 1, 10**30)] == [
        0, 1, 1, 2, 2, 3, 3, 4, 10**10 - 1, 10**10,
    ]  # fmt: skip
    assert [whole_root(n, 1) for n in (1, 2, 17)] == [1, 2, 17]
    assert (whole_root(2, 2), whole_root(2, 3), whole_root(3, 2)) == (1, 1, 1)
    assert (power(4, F(3, 2)), power(2, F(0)), power(0, F(1)), power(F(1, 4), F(1, 2))) == (8, 1, 0, F(1, 2))
    # Root 2 is 1.41421 and cube root of 10 is 2.15443, both rounded down; the square root of 1/3 is 0.57735.
    assert (power(2, F(1, 2), 5), power(10, F(1, 3), 5), power(F(1, 3), F(1, 2), 5)) == (
        F("1.41421"),
        F("2.15443"),
        F("0.57735"),
    )
    assert 10**20 * power(2, F(1, 2)) == 141421356237309504880
    assert root_bounds(2, 2, 3) == (F("1.414"), F("1.415"))
    assert root_bounds(F(1, 4), 2, 1) == (F("0.5"), F("0.5"))
    assert root_bounds(F(1, 4), 2, 0) == (0, 1)
    assert root_bounds(7, 1, 0) == (7, 7)
    assert root_bounds(0, 2) == (0, 0)
    assert root_bounds(2, 2)[0] == F(141421356237309504880, 10**20)
    assert [is_exact_figure(F(1, 10**15 + step)) for step in (-1, 0, 1)] == [True, True, False]
    assert (square_root(0), square_root(F(4, 9)), square_root(2, 0), square_root(F(1, 2), 3)) == (
        0,
        F(2, 3),
        1,
        F("0.707"),
    )
    assert square_root(F(4, 2)) * 10**50 // 1 == 141421356237309504880168872420969807856967187537694


def test_sines_and_their_like_by_hand():
    # Root 3 is 1.7320508075688772935, root 2 is 1.4142135623730950488: cos 30 degrees and sin 45 are half of each.
    def shown(value: Fraction) -> str:
        return decimal_text(value, 19)

    assert [shown(2 * cosine(Angle.of_degrees(each))) for each in (30, 150, 210, 330)] == [
        "1.7320508075688772935", "-1.7320508075688772935", "-1.7320508075688772935", "1.7320508075688772935",
    ]  # fmt: skip
    assert [shown(2 * sine(Angle.of_degrees(each))) for each in (45, 60, 135, 225, -45)] == [
        "1.4142135623730950488", "1.7320508075688772935", "1.4142135623730950488", "-1.4142135623730950488",
        "-1.4142135623730950488",
    ]  # fmt: skip
    assert [shown(tangent(Angle.of_degrees(each))) for each in (60, -60, 120, 240)] == [
        "1.7320508075688772935", "-1.7320508075688772935", "-1.7320508075688772935", "1.7320508075688772935",
    ]  # fmt: skip
    # The tangent of 30 degrees is root 3 over 3, and that of 15 degrees 2 less root 3.
    root = square_root(3, 60)
    for slope, degrees in ((root / 3, 30), (2 - root, 15), (root, 60), (-root, -60)):
        assert abs(arc_tangent(slope).degrees - degrees) < F(1, 10**45)
    # A cosine of 1e-10 is the least a tangent is taken of: 1e-10 over two pi of a turn from a quarter.
    edge = F(1, 10**10) / (2 * PI_LOW)
    assert tangent(Angle(F(1, 4) - edge * F(1001, 1000))) > 9 * 10**9
    with pytest.raises(ValueError, match="without limit"):
        tangent(Angle(F(1, 4) - edge * F(999, 1000)))


def test_continued_fractions_by_hand():
    # 127/100 = 1 + 27/100, 100/27 = 3 + 19/27, 27/19 = 1 + 8/19, 19/8 = 2 + 3/8, 8/3 = 2 + 2/3, 3/2 = 1 + 1/2, 2.
    between = ["1", "1/2", "2/3", "3/4", "4/5", "7/9", "11/14", "15/19", "26/33", "37/47", "63/80", "100/127"]
    ratio = F(100, 127)
    assert list(intermediate_fractions(ratio, largest=127)) == [F(each) for each in between]
    assert list(intermediate_fractions(ratio, largest=126)) == [F(each) for each in between[:-1]]
    assert list(intermediate_fractions(ratio, largest=80))[-1] == F(63, 80)
    assert list(intermediate_fractions(ratio, largest=79))[-1] == F(37, 47)
    nearest = ["1", "3/4", "4/5", "11/14", "26/33", "37/47", "100/127"]
    assert convergents(ratio, largest=127) == tuple(F(each) for each in nearest)
    assert convergents(ratio, largest=126) == tuple(F(each) for each in nearest[:-1])
    assert convergents(ratio, largest=47) == tuple(F(each) for each in nearest[:-1])
    assert convergents(ratio, largest=46) == tuple(F(each) for each in nearest[:-2])
    # Above one: 127/100 begins with its whole part, 1, then 4/3.
    assert convergents(F(127, 100), largest=4) == (1, F(4, 3))
    assert list(intermediate_fractions(F(7, 2), largest=10)) == [1, 2, 3, 4, F(7, 2)]
    assert convergents(F(3), largest=3) == (3,)
