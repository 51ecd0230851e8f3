"""Grades and positions of ISO 965-1: which the standard has, at which pitches, and the deviation of each position.

All from memory of its tables, but the deviation g and grade 6, parts of which were seen in print.
"""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.refusals import ImpossibleSettingError
from solver.threads.limits import ThreadClass

#: Grades of the pitch diameter and of the crest, of screws and of nuts, each with the finest pitch that has it. [mm]
SCREW_GRADES = (
    {3: "0.2", 4: "0.2", 5: "0.2", 6: "0.2", 7: "0.35", 8: "0.8", 9: "0.8"},
    {4: "0.2", 6: "0.2", 8: "0.8"},
)
NUT_GRADES = (
    {4: "0.2", 5: "0.25", 6: "0.3", 7: "0.5", 8: "0.8"},
    {4: "0.2", 5: "0.25", 6: "0.3", 7: "0.5", 8: "0.8"},
)
#: Finest pitch of the positions that not every pitch has. [mm]
POSITION_FROM = {"e": "0.5", "f": "0.35"}
#: Deviation of each position is this and 11 P, from the basic profile into the metal. [micrometres]
DEVIATIONS = {"e": 50, "f": 30, "g": 15, "G": 15}
#: Diameter up to which the medium classes are 6h and 5H in place of 6g and 6H, by the rule for a class left out. [mm]
SMALL_UP_TO = Fraction(14, 10)
_GRADE_OF_MEDIUM = 6


def refuse_missing_grade(pitch: Fraction, of_class: ThreadClass) -> None:
    """Refuse a class that the standard's tables do not have, or do not have at this pitch.

    Parameters
    ----------
    pitch : Fraction
        In millimetres.
    of_class : ThreadClass
        A metric class.

    Raises
    ------
    ImpossibleSettingError
        There is no such tolerance.

    Examples
    --------
    >>> refuse_missing_grade(Fraction(3, 2), ThreadClass("5h"))
    Traceback (most recent call last):
    ...
    solver.refusals.ImpossibleSettingError: ISO 965-1 has no grade 5 for the major diameter of a screw: only 4, 6, 8.
    Write another, as 5h6h: the grade of the pitch diameter stands first, that of the major diameter behind it where ...
    """
    tables = NUT_GRADES if of_class.is_internal else SCREW_GRADES
    piece, crest = ("nut", "minor") if of_class.is_internal else ("screw", "major")
    for grade, finest, diameter in zip(of_class.grades, tables, ("pitch", crest), strict=True):
        if grade not in finest:
            known = ", ".join(map(str, finest))
            example = f"{of_class.value[:2]}6{of_class.value[-1]}" if diameter == crest else f"6{of_class.value[-1]}"
            raise ImpossibleSettingError(
                f"ISO 965-1 has no grade {grade} for the {diameter} diameter of a {piece}: only {known}.",
                help_text=f"Write another, as {example}: the grade of the pitch diameter stands first, that of the "
                f"{crest} diameter behind it where it is another.",
            )
        _refuse_below(pitch, finest[grade], f"grade {grade} for the {diameter} diameter of a {piece}", "a finer grade")
    position = of_class.value[-1]
    _refuse_below(pitch, POSITION_FROM.get(position, "0"), f"position {position}", "another position")


def _refuse_below(pitch: Fraction, finest: str, what: str, instead: str) -> None:
    if pitch < Fraction(finest):
        raise ImpossibleSettingError(
            f"ISO 965-1 has no {what} below a pitch of {finest} mm; this one is {trimmed_decimal_text(pitch, 4)} mm.",
            help_text=f"Write {instead}, or leave the class out for the usual one.",
        )


def medium_classes(diameter: Fraction, pitch: Fraction) -> tuple[ThreadClass, ThreadClass]:
    """Return the classes of screw and nut that a metric thread has where none is written; from memory of the standard.

    A nut of so fine a pitch that the tables have no such grade takes the next finer one.

    Examples
    --------
    >>> [each.value for each in medium_classes(Fraction(10), Fraction(3, 2))]
    ['6g', '6H']
    >>> [each.value for each in medium_classes(Fraction(1), Fraction(1, 5))]
    ['6h', '4H']
    """
    is_small = diameter <= SMALL_UP_TO
    grade = _GRADE_OF_MEDIUM - 1 if is_small else _GRADE_OF_MEDIUM
    while pitch < Fraction(NUT_GRADES[0][grade]) and grade - 1 in NUT_GRADES[0]:
        grade -= 1
    screw = ThreadClass.METRIC_SCREW_NO_ALLOWANCE if is_small else ThreadClass.METRIC_SCREW
    return screw, ThreadClass(f"{grade}H")
