"""Grades of ball screws and of lathe leadscrews, read from their tables only when asked for."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length, read_micrometres
from solver.trains.lead_judgement import ScrewGrade

_FOLDER = Path(__file__).parent / "screw_grades"
#: How a grade of each table is spoken of.
_SPOKEN = {"ball_screws": "grade {} ball screw", "lathe_leadscrews": "{} lathe leadscrew"}


class GradeFigure(NamedTuple):
    """One row of a table: ``figure`` is ``any``, ``mean`` or ``whole``, see the head of the table."""

    grade: str
    figure: str
    travel: Length
    limit: Length
    status: str


@lru_cache
def grade_figures(table: str) -> tuple[GradeFigure, ...]:
    """Read every row of ``ball_screws`` or ``lathe_leadscrews``, in the order of the table.

    Examples
    --------
    >>> figure = grade_figures("ball_screws")[1]
    >>> figure.grade, figure.figure, figure.limit, figure.status
    ('3', 'any', Length(mm=Fraction(3, 250)), 'read')
    """
    # Imported here so that a set-up without an error does not wait for it.
    import csv

    text = (_FOLDER / f"{table}.csv").read_text(encoding="utf-8")
    lines = (line for line in text.splitlines() if not line.startswith("#"))
    return tuple(
        GradeFigure(
            row["grade"], row["figure"], read_length(row["travel"]), read_micrometres(row["limit"]), row["status"]
        )
        for row in csv.DictReader(lines, strict=True)
    )


def screw_grades(table: str) -> tuple[ScrewGrade, ...]:
    """Return the grades of a table by what they allow within any stretch of a travel, finest first.

    Examples
    --------
    >>> [grade.name for grade in screw_grades("lathe_leadscrews")]
    ['precision lathe leadscrew', 'ordinary lathe leadscrew']
    """
    rows = (row for row in grade_figures(table) if row.figure == "any")
    grades = (ScrewGrade(_SPOKEN[table].format(row.grade), row.travel, row.limit, row.status == "read") for row in rows)
    return tuple(sorted(grades, key=lambda grade: grade.limit / grade.travel))
