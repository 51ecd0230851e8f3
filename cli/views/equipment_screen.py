"""Lathes and heads in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from cli.views.answer_json import as_text
from cli.views.screen import answers_table, console, facts_table, print_answers
from cli.views.shop_figures import lead_text, length_text, signed
from solver.dividing.heads import Head
from solver.dividing.moves import Method
from solver.dividing.table_dial import dial_divides
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.pitches import figure_text
from solver.trains.lathe import Banjo, Lathe
from solver.trains.wheels import WheelClass


def stock_text(stock: Sequence[tuple[int, int]]) -> str:
    """Write a box of wheels, doubles marked.

    Examples
    --------
    >>> stock_text([(20, 2), (25, 1)])
    '20 ×2, 25'
    """
    return ", ".join(f"{teeth} ×{count}" if count > 1 else str(teeth) for teeth, count in stock)


def names_json(rows: Sequence[tuple[str, str]]) -> str:
    """Write names and descriptions as JSON."""
    return as_text({"known": [{"name": name, "description": description} for name, description in rows]})


def show_lathes(lathes: Sequence[tuple[str, Lathe]]) -> None:
    """Print the known lathes."""
    table = answers_table([("Name", "left"), ("Leadscrew", "left"), ("Wheels", "right"), ("Description", "left")])
    for name, lathe in lathes:
        count = sum(number for each in lathe.wheel_classes for _, number in each.stock)
        table.add_row(name, lathe.leadscrew_text, str(count), lathe.name)
    print_answers(console(), table)


def show_heads(heads: Sequence[tuple[str, Head]]) -> None:
    """Print the known heads."""
    table = answers_table([("Name", "left"), ("Ratio", "right"), ("Circles", "right"), ("Description", "left")])
    for name, head in heads:
        table.add_row(name, _ratio(head), str(len(list(head.circles())) or len(head.direct_circles)), head.name)
    print_answers(console(), table)


def _ratio(head: Head) -> str:
    return f"{figure_text(head.worm_ratio)}:1" if head.has_worm else "no worm"


def show_lathe(lathe: Lathe) -> None:
    """Print one lathe in words."""
    rows = [("Lathe", lathe.name), ("Leadscrew", f"{lathe.leadscrew_text}: {lead_text(lathe.leadscrew_lead)}")]
    if lathe.has_left_hand_screw:
        rows.append(("", "left-handed"))
    if lathe.measured:
        way = "too far" if lathe.measured > 0 else "not far enough"
        ppm = signed(lathe.measured * 1_000_000)
        rows.append(("", f"measured {lathe.measured_text}: {ppm} ppm, the carriage goes {way}"))
    plural = "s" if lathe.stud_turns > 1 else ""
    assumed = "" if lathe.is_stud_stated else " (ASSUMED: the file has no stud_turns)"
    rows.append(("Stud gear", f"{lathe.stud_turns} turn{plural} for one spindle turn{assumed}"))
    by_screw = ", by the screw as measured" if lathe.measured else ""
    rows.append(("Equal wheels cut", f"{lead_text(lathe.lead_at_equal_wheels)}{by_screw}"))
    reverse = "fitted" if lathe.has_reverse else "none: the hand is set by idlers"
    rows.append(("Reverse", reverse if lathe.is_reverse_stated else f"{reverse} (ASSUMED: the file has no reverse)"))
    for wheel_class in lathe.wheel_classes:
        only = f"; only in pair {wheel_class.only_in_pair}" if wheel_class.only_in_pair else ""
        rows.append(("Wheels", f"{wheel_class.size}: {stock_text(wheel_class.stock)}{only}{_make(wheel_class)}"))
    if lathe.keyed_pairs:
        joined = ", ".join(f"{first}+{second}" for first, second in lathe.keyed_pairs)
        use = "each used as one piece on a stud, either way round, besides the loose wheels"
        rows.append(("Keyed pairs", f"{joined} on one sleeve; {use}"))
    if lathe.levers:
        rows.append(("Gearbox", ", ".join(f"{name} = {ratio}" for name, ratio in lathe.levers)))
    rows.extend(_banjo_rows(lathe.banjo))
    if lathe.chasing_dial:
        dial = lathe.chasing_dial
        rows.append(("Chasing dial", f"{dial.wheel_teeth} T wheel, {dial.lines} lines"))
    if lathe.spindle_stops:
        rows.append(("Spindle stops", ", ".join(map(str, lathe.spindle_stops))))
    console().print(facts_table(rows))


def _make(wheel_class: WheelClass) -> str:
    """Write what the file tells whoever makes another wheel."""
    told = []
    if wheel_class.face is not None:
        told.append(f"face {length_text(wheel_class.face)}")
    if wheel_class.bore is not None:
        told.append(f"bore {length_text(wheel_class.bore)}")
    if wheel_class.pressure_angle is not None:
        told.append(f"pressure angle {figure_text(wheel_class.pressure_angle.degrees)} deg")
    return f"; {', '.join(told)}" if told else ""


def _banjo_rows(banjo: Banjo | None) -> list[tuple[str, str]]:
    if banjo is None:
        return [("Banjo", "not described: mounting is checked by the shaft rule alone")]
    parts = []
    if banjo.studs is not None:
        parts.append(f"{banjo.studs} stud{'' if banjo.studs == 1 else 's'}")
    if banjo.stud_nut is not None:
        parts.append(f"stud nut {length_text(banjo.stud_nut)}")
    if banjo.centre_distance is not None:
        parts.append(f"stud gear to leadscrew {length_text(banjo.centre_distance)}")
    if banjo.slot is not None:
        parts.append(f"slot {length_text(banjo.slot[0])} to {length_text(banjo.slot[1])}")
    if banjo.swing is not None:
        parts.append(f"swing {_degrees(banjo.swing[0])} to {_degrees(banjo.swing[1])}")
    if banjo.mesh_limits:
        limits = (f"{length_text(low)} to {length_text(high)}" for low, high in banjo.mesh_limits)
        parts.append(f"centres {', '.join(limits)}")
    if banjo.largest_wheel_teeth is not None:
        parts.append(f"largest wheel {banjo.largest_wheel_teeth} T")
    return [("Banjo", "; ".join(parts) or "described by nothing")]


def _degrees(angle: Angle) -> str:
    sign = "-" if angle.turns < 0 else ""
    return f"{sign}{figure_text(abs(angle.degrees))}°"


def runs_text(counts: Sequence[int]) -> str:
    """Write rising counts with runs of three and more drawn together.

    Examples
    --------
    >>> runs_text([1, 2, 3, 5, 6, 9])
    '1-3, 5, 6, 9'
    """
    runs: list[list[int]] = []
    for count in counts:
        if runs and count == runs[-1][-1] + 1:
            runs[-1].append(count)
        else:
            runs.append([count])
    words = [f"{run[0]}-{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return ", ".join(words) or "none"


#: Methods that can be exact, in order of preference.
_EXACT = (Method.DIRECT, Method.PLAIN, Method.DIFFERENTIAL, Method.COMPOUND)


def show_coverage(head: Head, methods: Mapping[int, tuple[Method, ...]]) -> None:
    """Print which counts a head divides exactly by each method, which by one alone, and which by none."""
    rows = [("Head", head.name)]
    for method in _EXACT:
        rows.append((method.value.capitalize(), _counts_text([each for each in methods if method in methods[each]])))
    for method in (Method.DIFFERENTIAL, Method.COMPOUND):
        alone = [count for count, found in methods.items() if found == (method,)]
        if alone:
            rows.append((f"{method.value.capitalize()} alone", _counts_text(alone)))
    by_dial = [count for count in methods if dial_divides(head, count)]
    if head.has_only_dial:
        rows.append(("Its dial", f"{_counts_text(by_dial)}, each mark from zero"))
    none = [count for count, found in methods.items() if not found and count not in by_dial]
    rows.append(("By none", _counts_text(none)))
    out = console()
    out.print(facts_table(rows))
    out.print(
        "Each count stands under every method that is exact: differential only with the wheels on, compound in two "
        "motions each time, 1 to 9 divisions at a time. Whether wheels and idlers reach across is not checked."
    )


def _counts_text(counts: Sequence[int]) -> str:
    return f"{len(counts)}: {runs_text(counts)}" if counts else "0"


def coverage_json(head: Head, methods: Mapping[int, tuple[Method, ...]]) -> str:
    """Write which counts a head divides exactly as JSON: under the first method, and under every one."""
    first = {method.value: [count for count, found in methods.items() if found[:1] == (method,)] for method in _EXACT}
    dial = [count for count, found in methods.items() if not found and dial_divides(head, count)]
    none = [count for count, found in methods.items() if not found and count not in dial]
    every = {method.value: [count for count, found in methods.items() if method in found] for method in _EXACT}
    return as_text(
        {
            "head": head.name,
            "to": len(methods),
            "exact_by": first | {"dial": dial, "none": none},
            "every_exact_by": every | {"dial": [count for count in methods if dial_divides(head, count)]},
            "reach_of_wheels_checked": False,
        }
    )


#: What a simple train with one idler does to the plate, as far as the file says.
_IDLER_RULE = {
    True: "the plate follows the crank (simple train)",
    False: "the plate turns against the crank (simple train)",
    None: "not stated; taken to make the plate follow the crank (simple train)",
}


def show_head(head: Head) -> None:
    """Print one head in words."""
    rows = [("Head", head.name), ("Worm ratio", _ratio(head))]
    for plate in head.plates:
        faces = " / ".join(", ".join(map(str, face)) for face in plate.faces)
        rows.append((f"Plate {plate.name}", faces))
    if not head.plates:
        rows.append(("Plates", "none"))
    if head.small_crank is not None:
        circles = ", ".join(map(str, head.small_crank.circles))
        rows.append(("Small crank", f"{figure_text(head.small_crank.ratio)} turns for one of the large; {circles}"))
    if head.dial_reading is not None:
        rows.append(("Dial", f"read to {sexagesimal_text(head.dial_reading, 1)}"))
    if head.pin_places is not None:
        rows.append(("Pin places", f"{head.pin_places}, parting one space of the spindle's own holes"))
    rows.append(("Direct", ", ".join(map(str, head.direct_circles)) or "none"))
    if head.wheels:
        rows.append(("Wheels", stock_text(head.wheels)))
        rows.append(("One idler", _IDLER_RULE[head.one_idler_follows]))
    if head.table_lead is not None:
        rows.append(("Table screw", lead_text(head.table_lead)))
    console().print(facts_table(rows))
