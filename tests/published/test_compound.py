"""Compound dividing against recalled rows, a quoted row, and the printed decimals of a turn on two circles."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.dividing.compound import can_compound, compound
from solver.dividing.divide import exact_settings
from solver.dividing.heads import Head, Plate
from solver.dividing.index_audit import audit_move
from solver.dividing.moves import CrankMove, IndexAnswer
from solver.dividing.written_moves import read_moves
from solver.quantities.exact_numbers import decimal_text
from tests.published.source_cases import TAKEN_UP, csv_rows, of_kind, read_cases

CASES = {
    number: case
    for number, case in read_cases("indexing_geared.toml").items()
    if case.kind in ("compound", "compound coverage", "two circles")
}
ONE_FACED = [[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33], [37, 39, 41, 43, 47, 49]]
TWO_FACED = [[24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43], [46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66]]
#: Which decimals printed on two circles a nearer pair of the same face betters, and by which pair.
BETTERED = {
    ("0.1920", "15-49"): "17 on 39 - 10 on 41",
    ("0.1920", "24-66"): "17 on 39 - 10 on 41",
    ("0.2280", "24-66"): "11 on 39 - 2 on 37",
    ("0.1990", "24-66"): "21 on 51 - 10 on 47",
    ("0.2330", "24-66"): "7 on 38 + 2 on 41",
    ("0.2340", "24-66"): "13 on 38 - 4 on 37",
    ("0.2060", "24-66"): "28 on 62 - 14 on 57",
}


def head_with(plates: str | list[list[int]], ratio: int = 40) -> Head:
    """Make a head; only the 24-66 plate has two faces."""
    if plates == "24-66":
        made: tuple[Plate, ...] = (Plate("A", tuple(map(tuple, TWO_FACED))),)
    else:
        faces = ONE_FACED if isinstance(plates, str) else plates
        made = tuple(Plate(f"plate {number}", (tuple(face),)) for number, face in enumerate(faces, start=1))
    return Head(f"{ratio}:1", Fraction(ratio), made)


def as_set(moves: tuple[CrankMove, ...]) -> frozenset[tuple[int, int, int | None, int]]:
    """Forget which circle is the pin's and which the stop pin's; printed tables do not always say."""
    return frozenset((move.turns, move.spaces, move.circle, move.sign) for move in moves)


def printed_among(answers: tuple[IndexAnswer, ...], moves: tuple[CrankMove, ...]) -> IndexAnswer | None:
    return next((answer for answer in answers if as_set(answer.moves) == as_set(moves)), None)


def test_every_case_is_taken_up():
    assert CASES.keys() <= TAKEN_UP
    assert len(CASES) == 18


# Rows recalled from older handbooks' compound tables; IDX-CMP-20 is a row quoted from one: it moves five divisions at
# a time, which its asker was not told.
@pytest.mark.parametrize("case", [each for each in of_kind(CASES, "compound") if "crank" in each.values[0].data])
def test_a_row_on_two_circles_is_found_and_moves_as_many_divisions_as_is_said(case):
    moves = read_moves(f"{case['crank']} {case['plate']}")
    count, step = case["divisions"], case["divisions_each_move"]
    answers = compound(head_with(case["plates"], case["ratio"]), Fraction(1, count))
    found = printed_among(answers, moves)
    assert found is not None
    assert found.at_once == step
    assert decimal_text(found.error_per_move.arcsec, len(case["each_arcsec"].partition(".")[2])) == case["each_arcsec"]
    if "closure_arcsec" in case.data:
        assert decimal_text(found.error_at_closure.arcsec, 2) == case["closure_arcsec"]
    audit = audit_move(moves[0], Fraction(case["ratio"]), second=moves[1])
    assert audit.at_once(count) == step
    assert audit.marks_met(count) == count
    assert audit.error_against(count)[0] == found.error_per_move
    # A row that moves several divisions is named as such without its count being told.
    assert (count in audit.likely_counts()) == (step > 1)


def test_the_quoted_row_for_106_is_bettered_within_the_same_plates():
    # 1 + 7/39 + 29/41 misses by 40.5 seconds after 106 moves; 9 divisions at a time on 41 and 49 miss by 32.3.
    answers = compound(head_with("15-49"), Fraction(1, 106))
    better = answers[0]
    assert as_set(better.moves) == as_set(read_moves("2 turns + 38 on 41 + 23 on 49"))
    assert better.at_once == 9
    assert decimal_text(better.error_at_closure.arcsec, 1) == "-32.3"


# Both circles stand on the mounted plate, so 127 cannot be exact: club article, opening paragraphs.
@pytest.mark.parametrize("case", [each for each in of_kind(CASES, "compound") if "exact" in each.values[0].data])
def test_a_prime_that_is_in_no_circle_is_never_exact(case):
    head = head_with(case["plates"], case["ratio"])
    part = Fraction(1, case["divisions"])
    assert can_compound(head, part) is case["exact"]
    assert compound(head, part)[0].is_exact is case["exact"]


@pytest.mark.parametrize("case", of_kind(CASES, "compound coverage"))
def test_so_many_numbers_that_are_not_plain_are_exact_on_two_circles(case):
    head = head_with(case["plates"], case["ratio"])
    not_plain = [count for count in range(2, case["up_to"] + 1) if not exact_settings(head, Fraction(1, count))]
    assert len(not_plain) == case["not_plain"]
    exact = [count for count in not_plain if can_compound(head, Fraction(1, count))]
    assert exact == case["exact_by_two_circles"]
    assert [count for count in not_plain if count not in exact and count <= 130] == case["unreachable_to_130"]


# Exhaustive counts of indexing notes; the treatise, p. 52, says flatly that no compound setting is exact.
@pytest.mark.own_arithmetic("arithmetic by another hand, nothing printed: exhaustive count over three plates")
def test_29_of_the_86_numbers_to_200_that_three_plates_do_not_divide_are_exact_on_two_circles():
    head = head_with("15-49")
    not_plain = [count for count in range(2, 201) if not exact_settings(head, Fraction(1, count))]
    exact = [count for count in not_plain if can_compound(head, Fraction(1, count))]
    assert (len(not_plain), len(exact)) == (86, 29)
    assert exact[:10] == [51, 57, 63, 69, 77, 87, 91, 93, 96, 99]
    assert all(compound(head, Fraction(1, count))[0].is_exact for count in exact)


@pytest.mark.parametrize("case", of_kind(CASES, "two circles"))
def test_a_printed_sum_of_two_circles_is_the_nearest_of_its_pair(case):
    moves = read_moves(case["expression"].replace("/", " on "))
    total = sum(move.value for move in moves)
    assert total == Fraction(case["sum"])
    found = printed_among(compound(head_with(case["plates"]), Fraction(case["decimal"]) / 40), moves)
    assert found is not None
    assert found.reached * 40 == total
    assert decimal_text(found.error_per_move.arcsec, 4) == case["each_arcsec"]


# No check against the world: two of these printed sums can be bettered on the same face with longer motions (0.2060 of
# both plate sets).
@pytest.mark.parametrize(
    ("number", "better"),
    [("IDX-FRT-05", "32 on 41 - 27 on 47"), ("IDX-FRT-08", "43 on 57 - 34 on 62")],
)
def test_a_printed_sum_that_is_not_the_nearest_is_bettered(number, better):
    case = CASES[number]
    wanted = Fraction(case["decimal"]) / 40
    answers = compound(head_with(case["plates"]), wanted)
    found = printed_among(answers, read_moves(better))
    printed = printed_among(answers, read_moves(case["expression"].replace("/", " on ")))
    assert found is not None
    assert printed is not None
    assert found.error_per_move == answers[0].error_per_move
    assert abs(found.error_per_move.turns) < abs(printed.error_per_move.turns)


def two_circle_rows() -> list[object]:
    return csv_rows(
        "decimal_turns.csv",
        lambda row: f"{row['decimal']} {row['plates']}",
        "Machinery's Handbook, 27th edition, p. 1995, decimal parts of a turn",
        "read",
        only=lambda row: bool(row["second"]),
    )


# The seconds of arc of the printed settings are our own.
@pytest.mark.parametrize("row", two_circle_rows())
def test_a_decimal_of_a_turn_on_two_circles_is_found_or_bettered_on_the_same_face(row):
    moves = read_moves(f"{row['first']} {row['second']}")
    total = sum(move.value for move in moves)
    assert decimal_text(total, 4) == row["decimal"]
    wanted = Fraction(row["decimal"]) / 40
    answers = compound(head_with(row["plates"]), wanted)
    printed = printed_among(answers, moves)
    assert printed is not None
    assert decimal_text(printed.error_per_move.arcsec, 4) == row["arcsec_at_40"]
    nearest = answers[0]
    better = BETTERED.get((row["decimal"], row["plates"]))
    if better is None:
        assert nearest.error_per_move == printed.error_per_move
    else:
        assert as_set(nearest.moves) == as_set(read_moves(better))
        assert abs(nearest.error_per_move.turns) < abs(printed.error_per_move.turns)
