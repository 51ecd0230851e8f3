"""The search for trains: complete over the box, and what it calls best is proven best."""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import groupby
from typing import NamedTuple

from solver.quantities.pi_multiples import Lead
from solver.refusals import ImpossibleSettingError
from solver.trains.chain import Idler
from solver.trains.changes import changes, handled
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.matches import Halves, Match
from solver.trains.mounting import Mounter, keeps_to_pair_places, placings
from solver.trains.sides import Wheel
from solver.trains.train_answer import TrainAnswer, answer_for, is_pi_lead
from solver.trains.train_order import OrderKey, preference, steepness
from solver.trains.wheels import Train

#: Beyond the tolerance and beyond this, as a part of the lead, no nearest train is looked for once one is known.
FARTHEST_NEAREST = Fraction(1, 10)
#: Placings tried for one number of pairs; a box so rich that none of so many goes on is given up.
MOST_TRIED = 100_000
#: Placings tried beyond the tolerance, where only a nearest train is looked for.
MOST_TRIED_BEYOND = 5_000
#: How many matches of one error are picked out before all of them are sorted.
FIRST_FEW = 64
#: How many more of one error are tried for a milder one, once as many as are wanted go on.
MOST_MORE = 64
#: Steepness is compared in whole millionths: no two steps of wheels below 400 teeth differ by less.
_STEEPNESS_SCALE = 1_000_000


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
    mounted : Train or None, optional
        What is on the banjo now: among trains of one error the one with fewest changes comes first.
    """

    lead: Lead
    hand: Hand = Hand.RIGHT
    most_pairs: int = 3
    within: Fraction = Fraction(1, 1000)
    wanted: int = 3
    mounted: Train | None = None


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
    least_changed : TrainAnswer or None
        With a train mounted already: of all within the tolerance that go on, the one with fewest changes.
    """

    question: TrainQuestion
    answers: tuple[TrainAnswer, ...]
    set_aside: tuple[TrainAnswer, ...]
    nearest: TrainAnswer | None
    cut_short: tuple[int, ...] = ()
    least_changed: TrainAnswer | None = None


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
    >>> from solver.quantities.lengths import Length
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
    by_pairs = [_PairSearch(question, lathe, pairs).answers() for pairs in range(1, question.most_pairs + 1)]
    in_order = partial(_rank, mounted=question.mounted)
    # Wheels are tried by their mildest placing; where that does not go on, a later choice may be the milder one.
    fitting = [sorted(found.fitting, key=in_order) for found in by_pairs if found.fitting]
    others = sorted((answer for each in fitting for answer in each[1:]), key=in_order)
    answers = (*sorted((each[0] for each in fitting), key=in_order), *others)
    within = tuple(answer for answer in answers if abs(answer.error.relative) <= question.within)
    set_aside = tuple(answer for found in by_pairs for answer in found.aside)
    cut_short = tuple(pairs for pairs, found in enumerate(by_pairs, start=1) if not found.is_whole)
    nearest = min((*answers, *set_aside), key=in_order, default=None)
    kept = least_changed(question, lathe) if within and question.mounted else None
    return TrainReport(question, within, set_aside, None if within else nearest, cut_short, kept)


def _rank(answer: TrainAnswer, mounted: Train | None) -> tuple[bool, Fraction, int, int, OrderKey, str]:
    size, wheels = abs(answer.error.relative), len(answer.idlers)
    return not answer.fits, size, len(answer.train.pairs), wheels, preference(answer.train, mounted), answer.lever or ""


