"""Checks against the world name a listed source and are counted by it: both are tried on a small file."""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from tests.architecture.test_house import PYTHON, REPOSITORY
from tests.published.source_titles import FILE, TITLES, fault_of, title_of

JONES = TITLES["jones"]
HANDBOOK = TITLES["mh31"]
PRINTED = f'@pytest.mark.published("{HANDBOOK}, p. 2130")'
CHECKS = f"""
import pytest

JONES = pytest.mark.published("{JONES}, ch. IV")

{PRINTED}
@pytest.mark.parametrize("row", [1, 2])
def test_printed(row):
    assert row

@pytest.mark.parametrize("row", [0, pytest.param(1, marks=JONES)])
def test_printed_in_part(row):
    assert row < 2

@pytest.mark.from_memory("{HANDBOOK}, somewhere")
def test_recalled():
    pass

@pytest.mark.practice("common practice, no source: a rule of thumb")
def test_customary():
    pass

@pytest.mark.published("{JONES}")
def test_that_fails():
    assert False

def test_of_ourselves():
    pass
"""


def run(folder: Path, text: str, *options: str) -> tuple[int, list[str]]:
    """Run the tests of a text with the settings of this house; return the exit status and the lines."""
    file = folder / "test_some_checks.py"
    file.write_text(text, encoding="utf-8")
    settings = ["-p", "tests.conftest", "-c", "pyproject.toml", "--rootdir", str(folder)]
    words = [sys.executable, "-m", "pytest", *settings, *options, str(file)]
    done = subprocess.run(words, cwd=REPOSITORY, capture_output=True, text=True, check=False)
    return done.returncode, (done.stdout + done.stderr).splitlines()


@pytest.mark.parametrize("workers", ["0", "2"])
def test_the_table_counts_what_passed_by_title_and_kind_with_sums(tmp_path, workers):
    status, lines = run(tmp_path, CHECKS, "--sources", "-n", workers)
    assert status == 1
    start = next(at for at, line in enumerate(lines) if line.startswith("source "))
    rows = [[*line.rsplit(maxsplit=4)] for line in lines[start + 1 : start + 5]]
    assert rows == [
        ["common practice, no source", "-", "-", "-", "1"],
        [JONES, "1", "-", "-", "-"],
        [HANDBOOK, "2", "1", "-", "-"],
        ["all checks 5, sources 3", "3", "1", "-", "1"],
    ]
    closing = "3 published, 1 from memory, 0 own arithmetic on a source's data, 1 practice"
    assert lines[start + 5] == f"checks against the world: {closing}"


def test_without_the_option_only_the_kinds_are_counted(tmp_path):
    _, lines = run(tmp_path, CHECKS)
    assert not any(line.startswith(("source ", JONES)) for line in lines)
    assert any(line.startswith("checks against the world: 3 published, ") for line in lines)


@pytest.mark.parametrize(
    ("kind", "words", "fault"),
    [
        ("published", (), "has no source"),
        ("published", ("",), "has no source"),
        ("from_memory", ("   ",), "has no source"),
        ("own_arithmetic", (31,), "has no source"),
        ("published", (HANDBOOK, "p. 2130"), "has no source"),
        ("published", ("Some book, p. 7",), "begins with no title of tests/published/sources.toml"),
        ("from_memory", (f"{HANDBOOK}s, p. 7",), "begins with no title of tests/published/sources.toml"),
        ("own_arithmetic", ("common practice, no source",), "belongs to the mark practice"),
        ("practice", (JONES,), "belongs to the mark practice"),
    ],
)
def test_a_mark_without_one_listed_source_is_at_fault(kind, words, fault):
    assert fault in (fault_of(kind, words) or "")


@pytest.mark.parametrize(
    ("kind", "source"),
    [
        ("published", f"{JONES}, ch. IV"),
        ("from_memory", "general knowledge"),
        ("practice", "common practice, no source"),
    ],
)
def test_a_mark_with_a_listed_source_is_not(kind, source):
    assert fault_of(kind, (source,)) is None


@pytest.mark.parametrize(
    ("file_mark", "fault"),
    [("published", "the mark published has no source"), (f'from_memory("{JONES}")', "has 2 sources")],
)
def test_a_bare_or_second_mark_ends_the_run_and_names_the_test(tmp_path, file_mark, fault):
    text = f"import pytest\n\npytestmark = pytest.mark.{file_mark}\n\n{PRINTED}\ndef test_it(): ...\n"
    status, lines = run(tmp_path, text)
    assert status == pytest.ExitCode.USAGE_ERROR
    (told,) = [line for line in lines if line.startswith("ERROR: ")]
    assert "test_some_checks.py::test_it: " in told
    assert fault in told


def test_a_bare_mark_ends_a_run_on_several_processors(tmp_path):
    status, lines = run(tmp_path, "import pytest\n\n@pytest.mark.published\ndef test_bare():\n    pass\n", "-n", "2")
    assert status not in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED)
    assert any("::test_bare: the mark published has no source" in line for line in lines)


def test_the_longest_listed_title_is_the_source():
    assert title_of(f"{JONES}, ch. IV, p. 170") == title_of(f"{JONES}: dial") == title_of(JONES) == JONES
    assert title_of(f"{JONES} p. 170") is None


def test_a_title_is_listed_once_and_spelled_as_in_the_list_of_the_data():
    titles = [title.casefold() for title in TITLES.values()]
    assert len(set(titles)) == len(titles)
    listed = (REPOSITORY / "gearsets" / "SOURCES.md").read_text(encoding="utf-8").replace("*", "").casefold()
    for title, _ in tomllib.loads(FILE.read_text(encoding="utf-8"))["titles"].values():
        # The number of a standard, or the name of a book or page; the edition is told apart there.
        name = title.partition(",")[0].casefold()
        assert not re.search(rf"\| ([^|]*; )?{re.escape(name)}[,|;]", listed) or title.casefold() in listed, title


def test_every_listed_title_is_named_by_some_test():
    files = [REPOSITORY / each for each in PYTHON if each.parts[0] == "tests"]
    data = [each for each in (REPOSITORY / "tests" / "published").glob("*.toml") if each.name != "sources.toml"]
    text = "\n".join(file.read_text(encoding="utf-8") for file in (*files, *data))
    assert [key for key, title in TITLES.items() if f'"{key}"' not in text and title not in text] == []
