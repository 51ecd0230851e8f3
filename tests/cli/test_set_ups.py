"""``train`` and ``audit`` where the banjo comes in: options, drawings, refusals."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET

import pytest

from tests.cli.running import answer_of, halfnut

WHOLE_BANJO = """
name = "Whole banjo"
[leadscrew]
lead = "8 tpi"
[drive]
stud_turns = "1"
reverse = false
[wheels]
size = "module 1"
teeth = { 20 = 2, 25 = 1, 30 = 1, 40 = 1, 45 = 1, 50 = 1, 60 = 1, 75 = 1, 80 = 1, 90 = 1, 100 = 1, 127 = 1 }
[banjo]
studs = 2
centre_distance = "150 mm"
slot = ["30 mm", "135 mm"]
swing = ["-20 deg", "60 deg"]
stud_nut = "16 mm"
"""
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def lathe(tmp_path) -> str:
    path = tmp_path / "whole.toml"
    path.write_text(WHOLE_BANJO, encoding="utf-8")
    return str(path)


def test_a_whole_banjo_gives_places_an_idler_and_a_hand(lathe) -> None:
    answer = answer_of("train", "1.25mm", "--lathe", lathe)
    first = answer["answers"][0]
    assert first["mounting"]["verdict"] == "fits"
    layout = first["mounting"]["layout"]
    assert len(layout["studs"]) == len(first["pairs"]) - 1 + len(first["idlers"])
    assert -20 < float(layout["swing_deg"]) < 60
    assert (len(first["pairs"]) + len(first["idlers"])) % 2 == 0, "right-hand without a reverse"
    screen = halfnut("train", "1.25mm", "--lathe", lathe).stdout
    assert "towards the headstock" in screen
    assert "from the leadscrew; swing" in screen


def test_what_is_set_aside_says_why(lathe) -> None:
    screen = halfnut("train", "1.25mm", "--lathe", lathe).stdout
    assert "Set aside" in screen
    assert "no stud is" in screen


def test_what_is_mounted_needs_no_quotes_and_the_changes_are_named(lathe) -> None:
    words = ("train", "1.25mm", "--lathe", lathe)
    answer = answer_of(*words, "--mounted", "20/40", "50/127")
    assert answer["asked"]["mounted"] == "20-40-50-127"
    assert answer["answers"][0]["changes"] is not None
    assert answer["least_changed"] is not None
    assert answer["asked"] | answer_of(*words, "--mounted", "20-40-50-127")["asked"] == answer["asked"]
    assert "which is mounted now" in halfnut(*words, "--mounted", "20/40 50/127").stdout


def test_a_lead_is_cut_long_on_purpose(lathe) -> None:
    answer = answer_of("train", "10tpi", "--lathe", lathe, "--allow", "+1500 ppm")
    assert answer["asked"]["lead_mm"] == "127/50"
    assert answer["asked"]["aim"]["lead_mm"] == "254381/100000"
    assert answer_of("train", "10tpi", "--lathe", lathe, "--allow", "1500")["asked"] == answer["asked"]
    assert "longer than the" in halfnut("train", "10tpi", "--lathe", lathe, "--allow", "+1500 ppm").stdout
    short = answer_of("train", "10tpi", "--lathe", lathe, "--allow=-0.0005 in in 1 in")
    assert short["asked"]["aim"]["lead_mm"] == "253873/100000"


def test_a_measured_leadscrew_shows_both_errors(tmp_path) -> None:
    path = tmp_path / "worn.toml"
    path.write_text(WHOLE_BANJO.replace('"8 tpi"', '"8 tpi"\nmeasured = "+0.03 mm in 300 mm"', 1), encoding="utf-8")
    first = answer_of("train", "16tpi", "--lathe", str(path), "--pairs", "1")["answers"][0]
    assert first["pairs"][0][1] == 2 * first["pairs"][0][0]
    assert (first["error_ppm"], first["nominal_error_ppm"], first["exact"]) == ("100", "0", False)
    screen = halfnut("train", "16tpi", "--lathe", str(path)).stdout
    assert "were it true: exact" in screen
    assert "nearly one to one" in screen


def test_the_box_is_left_where_it_is() -> None:
    answer = answer_of("train", "1.5mm", "--lathe", "inch-12-box", "--lever", "A2")
    shown = [*answer["answers"], *([answer["nearest"]] if answer["nearest"] else [])]
    assert {each["gearbox"] for each in shown} == {"A2"}
    wrong = halfnut("train", "1.5mm", "--lathe", "inch-12-box", "--lever", "Z9")
    assert (wrong.returncode, "Positions:" in wrong.stderr) == (2, True)
    assert halfnut("train", "1.5mm", "--lathe", "inch-8", "--lever", "A").returncode == 2


def drawn(path) -> ET.Element:
    return ET.fromstring(path.read_text(encoding="utf-8"))  # noqa: S314


def test_the_drawing_is_to_scale_and_names_every_wheel(lathe, tmp_path) -> None:
    path = tmp_path / "train.svg"
    outcome = halfnut("train", "1.25mm", "--lathe", lathe, "--draw", str(path))
    assert outcome.returncode == 0, outcome
    first = answer_of("train", "1.25mm", "--lathe", lathe)["answers"][0]
    root = drawn(path)
    teeth = [*(each for pair in first["pairs"] for each in pair), *first["idlers"]]
    pitch = [each for each in root.iter(f"{SVG}circle") if each.get("class") == "pitch"]
    assert sorted(float(each.get("r", "0")) * 2 for each in pitch) == sorted(map(float, teeth)), "module 1"
    words = " ".join(each.text or "" for each in root.iter(f"{SVG}text"))
    for each in teeth:
        assert f"{each} T" in words
    centres = {(float(each.get("cx", "0")), -float(each.get("cy", "0"))) for each in pitch}
    for x, y in first["mounting"]["layout"]["points_mm"]:
        assert min(math.dist((float(x), float(y)), centre) for centre in centres) < 0.02
    assert root.find(f"{SVG}title") is not None


def test_a_drawing_never_replaces_a_file_unasked(lathe, tmp_path) -> None:
    path = tmp_path / "train.svg"
    path.write_text("mine", encoding="utf-8")
    refused = halfnut("train", "1.25mm", "--lathe", lathe, "--draw", str(path))
    assert refused.returncode == 2
    assert "--force" in refused.stderr
    assert path.read_text(encoding="utf-8") == "mine"
    assert halfnut("train", "1.25mm", "--lathe", lathe, "--draw", str(path), "--force").returncode == 0
    assert path.read_text(encoding="utf-8").startswith("<svg")
    assert halfnut("train", "1.25mm", "--draw", str(tmp_path)).returncode == 2
    assert sorted(each.name for each in tmp_path.iterdir()) == ["train.svg", "whole.toml"]


def test_a_refused_train_is_drawn_with_what_it_fouls(lathe, tmp_path) -> None:
    path = tmp_path / "refused.svg"
    outcome = halfnut("audit", "20-127-100-25", "--lathe", lathe, "--draw", str(path))
    assert outcome.returncode == 0
    text = path.read_text(encoding="utf-8")
    assert "does not go on" in text
    assert "fouls the shaft of the leadscrew" in text
    assert 'stroke-width="1.6"' in text


def test_an_audited_set_up_keeps_its_idlers(lathe) -> None:
    answer = answer_of("audit", "50-(100)-127", "--lathe", lathe, "--against", "1.25mm")
    assert answer["train"]["idlers"] == [100]
    assert answer["train"]["mounting"]["verdict"] == "fits"
    assert answer["same_direction"] is True
    bare = answer_of("audit", "50-127", "--lathe", lathe)
    assert bare["train"]["mounting"]["verdict"] == "does not fit"
    twice = answer_of("audit", "50-(50)-127", "--lathe", lathe)
    assert twice["not_in_box"] == ["50 T is needed 2 times; the box holds 1"]
    assert len(bare["helping_idlers"]) == 2, "an even count cannot keep the hand of one mesh"


def test_a_coarse_lead_carries_its_warning() -> None:
    screen = halfnut("train", "12mm", "--lathe", "metric-3").stdout
    assert "leadscrew outruns the spindle" in screen
    assert "leadscrew outruns the spindle" not in halfnut("train", "1mm", "--lathe", "metric-3").stdout


def test_exact_is_a_tolerance_of_every_train() -> None:
    # 1.25 mm off 8 tpi asks for the factor 127: 50-127, and nothing exact without that wheel.
    assert answer_of("train", "1.25mm", "--lathe", "inch-8", "--within", "exact")["answers"][0]["exact"] is True
    outcome = halfnut("train", "1.25mm", "--lathe", "inch-8-no127", "--within", "exact")
    assert outcome.returncode == 1
    assert "No train of these wheels is exact; the nearest found is shown." in outcome.stderr
    assert halfnut("reach", "1.25mm", "--lathe", "inch-8", "--within", "exact").returncode == 0


def test_the_train_to_mount_does_not_hang_on_how_many_are_shown():
    first = [answer_of("train", "0.7mm", "--lathe", "metric-3", "--answers", each)["answers"][0] for each in "138"]
    # As steep as 35-75-40-80 and 35-75-50-100, with as large a smallest wheel, and the largest drivers.
    assert [each["pairs"] for each in first] == [[[35, 75], [60, 120]]] * 3
