"""The terminal screen and the JSON of ``reach``."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from cli.views import answer_json
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import (
    approximate,
    error_words,
    lead_text,
    signed,
)
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead
from solver.trains.extra_wheels import ExtraWheel, extra_wheels, largest_proposed
from solver.trains.lathe import Lathe
from solver.trains.reach import Reach, Reached, WheelWorth, worth_of_one_wheel
from solver.trains.translating import StandIn, stand_ins

if TYPE_CHECKING:
    from rich.console import Console

Rows = Sequence[tuple[str, Reach]]

#: Up to so many leads each get their own proposal of a wheel; a longer list gets one for all.
FEW_LEADS = 4
_SHORT = {Reached.EXACT: "exact", Reached.WITHIN: "within", Reached.NOT: "not"}


def inexact_leads(rows: Rows) -> list[Lead]:
    """List the different leads that are not exact, in the order asked."""
    return list(dict.fromkeys(row.lead for _, row in rows if row.reached is not Reached.EXACT))


def translating_for(lathe: Lathe, leads: Sequence[Lead]) -> tuple[StandIn, ...]:
    """List stand-ins for the translating pair when some lead belongs to the other unit system."""
    constant = lathe.lead_at_equal_wheels.mm
    screw_is_inch = constant.numerator % 127 == 0
    for lead in leads:
        if isinstance(lead, Length):
            needed = lead.mm / constant
            if needed.denominator % 127 == 0 or needed.numerator % 127 == 0:
                return stand_ins(largest=largest_proposed(lathe), metric_on_inch=screw_is_inch)
    return ()


def show_reach(lathe: Lathe, rows: Rows, within: Fraction, engaged: Length, added: Sequence[int]) -> None:
    """Print the answer of ``reach``."""
    out = console()
    ppm = trimmed_decimal_text(within * 1_000_000, 2)
    facts = [
        ("Lathe", lathe.name),
        ("Leadscrew", f"{lathe.leadscrew_text}: {lead_text(lathe.leadscrew_lead)}"),
    ]
    if added:
        facts.append(("Added", ", ".join(f"{teeth} T" for teeth in added)))
    facts.append(("Tolerance", f"{ppm} ppm of the lead; + is a screw too long, - too short"))
    out.print(facts_table(facts))
    engaged_mm = trimmed_decimal_text(engaged.mm, 2)
    heads = [("Thread", "left"), ("Lead, mm", "right"), ("Reached", "left"), ("ppm", "right"),
             (f"µm in {engaged_mm} mm", "right"), ("Train", "left")]  # fmt: skip
    table = answers_table(heads)
    for name, row in rows:
        table.add_row(*_cells(name, row, engaged))
    print_answers(out, table)
    counts = [sum(row.reached is verdict for _, row in rows) for verdict in Reached]
    out.print(f"{counts[0]} exact, {counts[1]} within tolerance, {counts[2]} not reached, of {len(rows)}.")
    _print_help(out, lathe, rows, within)


def _cells(name: str, row: Reach, engaged: Length) -> list[str]:
    lead = row.lead
    shown = approximate(lead.mm, 5) if isinstance(lead, Length) else f"{approximate(lead.mm_per_pi, 4)} π"
    best = row.best
    if best is None:
        return [name, shown, _SHORT[row.reached], "", "", "no train at all"]
    ppm = "exact" if best.error.is_exact else signed(best.error.ppm)
    over = "" if best.error.is_exact else signed(best.error.over(engaged).mm * 1000)
    lever = f", lever {best.lever}" if best.lever else ""
    note = "" if row.reached is not Reached.NOT else ("nearest: " if best.fits else "will not go on: ")
    return [name, shown, _SHORT[row.reached], ppm, over, f"{note}{best.train}{lever}"]


def _print_help(out: Console, lathe: Lathe, rows: Rows, within: Fraction) -> None:
    leads = inexact_leads(rows)
    if not leads:
        return
    if len(leads) <= FEW_LEADS:
        for lead in leads:
            name = next(name for name, row in rows if row.lead == lead)
            proposals = [*map(_proposal, proposals_for(lathe, rows, lead))]
            print_list(out, f"One wheel more for {name}", proposals or ["no single wheel comes closer in two pairs"])
    else:
        worth = [*map(_worth, worth_of_one_wheel(lathe, [row for _, row in rows], within=within))]
        title = f"One wheel more, for the {len(leads)} leads that are not exact"
        print_list(out, title, worth or ["no single wheel makes one exact or brings one within tolerance"])
        single = wheel_for_each(lathe, rows)
        named = {row.lead: name for name, row in reversed(rows)}
        lines = (f"{named[lead]}: {_proposal(extra)}" for lead, extra in single.items())
        print_list(out, "For each that is not reached, the one wheel that comes closest", lines)
    pairs = translating_for(lathe, leads)
    print_list(out, "Pairs that stand in for the translating pair", (_stand_in(each, lathe) for each in pairs))


def proposals_for(lathe: Lathe, rows: Rows, lead: Lead, most: int = 3) -> tuple[ExtraWheel, ...]:
    """Propose wheels that come closer than what is reached now; any wheel when nothing fits now."""
    row = next(row for _, row in rows if row.lead == lead)
    beaten = abs(row.best.error.relative) if row.best is not None and row.best.fits else None
    return extra_wheels(lathe, lead, closer_than=beaten, most=most)


def wheel_for_each(lathe: Lathe, rows: Rows) -> dict[Lead, ExtraWheel]:
    """Find for each lead that is not reached the one wheel more that comes closest, where one does."""
    leads = dict.fromkeys(row.lead for _, row in rows if row.reached is Reached.NOT)
    found = {lead: proposals_for(lathe, rows, lead, most=1) for lead in leads}
    return {lead: extras[0] for lead, extras in found.items() if extras}


def _proposal(extra: ExtraWheel) -> str:
    return f"{extra.teeth} T: {extra.answer.train}, {error_words(extra.answer.error)}"


def _worth(worth: WheelWorth) -> str:
    worst = f", worst {signed(worth.worst_error * 1_000_000)} ppm" if worth.worst_error else ""
    return f"{worth.teeth} T: {worth.made_exact} become exact, {worth.brought_within} more come within tolerance{worst}"


def _stand_in(each: StandIn, lathe: Lathe) -> str:
    held = {teeth for wheel_class in lathe.wheel_classes for teeth, _ in wheel_class.stock}
    top, bottom = each.pair.numerator, each.pair.denominator
    multiples = [
        (top * times, bottom * times)
        for times in range(1, largest_proposed(lathe) // max(top, bottom) + 1)
        if min(top, bottom) * times >= 15
    ]
    driver, driven = min(multiples, key=lambda pair: (len({*pair} - held), pair), default=(top, bottom))
    lacking = [f"{teeth} T" for teeth in (driver, driven) if teeth not in held]
    state = f"you lack {' and '.join(lacking)}" if lacking else "you have both"
    error = "exact" if each.error == 0 else f"{signed(each.ppm)} ppm"
    translating = "100/127" if each.pair < 1 else "127/100"
    named = f"{translating} itself" if each.error == 0 else f"{driver}/{driven} for {translating}"
    return f"{named}: {error}; {state}"


def reach_json(lathe: Lathe, rows: Rows, within: Fraction, added: Sequence[int]) -> str:
    """Write the answer of ``reach`` as JSON."""
    leads = inexact_leads(rows)
    single = wheel_for_each(lathe, rows)
    proposals: list[dict[str, Any]] = []
    if len(leads) <= FEW_LEADS:
        for lead in leads:
            for extra in proposals_for(lathe, rows, lead):
                proposals.append(
                    {"for": answer_json.asked_lead(lead), "teeth": extra.teeth,
                     "train": answer_json.train_answer(extra.answer)}
                )  # fmt: skip
    else:
        proposals = [
            {"teeth": each.teeth, "made_exact": each.made_exact, "brought_within": each.brought_within,
             "worst_error_ppm": f"{each.worst_error * 1_000_000}"}
            for each in worth_of_one_wheel(lathe, [row for _, row in rows], within=within)
        ]  # fmt: skip
    return answer_json.as_text(
        {
            "lathe": lathe.name,
            "within_ppm": f"{within * 1_000_000}",
            "added": list(added),
            "reach": [
                {
                    "thread": name,
                    "asked": answer_json.asked_lead(row.lead),
                    "reached": row.reached.name.lower(),
                    "best": answer_json.train_answer(row.best) if row.best else None,
                    "one_wheel": {
                        "teeth": single[row.lead].teeth,
                        "train": answer_json.train_answer(single[row.lead].answer),
                    }
                    if row.lead in single
                    else None,
                }
                for name, row in rows
            ],
            "one_wheel_more": proposals,
            "translating": [
                {"pair": f"{each.pair}", "error_ppm": f"{each.ppm}"} for each in translating_for(lathe, leads)
            ],
        }
    )
