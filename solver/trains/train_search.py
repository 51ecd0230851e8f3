"""The search for trains: complete over the box, and what it calls best is proven best."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, PiLength
from solver.refusals import ImpossibleSettingError
from solver.trains.half_nut import HalfNutRule, half_nut_rule
from solver.trains.hand import Hand, HandPlan, plan_hand
from solver.trains.lathe import Lathe
from solver.trains.lead_error import LeadError, lead_error
from solver.trains.matches import Halves, Match
from solver.trains.mounting import (
    Mounting,
    ShaftRule,
    Verdict,
    has_studs_for,
    judge,
    keeps_to_pair_places,
    placings,
)
from solver.trains.sides import Wheel
from solver.trains.train_order import OrderKey, preference
from solver.trains.wheels import Train

#: Beyond the tolerance and beyond this, as a part of the lead, no nearest train is looked for once one is known.
FARTHEST_NEAREST = Fraction(1, 10)
#: Placings tried for one number of pairs; a box so rich that none of so many goes on is given up.
MOST_TRIED = 100_000
#: Placings tried beyond the tolerance, where only a nearest train is looked for.
MOST_TRIED_BEYOND = 5_000
#: How many matches of one error are picked out before all of them are sorted.
FIRST_FEW = 64
#: Steepness is compared in whole millionths: no two steps of wheels below 400 teeth differ by less.
_STEEPNESS_SCALE = 1_000_000


class TrainAnswer(NamedTuple):
    """One train to mount, with all that is said of it."""

    train: Train
    lever: str | None
    ratio: Fraction
    cut_lead: Length
    error: LeadError
    mounting: Mounting
    hand: HandPlan
    half_nut: HalfNutRule

    @property
    def fits(self) -> bool:
        """True unless something is known to stand in the way.

        Examples
        --------
        >>> from solver.trains.wheels import WheelClass
        >>> from solver.trains.written_trains import read_train
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 1), (21, 1), (40, 1), (80, 1))),)
        >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
        >>> answer_for(read_train("20-40-21-80"), lathe, None, Length.of_mm(1)).fits
        True
        >>> answer_for(read_train("20-21-40-80"), lathe, None, Length.of_mm(1)).fits
        False
        """
        return self.mounting.verdict is not Verdict.DOES_NOT_FIT


class TrainQuestion(NamedTuple):
    """What is asked of the search.

    Parameters
    ----------
    lead : Length or PiLength
        Wanted lead.
    hand : Hand, optional
        Hand of the thread.
    most_pairs : int, optional
        Pairs to search up to, 1 to 4.
    within : Fraction, optional
        Largest error of an answer, as a part of the lead.
    wanted : int, optional
        How many answers of each number of pairs.
    """

    lead: Lead
    hand: Hand = Hand.RIGHT
    most_pairs: int = 3
    within: Fraction = Fraction(1, 1000)
    wanted: int = 3


class TrainReport(NamedTuple):
    """The outcome: best of each number of pairs first, then alternatives.

    Parameters
    ----------
    answers : tuple of TrainAnswer
        Within the tolerance and not known to fail at the banjo.
    set_aside : tuple of TrainAnswer
        Nearer than any answer of as many pairs, but known not to fit.
    nearest : TrainAnswer or None
        Without an answer: the nearest found that is not known to fail, else the nearest of those set aside.
    cut_short : tuple of int
        Numbers of pairs for which trains of one error, or placings, were too many to try them all: no nearer
        ratio was missed, but a milder train, or one that goes on, may have been.
    """

    question: TrainQuestion
    answers: tuple[TrainAnswer, ...]
    set_aside: tuple[TrainAnswer, ...]
    nearest: TrainAnswer | None
    cut_short: tuple[int, ...] = ()


def search_trains(question: TrainQuestion, lathe: Lathe) -> TrainReport:
    """Find the trains that cut a lead.

    Parameters
    ----------
    question : TrainQuestion
        Lead, hand, tolerance and how many pairs.
    lathe : Lathe
        With its real box of wheels.

    Returns
    -------
    TrainReport
        Complete within its tolerance for each number of pairs.

    Raises
    ------
    ImpossibleSettingError
        The box cannot make a single pair.

    Examples
    --------
    >>> from solver.trains.wheels import WheelClass
    >>> stock = tuple((teeth, 1) for teeth in (20, 30, 40, 50, 127))
    >>> box = (WheelClass("module 1", Length.of_mm(1), stock),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> report = search_trains(TrainQuestion(Length.of_mm("1.25")), lathe)
    >>> str(report.answers[0].train), report.answers[0].error.is_exact
    ('50-127', True)
    """
    if sum(count for each in lathe.wheel_classes for _, count in each.stock) < 2:
        raise ImpossibleSettingError(
            "a train needs at least two wheels; the box holds fewer",
            help_text="Add wheels to [wheels] teeth in the lathe file.",
        )
    by_pairs = [_of_pairs(question, lathe, pairs) for pairs in range(1, question.most_pairs + 1)]
    firsts = [answers[0] for answers, _, _ in by_pairs if answers]
    others = [answer for answers, _, _ in by_pairs for answer in answers[1:]]
    answers = (*sorted(firsts, key=_rank), *sorted(others, key=_rank))
    within = tuple(answer for answer in answers if abs(answer.error.relative) <= question.within)
    set_aside = tuple(answer for _, aside, _ in by_pairs for answer in aside)
    cut_short = tuple(pairs for pairs, (_, _, is_whole) in enumerate(by_pairs, start=1) if not is_whole)
    nearest = min((*answers, *set_aside), key=_rank, default=None)
    return TrainReport(question, within, set_aside, None if within else nearest, cut_short)


def _rank(answer: TrainAnswer) -> tuple[bool, Fraction, int, OrderKey, str]:
    key = preference(answer.train)
    return not answer.fits, abs(answer.error.relative), len(answer.train.pairs), key, answer.lever or ""


def _of_pairs(
    question: TrainQuestion, lathe: Lathe, pairs: int
) -> tuple[tuple[TrainAnswer, ...], tuple[TrainAnswer, ...], bool]:
    """Answer for one number of pairs: those that fit by rising error, the nearer ones set aside, and if all was tried.

    Within the tolerance matches are judged until enough go on, or so many placings that the search gives up.
    Beyond it fewer are tried, enough to name a nearest.
    """
    fitting: list[TrainAnswer] = []
    aside: list[TrainAnswer] = []
    is_whole = True
    for band in Halves(lathe, pairs).bands(question.lead, question.within):
        beyond = band.within > max(question.within, FARTHEST_NEAREST)
        if aside and (beyond or not has_studs_for(pairs, lathe)):
            break
        fitting, aside, all_tried = _choose(band.matches, question, lathe)
        is_whole = band.is_complete and all_tried
        if len(fitting) >= question.wanted or (fitting and band.within >= question.within):
            break
    return tuple(fitting), tuple(aside), is_whole


def _choose(
    matches: Sequence[Match], question: TrainQuestion, lathe: Lathe
) -> tuple[list[TrainAnswer], list[TrainAnswer], bool]:
    """Walk the matches by rising error; keep those that fit, and the first few nearer ones that do not.

    The last of the three is false when placings within the tolerance were left untried though more were wanted.
    """
    fitting: list[TrainAnswer] = []
    aside: list[TrainAnswer] = []
    rule = ShaftRule(lathe)
    tried = 0
    for size, group in groupby(matches, key=lambda match: abs(match.error)):
        for match in _mildest_first(list(group)):
            most = MOST_TRIED if size <= question.within else MOST_TRIED_BEYOND
            if len(fitting) >= question.wanted:
                return fitting, aside, True
            if tried > most:
                return fitting, aside, size > question.within
            if aside and len(aside) >= question.wanted and not has_studs_for(len(match.drivers), lathe):
                return fitting, aside, True
            trains = [train for train in placings(match.drivers, match.driven) if keeps_to_pair_places(train, lathe)]
            tried += len(trains)
            # Placings that foul a shaft are only looked at one by one when nothing better is there to show.
            clear = [train for train in trains if rule.is_kept(train)]
            if not clear and (not trains or fitting or len(aside) >= question.wanted):
                continue
            best_first = sorted(clear, key=preference) if clear else [min(trains, key=preference)]
            answer = _best_placing(best_first, match.lever, question, lathe)
            if answer.fits:
                fitting.append(answer)
            elif not fitting and len(aside) < question.wanted:
                aside.append(answer)
    return fitting, aside, True


def _mildest_first(matches: list[Match]) -> Iterator[Match]:
    """Yield the mildest few before sorting the rest: a rich box makes a hundred thousand exact matches."""
    few = heapq.nsmallest(FIRST_FEW, matches, key=_mildness)
    yield from few
    if len(matches) > len(few):
        yield from sorted(matches, key=_mildness)[len(few) :]


def _mildness(match: Match) -> tuple[int, int, tuple[Wheel, ...], tuple[Wheel, ...], str]:
    """Order matches as ``preference`` orders their mildest placing, in whole numbers for speed.

    Pairing the sorted drivers with the sorted driven wheels of each class gives the mildest steepest step.
    """
    steepest = smallest = 0
    for (_, driver), (_, driven) in zip(match.drivers, match.driven, strict=True):
        large, small = (driver, driven) if driver > driven else (driven, driver)
        steepest = max(steepest, _STEEPNESS_SCALE * large // small)
        smallest = min(smallest or small, small)
    return steepest, -smallest, match.drivers, match.driven, match.lever or ""


def _best_placing(trains: Sequence[Train], lever: str | None, question: TrainQuestion, lathe: Lathe) -> TrainAnswer:
    """Take the first placing that fits, else the first that cannot be faulted, else the first of all."""
    verdicts = list(Verdict)
    chosen, lowest = trains[0], len(verdicts)
    for train in trains:
        _, mounting = _plan_and_judge(train, lathe, question.hand)
        rank = verdicts.index(mounting.verdict)
        if rank < lowest:
            chosen, lowest = train, rank
        if rank == 0:
            break
    return answer_for(chosen, lathe, lever, question.lead, question.hand)


def _plan_and_judge(train: Train, lathe: Lathe, hand: Hand) -> tuple[HandPlan, Mounting]:
    plan = plan_hand(train, lathe, hand)
    mounting = judge(train, lathe, plan.idlers)
    if plan.obstacle:
        mounting = Mounting(Verdict.DOES_NOT_FIT, (*mounting.reasons, plan.obstacle), mounting.not_checked)
    return plan, mounting


def answer_for(train: Train, lathe: Lathe, lever: str | None, lead: Lead, hand: Hand = Hand.RIGHT) -> TrainAnswer:
    """Say everything of one given train: ratio, lead cut, error, mounting, hand and half-nut.

    Parameters
    ----------
    train : Train
        One placing.
    lathe : Lathe
        The lathe it goes on.
    lever : str or None
        Gearbox position, ``None`` without a box.
    lead : Length or PiLength
        Wanted lead.
    hand : Hand, optional
        Wanted hand.

    Returns
    -------
    TrainAnswer
        Exact but for the error to a pi lead, which is bounded.

    Examples
    --------
    >>> from solver.trains.wheels import Pair, WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (127, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> answer_for(Train((Pair(40, 127),)), lathe, None, Length.of_mm(1)).cut_lead
    Length(mm=Fraction(1, 1))
    """
    ratio = train.ratio * dict(lathe.lever_ratios)[lever]
    cut = lathe.lead_at_equal_wheels * ratio
    plan, mounting = _plan_and_judge(train, lathe, hand)
    return TrainAnswer(train, lever, ratio, cut, lead_error(cut, lead), mounting, plan, half_nut_rule(cut, lathe))


def is_pi_lead(lead: Lead) -> bool:
    """Say whether a lead is a multiple of pi, so that no train is ever exact.

    Examples
    --------
    >>> is_pi_lead(PiLength(Fraction(1))), is_pi_lead(Length.of_mm(1))
    (True, False)
    """
    return isinstance(lead, PiLength)
