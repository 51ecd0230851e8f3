"""What the shop adds to a worm wheel: train, gashes, and settings; shared by the screens of worm and of tap."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any, NamedTuple

from cli.index_moves import IndexMoves, nearer_options
from cli.views import answer_json
from cli.views.cautions import DEFER, DIAL_CAUTIONS, train_cautions, two_motion_cautions
from cli.views.index_lines import ONE_MOTION, print_index_moves
from cli.views.index_settings import choice_json
from cli.views.method_tables import move_text
from cli.views.milling_cautions import WORM_CUTTING, gashing_cautions, hobbing_cautions
from cli.views.shop_figures import angle_text, approximate, arcsec_text, size_text
from cli.views.swing_words import is_for_the_table, lean_text, sense_text, spindle_text, swing_json
from cli.views.table_dial_screen import by_dial_json, worst_text
from cli.views.told_figures import ROUGH_DIGITS, adding_up
from solver.dividing.moves import Method
from solver.quantities.angles import Angle
from solver.quantities.exact_numbers import significant_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, PiLength
from solver.quantities.shown_lengths import Rounding, in_both_units
from solver.trains.hand import Hand
from solver.trains.lathe import Lathe
from solver.trains.train_answer import TrainAnswer
from solver.trains.train_search import TrainReport
from solver.worms.friction import FrictionHint
from solver.worms.gashing import Gash
from solver.worms.setting import gap_to_rod, height_below_rod, set_over

if TYPE_CHECKING:
    from rich.console import Console

#: Significant digits of a figure that is no fraction.
DIGITS = 15
#: Most exact index settings shown for the gashes.
MOST_SETTINGS = 3


class Setting(NamedTuple):
    """What the person measures with: thickness of the gashing cutter, gauge rod, and how far below centre."""

    cutter: Length | None
    rod: Length | None
    offset: Length


class WormShop(NamedTuple):
    """The lathe with its trains for the worm, the head with its moves for the gashes, and the settings."""

    lathe: Lathe
    report: TrainReport
    gashes: IndexMoves
    setting: Setting

    @property
    def hand(self) -> Hand:
        """Hand of the worm, and of the teeth of its wheel."""
        return self.report.question.hand


def number(value: Fraction, *, is_exact: bool) -> str:
    """Write a number for JSON: a fraction when exact, else a decimal of 15 figures.

    Examples
    --------
    >>> number(Fraction(1, 3), is_exact=True), number(Fraction(1, 3), is_exact=False)
    ('1/3', '0.333333333333333')
    """
    return f"{value}" if is_exact else significant_text(value, DIGITS)


def length_json(length: Length | None, *, is_exact: bool) -> dict[str, str] | None:
    """Write a length in both systems; inches follow the millimetres."""
    if length is None:
        return None
    return {"mm": number(length.mm, is_exact=is_exact), "in": number(length.inches, is_exact=is_exact)}


def rough_json(length: Length) -> dict[str, str]:
    """Write a size by a rule of thumb with no more figures than the rule holds."""
    return {"mm": significant_text(length.mm, ROUGH_DIGITS), "in": significant_text(length.inches, ROUGH_DIGITS)}


def lead_json(lead: Lead, *, is_exact: bool) -> dict[str, Any]:
    """Write a pitch or lead; a pi lead is given by its multiple of pi."""
    multiple = lead.mm_per_pi if isinstance(lead, PiLength) else lead.mm
    return {"mm": number(multiple, is_exact=is_exact), "pi_multiple": isinstance(lead, PiLength)}


def angle_json(angle: Angle | None) -> str | None:
    """Write an angle worked out by a root or a tangent, in degrees."""
    return None if angle is None else significant_text(angle.degrees, DIGITS)


def gash_rows(
    gash: Gash, gashes: IndexMoves, setting: Setting, rim: Length, hand: Hand, tap_angle: str = ""
) -> list[tuple[str, str]]:
    """List the settings for gashing; the gaps of a tap's wheel are pointed, by the angle of its form."""
    return [("Index", index_text(gashes)), *cutting_rows(gash, setting, rim, hand, tap_angle)]


