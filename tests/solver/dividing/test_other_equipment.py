"""Dials of tables, two cranks, stops and detents carried out by a machine that only turns, apart from the solver."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gearsets.head_files import find_head
from solver.dividing.divide import divide
from solver.dividing.heads import Head
from solver.dividing.moves import CrankMove, Method
from solver.dividing.positions import best_circle, positions
from solver.dividing.spindle_stops import collet_blocks, stops_of_spindle, wheels_with_detent
from solver.dividing.table_dial import dial_table
from solver.dividing.two_cranks import two_crank_settings
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass
from tests.drawn_cases import cases
from tests.head_strategies import wide_heads
from tests.strategies import stocks

several = cases(150)
RATIOS = st.sampled_from([36, 40, 60, 72, 90, 120])
INDEXER = Head("indexer", Fraction(1), (), (36,), has_worm=False, pin_places=10)


def lathe_with(*boxes: WheelClass, stops: tuple[int, ...] = ()) -> Lathe:
    return Lathe("drawn", "3 mm", Length.of_mm(3), Fraction(1), True, boxes, spindle_stops=stops)


@several
@given(RATIOS, st.integers(1, 400), st.sampled_from([10, 60, 300, 1800]))
def test_a_table_walked_by_its_dial_never_strays_by_more_than_half_a_division(ratio, count, seconds):
    table = dial_table(
        Head("table", Fraction(ratio), ()), Fraction(1, count), count, Angle(Fraction(seconds, 1_296_000))
    )
    per_turn = Fraction(360, ratio)
    for number, row in enumerate(table.rows):
        stands = row.turns * per_turn + row.reading.degrees
        assert 0 <= row.reading.degrees < per_turn
        assert (row.reading.arcsec / seconds).denominator == 1
        assert stands - Fraction(360 * number, count) == row.error.degrees
        assert abs(row.error.arcsec) <= Fraction(seconds, 2)
    assert (table.rows[-1].turns, table.rows[-1].reading.turns) == (ratio, 0)
    assert table.worst.turns == max(abs(row.error.turns) for row in table.rows)


def nearest_sum(head: Head, crank: Fraction, *, back: bool) -> Fraction:
    """The least that any two moves of the cranks miss by, all tried in whole numbers; their sum is above nothing."""
    small = head.small_crank
    assert small is not None
    found = []
    for _, circle in head.circles():
        for little in small.circles:
            # Over one denominator: a space of the large crank, one of the small, and what is wanted.
            unit = circle * little * int(small.ratio) * crank.denominator
            space, more = unit // circle, unit // (little * int(small.ratio))
            wanted = crank.numerator * unit // crank.denominator
            lowest, most = (-circle if back else 0), wanted // space + 2 * circle
            found += [
                Fraction(abs(total - wanted), unit)
                for spaces in range(lowest, most + 1)
                for steps in range(
                    (wanted - most * space) // more if back else 0, (wanted - lowest * space) // more + 2
                )
                for total in (spaces * space + steps * more,)
                if total > 0
            ]
    return min(found)


@cases(80)
@given(wide_heads(), st.integers(2, 900))
def test_no_setting_of_both_cranks_is_nearer_than_the_first_by_trying_every_pair_of_holes(head, divisions):
    wanted = Fraction(1, divisions)
    crank, small = wanted * head.worm_ratio, head.small_crank
    assert small is not None
    least, least_forward = (nearest_sum(head, crank, back=back) for back in (True, False))
    try:
        found = two_crank_settings(head, wanted)
    except ImpossibleSettingError:
        # Refused only where standing still would be nearer than the smallest move, whichever way the cranks go.
        assert least >= crank
        return
    assert abs(found[0].error_per_move.turns) * head.worm_ratio == least
    both_forward = [each for each in found if not each.runs_both_ways]
    if least_forward < crank:
        # One crank goes back only where no setting with both forward is as near, and the best of those stands there.
        assert abs(both_forward[0].error_per_move.turns) * head.worm_ratio == least_forward
        for each in found:
            if each.runs_both_ways:
                assert abs(each.error_per_move.turns) * head.worm_ratio < least_forward
    for each in found:
        reached = (each.large.value + each.small.value / small.ratio) / head.worm_ratio
        assert reached == each.reached
        assert each.error_at_closure.turns == (reached - wanted) * divisions
        assert each.is_exact == (reached == wanted)
        assert each.runs_both_ways == (
            {each.large.value > 0, each.small.value > 0} == {True, False} and all((each.large.value, each.small.value))
        )
    if found[0].is_exact:
        assert all(each.is_exact for each in found[:-1])
        assert found[-1].is_exact or not found[-1].runs_both_ways


def test_one_crank_goes_back_where_only_that_is_exact():
    head = find_head("head-two-cranks")
    # 40/123 = 27/41 - 1/3, and 1/3 turn of the large crank is 33 turns and 18 spaces of 54 of the small one.
    first, *_, last = two_crank_settings(head, Fraction(1, 123))
    assert (first.large, first.small) == (CrankMove(0, 27, 41), CrankMove(33, 18, 54, -1))
    assert first.is_exact
    assert not last.runs_both_ways
    assert not last.is_exact
    assert all(not each.runs_both_ways for each in two_crank_settings(head, Fraction(1, 90)))


@several
@given(stocks(fewest=1, most=5), stocks(fewest=1, most=2), st.integers(2, 60))
def test_a_spindle_stopped_by_a_detent_comes_to_equal_parts_of_a_turn(first, second, divisions):
    lathe = lathe_with(
        WheelClass("module 1", Length.of_mm(1), first), WheelClass("20 DP", Length.of_mm("1.27"), second)
    )
    found = set()
    try:
        for each in wheels_with_detent(lathe, divisions, most=1000):
            found.add(each.stops)
            # Turn the spindle by one part; the counted wheel must have passed a whole number of teeth.
            turn = Fraction(1, divisions)
            wheel_turns = turn if each.on_stud is None else turn * Fraction(each.on_spindle, each.on_stud[0])
            assert wheel_turns * each.counted_wheel == each.step
            assert each.places() == tuple(number * each.step % each.counted_wheel for number in range(divisions + 1))
    except ImpossibleSettingError:
        assert not found
    teeth = [wheel for box in (first, second) for wheel, _ in box]
    single = {wheel for wheel in teeth if wheel % divisions == 0}
    if single:
        assert found == single
    else:
        # Every train, the slow way: a box may lend a wheel only as often as it holds it.
        trains = set()
        for box in (first, second):
            for spindle, _ in box:
                for stud, _ in box:
                    for other in (first, second):
                        for wheel, _ in other:
                            used = [(box, spindle), (box, stud), (other, wheel)]
                            held = all(dict(kept)[each] >= used.count((kept, each)) for kept, each in used)
                            stops = Fraction(spindle * wheel, stud)
                            if held and spindle != stud != wheel and (stops / divisions).denominator == 1:
                                trains.add(int(stops))
        assert found == trains


def test_the_stops_of_a_spindle_divide_what_goes_into_them_and_nothing_else():
    lathe = lathe_with(stops=(60, 24))
    for divisions in range(1, 61):
        wanted = [stops for stops in (60, 24) if stops % divisions == 0]
        if wanted:
            assert [each.stops for each in stops_of_spindle(lathe, divisions)] == wanted
        else:
            with pytest.raises(ImpossibleSettingError, match="They divide 1, 2, 3, 4, 5, 6, 8, 10, 12") as refusal:
                stops_of_spindle(lathe, divisions)
            assert "60, 24" in refusal.value.message
    with pytest.raises(ImpossibleSettingError, match="no holes or teeth"):
        stops_of_spindle(lathe_with(), 4)


def test_collet_blocks_divide_by_their_faces():
    divided = {}
    for divisions in range(1, 13):
        try:
            divided[divisions] = [(each.faces, each.step) for each in collet_blocks(divisions)]
        except ImpossibleSettingError:
            divided[divisions] = []
    assert divided == {1: [(4, 4), (6, 6)], 2: [(4, 2), (6, 3)], 3: [(6, 2)], 4: [(4, 1)], 6: [(6, 1)]} | {
        each: [] for each in (5, 7, 8, 9, 10, 11, 12)
    }


@pytest.mark.parametrize("divisions", range(1, 80))
def test_an_indexer_without_a_worm_divides_by_its_own_holes_or_says_how_near(divisions):
    report = divide(INDEXER, Fraction(1, divisions)) if divisions < 72 else None
    if report is None:
        with pytest.raises(ImpossibleSettingError, match="the spindle would have to move"):
            divide(INDEXER, Fraction(1, divisions))
        return
    assert report.is_exact == (36 % divisions == 0)
    for answer in report.answers:
        assert answer.method is (Method.DIRECT if report.is_exact else Method.NEAREST)
        assert answer.move.circle == 36
        assert answer.reached == answer.move.value
    plate, circle = best_circle(INDEXER, Fraction(1, divisions), divisions)
    assert (plate, circle) == (None, 36)
    last = list(positions(INDEXER, Fraction(1, divisions), divisions, circle))[-1]
    assert (last.turns, last.hole) == (1, 0)


def test_a_whole_turn_by_hand_is_no_crank_move():
    assert [answer.move for answer in divide(INDEXER, Fraction(1)).answers] == [CrankMove(1, 0, 36)]
