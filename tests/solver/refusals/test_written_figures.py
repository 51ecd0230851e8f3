"""What is said of a text that cannot be read, word for word: which door, what stands in the way, what would help."""

import tomllib
from pathlib import Path

import pytest

from solver.refusals import RefusalError
from tests.fuzz.doors import DOORS

REFUSED = tomllib.loads(Path(__file__).with_name("written_figures.toml").read_text(encoding="utf-8"))["refused"]


@pytest.mark.parametrize("row", REFUSED, ids=lambda row: f"{row['door']}-{row['text'][:30]}")
def test_a_refusal_says_just_this(row):
    with pytest.raises(RefusalError) as caught:
        DOORS[row["door"]].read(row["text"])
    assert str(caught.value) == row["says"]
