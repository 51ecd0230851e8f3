"""Which way the table is swung for a groove that runs round the work: by its hand, with the cutter above the work.

Let x run along the table to the right of whoever faces it, y away from them, z up, with the work's axis along x and
the cutter's plane that of x and z. On the top of the work the groove of a right-hand helix runs along (lead, -once
round, 0): to the right and towards the person. To bring it into the plane of the cutter, table and work turn from x
towards y: counter-clockwise seen from above, the right-hand end away from the person, on whichever side they stand.
A worm wheel's tooth has the hand of its worm, for where the two touch they run along one line.
"""

from __future__ import annotations

from enum import Enum

from solver.trains.hand import Hand


class SwingSense(Enum):
    """How the table turns about its upright pivot, seen from above."""

    COUNTER_CLOCKWISE = "counter-clockwise"
    CLOCKWISE = "clockwise"


def table_swing(hand: Hand) -> SwingSense:
    """Say which way a table with the work's axis along it is swung, the cutter being above the work.

    Parameters
    ----------
    hand : Hand
        Of the helix, or of the worm whose wheel is gashed.

    Returns
    -------
    SwingSense
        Seen from above; a cutter's spindle that is swung instead turns the other way.

    Examples
    --------
    >>> table_swing(Hand.RIGHT).value, table_swing(Hand.LEFT).value
    ('counter-clockwise', 'clockwise')
    """
    return SwingSense.COUNTER_CLOCKWISE if hand is Hand.RIGHT else SwingSense.CLOCKWISE
