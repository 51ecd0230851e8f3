"""Can this lathe cut it: exactly, within a tolerance, or not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from solver.quantities.pi_multiples import Lead
from solver.trains.extra_wheels import errors_by_wheel
from solver.trains.lathe import Lathe
from solver.trains.train_answer import TrainAnswer, is_pi_lead
from solver.trains.train_search import TrainQuestion, search_trains


class Reached(Enum):
    """How a lead is reached, best first."""

    EXACT = "exact"
    WITHIN = "within tolerance"
    NOT = "not reached"


@dataclass(frozen=True, slots=True)
class Reach:
    """The verdict on one lead; ``best`` is the nearest train, within the tolerance or not."""

    lead: Lead
    reached: Reached
    best: TrainAnswer | None


@dataclass(frozen=True, slots=True)
class WheelWorth:
    """What one wheel more would do for a list of leads that are not exact yet."""

    teeth: int
    made_exact: int
    brought_within: int
    worst_error: Fraction


def reach(lathe: Lathe, lead: Lead, *, within: Fraction, most_pairs: int = 3) -> Reach:
    """Say how a lathe reaches a lead.

    Parameters
    ----------
    lathe : Lathe
        The lathe and its box.
    lead : Length or PiLength
        Wanted lead.
    within : Fraction
        Tolerance, as a part of the lead.
    most_pairs : int, optional
        Pairs to search up to.

    Returns
    -------
    Reach
        A train known not to fit does not count as reaching.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (127, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> reach(lathe, Length.of_mm(1), within=Fraction(1, 1000)).reached.value
    'exact'
    """
    report = search_trains(TrainQuestion(lead, most_pairs=most_pairs, within=within, wanted=1), lathe)
    if not report.answers:
        return Reach(lead, Reached.NOT, report.nearest)
    best = min(report.answers, key=lambda answer: abs(answer.error.relative))
    # Fewer pairs win among trains of the same error; the report lists fewer pairs first.
    return Reach(lead, Reached.EXACT if best.error.is_exact else Reached.WITHIN, best)


def worth_of_one_wheel(
    lathe: Lathe, rows: Sequence[Reach], *, within: Fraction, most: int = 5, most_pairs: int = 2
) -> tuple[WheelWorth, ...]:
    """Rank single wheels by how many leads each makes exact, then how many each brings within tolerance.

    Parameters
    ----------
    lathe : Lathe
        The wheels at hand.
    rows : sequence of Reach
        What is reached now; a lead already within tolerance gains only by becoming exact.
    within : Fraction
        Tolerance, as a part of the lead.
    most : int, optional
        How many wheels to list.
    most_pairs : int, optional
        Pairs of the trains considered; mounting is not judged here.

    Returns
    -------
    tuple of WheelWorth
        Complete over the wheels proposed; fewer teeth first among equals.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (50, 1), (80, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> rows = [reach(lathe, Length.of_mm(pitch), within=Fraction(1, 1000)) for pitch in ("1", "1.25")]
    >>> worth_of_one_wheel(lathe, rows, within=Fraction(1, 1000))[0].teeth
    127
    """
    wanting = {row.lead: row.reached for row in rows if row.reached is not Reached.EXACT}
    tables = {lead: errors_by_wheel(lathe, lead, most_pairs=most_pairs) for lead in wanting}
    worth = []
    for teeth in sorted({teeth for table in tables.values() for teeth in table}):
        errors = {lead: table[teeth] for lead, table in tables.items() if teeth in table}
        exact = sum(error == 0 and not is_pi_lead(lead) for lead, error in errors.items())
        brought = [
            error
            for lead, error in errors.items()
            if wanting[lead] is Reached.NOT and abs(error) <= within and (error != 0 or is_pi_lead(lead))
        ]
        if exact or brought:
            worst = max(brought, key=abs, default=Fraction(0))
            worth.append(WheelWorth(teeth, exact, len(brought), worst))
    worth.sort(key=lambda each: (-each.made_exact, -each.brought_within, abs(each.worst_error), each.teeth))
    return tuple(worth[:most])
