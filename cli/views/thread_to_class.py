"""How much deeper than to the basic pitch diameter a class wants a thread, by the cross slide and by the top slide."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from cli.views.thread_figures import DialColumn, bounds_text, dial_column
from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import Rounding, in_both_units, shown_decimal

if TYPE_CHECKING:
    from cli.thread_sheet import ThreadSheet
    from solver.threads.cutting import Cutting
    from solver.threads.limits import Limits

#: Below this nothing can be set on a dial.
NOTHING_TO_SET = Length.of_mm("0.0005")


class Deeper(NamedTuple):
    """One reading on the way into the class: how far past the depth of the last pass, and which way it is rounded."""

    what: str
    past: Length
    rounding: Rounding


def deeper_for_class(sheet: ThreadSheet) -> tuple[Deeper, ...]:
    """List where the class begins, its middle and its end, past the basic depth; what is nothing to set is left out."""
    limits = limits_of_cut(sheet)
    if limits is None or limits.pitch.most is None:
        return ()
    mean = sheet.drawn.thread.basic().external.pitch
    ends = sorted(Length(abs((mean - each).mm) / 2) for each in limits.pitch if each is not None)
    found = [Deeper("from", ends[0], Rounding.UP)]
    if len(ends) > 1:
        middle = (ends[0] + ends[1]) * Fraction(1, 2)
        found += [Deeper("aim at", middle, Rounding.NEAREST), Deeper("no deeper", ends[1], Rounding.DOWN)]
    return tuple(each for each in found if each.past >= NOTHING_TO_SET)


def limits_of_cut(sheet: ThreadSheet) -> Limits | None:
    """Choose the limits of what is cut, the screw or the nut."""
    return sheet.nut_limits if sheet.wishes.cut.internal else sheet.screw_limits


def for_class_rows(sheet: ThreadSheet, cut: Cutting) -> list[tuple[str, str]]:
    """Say how much deeper the class wants the thread, by the cross slide and by the top slide."""
    limits, ways = limits_of_cut(sheet), deeper_for_class(sheet)
    if limits is None or not ways:
        return []
    agree = "a gauge agrees" if sheet.wishes.cut.internal else "wires or a gauge agree"
    rows = [(f"For {limits.of_class.value}", f"go {_span(sheet, ways, Fraction(1))} deeper than that, until {agree}")]
    if cut.feed.slide_angle.turns:
        rows.append(("", f"by the top slide {_span(sheet, ways, slide_share(cut))}"))
    return rows


def slide_share(cut: Cutting) -> Fraction:
    """Say how far the top slide moves for each millimetre of depth; deeper than the last pass as before it."""
    return cut.feed.slide_travel / cut.feed.depth


def _span(sheet: ThreadSheet, ways: tuple[Deeper, ...], share: Fraction) -> str:
    in_inches = sheet.wishes.in_inches
    ends = [each.past * share for each in ways]
    if len(ends) == 1:
        return f"at least {in_both_units(ends[0], Rounding.UP, inches_first=in_inches)}"
    if ways[0].what != "from":
        return f"up to {in_both_units(ends[-1], Rounding.DOWN, inches_first=in_inches)}"
    return bounds_text(ends[0], ends[-1], in_inches=in_inches)


def to_class_title(sheet: ThreadSheet) -> str:
    """Name the table of readings past the last pass."""
    limits = limits_of_cut(sheet)
    return f"THEN, for class {limits.of_class.value if limits else ''}: readings from first touch; measure after each"


def to_class_table(sheet: ThreadSheet, cut: Cutting) -> tuple[list[tuple[str, str]], list[list[str]]]:
    """List the readings of both dials where the class begins, in its middle and where it ends."""
    dial = dial_column(cut.step, in_inches=sheet.wishes.in_inches)
    with_slide = bool(cut.feed.slide_angle.turns)
    heads = [("Depth", "left"), ("Cross slide, radius", "right"), ("Cross slide, diameter", "right")]
    heads += [("Or top slide", "right")] if with_slide else []
    rows = []
    for each in deeper_for_class(sheet):
        reads = _read(dial, cut.feed.depth + each.past, each.rounding)
        cells = [reads, reads * 2]
        if with_slide:
            cells.append(_read(dial, (cut.feed.depth + each.past) * slide_share(cut), each.rounding))
        rows.append([each.what, *map(dial.text, cells)])
    return heads, rows


def _read(dial: DialColumn, length: Length, rounding: Rounding) -> Fraction:
    """Round a reading to the side that keeps it in the class, to what is written of it."""
    return Fraction(shown_decimal(length.inches if dial.in_inches else length.mm, dial.places, rounding))
