"""``divide --with``: the same count on a table's dial, two cranks, a lathe spindle, a change wheel or a block."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial
from typing import Any, NamedTuple, TypeVar

import click

from cli.index_moves import CRANKS, DIAL, PINS, rounded_words
from cli.sheet_files import write_card
from cli.shop_options import chosen_head, chosen_lathe, remark_assumed
from cli.sizes import optional_size
from cli.views.workpiece import Workpiece, spur_wheel
from solver.dividing.heads import Head
from solver.dividing.spindle_stops import collet_blocks, pin_places, stops_of_spindle, wheels_with_detent
from solver.dividing.table_dial import USUAL_READING, DialTable, dial_table
from solver.dividing.two_cranks import two_crank_settings
from solver.quantities.angles import Angle
from solver.quantities.written_angles import read_angle
from solver.wheelwork.tooth_cutting import read_spur_tooth

Command = TypeVar("Command", bound=Callable[..., Any])

STOPS, WHEEL, BLOCK = "stops", "wheel", "block"
WAYS = (DIAL, CRANKS, PINS, STOPS, WHEEL, BLOCK)
_WAYS_HELP = (
    "Other equipment: the dial of a table, both cranks of a two-crank head, an indexer's pin places, "
    "the stops of a lathe spindle, a change wheel with a detent, a collet block."
)


#: Said where a table goes by its dial without being told to.
ONLY_A_DIAL = "This table has no plates, so every mark is worked for its dial, as by --with dial."


class WayAsked(NamedTuple):
    """The options of other equipment, as typed."""

    way: str | None
    head_word: str | None
    lathe_word: str | None
    reads_text: str | None
    radius_text: str | None
    size_text: str | None = None
    sheet_to: str | None = None

    def part(self, count: int | None) -> Workpiece | None:
        """Read what is divided: a wheel of so many teeth, or a radius; nothing where neither is told."""
        if self.size_text is not None:
            if count is None:
                raise click.UsageError("--size is of a wheel's teeth: give DIVISIONS, not --angle.")
            return spur_wheel(read_spur_tooth(self.size_text), count)
        radius = optional_size(self.radius_text, "a radius")
        return None if radius is None else Workpiece(radius)

    def refuse_reading(self) -> None:
        """Refuse the smallest division of a dial where no dial is turned by."""
        if self.reads_text is not None and self.way != DIAL:
            raise click.UsageError(f"--reads goes with --with {DIAL}.")

    def refuse_idle(self) -> None:
        """Refuse options that would do nothing without their way."""
        if self.lathe_word is not None and self.way not in (STOPS, WHEEL):
            raise click.UsageError(f"--lathe goes with --with {STOPS} or --with {WHEEL}.")
        # Without --with a table may go by its dial all the same; that hangs on the head.
        if self.way is not None:
            self.refuse_reading()
        for option, text in (("--radius", self.radius_text), ("--size", self.size_text)):
            if text is not None and self.way not in (None, DIAL):
                raise click.UsageError(f"{option} has no part in --with {self.way}.")
        if self.radius_text is not None and self.size_text is not None:
            raise click.UsageError("--size has a radius of its own, that of the pitch circle: leave --radius out.")
        if self.head_word is not None and self.way in (STOPS, WHEEL, BLOCK):
            raise click.UsageError(f"--head has no part in --with {self.way}.")


def way_options(command: Command) -> Command:
    """Add the options of other equipment to ``divide``."""
    for option in (
        click.option("--radius", "radius_text", metavar="LENGTH", help="Where the error is told in µm too."),
        click.option(
            "--size",
            "size_text",
            metavar="SIZE",
            help="Teeth of a wheel, module 0.5 or 48 DP: its blank, depth and cutter; the error at its pitch circle.",
        ),
        click.option("--reads", "reads_text", metavar="ANGLE", help="With dial: its smallest division, as 1 min."),
        click.option("--lathe", "lathe_word", metavar="NAME|FILE", help="With stops or wheel: your lathe."),
        click.option("--with", "way", type=click.Choice(WAYS), help=_WAYS_HELP),
    ):
        command = option(command)
    return command


def divide_with(
    asked: WayAsked,
    count: int | None,
    part: Fraction,
    move_count: int | None,
    *,
    as_json: bool,
    by_itself: bool = False,
) -> int:
    """Answer ``divide`` on other equipment; ``by_itself`` where a table goes by its dial without being told to."""
    if asked.way == DIAL:
        # Whatever is refused is refused before a word is said.
        made = asked.part(count)
        head, assumed = chosen_head(asked.head_word)
        table = dial_table(head, part, count or move_count or 1, dial_division(asked, head))
        remark_assumed("head", head.name, assumed=assumed)
        if by_itself:
            click.echo(ONLY_A_DIAL, err=True)
        return show_by_dial(asked, head, table, made, as_json=as_json)
    if move_count is not None:
        raise click.UsageError("--moves goes with --with dial, or with --positions.")
    if asked.way == CRANKS:
        return _by_cranks(asked, count, part, as_json=as_json)
    if part.numerator != 1:
        raise click.UsageError(f"--with {asked.way} divides a round into equal parts; give a number of divisions.")
    _by_places(asked, part.denominator, as_json=as_json)
    return 0


def show_by_dial(asked: WayAsked, head: Head, table: DialTable, part: Workpiece | None, *, as_json: bool) -> int:
    """Show marks set by the dial of a table, and return the exit status."""
    if asked.sheet_to:
        from cli.views.sheets.table_cards import table_card

        write_card(table_card(head, table, part), asked.sheet_to)
    from cli.views import table_dial_screen

    if as_json:
        click.echo(table_dial_screen.table_json(head, table, part))
    else:
        table_dial_screen.show_table(head, table, part)
    if table.is_exact:
        return 0
    click.echo(rounded_words(table), err=True)
    return 1


def dial_division(asked: WayAsked, head: Head) -> Angle:
    """Read the smallest division of a dial: as typed, as the head's file has it, or the usual one."""
    if asked.reads_text is not None:
        division = read_angle(asked.reads_text)
        if division.turns == 0:
            raise click.UsageError("--reads takes an angle above zero, such as 1 min or 10 sec.")
        return division
    if head.dial_reading is not None:
        return head.dial_reading
    click.echo(
        "The file of this head says nothing of its dial, so it is taken to be read to 1 minute; "
        'give --reads, or write [dial] reads = "1 min" in the file.',
        err=True,
    )
    return USUAL_READING


