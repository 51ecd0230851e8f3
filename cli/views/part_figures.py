"""Sizes of a divided part as the bench reads them, and as JSON."""

from __future__ import annotations

from fractions import Fraction

from cli.views.shop_figures import approximate, micrometres_text
from solver.dials.screw_dials import DialReading, ScrewDial
from solver.quantities.exact_numbers import decimal_text, order_of_magnitude
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength, lead_bounds_mm

#: Below this a size is told to so many significant digits, in millimetres. [mm], [digits]
FINE = Fraction(1, 100)
SIGNIFICANT = 3
#: A fraction with a longer denominator comes from a root, a cosine or pi; it is given as a decimal. [digits]
LONGEST_DENOMINATOR = 40
#: Decimal places of a length that is no written fraction; all of them are right. [decimal places]
JSON_PLACES = 30


def size_text(length: Length) -> str:
    """Write a size to a micrometre and a tenth of a thou, finer below a hundredth; ≈ where it is cut.

    Examples
    --------
    >>> size_text(Length.of_mm("12.5")), size_text(Length.of_mm("1/2400"))
    ('12.5 mm (≈0.4921 in)', '≈0.000417 mm (≈0.0000164 in)')
    """
    if 0 < abs(length.mm) < FINE:
        mm, inches = (
            approximate(value, SIGNIFICANT - 1 - order_of_magnitude(value)) for value in (length.mm, length.inches)
        )
        return f"{mm} mm ({inches} in)"
    return f"{approximate(length.mm, 3)} mm ({approximate(length.inches, 4)} in)"


def middle(length: PiLength) -> Length:
    """Give a pi length as a plain one, half way between its bounds.

    Examples
    --------
    >>> size_text(middle(PiLength(Length.of_mm("0.5").mm)))
    '≈1.571 mm (≈0.0618 in)'
    """
    low, high = lead_bounds_mm(length)
    return Length((low + high) / 2)


def length_json(length: Length) -> str:
    """Write millimetres: an exact fraction, or a decimal of 30 right places where a root or pi is in it.

    Examples
    --------
    >>> length_json(Length.of_mm("12.5")), length_json(Length.of_inches("1/3"))
    ('25/2', '127/15')
    """
    if len(str(length.mm.denominator)) <= LONGEST_DENOMINATOR:
        return f"{length.mm}"
    return decimal_text(length.mm, JSON_PLACES)


def reading_text(reading: DialReading) -> str:
    """Write turns and marks with their direction, and what rounding to a mark leaves.

    Examples
    --------
    >>> from solver.dials.screw_dials import ScrewDial
    >>> reading_text(ScrewDial(Length.of_mm(4), 80).read(Length.of_mm("-5.06")))
    'back 1 turn + 21 marks (10.0 µm short)'
    """
    left_over = over_or_short(reading)
    return f"{marks_text(reading)}{f' ({left_over})' if left_over else ''}"


def marks_text(reading: DialReading) -> str:
    """Write turns and marks with their direction.

    Examples
    --------
    >>> from solver.dials.screw_dials import ScrewDial
    >>> marks_text(ScrewDial(Length.of_mm(4), 80).read(Length.of_mm("-5.06")))
    'back 1 turn + 21 marks'
    """
    side = "back " if reading.sign < 0 else ""
    turns = f"{reading.turns} turn{'' if reading.turns == 1 else 's'}"
    marks = f"{reading.marks} mark{'' if reading.marks == 1 else 's'}"
    return f"{side}{turns} + {marks}"


def over_or_short(reading: DialReading) -> str:
    """Say what rounding to a mark leaves; nothing where it leaves nothing.

    Examples
    --------
    >>> from solver.dials.screw_dials import ScrewDial
    >>> over_or_short(ScrewDial(Length.of_mm(4), 80).read(Length.of_mm("5.04")))
    '10.0 µm over'
    """
    if reading.error.mm == 0:
        return ""
    # Over and short are told of the travel, whichever way it goes.
    over = reading.sign * reading.error.mm
    return f"{micrometres_text(Length(abs(over)))} {'over' if over > 0 else 'short'}"


def screw_text(screw: ScrewDial) -> str:
    """Write a screw with its dial.

    Examples
    --------
    >>> screw_text(ScrewDial(Length.of_mm(4), 80))
    '4 mm lead, 80 marks of 0.05 mm'
    """
    marks = f"{screw.marks} mark{'' if screw.marks == 1 else 's'}"
    return f"{approximate(screw.lead.mm, 4)} mm lead, {marks} of {approximate(screw.per_mark.mm, 5)} mm"


def with_reading(length: Length, screw: ScrewDial | None) -> str:
    """Write a size, and behind it the turns and marks of a screw where one is given."""
    return size_text(length) if screw is None else f"{size_text(length)} = {reading_text(screw.read(length))}"


def reading_json(reading: DialReading) -> dict[str, object]:
    """Describe turns and marks."""
    return {
        "sign": reading.sign,
        "turns": reading.turns,
        "marks": reading.marks,
        "error_mm": length_json(reading.error),
    }
