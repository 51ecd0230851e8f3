"""Parallel keys of the standard by the shaft they are for, read from their table only when asked for."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length

_TABLE = Path(__file__).parent / "keys" / "parallel.csv"


class StandardKey(NamedTuple):
    """One key and its keyways; ``status`` says how its figures were keyed.

    Parameters
    ----------
    over, up_to : Length
        Diameters of the shafts it is for.
    width, height : Length
        Section of the key.
    in_shaft, in_hub : Length
        Depth of its keyways, measured at the crown of the round.
    status : str
        ``memory``.
    """

    over: Length
    up_to: Length
    width: Length
    height: Length
    in_shaft: Length
    in_hub: Length
    status: str


@lru_cache
def standard_keys() -> tuple[StandardKey, ...]:
    """Read every key, by rising shaft.

    Examples
    --------
    >>> len(standard_keys()), standard_keys()[0].width
    (11, Length(mm=Fraction(2, 1)))
    """
    import csv

    lines = (line for line in _TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#"))
    return tuple(
        StandardKey(
            read_length(row["over"]),
            read_length(row["up_to"]),
            read_length(row["width"]),
            read_length(row["height"]),
            read_length(row["in_shaft"]),
            read_length(row["in_hub"]),
            row["status"],
        )
        for row in csv.DictReader(lines, strict=True)
    )


def key_for_shaft(shaft: Length) -> StandardKey | None:
    """Return the key the standard has for a shaft; ``None`` where the table does not reach.

    Examples
    --------
    >>> key_for_shaft(Length.of_mm(22)).width.mm, key_for_shaft(Length.of_mm("22.1")).width.mm
    (Fraction(6, 1), Fraction(8, 1))
    >>> key_for_shaft(Length.of_mm(6)) is None
    True
    """
    return next((key for key in standard_keys() if key.over < shaft <= key.up_to), None)


def key_of_width(width: Length) -> StandardKey | None:
    """Return the key of a width, whatever its shaft; ``None`` where the standard has none.

    Examples
    --------
    >>> key_of_width(Length.of_mm(8)).in_shaft, key_of_width(Length.of_mm(7)) is None
    (Length(mm=Fraction(4, 1)), True)
    """
    return next((key for key in standard_keys() if key.width == width), None)
