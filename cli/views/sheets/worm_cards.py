"""Cards of a worm and its wheel: the worm in the lathe, and the wheel on the head."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cli.views import tap_screen, worm_screen
from cli.views.cautions import DEFER, train_cautions
from cli.views.milling_cautions import WORM_CUTTING, hobbing_cautions
from cli.views.sheets.part_cards import counting_pieces, move_pieces
from cli.views.sheets.pieces import (
    Card,
    Cautions,
    Facts,
    Grid,
    Lines,
    Measured,
    Piece,
    Resume,
    Sheet,
    without_blanks,
)
from cli.views.sheets.train_cards import half_nut_shout, mounting_pieces, starts_pieces, train_figures, train_measured
from cli.views.train_screen import early_check
from cli.views.worm_shop import WormShop, gash_rows, rod_rows, wheel_cautions, wheel_error_text
from solver.quantities.pitches import Pitch, PitchUnit
from solver.trains.hand import Hand
from solver.worms.blanks import rim_diameters, worm_length
from solver.worms.gashing import gash_for_tap, gash_for_wheel
from solver.worms.tap_hobbing import TapWheel
from solver.worms.worm_wheel import WormWheel

if TYPE_CHECKING:
    from cli.index_moves import IndexMoves
    from solver.quantities.lengths import Length
    from solver.worms.friction import FrictionHint

Rows = Sequence[tuple[str, str]]


def worm_sheet(wheel: WormWheel, hint: FrictionHint | None, shop: WormShop, *, is_assumed: bool) -> Sheet:
    """Make the sheet of a worm and wheel: one card for the lathe, one for the head."""
    worm = worm_screen.worm_rows(wheel, hint, is_assumed=is_assumed)
    rim = rim_diameters(wheel)[0].size
    cards = [
        *lathe_cards(shop, worm, wheel.teeth, worm_length(wheel).size, worm_screen.asked_pitch(wheel.worm)),
        wheel_card(
            shop.gashes,
            wheel.teeth,
            shop.hand,
            [
                Facts(worm_screen.wheel_rows(wheel), "Wheel"),
                Facts(gash_rows(gash_for_wheel(wheel), shop.gashes, shop.setting, rim, shop.hand), "Gash first"),
                Facts(worm_screen.hob_rows(wheel.worm), "Hob, if you make it"),
            ],
        ),
    ]
    asked = worm_screen.asked_rows(wheel, shop.hand)
    return Sheet(f"{shop.hand.value.capitalize()}-hand worm and wheel of {wheel.teeth}", cards, [Facts(asked)])


def tap_sheet(wheel: TapWheel, hint: FrictionHint | None, shop: WormShop) -> Sheet:
    """Make the sheet of a wheel hobbed with a tap, and of the worm for it."""
    tap = tap_screen
    gashing = gash_rows(gash_for_tap(wheel), shop.gashes, shop.setting, wheel.throat, shop.hand, wheel.tap.angle_text)
    pieces: list[Piece] = [
        Facts(tap.wheel_rows(wheel, hint), "Wheel"),
        Facts(gashing, "Gash first"),
        Facts(rod_rows(shop, wheel.centre_distance, wheel.throat), "Set up for the tap"),
        Grid(
            "If it is not gashed: spaces the tap likely begins with",
            tap.BLANK_HEADS,
            tap.blank_cells(wheel),
            notes=[tap.free_hobbing_note(wheel)],
        ),
    ]
    asked = tap.asked_rows(wheel, shop.hand)
    cards = [
        wheel_card(shop.gashes, wheel.teeth, shop.hand, pieces, "tap"),
        *lathe_cards(
            shop,
            [*asked[1:2], *tap.worm_rows(wheel.tap, shop.hand)],
            wheel.teeth,
            wheel.tap.pitch * tap.PITCHES_OF_WORM,
            Pitch(wheel.tap.pitch.mm, PitchUnit.MILLIMETRE),
        ),
    ]
    return Sheet(f"Wheel of {wheel.teeth}, hobbed with {wheel.tap.name}", cards, [Facts(asked)])


def lathe_cards(shop: WormShop, worm: Rows, teeth: int, length: Length, pitch: Pitch) -> list[Card]:
    """Make the card of the worm in the lathe; none where no train answers."""
    if not shop.report.answers:
        return []
    first, lathe = shop.report.answers[0], shop.lathe
    reversing = shop.hand is Hand.LEFT
    at_wheel = [] if first.error.is_exact else [Facts([("At wheel", wheel_error_text(first, teeth))])]
    pieces: list[Piece] = [
        *mounting_pieces(first, lathe),
        half_nut_shout(first),
        Lines("Early check, before metal is cut", without_blanks(early_check(first, pitch)), ticked=True),
        Cautions((WORM_CUTTING, *train_cautions(first, lathe, reversing=reversing))),
        Facts(worm, "Worm"),
        train_figures(first, lathe, length, ""),
        *at_wheel,
        *(starts_pieces(first, pitch.starts, lathe) if pitch.starts > 1 else []),
        train_measured(first, pitch),
        Resume(),
    ]
    return [Card(f"Worm, {shop.hand.value}-hand: change wheels", lathe.name, pieces)]


def wheel_card(moves: IndexMoves, teeth: int, hand: Hand, sizes: Sequence[Piece], hob: str = "hob") -> Card:
    """Make the card of the wheel on the head: sizes, gashes with their count, hobbing with a hob or a tap."""
    pieces: list[Piece] = [
        *sizes,
        *move_pieces(moves, "gash", "gashes"),
        Cautions((*wheel_cautions(moves), *hobbing_cautions(hob), DEFER)),
        Measured(["Gashes counted before any went to depth:", "Marks at the first touch of the hob, counted:"]),
        *counting_pieces(moves),
    ]
    return Card(f"Wheel of {teeth} for a {hand.value}-hand worm: gash and hob", moves.head.name, pieces)
