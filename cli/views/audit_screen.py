"""The terminal screen and the JSON of ``audit`` for a train."""

from __future__ import annotations

from cli.views import answer_json
from cli.views.banjo_sketch import banjo_text, set_up_text, stack_rows
from cli.views.cautions import train_cautions
from cli.views.screen import console, facts_table, print_list
from cli.views.shop_figures import (
    LONG_LENGTH,
    accumulated_text,
    error_words,
    lead_text,
)
from cli.views.tool_travel_text import travel_text
from cli.views.train_screen import early_check, half_nut_text, proof_text, verdict_text
from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch, PitchUnit
from solver.trains.lathe import Lathe
from solver.trains.train_audit import TrainAudit


def show_train_audit(audit: TrainAudit, lathe: Lathe, wanted: Pitch | None, engaged: Length) -> None:
    """Print what a train really cuts."""
    answer = audit.answer
    out = console()
    rows = [
        *mounted_rows(audit, lathe),
        ("Cuts", lead_text(answer.cut_lead)),
        ("Proof", proof_text(answer, lathe)),
        *way_rows(audit, lathe),
    ]
    if wanted is not None:
        rows.append(("Wanted", f"{wanted}: {lead_text(wanted.lead)}"))
        rows.append(("Error", error_words(answer.error)))
        if not answer.error.is_exact:
            rows.append(
                (
                    "",
                    f"{accumulated_text(answer.error, engaged)}; {accumulated_text(answer.error, LONG_LENGTH)}",
                )
            )
    rows.append(("Exchanged", f"drivers and driven exchanged it cuts {lead_text(audit.inverted_lead)}"))
    rows += goes_on_rows(audit)
    as_cut = Pitch(answer.cut_lead.mm, PitchUnit.MILLIMETRE)
    rows.append(("Half-nut", half_nut_text(answer)))
    out.print(facts_table(rows))
    print_list(out, "Early check, before metal is cut", early_check(answer, wanted or as_cut))
    print_list(out, "Cautions", train_cautions(answer, lathe, reversing=False))


def mounted_rows(audit: TrainAudit, lathe: Lathe) -> list[tuple[str, str]]:
    """Show the train as it is mounted, and on which lathe."""
    answer = audit.answer
    return [
        ("Train", f"{set_up_text(answer.train, answer.idlers)}   (driver-driven, spindle side first)"),
        *stack_rows(answer, lathe),
        ("Lathe", f"{lathe.name}; leadscrew {lathe.leadscrew_text}: {lead_text(lathe.leadscrew_lead)}"),
    ]


def way_rows(audit: TrainAudit, lathe: Lathe) -> list[tuple[str, str]]:
    """Say which way the leadscrew and the tool go, and how the banjo stands where that is known."""
    direction = "the same way as" if audit.same_direction else "against"
    rows = [
        ("Direction", f"the leadscrew turns {direction} the stud gear, reverse apart"),
        ("Hand", _hand_text(audit)),
    ]
    if audit.hand is not None:
        rows.append(("Tool goes", travel_text(audit.hand, lathe)))
    if layout := audit.answer.mounting.layout:
        rows.append(("Banjo", banjo_text(layout, audit.answer)))
    return rows


def goes_on_rows(audit: TrainAudit) -> list[tuple[str, str]]:
    """Say whether the box holds the train and whether it goes on, and what would help."""
    answer = audit.answer
    rows = [("Box", "; ".join(audit.not_in_box))] if audit.not_in_box else []
    rows.append(("Goes on", verdict_text(answer)))
    if audit.helping_idlers:
        rows.append(("", f"it would go on as {set_up_text(answer.train, audit.helping_idlers)}"))
    return rows


def _hand_text(audit: TrainAudit) -> str:
    if audit.hand is None:
        return "as the reverse is set"
    return f"{audit.hand.value}-hand as it stands; one idler more turns it round"


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
            "helping_idlers": [{"mesh": each.mesh, "teeth": each.teeth} for each in audit.helping_idlers],
        }
    )
