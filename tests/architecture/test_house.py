"""Rules of the house that a reader should be able to rely on without reading everything."""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

REPOSITORY = Path(__file__).parents[2]
PACKAGES = ("solver", "gearsets", "cli", "tests")
#: Top level of the repository; dot files and dot folders apart.
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "solver", "gearsets", "cli", "tests"}
MOST_LINES = 400
EMPTY_NAMES = {"utils", "util", "helpers", "helper", "common", "core", "misc"}

Definition = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef


def tracked() -> list[Path]:
    """Every file that git tracks or would track, so that a file is judged before it is committed."""
    words = ["git", "ls-files", "--cached", "--others", "--exclude-standard"]
    done = subprocess.run(words, cwd=REPOSITORY, capture_output=True, text=True, check=True)
    files = [Path(line) for line in done.stdout.splitlines()]
    return [each for each in files if (REPOSITORY / each).is_file()]


FILES = tracked()
PYTHON = [each for each in FILES if each.suffix == ".py" and each.parts[0] in PACKAGES]
SOLVER = [each for each in PYTHON if each.parts[0] == "solver"]


def parsed(file: Path) -> ast.Module:
    return ast.parse((REPOSITORY / file).read_text(encoding="utf-8"), filename=str(file))


def floats_in(tree: ast.AST) -> list[str]:
    """Float and complex literals, the names that make floats, and true division of two whole literals."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, float | complex):
            found.append(f"line {node.lineno}: {node.value!r}")
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("float", "complex"):
            found.append(f"line {node.lineno}: {node.func.id}(")
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Div):
            sides = (node.left, node.right)
            if all(isinstance(side, ast.Constant) and isinstance(side.value, int) for side in sides):
                found.append(f"line {node.lineno}: division of two whole literals")
    return found


def test_the_solver_has_files_to_judge():
    assert len(SOLVER) > 20


@pytest.mark.parametrize("file", SOLVER, ids=str)
def test_no_float_is_written_in_the_solver(file):
    assert floats_in(parsed(file)) == []


@pytest.mark.parametrize("text", ["x = 0.5", "x = float('1')", "x = 1e3", "x = 1 / 2", "x = 2j"])
def test_the_rule_about_floats_would_find_one(text):
    assert len(floats_in(ast.parse(text))) == 1


@pytest.mark.parametrize("file", PYTHON, ids=str)
def test_no_file_is_over_400_lines(file):
    assert len((REPOSITORY / file).read_text(encoding="utf-8").splitlines()) <= MOST_LINES


def test_no_file_or_folder_has_an_empty_name():
    assert [str(each) for each in FILES if EMPTY_NAMES & {Path(part).stem for part in each.parts}] == []


def test_the_top_level_holds_exactly_what_the_design_lists():
    top = {each.parts[0] for each in FILES}
    assert {each for each in top if not each.startswith(".")} == TOP_LEVEL


def public_definitions(tree: ast.Module) -> Iterator[tuple[str, Definition]]:
    """Yield the public classes and functions of a module, and the public methods of its public classes."""
    for node in tree.body:
        if isinstance(node, Definition) and not node.name.startswith("_"):
            yield node.name, node
            if isinstance(node, ast.ClassDef):
                for inner in node.body:
                    if isinstance(inner, Definition) and not inner.name.startswith("_"):
                        yield f"{node.name}.{inner.name}", inner


def needs_examples(node: Definition) -> bool:
    """A function, method or property shows an example; a class may leave that to what makes it."""
    return not isinstance(node, ast.ClassDef)


@pytest.mark.parametrize("file", SOLVER, ids=str)
def test_everything_public_in_the_solver_is_described_and_every_function_shows_an_example(file):
    faults = []
    tree = parsed(file)
    if not ast.get_docstring(tree):
        faults.append("the module has no docstring")
    for name, node in public_definitions(tree):
        text = ast.get_docstring(node) or ""
        if not text:
            faults.append(f"{name} has no docstring")
        elif needs_examples(node) and ("Examples\n--------\n" not in text or ">>> " not in text):
            faults.append(f"{name} shows no example")
    assert faults == []


def rooms_of(file: Path) -> tuple[str, set[str]]:
    folder = REPOSITORY / file.parent
    beside = {each.stem for each in folder.glob("*.py")} | {each.parent.name for each in folder.glob("*/__init__.py")}
    return ast.get_docstring(parsed(file)) or "", beside - {"__init__"}


@pytest.mark.parametrize("file", [each for each in SOLVER if each.name == "__init__.py"], ids=str)
def test_a_package_lists_all_its_rooms_and_holds_nothing_else(file):
    text, rooms = rooms_of(file)
    assert {room for room in rooms if f"``{room}``" not in text} == set()
    assert len(parsed(file).body) == 1


def importing(name: str, *, tests: bool = False) -> set[str]:
    """Files of the program, or of its tests too, that import a library, wherever in the file."""
    found = set()
    for file in PYTHON:
        if file.parts[0] == "tests" and not tests:
            continue
        for node in ast.walk(parsed(file)):
            modules = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            modules += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            if any(module.split(".")[0] == name for module in modules):
                found.add(str(file))
    return found


def test_the_constraint_solver_is_imported_in_one_file():
    assert importing("ortools") == {"solver/jobs/constraint_solver.py"}


def test_the_algebra_library_is_imported_in_one_file():
    assert importing("sympy") == {"solver/quantities/continued_fractions.py"}


@pytest.mark.parametrize("library", ["ortools", "sympy", "numpy", "rich", "click"])
def test_a_slow_library_is_not_loaded_with_the_solver(library):
    modules = sorted(".".join(each.with_suffix("").parts) for each in SOLVER if each.name != "__init__.py")
    program = (
        "import importlib, sys\n"
        f"for name in {modules!r}: importlib.import_module(name)\n"
        f"print({library!r} in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", program], cwd=REPOSITORY, capture_output=True, text=True, check=False)
    assert done.stdout.strip() == "False", done.stderr


def test_nothing_typed_by_a_person_can_be_run():
    for file in PYTHON:
        if file.parts[0] == "tests":
            continue
        for node in ast.walk(parsed(file)):
            if isinstance(node, ast.Call):
                called = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
                assert called not in ("eval", "exec", "sympify", "parse_expr", "__import__"), f"{file}:{node.lineno}"


def test_the_contracts_of_import_linter_hold():
    program = "from importlinter.cli import lint_imports_command; lint_imports_command()"
    environment = {**os.environ, "PYTHONPATH": str(REPOSITORY)}
    done = subprocess.run(
        [sys.executable, "-c", program, "--no-cache"],
        cwd=REPOSITORY,
        capture_output=True,
        text=True,
        check=False,
        env=environment,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert " 0 broken" in done.stdout
