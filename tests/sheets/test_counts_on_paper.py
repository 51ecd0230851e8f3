"""The counts of a sheet: where the hand stops, what is noted at a break, and the order of the blocks on the page."""

from __future__ import annotations

import re

import pytest

from tests.sheets.test_agreement import Reader

DIAL = ("dial", "--screw", "2 mm", "--reads", "0.04 mm", "--head", "head-40-three-plates")
#: A row of a count at which the hand stops: its mark and its line.
STOP = re.compile(r'<tr class="checkpoint">\s*<th[^>]*>(\d+)</th>\s*<td[^>]*>([a-z]+)')
#: Place of every block on the page, by its caption.
PLACES = """() => [...document.querySelectorAll('.blocks caption')].map(each => {
  const box = each.closest('table').getBoundingClientRect();
  return [Math.round(box.top), Math.round(box.left), each.textContent];
})"""


@pytest.mark.parametrize(
    "words", [DIAL, ("dial", "--screw", "10 tpi", "--marks", "125", "--head", "head-40-two-faced")]
)
def test_the_hand_stops_at_the_long_marks_of_a_dial_and_at_the_last(make_sheet, words):
    text = make_sheet(*words).read_text(encoding="utf-8")
    stops = [(int(mark), line) for mark, line in STOP.findall(text)]
    rows = [row for row in Reader(text).rows if len(row) > 2 and row[0].isdigit()]
    long_marks = [int(row[0]) for row in rows if row[1].startswith("long") and row[0] != "0"]
    last = int(rows[-1][0])
    assert [mark for mark, _ in stops] == sorted({*long_marks, last})
    assert all(line == "long" for mark, line in stops if mark != last)


@pytest.mark.parametrize(
    ("words", "noted", "not_noted"),
    [
        (("divide", "6"), "Spindle's circle and hole", "Arms set to"),
        (("divide", "28"), "Arms set to", "Spindle's circle and hole"),
        (("divide", "20", "--method", "plain"), "Pin in circle and hole", "Arms set to"),
        (("divide", "127", "--method", "nearest"), "Pin at turns and hole", "Arms set to"),
    ],
)
def test_a_break_notes_only_what_the_setting_has(make_sheet, words, noted, not_noted):
    told = Reader(make_sheet(*words, "--head", "head-40-three-plates").read_text(encoding="utf-8")).words
    assert noted in told
    assert not_noted not in told


def test_blocks_of_a_count_follow_one_another_across_and_then_down(make_sheet, browser):
    page = browser.new_page(viewport={"width": 820, "height": 1000})
    page.set_content(make_sheet(*DIAL).read_text(encoding="utf-8"))
    placed = page.evaluate(PLACES)
    page.close()
    assert len({left for _, left, _ in placed}) == 2
    assert [name for *_, name in sorted(placed)] == [name for *_, name in placed]
    assert [name for *_, name in placed][:2] == ["0 to 9", "10 to 19"]
