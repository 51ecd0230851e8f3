"""Fewest or cheapest wheels so that most leads have an option whose wheels are all there: a cover, as a model.

What is better is said in one order, so that the same question has the same answer: more leads, a lower price, fewer
wheels, fewer teeth in all, and then the lower sum of the squares of the teeth, of the cubes and so on. Two choices of
so many wheels that agree in all these sums are the same choice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence, Set
from itertools import combinations, groupby
from typing import NamedTuple

from solver.jobs.constraint_solver import Certainty, Model, Outcome, Variable, new_model, solve
from solver.jobs.wheel_options import Added

#: Most deterministic time for one question to the constraint solver; its own unit, near a second. [s]
USUAL_EFFORT = 60
#: Teeth of all wheels together stay below this.
_MOST_TEETH = 4_000


class Cover(NamedTuple):
    """Wheels to add, and what they do.

    Parameters
    ----------
    wheels : tuple of int
        Teeth by rising size.
    price : int
        Of all of them, in the units of the prices given.
    covered : tuple of bool
        For each lead, whether some option has all its wheels here.
    is_proven : bool
        Nothing comes before it among the options given.
    """

    wheels: Added
    price: int
    covered: tuple[bool, ...]
    is_proven: bool


def holds(wheels: Sequence[int], option: Sequence[int]) -> bool:
    """Say whether a handful of wheels holds all of an option, two alike as two.

    Examples
    --------
    >>> holds((40, 40, 63), (40, 40)), holds((40, 63), (40, 40))
    (True, False)
    """
    return all(wheels.count(teeth) >= option.count(teeth) for teeth in set(option))


def order_of(cover: Cover) -> tuple[int, ...]:
    """Return what covers are compared by, the better one lower.

    Examples
    --------
    >>> order_of(Cover((21, 37), 2, (True, False), is_proven=True))
    (-1, 2, 2, 58, 1810)
    """
    sums = (sum(teeth**power for teeth in cover.wheels) for power in range(1, len(cover.wheels) + 1))
    return -sum(cover.covered), cover.price, len(cover.wheels), *sums


def covers_of_whole_options(options: Sequence[Set[Added]], prices: Mapping[int, int], size: int) -> tuple[Cover, ...]:
    """Take every option of so many wheels for a choice by itself, best first.

    Where no more wheels than that may be taken, a choice that holds such an option is that option; there is nothing
    left to solve.

    Examples
    --------
    >>> options = [{(63,), (127,)}, {(127,), (21, 37)}, {(37,)}]
    >>> covers_of_whole_options(options, dict.fromkeys((21, 37, 63, 127), 1), 2)[0].covered
    (False, True, True)
    """
    found = []
    for wheels in {option for choices in options for option in choices if len(option) == size}:
        parts = {part for many in range(1, size + 1) for part in combinations(wheels, many)}
        covered = tuple(not parts.isdisjoint(choices) for choices in options)
        found.append(Cover(wheels, sum(prices[teeth] for teeth in wheels), covered, is_proven=True))
    return tuple(sorted(found, key=order_of))


def best_covers(
    options: Sequence[Set[Added]],
    prices: Mapping[int, int],
    most: int,
    *,
    wanted: int = 1,
    effort: int = USUAL_EFFORT,
    seconds: Callable[[], int | None] = lambda: None,
) -> tuple[Cover, ...]:
    """Find the best choice of wheels, and others that cover as many leads at the same price with as many wheels.

    Parameters
    ----------
    options : sequence of set of tuple of int
        For each lead, the choices of wheels that unlock it.
    prices : mapping of int to int
        Whole units for one wheel, by its teeth.
    most : int
        Wheels at the most.
    wanted : int, optional
        How many choices to return.
    effort : int, optional
        Most deterministic time of each solving. [s]
    seconds : callable, optional
        Whole seconds left by the clock, asked before each solving; without one the effort alone bounds it.

    Returns
    -------
    tuple of Cover
        Best first; when effort or time runs out, what was found, not proven.

    Examples
    --------
    >>> options = [{(63,), (127,)}, {(127,), (21, 37)}, {(37,)}]
    >>> [cover.wheels for cover in best_covers(options, dict.fromkeys((21, 37, 63, 127), 1), 3, wanted=2)]
    [(37, 127)]
    >>> best_covers(options, {21: 1, 37: 1, 63: 1, 127: 9}, 3)[0].wheels
    (21, 37, 63)
    """
    stated = _Statement(options, prices, most, seconds)
    found: list[Cover] = []
    for cover in stated.in_order(effort):
        found.append(cover)
        if len(found) == wanted or not cover.is_proven:
            break
    return tuple(found)


class _Statement:
    """The variables and rules: wheels taken, options whole, leads covered."""

    def __init__(
        self,
        options: Sequence[Set[Added]],
        prices: Mapping[int, int],
        most: int,
        seconds: Callable[[], int | None],
    ) -> None:
        self._seconds = seconds
        self._options = options
        self._prices = prices
        self._most = most
        self._model: Model = new_model()
        #: Teeth and which of several alike, to: this wheel is taken.
        self._taken: dict[tuple[int, int], Variable] = {}
        self._whole: dict[Added, Variable] = {}
        self._covered = [self._cover_of(choices) for choices in options]
        self._model.add(sum(self._taken.values()) <= most)
        for (teeth, copy), taken in self._taken.items():
            if copy > 1:
                self._model.add_implication(taken, self._taken[teeth, copy - 1])

    def _cover_of(self, choices: Iterable[Added]) -> Variable:
        covered = self._model.new_bool_var("")
        wholes = [self._whole_of(option) for option in sorted(choices) if len(option) <= self._most]
        self._model.add_bool_or(*wholes, covered.negated())
        return covered

    def _whole_of(self, option: Added) -> Variable:
        """Say that all wheels of an option are taken; the same variable for every lead."""
        if option not in self._whole:
            wheels = [self._wheel(teeth, len(list(alike))) for teeth, alike in groupby(option)]
            if len(wheels) > 1:
                whole = self._model.new_bool_var("")
                for wheel in wheels:
                    self._model.add_implication(whole, wheel)
                self._whole[option] = whole
            else:
                self._whole[option] = wheels[0]
        return self._whole[option]

    def _wheel(self, teeth: int, copies: int) -> Variable:
        """Return the variable of the last of so many wheels alike."""
        for copy in range(1, copies + 1):
            if (teeth, copy) not in self._taken:
                self._taken[teeth, copy] = self._model.new_bool_var("")
        return self._taken[teeth, copies]

    def in_order(self, effort: int) -> Iterator[Cover]:
        """Yield choices of wheels by the order of this file, each as good as the first in leads, price and count."""
        dearest = max((self._prices[teeth] for teeth, _ in self._taken), default=0)
        price_step = _MOST_TEETH * (self._most + 1)
        lead_step = price_step * (self._most * dearest + 1)
        _hold(lead_step * (len(self._covered) + 1))
        weights = {key: price_step * self._prices[key[0]] + _MOST_TEETH + key[0] for key in self._taken}
        aim = sum(weights[key] * taken for key, taken in self._taken.items()) - lead_step * sum(self._covered)
        first: Cover | None = None
        while True:
            self._model.minimize(aim)
            outcome = solve(self._model, effort=effort, seconds=self._seconds())
            if not outcome.has_values:
                return
            cover = self._read(outcome)
            if first is None:
                first = cover
                self._keep_as_good_as(cover)
            if len(cover.wheels) > 1 and cover.is_proven:
                cover = self._least_of_alike(cover, effort)
            yield cover
            self._forbid(cover)

    def _read(self, outcome: Outcome) -> Cover:
        wheels = tuple(sorted(teeth for (teeth, _), taken in self._taken.items() if outcome.is_true(taken)))
        covered = tuple(any(holds(wheels, option) for option in choices) for choices in self._options)
        return Cover(wheels, sum(self._prices[teeth] for teeth in wheels), covered, outcome.certainty is Certainty.BEST)

    def _keep_as_good_as(self, cover: Cover) -> None:
        """Look from here on only at choices that cover as many leads, at the price, with as many wheels."""
        self._model.add(sum(self._covered) >= sum(cover.covered))
        self._model.add(sum(self._prices[teeth] * taken for (teeth, _), taken in self._taken.items()) <= cover.price)
        self._model.add(sum(self._taken.values()) == len(cover.wheels))

    def _least_of_alike(self, cover: Cover, effort: int) -> Cover:
        """Among choices alike in the sum of teeth, go on to squares, cubes and higher powers."""
        alike = self._model.clone()
        for power in range(1, len(cover.wheels) + 1):
            summed = sum(teeth**power * taken for (teeth, _), taken in self._taken.items())
            if power > 1:
                alike.minimize(summed)
                outcome = solve(alike, effort=effort, seconds=self._seconds())
                if not outcome.has_values:
                    return cover._replace(is_proven=False)
                cover = self._read(outcome)
            alike.add(summed == sum(teeth**power for teeth in cover.wheels))
        return cover

    def _forbid(self, cover: Cover) -> None:
        """Leave out exactly this choice; all that are left have as many wheels."""
        taken = [self._taken[teeth, copy] for teeth, copy in _copies(cover.wheels)]
        self._model.add(sum(taken) <= len(taken) - 1)


def _copies(wheels: Added) -> Iterator[tuple[int, int]]:
    for teeth, alike in groupby(wheels):
        yield from ((teeth, copy) for copy, _ in enumerate(alike, start=1))


def _hold(number: int) -> None:
    if number >= 2**62:
        message = f"the aim of the model would need {number}, which is not below 2**62"
        raise ValueError(message)
