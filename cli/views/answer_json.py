"""Answers as JSON: exact numbers as text, the keys of the stable part kept."""

from __future__ import annotations

import json
from typing import Any

from solver.dividing.moves import CrankMove, IndexAnswer
from solver.dividing.positions import MOST_POSITIONS
from solver.dividing.skipping import order_of_marks
from solver.quantities.exact_numbers import significant_text, trimmed_decimal_text
from solver.quantities.pi_multiples import Lead, PiLength
from solver.trains.changes import changes
from solver.trains.hand import Hand
from solver.trains.layout import Layout
from solver.trains.lead_error import LeadError
from solver.trains.mounting import Verdict
from solver.trains.tool_travel import tool_travel
from solver.trains.train_answer import TrainAnswer
from solver.trains.wheels import Train

#: Significant digits of an error that is never exact. [digits]
PI_DIGITS = 15
#: Decimal places of places on the banjo: good to the bound of the geometry.
LAYOUT_PLACES = 9


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


def train_answer(answer: TrainAnswer, mounted: Train | None = None) -> dict[str, Any]:
    """Describe one train; with what is mounted now, also the wheels that change."""
    changed = None
    if mounted is not None:
        changed = [{"place": each.place, "off": each.off, "on": each.on} for each in changes(mounted, answer.train)]
    return {
        "changes": changed,
        "pairs": [[pair.driver, pair.driven] for pair in answer.train.pairs],
        "idlers": [idler.teeth for idler in answer.idlers],
        "idler_meshes": [idler.mesh for idler in answer.idlers],
        "gearbox": answer.lever,
        "ratio": f"{answer.ratio}",
        "cut_lead_mm": f"{answer.cut_lead.mm}",
        "error_ppm": error_ppm(answer.error),
        "nominal_error_ppm": error_ppm(answer.nominal_error),
        "exact": answer.error.is_exact,
        "hand": answer.hand.hand.value,
        "travel": tool_way(answer.hand.hand),
        "mounting": {
            "verdict": answer.mounting.verdict.value,
            "reasons": list(answer.mounting.reasons),
            "not_checked": list(answer.mounting.not_checked),
            "layout": layout(answer.mounting.layout),
        },
        "half_nut": half_nut(answer),
    }


def tool_way(hand: Hand) -> dict[str, bool]:
    """Describe which way the tool goes with the spindle forward; told with each train and with the cutting of a thread.

    Examples
    --------
    >>> tool_way(Hand.RIGHT)
    {'to_headstock': True, 'begins_in_groove': False, 'leadscrew_reversed': False}
    """
    travel = tool_travel(hand)
    return {
        "to_headstock": travel.to_headstock,
        "begins_in_groove": travel.begins_in_groove,
        "leadscrew_reversed": travel.leadscrew_reversed,
    }


def layout(found: Layout | None) -> dict[str, Any] | None:
    """Describe where the studs sit: mm and degrees as decimals, stud gear straight above the leadscrew."""
    if found is None:
        return None
    return {
        "studs": [
            {"slot": stud.slot, "from_leadscrew_mm": trimmed_decimal_text(stud.from_leadscrew.mm, LAYOUT_PLACES)}
            for stud in found.studs
        ],
        "swing_deg": trimmed_decimal_text(found.swing.degrees, LAYOUT_PLACES),
        "points_mm": [[trimmed_decimal_text(each, LAYOUT_PLACES) for each in point] for point in found.points],
        "clearance_mm": trimmed_decimal_text(found.clearance.mm, LAYOUT_PLACES),
    }


def half_nut(answer: TrainAnswer) -> dict[str, Any]:
    """Describe the half-nut rule of one train."""
    rule = answer.half_nut
    return {
        "may_open": rule.may_open,
        "every_mm": f"{rule.every.mm}",
        "every_threads": rule.threads,
        "dial_lines": list(rule.dial_lines),
    }


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
        described["mounting"] = {
            "verdict": Verdict.NOT_CHECKED.value,
            "reasons": [],
            "not_checked": ["reach of wheels and idlers: the head's file does not tell where its studs sit"],
        }
    if answer.second is not None:
        described["made_first"] = "plate with crank" if answer.runs_both_ways else "pin"
    if answer.at_once > 1 and answer.moves_to_close <= MOST_POSITIONS:
        described["order_of_marks"] = list(order_of_marks(answer.moves_to_close, answer.at_once))
    return described
