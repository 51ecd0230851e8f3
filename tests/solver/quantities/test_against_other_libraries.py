"""The numbers against libraries that know nothing of this program: sympy, mpmath, Pint and ``decimal``."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction

import mpmath
import pint
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from sympy.ntheory.continued_fraction import continued_fraction, continued_fraction_convergents

from solver.quantities.angles import Angle
from solver.quantities.continued_fractions import intermediate_fractions
from solver.quantities.exact_numbers import (
    decimal_text,
    is_finite_decimal,
    order_of_magnitude,
    significant_text,
    trimmed_decimal_text,
)
from solver.quantities.lengths import Length, least_common_multiple
from solver.quantities.pi_multiples import PI_HIGH, PI_LOW, PiLength
from solver.quantities.pitches import Pitch, PitchUnit
from tests.drawn_cases import cases
from tests.strategies import pitches

several = cases(300)
FRACTIONS = st.fractions(min_value=-(10**9), max_value=10**9, max_denominator=10**9)
ABOVE_ZERO = st.fractions(min_value=Fraction(1, 10**9), max_value=10**9, max_denominator=10**9)
UNITS: pint.UnitRegistry = pint.UnitRegistry(non_int_type=Fraction)


def as_fraction(number: Decimal) -> Fraction:
    return Fraction(*number.as_integer_ratio())


def test_pi_lies_between_its_bounds_by_sympy():
    assert Fraction(1, 10**80) == PI_HIGH - PI_LOW
    assert PI_LOW < Fraction(str(sympy.N(sympy.pi, 100))) < PI_HIGH
    assert sympy.Rational(PI_LOW.numerator, PI_LOW.denominator) < sympy.pi
    assert sympy.pi < sympy.Rational(PI_HIGH.numerator, PI_HIGH.denominator)


def test_pi_lies_between_its_bounds_by_mpmath():
    with mpmath.workdps(110):
        assert PI_LOW < Fraction(mpmath.nstr(+mpmath.pi, 100)) < PI_HIGH
        interval = mpmath.iv.clone() if hasattr(mpmath.iv, "clone") else mpmath.iv
        interval.dps = 110
        low, high = (
            interval.mpf(PI_LOW.numerator) / PI_LOW.denominator,
            interval.mpf(PI_HIGH.numerator) / PI_HIGH.denominator,
        )
        assert low < interval.pi < high


@several
@given(FRACTIONS)
def test_a_pi_length_lies_between_its_bounds(mm_per_pi):
    low, high = PiLength(mm_per_pi).bounds()
    true = mm_per_pi * Fraction(str(sympy.N(sympy.pi, 100)))
    assert low.mm <= true <= high.mm
    assert high.mm - low.mm == abs(mm_per_pi) / 10**80


@several
@given(FRACTIONS)
def test_inches_and_millimetres_convert_as_pint_converts_them(value):
    assert Length.of_inches(value).mm == UNITS.Quantity(value, "inch").to("millimeter").magnitude
    assert Length.of_mm(value).inches == UNITS.Quantity(value, "millimeter").to("inch").magnitude


@pytest.mark.parametrize("figure", [Fraction(20), Fraction(23, 2), Fraction(19), Fraction(1, 3)], ids=str)
def test_threads_to_the_inch_convert_as_pint_converts_them(figure):
    by_pint = (1 / UNITS.Quantity(figure, "1/inch")).to("millimeter").magnitude
    assert Pitch(figure, PitchUnit.THREADS_PER_INCH).lead == Length(by_pint)


@several
@given(pitches())
def test_a_lead_is_its_starts_times_the_pitch_and_a_pi_pitch_stays_one(pitch):
    one = pitch.pitch
    is_pi = pitch.unit in (PitchUnit.MODULE, PitchUnit.DIAMETRAL_PITCH)
    assert isinstance(one, PiLength) == is_pi
    assert pitch.lead == one * pitch.starts
    if isinstance(one, PiLength):
        module = pitch.figure if pitch.unit is PitchUnit.MODULE else Fraction(127, 5) / pitch.figure
        assert one.mm_per_pi == module


@several
@given(FRACTIONS)
def test_degrees_and_seconds_agree_with_a_turn_of_360(degrees):
    angle = Angle.of_degrees(degrees)
    assert angle.degrees == degrees
    assert angle.arcsec == degrees * 3600
    assert angle.turns * 360 == degrees


@several
@given(ABOVE_ZERO, ABOVE_ZERO)
def test_the_least_common_multiple_is_a_multiple_of_both_and_none_smaller_is(first, second):
    least = least_common_multiple(first, second)
    times = (least / first, least / second)
    assert [each.denominator for each in times] == [1, 1]
    assert sympy.gcd(times[0].numerator, times[1].numerator) == 1


@several
@given(st.fractions(min_value=Fraction(1, 200), max_value=200, max_denominator=10_000))
def test_the_fractions_between_hold_every_convergent_that_sympy_gives(ratio):
    terms = continued_fraction(sympy.Rational(ratio.numerator, ratio.denominator))
    convergents = [Fraction(int(each.p), int(each.q)) for each in continued_fraction_convergents(terms)]
    largest = 200
    found = list(intermediate_fractions(ratio, largest=largest))
    for each in convergents:
        if each and max(each.numerator, each.denominator) <= largest:
            assert each in found
    assert all(max(each.numerator, each.denominator) <= largest for each in found)
    if max(ratio.numerator, ratio.denominator) <= largest:
        assert found[-1] == ratio


@cases(60)
@given(st.fractions(min_value=Fraction(1, 5), max_value=5, max_denominator=500))
def test_no_fraction_of_small_wheels_is_nearer_than_the_fractions_between(ratio):
    largest = 40
    found = [abs(each - ratio) for each in intermediate_fractions(ratio, largest=largest)]
    every = [Fraction(a, b) for a in range(1, largest + 1) for b in range(1, largest + 1)]
    assert min(found) == min(abs(each - ratio) for each in every)


@pytest.mark.from_memory("general knowledge: tables of substitutes for the 127 wheel")
def test_63_over_80_stands_between_the_convergents_of_100_over_127():
    # 63 x 127 = 8001 and 80 x 100 = 8000; the classic stand-in is no convergent.
    assert Fraction(63, 80) in intermediate_fractions(Fraction(100, 127), largest=120)
    terms = continued_fraction(sympy.Rational(100, 127))
    assert sympy.Rational(63, 80) not in list(continued_fraction_convergents(terms))


@several
@given(FRACTIONS, st.integers(0, 9))
def test_a_decimal_is_written_as_pythons_decimal_module_rounds_it(value, places):
    context = Context(prec=60, rounding=ROUND_HALF_EVEN)
    wide = context.divide(Decimal(value.numerator), Decimal(value.denominator))
    rounded = wide.quantize(Decimal(1).scaleb(-places), context=context)
    # A negative number that rounds to zero is shown without a sign; decimal keeps one.
    wanted = format(abs(rounded) if rounded == 0 else rounded, "f")
    assert decimal_text(value, places) == wanted


@several
@given(FRACTIONS.filter(bool), st.integers(1, 12))
def test_significant_digits_agree_with_pythons_decimal_module(value, digits):
    context = Context(prec=digits, rounding=ROUND_HALF_EVEN)
    wanted = context.divide(Decimal(value.numerator), Decimal(value.denominator))
    assert Fraction(significant_text(value, digits)) == as_fraction(wanted)
    assert Fraction(significant_text(value, digits)) != 0


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        ("999.96", 4, "1000"),
        ("0.0099996", 3, "0.0100"),
        ("1/3", 2, "0.33"),
        ("-125", 3, "-125"),
        ("1234567", 3, "1230000"),
        ("0", 5, "0"),
    ],
)
def test_significant_digits_are_shown_as_the_bench_reads_them(value, digits, text):
    assert Fraction(significant_text(Fraction(value), digits)) == Fraction(text)
    assert "e" not in significant_text(Fraction(value), digits).lower()


@several
@given(FRACTIONS.filter(bool))
def test_the_order_of_magnitude_is_the_exponent_of_the_leading_digit(value):
    exponent = order_of_magnitude(value)
    assert Fraction(10) ** exponent <= abs(value) < Fraction(10) ** (exponent + 1)


@several
@given(FRACTIONS, st.integers(0, 9))
def test_a_trimmed_decimal_has_the_value_of_the_full_one_and_no_trailing_zero(value, places):
    text = trimmed_decimal_text(value, places)
    assert Fraction(text) == Fraction(decimal_text(value, places))
    assert "." not in text or text[-1] not in "0."


@several
@given(FRACTIONS, st.integers(0, 9))
def test_a_number_is_a_finite_decimal_when_its_text_is_the_number(value, places):
    assert is_finite_decimal(value, places) == (Fraction(decimal_text(value, places)) == value)
