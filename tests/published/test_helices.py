"""Helical milling against the treatise and well-known sets of wheels; sources stand in the data files."""

from __future__ import annotations

from fractions import Fraction

import pytest

from solver.helices.cutter_ranges import cutter_for
from solver.helices.helix import gear_diameter, helix_angle, lead_from_angle, lead_of_gear, virtual_teeth
from solver.helices.helix_trains import (
    HelixQuestion,
    every_placing,
    lead_of_train,
    search_helix,
    shaft_faults,
)
from solver.helices.mill import Drive, Mill
from solver.quantities.angles import Angle
from solver.quantities.circle_figures import tangent
from solver.quantities.exact_numbers import decimal_text
from solver.quantities.lengths import Length
from solver.quantities.written_lengths import read_length
from solver.trains.wheels import Pair, Train
from solver.trains.written_trains import read_train
from tests.published.source_cases import TAKEN_UP, of_kind, read_cases, unmarked

#: The same cases are held against the trains' arithmetic in test_change_gears_mounting.py, where they are counted.
SPIRALS = read_cases("change_gears_mounting.toml")
INDEXING = read_cases("indexing_later.toml")
#: A technical university's teaching module on dividing; the machine lead of ten inches is the treatise's.
TWELVE = (24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)


def a_mill(teeth: list[int] | tuple[int, ...] = TWELVE) -> Mill:
    stock = tuple((each, teeth.count(each)) for each in sorted(set(teeth)))
    return Mill("40:1", Fraction(40), Length.of_inches("1/4"), stock)


def of_wheels(drivers: list[int], driven: list[int]) -> Train:
    return Train(tuple(Pair(first, second) for first, second in zip(drivers, driven, strict=True)))


def sides(train: Train) -> tuple[tuple[int, ...], tuple[int, ...]]:
    drivers, driven = ([*teeth] for teeth in zip(*((pair.driver, pair.driven) for pair in train.pairs), strict=True))
    return tuple(sorted(drivers)), tuple(sorted(driven))


@pytest.mark.parametrize("case", unmarked(of_kind(SPIRALS, "spiral")))
def test_the_table_screw_drives_so_the_lead_is_driven_over_drivers(case):
    assert a_mill().machine_lead() == read_length(case["machine_lead"])
    train = of_wheels(case["drivers"], case["driven"])
    assert lead_of_train(train, a_mill()) == read_length(case["lead"])


@pytest.mark.parametrize("case", unmarked(of_kind(SPIRALS, "spiral_sets")))
def test_the_search_finds_every_set_of_four_the_case_lists(case):
    lead = read_length(case["lead"])
    report = search_helix(HelixQuestion(lead, within=Fraction(0), wanted=1000), a_mill(case["box"]))
    trains = [each for each in (*report.answers, *report.set_aside) if len(each.train.pairs) == 2]
    found = {sides(each.train) for each in trains}
    # Only sets of which some placing goes on are answers; the case lists sets whatever their mounting.
    listed = {(tuple(drivers), tuple(driven)) for drivers, driven in case["sets"]}
    mountable = {
        (drivers, driven)
        for drivers, driven in listed
        if any(goes_on for _, goes_on in every_placing(of_wheels(list(drivers), list(driven)), a_mill()))
    }
    assert found == mountable
    assert all(each.lead == lead and each.error.is_exact for each in trains)


# CG-062. The four placings stand there as gear on screw,
# second gear on stud, first gear on stud, gear on worm; the first alone was found to mesh without interference.
@pytest.mark.published("A Practical Treatise on Milling and Milling Machines, c. 1914-1919, p. 62")
def test_of_the_four_placings_of_the_treatise_the_first_alone_goes_on():
    train = read_train("100-24-32-48")
    assert lead_of_train(train, a_mill()) == read_length("3.6 in")
    assert [str(each.train) for each, goes_on in every_placing(train, a_mill()) if goes_on] == ["100-24-32-48"]
    for other in ("32-24-100-48", "100-48-32-24", "32-48-100-24"):
        assert list(shaft_faults(read_train(other), a_mill()))


def helix_cases(given: str) -> list[object]:
    return [each for each in of_kind(INDEXING, "helix") if given in each.values[0]["given"]]


