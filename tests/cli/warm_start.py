"""A process that has imported the program once and splits off another for each command, in a tenth of the time.

Each command still has a process, an environment and streams of its own; only the imports are shared. The test
process asks with a line of JSON and is answered with one.
"""

from __future__ import annotations

import gc
import io
import json
import os
import pkgutil
import signal
import sys
import tempfile
import traceback
import types
from importlib import import_module
from typing import Any

import cli
import gearsets
import solver

#: What a command imports only when it is needed, beside the program itself.
HEAVY = ("jinja2", "ortools.sat.python.cp_model", "rich.console", "rich.table", "sympy")
#: Longest that a command may run. [s]
LONGEST = 120


def import_everything() -> None:
    """Import each module of the program, so that no command has to."""
    for package in (solver, gearsets, cli):
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            import_module(module.name)
    for name in HEAVY:
        import_module(name)
    gc.freeze()


def as_a_command(words: list[str], variables: dict[str, str]) -> int:
    """Be the program in this process, with these words and this environment, and return its exit status."""
    from cli.main import run

    os.environ.clear()
    os.environ.update(variables)
    sys.argv = ["halfnut", *words]
    # Click names a program that is a module by its module; an installed one has none.
    sys.modules["__main__"] = types.ModuleType("__main__")
    sys.stdin = io.TextIOWrapper(io.FileIO(0, "r", closefd=False), encoding="utf-8")
    for number, name in ((1, "stdout"), (2, "stderr")):
        stream = io.BufferedWriter(io.FileIO(number, "w", closefd=False))
        errors = "strict" if number == 1 else "backslashreplace"
        setattr(sys, name, io.TextIOWrapper(stream, encoding="utf-8", errors=errors, write_through=number == 2))
    status = 1
    try:
        run()
    except SystemExit as leaving:
        status = leaving.code if isinstance(leaving.code, int) else int(leaving.code is not None)
    except BaseException:  # noqa: BLE001 - a process that fails prints its traceback and leaves with 1.
        traceback.print_exc()
    sys.stdout.flush()
    sys.stderr.flush()
    return status


def split_off(asked: dict[str, Any]) -> dict[str, Any]:
    """Run one command in a process split off from this one; return its status and what it printed."""
    with tempfile.TemporaryFile() as told, tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as err:
        told.write(asked["told"].encode())
        told.seek(0)
        child = os.fork()
        if child == 0:
            for number, stream in enumerate((told, out, err)):
                os.dup2(stream.fileno(), number)
            signal.alarm(LONGEST)
            os._exit(as_a_command(asked["words"], asked["variables"]))
        status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        printed = []
        for stream in (out, err):
            stream.seek(0)
            printed.append(io.TextIOWrapper(stream, encoding="utf-8").read())
    return {"status": status, "out": printed[0], "err": printed[1]}


def main() -> None:
    """Answer one command after the other until the asking process is gone."""
    import_everything()
    answers = os.fdopen(os.dup(1), "w", encoding="utf-8")
    for line in sys.stdin:
        answers.write(json.dumps(split_off(json.loads(line))) + "\n")
        answers.flush()


if __name__ == "__main__":
    main()
