"""Pitches as a drawing writes them: figure and unit kept, lead derived."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from solver.quantities.exact_numbers import exact, is_finite_decimal, trimmed_decimal_text
from solver.quantities.lengths import MM_PER_INCH, Length
from solver.quantities.pi_multiples import Lead, PiLength


class PitchUnit(Enum):
    """The ways a drawing states a pitch; the value is how it is written."""

    MILLIMETRE = "mm"
    INCH = "in"
    THREADS_PER_INCH = "tpi"
    MODULE = "module"
    DIAMETRAL_PITCH = "DP"
    CIRCULAR_PITCH = "in CP"


#: Decimal places beyond which a figure is written as a fraction.
DECIMALS_KEPT = 6


@dataclass(frozen=True, slots=True)
class Pitch:
    """One pitch with its starts; ``figure`` is what the drawing says in ``unit``.

    Parameters
    ----------
    figure : Fraction
        The written figure, above zero.
    unit : PitchUnit
        What the figure counts.
    starts : int, optional
        Number of starts, 1 or more; the lead is ``starts`` pitches.

    Examples
    --------
    >>> Pitch(Fraction(20), PitchUnit.THREADS_PER_INCH).lead
    Length(mm=Fraction(127, 100))
    >>> str(Pitch(Fraction(23, 2), PitchUnit.THREADS_PER_INCH))
    '11 1/2 tpi'
    """

    figure: Fraction
    unit: PitchUnit
    starts: int = 1

    def __post_init__(self) -> None:
        object.__setattr__(self, "figure", exact(self.figure))
        if type(self.starts) is not int:
            message = f"starts are counted in whole numbers, not {self.starts!r}"
            raise TypeError(message)
        if self.figure <= 0 or self.starts < 1:
            message = "a pitch is above zero and has at least one start"
            raise ValueError(message)

    @property
    def pitch(self) -> Lead:
        """Distance from one groove to the next along the axis; exact.

        Examples
        --------
        >>> Pitch(Fraction(1, 2), PitchUnit.MODULE).pitch
        PiLength(mm_per_pi=Fraction(1, 2))
        """
        figure = self.figure
        match self.unit:
            case PitchUnit.MILLIMETRE:
                return Length(figure)
            case PitchUnit.INCH | PitchUnit.CIRCULAR_PITCH:
                return Length(figure * MM_PER_INCH)
            case PitchUnit.THREADS_PER_INCH:
                return Length(MM_PER_INCH / figure)
            case PitchUnit.MODULE:
                return PiLength(figure)
            case PitchUnit.DIAMETRAL_PITCH:
                return PiLength(MM_PER_INCH / figure)

    @property
    def lead(self) -> Lead:
        """Advance in one turn of the screw: ``starts`` pitches; exact.

        Examples
        --------
        >>> Pitch(Fraction(2), PitchUnit.MILLIMETRE, starts=2).lead
        Length(mm=Fraction(4, 1))
        """
        return self.pitch * self.starts

    def __str__(self) -> str:
        figure = figure_text(self.figure)
        text = f"module {figure}" if self.unit is PitchUnit.MODULE else f"{figure} {self.unit.value}"
        return text if self.starts == 1 else f"{text}, {self.starts} starts"


def figure_text(figure: Fraction) -> str:
    """Write a figure as the bench does: a short decimal, else whole number and fraction.

    Examples
    --------
    >>> figure_text(Fraction(5, 4)), figure_text(Fraction(23, 2)), figure_text(Fraction(1, 3))
    ('1.25', '11 1/2', '1/3')
    """
    halves_and_so_on = figure.denominator in (2, 4, 8, 16, 32, 64) and figure > Fraction(5, 2)
    if is_finite_decimal(figure, DECIMALS_KEPT) and not halves_and_so_on:
        return trimmed_decimal_text(figure, DECIMALS_KEPT)
    whole, part = divmod(figure, 1)
    return f"{whole} {part}" if whole else f"{part}"
