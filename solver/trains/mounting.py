"""Will a train go on: each placing judged by everything the lathe file tells, idlers chosen, reasons in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import Enum
from itertools import pairwise, permutations
from typing import NamedTuple

from solver.trains.banjo_gauge import USUAL_CLEARANCE_TEETH, BanjoGauge
from solver.trains.chain import Chain, Idler, chain_of
from solver.trains.fault_words import fault_words
from solver.trains.hand import Hand, suits_hand
from solver.trains.idlers import MOST_IDLERS, idler_sets, is_worth_trying, most_idlers
from solver.trains.lathe import Lathe
from solver.trains.layout import Finding, Layout
from solver.trains.sides import Wheel
from solver.trains.wheels import Pair, Train

#: What is not checked where the file does not tell how far apart the axes are.
_REACH = "reach of the banjo, where an idler may have to stand between"


class Verdict(Enum):
    """What can be said of a placing, best first."""

    FITS = "fits"
    NOT_CHECKED = "not checked"
    TOO_CLOSE = "too close to call"
    DOES_NOT_FIT = "does not fit"


class Mounting(NamedTuple):
    """The verdict on one placing with its idlers.

    Parameters
    ----------
    verdict : Verdict
        ``FITS`` is said of what was checked.
    reasons : tuple of str
        What stands in the way.
    not_checked : tuple of str
        What the lathe file lacks.
    idlers : tuple of Idler
        Idlers of the set-up judged, spindle side first.
    layout : Layout or None
        Where everything sits; ``None`` where the file does not tell enough, or no stud could be placed.
    """

    verdict: Verdict
    reasons: tuple[str, ...] = ()
    not_checked: tuple[str, ...] = ()
    idlers: tuple[Idler, ...] = ()
    layout: Layout | None = None


def placings(
    drivers: Sequence[Wheel], driven: Sequence[Wheel], keyed: Sequence[tuple[int, int]] = ()
) -> Iterator[Train]:
    """Yield every distinct way to place drivers and driven wheels that keeps the classes apart.

    Parameters
    ----------
    drivers : sequence of (int, int)
        Wheels as (class, teeth).
    driven : sequence of (int, int)
        As many wheels.
    keyed : sequence of (int, int), optional
        Wheels among them joined for good: a driven one, and the driver that must share its stud.

    Yields
    ------
    Train
        In a fixed order; two pairs of four different wheels have four placings.

    Examples
    --------
    >>> [str(train) for train in placings([(0, 20), (0, 30)], [(0, 40), (0, 60)])]
    ['20-40-30-60', '20-60-30-40', '30-40-20-60', '30-60-20-40']
    >>> [str(train) for train in placings([(0, 20), (0, 63)], [(0, 40), (0, 60)], [(60, 63)])]
    ['20-60-63-40']
    """
    for first in sorted(set(permutations(drivers))):
        for second in sorted(set(permutations(driven))):
            rows = list(zip(first, second, strict=True))
            if all(a[0] == b[0] for a, b in rows):
                train = Train(tuple(Pair(a[1], b[1], a[0]) for a, b in rows))
                if not keyed or keeps_keyed(train, keyed):
                    yield train


def keeps_keyed(train: Train, keyed: Sequence[tuple[int, int]]) -> bool:
    """Say whether each keyed pair, driven wheel then driver, shares a stud of its own.

    Examples
    --------
    >>> keeps_keyed(Train((Pair(20, 60), Pair(63, 40))), [(60, 63)])
    True
    """
    sleeves = [
        (pair.driven, following.driver)
        for pair, following in pairwise(train.pairs)
        if pair.wheel_class == following.wheel_class == 0
    ]
    for each in keyed:
        if each not in sleeves:
            return False
        sleeves.remove(each)
    return True


def keeps_to_pair_places(train: Train, lathe: Lathe) -> bool:
    """Say whether each class sits only in the pair it is made for.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> keeps_to_pair_places(Train(()), Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, ()))
    True
    """
    return all(
        lathe.wheel_classes[pair.wheel_class].only_in_pair in (None, number)
        for number, pair in enumerate(train.pairs, start=1)
    )


class Mounter:
    """Chooses placings and idlers on one lathe for one hand; made once for a whole search.

    Parameters
    ----------
    lathe : Lathe
        The lathe and its box.
    hand : Hand, optional
        Hand of the thread.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.lathe import Banjo
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1), (80, 1))),)
    >>> banjo = Banjo(2, Length.of_mm(120), (Length.of_mm(30), Length.of_mm(100)), stud_nut=Length.of_mm(12))
    >>> mounter = Mounter(Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), True, box, banjo=banjo))
    >>> mounting = mounter.mount(Train((Pair(40, 60),)))
    >>> mounting.verdict.value, mounting.idlers
    ('fits', (Idler(mesh=1, teeth=80),))
    """

    def __init__(self, lathe: Lathe, hand: Hand = Hand.RIGHT) -> None:
        self._lathe = lathe
        self._hand = hand
        self._gauge = BanjoGauge(lathe)
        self._planes = lathe.banjo.planes if lathe.banjo else None
        #: Set-ups looked at so far.
        self.judged = 0

    def has_way_for(self, pairs: int) -> bool:
        """Say whether the studs carry so many pairs and the idlers their hand asks for, as far as the file tells.

        Examples
        --------
        >>> from fractions import Fraction
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.lathe import Banjo
        >>> banjo = Banjo(studs=2)
        >>> no_reverse = Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), False, (), banjo=banjo)
        >>> Mounter(no_reverse).has_way_for(2), Mounter(no_reverse).has_way_for(3)
        (True, False)
        """
        studs = self._lathe.banjo.studs if self._lathe.banjo else None
        free = MOST_IDLERS if studs is None else studs - (pairs - 1)
        counts = range(min(free, MOST_IDLERS) + 1)
        return any(suits_hand(pairs + count, self._lathe, self._hand) for count in counts)

    def first_that_fits(self, trains: Sequence[Train]) -> tuple[Train, tuple[Idler, ...]] | None:
        """Find the first placing that goes on, with as few idlers as any of them needs.

        Parameters
        ----------
        trains : sequence of Train
            Placings of the same wheels, best first.

        Returns
        -------
        (Train, tuple of Idler) or None
            ``None`` is proven for up to ``MOST_IDLERS`` idlers.

        Examples
        --------
        >>> from fractions import Fraction
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.wheels import WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((24, 1), (32, 1), (48, 1), (100, 1))),)
        >>> mounter = Mounter(Lathe("mill", "10 in", Length.of_inches(10), Fraction(1), True, box))
        >>> four = sorted(placings([(0, 100), (0, 32)], [(0, 24), (0, 48)]))
        >>> str(mounter.first_that_fits(four)[0])
        '100-24-32-48'
        """
        for count in range(MOST_IDLERS + 1):
            for train in trains:
                for idlers in self._sets(train, count):
                    self.judged += 1
                    if self._gauge.fits(chain_of(train, idlers, self._planes)):
                        return train, idlers
        return None

    def choices_that_fit(self, train: Train) -> tuple[tuple[Idler, ...], ...]:
        """List every choice of idlers with which one placing goes on, of those that need the fewest idlers.

        Parameters
        ----------
        train : Train
            One placing.

        Returns
        -------
        tuple of tuple of Idler
            One empty choice where no idler is needed; nothing where the placing does not go on.

        Examples
        --------
        >>> from fractions import Fraction
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.wheels import WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1), (65, 1), (80, 1))),)
        >>> lathe = Lathe("no reverse", "3 mm", Length.of_mm(3), Fraction(1), False, box)
        >>> [[idler.teeth for idler in each] for each in Mounter(lathe).choices_that_fit(Train((Pair(40, 60),)))]
        [[80], [65]]
        """
        for count in range(MOST_IDLERS + 1):
            found = []
            for idlers in self._sets(train, count):
                self.judged += 1
                if self._gauge.fits(chain_of(train, idlers, self._planes)):
                    found.append(idlers)
            if found:
                return tuple(found)
        return ()

    def _sets(self, train: Train, count: int) -> Iterator[tuple[Idler, ...]]:
        """Yield sets of so many idlers worth trying: for the hand, and for reach where the file tells the reach."""
        is_known = self._gauge.knows_reach
        meshes = len(train.pairs) + count
        if count > most_idlers(train, self._lathe):
            return
        if not is_worth_trying(meshes, count, self._lathe, self._hand, for_reach=is_known):
            return
        yield from idler_sets(train, self._lathe, count)

    def nearest_to_fitting(self, trains: Sequence[Train]) -> Train:
        """Pick the placing with fewest faults as it is, idlers apart; the first among equals.

        Examples
        --------
        >>> from fractions import Fraction
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.wheels import WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((24, 1), (32, 1), (48, 1), (100, 1))),)
        >>> mounter = Mounter(Lathe("mill", "10 in", Length.of_inches(10), Fraction(1), True, box))
        >>> four = sorted(placings([(0, 100), (0, 32)], [(0, 24), (0, 48)]))
        >>> str(mounter.nearest_to_fitting(four))
        '100-24-32-48'
        """
        return min(trains, key=lambda train: len(self._gauge.examine(chain_of(train, (), self._planes)).faults))

    def mount(self, train: Train) -> Mounting:
        """Judge one placing with the idlers that serve it best.

        Examples
        --------
        >>> from fractions import Fraction
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.wheels import WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1))),)
        >>> lathe = Lathe("no reverse", "3 mm", Length.of_mm(3), Fraction(1), False, box)
        >>> Mounter(lathe).mount(Train((Pair(40, 60),))).reasons
        ('a right-hand thread needs an idler, and no wheel is left for one',)
        """
        found = self.first_that_fits([train])
        if found is not None:
            return self.judge(train, found[1])
        return self._refused(train)

    def _refused(self, train: Train) -> Mounting:
        """Say why no set of idlers makes a placing go on: the reasons of the one with fewest, or the nearest to it."""
        nearest: Mounting | None = None
        tried = 0
        for count in range(MOST_IDLERS + 1):
            for idlers in self._sets(train, count):
                tried += 1
                if self._gauge.is_close_call(chain_of(train, idlers, self._planes)):
                    return self.judge(train, idlers)
                if nearest is None:
                    nearest = self.judge(train, idlers)
        if nearest is None:
            free = most_idlers(train, self._lathe)
            lacking = "no wheel is left for one" if free else "no stud is left for one"
            reason = f"a {self._hand.value}-hand thread needs an idler, and {lacking}"
            return Mounting(Verdict.DOES_NOT_FIT, (reason,), self._open_points(chain_of(train)))
        if tried > 1:
            others = "the one other choice" if tried == 2 else f"any of the {tried - 1} other choices"
            beyond = f"nor does it with {others} of idlers left in the box"
            nearest = nearest._replace(reasons=(*nearest.reasons, beyond))
        return nearest

    def judge(self, train: Train, idlers: Sequence[Idler] = ()) -> Mounting:
        """Judge one placing with given idlers.

        Examples
        --------
        >>> from fractions import Fraction
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.wheels import WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1))),)
        >>> lathe = Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, box)
        >>> Mounter(lathe).judge(Train((Pair(40, 60),))).verdict.value
        'fits'
        """
        return self._said(train, idlers, self._gauge.examine(chain_of(train, idlers, self._planes)))

    def _said(self, train: Train, idlers: Sequence[Idler], finding: Finding) -> Mounting:
        chain = chain_of(train, idlers)
        reasons = tuple(fault_words(fault, chain, self._lathe) for fault in finding.faults)
        verdict = Verdict.FITS
        if finding.is_too_close:
            verdict = Verdict.TOO_CLOSE
        elif reasons:
            verdict = Verdict.DOES_NOT_FIT
        elif self._lacks_centre_distance():
            verdict = Verdict.NOT_CHECKED
        return Mounting(verdict, reasons, self._open_points(chain), tuple(idlers), finding.layout)

    def _lacks_centre_distance(self) -> bool:
        banjo = self._lathe.banjo
        return banjo is not None and banjo.slot is not None and banjo.centre_distance is None

    def _open_points(self, chain: Chain) -> tuple[str, ...]:
        """Name what the lathe file lacks for a full answer."""
        banjo = self._lathe.banjo
        points = []
        if not self._lathe.is_stud_stated:
            points.append("that the stud gear turns once for one spindle turn: the file has no stud_turns")
        if not self._lathe.is_reverse_stated:
            points.append("whether a reverse is fitted: the file has no reverse, and none is taken")
        if banjo is None or banjo.stud_nut is None:
            points.append(
                f"the room a wheel needs past a shaft: the file gives no stud_nut, and k = {USUAL_CLEARANCE_TEETH} "
                "teeth are taken"
            )
        if banjo is None:
            points.append(f"{_REACH}: the file has no [banjo]")
        elif banjo.centre_distance is None:
            if banjo.slot is not None:
                points.append("stud places and swing: the file gives a slot but no centre_distance")
            elif not banjo.mesh_limits:
                points.append(f"{_REACH}: the file gives neither centre_distance nor mesh_limits")
            elif len(chain.contacts) > len(banjo.mesh_limits):
                points.append(f"meshes beyond {len(banjo.mesh_limits)}: mesh_limits gives no more")
        else:
            if banjo.slot is None:
                points.append("ends of the slot: the file gives none")
            if banjo.swing is None:
                points.append("swing: the file gives no limits")
        return tuple(points)


def judge(train: Train, lathe: Lathe, idlers: Sequence[Idler] = ()) -> Mounting:
    """Judge one placing by everything the lathe file allows to be checked.

    Parameters
    ----------
    train : Train
        One placing.
    lathe : Lathe
        With or without a banjo.
    idlers : sequence of Idler, optional
        Idlers in use; each needs a stud.

    Returns
    -------
    Mounting
        ``fits`` is said of what was checked; ``not_checked`` names what was not.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((24, 1), (32, 1), (48, 1), (100, 1))),)
    >>> lathe = Lathe("mill", "10 in", Length.of_inches(10), Fraction(1), True, box)
    >>> judge(Train((Pair(32, 24), Pair(100, 48))), lathe).reasons
    ('the 100 T on stud 1 fouls the shaft of the stud gear: 32 + 24 is not above 100 + 15',)
    """
    return Mounter(lathe).judge(train, idlers)
