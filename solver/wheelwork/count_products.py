"""Products of tooth counts: which whole numbers are one, and every way to make one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import comb, gcd


class CountProducts:
    """Products of a number of counts, each used as often as wanted: the wheels are yet to be cut.

    Parameters
    ----------
    counts : sequence of int
        By rising teeth.
    many : int
        Counts multiplied together.

    Examples
    --------
    >>> products = CountProducts((12, 15, 20), 2)
    >>> list(products.splits(300)), list(products.splits(100))
    ([(15, 20)], [])
    """

    def __init__(self, counts: Sequence[int], many: int) -> None:
        self.counts = tuple(counts)
        self.many = many
        self.least = self.counts[0] ** many
        self.most = self.counts[-1] ** many
        # What every product divides: one modulus rules out nearly every number that is no product.
        self._whole = _common_multiple_of_powers(self.counts, many)
        self._known: dict[int, tuple[tuple[int, ...], ...]] = {}

    @property
    def choices(self) -> int:
        """How many choices of counts there are, order apart.

        Examples
        --------
        >>> CountProducts((12, 15, 20), 2).choices
        6
        """
        return comb(len(self.counts) + self.many - 1, self.many)

    def could_hold(self, number: int) -> bool:
        """Say whether a number can be a factor of a product; most that cannot are told at once.

        Examples
        --------
        >>> CountProducts((12, 15, 20), 2).could_hold(7)
        False
        """
        return self._whole % number == 0

    def splits(self, product: int) -> tuple[tuple[int, ...], ...]:
        """List every choice of counts with this product, each by rising teeth, fewest teeth in all first.

        Examples
        --------
        >>> CountProducts((12, 15, 16, 20), 2).splits(240)
        ((15, 16), (12, 20))
        """
        if product not in self._known:
            found: list[tuple[int, ...]] = []
            if self.least <= product <= self.most and self.could_hold(product):
                factors = [count for count in self.counts if product % count == 0]
                found = sorted(_splits(product, self.many, factors, 0), key=lambda split: (sum(split), split))
            if len(self._known) > _MOST_KEPT:
                self._known.clear()
            self._known[product] = tuple(found)
        return self._known[product]

    def listed(self) -> list[int]:
        """List every product once, by rising size.

        Examples
        --------
        >>> CountProducts((12, 15, 20), 2).listed()
        [144, 180, 225, 240, 300, 400]
        """
        made = {1}
        for _ in range(self.many):
            made = {product * count for product in made for count in self.counts}
        return sorted(made)


#: Products whose splits are kept; beyond it they are found again.
_MOST_KEPT = 20_000


def _splits(product: int, many: int, factors: Sequence[int], start: int) -> Iterator[tuple[int, ...]]:
    if many == 1:
        if product in factors[start:]:
            yield (product,)
        return
    for place in range(start, len(factors)):
        count = factors[place]
        if count**many > product:
            return
        if product % count == 0:
            for rest in _splits(product // count, many - 1, factors, place):
                yield (count, *rest)


def _common_multiple_of_powers(counts: Sequence[int], many: int) -> int:
    whole = 1
    for count in counts:
        power = count**many
        whole *= power // gcd(whole, power)
    return whole


def at_least(product: int, many: int) -> int:
    """Bound from below the sum of so many whole numbers with a product: no sum is below ``many`` equal roots.

    Examples
    --------
    >>> at_least(400, 2), at_least(399, 2)
    (40, 39)
    """
    return floor_root(product * many**many, many)


def floor_root(number: int, degree: int) -> int:
    """Return the whole part of a root of a whole number above zero.

    Examples
    --------
    >>> floor_root(80, 4), floor_root(81, 4)
    (2, 3)
    """
    low, high = 0, 1 << (number.bit_length() // degree + 1)
    while high - low > 1:
        middle = (low + high) // 2
        if middle**degree <= number:
            low = middle
        else:
            high = middle
    return low
