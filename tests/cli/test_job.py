"""``job`` at the bench: the tellurion planned, what is handled adds up, and what cannot be is refused in order."""

from __future__ import annotations

import json
import shlex
from fractions import Fraction

import pytest

from cli.commands.job import _Progress
from gearsets.job_files import JOBS
from gearsets.lathe_files import find_lathe
from solver.trains.changes import changes, handled
from solver.trains.written_trains import read_train
from tests.cli.running import answer_of, halfnut

HEADER = 'name = "a"\nlathe = "inch-8"\nhead = "head-40-two-faced"\n'


@pytest.fixture(scope="module")
def tellurion():
    # In a process of its own, so that nothing hangs on the order in which sets happen to be gone through.
    return answer_of("job", "tellurion")


def job_file(tmp_path, *parts, head=HEADER):
    path = tmp_path / "job.toml"
    path.write_text(head + "".join(f"[[parts]]\n{part}\n" for part in parts), encoding="utf-8")
    return str(path)


def train_of(step):
    return read_train("-".join(f"{driver}-{driven}" for driver, driven in step["train"]["pairs"]))


def test_the_tellurion_is_planned_and_proven(tellurion):
    assert tellurion["proven"] is True
    assert tellurion["wheels_handled"] == tellurion["bound"]
    assert tellurion["wheels_handled"] < tellurion["wheels_in_file_order"]
    assert {step["asked"]["kind"] for step in tellurion["steps"]} == {
        "thread", "worm", "wheel", "divide", "shape", "slot", "dial",
    }  # fmt: skip


def test_the_wheels_of_the_steps_add_up_to_the_total_and_are_those_of_train_mounted(tellurion):
    assert sum(step["wheels_handled"] for step in tellurion["steps"]) == tellurion["wheels_handled"]
    mounted = None
    for step in (each for each in tellurion["steps"] if each["machine"] == "lathe"):
        train = train_of(step)
        if mounted is not None:
            assert step["wheels_handled"] == handled(changes(mounted, train))
        mounted = train


def test_every_step_comes_after_those_its_part_waits_for(tellurion):
    order = [step["part"] for step in tellurion["steps"]]
    assert order.index("Year wheel") < order.index("Year worm")
    assert order.index("Pillar screws") < order.index("Levelling feet")
    assert order.index("Pillar screws") < order.index("Screw heads")
    assert order.index("Feed screw") < order.index("Feed dial")


def test_each_step_holds_what_the_single_command_answers(tellurion):
    steps = {step["part"]: step for step in tellurion["steps"]}
    # 127 is prime and above every circle: the head is geared, exactly.
    assert steps["Moon wheel"]["setting"]["method"] == "differential"
    assert steps["Moon wheel"]["setting"]["exact"] is True
    settings = answer_of("divide", "127", "--head", "head-40-two-faced", "--method", "differential", "--all")["answers"]
    assert steps["Moon wheel"]["setting"] in settings
    worm = steps["Year worm"]
    assert worm["asked"]["pi_multiple"] is True
    assert abs(float(worm["train"]["error_ppm"])) <= 300
    dial = answer_of("dial", "--screw", "1 mm", "--reads", "0.02 mm")["answers"][0]
    assert steps["Feed dial"]["asked"]["marks"] == dial["marks"]
    assert steps["Arm square"]["asked"]["depth_mm"] == "1"
    assert steps["Screw heads"]["setting"] is None


def test_what_is_mounted_is_begun_from(tmp_path):
    path = job_file(tmp_path, 'name = "b"\nthread = "1 mm"', head=HEADER + 'mounted = "40-127"\n')
    answer = answer_of("job", path)
    assert answer["wheels_handled"] == 0
    assert str(train_of(answer["steps"][0])) == "40-127"
    assert "all stay as they are" in halfnut("job", path).stdout


