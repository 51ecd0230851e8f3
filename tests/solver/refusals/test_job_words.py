"""What the models of a sitting and of a train say when they cannot answer, word for word."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.jobs.plan_model import Found
from solver.jobs.planning import plan
from solver.jobs.tasks import Machine, Sitting, Task, Way
from solver.jobs.train_model import TooLargeForModelError, UndecidedModelError, best_train, find_train
from solver.jobs.wheel_cover import best_covers
from solver.quantities.lengths import Length
from solver.trains.lathe import Lathe
from solver.trains.wheels import Pair, Train, WheelClass

BARE = Way(frozenset(), Fraction(0), 0)


def box_of(*teeth):
    box = WheelClass("module 1", Length.of_mm(1), tuple((each, 1) for each in teeth))
    return Lathe("small", "8 tpi", Length.of_inches("1/8"), Fraction(1), has_reverse=True, wheel_classes=(box,))


def ring(*waits):
    return Sitting(tuple(Task(Machine.LATHE, (BARE,), frozenset(each)) for each in waits))


SENSELESS = "a ratio is above zero and a train has at least one pair"
LARGE = "The search has no such limit; the model is for fewer pairs or rounder ratios."
NO_PROOF = "the constraint solver gave neither a train nor a proof of none (neither found nor proven)"
HALF = Fraction(1, 2)


@pytest.mark.parametrize(
    ("ask", "kind", "said"),
    [
        (lambda: ring({1}, {0}).all_before(), ValueError, "tasks [0, 1] wait for one another"),
        (lambda: ring(set(), {2, 0}, {1}).all_before(), ValueError, "tasks [1, 2] wait for one another"),
        (lambda: find_train(box_of(40, 80), Fraction(0), 1), ValueError, SENSELESS),
        (lambda: find_train(box_of(40, 80), HALF, 0), ValueError, SENSELESS),
        (lambda: best_train(box_of(), Fraction(-1), 1), ValueError, SENSELESS),
        (lambda: best_train(box_of(40, 80), Fraction(0), 1), ValueError, SENSELESS),
        # Bottom by the largest product of drivers, and top by that of the driven: 2**60 * 80 + 1 * 80.
        (lambda: find_train(box_of(40, 80), Fraction(1, 2**60), 1), TooLargeForModelError,
         f"the constraint model would need the whole number {2**60 * 80 + 80}, which is not below 2**62\n{LARGE}"),
        # 1000 * 2**50 * 80 and (1000 + 1) * 1 * 80.
        (lambda: find_train(box_of(40, 80), Fraction(1, 2**50), 1, closer_than=Fraction(1, 1000)),
         TooLargeForModelError, (f"the constraint model would need the whole number {1000 * 2**50 * 80 + 1001 * 80}, "
         f"which is not below 2**62\n{LARGE}")),
        # 400**8 is above 2**62 by itself.
        (lambda: find_train(box_of(200, 400), HALF, 8), TooLargeForModelError,
         f"the constraint model would need the whole number {400**8}, which is not below 2**62\n{LARGE}"),
        (lambda: find_train(box_of(20, 30, 40), HALF, 1, closer_than=HALF, effort=0), UndecidedModelError,
         f"{NO_PROOF}\nIt was allowed 0 s of effort; allow more, or ask for fewer pairs."),
        (lambda: best_train(box_of(20, 30, 40), HALF, 1, effort=0), UndecidedModelError,
         f"{NO_PROOF}\nIt was allowed 0 s of effort; allow more, or ask for fewer pairs."),
        # One lead and the dearest wheel: 4000 * (1 + 1) teeth a unit of price, one unit more a lead, two leads' worth.
        (lambda: best_covers([{(20,)}], {20: 3 * 2**47}, 1), ValueError,
         f"the aim of the model would need {8000 * (3 * 2**47 + 1) * 2}, which is not below 2**62"),
    ],
)  # fmt: skip
def test_what_the_models_cannot_answer_is_said_in_just_these_words(ask, kind, said):
    with pytest.raises(kind) as caught:
        ask()
    assert str(caught.value) == said


def test_the_largest_whole_number_of_the_model_is_just_below_its_bound(monkeypatch):
    # 2 * 80 for the drivers of 1/2 and 1 * 80 for the driven.
    monkeypatch.setattr("solver.jobs.train_model.LARGEST_WHOLE", 241)
    assert str(find_train(box_of(40, 80), HALF, 1)) == "40-80"
    monkeypatch.setattr("solver.jobs.train_model.LARGEST_WHOLE", 240)
    with pytest.raises(TooLargeForModelError, match="would need the whole number 240,"):
        find_train(box_of(40, 80), HALF, 1)


@pytest.mark.parametrize(
    ("pair", "within", "said"),
    [
        ((40, 41), None, "40-41: ('41 T is not in the box',), error 39/41"),
        ((80, 40), HALF, "80-40: (), error 3"),
        # The tolerance itself is not closer.
        ((40, 80), Fraction(0), "40-80: (), error 0"),
    ],
)
def test_a_train_read_back_that_breaks_a_rule_is_an_error_of_the_model(monkeypatch, pair, within, said):
    monkeypatch.setattr("solver.jobs.train_model._Statement.read_back", lambda *_: Train((Pair(*pair),)))
    monkeypatch.setattr("solver.jobs.train_model._Statement.keep_near", lambda *_: None)
    with pytest.raises(AssertionError) as caught:
        find_train(box_of(40, 80), HALF, 1, closer_than=within)
    assert str(caught.value) == f"the model and the train rules disagree on {said}"


def test_a_plan_below_what_was_proven_is_an_error_of_the_proof(monkeypatch):
    # The second waits for the first below it, so the order of the file is no answer at once.
    sitting = ring({1}, set())
    found = Found((), 12, 12, ties_settled=True)
    monkeypatch.setattr("solver.jobs.planning.best_plan", lambda *_words, **_named: found)
    with pytest.raises(AssertionError) as caught:
        plan(sitting)
    assert str(caught.value) == "0 wheels were counted where 12 were proven the least"
