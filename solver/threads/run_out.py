"""The groove a thread runs out into at a shoulder, and the length it takes away from the thread.

The tool must be wholly in the groove, and the carriage goes on while the hand withdraws the tool.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.threads.thread import Thread

#: Travel allowed for stopping, in leads, where the person gives none. Common practice.
USUAL_LEADS = 2
#: How far past the root the groove goes, of the pitch, on the diameter. Common practice.
PAST_ROOT = Fraction(2, 10)


class RunOut(NamedTuple):
    """A run-out groove.

    Parameters
    ----------
    diameter : Length
        Of the bottom of the groove: below the root of a screw, above that of a nut.
    tool_width : Length
        How wide the tool is where it enters the metal.
    stopping : Length
        Travel of the carriage allowed for withdrawing the tool.
    width : Length
        Of the groove: the tool and the stopping together; so much length carries no full thread.
    chamfer : Length
        Length of a 45 degree chamfer at the start that goes down to the root.
    """

    diameter: Length
    tool_width: Length
    stopping: Length
    width: Length
    chamfer: Length


def run_out(thread: Thread, root: Length, *, internal: bool, stopping: Length | None = None) -> RunOut:
    """Work out the groove for a thread that ends at a shoulder.

    Parameters
    ----------
    thread : Thread
        What is cut.
    root : Length
        Its minor diameter, or a nut's major diameter, as it will be cut.
    internal : bool
        True for a nut.
    stopping : Length, optional
        Travel allowed for stopping; two leads when left out.

    Returns
    -------
    RunOut
        Groove and chamfer.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> square = Thread(FORMS["square"], Length.of_mm(20), Length.of_mm(4))
    >>> found = run_out(square, Length.of_mm(16), internal=False)
    >>> found.width, found.diameter
    (Length(mm=Fraction(10, 1)), Length(mm=Fraction(76, 5)))
    """
    basic = thread.basic()
    past = thread.pitch * PAST_ROOT
    if internal:
        to_crest, diameter, depth = (
            basic.internal.pitch - basic.internal.minor,
            root + past,
            root - basic.internal.minor,
        )
    else:
        to_crest, diameter, depth = (
            basic.external.major - basic.external.pitch,
            root - past,
            basic.external.major - root,
        )
    tool = thread.pitch * Fraction(1, 2) + to_crest * thread.form.tangent
    room = thread.lead * USUAL_LEADS if stopping is None else stopping
    return RunOut(diameter, tool, room, tool + room, depth * Fraction(1, 2))