def _by_cranks(asked: WayAsked, count: int | None, part: Fraction, *, as_json: bool) -> int:
    head, assumed = chosen_head(asked.head_word)
    settings = two_crank_settings(head, part)
    remark_assumed("head", head.name, assumed=assumed)
    if asked.sheet_to:
        from cli.views.sheets.equipment_cards import cranks_card

        write_card(cranks_card(count, head, settings), asked.sheet_to)
    from cli.views import other_equipment_screen

    if as_json:
        click.echo(other_equipment_screen.cranks_json(count, head, settings))
    else:
        other_equipment_screen.show_cranks(count, head, settings)
    if settings[0].is_exact:
        return 0
    click.echo("No exact setting of the two cranks, forward or back; the nearest are given with their error.", err=True)
    return 1


def _by_places(asked: WayAsked, divisions: int, *, as_json: bool) -> None:
    """Answer by what stops in counted places: a block, an indexer's pin, a spindle or a wheel on it."""
    from cli.views import other_equipment_screen as screen
    from cli.views.sheets import equipment_cards as cards

    if asked.way == BLOCK:
        blocks = collet_blocks(divisions)
        card, as_text = cards.block_card(divisions, blocks), partial(screen.blocks_json, divisions, blocks)
        show = partial(screen.show_blocks, divisions, blocks)
    elif asked.way == PINS:
        head, assumed = chosen_head(asked.head_word)
        places = pin_places(head, divisions)
        remark_assumed("head", head.name, assumed=assumed)
        card, as_text = cards.pins_card(head, places), partial(screen.pins_json, head, places)
        show = partial(screen.show_pins, head, places)
    else:
        lathe, assumed = chosen_lathe(asked.lathe_word)
        settings = (stops_of_spindle if asked.way == STOPS else wheels_with_detent)(lathe, divisions)
        remark_assumed("lathe", lathe.name, assumed=assumed)
        card, as_text = cards.stops_card(lathe, settings), partial(screen.stops_json, lathe, settings)
        show = partial(screen.show_stops, lathe, settings)
    if as_json:
        click.echo(as_text())
    else:
        show()
    if asked.sheet_to:
        write_card(card, asked.sheet_to)