def least_changed(question: TrainQuestion, lathe: Lathe) -> TrainAnswer | None:
    """Find the train within the tolerance that goes on with fewest wheels taken off and put on.

    Parameters
    ----------
    question : TrainQuestion
        With what is mounted now.
    lathe : Lathe
        The lathe.

    Returns
    -------
    TrainAnswer or None
        Among equals the one of least error; ``None`` when no train within the tolerance goes on.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import Pair, WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), tuple((teeth, 1) for teeth in (20, 30, 40, 60, 80))),)
    >>> lathe = Lathe("metric", "3 mm", Length.of_mm(3), Fraction(1), True, box)
    >>> question = TrainQuestion(Length.of_mm("1.5"), mounted=Train((Pair(40, 60),)))
    >>> str(least_changed(question, lathe).train)
    '30-60'
    """
    mounted = question.mounted or Train(())
    mounter = Mounter(lathe, question.hand)
    fewest: tuple[int, Fraction] | None = None
    best: TrainAnswer | None = None
    for pairs in range(1, question.most_pairs + 1):
        bands = Halves(lathe, pairs).bands(question.lead, question.within)
        matches = next((band.matches for band in bands if band.within >= question.within), [])
        for new, match in sorted(((_wheels_new(match, mounted), match) for match in matches), key=_new_then_error):
            if fewest is not None and (new, abs(match.error)) > fewest:
                break
            for train in sorted(_placed(match, lathe), key=partial(preference, mounted=mounted)):
                count = handled(changes(mounted, train)), abs(match.error)
                if fewest is not None and count >= fewest:
                    break
                if mounter.first_that_fits([train]):
                    fewest = count
                    best = answer_for(train, lathe, match.lever, question.lead, question.hand, mounter=mounter)
                    break
    return best


def nominally_exact(question: TrainQuestion, lathe: Lathe) -> TrainAnswer | None:
    """Find the train that would be exact if the measured leadscrew were true, of fewest pairs.

    Parameters
    ----------
    question : TrainQuestion
        Lead, hand and how many pairs; its tolerance plays no part.
    lathe : Lathe
        With a measured leadscrew.

    Returns
    -------
    TrainAnswer or None
        One that goes on, with its error by the screw as measured; ``None`` when there is none, for a lead with pi in
        it, or when the screw is not measured.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((30, 1), (40, 1), (60, 1))),)
    >>> worn = Lathe("metric", "3 mm", Length.of_mm(3), Fraction(1), True, box, measured=Fraction(1, 10_000))
    >>> found = nominally_exact(TrainQuestion(Length.of_mm("1.5")), worn)
    >>> str(found.train), found.error.ppm
    ('30-60', Fraction(100, 1))
    """
    if not lathe.measured or is_pi_lead(question.lead):
        return None
    nominal = replace(lathe, measured=Fraction(0), measured_text="")
    exact_only = question._replace(within=Fraction(0), wanted=1)
    for pairs in range(1, question.most_pairs + 1):
        for found in _PairSearch(exact_only, nominal, pairs).answers().fitting:
            if found.error.is_exact:
                train, idlers = found.train, found.idlers
                return answer_for(train, lathe, found.lever, question.lead, question.hand, idlers=idlers)
    return None


def _wheels_new(match: Match, mounted: Train) -> int:
    """Count the wheels that must at least be handled: those not mounted go on, those not wanted come off."""
    wanted, held = Counter((*match.drivers, *match.driven)), Counter(mounted.wheels)
    return (wanted - held).total() + (held - wanted).total()


def _new_then_error(each: tuple[int, Match]) -> tuple[int, Fraction]:
    return each[0], abs(each[1].error)


def _placed(match: Match, lathe: Lathe) -> list[Train]:
    """List the placings that keep each class in its pair and each sleeve whole."""
    every = placings(match.drivers, match.driven, match.keyed)
    return [train for train in every if keeps_to_pair_places(train, lathe)]


class _Found(NamedTuple):
    """Answers of one number of pairs: those that fit by rising error, those set aside, and if all was tried."""

    fitting: tuple[TrainAnswer, ...]
    aside: tuple[TrainAnswer, ...]
    is_whole: bool


