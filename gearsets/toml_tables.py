"""A walk through a TOML file that reads what is known of it and notes every fault on the way."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeVar

from gearsets.fault_lines import LineFinder, Place
from gearsets.file_faults import MOST_WORDED, FaultLog
from gearsets.name_lookup import near_names
from gearsets.toml_reading import toml_values
from gearsets.value_checks import Q, T, ValueChecks, name_problem

D = TypeVar("D")


class TomlTable:
    """One table of a file. What cannot be read is noted in the log, and a stand-in is returned.

    The file is refused as a whole when the log is finished, so a stand-in never reaches an answer.

    Parameters
    ----------
    log : FaultLog
        Where faults are noted.
    values : dict
        The table as the TOML reader gives it.
    place : tuple
        Where the table stands.

    Examples
    --------
    >>> table = parse_toml('name = "small"', "small.toml")
    >>> table.text("name", example="My lathe")
    'small'
    >>> table.finish()
    """

    def __init__(self, log: FaultLog, values: dict[str, object], place: Place = ()) -> None:
        self._log = log
        self._values = values
        self._place = place
        self._checks = ValueChecks(log, place)
        self._asked: set[str] = set()
        log.at_the_end(self._refuse_unknown_keys)

    def finish(self) -> None:
        """Refuse the whole file if anything in any of its tables was wrong.

        Raises
        ------
        FileFaultsError
            With every fault, unknown keys among them.

        Examples
        --------
        >>> parse_toml("stud = 2", "mine.toml").finish()
        Traceback (most recent call last):
        gearsets.file_faults.FileFaultsError: 1 fault in mine.toml:
          stud (line 1): is not a key known here; leave it out
        """
        self._log.finish()

    def fault(self, key: str, problem: str, remedy: str) -> None:
        """Note a fault of one key.

        Examples
        --------
        >>> table = parse_toml("studs = 2", "mine.toml")
        >>> table.fault("studs", "is too many", "write 1")
        """
        self._log.note((*self._place, key), problem, remedy)

    def entries(self) -> Iterator[str]:
        r"""Yield the keys of a table whose keys are the person's own, as tooth counts are.

        Examples
        --------
        >>> list(parse_toml("20 = 2\n25 = 1", "mine.toml").entries())
        ['20', '25']
        """
        yield from self._values

    def has(self, key: str) -> bool:
        """Say whether the table has a key, and count the key as known.

        Examples
        --------
        >>> parse_toml("20 = 2", "mine.toml").has("25")
        False
        """
        self._asked.add(key)
        return key in self._values

    def is_empty(self, key: str) -> bool:
        """Say whether a key is there and holds an empty list or table.

        Examples
        --------
        >>> parse_toml("teeth = {}", "mine.toml").is_empty("teeth")
        True
        """
        return self._values.get(key) in ([], {})

    def is_table(self, key: str) -> bool:
        """Say whether a key is there and holds a table, as the key before a point does.

        Examples
        --------
        >>> parse_toml("25.5 = 1", "mine.toml").is_table("25")
        True
        """
        self._asked.add(key)
        return isinstance(self._values.get(key), dict)

    def text(self, key: str, *, example: str, default: str | None = None) -> str:
        """Read text that is not empty and can be printed; required when there is no default.

        Examples
        --------
        >>> parse_toml("", "mine.toml").text("size", example="module 1", default="module 2")
        'module 2'
        """
        value = self._taken(key, f'write {key} = "{example}"', is_required=default is None)
        if value is None:
            return default or ""
        if not isinstance(value, str):
            self._checks.wrong_kind((key,), value, "text", f'write {key} = "{example}"')
        elif not value.strip():
            self.fault(key, "is empty", f'write {key} = "{example}"')
        elif problem := name_problem(value.strip()):
            self.fault(key, problem, f'write for example {key} = "{example}"')
        else:
            return value.strip()
        return ""

    def figure(
        self, key: str, read: Callable[[str], T], *, example: str, default: D, is_required: bool = False
    ) -> T | D:
        """Read a figure written as text with its unit.

        Parameters
        ----------
        key : str
            The key.
        read : callable
            Turns the text into the quantity, or raises `UnreadableFigureError`.
        example : str
            A figure of the right kind.
        default : object
            What to return when the key is missing or faulty.
        is_required : bool, optional
            A missing key is a fault.

        Returns
        -------
        object
            The quantity, or the default.

        Examples
        --------
        >>> from solver.quantities.written_lengths import read_ratio
        >>> parse_toml('stud_turns = "1/2"', "m.toml").figure("stud_turns", read_ratio, example="1", default=1)
        Fraction(1, 2)
        """
        value = self._taken(key, f'write {key} = "{example}"', is_required=is_required)
        if value is None:
            return default
        found = self._checks.figure_at((key,), value, read, example)
        return default if found is None else found

    def range(self, key: str, read: Callable[[str], Q], *, example: tuple[str, str]) -> tuple[Q, Q] | None:
        """Read two figures, the lower first, or ``None`` when the key is missing.

        Examples
        --------
        >>> from solver.quantities.written_lengths import read_length
        >>> table = parse_toml('slot = ["30 mm", "135 mm"]', "mine.toml")
        >>> [length.mm for length in table.range("slot", read_length, example=("30 mm", "135 mm"))]
        [Fraction(30, 1), Fraction(135, 1)]
        """
        value = self._taken(key, "", is_required=False)
        return None if value is None else self._checks.range_at((key,), value, read, example)

    def ranges(self, key: str, read: Callable[[str], Q], *, example: tuple[str, str]) -> tuple[tuple[Q, Q], ...]:
        """Read a list of ranges; empty when the key is missing.

        Examples
        --------
        >>> from solver.quantities.written_lengths import read_length
        >>> table = parse_toml('mesh_limits = [["40 mm", "75 mm"]]', "mine.toml")
        >>> len(table.ranges("mesh_limits", read_length, example=("40 mm", "75 mm")))
        1
        """
        wanted = f'write {key} = [["{example[0]}", "{example[1]}"]]'
        entries = self._checks.list_at((key,), self._taken(key, "", is_required=False), wanted)
        found = (self._checks.range_at((key, at), entry, read, example) for at, entry in enumerate(entries))
        return tuple(pair for pair in found if pair is not None)

    def whole(self, key: str, lowest: int, highest: int, *, is_required: bool = False, counted: str = "") -> int | None:
        """Read a whole number within limits, or ``None`` when the key is missing; ``counted`` says of what.

        Examples
        --------
        >>> parse_toml("studs = 2", "mine.toml").whole("studs", 1, 9)
        2
        """
        remedy = f"write {key} = a whole number from {lowest} to {highest}"
        value = self._taken(key, remedy, is_required=is_required)
        return None if value is None else self._checks.whole_at((key,), value, lowest, highest, counted)

    def wholes(self, key: str, lowest: int, highest: int, *, is_required: bool = False) -> tuple[int, ...]:
        """Read a list of different whole numbers; empty when the key is missing.

        Examples
        --------
        >>> parse_toml("counts = [60, 24]", "mine.toml").wholes("counts", 1, 2000)
        (60, 24)
        """
        remedy = f"write {key} = [a list of whole numbers from {lowest} to {highest}]"
        value = self._taken(key, remedy, is_required=is_required)
        return self._checks.wholes_at((key,), value, lowest, highest, remedy)

    def lists_of_wholes(
        self,
        key: str,
        lowest: int,
        highest: int,
        *,
        example: str,
        length: int | None = None,
        is_required: bool = False,
    ) -> tuple[tuple[int, ...], ...]:
        """Read a list of lists of whole numbers, as the faces of a plate are; no list is empty.

        Lists of a set ``length`` may repeat a number; the others hold different ones.

        Examples
        --------
        >>> parse_toml("faces = [[15, 16], [21]]", "mine.toml").lists_of_wholes("faces", 2, 99, example="[[15]]")
        ((15, 16), (21,))
        """
        remedy = f"write {key} = {example}"
        entries = self._checks.list_at((key,), self._taken(key, remedy, is_required=is_required), remedy)
        if self.is_empty(key):
            self.fault(key, "is empty", remedy)
        found = []
        for at, entry in enumerate(entries):
            may_repeat = length is not None
            numbers = self._checks.wholes_at((key, at), entry, lowest, highest, remedy, may_repeat=may_repeat)
            if isinstance(entry, list) and len(entry) != (length or max(len(entry), 1)):
                self._log.note((*self._place, key, at), f"has {len(entry)} entries, not {length or 'some'}", remedy)
            found.append(numbers)
        return tuple(found)

    def texts(self, key: str, *, example: str) -> tuple[str, ...]:
        """Read a list of texts that can be printed; empty when the key is missing.

        Examples
        --------
        >>> parse_toml('after = ["blank"]', "mine.toml").texts("after", example='["blank"]')
        ('blank',)
        """
        remedy = f"write {key} = {example}"
        found = []
        for at, entry in enumerate(self._checks.list_at((key,), self._taken(key, "", is_required=False), remedy)):
            if not isinstance(entry, str):
                self._checks.wrong_kind((key, at), entry, "text", remedy)
            elif problem := name_problem(entry):
                self._log.note((*self._place, key, at), problem, remedy)
            else:
                found.append(entry.strip())
        return tuple(found)

    def count(self, key: str) -> int:
        """Count the entries of a list before any of them is read; zero where there is no list.

        Examples
        --------
        >>> parse_toml("parts = [{}, {}]", "mine.toml").count("parts")
        2
        """
        value = self._values.get(key)
        return len(value) if isinstance(value, list) else 0

    def flag(self, key: str) -> bool:
        """Read true or false; false when the key is missing.

        Examples
        --------
        >>> parse_toml("reverse = true", "mine.toml").flag("reverse")
        True
        """
        value = self._taken(key, "", is_required=False)
        if value is None or isinstance(value, bool):
            return value is True
        self._checks.wrong_kind((key,), value, "true or false", f"write {key} = true or {key} = false")
        return False

    def table(self, key: str, *, remedy: str = "") -> TomlTable:
        r"""Read a table; a missing one is empty, so that its required keys are reported one by one.

        Examples
        --------
        >>> list(parse_toml("[wheels]\nteeth = {}", "mine.toml").table("wheels").entries())
        ['teeth']
        """
        value = self._values.get(key, {})
        self._asked.add(key)
        if isinstance(value, dict):
            return TomlTable(self._log, value, (*self._place, key))
        remedy = remedy or f"write [{key}] on a line of its own and its keys below"
        self._checks.wrong_kind((key,), value, "a table", remedy)
        return self._unheard(key)

    def tables(self, key: str) -> tuple[TomlTable, ...]:
        """Read a list of tables; empty when the key is missing.

        Examples
        --------
        >>> len(parse_toml('plates = [{ name = "A" }]', "mine.toml").tables("plates"))
        1
        """
        remedy = f"write [[{key}]] above each"
        entries = self._checks.list_at((key,), self._taken(key, "", is_required=False), remedy)
        found = []
        for at, entry in enumerate(entries):
            if isinstance(entry, dict):
                found.append(TomlTable(self._log, entry, (*self._place, key, at)))
            else:
                self._checks.wrong_kind((key, at), entry, "a table", remedy)
        return tuple(found)

    def _unheard(self, key: str) -> TomlTable:
        """Return an empty table whose faults are not heard, because a larger one was noted."""
        return TomlTable(FaultLog("", LineFinder("", {})), {}, (*self._place, key))

    def _taken(self, key: str, remedy: str, *, is_required: bool) -> object:
        self._asked.add(key)
        if key not in self._values and is_required:
            self.fault(key, "is missing", remedy)
        return self._values.get(key)

    def _refuse_unknown_keys(self) -> None:
        for key in self._values:
            if key not in self._asked:
                is_worded = len(self._log.faults) < MOST_WORDED
                near = self._meant_by(key) if is_worded else ()
                remedy = f"perhaps {near[0]} is meant" if near else "leave it out"
                self.fault(key, "is not a key known here", remedy)

    def _meant_by(self, key: str) -> tuple[str, ...]:
        """Return the known keys that may be meant by an unknown one; lists of tables go on under one key."""
        is_list = isinstance(self._values[key], list)
        free = {known for known in self._asked if known not in self._values or (is_list and self.count(known))}
        longer = tuple(sorted(known for known in free if known.startswith(f"{key}_")))
        return near_names(key, free) or longer


def parse_toml(text: str, where: str) -> TomlTable:
    """Take the text of a TOML file apart.

    Parameters
    ----------
    text : str
        The whole file.
    where : str
        How the person named it.

    Returns
    -------
    TomlTable
        The root of the file, to be read key by key and then finished.

    Raises
    ------
    FileFaultsError
        The text is not TOML, or no shop file at all: nested too deep, or with a key of very many dots.

    Examples
    --------
    >>> parse_toml("name = bench", "mine.toml")
    Traceback (most recent call last):
    gearsets.file_faults.FileFaultsError: 1 fault in mine.toml:
      line 1, column 8: is not TOML (Invalid value); text stands in quotes, and each key on its own line
    """
    values = toml_values(text, where)
    return TomlTable(FaultLog(where, LineFinder(text, values)), values)
