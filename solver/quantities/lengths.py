"""Lengths as exact millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from solver.quantities.exact_numbers import exact, trimmed_decimal_text

#: Millimetres in one inch: exact by definition since 1959.
MM_PER_INCH = Fraction(127, 5)


@dataclass(frozen=True, slots=True, order=True)
class Length:
    """A length, held as exact millimetres; it never equals a bare number.

    Examples
    --------
    >>> Length.of_inches("1/20")
    Length(mm=Fraction(127, 100))
    >>> Length.of_mm(3) / Length.of_mm(2)
    Fraction(3, 2)
    """

    mm: Fraction

    def __post_init__(self) -> None:
        object.__setattr__(self, "mm", exact(self.mm))

    @classmethod
    def of_mm(cls, value: int | Fraction | str) -> Length:
        """Make a length from millimetres.

        Examples
        --------
        >>> Length.of_mm("1.5")
        Length(mm=Fraction(3, 2))
        """
        return cls(exact(value))

    @classmethod
    def of_inches(cls, value: int | Fraction | str) -> Length:
        """Make a length from inches.

        Examples
        --------
        >>> Length.of_inches(1)
        Length(mm=Fraction(127, 5))
        """
        return cls(exact(value) * MM_PER_INCH)

    @property
    def inches(self) -> Fraction:
        """The same length in inches, exactly.

        Examples
        --------
        >>> Length.of_mm(127).inches
        Fraction(5, 1)
        """
        return self.mm / MM_PER_INCH

    def __add__(self, other: object) -> Length:
        return Length(self.mm + other.mm) if isinstance(other, Length) else NotImplemented

    def __sub__(self, other: object) -> Length:
        return Length(self.mm - other.mm) if isinstance(other, Length) else NotImplemented

    def __mul__(self, factor: int | Fraction) -> Length:
        return Length(self.mm * exact(factor))

    __rmul__ = __mul__

    def __truediv__(self, other: object) -> Fraction:
        return self.mm / other.mm if isinstance(other, Length) else NotImplemented


def least_common_multiple(first: Fraction, second: Fraction) -> Fraction:
    """Return the least positive number that is a whole multiple of both.

    Examples
    --------
    >>> least_common_multiple(Fraction(5, 8), Fraction(127, 40))
    Fraction(635, 8)
    """
    return Fraction(lcm(first.numerator, second.numerator), gcd(first.denominator, second.denominator))


def shown_mm(length: Length) -> str:
    """Write a length for a refusal: millimetres, rounded to a micrometre.

    Examples
    --------
    >>> shown_mm(Length.of_inches("1/8"))
    '3.175 mm'
    """
    return f"{trimmed_decimal_text(length.mm, 3)} mm"
