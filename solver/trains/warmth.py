"""What warmth adds to a steel screw: lengths hold at 20 °C, and a screw that is warmer is longer.

One figure is taken for every steel; that of a certain steel is from 10.5 to 12.5 parts in a million. Common practice.
"""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.lengths import Length
from solver.trains.lead_error import LeadError

#: How much of its length a steel screw grows for one kelvin: 11.5 parts in a million. Common practice.
STEEL_GROWS = Fraction(115, 10_000_000)
#: Over less than this a kelvin is a micrometre or less, which no home shop sees. Common practice.
COUNTS_FROM = Length.of_mm(100)


def growth(length: Length, kelvins: Fraction = Fraction(1)) -> Length:
    """Return how much longer a length of steel is when it is so much warmer; below zero when it is colder.

    Examples
    --------
    >>> growth(Length.of_mm(100)), growth(Length.of_mm(100), Fraction(-2))
    (Length(mm=Fraction(23, 20000)), Length(mm=Fraction(-23, 10000)))
    """
    return length * (STEEL_GROWS * kelvins)


def warmth_error(kelvins: Fraction) -> LeadError:
    """Return what warmth alone does to a lead.

    Examples
    --------
    >>> warmth_error(Fraction(5)).ppm
    Fraction(115, 2)
    """
    return LeadError(STEEL_GROWS * kelvins, Fraction(0))


def with_warmth(error: LeadError, kelvins: Fraction) -> LeadError:
    """Return the error of a lead that has an error already and is warmer too.

    Examples
    --------
    >>> with_warmth(LeadError(Fraction(1, 1000), Fraction(0)), Fraction(100)).ppm
    Fraction(43023, 20)
    """
    grown = 1 + STEEL_GROWS * kelvins
    return LeadError((1 + error.relative) * grown - 1, error.bound * grown)
