"""Cautions in place: only those that belong to this job, deferring to handbook, rules and supervision."""

from __future__ import annotations

from fractions import Fraction

from solver.trains.train_search import TrainAnswer

#: A leadscrew that outruns the spindle loads the wheels.
STEP_UP = Fraction(1)

DEFER = "The machine's own handbook, local rules and trained supervision come before this sheet."


def train_cautions(answer: TrainAnswer, *, reversing: bool) -> tuple[str, ...]:
    """List the cautions of one train set-up."""
    lines = [
        "Isolate the machine before hands go near the wheels; refit the guard before power.",
        "Turn the whole train one round by hand first; check nuts, keys and play in each mesh.",
    ]
    if not answer.half_nut.may_open:
        lines.append("Keep the half-nut closed until the thread is done; withdraw the tool before reversing.")
    if reversing or not answer.half_nut.may_open:
        lines.append("A screwed-on chuck can unscrew in reverse: low speed, or turn by hand.")
    if answer.ratio > STEP_UP:
        lines.append("The leadscrew outruns the spindle: the wheels carry the load; turn by hand, light cuts.")
    lines.append("Scratch a trial pass and measure before cutting. " + DEFER)
    return tuple(lines)


def thread_cautions(*, internal: bool, cut: bool, measured: bool) -> tuple[str, ...]:
    """List the cautions of cutting and measuring one thread."""
    lines = []
    if cut:
        lines.append("Withdraw the tool before the spindle is reversed; hands, sleeves and rags off a turning thread.")
        lines.append("Try the stopping distance in air first; near a shoulder turn the spindle by hand.")
    if cut and internal:
        lines.append("In a bore the tool is out of sight: mark the bar for depth, never feel a thread that turns.")
    if measured:
        lines.append("Spindle stopped and isolated before wires or a gauge go on; clear burrs with a brush.")
    lines.append(f"Scratch a trial pass and measure before cutting. {DEFER}" if cut else DEFER)
    return tuple(lines)


def dividing_cautions() -> tuple[str, ...]:
    """List the cautions of dividing on a head."""
    return (
        "Cutter stopped or well clear before the crank is turned; clamp the spindle to cut, unclamp it to move.",
        "Come up to each hole from the same side; overshot, go back half a turn and come again.",
        "Walk or scribe the whole round before cutting: the last mark must fall on the first. " + DEFER,
    )
