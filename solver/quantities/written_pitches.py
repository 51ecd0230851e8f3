"""Reading a written pitch; what ``str`` of a pitch prints is read back as the same pitch."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.figure_reader import FigureReader
from solver.quantities.pi_multiples import lead_bounds_mm
from solver.quantities.pitches import Pitch, PitchUnit

#: What a pitch may look like, for every refusal of one.
PITCH_HELP = "Write a pitch with its unit: 1.25mm, 20tpi, 11 1/2 tpi, 0.05in, module 0.5, 24 DP, 0.2 in CP, M6."

#: Words before the figure, and words after it, with what they count.
_BEFORE = {"module": PitchUnit.MODULE, "mod": PitchUnit.MODULE, "dp": PitchUnit.DIAMETRAL_PITCH}
_AFTER = {
    "mm": PitchUnit.MILLIMETRE,
    "in": PitchUnit.INCH,
    "inch": PitchUnit.INCH,
    "inches": PitchUnit.INCH,
    '"': PitchUnit.INCH,
    "″": PitchUnit.INCH,
    "tpi": PitchUnit.THREADS_PER_INCH,
    "module": PitchUnit.MODULE,
    "dp": PitchUnit.DIAMETRAL_PITCH,
}
#: Largest figure read, whatever it counts.
LARGEST_FIGURE = 1_000_000
#: Finest and coarsest pitch read. [mm]
FINEST_MM = Fraction(1, 100)
COARSEST_MM = Fraction(2000)
#: Most starts read; more is a slip of the pen.
MOST_STARTS = 99
_RANGE_HELP = "A pitch is 0.01 mm to 2 m."


def read_pitch(text: str) -> Pitch:
    """Read a pitch with its unit and, if stated, its starts.

    Parameters
    ----------
    text : str
        For example ``1.25mm``, ``11 1/2 tpi``, ``module 0.5``, ``0.2 in CP``, ``2 mm 2 starts``.

    Returns
    -------
    Pitch
        Figure, unit and starts as written; exact.

    Raises
    ------
    UnreadableFigureError
        With a marker under the character that stands in the way.

    Examples
    --------
    >>> read_pitch("module 0.5")
    Pitch(figure=Fraction(1, 2), unit=<PitchUnit.MODULE: 'module'>, starts=1)
    >>> str(read_pitch("2mm, 3 starts"))
    '2 mm, 3 starts'
    """
    reader = FigureReader(text, PITCH_HELP)
    unit: PitchUnit | None = None
    if not reader.starts_number() and reader.peek() not in ("-", "\N{MINUS SIGN}"):
        at = reader.at
        word = reader.word().lower()
        unit = _BEFORE.get(word)
        if unit is None:
            raise reader.refuse("a pitch was expected here", at=at)
        reader.skip_spaces()
    at = reader.at
    figure = reader.number()
    if figure == 0:
        raise reader.refuse("a pitch is above zero", at=at)
    if unit is None:
        unit = _unit_after(reader)
    if figure > LARGEST_FIGURE:
        raise reader.refuse("a figure above a million is not a pitch of this trade", at=at)
    low, high = lead_bounds_mm(Pitch(figure, unit).pitch)
    if high < FINEST_MM:
        raise reader.refuse("this is finer than anything a lathe cuts", at=at, help_text=_RANGE_HELP)
    if low > COARSEST_MM:
        raise reader.refuse("this is coarser than anything a lathe cuts", at=at, help_text=_RANGE_HELP)
    starts = _starts(reader)
    reader.finish()
    return Pitch(figure, unit, starts)


def _unit_after(reader: FigureReader) -> PitchUnit:
    at = reader.at
    word = reader.word().lower()
    if word == "":
        if not reader.is_done():
            raise reader.refuse("a unit was expected here")
        raise reader.refuse(
            "a bare number could be millimetres, inches or threads per inch",
            at=at,
            help_text=f"Write {reader.text.strip()}mm, {reader.text.strip()}in or {reader.text.strip()}tpi.",
        )
    unit = _AFTER.get(word)
    if unit is None:
        raise reader.refuse(f"{word!r} is not a unit of pitch", at=at)
    if unit is PitchUnit.INCH:
        kept = reader.at
        if reader.word().lower() == "cp":
            return PitchUnit.CIRCULAR_PITCH
        reader.at = kept
    return unit


def _starts(reader: FigureReader) -> int:
    reader.skip_spaces()
    if reader.peek() == ",":
        reader.at += 1
        reader.skip_spaces()
    if reader.is_done():
        return 1
    at = reader.at
    if not reader.starts_number():
        raise reader.refuse("this does not belong to a pitch")
    starts = reader.whole()
    if reader.word().lower() not in ("start", "starts"):
        raise reader.refuse("after the pitch only its starts may stand", at=at, help_text="For example: 2mm 3 starts")
    if not 1 <= starts <= MOST_STARTS:
        raise reader.refuse(f"starts are 1 to {MOST_STARTS}", at=at)
    return starts
