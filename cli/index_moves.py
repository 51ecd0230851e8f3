"""The moves of the head that a part with several flats, slots, keyways or marks needs beside its sizes."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

import click

from cli.shop_options import chosen_head, remark_assumed
from solver.dividing.choosing import first_exact_method
from solver.dividing.divide import DivideReport, divide
from solver.dividing.heads import Head
from solver.refusals import ImpossibleSettingError

#: What a head may divide with beside its plates and the holes of its spindle: words of ``divide --with``.
DIAL, CRANKS, PINS = "dial", "cranks", "pins"


class IndexMoves(NamedTuple):
    """What the head does for each of ``parts`` equal parts; ``refusal`` says why where it does nothing."""

    head: Head
    parts: int
    report: DivideReport | None
    refusal: str = ""

    @property
    def is_exact(self) -> bool:
        """True when the head has an exact setting."""
        return self.report is not None and self.report.is_exact


def index_moves(head: Head, parts: int) -> IndexMoves:
    """Ask the head for the moves of equal parts; a refusal is kept beside what else there is to say."""
    try:
        return IndexMoves(head, parts, divide(head, Fraction(1, parts)))
    except ImpossibleSettingError as refusal:
        return IndexMoves(head, parts, None, str(refusal).replace("\n", " "))


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
    if moves.is_exact:
        return 0
    method = first_exact_method(moves.head, moves.parts) if moves.report is not None else None
    if method is not None:
        click.echo(
            f"This head divides {moves.parts} exactly, though not by plain moves: "
            f"'halfnut divide {moves.parts} --method {method.value}' gives the setting.",
            err=True,
        )
        return 1
    ways = [f"--with {way}" for way in other_ways(moves.head, moves.parts)] or ["--positions"]
    see = " or ".join(f"'halfnut divide {moves.parts} {way}'" for way in ways)
    click.echo(f"No exact setting for {moves.parts} on the plates and holes of this head; see {see}.", err=True)
    return 1