def test_out_of_one_box_no_wheel_stands_in_two_places(tmp_path):
    path = job_file(
        tmp_path,
        'name = "b"\nthread = "1 mm"\nwithin = "1 ppm"',
        'name = "wheel"\ndivide = 127\nafter = ["b"]',
        'name = "c"\nthread = "0.5 mm"\nwithin = "1 ppm"\nafter = ["wheel"]',
        head='name = "a"\nlathe = "metric-1.5-small"\nhead = "head-40-three-plates"\none_box = true\nwithin = "5 %"\n',
    )
    outcome = halfnut("job", path, "--json")
    answer = json.loads(outcome.stdout)
    assert answer["proven"] is True
    standing = {"lathe": set(), "head": set()}
    for step in answer["steps"]:
        machine = step["machine"]
        other = "head" if machine == "lathe" else "lathe"
        standing[other] -= {(each["place"], each["teeth"]) for each in step["lent"]}
        standing[machine] -= {(each["place"], each["teeth"]) for each in step["off"]}
        standing[machine] |= {(each["place"], each["teeth"]) for each in step["on"]}
        used = [teeth for each in standing.values() for _, teeth in each]
        box = dict(find_lathe("metric-1.5-small").wheel_classes[0].stock)
        assert all(used.count(teeth) <= box[teeth] for teeth in used)


def test_wheels_lent_from_lathe_to_head_and_back_are_told_first(tmp_path):
    # Three wheels in the box. 57-30 on a 1.5 mm leadscrew cuts 2.85 mm, and 57-30 with the 45 between gears 127 on the
    # head. Worked by hand: 2 on; 2 off the lathe and 3 on the head; 2 off the head and 2 on the lathe.
    (tmp_path / "own.toml").write_text(
        'name = "three wheels"\n[leadscrew]\nlead = "1.5 mm"\n[drive]\nreverse = true\n'
        '[wheels]\nsize = "module 1"\nteeth = { 30 = 1, 45 = 1, 57 = 1 }\n',
        encoding="utf-8",
    )
    path = job_file(
        tmp_path,
        'name = "b"\nthread = "2.85 mm"',
        'name = "wheel"\ndivide = 127\nafter = ["b"]',
        'name = "c"\nthread = "2.85 mm"\nafter = ["wheel"]',
        head='name = "a"\nlathe = "own.toml"\nhead = "head-40-three-plates"\none_box = true\nwithin = "1 ppm"\n',
    )
    answer = answer_of("job", path)
    assert [step["wheels_handled"] for step in answer["steps"]] == [2, 5, 4]
    assert sorted(each["teeth"] for each in answer["steps"][1]["lent"]) == [30, 57]
    assert answer["proven"] is True
    screen = halfnut("job", path).stdout
    assert "off the lathe, for this one: stud gear: 57 T; leadscrew: 30 T" in screen
    assert "off the head, for this one: head, work spindle: 57 T" in screen
    assert "see that what is left there cannot be driven" in screen.replace("\n  ", " ")


def test_a_part_that_two_pairs_do_not_serve_is_given_three_and_the_proof_says_so(tmp_path):
    # 1 mm wants 40/127 on an 8 tpi screw. Without a 127, 63/80 stands in for 100/127, 125 ppm long; 35-50-45-100 is
    # that ratio, and two pairs of this box come no nearer.
    part = 'name = "b"\nthread = "1 mm"\nwithin = "60 ppm"'
    path = job_file(tmp_path, part, head='name = "a"\nlathe = "inch-8-no127"\n')
    outcome = halfnut("job", path, "--json")
    answer = json.loads(outcome.stdout)
    assert answer["most_pairs"] == 3
    assert len(answer["steps"][0]["train"]["pairs"]) == 3
    assert "set-ups of up to 3 pairs" in " ".join(halfnut("job", path).stdout.split())
    nearest = job_file(tmp_path, part.replace("60", "126"), head='name = "a"\nlathe = "inch-8-no127"\n')
    step = answer_of("job", nearest)["steps"][0]
    assert (len(step["train"]["pairs"]), step["train"]["error_ppm"]) == (2, "125")


def test_parts_that_cannot_be_made_are_all_named_with_what_would_help(tmp_path):
    path = job_file(
        tmp_path,
        'name = "worm"\nworm = { size = "module 0.5", teeth = 73 }\nwithin = "0.001 ppm"',
        'name = "screw"\nthread = "M6"',
        'name = "other"\nthread = "27.13 tpi"\nwithin = "0.001 ppm"',
    )
    outcome = halfnut("job", path)
    assert outcome.returncode == 1
    assert outcome.stdout == ""
    assert "2 of 3 parts cannot be made so:" in outcome.stderr
    assert "worm: no train of up to 3 pairs is within 0.001 ppm" in outcome.stderr
    assert "Traceback" not in outcome.stderr


