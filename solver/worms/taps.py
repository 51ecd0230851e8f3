"""A tap as its form and figures, seen as the hob of a worm wheel."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from solver.quantities.exact_numbers import trimmed_decimal_text
from solver.quantities.lengths import Length
from solver.threads.basic_dimensions import Diameters
from solver.threads.forms import ThreadForm
from solver.threads.thread import Thread

#: Any diameter that leaves a core: what a parallel form takes off does not hang on it. [pitches]
_ANY_DIAMETER = 100


@dataclass(frozen=True, slots=True)
class Tap:
    """A tap with one start.

    Parameters
    ----------
    name : str
        Its designation, or its pitch.
    pitch : Length
        Of the thread.
    form : ThreadForm
        Its form: parallel, and with flanks at an angle.
    diameter : Length or None
        Major diameter; without it nothing is said of centres and throat.
    """

    name: str
    pitch: Length
    form: ThreadForm
    diameter: Length | None = None

    @property
    def angle_text(self) -> str:
        """Included angle, as the trade says which form it is.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> Tap("2 BA", Length.of_mm("0.81"), FORMS["ba"]).angle_text
        '47.5°'
        """
        return f"{trimmed_decimal_text(self.form.half_angle.degrees * 2, 2)}°"

    @property
    def pitch_diameter(self) -> Length | None:
        """Basic pitch diameter.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> Tap("Tr 16x4", Length.of_mm(4), FORMS["trapezoidal"], Length.of_mm(16)).pitch_diameter
        Length(mm=Fraction(14, 1))
        """
        return None if self.diameter is None else self.diameter - self._across

    @property
    def depth(self) -> Length:
        """Depth of its thread that a wheel's tooth fills; clearance at the root is left out.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> Tap("2 BA", Length.of_mm("0.81"), FORMS["ba"]).depth
        Length(mm=Fraction(97, 200))
        >>> Tap("Tr 16x4", Length.of_mm(4), FORMS["trapezoidal"]).depth
        Length(mm=Fraction(2, 1))
        """
        # A root farther below the pitch line than the crest stands above it is so by its clearance.
        return min(_screw(self.form, self.pitch).depth, self._across)

    @property
    def addendum(self) -> Length:
        """How far its crest stands above its pitch line.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> Tap("Tr 16x4", Length.of_mm(4), FORMS["trapezoidal"]).addendum
        Length(mm=Fraction(1, 1))
        """
        return Length(self._across.mm / 2)

    @property
    def _across(self) -> Length:
        """Major diameter less pitch diameter."""
        screw = _screw(self.form, self.pitch)
        return screw.major - screw.pitch


@cache
def _screw(form: ThreadForm, pitch: Length) -> Diameters:
    return Thread(form, pitch * _ANY_DIAMETER, pitch).basic().external
