"""Which way the tool goes, in words."""

from __future__ import annotations

from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.tool_travel import tool_travel


def travel_text(hand: Hand, lathe: Lathe) -> str:
    """Say which way the tool goes, what makes it so, and what a left-hand thread needs besides.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> travel_text(Hand.RIGHT, Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, ()))
    'towards the headstock with the spindle forward; set the reverse for it'
    """
    text = way_text(hand)
    if lathe.has_reverse:
        return f"{text}; set the reverse for it"
    screw = "left" if lathe.has_left_hand_screw else "right"
    return f"{text} ({screw}-hand leadscrew, stud gear turning as the spindle)"


def way_text(hand: Hand, *, internal: bool = False) -> str:
    """Say which way the tool goes on any lathe, and where a left-hand thread begins.

    Examples
    --------
    >>> way_text(Hand.RIGHT)
    'towards the headstock with the spindle forward'
    >>> way_text(Hand.LEFT, internal=True).split("; ")[0].split(", ")[1]
    'out of a groove bored at the headstock end to the depth of the thread'
    """
    travel = tool_travel(hand)
    way = "towards" if travel.to_headstock else "away from"
    text = f"{way} the headstock with the spindle forward"
    if travel.begins_in_groove:
        made = "bored" if internal else "turned"
        text += f", out of a groove {made} at the headstock end to the depth of the thread"
    if travel.leadscrew_reversed:
        text += "; the leadscrew turns against its right-hand way"
    return text
