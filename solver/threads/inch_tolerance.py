"""Limits of inch threads: the formulas of ASME B1.1 for classes 2A and 2B, and of ASME B1.5 for Acme class 2G.

Formulas, in inches: pitch tolerance of the 2A screw 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 p^(2/3), of the 2B
nut 1.3 times that; allowance of the screw 0.3 of its pitch tolerance; major tolerance of the screw
0.06 p^(2/3); minor tolerance of the nut 0.25 p - 0.4 p^2 from 1/4 in up (0.15 p coarser than 4 to the inch),
below that 0.05 p^(2/3) + 0.03 p/D - 0.002, but not above 0.394 p nor below 0.25 p - 0.4 p^2. LE is the
length of engagement the series assumes.

Rounding, fitted to eleven sizes of the 2019 edition and to older tables from memory: the pitch tolerance is taken to
six decimals, and from that to four, and so are the basic pitch diameter, the major tolerance and the allowance. The
allowance is 0.3 of the tolerance taken to five decimals: of six 5/8-11 would not print 0.0016, of four 1 1/4-12 would
not print 0.0018 nor 2-4.5 0.0029. The tolerance of the nut is 1.3 times the one of six decimals (1/4-20 prints 0.0049).
Limits are sums of the rounded figures. The minor diameter of the nut is rounded once, to three
decimals from No.6 (0.138 in) up. A half goes to the even digit, but the tolerance of 1-8, 0.00675, is printed 0.0067.

Acme 2G, in inches and from memory: pitch tolerance 0.006 D^(1/2) + 0.030 p^(1/2), allowance of the screw 0.008 D^(1/2);
0.05 p but at least 0.005 on the major diameter of the screw and on the minor of the nut; on the minor diameter of the
screw one and a half pitch tolerances; 0.020 on the major diameter of the nut, finer than 10 to the inch 0.010.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from solver.quantities.circle_figures import square_root
from solver.quantities.exact_numbers import round_half_even
from solver.quantities.lengths import Length
from solver.quantities.powers import power
from solver.threads.limits import Band, Limits, ThreadClass, to_places_inch
from solver.threads.thread import Thread, acme_clearance

#: From this diameter up the nut's minor diameter is printed to three decimals.
THREE_DECIMALS_FROM = Length.of_inches("0.138")
#: Below this diameter the nut's minor tolerance has a formula of its own.
SMALL = Length.of_inches("0.25")
#: Decimals of the pitch tolerance before anything is taken from it.
FINER_PLACES = 6
#: Decimals of the pitch tolerance from which the allowance is taken.
ALLOWANCE_PLACES = 5
#: Engagement of fine constant-pitch and special threads, in pitches.
ENGAGED_PITCHES = 9
#: Least tolerance at the crest of an Acme thread.
ACME_LEAST_ON_CREST = Length.of_inches("0.005")
#: Diameters in the middle of a step of the table of Acme allowances, where formula and table are one. From memory. [in]
ACME_MIDDLES = frozenset(Fraction(each, 8) for each in (2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 16, 18, 20, 22, 28, 32, 36))
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
    finer = Fraction(round_half_even(_pitch_tolerance(diameter, pitch, engaged.inches), FINER_PLACES), 10**FINER_PLACES)
    notes = (f"length of engagement {_engaged_words(thread, engaged)}",)
    mean = basic.external.pitch
    if of_class is ThreadClass.UNIFIED_NUT:
        minor = basic.internal.minor
        places = 3 if thread.major >= THREE_DECIMALS_FROM else 4
        on_minor = Length.of_inches(_minor_tolerance(diameter, pitch))
        on_pitch = _ten_thousandths(finer * Fraction(13, 10))
        nut = (Band(basic.internal.major, None), Band(mean, mean + on_pitch), Band(None, None))
        # The hole alone is told to three places where the tables do.
        hole = Band(to_places_inch(minor, places), to_places_inch(minor + on_minor, places))
        return Limits.rounded(of_class, nut, to_places_inch, notes)._replace(minor=hole)
    if of_class is not ThreadClass.UNIFIED_SCREW:
        message = f"{of_class.value} is not a class of unified threads"
        raise ValueError(message)
    # The one tie there is, 0.00675 at 1-8, is printed lower.
    on_pitch = Length.of_inches(Fraction(ceil(finer * 10**4 - Fraction(1, 2)), 10**4))
    for_allowance = Fraction(round_half_even(finer, ALLOWANCE_PLACES), 10**ALLOWANCE_PLACES)
    allowance = _ten_thousandths(for_allowance * Fraction(3, 10))
    on_major = _ten_thousandths(Fraction(6, 100) * power(pitch, _TWO_THIRDS))
    major, mean, minor = (size - allowance for size in basic.external)
    screw = (Band(major - on_major, major), Band(mean - on_pitch, mean), Band(None, minor))
    return Limits.rounded(of_class, screw, to_places_inch, notes)


def _ten_thousandths(inches: Fraction) -> Length:
    return Length.of_inches(Fraction(round_half_even(inches, 4), 10**4))


def _engaged_words(thread: Thread, engaged: Length) -> str:
    return "one diameter" if engaged == thread.major else f"{ENGAGED_PITCHES} pitches"


def _pitch_tolerance(diameter: Fraction, pitch: Fraction, engaged: Fraction) -> Fraction:
    sizes = power(diameter, Fraction(1, 3)) + square_root(engaged)
    return Fraction(15, 10_000) * sizes + Fraction(15, 1000) * power(pitch, _TWO_THIRDS)


def _minor_tolerance(diameter: Fraction, pitch: Fraction) -> Fraction:
    usual = pitch / 4 - Fraction(4, 10) * pitch**2
    if diameter < SMALL.inches:
        small = Fraction(5, 100) * power(pitch, _TWO_THIRDS) + Fraction(3, 100) * pitch / diameter - Fraction(2, 1000)
        return min(max(small, usual), Fraction(394, 1000) * pitch)
    return usual if pitch <= Fraction(1, 4) else Fraction(15, 100) * pitch


def acme_limits(thread: Thread) -> Limits:
    """Work out the limits of an Acme screw of class 2G.

    Parameters
    ----------
    thread : Thread
        Of the Acme form.

    Returns
    -------
    Limits
        Pitch diameter 0.008 D^(1/2) under the basic one at the most.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> found = acme_limits(Thread(FORMS["acme"], Length.of_inches(1), Length.of_inches("1/5")))
    >>> [str(end.inches) for end in found.pitch]
    ['4363/5000', '223/250']
    """
    screw = thread.basic().external
    allowance = Length.of_inches(Fraction(8, 1000) * square_root(thread.major.inches))
    # The standard rounds the allowance and the pitch diameter before it takes one from the other.
    most = to_places_inch(screw.pitch) - to_places_inch(allowance)
    on_pitch = _acme_pitch_tolerance(thread)
    bands = (
        Band(screw.major - _acme_crest_tolerance(thread), screw.major),
        Band(most - to_places_inch(on_pitch), most),
        Band(screw.minor - on_pitch * Fraction(3, 2), screw.minor),
    )
    return Limits.rounded(ThreadClass.ACME, bands, to_places_inch, _acme_notes(thread, of_screw=True))


def acme_nut_limits(thread: Thread) -> Limits:
    """Work out the limits of an Acme nut of class 2G.

    Parameters
    ----------
    thread : Thread
        Of the Acme form.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> found = acme_nut_limits(Thread(FORMS["acme"], Length.of_inches(1), Length.of_inches("1/5")))
    >>> [str(end.inches) for end in (*found.pitch, found.minor.most)]
    ['9/10', '4597/5000', '81/100']
    """
    nut = thread.basic().internal
    least = to_places_inch(nut.pitch)
    # As much again as the clearance at the root, on the diameter.
    on_major = acme_clearance(thread.pitch) * 2
    bands = (
        Band(nut.major, nut.major + on_major),
        Band(least, least + to_places_inch(_acme_pitch_tolerance(thread))),
        Band(nut.minor, nut.minor + _acme_crest_tolerance(thread)),
    )
    return Limits.rounded(ThreadClass.ACME, bands, to_places_inch, _acme_notes(thread, of_screw=False))._replace(
        is_acme_nut=True
    )


def _acme_pitch_tolerance(thread: Thread) -> Length:
    of_diameter = Fraction(6, 1000) * square_root(thread.major.inches)
    return Length.of_inches(of_diameter + Fraction(30, 1000) * square_root(thread.pitch.inches))


def _acme_crest_tolerance(thread: Thread) -> Length:
    return max(thread.pitch * Fraction(5, 100), ACME_LEAST_ON_CREST)


def _acme_notes(thread: Thread, *, of_screw: bool) -> tuple[str, ...]:
    notes = ["by the formulas of ASME B1.5 as remembered"]
    if thread.starts > 1:
        notes.append("for a single start")
    if of_screw and thread.major.inches not in ACME_MIDDLES:
        notes.append("its tables take the allowance in steps of diameter, up to 0.0005 in more or less at this size")
    return tuple(notes)
