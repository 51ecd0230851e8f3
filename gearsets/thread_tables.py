"""The standard thread series, read from their tables only when asked for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from gearsets.name_lookup import unknown_name
from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch
from solver.quantities.written_lengths import read_length
from solver.quantities.written_pitches import read_pitch

#: Plain titles of the series, by the stem of the file that holds them.
SERIES_TITLES = {
    "acme": "Acme, general purpose",
    "ba": "British Association (BA)",
    "bsf": "British Standard Fine (BSF)",
    "brass": "Brass, 26 tpi",
    "bsw": "British Standard Whitworth (BSW)",
    "cycle": "Cycle (BSC)",
    "instrument": "Optical instruments, metric",
    "instrument_inch": "Optical instruments, inch",
    "iso_coarse": "ISO metric, coarse pitches",
    "iso_fine": "ISO metric, fine pitches",
    "iso_miniature": "ISO miniature",
    "iso_trapezoidal": "ISO metric trapezoidal (Tr)",
    "loewenherz": "Loewenherz",
    "model_engineer": "Model engineer, 40 and 32 tpi (ME)",
    "module_worms": "Modules for worms",
    "pipe_g": "Pipe, parallel (G)",
    "pipe_npt": "Pipe, tapered (NPT)",
    "pipe_r": "Pipe, tapered (R)",
    "thury": "Thury",
    "un_constant": "Unified constant pitch (UN)",
    "unc": "Unified coarse (UNC)",
    "unef": "Unified extra fine (UNEF)",
    "unf": "Unified fine (UNF)",
    "unified_small": "Unified sizes below No.0",
    "uns": "Unified special (UNS)",
    "watch_plate": "Watch screw plate",
}
#: Names the trade gives to several series, or to one by another word.
SERIES_ALIASES = {
    "association": ("ba",),
    "inch": ("unc", "unf", "unef", "bsw", "bsf", "model_engineer"),
    "me": ("model_engineer",),
    "metric": ("iso_coarse", "iso_fine"),
    "miniature": ("iso_miniature",),
    "module": ("module_worms",),
    "npt": ("pipe_npt",),
    "pipe": ("pipe_g", "pipe_r", "pipe_npt"),
    "trapezoidal": ("iso_trapezoidal",),
    "unified": ("unc", "unf", "unef"),
    "whitworth": ("bsw", "bsf"),
}
_FOLDER = Path(__file__).parent / "thread_series"


@dataclass(frozen=True, slots=True)
class SeriesThread:
    """One thread of a standard series.

    Parameters
    ----------
    designation : str
        As the standard writes it: ``M6x1``.
    diameter : Length or None
        Major diameter; that of the pipe for NPT; none for a module.
    pitch : Pitch
        As the table gives it.
    choice : str
        Order of preference of the diameter, empty where the standard gives none.
    status : str
        How the figures were keyed: ``read``, ``computed`` or ``memory``; see ``SOURCES.md``. ``outside`` where no
        table has the pair of diameter and pitch.
    series : str
        Stem of the series: ``iso_coarse``.
    gauge_length : Length or None
        Of a tapered thread from the small end of the screw to its gauge plane; from memory throughout.
    """

    designation: str
    diameter: Length | None
    pitch: Pitch
    choice: str
    status: str
    series: str
    gauge_length: Length | None = None


def series_names() -> tuple[str, ...]:
    """Return the names of the single series, sorted.

    Examples
    --------
    >>> series_names()[:3]
    ('acme', 'ba', 'brass')
    """
    return tuple(sorted(SERIES_TITLES))


def series_members(word: str) -> tuple[str, ...]:
    """Return the single series a name stands for, in the order they are listed.

    Parameters
    ----------
    word : str
        A series, with ``-`` or ``_``, or a name of several: ``metric``, ``unified``, ``whitworth``.

    Raises
    ------
    UnknownNameError
        No series goes by that name; near names are given.

    Examples
    --------
    >>> series_members("metric"), series_members("ISO-fine")
    (('iso_coarse', 'iso_fine'), ('iso_fine',))
    """
    stem = word.strip().casefold().replace("-", "_").replace(" ", "_")
    if stem in SERIES_TITLES:
        return (stem,)
    if stem in SERIES_ALIASES:
        return SERIES_ALIASES[stem]
    every = (*sorted(SERIES_ALIASES), *series_names())
    raise unknown_name("thread series", word, every, listing=f"Known are: {', '.join(every)}.")


def load_series(word: str) -> tuple[SeriesThread, ...]:
    """Load every thread of a series, or of the several series a name stands for.

    Parameters
    ----------
    word : str
        As for `series_members`.

    Returns
    -------
    tuple of SeriesThread
        In the order of the tables.

    Raises
    ------
    UnknownNameError
        No series goes by that name; near names are given.

    Examples
    --------
    >>> load_series("ba")[2].designation, str(load_series("ba")[2].pitch)
    ('2 BA', '0.81 mm')
    """
    return tuple(thread for stem in series_members(word) for thread in _read_series(stem))


@lru_cache
def _read_series(stem: str) -> tuple[SeriesThread, ...]:
    return tuple(_rows(stem, (_FOLDER / f"{stem}.csv").read_text(encoding="utf-8")))


def _rows(stem: str, text: str) -> Iterator[SeriesThread]:
    # Imported here so that nobody who names a pitch outright waits for it.
    import csv

    # A table has the same few pitches over and over.
    length_of, pitch_of = lru_cache(maxsize=None)(read_length), lru_cache(maxsize=None)(read_pitch)
    lines = (line for line in text.splitlines() if not line.startswith("#"))
    for row in csv.DictReader(lines, strict=True):
        diameter = length_of(row["diameter"]) if row["diameter"] else None
        # Only tapered threads have a gauge plane.
        gauge = length_of(row["gauge_length"]) if row.get("gauge_length") else None
        yield SeriesThread(
            row["designation"], diameter, pitch_of(row["pitch"]), row["choice"], row["status"], stem, gauge
        )
