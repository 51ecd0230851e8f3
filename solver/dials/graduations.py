"""How many marks a dial needs for a screw and a wanted reading, and what its blank must measure."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW, PiLength
from solver.refusals import ImpossibleSettingError

#: More marks than this cannot be told apart on any dial. [marks]
MOST_MARKS = 10_000


@dataclass(frozen=True, slots=True)
class Graduation:
    """A dial of so many marks on a screw.

    Parameters
    ----------
    lead : Length
        Travel for one turn of the screw.
    marks : int
        Marks round the dial.
    wanted : Length
        Travel that one mark is meant to stand for.

    Examples
    --------
    >>> Graduation(Length.of_inches("1/8"), 125, Length.of_inches("1/1000")).is_exact
    True
    """

    lead: Length
    marks: int
    wanted: Length

    @property
    def per_mark(self) -> Length:
        """Travel for one mark, exactly.

        Examples
        --------
        >>> Graduation(Length.of_mm(4), 200, Length.of_mm("0.02")).per_mark
        Length(mm=Fraction(1, 50))
        """
        return self.lead * Fraction(1, self.marks)

    @property
    def is_exact(self) -> bool:
        """True when a mark is worth just what is wanted.

        Examples
        --------
        >>> Graduation(Length.of_mm(4), 199, Length.of_mm("0.02")).is_exact
        False
        """
        return self.per_mark == self.wanted

    @property
    def error_per_mark(self) -> Length:
        """True travel for one mark minus what the mark says; above zero when the slide goes too far.

        Examples
        --------
        >>> Graduation(Length.of_mm(4), 160, Length.of_mm("0.02")).error_per_mark
        Length(mm=Fraction(1, 200))
        """
        return self.per_mark - self.wanted

    def error_over(self, reading: Length) -> Length:
        """Return true travel minus reading, when the dial has been followed over a reading.

        Examples
        --------
        >>> Graduation(Length.of_mm(4), 160, Length.of_mm("0.02")).error_over(Length.of_mm(20))
        Length(mm=Fraction(5, 1))
        """
        return self.error_per_mark * (reading / self.wanted)

    @property
    def error_per_turn(self) -> Length:
        """Lead of the screw minus what a whole round of marks says.

        Examples
        --------
        >>> Graduation(Length.of_mm(4), 160, Length.of_mm("0.02")).error_per_turn
        Length(mm=Fraction(4, 5))
        """
        return self.error_per_mark * self.marks


@dataclass(frozen=True, slots=True)
class GraduationReport:
    """The dials for one screw and one reading.

    Parameters
    ----------
    exact_marks : Fraction
        Marks that a perfect dial would have; a dial can be cut when it is whole.
    answers : tuple of Graduation
        The exact dial alone, or the nearest whole counts on either side, the nearer first.
    """

    exact_marks: Fraction
    answers: tuple[Graduation, ...]

    @property
    def is_exact(self) -> bool:
        """True when a whole number of marks gives the reading.

        Examples
        --------
        >>> graduate(Length.of_inches("1/10"), Length.of_mm("0.02")).is_exact
        True
        """
        return self.exact_marks.denominator == 1


def graduate(lead: Length, wanted: Length) -> GraduationReport:
    """Find the marks of a dial for a screw and a wanted reading.

    Parameters
    ----------
    lead : Length
        Travel for one turn of the screw, above zero.
    wanted : Length
        Travel that one mark stands for, above zero.

    Returns
    -------
    GraduationReport
        Exact where the reading goes a whole number of times into the lead.

    Raises
    ------
    ImpossibleSettingError
        The reading is above the lead, or the marks would be too many to tell apart.

    Examples
    --------
    >>> graduate(Length.of_inches("1/8"), Length.of_inches("1/1000")).answers[0].marks
    125
    >>> [each.marks for each in graduate(Length.of_inches("1/8"), Length.of_mm("0.02")).answers]
    [159, 158]
    """
    marks = lead / wanted
    if marks < 1:
        raise ImpossibleSettingError(
            "one mark would be worth more than a whole turn of the screw",
            help_text="Ask for a reading no larger than the lead of the screw.",
        )
    if marks > MOST_MARKS:
        raise ImpossibleSettingError(
            f"the dial would need {_rounded(marks)} marks; more than {MOST_MARKS} cannot be told apart",
            help_text="Ask for a coarser reading, or use a vernier.",
        )
    if marks.denominator == 1:
        return GraduationReport(marks, (Graduation(lead, int(marks), wanted),))
    around = [Graduation(lead, count, wanted) for count in (int(marks), int(marks) + 1)]
    around.sort(key=lambda each: (abs(each.error_per_mark.mm), each.marks))
    return GraduationReport(marks, tuple(around))


def whole_readings(lead: Length, wanted: Length, *, unit: Length, most: int = 6) -> tuple[Length, ...]:
    """Name readings near the wanted one that do give a whole number of marks.

    Parameters
    ----------
    lead : Length
        Travel for one turn of the screw.
    wanted : Length
        The reading that was asked for.
    unit : Length
        A thousandth of the unit of the dial: 0.001 mm or 0.001 in. Readings are whole multiples of half of it.
    most : int, optional
        How many to name.

    Returns
    -------
    tuple of Length
        The nearest first; empty when the lead is no multiple of half a unit.

    Examples
    --------
    >>> mm = Length.of_mm
    >>> [each.mm for each in whole_readings(Length.of_inches("1/8"), mm("0.02"), unit=mm("0.001"), most=2)]
    [Fraction(1, 40), Fraction(1, 80)]
    """
    half = unit * Fraction(1, 2)
    steps = lead / half
    if steps.denominator != 1:
        return ()
    top = int(steps)
    found = [
        half * each for each in range(1, min(top, MOST_MARKS) + 1) if top % each == 0 and top // each <= MOST_MARKS
    ]
    found.sort(key=lambda each: (abs((each - wanted).mm), each.mm))
    return tuple(found[:most])


def blank_diameter(marks: int, spacing: Length) -> Length:
    """Find the diameter at which the marks stand a wanted distance apart along the rim.

    Returns
    -------
    Length
        Above the truth by less than ``10**-78`` of itself.

    Examples
    --------
    >>> from solver.quantities.exact_numbers import decimal_text
    >>> decimal_text(blank_diameter(100, Length.of_mm(1)).mm, 4)
    '31.8310'
    """
    return spacing * (marks / PI_LOW)


def mark_spacing(marks: int, diameter: Length) -> PiLength:
    """Find how far apart the marks stand along the rim of a dial.

    Examples
    --------
    >>> mark_spacing(100, Length.of_mm(40))
    PiLength(mm_per_pi=Fraction(2, 5))
    """
    return PiLength(diameter.mm / marks)


def _rounded(marks: Fraction) -> str:
    # Up, so that too many never read as just as many as are allowed.
    return str(marks) if marks.denominator == 1 else f"about {ceil(marks)}"
