"""``worm``: a worm and its wheel, or a wheel hobbed with a tap, with blanks, gashes and the train."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import click

from cli.drawing_words import chosen_hand, remark_outside
from cli.index_moves import index_moves, remark_direction, rounded_words
from cli.sheet_files import refuse_sheet, sheet_option, write_sheet
from cli.shop_options import (
    chosen_head,
    chosen_lathe,
    force_option,
    hand_option,
    head_option,
    json_option,
    lathe_option,
    remark_assumed,
    within_words,
)
from cli.sizes import optional_size
from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import in_both_units
from solver.quantities.written_angles import read_angle
from solver.quantities.written_errors import read_within
from solver.quantities.written_lengths import read_length, read_module
from solver.quantities.written_pitches import read_pitch
from solver.refusals import ImpossibleSettingError, UnreadableFigureError
from solver.trains.train_search import TrainQuestion, search_trains
from solver.worms.friction import USUAL_FRICTION, FrictionHint
from solver.worms.setting import gap_to_rod
from solver.worms.tap_hobbing import TapWheel, hob_with_tap
from solver.worms.tooth_sizes import ToothSize, ToothSystem
from solver.worms.worm import make_worm
from solver.worms.worm_wheel import WormWheel, make_wheel

if TYPE_CHECKING:
    from cli.views.worm_shop import Setting

#: Smallest and largest module believed of a worm.
SMALLEST_MODULE = Length.of_mm("0.02")
LARGEST_MODULE = Length.of_mm(50)
#: Options that say the size of the teeth; one of them is needed.
SIZES = ("module", "normal_module", "dp", "pitch", "tap")
#: Options that mean nothing to a wheel hobbed with a tap, and those that mean something to it alone.
WORM_ONLY = ("worm_diameter", "centre_distance", "pressure_angle", "clearance")
TAP_ONLY = ("tap_diameter", "rod", "offset")


@click.command("worm", short_help="A worm and wheel: sizes, blanks, gashes, and the train that cuts the worm.")
@click.option("--module", metavar="MM", help="Axial module, the worm cut with the tool's face in the axis.")
@click.option("--normal-module", metavar="MM", help="Normal module, for a gear hob or a tool swung to the lead angle.")
@click.option("--dp", metavar="DP", help="Diametral pitch.")
@click.option("--pitch", metavar="PITCH", help="Circular pitch, the worm's axial one: '0.1 in', '10 tpi', '3 mm'.")
@click.option("--tap", metavar="TAP", help="Hob the wheel with a tap: '3/8-24', '1/4 BSW', 'M10x1.5', '20 tpi'.")
@click.option("--teeth", type=click.IntRange(1, 1_000_000), metavar="TEETH", required=True, help="Teeth of the wheel.")
@click.option(
    "--starts", type=click.IntRange(1, 50), metavar="N", default=1, show_default=True, help="Starts of the worm."
)
@click.option("--worm-diameter", metavar="LENGTH", help="Pitch diameter of the worm. [default: 18 modules]")
@click.option("--centre-distance", metavar="LENGTH", help="Fixed distance between the axes; the wheel is shifted.")
@click.option("--pressure-angle", metavar="ANGLE", help="Half the tool's angle. [default: 20 deg, or 14.5 in inches]")
@click.option("--clearance", metavar="PART", help="At the root, in modules. [default: 0.25, or 0.157 in inches]")
@click.option("--friction", metavar="PART", help="Coefficient for the self-locking hint. [default: 0.1]")
@click.option("--tap-diameter", metavar="LENGTH", help="Over the threads of a tap given by its pitch.")
@click.option("--rod", metavar="LENGTH", help="Gauge rod in the spindle, to set blank and height by.")
@click.option("--offset", metavar="LENGTH", help="With --rod: how far below centre the point is set. [default: 0]")
@click.option("--cutter", metavar="LENGTH", help="Thickness of the gashing cutter, for the set-over.")
@click.option("--undercut", is_flag=True, help="Answer for a wheel with too few teeth to be cut clean.")
@hand_option
@click.option(
    "--within",
    "within_text",
    default="1000 ppm",
    show_default=True,
    metavar="ERROR",
    help="Largest error of the worm's lead: '200 ppm', or '5 um' over an inch.",
)
@lathe_option
@head_option
@sheet_option
@force_option
@json_option
def command(
    *,
    teeth: int,
    starts: int,
    undercut: bool,
    hand_word: str,
    within_text: str,
    lathe_word: str | None,
    head_word: str | None,
    sheet_to: str | None,
    force: bool,
    as_json: bool,
    **words: str | None,
) -> int:
    """Give a worm and wheel: lead, diameters, centre distance, blank, gashes, and the train for the worm.

    \b
    Example:
      halfnut worm --module 0.5 --teeth 73
      halfnut worm --pitch "0.1 in" --teeth 72 --worm-diameter "0.6 in"
      halfnut worm --tap "3/8-24" --teeth 40
    """
    _refuse_idle(words, starts)
    refuse_sheet(sheet_to, force=force)
    wheel = _asked(words, teeth, starts, may_undercut=undercut)
    hand = chosen_hand(hand_word, *([words["tap"]] if words["tap"] else []))
    hint = _hint(wheel, words["friction"])
    setting = _setting(wheel, words)
    lathe, lathe_assumed = chosen_lathe(lathe_word)
    head, head_assumed = chosen_head(head_word)
    lead = wheel.tap.pitch if isinstance(wheel, TapWheel) else wheel.worm.lead
    report = search_trains(TrainQuestion(lead, hand, within=read_within(within_text, Length.of_inches(1))), lathe)
    from cli.views.worm_shop import WormShop

    shop = WormShop(lathe, report, index_moves(head, teeth, head_word), setting)
    remark_assumed("lathe", lathe.name, assumed=lathe_assumed)
    remark_assumed("head", head.name, assumed=head_assumed)
    if shop.gashes.choice is not None:
        remark_direction(head, shop.gashes.choice)
    # A hob evens gashes out, so the exit status is the train's alone.
    if shop.gashes.table is not None and not shop.gashes.is_exact:
        click.echo(rounded_words(shop.gashes.table, "gash"), err=True)
    is_assumed = words["worm_diameter"] is None
    if sheet_to:
        from cli.views.sheets.worm_cards import tap_sheet, worm_sheet

        made = (
            tap_sheet(wheel, hint, shop)
            if isinstance(wheel, TapWheel)
            else worm_sheet(wheel, hint, shop, is_assumed=is_assumed)
        )
        write_sheet(made, sheet_to)
    if isinstance(wheel, TapWheel):
        from cli.views import tap_screen

        if as_json:
            click.echo(tap_screen.tap_json(wheel, hint, shop))
        else:
            tap_screen.show_tap(wheel, hint, shop)
    else:
        from cli.views import worm_screen

        if as_json:
            click.echo(worm_screen.worm_json(wheel, hint, shop))
        else:
            worm_screen.show_worm(wheel, hint, shop, is_assumed=is_assumed)
    if report.answers:
        return 0
    click.echo(
        f"No train of these wheels is {within_words(within_text)} and known to fit; the sizes stand all the same.",
        err=True,
    )
    return 1


def _refuse_idle(words: dict[str, str | None], starts: int) -> None:
    """Refuse a size given twice or not at all, and options that would do nothing."""
    given = [name for name in SIZES if words[name] is not None]
    if len(given) != 1:
        raise click.UsageError("Give the size of the teeth once: --module, --normal-module, --dp, --pitch or --tap.")
    is_tap = given[0] == "tap"
    idle = [name for name in (WORM_ONLY if is_tap else TAP_ONLY) if words[name] is not None]
    if is_tap and starts != 1:
        idle.append("starts")
    if idle:
        named = idle[0].replace("_", "-")
        other = "is for worms of a module, DP or pitch, not for --tap" if is_tap else "goes with --tap"
        raise click.UsageError(f"--{named} {other}.")
    if words["offset"] is not None and words["rod"] is None:
        raise click.UsageError("--offset is measured from the top of a gauge rod: give --rod too.")


def _asked(words: dict[str, str | None], teeth: int, starts: int, *, may_undercut: bool) -> WormWheel | TapWheel:
    if words["tap"] is not None:
        from gearsets.designations import read_thread_or_pitch
        from gearsets.taps import find_tap

        remark_outside(read_thread_or_pitch(words["tap"])[1])
        return hob_with_tap(find_tap(words["tap"], _size(words, "tap_diameter")), teeth, may_undercut=may_undercut)
    flank = words["pressure_angle"]
    clearance = words["clearance"]
    worm = make_worm(
        _tooth_size(words),
        starts=starts,
        diameter=_size(words, "worm_diameter"),
        flank=read_angle(flank) if flank is not None else None,
        clearance=_part(clearance) if clearance is not None else None,
    )
    return make_wheel(
        worm,
        teeth,
        centre_distance=_size(words, "centre_distance"),
        may_undercut=may_undercut,
    )


def _tooth_size(words: dict[str, str | None]) -> ToothSize:
    written = next(text for name in SIZES if (text := words[name]) is not None)
    if words["dp"] is not None:
        size = ToothSize.of_dp(_figure(written))
    elif words["pitch"] is not None:
        pitch = read_pitch(written)
        if pitch.starts != 1:
            raise UnreadableFigureError(written, 0, "give the pitch alone; the starts go with --starts")
        size = ToothSize.of_pitch(pitch)
    else:
        system = ToothSystem.AXIAL_MODULE if words["module"] is not None else ToothSystem.NORMAL_MODULE
        size = ToothSize(system, read_module(written))
    if not SMALLEST_MODULE <= size.axial_module(Fraction(0)) <= LARGEST_MODULE:
        raise UnreadableFigureError(written, 0, "modules of 0.02 to 50 mm, and pitches to match, are answered")
    return size


def _figure(text: str) -> Fraction:
    """Read a bare figure above zero, whose option says what it counts."""
    reader = FigureReader(text)
    at = reader.at
    figure = reader.number()
    if figure == 0:
        raise reader.refuse("this is above zero", at=at)
    reader.finish()
    return figure


def _part(text: str) -> Fraction:
    """Read a bare part, of zero or more and below 1."""
    reader = FigureReader(text)
    at = reader.at
    figure = reader.number()
    if figure >= 1:
        raise reader.refuse("this is a part, below 1", at=at)
    reader.finish()
    return figure


def _size(words: dict[str, str | None], name: str) -> Length | None:
    return optional_size(words[name], f"--{name.replace('_', '-')}")


def _hint(wheel: WormWheel | TapWheel, friction: str | None) -> FrictionHint | None:
    """Judge by friction; a tap without a diameter has no lead angle to judge."""
    coefficient = _part(friction) if friction is not None else USUAL_FRICTION
    if isinstance(wheel, WormWheel):
        return FrictionHint(wheel.worm.lead_tangent, wheel.worm.normal_flank, coefficient)
    slope = wheel.lead_tangent
    return None if slope is None else FrictionHint(slope, wheel.tap.form.half_angle, coefficient)


def _setting(wheel: WormWheel | TapWheel, words: dict[str, str | None]) -> Setting:
    """Read what the person measures with; a rod too large for the gap is refused before anything is printed."""
    from cli.views.worm_shop import Setting

    offset = words["offset"]
    rod = _size(words, "rod")
    if rod is not None and isinstance(wheel, TapWheel) and wheel.centre_distance is not None:
        gap_to_rod(wheel.centre_distance, rod, wheel.throat)
    below = read_length(offset) if offset is not None else Length.of_mm(0)
    if isinstance(wheel, TapWheel) and below > wheel.throat:
        raise ImpossibleSettingError(
            f"An offset of {in_both_units(below)} is past the whole wheel, of {in_both_units(wheel.throat)}.",
            help_text="--offset is from the middle of the face, at the tap's axis, down to the point that is set.",
        )
    return Setting(_size(words, "cutter"), rod, below)
