"""The worm by itself: lead angle, diameters, depth and the tool that cuts it.

Axial system (the tool's face in the plane of the axis): tan(lead angle) = starts m / d1. Normal system (the tool
or hob swung to the lead angle): sin(lead angle) = starts mn / d1, and the axial module is mn / cos(lead angle).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent, square_root, tangent
from solver.quantities.exact_numbers import least_decimal_text, trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW, Lead
from solver.refusals import ImpossibleSettingError
from solver.worms.tooth_sizes import (
    INCH_CLEARANCE,
    INCH_FLANK,
    MODULE_CLEARANCE,
    MODULE_FLANK,
    ToothSize,
    ToothSystem,
)

#: Flank angles answered; beyond them a tool cuts no tooth that runs.
LEAST_FLANK = Angle(Fraction(5, 360))
GREATEST_FLANK = Angle(Fraction(45, 360))
#: Modules in the worm's pitch diameter where none is given; one of the standard diametric quotients.
USUAL_QUOTIENT = 18


class FlankForm(Enum):
    """Flanks that a lathe tool with straight edges leaves, by the names of DIN 3975; the value tells which.

    A form milled or ground with a disc (ZK), or an involute helicoid (ZI), is not what such a tool leaves.
    """

    ZA = "straight in the section through the worm's axis"
    ZN = "straight in the section square to the thread"


@dataclass(frozen=True, slots=True)
class Worm:
    """A worm worked out; `make_worm` makes one and refuses what cannot be.

    Parameters
    ----------
    size : ToothSize
        As stated.
    starts : int
        Threads side by side.
    diameter : Length
        Pitch diameter.
    lead_tangent : Fraction
        Tangent of the lead angle at that diameter.
    module : Length
        Axial module.
    addendum : Length
        The module (axial system) or the normal module.
    clearance : Fraction
        At the root, in addenda.
    flank : Angle
        Half the included angle of the tool, in the plane of its face.
    """

    size: ToothSize
    starts: int
    diameter: Length
    lead_tangent: Fraction
    module: Length
    addendum: Length
    clearance: Fraction
    flank: Angle

    @property
    def is_exact(self) -> bool:
        """True when the diameters are exact fractions; otherwise they are good to 30 decimals or more.

        Examples
        --------
        >>> make_worm(ToothSize.of_dp(Fraction(20))).is_exact
        True
        """
        if self.size.system is ToothSystem.NORMAL_MODULE:
            sine = self.addendum * self.starts / self.diameter
            return (self.module / self.addendum) ** 2 * (1 - sine * sine) == 1
        return self.size.has_exact_module

    @property
    def pitch(self) -> Lead:
        """Axial pitch of the worm, circular pitch of the wheel.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(2))
        >>> make_worm(size, starts=2).pitch
        PiLength(mm_per_pi=Fraction(2, 1))
        """
        return self.size.axial_pitch(self.lead_tangent)

    @property
    def lead(self) -> Lead:
        """Advance of the thread in one turn: what the lathe is geared for.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(2))
        >>> make_worm(size, starts=2).lead
        PiLength(mm_per_pi=Fraction(4, 1))
        """
        return self.pitch * self.starts

    @property
    def lead_angle(self) -> Angle:
        """Lead angle at the worm's pitch diameter; good to 50 decimals of a turn.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1))
        >>> round(make_worm(size, diameter=Length.of_mm(17)).lead_angle.degrees, 5)
        Fraction(168323, 50000)
        """
        return arc_tangent(self.lead_tangent)

    @property
    def lead_angle_at_root(self) -> Angle:
        """Lead angle at the bottom of the thread, the steepest the tool's side must clear.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1))
        >>> worm = make_worm(size)
        >>> worm.lead_angle < worm.lead_angle_at_root
        True
        """
        return arc_tangent(self.lead_tangent * (self.diameter / self.root))

    @property
    def quotient(self) -> Fraction:
        """Axial modules in the worm's pitch diameter.

        Examples
        --------
        >>> make_worm(ToothSize.of_dp(Fraction(20))).quotient
        Fraction(18, 1)
        """
        return self.diameter / self.module

    @property
    def whole_depth(self) -> Length:
        """Depth of the worm thread and of the wheel's teeth.

        Examples
        --------
        >>> make_worm(ToothSize.of_dp(Fraction(1))).whole_depth.inches
        Fraction(2157, 1000)
        """
        return self.addendum * (2 + self.clearance)

    @property
    def outside(self) -> Length:
        """Outside diameter of the worm.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1))
        >>> make_worm(size, diameter=Length.of_mm(17)).outside
        Length(mm=Fraction(19, 1))
        """
        return self.diameter + self.addendum * 2

    @property
    def root(self) -> Length:
        """Root diameter of the worm.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1))
        >>> make_worm(size, diameter=Length.of_mm(17)).root
        Length(mm=Fraction(29, 2))
        """
        return self.outside - self.whole_depth * 2

    @property
    def hob_outside(self) -> Length:
        """Outside diameter of the hob: the worm's and its clearance twice, which the wheel's root needs to be clear.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1))
        >>> make_worm(size, diameter=Length.of_mm(17)).hob_outside
        Length(mm=Fraction(39, 2))
        """
        return self.outside + self.addendum * (2 * self.clearance)

    @property
    def hob_depth(self) -> Length:
        """Depth of the hob's thread, from its own outside to the root it shares with the worm.

        Examples
        --------
        >>> make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1))).hob_depth
        Length(mm=Fraction(5, 2))
        """
        return Length((self.hob_outside - self.root).mm / 2)

    @property
    def tool_flat(self) -> Length:
        """Width of the tool's flat end, in the plane of its face.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1))
        >>> round(make_worm(size).tool_flat.mm, 4)
        Fraction(6609, 10000)
        """
        return self.addendum * (PI_LOW / 2 - 2 * (1 + self.clearance) * tangent(self.flank))

    @property
    def axial_flank(self) -> Angle:
        """Flank angle in the plane of the worm's axis; steeper than the tool's in the normal system.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1))
        >>> make_worm(size).axial_flank.degrees
        Fraction(20, 1)
        """
        if self.size.system is not ToothSystem.NORMAL_MODULE:
            return self.flank
        return arc_tangent(tangent(self.flank) * self.module / self.addendum)

    @property
    def flank_form(self) -> FlankForm:
        """Flank a tool as stated leaves: its face level in the plane of the axis, or swung square to the thread.

        Examples
        --------
        >>> make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1))).flank_form.name
        'ZA'
        >>> make_worm(ToothSize(ToothSystem.NORMAL_MODULE, Length.of_mm(1))).flank_form.name
        'ZN'
        """
        return FlankForm.ZN if self.size.system is ToothSystem.NORMAL_MODULE else FlankForm.ZA

    @property
    def normal_pitch_ratio(self) -> Fraction:
        """Pitch square to the thread over axial pitch: the cosine of the lead angle.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.NORMAL_MODULE, Length.of_mm(4))
        >>> Worm(size, 3, Length.of_mm(20), Fraction(3, 4), Length.of_mm(5), Length.of_mm(4), Fraction(1, 4),
        ...      Angle.of_degrees(20)).normal_pitch_ratio
        Fraction(4, 5)
        """
        return 1 / square_root(1 + self.lead_tangent * self.lead_tangent)

    @property
    def normal_flank(self) -> Angle:
        """Flank angle square to the thread.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.NORMAL_MODULE, Length.of_mm(1))
        >>> make_worm(size).normal_flank.degrees
        Fraction(20, 1)
        """
        if self.size.system is ToothSystem.NORMAL_MODULE:
            return self.flank
        return arc_tangent(tangent(self.flank) * self.normal_pitch_ratio)

    @property
    def chord_at_pitch_line(self) -> Length:
        """Width of the outside circle where it meets the pitch line: all of a wheel's face that can touch.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(1))
        >>> make_worm(size, diameter=Length.of_mm(8)).chord_at_pitch_line
        Length(mm=Fraction(6, 1))
        """
        return Length(square_root(self.outside.mm * self.outside.mm - self.diameter.mm * self.diameter.mm))


def make_worm(
    size: ToothSize,
    *,
    starts: int = 1,
    diameter: Length | None = None,
    flank: Angle | None = None,
    clearance: Fraction | None = None,
) -> Worm:
    """Work out a worm; what is left out takes the value usual for its system.

    Parameters
    ----------
    size : ToothSize
        Module, DP or pitch.
    starts : int, optional
        Threads side by side.
    diameter : Length, optional
        Pitch diameter; 18 modules when left out.
    flank : Angle, optional
        Half the included angle of the tool: 20 degrees for modules, 14.5 for DP and inch pitches.
    clearance : Fraction, optional
        Root clearance as a part of the addendum: 0.25 for modules, 0.157 for DP and pitches.

    Returns
    -------
    Worm
        Every figure follows from it.

    Raises
    ------
    ImpossibleSettingError
        A flank out of range, too many starts for the diameter, no core left, or a tool that comes to a point
        before the full depth.

    Examples
    --------
    >>> make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm("0.5"))).outside
    Length(mm=Fraction(10, 1))
    """
    if clearance is None:
        clearance = INCH_CLEARANCE if size.is_inch else MODULE_CLEARANCE
    if flank is None:
        flank = INCH_FLANK if size.is_inch else MODULE_FLANK
    if not LEAST_FLANK <= flank <= GREATEST_FLANK:
        raise ImpossibleSettingError(
            f"a flank of {trimmed_decimal_text(flank.degrees, 4)} degrees is no worm's",
            help_text="It is half the included angle: 14.5, 20 or 30 degrees; 5 to 45 are answered.",
        )
    if diameter is None:
        diameter = size.axial_module(Fraction(0)) * USUAL_QUOTIENT
    lead_tangent = size.tangent_of_lead_angle(diameter, starts)
    module = size.axial_module(lead_tangent)
    addendum = size.figure if size.system is ToothSystem.NORMAL_MODULE else module
    worm = Worm(size, starts, diameter, lead_tangent, module, addendum, clearance, flank)
    if worm.root.mm <= 0:
        least = least_decimal_text((worm.diameter - worm.root).mm, 4)
        raise ImpossibleSettingError(
            f"a worm of {trimmed_decimal_text(diameter.mm, 4)} mm pitch diameter has no core left under a thread of "
            f"{size}",
            help_text=f"The pitch diameter must be above {least} mm; 7 to 25 modules are usual.",
        )
    if worm.tool_flat.mm <= 0:
        raise ImpossibleSettingError(
            f"a tool of {trimmed_decimal_text(flank.degrees * 2, 3)} degrees included comes to a point too soon",
            help_text="Give a smaller flank angle, half the included angle; 14.5 to 30 degrees are usual.",
        )
    return worm
