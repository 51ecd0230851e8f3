"""Which form a series has, and in which classes its limits are worked out."""

from __future__ import annotations

from typing import NamedTuple

from gearsets.thread_tables import SeriesThread
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.quantities.pitches import Pitch, PitchUnit, figure_text
from solver.refusals import AmbiguousRequestError, ImpossibleSettingError
from solver.threads.forms import FORMS, ThreadForm
from solver.threads.inch_tolerance import ENGAGED_PITCHES, acme_limits, unified_limits
from solver.threads.limits import Limits, ThreadClass
from solver.threads.metric_tolerance import metric_limits
from solver.threads.thread import Thread

#: The form of each series; a series that is not here has none on record.
SERIES_FORMS = {
    "iso_coarse": "iso", "iso_fine": "iso", "instrument": "iso", "iso_miniature": "miniature",
    "iso_trapezoidal": "trapezoidal", "unc": "unified", "unf": "unified", "unef": "unified", "uns": "unified",
    "un_constant": "unified", "unified_small": "unified", "bsw": "whitworth", "bsf": "whitworth",
    "model_engineer": "whitworth", "brass": "whitworth", "pipe_g": "pipe", "pipe_r": "taper-pipe-55",
    "pipe_npt": "taper-pipe-60", "ba": "ba", "thury": "thury", "loewenherz": "loewenherz", "cycle": "cycle",
    "acme": "acme",
}  # fmt: skip
#: Instruments of the inch series have a form each.
NAMED_FORMS = {"RMS": "whitworth", "C-mount": "unified"}
#: Unified series whose limits assume an engagement of one diameter; the others assume nine pitches.
ENGAGED_DIAMETER = ("unc", "unf")
#: Threads per inch of the constant-pitch series that assume one diameter too.
ENGAGED_DIAMETER_TPI = (4, 6, 8)
_INCH_UNITS = (PitchUnit.INCH, PitchUnit.THREADS_PER_INCH, PitchUnit.CIRCULAR_PITCH)


class DrawnThread(NamedTuple):
    """A thread to cut, with the row of the tables it came from, if any, and whether its pitch is an inch one."""

    thread: Thread
    row: SeriesThread | None
    name: str
    is_inch: bool

    def limits(self) -> tuple[Limits | None, Limits | None]:
        """Limits of the usual classes of screw and nut; ``None`` where none is worked out or the thread is outside."""
        try:
            screw, nut = _limits(self.thread, self.row.series if self.row else None)
        except ImpossibleSettingError:
            return None, None
        if self.row is not None:
            return screw, nut
        return screw and _by_formula(screw), nut and _by_formula(nut)


def drawn_thread(
    pitch: Pitch, row: SeriesThread | None, *, major: Length | None, form: ThreadForm | None
) -> DrawnThread:
    """Join what was written to a thread: form from the series or asked for, diameter from the series or given.

    Parameters
    ----------
    pitch : Pitch
        With its starts.
    row : SeriesThread or None
        Row of the tables, when a designation was written.
    major : Length or None
        Major diameter, when it was given.
    form : ThreadForm or None
        Form, when one was asked for.

    Raises
    ------
    AmbiguousRequestError
        No diameter, or no form, is known.
    ImpossibleSettingError
        A pi pitch, which is a worm's.
    """
    distance = pitch.pitch
    if isinstance(distance, PiLength):
        raise ImpossibleSettingError(
            f"{pitch} is the pitch of a worm, a multiple of pi; thread forms have plain pitches.",
            help_text="The wheels for it: halfnut train. Write a thread's pitch in mm, in or tpi.",
        )
    diameter = major or (row.diameter if row else None)
    if diameter is None:
        raise AmbiguousRequestError(
            f"A pitch of {pitch} alone says nothing of the diameter.",
            help_text=f"Add --major, for example --major {'1/4in' if pitch.unit in _INCH_UNITS else '6mm'}.",
        )
    known = form or _form_of(row, pitch)
    if known is None:
        raise AmbiguousRequestError(
            f"No flank angle is on record for {row.designation if row else pitch}.",
            help_text="Add the form you want, for example --form 60.",
        )
    name = row.designation if row else f"{pitch} on {_plain(diameter, pitch)}"
    return DrawnThread(Thread(known, diameter, distance, pitch.starts), row, name, pitch.unit in _INCH_UNITS)


def _by_formula(limits: Limits) -> Limits:
    return limits._replace(
        notes=(*limits.notes, "by the formulas; this pair of diameter and pitch is in no table here")
    )


def _plain(diameter: Length, pitch: Pitch) -> str:
    if pitch.unit in _INCH_UNITS:
        return f"{figure_text(diameter.inches)} in"
    return f"{figure_text(diameter.mm)} mm"


def _form_of(row: SeriesThread | None, pitch: Pitch) -> ThreadForm | None:
    if row is None:
        return FORMS["unified" if pitch.unit in _INCH_UNITS else "iso"]
    key = NAMED_FORMS.get(row.designation) or SERIES_FORMS.get(row.series)
    return FORMS[key] if key else None


def _limits(thread: Thread, series: str | None) -> tuple[Limits | None, Limits | None]:
    if thread.form.key == "iso":
        return metric_limits(thread, ThreadClass.METRIC_SCREW), metric_limits(thread, ThreadClass.METRIC_NUT)
    if thread.form.key == "unified" and series != "unified_small":
        one_diameter = series in ENGAGED_DIAMETER or (
            series == "un_constant" and 1 / thread.pitch.inches in ENGAGED_DIAMETER_TPI
        )
        engaged = thread.major if one_diameter else thread.pitch * ENGAGED_PITCHES
        screw = unified_limits(thread, ThreadClass.UNIFIED_SCREW, engaged)
        return screw, unified_limits(thread, ThreadClass.UNIFIED_NUT, engaged)
    if thread.form.key == "acme":
        return acme_limits(thread), None
    return None, None
