"""Files nobody has thought of: any text is refused in order, and any lathe or head is written and read back."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gearsets.file_faults import FileFaultsError
from gearsets.head_files import head_toml, load_head_text
from gearsets.lathe_files import lathe_toml, load_lathe_text
from gearsets.value_checks import LONGEST_NAME
from solver.dividing.heads import Head, Plate, SmallCrank
from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.trains.lathe import Banjo, Lathe
from solver.trains.wheels import WheelClass

KEYS = st.sampled_from(
    [
        "name",
        "leadscrew",
        "lead",
        "drive",
        "stud_turns",
        "wheels",
        "size",
        "teeth",
        "other",
        "keyed_pairs",
        "only_in_pair",
        "face",
        "bore",
        "pressure_angle",
        "banjo",
        "slot",
        "swing",
        "mesh_limits",
        "studs",
        "gearbox",
        "levers",
        "chasing_dial",
        "lines",
        "spindle_stops",
        "counts",
        "plates",
        "faces",
        "table",
        "worm_ratio",
        "direct_circles",
        "pin_places",
        "dial",
        "reads",
        "small_crank",
        "ratio",
        "circles",
        "20",
        "A1",
    ]
)
SCALARS = st.sampled_from(
    [
        '"8 tpi"',
        '""',
        '"-1 deg"',
        "8",
        "-1",
        "0.5",
        "nan",
        "inf",
        "true",
        "1979-05-27",
        "07:32:00",
        "[]",
        "{}",
        "[[]]",
        "[{}]",
        "[1, 1]",
        '["1 mm", "2 mm"]',
        '"\\u0000"',
        "[[1, 2]]",
        "[[[5]]]",
    ]
)
#: Names a file may hold: what can be printed, and no longer than a line.
NAMES = st.text(st.characters(exclude_categories=["Cc", "Cf", "Cn", "Co", "Cs", "Zl", "Zp", "Zs"]), min_size=1).map(
    lambda name: name[:LONGEST_NAME]
)


@st.composite
def almost_toml(draw):
    """Known keys with values of every wrong kind, now and then in tables."""
    lines = []
    for _ in range(draw(st.integers(0, 12))):
        key = draw(KEYS)
        kind = draw(st.integers(0, 4))
        inside = f"{{ {draw(KEYS)} = {draw(SCALARS)} }}"
        lines.append(
            [f"[{key}]", f"[[{key}.{draw(KEYS)}]]", f"{key} = {inside}", f"{key} = [{inside}]"][kind]
            if kind < 4
            else f"{key} = {draw(SCALARS)}"
        )
    return "\n".join(lines)


@pytest.mark.parametrize("load", [load_lathe_text, load_head_text])
@given(text=st.text() | almost_toml())
def test_no_text_whatever_gives_anything_but_faults(load, text):
    with pytest.raises(FileFaultsError) as caught:
        load(text, "mine.toml")
    assert str(caught.value).isprintable() or "\n" in str(caught.value)


@given(
    name=NAMES,
    size=st.fractions(min_value=Fraction(1, 1000), max_value=1000, max_denominator=1000),
    stock=st.dictionaries(st.integers(5, 400), st.integers(1, 99), min_size=1),
    levers=st.dictionaries(NAMES, st.just(Fraction(3, 4))),
)
def test_any_lathe_is_read_back_equal_from_what_is_written_of_it(name, size, stock, levers):
    wheels = WheelClass("module 1", Length.of_mm(1), tuple(sorted(stock.items())))
    banjo = Banjo(centre_distance=Length.of_mm(size), swing=(Angle(-size / 360), Angle(size / 7)))
    lathe = Lathe(
        name,
        "8 tpi",
        Length.of_inches("1/8"),
        size,
        has_reverse=True,
        wheel_classes=(wheels,),
        banjo=banjo,
        levers=tuple(levers.items()),
    )
    assert load_lathe_text(lathe_toml(lathe), "copy.toml") == lathe


@given(
    name=NAMES,
    follows=st.sampled_from((None, True, False)),
    divisions=st.none() | st.integers(1, 10_000),
    places=st.none() | st.integers(2, 100),
    crank=st.none() | st.builds(SmallCrank, st.just(Fraction(100)), st.just((100, 54))),
)
def test_any_head_is_read_back_equal_from_what_is_written_of_it(name, follows, divisions, places, crank):
    ratio = Fraction(81, 2)
    head = Head(
        name,
        ratio,
        (Plate(name, ((15, 16), (21,))),),
        (24,),
        ((20, 1),),
        Length.of_mm(5),
        one_idler_follows=follows,
        dial_reading=None if divisions is None else Angle(1 / (ratio * divisions)),
        pin_places=places,
        small_crank=crank,
    )
    assert load_head_text(head_toml(head), "copy.toml") == head


@given(name=NAMES, circles=st.sets(st.integers(2, 2000), min_size=1), places=st.none() | st.integers(2, 100))
def test_any_indexer_without_a_worm_is_read_back_equal_from_what_is_written_of_it(name, circles, places):
    indexer = Head(name, Fraction(1), (), tuple(sorted(circles)), has_worm=False, pin_places=places)
    assert load_head_text(head_toml(indexer), "copy.toml") == indexer
