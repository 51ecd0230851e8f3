"""Limits of inch threads: the formulas of ASME B1.1 for classes 1A to 3B, and of ASME B1.5 for Acme class 2G.

Formulas, in inches: pitch tolerance of the 2A screw 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 p^(2/3), of the other
classes so many times that as ``PITCH_SHARES`` has it; allowance of the screws 1A and 2A 0.3 of the 2A pitch tolerance,
of 3A none; major tolerance of the screw 0.06 p^(2/3), of 1A 0.09 p^(2/3); minor tolerance of the nuts 1B and 2B
0.25 p - 0.4 p^2 from 1/4 in up (0.15 p coarser than 4 to the inch), below that 0.05 p^(2/3) + 0.03 p/D - 0.002,
but not above 0.394 p nor below 0.25 p - 0.4 p^2; of 3B that last formula at every size, but not above 0.394 p nor
below 0.23 p - 1.5 p^2, nor, at 13 to the inch and coarser, below 0.12 p. LE is the length of engagement the series
assumes. Classes 1A, 1B, 3A and 3B are from memory.

Rounding, fitted to eleven sizes of the 2019 edition and to older tables from memory: the pitch tolerance is taken to
six decimals, and from that to four, and so are the basic pitch diameter, the major tolerance and the allowance. The
allowance is 0.3 of the tolerance taken to five decimals: of six 5/8-11 would not print 0.0016, of four 1 1/4-12 would
not print 0.0018 nor 2-4.5 0.0029. The tolerance of the nut is 1.3 times the one of six decimals (1/4-20 prints 0.0049).
Limits are sums of the rounded figures. The minor diameter of the nuts 1B and 2B is rounded once, to three decimals,
from No.6 (0.138 in) up; below, and at the greatest of 3B, size and tolerance are rounded to four and added (No.1-64
would not print 0.0623 otherwise, nor No.6-32 3B 0.1140), and the least of 3B is that of 2B.
A half goes to the even digit, but the tolerance of 1-8, 0.00675, is printed 0.0067.

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
from solver.threads.basic_dimensions import acme_clearance
from solver.threads.limits import Band, Limits, ThreadClass, to_places_inch
from solver.threads.thread import Thread

#: From this diameter up the nut's minor diameter is printed to three decimals.
THREE_DECIMALS_FROM = Length.of_inches("0.138")
#: Below this diameter the nut's minor tolerance has a formula of its own.
SMALL = Length.of_inches("0.25")
#: Decimals of the pitch tolerance before anything is taken from it.
FINER_PLACES = 6
#: Decimals of the pitch tolerance from which the allowance is taken.
ALLOWANCE_PLACES = 5
#: Pitch tolerance of each class, in times that of 2A.
PITCH_SHARES = {
    "1A": Fraction(3, 2), "2A": Fraction(1), "3A": Fraction(3, 4),
    "1B": Fraction(195, 100), "2B": Fraction(13, 10), "3B": Fraction(975, 1000),
}  # fmt: skip
#: Major tolerance of each class of screws over p^(2/3). [in^(1/3)]
MAJOR_FACTORS = {"1A": Fraction(9, 100), "2A": Fraction(6, 100), "3A": Fraction(6, 100)}
#: Classes whose figures were seen in print; what rests on memory is said.
SEEN_CLASSES = ("2A", "2B")
#: From this pitch up the minor tolerance of 3B is 0.12 p at the least. [in]
COARSE_FROM = Fraction(1, 13)
#: Engagement of fine constant-pitch and special threads, in pitches.
ENGAGED_PITCHES = 9
#: Least tolerance at the crest of an Acme thread.
ACME_LEAST_ON_CREST = Length.of_inches("0.005")
#: Diameters in the middle of a step of the table of Acme allowances, where formula and table are one. From memory. [in]
ACME_MIDDLES = frozenset(Fraction(each, 8) for each in (2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 16, 18, 20, 22, 28, 32, 36))
#: Part of the pitch that no minor tolerance of the formula for small sizes exceeds.
MOST_OF_PITCH = Fraction(394, 1000)
_TWO_THIRDS = Fraction(2, 3)


def unified_limits(thread: Thread, of_class: ThreadClass, engaged: Length) -> Limits:
    """Work out the limits of a unified thread of class 1A, 2A, 3A, 1B, 2B or 3B.

    Parameters
    ----------
    thread : Thread
        Of the unified form.
    of_class : ThreadClass
        One of those.
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
    if not of_class.is_unified:
        message = f"{of_class.value} is not a class of unified threads"
        raise ValueError(message)
    finer = Fraction(round_half_even(_pitch_tolerance(thread, engaged), FINER_PLACES), 10**FINER_PLACES)
    notes = [f"length of engagement {_engaged_words(thread, engaged)}"]
    if of_class.value not in SEEN_CLASSES:
        notes.append("factors of this class from memory")
    bands = (_nut if of_class.is_internal else _screw)(thread, of_class.value, finer)
    limits = Limits.rounded(of_class, bands, to_places_inch, tuple(notes))
    return limits._replace(minor=_hole(thread, of_class.value)) if of_class.is_internal else limits


