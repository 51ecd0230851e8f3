"""A helix by its lead, its diameter and its angle from the axis; any two give the third."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent, cosine, sine, square_root, tangent
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW, Lead, PiLength
from solver.refusals import ImpossibleSettingError

#: Helix angles answered; beyond them the table does not swing, or there is no helix to speak of.
LEAST_ANGLE = Angle(Fraction(1, 3600))
GREATEST_ANGLE = Angle(Fraction(80, 360))


def lead_from_angle(diameter: Length, angle: Angle) -> PiLength:
    """Return the lead of a helix: pi times diameter over the tangent of its angle.

    Parameters
    ----------
    diameter : Length
        At which the angle is meant.
    angle : Angle
        From the axis.

    Returns
    -------
    PiLength
        Good to 30 decimals, exact where the tangent is.

    Raises
    ------
    ImpossibleSettingError
        An angle below 0.1 degree or above 80.

    Examples
    --------
    >>> lead_from_angle(Length.of_mm(40), Angle.of_degrees(45))
    PiLength(mm_per_pi=Fraction(40, 1))
    """
    return PiLength(diameter.mm / tangent(_checked(angle)))


def lead_of_gear(teeth: int, normal_module: Length, angle: Angle) -> PiLength:
    """Return the lead of a helical gear's teeth: pi times teeth times normal module over the sine of its angle.

    Examples
    --------
    >>> lead_of_gear(30, Length.of_mm(2), Angle.of_degrees(30))
    PiLength(mm_per_pi=Fraction(120, 1))
    """
    return PiLength(normal_module.mm * teeth / sine(_checked(angle)))


def gear_diameter(teeth: int, normal_module: Length, angle: Angle) -> Length:
    """Return the pitch diameter of a helical gear; good to 40 decimals.

    Examples
    --------
    >>> gear_diameter(30, Length.of_mm(2), Angle.of_degrees(60))
    Length(mm=Fraction(120, 1))
    """
    return Length(normal_module.mm * teeth / cosine(_checked(angle)))


def tangent_of_helix(diameter: Length, lead: Lead) -> Fraction:
    """Return the tangent of the helix angle at a diameter: once round over the lead.

    Examples
    --------
    >>> tangent_of_helix(Length.of_mm(40), PiLength(Fraction(80)))
    Fraction(1, 2)
    """
    if isinstance(lead, PiLength):
        return diameter.mm / lead.mm_per_pi
    return PI_LOW * diameter.mm / lead.mm


def helix_angle(diameter: Length, lead: Lead) -> Angle:
    """Return the angle from the axis at a diameter: what the table is swung to.

    Examples
    --------
    >>> round(helix_angle(Length.of_inches(2), Length.of_inches(12)).degrees, 3)
    Fraction(6909, 250)
    """
    return arc_tangent(tangent_of_helix(diameter, lead))


def virtual_teeth(teeth: int, slope: Fraction) -> Fraction:
    """Return the count a gear cutter is chosen for: teeth over the cubed cosine of the helix angle.

    Parameters
    ----------
    teeth : int
        Really cut.
    slope : Fraction
        Tangent of the helix angle at the pitch diameter.

    Returns
    -------
    Fraction
        Good to 40 decimals.

    Examples
    --------
    >>> virtual_teeth(64, Fraction(3, 4))
    Fraction(125, 1)
    """
    squared = 1 + slope * slope
    return teeth * squared * square_root(squared)


def _checked(angle: Angle) -> Angle:
    if not LEAST_ANGLE <= angle <= GREATEST_ANGLE:
        raise ImpossibleSettingError(
            "a helix angle is answered from 0.1 to 80 degrees from the axis",
            help_text="Near 90 degrees it is a thread: gear the lathe for it.",
        )
    return angle
