"""The terminal screen and the JSON of marks at several angles on a circle of holes; data in, text out."""

from __future__ import annotations

from typing import Any

from cli.views import answer_json
from cli.views.cautions import dividing_cautions
from cli.views.divide_screen import PositionTable, positions_json, print_positions
from cli.views.index_settings import ratio_check
from cli.views.method_tables import counted
from cli.views.part_figures import length_json
from cli.views.screen import console, facts_table, print_list
from cli.views.shop_figures import size_text
from cli.views.workpiece import Workpiece, at_rim, rim_json
from solver.dividing.heads import Head
from solver.dividing.positions import Position
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.pitches import figure_text

#: The error along the rim is told on the screen for so many marks; JSON has it for every one.
MOST_TOLD = 24


def show_angles(head: Head, table: PositionTable, part: Workpiece | None = None) -> None:
    """Print where the pin stands for every mark; with a part also what its error comes to at the rim."""
    out = console()
    out.print(facts_table(angle_rows(head, table, part)))
    print_positions(out, table, with_due=True)
    print_list(out, "Early check, before metal is cut", angle_checks(head, table))
    print_list(out, "Cautions", angle_cautions(head, table))


def angle_rows(head: Head, table: PositionTable, part: Workpiece | None = None) -> list[tuple[str, str]]:
    """Echo what was asked, the head, how the pin comes to the first mark, and the errors along the rim of a part."""
    marks, first = len(table[2]) - 1, table[2][1].exact.turns
    rows = [
        ("Asked", marks_asked(marks, closes=closes(table))),
        ("Head", head.name),
    ]
    if head.has_worm:
        turns = counted(first * head.worm_ratio, "crank turn")
        rows.append(("Proof", f"mark 1: {first} × {figure_text(head.worm_ratio)} = {turns} from zero"))
    else:
        rows.append(("Proof", f"mark 1: {first} of a turn of the spindle from zero, by its own holes"))
    return rows if part is None else [*rows, *rim_rows(part, table[2])]


def rim_rows(part: Workpiece, places: tuple[Position, ...]) -> list[tuple[str, str]]:
    """Say what the error of the worst mark comes to along the rim, and of each mark where they are few."""
    worst = max(places, key=lambda place: abs(place.error.turns))
    if worst.error.turns == 0:
        return [("At the radius", f"exact at every mark, at {size_text(part.radius)}")]
    off = f"mark {worst.number} is worst, {at_rim(worst.error, part.radius)} along the rim at {size_text(part.radius)}"
    rows = [("At the radius", off)]
    marks = places[1:]
    if len(marks) <= MOST_TOLD:
        told = ", ".join(f"mark {place.number} {at_rim(place.error, part.radius)}" for place in marks)
        rows.append(("", told))
    return rows


def marks_asked(marks: int, *, closes: bool) -> str:
    """Count the marks at angles of their own: beside mark 0, unless the last of them falls on it.

    Examples
    --------
    >>> marks_asked(3, closes=False), marks_asked(2, closes=True)
    ('3 marks beside mark 0, at angles of their own from it', '2 marks at angles of their own, each from mark 0')
    """
    if closes:
        return f"{counted(marks, 'mark')} at angles of their own, each from mark 0"
    return f"{counted(marks, 'mark')} beside mark 0, at angles of their own from it"


def angle_checks(head: Head, table: PositionTable) -> list[str]:
    """Say what to see before cutting: the ratio counted, and the scale of the head at the last mark."""
    last = table[2][-1]
    stands = sexagesimal_text(last.reached, 1)
    return [*ratio_check(head), f"At mark {last.number} the scale of the head must show {stands}."]


def angle_cautions(head: Head, table: PositionTable) -> tuple[str, ...]:
    """List the cautions of marks that need not close a round."""
    return dividing_cautions(by_crank=head.has_worm, closes=closes(table))


def closes(table: PositionTable) -> bool:
    """Say whether the last mark is the first one again.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.dividing.positions import marks_on
    >>> marks = (Fraction(0), Fraction(1, 3), Fraction(1))
    >>> closes((None, 21, tuple(marks_on(Head("head", Fraction(40), ()), marks, 21))))
    True
    """
    return table[2][-1].exact.turns.denominator == 1


def worst_of(places: tuple[Position, ...]) -> Angle:
    """Find the largest error of a mark, with its sign."""
    return max((place.error for place in places), key=lambda error: abs(error.turns))


def angles_json(head: Head, table: PositionTable, part: Workpiece | None = None) -> str:
    """Write where the pin stands for every mark as JSON."""
    places = table[2]
    worst = worst_of(places)
    answer: dict[str, Any] = {
        "asked": {"divisions": None, "turns_of_work": None, "marks": len(places) - 1},
        "head": head.name,
        "method": "positions",
        "worst_error_arcsec": f"{abs(worst.arcsec)}",
        "exact": worst.turns == 0,
        "positions": positions_json(table),
    }
    if part is not None:
        answer["radius_mm"] = length_json(part.radius)
        answer["worst_error_at_radius_mm"] = rim_json(Angle(abs(worst.turns)), part.radius)
        for row, place in zip(answer["positions"]["rows"], places, strict=True):
            row["error_at_radius_mm"] = rim_json(place.error, part.radius)
    return answer_json.as_text(answer)
