"""The banjo: every verdict held against circles in the plane, and the cases that floats cannot decide, by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.trains.chain import Idler
from solver.trains.hand import Hand
from solver.trains.lathe import Banjo, Lathe
from solver.trains.mounting import Mounter, Verdict, judge, placings
from solver.trains.train_search import TrainQuestion, search_trains
from solver.trains.wheels import Pair, Train, WheelClass
from solver.trains.written_trains import read_set_up, read_train
from tests.drawn_cases import cases
from tests.slow_banjo import NEAR, axes_of, can_be_mounted, every_idler, goes_on, least_apart, swing_margin
from tests.strategies import TEETH, lathes, leads, whole_banjos


def mm(value: int | str) -> Length:
    return Length.of_mm(value)


def a_lathe(banjo: Banjo | None, *teeth: int, reverse: bool = True, **more: Any) -> Lathe:
    stock = tuple((each, teeth.count(each)) for each in sorted(set(teeth)))
    box = (WheelClass("module 1", mm(1), stock),)
    return Lathe("drawn", "3 mm", mm(3), Fraction(1), reverse, box, banjo=banjo, **more)


@st.composite
def set_ups(draw: st.DrawFn) -> tuple[Train, tuple[Idler, ...], Lathe]:
    """Draw any train with up to two idlers, in the box or not, on a banjo described in full."""
    wheels = st.sampled_from(TEETH)
    pairs = tuple(Pair(draw(wheels), draw(wheels)) for _ in range(draw(st.sampled_from((1, 1, 2, 2, 2, 3)))))
    meshes = sorted(draw(st.lists(st.integers(1, len(pairs)), max_size=2)))
    idlers = tuple(Idler(mesh, draw(wheels)) for mesh in meshes)
    return Train(pairs), idlers, a_lathe(draw(whole_banjos()), 20)


@cases(1500)
@given(set_ups())
def test_a_set_up_goes_on_exactly_when_its_circles_leave_room(drawn):
    train, idlers, lathe = drawn
    slowly = goes_on(train, idlers, lathe)
    assume(slowly is not None)
    mounting = judge(train, lathe, idlers)
    assert (mounting.verdict is Verdict.FITS) is slowly
    assert bool(mounting.reasons) is not slowly
    assert Mounter(lathe).first_that_fits([train]) is None or can_be_mounted(train, lathe) in (True, None)


def rebuilt(train: Train, idlers: tuple[Idler, ...], lathe: Lathe) -> None:
    """Rebuild a set-up that fits from its stud places alone, as circles in the plane, and look at each two of them."""
    layout = judge(train, lathe, idlers).layout
    banjo = lathe.banjo
    assert layout is not None
    assert banjo is not None
    assert banjo.centre_distance is not None
    axes, steps = axes_of(train, idlers, lathe)
    swing = math.radians(float(layout.swing.degrees))
    turned = (0.0, math.radians(float(banjo.second_slot_at.degrees)) if banjo.second_slot_at else 0.0)
    points = [(0.0, float(banjo.centre_distance.mm))]
    for stud in layout.studs:
        at, r = swing + turned[stud.slot - 1], float(stud.from_leadscrew.mm)
        points.append((r * math.sin(at), r * math.cos(at)))
        ends = (banjo.slot, banjo.second_slot)[stud.slot - 1]
        assert ends is None or float(ends[0].mm) - NEAR < r < float(ends[1].mm) + NEAR
    points.append((0.0, 0.0))
    for mine, theirs in zip(points, layout.points, strict=True):
        assert math.dist(mine, (float(theirs[0]), float(theirs[1]))) < NEAR
    assert swing_margin(lathe, swing, 100) > -NEAR
    nut = banjo.stud_nut.mm if banjo.stud_nut else None
    gaps = []
    for one in range(len(axes)):
        for other in range(one + 1, len(axes)):
            apart = math.dist(points[one], points[other])
            mesh = steps[one][0] if other == one + 1 else None
            if other == one + 1:
                assert abs(apart - float(steps[one][1])) < NEAR, "meshing wheels touch at their pitch circles"
            gaps += [apart - float(needed) for needed in least_apart(axes[one], axes[other], mesh, nut)]
    assert min(gaps, default=1) > -NEAR
    assert float(layout.clearance.mm) < min(gaps, default=math.inf) + NEAR


@cases(150)
@given(set_ups())
def test_whatever_fits_can_be_rebuilt_from_its_stud_places(drawn):
    train, idlers, lathe = drawn
    found = Mounter(replace(lathe, wheel_classes=(full_box(),))).first_that_fits([train])
    chosen = idlers if found is None else found[1]
    assume(judge(train, lathe, chosen).verdict is Verdict.FITS)
    assume(len(train.pairs) + len(chosen) > 1)
    rebuilt(train, chosen, lathe)


def full_box() -> WheelClass:
    """Two of every other wheel: as many set-ups find their idlers in it as in a box of all, in a third of the time."""
    return WheelClass("module 1", mm(1), tuple((each, 2) for each in TEETH[::2]))


@cases(60)
@given(lathes(most=6, two_classes=False), whole_banjos(), leads(), st.sampled_from(Hand))
def test_every_answer_of_the_search_on_a_whole_banjo_can_be_rebuilt(lathe, banjo, lead, hand):
    whole = replace(lathe, banjo=banjo)
    report = search_trains(TrainQuestion(lead, hand, most_pairs=2, within=Fraction(1, 3)), whole)
    for answer in report.answers:
        if len(answer.train.pairs) + len(answer.idlers) > 1:
            rebuilt(answer.train, answer.idlers, whole)


@cases(60)
@given(lathes(most=6, two_classes=False), whole_banjos(), st.sampled_from(Hand))
def test_what_is_refused_is_refused_by_every_choice_of_idlers(lathe, banjo, hand):
    whole = replace(lathe, banjo=banjo)
    stock = [teeth for teeth, count in whole.wheel_classes[0].stock for _ in range(count)]
    assume(len(stock) >= 4)
    drivers, driven = [(0, each) for each in stock[:2]], [(0, each) for each in stock[2:4]]
    for train in placings(drivers, driven):
        mounting = Mounter(whole, hand).mount(train)
        slowly = can_be_mounted(train, whole, hand)
        assert slowly in (None, mounting.verdict is Verdict.FITS)
        if mounting.verdict is Verdict.FITS:
            assert mounting.idlers in set(every_idler(train, whole, 2))


# The end of a slot, a rule met to the tooth and three axes in one line are decided exactly.


def test_a_stud_at_the_very_end_of_its_slot_goes_on_and_a_hundredth_beyond_does_not():
    # 60 T on the leadscrew, idler of 80 T: the stud sits at 70 mm.
    for end, fits in (("70", True), ("69.99", False)):
        banjo = Banjo(1, mm(120), (mm(30), mm(end)), stud_nut=mm(10))
        mounting = judge(Train((Pair(40, 60),)), a_lathe(banjo, 40, 60, 80), [Idler(1, 80)])
        assert (mounting.verdict is Verdict.FITS) is fits
    assert mounting.reasons == ("stud 1 would sit 70 mm from the leadscrew; the slot gives 30 to 69.99 mm",)


def test_three_axes_in_one_line_are_the_last_that_reach():
    # 60 mm from the stud gear to the stud and 70 mm on to the leadscrew.
    for centres, fits in (("130", True), ("130.01", False), ("10", False), ("100", True)):
        banjo = Banjo(1, mm(centres), (mm(30), mm(100)), stud_nut=mm("0.1"))
        mounting = judge(Train((Pair(40, 60),)), a_lathe(banjo, 40, 60, 80), [Idler(1, 80)])
        assert (mounting.verdict is Verdict.FITS) is fits, centres
    straight = judge(
        Train((Pair(40, 60),)), a_lathe(Banjo(1, mm(130), stud_nut=mm(1)), 40, 60, 80), [Idler(1, 80)]
    ).layout
    assert straight is not None
    assert straight.swing.turns == 0


def test_a_margin_of_exactly_k_is_not_above_k():
    # 30 + 50 - 60 = 20 and k = 2 + 18: not above. With a nut a thousandth smaller it is.
    train = read_train("30-50-60-70")
    assert judge(train, a_lathe(Banjo(stud_nut=mm(18)), 20)).verdict is Verdict.DOES_NOT_FIT
    assert judge(train, a_lathe(Banjo(stud_nut=mm("17.999")), 20)).verdict is Verdict.FITS


def test_two_wheels_alone_reach_only_at_their_own_distance_and_an_idler_is_found_for_the_rest():
    for centres, idlers in ((50, 0), (120, 1)):
        banjo = Banjo(2, mm(centres), (mm(30), mm(150)), stud_nut=mm(10))
        mounting = Mounter(a_lathe(banjo, 40, 60, 80, 30)).mount(Train((Pair(40, 60),)))
        assert mounting.verdict is Verdict.FITS
        assert len(mounting.idlers) == idlers


def test_too_close_to_call_is_neither_fits_nor_refused():
    # 30 and 30 T beside an idler of 90 T, axes 60 mm apart: again three sides of 60 mm, and here the tips clear.
    def mounted(high: str) -> Verdict:
        swing = (Angle.of_degrees(-20), Angle.of_degrees(Fraction(high)))
        banjo = Banjo(1, mm(60), (mm(30), mm(90)), swing, mm(5))
        return judge(Train((Pair(30, 30),)), a_lathe(banjo, 30, 30, 90), [Idler(1, 90)]).verdict

    assert mounted("60.001") is Verdict.FITS
    assert mounted("60") is Verdict.TOO_CLOSE
    assert mounted("59.999") is Verdict.DOES_NOT_FIT


def test_a_train_too_close_to_call_is_set_aside_by_the_search():
    swing = (Angle.of_degrees(-20), Angle.of_degrees(60))
    banjo = Banjo(1, mm(60), (mm(30), mm(90)), swing, mm(5))
    report = search_trains(TrainQuestion(mm(3), most_pairs=1, within=Fraction(0)), a_lathe(banjo, 30, 30, 90))
    assert report.answers == ()
    assert report.set_aside[0].mounting.verdict is Verdict.TOO_CLOSE
    assert report.set_aside[0].mounting.reasons[0].startswith("too close to call: ")


def test_simple_train_wheels_that_overlap_in_their_plane_are_named():
    # 100 T over 90 T are 97 mm from tip to tip, and the axes only 90 mm apart.
    banjo = Banjo(2, mm(90), (mm(30), mm(200)), stud_nut=mm(5))
    mounting = judge(Train((Pair(100, 90),)), a_lathe(banjo, 100, 90, 60), [Idler(1, 60)])
    assert mounting.reasons == (
        "the 100 T on the stud gear and the 90 T on the leadscrew overlap in one plane: 90 mm apart, 97 mm needed",
    )


def test_with_two_planes_a_third_pair_folds_back_into_the_first():
    train = read_train("40-80-50-60-60-65")
    free = a_lathe(Banjo(3, mm(130), (mm(20), mm(140)), stud_nut=mm(5)), 20)
    folded = a_lathe(Banjo(3, mm(130), (mm(20), mm(140)), stud_nut=mm(5), planes=2), 20)
    assert judge(train, free).verdict is Verdict.FITS
    reasons = judge(train, folded).reasons
    assert any("overlap in one plane" in reason for reason in reasons)
    assert goes_on(train, (), folded) is False
    flat = a_lathe(Banjo(3, planes=1), 20)
    assert "3 pairs turn in 2 planes; the axes are 1 wheel deep" in judge(train, flat).reasons


def test_a_second_slot_takes_what_the_first_cannot():
    train, idlers = read_set_up("50-70-45-(60)-75")
    one = Banjo(2, mm(120), (mm(30), mm(80)), stud_nut=mm(8))
    two = replace(one, second_slot=(mm(40), mm(140)), second_slot_at=Angle.of_degrees(35))
    assert judge(train, a_lathe(one, 20), idlers).verdict is Verdict.DOES_NOT_FIT
    mounting = judge(train, a_lathe(two, 20), idlers)
    assert mounting.verdict is Verdict.FITS
    assert mounting.layout is not None
    assert {stud.slot for stud in mounting.layout.studs} == {1, 2}
    rebuilt(train, idlers, a_lathe(two, 20))


def test_the_guard_the_studs_and_the_simple_limits_are_named():
    train = read_train("40-60-50-127")
    guarded = judge(train, a_lathe(Banjo(1, largest_wheel_teeth=100), 20))
    assert guarded.reasons == ("127 T is larger than the 100 T the guard allows",)
    assert judge(read_train("40-60-50-70-40-65"), a_lathe(Banjo(1), 20)).reasons == (
        "2 studs are needed; the banjo has 1",
    )
    spans = ((mm(40), mm(49)), (mm(43), mm(90)))
    limited = judge(train, a_lathe(Banjo(1, mesh_limits=spans, stud_nut=mm(5)), 20))
    assert limited.reasons == ("mesh 1 needs 50 mm between centres; the banjo allows 40 to 49 mm",)


def test_limits_of_two_meshes_ask_a_simple_train_for_an_idler():
    spans = ((mm(40), mm(75)), (mm(43), mm(90)))
    lathe = a_lathe(Banjo(1, mesh_limits=spans, stud_nut=mm(5)), 20, 40, 60, 30)
    mounting = Mounter(lathe).mount(Train((Pair(20, 40),)))
    assert mounting.verdict is Verdict.FITS
    assert [idler.teeth for idler in mounting.idlers] == [60]
    bare = judge(Train((Pair(20, 40),)), lathe)
    assert bare.reasons == ("1 mesh does not span the banjo, which takes 2: an idler is needed",)


@pytest.mark.practice("common practice, no source")
def test_a_left_hand_leadscrew_turns_the_count_of_meshes_round():
    # A left-hand leadscrew must turn the other way for the same thread.
    right = a_lathe(None, 40, 60, 80, reverse=False)
    left = a_lathe(None, 40, 60, 80, reverse=False, has_left_hand_screw=True)
    assert len(Mounter(right).mount(Train((Pair(40, 60),))).idlers) == 1
    assert len(Mounter(left).mount(Train((Pair(40, 60),))).idlers) == 0
