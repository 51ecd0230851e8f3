"""A dividing head or rotary table as its owner describes it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length


@dataclass(frozen=True, slots=True)
class Plate:
    """An index plate; circles of different faces cannot be used in one mounting.

    Examples
    --------
    >>> Plate("A", ((24, 25), (46,))).circles
    (24, 25, 46)
    """

    name: str
    faces: tuple[tuple[int, ...], ...]

    @property
    def circles(self) -> tuple[int, ...]:
        """Every hole circle of the plate, face by face.

        Examples
        --------
        >>> Plate("B", ((21, 23),)).circles
        (21, 23)
        """
        return tuple(circle for face in self.faces for circle in face)


@dataclass(frozen=True, slots=True)
class SmallCrank:
    """The second crank of a two-crank head, which turns the large crank slowly.

    Parameters
    ----------
    ratio : Fraction
        Turns of the small crank for one turn of the large one.
    circles : tuple of int
        Hole circles of its own plate.

    Examples
    --------
    >>> SmallCrank(Fraction(100), (100, 54)).circles
    (100, 54)
    """

    ratio: Fraction
    circles: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Head:
    """A dividing head, rotary table or indexer by its figures.

    Parameters
    ----------
    name : str
        How the owner calls it.
    worm_ratio : Fraction
        Crank turns for one turn of the work; 1, the turn of the spindle by hand, where there is no worm.
    plates : tuple of Plate
        The index plates to hand.
    direct_circles : tuple of int
        Holes that lock the spindle itself.
    wheels : tuple of (int, int)
        Change wheels as teeth and count, for differential work and helices.
    table_lead : Length or None
        Lead of the mill's table screw.
    one_idler_follows : bool or None
        In a simple train with one idler, whether the plate turns with the crank; ``None`` when the file does not say,
        and then it is taken to follow, as it does on most heads.
    has_worm : bool
        False for an indexer that has nothing but holes in its spindle.
    dial_reading : Angle or None
        Smallest turn of the work that the dial of the handle tells, vernier included.
    pin_places : int or None
        Places of the pin that part one space of the direct circles.
    small_crank : SmallCrank or None
        The second crank of a two-crank head.
    """

    name: str
    worm_ratio: Fraction
    plates: tuple[Plate, ...]
    direct_circles: tuple[int, ...] = ()
    wheels: tuple[tuple[int, int], ...] = ()
    table_lead: Length | None = None
    one_idler_follows: bool | None = None
    has_worm: bool = True
    dial_reading: Angle | None = None
    pin_places: int | None = None
    small_crank: SmallCrank | None = None

    @property
    def has_only_dial(self) -> bool:
        """True for a table that its dial alone divides: no plates, and no holes that lock the spindle.

        Examples
        --------
        >>> ten_seconds = Angle(Fraction(1, 129_600))
        >>> Head("table", Fraction(90), (), dial_reading=ten_seconds).has_only_dial
        True
        >>> Head("table", Fraction(90), (Plate("A", ((15,),)),), dial_reading=ten_seconds).has_only_dial
        False
        """
        return self.has_worm and self.dial_reading is not None and not self.plates and not self.direct_circles

    def faces(self) -> Iterator[tuple[str, int, tuple[int, ...]]]:
        """Yield every plate name, the number of each of its faces from 1, and the circles of that face.

        Examples
        --------
        >>> list(Head("small", Fraction(40), (Plate("A", ((20, 15), (21,))),)).faces())
        [('A', 1, (20, 15)), ('A', 2, (21,))]
        """
        for plate in self.plates:
            for number, circles in enumerate(plate.faces, start=1):
                yield plate.name, number, circles

    def circles(self) -> Iterator[tuple[str, int]]:
        """Yield every plate name with each of its circles, largest circle first.

        Examples
        --------
        >>> list(Head("small", Fraction(40), (Plate("A", ((15, 20),)),)).circles())
        [('A', 20), ('A', 15)]
        """
        every = [(plate.name, circle) for plate in self.plates for circle in plate.circles]
        yield from sorted(every, key=lambda pair: (-pair[1], pair[0]))
