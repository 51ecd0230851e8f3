"""A schedule of passes of equal chip area, none shallower than the least, adding up to the depth.

The groove is taken as a V with the flat of the tool at its bottom; a rounded nose is taken as a sharp V, whose
depth after pass k of n is the total times the root of k/n. Where the next pass of equal area would be shallower
than the least, the rest is shared out in equal passes not shallower than it. Every reading but the last is
rounded down to a step of the dial, from the depth worked out, and the least is whole steps: so no pass falls below
it. The last is the whole depth itself, wherever it stands between two marks. What the passes add is then put in order,
the heaviest first, and the last gives a step to another where it would still be the heavier of the two. Where the least
cut forbids that, the passes as light as its whole steps are shared out anew in fewer, a step heavier, none of them
heavier than the first: so no pass is heavier than the one before it, but for the last, and that by less than a step,
where no sharing out of the whole steps does that, or the passes were asked for by number.
"""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from itertools import pairwise
from math import ceil
from typing import NamedTuple

from solver.quantities.circle_figures import square_root
from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import in_both_units
from solver.refusals import ImpossibleSettingError
from solver.threads.infeed import Infeed

#: Usual first cut and least cut, on the radius. Common practice on light lathes, no source.
FIRST_CUT = Length.of_mm("0.25")
LEAST_CUT = Length.of_mm("0.02")
#: With nothing else asked, a thread is cut in at least and at most so many passes of equal area. Common practice.
FEWEST_PASSES = 6
USUAL_MOST_PASSES = 40
#: Most passes that are listed.
MOST_PASSES = 500


class Pass(NamedTuple):
    """One pass: where the slides stand after the tool is set in.

    Parameters
    ----------
    number : int
        From 1.
    depth, slide_travel : Length
        Reading of the cross slide (straight in), or of the top slide, from first touch; whole steps of the dial, but
        for the last, which is the whole depth.
    adds : Length
        How much deeper than the pass before, by those readings.
    is_spring : bool
        True for a pass without further infeed.
    """

    number: int
    depth: Length
    slide_travel: Length
    adds: Length
    is_spring: bool = False


class LeastBasis(Enum):
    """Where the least cut comes from; the value is how it is said."""

    ASKED = "as asked"
    USUAL = "usual on light lathes, practice"
    SHALLOW = "a tenth of so shallow a depth, practice"
    DIAL = "one step of the dial"


class Cuts(NamedTuple):
    """Deepest first pass and shallowest pass.

    Parameters
    ----------
    first : Length
        On the radius, as asked or usual.
    least : Length
        On the radius, in whole steps of the dial; no pass is shallower, but spring passes take nothing by design.
    basis : LeastBasis
        Where the least comes from.
    """

    first: Length
    least: Length
    basis: LeastBasis


def choose_cuts(
    depth: Length, step: Length, *, first: Length | None, least: Length | None, flat: Length, slope: Fraction
) -> Cuts:
    """Settle the first and the least cut of a schedule.

    Parameters
    ----------
    depth, step : Length
        Whole depth on the radius, and the step of the dial.
    first, least : Length or None
        As asked; the usual ones where not.
    flat : Length
        Flat at the bottom of the tool.
    slope : Fraction
        Tangent of the half angle of the tool.

    Raises
    ------
    ImpossibleSettingError
        The least cut asked is more than the whole depth, or the first cut asked is below the least.

    Examples
    --------
    >>> found = choose_cuts(Length.of_mm(1), Length.of_inches("0.0005"), first=None, least=None,
    ...     flat=Length.of_mm(0), slope=Fraction(1))
    >>> found.least.inches, found.basis.value
    (Fraction(1, 1000), 'usual on light lathes, practice')
    """
    if least is not None and least > depth:
        raise ImpossibleSettingError(
            f"A least cut of {in_both_units(least)} is more than the whole depth, {in_both_units(depth)}.",
            help_text="Give a smaller --least-cut.",
        )
    wanted, basis = min(
        (LEAST_CUT, LeastBasis.USUAL), (depth * Fraction(1, 10), LeastBasis.SHALLOW), key=lambda each: each[0]
    )
    if step > wanted:
        wanted, basis = step, LeastBasis.DIAL
    if least is not None:
        wanted, basis = least, LeastBasis.ASKED
    whole = min(step * ceil(wanted / step), depth)
    if first is not None and first < whole:
        raise ImpossibleSettingError(
            f"A first cut of {in_both_units(first)} is below the least cut, {in_both_units(whole)} in whole steps of "
            "the dial.",
            help_text="Give a deeper --first-cut or a smaller --least-cut.",
        )
    return Cuts(first or max(whole, usual_first_cut(depth, flat, slope)), whole, basis)


