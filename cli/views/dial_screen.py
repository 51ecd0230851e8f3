"""The terminal screen and the JSON of ``dial``."""

from __future__ import annotations

from fractions import Fraction
from functools import partial
from typing import TYPE_CHECKING, Any

from cli.index_moves import divide_command
from cli.views import answer_json
from cli.views.cautions import PLAY, head_cautions
from cli.views.dial_figures import DialAnswer, MarkRow, VernierAnswer
from cli.views.divide_screen import SIGNS_OF_A_MARK
from cli.views.index_lines import ONE_MOTION, index_json, print_choice, print_index_moves, setting_text
from cli.views.index_settings import choice_json
from cli.views.method_tables import counted
from cli.views.part_figures import length_json, middle, reading_json, reading_text, size_text
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list, print_rows
from cli.views.shop_figures import approximate, arcsec_text, lead_text, micrometres_text
from cli.views.table_dial_screen import by_dial_json, dial_text, worst_text
from solver.dials.graduations import Graduation, blank_diameter, mark_spacing
from solver.dials.mark_pattern import MarkLength, MarkPattern
from solver.dials.screw_dials import ScrewDial
from solver.dividing.positions import Position
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.lengths import Length

if TYPE_CHECKING:
    from rich.console import Console

    from solver.dividing.table_dial import DialTable

#: Drawn beside each row, so that the length is seen as well as read.
STROKES = {MarkLength.LONG: "-----", MarkLength.MEDIUM: "---", MarkLength.SHORT: "-"}


def unit_text(length: Length, *, in_inches: bool) -> str:
    """Write a small length in one unit.

    Examples
    --------
    >>> unit_text(Length.of_inches("1/1000"), in_inches=True), unit_text(Length.of_mm("1/3"), in_inches=False)
    ('0.001 in', '≈0.33333 mm')
    """
    return f"{approximate(length.inches, 6)} in" if in_inches else f"{approximate(length.mm, 5)} mm"


def show_dial(answer: DialAnswer) -> None:
    """Print the answer of ``dial``."""
    out = console()
    best = answer.report.answers[0]
    out.print(facts_table(dial_rows(answer, best)))
    if not best.is_exact:
        _print_nearest(out, answer)
    print_index_moves(out, answer.moves, "mark", with_marks=answer.rows is None)
    out.print(f"On a lathe without a head: halfnut divide {best.marks} --with wheel")
    if answer.vernier is not None:
        _print_vernier(out, answer, answer.vernier, best)
    if answer.rows is not None:
        _print_rows(out, answer, answer.rows, best)
    print_list(out, "Early check, before a mark is cut", dial_checks(answer, best))
    cautions = head_cautions(answer.moves.head, answer.moves.best)
    print_list(out, "Cautions", (PLAY, *cautions) if answer.travel else cautions)


def dial_rows(answer: DialAnswer, best: Graduation) -> list[tuple[str, str]]:
    """List what the dial reads, its marks, their pattern and their numbers."""

    def unit(length: Length) -> str:
        return unit_text(length, in_inches=answer.in_inches)

    apart = Angle(Fraction(1, best.marks))
    rows = [
        ("Screw", lead_text(best.lead)),
        ("Each mark reads", size_of_mark(best.wanted)),
        ("Proof", f"{unit(best.lead)} a turn / {unit(best.wanted)} = {_marks(answer.report.exact_marks)}"),
        ("Dial", f"{best.marks} marks, {'exact' if best.is_exact else 'not exact: see the error below'}"),
        ("Mark to mark", f"{approximate(apart.degrees, 5)}° = {sexagesimal_text(apart, 1)}"),
        ("Pattern", pattern_text(answer.pattern)),
    ]
    if answer.pattern.long_every <= best.marks:
        rows.append(("Numbers", _numbers(answer, best)))
    if answer.diameter is not None:
        space = middle(mark_spacing(best.marks, answer.diameter))
        rows.append(("Space of marks", f"{size_text(space)} on a dial of {size_text(answer.diameter)}"))
    if answer.spacing is not None:
        blank = blank_diameter(best.marks, answer.spacing)
        rows.append(("Blank", f"{size_text(blank)} across, for marks {size_text(answer.spacing)} apart"))
    if answer.travel is not None:
        reading = ScrewDial(best.lead, best.marks).read(answer.travel)
        rows.append(("Travel", f"{size_text(answer.travel)} = {reading_text(reading)}"))
    return rows


def _marks(exact_marks: Fraction) -> str:
    return f"{approximate(exact_marks, 4)} marks"


def size_of_mark(length: Length) -> str:
    """Write what a mark reads in both units, fine enough for any dial.

    Examples
    --------
    >>> size_of_mark(Length.of_mm("0.02"))
    '0.02 mm (≈0.000787 in)'
    """
    return f"{approximate(length.mm, 5)} mm ({approximate(length.inches, 6)} in)"


