"""The round of one machine as a graph: its ways are the points, and each step from one to the next has its wheels."""

from __future__ import annotations

from typing import NamedTuple

from solver.jobs.tasks import Machine, Sitting, Way, wheels_between

#: A way by the number of its task and its own number within that task.
Node = tuple[int, int]


class Arc(NamedTuple):
    """A step from way to way; ``None`` is the start, or the end.

    Parameters
    ----------
    leaves, enters : (int, int) or None
        The two ways.
    wheels : int
        Wheels taken off and put on.
    """

    leaves: Node | None
    enters: Node | None
    wheels: int


class Round(NamedTuple):
    """What may be chosen at one machine.

    Parameters
    ----------
    ways : tuple of tuple of Way
        For each task of the machine.
    arcs : tuple of Arc
        Tasks are counted among those of the machine.
    is_whole : bool
        Nothing was left out that might have been chosen.
    """

    ways: tuple[tuple[Way, ...], ...]
    arcs: tuple[Arc, ...]
    is_whole: bool = True


def whole_round(sitting: Sitting, machine: Machine) -> Round:
    """Join every way of a machine with every other.

    Parameters
    ----------
    sitting : Sitting
        The tasks.
    machine : Machine
        Whose tasks.

    Returns
    -------
    Round
        With as many steps as the square of the ways.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.jobs.tasks import Task
    >>> task = Task(Machine.HEAD, (Way(frozenset(), Fraction(0), 0),))
    >>> whole_round(Sitting((task, task)), Machine.HEAD).arcs[:2]
    (Arc(leaves=None, enters=(0, 0), wheels=0), Arc(leaves=(0, 0), enters=None, wheels=0))
    """
    ways = tuple(sitting.tasks[number].ways for number in sitting.numbers_at(machine))
    nodes = [((task, at), way.wheels) for task, of_task in enumerate(ways) for at, way in enumerate(of_task)]
    start = sitting.start_at(machine)
    arcs = []
    for node, wheels in nodes:
        arcs += [Arc(None, node, wheels_between(start, wheels)), Arc(node, None, 0)]
        arcs += [Arc(node, other, wheels_between(wheels, there)) for other, there in nodes if other[0] != node[0]]
    return Round(ways, tuple(arcs))
