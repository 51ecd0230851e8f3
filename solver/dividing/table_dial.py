"""A rotary table turned by its dial: every position rounded from zero, no rounded step added to another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from solver.dividing.heads import Head
from solver.dividing.positions import equal_marks
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.refusals import ImpossibleSettingError

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

    @property
    def reached(self) -> Angle:
        """Where the work comes to stand, as the scale of degrees on the table shows it.

        Examples
        --------
        >>> wanted, error = Angle(Fraction(1, 127)), Angle(Fraction(1, 128) - Fraction(1, 127))
        >>> DialPosition(1, wanted, 0, Angle(Fraction(1, 128)), error).reached
        Angle(turns=Fraction(1, 128))
        """
        return Angle(self.exact.turns + self.error.turns)


@dataclass(frozen=True, slots=True)
class DialTable:
    """Positions of a rotary table by its dial.

    Parameters
    ----------
    part : Fraction or None
        Turns of the work between marks; ``None`` where they do not stand at equal angles.
    per_turn : Angle
        Turn of the work for one turn of the handle.
    division : Angle
        Smallest division of the dial, vernier included.
    rows : tuple of DialPosition
        Marks 0 to the last.
    """

    part: Fraction | None
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
    def closes(self) -> bool:
        """True when the last mark is the first one again.

        Examples
        --------
        >>> head = Head("table", Fraction(90), ())
        >>> [dial_table(head, Fraction(1, 7), moves, USUAL_READING).closes for moves in (1, 7)]
        [False, True]
        """
        return self.rows[-1].exact.turns.denominator == 1

    @property
    def gap_if_steps_are_added(self) -> Angle | None:
        """What the last mark would be off, had one rounded step been added each time; nothing without equal steps.

        Examples
        --------
        >>> table = dial_table(Head("table", Fraction(90), ()), Fraction(1, 127), 127, USUAL_READING)
        >>> table.gap_if_steps_are_added.arcsec
        Fraction(-600, 1)
        """
        if self.part is None:
            return None
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
        As `dial_marks`, or the list is too long.

    Examples
    --------
    >>> table = dial_table(Head("table", Fraction(90), ()), Fraction(1, 127), 127, USUAL_READING)
    >>> row = table.rows[2]
    >>> row.turns, row.reading.degrees, row.error.arcsec
    (1, Fraction(5, 3), Fraction(-1200, 127))
    """
    return replace(dial_marks(head, equal_marks(part, count), division), part=part)


def dial_marks(head: Head, marks: Sequence[Fraction], division: Angle) -> DialTable:
    """Work out by the dial marks that stand where they like.

    Parameters
    ----------
    head : Head
        Its worm ratio gives the turn of the work for one turn of the handle.
    marks : sequence of Fraction
        Turns of the work from zero, rising; mark 0 is the first of them.
    division : Angle
        Smallest division of the dial, vernier included.

    Returns
    -------
    DialTable
        One row a mark.

    Raises
    ------
    ImpossibleSettingError
        The head has no worm, its divisions do not fill a turn of the handle, or the marks stand closer than the dial
        can tell apart.

    Examples
    --------
    >>> marks = (Fraction(0), Fraction(1, 12), Fraction(1, 4))
    >>> table = dial_marks(Head("table", Fraction(90), ()), marks, USUAL_READING)
    >>> [(row.turns, str(row.reading.degrees)) for row in table.rows]
    [(0, '0'), (7, '2'), (22, '2')]
    """
    if not head.has_worm:
        raise ImpossibleSettingError(
            "this head has no worm, so it has no dial to turn by",
            help_text="Name a rotary table with --head, or describe yours with worm_ratio.",
        )
    per_turn = Angle(1 / head.worm_ratio)
    divisions = per_turn.turns / division.turns
    if divisions.denominator != 1:
        raise ImpossibleSettingError(
            f"a turn of the handle is {per_turn.degrees}°, not a whole number of divisions of {division.degrees}°",
            help_text="Give the smallest division that the dial of this table has.",
        )
    if any(after - before < division.turns for before, after in pairwise(marks)):
        raise ImpossibleSettingError(
            "the marks stand closer together than one division of the dial",
            help_text="Use an index plate, or a dial with a finer division.",
        )
    rows = []
    for number, exact in enumerate(marks):
        steps = round(exact / division.turns)
        turns, rest = divmod(steps, int(divisions))
        rows.append(
            DialPosition(
                number, Angle(exact), turns, Angle(rest * division.turns), Angle(steps * division.turns - exact)
            )
        )
    return DialTable(None, per_turn, division, tuple(rows))


def dial_alone(head: Head, part: Fraction, count: int) -> DialTable | None:
    """Work equal marks out for a table that its dial alone divides; nothing for any other head.

    Nothing is given either where whole turns of the handle are exact: those are one plain move, repeated.

    Parameters
    ----------
    head : Head
        With whatever it has.
    part : Fraction
        Turns of the work between marks, above zero.
    count : int
        Number of moves.

    Raises
    ------
    ImpossibleSettingError
        As `dial_table`.

    Examples
    --------
    >>> table = Head("table", Fraction(90), (), dial_reading=USUAL_READING)
    >>> dial_alone(table, Fraction(1, 9), 9) is None
    True
    >>> found = dial_alone(table, Fraction(1, 12), 12)
    >>> found.is_exact, found.rows[1].turns, found.rows[1].reading.degrees
    (True, 7, Fraction(2, 1))
    """
    if head.dial_reading is None or not head.has_only_dial or (part * head.worm_ratio).denominator == 1:
        return None
    return dial_table(head, part, count, head.dial_reading)


def dial_divides(head: Head, count: int) -> bool:
    """Say whether every mark of a round falls on a division of the dial, of a table that its dial alone divides.

    Examples
    --------
    >>> table = Head("table", Fraction(90), (), dial_reading=USUAL_READING)
    >>> dial_divides(table, 8), dial_divides(table, 7), dial_divides(Head("head", Fraction(40), ()), 8)
    (True, False, False)
    """
    if head.dial_reading is None or not head.has_only_dial:
        return False
    return (1 / (head.dial_reading.turns * count)).denominator == 1


def along_rim(angle: Angle, radius: Length) -> PiLength:
    """Turn an angle into the length of arc at a radius.

    Examples
    --------
    >>> along_rim(Angle(Fraction(1, 4)), Length.of_mm(10))
    PiLength(mm_per_pi=Fraction(5, 1))
    """
    return PiLength(2 * radius.mm * angle.turns)
