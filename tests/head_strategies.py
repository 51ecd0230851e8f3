"""Hypothesis strategies for dividing heads, small enough that every hole and wheel can be tried."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from solver.dividing.heads import Head, Plate, SmallCrank

RATIOS = (Fraction(40), Fraction(60), Fraction(72), Fraction(90), Fraction(5), Fraction(36), Fraction(81, 2))
#: Circles of real plates, with neighbours, common factors and primes among them.
CIRCLES = (15, 16, 17, 18, 19, 20, 21, 23, 24, 25, 27, 28, 29, 30, 33, 34, 37, 39)
TEETH = (24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)


@st.composite
def plates(draw: st.DrawFn) -> tuple[Plate, ...]:
    """Draw one or two plates of one or two faces, each with one to three circles."""
    faces = st.lists(st.sampled_from(CIRCLES), min_size=1, max_size=3, unique=True).map(tuple)
    count = draw(st.integers(1, 2))
    return tuple(Plate("AB"[number], tuple(draw(st.lists(faces, min_size=1, max_size=2)))) for number in range(count))


@st.composite
def heads(draw: st.DrawFn, *, geared: bool = True) -> Head:
    """Draw a head; ``geared`` gives it two to five different wheels, one or two of each."""
    stock = st.dictionaries(st.sampled_from(TEETH), st.sampled_from((1, 1, 2)), min_size=2, max_size=5)
    return Head(
        "drawn",
        draw(st.sampled_from(RATIOS)),
        draw(plates()),
        direct_circles=draw(st.sampled_from(((), (24,), (12, 36)))),
        wheels=tuple(sorted(draw(stock).items())) if geared else (),
        one_idler_follows=draw(st.sampled_from((None, True, False))),
    )


@st.composite
def wide_heads(draw: st.DrawFn) -> Head:
    """Draw a head with two cranks, so small that every pair of holes can be tried."""
    circles = draw(st.sets(st.integers(3, 12), min_size=1, max_size=3))
    small = draw(st.sets(st.integers(2, 7), min_size=1, max_size=2))
    crank = SmallCrank(Fraction(draw(st.integers(3, 12))), tuple(sorted(small)))
    return Head("wide", Fraction(draw(st.integers(4, 12))), (Plate("A", (tuple(sorted(circles)),)),), small_crank=crank)
