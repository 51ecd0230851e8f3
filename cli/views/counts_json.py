"""The JSON of ``counts``; exact numbers are text."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from cli.views import answer_json
from solver.wheelwork.arbors import over_an_arbor
from solver.wheelwork.counts_search import CountsAnswer, CountsReport, PairsReport, known_convergents
from solver.wheelwork.drift import Drift
from solver.wheelwork.tooth_cutting import SpurTooth
from solver.wheelwork.wheel_limits import WheelLimits, word_of_dividing


def counts_json(report: CountsReport, limits: WheelLimits, within: Fraction) -> str:
    """Write the answer of ``counts`` as JSON."""
    question = report.question
    wanted = question.wanted
    chosen = report.within(within)
    answer: dict[str, Any] = {
        "asked": {
            "ratio": f"{wanted.ratio}",
            "first_days": None if wanted.first is None else f"{wanted.first.days}",
            "last_days": None if wanted.last is None else f"{wanted.last.days}",
            "good_to_ppm": f"{wanted.give * 1_000_000}",
            "within_ppm": f"{within * 1_000_000}",
            "sense": None if question.sense is None else question.sense.value,
            "in_line": question.on_one_distance,
        },
        "head": None if limits.head is None else limits.head.name,
        "counts": {
            "smallest": limits.smallest,
            "largest": limits.largest,
            "allowed": list(question.allowed.counts),
            "left_out": [{"because": each.because, "teeth": list(each.counts)} for each in question.allowed.left_out],
        },
        "chosen": None if chosen is None else len(chosen.train.pairs),
        "proven": report.is_proven,
        "by_pairs": [_of_pairs(each, limits) for each in report.by_pairs],
        "convergents": [
            {"ratio": f"{each.ratio}", "error_ppm": f"{each.error * 1_000_000}", "one_pair": each.is_one_pair}
            for each in known_convergents(question)
        ],
    }
    return answer_json.as_text(answer)


def _of_pairs(report: PairsReport, limits: WheelLimits) -> dict[str, Any]:
    return {
        "pairs": report.pairs,
        "proven": report.beyond is None,
        "nothing_else_within_ppm": None if report.beyond is None else f"{report.beyond * 1_000_000}",
        "obstacle": report.obstacle or None,
        "answers": [_answer(each, limits) for each in report.answers],
    }


def _answer(answer: CountsAnswer, limits: WheelLimits) -> dict[str, Any]:
    train, tooth = answer.train, limits.tooth
    return {
        "pairs": [[pair.driver, pair.driven] for pair in train.pairs],
        "ratio": f"{train.ratio}",
        "error_ppm": f"{answer.drift.error * 1_000_000}",
        "exact": answer.is_exact,
        "sense": answer.sense.value,
        "idlers_needed": answer.idlers,
        "teeth_together": [pair.driver + pair.driven for pair in train.pairs],
        "centre_distances_mm": _distances(answer, tooth),
        "over_an_arbor": [{"teeth": teeth, "arbor": arbor} for teeth, arbor in over_an_arbor(train)],
        "wheels": [_wheel(teeth, limits) for teeth in sorted({teeth for _, teeth in train.wheels})],
        "drift": _drift(answer.drift),
    }


def _distances(answer: CountsAnswer, tooth: SpurTooth | None) -> list[str] | None:
    if tooth is None:
        return None
    return [f"{tooth.centre_distance(pair.driver + pair.driven).mm}" for pair in answer.train.pairs]


def _wheel(teeth: int, limits: WheelLimits) -> dict[str, Any]:
    tooth = limits.tooth
    way = None if limits.head is None else word_of_dividing(limits.head, teeth, limits.methods)
    return {
        "teeth": teeth,
        "divided_by": way,
        "cutter": None if tooth is None else tooth.cutter(teeth),
        "outside_mm": None if tooth is None else f"{tooth.outside(teeth).mm}",
        "whole_depth_mm": None if tooth is None else f"{tooth.whole_depth.mm}",
    }


def _drift(drift: Drift) -> dict[str, Any]:
    tooth_turns = drift.turns_to_a_tooth
    told: dict[str, Any] = {
        "turns_to_a_tooth": None if tooth_turns is None else f"{tooth_turns}",
        "degrees_per_1000_turns": f"{drift.degrees_per_thousand_turns}",
    }
    if drift.wanted.last is not None:
        told |= {
            "made_days": f"{drift.made_days}",
            "days_per_turn": f"{drift.days_per_turn}",
            "minutes_gained_per_year": f"{drift.days_per_year * 1440}",
            "years_to_a_day": None if drift.years_to_a_day is None else f"{drift.years_to_a_day}",
            "years_to_a_tooth": None if tooth_turns is None else f"{drift.years(tooth_turns)}",
            "degrees_per_century": f"{drift.degrees_per_century}",
        }
    return told


def periods_json() -> str:
    """Write the named periods as JSON."""
    from gearsets.period_tables import named_periods

    rows = [
        {"name": row.name, "days": f"{row.period.days}", "what": row.kind, "figure": row.status}
        for row in named_periods()
    ]
    return answer_json.as_text({"periods": rows})
