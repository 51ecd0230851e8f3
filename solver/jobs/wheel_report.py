"""Which wheels are missing: the question, and the answer with its proof, as values for a screen or a sheet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import NamedTuple

from solver.jobs.wheel_options import Added
from solver.jobs.wheel_prices import ONE_EACH, PriceList
from solver.quantities.pi_multiples import Lead
from solver.trains.hand import Hand
from solver.trains.reach import Reach, Reached


class Progress(NamedTuple):
    """How far the walk is: wheels of the options looked for, lead by number from 1, and sides and set-ups seen."""

    size: int
    lead: int
    leads: int
    looked_at: int


#: Told how far the walk is, now and then; it goes on while the answer is yes.
Watch = Callable[[Progress], bool]


class Stopped(Enum):
    """What ended the walk before the proof."""

    TIME = "time ran out"
    ROOM = "memory was used up"


@dataclass(frozen=True, slots=True)
class MissingQuestion:
    """What is asked.

    Parameters
    ----------
    leads : tuple of (Length or PiLength)
        Wanted leads, each once.
    candidates : tuple of int
        Teeth of wheels that may be added; one at the least.
    within : Fraction
        Largest error, as a part of the lead.
    most_wheels : int, optional
        Wheels to add at the most, 1 to 5.
    most_pairs : int, optional
        Pairs of the trains considered.
    hand : Hand, optional
        Hand of the threads.
    prices : PriceList, optional
        Every wheel one when left out.
    """

    leads: tuple[Lead, ...]
    candidates: tuple[int, ...]
    within: Fraction
    most_wheels: int = 2
    most_pairs: int = 3
    hand: Hand = Hand.RIGHT
    prices: PriceList = ONE_EACH


class WheelRole(NamedTuple):
    """One wheel of a set: leads that it unlocks by itself, and those for which it is one of several needed.

    Parameters
    ----------
    teeth : int
        The wheel.
    price : Fraction
        What it costs.
    alone : tuple of (Length or PiLength)
        Unlocked by this wheel and those in the box.
    together : tuple of ((Length or PiLength), tuple of int)
        Unlocked with other wheels of the set, and those others.
    """

    teeth: int
    price: Fraction
    alone: tuple[Lead, ...]
    together: tuple[tuple[Lead, Added], ...]


class WheelSet(NamedTuple):
    """Wheels to add, and what the lathe then does.

    Parameters
    ----------
    wheels : tuple of int
        Teeth by rising size.
    price : Fraction
        Of all of them.
    rows : tuple of Reach
        Of every lead that is not cut now, in the order asked: its train with these wheels in the box.
    roles : tuple of WheelRole
        What each wheel does; two alike share one.
    """

    wheels: Added
    price: Fraction
    rows: tuple[Reach, ...]
    roles: tuple[WheelRole, ...]

    @property
    def unlocked(self) -> tuple[Reach, ...]:
        """The leads that these wheels bring within the tolerance.

        Examples
        --------
        >>> WheelSet((), Fraction(0), (), ()).unlocked
        ()
        """
        return tuple(row for row in self.rows if row.reached is not Reached.NOT)

    @property
    def worst_error(self) -> Fraction:
        """The largest error among the leads unlocked, with its sign.

        Examples
        --------
        >>> WheelSet((), Fraction(0), (), ()).worst_error
        Fraction(0, 1)
        """
        errors = [row.best.error.relative for row in self.unlocked if row.best is not None]
        return max(errors, key=abs, default=Fraction(0))


class Proof(NamedTuple):
    """How sure the answer is.

    Parameters
    ----------
    is_proven : bool
        No choice of wheels comes before the one named.
    sizes_done : int
        Every option of so many wheels and fewer is known, for every lead it matters to.
    least_price : Fraction
        No choice that unlocks as many leads costs less; the price itself where that is proven.
    looked_at : int
        Sides of trains and set-ups looked at.
    stopped : Stopped or None
        What ended the walk early.
    """

    is_proven: bool
    sizes_done: int
    least_price: Fraction
    looked_at: int
    stopped: Stopped | None


class MissingReport(NamedTuple):
    """The answer.

    Parameters
    ----------
    question : MissingQuestion
        What was asked.
    now : tuple of Reach
        Every lead as the lathe reaches it now.
    best : WheelSet
        The wheels to add; none where no lead is missing or no wheel helps.
    others : tuple of WheelSet
        Others that unlock as many leads at the same price with as many wheels, by rising sum of teeth.
    hopeless : tuple of (Length or PiLength)
        Proven: no choice of wheels up to the limit unlocks them.
    not_together : tuple of (Length or PiLength)
        Some choice unlocks them, but not within the limit beside the rest.
    undecided : tuple of (Length or PiLength)
        Nothing that unlocks them was found before the walk ended.
    proof : Proof
        How sure it is.
    """

    question: MissingQuestion
    now: tuple[Reach, ...]
    best: WheelSet
    others: tuple[WheelSet, ...]
    hopeless: tuple[Lead, ...]
    not_together: tuple[Lead, ...]
    undecided: tuple[Lead, ...]
    proof: Proof

    @property
    def lacking(self) -> tuple[Lead, ...]:
        """The leads that the lathe does not cut now.

        Examples
        --------
        >>> from solver.jobs.missing_wheels import missing_wheels
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.lathe import Lathe
        >>> from solver.trains.wheels import WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (80, 1))),)
        >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
        >>> question = MissingQuestion((Length.of_inches("1/16"), Length.of_mm(1)), (63, 127), Fraction(0))
        >>> missing_wheels(lathe, question).lacking
        (Length(mm=Fraction(1, 1)),)
        """
        return tuple(row.lead for row in self.now if row.reached is Reached.NOT)

    @property
    def is_least(self) -> bool:
        """True when every lead is unlocked and none can be for less, though others as good may not be known.

        Examples
        --------
        >>> from solver.jobs.missing_wheels import missing_wheels
        >>> from solver.quantities.lengths import Length
        >>> from solver.trains.lathe import Lathe
        >>> from solver.trains.wheels import WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (80, 1))),)
        >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
        >>> missing_wheels(lathe, MissingQuestion((Length.of_mm(1),), (63, 127), Fraction(0))).is_least
        True
        """
        return len(self.best.unlocked) == len(self.lacking) and self.proof.least_price == self.best.price
