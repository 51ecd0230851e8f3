"""The terminal screen and the JSON of ``worm --tap``: a wheel hobbed with a tap."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from cli.views import answer_json
from cli.views.screen import answers_table, console, facts_table, print_answers, print_block, print_list, print_rows
from cli.views.shop_figures import angle_text, approximate, lead_text, size_text
from cli.views.told_figures import adding_up, equals
from cli.views.worm_screen import print_train
from cli.views.worm_shop import (
    WormShop,
    angle_json,
    gash_json,
    gash_rows,
    hint_json,
    hint_text,
    length_json,
    number,
    print_gash_moves,
    rod_rows,
    train_json,
    worm_job_cautions,
)
from gearsets.taps import find_tap, like_taps
from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.quantities.pitches import Pitch, PitchUnit
from solver.trains.hand import Hand
from solver.worms.friction import FrictionHint
from solver.worms.gashing import gash_for_tap
from solver.worms.setting import gap_to_rod, height_below_rod
from solver.worms.tap_hobbing import TapWheel
from solver.worms.taps import Tap

if TYPE_CHECKING:
    from rich.console import Console

#: Most other taps of the same pitch shown.
MOST_LIKE = 4
#: Pitches of worm over which the error of the train is told.
PITCHES_OF_WORM = 6
#: Decimal places of a size in a command line.
PLACES = 6


def show_tap(wheel: TapWheel, hint: FrictionHint | None, shop: WormShop) -> None:
    """Print the answer of ``worm --tap``."""
    out = console()
    tap = wheel.tap
    out.print(facts_table(asked_rows(wheel, shop.hand)))
    print_block(out, "WHEEL", wheel_rows(wheel, hint))
    _print_blanks(out, wheel)
    gashing = gash_rows(gash_for_tap(wheel), shop.gashes, shop.setting, wheel.throat, shop.hand, tap.angle_text)
    print_block(out, "GASH FIRST", gashing)
    print_gash_moves(out, shop)
    print_block(out, "SET UP FOR THE TAP", rod_rows(shop, wheel.centre_distance, wheel.throat))
    _print_like(out, wheel)
    print_block(out, "WORM, of the tap's own thread", worm_rows(tap, shop.hand))
    print_train(out, shop, wheel.teeth, tap.pitch * PITCHES_OF_WORM, Pitch(tap.pitch.mm, PitchUnit.MILLIMETRE))
    print_list(out, "Cautions", worm_job_cautions(shop, "tap"))


def asked_rows(wheel: TapWheel, hand: Hand) -> list[tuple[str, str]]:
    """Echo the tap and the wheel, and prove the wheel."""
    tap = wheel.tap
    across = f", {size_text(tap.diameter)} over the threads" if tap.diameter else ""
    hobbed = f"{tap.name}, a {hand.value}-hand tap ({tap.angle_text} form{across})"
    return [
        ("Asked", f"wheel of {wheel.teeth} teeth, hobbed with {hobbed}"),
        ("Pitch", lead_text(tap.pitch)),
        ("Proof", f"{wheel.teeth} × {approximate(tap.pitch.mm, 5)} mm / π {equals(size_text(wheel.diameter))}"),
    ]


def wheel_rows(wheel: TapWheel, hint: FrictionHint | None) -> list[tuple[str, str]]:
    """List the wheel's sizes."""
    circle, thread, throat = adding_up([wheel.diameter, wheel.tap.depth])
    rows = [
        ("Pitch dia", circle),
        ("Blank", f"{throat} in the throat, for full teeth: pitch dia + depth of the tap's thread, {thread}"),
    ]
    if wheel.centre_distance is None or wheel.throat_radius is None or wheel.face is None or wheel.lead_angle is None:
        rows.append(("Centres", "not worked out, nor throat radius or swing: give --tap-diameter"))
    else:
        rows.append(("Centres", f"{size_text(wheel.centre_distance)}, for a worm of the tap's own pitch diameter"))
        rows.append(("Throat radius", size_text(wheel.throat_radius)))
        rows.append(("Face", f"{size_text(wheel.face)}: all that the tap can cut"))
        rows.append(("Lead angle", angle_text(wheel.lead_angle)))
    above = size_text(wheel.tap.depth * Fraction(1, 2))
    rows.append(("Depth", f"{size_text(wheel.whole_depth)} of tooth, {above} of it above the pitch circle"))
    if hint is not None:
        rows.append(("Holding", hint_text(hint)))
    if wheel.teeth < wheel.least_teeth:
        rows.append(("Undercut", f"YES: {wheel.least_teeth} teeth are the fewest cut clean by this form"))
    return rows


