"""The moves of the head that a part with several flats, slots, keyways or marks needs beside its sizes.

A table that its dial alone divides is answered by its dial: every mark from zero, no move repeated.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

import click

from cli.shop_options import chosen_head, remark_assumed
from solver.dividing.choosing import ChoiceReport, choose
from solver.dividing.heads import Head
from solver.dividing.moves import IndexAnswer, Method
from solver.dividing.table_dial import DialTable, dial_alone
from solver.refusals import ImpossibleSettingError

#: What a head may divide with beside its plates and the holes of its spindle: words of ``divide --with``.
DIAL, CRANKS, PINS = "dial", "cranks", "pins"


class IndexMoves(NamedTuple):
    """What the head does for each of so many equal parts.

    Parameters
    ----------
    head : Head
        The one asked.
    parts : int
        Of the round.
    choice : ChoiceReport or None
        Its settings; ``None`` where it has none, or goes by its dial.
    refusal : str
        Why it does nothing, where that is so.
    table : DialTable or None
        Every mark by the dial of a table that has nothing else.
    head_word : str or None
        What named the head, for commands that are to answer for the same one.
    """

    head: Head
    parts: int
    choice: ChoiceReport | None
    refusal: str = ""
    table: DialTable | None = None
    head_word: str | None = None

    @property
    def best(self) -> IndexAnswer | None:
        """The setting that comes first, if the head has any."""
        return None if self.choice is None else self.choice.best

    @property
    def is_exact(self) -> bool:
        """True when the head has an exact setting, by whichever method, or every mark is on a division of its dial."""
        if self.table is not None:
            return self.table.is_exact
        return self.choice is not None and self.choice.is_exact

    def command(self, more: str = "") -> str:
        """Write the command that divides these parts on the same head."""
        return divide_command(str(self.parts), self.head_word, more)


def index_moves(head: Head, parts: int, head_word: str | None = None) -> IndexMoves:
    """Ask the head for the moves of equal parts; what stands in the way is kept beside what else there is to say."""
    try:
        table = dial_alone(head, Fraction(1, parts), parts)
    except ImpossibleSettingError as refusal:
        return IndexMoves(head, parts, None, f"{refusal.message}. {refusal.help_text}", head_word=head_word)
    if table is not None:
        return IndexMoves(head, parts, None, table=table, head_word=head_word)
    choice = choose(head, Fraction(1, parts))
    if choice.best is None:
        nearest = next((report for report in choice.methods if report.method is Method.NEAREST), None)
        refusal_text = "" if nearest is None else f"{nearest.obstacle}. {nearest.remedy}"
        return IndexMoves(head, parts, None, refusal_text, head_word=head_word)
    return IndexMoves(head, parts, choice, head_word=head_word)


def moves_of_several(head_word: str | None, parts: int) -> IndexMoves | None:
    """Ask the head for the moves where there is more than one part; a head named for one part is refused as idle."""
    if parts == 1:
        if head_word is not None:
            raise click.UsageError("--head turns the work from one to the next: give COUNT, two or more, too.")
        return None
    head, assumed = chosen_head(head_word)
    remark_assumed("head", head.name, assumed=assumed)
    return index_moves(head, parts, head_word)


def divide_command(asked: str, head_word: str | None, more: str = "") -> str:
    """Write the command that divides on the same head; where none was named, none is named there either.

    Examples
    --------
    >>> divide_command("7", "table-90-dial"), divide_command("--angle '1/7 turn'", None, "--positions")
    ('halfnut divide 7 --head table-90-dial', "halfnut divide --angle '1/7 turn' --positions")
    >>> divide_command("7", "my table.toml", "--with dial")
    "halfnut divide 7 --with dial --head 'my table.toml'"
    """
    return " ".join(["halfnut divide", asked, *([more] if more else []), *head_option_words(head_word)])


def head_option_words(head_word: str | None) -> list[str]:
    """Write the option that names the same head again, as a shell reads it; nothing where none was named."""
    if not head_word:
        return []
    from shlex import quote

    return ["--head", quote(head_word)]


def other_ways(head: Head, count: int | None) -> list[str]:
    """Name what else this head can divide a count with, where its plates and holes miss it."""
    places = head.pin_places
    ways = []
    if places is not None and count is not None and any(holes * places % count == 0 for holes in head.direct_circles):
        ways.append(PINS)
    if head.small_crank is not None:
        ways.append(CRANKS)
    if head.dial_reading is not None:
        ways.append(DIAL)
    return ways


def nearer_options(head: Head, count: int) -> list[str]:
    """Name the options of ``divide`` that come nearer than one repeated move, where plates and holes miss a count."""
    if ways := other_ways(head, count):
        return [f"--with {way}" for way in ways]
    # A crank without a plate has no hole to round to; a dial there may be, though its file does not say so.
    return ["--with dial" if head.has_worm and not head.plates else "--positions"]


def rounded_words(table: DialTable, what_is_set: str = "mark") -> str:
    """Say that not every mark is exact by a dial; ``what_is_set`` names what stands at one."""
    what = f"Not every {what_is_set} falls" if len(table.rows) > 2 else f"The {what_is_set} does not fall"
    return f"{what} on a division of this dial; {'each' if len(table.rows) > 2 else 'it'} is rounded from zero."


def leaving(moves: IndexMoves) -> int:
    """Return the exit status, and say what to do where the head has no exact setting."""
    if moves.choice is not None:
        remark_direction(moves.head, moves.choice)
    if moves.is_exact:
        return 0
    if moves.head.has_only_dial:
        click.echo(moves.refusal if moves.table is None else rounded_words(moves.table), err=True)
        return 1
    see = " or ".join(f"'{moves.command(way)}'" for way in nearer_options(moves.head, moves.parts))
    click.echo(f"No exact setting for {moves.parts} on this head; see {see}.", err=True)
    return 1


def remark_direction(head: Head, choice: ChoiceReport) -> None:
    """Say on stderr that the rule of idlers was taken for granted."""
    if head.one_idler_follows is None and any(
        report.method is Method.DIFFERENTIAL and report.answers for report in choice.methods
    ):
        click.echo(
            "The head's file does not say which way one idler turns the plate; it is taken to follow the crank. "
            'Try it, and write one_idler_plate = "follows" or "against" under [wheels].',
            err=True,
        )
