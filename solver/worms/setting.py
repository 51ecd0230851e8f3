"""Setting a wheel blank to its cutter or tap with a gauge rod and a touch."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from solver.quantities.lengths import Length, shown_mm
from solver.refusals import ImpossibleSettingError


def set_over(rim: Length, cutter: Length) -> Length:
    """Return how far the table moves across after the cutter's side has touched the rim: half of both.

    Parameters
    ----------
    rim : Length
        Outside diameter of the blank where it was touched.
    cutter : Length
        Thickness of the cutter.

    Returns
    -------
    Length
        Exact.

    Examples
    --------
    >>> set_over(Length.of_mm(43), Length.of_mm(1))
    Length(mm=Fraction(22, 1))
    """
    return Length((rim + cutter).mm / 2)


def height_below_rod(rod: Length, offset: Length) -> Length:
    """Return how far below the top of a gauge rod in the spindle a point lies that is so far below centre.

    Parameters
    ----------
    rod : Length
        Diameter of the rod.
    offset : Length
        From the spindle's axis down to the point; below zero when it lies above.

    Returns
    -------
    Length
        Rod radius plus offset; exact.

    Examples
    --------
    >>> height_below_rod(Length.of_mm(10), Length.of_mm("1.5"))
    Length(mm=Fraction(13, 2))
    """
    return Length(rod.mm / 2) + offset


def gap_to_rod(centre_distance: Length, rod: Length, rim: Length) -> Length:
    """Return the gap between a gauge rod on the tap's axis and the blank, at a centre distance.

    Parameters
    ----------
    centre_distance : Length
        Between the axes of rod and blank.
    rod, rim : Length
        Diameters.

    Returns
    -------
    Length
        Exact for what it is given.

    Raises
    ------
    ImpossibleSettingError
        The rod is too large to pass.

    Examples
    --------
    >>> gap_to_rod(Length.of_mm(20), Length.of_mm(6), Length.of_mm(30))
    Length(mm=Fraction(2, 1))
    """
    gap = centre_distance - Length((rod + rim).mm / 2)
    if gap.mm < 0:
        # Rounded down, so that a rod of the figure that is told does pass.
        largest = Length(Fraction(floor((centre_distance * 2 - rim).mm * 1000), 1000))
        raise ImpossibleSettingError(
            f"a gauge rod of {shown_mm(rod)} does not pass the blank at this centre distance",
            help_text=f"Use a rod of at most {shown_mm(largest)}.",
        )
    return gap