def worm_rows(tap: Tap, hand: Hand) -> list[tuple[str, str]]:
    """List the worm's blank, and where its depth, passes and tool are found."""
    across = "that of the tap, to be measured" if tap.diameter is None else f"{size_text(tap.diameter)}, as the tap"
    return [
        ("Outside", across),
        ("In full", f"'{thread_command(tap, hand)}' gives depth, passes and tool"),
    ]


def thread_command(tap: Tap, hand: Hand) -> str:
    """Write the command that answers for the thread of a tap, its diameter left open where it is not known.

    Examples
    --------
    >>> from gearsets.taps import find_tap
    >>> thread_command(find_tap("3/8-24"), Hand.LEFT)
    'halfnut thread "3/8-24 UNF" --hand left'
    >>> thread_command(find_tap("20 tpi", Length.of_mm(6)), Hand.RIGHT), thread_command(find_tap("20 tpi"), Hand.RIGHT)
    ('halfnut thread 20tpi --major 6mm --form iso', 'halfnut thread 20tpi --major OUTSIDE --form iso')
    """
    side = "" if hand is Hand.RIGHT else f" --hand {hand.value}"
    if find_tap(tap.name).diameter == tap.diameter is not None:
        return f'halfnut thread "{tap.name}"{side}'
    pitch = f"{trimmed_decimal_text(tap.pitch.mm, PLACES)}mm"
    if (1 / tap.pitch.inches).denominator == 1:
        pitch = f"{1 / tap.pitch.inches}tpi"
    across = "OUTSIDE" if tap.diameter is None else f"{trimmed_decimal_text(tap.diameter.mm, PLACES)}mm"
    return f"halfnut thread {pitch} --major {across} --form {tap.form.key}{side}"


#: Heads of the table of blanks.
BLANK_HEADS = (("Blank", "left"), ("Diameter", "left"), ("Pitches round", "right"), ("Spaces", "right"))


def _print_blanks(out: Console, wheel: TapWheel) -> None:
    out.print()
    out.print("IF IT IS NOT GASHED: spaces the tap likely begins with", style="bold")
    print_rows(out, BLANK_HEADS, blank_cells(wheel))
    out.print(free_hobbing_note(wheel))


def blank_cells(wheel: TapWheel) -> list[list[str]]:
    """List the blanks by each rule, and how many spaces the tap likely begins with on it."""
    return [
        [blank.rule, size_text(blank.diameter), approximate(blank.pitches_round, 2), str(blank.likely_count)]
        for blank in wheel.blanks
    ]


def free_hobbing_note(wheel: TapWheel) -> str:
    """Say why gashes settle the count."""
    return (
        "A free blank is rolled by the tap: it takes about as many spaces as pitches go round it, and may lock "
        f"there. Reports of free hobbing: 75 pitches round gave 76, 63 gave 66, 48 gave 44. {wheel.teeth} indexed "
        "gashes, deep enough to hold the tap, settle the count before it has a say."
    )


