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
