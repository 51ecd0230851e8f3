"""The blank of a screw, or the bore of a nut, before the first touch: what no thread can be cut on, and its class."""

from __future__ import annotations

from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import in_both_units
from solver.refusals import ImpossibleSettingError
from solver.threads.limits import Limits, to_places_inch, to_thousandths_mm
from solver.threads.thread import Thread


def sharp_crest(thread: Thread, *, internal: bool) -> Length | None:
    """Return the diameter where the flanks meet in a sharp crest; ``None`` for the square form, whose never meet.

    Parameters
    ----------
    thread : Thread
        Of the basic pitch diameter.
    internal : bool
        True for a nut, whose crests point inward.

    Returns
    -------
    Length or None
        Of a screw the pitch diameter and H, the height of the sharp V; of a nut the pitch diameter less H.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> thread = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
    >>> [round(1000 * sharp_crest(thread, internal=side).mm) for side in (False, True)]
    [10325, 7727]
    """
    if not thread.form.has_angle:
        return None
    height = thread.pitch * thread.form.sharp_height
    basic = thread.basic()
    return basic.internal.pitch - height if internal else basic.external.pitch + height


def refuse_past_sharp_crest(thread: Thread, blank: Length, *, internal: bool) -> None:
    """Refuse a blank, or a bore, that the flanks never reach: its own crests would be cut away.

    Parameters
    ----------
    thread : Thread
        What is cut.
    blank : Length
        Diameter of the blank or of the bore.
    internal : bool
        True for a bore.

    Raises
    ------
    ImpossibleSettingError
        The blank is above the sharp crest, or the bore below it.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> thread = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
    >>> refuse_past_sharp_crest(thread, Length.of_mm("9.9"), internal=False)
    """
    crest = sharp_crest(thread, internal=internal)
    if crest is None or (blank >= crest if internal else blank <= crest):
        return
    side, work, tool = ("below", "bore", "Bore") if internal else ("above", "blank", "Turn")
    basic = thread.basic().internal.minor if internal else thread.basic().external.major
    raise ImpossibleSettingError(
        f"A {work} of {in_both_units(blank)} is {side} the sharp crest: the flanks of this thread meet at "
        f"{in_both_units(crest)}.",
        help_text=f"{tool} it first, to {in_both_units(basic)} or as the class allows, and give that with --blank.",
    )


def is_outside_class(blank: Length, limits: Limits | None, *, internal: bool) -> bool | None:
    """Say whether a blank, or a bore, is outside what its class allows; ``None`` where no class says.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> from solver.threads.limits import ThreadClass
    >>> from solver.threads.metric_tolerance import metric_limits
    >>> screw = metric_limits(Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5")), ThreadClass.METRIC_SCREW)
    >>> [is_outside_class(Length.of_mm(each), screw, internal=False) for each in ("9.9", "10")]
    [False, True]
    """
    if limits is None:
        return None
    band = limits.minor if internal else limits.major
    if band.least is None or band.most is None:
        return None
    return not band.least <= blank <= band.most


def is_hole_outside_class(hole: Length, limits: Limits | None) -> bool | None:
    """Say whether a hole to tap is outside what the nut's class allows; ``None`` where no class says.

    Parameters
    ----------
    hole : Length
        Worked out, so that it is rounded as the standard rounds its limits before it is held against them.
    limits : Limits or None
        Of the nut.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> from solver.threads.limits import ThreadClass
    >>> from solver.threads.metric_tolerance import metric_limits
    >>> nut = metric_limits(Thread(FORMS["iso"], Length.of_mm(14), Length.of_mm("1.25")), ThreadClass.METRIC_NUT)
    >>> [is_hole_outside_class(Length.of_mm(each), nut) for each in ("12.6468", "12.985")]
    [False, True]
    """
    if limits is None:
        return None
    rounded = to_thousandths_mm(hole) if limits.of_class.is_metric else to_places_inch(hole)
    return is_outside_class(rounded, limits, internal=True)
