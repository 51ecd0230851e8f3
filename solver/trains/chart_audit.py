"""A whole threading chart: what each row really cuts, and which rows cannot be true together."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from enum import Enum
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, lead_bounds_mm
from solver.trains.chart_constant import ChartRow, Inference, infer_constant
from solver.trains.lathe import Lathe
from solver.trains.lead_error import LeadError, lead_error
from solver.trains.plate_row import constant_needed
from solver.trains.train_rules import broken_rules


class RowVerdict(Enum):
    """How a row stands against the constant it is judged by."""

    EXACT = "exact"
    NEAR = "near"
    INVERTED = "inverted"
    OFF = "off"


class RowFinding(NamedTuple):
    """What one row really cuts.

    Parameters
    ----------
    row : ChartRow
        As written.
    cut_lead : Length
        Lead it cuts under the constant; exact.
    error : LeadError
        Cut minus written.
    verdict : RowVerdict
        ``INVERTED`` when it agrees only with drivers and driven exchanged.
    needs : Length or PiLength
        Constant under which the row, as written, would be true.
    not_in_box : tuple of str
        What its train needs that the lathe's box does not hold; empty without a lathe.
    """

    row: ChartRow
    cut_lead: Length
    error: LeadError
    verdict: RowVerdict
    needs: Lead
    not_in_box: tuple[str, ...] = ()

    @property
    def is_true(self) -> bool:
        """True when the row as written cuts its thread, exactly or within the tolerance.

        Examples
        --------
        >>> from solver.trains.written_trains import read_train
        >>> row = ChartRow(2, "20 tpi", Length.of_inches("1/20"), read_train("40-100"))
        >>> cut = Length.of_inches("1/20")
        >>> RowFinding(row, cut, lead_error(cut, row.lead), RowVerdict.EXACT, cut).is_true
        True
        """
        return self.verdict in (RowVerdict.EXACT, RowVerdict.NEAR)


class Contradiction(NamedTuple):
    """Rows that cannot all be true on one lathe, whatever its constant.

    Parameters
    ----------
    rows : tuple of ChartRow
        Two at least.
    same_wheels : bool
        The wheels have one ratio and the threads differ; else the thread is one and the ratios differ.
    """

    rows: tuple[ChartRow, ...]
    same_wheels: bool


class ChartSheet(NamedTuple):
    """The rows of a chart that share one constant: all of them on a known lathe, else those of one lever.

    Parameters
    ----------
    lever : str or None
        The lever whose rows these are; ``None`` for the whole chart.
    inference : Inference
        The constant most rows agree under.
    judged_by : Length
        The constant the rows are judged by: the lathe's, or else the one inferred.
    findings : tuple of RowFinding
        In the order of the chart.
    contradictions : tuple of Contradiction
        In the order of their first rows.
    """

    lever: str | None
    inference: Inference
    judged_by: Length
    findings: tuple[RowFinding, ...]
    contradictions: tuple[Contradiction, ...]

    @property
    def all_true(self) -> bool:
        """True when every row cuts what it says and nothing contradicts it.

        Examples
        --------
        >>> from solver.trains.written_trains import read_train
        >>> row = ChartRow(2, "7 tpi", Length.of_inches("1/7"), read_train("48-84"))
        >>> audit_chart([row], Fraction(1, 1000))[0].all_true
        True
        """
        return all(finding.is_true for finding in self.findings) and not self.contradictions


def audit_chart(rows: Sequence[ChartRow], within: Fraction, lathe: Lathe | None = None) -> tuple[ChartSheet, ...]:
    """Work a chart forwards, row by row, and infer the constant it was made for.

    Parameters
    ----------
    rows : sequence of ChartRow
        One at least; on a lathe with a box every row names one of its levers.
    within : Fraction
        Largest relative error of a row that is taken as agreeing, 0 to below 1.
    lathe : Lathe, optional
        The lathe the rows are judged by; without it, each is judged by the constant most agree under.

    Returns
    -------
    tuple of ChartSheet
        One on a known lathe; else one for each lever the chart names, since their ratios are not known.

    Raises
    ------
    ValueError
        There are no rows, the tolerance is not 0 to 1, or a lever is not on the lathe.

    Examples
    --------
    >>> from solver.trains.written_trains import read_train
    >>> wheels = read_train("40-30")
    >>> rows = [ChartRow(2, "12 tpi", Length.of_inches("1/12"), wheels), ChartRow(3, "2 mm", Length.of_mm(2), wheels)]
    >>> sheet = audit_chart(rows, Fraction(1, 1000))[0]
    >>> sheet.inference.is_settled, [row.thread for row in sheet.contradictions[0].rows]
    (False, ['12 tpi', '2 mm'])
    """
    if lathe is not None:
        unknown = {row.lever for row in rows} - {name for name, _ in lathe.lever_ratios}
        if unknown:
            message = f"not on this lathe: {sorted(map(str, unknown))}"
            raise ValueError(message)
        return (_sheet(None, rows, within, lathe),)
    levers = dict.fromkeys(row.lever for row in rows)
    return tuple(_sheet(lever, [row for row in rows if row.lever == lever], within, None) for lever in levers)


def _sheet(lever: str | None, rows: Sequence[ChartRow], within: Fraction, lathe: Lathe | None) -> ChartSheet:
    ratios = dict(lathe.lever_ratios) if lathe is not None else {lever: Fraction(1)}
    inference = infer_constant(rows, within, tuple(ratios.items()))
    judged_by = lathe.lead_at_equal_wheels if lathe is not None else inference.first.constant
    findings = tuple(_finding(row, ratios[row.lever], judged_by, within, lathe) for row in rows)
    return ChartSheet(lever, inference, judged_by, findings, _contradictions(rows, ratios, within))


def _finding(
    row: ChartRow, lever_ratio: Fraction, constant: Length, within: Fraction, lathe: Lathe | None
) -> RowFinding:
    cut = constant * (row.train.ratio * lever_ratio)
    error = lead_error(cut, row.lead)
    turned = lead_error(constant * (lever_ratio / row.train.ratio), row.lead)
    if error.is_exact:
        verdict = RowVerdict.EXACT
    elif is_within(error, within):
        verdict = RowVerdict.NEAR
    else:
        verdict = RowVerdict.INVERTED if is_within(turned, within) else RowVerdict.OFF
    lacking = broken_rules(row.train, lathe) if lathe is not None else ()
    return RowFinding(row, cut, error, verdict, constant_needed(row.lead, row.train.ratio * lever_ratio), lacking)


def is_within(error: LeadError, within: Fraction) -> bool:
    """Say whether an error is proven to be no larger than a tolerance.

    Examples
    --------
    >>> is_within(LeadError(Fraction(-1, 4700), Fraction(0)), Fraction(1, 1000))
    True
    """
    return abs(error.relative) + error.bound <= within


def _contradictions(
    rows: Sequence[ChartRow], ratios: dict[str | None, Fraction], within: Fraction
) -> tuple[Contradiction, ...]:
    """Find rows of one ratio for several threads, and rows of several ratios for one thread."""
    found = []
    for same_wheels in (True, False):
        groups: dict[Hashable, list[tuple[ChartRow, Fraction]]] = {}
        for row in rows:
            ratio = row.train.ratio * ratios[row.lever]
            key: Hashable = ratio if same_wheels else row.lead
            low, high = lead_bounds_mm(row.lead)
            size = (low + high) / 2 if same_wheels else ratio
            groups.setdefault(key, []).append((row, size))
        for group in groups.values():
            sizes = [size for _, size in group]
            # Two rows may stand a tolerance off on either side of the truth.
            if max(sizes) * (1 - within) > min(sizes) * (1 + within):
                found.append(Contradiction(tuple(row for row, _ in group), same_wheels))
    return tuple(sorted(found, key=lambda each: (each.rows[0].line, each.same_wheels)))
