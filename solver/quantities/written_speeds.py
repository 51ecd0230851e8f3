"""Reading a written cutting speed, and a time the hand takes."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length

_SPEED_HELP = "Write for example 25 m/min or 90 ft/min."
_TIME_HELP = "Write for example 1 s."
_PER_MINUTE = {"m": Length.of_mm(1000), "ft": Length.of_inches(12), "mm": Length.of_mm(1), "in": Length.of_inches(1)}
_SECONDS = ("s", "sec", "second", "seconds")


def read_surface_speed(text: str) -> Length:
    """Read a surface speed, as the length that passes in one minute.

    Parameters
    ----------
    text : str
        For example ``25 m/min`` or ``90 ft/min``.

    Raises
    ------
    UnreadableFigureError
        No figure, zero, or another unit.

    Examples
    --------
    >>> read_surface_speed("90 ft/min").inches
    Fraction(1080, 1)
    """
    reader = FigureReader(text, _SPEED_HELP)
    figure = reader.number()
    if figure == 0:
        raise reader.refuse("a cutting speed is above zero", at=0)
    at = reader.at
    unit = _PER_MINUTE.get(reader.word().lower())
    if unit is None or reader.peek() != "/":
        raise reader.refuse("a cutting speed is in m/min or ft/min", at=at)
    reader.at += 1
    if reader.word().lower() not in ("min", "minute"):
        raise reader.refuse("a cutting speed is in m/min or ft/min", at=at)
    reader.finish()
    return unit * figure


def read_seconds(text: str) -> Fraction:
    """Read a time in seconds, above zero.

    Parameters
    ----------
    text : str
        For example ``1.5 s``.

    Raises
    ------
    UnreadableFigureError
        No figure, zero, or another unit.

    Examples
    --------
    >>> read_seconds("1.5 s")
    Fraction(3, 2)
    """
    reader = FigureReader(text, _TIME_HELP)
    figure = reader.number()
    at = reader.at
    if figure == 0 or reader.word().lower() not in _SECONDS:
        raise reader.refuse("a time is above zero and in seconds", at=at if figure else 0)
    reader.finish()
    return figure
