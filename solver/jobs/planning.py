"""The plan of a sitting: fewest wheels handled, with a proof where one is reached, else with the gap that is left.

1. Each machine is walked by itself (``walk``): its least, and the ways and steps of every plan of so many wheels.
2. The constraint model (``plan_model``) puts the machines together: the order that the tasks ask of one another, the
   one box, the faces of the plate, the error.
3. A plan as good as the machines by themselves is proven. Where they stand in each other's way it costs more, say s;
   then the ways of every plan of at most s more are let in, and the model proves the best of all.

The best way of each task in the order of the file is the plan to begin from. Where it handles no more than the machines
by themselves, and nothing could be more exact, it is the answer; a plan cut short is never worse.

A sitting too large to be walked is planned piece by piece, and only a bound is proven: that of the fewest wheels
between any two tasks.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from solver.jobs.constraint_solver import load
from solver.jobs.handling import Choice, Handling, carried_out, face_changes
from solver.jobs.mending import in_file_order, more_exact, nothing_is_better, worth
from solver.jobs.pieces import bound_by_pairs, in_pieces, merged
from solver.jobs.plan_model import best_plan
from solver.jobs.tasks import Machine, Sitting
from solver.jobs.walk import LARGEST_WALK, Walk

#: Seconds left where nobody counts them.
_PLENTY = 3600


class Plan(NamedTuple):
    """The order of the tasks with the way of each.

    Parameters
    ----------
    choices : tuple of Choice
        In the order of the work.
    handling : tuple of Handling
        What comes off and goes on before each.
    handled : int
        Wheels taken off and put on in all.
    bound : int
        No plan handles fewer; equal to ``handled`` where the plan is proven.
    faces : int
        Faces of the plate put on.
    ties_settled : bool
        Among the plans of as many wheels none puts on fewer faces, nor errs less with as few.
    """

    choices: tuple[Choice, ...]
    handling: tuple[Handling, ...]
    handled: int
    bound: int
    faces: int
    ties_settled: bool

    @property
    def is_proven(self) -> bool:
        """True when no plan handles fewer wheels.

        Examples
        --------
        >>> Plan((), (), 4, 2, 0, True).is_proven
        False
        """
        return self.handled == self.bound


#: Told as the work goes on: what is done, and a figure.
Tell = Callable[[str, int], None]


def plan(
    sitting: Sitting, *, seconds: Callable[[], int] = lambda: _PLENTY, tell: Tell = lambda _what, _figure: None
) -> Plan:
    """Order the tasks of a sitting and choose their ways so that fewest wheels are handled.

    Parameters
    ----------
    sitting : Sitting
        Every task has one way at least.
    seconds : callable, optional
        Whole seconds left; at zero the best known is returned.
    tell : callable, optional
        Told what is being done: ``walked`` with the least of a machine, ``loading`` and ``loaded`` about the constraint
        solver, ``joining`` with the wheels let in, ``pieces``.

    Returns
    -------
    Plan
        Proven, or with its bound.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.jobs.tasks import Task, Way
    >>> from solver.trains.changes import standing
    >>> from solver.trains.written_trains import read_train
    >>> ways = [Way(standing(read_train(each)), Fraction(0), 0) for each in ("20-40", "30-50-20-60", "20-50")]
    >>> found = plan(Sitting(tuple(Task(Machine.LATHE, (way,)) for way in ways)))
    >>> [choice.task for choice in found.choices], found.handled, found.is_proven
    ([0, 2, 1], 10, True)
    """
    walks = {machine: _walk_of(sitting, machine) for machine in Machine}
    reached = {machine: walk.least(lambda: seconds() <= 0) for machine, walk in walks.items() if walk is not None}
    least = {machine: found.least for machine, found in reached.items() if found.least is not None}
    plain = in_file_order(sitting)
    if len(least) == len(Machine):
        together = sum(least.values())
        tell("walked", together)
        if nothing_is_better(sitting, plain, together):
            return _told(sitting, plain, together, ties_settled=True)
        _load_solver(tell)
        joined = _joined(sitting, walks, least, seconds, tell, plain)
        if joined is not None and joined.ties_settled:
            return _told(sitting, joined.choices, joined.bound, ties_settled=True)
        if joined is not None:
            return _mended(sitting, (joined.choices, plain), joined.bound, seconds)
        # There was no time to join the machines: each by its own cheapest plan, if that makes an order.
        traced = [
            [Choice(sitting.numbers_at(machine)[task], way) for task, way in walk.trace()]
            for machine, walk in walks.items()
            if walk is not None
        ]
        choices = merged(sitting, traced)
        if choices is not None:
            return _mended(sitting, (choices, plain), together, seconds)
    _load_solver(tell)
    tell("pieces", len(sitting.tasks))
    choices = in_pieces(sitting, seconds)
    bound = sum(
        reached[machine].proven if machine in reached else bound_by_pairs(sitting, machine, seconds)
        for machine in Machine
    )
    return _mended(sitting, (choices, plain), bound, seconds)


def _load_solver(tell: Tell) -> None:
    """Load the constraint solver, and tell when: it takes long on some machines, and is no part of the search."""
    tell("loading", 0)
    load()
    tell("loaded", 0)


def _mended(sitting: Sitting, plans: Sequence[Sequence[Choice]], bound: int, seconds: Callable[[], int]) -> Plan:
    """Make plans that are not settled more exact, and give the best of them."""
    nearer = [more_exact(sitting, choices, lambda: seconds() <= 0) for choices in plans]
    return _told(sitting, min(nearer, key=lambda each: worth(sitting, each)), bound, ties_settled=False)


def _told(sitting: Sitting, choices: tuple[Choice, ...], bound: int, *, ties_settled: bool) -> Plan:
    handling = carried_out(sitting, choices)
    handled = sum(row.wheels for row in handling)
    if handled < bound:
        message = f"{handled} wheels were counted where {bound} were proven the least"
        raise AssertionError(message)
    return Plan(choices, handling, handled, bound, face_changes(handling), ties_settled)


class _Joined(NamedTuple):
    """A plan out of the walked rounds, with the bound over all plans."""

    choices: tuple[Choice, ...]
    bound: int
    ties_settled: bool


def _joined(
    sitting: Sitting,
    walks: dict[Machine, Walk | None],
    least: dict[Machine, int],
    seconds: Callable[[], int],
    tell: Tell,
    plain: tuple[Choice, ...],
) -> _Joined | None:
    """Put the machines together, letting in more ways until what is found is no dearer than what was let in."""
    together, more = sum(least.values()), 0
    best: _Joined | None = None
    while True:
        tell("joining", together + more)
        rounds = {}
        for machine, walk in walks.items():
            let_in = walk.through(least[machine] + more, lambda: seconds() <= 0) if walk else None
            if let_in is None:
                return best
            rounds[machine] = let_in
        found = best_plan(sitting, rounds=rounds, least=least, seconds=seconds, known=best.choices if best else plain)
        if not all(each.is_whole for each in rounds.values()):
            # Too many ways to join them all: only the machines by themselves tell how few wheels there might be.
            return best if found is None else _Joined(found.choices, together, ties_settled=False)
        if found is not None:
            # Whatever was not let in handles more than what was.
            best = _Joined(found.choices, min(found.bound, together + more + 1), found.ties_settled)
            if found.handled <= together + more:
                return best
            more = found.handled - together
        else:
            # No order of these steps suits both machines, or the time is over.
            more += 2
        if seconds() <= 0:
            return best


def _walk_of(sitting: Sitting, machine: Machine) -> Walk | None:
    """Make the walk of one machine, if it is not too large."""
    numbers = sitting.numbers_at(machine)
    ways = [sitting.tasks[number].ways for number in numbers]
    if Walk.size(ways) > LARGEST_WALK:
        return None
    earlier = sitting.all_before()
    before = [frozenset(at for at, each in enumerate(numbers) if each in earlier[number]) for number in numbers]
    return Walk(ways, before, sitting.start_at(machine))
