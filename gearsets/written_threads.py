"""A thread designation taken apart: series, size and pitch, as a drawing writes them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from gearsets.class_words import PIPE_CLASSES, class_of
from gearsets.series_words import AFTER_SIZE, ANY_UNIFIED, BEFORE_SIZE, INCH_SERIES, UNIFIED
from solver.quantities.figure_reader import FigureReader
from solver.refusals import UnreadableFigureError

_INCH_MARKS = ("inch", "in", "''", '"', "″", "”")
_METRIC_PREFIXES = ("m", "tr", "s")
#: Words before a number that says all.
_WITHOUT_PITCH = ("thury", "loewenherz", "löwenherz", "watchplate")
#: Dashes and the minus sign, any of which a printed page may have where a hyphen is meant.
_HYPHENS = str.maketrans(dict.fromkeys("‐‑‒–—−", "-"))
#: What stands before a size that is a number and no measure.
_NUMBER_SIGNS = ("no", "#")
_UNIFIED_CLASSES = ("1A", "2A", "3A", "1B", "2B", "3B")


@dataclass(frozen=True, slots=True)
class WrittenThread:
    """What a designation says: its possible series, the size, and the pitch figure where it gives one."""

    series: tuple[str, ...]
    size: Fraction
    is_numbered: bool
    pitch: Fraction | None
    bare_is_coarse: bool = False
    of_class: str = ""

    def fits(self, other: WrittenThread) -> bool:
        """Say whether a row of a table answers; a row that states no pitch is not asked for one."""
        return (self.size, self.is_numbered) == (other.size, other.is_numbered)


def read_written(text: str) -> WrittenThread | None:
    """Take a designation apart, or return ``None`` when the text is written in no such way.

    Parameters
    ----------
    text : str
        Without its hand and starts: ``M6x0.75``, ``1/4-20 UNC 2A``, ``UNC 1/4-20``, ``No.2 BA``, ``00-90``.

    Raises
    ------
    UnreadableFigureError
        It begins as a designation and goes on as none.

    Examples
    --------
    >>> read_written("BSF 1/4").series, read_written("2/0-90").size, read_written("20 tpi") is None
    (('bsf',), Fraction(-1, 1), True)
    """
    try:
        reader = FigureReader(text.translate(_HYPHENS))
    except UnreadableFigureError:
        return None
    is_signed = reader.peek() == "-"
    reader.at += is_signed
    if reader.starts_number():
        written = _size_first(reader)
        # The coarsest Thury sizes stand below nought; no other figure does.
        is_below = is_signed and written is not None and written.series == BEFORE_SIZE["thury"]
        if written is None or is_signed:
            return replace(written, size=-written.size) if written is not None and is_below else None
        return written
    word = _first_word(reader)
    if word in AFTER_SIZE and word not in BEFORE_SIZE:
        sign = _first_word(reader)
        if not reader.starts_number() or sign not in ("", *_NUMBER_SIGNS):
            return None
        return _size_first(reader, word, is_numbered=bool(sign))
    is_signed = word == "thury" and reader.peek() == "-"
    if word not in BEFORE_SIZE or not (reader.starts_number() or is_signed):
        return None
    reader.at += is_signed
    written = _word_first(reader, word)
    written = replace(written, of_class=_class_behind(reader, PIPE_CLASSES if word == "g" else ()))
    return replace(written, size=-written.size) if is_signed else written


def _first_word(reader: FigureReader) -> str:
    """Read the word before a size, with the signs that stand for one."""
    word = reader.word().lower()
    if word == "watch" and reader.peek() in ("-", " "):
        reader.at += 1
        word += reader.word().lower()
    if word == "" and reader.peek() == "#":
        word, reader.at = "#", reader.at + 1
    elif word == "no" and reader.peek() == ".":
        reader.at += 1
    reader.skip_spaces()
    return word


def _word_first(reader: FigureReader, word: str) -> WrittenThread:
    """Read on after ``M``, ``Tr``, ``G``, ``Thury``, ``Acme``, ``No.`` or ``#``."""
    is_metric, has_pitch = word in _METRIC_PREFIXES, word not in _WITHOUT_PITCH
    is_numbered = word in _NUMBER_SIGNS
    noughts = _noughts(reader) if is_numbered else 0
    size = Fraction(1 - noughts) if noughts else reader.number()
    if not is_metric and has_pitch:
        _pass_inch_mark(reader)
    pitch = _pitch(reader, "x×*" if is_metric else "-x×") if has_pitch else None
    series = BEFORE_SIZE[word]
    if is_numbered:
        at = reader.at
        after = reader.word().lower()
        if after == "ba":
            return WrittenThread(AFTER_SIZE[after], size, is_numbered=False, pitch=pitch)
        if after and AFTER_SIZE.get(after, ("",))[0] not in ANY_UNIFIED:
            raise reader.refuse("a numbered size is UNC, UNF, UNEF or UNS, or BA", at=at)
        series = AFTER_SIZE.get(after, series)
    return WrittenThread(series, size, is_numbered, pitch, word == "m")


