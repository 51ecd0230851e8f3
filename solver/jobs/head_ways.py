"""Every setting of the head that does a dividing task: circles on their faces, and wheels where it must be geared.

A setting without wheels has the head bare, for a plate that is geared to the spindle cannot be held still. The idlers
of a geared one are those that ``differential`` takes, not all that would do. A table that its dial alone divides has
one way: every mark worked from zero.
"""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction
from typing import NamedTuple

from solver.dividing.choosing import ChoiceReport, choose
from solver.dividing.heads import Head
from solver.dividing.moves import IndexAnswer, Method
from solver.dividing.table_dial import DialTable, dial_alone
from solver.jobs.lathe_ways import MOST_WAYS
from solver.jobs.tasks import Face, Way, least_alike
from solver.quantities.angles import Angle
from solver.trains.changes import Standing

#: Places on the head, from the work spindle to the plate.
WORK_SPINDLE, PLATE_GEAR = "head, work spindle", "head, plate"


class HeadWays(NamedTuple):
    """The settings that do one dividing task.

    Parameters
    ----------
    choice : ChoiceReport
        As ``divide`` gives it.
    answers : tuple of IndexAnswer
        The settings that count, best first.
    is_whole : bool
        All of them are there; when false, the best-ranked are.
    table : DialTable or None
        In place of settings, every mark by the dial of a table that has nothing else.
    moves : int or None
        Moves that an error adds up over, 1 for an angle; ``None`` for those that close the round.
    """

    choice: ChoiceReport
    answers: tuple[IndexAnswer, ...]
    is_whole: bool
    table: DialTable | None = None
    moves: int | None = None

    def error(self, answer: IndexAnswer) -> Angle:
        """Give what a setting is judged by: its error where the round should close, or of the angle alone.

        Examples
        --------
        >>> from solver.dividing.heads import Plate
        >>> head = Head("40:1", Fraction(40), (Plate("A", ((20,),)),))
        >>> for moves in (None, 1):
        ...     found = head_ways(head, Fraction(1, 7), within=Fraction(1), moves=moves)
        ...     print(abs(found.error(found.answers[0]).degrees))
        9/10
        9/70
        """
        return answer.error_per_move * (self.moves or answer.moves_to_close)

    def ways(self, head: Head) -> tuple[Way, ...]:
        """Give the settings as ways of a task, one for each face that has the circle; ``rank`` numbers the answer.

        Examples
        --------
        >>> from solver.dividing.heads import Plate
        >>> head = Head("40:1", Fraction(40), (Plate("A", ((15, 18), (21,))),))
        >>> [way.face for way in head_ways(head, Fraction(1, 28)).ways(head)]
        [('A', 2)]
        """
        if self.table is not None:
            return (Way(frozenset(), self.table.worst.turns, 0),)
        return least_alike(
            tuple(
                Way(wheels_on_head(answer), abs(self.error(answer).turns), rank, face)
                for rank, answer in enumerate(self.answers)
                for face in faces_of(answer, head)
            )
        )


def head_ways(
    head: Head,
    part: Fraction,
    *,
    methods: Collection[Method] = (),
    within: Fraction = Fraction(0),
    moves: int | None = None,
    most: int = MOST_WAYS,
) -> HeadWays:
    """Find the settings for one part of a turn that a sitting may choose among.

    They are those of the method that ``divide`` puts first, direct and plain being one: a geared setting is not swapped
    for two counted motions because that saves a wheel. Where nothing is exact they are those within a tolerance at
    closure, and the very best where none is.

    Parameters
    ----------
    head : Head
        With its own wheels, or those of the shared box.
    part : Fraction
        Turns of the work, above 0 and at most 1.
    methods : collection of Method, optional
        Only these.
    within : Fraction, optional
        Largest error at closure, in turns.
    moves : int, optional
        How many moves count, by a dial and for the error; those that close the round when left out.
    most : int, optional
        Most settings kept.

    Returns
    -------
    HeadWays
        Without answers where no method has any.

    Raises
    ------
    ImpossibleSettingError
        The part is not above 0 and at most a turn, or the dial of a table with nothing else cannot tell it.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),), (24,))
    >>> [(each.method.value, each.move.circle) for each in head_ways(head, Fraction(1, 8)).answers]
    [('direct', 24), ('plain', None)]
    """
    choice = choose(head, part, methods=methods, at_once=1)
    table = None if methods else dial_alone(head, part, moves or part.denominator)
    if table is not None:
        return HeadWays(choice, (), is_whole=True, table=table)
    leading = next((report.method for report in choice.methods if report.answers), None)
    if leading is None:
        return HeadWays(choice, (), is_whole=True)
    alike = (Method.DIRECT, Method.PLAIN) if leading is Method.DIRECT else (leading,)
    every = [answer for report in choice.methods if report.method in alike for answer in report.answers]
    whole = HeadWays(choice, tuple(every), is_whole=True, moves=moves)
    near = [answer for answer in every if abs(whole.error(answer).turns) <= within] or every[:1]
    return whole._replace(answers=tuple(near[:most]), is_whole=len(near) <= most)


def faces_of(answer: IndexAnswer, head: Head) -> tuple[Face | None, ...]:
    """List the faces of a plate on which a setting can be made; one ``None`` where it needs no circle of a plate.

    Examples
    --------
    >>> from solver.dividing.heads import Plate
    >>> head = Head("40:1", Fraction(40), (Plate("A", ((15, 18), (18, 21))),))
    >>> from solver.dividing.moves import CrankMove
    >>> move, part = CrankMove(0, 9, 18), Fraction(1, 80)
    >>> faces_of(IndexAnswer(Method.PLAIN, move, "A", part, part, 80), head)
    (('A', 1), ('A', 2))
    """
    needed = [move.circle for move in answer.moves if move.circle is not None and move.spaces]
    if answer.method is Method.DIRECT or answer.plate is None or not needed:
        return (None,)
    return tuple(
        (plate, number)
        for plate, number, circles in head.faces()
        if plate == answer.plate and answer.face in (None, number) and set(needed) <= set(circles)
    )


def wheels_on_head(answer: IndexAnswer) -> frozenset[Standing]:
    """List the wheels of a geared setting at their places on the head; none for the others.

    Examples
    --------
    >>> from solver.dividing.moves import CrankMove
    >>> move, part = CrankMove(0, 9, 18), Fraction(1, 80)
    >>> wheels_on_head(IndexAnswer(Method.PLAIN, move, "A", part, part, 80))
    frozenset()
    """
    if answer.gearing is None:
        return frozenset()
    wheels = answer.gearing.train.wheels
    names = [
        WORK_SPINDLE,
        *(f"head, stud {side}" for side in ("driven", "driver") * (len(wheels) // 2 - 1)),
        PLATE_GEAR,
    ]
    train = [Standing(10 * at, name, *wheel) for at, (name, wheel) in enumerate(zip(names, wheels, strict=True))]
    # The plate gear keeps its number whether the train has one pair or two, as the leadscrew does on the lathe.
    train[-1] = train[-1]._replace(number=10**6)
    idlers = answer.gearing.idlers
    return frozenset(train + [Standing(5 + at, f"head, idler {at + 1}", 0, teeth) for at, teeth in enumerate(idlers)])
