"""Threads of a standard form in a pair of diameter and pitch that its standard does not list: answered, and said so."""

from __future__ import annotations

from fractions import Fraction

from gearsets.series_words import AFTER_SIZE, BEFORE_SIZE, INCH_SERIES, UNIFIED
from gearsets.thread_tables import SeriesThread, load_series
from gearsets.written_threads import WrittenThread
from solver.quantities.exact_numbers import is_finite_decimal, trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pitches import DECIMALS_KEPT, Pitch, PitchUnit, figure_text

#: Status of a thread that stands in no table.
OUTSIDE = "outside"
#: Series that lends such a thread its form, with the standard whose list it is not in.
_STANDARDS = {"iso_fine": "ISO 261", "uns": "ASME B1.1", "acme": "ASME B1.5"}
#: Series that hold the listed sizes of each.
_LISTED = {
    "iso_fine": ("iso_coarse", "iso_fine"),
    "uns": ("unc", "unf", "unef", "un_constant", "uns"),
    "acme": ("acme",),
}
#: Diameter beyond which a figure is a slip of the pen. [mm]
LARGEST_MM = Fraction(600)
#: Coarsest pitch of a diameter above those that have a coarse one. [mm, threads per inch]
COARSEST_MM, COARSEST_TPI = Fraction(8), Fraction(4)
LARGEST_IN, FINEST_TPI, FINEST_ACME_TPI = Fraction(12), Fraction(80), Fraction(16)
#: Threads per inch of special unified threads, from memory; the others of the standard are in its tables.
SPECIAL_TPI = frozenset(map(Fraction, (10, 12, 14, 16, 18, 20, 24, 27, 28, 32, 36, 40, 48, 56)))
#: Sizes that are numbers as well as inches, and the coarsest pitch of a numbered one. [threads per inch]
_NUMBERS, _NUMBERED_TPI = range(13), Fraction(24)


def outside_thread(written: WrittenThread) -> SeriesThread | None:
    """Make the thread of a diameter and pitch that no table has; ``None`` where that is a slip of the pen.

    Coarser than the coarse pitch of the diameter, a pitch that the standard has at no diameter, or an Acme thread
    that leaves less than half of its own, is taken for a slip.

    Examples
    --------
    >>> from gearsets.written_threads import read_written
    >>> outside_thread(read_written("M8x0.5")).designation, outside_thread(read_written("5/8-27")).designation
    ('M8x0.5', '5/8-27 UNS')
    >>> outside_thread(read_written("M6x9")) is outside_thread(read_written("3/8-7")) is None
    True
    """
    if written.pitch is None or written.is_numbered:
        return None
    size, pitch = written.size, written.pitch
    if written.series == BEFORE_SIZE["m"]:
        coarsest = _coarse("iso_coarse", Length.of_mm(size)) or Pitch(COARSEST_MM, PitchUnit.MILLIMETRE)
        is_pitch = pitch in _pitches("iso_fine") or pitch == COARSEST_MM
        if not (is_pitch and 1 <= size <= LARGEST_MM and pitch <= coarsest.figure):
            return None
        name = f"M{_decimal(size)}x{_decimal(pitch)}"
        return _made(name, Length.of_mm(size), Pitch(pitch, PitchUnit.MILLIMETRE), "iso_fine")
    if size == 0 or size > LARGEST_IN:
        return None
    count = Pitch(pitch, PitchUnit.THREADS_PER_INCH) if pitch else None
    if count is None:
        return None
    if written.series in (INCH_SERIES, UNIFIED, AFTER_SIZE["un"], AFTER_SIZE["uns"]):
        coarsest = _coarse("unc", Length.of_inches(size)) or Pitch(COARSEST_TPI, PitchUnit.THREADS_PER_INCH)
        # The trade says 4-36 for a numbered size: that is no thread of four inches.
        may_be_numbered = size in _NUMBERS and pitch >= _NUMBERED_TPI
        is_pitch = pitch in _pitches("uns") or pitch in SPECIAL_TPI
        if may_be_numbered or not is_pitch or not coarsest.figure <= pitch <= FINEST_TPI:
            return None
        return _made(f"{_inches(size)}-{figure_text(pitch)} UNS", Length.of_inches(size), count, "uns")
    if written.series == BEFORE_SIZE["acme"] and pitch <= FINEST_ACME_TPI and 1 / pitch <= size / 2:
        return _made(f"Acme {_inches(size)}-{figure_text(pitch)}", Length.of_inches(size), count, "acme")
    return None


def outside_remark(thread: SeriesThread | None) -> str:
    """Say that a thread is not of its standard, and which of its diameter are; empty where it is, or there is none.

    Examples
    --------
    >>> from gearsets.designations import read_designation
    >>> print(outside_remark(read_designation("M8x0.5")))
    M8x0.5 is not among the sizes of ISO 261 kept here; of its diameter are M8x1.25, M8x1, M8x0.75
    >>> outside_remark(read_designation("M8"))
    ''
    """
    if thread is None or thread.status != OUTSIDE:
        return ""
    listed = [
        row.designation
        for stem in _LISTED[thread.series]
        for row in load_series(stem)
        if row.diameter == thread.diameter
    ]
    others = f"of its diameter are {', '.join(listed)}" if listed else "none is of its diameter"
    return f"{thread.designation} is not among the sizes of {_STANDARDS[thread.series]} kept here; {others}"


def _pitches(series: str) -> frozenset[Fraction]:
    """Return the pitches that a standard has at any diameter."""
    return frozenset(row.pitch.figure for stem in _LISTED[series] for row in load_series(stem))


def _coarse(stem: str, diameter: Length) -> Pitch | None:
    """Return the coarse pitch of a diameter, or of the next larger that has one."""
    larger = [(row.diameter.mm, row.pitch.figure, row) for row in load_series(stem) if row.diameter is not None]
    larger = [row for row in larger if row[0] >= diameter.mm]
    return min(larger)[2].pitch if larger else None


def _decimal(figure: Fraction) -> str:
    return trimmed_decimal_text(figure, DECIMALS_KEPT) if is_finite_decimal(figure, DECIMALS_KEPT) else f"{figure}"


def _inches(size: Fraction) -> str:
    """Write a size in the fractions of a rule, else as a decimal."""
    whole, part = divmod(size, 1)
    if part == 0 or part.denominator not in (2, 4, 8, 16, 32, 64):
        return _decimal(size)
    return f"{whole} {part}" if whole else f"{part}"


def _made(name: str, diameter: Length, pitch: Pitch, series: str) -> SeriesThread:
    return SeriesThread(name, diameter, pitch, "", OUTSIDE, series)
