"""Differential settings against every choice of wheels tried one by one; idlers and the head's own parity."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from solver.dividing.differential import can_gear, differential, wheel_that_helps
from solver.dividing.heads import Head, Plate
from solver.dividing.moves import IndexAnswer
from solver.dividing.plate_gearing import idlers_needed
from tests.drawn_cases import cases
from tests.head_strategies import heads

#: Circle or none, spaces in all, drivers, driven, and whether the plate follows.
Slow = tuple[int | None, int, tuple[int, ...], tuple[int, ...], bool]


def every_choice_of_wheels(head: Head, wanted: Fraction) -> set[Slow]:
    """Lay the wheels on the bench, try every two and every four of them, and look for the move each train calls for."""
    bench = [teeth for teeth, count in head.wheels for _ in range(count)]
    trains = {((a,), (b,)) for a, b in permutations(bench, 2)}
    trains |= {(tuple(sorted((a, c))), tuple(sorted((b, d)))) for a, b, c, d in permutations(bench, 4)}
    circles = sorted({circle for _, circle in head.circles()})
    found = set()
    for drivers, driven in trains:
        size = Fraction(1)
        for teeth in drivers:
            size *= teeth
        for teeth in driven:
            size /= teeth
        for follows in (True, False):
            # Meshes: pairs and idlers; one idler in a simple train makes two, and the file tells what two do.
            fewest = 1 if len(drivers) == 1 else 0
            two_follow = head.one_idler_follows in (None, True)
            idlers = next(
                count for count in (fewest, fewest + 1) if ((len(drivers) + count) % 2 == 0) == (follows == two_follow)
            )
            if idlers > len(bench) - 2 * len(drivers):
                continue
            move = (head.worm_ratio - (size if follows else -size)) * wanted
            if move <= 0:
                continue
            if move.denominator == 1:
                found.add((None, int(move), drivers, driven, follows))
                continue
            found |= {
                (circle, int(move * circle), drivers, driven, follows)
                for circle in circles
                if (move * circle).denominator == 1
            }
    return found


def as_slow(answer: IndexAnswer) -> Slow:
    assert answer.gearing
    pairs = answer.gearing.train.pairs
    move = answer.move
    return (
        move.circle,
        move.turns * (move.circle or 1) + move.spaces,
        tuple(sorted(pair.driver for pair in pairs)),
        tuple(sorted(pair.driven for pair in pairs)),
        answer.gearing.plate_turns > 0,
    )


@given(heads(), st.integers(1, 200), st.sampled_from((1, 1, 1, 2, 3)))
@cases(50)
def test_the_answers_are_those_of_every_choice_of_wheels(head, count, step):
    wanted = Fraction(step, count)
    assume(wanted <= 1)
    answers = differential(head, wanted)
    assert {as_slow(answer) for answer in answers} == every_choice_of_wheels(head, wanted)
    assert can_gear(head, wanted) == bool(answers)


@given(heads(), st.fractions(min_value=Fraction(1, 300), max_value=1, max_denominator=2000))
@cases(50)
def test_a_fractional_angle_is_geared_as_a_count_is(head, part):
    assert {as_slow(answer) for answer in differential(head, part)} == every_choice_of_wheels(head, part)


@given(heads(), st.integers(1, 200))
@cases(50)
def test_no_answer_takes_more_than_the_box_holds_and_idlers_are_of_the_box(head, count):
    stock = Counter(dict(head.wheels))
    for answer in differential(head, Fraction(1, count)):
        assert answer.gearing
        used = Counter(teeth for _, teeth in answer.gearing.train.wheels) + Counter(answer.gearing.idlers)
        assert not used - stock


@given(heads(), st.integers(1, 200))
@cases(50)
def test_answers_are_ranked_as_is_said(head, count):
    keys = []
    for answer in differential(head, Fraction(1, count)):
        assert answer.gearing
        gearing = answer.gearing
        keys.append(
            (len(gearing.train.pairs), abs(gearing.plate_turns), -(answer.move.circle or 0), len(gearing.idlers))
        )
    assert keys == sorted(keys)


@given(heads(), st.integers(20, 200))
@cases(20)
def test_the_wheel_that_helps_does_help(head, count):
    part = Fraction(1, count)
    assume(not differential(head, part))
    wheel = wheel_that_helps(head, part)
    if wheel is None:
        return
    stock = dict(head.wheels)
    stock[wheel.teeth] = stock.get(wheel.teeth, 0) + 1
    larger = replace(head, wheels=tuple(sorted(stock.items())))
    assert wheel.answer in differential(larger, part)


def test_without_a_wheel_that_helps_none_of_them_does():
    # A small box on a small plate, so that every wheel can be tried in turn.
    head = Head("40:1", Fraction(40), (Plate("A", ((15,),)),), wheels=((24, 1), (28, 1), (32, 1)))
    helped = set()
    for count in range(51, 130):
        part = Fraction(1, count)
        if differential(head, part):
            continue
        wheel = wheel_that_helps(head, part)
        serving = [
            teeth
            for teeth in range(20, 128)
            if any(
                abs(answer.gearing.plate_turns) <= 8
                for answer in differential(replace(head, wheels=tuple(sorted([*Counter(
                    [24, 28, 32, teeth]).items()]))), part)
                if answer.gearing
            )
        ]  # fmt: skip
        assert (wheel is not None) == bool(serving), count
        if wheel is not None:
            assert wheel.teeth in serving
            assert wheel.smallest == min(serving)
            helped.add(count)
    assert helped


# The rule of one head, printed as idlers of its rows.
@pytest.mark.published("A Practical Treatise on Milling and Milling Machines, c. 1914-1919, p. 57")
def test_idlers_of_the_treatise():
    assert idlers_needed(1, follows=True, one_idler_follows=True) == 1
    assert idlers_needed(2, follows=False, one_idler_follows=True) == 1


@pytest.mark.parametrize("pairs", [1, 2])
@pytest.mark.parametrize("follows", [True, False])
def test_a_head_with_one_mesh_more_inside_turns_the_count_of_idlers_about(pairs, follows):
    usual = idlers_needed(pairs, follows=follows, one_idler_follows=True)
    other = idlers_needed(pairs, follows=not follows, one_idler_follows=False)
    assert usual == other
    assert usual != idlers_needed(pairs, follows=follows, one_idler_follows=False)


def test_a_setting_without_idlers_enough_in_the_box_is_none():
    plate = (Plate("C", ((39,),)),)
    bare = Head("40:1", Fraction(40), plate, wheels=((24, 1), (44, 1), (56, 1)))
    assert differential(bare, Fraction(1, 127)) == ()
    assert not can_gear(bare, Fraction(1, 127))
    assert differential(replace(bare, one_idler_follows=False), Fraction(1, 127))


@given(heads(), st.integers(1, 200))
@cases(50)
def test_each_wheel_on_the_stud_clears_the_shaft_beside_it(head, count):
    for answer in differential(head, Fraction(1, count)):
        assert answer.gearing
        if len(answer.gearing.train.pairs) == 2:
            first, second = answer.gearing.train.pairs
            assert first.driver + first.driven > second.driver + 15
            assert second.driver + second.driven > first.driven + 15


def test_huge_counts_and_whole_rounds_end_at_once():
    head = Head("40:1", Fraction(40), (Plate("A", ((15, 49),)),), wheels=((24, 2), (100, 1), (86, 1)))
    assert differential(head, Fraction(1, 10**9)) == ()
    assert all(answer.is_exact for answer in differential(head, Fraction(1)))
    assert differential(head, Fraction(1))
