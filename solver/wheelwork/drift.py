"""What an error of the ratio comes to: time a year, a day or a tooth in so many years, degrees in a century."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.wheelwork.periods import Period
from solver.wheelwork.written_ratios import WrittenRatio

#: The year and the century of astronomical tables. [d]
DAYS_PER_YEAR = Fraction(1461, 4)
DAYS_PER_CENTURY = 100 * DAYS_PER_YEAR
DEGREES = 360


@dataclass(frozen=True, slots=True)
class WantedTurning:
    """What the train should do.

    Parameters
    ----------
    ratio : Fraction
        Turns of the last arbor for one turn of the first, the sense apart; above zero.
    first : Period or None
        Time of one turn of the first arbor, where it is known.
    last : Period or None
        Time of one turn of the last arbor; known when ``first`` is.
    give : Fraction
        How far the wanted figures may be off by their last written places, as a part of the ratio.
    """

    ratio: Fraction
    first: Period | None = None
    last: Period | None = None
    give: Fraction = Fraction(0)

    @classmethod
    def of_periods(cls, first: Period, last: Period) -> WantedTurning:
        """Take the times of one turn of both arbors.

        Examples
        --------
        >>> WantedTurning.of_periods(Period(Fraction(1), "1 day"), Period(Fraction(59, 2), "59/2 days")).ratio
        Fraction(2, 59)
        """
        return cls(first.days / last.days, first, last, first.give + last.give)

    @classmethod
    def from_first(cls, written: WrittenRatio, first: Period) -> WantedTurning:
        """Take a ratio, and the time of one turn of the first arbor.

        Examples
        --------
        >>> twelfth = WrittenRatio(Fraction(1, 12), Fraction(0))
        >>> WantedTurning.from_first(twelfth, Period(Fraction(1, 24), "1 h")).last.days
        Fraction(1, 2)
        """
        return cls(written.ratio, first, Period(first.days / written.ratio, ""), written.give)

    @classmethod
    def from_last(cls, written: WrittenRatio, last: Period) -> WantedTurning:
        """Take a ratio, and the time of one turn of the last arbor.

        Examples
        --------
        >>> twelfth = WrittenRatio(Fraction(1, 12), Fraction(0))
        >>> WantedTurning.from_last(twelfth, Period(Fraction(1, 2), "12 h")).first.days
        Fraction(1, 24)
        """
        return cls(written.ratio, Period(last.days * written.ratio, ""), last, written.give)


@dataclass(frozen=True, slots=True)
class Drift:
    """How a train departs from what was wanted.

    Parameters
    ----------
    wanted : WantedTurning
        Ratio, and the times of a turn where they are known.
    made : Fraction
        Turns of the last arbor for one of the first, as the wheels make them.
    last_teeth : int
        Teeth of the wheel on the last arbor.
    """

    wanted: WantedTurning
    made: Fraction
    last_teeth: int

    @property
    def error(self) -> Fraction:
        """Made minus wanted, as a part of the wanted ratio; plus is a last arbor that gains.

        Examples
        --------
        >>> Drift(WantedTurning(Fraction(1, 10)), Fraction(101, 1000), 100).error
        Fraction(1, 100)
        """
        return self.made / self.wanted.ratio - 1

    @property
    def made_days(self) -> Fraction | None:
        """Days that one turn of the last arbor takes as made.

        Examples
        --------
        >>> day = Period(Fraction(1), "1 day")
        >>> Drift(WantedTurning.of_periods(day, Period(Fraction(30), "30 days")), Fraction(2, 59), 118).made_days
        Fraction(59, 2)
        """
        return None if self.wanted.first is None else self.wanted.first.days / self.made

    @property
    def days_per_turn(self) -> Fraction | None:
        """Days by which one turn of the last arbor is too long; minus when too short.

        Examples
        --------
        >>> day = Period(Fraction(1), "1 day")
        >>> Drift(WantedTurning.of_periods(day, Period(Fraction(30), "30 days")), Fraction(2, 59), 118).days_per_turn
        Fraction(-1, 2)
        """
        made = self.made_days
        return None if made is None or self.wanted.last is None else made - self.wanted.last.days

    @property
    def days_per_year(self) -> Fraction:
        """Days that the last arbor gains in a year of 365.25 days; minus when it loses.

        Examples
        --------
        >>> Drift(WantedTurning(Fraction(1)), Fraction(1462, 1461), 100).days_per_year
        Fraction(1, 4)
        """
        return self.error * DAYS_PER_YEAR

    @property
    def years_to_a_day(self) -> Fraction | None:
        """Years of 365.25 days in which it comes to one day; ``None`` when it never does.

        Examples
        --------
        >>> Drift(WantedTurning(Fraction(1)), Fraction(1462, 1461), 100).years_to_a_day
        Fraction(4, 1)
        """
        return None if self.error == 0 else 1 / abs(self.days_per_year)

    @property
    def turns_to_a_tooth(self) -> Fraction | None:
        """Turns of the last arbor in which it comes to one tooth of its wheel; ``None`` when it never does.

        Examples
        --------
        >>> Drift(WantedTurning(Fraction(1, 10)), Fraction(101, 1000), 100).turns_to_a_tooth
        Fraction(1, 1)
        """
        return None if self.error == 0 else Fraction(1, self.last_teeth) / abs(self.error)

    def years(self, turns: Fraction) -> Fraction | None:
        """Give the years that so many turns of the last arbor take.

        Examples
        --------
        >>> day = Period(Fraction(1), "1 day")
        >>> Drift(WantedTurning.of_periods(day, day), Fraction(1), 100).years(Fraction(1461))
        Fraction(4, 1)
        """
        return None if self.wanted.last is None else turns * self.wanted.last.days / DAYS_PER_YEAR

    @property
    def degrees_per_century(self) -> Fraction | None:
        """Degrees that the last arbor gains in 36525 days; minus when it loses.

        Examples
        --------
        >>> year = Period(DAYS_PER_YEAR, "year")
        >>> Drift(WantedTurning.of_periods(year, year), Fraction(1001, 1000), 100).degrees_per_century
        Fraction(36, 1)
        """
        if self.wanted.last is None:
            return None
        return DEGREES * self.error * DAYS_PER_CENTURY / self.wanted.last.days

    @property
    def degrees_per_thousand_turns(self) -> Fraction:
        """Degrees that the last arbor gains in a thousand of its own turns.

        Examples
        --------
        >>> Drift(WantedTurning(Fraction(1, 10)), Fraction(101, 1000), 100).degrees_per_thousand_turns
        Fraction(3600, 1)
        """
        return DEGREES * 1000 * self.error
