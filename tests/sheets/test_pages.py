"""Every kind of sheet as a browser shows and prints it: whole, quiet, legible, on a phone and on two papers."""

from __future__ import annotations

import io
import re
import unicodedata
from itertools import pairwise

import pytest
from pypdf import PdfReader

from cli.views.sheets.page import sheet_html
from cli.views.sheets.pieces import Card, Facts, Lines, Sheet

PAPERS = ("A4", "Letter")
#: Printed width between the margins, the narrower of the two papers. [px of 1/96 in]
PRINTED = 703
PHONE = {"width": 390, "height": 844}
TWELVE_POINTS = 16

#: Texts of the page that must come out on paper, each as one piece.
TEXTS = """() => [...document.querySelectorAll('h1, h2, h3, dt, th, td, li, caption, .lead strong, .shout strong')]
  .map(each => each.textContent.trim()).filter(text => text)"""
#: Everything that stands out over the right edge, as tag and text.
BEYOND = """wide => [...document.body.querySelectorAll('*')].filter(each => {
  const box = each.getBoundingClientRect();
  return box.width && (box.right > wide + 0.6 || box.left < -0.6);
}).map(each => each.tagName + ' ' + each.textContent.trim().slice(0, 40))"""
#: Text smaller than asked, or light on its ground; a ground is the nearest that is not clear.
FAINT = """least => {
  const light = colour => {
    const [r, g, b, a] = colour.match(/[0-9.]+/g).map(Number);
    if (a === 0) return null;
    const line = [r, g, b].map(c => c / 255).map(c => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
    return 0.2126 * line[0] + 0.7152 * line[1] + 0.0722 * line[2];
  };
  const ground = each => {
    for (let at = each; at; at = at.parentElement) {
      const found = light(getComputedStyle(at).backgroundColor);
      if (found !== null) return found;
    }
    return 1;
  };
  return [...document.body.querySelectorAll('*')].filter(each => {
    if (![...each.childNodes].some(node => node.nodeType === 3 && node.textContent.trim())) return false;
    const style = getComputedStyle(each);
    const drawn = each instanceof SVGElement;
    if (drawn && ['title', 'desc'].includes(each.tagName)) return false;
    const ink = light(drawn ? style.fill : style.color), paper = drawn ? 1 : ground(each);
    const contrast = (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05);
    return contrast < 7 || (!drawn && parseFloat(style.fontSize) < least);
  }).map(each => each.tagName + ' ' + each.textContent.trim().slice(0, 40));
}"""
#: What a reader that does not see the page would miss.
UNNAMED = """() => [
  ...[...document.querySelectorAll('th')].filter(each => !['col', 'row'].includes(each.scope)),
  ...[...document.querySelectorAll('svg')].filter(each => !each.querySelector('title')?.textContent.trim()
     || each.getAttribute('role') !== 'img'),
  ...[...document.querySelectorAll('input')].filter(each => !each.getAttribute('aria-label')),
  ...[...document.querySelectorAll('table')].filter(each => !each.caption
     && !document.getElementById(each.getAttribute('aria-labelledby'))),
  ...[...document.querySelectorAll('[aria-labelledby]')].filter(
     each => !document.getElementById(each.getAttribute('aria-labelledby'))),
].map(each => each.outerHTML.slice(0, 80))"""


def squeezed(text: str) -> str:
    """Leave out blanks and take letters joined in print apart."""
    return re.sub(r"\s+", "", unicodedata.normalize("NFKC", text))


@pytest.fixture
def page(browser):
    page = browser.new_page()
    page.said = []
    page.on("console", lambda message: page.said.append(message.text))
    page.on("pageerror", lambda error: page.said.append(str(error)))
    page.on("request", lambda request: page.said.append(request.url))
    yield page
    page.close()


def test_a_sheet_is_quiet_legible_on_a_phone_and_whole_on_paper(page, kind, make_sheet):
    url = make_sheet(*kind.words).as_uri()
    page.set_viewport_size(PHONE)
    page.goto(url)
    assert page.said == [url], "nothing but the file itself is asked for, and nothing is complained of"
    fits_a_phone(page)
    is_told_to_who_does_not_see(page)
    page.emulate_media(media="print")
    page.set_viewport_size({"width": PRINTED, "height": 1000})
    assert page.evaluate(BEYOND, PRINTED) == []
    assert page.evaluate(FAINT, TWELVE_POINTS) == []
    kept = page.evaluate("[...document.querySelectorAll('tr')].map(each => getComputedStyle(each).breakInside)")
    assert set(kept) <= {"avoid"}
    prints_whole(page, kind.pages)


def test_many_cards_have_a_cover_and_a_page_each(page):
    cards = [Card(f"Set-up {letter}", "lathe", [Lines("Do", ["this"])]) for letter in "ABCD"]
    cards.append(Card("Short one", "head", [Lines("Do", ["that"])], needs_own_page=False))
    page.set_content(sheet_html(Sheet("A job", cards, [Facts([("Parts", "5")])])))
    is_told_to_who_does_not_see(page)
    links = page.evaluate("[...document.querySelectorAll('nav a')].map(each => each.getAttribute('href'))")
    assert [page.locator(link).get_attribute("aria-labelledby") for link in links] == [
        f"title-{n}" for n in range(1, 6)
    ]
    pages = [each.extract_text() for each in PdfReader(io.BytesIO(page.pdf(format="A4"))).pages]
    assert len(pages) == 5
    assert all(title in squeezed(pages[0]) for title in ("Ajob", "Set-upA", "Set-upD", "Shortone", "Parts"))
    assert "Shortone" in squeezed(pages[4])


def fits_a_phone(page):
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert page.evaluate(BEYOND, PHONE["width"]) == []
    assert page.evaluate(FAINT, 12) == []


def is_told_to_who_does_not_see(page):
    assert page.evaluate(UNNAMED) == []
    assert page.evaluate("document.documentElement.lang") == "en"
    assert page.title()
    names = page.evaluate("[...document.querySelectorAll('[id]')].map(each => each.id)")
    assert len(names) == len(set(names))
    levels = page.evaluate("[...document.querySelectorAll('h1, h2, h3, h4')].map(each => Number(each.tagName[1]))")
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


def prints_whole(page, most_pages):
    texts = page.evaluate(TEXTS)
    for paper, most in zip(PAPERS, most_pages, strict=True):
        pages = PdfReader(io.BytesIO(page.pdf(format=paper))).pages
        assert 1 <= len(pages) <= most
        printed = [squeezed(each.extract_text()) for each in pages]
        for number, text in enumerate(printed, start=1):
            assert f"page{number}of{len(pages)}" in text
        whole = "".join(printed)
        assert [text for text in texts if squeezed(text) not in whole] == []
