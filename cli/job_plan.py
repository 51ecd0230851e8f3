"""The plan of a job, step by step, with the answer that each single command would give; no text in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from cli.exact_divisions import what_would_help
from cli.views.shop_figures import error_words
from gearsets.job_files import Job, JobPart
from gearsets.job_parts import DialPart, SlottedPart, ThreadPart, WormPart
from solver.dividing.heads import Head
from solver.dividing.moves import IndexAnswer
from solver.jobs.handling import Handling, carried_out
from solver.jobs.head_ways import HeadWays, head_ways
from solver.jobs.lathe_ways import LatheWays, lathe_ways
from solver.jobs.mending import in_file_order
from solver.jobs.planning import Plan, Tell, plan
from solver.jobs.tasks import Face, Machine, Sitting, Task, Way
from solver.refusals import ImpossibleSettingError
from solver.trains.changes import standing
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.mounting import Mounter
from solver.trains.train_answer import TrainAnswer
from solver.trains.train_search import TrainQuestion, search_trains

#: One way that needs nothing: a single slot is not divided.
_AS_IT_STANDS = Way(frozenset(), Fraction(0), 0)


class LatheStep(NamedTuple):
    """A turned part: its train with all that is said of it, and the wheels handled before it."""

    part: JobPart
    answer: TrainAnswer
    handling: Handling


class HeadStep(NamedTuple):
    """A divided part: its setting, the face of the plate it is on, and what is handled before it.

    ``answer`` and ``ways`` are ``None`` for a part that is not divided, as a single slot; ``face`` is the one outward
    for this setting, whether or not it was put on for it, and ``None`` where any will do.
    """

    part: JobPart
    answer: IndexAnswer | None
    ways: HeadWays | None
    face: Face | None
    handling: Handling


class JobPlan(NamedTuple):
    """Everything that a job's screen, JSON or sheet is made of.

    Parameters
    ----------
    job : Job
        What was asked.
    lathe, head : Lathe or Head, or None
        As planned with: a head that shares the box has the lathe's wheels.
    steps : tuple of LatheStep or HeadStep
        In the order of the work.
    plan : Plan
        Totals, with the bound.
    in_file_order : int
        Wheels handled with the best train of each part, in the order of the file as far as its parts allow.
    set_ups : int
        Set-ups chosen among.
    pairs : int
        Most pairs of the trains looked at; 0 where nothing is turned.
    cut_short : tuple of str
        Names of parts of which not every admissible set-up was among them.
    """

    job: Job
    lathe: Lathe | None
    head: Head | None
    steps: tuple[LatheStep | HeadStep, ...]
    plan: Plan
    in_file_order: int
    set_ups: int
    pairs: int
    cut_short: tuple[str, ...]


class _Found(NamedTuple):
    """The ways of one part, and the answers they stand for."""

    ways: tuple[Way, ...]
    turned: LatheWays | None = None
    divided: HeadWays | None = None


def planned(job: Job, *, seconds: Callable[[], int], tell: Tell) -> JobPlan:
    """Find the set-ups of every part, choose and order them, and say everything of each step.

    Raises
    ------
    ImpossibleSettingError
        With every part that this lathe or head cannot make, and what stands in the way.
    """
    lathe, head = job.lathe, job.head
    shared = None
    if job.has_one_box and lathe is not None and head is not None:
        shared = lathe.wheel_classes[0].stock
        head = replace(head, wheels=shared)
    found = _every_way(job, lathe, head, tell)
    mounted = standing(*job.mounted) if job.mounted else frozenset()
    tasks = tuple(
        Task(Machine.LATHE if each.turned else Machine.HEAD, each.ways, frozenset(part.after))
        for part, each in zip(job.parts, found, strict=True)
    )
    sitting = Sitting(tasks, mounted, shared)
    best = plan(sitting, seconds=seconds, tell=tell)
    steps = tuple(
        _step(job.parts[choice.task], found[choice.task], choice.way, row, lathe)
        for choice, row in zip(best.choices, best.handling, strict=True)
    )
    whole = [(each.turned or each.divided) for each in found]
    return JobPlan(
        job,
        lathe,
        head,
        steps,
        best,
        sum(row.wheels for row in carried_out(sitting, in_file_order(sitting))),
        sum(len(task.ways) for task in tasks),
        max((each.turned.pairs for each in found if each.turned), default=0),
        tuple(part.name for part, each in zip(job.parts, whole, strict=True) if each and not each.is_whole),
    )


def _every_way(job: Job, lathe: Lathe | None, head: Head | None, tell: Tell) -> list[_Found]:
    found, refusals = [], []
    for number, part in enumerate(job.parts, start=1):
        tell("ways", number)
        try:
            found.append(_ways_of(part, lathe, head))
        except ImpossibleSettingError as refusal:
            refusals.append((part.name, refusal))
    if refusals:
        lines = [f"{name}: {refusal.message}" for name, refusal in refusals]
        raise ImpossibleSettingError(
            "\n".join([f"{len(refusals)} of {len(job.parts)} parts cannot be made so:", *lines]),
            help_text="\n".join(dict.fromkeys(refusal.help_text for _, refusal in refusals if refusal.help_text)),
        )
    return found


def _ways_of(part: JobPart, lathe: Lathe | None, head: Head | None) -> _Found:
    product = part.product
    if isinstance(product, ThreadPart | WormPart):
        if lathe is None:
            raise TypeError("a job with turned parts has its lathe")
        turned = lathe_ways(lathe, product.lead, product.hand, within=part.within, most_pairs=part.pairs)
        if not turned.set_ups:
            raise _no_train(part, product, lathe)
        return _Found(turned.ways(), turned=turned)
    if head is None:
        raise TypeError("a job with divided parts has its head")
    if isinstance(product, SlottedPart) and product.count == 1:
        return _Found((_AS_IT_STANDS,))
    divided = head_ways(head, product.turn, methods=(part.method,) if part.method else (), within=part.within)
    if not divided.answers:
        obstacles = [f"no {each.method.value} setting: {each.obstacle}" for each in divided.choice.methods]
        remedies = [each.remedy for each in divided.choice.methods if each.remedy]
        raise ImpossibleSettingError("; ".join(obstacles).replace("\n", " "), help_text="\n".join(remedies))
    return _Found(divided.ways(head), divided=divided)


def _no_train(part: JobPart, product: ThreadPart | WormPart, lathe: Lathe) -> ImpossibleSettingError:
    """Say how near the lathe comes to a lead that no train within the tolerance cuts."""
    report = search_trains(TrainQuestion(product.lead, product.hand, 3, part.within, 1), lathe)
    ppm = part.within * 1_000_000
    aim = f"within {ppm.numerator / ppm.denominator:.6g} ppm" if ppm else "exact"
    message = f"no train of up to 3 pairs is {aim} and goes on"
    nearest = next((each for each in (report.nearest, *report.answers) if each is not None and each.fits), None)
    if nearest is not None:
        message += f"; the nearest that does is {nearest.train}, {error_words(nearest.error)}"
    return ImpossibleSettingError(
        message, help_text="'halfnut reach' names the one wheel that would help; a larger within may too."
    )


def _step(part: JobPart, found: _Found, way: Way, handling: Handling, lathe: Lathe | None) -> LatheStep | HeadStep:
    if found.turned is not None and lathe is not None:
        hand = part.product.hand if isinstance(part.product, ThreadPart | WormPart) else Hand.RIGHT
        return LatheStep(part, found.turned.answer(way.rank, lathe, Mounter(lathe, hand)), handling)
    answer = None if found.divided is None else found.divided.answers[way.rank]
    return HeadStep(part, answer, found.divided, way.face, handling)


def is_beyond(step: LatheStep | HeadStep) -> bool:
    """Say whether the head divides a part no nearer than beyond its tolerance; without one it is to be exact."""
    return (
        isinstance(step, HeadStep)
        and step.answer is not None
        and abs(step.answer.error_at_closure.turns) > step.part.within
    )


def parts_missed(found: JobPlan) -> tuple[str, ...]:
    """Name the parts that the head divides no nearer than beyond their tolerance, and dials of no whole marks."""
    return tuple(
        step.part.name
        for step in found.steps
        if is_beyond(step)
        or (isinstance(step.part.product, DialPart) and not step.part.product.report.answers[0].is_exact)
    )


def exact_help(found: JobPlan) -> tuple[str, ...]:
    """Say of each part divided beyond its tolerance what would make it exact, as ``divide`` does."""
    lines = []
    for step in found.steps:
        if is_beyond(step) and isinstance(step, HeadStep) and step.ways is not None and found.head is not None:
            turn = step.ways.choice.part
            count = turn.denominator if turn.numerator == 1 else None
            asked = f"{count} divisions" if count else f"{turn} turn"
            remedies = " ".join(what_would_help(count, found.head, step.ways.choice))
            command = f"halfnut divide {count}" if count else f"halfnut divide --angle '{turn} turn'"
            lines.append(f"{step.part.name}, {asked}: {remedies} All ways: {command}")
    return tuple(lines)
