"""Choosing the setting that is drawn, and writing a drawing in full or not at all."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from cli.shop_options import refuse_overwriting
from solver.dividing.moves import IndexAnswer, Method
from solver.refusals import ImpossibleSettingError

if TYPE_CHECKING:
    from cli.views.plate_drawing import PlatePicture

Command = TypeVar("Command", bound=Callable[..., Any])


def drawing_options(command: Command) -> Command:
    """Add the options of a drawing to a command."""
    for option in (
        click.option("--force", is_flag=True, help="With --draw or --sheet: replace a file that is there."),
        click.option(
            "--draw",
            "drawing",
            type=click.Path(path_type=Path),
            metavar="FILE.svg",
            help="Draw the hole circle with its sector arms as a picture file.",
        ),
        click.option("--picture", "with_picture", is_flag=True, help="Show the hole circle in letters on the screen."),
    ):
        command = option(command)
    return command


def picture_of(answers: Iterable[IndexAnswer], title: str, head: str, circle: int | None) -> PlatePicture:
    """Take the first setting of one move on one circle, or the one on the circle asked for.

    Raises
    ------
    ImpossibleSettingError
        No setting uses a circle, so there are no sector arms to set.
    """
    from cli.views.plate_drawing import PlatePicture

    drawn = [
        answer
        for answer in answers
        if answer.method in (Method.PLAIN, Method.NEAREST, Method.DIFFERENTIAL)
        and answer.move.circle
        and answer.move.spaces
    ]
    chosen = next((answer for answer in drawn if circle in (None, answer.move.circle)), None)
    if chosen is None:
        circles = ", ".join(dict.fromkeys(str(answer.move.circle) for answer in drawn))
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
        title = f"{title}, nearest hole, NOT exact"
    return PlatePicture(title, head, chosen.plate, chosen.move)


def write_drawing(picture: PlatePicture, path: Path, *, force: bool) -> None:
    """Write the drawing as an SVG file; an existing file is replaced only by force."""
    if path.suffix.lower() != ".svg":
        raise click.UsageError(f"--draw writes SVG: give a name that ends in .svg, not {path.name[:60]!r}.")
    refuse_overwriting(str(path), force=force)
    from cli.views.plate_drawing import plate_svg
    from cli.whole_files import write_whole

    write_whole(path, plate_svg(picture))
    click.echo(f"Drawn: {path}", err=True)


def show_picture(picture: PlatePicture) -> None:
    """Print the drawing in letters under the answer."""
    from cli.views.plate_drawing import caption, plate_letters
    from cli.views.screen import console

    out = console()
    out.print()
    out.print(f"PICTURE of the {picture.circle} circle, clockwise", style="bold")
    for line in plate_letters(picture, out.width):
        out.print(line)
    out.print()
    for line in caption(picture):
        out.print(line)
    out.print("Figures: the last one of each count. [ ]: the pin's hole, 0, and where it goes. o: holes not counted.")
