"""What somebody sees who describes a lathe of their own for the first time."""

from __future__ import annotations

import pytest

from tests.cli.running import answer_of, halfnut

METRIC = """
name = "Metric bench"
[leadscrew]
lead = "3 mm"
[drive]
stud_turns = "1"
reverse = true
[wheels]
size = "module 1"
teeth = { 20 = 2, 30 = 1, 40 = 1, 45 = 1, 60 = 1, 66 = 1, 72 = 1, 80 = 1 }
"""


@pytest.fixture
def write_lathe(tmp_path):
    """Write a lathe file and give its path."""

    def write(text: str) -> str:
        path = tmp_path / "mine.toml"
        path.write_text(text, encoding="utf-8")
        return str(path)

    return write


def plain(text: str) -> str:
    return " ".join(text.split())


def test_what_the_file_leaves_out_of_the_drive_is_called_assumed(write_lathe) -> None:
    bare = write_lathe(METRIC.replace('stud_turns = "1"\nreverse = true\n', ""))
    shown = plain(halfnut("lathe", "show", bare).stdout)
    assert "1 turn for one spindle turn (ASSUMED: the file has no stud_turns)" in shown
    assert "(ASSUMED: the file has no reverse)" in shown
    screen = plain(halfnut("train", "1.5mm", "--lathe", bare).stdout)
    assert "Not checked: that the stud gear turns once for one spindle turn" in screen
    points = answer_of("train", "1.5mm", "--lathe", bare)["answers"][0]["mounting"]["not_checked"]
    assert sum("stud_turns" in each or "reverse" in each for each in points) == 2
    assert "\n# stud_turns" in halfnut("lathe", "show", bare, "--toml").stdout


def test_what_the_file_says_of_the_drive_is_not_called_assumed(write_lathe) -> None:
    path = write_lathe(METRIC)
    assert "ASSUMED" not in halfnut("lathe", "show", path).stdout
    assert "stud_turns" not in halfnut("train", "1.5mm", "--lathe", path).stdout


def test_keyed_pairs_are_said_to_be_used_as_they_are(write_lathe) -> None:
    path = write_lathe(METRIC.replace("80 = 1 }", "80 = 1 }\nkeyed_pairs = [[60, 63]]"))
    assert "60+63 on one sleeve; each used as one piece on a stud" in plain(halfnut("lathe", "show", path).stdout)
    # 40 x 63 over 60 x 20 takes the sleeve: the box has no 63.
    assert answer_of("train", "6.3mm", "--lathe", path)["answers"][0]["exact"]


def test_a_measured_leadscrew_is_shown_with_the_side_it_errs_to(write_lathe) -> None:
    path = write_lathe(METRIC.replace('"3 mm"', '"3 mm"\nmeasured = "-0.03 mm in 300 mm"'))
    shown = plain(halfnut("lathe", "show", path).stdout)
    assert "measured -0.03 mm in 300 mm: -100 ppm, the carriage goes not far enough" in shown
    assert "by the screw as measured" in shown


def test_the_threads_of_the_leadscrew_between_two_closings_are_told(write_lathe) -> None:
    path = write_lathe(METRIC)
    assert answer_of("train", "2mm", "--lathe", path)["half_nut"]["every_threads"] == 2
    screen = plain(halfnut("train", "2mm", "--lathe", path).stdout)
    assert "6 mm (≈0.23622 in) from where it was opened, every 2nd thread of the leadscrew" in screen


def test_where_the_nut_would_close_between_two_grooves_is_told(write_lathe) -> None:
    path = write_lathe(METRIC)
    words = ("train", "2mm", "--starts", "3", "--lathe", path)
    nut = answer_of(*words)["starts"]["half_nut"]
    assert nut["between_grooves"] == {"move_mm": "3", "leadscrew_threads": 1, "off_mm": "1"}
    screen = plain(halfnut(*words).stdout)
    assert "half-nut jump: no closing of the nut brings the tool into another start" in screen
    assert "between two grooves, 1 mm (≈0.03937 in) from the nearest" in screen


def test_a_measured_screw_names_the_plain_train_it_spoils(write_lathe) -> None:
    path = write_lathe(METRIC.replace('"3 mm"', '"3 mm"\nmeasured = "+0.03 mm in 300 mm"'))
    plain_train = answer_of("train", "1.5mm", "--lathe", path, "--within", "exact")["nominally_exact"]
    pair = plain_train["pairs"][0]
    # Half of the 3 mm screw; what is left is the screw's own error.
    assert (len(plain_train["pairs"]), pair[1], plain_train["error_ppm"]) == (1, 2 * pair[0], "100")
    refused = halfnut("train", "1.5mm", "--lathe", path, "--within", "exact")
    assert refused.returncode == 1
    assert "would be exact on a true one and is lead long, +100 ppm on this" in refused.stderr
    assert answer_of("train", "module 1", "--lathe", path)["nominally_exact"] is None


def test_what_is_set_aside_may_be_as_near_as_what_is_mounted(write_lathe) -> None:
    path = write_lathe(METRIC + "[banjo]\nstuds = 1\n")
    screen = plain(halfnut("train", "1.5mm", "--lathe", path).stdout)
    assert "Set aside: as near as any of as many pairs, or nearer, but known not to fit" in screen


def test_a_lathe_is_checked_by_name_too_and_near_names_are_given() -> None:
    assert halfnut("lathe", "check", "inch-8").stdout.endswith("No fault found in the file.\n")
    missed = halfnut("lathe", "check", "inch8")
    assert missed.returncode == 2
    assert "Near names: inch-8" in missed.stderr


