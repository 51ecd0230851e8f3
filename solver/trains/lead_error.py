"""The error of a cut lead: cut minus wanted, so that plus is a screw that comes out too long."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.exact_numbers import exact
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, lead_bounds_mm

#: cot 30 degrees, what a lead error counts for on the pitch diameter of a 60 degree thread; rounded up in
#: the seventh place. Source: course notes, 1.7321.
COT_30_DEGREES = Fraction(17_320_509, 10_000_000)


@dataclass(frozen=True, slots=True)
class LeadError:
    """Relative error of a lead.

    Parameters
    ----------
    relative : Fraction
        Cut lead over wanted lead, minus one. Exact when ``bound`` is zero, else within ``bound``.
    bound : Fraction
        Proven bound on the distance from the true value; zero for a plain lead.
    """

    relative: Fraction
    bound: Fraction

    def __post_init__(self) -> None:
        exact(self.relative)
        exact(self.bound)

    @property
    def is_exact(self) -> bool:
        """True only for an error of zero, proven.

        Examples
        --------
        >>> LeadError(Fraction(0), Fraction(0)).is_exact, LeadError(Fraction(0), Fraction(1, 10**80)).is_exact
        (True, False)
        """
        return self.relative == 0 and self.bound == 0

    @property
    def ppm(self) -> Fraction:
        """Parts in a million of the lead, signed.

        Examples
        --------
        >>> LeadError(Fraction(1, 8000), Fraction(0)).ppm
        Fraction(125, 1)
        """
        return self.relative * 1_000_000

    @property
    def words(self) -> str:
        """``exact``, ``lead long`` or ``lead short``.

        Examples
        --------
        >>> LeadError(Fraction(-1, 4700), Fraction(0)).words
        'lead short'
        """
        if self.is_exact:
            return "exact"
        return "lead long" if self.relative > 0 else "lead short"

    def over(self, length: Length) -> Length:
        """Accumulated error over a threaded length, signed.

        Examples
        --------
        >>> LeadError(Fraction(1, 8000), Fraction(0)).over(Length.of_mm(300))
        Length(mm=Fraction(3, 80))
        """
        return length * self.relative

    def as_pitch_diameter(self, engaged: Length) -> Length:
        """Return what the error over the engaged length takes of the fit, as pitch diameter, for a 60 degree form.

        Examples
        --------
        >>> LeadError(Fraction(1, 8000), Fraction(0)).as_pitch_diameter(Length.of_mm(15)).mm < Fraction(4, 1000)
        True
        """
        return Length(abs(self.over(engaged).mm) * COT_30_DEGREES)


def lead_error(cut: Length, wanted: Lead) -> LeadError:
    """Compare a cut lead with a wanted one.

    Parameters
    ----------
    cut : Length
        The lead a train cuts; always a plain length.
    wanted : Lead
        A plain length, or a pi length.

    Returns
    -------
    LeadError
        Exact for a plain length; else with a proven bound.

    Examples
    --------
    >>> lead_error(Length.of_mm("1.25"), Length.of_mm("1.25")).is_exact
    True
    >>> from solver.quantities.pi_multiples import PiLength
    >>> error = lead_error(Length(Fraction(22, 7)), PiLength(Fraction(1)))
    >>> round(error.ppm, 2), error.is_exact
    (Fraction(805, 2), False)
    """
    low, high = lead_bounds_mm(wanted)
    if low == high:
        return LeadError(cut.mm / low - 1, Fraction(0))
    longest, shortest = cut.mm / low - 1, cut.mm / high - 1
    return LeadError((longest + shortest) / 2, (longest - shortest) / 2)
