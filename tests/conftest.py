"""How cases are drawn, and counting what the tests hold against the world, by source and by how far it is trusted.

The gate draws the same cases every time, so that it never fails by chance. To look further, draw others, ten times
as many: ``python -m pytest --hypothesis-profile=wide``; a failure prints the line that draws its case again.

A check against the world names its source in its mark; a mark without one ends the run before it begins.
"""

from __future__ import annotations

import textwrap
from collections import Counter

import pytest
from hypothesis import HealthCheck, settings

from tests.published.source_titles import fault_of, title_of

# A busy machine is no fault of the program: no drawn case is judged by the clock.
settings.register_profile(
    "house", deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True, database=None
)
settings.register_profile(
    "wide", parent=settings.get_profile("house"), derandomize=False, max_examples=1000, print_blob=True
)
settings.register_profile("quick", parent=settings.get_profile("house"), max_examples=25)
settings.load_profile("house")

#: Mark, its words in the closing line, and those over its column, in this order.
KINDS_OF_CHECK = {
    "published": ("published", "published"),
    "from_memory": ("from memory", "from memory"),
    "own_arithmetic": ("own arithmetic on a source's data", "own arithmetic"),
    "practice": ("practice", "practice"),
}
PROPERTY = "check against the world"
#: Room for a title; a longer one takes several lines.
TITLE_WIDTH = 58


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--sources", action="store_true", help="end with a table of the checks against each source")


def tell_source(item: pytest.Item) -> None:
    """Write kind and source of a test that is a check to its properties: one check, one mark, one listed source."""
    marks = [mark for mark in item.iter_markers() if mark.name in KINDS_OF_CHECK]
    for mark in marks:
        if fault := fault_of(mark.name, mark.args):
            raise pytest.UsageError(f"{item.nodeid}: the mark {mark.name} {fault}")
    if len(marks) > 1:
        raise pytest.UsageError(f"{item.nodeid}: has {len(marks)} sources; mark its rows apart, or write one test each")
    # A property travels with the report from a worker process; keywords would also hold the directory's name.
    item.user_properties.extend((PROPERTY, (mark.name, mark.args[0])) for mark in marks)


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    for item in items:
        try:
            tell_source(item)
        except pytest.UsageError as fault:
            if not hasattr(config, "workerinput"):
                raise
            # A worker process cannot end the run with words; told as a fault of collecting they arrive.
            config.hook.pytest_collectreport(report=pytest.CollectReport(item.nodeid, "failed", str(fault), []))
            items.clear()
            return


def table_of_sources(checks: Counter[tuple[str, str]]) -> list[str]:
    """Lay out how many checks of each kind every title has, and the sums."""
    headings = [heading for _, heading in KINDS_OF_CHECK.values()]

    def line(title: str, counts: list[int]) -> str:
        cells = (f"{count or '-':>{len(heading)}}" for count, heading in zip(counts, headings, strict=True))
        return f"{title:<{TITLE_WIDTH}}  {'  '.join(cells)}"

    lines = [f"{'source':<{TITLE_WIDTH}}  {'  '.join(headings)}"]
    for title in sorted({title for title, _ in checks}, key=lambda title: (title.casefold(), title)):
        first, *more = textwrap.wrap(title, TITLE_WIDTH, subsequent_indent="  ", break_on_hyphens=False)
        lines += [line(first, [checks[title, kind] for kind in KINDS_OF_CHECK]), *more]
    total = Counter(kind for _, kind in checks.elements())
    titles = len({title for title, _ in checks})
    return [*lines, line(f"all checks {total.total()}, sources {titles}", [total[kind] for kind in KINDS_OF_CHECK])]


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    checks = Counter(
        (title_of(source), kind)
        for report in terminalreporter.stats.get("passed", [])
        for name, (kind, source) in (pair for pair in report.user_properties if pair[0] == PROPERTY)
    )
    if not checks:
        return
    if terminalreporter.config.getoption("sources"):
        terminalreporter.write_sep("=", "checks against the world, by source")
        for line in table_of_sources(checks):
            terminalreporter.write_line(line)
    counts = Counter(kind for _, kind in checks.elements())
    line = ", ".join(f"{counts[kind]} {words}" for kind, (words, _) in KINDS_OF_CHECK.items())
    terminalreporter.write_line(f"checks against the world: {line}")
