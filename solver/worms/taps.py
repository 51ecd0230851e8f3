"""A tap as its form and figures, seen as the hob of a worm wheel."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import square_root, tangent
from solver.quantities.lengths import Length


@dataclass(frozen=True, slots=True)
class TapForm:
    """A thread form by its basic proportions.

    Parameters
    ----------
    name : str
        How the trade says it.
    flank : Angle
        Half the included angle.
    across : Fraction
        Major diameter less pitch diameter, in pitches.
    depth : Fraction
        Depth of the external thread, in pitches.
    """

    name: str
    flank: Angle
    across: Fraction
    depth: Fraction


def _sixty() -> TapForm:
    """Major to pitch diameter 3/4 of the sharp triangle, depth 17/24 of it (ISO 68-1, ASME B1.1)."""
    triangle = square_root(Fraction(3, 4))
    return TapForm("60°", Angle(Fraction(1, 12)), triangle * Fraction(3, 4), triangle * Fraction(17, 24))


def _fifty_five() -> TapForm:
    """Two thirds of the sharp triangle, even about the pitch line (BS 84)."""
    flank = Angle.of_degrees("27.5")
    depth = Fraction(2, 3) / (2 * tangent(flank))
    return TapForm("55°", flank, depth, depth)


SIXTY = _sixty()
FIFTY_FIVE = _fifty_five()
#: Six tenths of the pitch by definition (BS 93; Thury).
FORTY_SEVEN_AND_A_HALF = TapForm("47½°", Angle(Fraction(95, 1440)), Fraction(3, 5), Fraction(3, 5))
#: Half the pitch, root clearance left out (ASME B1.5; ISO 2901).
ACME = TapForm("29°", Angle(Fraction(29, 720)), Fraction(1, 2), Fraction(1, 2))
TRAPEZOIDAL = TapForm("30°", Angle(Fraction(1, 24)), Fraction(1, 2), Fraction(1, 2))


@dataclass(frozen=True, slots=True)
class Tap:
    """A tap with one start.

    Parameters
    ----------
    name : str
        Its designation, or its pitch.
    pitch : Length
        Of the thread.
    form : TapForm
        Its form.
    diameter : Length or None
        Major diameter; without it nothing is said of centres and throat.
    """

    name: str
    pitch: Length
    form: TapForm
    diameter: Length | None = None

    @property
    def pitch_diameter(self) -> Length | None:
        """Basic pitch diameter.

        Examples
        --------
        >>> Tap("Tr 16x4", Length.of_mm(4), TRAPEZOIDAL, Length.of_mm(16)).pitch_diameter
        Length(mm=Fraction(14, 1))
        """
        return None if self.diameter is None else self.diameter - self.pitch * self.form.across

    @property
    def depth(self) -> Length:
        """Depth of its thread.

        Examples
        --------
        >>> Tap("2 BA", Length.of_mm("0.81"), FORTY_SEVEN_AND_A_HALF).depth
        Length(mm=Fraction(243, 500))
        """
        return self.pitch * self.form.depth

    @property
    def addendum(self) -> Length:
        """How far its crest stands above its pitch line.

        Examples
        --------
        >>> Tap("Tr 16x4", Length.of_mm(4), TRAPEZOIDAL).addendum
        Length(mm=Fraction(1, 1))
        """
        return Length(self.pitch.mm * self.form.across / 2)
