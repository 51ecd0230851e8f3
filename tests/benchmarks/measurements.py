"""What the benchmark measures, each piece answering one question, so that a test can hold the answers together."""

from __future__ import annotations

import json
import os
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice, permutations
from pathlib import Path
from typing import TypeVar

from gearsets.lathe_files import find_lathe
from solver.dividing.choosing import exact_methods
from solver.dividing.divide import exact_settings
from solver.dividing.heads import Head
from solver.dividing.plate_gearing import gear_box
from solver.jobs.lathe_ways import lathe_ways
from solver.jobs.planning import Plan, plan
from solver.jobs.tasks import Machine, Sitting, Task
from solver.jobs.train_model import best_train
from solver.quantities.lengths import Length
from solver.quantities.written_pitches import read_pitch
from solver.trains.banjo_gauge import BanjoGauge
from solver.trains.chain import Idler, chain_of
from solver.trains.changes import Standing
from solver.trains.lathe import Banjo, Lathe
from solver.trains.matches import forget_halves, nearest_matches
from solver.trains.train_search import TrainQuestion, search_trains
from solver.trains.wheels import WheelClass
from solver.trains.written_trains import read_train
from tests.slow_answers import best_in_ints

REPOSITORY = Path(__file__).parents[2]
#: 1.25 mm on a leadscrew of 8 threads to the inch.
WANTED = Fraction(50, 127)
#: Counts whose coverage is measured.
COUNTS = range(1, 401)
#: Parts of a sitting, threads of either system and a worm.
PITCHES = (
    "1 mm", "1.25 mm", "0.7 mm", "20 tpi", "27 tpi", "26 tpi",
    "module 0.5", "19 tpi", "1.5 mm", "0.8 mm", "32 tpi", "11 1/2 tpi",
)  # fmt: skip
#: Runs of a whole process; the median is kept.
RUNS = 7
Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True)
class Timed:
    """An answer and the seconds it took."""

    answer: Fraction
    seconds: float


def lathe_of(teeth: Sequence[int]) -> Lathe:
    """Make an 8 tpi lathe with one wheel of each count, and a nut so small that every train goes on."""
    box = WheelClass("module 1", Length.of_mm(1), tuple((each, 1) for each in teeth))
    banjo = Banjo(stud_nut=Length.of_mm("0.01"))
    return Lathe(
        "benchmark", "8 tpi", Length.of_inches("1/8"), Fraction(1), has_reverse=True, wheel_classes=(box,), banjo=banjo
    )


def timed(question: Callable[[], Answer]) -> tuple[Answer, float]:
    """Ask once and take the time."""
    start = time.perf_counter()
    answer = question()
    return answer, time.perf_counter() - start


def by_search(teeth: Sequence[int], pairs: int) -> Timed:
    """Ask the search, median of several rounds; the time covers fewer pairs too, and everything said of each answer."""
    lathe = lathe_of(teeth)
    question = TrainQuestion(lathe.lead_at_equal_wheels * WANTED, most_pairs=pairs, within=Fraction(1), wanted=1)
    rounds = []
    for _ in range(RUNS):
        forget_halves()  # Each round makes its products anew; none is kept from the round before.
        rounds.append(timed(lambda: search_trains(question, lathe)))
    report = rounds[0][0]
    seconds = statistics.median(each for _, each in rounds)
    shown = (*report.answers, *report.set_aside)
    return Timed(min(abs(each.error.relative) for each in shown if len(each.train.pairs) == pairs), seconds)


def by_finding_only(teeth: Sequence[int], pairs: int) -> Timed:
    """Ask for the nearest wheels and nothing else, as brute force and the constraint model do; median of rounds."""
    lathe = lathe_of(teeth)
    lead = lathe.lead_at_equal_wheels * WANTED
    rounds = []
    for _ in range(RUNS):
        forget_halves()
        rounds.append(timed(lambda: nearest_matches(lathe, lead, pairs)))
    return Timed(abs(rounds[0][0][0].error), statistics.median(each for _, each in rounds))


def by_brute_force(teeth: Sequence[int], pairs: int) -> Timed:
    """Try every product against every other in plain whole numbers."""
    return Timed(*timed(lambda: best_in_ints(teeth, WANTED, pairs)))


def by_model(teeth: Sequence[int], pairs: int) -> Timed:
    """Ask the constraint model until it proves its best; only the time inside the solver counts."""
    best = best_train(lathe_of(teeth), WANTED, pairs)
    if best is None:
        message = "the box makes no such train"
        raise ValueError(message)
    return Timed(abs(best.error), float(best.seconds))


def search_report(teeth: Sequence[int], pairs: int) -> str:
    """Search once in this process and report error, seconds and peak memory as JSON."""
    found = by_search(teeth, pairs)
    peak_kib = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return json.dumps({"error": str(found.answer), "seconds": found.seconds, "peak_mib": peak_kib / 1024})


