"""A worm wheel with its worm at right angles: diameters, centre distance, shift, and the least count cut clean."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import tangent
from solver.quantities.exact_numbers import least_decimal_text, trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.worms.worm import Worm

#: Fewest and most teeth of a wheel taken in.
FEWEST_TEETH = 6
MOST_TEETH = 2000
#: Least and greatest shift answered, in addenda.
LEAST_SHIFT = -1
GREATEST_SHIFT = 2


@dataclass(frozen=True, slots=True)
class WormWheel:
    """A wheel worked out; `make_wheel` makes one and refuses what cannot be.

    Parameters
    ----------
    worm : Worm
        The worm it runs with.
    teeth : int
        Its teeth.
    shift : Fraction
        Profile shift in addenda; plus moves the wheel away from the worm.
    """

    worm: Worm
    teeth: int
    shift: Fraction = Fraction(0)

    @property
    def ratio(self) -> Fraction:
        """Turns of the worm for one turn of the wheel.

        Examples
        --------
        >>> from solver.worms.tooth_sizes import ToothSize
        >>> from solver.worms.worm import make_worm
        >>> WormWheel(make_worm(ToothSize.of_dp(Fraction(6)), starts=3), 52).ratio
        Fraction(52, 3)
        """
        return Fraction(self.teeth, self.worm.starts)

    @property
    def diameter(self) -> Length:
        """Pitch diameter: teeth times module, which is teeth times pitch over pi.

        Examples
        --------
        >>> from solver.worms.tooth_sizes import ToothSize
        >>> from solver.worms.worm import make_worm
        >>> WormWheel(make_worm(ToothSize.of_dp(Fraction(20))), 40).diameter.inches
        Fraction(2, 1)
        """
        return self.worm.module * self.teeth

    @property
    def centre_distance(self) -> Length:
        """Distance between the axes.

        Examples
        --------
        >>> from solver.worms.tooth_sizes import ToothSize
        >>> from solver.worms.worm import make_worm
        >>> WormWheel(make_worm(ToothSize.of_dp(Fraction(20))), 40).centre_distance.inches
        Fraction(29, 20)
        """
        return Length((self.worm.diameter + self.diameter).mm / 2) + self.worm.addendum * self.shift

    @property
    def throat(self) -> Length:
        """Throat diameter, over the teeth at the middle of the face.

        Examples
        --------
        >>> from solver.worms.tooth_sizes import ToothSize
        >>> from solver.worms.worm import make_worm
        >>> WormWheel(make_worm(ToothSize.of_dp(Fraction(20))), 40).throat.inches
        Fraction(21, 10)
        """
        return self.diameter + self.worm.addendum * (2 * (1 + self.shift))

    @property
    def root(self) -> Length:
        """Root diameter at the middle of the face.

        Examples
        --------
        >>> from solver.worms.tooth_sizes import ToothSize
        >>> from solver.worms.worm import make_worm
        >>> WormWheel(make_worm(ToothSize.of_dp(Fraction(1))), 40).root.inches
        Fraction(18843, 500)
        """
        return self.throat - self.worm.whole_depth * 2

    @property
    def throat_radius(self) -> Length:
        """Radius of the hollow turned in the rim: worm pitch radius less the addendum.

        Examples
        --------
        >>> from solver.worms.tooth_sizes import ToothSize
        >>> from solver.worms.worm import make_worm
        >>> WormWheel(make_worm(ToothSize.of_dp(Fraction(20))), 40).throat_radius.inches
        Fraction(2, 5)
        """
        return Length(self.worm.diameter.mm / 2) - self.worm.addendum

    @property
    def least_teeth(self) -> int:
        """Fewest teeth that are cut clean at this flank angle and shift.

        Examples
        --------
        >>> from solver.worms.tooth_sizes import ToothSize
        >>> from solver.worms.worm import make_worm
        >>> WormWheel(make_worm(ToothSize.of_dp(Fraction(20))), 40).least_teeth
        32
        """
        return least_teeth(self.worm.addendum / self.worm.module * (1 - self.shift), self.worm.axial_flank)


def least_teeth(depth: Fraction, flank: Angle) -> int:
    """Return the fewest teeth that a straight-flanked tool cuts without undercut.

    Parameters
    ----------
    depth : Fraction
        How far the tool's straight flank goes below the wheel's pitch line, in modules.
    flank : Angle
        Of the tool, in the plane of the worm's axis.

    Returns
    -------
    int
        Twice the depth over the squared sine of the flank angle, rounded up.

    Examples
    --------
    >>> least_teeth(Fraction(1), Angle.of_degrees(20)), least_teeth(Fraction(1), Angle.of_degrees("14.5"))
    (18, 32)
    """
    return max(1, ceil(2 * depth / _sine_squared(flank)))


def _sine_squared(angle: Angle) -> Fraction:
    slope = tangent(angle)
    return slope * slope / (1 + slope * slope)


def checked_count(teeth: int, starts: int) -> None:
    """Refuse a count of teeth that is no worm wheel.

    Raises
    ------
    ImpossibleSettingError
        Too few or too many teeth, or no more teeth than starts.

    Examples
    --------
    >>> checked_count(40, 1)
    """
    if not FEWEST_TEETH <= teeth <= MOST_TEETH:
        raise ImpossibleSettingError(
            f"a worm wheel of {teeth} teeth is not answered",
            help_text=f"Give {FEWEST_TEETH} to {MOST_TEETH} teeth.",
        )
    if starts >= teeth:
        raise ImpossibleSettingError(
            f"a worm of {starts} starts on a wheel of {teeth} teeth is no reduction",
            help_text="Give fewer starts than teeth.",
        )


def make_wheel(
    worm: Worm, teeth: int, *, centre_distance: Length | None = None, may_undercut: bool = False
) -> WormWheel:
    """Work out the wheel for a worm.

    Parameters
    ----------
    worm : Worm
        The worm it runs with.
    teeth : int
        Teeth of the wheel.
    centre_distance : Length, optional
        Fixed distance between the axes; the wheel is shifted to suit.
    may_undercut : bool, optional
        Answer for a wheel with fewer teeth than are cut clean.

    Returns
    -------
    WormWheel
        Every figure follows from it.

    Raises
    ------
    ImpossibleSettingError
        A count out of range, a shift beyond use, or a wheel that would be undercut.

    Examples
    --------
    >>> from solver.worms.tooth_sizes import ToothSize, ToothSystem
    >>> from solver.worms.worm import make_worm
    >>> wheel = make_wheel(make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm("0.5"))), 73)
    >>> wheel.diameter, wheel.centre_distance
    (Length(mm=Fraction(73, 2)), Length(mm=Fraction(91, 4)))
    """
    checked_count(teeth, worm.starts)
    wheel = WormWheel(worm, teeth)
    if centre_distance is not None:
        middle = wheel.centre_distance
        wheel = WormWheel(worm, teeth, (centre_distance - middle) / worm.addendum)
        if not LEAST_SHIFT <= wheel.shift <= GREATEST_SHIFT:
            raise ImpossibleSettingError(
                f"a centre distance of {trimmed_decimal_text(centre_distance.mm, 3)} mm would shift the wheel by "
                f"{trimmed_decimal_text(wheel.shift, 2)} addenda",
                help_text=f"Unshifted it is {trimmed_decimal_text(middle.mm, 3)} mm; a shift of {LEAST_SHIFT} to "
                f"{GREATEST_SHIFT} is answered, half an addendum either way is usual.",
            )
    if teeth < wheel.least_teeth and not may_undercut:
        raise _undercut(wheel)
    return wheel


def _undercut(wheel: WormWheel) -> ImpossibleSettingError:
    """Word the refusal with the shift that would mend it."""
    worm = wheel.worm
    needed = 1 - wheel.teeth * _sine_squared(worm.axial_flank) * worm.module / (2 * worm.addendum)
    middle = WormWheel(worm, wheel.teeth, needed).centre_distance
    enough = least_decimal_text(middle.mm, 3)
    return ImpossibleSettingError(
        f"a wheel of {wheel.teeth} teeth is undercut by a flank of {trimmed_decimal_text(worm.flank.degrees, 2)} "
        f"degrees; {wheel.least_teeth} teeth are the fewest cut clean",
        help_text=f"More teeth, a greater pressure angle, or a centre distance of {enough} mm (the wheel shifted "
        "out) would mend it; --undercut answers for the undercut wheel.",
    )
