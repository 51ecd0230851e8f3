"""Reading a thread designation as a drawing writes it, and finding it in the tables."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from gearsets.class_words import PIPE_CLASSES, class_of
from gearsets.series_words import (
    AFTER_SIZE,
    ANY_UNIFIED,
    BEFORE_SIZE,
    INCH_SERIES,
    NAMES,
    UNIFIED,
    near_series,
    size_first_help,
)
from gearsets.thread_tables import SeriesThread, load_series
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.figure_reader import FigureReader
from solver.quantities.pitches import Pitch
from solver.quantities.written_pitches import MOST_STARTS, read_pitch
from solver.refusals import AmbiguousRequestError, RefusalError, UnreadableFigureError

_INCH_MARKS = ("inch", "in", "''", '"', "″", "”")
_METRIC_PREFIXES = ("m", "tr", "s")
#: Words before a number that says all.
_WITHOUT_PITCH = ("thury", "loewenherz", "löwenherz", "watchplate")
#: Dashes and the minus sign, any of which a printed page may have where a hyphen is meant.
_HYPHENS = str.maketrans(dict.fromkeys("‐‑‒–—−", "-"))
_UNIFIED_CLASSES = ("1A", "2A", "3A", "1B", "2B", "3B")
#: Most neighbours named when a designation is not in the tables.
MOST_NEAR = 4


@dataclass(frozen=True, slots=True)
class _Written:
    """What a designation says: its possible series, the size, and the pitch figure where it gives one."""

    series: tuple[str, ...]
    size: Fraction
    is_numbered: bool
    pitch: Fraction | None
    bare_is_coarse: bool = False
    of_class: str = ""

    def fits(self, other: _Written) -> bool:
        """Say whether a row of a table answers; a row that states no pitch is not asked for one."""
        return (self.size, self.is_numbered) == (other.size, other.is_numbered)


def read_designation(text: str) -> SeriesThread | None:
    """Find the thread a designation means.

    Parameters
    ----------
    text : str
        For example ``M6``, ``M6 x 0.75``, ``S0.5``, ``1/4-20 UNC``, ``#4-40``, ``2 BA``, ``G 1/4``, ``Tr 16x4``; case
        and blanks do not matter, and a tolerance class behind it (``-6g``, `` 2A``) is passed over.

    Returns
    -------
    SeriesThread or None
        The thread, or ``None`` when the text is no designation at all. Where several series have the same
        size and pitch, the first of `matching_threads`.

    Raises
    ------
    UnreadableFigureError
        It is written as a designation but is not in the tables; the neighbours are named.
    AmbiguousRequestError
        The size is made with several pitches and none was given.

    Examples
    --------
    >>> read_designation("m6 X 0.75").designation, read_designation("M6").designation
    ('M6x0.75', 'M6x1')
    >>> read_designation("1.25mm") is None
    True
    """
    found = matching_threads(text)
    return found[0] if found else None


def matching_threads(text: str) -> tuple[SeriesThread, ...]:
    """Find every thread a designation fits, all of one pitch; empty when it is no designation.

    Raises
    ------
    UnreadableFigureError
        It is written as a designation but is not in the tables; the neighbours are named.
    AmbiguousRequestError
        The size is made with several pitches and none was given.

    Examples
    --------
    >>> [thread.designation for thread in matching_threads("1/4-20")]
    ['1/4-20 UNC', '1/4 BSW']
    """
    written = _written(text)
    if written is None:
        name = NAMES.get(text.strip().casefold().replace(" ", "").replace("-", ""))
        return tuple(thread for thread in load_series("instrument_inch") if thread.designation == name) if name else ()
    of_size = [thread for row, thread in _rows(written.series) if written.fits(row)]
    if written.pitch is not None:
        found = [thread for thread in of_size if thread.pitch.figure == written.pitch]
        # The trade says 10-32 for No.10-32: no thread of ten inches is in the way.
        found = found or _numbered(written)
    elif written.bare_is_coarse and any(thread.series == "iso_coarse" for thread in of_size):
        # By ISO 261 a bare M6 is the coarse pitch.
        found = [thread for thread in of_size if thread.series == "iso_coarse"]
    else:
        found = of_size
    if not found:
        raise _not_in_tables(text, written, of_size)
    if len({thread.pitch for thread in found}) > 1:
        listed = ", ".join(_named(thread) for thread in found)
        raise AmbiguousRequestError(
            f"{text.strip()} is made with several pitches", help_text=f"Write one of: {listed}."
        )
    return tuple(found)


def _numbered(written: _Written) -> list[SeriesThread]:
    """Find the numbered size of this figure and pitch, in the series that were written."""
    numbered = replace(written, is_numbered=True)
    return [
        thread
        for row, thread in _rows(BEFORE_SIZE["no"])
        if numbered.fits(row) and thread.pitch.figure == written.pitch and thread.series in written.series
    ]


def read_thread_or_pitch(text: str) -> tuple[Pitch, SeriesThread | None]:
    """Read a designation, or else a pitch with its unit; either may be followed by its starts.

    Parameters
    ----------
    text : str
        For example ``M6``, ``Tr 16x4, 2 starts``, ``1.25mm``, ``module 0.5``.

    Returns
    -------
    tuple of (Pitch, SeriesThread or None)
        The pitch with its starts, and the thread of the tables when a designation was written.

    Raises
    ------
    UnreadableFigureError
        Neither; with a marker under the character that stands in the way.
    AmbiguousRequestError
        The size is made with several pitches and none was given.

    Examples
    --------
    >>> pitch, thread = read_thread_or_pitch("Tr 16x4, 2 starts")
    >>> str(pitch), thread.designation
    ('4 mm, 2 starts', 'Tr 16x4')
    >>> str(read_thread_or_pitch("Tr 16x8(P4)")[0]), read_thread_or_pitch("20tpi")[1] is None
    ('4 mm, 2 starts', True)
    """
    core, starts, at = _without_starts(_with_starts_named(text))
    thread = read_designation(core)
    if thread is None:
        return _pitch_or_near_series(text), None
    if not 1 <= starts <= MOST_STARTS:
        raise UnreadableFigureError(text, at, f"starts are 1 to {MOST_STARTS}")
    return replace(thread.pitch, starts=starts), thread


def read_lead_wanted(text: str) -> tuple[Pitch, SeriesThread | None]:
    """Read what a lead is wanted for, where a thread and a worm are as likely: a small m alone could be either.

    Raises
    ------
    UnreadableFigureError
        As for `read_thread_or_pitch`.
    AmbiguousRequestError
        A figure behind ``m``, or one below 1 behind ``M``, with neither pitch nor class: gear cutters write modules so.

    Examples
    --------
    >>> str(read_lead_wanted("M6")[0]), str(read_lead_wanted("m6x1")[0]), str(read_lead_wanted("module 0.5")[0])
    ('1 mm', '1 mm', 'module 0.5')
    >>> read_lead_wanted("m0.5")
    Traceback (most recent call last):
    solver.refusals.AmbiguousRequestError: m0.5 may be the module of a worm or a thread
    For the worm write module 0.5; for the thread S 0.5.
    """
    core, _, _ = _without_starts(_with_starts_named(text))
    written = _written(core)
    if written is not None and written.bare_is_coarse and written.pitch is None and not written.of_class:
        is_below_any_m = written.size < 1
        if is_below_any_m or core.lstrip().startswith("m"):
            size = trimmed_decimal_text(written.size, 6)
            raise AmbiguousRequestError(
                f"{core.strip()} may be the module of a worm or a thread",
                help_text=f"For the worm write module {size}; for the thread {'S ' if is_below_any_m else 'M'}{size}.",
            )
    return read_thread_or_pitch(text)


def written_class(text: str) -> str:
    """Return the tolerance class written behind a designation, empty where there is none.

    Parameters
    ----------
    text : str
        As for `read_thread_or_pitch`, and read by it before.

    Examples
    --------
    >>> written_class("M10-6h"), written_class("1/4-20 2A"), written_class("Tr 16x4, 2 starts"), written_class("1mm")
    ('6h', '2A', '', '')
    """
    written = _written(_without_starts(_with_starts_named(text))[0])
    return written.of_class if written else ""


def _pitch_or_near_series(text: str) -> Pitch:
    """Read a pitch; where that fails on a word much like the name of a series, say which are meant."""
    try:
        return read_pitch(text)
    except UnreadableFigureError as refusal:
        size_first = size_first_help(text, _makes)
        if size_first:
            reason = "this names a series, but no size in front of it"
            raise UnreadableFigureError(text, 0, reason, help_text=size_first) from refusal
        near = near_series(text, _makes)
        if not near:
            raise
        help_text = f"Did you mean {', '.join(near)}? For example 1/4-20 UNC, 3/8 BSF, 2 BA, Tr 16x4."
        reason = "there is no thread series of this name"
        raise UnreadableFigureError(text, refusal.at, reason, help_text=help_text) from refusal


def _makes(text: str) -> bool:
    """Say whether a designation is in the tables."""
    try:
        return bool(matching_threads(text))
    except RefusalError:
        return False


def _with_starts_named(text: str) -> str:
    """Write the standard's ``Tr 16x8(P4)``, lead then pitch, as ``Tr 16x4, 2 starts``; leave any other text alone."""
    opening = text.casefold().find("(p")
    size, joint, lead = text[: max(opening, 0)].casefold().replace("×", "x").partition("x")
    pitch, closing, of_class = text[opening + 2 :].partition(")")
    if not (joint and closing):
        return text
    try:
        starts = FigureReader(lead).number() / FigureReader(pitch).number()
    except (UnreadableFigureError, ZeroDivisionError):
        return text
    return f"{size}x{pitch.strip()}{of_class}, {starts} starts" if starts.denominator == 1 else text


