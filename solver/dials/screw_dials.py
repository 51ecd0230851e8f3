"""Distances as turns and marks of a screw with a dial, inch or metric, each worked from zero."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import Rounding

#: How a distance becomes whole marks.
_WHOLE: dict[Rounding, Callable[[Fraction], int]] = {
    Rounding.NEAREST: round, Rounding.UP: ceil, Rounding.DOWN: floor
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class DialReading:
    """Where a screw stands after a distance.

    Parameters
    ----------
    sign : int
        1 forward, -1 backward, from the zero.
    turns : int
        Whole turns from the zero.
    marks : int
        Marks beyond them: the dial reads this when forward.
    reached : Length
        Distance that turns and marks give, signed.
    error : Length
        Reached minus wanted; never more than half a mark, to one side less than a whole one.
    """

    sign: int
    turns: int
    marks: int
    reached: Length
    error: Length


@dataclass(frozen=True, slots=True)
class ScrewDial:
    """A feed screw with its dial.

    Parameters
    ----------
    lead : Length
        Travel for one turn.
    marks : int
        Marks round the dial.

    Examples
    --------
    >>> reading = ScrewDial(Length.of_mm(1), 20).read(Length.of_inches(1))
    >>> reading.turns, reading.marks, reading.error
    (25, 8, Length(mm=Fraction(0, 1)))
    """

    lead: Length
    marks: int

    def __post_init__(self) -> None:
        if self.lead.mm <= 0 or self.marks < 1:
            message = "a screw has a lead above zero and its dial one mark or more"
            raise ValueError(message)

    @property
    def per_mark(self) -> Length:
        """Travel for one mark.

        Examples
        --------
        >>> ScrewDial(Length.of_mm(4), 80).per_mark
        Length(mm=Fraction(1, 20))
        """
        return self.lead * Fraction(1, self.marks)

    def read(self, distance: Length, rounding: Rounding = Rounding.NEAREST) -> DialReading:
        """Give the turns and marks for a distance from zero, to the nearest mark.

        Parameters
        ----------
        distance : Length
            Signed.
        rounding : Rounding, optional
            For a bound the mark on its side, further from zero or nearer to it.

        Examples
        --------
        >>> reading = ScrewDial(Length.of_inches("1/10"), 100).read(Length.of_mm(-20))
        >>> reading.sign, reading.turns, reading.marks, reading.error.inches
        (-1, 7, 87, Fraction(51, 127000))
        >>> ScrewDial(Length.of_mm(4), 80).read(Length.of_mm("4.24"), Rounding.DOWN).marks
        4
        """
        steps = _WHOLE[rounding](abs(distance.mm) / self.per_mark.mm)
        sign = -1 if distance.mm < 0 else 1
        turns, marks = divmod(steps, self.marks)
        reached = self.per_mark * (sign * steps)
        return DialReading(sign, turns, marks, reached, reached - distance)
