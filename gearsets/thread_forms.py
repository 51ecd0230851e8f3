"""Which form a series has, and in which classes its limits are worked out."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple

from gearsets.special_sizes import OUTSIDE
from gearsets.thread_tables import SeriesThread
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.quantities.pitches import Pitch, PitchUnit, figure_text
from solver.refusals import AmbiguousRequestError, ImpossibleSettingError
from solver.threads.forms import FORMS, ThreadForm
from solver.threads.inch_tolerance import ENGAGED_PITCHES, acme_limits, acme_nut_limits, unified_limits
from solver.threads.limits import Limits, ThreadClass
from solver.threads.metric_grades import medium_classes, refuse_missing_grade
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
#: Series of a form that its standard's plan of diameters and pitches does not hold: their limits are by its formulas.
OUTSIDE_THE_PLAN = ("instrument",)
#: Instruments of the inch series have a form each.
NAMED_FORMS = {"RMS": "whitworth", "C-mount": "unified"}
#: Unified series whose limits assume an engagement of one diameter; the others assume nine pitches.
ENGAGED_DIAMETER = ("unc", "unf")
#: Threads per inch of the constant-pitch series that assume one diameter too.
ENGAGED_DIAMETER_TPI = (4, 6, 8)
#: Unified sizes that the standard of the limits does not hold.
WITHOUT_LIMITS = ("unified_small",)
#: Classes of unified threads that the standard has from this diameter up. From memory.
CLASSES_FROM_A_QUARTER, A_QUARTER = ("1A", "1B"), Length.of_inches("1/4")
_INCH_UNITS = (PitchUnit.INCH, PitchUnit.THREADS_PER_INCH, PitchUnit.CIRCULAR_PITCH)


class FormClasses(NamedTuple):
    """Classes of a form that limits are worked out for: which of them are meant, and which of them are the usual."""

    #: For a refusal.
    words: str
    belongs: Callable[[ThreadClass], bool]
    #: Of screw and nut, by diameter and pitch in millimetres.
    usual: Callable[[Fraction, Fraction], tuple[ThreadClass, ThreadClass]]

    def named(self, written: str, thread: Thread) -> ThreadClass | None:
        """Find the class a drawing writes, of two the screw's; the usual class of screws where it writes none.

        Examples
        --------
        >>> m10 = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
        >>> [CLASSES["iso"].named(each, m10).value for each in ("6H/6h", "5g6g", "")], CLASSES["iso"].named("2B", m10)
        (['6h', '5g6g', '6g'], None)
        """
        if not written:
            return self.usual(thread.major.mm, thread.pitch.mm)[0]
        known = self.read(written)
        return min(known, key=lambda each: each.is_internal) if known else None

    def both(self, written: str, thread: Thread) -> tuple[ThreadClass, ThreadClass] | None:
        """Return the classes of the screw and of its nut: those a drawing writes, the usual one where it writes none.

        Examples
        --------
        >>> m10 = Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5"))
        >>> [each.value for each in CLASSES["iso"].both("4h6h", m10)], CLASSES["iso"].both("6z", m10)
        (['4h6h', '6H'], None)
        """
        usual_screw, usual_nut = self.usual(thread.major.mm, thread.pitch.mm)
        known = self.read(written) if written else ()
        if known is None:
            return None
        screw = next((each for each in known if not each.is_internal), usual_screw)
        return screw, next((each for each in known if each.is_internal), usual_nut)

    def read(self, written: str) -> tuple[ThreadClass, ...] | None:
        """Read the classes a drawing writes; nothing where one of them is not of this form.

        Examples
        --------
        >>> [each.value for each in CLASSES["unified"].read("2B/2A")], CLASSES["unified"].read("6g")
        (['2B', '2A'], None)
        """
        known = [ThreadClass.read(word) for word in written.split("/")]
        found = tuple(each for each in known if each is not None and self.belongs(each))
        return found if len(found) == len(known) else None


#: Classes by the form's word.
CLASSES = {
    "iso": FormClasses(
        "ISO 965-1: grade and position as 6g, 8g, 4h6h or 5g6g for screws (e, f, g, h), as 6H, 7H or 4H5H for nuts "
        "(G, H), with the same position for both diameters",
        lambda each: each.is_metric,
        medium_classes,
    ),
    "unified": FormClasses(
        "1A, 2A, 3A, 1B, 2B, 3B",
        lambda each: each.is_unified,
        lambda *_: (ThreadClass.UNIFIED_SCREW, ThreadClass.UNIFIED_NUT),
    ),
}


class DrawnThread(NamedTuple):
    """A thread to cut, with the row of the tables it came from, if any, and whether its pitch is an inch one."""

    thread: Thread
    row: SeriesThread | None
    name: str
    is_inch: bool
    #: Class of the screw and of the nut; ``None`` where the form has none here.
    classes: tuple[ThreadClass, ThreadClass] | None = None
    #: Those that the drawing writes; the others are the usual ones.
    written: tuple[ThreadClass, ...] = ()

    def class_beside(self, *, internal: bool) -> str:
        """Say which class is taken for what is cut, where the drawing writes that of its mate alone; else nothing.

        Examples
        --------
        >>> from gearsets.designations import read_thread_or_pitch
        >>> drawn = drawn_thread(*read_thread_or_pitch("M10-6g"), major=None, form=None, written_class="6g")
        >>> drawn.class_beside(internal=True)
        '6g is a class of screws; the nut is taken as 6H'
        >>> drawn.class_beside(internal=False)
        ''
        """
        if self.classes is None or not self.written or any(each.is_internal is internal for each in self.written):
            return ""
        mates, piece = ("screws", "nut") if internal else ("nuts", "screw")
        taken = self.classes[1 if internal else 0].value
        return f"{self.written[0].value} is a class of {mates}; the {piece} is taken as {taken}"

    def limits(self) -> tuple[Limits | None, Limits | None]:
        """Limits of the classes of screw and nut; ``None`` where none is worked out or the thread is outside."""
        try:
            screw, nut = _limits(self.thread, self.row.series if self.row else None, self.classes)
        except ImpossibleSettingError:
            return None, None
        if self.row is not None and self.row.series not in OUTSIDE_THE_PLAN and self.row.status != OUTSIDE:
            return screw, nut
        return screw and _by_formula(screw), nut and _by_formula(nut)


def drawn_thread(
    pitch: Pitch, row: SeriesThread | None, *, major: Length | None, form: ThreadForm | None, written_class: str = ""
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
    written_class : str, optional
        Tolerance class of the drawing, as ``6h`` or ``6H/6g``; the usual ones are taken for what it leaves out.

    Raises
    ------
    AmbiguousRequestError
        No diameter, or no form, is known.
    ImpossibleSettingError
        A pi pitch, which is a worm's; or a class whose limits are not worked out here.
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
    known = form or usual_form(pitch, row)
    if known is None:
        raise AmbiguousRequestError(
            f"No flank angle is on record for {row.designation if row else pitch}.",
            help_text="Add the form that your tool, die or plate cuts, for example --form 60 or --form 47.5.",
        )
    if row is not None and form_of(row) not in (None, known):
        # In another form it is no thread of that series any more.
        row = None
    name = row.designation if row else f"{pitch} on {_plain(diameter, pitch)}"
    thread = Thread(known, diameter, distance, pitch.starts, row.gauge_length if row else None)
    classes, written = _classes(thread, written_class), _written(known, written_class)
    return DrawnThread(thread, row, name, pitch.unit in _INCH_UNITS, classes, written)


def _written(form: ThreadForm, written: str) -> tuple[ThreadClass, ...]:
    known = CLASSES.get(form.key)
    return known.read(written) or () if known and written else ()


def _classes(thread: Thread, written: str) -> tuple[ThreadClass, ThreadClass] | None:
    known = CLASSES.get(thread.form.key)
    if known is None:
        return None
    classes = known.both(written, thread)
    if classes is None:
        raise ImpossibleSettingError(
            f"Limits of class {written} are not worked out here, only those of {known.words}.",
            help_text="Leave the class out for the rest of the sheet, and take its limits from the standard.",
        )
    named = _written(thread.form, written)
    if len(named) > len({each.is_internal for each in named}):
        raise ImpossibleSettingError(
            f"{written} names two classes of one side; a drawing names the nut's and the screw's.",
            help_text=f"Write one of them, or both as {classes[1].value}/{classes[0].value}.",
        )
    for each in named:
        if each.value in CLASSES_FROM_A_QUARTER and thread.major < A_QUARTER:
            raise ImpossibleSettingError(
                f"ASME B1.1 has class {each.value} from 1/4 in up (from memory); this thread is smaller.",
                help_text="Write 2A or 3A for the screw, 2B or 3B for the nut, or leave the class out.",
            )
    for each in classes:
        # Limits that no one asked for may be left out in silence; a class that was written may not.
        if each.is_metric and each.value in written.split("/"):
            refuse_missing_grade(thread.pitch.mm, each)
    return classes


def _by_formula(limits: Limits) -> Limits:
    return limits._replace(
        notes=(*limits.notes, "by the formulas; this pair of diameter and pitch is in no table of the standard here")
    )


def _plain(diameter: Length, pitch: Pitch) -> str:
    if pitch.unit in _INCH_UNITS:
        return f"{figure_text(diameter.inches)} in"
    return f"{figure_text(diameter.mm)} mm"


def usual_form(pitch: Pitch, row: SeriesThread | None) -> ThreadForm | None:
    """Return the form of a thread where none is asked for: its series' own, or by the unit of a bare pitch.

    Examples
    --------
    >>> from gearsets.designations import read_thread_or_pitch
    >>> [usual_form(*read_thread_or_pitch(each)).key for each in ("20tpi", "1mm", "2 BA")]
    ['unified', 'iso', 'ba']
    """
    return form_of(row) if row else FORMS["unified" if pitch.unit in _INCH_UNITS else "iso"]


def form_of(row: SeriesThread) -> ThreadForm | None:
    """Return the form a thread of the tables has; ``None`` where none is on record.

    Examples
    --------
    >>> from gearsets.designations import read_designation
    >>> form_of(read_designation("2 BA")).key, form_of(read_designation("RMS")).key
    ('ba', 'whitworth')
    """
    key = NAMED_FORMS.get(row.designation) or SERIES_FORMS.get(row.series)
    return FORMS[key] if key else None


def _limits(
    thread: Thread, series: str | None, classes: tuple[ThreadClass, ThreadClass] | None
) -> tuple[Limits | None, Limits | None]:
    if thread.form.key == "acme":
        return acme_limits(thread), acme_nut_limits(thread)
    if classes is None or series in WITHOUT_LIMITS:
        return None, None
    screw, nut = classes
    return limits_of(thread, series, screw), limits_of(thread, series, nut)


def limits_of(thread: Thread, series: str | None, of_class: ThreadClass) -> Limits:
    """Work out the limits of one class of ISO metric or unified threads.

    Parameters
    ----------
    thread : Thread
        Of one of the two forms.
    series : str or None
        Stem of its series, which says what engagement a unified class assumes.
    of_class : ThreadClass
        Class of that form.

    Raises
    ------
    ImpossibleSettingError
        The standard's tables do not hold such a thread.

    Examples
    --------
    >>> from gearsets.designations import read_thread_or_pitch
    >>> drawn = drawn_thread(*read_thread_or_pitch("M10"), major=None, form=None)
    >>> limits_of(drawn.thread, "iso_coarse", ThreadClass.METRIC_NUT).pitch.least
    Length(mm=Fraction(4513, 500))
    """
    if thread.form.key == "iso":
        return metric_limits(thread, of_class)
    one_diameter = series in ENGAGED_DIAMETER or (
        series == "un_constant" and 1 / thread.pitch.inches in ENGAGED_DIAMETER_TPI
    )
    return unified_limits(thread, of_class, thread.major if one_diameter else thread.pitch * ENGAGED_PITCHES)


def pitch_tolerance(row: SeriesThread, written_class: str = "") -> tuple[ThreadClass, Length] | None:
    """Return what a class allows the pitch diameter of a thread of the tables, and the class.

    Parameters
    ----------
    row : SeriesThread
        Thread of the tables.
    written_class : str, optional
        Class of the drawing, as ``6h`` or ``6H/6g``, of which the screw's counts; the usual class of screws else.

    Returns
    -------
    tuple of (ThreadClass, Length), or None
        Greatest less least pitch diameter, each rounded as the standard prints it; nothing where no figures of the
        class, or of the thread, are worked out here.

    Examples
    --------
    >>> from gearsets.designations import read_designation
    >>> pitch_tolerance(read_designation("M10"))
    (ThreadClass(value='6g'), Length(mm=Fraction(33, 250)))
    >>> pitch_tolerance(read_designation("M10"), "4h6h")[1]
    Length(mm=Fraction(17, 200))
    >>> pitch_tolerance(read_designation("M10"), "5h") is pitch_tolerance(read_designation("2 BA")) is None
    True
    """
    form = form_of(row)
    classes = CLASSES.get(form.key) if form else None
    if classes is None or form is None or row.series in WITHOUT_LIMITS:
        return None
    distance = row.pitch.pitch
    if row.diameter is None or isinstance(distance, PiLength):
        return None
    thread = Thread(form, row.diameter, distance)
    of_class = classes.named(written_class, thread)
    if of_class is None:
        return None
    try:
        band = limits_of(thread, row.series, of_class).pitch
    except ImpossibleSettingError:
        return None
    return None if band.least is None or band.most is None else (of_class, band.most - band.least)
