"""The hole to tap and the blank for a die.

How much thread a hole leaves is told as a part of a full depth, and books differ in which: the basic height of
the nut, 5 H/8 at 60 degrees, or the older 3 H/4 (0.6495 p), by which the same hole reads a
sixth lower. So the basis is always named.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError, UnreadableFigureError
from solver.threads.limits import Limits
from solver.threads.thread import Thread

#: Engagement where nothing else is asked: three quarters of the full depth. Common practice.
USUAL_ENGAGEMENT = Fraction(3, 4)
#: Forms whose flanks bear on their whole depth: the standard's hole is the minor diameter of the nut itself.
_FULL_DEPTH = ("acme", "stub-acme", "trapezoidal", "square")
#: What is taken off the diameter for a die where no class gives limits, of the pitch. Common practice.
DIE_RELIEF = Fraction(1, 10)
_SIXTY = ("iso", "unified")


class Basis(NamedTuple):
    """A full depth of thread, on the diameter, and how it is called."""

    key: str
    title: str
    full: Length


def bases_of(thread: Thread) -> tuple[Basis, ...]:
    """List the bases in use for the form, the one taken when none is asked first.

    Parameters
    ----------
    thread : Thread
        A nut.

    Returns
    -------
    tuple of Basis
        Two at 60 degrees, else one.

    Raises
    ------
    ImpossibleSettingError
        The thread tapers.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> [each.key for each in bases_of(Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1)))]
    ['3H/4', '5H/8']
    """
    if thread.form.taper:
        raise ImpossibleSettingError(
            "The hole for a tapered thread is not worked out: it is bored or reamed to the taper.",
            help_text="Take the diameters at the small end, and the taper, from the dimensions.",
        )
    basic = thread.major - thread.basic().internal.minor
    if thread.form.key not in _SIXTY:
        return (Basis("full", "full basic depth of the nut", basic),)
    height = thread.pitch * thread.form.sharp_height
    return (
        Basis("3H/4", "older custom, depth 3 H/4 = 0.6495 p", height * Fraction(3, 2)),
        Basis("5H/8", "basic height of the nut, 5 H/8 = 0.5413 p", basic),
    )


def basis_named(thread: Thread, word: str | None) -> Basis:
    """Find a basis by its word; the usual one when none is given.

    Raises
    ------
    UnreadableFigureError
        The form has no such basis.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> basis_named(Thread(FORMS["iso"], Length.of_mm(6), Length.of_mm(1)), "5h/8").key
    '5H/8'
    """
    found = bases_of(thread)
    if word is None:
        return found[0]
    for basis in found:
        if basis.key.casefold() == word.strip().casefold():
            return basis
    listed = " or ".join(basis.key for basis in found)
    raise UnreadableFigureError(word, 0, "this form has no such basis of engagement", help_text=f"Write {listed}.")


def usual_engagement(thread: Thread) -> Fraction:
    """Return the engagement where none is asked: three quarters, but all of the depth of a form that is no V.

    Parameters
    ----------
    thread : Thread
        A nut.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> threads = [Thread(FORMS[key], Length.of_mm(16), Length.of_mm(4)) for key in ("trapezoidal", "whitworth")]
    >>> [usual_engagement(each) for each in threads]
    [Fraction(1, 1), Fraction(3, 4)]
    """
    return Fraction(1) if thread.form.key in _FULL_DEPTH else USUAL_ENGAGEMENT


def tapping_hole(thread: Thread, engagement: Fraction, basis: Basis) -> Length:
    """Return the hole that leaves so much of the full depth.

    Parameters
    ----------
    thread : Thread
        A nut.
    engagement : Fraction
        Part of the full depth, above zero and at most one.
    basis : Basis
        What the full depth is.

    Raises
    ------
    ImpossibleSettingError
        The engagement is zero or negative, or above the full depth.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> thread = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
    >>> round(tapping_hole(thread, Fraction(3, 4), bases_of(thread)[0]).mm, 2)
    Fraction(427, 50)
    """
    if not 0 < engagement <= 1:
        shown = trimmed_decimal_text(engagement * 100, 1)
        raise ImpossibleSettingError(
            f"An engagement of {shown} % is no thread a tap can leave: it lies above 0 and up to 100 % of the depth.",
            help_text="Three quarters is usual: --engagement 75%.",
        )
    return thread.major - basis.full * engagement


def engagement_of(thread: Thread, hole: Length, basis: Basis) -> Fraction:
    """Return which part of the full depth a hole leaves; above one when it is smaller than the full depth allows.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> thread = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
    >>> [round(engagement_of(thread, Length.of_mm("8.5"), basis), 2) for basis in bases_of(thread)]
    [Fraction(77, 100), Fraction(23, 25)]
    """
    return (thread.major - hole) / basis.full


def die_blank(thread: Thread, limits: Limits | None) -> Length:
    """Return the diameter to turn before a die is run on: a die raises the crest a little.

    Parameters
    ----------
    thread : Thread
        A screw.
    limits : Limits or None
        Of the screw's class, where one is known.

    Returns
    -------
    Length
        The middle of the limits of the major diameter; without them the major diameter less a tenth of the pitch.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> die_blank(Thread(FORMS["ba"], Length.of_mm("4.7"), Length.of_mm("0.81")), None)
    Length(mm=Fraction(4619, 1000))
    """
    middle = limits.major.middle if limits else None
    return thread.basic().external.major - thread.pitch * DIE_RELIEF if middle is None else middle
