"""Products of tooth counts: which whole numbers are one, and every way to make one."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from math import comb, gcd, isqrt


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
        # What every product divides, and its prime factors once each.
        self._whole = _common_multiple_of_powers(self.counts, many)
        self._primes = _radical(self.counts)
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
        # A number made of the same primes divides a high power of their product; that is told sooner, and rules out
        # nearly all that are no products.
        return pow(self._primes, _HIGH_POWER, number) == 0 and self._whole % number == 0

    def splits(self, product: int) -> tuple[tuple[int, ...], ...]:
        """List every choice of counts with this product, each by rising teeth, fewest teeth in all first.

        Examples
        --------
        >>> CountProducts((12, 15, 16, 20), 2).splits(240)
        ((15, 16), (12, 20))
        """
        if product not in self._known:
            found: list[tuple[int, ...]] = []
            factors = [count for count in self.counts if product % count == 0] if self.could_hold(product) else []
            if factors and self.least <= product <= self.most:
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


#: No product, below 2**64, has a prime factor as often as this.
_HIGH_POWER = 64
#: Products whose splits are kept; beyond it they are found again.
_MOST_KEPT = 20_000


def _splits(product: int, many: int, factors: Sequence[int], start: int) -> Iterator[tuple[int, ...]]:
    if many == 1:
        place = bisect_left(factors, product, start)
        if place < len(factors) and factors[place] == product:
            yield (product,)
        return
    # The smallest of them is no less than what the largest count leaves over.
    first = bisect_left(factors, -(-product // factors[-1] ** (many - 1)), start)
    for place in range(first, len(factors)):
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


def _radical(counts: Sequence[int]) -> int:
    """Multiply the primes that divide any of the counts, once each."""
    product = 1
    for number in range(2, counts[-1] + 1):
        is_prime = all(number % each for each in range(2, isqrt(number) + 1))
        if is_prime and any(count % number == 0 for count in counts):
            product *= number
    return product


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
