"""Cases of the published files: each with its source, its place there, and how far it is to be trusted."""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

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
    """One case: figures under ``data``, where they stand under ``source`` and ``place``."""

    number: str
    kind: str
    source: str
    place: str
    confidence: str
    data: dict[str, Any]

    def __getitem__(self, name: str) -> Any:
        return self.data[name]


def read_cases(*names: str) -> dict[str, SourceCase]:
    """Read the cases of some files, by number; a number given twice is an error."""
    cases: dict[str, SourceCase] = {}
    for name in names:
        table = tomllib.loads((HERE / name).read_text(encoding="utf-8"))
        for number, case in table["case"].items():
            if number in cases:
                message = f"{number} stands twice"
                raise ValueError(message)
            key, place, confidence = case["from"]
            title, edition = table["sources"][key]
            data = {**case, **case.get("figures", {})}
            cases[number] = SourceCase(number, case["kind"], f"{title} ({edition})", place, confidence, data)
    return cases


def of_kind(cases: dict[str, SourceCase], *kinds: str) -> list[Any]:
    """Return the cases of some kinds as marked parameters."""
    chosen = [case for case in cases.values() if case.kind in kinds]
    TAKEN_UP.update(case.number for case in chosen)
    return [pytest.param(case, id=case.number, marks=MARKS[case.confidence]) for case in chosen]


def rows_of_kind(cases: dict[str, SourceCase], *kinds: str) -> list[Any]:
    """Return every row of the cases of some kinds as a marked parameter; a row may name its own confidence."""
    chosen = [case for case in cases.values() if case.kind in kinds]
    TAKEN_UP.update(case.number for case in chosen)
    return [
        pytest.param(row, id=f"{case.number}-{place}", marks=MARKS[row.get("confidence", case.confidence)])
        for case in chosen
        for place, row in enumerate(case["rows"], start=1)
    ]


def unmarked(parameters: list[Any]) -> list[Any]:
    """Return the same parameters without marks, for a second look at figures already counted once."""
    return [pytest.param(*each.values, id=each.id) for each in parameters]


def worked_here(parameters: list[Any]) -> list[Any]:
    """Return the same parameters marked as own arithmetic."""
    return [pytest.param(*each.values, id=each.id, marks=MARKS["worked here"]) for each in parameters]


def read_rows(name: str) -> Iterator[dict[str, str]]:
    """Yield the rows of a file of comma-separated figures."""
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)
