"""A plan carried out: which wheels come off and go on at each task, and which face of the plate is put outward."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from solver.jobs.tasks import Face, Machine, Sitting, Way
from solver.trains.changes import Standing


class Choice(NamedTuple):
    """A task by its number, and the way it is done."""

    task: int
    way: Way


class Handling(NamedTuple):
    """What is handled before one task.

    Parameters
    ----------
    off, on : tuple of Standing
        Wheels taken off and put on at the machine of the task, spindle side first.
    lent : tuple of Standing
        Wheels taken off the other machine because this one wants them.
    face : (str, int) or None
        Face of the plate that has to be put on; ``None`` where nothing changes.
    """

    off: tuple[Standing, ...]
    on: tuple[Standing, ...]
    lent: tuple[Standing, ...]
    face: Face | None

    @property
    def wheels(self) -> int:
        """How many wheels are taken off and put on.

        Examples
        --------
        >>> Handling((), (Standing(0, "stud gear", 0, 20),), (), None).wheels
        1
        """
        return len(self.off) + len(self.on) + len(self.lent)


def carried_out(sitting: Sitting, choices: Sequence[Choice]) -> tuple[Handling, ...]:
    """Carry a plan out and say what is handled before each task.

    Of the wheels that one machine must lend the other, those go first that it does not need at their place next.

    Parameters
    ----------
    sitting : Sitting
        The tasks, what is mounted, and the shared box if there is one.
    choices : sequence of Choice
        In the order of the work.

    Returns
    -------
    tuple of Handling
        One a task.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.jobs.tasks import Task
    >>> from solver.trains.changes import standing
    >>> from solver.trains.written_trains import read_train
    >>> ways = [Way(standing(read_train(each)), Fraction(0), 0) for each in ("20-40-50-127", "20-40-60-127")]
    >>> sitting = Sitting(tuple(Task(Machine.LATHE, (way,)) for way in ways))
    >>> [each.wheels for each in carried_out(sitting, [Choice(0, ways[0]), Choice(1, ways[1])])]
    [4, 2]
    """
    stands = {machine: sitting.start_at(machine) for machine in Machine}
    turned: Face | None = None
    rows = []
    for at, (number, way) in enumerate(choices):
        machine = sitting.tasks[number].machine
        other = Machine.HEAD if machine is Machine.LATHE else Machine.LATHE
        lent: frozenset[Standing] = frozenset()
        if sitting.shared is not None:
            wanted = _next_at(sitting, choices, at, other)
            lent = _lent(way.wheels, stands[other], wanted, dict(sitting.shared))
        off, on = stands[machine] - way.wheels, way.wheels - stands[machine]
        face = way.face if way.face is not None and way.face != turned else None
        rows.append(Handling(tuple(sorted(off)), tuple(sorted(on)), tuple(sorted(lent)), face))
        stands[machine], stands[other] = way.wheels, stands[other] - lent
        turned = way.face or turned
    return tuple(rows)


def _next_at(sitting: Sitting, choices: Sequence[Choice], at: int, machine: Machine) -> frozenset[Standing]:
    """Return what a machine needs at its next task; nothing when it has none."""
    for number, way in choices[at + 1 :]:
        if sitting.tasks[number].machine is machine:
            return way.wheels
    return frozenset()


def _lent(
    needed: frozenset[Standing], there: frozenset[Standing], wanted: frozenset[Standing], box: dict[int, int]
) -> frozenset[Standing]:
    """Choose the wheels of the first class that have to come off the other machine.

    A wheel of a sleeve is in no box: where it is needed, the other machine lends what it has of it.
    """
    needs = Counter(each.teeth for each in needed if each.wheel_class == 0)
    lent: list[Standing] = []
    for teeth, count in sorted(needs.items()):
        held = sorted(
            (each for each in there if each.wheel_class == 0 and each.teeth == teeth),
            key=lambda each: (each in wanted, each),
        )
        lent += held[: max(0, count + len(held) - box.get(teeth, 0))]
    return frozenset(lent)


def face_changes(rows: Sequence[Handling]) -> int:
    """Count how often a face of a plate is put on, the first time with them.

    Examples
    --------
    >>> face_changes([Handling((), (), (), ("A", 1)), Handling((), (), (), None)])
    1
    """
    return sum(row.face is not None for row in rows)
