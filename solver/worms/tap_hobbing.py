"""A worm wheel hobbed with a tap: pitch diameter, blanks, the count a blank begins with, and the tap's own part in it.

A blank that is free to turn is driven by rolling: the tap marks about as many spaces as pitches go round the
diameter it meets, which is more than are wanted. Gashes, cut first and indexed, decide the count instead.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent, square_root
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.refusals import ImpossibleSettingError
from solver.worms.taps import Tap
from solver.worms.worm_wheel import checked_count, least_teeth


class TapBlank(NamedTuple):
    """One way to size the blank, and how many pitches go round it."""

    rule: str
    diameter: Length
    pitches_round: Fraction

    @property
    def likely_count(self) -> int:
        """Spaces an ungashed blank likely begins with; reports from shops are several off this either way.

        Examples
        --------
        >>> TapBlank("(N + 3) p/π", Length.of_inches("2.387"), Fraction(7499, 100)).likely_count
        75
        """
        return round(self.pitches_round)


@dataclass(frozen=True, slots=True)
class TapWheel:
    """A wheel of so many teeth, hobbed with a tap; `hob_with_tap` makes one.

    Parameters
    ----------
    tap : Tap
        The hob.
    teeth : int
        Teeth wanted.
    """

    tap: Tap
    teeth: int

    @property
    def diameter(self) -> Length:
        """Pitch diameter, teeth times pitch over pi; good to 70 decimals.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> round(TapWheel(Tap("20 tpi", Length.of_inches("0.05"), FORMS["iso"]), 20).diameter.inches, 4)
        Fraction(3183, 10000)
        """
        return Length(self.teeth * self.tap.pitch.mm / PI_LOW)

    @property
    def throat(self) -> Length:
        """Throat diameter for teeth of full depth: pitch diameter and one depth of thread.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> round(TapWheel(Tap("M6x1", Length.of_mm(1), FORMS["iso"]), 90).throat.mm, 4)
        Fraction(292613, 10000)
        """
        return self.diameter + self.tap.depth

    @property
    def whole_depth(self) -> Length:
        """Depth of the teeth when the tap stands on the pitch circle.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> TapWheel(Tap("Tr 16x4", Length.of_mm(4), FORMS["trapezoidal"]), 40).whole_depth
        Length(mm=Fraction(2, 1))
        """
        return Length(self.tap.depth.mm / 2) + self.tap.addendum

    @property
    def blanks(self) -> tuple[TapBlank, ...]:
        """The blanks in use: at the pitch circle, for full depth, and at the rule (N + 2) pitches over pi.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> [each.likely_count for each in TapWheel(Tap("M6x1", Length.of_mm(1), FORMS["iso"]), 90).blanks]
        [90, 92, 92]
        """
        two_more = Length((self.teeth + 2) * self.tap.pitch.mm / PI_LOW)
        sizes = (
            ("pitch circle, N p/π", self.diameter),
            ("full teeth, pitch dia + thread", self.throat),
            ("(N + 2) p/π", two_more),
        )
        return tuple(TapBlank(rule, size, self.pitches_round(size)) for rule, size in sizes)

    def pitches_round(self, blank: Length) -> Fraction:
        """Return how many pitches of the tap go round a blank.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> wheel = TapWheel(Tap("10 tpi", Length.of_inches("0.1"), FORMS["iso"]), 72)
        >>> round(wheel.pitches_round(Length.of_inches("2.387")), 2)
        Fraction(7499, 100)
        """
        return blank.mm * PI_LOW / self.tap.pitch.mm

    @property
    def centre_distance(self) -> Length | None:
        """Between the axes of tap and wheel at full depth; it grows by half of what the tap's diameter grows.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> tap = Tap("M6x1", Length.of_mm(1), FORMS["iso"], Length.of_mm(6))
        >>> round(TapWheel(tap, 90).centre_distance.mm, 4)
        Fraction(21249, 1250)
        """
        across = self.tap.pitch_diameter
        return None if across is None else Length((across + self.diameter).mm / 2)

    @property
    def throat_radius(self) -> Length | None:
        """Radius of the hollow in the rim: the tap's pitch radius less half its depth.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> TapWheel(Tap("Tr 16x4", Length.of_mm(4), FORMS["trapezoidal"], Length.of_mm(16)), 40).throat_radius
        Length(mm=Fraction(6, 1))
        """
        across = self.tap.pitch_diameter
        return None if across is None else Length((across - self.tap.depth).mm / 2)

    @property
    def face(self) -> Length | None:
        """Width of the tap at its pitch line: all of the wheel's face that it can cut.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> round(TapWheel(Tap("Tr 16x4", Length.of_mm(4), FORMS["trapezoidal"], Length.of_mm(16)), 40).face.mm, 3)
        Fraction(3873, 500)
        """
        across = self.tap.pitch_diameter
        if across is None or self.tap.diameter is None:
            return None
        return Length(square_root(self.tap.diameter.mm**2 - across.mm**2))

    @property
    def lead_tangent(self) -> Fraction | None:
        """Tangent of the tap's lead angle at its pitch diameter.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> TapWheel(Tap("bare", Length.of_mm(4), FORMS["trapezoidal"]), 40).lead_tangent is None
        True
        """
        across = self.tap.pitch_diameter
        return None if across is None else self.tap.pitch.mm / (PI_LOW * across.mm)

    @property
    def lead_angle(self) -> Angle | None:
        """The tap's lead angle, to which the gashes are swung.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> tap = Tap("M6x1", Length.of_mm(1), FORMS["iso"], Length.of_mm(6))
        >>> round(TapWheel(tap, 90).lead_angle.degrees, 3)
        Fraction(681, 200)
        """
        slope = self.lead_tangent
        return None if slope is None else arc_tangent(slope)

    @property
    def least_teeth(self) -> int:
        """Fewest teeth that this form cuts clean.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> TapWheel(Tap("M6x1", Length.of_mm(1), FORMS["iso"]), 90).least_teeth
        9
        """
        return least_teeth(self.tap.addendum.mm * PI_LOW / self.tap.pitch.mm, self.tap.form.half_angle)


def hob_with_tap(tap: Tap, teeth: int, *, may_undercut: bool = False) -> TapWheel:
    """Work out a wheel hobbed with a tap.

    Parameters
    ----------
    tap : Tap
        The hob.
    teeth : int
        Teeth wanted.
    may_undercut : bool, optional
        Answer for a wheel with fewer teeth than are cut clean.

    Returns
    -------
    TapWheel
        Every figure follows from it.

    Raises
    ------
    ImpossibleSettingError
        A count out of range, a pitch too coarse for the tap's diameter, or a wheel that would be undercut.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> hob_with_tap(Tap("M6x1", Length.of_mm(1), FORMS["iso"]), 90).teeth
    90
    """
    checked_count(teeth, 1)
    wheel = TapWheel(tap, teeth)
    if wheel.throat_radius is not None and wheel.throat_radius.mm <= 0:
        raise ImpossibleSettingError(
            f"a pitch of {trimmed_decimal_text(tap.pitch.mm, 4)} mm is too coarse for a tap of that diameter: "
            "no core is left",
            help_text="Check the tap's diameter, which is over the threads.",
        )
    if teeth < wheel.least_teeth and not may_undercut:
        raise ImpossibleSettingError(
            f"a wheel of {teeth} teeth is undercut by a {tap.angle_text} tap; {wheel.least_teeth} teeth are the fewest "
            "cut clean",
            help_text="More teeth would mend it; --undercut answers for the undercut wheel.",
        )
    return wheel
