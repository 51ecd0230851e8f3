"""Options that the commands of divided parts share: sizes above zero, and the screw with its dial."""

from __future__ import annotations

import click

from gearsets.wheel_boxes import read_screw_lead
from solver.dials.screw_dials import ScrewDial
from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length

#: Most marks believed of the dial of a feed screw. [marks]
MOST_MARKS = 10_000

screw_option = click.option(
    "--screw",
    "screw_text",
    metavar="LEAD",
    help="Lead of the feed screw, as 4 mm or 10 tpi: distances are given in its turns and marks too.",
)
marks_option = click.option(
    "--marks", "marks", type=click.IntRange(1, MOST_MARKS), metavar="N", help="With --screw: marks on its dial."
)


def read_size(text: str, what: str) -> Length:
    """Read a length above zero; ``what`` names it in the refusal.

    Examples
    --------
    >>> read_size("25 mm", "a round")
    Length(mm=Fraction(25, 1))
    """
    length = read_length(text)
    if length.mm == 0:
        raise FigureReader(text).refuse(f"{what} is above zero", at=0)
    return length


def optional_size(text: str | None, what: str) -> Length | None:
    """Read a length above zero where one is given."""
    return None if text is None else read_size(text, what)


def chosen_screw(screw_text: str | None, marks: int | None) -> ScrewDial | None:
    """Make the dial of a feed screw from its two options, which go together."""
    if (screw_text is None) != (marks is None):
        raise click.UsageError("--screw and --marks go together: the lead of the screw, and the marks on its dial.")
    if screw_text is None or marks is None:
        return None
    return ScrewDial(read_screw_lead(screw_text), marks)
