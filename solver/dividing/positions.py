"""The table of positions worked from zero: no rounded step is ever added to another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from solver.dividing.heads import Head
from solver.dividing.moves import CrankMove
from solver.quantities.angles import Angle
from solver.refusals import ImpossibleSettingError

#: Longest table printed; nobody walks further by hand. [rows]
MOST_POSITIONS = 5000


@dataclass(frozen=True, slots=True)
class Position:
    """Where the pin stands for one mark.

    Parameters
    ----------
    number : int
        Mark, counted from 0.
    turns : int
        Whole crank turns from the start.
    hole : int
        Hole of the circle, the starting hole being 0.
    move : CrankMove
        How far the crank moved from the mark before; nothing for mark 0.
    exact : Angle
        Where the mark belongs.
    error : Angle
        Where it comes to stand, minus where it belongs; never more than half a hole.
    """

    number: int
    turns: int
    hole: int
    move: CrankMove
    exact: Angle
    error: Angle

    @property
    def reached(self) -> Angle:
        """Where the work comes to stand, as the scale of degrees on the head shows it.

        Examples
        --------
        >>> wanted, error = Angle(Fraction(1, 127)), Angle(Fraction(1, 128) - Fraction(1, 127))
        >>> Position(1, 0, 5, CrankMove(0, 5, 16), wanted, error).reached
        Angle(turns=Fraction(1, 128))
        """
        return Angle(self.exact.turns + self.error.turns)


def equal_marks(part: Fraction, count: int) -> tuple[Fraction, ...]:
    """List how far marks 0 to ``count`` stand from zero, in turns of the work.

    Raises
    ------
    ImpossibleSettingError
        More marks than anybody walks.

    Examples
    --------
    >>> [str(mark) for mark in equal_marks(Fraction(1, 6), 4)]
    ['0', '1/6', '1/3', '1/2', '2/3']
    """
    if count > MOST_POSITIONS:
        raise ImpossibleSettingError(
            f"a table of {count} positions is longer than the {MOST_POSITIONS} anybody walks by hand",
            help_text="Ask for fewer divisions.",
        )
    return tuple(number * part for number in range(count + 1))


def positions(head: Head, part: Fraction, count: int, circle: int) -> Iterator[Position]:
    """Yield marks 0 to ``count`` on one circle, each rounded from zero.

    Parameters
    ----------
    head : Head
        Its worm ratio.
    part : Fraction
        Turns of the work between marks.
    count : int
        Number of moves.
    circle : int
        Holes in the circle used. [holes]

    Yields
    ------
    Position
        ``count + 1`` rows; the last closes the round when ``count * part`` is whole.

    Raises
    ------
    ImpossibleSettingError
        More rows than anybody walks.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("C", ((49,),)),))
    >>> [(row.turns, row.hole) for row in positions(head, Fraction(1, 127), 2, 49)]
    [(0, 0), (0, 15), (0, 31)]
    """
    yield from marks_on(head, equal_marks(part, count), circle)


def marks_on(head: Head, marks: Sequence[Fraction], circle: int) -> Iterator[Position]:
    """Yield marks that stand where they like on one circle, each rounded from zero.

    Parameters
    ----------
    head : Head
        Its worm ratio.
    marks : sequence of Fraction
        Turns of the work from zero, rising; mark 0 is the first of them.
    circle : int
        Holes in the circle used. [holes]

    Yields
    ------
    Position
        One a mark.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("B", ((21,),)),))
    >>> [(row.turns, row.hole) for row in marks_on(head, (Fraction(0), Fraction(1, 28), Fraction(1, 4)), 21)]
    [(0, 0), (1, 9), (10, 0)]
    """
    before = 0
    for number, mark in enumerate(marks):
        holes = round(mark * head.worm_ratio * circle)
        turns, hole = divmod(holes, circle)
        reached = Fraction(holes, circle) / head.worm_ratio
        move = CrankMove.of(Fraction(holes - before, circle), circle)
        yield Position(number, turns, hole, move, Angle(mark), Angle(reached - mark))
        before = holes


def best_circle(head: Head, part: Fraction, count: int) -> tuple[str | None, int]:
    """Choose the circle whose worst position is nearest, the largest among equals.

    Parameters
    ----------
    head : Head
        With at least one plate, or no worm and circles of its own.
    part : Fraction
        Turns of the work between marks.
    count : int
        Number of moves.

    Returns
    -------
    tuple of (str or None, int)
        Plate name and circle; no plate for the spindle's own circles.

    Raises
    ------
    ImpossibleSettingError
        The head has no plate, or the table would be too long.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> best_circle(Head("40:1", Fraction(40), (Plate("C", ((47, 49),)),)), Fraction(1, 127), 127)
    ('C', 49)
    """
    return best_circle_of(head, equal_marks(part, count))


def best_circle_of(head: Head, marks: Sequence[Fraction]) -> tuple[str | None, int]:
    """Choose the circle for marks that stand where they like, as `best_circle` does for equal ones.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("B", ((20, 21),)),))
    >>> best_circle_of(head, (Fraction(0), Fraction(1, 28), Fraction(1, 4)))
    ('B', 21)
    """
    circles: list[tuple[str | None, int]] = list(head.circles())
    if not head.has_worm:
        circles = [(None, circle) for circle in sorted(set(head.direct_circles), reverse=True)]
    if not circles:
        raise ImpossibleSettingError(
            "a table of positions needs an index plate; this head has none",
            help_text="Add the plate's circles to the head's file.",
        )
    worst = {
        (plate, circle): max(abs(row.error.turns) for row in marks_on(head, marks, circle)) for plate, circle in circles
    }
    # The large circles come first, and of equals the first is taken.
    return min(circles, key=lambda place: worst[place])
