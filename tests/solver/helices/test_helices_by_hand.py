"""Helices worked by hand: which cutter, which angles are answered, and what is asked of the search and handed back."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.dividing.heads import Head
from solver.helices.cutter_ranges import CutterRange, cutter_for
from solver.helices.helix import GREATEST_ANGLE, LEAST_ANGLE, gear_diameter, lead_from_angle, lead_of_gear
from solver.helices.helix_trains import (
    HelixQuestion,
    every_placing,
    from_the_screw,
    lead_of_train,
    search_helix,
    shaft_faults,
)
from solver.helices.mill import Drive, Mill, mill_of
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.trains.chain import Idler
from solver.trains.hand import Hand
from solver.trains.mounting import Verdict
from solver.trains.train_search import TrainQuestion, search_trains
from solver.trains.wheels import WheelClass
from solver.trains.written_trains import read_train

MM, IN, DEGREES = Length.of_mm, Length.of_inches, Angle.of_degrees


def mill(*teeth: int) -> Mill:
    return Mill("40:1", Fraction(40), IN("1/4"), tuple((each, 1) for each in teeth))


# 12 to 13, 14 to 16, 17 to 20, 21 to 25, 26 to 34, 35 to 54, 55 to 134, 135 to a rack; No. 8 to No. 1 of a diametral
# pitch set, No. 1 to No. 8 of a module set.
@pytest.mark.from_memory("general knowledge: the set of eight involute gear cutters")
@pytest.mark.parametrize(
    ("number", "fewest", "most"),
    [
        (8, 12, 13), (7, 14, 16), (6, 17, 20), (5, 21, 25), (4, 26, 34), (3, 35, 54), (2, 55, 134), (1, 135, None),
    ],
)  # fmt: skip
def test_each_cutter_of_the_set_serves_its_range_to_the_last_part_of_a_tooth(number, fewest, most):
    wanted = CutterRange(fewest, most, number, 9 - number)
    assert cutter_for(Fraction(fewest)) == wanted
    last = Fraction(10_000) if most is None else Fraction(most) + Fraction(99, 100)
    assert cutter_for(last) == wanted


@pytest.mark.parametrize("angle", [LEAST_ANGLE, GREATEST_ANGLE])
def test_a_tenth_of_a_degree_and_eighty_are_answered(angle):
    assert angle in (DEGREES("0.1"), DEGREES(80))
    assert lead_from_angle(MM(10), angle).mm_per_pi > 0
    assert lead_of_gear(10, MM(1), angle).mm_per_pi > 0
    assert gear_diameter(10, MM(1), angle).mm > 10


@pytest.mark.parametrize("degrees", ["0.0999", "80.001", "-30"])
@pytest.mark.parametrize(
    "ask",
    [
        lambda angle: lead_from_angle(MM(10), angle),
        lambda angle: lead_of_gear(10, MM(1), angle),
        lambda angle: gear_diameter(10, MM(1), angle),
    ],
)
def test_angles_beyond_the_ends_are_not(ask, degrees):
    with pytest.raises(ImpossibleSettingError, match="from 0.1 to 80 degrees"):
        ask(DEGREES(degrees))


def test_a_helix_is_right_handed_from_the_worm_where_nothing_is_said():
    question = HelixQuestion(MM(200))
    assert question == (MM(200), Hand.RIGHT, Drive.WORM, Fraction(1, 200), 2, 4)


def test_a_mill_is_seen_from_the_work_as_a_lathe_without_a_reverse():
    seen = mill(24, 48).seen_from_the_work()
    assert (seen.name, seen.leadscrew_text, seen.leadscrew_lead) == ("40:1", "254 mm", IN(10))
    assert (seen.stud_turns, seen.has_reverse) == (1, False)
    assert seen.wheel_classes == (WheelClass("wheels of the head", MM(1), ((24, 1), (48, 1))),)
    # With the last wheel on the spindle the worm has no part in it.
    assert mill(24).seen_from_the_work(Drive.SPINDLE).leadscrew_lead == IN("1/4")
    assert mill_of(Head("small", Fraction(60), (), wheels=((24, 2),), table_lead=MM(5))) == Mill(
        "small", Fraction(60), MM(5), ((24, 2),)
    )


def test_wheels_on_the_spindle_cut_a_lead_of_the_table_screw_itself():
    train = read_train("24-48")
    assert lead_of_train(train, mill()) == IN(20)
    assert lead_of_train(train, mill(), Drive.SPINDLE) == IN("1/2")
    report = search_helix(HelixQuestion(IN("1/2"), Hand.LEFT, Drive.SPINDLE), mill(24, 40, 48))
    assert str(report.answers[0].train) == "24-48"
    assert report.answers[0].error.is_exact


def test_each_wish_reaches_the_search():
    box = mill(24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)

    def found(**wishes: object) -> list[tuple[int, Fraction]]:
        report = search_helix(HelixQuestion(IN("12.03"), **wishes), box)
        assert report.question == HelixQuestion(IN("12.03"), **wishes)
        return [(len(each.train.pairs), abs(each.error.relative)) for each in report.answers]

    usual = found()
    assert {pairs for pairs, _ in usual} == {1, 2}
    assert max(error for _, error in usual) <= Fraction(1, 200)
    assert max([pairs for pairs, _ in usual].count(each) for each in (1, 2)) == 4
    assert {pairs for pairs, _ in found(most_pairs=1)} == {1}
    assert [pairs for pairs, _ in found(wanted=1)].count(2) == 1
    assert len(found(wanted=6)) > len(usual)
    assert max(error for _, error in found(within=Fraction(1, 2000))) <= Fraction(1, 2000)
    wide = found(within=Fraction(1, 10), most_pairs=1, wanted=9)
    assert max(error for _, error in wide) > Fraction(1, 200)


def test_an_idler_is_named_by_the_mesh_it_goes_into_counted_from_the_screw():
    # For the left hand two pairs take one idler; seen from the work its mesh is counted from the other end.
    box = mill(24, 28, 32, 40, 44, 48)
    report = search_helix(HelixQuestion(IN(12), Hand.LEFT, within=Fraction(1, 50)), box)
    found = [each for each in report.answers if len(each.train.pairs) == 2]
    assert found
    for each in found:
        (idler,) = each.idlers
        assert idler.mesh in (1, 2)
        # Where it is said to go nothing fouls.
        assert each.faults == tuple(shaft_faults(each.train, box, each.idlers)) == ()
    asked = TrainQuestion(IN(12), Hand.LEFT, 2, Fraction(1, 50), 4)
    seen = search_trains(asked, box.seen_from_the_work()).answers
    for from_work, from_screw in zip(seen, report.answers, strict=True):
        pairs = len(from_work.train.pairs)
        assert from_screw.train.pairs[0].driver == from_work.train.pairs[-1].driven
        assert [(3 if pairs == 2 else 2) - idler.mesh for idler in from_work.idlers] == [
            idler.mesh for idler in from_screw.idlers
        ]
        assert from_screw.by == from_work.hand.by
        assert (from_screw.lead, from_screw.error) == (from_work.cut_lead, from_work.error)


def test_what_does_not_go_on_is_set_aside_with_its_fault_and_no_other():
    # 32-24 and 100-48: placed the one way the 100 fouls the screw, and there is no other exact train.
    box = mill(24, 32, 48, 100)
    wanted = lead_of_train(read_train("32-24-100-48"), box)
    report = search_helix(HelixQuestion(wanted, within=Fraction(0)), box)
    assert [str(each.train) for each in report.answers] == ["100-24-32-48"]
    assert report.nearest is None
    assert report.answers[0].goes_on
    for each in report.set_aside:
        assert each.verdict is Verdict.DOES_NOT_FIT
        assert each.faults


def test_the_nearest_stands_in_where_nothing_answers():
    report = search_helix(HelixQuestion(MM(3), Hand.LEFT, within=Fraction(0)), mill(24, 32))
    assert report.answers == ()
    assert report.nearest is not None
    # 32-24 cuts the shorter of the two leads it can: 10 in times 24/32.
    assert (str(report.nearest.train), report.nearest.lead) == ("32-24", IN("7.5"))


def test_placings_that_go_on_stand_first():
    judged = every_placing(read_train("32-24-100-48"), mill(24, 32, 48, 100))
    assert [goes_on for _, goes_on in judged] == [True, False, False, False]
    assert all(each.idlers == () for each, _ in judged)
    trains = [str(each.train) for each, _ in judged]
    assert trains[1:] == sorted(trains[1:], key=lambda text: [int(part) for part in text.split("-")])


def test_an_idler_is_needed_for_the_other_hand_and_is_told():
    box = mill(24, 40, 48)
    question = TrainQuestion(IN(20), most_pairs=1)
    turned = from_the_screw(search_trains(question, box.seen_from_the_work()).answers[0], box)
    assert turned.idlers == (Idler(1, 40),)
    assert turned.faults == ()
    assert turned.verdict is Verdict.FITS
