"""A move of the crank, and what one setting of the head does to the work."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from solver.dividing.closing import Closing
from solver.dividing.plate_gearing import PlateGearing


class Method(Enum):
    """How the work is divided; the value is the word of the trade."""

    DIRECT = "direct"
    PLAIN = "plain"
    DIFFERENTIAL = "differential"
    COMPOUND = "compound"
    NEAREST = "nearest"


@dataclass(frozen=True, slots=True, order=True)
class CrankMove:
    """Whole turns, then spaces on a circle; spaces, never holes: the pin's own hole is zero.

    Parameters
    ----------
    turns : int
        Whole turns of the crank.
    spaces : int
        Spaces to advance after them.
    circle : int or None
        Holes in the circle; ``None`` when whole turns do it on any circle.
    sign : int, optional
        1 with the crank's usual direction, -1 against it.

    Examples
    --------
    >>> CrankMove(1, 9, 21).value
    Fraction(10, 7)
    """

    turns: int
    spaces: int
    circle: int | None
    sign: int = 1

    @property
    def value(self) -> Fraction:
        """Turns of the crank, signed.

        Examples
        --------
        >>> CrankMove(5, 0, None).value
        Fraction(5, 1)
        """
        part = Fraction(self.spaces, self.circle) if self.circle else Fraction(0)
        return self.sign * (self.turns + part)

    @property
    def sector_holes(self) -> int:
        """Holes the sector arms enclose, the pin's own hole among them.

        Examples
        --------
        >>> CrankMove(0, 12, 18).sector_holes
        13
        """
        return self.spaces + 1

    @classmethod
    def of(cls, turns: Fraction, circle: int) -> CrankMove:
        """Split crank turns that are whole holes of a circle into turns and spaces.

        Examples
        --------
        >>> CrankMove.of(Fraction(10, 7), 21)
        CrankMove(turns=1, spaces=9, circle=21, sign=1)
        """
        whole, spaces = divmod(turns * circle, circle)
        return cls(int(whole), int(spaces), circle)

    def carried(self) -> CrankMove:
        """Return the same move with full circles of spaces counted as turns, as the sector arms need it.

        Examples
        --------
        >>> CrankMove(0, 22, 21).carried()
        CrankMove(turns=1, spaces=1, circle=21, sign=1)
        """
        if self.circle is None:
            return self
        more, spaces = divmod(self.spaces, self.circle)
        return replace(self, turns=self.turns + more, spaces=spaces)


@dataclass(frozen=True, slots=True)
class IndexAnswer(Closing):
    """One setting: method, move, plate, and what it does.

    Parameters
    ----------
    method : Method
        Which kind of setting it is.
    move : CrankMove
        Of the crank, or of the spindle itself for direct work. In compound work the pin in its circle, the plate held;
        in differential work relative to the plate, which turns meanwhile.
    plate : str or None
        Name of the plate; ``None`` when none is needed.
    wanted : Fraction
        Turns of the work asked for, each move.
    reached : Fraction
        Turns of the work made, each move.
    moves_to_close : int
        Moves after which the work should be back where it began.
    second : CrankMove or None
        Compound work only: plate and crank together, counted at the stop pin behind the plate.
    face : int or None
        Compound work only: the face of the plate, from 1, that holds both circles; ``None`` on a one-faced plate.
    gearing : PlateGearing or None
        Differential work only: how the plate is geared to the work spindle.
    at_once : int
        Divisions that each move carries the work on.
    """

    method: Method
    move: CrankMove
    plate: str | None
    wanted: Fraction
    reached: Fraction
    moves_to_close: int
    second: CrankMove | None = None
    face: int | None = None
    gearing: PlateGearing | None = None
    at_once: int = 1

    @property
    def is_on_spindle(self) -> bool:
        """Whether the spindle itself is moved by its own holes or notches, with no crank in it.

        Examples
        --------
        >>> move, part = CrankMove(0, 5, 36), Fraction(5, 36)
        >>> IndexAnswer(Method.NEAREST, move, None, Fraction(1, 7), part, 7).is_on_spindle
        True
        >>> IndexAnswer(Method.NEAREST, move, "A", Fraction(1, 7), part / 40, 7).is_on_spindle
        False
        """
        # A crank without a plate moves by whole turns.
        has_holes = self.move.circle is not None and self.move.circle > 1
        return self.method is Method.DIRECT or (self.plate is None and has_holes)

    @property
    def moves(self) -> tuple[CrankMove, ...]:
        """The motions of one move: one, or in compound work two.

        Examples
        --------
        >>> first, second = CrankMove(0, 10, 15), CrankMove(0, 2, 17)
        >>> len(IndexAnswer(Method.COMPOUND, first, "A", Fraction(1, 51), Fraction(1, 51), 51, second).moves)
        2
        """
        return (self.move,) if self.second is None else (self.move, self.second)

    @property
    def holes_at_closure(self) -> tuple[tuple[int, int], ...]:
        """Where the pins stand after the last move: hole and circle of each motion, the first hole being 0.

        Only plain work brings the pin back to its first hole as a matter of course. A geared plate has itself turned
        meanwhile, and in compound work one pin may make up for the other.

        Examples
        --------
        >>> move, part = CrankMove(0, 13, 39), Fraction(1, 127)
        >>> IndexAnswer(Method.DIFFERENTIAL, move, "C", part, part, 127).holes_at_closure
        ((13, 39),)
        """
        return tuple(
            (move.sign * move.spaces * self.moves_to_close % move.circle, move.circle)
            for move in self.moves
            if move.circle is not None
        )

    @property
    def runs_both_ways(self) -> bool:
        """True when the two motions go against each other, so that play must be taken up each time.

        Examples
        --------
        >>> first, second = CrankMove(0, 21, 23), CrankMove(0, 11, 33, -1)
        >>> IndexAnswer(Method.COMPOUND, first, "B", Fraction(1, 69), Fraction(1, 69), 69, second).runs_both_ways
        True
        """
        return self.second is not None and self.second.sign != self.move.sign
