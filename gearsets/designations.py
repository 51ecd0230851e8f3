"""Reading a thread designation as a drawing writes it, and finding it in the tables."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from gearsets.series_words import (
    ANY_UNIFIED,
    BEFORE_SIZE,
    INCH_SERIES,
    NAMES,
    near_series,
    size_help,
)
from gearsets.special_sizes import OUTSIDE, outside_thread
from gearsets.thread_endings import without_endings
from gearsets.thread_tables import SeriesThread, load_series
from gearsets.written_threads import WrittenThread, read_written
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.pitches import Pitch
from solver.quantities.written_pitches import MOST_STARTS, read_pitch
from solver.refusals import AmbiguousRequestError, RefusalError, UnreadableFigureError

#: Series that a bare size and pitch may mean, and that are not of a screw's usual form.
_ODD_INCH = ("pipe_npt", "pipe_g", "pipe_r", "brass", "cycle")
#: Most neighbours named when a designation is not in the tables.
MOST_NEAR = 4


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
    written = read_written(text)
    if written is None:
        name = NAMES.get(text.strip().casefold().replace(" ", "").replace("-", ""))
        return tuple(thread for thread in load_series("instrument_inch") if thread.designation == name) if name else ()
    of_size = [thread for row, thread in _rows(written.series) if written.fits(row)]
    if written.pitch is not None:
        found = [thread for thread in of_size if thread.pitch.figure == written.pitch]
        # The trade says 10-32 for No.10-32: no thread of ten inches is in the way.
        found = found or _numbered(written) or _outside(text, written)
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


def _numbered(written: WrittenThread) -> list[SeriesThread]:
    """Find the numbered size of this figure and pitch, in the series that were written."""
    numbered = replace(written, is_numbered=True)
    return [
        thread
        for row, thread in _rows(BEFORE_SIZE["no"])
        if numbered.fits(row) and thread.pitch.figure == written.pitch and thread.series in written.series
    ]


def _outside(text: str, written: WrittenThread) -> list[SeriesThread]:
    """Make the thread of a pair that its standard does not list; a bare pair is looked for in the other tables first.

    Raises
    ------
    AmbiguousRequestError
        A pipe, brass or cycle thread has this size and pitch, and no series was written.
    """
    special = outside_thread(written)
    if written.series == INCH_SERIES:
        pairs = [pair for pair in _rows((*ANY_UNIFIED, *_ODD_INCH)) if written.fits(pair[0])]
        same = [thread for _, thread in pairs if thread.pitch.figure == written.pitch]
        unified = [thread for thread in same if thread.series in ANY_UNIFIED]
        if unified:
            return unified
        if same:
            raise AmbiguousRequestError(
                f"{text.strip()} without a series is no screw thread of the standards",
                help_text=f"Write one of: {', '.join(thread.designation for thread in same)}"
                f"{f'; or for a special size {special.designation}' if special else ''}.",
            )
    return [special] if special else []


def read_thread_or_pitch(text: str) -> tuple[Pitch, SeriesThread | None]:
    """Read a designation, or else a pitch with its unit; either may be followed by its starts and its hand.

    The hand is left to `gearsets.thread_endings.written_hand`.

    Parameters
    ----------
    text : str
        For example ``M6``, ``Tr 16x4, 2 starts``, ``M16xPh3P1.5 LH``, ``1.25mm``, ``module 0.5``.

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
    written = without_endings(text)
    thread = read_designation(written.core)
    if thread is None:
        return _pitch_or_near_series(written.whole), None
    if not 1 <= written.starts <= MOST_STARTS:
        raise UnreadableFigureError(written.whole, written.at, f"starts are 1 to {MOST_STARTS}")
    return replace(thread.pitch, starts=written.starts), thread


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
    core = without_endings(text).core
    written = read_written(core)
    if written is not None and written.bare_is_coarse and written.pitch is None and not written.of_class:
        is_below_any_m = written.size < 1
        if written.size and (is_below_any_m or core.lstrip().startswith("m")):
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
    written = read_written(without_endings(text).core)
    return written.of_class if written else ""


def _pitch_or_near_series(text: str) -> Pitch:
    """Read a pitch; where that fails on a word much like the name of a series, say which are meant."""
    try:
        return read_pitch(text)
    except UnreadableFigureError as refusal:
        with_size = size_help(text)
        if with_size:
            reason = "this names a series, but no size with it"
            raise UnreadableFigureError(text, 0, reason, help_text=with_size) from refusal
        near = near_series(text, _makes)
        if not near:
            raise
        help_text = f"Did you mean {', '.join(near)}? For example 1/4-20 UNC, 3/8 BSF, 2 BA, Tr 16x4."
        reason = "there is no thread series of this name"
        raise UnreadableFigureError(text, refusal.at, reason, help_text=help_text) from refusal


def _makes(text: str) -> bool:
    """Say whether a designation is in the tables."""
    try:
        return any(thread.status != OUTSIDE for thread in matching_threads(text))
    except RefusalError:
        return False


@lru_cache
def _rows(series: tuple[str, ...]) -> tuple[tuple[WrittenThread, SeriesThread], ...]:
    """Take every designation of some tables apart with the reader a person's text goes through."""
    threads = (thread for stem in series for thread in load_series(stem))
    taken_apart = ((read_written(thread.designation), thread) for thread in threads)
    return tuple((row, thread) for row, thread in taken_apart if row is not None)


def _named(thread: SeriesThread) -> str:
    return f"{thread.designation} ({thread.pitch})"


def _not_in_tables(text: str, written: WrittenThread, of_size: list[SeriesThread]) -> UnreadableFigureError:
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
