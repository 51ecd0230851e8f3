"""A rotary table turned by its dial: every position rounded from zero, no rounded step added to another."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.dividing.heads import Head
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.refusals import ImpossibleSettingError

#: Longest list printed; nobody walks further by hand. [rows]
MOST_POSITIONS = 5000
#: What most table dials can be read to, with their vernier, where the file of the table does not say.
USUAL_READING = Angle(Fraction(1, 21_600))


@dataclass(frozen=True, slots=True)
class DialPosition:
    """Where the dial stands for one mark.

    Parameters
    ----------
    number : int
        Mark, counted from 0.
    exact : Angle
        Where the mark belongs.
    turns : int
        Whole turns of the handle from the start.
    reading : Angle
        What the dial of the handle shows beyond them, as an angle of the work.
    error : Angle
        Where the work comes to stand, minus where it belongs; never more than half a division.
    """

    number: int
    exact: Angle
    turns: int
    reading: Angle
    error: Angle


@dataclass(frozen=True, slots=True)
class DialTable:
    """Positions of a rotary table by its dial.

    Parameters
    ----------
    part : Fraction
        Turns of the work between marks.
    per_turn : Angle
        Turn of the work for one turn of the handle.
    division : Angle
        Smallest division of the dial, vernier included.
    rows : tuple of DialPosition
        Marks 0 to the last.
    """

    part: Fraction
    per_turn: Angle
    division: Angle
    rows: tuple[DialPosition, ...]

    @property
    def worst(self) -> Angle:
        """Largest error of a position, without its sign.

        Examples
        --------
        >>> dial_table(Head("table", Fraction(90), ()), Fraction(1, 7), 7, Angle(Fraction(1, 360))).worst.degrees
        Fraction(3, 7)
        """
        return Angle(max(abs(row.error.turns) for row in self.rows))

    @property
    def is_exact(self) -> bool:
        """True when every mark falls on a division of the dial.

        Examples
        --------
        >>> dial_table(Head("table", Fraction(90), ()), Fraction(1, 8), 8, Angle(Fraction(1, 360))).is_exact
        True
        """
        return self.worst.turns == 0

    @property
    def gap_if_steps_are_added(self) -> Angle:
        """What the last mark would be off, had one rounded step been added each time.

        Examples
        --------
        >>> table = dial_table(Head("table", Fraction(90), ()), Fraction(1, 127), 127, USUAL_READING)
        >>> table.gap_if_steps_are_added.arcsec
        Fraction(-600, 1)
        """
        step = round(self.part / self.division.turns) * self.division.turns
        return Angle((step - self.part) * (len(self.rows) - 1))


def dial_table(head: Head, part: Fraction, count: int, division: Angle) -> DialTable:
    """Work out the positions of a table by its dial.

    Parameters
    ----------
    head : Head
        Its worm ratio gives the turn of the work for one turn of the handle.
    part : Fraction
        Turns of the work between marks, above zero.
    count : int
        Number of moves.
    division : Angle
        Smallest division of the dial, vernier included.

    Returns
    -------
    DialTable
        ``count + 1`` rows.

    Raises
    ------
    ImpossibleSettingError
        The head has no worm, its divisions do not fill a turn of the handle, the list is too long, or the marks
        stand closer than the dial can tell apart.

    Examples
    --------
    >>> table = dial_table(Head("table", Fraction(90), ()), Fraction(1, 127), 127, USUAL_READING)
    >>> row = table.rows[2]
    >>> row.turns, row.reading.degrees, row.error.arcsec
    (1, Fraction(5, 3), Fraction(-1200, 127))
    """
    if not head.has_worm:
        raise ImpossibleSettingError(
            "this head has no worm, so it has no dial to turn by",
            help_text="Name a rotary table with --head, or describe yours with worm_ratio.",
        )
    if count > MOST_POSITIONS:
        raise ImpossibleSettingError(
            f"a list of {count} positions is longer than the {MOST_POSITIONS} anybody walks by hand",
            help_text="Ask for fewer divisions.",
        )
    per_turn = Angle(1 / head.worm_ratio)
    divisions = per_turn.turns / division.turns
    if divisions.denominator != 1:
        raise ImpossibleSettingError(
            f"a turn of the handle is {per_turn.degrees}°, not a whole number of divisions of {division.degrees}°",
            help_text="Give the smallest division that the dial of this table has.",
        )
    if part < division.turns:
        raise ImpossibleSettingError(
            "the marks stand closer together than one division of the dial",
            help_text="Use an index plate, or a dial with a finer division.",
        )
    rows = []
    for number in range(count + 1):
        exact = number * part
        steps = round(exact / division.turns)
        turns, rest = divmod(steps, int(divisions))
        rows.append(
            DialPosition(
                number, Angle(exact), turns, Angle(rest * division.turns), Angle(steps * division.turns - exact)
            )
        )
    return DialTable(part, per_turn, division, tuple(rows))


def along_rim(angle: Angle, radius: Length) -> PiLength:
    """Turn an angle into the length of arc at a radius.

    Examples
    --------
    >>> along_rim(Angle(Fraction(1, 4)), Length.of_mm(10))
    PiLength(mm_per_pi=Fraction(5, 1))
    """
    return PiLength(2 * radius.mm * angle.turns)
