"""A few hundred shaken texts at every door; ``python -m tests.fuzz`` goes on for hundreds of thousands."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fuzz.doors import DOORS, WORKING, Door
from tests.fuzz.shaking import shaken
from tests.fuzz.watch import WORKING_LIMIT, HangError, knock


@pytest.mark.parametrize("name", sorted(set(DOORS) - WORKING))
@given(data=st.data())
@settings(max_examples=150)
def test_any_text_is_read_or_refused_in_order(name, data):
    door = DOORS[name]
    knock(door, data.draw(shaken(door.seeds)))


@given(line=shaken(DOORS["command line"].seeds))
@settings(max_examples=40)
def test_any_command_line_answers_or_refuses_and_leaves_no_file(line):
    knock(DOORS["command line"], line, WORKING_LIMIT)


@pytest.mark.parametrize("name", sorted(set(DOORS) - WORKING))
def test_every_door_reads_at_least_half_of_its_seeds(name):
    door = DOORS[name]
    taken = [seed for seed in door.seeds if knock(door, seed)]
    assert 2 * len(taken) >= len(door.seeds), set(door.seeds) - set(taken)


def never_done(text: str) -> None:
    while text is not None:
        pass


def test_the_watch_sees_a_traceback_and_a_hang():
    with pytest.raises(ZeroDivisionError):
        knock(Door(lambda text: len(text) // 0, ("",)), "")
    with pytest.raises(HangError):
        knock(Door(never_done, ("",)), "")
