"""What the benchmark measures of wheels to add: the walk over options against every handful searched anew."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations_with_replacement

from gearsets.lathe_files import find_lathe
from gearsets.thread_tables import load_series
from solver.jobs.missing_wheels import missing_wheels, with_wheels
from solver.jobs.wheel_report import MissingQuestion
from solver.quantities.pi_multiples import Lead
from solver.trains.lathe import Lathe
from solver.trains.matches import forget_halves
from solver.trains.train_search import TrainQuestion, search_trains
from tests.benchmarks.measurements import timed

#: A question small enough for every handful: wheels that may be added, the tolerance, and how many wheels and pairs.
FEW_CANDIDATES = (21, 22, 37, 46, 63, 66, 126, 127)
FEW_WITHIN = Fraction(13, 100_000)


@dataclass(frozen=True, slots=True)
class TimedWheels:
    """Wheels named, whether they are proven, leads they unlock of so many, and the seconds it took."""

    wheels: tuple[int, ...]
    is_proven: bool
    unlocked: int
    lacking: int
    seconds: float


def iso_coarse() -> tuple[Lead, ...]:
    """List the different pitches of the series."""
    return tuple(dict.fromkeys(thread.pitch.lead for thread in load_series("iso_coarse")))


def by_walk(lathe: Lathe, question: MissingQuestion) -> TimedWheels:
    """Ask for the wheels once; no other choices as good are looked for."""
    forget_halves()
    report, seconds = timed(lambda: missing_wheels(lathe, question))
    best = report.best
    return TimedWheels(best.wheels, report.proof.is_proven, len(best.unlocked), len(report.lacking), seconds)


def by_every_handful(lathe: Lathe, question: MissingQuestion) -> TimedWheels:
    """Lay every handful of candidates in the box and search all leads anew, as a patient person would."""
    forget_halves()
    (wheels, unlocked, lacking), seconds = timed(lambda: _best_handful(lathe, question))
    return TimedWheels(wheels, True, unlocked, lacking, seconds)


def _best_handful(lathe: Lathe, question: MissingQuestion) -> tuple[tuple[int, ...], int, int]:
    lacking = [lead for lead in question.leads if not _is_cut(lathe, lead, question)]
    rows = []
    for size in range(question.most_wheels + 1):
        for wheels in combinations_with_replacement(question.candidates, size):
            richer = with_wheels(lathe, wheels)
            unlocked = sum(_is_cut(richer, lead, question) for lead in lacking)
            rows.append((-unlocked, size, sum(wheels), sum(each**2 for each in wheels), wheels))
    best = min(rows)
    return best[-1], -best[0], len(lacking)


def _is_cut(lathe: Lathe, lead: Lead, question: MissingQuestion) -> bool:
    asked = TrainQuestion(lead, most_pairs=question.most_pairs, within=question.within, wanted=1)
    return bool(search_trains(asked, lathe).answers)


def few(leads: Sequence[Lead] | None = None) -> tuple[Lathe, MissingQuestion]:
    """Return the small question: ISO coarse, or fewer, on an inch lathe of wheels by fives."""
    wanted = tuple(leads or iso_coarse())
    return find_lathe("inch-8-no127"), MissingQuestion(wanted, FEW_CANDIDATES, FEW_WITHIN, 2, 2)


def whole_series() -> list[tuple[str, Lathe, MissingQuestion]]:
    """List the questions of the whole series with the wheels of 20 to 127 as candidates, two at the most."""
    by_fives, dozen = find_lathe("inch-8-no127"), find_lathe("inch-16-small")
    every = range(20, 128)
    # Each of these three alone unlocks all that the last question asks for.
    none_alone = tuple(each for each in every if each not in (67, 79, 127))
    rows = (
        ("exact, 3 pairs", by_fives, every, 0, 3),
        ("the same without 127: nothing helps", by_fives, every[:-1], 0, 3),
        ("130 ppm, 2 pairs, without 127", by_fives, every[:-1], 130, 2),
        ("60 ppm, 2 pairs, box of a dozen", dozen, every[:-1], 60, 2),
        ("100 ppm, 3 pairs, the same box", dozen, none_alone, 100, 3),
    )
    return [
        (name, lathe, MissingQuestion(iso_coarse(), tuple(candidates), Fraction(ppm, 10**6), 2, pairs))
        for name, lathe, candidates, ppm, pairs in rows
    ]
