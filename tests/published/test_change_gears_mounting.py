"""Half-nut, mounting, spirals and tolerance against printed and well-known cases; sources stand in the data file."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.exact_numbers import decimal_text, significant_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, PiLength
from solver.quantities.written_lengths import read_length
from solver.quantities.written_pitches import read_pitch
from solver.trains.half_nut import half_nut_rule
from solver.trains.lathe import Banjo, ChasingDial, Lathe
from solver.trains.lead_error import LeadError, lead_error
from solver.trains.mounting import Verdict, judge, placings
from solver.trains.train_audit import audit_train
from solver.trains.train_search import TrainQuestion, search_trains
from solver.trains.wheels import Train, WheelClass
from solver.trains.written_trains import read_train
from tests.published.source_cases import TAKEN_UP, of_kind, read_cases, rows_of_kind, worked_here
from tests.published.test_change_gears import CASES as TRAIN_CASES
from tests.published.test_lead_judgement import CASES as JUDGEMENTS
from tests.published.test_starts import CASES as STARTS

CASES = read_cases("change_gears_mounting.toml")


def a_lathe(lead: Lead, teeth: list[int], banjo: Banjo | None = None) -> Lathe:
    assert isinstance(lead, Length)
    stock = tuple((each, teeth.count(each)) for each in sorted(set(teeth)))
    box = (WheelClass("module 1", Length.of_mm(1), stock),)
    return Lathe("of the case", "as in the case", lead, Fraction(1), True, box, banjo=banjo)


def own_wheels(train: Train) -> list[int]:
    return [teeth for _, teeth in train.wheels]


def goes_on(train: Train, clearance: int | None) -> bool:
    """Say whether a placing clears by more than so many teeth of module 1; by the usual fifteen if not said."""
    banjo = None if clearance is None else Banjo(stud_nut=Length.of_mm(clearance - 2))
    return judge(train, a_lathe(Length.of_inches(10), own_wheels(train), banjo)).verdict is not Verdict.DOES_NOT_FIT


def test_every_case_is_taken_up():
    assert len(CASES) + len(TRAIN_CASES) == 48
    assert not CASES.keys() & TRAIN_CASES.keys()
    # Some kinds of the same file have test files of their own.
    everything = CASES | TRAIN_CASES | STARTS | JUDGEMENTS
    assert everything.keys() == TAKEN_UP & everything.keys()


@pytest.mark.parametrize("row", rows_of_kind(CASES, "half_nut"))
def test_the_half_nut_may_close_at_the_distance_of_the_source(row):
    screw, cut = read_pitch(row["screw"]).lead, read_pitch(row["thread"]).lead
    assert isinstance(cut, Length)
    rule = half_nut_rule(cut, a_lathe(screw, []))
    assert rule.every == read_length(row["every"])
    assert rule.anywhere is (rule.every == screw)


# The dial of a six-per-inch screw has a line for every half inch of four inches. Nine per inch matches every third of
# an inch, but one inch is what the dial shows.
@pytest.mark.published("F. D. Jones, Turning and Boring, 1914, fifth printing 1919, ch. IV, pp. 141-143")
@pytest.mark.parametrize(
    ("thread", "lines"),
    [("10 tpi", (0, 1, 2, 3, 4, 5, 6, 7)), ("7 tpi", (0, 2, 4, 6)), ("9 tpi", (0, 2, 4, 6)), ("11 1/2 tpi", (0, 4))],
)
def test_the_dial_shows_any_line_for_even_counts_and_numbered_lines_for_odd_ones(thread, lines):
    screw, cut = read_pitch("6 tpi").lead, read_pitch(thread).lead
    assert isinstance(screw, Length)
    assert isinstance(cut, Length)
    lathe = Lathe("dial of 24 teeth", "6 tpi", screw, Fraction(1), True, (), chasing_dial=ChasingDial(24, 8))
    assert half_nut_rule(cut, lathe).dial_lines == lines


@pytest.mark.parametrize("row", rows_of_kind(CASES, "placings"))
def test_a_placing_goes_on_by_the_rule_of_fifteen_teeth_exactly_when_the_case_says(row):
    assert goes_on(read_train(row["train"]), None) is row["goes_on"]


@pytest.mark.parametrize("row", worked_here(rows_of_kind(CASES, "placings")))
def test_a_placing_goes_on_up_to_its_smaller_margin_and_not_beyond(row):
    train, margin = read_train(row["train"]), min(row["margins"])
    if margin <= 2:
        # Not even a nut of nothing lets it on.
        assert not goes_on(train, 2)
    else:
        assert goes_on(train, margin - 1)
        assert not goes_on(train, margin)


@pytest.mark.parametrize("case", of_kind(CASES, "transposing"))
def test_drivers_and_driven_change_places_among_themselves_only(case):
    drivers, driven = [(0, 100), (0, 32), (0, 28)], [(0, 24), (0, 48), (0, 40)]
    two, three = list(placings(drivers[:2], driven[:2])), list(placings(drivers, driven))
    assert len(two) == case["orders_of_the_same_ratio"]
    assert len(three) == case["orders_of_three_pairs"]
    assert {train.ratio for train in two} == {Fraction(100 * 32, 24 * 48)}
    # A driver changed for a driven wheel is another ratio.
    assert read_train("24-100-32-48").ratio not in {train.ratio for train in two}


@pytest.mark.published("A Practical Treatise on Milling and Milling Machines, c. 1914-1919, p. 62")
def test_of_four_placings_the_rule_of_fifteen_leaves_the_one_the_machine_took():
    # CG-062.
    found = [train for train in placings([(0, 100), (0, 32)], [(0, 24), (0, 48)]) if goes_on(train, None)]
    assert [str(train) for train in found] == ["100-24-32-48"]


@pytest.mark.parametrize("row", rows_of_kind(CASES, "extremes"))
def test_nothing_steeper_than_the_extreme_of_a_set_is_offered(row):
    first, last, step = row["box"]
    screw = Length.of_mm(3)
    lathe = a_lathe(screw, list(range(first, last + 1, step)), Banjo(stud_nut=Length.of_mm(0)))
    for pairs, extreme in ((1, Fraction(row["one_pair"])), (2, Fraction(row["two_pairs"]))):
        at = TrainQuestion(screw * extreme, most_pairs=pairs, within=Fraction(0), wanted=1)
        assert search_trains(at, lathe).answers[0].ratio == extreme
        # Wanted a millionth beyond: nothing is exact, and the extreme is the nearest there is.
        beyond = TrainQuestion(
            screw * extreme * Fraction(1_000_001, 1_000_000), most_pairs=pairs, within=Fraction(0), wanted=1
        )
        report = search_trains(beyond, lathe)
        assert report.answers == ()
        assert report.nearest is not None
        assert report.nearest.ratio == extreme


@pytest.mark.parametrize("case", of_kind(CASES, "spiral"))
def test_on_the_mill_the_ratio_stands_on_its_head(case):
    train = next(placings([(0, each) for each in case["drivers"]], [(0, each) for each in case["driven"]]))
    audit = audit_train(train, a_lathe(read_length(case["machine_lead"]), own_wheels(train)))
    assert audit.inverted_lead == read_length(case["lead"])


@pytest.mark.parametrize("case", of_kind(CASES, "spiral_sets"))
def test_the_search_lists_every_set_of_four_for_a_spiral_and_no_other(case):
    # The table screw drives: what the lathe calls drivers are the driven wheels of the mill.
    lathe = a_lathe(read_length(case["machine_lead"]), case["box"], Banjo(stud_nut=Length.of_mm(0)))
    question = TrainQuestion(read_length(case["lead"]), most_pairs=2, within=Fraction(0), wanted=1000)
    answers = [answer for answer in search_trains(question, lathe).answers if len(answer.train.pairs) == 2]
    found = [
        [sorted(pair.driven for pair in each.train.pairs), sorted(pair.driver for pair in each.train.pairs)]
        for each in answers
    ]
    assert len(found) == case["count"]
    assert sorted(found) == sorted(case["sets"])


@pytest.mark.parametrize("row", rows_of_kind(CASES, "accumulated"))
def test_an_error_of_ratio_grows_with_length_as_the_table_says(row):
    wanted: Lead = PiLength(Fraction(1)) if row["wanted"] == "pi" else Length.of_mm(row["wanted"])
    error = lead_error(Length.of_mm(row["pair"]), wanted)
    assert significant_text(error.ppm, 5) == significant_text(Fraction(row["ppm"]), 5)
    for length, key in ((100, "um_100"), (300, "um_300"), (1000, "um_1000")):
        places = len(row[key].partition(".")[2])
        assert decimal_text(error.over(Length.of_mm(length)).mm * 1000, places) == row[key]
    thou = error.over(Length.of_inches(12)).inches * 1000
    assert decimal_text(thou, len(row["thou_per_foot"].partition(".")[2])) == row["thou_per_foot"]


@pytest.mark.parametrize("case", of_kind(CASES, "tolerance_share"))
def test_gearing_errors_use_the_share_of_the_tolerance_stated(case):
    engaged, tolerance = Length.of_mm(case["engaged_mm"]), Length.of_mm(case["tolerance_mm"])
    for row in case["rows"]:
        taken = LeadError(Fraction(row["ppm"]) / 1_000_000, Fraction(0)).as_pitch_diameter(engaged)
        assert decimal_text(taken.mm * 1000, 2) == row["um"]
        assert decimal_text(taken / tolerance * 100, 2) == row["percent"]
    all_used = LeadError(Length.of_mm(case["all_used_by"]["mm"]) / engaged, Fraction(0))
    assert decimal_text(all_used.as_pitch_diameter(engaged).mm, 3) == case["tolerance_mm"]
    assert abs(all_used.ppm - int(case["all_used_by"]["ppm"])) < 2
