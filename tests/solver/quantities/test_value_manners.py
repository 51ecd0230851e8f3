"""Manners that every value type keeps: it does not change, it hashes, it refuses what may have been rounded."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from decimal import Decimal
from fractions import Fraction

import pytest

from solver.quantities.angles import Angle
from solver.quantities.exact_numbers import exact
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.quantities.pitches import Pitch, PitchUnit
from solver.trains.lead_error import LeadError
from solver.trains.wheels import Pair, Train

VALUES = [
    Length(Fraction(127, 5)),
    Angle(Fraction(1, 7)),
    PiLength(Fraction(1, 2)),
    Pitch(Fraction(23, 2), PitchUnit.THREADS_PER_INCH, 2),
    LeadError(Fraction(1, 8000), Fraction(0)),
    Pair(40, 20),
    Train((Pair(50, 40), Pair(20, 127))),
]
#: Types whose first field is an exact number, with a way to make one.
DOORS = [
    Length,
    Length.of_mm,
    Length.of_inches,
    Angle,
    Angle.of_degrees,
    PiLength,
    lambda number: Pitch(number, PitchUnit.MILLIMETRE),
    lambda number: LeadError(number, Fraction(0)),
    exact,
]


def of_type(value: object) -> str:
    return type(value).__name__


@pytest.mark.parametrize("value", VALUES, ids=of_type)
def test_a_value_does_not_change_and_takes_no_new_fields(value):
    name = dataclasses.fields(value)[0].name
    with pytest.raises(dataclasses.FrozenInstanceError):
        setattr(value, name, getattr(value, name))
    assert not hasattr(value, "__dict__")


@pytest.mark.parametrize("value", VALUES, ids=of_type)
def test_equal_values_hash_alike_and_are_found_in_a_set(value):
    twin = copy.deepcopy(value)
    assert twin == value
    assert hash(twin) == hash(value)
    assert twin in {value}


@pytest.mark.parametrize("value", VALUES, ids=of_type)
def test_a_value_survives_copying_and_pickling(value):
    assert copy.copy(value) == value
    assert pickle.loads(pickle.dumps(value)) == value  # noqa: S301 - our own bytes, made on this line.


@pytest.mark.parametrize("value", [each for each in VALUES if not isinstance(each, Pitch)], ids=of_type)
def test_the_repr_rebuilds_the_value(value):
    names = {kind.__name__: kind for kind in (Fraction, Length, Angle, PiLength, LeadError, Pair, Train)}
    assert eval(repr(value), names) == value  # noqa: S307 - what a test may do and the program may not.


@pytest.mark.parametrize("number", [0.5, 1.0, True, False, Decimal("0.5"), 1j, None, b"1"], ids=repr)
@pytest.mark.parametrize("door", DOORS, ids=lambda door: getattr(door, "__qualname__", str(door)))
def test_no_door_takes_a_number_that_may_have_been_rounded(door, number):
    with pytest.raises(TypeError, match="an exact number is"):
        door(number)


@pytest.mark.parametrize("factor", [0.5, True, Decimal(2)], ids=repr)
@pytest.mark.parametrize("value", VALUES[:3], ids=of_type)
def test_no_quantity_is_multiplied_by_a_number_that_may_have_been_rounded(value, factor):
    with pytest.raises(TypeError, match="an exact number is"):
        _ = value * factor
    with pytest.raises(TypeError, match="an exact number is"):
        _ = factor * value


def test_a_quantity_never_equals_a_bare_number_or_another_kind_of_quantity():
    half = Fraction(1, 2)
    kinds = [half, Length(half), Angle(half), PiLength(half)]
    assert [[a == b for b in kinds] for a in kinds] == [[place == other for other in range(4)] for place in range(4)]


def test_lengths_add_to_a_length_and_divide_to_a_number():
    assert Length.of_mm(3) + Length.of_mm(2) == Length.of_mm(5)
    assert Length.of_mm(3) - Length.of_mm(2) == Length.of_mm(1)
    assert Length.of_mm(3) / Length.of_mm(2) == Fraction(3, 2)
    assert 2 * Length.of_mm(3) == Length.of_mm(3) * 2 == Length.of_mm(6)


@pytest.mark.parametrize("other", [Fraction(1), 1, PiLength(Fraction(1)), Angle(Fraction(1))], ids=of_type)
def test_a_length_does_not_add_to_what_is_not_a_length(other):
    with pytest.raises(TypeError):
        _ = Length.of_mm(1) + other
    with pytest.raises(TypeError):
        _ = Length.of_mm(1) - other
    with pytest.raises(TypeError):
        _ = Length.of_mm(1) / other


def test_a_length_and_a_pi_length_are_not_ordered_between_them():
    with pytest.raises(TypeError):
        _ = Length.of_mm(1) < PiLength(Fraction(1))


def test_what_is_mounted_is_kept_unreduced():
    assert Pair(40, 20) != Pair(20, 10)
    assert Pair(40, 20).ratio == Pair(20, 10).ratio


@pytest.mark.parametrize(("figure", "starts"), [(0, 1), (-1, 1), (1, 0), (1, -1)])
def test_a_pitch_is_above_zero_and_has_a_start(figure, starts):
    with pytest.raises(ValueError, match="above zero"):
        Pitch(Fraction(figure), PitchUnit.MILLIMETRE, starts)
