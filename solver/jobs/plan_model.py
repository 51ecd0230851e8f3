"""The order of the tasks and the way of each as a constraint model.

For each machine a round through one way of each of its tasks, from the start to the end; each step handles the wheels
that the two ways do not share. With one box for both machines a wheel that would stay comes off when the other machine
takes it in between, and is handled twice more. Everything is whole numbers.

The objectives are settled one after another: wheels handled, faces of the plate put on, error, and at last the order of
the file, so that the same question gives the same plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from itertools import combinations
from typing import Any, NamedTuple

from solver.jobs.constraint_solver import Certainty, Model, Outcome, Variable, new_model, solve
from solver.jobs.handling import Choice
from solver.jobs.rounds import Arc, Node, Round, whole_round
from solver.jobs.tasks import Machine, Sitting, Way
from solver.trains.changes import Standing

#: Errors are compared in whole parts of this many.
ERROR_PARTS = 10**12
#: More than the sum of all ranks in a plan.
_RANKS = 10**6
#: Most deterministic time for the objectives after the first; the solver's own unit, near a second. [s]
TIE_EFFORT = 10


class Found(NamedTuple):
    """What the constraint solver found.

    Parameters
    ----------
    choices : tuple of Choice
        Tasks in order with their ways.
    handled : int
        Wheels taken off and put on.
    bound : int
        Of the ways it was given no plan handles fewer.
    ties_settled : bool
        The objectives after the first were proven too.
    """

    choices: tuple[Choice, ...]
    handled: int
    bound: int
    ties_settled: bool


def best_plan(
    sitting: Sitting,
    *,
    rounds: Mapping[Machine, Round] | None = None,
    least: Mapping[Machine, int] | None = None,
    seconds: Callable[[], int] = lambda: 60,
    known: Sequence[Choice] = (),
) -> Found | None:
    """Find the plan that handles fewest wheels, then puts on fewest faces, then errs least.

    Parameters
    ----------
    sitting : Sitting
        The tasks.
    rounds : mapping of Machine to Round, optional
        The ways and steps to choose among; every way and every step where left out.
    least : mapping of Machine to int, optional
        Fewest wheels each machine handles, where that was proven before; the solver proves its own where left out.
    seconds : callable, optional
        Whole seconds left.
    known : sequence of Choice, optional
        A plan to begin from.

    Returns
    -------
    Found or None
        ``None`` when the time ran out before any plan was found, or the rounds hold none.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.jobs.tasks import Task
    >>> from solver.trains.changes import standing
    >>> from solver.trains.written_trains import read_train
    >>> ways = [Way(standing(read_train(each)), Fraction(0), 0) for each in ("20-40", "30-50-20-60", "20-50")]
    >>> sitting = Sitting(tuple(Task(Machine.LATHE, (way,)) for way in ways))
    >>> found = best_plan(sitting)
    >>> [choice.task for choice in found.choices], found.handled, found.bound
    ([0, 2, 1], 10, 10)
    """
    if not sitting.tasks:
        return Found((), 0, 0, ties_settled=True)
    given = rounds or {}
    every = {machine: given.get(machine) or whole_round(sitting, machine) for machine in Machine}
    model = _PlanModel(new_model(), sitting, every, least or {})
    model.hint_at(known)
    best: tuple[tuple[Choice, ...], int, int] | None = None
    settled = True
    for number, objective in enumerate(model.objectives()):
        model.model.minimize(objective)
        outcome = solve(model.model, seconds=max(1, seconds()), effort=TIE_EFFORT if number else None)
        if not outcome.has_values:
            settled = False
            break
        is_proven = outcome.certainty is Certainty.BEST
        choices = model.read_back(outcome)
        best = (choices, outcome.value, outcome.bound) if best is None else (choices, *best[1:])
        settled = settled and is_proven
        model.keep(objective, outcome.value, outcome)
    return None if best is None else Found(*best, ties_settled=settled)


def least_round(tasks: int, arcs: Sequence[Arc], seconds: Callable[[], int] = lambda: 60) -> int:
    """Prove a number of wheels that no round through all tasks goes below, whatever their order.

    Parameters
    ----------
    tasks : int
        How many; each is a point of its own, whatever its ways.
    arcs : sequence of Arc
        Steps between them, from the start and to the end.
    seconds : callable, optional
        Whole seconds left.

    Returns
    -------
    int
        The least, or what was proven of it when the time ran out.

    Examples
    --------
    >>> arcs = [Arc(None, (0, 0), 4), Arc((0, 0), (1, 0), 2), Arc((1, 0), None, 0)]
    >>> least_round(2, arcs)
    6
    """
    if not tasks:
        return 0
    model = new_model()
    taken = [(arc, model.new_bool_var("")) for arc in arcs]
    model.add_circuit(
        [(arc.leaves[0] + 1 if arc.leaves else 0, arc.enters[0] + 1 if arc.enters else 0, yes) for arc, yes in taken]
    )
    model.minimize(sum(arc.wheels * yes for arc, yes in taken))
    outcome = solve(model, seconds=max(1, seconds()))
    return max(0, outcome.bound) if outcome.has_values else 0


class _Step(NamedTuple):
    """A step of a round with its tasks counted among all; ``None`` is the start, or the end."""

    taken: Variable
    leaves: int | None
    enters: int | None
    stays: Counter[int]


class _PlanModel:
    """The variables and the rules of one sitting."""

    def __init__(
        self,
        model: Model,
        sitting: Sitting,
        rounds: Mapping[Machine, Round],
        least: Mapping[Machine, int],
    ) -> None:
        self.model = model
        self._sitting = sitting
        self._every: list[Variable] = []
        self._position = [self._whole(len(sitting.tasks) - 1) for _ in sitting.tasks]
        model.add_all_different(self._position)
        self._before: dict[tuple[int, int], Any] = {}
        self._order_in_pairs()
        #: For each task its ways, and whether each is chosen.
        self._ways: dict[int, list[tuple[Way, Variable]]] = {}
        self._steps: dict[Machine, list[_Step]] = {}
        self._handled: list[Any] = []
        for machine, one in rounds.items():
            self._make_round(machine, one, least.get(machine, 0))
        if sitting.shared is not None:
            for machine, other in ((Machine.LATHE, Machine.HEAD), (Machine.HEAD, Machine.LATHE)):
                self._lend(machine, other, dict(sitting.shared))
        self._face_changes = self._turn_faces()

    def _yes(self) -> Variable:
        self._every.append(self.model.new_bool_var(""))
        return self._every[-1]

    def _whole(self, most: int) -> Variable:
        """Make a whole number from zero to ``most``."""
        self._every.append(self.model.new_int_var(0, most, ""))
        return self._every[-1]

    def _order_in_pairs(self) -> None:
        earlier = self._sitting.all_before()
        for second in range(len(self._sitting.tasks)):
            for first in range(second):
                before = self._yes()
                here, there = self._position[first], self._position[second]
                self.model.add(here + 1 <= there).only_enforce_if(before)
                self.model.add(there + 1 <= here).only_enforce_if(before.negated())
                self._before[first, second] = before
                self._before[second, first] = before.negated()
                if first in earlier[second]:
                    self.model.add(before == 1)
                if second in earlier[first]:
                    self.model.add(before == 0)

    def _make_round(self, machine: Machine, one: Round, least: int) -> None:
        """State the round of one machine and what it handles."""
        numbers = self._sitting.numbers_at(machine)
        self._steps[machine] = []
        if not numbers:
            return
        places: dict[Node | None, int] = {None: 0}
        loops = []
        for task, ways in enumerate(one.ways):
            chosen = self._ways[numbers[task]] = [(way, self._yes()) for way in ways]
            self.model.add_exactly_one(yes for _, yes in chosen)
            for at, (_, yes) in enumerate(chosen):
                place = places[task, at] = len(places)
                loops.append((place, place, yes.negated()))
        arcs, handled = [], []
        for arc in one.arcs:
            taken = self._yes()
            handled.append(arc.wheels * taken)
            arcs.append((places[arc.leaves], places[arc.enters], taken))
            leaves, enters = (None if node is None else numbers[node[0]] for node in (arc.leaves, arc.enters))
            if leaves is not None and enters is not None:
                self.model.add_implication(taken, self._before[leaves, enters])
            self._steps[machine].append(_Step(taken, leaves, enters, self._stays(machine, one, arc)))
        self.model.add_circuit(arcs + loops)
        self._handled.append(sum(handled))
        self.model.add(sum(handled) >= least)

    def _stays(self, machine: Machine, one: Round, arc: Arc) -> Counter[int]:
        """Count by teeth the wheels of the first class that stand all the way along a step."""
        before, after = (
            None if node is None else one.ways[node[0]][node[1]].wheels for node in (arc.leaves, arc.enters)
        )
        wheels = self._sitting.start_at(machine) if before is None else before
        return _by_teeth(wheels if after is None else wheels & after)

    def _lend(self, machine: Machine, other: Machine, box: dict[int, int]) -> None:
        """Take a wheel off that would stay, where the other machine takes it in between or after the last task."""
        takers = [
            (number, teeth) for number in self._sitting.numbers_at(other) for teeth in box if self._uses(number, teeth)
        ]
        lent: dict[tuple[int | None, int], Variable] = {}
        for step in self._steps[machine]:
            for taker, teeth in takers:
                if not step.stays[teeth]:
                    continue
                key = step.enters, teeth
                if key not in lent:
                    lent[key] = self._whole(box[teeth])
                between = [step.taken]
                between += [] if step.leaves is None else [self._before[step.leaves, taker]]
                between += [] if step.enters is None else [self._before[taker, step.enters]]
                wanted = sum(count * yes for count, yes in self._uses(taker, teeth))
                self.model.add(lent[key] >= step.stays[teeth] + wanted - box[teeth]).only_enforce_if(between)
        if not self._steps[machine]:
            stood = _by_teeth(self._sitting.start_at(machine))
            for taker, teeth in takers:
                if stood[teeth]:
                    key = None, teeth
                    lent.setdefault(key, self._whole(box[teeth]))
                    wanted = sum(count * yes for count, yes in self._uses(taker, teeth))
                    self.model.add(lent[key] >= stood[teeth] + wanted - box[teeth])
        # What would have stayed goes off and on again; after the last task it only goes off.
        self._handled += [(1 if enters is None else 2) * count for (enters, _), count in lent.items()]

    def _uses(self, number: int, teeth: int) -> list[tuple[int, Variable]]:
        """List for the ways of a task how many wheels of so many teeth each takes, where it takes any."""
        counted = ((_by_teeth(way.wheels)[teeth], yes) for way, yes in self._ways[number])
        return [(count, yes) for count, yes in counted if count]

    def _turn_faces(self) -> list[Variable]:
        """State which face is outward after each task of the head, and whether it had to be put on."""
        numbers = self._sitting.numbers_at(Machine.HEAD)
        wanted = sorted({way.face for number in numbers for way, _ in self._ways[number] if way.face is not None})
        faces = {face: at for at, face in enumerate(wanted, start=1)}
        outward = {number: self._whole(len(faces)) for number in numbers}
        changes = {number: self._yes() for number in numbers}
        for number in numbers:
            for way, yes in self._ways[number]:
                if way.face is None:
                    self.model.add_implication(yes, changes[number].negated())
                else:
                    self.model.add(outward[number] == faces[way.face]).only_enforce_if(yes)
        for step in self._steps[Machine.HEAD]:
            if step.enters is not None:
                there = 0 if step.leaves is None else outward[step.leaves]
                same = self.model.add(outward[step.enters] == there)
                same.only_enforce_if([step.taken, changes[step.enters].negated()])
        return list(changes.values())

    def hint_at(self, choices: Sequence[Choice]) -> None:
        """Begin the search near a plan that is known."""
        for position, (number, way) in enumerate(choices):
            self.model.add_hint(self._position[number], position)
            for each, yes in self._ways[number]:
                self.model.add_hint(yes, int(each == way))

    def objectives(self) -> list[Any]:
        """List what is made least, the first first."""
        pairs = [pair for number in sorted(self._ways) for pair in self._ways[number]]
        error = sum(int(way.error * ERROR_PARTS) * yes for way, yes in pairs)
        turned_round = sum(self._before[second, first] for first, second in combinations(range(len(self._ways)), 2))
        order = _RANKS * turned_round + sum(way.rank * yes for way, yes in pairs)
        return [sum(self._handled), sum(self._face_changes), error, order]

    def keep(self, objective: Any, value: int, outcome: Outcome) -> None:  # noqa: ANN401 - a linear expression.
        """Hold an objective at what was reached, and begin the next search from there."""
        if not isinstance(objective, int):
            self.model.add(objective <= value)
        self.model.clear_hints()
        for variable in self._every:
            self.model.add_hint(variable, outcome.solver.value(variable))

    def read_back(self, outcome: Outcome) -> tuple[Choice, ...]:
        """Rebuild the plan that the solver chose."""
        order = sorted(range(len(self._position)), key=lambda number: outcome.solver.value(self._position[number]))
        return tuple(Choice(number, way) for number in order for way, yes in self._ways[number] if outcome.is_true(yes))


def _by_teeth(wheels: frozenset[Standing]) -> Counter[int]:
    return Counter(each.teeth for each in wheels if each.wheel_class == 0)
