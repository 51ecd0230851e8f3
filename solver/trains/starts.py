"""From one start of a thread to the next: every way on one lathe, the best first, and why the others do not serve."""

from __future__ import annotations

from enum import Enum
from math import gcd
from typing import NamedTuple

from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length, least_common_multiple
from solver.quantities.pitches import figure_text
from solver.trains.lathe import Lathe
from solver.trains.start_moves import (
    MOST_SPINDLE_TURNS,
    BetweenGrooves,
    NutJump,
    SpindleCount,
    ToothCount,
    dial_lines_by_start,
    groove_order,
    nearest_between,
    nearest_jumps,
    spindle_counts,
    teeth_in_a_turn,
    tooth_counts,
    visits_all,
)
from solver.trains.wheels import Train

#: Longest carriage move looked at: the usual distance between centres of a home-shop lathe. Practice, no source.
LONGEST_JUMP = Length.of_mm(500)


class Way(Enum):
    """The ways to reach the next start, best first: exact ones that need no wheel moved, then the others."""

    DIAL_LINES = "chasing dial"
    TEETH = "wheel teeth"
    HALF_NUT = "half-nut jump"
    SPINDLE = "spindle index"
    TOP_SLIDE = "top slide"


class WayFound(NamedTuple):
    """One way, whether it serves, and what stands in the way or must be so."""

    way: Way
    serves: bool
    reason: str = ""


class StartsPlan(NamedTuple):
    """Everything about moving from start to start with one train on one lathe.

    Parameters
    ----------
    starts : int
        Starts of the thread, 2 or more.
    pitch : Length
        Distance from groove to groove as the train cuts it: the cut lead divided by the starts.
    ways : tuple of WayFound
        Those that serve first, best first; then the others with the reason.
    teeth : tuple of ToothCount
        Meshes to open, least turning first.
    spindle : tuple of SpindleCount
        Rounds of the spindle index that divide by the starts.
    nut_every : Length
        Distance along the bed between threads of the leadscrew at which the tool stands in any groove, right or wrong.
    jumps : tuple of NutJump or None
        Shortest move into each groove, counted from 0; ``None`` where no move within the bed reaches it.
    repeated : NutJump or None
        Shortest move that, repeated, comes into every groove.
    by_one : NutJump or None
        Shortest move to the very next groove.
    dial_lines : tuple of tuple of int
        Lines of the chasing dial for each groove; empty without a dial.
    between : BetweenGrooves or None
        Where the nut first closes with the tool in no groove; ``None`` where every thread of the leadscrew finds one.
    """

    starts: int
    pitch: Length
    ways: tuple[WayFound, ...]
    teeth: tuple[ToothCount, ...]
    spindle: tuple[SpindleCount, ...]
    nut_every: Length
    jumps: tuple[NutJump | None, ...]
    repeated: NutJump | None
    by_one: NutJump | None
    dial_lines: tuple[tuple[int, ...], ...]
    between: BetweenGrooves | None

    @property
    def jump_order(self) -> tuple[int, ...]:
        """Grooves, from 0, in the order the repeated jump cuts them; empty without one.

        Examples
        --------
        >>> from fractions import Fraction
        >>> lathe = Lathe("inch", "4 tpi", Length.of_inches("1/4"), Fraction(1), True, ())
        >>> plan_starts(Train(()), Length.of_inches("2/3"), 4, lathe).jump_order
        (0, 3, 2, 1)
        """
        return groove_order(self.repeated.shift, self.starts) if self.repeated else ()


