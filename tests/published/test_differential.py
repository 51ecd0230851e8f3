"""Differential dividing against printed and recalled rows, and the well-known reach of the twelve wheels."""

from __future__ import annotations

from fractions import Fraction
from math import prod

import pytest

from solver.dividing.choosing import exact_methods
from solver.dividing.differential import can_gear, differential
from solver.dividing.heads import Head, Plate
from solver.dividing.index_audit import audit_move
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.written_moves import read_move
from solver.quantities.written_angles import read_angle
from tests.published.source_cases import TAKEN_UP, csv_rows, of_kind, read_cases, read_rows
from tests.published.test_indexing import TABLE_40

CASES = {number: case for number, case in read_cases("indexing_geared.toml").items() if case.kind == "differential"}
FACES = ((15, 16, 17, 18, 19, 20), (21, 23, 27, 29, 31, 33), (37, 39, 41, 43, 47, 49))
#: A technical university's module on dividing: gears of the 40:1 head.
TWELVE = ((24, 2), (28, 1), (32, 1), (40, 1), (44, 1), (48, 1), (56, 1), (64, 1), (72, 1), (86, 1), (100, 1))


def geared_head(ratio: int = 40) -> Head:
    """Make the head of the treatise, p. 57: in a simple train with one idler its plate follows the crank."""
    plates = tuple(Plate(f"plate {number}", (face,)) for number, face in enumerate(FACES, start=1))
    return Head(f"{ratio}:1", Fraction(ratio), plates, wheels=TWELVE, one_idler_follows=True)


def answer_with(
    answers: tuple[IndexAnswer, ...], move: CrankMove, drivers: list[int], driven: list[int]
) -> IndexAnswer | None:
    """Find a setting by its move and wheels; drivers may change places with drivers, driven with driven."""
    for answer in answers:
        assert answer.gearing
        pairs = answer.gearing.train.pairs
        wheels = (sorted(pair.driver for pair in pairs), sorted(pair.driven for pair in pairs))
        if answer.move == move and wheels == (sorted(drivers), sorted(driven)):
            return answer
    return None


def check_row(
    answer: IndexAnswer | None, divisions: int, ratio: int, drivers: list[int], driven: list[int], plate_turns: Fraction
) -> None:
    assert answer is not None
    assert answer.is_exact
    assert answer.gearing
    assert answer.gearing.plate_turns == plate_turns
    assert abs(plate_turns) == Fraction(prod(drivers), prod(driven))
    audit = audit_move(answer.move, Fraction(ratio), plate_turns=plate_turns)
    assert audit.divisions == divisions
    # Read as a plain row, the same move cuts its nominal number.
    assert audit.wheels_off == answer.gearing.nominal != divisions


def test_every_case_is_taken_up():
    assert CASES.keys() <= TAKEN_UP
    assert len(CASES) == 16


@pytest.mark.parametrize("case", of_kind(CASES, "differential"))
def test_a_case_is_found_with_its_wheels_direction_and_idlers(case):
    count, ratio = case["divisions"], case["ratio"]
    drivers = [case["spindle"], *([case["first_on_stud"]] if "first_on_stud" in case.data else [])]
    driven = [*([case["second_on_stud"]] if "second_on_stud" in case.data else []), case["worm"]]
    answers = differential(geared_head(ratio), Fraction(1, count))
    answer = answer_with(answers, read_move(case["crank"]), drivers, driven)
    check_row(answer, count, ratio, drivers, driven, Fraction(case["plate_turns"]))
    assert answer is not None
    assert answer.gearing
    assert answer.gearing.nominal == Fraction(case["nominal"])
    assert len(answer.gearing.idlers) == case["idlers"]


@pytest.mark.published("A Practical Treatise on Milling and Milling Machines, c. 1914-1919, p. 57, quarter degrees")
def test_a_quarter_of_a_degree_as_an_angle_is_the_same_setting():
    answers = differential(geared_head(), read_angle("1/4 deg").turns)
    answer = answer_with(answers, read_move("1 on 33"), [100, 64], [40, 44])
    check_row(answer, 1440, 40, [100, 64], [40, 44], Fraction(-40, 11))


def table_rows() -> list[object]:
    return csv_rows("indexing_table_40.csv", "divisions", TABLE_40, only=lambda row: row["way"] != "plain")


