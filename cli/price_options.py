"""What wheels cost, as the person writes it: ``127=25``, ``default=8``, ``own=2``."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import click

from solver.jobs.wheel_prices import ONE_EACH, PriceList
from solver.quantities.figure_reader import FigureReader
from solver.trains.wheels import FEWEST_TEETH, MOST_TEETH

#: A price is below this, and is told to so many parts of one.
MOST_PRICE = 1_000_000
FINEST_PRICE = 100
USUAL, OWN = "default", "own"
PRICE_HELP = "Write for example --price 127=25 --price default=8."

price_option = click.option(
    "--price",
    "price_texts",
    multiple=True,
    metavar="TEETH=PRICE",
    help="What a wheel costs, given several times: 127=25, default=8 for any other, own=2 for one you make.",
)
own_make_option = click.option(
    "--own-make",
    "own_make",
    type=click.IntRange(FEWEST_TEETH, MOST_TEETH),
    metavar="TEETH",
    help="You make wheels of up to so many teeth yourself; they cost nothing unless --price own=... says so.",
)


def read_prices(texts: Sequence[str], own_make: int | None) -> PriceList:
    """Read the prices of wheels.

    Examples
    --------
    >>> read_prices(["127=25", "default=8"], None).price(127)
    Fraction(25, 1)
    >>> read_prices([], 60).price(57), read_prices([], 60).price(63)
    (Fraction(0, 1), Fraction(1, 1))
    """
    if not texts and own_make is None:
        return ONE_EACH
    given: dict[str, Fraction] = {}
    for text in texts:
        key, price = _read_price(text)
        if key in given:
            raise click.UsageError(f"--price gives {key} twice; give each price once.")
        given[key] = price
    if OWN in given and own_make is None:
        raise click.UsageError("--price own=... is for wheels you make: give --own-make with the largest of them too.")
    named = {int(key): price for key, price in given.items() if key not in (USUAL, OWN)}
    if named and USUAL not in given:
        raise click.UsageError(f"--price names some wheels; say what any other costs too. {PRICE_HELP}")
    return PriceList(tuple(sorted(named.items())), given.get(USUAL, Fraction(1)), own_make, given.get(OWN, Fraction(0)))


def _read_price(text: str) -> tuple[str, Fraction]:
    word, equals, figure = text.partition("=")
    word = word.strip().lower()
    if not equals:
        raise click.UsageError(f"--price {text[:40]!r} has no price. {PRICE_HELP}")
    if word not in (USUAL, OWN):
        reader = FigureReader(word)
        teeth = reader.whole()
        reader.finish()
        if not FEWEST_TEETH <= teeth <= MOST_TEETH:
            raise click.UsageError(f"A change wheel has {FEWEST_TEETH} to {MOST_TEETH} teeth, not {word[:20]}.")
        word = str(teeth)
    reader = FigureReader(figure.strip())
    price = reader.decimal()
    reader.finish()
    if price >= MOST_PRICE or (price * FINEST_PRICE).denominator != 1:
        raise click.UsageError(f"A price is below {MOST_PRICE}, with two decimals at the most, not {figure[:20]!r}.")
    return word, price
