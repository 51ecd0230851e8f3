"""Sittings and boxes small enough to be worked by hand: a few wheels at numbered places, and a lathe with one wheel."""

from __future__ import annotations

from fractions import Fraction

from solver.jobs.tasks import Machine, Task, Way
from solver.quantities.lengths import Length
from solver.trains.changes import Standing
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass

EXACT = Fraction(0)
LATHE, HEAD = Machine
A1, A2 = ("A", 1), ("A", 2)


def at(place, teeth, wheel_class=0):
    return Standing(place, f"place {place}", wheel_class, teeth)


def way(*teeth, error=EXACT, rank=0, face=None):
    """A set-up of wheels at places 0, 1, 2 and so on; no wheel where it says 0."""
    wheels = frozenset(at(place, each) for place, each in enumerate(teeth) if each)
    return Way(wheels, Fraction(error), rank, face)


def task(*ways, machine=LATHE, after=()):
    return Task(machine, ways, frozenset(after))


def tasks_of(choices):
    return [choice.task for choice in choices]


def in_time():
    return 60


#: 60 over the 40 of the box, or 30 over 20; 40 over 120, or 20 over 60.
MORE, LESS = (Length.of_inches("1/8") * ratio for ratio in (Fraction(3, 2), Fraction(1, 3)))


def lathe_of(*teeth, reverse=True, banjo=None, others=(), levers=()):
    box = WheelClass("module 1", Length.of_mm(1), tuple((each, 1) for each in teeth))
    return Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), reverse, (box, *others), (), banjo, levers)


FORTY = lathe_of(40)
