"""Learning the constant of a lathe from one row of its threading plate."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead


def lead_at_equal_wheels(cut_lead: Length, stud_wheel: int, screw_wheel: int) -> Length:
    """Infer the lead cut with equal wheels from a row: thread, stud wheel, screw wheel.

    Parameters
    ----------
    cut_lead : Length
        Lead of the thread in the row.
    stud_wheel : int
        Wheel on the stud, the driver. [teeth]
    screw_wheel : int
        Wheel on the leadscrew, the driven. [teeth]

    Returns
    -------
    Length
        Exact.

    References
    ----------
    F. D. Jones, Turning and Boring, 1914, ch. IV pp. 136-137: 7 per inch with 48 and 84 gives constant 4.

    Examples
    --------
    >>> lead_at_equal_wheels(Length.of_inches("1/7"), 48, 84) == Length.of_inches("1/4")
    True
    """
    return cut_lead * Fraction(screw_wheel, stud_wheel)


def constant_needed(lead: Lead, ratio: Fraction) -> Lead:
    """Infer the lead cut with equal wheels that a whole train, gearbox included, needs to cut a lead.

    Parameters
    ----------
    lead : Length or PiLength
        Lead of the thread in the row.
    ratio : Fraction
        Product of drivers over product of driven wheels.

    Returns
    -------
    Length or PiLength
        Of the same kind as the lead; exact.

    Examples
    --------
    >>> constant_needed(Length.of_inches("1/16"), Fraction(36 * 24, 48 * 72)) == Length.of_inches("1/4")
    True
    """
    return lead * (1 / ratio)
