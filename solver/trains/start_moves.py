"""The single moves that bring the tool into the groove of another start of a thread.

A thread of n starts has n grooves in one lead, a pitch apart. The tool stays in its groove as long as spindle,
train, leadscrew and nut stay coupled. To reach another groove one coupling is opened, something is moved, and
the coupling is closed again where it can close: a mesh on whole teeth, the nut on whole leadscrew threads.

Grooves are counted from 0, the one cut first, away from the headstock; a move the other way counts backwards.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import gcd
from typing import NamedTuple

from solver.quantities.lengths import Length, least_common_multiple
from solver.trains.lathe import ChasingDial, Lathe
from solver.trains.wheels import Train

#: More spindle turns than this in one move are sooner miscounted than any other way. [turns]
MOST_SPINDLE_TURNS = 5


class ToothCount(NamedTuple):
    """Opening one mesh and turning its spindle side while the leadscrew side stands still.

    Parameters
    ----------
    mesh : int
        Pair whose mesh is opened, from 1 at the spindle side; beside an idler either of its meshes serves.
    driver : int
        Teeth of the wheel that is turned on.
    teeth : int
        Teeth of it that pass.
    spindle_turns : Fraction
        Turns of the spindle that pass them.
    shift : int
        Grooves moved on.
    """

    mesh: int
    driver: int
    teeth: int
    spindle_turns: Fraction
    shift: int


class SpindleCount(NamedTuple):
    """Turning the spindle by the holes or teeth that index it.

    Parameters
    ----------
    holes : int
        Holes or teeth in the round.
    spaces : int
        Spaces for one start.
    mesh : int or None
        A mesh of the train that closes again after that turn; ``None`` when none does, so that the way serves only
        if the indexed wheel is itself the one that drives the train and is unmeshed.
    """

    holes: int
    spaces: int
    mesh: int | None


class NutJump(NamedTuple):
    """Opening the half-nut and moving the carriage, the spindle standing still.

    Parameters
    ----------
    distance : Length
        Carriage travel; a whole number of leadscrew threads.
    threads : int
        That number.
    shift : int
        Grooves moved on; 0 is the same groove.
    """

    distance: Length
    threads: int
    shift: int


class BetweenGrooves(NamedTuple):
    """The nearest place where the nut closes, for it closes on every thread of the leadscrew, but in no groove.

    Parameters
    ----------
    distance : Length
        Carriage travel.
    threads : int
        Leadscrew threads in it.
    off : Length
        From the tool to the nearest groove, either way.
    """

    distance: Length
    threads: int
    off: Length


class DialReading(NamedTuple):
    """What a slide's dial shows for one start, and by how much the nearest mark misses it.

    Parameters
    ----------
    start : int
        Groove, from 0.
    marks : int
        Nearest whole marks from where the first groove was cut.
    residual : Length
        Reached minus wanted.
    """

    start: int
    marks: int
    residual: Length


def groove_order(shift: int, starts: int) -> tuple[int, ...]:
    """List the grooves in the order one repeated shift cuts them, until it falls into the first again.

    Examples
    --------
    >>> groove_order(3, 4), groove_order(2, 4)
    ((0, 3, 2, 1), (0, 2))
    """
    return tuple(number * shift % starts for number in range(starts // gcd(shift, starts)))


def visits_all(shift: int, starts: int) -> bool:
    """Say whether one shift, repeated, comes into every groove.

    Examples
    --------
    >>> visits_all(3, 4), visits_all(2, 4)
    (True, False)
    """
    return gcd(shift, starts) == 1


def teeth_in_a_turn(train: Train, lathe: Lathe) -> tuple[Fraction, ...]:
    """Return the teeth each mesh passes in one turn of the spindle, spindle side first.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> lathe = Lathe("small", "6 mm", Length.of_mm(6), Fraction(1, 2), True, ())
    >>> teeth_in_a_turn(Train((Pair(100, 24), Pair(32, 48))), lathe)
    (Fraction(50, 1), Fraction(200, 3))
    """
    teeth = []
    turns = lathe.stud_turns
    for pair in train.pairs:
        teeth.append(turns * pair.driver)
        turns *= Fraction(pair.driver, pair.driven)
    return tuple(teeth)


def tooth_counts(train: Train, lathe: Lathe, starts: int) -> tuple[ToothCount, ...]:
    """Find the meshes that close again on whole teeth in another groove, each with its smallest move.

    Where the stud does not turn with the spindle, or further down the train, one turn may pass a broken number of
    teeth and several turns a whole one: the spindle is then turned by as many starts at once.

    Parameters
    ----------
    train : Train
        The wheels mounted, without idlers.
    lathe : Lathe
        Its stud turns.
    starts : int
        Starts of the thread, 2 or more.

    Returns
    -------
    tuple of ToothCount
        Only moves that, repeated, come into every groove; least turning first, then nearest the spindle.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> lathe = Lathe("plain", "6 tpi", Length.of_inches("1/6"), Fraction(1), True, ())
    >>> tooth_counts(Train((Pair(96, 30),)), lathe, 4)
    (ToothCount(mesh=1, driver=96, teeth=24, spindle_turns=Fraction(1, 4), shift=1),)
    >>> tooth_counts(Train((Pair(96, 30),)), lathe, 5)
    ()
    """
    found = []
    for number, (pair, teeth) in enumerate(zip(train.pairs, teeth_in_a_turn(train, lathe), strict=True), start=1):
        # p/q teeth in a turn are p/n teeth in q n-ths of a turn, and fewer n-ths never pass whole teeth.
        at_once = teeth.denominator
        turns = Fraction(at_once, starts)
        if teeth.numerator % starts == 0 and visits_all(at_once, starts) and turns <= MOST_SPINDLE_TURNS:
            found.append(ToothCount(number, pair.driver, teeth.numerator // starts, turns, at_once % starts))
    return tuple(sorted(found, key=lambda each: (each.spindle_turns, each.mesh)))


def spindle_counts(train: Train, lathe: Lathe, starts: int) -> tuple[SpindleCount, ...]:
    """Find the rounds of holes or teeth on the spindle that divide by the starts.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> lathe = Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), True, (), spindle_stops=(60, 64))
    >>> spindle_counts(Train((Pair(45, 40),)), lathe, 3)
    (SpindleCount(holes=60, spaces=20, mesh=1),)
    """
    closing = [
        number
        for number, teeth in enumerate(teeth_in_a_turn(train, lathe), start=1)
        if (teeth / starts).denominator == 1
    ]
    mesh = closing[0] if closing else None
    return tuple(SpindleCount(holes, holes // starts, mesh) for holes in lathe.spindle_stops if holes % starts == 0)


def nut_jumps(cut_lead: Length, starts: int, screw: Length, farthest: Length) -> Iterator[NutJump]:
    """Yield every carriage move that closes the nut in a groove, nearest first, the same groove among them.

    The nut closes on whole leadscrew threads, a groove lies at whole pitches: both at once at the common multiples.

    Parameters
    ----------
    cut_lead : Length
        Lead cut by the train.
    starts : int
        Starts of the thread.
    screw : Length
        Lead of the leadscrew.
    farthest : Length
        Longest move.

    Yields
    ------
    NutJump
        Exact.

    Examples
    --------
    >>> inch = Length.of_inches
    >>> [(each.distance.inches, each.shift) for each in nut_jumps(inch("2/3"), 4, inch("1/6"), inch("2/3"))]
    [(Fraction(1, 6), 1), (Fraction(1, 3), 2), (Fraction(1, 2), 3), (Fraction(2, 3), 0)]
    """
    pitch = cut_lead.mm / starts
    every = Length(least_common_multiple(pitch, screw.mm))
    for number in range(1, int(farthest / every) + 1):
        distance = every * number
        yield NutJump(distance, int(distance / screw), int(distance.mm / pitch) % starts)


def nearest_between(cut_lead: Length, starts: int, screw: Length) -> BetweenGrooves | None:
    """Say where the nut first closes with the tool between two grooves; ``None`` where every thread finds a groove.

    If the very next thread of the leadscrew finds a groove, each one after it does.

    Examples
    --------
    >>> found = nearest_between(Length.of_mm(6), 3, Length.of_mm(3))
    >>> found.distance.mm, found.threads, found.off.mm
    (Fraction(3, 1), 1, Fraction(1, 1))
    >>> nearest_between(Length.of_mm(6), 2, Length.of_mm(3)) is None
    True
    """
    pitch = cut_lead.mm / starts
    past = screw.mm % pitch
    return BetweenGrooves(screw, 1, Length(min(past, pitch - past))) if past else None


def nearest_jumps(cut_lead: Length, starts: int, screw: Length, farthest: Length) -> tuple[NutJump | None, ...]:
    """Return the shortest move from the first groove into each one; ``None`` for a groove no move reaches.

    Moves into different grooves repeat after the half-nut rule's distance, so no more than one round is walked.

    Returns
    -------
    tuple of NutJump or None
        One place for each groove; the first is the move of nothing.

    Examples
    --------
    >>> inch = Length.of_inches
    >>> found = nearest_jumps(inch("2/3"), 4, inch("1/4"), inch(10))
    >>> [each.distance.inches for each in found if each]
    [Fraction(0, 1), Fraction(3, 2), Fraction(1, 1), Fraction(1, 2)]
    """
    found: list[NutJump | None] = [NutJump(Length.of_mm(0), 0, 0), *[None] * (starts - 1)]
    for jump in nut_jumps(cut_lead, starts, screw, farthest):
        if found[jump.shift] is not None:
            break
        found[jump.shift] = jump
    return tuple(found)


def dial_lines_by_start(cut_lead: Length, starts: int, screw: Length, dial: ChasingDial) -> tuple[tuple[int, ...], ...]:
    """List, for each groove, the lines of the chasing dial at which the nut always closes in it.

    A line serves only when the nut can close there at all (a whole number of leadscrew threads from line 0) and
    when the next round of the dial finds the same groove under it.

    Returns
    -------
    tuple of tuple of int
        One place for each groove, lines counted from 0 where the first was begun; empty where none serves.

    Examples
    --------
    >>> inch = Length.of_inches
    >>> dial_lines_by_start(inch("1/2"), 2, inch("1/4"), ChasingDial(16, 16))
    ((0, 2, 4, 6, 8, 10, 12, 14), (1, 3, 5, 7, 9, 11, 13, 15))
    """
    pitch = cut_lead.mm / starts
    by_start: list[list[int]] = [[] for _ in range(starts)]
    if ((screw * dial.wheel_teeth) / cut_lead).denominator == 1:
        for line in range(dial.lines):
            threads = Fraction(dial.wheel_teeth * line, dial.lines)
            grooves = screw.mm * threads / pitch
            if threads.denominator == 1 and grooves.denominator == 1:
                by_start[int(grooves) % starts].append(line)
    return tuple(tuple(lines) for lines in by_start)


def dial_readings(pitch: Length, starts: int, mark: Length) -> tuple[DialReading, ...]:
    """Say what the top slide's dial shows for each start, every one counted from the first groove.

    Parameters
    ----------
    pitch : Length
        Shift from one start to the next.
    starts : int
        Starts of the thread.
    mark : Length
        Travel of the slide for one mark of its dial.

    Returns
    -------
    tuple of DialReading
        From the second start on; counted from the first groove the residuals do not add up.

    Examples
    --------
    >>> dial_readings(Length.of_mm("1.25"), 2, Length.of_mm("0.02"))
    (DialReading(start=1, marks=62, residual=Length(mm=Fraction(-1, 100))),)
    """
    readings = []
    for start in range(1, starts):
        marks = round(pitch * start / mark)
        readings.append(DialReading(start, marks, mark * marks - pitch * start))
    return tuple(readings)
