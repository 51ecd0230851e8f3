"""Plans found the obvious slow way: every state of both machines, one wheel handled at a time, cheapest first."""

from __future__ import annotations

import heapq
from collections import Counter
from fractions import Fraction
from itertools import count, permutations

from solver.jobs.tasks import Machine, Sitting
from solver.trains.changes import Standing

Cost = tuple[int, int, Fraction | int]


def cheapest(sitting: Sitting) -> Cost | None:
    """Fewest wheels handled, then fewest faces put on, then least error, over all there is to do.

    A state is what stands on each machine, the face outward and the tasks done. A step takes one wheel off, puts one
    on where its place is free and the box still has it, turns a face out, or does a task whose wheels stand there.
    """
    wheels = {
        machine: sorted(
            {each for task in sitting.tasks if task.machine is machine for way in task.ways for each in way.wheels}
        )
        for machine in Machine
    }
    faces = sorted({way.face for task in sitting.tasks for way in task.ways if way.face is not None})
    box = None if sitting.shared is None else dict(sitting.shared)
    start = (sitting.start_at(Machine.LATHE), sitting.start_at(Machine.HEAD), None, frozenset())
    order = count()
    line = [((0, 0, 0), next(order), start)]
    settled, nearest = set(), {}
    while line:
        cost, _, state = heapq.heappop(line)
        if state in settled:
            continue
        settled.add(state)
        lathe, head, face, done = state
        if len(done) == len(sitting.tasks):
            return cost
        for more, after in _steps(sitting, wheels, faces, box, lathe, head, face, done):
            total = cost[0] + more[0], cost[1] + more[1], cost[2] + more[2]
            if after not in settled and (after not in nearest or total < nearest[after]):
                nearest[after] = total
                heapq.heappush(line, (total, next(order), after))
    return None


def _steps(sitting, wheels, faces, box, lathe, head, face, done):
    for at, stands in ((0, lathe), (1, head)):
        machine = (Machine.LATHE, Machine.HEAD)[at]

        def with_(changed, at=at):
            return (changed, head, face, done) if at == 0 else (lathe, changed, face, done)

        for each in stands:
            yield (1, 0, 0), with_(stands - {each})
        taken = {each.number for each in stands}
        for each in wheels[machine]:
            if each.number not in taken and _is_left(each, lathe | head, box):
                yield (1, 0, 0), with_(stands | {each})
    for other in faces:
        if other != face:
            yield (0, 1, 0), (lathe, head, other, done)
    for number, task in enumerate(sitting.tasks):
        if number not in done and task.after <= done:
            stands = lathe if task.machine is Machine.LATHE else head
            for way in task.ways:
                if way.wheels == stands and way.face in (None, face):
                    yield (0, 0, way.error), (lathe, head, face, done | {number})


def _is_left(wheel: Standing, standing: frozenset[Standing], box: dict[int, int] | None) -> bool:
    if box is None:
        return True
    used = Counter(each.teeth for each in standing)
    return used[wheel.teeth] < box.get(wheel.teeth, 0)


def cheapest_in_any_order(sitting: Sitting) -> int | None:
    """Fewest wheels on the lathe alone, by every order and for each order the best way of each task in turn."""
    best = None
    for row in permutations(range(len(sitting.tasks))):
        if any(not sitting.tasks[task].after <= set(row[:at]) for at, task in enumerate(row)):
            continue
        costs = {sitting.mounted: 0}
        for task in row:
            ways = sitting.tasks[task].ways
            costs = {way.wheels: min(cost + len(way.wheels ^ before) for before, cost in costs.items()) for way in ways}
        least = min(costs.values())
        best = least if best is None else min(best, least)
    return best
