"""What a given train really cuts, and what it would cut upside down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead
from solver.refusals import ImpossibleSettingError
from solver.trains.chain import Idler
from solver.trains.hand import Hand, keeps_direction, natural_hand
from solver.trains.lathe import Lathe
from solver.trains.mounting import Mounter
from solver.trains.train_answer import TrainAnswer, answer_for
from solver.trains.train_rules import broken_rules
from solver.trains.wheels import Train


@dataclass(frozen=True, slots=True)
class TrainAudit:
    """The finding on a train.

    Parameters
    ----------
    answer : TrainAnswer
        What it cuts; its error is against the wanted lead, or zero against itself when none was named.
    inverted_lead : Length
        What drivers and driven exchanged would cut.
    same_direction : bool
        Leadscrew and stud gear turn the same way, idlers as written and without a reverse.
    hand : Hand or None
        Hand the train cuts as it stands; ``None`` where the lathe's reverse decides.
    not_in_box : tuple of str
        What the train needs that the box does not hold.
    helping_idlers : tuple of Idler
        Idlers with which it would go on where it does not as written; empty when none help or none are needed.
    """

    answer: TrainAnswer
    inverted_lead: Length
    same_direction: bool
    hand: Hand | None
    not_in_box: tuple[str, ...]
    helping_idlers: tuple[Idler, ...] = ()


def audit_train(
    train: Train,
    lathe: Lathe,
    lever: str | None = None,
    wanted: Lead | None = None,
    idlers: Sequence[Idler] = (),
) -> TrainAudit:
    """Work out what a train cuts on a lathe.

    Parameters
    ----------
    train : Train
        As mounted, whether or not the box holds it.
    lathe : Lathe
        The lathe.
    lever : str, optional
        Gearbox position; needed when the lathe has a box.
    wanted : Length or PiLength, optional
        What the thread should have been.
    idlers : sequence of Idler, optional
        Idlers as mounted.

    Returns
    -------
    TrainAudit
        Exact.

    Raises
    ------
    ImpossibleSettingError
        The lever does not exist, or is missing.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.trains.wheels import Pair, WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((40, 1), (50, 1), (80, 1), (127, 1))),)
    >>> lathe = Lathe("inch", "8 tpi", Length.of_inches("1/8"), Fraction(1), True, box)
    >>> audit = audit_train(Train((Pair(40, 80), Pair(50, 127))), lathe)
    >>> audit.answer.cut_lead, audit.inverted_lead.mm > 16
    (Length(mm=Fraction(5, 8)), True)
    """
    known = dict(lathe.lever_ratios)
    if lever not in known:
        names = ", ".join(str(name) for name in known if name is not None)
        asked = (
            f"lever position {lever!r} is not on this lathe" if lever else "this lathe has a gearbox: name its lever"
        )
        raise ImpossibleSettingError(asked, help_text=f"Positions: {names}." if names else "It has no gearbox.")
    cut = lathe.lead_at_equal_wheels * train.ratio * known[lever]
    meshes = len(train.pairs) + len(idlers)
    natural = natural_hand(meshes, lathe)
    hand = Hand.RIGHT if lathe.has_reverse else natural
    answer = answer_for(train, lathe, lever, wanted if wanted is not None else cut, hand, idlers=idlers)
    helping = None if answer.fits or idlers else Mounter(lathe, hand).first_that_fits([train])
    return TrainAudit(
        answer,
        lathe.lead_at_equal_wheels * (known[lever] / train.ratio),
        keeps_direction(meshes),
        None if lathe.has_reverse else natural,
        broken_rules(train, lathe, idlers),
        helping[1] if helping else (),
    )
