"""Along a tapered thread: its diameters at the small end and at the gauge plane, and how far it is to be good."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.threads.basic_dimensions import Diameters
from solver.threads.thread import Thread


class Taper(NamedTuple):
    """Where a tapered thread has which diameters.

    Parameters
    ----------
    gauge_length : Length
        From the small end of the screw to the gauge plane: for NPT the hand-tight engagement L1.
    small_end, gauge_plane : Diameters
        Of the screw; the nut has those of the gauge plane at its mouth.
    effective : Length or None
        How much of the screw is full thread by its standard, L2; ``None`` where that is not worked out here.
    """

    gauge_length: Length
    small_end: Diameters
    gauge_plane: Diameters
    effective: Length | None


def taper_of(thread: Thread) -> Taper | None:
    """Work out both places of a tapered thread; nothing where its gauge length is not known.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> half = Thread(FORMS["taper-pipe-60"], Length.of_inches("0.84"), Length.of_inches("1/14"),
    ...     gauge_length=Length.of_inches("0.32"))
    >>> found = taper_of(half)
    >>> round(found.gauge_plane.pitch.inches, 5), round(found.effective.inches, 4)
    (Fraction(77843, 100000), Fraction(5337, 10000))
    """
    if thread.gauge_length is None or not thread.form.taper:
        return None
    basic = thread.basic()
    if thread.form.is_told_at_small_end:
        # ASME B1.20.1: L2 = (0.80 D + 6.8) p, D the pipe. [in]
        pipe, pitch = thread.major.inches, thread.pitch.inches
        effective = Length.of_inches((pipe * Fraction(8, 10) + Fraction(68, 10)) * pitch)
        return Taper(thread.gauge_length, basic.external, basic.internal, effective)
    wider = thread.gauge_length * thread.form.taper
    return Taper(thread.gauge_length, Diameters(*(each - wider for each in basic.external)), basic.external, None)


def has_nut_figures(thread: Thread) -> bool:
    """Say whether the figures of a thread tell its nut: not where its standard works from the small end alone.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> pipe = Thread(FORMS["taper-pipe-60"], Length.of_inches("0.84"), Length.of_inches("1/14"))
    >>> has_nut_figures(pipe), has_nut_figures(Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5")))
    (False, True)
    """
    return not thread.form.is_told_at_small_end or thread.gauge_length is not None
