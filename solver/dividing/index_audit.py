"""What a given index setting really divides, and how the round fails to close."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import gcd

from solver.dividing.moves import CrankMove
from solver.quantities.angles import Angle
from solver.refusals import ImpossibleSettingError

#: A move this near to several divisions is taken to mean them. [parts of one division]
NEAR_ENOUGH = Fraction(1, 20)
#: Most divisions at a time that a row is suspected of.
MOST_SUSPECTED = 9


@dataclass(frozen=True, slots=True)
class IndexAudit:
    """The finding on a setting.

    Parameters
    ----------
    move : CrankMove
        As the crank makes it: fewer spaces than the circle has holes.
    worm_ratio : Fraction
        Crank turns for one turn of the work.
    divisions : Fraction
        Moves in one turn of the work; a whole number when the round closes at once.
    second : CrankMove or None
        The second motion of compound work.
    plate_turns : Fraction
        Turns of a geared plate for one turn of the work, positive when it follows the crank.
    """

    move: CrankMove
    worm_ratio: Fraction
    divisions: Fraction
    second: CrankMove | None = None
    plate_turns: Fraction = Fraction(0)

    @property
    def moves(self) -> tuple[CrankMove, ...]:
        """The motions, one or two.

        Examples
        --------
        >>> len(audit_move(CrankMove(0, 20, 47), Fraction(40)).moves)
        1
        """
        return (self.move,) if self.second is None else (self.move, self.second)

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
        """Turns of the work until the first mark is met again: divisions carried on by each move.

        Examples
        --------
        >>> audit_move(CrankMove(0, 9, 21), Fraction(40)).rounds
        3
        """
        return self.divisions.denominator

    @property
    def wheels_off(self) -> Fraction:
        """Moves in one turn of the work with the plate locked: what a geared row divides when read as a plain one.

        Examples
        --------
        >>> audit_move(CrankMove(0, 22, 33), Fraction(40), plate_turns=Fraction(2)).wheels_off
        Fraction(60, 1)
        """
        return self.worm_ratio / sum((move.value for move in self.moves), Fraction(0))

    def at_once(self, wanted: int) -> int:
        """Return how many divisions of a wanted count each move carries on; 1 unless several fit it closely.

        Examples
        --------
        >>> row = audit_move(CrankMove(1, 7, 39), Fraction(40), second=CrankMove(0, 29, 41))
        >>> row.at_once(106), row.at_once(21)
        (5, 1)
        """
        carried = wanted / self.divisions
        several = round(carried)
        return several if several > 1 and abs(carried - several) <= NEAR_ENOUGH else 1

    def marks_met(self, wanted: int) -> int:
        """Return how many marks of a wanted count are met: fewer than all when the step shares a factor with it.

        Examples
        --------
        >>> audit_move(CrankMove(1, 9, 21), Fraction(40)).marks_met(56)
        28
        """
        return wanted // gcd(wanted, self.at_once(wanted))

    def error_against(self, wanted: int) -> tuple[Angle, Angle]:
        """Return the error of each move and at closure for a wanted count, divided one or several at a time.

        Examples
        --------
        >>> each, closure = audit_move(CrankMove(0, 11, 18), Fraction(40)).error_against(6)
        >>> closure.degrees
        Fraction(-327, 1)
        """
        each = Angle(1 / self.divisions - Fraction(self.at_once(wanted), wanted))
        return each, each * wanted

    def error_beside(self, wanted: Angle) -> Angle:
        """Return the error of each move for a wanted angle; it adds up with every move.

        Examples
        --------
        >>> round(audit_move(CrankMove(0, 1, 23), Fraction(40)).error_beside(Angle.of_degrees("0.4")).arcsec, 1)
        Fraction(-313, 10)
        """
        return Angle(1 / self.divisions - wanted.turns)

    def circle_for(self, turns_of_work: Fraction) -> int | None:
        """Return the least circle on which a part of a turn is exact, the plate turning as it does; none when compound.

        Examples
        --------
        >>> audit_move(CrankMove(0, 20, 47), Fraction(40)).circle_for(Fraction(1, 96))
        12
        """
        if self.second is not None:
            return None
        return ((self.worm_ratio - self.plate_turns) * turns_of_work).denominator

    def move_for(self, wanted: int) -> CrankMove | None:
        """Return the move that divides a wanted count exactly on the circle of the setting; ``None`` where none does.

        Parameters
        ----------
        wanted : int
            Divisions, one at a time; the plate turns as it does. Compound settings are not answered.

        Examples
        --------
        >>> audit_move(CrankMove(0, 7, 53), Fraction(60)).move_for(53)
        CrankMove(turns=1, spaces=7, circle=53, sign=1)
        >>> audit_move(CrankMove(0, 7, 21), Fraction(40)).move_for(53) is None
        True
        """
        turns = (self.worm_ratio - self.plate_turns) / wanted
        circle = self.move.circle or 1
        if self.second is not None or (turns * circle).denominator != 1:
            return None
        return CrankMove.of(turns, circle) if self.move.circle else CrankMove(int(turns), 0, None)

    def likely_counts(self) -> tuple[int, ...]:
        """List counts that the setting divides nearly, several divisions at a time, least error at closure first.

        Only counts that share no factor with the step, within a twentieth of a division at closure.

        Examples
        --------
        >>> audit_move(CrankMove(1, 7, 39), Fraction(40), second=CrankMove(0, 29, 41)).likely_counts()
        (106,)
        """
        found = []
        for step in range(2, MOST_SUSPECTED + 1):
            count = round(step * self.divisions)
            if count > step and gcd(count, step) == 1 and self.at_once(count) == step:
                miss = abs(self.error_against(count)[1].turns)
                if miss * count <= NEAR_ENOUGH:
                    found.append((miss, count))
        return tuple(count for _, count in sorted(found))


def audit_move(
    move: CrankMove,
    worm_ratio: Fraction,
    *,
    second: CrankMove | None = None,
    plate_turns: Fraction = Fraction(0),
) -> IndexAudit:
    """Find the count that a setting divides.

    Parameters
    ----------
    move : CrankMove
        Turns and spaces on a circle, not nothing.
    worm_ratio : Fraction
        Crank turns for one turn of the work.
    second : CrankMove, optional
        The second motion of compound work, signed.
    plate_turns : Fraction, optional
        Turns of a geared plate for one turn of the work, positive when it follows the crank.

    Returns
    -------
    IndexAudit
        Exact: N = (R - x) / m.

    Raises
    ------
    ImpossibleSettingError
        The motions cancel, or the plate outruns the crank so that the work does not go forwards.

    Examples
    --------
    >>> audit_move(CrankMove(0, 20, 47), Fraction(40)).divisions
    Fraction(94, 1)
    >>> audit_move(CrankMove(0, 37, 21), Fraction(40)).move
    CrankMove(turns=1, spaces=16, circle=21, sign=1)
    >>> audit_move(CrankMove(0, 13, 39), Fraction(40), plate_turns=Fraction(-7, 3)).divisions
    Fraction(127, 1)
    """
    turns = move.value + (second.value if second else 0)
    if turns <= 0:
        raise ImpossibleSettingError(
            "the two motions take the work nowhere, or backwards",
            help_text="Look at the signs: the longer motion goes forwards.",
        )
    if plate_turns >= worm_ratio:
        raise ImpossibleSettingError(
            f"a plate that turns {plate_turns} to one of the work takes it nowhere at a worm ratio of {worm_ratio}",
            help_text="Look at the wheels: drivers and driven may be exchanged.",
        )
    carried = None if second is None else second.carried()
    return IndexAudit(move.carried(), worm_ratio, (worm_ratio - plate_turns) / turns, carried, plate_turns)
