"""Periods of the sky and classic trains, from memory of the books named; recomputed here, none looked up."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gearsets.period_tables import find_period
from solver.quantities.continued_fractions import convergents
from solver.quantities.exact_numbers import decimal_text
from solver.wheelwork.drift import Drift, WantedTurning
from solver.wheelwork.nearest_ratios import nearest_counts
from solver.wheelwork.written_ratios import read_turning_ratio

#: Turns of Saturn's wheel against the year's, and the convergents he drew from it.
HUYGENS_SATURN = Fraction(77708431, 2640858)
HUYGENS_CONVERGENTS = ("29", "59/2", "147/5", "206/7")
MEEUS = "J. Meeus, Astronomical Algorithms, 2nd ed., 1998, table 31.B"
#: Mean motion in longitude against the equinox of 2000, degrees in a century of 36525 days.
MEAN_MOTIONS = {
    "Mercury": "149472.6746358",
    "Venus": "58517.8156760",
    "Mars": "19140.2993039",
    "Jupiter": "3034.9056606",
    "Saturn": "1222.1138488",
    "Uranus": "428.4669983",
    "Neptune": "218.4862002",
}
EARTH = Fraction("35999.3728565")
#: From memory of its lists.
ALMANAC = "The Astronomical Almanac; Explanatory Supplement to the Astronomical Almanac, about 2000; Supplement 1992"


def days(text: str) -> Fraction:
    return find_period(text).days


def as_fine(value: Fraction, keyed: Fraction) -> str:
    """Write a value to as many places as the table holds of another."""
    places = next(places for places in range(20) if (keyed * 10**places).denominator == 1)
    return decimal_text(value, places)


@pytest.mark.from_memory(MEEUS)
@pytest.mark.parametrize("planet", MEAN_MOTIONS)
def test_sidereal_periods_are_the_mean_motions_turned_over(planet):
    turned = 360 * 36525 / Fraction(MEAN_MOTIONS[planet])
    keyed = days(f"{planet} sidereal")
    assert as_fine(turned, keyed) == as_fine(keyed, keyed)


@pytest.mark.from_memory(MEEUS)
@pytest.mark.parametrize("planet", MEAN_MOTIONS)
def test_synodic_periods_are_the_differences_of_the_mean_motions(planet):
    turned = 360 * 36525 / abs(Fraction(MEAN_MOTIONS[planet]) - EARTH)
    assert abs(turned - days(f"{planet} synodic")) <= Fraction(1, 100)


@pytest.mark.from_memory(f"{ALMANAC}, lengths of months and years")
def test_the_months_hang_together():
    # The moon against the sun, the node and the apse: each difference of two motions is a third.
    month = days("tropical month")
    assert decimal_text(1 / (1 / month - 1 / days("tropical year")), 6) == "29.530589"
    assert abs(1 / (1 / month + 1 / days("lunar node")) - days("draconic month")) < Fraction(2, 10**6)
    assert abs(1 / (1 / month - 1 / days("lunar apse")) - days("anomalistic month")) < Fraction(2, 10**6)
    sidereal = 1 / (1 / days("sidereal month") - 1 / days("sidereal year"))
    assert abs(sidereal - days("synodic month")) < Fraction(2, 10**6)
    # Tropical turns of node and apse go with the tropical month; sidereal ones with the sidereal month, and the years
    # carry the one over into the other.
    equinox = 1 / days("tropical year") - 1 / days("sidereal year")
    assert abs(1 / (1 / days("lunar node") + equinox) - Fraction("6793.48")) < Fraction(1, 10)
    assert abs(1 / (1 / days("lunar apse") - equinox) - Fraction("3232.61")) < Fraction(1, 10)
    eclipse = 1 / (1 / days("tropical year") + 1 / days("lunar node"))
    assert abs(eclipse - days("eclipse year")) < Fraction(1, 10**4)


@pytest.mark.from_memory(f"{ALMANAC}, sidereal day")
def test_the_sidereal_day_is_as_long_as_printed():
    # A mean solar day is 1.00273790935 mean sidereal days.
    assert decimal_text(1 / days("sidereal day"), 9) == "1.002737909"


@pytest.mark.from_memory("general knowledge: the saros and the cycle of Meton")
@pytest.mark.parametrize(
    ("text", "printed"),
    [
        # The saros by its three months, as lists of eclipses tell it.
        ("223 synodic months", "6585.32"),
        ("242 draconic months", "6585.36"),
        ("239 anomalistic months", "6585.54"),
        # Meton's cycle, by moons and by years.
        ("235 synodic months", "6939.69"),
        ("19 tropical years", "6939.60"),
    ],
)
def test_cycles_are_as_long_as_printed(text, printed):
    assert decimal_text(days(text), 2) == printed


@pytest.mark.from_memory(
    "C. Huygens, Descriptio automati planetarii, 1703, as histories of continued fractions tell it"
)
def test_the_convergents_of_huygens_for_saturn_and_his_wheels():
    assert tuple(map(str, convergents(HUYGENS_SATURN, largest=206))) == HUYGENS_CONVERGENTS
    # One pair, pinions of seven leaves and up, wheels to 206: his 206 on 7 is the nearest there is.
    best = nearest_counts(range(7, 207), 1 / HUYGENS_SATURN, 1, 1)
    assert best.found[0] == ((7,), (206,))
    assert best.beyond is None


@pytest.mark.from_memory("general knowledge: the cycle of Meton and the octaeteris")
def test_metons_cycle_and_the_older_one_are_convergents_of_months_in_a_year():
    ratio = days("tropical year") / days("synodic month")
    assert [str(each) for each in convergents(ratio, largest=300)] == ["12", "25/2", "37/3", "99/8", "136/11", "235/19"]
    assert nearest_counts(range(8, 236), ratio, 1, 1).found[0] == ((235,), (19,))


@pytest.mark.from_memory("general knowledge: histories of the calendar")
def test_the_leap_years_of_calendars_are_convergents_of_the_year():
    # Julian 1 in 4, then 7 in 29, 8 in 33 and 31 in 128: histories of the calendar.
    fraction = days("tropical year") - 365
    assert [str(each) for each in convergents(fraction, largest=128)] == ["1/4", "7/29", "8/33", "31/128"]


@pytest.mark.from_memory("D. de S. Price, Gears from the Greeks, 1974")
def test_the_moon_train_of_the_antikythera_wheels():
    # 64/38 x 48/24 x 127/32, 254 sidereal months in 19 years.
    train = read_turning_ratio("64/38 x 48/24 x 127/32").ratio
    assert train == Fraction(254, 19)
    found = nearest_counts((24, 32, 38, 48, 64, 127), train, 3, 12).found
    assert found[0].ratio == train
    assert ((48, 64, 127), (24, 32, 38)) in found
    wanted = WantedTurning.of_periods(find_period("tropical year"), find_period("tropical month"))
    # The cycle is known to be out by some two hours in its 19 years.
    drift = Drift(wanted, train, 32)
    assert 1 <= abs(drift.days_per_year * 19 * 24) <= 3


@pytest.mark.from_memory("general knowledge: the two moon works of watchmakers")
@pytest.mark.parametrize(
    ("made", "years"),
    [
        # The two moon works of watchmakers: 59 teeth for two moons, a day off in some two years and eight months; and
        # the one of 135 teeth, a day off in some 122 years.
        ("59/2", "2.6"),
        ("945/32", "122"),
    ],
)
def test_moon_works_of_watches_are_a_day_off_when_their_makers_say(made, years):
    month = find_period("synodic month")
    drift = Drift(WantedTurning.of_periods(find_period("1 day"), month), 1 / Fraction(made), 59)
    assert decimal_text(drift.years_to_a_day or Fraction(0), 0 if "." not in years else 1) == years
