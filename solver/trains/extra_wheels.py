"""Which one wheel more would bring a lead within reach."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.pi_multiples import Lead, lead_bounds_mm
from solver.trains.lathe import Lathe
from solver.trains.sides import Box, Side
from solver.trains.train_answer import TrainAnswer
from solver.trains.train_search import TrainQuestion, search_trains

#: Wheels worth proposing. [teeth]
SMALLEST_PROPOSED = 15
LARGEST_PROPOSED = 127


@dataclass(frozen=True, slots=True)
class ExtraWheel:
    """A wheel to add, and the best train that then exists."""

    teeth: int
    answer: TrainAnswer


def largest_proposed(lathe: Lathe) -> int:
    """Return the teeth of the largest wheel worth proposing for a lathe.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> largest_proposed(Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, ()))
    127
    """
    if lathe.banjo is not None and lathe.banjo.largest_wheel_teeth is not None:
        return min(LARGEST_PROPOSED, lathe.banjo.largest_wheel_teeth)
    return LARGEST_PROPOSED


def errors_by_wheel(lathe: Lathe, lead: Lead, *, most_pairs: int = 2) -> dict[int, Fraction]:
    """Find, for every proposable wheel, the least error of a train that uses it, mounting apart.

    Parameters
    ----------
    lathe : Lathe
        The wheels at hand; the extra wheel joins the first class.
    lead : Length or PiLength
        Wanted lead.
    most_pairs : int, optional
        Pairs of the trains considered.

    Returns
    -------
    dict of int to Fraction
        Teeth to signed relative error, least in size; complete for the wheels proposed.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (80, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> errors_by_wheel(lathe, Length.of_mm(1))[127]
    Fraction(0, 1)
    """
    box = Box(lathe.wheel_classes[:1])
    low, high = lead_bounds_mm(lead)
    middle = (low + high) / 2
    best: dict[int, tuple[int, int]] = {}
    for pairs in range(1, most_pairs + 1):
        fewer, full = box.sides((pairs - 1,)), box.sides((pairs,))
        for _, lever_ratio in lathe.lever_ratios:
            wanted = middle / (lathe.lead_at_equal_wheels.mm * lever_ratio)
            for teeth, off, whole in _with_one_more(box, fewer, full, wanted, largest_proposed(lathe)):
                known = best.get(teeth)
                if known is None or abs(off) * known[1] < abs(known[0]) * whole:
                    best[teeth] = off, whole
    return {teeth: Fraction(off, whole) for teeth, (off, whole) in best.items()}


def _with_one_more(
    box: Box, fewer: list[Side], full: list[Side], wanted: Fraction, largest: int
) -> Iterator[tuple[int, int, int]]:
    """Solve for the missing wheel, as driver and as driven, and try the whole numbers on both sides of it.

    Yields teeth, and the error as two whole numbers, off over whole: fractions in so tight a loop cost seconds.
    """
    top, bottom = wanted.numerator, wanted.denominator
    fits = range(SMALLEST_PROPOSED, largest + 1)
    for few in fewer:
        for whole in full:
            above, below = bottom * few.product, top * whole.product
            driver = below // above
            if driver + 1 >= SMALLEST_PROPOSED and driver <= largest and box.can_share(few, whole):
                for teeth in (driver, driver + 1):
                    if teeth in fits:
                        yield teeth, above * teeth - below, below
            above, below = bottom * whole.product, top * few.product
            driven = above // below
            if driven + 1 >= SMALLEST_PROPOSED and driven <= largest and box.can_share(few, whole):
                for teeth in (driven, driven + 1):
                    if teeth in fits:
                        yield teeth, above - below * teeth, below * teeth


def extra_wheels(
    lathe: Lathe, lead: Lead, *, closer_than: Fraction | None = None, most: int = 3, most_pairs: int = 2
) -> tuple[ExtraWheel, ...]:
    """Propose single wheels to add, nearest first, each with a train that is not known to fail at the banjo.

    Parameters
    ----------
    lathe : Lathe
        The wheels at hand.
    lead : Length or PiLength
        Wanted lead.
    closer_than : Fraction, optional
        Size of the error to beat, as a part of the lead; any wheel is proposed when left out.
    most : int, optional
        How many wheels to propose.
    most_pairs : int, optional
        Pairs of the trains considered.

    Returns
    -------
    tuple of ExtraWheel
        By rising error, then fewer pairs, then fewer teeth.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (80, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> extra_wheels(lathe, Length.of_mm(1), most=1)[0].teeth
    127
    """
    errors = errors_by_wheel(lathe, lead, most_pairs=most_pairs)
    better = (teeth for teeth, error in errors.items() if closer_than is None or abs(error) < closer_than)
    nearest_first = sorted(better, key=lambda teeth: (abs(errors[teeth]), teeth))
    proposals = []
    for teeth in nearest_first[: 4 * most]:
        # The tolerance of the question is the wheel's own error: nothing farther off is of interest here.
        question = TrainQuestion(lead, most_pairs=most_pairs, within=abs(errors[teeth]) + Fraction(1, 10**12), wanted=1)
        report = search_trains(question, lathe.with_wheel(teeth))
        if report.answers:
            proposals.append(ExtraWheel(teeth, report.answers[0]))
        if len(proposals) == most:
            break
    return tuple(
        sorted(
            proposals,
            key=lambda each: (abs(each.answer.error.relative), len(each.answer.train.pairs), each.teeth),
        )
    )
