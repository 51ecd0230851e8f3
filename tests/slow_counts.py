"""Tooth counts found the obvious slow way: every choice of drivers with every choice of driven wheels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations_with_replacement, product
from math import prod

#: Drivers and driven wheels, each by rising teeth.
Choice = tuple[tuple[int, ...], tuple[int, ...]]


def every_choice(counts: Sequence[int], pairs: int) -> Iterator[Choice]:
    """Yield every train, order apart; of several pairs those in which no driver has the teeth of a driven wheel."""
    sides = list(combinations_with_replacement(sorted(counts), pairs))
    for drivers, driven in product(sides, sides):
        if pairs == 1 or not set(drivers) & set(driven):
            yield drivers, driven


def error_of(choice: Choice, ratio: Fraction) -> Fraction:
    return Fraction(prod(choice[0]), prod(choice[1])) / ratio - 1


def ranked(counts: Sequence[int], ratio: Fraction, pairs: int) -> list[tuple[Fraction, Fraction, int]]:
    """List the size of the error, the ratio and the teeth of every train, nearest first."""
    rows = (
        (abs(error_of(choice, ratio)), Fraction(prod(choice[0]), prod(choice[1])), sum(choice[0]) + sum(choice[1]))
        for choice in every_choice(counts, pairs)
    )
    return sorted(rows)


def on_one_distance(counts: Sequence[int], ratio: Fraction, pairs: int) -> list[tuple[Fraction, int]]:
    """List the size of the error and the sum of every train of equal sums whose pairs do not undo each other."""
    rows = []
    singles = list(product(counts, counts))
    for chosen in combinations_with_replacement(singles, pairs):
        undone = any(
            (one[1], one[0]) == other and one[0] != one[1]
            for place, one in enumerate(chosen)
            for other in chosen[place + 1 :]
        )
        if len({sum(pair) for pair in chosen}) == 1 and not undone:
            made = Fraction(prod(pair[0] for pair in chosen), prod(pair[1] for pair in chosen))
            rows.append((abs(made / ratio - 1), sum(chosen[0])))
    return sorted(rows)


def best_product_error(counts: Sequence[int], ratio: Fraction, pairs: int) -> Fraction:
    """Try every product against every other in whole numbers: what the benchmark calls plain enumeration."""
    products = sorted({prod(chosen) for chosen in combinations_with_replacement(counts, pairs)})
    top, bottom = ratio.numerator, ratio.denominator
    best_off, best_whole = 1, 0
    for above in products:
        scaled = above * bottom
        for below in products:
            whole = below * top
            off = abs(scaled - whole)
            if off * best_whole < best_off * whole:
                best_off, best_whole = off, whole
    return Fraction(best_off, best_whole)
