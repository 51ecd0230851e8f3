"""The basic diameters of screw and nut, by the rule of the standard of each form."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError

if TYPE_CHECKING:
    from solver.threads.thread import Thread

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


#: The rule of each form, by its key.
RULES: dict[str, Callable[[Thread], BasicDimensions]] = {
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
