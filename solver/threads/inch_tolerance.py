"""Limits of inch threads: the formulas of ASME B1.1 for classes 2A and 2B, and the allowance of Acme class 2G.

Formulas, in inches: pitch tolerance of the 2A screw 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 p^(2/3), of the 2B
nut 1.3 times that; allowance of the screw 0.3 of its pitch tolerance; major tolerance of the screw
0.06 p^(2/3); minor tolerance of the nut 0.25 p - 0.4 p^2 from 1/4 in up (0.15 p coarser than 4 to the inch),
below that 0.05 p^(2/3) + 0.03 p/D - 0.002, but not above 0.394 p nor below 0.25 p - 0.4 p^2. LE is the
length of engagement the series assumes. Limits are rounded once, at the end, to four decimals: the figures read from
the 2019 edition (1/4-20) need that. Older tables round each tolerance first and end one ten-thousandth off in
places. The nut's minor diameter goes on from there to three decimals from No.6 (0.138 in) up.
"""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.circle_figures import square_root
from solver.quantities.lengths import Length
from solver.quantities.powers import power
from solver.threads.limits import Band, Limits, ThreadClass, to_places_inch
from solver.threads.thread import Thread

#: From this diameter up the nut's minor diameter is printed to three decimals.
THREE_DECIMALS_FROM = Length.of_inches("0.138")
#: Below this diameter the nut's minor tolerance has a formula of its own.
SMALL = Length.of_inches("0.25")
#: Engagement of fine constant-pitch and special threads, in pitches.
ENGAGED_PITCHES = 9
_TWO_THIRDS = Fraction(2, 3)


def unified_limits(thread: Thread, of_class: ThreadClass, engaged: Length) -> Limits:
    """Work out the limits of a unified thread of class 2A or 2B.

    Parameters
    ----------
    thread : Thread
        Of the unified form.
    of_class : ThreadClass
        ``2A`` or ``2B``.
    engaged : Length
        Length of engagement: the diameter for UNC, UNF and the 4, 6 and 8 thread series, else nine pitches.

    Returns
    -------
    Limits
        Rounded as the standard prints them.

    Raises
    ------
    ValueError
        The class is another one.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> thread = Thread(FORMS["unified"], Length.of_inches("1/4"), Length.of_inches("1/20"))
    >>> found = unified_limits(thread, ThreadClass.UNIFIED_SCREW, thread.major)
    >>> [str(found.pitch.most.inches), str(found.pitch.least.inches)]
    ['541/2500', '2127/10000']
    """
    diameter, pitch = thread.major.inches, thread.pitch.inches
    basic = thread.basic()
    on_pitch = Length.of_inches(_pitch_tolerance(diameter, pitch, engaged.inches))
    notes = (f"length of engagement {_engaged_words(thread, engaged)}",)
    if of_class is ThreadClass.UNIFIED_NUT:
        mean, minor = basic.internal.pitch, basic.internal.minor
        places = 3 if thread.major >= THREE_DECIMALS_FROM else 4
        wide = Length.of_inches(_minor_tolerance(diameter, pitch))
        return Limits(
            of_class,
            Band(to_places_inch(basic.internal.major), None),
            Band(to_places_inch(mean), to_places_inch(mean + on_pitch * Fraction(13, 10))),
            Band(to_places_inch(to_places_inch(minor), places), to_places_inch(to_places_inch(minor + wide), places)),
            notes,
        )
    if of_class is not ThreadClass.UNIFIED_SCREW:
        message = f"{of_class.value} is not a class of unified threads"
        raise ValueError(message)
    major, mean, minor = (size - on_pitch * Fraction(3, 10) for size in basic.external)
    on_major = Length.of_inches(Fraction(6, 100) * power(pitch, _TWO_THIRDS))
    return Limits(
        of_class,
        Band(to_places_inch(major - on_major), to_places_inch(major)),
        Band(to_places_inch(mean - on_pitch), to_places_inch(mean)),
        Band(None, to_places_inch(minor)),
        notes,
    )


def _engaged_words(thread: Thread, engaged: Length) -> str:
    return "one diameter" if engaged == thread.major else f"{ENGAGED_PITCHES} pitches"


def _pitch_tolerance(diameter: Fraction, pitch: Fraction, engaged: Fraction) -> Fraction:
    sizes = power(diameter, Fraction(1, 3)) + square_root(engaged, 30)
    return Fraction(15, 10_000) * sizes + Fraction(15, 1000) * power(pitch, _TWO_THIRDS)


def _minor_tolerance(diameter: Fraction, pitch: Fraction) -> Fraction:
    usual = pitch / 4 - Fraction(4, 10) * pitch**2
    if diameter < SMALL.inches:
        small = Fraction(5, 100) * power(pitch, _TWO_THIRDS) + Fraction(3, 100) * pitch / diameter - Fraction(2, 1000)
        return min(max(small, usual), Fraction(394, 1000) * pitch)
    return usual if pitch <= Fraction(1, 4) else Fraction(15, 100) * pitch


def acme_limits(thread: Thread) -> Limits:
    """Work out the largest Acme screw of class 2G: its pitch diameter is under the basic one by 0.008 D^(1/2).

    Parameters
    ----------
    thread : Thread
        Of the Acme form.

    Returns
    -------
    Limits
        Greatest sizes only; the tolerances of ASME B1.5 are not worked out here.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> acme_limits(Thread(FORMS["acme"], Length.of_inches(1), Length.of_inches("1/5"))).pitch.most.inches
    Fraction(223, 250)
    """
    screw = thread.basic().external
    allowance = Length.of_inches(Fraction(8, 1000) * square_root(thread.major.inches, 30))
    return Limits(
        ThreadClass.ACME_SCREW,
        Band(None, to_places_inch(screw.major)),
        # The standard rounds both before it takes one from the other.
        Band(None, to_places_inch(screw.pitch) - to_places_inch(allowance)),
        Band(None, to_places_inch(screw.minor)),
        ("greatest sizes only; its tolerances are not worked out here",),
    )
