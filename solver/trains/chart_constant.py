"""Which constant, leadscrew lead times fixed ratio, most rows of a threading chart agree under."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import MM_PER_INCH, Length
from solver.quantities.pi_multiples import Lead, lead_bounds_mm
from solver.trains.plate_row import constant_needed
from solver.trains.wheels import Train

#: A constant whose fraction of an inch or of a millimetre holds no larger number is a figure a lathe is built to.
PLAIN_FIGURE = 100
#: A leadscrew near what the rows need is looked for in halves of a thread to the inch and in quarters of a millimetre.
_PARTS_OF_A_THREAD = 2
_PARTS_OF_A_MM = 4
#: Denominator kept of a constant that only a multiple of pi points at. [parts of a millimetre]
_PI_PARTS = 1000
#: Most constants named beside the first.
MOST_SECOND = 3


class ChartRow(NamedTuple):
    """One row of a threading chart.

    Parameters
    ----------
    line : int
        Line of the file, for messages.
    thread : str
        The thread as it is written.
    lead : Length or PiLength
        Its lead.
    train : Train
        Its wheels, spindle side first.
    lever : str or None
        Gearbox position; ``None`` where the chart names none.
    idlers : int
        Idlers written into the train; they change no lead.
    """

    line: int
    thread: str
    lead: Lead
    train: Train
    lever: str | None = None
    idlers: int = 0


class ConstantVote(NamedTuple):
    """A constant, and the rows that agree under it.

    Parameters
    ----------
    constant : Length
        Lead cut with equal wheels.
    exact : tuple of ChartRow
        Rows that cut their thread exactly under it.
    near : tuple of ChartRow
        Rows within the tolerance.
    is_inverted : bool
        The rows agree with drivers and driven exchanged.
    """

    constant: Length
    exact: tuple[ChartRow, ...]
    near: tuple[ChartRow, ...]
    is_inverted: bool = False

    @property
    def rows(self) -> tuple[ChartRow, ...]:
        """All rows that agree, in the order of the chart.

        Examples
        --------
        >>> ConstantVote(Length.of_mm(3), (), ()).rows
        ()
        """
        return tuple(sorted((*self.exact, *self.near), key=lambda row: row.line))


class Inference(NamedTuple):
    """The constants of a chart.

    Parameters
    ----------
    first : ConstantVote
        The constant under which most rows agree.
    others : tuple of ConstantVote
        Those that explain the rows the first leaves over, each with the rows left over by all before it.
    """

    first: ConstantVote
    others: tuple[ConstantVote, ...]

    @property
    def is_settled(self) -> bool:
        """True when more rows agree under the first constant than under any other.

        Examples
        --------
        >>> from solver.trains.written_trains import read_train
        >>> vote = ConstantVote(Length.of_mm(3), (ChartRow(2, "3 mm", Length.of_mm(3), read_train("40-40")),), ())
        >>> Inference(vote, ()).is_settled, Inference(vote, (vote,)).is_settled
        (True, False)
        """
        return bool(self.first.rows) and all(len(self.first.rows) > len(other.rows) for other in self.others)


class _Need(NamedTuple):
    """What one row needs: the middle of the constant in millimetres, and whether that is all of it."""

    mm: Fraction
    is_plain: bool
    row: ChartRow


def infer_constant(
    rows: Sequence[ChartRow], within: Fraction, ratios: Sequence[tuple[str | None, Fraction]] = ((None, Fraction(1)),)
) -> Inference:
    """Find the constant under which most rows agree.

    Each row needs one constant. Rows that need the same fraction agree exactly; a row within the tolerance agrees
    nearly. The constant with most rows comes first; among equals one that a lathe is built to, then the one
    with most exact rows, then the simplest. Drivers and driven are taken as exchanged throughout only when that brings
    more rows together than the chart as written.

    Parameters
    ----------
    rows : sequence of ChartRow
        One at least.
    within : Fraction
        Largest relative error of a row that agrees nearly, below 1.
    ratios : sequence of (str or None, Fraction), optional
        Gearbox ratio of each lever named in the rows; a lever not named counts as 1.

    Returns
    -------
    Inference
        The first constant and those for the rows it leaves over.

    Raises
    ------
    ValueError
        There are no rows, or the tolerance is not 0 to 1.

    Examples
    --------
    >>> from solver.trains.written_trains import read_train
    >>> plate = ((7, "48-84"), (19, "20-95"), (12, "20-80"))
    >>> rows = [ChartRow(at, f"{tpi} tpi", Length.of_inches(Fraction(1, tpi)), read_train(train))
    ...         for at, (tpi, train) in enumerate(plate, start=2)]
    >>> found = infer_constant(rows, Fraction(1, 1000))
    >>> found.first.constant == Length.of_inches("1/4"), [row.line for row in found.first.rows]
    (True, [2, 3])
    >>> found.others[0].constant.inches, found.is_settled
    (Fraction(1, 3), True)
    """
    if not rows or not 0 <= within < 1:
        message = "a constant is inferred from one row at least, within 0 to 1"
        raise ValueError(message)
    known = dict(ratios)
    first = _best(rows, within, known, is_inverted=False)
    turned = _best(rows, within, known, is_inverted=True)
    if len(turned.rows) > len(first.rows):
        first = turned
    others: list[ConstantVote] = []
    exchanged = _best_of([first.constant.mm], _needs(rows, known, is_inverted=not first.is_inverted), within)
    # A row that agrees with its wheels exchanged is explained already, and speaks for no other constant.
    left = _without(_without(rows, first), exchanged)
    while left and len(others) < MOST_SECOND:
        other = _best(left, within, known, is_inverted=first.is_inverted)
        if not other.rows:
            break
        others.append(other)
        left = _without(left, other)
    return Inference(first, tuple(others))


def _without(rows: Sequence[ChartRow], vote: ConstantVote) -> list[ChartRow]:
    agreeing = {row.line for row in vote.rows}
    return [row for row in rows if row.line not in agreeing]


def _best(
    rows: Sequence[ChartRow], within: Fraction, ratios: dict[str | None, Fraction], *, is_inverted: bool
) -> ConstantVote:
    needs = _needs(rows, ratios, is_inverted=is_inverted)
    return _best_of(_candidates(needs, within), needs, within)._replace(is_inverted=is_inverted)


def _best_of(candidates: Iterable[Fraction], needs: Sequence[_Need], within: Fraction) -> ConstantVote:
    """Return the first of some constants by the rows whose needs, sorted, it meets."""
    middles = [need.mm for need in needs]
    exact_counts = Counter(need.mm for need in needs if need.is_plain)

    def span(constant: Fraction) -> tuple[int, int]:
        # |constant / need - 1| <= within, solved for the need.
        return bisect_left(middles, constant / (1 + within)), bisect_right(middles, constant / (1 - within))

    def rank(constant: Fraction) -> tuple[int, bool, int, int, Fraction]:
        start, end = span(constant)
        size = figure_size(constant)
        return start - end, size > PLAIN_FIGURE, -exact_counts[constant], size, constant

    chosen = min(candidates, key=rank)
    start, end = span(chosen)
    agreeing = sorted(needs[start:end], key=lambda need: need.row.line)
    exact = tuple(need.row for need in agreeing if need.is_plain and need.mm == chosen)
    near = tuple(need.row for need in agreeing if not (need.is_plain and need.mm == chosen))
    return ConstantVote(Length(chosen), exact, near)


def _needs(rows: Sequence[ChartRow], ratios: dict[str | None, Fraction], *, is_inverted: bool) -> list[_Need]:
    return sorted(_need(row, ratios.get(row.lever, Fraction(1)), is_inverted=is_inverted) for row in rows)


def _need(row: ChartRow, lever_ratio: Fraction, *, is_inverted: bool) -> _Need:
    wheels = 1 / row.train.ratio if is_inverted else row.train.ratio
    low, high = lead_bounds_mm(constant_needed(row.lead, wheels * lever_ratio))
    return _Need((low + high) / 2, low == high, row)


def _candidates(needs: Sequence[_Need], within: Fraction) -> set[Fraction]:
    """List the constants worth trying: what each row needs, and a plain figure near it."""
    found: set[Fraction] = set()
    for need in needs:
        # A pi row needs no fraction of its own; a near one of few parts stands for it, where it is not nothing.
        found.add(need.mm if need.is_plain else need.mm.limit_denominator(_PI_PARTS))
        found |= {each for each in _plain_figures(need.mm) if abs(each / need.mm - 1) <= within}
    return found - {Fraction(0)} or {need.mm for need in needs}


def _plain_figures(mm: Fraction) -> list[Fraction]:
    tpi = Fraction(round(MM_PER_INCH / mm * _PARTS_OF_A_THREAD), _PARTS_OF_A_THREAD)
    whole = Fraction(round(mm * _PARTS_OF_A_MM), _PARTS_OF_A_MM)
    return [whole] if tpi == 0 else [MM_PER_INCH / tpi, whole]


def figure_size(mm: Fraction) -> int:
    """Return the largest number in the fraction, of an inch or of a millimetre, whichever is simpler.

    Examples
    --------
    >>> figure_size(Fraction(127, 40)), figure_size(Fraction(3)), figure_size(Fraction(25400, 8001))
    (8, 3, 200)
    """
    return min(_largest(mm), _largest(mm / MM_PER_INCH))


def is_inch_figure(length: Length) -> bool:
    """Say whether a length is written more simply in inches than in millimetres.

    Examples
    --------
    >>> is_inch_figure(Length.of_inches("1/20")), is_inch_figure(Length.of_mm("0.2"))
    (True, False)
    """
    return _largest(length.inches) < _largest(length.mm)


def _largest(value: Fraction) -> int:
    return max(value.numerator, value.denominator)
