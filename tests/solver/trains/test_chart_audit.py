"""Charts of a known lathe, sound and spoilt: the constant is found all the same, and the spoilt rows with it."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength, lead_bounds_mm
from solver.trains.chart_audit import RowVerdict, audit_chart
from solver.trains.chart_constant import ChartRow, infer_constant
from solver.trains.lathe import Lathe
from solver.trains.wheels import Pair, Train, WheelClass
from solver.trains.written_trains import read_train
from tests.strategies import LEADSCREWS, LEVERS, TEETH

WITHIN = Fraction(1, 1000)
PAIRS = st.tuples(st.sampled_from(TEETH), st.sampled_from(TEETH)).map(lambda pair: Pair(*pair))
TRAINS = st.lists(PAIRS, min_size=1, max_size=2).map(lambda pairs: Train(tuple(pairs)))
CONSTANTS = st.builds(
    lambda screw, turns: screw * turns,
    st.sampled_from(LEADSCREWS),
    st.sampled_from((Fraction(1), Fraction(1, 2), Fraction(2))),
)
#: What a slip of the pen makes of a lead: none within the tolerance.
SLIPS = st.sampled_from([Fraction(each) for each in ("1/2", "2", "9/8", "24/25", "127/125", "10/11", "1.003")])


def row_of(line, constant, train, slip=1):
    lead = constant * (train.ratio * slip)
    return ChartRow(line, f"{lead.mm} mm", lead, train)


@st.composite
def charts(draw):
    """Draw a constant, a chart of it, and the lines of a minority of rows whose threads are wrong."""
    constant = draw(CONSTANTS)
    trains = draw(st.lists(TRAINS, min_size=1, max_size=12))
    spoilt = draw(st.sets(st.integers(0, len(trains) - 1), max_size=(len(trains) - 1) // 2))
    rows = [
        row_of(number + 2, constant, train, draw(SLIPS) if number in spoilt else 1)
        for number, train in enumerate(trains)
    ]
    return constant, rows, {number + 2 for number in spoilt}


def slow_agreement(constant_mm, row, *, exchanged=False):
    ratio = 1 / row.train.ratio if exchanged else row.train.ratio
    low, high = lead_bounds_mm(row.lead)
    return abs(constant_mm * ratio / ((low + high) / 2) - 1) <= WITHIN


@given(charts())
def test_the_constant_of_a_chart_is_found_though_a_minority_of_rows_is_spoilt(drawn):
    constant, rows, spoilt = drawn
    sound = {row.line for row in rows} - spoilt
    found = infer_constant(rows, WITHIN)
    assert found.is_settled
    if not found.first.is_inverted:
        assert found.first.constant == constant
        assert {row.line for row in found.first.exact} == sound
    else:
        # Only when more rows agree the other way round than are sound.
        assert len(found.first.rows) > len(sound)


@given(charts())
def test_each_row_is_judged_by_the_lathe_it_is_for(drawn):
    constant, rows, spoilt = drawn
    lathe = Lathe("of the chart", "", constant, Fraction(1), True, (WheelClass("module 1", Length.of_mm(1), ()),))
    (sheet,) = audit_chart(rows, WITHIN, lathe)
    assert sheet.judged_by == constant
    for finding in sheet.findings:
        assert finding.cut_lead == constant * finding.row.train.ratio
        assert finding.is_true is (finding.row.line not in spoilt)
        if not finding.is_true:
            exchanged = slow_agreement(constant.mm, finding.row, exchanged=True)
            assert finding.verdict is (RowVerdict.INVERTED if exchanged else RowVerdict.OFF)
    assert sheet.all_true is (not spoilt)


@given(charts())
def test_no_other_constant_brings_more_rows_together(drawn):
    _, rows, _ = drawn
    first = infer_constant(rows, WITHIN).first
    for exchanged in (False, True):
        for row in rows:
            ratio = 1 / row.train.ratio if exchanged else row.train.ratio
            count = sum(slow_agreement(row.lead.mm / ratio, each, exchanged=exchanged) for each in rows)
            assert count <= len(first.rows)
    agreeing = [row for row in rows if slow_agreement(first.constant.mm, row, exchanged=first.is_inverted)]
    assert list(first.rows) == agreeing


@given(charts())
def test_every_row_is_explained_once_at_most(drawn):
    _, rows, _ = drawn
    found = infer_constant(rows, WITHIN)
    lines = [row.line for vote in (found.first, *found.others) for row in vote.rows]
    assert len(lines) == len(set(lines))
    assert all(vote.rows for vote in (found.first, *found.others))


@given(charts())
def test_rows_said_to_contradict_one_another_need_different_constants(drawn):
    _, rows, _ = drawn
    (sheet,) = audit_chart(rows, WITHIN)
    for each in sheet.contradictions:
        needs = [row.lead.mm / row.train.ratio for row in each.rows]
        assert max(needs) / min(needs) > 1 + WITHIN
        same = {row.train.ratio for row in each.rows} if each.same_wheels else {row.lead for row in each.rows}
        assert len(same) == 1


def test_a_row_turned_round_is_told_as_such_and_speaks_for_no_constant_of_its_own():
    eighth = Length.of_inches("1/8")
    rows = [row_of(line, eighth, read_train(train)) for line, train in ((2, "40-100"), (3, "40-50"), (4, "30-60"))]
    rows.append(rows[0]._replace(line=5, train=rows[0].train.inverted))
    (sheet,) = audit_chart(rows, WITHIN)
    assert [finding.verdict.value for finding in sheet.findings] == ["exact", "exact", "exact", "inverted"]
    assert sheet.inference.others == ()


def test_a_chart_read_from_the_leadscrew_throughout_is_told_as_such():
    quarter = Length.of_inches("1/4")
    rows = [row_of(line, quarter, read_train(train)) for line, train in ((2, "48-84"), (3, "20-95"), (4, "40-50"))]
    turned = [row._replace(train=row.train.inverted) for row in rows]
    (sheet,) = audit_chart(turned, WITHIN)
    assert sheet.inference.first.is_inverted
    assert sheet.inference.first.constant == quarter
    assert {finding.verdict for finding in sheet.findings} == {RowVerdict.INVERTED}


def test_near_rows_do_not_outvote_the_figure_a_lathe_is_built_to():
    # Four metric rows by 63/80 need 200/63 mm each; two inch rows need 1/8 in.
    metric = [
        ChartRow(line, f"{mm} mm", Length.of_mm(mm), Train((Pair(driver, 80), Pair(63, 80))))
        for line, (mm, driver) in enumerate((("1.25", 40), ("1", 32), ("2", 64), ("1.5", 48)), start=2)
    ]
    inch = [row_of(line, Length.of_inches("1/8"), read_train(train)) for line, train in ((6, "40-100"), (7, "40-50"))]
    assert {row.lead.mm / row.train.ratio for row in metric} == {Fraction(200, 63)}
    found = infer_constant([*metric, *inch], WITHIN)
    assert found.first.constant == Length.of_inches("1/8")
    assert len(found.first.exact) == 2
    assert len(found.first.near) == 4
    assert infer_constant(metric, WITHIN).first.constant == Length.of_inches("1/8")
    # Told to take nothing but exact rows, the metric ones have it.
    assert infer_constant([*metric, *inch], Fraction(0)).first.constant == Length(Fraction(200, 63))


def test_rows_of_pi_pitches_vote_within_the_tolerance_and_never_exactly():
    rows = [
        ChartRow(2, "module 0.5", PiLength(Fraction(1, 2)), read_train("47-95")),
        ChartRow(3, "module 1", PiLength(Fraction(1)), read_train("94-95")),
    ]
    found = infer_constant(rows, WITHIN)
    assert found.first.constant == Length.of_inches("1/8")
    assert found.first.exact == ()
    assert len(found.first.near) == 2
    alone = infer_constant([ChartRow(2, "module 1", PiLength(Fraction(1)), read_train("40-60"))], Fraction(0))
    assert alone.first.rows == ()
    assert alone.others == ()
    assert not alone.is_settled


def test_levers_of_no_known_lathe_have_a_sheet_and_a_constant_each():
    rows = [
        ChartRow(2, "20 tpi", Length.of_inches("1/20"), read_train("40-100"), "A"),
        ChartRow(3, "40 tpi", Length.of_inches("1/40"), read_train("40-100"), "B"),
    ]
    sheets = audit_chart(rows, WITHIN)
    assert [(sheet.lever, sheet.judged_by.inches) for sheet in sheets] == [
        ("A", Fraction(1, 8)),
        ("B", Fraction(1, 16)),
    ]
    assert all(sheet.all_true for sheet in sheets)


def test_levers_of_a_known_lathe_are_reckoned_in():
    box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (100, 1))),)
    lathe = Lathe("boxed", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box, levers=LEVERS)
    rows = [row_of(line, Length.of_inches("1/8"), read_train("40-100"), ratio)._replace(lever=name)
            for line, (name, ratio) in enumerate(LEVERS, start=2)]  # fmt: skip
    (sheet,) = audit_chart(rows, WITHIN, lathe)
    assert sheet.all_true
    assert sheet.inference.first.constant == Length.of_inches("1/8")
    with pytest.raises(ValueError, match="not on this lathe"):
        audit_chart([rows[0]._replace(lever="Z")], WITHIN, lathe)


@pytest.mark.parametrize("within", [Fraction(1), Fraction(-1, 1000)])
def test_a_tolerance_that_is_none_is_refused(within):
    with pytest.raises(ValueError, match="within 0 to 1"):
        infer_constant([row_of(2, Length.of_mm(3), read_train("40-30"))], within)
    with pytest.raises(ValueError, match="one row at least"):
        infer_constant([], WITHIN)