def pattern_text(pattern: MarkPattern) -> str:
    """Say which marks are long and medium, and how many there are of each.

    Examples
    --------
    >>> pattern_text(MarkPattern(125, 10, 5))
    'long every 10, medium every 5: 13 long, 12 medium, 100 short; the last group has 5'
    """
    counts = pattern.counts()
    medium = f", medium every {pattern.medium_every}" if pattern.medium_every else ""
    text = f"long every {pattern.long_every}{medium}: " + ", ".join(
        f"{counts[length]} {length.value}" for length in MarkLength if counts[length]
    )
    return f"{text}; the last group has {pattern.left_over}" if pattern.left_over else text


def mark_label(answer: DialAnswer, best: Graduation, number: int) -> str:
    """Write the number that belongs to a mark, in the unit the dial speaks."""
    reading = best.wanted * number
    return approximate(reading.inches if answer.in_inches else reading.mm, 5)


def _numbers(answer: DialAnswer, best: Graduation) -> str:
    every = answer.pattern.long_every
    last = (best.marks - 1) // every * every
    shown = [mark_label(answer, best, number) for number in range(0, min(last, 2 * every) + 1, every)]
    tail = f" ... {mark_label(answer, best, last)}" if last > 2 * every else ""
    return f"{', '.join(shown)}{tail} {'in' if answer.in_inches else 'mm'}, at the long marks"


def _print_nearest(out: Console, answer: DialAnswer) -> None:
    out.print()
    out.print("NEAREST DIALS, none is exact", style="bold")
    heads, rows = nearest_dials(answer)
    print_rows(out, heads, rows)
    out.print(DIAL_SIGNS)
    if whole := whole_readings_text(answer):
        out.print(whole)


#: What the sign of a dial's error means.
DIAL_SIGNS = "+ the slide goes farther than the dial says; - it goes less far."


def nearest_dials(answer: DialAnswer) -> tuple[list[tuple[str, str]], list[list[str]]]:
    """List the dials of whole marks that come nearest: heads and rows."""
    unit = Length.of_inches(1) if answer.in_inches else Length.of_mm(25)
    name = "1 in" if answer.in_inches else "25 mm"
    heads = [
        ("Marks", "right"), ("A mark is really", "left"), ("Off in a turn", "right"), (f"Off in {name}", "right"),
    ]  # fmt: skip
    rows = [
        [str(each.marks), size_of_mark(each.per_mark), _signed(each.error_per_turn), _signed(each.error_over(unit))]
        for each in answer.report.answers
    ]
    return heads, rows


def whole_readings_text(answer: DialAnswer) -> str:
    """Name readings near the one asked for that do come out whole; empty where none is known."""
    if not answer.others:
        return ""
    whole = ", ".join(
        f"{unit_text(each, in_inches=answer.in_inches)} ({answer.report.answers[0].lead / each} marks)"
        for each in answer.others
    )
    return f"Readings that do come out whole: {whole}."


def _signed(length: Length) -> str:
    text = micrometres_text(length)
    return f"+{text}" if length.mm > 0 else text


def _print_vernier(out: Console, answer: DialAnswer, found: VernierAnswer, best: Graduation) -> None:
    out.print()
    out.print(f"VERNIER, {vernier_span(found)}", style="bold")
    out.print(facts_table(vernier_rows(answer, found, best)))
    if found.table is not None:
        print_list(out, "Lines of the vernier, each from its zero", vernier_lines(found.table))
        return
    first = found.choice.best
    if first is not None and first.method not in ONE_MOTION:
        out.print()
        asked = f"--angle '{found.vernier.step / best.marks} turn'"
        print_choice(out, found.choice, see=partial(divide_command, asked, answer.moves.head_word))


def vernier_lines(table: DialTable) -> list[str]:
    """Say where handle and dial of a table stand for each line of a vernier, from its zero."""
    return [
        f"line {row.number}: {counted(row.turns, 'turn')}, dial at {dial_text(row)}"
        + (f", {arcsec_text(row.error)}" if row.error.turns else "")
        for row in table.rows
    ]


def vernier_span(found: VernierAnswer) -> str:
    """Say how many divisions lie over how many marks."""
    return f"{found.vernier.divisions} divisions over {found.vernier.spans} marks of the dial"


def vernier_rows(answer: DialAnswer, found: VernierAnswer, best: Graduation) -> list[tuple[str, str]]:
    """List what the vernier reads, how it is cut and numbered, and how to read it."""
    vernier = found.vernier
    least = best.wanted * vernier.least_count
    angle = Angle(vernier.step / best.marks)
    rows = [
        ("Reads", f"{size_of_mark(least)}, 1/{vernier.divisions} of a mark"),
        ("Each division", f"{angle.turns} turn = {sexagesimal_text(angle, 1)}, {vernier.divisions + 1} lines in all"),
    ]
    first = found.choice.best
    if found.table is not None:
        rows.append(("On this table", f"by its dial, worst line {worst_text(found.table)}: below"))
    elif first is None:
        rows.append(("On this head", "no move is small enough"))
    elif first.method in ONE_MOTION:
        off = "exact" if first.is_exact else f"{arcsec_text(first.error_per_move)} each"
        plate = f", plate {first.plate}" if first.plate else ""
        rows.append(("On this head", f"{setting_text(first)}{plate}, {off}"))
    else:
        rows.append(("On this head", f"{first.method.value}, below"))
    way = "against the numbers of the dial" if vernier.reads_backward else "the way of the numbers of the dial"
    rows.append(("Numbered", f"0 to {vernier.divisions}, {way}"))
    passed, line = min(7, best.marks - 1), min(3, vernier.divisions - 1)
    shown = unit_text(best.wanted * vernier.reading(passed, line), in_inches=answer.in_inches)
    rows.append(("To read", f"zero just past mark {passed} and line {line} meeting a mark: {shown}"))
    return rows


