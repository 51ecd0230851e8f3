"""Answers as JSON: exact numbers as text, the keys of the stable part kept."""

from __future__ import annotations

import json
from typing import Any

from solver.dividing.moves import CrankMove, IndexAnswer
from solver.dividing.positions import MOST_POSITIONS
from solver.dividing.skipping import order_of_marks
from solver.quantities.exact_numbers import significant_text
from solver.quantities.pi_multiples import Lead, PiLength
from solver.trains.lead_error import LeadError
from solver.trains.train_search import TrainAnswer

#: Significant digits of an error that is never exact. [digits]
PI_DIGITS = 15


def as_text(answer: dict[str, Any]) -> str:
    """Write the answer out."""
    return json.dumps(answer, indent=2, ensure_ascii=False)


def asked_lead(lead: Lead) -> dict[str, Any]:
    """Describe the asked lead; a pi lead is given by its multiple of pi."""
    if isinstance(lead, PiLength):
        return {"lead_mm": f"{lead.mm_per_pi}", "pi_multiple": True}
    return {"lead_mm": f"{lead.mm}", "pi_multiple": False}


def error_ppm(error: LeadError) -> str:
    """Give the error in ppm: an exact fraction, or a decimal for a pi lead.

    Examples
    --------
    >>> from fractions import Fraction
    >>> error_ppm(LeadError(Fraction(1, 8000), Fraction(0)))
    '125'
    """
    return f"{error.ppm}" if error.bound == 0 else significant_text(error.ppm, PI_DIGITS)


def train_answer(answer: TrainAnswer) -> dict[str, Any]:
    """Describe one train."""
    return {
        "pairs": [[pair.driver, pair.driven] for pair in answer.train.pairs],
        "idlers": list(answer.hand.idlers),
        "gearbox": answer.lever,
        "ratio": f"{answer.ratio}",
        "cut_lead_mm": f"{answer.cut_lead.mm}",
        "error_ppm": error_ppm(answer.error),
        "exact": answer.error.is_exact,
        "hand": answer.hand.hand.value,
        "mounting": {
            "verdict": answer.mounting.verdict.value,
            "reasons": list(answer.mounting.reasons),
            "not_checked": list(answer.mounting.not_checked),
        },
        "half_nut": half_nut(answer),
    }


def half_nut(answer: TrainAnswer) -> dict[str, Any]:
    """Describe the half-nut rule of one train."""
    rule = answer.half_nut
    return {"may_open": rule.may_open, "every_mm": f"{rule.every.mm}", "dial_lines": list(rule.dial_lines)}


def crank_move(move: CrankMove) -> dict[str, Any]:
    """Describe one motion of the crank."""
    return {"sign": move.sign, "turns": move.turns, "spaces": move.spaces, "circle": move.circle}


def index_answer(answer: IndexAnswer) -> dict[str, Any]:
    """Describe one index setting; one that gears the plate says so in keys of its own."""
    gearing = answer.gearing
    described: dict[str, Any] = {
        "method": answer.method.value,
        "moves": [crank_move(move) for move in answer.moves],
        "plate": answer.plate,
        "face": answer.face,
        "gears": None if gearing is None else [[pair.driver, pair.driven] for pair in gearing.train.pairs],
        "idlers": None if gearing is None else list(gearing.idlers),
        "plate_turns_per_work_turn": "0" if gearing is None else f"{gearing.plate_turns}",
        "divisions_per_move": answer.at_once,
        "moves_to_closure": answer.moves_to_close,
        "motions_to_closure": answer.moves_to_close * len(answer.moves),
        "error_arcsec_per_move": f"{answer.error_per_move.arcsec}",
        "error_arcsec_at_closure": f"{answer.error_at_closure.arcsec}",
        "exact": answer.is_exact,
    }
    if gearing is not None:
        described["plate_direction"] = gearing.way
        described["nominal_divisions"] = f"{gearing.nominal}"
    if answer.at_once > 1 and answer.moves_to_close <= MOST_POSITIONS:
        described["order_of_marks"] = list(order_of_marks(answer.moves_to_close, answer.at_once))
    return described
