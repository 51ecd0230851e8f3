"""One sheet as one HTML file that needs nothing else: no network, no script, no font but those of the system."""

from __future__ import annotations

import re
from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from cli.views.sheets.pieces import NO_BREAK, Picture, Sheet

#: Stands in for a character that is not printed but would turn or hide what is.
STAND_IN = "\N{REPLACEMENT CHARACTER}"
#: Not counted as printable by Python, and wanted all the same.
HARMLESS = ("\n", NO_BREAK)
#: A train written as one token, idlers in brackets.
TRAIN = re.compile(r"\(?\d+\)?(?:-\(?\d+\)?)+")
#: Between the whole and the fraction of a mixed number.
INSIDE_A_NUMBER = re.compile(r"(?<=\d) (?=\d+/\d)")


def sheet_html(sheet: Sheet) -> str:
    """Write a sheet.

    Parameters
    ----------
    sheet : Sheet
        Plain texts; every one of them is escaped here.

    Returns
    -------
    str
        A whole HTML file.

    Examples
    --------
    >>> from cli.views.sheets.pieces import Card, Facts
    >>> text = sheet_html(Sheet("One", [Card("<b>", "lathe", [Facts([("Lead", "2 mm")])])]))
    >>> text.startswith("<!DOCTYPE html>"), "&lt;b&gt;" in text
    (True, True)
    """
    return _templates().get_template("sheet.html.j2").render(sheet=sheet)


@cache
def _templates() -> Environment:
    made = Environment(
        loader=PackageLoader("cli.views", "sheets"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_inert,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["unbroken"] = unbroken
    made.filters["css_text"] = css_text
    made.filters["inline_svg"] = inline_svg
    return made


def inert(text: str) -> str:
    r"""Replace what turns the direction of writing, hides or rings a bell; line ends and spaces that hold stay.

    Examples
    --------
    >>> inert("lathe\u202e1") == "lathe\ufffd1", inert("two\nlines")
    (True, 'two\nlines')
    """
    return "".join(letter if letter.isprintable() or letter in HARMLESS else STAND_IN for letter in text)


def _inert(value: object) -> object:
    # Markup is a text as well, and must stay markup.
    if isinstance(value, Markup):
        return value
    return INSIDE_A_NUMBER.sub(NO_BREAK, inert(value)) if isinstance(value, str) else value


def unbroken(text: str) -> Markup:
    """Keep each train on one line, where the page has room for it.

    Examples
    --------
    >>> print(unbroken("<20-40-50-(65)-127>, 40-60"))
    &lt;<span class="whole">20-40-50-(65)-127</span>&gt;, <span class="whole">40-60</span>
    """
    inside = Markup('<span class="whole">{}</span>')
    pieces, done = Markup(), 0
    for train in TRAIN.finditer(text):
        pieces += Markup("{}{}").format(_inert(text[done : train.start()]), inside.format(train[0]))
        done = train.end()
    return pieces + Markup("{}").format(_inert(text[done:]))


def css_text(text: str) -> Markup:
    r"""Write a text as a string of CSS: inside ``<style>`` nothing is escaped for us.

    Examples
    --------
    >>> print(css_text('M6 </style>'))
    "M6 \3c \2f style\3e "
    """
    letters = (
        each if each.isascii() and (each.isalnum() or each == " ") else f"\\{ord(each):x} " for each in inert(text)
    )
    return Markup('"{}"').format(Markup("".join(letters)))  # noqa: S704 - letters, figures, blanks and escapes only.


def inline_svg(picture: Picture, name: str) -> Markup:
    """Put a drawing into the page, named by the words that stand for it; its texts were escaped where it was drawn.

    Examples
    --------
    >>> print(inline_svg(Picture('<svg width="9mm" height="9mm" viewBox="0 0 9 9"></svg>', "a > b"), "p1"))
    <svg aria-labelledby="p1" role="img" viewBox="0 0 9 9"><title id="p1">a &gt; b</title></svg>
    """
    opening, rest = picture.svg.split(">", maxsplit=1)
    kept = re.sub(r'\s(width|height|role|xmlns)="[^"]*"', "", opening[opening.index("<svg") + len("<svg") :])
    unnamed = re.sub(r"<(title|desc)>.*?</\1>", "", rest, flags=re.DOTALL)
    named = Markup('<svg aria-labelledby="{0}" role="img"{1}><title id="{0}">{2}</title>')
    # Drawn by this program, which escapes what it writes in; turning signs are caught here.
    drawn = Markup(inert(unnamed.strip()))  # noqa: S704
    return named.format(name, Markup(kept), inert(picture.shows)) + drawn  # noqa: S704
