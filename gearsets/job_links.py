"""Names that the parts of a job give of one another: looked up, unknown ones and rings noted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from gearsets.name_lookup import near_names, shown
from gearsets.toml_tables import TomlTable


def numbers_of_names(tables: Sequence[TomlTable], names: Sequence[str]) -> dict[str, int]:
    """Give each name the number of its first part; note a name that stands twice.

    Examples
    --------
    >>> numbers_of_names([], [])
    {}
    """
    numbers: dict[str, int] = {}
    for number, (table, name) in enumerate(zip(tables, names, strict=True)):
        if name in numbers:
            table.fault("name", f"is the name of part {numbers[name] + 1} too", "give each part a name of its own")
        elif name:
            numbers[name] = number
    return numbers


def numbers_waited_for(
    tables: Sequence[TomlTable], after: Sequence[Sequence[str]], numbers: Mapping[str, int]
) -> list[tuple[int, ...]]:
    """Put numbers in the place of the names each part waits for; note unknown names, and a ring.

    Examples
    --------
    >>> numbers_waited_for([], [], {})
    []
    """
    found = []
    for table, names in zip(tables, after, strict=True):
        for name in names:
            if name not in numbers:
                note_unknown(table, "after", name, numbers)
        found.append(tuple(dict.fromkeys(numbers[name] for name in names if name in numbers)))
    ring = ring_of(found)
    if ring:
        called = {number: name for name, number in numbers.items()}
        words = [shown(called.get(number, f"part {number + 1}")) for number in ring]
        round_it = " waits for ".join([*words, words[0] if len(words) > 1 else "itself"])
        tables[ring[0]].fault("after", f"goes round in a ring: {round_it}", "leave one of them out")
    return found


def note_unknown(table: TomlTable, key: str, name: str, numbers: Mapping[str, int]) -> None:
    """Note a name that no part has, with the nearest that one has.

    Examples
    --------
    >>> from gearsets.toml_tables import parse_toml
    >>> note_unknown(parse_toml("", "mine.toml"), "after", "blnak", {"blank": 0})
    """
    near = near_names(name, numbers)
    remedy = f"perhaps {near[0]} is meant" if near else "write the name of another part"
    table.fault(key, f"names '{shown(name)}', and no part is called so", remedy)


def ring_of(after: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """Find parts that wait for one another in a ring; nothing where there is none.

    Examples
    --------
    >>> ring_of([(1,), (2,), (1,)]), ring_of([(), (0,)])
    ((1, 2), ())
    """
    cleared: set[int] = set()
    for first in range(len(after)):
        path: list[int] = []
        ways = [iter((first,))]
        while ways:
            number = next(ways[-1], None)
            if number is None:
                ways.pop()
                if path:
                    cleared.add(path.pop())
            elif number in path:
                return tuple(path[path.index(number) :])
            elif number not in cleared:
                path.append(number)
                ways.append(iter(after[number]))
    return ()
