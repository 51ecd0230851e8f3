"""Pi pitches: a fraction times pi, a type of its own, with proven bounds.

An answer to a pi lead is never exact. The bounds below are 80 decimals of pi; the tests hold
them against sympy and against a second library, so that no start-up pays for importing either.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.exact_numbers import exact
from solver.quantities.lengths import Length

_PI_DIGITS = 3_14159265358979323846264338327950288419716939937510582097494459230781640628620899
_PI_SCALE = 10**80

#: Pi lies strictly between these two fractions, which are 1e-80 apart.
PI_LOW = Fraction(_PI_DIGITS, _PI_SCALE)
PI_HIGH = Fraction(_PI_DIGITS + 1, _PI_SCALE)


@dataclass(frozen=True, slots=True)
class PiLength:
    """A length of ``mm_per_pi`` times pi millimetres; it never equals a ``Length``.

    Examples
    --------
    >>> PiLength(Fraction(1, 2)).bounds()[0] < Length.of_mm("1.5708")
    True
    """

    mm_per_pi: Fraction

    def __post_init__(self) -> None:
        object.__setattr__(self, "mm_per_pi", exact(self.mm_per_pi))

    def bounds(self) -> tuple[Length, Length]:
        """Return two lengths, the true one strictly between them.

        Examples
        --------
        >>> low, high = PiLength(Fraction(1)).bounds()
        >>> (high - low).mm == Fraction(1, 10**80)
        True
        """
        low, high = sorted((self.mm_per_pi * PI_LOW, self.mm_per_pi * PI_HIGH))
        return Length(low), Length(high)

    def __mul__(self, factor: int | Fraction) -> PiLength:
        return PiLength(self.mm_per_pi * exact(factor))

    __rmul__ = __mul__


#: A lead is a plain length or a pi length; the two never mix silently.
Lead = Length | PiLength


def lead_bounds_mm(lead: Lead) -> tuple[Fraction, Fraction]:
    """Return the lead in millimetres as a closed interval, of zero width for a plain length.

    Examples
    --------
    >>> lead_bounds_mm(Length.of_mm(2))
    (Fraction(2, 1), Fraction(2, 1))
    """
    if isinstance(lead, Length):
        return lead.mm, lead.mm
    low, high = lead.bounds()
    return low.mm, high.mm
