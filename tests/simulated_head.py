"""A dividing head turned by hand, one motion after another; nothing here is shared with the solver but its answers.

Angles are turns from the start, as whole fractions. The worm turns with the crank, so the work stands at crank / R.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from solver.dividing.moves import IndexAnswer, Method


class SimulatedHead:
    """A head with its plate locked by the stop pin, or geared to the spindle."""

    def __init__(self, worm_ratio: Fraction, *, one_idler_follows: bool = True) -> None:
        self.worm_ratio = worm_ratio
        self.one_idler_follows = one_idler_follows
        self.crank = Fraction(0)
        self.plate = Fraction(0)
        self.plate_per_work = Fraction(0)

    @property
    def work(self) -> Fraction:
        return self.crank / self.worm_ratio

    def mount(self, pairs: Sequence[tuple[int, int]], idlers: Sequence[int]) -> None:
        """Gear the plate: walk from wheel to wheel, turning round at each mesh and passing idlers tooth by tooth."""
        turns = Fraction(1)
        for number, (driver, driven) in enumerate(pairs):
            # Where an idler stands along the train changes nothing of its rate: all of them in the first mesh.
            chain = [driver, *(idlers if number == 0 else ()), driven]
            for one, next_one in pairwise(chain):
                turns = -turns * one / next_one
        # Inside the head more wheels lead to the plate; the file tells their parity by a simple train with one idler,
        # which by itself keeps the direction.
        self.plate_per_work = turns if self.one_idler_follows else -turns

    def move_pin(self, turns: Fraction) -> None:
        """Move the pin over the plate by so many turns of the plate's own circle; a geared plate turns meanwhile."""
        over_plate = self.crank - self.plate + turns
        if self.plate_per_work:
            # plate = rate · crank / R all along, and crank - plate = over_plate.
            self.crank = over_plate / (1 - self.plate_per_work / self.worm_ratio)
            self.plate = self.plate_per_work * self.work
        else:
            self.crank = over_plate + self.plate

    def move_plate(self, turns: Fraction) -> None:
        """Turn plate and crank together, the pin in its hole, from one hole of the stop pin to another."""
        self.plate += turns
        self.crank += turns

    def lock_spindle_at(self, turns: Fraction) -> None:
        """Turn the work itself, worm out."""
        self.crank = turns * self.worm_ratio


def carry_out(answer: IndexAnswer, worm_ratio: Fraction, *, one_idler_follows: bool = True) -> Iterator[SimulatedHead]:
    """Carry out a setting as it is printed, to the last move; yield the head as it stands after each."""
    head = SimulatedHead(worm_ratio, one_idler_follows=one_idler_follows)
    if answer.gearing is not None:
        head.mount([(pair.driver, pair.driven) for pair in answer.gearing.train.pairs], answer.gearing.idlers)
    for number in range(1, answer.moves_to_close + 1):
        first, *second = answer.moves
        spaces = Fraction(first.spaces, first.circle) if first.circle else Fraction(0)
        if answer.method is Method.DIRECT:
            head.lock_spindle_at((first.turns + spaces) * number)
        else:
            head.move_pin(first.sign * (first.turns + spaces))
            for motion in second:
                assert motion.circle
                head.move_plate(Fraction(motion.sign * motion.spaces, motion.circle))
        yield head
