"""What is said of flats, slots, keyways and holes that cannot be made, word for word; what only just can be is not."""

from __future__ import annotations

from fractions import Fraction
from functools import partial

import pytest

from solver.dividing.hole_circles import hole_circle
from solver.dividing.shapes import Flats, FlatsOnRound, flats_across, flats_to_corner, largest_in_round
from solver.dividing.slots import Keyway, LengthwiseSlot, passes_from_touch, refuse_meeting_slots
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.refusals import RefusalError

mm = Length.of_mm
slot_in_20 = partial(passes_from_touch, diameter=mm(20), offset=mm(0), feeler=mm(0))
holes = partial(hole_circle, diameter=mm(10), start=Angle(Fraction(0)))

#: What is asked, what is said to stand in the way, and what to help.
REFUSED = [
    (
        lambda: Flats(1, mm(10)),
        "1 flats were asked for; 2 to 1000 can be worked out",
        "Ask for a number of flats between those.",
    ),
    (
        lambda: Flats(1001, mm(10)),
        "1001 flats were asked for; 2 to 1000 can be worked out",
        "Ask for a number of flats between those.",
    ),
    (
        lambda: Flats(4, mm(0)),
        "a flat at the axis or beyond leaves nothing of the part",
        "Give a size above zero.",
    ),
    (
        lambda: flats_across(5, mm(10)),
        "5 flats have none opposite one another, so there is no distance across them",
        "Give the round it is cut from, or the distance from a flat to the corner opposite.",
    ),
    (
        lambda: flats_to_corner(6, mm(10)),
        "of 6 flats each has a flat opposite it, not a corner",
        "Give the distance across flats.",
    ),
    (
        lambda: largest_in_round(2, mm(10)),
        "two flats have no corners, so none is the largest in a round",
        "Give the distance across the flats too.",
    ),
    (
        lambda: FlatsOnRound(Flats(4, mm(10)), mm(20)),
        "flats 10 mm from the axis lie outside a round of 20 mm, so nothing would be cut",
        "Take a larger round, or a smaller size across flats.",
    ),
    (
        lambda: slot_in_20(width=mm(2), cutter=mm("2.001")),
        "the cutter of 2.001 mm is wider than the slot of 2 mm",
        "Take a cutter of the width of the slot or less.",
    ),
    (
        lambda: slot_in_20(width=mm(20), cutter=mm(3)),
        "the slot reaches the side of the round or lies outside it",
        "Make it narrower, bring it nearer the axis, or take a larger round.",
    ),
    (
        # Beyond the axis it reaches the other side.
        lambda: slot_in_20(width=mm(4), cutter=mm(3), offset=mm(-8)),
        "the slot reaches the side of the round or lies outside it",
        "Make it narrower, bring it nearer the axis, or take a larger round.",
    ),
    (
        lambda: slot_in_20(width=mm("2.001"), cutter=mm("0.01")),
        "this cutter would need 201 passes for the width of the slot",
        "Take a wider cutter.",
    ),
    (
        lambda: LengthwiseSlot(mm(10), mm(4), mm(3), mm(2)),
        "the slot reaches the side of the round or lies outside it",
        "Make it narrower, bring it nearer the axis, or take a larger round.",
    ),
    (
        # Of a round of 10 mm, 3 mm from the axis, 1 mm has fallen away: 3, 4 and 5 make a right angle.
        lambda: LengthwiseSlot(mm(10), mm(6), mm(0), mm(1)),
        "the slot is so shallow that the round has fallen away from its edge: it would have no wall there",
        "Cut it deeper than 1 mm below the crown.",
    ),
    (
        # Its far wall stands 4 mm from the axis, where 2 mm have fallen away.
        lambda: LengthwiseSlot(mm(10), mm(2), mm(-3), mm(2)),
        "the slot is so shallow that the round has fallen away from its edge: it would have no wall there",
        "Cut it deeper than 2 mm below the crown.",
    ),
    (
        lambda: LengthwiseSlot(mm(10), mm(6), mm(0), mm(9)),
        "the slot is so deep that it breaks through the far side of the round",
        "Cut it less deep, or take a larger round.",
    ),
    (
        lambda: Keyway(mm(10), mm(10), mm(1)),
        "a keyway of 10 mm is as wide as the shaft of 10 mm or wider",
        "Take a narrower key or a larger shaft.",
    ),
    (
        lambda: Keyway.below_crown(mm(10), mm(12), mm(1)),
        "a keyway of 12 mm is as wide as the shaft of 10 mm or wider",
        "Take a narrower key or a larger shaft.",
    ),
    (
        lambda: Keyway.below_crown(mm(10), mm(6), mm(1)),
        "the slot is so shallow that the round has fallen away from its edge: it would have no wall there",
        "Cut it deeper than 1 mm below the crown.",
    ),
    (
        lambda: Keyway(mm(10), mm(6), mm(8)),
        "the slot is so deep that it breaks through the far side of the round",
        "Cut it less deep, or take a larger round.",
    ),
    (
        lambda: refuse_meeting_slots("keyways", 8, 7),
        "8 keyways of this size run into one another: no metal is left between them",
        "At most 7 of them go round this work; for 8, make them narrower or take a larger round.",
    ),
    (
        lambda: refuse_meeting_slots("slots", 2, 1),
        "2 slots of this size run into one another: no metal is left between them",
        "Only one of them goes round this work; for 2, make them narrower or take a larger round.",
    ),
    (
        lambda: holes(0),
        "0 holes were asked for; 1 to 1000 can be placed",
        "Ask for a number of holes between those.",
    ),
    (
        lambda: holes(1001),
        "1001 holes were asked for; 1 to 1000 can be placed",
        "Ask for a number of holes between those.",
    ),
]


@pytest.mark.parametrize(("asked", "reason", "help_text"), REFUSED, ids=range(1, len(REFUSED) + 1))
def test_a_refusal_says_just_this(asked, reason, help_text):
    with pytest.raises(RefusalError) as caught:
        asked()
    assert str(caught.value) == f"{reason}\n{help_text}"


def test_what_only_just_can_be_made_is_made():
    assert (Flats(2, mm("0.001")).count, Flats(1000, mm(1)).count) == (2, 1000)
    assert FlatsOnRound(Flats(4, mm("9.999")), mm(20)).depth == mm("0.001")
    assert slot_in_20(width=mm(2), cutter=mm(2)) == (mm(11),)
    assert len(slot_in_20(width=mm(2), cutter=mm("0.01"))) == 200
    assert slot_in_20(width=mm("19.998"), cutter=mm("19.998")) == (mm("19.999"),)
    # By 3, 4 and 5 again: the walls stand 1 µm high, and 1 µm of metal is left below them.
    assert LengthwiseSlot(mm(10), mm(6), mm(0), mm("1.001")).wall_depths == (mm("0.001"), mm("0.001"))
    assert LengthwiseSlot(mm(10), mm(6), mm(0), mm("8.999")).wall_depths == (mm("7.999"), mm("7.999"))
    assert Keyway(mm(10), mm("9.6"), mm("0.001")).over_bottom == mm("6.399")
    refuse_meeting_slots("slots", 7, 7)
    assert (len(holes(1)), holes(1000)[-1].number) == (1, 1000)
