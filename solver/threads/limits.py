"""Limits of size of a screw or a hole, and the classes they belong to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar, NamedTuple

from solver.quantities.exact_numbers import round_half_even
from solver.quantities.lengths import Length

#: Positions of the field of tolerance of ISO metric screws and of their nuts.
SCREW_POSITIONS, NUT_POSITIONS = "efgh", "GH"
_GRADES = "123456789"
_UNIFIED = ("1A", "2A", "3A", "1B", "2B", "3B")
_ACME = ("2G",)


@dataclass(frozen=True, slots=True)
class ThreadClass:
    """A class whose limits are worked out.

    Parameters
    ----------
    value : str
        How a drawing writes it: ``6g``, ``4h6h`` or ``5H`` for ISO metric threads, the grade of the pitch diameter
        first, then that of the crest where it is another; ``1A`` to ``3B`` for unified ones; ``2G`` for Acme.

    Raises
    ------
    ValueError
        It is none of those.

    Examples
    --------
    >>> ThreadClass("6g") == ThreadClass.METRIC_SCREW, ThreadClass("4h6h").grades
    (True, (4, 6))
    """

    value: str
    METRIC_SCREW: ClassVar[ThreadClass]
    METRIC_SCREW_NO_ALLOWANCE: ClassVar[ThreadClass]
    METRIC_NUT: ClassVar[ThreadClass]
    METRIC_NUT_ALLOWANCE: ClassVar[ThreadClass]
    UNIFIED_SCREW: ClassVar[ThreadClass]
    UNIFIED_NUT: ClassVar[ThreadClass]
    ACME: ClassVar[ThreadClass]

    def __post_init__(self) -> None:
        if not (self.value in _UNIFIED or self.value in _ACME or _is_metric(self.value)):
            message = f"limits of class {self.value} are not worked out"
            raise ValueError(message)

    @classmethod
    def read(cls, written: str) -> ThreadClass | None:
        """Read what a drawing writes; ``None`` for a class that is not worked out.

        Small and capital letters tell metric classes apart; unified ones are written either way.

        Examples
        --------
        >>> ThreadClass.read("5g6g"), ThreadClass.read("3b"), ThreadClass.read("6z")
        (ThreadClass(value='5g6g'), ThreadClass(value='3B'), None)
        """
        for value in (written, written.upper()):
            if _is_metric(written) or value in _UNIFIED:
                return cls(value)
        return None

    @property
    def is_internal(self) -> bool:
        """True for a class of holes alone; that of Acme threads is of both.

        Examples
        --------
        >>> ThreadClass("6H").is_internal, ThreadClass("2A").is_internal, ThreadClass("3B").is_internal
        (True, False, True)
        """
        return self.value not in _ACME and self.value[-1] in f"{NUT_POSITIONS}B"

    @property
    def is_metric(self) -> bool:
        """True for a class whose standard prints millimetres.

        Examples
        --------
        >>> ThreadClass("6H").is_metric, ThreadClass("2A").is_metric
        (True, False)
        """
        return _is_metric(self.value)

    @property
    def is_unified(self) -> bool:
        """True for a class of unified threads.

        Examples
        --------
        >>> ThreadClass("3A").is_unified, ThreadClass("2G").is_unified
        (True, False)
        """
        return self.value in _UNIFIED

    @property
    def grades(self) -> tuple[int, int]:
        """Grades of a metric class: of the pitch diameter, and of the crest (major of a screw, minor of a nut).

        Examples
        --------
        >>> ThreadClass("6H").grades, ThreadClass("4H5H").grades
        ((6, 6), (4, 5))
        """
        return int(self.value[0]), int(self.value[-2])


def _is_metric(value: str) -> bool:
    """Say whether it is one or two grades, each with the same letter of position; the Acme class is not."""
    grades, letters = value[::2], set(value[1::2])
    if value in _ACME or len(value) not in (2, 4) or len(letters) != 1:
        return False
    return all(grade in _GRADES for grade in grades) and letters <= {*SCREW_POSITIONS, *NUT_POSITIONS}


ThreadClass.METRIC_SCREW = ThreadClass("6g")
ThreadClass.METRIC_SCREW_NO_ALLOWANCE = ThreadClass("6h")
ThreadClass.METRIC_NUT = ThreadClass("6H")
ThreadClass.METRIC_NUT_ALLOWANCE = ThreadClass("6G")
ThreadClass.UNIFIED_SCREW = ThreadClass("2A")
ThreadClass.UNIFIED_NUT = ThreadClass("2B")
ThreadClass.ACME = ThreadClass("2G")


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
