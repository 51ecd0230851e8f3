"""A train on the banjo, drawn to scale: one unit of the drawing is one millimetre at the lathe.

Seen from the change-wheel end with the stud gear above the leadscrew. Black on white, so that it survives a
photocopy: planes differ by their line, drivers and driven wheels by their words.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from html import escape
from textwrap import wrap
from typing import NamedTuple

from cli.views.banjo_sketch import set_up_text
from cli.views.shop_figures import lead_text
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.trains.banjo_gauge import BanjoGauge
from solver.trains.chain import Chain, Seat, chain_of
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.layout import Fault, Layout
from solver.trains.mounting import Verdict
from solver.trains.train_answer import TrainAnswer

#: Line of the wheels of each plane: whole, dashed, dotted, dash and dot. Pens are told in heights of the words, so
#: that lines and words keep their weight together however far the wheels are reduced.
_DASHES = ("", "0.9em 0.45em", "0.26em 0.48em", "1.5em 0.43em 0.26em 0.43em")
_MARGIN = 14
_TEXT = 4.6
_LINE = 6.4
_LABELS = 84
_SLOT_HALF = 4.0
_ARROW_HEAD = 3.2
#: Where nothing is known of the banjo, studs are drawn this far to one side and the other. [degrees]
_ASSUMED_TURN = 18

Point = tuple[float, float]


class _Wheel(NamedTuple):
    """A wheel on the sheet: its axis, place, radius and words."""

    axis: int
    seat: Seat
    centre: Point
    pitch: float
    tip: float
    words: str


def banjo_svg(answer: TrainAnswer, lathe: Lathe) -> str:
    """Draw one set-up.

    Parameters
    ----------
    answer : TrainAnswer
        With or without a known layout; without one the places are assumed, and the sheet says so.
    lathe : Lathe
        For wheel sizes and the banjo.

    Returns
    -------
    str
        A whole SVG file.
    """
    return _Sheet(answer, lathe).text()


class CardDrawing(NamedTuple):
    """A drawing without its own title and foot: what it shows in words, and the notes that belong under it."""

    svg: str
    shows: str
    notes: list[str]


def card_drawing(answer: TrainAnswer, lathe: Lathe, room: Point) -> CardDrawing:
    """Draw one set-up for a card, so that its words are as large on paper as the text of the card.

    ``room`` is how wide and high it may come out. [mm]
    """
    sheet = _Sheet(answer, lathe, room)
    wheels = "; ".join(sheet.wheel_lines())
    notes = [f"{sheet.centres_line()} {' '.join(sheet.notes())}"]
    return CardDrawing(sheet.text(), f"Change wheels on the banjo, to scale: {wheels}.", notes)


class _Sheet:
    """The drawing of one set-up, built once; with ``room`` for a card of paper, so wide and high."""

    def __init__(self, answer: TrainAnswer, lathe: Lathe, room: Point | None = None) -> None:
        self._answer = answer
        self._room = room
        self._grown = 1.0
        self._lathe = lathe
        self._chain = chain_of(answer.train, answer.idlers, lathe.banjo.planes if lathe.banjo else None)
        finding = BanjoGauge(lathe).examine(self._chain)
        self._faults = finding.faults
        self._layout = finding.layout
        self._points = _points(self._chain, lathe, finding.layout)
        self._wheels = list(self._all_wheels())
        self._nut = float(lathe.banjo.stud_nut.mm) if lathe.banjo and lathe.banjo.stud_nut else None

    def _all_wheels(self) -> Iterator[_Wheel]:
        last = len(self._points) - 1
        for axis, centre in enumerate(self._points):
            for seat in self._chain.seats(axis):
                module = float(self._lathe.wheel_classes[seat.wheel_class].module.mm)
                is_idler = 0 < axis < last and len(self._chain.seats(axis)) == 1
                drives = axis < last and self._chain.contacts[axis].first == seat.teeth
                drives = drives and self._chain.planes[self._chain.contacts[axis].pair] == seat.plane
                duty = "idler" if is_idler else "driver" if drives else "driven"
                words = f"{seat.teeth} T {duty}, plane {seat.plane}"
                yield _Wheel(axis, seat, centre, module * seat.teeth / 2, module * (seat.teeth + 2) / 2, words)

    def wheel_lines(self) -> Iterator[str]:
        """Say of each wheel on which axis it is and what it does."""
        for wheel in self._wheels:
            yield f"{self._chain.axis_name(wheel.axis)} {wheel.words}"

    def text(self) -> str:
        """Write the whole file."""
        left = min(wheel.centre[0] - wheel.tip for wheel in self._wheels) - _MARGIN
        right = max(wheel.centre[0] + wheel.tip for wheel in self._wheels) + _MARGIN
        top = min(-wheel.centre[1] - wheel.tip for wheel in self._wheels) - _MARGIN
        bottom = max(-wheel.centre[1] + wheel.tip for wheel in self._wheels) + _MARGIN
        head: list[str] = []
        foot: list[str] = []
        if self._room is None:
            head, foot = list(self._head_lines()), list(self._foot_lines(right + _LABELS - left))
            top -= _LINE * (len(head) + 1)
        else:
            # The words grow by as much as the wheels shrink to fit.
            across, down = self._room
            self._grown = max((right - left) / (across - _LABELS), (bottom - top) / (down - _LINE))
        line = _LINE * self._grown
        below = line if self._room else line * (len(foot) + 3)
        wide, high = right + _LABELS * self._grown - left, bottom - top + below
        title = f"Change wheels {set_up_text(self._answer.train, self._answer.idlers)} on the banjo"
        parts = [
            _opening(f"{left:.2f} {top:.2f} {wide:.2f} {high:.2f}", wide, high, _TEXT * self._grown),
            f"<title>{escape(title)}</title>",
            f"<desc>{escape(' '.join([*head, *foot]))}</desc>",
            f'<rect x="{left:.2f}" y="{top:.2f}" width="{wide:.2f}" height="{high:.2f}" fill="white"/>',
            *self._slots(),
            *self._axes_lines(),
            *(part for wheel in self._wheels for part in _circles(wheel)),
            *self._arrows(),
            *self._studs(),
            *self._marks(),
            *(() if self._room else self._distances()),
            *self._labels(right, top + line * (len(head) + 2)),
            *_lines(head, left + 4, top + line + 1, is_bold=True),
            *_scale_bar(left + 4, bottom + (line / 2 if self._room else line)),
            *_lines(foot, left + 4, bottom + 2.4 * _LINE),
            "</svg>",
        ]
        return "\n".join(parts) + "\n"

    def _head_lines(self) -> Iterator[str]:
        lever = f", lever {self._answer.lever}" if self._answer.lever else ""
        yield f"{set_up_text(self._answer.train, self._answer.idlers)}{lever}"
        yield f"cuts {lead_text(self._answer.cut_lead)}, {self._answer.hand.hand.value}-hand"
        verdict = self._answer.mounting.verdict
        yield "does not go on" if verdict is Verdict.DOES_NOT_FIT else f"goes on: {verdict.value}"

    def _foot_lines(self, wide: float) -> Iterator[str]:
        room = int((wide - 8) / (_TEXT * 0.6))
        for note in self.notes():
            yield from wrap(note, room)

    def notes(self) -> Iterator[str]:
        """Say what stands in the way, what was assumed, and how the drawing is seen."""
        for reason in self._answer.mounting.reasons:
            yield f"× {reason}"
        if self._layout is None:
            why = "these wheels cannot be placed as the file describes the banjo"
            if self._lathe.banjo is None or self._lathe.banjo.centre_distance is None:
                why = "the lathe file does not describe the banjo"
            yield f"Places are assumed: {why}. The wheels are to scale."
        yield "Seen from the change-wheel end. Arrows: spindle forward. Isolate before hands go near."

    def _slots(self) -> Iterator[str]:
        banjo, layout = self._lathe.banjo, self._layout
        if banjo is None or layout is None:
            return
        ahead = math.atan2(float(layout.slot_direction[0]), float(layout.slot_direction[1]))
        turns = (0.0, 2 * math.pi * float(banjo.second_slot_at.turns) if banjo.second_slot_at else 0.0)
        for ends, turn in zip((banjo.slot, banjo.second_slot), turns, strict=True):
            if ends is not None:
                sine, cosine = math.sin(ahead + turn), math.cos(ahead + turn)
                a, b = (_page((float(end.mm) * sine, float(end.mm) * cosine)) for end in ends)
                for wide, colour in ((2 * _SLOT_HALF + 0.6, "#888"), (2 * _SLOT_HALF - 0.6, "#f2f2f2")):
                    yield (
                        f'<line x1="{a[0]:.2f}" y1="{a[1]:.2f}" x2="{b[0]:.2f}" y2="{b[1]:.2f}" '
                        f'stroke="{colour}" stroke-width="{wide:.2f}" stroke-linecap="round"/>'
                    )

    def _axes_lines(self) -> Iterator[str]:
        for one, other in zip(self._points, self._points[1:], strict=False):
            a, b = _page(one), _page(other)
            yield (
                f'<line x1="{a[0]:.2f}" y1="{a[1]:.2f}" x2="{b[0]:.2f}" y2="{b[1]:.2f}" '
                'stroke="black" stroke-width="0.055em" stroke-dasharray="1.5em 0.26em 0.26em 0.26em"/>'
            )

    def _studs(self) -> Iterator[str]:
        for point in self._points:
            x, y = _page(point)
            if self._nut:
                yield _circle(x, y, self._nut / 2, 'fill="white" stroke="black" stroke-width="0.11em"')
            yield _circle(x, y, 1.4, 'fill="black"')

    def _apart(self, axis: int) -> str:
        """Write the distance between the centres of one mesh, as the pitch circles make it, in mm."""
        contact = self._chain.contacts[axis]
        module = self._lathe.wheel_classes[contact.wheel_class].module.mm
        return trimmed_decimal_text(module * (contact.first + contact.second) / 2, 2)

    def centres_line(self) -> str:
        """Say how far apart the axes of each mesh are."""
        each = (f"{self._apart(axis)} mm" for axis in range(len(self._chain.contacts)))
        return f"Between centres, spindle side first: {', '.join(each)}."

    def _distances(self) -> Iterator[str]:
        for axis, (one, other) in enumerate(zip(self._points, self._points[1:], strict=False)):
            apart = self._apart(axis)
            # A third of the way is clear of the point where the two wheels meet.
            x, y = _page((one[0] + (other[0] - one[0]) * 0.36, one[1] + (other[1] - one[1]) * 0.36))
            yield _words(f"{apart} mm", x + 3, y, anchor="start")

    def _arrows(self) -> Iterator[str]:
        """Draw which way each axis turns; every mesh turns it round, back from the leadscrew."""
        clockwise = (self._answer.hand.hand is Hand.RIGHT) is not self._lathe.has_left_hand_screw
        last = len(self._points) - 1
        head = _ARROW_HEAD * min(self._grown, 1.6)
        for axis in range(last, -1, -1):
            turns = clockwise is ((last - axis) % 2 == 0)
            largest = max((wheel for wheel in self._wheels if wheel.axis == axis), key=lambda wheel: wheel.pitch)
            others = [wheel.pitch for wheel in self._wheels if wheel.axis == axis]
            # The arrow keeps off the circle of another wheel on the axis.
            inward = 5 if min(abs(largest.pitch - 5 - each) for each in others) > 2 else 9
            yield from _arc_arrow(_page(largest.centre), largest.pitch - inward, head, is_clockwise=turns)

    def _marks(self) -> Iterator[str]:
        """Ring what stands in the way: the wheels in question, and a cross on the axis they foul."""
        for fault in self._faults:
            for seat in fault.seats:
                for wheel in self._wheels:
                    if wheel.seat == seat and wheel.axis in fault.axes:
                        x, y = _page(wheel.centre)
                        ring = 'fill="none" stroke="black" stroke-width="1.6"'
                        yield _circle(x, y, wheel.tip, ring)
            crossed = _crossed_axis(fault)
            if crossed is not None:
                x, y = _page(self._points[crossed])
                yield (
                    f'<path d="M{x - 7:.2f} {y - 7:.2f} L{x + 7:.2f} {y + 7:.2f} M{x - 7:.2f} {y + 7:.2f} '
                    f'L{x + 7:.2f} {y - 7:.2f}" stroke="black" stroke-width="1.6"/>'
                )

    def _labels(self, right: float, top: float) -> Iterator[str]:
        """Write where each wheel is and what it does in a column, with a line to its rim; no two lines overlap."""
        ordered = sorted(self._wheels, key=lambda wheel: (-wheel.centre[1], wheel.seat.plane))
        y = top
        for wheel in ordered:
            centre = _page(wheel.centre)
            y = max(y, centre[1])
            rim = math.atan2(y - centre[1], right - centre[0])
            x_rim, y_rim = centre[0] + wheel.pitch * math.cos(rim), centre[1] + wheel.pitch * math.sin(rim)
            yield (
                f'<line x1="{x_rim:.2f}" y1="{y_rim:.2f}" x2="{right:.2f}" y2="{y:.2f}" '
                'stroke="black" stroke-width="0.065em"/>'
            )
            yield _circle(x_rim, y_rim, 0.8, 'fill="black"')
            name = self._chain.axis_name(wheel.axis)
            yield _words(f"{name}: {wheel.words}", right + 1.5, y + 1.6 * self._grown)
            y += 1.5 * _LINE * self._grown


def _opening(view_box: str, wide: float, high: float, text: float) -> str:
    """Open the file: as large on paper as it is at the lathe."""
    size = f'width="{wide:.2f}mm" height="{high:.2f}mm" font-family="sans-serif" font-size="{text:.4g}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="{view_box}" {size}>'


def _points(chain: Chain, lathe: Lathe, layout: Layout | None) -> list[Point]:
    """Return the axes in mm, right and up from the leadscrew; assumed where the layout is not known."""
    if layout is not None:
        return [(float(right), float(up)) for right, up in layout.points]
    distances = [
        float(lathe.wheel_classes[each.wheel_class].module.mm) * (each.first + each.second) / 2
        for each in chain.contacts
    ]
    points: list[Point] = [(0.0, 0.0)]
    for place, distance in enumerate(reversed(distances)):
        turn = math.radians(_ASSUMED_TURN if place % 2 == 0 else -_ASSUMED_TURN)
        x, y = points[0]
        points.insert(0, (x + distance * math.sin(turn), y + distance * math.cos(turn)))
    if lathe.banjo is not None and lathe.banjo.centre_distance is not None:
        points[0] = (0.0, float(lathe.banjo.centre_distance.mm))
    return points


def _crossed_axis(fault: Fault) -> int | None:
    """Name the axis to cross out: the shaft that is fouled, or the stud beyond its slot."""
    if not fault.axes:
        return None
    return fault.axes[-1] if len(fault.seats) == 1 or len(fault.axes) == 1 else None


def _page(point: Point) -> Point:
    """Turn a point of the lathe, up positive, into one of the page, down positive."""
    return point[0], -point[1]


def _circle(x: float, y: float, r: float, style: str) -> str:
    return f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{r:.2f}" {style}/>'


def _circles(wheel: _Wheel) -> Iterator[str]:
    x, y = _page(wheel.centre)
    dash = _DASHES[(wheel.seat.plane - 1) % len(_DASHES)]
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    yield _circle(x, y, wheel.tip, 'fill="none" stroke="#777" stroke-width="0.055em"')
    yield _circle(x, y, wheel.pitch, f'class="pitch" fill="none" stroke="black" stroke-width="0.2em"{dashes}')


def _words(text: str, x: float, y: float, *, anchor: str = "start", extra: str = "") -> str:
    halo = 'paint-order="stroke" stroke="white" stroke-width="0.35em"'
    return f'<text x="{x:.2f}" y="{y:.2f}" text-anchor="{anchor}" {halo}{extra}>{escape(text)}</text>'


def _lines(texts: Sequence[str], x: float, y: float, *, is_bold: bool = False) -> Iterator[str]:
    for number, text in enumerate(texts):
        bold = ' font-weight="bold"' if is_bold and number == 0 else ""
        yield _words(text, x, y + number * _LINE, extra=bold)


def _scale_bar(x: float, y: float) -> Iterator[str]:
    yield f'<path d="M{x:.2f} {y - 2:.2f} v2 h50 v-2" fill="none" stroke="black" stroke-width="0.11em"/>'
    yield _words("50 mm", x + 52, y)


def _arc_arrow(centre: Point, r: float, head: float, *, is_clockwise: bool) -> Iterator[str]:
    """Draw a sixth of a round over the lower left of a wheel, with a head at the end it turns to."""
    r = max(r, 3.0)
    start, end = (math.radians(each) for each in ((150, 210) if is_clockwise else (210, 150)))
    a, b = ((centre[0] + r * math.cos(each), centre[1] + r * math.sin(each)) for each in (start, end))
    sweep = 1 if is_clockwise else 0
    yield (
        f'<path d="M{a[0]:.2f} {a[1]:.2f} A{r:.2f} {r:.2f} 0 0 {sweep} {b[0]:.2f} {b[1]:.2f}" '
        'fill="none" stroke="black" stroke-width="0.11em"/>'
    )
    along = end + (math.pi / 2 if is_clockwise else -math.pi / 2)
    for side in (2.6, -2.6):
        x, y = b[0] + head * math.cos(along + side), b[1] + head * math.sin(along + side)
        yield f'<line x1="{b[0]:.2f}" y1="{b[1]:.2f}" x2="{x:.2f}" y2="{y:.2f}" stroke="black" stroke-width="0.13em"/>'
