"""Hypothesis strategies for lathes, leads and pitches: small enough that the obvious slow way can answer too."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from solver.quantities.angles import Angle
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, PiLength
from solver.quantities.pitches import Pitch, PitchUnit
from solver.trains.lathe import Banjo, Lathe
from solver.trains.wheels import WheelClass

#: Teeth of real boxes, with wheels near one another and primes among them.
TEETH = (20, 21, 24, 25, 28, 30, 32, 35, 36, 40, 45, 46, 47, 50, 54, 55, 60, 63, 65, 75, 80, 90, 100, 120, 127)
LEADSCREWS = tuple(Length.of_mm(each) for each in ("1.5", "2", "3", "6")) + tuple(
    Length.of_inches(each) for each in ("1/4", "1/8", "1/10", "1/16")
)
#: A nut so small that most trains go on, one so large that many do not, and a file that says nothing.
BANJOS = (
    None,
    Banjo(stud_nut=Length.of_mm("0.1")),
    Banjo(stud_nut=Length.of_mm(40)),
    Banjo(studs=1, stud_nut=Length.of_mm(5)),
)


@st.composite
def whole_banjos(draw: st.DrawFn) -> Banjo:
    """Draw a banjo described in full: centre distance, one slot or two, swing, nut, studs and planes."""
    whole = st.integers(0, 60)
    starts = draw(st.integers(20, 50))
    slot = Length.of_mm(starts), Length.of_mm(starts + 20 + draw(whole) * 2)
    second = draw(st.sampled_from((False, False, True)))
    other = draw(st.integers(20, 60))
    at = Angle.of_degrees(draw(st.integers(10, 60)) * draw(st.sampled_from((-1, 1))))
    low = draw(st.integers(-90, 30))
    swing = Angle.of_degrees(low), Angle.of_degrees(low + draw(st.sampled_from((20, 60, 120, 200, 359))))
    return Banjo(
        studs=draw(st.sampled_from((None, 1, 2, 2, 3))),
        centre_distance=Length.of_mm(draw(st.integers(60, 180))),
        slot=draw(st.sampled_from((slot, slot, slot, None))) if not second else slot,
        swing=draw(st.sampled_from((swing, swing, None))),
        stud_nut=draw(st.sampled_from((None, Length.of_mm(5), Length.of_mm("16.3"), Length.of_mm(20)))),
        largest_wheel_teeth=draw(st.sampled_from((None, None, 100))),
        second_slot=(Length.of_mm(other), Length.of_mm(other + 20 + draw(whole))) if second else None,
        second_slot_at=at if second else None,
        planes=draw(st.sampled_from((None, None, 1, 2))),
    )


@st.composite
def simple_banjos(draw: st.DrawFn) -> Banjo:
    """Draw a banjo described by what each mesh allows between centres."""
    spans = []
    for _ in range(draw(st.integers(1, 3))):
        least = draw(st.integers(20, 60))
        spans.append((Length.of_mm(least), Length.of_mm(least + draw(st.integers(10, 60)))))
    return Banjo(studs=draw(st.sampled_from((None, 1, 2))), stud_nut=Length.of_mm(6), mesh_limits=tuple(spans))


def banjos() -> st.SearchStrategy[Banjo | None]:
    """Draw any kind of banjo."""
    return st.one_of(st.sampled_from(BANJOS), whole_banjos(), simple_banjos())


LEVERS = (("A", Fraction(1)), ("B", Fraction(3, 4)), ("C", Fraction(2)), ("D", Fraction(1, 2)))


def stocks(*, fewest: int = 2, most: int = 7) -> st.SearchStrategy[tuple[tuple[int, int], ...]]:
    """Draw a box of ``fewest`` to ``most`` different wheels, one to three of each, by rising teeth."""
    counts = st.sampled_from((1, 1, 1, 2, 3))
    return st.dictionaries(st.sampled_from(TEETH), counts, min_size=fewest, max_size=most).map(
        lambda held: tuple(sorted(held.items()))
    )


@st.composite
def lathes(draw: st.DrawFn, *, most: int = 7, two_classes: bool | None = None) -> Lathe:
    """Draw a lathe with at most ``most`` different wheels in one class, or as many shared between two."""
    if two_classes is None:
        two_classes = draw(st.sampled_from((False, False, False, True)))
    first_most = max(2, most // 2) if two_classes else most
    classes = [WheelClass("module 1", Length.of_mm(1), draw(stocks(most=first_most)))]
    if two_classes:
        only_in_pair = draw(st.sampled_from((None, 1, 2)))
        stock = draw(stocks(most=max(2, most - first_most)))
        other = WheelClass("20 DP", Length.of_mm("1.27"), stock, only_in_pair)
        classes.insert(draw(st.integers(0, 1)), other)
    return Lathe(
        name="drawn",
        leadscrew_text="as drawn",
        leadscrew_lead=draw(st.sampled_from(LEADSCREWS)),
        stud_turns=draw(st.sampled_from((Fraction(1), Fraction(1, 2), Fraction(2)))),
        has_reverse=draw(st.booleans()),
        wheel_classes=tuple(classes),
        banjo=draw(banjos()),
        levers=tuple(sorted(draw(st.sets(st.sampled_from(LEVERS), max_size=3)))),
        measured=draw(st.sampled_from((Fraction(0), Fraction(0), Fraction(1, 10_000), Fraction(-3, 20_000)))),
        has_left_hand_screw=draw(st.sampled_from((False, False, False, True))),
    )


def leads() -> st.SearchStrategy[Lead]:
    """Draw a lead in millimetres, threads to the inch, or a multiple of pi."""
    metric = st.integers(1, 60).map(lambda tenths: Length(Fraction(tenths, 10)))
    inch = st.integers(3, 64).map(lambda tpi: Length.of_inches(Fraction(1, tpi)))
    pi = st.integers(1, 12).map(lambda quarters: PiLength(Fraction(quarters, 4)))
    return st.one_of(metric, inch, pi)


def pitches() -> st.SearchStrategy[Pitch]:
    """Draw a pitch in any unit, with 1 to 99 starts."""
    figures = st.builds(Fraction, st.integers(1, 999_999), st.integers(1, 9_999))
    written = st.sampled_from([Fraction(each) for each in ("1.25", "11.5", "0.000001", "4.5", "1/3", "27", "19/64")])
    return st.builds(Pitch, st.one_of(figures, written), st.sampled_from(PitchUnit), st.integers(1, 99))