def plan_starts(
    train: Train, cut_lead: Length, starts: int, lathe: Lathe, farthest: Length = LONGEST_JUMP
) -> StartsPlan:
    """Work out every way from start to start.

    Parameters
    ----------
    train : Train
        The wheels mounted.
    cut_lead : Length
        Lead they cut; grooves are even only in the lead that is really cut.
    starts : int
        Starts of the thread, 2 or more.
    lathe : Lathe
        Its leadscrew, stud, spindle index and chasing dial.
    farthest : Length, optional
        Longest carriage move the bed allows.

    Returns
    -------
    StartsPlan
        Exact.

    Raises
    ------
    ValueError
        The thread has one start.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.trains.wheels import Pair
    >>> lathe = Lathe("inch", "4 tpi", Length.of_inches("1/4"), Fraction(1), True, ())
    >>> plan = plan_starts(Train((Pair(80, 30),)), Length.of_inches("2/3"), 4, lathe)
    >>> plan.teeth[0].teeth, plan.repeated.distance.inches, plan.by_one.distance.inches
    (20, Fraction(1, 2), Fraction(3, 2))
    >>> [found.way.value for found in plan.ways if found.serves]
    ['wheel teeth', 'half-nut jump', 'top slide']
    """
    if starts < 2:
        message = f"{starts} start: there is no other groove to move to"
        raise ValueError(message)
    screw = lathe.true_leadscrew_lead
    pitch = Length(cut_lead.mm / starts)
    teeth = tooth_counts(train, lathe, starts)
    spindle = spindle_counts(train, lathe, starts)
    nut_every = Length(least_common_multiple(pitch.mm, screw.mm))
    between = nearest_between(cut_lead, starts, screw)
    jumps = nearest_jumps(cut_lead, starts, screw, farthest)
    made = sorted((each for each in jumps if each is not None), key=lambda each: each.distance)
    repeated = next((each for each in made if visits_all(each.shift, starts)), None)
    lines = dial_lines_by_start(cut_lead, starts, screw, lathe.chasing_dial) if lathe.chasing_dial else ()
    reasons = {
        Way.DIAL_LINES: _dial_obstacle(lines),
        Way.TEETH: "" if teeth else _teeth_obstacle(train, lathe, starts),
        Way.HALF_NUT: "" if None not in jumps else _nut_obstacle(nut_every, between, pitch, starts, farthest),
        Way.SPINDLE: _spindle_obstacle(spindle, lathe, starts),
        Way.TOP_SLIDE: "",
    }
    found = [WayFound(way, not reasons[way], reasons[way]) for way in Way]
    return StartsPlan(
        starts=starts,
        pitch=pitch,
        ways=tuple(sorted(found, key=lambda each: not each.serves)),
        teeth=teeth,
        spindle=spindle,
        nut_every=nut_every,
        jumps=jumps,
        repeated=repeated,
        by_one=jumps[1],
        dial_lines=lines,
        between=between,
    )


def _dial_obstacle(lines: tuple[tuple[int, ...], ...]) -> str:
    if not lines:
        return "the lathe file has no [chasing_dial]"
    if all(lines):
        return ""
    if not any(lines):
        return "no line of the dial finds the same groove on every round"
    *others, last = [str(number) for number, each in enumerate(lines, start=1) if not each]
    bare = f"starts {', '.join(others)} and {last}" if others else f"start {last}"
    return f"no line of the dial stands for {bare}"


def _teeth_obstacle(train: Train, lathe: Lathe, starts: int) -> str:
    passed = ", ".join(
        f"the {pair.driver} T driver {figure_text(teeth / starts)}"
        for pair, teeth in zip(train.pairs, teeth_in_a_turn(train, lathe), strict=True)
    )
    step = (lathe.stud_turns / starts).denominator
    return (
        f"1/{starts} turn of the spindle passes no whole number of teeth at any mesh ({passed}), "
        f"nor do up to {MOST_SPINDLE_TURNS} turns; a first driver whose teeth divide by {step} would serve"
    )


def _nut_obstacle(every: Length, between: BetweenGrooves | None, pitch: Length, starts: int, farthest: Length) -> str:
    shift = int(every / pitch) % starts
    if shift == 0 and between is None:
        return "wherever the nut can close, the tool is in the same groove again"
    if shift == 0:
        return "no closing of the nut brings the tool into another start"
    if not visits_all(shift, starts):
        return f"however often it is moved, the tool comes into {starts // gcd(shift, starts)} of {starts} grooves only"
    longest = f"{trimmed_decimal_text(farthest.mm, 0)} mm"
    if every > farthest:
        return f"the nut closes in no other groove within {longest}"
    return f"some grooves are reached only by a move beyond {longest}"


def _spindle_obstacle(spindle: tuple[SpindleCount, ...], lathe: Lathe, starts: int) -> str:
    if not lathe.spindle_stops:
        return "the lathe file has no [spindle_stops]"
    if not spindle:
        counts = " or ".join(map(str, lathe.spindle_stops))
        return f"{counts} spaces do not divide by {starts}"
    first = spindle[0]
    if first.mesh is None:
        return (
            f"after 1/{starts} turn no mesh of the train closes again on whole teeth; {first.spaces} of {first.holes} "
            "spaces serve only where that wheel itself drives the train and can be taken out of mesh"
        )
    return ""
