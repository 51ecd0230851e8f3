"""Figures of a thread as the bench reads them: both units, the unit of the set-up first, rounded once."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial
from typing import NamedTuple

from solver.quantities.angles import Angle
from solver.quantities.exact_numbers import (
    decimal_text,
    is_finite_decimal,
    round_half_even,
    significant_text,
    trimmed_decimal_text,
)
from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import INCH_PLACES, MM_PLACES, Rounding, in_both_units, shown_decimal

#: Steps of a dial with more decimals than this are rounded. [decimal places]
MOST_DIAL_PLACES = 7
#: Writes a length in both units.
Say = Callable[[Length], str]


def both(length: Length, *, in_inches: bool, finer: int = 0) -> str:
    """Write a length in both units, the unit of the set-up first, with so many decimals more than is usual.

    Examples
    --------
    >>> both(Length.of_mm("0.92015"), in_inches=False), both(Length.of_inches("0.05"), in_inches=True)
    ('0.920 mm (0.0362 in)', '0.0500 in (1.270 mm)')
    >>> both(Length.of_mm("0.0009"), in_inches=False), both(Length.of_mm("0.049"), in_inches=True, finer=1)
    ('0.001 mm (0.00004 in)', '0.00193 in (0.0490 mm)')
    """
    return in_both_units(length, inches_first=in_inches, finer=finer)


def saying(*, in_inches: bool, finer: int = 0) -> Say:
    """Return the writer of lengths for one set-up.

    Examples
    --------
    >>> saying(in_inches=True)(Length.of_inches("1/8"))
    '0.1250 in (3.175 mm)'
    """
    return partial(both, in_inches=in_inches, finer=finer)


def bounds_text(least: Length, most: Length, *, in_inches: bool) -> str:
    """Write a range with each end rounded into it, so that a figure that is told does belong to it.

    Examples
    --------
    >>> bounds_text(Length.of_mm("0.75756"), Length.of_mm("1.51472"), in_inches=False)
    '0.758 mm (0.0299 in) to 1.514 mm (0.0596 in)'
    """
    ends = ((least, Rounding.UP), (most, Rounding.DOWN))
    return " to ".join(in_both_units(end, side, inches_first=in_inches) for end, side in ends)


def finely(length: Length, *, in_inches: bool) -> str:
    """Write a length in one unit, with a decimal more than is set: for telling two formulas apart.

    Examples
    --------
    >>> finely(Length.of_mm("10.32469"), in_inches=False)
    '10.3247 mm'
    """
    if in_inches:
        return f"{decimal_text(length.inches, INCH_PLACES + 1)} in"
    return f"{decimal_text(length.mm, MM_PLACES + 1)} mm"


def wire_text(wire: Length, *, in_inches: bool) -> str:
    """Write the diameter of a wire in one unit, as it is marked.

    Examples
    --------
    >>> wire_text(Length.of_mm("0.8660"), in_inches=False)
    '0.866 mm'
    """
    return f"{trimmed_decimal_text(wire.inches, 5)} in" if in_inches else f"{trimmed_decimal_text(wire.mm, 4)} mm"


def columns(length: Length, rounding: Rounding = Rounding.NEAREST) -> tuple[str, str]:
    """Write a length for two columns of a table, mm and inch; a limit is rounded to its own side.

    Examples
    --------
    >>> columns(Length.of_mm(10)), columns(Length.of_inches("0.207"), Rounding.DOWN)
    (('10.000', '0.3937'), ('5.257', '0.2070'))
    """
    return shown_decimal(length.mm, MM_PLACES, rounding), shown_decimal(length.inches, INCH_PLACES, rounding)


def degrees_text(angle: Angle, places: int = 2) -> str:
    """Write an angle in degrees.

    Examples
    --------
    >>> degrees_text(Angle.of_degrees("29.5")), degrees_text(Angle.of_degrees("3.0282"))
    ('29.5°', '3.03°')
    """
    return f"{trimmed_decimal_text(angle.degrees, places)}°"


def percent_text(part: Fraction) -> str:
    """Write a part of a thread.

    Examples
    --------
    >>> percent_text(Fraction(3, 4))
    '75 %'
    """
    return f"{trimmed_decimal_text(part * 100, 1)} %"


class DialColumn(NamedTuple):
    """How the readings of one dial are written: the unit, and decimals for its steps and for a whole depth."""

    in_inches: bool
    places: int

    @property
    def finer(self) -> int:
        """Decimals beyond the usual ones."""
        return self.places - (INCH_PLACES if self.in_inches else MM_PLACES)

    def shown(self, length: Length) -> Fraction:
        """Round a length once, to what is written of it.

        Examples
        --------
        >>> DialColumn(in_inches=True, places=4).shown(Length.of_mm("0.92015"))
        Fraction(181, 5000)
        """
        value = length.inches if self.in_inches else length.mm
        return Fraction(round_half_even(value, self.places), 10**self.places)

    def text(self, value: Fraction) -> str:
        """Write what `shown` returned, or sums and differences of it."""
        return decimal_text(value, self.places)


def dial_column(step: Length, *, in_inches: bool) -> DialColumn:
    """Choose the decimals of a dial: those of its steps, and no fewer than a depth is told with.

    Marks of a dial of the other unit may have no end of decimals: then one more than a depth.

    Examples
    --------
    >>> dial_column(Length.of_mm("0.01"), in_inches=False).places
    3
    >>> dial_column(Length.of_inches("0.00005"), in_inches=True).finer
    1
    >>> dial_column(Length.of_mm("0.02"), in_inches=True).places
    5
    """
    least = step.inches if in_inches else step.mm
    usual = INCH_PLACES if in_inches else MM_PLACES
    whole = (each for each in range(usual, MOST_DIAL_PLACES) if (least * 10**each).denominator == 1)
    return DialColumn(in_inches, next(whole, usual + 1))


def step_text(step: Length, *, in_inches: bool) -> str:
    """Write the step of a dial; one that only the other unit can write goes by that.

    Examples
    --------
    >>> step_text(Length.of_inches("0.0005"), in_inches=True), step_text(Length.of_mm("0.02"), in_inches=True)
    ('0.0005 in', '0.02 mm')
    """
    inch, metric = is_finite_decimal(step.inches, 9), is_finite_decimal(step.mm, 9)
    if inch if in_inches else not metric and inch:
        return f"{trimmed_decimal_text(step.inches, 9)} in"
    if metric:
        return f"{trimmed_decimal_text(step.mm, 9)} mm"
    value, unit = (step.inches, "in") if in_inches else (step.mm, "mm")
    return f"≈{significant_text(value, 4)} {unit}"
