"""The terminal screen of ``job``: the order of work, one block a step, totals with their proof, checks and cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from cli.job_plan import HeadStep, JobPlan, LatheStep, is_beyond
from cli.views.banjo_sketch import set_up_text
from cli.views.cautions import gathered, head_cautions, touching_cautions, train_cautions
from cli.views.index_lines import setting_text
from cli.views.index_settings import early_check as index_check
from cli.views.job_dial import dial_error, dial_setting, dial_step_rows, print_step_marks
from cli.views.job_wheel import part_rows, worm_command
from cli.views.method_tables import (
    BY_BOTH,
    BY_PIN,
    SIGNS,
    arms_enclose,
    arms_in_order,
    counted,
    motions_in_order,
    move_text,
    plate_motion_text,
)
from cli.views.milling_cautions import WORM_CUTTING, gashing_cautions
from cli.views.part_figures import size_text
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import (
    accumulated_text,
    angle_text,
    arcsec_text,
    error_words,
    idlers_text,
    lead_text,
    pitch_line,
    signed,
)
from cli.views.train_screen import early_check, half_nut_text, proof_text
from cli.views.worm_screen import worm_rows
from gearsets.job_files import JobPart
from gearsets.job_parts import (
    DialPart,
    DividedPart,
    ShapedPart,
    SlottedPart,
    ThreadPart,
    WheelPart,
    WormPart,
)
from solver.dividing.moves import IndexAnswer
from solver.jobs.tasks import Machine
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.pitches import Pitch, PitchUnit
from solver.trains.changes import Standing
from solver.trains.hand import Hand

if TYPE_CHECKING:
    from rich.console import Console

    from gearsets.thread_forms import DrawnThread


#: Said where one box serves both machines and a wheel goes from one to the other.
LENT = "A wheel lent from one machine to the other: see that what is left there cannot be driven."


def show_job(found: JobPlan) -> None:
    """Print the plan of a job."""
    out = console()
    out.print(facts_table(job_rows(found)))
    out.print()
    out.print("ORDER OF WORK", style="bold")
    table = answers_table(
        [("Step", "right"), ("Part", "left"), ("Set-up", "left"), ("Error", "left"), ("Handled", "right")]
    )
    for number, step in enumerate(found.steps, start=1):
        table.add_row(str(number), step.part.name, short_setting(step), short_error(step), str(step.handling.wheels))
    print_answers(out, table)
    for line in order_notes(found):
        out.print(line)
    for number, step in enumerate(found.steps, start=1):
        _print_step(out, number, step, found)
    out.print()
    out.print("TOTALS", style="bold")
    out.print(facts_table(total_rows(found)))
    print_list(out, "Not checked on this lathe", open_points(found))
    print_list(out, "Cautions", _cautions(found))


def order_notes(found: JobPlan) -> list[str]:
    """Say how the order of work is read: its count of wheels, its trains and the signs of its errors."""
    notes = ["Handled: wheels taken off and put on before the step."]
    if found.lathe is not None:
        notes.append("Trains are driver-driven, spindle side first; of their errors + is lead long, - lead short.")
    return [*notes, *closing_signs(found)]


def closing_signs(found: JobPlan) -> list[str]:
    """Say what the signs of errors at closure mean; nothing where every round closes."""
    heads = [step.answer for step in found.steps if isinstance(step, HeadStep) and step.answer is not None]
    return [] if all(answer.is_exact for answer in heads) else [f"At closure: {SIGNS}"]


def job_rows(found: JobPlan) -> list[tuple[str, str]]:
    """Echo the job, its lathe and head, and what stands on them."""
    job = found.job
    turned = sum(isinstance(step, LatheStep) for step in found.steps)
    counts = ((turned, Machine.LATHE), (len(found.steps) - turned, Machine.HEAD))
    at = ", ".join(f"{count} on the {machine.value}" for count, machine in counts if count)
    rows = [("Job", f"{job.name}: {counted(len(found.steps), 'part')}, {at}")]
    if job.lathe is not None:
        rows.append(("Lathe", job.lathe.name))
        begins = f"{set_up_text(*job.mounted)} on the banjo" if job.mounted else "the banjo bare"
        rows.append(("Begins", begins))
    if job.head is not None:
        rows.append(("Head", job.head.name))
    if job.has_one_box:
        rows.append(("One box", "the head is geared with the lathe's wheels; what stands on one is not on the other"))
    return rows


def part_text(part: JobPart) -> str:
    """Say what a part is, in a few words."""
    product = part.product
    if isinstance(product, ThreadPart):
        named = f"{product.row.designation}, " if product.row else ""
        text = f"{named}{pitch_line(product.pitch)}, {product.hand.value}-hand"
    elif isinstance(product, WormPart):
        worm = product.wheel.worm
        text = f"worm, {worm.size}, {counted(worm.starts, 'start')}, for a wheel of {product.wheel.teeth} teeth"
    elif isinstance(product, WheelPart):
        text = f"gashes of a worm wheel, {product.wheel.teeth} teeth"
    elif isinstance(product, DividedPart):
        angle = sexagesimal_text(Angle(product.turn))
        text = counted(product.count, "division") if product.count else f"an angle of {angle}"
        text += f": a wheel, {product.tooth.told}" if product.tooth else ""
    elif isinstance(product, ShapedPart):
        flats = counted(product.cut.flats.count, "flat")
        text = f"{product.shape}, {flats} on a round of {size_text(product.cut.diameter)}"
    elif isinstance(product, SlottedPart):
        text = f"{counted(product.count, 'slot')} in a round of {size_text(product.diameter)}"
    else:
        text = f"dial of {counted(product.report.answers[0].marks, 'mark')}"
    return f"{text}; {part.quantity} off" if part.quantity > 1 else text


def sizes_text(part: JobPart) -> str:
    """Say the sizes to work to, in a line; empty where there are none beside the setting."""
    product = part.product
    if isinstance(product, WormPart):
        worm = product.wheel.worm
        return (
            f"outside {size_text(worm.outside)}, root {size_text(worm.root)}, depth {size_text(worm.whole_depth)}; "
            f"lead {lead_text(worm.lead)}, lead angle {angle_text(worm.lead_angle)}"
        )
    if isinstance(product, ShapedPart):
        across = product.cut.flats.across_flats
        depth = f"{size_text(product.cut.depth)} off each flat"
        return depth if across is None else f"{depth}, {size_text(across)} across flats"
    if isinstance(product, SlottedPart):
        travel = ", ".join(size_text(each) for each in product.beyond)
        return f"{size_text(product.depth)} deep; from touching the side the cutter travels {travel}"
    if isinstance(product, DialPart):
        dial = product.report.answers[0]
        missed = "" if dial.is_exact else f", not the {size_text(dial.wanted)} wanted"
        return f"{counted(dial.marks, 'mark')} of {size_text(dial.per_mark)}{missed}"
    if isinstance(product, ThreadPart) and product.drawn is not None:
        basic = product.drawn.thread.basic().external
        return f"major {size_text(basic.major)}, minor {size_text(basic.minor)}"
    return ""


def turned_rows(part: JobPart, head_word: str) -> list[tuple[str, str]]:
    """Say with which tool a worm is cut, and where the rest of a worm or a thread is found."""
    product = part.product
    if isinstance(product, WormPart):
        tool = next(row for row in worm_rows(product.wheel, None, is_assumed=False) if row[0] == "Tool")
        return [tool, ("In full", f"'{worm_command(product.wheel, product.hand, head_word)}'")]
    if isinstance(product, ThreadPart) and product.drawn is not None:
        return [("In full", f"'{thread_command(product, product.drawn)}': passes, tool, wires")]
    return []


def thread_command(product: ThreadPart, drawn: DrawnThread) -> str:
    """Write the command that answers for the form and passes of a thread whose form is known."""
    pitch = product.pitch
    named = product.row.designation if product.row is not None else str(replace(pitch, starts=1))
    major = trimmed_decimal_text(drawn.thread.basic().external.major.mm, 6)
    more = [
        *([] if product.row is not None else [f"--major {major}mm"]),
        *([f"--starts {drawn.thread.starts}"] if drawn.thread.starts > 1 else []),
        *(["--hand left"] if product.hand is Hand.LEFT else []),
    ]
    return " ".join(["halfnut thread", f'"{named}"' if " " in named else named, *more])


def short_setting(step: LatheStep | HeadStep) -> str:
    """Write a set-up in one token, or the setting of the head in a few words."""
    if isinstance(step, LatheStep):
        lever = f", lever {step.answer.lever}" if step.answer.lever else ""
        return f"{set_up_text(step.answer.train, step.answer.idlers)}{lever}"
    if step.table is not None:
        return dial_setting(step.table)
    if step.answer is None:
        return "head as it stands"
    words, _, more = index_text(step.answer).partition(" (arms")
    return f"{words}{more.partition(')')[2]}"


def index_text(answer: IndexAnswer) -> str:
    """Write the setting of the head with its wheels and, in brackets, its arms."""
    if answer.gearing is not None:
        idlers = idlers_text(answer.gearing.idlers)
        with_idlers = f", {idlers}" if idlers else ""
        arms = f" (arms enclose {arms_enclose(answer)} holes)" if arms_enclose(answer) else ""
        return f"{move_text(answer.move)}{arms}; wheels {answer.gearing.train}{with_idlers}"
    if answer.second is not None:
        return f"{', then '.join(motions_in_order(answer))} (arms enclose {arms_in_order(answer)} holes)"
    return setting_text(answer)


def short_error(step: LatheStep | HeadStep) -> str:
    """Say the error in a word or two."""
    if isinstance(step, LatheStep):
        return "exact" if step.answer.error.is_exact else f"{signed(step.answer.error.ppm)} ppm"
    if step.table is not None:
        return dial_error(step.table)
    if step.answer is None:
        return "-"
    return "exact" if step.answer.is_exact else f"{arcsec_text(step.error)} {step.error_is}"


def _print_step(out: Console, number: int, step: LatheStep | HeadStep, found: JobPlan) -> None:
    machine = Machine.LATHE if isinstance(step, LatheStep) else Machine.HEAD
    out.print()
    out.print(f"{number}. {step.part.name}, on the {machine.value}", style="bold")
    rows = [("Part", part_text(step.part))]
    if sizes := sizes_text(step.part):
        rows.append(("Sizes", sizes))
    if step.handling.lent:
        other = Machine.HEAD if machine is Machine.LATHE else Machine.LATHE
        rows.append(("First", f"off the {other.value}, for this one: {places_text(step.handling.lent)}"))
    rows += turned_rows(step.part, found.job.head_word)
    rows += _handled_rows(step)
    rows += part_rows(step.part.product, found.job.head_word)
    rows += _lathe_rows(step, found) if isinstance(step, LatheStep) else _head_rows(step, found)
    if step.part.note:
        rows.append(("Note", step.part.note))
    rows.append(("Done", "[ ]   Measured: ________  Date: ________"))
    out.print(facts_table(rows))
    if isinstance(step, HeadStep) and step.table is not None:
        print_step_marks(out, step.table)


def _handled_rows(step: LatheStep | HeadStep) -> list[tuple[str, str]]:
    rows = []
    if step.handling.off:
        rows.append(("Take off", places_text(step.handling.off)))
    if step.handling.on:
        rows.append(("Put on", places_text(step.handling.on)))
    if not rows and isinstance(step, LatheStep):
        rows.append(("Wheels", "all stay as they are"))
    return rows


def places_text(wheels: Sequence[Standing]) -> str:
    """Write wheels at their places."""
    return "; ".join(f"{each.place}: {each.teeth} T" for each in wheels)


def _lathe_rows(step: LatheStep, found: JobPlan) -> list[tuple[str, str]]:
    answer, lathe = step.answer, found.lathe
    rows = [("Train", set_up_text(answer.train, answer.idlers))]
    if answer.lever:
        rows.append(("Lever", answer.lever))
    if lathe is not None:
        rows.append(("Proof", proof_text(answer, lathe)))
    over = "" if answer.error.is_exact else f"; {accumulated_text(answer.error, step.part.length)}"
    rows.append(("Error", f"{error_words(answer.error)}{over}"))
    rows.append(("Goes on", answer.mounting.verdict.value))
    rows.append(("Hand", answer.hand.by))
    rows.append(("Half-nut", half_nut_text(answer)))
    rows += [("Check" if at == 0 else "", line) for at, line in enumerate(early_check(answer, _asked(step.part))[:2])]
    return rows


def _asked(part: JobPart) -> Pitch:
    """Give the pitch that a check speaks of; of a worm only its starts matter."""
    product = part.product
    if isinstance(product, ThreadPart):
        return product.pitch
    starts = product.wheel.worm.starts if isinstance(product, WormPart) else 1
    return Pitch(Fraction(1), PitchUnit.MILLIMETRE, starts)


def _head_rows(step: HeadStep, found: JobPlan) -> list[tuple[str, str]]:
    answer = step.answer
    if step.table is not None and found.head is not None:
        rows = dial_step_rows(step, step.table, found.head, found.job.head_word)
        return [*rows, ("Error", f"{short_error(step)}{_beyond_words(step)}")]
    if answer is None or found.head is None:
        return [("Setting", "none: there is nothing to divide; clamp the spindle")]
    rows = [("Method", answer.method.value), ("Setting", index_text(answer))]
    if answer.second is not None:
        rows += [("", BY_PIN), ("", BY_BOTH)]
    if step.face is not None:
        has_more = any(len(plate.faces) > 1 for plate in found.head.plates if plate.name == step.face[0])
        named = f"plate {step.face[0]}{f', face {step.face[1]}' if has_more else ''}"
        rows.append(("Plate", f"{named}: put it on" if step.handling.face else f"{named}, on already"))
    if answer.gearing is not None:
        rows.append(("", f"in one turn of the work the plate turns {plate_motion_text(answer.gearing)}"))
    rows.append(("Error", f"{short_error(step)}{_beyond_words(step)}"))
    checks = index_check(answer, found.head, step.divisions)
    rows += [("Check" if at == 0 else "", line) for at, line in enumerate(checks[:2])]
    return rows


def _beyond_words(step: HeadStep) -> str:
    """Say that a division is beyond its tolerance, and what that is; nothing where it is within."""
    if not is_beyond(step):
        return ""
    within = step.part.within
    tolerance = f"{arcsec_text(Angle(within)).lstrip('+')} {step.error_is}" if within else "exact"
    return f"; BEYOND ITS TOLERANCE, {tolerance}: the nearest is planned"


def total_rows(found: JobPlan) -> list[tuple[str, str]]:
    """Sum up what is handled, with the proof that it is least."""
    plan = found.plan
    handled = f"{plan.handled} taken off or put on; {found.in_file_order} in the order of the file"
    rows = [("Wheels", f"{handled} with the best set-up of each part by itself")]
    if any(isinstance(step, HeadStep) and step.face for step in found.steps):
        rows.append(("Plate", f"{counted(plan.faces, 'time')} a face of the plate is put on"))
    rows.append(("Proof", proof_of_plan(found)))
    if not plan.ties_settled:
        rows.append(("", "another plan of as many wheels may put on fewer faces, or err less"))
    return rows


def proof_of_plan(found: JobPlan) -> str:
    """Say what was proven of a plan, and over which set-ups."""
    plan = found.plan
    pairs = f" of up to {counted(found.pairs, 'pair')}" if found.pairs else ""
    beyond = [step.part.name for step in found.steps if is_beyond(step)]
    nearest = f"; of {', '.join(beyond)} the nearest alone, for none is within its tolerance" if beyond else ""
    if found.cut_short:
        kept = f"the {found.set_ups:,} set-ups of least error (of {', '.join(found.cut_short)} not all were taken in)"
    else:
        kept = f"all {found.set_ups:,} set-ups{pairs} within the tolerances that go on"
    choice = f"and no choice among {kept}"
    if found.set_ups == len(found.steps):
        choice, kept = f"in the one set-up{pairs} that each has", f"one set-up{pairs} for each part"
    if plan.is_proven:
        return f"proven: no order of these parts {choice} handles fewer{nearest}"
    gap = f"no plan handles fewer than {plan.bound}, so {plan.handled - plan.bound} could still be saved"
    return f"best found, not proven: {gap}; chosen among {kept}{nearest}"


def open_points(found: JobPlan) -> list[str]:
    """Gather what the lathe file lacks for a full answer, each point once."""
    steps = (step for step in found.steps if isinstance(step, LatheStep))
    return list(dict.fromkeys(point for step in steps for point in step.answer.mounting.not_checked))


def _cautions(found: JobPlan) -> list[str]:
    """Gather the cautions of all steps, each once; the machine's own handbook comes last."""
    lines = [line for step in found.steps for line in _step_cautions(step, found)]
    missed = [step.part.name for step in found.steps if is_beyond(step)]
    if missed:
        lines.append(
            f"NOT DIVIDED WITHIN TOLERANCE: {', '.join(missed)}. Cut only if the error told will do; see the end of "
            "the round before the first cut."
        )
    if any(step.handling.lent for step in found.steps):
        lines.append(LENT)
    return gathered(lines)


def _step_cautions(step: LatheStep | HeadStep, found: JobPlan) -> list[str]:
    lines: list[str] = []
    product = step.part.product
    if isinstance(step, LatheStep) and found.lathe is not None:
        lines += train_cautions(step.answer, found.lathe, reversing=step.answer.hand.hand is Hand.LEFT)
    if isinstance(step, HeadStep) and step.is_divided and found.head is not None:
        lines += head_cautions(found.head, step.answer)
    if isinstance(product, WormPart):
        lines.append(WORM_CUTTING)
    if isinstance(product, WheelPart):
        lines += gashing_cautions(by_dial=found.head is not None and found.head.has_only_dial)
    if isinstance(product, SlottedPart):
        lines += touching_cautions()
    return lines
