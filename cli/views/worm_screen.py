"""The terminal screen and the JSON of ``worm`` for a worm of a module, DP or pitch."""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING, Any

from cli.views import answer_json
from cli.views.banjo_sketch import set_up_text
from cli.views.screen import console, facts_table, print_block, print_list
from cli.views.shop_figures import angle_text, approximate, lead_text, signed, size_text
from cli.views.told_figures import equals, roughly
from cli.views.train_screen import early_check, first_train_rows
from cli.views.worm_shop import (
    WormShop,
    angle_json,
    gash_json,
    gash_rows,
    hint_json,
    hint_text,
    lead_json,
    length_json,
    number,
    print_gash_moves,
    rough_json,
    train_json,
    wheel_error_text,
    worm_job_cautions,
)
from solver.quantities.angles import Angle
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, PiLength
from solver.quantities.pitches import Pitch, PitchUnit, figure_text
from solver.quantities.shown_lengths import Rounding, in_both_units
from solver.trains.hand import Hand
from solver.worms.blanks import greatest_rim, rim_diameters, shop_face, worm_length
from solver.worms.fine_pitch import FinePitchDepth, fine_pitch_depth
from solver.worms.friction import FrictionHint
from solver.worms.gashing import gash_for_wheel
from solver.worms.tooth_sizes import ToothSystem
from solver.worms.worm import Worm
from solver.worms.worm_wheel import WormWheel

if TYPE_CHECKING:
    from rich.console import Console

#: Lead angle beyond which worms are no longer usual.
STEEPEST_USUAL = Angle.of_degrees(30)


def show_worm(wheel: WormWheel, hint: FrictionHint | None, shop: WormShop, *, is_assumed: bool) -> None:
    """Print the answer of ``worm``; ``is_assumed`` says that the worm's diameter was not given."""
    out = console()
    out.print(facts_table(asked_rows(wheel, shop.hand)))
    print_block(out, "WORM", worm_rows(wheel, hint, is_assumed=is_assumed))
    print_block(out, "WHEEL", wheel_rows(wheel))
    rim = rim_diameters(wheel)[0].size
    print_block(out, "GASH FIRST", gash_rows(gash_for_wheel(wheel), shop.gashes, shop.setting, rim, shop.hand))
    print_gash_moves(out, shop)
    print_block(out, "HOB, if you make it", hob_rows(wheel.worm))
    print_train(out, shop, wheel.teeth, worm_length(wheel).size, asked_pitch(wheel.worm))
    print_list(out, "Cautions", worm_job_cautions(shop, "hob"))


def asked_rows(wheel: WormWheel, hand: Hand) -> list[tuple[str, str]]:
    """Echo what was asked, and prove the wheel."""
    starts = "" if wheel.worm.starts == 1 else f", {wheel.worm.starts} starts"
    worm = f"{hand.value}-hand worm, {wheel.worm.size}{starts}"
    asked = f"{worm}, wheel of {wheel.teeth} teeth, {figure_text(wheel.ratio)} to 1"
    return [("Asked", asked), ("Proof", _proof(wheel))]


def _proof(wheel: WormWheel) -> str:
    if wheel.worm.size.system is ToothSystem.CIRCULAR_PITCH:
        return f"wheel {wheel.teeth} × {lead_short(wheel.worm.pitch)} / π {equals(size_text(wheel.diameter))}"
    module = approximate(wheel.worm.module.mm, 5)
    return f"wheel {wheel.teeth} × module {module} mm {equals(size_text(wheel.diameter))}"


def lead_short(lead: Lead) -> str:
    """Write a lead in a word: its multiple of pi, or its millimetres."""
    if isinstance(lead, PiLength):
        return f"{approximate(lead.mm_per_pi, 5)} π mm"
    return f"{approximate(lead.mm, 5)} mm"