def test_the_screen_fits_80_columns_and_says_order_half_nut_totals_proof_and_cautions():
    outcome = halfnut("job", "tellurion")
    assert outcome.returncode == 0
    assert max(map(len, outcome.stdout.splitlines())) <= 80
    for piece in ("ORDER OF WORK", "Take off", "Put on", "Half-nut", "TOTALS", "Proof", "proven: no order", "Cautions",
                  "come before", "Check"):  # fmt: skip
        assert piece in outcome.stdout


def test_the_same_job_gives_the_same_answer_twice(tellurion):
    assert answer_of("job", "tellurion") == tellurion


@pytest.mark.parametrize(
    ("words", "status", "piece"),
    [
        (("no-such-job",), 2, "no job is called 'no-such-job'"),
        (("no-such-job.toml",), 3, "is not there; check the path"),
        (("tellurion", "--time-limit", "0"), 2, "--time-limit"),
        ((), 2, "Missing argument"),
    ],
)
def test_requests_that_mean_nothing_are_refused(words, status, piece):
    outcome = halfnut("job", *words)
    assert outcome.returncode == status
    assert piece in outcome.stderr
    assert outcome.stdout == ""


def test_a_faulty_job_leaves_with_the_status_of_a_faulty_file(tmp_path):
    outcome = halfnut("job", job_file(tmp_path, 'name = "a"\nthread = "M6"\nafter = ["a"]'))
    assert outcome.returncode == 3
    assert "a waits for itself" in outcome.stderr


def test_a_hostile_name_is_printed_as_it_stands_and_nothing_more(tmp_path):
    name = "<script>[red]{{7*7}}</script>"
    path = job_file(tmp_path, f'name = "{name}"\nthread = "M6"\nnote = "{name}"')
    assert name in halfnut("job", path).stdout.replace("\n", "")
    assert answer_of("job", path)["steps"][0]["part"] == name


def test_the_shipped_job_is_the_one_named():
    assert JOBS.shipped_names() == ("tellurion",)
    assert answer_of("job", str(JOBS.shipped_folder / "tellurion.toml"))["job"] == "Tellurion"


def test_a_count_that_the_head_does_not_divide_is_planned_at_the_nearest_and_said_so(tmp_path):
    path = job_file(
        tmp_path,
        'name = "wheel"\ndivide = 127',
        'name = "dial"\ndial = { screw = "8 tpi", reads = "0.02 mm" }',
        head='name = "a"\nhead = "head-60"\n',
    )
    outcome = halfnut("job", path)
    assert outcome.returncode == 1
    assert "the nearest setting being planned: wheel, dial." in outcome.stderr
    assert "at closure" in outcome.stdout
    assert "not the 0.02 mm" in outcome.stdout.replace("\n", " ").replace("          ", " ")
    wide = job_file(tmp_path, 'name = "wheel"\ndivide = 127\nwithin = "20 deg"', head='name = "a"\nhead = "head-60"\n')
    assert halfnut("job", wide).returncode == 0


def test_the_face_that_several_parts_can_share_is_put_on_once(tmp_path):
    # On 40:1, 20 divisions are whole turns on any face, 28 want a circle of sevens (28 and 42 on the first face, 49 on
    # the second) and 39 want the 39, which is on the first face alone.
    parts = [f'name = "p{count}"\ndivide = {count}' for count in (28, 20, 39)]
    answer = answer_of("job", job_file(tmp_path, *parts, head='name = "a"\nhead = "head-40-two-faced"\n'))
    assert answer["faces_put_on"] == 1
    assert {tuple(step["face"] or ()) for step in answer["steps"]} == {(), ("A", 1)}
    assert answer["wheels_handled"] == 0


def test_a_part_divided_beyond_its_tolerance_is_cautioned_and_told_what_would_make_it_exact(tmp_path):
    # 383 is prime and above every circle, and 40/383 is no ratio of these wheels: nothing divides it exactly here.
    path = job_file(tmp_path, 'name = "wheel"\ndivide = 383', head='name = "a"\nhead = "head-40-two-faced"\n')
    outcome = halfnut("job", path)
    assert outcome.returncode == 1
    assert "BEYOND ITS TOLERANCE" in outcome.stdout
    assert "NOT DIVIDED WITHIN TOLERANCE: wheel." in outcome.stdout
    said = " ".join(outcome.stdout.split())
    assert "in the one set-up that each has handles fewer; of wheel the nearest alone" in said
    assert "all 1 set-ups" not in said
    told = halfnut("divide", "383", "--head", "head-40-two-faced").stderr
    remedies = [line for line in told.splitlines() if line.startswith(("A circle", "One wheel", "2 divisions"))]
    assert len(remedies) == 3
    assert all(line in outcome.stderr for line in remedies)
    exact = halfnut("job", job_file(tmp_path, 'name = "wheel"\ndivide = 127', head=HEADER))
    assert exact.returncode == 0
    assert "TOLERANCE" not in exact.stdout


