"""Twist drills: metric steps, sixty-fourths of an inch, numbers and letters."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length

_TABLE = Path(__file__).parent / "drills" / "numbers_and_letters.csv"
#: Below this, metric drills go by half tenths. [mm]
HALF_TENTHS_BELOW = Fraction(3)


class Drill(NamedTuple):
    """One drill by its name."""

    name: str
    diameter: Length


def nearest_metric(hole: Length) -> Drill:
    """Return the nearest metric drill: steps of 0.1 mm, of 0.05 mm below 3 mm.

    Examples
    --------
    >>> nearest_metric(Length.of_mm("8.538")).name
    '8.5 mm'
    """
    step = Fraction(5, 100) if hole.mm < HALF_TENTHS_BELOW else Fraction(1, 10)
    size = max(1, round(hole.mm / step)) * step
    return Drill(f"{trimmed_decimal_text(size, 2)} mm", Length(size))


def nearest_inch(hole: Length) -> Drill:
    """Return the nearest number, letter or sixty-fourth drill; the smaller of two as near.

    Examples
    --------
    >>> nearest_inch(Length.of_inches("0.2013")).name
    'No.7'
    """
    sixty_fourths = max(1, round(hole.inches * 64))
    fraction = Fraction(sixty_fourths, 64)
    whole, part = divmod(fraction, 1)
    name = f"{whole} {part} in" if whole and part else f"{fraction} in"
    every = (*_numbers_and_letters(), Drill(name, Length.of_inches(fraction)))
    return min(every, key=lambda drill: (abs(drill.diameter.mm - hole.mm), drill.diameter, drill.name))


@lru_cache
def _numbers_and_letters() -> tuple[Drill, ...]:
    import csv

    lines = (line for line in _TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#"))
    return tuple(Drill(row["name"], read_length(row["diameter"])) for row in csv.DictReader(lines, strict=True))
