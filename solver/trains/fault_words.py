"""Obstacles of a set-up in the words of the bench."""

from __future__ import annotations

from fractions import Fraction

from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.trains.banjo_gauge import USUAL_CLEARANCE_TEETH
from solver.trains.chain import Chain, Seat
from solver.trains.lathe import Lathe
from solver.trains.layout import Fault, Obstacle

#: Decimal places of millimetres in a reason.
_PLACES = 2


def clearance_text(lathe: Lathe, wheel_class: int) -> str:
    """Write k of one class of wheels: two, and the stud nut in modules; fifteen where the nut is not known.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> clearance_text(Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, ()), 0)
    '15'
    """
    nut = lathe.banjo.stud_nut if lathe.banjo else None
    if nut is None:
        return str(USUAL_CLEARANCE_TEETH)
    return trimmed_decimal_text(2 + nut / lathe.wheel_classes[wheel_class].module, 1)


def fault_words(fault: Fault, chain: Chain, lathe: Lathe) -> str:
    """Say one fault in a sentence with its figures.

    Parameters
    ----------
    fault : Fault
        As the gauge found it.
    chain : Chain
        The set-up it was found in.
    lathe : Lathe
        For the sizes of wheels.

    Returns
    -------
    str
        Lengths rounded to a hundredth of a millimetre.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> from solver.trains.chain import chain_of
    >>> from solver.trains.wheels import Pair, Train
    >>> chain = chain_of(Train((Pair(50, 40), Pair(20, 127))))
    >>> lathe = Lathe("bare", "3 mm", Length.of_mm(3), Fraction(1), True, ())
    >>> fault_words(Fault(Obstacle.SLOT, (1,), (), (Fraction(20),), (Fraction(30), Fraction(99))), chain, lathe)
    'stud 1 would sit 20 mm from the leadscrew; the slot gives 30 to 99 mm'
    """
    words = _words(fault, chain, lathe)
    return f"too close to call: {words}" if fault.is_close else words


def _words(fault: Fault, chain: Chain, lathe: Lathe) -> str:
    names = [chain.axis_name(axis) for axis in fault.axes]
    found, needed = [_mm(each) for each in fault.found], [_mm(each) for each in fault.needed]
    match fault.obstacle:
        case Obstacle.STUDS:
            return f"{_studs(found[0])} needed; the banjo has {needed[0]}"
        case Obstacle.PLANES:
            return f"{found[0]} pairs turn in 2 planes; the axes are {needed[0]} wheel deep"
        case Obstacle.GUARD:
            return f"{found[0]} T is larger than the {needed[0]} T the guard allows"
        case Obstacle.SHORT:
            return _short_words(found[0], needed[0])
        case Obstacle.LIMITS:
            mesh = fault.axes[0] + 1
            return f"mesh {mesh} needs {found[0]} mm between centres; the banjo allows {needed[0]} to {needed[1]} mm"
        case Obstacle.SLOT:
            return (
                f"{names[0]} would sit {found[0]} mm from the leadscrew; the slot gives {needed[0]} to {needed[1]} mm"
            )
        case Obstacle.SWING:
            return f"the banjo would have to swing beyond {needed[0]}° to {needed[1]}°"
        case Obstacle.WHEELS:
            first, second = (seat.teeth for seat in fault.seats)
            where = f"the {first} T on {_the(names[0])} and the {second} T on {_the(names[1])}"
            return f"{where} overlap in one plane: {found[0]} mm apart, {needed[0]} mm needed"
        case Obstacle.SHAFT:
            return _shaft_words(fault, chain, lathe)
        case Obstacle.REACH:
            return _reach_words(fault, chain)


def _reach_words(fault: Fault, chain: Chain) -> str:
    found, needed = [_mm(each) for each in fault.found], [_mm(each) for each in fault.needed]
    contact = chain.contacts[0]
    both = f"{contact.first} T and {contact.second} T"
    if len(needed) == 1:
        return f"{both} make {found[0]} mm; stud gear and leadscrew are {needed[0]} mm apart, which takes an idler"
    side = "short" if fault.found[0] < fault.needed[0] else "long"
    return f"{both} are too {side}: {found[0]} mm between centres, {needed[0]} to {needed[1]} mm needed for stud 1"


def _shaft_words(fault: Fault, chain: Chain, lathe: Lathe) -> str:
    """Give the rule in teeth where the two axes mesh in wheels of the same class, else the distance."""
    seat: Seat = fault.seats[0]
    at, towards = fault.axes
    where = f"the {seat.teeth} T on {_the(chain.axis_name(at))} fouls the shaft of {_the(chain.axis_name(towards))}"
    if abs(at - towards) == 1:
        contact = chain.contacts[min(at, towards)]
        if contact.wheel_class == seat.wheel_class:
            k = clearance_text(lathe, seat.wheel_class)
            return f"{where}: {contact.first} + {contact.second} is not above {seat.teeth} + {k}"
    return f"{where}: {_mm(fault.found[0])} mm apart, more than {_mm(fault.needed[0])} mm needed"


def _the(axis: str) -> str:
    return axis if axis[-1].isdigit() else f"the {axis}"


def _short_words(found: str, needed: str) -> str:
    meshes = "1 mesh does" if found == "1" else f"{found} meshes do"
    missing = int(needed) - int(found)
    idlers = "an idler is" if missing == 1 else f"{missing} idlers are"
    return f"{meshes} not span the banjo, which takes {needed}: {idlers} needed"


def _studs(count: str) -> str:
    return "1 stud is" if count == "1" else f"{count} studs are"


def _mm(value: Fraction) -> str:
    return trimmed_decimal_text(value, _PLACES)
