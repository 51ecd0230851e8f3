"""Feeding in with the top slide set over: its travel for a depth, the shift along the work, the flank left over.

The setting is measured from the cross slide, that is from square across the lathe; a slide graduated from the
lathe axis reads 90 degrees less it.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import cosine, tangent
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.threads.forms import ThreadForm

#: What is taken off the half angle, so that the trailing flank is skimmed too. Common practice.
EASED = Angle.of_degrees("0.5")


class Infeed(NamedTuple):
    """One way of feeding to depth.

    Parameters
    ----------
    depth : Length
        Depth on the radius; what the cross slide moves when fed straight in.
    slide_angle : Angle
        Setting of the top slide from the cross slide; zero is straight in.
    slide_travel : Length
        What the top slide moves.
    shift : Length
        What the tool moves along the work on the way.
    flank_left : Length
        What is left along the work on the trailing flank, for the last straight-in pass to take.
    """

    depth: Length
    slide_angle: Angle
    slide_travel: Length
    shift: Length
    flank_left: Length

    @property
    def from_axis(self) -> Angle:
        """The same setting as a slide graduated from the lathe axis reads it.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> infeed(Length.of_mm(1), FORMS["iso"]).from_axis.degrees
        Fraction(121, 2)
        """
        return Angle(Fraction(1, 4)) - self.slide_angle


def usual_slide_angle(form: ThreadForm) -> Angle:
    """Return the half angle eased by half a degree; zero for the square form.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> usual_slide_angle(FORMS["whitworth"]).degrees, usual_slide_angle(FORMS["square"]).degrees
    (Fraction(27, 1), Fraction(0, 1))
    """
    return form.half_angle - EASED if form.has_angle else form.half_angle


def infeed(depth: Length, form: ThreadForm, slide_angle: Angle | None = None) -> Infeed:
    """Work out the travel of the top slide for a depth.

    Parameters
    ----------
    depth : Length
        On the radius.
    form : ThreadForm
        Form of the thread.
    slide_angle : Angle, optional
        Setting from the cross slide; the usual one when left out.

    Raises
    ------
    ImpossibleSettingError
        The slide is set beyond the flank, which would cut it away.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> found = infeed(Length.of_mm("0.649519052838"), FORMS["iso"], Angle.of_degrees(30))
    >>> round(found.slide_travel.mm, 9)
    Fraction(3, 4)
    """
    angle = usual_slide_angle(form) if slide_angle is None else slide_angle
    if angle.turns < 0 or angle > form.half_angle:
        raise _past_the_flank(angle, form)
    slope = tangent(angle)
    left = depth * (tangent(form.half_angle) - slope)
    return Infeed(depth, angle, Length(depth.mm / cosine(angle)), depth * slope, left)


def _past_the_flank(angle: Angle, form: ThreadForm) -> ImpossibleSettingError:
    given, steepest = (trimmed_decimal_text(each.degrees, 2) for each in (angle, form.half_angle))
    if not form.has_angle:
        return ImpossibleSettingError(
            f"The flanks of this form stand square to the work: with the top slide {given}° from the cross slide it "
            "would cut into one of them.",
            help_text="Feed straight in: --slide-angle 0deg.",
        )
    return ImpossibleSettingError(
        f"The top slide goes 0 to {steepest}° from the cross slide for this form, not {given}°: past that its travel "
        "would cut into the trailing flank.",
        help_text="A slide graduated from the lathe axis reads 90° less the angle from the cross slide.",
    )