def _print_rows(out: Console, answer: DialAnswer, rows: tuple[MarkRow, ...], best: Graduation) -> None:
    circle, by_dial = rows[0].circle, answer.moves.table is not None
    out.print()
    where = "any circle" if circle == 1 else f"on the {circle} circle"
    begin = "by the dial, each from zero" if by_dial else f"{where}, each from zero; hole 0 is where you begin"
    out.print(f"MARKS, {begin}", style="bold")
    table = answers_table(
        [("Mark", "right"), ("Line", "left"), ("", "left"), ("Number", "right"), ("Work at", "right"),
         ("Turns", "right"), ("Dial at" if by_dial else "Hole", "right"), ("Error", "right"), ("Done", "left")]
    )  # fmt: skip
    for row in rows:
        place = row.place
        table.add_row(
            str(place.number),
            row.length.value,
            STROKES[row.length],
            mark_label(answer, best, place.number) if row.length is MarkLength.LONG else "",
            sexagesimal_text(place.reached),
            str(place.turns),
            str(place.hole) if isinstance(place, Position) else dial_text(place),
            arcsec_text(place.error),
            "[ ]",
        )
    print_answers(out, table)
    out.print(SIGNS_OF_A_MARK)
    if answer.moves.best is not None and answer.moves.best.method not in ONE_MOTION:
        out.print("These are holes of one circle with the plate held, each mark within half a hole of its place;")
        out.print(f"the {answer.moves.best.method.value} setting above is another way, and the two do not mix.")


def dial_checks(answer: DialAnswer, best: Graduation) -> list[str]:
    """Say what to see before a mark is cut."""
    lines = []
    if answer.moves.head.has_worm:
        lines.append("Walk the whole round with a pencil first: a mark left out or cut twice cannot be mended.")
    turns = 10
    lines.append(
        f"Prove the screw: {turns} turns must move the slide {size_text(best.lead * turns)}, over a dial gauge or rule."
    )
    lines.append(f"Tick every mark after it is cut, and stop at each long one to count: {best.marks} in all.")
    return lines


def dial_json(answer: DialAnswer) -> str:
    """Write the answer of ``dial`` as JSON."""
    best = answer.report.answers[0]
    found: dict[str, Any] = {
        "asked": {"lead_mm": length_json(best.lead), "reads_mm": length_json(best.wanted)},
        "exact_marks": f"{answer.report.exact_marks}",
        "answers": [
            {
                "marks": each.marks,
                "per_mark_mm": length_json(each.per_mark),
                "error_per_mark_mm": length_json(each.error_per_mark),
                "error_per_turn_mm": length_json(each.error_per_turn),
                "exact": each.is_exact,
            }
            for each in answer.report.answers
        ],
        "whole_readings_mm": [length_json(each) for each in answer.others],
        "pattern": {"long_every": answer.pattern.long_every, "medium_every": answer.pattern.medium_every},
        "index": index_json(answer.moves),
    }
    if answer.diameter is not None:
        found["mark_spacing_mm"] = length_json(middle(mark_spacing(best.marks, answer.diameter)))
    if answer.spacing is not None:
        found["blank_diameter_mm"] = length_json(blank_diameter(best.marks, answer.spacing))
    if answer.travel is not None:
        found["travel"] = {"mm": length_json(answer.travel)} | reading_json(
            ScrewDial(best.lead, best.marks).read(answer.travel)
        )
    if answer.vernier is not None:
        vernier, choice, by_dial = answer.vernier
        found["vernier"] = {
            "divisions": vernier.divisions,
            "spans": vernier.spans,
            "least_count_mm": length_json(best.wanted * vernier.least_count),
            "division_turns": f"{vernier.step / best.marks}",
            **({"answers": [], "methods": []} if by_dial else choice_json(choice, every=False)),
            "by_dial": None if by_dial is None else by_dial_json(by_dial),
        }
    if answer.rows is not None:
        found["rows"] = [
            {
                "mark": row.place.number,
                "length": row.length.value,
                "circle": row.circle,
                "turns": row.place.turns,
                "hole": row.place.hole if isinstance(row.place, Position) else None,
                "dial_arcsec": None if isinstance(row.place, Position) else f"{row.place.reading.arcsec}",
                "error_arcsec": f"{row.place.error.arcsec}",
            }
            for row in answer.rows
        ]
    return answer_json.as_text(found)
