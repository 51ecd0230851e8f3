"""What the benchmark measures of the search for tooth counts: against plain enumeration and the constraint model."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from solver.jobs.train_model import best_train
from solver.quantities.lengths import Length
from solver.trains.lathe import Banjo, Lathe
from solver.trains.wheels import WheelClass
from solver.wheelwork.nearest_ratios import nearest_counts
from tests.benchmarks.measurements import Timed, timed
from tests.slow_counts import best_product_error

#: The part of a day by which a year is longer than 365: a leap-year work.
LEAP = Fraction("0.2422")
#: A day to a month of 29.530589 days.
MONTH = 1 / Fraction("29.530589")
FEW_COUNTS = range(20, 45)
MANY_COUNTS = range(12, 121)


def by_counts_search(counts: Sequence[int], ratio: Fraction, pairs: int) -> Timed:
    """Ask the search for the one nearest train."""
    found, seconds = timed(lambda: nearest_counts(counts, ratio, pairs, 1))
    if found.beyond is not None:
        message = "the search was cut short"
        raise ValueError(message)
    return Timed(abs(found.found[0].ratio / ratio - 1), seconds)


def by_plain_enumeration(counts: Sequence[int], ratio: Fraction, pairs: int) -> Timed:
    """Try every product against every other in plain whole numbers."""
    return Timed(*timed(lambda: best_product_error(counts, ratio, pairs)))


def by_counts_model(counts: Sequence[int], ratio: Fraction, pairs: int) -> Timed:
    """Ask the constraint model until it proves its best; only the time inside the solver counts."""
    # As many of each wheel as a train can take, since they are yet to be cut.
    box = WheelClass("module 1", Length.of_mm(1), tuple((each, 2 * pairs) for each in counts))
    lathe = Lathe("counts", "1 mm", Length.of_mm(1), Fraction(1), has_reverse=True, wheel_classes=(box,), banjo=Banjo())
    best = best_train(lathe, ratio, pairs)
    if best is None:
        message = "the counts make no such train"
        raise ValueError(message)
    return Timed(abs(best.error), float(best.seconds))
