"""The count of a divided round, mark by mark: where the pin stands and how far the work has turned, to tick off."""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence
from fractions import Fraction

from cli.views.divide_screen import CHECKPOINT
from cli.views.method_tables import counted
from cli.views.sheets.pieces import Count, CountRow
from cli.views.shop_figures import arcsec_text
from solver.dividing.moves import CrankMove, IndexAnswer
from solver.dividing.positions import Position
from solver.quantities.angles import Angle, sexagesimal_text

#: A longer count than this is not printed. [rows]
MOST_COUNTED = 1000
#: Rows to a block.
BLOCK = 10
#: The column that checks the others, on the scale of the table or the head.
WORK = ("Work at", "right")
#: Beside a count with a row for mark 0.
ZERO_TOO = "Mark 0 is cut first, where you begin; at a line with * its line is counted too."
START = "The pin begins in hole 0. Tick each mark after it is cut; at a line with * count the marks on the work."


def in_blocks(
    rows: Sequence[Sequence[str]], *, stops: Container[int] | None = None, first: int = 1
) -> list[tuple[str, list[CountRow]]]:
    """Put rows into blocks of ten, with a checkpoint at the last and at the rows of ``stops``, else at every fifth.

    ``first`` is the number of the first row: 0 where mark 0 has a row of its own.

    Examples
    --------
    >>> [(name, len(rows)) for name, rows in in_blocks([[str(number)] for number in range(1, 13)])]
    [('1 to 10', 10), ('11 to 12', 2)]
    >>> [[row.is_checkpoint for row in rows] for _, rows in in_blocks([["0"], ["1"], ["2"]], first=0)]
    [[False, False, True]]
    """
    blocks, final = [], first + len(rows) - 1
    for at in range(0, len(rows), BLOCK):
        part = rows[at : at + BLOCK]
        marked = [
            CountRow(cells, number == final or (_is_fifth(number) if stops is None else number in stops))
            for number, cells in enumerate(part, at + first)
        ]
        name, last = part[0][0], part[-1][0]
        blocks.append((f"{name} to {last}" if len(part) > 1 else name, marked))
    return blocks


def _is_fifth(number: int) -> bool:
    return number > 0 and number % CHECKPOINT == 0


def open_count(marks: int) -> str:
    """Title a count of marks that do not come back to mark 0, which has a row and a line of its own.

    Examples
    --------
    >>> open_count(3), open_count(1)
    ('Count of 3 marks beside mark 0', 'Count of 1 mark beside mark 0')
    """
    return f"Count of {counted(marks, 'mark')} beside mark 0"


def lines_counted(marks: int, *, closes: bool) -> str:
    """Ask for what is counted on the finished work: where no mark falls on mark 0, its line is one more.

    Examples
    --------
    >>> lines_counted(7, closes=True), lines_counted(3, closes=False)
    ('Marks counted, 7 if right:', 'Lines counted, 4 if right, the one at zero among them:')
    """
    if closes:
        return f"Marks counted, {marks} if right:"
    return f"Lines counted, {marks + 1} if right, the one at zero among them:"


def repeated_count(answer: IndexAnswer, start: str = START) -> Count | None:
    """List every move of a setting that is repeated; nothing where the round is too long to print.

    ``start`` says how it begins.

    Examples
    --------
    >>> from solver.dividing.moves import Method
    >>> answer = IndexAnswer(Method.PLAIN, CrankMove(1, 9, 21), "B", Fraction(1, 28), Fraction(1, 28), 28)
    >>> count = repeated_count(answer)
    >>> print(count.title, *count.blocks[0][1][1].cells, sep=", ")
    Count of 28 marks, 2, 2, 18, 25°42'51"
    """
    count = answer.moves_to_close
    if count > MOST_COUNTED:
        return None
    several = answer.at_once > 1
    heads = [("Move", "right"), ("Mark", "right")] if several else [("Mark", "right")]
    rows = []
    for number in range(1, count + 1):
        mark = [str(number * answer.at_once % count)] if several else []
        rows.append([str(number), *mark, *move_cells(answer, number)])
    title = f"Count of {count} {'moves' if several else 'marks'}"
    return Count(title, [*heads, *move_heads(answer)], in_blocks(rows), notes=(start, *count_notes(answer)))


