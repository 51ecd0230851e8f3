"""Dividing against printed tables, exercise sheets and well-known coverage; sources stand in the data files."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.dividing.divide import DivideReport, divide
from solver.dividing.heads import Head, Plate
from solver.dividing.index_audit import audit_move
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.positions import positions
from solver.dividing.written_moves import read_move
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.exact_numbers import decimal_text
from solver.quantities.written_angles import read_angle
from solver.quantities.written_lengths import read_length
from solver.quantities.written_pitches import read_pitch
from solver.refusals import ImpossibleSettingError
from tests.published.source_cases import TAKEN_UP, csv_rows, of_kind, read_cases, read_rows, unmarked

PLATE_SETS = {
    # Circles quoted throughout by Machinery's Handbook, 27th edition, and the treatise on milling machines.
    "15-49": [[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33], [37, 39, 41, 43, 47, 49]],
    # One two-faced plate: US Army Ordnance subcourse OD1644, lesson 1.
    "24-66": [[24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43], [46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66]],
}
#: The handbook's table and pp. 210-218 of the treatise are one, here from memory; two rows were read on its p. 57.
TABLE_40 = {
    "memory": "Machinery's Handbook, edition not seen, simple and differential table for the 40:1 head",
    "read": "A Practical Treatise on Milling and Milling Machines, c. 1914-1919, p. 57",
}
PLAIN = read_cases("indexing_plain.toml")
GEARED = read_cases("indexing_geared.toml")
LATER = read_cases("indexing_later.toml")
#: Taken up in test_parts.py.
PARTS = read_cases("indexing_parts.toml")

#: Kinds of case whose room is not built yet, and why they wait.
NOT_COVERED_YET = {
    "vocabulary": "the meaning of a printed column; nothing to compute",
}

#: Kinds of case that another file takes up and counts.
TAKEN_UP_ELSEWHERE = {"worm wheel": "test_worms.py", "helix": "test_helices.py"}


def a_head(ratio: int, plates: str | list[list[int]], direct: tuple[int, ...] = ()) -> Head:
    circles = PLATE_SETS[plates] if isinstance(plates, str) else plates
    made = tuple(Plate(f"plate {number}", (tuple(face),)) for number, face in enumerate(circles, start=1))
    return Head(f"{ratio}:1", Fraction(ratio), made, direct_circles=direct)


def moves(report: DivideReport) -> set[CrankMove]:
    return {answer.move for answer in report.answers}


def is_plain(head: Head, divisions: int) -> bool:
    return divide(head, Fraction(1, divisions)).is_exact


def test_every_case_is_taken_up_or_named_as_not_covered_yet():
    assert (
        len(read_cases("indexing_plain.toml", "indexing_geared.toml", "indexing_parts.toml", "indexing_later.toml"))
        == 100
    )
    assert PLAIN.keys() <= TAKEN_UP
    assert {case.kind for case in LATER.values()} == set(NOT_COVERED_YET) | set(TAKEN_UP_ELSEWHERE)


def test_every_row_of_the_two_tables_is_taken_up_here_or_with_two_circles_or_wheels():
    assert (len(table_rows(plain=True)), len(table_rows(plain=False))) == (96, 135)
    two_circles = [row for row in read_rows("decimal_turns.csv") if row["second"]]
    assert (len(one_circle_rows()), len(two_circles)) == (36, 28)


@pytest.mark.parametrize("case", of_kind(PLAIN, "plain"))
def test_a_plain_setting_is_the_one_the_source_gives(case):
    head = a_head(case["ratio"], case["plates"])
    report = divide(head, read_angle(case["part"]).turns)
    assert report.is_exact
    assert report.crank_turns == Fraction(case["crank"])
    if "every_setting" in case.data:
        assert moves(report) == {read_move(text) for text in case["every_setting"]}
    else:
        assert {read_move(text) for text in case["settings"]} <= moves(report)
    for answer in report.answers:
        assert audit_move(answer.move, head.worm_ratio).divisions * report.wanted == 1


@pytest.mark.parametrize("case", [case for case in of_kind(PLAIN, "plain") if "sector_holes" in case.values[0].data])
def test_the_sector_encloses_one_hole_more_than_the_move(case):
    setting = read_move(case["every_setting"][0])
    report = divide(a_head(case["ratio"], case["plates"]), read_angle(case["part"]).turns)
    assert {answer.move.sector_holes for answer in report.answers if answer.move == setting} == {case["sector_holes"]}


@pytest.mark.parametrize("case", of_kind(PLAIN, "refused"))
def test_a_move_smaller_than_half_the_smallest_is_refused_not_rounded_to_nothing(case):
    head = a_head(case["ratio"], case["plates"])
    with pytest.raises(ImpossibleSettingError) as refusal:
        divide(head, read_angle(case["part"]).turns)
    assert case["crank"] in refusal.value.message
    smallest = audit_move(read_move(case["smallest"]["setting"]), head.worm_ratio)
    each = Angle(1 / smallest.divisions)
    assert decimal_text(each.arcsec / 60, 2) == case["smallest"]["arcmin"]
    assert divide(head, each.turns).answers[0].move == read_move(case["smallest"]["setting"])


@pytest.mark.parametrize("case", of_kind(PLAIN, "direct"))
def test_the_spindles_own_circle_gives_the_holes_the_source_gives(case):
    head = a_head(40, "15-49", tuple(case["circles"]))
    for part, places in case["parts"].items():
        answers = divide(head, read_angle(part).turns).answers
        direct = [answer.move for answer in answers if answer.method is Method.DIRECT]
        assert direct == [CrankMove(0, holes, circle) for circle, holes in places]


def missing_by_divide(head: Head, most: int) -> list[int]:
    missing = []
    for divisions in range(2, most + 1):
        try:
            if not is_plain(head, divisions):
                missing.append(divisions)
        except ImpossibleSettingError:
            missing.append(divisions)
    return missing


@pytest.mark.parametrize("case", of_kind(PLAIN, "direct_coverage"))
def test_the_rows_of_a_mandrel_plate_reach_the_counts_of_the_source(case):
    bare = Head("mandrel", Fraction(1), (), direct_circles=tuple(case["circles"]))
    assert missing_by_divide(bare, case["up_to"]) == case["missing"]


@pytest.mark.parametrize("case", of_kind(PLAIN, "coverage"))
def test_a_set_of_plates_covers_what_is_usually_claimed(case):
    missing = missing_by_divide(a_head(case["ratio"], case["plates"]), case["up_to"])
    assert missing[0] == case["first_missing"]
    assert missing == case["missing"]
    fives_or_even = [each for each in missing if each <= 120 and (each % 2 == 0 or each % 5 == 0)]
    assert fives_or_even == case["even_or_fives_missing_to_120"]


# Printed: every number to 50, and every even one to
# 100 but 96.
@pytest.mark.published("A Practical Treatise on Milling and Milling Machines, c. 1914-1919, p. 52")
def test_three_plates_fail_first_at_51_and_of_even_numbers_to_100_only_at_96():
    missing = missing_by_divide(a_head(40, "15-49"), 100)
    assert missing[0] == 51
    assert [each for each in missing if each % 2 == 0] == [96]


# 24-66 also under IDX-COV-06.
@pytest.mark.own_arithmetic("arithmetic by another hand, nothing printed: exhaustive count over the plates")
@pytest.mark.parametrize(("plates", "count"), [("15-49", 86), ("24-66", GEARED["IDX-COV-06"]["not_plain"])])
def test_so_many_numbers_to_200_are_not_plain(plates, count):
    assert len(missing_by_divide(a_head(40, plates), 200)) == count


@pytest.mark.parametrize("case", of_kind(PLAIN, "wide_range"))
def test_the_wide_range_head_moves_as_finely_as_the_manual_says(case):
    small = a_head(case["ratio"], [case["small"]])
    seconds = Fraction(1, 1_296_000)
    assert divide(small, Fraction(case["turn_arcsec"]) * seconds).answers[0].move == CrankMove(1, 0, None)
    for circle, arcsec in case["hole_arcsec"].items():
        assert CrankMove(0, 1, int(circle)) in moves(divide(small, Fraction(arcsec) * seconds))
    large = a_head(case["large"]["ratio"], [[case["large"]["circle"]]])
    part = Fraction(case["large_hole_arcmin"]) * 60 * seconds
    assert divide(large, part).answers[0].move == CrankMove(0, 1, case["large"]["circle"])
    most = case["most_divisions"]
    assert is_plain(small, most)
    assert divide(small, Fraction(1, most)).answers[0].move == CrankMove(0, 1, 100)
    assert not is_plain(small, most + 1)


@pytest.mark.parametrize("case", of_kind(PLAIN, "table_angles"))
def test_a_table_of_positions_counts_up_by_the_angle_of_the_source(case):
    step, count = read_angle(case["step"]), case["divisions"]
    rows = list(positions(a_head(90, [[2]]), Fraction(1, count), count, 2))
    assert [row.exact for row in rows] == [step * number for number in range(count + 1)]
    assert all(row.error == Angle(Fraction(0)) for row in rows)
    assert sexagesimal_text(rows[1].exact) == "24° 00' 00\""


@pytest.mark.parametrize("case", of_kind(PLAIN, "miscount"))
def test_one_hole_short_on_the_sector_shows_at_the_last_space(case):
    head = a_head(case["ratio"], "15-49")
    assert read_move(case["right"]) in moves(divide(head, Fraction(1, case["divisions"])))
    each, closure = audit_move(read_move(case["set"]), head.worm_ratio).error_against(case["divisions"])
    assert each.arcsec / 60 == Fraction(case["each_arcmin"])
    assert closure.degrees == Fraction(case["closure_deg"])


@pytest.mark.parametrize("case", of_kind(PLAIN, "dial"))
def test_a_dial_can_be_divided_and_one_mark_is_worth_what_the_source_says(case):
    for count, worth in case["marks"].items():
        answer = divide(a_head(40, "24-66"), Fraction(1, int(count))).answers[0]
        assert answer.is_exact
        if worth:
            assert read_pitch(case["screw"]).lead * answer.reached == read_length(worth)
        for plates, name in (("15-49", "circles_15_49"), ("24-66", "circles_24_66")):
            if name in case.data:
                report = divide(a_head(40, plates), Fraction(1, int(count)))
                assert sorted(each.move.circle or 0 for each in report.answers if each.is_exact) == case[name]
        for text in case.data.get("settings_24_66", ()):
            assert read_move(text) in moves(divide(a_head(40, "24-66"), Fraction(1, int(count))))


def table_rows(*, plain: bool) -> list[object]:
    return csv_rows("indexing_table_40.csv", "divisions", TABLE_40, only=lambda row: (row["way"] == "plain") is plain)


@pytest.mark.parametrize("row", table_rows(plain=True))
def test_a_plain_row_of_the_40_to_1_table_is_among_the_settings(row):
    turns, spaces, circle = int(row["turns"]), int(row["spaces"]), int(row["circle"] or 0) or None
    report = divide(a_head(40, "15-49"), Fraction(1, int(row["divisions"])))
    assert report.is_exact
    assert CrankMove(turns, spaces, circle) in moves(report)
    audit = audit_move(CrankMove(turns, spaces, circle), Fraction(40))
    assert (audit.closes, audit.marks) == (True, int(row["divisions"]))


# Whether the row itself is found with its wheels is asked in test_differential, which counts these rows.
@pytest.mark.parametrize("row", unmarked(table_rows(plain=False)))
def test_a_number_the_table_gears_for_has_no_plain_setting(row):
    head = a_head(40, "15-49")
    assert not is_plain(head, int(row["divisions"]))
    # The same move without the wheels cuts another number: the row must never be read as a plain one.
    move = CrankMove(int(row["turns"]), int(row["spaces"]), int(row["circle"]))
    assert audit_move(move, head.worm_ratio).divisions != int(row["divisions"])


@pytest.mark.parametrize("case", unmarked(of_kind(GEARED, "differential", "compound")))
def test_a_number_the_source_divides_by_gears_or_two_circles_has_no_plain_setting(case):
    report = divide(a_head(case["ratio"], case["plates"]), Fraction(1, case["divisions"]))
    assert not report.is_exact
    assert all(answer.method is Method.NEAREST for answer in report.answers)
    assert report.answers[0].error_per_move.turns != 0


@pytest.mark.parametrize("case", unmarked(of_kind(GEARED, "differential")))
def test_a_differential_move_without_its_wheels_cuts_the_nominal_number(case):
    assert audit_move(read_move(case["crank"]), Fraction(case["ratio"])).divisions == Fraction(case["nominal"])


def one_circle_rows() -> list[object]:
    return csv_rows(
        "decimal_turns.csv",
        lambda row: f"{row['decimal']} {row['plates']} {row['first']}",
        "Machinery's Handbook, 27th edition, p. 1995, decimal parts of a turn",
        "read",
        only=lambda row: not row["second"],
    )


# The seconds of arc of the printed settings are our own.
@pytest.mark.parametrize("row", one_circle_rows())
def test_a_decimal_of_a_turn_on_one_circle_rounds_as_printed_and_none_is_nearer(row):
    head = a_head(40, row["plates"])
    move = read_move(row["first"])
    wanted = Fraction(row["decimal"]) / head.worm_ratio
    printed = IndexAnswer(Method.NEAREST, move, None, wanted, move.value / head.worm_ratio, wanted.denominator)
    assert decimal_text(move.value, 4) == row["decimal"]
    assert decimal_text(printed.error_per_move.arcsec, 4) == decimal_text(Fraction(row["arcsec_at_40"]), 4)
    found = divide(head, wanted).answers
    assert abs(found[0].error_per_move.arcsec) <= abs(printed.error_per_move.arcsec)
    assert move in {answer.move for answer in found}
