"""Equal flats on a round: squares, hexagons and any regular polygon, with what the cutter must take off."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent, cosine, square_root, tangent
from solver.quantities.lengths import Length, shown_mm
from solver.quantities.pi_multiples import PI_LOW
from solver.refusals import ImpossibleSettingError

#: Fewest and most flats: two for a spanner, more than this many is a round again. [flats]
FEWEST_FLATS = 2
MOST_FLATS = 1000


@dataclass(frozen=True, slots=True)
class Flats:
    """Equal flats round one centre.

    Figures that take a square root or a cosine lie within ``10**-40`` of the truth, relative to the size of
    the part; the others are exact.

    Parameters
    ----------
    count : int
        Number of flats, 2 or more.
    centre_to_flat : Length
        Distance from the axis to each flat, above zero.

    Examples
    --------
    >>> Flats(4, Length.of_mm(5)).across_flats
    Length(mm=Fraction(10, 1))
    """

    count: int
    centre_to_flat: Length

    def __post_init__(self) -> None:
        if not FEWEST_FLATS <= self.count <= MOST_FLATS:
            message = f"{self.count} flats were asked for; {FEWEST_FLATS} to {MOST_FLATS} can be worked out"
            raise ImpossibleSettingError(message, help_text="Ask for a number of flats between those.")
        if self.centre_to_flat.mm <= 0:
            raise ImpossibleSettingError(
                "a flat at the axis or beyond leaves nothing of the part",
                help_text="Give a size above zero.",
            )

    @property
    def is_even(self) -> bool:
        """True when each flat has another opposite it, so that a micrometer can go across them.

        Examples
        --------
        >>> Flats(6, Length.of_mm(5)).is_even, Flats(5, Length.of_mm(5)).is_even
        (True, False)
        """
        return self.count % 2 == 0

    @property
    def across_flats(self) -> Length | None:
        """Distance between opposite flats; ``None`` for an odd number, which has none opposite.

        Examples
        --------
        >>> Flats(5, Length.of_mm(5)).across_flats is None
        True
        """
        return self.centre_to_flat * 2 if self.is_even else None

    @property
    def corner_circle(self) -> Length | None:
        """Circle through the corners: the smallest round it can be cut from; ``None`` for two flats.

        For an even number it is the distance across corners.

        Examples
        --------
        >>> Flats(3, Length.of_mm(5)).corner_circle
        Length(mm=Fraction(20, 1))
        """
        if self.count == FEWEST_FLATS:
            return None
        return self.centre_to_flat * (2 / cosine(_half_step(self.count)))

    @property
    def flat_to_corner(self) -> Length | None:
        """Distance from a flat to the corner opposite it; ``None`` for an even number.

        Examples
        --------
        >>> Flats(3, Length.of_mm(5)).flat_to_corner
        Length(mm=Fraction(15, 1))
        """
        corners = self.corner_circle
        if self.is_even or corners is None:
            return None
        return self.centre_to_flat + corners * Fraction(1, 2)

    @property
    def side(self) -> Length | None:
        """Width of a flat between sharp corners; ``None`` for two flats.

        Examples
        --------
        >>> Flats(4, Length.of_mm(5)).side
        Length(mm=Fraction(10, 1))
        """
        if self.count == FEWEST_FLATS:
            return None
        return self.centre_to_flat * (2 * tangent(_half_step(self.count)))


def flats_across(count: int, across: Length) -> Flats:
    """Take flats by the distance between two opposite ones.

    Raises
    ------
    ImpossibleSettingError
        An odd number of flats has none opposite one another.

    Examples
    --------
    >>> flats_across(6, Length.of_mm(17)).centre_to_flat
    Length(mm=Fraction(17, 2))
    """
    if count % 2:
        raise ImpossibleSettingError(
            f"{count} flats have none opposite one another, so there is no distance across them",
            help_text="Give the round it is cut from, or the distance from a flat to the corner opposite.",
        )
    return Flats(count, across * Fraction(1, 2))


def flats_to_corner(count: int, distance: Length) -> Flats:
    """Take an odd number of flats by the distance from a flat to the corner opposite it.

    Raises
    ------
    ImpossibleSettingError
        An even number of flats has a flat, not a corner, opposite each.

    Examples
    --------
    >>> flats_to_corner(3, Length.of_mm(15)).centre_to_flat
    Length(mm=Fraction(5, 1))
    """
    if count % 2 == 0:
        raise ImpossibleSettingError(
            f"of {count} flats each has a flat opposite it, not a corner",
            help_text="Give the distance across flats.",
        )
    return Flats(count, distance * (1 / (1 + 1 / cosine(_half_step(count)))))


def largest_in_round(count: int, diameter: Length) -> Flats:
    """Find the largest regular shape with sharp corners in a round.

    Parameters
    ----------
    count : int
        Number of flats, 3 or more.
    diameter : Length
        Of the round; for an even number it becomes the distance across corners.

    Returns
    -------
    Flats
        Its corners lie on the round.

    Raises
    ------
    ImpossibleSettingError
        Two flats have no corners to meet the round.

    Examples
    --------
    >>> largest_in_round(3, Length.of_mm(20)).centre_to_flat
    Length(mm=Fraction(5, 1))
    """
    if count == FEWEST_FLATS:
        raise ImpossibleSettingError(
            "two flats have no corners, so none is the largest in a round",
            help_text="Give the distance across the flats too.",
        )
    return Flats(count, diameter * (cosine(_half_step(count)) / 2))


@dataclass(frozen=True, slots=True)
class FlatsOnRound:
    """Flats as they are cut on a round of a known diameter.

    Parameters
    ----------
    flats : Flats
        What is wanted.
    diameter : Length
        Of the round they are cut on.

    Raises
    ------
    ImpossibleSettingError
        The flats lie outside the round, so nothing would be cut.

    Examples
    --------
    >>> cut = FlatsOnRound(flats_across(4, Length.of_mm(12)), Length.of_mm(20))
    >>> cut.depth, cut.width, cut.corners_are_sharp
    (Length(mm=Fraction(4, 1)), Length(mm=Fraction(12, 1)), True)
    """

    flats: Flats
    diameter: Length

    def __post_init__(self) -> None:
        if self.flats.centre_to_flat.mm * 2 >= self.diameter.mm:
            raise ImpossibleSettingError(
                f"flats {shown_mm(self.flats.centre_to_flat)} from the axis lie outside a round of "
                f"{shown_mm(self.diameter)}, so nothing would be cut",
                help_text="Take a larger round, or a smaller size across flats.",
            )

    @property
    def depth(self) -> Length:
        """What is taken off at each flat, measured from the round; exact for a given size across flats.

        Examples
        --------
        >>> FlatsOnRound(Flats(6, Length.of_mm(8)), Length.of_mm(20)).depth
        Length(mm=Fraction(2, 1))
        """
        return self.diameter * Fraction(1, 2) - self.flats.centre_to_flat

    @property
    def over_first_flat(self) -> Length:
        """What a micrometer reads from the first flat to the round opposite, before the second is cut.

        Examples
        --------
        >>> FlatsOnRound(Flats(6, Length.of_mm(8)), Length.of_mm(20)).over_first_flat
        Length(mm=Fraction(18, 1))
        """
        return self.diameter * Fraction(1, 2) + self.flats.centre_to_flat

    @property
    def corners_are_sharp(self) -> bool:
        """True when the flats meet; otherwise some of the round is left between them.

        Examples
        --------
        >>> FlatsOnRound(Flats(4, Length.of_mm(8)), Length.of_mm(20)).corners_are_sharp
        False
        """
        corners = self.flats.corner_circle
        return corners is not None and corners <= self.diameter

    @property
    def width(self) -> Length:
        """Width of one flat as cut.

        Examples
        --------
        >>> FlatsOnRound(Flats(4, Length.of_mm(8)), Length.of_mm(20)).width
        Length(mm=Fraction(12, 1))
        """
        side = self.flats.side
        return side if self.corners_are_sharp and side is not None else Length(2 * self._half_chord())

    @property
    def round_left(self) -> Length:
        """Length of arc left of the round between two flats; nothing where they meet.

        Examples
        --------
        >>> FlatsOnRound(Flats(4, Length.of_mm(5)), Length.of_mm(20)).round_left
        Length(mm=Fraction(0, 1))
        """
        if self.corners_are_sharp:
            return Length(Fraction(0))
        flat = arc_tangent(self._half_chord() / self.flats.centre_to_flat.mm) * 2
        return self.diameter * ((Fraction(1, self.flats.count) - flat.turns) * PI_LOW)

    def _half_chord(self) -> Fraction:
        return square_root(self.diameter.mm**2 / 4 - self.flats.centre_to_flat.mm**2)


def _half_step(count: int) -> Angle:
    return Angle(Fraction(1, 2 * count))
