"""A picture of the two circles of a compound setting on one face of a plate, as SVG and as letters for the terminal.

The pin's circle is marked as in the drawing of one circle. The stop pin's has marks of its own shape: no colour is
needed to tell them apart. Seen from the crank; the stop pin stands still and the plate brings its holes to it.
"""

from __future__ import annotations

import math
from html import escape
from typing import NamedTuple

from cli.views import plate_drawing as plate
from cli.views.method_tables import move_text, second_text
from solver.dividing.moves import CrankMove

#: Radii of the two rings, of their numbers and of their arrows, the larger circle outside.
OUTER, INNER = (215, 247, 186), (150, 122, 92)
#: How far an arm reaches past the ring of the pin.
ARM_PAST = 20
#: Rows between the two rings in the terminal.
ROWS_BETWEEN = 4
#: Letters in the hub: two lines of them fill it.
HUB_SIZE = 17


class TwoCirclePicture(NamedTuple):
    """What is drawn: the pin's move on its circle, the plate's on the stop pin's, and the words above them."""

    title: str
    head: str
    place: str
    pin: CrankMove
    with_plate: CrankMove

    @property
    def circles(self) -> tuple[int, int]:
        """Holes of the pin's circle, then of the stop pin's."""
        return self.pin.circle or 0, self.with_plate.circle or 0

    @property
    def pin_is_outside(self) -> bool:
        """True when the pin's circle is the larger one."""
        return self.circles[0] > self.circles[1]

    @property
    def order(self) -> tuple[str, str]:
        """Which motion is made first: the number of the pin's, then of the plate's; one that goes back is first."""
        return ("1", "2") if self.with_plate.sign == self.pin.sign else ("2", "1")

    @property
    def target(self) -> int:
        """Clockwise number of the hole that comes to the stop pin; the plate brings it from the other side."""
        return -self.with_plate.sign * self.with_plate.spaces % self.circles[1]


def two_circle_caption(picture: TwoCirclePicture) -> tuple[str, ...]:
    """Say in words what the picture shows.

    Examples
    --------
    >>> moves = CrankMove(0, 2, 17), CrankMove(0, 12, 18)
    >>> two_circle_caption(TwoCirclePicture("51 divisions", "40:1", "plate A", *moves))[0]
    '1: pin, plate held: 0 turns + 2 spaces on 17, plate A; arms enclose 3 holes.'
    """
    pin, with_plate = picture.pin, picture.with_plate
    way = "the way the crank turns" if with_plate.sign > 0 else "BACK, against the way the crank turns"
    of_pin, of_plate = picture.order
    by_pin = (f"{of_pin}: pin, plate held: {move_text(pin)}, {picture.place}; arms enclose {pin.sector_holes} holes.",)
    by_both = (
        f"{of_plate}: plate with crank, {second_text(with_plate)}: stop pin out, pin in its hole,",
        f"turn both {way}, until hole {with_plate.spaces} is at the stop pin.",
    )
    return (
        *(by_pin + by_both if of_pin == "1" else by_both + by_pin),
        "The own hole of each is 0. The stop pin stands still: its holes count against the turn.",
    )


def two_circle_svg(picture: TwoCirclePicture, *, alone: bool = True) -> str:
    """Draw both circles as SVG text; not ``alone``, on a card, without its title and its words, in larger figures.

    Examples
    --------
    >>> moves = CrankMove(0, 2, 17), CrankMove(0, 12, 18)
    >>> text = two_circle_svg(TwoCirclePicture("51 divisions", "40:1", "plate A", *moves))
    >>> text.startswith("<svg"), text.count('class="pin"'), text.count('class="stop"')
    (True, 1, 1)
    """
    at = (OUTER, INNER) if picture.pin_is_outside else (INNER, OUTER)
    middle = f'cx="{plate.MIDDLE_X}" cy="{plate.MIDDLE_Y}"'
    grown = 1.0 if alone else plate.CARD_GROWN
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" {plate.room(alone=alone)} font-family="sans-serif" font-size="16">',
        f"<title>{escape(picture.title)}</title>",
        *(plate.title(picture.title, picture.head) if alone else ()),
        *(
            f'<circle {middle} r="{radius}" fill="none" stroke="black" stroke-width="0.6" stroke-dasharray="2 6"/>'
            for radius, _, _ in at
        ),
        *plate.arms(picture.pin, at[0][0] + ARM_PAST, grown=grown),
        f'<circle {middle} r="{plate.HUB}" fill="white" stroke="black" stroke-width="2"/>',
        plate.text(plate.MIDDLE_X, plate.MIDDLE_Y - 4, f"pin {picture.circles[0]}", size=HUB_SIZE, weight="bold"),
        plate.text(plate.MIDDLE_X, plate.MIDDLE_Y + 18, f"stop {picture.circles[1]}", size=HUB_SIZE, weight="bold"),
        *_pin_ring(picture, *at[0], grown=grown),
        *_stop_ring(picture, *at[1], grown=grown),
        *(_words(picture) if alone else ()),
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


