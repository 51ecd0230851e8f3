"""The terminal screen of ``counts``."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from cli.views.cautions import DEFER
from cli.views.counts_figures import (
    cutter_head,
    cutter_words,
    drift_cell,
    drift_rows,
    one_to_text,
    period_text,
    ppm_text,
    ratio_text,
    size_of_error,
    turns_and_teeth,
    way_text,
)
from cli.views.milling_cautions import CHIPS
from cli.views.part_figures import size_text
from cli.views.screen import answers_table, console, facts_table, print_answers, print_block, print_list
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.wheelwork.arbors import Sense, over_an_arbor
from solver.wheelwork.counts_search import CountsAnswer, CountsReport, PairsReport, known_convergents
from solver.wheelwork.tooth_cutting import SET_BEGINS
from solver.wheelwork.wheel_limits import WheelLimits, word_of_dividing

if TYPE_CHECKING:
    from rich.console import Console

#: Counts of one kind that are named one by one.
MOST_NAMED = 12
_SENSES = {Sense.SAME: "the same way as the first", Sense.OPPOSITE: "opposite to the first"}
#: Convergents told.
MOST_CONVERGENTS = 9


def show_counts(report: CountsReport, limits: WheelLimits, within: Fraction, clean: int, within_text: str) -> None:
    """Print the answer of ``counts``; ``clean`` is the count below which a straight-flanked tool undercuts."""
    out = console()
    out.print(facts_table(asked_rows(report, limits, within_text)))
    chosen = report.within(within)
    shown = chosen or report.best
    if shown is None:
        raise TypeError("a report without any train was refused before")
    title = "CUT AND MOUNT: the fewest wheels within it" if chosen else "NEAREST, not within it"
    print_block(out, title, train_rows(shown, limits, within))
    _print_wheels(out, shown, limits, clean)
    _print_all(out, report, within)
    print_list(out, "What was proven", proof_lines(report))
    _print_convergents(out, report)
    print_list(out, "Early check", early_check(shown))
    print_list(out, "Cautions", counts_cautions(shown, limits, clean))


def asked_rows(report: CountsReport, limits: WheelLimits, within_text: str) -> list[tuple[str, str]]:
    """Echo what was asked, and the counts that were looked through."""
    question = report.question
    wanted, allowed = question.wanted, question.allowed
    rows = [
        ("Ratio", f"{ratio_text(wanted.ratio)}{one_to_text(wanted.ratio)} turns of the last arbor for one of the first")
    ]
    if wanted.first is not None and wanted.last is not None:
        rows.append(("First arbor", f"one turn in {period_text(wanted.first)}"))
        rows.append(("Last arbor", f"one turn in {period_text(wanted.last)}"))
    rows.append(("Within", f"{within_text[:40]}; plus is a last arbor that gains"))
    rows.append(("Sense", _asked_sense(report)))
    run = limits.largest - limits.smallest + 1
    rows.append(("Counts", f"{len(allowed.counts)} of the {run} from {limits.smallest} to {limits.largest} teeth"))
    rows += [("Left out", f"{_named(each.counts)}: {each.because}") for each in allowed.left_out]
    rows.append(("Head", "left out of account" if limits.head is None else limits.head.name))
    if limits.tooth is not None:
        cutters = "all eight" if limits.cutters is None else ", ".join(map(str, limits.cutters))
        rows.append(("Teeth", f"{limits.tooth.told}, cutters of the set: {cutters}"))
    return rows


def _asked_sense(report: CountsReport) -> str:
    sense = report.question.sense
    words = "either way" if sense is None else _SENSES[sense]
    line = "; all pairs on one centre distance" if report.question.on_one_distance else ""
    return f"last arbor {words}{line}"


def _named(counts: tuple[int, ...]) -> str:
    if len(counts) <= MOST_NAMED:
        return ", ".join(map(str, counts))
    return f"{', '.join(map(str, counts[:MOST_NAMED]))} and {len(counts) - MOST_NAMED} more"


def train_rows(answer: CountsAnswer, limits: WheelLimits, within: Fraction) -> list[tuple[str, str]]:
    """List the train, arbor by arbor, with its proof, its error and its centre distances."""
    return [
        ("Train", f"{answer.train}   (driver-driven, first arbor first)"),
        *((f"  {place}", does) for place, does in arbor_rows(answer)),
        *error_rows(answer, within),
        *centre_rows(answer, limits),
    ]


def arbor_rows(answer: CountsAnswer) -> list[tuple[str, str]]:
    """Say which wheels are on each arbor."""
    pairs = answer.train.pairs
    rows = [("arbor 1", f"{pairs[0].driver} drives")]
    for number, (before, after) in enumerate(pairwise(pairs), start=2):
        rows.append((f"arbor {number}", f"{before.driven} driven, on one arbor with {after.driver} which drives"))
    return [*rows, (f"arbor {len(pairs) + 1}", f"{pairs[-1].driven} driven")]


def error_rows(answer: CountsAnswer, within: Fraction) -> list[tuple[str, str]]:
    """Prove the ratio, and say what its error comes to and which way the last arbor turns."""
    pairs = answer.train.pairs
    drivers = " × ".join(str(pair.driver) for pair in pairs)
    driven = " × ".join(str(pair.driven) for pair in pairs)
    return [
        ("Proof", f"({drivers}) / ({driven}) = {ratio_text(answer.train.ratio)}"),
        ("Error", way_text(answer.drift.error, within)),
        *drift_rows(answer.drift),
        ("Sense", _sense_text(answer)),
    ]


def centre_rows(answer: CountsAnswer, limits: WheelLimits) -> list[tuple[str, str]]:
    """List the distances of the arbors, and wheels that reach over another arbor."""
    rows = [
        (f"Centres {number}-{number + 1}", _centres_text(pair.driver + pair.driven, limits))
        for number, pair in enumerate(answer.train.pairs, start=1)
    ]
    return rows + [
        ("Beware", f"the wheel of {teeth} reaches over the line of arbor {arbor}: end that arbor short of it")
        for teeth, arbor in over_an_arbor(answer.train)
    ]


def _sense_text(answer: CountsAnswer) -> str:
    meshes = len(answer.train.pairs) + answer.idlers
    words = _SENSES[answer.sense]
    idler = ", one an idler of any count put into one pair" if answer.idlers else ""
    return f"{words} ({meshes} mesh{'' if meshes == 1 else 'es'}{idler})"


def _centres_text(together: int, limits: WheelLimits) -> str:
    told = f"{together} teeth together"
    if limits.tooth is None:
        return f"{told}: {trimmed_decimal_text(Fraction(together, 2), 1)} modules"
    return f"{told}: {size_text(limits.tooth.centre_distance(together))}"


def _print_wheels(out: Console, answer: CountsAnswer, limits: WheelLimits, clean: int) -> None:
    tooth, head = limits.tooth, limits.head
    out.print()
    depth = "" if tooth is None else f", whole depth {size_text(tooth.whole_depth)}"
    out.print(f"Wheels to cut{depth}", style="bold")
    heads = [("Teeth", "right"), ("How many", "right")]
    heads += [] if tooth is None else [("Blank", "left"), (cutter_head(tooth), "left")]
    heads += [] if head is None else [("Divided by", "left")]
    table = answers_table([*heads, ("Remark", "left")])
    many = Counter(teeth for _, teeth in answer.train.wheels)
    for teeth in sorted(many):
        row = [str(teeth), str(many[teeth])]
        if tooth is not None:
            row += [size_text(tooth.outside(teeth)), cutter_words(tooth, teeth)]
        if head is not None:
            row.append(word_of_dividing(head, teeth, limits.methods) or "")
        table.add_row(*row, "undercut" if teeth < clean else "")
    print_answers(out, table)


def _print_all(out: Console, report: CountsReport, within: Fraction) -> None:
    out.print()
    timed = report.question.wanted.last is not None
    out.print(f"Fewer wheels or less error (+ gains, - loses{'' if timed else ', of the last arbor'})", style="bold")
    drift = "A year" if timed else "In 1000 turns"
    table = answers_table(
        [("Pairs", "right"), ("Train", "left"), ("ppm", "right"), (drift, "right"), ("Sense", "left")]
    )
    for each in report.by_pairs:
        for answer in each.answers:
            idler = " by an idler" if answer.idlers else ""
            cells = (ppm_text(answer.drift.error, within), drift_cell(answer.drift), answer.sense.value + idler)
            table.add_row(str(each.pairs), str(answer.train), *cells)
    print_answers(out, table)
    for each in report.by_pairs:
        if each.obstacle:
            out.print(f"No train of {each.pairs} pair{'' if each.pairs == 1 else 's'}: {each.obstacle}.")


def proof_lines(report: CountsReport) -> list[str]:
    """Say over what the trains were proven best."""
    rule = "all pairs of one sum" if report.question.on_one_distance else "no wheel that only undoes another"
    reach = [each for each in report.by_pairs if each.answers]
    proven = [str(each.pairs) for each in reach if each.beyond is None]
    lines = []
    if proven:
        lines.append(
            f"Of {_joined(proven)} pair{'' if proven == ['1'] else 's'}: nothing nearer exists, these counts used as "
            f"often as wanted, {rule}."
        )
    lines += [_cut_short(each) for each in report.by_pairs if each.beyond]
    give = report.question.wanted.give
    if any(0 < abs(answer.drift.error) < give for each in reach for answer in each.answers):
        lines.append(f"The wanted figure, as written, is good to {size_of_error(give)}: errors below that say nothing.")
    return lines


def _joined(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _cut_short(each: PairsReport) -> str:
    limit = size_of_error(each.beyond or Fraction(0))
    return f"Of {each.pairs} pairs: cut short, so nearer ones may exist; within {limit} only those listed do."


def _print_convergents(out: Console, report: CountsReport) -> None:
    rows = known_convergents(report.question)[:MOST_CONVERGENTS]
    out.print()
    out.print("Convergents of the ratio, for orientation", style="bold")
    table = answers_table([("Ratio", "left"), ("ppm", "right"), ("As one pair of these counts", "left")])
    for each in rows:
        table.add_row(str(each.ratio), ppm_text(each.error), "yes" if each.is_one_pair else "no")
    print_answers(out, table)


def early_check(answer: CountsAnswer) -> list[str]:
    """Say what to count before plates are drilled."""
    train = answer.train
    first, last = train.pairs[0].driver, train.pairs[-1].driven
    slow = train.ratio <= 1
    turned, seen = ("first", "last") if slow else ("last", "first")
    turns = turns_and_teeth(1 / train.ratio if slow else train.ratio, first if slow else last)
    wrong = ratio_text(train.inverted.ratio)
    count = f"one turn of the {seen} arbor is {turns} of the {turned}"
    return [
        f"Before the plates are drilled, lay the wheels out and count: {count}. See which way it turns.",
        f"If they make {wrong}, drivers and driven are exchanged.",
        "Count the teeth of each wheel as it comes off the head.  Counted: ________  Date: ________",
    ]


def counts_cautions(answer: CountsAnswer, limits: WheelLimits, clean: int) -> list[str]:
    """List the cautions of wheels of these counts."""
    counts = [teeth for _, teeth in answer.train.wheels]
    lines = ["Centre distances are those of the figures: set the depth of each pair by trial before holes are drilled."]
    if min(counts) < SET_BEGINS:
        lines.append(f"The involute set begins at {SET_BEGINS} teeth; fewer leaves need a cutter of their own form.")
    if min(counts) < clean:
        lines.append(
            f"Below {clean} teeth a straight-flanked tool undercuts; form cutters thin the root: weak, rough pinions."
        )
    if limits.head is not None:
        lines.append(
            "'halfnut divide' on this head gives the moves of each count; cutter stopped or clear before the crank "
            "turns."
        )
    lines.append(f"{CHIPS} {DEFER}")
    return lines


def show_periods() -> None:
    """Print the named periods, table by table."""
    from gearsets.period_tables import named_periods

    out = console()
    table = answers_table([("Name", "left"), ("Days", "right"), ("What", "left"), ("Figure", "left")])
    for row in named_periods():
        days = period_text(row.period).split(" = ")[-1].split()[0]
        table.add_row(row.name, days, row.kind, row.status)
    print_answers(out, table)
    out.print("A number may stand before a name: 19 tropical years.")
    out.print(
        "Figures marked memory were written from memory of the sources in gearsets/SOURCES.md: check what matters."
    )
