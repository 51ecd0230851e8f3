"""Taps by their designation, with the form of their series, as hobs of worm wheels."""

from __future__ import annotations

from gearsets.designations import read_thread_or_pitch
from gearsets.thread_forms import form_of
from gearsets.thread_tables import SERIES_TITLES, SeriesThread, load_series, series_names
from solver.quantities.lengths import Length
from solver.refusals import UnreadableFigureError
from solver.threads.forms import FORMS, ThreadForm
from solver.worms.taps import Tap

#: What a tap given by its pitch alone is taken for; unified taps have its profile too, a rounded root is the screw's.
SIXTY = FORMS["iso"]
_HELP = 'Write a tap such as "3/8-24", "1/4 BSW" or M10x1.5, or its pitch such as "20 tpi" with --tap-diameter.'


def find_tap(text: str, diameter: Length | None = None) -> Tap:
    """Read a tap: a designation of the tables, or a pitch with or without the tap's diameter.

    Parameters
    ----------
    text : str
        For example ``3/8-24``, ``1/4 BSW``, ``M10x1.5`` or ``20 tpi``.
    diameter : Length, optional
        Over the threads; takes the place of the table's.

    Returns
    -------
    Tap
        A pitch alone is taken for a 60 degree form.

    Raises
    ------
    UnreadableFigureError
        Unreadable, a tapered tap or one of a form not known here, several starts, or a pitch that no tap has.

    Examples
    --------
    >>> find_tap("3/8-24").name, find_tap("1/4 BSW").angle_text, find_tap("20 tpi").diameter
    ('3/8-24 UNF', '55°', None)
    """
    pitch, thread = read_thread_or_pitch(text)
    lead = pitch.lead
    if not isinstance(lead, Length):
        raise UnreadableFigureError(text, 0, "a module or DP is no tap's pitch", help_text=_HELP)
    if pitch.starts != 1:
        raise UnreadableFigureError(text, 0, "a tap used as a hob has one start", help_text=_HELP)
    if thread is None:
        return Tap(str(pitch), lead, SIXTY, diameter)
    form = _form_of_tap(thread)
    if form is None:
        title = SERIES_TITLES[thread.series]
        raise UnreadableFigureError(
            text, 0, f"a tap of the series {title} is tapered, or of a form not known here", help_text=_HELP
        )
    return Tap(thread.designation, lead, form, diameter or thread.diameter)


def like_taps(tap: Tap) -> tuple[Tap, ...]:
    """List the other taps of the tables with the same pitch and flank angle, by rising diameter.

    Examples
    --------
    >>> [each.name for each in like_taps(find_tap("3/8-24"))][:3]
    ['No.10-24 UNC', 'No.12-24 UNC', '5/16-24 UNF']
    """
    found: dict[Length, Tap] = {}
    for thread in (each for series in series_names() for each in load_series(series)):
        form = _form_of_tap(thread)
        if form is None or thread.diameter is None or thread.diameter == tap.diameter:
            continue
        if thread.pitch.pitch == tap.pitch and form.half_angle == tap.form.half_angle:
            found.setdefault(thread.diameter, Tap(thread.designation, tap.pitch, form, thread.diameter))
    return tuple(found[diameter] for diameter in sorted(found))


def _form_of_tap(thread: SeriesThread) -> ThreadForm | None:
    """Return the form of a parallel tap; ``None`` where it is tapered or its form is not on record."""
    form = form_of(thread)
    if form is None or form.taper:
        return None
    return SIXTY if form.key == "unified" else form