def _without_starts(text: str) -> tuple[str, int, int]:
    """Take ``, 2 starts`` off the end; also say where the figure stood."""
    bare = text.rstrip()
    for word in ("starts", "start"):
        if bare.casefold().endswith(word):
            before = bare[: -len(word)].rstrip()
            at = len(before)
            while at > 0 and before[at - 1] in "0123456789":
                at -= 1
            # A digit that touches what stands before it belongs to that.
            if at and len(before) - at in range(1, 5) and before[at - 1] in " ,\t":
                return before[:at].rstrip(" ,\t"), int(before[at:]), at
    return text, 1, 0


@lru_cache
def _rows(series: tuple[str, ...]) -> tuple[tuple[_Written, SeriesThread], ...]:
    """Take every designation of some tables apart with the reader a person's text goes through."""
    threads = (thread for stem in series for thread in load_series(stem))
    taken_apart = ((_written(thread.designation), thread) for thread in threads)
    return tuple((row, thread) for row, thread in taken_apart if row is not None)


def _written(text: str) -> _Written | None:
    """Take a designation apart, or return ``None`` when the text is written in no such way."""
    try:
        reader = FigureReader(text.translate(_HYPHENS))
    except UnreadableFigureError:
        return None
    if reader.starts_number():
        return _size_first(reader)
    word = reader.word().lower()
    if word == "watch" and reader.peek() in ("-", " "):
        reader.at += 1
        word += reader.word().lower()
    if word == "" and reader.peek() == "#":
        word, reader.at = "#", reader.at + 1
    elif word == "no" and reader.peek() == ".":
        reader.at += 1
    reader.skip_spaces()
    is_signed = word == "thury" and reader.peek() == "-"
    if word not in BEFORE_SIZE or not (reader.starts_number() or is_signed):
        return None
    reader.at += is_signed
    written = _word_first(reader, word)
    written = replace(written, of_class=_class_behind(reader, PIPE_CLASSES if word == "g" else ()))
    return replace(written, size=-written.size) if is_signed else written


