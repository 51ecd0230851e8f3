"""Where a wire rests in a thread groove: solved exactly, for straight flanks in the axial section.

The groove is a helicoid; the wire is a cylinder free to swivel, and it settles where it stands least high. At
that place the contacts lie square beside its middle, in the plane through the radius. With r the radius to the
contact, l the lead over 2 pi, t the tangent of the half angle, R the radius of the wire and
N^2 = 1 + (l/r)^2 + t^2, the contact stands off the middle by an angle whose tangent is -R l / (r (r N + R t)), and
the wire touches both flanks when R / N = l angle + p/4 + (r - E/2) t. One unknown is left; it is closed in on from both
sides.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.circle_figures import arc_tangent, square_root
from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import PI_LOW
from solver.quantities.shown_lengths import in_both_units
from solver.refusals import ImpossibleSettingError
from solver.threads.forms import ThreadForm

#: Decimals of a millimetre to which a seat is found. [decimal places]
PLACES = 25
_SCALE = 10**PLACES
#: Decimals that roots have, and the scale to which every other figure is cut on the way.
_CARRIED = PLACES + 5
_CARRIED_SCALE = 10**_CARRIED
#: Rounds after which a seat that does not settle is given up.
_MOST_ROUNDS = 200


class Groove(NamedTuple):
    """A straight-flanked groove.

    Parameters
    ----------
    form : ThreadForm
        Form with an angle.
    pitch, lead : Length
        From groove to groove, and in one turn.
    """

    form: ThreadForm
    pitch: Length
    lead: Length


class Seat(NamedTuple):
    """A wire at rest.

    Parameters
    ----------
    wire : Length
        Its diameter.
    touches_at : Length
        Diameter of the thread at which it touches the flanks.
    pitch_diameter : Length
        Of the thread it rests in.
    over : Length
        Measured over two such wires, one on each side, or three.
    """

    wire: Length
    touches_at: Length
    pitch_diameter: Length
    over: Length


def seat_of(groove: Groove, wire: Length, pitch_diameter: Length) -> Seat:
    """Find where a wire rests in a thread of known pitch diameter.

    Parameters
    ----------
    groove : Groove
        Shape.
    wire : Length
        Diameter of the wire, above zero.
    pitch_diameter : Length
        Of the thread.

    Returns
    -------
    Seat
        Within 1e-22 mm.

    Raises
    ------
    ImpossibleSettingError
        The wire has no seat within a pitch of the pitch line.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> screw = Groove(FORMS["iso"], Length.of_mm(1), Length.of_mm(1))
    >>> round(1000 * seat_of(screw, Length.of_mm("0.57735"), Length.of_mm("5.350481")).over.mm)
    6218
    """
    half = pitch_diameter.mm / 2

    def gap(radius: Fraction) -> Fraction:
        return _wanted_pitch_radius(groove, wire.mm / 2, radius) - half

    touches = _crossing(gap, half, groove.pitch.mm)
    if touches is None:
        raise _no_seat()
    return _seat(groove, wire, touches)


def seat_under(groove: Groove, wire: Length, over: Length) -> Seat:
    """Find the seat from a reading over wires; it holds the pitch diameter of the thread.

    Parameters
    ----------
    groove : Groove
        Shape.
    wire : Length
        Diameter of the wire, above zero.
    over : Length
        What was read.

    Raises
    ------
    ImpossibleSettingError
        No thread of this pitch reads so over such wires.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> screw = Groove(FORMS["iso"], Length.of_mm(1), Length.of_mm(1))
    >>> round(seat_under(screw, Length.of_mm("0.57735"), Length.of_mm("6.217959")).pitch_diameter.mm, 5)
    Fraction(66881, 12500)
    """
    half = (over.mm - wire.mm) / 2

    def gap(radius: Fraction) -> Fraction:
        return _axis_radius(groove, wire.mm / 2, radius) - half

    touches = _crossing(gap, half, groove.pitch.mm)
    if touches is None:
        raise ImpossibleSettingError(
            f"No thread of this pitch reads {in_both_units(over)} over wires of {in_both_units(wire)}.",
            help_text="Check the unit of the reading, the three wires and the pitch; thread --show measuring without "
            "--reading tells what to look for.",
        )
    return _seat(groove, wire, touches)


def wire_touching(groove: Groove, pitch_diameter: Length, touches_at: Length) -> Length:
    """Return the wire that touches the flanks at a diameter; at the pitch diameter itself it is the best wire.

    Parameters
    ----------
    groove : Groove
        Shape.
    pitch_diameter : Length
        Of the thread.
    touches_at : Length
        Where the wire is to touch.

    Raises
    ------
    ImpossibleSettingError
        No wire touches there.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> screw = Groove(FORMS["iso"], Length.of_mm(1), Length.of_mm(0))
    >>> round(wire_touching(screw, Length.of_mm(6), Length.of_mm(6)).mm, 5)
    Fraction(11547, 20000)
    """
    radius = touches_at.mm / 2
    width = groove.pitch.mm / 4 + (radius - pitch_diameter.mm / 2) * groove.form.tangent
    unit = _normal(groove, radius)
    wire = unit * width
    for _ in range(_MOST_ROUNDS):
        better = _kept(unit * (width + _per_radian(groove) * _arc(_offset(groove, wire, radius))))
        if better <= 0:
            break
        if abs(better - wire) * _SCALE <= 1:
            return Length(2 * better)
        wire = better
    raise _no_seat()


def _no_seat() -> ImpossibleSettingError:
    return ImpossibleSettingError(
        "A wire of this size finds no seat on both flanks of this thread.",
        help_text="Choose a wire in the allowed range, near the best wire; thread --show measuring lists it.",
    )


def _seat(groove: Groove, wire: Length, radius: Fraction) -> Seat:
    pitch_radius = _wanted_pitch_radius(groove, wire.mm / 2, radius)
    over = 2 * _axis_radius(groove, wire.mm / 2, radius) + wire.mm
    return Seat(wire, Length(2 * radius), Length(2 * pitch_radius), Length(_kept(over)))


def _crossing(gap: Callable[[Fraction], Fraction], near: Fraction, reach: Fraction) -> Fraction | None:
    """Find where a rising gap is nothing, within a reach of a place; ``None`` where it is not.

    A straight line is drawn between the ends; an end that stays twice counts half, so that both close in.
    """
    low, high = _kept(max(near - reach, near / 10)), _kept(near + reach)
    below, above = gap(low), gap(high)
    if below > 0 or above < 0:
        return None
    moved = 0
    for _ in range(_MOST_ROUNDS):
        guess = _kept(low - below * (high - low) / (above - below))
        here = gap(guess)
        if abs(here) * _SCALE <= 1:
            return guess
        side = -1 if here < 0 else 1
        if side < 0:
            low, below, above = guess, here, above / 2 if moved == side else above
        else:
            high, above, below = guess, here, below / 2 if moved == side else below
        moved = side
    return None


def _per_radian(groove: Groove) -> Fraction:
    return groove.lead.mm / (2 * PI_LOW)


def _normal(groove: Groove, radius: Fraction) -> Fraction:
    """Length N of the normal (1, l/r, t) of the flank."""
    rise = _per_radian(groove) / radius
    return square_root(1 + rise**2 + groove.form.tangent**2, _CARRIED)


def _offset(groove: Groove, wire_radius: Fraction, radius: Fraction) -> Fraction:
    """Tangent of the angle by which the contact stands off the middle of the wire."""
    along = radius * _normal(groove, radius) + wire_radius * groove.form.tangent
    return _kept(-wire_radius * _per_radian(groove) / (radius * along))


def _arc(slope: Fraction) -> Fraction:
    """Return the angle of a slope in radians."""
    return arc_tangent(slope).turns * 2 * PI_LOW


def _wanted_pitch_radius(groove: Groove, wire_radius: Fraction, radius: Fraction) -> Fraction:
    """Pitch radius of the thread in which such a wire touches at a radius."""
    width = wire_radius / _normal(groove, radius) - _per_radian(groove) * _arc(_offset(groove, wire_radius, radius))
    return _kept(radius - (width - groove.pitch.mm / 4) * groove.form.cotangent)


def _axis_radius(groove: Groove, wire_radius: Fraction, radius: Fraction) -> Fraction:
    """Distance of the wire's axis from the axis of the thread."""
    slope = _offset(groove, wire_radius, radius)
    across = 1 / square_root(1 + slope**2, _CARRIED)
    lean = groove.form.tangent - _per_radian(groove) / radius * slope
    return _kept(across * (radius + wire_radius / _normal(groove, radius) * lean))


def _kept(value: Fraction) -> Fraction:
    """Cut a figure to the decimals that are carried, so that none grows without end."""
    return Fraction(value.numerator * _CARRIED_SCALE // value.denominator, _CARRIED_SCALE)
