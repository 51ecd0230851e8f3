"""Which way the tool goes, in words."""

from __future__ import annotations

from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.tool_travel import tool_travel


def feed_travel_text(hand: Hand, lathe: Lathe) -> str:
    """Say which way a feed goes, and what makes it so.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> feed_travel_text(Hand.LEFT, Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, ()))
    'away from the headstock with the spindle forward; set the reverse for it'
    """
    way = "towards" if tool_travel(hand).to_headstock else "away from"
    return f"{way} the headstock with the spindle forward{_made_by(lathe)}"


def travel_text(hand: Hand, lathe: Lathe) -> str:
    """Say which way the tool goes, what makes it so, and what a left-hand thread needs besides.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.quantities.lengths import Length
    >>> travel_text(Hand.RIGHT, Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, ()))
    'towards the headstock with the spindle forward; set the reverse for it'
    """
    travel = tool_travel(hand)
    way = "towards" if travel.to_headstock else "away from"
    text = f"{way} the headstock with the spindle forward"
    if travel.begins_in_groove:
        text += ", out of a groove turned at the headstock end to the depth of the thread"
    if travel.leadscrew_reversed:
        text += "; the leadscrew turns against its right-hand way"
    return text + _made_by(lathe)


def _made_by(lathe: Lathe) -> str:
    if lathe.has_reverse:
        return "; set the reverse for it"
    screw = "left" if lathe.has_left_hand_screw else "right"
    return f" ({screw}-hand leadscrew, stud gear turning as the spindle)"
