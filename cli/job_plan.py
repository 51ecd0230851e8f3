"""The plan of a job, step by step, with the answer that each single command would give; no text in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from cli.exact_divisions import what_would_help
from cli.index_moves import divide_command
from cli.views.shop_figures import error_words
from gearsets.job_files import Job, JobPart
from gearsets.job_parts import DialPart, DividedPart, SlottedPart, ThreadPart, WormPart
from solver.dividing.heads import Head
from solver.dividing.moves import IndexAnswer
from solver.dividing.table_dial import DialTable
from solver.jobs.handling import Handling, carried_out
from solver.jobs.head_ways import HeadWays, head_ways
from solver.jobs.lathe_ways import LatheWays, lathe_ways
from solver.jobs.mending import in_file_order
from solver.jobs.planning import Plan, Tell, plan
from solver.jobs.tasks import Face, Machine, Sitting, Task, Way
from solver.quantities.angles import Angle
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

    ``answer`` and ``ways`` are ``None`` for a part that is not divided, as a single slot, and ``answer`` for one that
    goes by the dial of its table; ``face`` is the one outward for this setting, whether or not it was put on for it,
    and ``None`` where any will do.
    """

    part: JobPart
    answer: IndexAnswer | None
    ways: HeadWays | None
    face: Face | None
    handling: Handling

    @property
    def table(self) -> DialTable | None:
        """Every mark by the dial, for a table that has nothing else."""
        return None if self.ways is None else self.ways.table

    @property
    def is_divided(self) -> bool:
        """False for a part that is cut as it stands, as a single slot."""
        return self.ways is not None

    @property
    def error(self) -> Angle:
        """What the division is judged by: the worst mark by a dial, else the error at closure or of the one angle."""
        if self.table is not None:
            return self.table.worst
        if self.answer is None or self.ways is None:
            return Angle(Fraction(0))
        return self.ways.error(self.answer)

    @property
    def error_is(self) -> str:
        """Where that error is met."""
        if self.table is not None:
            return "at any mark"
        return "at closure" if self.divisions else "off the angle"

    @property
    def divisions(self) -> int | None:
        """Equal parts of the round; ``None`` for one angle."""
        product = self.part.product
        if isinstance(product, DividedPart):
            return product.count
        return None if isinstance(product, ThreadPart | WormPart) else product.turn.denominator

    def command(self, head_word: str) -> str:
        """Write the command that answers for this division alone, on the same head."""
        if self.ways is None:
            raise TypeError("what is not divided has no such command")
        asked = f"{self.divisions}" if self.divisions else f"--angle '{self.ways.choice.part} turn'"
        return divide_command(asked, head_word)


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
    # An angle is one move by itself; everything else closes a round.
    moves = 1 if isinstance(product, DividedPart) and product.count is None else None
    methods = (part.method,) if part.method else ()
    divided = head_ways(head, product.turn, methods=methods, within=part.within, moves=moves)
    if not divided.answers and divided.table is None:
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
    divided = found.divided
    answer = None if divided is None or divided.table is not None else divided.answers[way.rank]
    return HeadStep(part, answer, divided, way.face, handling)


def is_beyond(step: LatheStep | HeadStep) -> bool:
    """Say whether the head divides a part no nearer than beyond its tolerance; without one it is to be exact."""
    return isinstance(step, HeadStep) and abs(step.error.turns) > step.part.within


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
            count, command = step.divisions, step.command(found.job.head_word)
            asked = f"{count} divisions" if count else f"{step.ways.choice.part} turn"
            if step.table is not None:
                close = ceil(step.error.arcsec)
                lines.append(
                    f'{step.part.name}, {asked}: its dial keeps every mark within = "{close} sec". See: {command}'
                )
                continue
            remedies = " ".join(what_would_help(count, found.head, step.ways.choice))
            lines.append(f"{step.part.name}, {asked}: {remedies} All ways: {command}")
    return tuple(lines)
