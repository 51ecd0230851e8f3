"""The moves of the head that a part with several flats, slots, keyways or marks needs beside its sizes."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

import click

from cli.shop_options import chosen_head, remark_assumed
from solver.dividing.choosing import ChoiceReport, choose
from solver.dividing.heads import Head
from solver.dividing.moves import IndexAnswer, Method

#: What a head may divide with beside its plates and the holes of its spindle: words of ``divide --with``.
DIAL, CRANKS, PINS = "dial", "cranks", "pins"


class IndexMoves(NamedTuple):
    """What the head does for each of ``parts`` equal parts; ``refusal`` says why where it does nothing."""

    head: Head
    parts: int
    choice: ChoiceReport | None
    refusal: str = ""

    @property
    def best(self) -> IndexAnswer | None:
        """The setting that comes first, if the head has any."""
        return None if self.choice is None else self.choice.best

    @property
    def is_exact(self) -> bool:
        """True when the head has an exact setting, by whichever method."""
        return self.choice is not None and self.choice.is_exact


def index_moves(head: Head, parts: int) -> IndexMoves:
    """Ask the head for the moves of equal parts; what stands in the way is kept beside what else there is to say."""
    choice = choose(head, Fraction(1, parts))
    if choice.best is None:
        nearest = next((report for report in choice.methods if report.method is Method.NEAREST), None)
        return IndexMoves(head, parts, None, "" if nearest is None else f"{nearest.obstacle}. {nearest.remedy}")
    return IndexMoves(head, parts, choice)


def moves_of_several(head_word: str | None, parts: int) -> IndexMoves | None:
    """Ask the head for the moves where there is more than one part; a head named for one part is refused as idle."""
    if parts == 1:
        if head_word is not None:
            raise click.UsageError("--head turns the work from one to the next: give COUNT, two or more, too.")
        return None
    head, assumed = chosen_head(head_word)
    remark_assumed("head", head.name, assumed=assumed)
    return index_moves(head, parts)


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


def leaving(moves: IndexMoves) -> int:
    """Return the exit status, and say what to do where the head has no exact setting."""
    if moves.choice is not None:
        remark_direction(moves.head, moves.choice)
    if moves.is_exact:
        return 0
    ways = [f"--with {way}" for way in other_ways(moves.head, moves.parts)] or ["--positions"]
    see = " or ".join(f"'halfnut divide {moves.parts} {way}'" for way in ways)
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
