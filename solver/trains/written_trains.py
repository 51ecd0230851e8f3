"""Reading a train written as one dash-joined token, spindle side first."""

from __future__ import annotations

from collections.abc import Sequence

from solver.quantities.figure_reader import FigureReader
from solver.trains.wheels import FEWEST_TEETH, MOST_TEETH, Pair, Train, WheelClass

#: Most wheels read in one train.
MOST_WHEELS = 12
TRAIN_HELP = "Write driver-driven-driver-driven from the spindle side, for example 40-80-50-127."


def read_train(text: str, classes: Sequence[WheelClass] = ()) -> Train:
    """Read a train such as ``40-80-50-127``: driver, driven, driver, driven.

    Parameters
    ----------
    text : str
        Even number of tooth counts joined by dashes.
    classes : sequence of WheelClass, optional
        The box; a pair is given the first class that holds both of its wheels, else the first class.

    Returns
    -------
    Train
        As written; whether the wheels are in a box is another question.

    Raises
    ------
    UnreadableFigureError
        Not whole numbers, an odd number of them, or a wheel with too few or too many teeth.

    Examples
    --------
    >>> read_train("40-80-50-127").ratio
    Fraction(25, 127)
    """
    reader = FigureReader(text)
    teeth = [_wheel(reader)]
    while not reader.is_done():
        if reader.peek() not in ("-", "–"):
            raise reader.refuse("wheels are joined by dashes", help_text=TRAIN_HELP)
        reader.at += 1
        reader.skip_spaces()
        teeth.append(_wheel(reader))
    if len(teeth) % 2 or len(teeth) > MOST_WHEELS:
        raise reader.refuse(
            f"{len(teeth)} wheels do not make pairs of driver and driven (idlers are left out, {MOST_WHEELS} at most)",
            help_text=TRAIN_HELP,
        )
    return Train(tuple(_pair(driver, driven, classes) for driver, driven in zip(teeth[::2], teeth[1::2], strict=True)))


def _pair(driver: int, driven: int, classes: Sequence[WheelClass]) -> Pair:
    for number, wheel_class in enumerate(classes):
        held = {teeth for teeth, _ in wheel_class.stock}
        if driver in held and driven in held:
            return Pair(driver, driven, number)
    return Pair(driver, driven)


def _wheel(reader: FigureReader) -> int:
    at = reader.at
    if not reader.starts_number():
        raise reader.refuse("a tooth count was expected here", help_text=TRAIN_HELP)
    teeth = reader.whole()
    reader.skip_spaces()
    if not FEWEST_TEETH <= teeth <= MOST_TEETH:
        raise reader.refuse(f"a change wheel has {FEWEST_TEETH} to {MOST_TEETH} teeth", at=at)
    return teeth
