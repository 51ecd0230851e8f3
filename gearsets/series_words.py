"""Words that name a series of threads on a drawing, and what a text was likely to mean that has them wrong."""

from __future__ import annotations

from collections.abc import Callable

from gearsets.thread_tables import load_series

#: Says whether a designation is in the tables.
Makes = Callable[[str], bool]
UNIFIED = ("unc", "unf", "unef")
ANY_UNIFIED = (*UNIFIED, "un_constant", "uns")
INCH_SERIES = (*UNIFIED, "bsw", "bsf", "model_engineer")
#: Words before the size, and words after it, with the series they can mean, first choice first.
BEFORE_SIZE = {
    "m": ("iso_coarse", "iso_fine", "iso_miniature", "instrument"), "tr": ("iso_trapezoidal",), "g": ("pipe_g",),
    "thury": ("thury",), "acme": ("acme",), "no": (*UNIFIED, "unified_small", "uns"), "r": ("pipe_r",),
    "#": (*UNIFIED, "unified_small", "uns"), "loewenherz": ("loewenherz",), "löwenherz": ("loewenherz",),
    "s": ("iso_miniature",), "watchplate": ("watch_plate",), "rp": ("pipe_g",), "rc": ("pipe_r",),
}  # fmt: skip
AFTER_SIZE = {
    "unc": ("unc",), "unf": ("unf",), "unef": ("unef",), "un": ANY_UNIFIED, "uns": ("uns",),
    "bsw": ("bsw",), "whit": ("bsw",), "whitworth": ("bsw",), "w": ("bsw",), "bsf": ("bsf",),
    "ba": ("ba",), "me": ("model_engineer",), "npt": ("pipe_npt",), "acme": ("acme",), "bspp": ("pipe_g",),
    "bspt": ("pipe_r",), "brass": ("brass",), "bsc": ("cycle",), "cei": ("cycle",), "bsp": ("pipe_g",),
    # The American names before 1949, and Thury sizes with their word behind.
    "nc": ("unc",), "nf": ("unf",), "nef": ("unef",), "thury": ("thury",),
}  # fmt: skip
#: Words of a pitch that counts its grooves, much like the names of series.
OF_A_PITCH = ("per", "to", "in", "over", "inch", "inches", "cm", "mm")
#: Threads that go by a name alone, as written without blanks and dashes.
NAMES = {"rms": "RMS", "cmount": "C-mount"}


def near_series(text: str, makes: Makes) -> tuple[str, ...]:
    """Name the series that an unknown word of a text is much like, those that make its size first.

    Examples
    --------
    >>> near_series("1/4-20 UNK", lambda text: text == "1/4-20 unc")[0], near_series("1.25m", bool)
    ('UNC', ())
    """
    from difflib import get_close_matches

    words = "".join(each if each.isalpha() else " " for each in text.casefold()).split()
    known = sorted(word for word in {*BEFORE_SIZE, *AFTER_SIZE, *NAMES} - {"no"} if len(word) > 1)
    # One letter is too little to guess from: 1.25m is a unit gone wrong. Nor is 20 per inch near to NC.
    odd = [word for word in words if len(word) > 1 and word not in (*known, *OF_A_PITCH)]
    found = [near for word in odd for near in get_close_matches(word, known, n=4, cutoff=0.6)]
    # Of names as near, those of series that make the size come first.
    found.sort(key=lambda word: (not makes(_with_word(text, odd, word)), len(AFTER_SIZE.get(word, ()))))
    return tuple(dict.fromkeys(_as_written(word) for word in found))


def _with_word(text: str, odd: list[str], word: str) -> str:
    meant = text.casefold()
    for each in odd:
        meant = meant.replace(each, word)
    return meant


def size_help(text: str) -> str:
    """Help where a series stands alone; empty where it does not.

    Examples
    --------
    >>> size_help("BA"), size_help("2 BA")
    ('Write the size with it, for example 0 BA.', '')
    """
    series = AFTER_SIZE.get(text.strip().casefold())
    row = next(iter(load_series(series[0])), None) if series else None
    return f"Write the size with it, for example {row.designation}." if row else ""


def _as_written(word: str) -> str:
    if word == "watchplate":
        return "Watch-plate"
    names = ("tr", "thury", "acme", "loewenherz", "brass", "whit", "whitworth")
    return word.capitalize() if word in names else word.upper()
