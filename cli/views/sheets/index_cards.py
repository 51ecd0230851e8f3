"""The card of one setting of the head: the move, the arms, the plate, and the count to tick off."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from cli.plate_files import picture_of
from cli.views.cautions import dividing_cautions
from cli.views.divide_screen import PositionTable
from cli.views.index_settings import early_check, order_lines, proof_text, ratio_check
from cli.views.method_tables import (
    SIGNS,
    arms_enclose,
    arms_in_order,
    counted,
    motions_in_order,
    move_text,
    plate_motion_text,
    spindle_text,
    without_wheels_text,
)
from cli.views.plate_drawing import LEGEND, PlatePicture, caption, plate_svg
from cli.views.sheets.pieces import (
    Card,
    Cautions,
    Facts,
    Lead,
    Lines,
    Measured,
    Picture,
    Piece,
    Resume,
    Shout,
)
from cli.views.sheets.running_count import MOST_COUNTED, START, count_from_zero, repeated_count
from cli.views.sheets.table_cards import TABLE_LEFT_OFF, TABLE_START
from cli.views.shop_figures import arcsec_text, idlers_text
from cli.views.two_circle_drawing import TWO_CIRCLE_LEGEND, two_circle_caption, two_circle_svg
from solver.dividing.moves import IndexAnswer, Method
from solver.dividing.positions import best_circle, positions
from solver.quantities.angles import sexagesimal_text
from solver.refusals import ImpossibleSettingError

if TYPE_CHECKING:
    from cli.index_moves import IndexMoves
    from solver.dividing.choosing import ChoiceReport
    from solver.dividing.heads import Head

#: What the next pair of hands must know in the middle of a round.
LEFT_OFF = ("Last mark done", "Plate and circle on", "Arms set to", "Crank turned which way")
#: The same where the spindle's own holes divide, where every move is whole turns, and where no two moves are alike.
ON_SPINDLE = ("Last mark done", "Spindle's circle and hole", "Spindle turned which way")
WHOLE_TURNS = ("Last mark done", "Pin in circle and hole", "Crank turned which way")
FROM_ZERO = ("Last mark done", "Plate and circle on", "Pin at turns and hole", "Crank turned which way")


class IndexSetUp(NamedTuple):
    """One round to divide: the head, the setting chosen, how many marks, and what one is called.

    ``marks`` is ``None`` for an angle; ``table`` holds positions worked from zero, where the move is not repeated.
    """

    head: Head
    answer: IndexAnswer
    marks: int | None
    table: PositionTable | None = None
    others: Sequence[IndexAnswer] = ()


def index_card(set_up: IndexSetUp, echoed: Sequence[tuple[str, str]]) -> Card:
    """Make the card of a divided round; ``echoed`` is what was asked, as `divide_screen.asked_rows` tells it."""
    head, answer, count = set_up.head, set_up.answer, set_up.marks
    proof = proof_text(answer, head).removeprefix("Proof: ")
    rows = [*echoed, *([("Proof of both", proof)] if proof else [])]
    pieces: list[Piece] = [
        Facts([row for row in rows if row[0] != "Head"]),
        *setting_pieces(set_up),
        Lines("Early check, before metal is cut", set_up_checks(set_up), ticked=True),
        Cautions(dividing_cautions(answer)),
        closing_measured(count),
        Resume(left_off(set_up)),
        *count_pieces(set_up),
    ]
    title = f"Divide {count}" if count else f"Index {echoed[0][1].split(': ', maxsplit=1)[-1].removesuffix(' each')}"
    return Card(title, head.name, pieces)


def left_off(set_up: IndexSetUp) -> tuple[str, ...]:
    """Choose what is noted at a break: only what this setting has.

    Examples
    --------
    >>> from solver.dividing.heads import Head
    >>> from solver.dividing.moves import CrankMove
    >>> answer = IndexAnswer(Method.DIRECT, CrankMove(0, 4, 24), None, Fraction(1, 6), Fraction(1, 6), 6)
    >>> left_off(IndexSetUp(Head("head", Fraction(40), ()), answer, 6))[1]
    "Spindle's circle and hole"
    """
    if set_up.answer.is_on_spindle:
        return ON_SPINDLE
    if set_up.head.has_only_dial:
        return TABLE_LEFT_OFF
    if set_up.table is not None:
        return FROM_ZERO
    return LEFT_OFF if arms_enclose(set_up.answer) else WHOLE_TURNS


def set_up_checks(set_up: IndexSetUp) -> list[str]:
    """Say what to see before cutting; of marks worked from zero only what does not rest on one repeated move."""
    head, table = set_up.head, set_up.table
    if table is None:
        return early_check(set_up.answer, head, set_up.marks)
    last = table[2][-1]
    closed = (
        f"After {counted(last.number, 'mark')} the pin stands at {counted(last.turns, 'turn')} and hole {last.hole}"
    )
    turned = last.exact.turns
    gone = counted(turned, "round") if turned.denominator == 1 else sexagesimal_text(last.reached)
    return [*ratio_check(head), f"{closed}, and the work has gone {gone}."]


def setting_pieces(set_up: IndexSetUp) -> list[Piece]:
    """Show the move in one line, what must be on the head for it, the arms and the plate."""
    head, answer = set_up.head, set_up.answer
    pieces: list[Piece] = []
    if set_up.table is not None:
        plate, circle, places = set_up.table
        where = f", plate {plate}" if plate else ""
        pieces.append(Lead(f"Each mark from zero, {circle} circle{where}", "the count below gives every move"))
        worst = max(places, key=lambda place: abs(place.error.turns)).error
        if worst.turns:
            text = f"Worst mark {arcsec_text(worst)} off. Repeating one move is not for this: it adds its error up."
            pieces.append(Shout("NOT EXACT: NEAREST HOLES", text))
        return pieces
    pieces.append(Lead(lead_words(answer), _arms_words(answer, has_worm=head.has_worm)))
    if answer.gearing is not None:
        gearing = answer.gearing
        idlers = f"{len(gearing.idlers)}: {' + '.join(map(str, gearing.idlers))}" if gearing.idlers else "none"
        rows = [
            ("Wheels on", f"{gearing.train}, from the work spindle to the plate, driver-driven"),
            ("Idlers", idlers),
            ("Plate turns", f"{plate_motion_text(gearing)}, in one turn of the work"),
        ]
        without = f"Without them {without_wheels_text(answer)}."
        pieces += [Shout("ONLY WITH THE WHEELS ON", without), Facts(rows, "Mount, stop pin out")]
    if not answer.is_exact:
        text = f"{arcsec_text(answer.error_at_closure)} at closure: {SIGNS}"
        pieces.append(Shout("NOT EXACT", text))
    if answer.at_once > 1:
        pieces.append(Lines("Order of the marks", order_lines(answer)))
    pieces += plate_pieces(head, answer)
    if set_up.others:
        pieces.append(Lines("As exact", [whole_setting(each) for each in set_up.others]))
    return pieces


def lead_words(answer: IndexAnswer) -> str:
    """Write the move with its plate, as one line.

    Examples
    --------
    >>> from solver.dividing.moves import CrankMove
    >>> lead_words(IndexAnswer(Method.PLAIN, CrankMove(1, 9, 21), "B", Fraction(1, 28), Fraction(1, 28), 28))
    '1 turn + 9 spaces on 21, plate B'
    """
    if answer.is_on_spindle:
        return spindle_text(answer.move)
    words = move_text(answer.move) if answer.second is None else ", then ".join(motions_in_order(answer))
    face = f" face {answer.face}" if answer.face else ""
    return f"{words}, plate {answer.plate}{face}" if answer.plate else words


def whole_setting(answer: IndexAnswer) -> str:
    """Write a setting in a line that can be set up by itself: wheels, move, plate, arms, divisions at a time.

    Examples
    --------
    >>> from solver.dividing.moves import CrankMove
    >>> whole_setting(IndexAnswer(Method.PLAIN, CrankMove(1, 9, 21), "B", Fraction(1, 28), Fraction(1, 28), 28))
    '1 turn + 9 spaces on 21, plate B, arms enclose 10 holes'
    """
    words = [lead_words(answer)]
    if answer.second is not None:
        words.append(f"arms enclose {arms_in_order(answer)} holes")
    elif arms := arms_enclose(answer):
        words.append(f"arms enclose {arms} holes")
    if answer.at_once > 1:
        words.append(f"{answer.at_once} divisions at a time")
    setting = ", ".join(words)
    if answer.gearing is None:
        return setting
    gearing = answer.gearing
    idlers = idlers_text(gearing.idlers) or "no idler"
    plate = f"plate turns {plate_motion_text(gearing)}"
    return f"WHEELS {gearing.train}, {idlers}, {plate}: {setting}"


def _arms_words(answer: IndexAnswer, *, has_worm: bool) -> str:
    if answer.method is Method.DIRECT:
        locked = "the spindle locked by its own holes"
        return f"worm out of mesh, {locked}" if has_worm else locked
    if answer.second is not None:
        motions = [f"{move.sector_holes} holes for {counted(move.spaces, 'space')}" for move in answer.moves]
        if answer.runs_both_ways:
            motions.reverse()
        pin, both = "the pin, plate held", "plate and crank together, counted at the stop pin"
        order = f"{both}, BACK; then {pin}" if answer.runs_both_ways else f"{pin}; then {both}"
        return f"First {order}. Arms enclose {' and '.join(motions)}: the pin's own hole counts 0"
    arms = arms_enclose(answer)
    if not arms:
        return "whole turns: no arms to set"
    return f"Arms enclose {arms} holes: the pin's own, counted 0, and {answer.move.spaces} more"


def plate_pieces(head: Head, answer: IndexAnswer) -> list[Piece]:
    """Draw the circle with its arms, or both circles, where the move is one on a circle."""
    if not arms_enclose(answer):
        return []
    try:
        picture = picture_of([answer], "", head, None)
    except ImpossibleSettingError:
        return []
    if isinstance(picture, PlatePicture):
        told = caption(picture)
        shows = f"Circle of {picture.circle} holes with its sector arms. {told[1]}"
        return [Picture(plate_svg(picture, alone=False), shows, (*told[2:], *LEGEND), beside=True)]
    lines = two_circle_caption(picture)
    shows = f"Circle of {picture.circles[0]} holes for the pin with its arms, and of {picture.circles[1]} for the stop."
    notes = (lines[0], " ".join(lines[1:3]), *lines[3:], *TWO_CIRCLE_LEGEND)
    return [Picture(two_circle_svg(picture, alone=False), shows, notes, beside=True)]


def count_pieces(set_up: IndexSetUp) -> list[Piece]:
    """List the marks to tick off, or say why they are not listed."""
    if set_up.table is not None:
        plate, circle, places = set_up.table
        del plate
        return [count_from_zero(circle, places)] if len(places) <= MOST_COUNTED + 1 else [_too_long(len(places))]
    count = repeated_count(set_up.answer, TABLE_START if set_up.head.has_only_dial else START)
    return [count] if count is not None else [_too_long(set_up.answer.moves_to_close)]


def _too_long(count: int) -> Lines:
    return Lines("Count", [f"{count} marks are more than the {MOST_COUNTED} that are printed here."])


def closing_measured(count: int | None) -> Measured:
    """Give lines for what the walk round and the finished round showed."""
    marks = f"Marks counted on the finished work, {count} if right:" if count else "Angle measured:"
    return Measured(["Walked or scribed, the last mark off the first by:", marks])


def chosen_set_up(
    head: Head, choice: ChoiceReport, count: int | None, circle: int | None, table: PositionTable | None
) -> IndexSetUp:
    """Choose the setting for a card: the leading one, or of the leading methods the one on the circle asked for.

    Raises
    ------
    ImpossibleSettingError
        No setting of these methods uses that circle.
    """
    answering = [report for report in choice.methods if report.answers]
    leading = answering[0].method
    alike = (Method.DIRECT, Method.PLAIN) if leading is Method.DIRECT else (leading,)
    answers = [answer for report in answering if report.method in alike for answer in report.answers]
    if table is None and leading is Method.NEAREST and not answers[0].is_exact:
        table = nearest_table(head, choice.part, choice.part.denominator, circle)
    if table is None and circle is not None:
        answers = [answer for answer in answers if answer.move.circle == circle]
        if not answers:
            raise ImpossibleSettingError(
                f"no {leading.value} setting uses a circle of {circle} holes",
                help_text="Leave --circle out, or give --positions too.",
            )
    first = answers[0]
    others = [each for each in answers[1:] if each.is_exact and each.method is first.method][:2]
    return IndexSetUp(head, first, count, table, others if first.is_exact else ())


def moves_set_up(moves: IndexMoves) -> IndexSetUp | None:
    """Choose the setting of a part with several flats, slots or marks; nothing where the head has none."""
    if moves.choice is None or moves.best is None:
        return None
    return chosen_set_up(moves.head, moves.choice, moves.parts, None, None)


def nearest_table(head: Head, part: Fraction, count: int, circle: int | None = None) -> PositionTable | None:
    """Work every mark from zero on the circle that serves best; nothing where there is none, or too many marks."""
    try:
        plate, best = best_circle(head, part, count)
        if circle is not None:
            plate, best = next((name for name, holes in head.circles() if holes == circle), None), circle
        return plate, best, tuple(positions(head, part, count, best))
    except ImpossibleSettingError:
        return None