# None of the 135 rows was found to be wrong, and none moves several divisions at a time.
@pytest.mark.parametrize("row", table_rows())
def test_a_row_of_the_40_to_1_table_is_found_with_its_wheels_direction_and_idlers(row):
    count = int(row["divisions"])
    drivers = [int(row[name]) for name in ("spindle", "first_on_stud") if row[name]]
    driven = [int(row[name]) for name in ("second_on_stud", "worm") if row[name]]
    move = CrankMove(int(row["turns"]), int(row["spaces"]), int(row["circle"]))
    answer = answer_with(differential(geared_head(), Fraction(1, count)), move, drivers, driven)
    check_row(answer, count, 40, drivers, driven, Fraction(row["plate_turns"]))
    assert answer is not None
    assert answer.gearing
    assert len(answer.gearing.idlers) == int(row["idlers"])
    assert audit_move(move, Fraction(40), plate_turns=Fraction(row["plate_turns"])).at_once(count) == 1
    # The idlers recalled with the row lie in the box beside its wheels; eight rows are without, see below.
    left = [teeth for teeth, held in TWELVE for _ in range(held)]
    for teeth in (*drivers, *driven, *(int(each) for each in row["idler_teeth"].split("+") if each)):
        left.remove(teeth)


# Idlers recalled for these rows (24 and 44 beside two wheels of 24) would need three wheels of 24, so they were left
# blank; other wheels of the box serve as idlers.
@pytest.mark.from_memory(TABLE_40["memory"])
def test_rows_without_recalled_idlers_are_served_by_other_wheels_of_the_box():
    blank = [
        row for row in read_rows("indexing_table_40.csv")
        if row["way"] != "plain" and int(row["idlers"]) and not row["idler_teeth"]
    ]  # fmt: skip
    for row in blank:
        answers = differential(geared_head(), Fraction(1, int(row["divisions"])))
        assert all(answer.gearing and answer.gearing.idlers.count(24) <= 2 for answer in answers)
        assert answers
    assert {row["divisions"] for row in blank} <= {"123", "201", "281", "287", "321", "367", "368", "369"}


# Printed: plain and differential together reach "1 to 382". That 383, 401 and 457 are the only
# failures below 460 is an exhaustive search of the indexing notes; centre distances are not looked at in either.
@pytest.mark.published("A Practical Treatise on Milling and Milling Machines, c. 1914-1919, p. 52")
def test_plain_and_differential_reach_every_number_from_1_to_382():
    head = geared_head()
    reached = {Method.DIRECT, Method.PLAIN, Method.DIFFERENTIAL}
    missing = [count for count in range(1, 460) if not reached.intersection(exact_methods(head, count))]
    assert missing[0] == 383
    assert missing == [383, 401, 457]
    assert differential(head, Fraction(1, 383)) == ()


# 22 holes of the 33 circle set as a plain row cut 60 teeth.
@pytest.mark.published("Gear help needed, a forum thread, Dec 2020")
def test_the_row_for_57_read_as_a_plain_one_cuts_60():
    answers = differential(geared_head(), Fraction(1, 57))
    nominal = {answer.gearing.nominal for answer in answers if answer.gearing and answer.move == CrankMove(0, 22, 33)}
    assert nominal == {Fraction(60)}


# The four rows that were read.
@pytest.mark.published("A Practical Treatise on Milling and Milling Machines, c. 1914-1919, p. 57")
@pytest.mark.parametrize(
    ("part", "drivers", "driven", "size"),
    [
        ("1/319 turn", [72, 64], [24, 48], Fraction(4)),
        ("1/4 deg", [100, 64], [40, 44], Fraction(40, 11)),
        ("1/6 deg", [100, 64], [56, 28], Fraction(200, 49)),
        ("1/271 turn", [72], [56], Fraction(9, 7)),
    ],
)
def test_the_rows_read_in_the_treatise_turn_the_plate_as_printed(part, drivers, driven, size):
    answers = differential(geared_head(), read_angle(part).turns)
    found = [
        answer.gearing
        for answer in answers
        if answer.gearing
        and sorted(pair.driver for pair in answer.gearing.train.pairs) == sorted(drivers)
        and sorted(pair.driven for pair in answer.gearing.train.pairs) == sorted(driven)
    ]
    assert found
    assert {abs(gearing.plate_turns) for gearing in found} == {size}
    # All four were printed with one idler.
    assert 1 in {len(gearing.idlers) for gearing in found}
    assert can_gear(geared_head(), read_angle(part).turns)
