"""Which wires serve: the best, and the smallest and largest that stand proud and touch straight flank."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.circle_figures import cosine
from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import Rounding, in_both_units
from solver.refusals import ImpossibleSettingError
from solver.threads.basic_dimensions import Diameters
from solver.threads.over_wires import groove_of
from solver.threads.thread import Thread
from solver.threads.tool_nose import full_radius
from solver.threads.wire_seat import Groove, seat_of, wire_touching

#: How near to level the smallest wire is sought, and after how many rounds that is given up. [mm, rounds]
_STEP = Fraction(1, 10**12)
_MOST_ROUNDS = 30


class WireRange(NamedTuple):
    """Wires for one screw.

    Parameters
    ----------
    smallest : Length
        Stands flush with the crest; no thinner one would touch the rounded root of any form first.
    best : Length
        Touches at the pitch diameter.
    best_without_lead : Length
        The same by the formula in print, p / (2 cos a).
    largest : Length
        Touches the highest straight flank.
    """

    smallest: Length
    best: Length
    best_without_lead: Length
    largest: Length


def wire_range(thread: Thread) -> WireRange:
    """Find the wires that serve for a screw of basic size.

    Parameters
    ----------
    thread : Thread
        A screw.

    Raises
    ------
    ImpossibleSettingError
        The form has no sloping flanks, or the thread tapers.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> found = wire_range(Thread(FORMS["iso"], Length.of_mm(1000), Length.of_mm(1)))
    >>> [round(10**5 * each.mm) for each in (found.smallest, found.best, found.largest)]
    [50518, 57735, 101036]
    """
    groove = groove_of(thread)
    screw = thread.basic().external
    largest = wire_touching(groove, screw.pitch, _highest_straight(thread))
    best = wire_touching(groove, screw.pitch, screw.pitch)
    plain = Length(thread.pitch.mm / (2 * cosine(thread.form.half_angle)))
    return WireRange(_flush(groove, screw), best, plain, largest)


def refuse_wire_outside(found: WireRange, wire: Length) -> None:
    """Refuse a wire that does not stand proud, or that would sit outside the flanks.

    Raises
    ------
    ImpossibleSettingError
        It is below the smallest or above the largest.

    Examples
    --------
    >>> usual = [Length.of_mm(each) for each in ("0.5", "0.577", "0.577", "1.01")]
    >>> refuse_wire_outside(WireRange(*usual), Length.of_mm("0.6"))
    """
    if found.smallest <= wire <= found.largest:
        return
    why = "would sit outside the flanks, on the crests" if wire > found.largest else "would not stand above the crests"
    # Each end is rounded into the range, so that a wire of the figure that is told does serve.
    smallest = in_both_units(found.smallest, Rounding.UP)
    largest = in_both_units(found.largest, Rounding.DOWN)
    raise ImpossibleSettingError(
        f"A wire of {in_both_units(wire)} {why}.",
        help_text=f"Wires from {smallest} to {largest} serve; best is {in_both_units(found.best)}.",
    )


def _flush(groove: Groove, screw: Diameters) -> Length:
    """Find the wire that stands just level with the crests."""
    rise = 1 + groove.form.cosecant
    wire = Length((screw.major - screw.pitch + groove.pitch * (groove.form.cotangent / 2)).mm / rise)
    # A thicker wire rises very nearly by the factor of the simple formula, so that each round leaves a thousandth.
    for _ in range(_MOST_ROUNDS):
        over = seat_of(groove, wire, screw.pitch).over - screw.major
        if abs(over.mm) <= _STEP:
            break
        wire = wire - over * (1 / rise)
    return wire


def _highest_straight(thread: Thread) -> Length:
    """Diameter at which the straight flank ends: the crest, or where a rounded one begins."""
    crest = thread.basic().external.major
    if not thread.form.has_round_crest:
        return crest
    return crest - full_radius(thread, internal=False) * (2 * (1 - 1 / thread.form.cosecant))
