"""Dividing heads and rotary tables: reading a file with all its faults at once, finding one, writing one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path

from gearsets.file_faults import read_text_file
from gearsets.name_lookup import Shelf
from gearsets.toml_tables import TomlTable, parse_toml
from gearsets.toml_text import length_toml, list_toml, toml_string
from gearsets.wheel_boxes import read_screw_lead, read_stock, stock_toml
from solver.dividing.heads import Head, Plate
from solver.dividing.plate_gearing import AGAINST, FOLLOWS
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_ratio
from solver.refusals import UnreadableFigureError

#: Where head files stand.
HEADS = Shelf("head", "heads")
#: Fewest and most holes believed of one circle. [holes]
FEWEST_HOLES = 2
MOST_HOLES = 2000


def head_names() -> tuple[str, ...]:
    """Return the names of the shipped heads and rotary tables, sorted.

    Examples
    --------
    >>> "table-90" in head_names()
    True
    """
    return HEADS.shipped_names()


def find_head(word: str, environ: Mapping[str, str] | None = None) -> Head:
    """Load the head a word means: a path, else a person's own file, else a shipped one.

    Parameters
    ----------
    word : str
        A path or a name.
    environ : mapping, optional
        The environment; the process's own when left out.

    Returns
    -------
    Head
        The head.

    Raises
    ------
    UnknownNameError
        Nothing goes by that name; near names are given.
    FileFaultsError
        The file is there and faulty, or the path leads nowhere.

    Examples
    --------
    >>> find_head("head-60").worm_ratio
    Fraction(60, 1)
    """
    return load_head(HEADS.find(word, environ))


def load_head(path: str | Path) -> Head:
    """Load a head from a file.

    Raises
    ------
    FileFaultsError
        With every fault of the file.

    Examples
    --------
    >>> len(load_head(HEADS.shipped_folder / "head-60.toml").plates)
    3
    """
    return load_head_text(read_text_file(path), str(path))


def load_head_text(text: str, where: str) -> Head:
    r"""Load a head from the text of a file; a rotary table with nothing but a dial has no plates.

    Parameters
    ----------
    text : str
        The whole file.
    where : str
        How the person named it, for messages.

    Returns
    -------
    Head
        The head.

    Raises
    ------
    FileFaultsError
        With every fault of the file.

    Examples
    --------
    >>> load_head_text('name = "table"\nworm_ratio = 90', "mine.toml")
    Traceback (most recent call last):
    gearsets.file_faults.FileFaultsError: 1 fault in mine.toml:
      worm_ratio (line 2): is a whole number, not text; write for example "40"
    """
    root = parse_toml(text, where)
    head = Head(
        root.text("name", example="40:1 head, three plates"),
        root.figure("worm_ratio", read_ratio, example="40", default=Fraction(1), is_required=True),
        _plates(root),
        root.wholes("direct_circles", FEWEST_HOLES, MOST_HOLES),
        *_wheels_and_table(root),
    )
    root.finish()
    return head


def _plates(root: TomlTable) -> tuple[Plate, ...]:
    plates: list[Plate] = []
    for table in root.tables("plates"):
        name = table.text("name", example="A")
        faces = table.lists_of_wholes(
            "faces", FEWEST_HOLES, MOST_HOLES, example="[[15, 16, 17, 18, 19, 20]]", is_required=True
        )
        if name and any(plate.name == name for plate in plates):
            table.fault("name", "is the name of another plate too", "give each plate its own name")
        plates.append(Plate(name, faces))
    return tuple(plates)


def _wheels_and_table(root: TomlTable) -> tuple[tuple[tuple[int, int], ...], Length | None, bool | None]:
    stock: tuple[tuple[int, int], ...] = ()
    follows: bool | None = None
    if root.has("wheels"):
        wheels = root.table("wheels")
        stock = read_stock(wheels, is_required=True)
        follows = wheels.figure("one_idler_plate", read_plate_direction, example=FOLLOWS, default=None)
    return stock, _table_lead(root.table("table")) if root.has("table") else None, follows


def read_plate_direction(text: str) -> bool:
    """Read whether the plate follows the crank in a simple train with one idler.

    Raises
    ------
    UnreadableFigureError
        Neither of the two words.

    Examples
    --------
    >>> read_plate_direction("follows"), read_plate_direction("against")
    (True, False)
    """
    word = text.strip().lower()
    if word not in (FOLLOWS, AGAINST):
        raise UnreadableFigureError(text, 0, f"the plate either '{FOLLOWS}' the crank or turns '{AGAINST}' it")
    return word == FOLLOWS


def _table_lead(table: TomlTable) -> Length | None:
    return table.figure("lead", read_screw_lead, example="4 tpi", default=None, is_required=True)


def head_toml(head: Head) -> str:
    """Write a head as the text of a file that `load_head_text` reads back as an equal head.

    Examples
    --------
    >>> head = find_head("head-40-three-plates")
    >>> load_head_text(head_toml(head), "copy.toml") == head
    True
    """
    return "\n".join(_lines(head)) + "\n"


def _lines(head: Head) -> Iterator[str]:
    yield f"name = {toml_string(head.name)}"
    yield f"worm_ratio = {toml_string(str(head.worm_ratio))}"
    yield f"direct_circles = {list_toml(map(str, head.direct_circles))}"
    yield "plates = ["
    for plate in head.plates:
        faces = list_toml(list_toml(map(str, face)) for face in plate.faces)
        yield f"  {{ name = {toml_string(plate.name)}, faces = {faces} }},"
    yield "]"
    if head.wheels:
        yield from ("", "[wheels]", f"teeth = {stock_toml(head.wheels)}")
        if head.one_idler_follows is not None:
            direction = FOLLOWS if head.one_idler_follows else AGAINST
            yield f"one_idler_plate = {toml_string(direction)}  # simple train, one idler: how the plate turns"
    if head.table_lead is not None:
        yield from ("", "[table]", f"lead = {length_toml(head.table_lead)}")
