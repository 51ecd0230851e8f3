"""The fewest, or the cheapest, wheels to add so that a list of leads can be cut: found, and proven where time allows.

Options are found one size after another: first every single wheel that unlocks a lead, then every two, and so on. After
each size the best cover by the options known is asked for. A better one would need an option larger than all of
them, so the walk ends as soon as so many wheels cannot be cheaper than what is found.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from solver.jobs.wheel_cover import USUAL_EFFORT, Cover, best_covers, covers_of_whole_options, holds, order_of
from solver.jobs.wheel_options import Added, TooManySidesError, WheelOptions
from solver.jobs.wheel_report import (
    MissingQuestion,
    MissingReport,
    Progress,
    Proof,
    Stopped,
    Watch,
    WheelRole,
    WheelSet,
)
from solver.quantities.pi_multiples import Lead
from solver.trains.lathe import Lathe
from solver.trains.reach import Reach, Reached
from solver.trains.train_answer import is_pi_lead
from solver.trains.train_search import TrainQuestion, search_trains

#: Most options kept; a few hundred bytes each, with their place in the model.
MOST_OPTIONS = 400_000
#: Most deterministic time of the one solving after a walk that was stopped; by the clock it has half of it. [s]
LAST_EFFORT = 10
#: Seconds left where nobody counts them.
_PLENTY = 86_400


def missing_wheels(
    lathe: Lathe,
    question: MissingQuestion,
    *,
    watch: Watch = lambda _: True,
    seconds: Callable[[], int] = lambda: _PLENTY,
    other_sets: int = 0,
) -> MissingReport:
    """Find the best wheels to add to a lathe for a list of leads.

    Best is, in this order: most leads unlocked, lowest price, fewest wheels, fewest teeth, and further as
    ``wheel_cover`` says.

    Parameters
    ----------
    lathe : Lathe
        The lathe and its box; wheels to add join its first class.
    question : MissingQuestion
        Leads, candidates, tolerance, limits and prices.
    watch : callable, optional
        Told how far the walk is; where it answers no, the best found so far is returned, not proven.
    seconds : callable, optional
        Whole seconds left, for the constraint solver.
    other_sets : int, optional
        How many other choices as good to name.

    Returns
    -------
    MissingReport
        With its proof, or how far it came.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> stock = tuple((teeth, 1) for teeth in range(20, 125, 5))
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True,
    ...               (WheelClass("module 1", Length.of_mm(1), stock),))
    >>> leads = tuple(Length.of_mm(each) for each in ("0.75", "1", "1.25"))
    >>> report = missing_wheels(lathe, MissingQuestion(leads, tuple(range(20, 128)), Fraction(0)))
    >>> report.best.wheels, report.proof.is_proven
    ((127,), True)
    """
    now = tuple(_reach(lathe, lead, question) for lead in question.leads)
    walk = _Walk(lathe, question, [row.lead for row in now if row.reached is Reached.NOT], watch, seconds)
    stopped = walk.run()
    is_sure = stopped is None
    # The time is up where the walk was stopped: what is found is named, and no others as good are looked for.
    covers = walk.covers(1 + other_sets) if is_sure else walk.covers(1, effort=LAST_EFFORT)
    sets = [walk.wheel_set(cover) for cover in covers]
    best = sets[0] if sets else walk.wheel_set(Cover((), 0, (), is_proven=is_sure))
    reached = walk.by_lead(covers[0]) if covers else {}
    is_proven = is_sure and all(cover.is_proven for cover in covers)
    empty = [lead for lead in walk.leads if not walk.options[lead]]
    return MissingReport(
        question,
        now,
        best,
        tuple(sets[1:]),
        tuple(empty) if is_sure else (),
        tuple(lead for lead in walk.leads if walk.options[lead] and not reached[lead]),
        () if is_sure else tuple(empty),
        Proof(
            is_proven,
            walk.sizes_done,
            best.price if is_proven else walk.least_price(covers[0] if covers else None),
            walk.looked_at,
            # All options may be known, and the constraint solver still have run out of time over them.
            stopped if is_proven or stopped is not None else Stopped.TIME,
        ),
    )


def _reach(lathe: Lathe, lead: Lead, question: MissingQuestion) -> Reach:
    """Reach a lead as ``reach`` does, for either hand; a box too small for any pair reaches nothing."""
    if sum(count for each in lathe.wheel_classes for _, count in each.stock) < 2:
        return Reach(lead, Reached.NOT, None)
    asked = TrainQuestion(lead, question.hand, question.most_pairs, question.within, wanted=1)
    report = search_trains(asked, lathe)
    if not report.answers:
        return Reach(lead, Reached.NOT, report.nearest)
    best = min(report.answers, key=lambda answer: abs(answer.error.relative))
    return Reach(lead, Reached.EXACT if best.error.is_exact else Reached.WITHIN, best)


def with_wheels(lathe: Lathe, wheels: Sequence[int]) -> Lathe:
    """Return the lathe with wheels added to its first class.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1),)),)
    >>> lathe = Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, box)
    >>> with_wheels(lathe, (40, 63)).wheel_classes[0].stock
    ((40, 2), (63, 1))
    """
    for teeth in wheels:
        lathe = lathe.with_wheel(teeth)
    return lathe


class _StoppedError(Exception):
    """Carries the reason out of the walk."""

    def __init__(self, reason: Stopped) -> None:
        self.reason = reason


class _Walk:
    """Options size by size, with the best cover after each."""

    def __init__(
        self,
        lathe: Lathe,
        question: MissingQuestion,
        leads: Sequence[Lead],
        watch: Watch,
        seconds: Callable[[], int],
    ) -> None:
        self._seconds = seconds
        self._lathe = lathe
        self._question = question
        self._watch = watch
        self._finder = WheelOptions(lathe, question.candidates, most_pairs=question.most_pairs, hand=question.hand)
        self._prices, self._unit = question.prices.in_units(question.candidates)
        self._cheapest = min(self._prices.values())
        self.leads = tuple(leads)
        self.options: dict[Lead, set[Added]] = {lead: set() for lead in leads}
        self._done = dict.fromkeys(leads, 0)
        self._best: Cover | None = None
        self.sizes_done = 0

    @property
    def looked_at(self) -> int:
        return self._finder.looked_at

    def by_lead(self, cover: Cover) -> dict[Lead, bool]:
        return dict(zip(self.leads, cover.covered, strict=True))

    def run(self) -> Stopped | None:
        """Walk the sizes; return what ended the walk early."""
        try:
            for size in range(1, self._question.most_wheels + 1):
                self._walk_size(size)
        except _StoppedError as stop:
            return stop.reason
        except TooManySidesError:
            return Stopped.ROOM
        return None

    def _walk_size(self, size: int) -> None:
        """Find the options of one size that matter, those of leads without any first."""
        empty = [lead for lead in self.leads if not self.options[lead]]
        for lead in empty:
            self._find(lead, size)
        is_new = any(self.options[lead] for lead in empty)
        if is_new or self._may_be_better(size):
            for lead in self.leads:
                self._find(lead, size)
            self._best = next(iter(self.covers(1)), None)
        self.sizes_done = size

    def _may_be_better(self, size: int) -> bool:
        """Say whether a choice with an option of so many wheels could come before the best known."""
        best = self._best
        if best is None:
            return False
        if any(self.options[lead] and not covered for lead, covered in self.by_lead(best).items()):
            return True
        least = size * self._cheapest
        return least < best.price or (least == best.price and size <= len(best.wheels))

    def _find(self, lead: Lead, size: int) -> None:
        """Bring the options of one lead up to a size."""
        if self._question.within == 0 and is_pi_lead(lead):
            self._done[lead] = size  # No train cuts a multiple of pi exactly.
        for each in range(self._done[lead] + 1, size + 1):
            number, before = self.leads.index(lead) + 1, sum(map(len, self.options.values()))
            found: set[Added] = set()
            try:
                for option in self._finder.of_size(lead, self._question.within, each, self.options[lead]):
                    if option is not None:
                        found.add(option)
                    elif not self._watch(Progress(each, number, len(self.leads), self.looked_at)):
                        raise _StoppedError(Stopped.TIME)
                    if before + len(found) > MOST_OPTIONS:
                        raise _StoppedError(Stopped.ROOM)
            finally:
                self.options[lead] |= found
            self._done[lead] = each

    def covers(self, wanted: int, *, effort: int = USUAL_EFFORT) -> tuple[Cover, ...]:
        """Find the best covers by the options known; none where there is no option at all.

        An option as large as any choice worth naming is a choice by itself. Those are by far the most, so the
        constraint solver is asked for the smaller ones only.
        """
        choices = [self.options[lead] for lead in self.leads]
        if not any(choices):
            return ()
        limit = self._most_worth_taking()
        smaller = [{option for option in each if len(option) < limit} for each in choices]
        # With nothing smaller there is nothing to solve, and the constraint solver need not be loaded.
        shortest = 1 if effort == USUAL_EFFORT else effort // 2
        solved: tuple[Cover, ...] = (Cover((), 0, (False,) * len(choices), is_proven=True),)
        if any(smaller):
            solved = best_covers(
                smaller,
                self._prices,
                limit,
                wanted=wanted,
                effort=effort,
                seconds=lambda: max(shortest, self._seconds()),
            )
        is_sure = bool(solved) and solved[0].is_proven
        found = {cover.wheels: cover for cover in solved}
        if not is_sure and self._best is not None:
            # What an earlier solving found is not lost; of options found since it may cover more.
            covered = tuple(any(holds(self._best.wheels, option) for option in options) for options in choices)
            found[self._best.wheels] = self._best._replace(covered=covered)
        # Said of the same wheels, what counts their whole options too is the truth.
        found |= {cover.wheels: cover for cover in covers_of_whole_options(choices, self._prices, limit)}
        if not found:
            # The constraint solver had no time for any choice: then each option is a choice by itself.
            alone = (covers_of_whole_options(choices, self._prices, size) for size in range(1, limit))
            found = {cover.wheels: cover for covers in alone for cover in covers}
        ranked = sorted(found.values(), key=order_of)
        as_good = [cover for cover in ranked if order_of(cover)[:3] == order_of(ranked[0])[:3]]
        return tuple(cover._replace(is_proven=is_sure) for cover in as_good[:wanted])

    def _most_worth_taking(self) -> int:
        """Return how many wheels a choice that comes before the best known can have."""
        most, best = self._question.most_wheels, self._best
        if best is None or self._cheapest == 0:
            return most
        is_whole = all(covered for lead, covered in self.by_lead(best).items() if self.options[lead])
        return min(most, best.price // self._cheapest) if is_whole else most

    def least_price(self, found: Cover | None) -> Fraction:
        """Return what any choice that unlocks as many leads as the one found must cost at the least."""
        larger, smaller = (self.sizes_done + 1) * self._cheapest, self._best
        if found is None:
            return larger * self._unit
        if smaller is not None and not smaller.is_proven:
            # The constraint solver had no time to prove it: only that a wheel is needed is known.
            larger = self._cheapest
        elif smaller is not None and sum(smaller.covered) >= sum(found.covered):
            larger = min(larger, smaller.price)
        return min(larger, found.price) * self._unit

    def wheel_set(self, cover: Cover) -> WheelSet:
        """Say what the lathe does with these wheels in its box, and what each of them is for."""
        lathe = with_wheels(self._lathe, cover.wheels)
        rows = tuple(_reach(lathe, lead, self._question) for lead in self.leads)
        prices = self._question.prices
        needed = {lead: self._needed(lead, cover.wheels) for lead in self.leads}
        roles = tuple(
            WheelRole(
                teeth,
                prices.price(teeth),
                tuple(lead for lead, wheels in needed.items() if wheels == (teeth,)),
                tuple(
                    (lead, _without(wheels, teeth))
                    for lead, wheels in needed.items()
                    if teeth in wheels and len(wheels) > 1
                ),
            )
            for teeth in sorted(set(cover.wheels))
        )
        return WheelSet(cover.wheels, sum(map(prices.price, cover.wheels), Fraction(0)), rows, roles)

    def _needed(self, lead: Lead, wheels: Added) -> Added:
        """Pick the fewest wheels of a set that unlock a lead, the smaller among as many; none where none do."""
        held = (option for option in self.options[lead] if holds(wheels, option))
        return min(held, key=lambda option: (len(option), sum(option), option), default=())


def _without(wheels: Added, teeth: int) -> Added:
    at = wheels.index(teeth)
    return (*wheels[:at], *wheels[at + 1 :])
