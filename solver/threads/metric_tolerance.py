"""Limits of metric threads: the formulas of ISO 965-1, rounded to preferred numbers as that standard rounds them.

Formulas, in micrometres with millimetres put in: fundamental deviation of positions g and G 15 + 11 P, of f
30 + 11 P, of e 50 + 11 P; tolerances of grade 6: major diameter of the screw 180 P^(2/3) - 3.15 / P^(1/2), pitch
diameter of the screw 90 P^0.4 d^0.1 with d the geometric mean of its range of diameters, minor diameter of the nut
433 P - 190 P^1.22 up to 0.8 mm and 230 P^0.7 above. Each is rounded to the nearest preferred number of series
R 40. The pitch tolerance of the nut, 1.32 times that of the screw, is printed five steps of that series above
it (1.334). A grade above or below is four steps up or down: the factors 0.5, 0.63, 0.8, 1, 1.25, 1.6 and 2 of
grades 3 to 9. Where the tables depart from this, the tables are kept: see ``DEPARTURES``.
"""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.circle_figures import square_root
from solver.quantities.lengths import Length
from solver.quantities.powers import power
from solver.refusals import ImpossibleSettingError
from solver.threads.limits import Band, Limits, ThreadClass, to_thousandths_mm
from solver.threads.metric_grades import DEVIATIONS, refuse_missing_grade
from solver.threads.thread import Thread

#: One decade of the series R 40 of preferred numbers as ISO 3 prints it, times 100.
R40 = (
    100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300,
    315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950,
)  # fmt: skip
#: Ranges of nominal diameter, each above the first figure and up to the second. [mm]
RANGES = (
    (Fraction(99, 100), Fraction(14, 10)),
    (Fraction(14, 10), Fraction(28, 10)),
    (Fraction(28, 10), Fraction(56, 10)),
    (Fraction(56, 10), Fraction(112, 10)),
    (Fraction(112, 10), Fraction(224, 10)),
    (Fraction(224, 10), Fraction(45)),
    (Fraction(45), Fraction(90)),
    (Fraction(90), Fraction(180)),
    (Fraction(180), Fraction(355)),
)
#: Pitches of the tables. [mm]
FINEST, COARSEST = Fraction(2, 10), Fraction(8)
#: Figures the tables print that the nearest preferred number does not give, by what and by pitch. [micrometres]
#: Deviation at 0.75 mm and pitch tolerance at 0.5 mm (2.8 to 5.6 mm) and 5 mm (45 to 90 mm): seen in a printed
#: table of limits. The others: from memory of the tables. "major 8" is of grade 8.
DEPARTURES = {
    ("g", Fraction(75, 100)): 22,
    ("g", Fraction(8)): 100,
    ("e", Fraction(1, 2)): 50,
    ("e", Fraction(6, 10)): 53,
    ("e", Fraction(75, 100)): 56,
    ("f", Fraction(45, 100)): 35,
    ("f", Fraction(6, 10)): 36,
    ("f", Fraction(8, 10)): 38,
    ("f", Fraction(5, 4)): 42,
    ("f", Fraction(3, 2)): 45,
    ("f", Fraction(7, 4)): 48,
    ("f", Fraction(2)): 52,
    ("f", Fraction(5, 2)): 58,
    ("f", Fraction(7, 2)): 70,
    ("pitch", Fraction(1, 2), Fraction(28, 10)): 75,
    ("pitch", Fraction(5), Fraction(45)): 250,
    ("pitch", Fraction(3), Fraction(180)): 250,
    ("pitch", Fraction(4), Fraction(180)): 280,
    ("major", Fraction(4)): 475,
    ("major 8", Fraction(8)): 1180,
    ("minor", Fraction(25, 100)): 71,
    ("minor", Fraction(1, 2)): 140,
    ("minor", Fraction(5, 2)): 450,
}
#: Steps of R 40 from the pitch tolerance of the screw to that of the nut.
NUT_STEPS = 5
#: Steps of R 40 from one grade to the next, and the grade of the formulas.
GRADE_STEPS, GRADE = 4, 6
#: Classes whose figures were seen in print, in part; of the others it is said that they rest on memory.
SEEN_CLASSES = ("6g", "6h", "6H", "6G")


def preferred_number(value: Fraction, steps: int = 0) -> Fraction:
    """Return the nearest number of series R 40, or one so many steps above or below it.

    Parameters
    ----------
    value : Fraction
        Between 1 and 9500.
    steps : int, optional
        How many steps above the nearest; below, with a minus.

    Raises
    ------
    ValueError
        The value is outside that range.

    Examples
    --------
    >>> preferred_number(Fraction(130)), preferred_number(Fraction(130), 5), preferred_number(Fraction(38, 10))
    (Fraction(132, 1), Fraction(180, 1), Fraction(15, 4))
    """
    series = [Fraction(number, 100) * decade for decade in (1, 10, 100, 1000) for number in R40]
    if not series[0] <= value <= series[-1]:
        message = f"preferred numbers are kept from 1 to 9500, not for {value}"
        raise ValueError(message)
    # A value half way goes up.
    nearest = min(range(len(series)), key=lambda at: (abs(series[at] - value), -at))
    return series[nearest + steps]


