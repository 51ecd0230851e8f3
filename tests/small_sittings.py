"""Sittings small enough to be worked by hand: wheels at numbered places, ways of a few of them, tasks of a few ways."""

from __future__ import annotations

from fractions import Fraction

from solver.jobs.tasks import Machine, Task, Way
from solver.trains.changes import Standing

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