def _words(picture: TwoCirclePicture) -> list[str]:
    return [
        plate.text(plate.MIDDLE_X, 618 + 25 * number, line, size=min(15, 1250 // len(line)))
        for number, line in enumerate((*two_circle_caption(picture), *TWO_CIRCLE_LEGEND))
    ]


#: What the marks are, without colour.
TWO_CIRCLE_LEGEND = (
    "Pin: square 0, dots counted, black the end. Stop pin: diamond 0, crosses, black diamond.",
    "Seen from the crank, clockwise; from behind, or for a left-hand crank, in a mirror.",
)


def _pin_ring(picture: TwoCirclePicture, radius: int, numbers_at: int, arrow_at: int, *, grown: float) -> list[str]:
    circle, spaces = picture.circles[0], picture.pin.spaces
    step = 2 * math.pi / circle
    size = min(plate.LARGEST_HOLE, 0.34 * radius * step)
    holes = [plate.hole(spaces, number, number * step, size, radius) for number in range(circle)]
    return [
        *holes,
        *plate.arrow(0, spaces * step, arrow_at, picture.order[0]),
        *_ends(spaces, spaces * step, numbers_at, grown),
    ]


def _stop_ring(picture: TwoCirclePicture, radius: int, numbers_at: int, arrow_at: int, *, grown: float) -> list[str]:
    circle, spaces, sign = picture.circles[1], picture.with_plate.spaces, picture.with_plate.sign
    step = 2 * math.pi / circle
    size = min(plate.LARGEST_HOLE, 0.34 * radius * step)
    holes = [_stop_hole(picture, number, -sign * number * step, size, radius) for number in range(circle)]
    # The plate turns: its arrow runs from the hole that is brought on to the stop pin.
    arrow = plate.arrow(-sign * spaces * step, 0, arrow_at, picture.order[1])
    return [*holes, *arrow, *_ends(spaces, -sign * spaces * step, numbers_at, grown)]


def _ends(spaces: int, angle: float, numbers_at: int, grown: float) -> list[str]:
    places = [(0, 0.0), (spaces, angle)]
    return [
        plate.text(x, y + 5 * grown, str(number), size=16 * grown, weight="bold")
        for number, turned in places
        for x, y in (plate.at(turned, numbers_at),)
    ]


def _stop_hole(picture: TwoCirclePicture, number: int, angle: float, size: float, radius: int) -> str:
    """Draw a hole of the stop pin's circle, ``number`` counted against the turn of the plate."""
    x, y = plate.at(angle, radius)
    ring = f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{size:.2f}" fill="white" stroke="black" '
    if number in (0, picture.with_plate.spaces):
        side = size * 1.5
        points = f"{x:.2f},{y - side:.2f} {x + side:.2f},{y:.2f} {x:.2f},{y + side:.2f} {x - side:.2f},{y:.2f}"
        kind, fill = ("stop", "white") if number == 0 else ("brought", "black")
        diamond = f'<polygon points="{points}" fill="{fill}" stroke="black" stroke-width="2"/>'
        inside = f'{ring}stroke-width="1.4"/>' if number == 0 else ""
        return f'<g class="{kind}" data-at="{x:.2f} {y:.2f}">{diamond}{inside}</g>'
    if number < picture.with_plate.spaces:
        arm = size * 0.6
        cross = (
            f'<path d="M {x - arm:.2f} {y - arm:.2f} L {x + arm:.2f} {y + arm:.2f} '
            f'M {x - arm:.2f} {y + arm:.2f} L {x + arm:.2f} {y - arm:.2f}" stroke="black" stroke-width="1.6"/>'
        )
        return f'<g class="passed" data-at="{x:.2f} {y:.2f}">{ring}stroke-width="1.4"/>{cross}</g>'
    return f'<g class="other" data-at="{x:.2f} {y:.2f}">{ring}stroke-width="1"/></g>'


def two_circle_letters(picture: TwoCirclePicture, room: int = 80) -> list[str]:
    """Draw both circles in letters, one within the other; two rows where they have too many holes.

    Examples
    --------
    >>> moves = CrankMove(0, 2, 17), CrankMove(0, 3, 400)
    >>> for line in two_circle_letters(TwoCirclePicture("x", "40:1", "plate A", *moves)):
    ...     print(line)
    pin:  A| [0] 1 [2] |B o o o ... 14 more holes, then 0 again
    stop:    <0> 1 2 <3>    + + + ... 396 more holes, then 0 again
    """
    for rows in range(plate.LEAST_ROWS + ROWS_BETWEEN, plate.rows_that_fit(room) + 1):
        radii = (rows, rows - ROWS_BETWEEN) if picture.pin_is_outside else (rows - ROWS_BETWEEN, rows)
        pin = plate.ring_cells(picture.circles[0], radii[0], (0, picture.pin.spaces))
        stop = plate.ring_cells(picture.circles[1], radii[1], (0, picture.target))
        if pin is not None and stop is not None:
            return _letters(picture, pin, stop, radii)
    rows_of = ((picture.pin, "[]", "o", "pin:  A|", "|B"), (picture.with_plate, "<>", "+", "stop:   ", "  "))
    return [plate.letters_row(move, signs, other, before, after) for move, signs, other, before, after in rows_of]


def _letters(
    picture: TwoCirclePicture, pin: list[tuple[int, int]], stop: list[tuple[int, int]], radii: tuple[int, int]
) -> list[str]:
    grid = plate.LetterGrid(max(radii))
    step = 2 * math.pi / picture.circles[0]
    inside = 1 if radii[0] < radii[1] else radii[1] + 1
    for name, angle in (("A", -0.5 * step), ("B", (picture.pin.spaces + 0.5) * step)):
        for half in range(2 * inside + 1, 2 * radii[0] - 1):
            grid.put_at(angle, half / 2, ".")
        grid.put_at(angle, (inside + radii[0]) / 2, name)
    grid.put(-3, 0, f"{picture.circles[0]}, {picture.circles[1]}")
    for number, (x, y) in enumerate(pin):
        grid.put_hole(x, y, number, picture.pin.spaces, "[]", "o")
    for turned, (x, y) in enumerate(stop):
        # Counted against the turn of the plate, whichever way that is.
        number = -picture.with_plate.sign * turned % picture.circles[1]
        grid.put_hole(x, y, number, picture.with_plate.spaces, "<>", "+")
    return grid.lines()