def worm_rows(wheel: WormWheel, hint: FrictionHint | None, *, is_assumed: bool) -> list[tuple[str, str]]:
    """List the worm's sizes and its tool."""
    worm = wheel.worm
    assumed = " assumed; --worm-diameter fixes it" if is_assumed else ""
    rows = [("Pitch", lead_text(worm.pitch))]
    if worm.starts > 1:
        rows.append(("Lead", lead_text(worm.lead)))
        rows.append(("Starts", f"turn the work 1/{worm.starts} for each, or move the top slide one pitch along"))
    rows.append(("Pitch dia", f"{size_text(worm.diameter)} ({approximate(worm.quotient, 3)} modules{assumed})"))
    rows.append(("Outside dia", size_text(worm.outside)))
    rows.append(("Root dia", f"{size_text(worm.root)}, clearance {approximate(worm.clearance, 3)} of the addendum"))
    rows.append(("Depth", size_text(worm.whole_depth)))
    fine = fine_pitch_depth(worm)
    if fine is not None:
        rows.append(("", fine_pitch_text(fine)))
    steep = ": steeper than is usual" if worm.lead_angle > STEEPEST_USUAL else ""
    rows.append(("Lead angle", f"{angle_text(worm.lead_angle)} at the pitch diameter{steep}"))
    is_normal = worm.size.system is ToothSystem.NORMAL_MODULE
    face = "tilted to the lead angle" if is_normal else "level, in the plane of the axis"
    both = figure_text(round(worm.flank.degrees * 2, 4))
    rows.append(("Tool", f"{both}° included, flat {size_text(worm.tool_flat)}, face {face}"))
    rows.append(("Flank", f"form {worm.flank_form.name} of DIN 3975: {worm.flank_form.value}"))
    relief = Fraction(ceil(worm.lead_angle_at_root.degrees * 10), 10)
    rows.append(("Side relief", f"more than {trimmed_decimal_text(relief, 1)}° on the leading side"))
    length = worm_length(wheel)
    rows.append(("Length", f"{roughly(length.size)}: {length.rule}"))
    if hint is not None:
        rows.append(("Holding", hint_text(hint)))
    return rows


def fine_pitch_text(fine: FinePitchDepth) -> str:
    """Set the depth of the fine-pitch standard beside the one in use."""
    return (
        f"AGMA 6022, fine pitch, would have {size_text(fine.whole)}: 0.7003 of the pitch square to the thread "
        f"+ 0.002 in (from memory); --clearance {trimmed_decimal_text(fine.clearance, 3)} gives it"
    )


def wheel_rows(wheel: WormWheel) -> list[tuple[str, str]]:
    """List the wheel's sizes and its blank."""
    rim, other = rim_diameters(wheel)
    greatest = greatest_rim(wheel)
    rows = [
        ("Pitch dia", size_text(wheel.diameter)),
        ("Centres", f"{size_text(wheel.centre_distance)}{_shift_words(wheel)}"),
        ("Throat dia", f"{size_text(wheel.throat)}, throat radius {size_text(wheel.throat_radius)}"),
        ("Rim dia", f"{size_text(rim.size)}: {rim.rule} (also in print: {other.rule})"),
        ("", f"no more than {in_both_units(greatest.size, Rounding.DOWN)}: {greatest.rule}, from memory"),
        ("Root dia", size_text(wheel.root)),
        ("Face", f"{size_text(wheel.worm.chord_at_pitch_line)}: all that the worm can touch"),
    ]
    if wheel.worm.size.is_inch:
        shop_rule = shop_face(wheel)
        rows.append(("", f"shop rule for the blank: {roughly(shop_rule.size, 3)}, {shop_rule.rule}"))
    if wheel.teeth < wheel.least_teeth:
        rows.append(("Undercut", f"YES: {wheel.least_teeth} teeth are the fewest cut clean"))
    return rows


def hob_rows(worm: Worm) -> list[tuple[str, str]]:
    """List what a hob has otherwise than its worm: the outside, and so the depth of its thread."""
    return [
        ("Outside", f"{size_text(worm.hob_outside)}: the worm's and twice the clearance"),
        ("Depth", f"{size_text(worm.hob_depth)} from there, to the worm's own root of {size_text(worm.root)}"),
        (
            "Thread",
            f"as the worm's: its train, its hand, its tool; the crests come out {size_text(worm.tool_flat)} wide",
        ),
        ("Length", "no shorter than the worm; flutes and their backing off are not worked out here"),
    ]


def _shift_words(wheel: WormWheel) -> str:
    if wheel.shift == 0:
        return ""
    return f", which shifts the wheel {signed(wheel.shift)} addenda"


def asked_pitch(worm: Worm) -> Pitch:
    """Write the worm's pitch as a train is asked for it."""
    if isinstance(worm.pitch, PiLength):
        return Pitch(worm.pitch.mm_per_pi, PitchUnit.MODULE, worm.starts)
    return Pitch(worm.pitch.mm, PitchUnit.MILLIMETRE, worm.starts)


