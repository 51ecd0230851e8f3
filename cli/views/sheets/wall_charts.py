"""Charts for the wall: what one lathe cuts of a series, and what one head divides."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from cli.views.banjo_sketch import set_up_text
from cli.views.cautions import chart_cautions, head_cautions
from cli.views.equipment_screen import runs_text
from cli.views.method_tables import counted, plate_motion_text
from cli.views.sheets.pieces import NO_BREAK, Card, Cautions, Count, CountRow, Facts, Grid, Lines, Piece
from cli.views.shop_figures import approximate, lead_text, signed
from solver.dividing.compound import compound
from solver.dividing.differential import differential
from solver.dividing.divide import exact_settings
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.table_dial import dial_divides
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import MM_PER_INCH
from solver.quantities.pi_multiples import lead_bounds_mm
from solver.trains.reach import Reached

if TYPE_CHECKING:
    from solver.dividing.heads import Head
    from solver.quantities.pi_multiples import Lead
    from solver.trains.half_nut import HalfNutRule
    from solver.trains.lathe import Lathe
    from solver.trains.reach import Reach

THREAD_HEADS = (
    ("Lead, mm", "right"), ("Per inch", "right"), ("Threads", "left"), ("Train", "token"), ("ppm", "right"),
    ("Half-nut", "left"),
)  # fmt: skip
COUNT_HEADS = (("N", "right"), ("Setting", "left"))
#: Rows between two heads of the chart of counts.
BLOCK = 10


def thread_chart(lathe: Lathe, rows: Sequence[tuple[str, Reach]], within: Fraction, series: str) -> Card:
    """Make the chart of what a lathe cuts, one row for each lead, coarse after fine."""
    names: dict[Lead, list[str]] = {}
    for name, row in rows:
        names.setdefault(row.lead, []).append(name)
    by_lead = {row.lead: row for _, row in rows}
    ordered = sorted(by_lead.values(), key=lambda row: lead_bounds_mm(row.lead))
    cells = [_thread_cells(row, names[row.lead]) for row in ordered if row.reached is not Reached.NOT]
    missed = [", ".join(names[row.lead]) for row in ordered if row.reached is Reached.NOT]
    ppm = trimmed_decimal_text(within * 1_000_000, 2)
    pieces: list[Piece] = [
        Facts([("Leadscrew", f"{lathe.leadscrew_text}: {lead_text(lathe.leadscrew_lead)}")]),
        Grid(
            "Trains, spindle side first, driver-driven",
            THREAD_HEADS,
            cells,
            notes=[
                f"ppm of the lead, {ppm} at most: + is a screw too long, - too short. (n) is an idler.",
                (
                    "Half-nut: any, may be opened anywhere; lines, only on those lines of the dial, counted from the "
                    "one you began on; CLOSED, keep it closed until the thread is done."
                ),
            ],
        ),
    ]
    if missed:
        pieces.append(Lines("Not reached with these wheels", missed))
    pieces.append(Cautions(chart_cautions()))
    return Card(f"Threads: {series}", lathe.name, pieces)


def _thread_cells(row: Reach, names: Sequence[str]) -> list[str]:
    best = row.best
    if best is None:
        raise TypeError("a lead that is reached has a train")
    low, high = lead_bounds_mm(row.lead)
    mm = (low + high) / 2
    lever = f", lever {best.lever}" if best.lever else ""
    return [
        approximate(mm, 4),
        approximate(MM_PER_INCH / mm, 3),
        ", ".join(names),
        f"{set_up_text(best.train, best.idlers)}{lever}",
        "exact" if best.error.is_exact else signed(best.error.ppm),
        half_nut_hint(best.half_nut),
    ]


def half_nut_hint(rule: HalfNutRule) -> str:
    """Write the half-nut rule in a word or two.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.half_nut import HalfNutRule
    >>> half_nut_hint(HalfNutRule(Length.of_mm(3), True)), half_nut_hint(HalfNutRule(Length.of_mm(6), False, (0, 2)))
    ('any', 'lines 0, 2')
    """
    if rule.anywhere:
        return "any"
    return f"lines {', '.join(map(str, rule.dial_lines))}" if rule.dial_lines else "CLOSED"


def count_chart(head: Head, methods: Mapping[int, tuple[Method, ...]]) -> Card:
    """Make the chart of every count that a head divides exactly, with the first setting of its first method."""
    by_dial = {number for number in methods if dial_divides(head, number)}
    rows = [
        CountRow([str(number), short_setting(exact_answer(head, number, found[0])) if found else "by the dial"])
        for number, found in methods.items()
        if found or number in by_dial
    ]
    blocks = []
    for at in range(0, len(rows), BLOCK):
        part = rows[at : at + BLOCK]
        blocks.append((f"{part[0].cells[0]} to {part[-1].cells[0]}", part))
    missed = [number for number, found in methods.items() if not found and number not in by_dial]
    used = {found[0] for found in methods.values() if found}
    pieces: list[Piece] = [
        Lines("How to read it", _legend(used)),
        *([Lines("Not exactly", [runs_text(missed)])] if missed else []),
        Cautions(head_cautions(head, None)),
        Count(f"Counts to {len(methods)}", COUNT_HEADS, blocks, ticked=False),
    ]
    return Card("Counts this head divides", head.name, pieces)


def exact_answer(head: Head, count: int, method: Method) -> IndexAnswer:
    """Take the first exact setting of a method that is known to have one."""
    part = Fraction(1, count)
    if method is Method.DIFFERENTIAL:
        return differential(head, part)[0]
    if method is Method.COMPOUND:
        return compound(head, part)[0]
    return next(answer for answer in exact_settings(head, part) if answer.method is method)


def short_setting(answer: IndexAnswer) -> str:
    """Write a setting as short as a chart needs it.

    Examples
    --------
    >>> short = short_setting(IndexAnswer(Method.PLAIN, CrankMove(1, 9, 21), "B", Fraction(1, 28), Fraction(1, 28), 28))
    >>> short.replace(NO_BREAK, " ")
    '1 + 9 on 21 B'
    """
    if answer.is_on_spindle:
        spaces = answer.move.turns * (answer.move.circle or 1) + answer.move.spaces
        return f"{spaces} of {answer.move.circle}, direct"
    words = [_short_move(answer.move)]
    if answer.second is not None:
        both = f"both {'BACK ' if answer.second.sign < 0 else ''}{_short_move(answer.second)}"
        words = [both, f"then {words[0]}"] if answer.runs_both_ways else [*words, f"then {both}"]
    plate = f"{NO_BREAK}{answer.plate}" if answer.plate else ""
    face = f" face {answer.face}" if answer.face else ""
    text = f"{' '.join(words)}{plate}{face}"
    if answer.at_once > 1:
        text += f", {answer.at_once} at a time"
    if answer.gearing is None:
        return text
    gearing = answer.gearing
    idlers = f" idlers {'+'.join(map(str, gearing.idlers))}" if gearing.idlers else ""
    return f"WHEELS {gearing.train}{idlers}, plate turns {plate_motion_text(gearing)}; {text}"


def _short_move(move: CrankMove) -> str:
    if move.circle is None or move.spaces == 0:
        return counted(move.turns, "turn")
    return f"{move.turns} + {move.spaces} on {move.circle}".replace(" ", NO_BREAK)


def _legend(used: set[Method]) -> list[str]:
    lines = {
        Method.DIRECT: "1 of 24, direct: spaces of the spindle's own holes, a worm out of mesh.",
        Method.PLAIN: "1 + 9 on 21 B: 1 turn + 9 spaces on the circle of 21, plate B. The pin's own hole counts 0.",
        Method.DIFFERENTIAL: (
            "WHEELS: only with these on, from the work spindle to the plate, driver-driven, stop pin out; then the "
            "turns of the plate in one of the work, following the crank or against it."
        ),
        Method.COMPOUND: (
            "both: plate and crank together, counted at the stop pin. In the order they are made: BACK first."
        ),
    }
    return [line for method, line in lines.items() if method in used]
