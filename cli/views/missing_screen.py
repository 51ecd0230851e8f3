"""The terminal screen of ``missing``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.index_moves import divide_command, other_ways
from cli.views.cautions import DEFER, dividing_cautions, table_cautions
from cli.views.method_tables import counted
from cli.views.missing_figures import (
    OTHER_SETS,
    Wanted,
    aim_text,
    angle_lines,
    head_text,
    lathe_text,
    price_text,
    proof_text,
    train_text,
    wheels_text,
)
from cli.views.other_equipment_screen import SPINDLE_CAUTIONS
from cli.views.screen import answers_table, console, facts_table, print_answers, print_block, print_list
from cli.views.shop_figures import lead_text, length_text, signed
from cli.views.table_dial_screen import worst_text
from cli.views.workpiece import blank_text, cutter_text, depth_text
from solver.jobs.wheel_making import WheelMaking
from solver.jobs.wheel_report import MissingReport, WheelRole, WheelSet
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.trains.reach import Reach, Reached

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from rich.console import Console

    from solver.dividing.heads import Head
    from solver.quantities.pi_multiples import Lead
    from solver.trains.lathe import Lathe

#: Ways of dividing on the lathe itself that are shown; ``divide --with`` shows them all.
WAYS_SHOWN = 2


def show_missing(
    lathe: Lathe,
    head: Head,
    wanted: Wanted,
    report: MissingReport,
    makings: Sequence[WheelMaking],
    head_word: str | None,
) -> None:
    """Print the answer of ``missing``; ``head_word`` names the head in commands."""
    out = console()
    out.print(facts_table(asked_rows(lathe, report)))
    out.print()
    best = report.best
    if not report.lacking:
        out.print("No wheel is missing: this lathe cuts all of them within the tolerance.", style="bold")
        return
    if not best.wheels:
        out.print("NO WHEEL HELPS, as far as was looked", style="bold")
    else:
        _print_wheels(out, wanted, report)
    _print_trains(out, wanted, report)
    _print_left(out, wanted, report)
    for making in makings:
        _print_making(out, making, lathe, head, head_word)
    if makings:
        print_list(out, "Cautions", making_cautions(makings))


def asked_rows(lathe: Lathe, report: MissingReport) -> list[tuple[str, str]]:
    """Echo what was asked, and how many of the leads are cut now."""
    question = report.question
    teeth = question.candidates
    among = f"{teeth[0]} to {teeth[-1]} T" if len(teeth) > 1 else f"{teeth[0]} T"
    ppm = trimmed_decimal_text(question.within * 1_000_000, 2)
    tolerance = f"{ppm} ppm of the lead; + is a screw too long, - too short" if question.within else "none: exact only"
    cut = len(report.now) - len(report.lacking)
    joins = f"{counted(len(teeth), 'count')}, {among}, {lathe.wheel_classes[0].size}"
    return [
        ("Lathe", lathe.name),
        ("Leadscrew", f"{lathe.leadscrew_text}: {lead_text(lathe.leadscrew_lead)}"),
        ("May be added", f"{joins}; up to {counted(question.most_wheels, 'wheel')}"),
        ("Trains", f"up to {counted(question.most_pairs, 'pair')}, only those that go on"),
        ("Tolerance", tolerance),
        ("Asked", f"{counted(len(report.now), 'lead')}: {cut} cut now, {len(report.lacking)} lacking"),
    ]


def _print_wheels(out: Console, wanted: Wanted, report: MissingReport) -> None:
    """Print the wheels to add, what each unlocks, how sure the choice is, and others as good."""
    best = report.best
    out.print(f"{added_text(report)}: {aim_text(report.question.prices)}", style="bold")
    out.print(unlocked_text(report))
    for role in best.roles:
        print_list(out, role_text(role, report), list(role_lines(role, wanted)))
    if report.others:
        out.print()
        out.print("AS GOOD: as many leads, wheels and the same price", style="bold")
        table = answers_table(
            [("Wheels", "left"), ("Leads exact", "right"), ("Worst, ppm", "right"), ("Teeth in all", "right")]
        )
        for each in (best, *report.others):
            exact = sum(row.reached is Reached.EXACT for row in each.unlocked)
            table.add_row(wheels_text(each.wheels), str(exact), _worst(each), str(sum(each.wheels)))
        print_answers(out, table)
        more = "There may be more. " if len(report.others) == OTHER_SETS else ""
        out.print(f"{more}The first has the fewest teeth to cut.")


def added_text(report: MissingReport) -> str:
    """Name the wheels to add, and what they come to where prices were given."""
    cost = "" if report.question.prices.counts_wheels else f", price {price_text(report.best.price)} in all"
    return f"ADD {wheels_text(report.best.wheels)}{cost}"


def unlocked_text(report: MissingReport) -> str:
    """Say how many leads the wheels unlock, and how sure the choice is."""
    proof = proof_text(report)
    return f"Unlocks {len(report.best.unlocked)} of {len(report.lacking)}. {proof[:1].upper()}{proof[1:]}."


def role_text(role: WheelRole, report: MissingReport) -> str:
    """Name one wheel, how many of it, and what it costs where prices were given."""
    prices, copies = report.question.prices, report.best.wheels.count(role.teeth)
    made = "make" if prices.is_made(role.teeth) else "buy"
    price = "" if prices.counts_wheels else f", {made}, price {price_text(role.price)}"
    return f"{role.teeth} T{f' ×{copies}' if copies > 1 else ''}{price}"


def _worst(each: WheelSet) -> str:
    return signed(each.worst_error * 1_000_000) if each.worst_error else "exact"


def role_lines(role: WheelRole, wanted: Wanted) -> Iterator[str]:
    """Say what one wheel unlocks, by itself and with others."""
    if role.alone:
        yield f"unlocks by itself: {_listed(role.alone, wanted)}"
    by_others: dict[tuple[int, ...], list[Lead]] = {}
    for lead, others in role.together:
        by_others.setdefault(others, []).append(lead)
    for others, leads in by_others.items():
        yield f"unlocks with {wheels_text(others)}: {_listed(leads, wanted)}"


def _listed(leads: Sequence[Lead], wanted: Wanted) -> str:
    return ", ".join(wanted[lead].text for lead in leads)


def _print_trains(out: Console, wanted: Wanted, report: MissingReport) -> None:
    rows = report.best.unlocked
    if not rows:
        return
    out.print()
    out.print("TRAINS with them in the box", style="bold")
    named = [threads_text(wanted[row.lead].names) for row in rows]
    threads = [("Threads", "left")] if any(named) else []
    table = answers_table([("Lead", "left"), *threads, ("ppm", "right"), ("Train", "left")])
    for row, names in zip(rows, named, strict=True):
        table.add_row(wanted[row.lead].text, *([names] if threads else []), ppm_text(row), train_or_none(row))
    print_answers(out, table)
    brackets = " An idler stands in brackets." if any(row.best and row.best.idlers for row in rows) else ""
    out.print(f"From the spindle, driver-driven; 'halfnut train' says the rest of each.{brackets}")


def threads_text(names: Sequence[str]) -> str:
    """Name the threads of one lead, the first and the last of many."""
    if len(names) < 3:
        return ", ".join(names)
    return f"{names[0]} to {names[-1]}"


def ppm_text(row: Reach) -> str:
    """Write the error of a lead that is reached."""
    if row.best is None:
        return ""
    return "exact" if row.best.error.is_exact else signed(row.best.error.ppm)


def train_or_none(row: Reach) -> str:
    """Write the train of a lead."""
    return train_text(row.best) if row.best is not None else "no train at all"


def _print_left(out: Console, wanted: Wanted, report: MissingReport) -> None:
    for title, lines in left_lines(wanted, report):
        print_list(out, title, lines)


def left_lines(wanted: Wanted, report: MissingReport) -> Iterator[tuple[str, list[str]]]:
    """Name the leads that stay out of reach under the reason, each with the nearest that is then cut."""
    rows = {row.lead: row for row in report.best.rows}
    most = report.question.most_wheels
    for leads, title in (
        (report.hopeless, f"Nothing up to {counted(most, 'wheel')} unlocks these: proven"),
        (report.not_together, f"Not within {counted(most, 'wheel')} beside the rest; each by itself can be had"),
        (report.undecided, "Nothing found for these before the search ended"),
    ):
        yield title, [f"{wanted[lead].text}: {_nearest(rows[lead])}" for lead in leads]


def _nearest(row: Reach) -> str:
    if row.best is None:
        return "no train at all"
    known = "" if row.best.fits else ", which will not go on"
    return f"nearest {ppm_text(row)}{'' if row.best.error.is_exact else ' ppm'} by {train_or_none(row)}{known}"


def _print_making(out: Console, making: WheelMaking, lathe: Lathe, head: Head, head_word: str | None) -> None:
    """Print how one wheel is made."""
    rows = [*blank_rows(making, lathe), *dividing_rows(making, head, head_word)]
    print_block(out, f"MAKING THE {making.teeth} T, {making.tooth.told}", rows)


def blank_rows(making: WheelMaking, lathe: Lathe) -> list[tuple[str, str]]:
    """List the blank, the cut and the cutter of one wheel."""
    wheels = lathe.wheel_classes[0]
    return [
        ("Blank", blank_text(making.tooth, making.teeth)),
        ("Depth", depth_text(making.tooth)),
        ("Cutter", cutter_text(making.tooth, making.teeth)),
        *zip(["Angle", *[""] * len(making.base_pitches)], angle_lines(making), strict=False),
        ("Face", length_text(wheels.face) if wheels.face else "as the wheels you have"),
        ("Bore", f"{length_text(wheels.bore) if wheels.bore else 'as the wheels you have'}, key included"),
    ]


def dividing_rows(making: WheelMaking, head: Head, head_word: str | None) -> Iterator[tuple[str, str]]:
    """Say what divides a wheel: the head, the head geared with change wheels, or the lathe itself."""
    yield "Head", head.name
    best = making.on_head.best if making.on_head else None
    known = making.by_dial is not None or (best is not None and best.is_exact)
    ways = [] if known else other_ways(head, making.teeth)
    command = divide_command(f"{making.teeth}", head_word)
    if making.by_dial is not None:
        worst = worst_text(making.by_dial)
        yield "Divide", f"by its dial, each tooth from zero, worst {worst}; '{command}' lists them"
    elif best is None or (ways and not head.plates):
        yield "Divide", "no plate and no hole of this head divides it"
    else:
        yield "Divide", f"{head_text(best)}; '{command}' gives the rest"
    for way in ways:
        command = divide_command(f"{making.teeth}", head_word, f"--with {way}")
        yield "Or", f"with more than plates and holes: '{command}'"
    if making.with_change_wheels is not None:
        yield (
            "Or geared",
            f"with the lathe's own wheels, if they go on the head: {head_text(making.with_change_wheels)}",
        )
    for number, setting in enumerate(making.on_lathe[:WAYS_SHOWN]):
        title = "This lathe divides its own" if number == 0 else "or"
        yield ("Or on the lathe" if number == 0 else ""), f"{title}: {lathe_text(setting)}"
    if not making.is_divided and not ways and making.by_dial is None:
        yield "", "not exact here: this wheel is one to buy, or to have divided elsewhere"


def making_cautions(makings: Sequence[WheelMaking]) -> list[str]:
    """List the cautions of dividing these wheels."""
    answers = [making.on_head.best for making in makings if making.on_head and making.on_head.best]
    answers += [making.with_change_wheels for making in makings if making.with_change_wheels]
    harder = [answer for answer in answers if answer.gearing is not None or answer.second is not None]
    lines = list(dividing_cautions(harder[0] if harder else None)) if answers else []
    if any(making.by_dial for making in makings):
        lines += table_cautions()
    if any(making.on_lathe for making in makings):
        lines += SPINDLE_CAUTIONS[: 2 if lines else 3]
    return lines or [DEFER]