def print_train(out: Console, shop: WormShop, teeth: int, length: Length, pitch: Pitch) -> None:
    """Print the first train for the worm, or the nearest when none answers."""
    report = shop.report
    first = next(iter(report.answers), report.nearest)
    out.print()
    if first is None:
        out.print("No train can be made of these wheels.")
        return
    out.print("TRAIN FOR THE WORM" if report.answers else "NEAREST TRAIN, not an answer", style="bold")
    rows = [("Lathe", shop.lathe.name), *first_train_rows(first, shop.lathe, length, "")]
    if not first.error.is_exact:
        rows.append(("At wheel", wheel_error_text(first, teeth)))
    out.print(facts_table(rows))
    others = [set_up_text(each.train, each.idlers) for each in report.answers[1:4]]
    if others:
        out.print(f"Others: {', '.join(others)}; 'halfnut train' shows them all.")
    print_list(out, "Early check, before metal is cut", early_check(first, pitch))


def worm_json(wheel: WormWheel, hint: FrictionHint | None, shop: WormShop) -> str:
    """Write the answer of ``worm`` as JSON."""
    worm = wheel.worm
    exact = worm.is_exact
    # A linear pitch is exact itself, though it puts pi into the diameters.
    is_pitch_exact = exact or worm.size.system is ToothSystem.CIRCULAR_PITCH
    # Of a normal module the worm's own diameters are exact: only the wheel's hold a root.
    is_worm_exact = worm.size.system is not ToothSystem.CIRCULAR_PITCH
    rims = (*rim_diameters(wheel), greatest_rim(wheel))
    fine = fine_pitch_depth(worm)
    answer: dict[str, Any] = {
        "asked": {
            "size": str(worm.size),
            "system": worm.size.system.value,
            "teeth": wheel.teeth,
            "starts": worm.starts,
            "hand": shop.hand.value,
        },
        "sizes_exact": exact,
        "ratio": f"{wheel.ratio}",
        "worm": {
            "pitch": lead_json(worm.pitch, is_exact=is_pitch_exact),
            "lead": lead_json(worm.lead, is_exact=is_pitch_exact),
            "module_mm": number(worm.module.mm, is_exact=exact),
            "quotient": number(worm.quotient, is_exact=exact),
            "lead_angle_deg": angle_json(worm.lead_angle),
            "pitch_diameter": length_json(worm.diameter, is_exact=is_worm_exact),
            "outside_diameter": length_json(worm.outside, is_exact=is_worm_exact),
            "root_diameter": length_json(worm.root, is_exact=is_worm_exact),
            "addendum": length_json(worm.addendum, is_exact=is_worm_exact),
            "whole_depth": length_json(worm.whole_depth, is_exact=is_worm_exact),
            "whole_depth_agma_6022": length_json(fine.whole, is_exact=False) if fine else None,
            "flank_form_din_3975": worm.flank_form.name,
            "flank_deg": f"{worm.flank.degrees}",
            "tool_flat": length_json(worm.tool_flat, is_exact=False),
            "side_relief_above_deg": angle_json(worm.lead_angle_at_root),
            "length_about": rough_json(worm_length(wheel).size),
        },
        "wheel": {
            "pitch_diameter": length_json(wheel.diameter, is_exact=exact),
            "centre_distance": length_json(wheel.centre_distance, is_exact=exact),
            "shift": number(wheel.shift, is_exact=exact),
            "throat_diameter": length_json(wheel.throat, is_exact=exact),
            "throat_radius": length_json(wheel.throat_radius, is_exact=is_worm_exact),
            "root_diameter": length_json(wheel.root, is_exact=exact),
            "rims": [{"rule": each.rule, **(length_json(each.size, is_exact=exact) or {})} for each in rims],
            "face": length_json(worm.chord_at_pitch_line, is_exact=False),
            "fewest_teeth_cut_clean": wheel.least_teeth,
            "undercut": wheel.teeth < wheel.least_teeth,
        },
        "hob": {
            "outside_diameter": length_json(worm.hob_outside, is_exact=is_worm_exact),
            "depth": length_json(worm.hob_depth, is_exact=is_worm_exact),
            "root_diameter": length_json(worm.root, is_exact=is_worm_exact),
        },
        "self_locking": hint_json(hint),
        "gash": gash_json(gash_for_wheel(wheel), shop, rims[0].size, is_exact=exact),
        "train": train_json(shop),
    }
    return answer_json.as_text(answer)