def cutting_rows(gash: Gash, setting: Setting, rim: Length, hand: Hand, tap_angle: str = "") -> list[tuple[str, str]]:
    """List the settings of table and cutter for a gash of a worm of that hand, the head apart."""
    swing = "to the tap's lead angle (give --tap-diameter)" if gash.swing is None else angle_text(gash.swing)
    where = "cutter above, wheel's axis along the table"
    way = f"table, or head on it, {swing} {sense_text(hand)}: {where}"
    rows = [
        ("Swing", way if is_for_the_table(gash.swing) else f"{swing} is {spindle_text(hand)}"),
        ("Gash lies", f"{hand.value}-hand as the worm: {lean_text(hand)}. Scribe one and see"),
    ]
    depth, left, whole = adding_up([gash.depth, gash.left])
    rows.append(("Depth", f"{depth} from the throat; leaves {left} for the hob, of {whole}"))
    cutter = f"at most {in_both_units(gash.widest_cutter, Rounding.DOWN)} thick"
    if tap_angle:
        cutter = f"a V cutter or a fly cutter of the tap's form, {tap_angle}; a plain saw {cutter}"
    if gash.cutter_diameter is not None:
        cutter += f", about {size_text(gash.cutter_diameter)} diameter, the hob's own"
    rows.append(("Cutter", cutter))
    if setting.cutter is None:
        over = (
            "half the rim diameter plus half the cutter's thickness, after its side has touched the rim "
            "(--cutter works it out)"
        )
    else:
        over = f"{size_text(set_over(rim, setting.cutter))} across, after the cutter's side has touched the rim"
        if setting.cutter > gash.widest_cutter:
            over += "; THIS CUTTER IS TOO THICK for the space"
    rows.append(("Set over", over))
    return rows


def index_text(gashes: IndexMoves) -> str:
    """Say how the gashes are indexed, or what comes nearest."""
    head, count, choice = gashes.head, gashes.parts, gashes.choice
    if gashes.table is not None:
        return f"{count} gashes by the dial of {head.name}, each from zero, worst {worst_text(gashes.table)}: below"
    if choice is None or choice.best is None:
        return f"not on {head.name}: {gashes.refusal}"
    first = choice.best
    if first.is_exact and first.method in ONE_MOTION:
        answers = [answer for report in choice.methods for answer in report.answers]
        moves = [
            f"{move_text(answer.move)}{' direct' if answer.method is Method.DIRECT else ''}"
            for answer in answers[:MOST_SETTINGS]
        ]
        return f"{count} gashes, each {', or '.join(moves)} ({head.name})"
    if first.is_exact:
        only = "ONLY WITH WHEELS ON" if first.gearing is not None else "in two motions each"
        return f"{count} gashes, no plain move on {head.name}; exact by {first.method.value}, {only}: below"
    nearest = next(report.answers[0] for report in choice.methods if report.method is Method.NEAREST)
    miss = arcsec_text(nearest.error_at_closure)
    see = " or ".join(f"'{gashes.command(option)}'" for option in nearer_options(head, count))
    return (
        f"no exact move for {count} on {head.name}; {move_text(nearest.move)} misses by {miss} at closure. "
        f"{see} works each gash from zero, near enough for the hob to even out"
    )


def print_gash_moves(out: Console, shop: WormShop) -> None:
    """Print the settings for the gashes where they are more than one motion with the plate held."""
    best = shop.gashes.best
    if shop.gashes.table is not None or (best is not None and best.method not in ONE_MOTION):
        print_index_moves(out, shop.gashes, "tooth gap")


def rod_rows(shop: WormShop, centre_distance: Length | None, rim: Length) -> list[tuple[str, str]]:
    """List what a gauge rod in the spindle sets: the height, and the gap to the blank at the centre distance."""
    rod, offset = shop.setting.rod, shop.setting.offset
    if rod is None:
        return [("Height", "middle of the face at the tap's axis: rod radius + offset below a gauge rod (--rod)")]
    parts = f"radius {approximate(rod.mm / 2, 3)} + offset {approximate(offset.mm, 3)} mm"
    height = size_text(height_below_rod(rod, offset))
    rows = [
        ("Height", f"{height} below the top of the {approximate(rod.mm, 3)} mm rod ({parts})"),
        ("", f"set there {_point_text(offset)}, the rod being on the tap's axis"),
    ]
    if centre_distance is not None:
        rows.append(("Gap", f"{size_text(gap_to_rod(centre_distance, rod, rim))} from rod to blank at full depth"))
    return rows


