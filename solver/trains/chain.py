"""The axes of a set-up from the stud gear to the leadscrew, idlers among them, and the wheels each carries.

::

    plane      1    2           contact 1  50 with 40   stud gear to stud 1
    stud gear  50               contact 2  20 with 127  stud 1 to leadscrew
    stud 1     40 = 20
    leadscrew       127
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from solver.trains.wheels import Train

#: Names of the two axes that never move.
STUD_GEAR = "stud gear"
LEADSCREW = "leadscrew"


class Idler(NamedTuple):
    """A wheel on a stud of its own that carries the motion on and changes no ratio.

    Parameters
    ----------
    mesh : int
        The pair between whose wheels it goes, counted from 1 at the spindle side.
    teeth : int
        Its teeth; it is of the class of that pair.
    """

    mesh: int
    teeth: int


class Contact(NamedTuple):
    """Two wheels that mesh, the one nearer the spindle first."""

    pair: int
    wheel_class: int
    first: int
    second: int


class Seat(NamedTuple):
    """A wheel on an axis; ``plane`` is counted from 1 at the plane of the first pair."""

    plane: int
    wheel_class: int
    teeth: int


class Chain(NamedTuple):
    """A set-up as a row of contacts, and the plane that each pair turns in."""

    contacts: tuple[Contact, ...]
    planes: tuple[int, ...]

    @property
    def studs(self) -> int:
        """How many studs it takes.

        Examples
        --------
        >>> from solver.trains.wheels import Pair
        >>> chain_of(Train((Pair(50, 40), Pair(20, 127)))).studs
        1
        """
        return len(self.contacts) - 1

    def seats(self, axis: int) -> tuple[Seat, ...]:
        """List the wheels on one axis, 0 for the stud gear; an idler is one wheel, though it meshes twice.

        Examples
        --------
        >>> from solver.trains.wheels import Pair
        >>> chain_of(Train((Pair(50, 40), Pair(20, 127)))).seats(1)
        (Seat(plane=1, wheel_class=0, teeth=40), Seat(plane=2, wheel_class=0, teeth=20))
        """
        held = []
        if axis > 0:
            before = self.contacts[axis - 1]
            held.append(Seat(self.planes[before.pair], before.wheel_class, before.second))
        if axis < len(self.contacts):
            after = self.contacts[axis]
            if axis == 0 or self.contacts[axis - 1].pair != after.pair:
                held.append(Seat(self.planes[after.pair], after.wheel_class, after.first))
        return tuple(held)

    def axis_name(self, axis: int) -> str:
        """Name an axis as the bench does.

        Examples
        --------
        >>> from solver.trains.wheels import Pair
        >>> chain = chain_of(Train((Pair(50, 40), Pair(20, 127))))
        >>> [chain.axis_name(axis) for axis in range(3)]
        ['stud gear', 'stud 1', 'leadscrew']
        """
        if axis == 0:
            return STUD_GEAR
        return LEADSCREW if axis == len(self.contacts) else f"stud {axis}"


def chain_of(train: Train, idlers: Sequence[Idler] = (), planes: int | None = None) -> Chain:
    """Lay out a train and its idlers as a row of contacts.

    Parameters
    ----------
    train : Train
        At least one pair.
    idlers : sequence of Idler, optional
        In order within each mesh, spindle side first.
    planes : int or None, optional
        How many wheels deep the axes are. More pairs fold back, 1 2 1 2; without a limit each pair has its own.

    Returns
    -------
    Chain
        With one contact more than studs.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> [contact[2:] for contact in chain_of(Train((Pair(20, 40),)), [Idler(1, 65)]).contacts]
    [(20, 65), (65, 40)]
    """
    contacts = []
    for number, pair in enumerate(train.pairs):
        row = [pair.driver, *(idler.teeth for idler in idlers if idler.mesh == number + 1), pair.driven]
        contacts += [Contact(number, pair.wheel_class, *both) for both in pairwise(row)]
    return Chain(tuple(contacts), tuple(_folded(len(train.pairs), planes)))


def _folded(pairs: int, planes: int | None) -> Iterator[int]:
    """Give each pair the plane it turns in: 1 2 3, or with two planes 1 2 1."""
    if planes is None or planes < 2:
        yield from range(1, pairs + 1)
        return
    turn = 2 * (planes - 1)
    for pair in range(pairs):
        place = pair % turn
        yield 1 + min(place, turn - place)
