"""What a given crank move really divides, and how the round fails to close."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.dividing.moves import CrankMove
from solver.quantities.angles import Angle


@dataclass(frozen=True, slots=True)
class IndexAudit:
    """The finding on a move.

    Parameters
    ----------
    move : CrankMove
        As the crank makes it: fewer spaces than the circle has holes.
    worm_ratio : Fraction
        Crank turns for one turn of the work.
    divisions : Fraction
        Moves in one turn of the work; a whole number when the round closes at once.
    """

    move: CrankMove
    worm_ratio: Fraction
    divisions: Fraction

    @property
    def closes(self) -> bool:
        """True when the round closes in a single turn of the work.

        Examples
        --------
        >>> audit_move(CrankMove(0, 20, 47), Fraction(40)).closes
        True
        """
        return self.divisions.denominator == 1

    @property
    def marks(self) -> int:
        """Marks cut before the first is met again.

        Examples
        --------
        >>> audit_move(CrankMove(0, 9, 21), Fraction(40)).marks
        280
        """
        return self.divisions.numerator

    @property
    def rounds(self) -> int:
        """Turns of the work until the first mark is met again.

        Examples
        --------
        >>> audit_move(CrankMove(0, 9, 21), Fraction(40)).rounds
        3
        """
        return self.divisions.denominator

    def error_against(self, wanted: int) -> tuple[Angle, Angle]:
        """Return the error of each move and at closure for a wanted count.

        Examples
        --------
        >>> each, closure = audit_move(CrankMove(0, 11, 18), Fraction(40)).error_against(6)
        >>> closure.degrees
        Fraction(-327, 1)
        """
        each = Angle(1 / self.divisions - Fraction(1, wanted))
        return each, each * wanted


def audit_move(move: CrankMove, worm_ratio: Fraction) -> IndexAudit:
    """Find the count that a crank move divides.

    Parameters
    ----------
    move : CrankMove
        Turns and spaces on a circle, not nothing.
    worm_ratio : Fraction
        Crank turns for one turn of the work.

    Returns
    -------
    IndexAudit
        Exact.

    Examples
    --------
    >>> audit_move(CrankMove(0, 20, 47), Fraction(40)).divisions
    Fraction(94, 1)
    >>> audit_move(CrankMove(0, 37, 21), Fraction(40)).move
    CrankMove(turns=1, spaces=16, circle=21, sign=1)
    """
    return IndexAudit(move.carried(), worm_ratio, worm_ratio / move.value)
