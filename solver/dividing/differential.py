"""Differential dividing: the plate, geared to the work, turns while the crank moves.

N moves of m crank turns relative to the plate, and x turns of the plate in one turn of the work, turn the worm R
times: N·m + x = R, so x = R - N·m.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import islice
from math import ceil, floor, gcd
from operator import itemgetter
from typing import NamedTuple

from solver.dividing.heads import Head
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.plate_gearing import MOST_PAIRS, PlateGearing, gear_box, gearings, idlers_by_pairs
from solver.refusals import ImpossibleSettingError

#: Most settings listed of one part of a turn.
MOST_SETTINGS = 5000
#: Fewest and most teeth of a wheel worth suggesting. [teeth]
FEWEST_SUGGESTED = 20
MOST_SUGGESTED = 127
#: A plate driven faster than this is not looked for when a wheel is suggested, unless the box alone does it.
FASTEST_SUGGESTED = Fraction(8)

#: What settings are sorted by.
_Rank = tuple[object, ...]


class _Nominal(NamedTuple):
    """A crank move on one circle, and the plate turns it calls for, reduced, as numerator and denominator."""

    plate: str | None
    circle: int | None
    spaces: int
    over: int
    under: int


class OneWheelMore(NamedTuple):
    """A wheel that would make a count exact, with the first setting that uses it; and the smallest that would too."""

    teeth: int
    answer: IndexAnswer
    smallest: int


def differential(head: Head, wanted: Fraction, *, at_once: int = 1) -> tuple[IndexAnswer, ...]:
    """Find every exact differential setting of a head for a part of a turn.

    Every circle of every plate, every train of one or two pairs from the box; centre distances are not looked at. Very
    large boxes have more settings than anybody reads: the first 5000 in order are listed, none before them left out.

    Parameters
    ----------
    head : Head
        With plates and wheels.
    wanted : Fraction
        Turns of the work for each move, above 0 and at most 1.
    at_once : int, optional
        Divisions in that part; only carried into the answers.

    Returns
    -------
    tuple of IndexAnswer
        Simple trains before compound ones, then small motion of the plate, large circle, few idlers. Empty when no
        setting is exact.

    Raises
    ------
    ImpossibleSettingError
        The head has no wheels or no plate.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> wheels = ((24, 2), (32, 1), (44, 1), (48, 1), (56, 1))
    >>> head = Head("40:1", Fraction(40), (Plate("C", ((39,),)),), wheels=wheels)
    >>> first = differential(head, Fraction(1, 127))[0]
    >>> first.move, str(first.gearing.train), first.gearing.plate_turns, len(first.gearing.idlers)
    (CrankMove(turns=0, spaces=13, circle=39, sign=1), '56-24', Fraction(-7, 3), 2)
    """
    refuse_without_gears(head)
    return tuple(answer for _, answer in islice(_in_order(head, wanted, at_once), MOST_SETTINGS))


def _in_order(head: Head, wanted: Fraction, at_once: int) -> Iterator[tuple[_Rank, IndexAnswer]]:
    """Yield the settings as they are ranked: the number of pairs first, then the rate of the plate, then the rest."""
    by_rate: dict[Fraction, list[_Nominal]] = {}
    for row in _nominals(head, wanted):
        by_rate.setdefault(Fraction(abs(row.over), row.under), []).append(row)
    rates = sorted(by_rate.items())
    box = gear_box(head.wheels)
    for pairs in range(1, MOST_PAIRS + 1):
        for rate, rows in rates:
            # Most rates have no train, and that is told soonest before their rows are looked at.
            if not box.choices(rate.numerator, rate.denominator, pairs):
                continue
            alike = [
                (
                    _rank(move, row.plate, gearing),
                    IndexAnswer(
                        Method.DIFFERENTIAL, move, row.plate, wanted, wanted, wanted.denominator,
                        gearing=gearing, at_once=at_once,
                    ),
                )
                for row in rows
                for move in (_move(row),)
                for gearing in gearings(
                    head, Fraction(row.over, row.under), head.worm_ratio * at_once / move.value, pairs
                )
            ]  # fmt: skip
            yield from sorted(alike, key=itemgetter(0))


def _move(row: _Nominal) -> CrankMove:
    if row.circle is None:
        return CrankMove(row.spaces, 0, None)
    turns, spaces = divmod(row.spaces, row.circle)
    return CrankMove(turns, spaces, row.circle)


def _rank(move: CrankMove, plate: str | None, gearing: PlateGearing) -> _Rank:
    return (
        len(gearing.train.pairs),
        abs(gearing.plate_turns),
        -(move.circle or 0),
        len(gearing.idlers),
        plate or "",
        gearing.plate_turns,
        gearing.train,
    )


def refuse_without_gears(head: Head) -> None:
    """Refuse differential work on a head that cannot do it.

    Examples
    --------
    >>> refuse_without_gears(Head("bare", Fraction(40), ()))
    Traceback (most recent call last):
    solver.refusals.ImpossibleSettingError: differential dividing needs change wheels; none are listed for this head
    Add [wheels] with teeth = { 24 = 2, 28 = 1 } and so on to the head's file.
    """
    if not head.wheels:
        raise ImpossibleSettingError(
            "differential dividing needs change wheels; none are listed for this head",
            help_text="Add [wheels] with teeth = { 24 = 2, 28 = 1 } and so on to the head's file.",
        )
    if not head.plates:
        raise ImpossibleSettingError(
            "differential dividing needs an index plate; this head has none",
            help_text="Add the plate's circles to the head's file.",
        )


def _nominals(head: Head, wanted: Fraction, largest: Fraction | None = None) -> Iterator[_Nominal]:
    """Yield each crank move that needs no faster plate than the box can drive; whole turns once for all circles."""
    largest = gear_box(head.wheels).largest_ratio if largest is None else largest
    ratio = head.worm_ratio
    low, high = wanted * (ratio - largest), wanted * (ratio + largest)
    seen: set[int] = set()
    for plate, circle in head.circles():
        # x = R - m / part, over one denominator, in whole numbers because there are very many.
        start = ratio.numerator * circle * wanted.numerator
        step = wanted.denominator * ratio.denominator
        under = ratio.denominator * circle * wanted.numerator
        for spaces in range(max(1, ceil(low * circle)), floor(high * circle) + 1):
            over = start - spaces * step
            common = gcd(over, under)
            turns, rest = divmod(spaces, circle)
            if over == 0 or (rest == 0 and turns in seen):
                continue
            if rest == 0:
                seen.add(turns)
                yield _Nominal(None, None, turns, over // common, under // common)
            else:
                yield _Nominal(plate, circle, spaces, over // common, under // common)


def can_gear(head: Head, wanted: Fraction) -> bool:
    """Say whether any differential setting is exact for a part of a turn, sooner than listing them all.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("C", ((39,),)),), wheels=((24, 2), (44, 1), (56, 1)))
    >>> can_gear(head, Fraction(1, 127)), can_gear(head, Fraction(1, 126))
    (True, False)
    """
    if not head.wheels:
        return False
    box = gear_box(head.wheels)
    rates = {(row.over, row.under) for row in _nominals(head, wanted)}
    idlers = {follows: idlers_by_pairs(head, follows=follows) for follows in (True, False)}
    return any(box.can_make(abs(over), under, idlers[over > 0]) for over, under in rates)


def wheel_that_helps(head: Head, wanted: Fraction) -> OneWheelMore | None:
    """Find the one wheel that, laid beside the head's own, makes a part of a turn exact in the best-ranked way.

    Parameters
    ----------
    head : Head
        With plates and wheels, on which no differential setting is exact.
    wanted : Fraction
        Turns of the work for each move.

    Returns
    -------
    OneWheelMore or None
        With it the smallest wheel that would do it too, perhaps in a way that ranks lower; ``None`` when no wheel of
        20 to 127 teeth does it.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("C", ((39,),)),), wheels=((24, 2), (44, 1), (32, 1)))
    >>> wheel_that_helps(head, Fraction(1, 127)).teeth
    26
    """
    refuse_without_gears(head)
    found = []
    # Where nothing but an idler is wanting, any wheel will do, and so the smallest.
    for teeth in sorted({FEWEST_SUGGESTED, *_serving(head, wanted)}):
        stock = dict(head.wheels)
        stock[teeth] = stock.get(teeth, 0) + 1
        first = next(_in_order(replace(head, wheels=tuple(sorted(stock.items()))), wanted, 1), None)
        if first is not None:
            found.append((teeth, *first))
    if not found:
        return None
    # The wheels come by rising teeth, and of equals the first is taken.
    teeth, _, answer = min(found, key=itemgetter(1))
    return OneWheelMore(teeth, answer, found[0][0])


def _serving(head: Head, wanted: Fraction) -> list[int]:
    """List the wheels that complete some train, stock and idlers not looked at, by rising teeth."""
    held = [teeth for teeth, _ in head.wheels]
    # The rest of the train beside the one wheel: nothing but its mate, or its mate and a second pair.
    rests = {(mate, 1) for mate in held}
    rests |= {(mate * first, second) for mate in held for first in held for second in held if first != second}
    largest = max(gear_box(head.wheels).largest_ratio, FASTEST_SUGGESTED)
    found: set[int] = set()
    for over, under in {(abs(row.over), row.under) for row in _nominals(head, wanted, largest)}:
        for up, down in rests:
            for teeth, left in (divmod(up * over, down * under), divmod(up * under, down * over)):
                if not left and FEWEST_SUGGESTED <= teeth <= MOST_SUGGESTED:
                    found.add(teeth)
    return sorted(found)
