"""Reading a written pitch; what ``str`` of a pitch prints is read back as the same pitch."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.figure_reader import FigureReader
from solver.quantities.pi_multiples import lead_bounds_mm
from solver.quantities.pitch_words import (
    LEAD,
    PITCH,
    pi_multiple,
    starts_with_pi,
    unit_behind,
    word_before,
    word_of_unit,
)
from solver.quantities.pitches import Pitch, PitchUnit
from solver.refusals import UnreadableFigureError

#: What a pitch may look like, for every refusal of one.
PITCH_HELP = "Write a pitch with its unit: 1.25mm, 20tpi, 11 1/2 tpi, 0.05in, module 0.5, 24 DP, 0.2 in CP, M6."

#: Largest figure read, whatever it counts.
LARGEST_FIGURE = 1_000_000
#: Finest and coarsest pitch read. [mm]
FINEST_MM = Fraction(1, 100)
COARSEST_MM = Fraction(2000)
#: Most starts read; more is a slip of the pen.
MOST_STARTS = 99
_LEAD_HELP = "Write the pitch, 2mm 3 starts, or the lead with its starts, 1/2 in lead, 4 starts."
_RANGE_HELP = "A pitch is 0.01 mm to 2 m."


def read_pitch(text: str) -> Pitch:
    """Read a pitch with its unit and, if stated, its starts.

    Parameters
    ----------
    text : str
        For example ``1.25mm``, ``11 1/2 tpi``, ``20 threads per inch``, ``module 0.5``, ``0.5 pi mm``, ``0.2 in CP``,
        ``2 mm 2 starts``; or the lead in its place, ``1/2 in lead, 4 starts``.

    Returns
    -------
    Pitch
        Figure, unit and starts as written; exact. A lead is parted by its starts.

    Raises
    ------
    UnreadableFigureError
        With a marker under the character that stands in the way.

    Examples
    --------
    >>> read_pitch("module 0.5")
    Pitch(figure=Fraction(1, 2), unit=<PitchUnit.MODULE: 'module'>, starts=1)
    >>> str(read_pitch("2mm, 3 starts")), str(read_pitch("1/2 in lead, 4 starts"))
    ('2 mm, 3 starts', '0.125 in, 4 starts')
    """
    pitch, is_lead = _read(text)
    return _parted(pitch) if is_lead else pitch


def pitch_with_starts(text: str, pitch: Pitch, starts: int) -> Pitch:
    """Give a pitch the starts that stand beside its text; where the text says a lead, they part it.

    Parameters
    ----------
    text : str
        What the pitch was read from.
    pitch : Pitch
        With no starts of its own, or as many.
    starts : int
        Those beside it.

    Examples
    --------
    >>> str(pitch_with_starts("3 mm", read_pitch("3 mm"), 2)), str(pitch_with_starts("M6", read_pitch("1 mm"), 2))
    ('3 mm, 2 starts', '1 mm, 2 starts')
    >>> str(pitch_with_starts("3 mm lead", read_pitch("3 mm lead"), 2))
    '1.5 mm, 2 starts'
    """
    started = Pitch(pitch.figure, pitch.unit, starts)
    if pitch.starts == 1:
        try:
            _, is_lead = _read(text)
        except UnreadableFigureError:
            return started
        return _parted(started) if is_lead else started
    return started


def _parted(lead: Pitch) -> Pitch:
    """Take the figure for the lead, and part it by the starts."""
    counts = (PitchUnit.THREADS_PER_INCH, PitchUnit.DIAMETRAL_PITCH)
    figure = lead.figure * lead.starts if lead.unit in counts else lead.figure / lead.starts
    return Pitch(figure, lead.unit, lead.starts)


def _read(text: str) -> tuple[Pitch, bool]:
    """Read a figure with its unit and starts, and say whether it is the lead."""
    reader = FigureReader(text, PITCH_HELP)
    start = reader.at
    is_pi = starts_with_pi(reader)
    before: PitchUnit | str | None = None
    unit: PitchUnit
    if not is_pi and not reader.starts_number() and reader.peek() not in ("-", "\N{MINUS SIGN}"):
        before = word_before(reader)
        if before is None:
            raise reader.refuse("a pitch was expected here", at=start)
        reader.skip_spaces()
    at = start if is_pi else reader.at
    figure = _part_of_pi(reader) if is_pi else reader.number()
    if figure == 0:
        raise reader.refuse("a pitch is above zero", at=at)
    if before is PitchUnit.MODULE or before is PitchUnit.DIAMETRAL_PITCH:
        unit = before
    elif is_pi:
        figure, unit = pi_multiple(reader, figure)
    else:
        unit_at = reader.at
        figure, unit = unit_behind(reader, figure, reader.text[at : reader.at].strip())
        if before is PitchUnit.CIRCULAR_PITCH:
            unit = _of_circle(reader, unit, unit_at)
    _refuse_far_out(reader, figure, unit, at)
    is_lead = _says_lead(reader, before)
    starts = _starts(reader)
    reader.finish()
    pitch = Pitch(figure, unit, starts)
    if is_lead:
        _refuse_far_out(reader, _parted(pitch).figure, unit, at)
    return pitch, is_lead


def _part_of_pi(reader: FigureReader) -> Fraction:
    """Read the ``/20`` of ``pi/20 in``, behind the pi."""
    reader.skip_spaces()
    if reader.peek() != "/":
        return Fraction(1)
    reader.at += 1
    reader.skip_spaces()
    at = reader.at
    divisor = reader.number()
    if divisor == 0:
        raise reader.refuse("nothing can be divided by zero", at=at)
    return 1 / divisor


def _of_circle(reader: FigureReader, unit: PitchUnit, at: int) -> PitchUnit:
    """Return the unit of a circular pitch, which is a length; one in millimetres is a plain pitch."""
    if unit in (PitchUnit.INCH, PitchUnit.CIRCULAR_PITCH):
        return PitchUnit.CIRCULAR_PITCH
    if unit is not PitchUnit.MILLIMETRE:
        raise reader.refuse("a circular pitch is a length, in mm or in", at=at)
    return unit


def _refuse_far_out(reader: FigureReader, figure: Fraction, unit: PitchUnit, at: int) -> None:
    if figure > LARGEST_FIGURE:
        raise reader.refuse("a figure above a million is not a pitch of this trade", at=at)
    low, high = lead_bounds_mm(Pitch(figure, unit).pitch)
    if high < FINEST_MM:
        raise reader.refuse("this is finer than anything a lathe cuts", at=at, help_text=_RANGE_HELP)
    if low > COARSEST_MM:
        raise reader.refuse("this is coarser than anything a lathe cuts", at=at, help_text=_RANGE_HELP)


def _says_lead(reader: FigureReader, before: PitchUnit | str | None) -> bool:
    """Pass ``pitch`` or ``lead`` behind the unit, and say whether the figure is the lead."""
    kept = reader.at
    word = word_of_unit(reader)
    if isinstance(before, PitchUnit) or before == word or word not in (PITCH, LEAD):
        reader.at = kept
        return before == LEAD
    if before in (PITCH, LEAD):
        raise reader.refuse("this is called pitch and lead at once", at=kept, help_text=_LEAD_HELP)
    return word == LEAD


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
    reader.skip_spaces()
    reader.at += reader.peek() in tuple("-‐‑–")
    if reader.word().lower() not in ("start", "starts"):
        raise reader.refuse("after the pitch only its starts may stand", at=at, help_text="For example: 2mm 3 starts")
    if not 1 <= starts <= MOST_STARTS:
        raise reader.refuse(f"starts are 1 to {MOST_STARTS}", at=at)
    return starts
