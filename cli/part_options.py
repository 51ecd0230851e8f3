"""Options that the commands of divided parts share: the screw with its dial, the paper at a touch."""

from __future__ import annotations

import click

from gearsets.wheel_boxes import read_screw_lead
from solver.dials.screw_dials import ScrewDial

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
feeler_option = click.option(
    "--feeler", "feeler_text", metavar="LENGTH", help="Paper between cutter and work. [default: none]"
)


def chosen_screw(
    screw_text: str | None, marks: int | None, options: tuple[str, str] = ("--screw", "--marks")
) -> ScrewDial | None:
    """Make the dial of a feed screw from its two options, which go together."""
    if (screw_text is None) != (marks is None):
        lead, dial = options
        raise click.UsageError(f"{lead} and {dial} go together: the lead of the screw, and the marks on its dial.")
    if screw_text is None or marks is None:
        return None
    return ScrewDial(read_screw_lead(screw_text), marks)
