"""Shapes, slots, keyways, holes, dials and other equipment as a person asks for them."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from tests.cli.running import answer_of, halfnut

SCREENS = [
    ("shape", "square", "--from", "25 mm"),
    ("shape", "hexagon", "--across-flats", "17 mm"),
    ("shape", "flats", "--from", "10 mm", "--across-flats", "8 mm"),
    ("shape", "7", "--from", "1 in", "--screw", "10 tpi", "--marks", "100"),
    ("shape", "square", "--from", "20 mm", "--across-flats", "17 mm"),
    ("slot", "--in", "8 mm", "--width", "1.2 mm", "--depth", "2 mm"),
    ("slot", "6", "--in", "24 mm", "--width", "4 mm", "--depth", "5 mm", "--cutter", "3 mm", "--feeler", "0.05 mm"),
    ("slot", "--in", "1 in", "--width", "3 mm", "--depth", "4 mm", "--offset", "5 mm", "--lengthwise"),
    ("keyway", "2", "--shaft", "1 in", "--width", "1/4 in", "--screw", "2 mm", "--marks", "100"),
    ("holes", "7", "--on", "60 mm", "--screw", "4 mm", "--marks", "80"),
    ("holes", "6", "--on", "3 in", "--start", "30 deg", "--all-positive", "--clockwise"),
    ("dial", "--screw", "8 tpi", "--reads", "0.001 in", "--positions", "--head", "head-40-two-faced"),
    ("dial", "--screw", "8 tpi", "--reads", "0.02 mm", "--vernier", "10", "--diameter", "40 mm", "--spacing", "1 mm"),
    ("counter", "--screw", "8 tpi", "--wheel", "80", "--travel", "12 in"),
    ("divide", "127", "--with", "dial", "--head", "table-90", "--radius", "63.5 mm"),
    ("divide", "127", "--with", "cranks", "--head", "head-two-cranks"),
    ("divide", "8", "--with", "pins", "--head", "indexer-36"),
    ("divide", "12", "--with", "stops", "--lathe", "inch-8-fours"),
    ("divide", "26", "--with", "wheel", "--lathe", "inch-8"),
    ("divide", "3", "--with", "block"),
    ("divide", "7", "--head", "indexer-36", "--positions"),
    ("divide", "28", "--picture"),
    ("head", "show", "indexer-36"),
    ("head", "show", "head-two-cranks"),
]


@pytest.mark.parametrize("words", SCREENS, ids=" ".join)
def test_a_screen_of_a_part_keeps_to_80_columns_and_carries_its_check_and_cautions(words):
    outcome = halfnut(*words)
    assert outcome.returncode in (0, 1), outcome
    lines = outcome.stdout.splitlines()
    assert max(map(len, lines)) <= 80
    assert [line for line in lines if line != line.rstrip()] == []
    assert "\x1b" not in outcome.stdout
    if words[0] != "head":
        assert "Early check" in outcome.stdout
        assert "Cautions" in outcome.stdout
        assert "handbook, local rules" in " ".join(outcome.stdout.split())


@pytest.mark.parametrize("words", SCREENS, ids=" ".join)
def test_a_narrow_screen_keeps_to_its_width(words):
    outcome = halfnut(*words, columns=48)
    assert "Traceback" not in outcome.stderr
    assert max(map(len, outcome.stdout.splitlines())) <= 48


def test_a_square_on_a_shaft_is_told_in_exact_figures_and_on_the_dial():
    words = ("shape", "square", "--from", "16 mm", "--across-flats", "11 mm", "--screw", "2 mm", "--marks", "100")
    answer = answer_of(*words)
    assert (answer["depth_mm"], answer["across_flats_mm"], answer["over_first_flat_mm"]) == ("5/2", "11", "27/2")
    assert answer["depth_on_dial"] == {"sign": 1, "turns": 1, "marks": 25, "error_mm": "0"}
    assert answer["corners_are_sharp"] is True
    assert answer["index"]["answers"][0]["method"] == "direct"
    assert "1 turn + 25 marks" in halfnut(*words).stdout


def test_a_size_with_a_root_in_it_is_given_to_thirty_right_places():
    # Square root of 2, halved; published to far more places than these.
    answer = answer_of("shape", "square", "--from", "1 mm")
    assert answer["across_flats_mm"] == "0.707106781186547524400844362105"
    assert answer["corner_circle_mm"] == "1"


def test_corners_that_stay_round_are_said_to():
    words = ("shape", "square", "--from", "20 mm", "--across-flats", "17 mm")
    assert "its corners stay round" in " ".join(halfnut(*words).stdout.split())
    assert answer_of(*words)["corners_are_sharp"] is False


def test_a_shape_the_head_cannot_divide_leaves_with_1_and_still_gives_its_sizes():
    outcome = halfnut("shape", "383", "--from", "50 mm", "--json")
    assert outcome.returncode == 1
    assert '"depth_mm"' in outcome.stdout
    assert "divide 383 --positions" in outcome.stderr


def test_a_keyway_from_the_crown_and_from_the_edge_differ_by_the_arc():
    edge = answer_of("keyway", "--shaft", "10 mm", "--width", "6 mm", "--depth", "2 mm")
    crown = answer_of("keyway", "--shaft", "10 mm", "--width", "6 mm", "--depth", "3 mm", "--depth-from", "crown")
    assert edge["arc_height_mm"] == "1"
    for key in ("depth_at_edge_mm", "depth_from_crown_mm", "over_bottom_mm", "travel_mm"):
        assert edge[key] == crown[key]


def test_a_feeler_is_counted_into_travel_and_depth():
    words = ("slot", "--in", "20 mm", "--width", "4 mm", "--depth", "5 mm", "--feeler", "0.05 mm")
    answer = answer_of(*words)
    assert answer["travel_beyond_axis_mm"] == ["241/20"]
    assert answer["depth_from_touch_mm"] == "101/20"


@pytest.mark.parametrize(
    ("count", "cutter", "told"),
    [
        (6, "4 mm", "3 settings of the work make all 6 slots, two ends at a time; one pass at each."),
        (6, "3 mm", "3 settings of the work make all 6 slots, two ends at a time; 2 passes at each, 6 in all."),
        (4, "1 mm", "2 settings of the work make all 4 slots, two ends at a time; 4 passes at each, 8 in all."),
        (2, "4 mm", "1 setting of the work makes all 2 slots, two ends at a time; one pass at each."),
        (5, "4 mm", "Stop each cut at the axis: cut right across, an odd count makes 10 notches, not 5."),
    ],
)
def test_slots_across_the_end_say_how_many_settings_and_passes_a_cut_right_across_takes(count, cutter, told):
    words = ("slot", str(count), "--in", "24 mm", "--width", "4 mm", "--depth", "5 mm", "--cutter", cutter)
    assert told in " ".join(halfnut(*words).stdout.split())
    assert "ight across" not in halfnut(*words, "--lengthwise").stdout


@pytest.mark.parametrize(
    ("words", "most"),
    [
        (("slot", "12", "--in", "10 mm", "--width", "4 mm", "--depth", "5 mm"), "At most 7"),
        (("slot", "6", "--in", "10 mm", "--width", "5 mm", "--depth", "5 mm"), "At most 5"),
        (("keyway", "7", "--shaft", "10 mm", "--width", "6 mm"), "At most 2"),
        (("slot", "4", "--in", "20 mm", "--width", "6 mm", "--depth", "7 mm", "--lengthwise"), "At most 3"),
    ],
)
def test_slots_that_run_into_one_another_are_refused_with_the_most_that_go(words, most):
    outcome = halfnut(*words)
    assert (outcome.returncode, outcome.stdout) == (1, "")
    assert "run into one another" in outcome.stderr
    assert most in outcome.stderr


def test_a_size_to_a_corner_the_round_has_no_room_for_is_if_sharp():
    small = halfnut("shape", "5", "--flat-to-corner", "20 mm", "--from", "22 mm").stdout
    assert re.search(r"Flat to corner +20 mm \(≈0.7874 in\) if sharp", small)
    assert "if sharp" not in halfnut("shape", "5", "--flat-to-corner", "20 mm", "--from", "25 mm").stdout


def test_a_dial_is_numbered_in_the_unit_its_marks_come_out_in():
    numbers = {
        words: re.search(r"Numbers +(.*)", halfnut("dial", *words).stdout)[1]
        for words in (("--screw", "10tpi", "--marks", "127"), ("--screw", "10tpi", "--marks", "100"),
                      ("--screw", "10tpi", "--reads", "0.02 mm"), ("--screw", "2 mm", "--marks", "100"))
    }  # fmt: skip
    assert [each.startswith("0, 0.2, 0.4") and " mm" in each for each in numbers.values()] == [True, False, True, True]
    assert " in," in numbers["--screw", "10tpi", "--marks", "100"]


def test_holes_are_rounded_to_marks_from_zero():
    answer = answer_of("holes", "7", "--on", "60 mm", "--screw", "4 mm", "--marks", "80")
    half_mark = Fraction(1, 40)
    for hole in answer["holes"]:
        for axis in ("x", "y"):
            reading = hole[f"{axis}_on_dial"]
            reached = reading["sign"] * (4 * reading["turns"] + Fraction(reading["marks"], 20))
            assert abs(reached - Fraction(hole[f"{axis}_mm"])) <= half_mark
    assert answer["hole_to_hole_mm"].startswith("26.03302")


def test_a_dial_that_does_not_come_out_whole_leaves_with_1_and_names_readings_that_do():
    outcome = halfnut("dial", "--screw", "8 tpi", "--reads", "0.02 mm")
    assert outcome.returncode == 1
    assert "0.025 mm (127 marks)" in outcome.stdout
    answer = answer_of("dial", "--screw", "8 tpi", "--reads", "0.02 mm")
    assert [each["marks"] for each in answer["answers"]] == [159, 158]
    assert answer["exact_marks"] == "635/4"
    assert not any(each["exact"] for each in answer["answers"])


def test_every_mark_of_a_dial_is_listed_with_its_length_and_hole():
    answer = answer_of("dial", "--screw", "8 tpi", "--reads", "0.001 in", "--positions", "--head", "head-40-two-faced")
    rows = answer["rows"]
    assert [row["mark"] for row in rows] == list(range(125))
    assert {row["circle"] for row in rows} == {25}
    assert all(row["turns"] * 25 + row["hole"] == 8 * row["mark"] for row in rows)
    assert [row["length"] for row in rows[:11]] == ["long", *["short"] * 4, "medium", *["short"] * 4, "long"]


def test_a_dial_that_the_spindles_holes_divide_is_listed_on_them():
    rows = answer_of("dial", "--screw", "1 mm", "--marks", "36", "--positions", "--head", "indexer-36")["rows"]
    assert {row["error_arcsec"] for row in rows} == {"0"}
    assert [row["hole"] for row in rows] == list(range(36))


def test_a_vernier_division_is_an_angle_of_the_head():
    found = answer_of("dial", "--screw", "10 tpi", "--reads", "0.001 in", "--vernier", "10")["vernier"]
    assert (found["spans"], found["division_turns"], found["least_count_mm"]) == (9, "9/1000", "127/50000")


def test_marks_and_a_reading_together_tell_how_wrong_the_dial_is():
    answer = answer_of("dial", "--screw", "8 tpi", "--reads", "0.02 mm", "--marks", "160")
    assert answer["answers"] == [
        {
            "marks": 160,
            "per_mark_mm": "127/6400",
            "error_per_mark_mm": "-1/6400",
            "error_per_turn_mm": "-1/40",
            "exact": False,
        }
    ]


def test_a_counter_tells_when_its_readings_come_again():
    answer = answer_of("counter", "--screw", "8 tpi", "--wheel", "80", "--travel", "12 in")
    assert answer["travel_per_wheel_turn_mm"] == "254"
    assert answer["travel"] | {"screw_turns": "96", "wheel_turns": "6/5", "fewest_teeth": 96} == answer["travel"]


def test_a_table_by_its_dial_takes_the_division_of_its_file():
    answer = answer_of("divide", "7", "--with", "dial", "--head", "table-90-dial")
    assert answer["division_arcsec"] == "10"
    assert "says nothing of its dial" in halfnut("divide", "7", "--with", "dial", "--head", "table-90").stderr
    assert halfnut("divide", "8", "--with", "dial", "--head", "table-90-dial").returncode == 0
    walked = answer_of("divide", "--angle", "10 deg", "--moves", "5", "--with", "dial", "--head", "table-90-dial")
    assert [row["turns"] for row in walked["rows"]] == [0, 2, 5, 7, 10, 12]


@pytest.mark.parametrize(
    ("head", "way"), [("indexer-36", "pins"), ("head-two-cranks", "cranks"), ("table-90-dial", "dial")]
)
def test_a_count_the_plates_miss_names_what_else_the_head_has(head, way):
    outcome = halfnut("divide", "40" if way == "pins" else "127", "--head", head)
    assert f"--with {way}" in outcome.stderr


@pytest.mark.parametrize(
    ("words", "status", "named"),
    [
        (("shape", "blob", "--from", "1 in"), 2, "hexagon"),
        (("shape", "1", "--from", "1 in"), 2, "2 to 1000"),
        (("shape", "square"), 2, "--from"),
        (("shape", "square", "--from", "25"), 2, "unit"),
        (("shape", "square", "--from", "0 mm"), 2, "above zero"),
        (("shape", "square", "--from", "1,5 mm"), 2, "1.5"),
        (("shape", "flats", "--across-flats", "1 in"), 2, "--from"),
        (("shape", "flats", "--from", "1 in"), 1, "no corners"),
        (("shape", "5", "--across-flats", "1 in"), 1, "none opposite"),
        (("shape", "6", "--flat-to-corner", "1 in"), 1, "across flats"),
        (("shape", "square", "--from", "1 in", "--across-flats", "2 in"), 1, "25.4 mm"),
        (("shape", "4", "--across-flats", "1 in", "--across-corners", "2 in"), 2, "one size"),
        (("shape", "4", "--from", "1 in", "--screw", "4 mm"), 2, "--marks"),
        (("slot", "--in", "8 mm", "--width", "9 mm", "--depth", "1 mm"), 1, "reaches the side"),
        (("slot", "--in", "8 mm", "--width", "1 mm", "--depth", "1 mm", "--cutter", "2 mm"), 1, "wider than the slot"),
        (("slot", "0", "--in", "8 mm", "--width", "1 mm", "--depth", "1 mm"), 2, "COUNT"),
        (("keyway", "--shaft", "8 mm", "--width", "8 mm"), 1, "as wide as the shaft"),
        (("keyway", "--shaft", "8 mm", "--width", "2 mm", "--depth-from", "crown"), 2, "--depth"),
        (("keyway", "--shaft", "8 mm", "--width", "2 mm", "--head", "head-60"), 2, "COUNT"),
        (("holes", "0", "--on", "1 in"), 2, "COUNT"),
        (("dial", "--screw", "8 tpi"), 2, "--reads"),
        (("dial", "--screw", "module 1", "--marks", "10"), 2, "mm, in or tpi"),
        (("dial", "--screw", "8 tpi", "--reads", "1 in"), 1, "whole turn"),
        (("dial", "--screw", "1 in", "--reads", "0.00001 mm"), 1, "vernier"),
        (("dial", "--screw", "8 tpi", "--marks", "125", "--vernier-kind", "long"), 2, "--vernier N"),
        (("dial", "--screw", "8 tpi", "--marks", "9999", "--positions"), 1, "longer than the 5000"),
        (("dial", "--screw", "8 tpi", "--marks", "10", "--vernier", "20"), 2, "smaller --vernier"),
        (("dial", "--screw", "8 tpi", "--marks", "100", "--long", "10", "--medium", "4"), 1, "do not fall"),
        (("counter", "--screw", "8 tpi", "--wheel", "1"), 2, "--wheel"),
        (("divide", "7", "--with", "stops", "--lathe", "inch-8"), 1, "[spindle_stops]"),
        (("divide", "61", "--with", "wheel", "--lathe", "inch-8"), 1, "61 teeth"),
        (("divide", "7", "--with", "pins"), 1, "pin places"),
        (("divide", "7", "--with", "cranks"), 1, "[small_crank]"),
        (("divide", "5", "--with", "block"), 1, "hex"),
        (("divide", "7", "--with", "dial", "--head", "indexer-36"), 1, "no worm"),
        (("divide", "7", "--with", "dial", "--reads", "7 min"), 1, "whole number of divisions"),
        (("divide", "7", "--with", "dial", "--reads", "0 min"), 2, "above zero"),
        (("divide", "7", "--reads", "1 min"), 2, "--with dial"),
        (("divide", "7", "--lathe", "inch-8"), 2, "--with stops"),
        (("divide", "7", "--with", "block", "--head", "head-60"), 2, "no part"),
        (("divide", "7", "--with", "dial", "--circle", "49"), 2, "index plates"),
        (("divide", "--angle", "7 deg", "--moves", "3", "--with", "cranks"), 2, "--moves"),
        (("divide", "--angle", "2/7 turn", "--with", "stops"), 2, "equal parts"),
        (("divide", "8", "--picture"), 1, "nothing to draw"),
        (("divide", "61", "--draw", "x.svg", "--head", "table-90-dial"), 1, "its marks are told by its dial"),
        (("divide", "28", "--picture", "--circle", "47"), 1, "49, 21"),
        (("divide", "69", "--method", "compound", "--picture", "--circle", "47"), 1, "no setting uses a circle of 47"),
        (("divide", "28", "--force"), 2, "none is named"),
        (("divide", "24", "--head", "indexer-36", "--picture"), 1, "nothing to draw"),
        (("divide", "28", "--picture", "--json"), 2, "--draw"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else None,
)
def test_what_cannot_be_answered_is_refused_in_words_with_its_status(words, status, named):
    outcome = halfnut(*words)
    assert outcome.returncode == status, outcome
    assert named in " ".join(outcome.stderr.split()), outcome.stderr
    assert "Traceback" not in outcome.stderr
    assert outcome.stdout == ""


def test_an_audit_knows_the_holes_of_an_indexer():
    outcome = halfnut("audit", "9 on 36", "--head", "indexer-36", "--json")
    assert '"divisions": "4"' in outcome.stdout
    assert outcome.stderr == ""


def test_new_asks_again_for_a_dial_that_does_not_fill_a_turn(tmp_path):
    path = tmp_path / "table.toml"
    outcome = halfnut("head", "new", str(path), told="Mine\n90\n\n\n\n7 min\n10 sec\n")
    assert outcome.returncode == 0, outcome
    assert "no whole number of such divisions" in outcome.stderr
    assert answer_of("divide", "7", "--with", "dial", "--head", str(path))["division_arcsec"] == "10"


def test_new_describes_an_indexer_without_a_worm(tmp_path):
    path = tmp_path / "indexer.toml"
    outcome = halfnut("head", "new", str(path), told="Mine\nnone\n36\n10\n")
    assert outcome.returncode == 0, outcome
    assert "worm_ratio" not in path.read_text(encoding="utf-8")
    assert answer_of("divide", "8", "--with", "pins", "--head", str(path))["rows"][1] == {
        "mark": 1,
        "hole": 4,
        "place": 5,
    }


@pytest.mark.parametrize(
    ("words", "title"),
    [
        (("69", "--method", "nearest"), "69 divisions, nearest hole, NOT exact"),
        (("127",), "127 divisions, ONLY WITH WHEELS"),
        (("28",), "28 divisions"),
    ],
)
def test_a_drawing_never_shows_a_setting_as_more_than_it_is(tmp_path, words, title) -> None:
    path = tmp_path / "plate.svg"
    assert halfnut("divide", *words, "--draw", str(path)).returncode == 0
    text = path.read_text(encoding="utf-8")
    assert title in text
    assert ("NOT exact" in text, "ONLY WITH" in text) == ("NOT exact" in title, "ONLY WITH" in title)


def test_a_keyway_of_half_the_width_says_that_keys_of_a_standard_have_their_own_depth():
    words = ("keyway", "--shaft", "1 in", "--width", "1/4 in")
    assumed = halfnut(*words)
    assert "keys of a standard have a depth of their own" in " ".join(assumed.stdout.split())
    assert "give that with --depth" in " ".join(assumed.stderr.split())
    given = halfnut(*words, "--depth", "0.15 in")
    assert "keys of a standard" not in given.stdout
    assert "--depth" not in given.stderr


# DIN 6885-1, from memory: a shaft of 25 mm has a key 8 x 7, 4 mm deep in the shaft and 3.3 mm in the hub; one of
# 20 mm has 6 x 6, 3.5 mm deep.
def test_a_keyway_of_a_shaft_alone_is_that_of_the_standard_key():
    outcome = halfnut("keyway", "--shaft", "25 mm")
    told = " ".join(outcome.stdout.split())
    assert "standard 8 x 7 mm (DIN 6885-1, ISO 773), from memory: 4 mm in the shaft, 3.3 mm in the hub" in told
    assert "for shafts over 22 to 30 mm Cutter" in told
    assert "--width and --depth were not given" in " ".join(outcome.stderr.split())
    answer = answer_of("keyway", "--shaft", "25 mm")
    assert (answer["asked"]["width_mm"], answer["depth_from_crown_mm"]) == ("8", "4")
    assert answer["over_bottom_mm"] == "21"
    assert answer["standard_key"]["in_hub_mm"] == "33/10"
    halved = " ".join(halfnut("keyway", "--shaft", "22 mm").stdout.split())
    assert "standard 6 x 6 mm (DIN 6885-1, ISO 773), from memory: 3.5 mm in the shaft, 2.8 mm in the hub" in halved


def test_width_and_depth_of_the_standard_key_can_each_be_overridden():
    by_width = answer_of("keyway", "--shaft", "25 mm", "--width", "6 mm")
    assert (by_width["depth_from_crown_mm"], by_width["standard_key"]["width_mm"]) == ("7/2", "6")
    assert "this shaft is none of them" in halfnut("keyway", "--shaft", "25 mm", "--width", "6 mm").stdout
    by_depth = answer_of("keyway", "--shaft", "25 mm", "--depth", "5 mm", "--depth-from", "crown")
    assert (by_depth["asked"]["width_mm"], by_depth["depth_from_crown_mm"]) == ("8", "5")
    both = halfnut("keyway", "--shaft", "25 mm", "--width", "8 mm", "--depth", "5 mm")
    assert "standard" not in both.stdout.replace("keys of a standard", "")
    assert "not given" not in both.stderr


@pytest.mark.parametrize(
    ("shaft", "said"),
    [("1 in", "An inch shaft has an inch key"), ("6 mm", "for shafts over 6 mm, up to 65 mm"), ("66 mm", "65 mm")],
)
def test_a_shaft_without_a_standard_key_asks_for_the_width(shaft, said):
    outcome = halfnut("keyway", "--shaft", shaft)
    assert outcome.returncode == 2
    assert said in " ".join(outcome.stderr.split())
    assert outcome.stdout == ""
