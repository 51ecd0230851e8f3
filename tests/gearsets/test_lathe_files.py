"""Lathe and head files that are wrong, and what is said of them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gearsets.file_faults import MOST_WORDED, FileFaultsError
from gearsets.head_files import find_head, load_head_text
from gearsets.lathe_files import LATHES, find_lathe, lathe_toml, load_lathe_text
from gearsets.name_lookup import UnknownNameError
from gearsets.value_checks import LONGEST_NAME
from solver.dividing.heads import Head
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.trains.lathe import Banjo, ChasingDial, Lathe
from solver.trains.wheels import WheelClass
from tests.gearsets.shop_texts import FULL, GOOD, HEAD, faults_of, only_fault


def test_every_key_of_a_full_lathe_file_is_read():
    mm = Length.of_mm
    assert load_lathe_text(FULL, "full.toml") == Lathe(
        "Bench lathe",
        "3 mm",
        mm(3),
        Fraction(1, 2),
        True,
        (
            WheelClass("module 1", mm(1), ((20, 2), (30, 1))),
            WheelClass("60 DP", mm(Fraction(127, 300)), ((100, 2), (127, 1)), 1),
        ),
        ((60, 63),),
        Banjo(
            2,
            mm(150),
            (mm(30), mm(135)),
            (Angle.of_degrees(-20), Angle.of_degrees(60)),
            mm(20),
            ((mm(40), mm(75)), (mm(43), mm(90))),
            127,
        ),
        (("A1", Fraction(1)), ("A2", Fraction(3, 4))),
        ChasingDial(32, 8),
        (60,),
    )


def test_a_full_lathe_is_read_back_equal_from_what_is_written_of_it():
    lathe = load_lathe_text(FULL, "full.toml")
    assert load_lathe_text(lathe_toml(lathe), "copy.toml") == lathe


def test_the_drive_may_be_left_out():
    lathe = load_lathe_text(GOOD, "mine.toml")
    assert (lathe.stud_turns, lathe.has_reverse, lathe.banjo) == (1, False, None)


def test_a_stock_of_one_wheel_loads():
    assert load_lathe_text(GOOD.replace("20 = 2, ", ""), "mine.toml").wheel_classes[0].stock == ((127, 1),)


def test_six_different_faults_are_reported_at_once_each_with_its_place():
    text = (
        'name = "Bench lathe"\ncolour = "green"\n[leadscrew]\nlead = "module 1"\n[wheels]\nsize = "module 1"\n'
        'teeth = { 20 = 2, 4 = 1, 25 = 0 }\n[banjo]\ncentre_distance = 150.5\nslot = ["135 mm", "30 mm"]\n'
    )
    assert sorted(fault.place for fault in faults_of(text)) == [
        "banjo.centre_distance (line 9)",
        "banjo.slot (line 10)",
        "colour (line 2)",
        "leadscrew.lead (line 4)",
        "wheels.teeth.25 (line 7)",
        "wheels.teeth.4 (line 7)",
    ]


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("20 = 2", "20 = 2, 20 = 1", "20 is written twice); write 20 = how many you have"),
        ('size = "module 1"', 'size = "module 1"\nsize = "module 2"', "size is written twice); write it once"),
        ('size = "module 1"', "size = True", "True); write true, in small letters and without quotes"),
        ('size = "module 1"', "size = no", "no); write false, in small letters and without quotes"),
        ("20 = 2", "25.5 = 1", "wheels.teeth.25 (line 6): is a table, not a whole number; a tooth count has no point"),
        ("20 = 2", '"20" = 1, 25.5 = "1"', "wheels.teeth.25 (line 6): is a table, not a whole number"),
    ],
)
def test_slips_often_made_are_named_with_what_would_be_right(old, new, said):
    faults = faults_of(GOOD.replace(old, new))
    assert len(faults) == 1
    assert said in str(faults[0])


def test_faults_are_worded_one_to_a_line_below_their_number():
    with pytest.raises(FileFaultsError) as caught:
        load_lathe_text(GOOD.replace("module 1", "large").replace("8 tpi", "8"), "mine.toml")
    first, *rest = str(caught.value).splitlines()
    assert first == "2 faults in mine.toml:"
    assert [line.partition(":")[0] for line in rest] == ["  leadscrew.lead (line 3)", "  wheels.size (line 5)"]


@pytest.mark.parametrize(
    ("old", "new", "place", "problem"),
    [
        ('name = "Bench lathe"', "", "name", "missing"),
        ('lead = "8 tpi"', "", "leadscrew.lead (line 2)", "missing"),
        ('"8 tpi"', '"0.5 in CP"', "leadscrew.lead (line 3)", "in mm, in or tpi"),
        ('"8 tpi"', '"4 mm 2 starts"', "leadscrew.lead (line 3)", "without starts"),
        ('"8 tpi"', "8.0", "leadscrew.lead (line 3)", "decimal number outside quotes"),
        ('"8 tpi"', "1979-05-27", "leadscrew.lead (line 3)", "a date or time, not text"),
        ('"8 tpi"', "nan", "leadscrew.lead (line 3)", "decimal number outside quotes"),
        ('"8 tpi"', "true", "leadscrew.lead (line 3)", "true or false, not text"),
        ("{ 20 = 2, 127 = 1 }", "{}", "wheels.teeth (line 6)", "has no wheel"),
        ("{ 20 = 2, 127 = 1 }", "[20, 127]", "wheels.teeth (line 6)", "a list, not a table"),
        ("20 = 2", "020 = 2", "wheels.teeth.020 (line 6)", "not a tooth count"),
        ("20 = 2", "401 = 2", "wheels.teeth.401 (line 6)", "not a tooth count"),
        ("20 = 2", "20.5 = 2", "wheels.teeth.20 (line 6)", "a table, not a whole number"),
        ("20 = 2", "20 = 100", "wheels.teeth.20 (line 6)", "100 is not from 1 to 99"),
        ("20 = 2", "20 = true", "wheels.teeth.20 (line 6)", "true or false, not a whole number"),
        ("20 = 2", "20 = 0x" + "f" * 9000, "wheels.teeth.20 (line 6)", "more than 19 digits"),
        ("20 = 2", "20 = 1.5", "wheels.teeth.20 (line 6)", "a decimal number, not a whole number"),
        ('"Bench lathe"', '"\\u001b[31mEvil"', "name (line 1)", "cannot be printed (U+001B)"),
        ('"Bench lathe"', '"Bench\\nlathe"', "name (line 1)", "cannot be printed (U+000A)"),
        ('"Bench lathe"', '"Bench\\u202elathe"', "name (line 1)", "cannot be printed (U+202E)"),
        ("Bench lathe", "x" * (LONGEST_NAME + 1), "name (line 1)", "101 characters, more than 100"),
        ('"8 tpi"', '"8\\ntpi"', "leadscrew.lead (line 3)", "cannot be printed"),
        ("20 = 2, ", "20 = 2, '²' = 1, ", "wheels.teeth.² (line 6)", "not a tooth count"),
    ],
)
def test_one_slip_in_a_good_file_is_one_fault_in_its_place(old, new, place, problem):
    fault = only_fault(GOOD.replace(old, new))
    assert fault.place == place
    assert problem in fault.problem
    assert fault.remedy


@pytest.mark.parametrize(
    ("old", "new", "place", "problem"),
    [
        ("reverse = true", 'reverse = "yes"', "drive.reverse (line 6)", "text, not true or false"),
        ('"1/2"', '"0"', "drive.stud_turns (line 5)", "above zero"),
        ("[[60, 63]]", "[[60, 63, 65]]", "wheels.keyed_pairs[1] (line 10)", "3 entries, not 2"),
        ("[[60, 63]]", "60", "wheels.keyed_pairs (line 10)", "not a list"),
        ("only_in_pair = 1", "only_in_pair = 0", "wheels.other[1].only_in_pair (line 14)", "0 is not from 1"),
        ('"60 DP"', '"60"', "wheels.other[1].size (line 12)", "module or a DP"),
        ("[[60, 63]]", "[[60, 4]]", "wheels.keyed_pairs[1][2] (line 10)", "4 is not from 5 to 400"),
        ("[[60, 63]]", "[[401, 63]]", "wheels.keyed_pairs[1][1] (line 10)", "401 is not from 5 to 400"),
        ("studs = 2", "studs = -1", "banjo.studs (line 16)", "-1 is not from 1 to 9"),
        ("studs = 2", "studs = 0", "banjo.studs (line 16)", "0 is not from 1 to 9"),
        ("studs = 2", "studs = 10", "banjo.studs (line 16)", "10 is not from 1 to 9"),
        ("A2 =", "'A\u00a02' =", "gearbox.levers.A\ufffd2 (line 24)", "cannot be printed (U+00A0)"),
        ("A2 =", '"A\\n2" =', "gearbox.levers.A\ufffd2", "cannot be printed (U+000A)"),
        ("A2 =", "A" * 101 + " =", "gearbox.levers." + "A" * 60 + "… (line 24)", "101 characters"),
        ("studs = 2", "stud = 2", "banjo.stud (line 16)", "not a key known here"),
        ('"150 mm"', '"0 mm"', "banjo.centre_distance (line 17)", "zero"),
        ('"30 mm", "135 mm"', '"30 mm"', "banjo.slot (line 18)", "1 figures, not two"),
        ('"-20 deg"', '"-20"', "banjo.swing[1] (line 19)", "needs its unit"),
        ('["43 mm", "90 mm"]', '["90 mm", "43 mm"]', "banjo.mesh_limits[2] (line 21)", "does not rise"),
        ("largest_wheel_teeth = 127", "largest_wheel_teeth = 3", "banjo.largest_wheel_teeth (line 22)", "3 is not"),
        ('{ A1 = "1", A2 = "3/4" }', "{}", "gearbox.levers (line 24)", "no position"),
        ('"3/4"', '"x"', "gearbox.levers.A2 (line 24)", "cannot be read"),
        ("lines = 8", "", "chasing_dial.lines (line 25)", "missing"),
        ("[60]\n", "[60, 60]\n", "spindle_stops.counts[2] (line 29)", "stands twice"),
    ],
)
def test_one_slip_in_a_full_file_is_one_fault_in_its_place(old, new, place, problem):
    fault = only_fault(FULL.replace(old, new))
    assert fault.place == place
    assert problem in fault.problem
    assert fault.remedy


@pytest.mark.parametrize(
    ("teeth", "remedy"),
    [
        ("[20, 30]", "write teeth = { 20 = 1, 30 = 1 }, teeth = how many you have"),
        ("{ 20 = 1.5 }", "write a whole number of wheels from 1 to 99"),
        ("{ 20 = 0 }", "write a whole number of wheels from 1 to 99"),
    ],
)
def test_a_slip_in_the_box_of_wheels_is_met_with_how_a_box_is_written(teeth, remedy):
    assert only_fault(GOOD.replace("{ 20 = 2, 127 = 1 }", teeth)).remedy == remedy


def test_keyed_pairs_are_in_addition_to_the_loose_wheels():
    lathe = load_lathe_text(FULL.replace("[[60, 63]]", "[[60, 63], [60, 63], [45, 45]]"), "mine.toml")
    assert lathe.keyed_pairs == ((60, 63), (60, 63), (45, 45))
    assert [teeth for teeth, _ in lathe.wheel_classes[0].stock] == [20, 30]
    assert "in addition to the loose ones" in only_fault(FULL.replace("[[60, 63]]", "60")).remedy


def test_names_of_the_longest_kind_are_read():
    name = "ä" * LONGEST_NAME
    assert load_lathe_text(GOOD.replace("Bench lathe", name), "mine.toml").name == name


def test_an_unknown_key_is_met_with_the_known_one_that_looks_like_it():
    assert only_fault(FULL.replace("studs = 2", "stud = 2")).remedy == "perhaps studs is meant"


def test_the_line_of_the_second_of_two_classes_is_found():
    text = FULL.replace("[banjo]", '[[wheels.other]]\nsize = "large"\nteeth = { 50 = 1 }\n[banjo]')
    assert only_fault(text).place == "wheels.other[2].size (line 16)"


def test_a_word_in_a_comment_or_in_quotes_is_not_taken_for_the_key():
    text = '# lead = "x"\n' + GOOD.replace("Bench lathe", "lead = x").replace("8 tpi", "8")
    assert only_fault(text).place == "leadscrew.lead (line 4)"


def test_a_table_that_is_not_one_is_one_fault_and_not_a_row_of_missing_keys():
    text = 'wheels = 3\nname = "x"\n[leadscrew]\nlead = "8 tpi"\n'
    assert [fault.place for fault in faults_of(text)] == ["wheels (line 1)"]


def test_a_file_with_very_many_faults_words_only_the_first():
    with pytest.raises(FileFaultsError) as caught:
        load_lathe_text("\n".join(f"k{number} = 1" for number in range(500)) + "\n" + GOOD, "mine.toml")
    assert len(caught.value.faults) == 500
    assert len(str(caught.value).splitlines()) == MOST_WORDED + 2


def test_a_persons_own_file_goes_before_a_shipped_one_of_the_same_name(tmp_path):
    own = tmp_path / "halfnut" / "lathes"
    own.mkdir(parents=True)
    (own / "inch-8.toml").write_text(GOOD, encoding="utf-8")
    environ = {"XDG_DATA_HOME": str(tmp_path)}
    assert find_lathe("inch-8", environ).name == "Bench lathe"
    assert find_lathe("inch-4", environ).name != "Bench lathe"


def test_without_xdg_a_persons_own_files_are_below_the_home_folder(tmp_path):
    own = tmp_path / ".local" / "share" / "halfnut" / "heads"
    own.mkdir(parents=True)
    (own / "mine.toml").write_text(HEAD, encoding="utf-8")
    assert find_head("mine", {"HOME": str(tmp_path)}).worm_ratio == 40


def test_an_unknown_lathe_is_met_with_near_names_and_how_to_list_them(tmp_path):
    with pytest.raises(UnknownNameError) as caught:
        find_lathe("inch-8-for", {"XDG_DATA_HOME": str(tmp_path)})
    assert "inch-8-fours" in str(caught.value)
    assert "halfnut lathe list" in str(caught.value)


@given(st.text(min_size=1).filter(lambda word: word not in LATHES.shipped_names()))
def test_any_word_finds_a_lathe_or_is_refused(word):
    with pytest.raises((UnknownNameError, FileFaultsError)):
        find_lathe(word, {"XDG_DATA_HOME": "/nowhere"})


@pytest.mark.parametrize(
    ("text", "place", "problem"),
    [
        ('name = "head"\n', "worm_ratio", "missing"),
        ('name = "head"\nworm_ratio = "0"', "worm_ratio (line 2)", "above zero"),
        (HEAD + "direct_circles = [24, 1]", "direct_circles[2] (line 3)", "1 is not from 2 to 2000"),
        (HEAD + 'plates = ["A"]', "plates[1] (line 3)", "text, not a table"),
        (HEAD + 'plates = [{ name = "A", faces = [] }]', "plates[1].faces (line 3)", "is empty"),
        (HEAD + 'plates = [{ name = "A", faces = [[15], []] }]', "plates[1].faces[2] (line 3)", "0 entries"),
        (HEAD + 'plates = [{ name = "A", faces = [15, 16] }]', "plates[1].faces[1] (line 3)", "not a list"),
        (HEAD + '[table]\nlead = "module 1"', "table.lead (line 4)", "in mm, in or tpi"),
        (HEAD + "[table]", "table.lead (line 3)", "missing"),
        (HEAD + "[wheels]\nteeth = {}", "wheels.teeth (line 4)", "has no wheel"),
        (HEAD + "[wheels]\nteeth = { 24 = 1 }\none_idler_plate = 1", "wheels.one_idler_plate (line 5)", "not text"),
        (HEAD + '[wheels]\nteeth = { 24 = 1 }\none_idler_plate = "yes"', "wheels.one_idler_plate (line 5)", "against"),
        (HEAD + '[wheels]\none_idler_plate = "follows"', "wheels.teeth (line 3)", "is missing"),
        (HEAD + 'one_idler_plate = "follows"', "one_idler_plate (line 3)", "not a key known here"),
        ('name = "a\\u0007"\nworm_ratio = "40"', "name (line 1)", "cannot be printed (U+0007)"),
        (HEAD + 'plates = [{ name = "A\\nB", faces = [[15]] }]', "plates[1].name (line 3)", "cannot be printed"),
        (HEAD + f'plates = [{{ name = "{"A" * 101}", faces = [[15]] }}]', "plates[1].name (line 3)", "101 characters"),
        (HEAD + 'plates = [{ name = "A", faces = [[15, 15]] }]', "plates[1].faces[1][2] (line 3)", "stands twice"),
        (
            HEAD + 'plates = [\n{ name = "A", faces = [[15]] },\n{ name = "A", faces = [[16]] }]',
            "plates[2].name (line 5)",
            "another plate",
        ),
    ],
)
def test_a_slip_in_a_head_file_is_a_fault_in_its_place(text, place, problem):
    faults = faults_of(text, load_head_text)
    assert place in [fault.place for fault in faults]
    assert any(problem in fault.problem for fault in faults)


def test_a_rotary_table_with_nothing_but_a_dial_loads():
    assert load_head_text(HEAD, "mine.toml") == Head("head", Fraction(40), ())


def test_a_banjo_with_two_slots_and_a_measured_left_hand_screw_is_read_and_written_back():
    lathe = load_lathe_text(
        "\n".join(
            [
                'name = "two slots"',
                "[leadscrew]",
                'lead = "3 mm"',
                'measured = "-0.02 mm in 300 mm"',
                'hand = "left"',
                "[wheels]",
                'size = "module 1"',
                "teeth = { 20 = 1, 30 = 1 }",
                "[banjo]",
                'slot = ["30 mm", "90 mm"]',
                'second_slot = ["40 mm", "120 mm"]',
                'second_slot_at = "-25 deg"',
                "planes = 2",
            ]
        ),
        "mine.toml",
    )
    assert lathe.measured == Fraction(-1, 15_000)
    assert lathe.has_left_hand_screw
    assert lathe.banjo is not None
    assert (lathe.banjo.planes, lathe.banjo.second_slot_at) == (2, Angle.of_degrees(-25))
    assert load_lathe_text(lathe_toml(lathe), "copy.toml") == lathe


@pytest.mark.parametrize(
    ("line", "where"),
    [
        ('[leadscrew]\nmeasured = "0.03 mm"', "leadscrew.measured"),
        ('[leadscrew]\nhand = "both"', "leadscrew.hand"),
        ('[banjo]\nslot = ["30 mm", "90 mm"]\nsecond_slot = ["40 mm", "120 mm"]', "banjo.second_slot"),
        ('[banjo]\nsecond_slot = ["40 mm", "120 mm"]\nsecond_slot_at = "25 deg"', "banjo.second_slot"),
        ('[banjo]\nsecond_slot_at = "25 deg"', "banjo.second_slot"),
        ("[banjo]\nplanes = 0", "banjo.planes"),
    ],
)
def test_a_fault_of_the_new_keys_is_named_in_its_place(line, where):
    with pytest.raises(FileFaultsError) as caught:
        load_lathe_text(line, "mine.toml")
    assert f"{where} " in str(caught.value) or f"{where}:" in str(caught.value)
