"""The card of a train that feeds: what to mount for turning, and what to put back for threads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.views.feed_screen import feed_cautions, feed_checks, feed_rows, gives_rows, put_back
from cli.views.sheets.pieces import Card, Cautions, Facts, Lines, Measured, Piece, Resume
from cli.views.sheets.train_cards import mounting_pieces
from cli.views.shop_figures import length_text
from cli.views.tool_travel_text import feed_travel_text

if TYPE_CHECKING:
    from solver.quantities.lengths import Length
    from solver.trains.lathe import Lathe
    from solver.trains.train_search import TrainReport


def feed_card(feed: Length | None, lathe: Lathe, report: TrainReport) -> Card:
    """Make the card of a feed: what to mount, and what to put back."""
    first = report.answers[0]
    pieces: list[Piece] = [*mounting_pieces(first, lathe, travel=feed_travel_text(first.hand.hand, lathe))]
    if lines := put_back(first, report):
        pieces.append(Lines(f"From {report.question.mounted}, mounted now", lines, ticked=True))
    pieces += [
        Lines("Early check, before metal is cut", feed_checks(first), ticked=True),
        Cautions(feed_cautions(first, lathe)),
        Facts([*feed_rows(feed, lathe)[:1], *gives_rows(feed, first, lathe)], "Asked, and what it gives"),
        Measured(["Carriage moved in the turns above:"]),
        Resume(("Wheels on", "Put back, who and when", "Reverse stands")),
    ]
    name = "the finest" if feed is None else length_text(feed)
    return Card(f"Feed wheels: {name}", lathe.name, pieces)
