"""``python -m tests.benchmarks``: a table of ratios, all from one run on one machine.

Seconds differ between machines; how many times as fast one way is as another hardly does.
"""

from __future__ import annotations

import sys
from fractions import Fraction

from gearsets.head_files import find_head
from tests.benchmarks.measurements import (
    by_brute_force,
    by_finding_only,
    by_groups,
    by_model,
    by_search,
    coverage_by_all,
    coverage_by_plain,
    in_a_child,
    judging,
    medians,
    planned,
    search_report,
    sitting_of,
)
from tests.benchmarks.missing_measurements import by_every_handful, by_walk, few, whole_series
from tests.benchmarks.wheelwork import (
    FEW_COUNTS,
    LEAP,
    MANY_COUNTS,
    MONTH,
    by_counts_model,
    by_counts_search,
    by_plain_enumeration,
)

TWENTY_FIVE = range(20, 45)
#: The commands asked most, as they are typed.
COMMANDS = (
    "train 1.25mm",
    "train 1.25mm --lathe inch-8-banjo",
    "divide 28",
    "divide 61",
    "thread M10",
    "worm --module 0.5 --teeth 73",
    "shape square --from 16mm",
)
BARE = ("-c", "pass")
FLOOR = ("-c", "import click, rich.table")


def row(name: str, seconds: float, against: float, remark: str = "") -> str:
    return f"{name:<44} {1000 * seconds:>10.1f} ms {seconds / against:>9.1f} x  {remark}".rstrip()


def ppm(error: Fraction) -> str:
    return f"{float(error) * 1_000_000:.4f} ppm"


def print_three_pairs() -> None:
    by_search(TWENTY_FIVE, 2)  # Once beforehand, so that imports are not timed.
    found = [
        by_finding_only(TWENTY_FIVE, 3),
        by_search(TWENTY_FIVE, 3),
        by_brute_force(TWENTY_FIVE, 3),
        by_model(TWENTY_FIVE, 3),
    ]
    names = (
        "search, finding only",
        "search of 1 to 3 pairs, all said of each",
        "brute force, whole numbers, finding only",
        "constraint model, solving only",
    )
    print("Best train of 3 pairs out of 25 wheels, 20 to 44 teeth, for 1.25 mm on 8 tpi")
    for name, one in zip(names, found, strict=True):
        print(row(f"  {name}", one.seconds, found[0].seconds, ppm(one.answer)))
    if len({one.answer for one in found}) != 1:
        sys.exit("the ways disagree")


def print_sixty_wheels() -> None:
    report = in_a_child(20, 79, 3)
    print("\nBest train of 3 pairs out of 60 wheels, 20 to 79 teeth, in a process of its own")
    error = ppm(Fraction(str(report["error"])))
    print(f"  search {report['seconds']:.2f} s, peak memory {report['peak_mib']:.0f} MiB, {error}")


def print_tooth_counts() -> None:
    print("\nTooth counts of 3 pairs for 0.2422, counts 20 to 44, each as often as wanted")
    ways = (by_counts_search, by_plain_enumeration, by_counts_model)
    found = [by(FEW_COUNTS, LEAP, 3) for by in ways]
    for name, one in zip(("search", "plain enumeration", "constraint model, solving only"), found, strict=True):
        print(row(f"  {name}", one.seconds, found[0].seconds, ppm(one.answer)))
    print("The same for a day to 29.530589 days, counts 12 to 120")
    two = by_counts_search(MANY_COUNTS, MONTH, 2)
    rows = [("2 pairs, search", two), ("2 pairs, plain enumeration", by_plain_enumeration(MANY_COUNTS, MONTH, 2))]
    rows += [(f"{pairs} pairs, search", by_counts_search(MANY_COUNTS, MONTH, pairs)) for pairs in (3, 4)]
    for name, one in rows:
        print(row(f"  {name}", one.seconds, two.seconds, f"{float(one.answer) * 1_000_000:.3g} ppm"))
    if len({one.answer for one in found}) != 1 or two.answer != rows[1][1].answer:
        sys.exit("the ways disagree")


