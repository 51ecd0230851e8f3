"""What a reading over wires means for the work: what cannot be, how far off it is, and what is left to cut."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import in_both_units
from solver.refusals import ImpossibleSettingError
from solver.threads.limits import Limits
from solver.threads.over_wires import Reading
from solver.threads.thread import Thread

#: Irrational figures are carried far beyond this; less than it past a bound is taken as on it. [mm]
_SLACK = Length(Fraction(1, 10**9))
#: A reading is written to 0.0001 in at best, so it may be off by half of that. [mm]
READING_ROUNDING = Length.of_inches("0.00005")


class Fit(Enum):
    """How a pitch diameter stands to its class, or to the basic size where no class is known."""

    WITHIN = "within the class"
    TOO_LARGE = "too large for the class"
    TOO_SMALL = "too small for the class"
    AT_LIMIT = "at the limit of the class, within the rounding of a reading"
    NOT_TOO_LARGE = "not too large for the class, whose least is not known here"
    ABOVE_BASIC = "above the basic size"
    AT_BASIC = "at the basic size"
    BELOW_BASIC = "below the basic size"


class Verdict(NamedTuple):
    """What a reading says.

    Parameters
    ----------
    fit : Fit
        How the pitch diameter stands.
    off_by : Length
        Beyond the class, or from the basic size, on the diameter; zero within the class. At a limit, or at the basic
        size, it is within half of 0.0001 in.
    to_cut : tuple of (Length, Length) or None
        What is still to be cut on the radius, least and most, to come within the class or, without a class, to the
        basic size; ``None`` when nothing is, or nothing helps.
    """

    fit: Fit
    off_by: Length
    to_cut: tuple[Length, Length] | None


def refuse_no_such_thread(thread: Thread, read: Reading, blank: Length | None, limits: Limits | None) -> None:
    """Refuse a reading that no thread of this pitch on this blank can give.

    Parameters
    ----------
    thread : Thread
        A screw.
    read : Reading
        With where the wires touch.
    blank : Length or None
        Diameter of the blank; the basic major diameter, and the least of the class, when not given.
    limits : Limits or None
        Of the class.

    Raises
    ------
    ImpossibleSettingError
        The wires would touch above the crests, or the flanks would meet below them.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> from solver.threads.over_wires import read_over_wires
    >>> thread = Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1))
    >>> good = read_over_wires(thread, Length.of_mm("0.577"), Length.of_mm("6.2"))
    >>> refuse_no_such_thread(thread, good, None, None)
    """
    height = thread.pitch * thread.form.sharp_height
    largest = blank or thread.major
    smallest = blank or (limits.major.least if limits else None) or thread.major
    if read.touches_at > largest + _SLACK:
        why = (
            f"its wires would touch flanks at {in_both_units(read.touches_at)}, above the crests at "
            f"{in_both_units(largest)}"
        )
    elif read.pitch_diameter + height < smallest - _SLACK:
        why = (
            f"its flanks would meet in a sharp crest at {in_both_units(read.pitch_diameter + height)}, below the "
            f"{in_both_units(smallest)} of the blank"
        )
    else:
        return
    raise ImpossibleSettingError(
        f"No thread of this pitch on this blank reads {in_both_units(read.over)} over wires of "
        f"{in_both_units(read.wire)}: {why}.",
        help_text="Check the unit of the reading, the three wires, the pitch, and the blank (--blank); thread --show "
        "measuring without --reading tells what to look for.",
    )


def judge(thread: Thread, read: Reading, limits: Limits | None) -> Verdict:
    """Judge a reading by its pitch diameter.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> from solver.threads.limits import ThreadClass
    >>> from solver.threads.metric_tolerance import metric_limits
    >>> from solver.threads.over_wires import read_over_wires
    >>> thread = Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1))
    >>> read = read_over_wires(thread, Length.of_mm("0.577"), Length.of_mm("6.25"))
    >>> judge(thread, read, metric_limits(thread, ThreadClass.METRIC_SCREW)).fit.value
    'too large for the class'
    """
    found, nothing = read.pitch_diameter, Length(Fraction(0))
    half = Fraction(1, 2)
    least, most = limits.pitch if limits else (None, None)
    if most is None:
        basic = thread.basic().external.pitch
        off = Length(abs((found - basic).mm))
        if off <= READING_ROUNDING:
            return Verdict(Fit.AT_BASIC, off, None)
        if found > basic:
            return Verdict(Fit.ABOVE_BASIC, off, (off * half, off * half))
        return Verdict(Fit.BELOW_BASIC, off, None)
    beyond = found - most if found > most else nothing if least is None else least - found
    if nothing < beyond <= READING_ROUNDING:
        return Verdict(Fit.AT_LIMIT, beyond, None)
    if found > most:
        deepest = found - (most if least is None else least)
        return Verdict(Fit.TOO_LARGE, beyond, (beyond * half, deepest * half))
    if least is None:
        return Verdict(Fit.NOT_TOO_LARGE, nothing, None)
    return Verdict(Fit.TOO_SMALL, beyond, None) if found < least else Verdict(Fit.WITHIN, nothing, None)
