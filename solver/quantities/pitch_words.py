"""Words that say what the figure of a pitch counts, before it and after it."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.figure_reader import FigureReader
from solver.quantities.pitches import PitchUnit

#: The word before a figure that says whether it is a pitch or the lead, and nothing of its unit.
PITCH, LEAD = "pitch", "lead"
#: Words for the length of one pitch.
_LENGTHS = {
    "mm": PitchUnit.MILLIMETRE, "millimetre": PitchUnit.MILLIMETRE, "millimetres": PitchUnit.MILLIMETRE,
    "millimeter": PitchUnit.MILLIMETRE, "millimeters": PitchUnit.MILLIMETRE,
    "in": PitchUnit.INCH, "inch": PitchUnit.INCH, "inches": PitchUnit.INCH, '"': PitchUnit.INCH, "″": PitchUnit.INCH,
}  # fmt: skip
#: Words that stand behind a figure and say all.
_COUNTS = {
    "tpi": PitchUnit.THREADS_PER_INCH, "module": PitchUnit.MODULE, "mod": PitchUnit.MODULE,
    "dp": PitchUnit.DIAMETRAL_PITCH,
}  # fmt: skip
#: What is counted along a length.
_GROOVES = ("thread", "threads", "turn", "turns", "groove", "grooves", "pitches")
_CENTIMETRE = ("cm", "centimetre", "centimetres", "centimeter", "centimeters")


def word_of_unit(reader: FigureReader) -> str:
    """Read a word in small letters, without the points of an abbreviation: ``d.p.``, ``t.p.i.``, ``in.``.

    Examples
    --------
    >>> word_of_unit(FigureReader("D.P.")), word_of_unit(FigureReader("in. pitch")), word_of_unit(FigureReader("mm"))
    ('dp', 'in', 'mm')
    """
    word = reader.word().lower()
    while word and reader.peek() == "." and not reader.text[reader.at + 1 : reader.at + 2].isdigit():
        reader.at += 1
        if not reader.peek().isalpha():
            break
        word += reader.word().lower()
    return word


def word_before(reader: FigureReader) -> PitchUnit | str | None:
    """Read what stands before the figure: the unit, ``pitch`` or ``lead``; nothing where it is none of these.

    Examples
    --------
    >>> word_before(FigureReader("module 0.5")), word_before(FigureReader("lead 12 mm"))
    (<PitchUnit.MODULE: 'module'>, 'lead')
    """
    word = _two_words(reader, word_of_unit(reader))
    if word in (PITCH, LEAD):
        return word
    # What a circular pitch is measured in stands behind it; until then it is one of inches.
    known = {"module": PitchUnit.MODULE, "mod": PitchUnit.MODULE, "dp": PitchUnit.DIAMETRAL_PITCH}
    return PitchUnit.CIRCULAR_PITCH if word == "cp" else known.get(word)


def _two_words(reader: FigureReader, word: str) -> str:
    """Join ``circular pitch`` and ``diametral pitch`` to their short forms."""
    short = {"circular": "cp", "diametral": "dp"}.get(word)
    if short is None:
        return word
    kept = reader.at
    if word_of_unit(reader) == PITCH:
        return short
    reader.at = kept
    return word


def starts_with_pi(reader: FigureReader) -> bool:
    """Say whether ``pi`` or ``π`` begins at the cursor, and pass it.

    Examples
    --------
    >>> starts_with_pi(FigureReader("πmm")), starts_with_pi(FigureReader("pitch 2 mm"))
    (True, False)
    """
    kept = reader.at
    reader.skip_spaces()
    if reader.peek() == "π":
        reader.at += 1
        return True
    if reader.word().lower() == "pi":
        return True
    reader.at = kept
    return False


def unit_behind(reader: FigureReader, figure: Fraction, written: str) -> tuple[Fraction, PitchUnit]:
    """Read the unit behind a figure, and give the figure in it.

    Parameters
    ----------
    reader : FigureReader
        Behind the figure.
    figure : Fraction
        What was read.
    written : str
        The figure as written, for what to type in place of a bare one.

    Raises
    ------
    UnreadableFigureError
        No unit, or none of a pitch.

    Examples
    --------
    >>> unit_behind(FigureReader("threads in 3 inches"), Fraction(4), "4")
    (Fraction(4, 3), <PitchUnit.THREADS_PER_INCH: 'tpi'>)
    >>> unit_behind(FigureReader("per cm"), Fraction(27), "27")
    (Fraction(10, 27), <PitchUnit.MILLIMETRE: 'mm'>)
    """
    at = reader.at
    if starts_with_pi(reader):
        return pi_multiple(reader, figure)
    word = _two_words(reader, word_of_unit(reader))
    if word in (PITCH, LEAD) or (word == "" and reader.is_done()):
        gear = f", or for a gear {written} DP" if word == PITCH else ""
        raise reader.refuse(
            "a bare number could be millimetres, inches or threads per inch",
            at=at,
            help_text=f"Write {written}mm, {written}in or {written}tpi{gear}.",
        )
    if word == "":
        raise reader.refuse("a unit was expected here")
    if word in _COUNTS:
        return figure, _COUNTS[word]
    if word in _LENGTHS:
        return figure, _circular(reader, _LENGTHS[word])
    if word in _GROOVES or word in ("per", "to"):
        return _so_many(reader, figure, word, at)
    raise reader.refuse(f"{word!r} is not a unit of pitch", at=at)


def _circular(reader: FigureReader, unit: PitchUnit) -> PitchUnit:
    """Pass ``CP`` behind a length; a circular pitch in millimetres is a plain pitch."""
    kept = reader.at
    if _two_words(reader, word_of_unit(reader)) != "cp":
        reader.at = kept
        return unit
    return PitchUnit.CIRCULAR_PITCH if unit is PitchUnit.INCH else unit


def pi_multiple(reader: FigureReader, figure: Fraction) -> tuple[Fraction, PitchUnit]:
    """Read the unit behind ``0.8 pi``: a multiple of pi millimetres is a module, of pi inches the inverse of a DP.

    Examples
    --------
    >>> pi_multiple(FigureReader("mm"), Fraction(4, 5)), pi_multiple(FigureReader("in"), Fraction(1, 20))
    ((Fraction(4, 5), <PitchUnit.MODULE: 'module'>), (Fraction(20, 1), <PitchUnit.DIAMETRAL_PITCH: 'DP'>))
    """
    reader.skip_spaces()
    at = reader.at
    unit = _LENGTHS.get("" if reader.is_done() else word_of_unit(reader))
    if unit is None:
        raise reader.refuse(
            "a multiple of pi needs its unit, mm or in", at=at, help_text="Write for example 0.5 pi mm."
        )
    return (figure, PitchUnit.MODULE) if unit is PitchUnit.MILLIMETRE else (1 / figure, PitchUnit.DIAMETRAL_PITCH)


def _so_many(reader: FigureReader, figure: Fraction, word: str, start: int) -> tuple[Fraction, PitchUnit]:
    """Read on after ``20 threads`` or ``20 per``: over which length they are counted."""
    help_text = "Write for example 20 threads per inch, 27 per cm or 4 threads in 3 inches."
    if word in _GROOVES:
        reader.skip_spaces()
        word = "per" if reader.peek() == "/" else word_of_unit(reader)
        reader.at += reader.peek() == "/"
    if word not in ("per", "to", "in", "over"):
        raise reader.refuse("so many threads need the length they are counted over", at=start, help_text=help_text)
    reader.skip_spaces()
    at = reader.at
    length = Fraction(1)
    if reader.starts_number() and word != "to":
        length = reader.number()
        if length == 0:
            raise reader.refuse("threads are counted over a length above zero", at=at, help_text=help_text)
    name = word_of_unit(reader)
    if name in ("the", "an", "a", "one"):
        name = word_of_unit(reader)
    if name in _CENTIMETRE:
        return length * 10 / figure, PitchUnit.MILLIMETRE
    unit = _LENGTHS.get(name)
    if unit is None:
        raise reader.refuse("threads are counted over inches, cm or mm", at=at, help_text=help_text)
    return (length / figure, unit) if unit is PitchUnit.MILLIMETRE else (figure / length, PitchUnit.THREADS_PER_INCH)
