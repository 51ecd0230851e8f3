"""Choosing the setting that is drawn, and writing a drawing in full or not at all."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any, TypeVar

import click

from cli.shop_options import draw_option, force_option
from solver.dividing.moves import IndexAnswer, Method
from solver.refusals import ImpossibleSettingError

if TYPE_CHECKING:
    from cli.views.plate_drawing import PlatePicture
    from cli.views.two_circle_drawing import TwoCirclePicture
    from solver.dividing.heads import Head

Command = TypeVar("Command", bound=Callable[..., Any])


def drawing_options(command: Command) -> Command:
    """Add the options of a drawing to a command."""
    picture = click.option(
        "--picture", "with_picture", is_flag=True, help="Show the circle, or both circles, in letters on the screen."
    )
    for option in (force_option, draw_option, picture):
        command = option(command)
    return command


def picture_of(
    answers: Iterable[IndexAnswer], title: str, head: Head, circle: int | None
) -> PlatePicture | TwoCirclePicture:
    """Take the first setting that moves over a part of a circle, or the one on the circle asked for.

    Raises
    ------
    ImpossibleSettingError
        No setting uses a circle, so there are no sector arms to set; or a table has no plates at all.
    """
    from cli.views.plate_drawing import PlatePicture

    if head.has_only_dial:
        raise ImpossibleSettingError(
            "there is nothing to draw: this table has no plates; its marks are told by its dial"
        )
    from cli.views.two_circle_drawing import TwoCirclePicture

    drawn = [answer for answer in answers if answer.method is not Method.DIRECT and answer.move.spaces]
    chosen = next((answer for answer in drawn if circle is None or circle in _circles(answer)), None)
    if chosen is None:
        circles = ", ".join(dict.fromkeys(str(each) for answer in drawn for each in _circles(answer)))
        raise ImpossibleSettingError(
            "there is nothing to draw: no setting moves over a part of a circle"
            if not drawn
            else f"no setting uses a circle of {circle} holes",
            help_text="Whole turns and the spindle's own holes need no sector arms."
            if not drawn
            else f"The settings use {circles}.",
        )
    if chosen.gearing is not None:
        title = f"{title}, ONLY WITH WHEELS {chosen.gearing.train} ON"
    elif not chosen.is_exact:
        title = f"{title}, {'two circles' if chosen.second else 'nearest hole'}, NOT exact"
    if chosen.at_once > 1:
        title = f"{title}, {chosen.at_once} at a time"
    if chosen.second is not None:
        face = f", face {chosen.face}" if chosen.face else ""
        return TwoCirclePicture(title, head.name, f"plate {chosen.plate}{face}", chosen.move, chosen.second)
    return PlatePicture(title, head.name, chosen.plate, chosen.move)


def _circles(answer: IndexAnswer) -> list[int]:
    return [move.circle for move in answer.moves if move.circle is not None]


def write_drawing(picture: PlatePicture | TwoCirclePicture, path: str) -> None:
    """Write the drawing as an SVG file, and say on stderr where it is."""
    from cli.views.plate_drawing import PlatePicture, plate_svg
    from cli.views.two_circle_drawing import two_circle_svg
    from cli.whole_files import write_whole

    write_whole(path, plate_svg(picture) if isinstance(picture, PlatePicture) else two_circle_svg(picture))
    click.echo(f"Drawn: {path}", err=True)


def show_picture(picture: PlatePicture | TwoCirclePicture) -> None:
    """Print the drawing in letters under the answer."""
    from cli.views.plate_drawing import PlatePicture, caption, plate_letters
    from cli.views.screen import console
    from cli.views.two_circle_drawing import two_circle_caption, two_circle_letters

    out = console()
    out.print()
    if isinstance(picture, PlatePicture):
        title = f"PICTURE of the {picture.circle} circle, clockwise"
        lines, words = plate_letters(picture, out.width), caption(picture)
        key = "Figures: the last one of each count. [ ]: the pin's hole, 0, and where it goes. o: holes not counted."
    else:
        title = (
            f"PICTURE of the {picture.circles[0]} circle, for the pin, and the {picture.circles[1]} for the stop pin"
        )
        lines, words = two_circle_letters(picture, out.width), two_circle_caption(picture)
        key = (
            "Figures: the last one of each count, from the crank's side, the pin's clockwise. [ ]: the pin's hole, 0, "
            "and where it goes. < >: the stop pin's, 0, and the one brought to it. o, +: holes not counted."
        )
    out.print(title, style="bold")
    for line in lines:
        out.print(line)
    out.print()
    for line in words:
        out.print(line)
    out.print(key)
