"""What would let a head divide exactly, where it does not: said by ``divide``, and by ``job`` of its parts."""

from __future__ import annotations

from solver.dividing.choosing import ChoiceReport
from solver.dividing.divide import exact_settings
from solver.dividing.heads import Head

#: Longest step looked at when a longer step might be exact. [divisions]
LONGEST_STEP = 9


def what_would_help(count: int | None, head: Head, choice: ChoiceReport) -> list[str]:
    """List a circle, a wheel and a longer step that would make it exact; options are those of ``divide``."""
    from solver.dividing.differential import can_gear, wheel_that_helps
    from solver.dividing.skipping import steps_prime_to

    wanted = choice.part * choice.at_once
    exact = exact_settings(head, wanted)
    if exact:
        return [f"The head has a {exact[0].method.value} setting that is exact: leave --method out."]
    lines = [f"A circle of {choice.circle_needed} holes, or a multiple, would make it plain."]
    if not head.plates:
        return lines
    if not head.wheels:
        lines.append("Change wheels listed under [wheels] in the head's file would open differential dividing.")
        return lines
    if can_gear(head, wanted):
        return [*lines, "The head's wheels make it exact: --method differential."]
    wheel = wheel_that_helps(head, wanted)
    if wheel is not None:
        other = f", or the smallest that would, of {wheel.smallest}," if wheel.smallest < wheel.teeth else ""
        lines.append(f"One wheel of {wheel.teeth} teeth more{other} would make it exact by differential.")
    longer = steps_prime_to(choice.part, LONGEST_STEP)[1:] if count and choice.at_once == 1 else ()
    step = next((each for each in longer if can_gear(head, choice.part * each)), None)
    if step is not None:
        lines.append(f"{step} divisions at a time are exact by differential: --skip {step}.")
    return lines
