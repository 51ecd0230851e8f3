"""Trains that drive the tool for turning: a feed wanted roughly, or the finest the wheels give."""

from __future__ import annotations

from fractions import Fraction
from math import prod

from solver.quantities.lengths import Length
from solver.trains.changes import changes, handled
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.train_answer import TrainAnswer
from solver.trains.train_search import TrainQuestion, TrainReport, search_trains
from solver.trains.wheels import Train

#: How far a feed may be from the one wanted: the finish does not tell a tenth. Practice, no source.
USUAL_OFF = Fraction(1, 10)
#: The finest that goes on is looked for up to so many times the finest of the box on paper; then up to a thousand.
FARTHEST = (Fraction(30), Fraction(1000))


def feed_trains(
    lathe: Lathe,
    feed: Length | None,
    *,
    within: Fraction = USUAL_OFF,
    most_pairs: int = 3,
    wanted: int = 3,
    hand: Hand = Hand.RIGHT,
    mounted: Train | None = None,
) -> TrainReport:
    """Search trains for a feed; with none wanted, those of the finest feeds that go on.

    Parameters
    ----------
    lathe : Lathe
        Its wheels, levers and leadscrew.
    feed : Length or None
        Travel of the tool for one turn of the work; ``None`` for the finest.
    within : Fraction, optional
        How far an answer may be off, as a part of the feed; of the finest it plays no part.
    most_pairs, wanted, hand, mounted
        As in `TrainQuestion`; right is towards the headstock.

    Returns
    -------
    TrainReport
        Fewest wheels handled first where some are mounted, else fewest pairs, and the nearest among those. Of the
        finest, the finest first. Without an answer its nearest is the nearest that goes on.

    Examples
    --------
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 2), (50, 1), (80, 1), (100, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> finest = feed_trains(lathe, None, most_pairs=2).answers[0]
    >>> str(finest.train), finest.cut_lead.inches
    ('20-80-20-100', Fraction(1, 160))
    """
    if feed is None:
        return _finest(
            lathe, TrainQuestion(_finest_on_paper(lathe, most_pairs), hand, most_pairs, within, wanted, mounted)
        )
    report = search_trains(TrainQuestion(feed, hand, most_pairs, within, wanted, mounted), lathe)
    if not report.answers:
        fits = search_trains(report.question._replace(within=FARTHEST[-1], wanted=1), lathe).answers
        nearest = min(fits, key=lambda answer: abs(answer.error.relative), default=report.nearest)
        return report._replace(nearest=nearest)
    every = list(report.answers)
    if report.least_changed is not None and report.least_changed not in every:
        every.append(report.least_changed)
    return report._replace(answers=tuple(sorted(every, key=lambda answer: _trouble(answer, mounted))))


def _finest(lathe: Lathe, question: TrainQuestion) -> TrainReport:
    for within in FARTHEST:
        report = search_trains(question._replace(within=within), lathe)
        if report.answers:
            break
    return report._replace(answers=tuple(sorted(report.answers, key=lambda answer: answer.cut_lead.mm)))


def _trouble(answer: TrainAnswer, mounted: Train | None) -> tuple[int, int, Fraction]:
    """Rank a feed within its tolerance: nobody changes wheels for a finish that nobody sees."""
    moved = handled(changes(mounted, answer.train)) if mounted is not None else 0
    return moved, len(answer.train.pairs), abs(answer.error.relative)


def _finest_on_paper(lathe: Lathe, most_pairs: int) -> Length:
    """Drive by the smallest wheels and follow by the largest, on every sleeve too: no train is finer."""
    teeth = sorted(each for box in lathe.wheel_classes for each, count in box.stock for _ in range(count))
    pairs = max(1, min(most_pairs, len(teeth) // 2))
    sleeves = prod((Fraction(min(pair), max(pair)) for pair in lathe.keyed_pairs), start=Fraction(1))
    ratio = Fraction(prod(teeth[:pairs]), prod(teeth[-pairs:])) if len(teeth) > 1 else Fraction(1)
    lever = min(each for _, each in lathe.lever_ratios)
    return lathe.lead_at_equal_wheels * (ratio * lever * sleeves)
