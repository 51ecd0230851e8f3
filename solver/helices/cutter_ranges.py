"""The set of eight involute gear cutters: the range of teeth first, for the two numberings run opposite ways."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from solver.refusals import ImpossibleSettingError

#: Fewest teeth of each cutter, from the fewest up; well known, from memory of the trade's tables.
_FEWEST = (12, 14, 17, 21, 26, 35, 55, 135)


class CutterRange(NamedTuple):
    """One cutter of the set.

    Parameters
    ----------
    fewest : int
        Teeth it is shaped for.
    most : int or None
        Last count it serves; ``None`` up to a rack.
    dp_number : int
        Its number in a diametral pitch set, where 8 cuts the fewest teeth.
    module_number : int
        Its number in a module set, where 1 cuts the fewest.
    """

    fewest: int
    most: int | None
    dp_number: int
    module_number: int


def cutter_for(virtual: Fraction) -> CutterRange:
    """Choose the cutter for a virtual count; between two ranges the lower serves.

    Parameters
    ----------
    virtual : Fraction
        Teeth, or virtual teeth of a helical gear.

    Returns
    -------
    CutterRange
        The range that holds it.

    Raises
    ------
    ImpossibleSettingError
        Below 12: the set has no such cutter.

    Examples
    --------
    >>> cutter_for(Fraction(12)), cutter_for(Fraction(273, 2)).module_number
    (CutterRange(fewest=12, most=13, dp_number=8, module_number=1), 8)
    """
    if virtual < _FEWEST[0]:
        raise ImpossibleSettingError(
            f"the set of eight cutters begins at {_FEWEST[0]} teeth", help_text="More teeth or a greater helix angle."
        )
    place = max(place for place, fewest in enumerate(_FEWEST) if fewest <= virtual)
    most = _FEWEST[place + 1] - 1 if place + 1 < len(_FEWEST) else None
    return CutterRange(_FEWEST[place], most, len(_FEWEST) - place, place + 1)