def _print_like(out: Console, wheel: TapWheel) -> None:
    """Print what another tap of the same pitch would change."""
    rows = nearest_like(wheel.tap)
    if not rows:
        return
    table = answers_table([("Tap", "left"), ("Throat radius", "left"), ("Centres", "left"), ("Swing", "left")])
    for tap in sorted((wheel.tap, *rows), key=lambda each: each.diameter or each.pitch):
        other = TapWheel(tap, wheel.teeth)
        if other.throat_radius and other.centre_distance and other.lead_angle:
            table.add_row(
                f"{tap.name}{' *' if tap == wheel.tap else ''}",
                size_text(other.throat_radius),
                size_text(other.centre_distance),
                f"{approximate(other.lead_angle.degrees, 2)}°",
            )
    out.print()
    out.print("ANOTHER TAP OF THIS PITCH: same wheel, other throat radius and centres", style="bold")
    print_answers(out, table)
    out.print("* as asked. The worm must be of the tap's diameter, or it bears on the edges of the throat.")


def nearest_like(tap: Tap) -> tuple[Tap, ...]:
    """Choose the taps of the same pitch nearest in diameter; by rising diameter where none was given."""
    others = like_taps(tap)
    if tap.diameter is None:
        return others[:MOST_LIKE]
    here = tap.diameter
    return tuple(sorted(others, key=lambda each: abs(((each.diameter or here) - here).mm))[:MOST_LIKE])


def tap_json(wheel: TapWheel, hint: FrictionHint | None, shop: WormShop) -> str:
    """Write the answer of ``worm --tap`` as JSON; only the tap's own figures are exact."""
    tap = wheel.tap
    rod, offset = shop.setting.rod, shop.setting.offset
    answer: dict[str, Any] = {
        "asked": {
            "tap": tap.name,
            "form": tap.angle_text,
            "pitch_mm": f"{tap.pitch.mm}",
            "diameter_mm": f"{tap.diameter.mm}" if tap.diameter else None,
            "teeth": wheel.teeth,
            "hand": shop.hand.value,
        },
        "wheel": {
            "pitch_diameter": length_json(wheel.diameter, is_exact=False),
            "blank_diameter": length_json(wheel.throat, is_exact=False),
            "centre_distance": length_json(wheel.centre_distance, is_exact=False),
            "throat_radius": length_json(wheel.throat_radius, is_exact=False),
            "face": length_json(wheel.face, is_exact=False),
            "depth": length_json(wheel.whole_depth, is_exact=False),
            "lead_angle_deg": angle_json(wheel.lead_angle),
            "fewest_teeth_cut_clean": wheel.least_teeth,
            "undercut": wheel.teeth < wheel.least_teeth,
        },
        "ungashed": [
            {
                "blank": blank.rule,
                "diameter": length_json(blank.diameter, is_exact=False),
                "pitches_round": number(blank.pitches_round, is_exact=False),
                "likely_count": blank.likely_count,
            }
            for blank in wheel.blanks
        ],
        "worm": {
            "outside_diameter": length_json(tap.diameter, is_exact=True),
            "in_full": thread_command(tap, shop.hand),
        },
        "gash": gash_json(gash_for_tap(wheel), shop, wheel.throat, is_exact=False),
        "height_below_rod": length_json(height_below_rod(rod, offset), is_exact=True) if rod else None,
        "gap_to_rod": _gap_json(wheel, rod),
        "other_taps": [
            {
                "tap": each.name,
                "centre_distance": length_json(TapWheel(each, wheel.teeth).centre_distance, is_exact=False),
                "throat_radius": length_json(TapWheel(each, wheel.teeth).throat_radius, is_exact=False),
            }
            for each in nearest_like(tap)
        ],
        "self_locking": hint_json(hint),
        "train": train_json(shop),
    }
    return answer_json.as_text(answer)


def _gap_json(wheel: TapWheel, rod: Length | None) -> dict[str, str] | None:
    if rod is None or wheel.centre_distance is None:
        return None
    return length_json(gap_to_rod(wheel.centre_distance, rod, wheel.throat), is_exact=False)
