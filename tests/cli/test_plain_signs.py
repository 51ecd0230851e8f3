"""Every sign that the program can print has letters that stand for it."""

from __future__ import annotations

import ast

import pytest

from cli.plain_signs import PLAIN_SIGNS, spell_plainly
from tests.architecture.test_house import FILES, PYTHON, REPOSITORY, parsed
from tests.cli.running import halfnut

#: Texts that are shown: strings of the program with its help, and the data that come with it.
PROGRAM = [each for each in PYTHON if each.parts[0] in ("cli", "gearsets", "solver")]
DATA = [each for each in FILES if each.parts[0] == "gearsets" and each.suffix in (".csv", ".toml")]


def signs_of(tree: ast.AST) -> set[str]:
    strings = [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)]
    return {sign for text in strings for sign in text if not sign.isascii()}


@pytest.mark.parametrize("file", PROGRAM, ids=str)
def test_every_sign_of_the_program_has_a_plain_stand_in(file):
    assert signs_of(parsed(file)) - set(PLAIN_SIGNS) == set()


@pytest.mark.parametrize("file", DATA, ids=str)
def test_every_sign_of_the_shipped_data_has_a_plain_stand_in(file):
    text = (REPOSITORY / file).read_text(encoding="utf-8")
    assert {sign for sign in text if not sign.isascii()} - set(PLAIN_SIGNS) == set()


def test_a_sign_without_a_stand_in_would_be_found():
    assert signs_of(ast.parse("print(f'{size} ☃')")) - set(PLAIN_SIGNS) == {"☃"}


def test_every_stand_in_is_plain_and_says_something():
    assert all(plain.isascii() and (plain.strip() or sign.isspace()) for sign, plain in PLAIN_SIGNS.items())


def test_a_fraction_keeps_off_the_figure_before_it():
    spell_plainly()
    assert "47½° ± ¼ mm".encode("ascii", "plain_signs") == b"47 1/2 deg +/-  1/4 mm"


@pytest.mark.parametrize(
    ("words", "plain"),
    [
        (("thread", "2 BA", "--show", "dimensions"), "47 1/2 deg"),
        (("thread", "1/2 é", "--major", "6mm"), "1/2 e"),
        (("train", "M10", "--lathe", "inch-8-no127", "--fit", "132 um"), "132 um"),
        (("worm", "--module", "0.5", "--teeth", "73", "--json"), "pi"),
    ],
)
def test_a_narrow_terminal_is_told_it_in_letters(words, plain):
    outcome = halfnut(*words, variables={"PYTHONIOENCODING": "ascii"})
    told = outcome.stdout + outcome.stderr
    assert told.isascii()
    assert plain in told
    assert "?" not in told
    assert "Traceback" not in told