@pytest.mark.parametrize("case", helix_cases("change_gears"))
def test_wheels_on_the_heads_spindle_cut_a_fortieth_of_the_lead(case):
    given, wanted = case["given"], case["wanted"]
    # The treatise lists worm, first and second on the stud, screw: driven 56 and 44, drivers 40 and 100.
    worm, first, second, screw = given["change_gears"]
    train = of_wheels([screw, first], [second, worm])
    mill = a_mill()
    assert mill.worm_ratio == given["worm_ratio"]
    assert mill.machine_lead() == read_length(given["table_lead_base"])
    assert lead_of_train(train, mill).inches == Fraction(wanted["lead_in"])
    short = lead_of_train(train, mill, Drive.SPINDLE).inches
    assert short == Fraction(wanted["lead_short_in"]) == Fraction(wanted["lead_short_exact"])


@pytest.mark.parametrize("case", helix_cases("target"))
def test_a_short_lead_out_of_the_table_of_long_ones_is_bettered_by_the_search(case):
    target, wanted = case["given"]["target"], case["wanted"]
    lead = Fraction(target["lead_in"])
    printed = Fraction(target["table_lead"]) / case["given"]["worm_ratio"]
    assert decimal_text(printed, 6) == wanted["lead_in"]
    assert printed - lead == Fraction(wanted["error_in"])
    question = HelixQuestion(Length.of_inches(lead), drive=Drive.SPINDLE, within=Fraction(1, 100), wanted=20)
    found = search_helix(question, a_mill()).answers
    # 10.467 is of a table for more wheels; (28 x 86) / (32 x 72) of the twelve makes 10.451, which is nearer 10.44.
    assert min(abs(each.lead.inches - lead) for each in found) < Fraction(wanted["error_in"])
    assert Fraction(28 * 86, 32 * 72) / 4 in {each.lead.inches for each in found}


@pytest.mark.practice("common practice, no source: 40:1 with 5 mm is 200 mm, with 4 threads per inch ten inches")
@pytest.mark.parametrize(("screw", "lead"), [("5 mm", "200 mm"), ("1/4 in", "10 in")])
def test_equal_wheels_cut_the_lead_of_the_machine(screw, lead):
    assert Mill("40:1", Fraction(40), read_length(screw), ()).machine_lead() == read_length(lead)


@pytest.mark.own_arithmetic("General-purpose gear library, run once, 2025, 30 teeth, module 2, 15 degrees")
def test_a_helical_gear_has_the_pitch_diameter_a_gear_library_gives():
    angle = Angle.of_degrees(15)
    diameter = gear_diameter(30, Length.of_mm(2), angle)
    assert abs(diameter.mm - Fraction("62.116570824604985")) < Fraction(1, 10**13)
    # The lead from the teeth and the lead from that diameter are one.
    by_teeth, by_diameter = lead_of_gear(30, Length.of_mm(2), angle), lead_from_angle(diameter, angle)
    assert abs(by_teeth.mm_per_pi - by_diameter.mm_per_pi) < Fraction(1, 10**25)
    assert abs((helix_angle(diameter, by_teeth) - angle).arcsec) < Fraction(1, 10**20)
    assert abs(tangent(helix_angle(diameter, by_diameter)) - tangent(angle)) < Fraction(1, 10**25)


# Every maker's list has them too. A plan that asks for No. 1 to
# cut 12 teeth of a DP gear means No. 8; a module set numbers the other way.
@pytest.mark.from_memory("Machinery's Handbook, edition not seen, the eight involute cutters")
@pytest.mark.parametrize(
    ("teeth", "dp_number", "module_number"),
    [(12, 8, 1), (13, 8, 1), (14, 7, 2), (17, 6, 3), (21, 5, 4), (26, 4, 5), (35, 3, 6), (54, 3, 6), (55, 2, 7),
     (134, 2, 7), (135, 1, 8), (400, 1, 8)],
)  # fmt: skip
def test_a_cutter_serves_the_range_of_the_trades_table(teeth, dp_number, module_number):
    cutter = cutter_for(Fraction(teeth))
    assert (cutter.dp_number, cutter.module_number) == (dp_number, module_number)
    assert cutter.fewest <= teeth
    assert cutter.most is None or teeth <= cutter.most


# At 45 degrees the count is multiplied by the root of eight.
@pytest.mark.from_memory("general knowledge: virtual teeth, z / cos^3")
def test_at_45_degrees_the_virtual_count_is_root_eight_times_the_teeth():
    assert decimal_text(virtual_teeth(20, Fraction(1)), 3) == "56.569"


def test_the_helix_cases_of_the_indexing_file_are_taken_up():
    numbers = {number for number, case in INDEXING.items() if case.kind == "helix"}
    assert len(numbers) == 2
    assert numbers <= TAKEN_UP
