"""Thread forms: the flank angle of each and what follows from it; the standards stand beside them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from solver.quantities.angles import Angle
from solver.quantities.circle_figures import arc_tangent, cosine, sine
from solver.refusals import UnreadableFigureError

#: Forms with a rounded root whose crests are flat.
_FLAT_CRESTED = ("iso", "unified")


@dataclass(frozen=True, slots=True)
class ThreadForm:
    """A form with the same angle on both flanks.

    Parameters
    ----------
    key : str
        Word by which it is asked for.
    title : str
        Plain name with the included angle.
    standard : str
        Where its proportions stand.
    half_angle : Angle
        Half the included angle; zero for the square form.
    round_root : bool, optional
        The drawing of the standard shows the root rounded.
    taper : Fraction, optional
        Growth of diameter over length; zero for a parallel thread.
    """

    key: str
    title: str
    standard: str
    half_angle: Angle
    round_root: bool = False
    taper: Fraction = Fraction(0)

    @property
    def has_angle(self) -> bool:
        """False for the square form, whose flanks give a wire no seat.

        Examples
        --------
        >>> FORMS["square"].has_angle
        False
        """
        return self.half_angle.turns != 0

    @property
    def has_round_crest(self) -> bool:
        """True of a form whose crest is as round as its root; ISO metric and unified threads have flat ones.

        Examples
        --------
        >>> FORMS["whitworth"].has_round_crest, FORMS["iso"].has_round_crest
        (True, False)
        """
        return self.round_root and self.key not in _FLAT_CRESTED

    @property
    def is_told_at_small_end(self) -> bool:
        """True of the form whose standard works from the small end of the screw, which no nut shares.

        Examples
        --------
        >>> FORMS["taper-pipe-60"].is_told_at_small_end, FORMS["taper-pipe-55"].is_told_at_small_end
        (True, False)
        """
        return self.key == "taper-pipe-60"

    @property
    def taper_to_axis(self) -> Angle:
        """Angle between the side of a tapered thread and its axis, to which a slide is set; zero of a parallel one.

        Examples
        --------
        >>> round(FORMS["taper-pipe-60"].taper_to_axis.degrees, 4)
        Fraction(17899, 10000)
        """
        return arc_tangent(self.taper / 2)

    @property
    def tangent(self) -> Fraction:
        """Tangent of the half angle, within 1e-29.

        Examples
        --------
        >>> round(FORMS["acme"].tangent, 6)
        Fraction(129309, 500000)
        """
        across, along = _sine_and_cosine(self.half_angle)
        return across / along

    @property
    def cotangent(self) -> Fraction:
        """Cotangent of the half angle, within 1e-29; not for the square form.

        Examples
        --------
        >>> round(FORMS["iso"].cotangent, 6)
        Fraction(1732051, 1000000)
        """
        across, along = _sine_and_cosine(self.half_angle)
        return along / across

    @property
    def cosecant(self) -> Fraction:
        """One over the sine of the half angle, within 1e-29; not for the square form.

        Examples
        --------
        >>> FORMS["iso"].cosecant
        Fraction(2, 1)
        """
        return 1 / _sine_and_cosine(self.half_angle)[0]

    @property
    def sharp_height(self) -> Fraction:
        """Height of the sharp V over the pitch, H; not for the square form.

        Examples
        --------
        >>> round(FORMS["whitworth"].sharp_height, 6)
        Fraction(960491, 1000000)
        """
        return self.cotangent / 2


@cache
def _sine_and_cosine(angle: Angle) -> tuple[Fraction, Fraction]:
    return sine(angle), cosine(angle)


_HALF_47 = Angle.of_degrees("23.75")
_HALF_55 = Angle.of_degrees("27.5")
_HALF_60 = Angle.of_degrees(30)
_HALF_29 = Angle.of_degrees("14.5")
_SIXTEENTH = Fraction(1, 16)

#: Every form, by the word it is asked for.
FORMS = {
    form.key: form
    for form in (
        ThreadForm("iso", "ISO metric, 60°", "ISO 68-1", _HALF_60, round_root=True),
        ThreadForm("unified", "Unified, 60°", "ASME B1.1", _HALF_60, round_root=True),
        ThreadForm("miniature", "ISO miniature, 60°", "ISO 1501", _HALF_60),
        ThreadForm("unm", "Unified miniature, 60°", "ASME B1.10M", _HALF_60),
        ThreadForm("whitworth", "Whitworth, 55°", "BS 84", _HALF_55, round_root=True),
        ThreadForm("ba", "British Association, 47½°", "BS 93", _HALF_47, round_root=True),
        ThreadForm("thury", "Thury, about 47½°", "Thury's two laws", _HALF_47, round_root=True),
        # Height equal to the pitch: the tangent of the half angle is one half, 53 degrees 8 minutes included.
        ThreadForm("loewenherz", "Loewenherz, 53° 8'", "DIN as remembered", arc_tangent(Fraction(1, 2))),
        ThreadForm("cycle", "Cycle, 60° rounded", "BS 811 as remembered", _HALF_60, round_root=True),
        ThreadForm("acme", "Acme general purpose, 29°", "ASME B1.5", _HALF_29),
        ThreadForm("stub-acme", "Stub Acme, 29°", "ASME B1.8", _HALF_29),
        ThreadForm("trapezoidal", "ISO trapezoidal, 30°", "ISO 2901", Angle.of_degrees(15)),
        ThreadForm("square", "Square", "common practice", Angle.of_degrees(0)),
        ThreadForm("pipe", "Pipe, 55°", "ISO 228-1", _HALF_55, round_root=True),
        ThreadForm("taper-pipe-55", "Taper pipe, 55°", "ISO 7-1", _HALF_55, round_root=True, taper=_SIXTEENTH),
        ThreadForm("taper-pipe-60", "Taper pipe, 60°", "ASME B1.20.1", _HALF_60, taper=_SIXTEENTH),
    )
}
#: Included angles by which a form may be asked for.
_BY_ANGLE = {
    "60": "iso", "55": "whitworth", "47.5": "ba", "47 1/2": "ba", "47½": "ba", "29": "acme", "30": "trapezoidal",
}  # fmt: skip


def read_form(word: str, usual: ThreadForm | None = None) -> ThreadForm:
    """Find a form by its word, or by its included angle in degrees.

    Parameters
    ----------
    word : str
        For example ``whitworth`` or ``55``.
    usual : ThreadForm, optional
        Form the thread has anyway: an angle that is its own does not make another form of it.

    Raises
    ------
    UnreadableFigureError
        There is no such form; the words are listed.

    Examples
    --------
    >>> read_form("55").title, read_form("55", FORMS["pipe"]).title
    ('Whitworth, 55°', 'Pipe, 55°')
    """
    asked = word.strip().casefold()
    bare = asked.removesuffix("deg").removesuffix("°").strip()
    by_angle = _BY_ANGLE.get(bare)
    form = FORMS.get(by_angle or asked.replace("_", "-").replace(" ", "-"))
    if form is None:
        help_text = f"Forms are {', '.join(FORMS)}; or an included angle: 60, 55, 47.5, 29, 30."
        raise UnreadableFigureError(word, 0, "there is no thread form of this name", help_text=help_text)
    return usual if by_angle and usual and usual.half_angle == form.half_angle else form
