"""Holes on a circle: coordinates from its centre, and what to measure between holes."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import cosine, sine
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.refusals import ImpossibleSettingError

#: More holes than this are not drilled by coordinates by hand.
MOST_HOLES = 1000


@dataclass(frozen=True, slots=True)
class HolePlace:
    """One hole on the circle.

    Parameters
    ----------
    number : int
        Counted from 1 at the starting angle.
    angle : Angle
        From the line of ``x``, exact.
    x, y : Length
        From the zero of the coordinates, within ``10**-49`` of the radius of the truth.
    """

    number: int
    angle: Angle
    x: Length
    y: Length


def hole_circle(
    count: int, diameter: Length, *, start: Angle, clockwise: bool = False, all_positive: bool = False
) -> tuple[HolePlace, ...]:
    """Place equally spaced holes on a circle; each is worked from the centre, none from the hole before it.

    Parameters
    ----------
    count : int
        Number of holes.
    diameter : Length
        Of the circle through their centres.
    start : Angle
        Angle of the first hole from the line of ``x``, counter-clockwise.
    clockwise : bool, optional
        Number the holes clockwise, seen from above.
    all_positive : bool, optional
        Put the zero where the left and the near side of the circle meet, not at its centre.

    Returns
    -------
    tuple of HolePlace
        ``count`` of them.

    Raises
    ------
    ImpossibleSettingError
        No hole, or more than anybody drills by hand.

    Examples
    --------
    >>> [(hole.x.mm, hole.y.mm) for hole in hole_circle(2, Length.of_mm(10), start=Angle(Fraction(0)))]
    [(Fraction(5, 1), Fraction(0, 1)), (Fraction(-5, 1), Fraction(0, 1))]
    """
    if not 1 <= count <= MOST_HOLES:
        raise ImpossibleSettingError(
            f"{count} holes were asked for; 1 to {MOST_HOLES} can be placed",
            help_text="Ask for a number of holes between those.",
        )
    radius = diameter.mm / 2
    shift = radius if all_positive else Fraction(0)
    places = []
    for number in range(count):
        step = Fraction(-number if clockwise else number, count)
        angle = Angle((start.turns + step) % 1)
        places.append(
            HolePlace(number + 1, angle, Length(radius * cosine(angle) + shift), Length(radius * sine(angle) + shift))
        )
    return tuple(places)


#: A hole of a plate put this far from its place by hand, for telling what it comes to. Common practice.
USUAL_SLIP = Length.of_mm("0.05")


def web_left(count: int, diameter: Length, hole: Length) -> Length:
    """Find how much metal is left between neighbouring holes.

    Parameters
    ----------
    count : int
        Number of holes on the circle, two at least.
    diameter : Length
        Of the circle through their centres.
    hole : Length
        Diameter of each.

    Raises
    ------
    ImpossibleSettingError
        The holes run into one another.

    Examples
    --------
    >>> web_left(6, Length.of_mm(50), Length.of_mm(22))
    Length(mm=Fraction(3, 1))
    """
    apart = centre_distance(count, diameter)
    if apart <= hole:
        raise ImpossibleSettingError(
            f"holes of {trimmed_decimal_text(hole.mm, 3)} mm run into one another: their centres are "
            f"{trimmed_decimal_text(apart.mm, 3)} mm apart",
            help_text="Take a smaller drill, fewer holes or a larger circle.",
        )
    return apart - hole


def slip_at(slip: Length, diameter: Length) -> Angle:
    """Turn a hole that is out of place along its circle into an angle, good to 70 decimals of a turn.

    Examples
    --------
    >>> round(slip_at(Length.of_mm("0.05"), Length.of_mm(100)).arcsec)
    206
    """
    return Angle(slip.mm / (diameter.mm * PI_LOW))


def centre_distance(count: int, diameter: Length, *, apart: int = 1) -> Length:
    """Find the straight distance between two holes of the circle, for a check with a rule or over pins.

    Parameters
    ----------
    count : int
        Number of holes on the circle.
    diameter : Length
        Of the circle through their centres.
    apart : int, optional
        Spaces between the two holes; 1 for neighbours.

    Returns
    -------
    Length
        Within ``10**-49`` of the diameter of the truth.

    Examples
    --------
    >>> centre_distance(6, Length.of_mm(50))
    Length(mm=Fraction(25, 1))
    """
    return diameter * sine(Angle(Fraction(apart, 2 * count)))
