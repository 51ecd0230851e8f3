"""Cases of the published files: each with its source, its place there, and how far it is to be trusted."""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from tests.published.source_titles import NO_SOURCE, TITLES, written_source

HERE = Path(__file__).parent

#: Which mark a case carries, by its confidence; own arithmetic on a source's data is no published figure.
MARKS = {
    "read": pytest.mark.published,
    "memory": pytest.mark.from_memory,
    "practice": pytest.mark.practice,
    "worked here": pytest.mark.own_arithmetic,
}

#: Numbers of the cases that some test was given; filled while the tests are collected.
TAKEN_UP: set[str] = set()


@dataclass(frozen=True, slots=True)
class SourceCase:
    """One case: figures under ``data``, where they stand under ``key`` (of sources.toml) and ``place``."""

    number: str
    kind: str
    key: str
    place: str
    confidence: str
    data: dict[str, Any]

    def __getitem__(self, name: str) -> Any:
        return self.data[name]

    def mark(self, row: dict[str, Any] | None = None) -> pytest.MarkDecorator:
        """Mark of the case; a row may name its own confidence, source or place."""
        row = row or {}
        key = row.get("source", self.key)
        # The place is one in the source of the case: a row from elsewhere has its own or none.
        place = row.get("place", self.place if key == self.key else "")
        return marked(row.get("confidence", self.confidence), written_source(key, place))


def marked(confidence: str, source: str) -> pytest.MarkDecorator:
    """Return the mark of a confidence with its source."""
    return MARKS[confidence](source)


def read_cases(*names: str) -> dict[str, SourceCase]:
    """Read the cases of some files, by number; a number given twice is an error."""
    cases: dict[str, SourceCase] = {}
    for name in names:
        table = tomllib.loads((HERE / name).read_text(encoding="utf-8"))
        for number, case in table["case"].items():
            if number in cases:
                message = f"{number} stands twice"
                raise ValueError(message)
            data = {**case, **case.get("figures", {})}
            cases[number] = SourceCase(number, case["kind"], *case["from"], data)
    return cases


def of_kind(cases: dict[str, SourceCase], *kinds: str) -> list[Any]:
    """Return the cases of some kinds as marked parameters."""
    chosen = [case for case in cases.values() if case.kind in kinds]
    TAKEN_UP.update(case.number for case in chosen)
    return [pytest.param(case, id=case.number, marks=case.mark()) for case in chosen]


def rows_of_kind(cases: dict[str, SourceCase], *kinds: str) -> list[Any]:
    """Return every row of the cases of some kinds as a marked parameter."""
    chosen = [case for case in cases.values() if case.kind in kinds]
    TAKEN_UP.update(case.number for case in chosen)
    return [
        pytest.param(row, id=f"{case.number}-{place}", marks=case.mark(row))
        for case in chosen
        for place, row in enumerate(case["rows"], start=1)
    ]


def unmarked(parameters: list[Any]) -> list[Any]:
    """Return the same parameters without marks, for a second look at figures already counted once."""
    return [pytest.param(*each.values, id=each.id) for each in parameters]


def worked_here(parameters: list[Any]) -> list[Any]:
    """Return the same parameters marked as own arithmetic on the same sources; behind a rule of thumb is none."""
    return [
        pytest.param(
            *each.values, id=each.id, marks=marked("worked here", mark.args[0].replace(NO_SOURCE, TITLES["worked"]))
        )
        for each in parameters
        for mark in each.marks
    ]


def read_rows(name: str) -> Iterator[dict[str, str]]:
    """Yield the rows of a file of comma-separated figures."""
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def csv_rows(
    name: str,
    key: str | Callable[[dict[str, str]], str],
    source: str | dict[str, str] | Callable[[dict[str, str]], str],
    confidence: str | None = None,
    only: Callable[[dict[str, str]], bool] = bool,
) -> list[Any]:
    """Return rows of a file as marked parameters: by one source, one for each confidence, or one told from the row.

    The confidence stands in the row where none is given; ``key`` is the column, or what makes the name, of a row.
    """
    parameters = []
    for row in filter(only, read_rows(name)):
        how = confidence or row["confidence"]
        told = source[how] if isinstance(source, dict) else source if isinstance(source, str) else source(row)
        label = row[key] if isinstance(key, str) else key(row)
        parameters.append(pytest.param(row, id=label, marks=marked(how, told)))
    return parameters
