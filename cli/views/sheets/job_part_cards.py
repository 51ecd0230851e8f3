"""What each part of a job brings to its card: on the lathe its train and thread, on the head its setting and sizes."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from cli.index_moves import IndexMoves
from cli.thread_sheet import SheetWishes, thread_sheet
from cli.views.cautions import train_cautions
from cli.views.dial_figures import DialAnswer
from cli.views.divide_screen import asked_rows
from cli.views.job_wheel import held_part
from cli.views.milling_cautions import WORM_CUTTING
from cli.views.sheets.dial_cards import dial_card
from cli.views.sheets.index_cards import chosen_set_up, index_card
from cli.views.sheets.part_cards import shape_card, slot_card
from cli.views.sheets.pieces import Card, Cautions, Facts, Lines, Measured, Piece, without_blanks
from cli.views.sheets.table_cards import table_card
from cli.views.sheets.thread_cards import thread_card
from cli.views.sheets.train_cards import half_nut_shout, mounting_pieces, starts_pieces, train_figures, train_measured
from cli.views.sheets.worm_cards import wheel_card
from cli.views.slot_screen import SlotSetting
from cli.views.train_screen import early_check
from cli.views.worm_screen import asked_pitch, wheel_rows, worm_rows
from cli.views.worm_shop import Setting, gash_rows, wheel_error_text
from gearsets.job_parts import (
    NOTHING,
    DialPart,
    Divided,
    DividedPart,
    ShapedPart,
    SlottedPart,
    ThreadPart,
    Turned,
    WheelPart,
    WormPart,
)
from solver.dials.graduations import whole_readings
from solver.dials.mark_pattern import usual_pattern
from solver.dividing.choosing import ChoiceReport, MethodReport
from solver.dividing.heads import Head, Plate
from solver.dividing.moves import IndexAnswer, Method
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.threads.cutting import CuttingWishes
from solver.trains.hand import Hand
from solver.worms.blanks import rim_diameters
from solver.worms.gashing import gash_for_wheel

if TYPE_CHECKING:
    from cli.job_plan import HeadStep, LatheStep
    from solver.trains.lathe import Lathe

#: Above the wheels of a train, after what is to be changed was told.
STANDS_SO = "So the train stands then"
#: Sections of a thread that its step needs.
THREAD_SECTIONS = ("cutting", "speed", "measuring")
#: Steps of the dials to which infeed is rounded, by the unit of the thread.
STEPS = {False: Length.of_mm("0.01"), True: Length.of_inches("0.0005")}
#: Thousandths of the unit that a dial reads in, and tenths of them, by which a reading in inches is known.
THOUSANDTHS = {False: Length.of_mm("0.001"), True: Length.of_inches("0.001")}
TENTH = Length.of_inches("0.0001")


def lathe_pieces(step: LatheStep, lathe: Lathe) -> list[Piece]:
    """Show the train of a turned part as it stands when it is mounted, then the thread or worm that it cuts."""
    product, answer = step.part.product, step.answer
    reversing = answer.hand.hand is Hand.LEFT
    cautions = train_cautions(answer, lathe, reversing=reversing)
    if isinstance(product, WormPart):
        pitch = asked_pitch(product.wheel.worm)
        cautions = (WORM_CUTTING, *cautions)
        cut: list[Piece] = [Facts(worm_rows(product.wheel, None, is_assumed=False), "Worm")]
        if not answer.error.is_exact:
            cut.append(Facts([("At wheel", wheel_error_text(answer, product.wheel.teeth))]))
    elif isinstance(product, ThreadPart):
        pitch, cut = product.pitch, thread_pieces(product)
    else:
        raise TypeError("a turned part is a thread or a worm")
    return [
        *mounting_pieces(answer, lathe, STANDS_SO),
        half_nut_shout(answer),
        Lines("Early check, before metal is cut", without_blanks(early_check(answer, pitch)), ticked=True),
        Cautions(cautions),
        *cut,
        train_figures(answer, lathe, step.part.length, ""),
        *(starts_pieces(answer, pitch.starts, lathe) if pitch.starts > 1 else []),
        train_measured(answer, pitch),
    ]


def thread_pieces(product: ThreadPart) -> list[Piece]:
    """Show depth, passes, tool, speed and wires of a thread whose form is known; nothing of a bare pitch."""
    if product.drawn is None:
        return []
    in_inches = product.drawn.is_inch
    wishes = SheetWishes(CuttingWishes(step=STEPS[in_inches]), product.hand, in_inches, THREAD_SECTIONS)
    try:
        card = thread_card(thread_sheet(product.drawn, wishes))
    except ImpossibleSettingError as refusal:
        return [Lines("Thread", [str(refusal)])]
    # Ten grooves are measured with the train already.
    return [_without_ten(piece) if isinstance(piece, Measured) else piece for piece in card.pieces]


def _without_ten(piece: Measured) -> Measured:
    return Measured([what for what in piece.what if not what.startswith("Ten grooves")])


def head_pieces(step: HeadStep, head: Head) -> list[Piece]:
    """Show the setting of a divided part and its sizes, as the card of that part alone does."""
    return list(_head_card(step, head).pieces)


def _head_card(step: HeadStep, head: Head) -> Card:
    product, answer = step.part.product, step.answer
    if step.ways is None:
        if isinstance(product, SlottedPart):
            return slot_card(_slot_setting(product), product.along, None, None)
        raise TypeError("only a single slot is not divided")
    if step.table is not None:
        if isinstance(product, DividedPart):
            return table_card(head, step.table, held_part(product))
        return _part_card(product, IndexMoves(head, len(step.table.rows) - 1, None, table=step.table))
    if answer is None:
        raise TypeError("a divided part has a setting, or goes by a dial")
    choice = only(step.ways.choice, answer)
    planned = as_planned(head, answer)
    if isinstance(product, DividedPart):
        set_up = chosen_set_up(planned, choice, product.count, None, None)
        return index_card(set_up, asked_rows(product.count, planned, choice, held_part(product)))
    return _part_card(product, IndexMoves(planned, choice.part.denominator, choice))


def _part_card(product: Turned | Divided, moves: IndexMoves) -> Card:
    """Make the card of a part that needs more than its divisions."""
    if isinstance(product, WheelPart):
        wheel = product.wheel
        rim = rim_diameters(wheel)[0].size
        gashing = gash_rows(gash_for_wheel(wheel), moves, Setting(None, None, NOTHING), rim, product.hand)
        return wheel_card(
            moves, wheel.teeth, product.hand, [Facts(wheel_rows(wheel), "Wheel"), Facts(gashing, "Gash first")]
        )
    if isinstance(product, ShapedPart):
        return shape_card(product.shape, product.cut, moves, None)
    if isinstance(product, SlottedPart):
        return slot_card(_slot_setting(product), product.along, moves, None)
    if isinstance(product, DialPart):
        return dial_card(_dial_answer(product, moves))
    raise TypeError("a divided part is a wheel, divisions, a shape, slots or a dial")


def only(choice: ChoiceReport, answer: IndexAnswer) -> ChoiceReport:
    """Leave of all settings the one that was planned, so that a card shows no other."""
    return replace(choice, methods=(MethodReport(answer.method, (answer,)),))


def as_planned(head: Head, answer: IndexAnswer) -> Head:
    """Give the head with no circle but the planned one where holes are nearest, so that marks are set from it alone."""
    if answer.is_exact or answer.method is not Method.NEAREST or answer.plate is None or answer.move.circle is None:
        return head
    return replace(head, plates=(Plate(answer.plate, ((answer.move.circle,),)),))


def _slot_setting(slot: SlottedPart) -> SlotSetting:
    sizes = (slot.diameter, slot.width, slot.depth, slot.cutter, slot.offset, slot.feeler)
    return SlotSetting(*sizes, slot.beyond, slot.short)


def _dial_answer(product: DialPart, moves: IndexMoves) -> DialAnswer:
    best = product.report.answers[0]
    in_inches = (best.wanted / TENTH).denominator == 1
    return DialAnswer(
        report=product.report,
        in_inches=in_inches,
        others=() if best.is_exact else whole_readings(best.lead, best.wanted, unit=THOUSANDTHS[in_inches]),
        pattern=usual_pattern(best.marks),
        moves=moves,
        vernier=None,
        diameter=product.diameter,
        spacing=None,
        travel=None,
        rows=None,
    )
