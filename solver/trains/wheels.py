"""Wheels, meshing pairs and trains, kept unreduced as the hand mounts them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import prod

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length

#: Fewest and most teeth believed of a change wheel. [teeth]
FEWEST_TEETH = 5
MOST_TEETH = 400


@dataclass(frozen=True, slots=True)
class WheelClass:
    """Wheels of one size that mesh with one another and with no other class.

    Parameters
    ----------
    size : str
        As the file writes it: ``module 1`` or ``20 DP``.
    module : Length
        Millimetres of pitch diameter for one tooth.
    stock : tuple of (int, int)
        Teeth and how many such wheels there are, by rising teeth.
    only_in_pair : int or None
        The one pair this class can sit in, counted from 1 at the spindle side.
    face, bore : Length or None
        Width of the teeth and diameter of the hole, for whoever makes another.
    pressure_angle : Angle or None
        Of the teeth, for the same purpose.
    """

    size: str
    module: Length
    stock: tuple[tuple[int, int], ...]
    only_in_pair: int | None = None
    face: Length | None = None
    bore: Length | None = None
    pressure_angle: Angle | None = None

    def with_wheel(self, teeth: int) -> WheelClass:
        """Return the same class with one more wheel.

        Examples
        --------
        >>> box = WheelClass("module 1", Length.of_mm(1), ((20, 1),))
        >>> box.with_wheel(20).with_wheel(127).stock
        ((20, 2), (127, 1))
        """
        counts = dict(self.stock)
        counts[teeth] = counts.get(teeth, 0) + 1
        return replace(self, stock=tuple(sorted(counts.items())))


@dataclass(frozen=True, slots=True, order=True)
class Pair:
    """A driver in mesh with a driven wheel; 40/20 stays 40/20.

    Examples
    --------
    >>> Pair(40, 20).ratio
    Fraction(2, 1)
    """

    driver: int
    driven: int
    wheel_class: int = 0

    @property
    def ratio(self) -> Fraction:
        """Turns of the driven wheel for one turn of the driver, sign apart.

        Examples
        --------
        >>> Pair(50, 40).ratio
        Fraction(5, 4)
        """
        return Fraction(self.driver, self.driven)


@dataclass(frozen=True, slots=True, order=True)
class Train:
    """Pairs from the spindle side to the leadscrew; each driven wheel shares its stud with the next driver.

    Examples
    --------
    >>> train = Train((Pair(50, 40), Pair(20, 127)))
    >>> str(train), train.ratio
    ('50-40-20-127', Fraction(25, 127))
    """

    pairs: tuple[Pair, ...]

    @property
    def ratio(self) -> Fraction:
        """Product of drivers over product of driven wheels.

        Examples
        --------
        >>> Train((Pair(20, 40), Pair(30, 60))).ratio
        Fraction(1, 4)
        """
        return Fraction(prod(pair.driver for pair in self.pairs), prod(pair.driven for pair in self.pairs))

    @property
    def wheels(self) -> tuple[tuple[int, int], ...]:
        """Every wheel as (class, teeth), spindle side first.

        Examples
        --------
        >>> Train((Pair(20, 40),)).wheels
        ((0, 20), (0, 40))
        """
        return tuple((pair.wheel_class, teeth) for pair in self.pairs for teeth in (pair.driver, pair.driven))

    @property
    def inverted(self) -> Train:
        """The same wheels with drivers and driven exchanged: the commonest mistake at the banjo.

        Examples
        --------
        >>> str(Train((Pair(50, 40), Pair(20, 127))).inverted)
        '40-50-127-20'
        """
        return Train(tuple(Pair(pair.driven, pair.driver, pair.wheel_class) for pair in self.pairs))

    def __str__(self) -> str:
        return "-".join(str(teeth) for _, teeth in self.wheels)
