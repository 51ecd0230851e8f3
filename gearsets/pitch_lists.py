"""Every pitch that a table of threads, or a list of modules, diametral and circular pitches, holds."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

from gearsets.thread_tables import SeriesThread, load_series, series_names
from solver.quantities.pi_multiples import Lead
from solver.quantities.pitches import Pitch
from solver.quantities.written_pitches import read_pitch
from solver.trains.identify import KnownPitch

#: Short names of the series, for a column: what the drawing writes.
SERIES_LETTERS = {
    "acme": "Acme", "ba": "BA", "brass": "brass", "bsf": "BSF", "bsw": "BSW", "cycle": "BSC",
    "instrument": "instrument", "instrument_inch": "instrument", "iso_coarse": "M", "iso_fine": "M",
    "iso_miniature": "S", "iso_trapezoidal": "Tr", "loewenherz": "Loewenherz", "model_engineer": "ME",
    "module_worms": "worms", "pipe_g": "G", "pipe_npt": "NPT", "pipe_r": "R", "thury": "Thury", "un_constant": "UN",
    "unc": "UNC", "unef": "UNEF", "unf": "UNF", "unified_small": "UN", "uns": "UNS", "watch_plate": "watch plate",
}  # fmt: skip
#: The series that are no threads.
_WORM_SERIES = ("module_worms",)
KINDS = ("all", "thread", "rack")
#: Lists looked through besides the series, by the stems of their files.
THREAD_LISTS = ("thread_pitches",)
RACK_LISTS = ("gear_modules", "diametral_pitches", "circular_pitches")
_FOLDER = Path(__file__).parent / "pitch_lists"


def known_pitches(kind: str = "all") -> tuple[KnownPitch, ...]:
    """Gather the pitches of threads, of racks and worms, or of both, each pitch once.

    Parameters
    ----------
    kind : str
        ``thread``, ``rack`` or ``all``.

    Returns
    -------
    tuple of KnownPitch
        Pitches of one length under different figures are one, with all its names.

    Examples
    --------
    >>> eighth = next(each for each in known_pitches() if "8 tpi" in each.names)
    >>> eighth.names, eighth.found_in[:2], eighth.found_in[-1]
    (('8 tpi', '0.125 in CP'), ('Acme', 'BSF'), 'inch racks')
    """
    names: dict[Lead, dict[str, None]] = {}
    places: dict[Lead, dict[str, None]] = {}
    for pitch, place in _entries(kind):
        names.setdefault(pitch.lead, {})[str(pitch)] = None
        places.setdefault(pitch.lead, {})[place] = None
    return tuple(KnownPitch(lead, tuple(names[lead]), tuple(places[lead])) for lead in names)


def threads_with_diameter() -> tuple[SeriesThread, ...]:
    """Return every thread of the tables that has a major diameter and a plain pitch.

    Examples
    --------
    >>> len(threads_with_diameter()) > 300
    True
    """
    series = (name for name in series_names() if name not in _WORM_SERIES)
    return tuple(thread for name in series for thread in load_series(name) if thread.diameter is not None)


def _entries(kind: str) -> Iterator[tuple[Pitch, str]]:
    for name in series_names():
        if kind in ("all", "rack" if name in _WORM_SERIES else "thread"):
            for thread in load_series(name):
                yield thread.pitch, SERIES_LETTERS[name]
    lists = (*(THREAD_LISTS if kind != "rack" else ()), *(RACK_LISTS if kind != "thread" else ()))
    for name in lists:
        text = (_FOLDER / f"{name}.csv").read_text(encoding="utf-8")
        lines = (line for line in text.splitlines() if not line.startswith("#"))
        for row in csv.DictReader(lines, strict=True):
            yield read_pitch(row["pitch"]), row["found_in"]
