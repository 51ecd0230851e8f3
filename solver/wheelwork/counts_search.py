"""Tooth counts for a wanted turning: the best of each number of pairs, what was proven, what stood in the way."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.continued_fractions import convergents
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.refusals import ImpossibleSettingError
from solver.trains.wheels import Train
from solver.wheelwork.arbors import Sense, best_order, idlers_for, in_order, sense_of
from solver.wheelwork.drift import Drift, WantedTurning
from solver.wheelwork.nearest_ratios import nearest_counts
from solver.wheelwork.one_distance import MOST_HALVES, halves_to_try, nearest_on_one_distance
from solver.wheelwork.wheel_limits import AllowedCounts

#: Most pairs of a train.
MOST_PAIRS = 4
#: Convergents are told up to this size. [teeth]
LARGEST_CONVERGENT = 1_000_000


@dataclass(frozen=True, slots=True)
class CountsQuestion:
    """What is asked.

    Parameters
    ----------
    wanted : WantedTurning
        Ratio and periods.
    allowed : AllowedCounts
        Counts that may be used.
    most_pairs : int
        Trains of one to so many pairs.
    most : int
        Trains of each number of pairs.
    sense : Sense or None
        Which way the last arbor should turn; ``None`` when it may turn either way.
    on_one_distance : bool
        All pairs on one centre distance.
    """

    wanted: WantedTurning
    allowed: AllowedCounts
    most_pairs: int = 3
    most: int = 3
    sense: Sense | None = None
    on_one_distance: bool = False


class CountsAnswer(NamedTuple):
    """One train: the wheels in order, idlers for the sense, and how it departs."""

    train: Train
    idlers: int
    drift: Drift

    @property
    def sense(self) -> Sense:
        """Which way the last arbor turns.

        Examples
        --------
        >>> from solver.trains.wheels import Pair
        >>> drift = Drift(WantedTurning(Fraction(1, 3)), Fraction(1, 3), 60)
        >>> CountsAnswer(Train((Pair(20, 60),)), 0, drift).sense
        <Sense.OPPOSITE: 'opposite'>
        """
        return sense_of(len(self.train.pairs), self.idlers)

    @property
    def is_exact(self) -> bool:
        """True only for an error of zero.

        Examples
        --------
        >>> from solver.trains.wheels import Pair
        >>> drift = Drift(WantedTurning(Fraction(1, 3)), Fraction(1, 3), 60)
        >>> CountsAnswer(Train((Pair(20, 60),)), 0, drift).is_exact
        True
        """
        return self.drift.error == 0


class PairsReport(NamedTuple):
    """The best trains of one number of pairs.

    Parameters
    ----------
    pairs : int
        How many.
    answers : tuple of CountsAnswer
        By rising error; of one ratio the fewest teeth first.
    beyond : Fraction or None
        ``None`` when they are proven the nearest. Else the error, as a part of the ratio, within which nothing but
        what is listed exists; 0 when nothing was looked at.
    obstacle : str
        Why there are none.
    """

    pairs: int
    answers: tuple[CountsAnswer, ...]
    beyond: Fraction | None = None
    obstacle: str = ""


class CountsReport(NamedTuple):
    """All numbers of pairs, fewest first."""

    question: CountsQuestion
    by_pairs: tuple[PairsReport, ...]

    @property
    def best(self) -> CountsAnswer | None:
        """The train of least error; of equal ones the one of fewest pairs, then of fewest idlers.

        Examples
        --------
        >>> CountsReport(CountsQuestion(WantedTurning(Fraction(1, 3)), AllowedCounts((20, 60), ())), ()).best is None
        True
        """
        firsts = [report.answers[0] for report in self.by_pairs if report.answers]
        return min(firsts, key=lambda each: (abs(each.drift.error), len(each.train.pairs)), default=None)

    def within(self, error: Fraction) -> CountsAnswer | None:
        """Pick the nearest train of the fewest pairs that is within an error; ``None`` where none is.

        Examples
        --------
        >>> question = CountsQuestion(WantedTurning(Fraction(1, 3)), AllowedCounts((20, 60), ()))
        >>> CountsReport(question, ()).within(Fraction(1, 1000)) is None
        True
        """
        firsts = [report.answers[0] for report in self.by_pairs if report.answers]
        return next((answer for answer in firsts if abs(answer.drift.error) <= error), None)

    @property
    def is_proven(self) -> bool:
        """True when every number of pairs was gone through to the end.

        Examples
        --------
        >>> CountsReport(CountsQuestion(WantedTurning(Fraction(1, 3)), AllowedCounts((20, 60), ())), ()).is_proven
        True
        """
        return all(report.beyond is None for report in self.by_pairs)


def search_counts(question: CountsQuestion) -> CountsReport:
    """Find the nearest trains of each number of pairs.

    Parameters
    ----------
    question : CountsQuestion
        Wanted turning, counts and bounds.

    Returns
    -------
    CountsReport
        One report for each number of pairs, those out of reach with their obstacle.

    Raises
    ------
    ImpossibleSettingError
        The ratio is out of reach of every number of pairs asked for.

    Examples
    --------
    >>> wanted = WantedTurning(Fraction(10, 127))
    >>> report = search_counts(CountsQuestion(wanted, AllowedCounts(tuple(range(12, 128)), ()), most_pairs=2))
    >>> [str(each.answers[0].train) if each.answers else each.obstacle for each in report.by_pairs]
    ['one pair of 12 and 127 teeth reaches 1 to 10.58 at most', '12-18-15-127']
    """
    reports = tuple(_of_pairs(question, pairs) for pairs in range(1, question.most_pairs + 1))
    if not any(report.answers for report in reports):
        raise _out_of_reach(question, reports)
    return CountsReport(question, reports)


def _of_pairs(question: CountsQuestion, pairs: int) -> PairsReport:
    counts, ratio = question.allowed.counts, question.wanted.ratio
    reach = _reach(counts, pairs)
    if max(ratio, 1 / ratio) > reach:
        many = "one pair" if pairs == 1 else f"{pairs} pairs"
        ends = f"1 to {_short(reach)}" if ratio < 1 else f"{_short(reach)} to 1"
        obstacle = f"{many} of {counts[0]} and {counts[-1]} teeth reaches {ends} at most"
        return PairsReport(pairs, (), obstacle=obstacle if pairs == 1 else obstacle.replace("reaches", "reach"))
    idlers = idlers_for(pairs, question.sense)
    if question.on_one_distance:
        if idlers:
            meshes = "one mesh turns" if pairs == 1 else f"{pairs} meshes turn"
            return PairsReport(
                pairs, (), obstacle=f"{meshes} it the wrong way, and on one centre distance no idler goes in"
            )
        if halves_to_try(counts, pairs) > MOST_HALVES:
            obstacle = f"{len(counts)} counts make too many on one centre distance to look through"
            return PairsReport(pairs, (), Fraction(0), obstacle)
        found = nearest_on_one_distance(counts, ratio, pairs, question.most)
        return PairsReport(pairs, _answers(question, (in_order(each.pairs) for each in found), idlers))
    nearest = nearest_counts(counts, ratio, pairs, question.most)
    return PairsReport(pairs, _answers(question, (best_order(each) for each in nearest.found), idlers), nearest.beyond)


def _answers(question: CountsQuestion, trains: Iterable[Train], idlers: int) -> tuple[CountsAnswer, ...]:
    return tuple(
        CountsAnswer(train, idlers, Drift(question.wanted, train.ratio, train.pairs[-1].driven)) for train in trains
    )


def _short(number: Fraction) -> str:
    return trimmed_decimal_text(number, 2)


def _out_of_reach(question: CountsQuestion, reports: tuple[PairsReport, ...]) -> ImpossibleSettingError:
    counts, ratio = question.allowed.counts, question.wanted.ratio
    steepest = max(ratio, 1 / ratio)
    needed = next((pairs for pairs in range(1, MOST_PAIRS + 1) if steepest <= _reach(counts, pairs)), None)
    if needed is None:
        help_text = "Allow smaller or larger wheels, or make it of two trains one after the other."
    elif needed > question.most_pairs:
        help_text = f"Ask for --pairs {needed}, or allow smaller and larger wheels."
    else:
        # What the wheels reach is kept out only where all pairs are to stand on one centre distance.
        help_text = "Leave out --in-line or --sense, allow fewer counts, or ask for another number of --pairs."
    return ImpossibleSettingError("\n".join(f"No train: {each.obstacle}." for each in reports), help_text=help_text)


def _reach(counts: tuple[int, ...], pairs: int) -> Fraction:
    """Return the steepest ratio of so many pairs; no wheels turn more slowly than one to that."""
    return Fraction(counts[-1], counts[0]) ** pairs


class Convergent(NamedTuple):
    """A convergent of the ratio with its error, and whether it can be cut as one pair."""

    ratio: Fraction
    error: Fraction
    is_one_pair: bool


def known_convergents(question: CountsQuestion) -> tuple[Convergent, ...]:
    """List the convergents of the wanted ratio for orientation.

    Examples
    --------
    >>> wanted = WantedTurning(Fraction("365.2422") / Fraction("29.530589"))
    >>> found = known_convergents(CountsQuestion(wanted, AllowedCounts(tuple(range(12, 241)), ())))
    >>> [str(each.ratio) for each in found][:6], [str(each.ratio) for each in found if each.is_one_pair]
    (['12', '25/2', '37/3', '99/8', '136/11', '235/19'], ['12', '25/2', '37/3', '99/8', '235/19'])
    """
    counts = question.allowed.counts
    held = set(counts)
    wanted = question.wanted.ratio
    rows = []
    for ratio in convergents(wanted, largest=LARGEST_CONVERGENT):
        most = counts[-1] // max(ratio.numerator, ratio.denominator)
        one_pair = any({times * ratio.numerator, times * ratio.denominator} <= held for times in range(1, most + 1))
        rows.append(Convergent(ratio, ratio / wanted - 1, one_pair))
    return tuple(rows)
