"""Which way a table is swung, and how the groove must lie then, in words for whoever stands before the machine."""

from __future__ import annotations

from typing import Any

from solver.helices.table_swing import table_swing
from solver.quantities.angles import Angle
from solver.trains.hand import Hand

#: A universal table swings about so far either way; beyond it the cutter is swung instead.
WIDEST_SWING = Angle.of_degrees(45)


def sense_text(hand: Hand) -> str:
    """Say which way the table turns, and which end of it comes nearer.

    Examples
    --------
    >>> sense_text(Hand.LEFT)
    'CLOCKWISE seen from above, its right-hand end towards you'
    """
    end = "away from you" if hand is Hand.RIGHT else "towards you"
    return f"{table_swing(hand).value.upper()} seen from above, its right-hand end {end}"


def is_for_the_table(angle: Angle | None) -> bool:
    """Say whether a table swings so far; of an angle not known it is taken to.

    Examples
    --------
    >>> is_for_the_table(Angle.of_degrees(30)), is_for_the_table(Angle.of_degrees(60)), is_for_the_table(None)
    (True, False, True)
    """
    return angle is None or angle <= WIDEST_SWING


def spindle_text(hand: Hand) -> str:
    """Say which way the cutter's spindle is swung where the table does not go so far: the other way.

    Examples
    --------
    >>> spindle_text(Hand.RIGHT)[:63]
    "more than a table swings: table left straight, the cutter's spi"
    """
    other = table_swing(Hand.LEFT if hand is Hand.RIGHT else Hand.RIGHT).value.upper()
    return (
        f"more than a table swings: table left straight, the cutter's spindle swung as much {other} seen from above, "
        "from square across the table"
    )


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
