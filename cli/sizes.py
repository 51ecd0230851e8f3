"""Sizes that an option gives: lengths above zero."""

from __future__ import annotations

from collections.abc import Callable

from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import LENGTH_HELP, read_length


def read_size(text: str, what: str, read: Callable[[str], Length] = read_length) -> Length:
    """Read a length above zero; ``what`` names it in the refusal, ``read`` knows its units.

    Examples
    --------
    >>> read_size("25 mm", "a round")
    Length(mm=Fraction(25, 1))
    """
    length = read(text)
    if length.mm == 0:
        raise FigureReader(text, LENGTH_HELP).refuse(f"{what} is above zero", at=0)
    return length


def optional_size(text: str | None, what: str, read: Callable[[str], Length] = read_length) -> Length | None:
    """Read a length above zero where one is given.

    Examples
    --------
    >>> optional_size(None, "a round") is None
    True
    """
    return None if text is None else read_size(text, what, read)


def is_in_inches(text: str) -> bool:
    """Say whether a length that was read is written in inches.

    Examples
    --------
    >>> is_in_inches("1 in"), is_in_inches("25 mm")
    (True, False)
    """
    reader = FigureReader(text)
    reader.number()
    return not reader.word().lower().startswith("m")
