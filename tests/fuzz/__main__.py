"""``python -m tests.fuzz 200000``: so many shaken texts over every door, with the slowest and the memory told."""

from __future__ import annotations

import resource
import sys
import time

from hypothesis import HealthCheck, Phase, given, seed, settings

from tests.fuzz.doors import DOORS, WORKING
from tests.fuzz.shaking import shaken
from tests.fuzz.watch import LIMIT, WORKING_LIMIT, knock

#: Share of the texts that start real work and are slow.
WORKING_SHARE = 100
MEMORY_LIMIT = 3 * 2**30


def run_door(name: str, texts: int) -> tuple[int, int, float]:
    """Knock with so many texts; return how many were tried, how many were taken, and the slowest in seconds."""
    door, tried, taken, slowest = DOORS[name], 0, 0, 0.0

    @seed(2026)
    @settings(max_examples=texts, deadline=None, database=None, phases=[Phase.generate, Phase.shrink],
              suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(text=shaken(door.seeds))
    def every(text: str) -> None:
        nonlocal tried, taken, slowest
        began = time.process_time()
        taken += knock(door, text, WORKING_LIMIT if name in WORKING else LIMIT)
        tried += 1
        slowest = max(slowest, time.process_time() - began)

    every()
    return tried, taken, slowest


def main(words: list[str]) -> None:
    """Share the texts out over the doors and print a line for each."""
    total = int(words[0]) if words else 200_000
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_LIMIT, MEMORY_LIMIT))
    names = words[1:] or list(DOORS)
    reading = max(1, len([name for name in names if name not in WORKING]))
    every = 0
    for name in names:
        tried, taken, slowest = run_door(name, total // WORKING_SHARE if name in WORKING else total // reading)
        every += tried
        print(f"{name:<20} {tried:>8} texts, {taken:>7} taken, slowest {slowest:.2f} s", flush=True)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{every} texts, no traceback, none over the limit, peak memory {peak:.0f} MiB")


if __name__ == "__main__":
    main(sys.argv[1:])
