"""Lathes: reading a person's file with all its faults at once, finding one by name, and writing one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path

from gearsets.file_faults import read_text_file
from gearsets.name_lookup import Shelf
from gearsets.toml_tables import TomlTable, parse_toml
from gearsets.toml_text import angle_toml, inline_table_toml, length_toml, list_toml, toml_string
from gearsets.value_checks import name_problem
from gearsets.wheel_boxes import read_screw_lead, read_stock, stock_toml
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.written_angles import read_angle
from solver.quantities.written_errors import read_progressive_error
from solver.quantities.written_lengths import read_length, read_ratio, read_wheel_module
from solver.refusals import UnreadableFigureError
from solver.trains.lathe import Banjo, ChasingDial, Lathe
from solver.trains.wheels import FEWEST_TEETH, MOST_TEETH, WheelClass

#: Where lathe files stand.
LATHES = Shelf("lathe", "lathes")
#: Most studs, dial lines, places in a train, planes of wheels and spindle stops believed of a lathe.
MOST_STUDS = 9
MOST_LINES = 99
MOST_PLACES = 9
MOST_PLANES = 9
MOST_STOPS = 2000
#: Pressure angles believed of a wheel. [degrees]
LEAST_FLANK = 10
MOST_FLANK = 30
_ONE = Length.of_mm(1)


def find_lathe(word: str, environ: Mapping[str, str] | None = None) -> Lathe:
    """Load the lathe a word means, as `Shelf.find` takes it; a file that is faulty or not there is refused.

    Examples
    --------
    >>> find_lathe("metric-3").leadscrew_text
    '3 mm'
    """
    return load_lathe(LATHES.find(word, environ))


def load_lathe(path: str | Path) -> Lathe:
    """Load a lathe from a file; every fault of it is named in one refusal.

    Examples
    --------
    >>> load_lathe(LATHES.shipped_folder / "inch-8.toml").banjo.studs
    2
    """
    return load_lathe_text(read_text_file(path), str(path))


def load_lathe_text(text: str, where: str) -> Lathe:
    r"""Load a lathe from the text of a file.

    Parameters
    ----------
    text : str
        The whole file.
    where : str
        How the person named it, for messages.

    Returns
    -------
    Lathe
        The lathe.

    Raises
    ------
    FileFaultsError
        With every fault of the file.

    Examples
    --------
    >>> load_lathe_text("[leadscrew]\nlead = 8", "mine.toml")
    Traceback (most recent call last):
    gearsets.file_faults.FileFaultsError: 4 faults in mine.toml:
      name: is missing; write name = "Bench lathe, 8 tpi leadscrew"
      leadscrew.lead (line 2): is a whole number, not text; write for example "8 tpi"
      wheels.size: is missing; write size = "module 1"
      wheels.teeth: is missing; write teeth = { 20 = 1, 30 = 1 }, teeth = how many you have
    """
    root = parse_toml(text, where)
    name = root.text("name", example="Bench lathe, 8 tpi leadscrew")
    screw = root.table("leadscrew")
    leadscrew_text, lead = _leadscrew(screw)
    measured_text, measured = _measured(screw)
    has_left_hand_screw = screw.figure("hand", _read_is_left, example="right", default=False)
    drive = root.table("drive")
    stud_turns = drive.figure("stud_turns", read_ratio, example="1/2", default=Fraction(1))
    has_reverse = drive.flag("reverse")
    wheels = root.table("wheels")
    lathe = Lathe(
        name,
        leadscrew_text,
        lead,
        stud_turns,
        has_reverse,
        (_wheel_class(wheels), *(_wheel_class(other) for other in wheels.tables("other"))),
        _keyed_pairs(wheels),
        _banjo(root.table("banjo")) if root.has("banjo") else None,
        _levers(root.table("gearbox")) if root.has("gearbox") else (),
        _chasing_dial(root.table("chasing_dial")) if root.has("chasing_dial") else None,
        _stops(root.table("spindle_stops")) if root.has("spindle_stops") else (),
        measured,
        measured_text,
        has_left_hand_screw,
        is_stud_stated=drive.has("stud_turns"),
        is_reverse_stated=drive.has("reverse"),
    )
    root.finish()
    return lathe


def _leadscrew(table: TomlTable) -> tuple[str, Length]:
    lead = table.figure("lead", read_screw_lead, example="8 tpi", default=None, is_required=True)
    # The text is kept for echoing; where it could not be read the fault is noted already.
    return ("", _ONE) if lead is None else (table.text("lead", example="8 tpi"), lead)


def _measured(table: TomlTable) -> tuple[str, Fraction]:
    example = "+0.03 mm in 300 mm"
    measured = table.figure("measured", read_progressive_error, example=example, default=None)
    return ("", Fraction(0)) if measured is None else (table.text("measured", example=example), measured)


def _read_is_left(text: str) -> bool:
    if text.strip().lower() not in ("right", "left"):
        raise UnreadableFigureError(text, 0, "a screw is right or left")
    return text.strip().lower() == "left"


def _wheel_class(table: TomlTable) -> WheelClass:
    module = table.figure("size", read_wheel_module, example="module 1", default=None, is_required=True)
    size = "" if module is None else table.text("size", example="module 1")
    stock = read_stock(table, is_required=True)
    return WheelClass(
        size,
        module or _ONE,
        stock,
        table.whole("only_in_pair", 1, MOST_PLACES),
        table.figure("face", _read_size, example="10 mm", default=None),
        table.figure("bore", _read_size, example="12 mm", default=None),
        table.figure("pressure_angle", _read_pressure_angle, example="20 deg", default=None),
    )


def _read_size(text: str) -> Length:
    length = read_length(text)
    if length.mm == 0:
        raise UnreadableFigureError(text, 0, "a size of a wheel is above zero")
    return length


def _read_pressure_angle(text: str) -> Angle:
    angle = read_angle(text)
    if not LEAST_FLANK <= angle.degrees <= MOST_FLANK:
        reason = f"a pressure angle of a wheel is {LEAST_FLANK} to {MOST_FLANK} degrees"
        raise UnreadableFigureError(text, 0, reason)
    return angle


def _keyed_pairs(wheels: TomlTable) -> tuple[tuple[int, int], ...]:
    # Joined for good, they are in addition to the loose wheels; the box need hold neither.
    example = "[[60, 63]], wheels joined for good, in addition to the loose ones of teeth"
    pairs = wheels.lists_of_wholes("keyed_pairs", FEWEST_TEETH, MOST_TEETH, example=example, length=2)
    return tuple((pair[0], pair[1]) for pair in pairs if len(pair) == 2)


def _banjo(table: TomlTable) -> Banjo:
    span = ("40 mm", "75 mm")
    banjo = Banjo(
        table.whole("studs", 1, MOST_STUDS),
        table.figure("centre_distance", read_length, example="150 mm", default=None),
        table.range("slot", read_length, example=("30 mm", "135 mm")),
        table.range("swing", _read_swing, example=("-20 deg", "60 deg")),
        table.figure("stud_nut", read_length, example="20 mm", default=None),
        table.ranges("mesh_limits", read_length, example=span),
        table.whole("largest_wheel_teeth", FEWEST_TEETH, MOST_TEETH),
        table.range("second_slot", read_length, example=("40 mm", "120 mm")),
        table.figure("second_slot_at", _read_swing, example="25 deg", default=None),
        table.whole("planes", 1, MOST_PLANES),
    )
    if banjo.second_slot and not banjo.slot:
        table.fault("second_slot", "stands without a first one", 'write slot = ["30 mm", "135 mm"] for the first')
    if (banjo.second_slot is None) is not (banjo.second_slot_at is None):
        table.fault("second_slot", "needs its angle from the first", 'write second_slot and second_slot_at = "25 deg"')
    if banjo.centre_distance == Length.of_mm(0):
        table.fault("centre_distance", "is zero", 'write for example "150 mm"')
    return banjo


def _read_swing(text: str) -> Angle:
    return read_angle(text, signed=True)


def _levers(table: TomlTable) -> tuple[tuple[str, Fraction], ...]:
    levers = table.table("levers")
    found = []
    for name in levers.entries():
        ratio = levers.figure(name, read_ratio, example="3/4", default=None)
        if not name.strip():
            levers.fault(name, "is a position without a name", 'write for example A1 = "1"')
        elif problem := name_problem(name):
            levers.fault(name, problem, 'write for example A1 = "1"')
        if ratio is not None:
            found.append((name, ratio))
    if table.is_empty("levers"):
        table.fault("levers", "has no position", 'write levers = { A1 = "1", A2 = "3/4" }')
    return tuple(found)


def _chasing_dial(table: TomlTable) -> ChasingDial | None:
    teeth = table.whole("wheel_teeth", FEWEST_TEETH, MOST_TEETH, is_required=True)
    lines = table.whole("lines", 1, MOST_LINES, is_required=True)
    return None if teeth is None or lines is None else ChasingDial(teeth, lines)


def _stops(table: TomlTable) -> tuple[int, ...]:
    return table.wholes("counts", 1, MOST_STOPS, is_required=True)


def lathe_toml(lathe: Lathe) -> str:
    """Write a lathe as the text of a file that `load_lathe_text` reads back as an equal lathe.

    Examples
    --------
    >>> lathe = find_lathe("inch-16-small")
    >>> load_lathe_text(lathe_toml(lathe), "copy.toml") == lathe
    True
    """
    return "\n".join(_lines(lathe)) + "\n"


def _lines(lathe: Lathe) -> Iterator[str]:
    yield f"name = {toml_string(lathe.name)}"
    yield from ("", "[leadscrew]", f"lead = {toml_string(lathe.leadscrew_text)}")
    if lathe.measured_text:
        yield f"measured = {toml_string(lathe.measured_text)}"
    if lathe.has_left_hand_screw:
        yield 'hand = "left"'
    yield from ("", "[drive]")
    stud_turns = f"stud_turns = {toml_string(str(lathe.stud_turns))}"
    yield stud_turns if lathe.is_stud_stated else f"# {stud_turns}  # assumed: turn the spindle by hand and count"
    reverse = f"reverse = {str(lathe.has_reverse).lower()}"
    yield reverse if lathe.is_reverse_stated else f"# {reverse}  # assumed: look behind the headstock"
    first, *others = lathe.wheel_classes
    yield from ("", "[wheels]", *_wheel_lines(first))
    if lathe.keyed_pairs:
        yield f"keyed_pairs = {list_toml(list_toml(map(str, pair)) for pair in lathe.keyed_pairs)}"
    for other in others:
        yield from ("", "[[wheels.other]]", *_wheel_lines(other))
    if lathe.banjo:
        yield from ("", "[banjo]", *_banjo_lines(lathe.banjo))
    if lathe.levers:
        levers = inline_table_toml((name, toml_string(str(ratio))) for name, ratio in lathe.levers)
        yield from ("", "[gearbox]", f"levers = {levers}")
    if dial := lathe.chasing_dial:
        yield from ("", "[chasing_dial]", f"wheel_teeth = {dial.wheel_teeth}", f"lines = {dial.lines}")
    if lathe.spindle_stops:
        yield from ("", "[spindle_stops]", f"counts = {list_toml(map(str, lathe.spindle_stops))}")


def _wheel_lines(wheels: WheelClass) -> Iterator[str]:
    yield f"size = {toml_string(wheels.size)}"
    yield f"teeth = {stock_toml(wheels.stock)}"
    if wheels.only_in_pair is not None:
        yield f"only_in_pair = {wheels.only_in_pair}"
    if wheels.face is not None:
        yield f"face = {length_toml(wheels.face)}"
    if wheels.bore is not None:
        yield f"bore = {length_toml(wheels.bore)}"
    if wheels.pressure_angle is not None:
        yield f"pressure_angle = {angle_toml(wheels.pressure_angle)}"


def _banjo_lines(banjo: Banjo) -> Iterator[str]:
    if banjo.studs is not None:
        yield f"studs = {banjo.studs}"
    if banjo.centre_distance is not None:
        yield f"centre_distance = {length_toml(banjo.centre_distance)}"
    if banjo.slot is not None:
        yield f"slot = {list_toml(map(length_toml, banjo.slot))}"
    if banjo.second_slot is not None and banjo.second_slot_at is not None:
        yield f"second_slot = {list_toml(map(length_toml, banjo.second_slot))}"
        yield f"second_slot_at = {angle_toml(banjo.second_slot_at)}"
    if banjo.swing is not None:
        yield f"swing = {list_toml(map(angle_toml, banjo.swing))}"
    if banjo.stud_nut is not None:
        yield f"stud_nut = {length_toml(banjo.stud_nut)}"
    if banjo.mesh_limits:
        yield f"mesh_limits = {list_toml(list_toml(map(length_toml, pair)) for pair in banjo.mesh_limits)}"
    if banjo.largest_wheel_teeth is not None:
        yield f"largest_wheel_teeth = {banjo.largest_wheel_teeth}"
    if banjo.planes is not None:
        yield f"planes = {banjo.planes}"
