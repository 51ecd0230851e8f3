"""A screw and wheel as an instrument: what a dial mark, a tooth and a turn of the wheel read."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.pi_multiples import Lead


@dataclass(frozen=True, slots=True)
class ScrewAndWheel:
    """A screw that moves a slide and turns a wheel, with a dial on the screw.

    Parameters
    ----------
    pitch : Length or PiLength
        Of the screw.
    teeth : int
        Of the wheel.
    marks : int
        Round the dial on the screw.
    starts : int, optional
        Of the screw.
    """

    pitch: Lead
    teeth: int
    marks: int
    starts: int = 1

    @property
    def per_mark(self) -> Lead:
        """Travel for one mark of the dial.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> ScrewAndWheel(Length.of_mm("0.5"), 100, 50).per_mark
        Length(mm=Fraction(1, 100))
        """
        return self.pitch * Fraction(self.starts, self.marks)

    @property
    def per_tooth(self) -> Lead:
        """Travel for one tooth of the wheel: one pitch, whatever the starts.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> ScrewAndWheel(Length.of_mm("0.5"), 100, 50, 2).per_tooth
        Length(mm=Fraction(1, 2))
        """
        return self.pitch * 1

    @property
    def per_wheel_turn(self) -> Lead:
        """Travel for one turn of the wheel.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> ScrewAndWheel(Length.of_mm("0.5"), 100, 50).per_wheel_turn
        Length(mm=Fraction(50, 1))
        """
        return self.pitch * self.teeth

    @property
    def screw_turns(self) -> Fraction:
        """Turns of the screw for one turn of the wheel.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> ScrewAndWheel(Length.of_mm("0.5"), 101, 50, 2).screw_turns
        Fraction(101, 2)
        """
        return Fraction(self.teeth, self.starts)

    @property
    def angle_per_mark(self) -> Angle:
        """How far the wheel turns for one mark of the dial.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> ScrewAndWheel(Length.of_mm(1), 90, 120).angle_per_mark.arcsec
        Fraction(120, 1)
        """
        return Angle(1 / (self.screw_turns * self.marks))

    @property
    def marks_per_wheel_turn(self) -> Fraction:
        """Marks of the dial that pass in one turn of the wheel.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> ScrewAndWheel(Length.of_mm("0.5"), 100, 50).marks_per_wheel_turn
        Fraction(5000, 1)
        """
        return self.screw_turns * self.marks
