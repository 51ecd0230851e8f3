"""Thread figures against libraries that know nothing of this program: sympy, mpmath and Pint.

The exact seat of a wire has an oracle of its own: a cylinder laid in a meshless helicoid, turned and lowered by
plain search until it can go no lower.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import mpmath
import pint
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from solver.quantities.lengths import Length
from solver.quantities.powers import power
from solver.quantities.written_speeds import read_seconds, read_surface_speed
from solver.threads import wire_seat
from solver.threads.forms import FORMS
from solver.threads.infeed import infeed
from solver.threads.lead_angles import lead_angle
from solver.threads.spindle_speed import spindle_speed
from solver.threads.thread import Thread
from solver.threads.tool_nose import nose_for
from solver.threads.wire_seat import Groove, seat_of, seat_under, wire_touching
from tests.drawn_cases import cases

several = cases(100)
UNITS: pint.UnitRegistry = pint.UnitRegistry(non_int_type=Fraction)
#: Half of the included angle as an exact angle of sympy, by form.
HALF_ANGLES = {
    "iso": sympy.pi / 6, "whitworth": sympy.pi * 55 / 360, "ba": sympy.pi * 95 / 720,
    "acme": sympy.pi * 29 / 360, "trapezoidal": sympy.pi / 12, "loewenherz": sympy.atan(sympy.Rational(1, 2)),
}  # fmt: skip


def digits(expression: sympy.Expr, count: int = 40) -> Fraction:
    return Fraction(str(sympy.N(expression, count)))


@pytest.mark.parametrize("key", HALF_ANGLES)
def test_the_shape_of_a_form_agrees_with_sympy_to_28_decimals(key):
    form, half = FORMS[key], HALF_ANGLES[key]
    for found, wanted in (
        (form.tangent, sympy.tan(half)),
        (form.cotangent, sympy.cot(half)),
        (form.cosecant, sympy.csc(half)),
        (form.sharp_height, sympy.cot(half) / 2),
        (form.half_angle.turns, half / (2 * sympy.pi)),
    ):
        assert abs(found - digits(wanted)) < Fraction(1, 10**28)


@pytest.mark.parametrize(
    ("key", "drop"),
    [
        ("iso", sympy.sqrt(3) * 17 / 24),
        ("unified", sympy.sqrt(3) * 11 / 16),
        ("whitworth", sympy.cot(sympy.pi * 55 / 360) * 2 / 3),
        ("cycle", sympy.sqrt(3) - sympy.Rational(2, 3)),
    ],
)
def test_the_minor_diameter_of_a_screw_agrees_with_sympy(key, drop):
    thread = Thread(FORMS[key], Length.of_mm(10), Length.of_mm(1))
    assert abs(10 - thread.basic().external.minor.mm - digits(drop)) < Fraction(1, 10**28)


@pytest.mark.parametrize("key", ["whitworth", "ba"])
def test_a_rounded_root_is_tangent_to_both_flanks_and_as_deep_as_the_standard_says(key):
    """The radius that takes a sixth of the sharp V, or what 0.6 p leaves of it, off its point."""
    half = HALF_ANGLES[key]
    cut_off = sympy.cot(half) / 12 if key == "whitworth" else (sympy.cot(half) / 2 - sympy.Rational(3, 5)) / 2
    radius = nose_for(Thread(FORMS[key], Length.of_mm(50), Length.of_mm(5)), internal=False)[1]
    assert radius is not None
    assert abs(radius.mm / 5 - digits(cut_off / (sympy.csc(half) - 1))) < Fraction(1, 10**28)


@several
@given(
    st.fractions(min_value=Fraction(1, 100), max_value=400, max_denominator=1000),
    st.sampled_from(
        [Fraction(1, 3), Fraction(2, 3), Fraction(1, 2), Fraction(2, 5), Fraction(7, 10), Fraction(61, 50)]
    ),
)
def test_a_power_agrees_with_mpmath_and_is_never_above(base, exponent):
    with mpmath.workdps(60):
        true = mpmath.mpf(base.numerator) / base.denominator
        true = true ** (mpmath.mpf(exponent.numerator) / exponent.denominator)
        found = power(base, exponent)
        slack = true - mpmath.mpf(found.numerator) / found.denominator
        assert -(mpmath.mpf(10) ** -50) < slack < mpmath.mpf(10) ** -20


@several
@given(
    st.fractions(min_value=Fraction(1, 10), max_value=100, max_denominator=100),
    st.fractions(min_value=Fraction(1, 2), max_value=500, max_denominator=100),
)
def test_a_lead_angle_agrees_with_mpmath(lead, diameter):
    with mpmath.workdps(40):
        slope = mpmath.mpf(lead.numerator) / lead.denominator / (mpmath.pi * diameter.numerator / diameter.denominator)
        wanted = Fraction(mpmath.nstr(mpmath.degrees(mpmath.atan(slope)), 35))
    assert abs(lead_angle(Length.of_mm(lead), Length.of_mm(diameter)).degrees - wanted) < Fraction(1, 10**25)


@pytest.mark.parametrize(("degrees", "depth"), [("29.5", "0.92"), ("30", "0.92"), ("0", "0.5")])
def test_an_infeed_agrees_with_mpmath(degrees, depth):
    from solver.quantities.angles import Angle

    found = infeed(Length.of_mm(depth), FORMS["iso"], Angle.of_degrees(degrees))
    with mpmath.workdps(40):
        angle = mpmath.radians(mpmath.mpf(degrees))
        for length, wanted in (
            (found.slide_travel, mpmath.mpf(depth) / mpmath.cos(angle)),
            (found.shift, mpmath.mpf(depth) * mpmath.tan(angle)),
        ):
            assert abs(length.mm - Fraction(mpmath.nstr(wanted, 35))) < Fraction(1, 10**25)


@several
@given(st.fractions(min_value=Fraction(1, 10), max_value=500, max_denominator=10), st.sampled_from(["m", "ft"]))
def test_a_surface_speed_agrees_with_pint(figure, unit):
    if (figure * 10).denominator != 1:
        return
    text = f"{figure.numerator}/{figure.denominator}" if figure.denominator != 1 else f"{figure}"
    wanted = UNITS.Quantity(figure, {"m": "meter", "ft": "foot"}[unit] + "/minute").to("millimeter/minute").magnitude
    assert read_surface_speed(f"{text} {unit}/min").mm == wanted


def test_a_carriage_speed_agrees_with_pint():
    """At the speed found the carriage covers the run-out in the time the hand takes, exactly."""
    lead, room = Length.of_mm("1.5"), Length.of_inches("1/8")
    speed = spindle_speed(Length.of_mm(10), lead, room, reaction=read_seconds("1.5 s"))
    travel = (
        UNITS.Quantity(speed.approach, "1/minute") * UNITS.Quantity(lead.mm, "mm") * UNITS.Quantity(Fraction(3, 2), "s")
    )
    assert travel.to("inch").magnitude == Fraction(1, 8)


def lowest(height: Callable[[float], float], low: float, high: float, rounds: int = 44) -> float:
    """Return the least height between two ends, where it falls and then rises."""
    for _ in range(rounds):
        first, second = low + (high - low) * 0.382, low + (high - low) * 0.618
        low, high = (low, second) if height(first) < height(second) else (first, high)
    return height((low + high) / 2)


def over_by_search(half_angle: float, pitch: float, lead: float, wire: float, pitch_diameter: float) -> float:
    """Lower a cylinder onto a flank, at every swivel; the other flank is its mirror image."""
    slope, per_radian, radius = math.tan(math.radians(half_angle)), lead / 2 / math.pi, wire / 2

    def stands_at(swivel: float, at: float, turn: float) -> float:
        """Height of the axis at which the cylinder meets one point of the flank."""
        along = per_radian * turn + pitch / 4 + (at - pitch_diameter / 2) * slope
        aside = along * math.cos(swivel) - at * math.sin(turn) * math.sin(swivel)
        return at * math.cos(turn) + math.sqrt(max(radius**2 - aside**2, 0.0)) if abs(aside) < radius else -1.0

    def resting(swivel: float) -> float:
        def at_radius(at: float) -> float:
            return lowest(lambda turn: -stands_at(swivel, at, turn), -0.5, 0.5)

        return -lowest(at_radius, pitch_diameter / 2 - pitch * 0.45, pitch_diameter / 2 + pitch * 0.45)

    return 2 * lowest(resting, 0.0, math.atan(2 * per_radian / pitch_diameter) * 2, rounds=24) + wire


@pytest.mark.parametrize(
    ("key", "half_angle", "pitch", "lead", "wire", "pitch_diameter"),
    [
        ("iso", 30, "1.5", "1.5", "0.866", "9.026"),
        ("iso", 30, "1", "4", "0.58", "5.35"),
        ("acme", 14.5, "5.08", "10.16", "2.62", "22.86"),
        ("trapezoidal", 15, "4", "8", "2.1", "14"),
        ("whitworth", 27.5, "1.27", "1.27", "0.75", "5.54"),
    ],
)
def test_a_seat_is_where_a_cylinder_lowered_by_search_comes_to_rest(key, half_angle, pitch, lead, wire, pitch_diameter):
    found = over_by_search(half_angle, *map(float, (pitch, lead, wire, pitch_diameter)))
    groove = Groove(FORMS[key], Length.of_mm(pitch), Length.of_mm(lead))
    exact = seat_of(groove, Length.of_mm(wire), Length.of_mm(pitch_diameter)).over
    assert abs(found - exact.mm) < 2e-6


STEEP = [
    (key, half_angle, wire, starts, mean)
    for key, half_angle, wire in (("iso", 30, "0.577"), ("iso", 30, "0.9"), ("acme", 14.5, "0.52"))
    for starts in (1, 4, 12)
    for mean in (4, 10, 100)
]


@pytest.mark.parametrize(("key", "half_angle", "wire", "starts", "mean"), STEEP)
def test_a_seat_agrees_with_mpmath_to_22_decimals_within_a_dozen_rounds(
    monkeypatch, key, half_angle, wire, starts, mean
):
    monkeypatch.setattr(wire_seat, "_MOST_ROUNDS", 12)
    groove = Groove(FORMS[key], Length.of_mm(1), Length.of_mm(starts))
    found = seat_of(groove, Length.of_mm(wire), Length.of_mm(mean))
    back = seat_under(groove, Length.of_mm(wire), found.over)
    with mpmath.workdps(45):
        slope, rise, wire_radius = (
            mpmath.tan(mpmath.radians(half_angle)),
            starts / (2 * mpmath.pi),
            mpmath.mpf(wire) / 2,
        )

        def normal(at: mpmath.mpf) -> mpmath.mpf:
            return mpmath.sqrt(1 + (rise / at) ** 2 + slope**2)

        def aside(at: mpmath.mpf) -> mpmath.mpf:
            return mpmath.atan(-wire_radius * rise / (at * (at * normal(at) + wire_radius * slope)))

        def gap(at: mpmath.mpf) -> mpmath.mpf:
            return wire_radius / normal(at) - rise * aside(at) - mpmath.mpf(1) / 4 - (at - mpmath.mpf(mean) / 2) * slope

        at = mpmath.findroot(gap, mpmath.mpf(str(float(found.touches_at.mm))) / 2)
        lean = slope - rise / at * mpmath.tan(aside(at))
        over = 2 * mpmath.cos(aside(at)) * (at + wire_radius / normal(at) * lean) + 2 * wire_radius
        touches_at, wanted = (Fraction(mpmath.nstr(each, 40)) for each in (2 * at, over))
    assert abs(found.touches_at.mm - touches_at) < Fraction(1, 10**22)
    assert abs(found.over.mm - wanted) < Fraction(1, 10**22)
    assert abs(back.pitch_diameter.mm - mean) < Fraction(1, 10**22)


@several
@given(
    st.sampled_from(["iso", "whitworth", "ba", "acme", "trapezoidal"]),
    st.integers(1, 4),
    st.integers(8, 40),
)
def test_the_best_wire_touches_at_the_pitch_diameter(key, starts, pitches):
    groove = Groove(FORMS[key], Length.of_mm(1), Length.of_mm(starts))
    mean = Length.of_mm(pitches)
    seat = seat_of(groove, wire_touching(groove, mean, mean), mean)
    assert abs(seat.touches_at.mm - mean.mm) < Fraction(1, 10**18)
