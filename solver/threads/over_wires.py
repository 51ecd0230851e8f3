"""Measuring over three wires: the exact seat, and what the formulas in print would have given.

In print: simple, M = E + w (1 + cosec a) - (p/2) cot a; and, with the lead angle L at the pitch line, the root of
cosec^2 a + cot^2 a tan^2 L in place of cosec a (NBS Handbook H28, meant for the best wire).
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.circle_figures import square_root
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.refusals import ImpossibleSettingError
from solver.threads.limits import Limits
from solver.threads.thread import Thread
from solver.threads.wire_seat import Groove, seat_of, seat_under


class OverWires(NamedTuple):
    """A measurement over three wires.

    Parameters
    ----------
    wire : Length
        Diameter of the wires.
    pitch_diameter : Length
        Of the thread.
    exact : Length
        Over the wires, by the exact seat.
    touches_at : Length
        Diameter of the thread at which the wires touch.
    simple : Length
        By the formula that takes no account of the lead.
    with_lead : Length
        By the formula with the correction for the lead angle.
    """

    wire: Length
    pitch_diameter: Length
    exact: Length
    touches_at: Length
    simple: Length
    with_lead: Length


class Reading(NamedTuple):
    """A reading turned into a pitch diameter: exactly, and as the two formulas in print would have it.

    ``touches_at`` is the diameter at which the wires touch the flanks.
    """

    wire: Length
    over: Length
    pitch_diameter: Length
    simple: Length
    with_lead: Length
    touches_at: Length


def groove_of(thread: Thread) -> Groove:
    """Return the groove of a thread as a wire sees it.

    Raises
    ------
    ImpossibleSettingError
        The form has no sloping flanks, or the thread tapers.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> groove_of(Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1))).lead
    Length(mm=Fraction(1, 1))
    """
    if not thread.form.has_angle:
        raise ImpossibleSettingError(
            "A square thread gives wires no seat.",
            help_text="Measure its groove with a gauge block, its root by calliper.",
        )
    if thread.form.taper:
        raise ImpossibleSettingError(
            "Measuring a tapered thread over wires is not worked out.", help_text="Check it with a ring gauge."
        )
    return Groove(thread.form, thread.pitch, thread.lead)


def simple_over(thread: Thread, wire: Length, pitch_diameter: Length) -> Length:
    """Return M by the simple formula.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> thread = Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1))
    >>> round(1000 * simple_over(thread, Length.of_mm("0.57735"), Length.of_mm("5.350481")).mm)
    6217
    """
    return pitch_diameter + _simple_rise(thread, wire)


def over_wires(thread: Thread, wire: Length, pitch_diameter: Length) -> OverWires:
    """Work out what is measured over three wires.

    Parameters
    ----------
    thread : Thread
        A screw.
    wire : Length
        Diameter of the wires.
    pitch_diameter : Length
        Of the screw as it is, or as it should be.

    Raises
    ------
    ImpossibleSettingError
        The form has no sloping flanks, the thread tapers, or the wire finds no seat.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> thread = Thread(FORMS["acme"], Length.of_inches(1), Length.of_inches("1/5"), starts=2)
    >>> found = over_wires(thread, Length.of_inches("0.10329"), Length.of_inches("0.9"))
    >>> [round(10**5 * each.inches) for each in (found.exact, found.with_lead)]
    [103287, 103300]
    """
    seat = seat_of(groove_of(thread), wire, pitch_diameter)
    simple = simple_over(thread, wire, pitch_diameter)
    with_lead = simple + _lead_correction(thread, wire, pitch_diameter)
    return OverWires(wire, pitch_diameter, seat.over, seat.touches_at, simple, with_lead)


def read_over_wires(thread: Thread, wire: Length, over: Length) -> Reading:
    """Turn a reading over three wires into a pitch diameter.

    Parameters
    ----------
    thread : Thread
        A screw.
    wire : Length
        Diameter of the wires.
    over : Length
        What the micrometer read.

    Raises
    ------
    ImpossibleSettingError
        No thread of this pitch reads so.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> thread = Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1))
    >>> found = read_over_wires(thread, Length.of_mm("0.57735"), Length.of_mm("6.2"))
    >>> round(10**4 * found.pitch_diameter.mm), round(10**4 * found.simple.mm)
    (53325, 53340)
    """
    seat = seat_under(groove_of(thread), wire, over)
    simple = over - _simple_rise(thread, wire)
    with_lead = simple - _lead_correction(thread, wire, simple)
    return Reading(wire, over, seat.pitch_diameter, simple, with_lead, seat.touches_at)


def over_wire_limits(thread: Thread, wire: Length, limits: Limits) -> tuple[Length | None, Length]:
    """Return the least and greatest measurement over wires that keep the pitch diameter within its class.

    Parameters
    ----------
    thread : Thread
        A screw.
    wire : Length
        Diameter of the wires.
    limits : Limits
        Of a screw; the class sets at least the greatest pitch diameter.

    Returns
    -------
    tuple of (Length or None, Length)
        No least where the class sets none.

    Raises
    ------
    ValueError
        The class sets no greatest pitch diameter.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> from solver.threads.limits import ThreadClass
    >>> from solver.threads.metric_tolerance import metric_limits
    >>> thread = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
    >>> band = over_wire_limits(thread, Length.of_mm("0.866"), metric_limits(thread, ThreadClass.METRIC_SCREW))
    >>> [round(1000 * each.mm) for each in band]
    [10163, 10295]
    """
    least, most = limits.pitch
    if most is None:
        message = "a class of screws sets its greatest pitch diameter"
        raise ValueError(message)
    groove = groove_of(thread)
    return (least and seat_of(groove, wire, least).over), seat_of(groove, wire, most).over


def _simple_rise(thread: Thread, wire: Length) -> Length:
    return wire * (1 + thread.form.cosecant) - thread.pitch * (thread.form.cotangent / 2)


def _lead_correction(thread: Thread, wire: Length, pitch_diameter: Length) -> Length:
    slope: Fraction = thread.lead / pitch_diameter / PI_LOW
    cosecant, cotangent = thread.form.cosecant, thread.form.cotangent
    return wire * (square_root(cosecant**2 + (cotangent * slope) ** 2) - cosecant)
