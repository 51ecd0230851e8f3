"""Checks of single values of a file: kind, unit, limits; what is wrong is noted with what would be right."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from gearsets.fault_lines import LineFinder, Place
from gearsets.file_faults import FaultLog, kind_of
from gearsets.name_lookup import shown
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.refusals import UnreadableFigureError

#: Longest name of a lathe, head, plate or lever position. [characters]
LONGEST_NAME = 100

T = TypeVar("T")
Q = TypeVar("Q", Length, Angle)


def name_problem(text: str) -> str | None:
    r"""Say what makes text unfit to be a name, which is printed as it stands; ``None`` when it is fit.

    Examples
    --------
    >>> name_problem("\x1b[31mBench"), name_problem("Bench lathe")
    ('has a character that cannot be printed (U+001B)', None)
    """
    if len(text) > LONGEST_NAME:
        return f"has {len(text)} characters, more than {LONGEST_NAME}"
    unfit = next((letter for letter in text if not letter.isprintable()), None)
    return None if unfit is None else f"has a character that cannot be printed (U+{ord(unfit):04X})"


class ValueChecks:
    """Checks of the values in one table.

    Parameters
    ----------
    log : FaultLog
        Where faults are noted.
    place : tuple
        Where the table stands; the places given to the checks are counted from it.
    """

    def __init__(self, log: FaultLog, place: Place) -> None:
        self._log = log
        self._place = place

    def figure_at(self, place: Place, value: object, read: Callable[[str], T], example: str) -> T | None:
        """Read a figure with its unit, or note why it cannot be read.

        Examples
        --------
        >>> from solver.quantities.written_lengths import read_ratio
        >>> _checks().figure_at(("stud_turns",), "1/2", read_ratio, "1")
        Fraction(1, 2)
        """
        remedy = f'write for example "{example}"'
        if not isinstance(value, str):
            self.wrong_kind(place, value, "text", remedy)
            return None
        try:
            return read(value)
        except UnreadableFigureError as error:
            self._log.note((*self._place, *place), f'"{shown(value)}" cannot be read, {error.reason}', remedy)
            return None

    def range_at(
        self, place: Place, value: object, read: Callable[[str], Q], example: tuple[str, str]
    ) -> tuple[Q, Q] | None:
        """Read two figures that rise, or note why not.

        Examples
        --------
        >>> from solver.quantities.written_lengths import read_length
        >>> _checks().range_at(("slot",), ["9 mm", "3 mm"], read_length, ("3 mm", "9 mm")) is None
        True
        """
        remedy = f'write ["{example[0]}", "{example[1]}"], the lower first'
        entries = self.list_at(place, value, remedy)
        if isinstance(value, list) and len(entries) != 2:
            self._log.note((*self._place, *place), f"has {len(entries)} figures, not two", remedy)
            return None
        found = [self.figure_at((*place, at), entry, read, example[at]) for at, entry in enumerate(entries)]
        low, high = found if len(found) == 2 else (None, None)
        if low is None or high is None:
            return None
        if not low < high:
            self._log.note((*self._place, *place), "does not rise from its first figure to its second", remedy)
            return None
        return low, high

    def whole_at(self, place: Place, value: object, lowest: int, highest: int, counted: str = "") -> int | None:
        """Read a whole number within limits, or note why not; ``counted`` says of what, in the plural.

        Examples
        --------
        >>> _checks().whole_at(("studs",), 2, 1, 9)
        2
        """
        remedy = f"write a whole number{counted and f' of {counted}'} from {lowest} to {highest}"
        if isinstance(value, bool) or not isinstance(value, int):
            self.wrong_kind(place, value, "a whole number", remedy)
        elif not lowest <= value <= highest:
            # A number of thousands of digits cannot even be printed.
            figure = str(value) if value.bit_length() <= 64 else "a number of more than 19 digits"
            self._log.note((*self._place, *place), f"{figure} is not from {lowest} to {highest}", remedy)
        else:
            return value
        return None

    def wholes_at(
        self, place: Place, value: object, lowest: int, highest: int, remedy: str, *, may_repeat: bool = False
    ) -> tuple[int, ...]:
        """Read whole numbers within limits, different ones unless they may repeat; others are noted and left out.

        Examples
        --------
        >>> _checks().wholes_at(("counts",), [60, 60, 24], 1, 99, "write [60, 24]")
        (60, 24)
        """
        found: list[int] = []
        for at, entry in enumerate(self.list_at(place, value, remedy)):
            number = self.whole_at((*place, at), entry, lowest, highest)
            if number in found and not may_repeat:
                self._log.note((*self._place, *place, at), f"{number} stands twice", "write it once")
            elif number is not None:
                found.append(number)
        return tuple(found)

    def list_at(self, place: Place, value: object, remedy: str) -> list[object]:
        """Return a list as it stands; anything else but nothing is noted, and an empty list returned.

        Examples
        --------
        >>> _checks().list_at(("counts",), None, "write [60]")
        []
        """
        if isinstance(value, list):
            return value
        if value is not None:
            self.wrong_kind(place, value, "a list", remedy)
        return []

    def wrong_kind(self, place: Place, value: object, wanted: str, remedy: str) -> None:
        """Note a value of the wrong kind.

        Examples
        --------
        >>> _checks().wrong_kind(("size",), 1.25, "text", "write module 1.25")
        """
        if isinstance(value, float) and wanted == "text":
            problem = "is a decimal number outside quotes"
            remedy = f"{remedy}, in quotes so that nothing is rounded"
        else:
            problem = f"is {kind_of(value)}, not {wanted}"
        self._log.note((*self._place, *place), problem, remedy)


def _checks() -> ValueChecks:
    """Make checks of no file in particular, for the examples above."""
    return ValueChecks(FaultLog("mine.toml", LineFinder("", {})), ())
