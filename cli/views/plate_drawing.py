"""A picture of one hole circle with the sector arms set, as SVG and as letters for the terminal.

Counted as a person counts: the pin's own hole is zero. Shapes and numbers tell the holes apart, not colour.
"""

from __future__ import annotations

import math
from html import escape
from typing import NamedTuple

from cli.views.method_tables import counted, move_text
from solver.dividing.moves import CrankMove

#: The drawing, in units of SVG.
WIDTH, HEIGHT = 640, 760
MIDDLE_X, MIDDLE_Y = 320, 335
RING, HUB, ARM_END, NUMBERS_AT, SWEEP = 215, 42, 236, 252, 160
LARGEST_HOLE = 11
#: On a card: by how much figures grow, and what is kept around the middle of the ring.
CARD_GROWN, AROUND = 1.9, 286
#: Angle between the arms that leaves room for words. [radians]
NARROWEST_FOR_WORDS = 0.9
#: Numbers nearer together than this run into one another.
NUMBER_ROOM = 24
#: Columns kept free on either side of the ring.
BESIDE_RING = 5
#: Columns that a figure takes with its brackets.
BRACKETED = 3
#: Rows from the middle to the ring in the terminal, least and most; a column is half as wide as a row is high.
LEAST_ROWS, MOST_ROWS, ASPECT = 7, 17, 2


class PlatePicture(NamedTuple):
    """What is drawn: a move on one circle, and the words above it."""

    title: str
    head: str
    plate: str | None
    move: CrankMove

    @property
    def circle(self) -> int:
        """Holes in the circle."""
        return self.move.circle or 0

    @property
    def spaces(self) -> int:
        """Spaces the pin advances after the whole turns."""
        return self.move.spaces


def caption(picture: PlatePicture) -> tuple[str, ...]:
    """Say in words what the picture shows.

    Examples
    --------
    >>> caption(PlatePicture("28 divisions", "40:1", "B", CrankMove(1, 9, 21)))[0]
    'Each move: 1 turn + 9 spaces on 21, plate B.'
    """
    plate = f", plate {picture.plate}" if picture.plate else ""
    enclosed = f"Arms A and B enclose {picture.move.sector_holes} holes: the pin's own, counted 0, and"
    turns = f"Make {counted(picture.move.turns, 'whole turn')}, then go on" if picture.move.turns else "Go"
    return (
        f"Each move: {move_text(picture.move)}{plate}.",
        f"{enclosed} {counted(picture.spaces, 'more hole')}.",
        f"{turns} from hole 0 to hole {picture.spaces}.",
        "Then turn the arms on, both together, until A is behind the pin again.",
    )


def plate_svg(picture: PlatePicture, *, alone: bool = True) -> str:
    """Draw the circle as SVG text; not ``alone``, on a card, without its title and its words, in larger figures.

    Examples
    --------
    >>> text = plate_svg(PlatePicture("28 divisions", "40:1", "B", CrankMove(1, 9, 21)))
    >>> text.startswith("<svg"), text.count('class="hole"')
    (True, 11)
    """
    step = 2 * math.pi / picture.circle
    size = min(LARGEST_HOLE, 0.34 * RING * step)
    grown = 1.0 if alone else CARD_GROWN
    middle = f'cx="{MIDDLE_X}" cy="{MIDDLE_Y}"'
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" {room(alone=alone)} font-family="sans-serif" font-size="16">',
        f"<title>{escape(picture.title)}</title>",
        *(title(picture.title, picture.head) if alone else ()),
        f'<circle {middle} r="{RING}" fill="none" stroke="black" stroke-width="0.6" stroke-dasharray="2 6"/>',
        *arms(picture.move, grown=grown),
        f'<circle {middle} r="{HUB}" fill="white" stroke="black" stroke-width="2"/>',
        text(MIDDLE_X, MIDDLE_Y + (-2 if alone else 12), str(picture.circle), size=22 * grown, weight="bold"),
        *([text(MIDDLE_X, MIDDLE_Y + 18, "holes", size=14)] if alone else ()),
        *_sweep(picture, step, grown),
    ]
    for number in range(picture.circle):
        parts.append(hole(picture.spaces, number, number * step, size))
    parts.extend(_numbers(picture, step, grown))
    if alone:
        parts.extend(_words(picture))
    parts.append("</svg>")
    return "\n".join(parts) + "\n"


def room(*, alone: bool) -> str:
    """Say what part of the drawing is shown: all of it, or on a card the plate and what stands close about it."""
    if alone:
        return f'viewBox="0 0 {WIDTH} {HEIGHT}" width="{WIDTH}" height="{HEIGHT}"'
    return f'viewBox="{MIDDLE_X - AROUND} {MIDDLE_Y - AROUND} {2 * AROUND} {2 * AROUND}"'


