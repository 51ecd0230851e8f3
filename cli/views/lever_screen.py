"""The terminal screen and the JSON of ``audit`` for one train at every position of a gearbox."""

from __future__ import annotations

from collections.abc import Sequence

from cli.views import answer_json
from cli.views.audit_screen import goes_on_rows, mounted_rows, way_rows
from cli.views.cautions import train_cautions
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import approximate, lead_text, signed
from solver.quantities.pitches import Pitch
from solver.trains.lathe import Lathe
from solver.trains.lead_error import LeadError
from solver.trains.lever_table import LeverRow
from solver.trains.train_audit import TrainAudit
from solver.trains.wheels import Train


def show_levers(audit: TrainAudit, lathe: Lathe, rows: Sequence[LeverRow], wanted: Pitch | None) -> None:
    """Print what the train cuts at every lever position, beside the nearest pitch that somebody makes."""
    out = console()
    facts = [*mounted_rows(audit, lathe), *way_rows(audit, lathe)]
    if wanted is not None:
        facts.append(("Wanted", f"{wanted}: {lead_text(wanted.lead)}"))
    out.print(facts_table([*facts, *goes_on_rows(audit)]))
    out.print()
    out.print("AT EACH LEVER POSITION, coarse first", style="bold")
    heads = [
        ("Lever", "left"),
        ("Lead cut, mm", "right"),
        ("Per inch", "right"),
        ("Nearest made", "left"),
        ("ppm", "right"),
    ]
    if wanted is not None:
        heads.append(("ppm off wanted", "right"))
    table = answers_table(heads)
    for row in rows:
        off_wanted = [] if row.off_wanted is None else [_ppm(row.off_wanted)]
        made = row.nearest.names[0]
        per_inch = approximate(1 / row.cut_lead.inches, 4)
        table.add_row(row.lever, approximate(row.cut_lead.mm, 6), per_inch, made, _ppm(row.error), *off_wanted)
    print_answers(out, table)
    out.print(
        "ppm: + the lead comes out long, - short, of the pitch beside it. Name one position with --lever for more."
    )
    print_list(out, "Cautions", train_cautions(audit.answer, lathe, reversing=False))


def _ppm(error: LeadError) -> str:
    return "exact" if error.is_exact else signed(error.ppm)


def levers_json(lathe: Lathe, train: Train, rows: Sequence[LeverRow], wanted: Pitch | None) -> str:
    """Write the leads of every lever position as JSON."""
    return answer_json.as_text(
        {
            "lathe": lathe.name,
            "against": answer_json.asked_lead(wanted.lead) if wanted else None,
            "pairs": [[pair.driver, pair.driven] for pair in train.pairs],
            "levers": [
                {
                    "lever": row.lever,
                    "cut_lead_mm": f"{row.cut_lead.mm}",
                    "nearest": row.nearest.names[0],
                    "error_ppm": f"{row.error.ppm}",
                    "exact": row.error.is_exact,
                    "off_wanted_ppm": None if row.off_wanted is None else answer_json.error_ppm(row.off_wanted),
                }
                for row in rows
            ],
        }
    )