def _word_first(reader: FigureReader, word: str) -> _Written:
    """Read on after ``M``, ``Tr``, ``G``, ``Thury``, ``Acme``, ``No.`` or ``#``."""
    is_metric, has_pitch = word in _METRIC_PREFIXES, word not in _WITHOUT_PITCH
    is_numbered = word in ("no", "#")
    noughts = _noughts(reader) if is_numbered else 0
    size = Fraction(1 - noughts) if noughts else reader.number()
    if not is_metric and has_pitch:
        _pass_inch_mark(reader)
    pitch = _pitch(reader, "x×*" if is_metric else "-x×") if has_pitch else None
    series = BEFORE_SIZE[word]
    if is_numbered:
        at = reader.at
        after = reader.word().lower()
        if after and AFTER_SIZE.get(after, ("",))[0] not in ANY_UNIFIED:
            raise reader.refuse("a numbered size is UNC, UNF, UNEF or UNS", at=at)
        series = AFTER_SIZE.get(after, series)
    return _Written(series, size, is_numbered, pitch, word == "m")


def _noughts(reader: FigureReader) -> int:
    """Pass the noughts of sizes No.0, 00, 000 and 0000; each further one is a size smaller."""
    kept = reader.at
    while reader.peek() == "0":
        reader.at += 1
    count = reader.at - kept
    if reader.starts_number() or reader.peek() in (".", "/"):
        reader.at = kept
        return 0
    return count


