"""Verniers: marks that part one division of a scale, by spanning one division fewer than they have marks."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from solver.refusals import ImpossibleSettingError

#: Fewest and most divisions of a vernier: more than this many lines cannot be told apart. [divisions]
FEWEST_DIVISIONS = 2
MOST_DIVISIONS = 200


class VernierKind(Enum):
    """How many divisions of the scale the vernier spans, for ``n`` of its own."""

    SHORT = "short"
    LONG = "long"
    BACKWARD = "backward"


@dataclass(frozen=True, slots=True)
class Vernier:
    """A vernier of ``divisions`` divisions over ``spans`` divisions of the scale.

    Parameters
    ----------
    divisions : int
        Divisions of the vernier.
    spans : int
        Divisions of the scale that they cover together; prime to ``divisions``.

    Examples
    --------
    >>> vernier = Vernier(10, 9)
    >>> vernier.least_count, vernier.reading(5, 2)
    (Fraction(1, 10), Fraction(26, 5))
    """

    divisions: int
    spans: int

    @classmethod
    def of(cls, divisions: int, kind: VernierKind = VernierKind.SHORT) -> Vernier:
        """Design a vernier: ``n - 1``, ``2n - 1`` or, numbered backward, ``n + 1`` divisions of the scale.

        Raises
        ------
        ImpossibleSettingError
            Too few or too many divisions.

        Examples
        --------
        >>> [Vernier.of(10, kind).spans for kind in VernierKind]
        [9, 19, 11]
        """
        if not FEWEST_DIVISIONS <= divisions <= MOST_DIVISIONS:
            raise ImpossibleSettingError(
                f"a vernier of {divisions} divisions cannot be read; {FEWEST_DIVISIONS} to {MOST_DIVISIONS} can",
                help_text="Ask for 5, 6, 10, 12, 20 or the like.",
            )
        spans = {
            VernierKind.SHORT: divisions - 1,
            VernierKind.LONG: 2 * divisions - 1,
            VernierKind.BACKWARD: divisions + 1,
        }
        return cls(divisions, spans[kind])

    @property
    def least_count(self) -> Fraction:
        """The smallest step it can tell, as a part of one division of the scale.

        Examples
        --------
        >>> Vernier.of(12, VernierKind.LONG).least_count
        Fraction(1, 12)
        """
        step = Fraction(self.spans, self.divisions)
        return abs(round(step) - step)

    @property
    def step(self) -> Fraction:
        """One division of the vernier, in divisions of the scale.

        Examples
        --------
        >>> Vernier.of(10).step
        Fraction(9, 10)
        """
        return Fraction(self.spans, self.divisions)

    @property
    def reads_backward(self) -> bool:
        """True when its lines are numbered against the scale.

        Examples
        --------
        >>> Vernier.of(10, VernierKind.BACKWARD).reads_backward
        True
        """
        return self.step > round(self.step)

    def reading(self, passed: int, line: int) -> Fraction:
        """Read the scale: divisions passed by the zero of the vernier, and the line that meets one of the scale's.

        Raises
        ------
        ImpossibleSettingError
            The vernier has no such line.

        Examples
        --------
        >>> Vernier.of(10).reading(5, 2)
        Fraction(26, 5)
        """
        if not 0 <= line <= self.divisions:
            raise ImpossibleSettingError(
                f"this vernier has lines 0 to {self.divisions}, not {line}", help_text="Count its lines again."
            )
        return passed + line * self.least_count

    def meeting_line(self, part: Fraction) -> int | None:
        """Find the line that meets one of the scale's when the zero stands at a part of a division.

        Found by trying every line, not from the formula that `reading` uses.

        Examples
        --------
        >>> Vernier.of(10).meeting_line(Fraction(2, 10))
        2
        """
        sign = -1 if self.reads_backward else 1
        for line in range(self.divisions):
            place = part + sign * line * self.step
            if place.denominator == 1:
                return line
        return None
