"""Lead angles, and the side relief a tool needs because of them."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent, tangent
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.threads.basic_dimensions import Diameters
from solver.threads.forms import ThreadForm

#: Clearance left under each flank once the lead is allowed for. Common practice.
USUAL_CLEARANCE = Angle.of_degrees(3)
#: Clearance of the front of a tool for a screw. Course manual for a small lathe: front 10 degrees.
USUAL_FRONT = Angle.of_degrees(10)


class SideRelief(NamedTuple):
    """Relief to grind on the two sides of the tool, square to the lathe axis.

    Parameters
    ----------
    leading, trailing : Angle
        The leading side is the one that goes first: the left of a right-hand thread cut toward the headstock.
        A trailing relief below zero means that the lead alone clears more than was asked.
    """

    leading: Angle
    trailing: Angle


def lead_angle(lead: Length, diameter: Length) -> Angle:
    """Return the angle between the thread and a plane square to the axis, at a diameter.

    Parameters
    ----------
    lead : Length
        Advance in one turn.
    diameter : Length
        Above zero.

    Returns
    -------
    Angle
        Within 1e-30 turn.

    Examples
    --------
    >>> round(lead_angle(Length.of_mm("1.5"), Length.of_mm("9.025721")).degrees, 4)
    Fraction(15141, 5000)
    """
    return arc_tangent(lead / diameter / PI_LOW)


def side_relief(lead: Length, diameters: Diameters, clearance: Angle = USUAL_CLEARANCE) -> SideRelief:
    """Return the relief of the two sides: the lead is steepest at the smallest diameter, least at the largest.

    Parameters
    ----------
    lead : Length
        Advance in one turn.
    diameters : Diameters
        Of the screw, or of the nut.
    clearance : Angle, optional
        What is to be left under each flank.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> from solver.threads.thread import Thread
    >>> screw = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
    >>> relief = side_relief(screw.lead, screw.basic().external)
    >>> round(relief.leading.degrees, 2), round(relief.trailing.degrees, 2)
    (Fraction(127, 20), Fraction(27, 100))
    """
    steepest, least = lead_angle(lead, diameters.minor), lead_angle(lead, diameters.major)
    return SideRelief(Angle(clearance.turns + steepest.turns), clearance - least)


def flank_clearance(form: ThreadForm, front: Angle = USUAL_FRONT) -> Angle:
    """Return what a front clearance leaves beside the flanks along the axis, on a tool ground by its front alone.

    Tool makers print this figure, by the tangent of the half angle; square to a flank it is less, by the sine.

    Parameters
    ----------
    form : ThreadForm
        Form of the tool.
    front : Angle, optional
        Clearance of the front of the tool.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> round(flank_clearance(FORMS["iso"]).degrees, 2)
    Fraction(581, 100)
    """
    slope: Fraction = tangent(front) * form.tangent
    return arc_tangent(slope)
