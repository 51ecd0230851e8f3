"""Dividing heads and rotary tables: reading a file with all its faults at once, finding one, writing one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path

from gearsets.file_faults import read_text_file
from gearsets.name_lookup import Shelf
from gearsets.toml_tables import TomlTable, parse_toml
from gearsets.toml_text import angle_toml, figure_text, length_toml, list_toml, toml_string
from gearsets.wheel_boxes import read_screw_lead, read_stock, stock_toml
from solver.dividing.heads import Head, Plate, SmallCrank
from solver.dividing.plate_gearing import AGAINST, FOLLOWS
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.written_angles import read_angle
from solver.quantities.written_lengths import read_ratio
from solver.refusals import UnreadableFigureError

#: Where head files stand.
HEADS = Shelf("head", "heads")
#: Fewest and most holes believed of one circle. [holes]
FEWEST_HOLES = 2
MOST_HOLES = 2000
#: Most places believed of the pin of an indexer.
MOST_PIN_PLACES = 100


def find_head(word: str, environ: Mapping[str, str] | None = None) -> Head:
    """Load the head a word means, as `Shelf.find` takes it; a file that is faulty or not there is refused.

    Examples
    --------
    >>> find_head("head-60").worm_ratio
    Fraction(60, 1)
    """
    return load_head(HEADS.find(word, environ))


def load_head(path: str | Path) -> Head:
    """Load a head from a file; every fault of it is named in one refusal.

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
    has_worm = root.has("worm_ratio") or not root.has("direct_circles") or root.is_empty("direct_circles")
    ratio = root.figure("worm_ratio", read_ratio, example="40", default=Fraction(1), is_required=has_worm)
    stock, table_lead, follows = _wheels_and_table(root)
    head = Head(
        root.text("name", example="40:1 head, three plates"),
        ratio,
        _plates(root),
        root.wholes("direct_circles", FEWEST_HOLES, MOST_HOLES),
        stock,
        table_lead,
        one_idler_follows=follows,
        has_worm=has_worm,
        dial_reading=_dial_reading(root.table("dial"), ratio) if root.has("dial") else None,
        pin_places=root.whole("pin_places", FEWEST_HOLES, MOST_PIN_PLACES),
        small_crank=_small_crank(root.table("small_crank")) if root.has("small_crank") else None,
    )
    _refuse_what_does_not_belong_together(root, head)
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


def _dial_reading(table: TomlTable, ratio: Fraction) -> Angle | None:
    reads = table.figure("reads", read_angle, example="1 min", default=None, is_required=True)
    if reads is not None and (reads.turns == 0 or (1 / (ratio * reads.turns)).denominator != 1):
        turn = figure_text(360 / ratio, "deg")
        table.fault("reads", f"does not go a whole number of times into {turn}, a turn of the handle", "count again")
        return None
    return reads


def _small_crank(table: TomlTable) -> SmallCrank:
    ratio = table.figure("ratio", read_ratio, example="100", default=Fraction(1), is_required=True)
    circles = table.wholes("circles", FEWEST_HOLES, MOST_HOLES, is_required=True)
    if table.is_empty("circles"):
        table.fault("circles", "is empty", "write circles = [100, 54]")
    return SmallCrank(ratio, circles)


def _refuse_what_does_not_belong_together(root: TomlTable, head: Head) -> None:
    """Note keys that mean nothing without another."""
    if not head.has_worm:
        for key in ("plates", "dial", "small_crank", "wheels"):
            if root.has(key):
                root.fault(
                    key, "belongs to a worm, and no worm_ratio is given", 'write worm_ratio = "40", or leave it out'
                )
    if head.pin_places is not None and not head.direct_circles:
        root.fault("pin_places", "parts the spaces of direct circles, and none is given", "write direct_circles = [36]")
    if head.small_crank is not None and not head.plates:
        root.fault("small_crank", "stands beside a large crank, and no plate is given for that", "write plates too")


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
    if head.has_worm:
        yield f"worm_ratio = {toml_string(str(head.worm_ratio))}"
    yield f"direct_circles = {list_toml(map(str, head.direct_circles))}"
    if head.pin_places is not None:
        yield f"pin_places = {head.pin_places}"
    if head.has_worm:
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
    if head.dial_reading is not None:
        yield from ("", "[dial]", f"reads = {angle_toml(head.dial_reading)}")
    if head.small_crank is not None:
        yield from ("", "[small_crank]", f"ratio = {toml_string(str(head.small_crank.ratio))}")
        yield f"circles = {list_toml(map(str, head.small_crank.circles))}"
