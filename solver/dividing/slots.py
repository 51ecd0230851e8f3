"""Slots and keyways in a round: where the cutter is set from touching, how deep, and what a micrometer reads."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from solver.quantities.circle_figures import arc_tangent, square_root
from solver.quantities.lengths import Length, shown_mm
from solver.refusals import ImpossibleSettingError

#: More passes than this mean that the cutter was not meant for the slot.
MOST_PASSES = 200
#: Slots whose walls come nearer than this touch. [turns]
_TOUCHING = Fraction(1, 10**40)


def passes_from_touch(
    *, diameter: Length, width: Length, cutter: Length, offset: Length, feeler: Length
) -> tuple[Length, ...]:
    """Find how far the cutter travels from touching the side of the round to each pass of a slot.

    The side of the cutter touches the round, with a feeler between. The cutter then travels across the axis.

    Parameters
    ----------
    diameter : Length
        Of the round that is touched.
    width : Length
        Of the slot.
    cutter : Length
        Width of the saw or side cutter, or diameter of the end mill; not wider than the slot.
    offset : Length
        Middle of the slot from the axis: above zero past it, below zero short of it, seen from the side touched.
    feeler : Length
        Thickness of the paper or feeler between cutter and round; zero when they touch.

    Returns
    -------
    tuple of Length
        Travel to each pass, nearest first; the first and the last finish the walls.

    Raises
    ------
    ImpossibleSettingError
        The cutter is wider than the slot, the slot lies outside the round, or the passes are too many.

    Examples
    --------
    >>> mm = Length.of_mm
    >>> passes_from_touch(diameter=mm(10), width=mm(2), cutter=mm(2), offset=mm(0), feeler=mm(0))
    (Length(mm=Fraction(6, 1)),)
    >>> [each.mm for each in passes_from_touch(diameter=mm(10), width=mm(3), cutter=mm(2), offset=mm(0), feeler=mm(0))]
    [Fraction(11, 2), Fraction(13, 2)]
    """
    if cutter > width:
        raise ImpossibleSettingError(
            f"the cutter of {shown_mm(cutter)} is wider than the slot of {shown_mm(width)}",
            help_text="Take a cutter of the width of the slot or less.",
        )
    if abs(offset.mm) + width.mm / 2 >= diameter.mm / 2:
        raise ImpossibleSettingError(
            "the slot reaches the side of the round or lies outside it",
            help_text="Make it narrower, bring it nearer the axis, or take a larger round.",
        )
    count = ceil(width / cutter)
    if count > MOST_PASSES:
        raise ImpossibleSettingError(
            f"this cutter would need {count} passes for the width of the slot",
            help_text="Take a wider cutter.",
        )
    middle = diameter.mm / 2 + cutter.mm / 2 + feeler.mm + offset.mm
    spare = width.mm - cutter.mm
    if count == 1:
        return (Length(middle),)
    return tuple(Length(middle - spare / 2 + spare * number / (count - 1)) for number in range(count))


@dataclass(frozen=True, slots=True)
class LengthwiseSlot:
    """A slot along a round, its bottom square to the line from the axis to the crown above the round.

    Roots lie within ``10**-50`` mm of the truth.

    Parameters
    ----------
    diameter : Length
        Of the round.
    width : Length
        Of the slot.
    offset : Length
        Middle of the slot from the axis, zero or more.
    depth_from_crown : Length
        Bottom of the slot below the highest point of the round.

    Raises
    ------
    ImpossibleSettingError
        The slot is wider than the round, has no wall left on one side, or breaks through below.

    Examples
    --------
    >>> mm = Length.of_mm
    >>> LengthwiseSlot(mm(10), mm(6), mm(0), mm(3)).wall_depths
    (Length(mm=Fraction(2, 1)), Length(mm=Fraction(2, 1)))
    """

    diameter: Length
    width: Length
    offset: Length
    depth_from_crown: Length

    def __post_init__(self) -> None:
        if abs(self.offset.mm) + self.width.mm / 2 >= self.diameter.mm / 2:
            raise ImpossibleSettingError(
                "the slot reaches the side of the round or lies outside it",
                help_text="Make it narrower, bring it nearer the axis, or take a larger round.",
            )
        if min(self.wall_depths).mm <= 0:
            needed = arc_height(self.diameter, self._farthest_wall())
            raise ImpossibleSettingError(
                "the slot is so shallow that the round has fallen away from its edge: it would have no wall there",
                help_text=f"Cut it deeper than {shown_mm(needed)} below the crown.",
            )
        if (self.diameter - self.depth_from_crown).mm <= arc_height(self.diameter, self._farthest_wall()).mm:
            raise ImpossibleSettingError(
                "the slot is so deep that it breaks through the far side of the round",
                help_text="Cut it less deep, or take a larger round.",
            )

    @property
    def wall_depths(self) -> tuple[Length, Length]:
        """Depth of the wall nearer the axis and of the wall farther from it.

        Examples
        --------
        >>> mm = Length.of_mm
        >>> [each.mm for each in LengthwiseSlot(mm(10), mm(2), mm(2), mm(3)).wall_depths][1]
        Fraction(2, 1)
        """
        near = abs(self.offset.mm) - self.width.mm / 2
        walls = (Length(abs(near)), self._farthest_wall())
        first, second = (self.depth_from_crown - arc_height(self.diameter, wall) for wall in walls)
        return first, second

    def _farthest_wall(self) -> Length:
        return Length(abs(self.offset.mm) + self.width.mm / 2)


def most_slots_across(diameter: Length, width: Length, offset: Length) -> int:
    """Find how many equal slots across the end of a round leave metal between them at its rim.

    Parameters
    ----------
    diameter : Length
        Of the round.
    width : Length
        Of each slot.
    offset : Length
        Middle of each slot from the axis.

    Returns
    -------
    int
        1 or more.

    Examples
    --------
    >>> mm = Length.of_mm
    >>> most_slots_across(mm(10), mm(4), mm(0)), most_slots_across(mm(10), mm(5), mm(0))
    (7, 5)
    """
    radius, middle, half = diameter.mm / 2, abs(offset.mm), width.mm / 2
    return _most(_leaning(middle + half, radius) - _leaning(middle - half, radius))


def most_slots_along(slot: LengthwiseSlot) -> int:
    """Find how many equal slots along a round leave metal between them, from the rim down to their bottoms.

    Seen from the axis a slot is widest where a wall meets its bottom, so a rib is thinnest there. Of slots that lie
    beside the axis and are cut deeper than it, only the rim is looked at.

    Parameters
    ----------
    slot : LengthwiseSlot
        One of them.

    Returns
    -------
    int
        1 or more.

    Examples
    --------
    >>> mm = Length.of_mm
    >>> [most_slots_along(LengthwiseSlot(mm(20), mm(6), mm(0), mm(depth))) for depth in (1, 4, 7, 10)]
    [9, 6, 3, 1]
    """
    middle, half = abs(slot.offset.mm), slot.width.mm / 2
    near, far = middle - half, middle + half
    bottom = slot.diameter.mm / 2 - slot.depth_from_crown.mm
    if bottom <= 0:
        return 1 if near < 0 else most_slots_across(slot.diameter, slot.width, slot.offset)
    low, high = arc_tangent(near / bottom).turns, arc_tangent(far / bottom).turns
    # At the farther corner of the bottom against the other wall, and, where that stands on the other side of the axis,
    # at the nearer one from bottom to bottom.
    at_far = high - _leaning(near, square_root(bottom**2 + far**2))
    return _most(max(at_far, -2 * low))


def refuse_meeting_slots(what: str, count: int, most: int) -> None:
    """Refuse slots that leave no metal between them.

    Raises
    ------
    ImpossibleSettingError
        More are asked for than can stand side by side.

    Examples
    --------
    >>> refuse_meeting_slots("slots", 12, 7)
    Traceback (most recent call last):
    solver.refusals.ImpossibleSettingError: 12 slots of this size run into one another: no metal is left between them
    At most 7 of them go round this work; for 12, make them narrower or take a larger round.
    """
    if count > most:
        go = "Only one of them goes" if most == 1 else f"At most {most} of them go"
        raise ImpossibleSettingError(
            f"{count} {what} of this size run into one another: no metal is left between them",
            help_text=f"{go} round this work; for {count}, make them narrower or take a larger round.",
        )


def _leaning(aside: Fraction, radius: Fraction) -> Fraction:
    """Return the turns between the middle line and a point of a circle that lies so far to its side."""
    return arc_tangent(aside / square_root(radius**2 - aside**2)).turns


def _most(span: Fraction) -> int:
    """Count the spans, each under half a turn, that stand apart in a turn; touching is not apart, to the last place."""
    return ceil(1 / (span + _TOUCHING)) - 1


def arc_height(diameter: Length, from_axis: Length) -> Length:
    """Find how far a round has fallen below its crown at a distance to the side of the axis.

    Parameters
    ----------
    diameter : Length
        Of the round.
    from_axis : Length
        Distance to the side, up to half the diameter.

    Returns
    -------
    Length
        Within ``10**-50`` mm of the truth; exact where the root is a fraction.

    Examples
    --------
    >>> arc_height(Length.of_mm(10), Length.of_mm(3))
    Length(mm=Fraction(1, 1))
    """
    radius = diameter.mm / 2
    return Length(radius - square_root(radius**2 - from_axis.mm**2))


@dataclass(frozen=True, slots=True)
class Keyway:
    """A keyway on the crown of a shaft.

    Parameters
    ----------
    shaft : Length
        Diameter of the shaft.
    width : Length
        Width of the keyway.
    depth_at_edge : Length
        Depth of its walls, measured where they meet the round.

    Raises
    ------
    ImpossibleSettingError
        It is wider than the shaft, has no walls, or breaks through.

    Examples
    --------
    >>> key = Keyway(Length.of_mm(10), Length.of_mm(6), Length.of_mm(2))
    >>> key.arc_height, key.depth_from_crown, key.over_bottom
    (Length(mm=Fraction(1, 1)), Length(mm=Fraction(3, 1)), Length(mm=Fraction(7, 1)))
    """

    shaft: Length
    width: Length
    depth_at_edge: Length

    def __post_init__(self) -> None:
        if self.width >= self.shaft:
            raise ImpossibleSettingError(
                f"a keyway of {shown_mm(self.width)} is as wide as the shaft of {shown_mm(self.shaft)} or wider",
                help_text="Take a narrower key or a larger shaft.",
            )
        LengthwiseSlot(self.shaft, self.width, Length(Fraction(0)), self.depth_from_crown)

    @classmethod
    def below_crown(cls, shaft: Length, width: Length, depth: Length) -> Keyway:
        """Take a keyway whose depth the drawing measures from the crown of the shaft.

        Examples
        --------
        >>> Keyway.below_crown(Length.of_mm(10), Length.of_mm(6), Length.of_mm(3)).depth_at_edge
        Length(mm=Fraction(2, 1))
        """
        if width >= shaft:
            return cls(shaft, width, depth)
        return cls(shaft, width, depth - arc_height(shaft, width * Fraction(1, 2)))

    @property
    def arc_height(self) -> Length:
        """How far the crown stands above the edges of the keyway.

        Examples
        --------
        >>> Keyway(Length.of_mm(26), Length.of_mm(10), Length.of_mm(4)).arc_height
        Length(mm=Fraction(1, 1))
        """
        return arc_height(self.shaft, self.width * Fraction(1, 2))

    @property
    def depth_from_crown(self) -> Length:
        """How far the cutter is fed after touching the crown.

        Examples
        --------
        >>> Keyway(Length.of_mm(26), Length.of_mm(10), Length.of_mm(4)).depth_from_crown
        Length(mm=Fraction(5, 1))
        """
        return self.depth_at_edge + self.arc_height

    @property
    def over_bottom(self) -> Length:
        """What a micrometer reads from the bottom of the keyway to the far side of the shaft.

        Examples
        --------
        >>> Keyway(Length.of_mm(26), Length.of_mm(10), Length.of_mm(4)).over_bottom
        Length(mm=Fraction(21, 1))
        """
        return self.shaft - self.depth_from_crown
