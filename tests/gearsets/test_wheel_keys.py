"""Keys of a lathe file for whoever makes another wheel: face, bore and pressure angle."""

from fractions import Fraction

import pytest

from gearsets.lathe_files import lathe_toml, load_lathe_text
from solver.quantities.lengths import Length
from tests.gearsets.shop_texts import FULL, GOOD, only_fault

TOLD = 'face = "10 mm"\nbore = "1/2 in"\npressure_angle = "14.5 deg"\n'


def test_face_bore_and_pressure_angle_are_read_for_each_class_by_itself():
    first, other = load_lathe_text(
        FULL.replace("[[wheels.other]]\n", "[[wheels.other]]\n" + TOLD), "mine.toml"
    ).wheel_classes
    assert (first.face, first.bore, first.pressure_angle) == (None, None, None)
    assert (other.face, other.bore) == (Length.of_mm(10), Length.of_inches("1/2"))
    assert other.pressure_angle.degrees == Fraction(29, 2)


def test_they_are_written_as_they_were_read():
    lathe = load_lathe_text(GOOD + TOLD, "mine.toml")
    assert lathe.wheel_classes[0].bore == Length.of_inches("1/2")
    assert load_lathe_text(lathe_toml(lathe), "copy.toml") == lathe


@pytest.mark.parametrize(
    ("added", "place", "said"),
    [
        ('face = "0 mm"', "wheels.face (line 7)", "above zero"),
        ('bore = "10"', "wheels.bore (line 7)", "unit"),
        ("bore = 10", "wheels.bore (line 7)", "not text"),
        ('pressure_angle = "5 deg"', "wheels.pressure_angle (line 7)", "10 to 30 degrees"),
        ('pressure_angle = "45 deg"', "wheels.pressure_angle (line 7)", "10 to 30 degrees"),
    ],
)
def test_one_slip_is_one_fault_in_its_place(added, place, said):
    fault = only_fault(f"{GOOD}{added}\n")
    assert fault.place == place
    assert said in fault.problem


def test_a_wheel_added_to_a_class_leaves_what_is_told_of_it():
    first = load_lathe_text(GOOD + TOLD, "mine.toml").with_wheel(63).wheel_classes[0]
    assert (first.face, first.stock[-2]) == (Length.of_mm(10), (63, 1))
