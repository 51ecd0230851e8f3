"""One table for each method of dividing, and all of them side by side; data in, text out.

A geared setting never stands in a table that could be read as a plain one: its wheels come before its move.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from cli.views.screen import answers_table, filled_table, print_answers
from cli.views.shop_figures import approximate, arcsec_text
from solver.dividing.differential import MOST_SETTINGS
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.plate_gearing import PlateGearing
from solver.quantities.pitches import figure_text
from solver.trains.mounting import Verdict

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rich.console import Console

    from solver.dividing.choosing import ChoiceReport, MethodReport

#: What the sign of a repeated move's error means to the work.
SIGNS = "+ the work goes too far, the last space comes out small; - it falls short, the last space comes out wide."
SIGNS_OF_ONE = "+ the work goes too far; - it falls short."
#: What the column of sector arms counts.
ARMS_COUNTED = "Arms enclose: holes, the pin's own included."
#: What moves in each of the two motions of a compound setting.
BY_PIN = "pin: the crank alone, plate held"
BY_BOTH = "both: plate with crank, pin in its hole, counted at the stop pin"
#: Why the wheels of a geared setting are not said to go on.
REACH_UNKNOWN = "no file of a head tells where its studs sit: try the wheels on before a blank is on the head"
#: What each method asks of whoever stands at the head, in plain words.
RISKS = {
    Method.DIRECT: "quickest; only the lock pin holds the work",
    Method.PLAIN: "one motion; the count of spaces is all there is to slip on",
    Method.DIFFERENTIAL: "one motion; wheels to mount, plate must turn the right way, no spiral work meanwhile",
    Method.COMPOUND: "two motions each time: twice the chances to miscount, two sector settings",
    Method.NEAREST: "one motion; the error adds up all the way round",
}
#: The same of one angle, which is turned once and closes no round.
RISKS_OF_ONE = RISKS | {
    Method.COMPOUND: "two motions: twice the chances to miscount, two sector settings",
    Method.NEAREST: "one motion; off once, by this error",
}


def counted(number: Fraction | int, word: str) -> str:
    """Write a number with its word, in the singular only for one.

    Examples
    --------
    >>> counted(1, "move"), counted(Fraction(10, 7), "crank turn")
    ('1 move', '10/7 crank turns')
    """
    return f"{number} {word}{'' if number == 1 else 's'}"


def move_text(move: CrankMove) -> str:
    """Write a move: whole turns even if none, then spaces on a circle.

    Examples
    --------
    >>> move_text(CrankMove(1, 9, 21)), move_text(CrankMove(5, 0, None))
    ('1 turn + 9 spaces on 21', '5 turns')
    """
    turns = counted(move.turns, "turn")
    if move.circle is None or move.spaces == 0:
        # A crank without a plate has one place for its pin, which is no circle.
        return turns if move.circle in (None, 1) else f"{turns}, any circle"
    return f"{turns} + {counted(move.spaces, 'space')} on {move.circle}"


def second_text(move: CrankMove) -> str:
    """Write the second motion of a compound setting with its way round.

    Examples
    --------
    >>> second_text(CrankMove(0, 2, 17)), second_text(CrankMove(0, 1, 33, -1))
    ('+ 2 spaces on 17', 'BACK 1 space on 33')
    """
    return f"{'+' if move.sign > 0 else 'BACK'} {counted(move.spaces, 'space')} on {move.circle}"


def motions_in_order(answer: IndexAnswer) -> tuple[str, str]:
    """Write the two motions of a compound setting as they are made, each with what moves: one BACK comes first.

    Examples
    --------
    >>> part, first = Fraction(1, 69), CrankMove(0, 21, 23)
    >>> motions_in_order(IndexAnswer(Method.COMPOUND, first, "B", part, part, 69, CrankMove(0, 11, 33, -1)))
    ('both BACK 11 spaces on 33', 'pin 21 spaces on 23')
    """
    pin, plate = answer.moves
    turns = f"{counted(pin.turns, 'turn')} + " if pin.turns else ""
    by_pin = f"pin {turns}{counted(pin.spaces, 'space')} on {pin.circle}"
    back = "BACK " if plate.sign < 0 else ""
    by_both = f"both {back}{counted(plate.spaces, 'space')} on {plate.circle}"
    return (by_both, by_pin) if answer.runs_both_ways else (by_pin, by_both)


def arms_in_order(answer: IndexAnswer) -> str:
    """Write the holes that the arms enclose at each motion, in the order of the motions.

    Examples
    --------
    >>> part, first = Fraction(1, 69), CrankMove(0, 21, 23)
    >>> arms_in_order(IndexAnswer(Method.COMPOUND, first, "B", part, part, 69, CrankMove(0, 11, 33, -1)))
    '12 and 22'
    """
    enclosed = [str(move.sector_holes) for move in answer.moves]
    return " and ".join(reversed(enclosed) if answer.runs_both_ways else enclosed)


def plate_turns_text(turns: Fraction) -> str:
    """Write turns of the plate as the hand counts them, without sign.

    Examples
    --------
    >>> plate_turns_text(Fraction(-7, 3)), plate_turns_text(Fraction(5, 9)), plate_turns_text(Fraction(2))
    ('2 1/3', '5/9', '2')
    """
    whole, rest = divmod(abs(turns), 1)
    return f"{whole} {rest}" if whole and rest else f"{rest or whole}"


def plate_motion_text(gearing: PlateGearing) -> str:
    """Write how far the plate turns in one turn of the work, and which way.

    Examples
    --------
    >>> from solver.trains.wheels import Train
    >>> plate_motion_text(PlateGearing(Train(()), (), Fraction(7, 3), Fraction(120)))
    '2 1/3 following the crank'
    """
    return f"{plate_turns_text(gearing.plate_turns)} {'following' if gearing.follows else 'against'} the crank"


def divisions_text(divisions: Fraction) -> str:
    """Write a count that may not be whole.

    Examples
    --------
    >>> divisions_text(Fraction(120)), divisions_text(Fraction(280, 3))
    ('120', '≈93.33')
    """
    return figure_text(divisions) if divisions.denominator == 1 else approximate(divisions, 2)


def without_wheels_text(answer: IndexAnswer) -> str:
    """Say what the move of a differential setting does while its wheels are not on.

    Examples
    --------
    >>> from solver.trains.wheels import Train
    >>> part, gearing = Fraction(4, 383), PlateGearing(Train(()), (), Fraction(-1), Fraction(5280, 13))
    >>> print(without_wheels_text(IndexAnswer(
    ...     Method.DIFFERENTIAL, CrankMove(0, 13, 33), "B", part, part, 383, gearing=gearing, at_once=4)))
    ≈101.54 moves go round, 4 divisions each
    """
    nominal = geared(answer).nominal
    if answer.at_once == 1:
        return f"this move divides {divisions_text(nominal)}"
    return f"{divisions_text(nominal / answer.at_once)} moves go round, {answer.at_once} divisions each"


def print_side_by_side(out: Console, choice: ChoiceReport, *, of_round: bool = True) -> None:
    """Print the best of each method in one table, then the methods that have nothing and why.

    ``of_round`` is false for one angle, which is no part of a round that should close.
    """
    closing = (choice.part * choice.at_once).denominator
    out.print("METHODS, side by side; the best setting of each", style="bold")
    errors = _error_heads(of_round=of_round)
    table = answers_table([("Method", "left"), *errors, ("Motions", "right"), ("In plain words", "left")])
    for report in choice.methods:
        if report.answers:
            best = report.answers[0]
            table.add_row(
                report.method.value,
                *_errors(best, of_round=of_round),
                str((closing if of_round else 1) * len(best.moves)),
                risk_text(best, of_round=of_round),
            )
    print_answers(out, table)
    for report in choice.methods:
        if not report.answers:
            out.print(f"No {report.method.value} setting: {report.obstacle}.")


def risk_text(answer: IndexAnswer, *, of_round: bool) -> str:
    """Say in plain words what a setting asks of the hand, all round or for one angle."""
    words = [(RISKS if of_round else RISKS_OF_ONE)[answer.method]]
    if answer.runs_both_ways:
        words.append("motions against each other: play to take up")
    if answer.at_once > 1:
        words.append(f"{answer.at_once} divisions at a time")
    return "; ".join(words)


def print_method(
    out: Console, report: MethodReport, shown: Sequence[IndexAnswer], *, has_worm: bool, of_round: bool
) -> None:
    """Print the settings of one method under its title, and how many there are."""
    print_settings(out, report.method, shown, has_worm=has_worm, of_round=of_round)
    print_bounds(out, report)
    nearest = report.nearest
    if nearest is not None and nearest.error_per_move != report.answers[0].error_per_move:
        motions = ", then ".join(motions_in_order(nearest))
        out.print(
            f"Nearest of all looked at: {motions}, {counted(nearest.at_once, 'division')} at a time, "
            f'{arcsec_text(nearest.error_at_closure)} off. The first is as good as a head holds, within 1" a move '
            "and 1' a round, and easier to make."
        )
    if len(shown) < len(report.answers):
        picked = ""
        if report.method is Method.COMPOUND:
            picked = ", picked for little error, few divisions at a time and no backward motion"
        out.print(f"{len(shown)} of {_found_text(report)}{picked}; --all lists every one.")


def print_bounds(out: Console, report: MethodReport) -> None:
    """Say how many divisions at a time were looked at, where more might come nearer."""
    if report.most_at_once is not None:
        out.print(
            f"Looked at: 1 to {report.most_at_once} divisions at a time. More at a time may come nearer; "
            "divide with --skip K asks for K."
        )


def print_settings(
    out: Console, method: Method, shown: Sequence[IndexAnswer], *, has_worm: bool = True, of_round: bool = True
) -> None:
    """Print settings of one method under its title."""
    if method is Method.DIFFERENTIAL:
        _print_differential(out, shown)
    elif method is Method.COMPOUND:
        _print_compound(out, shown, of_round=of_round)
    elif method is Method.NEAREST:
        _print_nearest(out, shown, of_round=of_round)
    else:
        _print_simple(out, shown, has_worm=has_worm)


def _found_text(report: MethodReport) -> str:
    first = "the first " if len(report.answers) == MOST_SETTINGS else ""
    return f"{first}{len(report.answers)} {report.method.value} settings"


def _print_simple(out: Console, shown: Sequence[IndexAnswer], *, has_worm: bool) -> None:
    out.print("EXACT SETTINGS", style="bold")
    heads = [("Method", "left"), ("Each move", "left"), ("Plate", "left"), ("Arms enclose", "right"),
             ("Error", "left")]  # fmt: skip
    rows = [
        (answer.method.value, _move(answer, has_worm=has_worm), answer.plate or "-",
         str(arms_enclose(answer) or "-"), "exact")
        for answer in shown
    ]  # fmt: skip
    print_answers(out, filled_table(heads, rows))
    if any(map(arms_enclose, shown)):
        out.print(ARMS_COUNTED)


def _move(answer: IndexAnswer, *, has_worm: bool = True) -> str:
    worm = ", worm out" if answer.method is Method.DIRECT and has_worm else ""
    return f"{spindle_text(answer.move)}{worm}" if answer.is_on_spindle else move_text(answer.move)


def spindle_text(move: CrankMove) -> str:
    """Write a move of the spindle by its own holes.

    Examples
    --------
    >>> spindle_text(CrankMove(1, 0, 24))
    '24 spaces of the 24 on the spindle'
    """
    spaces = move.turns * (move.circle or 1) + move.spaces
    return f"{counted(spaces, 'space')} of the {move.circle} on the spindle"


def arms_enclose(answer: IndexAnswer) -> int:
    """Count the holes that the sector arms enclose; 0 where none are set, as on the spindle or for whole turns.

    Examples
    --------
    >>> arms_enclose(IndexAnswer(Method.PLAIN, CrankMove(5, 0, None), None, Fraction(1, 8), Fraction(1, 8), 8))
    0
    """
    return 0 if answer.is_on_spindle or answer.move.spaces == 0 else answer.move.sector_holes


def _print_differential(out: Console, shown: Sequence[IndexAnswer]) -> None:
    out.print("DIFFERENTIAL, exact ONLY WITH THE WHEELS ON: not plain settings", style="bold")
    table = answers_table(
        [("Wheels on", "left"), ("Idlers", "left"), ("Plate turns", "left"), ("Then the pin moves", "left"),
         ("Plate", "left"), ("Without wheels", "left")]
    )  # fmt: skip
    for answer in shown:
        gearing = geared(answer)
        idlers = f"{len(gearing.idlers)}: {'+'.join(map(str, gearing.idlers))}" if gearing.idlers else "0"
        table.add_row(
            f"{gearing.train}",
            idlers,
            f"{gearing.way} {plate_turns_text(gearing.plate_turns)}",
            move_text(answer.move),
            answer.plate or "any",
            divisions_text(gearing.nominal / answer.at_once) + (" moves" if answer.at_once > 1 else ""),
        )
    print_answers(out, table)
    compound = any(len(geared(answer).train.pairs) > 1 for answer in shown)
    stud = "; the middle two share the stud" if compound else ""
    out.print(f"Wheels: from the work spindle to the plate, driver-driven{stud}.")
    out.print("Plate turns: in one turn of the work, following the crank or against it.")
    out.print("The pin moves from hole to hole of the turning plate; arms enclose one hole more than the spaces.")
    if shown[0].at_once == 1:
        out.print("Without wheels: what the same move divides without them, which is not what was asked.")
    else:
        out.print("Without wheels: how many of these moves go once round without them, which is not what was asked.")
    out.print(
        f"Reach: {Verdict.NOT_CHECKED.value}, {REACH_UNKNOWN}. Any other wheels may be the idlers, as many of them."
    )


def geared(answer: IndexAnswer) -> PlateGearing:
    """Return the gearing of a differential answer."""
    if answer.gearing is None:
        raise TypeError("only a differential answer has wheels")
    return answer.gearing


def _print_compound(out: Console, shown: Sequence[IndexAnswer], *, of_round: bool) -> None:
    exact = all(answer.is_exact for answer in shown)
    out.print(f"COMPOUND, two motions for each move{', exact' if exact else ''}", style="bold")
    heads = [("First", "left"), ("Then", "left"), ("Plate", "left"), ("At a time", "right")]
    if not exact:
        heads += _error_heads(of_round=of_round)
    table = answers_table(heads)
    for answer in shown:
        cells = [
            *motions_in_order(answer),
            f"{answer.plate} face {answer.face}" if answer.face else f"{answer.plate}",
            str(answer.at_once),
        ]
        if not exact:
            cells += _errors(answer, of_round=of_round)
        table.add_row(*cells)
    print_answers(out, table)
    out.print(f"{BY_PIN}; arms enclose one hole more than the spaces.")
    out.print(f"{BY_BOTH} behind the plate.")
    out.print("At a time: divisions that one move carries the work on.")
    if not exact:
        out.print(SIGNS if of_round else SIGNS_OF_ONE)


def _error_heads(*, of_round: bool) -> list[tuple[str, Literal["left", "right"]]]:
    return [("Error each", "right"), ("At closure", "right")] if of_round else [("Error", "right")]


def _errors(answer: IndexAnswer, *, of_round: bool) -> list[str]:
    errors = [answer.error_per_move, answer.error_at_closure] if of_round else [answer.error_per_move]
    return ["exact" if error.turns == 0 else arcsec_text(error) for error in errors]


def _print_nearest(out: Console, shown: Sequence[IndexAnswer], *, of_round: bool) -> None:
    out.print(f"NEAREST SETTINGS{'' if shown[0].is_exact else ', none is exact'}", style="bold")
    heads = [("Each move", "left"), ("Plate", "left"), ("Arms enclose", "right"),
             *_error_heads(of_round=of_round),
             *([("Really divides", "left")] if of_round else [])]  # fmt: skip
    rows = [
        (
            _move(answer),
            answer.plate or "-",
            str(arms_enclose(answer) or "-"),
            *_errors(answer, of_round=of_round),
            *([figure_text(answer.at_once / answer.reached)] if of_round else []),
        )
        for answer in shown
    ]
    print_answers(out, filled_table(heads, rows))
    if any(map(arms_enclose, shown)):
        out.print(ARMS_COUNTED)
    if not shown[0].is_exact:
        out.print(SIGNS if of_round else SIGNS_OF_ONE)
        instead = any(answer.plate or answer.is_on_spindle for answer in shown)
        better = "; --positions works every mark from zero instead" if instead else ""
        if of_round:
            out.print(f"Repeating the move adds its error each time{better}.")
