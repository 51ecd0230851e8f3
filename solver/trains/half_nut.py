"""When the half-nut may be opened: the carriage and the thread agree again after the common multiple of the leads."""

from __future__ import annotations

from typing import NamedTuple

from solver.quantities.lengths import Length, least_common_multiple
from solver.trains.lathe import ChasingDial, Lathe

#: Beyond this the next agreeing point is off the end of any home-shop bed.
FARTHEST_USEFUL = Length.of_mm(2000)


class HalfNutRule(NamedTuple):
    """Where the half-nut may close again.

    Parameters
    ----------
    every : Length
        Distance along the bed between points where it may close.
    anywhere : bool
        Every leadscrew thread is such a point.
    dial_lines : tuple of int
        Lines of the chasing dial, counted from 0, that always serve; empty without a dial or when none does.
    threads : int
        Threads of the leadscrew in that distance.
    """

    every: Length
    anywhere: bool
    dial_lines: tuple[int, ...] = ()
    threads: int = 1

    @property
    def may_open(self) -> bool:
        """True when the nut may be opened and closed by rule: anywhere, or on known lines of the dial.

        Examples
        --------
        >>> HalfNutRule(Length.of_mm("79.375"), False).may_open
        False
        """
        return self.anywhere or bool(self.dial_lines)


def half_nut_rule(cut_lead: Length, lathe: Lathe) -> HalfNutRule:
    """Work out the rule for the lead that is really cut, not the one on the drawing.

    It is the lead, not the pitch, that counts: a thread of several starts agrees with itself only after whole leads.
    Between these points the nut may close in the groove of another start, see ``starts``.

    Parameters
    ----------
    cut_lead : Length
        Lead cut by the train.
    lathe : Lathe
        Its leadscrew and chasing dial.

    Returns
    -------
    HalfNutRule
        Exact.

    Examples
    --------
    >>> from fractions import Fraction
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, ())
    >>> half_nut_rule(Length.of_mm("5/8"), lathe)
    HalfNutRule(every=Length(mm=Fraction(635, 8)), anywhere=False, dial_lines=(), threads=25)
    >>> two_starts = half_nut_rule(Length.of_inches("1/4") * 2, lathe)
    >>> two_starts.every.inches
    Fraction(1, 2)
    """
    screw = lathe.true_leadscrew_lead
    every = Length(least_common_multiple(cut_lead.mm, screw.mm))
    lines = _dial_lines(every, screw, lathe.chasing_dial) if lathe.chasing_dial else ()
    return HalfNutRule(every, every == screw, lines, int(every / screw))


def _dial_lines(every: Length, screw: Length, dial: ChasingDial) -> tuple[int, ...]:
    """List the lines that agree on every turn of the dial; a line that agrees only on some turns is none."""
    round_the_dial = screw * dial.wheel_teeth
    if (round_the_dial / every).denominator != 1:
        return ()
    to_line = Length(round_the_dial.mm / dial.lines)
    return tuple(line for line in range(dial.lines) if (to_line * line / every).denominator == 1)
