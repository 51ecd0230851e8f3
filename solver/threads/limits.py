"""Limits of size of a screw or a hole, and the classes they belong to."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.exact_numbers import round_half_even
from solver.quantities.lengths import Length


class ThreadClass(Enum):
    """Classes whose limits are worked out; the value is how a drawing writes the class."""

    METRIC_SCREW = "6g"
    METRIC_SCREW_NO_ALLOWANCE = "6h"
    METRIC_NUT = "6H"
    METRIC_NUT_ALLOWANCE = "6G"
    UNIFIED_SCREW = "2A"
    UNIFIED_NUT = "2B"
    #: Of screw and nut alike.
    ACME = "2G"

    @property
    def is_internal(self) -> bool:
        """True for a class of holes alone; that of Acme threads is of both.

        Examples
        --------
        >>> ThreadClass("6H").is_internal, ThreadClass("2A").is_internal
        (True, False)
        """
        return self in (ThreadClass.METRIC_NUT, ThreadClass.METRIC_NUT_ALLOWANCE, ThreadClass.UNIFIED_NUT)

    @property
    def is_metric(self) -> bool:
        """True for a class whose standard prints millimetres.

        Examples
        --------
        >>> ThreadClass("6H").is_metric, ThreadClass("2A").is_metric
        (True, False)
        """
        return self.value.startswith("6")


class Band(NamedTuple):
    """Least and greatest size; ``None`` where the class sets no such limit."""

    least: Length | None
    most: Length | None

    @property
    def middle(self) -> Length | None:
        """Half way between, where both are set.

        Examples
        --------
        >>> Band(Length.of_mm(1), Length.of_mm(2)).middle
        Length(mm=Fraction(3, 2))
        >>> Band(None, Length.of_mm(2)).middle is None
        True
        """
        if self.least is None or self.most is None:
            return None
        return (self.least + self.most) * Fraction(1, 2)


class Limits(NamedTuple):
    """Limits of one class.

    Parameters
    ----------
    of_class : ThreadClass
        Class.
    major, pitch, minor : Band
        Limits of the three diameters, rounded as the standard prints them: the other unit is told from these.
    notes : tuple of str
        What the figures rest on.
    is_acme_nut : bool
        True for the nut of the one class that names both.
    """

    of_class: ThreadClass
    major: Band
    pitch: Band
    minor: Band
    notes: tuple[str, ...] = ()
    is_acme_nut: bool = False

    @property
    def is_internal(self) -> bool:
        """True for the limits of a nut.

        Examples
        --------
        >>> free = Band(None, None)
        >>> [Limits(ThreadClass.ACME, free, free, free, (), each).is_internal for each in (False, True)]
        [False, True]
        """
        return self.is_acme_nut or self.of_class.is_internal

    @classmethod
    def rounded(
        cls,
        of_class: ThreadClass,
        bare: tuple[Band, Band, Band],
        to_print: Callable[[Length], Length],
        notes: tuple[str, ...] = (),
    ) -> Limits:
        """Round bare bands as a standard prints them.

        Examples
        --------
        >>> free = Band(None, None)
        >>> band = Band(None, Length.of_mm("9.02572"))
        >>> Limits.rounded(ThreadClass.METRIC_NUT, (free, band, free), to_thousandths_mm).pitch.most
        Length(mm=Fraction(4513, 500))
        """
        major, pitch, minor = (
            Band(*(None if end is None else to_print(end) for end in (band.least, band.most))) for band in bare
        )
        return cls(of_class, major, pitch, minor, notes)


def to_thousandths_mm(length: Length) -> Length:
    """Round to 0.001 mm, as ISO 724 and ISO 965 print.

    Examples
    --------
    >>> to_thousandths_mm(Length.of_mm("9.02572"))
    Length(mm=Fraction(4513, 500))
    """
    return Length(Fraction(round_half_even(length.mm, 3), 1000))


def to_places_inch(length: Length, places: int = 4) -> Length:
    """Round to so many decimals of an inch, halves up, as ASME B1.1 prints.

    Examples
    --------
    >>> to_places_inch(Length.of_inches("0.21752")).inches
    Fraction(87, 400)
    """
    scale = 10**places
    return Length.of_inches(Fraction((length.inches * scale + Fraction(1, 2)) // 1, scale))
