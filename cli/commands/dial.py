"""``dial``: the marks of a dial for a screw, how to cut them on the head, and the vernier beside them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import click

from cli.index_moves import IndexMoves, index_moves, leaving
from cli.part_options import MOST_MARKS
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import chosen_head, force_option, head_option, json_option, remark_assumed
from cli.sizes import optional_size
from cli.views.dial_figures import DialAnswer, MarkRow, VernierAnswer
from gearsets.wheel_boxes import read_screw_lead
from solver.dials.graduations import Graduation, GraduationReport, graduate, whole_readings
from solver.dials.mark_pattern import MarkPattern, usual_pattern
from solver.dials.verniers import Vernier, VernierKind
from solver.dividing.choosing import choose
from solver.dividing.heads import Head
from solver.dividing.moves import Method
from solver.dividing.positions import best_circle, positions
from solver.dividing.table_dial import dial_alone
from solver.quantities.exact_numbers import is_finite_decimal
from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError

#: A thousandth of the unit that a dial reads in.
THOUSANDTHS = {True: Length.of_inches("1/1000"), False: Length.of_mm("1/1000")}


@click.command("dial", short_help="Marks of a dial for a screw, and verniers.")
@click.option("--screw", "screw_text", metavar="LEAD", required=True, help="Lead of the screw: 8 tpi, 4 mm.")
@click.option("--reads", "reads_text", metavar="LENGTH", help="What one mark reads: 0.001 in, 0.02 mm.")
@click.option("--marks", type=click.IntRange(2, MOST_MARKS), metavar="N", help="Marks round the dial.")
@click.option("--travel", "travel_text", metavar="LENGTH", help="A distance, to be told in turns and marks.")
@click.option("--diameter", "diameter_text", metavar="LENGTH", help="Of the dial: gives the space between marks.")
@click.option("--spacing", "spacing_text", metavar="LENGTH", help="Space between marks: gives the diameter.")
@click.option("--long", "long_every", type=click.IntRange(1, MOST_MARKS), metavar="N", help="A long mark every N.")
@click.option("--medium", "medium_every", type=click.IntRange(0, MOST_MARKS), metavar="N", help="A medium one every N.")
@click.option("--vernier", "parts", type=click.IntRange(2, 200), metavar="N", help="A vernier of N divisions.")
@click.option(
    "--vernier-kind",
    "kind_word",
    type=click.Choice([kind.value for kind in VernierKind]),
    help="Over N-1 marks of the dial, 2N-1, or N+1 numbered backward. [default: short]",
)
@click.option("--positions", "with_rows", is_flag=True, help="List every mark: its length, its turns and hole.")
@head_option
@sheet_option
@force_option
@json_option
def command(
    *,
    screw_text: str,
    reads_text: str | None,
    marks: int | None,
    travel_text: str | None,
    diameter_text: str | None,
    spacing_text: str | None,
    long_every: int | None,
    medium_every: int | None,
    parts: int | None,
    kind_word: str | None,
    with_rows: bool,
    head_word: str | None,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
) -> int:
    """Find the marks of a dial for a screw and what each reads, and how to cut them on your head.

    With --reads and --marks both it tells how wrong such a dial reads.

    \b
    Example:
      halfnut dial --screw "8 tpi" --reads "0.001 in" --head head-40-two-faced
      halfnut dial --screw "10 tpi" --reads "0.02 mm" --diameter 40mm --vernier 10
      halfnut dial --screw "1 mm" --marks 20 --travel "1 in"
    """
    refuse_sheet(sheet_to, force=force)
    lead = read_screw_lead(screw_text)
    report = _report(lead, optional_size(reads_text, "a reading"), marks)
    best = report.answers[0]
    in_inches = speaks_inches(reads_text) if reads_text else _numbered_in_inches(screw_text, best.wanted)
    head, assumed = chosen_head(head_word)
    moves = index_moves(head, best.marks, head_word)
    remark_assumed("head", head.name, assumed=assumed)
    pattern = _pattern(best.marks, long_every, medium_every)
    answer = DialAnswer(
        report=report,
        in_inches=in_inches,
        others=() if best.is_exact else whole_readings(lead, best.wanted, unit=THOUSANDTHS[in_inches]),
        pattern=pattern,
        moves=moves,
        vernier=_vernier(head, best, parts, kind_word),
        diameter=optional_size(diameter_text, "a diameter"),
        spacing=optional_size(spacing_text, "a space"),
        travel=optional_size(travel_text, "a travel"),
        rows=mark_rows(moves, pattern) if with_rows else None,
    )
    if sheet_to:
        from cli.views.sheets.dial_cards import dial_card

        write_card(dial_card(answer), sheet_to)
    from cli.views import dial_screen

    if as_json:
        click.echo(dial_screen.dial_json(answer))
    else:
        dial_screen.show_dial(answer)
    return _leaving(answer)


def speaks_inches(text: str) -> bool:
    """Say whether a length or a lead is written in inches or threads per inch.

    Examples
    --------
    >>> speaks_inches("0.001 in"), speaks_inches("8 tpi"), speaks_inches("0.02 mm")
    (True, True, False)
    """
    reader = FigureReader(text)
    reader.number()
    return not reader.word().lower().startswith("m")


def _numbered_in_inches(screw_text: str, mark: Length) -> bool:
    """Choose the unit of the numbers: that of the screw, unless a mark comes out in decimals of the other alone."""
    of_screw = speaks_inches(screw_text)
    own, other = (mark.inches, mark.mm) if of_screw else (mark.mm, mark.inches)
    return of_screw != (not is_finite_decimal(own, 5) and is_finite_decimal(other, 5))


def _report(lead: Length, wanted: Length | None, marks: int | None) -> GraduationReport:
    if wanted is not None and marks is not None:
        return GraduationReport(lead / wanted, (Graduation(lead, marks, wanted),))
    if wanted is not None:
        return graduate(lead, wanted)
    if marks is not None:
        return GraduationReport(Fraction(marks), (Graduation(lead, marks, lead * Fraction(1, marks)),))
    raise click.UsageError("Give --reads, what one mark is to read, or --marks, how many there are.")


def _pattern(marks: int, long_every: int | None, medium_every: int | None) -> MarkPattern:
    usual = usual_pattern(marks)
    if long_every is None:
        return usual if medium_every is None else MarkPattern(marks, usual.long_every, medium_every)
    if medium_every is None:
        medium_every = long_every // 2 if long_every % 2 == 0 else 0
    return MarkPattern(marks, long_every, medium_every)


def _vernier(head: Head, dial: Graduation, parts: int | None, kind_word: str | None) -> VernierAnswer | None:
    if parts is None:
        if kind_word is not None:
            raise click.UsageError("--vernier-kind says what kind of vernier: give --vernier N too.")
        return None
    vernier = Vernier.of(parts, VernierKind(kind_word or VernierKind.SHORT.value))
    if vernier.spans >= dial.marks:
        raise click.UsageError(
            f"A vernier over {vernier.spans} marks does not fit round a dial of {dial.marks}; take a smaller --vernier."
        )
    step = vernier.step / dial.marks
    try:
        table = dial_alone(head, step, vernier.divisions)
    except ImpossibleSettingError:
        # Finer than the dial can tell: nothing but whole turns is left, and they are not exact.
        return VernierAnswer(vernier, choose(head, step, methods=(Method.PLAIN,)))
    return VernierAnswer(vernier, choose(head, step), table)


def mark_rows(moves: IndexMoves, pattern: MarkPattern) -> tuple[MarkRow, ...]:
    """List every mark with its length, and where the crank or the dial stands for it, counted from zero."""
    if moves.table is not None:
        return tuple(
            MarkRow(place, None, pattern.length_of(place.number))
            for place in moves.table.rows
            if place.number < moves.parts
        )
    if moves.choice is None:
        raise ImpossibleSettingError(moves.refusal)
    head, count = moves.head, moves.parts
    part = Fraction(1, count)
    answers = [answer for report in moves.choice.methods for answer in report.answers]
    plain = next((answer.move for answer in answers if answer.method is Method.PLAIN), None)
    direct = next((answer.move for answer in answers if answer.method is Method.DIRECT), None)
    if plain is not None:
        # Whole turns need no circle: then the pin comes back to its hole each time.
        circle = plain.circle or 1
    elif direct is not None:
        head, circle = replace(head, worm_ratio=Fraction(1)), direct.circle or 1
    else:
        circle = best_circle(head, part, count)[1]
    return tuple(
        MarkRow(place, circle, pattern.length_of(place.number))
        for place in positions(head, part, count, circle)
        if place.number < count
    )


def _leaving(answer: DialAnswer) -> int:
    if not answer.report.answers[0].is_exact:
        click.echo("No dial of whole marks reads this on this screw; the nearest is given with its error.", err=True)
        return 1
    return leaving(answer.moves)
