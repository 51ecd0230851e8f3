"""Tables, dials, stops, audits, slots and written moves by arithmetic done by hand, down to their bounds."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.dividing.heads import Head, Plate
from solver.dividing.hole_circles import HolePlace, hole_circle
from solver.dividing.index_audit import audit_move
from solver.dividing.moves import CrankMove
from solver.dividing.positions import Position, best_circle, positions
from solver.dividing.skipping import has_longer_steps, refuse_unmet_marks, steps_prime_to
from solver.dividing.slots import LengthwiseSlot, most_slots_across, most_slots_along, passes_from_touch
from solver.dividing.spindle_stops import (
    PinPlace,
    StopSetting,
    collet_blocks,
    pin_places,
    stops_of_spindle,
    wheels_with_detent,
)
from solver.dividing.table_dial import DialPosition, dial_table
from solver.dividing.written_moves import read_move, read_moves
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass

mm = Length.of_mm
TABLE = Head("table", Fraction(90), ())
MINUTE = Fraction(1, 21_600)
FORTY = Fraction(40)


def turn(over: int, under: int = 1) -> Angle:
    return Angle(Fraction(over, under))


def lathe(*boxes: tuple[tuple[int, int], ...], stops: tuple[int, ...] = ()) -> Lathe:
    classes = tuple(WheelClass(f"class {number}", mm(1), stock) for number, stock in enumerate(boxes))
    return Lathe("small", "3 mm", mm(3), Fraction(1), True, classes, spindle_stops=stops)


def test_a_table_of_positions_walks_from_hole_to_hole_by_what_lies_between_them():
    # A crank turn is a quarter of the work: a seventh is 4/7 turn, 5.71 of ten holes, then 11.43 and 17.14.
    head = Head("4:1", Fraction(4), (Plate("A", ((10,),)),))
    assert list(positions(head, Fraction(1, 7), 3, 10)) == [
        Position(0, 0, 0, CrankMove(0, 0, 10), turn(0), turn(0)),
        Position(1, 0, 6, CrankMove(0, 6, 10), turn(1, 7), turn(1, 140)),
        Position(2, 1, 1, CrankMove(0, 5, 10), turn(2, 7), turn(-3, 280)),
        Position(3, 1, 7, CrankMove(0, 6, 10), turn(3, 7), turn(-1, 280)),
    ]


def test_of_circles_as_good_as_each_other_the_largest_is_taken():
    head = Head("40:1", FORTY, (Plate("A", ((15, 18, 21, 20),)),))
    assert best_circle(head, Fraction(1, 120), 120) == ("A", 21)
    assert best_circle(head, Fraction(1, 100), 100) == ("A", 20)
    assert best_circle(Head("bare", Fraction(1), (), (12, 36, 24), has_worm=False), Fraction(1, 12), 12) == (None, 36)


def test_a_list_may_be_as_long_as_anybody_walks():
    head = Head("40:1", FORTY, (Plate("A", ((15,),)),))
    assert next(positions(head, Fraction(1, 5000), 5000, 15)).number == 0


def test_a_table_may_be_turned_as_often_as_anybody_walks():
    assert len(dial_table(TABLE, Fraction(1, 5000), 5000, Angle(MINUTE)).rows) == 5001


def test_marks_may_stand_one_division_of_the_dial_apart_and_each_reads_its_own():
    table = dial_table(TABLE, MINUTE, 2, Angle(MINUTE))
    assert (table.part, table.per_turn, table.division) == (MINUTE, turn(1, 90), Angle(MINUTE))
    assert table.rows == tuple(
        DialPosition(number, Angle(number * MINUTE), 0, Angle(number * MINUTE), turn(0)) for number in range(3)
    )


def test_a_dial_of_whole_degrees_reads_a_seventh_of_a_turn_as_51_degrees():
    # 360/7 is 51 3/7 degrees: twelve turns of 4 degrees and 3 more.
    row = dial_table(TABLE, Fraction(1, 7), 7, turn(1, 360)).rows[1]
    assert row == DialPosition(1, turn(1, 7), 12, turn(3, 360), turn(-3, 2520))


@pytest.mark.parametrize(("clockwise", "way"), [(False, 1), (True, -1)])
@pytest.mark.parametrize(("all_positive", "shift"), [(False, 0), (True, 5)])
def test_four_holes_on_a_circle_stand_on_its_axes(clockwise, way, all_positive, shift):
    places = hole_circle(4, mm(10), start=turn(3, 4), clockwise=clockwise, all_positive=all_positive)
    corners = [(0, -5), (5 * way, 0), (0, 5), (-5 * way, 0)]
    assert places == tuple(
        HolePlace(number, turn((3 + way * (number - 1)) % 4, 4), mm(x + shift), mm(y + shift))
        for number, (x, y) in enumerate(corners, start=1)
    )


def test_holes_run_counter_clockwise_about_the_centre_unless_it_is_said_otherwise():
    said = hole_circle(4, mm(10), start=turn(0), clockwise=False, all_positive=False)
    assert hole_circle(4, mm(10), start=turn(0)) == said
    assert [(place.x.mm, place.y.mm) for place in said] == [(5, 0), (0, 5), (-5, 0), (0, -5)]


def test_an_audit_keeps_both_motions_as_the_sector_needs_them_and_the_rate_of_the_plate():
    audit = audit_move(CrankMove(0, 22, 21), FORTY, second=CrankMove(0, 40, 33), plate_turns=Fraction(-2))
    assert audit.moves == (CrankMove(1, 1, 21), CrankMove(1, 7, 33))
    assert (audit.plate_turns, audit.worm_ratio) == (-2, 40)
    assert audit_move(CrankMove(0, 22, 21), FORTY).plate_turns == 0


def test_several_divisions_at_a_time_are_meant_where_a_twentieth_at_most_is_over():
    # A turn of the crank divides 40: 82 are 2.05 at a time and 78 1.95; of 83 and of 96 that cannot be said.
    row = audit_move(CrankMove(1, 0, None), FORTY)
    assert [row.at_once(count) for count in (40, 78, 82, 77, 83, 96, 10)] == [1, 2, 2, 1, 1, 1, 1]
    assert (row.marks_met(82), row.marks_met(83), row.marks_met(120)) == (41, 83, 40)


def test_every_mark_is_met_where_the_step_shares_no_factor_with_the_count():
    row = audit_move(CrankMove(1, 7, 39), FORTY, second=CrankMove(0, 29, 41))
    assert (row.at_once(106), row.marks_met(106)) == (5, 106)


@pytest.mark.parametrize(
    ("move", "counts"),
    [
        # 40 · 2/127, 40 · 9/127 and 40 · 10/127 of a turn: two, nine and ten divisions at a time, the last too many.
        (CrankMove(0, 80, 127), (127,)),
        (CrankMove(2, 106, 127), (127,)),
        (CrankMove(3, 19, 127), ()),
        # 94 at a time one, and no count by several that shares no factor with the step.
        (CrankMove(0, 20, 47), ()),
        # 8820/841 moves to the turn: 21 by twos, with 1/20 of a division over at closure, which is just near enough.
        (CrankMove(3, 359, 441), (21,)),
    ],
)
def test_the_counts_a_row_may_be_for_by_several_at_a_time(move, counts):
    assert audit_move(move, FORTY).likely_counts() == counts


def test_steps_share_no_factor_with_the_count_and_stop_short_of_a_round():
    assert steps_prime_to(Fraction(1, 7), 9) == (1, 2, 3, 4, 5, 6)
    assert steps_prime_to(Fraction(1, 7), 3) == (1, 2, 3)
    assert steps_prime_to(Fraction(1, 6), 5) == (1, 5)
    assert (has_longer_steps(Fraction(1, 11), 9), has_longer_steps(Fraction(1, 10), 9)) == (True, False)


def test_a_step_that_meets_every_mark_is_not_refused_and_another_is_named_near_the_one_that_does_not():
    for count, step in ((7, 1), (7, 3), (106, 5), (1, 1)):
        refuse_unmet_marks(count, step)
    with pytest.raises(ImpossibleSettingError, match="for example 2 or 4[.]$"):
        refuse_unmet_marks(15, 3)


def test_the_cutter_travels_half_the_round_half_its_own_width_the_feeler_and_the_offset():
    sizes = {"diameter": mm(20), "cutter": mm(4), "feeler": mm("0.05")}
    assert passes_from_touch(width=mm(4), offset=mm(1), **sizes) == (mm("13.05"),)
    assert passes_from_touch(width=mm(4), offset=mm(-1), **sizes) == (mm("11.05"),)
    # Ten wide by three passes: the outer ones finish the walls, 3 mm to either side of the middle one.
    assert passes_from_touch(width=mm(10), offset=mm(0), **sizes) == (mm("9.05"), mm("12.05"), mm("15.05"))


#: Diameter 20; width, offset, depth and how many go round, from arc tangents of a table.
SLOTS = [
    # Past the axis: beside it the rim alone counts, 30 less 17.46 degrees; across it one slot is all.
    (2, 4, 12, 28),
    (2, 1, 12, 31),
    (2, "1.75", 12, 30),
    (2, "0.5", 12, 1),
    # Half a millimetre short of the axis, 3 mm to either side: twice 80.54 degrees.
    (6, 0, "9.5", 2),
    # As near on the one side and 9 mm on the other: twice 80.54 degrees again, not 86.82 and 19.45.
    (12, 3, "9.5", 2),
    # From 3 to 5 mm aside at 5 mm from the axis: 45 less 25.10 degrees.
    (2, 4, 5, 18),
    (2, -4, 5, 18),
]


@pytest.mark.parametrize(("width", "offset", "depth", "most"), SLOTS)
def test_so_many_slots_go_along_a_round(width, offset, depth, most):
    assert most_slots_along(LengthwiseSlot(mm(20), mm(width), mm(offset), mm(depth))) == most


def test_two_slots_nearly_as_wide_as_the_round_leave_metal_between_them():
    assert most_slots_across(mm(20), mm("19.9"), mm(0)) == 2


def test_a_row_of_stops_skips_by_what_goes_into_it_the_largest_first():
    found = stops_of_spindle(lathe(stops=(24, 60, 24)), 12)
    assert found == (StopSetting(60, 5, 12), StopSetting(24, 2, 12))


def test_single_wheels_come_by_falling_teeth_and_six_of_them_unless_more_are_asked_for():
    box = lathe(tuple((teeth, 1) for teeth in (20, 25, 30, 35, 40, 45, 50, 55)))
    every = tuple(StopSetting(teeth, teeth // 5, 5, on_spindle=teeth) for teeth in range(55, 19, -5))
    assert wheels_with_detent(box, 5) == every[:6]
    assert wheels_with_detent(box, 5, most=9) == every
    assert [str(each.step) for each in every[:2]] == [str(each.step) for each in wheels_with_detent(box, 5)[:2]]


def test_a_wheel_counted_on_a_stud_is_a_second_one_of_the_box_or_of_another_class():
    # 30 · 30/20 are 45 stops, if there are two of 30 teeth, or one of another class.
    with pytest.raises(ImpossibleSettingError):
        wheels_with_detent(lathe(((20, 1), (30, 1))), 45)
    wanted = (StopSetting(45, 1, 45, 30, (20, 30)),)
    assert wheels_with_detent(lathe(((20, 1), (30, 2))), 45) == wanted
    assert wheels_with_detent(lathe(((20, 1), (30, 1)), ((30, 1),)), 45) == wanted
    assert wheels_with_detent(lathe(((20, 1), (30, 2)), ((30, 1),)), 45) == wanted
    # The mate on the stud meshes with the spindle's wheel, so those two are of one class.
    with pytest.raises(ImpossibleSettingError):
        wheels_with_detent(lathe(((30, 2),), ((20, 1),)), 45)


def test_the_coarsest_steps_on_a_stud_come_first_and_each_number_of_stops_once():
    # 40 · 60/24 are 100 stops; 60 · 40/24 are too, but the larger wheel is the one to count on.
    box = lathe(((24, 1), (40, 1), (60, 1)))
    assert wheels_with_detent(box, 25) == (StopSetting(100, 4, 25, 40, (24, 60)),)
    # 28 · 70/20 are 98, and 28 · 70/40 are 49.
    box = lathe(((20, 1), (28, 1), (35, 1), (40, 1), (70, 1)))
    assert wheels_with_detent(box, 49) == (StopSetting(98, 2, 49, 28, (20, 70)), StopSetting(49, 1, 49, 28, (40, 70)))
    # 36 · 70/30 are 84 as 24 · 70/20 are, with the larger wheel on the spindle.
    box = lathe(((20, 1), (24, 1), (30, 1), (36, 1), (70, 1)))
    assert wheels_with_detent(box, 84) == (StopSetting(84, 1, 84, 36, (30, 70)),)


def test_pin_places_part_the_spaces_of_the_largest_row_that_serves():
    head = Head("indexer", Fraction(1), (), (24, 36), has_worm=False, pin_places=10)
    # 45 degrees are four and a half spaces of ten degrees.
    assert pin_places(head, 8) == tuple(PinPlace(number, 9 * number // 2 % 36, 5 * (number % 2)) for number in range(9))
    assert pin_places(head, 16)[1] == PinPlace(1, 1, 5)


def test_collet_blocks_name_their_shapes():
    assert [(each.shape, each.faces, each.step) for each in collet_blocks(1)] == [("square", 4, 4), ("hex", 6, 6)]


@pytest.mark.parametrize(
    ("text", "move"),
    [
        ("5 turns", CrankMove(5, 0, None)),
        ("1 turn", CrankMove(1, 0, None)),
        ("1 turn +9 on 21", CrankMove(1, 9, 21)),
        ("1 turn and 9 spaces on 21 holes", CrankMove(1, 9, 21)),
        ("1 TURN 1 HOLE ON 21", CrankMove(1, 1, 21)),
        ("9 Spaces On 21", CrankMove(0, 9, 21)),
        ("9/21", CrankMove(0, 9, 21)),
        ("2 turns 0 on 21", CrankMove(2, 0, 21)),
        ("1 on 2", CrankMove(0, 1, 2)),
        ("1 on 10000", CrankMove(0, 1, 10_000)),
    ],
)  # fmt: skip
def test_a_move_is_read_as_the_bench_writes_it(text, move):
    assert read_move(text) == move
    assert read_moves(text) == (move,)


@pytest.mark.parametrize("sign", ["-", "\N{MINUS SIGN}", "\N{EN DASH}"])
def test_a_minus_or_a_dash_takes_the_second_motion_back(sign):
    assert read_moves(f"21 on 23 {sign} 11 spaces on 33") == (CrankMove(0, 21, 23), CrankMove(0, 11, 33, -1))
    assert read_moves("21/23+11/33")[1] == CrankMove(0, 11, 33)


def test_whole_turns_that_should_have_been_others_name_no_circle():
    # Two turns of 40 divide 20; four divide 10.
    audit = audit_move(CrankMove(2, 0, None), Fraction(40))
    assert (audit.divisions, audit.move_for(10)) == (20, CrankMove(4, 0, None))
    assert audit.move_for(30) is None
