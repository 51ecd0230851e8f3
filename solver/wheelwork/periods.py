"""How long one turn of an arbor takes: days, hours, minutes and seconds, or a period of the sky by its name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.figure_reader import FigureReader
from solver.refusals import AmbiguousRequestError
from solver.wheelwork.written_ratios import WrittenFigure, written_decimal

SECONDS_PER_DAY = 86_400
#: Words for units of time, and the seconds each holds. A month or a year is none: it must say of what kind it is.
_UNITS = {
    "week": 604_800, "weeks": 604_800,
    "d": 86_400, "day": 86_400, "days": 86_400,
    "h": 3600, "hr": 3600, "hour": 3600, "hours": 3600,
    "min": 60, "minute": 60, "minutes": 60,
    "s": 1, "sec": 1, "second": 1, "seconds": 1,
}  # fmt: skip
PERIOD_HELP = (
    "Write for example 29.530589 days, 12 h, 29 d 12 h 44 min 2.9 s, synodic month or 19 tropical years; "
    "'halfnut counts --list-periods' lists the names."
)


@dataclass(frozen=True, slots=True)
class Period:
    """The time of one turn.

    Parameters
    ----------
    days : Fraction
        Mean solar days, above zero. [d]
    told : str
        As the person said it.
    give : Fraction
        How far it may be off by the last place written, as a part of it.
    """

    days: Fraction
    told: str
    give: Fraction = Fraction(0)

    @property
    def seconds(self) -> Fraction:
        """Seconds of the same time.

        Examples
        --------
        >>> Period(Fraction(1, 2), "12 h").seconds
        Fraction(43200, 1)
        """
        return self.days * SECONDS_PER_DAY


def read_period(text: str, named: Mapping[str, Period]) -> Period:
    """Read a period: figures with units, largest first, or a named period with a number before it.

    Parameters
    ----------
    text : str
        For example ``29.530589 days``, ``12 h``, ``29 d 12 h 44 min 2.9 s``, ``synodic month``, ``19 tropical years``.
    named : mapping of str to Period
        Periods by their names; small and capital letters are the same.

    Returns
    -------
    Period
        Exact.

    Raises
    ------
    UnreadableFigureError
        No figure, no unit, zero, or a name nobody knows.
    AmbiguousRequestError
        ``year``, ``month`` or a planet that has several periods.

    Examples
    --------
    >>> month = read_period("27.2 days", {})
    >>> read_period("29 d 12 h", {}).days, read_period("2 draconic months", {"draconic month": month}).days
    (Fraction(59, 2), Fraction(272, 5))
    """
    reader = FigureReader(text, PERIOD_HELP)
    told = " ".join(text.split())
    at = reader.at
    figure = written_decimal(reader) if _starts_figure(reader) else WrittenFigure(Fraction(1), Fraction(0))
    reader.skip_spaces()
    if _is_unit(reader):
        total = _counted(reader, figure)
        if total.value == 0:
            raise reader.refuse("a period is above zero", at=at)
        return Period(total.value / SECONDS_PER_DAY, told, total.give)
    if figure.value == 0:
        raise reader.refuse("a period is above zero", at=at)
    one = _named(reader, told, named)
    return Period(figure.value * one.days, told, figure.give + one.give)


def _starts_figure(reader: FigureReader) -> bool:
    return reader.starts_number() or reader.peek() in ("-", "\N{MINUS SIGN}")


def _is_unit(reader: FigureReader) -> bool:
    at = reader.at
    word = reader.word().lower()
    reader.skip_spaces()
    followed_by_figure = reader.is_done() or reader.starts_number()
    reader.at = at
    return word in _UNITS and followed_by_figure


def _counted(reader: FigureReader, figure: WrittenFigure) -> WrittenFigure:
    """Sum figures with units in seconds, the cursor before the first unit."""
    seconds, half_unit = Fraction(0), Fraction(0)
    smallest: int | None = None
    while True:
        at = reader.at
        unit = _UNITS.get(reader.word().lower())
        if unit is None:
            raise reader.refuse("a time needs its unit here", at=at)
        if smallest is not None and unit >= smallest:
            raise reader.refuse("the larger unit comes first, each once", at=at)
        seconds += figure.value * unit
        half_unit += figure.half_unit * unit
        smallest = unit
        reader.skip_spaces()
        if reader.is_done():
            return WrittenFigure(seconds, half_unit)
        figure = written_decimal(reader)
        reader.skip_spaces()


def _named(reader: FigureReader, told: str, named: Mapping[str, Period]) -> Period:
    name = " ".join(reader.text[reader.at :].casefold().split())
    singular = name.removesuffix("s")
    for known, period in named.items():
        if known.casefold() in (name, singular):
            return period
    if not name:
        raise reader.refuse("a time needs its unit here")
    kinds = [known for known in named if {name, singular} & set(known.casefold().split())]
    if kinds:
        raise AmbiguousRequestError(
            f"'{told[:60]}' may mean several periods",
            help_text=f"Say which: {', '.join(kinds[:12])}.",
        )
    raise reader.refuse("no unit of time and no known period")
