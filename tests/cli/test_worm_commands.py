"""``worm``, ``instrument`` and ``helix`` as a person sees them: screens, JSON, refusals."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from solver.quantities.pi_multiples import PI_LOW
from tests.cli.running import answer_of, halfnut

WORM = ("worm", "--module", "0.5", "--teeth", "73")
TAP = ("worm", "--tap", "3/8-24", "--teeth", "40")
GEAR = ("helix", "--angle", "20 deg", "--teeth", "30", "--module", "module 2")
SCREENS = (
    WORM,
    TAP,
    ("worm", "--normal-module", "3", "--starts", "2", "--worm-diameter", "44mm", "--teeth", "30"),
    ("worm", "--dp", "24", "--teeth", "36", "--cutter", "1mm", "--hand", "left"),
    ("worm", "--pitch", "10 tpi", "--teeth", "72", "--worm-diameter", "0.6 in"),
    ("worm", "--tap", "20 tpi", "--teeth", "20"),
    ("worm", "--tap", "20 tpi", "--tap-diameter", "1/4 in", "--teeth", "20", "--rod", "4mm", "--offset", "0.5mm"),
    ("instrument", "--pitch", "0.5mm", "--marks", "50", "--teeth", "100", "--leadscrew-error", "-0.02 mm in 150 mm"),
    ("instrument", "--pitch", "module 1", "--marks", "120", "--teeth", "90"),
    ("instrument", "--per-mark", "0.01mm"),
    ("instrument", "--per-turn", "1 in"),
    ("helix", "12 in", "--diameter", "2 in", "--placings"),
    ("helix", "0.261 in", "--drive", "spindle", "--teeth", "8"),
    GEAR,
)


def told(*words: str) -> str:
    """One line of everything a screen says."""
    return " ".join(halfnut(*words).stdout.split())


def test_a_worm_names_its_flank_and_the_depth_of_the_fine_pitch_standard_beside_its_own() -> None:
    screen = told(*WORM)
    assert "form ZA of DIN 3975: straight in the section through the worm's axis" in screen
    # 0.7003 x pi / 2 mm x cos 3.1798 degrees + 0.0508 mm, worked by hand; a depth of 2.25 modules is 1.125 mm.
    assert "AGMA 6022, fine pitch, would have ≈1.149 mm (≈0.0452 in)" in screen
    assert "--clearance 0.298 gives it" in screen
    assert "Depth 1.149" in told(*WORM, "--clearance", "0.298").replace("≈", "")
    swung = told("worm", "--normal-module", "3", "--starts", "2", "--worm-diameter", "44mm", "--teeth", "30")
    assert "form ZN of DIN 3975: straight in the section square to the thread" in swung
    assert "AGMA" not in swung
    answer = answer_of(*WORM)["worm"]
    assert answer["flank_form_din_3975"] == "ZA"
    assert answer["whole_depth_agma_6022"]["mm"].startswith("1.1491")
    assert answer["length_about"] == {"mm": "9.4", "in": "0.37"}


def test_what_stands_side_by_side_adds_up_and_a_rule_of_thumb_is_told_roughly() -> None:
    screen = told(*WORM)
    assert "1.0125 mm (≈0.0399 in) from the throat; leaves 0.1125 mm (≈0.0044 in) for the hob, of 1.125 mm" in screen
    assert "Length about 9.4 mm (0.37 in): pitch" in screen
    assert "more than 3.7° on the leading side" in screen
    tap = told(*TAP).replace("≈", "")
    assert "Pitch dia 13.475 mm (0.5305 in) Blank 14.124 mm (0.5561 in)" in tap
    assert "depth of the tap's thread, 0.649 mm (0.0256 in)" in tap
    assert "0.668 mm (0.0263 in) of tooth, 0.325 mm (0.0128 in) of it above the pitch circle" in tap


@pytest.mark.parametrize(
    ("words", "count"),
    [(("--tap", "3/8-24", "--teeth", "7"), "9 teeth"), (("--dp", "20", "--teeth", "12"), "32 teeth")],
)
def test_the_refusal_of_an_undercut_wheel_names_the_option_that_answers_all_the_same(
    words: tuple[str, ...], count: str
) -> None:
    outcome = halfnut("worm", *words)
    assert outcome.returncode == 1
    assert f"{count} are the fewest cut clean" in outcome.stderr
    assert "--undercut answers for the undercut wheel" in outcome.stderr
    assert f"YES: {count} are the fewest" in told("worm", *words, "--undercut")


@pytest.mark.parametrize("words", SCREENS, ids=" ".join)
def test_a_screen_keeps_within_80_columns_and_says_its_cautions(words: tuple[str, ...]) -> None:
    outcome = halfnut(*words)
    assert outcome.returncode == 0, outcome
    assert max(map(len, outcome.stdout.splitlines())) <= 80
    assert "\x1b" not in outcome.stdout
    # Proposals are not a set-up; every other screen defers to handbook and supervision, once.
    is_setup = not {"--per-mark", "--per-turn"} & set(words)
    assert " ".join(outcome.stdout.split()).count("trained supervision come before") == is_setup


@pytest.mark.parametrize("words", [TAP, GEAR], ids=" ".join)
def test_a_narrow_terminal_breaks_no_line_out_of_it(words: tuple[str, ...]) -> None:
    assert max(map(len, halfnut(*words, columns=60).stdout.splitlines())) <= 60


def test_a_module_worm_is_exact_where_it_can_be_and_a_pi_lead_where_it_must() -> None:
    answer = answer_of(*WORM)
    assert answer["asked"]["system"] == "axial module"
    assert answer["sizes_exact"] is True
    assert answer["worm"]["lead"] == {"mm": "1/2", "pi_multiple": True}
    assert answer["worm"]["pitch_diameter"] == {"mm": "9", "in": "45/127"}
    assert answer["wheel"]["pitch_diameter"]["mm"] == "73/2"
    assert answer["wheel"]["centre_distance"]["mm"] == "91/4"
    assert answer["wheel"]["throat_diameter"]["mm"] == "75/2"
    assert answer["worm"]["lead_angle_deg"].startswith("3.1798301198")
    assert answer["wheel"]["fewest_teeth_cut_clean"] == 18
    assert answer["self_locking"]["friction_assumed"] == "1/10"
    for each in answer["train"]["answers"]:
        assert each["exact"] is False
        assert abs(Fraction(each["cut_lead_mm"]) * 2 / PI_LOW - 1) < Fraction(1, 1000)
    assert answer["gash"]["index_exact"] is True
    assert answer["gash"]["index"][0]["gears"] == [[40, 72]]
    assert answer["gash"]["swing_deg"] == answer["worm"]["lead_angle_deg"]


def test_a_linear_pitch_is_exact_itself_and_puts_pi_into_the_diameters() -> None:
    answer = answer_of("worm", "--pitch", "0.05 in", "--teeth", "40", "--starts", "2")
    assert answer["sizes_exact"] is False
    assert answer["worm"]["lead"] == {"mm": "127/50", "pi_multiple": False}
    assert answer["wheel"]["pitch_diameter"]["in"].startswith("0.63661977236")
    assert answer["train"]["answers"][0]["exact"] is True


def test_a_wheel_hobbed_with_a_tap_in_json() -> None:
    answer = answer_of(*TAP, "--rod", "6mm", "--cutter", "0.2mm")
    assert answer["asked"]["tap"] == "3/8-24 UNF"
    assert answer["asked"]["pitch_mm"] == "127/120"
    assert [each["likely_count"] for each in answer["ungashed"]] == [40, 42, 42]
    assert answer["height_below_rod"]["mm"] == "3"
    assert Fraction(answer["gap_to_rod"]["mm"]) > 1
    assert answer["gash"]["index"][0]["moves"] == [{"sign": 1, "turns": 1, "spaces": 0, "circle": None}]
    assert "5/16-24 UNF" in {each["tap"] for each in answer["other_taps"]}
    assert answer["train"]["answers"][0]["exact"] is True


def test_the_screen_of_a_tap_does_not_promise_a_count() -> None:
    shown = " ".join(halfnut(*TAP).stdout.split())
    for words in ("does not promise a tooth count", "GASH FIRST", "settle the count", "snatch", "goggles"):
        assert words in shown


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("--teeth", "40"), 2, "Give the size of the teeth once"),
        (("--module", "1", "--dp", "24", "--teeth", "40"), 2, "Give the size of the teeth once"),
        (("--module", "1,5", "--teeth", "40"), 2, "Write a point: 1.5"),
        (("--module", "-1", "--teeth", "40"), 2, "not negative"),
        (("--module", "0", "--teeth", "40"), 2, "above zero"),
        (("--module", "1 mm or so", "--teeth", "40"), 2, "more than one figure"),
        (("--module", "900", "--teeth", "40"), 2, "modules of 0.02 to 50 mm"),
        (("--pitch", "0.1", "--teeth", "40"), 2, "0.1mm, 0.1in or 0.1tpi"),
        (("--pitch", "2mm 2 starts", "--teeth", "40"), 2, "--starts"),
        (("--module", "1", "--teeth", "0"), 2, "--teeth"),
        (("--module", "1", "--teeth", "40", "--rod", "6mm"), 2, "--rod goes with --tap"),
        (("--module", "1", "--teeth", "40", "--clearance", "2"), 2, "below 1"),
        (("--module", "1", "--teeth", "40", "--worm-diameter", "0mm"), 2, "above zero"),
        (("--module", "1", "--teeth", "40", "--worm-diameter", "2mm"), 1, "no core left"),
        (("--module", "1", "--teeth", "40", "--pressure-angle", "0 deg"), 1, "no worm's"),
        (("--module", "1", "--teeth", "12"), 1, "18 teeth are the fewest cut clean"),
        (("--module", "1", "--teeth", "3"), 1, "3 teeth is not answered"),
        (("--module", "1", "--teeth", "40", "--centre-distance", "90mm"), 1, "shift"),
        (("--normal-module", "3", "--teeth", "40", "--worm-diameter", "3mm"), 1, "does not go round"),
        (("--tap", "M99", "--teeth", "40"), 2, "Near it are"),
        (("--tap", "1/4 NPT", "--teeth", "40"), 2, "is tapered"),
        (("--tap", "module 1", "--teeth", "40"), 2, "no tap's pitch"),
        (("--tap", "Tr 16x4, 2 starts", "--teeth", "40"), 2, "one start"),
        (("--tap", "M6", "--teeth", "40", "--starts", "2"), 2, "--starts"),
        (("--tap", "M6", "--teeth", "40", "--centre-distance", "20mm"), 2, "--centre-distance"),
        (("--tap", "M6", "--teeth", "40", "--offset", "1mm"), 2, "--rod"),
        (("--tap", "M6", "--teeth", "40", "--rod", "50mm"), 1, "at most"),
        (("--tap", "20 tpi", "--teeth", "20", "--tap-diameter", "1mm"), 1, "too coarse"),
        (("--tap", "M6", "--teeth", "8"), 1, "9 teeth are the fewest"),
    ],
    ids=lambda each: " ".join(each) if isinstance(each, tuple) else None,
)
def test_what_worm_cannot_answer_is_refused_with_what_would_help(words: Any, status: int, said: str) -> None:
    outcome = halfnut("worm", *words)
    assert outcome.returncode == status, outcome
    assert said in outcome.stderr
    assert outcome.stdout == ""
    assert "Traceback" not in outcome.stderr


def test_a_head_that_cannot_come_near_the_gashes_does_not_withhold_the_sizes(tmp_path) -> None:
    path = tmp_path / "table.toml"
    path.write_text('name = "Bare table"\nworm_ratio = "90"\n', encoding="utf-8")
    outcome = halfnut("worm", "--module", "0.5", "--teeth", "200", "--head", str(path))
    assert outcome.returncode == 0, outcome
    assert "not on Bare table" in outcome.stdout
    answer = answer_of("worm", "--module", "0.5", "--teeth", "200", "--head", str(path))
    assert (answer["gash"]["index"], answer["gash"]["index_exact"]) == ([], False)


def test_an_undercut_wheel_is_told_when_asked_for_and_says_so() -> None:
    outcome = halfnut("worm", "--module", "1", "--teeth", "12", "--undercut")
    assert outcome.returncode == 0
    assert "YES: 18 teeth are the fewest cut clean" in outcome.stdout
    assert answer_of("worm", "--tap", "M6", "--teeth", "8", "--undercut")["wheel"]["undercut"] is True


def test_a_worm_this_lathe_cannot_cut_leaves_with_1_and_the_sizes_stand() -> None:
    outcome = halfnut(*WORM, "--within", "0.000001 ppm")
    assert outcome.returncode == 1
    assert "NEAREST TRAIN, not an answer" in outcome.stdout
    assert "36.5 mm" in outcome.stdout


def test_readings_of_a_screw_and_wheel_in_json() -> None:
    answer = answer_of(
        "instrument", "--pitch", "0.5mm", "--marks", "50", "--teeth", "100", "--travel", "150mm",
        "--leadscrew-error", "-0.02 mm in 150 mm",
    )  # fmt: skip
    assert answer["per_mark"] == {"mm": "1/100", "pi_multiple": False}
    assert answer["per_tooth"]["mm"] == "1/2"
    assert answer["per_wheel_turn"]["mm"] == "50"
    assert answer["wheel_arcsec_per_mark"] == "1296/5"
    # Train and leadscrew together: the two factors multiply, and the search takes the train that makes up for it.
    first = answer["answers"][0]
    factors = [1 + Fraction(first["nominal_error_ppm"]) / 10**6, 1 - Fraction(2, 15000)]
    assert Fraction(first["error_ppm"]) == (factors[0] * factors[1] - 1) * 10**6
    assert abs(Fraction(first["error_ppm"])) < 20
    assert Fraction(answer["error_over_travel_um"]) == Fraction(first["error_ppm"]) * 150 / 1000
    assert answer_of("instrument", "--pitch", "0.5mm", "--marks", "50")["error_over_travel_um"] == "0"
    assert answer_of("instrument", "--pitch", "10tpi", "--per-mark", "0.02mm")["solved"]["marks"]["number"] == 127
    assert answer_of("instrument", "--pitch", "module 1", "--marks", "90")["per_mark"]["pi_multiple"] is True


def test_pitches_this_lathe_cuts_exactly_are_proposed_first() -> None:
    choices = answer_of("instrument", "--per-mark", "0.01mm", "--lathe", "inch-8")["choices"]
    assert choices[0]["cut_exactly"] is True
    for each in choices:
        assert Fraction(each["pitch_mm"]) == Fraction(each["marks"], 100)
    # Without a 127 this screw is not cut exactly, and none is called so.
    near = answer_of("instrument", "--per-mark", "0.01mm", "--lathe", "inch-8-no127", "--marks", "100")["choices"]
    assert near[0]["cut_exactly"] is False
    assert near[0]["train"]["exact"] is False


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        ((), 2, "--per-mark or --per-turn"),
        (("--pitch", "1mm"), 2, "--marks"),
        (("--pitch", "1mm", "--marks", "50", "--per-mark", "0.02mm"), 2, "leave out --per-mark"),
        (("--pitch", "1mm", "--teeth", "50", "--per-turn", "20mm"), 2, "leave out --per-turn"),
        (("--per-mark", "0.01mm", "--teeth", "50"), 2, "--teeth has no part"),
        (("--per-turn", "25mm", "--marks", "50"), 2, "--marks has no part"),
        (("--per-mark", "0.01mm", "--travel", "5mm"), 2, "--travel has no part"),
        (("--per-mark", "0.01mm", "--warmer", "5 K"), 2, "--warmer has no part"),
        (("--pitch", "1mm", "--marks", "50", "--warmer", "5"), 2, "in kelvin"),
        (("--pitch", "1mm", "--marks", "50", "--warmer", "400 K"), 2, "not used 100 K warmer"),
        (("--per-mark", "0mm"), 2, "above zero"),
        (("--per-mark", "9mm"), 1, "usual pitch"),
        (("--pitch", "1mm", "--marks", "50", "--leadscrew-error", "5 mm"), 2, "the length it adds up over"),
        (("--pitch", "module 1", "--per-mark", "0.01mm"), 2, "whole marks"),
        (("--pitch", "1mm", "--per-mark", "5mm"), 1, "fewer than 2 marks"),
        (("--pitch", "1mm", "--marks", "1"), 2, "--marks"),
    ],
    ids=lambda each: " ".join(each) if isinstance(each, tuple) else None,
)
def test_what_instrument_cannot_answer_is_refused(words: Any, status: int, said: str) -> None:
    outcome = halfnut("instrument", *words)
    assert outcome.returncode == status, outcome
    assert said in outcome.stderr
    assert outcome.stdout == ""
    assert "Traceback" not in outcome.stderr


def test_marks_that_come_only_near_a_reading_leave_with_1() -> None:
    outcome = halfnut("instrument", "--pitch", "10tpi", "--per-mark", "0.01mm")
    assert outcome.returncode == 0
    outcome = halfnut("instrument", "--pitch", "8tpi", "--per-mark", "0.02mm")
    assert outcome.returncode == 1
    assert "159 marks come nearest" in outcome.stdout
    assert "No whole number of marks" in outcome.stderr


def test_helix_json_gives_the_lead_its_pairs_make_with_the_screw_driving() -> None:
    answer = answer_of("helix", "3.6 in", "--diameter", "1 in", "--head", "head-40-three-plates", "--answers", "20")
    assert answer["machine_lead_mm"] == "254"
    trains = [each["pairs"] for each in answer["answers"] if each["exact"]]
    assert [[100, 24], [32, 48]] in trains
    for each in answer["answers"]:
        lead = Fraction(254)
        for driver, driven in each["pairs"]:
            lead *= Fraction(driven, driver)
        assert Fraction(each["cut_lead_mm"]) == lead
        assert each["mounting"]["verdict"] == "fits"
    assert answer["answers"][0]["table_swing_deg"].startswith("41.1100528")


def test_a_helical_gear_gets_its_cutter_by_the_virtual_count_and_its_index_move() -> None:
    answer = answer_of(*GEAR)
    assert answer["gear"]["virtual_teeth"].startswith("36.15")
    assert answer["gear"]["cutter"]["fewest"] == 35
    assert answer["gear"]["cutter"]["dp_number"] == 3
    assert answer["index"][0]["exact"] is True
    assert answer["asked"]["helix_angle_deg"] == "20.0000000000000"


def test_left_hand_takes_another_idler() -> None:
    right, left = (answer_of("helix", "12 in", "--hand", hand)["answers"] for hand in ("right", "left"))
    for each in right:
        assert len(each["idlers"]) == len(each["pairs"]) % 2
    for each in left:
        assert len(each["idlers"]) == 1 - len(each["pairs"]) % 2


def test_the_short_lead_drive_divides_by_the_worm_ratio_and_warns() -> None:
    short = answer_of("helix", "0.3 in", "--drive", "spindle")
    assert short["machine_lead_mm"] == "127/20"
    shown = halfnut("helix", "0.3 in", "--drive", "spindle").stdout
    assert "nothing but the wheels holds the work" in " ".join(shown.split())


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        ((), 2, "Give the LEAD"),
        (("12",), 2, "needs its unit"),
        (("12 in", "--angle", "20deg"), 2, "Give the LEAD"),
        (("--angle", "20deg"), 2, "--diameter"),
        (("--angle", "20deg", "--module", "module 2"), 2, "--teeth"),
        (("12 in", "--module", "module 2", "--teeth", "20"), 2, "--module makes a gear"),
        (("0 in",), 2, "above zero"),
        (("0.1 mm",), 2, "a lead of 0.5 mm to 100 m"),
        (("--angle", "89deg", "--diameter", "1 in"), 1, "0.1 to 80 degrees"),
        (("12 in", "--head", "table-90"), 1, "[wheels]"),
    ],
    ids=lambda each: " ".join(each) if isinstance(each, tuple) else None,
)
def test_what_helix_cannot_answer_is_refused(words: Any, status: int, said: str) -> None:
    outcome = halfnut("helix", *words)
    assert outcome.returncode == status, outcome
    assert said in outcome.stderr
    assert outcome.stdout == ""
    assert "Traceback" not in outcome.stderr


def test_a_lead_out_of_reach_leaves_with_1_and_shows_the_nearest() -> None:
    outcome = halfnut("helix", "900 in")
    assert outcome.returncode == 1
    assert "NEAREST, not an answer" in outcome.stdout
    assert "within 1 %" in outcome.stderr


def test_the_gash_is_told_with_no_more_figures_than_are_set():
    screen = " ".join(halfnut("worm", "--normal-module", "3", "--teeth", "40").stdout.split())
    assert "6.075 mm (≈0.2392 in) from the throat; leaves 0.675 mm (≈0.0265 in) for the hob" in screen
    assert "0.239173" not in screen


HOBBED = ("worm", "--tap", "20 tpi", "--tap-diameter", "1/4 in", "--teeth", "20", "--rod", "4mm")


@pytest.mark.parametrize(
    ("offset", "point"),
    [
        ((), "set there the middle of the wheel's face"),
        (("--offset", "0.5mm"), "set there the point 0.5 mm below the middle of the wheel's face"),
    ],
)
def test_the_height_by_a_gauge_rod_says_what_is_set_there(offset, point):
    assert point in " ".join(halfnut(*HOBBED, *offset).stdout.split())


def test_an_offset_past_the_whole_wheel_is_refused():
    outcome = halfnut(*HOBBED, "--offset", "20mm")
    assert outcome.returncode == 1
    assert "past the whole wheel" in " ".join(outcome.stderr.split())
    assert outcome.stdout == ""


def test_the_pointed_gaps_of_a_tap_are_gashed_with_a_pointed_cutter():
    assert "a V cutter or a fly cutter of the tap's form" in " ".join(halfnut(*HOBBED).stdout.split())
    assert "V cutter" not in halfnut(*WORM).stdout


@pytest.mark.parametrize(
    ("pitch", "echo"), [("0.5 in", "0.5 in"), ("10 tpi", "0.1 in"), ("12.7 mm", "12.7 mm"), ("1/2 in CP", "0.5 in")]
)
def test_a_pitch_is_told_in_the_unit_it_was_asked_in(pitch, echo):
    assert f"circular pitch {echo}," in halfnut("worm", "--pitch", pitch, "--teeth", "40").stdout
