"""What a wheel more costs whoever needs it: bought at a price, or made at home."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import lcm
from typing import NamedTuple


class PriceList(NamedTuple):
    """Prices of wheels by their teeth; as it stands every wheel costs one, and the cheapest are the fewest.

    Parameters
    ----------
    named : tuple of (int, Fraction)
        Teeth and price of wheels that have their own.
    usual : Fraction
        Price of any other that is bought.
    largest_made : int or None
        Teeth of the largest wheel that can be made at home; ``None`` for none.
    made : Fraction
        Price of a wheel made at home.

    Examples
    --------
    >>> PriceList(((127, Fraction(25)),), Fraction(8)).price(63)
    Fraction(8, 1)
    """

    named: tuple[tuple[int, Fraction], ...] = ()
    usual: Fraction = Fraction(1)
    largest_made: int | None = None
    made: Fraction = Fraction(0)

    @property
    def counts_wheels(self) -> bool:
        """True when every wheel costs the same, so that the cheapest are the fewest.

        Examples
        --------
        >>> PriceList().counts_wheels, PriceList(largest_made=60).counts_wheels
        (True, False)
        """
        return not self.named and self.largest_made is None

    def is_made(self, teeth: int) -> bool:
        """Say whether a wheel is made at home: not above the largest, and no price of its own.

        Examples
        --------
        >>> PriceList(largest_made=60).is_made(57), PriceList(largest_made=60).is_made(63)
        (True, False)
        """
        return self.largest_made is not None and teeth <= self.largest_made and teeth not in dict(self.named)

    def price(self, teeth: int) -> Fraction:
        """Return what one wheel costs.

        Examples
        --------
        >>> PriceList(((127, Fraction(25)),), Fraction(8), largest_made=60).price(21)
        Fraction(0, 1)
        """
        named = dict(self.named).get(teeth)
        if named is not None:
            return named
        return self.made if self.is_made(teeth) else self.usual

    def in_units(self, candidates: Iterable[int]) -> tuple[dict[int, int], Fraction]:
        """Write the prices in whole units, and say what a unit is worth.

        Examples
        --------
        >>> PriceList(((127, Fraction(5, 2)),), Fraction(4)).in_units([63, 127])
        ({63: 8, 127: 5}, Fraction(1, 2))
        """
        prices = {teeth: self.price(teeth) for teeth in candidates}
        whole = lcm(*(price.denominator for price in prices.values()))
        return {teeth: int(price * whole) for teeth, price in prices.items()}, Fraction(1, whole)


#: Every wheel costs as much as any other.
ONE_EACH = PriceList()
