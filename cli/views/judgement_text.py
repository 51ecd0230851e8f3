"""One plain sentence on how much a lead error matters, and its facts for JSON."""

from __future__ import annotations

from typing import Any

from cli.views.shop_figures import accumulated_text, small_in_both_units
from gearsets.grade_tables import grade_figures, screw_grades
from solver.quantities.exact_numbers import significant_text, trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.trains.fit_tolerance import FitTolerance
from solver.trains.lead_error import LeadError
from solver.trains.lead_judgement import LeadJudgement, ScrewGrade, Weight, is_within, judge_lead


def judgement_of(
    error: LeadError, engaged: Length, tolerance: FitTolerance | None = None, *, is_measured: bool = False
) -> LeadJudgement:
    """Judge an error beside an ordinary lathe leadscrew, or as measured, and the grades of ball screws."""
    ordinary = screw_grades("lathe_leadscrews")[-1]
    return judge_lead(error, engaged, ordinary, screw_grades("ball_screws"), tolerance, is_measured=is_measured)


def judgement_text(judged: LeadJudgement, error: LeadError) -> str:
    """Say in one sentence what an error amounts to, and why.

    Examples
    --------
    >>> from fractions import Fraction
    >>> error = LeadError(Fraction(1, 8000), Fraction(0))
    >>> tolerance = FitTolerance.given(Length.of_mm("0.132"), "as given")
    >>> judgement_text(judgement_of(error, Length.of_mm(15), tolerance), error)
    'small beside the tolerance: takes 2.46 % of the 132 µm of pitch diameter (as given)'
    """
    if judged.weight is Weight.NOTHING:
        return "the wheels add no error; what is left is the leadscrew's own"
    if judged.weight is Weight.NOTHING_LEFT:
        return f"{judged.weight.value}, the leadscrew's own as measured reckoned in"
    grade = judged.leadscrew
    over = accumulated_text(error, grade.travel)
    if judged.weight is Weight.ANOTHER_PITCH:
        return f"{judged.weight.value}, and no use for this one: {over}"
    if judged.share is not None and judged.tolerance is not None:
        share = significant_text(judged.share * 100, 3)
        of_all = _um(judged.tolerance.width)
        return f"{judged.weight.value}: takes {share} % of the {of_all} of pitch diameter ({judged.tolerance.source})"
    doubt = "" if grade.confirmed else " (figure from memory)"
    limit = f"the {_um(grade.limit)} an {grade.name} may be off{doubt}"
    engaged = f"{small_in_both_units(judged.over_engaged)} in {_mm(judged.engaged)} mm"
    match judged.weight:
        case Weight.HIDDEN:
            return f"{judged.weight.value}: {over} is within {limit}"
        case Weight.STAYS:
            return f"{judged.weight.value}: {over}, the leadscrew's own as measured reckoned in; it is {engaged}"
        case Weight.GROWS_OUT:
            return (
                f"{judged.weight.value}: {over} is within {limit}, but it comes to {engaged}, "
                "and the leadscrew's figure is not to be multiplied for more length"
            )
        case _:
            return f"{judged.weight.value}: {over} is beyond {limit}; it is {engaged}"


def _um(length: Length) -> str:
    return f"{trimmed_decimal_text(length.mm * 1000, 1)} µm"


def _mm(length: Length) -> str:
    return trimmed_decimal_text(length.mm, 2)


def judgement_json(judged: LeadJudgement, error: LeadError) -> dict[str, Any]:
    """Describe a judgement."""
    tolerance = judged.tolerance
    return {
        "weight": judged.weight.value,
        "reason": judgement_text(judged, error),
        "engaged_mm": f"{judged.engaged.mm}",
        "leadscrew": _grade(judged.leadscrew, error),
        "ball_screws": [_grade(grade, error) for grade in screw_grades("ball_screws")],
        "finest_ball_screw": judged.ball_screw.name if judged.ball_screw else None,
        "longer_travel": [
            {
                "grade": row.grade,
                "figure": row.figure,
                "limit_um": f"{row.limit.mm * 1000}",
                "in_mm": f"{row.travel.mm}",
                "confirmed": row.status == "read",
            }
            for row in grade_figures("ball_screws")
            if row.figure != "any"
        ],
        "tolerance": {
            "pitch_diameter_um": significant_text(tolerance.width.mm * 1000, 6),
            "source": tolerance.source,
            "share_percent": significant_text(judged.share * 100, 6),
        }
        if tolerance and judged.share is not None
        else None,
    }


def _grade(grade: ScrewGrade, error: LeadError) -> dict[str, Any]:
    return {
        "grade": grade.name,
        "limit_um": f"{grade.limit.mm * 1000}",
        "in_mm": f"{grade.travel.mm}",
        "confirmed": grade.confirmed,
        "within": is_within(error, grade),
    }
