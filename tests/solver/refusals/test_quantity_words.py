"""What is said, word for word, of figures that the tables of written figures do not hold, and of numbers not taken."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import square_root, tangent
from solver.quantities.exact_numbers import exact
from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch, PitchUnit
from solver.quantities.powers import power, root_bounds
from solver.quantities.written_angles import ANGLE_HELP, read_angle
from solver.quantities.written_errors import read_progressive_error, read_share, read_within
from solver.quantities.written_lengths import read_module
from solver.quantities.written_measurements import read_measurement
from solver.quantities.written_pitches import PITCH_HELP, read_pitch
from solver.refusals import UnreadableFigureError

WITHIN_HELP = "Write for example 200 ppm, 0.1 %, 5 um or exact."
ERROR_HELP = "Write for example +0.03 mm in 300 mm, -0.0005 in in 1 in, or +100 ppm; plus is a long lead."
MODULE_HELP = "Write for example 0.7, 0.7 mm or module 0.7."
INCH = Length.of_inches(1)

COMMA, EXPONENT = "a comma may mean a decimal point or thousands, so it is not read", "an exponent is not a shop figure"
SIGN = "this figure is not negative; leave the sign out"
MORE = "this is more than one figure, or not one at all"

# (what reads, the text, the place of the marker, what stands in the way, what would help)
WRITTEN = [
    (lambda text: FigureReader(text).decimal(), "-5", 0, SIGN, ""),
    (lambda text: FigureReader(text).decimal(), "\N{MINUS SIGN}5", 0, SIGN, ""),
    (lambda text: FigureReader(text).number(), "-5", 0, SIGN, ""),
    (lambda text: FigureReader(text).number(), "\N{MINUS SIGN}5", 0, SIGN, ""),
    (lambda text: FigureReader(text).decimal(), "29,53 days", 2, COMMA, "Write a point: 29.53 days"),
    # What follows the comma is shown up to 20 characters.
    (
        lambda text: FigureReader(text).number(),
        "1,12345678901234567890123",
        1,
        COMMA,
        "Write a point: 1.12345678901234567890",
    ),
    (lambda text: FigureReader(text).number(), "1e+5", 1, f"{EXPONENT}; write the number out", ""),
    (lambda text: FigureReader(text).number(), "1E-5", 1, f"{EXPONENT}; write the number out", ""),
    (lambda text: FigureReader(text).decimal(), "1.5.2", 3, "one decimal point is enough", ""),
    (lambda text: FigureReader(text).number(), "1.5,2", 3, "one decimal point is enough", ""),
    (lambda text: FigureReader(text).number(), "5. mm", 2, "a digit was expected here", ""),
    (lambda text: FigureReader(text).number(), "11-3/3", 3, "the fraction after a whole number is below one", ""),
    (lambda text: FigureReader(text).finish(), "7 mm", 0, MORE, ""),
    (FigureReader, " ", 1, "nothing is written here", ""),
    (read_module, "DP 20", 0, "a module is a figure, in millimetres", MODULE_HELP),
    (read_module, "module 0", 7, "a module is above zero", MODULE_HELP),
    (read_module, "0.7 in", 4, "a module is in millimetres", MODULE_HELP),
    (lambda text: read_within(text, INCH), "5", 1, "an error needs its unit", WITHIN_HELP),
    (lambda text: read_within(text, INCH), "", 0, "nothing is written here", WITHIN_HELP),
    (lambda text: read_within(text, INCH), "x", 0, "a digit was expected here", WITHIN_HELP),
    (lambda text: read_within(text, INCH), "5 ppm x", 6, MORE, WITHIN_HELP),
    (
        lambda text: read_within(text, INCH),
        "5 km",
        1,
        "a length needs its unit, mm or in",
        "Write for example 150 mm or 1/4 in.",
    ),
    (read_pitch, "\N{MINUS SIGN}20 tpi", 0, SIGN, PITCH_HELP),
    # A million is looked at, and found too fine.
    (read_pitch, "1000000 tpi", 0, "this is finer than anything a lathe cuts", "A pitch is 0.01 mm to 2 m."),
    (
        read_pitch,
        "1.25 ",
        4,
        "a bare number could be millimetres, inches or threads per inch",
        "Write 1.25mm, 1.25in or 1.25tpi.",
    ),
    (read_angle, "37 gon", 2, "an angle needs its unit here", ANGLE_HELP),
    (read_angle, "37° 37°", 4, "degrees come before minutes, minutes before seconds, each once", ANGLE_HELP),
    (read_share, "5 % x", 4, MORE, ""),
    (read_share, "5 %x", 3, MORE, ""),
    # The word that parts amount and length is neither the first nor the last.
    (read_progressive_error, "0.1 mm", 0, "an error needs the length it adds up over", ERROR_HELP),
    (read_progressive_error, "0.1 in", 0, "an error needs the length it adds up over", ERROR_HELP),
    (read_progressive_error, "0.1 mm in 0 mm", 0, "no error adds up over no length", ERROR_HELP),
    (
        read_measurement,
        "10000.1 mm",
        0,
        "a measured length is 10 m at most",
        'Write a length, or a length over so many pitches: "0.180 in / 5", "12.7 mm over 10".',
    ),
]


@pytest.mark.parametrize(
    ("read", "text", "at", "reason", "help_text"), WRITTEN, ids=[str(number) for number in range(len(WRITTEN))]
)
def test_a_text_is_refused_in_these_words(read, text, at, reason, help_text):
    with pytest.raises(UnreadableFigureError) as refused:
        read(text)
    marked = f"{reason}\n  {text}\n  {' ' * at}^"
    assert str(refused.value) == (f"{marked}\n{help_text}" if help_text else marked)


# (what is asked, all that is said)
SAID = [
    (lambda: exact(0.5), "an exact number is an int, a Fraction or text, not float: 0.5"),  # type: ignore[arg-type]
    (lambda: exact(True), "an exact number is an int, a Fraction or text, not bool: True"),
    (lambda: Pitch(Fraction(1), PitchUnit.INCH, 1.5), "starts are counted in whole numbers, not 1.5"),  # type: ignore[arg-type]
    (lambda: Pitch(Fraction(1), PitchUnit.INCH, True), "starts are counted in whole numbers, not True"),
    (lambda: Pitch(Fraction(0), PitchUnit.INCH), "a pitch is above zero and has at least one start"),
    (lambda: Pitch(Fraction(1), PitchUnit.INCH, 0), "a pitch is above zero and has at least one start"),
    (lambda: square_root(Fraction(-1, 2)), "only zero or more has a square root, not -1/2"),
    (
        lambda: tangent(Angle.of_degrees(270)),
        "the tangent of 270 degrees is without limit, or too near to it",
    ),
    (
        lambda: power(-2, Fraction(1, 2)),
        "only powers of zero or more, with an exponent of zero or more, not -2 to the 1/2",
    ),
    (
        lambda: power(2, Fraction(-1, 2)),
        "only powers of zero or more, with an exponent of zero or more, not 2 to the -1/2",
    ),
    (lambda: root_bounds(-1, 2), "the root of order 2 of -1 is not taken"),
    (lambda: root_bounds(4, 0), "the root of order 0 of 4 is not taken"),
]


@pytest.mark.parametrize(("asked", "words"), SAID, ids=[str(number) for number in range(len(SAID))])
def test_what_is_not_taken_is_refused_in_these_words(asked, words):
    with pytest.raises((ValueError, TypeError)) as refused:
        asked()
    assert str(refused.value) == words
