"""One browser for each run of the tests, and each sheet made once."""

from __future__ import annotations

import os
import shutil
import warnings
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from cli.main import bench, keep_negatives
from tests.sheets.kinds import KINDS

if TYPE_CHECKING:
    from playwright.sync_api import Browser

#: Names that the browser goes by.
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
#: With this variable set a missing browser fails the tests; without it they are skipped.
NEEDED = "SHEETS_NEED_CHROMIUM"
QUIET = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--no-first-run",
)  # fmt: skip

MakeSheet = Callable[..., Path]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start the browser of the system."""
    found = next((path for path in map(shutil.which, BROWSERS) if path), None)
    if found is None:
        missing = f"no {' or '.join(BROWSERS)} on this machine: sheets are not looked at"
        if os.environ.get(NEEDED) == "1":
            pytest.fail(f"{NEEDED}=1, but {missing}")
        pytest.skip(missing)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=found, args=list(QUIET))
        yield started
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            started.close()


@pytest.fixture(scope="session")
def make_sheet(tmp_path_factory: pytest.TempPathFactory) -> MakeSheet:
    """Make a sheet with the words of a command, once in a run, and say where it is."""
    folder = tmp_path_factory.mktemp("sheets")
    made: dict[tuple[str, ...], Path] = {}

    def make(*words: str) -> Path:
        if words not in made:
            path = folder / f"sheet-{len(made)}.html"
            surroundings = {"HALFNUT_LATHE": "", "HALFNUT_HEAD": ""}
            command = [*keep_negatives(list(words)), "--sheet", str(path)]
            outcome = CliRunner().invoke(bench, command, env=surroundings, standalone_mode=False)
            assert path.exists(), outcome.output or outcome.exception
            made[words] = path
        return made[words]

    return make


@pytest.fixture(params=KINDS.values(), ids=KINDS)
def kind(request: pytest.FixtureRequest):
    return request.param
