"""What is said of a dial, a vernier or a screw that cannot be, word for word."""

from __future__ import annotations

import pytest

from solver.dials.graduations import graduate
from solver.dials.mark_pattern import MarkPattern
from solver.dials.screw_dials import ScrewDial
from solver.dials.verniers import Vernier
from solver.quantities.lengths import Length
from solver.refusals import RefusalError

mm = Length.of_mm

#: What is asked, what is said to stand in the way, and what to help.
REFUSED = [
    (
        lambda: graduate(mm(2), mm(3)),
        "one mark would be worth more than a whole turn of the screw",
        "Ask for a reading no larger than the lead of the screw.",
    ),
    (
        lambda: graduate(mm(20), mm("0.001")),
        "the dial would need 20000 marks; more than 10000 cannot be told apart",
        "Ask for a coarser reading, or use a vernier.",
    ),
    (
        # 20001 marks of 3 µm would make 60.003 mm.
        lambda: graduate(mm("60.002"), mm("0.003")),
        "the dial would need about 20001 marks; more than 10000 cannot be told apart",
        "Ask for a coarser reading, or use a vernier.",
    ),
    (
        # A third of a mark too many is too many, and is not said to be 10000.
        lambda: graduate(mm("30.001"), mm("0.003")),
        "the dial would need about 10001 marks; more than 10000 cannot be told apart",
        "Ask for a coarser reading, or use a vernier.",
    ),
    (
        lambda: MarkPattern(100, 0, 0),
        "a group of marks has one mark or more",
        "Write for example 10 long and 5 medium.",
    ),
    (
        lambda: MarkPattern(100, 10, -1),
        "a group of marks has one mark or more",
        "Write for example 10 long and 5 medium.",
    ),
    (
        lambda: MarkPattern(100, 10, 4),
        "medium marks every 4 do not fall on long ones every 10",
        "Take a number for the medium marks that goes into the long ones.",
    ),
    (
        lambda: Vernier.of(1),
        "a vernier of 1 divisions cannot be read; 2 to 200 can",
        "Ask for 5, 6, 10, 12, 20 or the like.",
    ),
    (
        lambda: Vernier.of(201),
        "a vernier of 201 divisions cannot be read; 2 to 200 can",
        "Ask for 5, 6, 10, 12, 20 or the like.",
    ),
    (lambda: Vernier.of(10).reading(3, 11), "this vernier has lines 0 to 10, not 11", "Count its lines again."),
    (lambda: Vernier.of(10).reading(3, -1), "this vernier has lines 0 to 10, not -1", "Count its lines again."),
]


@pytest.mark.parametrize(("asked", "reason", "help_text"), REFUSED, ids=range(1, len(REFUSED) + 1))
def test_a_refusal_says_just_this(asked, reason, help_text):
    with pytest.raises(RefusalError) as caught:
        asked()
    assert str(caught.value) == f"{reason}\n{help_text}"


@pytest.mark.parametrize(("lead", "marks"), [(mm(0), 10), (mm(-1), 10), (mm(1), 0)])
def test_a_screw_that_is_none_is_a_fault_of_the_caller(lead, marks):
    with pytest.raises(ValueError, match="^a screw has a lead above zero and its dial one mark or more$"):
        ScrewDial(lead, marks)
