"""A plan of a sitting too large to be walked whole: the nearest next, then piece by piece; and a bound for it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from solver.jobs.handling import Choice, carried_out
from solver.jobs.plan_model import least_round
from solver.jobs.rounds import Arc
from solver.jobs.tasks import Machine, Sitting, wheels_between
from solver.jobs.walk import LARGEST_WALK, Walk
from solver.trains.changes import Standing

#: Tasks of one machine planned together where all cannot be.
PIECE = 10
#: Most pairs of ways compared for a bound; beyond it the bound is left at nothing.
MOST_COMPARED = 10_000_000


def nearest_next(sitting: Sitting) -> tuple[Choice, ...]:
    """Take each time the task and the way that handle fewest wheels, of those whose turn it may be.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.jobs.tasks import Task, Way
    >>> from solver.trains.changes import standing
    >>> from solver.trains.written_trains import read_train
    >>> ways = [Way(standing(read_train(each)), Fraction(0), 0) for each in ("20-40", "30-50-20-60", "20-50")]
    >>> [choice.task for choice in nearest_next(Sitting(tuple(Task(Machine.LATHE, (way,)) for way in ways)))]
    [0, 2, 1]
    """
    stands = {machine: sitting.start_at(machine) for machine in Machine}
    chosen: list[Choice] = []
    done: set[int] = set()
    while len(done) < len(sitting.tasks):
        ready = [
            (wheels_between(stands[task.machine], way.wheels), way.error, number, way.rank, way)
            for number, task in enumerate(sitting.tasks)
            if number not in done and task.after <= done
            for way in task.ways
        ]
        *_, number, _rank, way = min(ready, key=lambda row: row[:4])
        chosen.append(Choice(number, way))
        done.add(number)
        stands[sitting.tasks[number].machine] = way.wheels
    return tuple(chosen)


def in_pieces(sitting: Sitting, seconds: Callable[[], int]) -> tuple[Choice, ...]:
    """Begin with the nearest next and plan a few tasks at a time anew, each piece from where the one before ends.

    Parameters
    ----------
    sitting : Sitting
        Every task has one way at least.
    seconds : callable
        Whole seconds left; at zero the rest stays as it is.

    Returns
    -------
    tuple of Choice
        In an order that the tasks allow; never worse than the nearest next.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.jobs.tasks import Task, Way
    >>> from solver.trains.changes import standing
    >>> from solver.trains.written_trains import read_train
    >>> ways = [Way(standing(read_train(each)), Fraction(0), 0) for each in ("20-40", "30-50-20-60", "20-50")]
    >>> sitting = Sitting(tuple(Task(Machine.LATHE, (way,)) for way in ways))
    >>> [choice.task for choice in in_pieces(sitting, lambda: 60)]
    [0, 2, 1]
    """
    best = nearest_next(sitting)
    is_better = True
    while is_better and seconds() > 0:
        is_better = False
        for machine in Machine:
            places = [at for at, each in enumerate(best) if sitting.tasks[each.task].machine is machine]
            # Pieces overlap by half, so that the seams of the first are inside the second.
            for first in range(0, len(places), PIECE // 2):
                tried = _with_piece(sitting, best, machine, places, first, seconds)
                if _is_allowed(sitting, tried) and _handled(sitting, tried) < _handled(sitting, best):
                    best, is_better = tried, True
    return best


def _with_piece(
    sitting: Sitting,
    best: tuple[Choice, ...],
    machine: Machine,
    places: Sequence[int],
    first: int,
    seconds: Callable[[], int],
) -> tuple[Choice, ...]:
    """Plan one piece of a machine anew and leave the rest as it is."""
    piece = places[first : first + PIECE]
    stands = best[places[first - 1]].way.wheels if first else sitting.start_at(machine)
    tried = list(best)
    for at, choice in zip(piece, _planned_anew(sitting, [best[at] for at in piece], stands, seconds), strict=True):
        tried[at] = choice
    return tuple(tried)


def _planned_anew(
    sitting: Sitting,
    piece: Sequence[Choice],
    stands: frozenset[Standing],
    seconds: Callable[[], int],
) -> Sequence[Choice]:
    """Plan the tasks of a piece by themselves; as they were where the time is over."""
    numbers = [choice.task for choice in piece]
    earlier = sitting.all_before()
    ways = [sitting.tasks[number].ways for number in numbers]
    if seconds() <= 0 or Walk.size(ways) > LARGEST_WALK:
        return piece
    before = [frozenset(at for at, each in enumerate(numbers) if each in earlier[number]) for number in numbers]
    walk = Walk(ways, before, stands)
    if walk.least(lambda: seconds() <= 0).least is None:
        return piece
    return [Choice(numbers[task], way) for task, way in walk.trace()]


def merged(sitting: Sitting, rounds: Sequence[Sequence[Choice]]) -> tuple[Choice, ...] | None:
    """Put the plans of the machines into one order that the tasks allow, each in its own order.

    Parameters
    ----------
    sitting : Sitting
        The tasks.
    rounds : sequence of sequence of Choice
        One plan a machine.

    Returns
    -------
    tuple of Choice or None
        ``None`` where the plans wait for one another.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.jobs.tasks import Task, Way
    >>> way = Way(frozenset(), Fraction(0), 0)
    >>> sitting = Sitting((Task(Machine.LATHE, (way,), frozenset({1})), Task(Machine.HEAD, (way,))))
    >>> [choice.task for choice in merged(sitting, [[Choice(0, way)], [Choice(1, way)]])]
    [1, 0]
    """
    left = [list(each) for each in rounds if each]
    order: list[Choice] = []
    done: set[int] = set()
    while left:
        ready = [each for each in left if sitting.tasks[each[0].task].after <= done]
        if not ready:
            return None
        first = min(ready).pop(0)
        order.append(first)
        done.add(first.task)
        left = [each for each in left if each]
    return tuple(order)


def _is_allowed(sitting: Sitting, choices: Sequence[Choice]) -> bool:
    done: set[int] = set()
    for choice in choices:
        if not sitting.tasks[choice.task].after <= done:
            return False
        done.add(choice.task)
    return True


def _handled(sitting: Sitting, choices: Sequence[Choice]) -> int:
    return sum(row.wheels for row in carried_out(sitting, choices))


def bound_by_pairs(sitting: Sitting, machine: Machine, seconds: Callable[[], int]) -> int:
    """Find a number of wheels that no plan of one machine goes below, from the fewest between any two tasks.

    Every task is given all its ways at once: from one task to the next the two nearest ways count.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.jobs.tasks import Task, Way
    >>> from solver.trains.changes import standing
    >>> from solver.trains.written_trains import read_train
    >>> ways = [Way(standing(read_train(each)), Fraction(0), 0) for each in ("20-40", "30-50-20-60", "20-50")]
    >>> sitting = Sitting(tuple(Task(Machine.LATHE, (way,)) for way in ways))
    >>> bound_by_pairs(sitting, Machine.LATHE, lambda: 60)
    10
    """
    numbers = sitting.numbers_at(machine)
    sets = [sorted({way.wheels for way in sitting.tasks[number].ways}, key=sorted) for number in numbers]
    if sum(map(len, sets)) ** 2 > 2 * MOST_COMPARED:
        return 0
    start = sitting.start_at(machine)
    arcs = []
    for one, here in enumerate(sets):
        arcs += [Arc(None, (one, 0), min(wheels_between(start, each) for each in here)), Arc((one, 0), None, 0)]
        for other, there in enumerate(sets[:one]):
            fewest = _fewest(here, there)
            arcs += [Arc((one, 0), (other, 0), fewest), Arc((other, 0), (one, 0), fewest)]
    return least_round(len(sets), arcs, seconds)


def _fewest(here: Sequence[frozenset[Standing]], there: Sequence[frozenset[Standing]]) -> int:
    """Return the fewest wheels between two sets of ways."""
    if not set(here).isdisjoint(there):
        return 0
    return min(len(one ^ other) for one in here for other in there)
