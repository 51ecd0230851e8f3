"""The count on a sheet against a head turned by hand, motion after motion."""

from __future__ import annotations

import re
from fractions import Fraction
from math import gcd

from hypothesis import given
from hypothesis import strategies as st

from cli.views.sheets.index_cards import nearest_table
from cli.views.sheets.running_count import BLOCK, count_from_zero, repeated_count
from gearsets.head_files import find_head
from solver.dividing.choosing import choose
from solver.dividing.moves import Method
from tests.drawn_cases import cases
from tests.head_strategies import heads
from tests.simulated_head import carry_out

SECONDS = 1_296_000
HEAD = find_head("head-40-three-plates")


def rows_of(count):
    names = [name for name, _ in count.heads]
    return [dict(zip(names, row.cells, strict=True)) for _, block in count.blocks for row in block]


def seconds_of(text):
    degrees, minutes, seconds = map(int, re.fullmatch(r"(\d+)°(\d\d)'(\d\d)\"", text).groups())
    assert minutes < 60
    assert seconds < 60
    return (degrees * 60 + minutes) * 60 + seconds


@cases(30)
@given(heads(), st.integers(2, 60), st.integers(1, 4))
def test_every_row_says_where_a_head_turned_by_hand_stands(head, count, step):
    at_once = step if gcd(step, count) == 1 and step < count else 1
    choice = choose(head, Fraction(1, count), methods=tuple(Method), at_once=at_once)
    for answer in (report.answers[0] for report in choice.methods if report.answers):
        told = rows_of(repeated_count(answer))
        follows = head.one_idler_follows is not False
        assert len(told) == count
        # The head is one and the same from move to move: it is read before it is moved on.
        standing = zip(told, carry_out(answer, head.worm_ratio, one_idler_follows=follows), strict=True)
        for number, (row, head_stands) in enumerate(standing, start=1):
            assert row["Move" if at_once > 1 else "Mark"] == str(number)
            turned, crank, plate = (
                Fraction(parts, head_stands.unit) for parts in (head_stands.work, head_stands.crank, head_stands.plate)
            )
            work = turned if turned <= 1 else turned % 1
            assert abs(seconds_of(row["Work at"]) - work * SECONDS) <= Fraction(1, 2)
            if at_once > 1:
                assert row["Mark"] == str(number * at_once % count)
            circle = answer.move.circle
            if answer.method is Method.DIRECT:
                assert int(row["Hole"]) == turned % 1 * circle
                continue
            turns, hole = row["Pin at"].split(" + ") if answer.second else (row["Turns"], row.get("Hole", "0"))
            assert int(turns) + Fraction(int(hole), circle or 1) == crank - plate
            if answer.second:
                assert Fraction(int(row["Stop"]), answer.second.circle) == plate % 1


@cases(30)
@given(heads(geared=False), st.integers(2, 90))
def test_marks_worked_from_zero_add_up_and_keep_within_half_a_hole(head, count):
    table = nearest_table(head, Fraction(1, count), count)
    _, circle, places = table
    reached = Fraction(0)
    for number, row in enumerate(rows_of(count_from_zero(circle, places)), start=1):
        turns, spaces = map(int, row["Move"].split(" + "))
        reached += turns + Fraction(spaces, circle)
        at_turns, hole = map(int, row["Pin at"].split(" + "))
        assert at_turns + Fraction(hole, circle) == reached
        wanted = Fraction(number, count) * head.worm_ratio
        assert abs(reached - wanted) * circle <= Fraction(1, 2)
        # The scale of degrees shows where the work came to stand, not where the mark belongs.
        assert abs(seconds_of(row["Work at"]) - reached / head.worm_ratio * SECONDS) <= Fraction(1, 2)


@given(st.integers(1, 45))
def test_a_block_is_ten_rows_and_a_checkpoint_stands_at_every_fifth_and_the_last(count):
    answer = choose(HEAD, Fraction(1, count)).best
    blocks = repeated_count(answer).blocks
    rows = [row for _, block in blocks for row in block]
    assert all(len(block) == BLOCK for _, block in blocks[:-1])
    marked = [number for number, row in enumerate(rows, start=1) if row.is_checkpoint]
    assert marked == sorted({*range(5, count + 1, 5), count})
