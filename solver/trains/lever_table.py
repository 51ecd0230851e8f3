"""What one mounted train cuts at every position of a gearbox."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead
from solver.trains.identify import KnownPitch
from solver.trains.lathe import Lathe
from solver.trains.lead_error import LeadError, lead_error
from solver.trains.wheels import Train


class LeverRow(NamedTuple):
    """One position of the box.

    Parameters
    ----------
    lever : str
        Its name.
    cut_lead : Length
        What the train cuts there.
    nearest : KnownPitch
        The pitch of the tables that it comes nearest to.
    error : LeadError
        Off that pitch.
    off_wanted : LeadError or None
        Off what was wanted, where something was.
    """

    lever: str
    cut_lead: Length
    nearest: KnownPitch
    error: LeadError
    off_wanted: LeadError | None


def lever_table(
    train: Train, lathe: Lathe, known: Sequence[KnownPitch], wanted: Lead | None = None
) -> tuple[LeverRow, ...]:
    """Work out the lead at every lever position, coarse first, each with the nearest pitch that somebody makes.

    Parameters
    ----------
    train : Train
        As mounted, whether or not the box of wheels holds it.
    lathe : Lathe
        With a gearbox.
    known : sequence of KnownPitch
        Pitches to name, one at least.
    wanted : Length or PiLength, optional
        What the thread should be.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.trains.wheels import Pair
    >>> levers = (("A", Fraction(1)), ("B", Fraction(1, 2)))
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, (), levers=levers)
    >>> known = [KnownPitch(Length.of_inches("1/16"), ("16 tpi",)), KnownPitch(Length.of_mm("3.2"), ("3.2 mm",))]
    >>> rows = lever_table(Train((Pair(40, 40),)), lathe, known)
    >>> [(row.lever, row.nearest.names[0], row.error.is_exact) for row in rows]
    [('A', '3.2 mm', False), ('B', '16 tpi', True)]
    """
    rows = []
    for lever, ratio in lathe.lever_ratios:
        cut = lathe.lead_at_equal_wheels * train.ratio * ratio
        nearest = min(known, key=lambda each: (abs(lead_error(cut, each.pitch).relative), each.names))
        off_wanted = None if wanted is None else lead_error(cut, wanted)
        rows.append(LeverRow(str(lever), cut, nearest, lead_error(cut, nearest.pitch), off_wanted))
    return tuple(sorted(rows, key=lambda row: -row.cut_lead.mm))
