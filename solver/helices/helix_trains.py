"""Trains from the table screw to the head: the nearest leads, how they go on, and the hand they cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from solver.helices.mill import Drive, Mill
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead
from solver.trains.banjo_gauge import USUAL_CLEARANCE_TEETH, BanjoGauge
from solver.trains.chain import Chain, Idler, chain_of
from solver.trains.hand import Hand
from solver.trains.layout import Fault
from solver.trains.lead_error import LeadError
from solver.trains.mounting import Mounter, Verdict, placings
from solver.trains.train_answer import TrainAnswer
from solver.trains.train_search import TrainQuestion, search_trains
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
    idlers : tuple of Idler
        Wheels that only turn the motion round; the pair between whose wheels each goes is counted from the screw.
    by : str
        How the hand comes about.
    """

    train: Train
    lead: Length
    error: LeadError
    verdict: Verdict
    faults: tuple[str, ...]
    idlers: tuple[Idler, ...]
    by: str

    @property
    def goes_on(self) -> bool:
        """True unless something is known to stand in the way, or it is too close to call.

        Examples
        --------
        >>> error = LeadError(Fraction(0), Fraction(0))
        >>> HelixTrain(Train(()), Length.of_mm(1), error, Verdict.FITS, (), (), "").goes_on
        True
        """
        return self.verdict in (Verdict.FITS, Verdict.NOT_CHECKED)


class HelixPlacing(NamedTuple):
    """One placing, screw side first, with the idlers it takes."""

    train: Train
    idlers: tuple[Idler, ...]


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
    answers, set_aside = (
        tuple(from_the_screw(each, mill) for each in trains) for trains in (found.answers, found.set_aside)
    )
    nearest = from_the_screw(found.nearest, mill) if found.nearest else None
    return HelixReport(question, answers, set_aside, nearest)


def from_the_screw(answer: TrainAnswer, mill: Mill) -> HelixTrain:
    """Turn a train seen from the work round, so that the table screw drives and stands first.

    Parameters
    ----------
    answer : TrainAnswer
        As the search gives it, the work's side first.
    mill : Mill
        For its wheels.

    Returns
    -------
    HelixTrain
        With what stands in the way in the mill's own words.

    Examples
    --------
    >>> mill = Mill("40:1", Fraction(40), Length.of_inches("1/4"), ((24, 1), (40, 1), (48, 1)))
    >>> question = TrainQuestion(Length.of_inches(20), most_pairs=1)
    >>> turned = from_the_screw(search_trains(question, mill.seen_from_the_work()).answers[0], mill)
    >>> str(turned.train), turned.idlers
    ('24-48', (Idler(mesh=1, teeth=40),))
    """
    train = turned_round(answer.train)
    pairs = len(train.pairs)
    idlers = tuple(Idler(pairs + 1 - idler.mesh, idler.teeth) for idler in reversed(answer.idlers))
    verdict = answer.mounting.verdict
    faults = tuple(shaft_faults(train, mill, idlers))
    if verdict is Verdict.DOES_NOT_FIT and not faults:
        faults = ("the hand asked for needs an idler, and no wheel is left for one",)
    return HelixTrain(train, answer.cut_lead, answer.error, verdict, faults, idlers, answer.hand.by)


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


def every_placing(train: Train, mill: Mill, hand: Hand = Hand.RIGHT) -> list[tuple[HelixPlacing, bool]]:
    """List every distinct placing of a train's wheels, with the idlers its hand takes, and whether it goes on.

    Parameters
    ----------
    train : Train
        Screw side first.
    mill : Mill
        For its wheels.
    hand : Hand, optional
        Of the helix; an idler for the hand may carry wheels apart that would foul without it.

    Returns
    -------
    list of (HelixPlacing, bool)
        Those that go on first.

    Examples
    --------
    >>> from solver.trains.written_trains import read_train
    >>> mill = Mill("40:1", Fraction(40), Length.of_inches("1/4"), ())
    >>> [str(each.train) for each, goes_on in every_placing(read_train("32-24-100-48"), mill) if goes_on]
    ['100-24-32-48']
    """
    mounter = Mounter(mill.seen_from_the_work(), hand)
    drivers = [(pair.wheel_class, pair.driver) for pair in train.pairs]
    driven = [(pair.wheel_class, pair.driven) for pair in train.pairs]
    judged = []
    for each in placings(drivers, driven):
        mounting = mounter.mount(each)
        judged.append((HelixPlacing(each, mounting.idlers), mounting.verdict is Verdict.FITS))
    return sorted(judged, key=lambda pair: not pair[1])


def shaft_faults(train: Train, mill: Mill, idlers: Sequence[Idler] = ()) -> Iterator[str]:
    """Say which wheel of a train fouls which shaft, in the mill's words.

    Parameters
    ----------
    train : Train
        Screw side first.
    mill : Mill
        For its wheels.
    idlers : sequence of Idler, optional
        In use, counted from the screw.

    Yields
    ------
    str
        One sentence a fault.

    Examples
    --------
    >>> from solver.trains.written_trains import read_train
    >>> mill = Mill("40:1", Fraction(40), Length.of_inches("1/4"), ())
    >>> list(shaft_faults(read_train("32-24-100-48"), mill))
    ['the 100 T on stud 1 fouls the table screw: 32 + 24 is not above 100 + 15']
    """
    chain = chain_of(train, idlers)
    for fault in BanjoGauge(mill.seen_from_the_work()).examine(chain).faults:
        yield _fault_words(fault, chain)


def _fault_words(fault: Fault, chain: Chain) -> str:
    """Word a fault; without a bracket's figures only the wheel and shaft of neighbours can be at fault."""
    at, towards = fault.axes
    contact = chain.contacts[min(at, towards)]
    teeth = fault.seats[0].teeth
    return (
        f"the {teeth} T on {_axis_name(at, chain)} fouls {_axis_name(towards, chain)}: "
        f"{contact.first} + {contact.second} is not above {teeth} + {USUAL_CLEARANCE_TEETH}"
    )


def _axis_name(axis: int, chain: Chain) -> str:
    if axis == 0:
        return "the table screw"
    return "the head's shaft" if axis == len(chain.contacts) else f"stud {axis}"
