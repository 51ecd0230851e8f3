"""What ``lathe`` and ``head`` share: list, show, check, and write a new one by asking."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, Protocol, TypeVar

import click

from cli.commands.asking import ask, known, write_asking
from cli.shop_options import json_option
from gearsets.name_lookup import Shelf


class Named(Protocol):
    """A lathe or a head, as far as a list needs it."""

    @property
    def name(self) -> str:
        """How its file calls it."""


Piece = TypeVar("Piece", bound=Named)


@dataclass(frozen=True)
class Kind(Generic[Piece]):
    """One kind of equipment: where its files stand, and what reads, writes, shows and asks for it.

    Parameters
    ----------
    shelf : Shelf
        Its files, and the word for it.
    many : str
        The word for several.
    example : str
        A shipped one, for the help.
    used_by : str
        The command that takes it, as it would be typed before its option.
    find, load, to_toml : callable
        Find by name or path, load a file, write one.
    show, show_all : callable
        Print one in words, and a list of names with what they mean.
    question : callable
        Ask for a new one.
    stem : callable
        Name of its file, when the person gives none.
    """

    shelf: Shelf
    many: str
    example: str
    used_by: str
    find: Callable[[str], Piece]
    load: Callable[[Path], Piece]
    to_toml: Callable[[Piece], str]
    show: Callable[[Piece], None]
    show_all: Callable[[Sequence[tuple[str, Piece]]], None]
    question: Callable[[], Piece]
    stem: Callable[[Piece], str]


def equipment_group(kind: Kind[Piece]) -> click.Group:
    """Make the group with the commands that every kind has."""
    word = kind.shelf.kind
    group = click.Group(
        word,
        help=f"List, show, check or describe {kind.many}.\n\n"
        f"\b\nExample:\n  halfnut {word} list\n  halfnut {word} new my-{word}.toml",
    )

    @group.command(
        "list",
        help=_with_example(
            f"List the {kind.many} that --{word} knows by name: yours first, then the generic ones.", f"{word} list"
        ),
    )
    @json_option
    def list_all(*, as_json: bool) -> None:
        from cli.views.equipment_screen import names_json

        names = dict.fromkeys((*kind.shelf.own_names(), *kind.shelf.shipped_names()))
        pieces = known(names, kind.find)
        if as_json:
            click.echo(names_json([(name, piece.name) for name, piece in pieces]))
        else:
            kind.show_all(pieces)

    @group.command("show", help=_with_example(f"Show one {word} in words.", f"{word} show {kind.example}"))
    @click.argument("name", metavar="NAME|FILE")
    @click.option("--toml", "as_toml", is_flag=True, help="Print it as a file you can start from.")
    @json_option
    def show(*, name: str, as_toml: bool, as_json: bool) -> None:
        if as_toml and as_json:
            raise click.UsageError("Give --toml or --json, not both.")
        piece = kind.find(name)
        if as_toml:
            click.echo(kind.to_toml(piece))
        elif as_json:
            click.echo(_file_json(word, kind.to_toml(piece)))
        else:
            kind.show(piece)

    @group.command(
        "check", help=_with_example(f"Read a {word} file and name every fault at once.", f"{word} check my-{word}.toml")
    )
    @click.argument("path", metavar="FILE|NAME")
    @json_option
    def check(*, path: str, as_json: bool) -> None:
        piece = kind.find(path)
        if as_json:
            click.echo(_file_json(word, kind.to_toml(piece)))
        else:
            kind.show(piece)
            click.echo("No fault found in the file.")

    @group.command(
        "new",
        help=_with_example(
            f"Ask about your {word} and write its file; nothing is overwritten without asking.",
            f"{word} new my-{word}.toml",
        ),
    )
    @click.argument("path", metavar="[FILE]", required=False)
    def new(*, path: str | None) -> None:
        piece = kind.question()
        usual = kind.shelf.user_folder() / f"{kind.stem(piece)}.toml"
        target = Path(path) if path else Path(ask("Where shall the file go", str, usual=str(usual)))
        write_asking(target, kind.to_toml(piece))
        kind.load(target)
        click.echo(f"Written and checked: {target}")
        click.echo(f"Use it with: halfnut {kind.used_by} --{word} {target}")

    return group


def _file_json(word: str, toml: str) -> str:
    """Write one piece as JSON, in the keys of its file."""
    import tomllib

    from cli.views.answer_json import as_text

    return as_text({word: tomllib.loads(toml)})


def _with_example(sentence: str, words: str) -> str:
    return f"{sentence}\n\n\b\nExample:\n  halfnut {words}"
