"""The terminal screen of ``train``."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from cli.views.banjo_sketch import banjo_text, set_up_text, stack_rows
from cli.views.cautions import train_cautions
from cli.views.judgement_text import judgement_of, judgement_text
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import (
    LONG_LENGTH,
    accumulated_text,
    approximate,
    error_words,
    lead_text,
    length_text,
    micrometres_text,
    ordinal,
    pitch_line,
    signed,
)
from cli.views.tool_travel_text import travel_text
from cli.views.warmth_text import warmth_row
from gearsets.special_sizes import outside_remark
from solver.quantities.angles import Angle
from solver.quantities.exact_numbers import is_finite_decimal, significant_text, trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import lead_bounds_mm
from solver.quantities.pitches import Pitch, PitchUnit
from solver.trains.changes import changes, handled
from solver.trains.fit_tolerance import FitTolerance
from solver.trains.half_nut import FARTHEST_USEFUL
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.mounting import Mounter, Verdict, keeps_to_pair_places, placings
from solver.trains.train_answer import TrainAnswer, is_pi_lead
from solver.trains.train_order import preference
from solver.trains.train_search import TrainQuestion, TrainReport
from solver.trains.wheels import Train

if TYPE_CHECKING:
    from rich.console import Console

    from gearsets.thread_tables import SeriesThread

#: Carriage travel that a rule or a dial gauge can check. [mm]
CHECK_TRAVEL_MM = 25
#: Title of what makes up for a leadscrew that is not true, or for a lead long or short on purpose.
CORRECTION = "What the wheels have to make up for"
#: Half of the included angle of the forms for which an error of lead is told as pitch diameter.
SIXTY_DEGREES = Angle.of_degrees(30)
#: Units that say nothing of the form.
FORM_UNSAID = (PitchUnit.MILLIMETRE, PitchUnit.INCH, PitchUnit.THREADS_PER_INCH)


def show_trains(
    asked: Pitch,
    thread: SeriesThread | None,
    lathe: Lathe,
    report: TrainReport,
    engaged: Length,
    *,
    tolerance: FitTolerance | None = None,
    placings: bool = False,
    with_warmth: bool = False,
) -> None:
    """Print the answer of ``train``."""
    out = console()
    out.print(facts_table(asked_rows(asked, thread, lathe, report.question)))
    first = next(iter(report.answers), report.nearest)
    if first is None:
        out.print("\nNo train can be made of these wheels.")
        return
    out.print()
    out.print("MOUNT" if report.answers else "NEAREST, not an answer", style="bold")
    rows = first_train_rows(first, lathe, engaged, form_words(asked, thread), tolerance)
    if with_warmth:
        rows.insert([name for name, _ in rows].index("Goes on"), warmth_row(engaged))
    out.print(facts_table(rows))
    if lathe.measured or report.question.lead != asked.lead:
        print_list(out, CORRECTION, correction_lines(asked, lathe, report.question, first))
    if report.question.mounted is not None:
        _print_changes(out, first, report)
    if asked.starts > 1:
        from cli.views.starts_screen import print_starts

        print_starts(out, asked, first, lathe, report.answers)
    if report.answers:
        _print_answers(out, report)
    if placings:
        print_placings(out, first.train, lathe, report.question.hand)
    if report.set_aside:
        print_list(
            out,
            "Set aside: as near as any of as many pairs, or nearer, but known not to fit",
            (
                f"{set_up_text(each.train, each.idlers)}  {error_words(each.error)}: {'; '.join(each.mounting.reasons)}"
                for each in report.set_aside
            ),
        )
    print_list(out, "Early check, before metal is cut", early_check(first, asked))
    print_list(out, "Cautions", train_cautions(first, lathe, reversing=report.question.hand is Hand.LEFT))


def asked_rows(
    asked: Pitch, thread: SeriesThread | None, lathe: Lathe, question: TrainQuestion
) -> list[tuple[str, str]]:
    """Echo what was asked, in both systems of units, and the lathe it is for."""
    name = f"{thread.designation}, " if thread else ""
    rows = [("Thread", f"{name}{pitch_line(asked)}, {question.hand.value}-hand")]
    if remark := outside_remark(thread):
        rows.append(("", remark))
    if asked.starts > 1:
        rows.append(("Pitch", lead_text(asked.pitch)))
    rows.append(("Lead", lead_text(asked.lead)))
    stud = "" if lathe.stud_turns == 1 else f"; stud gear turns {lathe.stud_turns} for one spindle turn"
    rows.append(("Lathe", f"{lathe.name}"))
    rows.append(("Leadscrew", f"{lathe.leadscrew_text}: {lead_text(lathe.leadscrew_lead)}{stud}"))
    if lathe.measured:
        rows.append(("", f"measured {lathe.measured_text}: {signed(lathe.measured * 1_000_000)} ppm"))
    if question.lead != asked.lead:
        rows.append(("Aim", f"{lead_text(question.lead)}, {_allowed_text(asked, question)} on purpose"))
    ppm = trimmed_decimal_text(question.within * 1_000_000, 2)
    rows.append(("Tolerance", f"{ppm} ppm of the lead; plus is a screw too long"))
    return rows


def _allowed_text(asked: Pitch, question: TrainQuestion) -> str:
    aimed, drawn = lead_bounds_mm(question.lead), lead_bounds_mm(asked.lead)
    relative = aimed[0] / drawn[0] - 1
    return f"{signed(relative * 1_000_000)} ppm {'longer' if relative > 0 else 'shorter'} than the drawing"


def form_words(asked: Pitch, thread: SeriesThread | None) -> str:
    """Say for which form the pitch diameter is told; empty when the thread is known to be of another.

    Examples
    --------
    >>> form_words(Pitch(Fraction(20), PitchUnit.THREADS_PER_INCH), None)
    'if the form is 60°'
    >>> from gearsets.designations import read_thread_or_pitch
    >>> form_words(*read_thread_or_pitch("M6")), form_words(*read_thread_or_pitch("2 BA"))
    ('60° form', '')
    >>> form_words(Pitch(Fraction(1, 2), PitchUnit.MODULE), None)
    ''
    """
    if thread is not None:
        from gearsets.thread_forms import form_of

        form = form_of(thread)
        return "60° form" if form and form.half_angle == SIXTY_DEGREES and not form.taper else ""
    return "if the form is 60°" if asked.unit in FORM_UNSAID else ""


def first_train_rows(
    answer: TrainAnswer, lathe: Lathe, engaged: Length, form: str, tolerance: FitTolerance | None = None
) -> list[tuple[str, str]]:
    """List everything about one train to mount; ``form`` is as `form_words` says."""
    return [
        ("Train", f"{set_up_text(answer.train, answer.idlers)}   (driver-driven, spindle side first)"),
        *stack_rows(answer, lathe),
        *figure_rows(answer, lathe, engaged, form, tolerance),
        ("Half-nut", half_nut_text(answer)),
    ]


def figure_rows(
    answer: TrainAnswer, lathe: Lathe, engaged: Length, form: str, tolerance: FitTolerance | None = None
) -> list[tuple[str, str]]:
    """List what is said of one train beside its wheels and the half-nut."""
    rows: list[tuple[str, str]] = []
    if layout := answer.mounting.layout:
        rows.append(("Banjo", banjo_text(layout, answer)))
    if answer.lever:
        rows.append(("Lever", answer.lever))
    rows.append(("Cuts", lead_text(answer.cut_lead)))
    rows.append(("Proof", proof_text(answer, lathe)))
    rows.append(("Error", error_words(answer.error)))
    if lathe.measured:
        rows.append(("", f"with the leadscrew as measured; were it true: {error_words(answer.nominal_error)}"))
    if not answer.error.is_exact:
        rows.append(("", f"{accumulated_text(answer.error, engaged)}; {accumulated_text(answer.error, LONG_LENGTH)}"))
        if form:
            taken = micrometres_text(answer.error.as_pitch_diameter(engaged))
            over = trimmed_decimal_text(engaged.mm, 2)
            rows.append(("", f"takes {taken} of pitch diameter over {over} mm engaged ({form})"))
    judged = judgement_of(answer.error, engaged, tolerance, is_measured=bool(lathe.measured))
    rows.append(("Judgement", judgement_text(judged, answer.error)))
    rows.append(("Goes on", verdict_text(answer)))
    rows.append(("Hand", answer.hand.by))
    rows.append(("Tool goes", travel_text(answer.hand.hand, lathe)))
    return rows


def proof_text(answer: TrainAnswer, lathe: Lathe) -> str:
    """Write the one-line proof: drivers over driven, times the constant, is the lead."""
    drivers = " × ".join(str(pair.driver) for pair in answer.train.pairs)
    driven = " × ".join(str(pair.driven) for pair in answer.train.pairs)
    several = len(answer.train.pairs) > 1
    ratio = f"({drivers}) / ({driven})" if several else f"{drivers} / {driven}"
    lever = f" × {answer.ratio / answer.train.ratio} (gearbox)" if answer.lever else ""
    stud = "" if lathe.stud_turns == 1 else f" × {lathe.stud_turns} (stud gear)"
    screw = _exact_mm(lathe.true_leadscrew_lead)
    return f"{ratio}{lever}{stud} × {screw} mm = {_exact_mm(answer.cut_lead)} mm"


def _exact_mm(length: Length) -> str:
    """Write millimetres with nothing cut: a short decimal, else the fraction."""
    return trimmed_decimal_text(length.mm, 6) if is_finite_decimal(length.mm, 6) else str(length.mm)


def verdict_text(answer: TrainAnswer) -> str:
    """Say whether the train mounts, why not, and what was not checked."""
    mounting = answer.mounting
    parts = [mounting.verdict.value]
    if mounting.reasons:
        parts.append("; ".join(mounting.reasons))
    text = ": ".join(parts)
    if not mounting.reasons:
        text += " by the rules the file allows" if mounting.verdict.value == "fits" else ""
    if mounting.not_checked:
        text += f". Not checked: {'; '.join(mounting.not_checked)}"
    return text


def half_nut_text(answer: TrainAnswer) -> str:
    """Say when the half-nut may be opened."""
    rule = answer.half_nut
    if rule.anywhere:
        return "may be opened and closed on any leadscrew thread"
    distance, threads = length_text(rule.every), f"every {ordinal(rule.threads)} thread of the leadscrew"
    if rule.dial_lines:
        lines = ", ".join(str(line) for line in rule.dial_lines)
        return f"may be closed on dial lines {lines} (0: the one first closed on); agrees every {distance}, {threads}"
    if rule.every > FARTHEST_USEFUL:
        return "KEEP CLOSED: it agrees again only beyond any bed"
    return (
        f"KEEP CLOSED. If it was opened: spindle and wheels still, close it again whole multiples of {distance} from "
        f"where it was opened, {threads}, and only then start"
    )


def _print_answers(out: Console, report: TrainReport) -> None:
    heads = [
        ("Train", "left"),
        ("Lead cut, mm", "right"),
        ("ppm", "right"),
        ("µm in 300 mm", "right"),
        ("Goes on", "left"),
    ]
    table = answers_table(heads)
    for answer in report.answers:
        lever = f", lever {answer.lever}" if answer.lever else ""
        exact = answer.error.is_exact
        over = "" if exact else signed(answer.error.over(LONG_LENGTH).mm * 1000)
        table.add_row(
            f"{set_up_text(answer.train, answer.idlers)}{lever}",
            approximate(answer.cut_lead.mm, 6),
            "exact" if exact else signed(answer.error.ppm),
            over,
            answer.mounting.verdict.value,
        )
    out.print()
    proved = "; no train of any number of pairs is exact" if is_pi_lead(report.question.lead) else ""
    out.print(f"Best of each number of pairs, then others (+ long, - short{proved})", style="bold")
    print_answers(out, table)


def correction_lines(asked: Pitch, lathe: Lathe, question: TrainQuestion, first: TrainAnswer) -> list[str]:
    """Say what the wheels make up for, with which of the box alone, and which train leaves the screw's error in."""
    from solver.trains.near_unity import near_unity
    from solver.trains.train_search import nominally_exact

    allowed = lead_bounds_mm(question.lead)[0] / lead_bounds_mm(asked.lead)[0]
    correction = allowed / (1 + lathe.measured) - 1
    found = near_unity(lathe, correction)
    side = "short" if correction < 0 else "long"
    size = f"{significant_text(abs(correction) * 1_000_000, 3)} ppm"
    wheels = "Reckoned by the nominal leadscrew the wheels" if lathe.measured else "The wheels"
    if not correction:
        return ["What is allowed and what the leadscrew is off cancel: the wheels have nothing to make up for."]
    is_plain = bool(lathe.measured) and first.nominal_error.is_exact
    aim = "the train above leaves it in, being exact by the nominal leadscrew" if is_plain else "the train aims at that"
    lines = [f"{wheels} must come out {size} {side}; {aim}."]
    if found is None:
        lines.append(f"One or two pairs more, of nearly one to one, do not help: none of the box comes near {size}.")
    else:
        left = f"{signed(found.left_over * 1_000_000)} ppm over" if found.left_over else "nothing over"
        lines.append(f"Of the box alone {found.train}, added to a train that is exact without it, is nearest: {left}.")
    plain = nominally_exact(question, lathe)
    if plain is not None and plain.error.relative != first.error.relative:
        simpler = "Simpler and e" if len(plain.train.pairs) < len(first.train.pairs) else "E"
        words = f"{set_up_text(plain.train, plain.idlers)}; by this one {error_words(plain.error)}"
        lines.append(f"{simpler}xact by the nominal leadscrew: {words}.")
    return lines


