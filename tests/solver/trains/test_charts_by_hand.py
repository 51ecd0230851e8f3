"""Charts of a few rows, worked by hand: the constant, what each row cuts, and which rows contradict one another."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_HIGH, PI_LOW, Lead, PiLength
from solver.trains.chart_audit import Contradiction, RowVerdict, audit_chart, is_within
from solver.trains.chart_constant import ChartRow, figure_size, infer_constant, is_inch_figure
from solver.trains.lathe import Lathe
from solver.trains.lead_error import LeadError
from solver.trains.written_trains import read_train
from tests.small_lathes import a_lathe

F = Fraction
INCH, MM = Length.of_inches, Length.of_mm
WITHIN = F(1, 1000)


def row(line: int, lead: Lead, train: str = "40-40", lever: str | None = None) -> ChartRow:
    return ChartRow(line, f"row {line}", lead, read_train(train), lever)


# The constant.


def test_a_lead_over_its_wheels_is_the_constant():
    # 7 to the inch with 48 over 84 needs 4 to the inch.
    found = infer_constant([row(2, INCH("1/7"), "48-84")], WITHIN)
    assert found.first.constant == INCH("1/4")
    assert ([each.line for each in found.first.exact], found.first.near, found.first.is_inverted) == ([2], (), False)
    assert (found.others, found.is_settled) == ((), True)


def test_most_rows_decide_then_the_simpler_figure_then_the_smaller():
    three_quarter = [row(2, MM(3)), row(3, INCH("1/4"))]
    assert infer_constant([*three_quarter, row(4, INCH("1/4"))], WITHIN).first.constant == INCH("1/4")
    # 3 mm against a quarter of an inch, and 4 mm against it: figures of 3, 4 and 4.
    tied = infer_constant(three_quarter, WITHIN)
    assert (tied.first.constant, [each.constant for each in tied.others]) == (MM(3), [INCH("1/4")])
    assert not tied.is_settled
    assert infer_constant([row(2, INCH("1/4")), row(3, MM(4))], WITHIN).first.constant == MM(4)
    assert infer_constant([row(2, INCH("1/5")), row(3, MM(6))], WITHIN).first.constant == INCH("1/5")


@pytest.mark.parametrize(
    ("need", "constant"),
    [
        # A little off 11 1/2 threads to the inch, off 2 1/4 mm, and off 7 threads to the inch.
        (INCH("2/23").mm * F(2001, 2000), INCH("2/23")),
        (F("2.2511"), MM("2.25")),
        (INCH("1/7").mm * F(1999, 2000), INCH("1/7")),
        # 11 1/4 threads and 2 1/8 mm are no figures that are looked for; what the row needs itself stands.
        (INCH("4/45").mm * F(2001, 2000), Length(INCH("4/45").mm * F(2001, 2000))),
        (F("2.1255"), MM("2.1255")),
        # At the very tolerance on either side, and beyond it.
        (3 / (1 + WITHIN), MM(3)),
        (3 / (1 - WITHIN), MM(3)),
        (3 / (1 + WITHIN) - F(1, 10**9), Length(3 / (1 + WITHIN) - F(1, 10**9))),
        (3 / (1 - WITHIN) + F(1, 10**9), Length(3 / (1 - WITHIN) + F(1, 10**9))),
        # So coarse that no half of a thread to the inch is left, and 4 in, where a half of it just is none.
        (F(300), MM(300)),
        (F("101.6"), INCH(4)),
    ],
)
def test_a_figure_a_lathe_is_built_to_is_found_near_what_the_rows_need(need, constant):
    found = infer_constant([row(2, Length(need))], WITHIN).first
    assert found.constant == constant
    assert len(found.exact) == (constant.mm == need)
    assert len(found.near) == (constant.mm != need)


def test_rows_within_the_tolerance_agree_nearly_in_the_order_of_the_chart():
    rows = [row(5, MM("3.001")), row(4, MM(3)), row(3, MM("2.999")), row(2, MM("3.1")), row(6, MM(3))]
    found = infer_constant(rows, WITHIN)
    assert found.first.constant == MM(3)
    assert [each.line for each in found.first.exact] == [4, 6]
    assert [each.line for each in found.first.near] == [3, 5]
    assert [each.line for each in found.first.rows] == [3, 4, 5, 6]
    assert [[each.line for each in vote.rows] for vote in found.others] == [[2]]
    assert found.is_settled


def test_among_as_many_rows_a_built_figure_and_then_the_exact_rows_decide():
    # 50/33 and 53/35 mm are 0.06 per cent apart, so that each of them has all three rows, one or two of them exactly.
    rows = [row(2, MM(F(50, 33))), row(3, MM(F(53, 35))), row(4, MM(F(53, 35)))]
    assert infer_constant(rows, WITHIN).first.constant == MM(F(53, 35))
    # 100 is the largest number of a figure that a lathe is built to; two rows of a figure of 2021 do not outvote it.
    rows = [row(2, MM(F(100, 99))), row(3, MM(F(2021, 2000))), row(4, MM(F(2021, 2000)))]
    assert infer_constant(rows, WITHIN).first.constant == MM(F(100, 99))
    near = infer_constant([row(2, MM("3.001")), row(3, MM("2.999")), row(4, MM(3))], WITHIN).first.near
    assert [each.line for each in near] == [2, 3]


def test_at_most_three_constants_are_named_for_the_rows_left_over():
    rows = [row(line, MM(lead)) for line, lead in enumerate((3, 3, 4, 5, 6, 7, 8), start=2)]
    found = infer_constant(rows, WITHIN)
    assert found.first.constant == MM(3)
    assert [vote.constant for vote in found.others] == [MM(4), MM(5), MM(6)]


def test_wheels_exchanged_throughout_are_believed_only_where_more_rows_agree():
    # By 40 over 80 and 30 over 60 the other way round 1.5 mm and 1.5 mm need 0.75 mm, as written 3 mm.
    assert not infer_constant([row(2, MM("1.5"), "40-80")], WITHIN).first.is_inverted
    # 6 mm by 40 over 80 and 4.5 mm by 40 over 60: 12 and 6.75 mm as written, 3 and 3 mm exchanged.
    rows = [row(2, MM(6), "40-80"), row(3, MM("4.5"), "40-60")]
    found = infer_constant(rows, WITHIN)
    assert (found.first.is_inverted, found.first.constant, len(found.first.exact)) == (True, MM(3), 2)
    # A row that agrees as written speaks for no constant of its own then; one that agrees neither way does.
    found = infer_constant([*rows, row(4, MM("1.5"), "40-80"), row(5, MM(7), "40-80")], WITHIN)
    assert (found.first.is_inverted, found.first.constant) == (True, MM(3))
    assert [(vote.constant, vote.is_inverted, [each.line for each in vote.rows]) for vote in found.others] == [
        (MM("3.5"), True, [5])
    ]


def test_levers_are_reckoned_in_and_one_not_named_counts_as_one():
    rows = [row(2, MM("1.5"), lever="B"), row(3, MM(3), lever="C"), row(4, MM(3))]
    found = infer_constant(rows, F(0), [("B", F(1, 2)), (None, F(1))])
    assert [(found.first.constant, len(found.first.exact))] == [(MM(3), 3)]


def test_a_pi_row_so_fine_that_no_figure_stands_for_it_stands_for_itself():
    fine = row(2, PiLength(F(1, 10_000)))
    found = infer_constant([fine], F(0)).first
    assert found.constant.mm == (PI_LOW + PI_HIGH) / 2 / 10_000
    assert (found.exact, found.near) == ((), (fine,))
    # Module 0.5 over equal wheels: 1.570796 mm are 1.571 to three places, and no built figure is within 1 in 1000.
    assert infer_constant([row(2, PiLength(F(1, 2)))], WITHIN).first.constant == Length(F(355, 226))


def test_the_size_of_a_figure_is_its_largest_number_in_the_simpler_unit():
    sizes = {F(3): 3, F(127, 40): 8, F(127, 5): 1, F(3, 4): 4, F(200, 63): 200, F(254, 115): 23}
    assert {each: figure_size(each) for each in sizes} == sizes
    assert [is_inch_figure(each) for each in (INCH("1/8"), MM(3), INCH("2/23"), MM("0.75"))] == [
        True,
        False,
        True,
        False,
    ]
    # 127/131 mm is 5/131 in: no simpler in either.
    assert not is_inch_figure(Length(F(127, 131)))


# Row by row.


def test_what_each_row_really_cuts_on_a_known_lathe():
    lathe = a_lathe(40, 60, 80, levers=(("A", F(1)), ("B", F(1, 2))))
    rows = [
        row(2, MM(2), "40-60", "A"),
        row(3, MM("1.0005"), "40-60", "B"),
        row(4, MM(6), "40-80", "A"),
        row(5, MM("1.1"), "40-60", "B"),
        row(6, MM(3), "50-50", "A"),
    ]
    (sheet,) = audit_chart(rows, WITHIN, lathe)
    assert (sheet.lever, sheet.judged_by) == (None, MM(3))
    assert [(each.row.line, each.cut_lead, each.verdict.value, each.needs) for each in sheet.findings] == [
        (2, MM(2), "exact", MM(3)),
        (3, MM(1), "near", MM("3.0015")),
        (4, MM("1.5"), "inverted", MM(12)),
        (5, MM(1), "off", MM("3.3")),
        (6, MM(3), "exact", MM(3)),
    ]
    assert [each.is_true for each in sheet.findings] == [True, True, False, False, True]
    assert sheet.findings[2].error.relative == F(-3, 4)
    assert sheet.findings[4].not_in_box == ("50 T is not in the box",)
    assert sheet.findings[0].not_in_box == ()
    assert not sheet.all_true


def test_without_a_lathe_each_lever_has_a_sheet_in_the_order_of_the_chart():
    rows = [row(2, MM(3), lever="B"), row(3, MM(4), lever="A"), row(4, MM(3), lever="B"), row(5, MM(3), "90-90", "B")]
    sheets = audit_chart(rows, WITHIN)
    assert [(sheet.lever, sheet.judged_by, [each.row.line for each in sheet.findings]) for sheet in sheets] == [
        ("B", MM(3), [2, 4, 5]),
        ("A", MM(4), [3]),
    ]
    assert all(each.not_in_box == () for sheet in sheets for each in sheet.findings)


@pytest.mark.parametrize(
    ("relative", "bound", "inside"),
    [
        (F(1, 1000), F(0), True),
        (F(-1, 1000), F(0), True),
        (F(1001, 10**6), F(0), False),
        (F(-1001, 10**6), F(0), False),
        (F(9, 10_000), F(1, 10_000), True),
        (F(9, 10_000), F(2, 10_000), False),
    ],
)
def test_a_bound_counts_against_the_tolerance(relative, bound, inside):
    assert is_within(LeadError(relative, bound), WITHIN) is inside


def contradictions(*rows: ChartRow, lathe: Lathe | None = None) -> list[tuple[list[int], bool]]:
    (sheet,) = audit_chart(rows, WITHIN, lathe)
    return [([each.line for each in found.rows], found.same_wheels) for found in sheet.contradictions]


def test_rows_that_cannot_be_true_together():
    # One ratio for 5 and 4 mm, two ratios for 4 mm, one ratio for 2 and 3 mm; in the order of their first rows.
    four = [row(3, MM(4), "40-60"), row(6, MM(4), "40-80")]
    found = contradictions(row(2, MM(5), "30-60"), *four, row(4, MM(2), "45-45"), row(5, MM(3), "50-50"))
    assert found == [([2, 6], True), ([3, 6], False), ([4, 5], True)]


def test_two_contradictions_of_one_row_name_the_ratios_first():
    one, other, wheels = row(2, MM(4), "40-60"), row(4, MM(4), "40-80"), row(3, MM(5), "20-30")
    (sheet,) = audit_chart([one, wheels, other], WITHIN)
    assert sheet.contradictions == (
        Contradiction((one, other), same_wheels=False),
        Contradiction((one, wheels), same_wheels=True),
    )


def test_rows_a_tolerance_off_on_either_side_do_not_contradict_one_another():
    far = 3 * (1 + WITHIN) / (1 - WITHIN)
    assert contradictions(row(2, MM(3)), row(3, Length(far))) == []
    assert contradictions(row(2, MM(3)), row(3, Length(far + F(1, 10**9)))) == [([2, 3], True)]
    # For one thread, by 40 over 60 and over 61.
    assert contradictions(row(2, MM(3), "40-60"), row(3, MM(3), "40-61")) == [([2, 3], False)]
    assert contradictions(row(2, MM(3), "400-399"), row(3, MM(3), "399-398")) == []
    # The same ratio in other wheels is one ratio.
    assert contradictions(row(2, MM(3), "40-60"), row(3, MM(3), "20-30")) == []


def test_a_lever_makes_another_ratio_of_the_same_wheels():
    lathe = a_lathe(40, 60, levers=(("A", F(1)), ("B", F(1, 2))))
    fine = row(2, MM(2), "40-60", "A"), row(3, MM(1), "40-60", "B")
    assert contradictions(*fine, lathe=lathe) == []
    assert contradictions(fine[0], row(3, MM(1), "40-60", "A"), lathe=lathe) == [([2, 3], True)]
    # 40 over 60 at one half and 40 over 120 at one make the same third.
    thirds = row(2, MM(1), "40-60", "B"), row(3, MM("1.2"), "40-120", "A")
    assert contradictions(*thirds, lathe=lathe) == [([2, 3], True)]


def test_a_row_of_a_pi_pitch_is_held_by_the_middle_of_its_bounds():
    assert contradictions(row(2, PiLength(F(1))), row(3, Length(F(22, 7)))) == []
    assert contradictions(row(2, PiLength(F(1))), row(3, MM("3.2"))) == [([2, 3], True)]
    (sheet,) = audit_chart([row(2, PiLength(F(1)), "40-60")], WITHIN, a_lathe(40, 60))
    assert (sheet.findings[0].verdict, sheet.findings[0].needs) == (RowVerdict.OFF, PiLength(F(3, 2)))
