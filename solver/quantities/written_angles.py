"""Reading a written angle: degrees, minutes, seconds, or a part of a turn."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.angles import ARCSEC_PER_TURN, Angle
from solver.quantities.figure_reader import FigureReader

#: Words for the units of an angle, and how many seconds of arc each holds.
_UNITS = {
    # The second sign is the ordinal mark, which many keyboards give for the degree.
    "°": 3600, "º": 3600, "deg": 3600, "degree": 3600, "degrees": 3600, "d": 3600,
    "'": 60, "′": 60, "min": 60, "mins": 60, "minute": 60, "minutes": 60, "arcmin": 60, "arcminute": 60,
    "arcminutes": 60,
    '"': 1, "″": 1, "sec": 1, "secs": 1, "second": 1, "seconds": 1, "arcsec": 1, "arcsecond": 1, "arcseconds": 1,
    "turn": ARCSEC_PER_TURN, "turns": ARCSEC_PER_TURN,
}  # fmt: skip

#: What may join degrees, minutes and seconds written without units.
_JOINTS = ("-", ":")
#: Units that an angle is not read in, since none of their figures is an exact part of a turn.
_RADIANS = ("rad", "radian", "radians", "mrad")
ANGLE_HELP = "Write for example 37.5 deg, 37°30', 0°20'15\" or 1/7 turn."


def read_angle(text: str, *, signed: bool = False) -> Angle:
    """Read an angle with its units, largest unit first.

    Parameters
    ----------
    text : str
        For example ``37.5 deg``, ``37°30'``, ``37-30-15``, ``1/7 turn``, ``1/7 of a turn``.
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
        if smallest > ARCSEC_PER_TURN and reader.peek() in _JOINTS and figure.denominator == 1:
            seconds = figure * 3600 + _minutes_and_seconds(reader)
            break
        unit = _unit(reader)
        if unit >= smallest:
            raise reader.refuse("degrees come before minutes, minutes before seconds, each once", at=at)
        if smallest <= 3600 and figure >= 60:
            raise reader.refuse("minutes and seconds after a larger unit are below 60", at=at)
        seconds += figure * unit
        smallest = unit
        reader.skip_spaces()
    return Angle(sign * seconds / ARCSEC_PER_TURN)


def _unit(reader: FigureReader) -> int:
    """Read a unit, and say how many seconds of arc it holds."""
    at = reader.at
    word = reader.word().lower()
    if word in _RADIANS:
        raise reader.refuse(
            "radians are not read: no figure of them is an exact part of a turn",
            at=at,
            help_text="Write the angle in degrees or as a part of a turn: 1 rad is 57.29578 deg, pi/4 rad is 1/8 turn.",
        )
    if word == "of" and (word := reader.word().lower()) in ("a", "one", "the"):
        word = reader.word().lower()
        if word not in ("turn", "circle"):
            raise reader.refuse("a part of a turn was expected here", at=at)
        return ARCSEC_PER_TURN
    unit = _UNITS.get(word)
    if unit is None:
        raise reader.refuse("an angle needs its unit here", at=at)
    return unit


def _minutes_and_seconds(reader: FigureReader) -> Fraction:
    """Read the ``-30-15`` of ``37-30-15``: with two joints it can be nothing but degrees, minutes and seconds."""
    joint, start = reader.peek(), reader.at
    reader.at += 1
    at = reader.at
    minutes = reader.whole() if reader.starts_number() else 60
    if reader.peek() != joint:
        help_text = "With seconds, 37-30-15, it is read; else write the units: 37 deg 30 min."
        raise reader.refuse("an angle needs its unit here", at=start, help_text=help_text)
    reader.at += 1
    seconds = reader.decimal() if reader.starts_number() else Fraction(60)
    if minutes >= 60 or seconds >= 60:
        raise reader.refuse("minutes and seconds after a larger unit are below 60", at=at)
    reader.finish()
    return minutes * 60 + seconds
