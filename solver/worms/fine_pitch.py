"""Depths of fine-pitch worms by ANSI B6.9 / AGMA 6022, set beside the proportions in use here. From memory.

In inches, of the pitch square to the thread, which is the axial pitch times the cosine of the lead angle: addendum
0.3183, working depth 0.6366, whole depth 0.7003 and 0.002 in more. The standard lists axial pitches of 0.030 to
0.160 in; its worms have a flank of 20 degrees.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.worms.worm import Worm

#: Finest and coarsest axial pitch of the standard.
FINEST, COARSEST = Length.of_inches("0.030"), Length.of_inches("0.160")
#: Parts of the pitch square to the thread.
ADDENDUM, WORKING, WHOLE = Fraction("0.3183"), Fraction("0.6366"), Fraction("0.7003")
#: What the whole depth has beyond its part of the pitch.
MORE = Length.of_inches("0.002")


class FinePitchDepth(NamedTuple):
    """Depths by the standard.

    Parameters
    ----------
    addendum, working, whole : Length
        As exact as the pitch square to the thread is, a root.
    clearance : Fraction
        At the root, in addenda of the worm it was asked for: what gives that worm the same whole depth.
    """

    addendum: Length
    working: Length
    whole: Length
    clearance: Fraction


def fine_pitch_depth(worm: Worm) -> FinePitchDepth | None:
    """Work out the depths the standard gives a worm.

    Parameters
    ----------
    worm : Worm
        Of any system.

    Returns
    -------
    FinePitchDepth or None
        ``None`` outside the axial pitches of the standard.

    Examples
    --------
    >>> from solver.worms.tooth_sizes import ToothSize, ToothSystem
    >>> from solver.worms.worm import make_worm
    >>> worm = make_worm(ToothSize(ToothSystem.CIRCULAR_PITCH, Length.of_inches("0.1")), diameter=Length.of_inches(50))
    >>> round(fine_pitch_depth(worm).whole.inches, 5)
    Fraction(7203, 100000)
    """
    axial = worm.module * PI_LOW
    if not FINEST <= axial <= COARSEST:
        return None
    square = axial * worm.normal_pitch_ratio
    whole = square * WHOLE + MORE
    return FinePitchDepth(square * ADDENDUM, square * WORKING, whole, whole / worm.addendum - 2)
