"""A table that has nothing but its dial: every command goes by it. Its 90:1 worm makes one turn of the handle 4 deg."""

from __future__ import annotations

import json
from math import pi
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import answer_of, halfnut

TABLE = ("--head", "table-90-dial")
PLATES = ("--head", "head-40-three-plates")
#: Seven parts of each kind.
SEVENS = (
    ("shape", "7", "--from", "20 mm"),
    ("slot", "7", "--in", "24 mm", "--width", "1 mm", "--depth", "2 mm"),
    ("keyway", "7", "--shaft", "25 mm", "--width", "2 mm"),
    ("holes", "7", "--on", "60 mm"),
    ("dial", "--screw", "1 mm", "--marks", "7"),
)


def readings(rows: list[dict[str, Any]]) -> list[tuple[int, str]]:
    return [(row["turns"], row["dial_arcsec"]) for row in rows]


def words_of(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("words", SEVENS, ids=lambda words: words[0])
def test_a_part_goes_by_the_dial_as_divide_does(words: tuple[str, ...]) -> None:
    index = answer_of(*words, *TABLE)["index"]
    assert (index["answers"], index["methods"], index["exact"], index["refused"]) == ([], [], False, None)
    # 51 deg 25' 42.9" is 12 turns and 3 deg 25' 40" = 12340" of the dial.
    assert readings(index["by_dial"]["rows"])[:2] == [(0, "0"), (12, "12340")]
    divided = answer_of("divide", "7", *TABLE)
    assert index["by_dial"]["rows"] == divided["rows"]
    outcome = halfnut(*words, *TABLE)
    assert outcome.returncode == 1
    screen = words_of(outcome.stdout)
    for told in ('51° 25\' 42.9" 12 3° 25\' 40" -2.86"', "Never add steps", "A dial has no stop"):
        assert told in screen
    assert "13 turns" not in screen
    assert "each hole" not in screen
    assert "Not every mark falls on a division of this dial" in outcome.stderr
    assert "halfnut divide" not in outcome.stderr
    assert max(map(len, outcome.stdout.splitlines())) <= 80


@pytest.mark.parametrize(("flats", "said"), [("4", "22 2° 00' 00\""), ("6", "15 turns")])
def test_a_shape_that_the_dial_or_whole_turns_make_exact_leaves_with_0(flats: str, said: str) -> None:
    # A quarter is 22 1/2 turns, 22 and 2 deg; a sixth is 15 turns and no dial.
    outcome = halfnut("shape", flats, "--from", "20 mm", *TABLE)
    assert outcome.returncode == 0
    assert said in words_of(outcome.stdout)
    assert "A dial has no stop" in outcome.stdout


@pytest.mark.parametrize("words", SEVENS, ids=lambda words: words[0])
def test_a_part_leaves_by_a_dial_as_it_does_on_plates_that_miss_it(words: tuple[str, ...], tmp_path: Path) -> None:
    bare = tmp_path / "one circle.toml"
    bare.write_text('name = "a"\nworm_ratio = "40"\nplates = [ { name = "A", faces = [[15]] } ]\n', encoding="utf-8")
    missed, by_dial = halfnut(*words, "--head", str(bare)), halfnut(*words, *TABLE)
    assert missed.returncode == by_dial.returncode == 1
    # The command in the hint divides on the same head.
    assert f"'halfnut divide 7 --positions --head '{bare}''" in missed.stderr


def test_too_many_marks_for_a_list_are_refused_beside_the_sizes() -> None:
    outcome = halfnut("dial", "--screw", "1 mm", "--marks", "9999", *TABLE)
    assert outcome.returncode == 1
    assert "None on this head: a table of 9999 positions is longer than the 5000" in words_of(outcome.stdout)


def test_marks_finer_than_the_dial_are_refused_beside_the_sizes(tmp_path: Path) -> None:
    path = tmp_path / "coarse.toml"
    path.write_text('name = "a"\nworm_ratio = "90"\nplates = []\n[dial]\nreads = "1 deg"\n', encoding="utf-8")
    # 500 marks stand 0.72 deg apart, the lines of the vernier 0.648 deg.
    outcome = halfnut("dial", "--screw", "1 mm", "--marks", "500", "--vernier", "10", "--head", str(path))
    assert outcome.returncode == 1
    screen = words_of(outcome.stdout)
    assert "None on this head: the marks stand closer together than one division of the dial" in screen
    assert "no move is small enough" in screen
    assert "closer together" in outcome.stderr
    assert "--with dial" not in screen + outcome.stderr


def test_gashes_go_by_the_dial() -> None:
    words = ("worm", "--module", "0.5", "--teeth", "73", *TABLE)
    outcome = halfnut(*words)
    assert outcome.returncode == 0
    assert "Not every gash falls on a division of this dial; each is rounded from zero." in words_of(outcome.stderr)
    # 72 gashes are 5 deg: one turn and 1 deg, each on a division.
    assert "Not every gash" not in halfnut("worm", "--module", "0.5", "--teeth", "72", *TABLE).stderr
    screen = words_of(outcome.stdout)
    # 129600 divisions / 73 teeth leave at most 36/73 of a division of 10".
    assert 'worst 4.93", never more than half a division: below' in screen
    assert "INDEX MOVES, 73 tooth gaps" in screen
    assert "misses by" not in screen
    gash = answer_of(*words)["gash"]
    assert (gash["index"], gash["index_exact"]) == ([], False)
    # 360/73 deg is 4 deg 55' 53.4": one turn and 55' 50" = 3350".
    assert readings(gash["index_by_dial"]["rows"])[1] == (1, "3350")
    assert len(gash["index_by_dial"]["rows"]) == 74


def test_gashes_that_plates_miss_name_a_command_that_the_head_answers() -> None:
    said = words_of(halfnut("worm", "--module", "0.5", "--teeth", "73", "--head", "table-90").stdout)
    assert "no exact move for 73" in said
    assert "'halfnut divide 73 --positions --head table-90'" in said
    assert "POSITIONS" in halfnut("divide", "73", "--positions", "--head", "table-90").stdout


def test_a_table_without_plates_and_without_a_dial_in_its_file_is_sent_to_the_dial(tmp_path: Path) -> None:
    path = tmp_path / "bare.toml"
    path.write_text('name = "bare"\nworm_ratio = "90"\nplates = []\n', encoding="utf-8")
    divided = halfnut("divide", "7", "--head", str(path))
    assert "--with dial" in divided.stderr
    assert "half a hole" not in divided.stderr
    gashed = halfnut("worm", "--module", "0.5", "--teeth", "73", "--head", str(path)).stdout
    # The path may be folded over lines.
    assert f"'halfnutdivide73--withdial--head{path}'" in "".join(gashed.split())
    assert "POSITIONS" in halfnut("divide", "73", "--with", "dial", "--head", str(path)).stdout
    assert "half a hole" in halfnut("divide", "127", "--head", "table-90").stderr


def test_a_dial_is_cut_mark_by_mark_on_a_table_with_a_dial() -> None:
    words = ("dial", "--screw", "8 tpi", "--marks", "125", "--vernier", "10", *TABLE)
    answer = answer_of(*words, "--positions")
    # 360/125 deg is 2 deg 52' 48": no turn, and 2 deg 52' 50" = 10370", 2" too far.
    row = answer["rows"][1]
    assert (row["turns"], row["dial_arcsec"], row["error_arcsec"], row["hole"]) == (0, "10370", "2", None)
    assert len(answer["rows"]) == 125
    # The vernier: 9/10 of a mark is 2 deg 35' 31.2".
    assert answer["vernier"]["by_dial"]["rows"][1]["dial_arcsec"] == "9330"
    assert answer["vernier"]["answers"] == []
    screen = halfnut(*words, "--positions").stdout
    assert 'line 1: 0 turns, dial at 2° 35\' 30", -1.20"' in screen
    # Listed once, with the lines.
    assert screen.count("POSITIONS") == 0
    assert halfnut(*words).stdout.count("POSITIONS") == 1


def test_one_angle_is_one_move_by_the_dial() -> None:
    # 37 deg is 9 turns, 36 deg, and 1 deg of the dial: exact.
    outcome = halfnut("divide", "--angle", "37 deg", *TABLE)
    assert outcome.returncode == 0
    assert "as by --with dial" in outcome.stderr
    assert "Never add steps" not in outcome.stdout
    assert "the last mark must fall on the first" not in words_of(outcome.stdout)
    assert readings(answer_of("divide", "--angle", "37 deg", *TABLE)["rows"]) == [(0, "0"), (9, "3600")]
    # 5 deg 08' 43" is one turn and 1 deg 08' 40" = 4120", 3" short.
    fine = answer_of("divide", "--angle", "5°08'43\"", "--with", "dial", *TABLE)
    assert readings(fine["rows"]) == [(0, "0"), (1, "4120")]
    assert fine["rows"][1]["error_arcsec"] == "-3"
    walked = answer_of("divide", "--angle", "24'", "--moves", "3", *TABLE)
    assert [row["dial_arcsec"] for row in walked["rows"]] == ["0", "1440", "2880", "4320"]


def test_positions_of_a_table_with_a_dial_are_those_of_its_dial() -> None:
    asked = ("divide", "9", *TABLE)
    assert answer_of(*asked)["answers"][0]["method"] == "plain"
    assert answer_of(*asked, "--positions") == answer_of(*asked, "--with", "dial")


def test_moves_without_a_table_are_refused_in_words_and_a_count_has_its_own() -> None:
    refused = halfnut("divide", "--angle", "37 deg", "--moves", "4", *PLATES)
    assert (refused.returncode, refused.stdout) == (2, "")
    assert "--with dial" in refused.stderr
    counted = halfnut("divide", "7", "--moves", "4", "--with", "dial", *TABLE)
    assert (counted.returncode, counted.stdout) == (2, "")
    assert "[default: 1]" in words_of(halfnut("divide", "--help").stdout)


def test_several_angles_are_marks_of_their_own_by_the_dial() -> None:
    # Typed in any order: 30 deg is 7 turns and 2 deg, 58.5 deg 14 turns and 2 deg 30', 23.44 deg 5 turns and
    # 3 deg 26' 20", 4" short.
    asked = ("divide", "--angle", "58°30'", "--angle", "23.44 deg", "--angle", "1/12 turn", *TABLE)
    answer = answer_of(*asked)
    assert readings(answer["rows"]) == [(0, "0"), (5, "12380"), (7, "7200"), (14, "9000")]
    assert [row["due_turns"] for row in answer["rows"]] == ["0", "293/4500", "1/12", "13/80"]
    assert answer["asked"] == {"turns_of_work": None, "moves": 3}
    assert (answer["worst_error_arcsec"], answer["exact"], answer["gap_if_steps_are_added_arcsec"]) == (
        "4",
        False,
        None,
    )
    outcome = halfnut(*asked)
    assert outcome.returncode == 1
    assert "Never add steps" not in outcome.stdout
    assert halfnut("divide", "--angle", "30 deg", "--angle", "90 deg", *TABLE).returncode == 0


def test_several_angles_are_marks_of_their_own_on_a_circle() -> None:
    # 40:1: 30 deg is 3 turns and 6 of 18, 58.5 deg 6 turns and 9 of 18.
    asked = ("divide", "--angle", "58.5 deg", "--angle", "30 deg", *PLATES)
    answer = answer_of(*asked)
    found = answer["positions"]
    assert (found["plate"], found["circle"], answer["exact"]) == ("A", 18, True)
    assert [(row["turns"], row["hole"]) for row in found["rows"]] == [(0, 0), (3, 6), (6, 9)]
    assert halfnut(*asked).returncode == 0
    # On 49 a third of a turn is 16 1/3 spaces: 1/3 of a space short is 10800/49".
    other = halfnut(*asked, "--circle", "49")
    assert other.returncode == 1
    assert "hole of the 49 circle" in other.stderr
    row = answer_of(*asked, "--circle", "49")["positions"]["rows"][1]
    assert (row["turns"], row["hole"], row["error_arcsec"]) == (3, 16, "-10800/49")
    assert max(map(len, other.stdout.splitlines())) <= 80
    held = answer_of("divide", "--angle", "30 deg", "--angle", "360 deg", "--head", "indexer-36")["positions"]
    assert [(row["turns"], row["hole"]) for row in held["rows"]] == [(0, 0), (0, 3), (1, 0)]


@pytest.mark.parametrize(
    ("more", "named"),
    [
        (("--method", "plain"), "leave --method out"),
        (("--skip", "2"), "leave --skip out"),
        (("--moves", "2"), "leave --moves out"),
        (("--all",), "leave --all out"),
        (("--picture",), "leave --picture out"),
        (("7",), "one of the two"),
        (("--with", "cranks"), "equal parts"),
        (("--size", "module 1"), "--size is of a wheel's teeth"),
        (("--size", "module 1", *TABLE), "--size is of a wheel's teeth"),
        (("--reads", "1 min"), "--reads goes with --with dial"),
        (("--with", "dial", "--circle", "49"), "--circle"),
        (("--circle", "50"), "circle of 50 holes"),
        (("--angle", "1/12 turn"), "the same angle as '30 deg'"),
        (("--angle", "361 deg"), "at most 360 deg"),
        (("--angle", "30,58.5,90"), "Give --angle once for each angle"),
        (("--angle", "0 deg"), "Mark 0 is where you begin"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else None,
)
def test_what_several_angles_cannot_have_is_refused_in_words(more: tuple[str, ...], named: str) -> None:
    outcome = halfnut("divide", "--angle", "30 deg", "--angle", "90 deg", *more)
    assert (outcome.returncode, outcome.stdout) == (2, ""), outcome
    assert named in words_of(outcome.stderr)
    assert "no plates, so" not in outcome.stderr


def test_several_angles_on_a_circle_are_told_along_the_rim() -> None:
    # On 49 holes of 40:1 a third of a turn of the crank is 1/3 of a space short, half a turn half a space:
    # 1/(3·40·49) and 1/(2·40·49) of 2π·50 mm are 53.4 and 80.1 µm.
    asked = ("divide", "--angle", "58.5 deg", "--angle", "30 deg", *PLATES, "--circle", "49", "--radius", "50 mm")
    answer = answer_of(*asked)
    along = [float(row["error_at_radius_mm"]) for row in answer["positions"]["rows"]]
    assert along == pytest.approx([0, -100 * pi / 5880, -100 * pi / 3920], rel=1e-12)
    assert float(answer["worst_error_at_radius_mm"]) == pytest.approx(100 * pi / 3920, rel=1e-12)
    screen = words_of(halfnut(*asked).stdout)
    assert "mark 2 is worst, -80.1 µm along the rim at 50 mm" in screen
    assert "mark 1 -53.4 µm, mark 2 -80.1 µm" in screen


def test_a_table_that_goes_by_its_dial_takes_another_reading_of_it() -> None:
    # A seventh is 12 turns and 3 deg 25' 42.9": to a minute, 3 deg 26' = 12360".
    asked = ("divide", "7", *TABLE, "--reads", "1 min")
    assert readings(answer_of(*asked)["rows"])[1] == (12, "12360")
    assert answer_of(*asked) == answer_of(*asked, "--with", "dial", "--positions")
    on_plates = halfnut("divide", "7", *PLATES, "--reads", "1 min")
    assert (on_plates.returncode, on_plates.stdout) == (2, "")
    assert "--reads goes with --with dial" in on_plates.stderr


def test_one_angle_is_not_said_to_add_up_round_after_round() -> None:
    angle = halfnut("divide", "--angle", "37.123 deg", *PLATES)
    assert "off once, by this error" in angle.stdout
    assert "adds up all the way round" not in angle.stdout
    assert "Repeating the move" not in angle.stdout
    assert "--positions" not in angle.stderr
    assert "adds up all the way round" in words_of(halfnut("divide", "383", *PLATES).stdout)


def test_a_broken_count_is_offered_as_an_angle_first() -> None:
    said = halfnut("divide", "37.5").stderr
    assert said.index('--angle "37.5 deg"') < said.index("--angle '2/75 turn'")


JOB = 'name = "Tellurion dials"\nhead = "table-90-dial"\n'


def job_of(tmp_path: Path, *parts: str) -> str:
    path = tmp_path / "job.toml"
    path.write_text(JOB + "".join(f"[[parts]]\n{part}\n" for part in parts), encoding="utf-8")
    return str(path)


def test_a_job_is_divided_by_the_dial_and_judged_by_the_worst_mark(tmp_path: Path) -> None:
    # A twelfth is 7 turns and 2 deg, exact. Of 127 marks the worst is 63/127 of 10" off, 4.96", within 5";
    # 23.44 deg comes 4" short; 365 marks are off by 36/73 of 10" at worst, 4.93".
    path = job_of(
        tmp_path,
        'name = "Zodiac"\ndivide = 12',
        'name = "Moon"\ndivide = 127\nwithin = "5 sec"',
        'name = "Tilt"\nangle = "23.44 deg"\nwithin = "3 sec"',
        'name = "Days"\ndivide = 365',
        'name = "Nut"\nshape = { name = "square", from = "12 mm" }',
        'name = "Slot"\nslot = { in = "8 mm", width = "1.2 mm", depth = "2 mm" }',
    )
    outcome = halfnut("job", path)
    assert outcome.returncode == 1
    assert "Beyond its tolerance, the nearest setting being planned: Tilt, Days." in outcome.stderr
    assert 'within = "5 sec". See: halfnut divide 365 --head table-90-dial' in outcome.stderr
    assert "halfnut divide --angle '293/4500 turn' --head table-90-dial" in outcome.stderr
    screen = words_of(outcome.stdout)
    for told in (
        "12 marks by the dial, each from zero exact",
        "30° 00' 00.0\" 7 2° 00' 00\"",
        '5 turns, dial at 3° 26\' 20" -4.00"',
        'worst mark 4.93"; BEYOND ITS TOLERANCE, exact',
        'BEYOND ITS TOLERANCE, 3.00" at any mark',
        "every one on the sheet, and by 'halfnut divide 127 --head table-90-dial'",
        "A dial has no stop",
    ):
        assert told in screen
    assert "at closure" not in screen
    assert max(map(len, outcome.stdout.splitlines())) <= 80
    steps = {step["part"]: step for step in answer_of("job", path)["steps"]}
    assert {step["setting"] for step in steps.values()} == {None}
    assert readings(steps["Zodiac"]["by_dial"]["rows"])[1] == (7, "7200")
    assert len(steps["Tilt"]["by_dial"]["rows"]) == 2
    assert steps["Slot"]["by_dial"] is None


def test_a_job_within_its_tolerance_by_the_dial_leaves_with_0(tmp_path: Path) -> None:
    path = job_of(tmp_path, 'name = "Moon"\ndivide = 127\nwithin = "5 sec"', 'name = "Hex"\ndivide = 6')
    outcome = halfnut("job", path)
    assert (outcome.returncode, outcome.stderr) == (0, "")
    steps = json.loads(halfnut("job", path, "--json").stdout)["steps"]
    # A sixth is 15 whole turns: a plain move, and no dial.
    assert [step["setting"] and step["setting"]["method"] for step in steps] == [None, "plain"]


def test_whole_turns_of_a_table_are_turns_of_its_handle(tmp_path: Path) -> None:
    # A sixth is 15 turns of the handle, six are 90; 72 gashes go by the dial.
    path = job_of(tmp_path, 'name = "Hex"\nshape = { name = "hexagon", from = "20 mm" }')
    for screen in (words_of(halfnut("job", path).stdout), words_of(halfnut("divide", "6", *TABLE).stdout)):
        assert "90 turns of the handle must bring the table round once" in screen
        assert "crank" not in screen
    gashed = words_of(halfnut("worm", "--module", "0.5", "--teeth", "72", *TABLE).stdout)
    assert "while the handle is turned; lock the table" in gashed
    assert "After 6 moves the handle has made 90 turns" in words_of(halfnut("divide", "6", *TABLE).stdout)
    assert "90 crank turns in all" in words_of(halfnut("divide", "6", "--head", "table-90", "--all").stdout)


def test_a_job_beyond_what_the_dial_can_tell_names_the_part(tmp_path: Path) -> None:
    outcome = halfnut("job", job_of(tmp_path, 'name = "Fine"\ndivide = 5001'))
    assert outcome.returncode == 1
    assert "Fine: a table of 5001 positions is longer than the 5000" in outcome.stderr


def test_a_job_that_names_a_method_of_plates_has_it(tmp_path: Path) -> None:
    path = job_of(tmp_path, 'name = "Rough"\ndivide = 7\nmethod = "nearest"\nwithin = "10 deg"')
    step = answer_of("job", path)["steps"][0]
    # 13 turns of 4 deg are 52 deg, 4/7 deg too far each time: 4 deg in all.
    assert step["setting"]["moves"][0]["turns"] == 13
    assert step["by_dial"] is None


def test_counts_and_covers_know_what_the_dial_divides() -> None:
    # 12 teeth are 30 deg, 7 turns and 2 deg; 18 are 5 whole turns.
    answer = answer_of("counts", "1/8", "--pairs", "1", "--largest", "100", *TABLE)
    assert {12, 16, 18, 96} <= set(answer["counts"]["allowed"])
    assert not {13, 14, 17} & set(answer["counts"]["allowed"])
    (pair,) = [each for each in answer["by_pairs"][0]["answers"] if each["pairs"] == [[12, 96]]]
    assert {wheel["teeth"]: wheel["divided_by"] for wheel in pair["wheels"]} == {12: "dial", 96: "dial"}
    plain = answer_of("counts", "1/5", "--pairs", "1", "--method", "plain", *TABLE)
    assert 12 not in plain["counts"]["allowed"]
    covered = answer_of("head", "covers", "table-90-dial", "--to", "20")
    assert covered["exact_by"]["plain"] == [1, 2, 3, 5, 6, 9, 10, 15, 18]
    assert covered["exact_by"]["dial"] == [4, 8, 12, 16, 20]
    assert covered["exact_by"]["none"] == [7, 11, 13, 14, 17, 19]
    assert "Its dial" in halfnut("head", "covers", "table-90-dial", "--to", "20").stdout


def test_a_wheel_to_be_made_is_divided_by_the_dial() -> None:
    words = ("missing", "0.9mm", "1.1mm", "--lathe", "inch-16-small", "--within", "50 ppm", "--pairs", "2", *TABLE)
    (making,) = answer_of(*words)["making"]
    assert (making["teeth"], making["divided"], making["on_head"]) == (127, False, None)
    # 360/127 deg is 2 deg 50' 04.7": no turn, and 2 deg 50' = 10200" and no ten seconds.
    assert readings(making["by_dial"]["rows"])[1] == (0, "10200")
    screen = words_of(halfnut(*words).stdout)
    assert "'halfnut divide 127 --head table-90-dial' lists them" in screen
    assert "no plate and no hole" not in screen
