"""The card of one set of change wheels: what to mount, in order, and how to see early that it is right."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from cli.views.banjo_drawing import card_drawing
from cli.views.banjo_sketch import mount_rows, set_up_text
from cli.views.cautions import train_cautions
from cli.views.sheets.pieces import (
    Card,
    Cautions,
    Facts,
    Grid,
    Lead,
    Lines,
    Measured,
    Picture,
    Piece,
    Resume,
    Shout,
    without_blanks,
)
from cli.views.shop_figures import length_text
from cli.views.starts_screen import starts_rules, way_rows
from cli.views.tool_travel_text import travel_text
from cli.views.train_screen import (
    CORRECTION,
    asked_rows,
    back_lines,
    changes_text,
    check_turns,
    correction_lines,
    early_check,
    figure_rows,
    form_words,
    half_nut_text,
)
from cli.views.warmth_text import warmth_row
from solver.quantities.lengths import Length
from solver.trains.hand import Hand
from solver.trains.starts import plan_starts

if TYPE_CHECKING:
    from gearsets.thread_tables import SeriesThread
    from solver.quantities.pitches import Pitch
    from solver.trains.fit_tolerance import FitTolerance
    from solver.trains.lathe import Lathe
    from solver.trains.train_answer import TrainAnswer
    from solver.trains.train_search import TrainQuestion

#: Largest drawing that leaves the front of a card room for the rest. [mm]
DRAWING_ROOM = (182.0, 80.0)
#: Rows of the figures that a card tells elsewhere.
TOLD_APART = ("Lever", "Tool goes")


class TrainSetUp(NamedTuple):
    """One thread, the lathe, and the train chosen for it.

    ``engaged`` is the length over which the error is told; ``tolerance`` what the fit allows, where it was asked;
    ``with_warmth`` whether the growth of a steel screw over that length is told.
    """

    asked: Pitch
    thread: SeriesThread | None
    lathe: Lathe
    question: TrainQuestion
    answer: TrainAnswer
    engaged: Length
    tolerance: FitTolerance | None = None
    with_warmth: bool = False


def train_card(set_up: TrainSetUp) -> Card:
    """Make the card: its front is what to mount, its back the figures, the check and what to write down."""
    asked, thread, lathe, question, answer, engaged, tolerance, with_warmth = set_up
    echoed = asked_rows(asked, thread, lathe, question)
    pieces: list[Piece] = [*mounting_pieces(answer, lathe)]
    if question.mounted is not None:
        lines = [changes_text(question.mounted, answer.train), *back_lines(question.mounted, answer.train)]
        pieces.append(Lines(f"From {question.mounted}, mounted now", lines, ticked=True))
    pieces += [
        half_nut_shout(answer),
        Lines("Early check, before metal is cut", without_blanks(early_check(answer, asked)), ticked=True),
        Cautions(train_cautions(answer, lathe, reversing=question.hand is Hand.LEFT)),
        Facts(echoed, "Asked"),
        train_figures(answer, lathe, engaged, form_words(asked, thread), tolerance),
        *([Facts([warmth_row(engaged)])] if with_warmth else []),
    ]
    if lathe.measured or question.lead != asked.lead:
        pieces.append(Lines(CORRECTION, correction_lines(asked, lathe, question, answer)))
    if asked.starts > 1:
        pieces += starts_pieces(answer, asked.starts, lathe)
    pieces += [train_measured(answer, asked), Resume()]
    return Card(f"Change wheels: {echoed[0][1]}", lathe.name, pieces)


def mounting_pieces(
    answer: TrainAnswer, lathe: Lathe, title: str = "Mount, in this order", *, travel: str = ""
) -> list[Piece]:
    """Show the train as one token, wheel by wheel in the order of mounting, and drawn; ``travel`` for no thread's."""
    lever = f", lever {answer.lever}" if answer.lever else ""
    rows = mount_rows(answer, lathe)
    planes = range(1, max(plane for row in rows for plane, _ in row.wheels) + 1)
    heads = [("Axis", "left"), *((f"Plane {plane}", "right") for plane in planes), ("Does", "left")]
    body = []
    for row in rows:
        teeth = dict(row.wheels)
        body.append([row.place, *(f"{teeth[plane]} T" if plane in teeth else "" for plane in planes), row.duty])
    drawing = card_drawing(answer, lathe, DRAWING_ROOM)
    travel = travel or travel_text(answer.hand.hand, lathe)
    return [
        Lead(f"{set_up_text(answer.train, answer.idlers)}{lever}", "driver-driven, spindle side first"),
        Grid(title, heads, body, ticked=True, notes=[f"The tool goes {travel}."]),
        Picture(drawing.svg, drawing.shows, drawing.notes),
    ]


def half_nut_shout(answer: TrainAnswer) -> Shout:
    """Say in large letters whether the half-nut may be opened."""
    text = half_nut_text(answer)
    if answer.half_nut.may_open:
        return Shout("Half-nut", f"{text[0].upper()}{text[1:]}.")
    detail = text.removeprefix("KEEP CLOSED").lstrip(".: ")
    return Shout("Half-nut: KEEP CLOSED", f"{detail[0].upper()}{detail[1:]}.")


def train_figures(
    answer: TrainAnswer, lathe: Lathe, engaged: Length, form: str, tolerance: FitTolerance | None = None
) -> Facts:
    """List what is said of the train beside its wheels: proof, error, judgement."""
    rows = figure_rows(answer, lathe, engaged, form, tolerance)
    return Facts([row for row in rows if row[0] not in TOLD_APART], "Proof and error")


def starts_pieces(answer: TrainAnswer, starts: int, lathe: Lathe) -> list[Piece]:
    """Say how to come from start to start."""
    plan = plan_starts(answer.train, answer.cut_lead, starts, lathe)
    return [
        Facts(way_rows(plan, lathe), f"From start to start: {starts} starts, {length_text(plan.pitch)} apart"),
        Lines("For several starts", starts_rules(plan, answer.half_nut.every)),
        Lines("Starts done", [f"start {number}" for number in range(1, starts + 1)], ticked=True),
    ]


def train_measured(answer: TrainAnswer, asked: Pitch) -> Measured:
    """Give lines for what the early check and the trial cut measured, beside what they should."""
    turns, lead = check_turns(answer.cut_lead), answer.cut_lead
    one_start = " of one start" if asked.starts > 1 else ""
    return Measured(
        [
            f"{turns} spindle turn{'' if turns == 1 else 's'}, {length_text(lead * turns)} if right:",
            f"Ten grooves{one_start}, {length_text(lead * 10)} if right:",
        ]
    )
