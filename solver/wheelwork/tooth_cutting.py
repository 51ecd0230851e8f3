"""Cutting the teeth of a spur wheel: blank, depth, which cutter of the involute set, and where undercut begins."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from solver.helices.cutter_ranges import cutter_for
from solver.quantities.angles import Angle
from solver.quantities.figure_reader import FigureReader
from solver.quantities.lengths import Length
from solver.quantities.pitches import figure_text
from solver.quantities.written_lengths import read_wheel_module, read_wheel_size
from solver.refusals import ImpossibleSettingError
from solver.worms.tooth_sizes import INCH_CLEARANCE, INCH_FLANK, MODULE_CLEARANCE, MODULE_FLANK
from solver.worms.worm_wheel import least_teeth

#: Fewest teeth the set of eight cutters is shaped for. [teeth]
SET_BEGINS = 12
#: Cutters in the set.
SET_OF = 8


@dataclass(frozen=True, slots=True)
class SpurTooth:
    """The size of tooth of all wheels of a train, full depth.

    Parameters
    ----------
    told : str
        As the person wrote it, a DP behind its figure: ``module 0.5`` or ``48 DP``.
    module : Length
        Pitch diameter for one tooth.
    is_dp : bool
        A diametral pitch: cutters numbered from 8 at the fewest teeth, the old inch proportions.
    """

    told: str
    module: Length
    is_dp: bool

    @property
    def usual_flank(self) -> Angle:
        """Pressure angle where none is given: 14.5 degrees for diametral pitches, 20 for modules.

        Examples
        --------
        >>> SpurTooth("48 DP", Length.of_inches("1/48"), is_dp=True).usual_flank.degrees
        Fraction(29, 2)
        """
        return INCH_FLANK if self.is_dp else MODULE_FLANK

    @property
    def whole_depth(self) -> Length:
        """Depth of cut: 2.25 modules, or 2.157 over the diametral pitch.

        Examples
        --------
        >>> SpurTooth("module 1", Length.of_mm(1), is_dp=False).whole_depth
        Length(mm=Fraction(9, 4))
        """
        return self.module * (2 + (INCH_CLEARANCE if self.is_dp else MODULE_CLEARANCE))

    def outside(self, teeth: int) -> Length:
        """Give the diameter of the blank: two modules over the pitch diameter.

        Examples
        --------
        >>> SpurTooth("module 0.5", Length.of_mm("0.5"), is_dp=False).outside(60)
        Length(mm=Fraction(31, 1))
        """
        return self.module * (teeth + 2)

    def centre_distance(self, teeth: int) -> Length:
        """Give the distance of two arbors whose wheels have so many teeth together.

        Examples
        --------
        >>> SpurTooth("module 0.5", Length.of_mm("0.5"), is_dp=False).centre_distance(96)
        Length(mm=Fraction(24, 1))
        """
        return self.module * Fraction(teeth, 2)

    def cutter(self, teeth: int) -> int | None:
        """Give the number of the cutter for a count, in the numbering of this size; ``None`` below the set.

        Examples
        --------
        >>> tooth = SpurTooth("module 0.5", Length.of_mm("0.5"), is_dp=False)
        >>> tooth.cutter(20), tooth.cutter(127), tooth.cutter(10)
        (3, 7, None)
        """
        if teeth < SET_BEGINS:
            return None
        found = cutter_for(Fraction(teeth))
        return found.dp_number if self.is_dp else found.module_number

    def most_teeth(self, diameter: Length) -> int:
        """Count the most teeth of a blank no larger than a diameter.

        Examples
        --------
        >>> SpurTooth("module 0.5", Length.of_mm("0.5"), is_dp=False).most_teeth(Length.of_mm(60))
        118
        """
        return int(diameter / self.module // 1) - 2

    def fewest_teeth(self, diameter: Length) -> int:
        """Count the fewest teeth of a blank no smaller than a diameter.

        Examples
        --------
        >>> SpurTooth("module 0.5", Length.of_mm("0.5"), is_dp=False).fewest_teeth(Length.of_mm("8.1"))
        15
        """
        return -int(-(diameter / self.module) // 1) - 2


def read_spur_tooth(text: str) -> SpurTooth:
    """Read the size of tooth of a train.

    Examples
    --------
    >>> tooth = read_spur_tooth("48 DP")
    >>> tooth.module.inches, tooth.is_dp
    (Fraction(1, 48), True)
    >>> read_spur_tooth("DP 48").told
    '48 DP'
    """
    figure, is_dp = read_wheel_size(text)
    told = " ".join(text.split())
    if is_dp and not FigureReader(text).starts_number():
        told = f"{figure_text(figure)} DP"
    return SpurTooth(told, read_wheel_module(text), is_dp=is_dp)


def read_cutters(text: str) -> tuple[int, ...]:
    """Read the numbers of the cutters at hand: ``1-8``, ``2,4,6`` or ``1-3, 8``.

    Raises
    ------
    UnreadableFigureError
        Not numbers of 1 to 8, or a run that goes down.

    Examples
    --------
    >>> read_cutters("1-3, 8")
    (1, 2, 3, 8)
    """
    reader = FigureReader(text, "Write 1-8 or 2,4,6.")
    numbers: set[int] = set()
    while True:
        first = _number(reader)
        reader.skip_spaces()
        last = first
        if reader.peek() in ("-", "–"):
            reader.at += 1
            reader.skip_spaces()
            at = reader.at
            last = _number(reader)
            if last < first:
                raise reader.refuse("a run of cutters goes up", at=at)
        numbers.update(range(first, last + 1))
        reader.skip_spaces()
        if reader.is_done():
            return tuple(sorted(numbers))
        if reader.peek() != ",":
            raise reader.refuse("a comma goes between the numbers of cutters")
        reader.at += 1
        reader.skip_spaces()


def _number(reader: FigureReader) -> int:
    at = reader.at
    number = reader.whole()
    if not 1 <= number <= SET_OF:
        raise reader.refuse(f"the cutters of the set are numbered 1 to {SET_OF}", at=at)
    return number


def clean_from(flank: Angle) -> int:
    """Count the fewest teeth of a full-depth wheel that a straight-flanked tool cuts without undercut.

    Raises
    ------
    ImpossibleSettingError
        No flank of a gear tooth.

    Examples
    --------
    >>> clean_from(Angle.of_degrees(20)), clean_from(Angle.of_degrees("14.5"))
    (18, 32)
    """
    if not 10 <= flank.degrees <= 30:
        raise ImpossibleSettingError(
            "a pressure angle of a spur wheel is 10 to 30 degrees", help_text="Write for example 20 deg or 14.5 deg."
        )
    return least_teeth(Fraction(1), flank)
