"""Helix trains against a model of the mill turned in fractions, and against every train tried in turn."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import combinations, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.dividing.heads import Head
from solver.helices.helix import (
    gear_diameter,
    helix_angle,
    lead_from_angle,
    lead_of_gear,
    tangent_of_helix,
    virtual_teeth,
)
from solver.helices.helix_trains import (
    HelixQuestion,
    every_placing,
    lead_of_train,
    search_helix,
    shaft_faults,
    turned_round,
)
from solver.helices.mill import Drive, Mill, mill_of
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.refusals import ImpossibleSettingError
from solver.trains.hand import Hand
from solver.trains.wheels import Pair, Train
from tests.drawn_cases import cases

several = cases(50)

TEETH = (24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)


@st.composite
def mills(draw: st.DrawFn) -> Mill:
    """Draw a mill with a few wheels, any head ratio and an inch or metric table screw."""
    stock = draw(st.dictionaries(st.sampled_from(TEETH), st.sampled_from((1, 1, 2)), min_size=3, max_size=6))
    screw = draw(st.sampled_from((Length.of_inches("1/4"), Length.of_inches("1/5"), Length.of_mm(5), Length.of_mm(4))))
    ratio = Fraction(draw(st.sampled_from((40, 60, 90))))
    return Mill("drawn", ratio, screw, tuple(sorted(stock.items())))


def work_turns(train: Train, mill: Mill, drive: Drive, screw_turns: Fraction) -> Fraction:
    """Turn the table screw and follow the motion wheel by wheel to the work; signs left out."""
    turns = screw_turns
    for pair in train.pairs:
        turns = turns * pair.driver / pair.driven
    return turns / mill.worm_ratio if drive is Drive.WORM else turns


@several
@given(mills(), st.integers(5, 3000), st.sampled_from(Drive))
def test_every_train_carried_out_on_a_model_of_the_mill_cuts_the_lead_it_says(mill: Mill, tenths: int, drive: Drive):
    lead = Length(Fraction(tenths, 10) * (mill.worm_ratio / 40 if drive is Drive.WORM else Fraction(1, 20)))
    report = search_helix(HelixQuestion(lead, drive=drive, within=Fraction(1, 10)), mill)
    for each in (*report.answers, *report.set_aside, *([report.nearest] if report.nearest else [])):
        travel = mill.table_lead * 1
        assert each.lead * work_turns(each.train, mill, drive, Fraction(1)) == travel
        assert each.lead == lead_of_train(each.train, mill, drive)
        assert each.error.relative == each.lead / lead - 1
        used = [teeth for _, teeth in each.train.wheels] + [idler.teeth for idler in each.idlers]
        assert all(used.count(teeth) <= dict(mill.stock)[teeth] for teeth in used)
    for each in report.answers:
        assert abs(each.error.relative) <= Fraction(1, 10)
        assert not each.faults
        assert not list(shaft_faults(each.train, mill, each.idlers))


def every_train(mill: Mill) -> list[Train]:
    """List every train of one or two pairs by trying them all."""
    box = [teeth for teeth, count in mill.stock for _ in range(count)]
    found = {(first, second) for first, second in permutations(box, 2)}
    trains = [Train((Pair(first, second),)) for first, second in sorted(found)]
    fours = {four for chosen in combinations(box, 4) for four in permutations(chosen)}
    return trains + [Train((Pair(a, b), Pair(c, d))) for a, b, c, d in sorted(fours)]


def clears(train: Train, idler: tuple[int, int] | None = None) -> bool:
    """The rule of fifteen teeth, written out again: two wheels on one stud, each past the shaft of the other's mate.

    An idler of so many teeth in mesh 1 or 2 takes the place of that mesh's far wheel.
    """
    if len(train.pairs) == 1:
        return True
    (a, b), (c, d) = ((pair.driver, pair.driven) for pair in train.pairs)
    before = idler[1] if idler and idler[0] == 1 else a
    after = idler[1] if idler and idler[0] == 2 else d
    return before + b > c + 15 and c + after > b + 15


def goes_on_somehow(train: Train, mill: Mill, hand: Hand) -> bool:
    """An even number of meshes is right-handed; otherwise one of the wheels left goes between as an idler."""
    meshes = len(train.pairs)
    if (meshes % 2 == 0) is (hand is Hand.RIGHT):
        return clears(train)
    left = dict(mill.stock)
    for _, teeth in train.wheels:
        left[teeth] -= 1
    spare = [teeth for teeth, count in left.items() if count > 0]
    return any(clears(train, (mesh, teeth)) for mesh in range(1, meshes + 1) for teeth in spare)


@several
@given(mills(), st.integers(200, 9000), st.sampled_from(Hand))
def test_the_first_answer_is_as_near_as_any_train_tried_in_turn(mill: Mill, tenths: int, hand: Hand):
    lead = Length(Fraction(tenths, 10))
    within = Fraction(1, 20)
    report = search_helix(HelixQuestion(lead, hand, within=within, wanted=3), mill)
    able = [train for train in every_train(mill) if goes_on_somehow(train, mill, hand)]
    for pairs in (1, 2):
        errors = [abs(lead_of_train(train, mill) / lead - 1) for train in able if len(train.pairs) == pairs]
        near = [error for error in errors if error <= within]
        found = [abs(each.error.relative) for each in report.answers if len(each.train.pairs) == pairs]
        assert min(found, default=None) == min(near, default=None)


@several
@given(st.permutations(TEETH))
def test_placings_keep_the_lead_and_faults_are_those_of_the_rule(teeth: list[int]):
    train = Train((Pair(teeth[0], teeth[1]), Pair(teeth[2], teeth[3])))
    mill = Mill("any", Fraction(40), Length.of_inches("1/4"), tuple((each, 1) for each in TEETH))
    judged = every_placing(train, mill)
    assert len(judged) == 4
    for each, goes_on in judged:
        assert lead_of_train(each.train, mill) == lead_of_train(train, mill)
        assert goes_on is clears(each.train)
        assert goes_on is (not list(shaft_faults(each.train, mill)))
    # With an idler for the left hand more placings may go on: the reverse gear fills the gap.
    for each, goes_on in every_placing(train, mill, Hand.LEFT):
        assert goes_on is goes_on_somehow(each.train, mill, Hand.LEFT)
    assert turned_round(turned_round(train)) == train
    assert turned_round(train).ratio * train.ratio == 1


@several
@given(st.integers(2, 400), st.integers(10, 790), st.integers(12, 120))
def test_lead_angle_and_diameter_agree_with_floats_and_with_one_another(tenths: int, angle_tenths: int, teeth: int):
    module, angle = Length(Fraction(tenths, 100)), Angle.of_degrees(Fraction(angle_tenths, 10))
    radians = math.radians(angle_tenths / 10)
    diameter = gear_diameter(teeth, module, angle)
    lead = lead_of_gear(teeth, module, angle)
    assert float(diameter.mm) == pytest.approx(teeth * tenths / 100 / math.cos(radians), rel=1e-12)
    assert float(lead.mm_per_pi) == pytest.approx(float(diameter.mm) / math.tan(radians), rel=1e-12)
    assert abs((helix_angle(diameter, lead) - angle).arcsec) < Fraction(1, 10**15)
    assert abs((helix_angle(diameter, lead_from_angle(diameter, angle)) - angle).arcsec) < Fraction(1, 10**15)
    virtual = virtual_teeth(teeth, tangent_of_helix(diameter, lead))
    assert float(virtual) == pytest.approx(teeth / math.cos(radians) ** 3, rel=1e-11)


def test_a_pi_lead_and_its_length_have_the_same_angle():
    low, _ = PiLength(Fraction(100)).bounds()
    exact, near = (helix_angle(Length.of_mm(30), lead) for lead in (PiLength(Fraction(100)), low))
    assert abs(exact.turns - near.turns) < Fraction(1, 10**45)


@pytest.mark.parametrize(
    ("head", "missing"),
    [
        (Head("bare", Fraction(40), ()), "wheels"),
        (Head("no screw", Fraction(40), (), wheels=((24, 2),)), "table"),
        (Head("no wheels", Fraction(40), (), table_lead=Length.of_mm(5)), "wheels"),
    ],
)
def test_a_head_without_wheels_or_table_screw_is_refused_with_what_to_add(head: Head, missing: str):
    with pytest.raises(ImpossibleSettingError) as refusal:
        mill_of(head)
    assert f"[{missing}]" in refusal.value.help_text


@pytest.mark.parametrize("degrees", ["0", "0.05", "85", "90"])
def test_an_angle_that_makes_no_helix_is_refused(degrees: str):
    with pytest.raises(ImpossibleSettingError, match="helix angle"):
        lead_from_angle(Length.of_mm(10), Angle.of_degrees(degrees))
