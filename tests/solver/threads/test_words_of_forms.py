"""What is said of a form besides its figures, word for word."""

from __future__ import annotations

import pytest

from solver.quantities.lengths import Length
from solver.threads.forms import FORMS
from solver.threads.holes_and_blanks import bases_of
from solver.threads.thread import Thread

MM = Length.of_mm
M6 = Thread(FORMS["iso"], MM(6), MM(1))
#: What a form's minor diameters rest on, in the words of the sheet, by form.
RULES = {
    "iso": "screw root rounded to H/6 (h3 = 17 H/24), nut to 5 H/8",
    "unified": "screw root to 11 H/16 (UNR), nut to 5 H/8",
    "miniature": "nut depth 0.48 P, screw depth 0.56 P",
    "unm": "nut depth 0.52 p, screw depth 0.60 p",
    "whitworth": "two thirds of the sharp V, crest and root rounded",
    "ba": "depth 0.6 p, rounded to 0.005 mm before it is taken off",
    "thury": "depth 0.6 p",
    "loewenherz": "depth 3/4 p, flats of p/8",
    "cycle": "crest and root rounded to p/6",
    "acme": "half the pitch and root clearance",
    "stub-acme": "0.3 of the pitch and root clearance",
    "trapezoidal": "half the pitch and root clearance",
    "square": "half the pitch, no clearance",
    "pipe": "two thirds of the sharp V, rounded to 0.001 mm before it is taken off",
    "taper-pipe-55": "two thirds of the sharp V, rounded to 0.001 mm before it is taken off",
    "taper-pipe-60": "at the small end: E0 = D - (0.05 D + 1.1) p, height 0.8 p",
}


@pytest.mark.parametrize("key", FORMS)
def test_the_rule_of_a_form_is_said_in_just_these_words(key):
    assert Thread(FORMS[key], MM(20), MM(2)).basic().rule == RULES[key]


def test_a_ba_pitch_below_the_standard_is_said_to_be_so():
    rule = "depth 0.6 p, below the range of BS 93 without its rounding"
    assert Thread(FORMS["ba"], MM("0.7"), MM("0.17")).basic().rule == rule


def test_a_whitworth_pitch_by_the_inch_is_said_to_have_its_depth_rounded():
    rule = "two thirds of the sharp V, rounded to 0.0001 in before it is taken off"
    assert Thread(FORMS["whitworth"], MM(20), Length.of_inches("1/12")).basic().rule == rule


def test_what_a_full_depth_is_called():
    assert [(each.key, each.title) for each in bases_of(M6)] == [
        ("3H/4", "older custom, depth 3 H/4 = 0.6495 p"),
        ("5H/8", "basic height of the nut, 5 H/8 = 0.5413 p"),
    ]
    whitworth = bases_of(Thread(FORMS["whitworth"], MM(6), MM(1)))
    assert [(each.key, each.title) for each in whitworth] == [("full", "full basic depth of the nut")]
