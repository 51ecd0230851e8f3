"""Dividing by the spindle's own holes, by plain moves of the crank, or by the nearest hole.

Direct is the spindle's own circle with the worm out of mesh; plain is one crank move on one circle;
nearest says how far off it is for each move and when the round should close.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from solver.dividing.heads import Head
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.refusals import ImpossibleSettingError

#: Most divisions taken in: a head's whole circle has far fewer holes.
MOST_DIVISIONS = 10**9


@dataclass(frozen=True, slots=True)
class DivideReport:
    """The settings of a head for one part of a turn.

    Parameters
    ----------
    wanted : Fraction
        Turns of the work, each move.
    crank_turns : Fraction
        Exact turns of the crank for it.
    answers : tuple of IndexAnswer
        Exact ones, direct before plain and large circles first; when there is none, the nearest.
    """

    wanted: Fraction
    crank_turns: Fraction
    answers: tuple[IndexAnswer, ...]

    @property
    def is_exact(self) -> bool:
        """True when an exact setting exists.

        Examples
        --------
        >>> DivideReport(Fraction(1, 8), Fraction(5), ()).is_exact
        False
        """
        return bool(self.answers) and self.answers[0].is_exact

    @property
    def circle_needed(self) -> int:
        """Holes of the circle that makes it plain; a multiple serves too.

        Examples
        --------
        >>> DivideReport(Fraction(1, 127), Fraction(40, 127), ()).circle_needed
        127
        """
        return self.crank_turns.denominator


def divide(head: Head, wanted: Fraction, *, most_nearest: int = 5) -> DivideReport:
    """Find every exact setting for a part of a turn, or the nearest ones.

    Parameters
    ----------
    head : Head
        Worm ratio, plates and direct circles.
    wanted : Fraction
        Turns of the work for each move, above 0 and at most 1.
    most_nearest : int, optional
        How many nearest settings to list when none is exact.

    Returns
    -------
    DivideReport
        Complete over the circles of the head.

    Raises
    ------
    ImpossibleSettingError
        Not above 0, more than a turn, or smaller than half the head's smallest move.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)), Plate("B", ((21, 23),))))
    >>> divide(head, Fraction(1, 28)).answers[0].move
    CrankMove(turns=1, spaces=9, circle=21, sign=1)
    """
    refuse_beyond_a_turn(wanted)
    crank = wanted * head.worm_ratio
    exact = exact_settings(head, wanted)
    return DivideReport(wanted, crank, exact or nearest_settings(head, wanted)[:most_nearest])


def refuse_beyond_a_turn(wanted: Fraction) -> None:
    """Refuse a move of the work that is nothing or less, or more than a turn.

    Examples
    --------
    >>> refuse_beyond_a_turn(Fraction(3, 2))
    Traceback (most recent call last):
    solver.refusals.ImpossibleSettingError: a move of the work is above nothing and at most one turn, not 3/2
    Ask for 1 division or more.
    """
    if not 0 < wanted <= 1:
        raise ImpossibleSettingError(
            f"a move of the work is above nothing and at most one turn, not {wanted}",
            help_text="Ask for 1 division or more.",
        )


def exact_settings(head: Head, wanted: Fraction) -> tuple[IndexAnswer, ...]:
    """List the exact direct settings, then the exact plain ones, large circles first.

    Examples
    --------
    >>> [answer.method.value for answer in exact_settings(Head("bare", Fraction(40), (), (24,)), Fraction(1, 8))]
    ['direct', 'plain']
    """
    return (*_direct(head, wanted), *_plain(head, wanted, wanted * head.worm_ratio))


def nearest_settings(head: Head, wanted: Fraction) -> tuple[IndexAnswer, ...]:
    """List the nearest hole of every circle, least error first.

    Raises
    ------
    ImpossibleSettingError
        The move is smaller than half the head's smallest.

    Examples
    --------
    >>> nearest_settings(Head("bare", Fraction(40), ()), Fraction(1, 41))[0].move
    CrankMove(turns=1, spaces=0, circle=1, sign=1)
    """
    crank = wanted * head.worm_ratio
    # The large circles come first, and the sort leaves equals as they come.
    nearest = sorted(_nearest(head, wanted, crank), key=lambda answer: abs(answer.error_per_move.turns))
    if not nearest:
        mover, moved_on = ("crank", "on these plates") if head.has_worm else ("spindle", "of its own holes")
        raise ImpossibleSettingError(
            f"the {mover} would have to move {crank} turn, less than half of the smallest move {moved_on}",
            help_text=f"A circle with {crank.denominator} holes, or a head with a higher worm ratio, would do it.",
        )
    return tuple(nearest)


def _direct(head: Head, wanted: Fraction) -> Iterator[IndexAnswer]:
    for circle in sorted(set(head.direct_circles), reverse=True):
        if (wanted * circle).denominator == 1:
            yield IndexAnswer(Method.DIRECT, CrankMove.of(wanted, circle), None, wanted, wanted, wanted.denominator)


def _plain(head: Head, wanted: Fraction, crank: Fraction) -> Iterator[IndexAnswer]:
    if crank.denominator == 1 and head.has_worm:
        move = CrankMove(int(crank), 0, None)
        yield IndexAnswer(Method.PLAIN, move, None, wanted, wanted, wanted.denominator)
        return
    for plate, circle in head.circles():
        if (crank * circle).denominator == 1:
            yield IndexAnswer(Method.PLAIN, CrankMove.of(crank, circle), plate, wanted, wanted, wanted.denominator)


def _nearest(head: Head, wanted: Fraction, crank: Fraction) -> Iterator[IndexAnswer]:
    places: list[tuple[str | None, int]] = list(head.circles()) or [(None, 1)]
    if not head.has_worm:
        # The spindle is turned by hand from hole to hole of its own circles.
        places = [(None, circle) for circle in sorted(set(head.direct_circles), reverse=True)]
    for plate, circle in places:
        holes = round(crank * circle)
        if holes:
            move = CrankMove.of(Fraction(holes, circle), circle)
            reached = move.value / head.worm_ratio
            yield IndexAnswer(Method.NEAREST, move, plate, wanted, reached, wanted.denominator)
