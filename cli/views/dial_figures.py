"""What the screen and the JSON of ``dial`` are given."""

from __future__ import annotations

from typing import NamedTuple

from cli.index_moves import IndexMoves
from solver.dials.graduations import GraduationReport
from solver.dials.mark_pattern import MarkLength, MarkPattern
from solver.dials.verniers import Vernier
from solver.dividing.choosing import ChoiceReport
from solver.dividing.positions import Position
from solver.dividing.table_dial import DialPosition, DialTable
from solver.quantities.lengths import Length


class VernierAnswer(NamedTuple):
    """A vernier, and what the head does for one of its divisions; or every line of it by the dial of a table."""

    vernier: Vernier
    choice: ChoiceReport
    table: DialTable | None = None


class MarkRow(NamedTuple):
    """One mark: where the crank stands on which circle, or the dial of a table, and how long it is cut."""

    place: Position | DialPosition
    circle: int | None
    length: MarkLength


class DialAnswer(NamedTuple):
    """Everything that ``dial`` found."""

    report: GraduationReport
    in_inches: bool
    others: tuple[Length, ...]
    pattern: MarkPattern
    moves: IndexMoves
    vernier: VernierAnswer | None
    diameter: Length | None
    spacing: Length | None
    travel: Length | None
    rows: tuple[MarkRow, ...] | None
