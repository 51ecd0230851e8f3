"""Making a wheel: every way of dividing it carried out, and where a head needs the lathe's own wheels."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from gearsets.head_files import HEADS, find_head
from gearsets.lathe_files import find_lathe
from solver.jobs.wheel_making import making_of
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass

TEETH = (21, 37, 46, 57, 63, 66, 127)


def inch_lathe(size, teeth=(40, 60), **told):
    box = WheelClass(size, Length.of_mm(1), tuple((each, 1) for each in teeth), **told)
    return Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), has_reverse=True, wheel_classes=(box,))


@pytest.mark.parametrize("teeth", TEETH)
@pytest.mark.parametrize("name", ["inch-8-no127", "inch-16-small", "inch-8-fours"])
def test_each_way_on_the_lathe_itself_turns_the_spindle_by_one_tooth_of_the_new_wheel(name, teeth):
    lathe = find_lathe(name)
    held = dict(lathe.wheel_classes[0].stock)
    for way in making_of(teeth, lathe, None).on_lathe:
        if way.on_spindle is None:
            turned = Fraction(way.step, way.stops)
        elif way.on_stud is None:
            turned = Fraction(way.step, way.on_spindle)
        else:
            in_mesh, counted = way.on_stud
            # The counted wheel turns with the one in mesh, which turns as the teeth of both ask.
            turned = Fraction(way.step, counted) * Fraction(in_mesh, way.on_spindle)
            assert {way.on_spindle, in_mesh, counted} <= held.keys()
        assert turned == Fraction(1, teeth)


def test_a_prime_wheel_of_no_multiple_in_the_box_is_not_divided_on_the_lathe():
    assert making_of(127, find_lathe("inch-8-no127"), None).on_lathe == ()


def test_a_head_with_wheels_uses_its_own_and_one_without_is_offered_those_of_the_lathe():
    lathe = find_lathe("inch-8-no127")
    head = find_head("head-40-three-plates")
    own = making_of(127, lathe, head)
    assert own.on_head.is_exact
    assert own.with_change_wheels is None
    bare = making_of(127, lathe, replace(head, wheels=()))
    assert not bare.on_head.is_exact
    answer = bare.with_change_wheels
    assert answer.is_exact
    held = dict(lathe.wheel_classes[0].stock)
    wheels = [each for _, each in answer.gearing.train.wheels] + list(answer.gearing.idlers)
    assert all(wheels.count(each) <= held.get(each, 0) for each in wheels)
    # 127 moves relative to the plate and the plate's own turns make one turn of the work.
    assert 127 * answer.move.value + answer.gearing.plate_turns == head.worm_ratio


@pytest.mark.parametrize("name", HEADS.shipped_names())
@pytest.mark.parametrize("teeth", [21, 127])
def test_every_head_shipped_gives_a_setting_or_says_nothing(name, teeth):
    making = making_of(teeth, find_lathe("inch-8-no127"), find_head(name))
    assert making.on_head is None or making.on_head.best is not None
    assert making.is_divided is bool(
        (making.on_head and making.on_head.is_exact) or making.with_change_wheels or making.on_lathe
    )


def test_the_pressure_angle_of_the_file_is_the_only_one_told():
    told = making_of(30, inch_lathe("module 1", pressure_angle=Angle.of_degrees(20)), None)
    assert [each.pressure_angle.degrees for each in told.base_pitches] == [20]
    assert len(making_of(30, inch_lathe("module 1"), None).base_pitches) == 2


def test_the_proportions_follow_the_way_the_size_is_written():
    module, dp = making_of(30, inch_lathe("module 1.27"), None), making_of(30, inch_lathe("20 DP"), None)
    assert module.outside == dp.outside
    assert module.tooth.whole_depth > dp.tooth.whole_depth
    assert not module.tooth.is_dp
    assert dp.tooth.is_dp


def test_below_the_set_of_eight_there_is_no_cutter():
    assert making_of(11, inch_lathe("module 1"), None).cutter is None
    assert making_of(12, inch_lathe("module 1"), None).cutter.most == 13
