"""A worm wheel on a screw: what one turn of the wheel reads, and what a counter of turns must hold."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.lengths import Length


@dataclass(frozen=True, slots=True)
class CountingWheel:
    """A worm wheel turned by the screw itself, or by a worm on it.

    Parameters
    ----------
    lead : Length
        Travel for one turn of the screw.
    teeth : int
        Teeth of the wheel.
    starts : int
        Starts of the worm; teeth that pass for one turn.

    Examples
    --------
    >>> CountingWheel(Length.of_mm(1), 100).travel_per_turn
    Length(mm=Fraction(100, 1))
    """

    lead: Length
    teeth: int
    starts: int = 1

    @property
    def screw_turns_per_turn(self) -> Fraction:
        """Turns of the screw for one turn of the wheel.

        Examples
        --------
        >>> CountingWheel(Length.of_mm(1), 60, starts=2).screw_turns_per_turn
        Fraction(30, 1)
        """
        return Fraction(self.teeth, self.starts)

    @property
    def travel_per_turn(self) -> Length:
        """Travel of the slide for one turn of the wheel.

        Examples
        --------
        >>> CountingWheel(Length.of_inches("1/8"), 80).travel_per_turn.inches
        Fraction(10, 1)
        """
        return self.lead * self.screw_turns_per_turn

    def screw_turns_for(self, travel: Length) -> Fraction:
        """Give the turns of the screw over a travel: what a counter of revolutions counts.

        Examples
        --------
        >>> CountingWheel(Length.of_inches("1/8"), 80).screw_turns_for(Length.of_inches(12))
        Fraction(96, 1)
        """
        return travel / self.lead

    def wheel_turns_for(self, travel: Length) -> Fraction:
        """Give the turns of the wheel over a travel; below one, no reading comes twice.

        Examples
        --------
        >>> CountingWheel(Length.of_inches("1/8"), 80).wheel_turns_for(Length.of_inches(12))
        Fraction(6, 5)
        """
        return travel / self.travel_per_turn

    def teeth_for(self, travel: Length) -> int:
        """Find the fewest teeth that count over a travel without a reading coming twice.

        Examples
        --------
        >>> CountingWheel(Length.of_inches("1/8"), 80).teeth_for(Length.of_inches(12))
        96
        """
        return -(-(travel / self.lead * self.starts) // 1)
