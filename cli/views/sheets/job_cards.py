"""The sheet of a job: a cover with the order of work and its proof, and one card for each step."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from cli.job_plan import HeadStep, LatheStep, parts_missed
from cli.views.banjo_sketch import set_up_text
from cli.views.cautions import gathered
from cli.views.job_screen import (
    LENT,
    job_rows,
    open_points,
    order_notes,
    part_text,
    places_text,
    short_error,
    short_setting,
    total_rows,
)
from cli.views.sheets.job_part_cards import STANDS_SO, head_pieces, lathe_pieces
from cli.views.sheets.pieces import (
    Card,
    Cautions,
    Count,
    Facts,
    Grid,
    Lead,
    Lines,
    Measured,
    Piece,
    Resume,
    Sheet,
    Shout,
)
from solver.jobs.tasks import Face, Machine
from solver.trains.changes import Standing, standing

if TYPE_CHECKING:
    from cli.job_plan import JobPlan

#: Columns of the order of work.
ORDER_HEADS = (("Step", "right"), ("Part", "free"), ("Set-up", "left"), ("Error", "left"), ("Handled", "right"))
#: What the next pair of hands must know in the middle of a job.
LEFT_OFF = ("Step and piece done", "Wheels now on", "Dial or hole at zero", "Direction")
#: Of each card, what the part is and what changes come first; tables with these titles belong to the set-up too.
FIRST_PIECES = 2
MOUNTED = (STANDS_SO, "Mount, stop pin out")
NO_WHEELS: frozenset[Standing] = frozenset()
OTHER = {Machine.LATHE: Machine.HEAD, Machine.HEAD: Machine.LATHE}


def job_sheet(found: JobPlan, *, is_short: bool = False) -> Sheet:
    """Make the sheet of a planned job; a short one says of each step what is mounted and set, and no more."""
    cards, stands = [], standing_wheels(found)
    for number, (step, stand) in enumerate(zip(found.steps, stands, strict=True), start=1):
        cards.append(step_card(number, step, found, stand))
    order = [
        [str(number), step.part.name, short_setting(step), short_error(step), str(step.handling.wheels)]
        for number, step in enumerate(found.steps, start=1)
    ]
    opening: list[Piece] = [
        Facts([row for row in job_rows(found) if row[0] != "Job"]),
        Grid("Order of work", ORDER_HEADS, order, ticked=True, notes=order_notes(found)),
        Facts(total_rows(found), "Totals and proof"),
    ]
    if missed := parts_missed(found):
        opening.insert(0, Shout("BEYOND TOLERANCE", f"The nearest is planned, which misses for: {', '.join(missed)}."))
    if points := open_points(found):
        opening.append(Lines("Not checked on this lathe", points))
    if is_short:
        cautions = [
            line for card in cards for piece in card.pieces if isinstance(piece, Cautions) for line in piece.lines
        ]
        opening.append(Cautions(gathered(cautions)))
        cards = [
            Card(card.title, card.machine, list(set_up_alone(card.pieces)), needs_own_page=False) for card in cards
        ]
    return Sheet(f"Job: {found.job.name}", cards, opening, has_front_page=True)


def set_up_alone(pieces: Sequence[Piece]) -> Iterator[Piece]:
    """Yield of a step's card what it is, what changes, and what stands then; its cautions are on the cover."""
    for at, piece in enumerate(pieces):
        is_mounted = isinstance(piece, Grid | Facts) and piece.title in MOUNTED
        if at < FIRST_PIECES or isinstance(piece, Lead | Shout) or is_mounted:
            yield piece


def step_card(number: int, step: LatheStep | HeadStep, found: JobPlan, stand: Sequence[tuple[str, str]]) -> Card:
    """Make the card of one step: what changes from what stands, then all that the part needs."""
    part, handling = step.part, step.handling
    rows = [("Part", part_text(part))]
    if part.note:
        rows.append(("Note", part.note))
    before = [found.job.parts[at].name for at in part.after]
    if before:
        rows.append(("After", ", ".join(before)))
    pieces: list[Piece] = [Facts(rows), change_over(step, found)]
    if isinstance(step, LatheStep) and found.lathe is not None:
        machine, name = Machine.LATHE, found.lathe.name
        pieces += lathe_pieces(step, found.lathe)
    elif isinstance(step, HeadStep) and found.head is not None:
        machine, name = Machine.HEAD, found.head.name
        pieces += head_pieces(step, found.head)
    else:
        raise TypeError("a step stands on a machine of its job")
    if handling.lent:
        pieces.append(Cautions([LENT]))
    if part.quantity > 1:
        pieces.append(Measured([f"Pieces finished, {part.quantity} when all are:"]))
    gathered_pieces = joined(pieces)
    # A count may go over many pages: what is written on the card comes before it.
    at = next((at for at, piece in enumerate(gathered_pieces) if isinstance(piece, Count)), len(gathered_pieces))
    strip: list[Piece] = [Facts(stand, "On the machines in this step"), Resume(LEFT_OFF)]
    whole = [*gathered_pieces[:at], *strip, *gathered_pieces[at:]]
    return Card(f"Step {number}: {part.name}, on the {machine.value}", name, whole)


