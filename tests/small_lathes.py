"""Lathes with a handful of wheels, for cases that are worked by hand."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

from solver.quantities.lengths import Length
from solver.trains.lathe import Banjo, Lathe
from solver.trains.wheels import WheelClass

#: A banjo on which nearly everything goes on.
FREE = Banjo(stud_nut=Length.of_mm("0.1"))
THREE_MM = Length.of_mm(3)


def mm(value: int | str | Fraction) -> Length:
    return Length.of_mm(value)


def box_of(*teeth: int, size: str = "1", **more: Any) -> WheelClass:
    """Wheels of one module, given one by one."""
    return WheelClass(f"module {size}", mm(size), tuple(sorted(Counter(teeth).items())), **more)


def a_lathe(
    *teeth: int,
    lead: Length = THREE_MM,
    banjo: Banjo | None = None,
    reverse: bool = True,
    classes: tuple[WheelClass, ...] = (),
    **more: Any,
) -> Lathe:
    """A lathe with these wheels of module 1, or with these classes."""
    return Lathe("drawn", "", lead, Fraction(1), reverse, classes or (box_of(*teeth),), banjo=banjo, **more)
