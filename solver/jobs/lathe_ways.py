"""Every train, placing and choice of idlers that does a turning task within its tolerance."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.jobs.tasks import Way, least_alike
from solver.quantities.pi_multiples import Lead
from solver.trains.chain import Idler
from solver.trains.changes import standing
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.matches import Halves, Match
from solver.trains.mounting import Mounter, keeps_to_pair_places, placings
from solver.trains.train_answer import TrainAnswer, answer_for
from solver.trains.train_order import OrderKey, preference
from solver.trains.wheels import Train

#: Most ways kept of one task, those of least error; a sitting of so many is planned in seconds.
MOST_WAYS = 1000
#: Most set-ups judged of one number of pairs; a box so rich that they do not reach so far is not looked through.
MOST_JUDGED = 100_000
#: Most pairs tried where fewer do not serve.
MOST_PAIRS = 3


class SetUp(NamedTuple):
    """A train on the banjo: its placing, lever and idlers."""

    train: Train
    lever: str | None
    idlers: tuple[Idler, ...]
    error: Fraction


class LatheWays(NamedTuple):
    """The set-ups that do one turning task.

    Parameters
    ----------
    lead : Length or PiLength
        Lead wanted.
    hand : Hand
        Hand wanted.
    set_ups : tuple of SetUp
        By error, pairs, idlers and mildness; the first is the best train by itself.
    pairs : int
        Trains of up to so many pairs were looked at.
    is_whole : bool
        Every set-up within the tolerance is there; when false, those of least error are.
    """

    lead: Lead
    hand: Hand
    set_ups: tuple[SetUp, ...]
    pairs: int
    is_whole: bool

    def ways(self) -> tuple[Way, ...]:
        """Give the set-ups as ways of a task; ``rank`` is the number of the set-up.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.written_trains import read_train
        >>> train = read_train("40-127")
        >>> found = LatheWays(Length.of_mm(1), Hand.RIGHT, (SetUp(train, None, (), Fraction(0)),), 1, True)
        >>> [(way.rank, len(way.wheels)) for way in found.ways()]
        [(0, 2)]
        """
        return least_alike(
            tuple(
                Way(standing(each.train, each.idlers), abs(each.error), rank) for rank, each in enumerate(self.set_ups)
            )
        )

    def answer(self, rank: int, lathe: Lathe, mounter: Mounter | None = None) -> TrainAnswer:
        """Say everything of one set-up, as the search for a train does.

        Examples
        --------
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.wheels import WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (127, 1))),)
        >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
        >>> lathe_ways(lathe, Length.of_mm(1), within=Fraction(1, 1000)).answer(0, lathe).error.is_exact
        True
        """
        one = self.set_ups[rank]
        return answer_for(one.train, lathe, one.lever, self.lead, self.hand, idlers=one.idlers, mounter=mounter)


def lathe_ways(
    lathe: Lathe,
    lead: Lead,
    hand: Hand = Hand.RIGHT,
    *,
    within: Fraction,
    most_pairs: int = 2,
    most: int = MOST_WAYS,
) -> LatheWays:
    """Find every set-up that cuts a lead within a tolerance and is not known not to go on.

    Trains of up to ``most_pairs`` pairs are looked at; where none of them serves, those of one pair more, up to three.
    Of the choices of idlers those of the fewest idlers count, all of them.

    Parameters
    ----------
    lathe : Lathe
        The lathe and its box.
    lead : Length or PiLength
        Wanted lead.
    hand : Hand, optional
        Wanted hand.
    within : Fraction
        Largest error, as a part of the lead.
    most_pairs : int, optional
        Pairs looked at, more only where these do not serve.
    most : int, optional
        Most set-ups kept.

    Returns
    -------
    LatheWays
        Without set-ups where none serves.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), tuple((teeth, 1) for teeth in (20, 40, 60, 80))),)
    >>> lathe = Lathe("metric", "3 mm", Length.of_mm(3), Fraction(1), True, box)
    >>> found = lathe_ways(lathe, Length.of_mm("1.5"), within=Fraction(1, 1000))
    >>> [str(each.train) for each in found.set_ups]
    ['40-80', '20-40']
    """
    mounter = Mounter(lathe, hand)
    found: list[SetUp] = []
    is_whole, pairs = True, 0
    while pairs < most_pairs or (pairs < MOST_PAIRS and not found):
        pairs += 1
        more, is_all = _of_pairs(lathe, lead, pairs, within, mounter, most)
        found += more
        is_whole = is_whole and is_all
    ranked = sorted(found, key=_rank)
    return LatheWays(lead, hand, tuple(ranked[:most]), pairs, is_whole and len(ranked) <= most)


def _of_pairs(
    lathe: Lathe, lead: Lead, pairs: int, within: Fraction, mounter: Mounter, most: int
) -> tuple[list[SetUp], bool]:
    """List the set-ups of one number of pairs by rising error, and say whether that is all of them."""
    found: list[SetUp] = []
    covered, last = Fraction(-1), mounter.judged + MOST_JUDGED
    for band in Halves(lathe, pairs).bands(lead, within):
        for match in band.matches:
            if not covered < abs(match.error) <= within:
                continue
            if len(found) >= most or mounter.judged > last:
                return found, False
            found += _set_ups(match, lathe, mounter)
        covered = band.within
        if covered >= within:
            break
    # A band that is not complete is the last.
    return found, band.is_complete


def _set_ups(match: Match, lathe: Lathe, mounter: Mounter) -> list[SetUp]:
    """List the placings of one match that go on, each with every choice of the fewest idlers."""
    return [
        SetUp(train, match.lever, idlers, match.error)
        for train in placings(match.drivers, match.driven, match.keyed)
        if keeps_to_pair_places(train, lathe)
        for idlers in mounter.choices_that_fit(train)
    ]


def _rank(each: SetUp) -> tuple[Fraction, int, int, OrderKey, str, tuple[Idler, ...]]:
    """Order as the search for one train does: error, pairs, idlers, mildness, and the rest to close ties."""
    return (
        abs(each.error),
        len(each.train.pairs),
        len(each.idlers),
        preference(each.train),
        each.lever or "",
        each.idlers,
    )
