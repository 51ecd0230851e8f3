"""A thread to be cut: form, major diameter, pitch and starts, and its basic dimensions by the standard of the form."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.shown_lengths import Rounding, in_both_units
from solver.refusals import ImpossibleSettingError
from solver.threads.forms import ThreadForm

#: BS 93 rounds the depth to this before anything is taken from the diameter. [mm]
BA_DEPTH_STEP = Fraction(5, 1000)
#: ISO 228-1 and ISO 7-1 round the depth to this before anything is taken from the diameter. [mm]
PIPE_DEPTH_STEP = Fraction(1, 1000)
#: BS 84 rounds the depth to this before anything is taken from the diameter; from memory of its tables. [in]
WHITWORTH_DEPTH_STEP = Fraction(1, 10_000)
#: BS 84 counts threads for each inch in whole numbers and, from 2 1/4 in up, in halves, quarters and eighths.
WHITWORTH_COUNT_STEP = Fraction(1, 8)
#: Finest pitch of BS 93 (16 BA); the smaller sizes are below the standard and keep the bare 0.6 p. [mm]
BA_FINEST = Fraction(19, 100)
#: ASME B1.5: radial clearance at the root, 0.010 in for 10 threads per inch and coarser, else 0.005 in.
ACME_COARSE = Length.of_inches("0.1")
ACME_CLEARANCE = (Length.of_inches("0.010"), Length.of_inches("0.005"))
#: ISO 2901: clearance at the crest, up to each pitch. [mm]
TRAPEZOIDAL_CLEARANCE = (
    (Fraction(3, 2), Fraction(15, 100)),
    (Fraction(5), Fraction(25, 100)),
    (Fraction(12), Fraction(5, 10)),
    (Fraction(44), Fraction(1)),
)


#: A core of less than this part of the major diameter is refused, and one of less than the other is warned of.
#: Practice; no thread of any series kept here leaves less than 0.59.
LEAST_CORE, USUAL_CORE = Fraction(1, 4), Fraction(1, 2)
#: Rounds of halving in the search for the coarsest pitch, far beyond what is told of it.
_HALVINGS = 40


class Diameters(NamedTuple):
    """Basic diameters of a screw, or of a hole.

    Parameters
    ----------
    major, pitch, minor : Length
        Exact for forms with proportions in whole parts of the pitch; else carried to 29 decimals or more.
    """

    major: Length
    pitch: Length
    minor: Length

    @property
    def depth(self) -> Length:
        """Depth on the radius from major to minor.

        Examples
        --------
        >>> Diameters(Length.of_mm(6), Length.of_mm("5.4"), Length.of_mm("4.8")).depth
        Length(mm=Fraction(3, 5))
        """
        return (self.major - self.minor) * Fraction(1, 2)


class BasicDimensions(NamedTuple):
    """Basic diameters of the screw and of the nut, and the rule each minor diameter follows."""

    external: Diameters
    internal: Diameters
    rule: str


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
        return _RULES[self.form.key](self)

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
        found = _RULES[self.form.key](self)
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


def _both(thread: Thread, pitch_drop: Fraction, internal: Fraction, external: Fraction, rule: str) -> BasicDimensions:
    """Take shares of the pitch off the major diameter."""
    major, pitch = thread.major, thread.pitch
    mean = major - pitch * pitch_drop
    return BasicDimensions(
        Diameters(major, mean, major - pitch * external), Diameters(major, mean, major - pitch * internal), rule
    )


def _iso(thread: Thread) -> BasicDimensions:
    height = thread.form.sharp_height
    rule = "screw root rounded to H/6 (h3 = 17 H/24), nut to 5 H/8"
    return _both(thread, height * Fraction(3, 4), height * Fraction(5, 4), height * Fraction(17, 12), rule)


def _unified(thread: Thread) -> BasicDimensions:
    height = thread.form.sharp_height
    rule = "screw root to 11 H/16 (UNR), nut to 5 H/8"
    return _both(thread, height * Fraction(3, 4), height * Fraction(5, 4), height * Fraction(11, 8), rule)


def _miniature(thread: Thread) -> BasicDimensions:
    drop = thread.form.sharp_height * Fraction(3, 4)
    return _both(thread, drop, Fraction(96, 100), Fraction(112, 100), "nut depth 0.48 P, screw depth 0.56 P")


def _unm(thread: Thread) -> BasicDimensions:
    drop = thread.form.sharp_height * Fraction(3, 4)
    return _both(thread, drop, Fraction(104, 100), Fraction(120, 100), "nut depth 0.52 p, screw depth 0.60 p")


def _whitworth(thread: Thread) -> BasicDimensions:
    share = thread.form.sharp_height * Fraction(2, 3)
    if (1 / thread.pitch.inches / WHITWORTH_COUNT_STEP).denominator != 1:
        # A metric or an odd pitch in this form stands in no table whose rounding it could follow.
        return _both(thread, share, 2 * share, 2 * share, "two thirds of the sharp V, crest and root rounded")
    depth = Length.of_inches(round((thread.pitch * share).inches / WHITWORTH_DEPTH_STEP) * WHITWORTH_DEPTH_STEP)
    found = Diameters(thread.major, thread.major - depth, thread.major - depth * 2)
    return BasicDimensions(found, found, "two thirds of the sharp V, rounded to 0.0001 in before it is taken off")


def _pipe(thread: Thread) -> BasicDimensions:
    depth = thread.pitch * (thread.form.sharp_height * Fraction(2, 3))
    depth = Length(round(depth.mm / PIPE_DEPTH_STEP) * PIPE_DEPTH_STEP)
    found = Diameters(thread.major, thread.major - depth, thread.major - depth * 2)
    return BasicDimensions(found, found, "two thirds of the sharp V, rounded to 0.001 mm before it is taken off")


def _ba(thread: Thread) -> BasicDimensions:
    depth = thread.pitch * Fraction(6, 10)
    rule = "depth 0.6 p, below the range of BS 93 without its rounding"
    if thread.pitch.mm >= BA_FINEST:
        depth = Length(round(depth.mm / BA_DEPTH_STEP) * BA_DEPTH_STEP)
        rule = "depth 0.6 p, rounded to 0.005 mm before it is taken off"
    found = Diameters(thread.major, thread.major - depth, thread.major - depth * 2)
    return BasicDimensions(found, found, rule)


def _thury(thread: Thread) -> BasicDimensions:
    return _both(thread, Fraction(6, 10), Fraction(12, 10), Fraction(12, 10), "depth 0.6 p")


def _loewenherz(thread: Thread) -> BasicDimensions:
    return _both(thread, Fraction(3, 4), Fraction(3, 2), Fraction(3, 2), "depth 3/4 p, flats of p/8")


def _cycle(thread: Thread) -> BasicDimensions:
    depth = thread.form.sharp_height - Fraction(1, 3)
    return _both(thread, depth, 2 * depth, 2 * depth, "crest and root rounded to p/6")


def _acme(thread: Thread) -> BasicDimensions:
    return _with_clearance(thread, Fraction(1, 2), acme_clearance(thread.pitch), "half the pitch and root clearance")


def _stub_acme(thread: Thread) -> BasicDimensions:
    return _with_clearance(thread, Fraction(3, 10), acme_clearance(thread.pitch), "0.3 of the pitch and root clearance")


def _trapezoidal(thread: Thread) -> BasicDimensions:
    clear = trapezoidal_clearance(thread.pitch)
    return _with_clearance(thread, Fraction(1, 2), clear, "half the pitch and root clearance")


def _with_clearance(thread: Thread, depth: Fraction, clear: Length, rule: str) -> BasicDimensions:
    """Clear the nut beyond the screw's crest and the screw below the nut's, by the same on the radius."""
    plain = _both(thread, depth, 2 * depth, 2 * depth, rule)
    screw, nut = plain.external, plain.internal
    # Half the pitch wide at the pitch line, the groove narrows by both flanks on its way to the root.
    if thread.pitch * Fraction(1, 2) <= (screw.pitch - screw.minor + clear * 2) * thread.form.tangent:
        raise ImpossibleSettingError(
            f"The root clearance of {thread.form.standard} is too much for so fine a pitch: "
            "the flanks would meet before the root.",
            help_text="Give a coarser pitch, or another form.",
        )
    return BasicDimensions(
        screw._replace(minor=screw.minor - clear * 2), nut._replace(major=nut.major + clear * 2), rule
    )


def _square(thread: Thread) -> BasicDimensions:
    return _both(thread, Fraction(1, 2), Fraction(1), Fraction(1), "half the pitch, no clearance")


def _taper_60(thread: Thread) -> BasicDimensions:
    # ASME B1.20.1: E0 = D - (0.05 D + 1.1) p at the small end, D the pipe; thread height 0.8 p. [in]
    pipe, pitch = thread.major.inches, thread.pitch.inches
    mean = Length.of_inches(pipe - (pipe * Fraction(5, 100) + Fraction(11, 10)) * pitch)
    half = thread.pitch * Fraction(8, 10)
    screw = Diameters(mean + half, mean, mean - half)
    rule = "at the small end: E0 = D - (0.05 D + 1.1) p, height 0.8 p"
    if thread.gauge_length is None:
        return BasicDimensions(screw, screw, rule)
    # The gauge plane of the screw and the mouth of the nut have one diameter: E1 = E0 + L1/16.
    wider = thread.gauge_length * thread.form.taper
    return BasicDimensions(
        screw, Diameters(*(each + wider for each in screw)), f"{rule}; nut at its mouth: E1 = E0 + L1/16"
    )


_RULES: dict[str, Callable[[Thread], BasicDimensions]] = {
    "iso": _iso,
    "unified": _unified,
    "miniature": _miniature,
    "unm": _unm,
    "whitworth": _whitworth,
    "ba": _ba,
    "thury": _thury,
    "loewenherz": _loewenherz,
    "cycle": _cycle,
    "acme": _acme,
    "stub-acme": _stub_acme,
    "trapezoidal": _trapezoidal,
    "square": _square,
    "pipe": _pipe,
    "taper-pipe-55": _pipe,
    "taper-pipe-60": _taper_60,
}


def acme_clearance(pitch: Length) -> Length:
    """Return the radial clearance ASME B1.5 leaves at the root.

    Examples
    --------
    >>> acme_clearance(Length.of_inches("1/12")).inches
    Fraction(1, 200)
    """
    coarse, fine = ACME_CLEARANCE
    return coarse if pitch >= ACME_COARSE else fine


def trapezoidal_clearance(pitch: Length) -> Length:
    """Return the clearance ISO 2901 leaves at the crest, by the pitch.

    Examples
    --------
    >>> trapezoidal_clearance(Length.of_mm(4))
    Length(mm=Fraction(1, 4))
    """
    for most, clear in TRAPEZOIDAL_CLEARANCE:
        if pitch.mm <= most:
            return Length(clear)
    return Length(TRAPEZOIDAL_CLEARANCE[-1][1])
