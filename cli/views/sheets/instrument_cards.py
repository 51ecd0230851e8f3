"""Cards of a screw that measures: with its dial and wheel, and of a wheel that counts its turns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.views.cautions import train_cautions
from cli.views.counter_screen import COUNTER_CAUTIONS, counter_checks, counter_rows
from cli.views.instrument_screen import Reading, drift_rows, reading_rows
from cli.views.sheets.pieces import Card, Cautions, Facts, Lines, Measured, Piece, Resume, without_blanks
from cli.views.sheets.train_cards import half_nut_shout, mounting_pieces, starts_pieces, train_figures, train_measured
from cli.views.shop_figures import approximate, lead_text, pitch_line
from cli.views.train_screen import early_check

if TYPE_CHECKING:
    from solver.dials.counting_wheels import CountingWheel
    from solver.quantities.lengths import Length


def instrument_card(reading: Reading) -> Card:
    """Make the card of a measuring screw and the train that cuts it."""
    first, lathe, asked = reading.report.answers[0], reading.lathe, reading.asked
    pieces: list[Piece] = [
        *mounting_pieces(first, lathe),
        half_nut_shout(first),
        Lines("Early check, before metal is cut", without_blanks(early_check(first, asked)), ticked=True),
        Cautions(train_cautions(first, lathe, reversing=False)),
        Facts([("Screw", pitch_line(asked)), ("Lead", lead_text(asked.lead)), *reading_rows(reading)], "Reads"),
        train_figures(first, lathe, reading.travel, ""),
        Facts(drift_rows(reading), f"Over {approximate(reading.travel.mm, 3)} mm of travel"),
        *(starts_pieces(first, asked.starts, lathe) if asked.starts > 1 else []),
        train_measured(first, asked),
        Resume(),
    ]
    return Card(f"Measuring screw: {pitch_line(asked)}", lathe.name, pieces)


def counter_card(wheel: CountingWheel, travel: Length | None) -> Card:
    """Make the card of a wheel that counts the turns of a screw."""
    rows = counter_rows(wheel, travel)
    pieces: list[Piece] = [
        Facts(rows),
        Lines("Early check", counter_checks(wheel), ticked=True),
        Cautions(COUNTER_CAUTIONS),
        Measured(["Turns of the screw until the wheel was back at its mark:"]),
    ]
    return Card(f"Counting wheel of {wheel.teeth} teeth", f"screw of {rows[0][1]}", pieces)
