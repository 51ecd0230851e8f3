"""What is divided: a wheel with its blank, depth and cutter, and what an error of the head comes to at the rim."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING, Any, NamedTuple

from cli.views.part_figures import length_json, middle
from cli.views.shop_figures import arcsec_text, micrometres_text, size_text
from solver.dividing.table_dial import along_rim
from solver.helices.cutter_ranges import cutter_for
from solver.quantities.angles import Angle
from solver.quantities.circle_figures import square_root
from solver.quantities.exact_numbers import decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pitches import figure_text
from solver.wheelwork.tooth_cutting import SET_BEGINS, SpurTooth, clean_from

if TYPE_CHECKING:
    from collections.abc import Sequence

    from solver.dividing.moves import IndexAnswer
    from solver.dividing.positions import Position

#: Places of a root mean square in parts of a turn: finer than anything that is shown.
RMS_PLACES = 20


class Workpiece(NamedTuple):
    """What is on the head.

    Parameters
    ----------
    radius : Length
        Where an error is told along the rim: that of the pitch circle of a wheel.
    tooth : SpurTooth or None
        Size of tooth, where it is a wheel.
    teeth : int
        Of the wheel.
    """

    radius: Length
    tooth: SpurTooth | None = None
    teeth: int = 0


def spur_wheel(tooth: SpurTooth, teeth: int) -> Workpiece:
    """Put a wheel on the head, with the radius of its pitch circle.

    Examples
    --------
    >>> spur_wheel(SpurTooth("module 0.5", Length.of_mm("0.5"), is_dp=False), 127).radius
    Length(mm=Fraction(127, 4))
    """
    return Workpiece(tooth.module * Fraction(teeth, 2), tooth, teeth)


def wheel_rows(part: Workpiece) -> list[tuple[str, str]]:
    """List what the maker of a wheel turns and cuts; nothing for a part that is none.

    Examples
    --------
    >>> tooth = SpurTooth("module 0.5", Length.of_mm("0.5"), is_dp=False)
    >>> for name, fact in wheel_rows(Workpiece(Length.of_mm("31.75"), tooth, 127)):
    ...     print(f"{name:<6} {fact}")
    Wheel  127 T module 0.5, pitch diameter 63.5 mm (2.5 in)
    Blank  64.5 mm (≈2.5394 in) over the tips: 129 × 0.5 mm
    Depth  1.125 mm (≈0.0443 in) = 2.25 modules, unless the cutter is stamped otherwise
    Cutter the one for 55 to 134 teeth: No. 7 of a module set (No. 2 in a DP set)
    """
    tooth, teeth = part.tooth, part.teeth
    if tooth is None:
        return []
    rows = [
        ("Wheel", f"{teeth} T {tooth.told}, pitch diameter {size_text(part.radius * 2)}"),
        ("Blank", blank_text(tooth, teeth)),
        ("Depth", depth_text(tooth)),
        ("Cutter", cutter_text(tooth, teeth)),
    ]
    clean = clean_from(tooth.usual_flank)
    if teeth < clean:
        angle = figure_text(tooth.usual_flank.degrees)
        rows.append(
            ("Undercut", f"below {clean} teeth at {angle}°: a form cutter thins the root, a rack or hob undercuts")
        )
    return rows


def blank_text(tooth: SpurTooth, teeth: int) -> str:
    """Write the diameter of a blank with its proof."""
    module = f"{tooth.module.inches} in" if tooth.is_dp else f"{figure_text(tooth.module.mm)} mm"
    return f"{size_text(tooth.outside(teeth))} over the tips: {teeth + 2} × {module}"


def depth_text(tooth: SpurTooth) -> str:
    """Write the whole depth; what is stamped on the cutter goes before it."""
    rule = "2.157 / DP" if tooth.is_dp else "2.25 modules"
    return f"{size_text(tooth.whole_depth)} = {rule}, unless the cutter is stamped otherwise"


def cutter_text(tooth: SpurTooth, teeth: int) -> str:
    """Name the cutter by its range of teeth first, for the two numberings run opposite ways."""
    if teeth < SET_BEGINS:
        return f"the set of eight begins above {teeth} teeth: a fly cutter or a cutter of its own"
    cutter = cutter_for(Fraction(teeth))
    most = f"to {cutter.most} teeth" if cutter.most is not None else "teeth to a rack"
    own, other = (cutter.dp_number, "a DP set"), (cutter.module_number, "a module set")
    if not tooth.is_dp:
        own, other = other, own
    return f"the one for {cutter.fewest} {most}: No. {own[0]} of {own[1]} (No. {other[0]} in {other[1]})"


def rim_rows(part: Workpiece, answer: IndexAnswer) -> list[tuple[str, str]]:
    """Say what the error of a repeated move comes to at the rim, each time and when the round should close."""
    if answer.is_exact:
        return [(_at(part), "exact at every mark")]
    each, closure = (at_rim(angle, part.radius) for angle in (answer.error_per_move, answer.error_at_closure))
    return [(_at(part), f"{each} each move, the round misses by {closure}")]


def position_rows(part: Workpiece | None, places: Sequence[Position]) -> list[tuple[str, str]]:
    """Say how even the spaces of marks worked from zero are: the worst and the root mean square, and at the rim."""
    spaces = spacing_errors(places)
    if not any(spaces):
        return []
    worst, mean = Angle(max(spaces, key=abs)), root_mean_square(spaces)
    rows = [("Spaces", f"worst {_arcsec(worst)} off, {_arcsec(mean)} root mean square")]
    if part is not None:
        rows.append((_at(part), f"worst {at_rim(worst, part.radius)}, {at_rim(mean, part.radius)} root mean square"))
    return rows


def spacing_errors(places: Sequence[Position]) -> list[Fraction]:
    """List by how much each space between neighbouring marks is out, in turns."""
    return [after.error.turns - before.error.turns for before, after in pairwise(places)]


def root_mean_square(spaces: Sequence[Fraction]) -> Angle:
    """Give the root mean square of errors in turns, good to twenty places.

    Examples
    --------
    >>> round(root_mean_square([Fraction(3), Fraction(-4)]).turns ** 2, 15)
    Fraction(25, 2)
    """
    return Angle(square_root(sum((each * each for each in spaces), Fraction(0)) / len(spaces), RMS_PLACES))


def at_rim(angle: Angle, radius: Length) -> str:
    """Write an error along the rim with its sign."""
    along = middle(along_rim(Angle(abs(angle.turns)), radius))
    return f"{'-' if angle.turns < 0 else '+' if angle.turns else ''}{micrometres_text(along)}"


def _arcsec(angle: Angle) -> str:
    return arcsec_text(Angle(abs(angle.turns))).lstrip("+")


def _at(part: Workpiece) -> str:
    return "At pitch circle" if part.tooth is not None else "At the radius"


def part_json(part: Workpiece, answer: IndexAnswer) -> dict[str, Any]:
    """Describe the part and the error of the first answer at its rim."""
    return {
        "radius_mm": length_json(part.radius),
        "error_per_move_at_radius_mm": rim_json(answer.error_per_move, part.radius),
        "error_at_closure_at_radius_mm": rim_json(answer.error_at_closure, part.radius),
        **wheel_json(part),
    }


def wheel_json(part: Workpiece) -> dict[str, Any]:
    """Describe a wheel; nothing for a part that is none."""
    if part.tooth is None:
        return {}
    teeth = part.teeth
    wheel = {
        "teeth": teeth,
        "size": part.tooth.told,
        "blank_mm": length_json(part.tooth.outside(teeth)),
        "whole_depth_mm": length_json(part.tooth.whole_depth),
        "cutter": cutter_for(Fraction(teeth))._asdict() if teeth >= SET_BEGINS else None,
        "clean_from": clean_from(part.tooth.usual_flank),
    }
    return {"wheel": wheel}


def rim_json(angle: Angle, radius: Length) -> str:
    """Write an error along the rim in millimetres, signed."""
    along = length_json(middle(along_rim(Angle(abs(angle.turns)), radius)))
    return f"-{along}" if angle.turns < 0 else along


def spaces_json(part: Workpiece, places: Sequence[Position]) -> dict[str, Any]:
    """Describe how even the spaces of marks worked from zero are, at the rim."""
    spaces = spacing_errors(places)
    return {
        "worst_space_arcsec": f"{Angle(max(spaces, key=abs)).arcsec}",
        "worst_space_at_radius_mm": rim_json(Angle(max(spaces, key=abs)), part.radius),
        "rms_space_arcsec": decimal_text(root_mean_square(spaces).arcsec, 6),
    }
