"""Cautions in place: only those that belong to this job, deferring to handbook, rules and supervision."""

from __future__ import annotations

from typing import TYPE_CHECKING

from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.train_answer import TrainAnswer

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from solver.dividing.heads import Head
    from solver.dividing.moves import IndexAnswer
    from solver.dividing.two_cranks import TwoCrankSetting

DEFER = "The machine's own handbook, local rules and trained supervision come before this sheet."
#: A thread that is cut away from the headstock.
FROM_GROOVE = (
    "Left-hand: set the tool in the groove before the spindle starts. The way back goes towards the chuck: tool "
    "withdrawn, slowly, and stopped within the groove."
)
#: Backlash, wherever a distance is set by the dial of a screw.
PLAY = "Take out the play of each screw in the direction of the cut before its dial is set to zero."
#: How the tool goes back after a pass with the half-nut closed: a left-hand thread begins at the headstock end.
BACK = {
    Hand.RIGHT: "Back after a right-hand pass: withdraw the tool, reverse past the start, come forward again to take "
    "up the play, then feed in.",
    Hand.LEFT: "Back after a left-hand pass: withdraw the tool, reverse slowly towards the headstock and stop within "
    "the groove; take up the play by hand before feeding in.",
}
#: Wherever the spindle is turned back under power.
UNSCREWS = "A screwed-on chuck can unscrew in reverse: low speed, or turn by hand."


def gathered(lines: Iterable[str]) -> list[str]:
    """Keep each caution once; that the machine's own handbook comes first is said last.

    Examples
    --------
    >>> gathered(["Guards on.", f"Try it first. {DEFER}", "Guards on."])[:2]
    ['Guards on.', 'Try it first.']
    """
    kept = dict.fromkeys(line.removesuffix(DEFER).strip() for line in lines)
    return [*(line for line in kept if line), DEFER]


def train_cautions(answer: TrainAnswer, lathe: Lathe, *, reversing: bool) -> tuple[str, ...]:
    """List the cautions of one train set-up."""
    lines = [
        "Isolate the machine before hands go near the wheels; refit the guard before power.",
        "Turn the whole train one round by hand first; check nuts, keys and play in each mesh.",
    ]
    if not answer.half_nut.may_open:
        lines += ["Keep the half-nut closed until the thread is done.", BACK[answer.hand.hand]]
    if reversing or not answer.half_nut.may_open:
        lines.append(UNSCREWS)
    lines += coarse_cautions(answer, lathe)
    lines.append("Scratch a trial pass and measure before cutting. " + DEFER)
    return tuple(lines)


def coarse_cautions(answer: TrainAnswer, lathe: Lathe) -> tuple[str, ...]:
    """Warn of a lead so coarse that the wheels carry the load; nothing of a finer one."""
    if answer.cut_lead <= lathe.true_leadscrew_lead:
        return ()
    outruns = "A coarse lead: the leadscrew outruns the spindle and the wheels carry the load. "
    return (outruns + "Drive by hand or from the leadscrew, light cuts.",)


def thread_cautions(
    *,
    internal: bool,
    cut: bool,
    measured: bool,
    from_groove: bool = False,
    reversing: bool = False,
    by_marks: bool = False,
) -> tuple[str, ...]:
    """List the cautions of cutting and measuring one thread."""
    lines = []
    if cut:
        lines.append("Withdraw the tool before the spindle is reversed; hands, sleeves and rags off a turning thread.")
        lines.append("Try the stopping distance in air first; near a shoulder turn the spindle by hand.")
    if from_groove:
        lines.append(FROM_GROOVE)
    if reversing:
        lines.append(UNSCREWS)
    if cut and internal:
        lines.append("In a bore the tool is out of sight: mark the bar for depth, never feel a thread that turns.")
    if by_marks:
        lines.append(PLAY)
    if measured:
        lines.append("Spindle stopped and isolated before wires or a gauge go on; clear burrs with a brush.")
    lines.append(f"Scratch a trial pass and measure before cutting. {DEFER}" if cut else DEFER)
    return tuple(lines)


