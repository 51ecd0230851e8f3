"""Reading a measurement: a length over so many pitches, and how far it may be trusted."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length
from solver.refusals import UnreadableFigureError

#: Rule of thumb, no source: edges of a calliper are not set on a crest closer than this, however many digits it shows.
CLOSEST_SETTING = Length.of_mm("0.05")
#: Most pitches one measurement goes over.
MOST_PITCHES = 999
#: Longest length measured. [mm]
LONGEST = Length.of_mm(10_000)
MEASUREMENT_HELP = 'Write a length, or a length over so many pitches: "0.180 in / 5", "12.7 mm over 10".'
#: What is counted along the length.
_GROOVES = ("pitch", "pitches", "thread", "threads", "tooth", "teeth")
_VULGAR_SIGNS = "½¼¾⅛⅜⅝⅞⅓⅔"


class Measurement(NamedTuple):
    """A length measured over some pitches.

    Parameters
    ----------
    length : Length
        As measured, above zero.
    pitches : int
        Pitches it spans, 1 or more.
    give_or_take : Length
        How far the measured length may lie from the true one, either way; 0 or more.
    """

    length: Length
    pitches: int
    give_or_take: Length

    @property
    def pitch(self) -> Length:
        """One pitch by this measurement.

        Examples
        --------
        >>> Measurement(Length.of_mm(10), 4, Length.of_mm("0.05")).pitch
        Length(mm=Fraction(5, 2))
        """
        return Length(self.length.mm / self.pitches)


def read_measurement(text: str, give_or_take: Length | None = None) -> Measurement:
    """Read a measured length, ``/`` or ``over`` a number of pitches, or so many threads ``in`` a length.

    Parameters
    ----------
    text : str
        For example ``0.180in / 5``, ``12.7 mm over 10``, ``10 threads in 12.7 mm``, ``1/8 in``.
    give_or_take : Length, optional
        How far the length is to be trusted. Left out, it is half of the last digit that was written, or half of the
        written part of a fraction, but never less than ``CLOSEST_SETTING``.

    Returns
    -------
    Measurement
        Exact.

    Raises
    ------
    UnreadableFigureError
        No length with its unit, or no whole number of pitches after it.

    Examples
    --------
    >>> found = read_measurement("0.180in / 5")
    >>> found.length.inches, found.pitches, found.give_or_take
    (Fraction(9, 50), 5, Length(mm=Fraction(1, 20)))
    >>> read_measurement("12 mm over 10").give_or_take, read_measurement("3 1/16 in").give_or_take.inches
    (Length(mm=Fraction(1, 2)), Fraction(1, 32))
    """
    reader = FigureReader(text, MEASUREMENT_HELP)
    counted = _threads_before(reader)
    start = reader.at
    figure = reader.number()
    written = text[start : reader.at]
    if reader.word() == "":
        raise reader.refuse("a length needs its unit, mm or in, straight after it")
    length = read_length(text[start if counted else 0 : reader.at])
    if figure == 0:
        raise reader.refuse("a measured length is above zero", at=start)
    if length > LONGEST:
        raise reader.refuse("a measured length is 10 m at most", at=start)
    pitches = _pitches(reader) if counted is None else counted
    if counted is not None:
        reader.finish()
    if give_or_take is None:
        give_or_take = max(length * (_last_place(written) / (2 * figure)), CLOSEST_SETTING)
    return Measurement(length, pitches, give_or_take)


def _threads_before(reader: FigureReader) -> int | None:
    """Read the ``10 threads in`` before a length; leave the cursor alone where none stands there."""
    start = reader.at
    if not reader.starts_number():
        return None
    try:
        count = reader.whole()
    except UnreadableFigureError:
        count = 0
    if reader.word().lower() not in _GROOVES or reader.word().lower() not in ("in", "over"):
        reader.at = start
        return None
    reader.skip_spaces()
    return _in_range(reader, count, start)


def _in_range(reader: FigureReader, pitches: int, at: int) -> int:
    if not 1 <= pitches <= MOST_PITCHES:
        raise reader.refuse(f"a measurement goes over 1 to {MOST_PITCHES} pitches", at=at)
    return pitches


def _pitches(reader: FigureReader) -> int:
    reader.skip_spaces()
    if reader.is_done():
        return 1
    at = reader.at
    if reader.peek() == "/":
        reader.at += 1
    elif reader.word().lower() != "over":
        raise reader.refuse("after the length only its number of pitches may stand", at=at)
    reader.skip_spaces()
    at = reader.at
    if not reader.starts_number():
        raise reader.refuse("a whole number of pitches was expected here")
    pitches = reader.whole()
    if reader.word().lower() not in ("", *_GROOVES):
        raise reader.refuse("pitches are counted in whole numbers", at=at)
    reader.finish()
    return _in_range(reader, pitches, at)


def _last_place(written: str) -> Fraction:
    """Return what one step of the last written digit, or of the written fraction, is worth."""
    signs = [sign for sign in written if sign in _VULGAR_SIGNS]
    if signs:
        return Fraction(1, FigureReader(signs[0]).number().denominator)
    if "/" in written:
        return Fraction(1, int(written.rpartition("/")[2]))
    return Fraction(1, 10 ** len(written.partition(".")[2].strip()))
