"""Flats, keyseats, dials, verniers and rotary tables against printed and well-known figures."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gearsets.head_files import find_head
from solver.dials.graduations import Graduation, graduate
from solver.dials.screw_dials import ScrewDial
from solver.dials.verniers import Vernier
from solver.dividing.heads import Head
from solver.dividing.hole_circles import centre_distance
from solver.dividing.shapes import FlatsOnRound, flats_across, largest_in_round
from solver.dividing.slots import Keyway
from solver.dividing.spindle_stops import pin_places
from solver.dividing.table_dial import along_rim, dial_table
from solver.dividing.two_cranks import two_crank_settings
from solver.quantities.angles import Angle
from solver.quantities.exact_numbers import decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.quantities.written_angles import read_angle
from solver.quantities.written_lengths import read_length
from solver.quantities.written_pitches import read_pitch
from solver.refusals import ImpossibleSettingError
from tests.published.source_cases import TAKEN_UP, of_kind, read_cases

PARTS = read_cases("indexing_parts.toml")
PLAIN = read_cases("indexing_plain.toml")
WITH = {"across flats": "across_flats_in", "round": "diameter_in", "shaft": "shaft_diameter_in"}
SHAPES = of_kind(PARTS, "shape")


def giving(name: str) -> list[object]:
    return [case for case in SHAPES if WITH[name] in case.values[0]["given"]]


def test_every_case_of_a_part_is_taken_up():
    assert PARTS.keys() <= TAKEN_UP
    assert sum(len(giving(name)) for name in WITH) == len(SHAPES) == 3


@pytest.mark.parametrize("case", giving("across flats"))
def test_across_corners_of_a_hexagon_is_what_the_drawing_book_constructs(case):
    given, wanted = case["given"], case["wanted"]
    corners = flats_across(given["sides"], Length.of_inches(given["across_flats_in"])).corner_circle
    assert corners is not None
    # The book measures its construction to a sixteenth; the exact figure and its error are our own.
    book = Fraction(wanted["book_in"])
    assert Fraction(round(corners.inches * 16), 16) == book
    assert decimal_text(corners.inches, 5) == wanted["across_corners_in"]
    assert decimal_text(book - corners.inches, 5) == wanted["book_error_in"]


@pytest.mark.parametrize("case", giving("round"))
def test_the_largest_square_in_a_round_is_what_every_text_gives(case):
    given, wanted = case["given"], case["wanted"]
    diameter = Length.of_inches(given["diameter_in"])
    cut = FlatsOnRound(largest_in_round(given["sides"], diameter), diameter)
    assert cut.flats.across_flats is not None
    assert decimal_text(cut.flats.across_flats.inches, 6) == wanted["across_flats_in"]
    assert decimal_text(cut.depth.inches, 6) == wanted["depth_of_cut_in"]


@pytest.mark.parametrize("case", giving("shaft"))
def test_a_keyseat_is_fed_its_depth_and_the_height_of_the_arc(case):
    given, wanted = case["given"], case["wanted"]
    width = Length.of_inches(given["key_width_in"])
    keyway = Keyway(Length.of_inches(given["shaft_diameter_in"]), width, width * Fraction(1, 2))
    assert decimal_text(keyway.arc_height.inches, 5) == wanted["height_of_arc_in"]
    assert decimal_text(keyway.depth_at_edge.inches, 5) == wanted["keyseat_depth_in"]
    assert decimal_text(keyway.depth_from_crown.inches, 5) == wanted["total_depth_in"]


@pytest.mark.parametrize("case", of_kind(PARTS, "vernier"))
def test_a_vernier_parts_a_division_as_its_maker_says(case):
    given, wanted = case["given"], case["wanted"]
    vernier = Vernier.of(given["vernier_divisions"])
    assert vernier.spans == given["spans"]
    assert vernier.least_count * Fraction(given["main_division"]) == Fraction(wanted["least_count"])
    # Zero just past 5, line 2 meets a line of the scale.
    assert vernier.reading(5, 2) == Fraction(wanted["reading"])
    assert vernier.meeting_line(Fraction(wanted["reading"]) % 1) == 2


@pytest.mark.parametrize("case", of_kind(PLAIN, "dial"))
def test_a_dial_has_the_marks_the_source_gives_for_its_screw(case):
    for count, worth in case["marks"].items():
        if worth:
            report = graduate(read_pitch(case["screw"]).lead, read_length(worth))
            assert (report.is_exact, report.answers[0].marks) == (True, int(count))


@pytest.mark.from_memory("general knowledge: pocket tables for machinists, across corners for one across flats")
@pytest.mark.parametrize(("flats", "factor"), [(4, "1.41421"), (6, "1.15470"), (8, "1.08239"), (12, "1.03528")])
def test_across_corners_by_the_usual_factors(flats, factor):
    corners = flats_across(flats, Length.of_mm(1)).corner_circle
    assert corners is not None
    assert decimal_text(corners.mm, 5) == factor


# Side of the regular polygon in a circle of diameter one.
@pytest.mark.from_memory("general knowledge: tables of chords for spacing holes")
@pytest.mark.parametrize(
    ("holes", "chord"),
    [(3, "0.866025"), (5, "0.587785"), (7, "0.433884"), (8, "0.382683"), (9, "0.342020"), (12, "0.258819")],
)
def test_chords_for_holes_on_a_circle(holes, chord):
    assert decimal_text(centre_distance(holes, Length.of_mm(1)).mm, 6) == chord


# Width and depth in the shaft, measured from the crown.
@pytest.mark.from_memory("ISO/R 773 and DIN 6885, Parallel keys and their keyways, edition not seen")
@pytest.mark.parametrize(
    ("shaft", "width", "depth", "over"), [(20, 6, "3.5", "16.5"), (25, 8, "4", "21"), (40, 12, "5", "35")]
)
def test_a_metric_keyway_is_measured_from_its_bottom_to_the_far_side(shaft, width, depth, over):
    keyway = Keyway.below_crown(Length.of_mm(shaft), Length.of_mm(width), Length.of_mm(depth))
    assert keyway.depth_from_crown == Length.of_mm(depth)
    assert keyway.over_bottom == Length.of_mm(over)
    assert keyway.depth_at_edge < keyway.depth_from_crown


# A workshop page's question on a table of 4 degrees a turn read to a minute; the figures are our own arithmetic.
@pytest.mark.own_arithmetic("Workshop articles on rotary tables, n.d., 4 degrees a turn")
def test_whole_minutes_added_127_times_leave_a_gap_of_ten_minutes_and_rounding_from_zero_does_not():
    table = dial_table(find_head("table-90"), Fraction(1, 127), 127, read_angle("1 min"))
    radius = Length.of_mm("63.5")
    assert table.gap_if_steps_are_added.arcsec == -600
    assert decimal_text(along_rim(Angle(1 / Fraction(2160)), radius).mm_per_pi * PI_LOW, 2) == "0.18"
    assert decimal_text(along_rim(table.worst, radius).mm_per_pi * PI_LOW, 3) == "0.009"
    assert table.rows[-1].error == Angle(Fraction(0))


# The table said 20 turns + 8 marks for an inch on a screw of 1 mm; it is 25 + 8.
@pytest.mark.own_arithmetic("A published table for inch work on millimetre dials, n.d.")
def test_an_inch_on_a_1_mm_screw_is_25_turns_and_8_marks_of_twenty():
    reading = ScrewDial(Length.of_mm(1), 20).read(Length.of_inches(1))
    assert (reading.turns, reading.marks, reading.error) == (25, 8, Length.of_mm(0))


# The manual: 4000:1 in all, plates of 100 and 54. That large 100 and small 54 reach every
# multiple of six seconds is our own arithmetic on it.
@pytest.mark.own_arithmetic("NAVEDTRA 14345, Machinery Repairman, n.d., wide-range dividing")
@pytest.mark.parametrize("sixes", [1, 2, 53, 54, 55, 100, 999, 5399, 5400, 123_457])
def test_both_cranks_reach_every_multiple_of_six_seconds(sixes):
    head = find_head("head-two-cranks")
    part = Fraction(6 * sixes, 1_296_000)
    settings = two_crank_settings(head, part, most=1000)
    assert settings[0].is_exact
    assert (100, 54) in {(each.large.circle or 100, each.small.circle or 54) for each in settings}


# That the holes and places of the articles give whole degrees only is arithmetic.
@pytest.mark.own_arithmetic("Workshop articles on square work, n.d., 36 holes, ten pin places")
def test_an_indexer_of_36_holes_and_ten_places_gives_whole_degrees_only():
    indexer = find_head("indexer-36")
    for divisions in range(1, 361):
        if 360 % divisions == 0:
            step = 360 // divisions
            places = pin_places(indexer, divisions)
            assert [10 * each.hole + each.place for each in places] == [
                step * number % 360 for number in range(divisions + 1)
            ]
        else:
            with pytest.raises(ImpossibleSettingError):
                pin_places(indexer, divisions)


# They read 0.02 mm exactly.
@pytest.mark.own_arithmetic("Micrometers, a translated text page, n.d., 127 marks on ten threads an inch")
def test_127_marks_convert_a_ten_to_the_inch_screw_to_millimetres():
    assert graduate(Length.of_inches("1/10"), Length.of_mm("0.02")).answers == (
        Graduation(Length.of_inches("1/10"), 127, Length.of_mm("0.02")),
    )


@pytest.mark.from_memory("general knowledge: the usual ratios of rotary tables")
@pytest.mark.parametrize(("ratio", "degrees"), [(36, 10), (40, 9), (60, 6), (72, 5), (90, 4), (120, 3), (180, 2)])
def test_degrees_a_turn_of_the_handle(ratio, degrees):
    table = dial_table(Head("table", Fraction(ratio), ()), Fraction(1, 4), 4, read_angle("1 deg"))
    assert table.per_turn.degrees == degrees
