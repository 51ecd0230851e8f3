"""Trains from the table screw to the head: the nearest leads, how they go on, and the hand they cut."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from solver.helices.mill import Drive, Mill
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead
from solver.trains.hand import Hand
from solver.trains.lead_error import LeadError
from solver.trains.mounting import USUAL_CLEARANCE_TEETH, ShaftRule, Verdict, placings
from solver.trains.train_search import TrainAnswer, TrainQuestion, search_trains
from solver.trains.wheels import Pair, Train


class HelixQuestion(NamedTuple):
    """What is asked of the search.

    Parameters
    ----------
    lead : Length or PiLength
        Wanted lead.
    hand : Hand, optional
        Of the helix.
    drive : Drive, optional
        Wheel on the head's worm, or on its spindle for short leads.
    within : Fraction, optional
        Largest error of an answer, as a part of the lead.
    most_pairs : int, optional
        Pairs to search up to; a head's bracket usually carries one stud, so two.
    wanted : int, optional
        How many answers of each number of pairs.
    """

    lead: Lead
    hand: Hand = Hand.RIGHT
    drive: Drive = Drive.WORM
    within: Fraction = Fraction(1, 200)
    most_pairs: int = 2
    wanted: int = 4


class HelixTrain(NamedTuple):
    """One train, from the table screw: the first wheel of each pair drives the second.

    Parameters
    ----------
    train : Train
        Screw side first.
    lead : Length
        Really cut.
    error : LeadError
        Against the wanted lead.
    verdict : Verdict
        Of the shaft rule; the bracket's reach is not known.
    faults : tuple of str
        Why it does not go on.
    idlers : tuple of int
        Wheels that only turn the motion round.
    by : str
        How the hand comes about.
    """

    train: Train
    lead: Length
    error: LeadError
    verdict: Verdict
    faults: tuple[str, ...]
    idlers: tuple[int, ...]
    by: str

    @property
    def goes_on(self) -> bool:
        """True unless something is known to stand in the way.

        Examples
        --------
        >>> error = LeadError(Fraction(0), Fraction(0))
        >>> HelixTrain(Train(()), Length.of_mm(1), error, Verdict.FITS, (), (), "").goes_on
        True
        """
        return self.verdict is not Verdict.DOES_NOT_FIT


class HelixReport(NamedTuple):
    """The outcome, best of each number of pairs first; ``nearest`` stands in when nothing answers."""

    question: HelixQuestion
    answers: tuple[HelixTrain, ...]
    set_aside: tuple[HelixTrain, ...]
    nearest: HelixTrain | None


def search_helix(question: HelixQuestion, mill: Mill) -> HelixReport:
    """Find the wheels for a lead: complete within the tolerance, nearest first of each number of pairs.

    Parameters
    ----------
    question : HelixQuestion
        Lead, hand, drive, tolerance.
    mill : Mill
        With its real box of wheels.

    Returns
    -------
    HelixReport
        Trains as the mill's hand mounts them, screw side first.

    Raises
    ------
    ImpossibleSettingError
        The box cannot make a single pair.

    Examples
    --------
    >>> mill = Mill("40:1", Fraction(40), Length.of_inches("1/4"), ((40, 1), (48, 1), (72, 1), (32, 1)))
    >>> report = search_helix(HelixQuestion(Length.of_inches(12), within=Fraction(0)), mill)
    >>> str(report.answers[0].train), report.answers[0].error.is_exact
    ('40-48', True)
    """
    asked = TrainQuestion(question.lead, question.hand, question.most_pairs, question.within, question.wanted)
    found = search_trains(asked, mill.seen_from_the_work(question.drive))
    answers, set_aside = (tuple(map(from_the_screw, trains)) for trains in (found.answers, found.set_aside))
    return HelixReport(question, answers, set_aside, from_the_screw(found.nearest) if found.nearest else None)


def from_the_screw(answer: TrainAnswer) -> HelixTrain:
    """Turn a train seen from the work round, so that the table screw drives and stands first.

    Examples
    --------
    >>> mill = Mill("40:1", Fraction(40), Length.of_inches("1/4"), ((24, 1), (40, 1), (48, 1)))
    >>> question = TrainQuestion(Length.of_inches(20), most_pairs=1)
    >>> str(from_the_screw(search_trains(question, mill.seen_from_the_work()).answers[0]).train)
    '24-48'
    """
    train = turned_round(answer.train)
    faults = tuple(shaft_faults(train)) or ((answer.hand.obstacle,) if answer.hand.obstacle else ())
    return HelixTrain(
        train, answer.cut_lead, answer.error, answer.mounting.verdict, faults, answer.hand.idlers, answer.hand.by
    )


def turned_round(train: Train) -> Train:
    """Read a train from its other end, where drivers are driven.

    Examples
    --------
    >>> from solver.trains.written_trains import read_train
    >>> str(turned_round(read_train("48-32-24-100")))
    '100-24-32-48'
    """
    return Train(tuple(Pair(pair.driven, pair.driver, pair.wheel_class) for pair in reversed(train.pairs)))


def lead_of_train(train: Train, mill: Mill, drive: Drive = Drive.WORM) -> Length:
    """Return the lead a train cuts: machine lead times driven over drivers, the screw driving.

    Examples
    --------
    >>> from solver.trains.written_trains import read_train
    >>> mill = Mill("40:1", Fraction(40), Length.of_inches("1/4"), ())
    >>> lead_of_train(read_train("32-48-40-72"), mill).inches
    Fraction(27, 1)
    """
    return mill.machine_lead(drive) * (1 / train.ratio)


def every_placing(train: Train, mill: Mill) -> list[tuple[Train, bool]]:
    """List every distinct placing of a train's wheels, screw side first, with whether the shaft rule lets it on.

    Parameters
    ----------
    train : Train
        Screw side first.
    mill : Mill
        For its wheels.

    Returns
    -------
    list of (Train, bool)
        Those that go on first.

    Examples
    --------
    >>> from solver.trains.written_trains import read_train
    >>> mill = Mill("40:1", Fraction(40), Length.of_inches("1/4"), ())
    >>> [str(each) for each, goes_on in every_placing(read_train("32-24-100-48"), mill) if goes_on]
    ['100-24-32-48']
    """
    rule = ShaftRule(mill.seen_from_the_work())
    drivers = [(pair.wheel_class, pair.driver) for pair in train.pairs]
    driven = [(pair.wheel_class, pair.driven) for pair in train.pairs]
    judged = [(each, rule.is_kept(each)) for each in placings(drivers, driven)]
    return sorted(judged, key=lambda pair: (not pair[1], pair[0]))


def shaft_faults(train: Train) -> Iterator[str]:
    """Say which wheel of a train fouls which shaft, in the mill's words.

    Parameters
    ----------
    train : Train
        Screw side first.

    Yields
    ------
    str
        One sentence a fault.

    Examples
    --------
    >>> from solver.trains.written_trains import read_train
    >>> list(shaft_faults(read_train("32-24-100-48")))
    ['the 100 T on stud 1 fouls the table screw: 32 + 24 is not above 100 + 15']
    """
    clearance = USUAL_CLEARANCE_TEETH
    for number, (pair, following) in enumerate(pairwise(train.pairs), start=1):
        before = "the table screw" if number == 1 else f"stud {number - 1}"
        after = "the head's shaft" if number + 2 > len(train.pairs) else f"stud {number + 1}"
        if pair.driver + pair.driven <= following.driver + clearance:
            yield (
                f"the {following.driver} T on stud {number} fouls {before}: "
                f"{pair.driver} + {pair.driven} is not above {following.driver} + {clearance}"
            )
        if following.driver + following.driven <= pair.driven + clearance:
            yield (
                f"the {pair.driven} T on stud {number} fouls {after}: "
                f"{following.driver} + {following.driven} is not above {pair.driven} + {clearance}"
            )
