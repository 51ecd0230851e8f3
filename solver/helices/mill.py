"""The mill as a head file describes it: table screw, head, and the wheels between them.

On the mill the table screw drives and the work is driven, so the ratio stands on its head against the lathe's.
Seen from the work it is the same arithmetic: the head's worm stands where the lathe's spindle stands, the table
screw is the leadscrew, and with equal wheels one turn of the work takes worm ratio times table lead.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from solver.dividing.heads import Head
from solver.quantities.lengths import Length
from solver.refusals import ImpossibleSettingError
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass


class Drive(Enum):
    """Where the last wheel sits; the value is the word of the trade."""

    WORM = "worm"
    SPINDLE = "spindle"


@dataclass(frozen=True, slots=True)
class Mill:
    """A table screw and a head with wheels.

    Parameters
    ----------
    name : str
        Of the head.
    worm_ratio : Fraction
        Crank turns for one turn of the work.
    table_lead : Length
        Of the table screw.
    stock : tuple of (int, int)
        Wheels as teeth and count.
    """

    name: str
    worm_ratio: Fraction
    table_lead: Length
    stock: tuple[tuple[int, int], ...]

    def machine_lead(self, drive: Drive = Drive.WORM) -> Length:
        """Return the lead cut with equal wheels.

        Examples
        --------
        >>> mill = Mill("40:1", Fraction(40), Length.of_inches("1/4"), ())
        >>> mill.machine_lead().inches, mill.machine_lead(Drive.SPINDLE).inches
        (Fraction(10, 1), Fraction(1, 4))
        """
        return self.table_lead * (self.worm_ratio if drive is Drive.WORM else 1)

    def seen_from_the_work(self, drive: Drive = Drive.WORM) -> Lathe:
        """Return the mill as a lathe whose spindle is the head's worm and whose leadscrew is the table screw.

        The wheels of a head have one size, which its file does not give: one millimetre stands in for it, and
        cancels out of every rule that is counted in teeth.

        Examples
        --------
        >>> mill = Mill("40:1", Fraction(40), Length.of_inches("1/4"), ((24, 2),))
        >>> mill.seen_from_the_work().lead_at_equal_wheels.inches
        Fraction(10, 1)
        """
        box = (WheelClass("wheels of the head", Length.of_mm(1), self.stock),)
        lead = self.machine_lead(drive)
        return Lathe(self.name, f"{lead.mm} mm", lead, Fraction(1), has_reverse=False, wheel_classes=box)


def mill_of(head: Head) -> Mill:
    """Take the table screw and wheels out of a head's file.

    Raises
    ------
    ImpossibleSettingError
        The file gives no wheels, or no table screw.

    Examples
    --------
    >>> mill_of(Head("small", Fraction(40), (), wheels=((24, 2),), table_lead=Length.of_mm(5))).machine_lead()
    Length(mm=Fraction(200, 1))
    """
    missing = []
    if not head.wheels:
        missing.append("[wheels] with teeth = { 24 = 2, 28 = 1 }")
    if head.table_lead is None:
        missing.append('[table] with lead = "4 tpi"')
    if missing or head.table_lead is None:
        raise ImpossibleSettingError(
            f"a helix needs wheels from the table screw, which the file of '{head.name}' does not describe",
            help_text=f"Add {' and '.join(missing)} to it.",
        )
    return Mill(head.name, head.worm_ratio, head.table_lead, head.wheels)
