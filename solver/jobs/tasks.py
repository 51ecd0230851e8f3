"""What a sitting consists of: tasks, the ways each can be set up, and what stands on lathe and head for each way.

A way is known by the wheels it needs at their places. Two ways that follow one another on one machine cost the wheels
that they do not share, each taken off or put on once; a wheel that stays where it is costs nothing.
"""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from typing import NamedTuple

from solver.trains.changes import Standing

#: An index plate by its name, and the face that is turned outward, from 1.
Face = tuple[str, int]


class Machine(Enum):
    """Where a task is done."""

    LATHE = "lathe"
    HEAD = "head"


class Way(NamedTuple):
    """One set-up that does a task.

    Parameters
    ----------
    wheels : frozenset of Standing
        What stands on the machine, and nothing else with it.
    error : Fraction
        Size of its error, for ties: a part of the lead, or of a turn.
    rank : int
        Its place among the ways of the task as they were found, mildest first; closes every tie.
    face : (str, int) or None
        Face of the index plate it needs; ``None`` where any will do.
    """

    wheels: frozenset[Standing]
    error: Fraction
    rank: int
    face: Face | None = None


class Task(NamedTuple):
    """Something to be done at one machine.

    Parameters
    ----------
    machine : Machine
        Where.
    ways : tuple of Way
        Every admissible way, none alike in wheels and face.
    after : frozenset of int
        Tasks that come before it.
    """

    machine: Machine
    ways: tuple[Way, ...]
    after: frozenset[int] = frozenset()


class Sitting(NamedTuple):
    """The tasks of one sitting, and how the machines are found.

    Parameters
    ----------
    tasks : tuple of Task
        In the order of the file.
    mounted : frozenset of Standing
        What stands on the banjo to begin with; the head begins bare.
    shared : tuple of (int, int) or None
        Teeth and counts of the one box that lathe and head share; ``None`` where each has its own.
    """

    tasks: tuple[Task, ...]
    mounted: frozenset[Standing] = frozenset()
    shared: tuple[tuple[int, int], ...] | None = None

    def numbers_at(self, machine: Machine) -> tuple[int, ...]:
        """List the tasks of one machine by number.

        Examples
        --------
        >>> Sitting((Task(Machine.LATHE, ()), Task(Machine.HEAD, ()))).numbers_at(Machine.HEAD)
        (1,)
        """
        return tuple(number for number, task in enumerate(self.tasks) if task.machine is machine)

    def start_at(self, machine: Machine) -> frozenset[Standing]:
        """Return what stands on a machine to begin with.

        Examples
        --------
        >>> Sitting(()).start_at(Machine.LATHE)
        frozenset()
        """
        return self.mounted if machine is Machine.LATHE else frozenset()

    def all_before(self) -> tuple[frozenset[int], ...]:
        """List for each task every task that must come before it, directly or through others.

        Raises
        ------
        ValueError
            The tasks wait for one another in a ring; whoever reads a file says which.

        Examples
        --------
        >>> tasks = (Task(Machine.LATHE, ()), Task(Machine.HEAD, (), frozenset({0})))
        >>> Sitting((*tasks, Task(Machine.LATHE, (), frozenset({1})))).all_before()[2]
        frozenset({0, 1})
        """
        found: dict[int, frozenset[int]] = {}
        waiting = set(range(len(self.tasks)))
        while waiting:
            ready = [number for number in sorted(waiting) if self.tasks[number].after <= found.keys()]
            if not ready:
                message = f"tasks {sorted(waiting)} wait for one another"
                raise ValueError(message)
            for number in ready:
                after = self.tasks[number].after
                found[number] = after.union(*(found[each] for each in after))
                waiting.remove(number)
        return tuple(found[number] for number in range(len(self.tasks)))


def wheels_between(one: frozenset[Standing], other: frozenset[Standing]) -> int:
    """Count the wheels taken off and put on from one set-up to the next.

    Examples
    --------
    >>> from solver.trains.changes import standing
    >>> from solver.trains.written_trains import read_train
    >>> wheels_between(standing(read_train("20-40-50-127")), standing(read_train("20-40-60-127")))
    2
    """
    return len(one ^ other)


def least_alike(ways: tuple[Way, ...]) -> tuple[Way, ...]:
    """Keep one of all the ways that need the same wheels and the same face: the one of least error.

    Whatever plan holds one of the others costs the same with this one and is no less exact, so nothing is lost.

    Examples
    --------
    >>> bare = frozenset()
    >>> [way.rank for way in least_alike((Way(bare, Fraction(1), 0), Way(bare, Fraction(0), 1)))]
    [1]
    """
    best: dict[tuple[frozenset[Standing], Face | None], Way] = {}
    for way in ways:
        key = way.wheels, way.face
        if key not in best or (way.error, way.rank) < (best[key].error, best[key].rank):
            best[key] = way
    return tuple(sorted(best.values(), key=lambda way: way.rank))
