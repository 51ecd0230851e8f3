"""Will the wheel drive the worm back: a hint, never a promise, with the friction it assumes."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent, cosine

#: Friction assumed where none is given: steel on bronze, poorly oiled; well oiled it is about half of it.
USUAL_FRICTION = Fraction(1, 10)
#: Lead angle up to which a worm is said to hold (Mott, Machine Elements in Mechanical Design, 4th ed., p. 343).
HOLDING_ANGLE = Angle(Fraction(5, 360))


@dataclass(frozen=True, slots=True)
class FrictionHint:
    """What an assumed friction says of a worm.

    Parameters
    ----------
    lead_tangent : Fraction
        Tangent of the lead angle.
    flank : Angle
        Flank angle square to the thread.
    friction : Fraction
        Coefficient assumed.
    """

    lead_tangent: Fraction
    flank: Angle
    friction: Fraction = USUAL_FRICTION

    @property
    def friction_tangent(self) -> Fraction:
        """Tangent of the friction angle: friction over the cosine of the flank.

        Examples
        --------
        >>> FrictionHint(Fraction(1, 20), Angle.of_degrees(60), Fraction(1, 10)).friction_tangent
        Fraction(1, 5)
        """
        return self.friction / cosine(self.flank)

    @property
    def friction_angle(self) -> Angle:
        """Lead angle below which this friction holds the worm.

        Examples
        --------
        >>> FrictionHint(Fraction(1, 20), Angle.of_degrees(60), Fraction(1, 2)).friction_angle
        Angle(turns=Fraction(1, 8))
        """
        return arc_tangent(self.friction_tangent)

    @property
    def holds(self) -> bool:
        """True when the wheel cannot drive the worm at this friction, at rest and unshaken.

        Examples
        --------
        >>> FrictionHint(Fraction(1, 20), Angle.of_degrees(20)).holds
        True
        """
        return self.lead_tangent < self.friction_tangent

    @property
    def is_within_five_degrees(self) -> bool:
        """True when the lead angle is within the five degrees of the rule of thumb.

        Examples
        --------
        >>> FrictionHint(Fraction(1, 10), Angle.of_degrees(20)).is_within_five_degrees
        False
        """
        return arc_tangent(self.lead_tangent) <= HOLDING_ANGLE

    @property
    def efficiency(self) -> Fraction:
        """Part of the power that passes when the worm drives: tan g over tan (g + friction angle).

        Examples
        --------
        >>> round(FrictionHint(Fraction(3, 22), Angle.of_degrees(20), Fraction(1, 20)).efficiency, 4)
        Fraction(7141, 10000)
        """
        lead, rub = self.lead_tangent, self.friction_tangent
        return lead * (1 - lead * rub) / (lead + rub)
