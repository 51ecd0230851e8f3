"""Skipping: several divisions at each move, and the order in which the marks then come."""

from __future__ import annotations

from fractions import Fraction
from math import gcd

from solver.refusals import ImpossibleSettingError


def steps_prime_to(part: Fraction, most: int) -> tuple[int, ...]:
    """List how many divisions a move may carry the work on, so that every mark is met; 1 alone for an angle.

    Parameters
    ----------
    part : Fraction
        Turns of the work for one division: 1 over the count, or an angle.
    most : int
        Longest step wanted.

    Examples
    --------
    >>> steps_prime_to(Fraction(1, 106), 9), steps_prime_to(Fraction(1, 2), 9), steps_prime_to(Fraction(5, 48), 9)
    ((1, 3, 5, 7, 9), (1,), (1,))
    """
    count = part.denominator
    if part.numerator != 1:
        return (1,)
    return (1, *(step for step in range(2, min(most, count - 1) + 1) if gcd(step, count) == 1))


def has_longer_steps(part: Fraction, most: int) -> bool:
    """Say whether a count has steps longer than the most that share no factor with it; an angle has none.

    Examples
    --------
    >>> [has_longer_steps(part, 9) for part in (Fraction(1, 106), Fraction(1, 10), Fraction(5, 106))]
    [True, False, False]
    """
    # One less than the count shares no factor with it.
    return part.numerator == 1 and part.denominator - 1 > most


def refuse_unmet_marks(count: int, step: int) -> None:
    """Refuse a step that leaves marks out.

    Raises
    ------
    ImpossibleSettingError
        The step shares a factor with the count, or is not shorter than a round.

    Examples
    --------
    >>> refuse_unmet_marks(106, 4)
    Traceback (most recent call last):
    solver.refusals.ImpossibleSettingError: 4 divisions at a time meet only 53 of 106 marks: both divide by 2
    Take a step that shares no factor with the count, for example 5 or 7.
    """
    if step == 1:
        return
    near = [each for each in steps_prime_to(Fraction(1, count), step + 3) if each != 1][-2:]
    help_text = (
        f"Take a step that shares no factor with the count, for example {' or '.join(map(str, near))}."
        if near
        else "This count has no such step; move one division at a time."
    )
    if step == count:
        raise ImpossibleSettingError(
            f"{step} divisions at a time are a whole round of {count}: each move comes back to the first mark",
            help_text=help_text,
        )
    if step > count:
        raise ImpossibleSettingError(
            f"{step} divisions at a time go past a whole round of {count}", help_text=help_text
        )
    common = gcd(step, count)
    if common > 1:
        raise ImpossibleSettingError(
            f"{step} divisions at a time meet only {count // common} of {count} marks: both divide by {common}",
            help_text=help_text,
        )


def order_of_marks(count: int, step: int) -> tuple[int, ...]:
    """List the marks in the order they are cut, from 0; the move after the last comes back to 0.

    Examples
    --------
    >>> order_of_marks(7, 3)
    (0, 3, 6, 2, 5, 1, 4)
    """
    return tuple(number * step % count for number in range(count))