def in_a_child(first: int, last: int, pairs: int) -> dict[str, object]:
    """Run ``search_report`` in a process of its own, so that its peak memory is its own."""
    words = ["-m", "tests.benchmarks", "--search", str(first), str(last), str(pairs)]
    done = subprocess.run([sys.executable, *words], cwd=REPOSITORY, capture_output=True, text=True, check=True)
    report: dict[str, object] = json.loads(done.stdout)
    return report


def judging(pairs: int, most: int = 6000) -> tuple[int, float]:
    """Judge set-ups of so many pairs on a banjo described in full; one pair gets an idler. Count and seconds."""
    lathe = find_lathe("inch-8-banjo")
    gauge = BanjoGauge(lathe)
    teeth = [each for each, _ in lathe.wheel_classes[0].stock]
    # Every so many-th choice of wheels, so that all sizes come in.
    step = {1: 1, 2: 11}.get(pairs, 997)
    wheels = islice(permutations(teeth, 3 if pairs == 1 else 2 * pairs), 0, most * step, step)
    chains = []
    for row in wheels:
        train = read_train("-".join(map(str, row[:2] if pairs == 1 else row)))
        chains.append(chain_of(train, [Idler(1, row[2])] if pairs == 1 else ()))
    _, seconds = timed(lambda: [gauge.fits(chain) for chain in chains])
    return len(chains), seconds


def coverage_by_plain(head: Head) -> tuple[list[int], float]:
    """List the counts to 400 that a head divides by plain moves or directly, and take the time."""
    return timed(lambda: [count for count in COUNTS if exact_settings(head, Fraction(1, count))])


def coverage_by_all(head: Head) -> tuple[list[int], float]:
    """List the counts to 400 that a head divides exactly by any method, and take the time; the box is sorted anew."""
    gear_box.cache_clear()
    return timed(lambda: [count for count in COUNTS if any(exact_methods(head, count))])


def whole_process(words: Sequence[str]) -> float:
    """Run Python with these words once; return the seconds from start to end.

    Raises
    ------
    RuntimeError
        The process did not end well: its time would say nothing.
    """
    # Compiled modules are kept, as they are wherever the program is installed.
    surroundings = {name: text for name, text in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    done, seconds = timed(
        lambda: subprocess.run(
            [sys.executable, *words], cwd=REPOSITORY, capture_output=True, text=True, check=False, env=surroundings
        )
    )
    if done.returncode != 0:
        message = f"python {' '.join(words)} ended with {done.returncode}: {done.stderr.strip()[-300:]}"
        raise RuntimeError(message)
    return seconds


def medians(*commands: Sequence[str], runs: int = RUNS) -> list[float]:
    """Run the commands by turns, so that a busy moment touches all of them; return the median of each."""
    for words in commands:
        whole_process(words)  # Once beforehand, so that compiling and a cold disk are not timed.
    rounds = [[whole_process(words) for words in commands] for _ in range(runs)]
    return [statistics.median(column) for column in zip(*rounds, strict=True)]


def sitting_of(parts: int) -> Sitting:
    """Make a sitting of so many threads on an 8 tpi lathe of 25 wheels, each within 1000 ppm."""
    stock = dict.fromkeys((*range(20, 121, 5), 38, 127), 1) | {20: 2, 40: 2}
    box = WheelClass("module 1", Length.of_mm(1), tuple(sorted(stock.items())))
    banjo = Banjo(studs=2, stud_nut=Length.of_mm(20))
    lathe = Lathe(
        "25 wheels", "8 tpi", Length.of_inches("1/8"), Fraction(1), has_reverse=True, wheel_classes=(box,), banjo=banjo
    )
    found = (lathe_ways(lathe, read_pitch(each).lead, within=Fraction(1, 1000)) for each in PITCHES[:parts])
    return Sitting(tuple(Task(Machine.LATHE, each.ways()) for each in found))


def planned(parts: int) -> tuple[Plan, int, float]:
    """Find the set-ups of a sitting and plan it; return the plan, how many set-ups there were, and the seconds."""
    start = time.perf_counter()
    sitting = sitting_of(parts)
    found = plan(sitting)
    return found, sum(len(task.ways) for task in sitting.tasks), time.perf_counter() - start


def by_groups(sitting: Sitting) -> tuple[int, float]:
    """Plan the plain way: for every group of parts done and every set-up that may stand, the fewest wheels; seconds."""
    return timed(lambda: _fewest_by_groups([{way.wheels for way in task.ways} for task in sitting.tasks]))


def _fewest_by_groups(tasks: list[set[frozenset[Standing]]]) -> int:
    known = {(0, frozenset[Standing]()): 0}
    for _ in tasks:
        more: dict[tuple[int, frozenset[Standing]], int] = {}
        for (group, stands), cost in known.items():
            for number, ways in enumerate(tasks):
                if not group >> number & 1:
                    for wheels in ways:
                        key, total = (group | 1 << number, wheels), cost + len(stands ^ wheels)
                        if total < more.get(key, total + 1):
                            more[key] = total
        known = more
    return min(known.values())
