"""Which way the tool goes, in words."""

from __future__ import annotations

from solver.trains.hand import Hand
from solver.trains.tool_travel import tool_travel


def travel_text(hand: Hand) -> str:
    """Say which way the tool goes, and what a left-hand thread needs besides.

    Examples
    --------
    >>> travel_text(Hand.RIGHT)
    'with the spindle forward the tool goes towards the headstock'
    """
    travel = tool_travel(hand)
    way = "towards" if travel.to_headstock else "away from"
    text = f"with the spindle forward the tool goes {way} the headstock"
    if travel.begins_in_groove:
        text += ", out of a groove turned at the headstock end to the depth of the thread"
    if travel.leadscrew_reversed:
        text += "; the leadscrew turns against its right-hand way"
    return text
