"""Reading and writing lengths, wheel sizes and ratios of a shop file."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import MM_PER_INCH, Length
from solver.quantities.pitch_words import word_of_unit

_INCH_WORDS = ("in", "inch", "inches", '"', "″")
LENGTH_HELP = "Write for example 150 mm or 1/4 in."
_SMALL_HELP = "Write for example 5 um, 0.01 mm or 1 thou."
_FEED_HELP = "Write for example 0.1 mm, 0.004 in or 4 thou, alone or per turn."
_THOU_WORDS, _TURN_WORDS = ("thou", "thous"), ("turn", "rev", "revolution", "r")
_WHEEL_HELP = "Write module 1 or 20 DP."
_MODULE_HELP = "Write for example 0.7, 0.7 mm or module 0.7."
_MODULE_WORDS = ("module", "mod", "m")
_RATIO_HELP = "Write for example 1/2, 1:2 or 40."
_MM_WORDS = ("mm", "millimetre", "millimetres", "millimeter", "millimeters")
#: What one of a unit is, by each of its words.
_LENGTH_WORDS = dict.fromkeys(_MM_WORDS, Length.of_mm(1)) | dict.fromkeys(_INCH_WORDS, Length.of_inches(1))
_FEED_WORDS = _LENGTH_WORDS | dict.fromkeys(_THOU_WORDS, Length.of_inches("1/1000"))


def read_length(text: str) -> Length:
    """Read a length such as ``150 mm`` or ``1/4 in``.

    Parameters
    ----------
    text : str
        Figure and unit.

    Returns
    -------
    Length
        Exact.

    Raises
    ------
    UnreadableFigureError
        No figure, no unit, or another unit.

    Examples
    --------
    >>> read_length("1/4 in")
    Length(mm=Fraction(127, 20))
    """
    reader = FigureReader(text, LENGTH_HELP)
    length = _figure_and_unit(reader, _LENGTH_WORDS, "a length needs its unit, mm or in")
    reader.finish()
    return length


def _figure_and_unit(reader: FigureReader, units: dict[str, Length], missing: str) -> Length:
    """Read so many of a unit; ``missing`` is what is said where none of them stands."""
    figure = reader.number()
    at = reader.at
    unit = units.get(reader.word().lower())
    if unit is None:
        raise reader.refuse(missing, at=at)
    return unit * figure


def read_feed(text: str) -> Length:
    """Read a feed: a length, or thou, alone or for each turn, as ``0.1 mm/rev`` or ``4 thou per turn``.

    Examples
    --------
    >>> read_feed("0.1 mm/rev") == read_feed("0.1 mm per turn") == read_feed("0.1mm")
    True
    >>> read_feed("4 thou").inches
    Fraction(1, 250)
    """
    reader = FigureReader(text, _FEED_HELP)
    length = _figure_and_unit(reader, _FEED_WORDS, "a feed needs its unit, mm, in or thou")
    reader.skip_spaces()
    at = reader.at
    if not reader.is_done():
        if reader.peek() == "/":
            reader.at += 1
        elif reader.word().lower() not in ("per", "a"):
            raise reader.refuse("after a feed only the turn may stand", at=at)
        at = reader.at
        if reader.word().lower() not in _TURN_WORDS:
            raise reader.refuse("a feed is for each turn of the work", at=at)
    reader.finish()
    return length


def read_micrometres(text: str) -> Length:
    """Read a small length such as ``5 um``, ``5 µm``, ``0.01 mm`` or ``1 thou``.

    Examples
    --------
    >>> read_micrometres("5 um")
    Length(mm=Fraction(1, 200))
    """
    reader = FigureReader(text, _SMALL_HELP)
    figure = reader.number()
    word = reader.word().lower()
    if word in ("um", "µm", "μm"):
        reader.finish()
        return Length.of_mm(figure / 1000)
    if word in _THOU_WORDS:
        reader.finish()
        return Length.of_inches(figure / 1000)
    return read_length(text)


def read_wheel_module(text: str) -> Length:
    """Read a wheel size, ``module 1`` or ``20 DP``, as millimetres of diameter per tooth.

    Examples
    --------
    >>> read_wheel_module("20 DP")
    Length(mm=Fraction(127, 100))
    """
    figure, is_dp = read_wheel_size(text)
    return Length.of_mm(MM_PER_INCH / figure if is_dp else figure)


def read_wheel_size(text: str) -> tuple[Fraction, bool]:
    """Read the figure of a wheel size, and say whether it is a DP; its word may stand before it, as of a pitch.

    Examples
    --------
    >>> [str(read_wheel_size(text)[0]) for text in ("48 DP", "DP 48", "D.P. 12 1/2", "module 0.5")]
    ['48', '48', '25/2', '1/2']
    """
    reader = FigureReader(text, _WHEEL_HELP)
    is_behind = reader.starts_number()
    before = "" if is_behind else word_of_unit(reader)
    if not is_behind and before not in (*_MODULE_WORDS, "dp"):
        raise reader.refuse("a wheel size is a module or a DP", at=0)
    reader.skip_spaces()
    at = reader.at
    figure = reader.number()
    if figure == 0:
        raise reader.refuse("a wheel size is above zero", at=at)
    if is_behind and word_of_unit(reader) != "dp":
        raise reader.refuse("a wheel size is a module or a DP")
    reader.finish()
    return figure, before not in _MODULE_WORDS


def read_module(text: str) -> Length:
    """Read a module where a module is asked for: ``0.7``, ``0.7 mm`` or ``module 0.7``.

    Examples
    --------
    >>> read_module("0.7") == read_module("0.7mm") == read_module("module 0.7") == Length.of_mm("0.7")
    True
    """
    reader = FigureReader(text, _MODULE_HELP)
    if reader.peek().isalpha() and reader.word().lower() not in _MODULE_WORDS:
        raise reader.refuse("a module is a figure, in millimetres", at=0)
    reader.skip_spaces()
    at = reader.at
    figure = reader.number()
    if figure == 0:
        raise reader.refuse("a module is above zero", at=at)
    reader.skip_spaces()
    at = reader.at
    if reader.peek().isalpha() and reader.word().lower() not in _MM_WORDS:
        raise reader.refuse("a module is in millimetres", at=at)
    reader.finish()
    return Length.of_mm(figure)


def read_gear_size(text: str) -> Length:
    """Read the size of a gear's teeth: a module however it is written, or a DP.

    Examples
    --------
    >>> read_gear_size("2") == read_gear_size("module 2"), read_gear_size("20 DP")
    (True, Length(mm=Fraction(127, 100)))
    >>> read_gear_size("DP 20") == read_gear_size("20 DP")
    True
    """
    word = text.strip().upper()
    return read_wheel_module(text) if word.endswith("DP") or word.startswith("D") else read_module(text)


def read_ratio(text: str) -> Fraction:
    """Read a bare ratio such as ``1/2``, ``1:2`` or ``40``; above zero.

    Examples
    --------
    >>> read_ratio("3/4"), read_ratio("1:2"), read_ratio("40")
    (Fraction(3, 4), Fraction(1, 2), Fraction(40, 1))
    """
    reader = FigureReader(text, _RATIO_HELP)
    ratio = reader.number()
    if reader.peek() == ":":
        reader.at += 1
        at = reader.at
        divisor = reader.number()
        if divisor == 0:
            raise reader.refuse("nothing can be divided by zero", at=at)
        ratio /= divisor
    reader.finish()
    if ratio == 0:
        raise reader.refuse("a ratio is above zero", at=0)
    return ratio