def metric_limits(thread: Thread, of_class: ThreadClass) -> Limits:
    """Work out the limits of an ISO metric thread.

    Parameters
    ----------
    thread : Thread
        Of the ISO metric form.
    of_class : ThreadClass
        A metric one, as ``6g``, ``4h6h`` or ``5H``.

    Returns
    -------
    Limits
        To 0.001 mm.

    Raises
    ------
    ImpossibleSettingError
        The standard's tables hold neither the diameter nor the pitch, or no such class at this pitch.
    ValueError
        The class is not a metric one.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> found = metric_limits(Thread(FORMS["iso"], Length.of_mm(10), Length.of_mm("1.5")), ThreadClass.METRIC_SCREW)
    >>> found.pitch.most, found.pitch.least
    (Length(mm=Fraction(4497, 500)), Length(mm=Fraction(4431, 500)))
    """
    if not of_class.is_metric:
        message = f"{of_class.value} is not a class of metric threads"
        raise ValueError(message)
    pitch, low = thread.pitch.mm, _range_of(thread)
    refuse_missing_grade(pitch, of_class)
    basic = thread.basic()
    on_pitch = _departed("pitch", pitch, low) or _pitch_tolerance(pitch, low)
    shift = _um(_deviation(pitch, of_class.value[-1]))
    of_pitch, of_crest = ((grade - GRADE) * GRADE_STEPS for grade in of_class.grades)
    notes = () if of_class.value in SEEN_CLASSES else ("figures of this class from memory",)
    if of_class.is_internal:
        major, mean, minor = (size + shift for size in basic.internal)
        on_minor = _departed("minor", pitch) or _minor_tolerance(pitch)
        nut = (
            Band(major, None),
            Band(mean, mean + _um(preferred_number(on_pitch, NUT_STEPS + of_pitch))),
            Band(minor, minor + _um(preferred_number(on_minor, of_crest))),
        )
        return Limits.rounded(of_class, nut, to_thousandths_mm, notes)
    on_major = _departed(f"major {of_class.grades[1]}", pitch) or preferred_number(
        _departed("major", pitch) or _major_tolerance(pitch), of_crest
    )
    # The root must clear the nut: no larger than its basic minor diameter less the deviation.
    major, mean, root = (size - shift for size in (basic.external.major, basic.external.pitch, basic.internal.minor))
    screw = (
        Band(major - _um(on_major), major),
        Band(mean - _um(preferred_number(on_pitch, of_pitch)), mean),
        Band(None, root),
    )
    return Limits.rounded(of_class, screw, to_thousandths_mm, notes)


def _um(micrometres: Fraction) -> Length:
    # Preferred numbers with a half are printed as whole micrometres: 31.5 and 33.5 as 32 and 34, 26.5 and 42.5 as
    # 26 and 42.
    return Length(Fraction(round(micrometres), 1000))


def _range_of(thread: Thread) -> Fraction:
    """Find the lower end of the range of diameters; refuse what the tables do not hold."""
    for low, high in RANGES:
        if low < thread.major.mm <= high and FINEST <= thread.pitch.mm <= COARSEST:
            return low
    raise ImpossibleSettingError(
        "ISO 965-1 gives tolerances for diameters above 0.99 mm to 355 mm with pitches of 0.2 mm to 8 mm; "
        "this thread is outside.",
        help_text="Work to the basic dimensions, or to the limits on the drawing.",
    )


def _departed(what: str, *place: Fraction) -> Fraction | None:
    found = DEPARTURES.get((what, *place))
    return None if found is None else Fraction(found)


def _deviation(pitch: Fraction, position: str) -> Fraction:
    if position not in DEVIATIONS:
        return Fraction(0)
    return _departed(position.lower(), pitch) or preferred_number(DEVIATIONS[position] + 11 * pitch)


def _pitch_tolerance(pitch: Fraction, low: Fraction) -> Fraction:
    high = dict(RANGES)[low]
    mean = square_root(low * high)
    return preferred_number(90 * power(pitch, Fraction(2, 5)) * power(mean, Fraction(1, 10)))


def _major_tolerance(pitch: Fraction) -> Fraction:
    return preferred_number(180 * power(pitch, Fraction(2, 3)) - Fraction(315, 100) / square_root(pitch))


def _minor_tolerance(pitch: Fraction) -> Fraction:
    if pitch <= Fraction(8, 10):
        return preferred_number(433 * pitch - 190 * power(pitch, Fraction(61, 50)))
    return preferred_number(230 * power(pitch, Fraction(7, 10)))
