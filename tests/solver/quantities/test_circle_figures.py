"""Roots, sines, cosines and tangents against mpmath and Python's own ``math``, which know nothing of this program."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import mpmath
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import PLACES, TANGENT_PLACES, arc_tangent, cosine, sine, square_root, tangent
from solver.quantities.pi_multiples import PI_LOW
from tests.drawn_cases import cases

several = cases(400)
TURNS = st.one_of(
    st.fractions(min_value=-3, max_value=3, max_denominator=10**6),
    st.integers(-48, 48).map(lambda part: Fraction(part, 24)),
    st.integers(-(10**30), 10**30).map(lambda part: Fraction(part, 10**30)),
)
RATIOS = st.one_of(
    st.fractions(min_value=-(10**6), max_value=10**6, max_denominator=10**9),
    st.fractions(min_value=-2, max_value=2, max_denominator=100),
)


def truth(function: Callable[[mpmath.mpf], mpmath.mpf], number: Fraction, *, in_turns: bool) -> Fraction:
    """What mpmath says with 120 digits, as a fraction."""
    with mpmath.workdps(120):
        written = mpmath.mpf(number.numerator) / number.denominator
        value = function(2 * mpmath.pi * written if in_turns else written)
        return Fraction(mpmath.nstr(value, 110))


@several
@given(TURNS)
def test_sines_and_cosines_keep_their_bound(turns):
    bound = Fraction(1, 10**PLACES)
    assert abs(sine(Angle(turns)) - truth(mpmath.sin, turns, in_turns=True)) < bound
    assert abs(cosine(Angle(turns)) - truth(mpmath.cos, turns, in_turns=True)) < bound


@several
@given(TURNS)
def test_tangents_keep_their_bound_or_are_refused_near_a_quarter_turn(turns):
    from_quarter = abs((turns - Fraction(1, 4)) % Fraction(1, 2))
    if min(from_quarter, Fraction(1, 2) - from_quarter) < Fraction(1, 10**10) / (2 * PI_LOW):
        with pytest.raises(ValueError, match="without limit"):
            tangent(Angle(turns))
    else:
        assert abs(tangent(Angle(turns)) - truth(mpmath.tan, turns, in_turns=True)) < Fraction(1, 10**TANGENT_PLACES)


@pytest.mark.parametrize("away", [Fraction(1, 5 * 10**10), Fraction(-1, 5 * 10**10), Fraction(1, 10**6)])
def test_a_tangent_near_its_limit_still_keeps_its_bound(away):
    turns = Fraction(1, 4) + away
    assert abs(tangent(Angle(turns)) - truth(mpmath.tan, turns, in_turns=True)) < Fraction(1, 10**TANGENT_PLACES)


@several
@given(RATIOS)
def test_arc_tangents_keep_their_bound(ratio):
    with mpmath.workdps(120):
        wanted = truth(lambda slope: mpmath.atan(slope) / (2 * mpmath.pi), ratio, in_turns=False)
    assert abs(arc_tangent(ratio).turns - wanted) < Fraction(1, 10**PLACES)


@several
@given(st.fractions(min_value=0, max_value=10**9, max_denominator=10**9), st.integers(0, 60))
def test_square_roots_lie_below_the_truth_by_less_than_a_unit_of_the_last_place(value, places):
    root = square_root(value, places)
    assert root**2 <= value < (root + Fraction(1, 10**places)) ** 2


@several
@given(st.fractions(min_value=-2, max_value=2, max_denominator=1000))
def test_python_s_own_functions_agree_to_a_float(turns):
    radians = 2 * math.pi * float(turns)
    assert float(sine(Angle(turns))) == pytest.approx(math.sin(radians), abs=1e-13)
    assert float(cosine(Angle(turns))) == pytest.approx(math.cos(radians), abs=1e-13)
    assert float(arc_tangent(turns).turns) == pytest.approx(math.atan(float(turns)) / (2 * math.pi), abs=1e-15)


def test_angles_whose_figures_are_fractions_are_exact():
    # By Niven's theorem these are the only sines of rational degrees that are fractions.
    for degrees, wanted in (
        (0, 0),
        (30, "1/2"),
        (90, 1),
        (150, "1/2"),
        (180, 0),
        (210, "-1/2"),
        (270, -1),
        (330, "-1/2"),
    ):
        assert sine(Angle.of_degrees(degrees)) == Fraction(wanted)
        assert cosine(Angle.of_degrees(90 - degrees)) == Fraction(wanted)
    assert [tangent(Angle.of_degrees(each)) for each in (0, 45, 135, 225, 315)] == [0, 1, -1, 1, -1]
    assert [arc_tangent(each).turns for each in (0, 1, -1)] == [0, Fraction(1, 8), Fraction(-1, 8)]
    assert square_root(Fraction(49, 16)) == Fraction(7, 4)


@pytest.mark.parametrize("degrees", [90, -90, 270, 450])
def test_the_tangent_of_a_quarter_turn_is_refused(degrees):
    with pytest.raises(ValueError, match="without limit"):
        tangent(Angle.of_degrees(degrees))


def test_nothing_below_zero_has_a_root_and_no_float_comes_in():
    with pytest.raises(ValueError, match="zero or more"):
        square_root(-1)
    with pytest.raises(TypeError, match="not float"):
        square_root(0.5)  # type: ignore[arg-type]
    with pytest.raises(TypeError, match="not float"):
        arc_tangent(0.5)  # type: ignore[arg-type]
