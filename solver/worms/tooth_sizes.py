"""How a drawing states the size of a worm's teeth: axial or normal module, diametral pitch, circular pitch."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import square_root
from solver.quantities.exact_numbers import least_decimal_text, trimmed_decimal_text
from solver.quantities.lengths import MM_PER_INCH, Length
from solver.quantities.pi_multiples import PI_LOW, Lead, PiLength
from solver.quantities.pitches import Pitch, PitchUnit, figure_text
from solver.refusals import ImpossibleSettingError


class ToothSystem(Enum):
    """What the stated size measures; the value is how it is said."""

    AXIAL_MODULE = "axial module"
    NORMAL_MODULE = "normal module"
    DIAMETRAL_PITCH = "diametral pitch"
    CIRCULAR_PITCH = "circular pitch"


#: Systems that state a multiple of pi in inches take the old inch proportions.
INCH_SYSTEMS = (ToothSystem.DIAMETRAL_PITCH, ToothSystem.CIRCULAR_PITCH)
#: Clearance at the root, as a part of the addendum: 2.157/DP whole depth for the inch systems (inch
#: full-depth proportion, 0.6866 of the pitch), a quarter module otherwise.
INCH_CLEARANCE = Fraction(157, 1000)
MODULE_CLEARANCE = Fraction(1, 4)
#: Flank angle of the tool where none is given: 14.5 degrees for inch worms (29 included), 20 for modules.
INCH_FLANK = Angle(Fraction(29, 720))
MODULE_FLANK = Angle(Fraction(20, 360))


@dataclass(frozen=True, slots=True)
class ToothSize:
    """A stated size of tooth.

    Parameters
    ----------
    system : ToothSystem
        What ``figure`` measures.
    figure : Length
        The module, the normal module, the module of a diametral pitch, or the linear pitch itself.
    is_told_in_inches : bool, optional
        The unit in which a linear pitch was written, and is told again; it is no part of the size.

    Examples
    --------
    >>> str(ToothSize.of_dp(Fraction(24))), ToothSize.of_dp(Fraction(24)).figure
    ('24 DP', Length(mm=Fraction(127, 120)))
    """

    system: ToothSystem
    figure: Length
    is_told_in_inches: bool = field(default=False, compare=False)

    @classmethod
    def of_dp(cls, teeth_per_inch: Fraction) -> ToothSize:
        """Take a diametral pitch: teeth for each inch of the wheel's pitch diameter.

        Examples
        --------
        >>> ToothSize.of_dp(Fraction(20)).figure
        Length(mm=Fraction(127, 100))
        """
        return cls(ToothSystem.DIAMETRAL_PITCH, Length(MM_PER_INCH / teeth_per_inch))

    @classmethod
    def of_pitch(cls, pitch: Pitch) -> ToothSize:
        """Take a written pitch in any unit; a module or DP among them keeps its own system.

        Examples
        --------
        >>> ToothSize.of_pitch(Pitch(Fraction(10), PitchUnit.THREADS_PER_INCH)).figure.inches
        Fraction(1, 10)
        """
        if pitch.unit is PitchUnit.DIAMETRAL_PITCH:
            return cls.of_dp(pitch.figure)
        if isinstance(pitch.pitch, PiLength):
            return cls(ToothSystem.AXIAL_MODULE, Length(pitch.pitch.mm_per_pi))
        return cls(ToothSystem.CIRCULAR_PITCH, pitch.pitch, is_told_in_inches=pitch.unit is not PitchUnit.MILLIMETRE)

    @property
    def is_inch(self) -> bool:
        """True for the systems that take inch proportions.

        Examples
        --------
        >>> ToothSize.of_dp(Fraction(20)).is_inch
        True
        """
        return self.system in INCH_SYSTEMS

    def tangent_of_lead_angle(self, worm_diameter: Length, starts: int) -> Fraction:
        """Return the tangent of the lead angle at the worm's pitch diameter.

        Axial: starts times module over diameter. Normal: the same quotient is the sine.

        Raises
        ------
        ImpossibleSettingError
            The sine would be 1 or more: no worm has so many starts on so small a diameter.

        Examples
        --------
        >>> size = ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(3))
        >>> size.tangent_of_lead_angle(Length.of_mm(44), 2)
        Fraction(3, 22)
        """
        quotient = self._stated_module * starts / worm_diameter
        if self.system is not ToothSystem.NORMAL_MODULE:
            return quotient
        if quotient >= 1:
            least = least_decimal_text(self.figure.mm * starts, 3)
            raise ImpossibleSettingError(
                f"{self} in {starts} start{'s' if starts > 1 else ''} does not go round a worm of "
                f"{trimmed_decimal_text(worm_diameter.mm, 3)} mm",
                help_text=f"The pitch diameter must be above {least} mm; several times that is usual.",
            )
        return quotient / square_root(1 - quotient * quotient)

    @property
    def _stated_module(self) -> Length:
        return Length(self.figure.mm / PI_LOW) if self.system is ToothSystem.CIRCULAR_PITCH else self.figure

    def axial_module(self, tangent: Fraction) -> Length:
        """Return the axial module, for a worm whose lead angle has this tangent.

        Parameters
        ----------
        tangent : Fraction
            Of the lead angle; only a normal module depends on it.

        Returns
        -------
        Length
            Exact as `has_exact_module` says, else good to 40 decimals.

        Examples
        --------
        >>> ToothSize(ToothSystem.NORMAL_MODULE, Length.of_mm(4)).axial_module(Fraction(3, 4))
        Length(mm=Fraction(5, 1))
        """
        if self.system is ToothSystem.NORMAL_MODULE:
            return self.figure * square_root(1 + tangent * tangent)
        return self._stated_module

    @property
    def has_exact_module(self) -> bool:
        """True when diameters made of modules are exact: a linear pitch puts pi into them.

        Examples
        --------
        >>> ToothSize.of_dp(Fraction(20)).has_exact_module
        True
        """
        return self.system in (ToothSystem.AXIAL_MODULE, ToothSystem.DIAMETRAL_PITCH)

    def axial_pitch(self, tangent: Fraction) -> Lead:
        """Return the axial pitch of the worm, the circular pitch of its wheel.

        Examples
        --------
        >>> ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm(2)).axial_pitch(Fraction(1, 10))
        PiLength(mm_per_pi=Fraction(2, 1))
        """
        if self.system is ToothSystem.CIRCULAR_PITCH:
            return self.figure
        return PiLength(self.axial_module(tangent).mm)

    def __str__(self) -> str:
        match self.system:
            case ToothSystem.DIAMETRAL_PITCH:
                return f"{figure_text(MM_PER_INCH / self.figure.mm)} DP"
            case ToothSystem.CIRCULAR_PITCH:
                if self.is_told_in_inches:
                    return f"circular pitch {figure_text(self.figure.inches)} in"
                return f"circular pitch {figure_text(self.figure.mm)} mm"
            case ToothSystem.AXIAL_MODULE:
                return f"module {figure_text(self.figure.mm)}"
            case ToothSystem.NORMAL_MODULE:
                return f"normal module {figure_text(self.figure.mm)}"
