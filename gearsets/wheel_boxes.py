"""What lathe and head files share: the box of wheels, and the lead of a screw."""

from __future__ import annotations

from gearsets.toml_tables import TomlTable
from gearsets.toml_text import inline_table_toml
from solver.quantities.lengths import Length
from solver.quantities.pitches import PitchUnit
from solver.quantities.written_pitches import read_pitch
from solver.refusals import UnreadableFigureError
from solver.trains.wheels import FEWEST_TEETH, MOST_TEETH

#: Most wheels of one tooth count believed of a box.
MOST_ALIKE = 99
_BOX_REMEDY = "write teeth = { 20 = 1, 30 = 1 }, teeth = how many you have"
_LEAD_UNITS = (PitchUnit.MILLIMETRE, PitchUnit.INCH, PitchUnit.THREADS_PER_INCH)


def read_screw_lead(text: str) -> Length:
    """Read the lead of a leadscrew or table screw: millimetres, inches or threads per inch, one start.

    Raises
    ------
    UnreadableFigureError
        Also for a module or DP, which no such screw is made to, and for several starts.

    Examples
    --------
    >>> read_screw_lead("8 tpi")
    Length(mm=Fraction(127, 40))
    """
    pitch = read_pitch(text)
    lead = pitch.lead
    if pitch.unit not in _LEAD_UNITS or not isinstance(lead, Length):
        raise UnreadableFigureError(text, 0, "the lead of a screw is in mm, in or tpi")
    if pitch.starts != 1:
        raise UnreadableFigureError(text, 0, "give the lead itself, without starts")
    return lead


def read_stock(table: TomlTable, *, is_required: bool) -> tuple[tuple[int, int], ...]:
    """Read the key ``teeth`` of a table: tooth counts, and how many of each there are.

    Parameters
    ----------
    table : TomlTable
        The table that holds the key.
    is_required : bool
        An empty or missing box is a fault.

    Returns
    -------
    tuple of (int, int)
        Teeth and count, by rising teeth.

    Examples
    --------
    >>> from gearsets.toml_tables import parse_toml
    >>> read_stock(parse_toml("teeth = { 127 = 1, 20 = 2 }", "mine.toml"), is_required=True)
    ((20, 2), (127, 1))
    """
    has_any = table.has("teeth")
    inside = table.table("teeth", remedy=_BOX_REMEDY)
    found: dict[int, int] = {}
    for key in inside.entries():
        teeth = _teeth(key)
        if inside.is_table(key):
            inside.fault(key, "is a table, not a whole number", f"a tooth count has no point: write {key} = 1")
            continue
        count = inside.whole(key, 1, MOST_ALIKE, counted="wheels")
        if teeth is None:
            inside.fault(key, "is not a tooth count", f"write a whole number from {FEWEST_TEETH} to {MOST_TEETH}")
        elif count is not None:
            found[teeth] = count
    if is_required and not has_any:
        table.fault("teeth", "is missing", _BOX_REMEDY)
    elif is_required and table.is_empty("teeth"):
        table.fault("teeth", "has no wheel", _BOX_REMEDY)
    return tuple(sorted(found.items()))


def _teeth(key: str) -> int | None:
    """Return the tooth count a key means; one spelling each, so that no count can stand twice."""
    if not (key.isascii() and key.isdigit()) or len(key) > len(str(MOST_TEETH)) or key.startswith("0"):
        return None
    return int(key) if FEWEST_TEETH <= int(key) <= MOST_TEETH else None


def stock_toml(stock: tuple[tuple[int, int], ...]) -> str:
    """Write a box of wheels as an inline table.

    Examples
    --------
    >>> stock_toml(((20, 2), (127, 1)))
    '{ 20 = 2, 127 = 1 }'
    """
    return inline_table_toml((str(teeth), str(count)) for teeth, count in stock)