def _size_first(reader: FigureReader) -> _Written | None:
    """Read ``1/4-20 UNC``, ``3/8 BSF``, ``2 BA`` or ``1/4-20``; anything else is no designation."""
    try:
        size = reader.number()
        has_mark = _pass_inch_mark(reader)
        pitch = _pitch(reader, "-x×")
    except UnreadableFigureError:
        return None
    after = reader.word().lower()
    if after == "tpi" and pitch is not None:
        after = reader.word().lower()
    series = AFTER_SIZE.get(after)
    if after == "" and pitch is not None:
        of_class = class_of(reader.text[reader.at :]) or ""
        if not reader.is_done() and not of_class:
            return None
        series = UNIFIED if of_class.upper() in _UNIFIED_CLASSES else INCH_SERIES
    if series is None or (has_mark and after == "ba"):
        return None
    return _Written(series, size, is_numbered=False, pitch=pitch, of_class=_class_behind(reader))


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
        "Behind a thread stand its class, as M6-6g or 1/4-20 UNC 2A, or its starts: Tr 16x4, 2 starts; nothing else."
    )
    if bare.casefold().split()[:1] in (["lh"], ["l.h."]):
        help_text = "The hand is asked for apart from the thread: leave LH out and ask for a left-hand thread."
    raise reader.refuse("this does not belong to a thread designation", help_text=help_text)


def _named(thread: SeriesThread) -> str:
    return f"{thread.designation} ({thread.pitch})"


def _not_in_tables(text: str, written: _Written, of_size: list[SeriesThread]) -> UnreadableFigureError:
    """Word the refusal: the pitches the size is made with, or the nearest sizes."""
    numbered = [thread for row, thread in _rows(BEFORE_SIZE["no"]) if row.size == written.size and row.is_numbered]
    meant = [thread.designation for thread in numbered if thread.pitch.figure == written.pitch]
    # The trade says 4-40 for what the standard writes No.4-40.
    by_number = f"A numbered size has its sign: {meant[0]}. " if meant and not written.is_numbered else ""
    if of_size:
        listed = ", ".join(_named(thread) for thread in of_size)
        help_text = (
            f"{by_number}This size is in the tables as {listed}. For another pitch write the pitch with its unit."
        )
        return UnreadableFigureError(text, 0, "the tables have this size, but not with this pitch", help_text=help_text)
    rows = [pair for pair in _rows(written.series) if pair[0].is_numbered == written.is_numbered]
    nearest = sorted(rows, key=lambda pair: abs(pair[0].size - written.size))[:MOST_NEAR]
    listed = ", ".join(_named(thread) for _, thread in nearest)
    help_text = by_number or (f"Near it are {listed}. " if listed else "")
    return UnreadableFigureError(
        text, 0, "this size is not in the tables", help_text=help_text + "Or write the pitch with its unit: 1.25mm."
    )
