"""Compound dividing: two motions on two circles of one face of the mounted plate.

The pin moves in one circle while the stop pin behind holds the plate; then plate and crank move together, counted
at the stop pin in the other circle. The plate cannot be changed between the two, so both circles are on one face.

All sums of a pair of circles are the multiples of 1 over their least common multiple L. The multiple nearest to what
is wanted is therefore the nearest sum of that pair, and L decides whether any sum is exact.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from math import floor, gcd, lcm
from typing import NamedTuple

from solver.dividing.heads import Head
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.skipping import steps_prime_to
from solver.refusals import ImpossibleSettingError

#: Most divisions carried on by one move, unless a number is asked for.
MOST_AT_ONCE = 9


class _Sum(NamedTuple):
    """One way of making a multiple of 1/L: whole turns and spaces on the one circle, spaces on the other."""

    first: CrankMove
    second: CrankMove


def compound(head: Head, part: Fraction, *, at_once: int | None = None) -> tuple[IndexAnswer, ...]:
    """Find the nearest settings on two circles of one face, the exact ones where there are any.

    Bounds: both motions turn the crank; each is less than one turn apart from whole turns on the first, which goes
    forwards; a move carries the work on by 1 to 9 divisions that share no factor with the count; a sum half as much
    again as is wanted, or half as little, is no answer. For each pair of circles and each number of divisions the
    nearest sum is listed with every way to make it, so no nearer setting exists within these bounds. Where none of
    those has both motions forwards, the nearest sum that has is listed too, if it is within half a hole.

    Parameters
    ----------
    head : Head
        Its plates and worm ratio.
    part : Fraction
        Turns of the work for one division, above 0 and at most 1.
    at_once : int, optional
        Divisions each move, and no other number of them.

    Returns
    -------
    tuple of IndexAnswer
        Only exact ones where there are any. Least error first; then one division each move before several, both
        motions forwards before opposite ones, the shorter motions, the larger circles.

    Raises
    ------
    ImpossibleSettingError
        No face of any plate has two circles, or the part is smaller than anything two circles can make.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),))
    >>> compound(head, Fraction(1, 51))[0].moves
    (CrankMove(turns=0, spaces=2, circle=17, sign=1), CrankMove(turns=0, spaces=12, circle=18, sign=1))
    """
    pairs = list(_circle_pairs(head))
    if not pairs:
        raise ImpossibleSettingError(
            "compound dividing needs two circles on one face of a plate; this head has no such plate",
            help_text="Describe the plate's circles in the head's file, one list for each face.",
        )
    steps = (at_once,) if at_once else steps_prime_to(part, MOST_AT_ONCE)
    found = []
    for step in steps:
        wanted = part * step
        for plate, face, low, high in pairs:
            for total, ways in _nearest_sums(wanted * head.worm_ratio, low, high):
                found += [
                    IndexAnswer(
                        Method.COMPOUND, way.first, plate, wanted, total / head.worm_ratio, wanted.denominator,
                        second=way.second, face=face, at_once=step,
                    )
                    for way in ways
                ]  # fmt: skip
    if not found:
        crank = part * (at_once or 1) * head.worm_ratio
        raise ImpossibleSettingError(
            f"the crank would have to move {crank} turn, finer than two circles of one face can make",
            help_text="A head with a higher worm ratio would do it.",
        )
    exact = [answer for answer in found if answer.is_exact]
    return tuple(sorted(exact or found, key=_rank))


def _rank(answer: IndexAnswer) -> tuple[object, ...]:
    first, second = answer.moves
    return (
        abs(answer.error_per_move.turns),
        answer.at_once,
        answer.runs_both_ways,
        abs(first.value) + abs(second.value),
        -min(first.circle or 0, second.circle or 0),
        answer.plate or "",
        answer.face or 0,
        first,
        second,
    )


def _circle_pairs(head: Head) -> Iterator[tuple[str, int | None, int, int]]:
    sides = {plate.name: len(plate.faces) for plate in head.plates}
    for plate, number, circles in head.faces():
        face = number if sides[plate] > 1 else None
        for low, high in combinations(sorted(set(circles)), 2):
            yield plate, face, low, high


def _nearest_sums(turns: Fraction, low: int, high: int) -> Iterator[tuple[Fraction, list[_Sum]]]:
    """Yield the nearest sum of two circles that takes two motions, then the nearest with both forwards if another."""
    whole = lcm(low, high)
    nearest = _first_sums(turns, low, high, forwards=False)
    if nearest is None:
        return
    total, ways = nearest
    yield Fraction(total, whole), ways
    if not _has_forwards(ways):
        better = _first_sums(turns, low, high, forwards=True)
        # Farther off than half a hole of the larger circle, one motion on that circle alone does better.
        if better is not None and 2 * high * abs(Fraction(better[0], whole) - turns) < 1:
            yield Fraction(better[0], whole), better[1]


def _first_sums(turns: Fraction, low: int, high: int, *, forwards: bool) -> tuple[int, list[_Sum]] | None:
    """Walk outwards from what is wanted to the nearest multiple of 1/L that the two circles make as asked."""
    for total in _outwards(turns * lcm(low, high)):
        ways = list(_ways(total, low, high))
        if forwards:
            ways = [way for way in ways if way.second.sign == way.first.sign]
        if ways:
            return total, ways
    return None


def _outwards(exact: Fraction) -> Iterator[int]:
    """Yield whole numbers by their distance, until one is half as much again as is wanted, or half as little."""
    below = floor(exact)
    above = below + 1
    while True:
        nearest = below if 2 * exact <= below + above else above
        if 2 * abs(nearest - exact) >= exact:
            return
        yield nearest
        if nearest == below:
            below -= 1
        else:
            above += 1


def _has_forwards(ways: list[_Sum]) -> bool:
    return any(way.second.sign == way.first.sign for way in ways)


def _ways(total: int, low: int, high: int) -> Iterator[_Sum]:
    """Yield the ways to make ``total / L``: the circles' common factor tells how many there are."""
    common = gcd(low, high)
    low_step, high_step = high // common, low // common
    whole = lcm(low, high)
    start = total * pow(low_step, -1, high_step) % high_step
    for extra in range(common):
        on_low = start + extra * high_step
        on_high = (total - on_low * low_step) // high_step % high
        turns = (total - on_low * low_step - on_high * high_step) // whole
        if not (on_low and on_high):
            continue
        if turns >= 0:
            yield _Sum(CrankMove(turns, on_low, low), CrankMove(0, on_high, high))
        else:
            yield _Sum(CrankMove(0, on_low, low), CrankMove(0, high - on_high, high, -1))
            yield _Sum(CrankMove(0, on_high, high), CrankMove(0, low - on_low, low, -1))


def can_compound(head: Head, part: Fraction) -> bool:
    """Say whether two circles of one face make a part of a turn exactly, one or several divisions at a time.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),))
    >>> can_compound(head, Fraction(1, 51)), can_compound(head, Fraction(1, 127))
    (True, False)
    """
    pairs = {(low, high): lcm(low, high) for _, _, low, high in _circle_pairs(head)}
    # With a broken worm ratio a longer step may cancel what one division leaves over.
    return any(
        whole % turns.denominator == 0 and any(_ways(int(turns * whole), low, high))
        for turns in (step * part * head.worm_ratio for step in steps_prime_to(part, MOST_AT_ONCE))
        for (low, high), whole in pairs.items()
    )
