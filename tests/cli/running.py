"""Running halfnut as a person does: in a process of its own, 80 columns, no colour."""

from __future__ import annotations

import json
import os
import subprocess
import sys
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


def answer_of(*words: str) -> dict[str, Any]:
    """Run a command with ``--json`` and read its answer, whatever its exit status."""
    outcome = halfnut(*words, "--json")
    assert outcome.stdout, outcome
    answer: dict[str, Any] = json.loads(outcome.stdout)
    return answer
