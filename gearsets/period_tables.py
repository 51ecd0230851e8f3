"""Periods of sun, moon and planets by name, read from their tables only when asked for."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from solver.wheelwork.periods import Period, read_period

_FOLDER = Path(__file__).parent / "periods"
#: The tables in the order they are listed.
TABLES = ("sun_and_moon", "planets", "moons")


class NamedPeriod(NamedTuple):
    """One row: ``status`` is ``memory`` or ``exact``."""

    name: str
    period: Period
    kind: str
    status: str


@lru_cache
def named_periods() -> tuple[NamedPeriod, ...]:
    """Read every named period, in the order of the tables.

    Examples
    --------
    >>> first = named_periods()[0]
    >>> first.name, first.period.days, first.status
    ('solar day', Fraction(1, 1), 'exact')
    """
    import csv
    from dataclasses import replace

    rows = []
    for table in TABLES:
        text = (_FOLDER / f"{table}.csv").read_text(encoding="utf-8")
        lines = (line for line in text.splitlines() if not line.startswith("#"))
        rows += [
            NamedPeriod(row["name"], read_period(row["period"], {}), row["kind"], row["status"])
            for row in csv.DictReader(lines, strict=True)
        ]
    # A figure that is so by definition has no give, however it is written.
    return tuple(
        row._replace(period=replace(row.period, give=Fraction(0))) if row.status == "exact" else row for row in rows
    )


def find_period(text: str) -> Period:
    """Read a period a person wrote, named ones among them.

    Examples
    --------
    >>> find_period("Mars synodic").days, find_period("2 tropical years").told
    (Fraction(38997, 50), '2 tropical years')
    """
    return read_period(text, {row.name: row.period for row in named_periods()})
