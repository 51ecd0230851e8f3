"""Dividing without a head: holes or teeth that lock a lathe spindle, a change wheel with a detent, collet blocks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from operator import itemgetter

from solver.dividing.heads import Head
from solver.refusals import ImpossibleSettingError
from solver.trains.lathe import Lathe
from solver.trains.wheels import WheelClass

#: Faces of the blocks that hold a collet in a vice.
COLLET_BLOCKS = (("square", 4), ("hex", 6))


@dataclass(frozen=True, slots=True)
class StopSetting:
    """One way to stop the spindle at equal parts of a turn.

    Parameters
    ----------
    stops : int
        Places in which it can be locked, for one turn of the spindle.
    step : int
        Places from one mark to the next.
    divisions : int
        Marks in one turn.
    on_spindle : int or None
        Change wheel on the spindle, where one is used.
    on_stud : tuple of (int, int) or None
        Where the detent counts on a stud: the wheel in mesh with the one on the spindle, and the wheel beside it
        that the detent enters.
    """

    stops: int
    step: int
    divisions: int
    on_spindle: int | None = None
    on_stud: tuple[int, int] | None = None

    @property
    def counted_wheel(self) -> int | None:
        """Teeth of the wheel that the detent enters; ``None`` when it enters the spindle's own holes.

        Examples
        --------
        >>> StopSetting(60, 5, 12).counted_wheel is None
        True
        """
        return self.on_stud[1] if self.on_stud else self.on_spindle

    def places(self) -> tuple[int, ...]:
        """List the place of each mark from 0, on the spindle's holes or on the wheel the detent enters.

        Examples
        --------
        >>> StopSetting(60, 15, 4).places()
        (0, 15, 30, 45, 0)
        """
        around = self.counted_wheel or self.stops
        return tuple(number * self.step % around for number in range(self.divisions + 1))


def stops_of_spindle(lathe: Lathe, divisions: int) -> tuple[StopSetting, ...]:
    """Find which rows of holes or teeth of the spindle itself divide a count, the largest first.

    Raises
    ------
    ImpossibleSettingError
        The lathe has no stops, or none divides the count; those it does divide are named.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> lathe = Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, (), spindle_stops=(60,))
    >>> stops_of_spindle(lathe, 12)[0].step
    5
    """
    if not lathe.spindle_stops:
        raise ImpossibleSettingError(
            "this lathe has no holes or teeth that lock its spindle",
            help_text="Write them in its file: [spindle_stops] counts = [60].",
        )
    found = tuple(
        StopSetting(stops, stops // divisions, divisions)
        for stops in sorted(set(lathe.spindle_stops), reverse=True)
        if stops % divisions == 0
    )
    if not found:
        raise ImpossibleSettingError(
            f"the spindle's stops ({_listed(lathe.spindle_stops)}) do not go into {divisions} equal steps",
            help_text=f"They divide {_listed(_divisors(lathe.spindle_stops))}.",
        )
    return found


def wheels_with_detent(lathe: Lathe, divisions: int, *, most: int = 6) -> tuple[StopSetting, ...]:
    """Find change wheels that divide a count when a detent enters their teeth.

    A wheel on the spindle alone, where one does it. Else one wheel on the spindle in mesh with a second on a
    stud, whose neighbour on the same stud the detent enters.

    Parameters
    ----------
    lathe : Lathe
        Its box of wheels.
    divisions : int
        Marks in one turn of the spindle.
    most : int, optional
        How many to return.

    Returns
    -------
    tuple of StopSetting
        Single wheels by falling teeth; or trains, the coarsest steps first, one for each number of stops.

    Raises
    ------
    ImpossibleSettingError
        No wheel and no pair of wheels in the box divides the count.

    Examples
    --------
    >>> from solver.quantities.lengths import Length
    >>> box = WheelClass("module 1", Length.of_mm(1), ((20, 1), (50, 1), (65, 1)))
    >>> lathe = Lathe("small", "3 mm", Length.of_mm(3), Fraction(1), True, (box,))
    >>> [each.on_spindle for each in wheels_with_detent(lathe, 13)][0]
    65
    >>> wheels_with_detent(lathe, 26)[0]
    StopSetting(stops=26, step=1, divisions=26, on_spindle=20, on_stud=(50, 65))
    """
    teeth = sorted({each for box in lathe.wheel_classes for each, _ in box.stock}, reverse=True)
    single = [
        StopSetting(each, each // divisions, divisions, on_spindle=each) for each in teeth if each % divisions == 0
    ]
    if single:
        return tuple(single[:most])
    pairs = sorted(
        (each for box in lathe.wheel_classes for each in _on_a_stud(box, lathe.wheel_classes, divisions)),
        key=itemgetter(0),
    )
    # Settings with the same stops differ only in which wheel stands where; the first of each is enough.
    found = tuple({each.stops: each for _, each in reversed(pairs)}.values())[::-1]
    if not found:
        raise ImpossibleSettingError(
            f"no wheel of this box divides {divisions} with a detent, nor does a wheel on the spindle "
            "geared to one on a stud",
            help_text=f"A wheel of {divisions} teeth, or a multiple, would do it.",
        )
    return found[:most]


def _on_a_stud(
    box: WheelClass, classes: Iterable[WheelClass], divisions: int
) -> Iterable[tuple[tuple[int, ...], StopSetting]]:
    """Yield pairs in mesh from one class, and a counted wheel of any class on the same stud, with what ranks them.

    A wheel in mesh with its like, or counted beside its like, has the stops of one wheel alone.
    """
    counted = [(other, wheel) for other in classes for wheel, _ in other.stock]
    for spindle, _ in box.stock:
        for stud, _ in box.stock:
            for other, wheel in counted:
                needed = [spindle, stud, *([wheel] if other is box else [])]
                if any(dict(box.stock)[each] < needed.count(each) for each in needed):
                    continue
                step = Fraction(spindle * wheel, stud) / divisions
                if step.denominator == 1:
                    setting = StopSetting(int(step) * divisions, int(step), divisions, spindle, (stud, wheel))
                    yield (-setting.step, -wheel, -spindle), setting


@dataclass(frozen=True, slots=True)
class BlockSetting:
    """A collet block turned over in the vice.

    Parameters
    ----------
    shape : str
        The block: square or hex.
    faces : int
        Its faces.
    step : int
        Faces from one cut to the next.
    """

    shape: str
    faces: int
    step: int


def collet_blocks(divisions: int) -> tuple[BlockSetting, ...]:
    """Find the collet blocks that divide a count.

    Raises
    ------
    ImpossibleSettingError
        Neither block has a multiple of so many faces.

    Examples
    --------
    >>> collet_blocks(2)
    (BlockSetting(shape='square', faces=4, step=2), BlockSetting(shape='hex', faces=6, step=3))
    """
    found = tuple(
        BlockSetting(shape, faces, faces // divisions) for shape, faces in COLLET_BLOCKS if faces % divisions == 0
    )
    if not found:
        raise ImpossibleSettingError(
            f"no collet block divides {divisions}: a square one divides 1, 2 and 4, a hex one 1, 2, 3 and 6",
            help_text="Use a head, a table or an indexer.",
        )
    return found


@dataclass(frozen=True, slots=True)
class PinPlace:
    """One stop of an indexer whose pin has several places.

    Parameters
    ----------
    number : int
        Mark, counted from 0.
    hole : int
        Hole of the spindle, counted from 0.
    place : int
        Place of the pin, counted from 0.
    """

    number: int
    hole: int
    place: int


def pin_places(head: Head, divisions: int) -> tuple[PinPlace, ...]:
    """List hole and pin place of each mark on an indexer whose pin places part one space of its holes.

    Parameters
    ----------
    head : Head
        With direct circles and pin places.
    divisions : int
        Marks in one turn.

    Returns
    -------
    tuple of PinPlace
        Marks 0 to ``divisions``, the last on the first again.

    Raises
    ------
    ImpossibleSettingError
        The head has no pin places, or holes times places is no multiple of the count.

    Examples
    --------
    >>> head = Head("indexer", Fraction(1), (), (36,), has_worm=False, pin_places=10)
    >>> pin_places(head, 8)[1]
    PinPlace(number=1, hole=4, place=5)
    """
    if head.pin_places is None or not head.direct_circles:
        raise ImpossibleSettingError(
            "this head has no row of pin places that parts the spaces of its own holes",
            help_text="Write it in its file: direct_circles = [36] and pin_places = 10.",
        )
    for circle in sorted(set(head.direct_circles), reverse=True):
        every = circle * head.pin_places
        if every % divisions == 0:
            steps = (number * (every // divisions) for number in range(divisions + 1))
            return tuple(
                PinPlace(number, step // head.pin_places % circle, step % head.pin_places)
                for number, step in enumerate(steps)
            )
    counts = [circle * head.pin_places for circle in head.direct_circles]
    raise ImpossibleSettingError(
        f"holes times pin places ({_listed(counts)}) do not go into {divisions} equal steps",
        help_text=f"They divide {_listed(_divisors(counts))}.",
    )


def _divisors(counts: Iterable[int]) -> list[int]:
    return sorted({each for count in counts for each in range(1, count + 1) if count % each == 0})


def _listed(numbers: Iterable[int]) -> str:
    return ", ".join(map(str, numbers))