def _print_changes(out: Console, first: TrainAnswer, report: TrainReport) -> None:
    """Say which wheels change from what is mounted, and name the train that changes fewest."""
    mounted = report.question.mounted or Train(())
    lines = [changes_text(mounted, first.train)]
    kept = report.least_changed
    if kept is not None and handled(changes(mounted, kept.train)) < handled(changes(mounted, first.train)):
        train = set_up_text(kept.train, kept.idlers)
        lines.append(f"Fewest changes within the tolerance: {train}, {error_words(kept.error)}.")
        lines.append(changes_text(mounted, kept.train))
    lines += back_lines(mounted, first.train)
    print_list(out, f"From {mounted}, which is mounted now", lines)


def back_lines(mounted: Train, train: Train) -> list[str]:
    """Say how what was mounted before is put back when the thread is done; nothing where nothing changes."""
    return [f"Afterwards, back to {changes_text(train, mounted)}"] if changes(mounted, train) else []


def changes_text(mounted: Train, train: Train) -> str:
    """Write the wheels that change, place by place.

    Examples
    --------
    >>> from solver.trains.written_trains import read_train
    >>> changes_text(read_train("20-40-50-127"), read_train("20-40-60-127"))
    '20-40-60-127: stud 1, driver 50 T off, 60 T on; other wheels stay.'
    """
    rows = changes(mounted, train)
    if not rows:
        return f"{train}: nothing changes."
    words = []
    for row in rows:
        off = f" {row.off} T off" if row.off else ""
        on = f" {row.on} T on" if row.on else ""
        words.append(f"{row.place}{off}{',' if off and on else ''}{on}")
    stay = "; other wheels stay" if len(rows) < len(train.wheels) else ""
    return f"{train}: {'; '.join(words)}{stay}."