def title(words: str, head: str) -> list[str]:
    """Write what is divided, and the head, above a drawing."""
    return [
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>',
        text(MIDDLE_X, 28, words, size=min(20, 1100 // max(1, len(words))), weight="bold"),
        text(MIDDLE_X, 50, head, size=min(15, 1150 // max(1, len(head)))),
    ]


def at(angle: float, radius: float) -> tuple[float, float]:
    """Find a point clockwise from the top."""
    return MIDDLE_X + radius * math.sin(angle), MIDDLE_Y - radius * math.cos(angle)


def text(x: float, y: float, words: str, *, size: float = 16, weight: str = "normal") -> str:
    """Write words about a point."""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="middle" font-size="{size:g}" font-weight="{weight}" '
        f'fill="black">{escape(words)}</text>'
    )


def hole(spaces: int, number: int, angle: float, size: float, radius: int = RING) -> str:
    """Draw one hole of the pin's circle, ``number`` counted from its own and ``spaces`` the one it goes to."""
    x, y = at(angle, radius)
    plain = f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{size:.2f}" fill="white" stroke="black" '
    if number == 0:
        side = size * 1.25
        return (
            f'<g class="pin"><rect x="{x - side:.2f}" y="{y - side:.2f}" width="{2 * side:.2f}" '
            f'height="{2 * side:.2f}" fill="white" stroke="black" stroke-width="2"/>{plain}stroke-width="1.6"/>'
            f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{size * 0.45:.2f}" fill="black"/></g>'
        )
    if number == spaces:
        return (
            f'<circle class="target" cx="{x:.2f}" cy="{y:.2f}" r="{size:.2f}" fill="black" stroke="black" '
            'stroke-width="2"/>'
        )
    if number < spaces:
        dot = f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{size * 0.4:.2f}" fill="black"/>'
        return f'<g class="counted">{plain}stroke-width="1.6"/>{dot}</g>'
    return f'{plain}stroke-width="1" class="hole"/>'


def arms(move: CrankMove, end: int = ARM_END, *, grown: float = 1) -> list[str]:
    """Draw arm A just behind the pin's hole and arm B just past the last hole of the move."""
    step = 2 * math.pi / (move.circle or 1)
    drawn = []
    for name, edge, side in (("A", -0.5 * step, -1), ("B", (move.spaces + 0.5) * step, 1)):
        # The straight edge faces the holes that are enclosed; the arm widens away from them.
        near, far, back = at(edge, HUB - 4), at(edge, end), at(edge + side * 0.32, HUB - 4)
        points = " ".join(f"{x:.2f},{y:.2f}" for x, y in (near, far, back))
        drawn.append(f'<polygon class="arm" points="{points}" fill="#ddd" stroke="black" stroke-width="1.6"/>')
        x, y = at(edge + side * 0.3, HUB + 46)
        drawn.append(text(x, y + 6, name, size=18 * grown, weight="bold"))
    return drawn


def arrow(start: float, end: float, radius: int, name: str = "") -> list[str]:
    """Draw an arrow along a circle from one angle to another, with its name, if any, in the middle of it."""
    (x0, y0), (x1, y1) = at(start, radius), at(end, radius)
    turned = end - start
    large, clockwise = int(abs(turned) > math.pi), int(turned > 0)
    path = (
        f'<path d="M {x0:.2f} {y0:.2f} A {radius} {radius} 0 {large} {clockwise} {x1:.2f} {y1:.2f}" fill="none" '
        'stroke="black"/>'
    )
    back = math.copysign(min(12 / radius, abs(turned) / 2), turned)
    tip = (at(end, radius), at(end - back, radius + 5), at(end - back, radius - 5))
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in tip)
    drawn = [path, f'<polygon points="{points}" fill="black"/>']
    if name:
        x, y = at(start + turned / 2, radius)
        drawn += [
            f'<circle cx="{x:.2f}" cy="{y:.2f}" r="11" fill="white" stroke="black"/>',
            text(x, y + 5, name, size=15, weight="bold"),
        ]
    return drawn


def _sweep(picture: PlatePicture, step: float, grown: float) -> list[str]:
    """Draw an arrow from hole 0 to the last hole of the move, and the spaces in words."""
    end = picture.spaces * step
    # Between arms near together there is no room for words; they go to the other side of the hub.
    x, y = at(end / 2, SWEEP - 52) if end > NARROWEST_FOR_WORDS else at(end / 2 + math.pi, SWEEP - 52)
    return [*arrow(0, end, SWEEP), text(x, y + 5, counted(picture.spaces, "space"), size=16 * grown)]


def _numbers(picture: PlatePicture, step: float, grown: float) -> list[str]:
    room = max(1, math.ceil(NUMBER_ROOM * grown / (NUMBERS_AT * step)))
    every = next(each for each in (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000) if each >= room)
    shown = [number for number in range(0, picture.spaces, every) if picture.spaces - number >= room]
    drawn = []
    for number in (*shown, picture.spaces):
        x, y = at(number * step, NUMBERS_AT + 5 * (grown - 1))
        ends = number in (0, picture.spaces)
        size = (17 if ends else 14) * grown
        drawn.append(text(x, y + size / 3, str(number), size=size, weight="bold" if ends else "normal"))
    return drawn


#: How the marks of the holes are to be read, under every drawing.
LEGEND = (
    "Square: the pin's hole, 0. Dotted: counted on the way. Black: where the pin goes.",
    "Drawn clockwise; where your crank turns the other way, look at it in a mirror.",
)


def _words(picture: PlatePicture) -> list[str]:
    lines = (*caption(picture), *LEGEND)
    return [text(MIDDLE_X, 618 + 25 * number, line, size=15) for number, line in enumerate(lines)]


def plate_letters(picture: PlatePicture, room: int = 80) -> list[str]:
    """Draw the circle in letters: the last figure of each counted hole, ``o`` for the others; a row where too many.

    ``room`` is the width of the screen in columns.

    Examples
    --------
    >>> plate_letters(PlatePicture("500 divisions", "40:1", None, CrankMove(0, 2, 300)))[0]
    'A| [0] 1 [2] |B o o o ... 297 more holes, then 0 again'
    """
    for rows in range(LEAST_ROWS, rows_that_fit(room) + 1):
        cells = ring_cells(picture.circle, rows, (0, picture.spaces))
        if cells is not None:
            return _letters(picture, cells, rows)
    return [letters_row(picture.move, "[]", "o", "A|", "|B")]


def rows_that_fit(room: int) -> int:
    """Count the rows from the middle to the ring that a screen of so many columns has room for.

    Examples
    --------
    >>> rows_that_fit(80), rows_that_fit(40)
    (17, 7)
    """
    return min(MOST_ROWS, (room - 2 * BESIDE_RING - 1) // (2 * ASPECT))


def letters_row(move: CrankMove, signs: str, other: str, before: str, after: str) -> str:
    """Write the holes of a move in a row, its ends within the two signs, and some of the others behind.

    Examples
    --------
    >>> letters_row(CrankMove(0, 2, 5), "[]", "o", "A|", "|B")
    'A| [0] 1 [2] |B o o'
    """
    opened, closed = signs[0], signs[1]
    marks = [
        f"{opened}{number}{closed}" if number in (0, move.spaces) else str(number) for number in range(move.spaces + 1)
    ]
    left = (move.circle or 0) - move.spaces - 1
    tail = f" {other}" * min(left, 3) + (f" ... {left} more holes, then 0 again" if left > 3 else "")
    return f"{before} {' '.join(marks)} {after}{tail}"


def ring_cells(circle: int, rows: int, ends: tuple[int, int]) -> list[tuple[int, int]] | None:
    """Place each hole on the grid, with a free cell on either side; ``None`` where they do not fit."""
    cells = []
    for number in range(circle):
        angle = 2 * math.pi * number / circle
        cells.append((round(rows * ASPECT * math.sin(angle)), round(-rows * math.cos(angle))))
    taken = set(cells)
    if len(taken) < circle or any((x + 1, y) in taken for x, y in cells):
        return None
    (pin_x, pin_y), (target_x, target_y) = (cells[end] for end in ends)
    if pin_y == target_y and abs(pin_x - target_x) < BRACKETED:
        return None
    return cells


class LetterGrid:
    """Letters on a grid with its middle at nought, ``rows`` from there to the outermost ring."""

    def __init__(self, rows: int) -> None:
        self.edge_x, self.edge_y = rows * ASPECT + BESIDE_RING, rows + 2
        self.grid = [[" "] * (2 * self.edge_x + 1) for _ in range(2 * self.edge_y + 1)]

    def put(self, x: int, y: int, letters: str) -> None:
        """Write letters from a cell on to the right."""
        for offset, letter in enumerate(letters):
            self.grid[y + self.edge_y][x + self.edge_x + offset] = letter

    def put_at(self, angle: float, radius: float, letters: str) -> None:
        """Write letters at an angle clockwise from the top, so many rows from the middle."""
        self.put(round(radius * ASPECT * math.sin(angle)), round(-radius * math.cos(angle)), letters)

    def put_hole(self, x: int, y: int, number: int, spaces: int, signs: str, other: str) -> None:
        """Write a hole: its last figure within signs at either end of the move, bare between them, else ``other``."""
        if number in (0, spaces):
            self.put(x - 1, y, f"{signs[0]}{number % 10}{signs[1]}")
        else:
            self.put(x, y, str(number % 10) if number < spaces else other)

    def lines(self) -> list[str]:
        """Return what was written, without empty lines above and below."""
        lines = ["".join(row).rstrip() for row in self.grid]
        while lines and not lines[0]:
            lines.pop(0)
        while lines and not lines[-1]:
            lines.pop()
        return lines


def _letters(picture: PlatePicture, cells: list[tuple[int, int]], rows: int) -> list[str]:
    grid = LetterGrid(rows)
    step = 2 * math.pi / picture.circle
    for name, angle, out in (("A", -0.5 * step, 0.45), ("B", (picture.spaces + 0.5) * step, 0.7)):
        for half in range(3, 2 * rows - 1):
            grid.put_at(angle, half / 2, ".")
        grid.put_at(angle, rows * out, name)
    grid.put(-len(str(picture.circle)) // 2 + 1, 0, str(picture.circle))
    for number, (x, y) in enumerate(cells):
        grid.put_hole(x, y, number, picture.spaces, "[]", "o")
    return grid.lines()
