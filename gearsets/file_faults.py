"""Faults of a file a person wrote: all at once, each with its place and what would be right."""

from __future__ import annotations

import stat
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from gearsets.fault_lines import LineFinder, Place
from gearsets.name_lookup import shown
from solver.refusals import RefusalError

#: Largest file read. [bytes]
LARGEST_FILE = 64_000
#: Most faults worded; a file with more is another kind of file.
MOST_WORDED = 25


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with a file.

    Parameters
    ----------
    place : str
        Where: dotted keys, with the line where it was found, as ``wheels.teeth.20 (line 9)``.
    problem : str
        What is wrong there.
    remedy : str
        What would be right.
    """

    place: str
    problem: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.place}: {self.problem}; {self.remedy}"


class FileFaultsError(RefusalError):
    """A file cannot be taken as it stands.

    Parameters
    ----------
    path : str
        The file, as the person named it.
    faults : tuple of Fault
        Everything that is wrong, one at least.

    Examples
    --------
    >>> print(FileFaultsError("mine.toml", (Fault("name", "is missing", 'write name = "My lathe"'),)))
    1 fault in mine.toml:
      name: is missing; write name = "My lathe"
    """

    def __init__(self, path: str, faults: tuple[Fault, ...]) -> None:
        self.path = path
        self.faults = faults
        lines = [f"{len(faults)} fault{'s' if len(faults) != 1 else ''} in {shown(path)}:"]
        lines += [f"  {fault}" for fault in faults[:MOST_WORDED]]
        if len(faults) > MOST_WORDED:
            lines.append(f"  and {len(faults) - MOST_WORDED} more")
        super().__init__("\n".join(lines))


class FaultLog:
    """The faults of one file as they are found.

    Parameters
    ----------
    where : str
        The file, as the person named it.
    finder : LineFinder
        Finds the line of a place.

    Examples
    --------
    >>> log = FaultLog("mine.toml", LineFinder("studs = -1", {"studs": -1}))
    >>> log.note(("studs",), "is below 0", "write how many there are")
    >>> log.faults[0].place
    'studs (line 1)'
    """

    def __init__(self, where: str, finder: LineFinder) -> None:
        self.where = where
        self.faults: list[Fault] = []
        self._finder = finder
        self._at_the_end: list[Callable[[], None]] = []

    def note(self, place: Place, problem: str, remedy: str) -> None:
        """Keep a fault.

        Examples
        --------
        >>> log = FaultLog("mine.toml", LineFinder("", {}))
        >>> log.note(("plates", 0, "name"), "is missing", 'write name = "A"')
        >>> log.faults[0].place
        'plates[1].name'
        """
        # Lines are looked up only for the faults that will be shown.
        line = self._finder.line(place) if len(self.faults) < MOST_WORDED else None
        text = place_text(place)
        self.faults.append(Fault(f"{text} (line {line})" if line else text, problem, remedy))

    def at_the_end(self, check: Callable[[], None]) -> None:
        """Keep a check to be made when everything that is known has been read.

        Examples
        --------
        >>> log = FaultLog("mine.toml", LineFinder("", {}))
        >>> log.at_the_end(lambda: log.note(("x",), "is not known", "leave it out"))
        >>> len(log.faults)
        0
        """
        self._at_the_end.append(check)

    def finish(self) -> None:
        """Make the last checks and refuse the file if anything was wrong with it.

        Raises
        ------
        FileFaultsError
            With every fault.

        Examples
        --------
        >>> FaultLog("mine.toml", LineFinder("", {})).finish()
        """
        for check in self._at_the_end:
            check()
        self._at_the_end.clear()
        if self.faults:
            raise FileFaultsError(self.where, tuple(self.faults))


def place_text(place: Place) -> str:
    """Write a place as a person looks for it; entries of a list are counted from 1.

    Examples
    --------
    >>> place_text(("plates", 1, "faces")), place_text(())
    ('plates[2].faces', 'the file')
    """
    text = "".join(f"[{part + 1}]" if isinstance(part, int) else f".{shown(part)}" for part in place)
    return text.removeprefix(".") or "the file"


def kind_of(value: object) -> str:
    """Name the kind of a value in the words of a message.

    Examples
    --------
    >>> kind_of(True), kind_of([])
    ('true or false', 'a list')
    """
    kinds = {bool: "true or false", int: "a whole number", float: "a decimal number", str: "text"}
    kinds |= {list: "a list", dict: "a table"}
    return kinds.get(type(value), "a date or time")


def read_text_file(path: str | Path, *, largest: int = LARGEST_FILE) -> str:
    """Read a file a person wrote, as text.

    Parameters
    ----------
    path : str or Path
        The file.
    largest : int, optional
        Bytes beyond which it is not read.

    Returns
    -------
    str
        Its text, without a byte-order mark.

    Raises
    ------
    FileFaultsError
        It is missing, a folder, no ordinary file, not readable, too large, or not UTF-8.

    Examples
    --------
    >>> read_text_file("no/such/lathe.toml")
    Traceback (most recent call last):
    gearsets.file_faults.FileFaultsError: 1 fault in no/such/lathe.toml:
      the file: is not there; check the path
    """
    try:
        kind = Path(path).stat().st_mode
        # A pipe would be waited for, and a device never ends.
        if not (stat.S_ISREG(kind) or stat.S_ISDIR(kind)):
            raise _whole_file(path, "is not an ordinary file", "save the text as a file and give its path")
        with Path(path).open("rb") as stream:
            content = stream.read(largest + 1)
    except FileNotFoundError:
        raise _whole_file(path, "is not there", "check the path") from None
    except IsADirectoryError:
        raise _whole_file(path, "is a folder", "give the path of one file in it") from None
    except FileFaultsError:
        raise
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise _whole_file(path, f"cannot be read ({reason})", "check the path and its permissions") from None
    if len(content) > largest:
        raise _whole_file(path, f"is larger than {largest // 1000} kB", "give a file of a few pages at most")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise _whole_file(path, "is not UTF-8 text", "save it again as UTF-8", place=f"line {line}") from None


def _whole_file(path: str | Path, problem: str, remedy: str, *, place: str = "the file") -> FileFaultsError:
    return FileFaultsError(str(path), (Fault(place, problem, remedy),))
