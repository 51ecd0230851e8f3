"""Reading a written angle: degrees, minutes, seconds, or a part of a turn."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.angles import ARCSEC_PER_TURN, Angle
from solver.quantities.figure_reader import FigureReader

#: Words for the units of an angle, and how many seconds of arc each holds.
_UNITS = {
    # The second sign is the ordinal mark, which many keyboards give for the degree.
    "°": 3600, "º": 3600, "deg": 3600, "degree": 3600, "degrees": 3600, "d": 3600,
    "'": 60, "′": 60, "min": 60, "minute": 60, "minutes": 60,
    '"': 1, "″": 1, "sec": 1, "second": 1, "seconds": 1,
    "turn": ARCSEC_PER_TURN, "turns": ARCSEC_PER_TURN,
}  # fmt: skip

ANGLE_HELP = "Write for example 37.5 deg, 37°30', 0°20'15\" or 1/7 turn."


def read_angle(text: str, *, signed: bool = False) -> Angle:
    """Read an angle with its units, largest unit first.

    Parameters
    ----------
    text : str
        For example ``37.5 deg``, ``37°30'``, ``1/7 turn``.
    signed : bool, optional
        Take a minus sign, as a swing on a banjo has one.

    Returns
    -------
    Angle
        Exact, in turns.

    Raises
    ------
    UnreadableFigureError
        With a marker under the character that stands in the way.

    Examples
    --------
    >>> read_angle("37°30'") == read_angle("37.5 deg") == Angle(Fraction(5, 48))
    True
    """
    reader = FigureReader(text, ANGLE_HELP)
    sign = 1
    if signed and reader.peek() in ("-", "\N{MINUS SIGN}"):
        sign = -1
        reader.at += 1
        reader.skip_spaces()
    seconds = Fraction(0)
    smallest = ARCSEC_PER_TURN + 1
    while not reader.is_done():
        at = reader.at
        figure = reader.number()
        unit_at = reader.at
        unit = _UNITS.get(reader.word().lower())
        if unit is None:
            raise reader.refuse("an angle needs its unit here", at=unit_at)
        if unit >= smallest:
            raise reader.refuse("degrees come before minutes, minutes before seconds, each once", at=at)
        if smallest <= 3600 and figure >= 60:
            raise reader.refuse("minutes and seconds after a larger unit are below 60", at=at)
        seconds += figure * unit
        smallest = unit
        reader.skip_spaces()
    return Angle(sign * seconds / ARCSEC_PER_TURN)
