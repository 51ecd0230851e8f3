"""Ways from start to start and the judgement as JSON."""

from __future__ import annotations

from typing import Any

from cli.views.judgement_text import judgement_json, judgement_of
from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch
from solver.trains.fit_tolerance import FitTolerance
from solver.trains.lathe import Lathe
from solver.trains.start_moves import BetweenGrooves, NutJump
from solver.trains.starts import plan_starts
from solver.trains.train_answer import TrainAnswer


def picking_up(
    asked: Pitch, answer: TrainAnswer | None, lathe: Lathe, engaged: Length, tolerance: FitTolerance | None
) -> dict[str, Any]:
    """Describe what follows from the first train: its starts and its judgement."""
    if answer is None:
        return {"starts": None, "judgement": None}
    judged = judgement_of(answer.error, engaged, tolerance, is_measured=bool(lathe.measured))
    return {
        "starts": starts_json(asked, answer, lathe),
        "judgement": judgement_json(judged, answer.error),
    }


def starts_json(asked: Pitch, answer: TrainAnswer, lathe: Lathe) -> dict[str, Any] | None:
    """Describe the ways from start to start of one train; ``None`` for a thread of one start.

    Starts are counted from 1, the one cut first, away from the headstock.
    """
    if asked.starts == 1:
        return None
    plan = plan_starts(answer.train, answer.cut_lead, asked.starts, lathe)
    return {
        "starts": plan.starts,
        "pitch_mm": f"{plan.pitch.mm}",
        "ways": [{"way": each.way.value, "serves": each.serves, "reason": each.reason} for each in plan.ways],
        "teeth": [{**each._asdict(), "spindle_turns": f"{each.spindle_turns}"} for each in plan.teeth],
        "spindle_index": [each._asdict() for each in plan.spindle],
        "half_nut": {
            "closes_every_mm": f"{plan.nut_every.mm}",
            "between_grooves": _between(plan.between),
            "from_start_1": [_jump(each) for each in plan.jumps],
            "smallest_repeated": _jump(plan.repeated),
            "order": [groove + 1 for groove in plan.jump_order],
            "smallest_by_one": _jump(plan.by_one),
        },
        "top_slide_mm": f"{plan.pitch.mm}",
        "dial_lines": [list(lines) for lines in plan.dial_lines],
    }


def _between(found: BetweenGrooves | None) -> dict[str, Any] | None:
    if found is None:
        return None
    return {"move_mm": f"{found.distance.mm}", "leadscrew_threads": found.threads, "off_mm": f"{found.off.mm}"}


def _jump(jump: NutJump | None) -> dict[str, Any] | None:
    if jump is None:
        return None
    return {"move_mm": f"{jump.distance.mm}", "leadscrew_threads": jump.threads, "start": jump.shift + 1}
