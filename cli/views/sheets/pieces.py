"""What a sheet is made of: pieces of plain text, already rounded, that a card puts in the order of the work.

A piece knows nothing of paper; the template of its ``kind`` draws it. Texts may hold anything: they are escaped where
they are drawn. Only the drawing of a `Picture` is markup, and it comes from this program alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar

Rows = Sequence[tuple[str, str]]
#: Each column's title, and ``left`` or ``right``, as the tables of the screen have them; ``token`` is not to be broken
#: where there is room, and ``free`` holds what a person wrote, to be broken anywhere.
Heads = Sequence[tuple[str, str]]


#: Stands between words that a line must not part, as of a mixed number.
NO_BREAK = "\N{NO-BREAK SPACE}"
#: So many cards are given a cover with their contents.
CARDS_FOR_COVER = 4
#: Columns, the box to tick apart, of a table that still goes twice across a page.
MOST_ABREAST = 4


@dataclass(frozen=True, slots=True)
class Facts:
    """Named facts; a row without a name goes on with the fact before it."""

    kind: ClassVar[str] = "facts"
    rows: Rows
    title: str = ""

    @property
    def named(self) -> list[tuple[str, list[str]]]:
        """The facts under their names.

        Examples
        --------
        >>> Facts([("Error", "lead long"), ("", "3 µm"), ("Hand", "right")]).named
        [('Error', ['lead long', '3 µm']), ('Hand', ['right'])]
        """
        groups: list[tuple[str, list[str]]] = []
        for name, fact in self.rows:
            if name or not groups:
                groups.append((name.strip(), []))
            groups[-1][1].append(fact)
        return groups


@dataclass(frozen=True, slots=True)
class Lead:
    """The one line that must be read from across the bench: a train as one token, or a move."""

    kind: ClassVar[str] = "lead"
    words: str
    legend: str = ""


@dataclass(frozen=True, slots=True)
class Shout:
    """What must not be overlooked, in large letters, and what it means."""

    kind: ClassVar[str] = "shout"
    words: str
    text: str = ""


@dataclass(frozen=True, slots=True)
class Lines:
    """A titled list; with ``ticked`` each line has a box to tick."""

    kind: ClassVar[str] = "lines"
    title: str
    lines: Sequence[str]
    ticked: bool = False


@dataclass(frozen=True, slots=True)
class Grid:
    """A table; with ``ticked`` a last column holds a box for each row. Its head comes again on every page."""

    kind: ClassVar[str] = "grid"
    title: str
    heads: Heads
    rows: Sequence[Sequence[str]]
    ticked: bool = False
    notes: Sequence[str] = ()


@dataclass(frozen=True, slots=True)
class CountRow:
    """One row of a count, and whether the hand stops here to count."""

    cells: Sequence[str]
    is_checkpoint: bool = False


@dataclass(frozen=True, slots=True)
class Count:
    """A long table to tick off, in blocks that never break, in rows of as many as fit, over pages.

    ``blocks`` are what stands between two heads: each has a name, as ``1 to 10``, and its rows.
    """

    kind: ClassVar[str] = "count"
    title: str
    heads: Heads
    blocks: Sequence[tuple[str, Sequence[CountRow]]]
    notes: Sequence[str] = ()
    ticked: bool = True

    @property
    def is_wide(self) -> bool:
        """True when two such tables do not stand side by side on a page."""
        return len(self.heads) > MOST_ABREAST


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing of this program's own, as SVG, with what it shows in words, for eyes that cannot see it.

    With ``beside`` the notes stand at its side where there is room.
    """

    kind: ClassVar[str] = "picture"
    svg: str
    shows: str
    notes: Sequence[str] = ()
    beside: bool = False


@dataclass(frozen=True, slots=True)
class Cautions:
    """The cautions of this job."""

    kind: ClassVar[str] = "cautions"
    lines: Sequence[str]


@dataclass(frozen=True, slots=True)
class Measured:
    """Lines to write on: what was measured, each with its date."""

    kind: ClassVar[str] = "measured"
    what: Sequence[str]


@dataclass(frozen=True, slots=True)
class Resume:
    """The strip that tells the next pair of hands where the work stands."""

    kind: ClassVar[str] = "resume"
    labels: Sequence[str] = ("Last done", "Wheels on", "Dial zero", "Direction")


Piece = Facts | Lead | Shout | Lines | Grid | Count | Picture | Cautions | Measured | Resume


@dataclass(frozen=True, slots=True)
class Card:
    """One set-up: its title, the machine it is on, and its pieces in the order of the work.

    ``needs_own_page`` is taken back for a short card that may share the sheet of paper with others.
    """

    title: str
    machine: str
    pieces: Sequence[Piece]
    needs_own_page: bool = True


@dataclass(frozen=True, slots=True)
class Sheet:
    """A whole page of cards. Of several cards a list of contents stands first, below ``opening``, what concerns all.

    With ``has_front_page`` the opening is a page of its own however few the cards, and names their machines.
    """

    title: str
    cards: Sequence[Card]
    opening: Sequence[Piece] = ()
    has_front_page: bool = False

    @property
    def has_cover(self) -> bool:
        """True when the contents are a page of their own, and not above the first card."""
        return self.has_front_page or len(self.cards) >= CARDS_FOR_COVER

    @property
    def is_one_card(self) -> bool:
        """True when the sheet is a card and nothing else."""
        return len(self.cards) == 1 and not self.has_front_page


def without_blanks(lines: Iterable[str]) -> list[str]:
    """Leave out of lines the blanks to be written on, where a sheet has lines of its own for that.

    Examples
    --------
    >>> without_blanks(["Measure ten grooves.  Measured: ________  Date: ________"])
    ['Measure ten grooves.']
    """
    return [re.split(r"  \w+: _", line, maxsplit=1)[0] for line in lines]
