"""Angles as exact turns of the work."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.quantities.exact_numbers import decimal_text, exact, round_half_even

#: Arc-seconds in one turn.
ARCSEC_PER_TURN = 1_296_000


@dataclass(frozen=True, slots=True, order=True)
class Angle:
    """An angle, held as exact turns.

    Examples
    --------
    >>> Angle.of_degrees("37.5").turns
    Fraction(5, 48)
    """

    turns: Fraction

    def __post_init__(self) -> None:
        object.__setattr__(self, "turns", exact(self.turns))

    @classmethod
    def of_degrees(cls, value: int | Fraction | str) -> Angle:
        """Make an angle from degrees.

        Examples
        --------
        >>> Angle.of_degrees(90)
        Angle(turns=Fraction(1, 4))
        """
        return cls(exact(value) / 360)

    @property
    def degrees(self) -> Fraction:
        """The angle in degrees, exactly.

        Examples
        --------
        >>> Angle(Fraction(1, 7)).degrees
        Fraction(360, 7)
        """
        return self.turns * 360

    @property
    def arcsec(self) -> Fraction:
        """The angle in seconds of arc, exactly.

        Examples
        --------
        >>> Angle(Fraction(1, 1296000)).arcsec
        Fraction(1, 1)
        """
        return self.turns * ARCSEC_PER_TURN

    def __mul__(self, factor: int | Fraction) -> Angle:
        return Angle(self.turns * exact(factor))

    __rmul__ = __mul__

    def __sub__(self, other: object) -> Angle:
        return Angle(self.turns - other.turns) if isinstance(other, Angle) else NotImplemented


def sexagesimal_text(angle: Angle, places: int = 0) -> str:
    """Write degrees, minutes and seconds, rounded first and split after, so that 60 never appears.

    Parameters
    ----------
    angle : Angle
        The angle, of either sign.
    places : int, optional
        Decimal places of the seconds.

    Returns
    -------
    str
        Text such as ``37° 30' 00"``.

    Examples
    --------
    >>> print(sexagesimal_text(Angle(Fraction(1, 7))))
    51° 25' 43"
    >>> print(sexagesimal_text(Angle.of_degrees("59.99999")))
    60° 00' 00"
    """
    units = round_half_even(abs(angle.arcsec), places)
    minutes, second_units = divmod(units, 60 * 10**places)
    degrees, minutes = divmod(minutes, 60)
    seconds = decimal_text(Fraction(second_units, 10**places), places)
    width = 2 + (places + 1 if places else 0)
    sign = "-" if angle.turns < 0 and units else ""
    return f"{sign}{degrees}° {minutes:02d}' {seconds.rjust(width, '0')}\""
