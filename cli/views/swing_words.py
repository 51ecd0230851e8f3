"""Which way a table is swung, and how the groove must lie then, in words for whoever stands before the machine."""

from __future__ import annotations

from typing import Any

from solver.helices.table_swing import table_swing
from solver.trains.hand import Hand


def sense_text(hand: Hand) -> str:
    """Say which way the table turns, and which end of it comes nearer.

    Examples
    --------
    >>> sense_text(Hand.LEFT)
    'CLOCKWISE seen from above, its right-hand end towards you'
    """
    end = "away from you" if hand is Hand.RIGHT else "towards you"
    return f"{table_swing(hand).value.upper()} seen from above, its right-hand end {end}"


def lean_text(hand: Hand) -> str:
    """Say how a groove of that hand leans on the work, whatever machine cuts it.

    Examples
    --------
    >>> lean_text(Hand.RIGHT)
    "with the work's axis upright, on the side facing you it leans up to the RIGHT"
    """
    return f"with the work's axis upright, on the side facing you it leans up to the {hand.value.upper()}"


def swing_json(hand: Hand, what: str) -> dict[str, Any]:
    """Describe the same; ``what`` names the groove: a gash or a helix."""
    return {
        "hand": hand.value,
        "swing_sense_from_above": table_swing(hand).value,
        f"{what}_leans_up_to_the": hand.value,
    }
