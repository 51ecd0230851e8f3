"""Will a train go on: the shaft rule, wheel and stud limits, and what could not be checked.

A right ratio that cannot be mounted is a wrong answer::

    a            b on the first stud must clear the shaft of d, c must clear the shaft of a:
    b c             a + b > c + k   and   c + d > b + k
      d          k = 2 + stud nut / module; 15 when the file does not give the nut
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import Enum
from itertools import permutations
from typing import NamedTuple

from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.trains.lathe import Lathe
from solver.trains.sides import Wheel
from solver.trains.wheels import Pair, Train

#: Teeth of clearance when the stud nut is not known; common practice, see change_gears_notes "Mounting".
USUAL_CLEARANCE_TEETH = 15


class Verdict(Enum):
    """What can be said of a placing, best first."""

    FITS = "fits"
    NOT_CHECKED = "not checked"
    DOES_NOT_FIT = "does not fit"


class Mounting(NamedTuple):
    """The verdict on one placing, with its reasons and what stays open."""

    verdict: Verdict
    reasons: tuple[str, ...] = ()
    not_checked: tuple[str, ...] = ()


def placings(drivers: Sequence[Wheel], driven: Sequence[Wheel]) -> Iterator[Train]:
    """Yield every distinct way to place drivers and driven wheels that keeps the classes apart.

    Parameters
    ----------
    drivers : sequence of (int, int)
        Wheels as (class, teeth).
    driven : sequence of (int, int)
        As many wheels.

    Yields
    ------
    Train
        In a fixed order; two pairs of four different wheels have four placings.

    Examples
    --------
    >>> [str(train) for train in placings([(0, 20), (0, 30)], [(0, 40), (0, 60)])]
    ['20-40-30-60', '20-60-30-40', '30-40-20-60', '30-60-20-40']
    """
    for first in sorted(set(permutations(drivers))):
        for second in sorted(set(permutations(driven))):
            if all(a[0] == b[0] for a, b in zip(first, second, strict=True)):
                yield Train(tuple(Pair(a[1], b[1], a[0]) for a, b in zip(first, second, strict=True)))


class ShaftRule:
    """The shaft rule of one lathe in whole teeth, for trying very many placings; ``judge`` gives the reasons.

    Parameters
    ----------
    lathe : Lathe
        Its wheel sizes and stud nut.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((24, 1), (32, 1), (48, 1), (100, 1))),)
    >>> rule = ShaftRule(Lathe("mill", "10 in", Length.of_inches(10), Fraction(1), True, box))
    >>> rule.is_kept(Train((Pair(100, 24), Pair(32, 48)))), rule.is_kept(Train((Pair(32, 24), Pair(100, 48))))
    (True, False)
    """

    def __init__(self, lathe: Lathe) -> None:
        self._lathe = lathe
        self._modules = [each.module for each in lathe.wheel_classes]
        # A whole margin is above k when it is at least the whole part of k and one.
        self._least = [int(clearance(lathe, module) / module) + 1 for module in self._modules]

    def is_kept(self, train: Train) -> bool:
        """Say whether no wheel of a placing fouls a neighbouring shaft.

        Examples
        --------
        >>> from fractions import Fraction
        >>> ShaftRule(Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, ())).is_kept(Train(()))
        True
        """
        for pair, following in zip(train.pairs, train.pairs[1:], strict=False):
            if self._modules[pair.wheel_class] != self._modules[following.wheel_class]:
                return not any(_shaft_faults(train, self._lathe))
            least = self._least[pair.wheel_class]
            if pair.driver + pair.driven - following.driver < least:
                return False
            if following.driver + following.driven - pair.driven < least:
                return False
        return True


def has_studs_for(pairs: int, lathe: Lathe) -> bool:
    """Say whether the banjo carries enough studs for so many pairs, as far as the file tells.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.trains.lathe import Banjo
    >>> has_studs_for(4, Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, (), banjo=Banjo(studs=2)))
    False
    """
    return lathe.banjo is None or lathe.banjo.studs is None or pairs - 1 <= lathe.banjo.studs


def keeps_to_pair_places(train: Train, lathe: Lathe) -> bool:
    """Say whether each class sits only in the pair it is made for.

    Examples
    --------
    >>> from fractions import Fraction
    >>> keeps_to_pair_places(Train(()), Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, ()))
    True
    """
    return all(
        lathe.wheel_classes[pair.wheel_class].only_in_pair in (None, number)
        for number, pair in enumerate(train.pairs, start=1)
    )


def judge(train: Train, lathe: Lathe, idlers: Sequence[int] = ()) -> Mounting:
    """Judge one placing by everything the lathe file allows to be checked.

    Parameters
    ----------
    train : Train
        One placing.
    lathe : Lathe
        With or without a banjo.
    idlers : sequence of int, optional
        Teeth of the idlers in use; each needs a stud.

    Returns
    -------
    Mounting
        ``fits`` is said of what was checked; ``not_checked`` names what was not.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((24, 1), (32, 1), (48, 1), (100, 1))),)
    >>> lathe = Lathe("mill", "10 in", Length.of_inches(10), Fraction(1), True, box)
    >>> judge(Train((Pair(32, 24), Pair(100, 48))), lathe).reasons
    ('the 100 T driver of pair 2 fouls the shaft before it: 32 + 24 is not above 100 + 15',)
    """
    banjo = lathe.banjo
    reasons = [*_shaft_faults(train, lathe)]
    open_points: list[str] = []
    if banjo is None or banjo.stud_nut is None:
        open_points.append(f"k = {USUAL_CLEARANCE_TEETH} teeth assumed: the file gives no stud nut")
    if banjo is None:
        open_points.append("reach of the banjo: the file has no [banjo]")
        return Mounting(Verdict.DOES_NOT_FIT if reasons else Verdict.FITS, tuple(reasons), tuple(open_points))
    studs_needed = len(train.pairs) - 1 + len(idlers)
    if banjo.studs is not None and studs_needed > banjo.studs:
        reasons.append(f"{studs_needed} studs are needed; the banjo has {banjo.studs}")
    if banjo.largest_wheel_teeth is not None:
        largest = max(teeth for _, teeth in train.wheels)
        if largest > banjo.largest_wheel_teeth:
            reasons.append(f"{largest} T is larger than the {banjo.largest_wheel_teeth} T the guard allows")
    if not idlers:
        reasons.extend(_mesh_limit_faults(train, lathe))
    geometry_given = banjo.slot is not None or banjo.centre_distance is not None
    if geometry_given:
        open_points.append("stud places along the slot, swing and idlers: not worked out")
    elif not banjo.mesh_limits:
        open_points.append("reach of the banjo: the file gives neither slot nor mesh_limits")
    if reasons:
        return Mounting(Verdict.DOES_NOT_FIT, tuple(reasons), tuple(open_points))
    verdict = Verdict.NOT_CHECKED if geometry_given else Verdict.FITS
    return Mounting(verdict, (), tuple(open_points))


def _shaft_faults(train: Train, lathe: Lathe) -> Iterator[str]:
    for number, (pair, following) in enumerate(zip(train.pairs, train.pairs[1:], strict=False), start=1):
        modules = tuple(lathe.wheel_classes[each.wheel_class].module for each in (pair, following))
        sums = tuple(
            module * (each.driver + each.driven) for each, module in zip((pair, following), modules, strict=True)
        )
        if not sums[0] > modules[1] * following.driver + clearance(lathe, modules[1]):
            yield (
                f"the {following.driver} T driver of pair {number + 1} fouls the shaft before it: "
                f"{pair.driver} + {pair.driven} is not above {following.driver} + {_clearance_text(lathe, modules[1])}"
            )
        if not sums[1] > modules[0] * pair.driven + clearance(lathe, modules[0]):
            yield (
                f"the {pair.driven} T driven wheel of pair {number} fouls the shaft after it: "
                f"{following.driver} + {following.driven} is not above "
                f"{pair.driven} + {_clearance_text(lathe, modules[0])}"
            )


def clearance(lathe: Lathe, module: Length) -> Length:
    """Return k as a length: two modules and the stud nut, or fifteen modules where the nut is not known.

    Examples
    --------
    >>> from fractions import Fraction
    >>> lathe = Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, ())
    >>> clearance(lathe, Length.of_mm(1))
    Length(mm=Fraction(15, 1))
    """
    if lathe.banjo is None or lathe.banjo.stud_nut is None:
        return module * USUAL_CLEARANCE_TEETH
    return module * 2 + lathe.banjo.stud_nut


def _clearance_text(lathe: Lathe, module: Length) -> str:
    return trimmed_decimal_text(clearance(lathe, module) / module, 1)


def _mesh_limit_faults(train: Train, lathe: Lathe) -> Iterator[str]:
    limits = lathe.banjo.mesh_limits if lathe.banjo else ()
    for number, (pair, (least, most)) in enumerate(zip(train.pairs, limits, strict=False), start=1):
        module = lathe.wheel_classes[pair.wheel_class].module
        centres = Length(module.mm * (pair.driver + pair.driven) / 2)
        if not least <= centres <= most:
            shown = trimmed_decimal_text(centres.mm, 2)
            bounds = f"{trimmed_decimal_text(least.mm, 2)} to {trimmed_decimal_text(most.mm, 2)} mm"
            yield f"mesh {number} needs {shown} mm between centres; the banjo allows {bounds}"
