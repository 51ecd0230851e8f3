"""The plan of a job as JSON: exact numbers as text."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from cli.job_plan import HeadStep, JobPlan, LatheStep
from cli.views import answer_json
from cli.views.job_screen import thread_command
from cli.views.job_wheel import held_part, wheel_part_json, worm_command
from cli.views.part_figures import length_json
from cli.views.table_dial_screen import by_dial_json
from cli.views.workpiece import wheel_json
from cli.views.worm_shop import angle_json
from gearsets.job_files import JobPart
from gearsets.job_parts import DialPart, DividedPart, ShapedPart, SlottedPart, ThreadPart, WheelPart, WormPart
from solver.jobs.tasks import Machine
from solver.trains.changes import Standing


def job_json(found: JobPlan) -> str:
    """Write the plan of a job as JSON."""
    plan, job = found.plan, found.job
    return answer_json.as_text(
        {
            "job": job.name,
            "lathe": job.lathe.name if job.lathe else None,
            "head": job.head.name if job.head else None,
            "one_box": job.has_one_box,
            "mounted": [[pair.driver, pair.driven] for pair in job.mounted[0].pairs] if job.mounted else [],
            "steps": [step_json(number, step, job.head_word) for number, step in enumerate(found.steps, start=1)],
            "wheels_handled": plan.handled,
            "bound": plan.bound,
            "proven": plan.is_proven,
            "ties_settled": plan.ties_settled,
            "faces_put_on": plan.faces,
            "wheels_in_file_order": found.in_file_order,
            "set_ups": found.set_ups,
            "most_pairs": found.pairs,
            "cut_short": list(found.cut_short),
        }
    )


def step_json(number: int, step: LatheStep | HeadStep, head_word: str) -> dict[str, Any]:
    """Describe one step."""
    part, handling = step.part, step.handling
    described: dict[str, Any] = {
        "step": number,
        "part": part.name,
        "machine": (Machine.LATHE if isinstance(step, LatheStep) else Machine.HEAD).value,
        "quantity": part.quantity,
        "note": part.note or None,
        "asked": product_json(part, head_word),
        "within": f"{part.within}",
        "wheels_handled": handling.wheels,
        "off": wheels_json(handling.off),
        "on": wheels_json(handling.on),
        "lent": wheels_json(handling.lent),
    }
    if isinstance(step, LatheStep):
        described["train"] = answer_json.train_answer(step.answer)
    else:
        described["setting"] = None if step.answer is None else answer_json.index_answer(step.answer)
        described["by_dial"] = None if step.table is None else by_dial_json(step.table)
        described["face"] = list(step.face) if step.face else None
        described["face_put_on"] = handling.face is not None
    return described


def wheels_json(wheels: Sequence[Standing]) -> list[dict[str, Any]]:
    """Describe wheels at their places."""
    return [{"place": each.place, "teeth": each.teeth, "class": each.wheel_class} for each in wheels]


def product_json(part: JobPart, head_word: str) -> dict[str, Any]:
    """Describe what a part is."""
    product = part.product
    if isinstance(product, ThreadPart):
        return {
            "kind": "thread",
            **answer_json.asked_lead(product.lead),
            "written": str(product.pitch),
            "thread": product.row.designation if product.row else None,
            "hand": product.hand.value,
            "in_full": thread_command(product, product.drawn) if product.drawn else None,
        }
    if isinstance(product, WormPart):
        worm = product.wheel.worm
        return {
            "kind": "worm",
            **answer_json.asked_lead(product.lead),
            "size": str(worm.size),
            "starts": worm.starts,
            "hand": product.hand.value,
            "teeth": product.wheel.teeth,
            "outside_mm": length_json(worm.outside),
            "root_mm": length_json(worm.root),
            "whole_depth_mm": length_json(worm.whole_depth),
            "tool_flat_mm": length_json(worm.tool_flat),
            "lead_angle_deg": angle_json(worm.lead_angle),
            "in_full": worm_command(product.wheel, product.hand, head_word),
            "centre_distance_mm": length_json(product.wheel.centre_distance),
        }
    if isinstance(product, WheelPart):
        return {
            "kind": "wheel",
            "teeth": product.wheel.teeth,
            "turns_of_work": f"{product.turn}",
            **wheel_part_json(product.wheel, product.hand, head_word),
        }
    if isinstance(product, DividedPart):
        held = held_part(product)
        wheel = {} if held is None else wheel_json(held)
        return {"kind": "divide", "divisions": product.count, "turns_of_work": f"{product.turn}", **wheel}
    if isinstance(product, ShapedPart):
        across = product.cut.flats.across_flats
        return {
            "kind": "shape",
            "flats": product.cut.flats.count,
            "diameter_mm": length_json(product.cut.diameter),
            "depth_mm": length_json(product.cut.depth),
            "across_flats_mm": length_json(across) if across else None,
        }
    if isinstance(product, SlottedPart):
        return {
            "kind": "slot",
            "slots": product.count,
            "diameter_mm": length_json(product.diameter),
            "width_mm": length_json(product.width),
            "depth_mm": length_json(product.depth),
            "passes_from_touch_mm": [length_json(each) for each in product.beyond],
        }
    return _dial_json(product)


def _dial_json(product: DialPart) -> dict[str, Any]:
    dial = product.report.answers[0]
    return {
        "kind": "dial",
        "marks": dial.marks,
        "per_mark_mm": length_json(dial.per_mark),
        "wanted_mm": length_json(dial.wanted),
        "exact": dial.is_exact,
    }
