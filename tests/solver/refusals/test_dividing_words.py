"""What is said of a division that cannot be made, word for word: heads, tables, stops and moves as they are written."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.dividing.choosing import choose
from solver.dividing.compound import compound
from solver.dividing.differential import differential, wheel_that_helps
from solver.dividing.divide import divide
from solver.dividing.heads import Head, Plate, SmallCrank
from solver.dividing.index_audit import audit_move
from solver.dividing.moves import CrankMove, Method
from solver.dividing.positions import best_circle, positions
from solver.dividing.skipping import refuse_unmet_marks
from solver.dividing.spindle_stops import collet_blocks, pin_places, stops_of_spindle, wheels_with_detent
from solver.dividing.table_dial import dial_table
from solver.dividing.two_cranks import two_crank_settings
from solver.dividing.written_moves import MOVE_HELP, read_move, read_moves
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.refusals import RefusalError
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass

BARE = Head("bare", Fraction(40), ())
LONE = Head("one circle", Fraction(40), (Plate("A", ((20,),)),))
PAIR = Head("two circles", Fraction(40), (Plate("A", ((15, 20),)),))
INDEXER = Head("indexer", Fraction(1), (), (36, 24), has_worm=False, pin_places=10)
TABLE = Head("table", Fraction(90), ())
WIDE = Head("wide", Fraction(4), (Plate("A", ((3,),)),), small_crank=SmallCrank(Fraction(3), (2,)))
WHEELS = (WheelClass("module 1", Length.of_mm(1), ((20, 1), (30, 1))),)
MINUTE = Angle(Fraction(1, 21_600))


def lathe(*stops: int) -> Lathe:
    return Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, WHEELS, spindle_stops=stops)


#: What is asked, what is said to stand in the way, and what to help.
REFUSED = [
    (
        lambda: divide(LONE, Fraction(0)),
        "a move of the work is above nothing and at most one turn, not 0",
        "Ask for 1 division or more.",
    ),
    (
        lambda: choose(LONE, Fraction(1, 2), at_once=3),
        "a move of the work is above nothing and at most one turn, not 3/2",
        "Ask for 1 division or more.",
    ),
    (
        lambda: divide(LONE, Fraction(3, 10_000)),
        "the crank would have to move 3/250 turn, less than half of the smallest move on these plates",
        "A circle with 250 holes, or a head with a higher worm ratio, would do it.",
    ),
    (
        lambda: divide(INDEXER, Fraction(1, 75)),
        "the spindle would have to move 1/75 turn, less than half of the smallest move of its own holes",
        "A circle with 75 holes, or a head with a higher worm ratio, would do it.",
    ),
    (
        lambda: compound(LONE, Fraction(1, 51)),
        "compound dividing needs two circles on one face of a plate; this head has no such plate",
        "Describe the plate's circles in the head's file, one list for each face.",
    ),
    (
        # Two circles on one plate, but each on its own face.
        lambda: compound(Head("two faces", Fraction(40), (Plate("A", ((15,), (16,))),)), Fraction(1, 51)),
        "compound dividing needs two circles on one face of a plate; this head has no such plate",
        "Describe the plate's circles in the head's file, one list for each face.",
    ),
    (
        lambda: compound(PAIR, Fraction(3, 40_000)),
        "the crank would have to move 3/1000 turn, finer than two circles of one face can make",
        "A head with a higher worm ratio would do it.",
    ),
    (
        # Three times as far, since three divisions are asked for at once.
        lambda: compound(PAIR, Fraction(3, 40_000), at_once=3),
        "the crank would have to move 9/1000 turn, finer than two circles of one face can make",
        "A head with a higher worm ratio would do it.",
    ),
    (
        lambda: differential(LONE, Fraction(1, 127)),
        "differential dividing needs change wheels; none are listed for this head",
        "Add [wheels] with teeth = { 24 = 2, 28 = 1 } and so on to the head's file.",
    ),
    (
        lambda: wheel_that_helps(LONE, Fraction(1, 127)),
        "differential dividing needs change wheels; none are listed for this head",
        "Add [wheels] with teeth = { 24 = 2, 28 = 1 } and so on to the head's file.",
    ),
    (
        lambda: differential(Head("no plate", Fraction(40), (), wheels=((24, 2),)), Fraction(1, 127)),
        "differential dividing needs an index plate; this head has none",
        "Add the plate's circles to the head's file.",
    ),
    (
        lambda: refuse_unmet_marks(106, 4),
        "4 divisions at a time meet only 53 of 106 marks: both divide by 2",
        "Take a step that shares no factor with the count, for example 5 or 7.",
    ),
    (
        # Below 9 the last steps that share no factor with 12 are 5 and 7.
        lambda: refuse_unmet_marks(12, 6),
        "6 divisions at a time meet only 2 of 12 marks: both divide by 6",
        "Take a step that shares no factor with the count, for example 5 or 7.",
    ),
    (
        lambda: refuse_unmet_marks(8, 8),
        "8 divisions at a time are a whole round of 8: each move comes back to the first mark",
        "Take a step that shares no factor with the count, for example 5 or 7.",
    ),
    (
        lambda: refuse_unmet_marks(6, 7),
        "7 divisions at a time go past a whole round of 6",
        "Take a step that shares no factor with the count, for example 5.",
    ),
    (
        lambda: refuse_unmet_marks(2, 2),
        "2 divisions at a time are a whole round of 2: each move comes back to the first mark",
        "This count has no such step; move one division at a time.",
    ),
    (
        lambda: audit_move(CrankMove(0, 5, 20), Fraction(40), second=CrankMove(0, 4, 16, -1)),
        "the two motions take the work nowhere, or backwards",
        "Look at the signs: the longer motion goes forwards.",
    ),
    (
        lambda: audit_move(CrankMove(0, 5, 20), Fraction(40), plate_turns=Fraction(40)),
        "a plate that turns 40 to one of the work takes it nowhere at a worm ratio of 40",
        "Look at the wheels: drivers and driven may be exchanged.",
    ),
    (
        lambda: list(positions(LONE, Fraction(1, 5001), 5001, 20)),
        "a table of 5001 positions is longer than the 5000 anybody walks by hand",
        "Ask for fewer divisions.",
    ),
    (
        lambda: best_circle(BARE, Fraction(1, 7), 7),
        "a table of positions needs an index plate; this head has none",
        "Add the plate's circles to the head's file.",
    ),
    (
        lambda: dial_table(INDEXER, Fraction(1, 7), 7, MINUTE),
        "this head has no worm, so it has no dial to turn by",
        "Name a rotary table with --head, or describe yours with worm_ratio.",
    ),
    (
        lambda: dial_table(TABLE, Fraction(1, 5001), 5001, MINUTE),
        "a table of 5001 positions is longer than the 5000 anybody walks by hand",
        "Ask for fewer divisions.",
    ),
    (
        lambda: dial_table(TABLE, Fraction(1, 7), 7, MINUTE * 7),
        "a turn of the handle is 4°, not a whole number of divisions of 7/60°",
        "Give the smallest division that the dial of this table has.",
    ),
    (
        lambda: dial_table(TABLE, Fraction(1, 30_000), 7, MINUTE),
        "the marks stand closer together than one division of the dial",
        "Use an index plate, or a dial with a finer division.",
    ),
    (
        lambda: two_crank_settings(LONE, Fraction(1, 7)),
        "this head has no small crank beside its large one",
        "Name a two-crank head with --head, or describe yours with [small_crank].",
    ),
    (
        lambda: two_crank_settings(WIDE, Fraction(1, 1000)),
        "1/1000 turn of the work is less than half the smallest move of this head",
        "Ask for fewer divisions.",
    ),
    (
        lambda: stops_of_spindle(lathe(), 7),
        "this lathe has no holes or teeth that lock its spindle",
        "Write them in its file: [spindle_stops] counts = [60].",
    ),
    (
        lambda: stops_of_spindle(lathe(12, 8), 7),
        "the spindle's stops (12, 8) do not go into 7 equal steps",
        "They divide 1, 2, 3, 4, 6, 8, 12.",
    ),
    (
        lambda: wheels_with_detent(lathe(), 7),
        "no wheel of this box divides 7 with a detent, nor does a wheel on the spindle geared to one on a stud",
        "A wheel of 7 teeth, or a multiple, would do it.",
    ),
    (
        lambda: collet_blocks(5),
        "no collet block divides 5: a square one divides 1, 2 and 4, a hex one 1, 2, 3 and 6",
        "Use a head, a table or an indexer.",
    ),
    (
        lambda: pin_places(Head("no places", Fraction(40), (), (24,)), 8),
        "this head has no row of pin places that parts the spaces of its own holes",
        "Write it in its file: direct_circles = [36] and pin_places = 10.",
    ),
    (
        lambda: pin_places(Head("no holes", Fraction(1), (), has_worm=False, pin_places=10), 8),
        "this head has no row of pin places that parts the spaces of its own holes",
        "Write it in its file: direct_circles = [36] and pin_places = 10.",
    ),
    (
        lambda: pin_places(Head("few", Fraction(1), (), (4, 3), has_worm=False, pin_places=2), 7),
        "holes times pin places (8, 6) do not go into 7 equal steps",
        "They divide 1, 2, 3, 4, 6, 8.",
    ),
]


@pytest.mark.parametrize(("asked", "reason", "help_text"), REFUSED, ids=range(1, len(REFUSED) + 1))
def test_a_refusal_says_just_this(asked, reason, help_text):
    with pytest.raises(RefusalError) as caught:
        asked()
    assert str(caught.value) == f"{reason}\n{help_text}"


#: What is written of one move or two, where the marker stands under it, and what is said.
MISWRITTEN = [
    ("9 on 1", 5, "a circle has 2 to 10000 holes"),
    ("9 on 10001", 5, "a circle has 2 to 10000 holes"),
    ("9 on 21 spaces of 33", 8, "this does not belong to a move"),
    ("9 on 21 / 3 on 33", 8, "this does not belong to a move"),
    ("9 on 21 * 3 on 33", 8, "a plus or a minus and the second circle were expected here"),
    ("9 on 21 + on 33", 10, "a whole number was expected here"),
    ("9 on 21 + 3 of 33", 14, "'on' and the second circle were expected here"),
    ("9 on 21 + 3 on 1", 15, "a circle has 2 to 10000 holes"),
    ("9 on 21 +   0 on 33", 9, "a second motion of nothing is no motion"),
    ("1 turn 9 of 21", 11, "'on' and the circle were expected here"),
    ("0 turns 0 on 21", 8, "a move of nothing divides nothing"),
    ("  0 turns", 2, "no turns at all divide nothing"),
    ("5 turns 3", 9, "'on' and the circle were expected here"),
    ("5 turns + 3 on 21 +", 19, "a whole number was expected here"),
]


@pytest.mark.parametrize(("text", "at", "reason"), MISWRITTEN)
def test_a_move_that_cannot_be_read_is_marked_where_it_goes_wrong(text, at, reason):
    with pytest.raises(RefusalError) as caught:
        read_moves(text)
    assert str(caught.value) == f"{reason}\n  {text}\n  {' ' * at}^\n{MOVE_HELP}"


def test_one_move_alone_is_refused_in_the_words_for_two():
    with pytest.raises(RefusalError) as caught:
        read_move("9 on 21 + 3 on 33")
    said = "this is more than one figure, or not one at all"
    assert str(caught.value) == f"{said}\n  9 on 21 + 3 on 33\n  {' ' * 8}^\n{MOVE_HELP}"


#: Head, count, method, and what stands in the way of that method, with what would help.
OBSTACLES = [
    (LONE, 51, Method.PLAIN, "no circle on the plates has the holes for it", ""),
    (LONE, 51, Method.DIRECT, "this head has no holes that lock the spindle itself", ""),
    (INDEXER, 51, Method.DIRECT, "the spindle's own circles (36, 24) do not divide so", ""),
    (
        LONE,
        51,
        Method.COMPOUND,
        "compound dividing needs two circles on one face of a plate; this head has no such plate",
        "Describe the plate's circles in the head's file, one list for each face.",
    ),
    (
        Head("few wheels", Fraction(40), LONE.plates, wheels=((24, 2),)),
        51,
        Method.DIFFERENTIAL,
        "no train of one or two pairs in the box is exact",
        "",
    ),
    (
        LONE,
        10_000,
        Method.NEAREST,
        "the crank would have to move 1/250 turn, less than half of the smallest move on these plates",
        "A circle with 250 holes, or a head with a higher worm ratio, would do it.",
    ),
]


@pytest.mark.parametrize(("head", "count", "method", "obstacle", "remedy"), OBSTACLES)
def test_a_method_without_a_setting_says_what_stands_in_its_way(head, count, method, obstacle, remedy):
    (report,) = choose(head, Fraction(1, count), methods=(method,)).methods
    assert (report.method, report.answers) == (method, ())
    assert (report.obstacle, report.remedy, report.most_at_once) == (obstacle, remedy, None)


def test_a_method_with_a_setting_has_nothing_in_its_way():
    head = Head("small", Fraction(40), PAIR.plates, (24,), wheels=((24, 1), (40, 2), (60, 1)))
    for report in choose(head, Fraction(1, 8), methods=tuple(Method)).methods:
        assert (bool(report.answers), report.obstacle, report.remedy) == (True, "", "")
