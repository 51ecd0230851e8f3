"""Translating pairs: one system's screw cutting the other system's pitch, exactly or nearly."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.continued_fractions import intermediate_fractions

#: Metric on an inch leadscrew: 25.4 is 127/5, and 127 is prime.
METRIC_ON_INCH = Fraction(100, 127)
#: Stand-ins farther off than this are not worth a wheel. [ppm]
FARTHEST_PPM = 700


@dataclass(frozen=True, slots=True)
class StandIn:
    """A pair that stands in for a translating pair, with its signed relative error in lead."""

    pair: Fraction
    error: Fraction

    @property
    def ppm(self) -> Fraction:
        """Parts in a million; plus is a long lead.

        Examples
        --------
        >>> StandIn(Fraction(63, 80), Fraction(1, 8000)).ppm
        Fraction(125, 1)
        """
        return self.error * 1_000_000


def stand_ins(*, largest: int, metric_on_inch: bool = True) -> tuple[StandIn, ...]:
    """List stand-ins for the translating pair, nearest first.

    Parameters
    ----------
    largest : int
        Largest wheel to consider. [teeth]
    metric_on_inch : bool, optional
        100/127 when true, 127/100 (inch pitches on a metric leadscrew) when false.

    Returns
    -------
    tuple of StandIn
        Convergents and intermediate fractions within 700 ppm, 127 itself included when it is not too large.

    Examples
    --------
    >>> [str(each.pair) for each in stand_ins(largest=120)]
    ['63/80', '37/47', '26/33']
    """
    wanted = METRIC_ON_INCH if metric_on_inch else 1 / METRIC_ON_INCH
    found = {StandIn(pair, pair / wanted - 1) for pair in intermediate_fractions(wanted, largest=largest)}
    near = (each for each in found if abs(each.ppm) <= FARTHEST_PPM)
    return tuple(sorted(near, key=lambda each: (abs(each.error), each.pair)))
