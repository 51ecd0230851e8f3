"""Running halfnut as a person does: in a process of its own, 80 columns, no colour."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from functools import cache
from pathlib import Path
from typing import Any

TOP = Path(__file__).resolve().parents[2]


def halfnut(
    *words: str,
    told: str = "",
    home: Path | None = None,
    columns: int = 80,
    variables: dict[str, str] | None = None,
) -> subprocess.CompletedProcess[str]:
    """Run the program; ``home`` is the data folder, ``told`` what is typed, ``variables`` the environment beside."""
    surroundings = {name: value for name, value in os.environ.items() if not name.startswith(("HALFNUT_", "_HALFNUT"))}
    surroundings |= {"NO_COLOR": "1", "COLUMNS": str(columns), "PYTHONPATH": str(TOP), "LANG": "C.UTF-8"}
    surroundings |= variables or {}
    if home is not None:
        surroundings["XDG_DATA_HOME"] = str(home)
    # What speaks to Python itself is read only when a process begins.
    if any(name.startswith("PYTHON") for name in variables or {}):
        return cold_start(words, told, surroundings)
    process = warm_process()
    assert process.stdin is not None
    assert process.stdout is not None
    process.stdin.write(json.dumps({"words": words, "told": told, "variables": surroundings}) + "\n")
    process.stdin.flush()
    answer = json.loads(process.stdout.readline())
    return subprocess.CompletedProcess(["halfnut", *words], answer["status"], answer["out"], answer["err"])


def cold_start(words: tuple[str, ...], told: str, surroundings: dict[str, str]) -> subprocess.CompletedProcess[str]:
    """Run the program in a process that begins from nothing."""
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


@cache
def warm_process() -> subprocess.Popen[str]:
    """Begin the process from which commands are split off; it ends with this one, when nobody asks any more."""
    return subprocess.Popen(
        [sys.executable, "-m", "tests.cli.warm_start"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        encoding="utf-8",
        env=os.environ | {"PYTHONPATH": str(TOP)},
        cwd=TOP,
    )


def answer_of(*words: str) -> dict[str, Any]:
    """Run a command with ``--json`` and read its answer, whatever its exit status."""
    outcome = halfnut(*words, "--json")
    assert outcome.stdout, outcome
    answer: dict[str, Any] = json.loads(outcome.stdout)
    return answer