def move_heads(answer: IndexAnswer, *, with_turns: bool = True) -> list[tuple[str, str]]:
    """Name the columns that say where the pins and the work stand; turns only where they are wanted."""
    if answer.second is not None:
        return [("Pin at", "right"), ("Stop", "right"), WORK]
    names = []
    if not answer.is_on_spindle and (with_turns or not answer.move.spaces):
        names.append("Turns")
    # Whole turns bring the pin back to its hole each time, which needs no telling.
    if answer.is_on_spindle or answer.move.spaces:
        names.append("Hole")
    return [*((name, "right") for name in names), WORK]


def move_cells(answer: IndexAnswer, number: int, *, with_turns: bool = True) -> list[str]:
    """Say where the pins and the work stand after so many moves, under the heads of `move_heads`."""
    turns, hole = str(number * answer.move.value // 1), str(hole_after(answer.move, number))
    cells = {
        "Turns": turns,
        "Hole": hole,
        "Pin at": f"{turns} + {hole}",
        "Stop": "" if answer.second is None else str(hole_after(answer.second, number)),
        WORK[0]: _stands_at(number * answer.reached),
    }
    return [cells[name] for name, _ in move_heads(answer, with_turns=with_turns)]


def hole_after(move: CrankMove, number: int) -> int:
    """Tell in which hole the pin stands after so many moves, the first being 0.

    Examples
    --------
    >>> hole_after(CrankMove(1, 9, 21), 2), hole_after(CrankMove(0, 1, 33, -1), 1)
    (18, 32)
    """
    return move.sign * move.spaces * number % (move.circle or 1)


def _stands_at(turns: Fraction) -> str:
    # The last mark of one round reads as the full circle; of several rounds the scale shows the part of one.
    return close_angle(Angle(turns if turns <= 1 else turns % 1))


def close_angle(angle: Angle) -> str:
    """Write degrees, minutes and seconds without blanks, for a narrow column.

    Examples
    --------
    >>> print(close_angle(Angle(Fraction(1, 28))))
    12°51'26"
    """
    return sexagesimal_text(angle).replace(" ", "")


def count_notes(answer: IndexAnswer) -> list[str]:
    """Say how the columns of a geared, a two-motion or a skipping count are to be read."""
    notes = []
    if answer.gearing is not None:
        notes.append("Turns and holes are counted on the plate, which turns meanwhile; the work's scale is the check.")
    if answer.second is not None:
        notes.append("Pin at: turns + hole, plate held. Stop: hole of the stop pin, plate and crank together.")
    if answer.at_once > 1:
        notes.append("Mark: which one this cuts, numbered round the work from 0, where the first is cut.")
    return notes


def count_from_zero(circle: int, places: Iterable[Position]) -> Count:
    """List marks of which each is worked from zero, so that no move is like the last; mark 0 is the start.

    Examples
    --------
    >>> from solver.dividing.heads import Head, Plate
    >>> from solver.dividing.positions import positions
    >>> head = Head("40:1", Fraction(40), (Plate("C", ((49,),)),))
    >>> count = count_from_zero(49, positions(head, Fraction(1, 127), 127, 49))
    >>> print(*count.blocks[0][1][1].cells, sep=", ")
    2, 0 + 16, 0 + 31, 5°41'38"
    """
    told_places = list(places)
    marks = [place for place in told_places if place.number]
    closes = not marks or marks[-1].exact.turns.denominator == 1
    heads = [("Mark", "right"), ("Move", "right"), ("Pin at", "right"), WORK]
    rows = [
        [
            str(place.number),
            f"{place.move.turns} + {place.move.spaces}",
            f"{place.turns} + {place.hole}",
            close_angle(place.reached),
        ]
        for place in (marks if closes else told_places)
    ]
    worst = Angle(max((abs(place.error.turns) for place in marks), default=Fraction(0)))
    told = (
        f"Each mark is worked from zero on the {circle} circle: worst error {arcsec_text(worst)}, never more than half "
        "a hole. Move: turns + spaces from the mark before. Pin at: turns + hole from the start."
    )
    if closes:
        return Count(f"Count of {len(marks)} marks", heads, in_blocks(rows), notes=(START, told))
    return Count(open_count(len(marks)), heads, in_blocks(rows, first=0), notes=(START, ZERO_TOO, told))
