"""The terminal screen and the JSON of ``holes``."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, NamedTuple

from cli.index_moves import IndexMoves
from cli.views import answer_json
from cli.views.cautions import DEFER, PLAY, head_cautions
from cli.views.index_lines import index_json, print_index_moves
from cli.views.part_figures import length_json, reading_json, screw_text, size_text
from cli.views.screen import console, facts_table, print_list, print_rows
from cli.views.shop_figures import approximate, arcsec_text, micrometres_text
from solver.dials.screw_dials import DialReading, ScrewDial
from solver.dividing.hole_circles import USUAL_SLIP, HolePlace, centre_distance, slip_at, web_left
from solver.quantities.angles import Angle, sexagesimal_text
from solver.quantities.circle_figures import square_root
from solver.quantities.exact_numbers import decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pitches import figure_text


class HoleCircle(NamedTuple):
    """The circle as asked, its holes, and the moves of a head where one is named."""

    diameter: Length
    start: Angle
    clockwise: bool
    all_positive: bool
    places: tuple[HolePlace, ...]
    moves: IndexMoves | None = None
    drill: Length | None = None
    worm_ratio: Fraction | None = None


def show_holes(asked: HoleCircle, screw: ScrewDial | None) -> None:
    """Print the answer of ``holes``."""
    out = console()
    out.print(facts_table(circle_rows(asked, screw)))
    out.print()
    out.print("COORDINATES, each from zero", style="bold")
    heads, rows = place_table(asked, screw)
    print_rows(out, heads, rows)
    for note in dial_notes(asked, screw):
        out.print(note)
    if asked.moves is not None:
        print_index_moves(out, asked.moves, "hole")
    print_list(out, "Early check, before drilling", hole_checks(asked))
    print_list(out, "Cautions", circle_cautions(asked))


def circle_cautions(asked: HoleCircle) -> tuple[str, ...]:
    """List the cautions of dials, and of the head where its moves are told too."""
    return (PLAY, *((DEFER,) if asked.moves is None else head_cautions(asked.moves.head, asked.moves.best)))


def circle_rows(asked: HoleCircle, screw: ScrewDial | None) -> list[tuple[str, str]]:
    """Echo the circle, say where zero is, and prove the coordinates."""
    count = len(asked.places)
    way = "clockwise" if asked.clockwise else "counter-clockwise"
    zero = "where the left and the near side of the circle meet" if asked.all_positive else "the centre of the circle"
    rows = [
        ("Asked", f"{count} hole{'' if count == 1 else 's'} on a circle of {size_text(asked.diameter)}"),
        ("Zero", f"{zero}; x to the right, y away from you, seen from above"),
        ("Order", f"{way} from {sexagesimal_text(asked.start, 0)}; 0° is to the right, along x"),
    ]
    radius = approximate(asked.diameter.mm / 2, 3)
    shift = f", and {radius} more" if asked.all_positive else ""
    rows.append(("Proof", f"x = {radius} × cos of the angle{shift}; y = {radius} × sin of it{shift}"))
    if screw is not None:
        rows.append(("Screws", f"{screw_text(screw)}, both ways of the table"))
    if count > 1:
        rows.append(("Hole to hole", f"{size_text(centre_distance(count, asked.diameter))}, neighbours, straight"))
    if asked.drill is not None:
        left = web_left(count, asked.diameter, asked.drill)
        rows.append(("Left between", f"{size_text(left)} with holes of {size_text(asked.drill)}"))
    return rows + plate_rows(asked)


def plate_rows(asked: HoleCircle) -> list[tuple[str, str]]:
    """Say what an error of an index plate comes to on the work, and how it is bettered; nothing of another ring."""
    if asked.worm_ratio is None:
        return []
    plate = slip_at(USUAL_SLIP, asked.diameter)
    work = Angle(plate.turns / asked.worm_ratio)
    ratio = figure_text(asked.worm_ratio)
    slip, on_plate, on_work = (micrometres_text(USUAL_SLIP), *(arcsec_text(each).lstrip("+") for each in (plate, work)))
    return [
        ("As a plate", f"a hole {slip} out of place is {on_plate} on the plate, {on_work} on the work by {ratio}:1"),
        (
            "",
            f"a second plate drilled on the head with this one has these errors divided by {ratio}, the worm's apart",
        ),
    ]


def place_table(asked: HoleCircle, screw: ScrewDial | None) -> tuple[list[tuple[str, str]], list[list[str]]]:
    """List where each hole is: heads and rows."""
    heads = [("Hole", "right"), ("Angle", "right"), ("x mm", "right"), ("y mm", "right")]
    heads += (
        [("x in", "right"), ("y in", "right")]
        if screw is None
        else [("x turns + marks", "left"), ("y turns + marks", "left")]
    )
    rows = []
    for place in asked.places:
        row = [str(place.number), sexagesimal_text(place.angle), _mm(place.x), _mm(place.y)]
        if screw is None:
            row += [decimal_text(place.x.inches, 4), decimal_text(place.y.inches, 4)]
        else:
            row += [_turns(screw.read(place.x)), _turns(screw.read(place.y))]
        rows.append(row)
    return heads, rows


def dial_notes(asked: HoleCircle, screw: ScrewDial | None) -> list[str]:
    """Say what rounding to a mark leaves, and how a dial is read backward; nothing without a screw."""
    if screw is None:
        return []
    return [
        f"Each is rounded from zero to the nearest mark: no hole is out by more than {_worst(asked, screw)}.",
        (
            "back: the other way from zero, where a dial numbered one way shows its marks less these. "
            "Go past and come up again, so that the play is always on one side."
        ),
    ]


def hole_checks(asked: HoleCircle) -> list[str]:
    """Say what to see and measure before drilling."""
    count = len(asked.places)
    checks = ["Spot every hole lightly before any is drilled, and look at the ring: a wrong one stands out."]
    if count > 1:
        checks.append(
            f"Measure across two neighbours: centre to centre {size_text(centre_distance(count, asked.diameter))}."
        )
    if count > 2 and count % 2 == 0:
        checks.append(f"Two holes opposite one another are {size_text(asked.diameter)} apart.")
    return checks


def _mm(length: Length) -> str:
    return decimal_text(length.mm, 3)


def _turns(reading: DialReading) -> str:
    return f"{'back ' if reading.sign < 0 else ''}{reading.turns} + {reading.marks}"


def _worst(asked: HoleCircle, screw: ScrewDial) -> str:
    """Give the farthest that rounding puts a hole from its place."""
    squares = [screw.read(place.x).error.mm ** 2 + screw.read(place.y).error.mm ** 2 for place in asked.places]
    return micrometres_text(Length(square_root(max(squares))))


def holes_json(asked: HoleCircle, screw: ScrewDial | None) -> str:
    """Write the answer of ``holes`` as JSON."""
    rows: list[dict[str, Any]] = []
    for place in asked.places:
        row: dict[str, Any] = {
            "hole": place.number,
            "turns": f"{place.angle.turns}",
            "x_mm": length_json(place.x),
            "y_mm": length_json(place.y),
        }
        if screw is not None:
            row |= {"x_on_dial": reading_json(screw.read(place.x)), "y_on_dial": reading_json(screw.read(place.y))}
        rows.append(row)
    answer: dict[str, Any] = {
        "asked": {
            "holes": len(asked.places),
            "circle_mm": length_json(asked.diameter),
            "start_turns": f"{asked.start.turns}",
            "clockwise": asked.clockwise,
            "all_positive": asked.all_positive,
        },
        "hole_to_hole_mm": length_json(centre_distance(len(asked.places), asked.diameter))
        if len(asked.places) > 1
        else None,
        "holes": rows,
    }
    if asked.drill is not None:
        answer["left_between_mm"] = length_json(web_left(len(asked.places), asked.diameter, asked.drill))
    if asked.worm_ratio is not None:
        on_plate = slip_at(USUAL_SLIP, asked.diameter)
        answer["slip"] = {
            "hole_mm": f"{USUAL_SLIP.mm}",
            "on_plate_arcsec": decimal_text(on_plate.arcsec, 6),
            "on_work_arcsec": decimal_text(on_plate.arcsec / asked.worm_ratio, 6),
        }
    if asked.moves is not None:
        answer["index"] = index_json(asked.moves)
    return answer_json.as_text(answer)
