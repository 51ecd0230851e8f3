"""Which standard pitches a measured length can be, and which of them it cannot tell apart."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import NamedTuple

from solver.quantities.lengths import Length
from solver.quantities.pi_multiples import Lead, lead_bounds_mm
from solver.quantities.written_measurements import MOST_PITCHES, Measurement
from solver.trains.lead_error import LeadError, lead_error

#: How far below its nominal diameter a sound external thread may measure: so much, and so much of the pitch. Own rule,
#: wide enough for the limits of medium fits as remembered (ISO 965 6g, ASME B1.1 2A) from 0.25 mm pitch upwards.
BELOW_NOMINAL = Length.of_mm("0.1")
BELOW_NOMINAL_PER_PITCH = Fraction(3, 20)


class KnownPitch(NamedTuple):
    """A pitch somebody makes.

    Parameters
    ----------
    pitch : Length or PiLength
        From one groove or tooth to the next.
    names : tuple of str
        What it is called, one name at least: ``8 tpi``, ``1/8 in CP``.
    found_in : tuple of str
        Series and lists it stands in.
    """

    pitch: Lead
    names: tuple[str, ...]
    found_in: tuple[str, ...] = ()


class Match(NamedTuple):
    """One known pitch beside the measurement.

    Parameters
    ----------
    known : KnownPitch
        The pitch.
    misfit : Length
        Measured length minus so many of these pitches: plus means the measured pitch is the longer one. Exact for a
        plain pitch, the middle of its bounds for a pi pitch.
    relative : LeadError
        The same as a part of the known pitch.
    fits : bool
        The misfit is no larger than the measurement may be wrong.
    tell_over : int or None
        Pitches to measure over, with the same care, to tell it from the best match; ``None`` for the best match.
    """

    known: KnownPitch
    misfit: Length
    relative: LeadError
    fits: bool
    tell_over: int | None


class Identification(NamedTuple):
    """All known pitches, the least misfit first.

    Parameters
    ----------
    measured : Measurement
        What was measured.
    matches : tuple of Match
        Every known pitch.
    """

    measured: Measurement
    matches: tuple[Match, ...]

    @property
    def fitting(self) -> tuple[Match, ...]:
        """The matches that this measurement cannot rule out, and so cannot tell apart.

        Examples
        --------
        >>> from solver.quantities.written_measurements import read_measurement
        >>> known = [KnownPitch(Length.of_inches(Fraction(1, tpi)), (f"{tpi} tpi",)) for tpi in (27, 28)]
        >>> [match.known.names for match in identify(read_measurement("0.180in / 5"), known).fitting]
        [('28 tpi',)]
        """
        return tuple(match for match in self.matches if match.fits)


def identify(measured: Measurement, known: Iterable[KnownPitch]) -> Identification:
    """Rank known pitches by their misfit over the measured length.

    Parameters
    ----------
    measured : Measurement
        A length over so many pitches, with how far it may be wrong.
    known : iterable of KnownPitch
        The pitches to look through, each of another length.

    Returns
    -------
    Identification
        In a total order: misfit, then length.

    Examples
    --------
    >>> from solver.quantities.pi_multiples import PiLength
    >>> from solver.quantities.written_measurements import read_measurement
    >>> known = [KnownPitch(PiLength(Fraction(1)), ("module 1",)), KnownPitch(Length.of_inches("1/8"), ("8 tpi",))]
    >>> found = identify(read_measurement("0.125 in"), known)
    >>> [(match.known.names[0], match.fits, match.tell_over) for match in found.matches]
    [('8 tpi', True, None), ('module 1', True, 3)]
    >>> round(found.matches[1].relative.relative * 100, 2)
    Fraction(53, 50)
    """

    def middle_mm(each: KnownPitch) -> Fraction:
        low, high = lead_bounds_mm(each.pitch)
        return (low + high) / 2

    def misfit_mm(each: KnownPitch) -> Fraction:
        return measured.length.mm - measured.pitches * middle_mm(each)

    ranked = sorted(known, key=lambda each: (abs(misfit_mm(each)), middle_mm(each)))
    return Identification(
        measured,
        tuple(
            Match(
                each,
                Length(misfit_mm(each)),
                lead_error(measured.pitch, each.pitch),
                _may_be(each.pitch, measured),
                None if place == 0 else pitches_to_tell(ranked[0].pitch, each.pitch, measured.give_or_take),
            )
            for place, each in enumerate(ranked)
        ),
    )


def _may_be(pitch: Lead, measured: Measurement) -> bool:
    """Say whether a pitch is not proven to lie outside the measurement."""
    low, high = lead_bounds_mm(pitch)
    least = (measured.length - measured.give_or_take).mm
    most = (measured.length + measured.give_or_take).mm
    return measured.pitches * high >= least and measured.pitches * low <= most


def pitches_to_tell(first: Lead, second: Lead, give_or_take: Length) -> int | None:
    """Return the fewest pitches over which no measured length can be either of two pitches.

    Each pitch answers for the lengths within the uncertainty on either side of it, so the two must come to differ by
    more than twice the uncertainty.

    Parameters
    ----------
    first, second : Length or PiLength
        The two pitches.
    give_or_take : Length
        How far a measured length may be wrong, whatever it spans.

    Returns
    -------
    int or None
        Pitches; ``None`` when the two are not proven to differ.

    Examples
    --------
    >>> pitches_to_tell(Length.of_inches("1/28"), Length.of_inches("1/27"), Length.of_mm("0.5"))
    30
    >>> pitches_to_tell(Length.of_inches("1/8"), Length.of_mm("3.175"), Length.of_mm("0.5")) is None
    True
    """
    (first_low, first_high), (second_low, second_high) = lead_bounds_mm(first), lead_bounds_mm(second)
    gap = max(first_low - second_high, second_low - first_high)
    if gap <= 0:
        return None
    return int(2 * give_or_take.mm / gap) + 1


def miscounted(measured: Measurement, known: Sequence[KnownPitch]) -> tuple[Identification, ...]:
    """Look again with one pitch more or less: crests are easily counted where gaps are meant.

    Returns
    -------
    tuple of Identification
        Those counts under which some known pitch fits, the smaller count first.

    Examples
    --------
    >>> from solver.quantities.written_measurements import read_measurement
    >>> known = [KnownPitch(Length.of_mm("1.25"), ("1.25 mm",))]
    >>> [again.measured.pitches for again in miscounted(read_measurement("12.5 mm / 11"), known)]
    [10]
    """
    # One pitch is no count at all.
    counts = [measured.pitches - 1, measured.pitches + 1] if 1 < measured.pitches < MOST_PITCHES else []
    again = (identify(measured._replace(pitches=count), known) for count in counts)
    return tuple(each for each in again if each.fitting)


def major_may_be(nominal: Length, pitch: Length, measured: Length, give_or_take: Length) -> bool:
    """Say whether a measured outside diameter may belong to a thread of a nominal diameter.

    An external thread is made a little smaller than its nominal diameter and never larger.

    Parameters
    ----------
    nominal : Length
        Major diameter of the table.
    pitch : Length
        Its pitch.
    measured : Length
        Over the crests.
    give_or_take : Length
        How far the measured diameter may be wrong.

    Returns
    -------
    bool
        By a rule of our own, wider than the limits of medium fits.

    Examples
    --------
    >>> pitch, *reading = Length.of_mm(1), Length.of_mm("5.9"), Length.of_mm("0.05")
    >>> [major_may_be(Length.of_mm(size), pitch, *reading) for size in (5, 6, 7)]
    [False, True, False]
    """
    least = nominal - BELOW_NOMINAL - pitch * BELOW_NOMINAL_PER_PITCH - give_or_take
    return least <= measured <= nominal + give_or_take
