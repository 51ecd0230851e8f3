"""Reading a threading chart that a person wrote down: rows of thread and wheels, all faults at once."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from gearsets.designations import read_thread_or_pitch
from gearsets.file_faults import Fault, FileFaultsError, read_text_file
from gearsets.name_lookup import shown
from solver.quantities.pi_multiples import Lead
from solver.refusals import RefusalError, UnreadableFigureError
from solver.trains.chart_constant import ChartRow
from solver.trains.lathe import Lathe
from solver.trains.wheels import Train, WheelClass
from solver.trains.written_trains import TRAIN_HELP, read_train

#: Most rows read; the fullest plate has a hundred or so.
MOST_ROWS = 500
#: Longest name of a lever. [characters]
LONGEST_LEVER = 20
#: Words a head line may use, and the column each means.
HEADS = {
    "thread": "thread", "pitch": "thread", "lead": "thread", "cuts": "thread",
    "tpi": "tpi", "threads per inch": "tpi", "per inch": "tpi", "mm": "mm", "pitch mm": "mm", "module": "module",
    "train": "train", "wheels": "train", "gears": "train",
    "stud": "stud", "stud gear": "stud", "stud wheel": "stud", "driver": "stud",
    "screw": "screw", "screw gear": "screw", "screw wheel": "screw", "leadscrew": "screw", "leadscrew gear": "screw",
    "leadscrew wheel": "screw", "driven": "screw",
    "idler": "idler", "intermediate": "idler", "lever": "lever", "note": "note", "remark": "note",
}  # fmt: skip
#: Columns of bare figures, and how a figure of one is read.
UNIT_COLUMNS = {"tpi": "{} tpi", "mm": "{} mm", "module": "module {}"}
#: What stands in a train, or in a column, for a wheel that changes nothing.
IDLER_WORDS = ("idler", "idle", "intermediate", "h")
HEAD_HELP = "begin with a line of column names: thread,train or thread,stud,screw (lever, idler and note may follow)"


class _Reading(NamedTuple):
    """A chart while it is read: the columns, and the faults so far."""

    columns: tuple[str, ...]
    delimiter: str
    classes: Sequence[WheelClass]
    faults: list[Fault]

    def note(self, line: int, problem: str, remedy: str) -> None:
        self.faults.append(Fault(f"line {line}", problem, remedy))


def read_chart(path: str | Path, classes: Sequence[WheelClass] = ()) -> tuple[ChartRow, ...]:
    """Read a chart from a file.

    Parameters
    ----------
    path : str or Path
        The file, UTF-8, comma, semicolon or tab between the columns.
    classes : sequence of WheelClass, optional
        The box of the lathe the chart is for.

    Returns
    -------
    tuple of ChartRow
        One at least, in the order of the file.

    Raises
    ------
    FileFaultsError
        The file or some of its rows cannot be read; every fault with its line.

    Examples
    --------
    >>> read_chart("no/such/chart.csv")
    Traceback (most recent call last):
    gearsets.file_faults.FileFaultsError: 1 fault in no/such/chart.csv:
      the file: is not there; check the path
    """
    return load_chart_text(read_text_file(path), str(path), classes)


def load_chart_text(text: str, where: str = "the chart", classes: Sequence[WheelClass] = ()) -> tuple[ChartRow, ...]:
    r"""Read a chart from its text; the first line that is neither blank nor a comment names the columns.

    Parameters
    ----------
    text : str
        Lines of columns; blank lines, and lines that begin with ``#``, are passed over.
    where : str, optional
        How messages call the file.
    classes : sequence of WheelClass, optional
        The box of the lathe the chart is for.

    Returns
    -------
    tuple of ChartRow
        One at least.

    Raises
    ------
    FileFaultsError
        Every fault, each with its line.

    Examples
    --------
    >>> rows = load_chart_text("# plate\ntpi;stud;screw\n7;48;84\n19;20;95\n")
    >>> [(row.line, row.thread, str(row.train)) for row in rows]
    [(3, '7 tpi', '48-84'), (4, '19 tpi', '20-95')]
    >>> load_chart_text("thread,train\n20,40-100\n1 mm,40\n")
    Traceback (most recent call last):
    gearsets.file_faults.FileFaultsError: 2 faults in the chart:
      line 2: thread '20': a bare number could be millimetres, inches or threads per inch; Write 20mm, 20in or 20tpi.
      line 3: train '40': 1 wheel does not make pairs of driver and driven; idlers stand in brackets; ...
    """
    lines = [
        (number, line)
        for number, line in enumerate(text.replace("\r\n", "\n").replace("\r", "\n").split("\n"), start=1)
        # A spreadsheet writes a blank row as separators alone.
        if line.strip(" \t,;") and not line.lstrip().startswith("#")
    ]
    if not lines:
        raise FileFaultsError(where, (Fault("the file", "holds no line of figures", HEAD_HELP),))
    (head_line, head), *body = lines
    reading = _read_head(head_line, head, classes)
    if not body and not reading.faults:
        reading.note(head_line, "no row follows the column names", "write one line for each thread")
    if len(body) > MOST_ROWS:
        reading.note(body[MOST_ROWS][0], f"more than {MOST_ROWS} rows", "split the chart into several files")
    rows = []
    if reading.columns:
        read = (_read_row(reading, number, line) for number, line in body[:MOST_ROWS])
        rows = [row for row in read if row is not None]
    if reading.faults:
        raise FileFaultsError(where, tuple(reading.faults))
    return tuple(rows)


def check_levers(rows: Sequence[ChartRow], lathe: Lathe, where: str = "the chart") -> None:
    r"""Refuse rows whose lever is not on a lathe, or that name none where it has a box.

    Raises
    ------
    FileFaultsError
        Every such row, with its line.

    Examples
    --------
    >>> from gearsets.lathe_files import find_lathe
    >>> check_levers(load_chart_text("thread,train\n20 tpi,40-100"), find_lathe("inch-8"))
    """
    known = [name for name, _ in lathe.lever_ratios]
    levers = ", ".join(name for name in known if name is not None)
    faults = []
    for row in rows:
        if row.lever not in known:
            problem = (
                f"lever {shown(row.lever)!r} is not on this lathe" if row.lever else "names no lever of the gearbox"
            )
            remedy = f"write one of {levers} in a column named lever" if levers else "it has no gearbox"
            faults.append(Fault(f"line {row.line}", problem, remedy))
    if faults:
        raise FileFaultsError(where, tuple(faults))


def _read_head(line: int, text: str, classes: Sequence[WheelClass]) -> _Reading:
    delimiter = max(",;\t", key=text.count)
    faults: list[Fault] = []
    reading = _Reading((), delimiter, classes, faults)
    cells = _cells(reading, line, text)
    if cells is None:
        return reading
    while cells and not cells[-1]:
        cells.pop()
    names = [" ".join(cell.casefold().replace("_", " ").replace("-", " ").split()) for cell in cells]
    columns = tuple(HEADS.get(name, "") for name in names)
    if not any(columns):
        reading.note(line, "this line names no columns", HEAD_HELP)
        return reading
    for cell, column in zip(cells, columns, strict=True):
        if not column:
            reading.note(
                line, f"column {shown(cell)!r} is not known", f"known are {', '.join(dict.fromkeys(HEADS.values()))}"
            )
    named = [column for column in columns if column]
    # Notes may stand in several columns; a figure may not.
    for column in dict.fromkeys(named):
        if column != "note" and named.count(column) > 1:
            reading.note(line, f"two columns mean {column}", "keep one of them")
    if len({"thread", *UNIT_COLUMNS} & set(named)) != 1:
        reading.note(line, "one column of threads is needed", "name it thread, or tpi, mm or module for bare figures")
    if ("train" in named) == ({"stud", "screw"} <= set(named)) or ("train" in named and {"stud", "screw"} & set(named)):
        reading.note(line, "the wheels are to stand in one column train, or in two, stud and screw", HEAD_HELP)
    return reading if faults else reading._replace(columns=columns)


def _cells(reading: _Reading, line: int, text: str) -> list[str] | None:
    # Imported here so that nobody who audits one train waits for it.
    import csv

    try:
        cells = next(csv.reader([text], delimiter=reading.delimiter, strict=True, skipinitialspace=True))
    except csv.Error as fault:
        reading.note(line, f"cannot be taken apart ({shown(str(fault))})", "close every quotation mark on its own line")
        return None
    return [cell.strip() for cell in cells]


def _read_row(reading: _Reading, line: int, text: str) -> ChartRow | None:
    cells = _cells(reading, line, text)
    if cells is None:
        return None
    while len(cells) > len(reading.columns) and not cells[-1]:
        cells.pop()
    if len(cells) > len(reading.columns):
        remedy = "put quotation marks round a thread that holds a comma"
        reading.note(line, f"has {len(cells)} columns where {len(reading.columns)} are named", remedy)
        return None
    filled = dict(zip(reading.columns, cells + [""] * (len(reading.columns) - len(cells)), strict=True))
    before = len(reading.faults)
    thread, lead = _read_thread(reading, line, filled)
    train, idlers = _read_wheels(reading, line, filled)
    lever = filled.get("lever") or None
    if lever is not None and (len(lever) > LONGEST_LEVER or not lever.isprintable()):
        reading.note(line, f"lever {shown(lever)!r} is no name", f"write at most {LONGEST_LEVER} letters and figures")
    if len(reading.faults) > before or lead is None or train is None:
        return None
    return ChartRow(line, thread, lead, train, lever, idlers)


def _read_thread(reading: _Reading, line: int, filled: dict[str, str]) -> tuple[str, Lead | None]:
    column = next(name for name in filled if name == "thread" or name in UNIT_COLUMNS)
    text = filled[column]
    try:
        pitch, thread = read_thread_or_pitch(UNIT_COLUMNS.get(column, "{}").format(text) if text else text)
    except RefusalError as refusal:
        _note_refusal(reading, line, f"{column} {shown(text)!r}", refusal)
        return text, None
    return (" ".join(text.split()) if thread is not None else str(pitch)), pitch.lead


def _read_wheels(reading: _Reading, line: int, filled: dict[str, str]) -> tuple[Train | None, int]:
    if "train" in filled:
        name, text = "train", filled["train"]
    else:
        name, text = "wheels", "-".join(filled[column] for column in ("stud", "screw") if filled[column])
    parts = [part.strip() for part in text.replace("–", "-").split("-")]
    wheels = [part for part in parts if part.casefold() not in IDLER_WORDS]
    idlers = len(parts) - len(wheels) + bool(filled.get("idler", "").strip("-–/ "))
    try:
        return read_train("-".join(wheels), reading.classes), idlers
    except RefusalError as refusal:
        _note_refusal(reading, line, f"{name} {shown(text)!r}", refusal, help_text=TRAIN_HELP)
        return None, 0


def _note_refusal(reading: _Reading, line: int, what: str, refusal: RefusalError, *, help_text: str = "") -> None:
    problem = refusal.reason if isinstance(refusal, UnreadableFigureError) else refusal.message
    reading.note(
        line, f"{what}: {problem}", refusal.help_text or help_text or "write it as on a drawing, with its unit"
    )
