"""Studs placed by hand: triangles of whole sides, slots at right angles, ends of slot and swing met to the unit."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.angles import Angle
from solver.trains.banjo_gauge import BanjoGauge
from solver.trains.chain import chain_of
from solver.trains.lathe import Banjo, Lathe
from solver.trains.layout import Fault, Layout, Obstacle, StudPlace
from solver.trains.mounting import judge
from solver.trains.stud_places import SCALE, Standing, Stud, StudPlaces
from solver.trains.wheels import WheelClass
from solver.trains.written_trains import read_set_up
from tests.small_lathes import a_lathe, mm

F = Fraction


def degrees(*ends: int | str) -> tuple[Angle, ...]:
    return tuple(Angle.of_degrees(each) for each in ends)


def banjo(centres: int | str, **more: object) -> Banjo:
    return Banjo(centre_distance=mm(centres), **more)  # type: ignore[arg-type]


def trials(where: Banjo, *distances: int, unit: int = 1) -> list[Standing]:
    return list(StudPlaces(where, unit).trials(distances))


def points(trial: Standing) -> list[tuple[float, float]]:
    return [(round(x / SCALE, 9), round(y / SCALE, 9)) for x, y in trial.points]


def radii(standings: list[Standing]) -> list[list[tuple[int, float]]]:
    return [[(stud.slot, round(stud.r / SCALE, 9)) for stud in trial.studs] for trial in standings]


# The leadscrew is the origin, the stud gear stands on the x axis. Sides of 30, 40 and 50 make a right angle at stud 1.


def test_a_right_angle_at_the_stud_to_the_right_and_then_to_the_left():
    right, left = trials(banjo(50), 30, 40)
    there, here = (32 * SCALE, 24 * SCALE), (32 * SCALE, -24 * SCALE)
    stud = Stud(0, 40 * SCALE, is_exact=True)
    assert right == Standing((stud,), ((50 * SCALE, 0), there, (0, 0)), there, ())
    assert left == Standing((stud,), ((50 * SCALE, 0), here, (0, 0)), here, ())


def test_the_same_triangle_in_halves_of_a_millimetre():
    # 25, 15 and 20 mm are 50, 30 and 40 units of half a millimetre.
    right, _ = trials(banjo(25), 30, 40, unit=2)
    assert points(right) == [(50, 0), (32, 24), (0, 0)]


def test_what_does_not_reach_says_what_would():
    assert points(*trials(banjo(70), 30, 40)) == [(70, 0), (40, 0), (0, 0)]
    assert points(*trials(banjo(10), 30, 40)) == [(10, 0), (40, 0), (0, 0)]
    for centres, needed in ((71, (31, 111)), (9, (31, 49))):
        (trial,) = trials(banjo(centres), 30, 40)
        assert trial == Standing(
            (Stud(0, 40 * SCALE, is_exact=True),), (), (0, 0), (Fault(Obstacle.REACH, (0, 1), (), (F(30),), needed),)
        )
    (long,) = trials(banjo(9), 50, 40)
    assert long.faults == (Fault(Obstacle.REACH, (0, 1), (), (F(50),), (F(31), F(49))),)
    (halves,) = trials(banjo("35.5"), 30, 40, unit=2)
    assert halves.faults == (Fault(Obstacle.REACH, (0, 1), (), (F(15),), (F("15.5"), F("55.5"))),)


def test_two_studs_in_one_slot_stand_out_or_in_by_their_distance():
    outward, right, left = trials(banjo(50), 30, 25, 65)
    assert radii([outward, right, left]) == [[(0, 90), (0, 65)], [(0, 40), (0, 65)], [(0, 40), (0, 65)]]
    assert outward.faults[0].needed == (40, 140)
    assert points(right) == [(50, 0), (32, 24), (52, 39), (0, 0)]
    assert points(left) == [(50, 0), (32, -24), (52, -39), (0, 0)]
    assert all(stud.is_exact for stud in right.studs)


def test_no_stud_stands_on_the_leadscrew_or_beyond_it():
    assert radii(trials(banjo(200), 30, 65, 65)) == [[(0, 130), (0, 65)]]
    assert radii(trials(banjo(200), 30, 66, 65)) == [[(0, 131), (0, 65)]]
    assert radii(trials(banjo(200), 30, 64, 65)) == [[(0, 129), (0, 65)], [(0, 1), (0, 65)]]


def test_of_three_studs_each_goes_outward_before_inward():
    found = radii(trials(banjo(1000), 30, 5, 20, 60))
    assert found == [[(0, first), (0, second), (0, 60)] for first, second in ((85, 80), (75, 80), (45, 40), (35, 40))]


@pytest.mark.parametrize(("least", "most", "fits"), [(40, 90, True), (41, 90, False), (10, 40, True), (10, 39, False)])
def test_the_very_end_of_a_slot_serves(least, most, fits):
    right, _ = trials(banjo(50, slot=(mm(least), mm(most))), 30, 40)
    fault = Fault(Obstacle.SLOT, (1,), (), (F(40),), (F(least), F(most)))
    assert right.faults == (() if fits else (fault,))


def test_the_stud_beyond_its_slot_is_named_by_its_number():
    _, right, _ = trials(banjo(50, slot=(mm(10), mm(60))), 30, 25, 65)
    assert right.faults == (Fault(Obstacle.SLOT, (2,), (), (F(65),), (F(10), F(60))),)


def test_slack_is_the_way_to_the_nearer_end_of_the_slot():
    places = StudPlaces(banjo(50, slot=(mm(30), mm(90)), second_slot=(mm(20), mm(45))), 1)
    slacks = [
        places.slot_slack(Stud(slot, r * SCALE, is_exact=True)) // SCALE for slot, r in ((0, 40), (0, 85), (1, 40))
    ]
    assert slacks == [10, 5, 5]


# A second slot at right angles to the first, to the right of it.
CROSS = {"slot": (mm(10), mm(99)), "second_slot": (mm(20), mm(45)), "second_slot_at": Angle.of_degrees(90)}


def test_a_stud_in_the_second_slot_turns_the_first_slot_away():
    found = trials(banjo(50, **CROSS), 30, 40)
    assert radii(found) == [[(0, 40)], [(0, 40)], [(1, 40)], [(1, 40)]]
    assert points(found[2]) == [(50, 0), (32, 24), (0, 0)]
    assert [(round(x / SCALE, 9), round(y / SCALE, 9)) for x, y in (found[2].first_slot, found[3].first_slot)] == [
        (24, -32),
        (-24, -32),
    ]
    assert [trial.faults for trial in found] == [(), (), (), ()]


def test_studs_in_two_slots_are_the_sides_of_a_triangle():
    # The inner stud 24 mm out in the first slot, the other 32 mm out in the second: 40 mm apart.
    found = [trial for trial in trials(banjo(40, **CROSS), 24, 40, 24) if [stud.slot for stud in trial.studs] == [1, 0]]
    assert radii(found) == [[(1, 32), (0, 24)]] * 2
    assert points(found[0]) == [(40, 0), (25.6, 19.2), (14.4, -19.2), (0, 0)]
    assert points(found[1]) == [(40, 0), (25.6, -19.2), (-14.4, -19.2), (0, 0)]
    assert [stud.is_exact for stud in found[0].studs] == [False, True]
    assert not any(stud.is_close for stud in found[0].studs)
    # The other way round: the inner stud in the second slot, 24 mm out, the first slot a quarter turn to its left.
    other = [trial for trial in trials(banjo(40, **CROSS), 24, 40, 24) if [stud.slot for stud in trial.studs] == [0, 1]]
    assert radii(other) == [[(0, 32), (1, 24)]] * 2
    assert points(other[0]) == [(40, 0), (25.6, 19.2), (-14.4, 19.2), (0, 0)]


def test_no_stud_of_the_second_slot_stands_on_the_leadscrew_either():
    # 24 mm out in one slot and 24 mm apart: in the other, at right angles, that is the leadscrew itself.
    found = trials(banjo(40, **CROSS), 24, 24, 24)
    assert {tuple(stud.slot for stud in trial.studs) for trial in found} == {(0, 0), (1, 1)}
    assert all(stud.r > 0 for trial in found for stud in trial.studs)


def test_two_places_in_the_second_slot_at_one_distance_the_farther_first():
    # Slots 60 degrees apart: 40 mm out in the one, its foot on the other at 20 mm and 20 root 3 mm off; 35 mm reach 25
    # and 15 mm.
    slots = {**CROSS, "second_slot_at": Angle.of_degrees(60)}
    found = radii(trials(banjo(300, **slots), 30, 35, 40))
    assert found == [[(0, 75), (0, 40)], [(0, 5), (0, 40)], [(1, 25), (0, 40)], [(1, 15), (0, 40)],
                     [(0, 25), (1, 40)], [(0, 15), (1, 40)], [(1, 75), (1, 40)], [(1, 5), (1, 40)]]  # fmt: skip
    # 34 mm are less than 20 root 3.
    assert radii(trials(banjo(300, **slots), 30, 34, 40))[2:4] == [[(1, 74), (1, 40)], [(1, 6), (1, 40)]]


def test_what_hangs_on_less_than_the_bound_is_marked_so():
    # Slots 30 degrees apart: 40 mm out in the one is 20 mm off the other. In units of 1e-9 mm the bound is one unit.
    unit = 10**9
    slots = {**CROSS, "second_slot_at": Angle.of_degrees(30)}

    def across(more: int) -> list[bool]:
        found = trials(banjo(300, **slots), 30 * unit, 20 * unit + more, 40 * unit, unit=unit)
        return [trial.studs[0].is_close for trial in found if [stud.slot for stud in trial.studs] == [1, 0]]

    assert [across(more) for more in (2, 1, 0, -1, -2)] == [[False] * 2, [True] * 2, [True] * 2, [True] * 2, []]
    close = trials(banjo(55, **{**slots, "second_slot": (mm(30), mm(39))}), 30, 20, 40)
    first = next(trial for trial in close if [stud.slot for stud in trial.studs] == [1, 0])
    assert [(fault.obstacle, fault.axes, fault.is_close) for fault in first.faults] == [(Obstacle.SLOT, (1,), True)]


# 40 mm out with 30 mm between centres and 50 mm to the stud gear: the slot stands at a right angle.


@pytest.mark.parametrize(
    ("low", "high", "right", "left"),
    [
        (-100, 100, "", ""),
        (-91, 89, "out", ""),
        (-89, 91, "", "out"),
        (-80, 80, "out", "out"),
        # More than half a turn: 90 lies within, and 270 beyond.
        (-89, 200, "", "out"),
        (-200, 89, "out", ""),
        (-90, 90, "close", "close"),
        (-180, 180, "", ""),
        (-200, 200, "", ""),
    ],
)
def test_the_swing_is_held_at_both_ends(low, high, right, left):
    found = trials(banjo(30, swing=degrees(low, high)), 50, 40)
    for trial, wanted in zip(found, (right, left), strict=True):
        fault = Fault(Obstacle.SWING, (1,), (), (), (F(low), F(high)), wanted == "close")
        assert trial.faults == ((fault,) if wanted else ())


def test_a_whole_turn_of_swing_has_no_ends():
    # 40 mm out, 10 mm between centres, 50 mm to the stud gear: the slot points straight down.
    (trial,) = trials(banjo(10, swing=degrees(-180, 180)), 50, 40)
    assert trial.faults == ()
    assert points(trial) == [(10, 0), (-40, 0), (0, 0)]


# Whole set-ups: 20 and 40 T are 30 mm apart, 40 and 40 T 40 mm, and the axes stand 50 mm apart.


def layout_of(text: str, where: Banjo) -> Layout | None:
    train, idlers = read_set_up(text)
    box = (WheelClass("module 1", mm(1), ()),)
    return judge(train, Lathe("drawn", "", mm(3), F(1), True, box, banjo=where), idlers).layout


def test_an_idler_is_drawn_with_the_stud_gear_above_the_leadscrew():
    free = layout_of("20-(40)-40", banjo(50, stud_nut=mm(10)))
    # Tips of 11 and 21 mm in one plane, 50 mm apart.
    assert free == Layout((StudPlace(1, mm(40)),), ((0, 50), (24, 32), (0, 0)), (24, 32), mm(18), (0, 2))
    assert free.swing.degrees.limit_denominator(10**6) == F("36.869897645844").limit_denominator(10**6)
    # The slot ends 10 mm below the stud, and 12 mm above it.
    slotted = layout_of("20-(40)-40", banjo(50, stud_nut=mm(10), slot=(mm(30), mm(52))))
    assert (slotted.clearance, slotted.tightest) == (mm(10), (1,))
    left = layout_of("20-(40)-40", banjo(50, stud_nut=mm(10), swing=degrees(-90, 0)))
    assert left == Layout((StudPlace(1, mm(40)),), ((0, 50), (-24, 32), (0, 0)), (-24, 32), mm(18), (0, 2))


def test_the_tightest_gap_of_two_pairs_is_found():
    # 30 T on stud 1 beside the nut on the stud gear: 30 - 16 - 5 mm; 40 T beside that on the leadscrew: 40 - 21 - 5.
    found = layout_of("20-40-30-50", banjo(50, stud_nut=mm(10), slot=(mm(20), mm(90))))
    assert (found.clearance, found.tightest, found.studs) == (mm(9), (0, 1), (StudPlace(1, mm(40)),))
    # Half of a nut of 12.5 mm, to the hundredth.
    odd = layout_of("20-40-30-50", banjo(50, stud_nut=mm("12.5")))
    assert (odd.clearance, odd.tightest) == (mm("7.75"), (0, 1))
    # The second 60 T, on stud 1, is 40 mm from the stud gear: a tip of 31 mm and half a nut of 17.8 mm.
    wide = layout_of("60-20-60-20", banjo(50, stud_nut=mm("17.8")))
    assert (wide.clearance, wide.tightest) == (mm("0.1"), (0, 1))
    # 62 T on the leadscrew, 50 mm from the stud gear: a tip of 32 mm and the same half nut.
    far = layout_of("30-30-18-62", banjo(50, stud_nut=mm("17.8")))
    assert (far.clearance, far.tightest) == (mm("9.1"), (0, 2))


def test_axes_that_do_not_mesh_are_as_far_apart_as_they_stand():
    # Studs 80 and 40 mm out, the first 60 mm from the stud gear and that 100 mm out: at (64, 48) and (32, 24), so that
    # the second stands the root of 68 x 68 + 24 x 24 from the stud gear, whose 110 T has a tip of 56 mm.
    found = layout_of("110-10-60-20-20-60", banjo(100, stud_nut=mm(1)))
    assert found.tightest == (0, 2)
    assert abs(found.clearance.mm + F("56.5") - F("72.1110255092798")) < F(1, 10**12)
    # Without a slot nothing is said of its ends, however near the leadscrew a stud is: 64 mm less tips of 21 and 6 mm.
    near = layout_of("40-(40)-10", banjo(64, stud_nut=mm(1)))
    assert (near.clearance, near.tightest) == (mm(37), (0, 2))


def test_faults_name_their_axes_and_figures():
    def faults(text: str, where: Banjo) -> tuple[Fault, ...]:
        train, idlers = read_set_up(text)
        return BanjoGauge(a_lathe(20, banjo=where)).examine(chain_of(train, idlers)).faults

    limits = Banjo(stud_nut=mm(1), mesh_limits=((mm(10), mm(90)), (mm(61), mm(90))))
    assert faults("40-60-50-70", limits) == (Fault(Obstacle.LIMITS, (1, 2), (), (F(60),), (F(61), F(90))),)
    assert faults("40-60", banjo(51)) == (Fault(Obstacle.REACH, (0, 1), (), (F(50),), (F(51),)),)
    assert faults("40-60", banjo(50)) == ()
    guarded = Banjo(stud_nut=mm(1), largest_wheel_teeth=50)
    assert faults("40-60", guarded) == (Fault(Obstacle.GUARD, (), (), (F(60),), (F(50),)),)
    assert faults("40-60-50-70", Banjo(0, stud_nut=mm(1))) == (Fault(Obstacle.STUDS, (), (), (F(1),), (F(0),)),)


def test_a_stud_in_the_second_slot_is_told_as_such():
    found = layout_of("20-(40)-40", banjo(50, stud_nut=mm(10), slot=(mm(50), mm(60)), second_slot=(mm(30), mm(45)),
                                          second_slot_at=Angle.of_degrees(90)))  # fmt: skip
    assert found.studs == (StudPlace(2, mm(40)),)
    assert (found.clearance, found.tightest) == (mm(5), (1,))
    assert [(round(float(x), 9), round(float(y), 9)) for x, y in found.points] == [(0, 50), (24, 32), (0, 0)]


def test_what_cannot_be_placed_has_no_layout():
    assert layout_of("20-(40)-40", banjo(71)) is None
    assert layout_of("20-40", banjo(30)) is None
    assert layout_of("20-40", Banjo()) is None
