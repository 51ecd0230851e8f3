"""Ratios, times and drifts of wheelwork as text."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from cli.views.shop_figures import approximate, signed
from solver.helices.cutter_ranges import cutter_for
from solver.quantities.exact_numbers import significant_text, trimmed_decimal_text
from solver.wheelwork.drift import Drift
from solver.wheelwork.periods import SECONDS_PER_DAY, Period

if TYPE_CHECKING:
    from solver.wheelwork.tooth_cutting import SpurTooth

#: Parts of the wanted ratio that are told with the drift.
MILLION = 1_000_000
#: Figures of an error, and the most where fewer would put it on the wrong side of a limit.
USUAL_DIGITS, MOST_DIGITS = 3, 12
#: A fraction with more digits than this is told as a decimal alone.
LONGEST = 14
#: Years beyond this are told as such: no mechanism and no mean period holds so long.
MANY_YEARS = 1_000_000
_STEPS = ((365_25 * 864, "years"), (86_400, "days"), (3600, "h"), (60, "min"), (1, "s"))


def ratio_text(ratio: Fraction) -> str:
    """Write a ratio as a fraction where it is short, and as a decimal.

    Examples
    --------
    >>> ratio_text(Fraction(1, 12)), ratio_text(Fraction(20000, 608737)), ratio_text(Fraction(12))
    ('1/12 ≈ 0.0833333333', '20000/608737 ≈ 0.0328549111', '12')
    """
    decimal = significant_text(ratio, 9)
    mark = "=" if Fraction(decimal) == ratio else "≈"
    if mark == "=":
        decimal = trimmed_decimal_text(ratio, 20)
    if ratio.denominator == 1:
        return f"{ratio}"
    return f"{ratio} {mark} {decimal}" if len(f"{ratio}") <= LONGEST else f"{mark.replace('=', '')}{decimal}"


def one_to_text(ratio: Fraction) -> str:
    """Write a ratio below one the way a reduction is spoken of; nothing for others.

    Examples
    --------
    >>> one_to_text(1 / Fraction("29.530589")), one_to_text(Fraction(1, 12)), one_to_text(Fraction(12))
    (' (1 to 29.530589)', '', '')
    """
    if ratio >= 1 or ratio.numerator == 1:
        return ""
    inverse = 1 / ratio
    mark = "" if Fraction(significant_text(inverse, 9)) == inverse else "≈"
    return f" (1 to {mark}{trimmed_decimal_text(Fraction(significant_text(inverse, 9)), 12)})"


def time_text(days: Fraction) -> str:
    """Write a length of time to three figures in the unit that suits it; sign apart.

    Examples
    --------
    >>> time_text(Fraction(1, 86400)), time_text(Fraction(-1, 24)), time_text(Fraction(400)), time_text(Fraction(0))
    ('1.00 s', '1.00 h', '1.10 years', '0')
    """
    seconds = abs(days) * SECONDS_PER_DAY
    if seconds == 0:
        return "0"
    size, unit = next((step for step in _STEPS if seconds >= step[0]), _STEPS[-1])
    return f"{significant_text(seconds / size, 3)} {unit}"


def years_text(years: Fraction) -> str:
    """Write a number of years, in days when it is below one.

    Examples
    --------
    >>> years_text(Fraction(245, 2)), years_text(Fraction(1, 4)), years_text(Fraction(10**7))
    ('122 years', '91.3 days', 'over a million years')
    """
    return "over a million years" if years >= MANY_YEARS else time_text(years * Fraction(1461, 4))


def period_text(period: Period) -> str:
    """Write a period as it was said, and in days where that is not the same.

    Examples
    --------
    >>> period_text(Period(Fraction(1, 2), "12 h")), period_text(Period(Fraction(1), "1 day"))
    ('12 h = 0.5 days', '1 day')
    """
    unit = "day" if period.days == 1 else "days"
    told = f"{approximate(period.days, 9)} {unit}"
    if not period.told:
        return told
    return period.told if period.told in (told, f"{approximate(period.days, 9)} d") else f"{period.told} = {told}"


def way_text(error: Fraction, within: Fraction = Fraction(0)) -> str:
    """Say an error in words and ppm; beside a limit with as many figures as tell on which side of it.

    Examples
    --------
    >>> way_text(Fraction(1, 8000)), way_text(Fraction(-1, 8000)), way_text(Fraction(0))
    ('the last arbor gains, +125 ppm', 'the last arbor loses, -125 ppm', 'exact')
    """
    if error == 0:
        return "exact"
    return f"the last arbor {'gains' if error > 0 else 'loses'}, {ppm_text(error, within)} ppm"


def ppm_text(error: Fraction, within: Fraction = Fraction(0)) -> str:
    """Write a part of the ratio in ppm with its sign; ``exact`` for none.

    Three figures, and more beside a limit, so that an error beyond it does not read as one within it.

    Examples
    --------
    >>> ppm_text(Fraction(-1, 8000)), ppm_text(Fraction(0))
    ('-125', 'exact')
    >>> ppm_text(Fraction(-10046, 10**9), Fraction(1, 10**5)), ppm_text(Fraction(1, 10**5), Fraction(1, 10**5))
    ('-10.05', '+10.0')
    """
    if not error:
        return "exact"
    sign = "+" if error > 0 else ""
    for digits in range(USUAL_DIGITS, MOST_DIGITS):
        text = significant_text(error * MILLION, digits)
        if (abs(Fraction(text)) <= within * MILLION) is (abs(error) <= within):
            return f"{sign}{text}"
    return f"{sign}{significant_text(error * MILLION, MOST_DIGITS)}"


def drift_rows(drift: Drift) -> list[tuple[str, str]]:
    """Tell what an error comes to, in the terms of whoever looks at the dial."""
    error, tooth = drift.error, drift.turns_to_a_tooth
    if error == 0 or tooth is None:
        last_place = "; the wanted figure itself is as good as its last place" if drift.wanted.give else ""
        return [("Drift", f"none{last_place}")]
    side = "gains" if error > 0 else "loses"
    if drift.wanted.last is None or drift.days_per_turn is None:
        return [
            (
                "In 1000 turns",
                f"{side} {significant_text(abs(drift.degrees_per_thousand_turns), 3)}° of the last arbor",
            ),
            ("One tooth off", f"of {drift.last_teeth}, after {significant_text(tooth, 3)} turns of the last arbor"),
            ("One turn off", f"after {significant_text(tooth * drift.last_teeth, 3)} turns of the last arbor"),
        ]
    made, per_turn = drift.made_days or Fraction(0), drift.days_per_turn
    length = "long" if per_turn > 0 else "short"
    century = drift.degrees_per_century or Fraction(0)
    return [
        ("One turn made", f"{_made_text(made)}: {time_text(per_turn)} too {length}"),
        ("Each year", f"{side} {time_text(drift.days_per_year)} (year of 365.25 days)"),
        ("One day off", f"in {years_text(drift.years_to_a_day or Fraction(0))}"),
        ("One tooth off", f"of {drift.last_teeth}, in {years_text(drift.years(tooth) or Fraction(0))}"),
        ("In a century", f"{side} {significant_text(abs(century), 3)}° of the last arbor"),
    ]


def _made_text(days: Fraction) -> str:
    return f"{approximate(days, 7)} days" if days >= 1 else f"{approximate(days * SECONDS_PER_DAY, 4)} s"


def drift_cell(drift: Drift) -> str:
    """Tell the drift in a few signs for a table: time a year, or degrees in a thousand turns.

    Examples
    --------
    >>> from solver.wheelwork.drift import WantedTurning
    >>> drift_cell(Drift(WantedTurning(Fraction(1, 10)), Fraction(101, 1000), 100))
    '+3600°'
    """
    if drift.error == 0:
        return "0"
    if drift.wanted.last is None:
        return f"{signed(drift.degrees_per_thousand_turns)}°"
    return f"{'+' if drift.error > 0 else '-'}{time_text(drift.days_per_year)}"


def turns_and_teeth(turns: Fraction, teeth: int) -> str:
    """Write turns of a wheel as whole turns and the nearest tooth; ≈ where a tooth does not hold it.

    Examples
    --------
    >>> turns_and_teeth(Fraction(11074, 375), 15), turns_and_teeth(Fraction(5, 2), 20)
    ('≈29 turns and 8 teeth of 15', '2 turns and 10 teeth of 20')
    """
    whole, over = divmod(round(turns * teeth), teeth)
    mark = "" if Fraction(whole * teeth + over, teeth) == turns else "≈"
    word = f"{whole} turn{'' if whole == 1 else 's'}"
    return f"{mark}{word}" if over == 0 else f"{mark}{word} and {over} {'tooth' if over == 1 else 'teeth'} of {teeth}"


def size_of_error(error: Fraction) -> str:
    """Write the size of an error in ppm.

    Examples
    --------
    >>> size_of_error(Fraction(1, 300_000))
    '3.33 ppm'
    """
    return f"{significant_text(abs(error) * MILLION, 3)} ppm"


def cutter_head(tooth: SpurTooth) -> str:
    """Head the cutters with the set they are numbered in, for the two numberings run opposite ways.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.wheelwork.tooth_cutting import SpurTooth
    >>> cutter_head(SpurTooth("24 DP", Length.of_inches("1/24"), is_dp=True))
    'Cutter (DP set)'
    """
    return f"Cutter ({'DP' if tooth.is_dp else 'module'} set)"


def cutter_words(tooth: SpurTooth, teeth: int) -> str:
    """Name the cutter for a count by its range of teeth, then by its number.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.wheelwork.tooth_cutting import SpurTooth
    >>> tooth = SpurTooth("module 0.5", Length.of_mm("0.5"), is_dp=False)
    >>> cutter_words(tooth, 15), cutter_words(tooth, 150), cutter_words(tooth, 10)
    ('14-16: No. 2', '135-rack: No. 8', 'none')
    """
    number = tooth.cutter(teeth)
    if number is None:
        return "none"
    cutter = cutter_for(Fraction(teeth))
    return f"{cutter.fewest}-{cutter.most or 'rack'}: No. {number}"
