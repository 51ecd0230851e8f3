"""The terminal screen and the JSON of ``helix``."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING, Any, NamedTuple

from cli.views import answer_json
from cli.views.banjo_sketch import set_up_text
from cli.views.method_tables import move_text
from cli.views.milling_cautions import helix_cautions
from cli.views.screen import answers_table, console, facts_table, print_answers, print_block, print_list
from cli.views.shop_figures import angle_text, approximate, arcsec_text, error_words, length_text, signed
from cli.views.swing_words import is_for_the_table, lean_text, sense_text, spindle_text, swing_json
from solver.dividing.divide import DivideReport
from solver.dividing.heads import Head
from solver.dividing.moves import Method
from solver.helices.cutter_ranges import CutterRange, cutter_for
from solver.helices.helix import helix_angle, tangent_of_helix, virtual_teeth
from solver.helices.helix_trains import HelixReport, HelixTrain, every_placing
from solver.helices.mill import Drive, Mill
from solver.quantities.angles import Angle
from solver.quantities.exact_numbers import significant_text, trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead
from solver.quantities.pitches import figure_text
from solver.refusals import ImpossibleSettingError
from solver.trains.banjo_gauge import USUAL_CLEARANCE_TEETH
from solver.trains.hand import Hand
from solver.trains.mounting import Verdict

if TYPE_CHECKING:
    from rich.console import Console

#: Parts of a turn that an early check may take, and the longest table travel it should need. [mm]
PARTS_OF_A_TURN = (Fraction(1), Fraction(1, 2), Fraction(1, 4), Fraction(1, 10), Fraction(1, 100), Fraction(1, 1000))
LONGEST_CHECK_MM = 100
#: Significant digits of a figure that is no fraction.
DIGITS = 15


class Helix(NamedTuple):
    """What is told of a helix: mill, trains, diameter, and for a gear its teeth and index moves."""

    mill: Mill
    head: Head
    report: HelixReport
    diameter: Length | None
    asked_angle: Angle | None
    gear_teeth: int | None
    dividing: DivideReport | None

    @property
    def wanted_angle(self) -> Angle | None:
        """Helix angle asked for, or that of the asked lead at the diameter."""
        if self.asked_angle is not None:
            return self.asked_angle
        return None if self.diameter is None else helix_angle(self.diameter, self.report.question.lead)

    def angle_of(self, train: HelixTrain) -> Angle | None:
        """Helix angle that a train really makes, at the diameter."""
        return None if self.diameter is None else helix_angle(self.diameter, train.lead)


def helix_lead_text(lead: Lead) -> str:
    """Write a lead in mm and inch; so long a one is not counted in threads.

    Examples
    --------
    >>> from solver.quantities.pi_multiples import PiLength
    >>> helix_lead_text(Length.of_inches(12)), helix_lead_text(PiLength(Fraction(40)))
    ('304.8 mm (12 in)', '40 π mm ≈ 125.6637 mm (4.94739 in)')
    """
    if isinstance(lead, Length):
        return length_text(lead)
    low, high = lead.bounds()
    middle = Length((low.mm + high.mm) / 2)
    shown = f"{trimmed_decimal_text(middle.mm, 4)} mm ({trimmed_decimal_text(middle.inches, 5)} in)"
    return f"{approximate(lead.mm_per_pi, 5)} π mm ≈ {shown}"


def show_helix(helix: Helix, *, with_placings: bool) -> None:
    """Print the answer of ``helix``."""
    out = console()
    report = helix.report
    question = report.question
    out.print(facts_table(asked_rows(helix)))
    first = next(iter(report.answers), report.nearest)
    if first is None:
        out.print("\nNo train can be made of these wheels.")
        return
    title = "MOUNT, the table screw drives" if report.answers else "NEAREST, not an answer"
    print_block(out, title, train_rows(first, helix))
    if report.answers:
        _print_answers(out, helix)
    if report.set_aside:
        print_list(out, "Set aside: as near or nearer, but known not to fit", map(_aside_text, report.set_aside))
    if with_placings:
        _print_placings(out, first, helix.mill, question.hand)
    print_block(out, "TABLE AND CUTTER", table_rows(first, helix))
    print_list(out, "Early check, before metal is cut", early_check(first, helix))
    print_list(out, "Cautions", helix_cautions(is_short=question.drive is Drive.SPINDLE))


def asked_rows(helix: Helix) -> list[tuple[str, str]]:
    """Echo the helix, the head, and the lead that equal wheels would cut."""
    question = helix.report.question
    machine = helix.mill.machine_lead(question.drive)
    times = "" if question.drive is Drive.SPINDLE else f" × {figure_text(helix.mill.worm_ratio)}"
    screw = f"table screw {length_text(helix.mill.table_lead)}"
    return [
        ("Helix", f"{question.hand.value}-hand, lead {helix_lead_text(question.lead)}"),
        *_angle_rows(helix),
        ("Head", helix.head.name),
        ("Machine", f"{screw}{times} = {length_text(machine)} with equal wheels"),
    ]


def _aside_text(train: HelixTrain) -> str:
    set_up = set_up_text(train.train, train.idlers)
    return f"{set_up}  {error_words(train.error)}: {'; '.join(train.faults)}"


def _angle_rows(helix: Helix) -> list[tuple[str, str]]:
    angle, diameter = helix.wanted_angle, helix.diameter
    if angle is None or diameter is None:
        return []
    return [("Angle", f"{angle_text(angle)} from the axis at {length_text(diameter)} diameter")]


def train_rows(train: HelixTrain, helix: Helix) -> list[tuple[str, str]]:
    """List everything about one train to mount."""
    pairs = train.train.pairs
    end = "worm shaft" if helix.report.question.drive is Drive.WORM else "spindle"
    rows = [
        ("Train", f"{set_up_text(train.train, train.idlers)}   (driver-driven, table screw first)"),
        ("  screw", f"{pairs[0].driver} T drives"),
    ]
    for number, (pair, following) in enumerate(pairwise(pairs), start=1):
        rows.append((f"  stud {number}", f"{pair.driven} T driven, keyed with {following.driver} T which drives"))
    rows.append((f"  {end}", f"{pairs[-1].driven} T driven"))
    for idler in train.idlers:
        pair = pairs[idler.mesh - 1]
        between = f"between {pair.driver} T and {pair.driven} T"
        rows.append(("  idler", f"{idler.teeth} T {between}, or a size that reaches: turns the hand, not the lead"))
    rows.append(("Cuts", helix_lead_text(train.lead)))
    rows.append(("Proof", _proof(train, helix)))
    rows.append(("Error", error_words(train.error)))
    rows.append(("Goes on", _verdict_text(train)))
    sense = "if the head's own wheels keep the sense; scribe and see, one idler more or less turns it"
    rows.append(("Hand", f"{train.by}, {sense}"))
    return rows


def _proof(train: HelixTrain, helix: Helix) -> str:
    drivers = " × ".join(str(pair.driver) for pair in train.train.pairs)
    driven = " × ".join(str(pair.driven) for pair in train.train.pairs)
    ratio = f"({driven}) / ({drivers})" if len(train.train.pairs) > 1 else f"{driven} / {drivers}"
    machine = helix.mill.machine_lead(helix.report.question.drive)
    return f"driven / drivers: {ratio} × {figure_text(machine.mm)} mm = {figure_text(train.lead.mm)} mm"


def _verdict_text(train: HelixTrain) -> str:
    if train.faults:
        return f"{train.verdict.value}: {'; '.join(train.faults)}"
    rule = f" by the shaft rule with {USUAL_CLEARANCE_TEETH} teeth" if len(train.train.pairs) > 1 else ""
    return f"{train.verdict.value}{rule}. Not checked: reach of the bracket"


def _print_answers(out: Console, helix: Helix) -> None:
    heads = [("Train", "left"), ("Lead cut, mm", "right"), ("Lead cut, in", "right"), ("ppm", "right")]
    if helix.diameter is not None:
        heads.append(("Angle off", "right"))
    table = answers_table(heads)
    wanted = helix.wanted_angle
    for train in helix.report.answers:
        exact = train.error.is_exact
        row = [
            set_up_text(train.train, train.idlers),
            approximate(train.lead.mm, 4),
            approximate(train.lead.inches, 5),
            "exact" if exact else signed(train.error.ppm),
        ]
        angle = helix.angle_of(train)
        if wanted is not None and angle is not None:
            row.append("exact" if exact else arcsec_text(angle - wanted))
        table.add_row(*row)
    out.print()
    out.print("Nearest leads, best of each number of pairs first (+ long, - short)", style="bold")
    print_answers(out, table)
    if helix.diameter is not None:
        out.print("Angle off: + is more from the axis than wanted, as of a lead that is short.")


def _print_placings(out: Console, train: HelixTrain, mill: Mill, hand: Hand) -> None:
    table = answers_table([("Placing, screw first", "left"), ("Goes on", "left")])
    for each, goes_on in every_placing(train.train, mill, hand):
        table.add_row(set_up_text(each.train, each.idlers), (Verdict.FITS if goes_on else Verdict.DOES_NOT_FIT).value)
    out.print()
    out.print("Every placing of these wheels, by the shaft rule", style="bold")
    print_answers(out, table)


def table_rows(train: HelixTrain, helix: Helix) -> list[tuple[str, str]]:
    """List the swing of the table, the cutter, and the index move."""
    angle, hand = helix.angle_of(train), helix.report.question.hand
    rows = []
    if angle is None:
        swing = f"table by the helix angle at the work's diameter (give --diameter), {sense_text(hand)}"
        rows.append(("Swing", f"{swing}; the cutter above the work"))
    else:
        rows.append(("Swing", f"{angle_text(angle)} for the lead really cut, {_swing_text(angle, hand)}"))
    rows.append(("Groove", f"{hand.value}-hand: {lean_text(hand)}"))
    if helix.gear_teeth is not None and helix.diameter is not None:
        virtual = virtual_teeth(helix.gear_teeth, tangent_of_helix(helix.diameter, helix.report.question.lead))
        rows.append(("Pitch dia", length_text(helix.diameter)))
        teeth = f"{approximate(virtual, 1)} teeth (teeth / cos³ of the angle)"
        rows.append(("Cutter", f"for {teeth}: {cutter_text(virtual)}"))
    if helix.dividing is not None:
        rows.append(("Index", _index_text(helix.dividing, train, helix.report.question.drive)))
    return rows


def _swing_text(angle: Angle, hand: Hand) -> str:
    """Say which way the table is swung, or the cutter where the table does not go so far."""
    return f"table {sense_text(hand)}; the cutter above the work" if is_for_the_table(angle) else spindle_text(hand)


def cutter_text(virtual: Fraction) -> str:
    """Name the cutter by its range, then by both numberings.

    Examples
    --------
    >>> cutter_text(Fraction(36))
    'the one for 35 to 54 teeth (No. 3 of a DP set, No. 6 of a module set)'
    """
    try:
        cutter = cutter_for(virtual)
    except ImpossibleSettingError as refusal:
        return refusal.message
    most = f"to {cutter.most} teeth" if cutter.most is not None else "teeth to a rack"
    numbers = f"No. {cutter.dp_number} of a DP set, No. {cutter.module_number} of a module set"
    return f"the one for {cutter.fewest} {most} ({numbers})"


def _index_text(report: DivideReport, train: HelixTrain, drive: Drive) -> str:
    count = report.wanted.denominator
    if drive is Drive.SPINDLE:
        last = train.train.pairs[-1].driven
        if last % count:
            return f"worm out of mesh, so the crank does not index; {last} T on the spindle is no multiple of {count}"
        return (
            f"worm out of mesh: shift the {last} T on the spindle {last // count} teeth in its mesh for each of {count}"
        )
    plain = [each for each in report.answers if each.is_exact and each.method is not Method.DIRECT]
    if not plain:
        return f"no exact plain move for {count} here, and differential is not to be had with a helix"
    return f"{move_text(plain[0].move)} for each of {count}"


def early_check(train: HelixTrain, helix: Helix) -> list[str]:
    """Say what the table must do for the work's turns, and what drivers and driven exchanged would give."""
    lead = train.lead
    part = next((each for each in PARTS_OF_A_TURN if lead.mm * each <= LONGEST_CHECK_MM), PARTS_OF_A_TURN[-1])
    turn = "one whole turn" if part == 1 else f"{part} turn"
    machine = helix.mill.machine_lead(helix.report.question.drive)
    exchanged = Length(machine.mm * machine.mm / lead.mm)
    lines = [f"{length_text(lead * part)} of table travel turns the work {turn}."]
    if exchanged != lead:
        lines.append(
            f"If that takes {approximate((exchanged * part).mm, 2)} mm of table travel, drivers and driven are "
            "exchanged."
        )
    lines.append("Scribe one line and hold it to the mate or a drawing: lead, angle, hand.  Measured: ________")
    return lines


