"""From start to start: the part of a set-up screen that threads of several starts need."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cli.views.screen import facts_table, print_list
from cli.views.shop_figures import approximate, length_text, micrometres_text
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch, figure_text
from solver.trains.lathe import Lathe
from solver.trains.start_moves import DialReading, ToothCount, dial_readings, tooth_counts
from solver.trains.starts import StartsPlan, Way, plan_starts
from solver.trains.train_answer import TrainAnswer

if TYPE_CHECKING:
    from rich.console import Console

#: Marks of common top-slide dials; the lathe file does not say which it has.
METRIC_MARK = Length.of_mm("0.02")
INCH_MARK = Length.of_inches("0.001")
#: More starts than this are not listed one by one.
MOST_LISTED = 12


def print_starts(
    out: Console, asked: Pitch, answer: TrainAnswer, lathe: Lathe, answers: Sequence[TrainAnswer] = ()
) -> None:
    """Print the ways from start to start of a thread of several.

    ``answers`` are the trains among which another may serve by its teeth where this one does not.
    """
    plan = plan_starts(answer.train, answer.cut_lead, asked.starts, lathe)
    out.print()
    out.print(
        f"From start to start: {plan.starts} starts, {length_text(plan.pitch)} apart, best way first", style="bold"
    )
    out.print(facts_table(way_rows(plan, lathe)))
    print_list(
        out,
        "Ways that do not serve here",
        (f"{found.way.value}: {found.reason}" for found in plan.ways if not found.serves),
    )
    better = "" if plan.teeth else _better_by_teeth(answers, lathe, plan.starts)
    print_list(out, "For several starts", starts_rules(plan, answer.half_nut.every, better))


def way_rows(plan: StartsPlan, lathe: Lathe) -> list[tuple[str, str]]:
    """List the ways from start to start that serve, best first."""
    return [(found.way.value.capitalize(), _way_text(found.way, plan, lathe)) for found in plan.ways if found.serves]


def _better_by_teeth(answers: Sequence[TrainAnswer], lathe: Lathe, starts: int) -> str:
    """Name the train whose teeth reach the starts with the least turning; empty where none does."""
    counts = [(each.train, tooth_counts(each.train, lathe, starts)) for each in answers]
    serving = [(train, found[0]) for train, found in counts if found]
    if not serving:
        return ""
    train, first = min(serving, key=lambda each: (each[1].spindle_turns, each[1].mesh))
    return (
        f"Of the trains below, {train} reaches the starts by its wheel teeth: "
        f"{counted(first.teeth, 'tooth', 'teeth')} at mesh {first.mesh}."
    )


def _way_text(way: Way, plan: StartsPlan, lathe: Lathe) -> str:
    match way:
        case Way.DIAL_LINES:
            return _dial_text(plan)
        case Way.TEETH:
            return _teeth_text(plan.teeth, plan.starts)
        case Way.HALF_NUT:
            return _jump_text(plan)
        case Way.SPINDLE:
            first = plan.spindle[0]
            return f"open mesh {first.mesh}, turn {first.spaces} of {first.holes} spaces for each start, close it again"
        case Way.TOP_SLIDE:
            return _slide_text(plan, lathe)


def _dial_text(plan: StartsPlan) -> str:
    lines = [
        f"start {number} at line {', '.join(map(str, each))}" for number, each in enumerate(plan.dial_lines, start=1)
    ]
    return f"{'; '.join(_not_too_many(lines))} (line 0 is where start 1 began)"


def _teeth_text(counts: tuple[ToothCount, ...], starts: int) -> str:
    first = counts[0]
    turns = f"{figure_text(first.spindle_turns)} turn{'s' if first.spindle_turns > 1 else ''}"
    text = (
        f"open mesh {first.mesh}; turn the spindle {turns}, which passes {counted(first.teeth, 'tooth', 'teeth')} "
        f"of the {first.driver} T driver; close it"
    )
    if first.shift != 1:
        text += f". That is {first.shift} starts at once: each of the {starts} comes in its turn"
    others = [f"mesh {each.mesh} by {each.teeth} teeth of {each.driver} T" for each in counts[1:]]
    return f"{text}. Also {', '.join(others)}" if others else text


def _jump_text(plan: StartsPlan) -> str:
    made = [
        f"start {number} by {length_text(jump.distance)}, {counted(jump.threads, 'thread')}"
        for number, jump in enumerate(plan.jumps, start=1)
        if jump is not None and jump.shift
    ]
    text = (
        "spindle still; from where start 1 began, away from the headstock, leadscrew threads counted: "
        f"{'; '.join(_not_too_many(made))}"
    )
    if plan.repeated is not None and plan.starts > 2:
        order = ", ".join(str(groove + 1) for groove in plan.jump_order[:MOST_LISTED])
        more = " ..." if len(plan.jump_order) > MOST_LISTED else ""
        text += f". {length_text(plan.repeated.distance)}, moved again and again, cuts them in order {order}{more}"
    return text


def _slide_text(plan: StartsPlan, lathe: Lathe) -> str:
    inch = (lathe.leadscrew_lead.inches**-1).denominator == 1
    mark = INCH_MARK if inch else METRIC_MARK
    readings = dial_readings(plan.pitch, plan.starts, mark)
    worst = max(readings, key=lambda each: abs(each.residual.mm))
    in_all = f" ({approximate(plan.pitch.mm * (plan.starts - 1), 3)} mm in all)" if plan.starts > 2 else ""
    of_dial = "0.001 in" if inch else f"{trimmed_decimal_text(mark.mm, 3)} mm"
    return (
        f"parallel to the axis, {length_text(plan.pitch)} on for each start{in_all}, play taken up one way; "
        f"{_dial_miss(worst, of_dial)}"
    )


def _dial_miss(worst: DialReading, of_dial: str) -> str:
    if worst.residual.mm == 0:
        return f"a dial of {of_dial} a mark shows it exactly"
    miss = micrometres_text(Length(abs(worst.residual.mm)))
    side = "past" if worst.residual.mm > 0 else "short of"
    return f"on a dial of {of_dial} a mark the nearest is {miss} {side} it at worst (start {worst.start + 1})"


def counted(number: int, one: str, more: str = "") -> str:
    """Write a number of things.

    Examples
    --------
    >>> counted(1, "thread"), counted(12, "tooth", "teeth")
    ('1 thread', '12 teeth')
    """
    return f"{number} {one if number == 1 else more or f'{one}s'}"


def _not_too_many(words: list[str]) -> list[str]:
    return words if len(words) <= MOST_LISTED else [*words[:MOST_LISTED], "and so on"]


def starts_rules(plan: StartsPlan, same_start: Length, better: str = "") -> list[str]:
    """List what holds for every thread of several starts, and for this one."""
    rules = [
        "Depth and tool width follow the pitch, side clearance follows the lead. Mark the starts; keep to one way.",
    ]
    if plan.teeth:
        rules.append(
            "At a mesh: chalk the tooth and the gap that meet; turn the spindle side only; the leadscrew side, the "
            "nut and the carriage stand still."
        )
    if better:
        rules.append(better)
    if any(jump and jump.shift for jump in plan.jumps):
        rules.append(
            f"Every {length_text(plan.nut_every)} along the bed the nut closes in one start or another; "
            f"only whole multiples of {length_text(same_start)} bring back the same start."
        )
    if plan.between is not None:
        rules.append(
            f"The nut closes on other threads of the leadscrew too: {length_text(plan.between.distance)} on, at the "
            f"next thread, the tool would fall between two grooves, {length_text(plan.between.off)} from the nearest."
        )
    return rules
