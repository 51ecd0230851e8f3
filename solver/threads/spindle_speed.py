"""Spindle speed for screwcutting: by the surface speed, and by the approach to a shoulder; the slower wins."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.exact_numbers import order_of_magnitude
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_HIGH

#: Surface speed taken where the person gives none: mild steel, high speed steel tool. Common practice.
USUAL_SURFACE_SPEED = Length.of_mm(25_000)
#: Share of the plain turning speed at which a thread is begun; one quarter to one third is common practice.
THREADING_SHARE = Fraction(1, 4)
#: Time to see the mark, withdraw the tool and open the nut. Common practice. [seconds]
USUAL_REACTION = Fraction(1)
#: Below this no small lathe runs; the spindle is turned by hand. Common practice. [turns a minute]
BY_HAND_BELOW = 20


class SpindleSpeed(NamedTuple):
    """Speeds in turns a minute.

    Parameters
    ----------
    turning : Fraction
        Plain turning at the surface speed, on the largest diameter of the thread.
    threading : Fraction
        The share of it taken for screwcutting.
    approach : Fraction
        The fastest at which the carriage stops within the run-out.
    """

    turning: Fraction
    threading: Fraction
    approach: Fraction

    @property
    def slower(self) -> Fraction:
        """The speed to use: the slower of the two.

        Examples
        --------
        >>> SpindleSpeed(Fraction(800), Fraction(200), Fraction(120)).slower
        Fraction(120, 1)
        """
        return min(self.threading, self.approach)

    @property
    def taken(self) -> Fraction:
        """The slower, as it is told: two figures, never above.

        Examples
        --------
        >>> SpindleSpeed(Fraction(1990), Fraction(497), Fraction(600)).taken
        Fraction(490, 1)
        """
        return told_speed(self.slower)

    @property
    def is_by_hand(self) -> bool:
        """True where no small lathe runs so slowly.

        Examples
        --------
        >>> SpindleSpeed(Fraction(800), Fraction(200), Fraction(19)).is_by_hand
        True
        """
        return self.slower < BY_HAND_BELOW

    @property
    def set_by(self) -> str:
        """What sets the speed: ``approach`` or ``surface speed``.

        Examples
        --------
        >>> SpindleSpeed(Fraction(800), Fraction(200), Fraction(120)).set_by
        'approach'
        """
        return "approach" if self.approach < self.threading else "surface speed"


def told_speed(speed: Fraction) -> Fraction:
    """Round down to the two figures that a surface speed or a hand's time holds.

    Examples
    --------
    >>> told_speed(Fraction(199)), told_speed(Fraction(4, 3))
    (Fraction(190, 1), Fraction(13, 10))
    """
    step = Fraction(10) ** (order_of_magnitude(speed) - 1)
    return speed // step * step


def spindle_speed(
    diameter: Length,
    lead: Length,
    stopping: Length,
    *,
    surface: Length = USUAL_SURFACE_SPEED,
    share: Fraction = THREADING_SHARE,
    reaction: Fraction = USUAL_REACTION,
) -> SpindleSpeed:
    """Work out the speeds.

    Parameters
    ----------
    diameter : Length
        Largest diameter that is cut.
    lead : Length
        Travel of the carriage in one turn.
    stopping : Length
        Travel within which the carriage must stop.
    surface : Length, optional
        Surface speed, as length in a minute.
    share : Fraction, optional
        Share of the turning speed taken for screwcutting.
    reaction : Fraction, optional
        Time the hand takes. [seconds]

    Returns
    -------
    SpindleSpeed
        Turns a minute; those by surface speed a shade below the truth, by less than 1e-70 of it.

    Examples
    --------
    >>> found = spindle_speed(Length.of_mm(10), Length.of_mm("1.5"), Length.of_mm(3))
    >>> round(found.turning), round(found.threading), found.approach
    (796, 199, Fraction(120, 1))
    """
    turning = surface / diameter / PI_HIGH
    return SpindleSpeed(turning, turning * share, 60 * (stopping / lead) / reaction)
