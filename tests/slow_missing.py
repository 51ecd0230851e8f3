"""Wheels to add the slow way: every handful of candidates laid in the box, and the whole box tried anew each time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import combinations_with_replacement
from typing import NamedTuple

from solver.quantities.pi_multiples import Lead
from solver.trains.lathe import Lathe
from tests.slow_answers import mountable, slow_matches


class SlowChoice(NamedTuple):
    """A handful of wheels, with the leads that the lathe then cuts."""

    wheels: tuple[int, ...]
    cut: tuple[bool, ...]


class TooCloseToTellError(Exception):
    """The slow way works in floats and will not say."""


def with_added(lathe: Lathe, wheels: Sequence[int]) -> Lathe:
    for teeth in wheels:
        lathe = lathe.with_wheel(teeth)
    return lathe


def is_cut(lathe: Lathe, lead: Lead, within: Fraction, most_pairs: int) -> bool:
    """Say whether any train near enough can be mounted by any placing and any idlers."""
    is_unsure = False
    for pairs in range(1, most_pairs + 1):
        for match in slow_matches(lathe, lead, pairs):
            verdict = match.error <= within and mountable(match, lathe)
            if verdict:
                return True
            is_unsure |= verdict is None
    if is_unsure:
        raise TooCloseToTellError
    return False


def every_choice(
    lathe: Lathe, leads: Sequence[Lead], candidates: Sequence[int], within: Fraction, most: int, most_pairs: int
) -> Iterator[SlowChoice]:
    """Yield every handful of up to so many candidates, none first; leads cut with no wheel added count too."""
    for size in range(most + 1):
        for wheels in combinations_with_replacement(sorted(set(candidates)), size):
            richer = with_added(lathe, wheels)
            yield SlowChoice(wheels, tuple(is_cut(richer, lead, within, most_pairs) for lead in leads))


def rank(choice: SlowChoice, prices: Mapping[int, Fraction]) -> tuple[object, ...]:
    """More leads, lower price, fewer wheels, fewer teeth, then lower sums of squares and of cubes."""
    return (
        -sum(choice.cut),
        sum((prices[teeth] for teeth in choice.wheels), Fraction(0)),
        len(choice.wheels),
        *(sum(teeth**power for teeth in choice.wheels) for power in (1, 2, 3)),
    )