def test_the_step_of_a_worm_wheel_says_blank_swing_depth_and_cutter_and_where_the_rest_is(tmp_path):
    parts = (
        'name = "worm"\nworm = { size = "module 1", teeth = 40, diameter = "16 mm", starts = 2 }\nafter = ["wheel"]',
        'name = "wheel"\nwheel = "worm"',
    )
    path = job_file(tmp_path, *parts)
    step = next(each for each in answer_of("job", path)["steps"] if each["part"] == "wheel")
    # By hand: throat 40 + 2; depth nine tenths of 2.25; lead angle atan(2/16) = 7.125 degrees.
    assert step["asked"]["throat"]["mm"] == "42"
    assert step["asked"]["gash_depth"]["mm"] == "81/40"
    assert step["asked"]["swing_deg"].startswith("7.12501")
    command = step["asked"]["in_full"]
    assert command == 'halfnut worm --module 1 --teeth 40 --starts 2 --worm-diameter "16 mm" --head head-40-two-faced'
    screen = " ".join(halfnut("job", path).stdout.split())
    for piece in ("Throat dia 42 mm", "Swing table", "2.025 mm", "Cutter at most", command):
        assert piece in screen
    alone = halfnut(*shlex.split(command)[1:]).stdout
    assert "2.025 mm" in alone


def test_the_time_limit_leaves_the_loading_of_the_constraint_solver_out(monkeypatch):
    now = [100]
    monkeypatch.setattr("cli.commands.job.time.monotonic", lambda: now[0])
    progress = _Progress(2, 3)
    now[0] = 101
    progress.tell("loading", 0)
    now[0] = 109
    progress.tell("loaded", 0)
    assert progress.seconds_left() == 2
    now[0] = 111
    assert progress.seconds_left() == 0


def test_the_command_told_for_a_part_cuts_that_part(tmp_path):
    path = job_file(
        tmp_path,
        'name = "a"\nthread = "Tr 16x4"\nstarts = 2\nhand = "left"',
        'name = "b"\nthread = "M10"\nstarts = 3',
        'name = "c"\nthread = "1.5 mm"\nstarts = 2\nhand = "left"\ndiameter = "12 mm"',
        head='name = "a"\nlathe = "metric-3"\n',
    )
    told = {step["part"]: step["asked"]["in_full"] for step in answer_of("job", path)["steps"]}
    wanted = {"a": (4, 2, "left"), "b": (Fraction(3, 2), 3, "right"), "c": (Fraction(3, 2), 2, "left")}
    for part, command in told.items():
        answer = answer_of(*shlex.split(command)[1:])
        assert (Fraction(answer["pitch"]["mm"]), answer["starts"], answer["asked"]["hand"]) == wanted[part], command


def test_a_sleeve_is_in_no_box_and_is_lent_all_the_same(tmp_path):
    (tmp_path / "keyed.toml").write_text(
        'name = "keyed"\n[leadscrew]\nlead = "8 tpi"\n[drive]\nstud_turns = "1"\nreverse = true\n[wheels]\n'
        'size = "module 1"\nteeth = { 20 = 1, 25 = 1, 30 = 1, 40 = 1, 48 = 1, 50 = 1, 56 = 1, 60 = 1 }\n'
        "keyed_pairs = [[60, 63]]\n",
        encoding="utf-8",
    )
    head = 'name = "a"\nlathe = "keyed.toml"\nhead = "head-40-three-plates"\nwithin = "exact"\none_box = true\n'
    parts = ('name = "a"\nthread = "8 tpi"', 'name = "b"\nthread = "21 tpi"', 'name = "c"\ndivide = 60')
    steps = answer_of("job", job_file(tmp_path, *parts, head=head))["steps"]
    # 8 on 21 tpi with 20, 50 and the sleeve 63-60: 20/63 x 60/50 is 8/21.
    assert [[20, 63], [60, 50]] in [step["train"]["pairs"] for step in steps if step.get("train")]
