"""Wheels whose ratio is nearly one: they mend a leadscrew's own error, or make a lead long or short on purpose."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.trains.lathe import Lathe
from solver.trains.matches import Halves
from solver.trains.mounting import keeps_to_pair_places, placings
from solver.trains.train_order import preference
from solver.trains.wheels import Train


class NearUnity(NamedTuple):
    """Wheels to put between, and the error they leave of the correction that was wanted."""

    train: Train
    left_over: Fraction


def near_unity(lathe: Lathe, correction: Fraction, *, most_pairs: int = 2) -> NearUnity | None:
    """Find the wheels of the box whose ratio comes nearest to one and a little.

    Parameters
    ----------
    lathe : Lathe
        With its real box; gearbox and leadscrew play no part.
    correction : Fraction
        What is wanted beyond one: ``-1/10000`` makes a lead a ten-thousandth shorter.
    most_pairs : int, optional
        Pairs of the wheels put between.

    Returns
    -------
    NearUnity or None
        The nearest of all, fewer pairs first among equals; mounting apart. ``None`` when nothing is wanted, or no
        wheels come nearer than leaving things as they are.

    Examples
    --------
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (83, 1), (84, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> found = near_unity(lathe, Fraction(-1, 80))
    >>> str(found.train), round(found.left_over * 10**6)
    ('83-84', 603)
    """
    if correction == 0:
        return None
    plain = Lathe("ratios", "1 mm", Length.of_mm(1), Fraction(1), has_reverse=True, wheel_classes=lathe.wheel_classes)
    wanted = 1 + correction
    best: NearUnity | None = None
    for pairs in range(1, most_pairs + 1):
        for band in Halves(plain, pairs).bands(Length(wanted), abs(correction)):
            for match in band.matches:
                trains = [each for each in placings(match.drivers, match.driven) if keeps_to_pair_places(each, plain)]
                beaten = best is not None and abs(match.error) >= abs(best.left_over)
                if trains and not beaten and abs(match.error) < abs(correction):
                    best = NearUnity(min(trains, key=preference), match.error)
            if band.within >= abs(correction):
                break
    return best
