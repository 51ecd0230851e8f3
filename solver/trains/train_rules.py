"""What a valid train is, said without any search: the specification the searches are held against."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from solver.trains.chain import Idler
from solver.trains.lathe import Lathe
from solver.trains.matches import Sleeve, sleeve_choices
from solver.trains.mounting import keeps_keyed
from solver.trains.wheels import Train


def broken_rules(train: Train, lathe: Lathe, idlers: Sequence[Idler] = ()) -> tuple[str, ...]:
    """List what a train asks of the box that the box does not hold.

    Parameters
    ----------
    train : Train
        Wheels with the class each pair belongs to.
    lathe : Lathe
        The box with its counts.
    idlers : sequence of Idler, optional
        Idlers in use, out of the same box.

    Returns
    -------
    tuple of str
        One sentence a broken rule; empty for a valid train.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import Pair, WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 1), (40, 1))),)
    >>> lathe = Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, box)
    >>> broken_rules(Train((Pair(20, 40),)), lathe)
    ()
    >>> broken_rules(Train((Pair(40, 40),)), lathe)
    ('40 T is needed 2 times; the box holds 1',)
    """
    faults = []
    if not train.pairs:
        faults.append("a train has at least one pair")
    for number, pair in enumerate(train.pairs, start=1):
        if not 0 <= pair.wheel_class < len(lathe.wheel_classes):
            faults.append(f"pair {number} is of a class of wheels that the box does not hold")
            continue
        only = lathe.wheel_classes[pair.wheel_class].only_in_pair
        if only is not None and only != number:
            faults.append(f"wheels of {lathe.wheel_classes[pair.wheel_class].size} go only in pair {only}")
    lacking = [_lacking(train, lathe, sleeves, idlers) for sleeves in _sleeves_used(train, lathe)]
    least = min(lacking, key=len)
    return (*faults, *least)


def _sleeves_used(train: Train, lathe: Lathe) -> Iterator[tuple[Sleeve, ...]]:
    """Yield every choice of keyed pairs that the train can carry on studs of its own; none first."""
    for sleeves in sleeve_choices(lathe.keyed_pairs, max(0, len(train.pairs) - 1)):
        if keeps_keyed(train, sleeves):
            yield sleeves


def _lacking(train: Train, lathe: Lathe, sleeves: Sequence[Sleeve], idlers: Sequence[Idler]) -> list[str]:
    """Say what the box lacks when some wheels of the train are on sleeves; a loose 60 T and a keyed one are two."""
    loose = Counter(train.wheels)
    loose.update((train.pairs[idler.mesh - 1].wheel_class, idler.teeth) for idler in idlers)
    loose.subtract((0, teeth) for sleeve in sleeves for teeth in sleeve)
    faults = []
    for (wheel_class, teeth), needed in sorted(loose.items()):
        if 0 <= wheel_class < len(lathe.wheel_classes):
            held = dict(lathe.wheel_classes[wheel_class].stock).get(teeth, 0)
            if needed > held == 0:
                faults.append(f"{teeth} T is not in the box")
            elif needed > held:
                faults.append(f"{teeth} T is needed {needed} time{'s' if needed > 1 else ''}; the box holds {held}")
    return faults
