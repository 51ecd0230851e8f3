"""Solving a screw and wheel for a wanted reading: the pitch, the dial or the wheel, pitches this lathe cuts first."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length, shown_mm
from solver.refusals import ImpossibleSettingError
from solver.trains.lathe import Lathe
from solver.trains.train_answer import TrainAnswer
from solver.trains.train_search import TrainQuestion, search_trains

#: Dials that are usual; 127 among them serves the other system's screw.
USUAL_MARKS = (10, 20, 25, 30, 40, 50, 60, 75, 80, 100, 120, 125, 127, 150, 200, 250, 254)
#: Wheels that are usual.
USUAL_TEETH = (20, 24, 25, 30, 32, 36, 40, 48, 50, 60, 64, 72, 80, 90, 96, 100, 120, 125, 127, 150, 180, 200)
#: Finest and coarsest screw proposed.
FINEST = Length.of_mm("0.2")
COARSEST = Length.of_mm("6.5")
#: Pairs of the trains tried for a proposal.
MOST_PAIRS = 2
#: Most marks or teeth believed of a dial or wheel.
MOST_COUNTED = 2000


class WholeCount(NamedTuple):
    """A number of marks or teeth for a wanted reading, and the reading it really gives."""

    wanted: Length
    number: int
    reading: Length

    @property
    def is_exact(self) -> bool:
        """True when the reading is the wanted one.

        Examples
        --------
        >>> WholeCount(Length.of_mm(1), 2, Length.of_mm(1)).is_exact
        True
        """
        return self.reading == self.wanted

    @property
    def error(self) -> Fraction:
        """Reading over wanted, less one.

        Examples
        --------
        >>> WholeCount(Length.of_mm(2), 2, Length.of_mm(1)).error
        Fraction(-1, 2)
        """
        return self.reading / self.wanted - 1


class ScrewChoice(NamedTuple):
    """A screw that gives the reading with some count, and its best train on the lathe, if there is one."""

    number: int
    pitch: Length
    train: TrainAnswer | None

    @property
    def is_cut_exactly(self) -> bool:
        """True when this lathe cuts the pitch exactly with a train not known to fail at the banjo.

        Examples
        --------
        >>> ScrewChoice(50, Length.of_mm(1), None).is_cut_exactly
        False
        """
        return self.train is not None and self.train.error.is_exact


def marks_for(reading: Length, lead: Length) -> WholeCount:
    """Return the whole number of dial marks that comes nearest to a wanted reading of one mark.

    Parameters
    ----------
    reading : Length
        Wanted travel for one mark.
    lead : Length
        Of the screw.

    Returns
    -------
    WholeCount
        Exact or not, as it says.

    Raises
    ------
    ImpossibleSettingError
        One mark would be more than a turn, or the marks too many to cut.

    Examples
    --------
    >>> marks_for(Length.of_mm("0.02"), Length.of_inches("0.1"))
    WholeCount(wanted=Length(mm=Fraction(1, 50)), number=127, reading=Length(mm=Fraction(1, 50)))
    """
    count = _checked("marks", round(lead / reading))
    return WholeCount(reading, count, Length(lead.mm / count))


def teeth_for(reading: Length, pitch: Length) -> WholeCount:
    """Return the whole number of teeth that comes nearest to a wanted travel for one turn of the wheel.

    Examples
    --------
    >>> teeth_for(Length.of_mm(50), Length.of_mm("0.5")).number
    100
    """
    count = _checked("teeth", round(reading / pitch))
    return WholeCount(reading, count, pitch * count)


def _checked(word: str, count: int) -> int:
    if not 2 <= count <= MOST_COUNTED:
        raise ImpossibleSettingError(
            f"that reading asks for {'fewer than 2' if count < 2 else count} {word}",
            help_text=f"2 to {MOST_COUNTED} are answered: choose another screw or another reading.",
        )
    return count


def screws_for_mark(reading: Length, lathe: Lathe, marks: int | None = None) -> list[ScrewChoice]:
    """List the screws that give a wanted reading of one dial mark, those this lathe cuts exactly first.

    Parameters
    ----------
    reading : Length
        Wanted travel for one mark.
    lathe : Lathe
        On which the screw is cut.
    marks : int, optional
        Of the dial; the usual dials are tried when left out.

    Returns
    -------
    list of ScrewChoice
        Exact cuts first, then by rising error, then those the lathe does not cut within 1000 ppm.

    Raises
    ------
    ImpossibleSettingError
        No usual dial gives a screw of a usual pitch.

    Examples
    --------
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 1), (40, 1), (60, 1))),)
    >>> lathe = Lathe("metric", "3 mm", Length.of_mm(3), Fraction(1), True, box)
    >>> [(each.number, str(each.pitch.mm)) for each in screws_for_mark(Length.of_mm("0.01"), lathe)][:2]
    [(100, '1'), (200, '2')]
    """
    tried = (marks,) if marks is not None else USUAL_MARKS
    screws = ((number, reading * number) for number in tried)
    return _ranked(screws, lathe, is_given=marks is not None)


def screws_for_turn(reading: Length, lathe: Lathe, teeth: int | None = None) -> list[ScrewChoice]:
    """List the screws that give a wanted travel for one turn of the wheel, those this lathe cuts exactly first.

    Examples
    --------
    >>> from solver.trains.wheels import WheelClass
    >>> box = (WheelClass("module 1", Length.of_mm(1), ((20, 1), (40, 1), (60, 1))),)
    >>> lathe = Lathe("metric", "3 mm", Length.of_mm(3), Fraction(1), True, box)
    >>> screws_for_turn(Length.of_mm(50), lathe)[0].number
    25
    """
    tried = (teeth,) if teeth is not None else USUAL_TEETH
    screws = ((number, reading * Fraction(1, number)) for number in tried)
    return _ranked(screws, lathe, is_given=teeth is not None)


def _ranked(screws: Iterator[tuple[int, Length]], lathe: Lathe, *, is_given: bool) -> list[ScrewChoice]:
    choices = []
    for number, pitch in screws:
        if is_given or FINEST <= pitch <= COARSEST:
            question = TrainQuestion(pitch, most_pairs=MOST_PAIRS, wanted=1)
            trains = search_trains(question, lathe).answers
            best = min(trains, key=lambda answer: abs(answer.error.relative), default=None)
            choices.append(ScrewChoice(number, pitch, best))
    if not choices:
        raise ImpossibleSettingError(
            "no usual dial or wheel gives that reading with a screw of a usual pitch",
            help_text=f"Screws of {shown_mm(FINEST)} to {shown_mm(COARSEST)} pitch are proposed; "
            "give the pitch, the marks or the teeth as well.",
        )
    return sorted(choices, key=_rank)


def _rank(choice: ScrewChoice) -> tuple[bool, Fraction, int, int]:
    if choice.train is None:
        return True, Fraction(0), choice.pitch.mm.denominator, choice.number
    return False, abs(choice.train.error.relative), choice.pitch.mm.denominator, choice.number
