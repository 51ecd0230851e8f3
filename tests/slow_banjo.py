"""Set-ups on a banjo the slow way: circles in the plane, angles by trigonometry in floats, every choice tried.

Nothing here is shared with the solver but the values it takes in: axes, planes, places and rules are written a
second time. What is decided by less than ``NEAR`` millimetres is not judged here, and answers ``None``.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product

from solver.trains.chain import Idler
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.wheels import Train

#: Floats are trusted to this. [mm]
NEAR = 1e-6
#: An axis: the wheel in each plane, as (module in mm, teeth).
Axis = dict[int, tuple[Fraction, int]]


def planes_of(pairs: int, deep: int | None) -> list[int]:
    """Walk from plane to plane, turning back at the last of so many."""
    plane, step, walked = 0, 1, []
    for _ in range(pairs):
        walked.append(plane)
        if deep is not None and deep > 1 and not 0 <= plane + step < deep:
            step = -step
        plane += step
    return walked


def axes_of(train: Train, idlers: Sequence[Idler], lathe: Lathe) -> tuple[list[Axis], list[tuple[int, Fraction]]]:
    """Build the axes one after another; with the plane and the length of each step between them."""
    planes = planes_of(len(train.pairs), lathe.banjo.planes if lathe.banjo else None)
    axes: list[Axis] = [{}]
    steps = []
    for number, pair in enumerate(train.pairs):
        module, plane = lathe.wheel_classes[pair.wheel_class].module.mm, planes[number]
        axes[-1][plane] = (module, pair.driver)
        for teeth in [*(each.teeth for each in idlers if each.mesh == number + 1), pair.driven]:
            steps.append((plane, module * (axes[-1][plane][1] + teeth) / 2))
            axes.append({plane: (module, teeth)})
    return axes, steps


def least_apart(one: Axis, other: Axis, mesh: int | None, nut: Fraction | None) -> list[Fraction]:
    """List the distances that two axes must exceed, the plane they mesh in apart."""
    needed = []
    for plane in {*one, *other} - {mesh}:
        tips = [module * (teeth + 2) / 2 for module, teeth in (axis[plane] for axis in (one, other) if plane in axis)]
        if len(tips) == 2:
            needed.append(sum(tips))
        else:
            module = next(axis[plane][0] for axis in (one, other) if plane in axis)
            needed.append(tips[0] + (module * 13 / 2 if nut is None else nut / 2))
    return needed


def places(lathe: Lathe, steps: list[float]) -> Iterator[tuple[list[tuple[float, float]], float]]:
    """Yield the points of all axes, leadscrew at the origin and stud gear on the x axis, with the margin to the slots.

    Also the margin of the swing, as the way of a point on the rim of stud 1.
    """
    banjo = lathe.banjo
    assert banjo is not None
    assert banjo.centre_distance is not None
    centres = float(banjo.centre_distance.mm)
    slots = [each for each in (banjo.slot, banjo.second_slot) if each is not None]
    ends = [(float(low.mm), float(high.mm)) for low, high in slots] or [(0.0, 1e9)]
    turned = [0.0, 2 * math.pi * float(banjo.second_slot_at.turns) if banjo.second_slot_at else 0.0]
    studs = len(steps) - 1
    for chosen in product(range(len(ends)), repeat=studs):
        for signs in product((1, -1), repeat=studs):
            radii: list[float] = []
            for at in range(studs - 1, -1, -1):
                if not radii:
                    radii = [steps[-1]] if signs[at] == 1 else []
                    if not radii:
                        break
                    continue
                between = turned[chosen[at]] - turned[chosen[at + 1]]
                inside = steps[at + 1] ** 2 - (radii[0] * math.sin(between)) ** 2
                if inside < -NEAR:
                    radii = []
                    break
                radii.insert(0, radii[0] * math.cos(between) + signs[at] * math.sqrt(max(inside, 0)))
            if len(radii) != studs or min(radii) <= NEAR:
                continue
            slack = min(min(r - ends[slot][0], ends[slot][1] - r) for r, slot in zip(radii, chosen, strict=True))
            cosine = (radii[0] ** 2 + centres**2 - steps[0] ** 2) / (2 * radii[0] * centres)
            if abs(cosine) > 1 + 1e-12:
                continue
            for side in (1, -1):
                first_slot = side * math.acos(max(-1, min(1, cosine))) - turned[chosen[0]]
                points = [(centres, 0.0)]
                for r, slot in zip(radii, chosen, strict=True):
                    angle = first_slot + turned[slot]
                    points.append((r * math.cos(angle), r * math.sin(angle)))
                points.append((0.0, 0.0))
                yield points, min(slack, swing_margin(lathe, first_slot, radii[0]))


def swing_margin(lathe: Lathe, angle: float, r: float) -> float:
    """Return how far inside the swing an angle is, as a way at the radius r; below zero outside."""
    swing = lathe.banjo.swing if lathe.banjo else None
    if swing is None:
        return math.inf
    low, high = (2 * math.pi * float(end.turns) for end in swing)
    inside = []
    for turn in (-2, -1, 0, 1, 2):
        here = angle + 2 * math.pi * turn
        inside.append(min(here - low, high - here))
    return max(inside) * r


def is_within_counts(train: Train, axes: list[Axis], steps: list[tuple[int, Fraction]], lathe: Lathe) -> bool:
    """Hold studs, planes, the largest wheel and the centre distances of the meshes against the file."""
    banjo = lathe.banjo
    if banjo is None:
        return True
    largest = max(teeth for axis in axes for _, teeth in axis.values())
    spans = zip((step for _, step in steps), banjo.mesh_limits, strict=False)
    return (
        (banjo.studs is None or len(axes) - 2 <= banjo.studs)
        and not (banjo.planes == 1 and len(train.pairs) > 1)
        and (banjo.largest_wheel_teeth is None or largest <= banjo.largest_wheel_teeth)
        and len(steps) >= len(banjo.mesh_limits)
        and all(low.mm <= step <= high.mm for step, (low, high) in spans)
    )


def goes_on(train: Train, idlers: Sequence[Idler], lathe: Lathe) -> bool | None:
    """Judge one set-up; ``None`` when it is too near for floats."""
    banjo = lathe.banjo
    axes, steps = axes_of(train, idlers, lathe)
    nut = banjo.stud_nut.mm if banjo and banjo.stud_nut else None
    if not is_within_counts(train, axes, steps, lathe):
        return False
    for number, (plane, step) in enumerate(steps):
        if any(step <= needed for needed in least_apart(axes[number], axes[number + 1], plane, nut)):
            return False
    if banjo is None or banjo.centre_distance is None:
        return True
    if len(steps) == 1:
        return steps[0][1] == banjo.centre_distance.mm
    best = -math.inf
    for points, margin in places(lathe, [float(step) for _, step in steps]):
        room = margin
        for one in range(len(axes)):
            for other in range(one + 2, len(axes)):
                apart = math.dist(points[one], points[other])
                needed = least_apart(axes[one], axes[other], None, nut)
                room = min([room, *(apart - float(each) for each in needed)])
        best = max(best, room)
    if abs(best) < NEAR or nearly_straight(lathe, steps):
        return None
    return best > 0


def nearly_straight(lathe: Lathe, steps: list[tuple[int, Fraction]]) -> bool:
    """Say whether the stud gear, a stud and the leadscrew may stand in one line, where floats fail."""
    assert lathe.banjo is not None
    assert lathe.banjo.centre_distance is not None
    return len(steps) == 2 and lathe.banjo.centre_distance.mm in (
        steps[0][1] + steps[1][1],
        abs(steps[0][1] - steps[1][1]),
    )


def every_idler(train: Train, lathe: Lathe, most: int) -> Iterator[tuple[Idler, ...]]:
    """Yield every way to put up to so many idlers into a train out of the wheels it leaves in the box."""
    left = Counter(
        {
            (number, teeth): count
            for number, wheel_class in enumerate(lathe.wheel_classes)
            for teeth, count in wheel_class.stock
        }
    )
    left.subtract(train.wheels)
    yield ()
    for count in range(1, most + 1):
        for meshes in product(range(1, len(train.pairs) + 1), repeat=count):
            if list(meshes) != sorted(meshes):
                continue
            classes = [train.pairs[mesh - 1].wheel_class for mesh in meshes]
            for wheels in product(*([wheel for wheel in left if wheel[0] == number] for number in classes)):
                if all(left[wheel] >= needed for wheel, needed in Counter(wheels).items()):
                    yield tuple(Idler(mesh, wheel[1]) for mesh, wheel in zip(meshes, wheels, strict=True))


def can_be_mounted(train: Train, lathe: Lathe, hand: Hand = Hand.RIGHT) -> bool | None:
    """Say whether any choice of up to two idlers makes a placing go on and cut the hand; ``None`` when too near.

    Where the file tells nothing of the reach, idlers are put in for the hand alone.
    """
    banjo = lathe.banjo
    knows_reach = banjo is not None and (banjo.centre_distance is not None or bool(banjo.mesh_limits))
    unsure = False
    for idlers in every_idler(train, lathe, 2):
        meshes = len(train.pairs) + len(idlers)
        right = (meshes % 2 == 0) is not lathe.has_left_hand_screw
        if not lathe.has_reverse and right is not (hand is Hand.RIGHT):
            continue
        needed = 0 if lathe.has_reverse else (len(train.pairs) + (hand is Hand.LEFT) + lathe.has_left_hand_screw) % 2
        if not knows_reach and len(idlers) > needed:
            continue
        found = goes_on(train, idlers, lathe)
        if found:
            return True
        unsure = unsure or found is None
    return None if unsure else False