def print_placings(out: Console, train: Train, lathe: Lathe, hand: Hand) -> None:
    """Print every distinct placing of the wheels of one train, judged."""
    drivers = [(pair.wheel_class, pair.driver) for pair in train.pairs]
    driven = [(pair.wheel_class, pair.driven) for pair in train.pairs]
    table = answers_table([("Placing", "left"), ("Goes on", "left"), ("Why not", "left")])
    allowed = [each for each in placings(drivers, driven) if keeps_to_pair_places(each, lathe)]
    mounter = Mounter(lathe, hand)
    judged = [(mounter.mount(each), each) for each in sorted(allowed, key=preference)]
    judged.sort(key=lambda pair: list(Verdict).index(pair[0].verdict))
    for mounting, each in judged:
        table.add_row(set_up_text(each, mounting.idlers), mounting.verdict.value, "; ".join(mounting.reasons))
    out.print()
    out.print("Every placing of these wheels", style="bold")
    print_answers(out, table)


def check_turns(lead: Length) -> int:
    """Choose how many spindle turns make a travel that a rule or a dial gauge can check.

    Examples
    --------
    >>> check_turns(Length.of_mm("1.25")), check_turns(Length.of_mm(6))
    (20, 4)
    """
    turns = max(1, round(CHECK_TRAVEL_MM / lead.mm))
    return turns if turns < 5 else 5 * round(Fraction(turns, 5))


def early_check(answer: TrainAnswer, asked: Pitch) -> list[str]:
    """Say what a few spindle turns must do, and what drivers and driven exchanged would do instead."""
    lead = answer.cut_lead.mm
    turns = check_turns(answer.cut_lead)
    constant = answer.cut_lead.mm / answer.train.ratio
    exchanged = constant / answer.train.ratio
    move = "turn by hand moves" if turns == 1 else "turns by hand move"
    lines = [f"{turns} spindle {move} the carriage {length_text(Length(lead * turns))}."]
    if exchanged != lead:
        lines.append(f"If they move it {approximate(exchanged * turns, 2)} mm, drivers and driven are exchanged.")
    grooves = "" if asked.starts == 1 else f" One start shows a groove every lead; {asked.starts} starts share it."
    lines.append(f"Scribe a light trial cut and measure ten grooves.{grooves}  Measured: ________  Date: ________")
    return lines
