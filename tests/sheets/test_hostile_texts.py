"""Names and notes that a person, or somebody else, put into a file come out of a sheet as letters and nothing more."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest

from cli.views.sheets.page import sheet_html
from cli.views.sheets.pieces import (
    Card,
    Cautions,
    Count,
    CountRow,
    Facts,
    Grid,
    Lead,
    Lines,
    Measured,
    Picture,
    Resume,
    Sheet,
    Shout,
)
from tests.cli.running import halfnut

HOSTILE = """</style></title><script>alert(1)</script>"><img src=x onerror='alert(2)'> {{ 7*7 }} & \\3c """
TURNING = "\u202egnp\u202c \u2066x\u2069 \x1b[31m \x07 \u200b"
LATHE = """
name = '''{name}'''
[leadscrew]
lead = "8 tpi"
[drive]
stud_turns = "1"
reverse = true
[wheels]
size = "module 1"
teeth = {{ 20 = 1, 25 = 1, 40 = 1, 50 = 1, 60 = 1, 127 = 1 }}
[gearbox]
levers = {{ '{lever}' = "1" }}
"""
HEAD = """
name = '''{name}'''
worm_ratio = "40"
plates = [ {{ name = '''{plate}''', faces = [[15, 16, 17, 18, 19, 20, 21]] }} ]
"""


class Tags(HTMLParser):
    """Every tag of a page with the names of its attributes."""

    def __init__(self):
        super().__init__()
        self.seen = []

    def handle_starttag(self, tag, attrs):
        self.seen.append((tag, [name for name, _ in attrs]))


def every_piece(text):
    return [
        Facts([(text, text)], text),
        Lead(text, text),
        Shout(text, text),
        Lines(text, [text], ticked=True),
        Grid(text, [(text, "left"), (text, "right")], [[text, text]], ticked=True, notes=[text]),
        Count(text, [(text, "left")], [(text, [CountRow([text])])], notes=[text]),
        Picture('<svg viewBox="0 0 1 1"><circle r="1"/></svg>', text, [text]),
        Cautions([text]),
        Measured([text]),
        Resume([text]),
    ]


def hostile_sheet(text):
    cards = [Card(text, text, every_piece(text)) for _ in range(2)]
    return sheet_html(Sheet(text, cards, every_piece(text)))


def test_no_piece_lets_markup_through():
    page = hostile_sheet(HOSTILE)
    assert "<script" not in page
    assert "<img" not in page
    assert page.count("</style>") == 1
    assert page.count("</title>") == 1 + page.count("<svg")
    assert "49" not in page, "a text is never read as a template"
    tags = Tags()
    tags.feed(page)
    assert {"script", "img"} & {tag for tag, _ in tags.seen} == set()
    assert [name for _, names in tags.seen for name in names if name.startswith("on")] == []


def test_no_piece_lets_turning_or_hidden_signs_through():
    page = hostile_sheet(TURNING)
    assert [letter for letter in page if not letter.isprintable() and letter not in "\n\N{NO-BREAK SPACE}"] == []
    assert "\N{REPLACEMENT CHARACTER}" in page


def test_a_browser_runs_nothing_of_it(browser):
    page = browser.new_page()
    said = []
    page.on("dialog", lambda dialog: (said.append(dialog.message), dialog.dismiss()))
    page.on("console", lambda message: said.append(message.text))
    page.on("request", lambda request: said.append(request.url))
    page.set_content(hostile_sheet(HOSTILE))
    assert page.evaluate("document.querySelectorAll('script, img, iframe, object, link').length") == 0
    assert page.evaluate("document.title") == HOSTILE.strip()
    assert page.evaluate("document.querySelector('.machine').textContent") == HOSTILE
    assert said == []
    page.close()


def test_hostile_names_in_a_lathe_file_arrive_as_letters(tmp_path):
    name, lever = 'B</style><script>alert(1)</script>"&', "<b onclick=alert(1)>A1"
    lathe, sheet = tmp_path / "lathe.toml", tmp_path / "sheet.html"
    lathe.write_text(LATHE.format(name=name, lever=lever), encoding="utf-8")
    outcome = halfnut("train", "1mm", "--lathe", str(lathe), "--sheet", str(sheet))
    assert outcome.returncode == 0, outcome.stderr
    page = sheet.read_text(encoding="utf-8")
    assert "<script" not in page
    assert "<b onclick" not in page
    assert "B&lt;/style&gt;&lt;script&gt;alert(1)&lt;/script&gt;" in page
    assert "lever &lt;b onclick=alert(1)&gt;A1" in page


def test_hostile_names_in_a_head_file_arrive_as_letters(tmp_path):
    head, sheet = tmp_path / "head.toml", tmp_path / "sheet.html"
    head.write_text(HEAD.format(name="H<script>1</script>", plate="<i>P</i>"), encoding="utf-8")
    outcome = halfnut("divide", "28", "--head", str(head), "--sheet", str(sheet))
    assert outcome.returncode == 0, outcome.stderr
    page = sheet.read_text(encoding="utf-8")
    assert "<script" not in page
    assert "<i>" not in page
    assert "plate &lt;i&gt;P&lt;/i&gt;" in page


@pytest.mark.parametrize("sign", ["\u202e", "\u2066", "\x1b"])
def test_signs_that_turn_writing_are_refused_in_a_lathe_file(tmp_path, sign):
    lathe, sheet = tmp_path / "lathe.toml", tmp_path / "sheet.html"
    shown = f"\\u{ord(sign):04x}"
    lathe.write_text(LATHE.format(name="x", lever="A").replace("'''x'''", f'"x{shown}"'), encoding="utf-8")
    outcome = halfnut("train", "1mm", "--lathe", str(lathe), "--sheet", str(sheet))
    assert outcome.returncode == 3, outcome.stderr
    assert not sheet.exists()