def helix_json(helix: Helix) -> str:
    """Write the answer of ``helix`` as JSON."""
    report = helix.report
    question = report.question
    answer: dict[str, Any] = {
        "asked": {
            **answer_json.asked_lead(question.lead),
            "hand": question.hand.value,
            "drive": question.drive.value,
            "within_ppm": f"{question.within * 1_000_000}",
            "diameter_mm": _figure(helix.diameter.mm) if helix.diameter is not None else None,
            "helix_angle_deg": _angle_json(helix.wanted_angle),
        },
        "head": helix.head.name,
        "machine_lead_mm": f"{helix.mill.machine_lead(question.drive).mm}",
        "answers": [_train_json(each, helix) for each in report.answers],
        "set_aside": [_train_json(each, helix) for each in report.set_aside],
        "nearest": _train_json(report.nearest, helix) if report.nearest else None,
        "gear": _gear_json(helix),
        "index": [answer_json.index_answer(each) for each in helix.dividing.answers] if helix.dividing else None,
    }
    return answer_json.as_text(answer)


def _figure(value: Fraction) -> str:
    """Write a fraction whole while it is a shop figure, else 15 digits of it."""
    return f"{value}" if value.denominator <= 10**9 else significant_text(value, DIGITS)


def _angle_json(angle: Angle | None) -> str | None:
    return None if angle is None else significant_text(angle.degrees, DIGITS)


