"""Everything that is said of one train: ratio, lead cut, error, mounting, hand and half-nut."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, PiLength
from solver.trains.chain import Idler
from solver.trains.half_nut import HalfNutRule, half_nut_rule
from solver.trains.hand import Hand, HandPlan, plan_hand
from solver.trains.lathe import Lathe
from solver.trains.lead_error import LeadError, lead_error
from solver.trains.mounting import Mounter, Mounting, Verdict
from solver.trains.wheels import Train


class TrainAnswer(NamedTuple):
    """One train to mount, with all that is said of it.

    ``nominal_error`` is what the error would be if the leadscrew were true; the same as ``error`` where no
    measured error is stated.
    """

    train: Train
    lever: str | None
    ratio: Fraction
    cut_lead: Length
    error: LeadError
    nominal_error: LeadError
    mounting: Mounting
    hand: HandPlan
    half_nut: HalfNutRule

    @property
    def idlers(self) -> tuple[Idler, ...]:
        """Idlers to mount besides the pairs, spindle side first.

        Examples
        --------
        >>> from solver.trains.wheels import Pair, WheelClass
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1), (65, 1))),)
        >>> no_reverse = Lathe("plain", "3 mm", Length.of_mm(3), Fraction(1), False, box)
        >>> answer_for(Train((Pair(40, 60),)), no_reverse, None, Length.of_mm(2)).idlers
        (Idler(mesh=1, teeth=65),)
        """
        return self.mounting.idlers

    @property
    def fits(self) -> bool:
        """True unless something is known to stand in the way, or it is too close to call.

        Examples
        --------
        >>> from solver.trains.wheels import WheelClass
        >>> from solver.trains.written_trains import read_train
        >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 1), (21, 1), (40, 1), (80, 1))),)
        >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
        >>> answer_for(read_train("20-40-21-80"), lathe, None, Length.of_mm(1)).fits
        True
        >>> answer_for(read_train("20-21-40-80"), lathe, None, Length.of_mm(1)).fits
        False
        """
        return self.mounting.verdict in (Verdict.FITS, Verdict.NOT_CHECKED)


def answer_for(
    train: Train,
    lathe: Lathe,
    lever: str | None,
    lead: Lead,
    hand: Hand = Hand.RIGHT,
    *,
    idlers: Sequence[Idler] | None = None,
    mounter: Mounter | None = None,
) -> TrainAnswer:
    """Say everything of one given train.

    Parameters
    ----------
    train : Train
        One placing.
    lathe : Lathe
        The lathe it goes on.
    lever : str or None
        Gearbox position, ``None`` without a box.
    lead : Length or PiLength
        Wanted lead.
    hand : Hand, optional
        Wanted hand.
    idlers : sequence of Idler, optional
        Idlers to judge it with; chosen from the wheels left when left out.
    mounter : Mounter, optional
        One made for this lathe and hand.

    Returns
    -------
    TrainAnswer
        Exact but for the error to a pi lead, which is bounded.

    Examples
    --------
    >>> from solver.trains.wheels import Pair, WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (127, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> answer_for(Train((Pair(40, 127),)), lathe, None, Length.of_mm(1)).cut_lead
    Length(mm=Fraction(1, 1))
    """
    ratio = train.ratio * dict(lathe.lever_ratios)[lever]
    cut = lathe.lead_at_equal_wheels * ratio
    error = lead_error(cut, lead)
    # A stated error of the leadscrew is the only difference between the nominal lead and the true one.
    nominal = lead_error(Length(cut.mm / (1 + lathe.measured)), lead) if lathe.measured else error
    mounter = mounter or Mounter(lathe, hand)
    mounting = mounter.mount(train) if idlers is None else mounter.judge(train, idlers)
    meshes = len(train.pairs) + len(mounting.idlers)
    plan = plan_hand(meshes, lathe, hand, len(mounting.idlers))
    return TrainAnswer(train, lever, ratio, cut, error, nominal, mounting, plan, half_nut_rule(cut, lathe))


def is_pi_lead(lead: Lead) -> bool:
    """Say whether a lead is a multiple of pi, so that no train is ever exact.

    Examples
    --------
    >>> is_pi_lead(PiLength(Fraction(1))), is_pi_lead(Length.of_mm(1))
    (True, False)
    """
    return isinstance(lead, PiLength)
