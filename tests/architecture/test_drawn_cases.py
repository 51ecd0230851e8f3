"""The gate answers the same each time: cases are drawn from no clock, no memory of earlier runs and no chance."""

from __future__ import annotations

import ast

from hypothesis import settings

from tests.architecture.test_house import PYTHON, importing, parsed


def test_the_gate_draws_the_same_cases_every_time_and_the_wide_profile_others():
    house, wide = settings.get_profile("house"), settings.get_profile("wide")
    assert (house.derandomize, house.database, house.deadline) == (True, None, None)
    assert (wide.derandomize, wide.database, wide.deadline) == (False, None, None)
    assert wide.max_examples == 10 * house.max_examples


def test_no_property_draws_at_random_of_its_own_accord():
    for file in PYTHON:
        for node in ast.walk(parsed(file)):
            words = node.keywords if isinstance(node, ast.Call) else []
            at_random = [
                word.value.lineno
                for word in words
                if word.arg == "derandomize" and isinstance(word.value, ast.Constant) and word.value.value is not True
            ]
            assert at_random == [] or file.name == "conftest.py", f"{file}:{at_random}"


def test_nothing_in_the_program_or_its_tests_is_left_to_chance():
    for name in ("random", "secrets", "uuid"):
        assert importing(name, tests=True) == set(), name
