"""Everything measured over wires for one screw: the wires that serve, the value to look for, a reading turned round."""

from __future__ import annotations

from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.threads.limits import Limits
from solver.threads.over_wires import OverWires, Reading, over_wire_limits, over_wires, read_over_wires
from solver.threads.reading_verdict import Verdict, judge, refuse_no_such_thread
from solver.threads.thread import Thread
from solver.threads.wire_choice import WireRange, refuse_wire_outside, wire_range


class Measuring(NamedTuple):
    """What is measured.

    Parameters
    ----------
    wires : WireRange
        Wires that serve.
    basic : OverWires
        Over the wires in hand, for the basic pitch diameter.
    least, most : Length or None
        Over the wires, by the class; ``None`` where it sets none.
    reading : Reading or None
        What was read, turned into a pitch diameter.
    verdict : Verdict or None
        How that stands to the class or the basic size; ``None`` where there is no reading.
    """

    wires: WireRange
    basic: OverWires
    least: Length | None
    most: Length | None
    reading: Reading | None
    verdict: Verdict | None


def measuring(
    thread: Thread,
    limits: Limits | None,
    *,
    wire: Length | None,
    reading: Length | None,
    step: Length,
    blank: Length | None = None,
) -> Measuring:
    """Work out what is measured over wires.

    Parameters
    ----------
    thread : Thread
        A screw.
    limits : Limits or None
        Of its class.
    wire : Length or None
        Wires in hand; when none are, the best as listed without the lead, rounded to a step.
    reading : Length or None
        What a micrometer read over them.
    step : Length
        To which the best wire is rounded.
    blank : Length, optional
        Diameter the screw was turned to, for judging whether a reading can be.

    Raises
    ------
    ImpossibleSettingError
        The thread takes no wires, the wire sits outside the flanks, or no thread of this pitch on this blank
        reads so.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> screw = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
    >>> found = measuring(screw, None, wire=None, reading=None, step=Length.of_mm("0.001"))
    >>> str(found.basic.wire.mm), round(1000 * found.basic.exact.mm)
    ('433/500', 10326)
    """
    wires = wire_range(thread)
    in_hand = wire or _rounded(wires.best_without_lead, step)
    if wire is not None:
        refuse_wire_outside(wires, wire)
    basic = over_wires(thread, in_hand, thread.basic().external.pitch)
    least, most = over_wire_limits(thread, in_hand, limits) if limits else (None, None)
    read = read_over_wires(thread, in_hand, reading) if reading is not None else None
    if read is None:
        return Measuring(wires, basic, least, most, None, None)
    refuse_no_such_thread(thread, read, blank, limits)
    return Measuring(wires, basic, least, most, read, judge(thread, read, limits))


def _rounded(length: Length, step: Length) -> Length:
    return step * round(length / step)
