"""The tolerance of a fit, beside which a lead error is judged."""

from __future__ import annotations

from typing import NamedTuple

from solver.quantities.lengths import Length


class FitTolerance(NamedTuple):
    """A tolerance of pitch diameter; `given` makes one. What a class allows is known to the rooms of threads.

    Parameters
    ----------
    width : Length
        From the least pitch diameter to the greatest.
    source : str
        Where it comes from, in a few words.
    """

    width: Length
    source: str

    @classmethod
    def given(cls, width: Length, source: str) -> FitTolerance:
        """Take a tolerance as it is.

        Raises
        ------
        ValueError
            It is not above zero.

        Examples
        --------
        >>> FitTolerance.given(Length.of_mm("0.132"), "class 6g").width
        Length(mm=Fraction(33, 250))
        """
        if width.mm <= 0:
            message = f"a tolerance is above zero, not {width.mm} mm"
            raise ValueError(message)
        return cls(width, source)
