"""The terminal screen and the JSON of ``audit`` for an index setting."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from cli.views import answer_json
from cli.views.cautions import dividing_cautions
from cli.views.method_tables import SIGNS, counted, divisions_text, move_text, plate_turns_text, second_text
from cli.views.screen import console, facts_table, print_list
from cli.views.shop_figures import approximate, arcsec_text
from solver.dividing.index_audit import IndexAudit
from solver.dividing.moves import CrankMove
from solver.quantities.pitches import figure_text
from solver.trains.wheels import Train


def setting_text(written: CrankMove, made: CrankMove) -> str:
    """Write a move as it was written and, where full circles were written as spaces, as the crank makes it.

    Examples
    --------
    >>> setting_text(CrankMove(0, 22, 21), CrankMove(1, 1, 21))
    '22 spaces on 21: that is 1 turn + 1 space on 21'
    """
    if written == made:
        return move_text(made)
    turns = f"{counted(written.turns, 'turn')} + " if written.turns else ""
    return f"{turns}{counted(written.spaces, 'space')} on {written.circle}: that is {move_text(made)}"


def show_move_audit(audit: IndexAudit, written: Sequence[CrankMove], train: Train | None, wanted: int | None) -> None:
    """Print what an index setting really divides."""
    out = console()
    ratio = figure_text(audit.worm_ratio)
    rows = [("Setting", f"{setting_text(written[0], audit.move)}, worm ratio {ratio}")]
    if audit.second is not None:
        rows.append(("then", f"{second_text(written[1])}, plate with crank"))
    if train is not None:
        way = "follows the crank" if audit.plate_turns > 0 else "turns against the crank"
        turns = plate_turns_text(audit.plate_turns)
        rows.append(("Wheels", f"{train}, driver-driven from the work spindle: the plate {way}, {turns} to one"))
    rows += [("Gives", _finding(audit)), ("Proof", _proof(audit))]
    if train is not None:
        rows.append(("Wheels off", f"divides {_count_words(audit.wheels_off)}: never read this row as a plain one"))
    if audit.move.spaces:
        rows.append(("Arms", f"enclose {audit.move.sector_holes} holes, the pin's own hole included"))
    counts = [wanted] if wanted else ([] if audit.closes else [*audit.likely_counts()[:2], *_neighbours(audit)])
    inexact = False
    for count in dict.fromkeys(counts):
        first, *more = _against(audit, count)
        rows += [(f"Against {count}", first), *(("", line) for line in more)]
        inexact = inexact or audit.error_against(count)[0].turns != 0
    if inexact:
        rows.append(("", SIGNS))
    out.print(facts_table(rows))
    print_list(out, "Cautions", dividing_cautions())


def _finding(audit: IndexAudit) -> str:
    if audit.closes:
        return f"divides {audit.marks}, exactly"
    return (
        f"{approximate(audit.divisions, 4)} to the turn: the round does not close at once; "
        f"{audit.marks} marks come out evenly after {audit.rounds} turns of the work"
    )


def _proof(audit: IndexAudit) -> str:
    moved = " + ".join(f"({move.value})" for move in audit.moves)
    moved = f"({moved})" if audit.second else moved
    ratio = figure_text(audit.worm_ratio)
    turning = f"({ratio} - ({audit.plate_turns}))" if audit.plate_turns else ratio
    return f"{turning} / {moved} = {audit.divisions}"


def _count_words(divisions: Fraction) -> str:
    return divisions_text(divisions) + ("" if divisions.denominator == 1 else " to the turn, which does not close")


def _against(audit: IndexAudit, count: int) -> list[str]:
    """Say how a count comes out: whether several divisions are moved at a time, the error, marks left out."""
    lines = []
    several = audit.at_once(count)
    if several > 1:
        met = audit.marks_met(count)
        reach = "every mark is met" if met == count else f"ONLY {met} of the marks are met"
        lines.append(f"moves {several} divisions at a time, not one; {reach} in {counted(several, 'round')}")
    each, closure = audit.error_against(count)
    if each.turns == 0:
        lines.append("exact")
    else:
        lines.append(f"{arcsec_text(each)} each move, {arcsec_text(closure)} after {count}")
    if whole := audit.turns_left_out(count):
        turns = audit.move.turns + whole
        meant = move_text(replace(audit.move, turns=turns))
        lines.append(f"perhaps {meant} is meant, {counted(abs(whole), 'whole turn')} {'more' if whole > 0 else 'less'}")
    return lines


def _neighbours(audit: IndexAudit) -> list[int]:
    below = int(audit.divisions)
    return [count for count in (below, below + 1) if count > 0]


def move_audit_json(audit: IndexAudit, train: Train | None, wanted: int | None) -> str:
    """Write the finding on an index setting as JSON."""
    answer: dict[str, object] = {
        "moves": [answer_json.crank_move(move) for move in audit.moves],
        "gears": None if train is None else [[pair.driver, pair.driven] for pair in train.pairs],
        "plate_turns_per_work_turn": f"{audit.plate_turns}",
        "worm_ratio": f"{audit.worm_ratio}",
        "divisions": f"{audit.divisions}",
        "divisions_without_gears": None if train is None else f"{audit.wheels_off}",
        "closes": audit.closes,
        "marks": audit.marks,
        "rounds": audit.rounds,
        "likely_counts": list(audit.likely_counts()),
    }
    if wanted is not None:
        each, closure = audit.error_against(wanted)
        answer["against"] = wanted
        answer["divisions_per_move"] = audit.at_once(wanted)
        answer["marks_met"] = audit.marks_met(wanted)
        answer["error_arcsec_per_move"] = f"{each.arcsec}"
        answer["error_arcsec_at_closure"] = f"{closure.arcsec}"
        answer["whole_turns_left_out"] = audit.turns_left_out(wanted)
    return answer_json.as_text(answer)
