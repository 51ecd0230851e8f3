"""The terminal screen and the JSON of ``counter``."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from cli.views import answer_json
from cli.views.cautions import DEFER
from cli.views.method_tables import counted
from cli.views.part_figures import length_json, size_text
from cli.views.screen import console, facts_table, print_list
from cli.views.shop_figures import approximate, lead_text
from cli.views.told_figures import equals
from solver.dials.counting_wheels import CountingWheel
from solver.quantities.lengths import Length


def show_counter(wheel: CountingWheel, travel: Length | None) -> None:
    """Print the answer of ``counter``."""
    out = console()
    out.print(facts_table(counter_rows(wheel, travel)))
    print_list(out, "Early check", counter_checks(wheel))
    print_list(out, "Cautions", COUNTER_CAUTIONS)


#: Cautions of fitting a wheel that counts.
COUNTER_CAUTIONS = ("Fit and free the wheel with the drive isolated. " + DEFER,)


def counter_rows(wheel: CountingWheel, travel: Length | None) -> list[tuple[str, str]]:
    """List what the wheel reads, and what must be counted over a travel."""
    turns = wheel.screw_turns_per_turn
    starts = "" if wheel.starts == 1 else f", worm of {wheel.starts} starts"
    made = f"{wheel.teeth} / {wheel.starts} × {approximate(wheel.lead.mm, 5)} mm a turn"
    rows = [
        ("Screw", lead_text(wheel.lead)),
        ("Wheel", f"{wheel.teeth} teeth{starts}"),
        ("One turn of it", f"{size_text(wheel.travel_per_turn)} of travel, {counted(turns, 'turn')} of the screw"),
        ("Proof", f"{made} {equals(size_text(wheel.travel_per_turn))}"),
        ("One tooth", f"{size_text(wheel.lead * Fraction(1, wheel.starts))} of travel"),
    ]
    if turns.denominator == 1:
        rows.append(("Marks on it", f"{turns}, one for each turn of the screw"))
    if travel is not None:
        screw_turns, wheel_turns = wheel.screw_turns_for(travel), wheel.wheel_turns_for(travel)
        rows.append(("Travel", f"{size_text(travel)} = {approximate(screw_turns, 4)} turns to be counted"))
        rows.append(("The wheel goes", f"{approximate(wheel_turns, 4)} turns over it; {_repeats(wheel, travel)}"))
    return rows


def counter_checks(wheel: CountingWheel) -> list[str]:
    """Say after how many turns the wheel must be back at its mark."""
    turns = wheel.screw_turns_per_turn
    check = f"Run the screw {counted(turns, 'turn')}: the wheel must be back at its mark."
    if turns.denominator != 1:
        check = f"Run the screw {wheel.teeth} turns: the wheel must be back at its mark after {wheel.starts} rounds."
    return [check]


def _repeats(wheel: CountingWheel, travel: Length) -> str:
    if wheel.wheel_turns_for(travel) <= 1:
        return "no reading comes twice"
    return f"its readings come again, {wheel.teeth_for(travel)} teeth or more would not"


def counter_json(wheel: CountingWheel, travel: Length | None) -> str:
    """Write the answer of ``counter`` as JSON."""
    answer: dict[str, Any] = {
        "asked": {"lead_mm": length_json(wheel.lead), "teeth": wheel.teeth, "starts": wheel.starts},
        "screw_turns_per_wheel_turn": f"{wheel.screw_turns_per_turn}",
        "travel_per_wheel_turn_mm": length_json(wheel.travel_per_turn),
    }
    if travel is not None:
        answer["travel"] = {
            "mm": length_json(travel),
            "screw_turns": f"{wheel.screw_turns_for(travel)}",
            "wheel_turns": f"{wheel.wheel_turns_for(travel)}",
            "fewest_teeth": wheel.teeth_for(travel),
        }
    return answer_json.as_text(answer)
