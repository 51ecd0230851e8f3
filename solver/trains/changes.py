"""Which wheels come off and which go on, from the train that is mounted now to the next one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from solver.trains.chain import LEADSCREW, STUD_GEAR, Idler
from solver.trains.wheels import Train


class Change(NamedTuple):
    """One place on the banjo whose wheel changes; ``None`` where there was none or is none."""

    place: str
    off: int | None
    on: int | None


class Standing(NamedTuple):
    """A wheel at its place on the banjo; places are numbered from the spindle side.

    Two set-ups that hold an equal ``Standing`` have that wheel in common, and it is not handled between them.
    """

    number: int
    place: str
    wheel_class: int
    teeth: int


def standing(train: Train, idlers: Sequence[Idler] = ()) -> frozenset[Standing]:
    """List every wheel of a set-up at its place: as ``changes`` names the places, and the idlers in theirs.

    Parameters
    ----------
    train : Train
        The pairs.
    idlers : sequence of Idler, optional
        Idlers in their meshes, spindle side first.

    Returns
    -------
    frozenset of Standing
        What two of them do not share is what has to be handled.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> one, other = standing(Train((Pair(20, 40),)), [Idler(1, 65)]), standing(Train((Pair(20, 50),)), [Idler(1, 65)])
    >>> [(each.place, each.teeth) for each in sorted(one ^ other)]
    [('leadscrew', 40), ('leadscrew', 50)]
    >>> [(each.place, each.teeth) for each in sorted(one & other)]
    [('stud gear', 20), ('idler in mesh 1', 65)]
    """
    found = [Standing(10 * at, name, *wheel) for (at, name), wheel in _places(train).items()]
    seen: dict[int, int] = {}
    for mesh, teeth in idlers:
        nth = seen[mesh] = seen.get(mesh, 0) + 1
        name = f"idler in mesh {mesh}" if nth == 1 else f"idler {nth} in mesh {mesh}"
        found.append(Standing(20 * (mesh - 1) + nth, name, train.pairs[mesh - 1].wheel_class, teeth))
    return frozenset(found)


def changes(mounted: Train, train: Train) -> tuple[Change, ...]:
    """List the places whose wheel changes, spindle side first; idlers apart.

    Parameters
    ----------
    mounted : Train
        What is on the banjo now.
    train : Train
        What goes on next; studs are counted from the spindle side.

    Returns
    -------
    tuple of Change
        Empty when the train is mounted already.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> now, then = Train((Pair(20, 40), Pair(50, 127))), Train((Pair(20, 40), Pair(60, 127)))
    >>> changes(now, then)
    (Change(place='stud 1, driver', off=50, on=60),)
    """
    before, after = _places(mounted), _places(train)
    rows = []
    for place in sorted({**before, **after}, key=lambda each: each[0]):
        off, on = before.get(place), after.get(place)
        if off != on:
            rows.append(Change(place[1], off[1] if off else None, on[1] if on else None))
    return tuple(rows)


def handled(rows: tuple[Change, ...]) -> int:
    """Count the wheels taken off and put on.

    Examples
    --------
    >>> handled((Change("stud gear", 20, 30), Change("stud 2, driver", None, 50)))
    3
    """
    return sum((row.off is not None) + (row.on is not None) for row in rows)


def _places(train: Train) -> dict[tuple[int, str], tuple[int, int]]:
    """Name every place with a wheel, in order, with its wheel as (class, teeth)."""
    last = len(train.wheels) - 1
    found = {}
    for at, wheel in enumerate(train.wheels):
        side = "driver" if at % 2 == 0 else "driven"
        name = STUD_GEAR if at == 0 else f"stud {(at + 1) // 2}, {side}"
        found[(at, name) if at < last else (10**6, LEADSCREW)] = wheel
    return found
