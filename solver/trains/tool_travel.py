"""Which way the tool travels for a thread of either hand, spindle turning forward."""

from __future__ import annotations

from typing import NamedTuple

from solver.trains.hand import Hand


class ToolTravel(NamedTuple):
    """How a thread is cut with the spindle forward and the tool the right way up in front of the work.

    Parameters
    ----------
    hand : Hand
        Hand of the thread.
    to_headstock : bool
        The tool travels towards the headstock; otherwise away from it.
    begins_in_groove : bool
        The cut begins inside the work, at its headstock end, so that a groove as deep as the thread must be there.
    leadscrew_reversed : bool
        The leadscrew turns against the way it turns for a right-hand thread.
    """

    hand: Hand
    to_headstock: bool
    begins_in_groove: bool
    leadscrew_reversed: bool


def tool_travel(hand: Hand) -> ToolTravel:
    """Say how a thread of one hand is cut.

    Examples
    --------
    >>> tool_travel(Hand.LEFT)._asdict()["begins_in_groove"], tool_travel(Hand.RIGHT).to_headstock
    (True, True)
    """
    left = hand is Hand.LEFT
    return ToolTravel(hand, to_headstock=not left, begins_in_groove=left, leadscrew_reversed=left)
