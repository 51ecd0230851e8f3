"""The terminal screen and the JSON of ``instrument``."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, NamedTuple

from cli.views import answer_json
from cli.views.banjo_sketch import set_up_text
from cli.views.cautions import train_cautions
from cli.views.screen import answers_table, console, facts_table, print_answers, print_block, print_list
from cli.views.shop_figures import (
    accumulated_text,
    approximate,
    arcsec_text,
    error_words,
    lead_text,
    length_text,
    pitch_line,
    signed,
)
from cli.views.train_screen import early_check, first_train_rows
from cli.views.warmth_text import ALIKE, STEEL, grows_text, growth_json, warmer_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, PiLength
from solver.quantities.pitches import Pitch, figure_text
from solver.trains.lathe import Lathe
from solver.trains.lead_error import LeadError
from solver.trains.train_search import TrainReport
from solver.trains.warmth import warmth_error, with_warmth
from solver.worms.screw_and_wheel import ScrewAndWheel
from solver.worms.wanted_reading import ScrewChoice, WholeCount

#: Most proposals shown.
MOST_CHOICES = 8


class Reading(NamedTuple):
    """A screw with what is known of its dial and wheel, and the train that cuts it."""

    asked: Pitch
    marks: int | None
    teeth: int | None
    solved: dict[str, WholeCount]
    lathe: Lathe
    report: TrainReport
    travel: Length
    #: How much warmer than 20 °C the screw is used; nothing where that was not asked.
    kelvins: Fraction | None = None

    @property
    def instrument(self) -> ScrewAndWheel:
        """The screw with its dial and wheel; what was not given counts as one, and is not shown."""
        return ScrewAndWheel(self.asked.pitch, self.teeth or 1, self.marks or 1, self.asked.starts)


def reading_text(lead: Lead) -> str:
    """Write a reading in mm and inch.

    Examples
    --------
    >>> reading_text(Length.of_mm("0.01")), reading_text(PiLength(Fraction(1, 100)))
    ('0.01 mm (≈0.00039 in)', '≈0.03142 mm (≈0.00124 in)')
    """
    if isinstance(lead, Length):
        return length_text(lead)
    low, high = lead.bounds()
    return length_text(Length((low.mm + high.mm) / 2))


def show_reading(reading: Reading) -> None:
    """Print what a screw and wheel read, and how it drifts."""
    out = console()
    out.print(facts_table([("Screw", pitch_line(reading.asked)), ("Lead", lead_text(reading.asked.lead))]))
    print_block(out, "READS", reading_rows(reading))
    first = next(iter(reading.report.answers), reading.report.nearest)
    if first is None:
        out.print("\nNo train can be made of these wheels.")
        return
    rows = [("Lathe", reading.lathe.name), *first_train_rows(first, reading.lathe, reading.travel, "")]
    print_block(out, "TRAIN FOR THE SCREW" if reading.report.answers else "NEAREST TRAIN, not an answer", rows)
    print_block(out, f"OVER {approximate(reading.travel.mm, 3)} mm OF TRAVEL", drift_rows(reading))
    print_list(out, "Early check, before metal is cut", early_check(first, reading.asked))
    print_list(out, "Cautions", train_cautions(first, reading.lathe, reversing=False))


def reading_rows(reading: Reading) -> list[tuple[str, str]]:
    """List the readings of mark, tooth and turn, as far as dial and wheel are given."""
    instrument = reading.instrument
    rows = []
    for word, found in reading.solved.items():
        rows.append((word.capitalize(), _solved_text(word, found)))
    if reading.marks is not None:
        rows.append(("One mark", f"{reading_text(instrument.per_mark)}, of {reading.marks} round the dial"))
    if reading.teeth is not None:
        rows.append(("One tooth", reading_text(instrument.per_tooth)))
        turns = figure_text(instrument.screw_turns)
        rows.append(
            (
                "One turn",
                f"{reading_text(instrument.per_wheel_turn)} for the wheel of {reading.teeth}: {turns} of the screw",
            )
        )
    if reading.marks is not None and reading.teeth is not None:
        angle = arcsec_text(instrument.angle_per_mark).removeprefix("+")
        rows.append(("Wheel", f"{angle} for one mark, {figure_text(instrument.marks_per_wheel_turn)} marks a turn"))
    return rows


def _solved_text(word: str, found: WholeCount) -> str:
    if found.is_exact:
        return f"{found.number} {word} give {length_text(found.wanted)} exactly"
    off = signed(found.error * 1_000_000)
    return f"{found.number} {word} come nearest to {length_text(found.wanted)}: {off} ppm off"


def drift_rows(reading: Reading) -> list[tuple[str, str]]:
    """List what the errors of train and leadscrew add up to, apart and together."""
    first = next(iter(reading.report.answers), None)
    if first is None:
        return [("Error", "not told: no train answers"), ("Warmth", _warmth_text(reading))]
    screw = LeadError(reading.lathe.measured, Fraction(0))
    rows = [
        ("Train", _drift_text(first.nominal_error, reading.travel)),
        ("Leadscrew", _drift_text(screw, reading.travel) if screw.relative else "taken as true (--leadscrew-error)"),
    ]
    rows.append(("Warmth", _warmth_text(reading)))
    whole = whole_error(first.error, reading.kelvins)
    if screw.relative or reading.kelvins:
        rows.append(("Together", _drift_text(whole, reading.travel)))
    if reading.marks is not None and not whole.is_exact:
        per_mark = reading.instrument.per_mark
        low, high = (
            (per_mark.mm, per_mark.mm) if isinstance(per_mark, Length) else (each.mm for each in per_mark.bounds())
        )
        marks = whole.over(reading.travel).mm * 2 / (low + high)
        rows.append(("In marks", f"{signed(marks)} of a mark at the end of it"))
    return rows


def whole_error(error: LeadError, kelvins: Fraction | None) -> LeadError:
    """Add the warmth that was asked for to the error of a lead."""
    return with_warmth(error, kelvins) if kelvins else error


def _warmth_text(reading: Reading) -> str:
    if reading.kelvins is None:
        return f"not in it (--warmer): {grows_text(reading.travel)}"
    alone = _drift_text(warmth_error(reading.kelvins), reading.travel)
    return f"{alone}; {warmer_text(reading.kelvins)} ({STEEL}); {ALIKE}"


def _drift_text(error: LeadError, travel: Length) -> str:
    return "exact" if error.is_exact else f"{error_words(error)}: {accumulated_text(error, travel)}"


def show_choices(choices: list[ScrewChoice], wanted: Length, lathe: Lathe, *, is_mark: bool) -> None:
    """Print the screws that give a wanted reading."""
    out = console()
    what = "one mark of the dial" if is_mark else "one turn of the wheel"
    out.print(facts_table([("Wanted", f"{length_text(wanted)} for {what}"), ("Lathe", lathe.name)]))
    table = answers_table(
        [("Marks" if is_mark else "Teeth", "right"), ("Pitch, mm", "right"), ("Per inch", "right"),
         ("Error", "left"), ("Train", "left")]
    )  # fmt: skip
    for choice in choices[:MOST_CHOICES]:
        cut = "not within 1000 ppm"
        if choice.train is not None:
            cut = "exact" if choice.is_cut_exactly else f"{signed(choice.train.error.ppm)} ppm"
        table.add_row(
            str(choice.number),
            approximate(choice.pitch.mm, 5),
            approximate(1 / choice.pitch.inches, 3),
            cut,
            set_up_text(choice.train.train, choice.train.idlers) if choice.train is not None else "-",
        )
    out.print()
    out.print("SCREWS THAT GIVE IT, those this lathe cuts exactly first (trains of one or two pairs)", style="bold")
    print_answers(out, table)
    if len(choices) > MOST_CHOICES:
        out.print(f"{len(choices) - MOST_CHOICES} more are in --json.")


def reading_json(reading: Reading) -> str:
    """Write the readings as JSON; of a pi screw each is given by its multiple of pi."""
    instrument = reading.instrument
    first = next(iter(reading.report.answers), None)
    whole = first.error if first else None
    warm = whole_error(whole, reading.kelvins) if whole and reading.kelvins else None
    answer: dict[str, Any] = {
        "asked": {"written": str(reading.asked), "marks": reading.marks, "teeth": reading.teeth},
        "solved": {
            word: {"number": found.number, "reading_mm": f"{found.reading.mm}", "exact": found.is_exact}
            for word, found in reading.solved.items()
        },
        "per_mark": _lead_json(instrument.per_mark) if reading.marks else None,
        "per_tooth": _lead_json(instrument.per_tooth) if reading.teeth else None,
        "per_wheel_turn": _lead_json(instrument.per_wheel_turn) if reading.teeth else None,
        "screw_turns_per_wheel_turn": f"{instrument.screw_turns}" if reading.teeth else None,
        "wheel_arcsec_per_mark": f"{instrument.angle_per_mark.arcsec}" if reading.marks and reading.teeth else None,
        "lathe": reading.lathe.name,
        "answers": [answer_json.train_answer(each) for each in reading.report.answers],
        "travel_mm": f"{reading.travel.mm}",
        "leadscrew_error_ppm": f"{reading.lathe.measured * 1_000_000}",
        "error_ppm": answer_json.error_ppm(whole) if whole else None,
        "error_over_travel_um": _drift_json(whole, reading.travel),
        "warmth": {
            **growth_json(reading.travel),
            "warmer_k": None if reading.kelvins is None else f"{reading.kelvins}",
            "error_ppm": f"{warmth_error(reading.kelvins).ppm}" if reading.kelvins else None,
            "with_error_ppm": answer_json.error_ppm(warm) if warm else None,
            "with_error_over_travel_um": _drift_json(warm, reading.travel),
        },
    }
    return answer_json.as_text(answer)


def _drift_json(error: LeadError | None, travel: Length) -> str | None:
    if error is None:
        return None
    return answer_json.error_ppm(LeadError(error.over(travel).mm / 1000, error.bound))


def _lead_json(lead: Lead) -> dict[str, Any]:
    return {
        "mm": f"{lead.mm_per_pi if isinstance(lead, PiLength) else lead.mm}",
        "pi_multiple": isinstance(lead, PiLength),
    }


def choices_json(choices: list[ScrewChoice], wanted: Length, lathe: Lathe, *, is_mark: bool) -> str:
    """Write the proposals as JSON."""
    return answer_json.as_text(
        {
            "asked": {"per_mark_mm" if is_mark else "per_turn_mm": f"{wanted.mm}"},
            "lathe": lathe.name,
            "choices": [
                {
                    "marks" if is_mark else "teeth": each.number,
                    "pitch_mm": f"{each.pitch.mm}",
                    "cut_exactly": each.is_cut_exactly,
                    "train": answer_json.train_answer(each.train) if each.train else None,
                }
                for each in choices
            ],
        }
    )
