"""What a length of thread takes: turns, carriage speed, seconds to the shoulder, and the time of all its passes."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from cli.views.shop_figures import approximate
from cli.views.thread_figures import both
from solver.quantities.exact_numbers import round_half_even, significant_text, trimmed_decimal_text
from solver.quantities.shown_lengths import Rounding, in_both_units
from solver.trains.hand import Hand

if TYPE_CHECKING:
    from cli.thread_sheet import ThreadSheet
    from solver.threads.to_shoulder import ToShoulder

#: Below this a time is told to two figures, from it up in whole seconds. [seconds]
SHORT = 10


def shoulder_rows(sheet: ThreadSheet) -> list[tuple[str, str]]:
    """List what the length that was asked for takes; nothing where none was."""
    found = sheet.speed.shoulder if sheet.speed else None
    if found is None:
        return []
    in_inches = sheet.wishes.in_inches
    turns = f"{approximate(found.turns, 2)} turn{'' if found.turns == 1 else 's'} of the spindle"
    return [
        ("Length", f"{both(found.length, in_inches=in_inches)}: {turns}"),
        ("", _full_thread(sheet, found)),
        *(_by_hand(found) if found.seconds is None else _timed(sheet, found)),
    ]


def _full_thread(sheet: ThreadSheet, found: ToShoulder) -> str:
    in_inches = sheet.wishes.in_inches
    if found.has_full_thread:
        left = in_both_units(found.full_thread, Rounding.DOWN, inches_first=in_inches)
        if sheet.wishes.hand is Hand.LEFT:
            return f"the groove it begins in leaves {left} of full thread; the way back ends there, by hand"
        return f"a run-out groove within it leaves {left} of full thread; near the shoulder turn the spindle by hand"
    width = both(found.length - found.full_thread, in_inches=in_inches)
    return f"NO FULL THREAD beside the groove: tool and stopping take {width}; turn the spindle by hand all the way"


def _by_hand(found: ToShoulder) -> list[tuple[str, str]]:
    return [("All passes", f"{_passes(found)}, by hand; no times are told of that")]


def _timed(sheet: ThreadSheet, found: ToShoulder) -> list[tuple[str, str]]:
    if found.seconds is None or found.travel_per_minute is None or found.speed is None:
        return []
    metric = f"{approximate(found.travel_per_minute.mm / 60, 2)} mm/s"
    inch = f"{approximate(found.travel_per_minute.inches, 2)} in/min"
    carriage = f"{inch} ({metric})" if sheet.wishes.in_inches else f"{metric} ({inch})"
    way = "from the start to the shoulder"
    if sheet.wishes.hand is Hand.LEFT:
        way = "from the groove at the shoulder to the free end"
    cuts, whole = found.cutting_seconds or Fraction(0), found.whole_seconds or Fraction(0)
    return [
        ("Carriage", f"{carriage} at {trimmed_decimal_text(found.speed, 3)} rev/min: {time_text(found.seconds)} {way}"),
        ("All passes", f"{_passes(found)}: {time_text(whole)} with the return in reverse at the same speed (assumed)"),
        ("", f"cuts alone {time_text(cuts)}, where the half-nut may be opened and the carriage is wound back by hand"),
        ("", "times are without setting in, stopping, reversing and measuring"),
    ]


def _passes(found: ToShoulder) -> str:
    passes = f"{found.passes} pass{'' if found.passes == 1 else 'es'}"
    if found.springs:
        passes += f", {found.springs} of them spring pass{'' if found.springs == 1 else 'es'}"
    return f"{passes}, on each of {found.starts} starts" if found.starts > 1 else passes


def time_text(seconds: Fraction) -> str:
    """Write a time as a clock is read: whole seconds, below ten of them two figures.

    Examples
    --------
    >>> time_text(Fraction(50, 7)), time_text(Fraction(60)), time_text(Fraction(900, 7)), time_text(Fraction(3600))
    ('7.1 s', '1 min 0 s', '2 min 9 s', '60 min 0 s')
    """
    if seconds < SHORT:
        return f"{significant_text(seconds, 2)} s"
    minutes, left = divmod(round_half_even(seconds, 0), 60)
    return f"{minutes} min {left} s" if minutes else f"{left} s"
