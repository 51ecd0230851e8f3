"""The terminal screen and the JSON of ``identify``."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cli.views import answer_json
from cli.views.cautions import DEFER
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import approximate, lead_text, length_text, micrometres_text, signed
from gearsets.thread_tables import SeriesThread
from solver.quantities.exact_numbers import significant_text, trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import lead_bounds_mm
from solver.quantities.written_measurements import CLOSEST_SETTING, Measurement
from solver.trains.identify import Identification, Match

Threads = tuple[tuple[SeriesThread, ...], tuple[SeriesThread, ...]]

#: What each kind of search went through.
KIND_WORDS = {
    "all": "threads, racks and worms",
    "thread": "threads (--kind thread)",
    "rack": "racks, worms and gears (--kind rack)",
}
#: Most series or lists named in one cell, and most names in one line.
MOST_PLACES = 2
MOST_NAMED = 6
#: Most threads listed by diameter.
MOST_THREADS = 8
MOST_NEAR_THREADS = 4


def show_identification(
    found: Identification,
    again: Sequence[Identification],
    kind: str,
    major: Measurement | None,
    threads: Threads,
    answers: int,
    *,
    is_told: bool,
) -> None:
    """Print the pitches that fit, the nearest that do not, and what it would take to tell them apart."""
    out = console()
    measured = found.measured
    over = f" over {measured.pitches} pitches" if measured.pitches > 1 else ", taken as one pitch"
    rows = [
        ("Measured", f"{length_text(measured.length)}{over}"),
        ("One pitch", lead_text(measured.pitch)),
        ("Trusted to", _trust_text(measured, is_told=is_told)),
        ("Among", f"{len(found.matches)} pitches of {KIND_WORDS[kind]}"),
        ("Finding", finding_text(found)),
    ]
    telling = telling_text(found)
    if telling:
        rows.append(("To tell", telling))
    for other in again:
        count = other.measured.pitches
        rows.append(("Miscounted?", f"over {count} pitches it would be {names_text(other.fitting)}"))
    out.print(facts_table(rows))
    out.print()
    _print_matches(found, answers)
    out.print("Misfit = measured minus standard, over the measured length: + is a pitch larger than the standard one.")
    out.print("Tell over = pitches to measure over, with the same care, to tell it from the first of the list.")
    if major is not None:
        _print_threads(major, threads)
    print_list(out, "Before cutting", _advice(found))


def _print_matches(found: Identification, answers: int) -> None:
    listed = _listed(found, answers)
    heads = (("Pitch", "left"), ("mm", "right"), ("Misfit", "right"), ("%", "right"), ("Fits", "left"))
    table = answers_table((*heads, ("Tell over", "right"), ("Found in", "left")))
    for match in listed:
        table.add_row(
            " = ".join(match.known.names),
            _pitch_mm(match),
            "exact" if match.relative.is_exact else _signed_micrometres(match.misfit),
            "" if match.relative.is_exact else signed(match.relative.relative * 100),
            "fits" if match.fits else "no",
            "" if match.tell_over is None else f"{match.tell_over}",
            _places_text(match.known.found_in),
        )
    print_answers(console(), table)
    if len(found.fitting) > len(listed):
        more = len(found.fitting) - len(listed)
        verb = "fits" if more == 1 else "fit"
        console().print(f"{more} more {verb}; --answers {len(found.fitting)} lists all that fit.")


def _listed(found: Identification, answers: int) -> tuple[Match, ...]:
    return found.matches[:answers]


def _pitch_mm(match: Match) -> str:
    low, high = lead_bounds_mm(match.known.pitch)
    return approximate(low, 4) if low == high else f"≈{trimmed_decimal_text((low + high) / 2, 4)}"


def _signed_micrometres(length: Length) -> str:
    return f"{'+' if length.mm > 0 else ''}{micrometres_text(length)}"


def _places_text(places: Sequence[str]) -> str:
    more = len(places) - MOST_PLACES
    return ", ".join(places[:MOST_PLACES]) + (f", {more} more" if more > 0 else "")


def _trust_text(measured: Measurement, *, is_told: bool) -> str:
    inches = significant_text(measured.give_or_take.inches, 3)
    text = f"give or take {micrometres_text(measured.give_or_take)} ({inches} in) over the measured length"
    if is_told:
        return f"{text}, as told"
    if measured.give_or_take == CLOSEST_SETTING:
        return f"{text}: as close as edges are set on a crest, whatever the digits; --give-or-take says otherwise"
    return f"{text}: half of the last digit written; --give-or-take says otherwise"


def names_text(matches: Sequence[Match]) -> str:
    """Name pitches in one line, the rest by their number.

    Examples
    --------
    >>> names_text([])
    ''
    """
    names = [match.known.names[0] for match in matches]
    more = len(names) - MOST_NAMED
    return ", ".join(names[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


def finding_text(found: Identification) -> str:
    """Say what fits, and that pitches which fit alike are not told apart."""
    fitting = found.fitting
    if not fitting:
        nearest = found.matches[0]
        return f"no pitch of the lists fits; {nearest.known.names[0]} is nearest and misses by {_miss(nearest)}"
    if len(fitting) == 1:
        alike = fitting[0].known.names[1:]
        same = f" (the same pitch as {' and '.join(alike)})" if alike else ""
        return f"{fitting[0].known.names[0]}{same} alone fits; every other of the lists is ruled out"
    return f"{len(fitting)} pitches fit and cannot be told apart by this: {names_text(fitting)}"


def _miss(match: Match) -> str:
    return micrometres_text(Length(abs(match.misfit.mm)))


def telling_text(found: Identification) -> str:
    """Say over how many pitches the best two that fit, and all that fit, would have to be measured."""
    others = found.fitting[1:]
    if not others:
        return ""
    first, second = found.fitting[0], others[0]
    text = _over_text(f"{first.known.names[0]} from {second.known.names[0]}", first, second.tell_over)
    counts = [match.tell_over for match in others]
    most = max((count for count in counts if count is not None), default=None)
    if most is not None and most != second.tell_over:
        text += f"; {_over_text('from all that fit', first, most)}"
    return f"{text}, with the same care"


def _over_text(what: str, best: Match, count: int | None) -> str:
    if count is None:
        return f"{what}: no length tells them apart"
    low, high = lead_bounds_mm(best.known.pitch)
    return f"{what}: over {count} pitches (about {significant_text((low + high) / 2 * count, 3)} mm) or more"


def _print_threads(major: Measurement, threads: Threads) -> None:
    both, diameter_alone = threads
    size = f"{length_text(major.length)} give or take {micrometres_text(major.give_or_take)}"
    if both:
        more = len(both) - MOST_THREADS
        lines = [_thread_line(thread, major) for thread in both[:MOST_THREADS]]
        print_list(console(), f"Threads of this pitch and outside diameter, {size}", lines)
        if more > 0:
            console().print(f"and {more} more")
        return
    lines = ["no thread of the tables has this diameter and a pitch that fits"]
    lines += [f"by diameter alone: {_thread_line(thread, major)}" for thread in diameter_alone[:MOST_NEAR_THREADS]]
    print_list(console(), f"Outside diameter {size}", lines)


def _thread_line(thread: SeriesThread, major: Measurement) -> str:
    assert thread.diameter is not None  # noqa: S101 - only threads with a diameter are looked through.
    below = thread.diameter - major.length
    side = "below" if below.mm >= 0 else "above"
    off = "at its nominal diameter" if below.mm == 0 else f"{micrometres_text(Length(abs(below.mm)))} {side} nominal"
    return f"{thread.designation}, {thread.pitch}: {off}"


def _advice(found: Identification) -> list[str]:
    lines = ["Count gaps, not crests: six crests are five pitches. A pitch is measured; count the starts for the lead."]
    if any("module" in name or "DP" in name for match in found.fitting for name in match.known.names):
        lines.append("A rack is measured along its pitch line, a worm along its axis; a helical tooth has two pitches.")
    lines.append("Try a thread gauge or a mating part, and a scratch pass, before metal is cut. " + DEFER)
    return lines


def identification_json(
    found: Identification,
    again: Sequence[Identification],
    kind: str,
    major: Measurement | None,
    threads: Threads,
    answers: int,
) -> str:
    """Write the identification as JSON; ``matches`` are those listed, ``fits`` counts all that fit."""
    measured = found.measured
    fitting = found.fitting
    second = fitting[1] if len(fitting) > 1 else None
    return answer_json.as_text(
        {
            "measured": _measured(measured),
            "kind": kind,
            "looked_through": len(found.matches),
            "fits": len(fitting),
            "matches": [_match(match) for match in _listed(found, answers)],
            "tell_best_two_over_pitches": second.tell_over if second else None,
            "miscounted": [
                {"pitches": other.measured.pitches, "fits": [_match(match) for match in other.fitting]}
                for other in again
            ],
            "major": None if major is None else _measured(major),
            "threads": [thread.designation for thread in threads[0]],
            "threads_by_diameter_alone": [thread.designation for thread in threads[1]],
        }
    )


def _measured(measured: Measurement) -> dict[str, object]:
    return {
        "length_mm": f"{measured.length.mm}",
        "pitches": measured.pitches,
        "pitch_mm": f"{measured.pitch.mm}",
        "give_or_take_mm": f"{measured.give_or_take.mm}",
    }


def _match(match: Match) -> dict[str, object]:
    is_plain = match.relative.bound == 0

    def number(value: Fraction) -> str:
        return f"{value}" if is_plain else significant_text(value, answer_json.PI_DIGITS)

    return {
        "names": list(match.known.names),
        "pitch": answer_json.asked_lead(match.known.pitch),
        "misfit_mm": number(match.misfit.mm),
        "misfit_ppm": number(match.relative.ppm),
        "fits": match.fits,
        "tell_from_best_over_pitches": match.tell_over,
        "found_in": list(match.known.found_in),
    }