def _nut(thread: Thread, of_class: str, finer: Fraction) -> tuple[Band, Band, Band]:
    """Limit all but the minor diameter, which is not always told to as many places."""
    basic = thread.basic().internal
    on_pitch = _ten_thousandths(finer * PITCH_SHARES[of_class])
    return Band(basic.major, None), Band(basic.pitch, basic.pitch + on_pitch), Band(None, None)


def _screw(thread: Thread, of_class: str, finer: Fraction) -> tuple[Band, Band, Band]:
    # The one tie there is, 0.00675 at 1-8, is printed lower.
    tolerance = ceil(finer * PITCH_SHARES[of_class] * 10**4 - Fraction(1, 2))
    on_pitch = Length.of_inches(Fraction(tolerance, 10**4))
    for_allowance = Fraction(round_half_even(finer, ALLOWANCE_PLACES), 10**ALLOWANCE_PLACES)
    allowance = _ten_thousandths(for_allowance * Fraction(3, 10) if of_class != "3A" else Fraction(0))
    on_major = _ten_thousandths(MAJOR_FACTORS[of_class] * power(thread.pitch.inches, _TWO_THIRDS))
    major, mean, minor = (size - allowance for size in thread.basic().external)
    return Band(major - on_major, major), Band(mean - on_pitch, mean), Band(None, minor)


def _hole(thread: Thread, of_class: str) -> Band:
    """Limit the minor diameter of the nut, to three places where the tables do."""
    diameter, pitch = thread.major.inches, thread.pitch.inches
    basic = thread.basic().internal.minor
    tight = of_class == "3B"
    tolerance = _tight_minor_tolerance(diameter, pitch) if tight else _minor_tolerance(diameter, pitch)
    by_parts = to_places_inch(basic) + to_places_inch(Length.of_inches(tolerance))
    if thread.major < THREE_DECIMALS_FROM:
        return Band(to_places_inch(basic), by_parts)
    once = to_places_inch(basic + Length.of_inches(tolerance), 3)
    return Band(to_places_inch(basic, 3), by_parts if tight else once)


def _ten_thousandths(inches: Fraction) -> Length:
    return Length.of_inches(Fraction(round_half_even(inches, 4), 10**4))


def _engaged_words(thread: Thread, engaged: Length) -> str:
    return "one diameter" if engaged == thread.major else f"{ENGAGED_PITCHES} pitches"


def _pitch_tolerance(thread: Thread, engaged: Length) -> Fraction:
    sizes = power(thread.major.inches, Fraction(1, 3)) + square_root(engaged.inches)
    return Fraction(15, 10_000) * sizes + Fraction(15, 1000) * power(thread.pitch.inches, _TWO_THIRDS)


def _minor_tolerance(diameter: Fraction, pitch: Fraction) -> Fraction:
    usual = pitch / 4 - Fraction(4, 10) * pitch**2
    if diameter < SMALL.inches:
        return min(max(_small_minor(diameter, pitch), usual), MOST_OF_PITCH * pitch)
    return usual if pitch <= Fraction(1, 4) else Fraction(15, 100) * pitch


def _tight_minor_tolerance(diameter: Fraction, pitch: Fraction) -> Fraction:
    least = Fraction(23, 100) * pitch - Fraction(3, 2) * pitch**2
    if pitch >= COARSE_FROM:
        least = max(least, Fraction(12, 100) * pitch)
    return min(max(_small_minor(diameter, pitch), least), MOST_OF_PITCH * pitch)


def _small_minor(diameter: Fraction, pitch: Fraction) -> Fraction:
    return Fraction(5, 100) * power(pitch, _TWO_THIRDS) + Fraction(3, 100) * pitch / diameter - Fraction(2, 1000)


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
