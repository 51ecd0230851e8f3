"""The banjo in a few lines of text: which wheel on which axis in which plane, and where the studs sit."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from cli.views.shop_figures import micrometres_text
from solver.quantities.exact_numbers import decimal_text, trimmed_decimal_text
from solver.trains.chain import Chain, Idler, chain_of
from solver.trains.lathe import Lathe
from solver.trains.layout import Layout
from solver.trains.train_answer import TrainAnswer
from solver.trains.wheels import Train

#: Columns of one wheel, and of the sign between two wheels on one stud.
_WHEEL = 3
_KEY = " = "


def set_up_text(train: Train, idlers: Sequence[Idler]) -> str:
    """Write a train as one token, idlers in brackets where they go.

    Examples
    --------
    >>> from solver.trains.wheels import Pair
    >>> set_up_text(Train((Pair(20, 40), Pair(50, 127))), [Idler(2, 65)])
    '20-40-50-(65)-127'
    """
    words = []
    for number, pair in enumerate(train.pairs, start=1):
        between = [f"({idler.teeth})" for idler in idlers if idler.mesh == number]
        words += [str(pair.driver), *between, str(pair.driven)]
    return "-".join(words)


def stack_rows(answer: TrainAnswer, lathe: Lathe) -> list[tuple[str, str]]:
    """Draw the wheels by axis and plane, meshes as strokes, one row an axis, with what each does in words."""
    planes = lathe.banjo.planes if lathe.banjo else None
    chain = chain_of(answer.train, answer.idlers, planes)
    wide = max(chain.planes) * (_WHEEL + len(_KEY))
    rows = []
    for axis in range(len(chain.contacts) + 1):
        name = chain.axis_name(axis)
        rows.append((f"  {name}", f"{_wheels_text(chain, axis):<{wide}} {_duty(chain, axis, lathe)}"))
        if axis < len(chain.contacts):
            rows.append(("", _at_plane(chain.planes[chain.contacts[axis].pair], "|")))
    return rows


class MountRow(NamedTuple):
    """What goes on one axis: its name, the wheels as plane and teeth, and what they do."""

    place: str
    wheels: tuple[tuple[int, int], ...]
    duty: str


def mount_rows(answer: TrainAnswer, lathe: Lathe) -> list[MountRow]:
    """List the axes in the order of mounting, from the stud gear to the leadscrew."""
    chain = chain_of(answer.train, answer.idlers, lathe.banjo.planes if lathe.banjo else None)
    return [
        MountRow(
            chain.axis_name(axis),
            tuple((seat.plane, seat.teeth) for seat in sorted(chain.seats(axis))),
            _duty(chain, axis, lathe),
        )
        for axis in range(len(chain.contacts) + 1)
    ]


def _at_plane(plane: int, sign: str) -> str:
    return " " * ((plane - 1) * (_WHEEL + len(_KEY))) + f"{sign:^{_WHEEL}}".rstrip()


def _wheels_text(chain: Chain, axis: int) -> str:
    seats = sorted(chain.seats(axis))
    # The first plane ends at its column and the others begin at theirs, so that a key has a wheel on either hand.
    cells = [f"{seat.teeth:{'>' if seat.plane == 1 else '<'}{_WHEEL}}" for seat in seats]
    lead = " " * ((seats[0].plane - 1) * (_WHEEL + len(_KEY)))
    return lead + _KEY.join(cells)


def _duty(chain: Chain, axis: int, lathe: Lathe) -> str:
    """Say what the wheels of one axis do; with several classes of wheel, of which size each is."""
    if axis == 0:
        words = "drives"
    elif axis == len(chain.contacts):
        words = "driven"
    elif len(chain.seats(axis)) == 1:
        words = "idler: for hand or reach, not for the ratio"
    else:
        driven, driver = chain.contacts[axis - 1].second, chain.contacts[axis].first
        joined = (driven, driver) in lathe.keyed_pairs or (driver, driven) in lathe.keyed_pairs
        words = f"{driven} T driven, {'one sleeve' if joined else 'keyed'} with {driver} T which drives"
    if len(lathe.wheel_classes) > 1:
        sizes = dict.fromkeys(lathe.wheel_classes[seat.wheel_class].size for seat in chain.seats(axis))
        words += f" ({', '.join(sizes)})"
    return words


def banjo_text(layout: Layout, answer: TrainAnswer) -> str:
    """Say where the studs sit, how far the banjo swings, and the tightest gap."""
    two_slots = any(stud.slot > 1 for stud in layout.studs)
    studs = ", ".join(
        f"stud {number} {trimmed_decimal_text(stud.from_leadscrew.mm, 2)} mm"
        + (f" in slot {stud.slot}" if two_slots else "")
        for number, stud in enumerate(layout.studs, start=1)
    )
    to_front = layout.swing.turns >= 0
    side = "front (right" if to_front else "back (left"
    swing = f"swing {decimal_text(abs(layout.swing.degrees), 1)}° from the line to the stud gear"
    way = f"towards the {side}, seen from the change-wheel end)"
    return f"{studs} from the leadscrew; {swing}, {way}; {_gap_text(layout, answer)}"


def _gap_text(layout: Layout, answer: TrainAnswer) -> str:
    chain = chain_of(answer.train, answer.idlers)
    names = [chain.axis_name(axis) for axis in layout.tightest]
    place = f"{names[0]} to {names[1]}" if len(names) > 1 else f"{names[0]} to the end of its slot"
    if layout.clearance.mm == 0:
        return f"no room to spare, {place}"
    if layout.clearance.mm < 0:
        return f"fouls by {micrometres_text(layout.clearance * -1)}, {place}"
    return f"tightest gap {_rounded_down(layout.clearance.mm)} mm, {place}"


def _rounded_down(mm: Fraction) -> str:
    """Write a gap to a hundredth, never more than there is."""
    return trimmed_decimal_text(Fraction(int(mm * 100), 100), 2) if mm >= Fraction(1, 100) else "below 0.01"
