"""Running halfnut as a person does: in a process of its own, 80 columns, no colour.

Commands that think long, and load much before they do, are asked again and again in the process of the tests.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path
from typing import Any
from unittest.mock import patch

from cli.main import run

TOP = Path(__file__).resolve().parents[2]


def halfnut(
    *words: str,
    told: str = "",
    home: Path | None = None,
    columns: int = 80,
    variables: dict[str, str] | None = None,
) -> subprocess.CompletedProcess[str]:
    """Run the program; ``home`` is the data folder, ``told`` what is typed, ``variables`` the environment beside."""
    surroundings = {**_surroundings(columns), **(variables or {})}
    if home is not None:
        surroundings["XDG_DATA_HOME"] = str(home)
    return subprocess.run(
        [sys.executable, "-m", "cli.main", *words],
        input=told,
        capture_output=True,
        text=True,
        check=False,
        env=surroundings,
        cwd=TOP,
        timeout=120,
    )


def halfnut_here(*words: str) -> subprocess.CompletedProcess[str]:
    """Run the program in this process, where what it has loaded stays loaded."""
    said, remarked, status = StringIO(), StringIO(), 0
    with (
        patch.dict(os.environ, _surroundings(80), clear=True),
        patch.object(sys, "argv", ["halfnut", *words]),
        redirect_stdout(said),
        redirect_stderr(remarked),
    ):
        try:
            run()
        except SystemExit as leaving:
            status = int(leaving.code or 0)
    return subprocess.CompletedProcess(words, status, said.getvalue(), remarked.getvalue())


def answer_here(*words: str) -> dict[str, Any]:
    """Run a command with ``--json`` in this process and read its answer, whatever its exit status."""
    return _answer(halfnut_here(*words, "--json"))


def answer_of(*words: str) -> dict[str, Any]:
    """Run a command with ``--json`` and read its answer, whatever its exit status."""
    return _answer(halfnut(*words, "--json"))


def _answer(outcome: subprocess.CompletedProcess[str]) -> dict[str, Any]:
    assert outcome.stdout, outcome
    answer: dict[str, Any] = json.loads(outcome.stdout)
    return answer


def _surroundings(columns: int) -> dict[str, str]:
    """Tell the program how wide the terminal is, and none of the choices of whoever runs the tests."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("HALFNUT_", "_HALFNUT"))}
    return kept | {"NO_COLOR": "1", "COLUMNS": str(columns), "PYTHONPATH": str(TOP), "LANG": "C.UTF-8"}
