"""How cases are drawn, and counting what the tests hold against the world, by how far each figure is to be trusted.

The gate draws the same cases every time, so that it never fails by chance. To look further, draw others, ten times
as many: ``python -m pytest --hypothesis-profile=wide``; a failure prints the line that draws its case again.
"""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import HealthCheck, settings

# A busy machine is no fault of the program: no drawn case is judged by the clock.
settings.register_profile(
    "house", deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True, database=None
)
settings.register_profile(
    "wide", parent=settings.get_profile("house"), derandomize=False, max_examples=1000, print_blob=True
)
settings.load_profile("house")

#: Mark and its words in the closing line, in this order.
KINDS_OF_CHECK = {
    "published": "published",
    "from_memory": "from memory",
    "practice": "practice",
    "own_arithmetic": "own arithmetic on a source's data",
}
PROPERTY = "check against the world"


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line(
        "markers", "own_arithmetic: the source gives the data; the expected figure was worked out from it, not printed"
    )


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    # A property travels with the report from a worker process; keywords would also hold the directory's name.
    for item in items:
        kinds = [kind for kind in KINDS_OF_CHECK if item.get_closest_marker(kind)]
        item.user_properties.extend((PROPERTY, kind) for kind in kinds)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    counts = Counter(
        kind
        for report in terminalreporter.stats.get("passed", [])
        for name, kind in report.user_properties
        if name == PROPERTY
    )
    if counts:
        line = ", ".join(f"{counts[kind]} {words}" for kind, words in KINDS_OF_CHECK.items())
        terminalreporter.write_line(f"checks against the world: {line}")
