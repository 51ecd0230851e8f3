"""Which tooth counts a person can make: between smallest and largest, divided by the head, cut by the cutters."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from typing import NamedTuple

from solver.dividing.choosing import exact_methods
from solver.dividing.heads import Head
from solver.dividing.moves import Method
from solver.dividing.table_dial import dial_divides
from solver.refusals import ImpossibleSettingError
from solver.wheelwork.tooth_cutting import SpurTooth

#: Fewest and most teeth a wheel of a train may have. [teeth]
FEWEST_TEETH = 5
MOST_TEETH = 1000
#: Methods that can divide exactly.
EXACT_METHODS = (Method.DIRECT, Method.PLAIN, Method.DIFFERENTIAL, Method.COMPOUND)


@dataclass(frozen=True, slots=True)
class WheelLimits:
    """What bounds the counts.

    Parameters
    ----------
    smallest : int
        Fewest teeth of any wheel. [teeth]
    largest : int
        Most teeth of any wheel. [teeth]
    head : Head or None
        Only counts it divides exactly; ``None`` leaves that out.
    methods : collection of Method
        Only by these; none named stands for any exact one.
    tooth : SpurTooth or None
        Size of tooth, where cutters are numbered.
    cutters : tuple of int or None
        Numbers of the cutters at hand; ``None`` leaves that out.
    clean_from : int or None
        Fewest teeth without undercut, where no undercut is allowed. [teeth]
    """

    smallest: int
    largest: int
    head: Head | None = None
    methods: Collection[Method] = ()
    tooth: SpurTooth | None = None
    cutters: tuple[int, ...] | None = None
    clean_from: int | None = None


class Left(NamedTuple):
    """Counts that one bound leaves out."""

    because: str
    counts: tuple[int, ...]


class AllowedCounts(NamedTuple):
    """The counts that may be used, by rising teeth, and what each bound left out of the run."""

    counts: tuple[int, ...]
    left_out: tuple[Left, ...]


def allowed_counts(limits: WheelLimits) -> AllowedCounts:
    """List the counts within every bound.

    Parameters
    ----------
    limits : WheelLimits
        The bounds.

    Returns
    -------
    AllowedCounts
        At least two counts, and why the others are left out, each named once.

    Raises
    ------
    ImpossibleSettingError
        The bounds are out of range, the wrong way round, or leave fewer than two counts.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),))
    >>> found = allowed_counts(WheelLimits(12, 30, head, (Method.PLAIN,)))
    >>> found.counts
    (12, 15, 16, 17, 18, 19, 20, 24, 25, 30)
    >>> found.left_out[0].because, found.left_out[0].counts[:3]
    ('the head does not divide them exactly by plain', (13, 14, 21))
    """
    _refuse_bad_run(limits)
    kept = list(range(limits.smallest, limits.largest + 1))
    left_out = []
    for because, serves in _bounds(limits):
        away = tuple(count for count in kept if not serves(count))
        if away:
            left_out.append(Left(because, away))
            kept = [count for count in kept if serves(count)]
        if len(kept) < 2:
            raise ImpossibleSettingError(
                f"between {limits.smallest} and {limits.largest} teeth fewer than two counts are left: {because}",
                help_text="Widen --smallest and --largest, or allow more cutters, undercut or methods of dividing.",
            )
    return AllowedCounts(tuple(kept), tuple(left_out))


def _refuse_bad_run(limits: WheelLimits) -> None:
    if limits.smallest < FEWEST_TEETH or limits.largest > MOST_TEETH:
        raise ImpossibleSettingError(
            f"wheels of {limits.smallest} to {limits.largest} teeth were asked for",
            help_text=f"A wheel of a train has {FEWEST_TEETH} to {MOST_TEETH} teeth.",
        )
    if limits.smallest >= limits.largest:
        raise ImpossibleSettingError(
            f"the smallest wheel, {limits.smallest} teeth, is not below the largest, {limits.largest}",
            help_text="Give a --largest above --smallest; with a size of tooth both may be outside diameters.",
        )


#: Why counts are left out, and what keeps one in.
_Bound = tuple[str, Callable[[int], bool]]


def _bounds(limits: WheelLimits) -> list[_Bound]:
    """List the bounds in order: those that cost least to look at first."""
    bounds: list[_Bound] = []
    clean, tooth, cutters, head = limits.clean_from, limits.tooth, limits.cutters, limits.head
    if clean is not None:
        bounds.append((f"undercut begins below {clean} teeth", lambda count: count >= clean))
    if cutters is not None and tooth is not None:
        numbers = ", ".join(map(str, cutters))
        bounds.append((f"no cutter among {numbers} is for them", lambda count: tooth.cutter(count) in cutters))
    if head is not None:
        ways = " or ".join(method.value for method in limits.methods) or "any method"
        bounds.append(
            (f"the head does not divide them exactly by {ways}", lambda count: divides(head, count, limits.methods))
        )
    return bounds


def divides(head: Head, count: int, methods: Collection[Method] = ()) -> bool:
    """Say whether a head divides a count exactly, by any of some methods or by any at all.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),), (24,))
    >>> divides(head, 51), divides(head, 51, (Method.PLAIN,)), divides(head, 50, (Method.PLAIN,))
    (True, False, True)
    """
    return word_of_dividing(head, count, methods) is not None


def word_of_dividing(head: Head, count: int, methods: Collection[Method] = ()) -> str | None:
    """Name what divides a count exactly: the first of the methods, or the dial of a table that has nothing else.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.dividing.table_dial import USUAL_READING
    >>> table = Head("table", Fraction(90), (), dial_reading=USUAL_READING)
    >>> [word_of_dividing(table, count) for count in (9, 8, 7)]
    ['plain', 'dial', None]
    """
    way = way_of_dividing(head, count, methods)
    if way is not None:
        return way.value
    # A method that is asked for is one of plates and holes.
    return "dial" if not methods and dial_divides(head, count) else None


def way_of_dividing(head: Head, count: int, methods: Collection[Method] = ()) -> Method | None:
    """Name the first of the methods that divides a count exactly; ``None`` for none.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),), (24,))
    >>> way_of_dividing(head, 8), way_of_dividing(head, 8, (Method.PLAIN,))
    (<Method.DIRECT: 'direct'>, <Method.PLAIN: 'plain'>)
    """
    return next(exact_methods(head, count, methods), None)
