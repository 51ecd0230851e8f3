"""The terminal screens and the JSON of ``audit``."""

from __future__ import annotations

from cli.views import answer_json
from cli.views.cautions import dividing_cautions, train_cautions
from cli.views.method_tables import SIGNS, counted, move_text
from cli.views.screen import console, facts_table, print_list
from cli.views.shop_figures import (
    LONG_LENGTH,
    accumulated_text,
    approximate,
    arcsec_text,
    error_words,
    lead_text,
)
from cli.views.train_screen import half_nut_text, proof_text, verdict_text
from solver.dividing.index_audit import IndexAudit
from solver.dividing.moves import CrankMove
from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch, figure_text
from solver.trains.lathe import Lathe
from solver.trains.train_audit import TrainAudit


def show_train_audit(audit: TrainAudit, lathe: Lathe, wanted: Pitch | None, engaged: Length) -> None:
    """Print what a train really cuts."""
    answer = audit.answer
    out = console()
    direction = "the same way as" if audit.same_direction else "against"
    rows = [
        ("Train", f"{answer.train}   (driver-driven, spindle side first)"),
        ("Lathe", f"{lathe.name}; leadscrew {lathe.leadscrew_text}: {lead_text(lathe.leadscrew_lead)}"),
        ("Cuts", lead_text(answer.cut_lead)),
        ("Proof", proof_text(answer, lathe)),
        ("Direction", f"the leadscrew turns {direction} the stud gear, without idler or reverse"),
        ("Hand", _hand_text(audit)),
    ]
    if wanted is not None:
        rows.append(("Against", f"{wanted}: {lead_text(wanted.lead)}"))
        rows.append(("Error", error_words(answer.error)))
        if not answer.error.is_exact:
            rows.append(
                (
                    "",
                    f"{accumulated_text(answer.error, engaged)}; {accumulated_text(answer.error, LONG_LENGTH)}",
                )
            )
    rows.append(("Inverted", f"with drivers and driven exchanged: {lead_text(audit.inverted_lead)}"))
    if audit.not_in_box:
        rows.append(("Box", "; ".join(audit.not_in_box)))
    rows.append(("Goes on", verdict_text(answer)))
    rows.append(("Half-nut", half_nut_text(answer)))
    out.print(facts_table(rows))
    print_list(out, "Cautions", train_cautions(answer, reversing=False))


def _hand_text(audit: TrainAudit) -> str:
    if audit.hand is None:
        return "as the reverse is set"
    return f"{audit.hand.value}-hand as it stands; one idler more turns it round (a right-hand leadscrew is assumed)"


def train_audit_json(audit: TrainAudit, lathe: Lathe, wanted: Pitch | None) -> str:
    """Write the finding on a train as JSON; without a wanted pitch it has no error."""
    described = answer_json.train_answer(audit.answer)
    if wanted is None:
        described["error_ppm"] = None
        described["exact"] = None
    return answer_json.as_text(
        {
            "lathe": lathe.name,
            "against": answer_json.asked_lead(wanted.lead) if wanted else None,
            "train": described,
            "inverted_lead_mm": f"{audit.inverted_lead.mm}",
            "same_direction": audit.same_direction,
            "in_box": not audit.not_in_box,
            "not_in_box": list(audit.not_in_box),
        }
    )


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


def show_move_audit(audit: IndexAudit, written: CrankMove, wanted: int | None) -> None:
    """Print what an index move really divides."""
    out = console()
    ratio = figure_text(audit.worm_ratio)
    if audit.closes:
        finding = f"divides {audit.marks}, exactly"
    else:
        finding = (
            f"{approximate(audit.divisions, 4)} to the turn: the round does not close at once; "
            f"{audit.marks} marks come out evenly after {audit.rounds} turns of the work"
        )
    rows = [
        ("Setting", f"{setting_text(written, audit.move)}, worm ratio {ratio}"),
        ("Gives", finding),
        ("Proof", f"{ratio} / ({audit.move.value}) = {audit.divisions}"),
    ]
    if audit.move.spaces:
        rows.append(("Arms", f"enclose {audit.move.sector_holes} holes, the pin's own hole included"))
    counts = [wanted] if wanted else ([] if audit.closes else _neighbours(audit))
    inexact = False
    for count in counts:
        each, closure = audit.error_against(count)
        if each.turns == 0:
            rows.append((f"Against {count}", "exact"))
        else:
            rows.append((f"Against {count}", f"{arcsec_text(each)} each move, {arcsec_text(closure)} after {count}"))
            inexact = True
    if inexact:
        rows.append(("", SIGNS))
    out.print(facts_table(rows))
    print_list(out, "Cautions", dividing_cautions())


def _neighbours(audit: IndexAudit) -> list[int]:
    below = int(audit.divisions)
    return [count for count in (below, below + 1) if count > 0]


def move_audit_json(audit: IndexAudit, wanted: int | None) -> str:
    """Write the finding on an index move as JSON."""
    move = audit.move
    answer: dict[str, object] = {
        "moves": [{"sign": move.sign, "turns": move.turns, "spaces": move.spaces, "circle": move.circle}],
        "worm_ratio": f"{audit.worm_ratio}",
        "divisions": f"{audit.divisions}",
        "closes": audit.closes,
        "marks": audit.marks,
        "rounds": audit.rounds,
    }
    if wanted is not None:
        each, closure = audit.error_against(wanted)
        answer["against"] = wanted
        answer["error_arcsec_per_move"] = f"{each.arcsec}"
        answer["error_arcsec_at_closure"] = f"{closure.arcsec}"
    return answer_json.as_text(answer)
