"""The fewest wheels handled at one machine, proven by walking over everything that can stand on it.

A set-up is a set of wheels at their places. Between two set-ups of a and b the wheels they do not share are handled, so
the way from one to the other leads down to what they share and up again, one wheel a step. The walk goes over these
sets, one wheel handled at each step, and keeps for every set all the groups of tasks that can be done by then::

    20-40-50-127  ->  20-40-( )-127  ->  20-40-60-127      two steps, two wheels

A group of tasks is a number below 2**n, and all the groups known at a set are the bits of one whole number, so that a
step forward from a set is one operation for all of them. Nothing is left out: the first step at which all tasks are
done is the least there is, and a walk from the far end tells what the cheapest plan through any one way costs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from solver.jobs.rounds import Arc, Round
from solver.jobs.tasks import Way, wheels_between
from solver.trains.changes import Standing

#: Largest walk, in bits: sets that can stand, times groups of tasks.
LARGEST_WALK = 2**30
#: Most ways that are joined by steps; there are about as many steps as the square of it.
LARGEST_ROUND = 400


class Reached(NamedTuple):
    """How far a walk came.

    Parameters
    ----------
    least : int or None
        Fewest wheels handled until all tasks are done; ``None`` when the walk was stopped before.
    proven : int
        No plan handles fewer.
    """

    least: int | None
    proven: int


#: For each set: the step at which groups were first done there, and these groups.
_Log = list[list[tuple[int, int]]]


class _Gone(NamedTuple):
    """A walk: how far it came, its log, and whether it went as far as it was sent."""

    reached: Reached
    log: _Log
    is_whole: bool


class Walk:
    """The sets that can stand on one machine, and which tasks each of them does.

    Parameters
    ----------
    tasks : sequence of tuple of Way
        The ways of each task.
    before : sequence of frozenset of int
        For each task the tasks that come before it.
    start : frozenset of Standing
        What stands there to begin with.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.trains.changes import standing
    >>> from solver.trains.written_trains import read_train
    >>> one, other = (Way(standing(read_train(each)), Fraction(0), 0) for each in ("20-40-50-127", "20-40-60-127"))
    >>> Walk([(one,), (other,)], [frozenset(), frozenset()], frozenset()).least()
    Reached(least=6, proven=6)
    """

    def __init__(self, tasks: list[tuple[Way, ...]], before: list[frozenset[int]], start: frozenset[Standing]) -> None:
        self._tasks = tasks
        self._before = before
        self._number: dict[frozenset[Standing], int] = {}
        self._sets: list[frozenset[Standing]] = []
        self._beside: list[list[int]] = []
        self._does: list[list[int]] = []
        self._start = self._numbered(start)
        for task, ways in enumerate(tasks):
            for way in ways:
                self._does[self._numbered(way.wheels)].append(task)
        self._groups = 1 << len(tasks)
        #: The walk of ``least``, for ``through`` to go on with.
        self._gone: _Gone | None = None
        #: Bits of the groups that do not hold a task yet.
        self._without = [_without(task, self._groups) for task in range(len(tasks))]

    @staticmethod
    def size(tasks: list[tuple[Way, ...]]) -> int:
        """Return at most how many bits a walk would keep, without making it.

        Examples
        --------
        >>> from fractions import Fraction
        >>> Walk.size([(Way(frozenset(), Fraction(0), 0),)])
        2
        """
        sets = sum(1 << len(wheels) for wheels in {way.wheels for ways in tasks for way in ways})
        return sets << len(tasks)

    def _numbered(self, wheels: frozenset[Standing]) -> int:
        """Give a set its number; a new one is joined to those of one wheel less, down to the bare machine."""
        known = self._number.get(wheels)
        if known is not None:
            return known
        number = self._number[wheels] = len(self._beside)
        self._sets.append(wheels)
        self._beside.append([])
        self._does.append([])
        for wheel in sorted(wheels):
            below = self._numbered(wheels - {wheel})
            self._beside[number].append(below)
            self._beside[below].append(number)
        return number

    def least(self, is_over: Callable[[], bool] = lambda: False) -> Reached:
        """Find the fewest wheels handled until all tasks are done.

        Parameters
        ----------
        is_over : callable, optional
            Asked at each step; the walk stops when it says so.

        Examples
        --------
        >>> Walk([], [], frozenset()).least()
        Reached(least=0, proven=0)
        """
        self._gone = self._forward([self._start], self._before, None, is_over)
        return self._gone.reached

    def trace(self) -> tuple[tuple[int, Way], ...]:
        """Follow one cheapest plan back from its end, after ``least`` has found it.

        Returns
        -------
        tuple of (int, Way)
            The tasks in order with their ways; nothing where no walk came to an end.

        Examples
        --------
        >>> from fractions import Fraction
        >>> from solver.trains.changes import standing
        >>> from solver.trains.written_trains import read_train
        >>> one, other = (Way(standing(read_train(each)), Fraction(0), 0) for each in ("20-40", "20-40-60-127"))
        >>> walk = Walk([(other,), (one,)], [frozenset(), frozenset()], frozenset())
        >>> walk.least().least, [task for task, _ in walk.trace()]
        (6, [1, 0])
        """
        if self._gone is None or self._gone.reached.least is None or not self._tasks:
            return ()
        log, group = self._gone.log, self._groups - 1
        sets = [at for at, tasks in enumerate(self._does) if tasks]
        ends = [self._finished(at, group, self._gone.reached.least, log) for at in sets]
        plan: list[tuple[int, Way]] = []
        while group:
            steps, at, task = min(end for end in ends if end is not None)
            plan.append((task, self._way_at(task, at)))
            group -= 1 << task
            # The group before came from the nearest set that finished it in time.
            within = [(each, steps - wheels_between(self._sets[each], self._sets[at])) for each in sets]
            ends = [self._finished(each, group, left, log) for each, left in within]
        return tuple(reversed(plan))

    def _finished(self, at: int, group: int, steps: int, log: _Log) -> tuple[int, int, int] | None:
        """Say at which step, within so many, a set itself did the last task of a group; with the set and the task."""
        for step, groups in log[at]:
            if step <= steps and groups >> group & 1:
                task = self._task_done(at, group, step, log)
                return None if task is None else (step, at, task)
        return None

    def _task_done(self, at: int, group: int, steps: int, log: _Log) -> int | None:
        """Find a task of a group that a set can have done last, the rest being done within so many steps."""
        for task in self._does[at]:
            rest = group - (1 << task)
            if group >> task & 1 and self._allowed(task, self._before[task]) >> rest & 1:
                if any(step <= steps and groups >> rest & 1 for step, groups in log[at]):
                    return task
                if not rest and len(self._sets[at] ^ self._sets[self._start]) <= steps:
                    return task
        return None

    def _way_at(self, task: int, at: int) -> Way:
        return next(way for way in self._tasks[task] if self._number[way.wheels] == at)

    def through(self, most: int, is_over: Callable[[], bool] = lambda: False) -> Round | None:
        """Keep the ways, and the steps from one to the next, that some plan of at most so many wheels takes.

        Parameters
        ----------
        most : int
            Wheels handled.
        is_over : callable, optional
            As for ``least``.

        Returns
        -------
        Round or None
            Nothing is lacking in it, or it says so. Where tasks wait for one another, or one set does several of them,
            some step may be one that no such plan takes. ``None`` when it was stopped.

        Examples
        --------
        >>> from fractions import Fraction
        >>> from solver.trains.changes import standing
        >>> from solver.trains.written_trains import read_train
        >>> trains = enumerate(("20-40", "20-30-50-60"))
        >>> ways = tuple(Way(standing(read_train(each)), Fraction(0), at) for at, each in trains)
        >>> walk = Walk([ways], [frozenset()], frozenset())
        >>> [len(walk.through(most).ways[0]) for most in (2, 3, 4)]
        [1, 1, 2]
        """
        gone = self._gone
        if gone is None or gone.reached.least != most:
            gone = self._forward([self._start], self._before, most, is_over)
        after = [
            frozenset(later for later, before in enumerate(self._before) if task in before)
            for task in range(len(self._tasks))
        ]
        back = self._forward(range(len(self._beside)), after, most, is_over)
        if not (gone.is_whole and back.is_whole):
            return None
        there = gone.log
        #: For each set what is left to be done after it, where the walk back tells what was done.
        left = [[(step, self._turned(groups)) for step, groups in log] for log in back.log]
        ways = [
            tuple(way for way in of_task if self._passes(task, self._number[way.wheels], there, left, most))
            for task, of_task in enumerate(self._tasks)
        ]
        ways, is_whole = self._fewer(ways)
        arcs: list[Arc] = []
        for steps in self._arcs(ways, there, left, most):
            if is_over():
                return None
            arcs += steps
        return Round(tuple(ways), tuple(arcs), is_whole)

    def _fewer(self, ways: list[tuple[Way, ...]]) -> tuple[list[tuple[Way, ...]], bool]:
        """Where steps between so many ways would be too many, keep those of least error and a cheapest plan's."""
        if sum(map(len, ways)) <= LARGEST_ROUND:
            return ways, True
        most = LARGEST_ROUND // len(ways)
        traced = dict(self.trace())
        kept = []
        for task, of_task in enumerate(ways):
            first = sorted(of_task, key=lambda way: (way.error, way.rank))[:most]
            kept.append(tuple(dict.fromkeys([*first, *([traced[task]] if task in traced else [])])))
        return kept, False

    def _turned(self, groups: int) -> int:
        """Turn groups into what is left of all tasks beside each: the highest bit becomes the lowest."""
        return int(format(groups, f"0{self._groups}b")[::-1], 2)

    def _passes(self, task: int, at: int, there: _Log, left: _Log, most: int) -> bool:
        """Say whether some plan of at most so many wheels does a task at a set."""
        without = self._without[task]
        return any(
            # Both walks have just done the task: what is left beside the one lacks it, the other holds it.
            groups & ~without & ((rest & without) << (1 << task))
            for step, groups in there[at]
            for step_back, rest in left[at]
            if step + step_back <= most
        )

    def _arcs(self, ways: list[tuple[Way, ...]], there: _Log, left: _Log, most: int) -> Iterator[list[Arc]]:
        """Yield for each way the steps that lead to it from the start, and from it on, in such a plan."""
        nodes = [
            ((task, number), way.wheels, self._number[way.wheels])
            for task, of_task in enumerate(ways)
            for number, way in enumerate(of_task)
        ]
        start = self._sets[self._start]
        done = 1 << (self._groups - 1)
        for node, wheels, at in nodes:
            arcs = []
            handled = wheels_between(start, wheels)
            if any(rest & 1 and handled + step <= most for step, rest in left[at]):
                arcs.append(Arc(None, node, handled))
            if any(groups & done and step <= most for step, groups in there[at]):
                arcs.append(Arc(node, None, 0))
            for other, others, beyond in nodes:
                if other[0] != node[0]:
                    handled = wheels_between(wheels, others)
                    if self._leads(there[at], left[beyond], node[0], other[0], most - handled):
                        arcs.append(Arc(node, other, handled))
            yield arcs

    def _leads(
        self, there: list[tuple[int, int]], left: list[tuple[int, int]], task: int, other: int, most: int
    ) -> bool:
        """Say whether a plan of at most so many other wheels does one task right after the other."""
        if not there or not left or there[0][0] + left[0][0] > most:
            return False
        fit = ~self._without[task] & self._without[other]
        return any(
            groups & rest & fit for step, groups in there for step_back, rest in left if step + step_back <= most
        )

    def _forward(
        self, starts: Iterable[int], before: list[frozenset[int]], most: int | None, is_over: Callable[[], bool]
    ) -> _Gone:
        """Walk until all tasks are done, or for so many steps; log what each set that does a task has done when."""
        allowed = [self._allowed(task, before[task]) for task in range(len(self._tasks))]
        log: _Log = [[] for _ in self._beside]
        front = dict.fromkeys(starts, 1)
        known = [0] * len(self._beside)
        for at in front:
            known[at] = 1
        done, step = 1 << (self._groups - 1), 0
        least: int | None = None
        while True:
            for at in front:
                if self._does[at]:
                    self._work(at, front, known, allowed)
                    log[at].append((step, front[at]))
                if front[at] & done and least is None:
                    least = step
            if (least is not None and most is None) or step == most:
                return _Gone(Reached(least, step if least is None else least), log, is_whole=True)
            if is_over():
                # Everything that this many steps reach was seen, and not all was done.
                return _Gone(Reached(least, step + 1 if least is None else least), log, is_whole=False)
            front = self._step(front, known)
            step += 1

    def _work(self, at: int, front: dict[int, int], known: list[int], allowed: list[int]) -> None:
        """Do at a set all the tasks it does, in every order that is allowed."""
        is_more = True
        while is_more:
            is_more = False
            for task in self._does[at]:
                new = ((front[at] & allowed[task]) << (1 << task)) & ~known[at]
                if new:
                    known[at] |= new
                    front[at] |= new
                    is_more = True

    def _step(self, front: dict[int, int], known: list[int]) -> dict[int, int]:
        """Handle one wheel: carry the groups of each set to those beside it, where they are new."""
        further: dict[int, int] = {}
        for at, groups in front.items():
            for beside in self._beside[at]:
                new = groups & ~known[beside]
                if new:
                    further[beside] = further.get(beside, 0) | new
        for at, groups in further.items():
            known[at] |= groups
        return further

    def _allowed(self, task: int, before: frozenset[int]) -> int:
        """Give the groups to which a task may be added: without it, and with all that comes before it."""
        groups = self._without[task]
        for earlier in before:
            groups &= ~self._without[earlier]
        return groups


def _without(task: int, groups: int) -> int:
    """Give the bits of the groups below ``groups`` that do not hold a task."""
    block = (1 << (1 << task)) - 1
    wide = 2 << task
    bits = block
    while wide < groups:
        bits |= bits << wide
        wide *= 2
    return bits
