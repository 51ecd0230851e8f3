"""How much a lead error matters: beside the grades screws are made to, and beside the tolerance of the fit.

An error of ratio grows with length without end. A grade says how far a screw may be off within any stretch of one
length, usually 300 mm, and nothing of twice that length: figures for 300 mm are never added here.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.trains.fit_tolerance import FitTolerance
from solver.trains.lead_error import LeadError

#: A share of the tolerance up to which an error is lost among the others of the job. Practice, no source.
SMALL_SHARE = Fraction(1, 10)
#: A share of the tolerance up to which most of it is left for the errors of cutting. Practice, no source.
BEARABLE_SHARE = Fraction(1, 2)
#: A lead further off than this is another pitch, whatever it is held beside. Practice, no source.
ANOTHER_PITCH = Fraction(1, 100)


class Weight(Enum):
    """What an error amounts to; the value is how it is named."""

    NOTHING = "no error of ratio"
    NOTHING_LEFT = "no error is left"
    ANOTHER_PITCH = "another pitch"
    SMALL_SHARE = "small beside the tolerance"
    SOME_SHARE = "takes part of the tolerance"
    LARGE_SHARE = "takes most of the tolerance"
    OVER_TOLERANCE = "more than the tolerance"
    HIDDEN = "hides in the leadscrew's own error"
    GROWS_OUT = "grows with the length"
    MATTERS_WHEN_LONG = "matters on a long screw"
    STAYS = "stays in the screw that is cut"


class ScrewGrade(NamedTuple):
    """One figure of one grade: what a screw may be off within any stretch of a travel.

    Parameters
    ----------
    name : str
        As the trade says it: ``ordinary lathe leadscrew``.
    travel : Length
        The stretch.
    limit : Length
        What it may be off in it.
    confirmed : bool
        The figure was read in a source; otherwise it is from memory.
    """

    name: str
    travel: Length
    limit: Length
    confirmed: bool


class LeadJudgement(NamedTuple):
    """What an error amounts to, with the figures it rests on.

    Parameters
    ----------
    weight : Weight
        The judgement.
    engaged : Length
        Engaged length.
    over_engaged : Length
        Error over it, plus is a screw too long.
    leadscrew : ScrewGrade
        The grade of lathe leadscrew held beside it.
    over_travel : Length
        Error over the travel of that grade.
    ball_screw : ScrewGrade or None
        Finest grade of ball screw that would allow as much; ``None`` when none does.
    tolerance : FitTolerance or None
        Tolerance of the fit, where known.
    share : Fraction or None
        What the error takes of it at most, as a part of one.
    """

    weight: Weight
    engaged: Length
    over_engaged: Length
    leadscrew: ScrewGrade
    over_travel: Length
    ball_screw: ScrewGrade | None
    tolerance: FitTolerance | None
    share: Fraction | None


def is_within(error: LeadError, grade: ScrewGrade) -> bool:
    """Say whether a lead error stays within a grade over the stretch the grade speaks of; a bound counts against it.

    Examples
    --------
    >>> grade = ScrewGrade("ordinary lathe leadscrew", Length.of_mm(300), Length.of_mm("0.04"), confirmed=False)
    >>> is_within(LeadError(Fraction(125, 10**6), Fraction(0)), grade)
    True
    >>> is_within(LeadError(Fraction(134, 10**6), Fraction(0)), grade)
    False
    """
    return grade.travel.mm * (abs(error.relative) + error.bound) <= grade.limit.mm


def judge_lead(
    error: LeadError,
    engaged: Length,
    leadscrew: ScrewGrade,
    ball_screws: Sequence[ScrewGrade],
    tolerance: FitTolerance | None = None,
    *,
    is_measured: bool = False,
) -> LeadJudgement:
    """Judge a lead error over an engaged length.

    Parameters
    ----------
    error : LeadError
        Of the lead.
    engaged : Length
        Engaged length, above zero.
    leadscrew : ScrewGrade
        Grade of lathe leadscrew to hold it beside.
    ball_screws : sequence of ScrewGrade
        Grades of ball screws, finest first.
    tolerance : FitTolerance, optional
        Tolerance of pitch diameter of a 60 degree thread; where it is known it decides.
    is_measured : bool, optional
        The leadscrew was measured and its own error is in ``error``: there is none left for it to hide in.

    Returns
    -------
    LeadJudgement
        Exact but for a bounded error; then the share is an upper bound.

    Examples
    --------
    >>> grade = ScrewGrade("ordinary lathe leadscrew", Length.of_mm(300), Length.of_mm("0.04"), confirmed=False)
    >>> error = LeadError(Fraction(1, 8000), Fraction(0))
    >>> judge_lead(error, Length.of_mm(15), grade, ()).weight
    <Weight.HIDDEN: "hides in the leadscrew's own error">
    >>> of_fit = FitTolerance.given(Length.of_mm("0.132"), "given")
    >>> round(judge_lead(error, Length.of_mm(15), grade, (), of_fit).share, 4)
    Fraction(123, 5000)
    """
    most = LeadError(abs(error.relative) + error.bound, Fraction(0))
    share = most.as_pitch_diameter(engaged) / tolerance.width if tolerance else None
    if error.is_exact:
        weight = Weight.NOTHING_LEFT if is_measured else Weight.NOTHING
    elif most.relative > ANOTHER_PITCH:
        weight = Weight.ANOTHER_PITCH
    elif share is not None:
        weight = _weight_of_share(share)
    elif is_measured:
        weight = Weight.STAYS
    elif not is_within(error, leadscrew):
        weight = Weight.MATTERS_WHEN_LONG
    else:
        # Beyond the stretch of the grade nothing is known of the leadscrew to hide in.
        weight = Weight.HIDDEN if engaged <= leadscrew.travel else Weight.GROWS_OUT
    return LeadJudgement(
        weight=weight,
        engaged=engaged,
        over_engaged=error.over(engaged),
        leadscrew=leadscrew,
        over_travel=error.over(leadscrew.travel),
        ball_screw=next((grade for grade in ball_screws if is_within(error, grade)), None),
        tolerance=tolerance,
        share=share,
    )


def _weight_of_share(share: Fraction) -> Weight:
    if share <= SMALL_SHARE:
        return Weight.SMALL_SHARE
    if share <= BEARABLE_SHARE:
        return Weight.SOME_SHARE
    return Weight.LARGE_SHARE if share <= 1 else Weight.OVER_TOLERANCE
