"""The table of parallel keys: from memory, and without a gap or a slip that the figures themselves would show."""

from __future__ import annotations

from itertools import pairwise

import pytest

from gearsets.key_tables import key_for_shaft, standard_keys
from solver.dividing.slots import Keyway
from solver.quantities.lengths import Length


def test_the_ranges_of_the_shafts_leave_no_gap_and_the_keys_grow_with_them():
    keys = standard_keys()
    assert [key.up_to for key in keys[:-1]] == [key.over for key in keys[1:]]
    for smaller, larger in pairwise(keys):
        assert smaller.width < larger.width
        assert smaller.in_shaft <= larger.in_shaft
        assert smaller.in_hub <= larger.in_hub


@pytest.mark.parametrize("key", standard_keys(), ids=lambda key: f"{key.width.mm}")
def test_both_keyways_hold_the_key_with_a_little_room_at_the_top(key):
    room = key.in_shaft + key.in_hub - key.height
    # In every row, t1 + t2 - h is a few tenths: the clearance over the key.
    assert Length.of_mm("0.1") < room < Length.of_mm("0.5")
    for shaft in (key.over, key.up_to):
        assert Keyway.below_crown(shaft, key.width, key.in_shaft).depth_at_edge < key.in_shaft


@pytest.mark.from_memory("ISO/R 773 and DIN 6885, Parallel keys and their keyways, edition not seen")
@pytest.mark.parametrize(
    ("shaft", "section", "in_shaft", "in_hub"),
    [
        ("8", ("2", "2"), "1.2", "1"),
        ("12", ("4", "4"), "2.5", "1.8"),
        ("20", ("6", "6"), "3.5", "2.8"),
        ("25", ("8", "7"), "4", "3.3"),
        ("40", ("12", "8"), "5", "3.3"),
        ("60", ("18", "11"), "7", "4.4"),
    ],
)
def test_a_shaft_has_the_key_of_the_standard(shaft, section, in_shaft, in_hub):
    key = key_for_shaft(Length.of_mm(shaft))
    assert (key.width, key.height) == tuple(map(Length.of_mm, section))
    assert (key.in_shaft, key.in_hub) == (Length.of_mm(in_shaft), Length.of_mm(in_hub))
    assert key.status == "memory"