def test_nothing_typed_and_circles_typed_for_wheels_are_told_what_is_asked() -> None:
    told = "\n8 tpi\n\n\n\n\n\n15, 16 / 21, 23\n20, 40\n"
    asked = halfnut("lathe", "new", "no-such-folder/mine.toml", told=told)
    assert "At least one wheel is needed" in asked.stderr
    assert "This asks for change wheels, with commas between and no strokes" in asked.stderr


def test_a_mounted_wheel_that_the_box_does_not_hold_is_remarked(write_lathe) -> None:
    path = write_lathe(METRIC)
    outcome = halfnut("train", "2mm", "--lathe", path, "--mounted", "20/41")
    assert outcome.returncode == 0
    assert "Of what is mounted, 41 T is not in the box" in outcome.stderr
    assert "Of what is mounted" not in halfnut("train", "2mm", "--lathe", path, "--mounted", "20/40").stderr


JOB = """
name = "bench"
lathe = "mine.toml"
head = "head-40-three-plates"
mounted = "20/40"
[[parts]]
name = "Screw"
thread = "M6"
[[parts]]
name = "Spindle"
thread = "1 mm"
diameter = "7 mm"
[[parts]]
name = "Worm"
worm = { size = "module 0.5", teeth = 40 }
within = "20000 ppm"
[[parts]]
name = "Ring"
divide = 61
method = "nearest"
within = "5 sec"
"""


def test_a_job_names_tolerances_missed_and_a_short_sheet_of_it_keeps_the_set_ups(tmp_path, write_lathe) -> None:
    write_lathe(METRIC)
    job, short = tmp_path / "job.toml", tmp_path / "short.html"
    job.write_text(JOB, encoding="utf-8")
    screen = plain(halfnut("job", str(job), "--sheet", str(short), "--short").stdout)
    assert "'halfnut thread M6x1': passes, tool, wires" in screen
    assert """'halfnut thread "1 mm" --major 7mm': passes, tool, wires""" in screen
    assert "Tool 40° included, flat" in screen
    assert 'BEYOND ITS TOLERANCE, 5.00" at closure: the nearest is planned' in screen
    page = short.read_text(encoding="utf-8")
    for part, machine in (("Screw", "lathe"), ("Spindle", "lathe"), ("Worm", "lathe"), ("Ring", "head")):
        assert f"{part}, on the {machine}</h2>" in page
    assert "ON: stud gear: " in page
    assert "KEEP CLOSED" in page
    assert "NOT EXACT" in page
    assert page.count(">Cautions<") == 1
    assert "Proof and error" not in page
    assert halfnut("job", str(job), "--short").returncode == 2


def test_a_job_that_cannot_be_made_names_the_nearest_train_and_its_error(tmp_path, write_lathe) -> None:
    write_lathe(METRIC)
    job = tmp_path / "job.toml"
    job.write_text(JOB.replace("20000 ppm", "1 ppm"), encoding="utf-8")
    # 45/72 x 66/80 x 3 mm beside half of pi: 1.546875 mm, 1.52 % short.
    assert "the nearest that does is 45-72-66-80, lead short, -15200 ppm" in plain(halfnut("job", str(job)).stderr)


@pytest.mark.parametrize(
    ("words", "example"),
    [
        (("slot",), 'halfnut slot --in "8 mm" --width "1.2 mm" --depth "2 mm"'),
        (("slot", "--in", "8mm"), 'halfnut slot --in "8 mm" --width "1.2 mm" --depth "2 mm"'),
        (("instrument",), "halfnut instrument --pitch 0.5mm --marks 50 --teeth 100 --travel 150mm"),
        (("lathe", "show"), "halfnut lathe show inch-8"),
    ],
)
def test_a_request_with_something_missing_is_shown_an_example(words, example) -> None:
    outcome = halfnut(*words)
    assert outcome.returncode == 2
    assert outcome.stderr.endswith(f"For example: {example}\n")


def test_a_request_that_cannot_be_read_for_another_reason_is_shown_none() -> None:
    assert "For example: halfnut" not in halfnut("reach", "1mm", "--series", "iso_coarse").stderr


def test_a_picture_of_the_moves_stands_before_the_cautions() -> None:
    screen = halfnut("divide", "28", "--picture").stdout
    assert 0 < screen.index("PICTURE") < screen.index("Cautions")


def test_a_chart_needs_its_constant_in_the_figures_of_the_chart_s_own(tmp_path) -> None:
    chart = tmp_path / "chart.csv"
    chart.write_text("thread,stud,screw\n1 mm,24,72\n1.25 mm,30,72\n26 tpi,33,100\n1.5 mm,30,50\n", encoding="utf-8")
    screen = halfnut("audit", str(chart)).stdout
    # 26 tpi by 33 over 100 wants 25.4/26 x 100/33 = 2.96037 mm.
    assert [line.split()[-2:] for line in screen.splitlines() if " NO " in line] == [["≈2.9604", "mm"], ["2.5", "mm"]]


def test_a_train_that_leaves_the_screws_error_in_is_said_to(write_lathe) -> None:
    off = METRIC.replace('lead = "3 mm"', 'lead = "3 mm"\nmeasured = "+0.3 mm in 300 mm"')
    screen = plain(halfnut("train", "2mm", "--pairs", "1", "--lathe", write_lathe(off)).stdout)
    assert "the train above leaves it in, being exact by the nominal leadscrew" in screen
    assert "xact by the nominal leadscrew: " not in screen
    allowed = halfnut("train", "2mm", "--allow", "+1000 ppm", "--lathe", write_lathe(off)).stdout
    assert "the wheels have nothing to make up for" in plain(allowed)
