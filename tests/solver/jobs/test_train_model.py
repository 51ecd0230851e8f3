"""The constraint model and the search are two witnesses of one set of rules; they must agree."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.jobs.constraint_solver import solve
from solver.jobs.train_model import (
    TooLargeForModelError,
    UndecidedModelError,
    best_train,
    find_train,
)
from solver.quantities.lengths import Length
from solver.trains.lathe import Banjo, Lathe
from solver.trains.train_rules import broken_rules
from solver.trains.train_search import TrainQuestion, search_trains
from solver.trains.wheels import WheelClass
from solver.trains.written_trains import read_train
from tests.drawn_cases import cases
from tests.slow_answers import best_error
from tests.strategies import lathes

TINY_NUT = Banjo(stud_nut=Length.of_mm("0.01"))


def lathe_of(teeth, *, lead, stud_turns=Fraction(1), only_in_pair=None):
    box = WheelClass("module 1", Length.of_mm(1), tuple((each, 1) for each in sorted(teeth)), only_in_pair)
    return Lathe("published", "as printed", lead, stud_turns, has_reverse=True, wheel_classes=(box,), banjo=TINY_NUT)


def with_constant(constant, teeth):
    """A lathe whose equal wheels cut ``constant`` threads to the inch."""
    return lathe_of(teeth, lead=Length.of_inches(Fraction(1, constant)))


def nearest_by_search(lathe, lead, pairs):
    """The least error of exactly so many pairs, mounting apart."""
    report = search_trains(TrainQuestion(lead, most_pairs=pairs, within=Fraction(1, 2), wanted=1), lathe)
    found = [*report.answers, *report.set_aside, *([report.nearest] if report.nearest else [])]
    return min(abs(each.error.relative) for each in found if len(each.train.pairs) == pairs)


#: Screw constant, box, threads to the inch and the train printed.
TURNING_AND_BORING = [
    pytest.param(6, range(30, 101, 5), Fraction(24), "40-80-30-60", id="page 170"),
    pytest.param(8, range(24, 101, 4), Fraction(7, 4), "72-36-64-28", id="page 171"),
]


@pytest.mark.published("F. D. Jones, Turning and Boring, 1914, fifth printing 1919, ch. IV, pp. 170-171")
@pytest.mark.parametrize(("constant", "teeth", "tpi", "printed"), TURNING_AND_BORING)
def test_the_printed_train_the_model_and_the_search_all_cut_the_printed_thread(constant, teeth, tpi, printed):
    lathe = with_constant(constant, teeth)
    assert read_train(printed).ratio == constant / tpi
    assert broken_rules(read_train(printed), lathe) == ()
    train = find_train(lathe, constant / tpi, 2)
    assert train is not None
    assert train.ratio == constant / tpi
    assert nearest_by_search(lathe, Length.of_inches(1 / tpi), 2) == 0


@pytest.mark.own_arithmetic("F. D. Jones, Turning and Boring, 1914, fifth printing 1919, ch. IV, pp. 170-171")
@pytest.mark.parametrize(("constant", "teeth", "tpi", "printed"), TURNING_AND_BORING)
def test_the_printed_thread_needs_two_pairs_from_the_printed_box(constant, teeth, tpi, printed):
    assert len(read_train(printed).pairs) == 2
    assert find_train(with_constant(constant, teeth), constant / tpi, 1) is None


@pytest.mark.published("F. D. Jones, Turning and Boring, 1914, fifth printing 1919, ch. IV, pp. 171-172")
def test_the_stud_wheel_printed_for_three_millimetres_beside_127_is_the_only_one():
    # Constant 6, a lead of 3 mm, 90 on the stud and 127 on the leadscrew.
    assert (
        str(find_train(with_constant(6, [*range(30, 101, 5), 127]), Fraction(3) / Length.of_inches("1/6").mm, 1))
        == "90-127"
    )


@pytest.mark.parametrize("pairs", [1, 2, 3])
def test_model_and_search_agree_on_the_best_error_of_a_millimetre_pitch_without_127(pairs):
    # 1.25 mm on 8 tpi wants 50/127. With 63 in the box 63/80 stands in for 100/127, 125 ppm long.
    lathe = with_constant(8, {*range(20, 121, 5), 63})
    ratio = Fraction(50, 127)
    best = best_train(lathe, ratio, pairs)
    assert best is not None
    assert best.error == best.train.ratio / ratio - 1
    assert abs(best.error) == nearest_by_search(lathe, Length.of_mm("1.25"), pairs)
    assert find_train(lathe, ratio, pairs, closer_than=abs(best.error)) is None
    assert best.seconds > 0


@pytest.mark.from_memory("general knowledge: tables of substitutes for the 127 wheel")
def test_63_over_80_is_the_two_pair_answer_at_125_parts_in_a_million():
    lathe = with_constant(8, {*range(20, 121, 5), 63})
    best = best_train(lathe, Fraction(50, 127), 2)
    assert best is not None
    assert best.error == Fraction(1, 8000)


@cases(25)
@given(lathes(most=6), st.sampled_from([Fraction(1, 4), Fraction(50, 127), Fraction(7, 3)]), st.integers(1, 2))
def test_the_model_agrees_with_the_slow_way_on_small_boxes_of_one_class_or_two(lathe, ratio, pairs):
    bare = Lathe("bare", "1 mm", Length.of_mm(1), Fraction(1), has_reverse=True, wheel_classes=lathe.wheel_classes)
    least = best_error(bare, Length(ratio), pairs)
    best = best_train(bare, ratio, pairs)
    if least is None:
        assert best is None
        return
    assert best is not None
    assert abs(best.error) == least
    assert broken_rules(best.train, bare) == ()


def test_a_class_made_for_one_pair_sits_in_that_pair():
    first = WheelClass("60 DP", Length.of_mm("0.5"), ((100, 1), (127, 1)), only_in_pair=1)
    other = WheelClass("24 DP", Length.of_mm(1), ((40, 1), (80, 1)))
    lathe = Lathe("two", "1 mm", Length.of_mm(1), Fraction(1), has_reverse=True, wheel_classes=(other, first))
    train = find_train(lathe, Fraction(50, 127), 2)
    assert train is not None
    assert str(train) == "100-127-40-80"
    assert find_train(lathe, Fraction(100, 127), 1) is not None


def test_the_tolerance_itself_is_not_close_enough():
    lathe = with_constant(8, [63, 80])
    assert find_train(lathe, Fraction(100, 127), 1, closer_than=Fraction(1, 8000)) is None
    assert find_train(lathe, Fraction(100, 127), 1, closer_than=Fraction(1, 7999)) is not None


def test_a_box_without_enough_wheels_has_no_train():
    assert best_train(with_constant(8, [40, 80]), Fraction(1), 2) is None
    assert best_train(with_constant(8, []), Fraction(1), 1) is None


def test_numbers_too_large_for_the_model_are_refused_not_wrapped():
    lathe = with_constant(8, range(20, 80))
    with pytest.raises(TooLargeForModelError, match=r"not below 2\*\*62"):
        find_train(lathe, Fraction(10**9 + 7, 10**9 + 9), 4, closer_than=Fraction(1, 10**9 + 21))


def test_no_effort_is_no_proof():
    lathe = with_constant(8, range(20, 80))
    with pytest.raises(UndecidedModelError, match="neither a train nor a proof"):
        find_train(lathe, Fraction(50, 127), 3, closer_than=Fraction(1, 10**8), effort=0)


@pytest.mark.parametrize(("ratio", "pairs"), [(Fraction(0), 1), (Fraction(-1), 1), (Fraction(1), 0)])
def test_a_question_without_sense_is_a_value_error(ratio, pairs):
    with pytest.raises(ValueError, match="a ratio is above zero"):
        find_train(with_constant(8, [40, 80]), ratio, pairs)


@pytest.mark.parametrize(
    ("teeth", "ratio", "questions", "best"),
    [
        # Exact at the first question.
        ((40, 80), Fraction(1, 2), 1, "40-80"),
        # Neither exact nor within a millionth or a ten-thousandth; within a hundredth is 125 ppm, and none is closer.
        ((40, 63, 80), Fraction(100, 127), 5, "63-80"),
        # Nothing within a hundredth: any train, then none closer; a half and a thousandth is 499 times too much.
        ((40, 80), Fraction(1, 1000), 6, "40-80"),
        ((40, 80), Fraction(1000), 6, "80-40"),
    ],
)
def test_the_best_is_asked_for_in_widening_steps_and_then_for_something_closer(
    monkeypatch, teeth, ratio, questions, best
):
    asked = []

    def listening(model, *, effort):
        asked.append(effort)
        return solve(model, effort=effort)._replace(seconds=Fraction(3, 10))

    monkeypatch.setattr("solver.jobs.train_model.solve", listening)
    found = best_train(with_constant(8, teeth), ratio, 1, effort=7)
    assert (str(found.train), found.questions, found.seconds) == (best, questions, questions * Fraction(3, 10))
    assert found.error == found.train.ratio / ratio - 1
    assert asked == [7] * questions


def test_a_question_has_its_usual_effort_unless_another_is_asked_for(monkeypatch):
    asked = []
    monkeypatch.setattr(
        "solver.jobs.train_model.solve", lambda model, *, effort: asked.append(effort) or solve(model, effort=effort)
    )
    find_train(with_constant(8, [40, 80]), Fraction(1, 2), 1)
    find_train(with_constant(8, [40, 80]), Fraction(1, 2), 1, effort=5)
    best_train(with_constant(8, [40, 80]), Fraction(1, 2), 1)
    assert asked == [60, 5, 60]


def test_two_wheels_alike_may_sit_side_by_side_and_no_third():
    box = WheelClass("module 1", Length.of_mm(1), ((20, 2), (40, 2)))
    lathe = Lathe("twice", "1 mm", Length.of_mm(1), Fraction(1), has_reverse=True, wheel_classes=(box,))
    assert str(find_train(lathe, Fraction(1, 4), 2)) == "20-40-20-40"
    assert find_train(lathe, Fraction(1, 8), 3) is None


def test_a_pair_is_of_one_class_though_the_other_has_the_very_wheel():
    one = WheelClass("module 1", Length.of_mm(1), ((40, 1), (50, 1)))
    other = WheelClass("20 DP", Length.of_mm("1.27"), ((80, 1), (90, 1)))
    lathe = Lathe("two", "1 mm", Length.of_mm(1), Fraction(1), has_reverse=True, wheel_classes=(one, other))
    assert find_train(lathe, Fraction(40, 80), 1) is None
    found = find_train(lathe, Fraction(80, 90), 1)
    assert (str(found), found.pairs[0].wheel_class) == ("80-90", 1)
    assert str(find_train(lathe, Fraction(40 * 80, 50 * 90), 2)) in ("40-50-80-90", "80-90-40-50")
