"""Printed trains as parts of one sitting: each is among the set-ups chosen from, and few wheels change between them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.jobs.lathe_ways import lathe_ways
from solver.jobs.planning import plan
from solver.jobs.tasks import Machine, Sitting, Task
from solver.quantities.lengths import Length
from solver.trains.lathe import Banjo, Lathe
from solver.trains.wheels import WheelClass
from solver.trains.written_trains import read_train

EXACT = Fraction(1, 10**9)


def lathe_of(constant, teeth):
    """A lathe whose equal wheels cut so many threads to the inch; its nut is no hindrance, for the book names none."""
    box = WheelClass("as printed", Length.of_mm(1), tuple((each, 1) for each in sorted(teeth)))
    banjo = Banjo(stud_nut=Length.of_mm("0.01"))
    screw = Length.of_inches(Fraction(1, constant))
    return Lathe("printed", "as printed", screw, Fraction(1), has_reverse=True, wheel_classes=(box,), banjo=banjo)


#: Constant, box, threads to the inch and train.
PRINTED = [
    pytest.param(6, range(30, 101, 5), Fraction(24), "40-80-30-60", id="page 170"),
    pytest.param(8, range(24, 101, 4), Fraction(7, 4), "72-36-64-28", id="page 171"),
    pytest.param(4, (20, 48, 84, 95), Fraction(7), "48-84", id="page 136"),
    pytest.param(4, (20, 48, 84, 95), Fraction(19), "20-95", id="page 177"),
]


@pytest.mark.published("F. D. Jones, Turning and Boring, 1914, fifth printing 1919, ch. IV, pp. 136, 170, 171 and 177")
@pytest.mark.parametrize(("constant", "teeth", "tpi", "printed"), PRINTED)
def test_the_printed_train_is_among_the_set_ups_that_a_sitting_chooses_from(constant, teeth, tpi, printed):
    found = lathe_ways(lathe_of(constant, teeth), Length.of_inches(1 / tpi), within=EXACT)
    assert read_train(printed) in {each.train for each in found.set_ups}


@pytest.mark.own_arithmetic("F. D. Jones, Turning and Boring, 1914, fifth printing 1919, ch. IV, pp. 136 and 177")
def test_two_printed_threads_of_one_screw_handle_six_wheels_when_the_box_holds_nothing_else():
    # CG-003 and CG-004, pages 136 and 177: 48-84 cuts 7 to the inch and 20-95 cuts 19. They share no wheel, so two go
    # on, two come off and two go on again, whichever thread is first.
    lathe = lathe_of(4, (20, 48, 84, 95))
    tasks = [lathe_ways(lathe, Length.of_inches(Fraction(1, tpi)), within=EXACT, most_pairs=1) for tpi in (7, 19)]
    found = plan(Sitting(tuple(Task(Machine.LATHE, each.ways()) for each in tasks)))
    assert (found.handled, found.bound) == (6, 6)


@pytest.mark.own_arithmetic("F. D. Jones, Turning and Boring, 1914, fifth printing 1919, ch. IV, p. 170")
def test_the_second_pair_of_the_printed_train_goes_on_beside_the_first_for_half_as_fine_a_thread():
    # Page 170: 40-80-30-60 cuts 24 to the inch. 40-60 for the outer wheels is no help, but 30-60 alone cuts 12, and
    # with 80 and 40 put on the stud between them it cuts 24: two wheels, then two more.
    assert read_train("30-80-40-60").ratio == read_train("40-80-30-60").ratio
    lathe = lathe_of(6, range(30, 101, 5))
    tasks = [lathe_ways(lathe, Length.of_inches(Fraction(1, tpi)), within=EXACT) for tpi in (24, 12)]
    found = plan(Sitting(tuple(Task(Machine.LATHE, each.ways()) for each in tasks)))
    assert found.is_proven
    assert found.handled == 4
