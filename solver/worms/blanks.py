"""Rim diameters and face widths of a worm wheel's blank, by the rules in print; each rule is named."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.quantities.pitches import figure_text
from solver.worms.worm_wheel import WormWheel

#: Starts up to which the machinery repairman's manual adds more to the rim and the face.
FEW_STARTS = 2
#: Starts up to which the greatest rim is one and a half modules over the throat.
SOME_STARTS = 3


class SizeByRule(NamedTuple):
    """A size, and the rule that gives it."""

    rule: str
    size: Length


def rim_diameters(wheel: WormWheel) -> tuple[SizeByRule, ...]:
    """Return the outside diameter over the corners of the rim by two rules, the one of the wheel's own system first.

    The manual NAVEDTRA 14345 adds 0.4775 of the pitch to the throat for one or two starts, 0.3183 beyond: these
    are 1.5/pi and 1/pi, kept here as modules. A gear maker's tables add one module.

    Parameters
    ----------
    wheel : WormWheel
        With its worm.

    Returns
    -------
    tuple of SizeByRule
        As exact as the module is.

    Examples
    --------
    >>> from solver.worms.tooth_sizes import ToothSize
    >>> from solver.worms.worm import make_worm
    >>> wheel = WormWheel(make_worm(ToothSize.of_dp(Fraction(20))), 40)
    >>> [str(each.size.inches) for each in rim_diameters(wheel)]
    ['87/40', '43/20']
    """
    module = wheel.worm.module
    few = wheel.worm.starts <= FEW_STARTS
    manual = SizeByRule(
        f"throat + {'0.4775' if few else '0.3183'} of the pitch", wheel.throat + module * (Fraction(3, 2) if few else 1)
    )
    maker = SizeByRule("throat + 1 module", wheel.throat + module)
    return (manual, maker) if wheel.worm.size.is_inch else (maker, manual)


def greatest_rim(wheel: WormWheel) -> SizeByRule:
    """Return the outside diameter that a rim does not pass, by the number of starts. From memory.

    Examples
    --------
    >>> from solver.worms.tooth_sizes import ToothSize
    >>> from solver.worms.worm import make_worm
    >>> greatest_rim(WormWheel(make_worm(ToothSize.of_dp(Fraction(20))), 40)).size.inches
    Fraction(11, 5)
    """
    starts = wheel.worm.starts
    modules = Fraction(2) if starts == 1 else Fraction(3, 2) if starts <= SOME_STARTS else Fraction(1)
    words = f"throat + {figure_text(modules)} module{'s' if modules > 1 else ''}"
    return SizeByRule(words, wheel.throat + wheel.worm.module * modules)


def shop_face(wheel: WormWheel) -> SizeByRule:
    """Return the width of the blank by the manual NAVEDTRA 14345, meant for wheels of an inch pitch and a fair size.

    Examples
    --------
    >>> from solver.worms.tooth_sizes import ToothSize, ToothSystem
    >>> from solver.worms.worm import make_worm
    >>> half_inch = ToothSize(ToothSystem.CIRCULAR_PITCH, Length.of_inches("1/2"))
    >>> round(shop_face(WormWheel(make_worm(half_inch), 40)).size.inches, 2)
    Fraction(36, 25)
    """
    pitch = wheel.worm.module * PI_LOW
    if wheel.worm.starts <= FEW_STARTS:
        return SizeByRule("2.38 pitch + 0.25 in", pitch * Fraction(119, 50) + Length.of_inches("0.25"))
    return SizeByRule("2.15 pitch + 0.2 in", pitch * Fraction(43, 20) + Length.of_inches("0.2"))


def worm_length(wheel: WormWheel) -> SizeByRule:
    """Return the threaded length of worm that serves, by the rule pitch times 4.5 + teeth/50.

    From memory of a gear maker's tables; generous for light instrument work.

    Examples
    --------
    >>> from solver.worms.tooth_sizes import ToothSize
    >>> from solver.worms.worm import make_worm
    >>> round(worm_length(WormWheel(make_worm(ToothSize.of_dp(Fraction(25))), 50)).size.mm, 3)
    Fraction(3511, 200)
    """
    pitch = wheel.worm.module * PI_LOW
    return SizeByRule("pitch × (4.5 + teeth/50)", pitch * (Fraction(9, 2) + Fraction(wheel.teeth, 50)))
