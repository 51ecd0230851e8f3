"""What a part of a job is: a thread, a worm or its wheel, divisions, a shape, a slot or a dial; read from its table."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from gearsets.designations import read_thread_or_pitch
from gearsets.shape_names import SHAPES, flats_named
from gearsets.thread_endings import written_hand
from gearsets.thread_forms import DrawnThread, drawn_thread
from gearsets.thread_tables import SeriesThread
from gearsets.toml_tables import TomlTable
from gearsets.value_checks import T
from gearsets.wheel_boxes import read_screw_lead
from solver.dials.graduations import MOST_MARKS, Graduation, GraduationReport, graduate
from solver.dividing.divide import MOST_DIVISIONS
from solver.dividing.shapes import FlatsOnRound, flats_across, flats_to_corner, largest_in_round
from solver.dividing.slots import (
    LengthwiseSlot,
    most_slots_across,
    most_slots_along,
    passes_from_touch,
    refuse_meeting_slots,
)
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead
from solver.quantities.pitches import Pitch
from solver.quantities.written_angles import read_angle
from solver.quantities.written_lengths import read_length
from solver.quantities.written_pitches import pitch_with_starts, read_pitch
from solver.refusals import RefusalError, UnreadableFigureError
from solver.trains.hand import Hand
from solver.wheelwork.tooth_cutting import SpurTooth, read_spur_tooth
from solver.worms.tooth_sizes import ToothSize
from solver.worms.worm import make_worm
from solver.worms.worm_wheel import WormWheel, make_wheel

#: Most teeth of a wheel, starts of a thread, slots of a part.
MOST_TEETH = 1_000_000
MOST_STARTS = 99
MOST_SLOTS = 1000
NOTHING = Length(Fraction(0))


@dataclass(frozen=True, slots=True)
class ThreadPart:
    """A thread: its pitch, its row in the tables, and its form where that and a diameter are known."""

    pitch: Pitch
    row: SeriesThread | None
    drawn: DrawnThread | None
    hand: Hand

    @property
    def lead(self) -> Lead:
        """Lead to gear for."""
        return self.pitch.lead


@dataclass(frozen=True, slots=True)
class WormPart:
    """A worm, with the wheel it drives."""

    wheel: WormWheel
    hand: Hand

    @property
    def lead(self) -> Lead:
        """Lead to gear for."""
        return self.wheel.worm.lead


@dataclass(frozen=True, slots=True)
class WheelPart:
    """The wheel of a worm, gashed on the head; its teeth have the hand of the worm."""

    wheel: WormWheel
    hand: Hand

    @property
    def turn(self) -> Fraction:
        """Part of a turn for each gash."""
        return Fraction(1, self.wheel.teeth)


@dataclass(frozen=True, slots=True)
class DividedPart:
    """Equal divisions, or one angle where ``count`` is ``None``; ``tooth`` where they are the teeth of a spur wheel."""

    count: int | None
    turn: Fraction
    tooth: SpurTooth | None = None


@dataclass(frozen=True, slots=True)
class ShapedPart:
    """Flats on a round; ``shape`` is as the file writes it."""

    shape: str
    cut: FlatsOnRound

    @property
    def turn(self) -> Fraction:
        """Part of a turn from flat to flat."""
        return Fraction(1, self.cut.flats.count)


@dataclass(frozen=True, slots=True)
class SlottedPart:
    """Slots round a part: sizes, and how far the cutter travels from touching either side to each pass."""

    count: int
    diameter: Length
    width: Length
    depth: Length
    cutter: Length
    offset: Length
    feeler: Length
    beyond: tuple[Length, ...]
    short: tuple[Length, ...]
    along: LengthwiseSlot | None

    @property
    def turn(self) -> Fraction:
        """Part of a turn from slot to slot; the whole turn for a single one."""
        return Fraction(1, self.count)


@dataclass(frozen=True, slots=True)
class DialPart:
    """A dial for a screw."""

    report: GraduationReport
    diameter: Length | None

    @property
    def turn(self) -> Fraction:
        """Part of a turn from mark to mark."""
        return Fraction(1, self.report.answers[0].marks)


#: What is turned on the lathe, and what on the head.
Turned = ThreadPart | WormPart
Divided = WheelPart | DividedPart | ShapedPart | SlottedPart | DialPart


class WheelOf(NamedTuple):
    """A wheel that names its worm, before the worm is known."""

    worm: str


def read_product(table: TomlTable, kind: str) -> Turned | Divided | WheelOf | None:
    """Read what a part is, of one kind; what cannot be read is noted, and nothing is returned."""
    return _READERS[kind](table)


def _read(reader: Callable[[str], T]) -> Callable[[str], T]:
    """Let every refusal of a reader be noted as a figure that cannot be read."""

    def read(text: str) -> T:
        try:
            return reader(text)
        except UnreadableFigureError as refusal:
            helped = f"{refusal.reason}. {refusal.help_text}".rstrip(". ")
            raise UnreadableFigureError(text, refusal.at, helped) from None
        except RefusalError as refusal:
            raise UnreadableFigureError(text, 0, f"{refusal.message} {refusal.help_text}".replace("\n", " ")) from None

    return read


def _above_nothing(text: str) -> Length:
    length = read_length(text)
    if length.mm == 0:
        raise UnreadableFigureError(text, 0, "this length is above zero")
    return length


def _size(table: TomlTable, key: str, example: str, *, is_required: bool = False) -> Length | None:
    return table.figure(key, _above_nothing, example=example, default=None, is_required=is_required)


def _hand(table: TomlTable) -> Hand:
    return table.figure("hand", _read_hand, example="right", default=None) or Hand.RIGHT


def _read_hand(text: str) -> Hand:
    words = {hand.value: hand for hand in Hand}
    if text.strip().lower() not in words:
        raise UnreadableFigureError(text, 0, "a thread is right or left")
    return words[text.strip().lower()]


def _made(table: TomlTable, key: str, make: Callable[[], T]) -> T | None:
    """Work a thing out, or note why it cannot be had."""
    try:
        return make()
    except RefusalError as refusal:
        help_text = refusal.help_text.replace("\n", " ").rstrip(".")
        table.fault(key, refusal.message.replace("\n", " "), help_text or "give other sizes")
        return None


def _with_its_text(text: str) -> tuple[str, Pitch, SeriesThread | None]:
    return text, *read_thread_or_pitch(text)


def _thread(table: TomlTable) -> ThreadPart | None:
    found = table.figure("thread", _read(_with_its_text), example="M6", default=None)
    starts = table.whole("starts", 1, MOST_STARTS)
    major = _size(table, "diameter", "6 mm")
    beside = table.figure("hand", _read_hand, example="right", default=None)
    if found is None:
        return None
    text, pitch, row = found
    if starts is not None and pitch.starts not in (1, starts):
        table.fault("starts", f"is {starts}, and the thread says {pitch.starts}", "leave one of them out")
    elif starts is not None:
        pitch = pitch_with_starts(text, pitch, starts)
    try:
        drawn = drawn_thread(pitch, row, major=major, form=None)
    except RefusalError:
        # Without a diameter or a form there is nothing to draw; the lead is known all the same.
        drawn = None
    hand = written_hand(text)
    if hand is not None and beside not in (None, hand):
        table.fault("hand", f"is {beside.value}, and the thread is written {hand.value}-hand", "leave one of them out")
    return ThreadPart(pitch, row, drawn, hand or beside or Hand.RIGHT)


def _worm(table: TomlTable) -> WormPart | None:
    worm = table.table("worm", remedy='write worm = { size = "module 0.5", teeth = 73 }')
    pitch = worm.figure("size", _read(read_pitch), example="module 0.5", default=None, is_required=True)
    teeth = worm.whole("teeth", 1, MOST_TEETH, is_required=True)
    starts = worm.whole("starts", 1, MOST_STARTS) or 1
    diameter, apart = _size(worm, "diameter", "9 mm"), _size(worm, "centre_distance", "22 mm")
    flank = worm.figure("pressure_angle", read_angle, example="20 deg", default=None)
    hand = _hand(table)
    if pitch is None or teeth is None:
        return None
    if pitch.starts != 1:
        worm.fault("size", "has starts in it", "write starts = 2 beside it")
        return None

    def make() -> WormWheel:
        made = make_worm(ToothSize.of_pitch(pitch), starts=starts, diameter=diameter, flank=flank)
        return make_wheel(made, teeth, centre_distance=apart)

    wheel = _made(table, "worm", make)
    return None if wheel is None else WormPart(wheel, hand)


def _wheel(table: TomlTable) -> WheelOf:
    return WheelOf(table.text("wheel", example="name of the worm"))


def _divide(table: TomlTable) -> DividedPart | None:
    count = table.whole("divide", 1, MOST_DIVISIONS)
    tooth = table.figure("size", read_spur_tooth, example="module 0.5", default=None)
    return None if count is None else DividedPart(count, Fraction(1, count), tooth)


def _angle(table: TomlTable) -> DividedPart | None:
    angle = table.figure("angle", read_angle, example="37.5 deg", default=None)
    if angle is not None and not 0 < angle.turns <= 1:
        table.fault("angle", "is not above 0 and at most 360 deg", 'write for example "37.5 deg"')
        return None
    return None if angle is None else DividedPart(None, angle.turns)


def _shape(table: TomlTable) -> ShapedPart | None:
    shape = table.table("shape", remedy='write shape = { name = "square", from = "12 mm" }')
    name = shape.text("name", example="square")
    diameter = _size(shape, "from", "12 mm")
    sizes = {key: _size(shape, key, "8 mm") for key in ("across_flats", "across_corners", "flat_to_corner")}
    given = {key: size for key, size in sizes.items() if size is not None}
    count = flats_named(name) if name else None
    if name and count is None:
        shape.fault("name", "is no shape known here", f"write {', '.join(SHAPES)}, or a number of flats")
    if len(given) > 1:
        shape.fault(list(given)[1], "gives the size a second time", "leave one of the sizes out")
    elif not given and diameter is None:
        shape.fault("from", "is missing, and no size is given", 'write from = "12 mm" or across_flats = "8 mm"')
    elif count is not None:
        return _made(table, "shape", lambda: _flats(name, count, diameter, given))
    return None


def _flats(name: str, count: int, diameter: Length | None, given: dict[str, Length]) -> ShapedPart:
    if "across_flats" in given:
        flats = flats_across(count, given["across_flats"])
    elif "flat_to_corner" in given:
        flats = flats_to_corner(count, given["flat_to_corner"])
    else:
        flats = largest_in_round(count, given.get("across_corners") or diameter or NOTHING)
    round_from = diameter or flats.corner_circle
    if round_from is None:
        raise RefusalError("two flats have no corners to find a round from", help_text='write from = "12 mm" too')
    return ShapedPart(name, FlatsOnRound(flats, round_from))


def _slot(table: TomlTable) -> SlottedPart | None:
    slot = table.table("slot", remedy='write slot = { in = "8 mm", width = "1.2 mm", depth = "2 mm" }')
    diameter = _size(slot, "in", "8 mm", is_required=True)
    width = _size(slot, "width", "1.2 mm", is_required=True)
    depth = _size(slot, "depth", "2 mm", is_required=True)
    cutter = _size(slot, "cutter", "1.2 mm")
    offset = slot.figure("offset", read_length, example="1 mm", default=NOTHING)
    feeler = slot.figure("feeler", read_length, example="0.05 mm", default=NOTHING)
    count, is_along = slot.whole("count", 1, MOST_SLOTS) or 1, slot.flag("lengthwise")
    if diameter is None or width is None or depth is None:
        return None

    def make() -> SlottedPart:
        beyond, short = (
            passes_from_touch(diameter=diameter, width=width, cutter=cutter or width, offset=each, feeler=feeler)
            for each in (offset, offset * -1)
        )
        along = LengthwiseSlot(diameter, width, offset, depth) if is_along else None
        most = most_slots_along(along) if along else most_slots_across(diameter, width, offset)
        refuse_meeting_slots("slots", count, most)
        return SlottedPart(count, diameter, width, depth, cutter or width, offset, feeler, beyond, short, along)

    return _made(table, "slot", make)


def _dial(table: TomlTable) -> DialPart | None:
    dial = table.table("dial", remedy='write dial = { screw = "8 tpi", reads = "0.001 in" }')
    lead = dial.figure("screw", read_screw_lead, example="8 tpi", default=None, is_required=True)
    reads = _size(dial, "reads", "0.001 in")
    marks = dial.whole("marks", 2, MOST_MARKS)
    diameter = _size(dial, "diameter", "40 mm")
    if reads is None and marks is None:
        dial.fault("reads", "is missing, and no marks are given", 'write reads = "0.001 in" or marks = 125')
    if lead is None or (reads is None and marks is None):
        return None

    def make() -> DialPart:
        if marks is None:
            return DialPart(graduate(lead, reads or lead), diameter)
        wanted = reads or lead * Fraction(1, marks)
        return DialPart(GraduationReport(lead / wanted, (Graduation(lead, marks, wanted),)), diameter)

    return _made(table, "dial", make)


_READERS: dict[str, Callable[[TomlTable], Turned | Divided | WheelOf | None]] = {
    "thread": _thread, "worm": _worm, "wheel": _wheel, "divide": _divide, "angle": _angle, "shape": _shape,
    "slot": _slot, "dial": _dial,
}  # fmt: skip
#: Keys that say what a part is; one of them stands in each.
KINDS = tuple(_READERS)
