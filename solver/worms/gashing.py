"""Gashing a worm wheel before the hob: depth, swing and cutter. Gash first, then the hob has no say in the count."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent, cosine, tangent
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.worms.tap_hobbing import TapWheel
from solver.worms.tooth_sizes import ToothSystem
from solver.worms.worm_wheel import WormWheel

#: Part of the whole depth left for the hob; common practice, no source.
LEFT_FOR_HOB = Fraction(1, 10)


class Gash(NamedTuple):
    """Settings of the gashing cutter.

    Parameters
    ----------
    depth : Length
        Below the throat, at the middle of the face.
    left : Length
        What the hob still takes at the bottom.
    swing : Angle or None
        Of the table, to the lead angle; ``None`` when the tap's diameter is not known.
    widest_cutter : Length
        A thicker cutter would take more than the space.
    cutter_diameter : Length or None
        One as large as the hob leaves the throat's own hollow.
    """

    depth: Length
    left: Length
    swing: Angle | None
    widest_cutter: Length
    cutter_diameter: Length | None


def gash_for_wheel(wheel: WormWheel) -> Gash:
    """Work out the gash of a wheel.

    Parameters
    ----------
    wheel : WormWheel
        With its worm.

    Returns
    -------
    Gash
        A tenth of the depth left for the hob.

    Examples
    --------
    >>> from solver.worms.tooth_sizes import ToothSize, ToothSystem
    >>> from solver.worms.worm import make_worm
    >>> worm = make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1)))
    >>> gash_for_wheel(WormWheel(worm, 40)).depth
    Length(mm=Fraction(81, 40))
    """
    worm = wheel.worm
    depth = worm.whole_depth * (1 - LEFT_FOR_HOB)
    space = _space(worm.addendum * PI_LOW, depth - worm.addendum, worm.flank)
    if worm.size.system is not ToothSystem.NORMAL_MODULE:
        space = space * worm.normal_pitch_ratio
    return Gash(depth, worm.whole_depth - depth, worm.lead_angle, space, worm.hob_outside)


def gash_for_tap(wheel: TapWheel) -> Gash:
    """Work out the gash of a wheel to be hobbed with a tap, on a blank for full teeth.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> from solver.worms.taps import Tap
    >>> tap = Tap("Tr 16x4", Length.of_mm(4), FORMS["trapezoidal"], Length.of_mm(16))
    >>> gash_for_tap(TapWheel(tap, 40)).depth
    Length(mm=Fraction(9, 5))
    """
    tap = wheel.tap
    depth = wheel.whole_depth * (1 - LEFT_FOR_HOB)
    space = _space(tap.pitch, depth - Length(tap.depth.mm / 2), tap.form.half_angle)
    slope = wheel.lead_tangent
    if slope is not None:
        space = space * cosine(arc_tangent(slope))
    return Gash(depth, wheel.whole_depth - depth, wheel.lead_angle, space, tap.diameter)


def _space(pitch: Length, below: Length, flank: Angle) -> Length:
    """Return the width of a tooth space so far below the line where it is half a pitch wide."""
    return Length(pitch.mm / 2) - below * (2 * tangent(flank))