def two_motion_cautions(answer: IndexAnswer) -> tuple[str, ...]:
    """List what a geared plate or two motions bring with them; nothing for one motion with the plate held."""
    lines = []
    if answer.gearing is not None:
        lines += [
            "Isolate the machine before hands go near the wheels; refit the guard: they turn with the crank.",
            "Stop pin out and plate free before the first move, or the worm is forced against a locked plate.",
        ]
    if answer.runs_both_ways:
        lines.append("Make the backward motion first, the forward one last, so that play is always taken up one way.")
    elif answer.second is not None:
        lines.append("Make the two motions in the same order every time.")
    if answer.second is not None:
        lines.append("Tick each motion as it is made; the same plate and face stay on all the way round.")
    return tuple(lines)


def dividing_cautions(
    answer: IndexAnswer | None = None, *, by_crank: bool = True, closes: bool = True
) -> tuple[str, ...]:
    """List the cautions of dividing on a head, with those of a geared plate or of two motions where they belong.

    ``closes`` says that the last mark is the first one again.
    """
    if answer is not None and answer.is_on_spindle:
        by_crank = False
    again = "go back half a turn and come again" if by_crank else "go back past it, come again, and seat the pin fully"
    return (
        *(() if answer is None else two_motion_cautions(answer)),
        "Cutter stopped or well clear before the work is turned; clamp the spindle to cut, unclamp it to move.",
        f"Come up to each hole from the same side; overshot, {again}.",
        f"{_walk_words(closes=closes)} {DEFER}",
    )


def _walk_words(*, closes: bool) -> str:
    if closes:
        return "Walk or scribe the whole round before cutting: the last mark must fall on the first."
    return "Walk or scribe every mark before cutting, then go back to zero: the first line must meet again."


#: What a dial brings with it wherever it is turned by.
DIAL_CAUTIONS = (
    "A dial has no stop: take out the play of the worm the same way each time.",
    "Come up to each reading from the same side; overshot, go back half a turn and come again.",
)


def table_cautions(*, closes: bool = True) -> tuple[str, ...]:
    """List the cautions of dividing by a dial; ``closes`` says that the last mark is the first one again."""
    play, come_up = DIAL_CAUTIONS
    return (
        play,
        "Cutter stopped or well clear before the handle is turned; lock the table to cut, unlock it to move.",
        come_up,
        f"{_walk_words(closes=closes)} {DEFER}",
    )


def head_cautions(head: Head, answer: IndexAnswer | None) -> tuple[str, ...]:
    """List the cautions of dividing on a head: those of its dial where that alone divides."""
    return table_cautions() if head.has_only_dial else dividing_cautions(answer)


def cranks_cautions(settings: Sequence[TwoCrankSetting]) -> tuple[str, ...]:
    """List the cautions of a head with two cranks, with that of a crank that goes back where one does."""
    if not any(each.runs_both_ways for each in settings):
        return dividing_cautions()
    back = (
        "A crank that goes back: past its hole by half a turn and up to it again. Make that move first and the forward "
        "one last, so that play is always taken up one way."
    )
    return (back, *dividing_cautions())


def chart_cautions() -> tuple[str, ...]:
    """List the cautions of a threading chart whose rows were checked."""
    return (
        "A row that cuts its thread on paper may still not go on, or run the wrong way: audit its train by itself.",
        "Isolate the machine before hands go near the wheels; refit the guard before power.",
        "Scratch a trial pass and measure before cutting. " + DEFER,
    )


def touching_cautions() -> tuple[str, ...]:
    """List the cautions of setting a cutter from touching the work, and of measuring at the cutter."""
    return (
        "Hold the feeler paper by its far end, fingers well away from the cutter; stop the spindle to measure.",
        PLAY,
    )
