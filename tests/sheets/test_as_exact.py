"""Each setting listed on a card as exact too can be set up by itself, and is exact with the wheels printed with it."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from html.parser import HTMLParser

import pytest

from gearsets.head_files import find_head
from tests.simulated_head import plate_rate

HEAD = find_head("head-40-three-plates")
#: Words of a command that makes a card, and the divisions of its round.
CARDS = [
    (("divide", "61"), 61),
    (("divide", "127"), 127),
    (("divide", "127", "--skip", "2", "--method", "differential"), 127),
    (("divide", "69", "--method", "compound"), 69),
    (("divide", "28"), 28),
    (("worm", "--module", "0.5", "--teeth", "73"), 73),
    (("dial", "--screw", "8 tpi", "--reads", "0.001 in"), 125),
]
GEARED = re.compile(
    r"WHEELS (?P<train>[\d-]+), (?P<idlers>no idler|idlers [\d +]+), "
    r"plate turns (?P<plate>[\d /]+) (?P<way>following|against) the crank: (?P<setting>.*)"
)
MOTION = re.compile(r"(?:(?P<turns>\d+) turns?)?(?: \+ )?(?:(?P<spaces>\d+) spaces? on (?P<circle>\d+))?$")


class Listed(HTMLParser):
    """The lines of each list under the heading ``As exact``."""

    def __init__(self, page):
        super().__init__()
        self.lines, self._under, self._line = [], "", None
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        del attrs
        if tag == "li":
            self._line = []
        if tag in ("h2", "h3"):
            self._under = ""

    def handle_endtag(self, tag):
        if tag == "li" and self._under == "As exact":
            self.lines.append(" ".join("".join(self._line).split()))
        if tag == "li":
            self._line = None

    def handle_data(self, data):
        if self._line is not None:
            self._line.append(data)
        elif not self._under:
            self._under = " ".join(data.split())


def turns_of(words):
    """Turns of one motion, and what its arms must enclose; a motion going BACK is less than none."""
    found = MOTION.match(words.removeprefix("pin ").removeprefix("both ").removeprefix("BACK "))
    assert found, words
    spaces, circle = int(found["spaces"] or 0), int(found["circle"] or 1)
    turned = int(found["turns"] or 0) + Fraction(spaces, circle)
    return (-turned if "BACK" in words else turned), circle, spaces + 1


@pytest.mark.parametrize(("words", "count"), CARDS, ids=lambda part: " ".join(part) if isinstance(part, tuple) else "")
def test_each_line_is_a_whole_setting_and_exact(words, count, make_sheet):
    lines = Listed(make_sheet(*words, "--head", "head-40-three-plates").read_text(encoding="utf-8")).lines
    assert 1 <= len(lines) == len(set(lines))
    for line in lines:
        setting, rate = line, Fraction(0)
        if geared := GEARED.match(line):
            teeth = [int(each) for each in geared["train"].split("-")]
            idlers = [int(each) for each in re.findall(r"\d+", geared["idlers"])]
            pairs = list(zip(teeth[::2], teeth[1::2], strict=True))
            rate = plate_rate(pairs, idlers, one_idler_follows=True)
            told = sum(Fraction(part) for part in geared["plate"].split())
            assert rate == (told if geared["way"] == "following" else -told)
            assert not Counter([*teeth, *idlers]) - Counter(dict(HEAD.wheels))
            setting = geared["setting"]
        else:
            assert "WHEELS" not in line
        motions, *more = setting.split(", plate ")
        moved = [turns_of(motion) for motion in motions.split(", then ")]
        (where,) = more
        plate, *rest = where.split(", ")
        (on,) = [each for each in HEAD.plates if each.name == plate]
        assert any({circle for _, circle, _ in moved} <= set(face) for face in on.faces)
        arms = " and ".join(str(enclosed) for _, _, enclosed in moved)
        assert rest[0] == f"arms enclose {arms} holes"
        at_a_time = int(rest[1].split()[0]) if rest[1:] else 1
        # The crank turns the worm, and the pin moves over a plate that turns meanwhile.
        work = sum(turned for turned, _, _ in moved) / (HEAD.worm_ratio - rate)
        assert work == Fraction(at_a_time, count)
