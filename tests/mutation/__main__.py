"""``python -m tests.mutation 3000``: so many small faults put into solver/, drawn by chance; which do the tests notice?

mutmut makes the faults, one at a time, and runs the tests that come by the changed function. A copy of the tree is
worked on, in the folder named by ``--at``; the second run there knows already which tests come by which function.
Needs ``pip install -e ".[test,mutation]"``.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

#: How mutmut writes down what became of a fault: noticed by a failing test or a test file that cannot be read, or by
#: never ending.
NOTICED = (1, 2, 3)
NEVER_ENDED = (24, -24, 36, 152, 255)
SURVIVED = 0
SKIPPED = 34
NO_FAULT_HAS_THIS_NAME = "only-look-which-tests-come-by"
#: Letters of what mutmut says that are shown when it stops too early.
LAST_WORDS = 2000


def copy_tree(at: Path) -> None:
    """Bring the copy to the state of the tree here."""
    here = Path(__file__).resolve().parents[2]
    listed = subprocess.run(["git", "ls-files"], cwd=here, check=True, capture_output=True, text=True).stdout
    for name in listed.splitlines():
        to = at / name
        text = (here / name).read_bytes()
        if not to.exists() or to.read_bytes() != text:
            to.parent.mkdir(parents=True, exist_ok=True)
            to.write_bytes(text)


def told(at: Path) -> Iterator[tuple[Path, dict[str, dict[str, int | None]]]]:
    """Give the file in which mutmut writes of each module of the solver, and what stands in it."""
    for path in sorted((at / "mutants" / "solver").rglob("*.meta")):
        yield path, json.loads(path.read_text(encoding="utf-8"))


def run_mutmut(at: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """Run mutmut in the copy, and keep what it says to ourselves."""
    program = Path(sys.executable).with_name("mutmut")
    if not program.exists():
        raise SystemExit('mutmut is not beside this Python: pip install -e ".[test,mutation]"')
    return subprocess.run(
        [program, "run", *words], cwd=at, check=False, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT
    )


def make_faults(at: Path) -> None:
    """Have all faults made, and see which tests come by which function: mutmut stops where no fault has the name."""
    said = run_mutmut(at, NO_FAULT_HAS_THIS_NAME).stdout
    if NO_FAULT_HAS_THIS_NAME not in said:
        raise SystemExit(f"mutmut did not come to its faults; its last words:\n{said[-LAST_WORDS:]}")


def draw(at: Path, wanted: int, seed: int) -> set[str]:
    """Draw faults as good as by chance from all there are, and let mutmut skip the others."""
    every = [name for _, told_of in told(at) for name in told_of["exit_code_by_key"]]
    shuffled = sorted(every, key=lambda name: hashlib.sha256(f"{seed} {name}".encode()).digest())
    chosen = set(shuffled[:wanted])
    for path, told_of in told(at):
        codes = told_of["exit_code_by_key"]
        told_of["exit_code_by_key"] = {name: None if name in chosen else SKIPPED for name in codes}
        path.write_text(json.dumps(told_of, indent=4), encoding="utf-8")
    print(f"{len(chosen)} of {len(every)} faults drawn with seed {seed}", flush=True)
    return chosen


def room_of(name: str) -> str:
    """Name the room of a fault: the package below solver."""
    parts = name.split(".")
    return parts[1] if len(parts) > 3 else "refusals"


def print_table(at: Path, chosen: set[str]) -> None:
    """Print what became of the faults, room by room, and name those that no test noticed."""
    became = {name: code for _, told_of in told(at) for name, code in told_of["exit_code_by_key"].items()}
    rooms: dict[str, Counter[str]] = {}
    for name in sorted(chosen):
        code = became[name]
        if code is None:
            raise SystemExit("mutmut stopped before every fault drawn was run: see that the tests pass without a fault")
        kind = "noticed" if code in NOTICED else "never ended" if code in NEVER_ENDED else "survived"
        rooms.setdefault(room_of(name), Counter())[kind] += 1
        if kind == "survived":
            print(name if code == SURVIVED else f"{name} (no test comes by)")
    rooms["every room"] = sum(rooms.values(), Counter())
    print(f"{'room':<12} {'faults':>7} {'noticed':>8} {'never ended':>12} {'survived':>9} {'caught':>7}")
    for room, counts in rooms.items():
        caught = (counts["noticed"] + counts["never ended"]) / counts.total()
        figures = f"{counts.total():>7} {counts['noticed']:>8} {counts['never ended']:>12} {counts['survived']:>9}"
        print(f"{room:<12} {figures} {caught:>7.1%}")


def main() -> int:
    """Copy, draw, run and tell."""
    words = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    words.add_argument("faults", type=int, help="how many faults to draw")
    words.add_argument("--seed", type=int, default=2026, help="the draw; another number draws others")
    words.add_argument("--at", type=Path, required=True, help="folder for the copy; not inside this tree")
    asked = words.parse_args()
    asked.at.mkdir(parents=True, exist_ok=True)
    copy_tree(asked.at)
    make_faults(asked.at)
    chosen = draw(asked.at, asked.faults, asked.seed)
    if not chosen:
        raise SystemExit("mutmut made no fault; run it by hand in the copy to see why")
    status = run_mutmut(asked.at).returncode
    print_table(asked.at, chosen)
    return status


if __name__ == "__main__":
    sys.exit(main())
