"""The nose of the tool: the flat or radius that makes the root, and what another one does to depth and root.

The flanks are at their place when the groove is half a pitch wide at the pitch diameter; how far the tool then
reaches past that line is fixed by its nose alone.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import Rounding, in_both_units
from solver.refusals import ImpossibleSettingError
from solver.threads.basic_dimensions import BasicDimensions, Diameters
from solver.threads.thread import Thread

#: Irrational figures are carried far beyond this; a nose larger than the largest by less is taken as equal. [mm]
_SLACK = Length(Fraction(1, 10**9))
_HALF = Fraction(1, 2)
#: Forms steeper than this have flat roots by their standards.
_FLAT_ROOTED = Angle.of_degrees(20)


class Nose(NamedTuple):
    """Shape of the end of the tool; one of the two is given, the other ``None``."""

    flat: Length | None = None
    radius: Length | None = None


class Root(NamedTuple):
    """What a nose leaves when the pitch diameter is right.

    Parameters
    ----------
    diameter : Length
        Minor diameter of a screw, major diameter of a nut.
    depth : Length
        Depth of cut on the radius, from the basic crest.
    """

    diameter: Length
    depth: Length


def nose_for(thread: Thread, *, internal: bool) -> tuple[Length, Length | None]:
    """Return the flat, and the full radius, that reach the basic root.

    Parameters
    ----------
    thread : Thread
        What is cut.
    internal : bool
        True for a nut.

    Returns
    -------
    tuple of (Length, Length or None)
        Flat, then radius. Where a full radius to the basic root would foul the mate, the largest that does not;
        it cuts deeper, see `root_of`. No radius for square and trapezoidal forms.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> acme = Thread(FORMS["acme"], Length.of_inches("1/2"), Length.of_inches("1/10"))
    >>> flat, radius = nose_for(acme, internal=False)
    >>> round(flat.inches, 4), radius
    (Fraction(319, 10000), None)
    """
    if not thread.form.has_angle:
        return thread.pitch * _HALF, None
    flat = thread.pitch * _HALF - _reach(thread.basic(), internal=internal) * (2 * thread.form.tangent)
    largest = largest_nose(thread, internal=internal)[1]
    return flat, largest and min(full_radius(thread, internal=internal), largest)


def largest_nose(thread: Thread, *, internal: bool) -> tuple[Length, Length | None]:
    """Return the largest flat, and the largest radius, that clear the crest of the mate.

    Parameters
    ----------
    thread : Thread
        What is cut.
    internal : bool
        True for a nut.

    Returns
    -------
    tuple of (Length, Length or None)
        Flat, then radius; no radius for square and trapezoidal forms.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> flat, radius = largest_nose(Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1)), internal=False)
    >>> round(flat.mm, 9), round(radius.mm, 6)
    (Fraction(1, 4), Fraction(72169, 500000))
    """
    if not thread.form.has_angle:
        return thread.pitch * _HALF, None
    basic = thread.basic()
    mate = (basic.external.major - basic.external.pitch) if internal else (basic.internal.pitch - basic.internal.minor)
    clear = _sharp(thread) - mate * _HALF
    flat = clear * (2 * thread.form.tangent)
    if thread.form.half_angle < _FLAT_ROOTED:
        return flat, None
    if thread.form.has_round_crest:
        # The mate's crest is rounded too, to the radius that reaches the basic root.
        return flat, full_radius(thread, internal=internal)
    sine = 1 / thread.form.cosecant
    return flat, clear * (sine / (1 - sine**2))


def root_of(thread: Thread, nose: Nose, *, internal: bool) -> Root:
    """Return the root diameter and depth of cut that a nose gives when the pitch diameter is right.

    Parameters
    ----------
    thread : Thread
        What is cut.
    nose : Nose
        Its flat or its radius.
    internal : bool
        True for a nut.

    Raises
    ------
    ImpossibleSettingError
        The nose would foul the crest of the mate, or is no nose of a square thread.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> screw = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
    >>> round(root_of(screw, Nose(radius=Length.of_mm("0.1")), internal=False).depth.mm, 4)
    Fraction(10367, 10000)
    """
    flat, radius = largest_nose(thread, internal=internal)
    if nose.radius is not None:
        if radius is None:
            raise ImpossibleSettingError(
                f"The root of the form {thread.form.title} is flat, so its tool has no nose radius.",
                help_text="Give the flat of the nose instead: --nose-flat.",
            )
        _refuse_larger("radius", nose.radius, radius)
        reach = _sharp(thread) - nose.radius * (thread.form.cosecant - 1)
    else:
        given = nose.flat if nose.flat is not None else flat
        _refuse_larger("flat", given, flat)
        if not thread.form.has_angle:
            reach = _reach(thread.basic(), internal=internal)
        else:
            reach = Length((thread.pitch * _HALF - given).mm / (2 * thread.form.tangent))
    basic = thread.basic()
    if internal:
        root = basic.internal.pitch + reach * 2
        return Root(root, (root - basic.internal.minor) * _HALF)
    root = basic.external.pitch - reach * 2
    if root.mm <= 0:
        raise ImpossibleSettingError(
            "So sharp a tool would cut through to the axis before the pitch diameter is right.",
            help_text="Give the nose of the standard form, or a finer pitch.",
        )
    return Root(root, (basic.external.major - root) * _HALF)


def crest_flat(thread: Thread, screw: Diameters) -> Length:
    """Return the width of the flat at the crest of a screw.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> thread = Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1))
    >>> round(crest_flat(thread, thread.basic().external).mm, 9)
    Fraction(1, 8)
    """
    return thread.pitch * _HALF - (screw.major - screw.pitch) * thread.form.tangent


def _refuse_larger(what: str, given: Length, largest: Length) -> None:
    if given > largest + _SLACK:
        # Rounded down, so that a nose of the figure that is told does go.
        shown = in_both_units(largest, Rounding.DOWN)
        raise ImpossibleSettingError(
            f"A nose {what} of {in_both_units(given)} is too large for this root: the mating thread would "
            f"foul it. The largest is {shown}.",
            help_text="Grind the nose smaller, or leave it out to see the one of the standard form.",
        )


def _sharp(thread: Thread) -> Length:
    """Distance from the pitch line to the point where the flanks would meet."""
    return thread.pitch * (thread.form.cotangent / 4)


def full_radius(thread: Thread, *, internal: bool) -> Length:
    """Return the radius tangent to both flanks that just reaches the basic root; not for the square form.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> round(full_radius(Thread(FORMS["whitworth"], Length.of_mm(20), Length.of_mm(1)), internal=False).mm, 6)
    Fraction(137329, 1000000)
    """
    return Length((_sharp(thread) - _reach(thread.basic(), internal=internal)).mm / (thread.form.cosecant - 1))


def _reach(basic: BasicDimensions, *, internal: bool) -> Length:
    """Distance on the radius from the pitch line to the basic root."""
    deep = (basic.internal.major - basic.internal.pitch) if internal else (basic.external.pitch - basic.external.minor)
    return deep * _HALF
