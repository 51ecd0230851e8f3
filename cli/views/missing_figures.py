"""Words and figures of ``missing`` that its screen, its JSON and a sheet share."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from cli.views.banjo_sketch import set_up_text
from cli.views.method_tables import counted, geared, move_text, plate_motion_text
from cli.views.other_equipment_screen import setup_text
from cli.views.shop_figures import approximate, arcsec_text
from solver.dividing.moves import IndexAnswer, Method
from solver.dividing.spindle_stops import StopSetting
from solver.jobs.wheel_making import WheelMaking
from solver.jobs.wheel_prices import PriceList
from solver.jobs.wheel_report import MissingReport
from solver.quantities.exact_numbers import is_finite_decimal, trimmed_decimal_text
from solver.quantities.pi_multiples import Lead
from solver.quantities.pitches import Pitch, PitchUnit, figure_text
from solver.trains.train_answer import TrainAnswer

if TYPE_CHECKING:
    from collections.abc import Sequence


#: Other choices of wheels as good that are worked out and shown.
OTHER_SETS = 5


class Thread(NamedTuple):
    """How a lead was asked for: its pitch as written, and the threads of a series that have it."""

    text: str
    names: list[str]


#: What is asked for, by lead, in the order asked.
Wanted = dict[Lead, Thread]


def pitch_label(pitch: Pitch) -> str:
    """Write a pitch so that it stands in a list: millimetres as a decimal where they are one.

    Examples
    --------
    >>> from solver.quantities.written_pitches import read_pitch
    >>> pitch_label(read_pitch("3.5mm")), pitch_label(read_pitch("11 1/2 tpi"))
    ('3.5 mm', '11 1/2 tpi')
    """
    is_plain = pitch.unit is PitchUnit.MILLIMETRE and is_finite_decimal(pitch.figure, 6)
    if not is_plain:
        return str(pitch)
    starts = "" if pitch.starts == 1 else f", {pitch.starts} starts"
    return f"{trimmed_decimal_text(pitch.figure, 6)} mm{starts}"


def wheels_text(wheels: Sequence[int]) -> str:
    """Write a handful of wheels.

    Examples
    --------
    >>> wheels_text((40, 40, 63))
    '40 T + 40 T + 63 T'
    """
    return " + ".join(f"{teeth} T" for teeth in wheels)


def price_text(price: Fraction) -> str:
    """Write a price to two decimals where it has any.

    Examples
    --------
    >>> price_text(Fraction(25)), price_text(Fraction(17, 2))
    ('25', '8.5')
    """
    return trimmed_decimal_text(price, 2)


def aim_text(prices: PriceList) -> str:
    """Say what the wheels named are the least of.

    Examples
    --------
    >>> aim_text(PriceList()), aim_text(PriceList(largest_made=60))
    ('fewest', 'fewest to buy')
    """
    if prices.counts_wheels:
        return "fewest"
    is_count = not prices.named and prices.usual == 1 and prices.made == 0
    return "fewest to buy" if is_count else "cheapest"


def proof_text(report: MissingReport) -> str:
    """Say how sure the choice of wheels is, and how far from the best it can be."""
    proof, aim = report.proof, aim_text(report.question.prices)
    if proof.is_proven:
        return f"proven: no other choice of up to {counted(report.question.most_wheels, 'wheel')} is better"
    if proof.stopped is None:
        return f"not proven the {aim}: the constraint solver came to the end of its effort"
    if report.is_least:
        return f"the {aim}, that is proven; {proof.stopped.value} before all that are as good were compared"
    done = {0: "not even every single wheel was tried", 1: "every single wheel was tried"}.get(
        proof.sizes_done, f"every choice of up to {proof.sizes_done} wheels was tried"
    )
    gap = f"found {price_text(report.best.price)}, at least {price_text(proof.least_price)} for as many pitches"
    return f"not proven the {aim}: {proof.stopped.value}; {done}; {gap}"


def train_text(answer: TrainAnswer) -> str:
    """Write a train with its idlers in brackets, and its lever."""
    return f"{set_up_text(answer.train, answer.idlers)}{f' at {answer.lever}' if answer.lever else ''}"


def angle_lines(making: WheelMaking) -> list[str]:
    """Say which pressure angle the cutter must have, and how a calliper tells it from a wheel at hand."""
    lines = []
    for each in making.base_pitches:
        degrees, grows = figure_text(each.pressure_angle.degrees), approximate(each.step.mm, 3)
        eased = f"; below {each.clean_from} teeth the flank is eased" if making.teeth < each.clean_from else ""
        lines.append(f"{degrees}° if the calliper reading grows by {grows} mm when it spans one tooth more{eased}")
    return lines


def head_text(answer: IndexAnswer) -> str:
    """Write one setting of the head in a line; the wheels of a geared plate come before its move."""
    if answer.method is Method.DIRECT:
        spaces = answer.move.turns * (answer.move.circle or 1) + answer.move.spaces
        return f"direct, {counted(spaces, 'space')} of the {answer.move.circle} on the spindle, worm out; exact"
    words = move_text(answer.move)
    if answer.plate:
        words += f" of plate {answer.plate}"
    if answer.gearing is not None:
        gearing = geared(answer)
        idlers = f", {counted(len(gearing.idlers), 'idler')}" if gearing.idlers else ""
        turning = f"plate turns {plate_motion_text(gearing)} in one turn of the work"
        return f"differential, wheels {gearing.train}{idlers} ({turning}), then {words}; exact"
    if answer.second is not None:
        by_both = f"{counted(answer.second.spaces, 'space')} on {answer.second.circle} with the plate"
        words = f"back {by_both}, then {words}" if answer.runs_both_ways else f"{words} and on {by_both}"
    if answer.is_exact:
        return f"{answer.method.value}, {words}; exact"
    return f"{answer.method.value}, {words}; {arcsec_text(answer.error_at_closure)} off after {answer.moves_to_close}"


def lathe_text(setting: StopSetting) -> str:
    """Write one way of dividing on the lathe's own spindle."""
    unit = "place" if setting.counted_wheel is None else "tooth" if setting.step == 1 else "teeth"
    moved = counted(setting.step, "place") if unit == "place" else f"{setting.step} {unit}"
    return f"{setup_text(setting)}: {moved} on each time; exact"
