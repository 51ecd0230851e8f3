"""``divide --size`` and ``--radius``: the wheel on the head, and what an error comes to at its rim."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import pi, sqrt

import pytest

from tests.cli.running import answer_of, halfnut

HEAD = ("--head", "head-40-three-plates")


def plain(text):
    return " ".join(text.split())


@pytest.mark.from_memory("Machinery's Handbook, edition not seen, the eight involute cutters")
def test_a_wheel_is_told_with_its_blank_depth_and_cutter():
    # 129 modules over the tips, 2.25 deep; cutters of 55 to 134 teeth are number 7 by module and 2 by DP.
    answer = answer_of("divide", "127", *HEAD, "--size", "module 0.5")["part"]
    wheel = answer["wheel"]
    assert (wheel["blank_mm"], wheel["whole_depth_mm"], answer["radius_mm"]) == ("129/2", "9/8", "127/4")
    cutter = wheel["cutter"]
    assert (cutter["fewest"], cutter["most"], cutter["module_number"], cutter["dp_number"]) == (55, 134, 7, 2)
    screen = plain(halfnut("divide", "127", *HEAD, "--size", "module 0.5").stdout)
    assert "64.5 mm (≈2.5394 in) over the tips: 129 × 0.5 mm" in screen
    assert "the one for 55 to 134 teeth: No. 7 of a module set (No. 2 in a DP set)" in screen
    assert "Undercut" not in screen


@pytest.mark.from_memory("Machinery's Handbook, edition not seen, the eight involute cutters")
def test_few_teeth_are_said_to_be_undercut_and_fewer_have_no_cutter_of_the_set():
    answer = answer_of("divide", "10", *HEAD, "--size", "module 0.5")["part"]["wheel"]
    assert (answer["cutter"], answer["clean_from"]) == (None, 18)
    screen = plain(halfnut("divide", "10", *HEAD, "--size", "module 0.5").stdout)
    assert "the set of eight begins above 10 teeth" in screen
    assert "below 18 teeth at 20°" in screen
    # 18 is clean at 20 degrees, 31 is not at 14.5.
    assert "Undercut" not in halfnut("divide", "18", *HEAD, "--size", "module 0.5").stdout
    assert "below 32 teeth at 14 1/2°" in plain(halfnut("divide", "31", *HEAD, "--size", "48 DP").stdout)


def test_the_error_of_a_move_is_told_along_the_rim():
    # 6 on 19 at 40:1 is 6/760 of a turn; 1/127 is meant: 2/96520 more, on a pitch circle of 63.5 mm.
    words = ("divide", "127", *HEAD, "--method", "nearest", "--size", "module 0.5")
    answer = answer_of(*words)["part"]
    each = Fraction(6, 760) - Fraction(1, 127)
    assert float(answer["error_per_move_at_radius_mm"]) == pytest.approx(float(each) * pi * 63.5, rel=1e-9)
    assert float(answer["error_at_closure_at_radius_mm"]) == pytest.approx(float(each) * 127 * pi * 63.5, rel=1e-9)
    assert "+4.13 µm each move, the round misses by +525 µm" in plain(halfnut(*words).stdout)
    short = answer_of("divide", "127", *HEAD, "--method", "compound", "--radius", "32 mm")["part"]
    assert short["error_per_move_at_radius_mm"].startswith("-")
    assert "wheel" not in short
    assert "exact at every mark" in halfnut("divide", "28", *HEAD, "--radius", "32 mm").stdout


def test_the_spaces_of_marks_worked_from_zero_are_told_by_the_worst_and_the_mean():
    words = ("divide", "127", *HEAD, "--method", "nearest", "--positions", "--radius", "10 mm")
    told = answer_of(*words)["positions"]
    errors = [float(Fraction(row["error_arcsec"])) for row in told["rows"]]
    spaces = [after - before for before, after in pairwise(errors)]
    worst = max(spaces, key=abs)
    assert abs(float(Fraction(told["worst_space_arcsec"]))) == pytest.approx(abs(worst))
    assert float(told["rms_space_arcsec"]) == pytest.approx(sqrt(sum(each**2 for each in spaces) / 127), abs=1e-5)
    along = abs(worst) / 1_296_000 * 2 * pi * 10
    assert abs(float(told["worst_space_at_radius_mm"])) == pytest.approx(along, rel=1e-9)
    assert "root mean square" in halfnut(*words).stdout


def test_the_work_of_a_round_is_counted():
    # 28 moves of 1 3/7 turns are 40.
    said = "The round: 28 moves, 40 crank turns in all; about 14 min at half a minute a motion (practice)"
    assert said in plain(halfnut("divide", "28", *HEAD, "--method", "plain").stdout)


def test_the_wheel_stands_beside_a_table_that_goes_by_its_dial():
    words = ("divide", "127", "--head", "table-90-dial", "--size", "module 0.5")
    answer = answer_of(*words)
    assert answer["wheel"]["blank_mm"] == "129/2"
    assert answer["radius_mm"] == "127/4"
    assert "Blank" in halfnut(*words).stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("127", "--size", "module 0.5", "--radius", "30 mm"), "leave --radius out"),
        (("--angle", "3 deg", "--size", "module 0.5"), "give DIVISIONS, not --angle"),
        (("6", "--with", "block", "--size", "module 1"), "--size has no part in --with block"),
        (("6", "--with", "block", "--radius", "3 mm"), "--radius has no part in --with block"),
        (("127", "--size", "0.5"), "0.5"),
        (("127", "--radius", "0 mm"), "above zero"),
    ],
)
def test_what_does_not_go_together_is_refused(words, said):
    outcome = halfnut("divide", *words)
    assert outcome.returncode == 2
    assert said in plain(outcome.stderr)
    assert outcome.stdout == ""


JOB = """name = "Moon"
head = "{head}"
[[parts]]
name = "Moon wheel"
divide = 127
within = "1 deg"
size = "{size}"
"""


@pytest.fixture
def write_job(tmp_path):
    def write(head="head-40-three-plates", size="module 0.5"):
        path = tmp_path / "moon.toml"
        path.write_text(JOB.format(head=head, size=size), encoding="utf-8")
        return str(path)

    return write


@pytest.mark.parametrize("head", ["head-40-three-plates", "table-90-dial"])
def test_a_wheel_of_a_job_has_its_blank_on_screen_in_json_and_on_the_sheet(write_job, tmp_path, head):
    path, sheet = write_job(head), tmp_path / "moon.html"
    outcome = halfnut("job", path, "--sheet", str(sheet))
    assert outcome.returncode == 0
    screen = plain(outcome.stdout)
    assert "Part 127 divisions: a wheel, module 0.5" in screen
    assert "Blank 64.5 mm (≈2.5394 in) over the tips" in screen
    assert "64.5 mm (≈2.5394 in) over the tips: 129 × 0.5 mm" in sheet.read_text(encoding="utf-8")
    (step,) = answer_of("job", path)["steps"]
    assert step["asked"]["wheel"]["blank_mm"] == "129/2"


def test_a_size_of_tooth_that_cannot_be_read_is_a_fault_of_the_file(write_job):
    outcome = halfnut("job", write_job(size="0.5"))
    assert outcome.returncode == 3
    assert "size" in outcome.stderr
    assert "module 0.5" in outcome.stderr


def test_one_angle_of_a_job_is_judged_by_itself_and_not_by_a_round(tmp_path):
    # 10 deg are 10/9 of a crank turn; the nearest hole is asked for, so that there is an error at all.
    path = tmp_path / "angle.toml"
    lines = ['name = "Arm"', 'head = "head-40-three-plates"', "[[parts]]", 'name = "Tilt"', 'angle = "10.01 deg"']
    text = "\n".join([*lines, 'method = "nearest"', 'within = "10 min"', ""])
    path.write_text(text, encoding="utf-8")
    outcome = halfnut("job", str(path))
    assert outcome.returncode == 0
    screen = plain(outcome.stdout)
    assert "off the angle" in screen
    assert "at closure" not in screen
    path.write_text(text.replace("10 min", "1 sec"), encoding="utf-8")
    tight = halfnut("job", str(path))
    assert tight.returncode == 1
    assert 'BEYOND ITS TOLERANCE, 1.00" off the angle' in plain(tight.stdout)


@pytest.mark.parametrize("size", ["48 DP", "DP 48", "48dp"])
def test_the_proof_of_a_blank_in_inches_is_the_same_however_its_size_is_written(size):
    # 28 teeth and 2 of 1/48 in are 0.625 in.
    assert "(0.625 in) over the tips: 30 × 1/48 in" in plain(halfnut("divide", "28", *HEAD, "--size", size).stdout)