class _PairSearch:
    """The search among trains of one number of pairs."""

    def __init__(self, question: TrainQuestion, lathe: Lathe, pairs: int) -> None:
        self._question = question
        self._lathe = lathe
        self._pairs = pairs
        self._mounter = Mounter(lathe, question.hand)
        self._has_way = self._mounter.has_way_for(pairs)
        self._order = partial(preference, mounted=question.mounted)

    def answers(self) -> _Found:
        """Judge matches within ever wider tolerances.

        Within the tolerance of the question until enough go on, or so many placings that the search gives up.
        Beyond it fewer are tried, enough to name a nearest.
        """
        question = self._question
        found = _Found((), (), is_whole=True)
        for band in Halves(self._lathe, self._pairs).bands(question.lead, question.within):
            beyond = band.within > max(question.within, FARTHEST_NEAREST)
            if found.aside and (beyond or not self._has_way):
                break
            chosen = self._choose(band.matches)
            found = chosen._replace(is_whole=band.is_complete and chosen.is_whole)
            if len(found.fitting) >= question.wanted or (found.fitting and band.within >= question.within):
                break
        return found

    def _choose(self, matches: Sequence[Match]) -> _Found:
        """Walk the matches by rising error; keep those that fit, and the first few nearer ones that do not."""
        fitting: list[TrainAnswer] = []
        aside: list[TrainAnswer] = []
        wanted, within = self._question.wanted, self._question.within
        start = self._mounter.judged
        for size, group in groupby(matches, key=lambda match: abs(match.error)):
            if len(fitting) >= wanted:
                break
            most, more = MOST_TRIED if size <= within else MOST_TRIED_BEYOND, 0
            for match in self._mildest_first(list(group)):
                if len(aside) >= wanted and not self._has_way:
                    return _Found(tuple(fitting), tuple(aside), is_whole=True)
                if len(fitting) >= wanted:
                    if more == MOST_MORE or not self._may_be_milder(match, fitting):
                        break
                    more += 1
                if self._mounter.judged - start > most:
                    return _Found(self._best(fitting), tuple(aside), is_whole=size > within)
                trains = sorted(_placed(match, self._lathe), key=self._order)
                found = self._mounter.first_that_fits(trains)
                if found is not None:
                    fitting.append(self._answer(found[0], match.lever, found[1]))
                elif trains and not fitting and len(aside) < wanted:
                    # What does not go on is only looked at closely while nothing better is there to show.
                    shown = self._mounter.nearest_to_fitting(trains) if self._has_way else trains[0]
                    aside.append(self._answer(shown, match.lever))
        return _Found(self._best(fitting), tuple(aside), is_whole=True)

    def _best(self, fitting: Sequence[TrainAnswer]) -> tuple[TrainAnswer, ...]:
        """Keep so many as are wanted, in order."""
        return tuple(sorted(fitting, key=partial(_rank, mounted=self._question.mounted))[: self._question.wanted])

    def _may_be_milder(self, match: Match, fitting: Sequence[TrainAnswer]) -> bool:
        """Say whether a match has a placing milder than what is kept, whose own mildest may not have gone on."""
        if self._question.mounted is not None:
            return False
        return self._mildness(match)[1] < int(_STEEPNESS_SCALE * steepness(self._best(fitting)[-1].train))

    def _answer(self, train: Train, lever: str | None, idlers: Sequence[Idler] | None = None) -> TrainAnswer:
        question = self._question
        return answer_for(train, self._lathe, lever, question.lead, question.hand, idlers=idlers, mounter=self._mounter)

    def _mildest_first(self, matches: list[Match]) -> Iterator[Match]:
        """Yield the mildest few before sorting the rest: a rich box makes a hundred thousand exact matches."""
        few = heapq.nsmallest(FIRST_FEW, matches, key=self._mildness)
        yield from few
        if len(matches) > len(few):
            yield from sorted(matches, key=self._mildness)[len(few) :]

    def _mildness(self, match: Match) -> tuple[int, int, int, int, tuple[Wheel, ...], tuple[Wheel, ...], str]:
        """Order matches as ``preference`` orders their mildest placing, in whole numbers for speed.

        Pairing the sorted drivers with the sorted driven wheels of each class gives the mildest steepest step.
        """
        new = _wheels_new(match, self._question.mounted) if self._question.mounted else 0
        steepest = smallest = 0
        for (_, driver), (_, driven) in zip(match.drivers, match.driven, strict=True):
            large, small = (driver, driven) if driver > driven else (driven, driver)
            steepest = max(steepest, _STEEPNESS_SCALE * large // small)
            smallest = min(smallest or small, small)
        drivers = sum(teeth for _, teeth in match.drivers)
        return new, steepest, -smallest, -drivers, match.drivers, match.driven, match.lever or ""