def _point_text(offset: Length) -> str:
    """Name the point of the blank that is set at the height."""
    if offset.mm == 0:
        return "the middle of the wheel's face"
    return f"the point {approximate(offset.mm, 3)} mm below the middle of the wheel's face"


def hint_text(hint: FrictionHint) -> str:
    """Say whether the worm is likely to hold, with the friction assumed."""
    holds = "likely holds at rest" if hint.holds else "the wheel may drive it back"
    five = "within" if hint.is_within_five_degrees else "beyond"
    most = f"{approximate(hint.friction_angle.degrees, 2)}°"
    return (
        f"{holds} with friction {approximate(hint.friction, 3)} assumed (up to {most} lead angle); "
        f"{five} the 5° of the rule of thumb; vibration undoes it. "
        f"Efficiency {approximate(hint.efficiency * 100, 0)} %"
    )


def wheel_error_text(answer: TrainAnswer, teeth: int) -> str:
    """Say what the error of lead is at the wheel, for each tooth."""
    return f"{arcsec_text(Angle(answer.error.relative / teeth))} of the wheel a tooth along the worm"


def worm_job_cautions(shop: WormShop, hob: str) -> tuple[str, ...]:
    """List the cautions of cutting the worm, gashing and hobbing with a tap or a hob; the deferring line once."""
    first = next(iter(shop.report.answers), None)
    shared = (*wheel_cautions(shop.gashes), *hobbing_cautions(hob))
    if first is None:
        return (*shared, DEFER)
    train = train_cautions(first, shop.lathe, reversing=shop.hand is Hand.LEFT)
    return tuple(dict.fromkeys((*shared, WORM_CUTTING, *train)))


def wheel_cautions(gashes: IndexMoves) -> tuple[str, ...]:
    """List the cautions of gashing a wheel: wheels, second motions and a dial bring their own, a plain move none."""
    own = () if gashes.best is None else two_motion_cautions(gashes.best)
    by_dial = gashes.head.has_only_dial
    return (*(DIAL_CAUTIONS if by_dial else own), *gashing_cautions(by_dial=by_dial))


def gash_json(gash: Gash, shop: WormShop, rim: Length, *, is_exact: bool) -> dict[str, Any]:
    """Describe the gashing."""
    cutter = shop.setting.cutter
    return {
        "head": shop.gashes.head.name,
        "index": [] if shop.gashes.choice is None else choice_json(shop.gashes.choice, every=False)["answers"],
        "index_exact": shop.gashes.is_exact,
        "index_by_dial": None if shop.gashes.table is None else by_dial_json(shop.gashes.table),
        "swing_deg": angle_json(gash.swing),
        **swing_json(shop.hand, "gash"),
        "depth": length_json(gash.depth, is_exact=is_exact),
        "left_for_hob": length_json(gash.left, is_exact=is_exact),
        "widest_cutter": length_json(gash.widest_cutter, is_exact=False),
        "set_over": length_json(set_over(rim, cutter), is_exact=is_exact) if cutter is not None else None,
    }


def hint_json(hint: FrictionHint | None) -> dict[str, Any] | None:
    """Describe the self-locking hint."""
    if hint is None:
        return None
    return {
        "friction_assumed": f"{hint.friction}",
        "friction_angle_deg": angle_json(hint.friction_angle),
        "holds_at_rest": hint.holds,
        "within_five_degrees": hint.is_within_five_degrees,
        "efficiency": number(hint.efficiency, is_exact=False),
    }


def train_json(shop: WormShop) -> dict[str, Any]:
    """Describe the trains for the worm."""
    report = shop.report
    return {
        "lathe": shop.lathe.name,
        "answers": [answer_json.train_answer(each) for each in report.answers],
        "nearest": answer_json.train_answer(report.nearest) if report.nearest else None,
    }
