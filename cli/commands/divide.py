"""``divide``: what to turn on the head for N parts, or for an angle."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import partial

import click

from cli.commands.angle_marks import circle_named, divide_at_angles
from cli.commands.other_equipment import WayAsked, divide_with, way_options
from cli.division_counts import read_divisions, read_marks, read_part
from cli.exact_divisions import what_would_help
from cli.index_moves import DIAL, other_ways, remark_direction
from cli.plate_files import drawing_options, picture_of, show_picture, write_drawing
from cli.sheet_files import refuse_sheet, sheet_option, write_card
from cli.shop_options import chosen_head, head_option, json_option, refuse_drawing, remark_assumed
from solver.dividing.choosing import ChoiceReport, choose
from solver.dividing.heads import Head
from solver.dividing.moves import IndexAnswer, Method
from solver.dividing.positions import Position, best_circle, positions
from solver.dividing.skipping import refuse_unmet_marks
from solver.refusals import ImpossibleSettingError

POSITIONS_HELP = "--positions keeps each mark within half a hole."


@click.command("divide", short_help="Index settings for N parts or an angle.")
@click.argument("divisions", required=False)
@click.option(
    "--angle",
    "angle_texts",
    metavar="ANGLE",
    multiple=True,
    help="An angle instead: 37.5 deg, 37°30', 1/7 turn. Given several times: marks at these angles from mark 0.",
)
@head_option
@click.option(
    "--method",
    "method_word",
    type=click.Choice([method.value for method in Method]),
    help="Only this method. [default: direct and plain; where neither is exact, all of them side by side]",
)
@click.option(
    "--skip",
    "at_once",
    type=click.IntRange(min=1),
    metavar="K",
    help="K divisions at a time: each move carries the work on K of them. K must share no factor with DIVISIONS.",
)
@click.option("--all", "every", is_flag=True, help="List every setting found, not the leading five of a method.")
@click.option(
    "--positions",
    "with_positions",
    is_flag=True,
    help="Add the table of positions worked from zero; its error never exceeds half a hole.",
)
@click.option(
    "--moves",
    "move_count",
    type=click.IntRange(1, 5000),
    metavar="N",
    help="With one --angle, by a dial or with --positions: how many moves the table walks. [default: 1]",
)
@click.option(
    "--circle",
    type=click.IntRange(2, 10_000),
    metavar="HOLES",
    help="With --positions, several angles, a drawing or a sheet: the circle to use. "
    "[default: the one with the least error]",
)
@way_options
@drawing_options
@sheet_option
@json_option
def command(
    *,
    divisions: str | None,
    angle_texts: tuple[str, ...],
    head_word: str | None,
    method_word: str | None,
    at_once: int | None,
    every: bool,
    with_positions: bool,
    move_count: int | None,
    circle: int | None,
    way: str | None,
    lathe_word: str | None,
    reads_text: str | None,
    radius_text: str | None,
    size_text: str | None,
    draw_to: str | None,
    sheet_to: str | None,
    force: bool,
    with_picture: bool,
    as_json: bool,
) -> int:
    """Give the index settings for DIVISIONS equal parts, for an angle, or for marks at several angles.

    Direct and plain where they are exact; else geared, on two circles, and at the nearest hole, side by side. Of
    settings on two circles within 1" a move and 1' a round, which is as good as a head holds, the one with the fewest
    divisions a move leads, then the nearer; the nearest of all is named below them.

    \b
    Example:
      halfnut divide 28 --head head-40-three-plates
      halfnut divide --angle "37°30'"
      halfnut divide --angle "30 deg" --angle "58°30'" --angle "90 deg"
      halfnut divide 127 --positions --size "module 0.5"
      halfnut divide 69 --method compound --skip 2
      halfnut divide 28 --picture
      halfnut divide 127 --with dial --head table-90-dial --radius "63.5 mm"
    """
    asked_way = WayAsked(way, head_word, lathe_word, reads_text, radius_text, size_text, sheet_to)
    asked_way.refuse_idle()
    is_drawn = draw_to is not None or with_picture
    _refuse_files(draw_to, sheet_to, force=force, is_idle=with_picture and as_json)
    if len(angle_texts) > 1 and divisions is None:
        repeating = {"--method": method_word, "--skip": at_once, "--moves": move_count, "--all": every}
        _refuse_repeating(repeating | {"--draw": draw_to, "--picture": with_picture})
        return divide_at_angles(asked_way, read_marks(angle_texts), circle, as_json=as_json)
    count, part = _asked(divisions, angle_texts, move_count)
    if way is not None:
        # By a dial the positions are what is answered anyway.
        _refuse_of_plates(way, with_positions and way != DIAL, is_drawn, circle, method_word, at_once)
        return divide_with(asked_way, count, part, move_count, as_json=as_json)
    method = Method(method_word) if method_word else None
    _refuse_clashing(count, method, at_once, with_positions=with_positions)
    head, assumed = chosen_head(head_word)
    wants_plates = is_drawn or bool(method or at_once or circle)
    lists_marks = with_positions or move_count is not None or reads_text is not None
    if not wants_plates and _goes_by_dial(head, part, lists_marks=lists_marks):
        by_dial = asked_way._replace(way=DIAL)
        return divide_with(by_dial, count, part, move_count, as_json=as_json, by_itself=True)
    asked_way.refuse_reading()
    _refuse_idle(move_count, None if is_drawn or sheet_to else circle, with_positions=with_positions)
    if count is None:
        at_once = 1  # An angle is asked for itself, not as one of many to be met in any order.
    choice = choose(head, part, methods=() if method is None else (method,), at_once=at_once)
    if choice.best is None and method is Method.PLAIN:
        choice = choose(head, part, methods=(Method.PLAIN, Method.NEAREST), at_once=at_once)
    if choice.best is None:
        raise _nothing_at_all(count, head, choice)
    table = _positions(head, part, count or move_count or 1, circle) if with_positions else None
    picture = picture_of(_pictured(head, choice), _title(count, part), head, circle) if is_drawn else None
    made = asked_way.part(count)
    remark_assumed("head", head.name, assumed=assumed)
    from cli.views import divide_screen

    if as_json:
        click.echo(divide_screen.divide_json(count, head, choice, table, every=every, part=made))
    else:
        draw = partial(show_picture, picture) if picture is not None and with_picture else None
        divide_screen.show_divide(count, head, choice, table, every=every, part=made, draw=draw)
    if picture is not None and draw_to is not None:
        write_drawing(picture, draw_to)
    if sheet_to:
        from cli.views.sheets.index_cards import chosen_set_up, index_card

        set_up = chosen_set_up(head, choice, count, circle, table)
        write_card(index_card(set_up, divide_screen.asked_rows(count, head, choice, made)), sheet_to)
    remark_direction(head, choice)
    if choice.is_exact:
        return 0
    click.echo(_not_exact(count, head, choice), err=True)
    # The nearest hole was what was asked for, so it is the answer.
    return 0 if method is Method.NEAREST else 1


def _pictured(head: Head, choice: ChoiceReport) -> list[IndexAnswer]:
    """List the settings of the leading method, so that no drawing shows a lesser one in its place."""
    if not head.has_worm:
        return []
    leading = next(report.method for report in choice.methods if report.answers)
    # The spindle's own holes have no arms; a plain setting beside them is as exact.
    alike = (Method.DIRECT, Method.PLAIN) if leading is Method.DIRECT else (leading,)
    return [answer for report in choice.methods if report.method in alike for answer in report.answers]


def _refuse_files(draw_to: str | None, sheet_to: str | None, *, force: bool, is_idle: bool) -> None:
    """Refuse files that could not be written, and a picture on the screen that JSON leaves no room for."""
    refuse_sheet(sheet_to, force=force, drawing=draw_to)
    if draw_to is not None:
        refuse_drawing(draw_to, force=force)
    if is_idle:
        raise click.UsageError("--picture is for the screen; with --json give --draw.")


def _title(count: int | None, part: Fraction) -> str:
    return f"{count} divisions" if count else f"{part} turn"


def _asked(divisions: str | None, angle_texts: Sequence[str], move_count: int | None) -> tuple[int | None, Fraction]:
    if (divisions is None) == (not angle_texts):
        raise click.UsageError("Give a number of divisions, or --angle; one of the two.")
    if divisions is None:
        return None, read_part(angle_texts[0])
    if move_count is not None:
        raise click.UsageError("--moves goes with --angle; DIVISIONS is already the number of moves.")
    count = read_divisions(divisions)
    return count, Fraction(1, count)


def _goes_by_dial(head: Head, part: Fraction, *, lists_marks: bool) -> bool:
    """Say whether a table goes by its dial; whole turns of the handle need none, unless every mark is to be listed."""
    return head.has_only_dial and (lists_marks or (part * head.worm_ratio).denominator != 1)


def _refuse_of_plates(way: str, *given: object) -> None:
    """Refuse options of index plates beside other equipment."""
    if any(each not in (None, False) for each in given):
        named = "--circle, --draw, --picture, --method and --skip"
        named = named if way == DIAL else f"--positions, {named}"
        raise click.UsageError(f"{named} belong to index plates, not to --with {way}.")


def _refuse_repeating(options: Mapping[str, object]) -> None:
    """Refuse beside several angles the options of one move that is repeated."""
    for option, given in options.items():
        if given:
            raise click.UsageError(
                f"{option} is of one move, made again and again; several angles are each worked from zero: "
                f"leave {option} out."
            )


def _refuse_idle(move_count: int | None, circle: int | None, *, with_positions: bool) -> None:
    """Refuse options that would do nothing."""
    if circle is not None and not with_positions:
        raise click.UsageError("--circle chooses the circle of the table of positions: give --positions too.")
    if move_count is not None and not with_positions:
        raise click.UsageError(
            "--moves is the length of the table of positions: give --positions too, or --with dial for a table."
        )


def _refuse_clashing(count: int | None, method: Method | None, at_once: int | None, *, with_positions: bool) -> None:
    """Refuse options that cannot be had together, and steps that leave marks out."""
    if at_once is not None and count is None:
        raise click.UsageError("--skip carries the work over several divisions: give DIVISIONS, not --angle.")
    if with_positions and (at_once or 1) > 1:
        raise click.UsageError("--positions works each mark from zero in its own order: leave --skip out.")
    if with_positions and method in (Method.DIRECT, Method.DIFFERENTIAL, Method.COMPOUND):
        raise click.UsageError(
            f"--positions is worked on one circle, the plate held: leave --method {method.value} out."
        )
    if count is not None and at_once is not None:
        refuse_unmet_marks(count, at_once)


def _nothing_at_all(count: int | None, head: Head, choice: ChoiceReport) -> ImpossibleSettingError:
    """Word the refusal when no method has a setting: each obstacle once, and what would help."""
    reports = [report for report in choice.methods if report.obstacle]
    remedies = dict.fromkeys(report.remedy for report in reports if report.remedy)
    return ImpossibleSettingError(
        "\n".join(f"No {report.method.value} setting: {report.obstacle}." for report in reports),
        help_text="\n".join([*remedies, *what_would_help(count, head, choice)]),
    )


def _positions(
    head: Head, part: Fraction, count: int, circle: int | None
) -> tuple[str | None, int, tuple[Position, ...]]:
    plate, circle = best_circle(head, part, count) if circle is None else circle_named(head, circle)
    return plate, circle, tuple(positions(head, part, count, circle))


def _not_exact(count: int | None, head: Head, choice: ChoiceReport) -> str:
    """Say on stderr that no setting is exact, and what would make one so."""
    asked = f"{count} divisions" if count else f"{choice.part} turn"
    more = [f"This head has more than that: try --with {way}." for way in other_ways(head, count)]
    if head.plates and count:
        more.insert(0, POSITIONS_HELP)
    elif head.has_worm and not head.plates and not more:
        more.append("A table that is read by its dial: try --with dial.")
    if not head.has_worm:
        own = ", ".join(map(str, head.direct_circles))
        needed = f"A circle of {choice.circle_needed} holes, or a multiple, would do it."
        return "\n".join([f"No exact setting for {asked}: the spindle's own holes ({own}) miss it.", needed, *more])
    named = f"{choice.methods[0].method.value} " if len(choice.methods) == 1 else ""
    first = f"No exact {named}setting for {asked} on this head: the crank needs {choice.crank_turns} turn each time."
    return "\n".join([first, *what_would_help(count, head, choice), *more])
