"""Exact numbers as shop text: decimals with ≈ whenever they are cut, both unit systems side by side."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.exact_numbers import (
    decimal_text,
    is_finite_decimal,
    significant_text,
    trimmed_decimal_text,
)
from solver.quantities.lengths import MM_PER_INCH, Length
from solver.quantities.pi_multiples import Lead, PiLength, lead_bounds_mm
from solver.quantities.pitches import Pitch, figure_text
from solver.trains.lead_error import LeadError

#: The long length over which every error is told beside the engaged one.
LONG_LENGTH = Length.of_mm(300)
#: A multiple of pi is told as a fraction up to this denominator.
LONGEST_DENOMINATOR = 10**6


def approximate(value: Fraction, places: int) -> str:
    """Write a decimal, marked ≈ when it is cut.

    Examples
    --------
    >>> approximate(Fraction(5, 4), 4), approximate(Fraction(1, 3), 4)
    ('1.25', '≈0.3333')
    """
    mark = "" if is_finite_decimal(value, places) else "≈"
    return f"{mark}{trimmed_decimal_text(value, places)}"


def length_text(length: Length) -> str:
    """Write a length in mm and inch.

    Examples
    --------
    >>> length_text(Length.of_mm("1.25"))
    '1.25 mm (≈0.04921 in)'
    """
    return f"{approximate(length.mm, 5)} mm ({approximate(length.inches, 5)} in)"


def size_text(length: Length) -> str:
    """Write a size to turn or measure: mm to the thousandth, inch to the tenth of a thou.

    Examples
    --------
    >>> size_text(Length.of_mm("36.5")), size_text(Length.of_inches("3/8"))
    ('36.5 mm (≈1.437 in)', '9.525 mm (0.375 in)')
    """
    return f"{approximate(length.mm, 3)} mm ({approximate(length.inches, 4)} in)"


def angle_text(angle: Angle) -> str:
    """Write an angle to set: degrees to three places, and to the second.

    Examples
    --------
    >>> print(angle_text(Angle.of_degrees("3.5")))
    3.5° (3° 30' 00")
    """
    return f"{approximate(angle.degrees, 3)}° ({sexagesimal_text(angle)})"


def lead_text(lead: Lead) -> str:
    """Write a lead in mm, inch and threads per inch; a pi lead as its multiple first.

    Examples
    --------
    >>> lead_text(Length.of_mm("1.25"))
    '1.25 mm = ≈0.04921 in = 20.32 per inch'
    >>> lead_text(PiLength(Fraction(1, 2)))
    '0.5 π mm ≈ 1.5708 mm ≈ 0.06184 in ≈ 16.17 per inch'
    """
    if isinstance(lead, PiLength):
        low, high = lead_bounds_mm(lead)
        mm = (low + high) / 2
        shown = f"{trimmed_decimal_text(mm, 5)} mm ≈ {trimmed_decimal_text(mm / MM_PER_INCH, 5)} in"
        multiple = lead.mm_per_pi
        # A normal module makes an axial one that no short fraction holds.
        told = figure_text(multiple) if multiple.denominator <= LONGEST_DENOMINATOR else approximate(multiple, 6)
        return f"{told} π mm ≈ {shown} ≈ {decimal_text(MM_PER_INCH / mm, 2)} per inch"
    inches = lead.inches
    per_inch = 1 / inches
    tpi = figure_text(per_inch) if per_inch.denominator <= 64 else f"≈{trimmed_decimal_text(per_inch, 3)}"
    return f"{approximate(lead.mm, 5)} mm = {approximate(inches, 5)} in = {tpi} per inch"


def pitch_line(pitch: Pitch) -> str:
    """Echo the asked pitch with its starts.

    Examples
    --------
    >>> from solver.quantities.written_pitches import read_pitch
    >>> pitch_line(read_pitch("2mm 3 starts"))
    '2 mm pitch, 3 starts'
    """
    unit = "" if pitch.starts == 1 else f", {pitch.starts} starts"
    alone = str(Pitch(pitch.figure, pitch.unit))
    return f"{alone}{'' if 'tpi' in alone or 'module' in alone or 'P' in alone else ' pitch'}{unit}"


def micrometres_text(length: Length) -> str:
    """Write a small length to three figures, in µm or from a millimetre up in mm; never zero unless it is.

    Examples
    --------
    >>> micrometres_text(Length(Fraction(3, 80)))
    '37.5 µm'
    """
    if abs(length.mm) >= 1:
        return f"{significant_text(length.mm, 3)} mm"
    return f"{significant_text(length.mm * 1000, 3)} µm"


def error_words(error: LeadError) -> str:
    """Say an error in words and ppm.

    Examples
    --------
    >>> error_words(LeadError(Fraction(1, 8000), Fraction(0)))
    'lead long, +125 ppm'
    >>> error_words(LeadError(Fraction(0), Fraction(0)))
    'exact'
    """
    if error.is_exact:
        return "exact"
    return f"{error.words}, {signed(error.ppm)} ppm"


def signed(value: Fraction) -> str:
    """Write a number to three figures with its sign.

    Examples
    --------
    >>> signed(Fraction(-10, 47)), signed(Fraction(125))
    ('-0.213', '+125')
    """
    return f"{'+' if value > 0 else ''}{significant_text(value, 3)}"


def accumulated_text(error: LeadError, length: Length) -> str:
    """Say what the error adds up to over a length, in µm and thou.

    Examples
    --------
    >>> accumulated_text(LeadError(Fraction(1, 8000), Fraction(0)), Length.of_mm(300))
    '37.5 µm (1.48 thou) long in 300 mm'
    """
    over = error.over(length)
    side = "long" if over.mm > 0 else "short"
    return f"{small_in_both_units(over)} {side} in {trimmed_decimal_text(length.mm, 2)} mm"


def small_in_both_units(length: Length) -> str:
    """Write the size of a small length to three figures in µm and thou, from a millimetre up in mm and inches.

    Examples
    --------
    >>> small_in_both_units(Length(Fraction(-3, 80))), small_in_both_units(Length.of_mm(2))
    ('37.5 µm (1.48 thou)', '2.00 mm (0.0787 in)')
    """
    size = Length(abs(length.mm))
    inches = (
        f"{significant_text(size.inches, 3)} in" if size.mm >= 1 else f"{significant_text(size.inches * 1000, 3)} thou"
    )
    return f"{micrometres_text(size)} ({inches})"


def ordinal(number: int) -> str:
    """Write which one of a row.

    Examples
    --------
    >>> [ordinal(number) for number in (2, 3, 11, 21, 113)]
    ['2nd', '3rd', '11th', '21st', '113th']
    """
    ending = "th" if number // 10 % 10 == 1 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def arcsec_text(angle: Angle) -> str:
    """Write a small angle in seconds, or minutes and degrees when it is large; signed; never zero unless it is.

    Examples
    --------
    >>> arcsec_text(Angle.of_degrees(Fraction(-1, 120))), arcsec_text(Angle(Fraction(0)))
    ('-30.0"', '0')
    """
    size = abs(angle.arcsec)
    if size == 0:
        return "0"
    if size < 60:
        return f'{signed(angle.arcsec)}"'
    if size < 3600:
        return f"{signed(angle.arcsec / 60)}'"
    return f"{signed(angle.degrees)}°"


def idlers_text(idlers: Sequence[int]) -> str:
    """Name the idlers of a head, in one word where there is one; nothing where there is none.

    Examples
    --------
    >>> idlers_text((40, 44)), idlers_text((44,)), idlers_text(())
    ('idlers 40+44', 'idler 44', '')
    """
    return f"idler{'s' if len(idlers) > 1 else ''} {'+'.join(map(str, idlers))}" if idlers else ""
