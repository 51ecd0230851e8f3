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
    return way_text(hand) + _made_by(lathe)


def feed_travel_text(hand: Hand, lathe: Lathe) -> str:
    """Say which way a feed goes, and what makes it so.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> feed_travel_text(Hand.LEFT, Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, ()))
    'away from the headstock with the spindle forward; set the reverse for it'
    """
    return headstock_text(hand) + _made_by(lathe)


def _made_by(lathe: Lathe) -> str:
    if lathe.has_reverse:
        return "; set the reverse for it"
    screw = "left" if lathe.has_left_hand_screw else "right"
    return f" ({screw}-hand leadscrew, stud gear turning as the spindle)"


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
    text = headstock_text(hand)
    if travel.begins_in_groove:
        made = "bored" if internal else "turned"
        text += f", out of a groove {made} at the headstock end to the depth of the thread"
    if travel.leadscrew_reversed:
        text += "; the leadscrew turns against its right-hand way"
    return text


def headstock_text(hand: Hand) -> str:
    """Say towards which end the tool goes.

    Examples
    --------
    >>> headstock_text(Hand.LEFT)
    'away from the headstock with the spindle forward'
    """
    return f"{'towards' if tool_travel(hand).to_headstock else 'away from'} the headstock with the spindle forward"
