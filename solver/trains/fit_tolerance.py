"""What the standard allows the pitch diameter of a thread, as far as it is known here."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.powers import root_bounds

#: ASME B1.1, class 2A: this times the sum of the three roots, in inches. From memory of the standard.
_CLASS_2A = Fraction(15, 10_000)


class FitTolerance(NamedTuple):
    """A tolerance of pitch diameter, between two bounds; they are equal when it is given outright.

    Parameters
    ----------
    low, high : Length
        The true tolerance lies between them.
    source : str
        Where it comes from, in a few words.
    """

    low: Length
    high: Length
    source: str

    @classmethod
    def given(cls, tolerance: Length, source: str) -> FitTolerance:
        """Take a tolerance as it is.

        Raises
        ------
        ValueError
            It is not above zero.

        Examples
        --------
        >>> FitTolerance.given(Length.of_mm("0.132"), "M10 6g").high
        Length(mm=Fraction(33, 250))
        """
        if tolerance.mm <= 0:
            message = f"a tolerance is above zero, not {tolerance.mm} mm"
            raise ValueError(message)
        return cls(tolerance, tolerance, source)


def unified_2a(diameter: Length, pitch: Length, engagement: Length) -> FitTolerance:
    """Return the pitch-diameter tolerance of an external unified thread of class 2A.

    0.0015 (cube root of D + square root of Le + 10 times cube root of p squared), all in inches.

    Parameters
    ----------
    diameter : Length
        Basic major diameter.
    pitch : Length
        Pitch.
    engagement : Length
        Length of engagement the class is made for: a diameter for the coarse and fine series, nine pitches else.

    Returns
    -------
    FitTolerance
        Not rounded as the standard's tables are; its bounds are less than ``10**-17`` mm apart.

    Examples
    --------
    >>> quarter = Length.of_inches("1/4")
    >>> tolerance = unified_2a(quarter, Length.of_inches("1/20"), quarter)
    >>> round(tolerance.low.inches * 100_000), round(tolerance.high.inches * 100_000)
    (373, 373)
    """
    of_diameter = root_bounds(diameter.inches, 3)
    of_engagement = root_bounds(engagement.inches, 2)
    of_pitch = root_bounds(pitch.inches**2, 3)
    low, high = (
        Length.of_inches(_CLASS_2A * (of_diameter[side] + of_engagement[side] + 10 * of_pitch[side])) for side in (0, 1)
    )
    return FitTolerance(low, high, "class 2A")
