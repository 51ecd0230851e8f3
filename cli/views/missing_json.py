"""The JSON of ``missing``: exact numbers as text."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from cli.views import answer_json
from cli.views.missing_figures import Wanted
from cli.views.part_figures import length_json
from cli.views.table_dial_screen import by_dial_json
from solver.jobs.wheel_making import WheelMaking
from solver.jobs.wheel_report import MissingReport, WheelRole, WheelSet
from solver.trains.reach import Reach, Reached

if TYPE_CHECKING:
    from collections.abc import Sequence

    from solver.dividing.heads import Head
    from solver.dividing.spindle_stops import StopSetting
    from solver.quantities.pi_multiples import Lead
    from solver.trains.lathe import Lathe


def missing_json(
    lathe: Lathe, head: Head, wanted: Wanted, report: MissingReport, makings: Sequence[WheelMaking]
) -> str:
    """Write the answer of ``missing`` as JSON."""
    question, proof = report.question, report.proof
    return answer_json.as_text(
        {
            "lathe": lathe.name,
            "head": head.name,
            "within_ppm": f"{question.within * 1_000_000}",
            "candidates": list(question.candidates),
            "most_wheels": question.most_wheels,
            "most_pairs": question.most_pairs,
            "asked": [_asked(lead, wanted) for lead in question.leads],
            "lacking": [_asked(lead, wanted) for lead in report.lacking],
            "best": _wheel_set(report.best, wanted),
            "as_good": [_wheel_set(each, wanted) for each in report.others],
            "hopeless": [_asked(lead, wanted) for lead in report.hopeless],
            "not_together": [_asked(lead, wanted) for lead in report.not_together],
            "undecided": [_asked(lead, wanted) for lead in report.undecided],
            "proof": {
                "proven": proof.is_proven,
                "sizes_done": proof.sizes_done,
                "least_price": f"{proof.least_price}",
                "looked_at": proof.looked_at,
                "stopped": proof.stopped.value if proof.stopped else None,
            },
            "making": [_making(making, lathe) for making in makings],
        }
    )


def _asked(lead: Lead, wanted: Wanted) -> dict[str, Any]:
    return {**answer_json.asked_lead(lead), "pitch": wanted[lead].text, "threads": wanted[lead].names}


def _wheel_set(found: WheelSet, wanted: Wanted) -> dict[str, Any]:
    return {
        "wheels": list(found.wheels),
        "price": f"{found.price}",
        "worst_error_ppm": f"{found.worst_error * 1_000_000}",
        "unlocked": [_row(row, wanted) for row in found.unlocked],
        "left": [_row(row, wanted) for row in found.rows if row.reached is Reached.NOT],
        "roles": [_role(role, wanted) for role in found.roles],
    }


def _row(row: Reach, wanted: Wanted) -> dict[str, Any]:
    return {
        "asked": _asked(row.lead, wanted),
        "reached": row.reached.name.lower(),
        "train": answer_json.train_answer(row.best) if row.best else None,
    }


def _role(role: WheelRole, wanted: Wanted) -> dict[str, Any]:
    return {
        "teeth": role.teeth,
        "price": f"{role.price}",
        "alone": [_asked(lead, wanted) for lead in role.alone],
        "together": [{"asked": _asked(lead, wanted), "with": list(others)} for lead, others in role.together],
    }


def _making(making: WheelMaking, lathe: Lathe) -> dict[str, Any]:
    wheels, cutter = lathe.wheel_classes[0], making.cutter
    return {
        "teeth": making.teeth,
        "size": making.tooth.told,
        "blank_mm": length_json(making.outside),
        "whole_depth_mm": length_json(making.tooth.whole_depth),
        "cutter": None if cutter is None else cutter._asdict(),
        "base_pitches": [
            {
                "pressure_angle_deg": f"{each.pressure_angle.degrees}",
                "step_mm": length_json(each.step),
                "clean_from_teeth": each.clean_from,
            }
            for each in making.base_pitches
        ],
        "face_mm": length_json(wheels.face) if wheels.face else None,
        "bore_mm": length_json(wheels.bore) if wheels.bore else None,
        "divided": making.is_divided,
        "on_head": answer_json.index_answer(making.on_head.best) if making.on_head and making.on_head.best else None,
        "by_dial": None if making.by_dial is None else by_dial_json(making.by_dial),
        "with_change_wheels": (
            answer_json.index_answer(making.with_change_wheels) if making.with_change_wheels else None
        ),
        "on_lathe": [_stop(setting) for setting in making.on_lathe],
    }


def _stop(setting: StopSetting) -> dict[str, Any]:
    return {
        "on_spindle": setting.on_spindle,
        "on_stud": list(setting.on_stud) if setting.on_stud else None,
        "stops": setting.stops,
        "step": setting.step,
    }
