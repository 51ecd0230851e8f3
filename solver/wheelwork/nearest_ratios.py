"""The nearest trains of one number of pairs on any centre distances, proven nearest.

Two complete ways, chosen by how many products the counts make:

- few products: every product of drivers meets the driven products next to it (meet in the middle);
- very many: the fractions of bounded size are walked through by rising distance from the wanted ratio, and the first
  that is a quotient of two products is the nearest there is.

Both give ratios in lowest terms by rising error; each ratio is then a family of trains, told by fewest teeth.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import gcd
from typing import NamedTuple

from solver.wheelwork.count_products import CountProducts, at_least
from solver.wheelwork.farey_walk import Term, by_distance

#: With no more choices of counts than this, all products are listed; a fraction of a second.
MOST_LISTED = 400_000
#: With more, and a walk cut short, they are listed after all up to here; a few seconds.
MOST_LISTED_AT_NEED = 8_000_000
#: Fractions and multiples looked at on one walk: where listing is still to be had, and where it is not.
SHORT_WALK = 250_000
LONG_WALK = 1_000_000
#: Ratios held at once while products meet; more are asked for when families turn out empty.
FIRST_HELD = 24


class Counts(NamedTuple):
    """Drivers and driven wheels, each by rising teeth, not yet paired."""

    drivers: tuple[int, ...]
    driven: tuple[int, ...]

    @property
    def ratio(self) -> Fraction:
        """Turns of the last arbor for one of the first.

        Examples
        --------
        >>> Counts((12, 15), (60, 90)).ratio
        Fraction(1, 30)
        """
        ratio = Fraction(1)
        for driver, driven in zip(self.drivers, self.driven, strict=True):
            ratio *= Fraction(driver, driven)
        return ratio

    @property
    def teeth(self) -> int:
        """Teeth of all wheels together.

        Examples
        --------
        >>> Counts((12, 15), (60, 90)).teeth
        177
        """
        return sum(self.drivers) + sum(self.driven)


class Nearest(NamedTuple):
    """Trains by rising error, and how far the search is complete.

    Parameters
    ----------
    found : tuple of Counts
        Nearest first; of one ratio the fewest teeth first.
    beyond : Fraction or None
        ``None`` when the search went through everything within the bounds. Else no train but those found has an error
        smaller than this, as a part of the ratio.
    """

    found: tuple[Counts, ...]
    beyond: Fraction | None = None


def nearest_counts(counts: Sequence[int], ratio: Fraction, pairs: int, most: int = 5) -> Nearest:
    """Find the nearest trains of so many pairs; of several pairs no driver has the teeth of a driven wheel.

    Where a driver and a driven wheel of several pairs share a count, the ratio is one of fewer pairs, and is left to
    those.

    Parameters
    ----------
    counts : sequence of int
        Counts that may be used, each as often as wanted, by rising teeth.
    ratio : Fraction
        Wanted turns of the last arbor for one of the first; above zero.
    pairs : int
        Pairs of wheels, no fewer and no more.
    most : int, optional
        Trains to find.

    Returns
    -------
    Nearest
        Proven nearest where ``beyond`` is ``None``.

    Examples
    --------
    >>> nearest_counts(range(12, 61), Fraction(10, 127), 2, most=1).found
    (Counts(drivers=(12, 12), driven=(31, 59)),)
    """
    products = CountProducts(counts, pairs)
    if products.choices <= MOST_LISTED:
        return by_meeting(products, ratio, most)
    can_list = products.choices <= MOST_LISTED_AT_NEED
    walked = by_walking(products, ratio, most, SHORT_WALK if can_list else LONG_WALK)
    if walked.beyond is None:
        return walked
    if can_list:
        return by_meeting(products, ratio, most)
    return walked if len(walked.found) == most else _filled_up(walked, products, ratio, most)


def _filled_up(walked: Nearest, products: CountProducts, ratio: Fraction, most: int) -> Nearest:
    """Add to a walk cut short what an even choice of the counts makes: good trains, not proven the best."""
    fewer = _thinned(products)
    found = [each for each in by_meeting(fewer, ratio, most).found if each not in walked.found]
    return Nearest((*walked.found, *found[: most - len(walked.found)]), walked.beyond)


def _thinned(products: CountProducts) -> CountProducts:
    """Take every second count, or every third and so on, so that few enough are left to list their products."""
    step = 1
    while True:
        step += 1
        fewer = CountProducts((*products.counts[:-1:step], products.counts[-1]), products.many)
        if fewer.choices <= MOST_LISTED:
            return fewer


def by_walking(products: CountProducts, ratio: Fraction, most: int, steps: int) -> Nearest:
    """Walk through the fractions of bounded size by rising distance, and keep those that two products make.

    Examples
    --------
    >>> by_walking(CountProducts((12, 15, 20), 1), Fraction(5, 7), 1, 100).found
    (Counts(drivers=(15,), driven=(20,)),)
    """
    found: list[Counts] = []
    for term in by_distance(ratio, products.most):
        steps -= 1
        # The two parts share no factor, so one look tells of both.
        if products.could_hold(term[0] * term[1]):
            first, last = _multiples(products, term)
            family, looked = _family(
                products, term, range(first, min(last, first + max(0, steps)) + 1), most - len(found)
            )
            found += family
            steps -= looked
            if len(found) >= most:
                break
        if steps <= 0:
            return Nearest(tuple(found), abs(Fraction(*term) / ratio - 1))
    return Nearest(tuple(found))


def by_meeting(products: CountProducts, ratio: Fraction, most: int) -> Nearest:
    """List all products, and let those of drivers meet the driven ones next to them.

    Examples
    --------
    >>> by_meeting(CountProducts((12, 15, 20), 1), Fraction(5, 7), 1).found
    (Counts(drivers=(15,), driven=(20,)),)
    """
    listed = products.listed()
    held = FIRST_HELD
    while True:
        terms = _meeting(listed, ratio, held)
        found: list[Counts] = []
        for term in terms:
            first, last = _multiples(products, term)
            multiples: Sequence[int] = range(first, last + 1)
            if len(multiples) > len(listed):
                multiples = [each // term[0] for each in listed if each % term[0] == 0]
            found += _family(products, term, multiples, most - len(found))[0]
            if len(found) >= most:
                return Nearest(tuple(found))
        if len(terms) < held:
            return Nearest(tuple(found))
        held *= 8


def _multiples(products: CountProducts, term: Term) -> tuple[int, int]:
    """Return the least and the greatest factor by which both parts of a ratio lie among the products."""
    return -(-products.least // min(term)), products.most // max(term)


def _family(products: CountProducts, term: Term, multiples: Sequence[int], most: int) -> tuple[list[Counts], int]:
    """List the trains of one ratio by fewest teeth, from multiples that rise; and how many multiples were looked at."""
    pairs = products.many
    best: list[tuple[int, Counts]] = []
    looked = 0
    for multiple in multiples:
        looked += 1
        above, below = term[0] * multiple, term[1] * multiple
        if len(best) == most and at_least(above, pairs) + at_least(below, pairs) > best[-1][0]:
            break
        for drivers, driven in _apart(products, above, below):
            counts = Counts(drivers, driven)
            teeth = counts.teeth
            if len(best) == most and teeth > best[-1][0]:
                continue
            insort(best, (teeth, counts))
            del best[most:]
    return [counts for _, counts in best], looked


def _apart(products: CountProducts, above: int, below: int) -> Iterator[Counts]:
    """Yield every choice of drivers and driven wheels with these products that share no count, one pair apart."""
    splits = products.splits(above)
    if splits:
        for driven in products.splits(below):
            for drivers in splits:
                if products.many == 1 or not set(drivers) & set(driven):
                    yield Counts(drivers, driven)


def _meeting(listed: Sequence[int], ratio: Fraction, held: int) -> list[Term]:
    """Return the ratios of two products nearest to the wanted one, in lowest terms, by rising error; up to ``held``."""
    top, bottom = ratio.numerator, ratio.denominator
    scaled = [product * top for product in listed]
    near = _Near(held)
    many = len(listed)
    start = 0
    for above in listed:
        wanted = above * bottom
        while start < many and scaled[start] < wanted:
            start += 1
        # From the driven product that fits best outwards, on either side until no nearer than those held.
        for place in range(start, many):
            if not near.takes(above, listed[place], scaled[place] - wanted, scaled[place]):
                break
        for place in range(start - 1, -1, -1):
            if not near.takes(above, listed[place], wanted - scaled[place], scaled[place]):
                break
    return near.terms()


class _Near:
    """The nearest ratios so far, each once."""

    def __init__(self, held: int) -> None:
        self._held = held
        self._rows: list[tuple[Fraction, Fraction]] = []
        self._seen: set[Term] = set()
        self._worst: tuple[int, int] | None = None

    def takes(self, above: int, below: int, off: int, whole: int) -> bool:
        """Take in a ratio with the error ``off`` over ``whole``; say whether one as far off could be taken."""
        if self._worst is not None and off * self._worst[1] > self._worst[0] * whole:
            return False
        shared = gcd(above, below)
        term = (above // shared, below // shared)
        if term not in self._seen:
            self._seen.add(term)
            insort(self._rows, (Fraction(off, whole), Fraction(*term)))
            if len(self._rows) > self._held:
                gone = self._rows.pop()[1]
                self._seen.discard((gone.numerator, gone.denominator))
            if len(self._rows) == self._held:
                worst = self._rows[-1][0]
                self._worst = (worst.numerator, worst.denominator)
        return True

    def terms(self) -> list[Term]:
        return [(ratio.numerator, ratio.denominator) for _, ratio in self._rows]
