"""The plan that needs no thought, and a plan made more exact where that costs nothing.

Both stand beside the proof: the first is begun from and never fallen behind, the second gives a plan that was cut short
the least error that is near at hand.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from solver.jobs.handling import Choice, carried_out, face_changes
from solver.jobs.tasks import Sitting, Way, wheels_between

#: What a plan is judged by, the first first: wheels handled, faces put on, sum of the errors.
Worth = tuple[int, int, Fraction]
#: Most ways tried for one task at a time; the first nearly always does, unless the box is short.
MOST_TRIED = 50


def in_file_order(sitting: Sitting) -> tuple[Choice, ...]:
    """Take the best way of each task by itself, in the order of the file as far as the tasks allow.

    Examples
    --------
    >>> from solver.jobs.tasks import Machine, Task
    >>> way = Way(frozenset(), Fraction(0), 0)
    >>> sitting = Sitting((Task(Machine.LATHE, (way,), frozenset({1})), Task(Machine.HEAD, (way,))))
    >>> [choice.task for choice in in_file_order(sitting)]
    [1, 0]
    """
    tasks = sitting.tasks
    chosen: list[Choice] = []
    done: set[int] = set()
    while len(chosen) < len(tasks):
        number = next(at for at, task in enumerate(tasks) if at not in done and task.after <= done)
        done.add(number)
        chosen.append(Choice(number, tasks[number].ways[0]))
    return tuple(chosen)


def worth(sitting: Sitting, choices: Sequence[Choice]) -> Worth:
    """Say what a plan is judged by: wheels handled, faces put on, and its errors; less is better.

    Examples
    --------
    >>> from solver.jobs.tasks import Machine, Task
    >>> sitting = Sitting((Task(Machine.HEAD, (Way(frozenset(), Fraction(1, 9), 0, ("A", 1)),)),))
    >>> worth(sitting, in_file_order(sitting))
    (0, 1, Fraction(1, 9))
    """
    rows = carried_out(sitting, choices)
    return sum(row.wheels for row in rows), face_changes(rows), sum((each.way.error for each in choices), Fraction(0))


def nothing_is_better(sitting: Sitting, choices: Sequence[Choice], least: int) -> bool:
    """Say whether a plan is plainly the best: each task by its best way and in its place, and no wheel too many.

    Then no plan handles fewer wheels, puts on fewer faces, errs less, or is nearer the order of the file.

    Parameters
    ----------
    sitting : Sitting
        The tasks.
    choices : sequence of Choice
        A plan in the order of the work.
    least : int
        No plan handles fewer wheels.

    Examples
    --------
    >>> from solver.jobs.tasks import Machine, Task
    >>> sitting = Sitting((Task(Machine.HEAD, (Way(frozenset(), Fraction(1, 9), 0, ("A", 1)),)),))
    >>> nothing_is_better(sitting, in_file_order(sitting), 0)
    True
    """
    handled, faces, _ = worth(sitting, choices)
    needs_a_face = any(all(way.face is not None for way in task.ways) for task in sitting.tasks)
    return (
        handled == least
        and faces == int(needs_a_face)
        and [choice.task for choice in choices] == list(range(len(sitting.tasks)))
        and all(
            choice.way == min(sitting.tasks[choice.task].ways, key=lambda way: (way.error, way.rank))
            for choice in choices
        )
    )


def more_exact(
    sitting: Sitting, choices: Sequence[Choice], is_over: Callable[[], bool] = lambda: False
) -> tuple[Choice, ...]:
    """Take for one task after another the most exact way that makes the plan no dearer, until none is left to take.

    Parameters
    ----------
    sitting : Sitting
        The tasks.
    choices : sequence of Choice
        A plan in the order of the work, which stays.
    is_over : callable, optional
        Asked before each round over the tasks but the first.

    Returns
    -------
    tuple of Choice
        The same tasks; never dearer.

    Examples
    --------
    >>> from solver.jobs.tasks import Machine, Task
    >>> from solver.trains.changes import standing
    >>> from solver.trains.written_trains import read_train
    >>> near, exact = (standing(read_train(each)) for each in ("110-95-20-105", "35-75-60-127"))
    >>> ways = Way(exact, Fraction(0), 0), Way(near, Fraction(358, 1_000_000), 1)
    >>> [each.way.rank for each in more_exact(Sitting((Task(Machine.LATHE, ways),)), [Choice(0, ways[1])])]
    [0]
    """
    best, cost = tuple(choices), worth(sitting, choices)
    is_better = True
    while is_better:
        is_better = False
        for at, choice in enumerate(best):
            neighbours = _neighbours(sitting, best, at)
            spent = _beside(choice.way, neighbours)
            nearer = [way for way in sitting.tasks[choice.task].ways if way.error < choice.way.error]
            no_dearer = [way for way in nearer if _beside(way, neighbours) <= spent]
            for way in sorted(no_dearer, key=lambda each: (each.error, each.rank))[:MOST_TRIED]:
                tried = (*best[:at], Choice(choice.task, way), *best[at + 1 :])
                tried_cost = worth(sitting, tried)
                if tried_cost < cost:
                    best, cost, is_better = tried, tried_cost, True
                    break
        if is_over():
            break
    return best


def _neighbours(sitting: Sitting, choices: Sequence[Choice], at: int) -> list[Way]:
    """Return the ways before and after a choice at its own machine."""
    machine = sitting.tasks[choices[at].task].machine
    alike = [number for number, each in enumerate(choices) if sitting.tasks[each.task].machine is machine]
    place = alike.index(at)
    before = choices[alike[place - 1]].way if place else Way(sitting.start_at(machine), Fraction(0), 0)
    return [before, *(choices[number].way for number in alike[place + 1 : place + 2])]


def _beside(way: Way, neighbours: Sequence[Way]) -> int:
    """Count the wheels handled right before and right after a way."""
    return sum(wheels_between(way.wheels, each.wheels) for each in neighbours)
