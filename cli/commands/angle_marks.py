"""``divide`` with several angles: marks that stand where they like, each worked from zero."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import click

from cli.commands.other_equipment import ONLY_A_DIAL, WayAsked, dial_division, show_by_dial
from cli.index_moves import DIAL
from cli.sheet_files import write_card
from cli.shop_options import chosen_head, remark_assumed
from solver.dividing.heads import Head
from solver.dividing.positions import best_circle_of, marks_on
from solver.dividing.table_dial import dial_marks


def divide_at_angles(asked: WayAsked, marks: Sequence[Fraction], circle: int | None, *, as_json: bool) -> int:
    """Answer for marks at angles of their own, mark 0 first: by the dial of a table, or on one circle of holes."""
    if asked.way not in (None, DIAL):
        raise click.UsageError(
            f"--with {asked.way} makes equal parts; several angles go with index plates, or with --with dial."
        )
    # Whatever is refused is refused before a word is said.
    part = asked.part(None)
    head, assumed = chosen_head(asked.head_word)
    by_itself = asked.way is None and head.has_only_dial
    if asked.way == DIAL or by_itself:
        if circle is not None:
            raise click.UsageError("--circle is of index plates, and these marks go by a dial: leave it out.")
        by_dial = dial_marks(head, marks, dial_division(asked, head))
        remark_assumed("head", head.name, assumed=assumed)
        if by_itself:
            click.echo(ONLY_A_DIAL, err=True)
        return show_by_dial(asked, head, by_dial, part, as_json=as_json)
    asked.refuse_reading()
    plate, circle = best_circle_of(head, marks) if circle is None else circle_named(head, circle)
    table = plate, circle, tuple(marks_on(head, marks, circle))
    remark_assumed("head", head.name, assumed=assumed)
    from cli.views import angle_marks_screen

    if asked.sheet_to:
        from cli.views.sheets.angle_cards import angles_card

        write_card(angles_card(head, table, part), asked.sheet_to)
    if as_json:
        click.echo(angle_marks_screen.angles_json(head, table, part))
    else:
        angle_marks_screen.show_angles(head, table, part)
    if all(place.error.turns == 0 for place in table[2]):
        return 0
    click.echo(f"Not every mark falls on a hole of the {circle} circle; each is rounded from zero.", err=True)
    return 1


def circle_named(head: Head, circle: int) -> tuple[str | None, int]:
    """Find the plate with a circle of so many holes; none where the spindle's own holes are all there is.

    Raises
    ------
    click.UsageError
        The head has no such circle.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> circle_named(Head("small", Fraction(40), (Plate("A", ((20, 21),)),)), 21)
    ('A', 21)
    """
    plates: list[str | None] = [plate for plate, holes in head.circles() if holes == circle]
    if not head.has_worm and circle in head.direct_circles:
        plates = [None]
    if not plates:
        raise click.UsageError(f"No plate of this head has a circle of {circle} holes.")
    return plates[0], circle
