"""The set-ups that a sitting chooses among: on the head with their faces and wheels, on the lathe with their rank."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.dividing.heads import Head, Plate
from solver.dividing.moves import CrankMove, IndexAnswer, Method
from solver.dividing.plate_gearing import PlateGearing
from solver.jobs import lathe_ways as lathe_room
from solver.jobs.head_ways import HeadWays, faces_of, head_ways, wheels_on_head
from solver.jobs.lathe_ways import LatheWays, SetUp, lathe_ways
from solver.jobs.wheel_making import making_of
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.trains.chain import Idler
from solver.trains.changes import Standing
from solver.trains.hand import Hand
from solver.trains.lathe import Banjo, Lathe
from solver.trains.matches import Band, Halves
from solver.trains.mounting import Mounter
from solver.trains.wheels import WheelClass
from solver.trains.written_trains import read_train
from tests.small_sittings import lathe_of

HEAD = Head("40:1", Fraction(40), (Plate("A", ((15, 16), (16, 20))),), (24,))
EXACT = Fraction(0)


def told(answers):
    return [(each.method.value, each.move.circle) for each in answers]


@pytest.mark.parametrize(
    ("count", "most", "settings", "is_whole"),
    [
        (8, 2, [("direct", 24), ("plain", None)], True),
        (8, 1, [("direct", 24)], False),
        # Two turns and a half: on either face's 16, or the 20 of the second.
        (16, 9, [("plain", 20), ("plain", 16), ("plain", 16)], True),
        (16, 2, [("plain", 20), ("plain", 16)], False),
    ],
)
def test_direct_and_plain_settings_are_one_and_others_are_of_the_first_method(count, most, settings, is_whole):
    found = head_ways(HEAD, Fraction(1, count), most=most)
    assert told(found.answers) == settings
    assert found.is_whole is is_whole
    assert found.choice.best == found.answers[0]


def test_only_the_methods_asked_for_are_chosen_among():
    assert told(head_ways(HEAD, Fraction(1, 8), methods=(Method.PLAIN,)).answers) == [("plain", None)]
    none = head_ways(HEAD, Fraction(1, 7), methods=(Method.DIRECT,))
    assert (none.answers, none.is_whole) == ((), True)
    assert none.choice.part == Fraction(1, 7)


def test_one_division_at_a_time_is_asked_for():
    # 40/51 is 2/3 and 2/17 of a turn; several at a time would have other motions.
    head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),))
    found = head_ways(head, Fraction(1, 51))
    assert {each.at_once for each in found.answers} == {1}
    assert found.choice.at_once == 1


def test_the_nearest_alone_counts_unless_others_are_within_the_tolerance():
    nearest = head_ways(HEAD, Fraction(1, 127), methods=(Method.NEAREST,)).choice.methods[0].answers
    errors = [abs(each.error_at_closure.turns) for each in nearest]
    assert errors == sorted(errors)
    assert 0 < errors[0] < errors[-1]

    def within(error):
        return head_ways(HEAD, Fraction(1, 127), methods=(Method.NEAREST,), within=error).answers

    assert within(EXACT) == within(errors[0] / 2) == nearest[:1]
    assert len(within(errors[0])) == errors.count(errors[0])
    assert within(errors[-1]) == nearest


def test_a_setting_is_a_way_on_each_face_that_has_its_circle_and_keeps_its_number():
    found = head_ways(HEAD, Fraction(1, 16))
    assert [(way.rank, way.face, way.error) for way in found.ways(HEAD)] == [(0, ("A", 2), 0), (1, ("A", 1), 0)]
    part = Fraction(1, 100)
    coarse = IndexAnswer(Method.NEAREST, CrankMove(0, 6, 15), "A", part, part - Fraction(1, 10**6), 100)
    (way,) = HeadWays(found.choice, (coarse,), is_whole=True).ways(HEAD)
    assert (way.error, way.rank, way.face, way.wheels) == (Fraction(1, 10_000), 0, ("A", 1), frozenset())


@pytest.mark.parametrize(
    ("method", "plate", "moves", "face", "faces"),
    [
        (Method.PLAIN, "A", [CrankMove(0, 8, 16)], None, [("A", 1), ("A", 2)]),
        (Method.PLAIN, "A", [CrankMove(0, 5, 20)], None, [("A", 2)]),
        (Method.PLAIN, "B", [CrankMove(0, 8, 16)], None, []),
        (Method.PLAIN, None, [CrankMove(5, 0, None)], None, [None]),
        (Method.PLAIN, "A", [CrankMove(5, 0, 16)], None, [None]),
        (Method.DIRECT, "A", [CrankMove(0, 8, 16)], None, [None]),
        (Method.COMPOUND, "A", [CrankMove(0, 8, 16), CrankMove(0, 5, 15)], None, [("A", 1)]),
        (Method.COMPOUND, "A", [CrankMove(0, 8, 16), CrankMove(1, 0, 15)], None, [("A", 1), ("A", 2)]),
        (Method.COMPOUND, "A", [CrankMove(0, 8, 16), CrankMove(1, 0, 15)], 2, [("A", 2)]),
    ],
)
def test_a_setting_is_made_on_the_faces_that_have_all_the_circles_it_counts_on(method, plate, moves, face, faces):
    answer = IndexAnswer(method, moves[0], plate, EXACT, EXACT, 1, *moves[1:], face=face)
    assert list(faces_of(answer, HEAD)) == faces


def test_the_wheels_of_a_geared_setting_stand_at_their_places_and_the_plate_gear_always_at_the_same():
    gearing = PlateGearing(read_train("24-44-48-56"), (32, 28), Fraction(1), Fraction(120))
    answer = IndexAnswer(Method.DIFFERENTIAL, CrankMove(0, 13, 39), "A", EXACT, EXACT, 127, gearing=gearing)
    assert wheels_on_head(answer) == {
        Standing(0, "head, work spindle", 0, 24),
        Standing(10, "head, stud driven", 0, 44),
        Standing(20, "head, stud driver", 0, 48),
        Standing(10**6, "head, plate", 0, 56),
        Standing(5, "head, idler 1", 0, 32),
        Standing(6, "head, idler 2", 0, 28),
    }
    simple = IndexAnswer(Method.DIFFERENTIAL, CrankMove(0, 13, 39), "A", EXACT, EXACT, 127,
                         gearing=gearing._replace(train=read_train("24-56"), idlers=(32,)))  # fmt: skip
    assert wheels_on_head(simple) == {
        Standing(0, "head, work spindle", 0, 24),
        Standing(10**6, "head, plate", 0, 56),
        Standing(5, "head, idler 1", 0, 32),
    }


#: 40-80 and 20-40 make a half of the screw in one pair.
BOX = WheelClass("module 1", Length.of_mm(1), ((20, 1), (40, 1), (60, 1), (80, 1)))
METRIC = Lathe("metric", "3 mm", Length.of_mm(3), Fraction(1), has_reverse=True, wheel_classes=(BOX,))
HALF = Length.of_mm("1.5")


@pytest.mark.parametrize(("most", "trains", "is_whole"), [(2, ["20-40", "40-80"], True), (1, ["20-40"], False)])
def test_as_many_set_ups_as_are_kept_are_all_there_is(most, trains, is_whole):
    found = lathe_ways(METRIC, HALF, within=EXACT, most_pairs=1, most=most)
    assert sorted(str(each.train) for each in found.set_ups) == trains
    assert (found.lead, found.hand, found.pairs, found.is_whole) == (HALF, Hand.RIGHT, 1, is_whole)


@pytest.mark.parametrize(
    ("lead", "told", "pairs", "trains"),
    [
        # Two pairs are looked at though one serves: 60-80-20-40 and the like are 3/8, and 60-40-20-80 is.
        (Fraction(3, 8), {}, 2, 2), (Fraction(1, 2), {"most_pairs": 1}, 1, 2),
        (Fraction(1, 2), {"most_pairs": 3}, 3, 2),
        # Nothing of this box is a seventh: three pairs were tried.
        (Fraction(1, 7), {}, 3, 0), (Fraction(1, 7), {"most_pairs": 1}, 3, 0),
        # Only two pairs make three eighths.
        (Fraction(3, 8), {"most_pairs": 1}, 2, 2),
    ],
)  # fmt: skip
def test_a_pair_more_is_looked_at_only_where_fewer_do_not_serve(lead, told, pairs, trains):
    found = lathe_ways(METRIC, Length.of_mm(3) * lead, within=EXACT, **told)
    assert found.pairs == pairs
    assert len({each.train for each in found.set_ups}) >= trains
    assert bool(found.set_ups) is bool(trains)
    assert found.is_whole


def test_set_ups_come_by_error_then_pairs_idlers_and_mildness():
    found = lathe_ways(METRIC, HALF, within=Fraction(1, 10))
    ranks = [(abs(each.error), len(each.train.pairs), len(each.idlers)) for each in found.set_ups]
    assert ranks == sorted(ranks)
    assert (str(found.set_ups[0].train), str(found.set_ups[1].train)) == ("40-80", "20-40")


def test_the_tolerance_itself_is_near_enough():
    # 40 over 60 is a ninth short of 3/4.
    lead = Length.of_mm(3) * Fraction(3, 4)
    exact = lathe_ways(METRIC, lead, within=EXACT, most_pairs=1)
    assert [str(each.train) for each in exact.set_ups] == ["60-80"]
    ninth = lathe_ways(METRIC, lead, within=Fraction(1, 9), most_pairs=1)
    assert [(str(each.train), each.error) for each in ninth.set_ups] == [("60-80", 0), ("40-60", Fraction(-1, 9))]
    assert len(lathe_ways(METRIC, lead, within=Fraction(1, 10), most_pairs=1).set_ups) == 1


@pytest.mark.parametrize(
    ("bands", "trains", "is_whole"),
    [
        # Nothing is asked beyond the band that ends at the tolerance; what an earlier band was to hold counts there.
        ([("1/1000", 0, True), ("1/10", 2, True), None], ["40-60"], True),
        ([("1/1000", 1, True), ("1/10", 2, True), None], ["60-80", "40-60"], True),
        # One that could not be listed in full is the last, and says so.
        ([("1/1000", 1, False)], ["60-80"], False),
        ([("1/1000", 1, True), ("1/10", 2, False)], ["60-80", "40-60"], False),
    ],
)
def test_bands_are_gone_through_to_the_tolerance_and_one_that_is_not_complete_is_told(
    monkeypatch, bands, trains, is_whole
):
    # 60-80 is 3/4, and 40-60 a ninth short of it.
    lead, ninth = Length.of_mm(3) * Fraction(3, 4), Fraction(1, 9)
    every = [match for band in Halves(METRIC, 1).bands(lead, ninth) if band.within <= ninth for match in band.matches]
    near, far = min(every, key=lambda each: abs(each.error)), max(every, key=lambda each: abs(each.error))
    matches = [near._replace(error=Fraction(1, 2000)), far._replace(error=Fraction(1, 10))]

    class Told:
        def __init__(self, lathe, pairs):
            assert (lathe, pairs) == (METRIC, 1)

        def bands(self, wanted, within):
            assert (wanted, within) == (lead, Fraction(1, 10))
            for each in bands:
                if each is None:
                    pytest.fail("a band beyond the tolerance was asked for")
                end, held, is_complete = each
                yield Band(Fraction(end), matches[:held], is_complete)

    monkeypatch.setattr(lathe_room, "Halves", Told)
    found = lathe_ways(METRIC, lead, within=Fraction(1, 10), most_pairs=1)
    assert [str(each.train) for each in found.set_ups] == trains
    assert found.is_whole is is_whole


def test_one_number_of_pairs_cut_short_makes_the_whole_so(monkeypatch):
    monkeypatch.setattr(lathe_room, "_of_pairs", lambda *words: ([], words[2] != 1))
    assert not lathe_ways(METRIC, HALF, within=EXACT).is_whole


def test_a_box_too_rich_is_not_looked_through_to_the_end(monkeypatch):
    monkeypatch.setattr(lathe_room, "MOST_JUDGED", 0)
    found = lathe_ways(METRIC, HALF, within=EXACT, most_pairs=1)
    assert (len(found.set_ups), found.is_whole) == (1, False)


def test_the_hand_asked_for_decides_on_the_idlers():
    # Without a reverse one pair cuts left-handed.
    lathe = lathe_of(20, 30, 40, reverse=False)
    lead = lathe.lead_at_equal_wheels * Fraction(1, 2)
    right = lathe_ways(lathe, lead, within=EXACT, most_pairs=1)
    left = lathe_ways(lathe, lead, Hand.LEFT, within=EXACT, most_pairs=1)
    assert [(str(each.train), each.idlers) for each in right.set_ups] == [("20-40", (Idler(1, 30),))]
    assert [(str(each.train), each.idlers) for each in left.set_ups] == [("20-40", ())]
    assert left.hand is Hand.LEFT
    assert [each.fits for each in (right.answer(0, lathe), left.answer(0, lathe))] == [True, True]


def test_levers_that_do_the_same_are_told_in_the_order_of_their_names():
    lathe = lathe_of(40, 80, levers=(("B", Fraction(1)), ("A", Fraction(1))))
    lead = lathe.lead_at_equal_wheels * Fraction(1, 2)
    found = lathe_ways(lathe, lead, within=EXACT, most_pairs=1)
    assert [each.lever for each in found.set_ups] == ["A", "B"]


def test_a_set_up_is_told_in_full_with_its_lever_idlers_and_hand():
    lathe = lathe_of(20, 30, 40, levers=(("A", Fraction(1)), ("B", Fraction(1, 2))))
    quarter = lathe.lead_at_equal_wheels * Fraction(1, 4)
    set_up = SetUp(read_train("20-40"), "B", (Idler(1, 30),), Fraction(-1, 1000))
    bare = set_up._replace(idlers=(), error=Fraction(1, 500))
    found = LatheWays(quarter, Hand.RIGHT, (set_up, bare), 1, is_whole=True)
    answer = found.answer(0, lathe)
    assert (answer.lever, answer.idlers, answer.error.is_exact, answer.fits) == ("B", (Idler(1, 30),), True, True)
    assert found.answer(1, lathe).idlers == ()
    assert answer.hand.hand is Hand.RIGHT
    assert found._replace(hand=Hand.LEFT).answer(0, lathe).hand.hand is Hand.LEFT
    # What the mounter given says is what is said: here that of a banjo without a stud for the idler.
    studless = Mounter(lathe_of(20, 30, 40, banjo=Banjo(studs=0)))
    assert not found.answer(0, lathe, studless).fits
    first, second = found.ways()
    assert (first.error, first.rank, len(first.wheels)) == (Fraction(1, 1000), 0, 3)
    assert (second.error, second.rank, len(second.wheels)) == (Fraction(1, 500), 1, 2)


@pytest.mark.parametrize(("degrees", "step"), [("20", "2.95213"), ("14.5", "3.04153")])
def test_a_caliper_over_teeth_grows_by_the_base_pitch(degrees, step):
    # Pi times the cosine of the angle, for a module of 1; worked on a pocket calculator.
    lathe = lathe_of(40)
    told = {each.pressure_angle: each.step for each in making_of(30, lathe, None).base_pitches}
    assert abs(told[Angle.of_degrees(degrees)].mm - Fraction(step)) < Fraction(1, 100_000)
    double = WheelClass("module 2", Length.of_mm(2), ((40, 1),))
    larger = Lathe("large", "3 mm", Length.of_mm(3), Fraction(1), has_reverse=True,
                   wheel_classes=(double, *lathe.wheel_classes))  # fmt: skip
    twice = {each.pressure_angle: each.step for each in making_of(30, larger, None).base_pitches}
    assert twice[Angle.of_degrees(degrees)].mm == 2 * told[Angle.of_degrees(degrees)].mm


def test_undercut_begins_at_18_teeth_for_20_degrees_and_32_for_14_and_a_half():
    told = making_of(30, lathe_of(40), None).base_pitches
    assert [(each.pressure_angle.degrees, each.clean_from) for each in told] == [(20, 18), (Fraction(29, 2), 32)]


def test_a_head_without_a_worm_or_without_a_plate_cannot_be_geared():
    geared = Head("40:1", Fraction(40), (Plate("A", ((39, 49),)),))
    lathe = lathe_of(24, 28, 32, 44, 48, 56)
    assert making_of(127, lathe, geared).with_change_wheels.is_exact
    for head in (
        Head("40:1", Fraction(40), ()),
        Head("holes", Fraction(1), (Plate("A", ((39, 49),)),), has_worm=False),
        Head("40:1", Fraction(40), (Plate("A", ((39, 49),)),), wheels=((24, 1),)),
    ):
        assert making_of(127, lathe, head).with_change_wheels is None
    # What the head divides exactly by itself needs no wheels.
    assert making_of(49, lathe, geared).with_change_wheels is None
    assert making_of(49, lathe, geared).on_head.best.move == CrankMove(0, 40, 49)


def test_a_wheel_is_divided_one_tooth_at_a_time():
    # 40/51 is 2/3 and 2/17 of a turn; several at a time would have other motions.
    head = Head("40:1", Fraction(40), (Plate("A", ((15, 16, 17, 18, 19, 20),)),))
    making = making_of(51, lathe_of(40), head)
    assert {answer.at_once for report in making.on_head.methods for answer in report.answers} == {1}
    assert making.is_divided
    assert making.outside.mm == 53


def test_ways_by_the_stops_of_the_spindle_and_by_wheels_on_it_are_told_together():
    box = WheelClass("module 1", Length.of_mm(1), ((40, 1), (60, 1)))
    plain = Lathe("stops", "3 mm", Length.of_mm(3), Fraction(1), has_reverse=True, wheel_classes=(box,))
    stopped = Lathe("stops", "3 mm", Length.of_mm(3), Fraction(1), has_reverse=True, wheel_classes=(box,),
                    spindle_stops=(60,))  # fmt: skip
    assert {way.on_spindle for way in making_of(20, plain, None).on_lathe} == {40, 60}
    assert {way.on_spindle for way in making_of(20, stopped, None).on_lathe} == {None, 40, 60}
    # The stops alone serve 12, and wheels alone serve 8.
    assert [way.on_spindle for way in making_of(8, stopped, None).on_lathe][:1] == [40]
