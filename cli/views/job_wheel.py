"""What the step of a job says of a worm wheel beside its moves: blank, gash and cutter, and where the rest is found."""

from __future__ import annotations

from typing import Any

from cli.index_moves import head_option_words
from cli.views.swing_words import swing_json
from cli.views.workpiece import Workpiece, spur_wheel
from cli.views.workpiece import wheel_rows as spur_rows
from cli.views.worm_screen import wheel_rows
from cli.views.worm_shop import Setting, angle_json, cutting_rows, length_json
from gearsets.job_parts import DividedPart, WheelPart
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import MM_PER_INCH, Length
from solver.trains.hand import Hand
from solver.worms.blanks import rim_diameters
from solver.worms.gashing import gash_for_wheel
from solver.worms.tooth_sizes import ToothSystem
from solver.worms.worm import make_worm
from solver.worms.worm_wheel import WormWheel

#: Rows of the wheel that its blank is turned to.
BLANK = ("Centres", "Throat dia", "Rim dia", "Face")
#: Decimal places of a size in a command line.
PLACES = 6
_NOT_MEASURED = Setting(None, None, Length.of_mm(0))


def held_part(product: object) -> Workpiece | None:
    """Give the spur wheel of a part that is divided into its teeth; ``None`` for any other."""
    if isinstance(product, DividedPart) and product.tooth is not None and product.count is not None:
        return spur_wheel(product.tooth, product.count)
    return None


def part_rows(product: object, head_word: str) -> list[tuple[str, str]]:
    """List blank, depth and cutter of a wheel of either kind; nothing of another part."""
    if isinstance(product, WheelPart):
        return wheel_part_rows(product.wheel, product.hand, head_word)
    held = held_part(product)
    return [] if held is None else spur_rows(held)


def wheel_part_rows(wheel: WormWheel, hand: Hand, head_word: str) -> list[tuple[str, str]]:
    """List blank, swing, depth and cutter of a worm wheel to be gashed."""
    blank = [row for row in wheel_rows(wheel) if row[0] in BLANK]
    gashing = cutting_rows(gash_for_wheel(wheel), _NOT_MEASURED, rim_diameters(wheel)[0].size, hand)
    return [*blank, *gashing, ("In full", f"'{worm_command(wheel, hand, head_word)}'; --cutter and --rod set it up")]


def worm_command(wheel: WormWheel, hand: Hand, head_word: str) -> str:
    """Write the command that answers for the same worm and wheel in full, gashed on the head so named.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from solver.worms.tooth_sizes import ToothSize
    >>> worm = make_worm(ToothSize(ToothSystem.AXIAL_MODULE, Length.of_mm("0.5")), diameter=Length.of_mm(8))
    >>> worm_command(WormWheel(worm, 73), Hand.RIGHT, "")
    'halfnut worm --module 0.5 --teeth 73 --worm-diameter "8 mm"'
    >>> worm_command(WormWheel(make_worm(ToothSize.of_dp(Fraction(24)), starts=2), 40), Hand.LEFT, "table-90")
    'halfnut worm --dp 24 --teeth 40 --starts 2 --hand left --head table-90'
    """
    worm = wheel.worm
    figure = worm.size.figure
    if worm.size.system is ToothSystem.DIAMETRAL_PITCH:
        size = f"--dp {trimmed_decimal_text(MM_PER_INCH / figure.mm, PLACES)}"
    elif worm.size.system is ToothSystem.CIRCULAR_PITCH:
        size = f'--pitch "{_millimetres(figure)}"'
    else:
        normal = "normal-" if worm.size.system is ToothSystem.NORMAL_MODULE else ""
        size = f"--{normal}module {trimmed_decimal_text(figure.mm, PLACES)}"
    usual = make_worm(worm.size, starts=worm.starts)
    words = ["halfnut worm", size, f"--teeth {wheel.teeth}"]
    words += [] if worm.starts == 1 else [f"--starts {worm.starts}"]
    words += [] if hand is Hand.RIGHT else [f"--hand {hand.value}"]
    words += [] if worm.diameter == usual.diameter else [f'--worm-diameter "{_millimetres(worm.diameter)}"']
    words += [] if wheel.shift == 0 else [f'--centre-distance "{_millimetres(wheel.centre_distance)}"']
    words += (
        [] if worm.flank == usual.flank else [f'--pressure-angle "{trimmed_decimal_text(worm.flank.degrees, 4)} deg"']
    )
    return " ".join([*words, *head_option_words(head_word)])


def _millimetres(length: Length) -> str:
    return f"{trimmed_decimal_text(length.mm, PLACES)} mm"


def wheel_part_json(wheel: WormWheel, hand: Hand, head_word: str) -> dict[str, Any]:
    """Describe blank and gash of a worm wheel."""
    gash, is_exact = gash_for_wheel(wheel), wheel.worm.is_exact
    return {
        "throat": length_json(wheel.throat, is_exact=is_exact),
        "throat_radius": length_json(wheel.throat_radius, is_exact=is_exact),
        "rim": length_json(rim_diameters(wheel)[0].size, is_exact=is_exact),
        "swing_deg": angle_json(gash.swing),
        **swing_json(hand, "gash"),
        "gash_depth": length_json(gash.depth, is_exact=is_exact),
        "left_for_hob": length_json(gash.left, is_exact=is_exact),
        "widest_cutter": length_json(gash.widest_cutter, is_exact=False),
        "in_full": worm_command(wheel, hand, head_word),
    }
