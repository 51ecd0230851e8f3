"""The option of a printable sheet, and its writing in full or not at all."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import click

from cli.shop_options import refuse_overwriting

if TYPE_CHECKING:
    from cli.views.sheets.pieces import Card, Sheet

#: Endings by which a browser knows the file for a page.
ENDINGS = (".html", ".htm")

sheet_option = click.option(
    "--sheet",
    "sheet_to",
    metavar="FILE.html",
    help="Write a sheet to print, or to read on a phone, into a file that is not there yet.",
)


def refuse_sheet(sheet_to: str | None, *, force: bool, drawing: object = None) -> None:
    """Refuse a sheet that could not be written, before any work is done for it; and a ``--force`` with no file."""
    if sheet_to is None:
        if force and drawing is None:
            raise click.UsageError("--force lets a file be replaced, and none is named.")
        return
    if not sheet_to.lower().endswith(ENDINGS):
        raise click.UsageError(f"--sheet writes HTML: give a name that ends in .html, not {sheet_to[-60:]!r}.")
    if drawing is not None and os.path.realpath(str(drawing)) == os.path.realpath(sheet_to):
        raise click.UsageError("--sheet and --draw name the same file: give each its own.")
    refuse_overwriting(sheet_to, force=force)


def write_sheet(sheet: Sheet, path: str) -> None:
    """Write a sheet as one file, and say on stderr where it is."""
    from cli.views.sheets.page import sheet_html
    from cli.whole_files import write_whole

    write_whole(path, sheet_html(sheet))
    click.echo(f"Sheet: {path}", err=True)


def write_card(card: Card, path: str) -> None:
    """Write a sheet of one card."""
    from cli.views.sheets.pieces import Sheet

    write_sheet(Sheet(card.title, (card,)), path)
