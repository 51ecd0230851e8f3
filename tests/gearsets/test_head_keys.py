"""Keys of a head file beyond worm and plates: no worm at all, the dial, pin places, the small crank."""

from fractions import Fraction

import pytest

from gearsets.head_files import load_head_text
from solver.dividing.heads import SmallCrank
from solver.refusals import RefusalError
from tests.gearsets.shop_texts import HEAD, faults_of, only_fault

PLATES = 'plates = [{ name = "A", faces = [[100]] }]\n'


def test_an_indexer_with_holes_alone_needs_no_worm_ratio():
    head = load_head_text('name = "indexer"\ndirect_circles = [36]\npin_places = 10', "mine.toml")
    assert (head.has_worm, head.worm_ratio, head.direct_circles, head.pin_places) == (False, 1, (36,), 10)


@pytest.mark.parametrize("text", ['name = "nothing"', 'name = "nothing"\ndirect_circles = []'])
def test_a_head_with_neither_worm_nor_holes_lacks_its_worm_ratio(text):
    fault = only_fault(text, load_head_text)
    assert (fault.place, fault.problem) == ("worm_ratio", "is missing")


@pytest.mark.parametrize(
    ("added", "place", "said"),
    [
        ('[dial]\nreads = "7 min"', "dial.reads", "whole number of times into 9 deg"),
        ('[dial]\nreads = "0 min"', "dial.reads", "whole number of times"),
        ('[dial]\nreads = "1"', "dial.reads", "cannot be read"),
        ("[dial]", "dial.reads", "is missing"),
        ("pin_places = 10", "pin_places", "parts the spaces of direct circles"),
        ("direct_circles = [36]\npin_places = 1", "pin_places", "is not from 2 to 100"),
        ('[small_crank]\nratio = "100"\ncircles = [54]', "small_crank", "no plate"),
        (f'{PLATES}[small_crank]\nratio = "100"\ncircles = []', "small_crank.circles", "is empty"),
        (f"{PLATES}[small_crank]\ncircles = [54]", "small_crank.ratio", "is missing"),
    ],
)
def test_what_does_not_go_with_a_worm_is_named(added, place, said):
    fault = only_fault(HEAD + added, load_head_text)
    assert fault.place.split(" ")[0] == place
    assert said in fault.problem


def test_what_belongs_to_a_worm_is_named_where_there_is_none():
    text = f'name = "indexer"\ndirect_circles = [36]\n{PLATES}[dial]\nreads = "1 deg"\n[wheels]\nteeth = {{ 20 = 1 }}'
    faults = faults_of(text, load_head_text)
    assert {fault.place.split(" ")[0] for fault in faults} == {"plates", "dial", "wheels"}
    assert all("no worm_ratio" in fault.problem for fault in faults)


def test_a_dial_and_a_small_crank_are_read():
    text = f'{HEAD}{PLATES}[dial]\nreads = "1 min"\n[small_crank]\nratio = "100"\ncircles = [100, 54]'
    head = load_head_text(text, "mine.toml")
    assert head.dial_reading is not None
    assert head.dial_reading.arcsec == 60
    assert head.small_crank == SmallCrank(Fraction(100), (100, 54))


def test_a_shortened_key_is_told_the_whole_one():
    with pytest.raises(RefusalError, match=r"worm \(line 2\): is not a key known here; perhaps worm_ratio is meant"):
        load_head_text('name = "a"\nworm = "60"', "mine.toml")
