"""Change wheels against printed and well-known trains; sources stand in the data files."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from solver.quantities.continued_fractions import intermediate_fractions
from solver.quantities.exact_numbers import decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.quantities.written_lengths import read_length
from solver.quantities.written_pitches import read_pitch
from solver.trains.hand import Hand, keeps_direction, plan_hand
from solver.trains.lathe import Banjo, Lathe
from solver.trains.lead_error import lead_error
from solver.trains.mounting import Mounter
from solver.trains.plate_row import lead_at_equal_wheels
from solver.trains.train_audit import audit_train
from solver.trains.train_search import TrainQuestion, search_trains
from solver.trains.translating import METRIC_ON_INCH, stand_ins
from solver.trains.wheels import Train, WheelClass
from solver.trains.written_trains import read_train
from tests.published.source_cases import SourceCase, of_kind, read_cases, rows_of_kind, unmarked

CASES = read_cases("change_gears.toml")
TRAINS = rows_of_kind(CASES, "trains")
#: Cases that name the whole set of wheels.
WHOLE_SETS = unmarked([case for case in of_kind(CASES, "trains") if "box" in case.values[0].data])


def a_lathe(
    screw: str, teeth: list[int] | tuple[int, ...] = (), *, nut_mm: int | None = 0, reverse: bool = True
) -> Lathe:
    """Make a lathe whose equal wheels cut the written pitch; a nut of nothing lets nearly every train go on."""
    lead = read_pitch(screw).lead
    assert isinstance(lead, Length)
    stock = tuple((each, teeth.count(each)) for each in sorted(set(teeth)))
    banjo = None if nut_mm is None else Banjo(stud_nut=Length.of_mm(nut_mm))
    return Lathe(
        "of the case", screw, lead, Fraction(1), reverse, (WheelClass("module 1", Length.of_mm(1), stock),), banjo=banjo
    )


def own_wheels(train: Train) -> list[int]:
    return [teeth for _, teeth in train.wheels]


def one_pair_trains() -> list[object]:
    """Return the plate rows: one pair, a plain lead, printed or well known."""
    return [row for row in TRAINS if row.values[0]["train"].count("-") == 1 and "ppm" not in row.values[0]]


@pytest.mark.parametrize("row", TRAINS)
def test_a_train_has_the_ratio_and_cuts_the_thread_of_the_source(row):
    train = read_train(row["train"])
    wanted = read_pitch(row["thread"]).lead
    audit = audit_train(train, a_lathe(row["screw"], own_wheels(train)), wanted=wanted)
    assert audit.answer.ratio == Fraction(row["ratio"])
    assert not audit.not_in_box
    if "ppm" in row:
        assert not audit.answer.error.is_exact
        assert decimal_text(audit.answer.error.ppm, 4) == row["ppm"]
    else:
        assert audit.answer.error.is_exact
        assert audit.answer.cut_lead == wanted
    if "cut" in row:
        assert audit.answer.cut_lead == read_length(row["cut"])


@pytest.mark.parametrize("row", unmarked(TRAINS))
def test_the_search_finds_a_train_of_the_same_wheels_when_it_has_no_others(row):
    train = read_train(row["train"])
    wanted = read_pitch(row["thread"]).lead
    lathe = a_lathe(row["screw"], own_wheels(train))
    printed = abs(audit_train(train, lathe, wanted=wanted).answer.error.relative)
    pairs = len(train.pairs)
    report = search_trains(TrainQuestion(wanted, most_pairs=pairs, within=printed, wanted=50), lathe)
    found = (*report.answers, *report.set_aside)
    assert sorted(own_wheels(train)) in [sorted(own_wheels(answer.train)) for answer in found]


@pytest.mark.parametrize("row", unmarked(one_pair_trains()))
def test_one_row_of_a_threading_plate_gives_the_constant_of_the_lathe(row):
    pair = read_train(row["train"]).pairs[0]
    cut = read_pitch(row["thread"]).lead
    assert isinstance(cut, Length)
    assert lead_at_equal_wheels(cut, pair.driver, pair.driven) == read_pitch(row["screw"]).lead


@pytest.mark.parametrize("case", WHOLE_SETS)
def test_a_search_of_the_whole_set_named_finds_the_printed_answer_or_its_like(case):
    for row in case["rows"]:
        train = read_train(row["train"])
        lathe = a_lathe(row["screw"], case["box"])
        wanted = read_pitch(row["thread"]).lead
        question = TrainQuestion(wanted, most_pairs=2, within=Fraction(0), wanted=400)
        answers = search_trains(question, lathe).answers
        assert all(answer.error.is_exact for answer in answers)
        found = {(answer.train.ratio, frozenset(own_wheels(answer.train))) for answer in answers}
        if len(set(own_wheels(train))) == len(own_wheels(train)):
            assert (train.ratio, frozenset(own_wheels(train))) in found
        else:
            # The case's 60:60 stands for any 1 to 1; with one wheel of each it takes two pairs.
            assert answers
            assert {len(answer.train.pairs) for answer in answers} == {2}


@pytest.mark.published(
    "A Treatise on the Construction and Manipulation of Tools, 19th century, selection of simple-gear wheels"
)
def test_the_wheels_too_small_to_reach_have_the_ratio_of_those_used():
    case = CASES["CG-007"]
    row = case["rows"][0]
    small = read_train(case["too_small"])
    report = search_trains(
        TrainQuestion(read_pitch(row["thread"]).lead, most_pairs=1, within=Fraction(0)),
        a_lathe(row["screw"], [*own_wheels(small), *own_wheels(read_train(row["train"]))]),
    )
    # Large wheels are offered before small ones of the same ratio.
    assert [str(answer.train) for answer in report.answers] == [row["train"], case["too_small"]]


@pytest.mark.parametrize("row", rows_of_kind(CASES, "multiples"))
def test_a_search_of_one_pair_finds_every_common_multiple_of_the_table(row):
    wheels = list(range(12, 91))
    lathe = a_lathe(row["screw"], wheels)
    question = TrainQuestion(read_pitch(row["thread"]).lead, most_pairs=1, within=Fraction(0), wanted=100)
    found = {str(answer.train) for answer in search_trains(question, lathe).answers}
    ratio = read_pitch(row["screw"]).figure / read_pitch(row["thread"]).figure
    stud, screw = ratio.numerator, ratio.denominator
    assert set(row["trains"]) <= found
    assert found == {f"{stud * by}-{screw * by}" for by in range(1, 91) if stud * by >= 12 and screw * by <= 90}


def sets_found(case: SourceCase, lathe: Lathe) -> set[tuple[tuple[int, ...], tuple[int, ...]]]:
    question = TrainQuestion(read_pitch(case["thread"]).lead, most_pairs=2, within=Fraction(0), wanted=1000)
    return {
        (
            tuple(sorted(pair.driver for pair in each.train.pairs)),
            tuple(sorted(pair.driven for pair in each.train.pairs)),
        )
        for each in search_trains(question, lathe).answers
    }


@pytest.mark.parametrize("case", of_kind(CASES, "sets"))
def test_the_search_lists_every_exact_set_and_no_other(case):
    found = sets_found(case, a_lathe(case["screw"], case["box"]))
    assert len(found) == case["count"]
    assert found == {(tuple(drivers), tuple(driven)) for drivers, driven in case["sets"]}


@pytest.mark.parametrize("row", rows_of_kind(CASES, "stand_ins"))
def test_a_stand_in_for_the_translating_pair_is_off_by_the_part_stated(row):
    train = read_train(row["pair"].replace("/", "-"))
    audit = audit_train(train, a_lathe("8 tpi", own_wheels(train)), wanted=Length.of_inches("1/8") * METRIC_ON_INCH)
    assert audit.answer.error.relative == Fraction(row["error"])
    near = {each.pair: each.error for each in stand_ins(largest=120)}
    if train.ratio in near:
        assert near[train.ratio] == Fraction(row["error"])
    # The same pair upside down serves inch threads on a metric screw, with the opposite sign.
    assert (audit.inverted_lead / Length.of_inches("1/8") * METRIC_ON_INCH - 1 < 0) is (Fraction(row["error"]) > 0)


@pytest.mark.parametrize("case", of_kind(CASES, "stand_ins"))
def test_the_best_stand_ins_on_wheels_to_120_come_first(case):
    best = [str(each.pair) for each in stand_ins(largest=120)]
    assert best[: len(case["best_to_120"])] == case["best_to_120"]


@pytest.mark.parametrize("row", rows_of_kind(CASES, "continued"))
def test_convergents_and_the_fractions_between_them_are_yielded_with_the_errors_stated(row):
    ratio = Fraction(row["ratio"])
    yielded = list(intermediate_fractions(ratio, largest=127))
    convergents = [Fraction(each) for each in row["convergents"]]
    assert [each for each in yielded if each in convergents] == convergents
    assert {Fraction(each) for each in row["between"]} <= set(yielded) - set(convergents)
    for convergent, ppm in zip(convergents, row["ppm"], strict=True):
        error = lead_error(Length(convergent), Length(ratio)).ppm
        assert decimal_text(error, 4) == decimal_text(Fraction(ppm), 4)


@pytest.mark.parametrize("row", rows_of_kind(CASES, "constants"))
def test_equal_wheels_cut_the_constant_when_the_stud_is_geared(row):
    screw = read_pitch(row["screw"]).lead
    assert isinstance(screw, Length)
    lathe = Lathe("of the case", row["screw"], screw, Fraction(row["stud_turns"]), True, ())
    assert lathe.lead_at_equal_wheels == read_pitch(row["constant"]).lead


@pytest.mark.parametrize("row", rows_of_kind(CASES, "pi"))
def test_a_fraction_for_pi_is_off_by_the_parts_stated_within_a_proven_bound(row):
    error = lead_error(Length.of_mm(row["value"]), PiLength(Fraction(1)))
    assert decimal_text(error.ppm, 4) == row["ppm"]
    assert 0 < error.bound < Fraction(1, 10**70)
    assert error.words == ("lead short" if row["ppm"].startswith("-") else "lead long")


@pytest.mark.parametrize("row", rows_of_kind(CASES, "meshes"))
def test_an_even_number_of_meshes_keeps_the_direction(row):
    assert keeps_direction(row["pairs"] + row["idlers"]) is row["same_direction"]
    if row["idlers"] <= 1:
        train = read_train("-".join(["40-50", "30-60", "35-70"][: row["pairs"]]))
        lathe = a_lathe("8 tpi", [*own_wheels(train), 65], reverse=False)
        hand = Hand.RIGHT if row["same_direction"] else Hand.LEFT
        assert len(Mounter(lathe, hand).mount(train).idlers) == row["idlers"]
        assert plan_hand(row["pairs"] + row["idlers"], lathe, hand).hand is hand


@pytest.mark.parametrize("case", of_kind(CASES, "hand"))
def test_left_hand_is_cut_by_the_same_wheels_with_one_more_intermediate_or_the_tumbler(case):
    lead = read_pitch("11 tpi").lead
    wheels = [18, 36, 48, 66, 50]
    by_tumbler = "tumbler" in case.data
    lathe = a_lathe("4 tpi", wheels, reverse=by_tumbler)
    right, left = (
        search_trains(TrainQuestion(lead, hand, most_pairs=2, within=Fraction(0), wanted=1), lathe).answers[0]
        for hand in (Hand.RIGHT, Hand.LEFT)
    )
    assert sorted(own_wheels(right.train)) == sorted(own_wheels(left.train)) == wheels[:4]
    assert right.ratio == left.ratio
    assert len(left.idlers) - len(right.idlers) == case.data.get("idlers_more", 0)


@pytest.mark.own_arithmetic(
    "Workshop course notes: compound gear train, thread-cutting exercises 1-3, n.d., exercise 2"
)
def test_a_left_hand_simple_train_needs_an_idler_more_than_the_one_of_a_right_hand_one():
    # CG-036: left-hand with two idlers, so three meshes turn the screw round.
    case = CASES["CG-036"]
    train = read_train(case["rows"][0]["train"])
    assert not keeps_direction(len(train.pairs) + case["idlers"])
    lathe = a_lathe("6 mm", [30, 120, 60, 65], reverse=False)
    # Nothing said of the reach, the solver counts what the motion needs: none, two less and of the same parity.
    assert Mounter(lathe, Hand.LEFT).mount(train).idlers == ()
    assert len(Mounter(lathe, Hand.RIGHT).mount(train).idlers) == 1
    # Stud gear and leadscrew too far apart for the two wheels alone: now it is the two idlers of the source.
    banjo = Banjo(studs=2, centre_distance=Length.of_mm(190), slot=(Length.of_mm(40), Length.of_mm(180)))
    apart = replace(lathe, banjo=banjo)
    assert len(Mounter(apart, Hand.LEFT).mount(train).idlers) == case["idlers"]
    assert plan_hand(len(train.pairs) + case["idlers"], apart, Hand.RIGHT).hand is Hand.LEFT
