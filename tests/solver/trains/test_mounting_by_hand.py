"""What goes on, worked by hand: placings, sleeves, idlers for hand and reach, and what is said of one train."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PiLength
from solver.trains.banjo_gauge import BanjoGauge
from solver.trains.chain import Idler, chain_of
from solver.trains.half_nut import HalfNutRule, half_nut_rule
from solver.trains.hand import Hand
from solver.trains.idlers import idler_sets, is_worth_trying, most_idlers, wheels_left
from solver.trains.lathe import Banjo, ChasingDial, Lathe
from solver.trains.mounting import Mounter, Verdict, judge, keeps_keyed, keeps_to_pair_places, placings
from solver.trains.train_answer import answer_for
from solver.trains.train_audit import audit_train
from solver.trains.train_order import preference, steepness
from solver.trains.wheels import Pair, Train
from solver.trains.written_trains import read_set_up, read_train
from tests.small_lathes import FREE, a_lathe, box_of, mm

F = Fraction


# Placings and sleeves.


def test_each_class_meshes_with_itself_only_and_a_wheel_owned_twice_makes_no_second_placing():
    mixed = list(placings([(0, 20), (1, 33)], [(0, 40), (1, 44)]))
    assert mixed == [Train((Pair(20, 40, 0), Pair(33, 44, 1))), Train((Pair(33, 44, 1), Pair(20, 40, 0)))]
    assert list(placings([(0, 20)], [(1, 40)])) == []
    with pytest.raises(ValueError, match="argument"):
        list(placings([(0, 20), (0, 30)], [(0, 40)]))
    assert [str(each) for each in placings([(0, 20), (0, 20)], [(0, 40), (0, 60)])] == ["20-40-20-60", "20-60-20-40"]
    keyed = placings([(0, 20), (0, 63), (0, 30)], [(0, 60), (0, 40), (0, 50)], [(60, 63)])
    assert [str(each) for each in keyed] == sorted_as_drivers_then_driven()


def sorted_as_drivers_then_driven() -> list[str]:
    """The eight placings in which 60 and 63 share a stud: by the drivers in order, then by the driven wheels."""
    rows = [
        ((20, 30, 63), (40, 60, 50)), ((20, 30, 63), (50, 60, 40)),
        ((20, 63, 30), (60, 40, 50)), ((20, 63, 30), (60, 50, 40)),
        ((30, 20, 63), (40, 60, 50)), ((30, 20, 63), (50, 60, 40)),
        ((30, 63, 20), (60, 40, 50)), ((30, 63, 20), (60, 50, 40)),
    ]  # fmt: skip
    return ["-".join(f"{a}-{b}" for a, b in zip(above, below, strict=True)) for above, below in rows]


@pytest.mark.parametrize(
    ("train", "keyed", "keeps"),
    [
        (read_train("20-60-63-40"), [(60, 63)], True),
        (read_train("20-60-63-40"), [(63, 60)], False),
        (read_train("20-60-63-40"), [(60, 63), (60, 63)], False),
        (read_train("20-60-63-60-63-40"), [(60, 63), (60, 63)], True),
        (read_train("20-40-63-60"), [(60, 63)], False),
        (read_train("20-60"), [(60, 20)], False),
        (read_train("20-60"), [], True),
        # A sleeve is of the first class of wheels, both of it.
        (Train((Pair(20, 60, 1), Pair(63, 40, 1))), [(60, 63)], False),
        (Train((Pair(20, 60, 0), Pair(63, 40, 1))), [(60, 63)], False),
        (Train((Pair(20, 60, 1), Pair(63, 40, 0))), [(60, 63)], False),
    ],
)
def test_a_sleeve_is_whole_on_a_stud_of_its_own(train, keyed, keeps):
    assert keeps_keyed(train, keyed) is keeps


def test_a_class_made_for_the_second_pair_sits_there_alone():
    lathe = a_lathe(classes=(box_of(20, 40), box_of(20, 40, size="2", only_in_pair=2)))
    first, second = Pair(20, 40, 0), Pair(20, 40, 1)
    assert [
        keeps_to_pair_places(Train(each), lathe) for each in ((first, second), (second, first), (first, first))
    ] == [
        True,
        False,
        True,
    ]


# Studs, idlers and the hand. Without a reverse an odd number of meshes cuts a left-hand thread.


@pytest.mark.practice("common practice, no source")
@pytest.mark.parametrize(
    ("studs", "pairs", "right", "left"),
    [
        (None, 1, True, True),
        (None, 2, True, True),
        (0, 1, False, True),
        (1, 1, True, True),
        (0, 2, False, False),
        (1, 2, True, False),
        (2, 2, True, True),
        (2, 3, False, True),
        (3, 3, True, True),
        (9, 3, True, True),
    ],
)
def test_studs_for_so_many_pairs_and_the_idlers_that_the_hand_asks_for(studs, pairs, right, left):
    lathe = a_lathe(banjo=Banjo(studs), reverse=False)
    assert Mounter(lathe).has_way_for(pairs) is right
    assert Mounter(lathe, Hand.LEFT).has_way_for(pairs) is left
    assert Mounter(a_lathe(reverse=False)).has_way_for(pairs)
    # A left-hand leadscrew turns both round.
    turned = replace(lathe, has_left_hand_screw=True)
    assert (Mounter(turned, Hand.LEFT).has_way_for(pairs), Mounter(turned, Hand.RIGHT).has_way_for(pairs)) == (
        right,
        left,
    )
    assert Mounter(replace(lathe, has_reverse=True)).has_way_for(pairs) is (studs is None or studs >= pairs - 1)


def test_idlers_that_the_studs_leave_room_for():
    train = read_train("20-40-30-60")
    rooms = [most_idlers(train, a_lathe(banjo=Banjo(studs))) for studs in (0, 1, 2, 3, 4)]
    assert rooms == [0, 0, 1, 2, 2]
    assert (most_idlers(train, a_lathe()), most_idlers(train, a_lathe(banjo=Banjo()))) == (2, 2)


def test_which_idlers_are_worth_trying():
    plain = a_lathe(reverse=False)
    tried = {
        (pairs, count, reach): is_worth_trying(pairs + count, count, plain, Hand.RIGHT, for_reach=reach)
        for pairs in (1, 2)
        for count in (0, 1, 2)
        for reach in (False, True)
    }
    # One pair needs an odd number of idlers, two pairs an even one; two idlers are worth it for reach alone.
    assert {key for key, worth in tried.items() if worth} == {
        (1, 1, False),
        (1, 1, True),
        (2, 0, False),
        (2, 0, True),
        (2, 2, True),
    }
    # With a reverse the hand asks for none.
    with_reverse = [is_worth_trying(2 + n, n, a_lathe(), Hand.LEFT, for_reach=False) for n in (0, 1, 2)]
    assert with_reverse == [True, False, False]


def test_wheels_left_in_the_box_the_large_ones_first():
    lathe = a_lathe(classes=(box_of(20, 20, 40, 65), box_of(20, 40, size="2")))
    train = Train((Pair(20, 40), Pair(20, 40, 1)))
    assert wheels_left(train, lathe, 0) == ((65, 1), (20, 1))
    assert wheels_left(train, lathe, 1) == ()
    assert wheels_left(read_train("65-20-20-30"), lathe, 0) == ((40, 1),)


def test_idlers_are_put_in_from_the_leadscrew_side_the_large_ones_first():
    lathe = a_lathe(20, 20, 30, 40, 60, 65, 65)
    train = read_train("20-40-30-60")
    assert list(idler_sets(train, lathe, 0)) == [()]
    assert list(idler_sets(train, lathe, 1)) == [(Idler(2, 65),), (Idler(2, 20),), (Idler(1, 65),), (Idler(1, 20),)]
    # Two of 65 T are there, and one of 20 T.
    both = [(65, 65), (65, 20), (20, 65)]
    assert list(idler_sets(train, lathe, 2)) == [
        (Idler(one, first), Idler(other, second)) for one, other in ((2, 2), (1, 2), (1, 1)) for first, second in both
    ]


def test_an_idler_is_of_the_class_of_its_mesh():
    lathe = a_lathe(classes=(box_of(20, 40, 50), box_of(20, 40, 60, 70, size="2")))
    train = Train((Pair(20, 40, 1), Pair(20, 40, 0)))
    assert list(idler_sets(train, lathe, 1)) == [(Idler(2, 50),), (Idler(1, 70),), (Idler(1, 60),)]
    assert list(idler_sets(train, lathe, 2)) == [
        (Idler(1, 70), Idler(2, 50)),
        (Idler(1, 60), Idler(2, 50)),
        (Idler(1, 70), Idler(1, 60)),
        (Idler(1, 60), Idler(1, 70)),
    ]


# Choosing.


def test_the_placing_that_needs_no_idler_is_taken_before_one_that_does():
    # 40 over 60 stands at 50 mm as it is; 40 over 80 does not, and would need an idler.
    lathe = a_lathe(30, 40, 60, 80, banjo=Banjo(2, mm(50), stud_nut=mm(1)))
    mounter = Mounter(lathe)
    assert mounter.first_that_fits([read_train("40-80"), read_train("40-60")]) == (read_train("40-60"), ())
    assert mounter.judged == 2
    assert mounter.first_that_fits([]) is None
    assert mounter.judged == 2


def test_every_choice_of_idlers_with_as_few_as_will_do():
    lathe = a_lathe(40, 60, 65, 80, 30, reverse=False, banjo=FREE)
    mounter = Mounter(lathe)
    assert mounter.choices_that_fit(read_train("40-60")) == ((Idler(1, 80),), (Idler(1, 65),), (Idler(1, 30),))
    assert mounter.judged == 3
    assert Mounter(lathe, Hand.LEFT).choices_that_fit(read_train("40-60")) == ((),)
    assert Mounter(replace(lathe, banjo=Banjo(0))).choices_that_fit(read_train("40-60")) == ()
    guarded = replace(lathe, banjo=replace(FREE, largest_wheel_teeth=70))
    assert Mounter(guarded).choices_that_fit(read_train("40-60")) == ((Idler(1, 65),), (Idler(1, 30),))


def test_three_pairs_that_fold_back_into_two_planes_stand_in_their_own_way():
    train = read_train("40-80-50-60-60-65")
    free = a_lathe(20, banjo=Banjo(2, mm(130), (mm(20), mm(140)), stud_nut=mm(5)))
    folded = a_lathe(20, banjo=Banjo(2, mm(130), (mm(20), mm(140)), stud_nut=mm(5), planes=2))
    assert Mounter(free).first_that_fits([train]) == (train, ())
    assert Mounter(free).choices_that_fit(train) == ((),)
    assert Mounter(folded).first_that_fits([train]) is None
    assert Mounter(folded).choices_that_fit(train) == ()
    assert Mounter(free).judge(train).verdict is Mounter(free).mount(train).verdict is Verdict.FITS
    for refused in (Mounter(folded).judge(train), Mounter(folded).mount(train)):
        assert refused.verdict is Verdict.DOES_NOT_FIT
        assert any("overlap in one plane" in reason for reason in refused.reasons)
    # Folded it has one fault, as the other has at the stud gear's shaft; the first is shown. Free it has none.
    other, deep = read_train("20-48-100-20"), Banjo(stud_nut=mm(5))
    assert Mounter(a_lathe(20, banjo=deep)).nearest_to_fitting([other, train]) == train
    assert Mounter(a_lathe(20, banjo=replace(deep, planes=2))).nearest_to_fitting([other, train]) == other


def test_of_placings_that_do_not_go_on_the_one_with_fewest_faults_is_shown():
    # 15 + 60 is not above 60 + 15, at either shaft of the first; 20 + 48 and 32 + 24 not above 100 + 15 at one.
    two, one, other = read_train("15-60-60-15"), read_train("20-48-100-20"), read_train("32-24-100-48")
    assert [len(judge(each, a_lathe()).reasons) for each in (two, one, other)] == [2, 1, 1]
    mounter = Mounter(a_lathe(24, 32, 48, 100))
    assert mounter.nearest_to_fitting([two, one, other]) == one
    assert mounter.nearest_to_fitting([other, two, one]) == other


def test_a_set_up_too_close_to_call_is_told_before_those_that_do_not_fit():
    # Three sides of 60 mm: the slot stands at 60 degrees, the end of the swing; with 100 T it would be beyond.
    banjo = Banjo(1, mm(60), (mm(30), mm(90)), (Angle.of_degrees(-20), Angle.of_degrees(60)), mm(5))
    mounting = Mounter(a_lathe(30, 30, 90, 100, banjo=banjo)).mount(read_train("30-30"))
    assert (mounting.verdict, mounting.idlers) == (Verdict.TOO_CLOSE, (Idler(1, 90),))
    assert mounting.reasons == ("too close to call: the banjo would have to swing beyond -20° to 60°",)
    gauge = BanjoGauge(a_lathe(banjo=banjo))
    chains = [chain_of(read_train("30-30"), [Idler(1, teeth)]) for teeth in (90, 100)]
    assert [(gauge.is_close_call(each), gauge.fits(each)) for each in chains] == [(True, False), (False, False)]


def test_what_is_not_checked_is_not_said_to_fit():
    slot = Banjo(slot=(mm(30), mm(90)), stud_nut=mm(5))
    assert judge(read_train("40-60"), a_lathe(banjo=slot)).verdict is Verdict.NOT_CHECKED
    assert judge(read_train("40-60"), a_lathe(banjo=replace(slot, slot=None))).verdict is Verdict.FITS
    assert judge(read_train("40-60"), a_lathe()).verdict is Verdict.FITS
    assert judge(read_train("40-60"), a_lathe(banjo=replace(slot, studs=0))).verdict is Verdict.NOT_CHECKED
    assert judge(read_train("40-60-50-70"), a_lathe(banjo=replace(slot, studs=0))).verdict is Verdict.DOES_NOT_FIT
    answer = answer_for(read_train("40-60"), a_lathe(40, 60, banjo=slot), None, mm(2))
    assert answer.fits
    assert answer.mounting.verdict is Verdict.NOT_CHECKED


def test_the_file_tells_the_reach_by_a_centre_distance_or_by_limits():
    kinds = [
        None,
        FREE,
        Banjo(mesh_limits=((mm(10), mm(90)),)),
        Banjo(centre_distance=mm(90)),
        Banjo(slot=(mm(1), mm(9))),
    ]
    assert [BanjoGauge(a_lathe(20, banjo=each)).knows_reach for each in kinds] == [False, False, True, True, False]


# What is said of one train.


def test_a_measured_screw_and_a_lever_are_reckoned_in():
    # 3 mm and one part in a thousand, half of it by the lever, over wheels of two to three: 1.001 mm.
    lathe = a_lathe(40, 60, banjo=FREE, levers=(("A", F(1)), ("B", F(1, 2))), measured=F(1, 1000))
    answer = answer_for(read_train("40-60"), lathe, "B", mm(1))
    assert (answer.ratio, answer.cut_lead) == (F(1, 3), mm("1.001"))
    assert (answer.error.ppm, answer.nominal_error.ppm) == (1000, 0)
    assert answer.error.words == "lead long"
    unmeasured = answer_for(read_train("40-60"), replace(lathe, measured=F(0)), "A", mm("2.5"))
    assert unmeasured.error == unmeasured.nominal_error
    assert unmeasured.error.relative == F(-1, 5)
    assert unmeasured.half_nut == HalfNutRule(mm(6), anywhere=False, threads=2)


def test_the_hand_and_the_idlers_of_one_train():
    lathe = a_lathe(40, 60, 65, banjo=FREE, reverse=False)
    right = answer_for(read_train("40-60"), lathe, None, mm(2))
    assert (right.idlers, right.hand.by) == ((Idler(1, 65),), "2 meshes with 1 idler: right-hand")
    left = answer_for(read_train("40-60"), lathe, None, mm(2), Hand.LEFT)
    assert (left.idlers, left.hand.by) == ((), "1 mesh: left-hand without an idler")
    given = answer_for(read_train("40-60"), lathe, None, mm(2), idlers=[Idler(1, 30), Idler(1, 20)])
    assert (given.idlers, given.hand.hand) == ((Idler(1, 30), Idler(1, 20)), Hand.LEFT)
    assert answer_for(read_train("40-60"), lathe, None, mm(2), idlers=[]).idlers == ()
    mounter = Mounter(lathe, Hand.LEFT)
    assert answer_for(read_train("40-60"), lathe, None, mm(2), Hand.LEFT, mounter=mounter).idlers == ()
    assert mounter.judged == 1


def test_where_the_half_nut_may_close():
    dial = ChasingDial(16, 8)
    inch = Lathe("inch", "", Length.of_inches("1/8"), F(1), True, (), chasing_dial=dial)
    # Once round the dial is 2 in, from line to line 1/4 in; eight threads of the screw to the inch.
    rules = {lead: half_nut_rule(Length.of_inches(lead), inch) for lead in ("1/8", "1/12", "1/2", "2", "3", "2/9")}
    assert rules["1/8"] == HalfNutRule(Length.of_inches("1/8"), True, tuple(range(8)))
    assert rules["1/12"] == HalfNutRule(Length.of_inches("1/4"), False, tuple(range(8)), threads=2)
    assert rules["1/2"] == HalfNutRule(Length.of_inches("1/2"), False, (0, 2, 4, 6), threads=4)
    assert rules["2"] == HalfNutRule(Length.of_inches(2), False, (0,), threads=16)
    assert rules["3"] == HalfNutRule(Length.of_inches(3), False, (), threads=24)
    assert rules["2/9"] == HalfNutRule(Length.of_inches(2), False, (0,), threads=16)
    worn = replace(inch, chasing_dial=None, measured=F(1, 1000))
    assert half_nut_rule(worn.true_leadscrew_lead, worn).anywhere


def test_a_given_train_is_audited():
    lathe = a_lathe(40, 60, 65, banjo=FREE, reverse=False, levers=(("A", F(1)), ("B", F(1, 2))))
    audit = audit_train(read_train("40-60"), lathe, "B")
    # 3 mm, half of it by the lever, over 2/3 and over 3/2.
    assert (audit.answer.cut_lead, audit.inverted_lead) == (mm(1), mm("2.25"))
    assert audit.answer.error.is_exact
    assert (audit.same_direction, audit.hand, audit.not_in_box) == (False, Hand.LEFT, ())
    assert audit.helping_idlers == ()
    idlers = [Idler(1, 65)]
    turned = audit_train(read_train("40-60"), lathe, "A", mm("2.5"), idlers)
    assert turned.answer.error.relative == F(-1, 5)
    assert (turned.same_direction, turned.hand, turned.answer.idlers) == (True, Hand.RIGHT, tuple(idlers))
    assert turned.answer.hand.hand is Hand.RIGHT
    pi = audit_train(read_train("40-60"), lathe, "A", PiLength(F(2, 3)))
    assert not pi.answer.error.is_exact
    both = audit_train(read_train("40-60"), replace(lathe, has_reverse=True), "A", idlers=[Idler(1, 70)])
    assert (both.hand, both.answer.hand.hand) == (None, Hand.RIGHT)
    assert both.not_in_box == ("70 T is not in the box",)


def test_idlers_that_would_help_a_given_train_are_named():
    # 40 and 60 T are 50 mm apart and the axes 120 mm; an idler of 80 T spans them.
    where = Banjo(2, mm(120), (mm(30), mm(100)), stud_nut=mm(10))
    lathe = a_lathe(40, 60, 80, banjo=where)
    audit = audit_train(read_train("40-60"), lathe)
    assert (audit.answer.fits, audit.helping_idlers) == (False, (Idler(1, 80),))
    # As written with an idler, whatever it is, nothing else is looked for.
    assert audit_train(read_train("40-60"), lathe, idlers=[Idler(1, 20)]).helping_idlers == ()
    assert audit_train(read_train("40-60"), a_lathe(40, 60, banjo=where)).helping_idlers == ()
    plain = replace(lathe, has_reverse=False)
    assert audit_train(read_train("40-60"), plain).helping_idlers == ()


# The order among trains of one error: fewest changes, mildest step, largest small wheel, largest drivers, the teeth.


def test_trains_of_one_error_are_ordered_step_by_step():
    assert steepness(Train(())) == 1
    assert steepness(read_train("20-60-40-20")) == 3
    assert preference(read_train("20-60-40-30")) == (0, F(3), -20, -60, read_train("20-60-40-30"))
    assert preference(Train(())) == (0, F(1), 0, 0, Train(()))
    # 20 T for 40 T and 60 T for 50 T, and the 30 T and 40 T of the stud come off: six times a wheel is handled.
    mounted = read_train("20-30-40-60")
    assert preference(read_train("40-50"), mounted)[0] == 6
    assert preference(mounted, mounted)[0] == 0


# Chains.


def test_wheels_on_their_axes_and_pairs_in_their_planes():
    train, idlers = read_set_up("50-(65)-40-20-(30)-(35)-127")
    chain = chain_of(train, idlers)
    assert [tuple(each) for each in chain.contacts] == [
        (0, 0, 50, 65), (0, 0, 65, 40), (1, 0, 20, 30), (1, 0, 30, 35), (1, 0, 35, 127),
    ]  # fmt: skip
    assert [[tuple(seat) for seat in chain.seats(axis)] for axis in range(6)] == [
        [(1, 0, 50)], [(1, 0, 65)], [(1, 0, 40), (2, 0, 20)], [(2, 0, 30)], [(2, 0, 35)], [(2, 0, 127)],
    ]  # fmt: skip
    assert chain.studs == 4
    assert [chain.axis_name(axis) for axis in range(6)] == [
        "stud gear",
        "stud 1",
        "stud 2",
        "stud 3",
        "stud 4",
        "leadscrew",
    ]


@pytest.mark.parametrize(
    ("deep", "planes"),
    [(None, (1, 2, 3, 4, 5)), (1, (1, 2, 3, 4, 5)), (2, (1, 2, 1, 2, 1)), (3, (1, 2, 3, 2, 1)), (4, (1, 2, 3, 4, 3))],
)
def test_more_pairs_than_planes_fold_back(deep, planes):
    train = Train(tuple(Pair(20, 40) for _ in range(5)))
    assert chain_of(train, (), deep).planes == planes
