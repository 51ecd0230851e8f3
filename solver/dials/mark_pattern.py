"""Which marks of a dial are long, medium and short, and which carry a number.

The pattern is common practice: the eye counts tens and fives, or halves and quarters of a group, without
reading every mark.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from solver.refusals import ImpossibleSettingError

#: Groups tried, long before medium, for a count that tens do not close.
_GROUPS = ((10, 5), (8, 4), (12, 6), (6, 3), (4, 2))


class MarkLength(Enum):
    """How long a mark is cut."""

    LONG = "long"
    MEDIUM = "medium"
    SHORT = "short"


@dataclass(frozen=True, slots=True)
class MarkPattern:
    """A long mark every so many, and a medium one between.

    Parameters
    ----------
    marks : int
        Marks round the dial.
    long_every : int
        Marks from one long mark to the next; long marks carry the numbers.
    medium_every : int
        Marks from one medium mark to the next, zero for none.

    Raises
    ------
    ImpossibleSettingError
        A group has no marks, or the medium marks do not fall on the long ones.

    Examples
    --------
    >>> pattern = MarkPattern(125, 10, 5)
    >>> [pattern.length_of(number).value for number in (0, 1, 5, 120)]
    ['long', 'short', 'medium', 'long']
    """

    marks: int
    long_every: int
    medium_every: int

    def __post_init__(self) -> None:
        if self.long_every < 1 or self.medium_every < 0:
            raise ImpossibleSettingError(
                "a group of marks has one mark or more", help_text="Write for example 10 long and 5 medium."
            )
        if self.medium_every and self.long_every % self.medium_every:
            raise ImpossibleSettingError(
                f"medium marks every {self.medium_every} do not fall on long ones every {self.long_every}",
                help_text="Take a number for the medium marks that goes into the long ones.",
            )

    @property
    def left_over(self) -> int:
        """Marks in the last group when it is short; zero when the groups close.

        Examples
        --------
        >>> MarkPattern(127, 10, 5).left_over, MarkPattern(200, 10, 5).left_over
        (7, 0)
        """
        return self.marks % self.long_every

    def length_of(self, number: int) -> MarkLength:
        """Say how long a mark is cut, the zero mark being number 0.

        Examples
        --------
        >>> MarkPattern(100, 10, 5).length_of(15)
        <MarkLength.MEDIUM: 'medium'>
        """
        if number % self.long_every == 0:
            return MarkLength.LONG
        if self.medium_every and number % self.medium_every == 0:
            return MarkLength.MEDIUM
        return MarkLength.SHORT

    def counts(self) -> dict[MarkLength, int]:
        """Count the marks of each length.

        Examples
        --------
        >>> [MarkPattern(125, 10, 5).counts()[length] for length in MarkLength]
        [13, 12, 100]
        """
        long = -(-self.marks // self.long_every)
        medium = -(-self.marks // self.medium_every) - long if self.medium_every else 0
        return {MarkLength.LONG: long, MarkLength.MEDIUM: medium, MarkLength.SHORT: self.marks - long - medium}


def usual_pattern(marks: int) -> MarkPattern:
    """Choose groups for a count: those that close, tens and fives before any other; tens and fives where none does.

    Examples
    --------
    >>> [(each.long_every, each.medium_every) for each in map(usual_pattern, (125, 64, 127))]
    [(10, 5), (8, 4), (10, 5)]
    """
    closing = next((group for group in _GROUPS if marks % group[0] == 0), _GROUPS[0])
    return MarkPattern(marks, *closing)
