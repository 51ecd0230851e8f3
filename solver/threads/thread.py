"""A thread to be cut: form, major diameter, pitch and starts, and how coarse it may be for its diameter."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import Rounding, in_both_units
from solver.refusals import ImpossibleSettingError
from solver.threads.basic_dimensions import RULES, BasicDimensions
from solver.threads.forms import ThreadForm

#: A core of less than this part of the major diameter is refused, and one of less than the other is warned of.
#: Practice; no thread of any series kept here leaves less than 0.59.
LEAST_CORE, USUAL_CORE = Fraction(1, 4), Fraction(1, 2)
#: Rounds of halving in the search for the coarsest pitch, far beyond what is told of it.
_HALVINGS = 40


@dataclass(frozen=True, slots=True)
class Thread:
    """What is to be cut.

    Parameters
    ----------
    form : ThreadForm
        Form of the flanks.
    major : Length
        Basic major diameter; for the 60 degree taper pipe thread the outside diameter of the pipe.
    pitch : Length
        From one groove to the next.
    starts : int, optional
        The lead is so many pitches.
    gauge_length : Length, optional
        Of a tapered thread from the small end of the screw to its gauge plane, where the mouth of the nut comes to.

    Raises
    ------
    ValueError
        A length is not above zero, or the starts are not.
    """

    form: ThreadForm
    major: Length
    pitch: Length
    starts: int = 1
    gauge_length: Length | None = None

    def __post_init__(self) -> None:
        if self.major.mm <= 0 or self.pitch.mm <= 0 or self.starts < 1:
            message = "a thread has a diameter and a pitch above zero, and at least one start"
            raise ValueError(message)

    @property
    def lead(self) -> Length:
        """Advance in one turn.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> Thread(FORMS["trapezoidal"], Length.of_mm(16), Length.of_mm(4), 2).lead
        Length(mm=Fraction(8, 1))
        """
        return self.pitch * self.starts

    def basic(self) -> BasicDimensions:
        """Work out the basic diameters by the standard of the form.

        Returns
        -------
        BasicDimensions
            Screw and nut.

        Raises
        ------
        ImpossibleSettingError
            The pitch is so coarse that no core, or less than a quarter of the diameter, would be left.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> found = Thread(FORMS["ba"], Length.of_mm("4.7"), Length.of_mm("0.81")).basic()
        >>> found.external.pitch, found.external.minor
        (Length(mm=Fraction(843, 200)), Length(mm=Fraction(373, 100)))
        """
        if self.core < self.major * LEAST_CORE:
            raise _too_coarse(self)
        return RULES[self.form.key](self)

    @property
    def core(self) -> Length:
        """What the root of the screw or the crest of the nut leaves, the smaller; zero or below where nothing is left.

        Raises
        ------
        ImpossibleSettingError
            The flanks would meet before the root clearance of the form.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> Thread(FORMS["square"], Length.of_mm(8), Length.of_mm(2)).core
        Length(mm=Fraction(6, 1))
        """
        found = RULES[self.form.key](self)
        return min(found.external.minor, found.internal.minor)

    @property
    def has_thin_core(self) -> bool:
        """True when less than half of the diameter is left, as no thread of a standard series leaves.

        Examples
        --------
        >>> from solver.threads.forms import FORMS
        >>> Thread(FORMS["square"], Length.of_mm(8), Length.of_mm(5)).has_thin_core
        True
        """
        return self.core < self.major * USUAL_CORE


def coarsest_pitch(form: ThreadForm, major: Length, part: Fraction) -> Length | None:
    """Find the coarsest pitch that leaves a part of the major diameter as core; nothing coarser does.

    Parameters
    ----------
    form : ThreadForm
        Its standard fixes the depth.
    major : Length
        Major diameter.
    part : Fraction
        Core over major diameter, of screw and nut both.

    Returns
    -------
    Length or None
        To forty halvings, below the true limit; ``None`` where the clearance of the form is too much for any pitch.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> round(coarsest_pitch(FORMS["square"], Length.of_mm(8), Fraction(1, 2)).mm, 6)
    Fraction(4, 1)
    """
    # No form takes less than half its pitch off the diameter.
    goes, fails, is_cut = Length(Fraction(0)), major * 4, False
    for _ in range(_HALVINGS):
        middle = (goes + fails) * Fraction(1, 2)
        try:
            leaves = Thread(form, major, middle).core >= major * part
            is_cut = is_cut or leaves
        except ImpossibleSettingError:
            # Too fine for the clearance of its form, so not too coarse.
            leaves = True
        goes, fails = (middle, fails) if leaves else (goes, middle)
    return goes if is_cut else None


def coarsest_words(thread: Thread, part: Fraction) -> str | None:
    """Say the coarsest pitch that leaves a part of the diameter, as a length and in whole threads for each inch.

    Examples
    --------
    >>> from solver.threads.forms import FORMS
    >>> coarsest_words(Thread(FORMS["square"], Length.of_mm(8), Length.of_mm(7)), Fraction(1, 2))
    '4.000 mm (0.1574 in; 7 per inch)'
    """
    coarsest = coarsest_pitch(thread.form, thread.major, part)
    if coarsest is None:
        return None
    return f"{in_both_units(coarsest, Rounding.DOWN).removesuffix(')')}; {ceil(1 / coarsest.inches)} per inch)"


def _too_coarse(thread: Thread) -> ImpossibleSettingError:
    left = "no core is left" if thread.core.mm <= 0 else f"a core of only {in_both_units(thread.core)} is left"
    coarsest, usual = coarsest_words(thread, LEAST_CORE), coarsest_words(thread, USUAL_CORE)
    half = f"; up to {usual} half of it is left" if usual else ""
    return ImpossibleSettingError(
        f"A pitch of {in_both_units(thread.pitch)} is too coarse for {in_both_units(thread.major)} in the form "
        f"{thread.form.title}: {left}.",
        help_text=f"The coarsest that goes on this diameter is {coarsest}{half}."
        if coarsest
        else "Give a larger diameter: the root clearance of this form is too much for this one.",
    )
