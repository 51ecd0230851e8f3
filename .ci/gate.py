"""The one gate: format, lint, types, import rules, tests; stops at the first that fails."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

TOOLS = Path(sys.executable).parent
STEPS = (
    ("format", (str(TOOLS / "ruff"), "format", "--check", ".")),
    ("lint", (str(TOOLS / "ruff"), "check", ".")),
    ("types", (str(TOOLS / "mypy"),)),
    ("import rules", (str(TOOLS / "lint-imports"),)),
    ("tests", (sys.executable, "-m", "pytest", "-q", "-n", "auto", "--dist", "worksteal")),
)


def main() -> int:
    """Run every step from the top of the repository; return the first failing status."""
    top = Path(__file__).resolve().parent.parent
    surroundings = {name: value for name, value in os.environ.items() if not name.startswith("HALFNUT_")}
    for name, words in STEPS:
        began = time.monotonic()
        sys.stdout.write(f"== {name}\n")
        sys.stdout.flush()
        status = subprocess.run(words, cwd=top, check=False, env=surroundings).returncode  # noqa: S603 - own words.
        sys.stdout.write(f"== {name}: {'passed' if status == 0 else 'FAILED'} in {time.monotonic() - began:.0f} s\n")
        if status:
            return status
    return 0


if __name__ == "__main__":
    sys.exit(main())