def _noughts(reader: FigureReader) -> int:
    """Pass the noughts of sizes No.0, 00, 000 and 0000, also written 3/0; each further one is a size smaller."""
    kept = reader.at
    told, stroke = reader.text[kept : kept + 1], reader.text[kept + 1 : kept + 3]
    if told in ("2", "3", "4") and stroke == "/0" and not reader.text[kept + 3 : kept + 4].isdigit():
        reader.at += 3
        return int(told)
    while reader.peek() == "0":
        reader.at += 1
    count = reader.at - kept
    if reader.starts_number() or reader.peek() in (".", "/"):
        reader.at = kept
        return 0
    return count


def _size_first(reader: FigureReader, word: str = "", *, is_numbered: bool = False) -> WrittenThread | None:
    """Read ``1/4-20 UNC``, ``3/8 BSF``, ``2 BA`` or ``1/4-20``; ``word`` where the series stood before it."""
    kept = reader.at
    noughts = _noughts(reader)
    if noughts < 2 and not is_numbered:
        reader.at, noughts = kept, 0
    try:
        size = Fraction(1 - noughts) if noughts else reader.number()
        has_mark = _pass_inch_mark(reader)
        pitch = _pitch(reader, "-x×")
    except UnreadableFigureError:
        return None
    after = word or reader.word().lower()
    if after == "tpi" and pitch is not None:
        after = reader.word().lower()
    series = AFTER_SIZE.get(after)
    if after == "" and pitch is not None:
        of_class = class_of(reader.text[reader.at :]) or ""
        if not reader.is_done() and not of_class:
            return None
        series = BEFORE_SIZE["no"] if noughts else UNIFIED if of_class.upper() in _UNIFIED_CLASSES else INCH_SERIES
    if series is None or (has_mark and after == "ba"):
        return None
    counts = (noughts > 0 or is_numbered) and after != "ba"
    if noughts and not word and after:
        # Sizes below No.0 are in no standard, whatever series is written behind them.
        series = BEFORE_SIZE["no"] if series[0] in ANY_UNIFIED else series
    return WrittenThread(series, size, counts, pitch, of_class=_class_behind(reader))


def _pass_inch_mark(reader: FigureReader) -> bool:
    kept = reader.at
    reader.skip_spaces()
    rest = reader.text[reader.at :].casefold()
    for mark in _INCH_MARKS:
        if rest.startswith(mark) and not rest[len(mark) :][:1].isalpha():
            reader.at += len(mark)
            return True
    reader.at = kept
    return False


def _pitch(reader: FigureReader, joints: str) -> Fraction | None:
    """Read the ``x0.75`` of ``M6x0.75`` or the ``-20`` of ``1/4-20``; leave the cursor alone when there is none."""
    kept = reader.at
    reader.skip_spaces()
    if reader.peek() != "" and reader.peek().lower() in joints:
        reader.at += 1
        reader.skip_spaces()
        if reader.starts_number():
            return reader.number()
    reader.at = kept
    return None


def _class_behind(reader: FigureReader, more: tuple[str, ...] = ()) -> str:
    """Read the tolerance class behind a designation, empty where nothing is written; refuse anything else."""
    reader.skip_spaces()
    rest = reader.text[reader.at :]
    if not rest:
        return ""
    bare = rest.replace("-", " ").strip()
    of_class = bare.upper() if bare.upper() in more else class_of(rest)
    if of_class is not None:
        return of_class
    help_text = (
        "Behind a thread stand its class, as M6-6g or 1/4-20 UNC 2A, its starts, as Tr 16x4, 2 starts, or its hand, "
        "as M6 LH; nothing else."
    )
    raise reader.refuse("this does not belong to a thread designation", help_text=help_text)
