"""A dividing head turned by hand, one motion after another; nothing here is shared with the solver but its answers.

Whole numbers throughout, so that thousands of rounds can be walked: angles are counted in parts of a turn fine enough
for every hole, wheel and worm of the one setting that is carried out. The worm turns with the crank.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from solver.dividing.heads import SmallCrank
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.positions import Position
from solver.dividing.table_dial import DialPosition
from solver.dividing.two_cranks import TwoCrankSetting


class SimulatedHead:
    """A head with its plate locked by the stop pin, or geared to the spindle; ``unit`` parts make a turn."""

    def __init__(self, worm_ratio: Fraction, circles: Sequence[int], *, plate_per_work: Fraction = Fraction(0)) -> None:
        over, under = worm_ratio.as_integer_ratio()
        plate, work = plate_per_work.as_integer_ratio()
        # Crank less plate is what the pin sees: crank · (1 - rate / R), in whole numbers over one denominator.
        self.seen, self.whole, self.geared = work * over - plate * under, work * over, plate * under
        self.worm = over, under
        self.unit = abs(self.seen) * over * under
        for circle in circles:
            self.unit *= circle
        self.crank = self.plate = 0

    @property
    def work(self) -> int:
        turned, rest = divmod(self.crank * self.worm[1], self.worm[0])
        assert not rest
        return turned

    def part(self, spaces: int, circle: int) -> int:
        """Spaces of a circle in parts of a turn."""
        return spaces * (self.unit // circle)

    def move_pin(self, parts: int) -> None:
        """Move the pin over the plate by so much of the plate's own circle; a geared plate turns meanwhile."""
        over_plate = self.crank - self.plate + parts
        if self.geared:
            # plate = rate · crank / R all along, and crank - plate = over_plate.
            self.crank, rest = divmod(over_plate * self.whole, self.seen)
            self.plate, other = divmod(over_plate * self.geared, self.seen)
            assert not rest
            assert not other
        else:
            self.crank = over_plate + self.plate

    def move_plate(self, parts: int) -> None:
        """Turn plate and crank together, the pin in its hole, from one hole of the stop pin to another."""
        self.plate += parts
        self.crank += parts

    def lock_spindle_at(self, parts: int) -> None:
        """Turn the work itself, worm out."""
        self.crank, rest = divmod(parts * self.worm[0], self.worm[1])
        assert not rest


def plate_rate(pairs: Sequence[tuple[int, int]], idlers: Sequence[int], *, one_idler_follows: bool) -> Fraction:
    """Walk from wheel to wheel, turning round at each mesh and passing idlers tooth by tooth: plate turns to work's."""
    turns = Fraction(1)
    for number, (driver, driven) in enumerate(pairs):
        # Where an idler stands along the train changes nothing of its rate: all of them in the first mesh.
        chain = [driver, *(idlers if number == 0 else ()), driven]
        for one, next_one in pairwise(chain):
            turns = -turns * one / next_one
    # Inside the head more wheels lead to the plate; the file tells their parity by a simple train with one idler,
    # which by itself keeps the direction.
    return turns if one_idler_follows else -turns


def carry_out(answer: IndexAnswer, worm_ratio: Fraction, *, one_idler_follows: bool = True) -> Iterator[SimulatedHead]:
    """Carry out a setting as it is printed, to the last move; yield the head as it stands after each."""
    rate = Fraction(0)
    if answer.gearing is not None:
        pairs = [(pair.driver, pair.driven) for pair in answer.gearing.train.pairs]
        rate = plate_rate(pairs, answer.gearing.idlers, one_idler_follows=one_idler_follows)
    head = SimulatedHead(worm_ratio, [move.circle or 1 for move in answer.moves], plate_per_work=rate)
    (first, *_), second = answer.moves, answer.second
    pin = _parts(head, first)
    with_plate = 0 if second is None else _parts(head, second)
    for number in range(1, answer.moves_to_close + 1):
        if answer.method is Method.DIRECT:
            head.lock_spindle_at(pin * number)
        else:
            head.move_pin(pin)
            if second is not None:
                head.move_plate(with_plate)
        yield head


def carry_out_cranks(setting: TwoCrankSetting, worm_ratio: Fraction, small: SmallCrank) -> Iterator[SimulatedHead]:
    """Turn both cranks of a two-crank head, the one that goes back first, to the last move."""
    over, under = small.ratio.as_integer_ratio()
    head = SimulatedHead(worm_ratio, [setting.large.circle or 1, setting.small.circle or 1, over])
    large, little = _parts(head, setting.large), _parts(head, setting.small)
    for _ in range(setting.moves_to_close):
        for parts, divided, by in sorted([(large, 1, 1), (little, under, over)]):
            turned, rest = divmod(parts * divided, by)
            assert not rest
            head.move_pin(turned)
        yield head


def walk(rows: Sequence[Position], worm_ratio: Fraction, circle: int) -> Iterator[SimulatedHead]:
    """Make the moves of a table of positions one after another, and see that the pin meets the hole it names."""
    head = SimulatedHead(worm_ratio, [circle])
    for row in rows:
        if row.number:
            head.move_pin(_parts(head, row.move))
        assert head.crank == head.part(row.turns * circle + row.hole, circle)
        yield head


def turn_by_dial(rows: Sequence[DialPosition], worm_ratio: Fraction, divisions: int) -> Iterator[SimulatedHead]:
    """Turn the handle of a table on from one reading to the next; its dial shows angles of the work."""
    head = SimulatedHead(worm_ratio, [divisions])
    for row in rows:
        shown = row.reading.turns * worm_ratio * divisions
        assert shown.denominator == 1
        assert 0 <= shown < divisions
        target = head.part(row.turns * divisions + shown.numerator, divisions)
        assert target >= head.crank
        head.move_pin(target - head.crank)
        yield head


def _parts(head: SimulatedHead, move: CrankMove) -> int:
    return move.sign * (move.turns * head.unit + (head.part(move.spaces, move.circle) if move.circle else 0))