def _train_json(train: HelixTrain, helix: Helix) -> dict[str, Any]:
    return {
        "pairs": [[pair.driver, pair.driven] for pair in train.train.pairs],
        "idlers": [idler.teeth for idler in train.idlers],
        "idler_meshes": [idler.mesh for idler in train.idlers],
        "cut_lead_mm": f"{train.lead.mm}",
        "error_ppm": answer_json.error_ppm(train.error),
        "exact": train.error.is_exact,
        "table_swing_deg": _angle_json(helix.angle_of(train)),
        "table_is_swung": is_for_the_table(helix.angle_of(train)),
        **swing_json(helix.report.question.hand, "groove"),
        "mounting": {"verdict": train.verdict.value, "reasons": list(train.faults)},
    }


def _gear_json(helix: Helix) -> dict[str, Any] | None:
    if helix.gear_teeth is None or helix.diameter is None:
        return None
    virtual = virtual_teeth(helix.gear_teeth, tangent_of_helix(helix.diameter, helix.report.question.lead))
    return {
        "teeth": helix.gear_teeth,
        "virtual_teeth": significant_text(virtual, DIGITS),
        "cutter": _cutter_json(virtual),
    }


def _cutter_json(virtual: Fraction) -> dict[str, Any] | None:
    try:
        cutter: CutterRange = cutter_for(virtual)
    except ImpossibleSettingError:
        return None
    return cutter._asdict()
