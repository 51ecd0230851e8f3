"""A sheet says what the screen and the JSON say: one answer, three ways to read it."""

from __future__ import annotations

import json
from html.parser import HTMLParser

import pytest
from click.testing import CliRunner

from cli.main import bench


class Reader(HTMLParser):
    """The words of a page, rows of tables as lists of cells."""

    def __init__(self, text):
        super().__init__()
        self.words, self.rows, self._open = [], [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        del attrs
        if tag == "tr":
            self.rows.append([])
        if tag in ("td", "th"):
            self.rows[-1].append("")
            self._open.append(tag)

    def handle_endtag(self, tag):
        if tag in ("td", "th"):
            self._open.pop()

    def handle_data(self, data):
        self.words.append(data.strip())
        if self._open:
            self.rows[-1][-1] += data.strip()


def printed(*words):
    """What a command prints, run without a process of its own."""
    surroundings = {"HALFNUT_LATHE": "", "HALFNUT_HEAD": "", "COLUMNS": "80", "NO_COLOR": "1"}
    return CliRunner().invoke(bench, words, env=surroundings, standalone_mode=False).stdout


def answer_of(*words):
    return json.loads(printed(*words, "--json"))


@pytest.fixture
def read(make_sheet):
    def of(*words):
        return Reader(make_sheet(*words).read_text(encoding="utf-8"))

    return of


@pytest.mark.parametrize("words", [("1.25mm", "--lathe", "inch-8-banjo"), ("M10", "--lathe", "inch-8-no127")])
def test_the_card_mounts_the_first_answer(read, words):
    first = answer_of("train", *words)["answers"][0]
    sheet = read("train", *words)
    chain = [teeth for pair in first["pairs"] for teeth in pair]
    mounted = [cell.removesuffix(" T") for row in sheet.rows for cell in row[1:-2] if cell.endswith(" T")]
    assert sorted(map(int, mounted)) == sorted([*chain, *first["idlers"]])
    places = [row[0] for row in sheet.rows if row[-2:][0]]
    assert places[1] == "stud gear"
    assert places[-1] == "leadscrew"
    assert any("Half-nut: KEEP CLOSED" in words for words in sheet.words)


def test_a_half_nut_that_may_open_is_not_told_to_stay_closed(read):
    sheet = read("train", "16tpi", "--lathe", "inch-8")
    assert not any("KEEP CLOSED" in words for words in sheet.words)


@pytest.mark.parametrize("designation", ["M10", "1/4-20 UNC", "Tr 16x4"])
def test_the_passes_to_tick_are_those_of_the_screen(read, designation):
    sheet, screen = read("thread", designation), printed("thread", designation)
    at = next(number for number, row in enumerate(sheet.rows) if row and row[0] == "Pass")
    rows = []
    for row in sheet.rows[at + 1 :]:
        if not row[0].isdigit():
            break
        rows.append(row[:-1])
    shown = [line.split()[:-2] for line in screen.splitlines() if line.rstrip().endswith("[ ]")]
    assert rows == shown
    assert rows


@pytest.mark.parametrize("count", [28, 51, 127])
def test_the_card_of_a_setting_is_the_first_answer(read, count):
    first = answer_of("divide", str(count))["answers"][0]
    sheet = read("divide", str(count))
    move = first["moves"][0]
    spoken = f"{move['turns']} turn{'' if move['turns'] == 1 else 's'} + {move['spaces']} space"
    assert any(words.startswith(spoken) for words in sheet.words)
    last = next(row for row in reversed(sheet.rows) if row[0] == str(count))
    assert last[-2] == "360°00'00\""
    wheels = ["ONLY WITH THE WHEELS ON"] if first["gears"] else []
    assert [words for words in sheet.words if "WHEELS ON" in words] == wheels


def test_motions_on_a_card_stand_in_the_order_they_are_made(read):
    sheet = read("divide", "69", "--method", "compound")
    assert any(words.startswith("both BACK 2 spaces on 23, then pin 18 spaces on 27") for words in sheet.words)
    (arms,) = [words for words in sheet.words if "Arms enclose" in words]
    assert "First plate and crank together" in arms
    assert "3 holes for 2 spaces and 19 holes for 18 spaces" in arms


def test_a_setting_that_is_not_exact_says_so_in_large_letters(read):
    sheet = read("divide", "127", "--method", "nearest")
    assert "NOT EXACT: NEAREST HOLES" in sheet.words


def test_the_chart_of_counts_has_every_count_the_head_covers(read):
    told = answer_of("head", "covers", "head-40-three-plates", "--to", "55")
    covered = {count for method, counts in told["exact_by"].items() if method != "none" for count in counts}
    sheet = read("head", "covers", "head-40-three-plates", "--to", "55")
    assert {int(row[0]) for row in sheet.rows if row[0].isdigit()} == covered


def test_the_chart_of_threads_has_every_thread_that_is_reached(read):
    words = ("reach", "1mm", "1.25mm", "M6", "0.7mm", "--lathe", "inch-8-no127", "--within", "20 ppm")
    told = answer_of(*words)["reach"]
    sheet = read(*words)
    charted = [name for row in sheet.rows[1:] for name in row[2].split(", ")]
    assert sorted(charted) == sorted(row["thread"] for row in told if row["reached"] != "not")


def counted_rows(page):
    """The rows of a count with their marks as numbers, in order, without the heads and the boxes to tick."""
    rows = [[cell.removesuffix("*").strip() for cell in row[:-1]] for row in page.rows]
    return sorted(([int(row[0]), *row[1:]] for row in rows if row[0].isdecimal()), key=lambda row: row[0])


def test_hole_and_pin_place_of_each_mark_are_those_of_the_answer(read):
    words = ("divide", "24", "--with", "pins", "--head", "indexer-36")
    page, answer = counted_rows(read(*words)), answer_of(*words)["rows"][1:]
    assert [row[:3] for row in page] == [[each["mark"], str(each["hole"]), str(each["place"])] for each in answer]
    # 15 degrees a mark, and a hole is 10 of them.
    assert [row[3] for row in page] == [f"{15 * mark}°00'00\"" for mark in range(1, 25)]


@pytest.mark.parametrize(
    ("words", "last"),
    [
        (("divide", "12", "--with", "stops", "--lathe", "inch-8-fours"), "360°00'00\""),
        (("divide", "26", "--with", "wheel", "--lathe", "inch-8-banjo"), "360°00'00\""),
    ],
)
def test_the_places_of_a_locked_spindle_are_those_of_the_answer(read, words, last):
    page, first = counted_rows(read(*words)), answer_of(*words)["answers"][0]
    assert [row[1] for row in page] == [str(place) for place in first["places"][1:]]
    assert page[-1][2] == last


def test_both_cranks_stand_where_so_many_moves_bring_them(read):
    words = ("divide", "127", "--with", "cranks", "--head", "head-two-cranks")
    page = read(*words)
    large, small = answer_of(*words)["answers"][0]["moves"]
    rows = counted_rows(page)
    assert len(rows) == 127
    for mark, at_large, at_small, _ in rows:
        assert int(at_large) == mark * large["spaces"] % large["circle"]
        assert int(at_small) == mark * small["spaces"] % small["circle"]
    # 127 moves of a 127th of a round, short by what the answer says at closure.
    assert rows[-1][3] == "360°00'00\""
    assert "NOT EXACT" in page.words


def test_a_crank_that_goes_back_counts_its_holes_down(read):
    # 27/41 of a large turn less 33 1/3 small turns of 1/100: (27/41 - 1/3) / 40 = 1/123.
    page = read("divide", "123", "--with", "cranks", "--head", "head-two-cranks")
    assert "Small BACK 33 turns + 18 spaces on 54" in page.words
    rows = counted_rows(page)
    assert [row[1:3] for row in rows[:3]] == [["27", "36"], ["13", "18"], ["40", "0"]]
    assert rows[-1][1:] == ["0", "0", "360°00'00\""]
    assert "NOT EXACT" not in page.words


def test_a_round_too_long_to_print_has_no_count(read):
    assert not counted_rows(read("divide", "4000", "--with", "cranks", "--head", "head-two-cranks"))


def test_a_block_is_told_by_the_faces_it_is_turned(read):
    words = read("divide", "3", "--with", "block").words
    assert "every second face" in words
    assert "hex block of 6 faces" in words


@pytest.mark.parametrize(
    "words",
    [
        ("shape", "7", "--from", "20 mm"),
        ("slot", "7", "--in", "24 mm", "--width", "1 mm", "--depth", "2 mm"),
        ("keyway", "7", "--shaft", "25 mm", "--width", "2 mm"),
        ("holes", "7", "--on", "60 mm"),
    ],
    ids=lambda words: words[0],
)
def test_the_card_of_a_part_on_a_table_with_a_dial_lists_what_the_dial_reads(read, words):
    page = read(*words, "--head", "table-90-dial")
    rows = [row[1:] for row in counted_rows(page) if len(row) == 4 and "°" in row[2]]
    # A seventh is 12 turns and 3 deg 25' 40" of the dial; two are 25 turns and 2 deg 51' 30".
    assert rows[:2] == [["12", "3°25'40\"", "51°25'43\""], ["25", "2°51'30\"", "102°51'26\""]]
    assert len(rows) == 7
    assert "ROUNDED FROM ZERO" in page.words
    assert "NO MOVES ON THIS HEAD" not in page.words
    assert any(said.startswith("A dial has no stop") for said in page.words)


def test_the_card_of_marks_at_angles_of_their_own_tells_turns_and_hole(read):
    # 40:1: 30 deg is 3 turns and 6 of 18, 58.5 deg 6 turns and 9 of 18.
    page = read("divide", "--angle", "58.5 deg", "--angle", "30 deg", "--head", "head-40-three-plates")
    assert counted_rows(page) == [
        [0, "0°00'00\"", "0 + 0", "0"],
        [1, "30°00'00\"", "3 + 6", "0"],
        [2, "58°30'00\"", "6 + 9", "0"],
    ]
    assert "Count of 2 marks beside mark 0" in page.words
    assert "Each mark from zero, 18 circle, plate A" in page.words
    assert "NOT EXACT: NEAREST HOLES" not in page.words
    on_49 = read("divide", "--angle", "58.5 deg", "--angle", "30 deg", "--circle", "49")
    assert "NOT EXACT: NEAREST HOLES" in on_49.words


@pytest.mark.parametrize("head", ["table-90-dial", "head-40-three-plates"])
def test_marks_that_leave_mark_0_alone_are_one_line_fewer_than_are_cut(read, head):
    # Lines at 0, 27, 57 and 90 deg are four; thirds that end on the first line are three.
    asked = ("--angle", "27 deg", "--angle", "57 deg", "--angle", "90 deg", "--head", head)
    page = read("divide", *asked)
    assert [row[0] for row in counted_rows(page)] == [0, 1, 2, 3]
    assert "Lines counted, 4 if right, the one at zero among them:" in page.words
    assert "3 marks beside mark 0" in printed("divide", *asked)
    thirds = ("--angle", "1/3 turn", "--angle", "2/3 turn", "--angle", "1 turn", "--head", head)
    page = read("divide", *thirds)
    assert [row[0] for row in counted_rows(page)] == [1, 2, 3]
    assert "Marks counted, 3 if right:" in page.words
    assert "beside mark 0" not in printed("divide", *thirds)


def test_one_angle_has_a_line_at_each_end(read):
    page = read("divide", "--angle", "27 deg", "--head", "table-90-dial")
    assert [row[0] for row in counted_rows(page)] == [0, 1]
    assert "Lines counted, 2 if right, the one at zero among them:" in page.words
    # Three moves of 27 deg on plates: four lines, the first at 0.
    page = read("divide", "--angle", "27 deg", "--moves", "3", "--positions", "--head", "head-40-three-plates")
    assert [row[0] for row in counted_rows(page)] == [0, 1, 2, 3]
