"""Choosing a method: what each of them gives for one count or angle on one head, side by side.

Direct and plain win where they are exact. Else one geared motion comes before two ungeared ones, and both before the
nearest hole.

Two circles come nearer than any head holds: a shop head is good to about a minute of arc, and a residue of less than a
second is below what it can show. Among inexact settings on two circles those within both, under a second each move and
under a minute when the round closes, are therefore as good as the head. They lead, and among them whatever is easier
on the hand: fewer divisions at a time; then the lesser error at closure, all under a second being alike; then both
motions forwards; then fewer turns. The others follow by their error. None is left out, so the nearest is there too.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from solver.dividing.compound import MOST_AT_ONCE, can_compound, compound
from solver.dividing.differential import can_gear, differential
from solver.dividing.divide import exact_settings, nearest_settings, refuse_beyond_a_turn
from solver.dividing.heads import Head
from solver.dividing.moves import IndexAnswer, Method
from solver.dividing.skipping import has_longer_steps
from solver.refusals import ImpossibleSettingError


class MethodReport(NamedTuple):
    """What one method gives: its settings, the one to take first; when there are none, what stands in the way.

    ``most_at_once`` is set where more divisions at a time than were looked at may come nearer, or, on a broken worm
    ratio, be exact.
    """

    method: Method
    answers: tuple[IndexAnswer, ...]
    obstacle: str = ""
    remedy: str = ""
    most_at_once: int | None = None

    @property
    def is_exact(self) -> bool:
        """True when the best setting is exact.

        Examples
        --------
        >>> MethodReport(Method.PLAIN, ()).is_exact
        False
        """
        return bool(self.answers) and self.answers[0].is_exact

    @property
    def nearest(self) -> IndexAnswer | None:
        """The setting of least error, the first among equals; not always the first of all.

        Examples
        --------
        >>> MethodReport(Method.PLAIN, ()).nearest is None
        True
        """
        return min(self.answers, key=_error, default=None)

    def leading(self, most: int) -> tuple[IndexAnswer, ...]:
        """Pick the settings worth a look first, in their own order.

        The first and the nearest, then those that no other betters in error, divisions at a time and direction at
        once, the fewest divisions first; what room is left goes to the rest as they are ranked.

        Examples
        --------
        >>> MethodReport(Method.PLAIN, ()).leading(5)
        ()
        """
        kept: list[IndexAnswer] = []
        for answer in sorted(self.answers, key=_error):
            # Those before it are at least as near.
            if not any(_is_as_easy(before, answer) for before in kept):
                kept.append(answer)
        by_id = {id(answer): answer for answer in (*self.answers[:1], *kept[:1], *sorted(kept[1:], key=_divisions))}
        chosen = set(list(by_id)[:most])
        for answer in self.answers:
            if len(chosen) >= most:
                break
            chosen.add(id(answer))
        return tuple(answer for answer in self.answers if id(answer) in chosen)


def _error(answer: IndexAnswer) -> Fraction:
    return abs(answer.error_per_move.turns)


def _divisions(answer: IndexAnswer) -> int:
    return answer.at_once


def _is_as_easy(answer: IndexAnswer, other: IndexAnswer) -> bool:
    return answer.at_once <= other.at_once and answer.runs_both_ways <= other.runs_both_ways


@dataclass(frozen=True, slots=True)
class ChoiceReport:
    """Every method asked for, for one part of a turn.

    Parameters
    ----------
    part : Fraction
        Turns of the work for one division.
    at_once : int
        Divisions asked for at each move.
    crank_turns : Fraction
        Exact turns of the crank for one such move with the plate locked.
    methods : tuple of MethodReport
        The exact ones first, in the order direct, plain, differential, compound; then the others by their error.
    """

    part: Fraction
    at_once: int
    crank_turns: Fraction
    methods: tuple[MethodReport, ...]

    @property
    def best(self) -> IndexAnswer | None:
        """The first setting of the first method that has any.

        Examples
        --------
        >>> ChoiceReport(Fraction(1, 8), 1, Fraction(5), ()).best is None
        True
        """
        return next((report.answers[0] for report in self.methods if report.answers), None)

    @property
    def is_exact(self) -> bool:
        """True when some method is exact.

        Examples
        --------
        >>> ChoiceReport(Fraction(1, 8), 1, Fraction(5), ()).is_exact
        False
        """
        return self.best is not None and self.best.is_exact

    @property
    def circle_needed(self) -> int:
        """Holes of the circle that makes it plain; a multiple serves too.

        Examples
        --------
        >>> ChoiceReport(Fraction(1, 127), 1, Fraction(40, 127), ()).circle_needed
        127
        """
        return self.crank_turns.denominator


def choose(head: Head, part: Fraction, *, methods: Collection[Method] = (), at_once: int | None = None) -> ChoiceReport:
    """Ask every method, or some, for one part of a turn.

    Parameters
    ----------
    head : Head
        With whatever it has.
    part : Fraction
        Turns of the work for one division, above 0 and at most 1.
    methods : collection of Method, optional
        Only these. When none is named, direct and plain are alone in the answer where they are exact, and every other
        method is asked where they are not.
    at_once : int, optional
        Divisions each move, sharing no factor with the count. When it is left out every method moves one, and
        compound may move several.

    Returns
    -------
    ChoiceReport
        Methods without a setting are there too, with what stands in their way.

    Raises
    ------
    ImpossibleSettingError
        The part is not above 0 and at most a turn.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> wheels = ((24, 2), (32, 1), (44, 1), (48, 1), (56, 1))
    >>> head = Head("40:1", Fraction(40), (Plate("C", ((39, 49),)),), wheels=wheels)
    >>> [(each.method.value, each.is_exact) for each in choose(head, Fraction(1, 127)).methods if each.answers]
    [('differential', True), ('compound', False), ('nearest', False)]
    """
    step = at_once or 1
    wanted = part * step
    refuse_beyond_a_turn(wanted)
    exact = exact_settings(head, wanted)
    reports = [_simple(head, method, exact, step) for method in _SIMPLE if not methods or method in methods]
    if not methods and exact:
        reports = [report for report in reports if report.answers]
    else:
        reports += [_other(head, part, method, at_once) for method in _OTHERS if not methods or method in methods]
    return ChoiceReport(part, step, wanted * head.worm_ratio, tuple(sorted(reports, key=_rank)))


#: Methods in order of preference: those that win where they are exact, and those asked where they are not.
_SIMPLE = (Method.DIRECT, Method.PLAIN)
_OTHERS = (Method.DIFFERENTIAL, Method.COMPOUND, Method.NEAREST)


def _rank(report: MethodReport) -> tuple[int, Fraction]:
    if not report.answers:
        return 2, Fraction(0)
    # The sort is stable, so exact methods keep the order of preference.
    return int(not report.is_exact), abs(report.answers[0].error_at_closure.turns)


def _simple(head: Head, method: Method, exact: tuple[IndexAnswer, ...], step: int) -> MethodReport:
    answers = tuple(replace(answer, at_once=step) for answer in exact if answer.method is method)
    if answers:
        return MethodReport(method, answers)
    if method is Method.PLAIN:
        return MethodReport(method, (), "no circle on the plates has the holes for it")
    if not head.direct_circles:
        return MethodReport(method, (), "this head has no holes that lock the spindle itself")
    circles = ", ".join(map(str, head.direct_circles))
    return MethodReport(method, (), f"the spindle's own circles ({circles}) do not divide so")


def _other(head: Head, part: Fraction, method: Method, at_once: int | None) -> MethodReport:
    step = at_once or 1
    try:
        if method is Method.DIFFERENTIAL:
            answers = differential(head, part * step, at_once=step)
            return MethodReport(method, answers, "" if answers else "no train of one or two pairs in the box is exact")
        if method is Method.COMPOUND:
            answers = compound(head, part, at_once=at_once)
            every = at_once is not None or answers[0].is_exact or not has_longer_steps(part, MOST_AT_ONCE)
            return MethodReport(method, _as_held(answers), most_at_once=None if every else MOST_AT_ONCE)
        return MethodReport(method, tuple(replace(each, at_once=step) for each in nearest_settings(head, part * step)))
    except ImpossibleSettingError as refusal:
        return MethodReport(method, (), refusal.message, refusal.help_text)


#: What a residue must stay under to be lost in the head's own: each move, and when the round closes. [turns]
_SECOND, _MINUTE = Fraction(1, 1_296_000), Fraction(1, 21_600)


def _as_held(answers: tuple[IndexAnswer, ...]) -> tuple[IndexAnswer, ...]:
    """Put the inexact settings that are as good as the head before the others, and the easiest of them first."""
    if answers[0].is_exact:
        return answers
    held = [answer for answer in answers if _is_held(answer)]
    return (*sorted(held, key=_by_hand), *(answer for answer in answers if not _is_held(answer)))


def _is_held(answer: IndexAnswer) -> bool:
    return _error(answer) < _SECOND and abs(answer.error_at_closure.turns) < _MINUTE


def _by_hand(answer: IndexAnswer) -> tuple[object, ...]:
    turned = sum(abs(move.value) for move in answer.moves)
    return answer.at_once, max(abs(answer.error_at_closure.turns), _SECOND), answer.runs_both_ways, turned


def exact_methods(head: Head, count: int, methods: Collection[Method] = ()) -> Iterator[Method]:
    """Name every method that divides a count exactly, in order of preference, looking for no more than is asked.

    Parameters
    ----------
    head : Head
        With whatever it has.
    count : int
        Divisions of a turn.
    methods : collection of Method, optional
        Only these; none named stands for all.

    Yields
    ------
    Method
        The one that is preferred first; the next is looked for when it is asked for.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),), (24,))
    >>> [[each.value for each in exact_methods(head, count)] for count in (8, 48, 51, 127)]
    [['direct', 'plain', 'compound'], ['plain', 'compound'], ['compound'], []]
    """
    part = Fraction(1, count)
    simple = dict.fromkeys(answer.method for answer in exact_settings(head, part))
    yield from (method for method in simple if not methods or method in methods)
    for method, can_divide in ((Method.DIFFERENTIAL, can_gear), (Method.COMPOUND, can_compound)):
        if (not methods or method in methods) and can_divide(head, part):
            yield method
