"""The train rules as a constraint model.

It finds no train that the search does not find, and takes longer. It is here because it says the same
rules in another way: tests hold the search and the model against each other, and a model that proves
"nothing is closer" is a second witness. Everything is whole numbers::

    wanted ratio p/q, drivers' product P, driven product Q, tolerance n/d
    |P/Q : p/q - 1| < n/d    is    d*|q*P - p*Q| < n*p*Q
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from solver.jobs.constraint_solver import Certainty, Model, Outcome, Variable, new_model, solve
from solver.refusals import RefusalError
from solver.trains.lathe import Lathe
from solver.trains.train_rules import broken_rules
from solver.trains.wheels import Pair, Train

#: Whole numbers in the model stay below this: the solver counts in 64 bits and adds a few of them.
LARGEST_WHOLE = 2**62
#: Most deterministic time for one question; the solver's own unit, near a second. [s]
USUAL_EFFORT = 60
#: First tolerances to ask for when looking for the best, as parts of the ratio; then any.
LADDER = (Fraction(1, 10**6), Fraction(1, 10**4), Fraction(1, 100))


class TooLargeForModelError(RefusalError):
    """The numbers of a question do not fit the whole numbers of the constraint solver."""


class UndecidedModelError(RefusalError):
    """The constraint solver stopped without a train and without a proof that there is none."""


@dataclass(frozen=True, slots=True)
class ProvenTrain:
    """The best train of so many pairs, with how it was proven.

    Parameters
    ----------
    train : Train
        One placing; mounting is not looked at.
    error : Fraction
        Signed relative error of its ratio.
    questions : int
        How many times the model was asked; the last time it proved that nothing is closer.
    seconds : Fraction
        Wall time inside the constraint solver, to a microsecond. [s]
    """

    train: Train
    error: Fraction
    questions: int
    seconds: Fraction


def find_train(
    lathe: Lathe,
    ratio: Fraction,
    pairs: int,
    *,
    closer_than: Fraction | None = None,
    effort: int = USUAL_EFFORT,
) -> Train | None:
    """Find any train of a ratio, exact or strictly closer than a tolerance.

    Parameters
    ----------
    lathe : Lathe
        The box with its counts; gearbox, banjo and keyed pairs are not looked at.
    ratio : Fraction
        Wanted product of drivers over product of driven wheels.
    pairs : int
        Exactly so many pairs.
    closer_than : Fraction or None, optional
        The relative error is strictly below this; ``None`` asks for an exact train.
    effort : int, optional
        Most deterministic time of the constraint solver. [s]

    Returns
    -------
    Train or None
        ``None`` is proven: there is no such train.

    Raises
    ------
    UndecidedModelError
        The effort ran out before a train or a proof was found.
    TooLargeForModelError
        A product would not stay below 2**62.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (63, 1), (80, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> find_train(lathe, Fraction(1, 2), 1)
    Train(pairs=(Pair(driver=40, driven=80, wheel_class=0),))
    >>> find_train(lathe, Fraction(100, 127), 1) is None
    True
    >>> str(find_train(lathe, Fraction(100, 127), 1, closer_than=Fraction(1, 5000)))
    '63-80'
    """
    return _ask(lathe, ratio, pairs, closer_than, effort)[0]


def best_train(lathe: Lathe, ratio: Fraction, pairs: int, *, effort: int = USUAL_EFFORT) -> ProvenTrain | None:
    """Find the train nearest a ratio by asking for strictly closer ones until there is proof of none.

    Parameters
    ----------
    lathe : Lathe
        The box with its counts.
    ratio : Fraction
        Wanted ratio.
    pairs : int
        Exactly so many pairs.
    effort : int, optional
        Most deterministic time for each question. [s]

    Returns
    -------
    ProvenTrain or None
        ``None`` when the box makes no train of so many pairs at all.

    Raises
    ------
    UndecidedModelError
        As for ``find_train``.
    TooLargeForModelError
        As for ``find_train``.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (63, 1), (80, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> best = best_train(lathe, Fraction(100, 127), 1)
    >>> str(best.train), best.error
    ('63-80', Fraction(1, 8000))
    """
    best: Train | None = None
    questions, seconds = 0, Fraction(0)
    for closer_than in _ladder(ratio):
        best, took = _ask(lathe, ratio, pairs, closer_than, effort)
        questions, seconds = questions + 1, seconds + took
        if best is not None:
            break
    if best is None:
        return None
    while (error := best.ratio / ratio - 1) != 0:
        closer, took = _ask(lathe, ratio, pairs, abs(error), effort)
        questions, seconds = questions + 1, seconds + took
        if closer is None:
            break
        best = closer
    return ProvenTrain(best, error, questions, seconds)


def _ask(
    lathe: Lathe, ratio: Fraction, pairs: int, closer_than: Fraction | None, effort: int
) -> tuple[Train | None, Fraction]:
    """Ask the model once; return the train or a proven ``None``, and the wall time it took."""
    if ratio <= 0 or pairs < 1:
        message = "a ratio is above zero and a train has at least one pair"
        raise ValueError(message)
    if not any(wheel_class.stock for wheel_class in lathe.wheel_classes):
        return None, Fraction(0)
    stated = _Statement(new_model(), lathe, pairs)
    stated.keep_near(ratio, closer_than)
    outcome = solve(stated.model, effort=effort)
    if outcome.certainty is Certainty.NONE:
        return None, outcome.seconds
    if not outcome.has_values:
        raise UndecidedModelError(
            f"the constraint solver gave neither a train nor a proof of none ({outcome.certainty.value})",
            help_text=f"It was allowed {effort} s of effort; allow more, or ask for fewer pairs.",
        )
    train = stated.read_back(outcome)
    _check(train, lathe, ratio, closer_than)
    return train, outcome.seconds


def _check(train: Train, lathe: Lathe, ratio: Fraction, closer_than: Fraction | None) -> None:
    """Hold what the solver says against the rules said without any search."""
    error = abs(train.ratio / ratio - 1)
    near = error == 0 if closer_than is None else error < closer_than
    if broken_rules(train, lathe) or not near:
        broken = broken_rules(train, lathe)
        message = f"the model and the train rules disagree on {train}: {broken}, error {error}"
        raise AssertionError(message)


def _ladder(ratio: Fraction) -> Iterator[Fraction | None]:
    """Yield the tolerances to ask for one after another: none at all, then wider ones, at last one that takes any box.

    A train and its inverse lie on either side of 1, so some train is at most 1 and less than ``1 / ratio + 1`` off.
    """
    yield None
    yield from LADDER
    yield Fraction(int(1 / ratio) + 2)


class _Statement:
    """The variables and the rules: one wheel in every place, one class a pair, no wheel twice."""

    def __init__(self, model: Model, lathe: Lathe, pairs: int) -> None:
        self.model = model
        self._lathe = lathe
        self._pairs = pairs
        #: (pair, 0 for driver and 1 for driven, class, teeth) to: this wheel sits there.
        self._sits: dict[tuple[int, int, int, int], Variable] = {}
        self._place_wheels()
        self._share_the_box()
        self._products = tuple(self._product(side) for side in (0, 1))
        self._order_what_is_alike()

    def _place_wheels(self) -> None:
        for pair in range(self._pairs):
            for number, wheel_class in enumerate(self._lathe.wheel_classes):
                if wheel_class.only_in_pair not in (None, pair + 1):
                    continue
                for teeth, _ in wheel_class.stock:
                    for side in (0, 1):
                        self._sits[pair, side, number, teeth] = self.model.new_bool_var("")
        for pair in range(self._pairs):
            for side in (0, 1):
                self.model.add_exactly_one(self._among(pair=pair, side=side))
            for number in range(len(self._lathe.wheel_classes)):
                drivers = self._among(pair=pair, side=0, number=number)
                driven = self._among(pair=pair, side=1, number=number)
                self.model.add(sum(drivers) == sum(driven))

    def _among(
        self,
        *,
        pair: int | None = None,
        side: int | None = None,
        number: int | None = None,
        teeth: int | None = None,
    ) -> list[Variable]:
        wanted = (pair, side, number, teeth)
        return [
            variable
            for key, variable in self._sits.items()
            if all(want is None or have == want for have, want in zip(key, wanted, strict=True))
        ]

    def _share_the_box(self) -> None:
        for number, wheel_class in enumerate(self._lathe.wheel_classes):
            for teeth, count in wheel_class.stock:
                self.model.add(sum(self._among(number=number, teeth=teeth)) <= count)

    def _teeth(self, pair: int, side: int) -> Variable:
        choices = [(variable, key[3]) for key, variable in self._sits.items() if key[0] == pair and key[1] == side]
        counts = [teeth for _, teeth in choices] or [1]
        chosen = self.model.new_int_var(min(counts), max(counts), "")
        self.model.add(chosen == sum(teeth * variable for variable, teeth in choices))
        return chosen

    def _product(self, side: int) -> tuple[Variable, int]:
        """Multiply one wheel after another; return the product and the bound it stays under."""
        teeth = [each for wheel_class in self._lathe.wheel_classes for each, _ in wheel_class.stock]
        running, most = self._teeth(0, side), max(teeth)
        for pair in range(1, self._pairs):
            most = _held(most * max(teeth))
            longer = self.model.new_int_var(1, most, "")
            self.model.add_multiplication_equality(longer, [running, self._teeth(pair, side)])
            running = longer
        return running, most

    def _order_what_is_alike(self) -> None:
        """Say once what may be said in many orders; only where every wheel may sit in every pair."""
        if len(self._lathe.wheel_classes) > 1 or self._lathe.wheel_classes[0].only_in_pair is not None:
            return
        for side in (0, 1):
            for pair in range(self._pairs - 1):
                here, there = (
                    sum(key[3] * variable for key, variable in self._sits.items() if key[:2] == (place, side))
                    for place in (pair, pair + 1)
                )
                self.model.add(here <= there)

    def keep_near(self, ratio: Fraction, closer_than: Fraction | None) -> None:
        """Add the error rule of the module's docstring, every product held below ``LARGEST_WHOLE``."""
        (drivers, most_drivers), (driven, most_driven) = self._products
        top, bottom = ratio.numerator, ratio.denominator
        if closer_than is None:
            _held(bottom * most_drivers + top * most_driven)
            self.model.add(bottom * drivers == top * driven)
            return
        part, whole = closer_than.numerator, closer_than.denominator
        _held(whole * bottom * most_drivers + (whole + abs(part)) * top * most_driven)
        self.model.add(whole * bottom * drivers - (whole + part) * top * driven <= -1)
        self.model.add((whole - part) * top * driven - whole * bottom * drivers <= -1)

    def read_back(self, outcome: Outcome) -> Train:
        """Rebuild the train that the solver chose."""
        chosen = {key[:2]: key[2:] for key, variable in self._sits.items() if outcome.is_true(variable)}
        return Train(
            tuple(
                Pair(driver=chosen[pair, 0][1], driven=chosen[pair, 1][1], wheel_class=chosen[pair, 0][0])
                for pair in range(self._pairs)
            )
        )


def _held(number: int) -> int:
    if number >= LARGEST_WHOLE:
        raise TooLargeForModelError(
            f"the constraint model would need the whole number {number}, which is not below 2**62",
            help_text="The search has no such limit; the model is for fewer pairs or rounder ratios.",
        )
    return number