def print_coverage() -> None:
    print("\nWhich counts to 400 a 40:1 head divides exactly; three plates 15 to 49 and twelve wheels")
    head = find_head("head-40-three-plates")
    coverage_by_plain(head)  # Once beforehand, so that nothing cold is timed.
    plain, floor = coverage_by_plain(head)
    every, seconds = coverage_by_all(head)
    print(row("  direct and plain", floor, floor, f"{len(plain)} counts"))
    print(row("  and differential and compound", seconds, floor, f"{len(every)} counts"))


def print_missing() -> None:
    lathe, question = few()
    by_walk(lathe, question)  # Once beforehand, so that importing the constraint solver is not timed.
    walked, tried = by_walk(lathe, question), by_every_handful(lathe, question)
    print("\nFewest wheels to add for the ISO coarse series, 130 ppm, up to 2 of 8 candidates")
    for name, one in (("options met in the middle, cover proven", walked), ("every handful, all searched anew", tried)):
        print(row(f"  {name}", one.seconds, walked.seconds, f"wheels {one.wheels}"))
    if walked.wheels != tried.wheels:
        sys.exit("the ways disagree")
    print("The same with every wheel of 20 to 127, up to 2; against 8 candidates")
    for name, each, asked in whole_series():
        one = by_walk(each, asked)
        told = f"{one.unlocked} of {one.lacking} by {one.wheels}, {'proven' if one.is_proven else 'NOT proven'}"
        print(row(f"  {name}", one.seconds, walked.seconds, told))


def print_placings() -> None:
    print("\nSet-ups judged on a banjo described in full: centre distance, slot, swing and nut")
    for pairs, studs in ((1, 1), (2, 1), (3, 2)):
        judged, seconds = judging(pairs)
        print(f"  {pairs} pairs on {studs} studs, {judged:>6} set-ups: {judged / seconds:>8.0f} a second")


def print_sitting() -> None:
    print("\nFewest wheels over a sitting: threads within 1000 ppm on an 8 tpi lathe of 25 wheels")
    planned(2)  # Once beforehand, so that the import of the constraint solver is not timed.
    found, set_ups, seconds = planned(6)
    least, slow = by_groups(sitting_of(6))
    print(row(f"  6 parts, {set_ups} set-ups, found and proven", seconds, seconds, f"{found.handled} wheels"))
    print(row("  the same by every group and set-up, plainly", slow, seconds, f"{least} wheels"))
    if found.handled != least:
        sys.exit("the ways disagree")
    found, set_ups, seconds = planned(12)
    proof = "proven" if found.is_proven else f"bound {found.bound}"
    print(f"  12 parts, {set_ups} set-ups: {seconds:.1f} s, {found.handled} wheels, {proof}")


def print_whole_process() -> None:
    print("\nWhole commands, against importing click and rich.table; median of 7")
    try:
        bare, floor, *commands = medians(BARE, FLOOR, *(("-m", "cli.main", *each.split()) for each in COMMANDS))
    except RuntimeError as fault:
        print(f"  not measured: {fault}")
        return
    print(row("  python, nothing imported", bare, floor))
    print(row("  import click, rich.table", floor, floor))
    for words, seconds in zip(COMMANDS, commands, strict=True):
        print(row(f"  halfnut {words}", seconds, floor))


def run(words: list[str]) -> None:
    if words[:1] == ["--search"]:
        first, last, pairs = (int(word) for word in words[1:])
        print(search_report(range(first, last + 1), pairs))
        return
    print_three_pairs()
    print_sixty_wheels()
    print_tooth_counts()
    print_coverage()
    print_missing()
    print_placings()
    print_sitting()
    print_whole_process()


if __name__ == "__main__":
    run(sys.argv[1:])