def usual_first_cut(depth: Length, flat: Length, slope: Fraction) -> Length:
    """Return the usual first cut, less where it would make fewer than six passes of equal area, more where over forty.

    Examples
    --------
    >>> usual_first_cut(Length.of_mm(1), Length.of_mm(0), Fraction(1)).mm
    Fraction(1, 4)
    """
    area = _area(depth, flat, slope)
    lightest = _depth_of(area / USUAL_MOST_PASSES, flat, slope)
    return max(lightest, min(FIRST_CUT, _depth_of(area / FEWEST_PASSES, flat, slope)))


def cumulative_depths(
    depth: Length, first: Length, least: Length, *, flat: Length, slope: Fraction
) -> tuple[Length, ...]:
    """Return the depth after each pass, unrounded; the last is the whole depth.

    Where a depth cannot keep both, the least cut is kept and the first is passed by less than it.

    Parameters
    ----------
    depth : Length
        Whole depth on the radius.
    first, least : Length
        Deepest first cut, and the shallowest pass worth making.
    flat : Length
        Flat at the bottom of the tool; zero for a sharp or rounded one.
    slope : Fraction
        Tangent of the half angle of the tool.

    Raises
    ------
    ImpossibleSettingError
        The first cut or the least cut is not above zero, the first is below the least, or the passes are too many.

    Examples
    --------
    >>> [str(each.mm) for each in cumulative_depths(
    ...     Length.of_mm(1), Length.of_mm("0.5"), Length.of_mm("0.1"), flat=Length.of_mm(0), slope=Fraction(1))][::3]
    ['1/2', '1']
    """
    if least.mm <= 0 or first < least:
        raise ImpossibleSettingError(
            "The first cut and the least cut are above zero, and the first is not below the least.",
            help_text="For example --first-cut 0.25mm --least-cut 0.02mm.",
        )
    total = _area(depth, flat, slope)
    count = max(1, -(-total // _area(min(first, depth), flat, slope)))
    if count > MOST_PASSES:
        raise ImpossibleSettingError(
            f"A first cut so light makes more than {MOST_PASSES} passes.", help_text="Give a deeper --first-cut."
        )
    found = [_depth_of(total * number / count, flat, slope) for number in range(1, count)]
    kept: list[Length] = []
    for each in [*found, depth]:
        before = kept[-1] if kept else Length(Fraction(0))
        if each - before < least:
            if depth - before < least and kept:
                # Too little is left for a pass of its own: it is shared with the pass before.
                kept.pop()
                before = kept[-1] if kept else Length(Fraction(0))
            rest = depth - before
            even = max(1, int(rest / least))
            return (*kept, *(before + rest * Fraction(number, even) for number in range(1, even)), depth)
        kept.append(each)
    return tuple(kept)


def equal_passes(depth: Length, count: int, *, flat: Length, slope: Fraction) -> tuple[Length, ...]:
    """Return the depth after each of so many passes of equal area, unrounded.

    Examples
    --------
    >>> from solver.quantities.exact_numbers import decimal_text
    >>> passes = equal_passes(Length.of_mm("0.920152"), 6, flat=Length.of_mm(0), slope=Fraction(1))
    >>> [decimal_text(each.mm, 4) for each in passes]
    ['0.3757', '0.5313', '0.6506', '0.7513', '0.8400', '0.9202']
    """
    total = _area(depth, flat, slope)
    return (*(_depth_of(total * number / count, flat, slope) for number in range(1, count)), depth)


def schedule(
    depths: tuple[Length, ...],
    feed: Infeed,
    step: Length,
    springs: int,
    least: Length | None = None,
    slide_step: Length | None = None,
    *,
    slide_to_nearest: bool = False,
) -> tuple[Pass, ...]:
    """Turn depths into readings of the dials, and add the spring passes.

    Parameters
    ----------
    depths : tuple of Length
        Depth after each pass; the last is the depth of ``feed``.
    feed : Infeed
        Straight in, or with the top slide set over.
    step : Length
        Smallest step read on the dial, above zero.
    springs : int
        Passes without further infeed at the end.
    least : Length, optional
        Shallowest pass, in whole steps; where none is given the passes were asked for by number and keep it.
    slide_step : Length, optional
        Step of the top slide, where its dial is another.
    slide_to_nearest : bool, optional
        The top slide has a dial of its own, and reads the nearest mark of it; else down, as the cross slide.

    Returns
    -------
    tuple of Pass
        A pass that the dial cannot tell from the one before is left out; the last reads the whole depth, unrounded.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> from solver.threads.infeed import infeed
    >>> feed = infeed(Length.of_mm("0.92"), FORMS["iso"])
    >>> [each.number for each in schedule((Length.of_mm("0.5"), feed.depth), feed, Length.of_mm("0.01"), 1)]
    [1, 2, 3]
    """
    made: list[Pass] = []
    nothing = before = Length(Fraction(0))
    for steps in _in_order(depths, step, least)[:-1]:
        reads = before + step * steps
        travel = _whole_steps(feed.slide_travel * (reads / feed.depth), slide_step or step, nearest=slide_to_nearest)
        made.append(Pass(len(made) + 1, reads, travel, reads - before))
        before = reads
    last = Pass(len(made) + 1, feed.depth, feed.slide_travel, feed.depth - before)
    made.append(last)
    again = [last._replace(number=last.number + each, adds=nothing, is_spring=True) for each in range(1, springs + 1)]
    return (*made, *again)


def _in_order(depths: tuple[Length, ...], step: Length, least: Length | None) -> list[int]:
    """Whole steps that each pass adds, the heaviest first; what is left of the depth comes on top of the last."""
    marks = [int(each / step) for each in depths]
    adds = [after - before for before, after in pairwise((0, *marks))]
    # A pass the dial cannot tell from the one before is left out; the last is the whole depth.
    last = adds.pop()
    adds = sorted([each for each in adds if each] + [last], reverse=True)
    over = depths[-1] - step * marks[-1]
    last = adds.pop()
    if adds and over.mm > 0 and last == adds[-1]:
        if step * (last - 1) + over >= (least or step):
            last -= 1
            adds[-1] += 1
        elif least is not None:
            adds = _heavier_than(last, adds)
    return [*sorted(adds, reverse=True), last]


def _heavier_than(light: int, adds: list[int]) -> list[int]:
    """Share the passes of so few steps out anew, each a step heavier at the least; as they are where none may be so."""
    found = [each for each in adds if each > light]
    fewer, left = divmod(light * (len(adds) - len(found)), light + 1)
    found += [light + 1] * fewer
    for _ in range(left if found else 0):
        # The lightest takes a step, of several the last.
        place = min(range(len(found)), key=lambda each: (found[each], -each))
        found[place] += 1
    if found and max(found) <= max(adds):
        return found
    # Even shares reach lower than any others.
    count, steps = sum(adds) // (light + 1), sum(adds)
    even = [(steps + place) // count for place in range(count)] if count else adds
    return adds if max(even) > max(adds) else even


def dial_step(depth: Length, usual: Length) -> Length:
    """Return the usual step of the dial, or a tenth of it for a thread shallower than twenty steps.

    Examples
    --------
    >>> dial_step(Length.of_mm("0.05"), Length.of_mm("0.01"))
    Length(mm=Fraction(1, 1000))
    """
    return usual if depth >= usual * 20 else usual * Fraction(1, 10)


def _whole_steps(length: Length, step: Length, *, nearest: bool) -> Length:
    # Down, so that passes a least cut apart stay that far apart, and the last is no shallower for it; by a coarse dial
    # of its own that would lose most of a mark.
    return step * (round(length / step) if nearest else int(length / step))


def _area(depth: Length, flat: Length, slope: Fraction) -> Fraction:
    """Area of the groove in square millimetres."""
    return depth.mm * (flat.mm + depth.mm * slope)


def _depth_of(area: Fraction, flat: Length, slope: Fraction) -> Length:
    """Depth at which the groove has that area."""
    if slope == 0:
        return Length(area / flat.mm)
    return Length((square_root(flat.mm**2 + 4 * slope * area) - flat.mm) / (2 * slope))
