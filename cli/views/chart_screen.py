"""The terminal screen and the JSON of a threading chart that was audited."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from rich.console import Console

from cli.views import answer_json
from cli.views.cautions import chart_cautions
from cli.views.screen import answers_table, console, facts_table, print_answers, print_list
from cli.views.shop_figures import approximate, length_text, signed
from gearsets.name_lookup import shown
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import MM_PER_INCH, Length
from solver.quantities.pi_multiples import Lead, lead_bounds_mm
from solver.quantities.pitches import figure_text
from solver.trains.chart_audit import ChartSheet, Contradiction, RowFinding, RowVerdict
from solver.trains.chart_constant import ChartRow, ConstantVote, is_inch_figure
from solver.trains.lathe import Lathe

#: Most lines of the file named in one list.
MOST_LINES = 12
#: Most different threads or trains named of rows that contradict one another.
MOST_DIFFERENT = 4
#: Spindle turns of the trial that tells one constant from another.
TRIAL_TURNS = 10
#: Threads to the inch are whole numbers, or parts no finer than this.
FINEST_PART = 8
_VERDICTS = {
    RowVerdict.EXACT: "exact",
    RowVerdict.NEAR: "near",
    RowVerdict.INVERTED: "EXCHANGED",
    RowVerdict.OFF: "NO",
}


def show_chart(path: str, sheets: Sequence[ChartSheet], lathe: Lathe | None, within: Fraction) -> None:
    """Print each sheet of a chart: its constant, its rows, and what contradicts what."""
    out = console()
    count = sum(len(sheet.findings) for sheet in sheets)
    rows = [("Chart", f"{shown(path)}, {count} row{'s' if count != 1 else ''}")]
    if lathe is not None:
        constant = constant_text(lathe.lead_at_equal_wheels)
        rows.append(("Lathe", f"{lathe.name}; equal wheels cut {constant}: rows are judged by this"))
    rows.append(("Within", f"{signed(within * 1_000_000).removeprefix('+')} ppm counts as near"))
    rows.append(("Finding", _finding_text(sheets, is_on_lathe=lathe is not None)))
    out.print(facts_table(rows))
    for sheet in sheets:
        _show_sheet(out, sheet, lathe)
    lacking = [
        f"line {finding.row.line}, {finding.row.thread}: {'; '.join(finding.not_in_box)}"
        for sheet in sheets
        for finding in sheet.findings
        if finding.not_in_box
    ]
    print_list(out, "Wheels the box does not hold", _shortened(lacking))
    print_list(out, "To prove the constant", _trial_lines(sheets))
    print_list(out, "Cautions", chart_cautions())


def _finding_text(sheets: Sequence[ChartSheet], *, is_on_lathe: bool) -> str:
    findings = [finding for sheet in sheets for finding in sheet.findings]
    true = sum(finding.is_true for finding in findings)
    if true == len(findings):
        return "every row cuts what it says"
    if not is_on_lathe and not all(sheet.inference.is_settled for sheet in sheets):
        return "the rows speak for several constants, none with more rows than another: they cannot all be true"
    return f"{true} of {len(findings)} rows cut what they say; {len(findings) - true} do not"


def _show_sheet(out: Console, sheet: ChartSheet, lathe: Lathe | None) -> None:
    out.print()
    if sheet.lever is not None:
        out.print(f"Lever {sheet.lever}", style="bold")
    out.print(facts_table(_constant_rows(sheet, lathe)))
    out.print()
    table = answers_table(
        (("Line", "right"), ("Thread", "left"), ("Train", "left"), ("Cuts", "left"), ("ppm", "right"),
         ("Verdict", "left"), ("Needs", "left"))
    )  # fmt: skip
    for finding in sheet.findings:
        table.add_row(
            f"{finding.row.line}",
            finding.row.thread,
            train_text(finding.row),
            _in_figures_of(finding.row.lead, finding.cut_lead),
            "exact" if finding.error.is_exact else signed(finding.error.ppm),
            _VERDICTS[finding.verdict],
            ""
            if finding.is_true
            else _in_figures_of(sheet.judged_by, finding.needs)
            if isinstance(finding.needs, Length)
            else short_text(finding.needs),
        )
    print_answers(out, table)
    if any(not finding.error.is_exact for finding in sheet.findings):
        out.print("ppm: + is a lead too long, - too short. Needs = the constant that would make the row true.")
    print_list(out, "Rows with drivers and driven exchanged", _shortened([*map(_exchanged_line, _exchanged(sheet))]))
    print_list(out, "Rows that cannot all be true", _shortened([*map(_contradiction_line, sheet.contradictions)]))


def _constant_rows(sheet: ChartSheet, lathe: Lathe | None) -> list[tuple[str, str]]:
    first, others = sheet.inference.first, sheet.inference.others
    rows = [("Constant", f"{constant_text(first.constant)}, leadscrew × fixed ratio; {_votes_text(first, sheet)}")]
    if first.is_inverted:
        rows.append(
            ("", "this holds with drivers and driven exchanged in every row: the chart reads from the leadscrew")
        )
    if others and not sheet.inference.is_settled:
        rows.append(("", "as many rows speak for another constant: the chart alone does not settle it"))
    if lathe is not None and first.constant != sheet.judged_by:
        rows.append(("", f"the chart seems made for this constant, not for {constant_text(sheet.judged_by)}"))
    for other in others:
        rows.append(
            ("Second" if other is others[0] else "", f"{constant_text(other.constant)}; {_votes_text(other, sheet)}")
        )
    return rows


def _votes_text(vote: ConstantVote, sheet: ChartSheet) -> str:
    agreeing, of_all = len(vote.rows), len(sheet.findings)
    nearly = f", {len(vote.near)} of them nearly" if vote.near else ""
    if agreeing == of_all:
        return f"every row agrees{nearly}"
    if agreeing == 0:
        return "no row agrees within the tolerance"
    if agreeing == 1:
        return f"{_lines_text(vote.rows)} alone agrees{' nearly' if vote.near else ''}"
    return f"{agreeing} of {of_all} rows agree{nearly}: {_lines_text(vote.rows)}"


def _lines_text(rows: Sequence[ChartRow]) -> str:
    named = ", ".join(f"{row.line}" for row in rows[:MOST_LINES])
    more = f" and {len(rows) - MOST_LINES} more" if len(rows) > MOST_LINES else ""
    return f"line{'s' if len(rows) > 1 else ''} {named}{more}"


def _shortened(lines: Sequence[str]) -> list[str]:
    more = len(lines) - MOST_LINES
    return [*lines[:MOST_LINES], *([f"and {more} more"] if more > 0 else [])]


def _exchanged(sheet: ChartSheet) -> list[RowFinding]:
    return [finding for finding in sheet.findings if finding.verdict is RowVerdict.INVERTED]


def _exchanged_line(finding: RowFinding) -> str:
    row = finding.row
    return f"line {row.line}: {row.train} for {row.thread}; {row.train.inverted} cuts it"


def _contradiction_line(each: Contradiction) -> str:
    if each.same_wheels:
        threads = _joined(row.thread for row in each.rows)
        return (
            f"{_lines_text(each.rows)}: wheels of one ratio, {train_text(each.rows[0])}, for {threads}; "
            "true only on lathes of different constants"
        )
    trains = _joined(train_text(row) for row in each.rows)
    return f"{_lines_text(each.rows)}: {each.rows[0].thread} by {trains}, which differ in ratio"


def _joined(texts: Iterable[str]) -> str:
    different = list(dict.fromkeys(texts))
    more = len(different) - MOST_DIFFERENT
    return " and ".join(different[:MOST_DIFFERENT]) + (f" and {more} more" if more > 0 else "")


def _in_figures_of(asked: Lead, cut: Length) -> str:
    """Write what is cut as the chart writes what was wanted: threads to the inch beside threads to the inch."""
    if isinstance(asked, Length) and is_inch_figure(asked):
        return f"{_per_inch_text(cut)} tpi"
    return f"{approximate(cut.mm, 4)} mm"


def _per_inch_text(length: Length) -> str:
    per_inch = MM_PER_INCH / length.mm
    return figure_text(per_inch) if per_inch.denominator <= FINEST_PART else approximate(per_inch, 3)


def _trial_lines(sheets: Sequence[ChartSheet]) -> list[str]:
    """Say how far equal wheels carry the tool, for each constant a chart without levers speaks for."""
    if len(sheets) != 1 or sheets[0].lever is not None:
        return []
    inference = sheets[0].inference
    votes = (inference.first, *inference.others[:1])
    constants = dict.fromkeys((sheets[0].judged_by, *(vote.constant for vote in votes)))
    moves = "; ".join(f"{length_text(each * TRIAL_TURNS)} for {constant_text(each)}" for each in constants)
    return [f"with equal wheels, {TRIAL_TURNS} turns of the spindle move the carriage {moves}"]


def train_text(row: ChartRow) -> str:
    """Write a train with its idlers after it.

    Examples
    --------
    >>> from solver.trains.written_trains import read_train
    >>> train_text(ChartRow(2, "2 mm", Length.of_mm(2), read_train("40-30"), None, 1))
    '40-30 +idler'
    """
    if row.idlers == 0:
        return str(row.train)
    return f"{row.train} +{'idler' if row.idlers == 1 else f'{row.idlers} idlers'}"


def short_text(lead: Lead) -> str:
    """Write a lead in one figure: threads to the inch where that is simpler, else millimetres.

    Examples
    --------
    >>> short_text(Length.of_inches("1/20")), short_text(Length.of_mm("1.25")), short_text(Length.of_inches("3/23"))
    ('20 tpi', '1.25 mm', '7 2/3 tpi')
    """
    if not isinstance(lead, Length):
        low, high = lead_bounds_mm(lead)
        return f"≈{trimmed_decimal_text((low + high) / 2, 4)} mm"
    return f"{_per_inch_text(lead)} tpi" if is_inch_figure(lead) else f"{approximate(lead.mm, 4)} mm"


def constant_text(constant: Length) -> str:
    """Write a constant in both systems, the simpler first.

    Examples
    --------
    >>> constant_text(Length.of_inches("1/8")), constant_text(Length.of_mm(3))
    ('8 tpi (3.175 mm)', '3 mm (≈8.467 tpi)')
    """
    tpi, mm = f"{_per_inch_text(constant)} tpi", f"{approximate(constant.mm, 5)} mm"
    return f"{tpi} ({mm})" if is_inch_figure(constant) else f"{mm} ({tpi})"


def chart_json(path: str, sheets: Sequence[ChartSheet], lathe: Lathe | None, within: Fraction) -> str:
    """Write the audit of a chart as JSON."""
    return answer_json.as_text(
        {
            "chart": path,
            "lathe": lathe.name if lathe else None,
            "within_ppm": f"{within * 1_000_000}",
            "all_true": all(sheet.all_true for sheet in sheets),
            "sheets": [
                {
                    "lever": sheet.lever,
                    "judged_by_mm": f"{sheet.judged_by.mm}",
                    "settled": sheet.inference.is_settled,
                    "constants": [_vote(vote) for vote in (sheet.inference.first, *sheet.inference.others)],
                    "rows": [_finding(finding) for finding in sheet.findings],
                    "contradictions": [
                        {
                            "lines": [row.line for row in each.rows],
                            "same": "wheels" if each.same_wheels else "thread",
                        }
                        for each in sheet.contradictions
                    ],
                }
                for sheet in sheets
            ],
        }
    )


def _vote(vote: ConstantVote) -> dict[str, object]:
    return {
        "constant_mm": f"{vote.constant.mm}",
        "inverted": vote.is_inverted,
        "exact_lines": [row.line for row in vote.exact],
        "near_lines": [row.line for row in vote.near],
    }


def _finding(finding: RowFinding) -> dict[str, object]:
    row = finding.row
    return {
        "line": row.line,
        "thread": row.thread,
        "asked": answer_json.asked_lead(row.lead),
        "pairs": [[pair.driver, pair.driven] for pair in row.train.pairs],
        "idlers": row.idlers,
        "gearbox": row.lever,
        "cut_lead_mm": f"{finding.cut_lead.mm}",
        "error_ppm": answer_json.error_ppm(finding.error),
        "verdict": finding.verdict.value,
        "needs_constant": answer_json.asked_lead(finding.needs),
        "not_in_box": list(finding.not_in_box),
    }
