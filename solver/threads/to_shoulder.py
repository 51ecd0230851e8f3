"""From the start of a thread to its shoulder: turns of the spindle, speed of the carriage, times."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.threads.run_out import RunOut
from solver.threads.spindle_speed import SpindleSpeed


class ToShoulder(NamedTuple):
    """One length of thread at one speed; times are of the tool in the cut, without setting and stopping.

    Parameters
    ----------
    length : Length
        From the start of the thread to its shoulder.
    turns : Fraction
        Of the spindle, over that length.
    full_thread : Length
        What the run-out groove leaves of it; zero or below where it leaves nothing.
    speed : Fraction or None
        Turns a minute that are taken; ``None`` where the spindle is turned by hand: so slow, or no full thread at all.
    travel_per_minute : Length or None
        Of the carriage, at that speed.
    seconds : Fraction or None
        From the start to the shoulder.
    passes, springs : int
        On each start, with the spring passes, and those alone.
    starts : int
        Each is cut with all the passes.
    """

    length: Length
    turns: Fraction
    full_thread: Length
    speed: Fraction | None
    travel_per_minute: Length | None
    seconds: Fraction | None
    passes: int
    springs: int
    starts: int

    @property
    def has_full_thread(self) -> bool:
        """False where tool and stopping distance take the whole length.

        Examples
        --------
        >>> groove = RunOut(Length.of_mm(8), Length.of_mm(1), Length.of_mm(3), Length.of_mm(4), Length.of_mm(1))
        >>> speed = SpindleSpeed(Fraction(800), Fraction(200), Fraction(120))
        >>> lengths = [Length.of_mm(4), Length.of_mm(5)]
        >>> lead, passes = Length.of_mm(1), {"passes": 9, "springs": 2, "starts": 1}
        >>> found = [to_shoulder(each, lead, speed, groove, **passes) for each in lengths]
        >>> [each.has_full_thread for each in found]
        [False, True]
        """
        return self.full_thread.mm > 0

    @property
    def cutting_seconds(self) -> Fraction | None:
        """Every pass on every start, cutting alone.

        Examples
        --------
        >>> groove = RunOut(Length.of_mm(8), Length.of_mm(1), Length.of_mm(3), Length.of_mm(4), Length.of_mm(1))
        >>> speed = SpindleSpeed(Fraction(800), Fraction(200), Fraction(120))
        >>> to_shoulder(Length.of_mm(30), Length.of_mm(3), speed, groove, passes=9, springs=2, starts=2).cutting_seconds
        Fraction(90, 1)
        """
        return None if self.seconds is None else self.seconds * self.passes * self.starts

    @property
    def whole_seconds(self) -> Fraction | None:
        """The same with the return of each pass in reverse, at the same speed.

        Examples
        --------
        >>> groove = RunOut(Length.of_mm(8), Length.of_mm(1), Length.of_mm(3), Length.of_mm(4), Length.of_mm(1))
        >>> speed = SpindleSpeed(Fraction(800), Fraction(200), Fraction(120))
        >>> to_shoulder(Length.of_mm(30), Length.of_mm(3), speed, groove, passes=9, springs=2, starts=2).whole_seconds
        Fraction(180, 1)
        """
        return None if self.cutting_seconds is None else self.cutting_seconds * 2


def to_shoulder(
    length: Length, lead: Length, speed: SpindleSpeed, groove: RunOut, *, passes: int, springs: int, starts: int
) -> ToShoulder:
    """Work out one length of thread at the speed that is taken.

    Parameters
    ----------
    length, lead : Length
        From the start to the shoulder, and of one turn.
    speed : SpindleSpeed
        Of which the one to take counts.
    groove : RunOut
        Its width takes full thread away from the length.
    passes, springs, starts : int
        Passes on each start, how many of them are spring passes, and starts.

    Examples
    --------
    >>> groove = RunOut(Length.of_mm(8), Length.of_mm(1), Length.of_mm(3), Length.of_mm(4), Length.of_mm(1))
    >>> found = to_shoulder(Length.of_mm(30), Length.of_mm("1.5"), SpindleSpeed(Fraction(800), Fraction(200),
    ...     Fraction(120)), groove, passes=9, springs=2, starts=1)
    >>> found.turns, found.travel_per_minute.mm, found.seconds
    (Fraction(20, 1), Fraction(180, 1), Fraction(10, 1))
    """
    turns = length / lead
    full_thread = length - groove.width
    # Where tool and stopping take the whole length there is no way to run under power.
    taken = None if speed.is_by_hand or full_thread.mm <= 0 else speed.taken
    return ToShoulder(
        length,
        turns,
        full_thread,
        taken,
        None if taken is None else lead * taken,
        None if taken is None else turns * 60 / taken,
        passes,
        springs,
        starts,
    )