def change_over(step: LatheStep | HeadStep, found: JobPlan) -> Piece:
    """List each wheel to take off or put on, and the face of the plate, to tick off; or say that nothing changes."""
    machine = Machine.LATHE if isinstance(step, LatheStep) else Machine.HEAD
    handling = step.handling
    lines = [f"OFF THE {OTHER[machine].value.upper()}, for this step: {places_text([each])}" for each in handling.lent]
    lines += [f"OFF: {places_text([each])}" for each in handling.off]
    lines += [f"ON: {places_text([each])}" for each in handling.on]
    if isinstance(step, HeadStep) and step.face is not None and handling.face:
        lines.append(f"ON: {face_text(step.face, found)}")
    if lines:
        return Lines("Change over, from what stands", lines, ticked=True)
    is_undivided = isinstance(step, HeadStep) and not step.is_divided
    nothing = "there is nothing to divide; clamp the spindle" if is_undivided else "all stays on as it stands"
    return Facts([("Change over", f"nothing: {nothing}")])


def face_text(face: Face, found: JobPlan) -> str:
    """Name a plate, and the face turned outward where it has two."""
    plates = found.head.plates if found.head else ()
    has_more = any(len(plate.faces) > 1 for plate in plates if plate.name == face[0])
    return f"plate {face[0]}, face {face[1]} outward" if has_more else f"plate {face[0]}"


def standing_wheels(found: JobPlan) -> Iterator[list[tuple[str, str]]]:
    """Say of each step what stands on lathe and head once it is set up."""
    mounted = standing(*found.job.mounted) if found.job.mounted else NO_WHEELS
    on = {Machine.LATHE: mounted, Machine.HEAD: NO_WHEELS}
    names = {mounted: set_up_text(*found.job.mounted)} if found.job.mounted else {}
    face: Face | None = None
    for step in found.steps:
        machine = Machine.LATHE if isinstance(step, LatheStep) else Machine.HEAD
        handling = step.handling
        on[machine] = (on[machine] - frozenset(handling.off)) | frozenset(handling.on)
        on[OTHER[machine]] -= frozenset(handling.lent)
        face = handling.face or face
        if isinstance(step, LatheStep):
            names[on[machine]] = set_up_text(step.answer.train, step.answer.idlers)
        rows = []
        if found.lathe is not None:
            rows.append(("Lathe", _wheels_text(on[Machine.LATHE], names)))
        if found.head is not None:
            plate = f"{face_text(face, found)}; " if face else ""
            rows.append(("Head", f"{plate}{_wheels_text(on[Machine.HEAD], names)}"))
        yield rows


def _wheels_text(wheels: frozenset[Standing], names: Mapping[frozenset[Standing], str]) -> str:
    """Write a whole train by its token, and what is left of one place by place."""
    if not wheels:
        return "no wheels"
    return names.get(wheels) or places_text(sorted(wheels)).replace("head, ", "")


def joined(pieces: Sequence[Piece]) -> list[Piece]:
    """Put lists of one title together, cautions into one, and what is measured before a count; leave out other strips.

    Examples
    --------
    >>> made = joined([Lines("Check", ["a"]), Measured(["b"]), Resume(), Lines("Check", ["c"]), Cautions(["d"])])
    >>> [piece.kind for piece in made], made[0].lines
    (['lines', 'cautions', 'measured'], ['a', 'c'])
    """
    cautions = [line for piece in pieces if isinstance(piece, Cautions) for line in piece.lines]
    measured = [what for piece in pieces if isinstance(piece, Measured) for what in piece.what]
    lines: dict[str, list[str]] = {}
    for piece in pieces:
        if isinstance(piece, Lines):
            lines.setdefault(piece.title, []).extend(piece.lines)
    kept: list[Piece] = []
    for piece in pieces:
        if isinstance(piece, Lines) and piece.title in lines:
            kept.append(Lines(piece.title, lines.pop(piece.title), ticked=piece.ticked))
        elif isinstance(piece, Cautions) and cautions:
            kept.append(Cautions(gathered(cautions)))
            cautions.clear()
        elif not isinstance(piece, Lines | Cautions | Measured | Resume):
            kept.append(piece)
    at = next((at for at, piece in enumerate(kept) if isinstance(piece, Count)), len(kept))
    return [*kept[:at], *([Measured(measured)] if measured else []), *kept[at:]]
